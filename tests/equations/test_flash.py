"""Flash points: printed tables, blends that flash below all parts, and thermo.

Vapour pressures of alcohols, water and hydrocarbons: Wagner or DIPPR fits, parameters
of modified UNIFAC (Dortmund), both as compiled in thermo 0.6.1.
"""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq
from thermo import VaporPressure

from blendcheck.equations.flash import MODEL_ERROR, flash_point
from blendcheck.errors import DomainError
from tests.equations.dortmund import groups_of, ours, theirs
from tests.equations.twelve import CURVES, FLASH, GROUPS

ZERO = 273.15
WATER, ETHANOL, PROPANOL = "7732-18-5", "64-17-5", "67-63-0"
MASSES = {WATER: 18.015, ETHANOL: 46.068, PROPANOL: 60.095}


def curve(cas):
    fit = VaporPressure(CASRN=cas)
    for method in ("WAGNER_POLING", "WAGNER_MCGARRY", "DIPPR_PERRY_8E"):
        if method in fit.all_methods:
            fit.method = method
            break
    else:
        raise LookupError(cas)
    return np.vectorize(fit, otypes=[float])


FITS = {
    cas: curve(cas)
    for cas in (WATER, ETHANOL, PROPANOL, "111-65-9", "71-36-3", "108-88-3")
}


def in_water(alcohol, celsius, by_mass):
    """Flash points of alcohol in water, for shares of alcohol by mass. [degC]"""
    parts = [ours([groups_of(alcohol), groups_of(WATER)])]
    moles = np.stack([by_mass / MASSES[alcohol], (1 - by_mass) / MASSES[WATER]], -1)
    x = moles / moles.sum(-1, keepdims=True)
    curves = [FITS[alcohol], FITS[WATER]]
    return flash_point(x, curves, [celsius + ZERO, np.inf], *parts) - ZERO


# -- printed figures -----------------------------------------------------------------

# Flash points of ethanol in water, a public engineering table (it says percent by
# weight; other copies say by volume). Cup not stated. Ethanol alone: 13 degC there.
ETHANOL_TABLE = {5: 62, 10: 49, 20: 36, 40: 26, 50: 24, 70: 21, 80: 20, 96: 17}
# Percent by volume in percent by mass: alcoholometric tables (10 and 20 % as the US
# Pharmacopeia prints them, the others from memory).
BY_MASS = {
    5: 4.0,
    10: 8.05,
    20: 16.27,
    40: 33.3,
    50: 42.4,
    70: 62.4,
    80: 73.5,
    96: 93.8,
}


@pytest.mark.published
@pytest.mark.parametrize("basis", ["weight", "volume"])
def test_ethanol_in_water(basis):
    table = np.array(list(ETHANOL_TABLE.values()), float)
    percent = list(ETHANOL_TABLE if basis == "weight" else BY_MASS.values())
    errors = in_water(ETHANOL, 13.0, np.array(percent) / 100) - table
    print(f"\nethanol in water, by {basis}: errors {np.round(errors, 1)} K, "
          f"n {len(errors)}, mean |error| {np.abs(errors).mean():.2f} K, "
          f"highest {errors.max():+.1f} K")  # fmt: skip
    assert np.abs(errors).mean() <= 3
    assert errors.max() <= 6


PROPANOL_SHEETS = [
    # percent by mass, printed degC, where
    (70.0, 18.3, "a supplier's sheet, closed cup, 70 % by weight"),
    (62.8, 18.0, "rubbing alcohol, 70 % by volume assumed"),
    (91.0, 13.9, "a supplier's sheet, 57 degF closed cup, 91 % by weight"),
]


@pytest.mark.published
def test_propanol_in_water():
    percent, printed, _ = zip(*PROPANOL_SHEETS, strict=True)
    errors = in_water(PROPANOL, 12.0, np.array(percent) / 100) - np.array(printed)
    print(f"\n2-propanol in water: errors {np.round(errors, 1)} K")
    assert np.abs(errors).max() <= 3


