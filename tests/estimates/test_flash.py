"""Flash points of blends: what is taken for what, what is refused, and the ends."""

import numpy as np
import pytest
from scipy.optimize import brentq

from blendcheck import reference
from blendcheck.errors import DomainError
from blendcheck.estimates.compositions import Component, Lot
from blendcheck.estimates.draws import flash_draws, lot_draws, share_draws, spread_of
from blendcheck.estimates.ends import end_of
from blendcheck.estimates.flash import (
    MOST_BRACKETED,
    MOST_UNLISTED,
    flash_of,
    flash_of_parts,
)
from blendcheck.estimates.mixing import mixture_of
from blendcheck.estimates.parts import (
    ALPHA_PINENE,
    CINEOLE,
    Part,
    bracket_of,
    flash_figure,
    part_of,
    unmixable,
)
from blendcheck.estimates.pressures import curve_of, tabled_curve
from blendcheck.quantity import Mark
from tests.equations.dortmund import groups_of, theirs

LIMONENE, PINENE, LINALOOL = "5989-27-5", "80-56-8", "78-70-6"
MENTHOFURAN, PIPERITONE, MENTHOL = "494-90-6", "89-81-6", "2216-51-5"


def lot(*rows, key="oil", unlisted=None, is_whole=True):
    """Rows are (CAS number, low, high) or (CAS number, percent)."""
    made = tuple(
        Component(row[0], str(row[0]), float(row[1]), float(row[-1])) for row in rows
    )
    if unlisted is None:
        high = sum(one.high for one in made)
        low = sum(one.low for one in made)
        unlisted = (max(0.0, 100 - high), max(0.0, 100 - low))
    return Lot(key, key, made, unlisted, is_whole)


def estimate(*rows, **fields):
    return flash_of([(lot(*rows, **fields), 1.0, 1.0)])


# ---- outside: the same by another library ------------------------------------------


@pytest.mark.published
def test_a_blend_is_that_of_thermo_and_brentq():
    """Gammas by thermo 0.6.1, the root by scipy; our curves as they are, not tabled."""
    percents = {
        LINALOOL: 33, "115-95-7": 36, "470-82-6": 6, "76-22-2": 5, "138-86-3": 12,
        "99-85-4": 8,
    }  # fmt: skip
    parts = [part_of(cas) for cas in percents]
    moles = np.array([percents[part.cas] / part.molar_mass for part in parts])
    x = moles / moles.sum()
    library = theirs([groups_of(cas) for cas in percents], x, 300.0)
    curves = [curve_of(cas) for cas in percents]
    alone = [float(c(np.asarray(p.flash))) for c, p in zip(curves, parts, strict=True)]

    def excess(kelvin):
        gammas = library.to_T_xs(kelvin, x.tolist()).gammas()
        at = np.asarray(kelvin)
        terms = zip(x, gammas, curves, alone, strict=True)
        return sum(xi * g * float(c(at)) / p for xi, g, c, p in terms) - 1

    kelvin = brentq(excess, 250, 400, xtol=1e-8)
    assert flash_of_parts(percents) == pytest.approx(kelvin - 273.15, abs=0.01)


def test_a_table_of_a_curve_is_the_curve():
    kelvin = np.linspace(205.0, 475.0, 4001)
    for cas in (LIMONENE, "64-17-5", "470-82-6", "14073-97-3", "562-74-3"):
        exact = curve_of(cas)(kelvin)
        assert np.abs(tabled_curve(cas)(kelvin) / exact - 1).max() < 5e-5


@pytest.mark.parametrize("cas", [LIMONENE, LINALOOL, "64-17-5"])
def test_a_part_alone_flashes_at_its_own_flash_point(cas):
    expected = float(flash_figure(cas).value) - 273.15
    assert flash_of_parts({cas: 100.0}) == pytest.approx(expected, abs=1e-3)


# ---- the figures of the parts -------------------------------------------------------


