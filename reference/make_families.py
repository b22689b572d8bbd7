"""Make ``constituent_families.csv`` from the structures in ``constituents.csv``.

Groups, reactive places and the carbon skeleton are found by the patterns of
``functional_groups.csv``, ``structural_alerts.csv`` and ``carbon_skeletons.csv``;
the first rule of ``families.csv`` that fits gives the family. A mixture without a
structure gets what its members in ``groups.csv`` have. Run it after an edit of any
of these tables: ``python reference/make_families.py``; a test fails when the file is
not what the script makes.
"""

import csv
import sys
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields, replace
from functools import cache
from pathlib import Path

from blendcheck.reference import constituents, members_of, rows_of
from blendcheck.reference.molecule_rows import (
    CarbonSkeleton,
    ConstituentFamily,
    FamilyRule,
    FunctionalGroup,
    StructuralAlert,
    listed,
)
from blendcheck.structure import carbon_parts, count_patterns

HERE = Path(__file__).parent


@dataclass(frozen=True, slots=True)
class Found:
    """What the patterns find in one structure."""

    groups: Mapping[str, int]
    alerts: tuple[str, ...]
    classes: frozenset[str]

    @property
    def rule(self) -> FamilyRule:
        """The first rule that fits."""
        return next(rule for rule in rows_of(FamilyRule) if self._fits(rule))

    def _fits(self, rule: FamilyRule) -> bool:
        return (
            rule.carbon_class in {"", *self.classes}
            and all(self.groups.get(group) for group in listed(rule.needs))
            and not any(self.groups.get(group) for group in listed(rule.lacks))
        )

    @property
    def takes_up_oxygen(self) -> bool:
        """Whether air can attack; a phenol stops the chain of that reaction."""
        domains = {row.alert: row.domain for row in rows_of(StructuralAlert)}
        attacked = any(domains[alert] == "air oxidation" for alert in self.alerts)
        return attacked and not self.groups.get("phenol")


@cache
def found_in(smiles: str) -> Found:
    """Look for every pattern in a structure.

    Parameters
    ----------
    smiles : str
        One structure.

    Returns
    -------
    Found
        Its groups, alerts and classes of carbon skeletons.
    """
    groups = {row.group: row.smarts for row in rows_of(FunctionalGroup)}
    alerts = {row.alert: row.smarts for row in rows_of(StructuralAlert)}
    classes = {row.smiles: row.carbon_class for row in rows_of(CarbonSkeleton)}
    return Found(
        count_patterns(smiles, groups),
        tuple(count_patterns(smiles, alerts)),
        frozenset(classes[part] for part in carbon_parts(smiles) if part in classes),
    )


def _made(
    cas: str, rule: FamilyRule, alerts: tuple[str, ...], oxidisable: str, origin: str
) -> ConstituentFamily:
    return ConstituentFamily(
        cas=cas,
        family=rule.family,
        functional_groups="",
        alerts="; ".join(alerts),
        air_oxidisable=oxidisable,
        from_structure=origin,
        source_id=rule.source_id,
        source_locator=f"rule {rule.place} of the families",
        tag=rule.tag,
        note="",
    )


def _own(cas: str, smiles: str) -> ConstituentFamily:
    found = found_in(smiles)
    oxidisable = "yes" if found.takes_up_oxygen else "no"
    row = _made(cas, found.rule, found.alerts, oxidisable, "own")
    shown = [each.group for each in rows_of(FunctionalGroup) if each.shown == "yes"]
    counts = [f"{name} {found.groups[name]}" for name in shown if name in found.groups]
    return replace(row, functional_groups="; ".join(counts))


def _undrawn(cas: str) -> ConstituentFamily:
    """Return what the members of a mixture have, or that nothing is known."""
    members = sorted(members_of(cas) - {cas})
    rows = [constituents().get(member) for member in members]
    drawn = [found_in(row.smiles) for row in rows if row is not None and row.smiles]
    last = rows_of(FamilyRule)[-1]
    if not drawn or len(drawn) < len(rows):
        return _made(cas, last, (), "not known", "none")
    rules = {found.rule.family: found.rule for found in drawn}
    rule = next(iter(rules.values())) if len(rules) == 1 else last
    alerts = {alert for found in drawn for alert in found.alerts}
    order = [row.alert for row in rows_of(StructuralAlert) if row.alert in alerts]
    oxidisable = "yes" if any(found.takes_up_oxygen for found in drawn) else "no"
    return _made(cas, rule, tuple(order), oxidisable, "members")


def rows() -> Iterator[ConstituentFamily]:
    """Yield one row for each constituent, in the order of their table."""
    for cas, row in constituents().items():
        yield _own(cas, row.smiles) if row.smiles else _undrawn(cas)


def text() -> str:
    """Return the whole file."""
    lines: list[str] = []

    class Lines:
        def write(self, line: str) -> None:
            lines.append(line)

    columns = [field.name for field in fields(ConstituentFamily)]
    out = csv.writer(Lines(), lineterminator="\n")
    out.writerow(columns)
    out.writerows([getattr(row, name) for name in columns] for row in rows())
    return "".join(lines)


def main() -> None:
    """Write the file beside this script and say how many rows it has."""
    made = text()
    (HERE / "constituent_families.csv").write_text(made, "utf-8", newline="")
    sys.stdout.write(f"constituent_families.csv: {made.count(chr(10)) - 1} rows\n")


if __name__ == "__main__":
    main()
