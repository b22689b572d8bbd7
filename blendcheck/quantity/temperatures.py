"""Temperatures and flash points as data sheets print them.

``>93 °C`` says that a test stopped there: the low end is 93, excluded, and there
is no high end. ``N/A``, ``no data`` and a blank are unknown. A number without a
unit is asked about, because 170 may be 170 °F or 170 °C.
"""

import re
from collections.abc import Callable
from fractions import Fraction
from typing import Final, Literal

from blendcheck.errors import InputError, QuestionError
from blendcheck.interval import Range
from blendcheck.quantity.bounds import with_signs
from blendcheck.quantity.cleaning import clean, shown, words
from blendcheck.quantity.numbers import Parts, range_of, signed_span
from blendcheck.quantity.printing import ends_text, exact_text, is_decimal, print_number
from blendcheck.quantity.refusals import refusal
from blendcheck.quantity.values import Temperature
from blendcheck.units import (
    ABSOLUTE_ZERO,
    celsius_from_fahrenheit,
    celsius_from_kelvin,
    fahrenheit_from_celsius,
)

__all__ = ["UNKNOWN_WORDS", "celsius_text", "print_temperature", "read_temperature"]

Cup = Literal["closed", "open"]

UNKNOWN_WORDS: Final = frozenset(
    words(
        "|-|--|---|n/a|na|n.a.|n. a.|not applicable|not available|no data"
        "|no data available|no information|no information available|not determined"
        "|n/d|nd|n.d.|n. d.|not known|unknown|none|not tested|not measured"
        "|not relevant|no flash|does not flash|?"
    )
)

_CONVERT: Final[dict[str, Callable[[Fraction], Fraction] | None]] = {
    "c": None,
    "f": celsius_from_fahrenheit,
    "k": celsius_from_kelvin,
}
_UNIT: Final = re.compile(
    r"(?:(?:° ?|deg\.? ?|degrees? )?(?:(c)(?:elsius|entigrade)?|(f)(?:ahrenheit)?)"
    r"|(k)(?:elvins?)?)(?![a-z])\.?"
)
_CUPS: Final[dict[str, Cup]] = {
    **dict.fromkeys(
        words(
            "closed cup|closed-cup|closed|cc|tcc|pmcc|tag closed cup"
            "|pensky-martens|pensky martens|pensky-martens closed cup"
            "|pensky martens closed cup|setaflash|abel|abel closed cup"
        ),
        "closed",
    ),
    **dict.fromkeys(
        words(
            "open cup|open-cup|open|oc|toc|coc|cleveland open cup|cleveland"
            "|tag open cup"
        ),
        "open",
    ),
}
# what may stand between the unit and the kind of cup
_CUP: Final = re.compile(r"(?:[,;]|-)? ?(?:\(([a-z -]+)\)|([a-z][a-z -]*))")
_CUP_FIRST: Final = re.compile(
    "(" + "|".join(sorted(_CUPS, key=len, reverse=True)) + ")(?: ?: ?| )"
)
# the second unit of "93 °C (200 °F)" or of "93 °C / 200 °F"
_SECOND: Final = re.compile(
    r"(?:\( ?([<>=]*[^()<>=]*[0-9][^()]*)\)|/ ?([<>=]*[^a-z°<>=]+°? ?[a-z]+))(.*)"
)
_SAME_WITHIN: Final = 1  # K: both were rounded to whole degrees

_LIMITS: Final = (None, None)
_RULE: Final = "above absolute zero, -273.15 °C"


def _unit(words: str) -> tuple[str, str] | None:
    """Return the unit's letter and what stands behind it."""
    found = _UNIT.match(words)
    if found is None:
        return None
    letter = found[1] or found[2] or found[3]
    return letter, words[found.end() :].strip()


def _celsius(text: str, parts: Parts, letter: str) -> Range:
    middle = parts[2]
    if middle and (_unit(middle) or ("", "x")) != (letter, ""):
        raise InputError(
            f"the two ends of {shown(text)} are in different units",
            "Write both ends in one unit",
            code="units-mixed",
        )
    found = range_of(text, parts, limits=_LIMITS, convert=_CONVERT[letter])
    for end in (found.low, found.high):
        if end is not None and end < ABSOLUTE_ZERO:
            raise InputError(
                f"{shown(text)} is below absolute zero",
                "Compare the figure and its unit with the paper",
                code="below-absolute-zero",
            )
    return found


def _cup(words: str) -> Cup | None:
    found = _CUP.fullmatch(words)
    return None if found is None else _CUPS.get(found[1] or found[2])


def _ask_unit(text: str, parts: Parts) -> QuestionError:
    value = range_of(text, parts, limits=_LIMITS)
    end = value.low if value.low is not None else value.high
    given = end if end is not None else Fraction(0)
    celsius = print_number(celsius_from_fahrenheit(given), digits=3)
    number = print_number(given)
    return QuestionError(
        f"{shown(text)} has no unit: it may be {number} °C, "
        f"or {number} °F = {celsius} °C",
        "Write the unit behind the number",
        code="unit-missing",
    )