def test_regressed_figures_of_alcohols_do_not_stand_for_the_cup():
    # Serat (2017): ethanol -13 degC and phenethyl alcohol 100 degC are regressed; the
    # first is 25 K below the standards (IEC 60079-20-1: 12 degC).
    for cas in ("64-17-5", "60-12-8", "119-36-8"):
        assert flash_figure(cas).source_id != "serat-2017"
    assert flash_figure(PINENE).source_id == "serat-2017"  # a hydrocarbon


def test_own_figures_come_before_those_of_isomers_and_memory_comes_last():
    assert flash_figure(LIMONENE).subject == LIMONENE
    assert flash_figure("126-91-0").subject == LINALOOL
    assert flash_figure("123-35-3").tag == "memory"
    for row in reference.rows_of(reference.LiquidPoint):
        if row.tag == "memory" and row.quantity == "flash point":
            # A figure that was read, and may stand for the cup, replaces it.
            assert flash_figure(row.cas).tag == "memory"


def test_light_ends_are_lighter_than_what_they_stand_for():
    """Every constituent that has all its figures flashes above its own light end."""
    checked = 0
    for cas in reference.constituents():
        part, light = part_of(cas), bracket_of(cas)
        if isinstance(part, Part) and light is not None and part.figure is not None:
            checked += 1
            assert part.flash >= part_of(light).flash - 1e-9, part.name
            # And not only there: it adds less to the sum per gram, whatever its curve.
            at = np.asarray(part_of(light).flash)
            own = part.curve(at) / part.curve(np.asarray(part.flash)) / part.molar_mass
            assert own <= 1.05 / part_of(light).molar_mass, part.name
    assert checked > 60


def test_what_a_light_end_may_stand_for():
    assert bracket_of(MENTHOFURAN) == bracket_of("87-44-5") == CINEOLE
    assert bracket_of("508-32-7") == ALPHA_PINENE  # tricyclene, a hydrocarbon
    assert bracket_of(None) == bracket_of("105-85-1") == ALPHA_PINENE  # no formula
    assert bracket_of("928-96-1") is None  # six carbon atoms


def test_groups_without_an_interaction_take_the_smaller_share_out():
    ester, aldehyde = "140-11-4", "100-52-7"
    pairs = unmixable(("89-83-8", "141-27-5"))
    assert [pair.says for pair in pairs] == ["ACOH with CHO"]
    found = estimate((LIMONENE, 90), ("89-83-8", 8), ("141-27-5", 2))
    assert found.low is not None
    assert [one.lack for one in found.opened] == ["no interaction of ACOH with CHO"]
    assert found.opened[0].percent == pytest.approx(2)
    assert isinstance(part_of(ester), Part)
    assert isinstance(part_of(aldehyde), Part)


# ---- refusals -----------------------------------------------------------------------


def test_no_estimate_without_a_full_report():
    found = flash_of(
        [(lot((LIMONENE, 100)), 1, 1), (lot(key="other", is_whole=False), 3, 3)]
    )
    assert found.low is found.central is found.high is None
    (refused,) = found.refused
    assert (refused.name, refused.lack) == ("other", "no full report")
    assert refused.percent == pytest.approx(75)


def test_unlisted_share_counts_as_light_ends_up_to_its_limit():
    whole = estimate((LINALOOL, 100))
    some = estimate((LINALOOL, 100 - MOST_UNLISTED))
    assert some.low < whole.low - 3
    assert some.central == pytest.approx(whole.central)
    assert some.high > whole.high
    assert [one.taken_for for one in some.opened] == [ALPHA_PINENE]
    assert any("alpha-pinene" in line for line in some.lines)
    more = estimate((LINALOOL, 100 - MOST_UNLISTED - 0.1))
    assert more.low is None
    assert [one.name for one in more.refused] == ["not listed"]


