"""Estimates and labels on the Check page: opened on demand, no part of the outcome."""

import pytest

from blendcheck.assess import assess
from blendcheck.demo import MATERIALS, demo_files
from blendcheck.files.reading import materials_from_text, recipe_from_text
from blendcheck.ui import courses, spread
from tests.checks.shelves import ON
from tests.ui.pages import choose, open_page, read, run, unfold

SHELF = materials_from_text(demo_files()[MATERIALS], MATERIALS)
NAMES = [name for name in demo_files() if name != MATERIALS]
RECIPES = {name: recipe_from_text(demo_files()[name], name) for name in NAMES}


@pytest.mark.parametrize("name", NAMES)
def test_neither_changes_the_outcome_or_a_limit(name):
    plain = assess(RECIPES[name], SHELF, ON)
    whole = assess(RECIPES[name], SHELF, ON, estimates=True, label=True)
    assert whole.outcome is plain.outcome
    beyond = (*whole.estimates, *whole.label)
    assert beyond
    assert all(one.kind != "limit" for one in beyond)
    assert [f for f in whole.findings if f not in beyond] == list(plain.findings)
    assert not plain.estimates
    assert not plain.label


@pytest.mark.parametrize("section", ["check.estimates", "check.label"])
@pytest.mark.parametrize(
    "name", ["North gale", "Porch balm", "Driftwood", "Slack tide"]
)
def test_a_section_opens_for_every_kind_of_recipe(name, section):
    at = choose(open_page("check"), "check", name)
    before = read(at)
    opened = read(unfold(at, section))
    assert len(opened) > len(before)


def test_numbers_open_to_how_they_were_worked_out():
    at = choose(open_page("check"), "check", "North gale")
    unfold(at, "check.estimates")
    text = read(unfold(at, "check.estimates.lines"))
    assert "÷ 84.006 g/mol" in text  # the fizz, mole by mole
    assert "Where the figures come from:" in text


def test_a_long_list_of_numbers_is_opened():
    at = choose(open_page("check"), "check", "Slack tide")
    before = read(unfold(at, "check.estimates"))
    keys = [one.proto.id for one in at.expander if one.label.startswith("All ")]
    labels = [one.label for one in at.expander if one.label.startswith("All ")]
    assert len(labels) == len(keys) == 1
    assert "stall, when the next person comes in" in before


def test_a_shower_that_was_entered_takes_the_place_of_what_was_filled_in():
    at = open_page("materials")
    unfold(at, "shelf-section.shower")
    at.text_input("shelf-form.workshop.shower.stall_volume").set_value("1.5 m3")
    run(at)
    shower = at.session_state["shelf.shelf"].materials.workshop.shower
    assert str(shower.stall_volume.value) == "3/2"


def panels(name):
    found = assess(RECIPES[name], SHELF, ON, estimates=True)
    return [*courses._shower(found), *courses._workroom(found)]


def test_the_picture_shows_stall_and_bathroom_and_says_both():
    stall, bathroom = panels("slack-tide.toml")
    assert max(stall.high) > max(stall.low) > max(bathroom.low) > 0
    made = courses.picture(stall)
    assert len(made["data"]["values"]) > 80
    assert stall.says.startswith("The solid line is the middle")


def test_a_balm_has_no_picture_of_a_shower():
    assert not panels("porch-balm.toml")


def test_draws_stand_inside_the_range_beside_them():
    found = assess(RECIPES["slack-tide.toml"], SHELF, ON, estimates=True)
    rows = [*spread._air(found), *spread._flash(found)]
    assert len(rows) == 4
    for one in rows:
        first, last = one.range
        low, middle, high = one.drawn
        assert first <= low < middle < high <= last, one


def test_the_spread_is_shown_as_a_picture_and_in_words():
    at = choose(open_page("check"), "check", "Slack tide")
    unfold(at, "check.estimates")
    text = read(unfold(at, "check.estimates.spread"))
    assert "nine draws in ten from" in text
    assert "the range is what counts" in text
