"""Caps of certificates and their states."""

from fractions import Fraction

import pytest

from blendcheck.quantity import (
    Limit,
    Missing,
    NoRestriction,
    NotAdded,
    NotApplicable,
    NotPermitted,
    print_cap,
    read_cap,
)
from tests.quantity.cases import asks, refuses

LIMITS = [
    ("14.46", "14.46", "a bare figure"),
    ("5 %", "5", "with its sign"),
    ("5.00%", "5", "zeros behind"),
    ("≤ 5 %", "5", "at most"),
    ("max 5 %", "5", "in words"),
    ("max. 5", "5", "with a dot"),
    ("up to 5 %", "5", "in words"),
    ("not more than 0.2 %", "0.2", "in words"),
    ("5 % w/w", "5", "the basis of caps"),
    ("5 % of the finished product", "5", "the base of caps"),
    ("100 ppm", "0.01", "parts per million"),
    ("99.99", "99.99", "just below all"),
]

STATES = [
    ("0", NotPermitted, "a cap of 0"),
    ("0.00", NotPermitted, "the same with decimals"),
    ("0 %", NotPermitted, "the same with its sign"),
    ("Not permitted", NotPermitted, "in words"),
    ("Prohibited", NotPermitted, "in words"),
    ("not approved", NotPermitted, "in words"),
    ("banned", NotPermitted, "in words"),
    ("100", NoRestriction, "no limit from restricted components"),
    ("100.00 %", NoRestriction, "the same with decimals"),
    ("Not restricted", NoRestriction, "in words"),
    ("No restriction", NoRestriction, "in words"),
    ("No limit", NoRestriction, "in words"),
    ("unlimited", NoRestriction, "in words"),
    ("N/A (no restriction)", NoRestriction, "the footnote beside it"),
    ("-", Missing, "a dash"),
    ("–", Missing, "an en dash"),
    ("", Missing, "a blank is not 0 and not 100"),
    ("  ", Missing, "spaces"),
    ("not stated", Missing, "in words"),
]

ADDED = [
    ("0.5 % (from natural sources only)", "0.5"),
    ("0.5 % from natural sources", "0.5"),
    ("not added; max 0.01 %", "0.01"),
    ("Not permitted as an added ingredient, max. 0.01 %", "0.01"),
    ("not as an added ingredient; max 0.01 %", "0.01"),
    ("0.01 % (not added)", "0.01"),
]

FOOTNOTES = [
    # text, footnote, class, reason
    ("N/A", "N/A = no restriction", NoRestriction, "the footnote wins"),
    ("n/a", '"N/A" means there are no restrictions.', NoRestriction, "a sentence"),
    ("N/A*", "* no restriction", NoRestriction, "with a star"),
    ("N/A", "N/A: not restricted. See page 2.", NoRestriction, "the first sentence"),
    ("N/A (see page 2)", "N/A = no limit", NoRestriction, "one beside, one below"),
    ("N/A", "", NotApplicable, "nothing explains it"),
    ("N/A", "not intended for this use", NotApplicable, "its own words"),
    ("N/A", "N/A = not applicable", NotApplicable, "says the same again"),
    ("N/A", "N/A does not mean no restriction", NotApplicable, "a denial"),
    ("N/A", "N/A = no restriction unless sprayed", NotApplicable, "a condition"),
    ("N/A", "0 = no restriction", NotApplicable, "explains another print"),
    (
        "N/A",
        "N/A = no restriction; N/A = not permitted",
        NotApplicable,
        "contradicts itself",
    ),
    ("N/A", "N/A = not permitted", NotPermitted, "the footnote wins here too"),
    ("0", "0 = not restricted", NoRestriction, "a 0 that is explained"),
    ("0", "no restriction", NotPermitted, "a remark does not undo a 0"),
    ("-", "- = not restricted", NoRestriction, "a dash that is explained"),
    ("-", "see page 2", Missing, "not explained"),
    ("", "no restriction", Missing, "a blank stays a blank"),
    ("0.5 %", "from natural sources only", NotAdded, "narrows the figure"),
    ("5 %", "N/A = no restriction", Limit, "explains another print"),
]

