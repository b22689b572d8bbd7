"""A check whose words alone changed is the check that a new one would be."""

from datetime import date

import pytest

from blendcheck import assess as room
from blendcheck.assess import CHECKS, assess, reworded
from blendcheck.demo import MATERIALS, demo_files
from blendcheck.files.reading import materials_from_text, recipe_from_text
from blendcheck.records.papers import PaperTexts
from blendcheck.records.recipe import Recipe
from blendcheck.report import report

ON = date(2026, 11, 25)
FILES = demo_files()
NAMES = sorted(set(FILES) - {MATERIALS})
WORDS = (
    PaperTexts(),
    PaperTexts(title="Relief for every cold", message="cures headaches"),
    PaperTexts(title="Lemon cake", message="sweet as candy", who="somebody"),
    PaperTexts(message="A quiet evening", lot="7", pieces_in_pack=3, small_last=True),
)


@pytest.fixture(scope="module")
def materials():
    return materials_from_text(FILES[MATERIALS], MATERIALS)


def plain(found):
    return {**report(found), "label": [repr(one) for one in found.label]}


@pytest.mark.parametrize("label", [True, False])
@pytest.mark.parametrize("name", NAMES)
def test_it_says_what_a_new_check_says(materials, name, label):
    recipe = recipe_from_text(FILES[name], name)
    found = assess(recipe, materials, ON, label=label, estimates=name < "g")
    for papers in WORDS:
        other = recipe.model_copy(update={"papers": papers})
        found = reworded(found, other)
        anew = assess(other, materials, ON, label=label, estimates=name < "g")
        assert plain(found) == plain(anew)


class Watched(Recipe):
    """A recipe that writes down that its papers were read."""

    def __getattribute__(self, name):
        if name == "papers":
            READ.append(name)
        return super().__getattribute__(name)


READ: list[str] = []


@pytest.mark.parametrize("name", NAMES)
def test_what_is_taken_over_never_reads_the_words(materials, name):
    kept = recipe_from_text(FILES[name], name)
    recipe = Watched.model_validate(kept.model_dump(by_alias=True))
    case = assess(recipe, materials, ON).case
    checks = (*room._labelling(), *room._estimating())
    for check in checks:
        where = check.__module__.rpartition(".")[2]
        READ.clear()
        found = list(check(case))
        if where in room._WORDLESS or check in room._estimating():
            assert READ == [], where
        # a check's findings bear the name of its module: they are found again by it
        if where in room._WORDLESS:
            assert {one.check for one in found} <= {where}
    READ.clear()
    for check in CHECKS:
        list(check(case))
    assert READ, "the words are read by one of the checks that are made anew"
