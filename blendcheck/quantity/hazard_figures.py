"""Figures beside a hazard class: specific concentration limits and toxicities."""

import re
from fractions import Fraction
from typing import Final, Literal

from blendcheck.errors import InputError, QuestionError
from blendcheck.frozen import Frozen
from blendcheck.interval import Range
from blendcheck.quantity.bounds import with_signs
from blendcheck.quantity.cleaning import clean, shown
from blendcheck.quantity.hazards import (
    NOT_CLASSIFIED,
    HazardClassText,
    read_hazard_class,
)
from blendcheck.quantity.numbers import Parts, range_of, span
from blendcheck.quantity.percents import read_percent
from blendcheck.quantity.refusals import refusal

__all__ = [
    "ROUTE_UNITS",
    "Route",
    "SpecificLimit",
    "Toxicity",
    "read_specific_limit",
    "read_toxicity",
]

Route = Literal["oral", "dermal", "gas", "vapour", "dust and mist"]

ROUTE_UNITS: Final[dict[Route, str]] = {
    "oral": "mg/kg",
    "dermal": "mg/kg",
    "gas": "ppm",
    "vapour": "mg/L",
    "dust and mist": "mg/L",
}
"""Routes of acute toxicity with the unit of their figures."""


class SpecificLimit(Frozen):
    """A specific concentration limit as printed.

    Parameters
    ----------
    printed : str
        The text.
    hazard : HazardClassText
        The class that the mixture gets.
    range : Range
        Share of the substance in the mixture for which it gets it. [%]
    """

    printed: str
    hazard: HazardClassText
    range: Range


class Toxicity(Frozen):
    """An acute toxicity figure as printed: an LD50, LC50 or estimate.

    Parameters
    ----------
    printed : str
        The text.
    route : str
        One of :data:`ROUTE_UNITS`.
    range : Range
        The figure; ``> 2000`` has no high end. [mg/kg, mg/L or ppm]
    clean : bool
        Whether the sheet says that at this dose there were no signs.
    """

    printed: str
    route: Route
    range: Range
    clean: bool = False


_LIMIT: Final = (
    r"^(?P<hazard>[^:]*[A-Za-z0-9)])\s*(?:[:;]|,(?= *[cC<>≤≥]))\s*(?P<share>[^:;]+)$"
)
_MIDDLE_C: Final = r"(?<![a-z])c(?:onc)?\.?(?![a-z])"
_SIDE: Final = {"<": ">", "<=": ">=", ">": "<", ">=": "<="}
_TURNED: Final = r"^([0-9.]+ ?%?) ?(<=|<|>=|>) ?c$"
_LEFT: Final = r"^([0-9.]+ ?%?) ?(<=|<|>=|>) ?c ?(<=|<|>=|>) ?(.+)$"


def _share(text: str, plain: str) -> Range:
    """Read "c >= 25 %", "10 % <= c < 25 %" or "10-25 %"."""
    plain = re.sub(_MIDDLE_C, "c", plain)
    both = re.match(_LEFT, plain)
    if both is not None and both[2][0] == both[3][0]:
        low, first, second, high = both.groups()
        if first[0] == ">":
            low, high, first, second = high, low, _SIDE[second], _SIDE[first]
            return read_percent(f"{first} {low} - {second} {high}").range
        return read_percent(f"{_SIDE[first]} {low} - {second} {high}").range
    turned = re.match(_TURNED, plain)
    if turned is not None:
        return read_percent(f"{_SIDE[turned[2]]} {turned[1]}").range
    one = re.match(r"^c ?(.*)$", plain)
    body = plain if one is None else one[1]
    span_read = read_percent(body)
    found = span_read.range
    if found.is_exact:
        raise QuestionError(
            f"{shown(text)} gives one figure, not from where on the class applies",
            "Write it like Skin Sens. 1A, H317: C >= 0.01 %",
            code="limit-from",
        )
    return found


def read_specific_limit(text: str) -> SpecificLimit:
    """Read a specific concentration limit.

    Parameters
    ----------
    text : str
        ``Skin Corr. 1B; H314: C ≥ 25 %``, ``Skin Irrit. 2, H315: 10 % ≤ C < 25 %``.

    Returns
    -------
    SpecificLimit
        The class and the shares for which it holds. [%]

    Raises
    ------
    QuestionError
        ``limit-from`` for one bare figure; as
        :func:`~blendcheck.quantity.hazards.read_hazard_class`.
    InputError
        ``limit-form`` if class and share are not told apart; as
        :func:`~blendcheck.quantity.read_percent`.

    Examples
    --------
    >>> read_specific_limit("Skin Sens. 1A; H317: C >= 0.01 %").range.low
    Fraction(1, 100)
    """
    found = re.match(_LIMIT, " ".join(text.split()))
    if found is None:
        raise InputError(
            f"{shown(text)} is not read as a specific limit",
            "Write the class, a colon and the share: Eye Irrit. 2, H319: C >= 20 %",
            code="limit-form",
        )
    hazard = read_hazard_class(found["hazard"])
    if hazard.name == NOT_CLASSIFIED:
        raise InputError(
            f"{shown(text)} names no class", "Write the class", code="limit-form"
        )
    return SpecificLimit(text, hazard, _share(text, clean(found["share"])))


# -- acute toxicity --------------------------------------------------------

