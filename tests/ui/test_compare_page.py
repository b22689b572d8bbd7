"""Recipes side by side, as ranges and without an order."""

import re

import pytest

from tests.ui.pages import open_page, read, recipe_id, run

ORDER = re.compile(r"\b(best|worst|lowest first|rank(ed|ing)?|winner|gentlest)\b", re.I)


def choose(at, *names):
    wanted = {recipe_id(at, name) for name in names}
    for key in at.session_state["shelf.recipes"]:
        at.checkbox(f"compare.{key}").set_value(key in wanted)
    return run(at)


def test_two_to_eight_are_asked_for():
    at = choose(open_page("compare"), "North gale")
    assert "Choose two recipes or more." in read(at)


def test_outcomes_and_grams_stand_side_by_side():
    """36 g of 1440 g is 1.5 g in a piece of 60 g; 14.4 g is 0.6 g."""
    text = read(choose(open_page("compare"), "North gale", "Fair wind"))
    row = re.search(r"In one piece.*?Peppermint oil\s+([\d.]+)\s+([\d.]+)", text, re.S)
    assert row is not None
    assert set(row.groups()) == {"1.5", "0.6"}
    assert 36 / 24 == 1.5
    assert pytest.approx(0.6) == 14.4 / 24


def test_no_order_is_stated_and_it_is_said():
    text = read(choose(open_page("compare"), "North gale", "Driftwood", "Slack tide"))
    assert "No order is given here." in text
    assert not ORDER.search(text)


def test_half_a_piece_in_one_use():
    """White squall: 2 % of 60 g is 1.2 g of peppermint oil in a piece, and half a
    piece is one use."""
    text = read(choose(open_page("compare"), "White squall", "North gale"))
    use = text[text.index("In one use") :]
    row = re.search(r"Peppermint oil\s+([\d.]+)\s+([\d.]+)", use)
    assert row is not None
    assert "0.6" in row.groups()


def test_a_choice_outlives_another_page():
    at = choose(open_page("compare"), "North gale", "Driftwood")
    kept = at.session_state["shelf.compared"]
    assert len(kept) == 2


def test_more_than_eight_are_refused_with_a_sentence():
    at = open_page("compare")
    held = at.session_state["shelf.recipes"]
    kept = held[recipe_id(at, "North gale")]
    for n in range(4):
        held[f"more-{n}"] = kept
    run(at)
    for key in list(held):
        at.checkbox(f"compare.{key}").check()
    run(at)
    assert "10 recipes to compare" in read(at)
