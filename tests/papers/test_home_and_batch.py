"""The sheet for the home and the batch sheet: what a person reads and writes there."""

import re
from fractions import Fraction
from itertools import pairwise

import pytest

from blendcheck.checks.swallowed import in_one_piece
from blendcheck.papers import make
from blendcheck.papers.content import Blanks, Lines, Table
from blendcheck.papers.layout import SHEETS, Layout
from blendcheck.papers.typeset import pdf
from tests.papers.makers import RECIPES, case_of, demo, pages, said

LINE = {"material": "base", "amount": "98 g"}


def tables(paper):
    return [
        part
        for section in paper.sections
        for part in section.parts
        if isinstance(part, Table)
    ]


def significant(text):
    return len(text.replace(".", "").lstrip("0"))


# -- the sheet for the home ---------------------------------------------------------


@pytest.mark.parametrize("sheet", SHEETS)
@pytest.mark.parametrize("name", RECIPES)
def test_it_is_one_page(name, sheet):
    assert len(pages(pdf(make("swallowed", demo(name)), Layout(sheet)))) == 1


@pytest.mark.parametrize("name", RECIPES)
def test_a_range_has_two_digits_and_holds_what_was_worked_out(name):
    kept = demo(name)
    exact = {one.name: one.held for one in in_one_piece(kept.assessment.case).holds}
    ranges = 0
    for table in tables(make("swallowed", kept)):
        for what, _, grams in table.rows:
            ends = re.fullmatch(r"([0-9.]+) to ([0-9.]+)", grams)
            if ends is None:
                continue
            ranges += 1
            low, high = ends.groups()
            for end in (low, high):
                # digits before the point are never dropped
                assert significant(end) <= 2 or "." not in end
            held = next(h for n, h in exact.items() if what.startswith(n))
            assert Fraction(low) <= held.low
            assert held.high <= Fraction(high)
    assert ranges > 0 or name == "white-squall.toml"


def test_most_comes_first():
    kept = demo("lee-shore.toml")
    held = {one.name: one.held for one in in_one_piece(kept.assessment.case).holds}
    for table in tables(make("swallowed", kept)):
        names = [row[0].partition(" (")[0].removesuffix(" *") for row in table.rows]
        highs = [held[name].high for name in names if name in held]
        assert len(highs) >= 7
        assert highs == sorted(highs, reverse=True)


def test_what_dries_off_is_given_for_a_damp_piece_too():
    """By hand: 30 g of alcohol to 1440 g dry is 1.25 g in 60 g, so up to 1.3."""
    rows = {
        row[0]: row[2]
        for table in tables(make("swallowed", demo()))
        for row in table.rows
    }
    assert rows["Isopropyl alcohol 99.9 % (Isopropyl Alcohol) *"] == "0, damp up to 1.3"


def test_the_star_is_explained_right_below_its_table():
    parts = make("swallowed", demo()).sections[-1].parts
    first = next(n for n, part in enumerate(parts) if isinstance(part, Table))
    after = parts[first + 1]
    assert isinstance(after, Lines)
    assert after.items[0].startswith("* A piece that is still damp")


def test_hardly_anything_stands_in_one_line():
    """0.05 % of 1 g in a piece of 50 g is 0.5 mg: named, without a row of its own."""
    oil = {
        "id": "oil",
        "name": "Spruce oil",
        "kind": "essential oil",
        "composition": [
            {
                "kind": "full GC-MS",
                "basis": "w/w",
                "copied_whole": True,
                "row": [
                    {"name": "Camphene", "cas": "79-92-5", "share": "99.95 %"},
                    {"name": "Bornyl acetate", "cas": "76-49-3", "share": "0.05 %"},
                ],
            }
        ],
    }
    kept = case_of([oil], [LINE, {"material": "oil", "amount": "2 g"}])
    paper = make("swallowed", kept)
    rows = {row[0] for table in tables(paper) for row in table.rows}
    assert "Camphene" in rows
    assert "Bornyl acetate" not in rows
    assert "Less than 0.001 g of each of these: Bornyl acetate 76-49-3." in said(paper)


# -- the batch sheet -----------------------------------------------------------------


def test_each_figure_is_written_down_in_one_place():
    """Targets have a column to write in, so no blank asks for the same again."""
    paper = make("batch", demo())
    targets = next(t for t in tables(paper) if t.rows[0][0] == "Wet mix")
    assert targets.fill == (2,)
    named = {row[0].casefold() for row in targets.rows}
    blanks = {
        one.name
        for section in paper.sections
        for part in section.parts
        if isinstance(part, Blanks)
        for one in part.items
    }
    for name in blanks:
        assert not any(name.casefold().startswith(one) for one in named - {"pieces"})
        assert "Pieces" not in name


def test_rows_to_write_in_are_six_millimetres_high():
    """Ruled paper is 6 to 8 mm (common practice)."""
    page = pages(pdf(make("batch", demo("lee-shore.toml")), Layout()))[0]
    tops = [
        char["top"]
        for char in page.chars
        if char["x0"] < 60 and char["text"].isdigit() and char["top"] > 150
    ]
    steps = [b - a for a, b in pairwise(tops) if b - a < 40]
    assert steps
    assert min(steps) / 72 * 25.4 >= 5.8
