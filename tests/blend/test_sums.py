"""Sums that are made faster give what the plain ones give."""

import itertools
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from blendcheck.blend.solve import TOTALS, LineRule, solve_total, solve_totals
from blendcheck.interval import exact_sum
from blendcheck.records.mass import NOTHING, Key, Mass

pytestmark = pytest.mark.broad

NUMBERS = st.fractions(-1000, 1000, max_denominator=10_000)
SHARES = st.fractions(0, 1, max_denominator=1000)
MASSES = st.builds(
    Mass,
    st.fractions(0, 1000, max_denominator=1000),
    st.dictionaries(
        st.sampled_from([Key("drop"), Key("cup")]), NUMBERS.filter(bool), max_size=2
    ),
)
LINES = st.builds(
    LineRule,
    st.just("fixed"),
    MASSES,
    st.just(Fraction(0)),
    SHARES,
    SHARES,
    SHARES,
)
PERCENT = LineRule(
    "of finished", NOTHING, Fraction(2), Fraction(1), Fraction(0), Fraction(0)
)


@given(st.lists(NUMBERS, max_size=12))
def test_one_denominator_gives_the_sum_of_pairs(numbers):
    assert exact_sum(numbers) == sum(numbers, Fraction(0))


@given(st.lists(MASSES, max_size=6))
def test_masses_add_up_in_any_grouping(masses):
    pairs = list(itertools.accumulate(masses, initial=NOTHING))
    assert Mass.total(masses) == pairs[-1]


@given(st.lists(LINES, min_size=1, max_size=5), st.booleans())
def test_one_total_is_that_of_the_whole_solution(lines, sloped):
    lines = [*lines, PERCENT] if sloped else lines
    whole = solve_totals(lines, None)
    assert {name: solve_total(lines, None, name) for name in TOTALS} == whole


@given(st.lists(LINES, min_size=1, max_size=5))
def test_totals_of_weighed_lines_are_their_weighted_sums(lines):
    found = solve_totals(lines, None)
    expected = [
        Mass.total(line.mass.times(line.weights()[i]) for line in lines)
        for i in range(4)
    ]
    assert [found[name] for name in TOTALS] == [*expected, NOTHING]
