"""The irritant load: what is counted, what is told apart, and what is not known."""

from fractions import Fraction

import pytest

from blendcheck.checks import irritants
from blendcheck.checks.irritants import cover_of
from blendcheck.checks.marked import marked_in, total_of, volatile_total
from blendcheck.interval import Range
from blendcheck.words import render
from tests.checks.shelves import LINALOOL, MENTHOL, checked, oil, paper, row

CINEOLE, PINENE, LINALYL_ACETATE = "470-82-6", "80-56-8", "115-95-7"
TRIETHYL_CITRATE = "77-93-0"
CITRIC = {"id": "citric", "name": "Citric acid", "kind": "solid", "cas": "77-92-9"}
SURFACTANT = {
    "id": "slsa",
    "name": "Lathering powder",
    "kind": "emulsifier",
    "cas": "1847-58-1",
}


def report(*rows, unidentified="0 %"):
    return paper(*rows, copied_whole=True, unidentified=unidentified)


def mint(*rows, **more):
    rows = rows or (
        row("menthol", MENTHOL, "40 %"),
        row("linalyl acetate", LINALYL_ACETATE, "60 %"),
    )
    return oil("mint", papers=[report(*rows)], **more)


def piece(*materials, grams="10 g", lines=None, **recipe):
    """Ten pieces of 60 g with 10 g of oil: 1 g of it in a piece."""
    recipe = {"pieces": 10, "piece_mass": "60 g", "product": "shower tablet"} | recipe
    lines = lines or {"base": "590 g", materials[0]["id"]: grams}
    return checked(lines, materials, **recipe)


def findings(assessment, code=""):
    return [
        f
        for f in assessment.findings
        if f.check == "irritants" and f.why.code.startswith(f"irritants.{code}")
    ]


def load(assessment):
    (found,) = findings(assessment, "piece")
    return assessment.working.range(found.value)


def also(assessment):
    (found,) = findings(assessment, "piece")
    return [render(say) for say in found.also]


# -- what is counted ---------------------------------------------------------------


def test_grams_of_what_the_list_marks():
    # 40 % of 1 g, by hand
    assert load(piece(mint())) == Range.at(Fraction("0.4"))


def test_an_isomer_and_another_oil_are_added():
    rows = (
        row("cineole", CINEOLE, "80 %"),
        row("linalyl acetate", LINALYL_ACETATE, "20 %"),
    )
    gum = oil("gum", papers=[report(*rows)])
    lines = {"base": "580 g", "mint": "10 g", "gum": "10 g"}
    assert load(piece(mint(), gum, lines=lines)) == Range.at(Fraction("1.2"))


def test_the_maker_marks_what_the_list_does_not():
    made = piece(mint(irritant=[LINALYL_ACETATE]))
    assert load(made) == Range.at(1)
    assert any("Marked by: you." in text for text in also(made))


def test_a_sheet_marks_a_component():
    hazard = {
        "name": "linalyl acetate",
        "cas": LINALYL_ACETATE,
        "classes": ["STOT SE 3, H335"],
    }
    made = piece(mint(hazard=[hazard]))
    assert load(made) == Range.at(1)
    assert any("sheet of Mint (H335)" in text for text in also(made))


def test_a_sheet_that_marks_the_whole_oil_counts_all_of_it():
    made = piece(mint(hazard=[{"classes": ["STOT SE 3, H335"]}]))
    assert load(made) == Range.at(1)
    assert any("Counted as a whole: Mint, 1 g." in text for text in also(made))


def test_what_is_no_vapour_is_not_counted():
    """A heavy ester that the maker marked stays out: it is not volatile."""
    plain = mint(
        row("menthol", MENTHOL, "40 %"),
        row("triethyl citrate", TRIETHYL_CITRATE, "60 %"),
        irritant=[TRIETHYL_CITRATE],
    )
    made = piece(plain)
    assert load(made) == Range.at(Fraction("0.4"))
    assert volatile_total(made.totals).traced


def test_alcohol_that_dries_off_is_left_to_the_room():
    alcohol = {
        "id": "alcohol", "name": "Alcohol", "kind": "alcohol", "cas": "67-63-0",
        "leaves_on_drying": "100 %",
    }  # fmt: skip
    lines = {"base": "590 g", "mint": "10 g", "alcohol": "30 g"}
    assert load(piece(mint(), alcohol, lines=lines)) == Range.at(Fraction("0.4"))


