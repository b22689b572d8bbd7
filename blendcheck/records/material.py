"""What the maker holds: materials, their lots, papers, compositions and caps."""

from collections.abc import Iterator
from fractions import Fraction
from functools import lru_cache
from typing import Annotated, Literal, Self

from pydantic import AfterValidator, Field, model_validator

from blendcheck.errors import InputError
from blendcheck.quantity import CapText, read_cap
from blendcheck.records.fields import (
    AmountText,
    CasText,
    DateText,
    DensityText,
    Name,
    PercentText,
    Read,
    Record,
    TemperatureText,
    text_of,
)
from blendcheck.records.hazard import Hazard
from blendcheck.records.workshop import Workshop

__all__ = [
    "SCENTED",
    "CapEntry",
    "Composition",
    "CompositionRow",
    "Confirmed",
    "Dilution",
    "Document",
    "Lot",
    "Material",
    "MaterialKind",
    "Materials",
    "identity_of",
]

MaterialKind = Literal[
    "essential oil",
    "fragrance oil",
    "absolute",
    "aroma chemical",
    "carrier",
    "solvent",
    "alcohol",
    "water",
    "emulsifier",
    "soaping oil",
    "solid",
    "colour",
    "other",
]

SCENTED: frozenset[str] = frozenset(
    {"essential oil", "fragrance oil", "absolute", "aroma chemical"}
)
"""The kinds whose grams make up the load."""

CompositionKind = Literal[
    "full GC-MS",
    "allergen statement",
    "hazardous ingredients",
    "published range",
]


def identity_of(name: str, cas: str | None) -> str:
    """Return the identity under which a component is totalled.

    Parameters
    ----------
    name : str
        Name as printed.
    cas : str or None
        CAS number, if the paper gives one.

    Returns
    -------
    str
        The CAS number, else ``name:`` and the name in lower case with single
        spaces. Two names are never taken for one here.
    """
    return cas if cas is not None else "name:" + " ".join(name.casefold().split())


class Document(Record):
    """A paper from a supplier. ``edition`` is that of the standard it follows."""

    id: Name
    kind: Name
    issuer: str = ""
    date: DateText | None = None
    edition: str = ""
    lot: str | None = None


class CompositionRow(Record):
    """One printed line of a component table."""

    name: Name
    cas: CasText | None = None
    share: PercentText

    @property
    def identity(self) -> str:
        """The identity under which it is totalled."""
        return identity_of(self.name, self.cas)


class Composition(Record):
    """A list of components, and what its silence means.

    A list bounds what it does not show only if ``copied_whole`` is set, and
    only for what it would have had to show: ``covers`` (CAS numbers), or for a
    full GC-MS report the volatile constituents. ``shown_from`` is its detection
    or cut-off limit, ``unidentified`` the remainder that it could not name.
    """

    kind: CompositionKind
    document: str | None = None
    basis: Literal["w/w", "area"] | None = None
    copied_whole: bool = False
    covers: tuple[CasText, ...] | None = None
    shown_from: PercentText | None = None
    unidentified: PercentText | None = None
    row: tuple[CompositionRow, ...] = ()

    @model_validator(mode="after")
    def _rows_are_possible(self) -> Self:
        if self.kind == "published range" and self.copied_whole:
            raise InputError(
                "a published range is never a whole copy of your lot's paper",
                "remove copied_whole, or enter the lot's own report",
                code="published-whole",
            )
        seen: set[str] = set()
        for row in self.row:
            if row.identity in seen:
                raise InputError(
                    f"{row.name} stands twice in one component list",
                    "keep the line that the paper prints",
                    code="row-twice",
                )
            seen.add(row.identity)
        return self


_read_cap = lru_cache(maxsize=4096)(read_cap)


