"""One material alone keeps its supplier's class; what a part's own paper says counts.

CLP: Regulation (EC) No 1272/2008, Annex I: Tables 3.1.1, 3.1.2 and 2.6.1, and 3.10.3.
"""

from fractions import Fraction

import pytest

from blendcheck.estimates.classes import EU, UN, Mixture, Standing, classify
from tests.estimates.made import at, part

CERTAIN, POSSIBLE, OPEN = Standing.CERTAIN, Standing.POSSIBLE, Standing.OPEN
WATER = part("water", "50", "not classified")


def classed(*parts, scheme=EU, **more):
    return classify(Mixture("m", parts, **more), scheme)


def standings(found):
    return {c.hazard_class: c.standing for c in found.classes}


@pytest.mark.published
@pytest.mark.parametrize("route", ["oral", "dermal", "inhalation"])
@pytest.mark.parametrize("category", "1234")
def test_one_undiluted_material_keeps_its_acute_category(route, category):
    """Table 3.1.2 puts the point of category 2 on the limit of category 1 (5, 50, 0.5).

    A supplier's category 2 does not become 1 by being worked out again.
    """
    found = classed(part("a", "100", f"Acute Tox. {category} ({route})"))
    assert standings(found) == {f"Acute Tox. {category} ({route})": CERTAIN}
    lots = [
        part("a", "40", f"Acute Tox. {category} ({route})"),
        part("a", "60", f"Acute Tox. {category} ({route})"),
    ]
    assert standings(classed(*lots)) == standings(found)


@pytest.mark.published
def test_two_of_category_2_are_certainly_2_and_by_the_formula_1():
    """100 ÷ (50/5 + 50/5) = 5, at the limit of category 1 (Table 3.1.1: <= 5)."""
    found = classed(
        part("a", "50", "Acute Tox. 2 (oral)"), part("b", "50", "Acute Tox. 2 (oral)")
    )
    assert found.of("Acute Tox. 1 (oral)").standing is POSSIBLE
    assert found.of("Acute Tox. 2 (oral)").standing is CERTAIN


def test_the_class_stands_even_where_the_figure_beside_it_is_milder():
    alone = classed(part("a", "100", "Acute Tox. 4 (oral)", ate=["oral 2500 mg/kg"]))
    assert standings(alone) == {"Acute Tox. 4 (oral)": CERTAIN}
    assert alone.of("Acute Tox. 4 (oral)").because == ("a",)


@pytest.mark.parametrize(
    "figure", ["oral 2500 mg/kg", "oral > 2000 mg/kg", "oral > 2000 mg/kg, no signs"]
)
def test_in_a_mixture_class_and_milder_figure_both_count(figure):
    """The class gives 500 ÷ 0.5 = 1000, category 4; the figure gives none."""
    found = classed(part("a", "50", "Acute Tox. 4 (oral)", ate=[figure]), WATER)
    assert found.of("Acute Tox. 4 (oral)").standing is POSSIBLE
    assert found.of("Acute Tox. 4 (oral)").low == 1000


def test_a_class_for_inhalation_counts_beside_a_figure_of_another_form():
    """As mist 25/1.5 + 25/1.5 gives 3 mg/L, category 4 (limit 5); apart, 6: none."""
    found = classed(
        part("a", "25", "Acute Tox. 4 (inhalation)", ate=["mist 1.5 mg/L"]),
        part("b", "25", "Acute Tox. 4 (inhalation)"),
        WATER,
    )
    entry = found.of("Acute Tox. 4 (inhalation)")
    assert entry.standing is POSSIBLE
    assert entry.low == 3


def test_what_is_only_not_entered_makes_no_acute_class_certain():
    """(100 - 70) ÷ (30/1680) = 1680 is category 4; with a harmless rest 5600: none."""
    found = classed(
        part("a", "30", "Acute Tox. 4 (oral)", ate=["oral 1680 mg/kg"]),
        part("b", "70", "Skin Irrit. 2", complete=False),
    )
    assert found.of("Acute Tox. 4 (oral)").standing is POSSIBLE


# -- liquids -----------------------------------------------------------------


def test_the_class_of_a_sheet_counts_without_a_flash_point():
    assert standings(classed(part("a", "100", "Flam. Liq. 3"))) == {
        "Flam. Liq. 3": CERTAIN
    }
    mixed = classed(part("a", "50", "Flam. Liq. 2"), WATER)
    assert standings(mixed) == {"Flam. Liq. 2": POSSIBLE, "Flam. Liq. 3": POSSIBLE}
    from_memory = classed(part("a", "50", "Flam. Liq. 3", documented=False), WATER)
    assert "from memory" in map(str, from_memory.of("Flam. Liq. 3").marks)


def test_a_flash_point_that_says_a_worse_class_is_shown_beside():
    own = part("a", "100", "Flam. Liq. 3", flash=at("12"), boiling=at("82"))
    assert standings(classed(own)) == {
        "Flam. Liq. 2": POSSIBLE,
        "Flam. Liq. 3": CERTAIN,
    }
    low = part("a", "100", "Flam. Liq. 2", flash=at("12"))
    assert standings(classed(low)) == {"Flam. Liq. 2": CERTAIN}


