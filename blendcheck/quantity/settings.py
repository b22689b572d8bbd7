"""Figures of a room: its volume, its air changes, times, and levels in its air."""

from fractions import Fraction
from types import MappingProxyType
from typing import Final, Literal

from blendcheck.errors import InputError, QuestionError
from blendcheck.frozen import Frozen
from blendcheck.interval import Range
from blendcheck.quantity.bounds import with_signs
from blendcheck.quantity.cleaning import clean, shown, words
from blendcheck.quantity.numbers import range_of, span
from blendcheck.quantity.refusals import refusal

__all__ = ["Setting", "SettingUnit", "print_setting", "read_setting"]

SettingUnit = Literal["m3", "1/h", "h", "min", "m3/h", "L/min", "ppm", "mg/m3"]
"""The units in which figures of a room are kept."""

_CUBIC_FOOT: Final = Fraction(28_316_846_592, 10**12)  # m3: (0.3048 m)^3, exact
_GALLON: Final = Fraction(3_785_411_784, 10**9)  # L: US, 231 cubic inches, exact

_SCALES: Final = MappingProxyType(
    {
        "m3": {
            **dict.fromkeys(words("m3|m³|cubic metres|cubic meters"), Fraction(1)),
            **dict.fromkeys(words("l|litres|liters"), Fraction(1, 1000)),
            **dict.fromkeys(words("ft3|ft³|cu ft|cubic feet"), _CUBIC_FOOT),
        },
        "1/h": dict.fromkeys(
            words(
                "1/h|/h|per h|per hour|an hour|air changes per hour"
                "|air changes an hour|ach"
            ),
            Fraction(1),
        ),
        "h": {
            **dict.fromkeys(words("h|hour|hours|hr|hrs"), Fraction(1)),
            **dict.fromkeys(words("min|minute|minutes"), Fraction(1, 60)),
            **dict.fromkeys(words("d|day|days"), Fraction(24)),
        },
        "min": {
            **dict.fromkeys(words("min|minute|minutes"), Fraction(1)),
            **dict.fromkeys(words("s|second|seconds"), Fraction(1, 60)),
            **dict.fromkeys(words("h|hour|hours|hr|hrs"), Fraction(60)),
        },
        "m3/h": {
            **dict.fromkeys(words("m3/h|m³/h|m3 per hour|m³ per hour"), Fraction(1)),
            **dict.fromkeys(words("l/s|litres per second"), Fraction(36, 10)),
        },
        "L/min": {
            **dict.fromkeys(
                words("l/min|litres per minute|litres a minute"), Fraction(1)
            ),
            **dict.fromkeys(words("gpm|gal/min|gallons per minute"), _GALLON),
        },
        "ppm": dict.fromkeys(words("ppm"), Fraction(1)),
        "mg/m3": dict.fromkeys(words("mg/m3|mg/m³"), Fraction(1)),
    }
)
"""What one of each printed unit is in ours."""

_EXAMPLES: Final = MappingProxyType(
    {
        "m3": ("a volume", "30 m3"),
        "1/h": ("air changes", "0.5 per hour"),
        "h": ("a time", "12 h"),
        "min": ("a time", "10 min"),
        "m3/h": ("a flow of air", "20 m3/h"),
        "L/min": ("a flow of water", "8 L/min"),
        "ppm": ("a level in air", "200 ppm"),
        "mg/m3": ("a level in air", "10 mg/m3"),
    }
)


class Setting(Frozen):
    """One figure of a room, as written.

    Parameters
    ----------
    printed : str
        The text as written.
    range : Range
        What it says. [``unit``]
    unit : str
        One of :data:`SettingUnit`.
    """

    printed: str
    range: Range
    unit: SettingUnit


def read_setting(text: str, unit: SettingUnit) -> Setting:
    """Read a figure of a room.

    Parameters
    ----------
    text : str
        ``30 m3``, ``0.5-1 per hour``, ``12 h``, ``10 min``, ``8 L/min``.
    unit : str
        The unit that it is kept in; it also says what kind of figure it is.

    Returns
    -------
    Setting
        The range, exact; both ends are given and not negative.

    Raises
    ------
    QuestionError
        ``unit-missing`` for a bare number, ``decimal-comma``, ``about`` ...
    InputError
        ``range-bounds`` for a bound on one side, ``range-order``, ``unreadable``.

    Examples
    --------
    >>> read_setting("90 min", "h").range.low
    Fraction(3, 2)
    """
    what, example = _EXAMPLES[unit]
    plain = with_signs(clean(text))
    parts = span(plain)
    if parts is None:
        raise refusal(text, plain, what, example)
    tail = parts[6].strip()
    first = (parts[2] or tail).strip()
    scale = _SCALES[unit].get(tail)
    if scale is None and not tail:
        raise QuestionError(
            f"{shown(text)} has no unit", f"Write {what} like {example}",
            code="unit-missing",
        )  # fmt: skip
    if scale is None or _SCALES[unit].get(first) != scale:
        raise refusal(text, plain, what, example)
    value = range_of(text, parts, convert=scale.__mul__)
    if value.low is None or value.high is None:
        raise InputError(
            f"{shown(text)} bounds {what} on one side only",
            f"Write both ends, or one figure like {example}",
            code="range-bounds",
        )
    return Setting(text, value, unit)


def print_setting(value: Setting) -> str:
    """Print a figure of a room so that it reads the same.

    Parameters
    ----------
    value : Setting
        The figure.

    Returns
    -------
    str
        The text as written.

    Examples
    --------
    >>> print_setting(read_setting("30 m³", "m3"))
    '30 m³'
    """
    return value.printed
