"""What a row of each table holds, and the rules that its cells must keep.

Cells stay printed text. A rule belongs to a column name and is the same in every
table that has the column; rules across cells are in :meth:`Row.check`.
"""

import re
from collections.abc import Mapping
from fractions import Fraction
from typing import ClassVar

from blendcheck.frozen import Frozen
from blendcheck.quantity.numbers import read_number
from blendcheck.reference.cells import RULES, check_digit_ok

__all__ = [
    "AtomicWeight",
    "Constituent",
    "GroupMember",
    "OilName",
    "Row",
    "Source",
    "Synonym",
    "Watch",
]

_ATOMS = re.compile(r"([A-Z][a-z]?)([0-9]*)")
_NO_NUMBER = RULES["cas"][1]


class Row(Frozen, base=True):
    """One line of a table.

    ``table`` is the name of the file, ``key`` the columns that tell its rows apart,
    ``blank`` the columns that may be empty, ``cites`` those that name a row of
    ``sources.csv``. ``source_locator`` is the place in the source, ``tag`` is
    ``seen`` or ``memory``, ``note`` says what is odd.
    """

    table: ClassVar[str]
    key: ClassVar[tuple[str, ...]]
    blank: ClassVar[frozenset[str]] = frozenset({"note"})
    cites: ClassVar[tuple[str, ...]] = ("source_id",)

    def check(self, weights: Mapping[str, Fraction]) -> str | None:
        """Say what is wrong across the cells.

        Parameters
        ----------
        weights : Mapping
            Atomic weight by element [g/mol].

        Returns
        -------
        str or None
            The end of a sentence; None when the cells agree.
        """
        return None


class Source(Row):
    """A document or data set that rows were taken from."""

    table: ClassVar[str] = "sources"
    key: ClassVar[tuple[str, ...]] = ("source_id",)
    blank: ClassVar[frozenset[str]] = frozenset(
        {"edition", "locator_url", "retrieved_on"}
    )
    cites: ClassVar[tuple[str, ...]] = ()

    source_id: str
    citation: str
    edition: str
    locator_url: str
    licence: str
    retrieved_on: str


class AtomicWeight(Row):
    """The abridged standard atomic weight of an element, as printed."""

    table: ClassVar[str] = "atomic_weights"
    key: ClassVar[tuple[str, ...]] = ("element",)

    element: str
    weight: str
    source_id: str
    source_locator: str
    checked_on: str
    tag: str
    note: str


class Constituent(Row):
    """A substance: its CAS number, names and structure.

    ``inci`` is its name in a list of ingredients, or the label name of its group.
    ``drawn`` says what ``smiles`` shows: ``complete`` (one isomer), ``open`` (some
    stereo not stated), ``one of`` (it stands for a racemate or a mixture of
    isomers), ``none``. ``molar_mass`` is printed text [g/mol] and follows from
    ``formula`` with the abridged atomic weights of source id ``ciaaw-2021``.
    """

    table: ClassVar[str] = "constituents"
    key: ClassVar[tuple[str, ...]] = ("cas",)
    blank: ClassVar[frozenset[str]] = frozenset(
        (
            "note",
            *("inci", "inci_source_id", "inci_tag"),
            *("smiles", "formula", "molar_mass", "molar_mass_unit"),
        )
    )
    cites: ClassVar[tuple[str, ...]] = ("source_id", "inci_source_id")

    cas: str
    name: str
    inci: str
    inci_source_id: str
    inci_tag: str
    smiles: str
    drawn: str
    formula: str
    molar_mass: str
    molar_mass_unit: str
    source_id: str
    source_locator: str
    checked_on: str
    tag: str
    note: str

    @property
    def molar_mass_value(self) -> Fraction | None:
        """Average molar mass, exactly as printed [g/mol]; None where none is."""
        return read_number(self.molar_mass) if self.molar_mass else None

    @property
    def atoms(self) -> dict[str, int]:
        """Number of atoms of each element in the formula."""
        return {e: int(n or 1) for e, n in _ATOMS.findall(self.formula)}

    def check(self, weights: Mapping[str, Fraction]) -> str | None:
        """Say what is wrong across the cells; see :meth:`Row.check`."""
        inci = (self.inci, self.inci_source_id, self.inci_tag)
        mass = (self.formula, self.molar_mass, self.molar_mass_unit)
        if any(inci) != all(inci):
            return "inci, inci_source_id and inci_tag: fill all three or none"
        if any(mass) != all(mass):
            return "formula, molar_mass and molar_mass_unit: fill all three or none"
        if (self.drawn == "none") != (not self.smiles):
            return f"drawn {self.drawn!r} does not fit the cell smiles"
        return self._check_mass(weights) if self.formula else None

    def _check_mass(self, weights: Mapping[str, Fraction]) -> str | None:
        exact = Fraction(0)
        for element, count in self.atoms.items():
            if element not in weights:
                return f"formula {self.formula}: no atomic weight for {element}"
            exact += weights[element] * count
        half_a_place = Fraction(1, 2 * 10 ** len(self.molar_mass.partition(".")[2]))
        if abs(exact - read_number(self.molar_mass)) > half_a_place:
            return f"molar_mass {self.molar_mass} is not that of {self.formula}"
        return None


