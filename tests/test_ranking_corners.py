"""An order of recipes holds at every corner of what is unknown, or is not stated.

The corners are tried one by one here, with no share of the code that finds the ends:
every share of every lot, every dropper, every finished mass, every way into the air.
"""

import random
from fractions import Fraction
from itertools import product

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

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
from tests.checks.shelves import (
    D_LIMONENE,
    MENTHOL,
    oil,
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
