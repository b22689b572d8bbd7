"""An invented world: what is true, and what the papers and the recipe say of it.

The truth is kept beside the text, never read from it. ``as_files`` gives the text
alone, in the shape of the maker's two files.
"""

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

from tests.blurred.held import (
    Cap,
    Confirmed,
    Dilution,
    Lot,
    Material,
    Paper,
    Row,
)
from tests.blurred.said import Said
from tests.blurred.substances import GROUPS, really

Key = tuple[str, ...]
"""Name of one unknown number of the recipe: an amount, a density, a drop ..."""

DROP = Said("", Fraction(1, 40), Fraction(1, 20))
"""Volume of a drop that was not weighed, 20 to 40 in a millilitre. [mL]"""

ALL_OR_NOTHING = Said("", Fraction(0), Fraction(100))


@dataclass(slots=True)
class Part:
    """A line of the recipe, of its blend, or of a stock blend."""

    where: str
    material: str | None
    stock: str | None
    lot: str | None
    said: Said
    unit: str
    leaves: Said | None = None
    names_lot: bool = True

    def as_table(self) -> dict[str, Any]:
        table: dict[str, Any] = {"amount": self.said.text}
        table |= {"material": self.material} if self.material else {}
        table |= {"stock": self.stock} if self.stock else {}
        table |= {"lot": self.lot} if self.lot and self.names_lot else {}
        table |= {"leaves_on_drying": self.leaves.text} if self.leaves else {}
        return table


@dataclass(slots=True)
class Stock:
    """A blend that is mixed ahead."""

    id: str
    parts: list[Part]
    shelved: bool = True

    def as_table(self) -> dict[str, Any]:
        return {"id": self.id, "line": [part.as_table() for part in self.parts]}


@dataclass(slots=True)
class Blend:
    """The scent of the recipe."""

    parts: list[Part]
    load: Said | None = None
    of: str | None = None

    def as_table(self) -> dict[str, Any]:
        table: dict[str, Any] = {"line": [part.as_table() for part in self.parts]}
        if self.load is not None:
            table |= {"load": self.load.text, "of": self.of}
        return table


@dataclass(slots=True)
class World:
    """Everything: the shelf, the recipe, the caps, and the true values."""

    seed: str
    profile: str
    materials: dict[str, Material]
    stocks: dict[str, Stock]
    lines: list[Part]
    blend: Blend | None
    caps: list[Cap] = field(default_factory=list)
    confirmed: list[Confirmed] = field(default_factory=list)
    true: dict[Key, Fraction] = field(default_factory=dict)
    said: dict[Key, Said] = field(default_factory=dict)
    pieces: int | None = None
    piece_mass: Said | None = None
    loss: Said | None = None
    dry_mass: Said | None = None
    true_dry_mass: Fraction | None = None
    category: str | None = None
    has_basis: bool = False
    current: str | None = None
    product: str = "shower tablet"

    def materials_table(self) -> dict[str, Any]:
        """The materials file."""
        workshop = {"current": {"std": self.current}} if self.current else {}
        return {
            "workshop": workshop,
            "material": [m.as_table() for m in self.materials.values()],
            "stock": [s.as_table() for s in self.stocks.values() if s.shelved],
            "cap": [cap.as_table() for cap in self.caps if cap.shelved],
            "confirmed": [one.as_table() for one in self.confirmed],
        }

    def recipe_table(self) -> dict[str, Any]:
        """The recipe file."""
        table: dict[str, Any] = {
            "name": f"world {self.seed}",
            "product": self.product,
            "line": [part.as_table() for part in self.lines],
            "stock": [s.as_table() for s in self.stocks.values() if not s.shelved],
            "cap": [cap.as_table() for cap in self.caps if not cap.shelved],
        }
        table |= {"blend": self.blend.as_table()} if self.blend else {}
        table |= {"pieces": self.pieces} if self.pieces else {}
        for name in ("piece_mass", "dry_mass"):
            said = getattr(self, name)
            table |= {name: said.text} if said is not None else {}
        table |= {"allowance_for_loss": self.loss.text} if self.loss else {}
        if self.has_basis and self.category:
            table["category"] = [
                {
                    "scheme": "std",
                    "category": self.category,
                    "said_by": "the supplier",
                    "on": "2026-05-04",
                }
            ]
        return table

    # -- who counts as whom ------------------------------------------------

    def members(self, own: str) -> frozenset[str]:
        """Identities that count toward a capped one, as the maker confirmed."""
        found = {own}
        for one in self.confirmed:
            if one.same and one.counts_as is None and one.name and one.who == own:
                found.add(one.cas)
        while True:
            more = {
                one.who
                for one in self.confirmed
                if one.same and one.counts_toward in found
            }
            if more <= found:
                return frozenset(found)
            found |= more

    def surely(self, own: str, material: Material, lot: Lot) -> frozenset[str]:
        """Constituents of a lot that a paper prints under a name that counts."""
        members = self.members(own)
        if material.is_one_substance:
            counts = material.cas in members
            return frozenset(lot.holds) if counts else frozenset()
        return frozenset(
            key
            for paper in material.papers_of(lot)
            for row in paper.rows
            if row.identity in members
            for key in row.keys
        )

    def aliases(self, own: str) -> frozenset[str]:
        """Other writings of an identity, as confirmed: a name and its CAS number."""
        found = {c.who for c in self._same_names() if c.cas == own}
        return frozenset(found | {c.cas for c in self._same_names() if c.who == own})

    def settled(self, own: str) -> str:
        """The CAS number that a capped name was confirmed to be, or what it was."""
        named = [c.cas for c in self._same_names() if c.who == own]
        return named[0] if named else own

    def unaliased(self, members: frozenset[str]) -> frozenset[str]:
        """Identities without the names whose CAS number is there as well."""
        return frozenset(
            one
            for one in members
            if not (one.startswith("name:") and self.aliases(one) & members)
        )

    def _same_names(self) -> list[Confirmed]:
        return [c for c in self.confirmed if c.same and c.name and c.counts_as is None]

    def at_most(self, own: str, material: Material, lot: Lot) -> frozenset[str]:
        """Constituents of a lot that are it in truth, or count by a printed name."""
        surely = self.surely(own, material, lot)
        refused = any(not one.same and one.who == own for one in self.confirmed)
        # a line under the very name that is capped is what the cap means
        by_name = own.startswith("name:") and bool(surely)
        meant = frozenset() if refused or by_name else really(self.settled(own))
        return meant | surely


def group_of(key: str) -> str | None:
    """CAS number of the group that a constituent belongs to."""
    return next((g for g, (_, parts) in GROUPS.items() if key in parts), None)


__all__ = [
    "ALL_OR_NOTHING",
    "DROP",
    "Blend",
    "Cap",
    "Confirmed",
    "Dilution",
    "Key",
    "Lot",
    "Material",
    "Paper",
    "Part",
    "Row",
    "Stock",
    "World",
    "group_of",
]