class Synonym(Row):
    """Another name or CAS number under which papers print a constituent.

    ``kind`` is ``synonym``, ``isomer`` (the bare name may mean this isomer) or
    ``other CAS for same`` (``name`` is then a CAS number).
    """

    table: ClassVar[str] = "synonyms"
    key: ClassVar[tuple[str, ...]] = ("name", "cas")

    name: str
    cas: str
    kind: str
    source_id: str
    source_locator: str
    tag: str
    note: str

    def check(self, weights: Mapping[str, Fraction]) -> str | None:
        """Say what is wrong across the cells; see :meth:`Row.check`."""
        if self.kind == "other CAS for same" and not check_digit_ok(self.name):
            return f"name {self.name} {_NO_NUMBER}"
        return None


class GroupMember(Row):
    """A substance that counts when a document speaks of the group.

    ``group_cas`` is the number under which documents print the group, if any.
    """

    table: ClassVar[str] = "groups"
    key: ClassVar[tuple[str, ...]] = ("group", "member_cas")
    blank: ClassVar[frozenset[str]] = frozenset({"group_cas", "note"})

    group: str
    group_cas: str
    member_cas: str
    relation: str
    source_id: str
    source_locator: str
    tag: str
    note: str


class OilName(Row):
    """A name or CAS number of an oil, or words that tell that another is meant."""

    table: ClassVar[str] = "oil_names"
    key: ClassVar[tuple[str, ...]] = ("oil", "name")

    oil: str
    name: str
    use: str
    source_id: str
    source_locator: str
    tag: str
    note: str

    def check(self, weights: Mapping[str, Fraction]) -> str | None:
        """Say what is wrong across the cells; see :meth:`Row.check`."""
        if self.use == "CAS" and not check_digit_ok(self.name):
            return f"name {self.name} {_NO_NUMBER}"
        return None


class Watch(Row):
    """Why a constituent (by CAS number) or an oil (by name) calls for a caution.

    ``reason`` is a code; ``says`` is what the source says, shortened.
    """

    table: ClassVar[str] = "watch"
    key: ClassVar[tuple[str, ...]] = ("about", "subject", "reason", "says")

    about: str
    subject: str
    reason: str
    says: str
    source_id: str
    source_locator: str
    tag: str
    note: str

    def check(self, weights: Mapping[str, Fraction]) -> str | None:
        """Say what is wrong across the cells; see :meth:`Row.check`."""
        if self.about == "constituent" and not check_digit_ok(self.subject):
            return f"subject {self.subject} {_NO_NUMBER}"
        return None
