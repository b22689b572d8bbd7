"""Rows on what a structure shows: groups, skeletons, families, reactive places.

Patterns are SMARTS, skeletons SMILES; both are data, read here as text and run by
:mod:`blendcheck.structure` when ``constituent_families.csv`` is made from them.
"""

import re
from collections.abc import Mapping
from fractions import Fraction
from typing import ClassVar

from blendcheck.reference.rows import Row

__all__ = [
    "AirOxidation",
    "CarbonSkeleton",
    "ConstituentFamily",
    "FamilyRule",
    "FunctionalGroup",
    "StructuralAlert",
    "listed",
]

CLASSES = (
    "",
    "diterpenoid",
    "ionone",
    "monoterpenoid",
    "phenylpropanoid",
    "sesquiterpenoid",
)
DOMAINS = (
    "Michael acceptor",
    "Schiff base",
    "SN2",
    "SNAr",
    "acyl transfer",
    "air oxidation",
    "pro-hapten",
    "radical",
)
_COUNTED = re.compile(r"(.+) ([1-9][0-9]*)")


def listed(cell: str) -> tuple[str, ...]:
    """Return the names that a cell lists, separated by semicolons.

    Parameters
    ----------
    cell : str
        May be empty.

    Returns
    -------
    tuple of str
        In the order of the cell.
    """
    return tuple(cell.split("; ")) if cell else ()


class FunctionalGroup(Row):
    """A functional group and the pattern that finds it.

    ``shown`` is ``no`` for what only the rules of families need.
    """

    table: ClassVar[str] = "functional_groups"
    key: ClassVar[tuple[str, ...]] = ("group",)

    group: str
    smarts: str
    meaning: str
    shown: str
    source_id: str
    source_locator: str
    checked_on: str
    tag: str
    note: str

    def check(self, weights: Mapping[str, Fraction]) -> str | None:
        """Say what is wrong across the cells; see :meth:`Row.check`."""
        return _not_among("shown", self.shown, ("yes", "no"))


class CarbonSkeleton(Row):
    """The carbons of a family of substances, without double bonds and other atoms.

    ``smiles`` is canonical, as :func:`blendcheck.structure.carbon_parts` writes it,
    and follows from ``systematic_name``.
    """

    table: ClassVar[str] = "carbon_skeletons"
    key: ClassVar[tuple[str, ...]] = ("smiles",)

    skeleton: str
    systematic_name: str
    smiles: str
    carbon_class: str
    source_id: str
    source_locator: str
    checked_on: str
    tag: str
    note: str

    def check(self, weights: Mapping[str, Fraction]) -> str | None:
        """Say what is wrong across the cells; see :meth:`Row.check`."""
        return _not_among("carbon_class", self.carbon_class, CLASSES[1:])


class FamilyRule(Row):
    """When a substance is shown in a family; the first rule that fits decides.

    ``carbon_class`` is the class of one of its carbon skeletons, ``needs`` lists
    the functional groups that must all be there, ``lacks`` those that must not;
    an empty cell asks for nothing. ``rule`` says the same in words.
    """

    table: ClassVar[str] = "families"
    key: ClassVar[tuple[str, ...]] = ("place",)
    blank: ClassVar[frozenset[str]] = frozenset(
        {"note", "carbon_class", "needs", "lacks"}
    )

    place: str
    family: str
    carbon_class: str
    needs: str
    lacks: str
    rule: str
    source_id: str
    source_locator: str
    checked_on: str
    tag: str
    note: str

    def check(self, weights: Mapping[str, Fraction]) -> str | None:
        """Say what is wrong across the cells; see :meth:`Row.check`."""
        if re.fullmatch("[1-9][0-9]*", self.place) is None:
            return f"place {self.place} is not a whole number"
        return _not_among("carbon_class", self.carbon_class, CLASSES)


class StructuralAlert(Row):
    """A reactive place in a structure: an invitation to look, never a verdict.

    Many substances that have one never gave anybody a rash, and one that has none
    is not thereby harmless. ``domain`` is the kind of reaction, ``says`` what there
    is to look at.
    """

    table: ClassVar[str] = "structural_alerts"
    key: ClassVar[tuple[str, ...]] = ("alert",)

    alert: str
    domain: str
    smarts: str
    says: str
    source_id: str
    source_locator: str
    checked_on: str
    tag: str
    note: str

    def check(self, weights: Mapping[str, Fraction]) -> str | None:
        """Say what is wrong across the cells; see :meth:`Row.check`."""
        return _not_among("domain", self.domain, DOMAINS)


class AirOxidation(Row):
    """Something published on a constituent that was left in the air."""

    table: ClassVar[str] = "air_oxidation"
    key: ClassVar[tuple[str, ...]] = ("cas", "source_id")

    cas: str
    says: str
    source_id: str
    source_locator: str
    checked_on: str
    tag: str
    note: str


class ConstituentFamily(Row):
    """What follows from a constituent's structure; made by ``make_families.py``.

    ``functional_groups`` lists each with its count, ``alerts`` the names of
    structural alerts. ``from_structure`` is ``own``, ``members`` (a mixture without
    a structure of its own whose members' structures are known) or ``none``.
    ``air_oxidisable`` is ``yes``, ``no`` or ``not known``. The source is that of
    the rule that decided the family.
    """

    table: ClassVar[str] = "constituent_families"
    key: ClassVar[tuple[str, ...]] = ("cas",)
    blank: ClassVar[frozenset[str]] = frozenset({"functional_groups", "alerts", "note"})

    cas: str
    family: str
    functional_groups: str
    alerts: str
    air_oxidisable: str
    from_structure: str
    source_id: str
    source_locator: str
    tag: str
    note: str

    @property
    def group_counts(self) -> dict[str, int]:
        """Number of each functional group, in the order of their table."""
        found = map(_COUNTED.fullmatch, listed(self.functional_groups))
        return {each[1]: int(each[2]) for each in found if each}

    def check(self, weights: Mapping[str, Fraction]) -> str | None:
        """Say what is wrong across the cells; see :meth:`Row.check`."""
        if len(self.group_counts) != len(listed(self.functional_groups)):
            return f"functional_groups {self.functional_groups} lacks a count"
        return _not_among(
            "air_oxidisable", self.air_oxidisable, ("yes", "no", "not known")
        ) or _not_among(
            "from_structure", self.from_structure, ("own", "members", "none")
        )


def _not_among(column: str, cell: str, words: tuple[str, ...]) -> str | None:
    if cell in words:
        return None
    return f"{column} {cell} is none of {', '.join(filter(None, words))}"
