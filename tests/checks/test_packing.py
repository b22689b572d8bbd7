"""Dry mass before wrapping.

The weighed recipe is one that recipe pages give (common practice): 450 g bicarbonate,
225 g citric acid, 50 g kaolin, 35 g menthol, 15 g oil, 5 g polysorbate and 30 g of
alcohol; dry it weighs 780 g. Bursting jars: CPSC release 09-112 (29 January 2009).
"""

import pytest

from blendcheck.blend.totals import Totals
from blendcheck.checks import packing
from blendcheck.interval import Range
from blendcheck.records.finding import Outcome
from blendcheck.words import render
from tests.checks.cases import ALCOHOL, BICARBONATE, CITRIC, by_code, make_case, oil

KAOLIN = {"id": "kaolin", "name": "Kaolin", "kind": "solid"}
MENTHOL = {
    "id": "menthol",
    "name": "Menthol crystals",
    "kind": "solid",
    "cas": "2216-51-5",
}
POLYSORBATE = {"id": "polysorbate", "name": "Polysorbate 80", "kind": "emulsifier"}


def published(alcohol=ALCOHOL, **recipe):
    return make_case(
        (BICARBONATE, "450 g"),
        (CITRIC, "225 g"),
        (KAOLIN, "50 g"),
        (MENTHOL, "35 g"),
        (oil(), "15 g"),
        (POLYSORBATE, "5 g"),
        (alcohol, "30 g"),
        **recipe,
    )


def weighed(dry, **recipe):
    case = published(dry_mass=dry, **recipe)
    return next(f for f in packing.check(case) if f.kind == "limit")


SEVENTY = {**ALCOHOL, "leaves_on_drying": "62.8-100 %"}  # its water may stay


@pytest.mark.parametrize(
    ("dry", "outcome", "code"),
    [
        ("780 g", Outcome.WITHIN, "packing.within"),
        ("780.1 g", Outcome.OVER, "packing.heavy"),
        ("810 g", Outcome.OVER, "packing.heavy"),  # nothing has left
        ("779.9 g", Outcome.UNKNOWN, "packing.light"),
    ],
)
def test_dry_mass_of_a_recipe_from_which_all_the_alcohol_leaves(dry, outcome, code):
    found = weighed(dry)
    assert (found.outcome, found.why.code) == (outcome, code)
    assert found.limit == "at most 780 g"


@pytest.mark.parametrize(
    ("dry", "outcome"),
    [
        ("779 g", Outcome.UNKNOWN),
        ("780 g", Outcome.WITHIN),
        ("791.16 g", Outcome.WITHIN),  # 780 g + 30 g × 37.2 %: all its water stayed
        ("791.17 g", Outcome.OVER),
    ],
)
def test_water_of_the_spritz_may_stay(dry, outcome):
    assert weighed(dry, alcohol=SEVENTY).outcome is outcome


def test_what_stops_the_maker_says_what_to_do():
    said = render(weighed("790 g").why)
    for word in ("not dry", "wait", "weigh again", "do not seal"):
        assert word in said


def test_what_was_lost_may_hide_what_is_wet():
    found = weighed("770 g", allowance_for_loss="3 %")  # 770 to 793.8 g before it
    assert found.outcome is Outcome.STRADDLES
    assert render(found.turns_at).startswith("Within if what was lost")
    assert found.turns_at.values["lost"] == "10 g"
    assert weighed("781 g", allowance_for_loss="3 %").outcome is Outcome.OVER
    assert weighed("700 g", allowance_for_loss="3 %").outcome is Outcome.UNKNOWN


def test_dry_says_nothing_if_nobody_entered_what_leaves():
    unknown = {k: v for k, v in ALCOHOL.items() if k != "leaves_on_drying"}
    found = weighed("800 g", alcohol=unknown)
    assert found.outcome is Outcome.UNKNOWN
    assert found.why.code == "packing.leaves-not-known"
    assert "Alcohol" in render(found.ask[0])
    assert weighed("811 g", alcohol=unknown).outcome is Outcome.OVER


def test_not_weighed_is_a_caution_that_asks_for_it():
    found = by_code(packing.check(published()))
    assert set(found) == {"packing.weigh", "packing.jars"}
    assert "780 g" in render(found["packing.weigh"][0].why)
    assert all(f.kind == "caution" and f.outcome is None for (f,) in found.values())


@pytest.mark.parametrize("dry", [None, "780 g", "790 g"])
@pytest.mark.parametrize("product", ["shower tablet", "bath fizz"])
def test_fizz_is_never_sealed_in_a_jar(dry, product):
    recipe = {"product": product} | ({} if dry is None else {"dry_mass": dry})
    found = by_code(packing.check(published(**recipe)))
    assert "jar" in render(found["packing.jars"][0].why)
    assert found["packing.jars"][0].severity == 1


def test_soap_loses_water_and_knows_no_jars():
    water = {
        "id": "water",
        "name": "Water",
        "kind": "water",
        "leaves_on_drying": "90-100 %",
    }
    fat = {"id": "fat", "name": "Fat", "kind": "soaping oil"}
    lines = ((fat, "700 g"), (water, "200 g"))
    found = by_code(packing.check(make_case(*lines, product="soap")))
    assert set(found) == {"packing.weigh-soap"}
    wet = make_case(*lines, product="soap", dry_mass="730 g")
    found = by_code(packing.check(wet))
    assert found["packing.heavy-soap"][0].outcome is Outcome.OVER
    dry = make_case(*lines, product="soap", dry_mass="720 g")
    assert by_code(packing.check(dry))["packing.within"]


def test_a_balm_that_loses_nothing_needs_no_weighing():
    wax = {"id": "wax", "name": "Wax", "kind": "other"}
    assert list(packing.check(make_case((wax, "95 g"), product="balm"))) == []


def test_the_value_is_the_weighed_mass():
    case = published(dry_mass="0.79 kg")
    found = by_code(packing.check(case))["packing.heavy"][0]
    assert isinstance(case.totals, Totals)
    assert case.working.range(found.value) == Range.at(790)
    assert "790 g" in render(found.why)
