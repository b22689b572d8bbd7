"""A full check of a demo recipe with its estimates, after imports and a first call.

``python -m pytest -q -s -m bench tests/bench/bench_estimates.py`` prints the times.
"""

import statistics
import time
from datetime import date
from pathlib import Path

import pytest

from blendcheck import demo
from blendcheck.assess import assess
from blendcheck.files.loading import load

pytestmark = [pytest.mark.bench, pytest.mark.timeout(300)]

LIMIT_S, RUNS = 0.150, 7
ON = date(2026, 11, 25)
FOLDER = Path(demo.__file__).parent
RECIPES = sorted(p.stem for p in FOLDER.glob("*.toml") if p.stem != "materials")


@pytest.mark.parametrize("name", RECIPES)
def test_a_full_check_with_estimates(name):
    recipe, materials = load(FOLDER / f"{name}.toml")[:2]
    assess(recipe, materials, ON, estimates=True)
    times = []
    for _ in range(RUNS):
        start = time.perf_counter()
        found = assess(recipe, materials, ON, estimates=True)
        times.append(time.perf_counter() - start)
    print(
        f"\n{name}: {1e3 * statistics.median(times):.0f} ms (best "
        f"{1e3 * min(times):.0f}), {len(found.findings)} findings"
    )
    assert min(times) < LIMIT_S
