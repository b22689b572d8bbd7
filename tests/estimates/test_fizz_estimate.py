"""Carbon dioxide of a piece, by hand from textbook masses, and where the rinse ends."""

import pytest

from blendcheck.checks import fizz
from blendcheck.estimates.fizz import fizz_of
from blendcheck.estimates.fizz_powders import ACID_OF
from blendcheck.words import render
from tests.checks.cases import make_case
from tests.equations.test_fizz import released
from tests.published import Printed

BASE = {"id": "bicarbonate", "name": "Bicarbonate", "kind": "solid", "cas": "144-55-8"}
CLAY = {"id": "clay", "name": "Clay", "kind": "solid", "cas": "1332-58-7"}


def acid(cas="77-92-9", id_="acid"):
    return {"id": id_, "name": id_.capitalize(), "kind": "solid", "cas": cas}


def tablet(base, *acids, **recipe):
    recipe = {"product": "shower tablet", "pieces": 1} | recipe
    return fizz_of(make_case((BASE, base), *acids, **recipe).totals)


def grams(found, what="co2"):
    one = found.estimate(what)
    assert one.low == one.high
    return one.high


# -- textbook exercises -------------------------------------------------------------


@pytest.mark.published
@pytest.mark.parametrize(
    ("base", "citric", "printed", "left"),
    [
        # 3 NaHCO3 + H3C6H5O7 -> 3 CO2 + 3 H2O + Na3C6H5O7, M 84.01, 192.13, 44.01:
        # the exercise of general chemistry texts; answers worked out with those masses
        ("1.00 g", "1.00 g", "0.524", "0.238"),
        ("1.30 g", "1.30 g", "0.681", "0.309"),
    ],
)
def test_the_textbook_exercise(base, citric, printed, left):
    found = tablet(base, (acid(), citric))
    source = ("g", "citric-bicarbonate-stoichiometry", "exercise")
    assert Printed(printed, *source).holds(grams(found))
    assert Printed(left, *source).holds(grams(found, "acid-left"))
    assert found.rinse == "acid"


@pytest.mark.published
def test_the_bicarbonate_of_an_antacid_tablet():
    """Exercise: how much citric acid for 920 mg of bicarbonate? 0.701 g; 0.482 g."""
    found = tablet("0.920 g", (acid(), "0.7014 g"))
    assert grams(found) == pytest.approx(0.482, abs=5e-4)
    assert grams(found) == pytest.approx(grams(found, "bound"), rel=1e-3)
    assert grams(found, "acid-left") < 1e-3


@pytest.mark.parametrize(
    ("cas", "molar_mass", "protons"),
    [
        ("77-92-9", 192.13, 3),
        ("5949-29-1", 210.14, 3),
        ("868-14-4", 188.18, 1),
        ("87-69-4", 150.09, 2),
        ("133-37-9", 150.09, 2),
        ("6915-15-7", 134.09, 2),
        ("97-67-6", 134.09, 2),
    ],
)
def test_acids_are_known_by_their_number(cas, molar_mass, protons):
    """Ten grams with more bicarbonate than it needs; masses of a chemistry table."""
    assert cas in ACID_OF
    found = tablet("100 g", (acid(cas), "10 g"))
    assert grams(found) == pytest.approx(10 / molar_mass * protons * 44.01, rel=1e-3)
    assert found.rinse == "alkaline"
    left = 100 - 10 / molar_mass * protons * 84.01
    assert grams(found, "bicarbonate-left") == pytest.approx(left, rel=1e-3)


def test_acids_together_and_lots_of_one():
    both = tablet("100 g", (acid(), "5 g"), (acid("868-14-4", "tartar"), "5 g"))
    apart = [tablet("100 g", (acid(cas), "5 g")) for cas in ("77-92-9", "868-14-4")]
    assert grams(both) == pytest.approx(sum(map(grams, apart)))


# -- ranges -------------------------------------------------------------------------


def test_a_range_has_its_ends_at_its_corners():
    found = tablet("10-12 g", (acid(), "5-9 g"), (CLAY, "80 g"))
    corners = [
        grams(tablet(f"{base} g", (acid(), f"{citric} g"), (CLAY, "80 g")))
        for base in (10, 12)
        for citric in (5, 9)
    ]
    gas = found.estimate("co2")
    assert gas.low == pytest.approx(min(corners), rel=1e-9)
    assert gas.high == pytest.approx(max(corners), rel=1e-9)
    assert found.rinse == "either"
    assert gas.central is None


def test_without_acid_there_is_no_gas_but_its_bound():
    found = tablet("100 g", (CLAY, "1 g"))
    assert grams(found) == 0
    assert grams(found, "bound") == pytest.approx(100 * 44.01 / 84.01, rel=1e-3)


def test_without_bicarbonate_there_is_nothing_to_say():
    assert fizz_of(make_case((CLAY, "10 g"), (acid(), "10 g")).totals) is None


