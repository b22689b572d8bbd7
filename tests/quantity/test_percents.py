"""Shares of a composition, in the forms of data sheets and reports."""

import pytest

from blendcheck.quantity import Base, print_percent, read_percent
from tests.quantity.cases import asks, refuses, span

READ = [
    # text, range in percent, reason
    ("32.41", "[32.41, 32.41]", "a bare figure of a table in percent"),
    ("10-25 %", "[10, 25]", "hyphen"),
    ("10–25%", "[10, 25]", "en dash"),
    ("10 \u2014 25", "[10, 25]", "em dash"),
    ("10 to 25", "[10, 25]", "in words, no unit"),
    ("10 % - 25 %", "[10, 25]", "sign at both ends"),
    ("1 – 5", "[1, 5]", "as a data sheet prints it"),
    ("≥ 10 - < 25", "[10, 25)", "the form of a European data sheet"),
    (">= 10 - <= 25 %", "[10, 25]", "both ends included"),
    ("> 10 - 25", "(10, 25]", "low end excluded"),
    ("≥10 <25 %", "[10, 25)", "no dash"),
    (">= 10 and < 25 %", "[10, 25)", "joined in words"),
    ("<0.1 %", "[0, 0.1)", "a share starts at 0"),
    ("≤ 5", "[0, 5]", "end included"),
    ("up to 5 %", "[0, 5]", "in words"),
    ("less than 0.1 %", "[0, 0.1)", "in words"),
    (">95%", "(95, 100]", "a share cannot exceed 100"),
    ("≥95", "[95, 100]", "end included"),
    ("> 0 %", "(0, 100]", "there is some"),
    ("100 %", "[100, 100]", "all of it"),
    ("0", "[0, 0]", "a written zero is a figure"),
    ("<= 0", "[0, 0]", "none at all"),
    ("10 ppm", "[0.001, 0.001]", "parts per million, exactly"),
    ("10-25 ppm", "[0.001, 0.0025]", "range in ppm"),
    ("<10 mg/kg", "[0, 0.001)", "the same by weight"),
]

WITH_BASIS = [
    ("32 % w/w", "w/w", "by weight"),
    ("32 wt. %", "w/w", "with a dot"),
    ("32 % by weight", "w/w", "in words"),
    ("32 mg/kg", "w/w", "a mass in a mass"),
    ("32 area %", "area", "gas chromatograph"),
    ("32 % (GC area)", "area", "in brackets"),
    ("32 % (GC)", "area", "so certificates print a purity"),
    ("70 % v/v", "v/v", "alcohol"),
    ("70 vol%", "v/v", "no space"),
    ("32 %", None, "nothing said"),
    ("32 ppm", None, "nothing said"),
]

WITHOUT_FIGURE = [
    # text, range, detected
    ("tr", "(0, -]", True),
    ("Trace", "(0, -]", True),
    ("tr (<0.05 %)", "(0, 0.05)", True),
    ("traces < 0.1", "(0, 0.1)", True),
    ("n.d.", "[0, -]", False),
    ("ND", "[0, -]", False),
    ("not detected", "[0, -]", False),
    ("n.d. (<10 ppm)", "[0, 0.001)", False),
    ("n.d. < 0.01 %", "[0, 0.01)", False),
    ("n.d. (LOD 10 ppm)", "[0, 0.001)", False),
    ("not detected (limit: 0.01 %)", "[0, 0.01)", False),
    ("n.d. (≤ 10 ppm)", "[0, 0.001]", False),
]

ASKED = [
    ("0,5", "decimal-comma", "0.5 or 0 and 5", "decimal comma"),
    ("10,0 - 25,0 %", "decimal-comma", "10.0 or 10 and 0", "in a range"),
    ("ca. 10 %", "about", "Write a range", "no ends"),
    ("05 %", "leading-zero", "Write 0.5 or 5", "0.5 that lost its point"),
    ("2 % of the total", "percent-of-what", "which mass", "which total?"),
]

