"""Numbers and ranges as text, and their rounding."""

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from blendcheck.errors import DomainError
from blendcheck.interval import Range
from blendcheck.quantity import (
    exact_text,
    print_bound,
    print_number,
    print_range,
    read_number,
    round_down_to,
    round_outward,
)
from tests.quantity.cases import asks, refuses, span

numbers = st.fractions(min_value=-10_000, max_value=10_000, max_denominator=10**9)
positive = st.fractions(min_value=0, max_value=10_000, max_denominator=10**9)
steps = st.sampled_from(
    [Fraction(1), Fraction(1, 10), Fraction(1, 100), Fraction(5, 3)]
)
ways = st.sampled_from(["nearest", "down", "up"])


def value_of(text: str) -> Fraction:
    """The value of a printed number, read by the standard library."""
    whole, _, part = text.rpartition(" ")
    if "/" in part:
        sign = -1 if text.startswith("-") else 1
        return sign * (abs(Fraction(whole or "0")) + abs(Fraction(part)))
    return Fraction(Decimal(text))


NUMBERS = [
    # value, digits, printed, reason
    ("1/3", 4, "0.3333", "rounded"),
    ("2/3", 1, "0.7", "rounded up"),
    ("12.50", 4, "12.5", "exact, no zeros behind"),
    ("10.0001", 4, "10.0001", "exact and short enough"),
    ("10.00001", 4, "10.00", "too long: the zeros show that it was rounded"),
    ("123456.7", 4, "123457", "digits before the point are never dropped"),
    ("1/7000", 4, "0.0001429", "zeros after the point do not count"),
    ("-1/3", 2, "-0.33", "negative"),
    ("0", 4, "0", "zero"),
    ("1000", 2, "1000", "no mark between thousands, no exponent"),
    ("1/1000000", 4, "0.000001", "no exponent"),
]


@pytest.mark.parametrize(("value", "digits", "printed", "reason"), NUMBERS)
def test_number_is_printed(value, digits, printed, reason):
    assert print_number(Fraction(value), digits=digits) == printed, reason


@given(numbers, st.integers(1, 8), ways)
def test_printed_number_is_close_and_on_the_asked_side(value, digits, way):
    text = print_number(value, digits=digits, rounding=way)
    shown = value_of(text)
    unit = Fraction(1, 10 ** len(text.partition(".")[2]))
    assert abs(shown - value) <= unit / (2 if way == "nearest" else 1)
    assert way != "down" or shown <= value
    assert way != "up" or shown >= value
    # at least the asked digits are there, or nothing was rounded
    kept = text.lstrip("-").replace(".", "").lstrip("0")
    assert shown == value or len(kept) >= digits


def test_digits_must_be_positive():
    with pytest.raises(DomainError, match="digits = 0 must be >= 1"):
        print_number(Fraction(1, 3), digits=0)


@given(numbers)
def test_exact_text_has_exactly_the_value(value):
    assert value_of(exact_text(value)) == value


BOUNDS = [
    ("1.0004", "1", "1.0004", "above a cap of 1.0"),
    ("1.00000004", "1", "1.00000004", "still above"),
    ("0.99999999", "1", "0.99999999", "below"),
    ("1", "1", "1", "on the cap"),
    ("1/3", "1/3", "1/3", "on a cap that no decimal meets"),
    ("1/3", "1", "0.3333", "far away: nothing to show"),
    ("0.1000001", "0.1", "0.1000001", "a seventh digit decides"),
]


@pytest.mark.parametrize(("value", "cap", "printed", "reason"), BOUNDS)
def test_bound_shows_its_side(value, cap, printed, reason):
    assert print_bound(Fraction(value), Fraction(cap)) == printed, reason


@given(
    positive, st.integers(1, 12), st.sampled_from([-1, 0, 1]), st.integers(1, 9), ways
)
def test_bound_is_on_the_same_side_as_the_value(cap, places, sign, digit, way):
    value = cap + sign * Fraction(digit, 10**places * 7)
    shown = value_of(print_bound(value, cap, digits=2, rounding=way))
    assert (shown > cap) == (value > cap)
    assert (shown < cap) == (value < cap)


