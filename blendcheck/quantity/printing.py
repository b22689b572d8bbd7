"""Numbers and ranges as text, and the two roundings that may touch them.

Nothing here changes a value that goes on into arithmetic, except
:func:`round_down_to` and :func:`round_outward`, which say so. A shown range is
rounded outward, and :func:`print_bound` shows digits until the reader sees on
which side of a cap the number lies.
"""

import math
from fractions import Fraction
from typing import Final, Literal

from blendcheck.errors import DomainError
from blendcheck.interval import Range

__all__ = [
    "Rounding",
    "ends_text",
    "exact_text",
    "is_decimal",
    "print_bound",
    "print_estimate",
    "print_number",
    "print_range",
    "round_down_to",
    "round_outward",
]

Rounding = Literal["nearest", "down", "up"]

_DIGITS: Final = 4
_SPARE: Final = 2  # an exact decimal may be this much longer than a rounded one
_MORE: Final = 40  # digits that print_bound adds before it prints the fraction


def _places(denominator: int) -> int | None:
    """Return the decimal places that 1/denominator needs, None if it never ends."""
    twos = fives = 0
    while denominator % 2 == 0:
        denominator //= 2
        twos += 1
    while denominator % 5 == 0:
        denominator //= 5
        fives += 1
    return max(twos, fives) if denominator == 1 else None


def _decimal(scaled: int, places: int) -> str:
    """Return ``scaled / 10**places`` with exactly ``places`` decimals."""
    digits = str(abs(scaled)).rjust(places + 1, "0")
    sign = "-" if scaled < 0 else ""
    if places == 0:
        return sign + digits
    return f"{sign}{digits[:-places]}.{digits[-places:]}"


def is_decimal(value: Fraction) -> bool:
    """Say whether a number has a decimal expansion that ends.

    Parameters
    ----------
    value : Fraction
        Any number.
    """
    return _places(value.denominator) is not None


