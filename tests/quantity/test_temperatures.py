"""Temperatures and flash points, in the forms of data sheets."""

import pytest

from blendcheck.quantity import print_temperature, read_temperature
from tests.quantity.cases import asks, refuses, span

READ = [
    # text, range in degrees Celsius, cup, reason
    ("62 °C", "[62, 62]", None, "the plain case"),
    ("62°C", "[62, 62]", None, "no space"),
    ("62 C", "[62, 62]", None, "no degree sign"),
    ("62 deg C", "[62, 62]", None, "typed out"),
    ("62 ºC", "[62, 62]", None, "the ordinal sign in place of the degree sign"),
    ("62 \u2103", "[62, 62]", None, "one sign for both"),
    ("62 degrees Celsius", "[62, 62]", None, "in words"),
    ("212 °F", "[100, 100]", None, "exact in both"),
    ("143 F", "[185/3, 185/3]", None, "61.67 °C, kept exact"),
    ("335.15 K", "[62, 62]", None, "kelvins"),
    ("-5 °C", "[-5, -5]", None, "below zero"),
    ("\u22125 °C", "[-5, -5]", None, "the real minus sign"),
    ("-40 °F", "[-40, -40]", None, "where both scales meet"),
    (">93 °C", "(93, -]", None, "the test stopped there"),
    ("> 200°F", "(280/3, -]", None, "93.33 °C"),
    ("≥ 93 °C", "[93, -]", None, "included"),
    ("above 93 °C", "(93, -]", None, "in words"),
    ("< 23 °C", "[-, 23)", None, "below"),
    ("60-65 °C", "[60, 65]", None, "range"),
    ("60 °C – 65 °C", "[60, 65]", None, "unit at both ends"),
    ("-20 to -10 °C", "[-20, -10]", None, "below zero, in words"),
    ("≥ 23 - < 60 °C", "[23, 60)", None, "a class of liquids"),
    ("62 °C closed cup", "[62, 62]", "closed", "method behind"),
    ("62 °C (closed cup)", "[62, 62]", "closed", "in brackets"),
    ("62 °C, CC", "[62, 62]", "closed", "short"),
    ("62 °C TCC", "[62, 62]", "closed", "Tag closed cup"),
    (">93 °C PMCC", "(93, -]", "closed", "Pensky-Martens closed cup"),
    ("62 C - open cup", "[62, 62]", "open", "behind a dash"),
    ("62 °C (COC)", "[62, 62]", "open", "Cleveland open cup"),
    ("closed cup: 62 °C", "[62, 62]", "closed", "method in front"),
    ("93 °C (200 °F)", "[93, 93]", None, "the first is kept: 200 °F is 93.3 °C"),
    ("200 °F (93 °C)", "[280/3, 280/3]", None, "the first is kept"),
    ("> 93 °C (> 200 °F)", "(93, -]", None, "both are bounds"),
    (">93 °C (200 °F) PMCC", "(93, -]", "closed", "one sign for both"),
    ("62 °C / 144 °F", "[62, 62]", None, "with a slash"),
]

UNKNOWN = [
    "",
    "  ",
    "-",
    "–",
    "N/A",
    "n/a",
    "no data",
    "Not applicable",
    "n.d.",
    "none",
]

ASKED = [
    ("170", "unit-missing", "170 °C, or 170 °F = 76.7 °C", "the classic"),
    ("> 93", "unit-missing", "93 °F = 33.9 °C", "a bound as well"),
    ("170°", "unit-missing", "no unit", "half a unit"),
    ("62 CC", "unit-missing", "no unit", "CC is the cup"),
    ("62,5 °C", "decimal-comma", "62.5", "decimal comma"),
    ("ca. 62 °C", "about", "Write a range", "no ends"),
    ("93 °C (210 °F)", "units-disagree", "not the same", "98.9 °C"),
    ("93 °C (> 200 °F)", "units-disagree", "not the same", "a figure or a bound?"),
    ("062 °C", "leading-zero", "0.62 or 62", "a lost point?"),
]

REFUSED = [
    ("hot", "unreadable", "not read as a temperature", "no number"),
    ("62 °X", "unreadable", "not read as a temperature", "no such unit"),
    ("62 °C -", "unreadable", "not read as a temperature", "a range cut off"),
    ("62 °C open closed", "unreadable", "not read as a temperature", "which?"),
    ("closed cup: 62 °C open cup", "unreadable", "not read", "which?"),
    ("93/200 °F", "unreadable", "not read as a temperature", "no fraction: °C/°F"),
    ("5--10 °C", "unreadable", "not read as a temperature", "-10 or a slip?"),
    ("-20 -10 °C", "range-bounds", "do not make a range", "-10 or 10?"),
    ("65-60 °C", "range-order", "lower end first", "reversed"),
    ("60 °C - 150 °F", "units-mixed", "different units", "two units"),
    ("-300 °C", "below-absolute-zero", "absolute zero", "impossible"),
    ("-1 K", "below-absolute-zero", "absolute zero", "impossible"),
]


@pytest.mark.parametrize(("text", "shape", "cup", "reason"), READ)
def test_temperature_is_read_exactly(text, shape, cup, reason):
    value = read_temperature(text)
    assert value.range == span(shape), reason
    assert value.cup == cup, reason
    assert value.printed == text


@pytest.mark.parametrize("text", UNKNOWN)
def test_no_figure_is_unknown_and_keeps_its_print(text):
    value = read_temperature(text)
    assert value.range == span("[-, -]")
    assert value.printed == text


@pytest.mark.parametrize(("text", "code", "match", "reason"), ASKED)
def test_more_than_one_meaning_is_asked_about(text, code, match, reason):
    asks(read_temperature, text, code, match)


@pytest.mark.parametrize(("text", "code", "match", "reason"), REFUSED)
def test_what_is_no_temperature_is_refused(text, code, match, reason):
    refuses(read_temperature, text, code, match)


def test_the_unit_may_be_left_out_where_it_is_known():
    assert read_temperature("62", need_unit=False).range == span("[62, 62]")
    assert read_temperature("> 62 CC", need_unit=False).cup == "closed"
    assert read_temperature("143 F", need_unit=False).range == span("[185/3, 185/3]")


PRINTED = [
    (">93C", "> 93 °C"),
    ("200F", "200 °F"),
    ("212 F", "100 °C"),
    ("62 °C (PMCC)", "62 °C closed cup"),
    ("N/A", "no data"),
    ("-20 to -10 °C", "-20 to -10 °C"),
]


@pytest.mark.parametrize(("text", "printed"), PRINTED)
def test_temperature_prints_tidily(text, printed):
    assert print_temperature(read_temperature(text)) == printed
