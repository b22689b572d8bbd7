"""Make the table of estimated critical points, for the anchored estimate of pressures.

Joback's groups are counted in our structures by thermo 0.6.1 (MIT), which also has
his formulas: ``python reference/make_critical.py``. The critical temperature comes as
a multiple of the boiling point, so that a measured boiling point can be put in. The
class of compound, by which Fishtine's factor is chosen, comes from the functional
groups of ``constituent_families.csv``: the most polar one that there is.

Left out are salts, mixtures, acids and polyols, for which the estimate does not hold,
and structures in which groups are left over (aldehydes on an aromatic ring).
"""

import csv
from pathlib import Path

from thermo.group_contribution.joback import Joback

HERE = Path(__file__).parent
CHECKED_ON = "2026-11-25"
LOCATOR = "Joback and Reid (1987), groups counted in the structure"
COLUMNS = [
    *("cas", "t_c_over_t_b", "p_c", "pressure_unit", "fishtine_class", "basis"),
    *("source_id", "source_locator", "checked_on", "tag", "note"),
]
CLASSES = (
    # functional groups, class
    (("alcohol",), "alcohol"),
    (("phenol",), "phenol"),
    (("ester", "lactone"), "ester"),
    (("aldehyde", "ketone"), "aldehyde or ketone"),
    (("ether", "methylenedioxy", "epoxide", "peroxide", "furan ring"), "ether"),
)


def _groups() -> dict[str, dict[str, int]]:
    """Functional groups of each constituent with a structure of its own."""
    found = {}
    with (HERE / "constituent_families.csv").open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            if row["from_structure"] == "own":
                cells = row["functional_groups"].split("; ")
                pairs = (cell.rpartition(" ") for cell in cells if cell)
                found[row["cas"]] = {name: int(count) for name, _, count in pairs}
    return found


def _class(groups: dict[str, int], formula: str) -> str | None:
    """Return the class of compound, or None where the estimate does not hold."""
    if groups.get("alcohol", 0) > 1 or "carboxylic acid" in groups:
        return None
    for names, kind in CLASSES:
        if any(name in groups for name in names):
            return kind
    carbon_and_hydrogen = not set(formula) & set("NOSKaP")
    return "hydrocarbon" if carbon_and_hydrogen else None


def main(folder: Path = HERE) -> None:
    """Write the table into a folder."""
    groups = _groups()
    with (HERE / "constituents.csv").open(encoding="utf-8", newline="") as file:
        rows = [row for row in csv.DictReader(file) if row["cas"] in groups]
    made = []
    for row in rows:
        kind = _class(groups[row["cas"]], row["formula"])
        joback = Joback(row["smiles"])
        if kind is None or joback.status != "OK" or not joback.counts:
            continue
        ratio = joback.Tc(joback.counts, Tb=1000.0) / 1000.0
        pressure = joback.Pc(joback.counts, joback.atom_count)
        made.append(
            [
                *(row["cas"], f"{ratio:.5f}", f"{pressure:.0f}", "Pa", kind),
                *("estimated", "thermo-0.6.1", LOCATOR),
                *(CHECKED_ON, "seen", ""),
            ]
        )
    path = folder / "critical_points.csv"
    with path.open("w", encoding="utf-8", newline="") as out:
        writer = csv.writer(out, lineterminator="\n")
        writer.writerow(COLUMNS)
        writer.writerows(made)


if __name__ == "__main__":
    main()
