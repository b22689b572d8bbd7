"""Ten thousand blends of twelve parts: flash points, beside thermo and brentq.

``python -m pytest -q -s tests/bench/bench_flash.py`` prints both and their ratio.
Thermo works out one blend after another, each with ``to_T_xs`` and ``brentq``; it is
timed on fewer and scaled. Both run in turn, so that what else the machine does weighs
on both alike.
"""

import math
import statistics
import time

import numpy as np
import pytest
from scipy.optimize import brentq

from blendcheck.equations.flash import flash_point
from blendcheck.estimates.compositions import Component, Lot
from blendcheck.estimates.draws import flash_draws, lot_draws
from blendcheck.estimates.parts import part_of
from blendcheck.estimates.pressures import tabled_curve
from tests.equations.dortmund import groups_of, ours, theirs
from tests.equations.twelve import AT_25, BOILING, CURVES, FLASH, GROUPS

pytestmark = [pytest.mark.bench, pytest.mark.timeout(600)]

DRAWS, FEWER, RUNS = 10_000, 120, 5
LIMIT_S, NEAR_K, AIM = 2.0, 0.01, 50


def coefficients():
    """Antoine coefficients of the same curves, so that thermo's side loses no time."""
    found = []
    for pressure, boiling in zip(AT_25, BOILING, strict=True):
        c = 18 - 0.19 * boiling
        b = math.log(101_325 / pressure) / (1 / (298.15 + c) - 1 / (boiling + c))
        found.append((math.log(101_325) + b / (boiling + c), b, c))
    return found


def by_thermo(x):
    library = theirs(GROUPS, x[0], 300.0)
    antoine = coefficients()
    alone = [
        math.exp(a - b / (t + c)) for (a, b, c), t in zip(antoine, FLASH, strict=True)
    ]

    def kelvin(blend):
        def excess(t):
            total = -1.0
            gammas = library.to_T_xs(t, blend).gammas()
            for xi, g, (a, b, c), p in zip(blend, gammas, antoine, alone, strict=True):
                total += xi * g * math.exp(a - b / (t + c)) / p
            return total

        return brentq(excess, 250.0, 400.0, xtol=1e-6)

    return np.array([kelvin(blend.tolist()) for blend in x])


def test_flash_points_of_ten_thousand_blends():
    x = np.random.default_rng(8).dirichlet(np.full(12, 0.5), DRAWS)
    model = ours(GROUPS)
    flash_point(x[:100], CURVES, FLASH, model)
    by_thermo(x[:2])
    mine, scaled, far = [], [], 0.0
    for run in range(RUNS):
        start = time.perf_counter()
        found = flash_point(x, CURVES, FLASH, model)
        mine.append(time.perf_counter() - start)
        part = slice(run * FEWER, (run + 1) * FEWER)
        start = time.perf_counter()
        expected = by_thermo(x[part])
        scaled.append((time.perf_counter() - start) * DRAWS / FEWER)
        far = max(far, float(np.abs(found[part] - expected).max()))
    ratio = statistics.median(scaled) / statistics.median(mine)
    print(
        f"\nflash, {DRAWS} draws of 12 parts: {statistics.median(mine):.2f} s (best "
        f"{min(mine):.2f}); thermo, scaled from {RUNS * FEWER}: "
        f"{statistics.median(scaled):.0f} s; ratio {ratio:.0f}; "
        f"largest difference {far:.1e} K"
    )
    assert far <= NEAR_K
    assert min(mine) < LIMIT_S
    assert ratio >= AIM


# -- draws of one lot inside its printed ranges, with the curves of the tables ---------

RANGES = (
    ("5989-27-5", 5, 20), ("80-56-8", 1, 8), ("127-91-3", 1, 8), ("99-85-4", 1, 10),
    ("470-82-6", 2, 20), ("2216-51-5", 10, 40), ("10458-14-7", 5, 25),
    ("78-70-6", 5, 30), ("115-95-7", 5, 30), ("562-74-3", 1, 10), ("99-87-6", 1, 8),
    ("123-35-3", 0, 4),
)  # fmt: skip


def drawn_by_thermo(lot, part):
    """The same draws, one after another: gammas by thermo, the root by brentq."""
    cas = [one.cas for one in lot.components]
    parts = [part_of(each) for each in cas]
    shares = lot_draws(lot, DRAWS)[part, :-1]
    x = shares / np.array([each.molar_mass for each in parts])
    x /= x.sum(axis=1, keepdims=True)
    like = {"5989-27-5": "138-86-3"}
    library = theirs([groups_of(like.get(each, each)) for each in cas], x[0], 300.0)
    curves = [tabled_curve(each) for each in cas]
    alone = [float(c(np.asarray(p.flash))) for c, p in zip(curves, parts, strict=True)]

    def celsius(blend):
        def excess(t):
            gammas = library.to_T_xs(t, blend).gammas()
            terms = zip(blend, gammas, curves, alone, strict=True)
            return sum(xi * g * float(c(t)) / p for xi, g, c, p in terms) - 1

        return brentq(excess, 250.0, 400.0, xtol=1e-6) - 273.15

    return np.array([celsius(blend.tolist()) for blend in x])


def test_flash_points_of_ten_thousand_draws_of_a_lot():
    components = tuple(Component(cas, cas, low, high) for cas, low, high in RANGES)
    lot = Lot("bench", "bench", components, (0.0, 0.0), is_whole=True)
    flash_draws([(lot, 1.0, 1.0)], 100)
    mine, scaled, far = [], [], 0.0
    for run in range(RUNS):
        start = time.perf_counter()
        found = flash_draws([(lot, 1.0, 1.0)], DRAWS)
        mine.append(time.perf_counter() - start)
        part = slice(run * FEWER, (run + 1) * FEWER)
        start = time.perf_counter()
        expected = drawn_by_thermo(lot, part)
        scaled.append((time.perf_counter() - start) * DRAWS / FEWER)
        far = max(far, float(np.abs(found[part] - expected).max()))
    ratio = statistics.median(scaled) / statistics.median(mine)
    print(
        f"\nflash, {DRAWS} draws of a lot of 12 parts: {statistics.median(mine):.2f} s "
        f"(best {min(mine):.2f}); thermo, scaled from {RUNS * FEWER}: "
        f"{statistics.median(scaled):.0f} s; ratio {ratio:.0f}; "
        f"largest difference {far:.1e} K"
    )
    assert far <= NEAR_K
    assert min(mine) < LIMIT_S
    assert ratio >= AIM
