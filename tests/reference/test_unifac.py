"""The tables of modified UNIFAC: against thermo, and against the structures.

The groups of every constituent are counted again in its structure, by a rule that
knows the groups' names only (``tests/equations/groups.py``), and their atoms are added
up and compared with the formula.
"""

import csv
import re
import subprocess
import sys
from collections import Counter
from pathlib import Path

import numpy as np
import pytest
from thermo import unifac

import blendcheck
from blendcheck.equations.activity import ModifiedUnifac, uncovered_pairs
from tests.equations.dortmund import theirs
from tests.equations.groups import counted

FOLDER = Path(blendcheck.__file__).parents[1] / "reference"
TABLES = ("unifac_assignments", "unifac_groups", "unifac_interactions")


def table(name):
    with (FOLDER / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


ASSIGNED: dict[str, dict[int, int]] = {}
for _row in table("unifac_assignments"):
    groups = ASSIGNED.setdefault(_row["cas"], {})
    groups[int(_row["group_number"])] = int(_row["count"])
HOW = {row["cas"]: row["assigned"] for row in table("unifac_assignments")}
GROUPS = {int(row["group_number"]): row for row in table("unifac_groups")}
CONSTITUENTS = {row["cas"]: row for row in table("constituents")}


def atoms(formula):
    return Counter(
        {
            element: int(count or 1)
            for element, count in re.findall(r"([A-Z][a-z]?)([0-9]*)", formula)
        }
    )


def test_sizes_and_interactions_are_those_of_the_compilation():
    for number, row in GROUPS.items():
        theirs_ = unifac.DOUFSG[number]
        assert (float(row["r"]), float(row["q"])) == (theirs_.R, theirs_.Q)
        assert int(row["main_group"]) == theirs_.main_group_id
        assert (row["group"], row["main_group_name"]) == (
            theirs_.group, theirs_.main_group,
        )  # fmt: skip
    mains = {int(row["main_group"]) for row in GROUPS.values()}
    found = {
        (int(row["main_group"]), int(row["other_main_group"])): tuple(
            float(row[name]) for name in "abc"
        )
        for row in table("unifac_interactions")
    }
    assert found == {
        (one, other): unifac.DOUFIP2016[one][other]
        for one in mains
        for other in mains & unifac.DOUFIP2016[one].keys() - {one}
    }


def test_only_what_is_needed_is_there():
    used = {number for groups in ASSIGNED.values() for number in groups}
    assert used == GROUPS.keys()
    assert ASSIGNED.keys() <= CONSTITUENTS.keys()


def test_assignments_said_to_be_compiled_are():
    for cas, how in HOW.items():
        compiled = unifac.UNIFAC_group_assignment_DDBST(cas, "MODIFIED_UNIFAC")
        assert bool(compiled) is (how == "compiled"), cas
        if compiled:
            assert compiled == ASSIGNED[cas], cas
    assert Counter(HOW.values())["compiled"] > 180


@pytest.mark.parametrize("cas", ASSIGNED)
def test_groups_are_those_of_the_structure(cas):
    assert counted(CONSTITUENTS[cas]["smiles"]) == ASSIGNED[cas]


@pytest.mark.parametrize("cas", ASSIGNED)
def test_groups_add_up_to_the_formula(cas):
    total: Counter[str] = Counter()
    for number, count in ASSIGNED[cas].items():
        for element, each in atoms(GROUPS[number]["formula"]).items():
            total[element] += count * each
    formula = atoms(CONSTITUENTS[cas]["formula"])
    if {27, 38} & ASSIGNED[cas].keys():
        # These two stand for groups with other numbers of hydrogens: see their notes.
        assert abs(total.pop("H") - formula.pop("H")) <= 4
    assert total == formula


def test_a_structure_without_full_groups_is_not_assigned():
    """What has no groups by the rule has none in the table, and the other way."""
    unassigned = {
        row["name"]
        for cas, row in CONSTITUENTS.items()
        if cas not in ASSIGNED and row["smiles"] and counted(row["smiles"])
    }
    assert unassigned == {"glycerol"}  # three neighbouring hydroxyls: outside


def test_coefficients_from_the_tables_are_those_of_the_library():
    """Twelve constituents at a time, drawn from all of them."""
    numbers = sorted(GROUPS)
    mains = sorted({int(row["main_group"]) for row in GROUPS.values()})
    a, b, c = (np.full((len(mains), len(mains)), np.nan) for _ in range(3))
    for matrix in (a, b, c):
        np.fill_diagonal(matrix, 0.0)
    for row in table("unifac_interactions"):
        place = (
            mains.index(int(row["main_group"])),
            mains.index(int(row["other_main_group"])),
        )
        a[place], b[place], c[place] = (float(row[name]) for name in "abc")
    sizes = [[float(GROUPS[n][name]) for n in numbers] for name in "rq"]
    main = [mains.index(int(GROUPS[n]["main_group"])) for n in numbers]
    rng = np.random.default_rng(11)
    seen: set[str] = set()
    worst, blends = 0.0, 0
    for _ in range(300):
        chosen = rng.choice(sorted(ASSIGNED), size=12, replace=False)
        # Leave out what has no published interaction with an earlier one.
        kept: list[str] = []
        for cas in chosen:
            counts = [[ASSIGNED[x].get(n, 0) for n in numbers] for x in [*kept, cas]]
            if not uncovered_pairs(counts, main, a):
                kept.append(cas)
        seen.update(kept)
        counts = [[ASSIGNED[x].get(n, 0) for n in numbers] for x in kept]
        model = ModifiedUnifac(counts, *sizes, main, a, b, c)
        x, kelvin = rng.dirichlet(np.full(len(kept), 0.5)), rng.uniform(273, 380)
        expected = np.log(theirs([ASSIGNED[k] for k in kept], x, kelvin).gammas())
        got = model.ln_coefficients(x, kelvin)
        worst = max(worst, float(np.abs(got - expected).max()))
        blends += 1
    print(f"\n{blends} blends of {len(seen)} constituents: largest difference of "
          f"ln gamma {worst:.1e}")  # fmt: skip
    assert worst < 1e-9
    assert len(seen) > 0.9 * len(ASSIGNED)


def test_the_script_makes_the_tables(tmp_path):
    code = (
        "import sys; sys.path.insert(0, sys.argv[1]); import make_unifac as m;"
        "from pathlib import Path; m.main(Path(sys.argv[2]))"
    )
    subprocess.run(
        [sys.executable, "-c", code, FOLDER, tmp_path], check=True, timeout=100
    )
    for name in TABLES:
        made = (tmp_path / f"{name}.csv").read_bytes()
        assert made == (FOLDER / f"{name}.csv").read_bytes(), name
