"""Recipes side by side: grams that can be worked in the head, and no order."""

from fractions import Fraction

import pytest

from blendcheck.compare import MOST, compare
from blendcheck.errors import InputError
from blendcheck.interval import Range
from blendcheck.plain import compare_text
from blendcheck.records.finding import Outcome
from blendcheck.report import compared
from tests.checks.shelves import LINALOOL, MENTHOL, cap, checked, oil, paper, row

WHOLE = {"copied_whole": True, "unidentified": "0 %"}


def mint(share="40 %", **more):
    return oil(
        "mint",
        cap("5 %"),
        papers=[paper(row("menthol", MENTHOL, share), **WHOLE)],
        **more,
    )


def weak(**recipe):
    recipe = {"pieces": 10, "piece_mass": "60 g"} | recipe
    return checked({"base": "594 g", "mint": "6 g"}, [mint()], **recipe)


def strong():
    return checked(
        {"base": "540 g", "mint": "60 g"}, [mint()], pieces=10, piece_mass="60 g"
    )


def cells(comparison, name, kind):
    (found,) = [r for r in comparison.rows if (r.name, r.kind) == (name, kind)]
    return found.cells


def test_each_recipe_has_its_name_its_outcome_and_its_place():
    found = compare([strong(), weak()])
    assert found.names == ("test", "test")
    assert found.outcomes == (Outcome.OVER, Outcome.WITHIN)
    turned = compare([weak(), strong()])
    assert turned.outcomes == found.outcomes[::-1]  # as given, never sorted


def test_grams_in_a_piece_and_percent_stand_side_by_side():
    # 6 g and 60 g of 600 g, in pieces of 60 g; 40 % of it menthol
    found = compare([weak(), strong()])
    first, second = cells(found, "Mint", "material")
    assert (first.percent, second.percent) == (Range.at(1), Range.at(10))
    assert (first.per_piece, second.per_piece) == (
        Range.at(Fraction(3, 5)),
        Range.at(6),
    )
    menthol = cells(found, "menthol, all its forms", "component")
    assert [c.per_piece.low for c in menthol] == [Fraction("0.24"), Fraction("2.4")]
    assert found.load.cells[1].percent == Range.at(10)


@pytest.mark.parametrize(("use", "factor"), [("1/2", "0.5"), ("1", "1"), ("2", "2")])
def test_grams_in_one_use_are_those_of_its_pieces(use, factor):
    found = compare([weak(pieces_per_use=use), strong()])
    (first, _) = cells(found, "Mint", "material")
    assert first.per_use == Range.at(Fraction(factor) * Fraction("0.6"))


def test_what_a_recipe_does_not_have_is_not_zero():
    other = checked(
        {"base": "90 g", "rose": "10 g"}, [oil("rose", cap("50 %"))], piece_mass="60 g"
    )
    found = compare([weak(), other])
    (_, none) = cells(found, "Mint", "material")
    assert none is None
    # nobody knows what is in the rose: menthol may be, up to all of it
    (known, open_) = cells(found, "menthol, all its forms", "component")
    assert known.documented
    assert not open_.documented
    assert open_.percent == Range.between(0, 10)
    assert "not all documented" in compare_text(found)


def test_without_a_piece_mass_there_are_no_grams_in_a_piece():
    bare = checked({"base": "99 g", "mint": "1 g"}, [mint()])
    found = compare([weak(), bare])
    (_, without) = cells(found, "Mint", "material")
    assert (without.per_piece, without.per_use) == (None, None)
    assert without.percent == Range.at(1)
    assert "no piece mass" in compare_text(found)


def test_all_forms_of_menthol_are_one_row_whatever_number_a_paper_prints():
    racemate = oil(
        "oil", cap("5 %"), papers=[paper(row("dl", "89-78-1", "40 %"), **WHOLE)]
    )
    other = checked(
        {"base": "594 g", "oil": "6 g"}, [racemate], pieces=10, piece_mass="60 g"
    )
    found = compare([weak(), other])
    rows = [r.name for r in found.rows if "menthol" in r.name.casefold()]
    assert rows == ["menthol, all its forms"]
    both = cells(found, "menthol, all its forms", "component")
    assert [c.per_piece.high for c in both] == [Fraction("0.24")] * 2