def test_named_constituents_without_figures_are_bracketed_up_to_their_limit():
    whole = estimate((MENTHOL, 100))
    some = estimate((MENTHOL, 95.2), (MENTHOFURAN, 4.0), (PIPERITONE, 0.8))
    assert some.low < whole.low
    assert {one.name for one in some.opened} == {MENTHOFURAN, PIPERITONE}
    assert {one.lack for one in some.opened} == {"no structural groups"}
    # It costs less than the same share of which nothing is known.
    assert some.low > estimate((MENTHOL, 95.2)).low
    more = estimate((MENTHOL, 99 - MOST_BRACKETED), (MENTHOFURAN, MOST_BRACKETED + 1))
    assert more.low is None
    assert [one.name for one in more.refused] == [MENTHOFURAN]


def test_a_small_molecule_without_figures_is_not_bracketed():
    small = next(
        cas
        for cas in reference.constituents()
        if bracket_of(cas) is None and part_of(cas) == "no flash point of its own"
    )
    assert estimate((LINALOOL, 99), (small, 1)).refused[0].name == small
    assert estimate((LINALOOL, 99.95), (small, 0.05)).low is not None


# ---- the range ----------------------------------------------------------------------


def test_ranges_of_composition_give_a_range():
    one = estimate((LIMONENE, 30), (LINALOOL, 70))
    wide = estimate((LIMONENE, 10, 50), (LINALOOL, 50, 90), unlisted=(0.0, 0.0))
    assert one.low == pytest.approx(one.central - 5)
    assert one.high == pytest.approx(one.central + 5)
    assert wide.low < one.low
    assert one.high < wide.high
    low = flash_of_parts({LIMONENE: 50, LINALOOL: 50})
    high = flash_of_parts({LIMONENE: 10, LINALOOL: 90})
    assert wide.inner == pytest.approx((low, high), abs=1e-3)


def test_a_share_of_memory_widens_the_low_end():
    found = estimate(("123-35-3", 100))  # myrcene
    assert found.low == pytest.approx(found.central - 15, abs=1e-3)
    assert found.high == pytest.approx(found.central + 5, abs=1e-3)
    assert Mark.FROM_MEMORY in found.marks
    assert found.recalled == ("myrcene",)
    assert any("memory" in line for line in found.lines)


def test_near_the_limit_of_a_class_a_closed_cup_test_is_needed():
    assert estimate((LINALOOL, 100)).near_limits == ()  # 70 to 80 degC
    assert estimate(("100-52-7", 100)).near_limits == (60.0,)  # benzaldehyde, 64 degC
    assert estimate((MENTHOL, 100)).near_limits == (93.0,)


RANGES = (
    (LIMONENE, 2, 20), (PINENE, 0, 6), ("470-82-6", 2, 20), (MENTHOL, 10, 50),
    ("14073-97-3", 5, 30), (LINALOOL, 5, 40), ("115-95-7", 5, 40),
)  # fmt: skip


def test_draws_lie_between_the_ends():
    made = lot(*RANGES, unlisted=(0.0, 0.0))
    found = flash_of([(made, 1, 1)])
    drawn = flash_draws([(made, 1, 1)], 3000)
    assert drawn.min() >= found.inner[0]
    assert drawn.max() <= found.inner[1]
    spread = spread_of(drawn)
    assert found.inner[0] < spread.low < spread.middle < spread.high < found.inner[1]


def test_the_ends_are_reached_by_a_composition_inside_the_ranges():
    made = lot(*RANGES, unlisted=(0.0, 0.0))
    mixture = mixture_of([(made, 1, 1)])
    drawn = flash_draws([(made, 1, 1)], 3000)
    for end, beyond in (("low", np.min), ("high", np.max)):
        x, kelvin = end_of(mixture, end)
        grams = x * mixture.masses
        percents = 100 * grams / grams.sum()
        for (_, low, high), percent in zip(RANGES, percents, strict=False):
            assert low - 1e-6 <= percent <= high + 1e-6
        # The same composition between the ends, without the 10 K of memory.
        plain = float(mixture.kelvin(x, "middle")) - 273.15
        assert kelvin - 273.15 <= plain + 1e-6
        assert (plain - beyond(drawn)) * (1 if end == "high" else -1) > 0
        # No pair of shares can trade a gram and take it further (to the first order).
        assert _no_trade_helps(mixture, grams, kelvin, end)


