"""Numbers and ranges as written, read from their digits into exact fractions.

One number: ``10``, ``0.25``, ``.5``, and in a kitchen ``3/4``, ``1 1/2``, ``½``,
``1½``. Two ends: ``10-12``, ``10 to 12``, ``10 % - 12 %``, ``>= 10 - < 25``. A form
that could be another number with a slip of the hand (``05``, ``11/2``, ``1-1/2``,
``10/25``) is asked about. Thousands marks are never guessed.
"""

import re
from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from typing import Final, cast

from blendcheck.errors import InputError, QuestionError
from blendcheck.interval import Range
from blendcheck.quantity.cleaning import VULGAR_CHARACTERS, clean, shown, words
from blendcheck.quantity.refusals import out_of_range, refusal

__all__ = [
    "KITCHEN_DENOMINATORS",
    "Limits",
    "Parts",
    "kitchen_span",
    "number",
    "range_of",
    "read_number",
    "signed_span",
    "span",
]

_VULGAR: Final = dict(
    zip(
        VULGAR_CHARACTERS,
        map(
            Fraction,
            words(
                "1/4|1/2|3/4|1/7|1/9|1/10|1/3|2/3|1/5|2/5|3/5|4/5|1/6|5/6"
                "|1/8|3/8|5/8|7/8"
            ),
        ),
        strict=True,
    )
)

_DECIMAL: Final = r"[0-9]+(?:\.[0-9]+)?|\.[0-9]+"
_KITCHEN: Final = (
    r"[0-9]+ [0-9]+/[0-9]+|[0-9]+/[0-9]+"
    rf"|(?:[0-9]+ ?)?[{VULGAR_CHARACTERS}]|{_DECIMAL}"
)
_ONE: Final = re.compile(_KITCHEN)
_SIGN: Final = r"<=|>=|<|>"
KITCHEN_DENOMINATORS: Final = frozenset({2, 3, 4, 5, 6, 7, 8, 9, 10, 12, 16, 32, 64})


def _span_of(one: str) -> re.Pattern[str]:
    # sign, number, [unit, join, sign, number,] tail
    return re.compile(
        rf"({_SIGN})? ?({one}) ?"
        r"(?:((?:[a-z%°³/. ()]|(?<=m)3)*?) ?(-|to|and|(?=[<>=]))"
        rf" ?({_SIGN})? ?({one}) ?)?(.*)"
    )


_SPAN: Final = _span_of(_DECIMAL)
_KITCHEN_SPAN: Final = _span_of(_KITCHEN)
# With minus signs. A negative end is joined by "to" only: "5--10" and "-20 -10" have
# too many readings.
_SIGNED_SPAN: Final = re.compile(
    rf"({_SIGN})? ?(-?(?:{_DECIMAL})) ?"
    r"(?:([a-z° ]*?) ?(-(?! ?-)|to|and|(?=[<>=]))"
    rf" ?({_SIGN})? ?(-?(?:{_DECIMAL})) ?)?(.*)"
)

Parts = tuple[str | None, str, str | None, str | None, str | None, str | None, str]
"""What a span holds: sign, number, unit, join, sign, number, tail."""

Limits = tuple[Fraction | None, Fraction | None]
"""Smallest and largest value that a quantity can have."""


def span(plain: str) -> Parts | None:
    """Split a cleaned text into sign, number, unit, join, sign, number and tail.

    Parameters
    ----------
    plain : str
        A cleaned text.

    Returns
    -------
    Parts or None
        None if no decimal number stands in front. The tail takes whatever is left,
        so a result says nothing until the whole tail has been looked up.
    """
    found = _SPAN.fullmatch(plain)
    return None if found is None else cast("Parts", found.groups())


def kitchen_span(plain: str) -> Parts | None:
    """Split a cleaned text as :func:`span` does, with fractions such as 1 1/2.

    Parameters
    ----------
    plain : str
        A cleaned text.

    Returns
    -------
    Parts or None
        None if no number stands in front.
    """
    found = _KITCHEN_SPAN.fullmatch(plain)
    return None if found is None else cast("Parts", found.groups())


def signed_span(plain: str) -> Parts | None:
    """Split a cleaned text as :func:`span` does, with minus signs allowed.

    Parameters
    ----------
    plain : str
        A cleaned text.

    Returns
    -------
    Parts or None
        None if no number stands in front.
    """
    found = _SIGNED_SPAN.fullmatch(plain)
    return None if found is None else cast("Parts", found.groups())


def _ratio(token: str, rest: str) -> Fraction:
    top, _, bottom = rest.partition("/")
    if top[0] == "0" or bottom[0] == "0":
        raise InputError(
            f"{shown(token)} is not a fraction that is read",
            "Write it without zeros in front, and divide by 2, 3, 4 ...",
            code="number",
        )
    value = Fraction(int(top), int(bottom))
    if (
        value.denominator != int(bottom)
        or value.denominator not in KITCHEN_DENOMINATORS
    ):
        raise QuestionError(
            f"{shown(token)} may be a fraction, a range or two figures",
            f"Write {top}-{bottom} for a range, or the fraction as a decimal number",
            code="fraction",
        )
    return value


def _fraction(token: str) -> Fraction:
    whole, _, rest = token.rpartition(" ")
    if rest[-1] in _VULGAR:
        whole, part = whole or rest[:-1], _VULGAR[rest[-1]]
    else:
        part = _ratio(token, rest)
    if part >= 1:
        raise QuestionError(
            f"{shown(token)} may be a division, or a whole number and a fraction "
            "without the space between them",
            "Write it like 1 1/2, or as a decimal number",
            code="improper",
        )
    return _whole(whole) + part if whole else part


