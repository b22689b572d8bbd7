"""Densities, in the forms of data sheets."""

from fractions import Fraction

import pytest

from blendcheck.quantity import print_density, read_density
from tests.quantity.cases import asks, refuses, span

READ = [
    # text, range in g/mL, degrees Celsius, reason
    ("0.89 g/mL", "[0.89, 0.89]", None, "the plain case"),
    ("0.89 g/cm3", "[0.89, 0.89]", None, "the same unit"),
    ("0.89 g/cm³", "[0.89, 0.89]", None, "raised 3"),
    ("890 kg/m3", "[0.89, 0.89]", None, "SI"),
    ("0.885–0.895 g/mL @20 °C", "[0.885, 0.895]", 20, "range and temperature"),
    ("0.885 g/mL - 0.895 g/mL", "[0.885, 0.895]", None, "unit at both ends"),
    ("0.89 g/mL at 20 °C", "[0.89, 0.89]", 20, "in words"),
    ("0.89 g/mL (68 °F)", "[0.89, 0.89]", 20, "in brackets, Fahrenheit"),
    ("0.89 (20/20)", "[0.888403963, 0.888403963]", 20, "0.89 x 0.9982067"),
    ("0.89 (d20/4)", "[0.889977661, 0.889977661]", 20, "0.89 x 0.9999749"),
    ("0.89 25/25", "[0.88737183, 0.88737183]", 25, "0.89 x 0.9970470"),
    ("0.89", "[0.88737183, 0.89]", None, "g/mL, or relative to water: both"),
    ("SG 0.89", "[0.88737183, 0.89]", None, "relative to unnamed water"),
    ("0.89 (relative)", "[0.88737183, 0.89]", None, "the same"),
    ("0.885–0.895 @20 °C", "[0.882386595, 0.895]", 20, "no unit: both readings"),
]

ASKED = [
    ("890", "unit-missing", "g/mL or kg/m3", "kg/m3 without its unit?"),
    ("0.4", "unit-missing", "no usual density", "too light for an oil"),
    ("0,89", "decimal-comma", "0.89 or 0 and 89", "decimal comma"),
    ("about 0.9 g/mL", "about", "how far off", "no ends"),
]

REFUSED = [
    ("", "blank", "blank is not zero", "a blank"),
    ("N/A", "unreadable", "not read as a density", "no figure"),
    ("0.1 g/mL", "out-of-range", "between 0.2 and 25", "too light"),
    ("26 g/mL", "out-of-range", "between 0.2 and 25", "heavier than any element"),
    ("0.89 kg/m3", "out-of-range", "between 0.2 and 25", "the wrong unit"),
    ("< 0.9 g/mL", "range-bounds", "not a density", "a bound"),
    ("0.89 (60/60)", "unreadable", "water at 60 °C", "water that is not tabled"),
    ("0.89 @ 20", "unreadable", "not read as a density", "20 what?"),
    ("0.895-0.885", "range-order", "lower end first", "reversed"),
    ("0.89 g/mL - 890 kg/m3", "units-mixed", "different units", "two units"),
    ("SG 0.89 g/mL", "unreadable", "not read as a density", "one or the other"),
    ("0.89 g/mL (20/20)", "unreadable", "not read as a density", "one or the other"),
    ("15/25", "unreadable", "not read as a density", "no figure before it"),
]


@pytest.mark.parametrize(("text", "shape", "celsius", "reason"), READ)
def test_density_is_read_exactly(text, shape, celsius, reason):
    value = read_density(text)
    assert value.range == span(shape), reason
    assert value.at == (None if celsius is None else Fraction(celsius)), reason
    assert value.printed == text


@pytest.mark.parametrize(("text", "code", "match", "reason"), ASKED)
def test_more_than_one_meaning_is_asked_about(text, code, match, reason):
    asks(read_density, text, code, match)


@pytest.mark.parametrize(("text", "code", "match", "reason"), REFUSED)
def test_what_is_no_density_is_refused(text, code, match, reason):
    refuses(read_density, text, code, match)


def test_density_prints_tidily():
    printed = print_density(read_density("885-895 kg/m3 (20 °C)"))
    assert printed == "0.885 to 0.895 g/mL at 20 °C"
    assert print_density(read_density("0.89 g/mL @ 60 °F")) == "0.89 g/mL at 60 °F"
