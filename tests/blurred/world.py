"""An invented world: what is true, and what the papers and the recipe say of it.

The truth is kept beside the text, never read from it. ``as_files`` gives the text
alone, in the shape of the maker's two files.
"""

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

from tests.blurred.said import Said
from tests.blurred.substances import GROUPS, identity, really

Key = tuple[str, ...]
"""Name of one unknown number of the recipe: an amount, a density, a drop ..."""

DROP = Said("", Fraction(1, 40), Fraction(1, 20))
"""Volume of a drop that was not weighed, 20 to 40 in a millilitre. [mL]"""

ALL_OR_NOTHING = Said("", Fraction(0), Fraction(100))


@dataclass(slots=True)
class Row:
    """A printed line of a component list, and the constituents that it stands for."""

    name: str
    cas: str | None
    said: Said
    keys: frozenset[str]

    @property
    def identity(self) -> str:
        return identity(self.name, self.cas)


@dataclass(slots=True)
class Paper:
    """A component list."""

    kind: str
    rows: list[Row]
    basis: str | None = "w/w"
    whole: bool = False
    covers: tuple[str, ...] | None = None
    shown_from: Said | None = None
    unidentified: Said | None = None

    @property
    def published(self) -> bool:
        return self.kind == "published range"

    def as_table(self) -> dict[str, Any]:
        table: dict[str, Any] = {
            "kind": self.kind,
            "row": [
                {"name": row.name, "share": row.said.text}
                | ({"cas": row.cas} if row.cas else {})
                for row in self.rows
            ],
        }
        table |= {"basis": self.basis} if self.basis else {}
        table |= {"copied_whole": True} if self.whole else {}
        table |= {"covers": list(self.covers)} if self.covers is not None else {}
        for name in ("shown_from", "unidentified"):
            said = getattr(self, name)
            table |= {name: said.text} if said is not None else {}
        return table


@dataclass(slots=True)
class Lot:
    """One delivery: what it truly holds [%], and the papers that speak of it."""

    id: str | None
    holds: dict[str, Fraction]
    papers: list[Paper] = field(default_factory=list)


@dataclass(slots=True)
class Dilution:
    """Sold diluted: in what, and of what its papers speak."""

    said: Said
    diluent: str
    describes: str


@dataclass(slots=True)
class Material:
    """One thing on the shelf."""

    id: str
    name: str
    kind: str
    lots: list[Lot]
    cas: str | None = None
    papers: list[Paper] = field(default_factory=list)
    density: Said | None = None
    density_published: bool = False
    weighed: dict[str, Said] = field(default_factory=dict)
    leaves: Said | None = None
    dilution: Dilution | None = None
    last_to_leave: tuple[str, ...] = ()
    """Order in which the constituents of a drying material go, last first."""

    @property
    def scented(self) -> bool:
        return self.kind in {
            "essential oil", "fragrance oil", "absolute", "aroma chemical",
        }  # fmt: skip

    @property
    def dries(self) -> bool:
        return self.leaves is not None or self.kind in {"alcohol", "water"}

    @property
    def is_one_substance(self) -> bool:
        """Whether it needs no list: it is what its name says."""
        if self.papers or any(lot.papers for lot in self.lots):
            return False
        if self.kind == "aroma chemical":
            sold_mixed = self.dilution and self.dilution.describes == "as sold"
            return self.cas is not None and not sold_mixed
        return not self.scented

    def lot(self, name: str | None) -> Lot:
        return next(lot for lot in self.lots if lot.id == name)

    def papers_of(self, lot: Lot) -> list[Paper]:
        return [*lot.papers, *self.papers]

    def as_table(self) -> dict[str, Any]:
        table: dict[str, Any] = {"id": self.id, "name": self.name, "kind": self.kind}
        table |= {"cas": self.cas} if self.cas else {}
        for name in ("density", "leaves"):
            said = getattr(self, name)
            field_name = "leaves_on_drying" if name == "leaves" else name
            table |= {field_name: said.text} if said is not None else {}
        table |= {"density_is_published": True} if self.density_published else {}
        if self.weighed:
            table["weighed"] = {unit: said.text for unit, said in self.weighed.items()}
        if self.dilution:
            table["dilution"] = {
                "percent": self.dilution.said.text,
                "diluent": self.dilution.diluent,
                "papers_describe": self.dilution.describes,
            }
        table["lot"] = [
            {"lot": lot.id, "composition": [paper.as_table() for paper in lot.papers]}
            for lot in self.lots
            if lot.id is not None
        ]
        loose = [p for lot in self.lots if lot.id is None for p in lot.papers]
        table["composition"] = [p.as_table() for p in (*loose, *self.papers)]
        return table


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
class Cap:
    """One cap as printed, and the number in it (``None`` where there is none)."""

    on: str
    printed: str
    percent: Fraction | None
    state: str = "limit"
    material: str | None = None
    name: str = ""
    cas: str | None = None
    scheme: str = "std"
    edition: str = "51"
    category: str = ""
    document: str = ""
    footnote: str = ""
    summed_with: str | None = None

    @property
    def own(self) -> str:
        return identity(self.name, self.cas)

    @property
    def key(self) -> tuple[str, ...]:
        return (self.on, self.material or self.own, self.scheme, self.edition,
                self.category, self.document)  # fmt: skip

    def as_table(self) -> dict[str, Any]:
        table = {"on": self.on, "scheme": self.scheme, "printed": self.printed}
        for name in ("material", "name", "cas", "edition", "category", "document",
                     "footnote", "summed_with"):  # fmt: skip
            value = getattr(self, name)
            table |= {name: value} if value else {}
        return table


