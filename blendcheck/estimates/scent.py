"""How many grams of each volatile constituent one use of a piece holds.

Grams come from what the papers of each lot print, times what of the lot is in one
use. What no paper names, and what is named but not in the table of constituents, is
counted in grams as not estimated: it is never zero.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Final

from blendcheck import reference
from blendcheck.blend.expand import Node
from blendcheck.blend.totals import Totals
from blendcheck.equations.fizz import BICARBONATE, CARBON_DIOXIDE
from blendcheck.interval import Range
from blendcheck.quantity import Mark
from blendcheck.records.material import Material
from blendcheck.records.working import Id

__all__ = ["Constituent", "Grams", "Leaf", "NotEstimated", "Part", "Scent", "scent_of"]

_BICARBONATES: Final = frozenset({"144-55-8", "298-14-6"})
_LOOKED_AT: Final = frozenset({"solid", "other"})
"""Kinds beside the scented ones of which a volatile substance may be entered, such
as crystals of menthol."""
_WATER: Final = "7732-18-5"
"""It evaporates and is no scent: named, and not in the air of these figures."""
_GONE: Final = frozenset({"alcohol", "solvent"})
"""Kinds of which what is left when dry is stated as not estimated."""


@dataclass(frozen=True, slots=True)
class Grams:
    """Grams in one use: low, middle and high, in g, >= 0."""

    low: float
    middle: float
    high: float

    def __add__(self, other: "Grams") -> "Grams":
        return Grams(
            self.low + other.low, self.middle + other.middle, self.high + other.high
        )

    def times(self, other: "Grams") -> "Grams":
        """Return the product, end by end."""
        return Grams(
            self.low * other.low, self.middle * other.middle, self.high * other.high
        )


_NONE: Final = Grams(0.0, 0.0, 0.0)


@dataclass(frozen=True, slots=True)
class Part:
    """A constituent in one lot: its share, as a fraction."""

    identity: str
    name: str
    share: Grams
    marks: frozenset[Mark]


@dataclass(frozen=True, slots=True)
class Leaf:
    """A lot with a scent: how much of it is in one use, and what it is made of.

    Parameters
    ----------
    node : Node
        The leaf.
    grams : Grams
        Of the lot, in one use. [g]
    parts : tuple of Part
        Its volatile constituents that are in the table.
    named : Grams
        Share of what is named and does not evaporate, as a fraction.
    rest : Grams
        Share that is not estimated, as a fraction.
    """

    node: Node
    grams: Grams
    parts: tuple[Part, ...]
    named: Grams
    rest: Grams


@dataclass(frozen=True, slots=True)
class Constituent:
    """A volatile constituent over all lots, in one use."""

    cas: str
    name: str
    grams: Grams
    marks: frozenset[Mark]


@dataclass(frozen=True, slots=True)
class NotEstimated:
    """Grams of which nothing is estimated, and of what.

    ``in_load`` says whether they are part of a lot that counts as scent.
    """

    what: str
    grams: Grams
    in_load: bool = True


@dataclass(frozen=True, slots=True)
class Scent:
    """What one use of a piece holds.

    Parameters
    ----------
    leaves : tuple of Leaf
        Its lots with a scent.
    constituents : tuple of Constituent
        The volatile ones, most grams first.
    not_estimated : tuple of NotEstimated
        Shares of a lot that nobody named, and what may be left of a spritz.
    load : Grams
        All scented materials. [g]
    gas_g : float
        Carbon dioxide, if all carbon of the bicarbonate becomes gas. [g]
    """

    leaves: tuple[Leaf, ...]
    constituents: tuple[Constituent, ...]
    not_estimated: tuple[NotEstimated, ...]
    load: Grams
    gas_g: float

    @property
    def unknown(self) -> Grams:
        """Grams of which nothing is estimated, together."""
        total = _NONE
        for one in self.not_estimated:
            total += one.grams
        return total


def scent_of(totals: Totals) -> Scent | None:
    """Return what one use of a piece holds.

    Parameters
    ----------
    totals : Totals
        Totals of a recipe.

    Returns
    -------
    Scent or None
        ``None`` where it is not known how much one piece weighs.
    """
    use = _share_in_one_use(totals)
    if use is None:
        return None
    leaves: list[Leaf] = []
    apart: list[NotEstimated] = []
    gas = 0.0
    for node, mass in _masses(totals, totals.nodes, use):
        material = node.material
        if material is None or not mass.high > 0:
            continue
        if material.is_scented or material.kind in _LOOKED_AT:
            leaf = _leaf(totals, node, mass)
            if material.is_scented or leaf.parts:
                leaves.append(leaf)
        elif material.kind in _GONE:
            apart.append(
                NotEstimated(f"what is left of {node.says}", mass, in_load=False)
            )
        if _is_bicarbonate(material, totals):
            gas += mass.high * CARBON_DIOXIDE / BICARBONATE
    apart = [
        *(
            NotEstimated(f"what no paper names in {leaf.node.says}", missing)
            for leaf in leaves
            if (missing := leaf.grams.times(leaf.rest)).high > 0
        ),
        *apart,
    ]
    missing_by: dict[tuple[str, bool], Grams] = {}
    for one in apart:
        key = one.what, one.in_load
        missing_by[key] = missing_by.get(key, _NONE) + one.grams
    apart = [NotEstimated(what, g, inside) for (what, inside), g in missing_by.items()]
    load = _NONE
    for leaf in leaves:
        load += leaf.grams
    return Scent(tuple(leaves), tuple(_together(leaves)), tuple(apart), load, gas)


def _is_bicarbonate(material: Material, totals: Totals) -> bool:
    if material.cas is not None:
        return material.cas in _BICARBONATES
    return not _BICARBONATES.isdisjoint(totals.knowledge.names(material.name))


def _grams(value: Range) -> Grams:
    low = float(value.low or 0)
    high = float(value.high) if value.high is not None else low
    return Grams(low, (low + high) / 2, high)


def _share_in_one_use(totals: Totals) -> Grams | None:
    """Return what part of the batch one use is."""
    piece = totals.piece_mass
    if piece is None:
        return None
    each, whole = totals.working.range(piece), totals.working.range(totals.finished)
    used = float(totals.recipe.share_of_piece_used)
    made = _grams(whole)
    if not made.low > 0:
        return None
    one = _grams(each)
    return Grams(
        used * one.low / made.high,
        used * one.middle / made.middle,
        used * one.high / made.low,
    )


def _masses(
    totals: Totals, nodes: Iterable[Node], share: Grams
) -> Iterator[tuple[Node, Grams]]:
    """Yield the leaves with their grams in one use, those inside mixes included."""
    for node in nodes:
        mass = _mass(totals, node.left or node.wet)
        if node.material is not None:
            yield node, share.times(mass)
            continue
        whole = _mass(totals, node.inner_whole)
        if not whole.low > 0:
            continue
        inside = share.times(mass)
        part = Grams(
            inside.low / whole.high,
            inside.middle / whole.middle,
            inside.high / whole.low,
        )
        yield from _masses(totals, node.inner.values(), part)


def _mass(totals: Totals, step: Id | None) -> Grams:
    return _NONE if step is None else _grams(totals.working.range(step))


# -- what a lot is made of -----------------------------------------------------


def _leaf(totals: Totals, node: Node, mass: Grams) -> Leaf:
    parts: list[Part] = []
    named = _NONE
    for identity, share, marks in _shares(totals, node):
        known = reference.constituents().get(identity)
        evaporates = identity != _WATER and reference.is_volatile(identity)
        if known is not None and evaporates:
            parts.append(Part(identity, known.name, share, marks))
        elif known is not None:
            named += share
    kept = Grams(
        sum(p.share.low for p in parts) + named.low,
        sum(p.share.middle for p in parts) + named.middle,
        sum(p.share.high for p in parts) + named.high,
    )
    if kept.middle > 1:  # middles of wide ranges: a lot is not more than itself
        parts = [
            Part(
                p.identity,
                p.name,
                Grams(p.share.low, p.share.middle / kept.middle, p.share.high),
                p.marks,
            )
            for p in parts
        ]
        kept = Grams(kept.low, 1.0, kept.high)
    own = totals.is_own(node)
    rest = Grams(
        0.0 if own else max(0.0, 1 - kept.high),
        0.0 if own else 1 - kept.middle,
        0.0 if own else max(0.0, 1 - kept.low),
    )
    return Leaf(node, mass, tuple(parts), named, rest)


_Shown = tuple[str, Grams, frozenset[Mark]]


def _shares(totals: Totals, node: Node) -> Iterator[_Shown]:
    """Yield what the papers of a leaf show, a group beside its members left out."""
    lists = totals.shares.lists
    if totals.is_own(node):
        for identity in lists.identities(node):
            yield identity, Grams(1.0, 1.0, 1.0), frozenset()
        return
    rows = lists.rows(node)
    working = totals.working
    shown = {
        identity: row
        for identity, row in rows.items()
        if not (lists.parts_of(identity) - {identity}) & rows.keys()
    }
    lows = {i: float(working.range(row.id).low or 0) for i, row in shown.items()}
    whole = sum(lows.values())
    for identity, row in shown.items():
        low = lows[identity] / 100
        room = max(low, 1 - (whole / 100 - low))
        high = working.range(row.id).high
        top = room if high is None else min(float(high) / 100, room)
        middle = (low + top) / 2 if row.says_most else low
        marks = working.marks(row.id)
        yield identity, Grams(low, middle, max(low, top)), marks


def _together(leaves: Iterable[Leaf]) -> list[Constituent]:
    grams: dict[str, Grams] = {}
    names: dict[str, str] = {}
    marks: dict[str, frozenset[Mark]] = {}
    for leaf in leaves:
        for part in leaf.parts:
            more = leaf.grams.times(part.share)
            grams[part.identity] = grams.get(part.identity, _NONE) + more
            names.setdefault(part.identity, part.name)
            marks[part.identity] = marks.get(part.identity, frozenset()) | part.marks
    found = [Constituent(i, names[i], grams[i], marks[i]) for i in grams]
    return sorted(found, key=lambda one: -one.grams.middle)
