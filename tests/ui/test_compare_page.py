"""Recipes side by side: ranges, and an order or the reason for none."""

import dataclasses
import re

import pytest

from blendcheck.blend.regram import grams_amount
from tests.ui.pages import open_page, read, recipe_id, run

ORDER = re.compile(
    r"\b(best|worst|lowest first|winner|gentlest)\b|has less of it", re.I
)


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


def test_an_undocumented_oil_is_not_ranked_and_it_is_said():
    text = read(choose(open_page("compare"), "North gale", "Driftwood", "Slack tide"))
    assert "So it is never called the lowest." in text
    assert text.count("cannot be ranked") == 2
    assert "No order of all of them holds in one piece." in text
    assert not ORDER.search(text)


def test_the_load_is_said_in_words_and_drawn_as_ranges():
    """North gale: menthol 14.4 to 21.78 g of 1440 g, and what else is marked."""
    at = choose(open_page("compare"), "North gale", "Fair wind")
    text = read(at)
    assert "adds up what is marked as a sting to breathe" in text
    assert "Solid bar: irritant load, low to high." in text
    table = text[text.index("Irritant load, low to high") :]
    row = re.search(r"North gale\D+([\d.]+ to [\d.]+)", table)
    assert row is not None
    low, high = map(float, row[1].split(" to "))
    assert 0.6 < low < high < 3  # at least its menthol, at most its oils


def test_two_documented_recipes_are_put_in_order():
    """Slack tide and the same with half the scent in it."""
    at = open_page("compare")
    held = at.session_state["shelf.recipes"]
    kept = held[recipe_id(at, "Slack tide")]
    half = kept.good.blend.model_copy(
        update={"line": tuple(_halved(line) for line in kept.good.blend.line)}
    )
    good = kept.good.model_copy(update={"name": "Neap tide", "blend": half})
    draft = dataclasses.replace(kept.draft, raw={**kept.draft.raw, "name": "Neap tide"})
    held["half"] = dataclasses.replace(kept, draft=draft, good=good)
    run(at)
    text = read(choose(at, "Slack tide", "Neap tide"))
    assert "Neap tide has less of it than Slack tide" in text
    assert "Settings asked: as entered" in text


def _halved(line):
    grams = line.amount.number.low / 2
    return line.model_copy(update={"amount": grams_amount(grams)})


def test_half_a_piece_in_one_use():
    """White squall: 2 % of 60 g is 1.2 g of peppermint oil in a piece, and half a
    piece is one use."""
    text = read(choose(open_page("compare"), "White squall", "North gale"))
    use = text[text.index("In one use, low to high") :]
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
    assert "12 recipes to compare" in read(at)
