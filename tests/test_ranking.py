"""An order of recipes holds at every corner of what is unknown, or is not stated.

The corners are tried one by one here, with no share of the code that finds the ends:
every share of every lot, every dropper, every finished mass.
"""

import random
from fractions import Fraction
from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from blendcheck.compare import compare, sentences_of
from blendcheck.equations.transfer import equilibrium_fraction
from blendcheck.estimates.pressures import pressures_of
from blendcheck.estimates.release import release_of
from blendcheck.estimates.released import released
from blendcheck.estimates.setting import grid_of, setting_of
from blendcheck.estimates.ways import (
    carried_part,
    dissolved_part,
    film_part,
    ratio_of,
)
from blendcheck.ranking import rank
from blendcheck.words import render
from tests.checks.shelves import (
    CITRAL,
    D_LIMONENE,
    LIMONENE,
    LINALOOL,
    MENTHOL,
    checked,
    oil,
    paper,
    row,
)

CINEOLE, CAMPHOR, PINENE = "470-82-6", "76-22-2", "80-56-8"
LINALYL_ACETATE = "115-95-7"
"""In the table of constituents, volatile, and on no list of irritants."""

CLAY = {"id": "clay", "name": "Kaolin", "kind": "solid", "cas": "1332-58-7"}
"""The base: no fizz, so that the estimate with transfer has no gas to reckon with."""


def report(*rows, unidentified="0 %"):
    return paper(*rows, copied_whole=True, unidentified=unidentified)


def shelf(**shares):
    """Three oils, each with a whole report of a marked and an unmarked component."""
    made = {"mint": MENTHOL, "gum": CINEOLE, "pine": PINENE}
    oils = []
    for name, cas in made.items():
        marked, rest = shares.get(name, ("40-50 %", "40-60 %"))
        oils.append(
            oil(
                name,
                papers=[
                    report(
                        row(f"marked in {name}", cas, marked),
                        row("linalyl acetate", LINALYL_ACETATE, rest),
                    )
                ],
                density="0.90",
                weighed={"drop": "0.02-0.04 g"},
            )
        )
    return [*oils, CLAY]


def tablet(lines, oils=None, **recipe):
    recipe = {"pieces": 10, "piece_mass": "60 g", "product": "shower tablet"} | recipe
    return checked(lines, shelf() if oils is None else oils, **recipe)


def piece(assessments):
    return rank(assessments)[0]


def pair(assessments):
    (found,) = piece(assessments).pairs
    return found


# -- what is stated, and what is not ----------------------------------------------


def test_less_of_one_oil_is_less():
    weak = tablet({"clay": "594 g", "mint": "6 g"})
    strong = tablet({"clay": "588 g", "mint": "12 g"})
    found = pair([strong, weak])
    assert found.lower == 1
    # by hand: 12 g and 6 g of 600 g in pieces of 60 g, 40 to 50 % of it menthol
    assert (found.grams.low, found.grams.high) == (Fraction("0.24"), Fraction("0.3"))
    assert render(found.why).startswith("test has less of it than test: by 0.24")
    assert piece([strong, weak]).order == (1, 0)


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


# -- every corner --------------------------------------------------------------------

AMOUNTS = st.sampled_from(["0 g", "1 g", "4 g", "6 g", "10 drops", "30 drops"])
SHARES = st.sampled_from(
    [("40 %", "60 %"), ("10-80 %", "20-90 %"), ("30-35 %", "65 %")]
)
MIXES = st.tuples(AMOUNTS, AMOUNTS, AMOUNTS)


def corners_of(amounts, shares, drop):
    """Grams of each marked component, at one corner, worked out from the texts."""
    names = ("mint", "gum", "pine")
    grams = {}
    for name, amount in zip(names, amounts, strict=True):
        number, unit = amount.split()
        mass = Fraction(number) * (drop[name] if unit == "drops" else 1)
        grams[name] = mass, mass * shares[name] / 100
    return grams


def load_at(amounts, base, shares, drop, weights, use=1):
    """The load of one piece at one corner, straight from the recipe."""
    grams = corners_of(amounts, shares, drop)
    whole = base + sum(mass for mass, _ in grams.values())
    sum_ = sum(weights[name] * part for name, (_, part) in grams.items())
    return use * 60 * sum_ / whole


def ends(text):
    numbers = [Fraction(part) for part in text.removesuffix(" %").split("-")]
    return numbers if len(numbers) == 2 else numbers * 2