@pytest.mark.published
def test_water_at_activity_one_would_be_far_too_high():
    """Why it is refused: 10 % of ethanol by weight flashes at 49, not at 75 degC."""
    moles = np.array([0.10 / MASSES[ETHANOL], 0.90 / MASSES[WATER]])
    share = moles[0] / moles.sum()
    ideal = brentq(
        lambda t: share * FITS[ETHANOL](t) / FITS[ETHANOL](13 + ZERO) - 1, 250, 400
    )
    assert ideal - ZERO - ETHANOL_TABLE[10] > 5 * MODEL_ERROR
    with pytest.raises(DomainError, match="activity = None must be a model where a"):
        flash_point(
            [share, 1 - share], [FITS[ETHANOL], FITS[WATER]], [286.15, np.inf], None
        )


MINIMUM = [
    # Vidal and others (2006) name both as mixtures that flash below their parts;
    # flash points of the parts (degC) from the lists of NFPA and IEC.
    ("octane and ethanol", "111-65-9", 13.0, ETHANOL, 13.0),
    ("octane and 1-butanol", "111-65-9", 13.0, "71-36-3", 35.0),
]


@pytest.mark.published
@pytest.mark.parametrize("pair", MINIMUM, ids=[each[0] for each in MINIMUM])
def test_blends_that_flash_below_all_their_parts(pair):
    _, first, low, second, high = pair
    x = np.linspace(0, 1, 101)
    found = flash_point(
        np.stack([x, 1 - x], -1), [FITS[first], FITS[second]],
        [low + ZERO, high + ZERO], ours([groups_of(first), groups_of(second)]),
    ) - ZERO  # fmt: skip
    print(f"\n{pair[0]}: lowest {found.min():.1f} degC at x = {x[found.argmin()]:.2f}")
    assert found.min() < min(low, high) - 0.5
    assert 0 < found.argmin() < 100
    ideal = flash_point(
        np.stack([x, 1 - x], -1), [FITS[first], FITS[second]],
        [low + ZERO, high + ZERO], None,
    ) - ZERO  # fmt: skip
    assert ideal.min() >= min(low, high) - 1e-6  # at activity 1 it is not seen


def test_alcohol_in_water_has_no_such_minimum():
    found = in_water(ETHANOL, 13.0, np.linspace(0.02, 1, 99))
    assert np.all(np.diff(found) < 0)


# -- against thermo ------------------------------------------------------------------


def test_the_same_by_the_general_library():
    rng = np.random.default_rng(5)
    x = rng.dirichlet(np.full(12, 0.4), 25)
    found = flash_point(x, CURVES, FLASH, ours(GROUPS))
    alone = [float(c(t)) for c, t in zip(CURVES, FLASH, strict=True)]
    library = theirs(GROUPS, x[0], 300.0)
    worst = 0.0
    for blend, kelvin in zip(x, found, strict=True):

        def excess(t, blend=blend):
            gammas = library.to_T_xs(t, blend.tolist()).gammas()
            terms = zip(blend, gammas, CURVES, alone, strict=True)
            return sum(xi * g * float(c(t)) / p for xi, g, c, p in terms) - 1

        worst = max(worst, abs(brentq(excess, 200, 480, xtol=1e-10) - kelvin))
    print(f"\nlargest difference from thermo and brentq: {worst:.1e} K")
    assert worst < 1e-6


# -- what must hold ------------------------------------------------------------------


@pytest.mark.parametrize("i", range(12))
def test_a_part_alone_flashes_where_it_does(i):
    alone = np.eye(12)[i]
    for model in (ours(GROUPS), None):
        found = flash_point(alone, CURVES, FLASH, model)
        assert float(found) == pytest.approx(FLASH[i], abs=1e-7)