def test_a_milder_part_can_raise_the_flash_point():
    """12 and 70 °C: the blend may lie in category 2, in 3 or above."""
    found = classed(part("a", "50", flash=at("12"), boiling=at("82")), WATER)
    assert {n for n, s in standings(found).items() if s is POSSIBLE} == {
        *("Flam. Liq. 2", "Flam. Liq. 3")
    }


def test_a_whole_sheet_without_a_class_leaves_no_flammability_open():
    assert standings(classed(part("a", "50", "Skin Irrit. 2"), WATER)) == {
        "Skin Irrit. 2": CERTAIN
    }


def test_aspiration_of_one_material_is_what_its_supplier_says():
    """3.10.3: the supplier measured the viscosity; in a mixture it is asked for."""
    assert standings(classed(part("a", "100", "Asp. Tox. 1"))) == {
        "Asp. Tox. 1": CERTAIN
    }
    assert standings(classed(part("a", "50", "Asp. Tox. 1"), WATER)) == {
        "Asp. Tox. 1": POSSIBLE
    }
    thick = classed(part("a", "100", "Asp. Tox. 1"), viscosity=at("30"))
    assert thick.of("Asp. Tox. 1") is None


# -- classes without a sum ---------------------------------------------------


def test_classes_without_a_sum_stay_with_one_material():
    found = classed(part("a", "100", "Flam. Sol. 2", "PBT"), liquid=False)
    assert standings(found) == {"PBT": CERTAIN, "Flam. Sol. 2": CERTAIN}
    mixed = classed(part("a", "50", "Flam. Sol. 2", "PBT"), WATER, liquid=False)
    assert standings(mixed) == {"PBT": OPEN}
    un_only = part("a", "100", "Skin Irrit. 3")
    assert standings(classed(un_only)) == {}
    assert standings(classed(un_only, scheme=UN)) == {"Skin Irrit. 3": CERTAIN}


# -- one substance, several papers -------------------------------------------


@pytest.mark.parametrize(
    ("worse", "milder", "each", "expected"),
    [
        ("Skin Sens. 1A", "Skin Sens. 1", "0.06", "Skin Sens. 1"),
        ("Carc. 1B", "Carc. 2", "0.06", "Carc. 1B"),
        ("Repr. 1B", "Repr. 2", "0.2", "Repr. 1B"),
        ("STOT RE 1", "STOT RE 2", "6", "STOT RE 1"),
    ],
)
def test_of_two_papers_on_one_substance_the_worse_counts(worse, milder, each, expected):
    """Each lot stays below the limit of the worse class, both together reach it."""
    found = classed(part("a", each, worse, key="x"), part("b", each, milder, key="x"))
    assert found.of(expected).standing is CERTAIN
    apart = classed(part("a", each, worse, key="x"), part("b", each, milder, key="y"))
    assert apart.of(expected) is None or apart.of(expected).standing is Standing.BELOW


# -- M-factors ---------------------------------------------------------------


def test_a_missing_m_factor_is_not_taken_for_1():
    """3 % of Chronic 1: with M = 1 below 25 %, with M = 10 at 30 % (Table 4.1.2)."""
    silent = classed(part("a", "3", "Aquatic Chronic 1"), WATER)
    assert silent.of("Aquatic Chronic 1").standing is OPEN
    assert silent.of("Aquatic Chronic 1").because == ("a",)
    assert silent.of("Aquatic Chronic 2").standing is CERTAIN
    told = {
        m: part("a", "3", "Aquatic Chronic 1", m_chronic=Fraction(m)) for m in (1, 10)
    }
    assert classed(told[1], WATER).of("Aquatic Chronic 1").standing is Standing.BELOW
    assert classed(told[10], WATER).of("Aquatic Chronic 1").standing is CERTAIN


# -- EUH208 ------------------------------------------------------------------


@pytest.mark.parametrize(
    ("sensitiser", "percent", "limits", "expected"),
    # Annex II, 2.8 with Table 3.4.6 (from memory: 0.1 %; 1A 0.01 %; a tenth)
    [
        ("Skin Sens. 1B", "0.1", [], CERTAIN),
        ("Skin Sens. 1B", "0.0999", [], POSSIBLE),
        ("Skin Sens. 1", "0.01", [], POSSIBLE),
        ("Skin Sens. 1", "0.0099", [], None),
        ("Skin Sens. 1A", "0.01", [], CERTAIN),
        ("Skin Sens. 1A", "0.0099", [], None),
        ("Skin Sens. 1A", "0.001", ["Skin Sens. 1A, H317: C >= 0.01 %"], CERTAIN),
        ("Skin Sens. 1A", "0.0009", ["Skin Sens. 1A, H317: C >= 0.01 %"], None),
        ("Skin Sens. 1", "0.002", ["EUH208: C >= 0.002 %"], CERTAIN),
    ],
)
def test_from_where_on_the_label_names_a_sensitiser(
    sensitiser, percent, limits, expected
):
    found = classed(part("a", percent, sensitiser, limits=limits)).of("EUH208")
    assert (found and found.standing) is expected
