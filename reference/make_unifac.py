"""Make the three tables of modified UNIFAC (Dortmund) from the compiled ones.

The parameters were published by Gmehling and others (1993 to 2016) and are compiled,
with assignments of groups by CAS number, in thermo 0.6.1 (MIT). Only what our
constituents need is copied, digit by digit: ``python reference/make_unifac.py``.

Constituents that the compilation does not have get their groups from one of the same
constitution, which is all that the method sees, or by the rule of the groups' names
(``BY_RULE``, counted in the structure once; a test counts again). Without an
assignment stay: ketones between two branched carbons (fenchone, verbenone, piperitone,
damascones), furans and pyrones, dioxoles (safrole), peroxides, epoxides, salts, and
glycerol, for which three neighbouring hydroxyls are outside the method.
"""

import csv
from pathlib import Path

import thermo
from thermo import unifac

HERE = Path(__file__).parent
_PROVENANCE = ("source_id", "source_locator", "checked_on", "tag", "note")
CHECKED_ON = "2026-11-25"
SOURCE = "thermo-0.6.1"

FORMULAS = {
    1: "CH3", 2: "CH2", 3: "CH", 4: "C", 5: "C2H3", 6: "C2H2", 7: "C2H2", 8: "C2H",
    9: "CH", 10: "C", 11: "C2H3", 12: "C2H2", 13: "C2H", 14: "HO", 16: "H2O",
    17: "CHO", 18: "C2H3O", 19: "C2H2O", 20: "CHO", 21: "C2H3O2", 22: "C2H2O2",
    24: "CH3O", 25: "CH2O", 27: "C2H4O", 36: "CH2N", 38: "C2HN", 42: "CHO2", 66: "C2",
    70: "C2", 77: "CO2", 78: "CH2", 79: "CH", 80: "C", 81: "HO", 82: "HO",
}  # fmt: skip
"""Atoms of each group that is used."""

NOTES = {
    20: "aldehyde; another group of the method, number 26, has the same name",
    27: "stands for any ether in a ring, whatever hydrogens its carbons hold",
    38: "stands for the nitrogen of indole, whose hydrogen is not counted",
}

SAME_CONSTITUTION = {
    "89-78-1": "1490-04-6",  # dl-menthol
    "89-80-5": "10458-14-7",  # menthone (trans)
    "104-55-2": "14371-10-9",  # cinnamal
    "106-25-2": "106-24-1",  # nerol
    "106-28-5": "4602-84-0",  # trans,trans-farnesol
    "126-91-0": "78-70-6",  # l-linalool
    "141-12-8": "105-87-3",  # neryl acetate
    "141-27-5": "106-26-3",  # geranial
    "464-43-7": "124-76-5",  # d-borneol
    "464-48-2": "76-22-2",  # l-camphor
    "464-49-3": "76-22-2",  # d-camphor
    "471-15-8": "546-80-5",  # beta-thujone
    "491-01-0": "1490-04-6",  # neomenthol
    "491-07-6": "10458-14-7",  # isomenthone
    "2623-23-6": "89-48-5",  # l-menthyl acetate
    "3779-61-1": "3338-55-4",  # (E)-beta-ocimene
    "5912-86-7": "97-54-1",  # cis-isoeugenol
    "5932-68-3": "97-54-1",  # trans-isoeugenol
    "5989-27-5": "138-86-3",  # d-limonene
    "7705-14-8": "138-86-3",  # dl-limonene
    "15356-60-2": "1490-04-6",  # d-menthol
    "21368-68-3": "76-22-2",  # dl-camphor
    "25265-71-8": "110-98-5",  # dipropylene glycol
    "25679-28-1": "104-46-1",  # cis-anethole
    "26489-01-0": "106-22-9",  # dl-citronellol
    "40716-66-3": "7212-44-4",  # trans-nerolidol
}
"""CAS number without an assignment: one of the same constitution with one."""