@given(st.integers(0, 2**32 - 1), st.floats(0.05, 5))
@settings(max_examples=40, deadline=None)
def test_the_sum_is_one_there(seed, spread):
    x = np.random.default_rng(seed).dirichlet(np.full(12, spread), 20)
    model = ours(GROUPS)
    for activity in (model, None):
        found = flash_point(x, CURVES, FLASH, activity)
        gammas = activity.coefficients(x, found) if activity else np.ones_like(x)
        alone = [c(t) for c, t in zip(CURVES, FLASH, strict=True)]
        ratios = np.stack([c(found) for c in CURVES], -1) / alone
        assert (x * gammas * ratios).sum(-1) == pytest.approx(1, abs=1e-7)
    assert np.all(found >= FLASH.min() - 1e-6)  # at activity 1, which came last
    assert np.all(found <= FLASH.max() + 1e-6)


@given(st.permutations(range(12)), st.integers(0, 999))
@settings(max_examples=20, deadline=None)
def test_order_does_not_matter(order, seed):
    x = np.random.default_rng(seed).dirichlet(np.full(12, 0.5))
    order = list(order)
    found = flash_point(x, CURVES, FLASH, ours(GROUPS))
    turned = flash_point(
        x[order], [CURVES[i] for i in order], FLASH[order],
        ours([GROUPS[i] for i in order]),
    )  # fmt: skip
    assert float(turned) == pytest.approx(float(found), abs=1e-6)


def test_many_at_once_are_each_alone():
    x = np.random.default_rng(6).dirichlet(np.full(12, 0.3), (3, 700))
    model = ours(GROUPS)
    found = flash_point(x, CURVES, FLASH, model)
    assert found.shape == (3, 700)
    for place in ((0, 0), (1, 333), (2, 699)):
        alone = flash_point(x[place], CURVES, FLASH, model)
        assert float(alone) == pytest.approx(found[place], abs=1e-7)


def test_what_does_not_flash_is_infinite():
    curves = [FITS[ETHANOL], FITS[WATER]]
    model = ours([groups_of(ETHANOL), groups_of(WATER)])
    x = [[0.0, 1.0], [0.2, 0.8], [1e-5, 1 - 1e-5]]
    found = flash_point(x, curves, [286.15, np.inf], model, highest=373.15)
    assert found[0] == found[2] == np.inf
    assert 290 < found[1] < 320
    # Water alone is no mixture that would need a model.
    assert float(flash_point([0.0, 1.0], curves, [286.15, np.inf], None)) == np.inf


REFUSED = [
    ("a missing flash point", {"flash_points": [320.0, np.nan]}, "flash_points = nan"),
    ("colder than looked for", {"flash_points": [320.0, 150.0]}, "flash_points = 150"),
    ("minus infinity", {"flash_points": [320.0, -np.inf]}, "flash_points = -inf must"),
    ("shares", {"x": [0.5, 0.6]}, "sum of x = 1.1 must be from 1 to 1"),
    ("a share that is not known", {"x": [np.nan, 0.5]}, "x = nan must be >= 0"),
    ("negative", {"x": [1.5, -0.5]}, "x = -0.5 must be >= 0"),
    ("three of two", {"x": [0.5, 0.3, 0.2], "flash_points": [300.0] * 3}, "x = .3,."),
]


@pytest.mark.parametrize(("change", "message"), [r[1:] for r in REFUSED],
                         ids=[r[0] for r in REFUSED])  # fmt: skip
def test_what_is_refused(change, message):
    given_ = {
        "x": [0.5, 0.5], "pressures": CURVES[:2], "flash_points": [320.0, 310.0],
        "activity": None,
    }  # fmt: skip
    with pytest.raises(DomainError, match=message):
        flash_point(**(given_ | change))


def test_a_flash_point_below_the_range_is_refused():
    """Two parts that repel each other so much that both act as if alone, and colder."""
    steep = [lambda t: np.exp(20 - 100 / t)] * 2  # hardly rises with temperature
    repelling = ours([groups_of("111-65-9"), groups_of(ETHANOL)])
    with pytest.raises(DomainError, match="flash point = below 200 must be >= 200 K"):
        flash_point([0.5, 0.5], steep, [210.0, 210.0], repelling)