_CLEAN: Final = r"[,;( ]*(?:and )?no (?:clinical )?signs(?: of toxicity)?\)?$"
_KIND: Final = r"\b(?:ate(?:mix)?|acute toxicity estimate|l[dc] ?50|limit dose)\b"
_FIGURE: Final = (
    r"(?:<|>|\b(?:up to|more than|greater than|less than|at least|at most|above|below"
    r"|over|under|not more than|not less than) )? ?[=<>]* ?[0-9.]"
)
_TAIL: Final = {
    "mg/kg": "mg/kg",
    "mg/kg bw": "mg/kg",
    "mg/kg bodyweight": "mg/kg",
    "mg/kg body weight": "mg/kg",
    "mg/l": "mg/L",
    "mg/l/4h": "mg/L",
    "mg/l (4 h)": "mg/L",
    "mg/l 4 h": "mg/L",
    "mg/l 4h": "mg/L",
    "mg/l, 4 h": "mg/L",
    "ppm": "ppm",
    "ppmv": "ppm",
    "ppm (4 h)": "ppm",
}
_FORMS: Final[dict[str, Route]] = {
    **dict.fromkeys(("vapour", "vapours", "vapor", "vapors"), "vapour"),
    **dict.fromkeys(("mist", "mists", "dust", "dusts"), "dust and mist"),
    **dict.fromkeys(("gas", "gases"), "gas"),
    "oral": "oral",
    "swallowed": "oral",
    "dermal": "dermal",
    "skin": "dermal",
}
_SAID_BESIDE: Final = frozenset(
    (
        *("inhalation", "inhaled", "rat", "rats", "rabbit", "rabbits", "mouse", "mice"),
        *("and", "or", "toxicity", "route", "acute"),
    )
)


_BEHIND: Final = (
    r"[ ,;(]+((?:(?:" + "|".join([*_FORMS, *_SAID_BESIDE]) + r")[ ,/:-]*)+)\)?$"
)


def _halves(text: str, plain: str) -> tuple[str, str]:
    """Part the route from the figure; a sheet may print it on either side."""
    body = re.sub(_KIND, " ", plain).replace(" / ", "/")
    figure_at = re.search(_FIGURE, body)
    if figure_at is None:
        raise refusal(text, plain, "a toxicity", "oral 1680 mg/kg")
    head, figure = body[: figure_at.start()], body[figure_at.start() :]
    behind = re.search(_BEHIND, figure)
    if behind is None:
        return head, figure
    return f"{head} {behind[1]}", figure[: behind.start()]


def _route(text: str, head: str) -> Route:
    said = re.findall(r"[a-z]+", head)
    routes = {_FORMS[word] for word in said if word in _FORMS}
    if not set(said) <= _FORMS.keys() | _SAID_BESIDE or (not routes and not said):
        raise refusal(text, clean(text), "a toxicity", "oral 1680 mg/kg")
    if len(routes) > 1:
        raise InputError(
            f"{shown(text)} names two routes",
            "Write one line for each route",
            code="toxicity-routes",
        )
    if not routes:
        raise QuestionError(
            f"{shown(text)} does not say in which form it is breathed",
            "Write inhalation vapour, inhalation mist or inhalation gas, as the sheet",
            code="toxicity-form",
        )
    return routes.pop()


def _unit(text: str, parts: Parts, route: Route) -> None:
    unit = _TAIL.get(parts[6])
    if unit is None:
        if parts[6]:
            raise refusal(text, clean(text), "a toxicity", "oral 1680 mg/kg")
        raise QuestionError(
            f"{shown(text)} has no unit",
            f"Write it with its unit, here {ROUTE_UNITS[route]}",
            code="unit-missing",
        )
    if unit != ROUTE_UNITS[route]:
        raise InputError(
            f"{shown(text)}: {unit} is no unit of this route",
            f"{route} figures are in {ROUTE_UNITS[route]}; compare it with the sheet",
            code="toxicity-unit",
        )


def read_toxicity(text: str) -> Toxicity:
    """Read an acute toxicity figure: LD50, LC50 or ATE.

    Parameters
    ----------
    text : str
        ``oral 1680 mg/kg``, ``LD50 dermal > 5000 mg/kg``, ``ATE inhalation vapour 11
        mg/L``, ``oral > 2000 mg/kg, no signs of toxicity``.

    Returns
    -------
    Toxicity
        Route, figure and whether it was a dose without signs.

    Raises
    ------
    QuestionError
        ``toxicity-form`` for "inhalation" alone, ``unit-missing``, and as
        :func:`~blendcheck.quantity.numbers.number`.
    InputError
        ``toxicity-unit``, ``toxicity-routes``, ``out-of-range`` at 0, ``unreadable``.

    Examples
    --------
    >>> read_toxicity("oral 1680 mg/kg").range.low
    Fraction(1680, 1)
    """
    plain = clean(text)
    rest = re.sub(_CLEAN, "", plain)
    head, body = _halves(text, rest)
    route = _route(text, head)
    parts = span(with_signs(body.strip(" =")))
    if parts is None:
        raise refusal(text, plain, "a toxicity", "oral 1680 mg/kg")
    _unit(text, parts, route)
    figure = range_of(
        text, parts, limits=(Fraction(0), None), rule="above 0", convert=None
    )
    if figure.high == 0 or (figure.low == 0 and figure.is_exact):
        raise InputError(
            f"{shown(text)} must be above 0",
            "Compare it with the sheet",
            code="out-of-range",
        )
    return Toxicity(text, route, figure, clean=rest != plain)
