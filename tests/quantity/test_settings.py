"""Figures of a room: what is read, what is asked about, what is refused."""

from fractions import Fraction

import pytest

from blendcheck.errors import InputError, QuestionError
from blendcheck.quantity import print_setting, read_setting

READ = [
    ("30 m3", "m3", "30", "30"),
    ("30 m³", "m3", "30", "30"),
    ("10 to 12 m3", "m3", "10", "12"),
    ("1500 L", "m3", "1.5", "1.5"),
    ("0.5-1 per hour", "1/h", "0.5", "1"),
    ("2 /h", "1/h", "2", "2"),
    ("3 air changes per hour", "1/h", "3", "3"),
    ("90 min", "h", "1.5", "1.5"),
    ("2 days", "h", "48", "48"),
    ("10 min", "min", "10", "10"),
    ("30 s", "min", "0.5", "0.5"),
    ("20 m3/h", "m3/h", "20", "20"),
    ("5 L/s", "m3/h", "18", "18"),
    ("8 L/min", "L/min", "8", "8"),
    # a US gallon is 231 cubic inches, NIST Handbook 44, appendix C
    ("10 gpm", "L/min", "37.85411784", "37.85411784"),
    ("200 ppm", "ppm", "200", "200"),
    ("10 mg/m3", "mg/m3", "10", "10"),
]


@pytest.mark.parametrize(("text", "unit", "low", "high"), READ)
def test_what_is_read(text, unit, low, high):
    found = read_setting(text, unit)
    assert (found.range.low, found.range.high) == (Fraction(low), Fraction(high))
    assert found.unit == unit
    assert read_setting(print_setting(found), unit) == found


def test_a_cubic_foot_is_exact():
    """0.3048 m cubed, NIST SP 811, B.8: 2.831 685 E-02 m³."""
    found = read_setting("1 ft3", "m3").range.low
    assert found == Fraction(3048, 10_000) ** 3
    assert float(found) == pytest.approx(2.831685e-2, abs=5e-9)


@pytest.mark.parametrize(
    ("text", "unit", "kind", "code"),
    [
        ("30", "m3", QuestionError, "unit-missing"),
        ("12,5 m3", "m3", QuestionError, "decimal-comma"),
        ("about 3 h", "h", QuestionError, "about"),
        ("> 3 h", "h", InputError, "range-bounds"),
        ("up to 3 h", "h", InputError, "range-bounds"),
        ("5 kg", "m3", InputError, "unreadable"),
        ("3 h", "m3", InputError, "unreadable"),
        ("1 m3 to 2 L", "m3", InputError, "unreadable"),
        ("12-10 h", "h", InputError, "range-order"),
        ("-3 h", "h", InputError, "negative"),
        ("", "h", InputError, "blank"),
    ],
)
def test_what_is_not_read(text, unit, kind, code):
    with pytest.raises(kind) as caught:
        read_setting(text, unit)
    assert caught.value.code == code