@dataclass(slots=True)
class Confirmed:
    """What the maker said about a match."""

    cas: str
    name: str | None = None
    counts_as: str | None = None
    same: bool = True

    @property
    def who(self) -> str:
        return self.cas if self.name is None else identity(self.name, None)

    @property
    def counts_toward(self) -> str:
        return self.counts_as or self.cas

    def as_table(self) -> dict[str, Any]:
        table: dict[str, Any] = {"cas": self.cas}
        table |= {"name": self.name} if self.name else {}
        table |= {"counts_as": self.counts_as} if self.counts_as else {}
        return table | ({} if self.same else {"same": False})


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
            "stock": [s.as_table() for s in self.stocks.values()],
            "cap": [cap.as_table() for cap in self.caps],
            "confirmed": [one.as_table() for one in self.confirmed],
        }

    def recipe_table(self) -> dict[str, Any]:
        """The recipe file."""
        table: dict[str, Any] = {
            "name": f"world {self.seed}",
            "product": self.product,
            "line": [part.as_table() for part in self.lines],
        }
        table |= {"blend": self.blend.as_table()} if self.blend else {}
        table |= {"pieces": self.pieces} if self.pieces else {}
        for name in ("piece_mass", "dry_mass"):
            said = getattr(self, name)
            table |= {name: said.text} if said is not None else {}
        table |= {"allowance_for_loss": self.loss.text} if self.loss else {}
        if self.has_basis and self.category:
            table["category"] = [
                {"scheme": "std", "category": self.category, "said_by": "the supplier",
                 "on": "2026-05-04"}
            ]  # fmt: skip
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

    def _same_names(self) -> list[Confirmed]:
        return [c for c in self.confirmed if c.same and c.name and c.counts_as is None]

    def meant(self, own: str) -> frozenset[str]:
        """Constituents that a capped name is in truth; a confirmed name is settled."""
        if own.startswith("name:") and self.aliases(own):
            return frozenset().union(*(really(cas) for cas in self.aliases(own)))
        return really(own)

    def at_most(self, own: str, material: Material, lot: Lot) -> frozenset[str]:
        """Constituents of a lot that are it in truth, or count by a printed name."""
        return self.meant(own) | self.surely(own, material, lot)


def group_of(key: str) -> str | None:
    """CAS number of the group that a constituent belongs to."""
    return next((g for g, (_, parts) in GROUPS.items() if key in parts), None)