BY_RULE = {
    # beta-santalol
    "77-42-9": {1: 2, 2: 3, 7: 1, 8: 1, 14: 1, 78: 3, 79: 2, 80: 1},
    # hexamethylindanopyran
    "1222-05-5": {1: 6, 9: 2, 10: 3, 13: 1, 27: 1, 79: 1, 80: 2},
    # ambroxide
    "6790-58-5": {1: 4, 27: 1, 78: 6, 79: 2, 80: 2},
    # acetyl cedrene
    "32388-55-9": {1: 4, 18: 1, 70: 1, 78: 4, 79: 3, 80: 2},
    # dipropylene glycol methyl ether
    "34590-94-8": {1: 2, 2: 1, 3: 2, 24: 1, 25: 1, 81: 1},
    # tetramethyl acetyloctahydronaphthalenes
    "54464-57-2": {1: 4, 18: 1, 70: 1, 78: 5, 79: 1, 80: 2},
    # tetramethyl acetyloctahydronaphthalenes (2,3,5,5-isomer)
    "54464-59-4": {1: 4, 18: 1, 70: 1, 78: 5, 79: 1, 80: 2},
    # tetramethyl acetyloctahydronaphthalenes (8a-hydrogen, 4-ene isomer)
    "68155-66-8": {1: 4, 8: 1, 18: 1, 78: 4, 79: 2, 80: 2},
    # tetramethyl acetyloctahydronaphthalenes (8a-hydrogen, 5-ene isomer)
    "68155-67-9": {1: 4, 8: 1, 18: 1, 78: 4, 79: 2, 80: 2},
    # trimethylbenzenepropanol
    "103694-68-4": {1: 2, 2: 1, 4: 1, 9: 4, 11: 1, 12: 1, 14: 1},
}
"""Groups by the rule of their names."""


def _write(path: Path, columns: list[str], rows: list[list[str]]) -> None:
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow([*columns, *_PROVENANCE])
        writer.writerows(rows)


def _cited(locator: str, note: str = "") -> list[str]:
    return [SOURCE, locator, CHECKED_ON, "seen", note]


def _assignments() -> list[tuple[str, str, str, dict[int, int]]]:
    """CAS number, how it was assigned, where, and how often each group occurs."""
    with (HERE / "constituents.csv").open(encoding="utf-8", newline="") as file:
        # Mixtures without a structure of their own (polysorbates) are left out.
        numbers = [row["cas"] for row in csv.DictReader(file) if row["smiles"]]
    found = []
    for cas in numbers:
        like = SAME_CONSTITUTION.get(cas, cas)
        groups = unifac.UNIFAC_group_assignment_DDBST(like, "MODIFIED_UNIFAC")
        if groups:
            how = "compiled" if like == cas else "same constitution"
            found.append((cas, how, f"group assignments, CAS {like}", groups))
        elif cas in BY_RULE:
            found.append((cas, "by rule", "names of the groups", BY_RULE[cas]))
    return found


def main(folder: Path = HERE) -> None:
    """Write the three tables into a folder."""
    assigned = _assignments()
    used = sorted({number for *_, groups in assigned for number in groups})
    sizes = unifac.DOUFSG
    _write(
        folder / "unifac_assignments.csv",
        ["cas", "group_number", "count", "assigned"],
        [
            [cas, str(number), str(count), how, *_cited(where)]
            for cas, how, where, groups in assigned
            for number, count in sorted(groups.items())
        ],
    )
    _write(
        folder / "unifac_groups.csv",
        ["group_number", "group", "main_group", "main_group_name", "formula", "r", "q"],
        [
            [
                str(number),
                sizes[number].group,
                str(sizes[number].main_group_id),
                sizes[number].main_group,
                FORMULAS[number],
                str(sizes[number].R),
                str(sizes[number].Q),
                *_cited(
                    f"groups of modified UNIFAC (Dortmund), {number}",
                    NOTES.get(number, ""),
                ),
            ]
            for number in used
        ],
    )
    mains = {sizes[number].main_group_id for number in used}
    file = Path(thermo.__file__).parent / "Phase Change"
    text = (file / "UNIFAC modified Dortmund interaction parameters.tsv").read_text()
    lines = [line.split("\t") for line in text.splitlines()]
    _write(
        folder / "unifac_interactions.csv",
        ["main_group", "other_main_group", "a", "b", "c"],
        [
            [*line, *_cited(f"interaction parameters, {line[0]} and {line[1]}")]
            for line in lines
            if {int(line[0]), int(line[1])} <= mains
        ],
    )


if __name__ == "__main__":
    main()