# -- ranges -------------------------------------------------------------------------


def test_a_lot_is_never_more_than_it_can_hold():
    wide = mint(
        row("menthol", MENTHOL, "30-70 %"),
        row("cineole", CINEOLE, "20-60 %"),
        row("linalyl acetate", LINALYL_ACETATE, "10-50 %"),
    )
    # high ends 130 %, but 10 % of something else is there: at most 90 %
    assert load(piece(wide)) == Range.between(Fraction("0.5"), Fraction("0.9"))


def test_silence_of_a_list_counts_at_the_high_end():
    partial = oil("mint", papers=[paper(row("menthol", MENTHOL, "40 %"))])
    made = piece(partial)
    assert load(made) == Range.between(Fraction("0.4"), 1)
    assert any("The papers do not show all" in text for text in also(made))


def test_an_unidentified_remainder_may_be_marked():
    made = piece(
        oil("mint", papers=[report(row("menthol", MENTHOL, "40 %"),
                                   row("x", LINALYL_ACETATE, "55 %"),
                                   unidentified="5 %")])
    )  # fmt: skip
    assert load(made) == Range.between(Fraction("0.4"), Fraction("0.45"))


def test_the_share_that_is_marked_is_closed_in_one_step():
    made = piece(mint())
    total = total_of(marked_in(made.totals), made.totals)
    cover = cover_of(total, made.case)
    assert made.working.range(cover) == Range.at(40)
    assert any("The marks cover 40 % of all scent." in text for text in also(made))


def test_a_name_that_may_mean_it_is_asked_about():
    made = piece(
        oil("mint", papers=[report(row("Menthol", None, "40 %"),
                                   row("limonene", "5989-27-5", "60 %"))])
    )  # fmt: skip
    assert load(made).low == Fraction("0.6")
    assert load(made).high == 1
    assert any("may mean something that is marked: Menthol" in t for t in also(made))


# -- per piece and per use -----------------------------------------------------------


@pytest.mark.parametrize(("use", "grams"), [("1/2", "0.2 g"), ("2", "0.8 g")])
def test_one_use_is_said_beside_one_piece(use, grams):
    assert f"In one use: {grams} (pieces: {use})." in also(
        piece(mint(), pieces_per_use=use)
    )


def test_without_a_piece_mass_the_batch_is_told():
    made = checked({"base": "590 g", "mint": "10 g"}, [mint()], product="balm")
    (found,) = findings(made, "batch")
    assert made.working.range(found.value) == Range.at(4)


# -- what is not known, and what is told apart ---------------------------------------


def test_nothing_marked_is_not_known_and_never_zero():
    plain = oil("rose", papers=[report(row("x", LINALYL_ACETATE, "100 %"))])
    made = piece(plain)
    (found,) = findings(made, "unknown")
    assert found.value is None
    assert "not the same as none" in render(found.why)
    assert not findings(made, "piece")


def test_an_oil_without_papers_is_not_known():
    (found,) = findings(piece(oil("jar")), "unknown")
    assert "The papers do not show all" in render(found.also[0])


@pytest.mark.parametrize("share", ["0.001 %", "40 %"])
def test_a_breathing_sensitiser_is_told_by_itself_at_any_amount(share):
    hazard = {"name": "x", "cas": LINALOOL, "classes": ["Resp. Sens. 1, H334"]}
    made = piece(
        mint(
            row("menthol", MENTHOL, "40 %"), row("x", LINALOOL, share),
            hazard=[hazard],
        )
    )  # fmt: skip
    (found,) = findings(made, "sensitising")
    assert found.kind == "caution"
    assert found.severity == 1
    assert "it is in no sum" in render(found.why)
    assert load(made).low == Fraction("0.4")  # not added


def test_what_makes_drowsy_is_told_apart():
    hazard = {"name": "x", "cas": LINALYL_ACETATE, "classes": ["STOT SE 3, H336"]}
    made = piece(mint(hazard=[hazard]))
    (found,) = findings(made, "drowsy")
    assert "0.6 g" in render(found.why)
    assert load(made) == Range.at(Fraction("0.4"))


