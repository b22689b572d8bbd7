"""Flash point of an oil, or of the oils that are weighed together: an estimate.

It is made only from full reports that were copied whole. What a report leaves open,
and what lacks a figure and is unknown or a light hydrocarbon, counts as alpha-pinene
at the low end, up to :data:`MOST_UNLISTED` of the blend. A named constituent that
lacks a figure but is heavy enough never to be lighter than 1,8-cineole counts as that
at the low end, up to :data:`MOST_BRACKETED`: refusing every oil with some menthofuran
would help nobody, and the range shows what it costs. At the high end neither burns.
Anything more is refused, by name. A measured or supplier's figure always wins.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from math import ceil, floor, isfinite
from typing import Final

import numpy as np

from blendcheck.blend.totals import Totals
from blendcheck.equations.constants import ZERO_CELSIUS
from blendcheck.equations.flash import MODEL_ERROR, flash_point
from blendcheck.errors import DomainError
from blendcheck.estimates.bottles import as_sold, mixed_in
from blendcheck.estimates.compositions import Lot, Weighed, weighed
from blendcheck.estimates.ends import end_of
from blendcheck.estimates.mixing import (
    Mixture,
    Open,
    mixture_of,
    shares_at_most,
)
from blendcheck.estimates.parts import ALPHA_PINENE, Part, activity_of, part_of
from blendcheck.quantity import Mark, print_estimate

__all__ = [
    "CLASS_LIMITS",
    "MOST_BRACKETED",
    "MOST_UNLISTED",
    "BlendFlash",
    "flash_of",
    "flash_of_oils",
    "flash_of_parts",
    "flash_of_weighed",
]

CLASS_LIMITS: Final = (23.0, 60.0, 93.0)
"""Flash points at which classes of flammable liquids begin or end. [°C]
From source id ``clp-2025``, Table 2.6.1; 93 degC is the UN's category 4, from
memory."""

MOST_UNLISTED: Final = 5.0
"""Share of a blend that may count as alpha-pinene at the low end, at most. [%]"""

MOST_BRACKETED: Final = 10.0
"""Share of named constituents that may count as 1,8-cineole there, at most. [%] Own
choice: twice the above, because the bracket is known and far narrower."""

_METHOD: Final = (
    "sum of x * activity coefficient * P(T) / P(own flash point) = 1, "
    "modified UNIFAC (Dortmund), Liaw's method"
)
_METHOD_SOURCES: Final = ("liaw-2002", "gmehling-1993")
_TRACE: Final = 0.1
_SHOWN: Final = 0.01
_SLACK_K: Final = 0.05
"""What the whole degrees that are shown may leave out. [K]"""

_BLEND: Final = "the blend"


@dataclass(frozen=True, slots=True)
class BlendFlash:
    """An estimated flash point, or why there is none.

    Parameters
    ----------
    says : str
        Of what.
    low, central, high : float or None
        Closed-cup flash point: the ends with the error of the model, and the value
        at the middle of the printed ranges with what lacks a figure left out.
        ``None`` where there is no estimate, or the blend does not flash below
        200 °C. [°C]
    inner : (float, float) or None
        The ends without the error of the model. [°C]
    shares : tuple of (str, float)
        Each constituent's share of Le Chatelier's sum, from the largest. [-]
    opened : tuple of Open
        What lacks a figure, and what it was taken for.
    refused : tuple of Open
        What makes an estimate impossible; empty where there is one.
    may_split : bool
        Whether the liquid may separate into two.
    sources : tuple of str
        Source ids of flash points and pressures, the first named most telling.
    marks : frozenset of Mark
        Doubts.
    recalled : tuple of str
        Constituents whose own flash point is from memory.
    lots : tuple of (Lot, float, float)
        What the estimate is of, as it stands in the bottle. [g]
    """

    says: str
    low: float | None = None
    central: float | None = None
    high: float | None = None
    inner: tuple[float, float] | None = None
    shares: tuple[tuple[str, float], ...] = ()
    opened: tuple[Open, ...] = ()
    refused: tuple[Open, ...] = ()
    may_split: bool = False
    sources: tuple[str, ...] = ()
    marks: frozenset[Mark] = frozenset({Mark.ESTIMATED})
    recalled: tuple[str, ...] = ()
    lots: tuple[tuple[Lot, float, float], ...] = ()

    @property
    def shown(self) -> tuple[int | None, int | None]:
        """The ends in whole °C, outwards: what every sentence speaks of."""
        low, high = self.low, self.high
        return (
            None if low is None else floor(low + _SLACK_K),
            None if high is None else ceil(high - _SLACK_K),
        )

    @property
    def near_limits(self) -> tuple[float, ...]:
        """Limits of classes that the shown range does not keep clear of, in °C."""
        low, high = self.shown
        if low is None:
            return ()
        return tuple(
            each
            for each in CLASS_LIMITS
            if low <= each and (high is None or each <= high)
        )

    @property
    def lines(self) -> tuple[str, ...]:
        """How it was worked out, for the reader."""
        if self.low is None:
            return ()
        shown = ", ".join(
            f"{name} {print_estimate(100 * share, digits=2)} %"
            for name, share in self.shares
            if share >= _SHOWN
        )
        lines = [
            _METHOD,
            f"what makes it flash, share of the sum: {shown}",
            f"error of the model: {print_estimate(MODEL_ERROR)} K either way",
        ]
        lines += [
            f"{one.name}, up to {print_estimate(one.percent, digits=2)} % "
            f"({one.lack}): at the low end taken for "
            f"{'alpha-pinene' if one.taken_for == ALPHA_PINENE else '1,8-cineole'}, "
            "at the high end as not burning"
            for one in self.opened
        ]
        if self.recalled:
            lines.append(
                "own flash point from memory, 10 K lower at the low end: "
                + ", ".join(self.recalled)
            )
        return tuple(lines)


def flash_of(
    lots: Sequence[tuple[Lot, float, float]], says: str = _BLEND
) -> BlendFlash:
    """Estimate the flash point of lots that are mixed.

    Parameters
    ----------
    lots : sequence of (Lot, float, float)
        Lots and their grams, low to high, both > 0. [g]
    says : str, optional
        What the maker calls it.

    Returns
    -------
    BlendFlash
        With a range, or with what makes it impossible.

    Notes
    -----
    See :func:`blendcheck.equations.flash.flash_point`; source id ``liaw-2002``. Valid
    for: oils in one liquid phase, above 0 °C or so. Departs from the source in: the
    light ends described above.
    """
    unknown = tuple(
        Open(lot.says, "no full report", 100 * share, None)
        for (lot, _, _), share in zip(lots, shares_at_most(lots), strict=True)
        if not lot.is_whole
    )
    if unknown:
        return BlendFlash(says, refused=unknown)
    mixture = mixture_of(lots)
    if not isinstance(mixture, Mixture):
        return BlendFlash(says, opened=mixture, refused=mixture)
    refused = _refused(mixture.opened)
    if refused:
        return BlendFlash(says, opened=mixture.opened, refused=refused)
    marks = frozenset[Mark]().union(*(lot.marks for lot, _, _ in lots))
    return replace(_estimate(mixture, says, marks), lots=tuple(lots))


def _refused(opened: Sequence[Open]) -> tuple[Open, ...]:
    """Return what makes an estimate impossible."""
    small = tuple(o for o in opened if o.taken_for is None and o.percent > _TRACE)
    pinene = tuple(
        o for o in opened if o.taken_for == ALPHA_PINENE or o.taken_for is None
    )
    cineole = tuple(o for o in opened if o not in pinene)
    found = small
    for group, most in ((pinene, MOST_UNLISTED), (cineole, MOST_BRACKETED)):
        if sum(one.percent for one in group) > most:
            found += tuple(one for one in group if one not in found)
    return found


def _estimate(mixture: Mixture, says: str, marks: frozenset[Mark]) -> BlendFlash:
    x = mixture.middle()
    kelvin = float(mixture.kelvin(x, "middle"))
    (x_low, low), (x_high, high) = end_of(mixture, "low"), end_of(mixture, "high")
    # Between the ends what lacks a figure is left out: that can lie just outside.
    low, high = min(low, kelvin), max(high, kelvin)
    found = isfinite(kelvin)
    terms = x * mixture.terms(x, kelvin, "middle") if found else np.zeros(len(x))
    shares = sorted(
        (
            (part.name, float(term))
            for part, term in zip(mixture.parts, terms, strict=False)
        ),
        key=lambda one: -one[1],
    )
    recalled = tuple(
        part.name
        for part in mixture.parts
        if part.figure is not None and part.figure.tag == "memory"
    )
    by_memory = any(part.from_memory for part in mixture.parts)
    order = {name: n for n, (name, _) in enumerate(shares)}
    parts = sorted(mixture.parts, key=lambda part: order[part.name])
    return BlendFlash(
        says,
        _celsius(low, -MODEL_ERROR),
        _celsius(kelvin),
        _celsius(high, MODEL_ERROR),
        (low - ZERO_CELSIUS, high - ZERO_CELSIUS),
        tuple(shares),
        mixture.opened,
        (),
        any(
            isfinite(at) and mixture.may_split(one, at)
            for one, at in ((x, kelvin), (x_low, low), (x_high, high))
        ),
        tuple(dict.fromkeys((*_sources(parts, mixture), *_METHOD_SOURCES))),
        marks | {Mark.ESTIMATED} | ({Mark.FROM_MEMORY} if by_memory else frozenset()),
        recalled,
    )


def _sources(parts: Sequence[Part], mixture: Mixture) -> Iterator[str]:
    """Yield source ids of the parts, and of the light ends where they went in."""
    for part in parts:
        yield from part.sources
    taken = {one.taken_for for one in mixture.opened}
    for part in mixture.everything[mixture.known :]:
        if part.cas in taken:
            yield from part.sources


def _celsius(kelvin: float, error: float = 0.0) -> float | None:
    return kelvin - ZERO_CELSIUS + error if isfinite(kelvin) else None


def flash_of_parts(percents: Mapping[str, float]) -> float | None:
    """Estimate the flash point of one exactly known liquid, water included.

    Parameters
    ----------
    percents : mapping of str to float
        Shares by CAS number, > 0, by weight; they are scaled to 100. [%]

    Returns
    -------
    float or None
        Flash point, without any range; ``None`` where it does not flash below
        200 °C. [°C]

    Raises
    ------
    DomainError
        If a part lacks a figure, or two groups have no published interaction.

    Examples
    --------
    Ethanol alone, then 40 % of it by weight in water:

    >>> flash_of_parts({"64-17-5": 100.0})
    12.00
    >>> 20 < flash_of_parts({"64-17-5": 40.0, "7732-18-5": 60.0}) < 30
    True
    """
    parts: list[Part] = []
    for cas in percents:
        part = part_of(cas)
        if not isinstance(part, Part):
            raise DomainError("part", f"{cas} ({part})", "one with all its figures")
        parts.append(part)
    amounts = np.array(
        [p / part.molar_mass for p, part in zip(percents.values(), parts, strict=True)]
    )
    kelvin = float(
        flash_point(
            amounts / amounts.sum(),
            [part.table for part in parts],
            [part.flash for part in parts],
            activity_of(tuple(percents)),
        )
    )
    return _celsius(kelvin)


def flash_of_oils(totals: Totals) -> tuple[tuple[Weighed, BlendFlash], ...]:
    """Estimate the flash point of each scented lot as it stands on the shelf.

    Parameters
    ----------
    totals : Totals
        Totals of a recipe.

    Returns
    -------
    tuple of (Weighed, BlendFlash)
        In the order of the recipe; a lot that is sold diluted in something that lacks
        a figure is refused.
    """
    found: list[tuple[Weighed, BlendFlash]] = []
    for one in weighed(totals):
        sold = as_sold(totals, one)
        says = one.lot.says
        if isinstance(sold, Open):
            found.append((one, BlendFlash(says, refused=(sold,))))
        else:
            found.append((one, flash_of([(sold[0], 1.0, 1.0)], says)))
    return tuple(found)


def flash_of_weighed(totals: Totals) -> BlendFlash | None:
    """Estimate the flash point of the scented lots, weighed together.

    Parameters
    ----------
    totals : Totals
        Totals of a recipe.

    Returns
    -------
    BlendFlash or None
        Without emulsifier and base; refused where an alcohol, a solvent or water goes
        into the same bottle; ``None`` where fewer than two scented lots are used.
    """
    lots = [one for one in weighed(totals) if one.high > 0]
    if len(lots) < 2:
        return None
    beside = mixed_in(totals)
    if beside:
        return BlendFlash(_BLEND, refused=beside)
    sold = [as_sold(totals, one) for one in lots]
    opened = tuple(one for one in sold if isinstance(one, Open))
    if opened:
        return BlendFlash(_BLEND, refused=opened)
    return flash_of([one for one in sold if not isinstance(one, Open)])
