"""An order of recipes: what is stated, what is not, and what is counted."""

from fractions import Fraction

import pytest

from blendcheck.compare import compare, sentences_of
from blendcheck.ranking import rank
from blendcheck.ui import load_chart
from blendcheck.words import render
from tests.checks.shelves import (
    CITRAL,
    LIMONENE,
    MENTHOL,
    oil,
    paper,
    row,
)
from tests.rankable import (
    CAMPHOR,
    CINEOLE,
    CLAY,
    LINALYL_ACETATE,
    PINENE,
    pair,
    piece,
    report,
    shelf,
    tablet,
)

# -- what is stated, and what is not ----------------------------------------------


def test_less_of_one_oil_is_less():
    weak = tablet({"clay": "594 g", "mint": "6 g"})
    strong = tablet({"clay": "588 g", "mint": "12 g"})
    found = pair([strong, weak])
    assert found.lower == 1
    # by hand: 12 g and 6 g of 600 g in pieces of 60 g, 40 to 50 % of it menthol
    assert (found.grams.low, found.grams.high) == (Fraction("0.24"), Fraction("0.3"))
    said = render(found.why)
    assert said.startswith("test (2) has less of it than test (1): by 0.24")
    assert piece([strong, weak]).order == (1, 0)


def test_recipes_of_one_name_are_told_apart():
    """An order of "test" and "test" would say nothing."""
    recipes = [tablet({"clay": "580 g", "mint": f"{n} g"}) for n in (6, 2, 4)]
    found = compare(recipes)
    said = [render(say) for say in sentences_of(found.rankings[0], found.names)]
    assert said[0].endswith("in one piece: test (2), test (3), test (1).")
    less = "test (2) has less of it than test (1)"
    assert any(text.startswith(less) for text in said)
    names = ["test (1)", "test (2)", "test (3)"]
    assert [text.split(":")[0] for text in load_chart.sentences(found)] == names
    assert [say.values["recipe"] for say in found.strength.why] == names


def test_swapping_recipes_swaps_the_order():
    one = tablet({"clay": "590 g", "mint": "6 g", "gum": "4 g"})
    other = tablet({"clay": "580 g", "mint": "6 g", "gum": "14 g"})
    first, second = pair([one, other]), pair([other, one])
    assert (first.lower, second.lower) == (0, 1)
    assert first.grams.low == -second.grams.high
    assert first.grams.high == -second.grams.low


def test_a_lot_in_both_cancels_whatever_its_range():
    """Mint may be 1 to 99 % menthol; the 2 g of gum more still decide."""
    oils = shelf(mint=("1-99 %", "1-99 %"))
    one = tablet({"clay": "574 g", "mint": "20 g", "gum": "6 g"}, oils)
    other = tablet({"clay": "576 g", "mint": "20 g", "gum": "4 g"}, oils)
    found = pair([one, other])
    assert found.lower == 1
    assert found.grams.high < Fraction("0.2")
    closed = [cell.per_piece for cell in compare([one, other]).irritants.cells]
    assert closed[0].low < closed[1].high  # the closed ranges alone would not decide


def test_another_lot_of_the_same_oil_does_not_cancel():
    lots = [
        {"lot": lot, "composition": [report(row("menthol", MENTHOL, "1-99 %"))]}
        for lot in ("1", "2")
    ]
    mint = oil("mint", lot=lots)
    recipes = [
        tablet(
            [
                {"material": "clay", "amount": "580 g"},
                {"material": "mint", "lot": lot, "amount": amount},
            ],
            [mint, CLAY],
        )
        for lot, amount in (("1", "20 g"), ("2", "10 g"))
    ]
    assert pair(recipes).lower is None
    assert pair(recipes).why.code == "compare.open"


def test_a_dropper_in_both_cancels():
    """Twenty and ten drops of one dropper: twenty are more, whatever a drop is."""
    one = tablet({"clay": "599 g", "mint": "20 drops"})
    other = tablet({"clay": "599 g", "mint": "10 drops"})
    assert pair([one, other]).lower == 1


def test_the_very_same_recipe_is_alike():
    one = tablet({"clay": "588 g", "mint": "12 g"})
    found = pair([one, tablet({"clay": "588 g", "mint": "12 g"})])
    assert found.alike
    assert found.lower is None
    assert "the very same load" in render(found.why)


