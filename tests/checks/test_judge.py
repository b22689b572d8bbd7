"""The one function that makes an outcome, against every truth that could be there.

A truth is a number inside what is documented plus something up to what no list
shows. ``over`` may be said only if every truth is above the cap, ``within`` only if
none is. The grid of truths is laid out here, with ends that are left out where they
are excluded, so nothing of :func:`judge` is used to say what is right.
"""

from fractions import Fraction
from itertools import product

import pytest

from blendcheck.checks.judge import cap_percent, judge
from blendcheck.interval import Range
from blendcheck.quantity import Mark, read_cap
from blendcheck.records.finding import Finding, Outcome, Say, overall

HALF = Fraction(1, 2)


def _cap(percent):
    return read_cap(f"{percent} %" if percent else "not permitted")


def _hair(low, high, *, low_open, high_open):
    """Numbers of a range: its ends where they count, and some between."""
    tiny = Fraction(1, 1000)
    inner = [low + (high - low) * Fraction(n, 8) for n in range(1, 8)]
    found = [x for x in inner if low < x < high]
    if high > low:
        found += [low + tiny, high - tiny]
    if not low_open:
        found.append(low)
    if not high_open:
        found.append(high)
    return found


def _says(low, high, low_open, high_open, undocumented, cap):
    """What may be said, from the truths alone."""
    documented = _hair(low, high, low_open=low_open, high_open=high_open)
    more = _hair(0, undocumented, low_open=False, high_open=False)
    truths = [x + y for x in documented for y in more]
    if all(x > cap for x in truths):
        return Outcome.OVER
    if all(x <= cap for x in truths):
        return Outcome.WITHIN
    if any(x <= cap for x in documented) and any(x > cap for x in documented):
        return Outcome.STRADDLES
    return Outcome.UNKNOWN


CASES = [
    (low, high, low_open, high_open, more, cap)
    for low, high, more, cap in product(range(4), range(4), range(3), range(1, 5))
    for low_open, high_open in product((False, True), repeat=2)
    if low < high or (low == high and not low_open and not high_open)
]


def test_every_outcome_is_what_every_possible_truth_says():
    seen = set()
    for low, high, low_open, high_open, more, cap in CASES:
        documented = Range(Fraction(low), Fraction(high), low_open, high_open)
        # what is not shown can be all of `more`, so its high end counts
        most = Range(documented.low, Fraction(high + more), low_open, high_open)
        found = judge(documented, most, most, _cap(cap))
        told = _says(low, high, low_open, high_open, more, cap)
        assert found is told, (documented, more, cap)
        seen.add(found)
    assert seen == set(Outcome)


def test_a_cap_of_zero_is_within_only_where_there_is_nothing():
    none, some = Range.at(0), Range(Fraction(0), Fraction(1))
    more = Range(Fraction(0), Fraction(1), low_open=True)
    cap = read_cap("not permitted")
    assert judge(none, none, none, cap) is Outcome.WITHIN
    assert judge(some, some, some, cap) is Outcome.STRADDLES
    assert judge(more, more, more, cap) is Outcome.OVER  # above 0, if ever so little


def test_a_missing_high_end_is_unknown_and_never_straddles():
    # both ends must rest on printed figures to say "may be over"
    half_open = Range(Fraction(0), None)
    assert judge(half_open, half_open, half_open, _cap(5)) is Outcome.UNKNOWN
    above = Range(Fraction(6), None)
    assert judge(above, above, above, _cap(5)) is Outcome.OVER


@pytest.mark.parametrize(
    ("strict", "expected"),
    [
        (Range.between(1, 4), Outcome.WITHIN),
        (Range.between(1, 6), Outcome.UNKNOWN),  # within on the published range only
    ],
)
def test_within_on_a_published_range_alone_is_unknown(strict, expected):
    most = Range.between(1, 4)
    assert judge(most, most, strict, _cap(5)) is expected


def test_a_published_density_turns_within_to_unknown_and_nothing_else():
    doubt = frozenset({Mark.PUBLISHED_NOT_LOT})
    low, across, high = Range.between(1, 4), Range.between(1, 6), Range.between(6, 7)
    assert judge(low, low, low, _cap(5), doubt) is Outcome.UNKNOWN
    assert judge(across, across, across, _cap(5), doubt) is Outcome.STRADDLES
    assert judge(high, high, high, _cap(5), doubt) is Outcome.OVER


def test_a_mark_that_is_no_doubt_of_the_lot_does_not_weaken_a_within():
    low = Range.between(1, 4)
    marks = frozenset(Mark) - {Mark.PUBLISHED_NOT_LOT}
    assert judge(low, low, low, _cap(5), marks) is Outcome.WITHIN


@pytest.mark.parametrize(
    ("printed", "footnote", "percent", "outcome"),
    [
        ("5 %", "", Fraction(5), Outcome.WITHIN),
        ("0", "", Fraction(0), Outcome.OVER),
        ("not permitted", "", Fraction(0), Outcome.OVER),
        ("not added; max 0.5 %", "", HALF, Outcome.OVER),
        ("Not restricted", "", None, None),
        ("100", "", None, None),
        ("N/A", "", None, Outcome.UNKNOWN),
        ("N/A", "N/A = see the supplier", None, Outcome.UNKNOWN),
        ("N/A", "N/A = no restriction", None, None),
        ("-", "", None, Outcome.UNKNOWN),
        ("", "", None, Outcome.UNKNOWN),
    ],
)
def test_each_state_of_a_cap_has_its_own_outcome(printed, footnote, percent, outcome):
    cap, three = read_cap(printed, footnote), Range.at(3)
    assert cap_percent(cap) == percent
    assert judge(three, three, three, cap) is outcome


def _limit(outcome, *, counts=True, kind="limit"):
    return Finding(kind, "caps", "x", Say("caps.none"), outcome, counts)


def test_the_overall_outcome_is_the_worst_that_counts():
    order = [Outcome.OVER, Outcome.STRADDLES, Outcome.UNKNOWN, Outcome.WITHIN]
    for n, worst in enumerate(order):
        assert overall([_limit(o) for o in reversed(order[n:])]) is worst
    assert list(Outcome) == order


def test_what_does_not_count_and_what_is_no_limit_has_no_part_in_it():
    within = _limit(Outcome.WITHIN)
    assert overall([within, _limit(Outcome.OVER, counts=False)]) is Outcome.WITHIN
    assert overall([within, _limit(None, kind="fact")]) is Outcome.WITHIN


def test_nothing_to_compare_with_is_unknown():
    assert overall([]) is Outcome.UNKNOWN
    assert overall([_limit(None, kind="caution")]) is Outcome.UNKNOWN