def test_dust_belongs_to_the_making():
    lines = {"base": "490 g", "citric": "80 g", "slsa": "20 g", "mint": "10 g"}
    made = piece(mint(), CITRIC, SURFACTANT, lines=lines)
    (found,) = findings(made, "dust")
    assert "Citric acid (80 g), Lathering powder (20 g)" in render(found.why)
    assert load(made) == Range.at(Fraction("0.4"))


LATHER = {"id": "lather", "name": "Lathering flakes", "kind": "emulsifier"}
STINGS = [{"classes": ["STOT SE 3, H335"]}]
BORAX = "1303-96-4"


@pytest.mark.parametrize(
    "powder",
    [
        {**LATHER, "hazard": STINGS},
        {**LATHER, "cas": BORAX, "hazard": STINGS},
        {**LATHER, "cas": BORAX, "irritant": [BORAX]},
        {**LATHER, "cas": "77-92-9", "irritant": ["77-92-9"]},
    ],
)
def test_a_powder_that_stings_is_dust_and_no_vapour(powder):
    """Whoever marks it, with a number or without one: it is no part of the load."""
    made = piece(mint(), powder, lines={"base": "570 g", "lather": "20 g",
                                        "mint": "10 g"})  # fmt: skip
    (found,) = findings(made, "dust")
    assert "Lathering flakes (20 g)" in render(found.why)
    assert load(made) == Range.at(Fraction("0.4"))


def test_a_breathing_sensitiser_is_told_without_any_scent():
    enzyme = {
        "id": "enzyme", "name": "Enzyme powder", "kind": "solid", "cas": "9014-01-1",
        "hazard": [{"classes": ["Resp. Sens. 1, H334"]}],
    }  # fmt: skip
    made = checked({"base": "595 g", "enzyme": "5 g"}, [enzyme], pieces=10)
    (found,) = findings(made, "sensitising")
    assert "Enzyme powder" in render(found.why)
    assert not findings(made, "unknown")  # there is no scent to speak of


@pytest.mark.parametrize("kind", ["solid", "aroma chemical"])
def test_crystals_that_evaporate_are_scent_whatever_they_are_entered_as(kind):
    crystals = {"id": "m", "name": "Menthol crystals", "kind": kind, "cas": MENTHOL}
    made = piece(crystals)
    assert load(made) == Range.at(1)
    assert findings(made, "cooling")
    (found,) = findings(made, "piece")
    assert "All scent that turns to vapour: 1 g" in render(found.why)
    both = piece(mint(), crystals, lines={"base": "580 g", "mint": "10 g",
                                          "m": "10 g"})  # fmt: skip
    assert any("The marks cover 70 % of all scent." in text for text in also(both))


MARKS = {
    "maker": {"irritant": [LINALOOL]},
    "sheet": {
        "hazard": [{"name": "linalool", "cas": LINALOOL,
                    "classes": ["STOT SE 3, H335"]}]
    },
}  # fmt: skip


@pytest.mark.parametrize("who", MARKS)
def test_a_mark_on_what_no_list_prints_counts_as_far_as_it_may_hide(who):
    """Marked, not printed, and 2 % of the oil not identified: nothing to 0.02 g."""
    rows = row("x", LINALYL_ACETATE, "98 %")
    made = piece(oil("rose", papers=[report(rows, unidentified="2 %")], **MARKS[who]))
    assert load(made) == Range.between(0, Fraction("0.02"))
    assert any(text.startswith("Counted: linalool, 0 to 0.02 g.")
               for text in also(made))  # fmt: skip


@pytest.mark.parametrize("who", MARKS)
def test_a_mark_on_what_cannot_be_there_marks_nothing(who):
    rows = row("x", LINALYL_ACETATE, "100 %")
    made = piece(oil("rose", papers=[report(rows)], **MARKS[who]))
    assert findings(made, "unknown")


def test_menthol_feels_cool_and_that_shows_nothing():
    assert findings(piece(mint()), "cooling")
    plain = oil("rose", papers=[report(row("x", LINALYL_ACETATE, "100 %"))])
    assert not findings(piece(plain), "cooling")


def test_a_recipe_without_scent_has_no_load():
    made = checked({"base": "100 g"}, [])
    assert list(irritants.check(made.case)) == []


def test_it_decides_nothing():
    kinds = {f.kind for f in findings(piece(mint()))}
    assert kinds <= {"fact", "caution"}
    assert kinds