def test_grams_and_transfer_that_disagree_give_no_order():
    """Menthol hardly leaves the water, pinene wholly: 5 g against 4 g, turned round."""
    oils = shelf(mint=("90-100 %", "0-10 %"), pine=("90-100 %", "0-10 %"))
    one = tablet({"clay": "590 g", "mint": "6 g"}, oils)
    other = tablet({"clay": "590 g", "pine": "5 g"}, oils)
    found = pair([one, other])
    assert found.grams.low > 0  # released in full, the second has less
    assert found.lower is None
    assert found.why.code == "compare.views-differ"
    assert found.why.values["settings"]


def test_one_use_may_turn_what_one_piece_says():
    one = tablet({"clay": "594 g", "mint": "6 g"}, pieces_per_use="2")
    other = tablet({"clay": "591 g", "mint": "9 g"}, pieces_per_use="1")
    by_piece, by_use = rank([one, other])
    assert by_piece.pairs[0].lower == 0
    assert by_use.pairs[0].lower == 1
    assert by_use.pairs[0].why.values["per"] == "use"


# -- what cannot be ranked -----------------------------------------------------------


def test_an_undocumented_oil_is_never_lowest():
    unknown = oil("unknown")
    one = tablet({"clay": "599.9 g", "unknown": "0.1 g"}, [*shelf(), unknown])
    other = tablet({"clay": "540 g", "mint": "60 g"}, [*shelf(), unknown])
    found = piece([one, other])
    assert found.pairs == ()
    assert found.order is None
    assert found.apart[0].code == "compare.undocumented"
    assert "never called the lowest" in render(found.apart[0])


def test_nothing_marked_is_not_nothing():
    plain = oil("plain", papers=[report(row("x", LINALYL_ACETATE, "100 %"))])
    one = tablet({"clay": "590 g", "plain": "10 g"}, [*shelf(), plain])
    other = tablet({"clay": "590 g", "mint": "10 g"}, [*shelf(), plain])
    found = compare([one, other])
    assert found.irritants.cells[0] is None
    assert found.rankings[0].apart[0].code == "compare.nothing-marked"
    assert "It is not zero." in render(found.rankings[0].apart[0])


@pytest.mark.parametrize(
    ("more", "code"),
    [
        ({"pieces": None, "piece_mass": None}, "compare.no-piece"),
        ({"product": "balm"}, "compare.no-estimate"),
        ({"product": "bath fizz"}, "compare.no-estimate"),
    ],
)
def test_what_has_no_estimate_is_not_ranked(more, code):
    one = tablet({"clay": "594 g", "mint": "6 g"}, **more)
    other = tablet({"clay": "588 g", "mint": "12 g"})
    assert piece([one, other]).apart[0].code == code


def test_three_in_a_row_and_one_apart():
    recipes = [tablet({"clay": "580 g", "mint": f"{n} g"}) for n in (6, 2, 4)]
    unknown = tablet({"clay": "599 g", "x": "1 g"}, [oil("x"), CLAY])
    found = piece([*recipes, unknown])
    assert found.order == (1, 2, 0)
    said = [say.code for say in sentences_of(found, ["a", "b", "c", "d"])]
    assert said[0] == "compare.chain"
    assert "compare.undocumented" in said


# -- percent by area ---------------------------------------------------------------


def by_area(name, share):
    listed = paper(
        row("menthol", MENTHOL, share),
        row("linalyl acetate", LINALYL_ACETATE, "1-99 %"),
        basis="area", copied_whole=True, unidentified="0 %",
    )  # fmt: skip
    return oil(name, papers=[listed])


@pytest.mark.parametrize(("share", "lower"), [("44 %", None), ("60 %", 0)])
def test_a_difference_that_area_percent_may_hide_is_no_order(share, lower):
    """40 % and 44 % of a chromatogram: each may be a tenth off its weight."""
    oils = [by_area("first", "40 %"), by_area("second", share), CLAY]
    found = pair(
        [tablet({"clay": "590 g", name: "10 g"}, oils) for name in ("first", "second")]
    )
    assert found.lower == lower
    if lower is None:
        assert found.why.code == "compare.by-area"
        assert "area %" in render(found.why)


def test_area_percent_of_a_lot_in_both_cancels_too():
    oils = [by_area("first", "40 %"), CLAY]
    weak = tablet({"clay": "590 g", "first": "10 g"}, oils)
    strong = tablet({"clay": "589 g", "first": "11 g"}, oils)
    assert pair([weak, strong]).lower == 0


