"""Allergens of the label against worlds whose truth is known.

Never "declare" where the truth does not exceed the threshold, nor "below" where it
does; always one of the two where the papers are full. A name may be printed on a
figure from a published range, for example a density: that stays, and says so.
"""

from collections import Counter
from fractions import Fraction

import pytest

from blendcheck import reference
from blendcheck.checks import (
    ages,
    bath,
    closures,
    owes,
    skin,
    swallowed,
    wording,
)
from blendcheck.checks.declared import verdict
from blendcheck.checks.listed import entry_total
from blendcheck.errors import BlendcheckError
from blendcheck.quantity import Mark
from tests.blurred.asking import ask
from tests.blurred.draw import draw
from tests.blurred.draw_shelf import FULL

WORLDS = 120
OWN = {
    "Limonene": "138-86-3",
    "Citral": "5392-40-5",
    "Linalool": "78-70-6",
    "Menthol": "2216-51-5",
    "Camphor": "76-22-2",
    "Pinene": "80-56-8",
}
"""Entries of the list that the worlds draw, by what stands for them in chemistry."""

CHECKS = (skin, swallowed, bath, closures, ages, owes, wording)


def label(case):
    for one in CHECKS:
        yield from one.check(case)


@pytest.fixture(scope="module")
def worlds():
    found = []
    for seed in range(WORLDS):
        world, _, truth, _ = draw(seed)
        answer = ask(world, label)
        assert not isinstance(answer, BlendcheckError), (seed, answer)
        found.append((seed, world, truth, answer))
    return found


def _thresholds(percent):
    near = (percent * Fraction(n, 1000) for n in (500, 999, 1000, 1001, 2000))
    every = {*near, Fraction(1, 1000), Fraction(1, 100)}
    return sorted(one for one in every if 0 < one <= 100)


def test_no_verdict_is_wrong_and_full_papers_decide(worlds):
    seen, wrong = Counter(), []
    entries = [e for e in reference.allergens() if e.label_name in OWN]
    for seed, world, truth, answer in worlds:
        for entry in entries:
            _, percent = truth.component(OWN[entry.label_name])
            total = entry_total(entry, answer.case)
            marks = answer.case.working.marks(total.documented)
            for threshold in _thresholds(percent):
                found = verdict(total, threshold, answer.case)
                seen[world.profile, found] += 1
                too_many = found == "declare" and percent <= threshold
                missed = found == "below" and percent > threshold
                if missed or (too_many and Mark.PUBLISHED_NOT_LOT not in marks):
                    wrong.append((seed, entry.label_name, found))
    assert wrong == []
    assert seen[FULL, "undecided"] == 0
    assert min(seen[FULL, "declare"], seen[FULL, "below"]) > WORLDS
    assert sum(n for (_, found), n in seen.items() if found == "undecided") > WORLDS


def test_every_figure_can_be_opened(worlds):
    for seed, _, _, answer in worlds:
        working = answer.case.working
        for finding in answer.findings:
            assert finding.kind in ("fact", "caution"), seed
            assert finding.outcome is None
            if finding.value is not None and finding.value in working.steps:
                assert working.replay(finding.value) == working.value(finding.value)
                assert working.lines(finding.value)
