"""The command line starts fast: what ``check`` must not import.

These packages cost from a tenth of a second to more than a second each. They
belong to the page, to charts, to files that are written back, to the verification
of the tables; a check of one recipe needs none of them.
"""

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
HEAVY = ("altair", "pandas", "pyarrow", "rdkit", "scipy", "streamlit", "tomlkit")
CROSS_CHECKS = ("chemicals", "fluids", "hypothesis", "pytest", "thermo")


def run(folder: Path, *arguments: str) -> "subprocess.CompletedProcess[str]":
    return subprocess.run(
        [sys.executable, "-X", "importtime", "-m", "blendcheck", *arguments],
        cwd=folder,
        env=os.environ | {"PYTHONPATH": str(ROOT), "PYTHONIOENCODING": "utf-8"},
        capture_output=True,
        encoding="utf-8",
        timeout=100,
        check=False,
    )


def imported_modules(import_times: str) -> set[str]:
    """Return the modules named in the report of ``python -X importtime``."""
    return set(re.findall(r"^import time:.*\|\s+([\w.]+)$", import_times, re.M))


def heavy_among(modules: set[str]) -> set[str]:
    tops = {module.partition(".")[0] for module in modules}
    return tops & {*HEAVY, *CROSS_CHECKS}


@pytest.fixture(scope="module")
def demo(tmp_path_factory) -> Path:
    folder = tmp_path_factory.mktemp("imports")
    made = run(folder, "demo", "demo")
    assert made.returncode == 0, made.stderr[-2000:]
    return folder / "demo"


def recipes(demo: Path) -> list[Path]:
    return sorted(p for p in demo.glob("*.toml") if p.name != "materials.toml")


@pytest.mark.parametrize("options", [[], ["--json"]], ids=["text", "json"])
def test_check_imports_nothing_heavy(demo, options):
    assert recipes(demo)
    for recipe in recipes(demo):
        done = run(demo, "check", recipe.name, *options)
        assert done.returncode in (0, 1), f"{recipe.name}: {done.stderr[-2000:]}"
        assert done.stdout.strip()
        modules = imported_modules(done.stderr)
        # The report was read, and the check really ran: its heart is in it.
        assert {"argparse", "blendcheck.blend", "blendcheck.assess"} <= modules
        assert heavy_among(modules) == set()


def test_version_imports_nothing_heavy(tmp_path):
    done = run(tmp_path, "--version")
    assert done.returncode == 0, done.stderr[-2000:]
    assert re.search(r"\d+\.\d+", done.stdout)
    assert heavy_among(imported_modules(done.stderr)) == set()


def test_guard_sees_a_heavy_import():
    """A guard that cannot fail guards nothing: here it must see the import."""
    done = subprocess.run(
        [sys.executable, "-X", "importtime", "-c", "import tomlkit.api"],
        capture_output=True,
        encoding="utf-8",
        timeout=100,
        check=True,
    )
    assert heavy_among(imported_modules(done.stderr)) == {"tomlkit"}
