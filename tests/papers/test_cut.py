"""Cards and labels as they come out of a home printer, and are cut."""

from functools import cache

import pytest

from blendcheck.checks.wording import hits
from blendcheck.errors import InputError
from blendcheck.papers import make
from blendcheck.papers.card import MOST_SIGNS
from blendcheck.papers.layout import CARDS, SHEETS, Layout
from blendcheck.papers.typeset import pdf
from tests.papers.makers import RECIPES, case_of, demo, pages, said, within

MARGIN = 5 / 25.4 * 72
"""What a home printer cannot print, 5 mm at each edge (common practice). [pt]"""


@cache
def many(count):
    oils = [
        {"id": f"m{n}", "name": f"Oil of the {n}th headland", "kind": "essential oil"}
        for n in range(count)
    ]
    lines = [{"material": f"m{n}", "amount": f"{n + 1} g"} for n in range(count)]
    return case_of(oils, lines, name="Many", channel="gift")


@pytest.mark.parametrize("sheet", SHEETS)
@pytest.mark.parametrize("kind", ["card", "label", "bottle", "batch"])
def test_no_text_stands_where_a_printer_cannot_print(kind, sheet):
    for page in pages(pdf(make(kind, demo(channel="gift")), Layout(sheet))):
        for char in page.chars:
            assert char["x0"] > MARGIN
            assert char["x1"] < page.width - MARGIN
            assert char["top"] > MARGIN
            assert char["bottom"] < page.height - MARGIN


@pytest.mark.parametrize("cards", ["8", "4"])
@pytest.mark.parametrize("sheet", SHEETS)
def test_the_back_of_a_card_lies_behind_its_front(sheet, cards):
    """Turned over at the long edge, left and right change places.

    So the lines to cut along must lie alike on both sides of the middle.
    """
    front, _ = pages(pdf(make("card", demo()), Layout(sheet, cards)))
    ways = {round(one["x0"], 1) for one in front.lines if one["x1"] - one["x0"] < 1}
    assert len(ways) == 3
    mirrored = {round(float(front.width) - x, 1) for x in ways}
    assert sorted(ways) == pytest.approx(sorted(mirrored), abs=0.2)
    across = {round(one["top"], 1) for one in front.lines if one["x1"] - one["x0"] > 1}
    assert len(across) == int(cards) // 2 + 1


@pytest.mark.parametrize("cards", ["8", "4"])
def test_lines_to_cut_along_stand_on_the_front_alone(cards):
    front, back = pages(pdf(make("card", demo()), Layout(cards=cards)))
    assert len(front.lines) == 3 + int(cards) // 2 + 1
    written_on = [one for one in back.lines if one["top"] == one["bottom"]]
    assert all(one["x1"] - one["x0"] < back.width / 2 for one in written_on)
    assert len(written_on) == len(back.lines)


@pytest.mark.parametrize("cards", CARDS)
def test_a_card_can_be_made_whatever_is_in_it(cards):
    """The piece is given anyway, and its cautions go with it."""
    kept = many(60)
    paper = make("card", kept)
    assert pdf(paper, Layout(cards=cards))
    text = said(paper)
    assert "Oil of the 59th headland" in text
    assert " more. Ask for the whole list." in text
    assert len(next(t for t in text.splitlines() if t.startswith("In it:"))) < (
        MOST_SIGNS + 60
    )
    assert "Oil of the 0th headland" in said(make("label", kept))


def test_a_short_list_is_whole():
    for name in RECIPES:
        assert "Ask for the whole list" not in said(make("card", demo(name)))


def test_a_long_name_does_not_push_the_cautions_off():
    oil = {
        "id": "o",
        "name": "Peppermint" * 20,
        "kind": "essential oil",
        "cap": [{"scheme": "standard", "printed": "0.1 %"}],
    }
    kept = case_of([oil], [{"material": "o", "amount": "2 g"}], channel="gift")
    back = said(make("card", kept))
    assert "Not fully checked: Peppermint" in back
    assert "…" in back
    assert "Peppermint" * 20 in said(make("note", kept))
    with pytest.raises(InputError, match=r"the front of the card|the label"):
        pdf(make("label", kept), Layout(labels="small"))
    assert pdf(make("card", kept), Layout(cards="8"))


# -- labels --------------------------------------------------------------------------


def size_of(data):
    sizes = [round(char["size"], 1) for char in pages(data)[0].chars]
    return max(set(sizes), key=sizes.count)


def test_letters_grow_where_there_is_room():
    few = size_of(pdf(make("label", within()), Layout(labels="large")))
    much = size_of(pdf(make("label", demo("slack-tide.toml")), Layout(labels="large")))
    assert few > much >= 8.5


@pytest.mark.parametrize("name", RECIPES)
@pytest.mark.parametrize("kind", ["label", "bottle"])
def test_every_demo_recipe_has_a_label_that_fits(name, kind):
    paper = make(kind, demo(name, channel="gift"))
    assert pdf(paper, Layout("letter", labels="large"))  # the lower of the sheets


def test_a_small_label_takes_a_demo_recipe():
    paper = make("label", demo("white-squall.toml", channel="gift"))
    assert pdf(paper, Layout(labels="small"))


def test_a_label_that_is_too_long_for_any_size_has_another_way():
    with pytest.raises(InputError, match="take it as HTML and print that"):
        pdf(make("label", many(60)), Layout(labels="large"))


# -- said before it is printed ---------------------------------------------------------


@pytest.mark.parametrize("kind", ["card", "label", "bottle"])
def test_words_that_claim_too_much_are_pointed_to(kind):
    title = "Sinus relief tablets"
    assert hits(title)
    told = make(kind, within(title=title)).left_off
    assert any("relief" in one.casefold() for one in told)
    assert not any("relief" in one for one in make(kind, within()).left_off)


def test_dots_of_the_official_words_are_explained():
    told = make("bottle", demo()).left_off
    assert any("three dots" in one for one in told)
