"""Every figure can be opened: each step replays, each printed line works out."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from blendcheck.quantity import Base
from tests.blend.worked import NotALineError, work
from tests.blurred.asking import Answer, ask
from tests.blurred.draw import draw

SEEDS = st.integers(min_value=0, max_value=10**6)
WORLDS = settings(max_examples=40, deadline=None)


def opened(seed) -> Answer | None:
    """A world that was checked, with everything asked of it that prints steps."""
    world = draw(seed)[0]
    answer = ask(world)
    if not isinstance(answer, Answer):
        return None
    totals = answer.totals
    for base in (Base.WET, totals.powder_base):
        if answer.case.working.range(totals.whole(base)).low:
            totals.load(base)
    load = totals.load()
    totals.unlisted()
    for one in (load, *(totals.material(m) for m in answer.case.materials.material)):
        if one.traced:
            totals.per_use(one)
            totals.batch_grams(one)
            for traced in one.traced:
                totals.traced_grams(traced)
    return answer


@given(SEEDS)
@WORLDS
def test_every_step_replays(seed):
    answer = opened(seed)
    if answer is None:
        return
    working = answer.case.working
    for name, step in working.steps.items():
        assert working.replay(name) == step.value, name


@given(SEEDS)
@WORLDS
def test_every_printed_line_comes_to_what_it_says(seed):
    answer = opened(seed)
    if answer is None:
        return
    working = answer.case.working
    for name, step in working.steps.items():
        span = working.range(name)
        for line in working.lines(name):
            worked = work(line)
            assert worked.holds, (seed, name, step.rule, line, float(worked.value))
            low = worked.end == "low end"
            result = span.low if low else span.high
            assert result is not None
            assert worked.shows(result), (seed, name, step.rule, line, float(result))
            assert worked.end is not None or span.low == span.high, (seed, name, line)


@given(SEEDS)
@WORLDS
def test_every_range_prints_its_ends(seed):
    """Both ends; a low end of nothing, or one worked before, may be left out."""
    answer = opened(seed)
    if answer is None:
        return
    working = answer.case.working
    for name, step in working.steps.items():
        span = working.range(name)
        ends = {work(line).end for line in working.lines(name)}
        handed_on = step.rule == "room in one lot" or span.low == 0
        if span.low != span.high:
            assert "high end" in ends, (seed, name, step.rule)
            assert handed_on or "low end" in ends, (seed, name, step.rule)


@pytest.mark.parametrize(
    ("line", "value", "holds"),
    [
        ("low end: (45 × 12 + 100 × 35) ÷ 1474 = 2.74084 %", "4040/1474", True),
        ("high end: 100 - 20 - 0.8 = 79.2 %", "792/10", True),
        ("0.5 × (3 + 1) ÷ 4 = 0.5 g", "1/2", True),
        ("2 × 3 = 6.1 g", "6", False),
        ("1 ÷ 3 = 0.333334 g", "1/3", True),
        ("1 ÷ 3 = 0.333336 g", "1/3", False),
    ],
)
def test_the_calculator_itself(line, value, holds):
    worked = work(line)
    assert worked.value == Fraction(value)
    assert worked.holds is holds


@pytest.mark.parametrize("line", ["2 + = 2 g", "(2 + 3 = 5 g", "two = 2 g", "2 × 3"])
def test_the_calculator_refuses(line):
    with pytest.raises((NotALineError, IndexError)):
        work(line)