def _no_trade_helps(mixture, grams, kelvin, end):
    """Move 0.05 % from one share to another wherever the ranges let it."""
    sign, total = (1 if end == "low" else -1), grams.sum()
    step = 0.0005 * total
    ends = [(low * total / 100, high * total / 100) for _, low, high in RANGES]
    for give, (low, _) in enumerate(ends):
        for take, (_, high) in enumerate(ends):
            if give == take or grams[give] - step < low or grams[take] + step > high:
                continue
            moved = grams.copy()
            moved[give] -= step
            moved[take] += step
            found = float(mixture.kelvin(mixture.moles(moved, end), end))
            if sign * (kelvin - found) > 0.02:
                return False
    return True


def test_masses_that_are_ranges_widen_the_blend():
    light, heavy = lot((PINENE, 100), key="a"), lot((LINALOOL, 100), key="b")
    exact = flash_of([(light, 2, 2), (heavy, 8, 8)])
    drops = flash_of([(light, 1, 3), (heavy, 8, 8)])
    assert drops.inner[0] < exact.inner[0] == pytest.approx(exact.inner[1], abs=1e-3)
    expected = flash_of_parts({PINENE: 3, LINALOOL: 8})
    assert drops.inner[0] == pytest.approx(expected, abs=1e-3)


def test_shares_of_the_sum_add_up_to_one():
    found = estimate((LIMONENE, 30), (LINALOOL, 60), ("470-82-6", 10))
    assert sum(share for _, share in found.shares) == pytest.approx(1, abs=1e-4)
    assert found.shares[0][0] == "d-limonene"


def test_parts_must_have_all_their_figures():
    with pytest.raises(DomainError, match="no structural groups"):
        flash_of_parts({MENTHOFURAN: 1.0})


# ---- draws --------------------------------------------------------------------------


def test_a_lot_never_adds_up_to_more_than_all_of_it():
    drawn = lot_draws(lot(*RANGES), 2000)
    lows = [row[1] for row in RANGES]
    highs = [row[2] for row in RANGES]
    assert drawn.shape == (2000, len(RANGES) + 1)
    assert drawn.sum(axis=1) == pytest.approx(100)
    assert np.all(drawn[:, :-1] >= np.array(lows) - 1e-9)
    assert np.all(drawn[:, :-1] <= np.array(highs) + 1e-9)


def test_one_draw_holds_for_a_lot_wherever_it_is_used():
    first, other = lot(*RANGES, key="A"), lot(*RANGES, key="B")
    again = lot_draws(first, 50)
    assert np.array_equal(lot_draws(first, 50), again)
    assert not np.array_equal(lot_draws(other, 50), again)
    assert not np.array_equal(lot_draws(first, 50, seed=2), again)
    # A longer run begins with the shorter one.
    assert np.array_equal(lot_draws(first, 80)[:50], again)


def test_shares_that_cannot_make_a_whole_are_refused():
    generator = np.random.default_rng(1)
    for lows, highs in (([60, 50], [70, 60]), ([1, 1], [40, 40]), ([5, 0], [4, 99])):
        with pytest.raises(DomainError):
            share_draws(lows, highs, 10, generator)


# ---- the ends of wide ranges ---------------------------------------------------------

