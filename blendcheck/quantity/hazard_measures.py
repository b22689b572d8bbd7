"""One figure beside a hazard class: M-factor, viscosity, pH."""

import re
from fractions import Fraction
from typing import Final

from blendcheck.errors import InputError, QuestionError
from blendcheck.frozen import Frozen
from blendcheck.interval import Range
from blendcheck.quantity.bounds import with_signs
from blendcheck.quantity.cleaning import clean, shown
from blendcheck.quantity.numbers import range_of, span
from blendcheck.quantity.refusals import refusal

__all__ = ["Measure", "read_acidity", "read_factor", "read_viscosity"]


class Measure(Frozen):
    """A printed figure with its range, in the unit of its reader."""

    printed: str
    range: Range


_VISCOSITY: Final = r"^(?:kinematic )?viscosity ?[:=]? ?"
_VISCOSITY_UNIT: Final = (
    r"(?:mm(?:2|\^2)/s|cst)(?:[ ,]*\(?(?:at |@ ?)?(?P<at>[0-9.]+) ?(?:°c|c|degc)\)?)?"
)
_FORTY: Final = "40"


def read_viscosity(text: str) -> Measure:
    """Read a kinematic viscosity at 40 °C.

    Parameters
    ----------
    text : str
        ``1.1 mm2/s``, ``≤ 20.5 mm²/s (40 °C)``, ``> 20.5 cSt``.

    Returns
    -------
    Measure
        The range. [mm2/s]

    Raises
    ------
    QuestionError
        ``unit-missing``.
    InputError
        ``viscosity-temperature`` at another temperature, ``unreadable``.

    Examples
    --------
    >>> read_viscosity("<= 20.5 mm2/s at 40 °C").range.high
    Fraction(41, 2)
    """
    plain = re.sub(_VISCOSITY, "", clean(text.replace("²", "2")))
    parts = span(with_signs(plain))
    if parts is None:
        raise refusal(text, plain, "a viscosity", "1.1 mm2/s")
    if not parts[6]:
        raise QuestionError(
            f"{shown(text)} has no unit",
            "Write it in mm2/s at 40 °C (cSt is the same)",
            code="unit-missing",
        )
    unit = re.fullmatch(_VISCOSITY_UNIT, parts[6])
    if unit is None:
        raise refusal(text, plain, "a viscosity", "1.1 mm2/s")
    if unit["at"] is not None and unit["at"].removesuffix(".0") != _FORTY:
        raise InputError(
            f"{shown(text)} is not at 40 °C, and the rule needs it there",
            "Ask the supplier for the kinematic viscosity at 40 °C",
            code="viscosity-temperature",
        )
    return Measure(text, range_of(text, parts, limits=(Fraction(0), None), rule="> 0"))


def read_acidity(text: str) -> Measure:
    """Read a pH.

    Parameters
    ----------
    text : str
        ``1.8``, ``<= 2``, ``pH 2-3``.

    Returns
    -------
    Measure
        The range, within 0 and 14.

    Raises
    ------
    InputError
        ``out-of-range``, ``unreadable``.

    Examples
    --------
    >>> read_acidity("pH 1.8").range.low
    Fraction(9, 5)
    """
    plain = re.sub(r"^ph ?[:=]? ?", "", clean(text))
    parts = span(with_signs(plain))
    if parts is None or parts[6]:
        raise refusal(text, plain, "a pH", "4.5")
    limits = (Fraction(0), Fraction(14))
    return Measure(text, range_of(text, parts, limits=limits, rule="between 0 and 14"))


def read_factor(text: str) -> Measure:
    """Read an M-factor.

    Parameters
    ----------
    text : str
        ``10``, ``M = 1``.

    Returns
    -------
    Measure
        One number: 1, 10, 100 and so on.

    Raises
    ------
    InputError
        ``m-factor`` for anything else.

    Examples
    --------
    >>> read_factor("M = 10").range.low
    Fraction(10, 1)
    """
    plain = re.sub(
        r"^m(?:[- ]?factor)? ?(?:\(?(?:acute|chronic)\)?)? ?[:=]? ?", "", clean(text)
    )
    if re.fullmatch(r"10{0,9}", plain) is None:
        raise InputError(
            f"{shown(text)} is not an M-factor",
            "Write 1, 10, 100 and so on, as the sheet prints it",
            code="m-factor",
        )
    return Measure(text, Range.at(int(plain)))