RANGES = [
    ("[5, 5]", "%", "5 %"),
    ("[10, 25]", "%", "10 to 25 %"),
    ("[10, 25)", "%", "≥ 10 to < 25 %"),
    ("(10, 25]", "g", "> 10 to ≤ 25 g"),
    ("(93, -]", "°C", "> 93 °C"),
    ("[93, -]", "°C", "≥ 93 °C"),
    ("[-, 0.1)", "%", "< 0.1 %"),
    ("[-, 5]", "", "≤ 5"),
    ("[-, -]", "%", "not known"),
    ("[1/3, 2/3]", "%", "0.3333 to 0.6667 %"),
    ("[2/3, 2/3]", "%", "0.6667 %"),
]


@pytest.mark.parametrize(("shape", "unit", "printed"), RANGES)
def test_range_is_printed(shape, unit, printed):
    assert print_range(span(shape), unit) == printed


def test_range_against_a_cap_shows_the_side_of_each_end():
    above = Range(Fraction("1.0000001"), Fraction("2.0000001"))
    assert print_range(above, "%", digits=2) == "1.0 to 2.1 %"
    assert print_range(above, "%", digits=2, cap=Fraction(1)) == "1.0000001 to 2.1 %"
    below = Range(Fraction("0.3333333"), Fraction("0.9999999"))
    assert print_range(below, "%", digits=2) == "0.33 to 1.00 %"
    assert print_range(below, "%", digits=2, cap=Fraction(1)) == "0.33 to 0.9999999 %"


@given(positive, positive, st.integers(1, 6))
def test_printed_range_holds_the_range(one, two, digits):
    low, high = sorted((one, two))
    text = print_range(Range(low, high), digits=digits)
    first, _, second = text.partition(" to ")
    if low != high:
        assert value_of(first) <= low
        assert value_of(second) >= high


@given(numbers, steps)
def test_rounding_down_gives_the_largest_multiple_below(value, step):
    rounded = round_down_to(value, step)
    assert (rounded / step).denominator == 1
    assert rounded <= value < rounded + step


@given(numbers, numbers, steps, st.booleans(), st.booleans())
def test_rounding_outward_holds_the_range_tightly(one, two, step, first, second):
    low, high = sorted((one, two))
    value = Range(low, high, first and low < high, second and low < high)
    wide = round_outward(value, step)
    assert wide.low <= low < wide.low + step
    assert wide.high - step < high <= wide.high
    assert wide.holds((low + high) / 2)
    assert wide.low_open == (value.low_open or wide.low != low)
    assert wide.high_open == (value.high_open or wide.high != high)


def test_rounding_outward_keeps_missing_ends():
    assert round_outward(span("(1.5, -]"), Fraction(1)) == span("(1, -]")
    assert round_outward(span("[-, -]"), Fraction(1)) == span("[-, -]")


def test_a_step_must_be_positive():
    with pytest.raises(DomainError, match="step = 0 must be > 0"):
        round_down_to(Fraction(1), Fraction(0))
    with pytest.raises(DomainError, match="step = -1 must be > 0"):
        round_outward(span("[-, -]"), Fraction(-1))


@pytest.mark.parametrize(
    ("value", "number"),
    [
        ("12.5", "12.5"),
        ("1 1/2", "3/2"),
        ("½", "1/2"),
        (24, "24"),
        (Decimal("0.1"), "0.1"),
        (Decimal("1E-7"), "0.0000001"),
        (Decimal("1E+3"), "1000"),
        ("0", "0"),
    ],
)
def test_plain_number_is_read_exactly(value, number):
    assert read_number(value) == Fraction(number)


@pytest.mark.parametrize(
    ("value", "code"),
    [
        ("", "blank"),
        ("-1", "negative"),
        (-1, "negative"),
        (0.1, "not-text"),
        (True, "not-text"),
        (Decimal("NaN"), "not-text"),
        (Decimal("Infinity"), "not-text"),
        ("1e5", "number"),
        ("10 g", "unreadable"),
        (None, "not-text"),
    ],
)
def test_what_is_no_plain_number_is_refused(value, code):
    refuses(read_number, value, code, r"\w")


def test_a_plain_number_with_a_comma_is_asked_about():
    asks(read_number, "0,5", "decimal-comma", "0.5 or 0 and 5")