WIDE = {
    "water in it": [
        ("16409-43-1", 37.2, 94), ("7732-18-5", 9.1, 26.6), ("2244-16-8", 3.4, 10.5),
        ("110-27-0", 1.3, 4.5), ("14073-97-3", 0.5, 2.4),
    ],
    "a glycol in it": [
        ("76-22-2", 8.9, 94), ("79-92-5", 2.4, 28.2), (LIMONENE, 0.2, 2.9),
        ("57-55-6", 5.0, 56.6),
    ],
    "below both its parts": [(LIMONENE, 5, 95), ("67-63-0", 5, 95)],
    "acetone in it": [
        ("110-93-0", 4.1, 34.4), (LIMONENE, 7.0, 59.0), ("6485-40-1", 6.5, 54.4),
        ("106-24-1", 1.3, 11.8), ("67-64-1", 0.0, 1.4),
    ],
    "an oil": RANGES,
}  # fmt: skip


@pytest.mark.parametrize("rows", WIDE.values(), ids=WIDE)
def test_no_composition_inside_the_ranges_leaves_the_range(rows):
    """Compositions at random and corners at random, each by the equation itself."""
    made = lot(*rows, unlisted=(0.0, 0.0))
    found, mixture = flash_of([(made, 1, 1)]), mixture_of([(made, 1, 1)])
    chance = np.random.default_rng(7)
    lows, highs = (np.array([row[n] for row in rows], float) for n in (1, 2))
    shares = [share_draws(lows, highs, 400, chance)]
    for _ in range(200):
        corner, rest = lows.copy(), 100 - lows.sum()
        for n in chance.permutation(len(rows)):
            corner[n] += min(rest, highs[n] - lows[n])
            rest = 100 - corner.sum()
        shares.append(corner[None])
    grams = np.zeros((600, len(mixture.everything)))
    grams[:, : len(rows)] = np.clip(np.concatenate(shares), 0, None)
    for end, (low, high) in (("low", (found.inner[0], np.inf)),
                             ("high", (-np.inf, found.inner[1]))):  # fmt: skip
        points = mixture.kelvin(mixture.moles(grams, end), end) - 273.15
        assert points.min() >= low - 0.1
        assert points.max() <= high + 0.1
    assert found.low <= found.central <= found.high


def test_wide_ranges_in_one_lot_do_not_make_it_more_than_itself():
    """Two lots of equal mass weigh alike, however far the middles of one add up."""
    rows = [(cas, 0, 100) for cas in (LIMONENE, "138-86-3", "7705-14-8")]
    wide = lot(*rows, key="a", unlisted=(0, 0))
    found = flash_of([(wide, 1, 1), (lot((LINALOOL, 100), key="b"), 1, 1)])
    thirds = {cas: 50 / 3 for cas, _, _ in rows}
    expected = flash_of_parts({**thirds, LINALOOL: 50})
    assert found.central == pytest.approx(expected, abs=0.01)


def test_the_middle_lies_between_the_ends_where_the_light_end_is_the_heavier():
    """Ethyl acetate is lighter than the alpha-pinene that the rest is taken for."""
    found = estimate(("141-78-6", 95))
    assert found.inner[0] <= found.central <= found.inner[1]
    assert found.low <= found.central - 5 + 1e-9


def test_the_share_of_what_lacks_a_figure_is_taken_at_most():
    """1 to 3 drops of an oil of which nothing is listed, beside 10 to 20 of another."""
    light = lot((LINALOOL, 80), key="a")
    found = flash_of([(light, 1, 3), (lot((LINALOOL, 100), key="b"), 10, 20)])
    assert found.opened[0].percent == pytest.approx(20 * 3 / 13)


def test_a_blend_that_splits_only_at_an_end_is_said_to_split():
    rows = [("64-17-5", 10, 100), ("7732-18-5", 0, 90), (LIMONENE, 0, 10)]
    made = [(lot(*rows, unlisted=(0, 0)), 1, 1)]
    mixture = mixture_of(made)
    x = mixture.middle()
    assert not mixture.may_split(x, float(mixture.kelvin(x, "middle")))
    assert flash_of(made).may_split