class CapEntry(Record):
    """One cap as printed, with all that it depends on.

    ``on`` says what is capped: ``"material"`` (the oil that the entry stands
    with, or ``material``), ``"component"`` (by ``cas`` and ``name``) or
    ``"load"``. Entries of one document with the same ``summed_with`` are used
    as fractions of their caps and added, as that document itself demands.
    """

    on: Literal["material", "component", "load"] = "material"
    material: str | None = None
    name: str = ""
    cas: CasText | None = None
    scheme: Name
    edition: str = ""
    category: str = ""
    printed: Annotated[str, Read(text_of)] = ""
    footnote: str = ""
    document: str | None = None
    summed_with: str | None = None

    @model_validator(mode="after")
    def _says_what(self) -> Self:
        if self.on == "component" and not (self.name or self.cas):
            raise InputError(
                "a cap on a component names no component", "give its name or its CAS"
            )
        _ = self.cap
        return self

    @property
    def cap(self) -> CapText:
        """The state that the printed text and its footnote give."""
        return _read_cap(self.printed, self.footnote)

    @property
    def subject(self) -> str:
        """Identity of a capped component."""
        return identity_of(self.name, self.cas)


class Lot(Record):
    """A traceable delivery of a material."""

    lot: Name
    received: DateText | None = None
    opened: DateText | None = None
    storage: str = ""
    density: DensityText | None = None
    flash_point: TemperatureText | None = None
    composition: tuple[Composition, ...] = ()


class Dilution(Record):
    """A material that is sold diluted: its share, and in what.

    ``papers_describe`` says whether its composition and caps speak of the
    undiluted oil or of the item as sold; a wrong guess is a ten-fold error, so
    there is no default.
    """

    percent: PercentText
    diluent: Name
    papers_describe: Literal["undiluted", "as sold"]

    @model_validator(mode="after")
    def _by_weight(self) -> Self:
        span = self.percent.range
        if self.percent.basis == "v/v":
            raise InputError(
                "a dilution by volume needs both densities",
                "ask the supplier for it by weight (% w/w)",
                code="dilution-volume",
            )
        if span.low is None or span.high is None:
            raise InputError(
                "a dilution needs both ends", "write it like 10 % or 9-11 %"
            )
        return self


Measures = dict[
    Literal["drop", "cup", "scoop", "pinch", "capful", "spray", "tsp", "tbsp"],
    AmountText,
]


class Material(Record):
    """One thing on the shelf, from one supplier.

    A second supplier's oil of the same name is a second material: nothing is
    inherited. ``cas`` marks a single substance, which is its own full
    composition. ``leaves_on_drying`` is the share of its mass that is gone from
    the finished piece (``62.8-100 %`` for 70 % alcohol, whose water may stay).
    ``strength`` is how much of an alcohol is alcohol, by volume or by weight
    (``70 % v/v``).
    ``checked_by_components`` is the maker's statement that it has no certificate and
    that the caps entered for its components are all that their source lists.
    ``weighed`` holds measures that were put on the scale once: ``drop = "0.031
    g"``. ``density_is_published`` marks a density taken from a published range.
    """

    id: Name
    name: Name
    kind: MaterialKind
    botanical: str = ""
    part: str = ""
    inci: str = ""
    supplier: str = ""
    cas: CasText | None = None
    density: DensityText | None = None
    density_is_published: bool = False
    flash_point: TemperatureText | None = None
    flash_point_document: str | None = None
    leaves_on_drying: PercentText | None = None
    strength: PercentText | None = None
    weighed: Measures = Field(default_factory=dict)
    dilution: Dilution | None = None
    checked_by_components: bool = False
    phototoxic: Literal["yes", "no", "not known"] | None = None
    irritant: tuple[CasText, ...] = ()
    remark: str = ""
    document: tuple[Document, ...] = ()
    lot: tuple[Lot, ...] = ()
    composition: tuple[Composition, ...] = ()
    hazard: tuple[Hazard, ...] = ()
    cap: tuple[CapEntry, ...] = ()

    @property
    def is_scented(self) -> bool:
        """Whether its grams count as load."""
        return self.kind in SCENTED

    def lists(self, lot: str | None) -> tuple[Composition, ...]:
        """Return the component lists that speak of a lot, the lot's own first.

        Parameters
        ----------
        lot : str or None
            Which lot.
        """
        own = next((one.composition for one in self.lot if one.lot == lot), ())
        return (*own, *self.composition)