def _same(first: Range, second: Range) -> bool:
    pairs = ((first.low, second.low), (first.high, second.high))
    return (first.low_open, first.high_open) == (
        second.low_open,
        second.high_open,
    ) and all(
        (a is None and b is None)
        or (a is not None and b is not None and abs(a - b) <= _SAME_WITHIN)
        for a, b in pairs
    )


def _second(text: str, letter: str, first: Range, words: str) -> str:
    """Check a second temperature behind the first; return what is left."""
    found = _SECOND.fullmatch(words)
    if found is None:
        return words
    parts = signed_span(found[1] or found[2])
    unit = _unit(parts[6]) if parts is not None else None
    if parts is None or unit is None or unit[1] or unit[0] == letter:
        return words
    bare = parts[0] is None and first.is_exact is False and parts[5] is None
    other = _celsius(text, parts, unit[0])
    if bare:  # "> 93 °C (200 °F)": the sign stands for both
        other = Range(
            other.low if first.low is not None else None,
            other.high if first.high is not None else None,
            first.low_open,
            first.high_open,
        )
    if not _same(first, other):
        raise QuestionError(
            f"the two temperatures in {shown(text)} are not the same",
            "Compare them with the paper and keep the right one",
            code="units-disagree",
        )
    return found[3].strip()


def _unread(text: str, plain: str) -> InputError:
    # a minus sign is no fault here
    example = "62 °C, >93 °C, 62 °C closed cup or no data"
    return refusal(text, plain.lstrip("- "), "a temperature", example)


def _cup_in_front(plain: str) -> tuple[str, Cup | None]:
    found = _CUP_FIRST.match(plain)
    if found is None:
        return plain, None
    return plain[found.end() :], _CUPS[found[1]]


def read_temperature(text: str, *, need_unit: bool = True) -> Temperature:
    """Read a temperature or a flash point.

    Parameters
    ----------
    text : str
        ``62 °C``, ``143 F``, ``335 K``, ``>93 °C``, ``60-65 °C``, ``62 °C closed
        cup``, ``93 °C (200 °F)``; ``N/A``, ``no data``, ``-`` or a blank.
    need_unit : bool, default True
        False takes a number without a unit as degrees Celsius.

    Returns
    -------
    Temperature
        The range in degrees Celsius, exact; both ends None where the text says
        that there is no figure. Of two units the first is kept.

    Raises
    ------
    QuestionError
        ``unit-missing``, ``units-disagree``, ``about``, ``decimal-comma`` ...
    InputError
        ``below-absolute-zero``, ``range-order``, ``units-mixed``,
        ``unreadable`` ...

    Examples
    --------
    >>> read_temperature("> 200°F").range.low
    Fraction(280, 3)
    """
    plain = clean(text)
    cup: Cup | None = None
    parts = signed_span(plain)
    if parts is None:
        if plain in UNKNOWN_WORDS:
            return Temperature(text, Range(None, None))
        rest, cup = _cup_in_front(plain)
        parts = signed_span(with_signs(rest))
        if parts is None:
            raise _unread(text, plain)
    tail = parts[6]
    if tail in {"", "°"} or _cup(tail) is not None:
        if need_unit:
            raise _ask_unit(text, parts)
        tail = f"c {tail.removeprefix('°')}"
    unit = _unit(tail)
    if unit is None:
        raise _unread(text, plain)
    letter, words = unit
    found = _celsius(text, parts, letter)
    if words:
        words = _second(text, letter, found, words)
    if words:
        behind = _cup(words)
        if behind is None or (cup is not None and cup != behind):
            raise _unread(text, plain)
        cup = behind
    return Temperature(text, found, cup)


def celsius_text(value: Range, unknown: str) -> str:
    """Print a range in degrees Celsius so that it reads back exactly.

    Parameters
    ----------
    value : Range
        Temperatures. [degC]
    unknown : str
        Text for a range that nothing bounds.

    Returns
    -------
    str
        In °C where the digits end, else in °F: ``200 °F`` is 93 1/3 °C.
    """
    ends = [end for end in (value.low, value.high) if end is not None]
    celsius = all(is_decimal(end) for end in ends)
    low, high = (
        None
        if end is None
        else exact_text(end if celsius else fahrenheit_from_celsius(end))
        for end in (value.low, value.high)
    )
    return ends_text(value, low, high, " °C" if celsius else " °F", unknown)


def print_temperature(value: Temperature) -> str:
    """Print a temperature so that it reads back with the same meaning.

    Parameters
    ----------
    value : Temperature
        The temperature.

    Returns
    -------
    str
        ``62 °C``, ``> 93 °C``, ``200 °F closed cup``, ``no data``.

    Examples
    --------
    >>> print_temperature(read_temperature(">93 °C (closed cup)"))
    '> 93 °C closed cup'
    """
    text = celsius_text(value.range, "no data")
    return text if value.cup is None else f"{text} {value.cup} cup"