@pytest.mark.parametrize(
    "powder",
    [
        {"id": "white", "name": "White powder", "kind": "solid"},
        {"id": "c", "name": "Ascorbic acid", "kind": "solid", "cas": "50-81-7"},
        {"id": "k", "name": "Pearl ash", "kind": "solid", "cas": "584-08-7"},
    ],
)
def test_what_may_be_an_acid_or_give_gas_leaves_it_open(powder):
    """The white powder may be citric acid: then there is gas, and an acid rinse."""
    found = tablet("100 g", (powder, "50 g"))
    assert powder["name"] in (*found.not_told, *found.not_reckoned)
    gas, left = found.estimate("co2"), found.estimate("bicarbonate-left")
    as_citric = tablet("100 g", (acid(), "50 g"))
    assert gas.low == 0
    assert gas.high >= grams(as_citric)
    assert gas.high == pytest.approx(grams(found, "bound"))
    assert left.low <= grams(as_citric, "bicarbonate-left") <= left.high
    assert found.rinse == "not known"
    assert found.estimate("acid-left") is None


def test_without_any_acid_none_is_said_to_run_out():
    found = tablet("100 g", (CLAY, "1 g"))
    assert found.rinse == "no acid"
    assert grams(found, "bicarbonate-left") == pytest.approx(100)


@pytest.mark.parametrize(
    ("powder", "product", "code"),
    [
        ({"id": "k", "name": "K", "kind": "solid", "cas": "298-14-6"}, "soap",
         "fizz.not-reckoned"),
        ({"id": "s", "name": "Soda", "kind": "solid"}, "bath fizz",
         "fizz.no-bicarbonate"),
        ({"id": "s", "name": "Soda", "kind": "solid"}, "soap", None),
    ],
)  # fmt: skip
def test_a_fizz_that_is_not_worked_out_is_not_passed_over(powder, product, code):
    case = make_case((powder, "100 g"), (CLAY, "9 g"), pieces=1, product=product)
    assert fizz_of(case.totals) is None
    assert [one.why.code for one in fizz.check(case)] == (
        [] if code is None else [code]
    )


def test_what_is_left_of_a_batch_is_not_called_one_use():
    case = make_case((BASE, "100 g"), (acid(), "50 g"))
    said = [render(one.why) for one in fizz.check(case)]
    assert all("the whole batch" in text for text in said)
    assert not any("one use" in text for text in said)


# -- rooms --------------------------------------------------------------------------


def test_parts_per_million_by_hand():
    """67 g with 33 g give 22.9 g of gas; the volume by 0.082057 L atm/(mol K)."""
    found = tablet("66.67 g", (acid(), "33.33 g"))
    assert grams(found) == pytest.approx(22.9, abs=0.05)
    litres = 22.9 / 44.01 * 0.082057 * 313.15
    assert found.estimate("stall").central == pytest.approx(
        litres / 2000 * 1e6, rel=3e-3
    )
    assert found.estimate("bathroom").central == pytest.approx(
        litres / 12_000 * 1e6, rel=3e-3
    )
    bound = found.estimate("stall").high / found.estimate("stall").central
    assert bound == pytest.approx(grams(found, "bound") / grams(found))


def test_the_rooms_are_those_of_the_shower():
    shower = {"stall_volume": "1 m3", "bathroom_volume": "5 m3"}
    case = make_case(
        (BASE, "66.67 g"), (acid(), "33.33 g"), pieces=1, product="shower tablet",
        shelf={"workshop": {"shower": shower}},
    )  # fmt: skip
    small, usual = fizz_of(case.totals), tablet("66.67 g", (acid(), "33.33 g"))
    assert small.estimate("stall").central == pytest.approx(
        2 * usual.estimate("stall").central
    )
    assert small.estimate("bathroom").central == pytest.approx(
        2 * usual.estimate("bathroom").central
    )


@pytest.mark.parametrize(
    ("product", "rooms"),
    [("bath fizz", {"bathroom"}), ("shower tablet", {"stall", "bathroom"}),
     ("soap", set()), ("other", set())],
)  # fmt: skip
def test_rooms_by_product(product, rooms):
    found = tablet("10 g", (acid(), "5 g"), product=product)
    there = {one for one in ("stall", "bathroom") if found.estimate(one)}
    assert there == rooms


def test_half_a_piece_is_half_the_gas():
    whole = tablet("10 g", (acid(), "5 g"))
    half = tablet("10 g", (acid(), "5 g"), pieces_per_use="1/2")
    assert grams(half) == pytest.approx(grams(whole) / 2)


@pytest.mark.published
def test_limits_are_those_that_are_printed():
    """OSHA PEL 5000 ppm; ACGIH 15 min 30 000 ppm; ASR A3.6: above 2000 unacceptable."""
    assert [ppm for _, ppm, _ in tablet("1 g").limits] == [5000, 30_000, 2000]


# -- the chemical equilibrium ----------------------------------------------------------


@pytest.mark.parametrize(
    ("ratio", "rinse"), [(1.0, "acid"), (2.0, "alkaline"), (3.0, "alkaline")]
)
def test_the_rinse_agrees_with_the_equilibrium(ratio, rinse):
    """Constants of a general chemistry table, from memory: see the equation's test.

    A gram of powder in a litre of open water ends alkaline where bicarbonate is left,
    acid where acid is, and has given off what the estimate says, within 3 %.
    """
    found = tablet(f"{100 * ratio:.0f} g", (acid(), "100 g"))
    assert found.rinse == rinse
    ph, share = released(ratio, 1.0, 400e-6)
    assert (ph > 7) == (rinse == "alkaline")
    assert share == pytest.approx(grams(found) / grams(found, "bound"), abs=0.03)
