"""The built wheel, installed in a clean environment and used from elsewhere.

Catches what a checkout hides: a table or the demo left out of the wheel, a
dependency that only the developers' extra brings, a path that is right only in
the checkout. Needs a package index for the dependencies, as the README's own
commands do.
"""

import json
import os
import re
import subprocess
import sys
import tomllib
import zipfile
from dataclasses import dataclass
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
VERSION = PROJECT["project"]["version"]

pytestmark = pytest.mark.timeout(900)  # installs every dependency anew

FIRST_PAGE = """
from streamlit.testing.v1 import AppTest

script = "import blendcheck.ui; blendcheck.ui.run()"
shown = AppTest.from_string(script, default_timeout=60).run()
print([e.value for e in shown.exception])
print([t.value for t in (*shown.title, *shown.header, *shown.subheader)])
"""


@dataclass(frozen=True)
class Installed:
    """A clean environment with the wheel in it, and a folder to work in."""

    scripts: Path
    folder: Path

    def run(self, command: str, *arguments: str) -> "subprocess.CompletedProcess[str]":
        return run([str(self.scripts / command), *arguments], self.folder)


def run(command: list[str], folder: Path) -> "subprocess.CompletedProcess[str]":
    environment = {k: v for k, v in os.environ.items() if not k.startswith("PYTHON")}
    environment["PYTHONIOENCODING"] = "utf-8"
    return subprocess.run(
        command,
        cwd=folder,
        env=environment,
        stdin=subprocess.DEVNULL,
        capture_output=True,
        encoding="utf-8",
        timeout=800,
        check=False,
    )


def must(command: list[str], folder: Path) -> None:
    done = run(command, folder)
    assert done.returncode == 0, (
        f"{command}\n{done.stdout[-2000:]}{done.stderr[-2000:]}"
    )


@pytest.fixture(scope="module")
def wheel(tmp_path_factory) -> Path:
    """The wheel as built from the source archive, not from the checkout."""
    out = tmp_path_factory.mktemp("dist")
    build = [sys.executable, "-m", "build", "--no-isolation", "--outdir", str(out)]
    must([*build, str(ROOT)], out)
    assert len(list(out.glob("*.tar.gz"))) == 1
    (built,) = out.glob("*.whl")
    return built


@pytest.fixture(scope="module")
def installed(wheel, tmp_path_factory) -> Installed:
    place = tmp_path_factory.mktemp("elsewhere")
    must([sys.executable, "-m", "venv", str(place / "clean")], place)
    scripts = place / "clean" / ("Scripts" if os.name == "nt" else "bin")
    must([str(scripts / "python"), "-m", "pip", "install", "-q", str(wheel)], place)
    folder = place / "work"
    folder.mkdir()
    return Installed(scripts, folder)


@pytest.fixture(scope="module")
def demo(installed) -> list[str]:
    """The demo's recipes, as the installed program wrote them."""
    made = installed.run("blendcheck", "demo", "demo")
    assert made.returncode == 0, made.stderr
    tables = sorted((installed.folder / "demo").glob("*.toml"))
    return [f"demo/{t.name}" for t in tables if t.name != "materials.toml"]


def test_wheel_carries_the_tables_and_nothing_else(wheel):
    names = set(zipfile.ZipFile(wheel).namelist())
    reference = ROOT / "reference"
    tables = {
        "blendcheck/_reference/" + path.relative_to(reference).as_posix()
        for path in reference.rglob("*")
        if path.is_file() and path.suffix != ".py" and "__pycache__" not in path.parts
    }
    assert tables
    assert {n for n in names if n.startswith("blendcheck/_reference/")} == tables
    tops = {name.partition("/")[0] for name in names}
    assert tops == {"blendcheck", f"blendcheck-{VERSION}.dist-info"}


def test_wheel_carries_every_file_of_the_package(wheel):
    package = ROOT / "blendcheck"
    kept = {
        "blendcheck/" + path.relative_to(package).as_posix()
        for path in package.rglob("*")
        if path.is_file() and "__pycache__" not in path.parts
    }
    assert kept <= set(zipfile.ZipFile(wheel).namelist())


def test_version(installed):
    done = installed.run("blendcheck", "--version")
    assert (done.returncode, done.stderr) == (0, "")
    assert re.search(rf"(^|\s){re.escape(VERSION)}\s*$", done.stdout)


def test_runs_its_own_copy(installed):
    where = "import blendcheck.cli; print(blendcheck.cli.__file__)"
    done = installed.run("python", "-c", where)
    assert done.returncode == 0, done.stderr
    assert Path(done.stdout.strip()).is_relative_to(installed.scripts.parent)


def test_check_answers_as_in_the_checkout(installed, demo):
    """The same figures from the installed program as from the checkout."""
    assert demo
    statuses = set()
    for recipe in demo:
        arguments = ["check", recipe, "--json", "--on", "2026-11-25"]
        elsewhere = installed.run("blendcheck", *arguments)
        here = run([sys.executable, "-m", "blendcheck", *arguments], installed.folder)
        assert elsewhere.returncode in (0, 1), elsewhere.stderr
        assert json.loads(elsewhere.stdout) == json.loads(here.stdout)
        assert elsewhere.returncode == here.returncode
        statuses.add(elsewhere.returncode)
    assert statuses == {0, 1}  # the demo shows both


def test_papers_are_printed(installed, demo):
    """Fonts and templates are in the wheel, and the typesetter comes with it."""
    (recipe,) = [one for one in demo if one.endswith("north-gale.toml")]
    when = ["--on", "2026-11-25", "--time", "14:05"]
    done = installed.run(
        *("blendcheck", "papers", recipe, *when, "--kind", "card", "--kind", "batch"),
        *("--out", "papers"),
    )
    assert (done.returncode, done.stderr) == (1, "")
    made = [installed.folder / line for line in done.stdout.split()]
    assert len(made) == 2
    assert all(path.read_bytes().startswith(b"%PDF") for path in made)
    where = installed.folder / "here"
    arguments = ["papers", recipe, *when, "--out", str(where)]
    run([sys.executable, "-m", "blendcheck", *arguments], installed.folder)
    (here,) = where.iterdir()
    assert here.read_bytes() == made[0].read_bytes()


def test_page_opens(installed):
    """The first page renders without an exception and shows a heading."""
    done = installed.run("python", "-c", FIRST_PAGE)
    assert done.returncode == 0, done.stderr[-3000:]
    exceptions, headings = done.stdout.splitlines()[-2:]
    assert exceptions == "[]"
    assert headings != "[]"
