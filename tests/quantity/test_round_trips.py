"""Whatever is accepted prints back and reads as the same."""

from dataclasses import replace
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from blendcheck import quantity as q
from blendcheck.interval import Range
from blendcheck.quantity import Base
from blendcheck.units import celsius_from_fahrenheit

decimals = st.builds(
    lambda digits, places: Fraction(digits, 10**places),
    st.integers(0, 10**7),
    st.integers(0, 7),
)
shares = st.builds(lambda digits: Fraction(digits, 10**6), st.integers(0, 10**8))
kitchen = st.builds(
    lambda whole, top, bottom: whole + Fraction(top, bottom),
    st.integers(0, 40),
    st.integers(0, 100),
    st.sampled_from([2, 3, 4, 6, 7, 8, 9, 12, 16, 64]),
)


@st.composite
def ranges(draw, numbers, *, closed=False):
    """A range of one number, or of two with either end excluded or not."""
    low, high = sorted((draw(numbers), draw(numbers)))
    if low == high:
        return Range(low, high)
    if closed:
        return Range(low, high)
    return Range(low, high, draw(st.booleans()), draw(st.booleans()))


def same(read, print_, value):
    """Read what is printed; give it the print of ``value`` to compare the rest."""
    return replace(read(print_(value)), printed=value.printed) == value


UNITS = [
    ("mass", "g"),
    ("mass", "kg"),
    ("mass", "mg"),
    ("mass", "oz"),
    ("mass", "lb"),
    ("volume", "mL"),
    ("volume", "L"),
    ("volume", "US fl oz"),
    ("volume", "imp fl oz"),
    ("volume", "tsp"),
    ("volume", "tbsp"),
    ("volume", "metric tsp"),
    ("count", "drop"),
    ("count", "cup"),
    ("count", "scoop"),
    ("count", "pinch"),
    ("count", "capful"),
    ("count", "spray"),
    ("parts", "part"),
]


@given(st.sampled_from(UNITS), ranges(decimals | kitchen, closed=True))
def test_amount(unit, number):
    value = q.Amount("", unit[0], number, unit[1])
    assert same(q.read_amount, q.print_amount, value)


@given(ranges(shares, closed=True), st.sampled_from([None, *Base]))
def test_percent_of_a_base(number, base):
    value = q.Amount("", "percent", number, "%", base)
    assert same(q.read_amount, q.print_amount, value)


@given(kitchen, st.sampled_from(["oz ppo", "ppm", "% of the powders"]))
def test_fraction_of_a_percent(number, unit):
    value = q.read_amount(f"{q.exact_text(number)} {unit}")
    assert same(q.read_amount, q.print_amount, value)


@given(
    ranges(shares),
    st.sampled_from([None, "w/w", "v/v", "area"]),
    st.sampled_from([None, *Base]),
)
def test_share(share, basis, base):
    value = q.Percent("", share, basis, base)
    assert same(q.read_percent, q.print_percent, value)


@given(shares.filter(bool), st.booleans(), st.booleans())
def test_share_with_a_limit_only(limit, is_open, detected):
    share = Range(Fraction(0), limit, detected, is_open)
    value = q.Percent("", share, detected=detected)
    assert same(q.read_percent, q.print_percent, value)


def test_share_without_a_figure():
    for value in (
        q.Percent("", Range(Fraction(0), None, low_open=True)),
        q.Percent("", Range(Fraction(0), None), detected=False),
    ):
        assert same(q.read_percent, q.print_percent, value)


temperatures = st.builds(
    lambda digits, places: Fraction(digits, 10**places),
    st.integers(-200, 10**5),
    st.integers(0, 3),
)
either = temperatures | temperatures.map(celsius_from_fahrenheit)
cups = st.sampled_from([None, "closed", "open"])


@given(ranges(temperatures) | ranges(temperatures.map(celsius_from_fahrenheit)), cups)
def test_temperature(value, cup):
    assert same(q.read_temperature, q.print_temperature, q.Temperature("", value, cup))


@given(either, st.booleans(), st.booleans(), cups)
def test_temperature_with_one_end(end, above, is_open, cup):
    value = (
        Range(end, None, low_open=is_open)
        if above
        else Range(None, end, high_open=is_open)
    )
    assert same(q.read_temperature, q.print_temperature, q.Temperature("", value, cup))


@given(shares.filter(lambda share: 0 < share < 100))
def test_cap(percent):
    for value in (q.Limit("", percent), q.NotAdded("", percent)):
        assert same(q.read_cap, q.print_cap, value)


@given(st.text(st.characters(codec="utf-8"), max_size=60).map(str.strip))
def test_cap_without_a_figure(footnote):
    values = [q.NotPermitted(""), q.NoRestriction(""), q.Missing("")]
    for value in values:
        assert same(q.read_cap, q.print_cap, value)
    cap = q.read_cap("N/A", footnote)
    assert q.read_cap(cap.printed) == cap
    assert same(q.read_cap, q.print_cap, cap)


@given(
    ranges(
        st.integers(200_000, 25_000_000).map(lambda n: Fraction(n, 10**6)), closed=True
    ),
    st.none() | temperatures.filter(lambda celsius: celsius >= 0),
)
def test_density(value, at):
    assert same(q.read_density, q.print_density, q.Density("", value, at))


@given(st.dates(min_value=q.read_date("1950-01-01").on))
def test_date(day):
    if day.year <= 2150:
        assert same(q.read_date, q.print_date, q.PrintedDate("", day))