REFUSED = [
    ("", "blank", "blank is not zero", "blank is never 0"),
    ("-", "dash", "is not zero", "a dash is no figure"),
    ("–", "dash", "is not zero", "nor is an en dash"),
    ("N/A", "not-applicable", "is not zero", "no figure"),
    ("balance", "balance", "is not zero", "what is left is not known yet"),
    ("q.s.", "balance", "is not zero", "as much as it takes"),
    ("unknown", "unreadable", "not read as a share", "no figure"),
    ("yes", "unreadable", "not read as a share", "no figure"),
    ("10 g", "unreadable", "not read as a share", "an amount, no share"),
    ("10/25", "unreadable", "not read as a share", "a fraction or a range?"),
    ("-5 %", "negative", "minus sign", "or the end of a range that lost its start"),
    ("101 %", "out-of-range", "between 0 and 100", "more than all"),
    ("> 100", "out-of-range", "between 0 and 100", "nothing is left"),
    ("< 0", "out-of-range", "between 0 and 100", "nothing is left"),
    ("10-250 %", "out-of-range", "between 0 and 100", "a digit too many"),
    ("25-10 %", "range-order", "lower end first", "reversed"),
    ("10 - < 10", "range-order", "no number lies", "empty"),
    ("<10 - 25", "range-bounds", "do not make a range", "which way?"),
    ("10 - > 25", "range-bounds", "do not make a range", "which way?"),
    ("10 and 25 %", "range-bounds", "do not make a range", "two figures"),
    ("10 % - 2500 ppm", "units-mixed", "different units", "two units"),
    ("10 ppm - 0.1 %", "units-mixed", "different units", "two units"),
    ("n.d. (10 ppm)", "detection-limit", "detection limit", "found or the limit?"),
    ("n.d. (10-20 ppm)", "detection-limit", "detection limit", "not one limit"),
    ("1.000.000", "number", "plain digits", "two points"),
    ("3 2.41", "number-gap", "gap inside", "a space inside"),
]


@pytest.mark.parametrize(("text", "shape", "reason"), READ)
def test_share_is_read_exactly(text, shape, reason):
    share = read_percent(text)
    assert share.range == span(shape), reason
    assert share.detected
    assert share.printed == text


@pytest.mark.parametrize(("text", "basis", "reason"), WITH_BASIS)
def test_basis_is_kept(text, basis, reason):
    assert read_percent(text).basis == basis, reason


@pytest.mark.parametrize(("text", "shape", "detected"), WITHOUT_FIGURE)
def test_trace_and_not_detected(text, shape, detected):
    share = read_percent(text)
    assert share.range == span(shape)
    assert share.detected is detected


def test_base_is_kept():
    assert read_percent("2 % of finished").base is Base.FINISHED
    assert read_percent("2 % w/w of the wet mix").base is Base.WET


@pytest.mark.parametrize(("text", "code", "match", "reason"), ASKED)
def test_more_than_one_meaning_is_asked_about(text, code, match, reason):
    asks(read_percent, text, code, match)


@pytest.mark.parametrize(("text", "code", "match", "reason"), REFUSED)
def test_what_is_no_share_is_refused(text, code, match, reason):
    refuses(read_percent, text, code, match)


PRINTED = [
    ("10-25", "10 to 25 %"),
    (">= 10 - < 25", "≥ 10 to < 25 %"),
    ("<0.1 %", "< 0.1 %"),
    ("0-5 %", "≤ 5 %"),
    (">95%", "> 95 %"),
    ("95-100", "≥ 95 %"),
    ("tr", "trace"),
    ("ND", "not detected"),
    ("n.d. (<10 ppm)", "not detected (< 0.001 %)"),
    ("32 area %", "32 % (GC area)"),
    ("32 wt %", "32 % w/w"),
    ("2% of finished", "2 % of the finished product"),
]


@pytest.mark.parametrize(("text", "printed"), PRINTED)
def test_share_prints_tidily(text, printed):
    assert print_percent(read_percent(text)) == printed
