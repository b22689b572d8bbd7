"""Densities as data sheets print them, in g/mL.

``0.89 g/mL``, ``890 kg/m3`` and ``0.89 (20/20)`` are one figure each: a relative
density at 20 degC to water at 20 degC is that times the density of that water.
A number without a unit may be g/mL, or relative to water at 4 to 25 degC, so its
low end is the number times the density of water at 25 degC and its high end the
number itself: the two readings differ by 0.3 %.
"""

import re
from fractions import Fraction
from typing import Final

from blendcheck.errors import InputError, QuestionError
from blendcheck.interval import Range
from blendcheck.quantity.cleaning import clean, shown, words
from blendcheck.quantity.numbers import Parts, number, range_of, span
from blendcheck.quantity.printing import ends_text, exact_text
from blendcheck.quantity.refusals import out_of_range, refusal
from blendcheck.quantity.temperatures import celsius_text, read_temperature
from blendcheck.quantity.values import Density
from blendcheck.units import WATER_G_PER_ML, WATER_REFERENCE_LOW

__all__ = ["print_density", "read_density"]

_UNITS: Final[dict[str, Fraction | None]] = {
    **dict.fromkeys(
        words("g/ml|g/cm3|g/cm³|g/cc|g cm-3|g ml-1|kg/l|kg/dm3|kg/dm³|g per ml")
    ),
    **dict.fromkeys(words("kg/m3|kg/m³|kg m-3|g/l"), Fraction(1, 1000)),
}
_RELATIVE: Final = r"sg|s\.g\.|specific gravity|relative density|rel\.? density"
_PREFIX: Final = re.compile(rf"(?:{_RELATIVE}) ?[:=]? ?(?=[0-9.])")

_REFERENCE: Final = r"\(?d? ?([1-9][0-9]?) ?(?:°c)?/([1-9][0-9]?) ?(?:°c)?\)?"
_TAIL: Final = re.compile(
    r"(?P<unit>(?:k?g/[a-z]+[3³]?|g per ml|k?g [a-z]+-[13])?)"
    r"(?P<relative>\(?relative\)?)?"
    r"(?: ?(?:(?:@|at|,) ?(?P<at>[0-9.]+ ?°?(?:deg )?[a-z]+)"
    r"|\((?:at |@ ?)?(?P<inside>[0-9.]+ ?°?(?:deg )?[a-z]+)\)"
    rf"|(?P<reference>{_REFERENCE})))?"
)

_LOW, _HIGH = Fraction(1, 5), Fraction(25)
_BARE: Final = (Fraction(1, 2), Fraction(2))
_RULE: Final = "a density between 0.2 and 25 g/mL"
_EXAMPLE: Final = "0.89 g/mL, 0.885-0.895 @20 °C or 0.89 (20/20)"


def _water(text: str, celsius: str) -> Fraction:
    found = WATER_G_PER_ML.get(int(celsius))
    if found is None:
        raise InputError(
            f"{shown(text)} compares with water at {celsius} °C",
            "Write the density in g/mL, or relative to water at 4, 15, 20 or 25 °C",
            code="unreadable",
        )
    return found


def _no_bound(text: str, parts: Parts) -> None:
    if parts[0] is not None or parts[4] is not None:
        raise InputError(
            f"{shown(text)} is a bound, not a density",
            "Write the density, or both ends of a range like 0.885-0.895",
            code="range-bounds",
        )


def _bare(text: str, parts: Parts) -> Range:
    """Return the range of a number that is g/mL or relative to unnamed water."""
    found = range_of(text, parts)
    low, high = found.low, found.high
    if low is None or high is None or low < _BARE[0] or high > _BARE[1]:
        raise QuestionError(
            f"{shown(text)} has no unit and is no usual density in g/mL",
            "Write the unit behind it: g/mL or kg/m3",
            code="unit-missing",
        )
    return Range(low * WATER_REFERENCE_LOW, high)


def _celsius(written: str) -> Fraction | None:
    return read_temperature(written).range.low


def _split(text: str, plain: str) -> tuple[Parts, re.Match[str], bool]:
    named = _PREFIX.match(plain)
    parts = span(plain if named is None else plain[named.end() :])
    found = None if parts is None else _TAIL.fullmatch(parts[6])
    if parts is None or found is None:
        raise refusal(text, plain, "a density", _EXAMPLE)
    return parts, found, named is not None


def read_density(text: str) -> Density:
    """Read a density.

    Parameters
    ----------
    text : str
        ``0.885–0.895 @20 °C``, ``0.89 g/mL``, ``890 kg/m3``, ``0.89 (20/20)``,
        ``SG 0.89``, ``0.89``.

    Returns
    -------
    Density
        The range in g/mL, exact, within 0.2 to 25, and the temperature in degrees
        Celsius where it is printed.

    Raises
    ------
    QuestionError
        ``unit-missing`` for a bare number outside 0.5 to 2, ``decimal-comma``,
        ``about`` ...
    InputError
        ``out-of-range``, ``range-bounds`` (a bound is no density), ``unreadable``.

    Notes
    -----
    A relative density d(t/r) is the density at t degC over that of water at r degC;
    the water is from source id ``tanaka-2001``, at 4, 15, 20 and 25 degC. A number
    without a unit is a range, see the head of this module.

    Examples
    --------
    >>> read_density("890 kg/m3").range.low
    Fraction(89, 100)
    """
    parts, found, named = _split(text, clean(text))
    _no_bound(text, parts)
    unit, reference = found["unit"], found["reference"]
    if (unit and unit not in _UNITS) or (unit and (named or found["relative"])):
        raise refusal(text, clean(text), "a density", _EXAMPLE)
    if parts[2] and parts[2] != unit:
        raise InputError(
            f"the two ends of {shown(text)} are in different units",
            "Write both ends in one unit",
            code="units-mixed",
        )
    written = found["at"] or found["inside"]
    at = _celsius(written) if written else None
    if unit:
        if reference:
            raise refusal(text, clean(text), "a density", _EXAMPLE)
        scale = _UNITS[unit]
        convert = None if scale is None else scale.__mul__
        value = range_of(text, parts, convert=convert)
    elif reference:
        at = number(found[6])
        value = range_of(text, parts, convert=_water(text, found[7]).__mul__)
    else:
        value = _bare(text, parts)
    return Density(text, _within(text, value), at)


def _within(text: str, value: Range) -> Range:
    if value.low is None or value.high is None:
        raise out_of_range(text, _RULE)
    if value.low < _LOW or value.high > _HIGH:
        raise out_of_range(text, _RULE)
    return value


def print_density(value: Density) -> str:
    """Print a density so that it reads back with the same meaning.

    Parameters
    ----------
    value : Density
        The density.

    Returns
    -------
    str
        ``0.89 g/mL``, ``0.885 to 0.895 g/mL at 20 °C``.

    Examples
    --------
    >>> print_density(read_density("890 kg/m3 @ 20 °C"))
    '0.89 g/mL at 20 °C'
    """
    low, high = (
        None if end is None else exact_text(end)
        for end in (value.range.low, value.range.high)
    )
    text = ends_text(value.range, low, high, " g/mL", "not known")
    if value.at is None:
        return text
    return f"{text} at {celsius_text(Range.at(value.at), '')}"
