"""Compositions of the lots in a case as numbers, for every estimate that needs them.

A share is a range; the unlisted share of a report is a share like any other. Only a
full report that was copied whole says what an oil is made of; a single substance is
its own composition. Nothing is looked up here for an oil without a report.
"""

from dataclasses import dataclass, replace
from fractions import Fraction

from blendcheck.blend.expand import Node
from blendcheck.blend.lists import ComponentList, own_identity
from blendcheck.blend.totals import Totals
from blendcheck.quantity import Mark
from blendcheck.records.working import Id

__all__ = ["Component", "Lot", "Weighed", "lot_of", "weighed"]

_HUNDRED = 100.0


@dataclass(frozen=True, slots=True)
class Component:
    """A constituent of a lot.

    Parameters
    ----------
    cas : str or None
        Its CAS number, if the paper has one or the maker confirmed one.
    name : str
        As printed.
    low, high : float
        Share of the lot. [%]
    """

    cas: str | None
    name: str
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Lot:
    """What a lot is made of, as far as its papers say.

    Parameters
    ----------
    key : str
        Material and lot; the same wherever the lot is used.
    says : str
        What the maker calls it.
    components : tuple of Component
        Rows of its full report.
    unlisted : (float, float)
        What the rows leave open, at most what the report says that it could not
        name, if it says so and its rows can make up the rest. [%]
    is_whole : bool
        Whether a full report was copied whole, or it is a single substance.
    marks : frozenset of Mark
        Doubts of the figures.
    """

    key: str
    says: str
    components: tuple[Component, ...]
    unlisted: tuple[float, float]
    is_whole: bool
    marks: frozenset[Mark] = frozenset()


@dataclass(frozen=True, slots=True)
class Weighed:
    """A lot and the grams of it that go into the batch, low to high."""

    lot: Lot
    node: Node
    low: float
    high: float


def lot_of(totals: Totals, node: Node) -> Lot:
    """Return what a leaf is made of.

    Parameters
    ----------
    totals : Totals
        Totals of the recipe.
    node : Node
        A leaf.

    Returns
    -------
    Lot
        Of an oil without a full report nothing, and not whole.
    """
    key, says = node.id, node.says
    own = None if node.material is None else own_identity(node.material)
    if own is not None:
        cas = None if own.startswith("material:") else own
        one = Component(cas, node.says, _HUNDRED, _HUNDRED)
        return Lot(key, says, (one,), (0.0, 0.0), is_whole=True)
    report = next(
        (one for one in totals.shares.lists.of(node) if _is_full_report(one)), None
    )
    if report is None:
        return Lot(key, says, (), (0.0, _HUNDRED), is_whole=False)
    return _from_report(totals, report, key, says)


def _is_full_report(one: ComponentList) -> bool:
    made = one.composition
    return made.kind == "full GC-MS" and made.copied_whole


def _from_report(totals: Totals, report: ComponentList, key: str, says: str) -> Lot:
    lists = totals.shares.lists
    kept = set(lists.without_doubles(report, frozenset()))
    components: list[Component] = []
    marks: set[Mark] = {Mark.AREA_PERCENT} if report.by_area else set()
    for identity, (name, row) in report.rows.items():
        if name not in kept:
            continue
        span = totals.working.range(name)
        high = Fraction(100) if span.high is None else span.high
        cas = None if identity.startswith("name:") else identity
        components.append(Component(cas, row.name, float(span.low or 0), float(high)))
        marks |= totals.working.marks(name)
    # A trace without a limit, or a wide range, is at most what the others leave.
    room = _HUNDRED - sum(one.low for one in components)
    components = [
        replace(one, high=max(one.low, min(one.high, room + one.low)))
        for one in components
    ]
    least = max(0.0, _HUNDRED - sum(one.high for one in components))
    most = max(0.0, _HUNDRED - sum(one.low for one in components))
    named = report.composition.unidentified
    if named is not None and named.range.high is not None:
        most = min(most, max(least, float(named.range.high)))
    unlisted = least, most
    return Lot(
        key, says, tuple(components), unlisted, is_whole=True, marks=frozenset(marks)
    )


def weighed(totals: Totals) -> tuple[Weighed, ...]:
    """Return the scented lots of a recipe with their grams.

    Parameters
    ----------
    totals : Totals
        Totals of the recipe.

    Returns
    -------
    tuple of Weighed
        Each lot once, in the order of the recipe; those inside stock blends
        included.
    """
    found: dict[str, Weighed] = {}
    for node in totals.nodes:
        for leaf, low, high in _grams(totals, node, *_range(totals, node.wet)):
            if leaf.material is None or not leaf.material.is_scented:
                continue
            one = found.get(leaf.id) or Weighed(lot_of(totals, leaf), leaf, 0.0, 0.0)
            found[leaf.id] = Weighed(one.lot, leaf, one.low + low, one.high + high)
    return tuple(found.values())


def _range(totals: Totals, name: Id | None) -> tuple[float, float]:
    if name is None:
        return 0.0, 0.0
    span = totals.working.range(name)
    low = float(span.low or 0)
    return low, low if span.high is None else float(span.high)


def _grams(
    totals: Totals, node: Node, low: float, high: float
) -> list[tuple[Node, float, float]]:
    """Return the leaves of a node with their grams, from those of the node."""
    if node.material is not None:
        return [(node, low, high)]
    inner = [(one, *_range(totals, one.wet)) for one in node.inner.values()]
    found: list[tuple[Node, float, float]] = []
    for one, least, most in inner:
        others = [other for other in inner if other[0] is not one]
        least_share = least / ((least + sum(o[2] for o in others)) or 1.0)
        most_share = most / ((most + sum(o[1] for o in others)) or 1.0)
        found += _grams(totals, one, low * least_share, high * most_share)
    return found
