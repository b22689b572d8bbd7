"""Blurred truth: draw a true world, blur it into papers, check it, compare.

Never ``within`` where the truth is over, nor ``over`` where it is within; decided
wherever the papers are full; every range as tight as brute force makes it; more
exact figures keep what was decided, and missing ones never decide. Left out of that
last check, because a doubt goes away with the line: an open match, and a part that
a list prints beside its own group (both lines are a range, for papers mean by the
group's line the total or the rest; the group's line alone is the group).

A published range may be too low for the lot, not too high: an ``over`` that rests on
it stays, a ``within`` does not. Peak areas are taken for percents by weight.

400 worlds in an ordinary run. ``BLENDCHECK_WORLDS=100000`` runs that many, on two
cores, with the same seeds from 0 upwards.
"""

import os
from dataclasses import replace

import pytest

from blendcheck.checks.judge import cap_percent
from blendcheck.records.finding import Outcome
from tests.blurred.asking import check_caps
from tests.blurred.draw_shelf import FULL, MIXED, PUBLISHED, RANGES, SHEETS, UNWEIGHED
from tests.blurred.run import as_text, judge, many, some
from tests.blurred.tally import Tally, summary

WORLDS = int(os.environ.get("BLENDCHECK_WORLDS", "400"))
FEW = 2000

FLOORS = {
    FULL: 1.0,
    UNWEIGHED: 0.7,
    RANGES: 0.65,
    SHEETS: 0.55,
    PUBLISHED: 0.5,
    MIXED: 0.4,
}
"""Share of the limits that has to come out within or over, by kind of papers."""


def useful(tally: Tally) -> bool:
    """Whether enough was decided for the tool to be of any use."""
    return all(tally.share(kind) >= floor for kind, floor in FLOORS.items())


@pytest.fixture(scope="module")
def seen(keep_summary):
    if WORLDS <= FEW:
        tally = some(0, WORLDS)
    else:
        for tally in many(WORLDS):
            print(tally.worlds, "worlds,", len(tally.failures), "failures", flush=True)
    keep_summary(summary(tally))
    return tally


@pytest.mark.timeout(0 if WORLDS > FEW else 300)
def test_nothing_that_it_says_is_wrong(seen):
    found = "\n".join(f"{seed}: {text}" for seed, text in seen.failures[:20])
    worlds = "\n\n".join(as_text(seed) for seed in {s for s, _ in seen.failures[:20]})
    assert not seen.failures, f"{len(seen.failures)} wrong:\n{found}\n{worlds[:20_000]}"


def test_enough_is_decided(seen):
    assert seen.share(FULL) == 1
    assert useful(seen)


def test_the_worlds_test_what_they_should(seen):
    assert seen.worlds == WORLDS
    for outcome in Outcome:
        assert seen.outcomes[outcome] > WORLDS / 10
    assert seen.on_the_cap > WORLDS / 10
    assert seen.equal > WORLDS
    assert seen.held > WORLDS / 2
    assert seen.narrowed > WORLDS / 3
    assert seen.taken > WORLDS / 2
    assert seen.turned > WORLDS / 20


def answering(outcome):
    """A tool that gives one answer to every limit."""

    def tool(case):
        for finding in check_caps(case):
            if finding.kind == "limit" and finding.value is not None:
                yield replace(finding, outcome=outcome)
            else:
                yield finding

    return tool


def middle(case):
    """A tool that compares the middle of a range with the cap."""
    for finding in check_caps(case):
        percent = None if finding.cap is None else cap_percent(finding.cap.cap)
        if finding.value is None or percent is None:
            yield finding
            continue
        span = case.working.range(finding.value)
        over = (span.low + span.high) / 2 > percent
        yield replace(finding, outcome=Outcome.OVER if over else Outcome.WITHIN)


def floating(case):
    """A tool that compares binary floats."""
    for finding in check_caps(case):
        percent = None if finding.cap is None else cap_percent(finding.cap.cap)
        if finding.outcome is not Outcome.WITHIN or not percent:
            yield finding
            continue
        span = case.working.range(finding.value)
        grams = 1474.1
        is_over = float(span.high) / 100 * grams > float(percent) * grams / 100
        yield replace(finding, outcome=Outcome.OVER if is_over else Outcome.WITHIN)


def silent_is_none(case):
    """A tool that counts only what is documented."""
    for finding in check_caps(case):
        percent = None if finding.cap is None else cap_percent(finding.cap.cap)
        if (
            finding.outcome is not Outcome.UNKNOWN
            or finding.value is None
            or not percent
        ):
            yield finding
            continue
        known = case.working.range(finding.value)
        within = known.low is not None and known.low <= percent
        yield replace(finding, outcome=Outcome.WITHIN if within else finding.outcome)


def test_a_tool_that_never_knows_fails():
    assert not useful(some(0, 60, answering(Outcome.UNKNOWN), judge))


@pytest.mark.parametrize(
    "tool",
    [
        answering(Outcome.WITHIN),
        answering(Outcome.OVER),
        middle,
        floating,
        silent_is_none,
    ],
    ids=["always within", "always over", "middle", "floats", "silence is zero"],
)
def test_a_tool_that_is_wrong_is_caught(tool):
    assert some(0, 90, tool, judge).failures