ASKED = [
    ("5,5", "decimal-comma", "5.5 or 5 and 5", "decimal comma"),
    ("about 5 %", "about", "how far off", "not exact"),
    ("5-10 %", "cap-range", "one figure", "which end?"),
    ("<5 %", "cap-bound", "figure itself", "is 5 itself allowed?"),
    ("> 5 %", "cap-bound", "figure itself", "a cap from below?"),
    ("not added", "not-added-limit", "no limit on what oils bring", "how much?"),
    ("05", "leading-zero", "0.5 or 5", "a lost point?"),
]

REFUSED = [
    ("100.01", "out-of-range", "between 0 and 100", "more than all"),
    ("-5", "negative", "minus sign", "less than nothing"),
    ("5 % v/v", "cap-base", "% w/w of the finished", "another basis"),
    ("5 % of the blend", "cap-base", "% w/w of the finished", "another base"),
    ("5 g", "unreadable", "not read as a cap", "an amount"),
    ("5 %*", "unreadable", "not read as a cap", "what does the star say?"),
    ("N/A (", "unreadable", "not read as a cap", "cut off"),
    ("nil", "unreadable", "not read as a cap", "none allowed, or none set?"),
    ("none", "unreadable", "not read as a cap", "none allowed, or none set?"),
    ("see note", "unreadable", "not read as a cap", "no figure"),
    ("1/2 %", "unreadable", "not read as a cap", "no certificate prints it"),
]


@pytest.mark.parametrize(("text", "percent", "reason"), LIMITS)
def test_limit(text, percent, reason):
    assert read_cap(text) == Limit(text, Fraction(percent)), reason


@pytest.mark.parametrize(("text", "kind", "reason"), STATES)
def test_state(text, kind, reason):
    assert read_cap(text) == kind(text), reason


@pytest.mark.parametrize(("text", "percent"), ADDED)
def test_not_as_an_added_ingredient(text, percent):
    assert read_cap(text) == NotAdded(text, Fraction(percent))


def test_not_added_with_a_limit_of_nothing_is_not_permitted():
    assert isinstance(read_cap("not added; max 0 %"), NotPermitted)


@pytest.mark.parametrize(("text", "footnote", "kind", "reason"), FOOTNOTES)
def test_footnote(text, footnote, kind, reason):
    cap = read_cap(text, footnote)
    assert isinstance(cap, kind), reason
    assert read_cap(cap.printed) == cap, "the print with its footnote reads the same"


def test_the_footnote_is_recorded():
    assert (
        read_cap("N/A", "N/A = no restriction").printed == "N/A (N/A = no restriction)"
    )
    cap = read_cap("N/A", "not intended for this use")
    assert cap == NotApplicable("N/A (not intended for this use)", cap.footnote)
    assert cap.footnote == "not intended for this use"


@pytest.mark.parametrize(("text", "code", "match", "reason"), ASKED)
def test_more_than_one_meaning_is_asked_about(text, code, match, reason):
    asks(read_cap, text, code, match)


@pytest.mark.parametrize(("text", "code", "match", "reason"), REFUSED)
def test_what_is_no_cap_is_refused(text, code, match, reason):
    refuses(read_cap, text, code, match)


PRINTED = [
    ("<= 5.0", "5 %"),
    ("0.00", "not permitted"),
    ("100", "not restricted"),
    ("N/A", "N/A"),
    ("n/a (see page 2)", "N/A (see page 2)"),
    ("", "-"),
    ("0.5 % (from natural sources only)", "not as an added ingredient; max 0.5 %"),
]


@pytest.mark.parametrize(("text", "printed"), PRINTED)
def test_cap_prints_tidily(text, printed):
    assert print_cap(read_cap(text)) == printed