@settings(max_examples=60, deadline=None)
@given(MIXES, MIXES, st.tuples(SHARES, SHARES, SHARES), st.sampled_from([560, 590]))
def test_a_stated_order_holds_at_every_corner(first, second, shares, other_base):
    names = ("mint", "gum", "pine")
    oils = shelf(**dict(zip(names, shares, strict=True)))
    recipes = []
    for amounts, base in ((first, 590), (second, other_base)):
        lines = dict(zip(names, amounts, strict=True))
        lines = {k: v for k, v in lines.items() if not v.startswith("0 ")}
        recipes.append(tablet({"clay": f"{base} g", **lines}, oils))
    ranking = piece(recipes)
    swapped = piece(recipes[::-1])
    if not ranking.pairs:
        assert ranking.apart
        return
    (found,) = ranking.pairs
    (turned,) = swapped.pairs
    assert turned.lower == (None if found.lower is None else 1 - found.lower)
    marked = dict(zip(names, shares, strict=True))
    spans = {name: ends(marked[name][0]) for name in names}
    differences = []
    for share, drop in product(
        product(*(spans[name] for name in names)),
        product([Fraction("0.02"), Fraction("0.04")], repeat=3),
    ):
        held = dict(zip(names, share, strict=True))
        drops = dict(zip(names, drop, strict=True))
        ones = dict.fromkeys(names, 1)
        one = load_at(first, 590, held, drops, ones)
        other = load_at(second, other_base, held, drops, ones)
        differences.append(one - other)
        for weights in WEIGHTS:
            if found.lower is not None:
                low = load_at(first, 590, held, drops, weights)
                high = load_at(second, other_base, held, drops, weights)
                assert (low < high) == (found.lower == 0)
    assert found.grams.low <= min(differences)
    assert found.grams.high >= max(differences)
    if found.lower is not None:
        assert (max(differences) < 0) == (found.lower == 0)
    if found.alike:
        assert set(differences) == {0}


def _world(draw, cas, film, gas, water, split):
    """Parts that leave of one constituent at one setting, in one state of the shower.

    Every constituent has the same film, water and gas, and a vapour pressure and a
    ratio of air to water of its own.
    """
    pascals, factor = pressures_of(cas, [one.water_c for one in GRID])
    pascals = pascals * factor ** draw.uniform(-1, 1)
    kelvin = [one.kelvin for one in GRID]
    hours = [one.dissolving_min / 60 for one in GRID]
    oil_part = film_part(pascals, kelvin, hours, film)
    ratio = ratio_of(cas, GRID)
    share = ratio.low + (ratio.high - ratio.low) * draw.random()
    drops = dissolved_part(share, [one.flow_l_per_min for one in GRID])
    most = equilibrium_fraction(
        share,
        air_volume=[
            one.stall_m3 * (1 + one.stall_changes * one.dissolving_min / 60)
            for one in GRID
        ],
        water_volume=[one.flow_l_per_min * one.dissolving_min / 1000 for one in GRID],
    )
    if ratio.memory:
        most = np.ones(len(GRID))
    leaves = split * oil_part
    leaves += (1 - split) * (drops + water * np.maximum(0, most - drops))
    return 1 - (1 - leaves) * (1 - carried_part(pascals, kelvin, gas))


GRID = grid_of(setting_of())


def worlds(names, count=60, gas=0.0):
    """Draw what leaves of each constituent, one row a world; some at their ends."""
    draw = random.Random(26)  # noqa: S311
    rows = []
    for n in range(count):
        ends = n % 2 == 0
        state = [draw.choice([0, 1]) if ends else draw.random() for _ in range(4)]
        film, carried, water, split = state
        parts = {
            name: _world(draw, cas, film, carried * gas, water, split)
            for name, cas in names.items()
        }
        setting = draw.randrange(len(GRID))
        rows.append({name: Fraction(part[setting]) for name, part in parts.items()})
    return rows


WEIGHTS = worlds({"mint": MENTHOL, "gum": CINEOLE, "pine": PINENE}, count=24)


def test_some_orders_are_stated_and_some_are_not():
    """The property above could not fail if nothing were ever stated."""
    found = set()
    for first, second in product(["1 g", "4 g", "30 drops"], repeat=2):
        one = tablet({"clay": "590 g", "mint": first, "gum": "1 g"})
        other = tablet({"clay": "590 g", "mint": second, "gum": "1 g"})
        found.add(pair([one, other]).lower)
    assert found == {0, 1, None}


# -- the whole range of release ----------------------------------------------------


def one_substance(name, cas):
    return oil(name, papers=[report(row(name, cas, "100 %"))])


def test_an_order_has_to_hold_over_the_whole_range_of_release():
    """1 g of menthol against 0.2 g of camphor, in ten pieces.

    In full, and by the middle of the estimate, there is less camphor. But menthol may
    stay in the water almost wholly while camphor, whose solubility nobody read,
    leaves it.
    """
    oils = [one_substance("mint", MENTHOL), one_substance("wood", CAMPHOR), CLAY]
    mint = tablet({"clay": "590 g", "mint": "10 g"}, oils)
    wood = tablet({"clay": "598 g", "wood": "2 g"}, oils)
    found = pair([mint, wood])
    assert found.grams.low > 0
    much, little = (
        grams * release_of(cas, GRID, 0.0).central
        for grams, cas in ((1.0, MENTHOL), (0.2, CAMPHOR))
    )
    assert np.all(little < much)  # the middle would have stated an order
    assert found.lower is None
    assert found.why.code == "compare.views-differ"
    names = {"mint": MENTHOL, "wood": CAMPHOR}
    turned = [w for w in worlds(names) if w["wood"] * Fraction(1, 5) > w["mint"]]
    assert turned  # and there are showers in which it would be false


