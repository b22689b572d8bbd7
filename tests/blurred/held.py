"""What is on the shelf of an invented world: papers, lots, materials, caps, answers.

Each holds the truth beside its text, and ``as_table`` gives the text alone.
"""

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

from tests.blurred.said import Said
from tests.blurred.substances import identity


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
    density: Said | None = None

    def as_table(self) -> dict[str, Any]:
        table: dict[str, Any] = {"lot": self.id}
        table |= {"density": self.density.text} if self.density else {}
        return table | {"composition": [paper.as_table() for paper in self.papers]}


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
            "essential oil",
            "fragrance oil",
            "absolute",
            "aroma chemical",
        }

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
        table["lot"] = [lot.as_table() for lot in self.lots if lot.id is not None]
        loose = [p for lot in self.lots if lot.id is None for p in lot.papers]
        table["composition"] = [p.as_table() for p in (*loose, *self.papers)]
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
    shelved: bool = True

    @property
    def own(self) -> str:
        return identity(self.name, self.cas)

    @property
    def key(self) -> tuple[str, ...]:
        return (
            self.on,
            self.material or self.own,
            self.scheme,
            self.edition,
            self.category,
            self.document,
        )

    def as_table(self) -> dict[str, Any]:
        table = {"on": self.on, "scheme": self.scheme, "printed": self.printed}
        for name in (
            "material",
            "name",
            "cas",
            "edition",
            "category",
            "document",
            "footnote",
            "summed_with",
        ):
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