def _whole(digits: str) -> int:
    if digits[0] == "0" and len(digits) > 1:
        raise QuestionError(
            f"{shown(digits)} starts with a zero: a decimal point may be missing",
            f"Write 0.{digits[1:]} or {digits.lstrip('0') or '0'}",
            code="leading-zero",
        )
    return int(digits)


def number(token: str) -> Fraction:
    """Return the exact value of one number as :func:`span` finds it.

    Parameters
    ----------
    token : str
        The number, without a unit; :func:`signed_span` may give a minus sign.

    Returns
    -------
    Fraction
        Its value.

    Raises
    ------
    QuestionError
        If a slip of the hand is likely: ``leading-zero``; ``improper`` and
        ``fraction`` for a fraction that is not below 1, in lowest terms, with a
        denominator that kitchens use.
    InputError
        If a fraction has a zero in front or divides by zero (code ``number``).
    """
    if token.isdigit():
        return Fraction(_whole(token))
    if token[0] == "-":
        return -number(token[1:])
    whole, point, part = token.partition(".")
    if not point:
        return _fraction(token)
    if whole:
        _whole(whole)
    return Fraction(int(whole + part), 10 ** len(part))


def _ordered(
    text: str, parts: Parts, convert: Callable[[Fraction], Fraction] | None
) -> tuple[Fraction, Fraction]:
    low_text, join, high_text = parts[1], parts[3], parts[5] or ""
    low, high = number(low_text), number(high_text)
    if low > high:
        if join == "-" and "/" in high_text and " " not in high_text:
            raise QuestionError(
                f"{shown(text)} may be a range, or a whole number and a fraction",
                f"Write {low_text} {high_text}, or a range with the lower end first",
                code="mixed-or-range",
            )
        raise InputError(
            f"the first end of {shown(text)} is above the second",
            "Write the lower end first",
            code="range-order",
        )
    return (low, high) if convert is None else (convert(low), convert(high))


def _two_ends(
    text: str, parts: Parts, convert: Callable[[Fraction], Fraction] | None
) -> Range:
    first, low_text, _, join, second, _, _ = parts
    if (
        first in {"<", "<="}
        or second in {">", ">="}
        or (join not in {"-", "to"} and (first is None or second is None))
        or (join != "to" and low_text[0] == "-")
    ):
        raise InputError(
            f"the two ends of {shown(text)} do not make a range",
            "Write it like 10-25, like >= 10 - < 25, or like -5 to 5",
            code="range-bounds",
        )
    low, high = _ordered(text, parts, convert)
    low_open, high_open = first == ">", second == "<"
    if low == high and (low_open or high_open):
        raise InputError(
            f"no number lies between the ends of {shown(text)}",
            "Compare it with the paper",
            code="range-order",
        )
    return Range(low, high, low_open, high_open)


def _one_end(sign: str, value: Fraction, limits: Limits) -> Range | None:
    floor, ceiling = limits
    low, high = (floor, value) if sign[0] == "<" else (value, ceiling)
    is_open = len(sign) == 1
    if low is not None and high is not None and low >= high:
        return None if is_open or low > high else Range(low, high)
    return Range(low, high, sign == ">", sign == "<")


def range_of(
    text: str,
    parts: Parts,
    *,
    limits: Limits = (None, None),
    rule: str = "",
    convert: Callable[[Fraction], Fraction] | None = None,
) -> Range:
    """Return the exact range that the parts of a span mean.

    Parameters
    ----------
    text : str
        What was written, for messages.
    parts : Parts
        What :func:`span` or :func:`signed_span` found.
    limits : tuple of (Fraction or None)
        Ends that the quantity cannot leave, in the unit that ``convert`` gives; a
        bound on one side reaches to the other limit.
    rule : str
        What the quantity must be, for the message.
    convert : callable, optional
        From the printed unit to ours; it must not reverse the order.

    Returns
    -------
    Range
        The range, with exact ends.

    Raises
    ------
    InputError
        If the ends are reversed or hold nothing (``range-order``), do not make a
        range (``range-bounds``), or leave the limits (``out-of-range``).
    QuestionError
        As :func:`number`, and ``mixed-or-range`` for ``1-1/2``.
    """
    sign, token = parts[0], parts[1]
    if parts[5] is not None:
        found: Range | None = _two_ends(text, parts, convert)
    else:
        value = number(token)
        if convert is not None:
            value = convert(value)
        found = Range(value, value) if sign is None else _one_end(sign, value, limits)
    floor, ceiling = limits
    if (
        found is None
        or (floor is not None and found.low is not None and found.low < floor)
        or (ceiling is not None and found.high is not None and found.high > ceiling)
    ):
        raise out_of_range(text, rule)
    return found


def read_number(value: object) -> Fraction:
    """Read a plain number that is not negative, from text or from a file's number.

    Parameters
    ----------
    value : str, int or Decimal
        ``12.5``, ``1 1/2``, ``½``, or a number that a file reader gave exactly.

    Returns
    -------
    Fraction
        Its exact value, >= 0.

    Raises
    ------
    InputError
        If it is a ``float`` or a ``bool``, negative, not finite, or no number.
    QuestionError
        If it has a comma, a leading zero, or another form that is asked about.

    Examples
    --------
    >>> read_number("1 1/2")
    Fraction(3, 2)
    """
    if isinstance(value, int) and not isinstance(value, bool):
        value = str(value)
    elif isinstance(value, Decimal) and value.is_finite():
        value = format(value, "f")
    plain = clean(value)
    if _ONE.fullmatch(plain) is None:
        raise refusal(str(value), plain, "a number", "12.5")
    return number(plain)