def test_what_two_lots_share_leaves_both_alike():
    """Menthol from another lot: three times as much is more, however much leaves."""
    oils = [
        one_substance("mint", MENTHOL),
        oil("other", papers=[report(row("menthol", MENTHOL, "90-100 %"),
                                    row("x", LINALYL_ACETATE, "0-10 %"))]),
        CLAY,
    ]  # fmt: skip
    weak = tablet({"clay": "598 g", "mint": "2 g"}, oils)
    strong = tablet({"clay": "594 g", "other": "6 g"}, oils)
    assert pair([weak, strong]).lower == 0


def test_every_drawn_release_lies_between_the_ends_of_its_states():
    """The hull of all states holds each draw, and the middle that is shown."""
    names = {cas: cas for cas in (MENTHOL, CINEOLE, PINENE, CAMPHOR, D_LIMONENE)}
    found = released(tuple(names), setting_of(), 1.0)
    low, high = found.low.min(axis=0), found.high.max(axis=0)
    for world in worlds(names, gas=1.0):
        for n, cas in enumerate(names):
            assert low[n] - 1e-12 <= float(world[cas]) <= high[n] + 1e-12
    for n, cas in enumerate(names):
        middle = release_of(cas, GRID, 1.0).central
        assert np.all((low[n] <= middle) & (middle <= high[n]))


def test_of_what_has_no_figures_anything_may_leave():
    found = released(("name:nobody knows", MENTHOL), setting_of())
    assert set(found.low[:, 0]) == {0}
    assert set(found.high[:, 0]) == {1}
    assert len(set(found.settings)) == len(GRID)


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


# -- equal strength of scent -------------------------------------------------------


def pair_of_known(first, second):
    """Two blends of two components that have thresholds by one method."""
    made = []
    for name, share in (("one", first), ("other", second)):
        rows = (
            row("limonene", D_LIMONENE, share[0]),
            row("linalool", LINALOOL, share[1]),
        )
        blend = oil(name, papers=[report(*rows)])
        made.append(tablet({"clay": "590 g", name: "10 g"}, [blend, CLAY]))
    return made


def test_equal_strength_by_hand():
    """Thresholds 9.863 and 0.951 ppm (squeeze bottle); 136.2 and 154.3 g/mol, 25 °C.

    Limonene is marked, linalool not: the blend with more of it smells less for its
    load. Load over strength of 90 % limonene: 0.9 ÷ (0.9 ÷ 54.9 + 0.1 ÷ 6.0) mg/m³.
    """
    weak, strong = pair_of_known(("10 %", "90 %"), ("90 %", "10 %"))
    found = compare([weak, strong]).strength
    assert found.why == ()
    limonene, linalool = 9.863 * 136.24 / 24.465, 0.951 * 154.25 / 24.465
    for load, share in zip(found.loads, (0.1, 0.9), strict=True):
        by_hand = share / (share / limonene + (1 - share) / linalool)
        assert load.is_exact
        assert float(load.low) == pytest.approx(by_hand, rel=2e-3)
    (said,) = found.pairs
    assert said.code == "compare.strength-less"


def test_equal_strength_of_ranges_is_closed_in_one_step():
    """The same share stands above and below: never wider than its corners."""
    one, other = pair_of_known(("46-54 %", "46-54 %"), ("48-52 %", "48-52 %"))
    found = compare([one, other]).strength
    assert found.loads[0].low < found.loads[1].low
    assert found.loads[1].high < found.loads[0].high
    assert found.pairs[0].code == "compare.strength-open"
    limonene, linalool = 9.863 * 136.24 / 24.465, 0.951 * 154.25 / 24.465
    corners = [
        a / (a / limonene + b / linalool) for a in (0.46, 0.54) for b in (0.46, 0.54)
    ]
    assert float(found.loads[0].low) == pytest.approx(min(corners), rel=2e-3)
    assert float(found.loads[0].high) == pytest.approx(max(corners), rel=2e-3)


def test_what_has_no_threshold_is_named():
    recipe = tablet({"clay": "594 g", "mint": "6 g"})
    found = compare([recipe, recipe]).strength
    assert found.loads == (None, None)
    assert found.pairs == ()
    assert "no odour threshold is known for: linalyl acetate." in render(found.why[0])


def test_drops_and_unknown_oils_have_no_strength():
    drops = tablet({"clay": "594 g", "mint": "20 drops"})
    unknown = tablet({"clay": "594 g", "x": "6 g"}, [oil("x"), CLAY])
    codes = [say.code for say in compare([drops, unknown]).strength.why]
    assert codes == ["compare.strength-drops", "compare.strength-undocumented"]
