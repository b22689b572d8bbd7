"""Allergens of the label against worlds whose truth is known.

Never "declare" where the truth does not exceed the threshold, nor "below" where it
does; always one of the two where the papers are full. A name too many is printed only
where a published density, by which a volume was weighed, is not that of the bottle:
that stays, and the finding says on what it rests.
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
from tests.blurred.said import exactly

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


def _published_density_is_off(world):
    """Whether a bottle is heavier or lighter than the published density says."""
    return any(
        not world.said[key].holds(world.true[key])
        for material in world.materials.values()
        if material.density_published
        for lot in material.lots
        for key in [("density", material.id, lot.id or "-")]
    )


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
                told = Mark.PUBLISHED_NOT_LOT in marks
                excused = told and _published_density_is_off(world)
                if missed or (too_many and not excused):
                    wrong.append((seed, entry.label_name, found))
    assert wrong == []
    assert seen[FULL, "undecided"] == 0
    assert min(seen[FULL, "declare"], seen[FULL, "below"]) > WORLDS
    assert sum(n for (_, found), n in seen.items() if found == "undecided") > WORLDS


def _names_too_many(world, truth, label):
    entry = next(e for e in reference.allergens() if e.label_name == label)
    _, percent = truth.component(OWN[label])
    case = ask(world, lambda _: ()).case
    total = entry_total(entry, case)
    return [
        threshold
        for threshold in _thresholds(percent)
        if percent <= threshold and verdict(total, threshold, case) == "declare"
    ]


@pytest.mark.parametrize(
    ("seed", "label"), [(358, "Limonene"), (538, "Citral"), (647, "Linalool")]
)
def test_a_name_too_many_goes_once_the_density_is_that_of_the_bottle(seed, label):
    world, _, truth, _ = draw(seed)
    assert _published_density_is_off(world)
    assert _names_too_many(world, truth, label)
    for material in world.materials.values():
        if material.density_published:
            for lot in material.lots:
                value = world.true["density", material.id, lot.id or "-"]
                lot.density = material.density = exactly(value, " g/mL")
    assert not _names_too_many(world, truth, label)


def test_every_figure_can_be_opened(worlds):
    for seed, _, _, answer in worlds:
        working = answer.case.working
        for finding in answer.findings:
            assert finding.kind in ("fact", "caution"), seed
            assert finding.outcome is None
            if finding.value is not None and finding.value in working.steps:
                assert working.replay(finding.value) == working.value(finding.value)
                assert working.lines(finding.value)