def exact_text(value: Fraction) -> str:
    """Print a number so that it reads back as the same number.

    Parameters
    ----------
    value : Fraction
        Any number.

    Returns
    -------
    str
        A decimal number where one ends, else a fraction such as ``1 2/3``.

    Examples
    --------
    >>> exact_text(Fraction(5, 4)), exact_text(Fraction(5, 3))
    ('1.25', '1 2/3')
    """
    denominator = value.denominator
    if denominator == 1:
        return str(value.numerator)
    places = _places(denominator)
    if places is not None:
        return _decimal(value.numerator * (10**places // denominator), places)
    sign = "-" if value < 0 else ""
    whole, rest = divmod(abs(value.numerator), denominator)
    return (
        f"{sign}{whole} {rest}/{denominator}"
        if whole
        else f"{sign}{rest}/" + str(denominator)
    )


def _rounded(value: Fraction, digits: int, rounding: Rounding) -> tuple[str, Fraction]:
    """Return the text with ``digits`` significant digits, and the value of it."""
    size = abs(value)
    whole = len(str(int(size)))
    if size >= 1:
        places = max(digits - whole, 0)
    else:
        # zeros after the point do not count: 0.00012 has two digits
        leading = len(str(size.denominator // size.numerator)) - 1
        places = digits + leading
        if size * 10**leading >= 1:
            places -= 1
    scaled = value * 10**places
    if rounding == "down":
        kept = scaled.__floor__()
    elif rounding == "up":
        kept = scaled.__ceil__()
    else:
        kept = round(scaled)
    return _decimal(kept, places), Fraction(kept, 10**places)


def _significant(text: str) -> int:
    return len(text.lstrip("-").replace(".", "").lstrip("0"))


def _shown(value: Fraction, digits: int, rounding: Rounding) -> tuple[str, Fraction]:
    if digits < 1:
        raise DomainError("digits", digits, ">= 1")
    if value.denominator == 1:
        return str(value.numerator), value
    if is_decimal(value):
        text = exact_text(value)
        if _significant(text) <= digits + _SPARE:
            return text, value
    return _rounded(value, digits, rounding)


def print_number(
    value: Fraction, *, digits: int = _DIGITS, rounding: Rounding = "nearest"
) -> str:
    """Print a number: exactly where that is short, else rounded.

    Parameters
    ----------
    value : Fraction
        Any number.
    digits : int, default 4
        Significant digits of a rounded number, >= 1; digits before the point are
        never dropped. A decimal that ends is printed whole if it has at most two
        more.
    rounding : {"nearest", "down", "up"}, default "nearest"
        Which way to round; nearest takes the even digit on a tie.

    Returns
    -------
    str
        The digits, without a mark between thousands.

    Raises
    ------
    DomainError
        If ``digits`` is below 1.

    Examples
    --------
    >>> print_number(Fraction(1, 3)), print_number(Fraction("12.50"))
    ('0.3333', '12.5')
    """
    return _shown(value, digits, rounding)[0]


def print_estimate(value: float, *, digits: int = 1) -> str:
    """Print an estimated number with the digits that mean something.

    Parameters
    ----------
    value : float
        The number, finite.
    digits : int, optional
        Significant digits, 1 or more.

    Returns
    -------
    str
        Digits beyond those asked for are zeros, never shown as if known.

    Raises
    ------
    DomainError
        If ``digits`` is less than one or the number is not finite.

    Examples
    --------
    >>> print_estimate(1234.5), print_estimate(0.01234), print_estimate(0.96)
    ('1000', '0.01', '1')
    >>> print_estimate(1234.5, digits=2)
    '1200'
    """
    if digits < 1:
        raise DomainError("digits", digits, ">= 1")
    if not math.isfinite(value):
        raise DomainError("estimate", value, "a finite number")
    if value == 0:
        return "0"
    place = digits - 1 - math.floor(math.log10(abs(value)))
    rounded = round(value, place)
    if abs(rounded) >= 10 ** (digits - place):  # 0.96 became 1.0: one digit too many
        place -= 1
    return f"{rounded:.{max(place, 0)}f}"


def print_bound(
    value: Fraction,
    cap: Fraction,
    *,
    digits: int = _DIGITS,
    rounding: Rounding = "nearest",
) -> str:
    """Print a number with enough digits to show on which side of a cap it lies.

    Parameters
    ----------
    value, cap : Fraction
        The number, and what it is compared with.
    digits : int, default 4
        Significant digits to start from, >= 1.
    rounding : {"nearest", "down", "up"}, default "nearest"
        Which way to round.

    Returns
    -------
    str
        The digits; what they say is above, at or below the cap just as ``value``
        is. A number that no 40 more digits can tell apart is printed as a fraction.

    Raises
    ------
    DomainError
        If ``digits`` is below 1.

    Examples
    --------
    >>> print_bound(Fraction("1.00004"), Fraction(1), digits=2)
    '1.00004'
    """
    side = (value > cap) - (value < cap)
    for more in range(_MORE):
        text, printed = _shown(value, digits + more, rounding)
        if (printed > cap) - (printed < cap) == side:
            return text
    return exact_text(value)


def ends_text(
    value: Range, low: str | None, high: str | None, unit: str, unknown: str
) -> str:
    """Put the two printed ends of a range together.

    Parameters
    ----------
    value : Range
        The range; says which ends are missing or excluded.
    low, high : str or None
        The printed ends, without a unit.
    unit : str
        Unit to put behind, with the space that belongs before it.
    unknown : str
        Text for a range that nothing bounds.

    Returns
    -------
    str
        ``5 %``, ``10 to 25 %``, ``≥ 10 to < 25 %``, ``> 93 °C``, ``< 0.1 %``.
    """
    if low is None and high is None:
        return unknown
    if value.is_exact:
        return f"{low}{unit}"
    if low is None:
        return f"{'<' if value.high_open else '≤'} {high}{unit}"
    if high is None:
        return f"{'>' if value.low_open else '≥'} {low}{unit}"
    if not (value.low_open or value.high_open):
        return f"{low} to {high}{unit}"
    first = "> " if value.low_open else "≥ "
    second = "< " if value.high_open else "≤ "
    return f"{first}{low} to {second}{high}{unit}"


def print_range(
    value: Range, unit: str = "", *, digits: int = _DIGITS, cap: Fraction | None = None
) -> str:
    """Print a range, rounded outward so that nothing is cut off.

    Parameters
    ----------
    value : Range
        The range.
    unit : str, default ""
        Its unit, without a space.
    digits : int, default 4
        Significant digits of a rounded end, >= 1.
    cap : Fraction, optional
        What the range is compared with: each end then gets the digits that show
        its side, see :func:`print_bound`.

    Returns
    -------
    str
        One line; ``not known`` if nothing bounds it.

    Raises
    ------
    DomainError
        If ``digits`` is below 1.

    Examples
    --------
    >>> print_range(Range(Fraction(10), Fraction(25), high_open=True), "%")
    '≥ 10 to < 25 %'
    """
    exact = value.is_exact

    def end(number: Fraction | None, rounding: Rounding) -> str | None:
        if number is None:
            return None
        way: Rounding = "nearest" if exact else rounding
        if cap is None:
            return print_number(number, digits=digits, rounding=way)
        return print_bound(number, cap, digits=digits, rounding=way)

    return ends_text(
        value,
        end(value.low, "down"),
        end(value.high, "up"),
        f" {unit}" if unit else "",
        "not known",
    )


def _step(step: Fraction) -> Fraction:
    if not step > 0:
        raise DomainError("step", step, "> 0")
    return step


def round_down_to(value: Fraction, step: Fraction) -> Fraction:
    """Round down to a whole number of steps, as for weighing on a scale.

    Parameters
    ----------
    value : Fraction
        The number.
    step : Fraction
        What the scale shows, > 0, in the unit of ``value``.

    Returns
    -------
    Fraction
        The largest multiple of ``step`` that is not above ``value``.

    Raises
    ------
    DomainError
        If ``step`` is not above 0.

    Examples
    --------
    >>> round_down_to(Fraction("1.99"), Fraction("0.5"))
    Fraction(3, 2)
    """
    return (value // _step(step)) * step


def round_outward(value: Range, step: Fraction) -> Range:
    """Round the low end down and the high end up to whole steps.

    Parameters
    ----------
    value : Range
        The range.
    step : Fraction
        The step, > 0, in the unit of the range.

    Returns
    -------
    Range
        A range that holds all of ``value``. An end that did not move stays
        included or excluded; an end that moved is excluded, for it is never reached.

    Raises
    ------
    DomainError
        If ``step`` is not above 0.

    Examples
    --------
    >>> round_outward(Range(Fraction("1.2"), Fraction(3)), Fraction(1))
    Range(low=Fraction(1, 1), high=Fraction(3, 1), low_open=True, high_open=False)
    """
    _step(step)
    low, high = value.low, value.high
    down = None if low is None else round_down_to(low, step)
    up = None if high is None else -round_down_to(-high, step)
    return Range(
        down,
        up,
        down is not None and (value.low_open or down != low),
        up is not None and (value.high_open or up != high),
    )
