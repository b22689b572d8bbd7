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
from tests.equations.dortmund import ours, theirs
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
