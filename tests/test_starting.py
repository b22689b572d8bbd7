"""Starting points, and a lot held against what is published of its species."""

from datetime import date

import pytest

from blendcheck.assess import assess
from blendcheck.checks import caps, oxidation, species
from blendcheck.errors import ReferenceDataError
from blendcheck.records.finding import Outcome
from blendcheck.records.material import Material, Materials
from blendcheck.records.recipe import Recipe
from blendcheck.starting import (
    oils_meant,
    published_density,
    published_shares,
    started_from,
)
from blendcheck.words import render

ON = date(2026, 11, 25)
MENTHOL = "2216-51-5"


def peppermint(**fields):
    return Material.model_validate(
        {
            "id": "mint",
            "name": "Peppermint oil",
            "kind": "essential oil",
            "botanical": "Mentha x piperita",
            **fields,
        }
    )


def checked(material, cap):
    base = Material.model_validate({"id": "base", "name": "Base", "kind": "solid"})
    shelf = Materials.model_validate({"cap": [cap]} if cap else {})
    shelf = shelf.model_copy(update={"material": (base, material)})
    line = [
        {"material": "base", "amount": "99 g"},
        {"material": "mint", "amount": "1 g"},
    ]
    return assess(Recipe.model_validate({"name": "t", "line": line}), shelf, ON)


def own_cap(printed):
    return {
        "on": "component",
        "name": "menthol",
        "cas": MENTHOL,
        "scheme": "own rule",
        "printed": printed,
    }


def found(assessment, check, subject=""):
    return [f for f in check(assessment.case) if subject in f.subject]


@pytest.mark.published
def test_menthol_of_peppermint_spans_the_published_limits():
    # WHO monographs, p. 266, and an older European Pharmacopoeia: menthol 30-55 %
    share = next(p for p in published_shares("peppermint") if p.cas == MENTHOL)
    assert (share.range.low, share.range.high) == (30, 55)
    assert len(share.sources) > 1


def test_no_within_rests_on_a_published_range():
    material = started_from(peppermint(), "peppermint")
    limit = found(checked(material, own_cap("0.9 %")), caps.check, "menthol")[0]
    assert limit.outcome is Outcome.UNKNOWN
    assert "on the published range" in render(limit.why)
    assert "not your lot" in render(limit.why)


def test_a_cap_above_all_that_the_oil_can_hold_needs_no_composition():
    material = started_from(peppermint(), "peppermint")
    limit = found(checked(material, own_cap("1 %")), caps.check, "menthol")[0]
    assert limit.outcome is Outcome.WITHIN  # 1 g of oil in 100 g, were it all menthol


def test_a_paper_of_the_lot_replaces_what_is_published_component_by_component():
    paper = {
        "kind": "hazardous ingredients",
        "row": [{"name": "menthol", "cas": MENTHOL, "share": "40 %"}],
    }
    material = started_from(peppermint(composition=[paper]), "peppermint")
    limit = found(checked(material, own_cap("0.9 %")), caps.check, "menthol")[0]
    assert limit.outcome is Outcome.WITHIN
    rows = material.composition
    assert [c.kind for c in rows] == ["hazardous ingredients", "published range"]
    assert not rows[1].copied_whole


def test_starting_again_replaces_the_first_start():
    once = started_from(peppermint(), "peppermint")
    again = started_from(once, "peppermint")
    assert again == once


def test_an_oil_that_is_not_in_the_tables_is_refused():
    with pytest.raises(ReferenceDataError, match="unheard-of"):
        started_from(peppermint(), "unheard-of")


def test_the_botanical_name_decides_and_an_unknown_one_finds_nothing():
    assert [o.oil for o in oils_meant(peppermint())] == ["peppermint"]
    strange = peppermint(name="Moon oil", botanical="Luna nova")
    assert oils_meant(strange) == ()


@pytest.mark.published
def test_the_published_density_of_peppermint():
    # European Pharmacopoeia: relative density 0.900 to 0.916; water at 20 degC weighs
    # 0.9982 g/mL (Tanaka et al. 2001)
    density = published_density("peppermint")
    assert density is not None
    assert float(density.range.low) == pytest.approx(0.900 * 0.9982, abs=1e-4)
    assert float(density.range.high) == pytest.approx(0.916 * 0.9982, abs=1e-4)


def report(share):
    return {
        "lot": "L1",
        "opened": "2026-02-20",
        "composition": [
            {
                "kind": "full GC-MS",
                "basis": "w/w",
                "row": [
                    {"name": "menthol", "cas": MENTHOL, "share": share},
                    {"name": "limonene", "cas": "5989-27-5", "share": "2 %"},
                ],
            }
        ],
    }


@pytest.mark.parametrize(("share", "asked"), [("12 %", 1), ("45 %", 0), ("25-35 %", 0)])
def test_a_lot_outside_its_species_is_asked_about(share, asked):
    result = checked(peppermint(lot=[report(share)]), None)
    findings = found(result, species.check, "menthol")
    assert len(findings) == asked
    for finding in findings:
        assert finding.kind == "caution"
        assert finding.outcome is None
        assert "Is it the oil you think it is?" in render(finding.why)


def test_an_opened_oil_is_asked_for_its_peroxide_value():
    result = checked(peppermint(lot=[report("45 %")]), None)
    (finding,) = found(result, oxidation.check)
    said = render(finding.why)
    assert "9 months ago" in said
    assert "limonene" in said
    # Regulation (EC) 1223/2009, Annex III, entry 88: less than 20 mmol/L
    assert "< 20 mmol/L" in render(finding.ask[0])


def test_a_bottle_without_a_date_is_left_to_the_cautions_about_people():
    lot = report("45 %")
    del lot["opened"]
    assert not found(checked(peppermint(lot=[lot]), None), oxidation.check)