# -- marks of one recipe, in another -------------------------------------------------


def test_what_one_recipe_marks_counts_in_the_other_and_in_its_figures():
    """The maker marked linalyl acetate on the mint; the gum holds it as well."""
    rows = (row("cineole", CINEOLE, "10 %"), row("x", LINALYL_ACETATE, "90 %"))
    marked = (row("menthol", MENTHOL, "50 %"), row("x", LINALYL_ACETATE, "50 %"))
    oils = [
        oil("mint", papers=[report(*marked)], irritant=[LINALYL_ACETATE]),
        oil("gum", papers=[report(*rows)]),
        CLAY,
    ]
    mint = tablet({"clay": "598 g", "mint": "2 g"}, oils)
    gum = tablet({"clay": "590 g", "gum": "10 g"}, oils)
    found = compare([mint, gum])
    assert [cell.per_piece.low for cell in found.irritants.cells] == [
        Fraction("0.2"), 1,
    ]  # fmt: skip
    (only,) = found.rankings[0].pairs
    assert only.grams.low == Fraction("-0.8")  # as the figures beside it say


def test_a_comparison_does_not_remember_the_one_before():
    """The same check, compared with others first: what counts is asked anew."""
    rows = (row("cineole", CINEOLE, "10 %"), row("x", LINALYL_ACETATE, "90 %"))
    marked = (row("menthol", MENTHOL, "50 %"), row("x", LINALYL_ACETATE, "50 %"))
    oils = [
        oil("mint", papers=[report(*marked)], irritant=[LINALYL_ACETATE]),
        oil("gum", papers=[report(*rows)]),
        CLAY,
    ]
    gum = tablet({"clay": "590 g", "gum": "10 g"}, oils)
    weak = tablet({"clay": "595 g", "gum": "5 g"}, oils)
    mint = tablet({"clay": "598 g", "mint": "2 g"}, oils)
    first = pair([gum, weak]).grams  # only cineole is marked: 0.1 g and 0.05 g
    assert first.low == first.high == Fraction("0.05")
    assert pair([gum, mint]).grams.low == Fraction("0.8")
    assert pair([gum, weak]).grams == first


def test_an_oil_of_the_same_name_on_another_shelf_inherits_no_mark():
    """One sheet says H335 of the whole oil, that of the other supplier does not."""
    rows = (row("menthol", MENTHOL, "40 %"), row("x", LINALYL_ACETATE, "60 %"))
    stings = [{"classes": ["STOT SE 3, H335"]}]
    one = tablet(
        {"clay": "595 g", "mint": "5 g"},
        [oil("mint", papers=[report(*rows)], hazard=stings), CLAY],
    )
    other = tablet(
        {"clay": "594 g", "mint": "6 g"}, [oil("mint", papers=[report(*rows)]), CLAY]
    )
    found = compare([one, other])
    # 5 g, all of it; 40 % of 6 g
    assert [cell.per_piece.low for cell in found.irritants.cells] == [
        Fraction("0.5"), Fraction("0.24"),
    ]  # fmt: skip
    assert found.rankings[0].pairs[0].grams.low == Fraction("0.26")
    assert found.rankings[0].pairs[0].lower != 0


# -- a lot never holds more than itself --------------------------------------------


def test_the_load_of_a_lot_is_never_above_the_lot():
    """Six marked components of up to 40 % each: 240 % of printed high ends."""
    marked = [MENTHOL, CINEOLE, CAMPHOR, PINENE, LIMONENE, CITRAL]
    rows = [row(f"c{n}", cas, "5-40 %") for n, cas in enumerate(marked)]
    wide = oil("wide", papers=[report(*rows, row("x", LINALYL_ACETATE, "30-40 %"))])
    one = tablet({"clay": "590 g", "wide": "10 g"}, [wide, CLAY])
    other = tablet({"clay": "580 g", "wide": "20 g"}, [wide, CLAY])
    first, second = compare([one, other]).irritants.cells
    assert first.per_piece == first.per_piece
    assert (first.per_piece.low, first.per_piece.high) == (
        Fraction("0.3"),  # 6 × 5 % of 1 g
        Fraction("0.7"),  # what 30 % of something else leave
    )
    assert second.per_piece.high == Fraction("1.4")
    assert pair([one, other]).lower == 0