def _unique(materials: tuple[Material, ...]) -> tuple[Material, ...]:
    seen: set[str] = set()
    for material in materials:
        if material.id in seen:
            raise InputError(
                f'two materials have the id "{material.id}"', "rename one of them"
            )
        seen.add(material.id)
        lots = [one.lot for one in material.lot]
        if len(lots) != len(set(lots)):
            raise InputError(
                f'"{material.id}" has the same lot twice', "rename or remove one"
            )
    return materials


class Confirmed(Record):
    """What the maker said about a proposed match.

    Either a printed ``name`` is the substance ``cas``, or ``cas`` counts toward
    ``counts_as`` (d-limonene toward limonene). ``same = false`` refuses it.
    """

    name: str | None = None
    cas: CasText
    counts_as: CasText | None = None
    same: bool = True


class StockLine(Record):
    """A line of a stock blend: a material or another stock blend, and how much."""

    material: str | None = None
    stock: str | None = None
    lot: str | None = None
    amount: AmountText

    @model_validator(mode="after")
    def _one_thing(self) -> Self:
        if (self.material is None) == (self.stock is None):
            raise InputError(
                "a line names a material or a stock blend, one of the two",
                'write material = "..." or stock = "..."',
                code="line-target",
            )
        return self


def _definite(lines: tuple[StockLine, ...]) -> tuple[StockLine, ...]:
    kinds = {line.amount.kind for line in lines}
    relative = kinds & {"parts", "percent"}
    if relative and len(kinds) > 1:
        raise InputError(
            "a blend is written by amounts, by parts or by percent, not mixed",
            "write all its lines the same way",
            code="blend-mixed",
        )
    if relative == {"percent"}:
        total = sum(
            ((line.amount.number.high or Fraction(0)) for line in lines), Fraction(0)
        )
        if total != 100:
            raise InputError(
                f"the percents of the blend add up to {float(total):g} %, not 100 %",
                "correct them, or write parts",
                code="blend-percent",
            )
    return lines


class Stock(Record):
    """A blend that is mixed ahead and used by weight."""

    id: Name
    name: str = ""
    made: DateText | None = None
    line: Annotated[
        tuple[StockLine, ...], Field(min_length=1), AfterValidator(_definite)
    ]


class Materials(Record):
    """The shelf: materials, stock blends, caps on components, confirmed matches."""

    workshop: Workshop = Workshop()
    material: Annotated[tuple[Material, ...], AfterValidator(_unique)] = ()
    stock: tuple[Stock, ...] = ()
    cap: tuple[CapEntry, ...] = ()
    confirmed: tuple[Confirmed, ...] = ()

    def get(self, name: str) -> Material:
        """Return a material by its id.

        Parameters
        ----------
        name : str
            The id.

        Raises
        ------
        InputError
            If there is none; the message lists what there is.
        """
        for material in self.material:
            if material.id == name:
                return material
        known = ", ".join(sorted(m.id for m in self.material)) or "none"
        raise InputError(
            f'there is no material "{name}"',
            f"The materials file has: {known}",
            code="no-material",
        )

    def caps(self) -> tuple[CapEntry, ...]:
        """Every cap on the shelf, those of a material with its id filled in."""
        key = id(self.material)
        kept = _CAPS.get(key)
        if kept is None or kept[0] is not self.material or kept[1] is not self.cap:
            if len(_CAPS) >= _SHELVES:
                _CAPS.clear()
            kept = (self.material, self.cap, tuple(self._caps()))
            _CAPS[key] = kept
        return kept[2]

    def _caps(self) -> Iterator[CapEntry]:
        yield from self.cap
        for material in self.material:
            for entry in material.cap:
                if entry.on == "material" and entry.material is None:
                    yield entry.model_copy(update={"material": material.id})
                else:
                    yield entry


_SHELVES = 16
_CAPS: dict[
    int,
    tuple[tuple[Material, ...], tuple[CapEntry, ...], tuple[CapEntry, ...]],
] = {}
"""Caps of the shelves seen last, by the tuple of materials that they were made of:
a check asks for them dozens of times."""
