"""How long one check takes: as a whole process, and within one.

``python -m pytest -q -s tests/bench/bench_check.py`` prints the medians.

The whole process is measured against ``python -c "import pandas"`` on the same
machine, one run of each in turn, so that what else the machine does weighs on both
alike; the ratio of the medians is what counts. Within a process the check itself is
timed for each demo recipe, with its tables read and its files loaded.
"""

import itertools
import os
import statistics
import subprocess
import sys
import time

import pytest

from blendcheck.assess import assess
from blendcheck.demo import MATERIALS, demo_files, write_demo
from blendcheck.files import materials_from_text, recipe_from_text
from tests.checks.shelves import ON

pytestmark = [pytest.mark.bench, pytest.mark.timeout(600)]

MOST = 0.65
"""Of the time that importing pandas takes. [-]"""

RUNS = 21
ROUNDS = 40
RECIPES = [name for name in demo_files() if name != MATERIALS]


def seconds(command: list[str]) -> float:
    # as at home: what was compiled once is kept
    kept = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    start = time.perf_counter()
    done = subprocess.run(command, capture_output=True, check=False, env=kept)
    assert done.returncode in (0, 1), done.stderr
    return time.perf_counter() - start


def test_a_check_as_a_process_against_importing_pandas(tmp_path):
    write_demo(tmp_path)
    recipes = itertools.cycle(tmp_path / name for name in RECIPES)
    pandas = [sys.executable, "-c", "import pandas"]

    def check() -> list[str]:
        run = [sys.executable, "-m", "blendcheck", "check", str(next(recipes))]
        return [*run, "--on", ON.isoformat()]

    for _ in RECIPES:  # compiled and in the page cache, both
        seconds(check())
        seconds(pandas)
    ours, theirs = [], []
    for _ in range(RUNS):
        ours.append(seconds(check()))
        theirs.append(seconds(pandas))
    ratio = statistics.median(ours) / statistics.median(theirs)
    print(
        f"\ncheck: median {statistics.median(ours) * 1e3:.0f} ms, import pandas: "
        f"median {statistics.median(theirs) * 1e3:.0f} ms, ratio {ratio:.2f} "
        f"(at most {MOST}), {RUNS} runs of each in turn"
    )
    assert ratio <= MOST


@pytest.mark.parametrize("name", RECIPES)
def test_the_check_itself(name):
    shelf = materials_from_text(demo_files()[MATERIALS], MATERIALS)
    recipe = recipe_from_text(demo_files()[name], name)
    assess(recipe, shelf, ON)
    found = []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        result = assess(recipe, shelf, ON)
        found.append((time.perf_counter() - start) * 1e3)
    print(
        f"\nassess({name}): median {statistics.median(found):.0f} ms, least "
        f"{min(found):.0f} ms, {len(result.findings)} findings, "
        f"{len(result.working.steps)} steps"
    )
    assert len(result.findings) > 10