def test_components_without_a_caution_are_left_to_the_checks():
    plain = oil("oil", cap("5 %"), papers=[paper(row("x", "144-55-8", "1 %"))])
    found = compare([weak(), checked({"base": "99 g", "oil": "1 g"}, [plain])])
    assert "x" not in {r.name for r in found.rows}
    assert LINALOOL not in {r.name for r in found.rows}


@pytest.mark.parametrize("count", [0, 1, MOST + 1])
def test_two_to_eight_recipes_are_compared(count):
    with pytest.raises(InputError, match=rf"{count} recipes? to compare.*2 to 8"):
        compare([weak()] * count)
    assert MOST == 8


def test_the_order_is_a_sentence_with_its_grams():
    # 40 % of 6 g and of 60 g in ten pieces: 0.24 g and 2.4 g, 2.16 g apart
    text = compare_text(compare([strong(), weak(name="mild")]))
    assert "mild has less of it than test: by 2.16 g in one piece." in text
    assert not any(word in text.casefold() for word in ("best", "gentler", "worst"))
    assert "does not show that a blend is mild" in " ".join(text.split())


def test_the_load_the_scent_and_what_the_marks_cover_stand_together():
    found = compare([weak(), strong()])
    first, second = found.irritants.cells
    assert (first.per_piece.low, second.per_piece.low) == (
        Fraction("0.24"),
        Fraction("2.4"),
    )
    # nothing says what the other 60 % are, so they may be marked or not
    assert found.volatile.cells[0].per_piece == Range.between(
        Fraction("0.24"), Fraction("0.6")
    )
    assert found.cover[0].low == 40
    text = compare_text(found)
    assert "marked" in text
    assert "Settings asked: as entered" in text


def test_the_data_say_the_order_or_why_there_is_none():
    rose = checked({"base": "90 g", "rose": "10 g"}, [oil("rose", cap("50 %"))])
    data = compared(compare([weak(), strong(), rose]))
    by_piece, by_use = data["rankings"]
    assert (by_piece["per"], by_use["per"]) == ("piece", "use")
    assert by_piece["order"] == [0, 1]
    (only,) = by_piece["pairs"]
    assert only["recipes"] == [0, 1]
    assert only["lower"] == 0
    assert only["g_more_in_the_first"] == [-2.16, -2.16]
    assert only["why"]["code"] == "compare.less"
    (apart,) = by_piece["not_ranked"]
    assert apart["recipe"] == 2
    assert apart["why"]["code"] == "compare.undocumented"
    assert by_piece["settings"][0] == "as entered"
    assert data["irritant_load"]["cells"][2] is None  # not known, not 0
    assert data["marked_percent_of_scent"][2] is None
    assert [say["code"] for say in data["equal_strength"]["missing"]][-1] == (
        "compare.strength-undocumented"
    )


def test_the_data_hold_numbers_as_ranges():
    other = checked({"base": "90 g", "rose": "10 g"}, [oil("rose", cap("50 %"))])
    data = compared(compare([weak(), other]))
    assert data["schema"] == 1
    assert data["recipes"] == [
        {"name": "test", "outcome": "within"},
        {"name": "test", "outcome": "within"},
    ]
    by_name = {r["name"]: r for r in data["rows"]}
    first, second = by_name["Mint"]["cells"]
    assert first == {
        "percent_finished": [1, 1],
        "g_per_piece": [0.6, 0.6],
        "g_per_use": [0.6, 0.6],
        "documented": True,
    }
    assert second is None
    (_, open_) = by_name["menthol, all its forms"]["cells"]
    assert open_["percent_finished"] == [0, 10]
    assert open_["g_per_piece"] is None
