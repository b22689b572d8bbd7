"""The component lists of a lot, read once, and what their rows and silence say."""

import re
from collections.abc import Callable, Iterable, Mapping
from fractions import Fraction
from typing import NamedTuple

from blendcheck.blend.expand import Node
from blendcheck.errors import InputError
from blendcheck.frozen import Frozen
from blendcheck.interval import Range, exact_sum
from blendcheck.quantity import Mark, Percent
from blendcheck.records.mass import Key, key_of
from blendcheck.records.material import Composition, CompositionRow, Material
from blendcheck.records.working import Figure, Id, Working

__all__ = ["ComponentList", "Lists", "Row", "has_upper", "own_identity"]

_HUNDRED = r"(?<![\d.])100(?:\.0+)?(?![\d.]|\s*ppm)"

_PRIORITY = (
    "full GC-MS",
    "allergen statement",
    "hazardous ingredients",
    "published range",
)
_OWN_COMPOSITION = frozenset(
    {"carrier", "solvent", "alcohol", "water", "emulsifier", "soaping oil", "solid"}
)
"""Kinds by which the maker states that the material carries no scent: it is its own
full composition even without a CAS number."""


class ComponentList(Frozen):
    """One component list of a lot with the ids of its rows."""

    composition: Composition
    rows: Mapping[str, tuple[Id, CompositionRow]]
    head: str

    @property
    def by_area(self) -> bool:
        """Whether its figures are, or may be, GC peak areas."""
        basis = self.composition.basis
        return basis == "area" or (
            basis is None and self.composition.kind == "full GC-MS"
        )

    @property
    def published(self) -> bool:
        """Whether it is a published range and not the lot's own paper."""
        return self.composition.kind == "published range"


class Row(NamedTuple):
    """What the papers of a lot together say of one component.

    Parameters
    ----------
    id : Id
        Figure, or the step that puts the figures of several papers together.
    identity, name : str
        Who it is.
    says_most : bool
        Whether any paper says how much it is at most.
    published : bool
        Whether only a published range shows it.
    contradicted : bool
        Whether two papers of the lot exclude one another.
    """

    id: Id
    identity: str
    name: str
    says_most: bool
    published: bool
    contradicted: bool


def own_identity(material: Material) -> str | None:
    """Return the identity of a material that is its own full composition.

    Parameters
    ----------
    material : Material
        The material.

    Returns
    -------
    str or None
        Its CAS number, or ``material:id`` for an unscented kind without one;
        ``None`` for anything that has, or needs, a component list.
    """
    if material.dilution is not None:  # sold diluted, and described as sold
        return None
    if material.composition or any(lot.composition for lot in material.lot):
        return None
    if material.kind in _OWN_COMPOSITION:
        return material.cas or f"material:{material.id}"
    return material.cas if material.kind == "aroma chemical" else None


def has_upper(percent: Percent) -> bool:
    """Whether a printed share says how much it is at most.

    Parameters
    ----------
    percent : Percent
        The share; ``>10 %`` has no upper end but all of it, which says nothing.
    """
    span = percent.range
    if span.high is None:
        return False
    if span.high < 100 or span.low == span.high:
        return True
    return re.search(_HUNDRED, percent.printed) is not None


class Lists:
    """Component lists of leaves, each read once.

    Parameters
    ----------
    working : Working
        Where the figures are kept.
    volatile : callable
        Says of an identity whether a gas chromatograph would show it.
    parts_of : callable
        Members of a group by its identity, so that a list with both a group and
        its members is not counted twice.
    alias : mapping of str to str
        CAS numbers of names that the maker confirmed, by identity.
    """

    def __init__(
        self,
        working: Working,
        volatile: Callable[[str], bool],
        parts_of: Callable[[str], frozenset[str]],
        alias: Mapping[str, str],
    ) -> None:
        self.working, self.volatile, self.parts_of = working, volatile, parts_of
        self.alias = alias
        self._read_already: dict[str, tuple[ComponentList, ...]] = {}
        self._rows: dict[str, Mapping[str, Row]] = {}

    # -- reading ----------------------------------------------------------

    def of(self, node: Node) -> tuple[ComponentList, ...]:
        """Return the component lists of a leaf, the most telling first.

        Parameters
        ----------
        node : Node
            A leaf.

        Raises
        ------
        InputError
            If the low ends of a list add up to more than 100 %.
        """
        material = node.material
        if material is None:
            return ()
        head = key_of("lot", material.id, node.lot)
        if head not in self._read_already:
            found = sorted(
                material.lists(node.lot), key=lambda one: _PRIORITY.index(one.kind)
            )
            self._read_already[head] = tuple(
                self._read(head if n == 1 else f"{head}#{n}", node, composition)
                for n, composition in enumerate(found, start=1)
            )
        return self._read_already[head]

    def _read(self, head: str, node: Node, composition: Composition) -> ComponentList:
        rows: dict[str, tuple[Id, CompositionRow]] = {}
        printed = {row.identity for row in composition.row}
        for row in composition.row:
            identity = self.alias.get(row.identity, row.identity)
            if identity in printed:  # the list has both: they stay two rows
                identity = row.identity
            key = self.working.add(
                Figure(
                    Key(f"{head}/{key_of(identity)}"),
                    row.share.printed,
                    _bounded(row, composition),
                    "%",
                    f"{row.name} in {node.says}",
                    row.share.basis or composition.basis,
                    composition.document,
                    _marks(row, composition),
                )
            )
            rows[identity] = (Id(key), row)
        made = ComponentList(composition, rows, head)
        if self.low_sum(self.without_doubles(made, frozenset())) > 100:
            raise InputError(
                f"the low ends of the components of {node.says} add up to more than "
                "100 %",
                "compare the figures with the paper: one is mistyped, or a group "
                "stands beside its members (then leave the group out)",
                code="over-100",
            )
        return made

    def identities(self, node: Node) -> dict[str, str]:
        """Name every component that the lists of a leaf show, by identity.

        Parameters
        ----------
        node : Node
            A leaf.
        """
        if node.material is None:
            return {}
        own = own_identity(node.material)
        if own is not None:
            return {own: node.material.name}
        return {identity: row.name for identity, row in self.rows(node).items()}

    def rows(self, node: Node) -> Mapping[str, Row]:
        """Return what all papers of a leaf together say, by identity.

        Parameters
        ----------
        node : Node
            A leaf. A published range speaks only where no paper of the lot does.
        """
        if node.id not in self._rows:
            found: dict[str, list[tuple[Id, CompositionRow, bool]]] = {}
            for one in self.of(node):
                for identity, (name, row) in one.rows.items():
                    found.setdefault(identity, []).append((name, row, one.published))
            self._rows[node.id] = {
                identity: self._together(node, identity, papers)
                for identity, papers in found.items()
            }
        return self._rows[node.id]

    def _together(
        self,
        node: Node,
        identity: str,
        papers: list[tuple[Id, CompositionRow, bool]],
    ) -> Row:
        own = [(name, row) for name, row, published in papers if not published]
        chosen = own or [(name, row) for name, row, _ in papers]
        says_most = any(self._says_most(name, row) for name, row in chosen)
        first, row = chosen[0]
        if len(chosen) == 1:
            return Row(
                first, identity, row.name, says_most, not own, contradicted=False
            )
        ids = tuple(name for name, _ in chosen)
        step = self.working.work(
            f"{first}/all papers",
            "all papers together",
            ids,
            unit="%",
            says=f"{row.name} in {node.says}, all papers together",
        )
        spans = [self.working.range(name) for name in ids]
        low = max(span.low or Fraction(0) for span in spans)
        high = min(Fraction(100) if s.high is None else s.high for s in spans)
        return Row(step.id, identity, row.name, says_most, not own, low > high)

    def _says_most(self, name: Id, row: CompositionRow) -> bool:
        if not row.share.detected:  # n.d. with its own limit, or with its list's
            return self.working.range(name).high is not None
        return has_upper(row.share)

    # -- what silence bounds ----------------------------------------------

    def cover(
        self, node: Node, own: str, absent: frozenset[str]
    ) -> tuple[Id, ...] | None:
        """Return figures that together bound what is absent, or ``None``.

        Parameters
        ----------
        node : Node
            A leaf.
        own : str
            Identity of the subject; a list that covers it bounds it as a whole.
        absent : frozenset of str
            Identities that no list shows.
        """
        best: tuple[Fraction, tuple[Id, ...]] | None = None
        for one in self.of(node):
            found = self._cover_by(one, node, own, absent)
            if found is None:
                continue
            highs = (self.working.range(i).high or Fraction(100) for i in found)
            top = sum(highs, Fraction(0))
            if best is None or top < best[0]:
                best = top, found
        return None if best is None else best[1]

    def _cover_by(
        self, one: ComponentList, node: Node, own: str, absent: frozenset[str]
    ) -> tuple[Id, ...] | None:
        made = one.composition
        if not made.copied_whole or one.published:
            return None
        if made.kind == "full GC-MS" and made.unidentified is not None:
            if not all(map(self.volatile, absent)):
                return None
            return (self._list_figure(one, "unidentified", made.unidentified, node),)
        limit = made.shown_from
        if made.covers is None or limit is None or limit.range.high is None:
            return None
        if own in made.covers:
            return (self._list_figure(one, f"below limit/{own}", limit, node),)
        if not absent <= set(made.covers):
            return None
        return tuple(
            self._list_figure(one, f"below limit/{i}", limit, node)
            for i in sorted(absent)
        )

    def _list_figure(
        self, one: ComponentList, what: str, printed: Percent, node: Node
    ) -> Id:
        says = f"not shown in {node.says}: below the limit of its list"
        if what == "unidentified":
            says = f"not identified in {node.says}"
        figure = Figure(
            Key(f"{one.head}/{key_of(what)}"),
            printed.printed,
            Range(Fraction(0), printed.range.high),
            "%",
            says,
            one.composition.basis,
            one.composition.document,
            frozenset({Mark.ABSENCE}),
        )
        return Id(self.working.add(figure))

    def others(
        self, node: Node, members: frozenset[str], proposed: frozenset[str]
    ) -> tuple[Id, ...]:
        """Return the rows that leave the least room for a subject.

        Parameters
        ----------
        node : Node
            A leaf.
        members, proposed : frozenset of str
            Identities that count, or would if they were confirmed.
        """
        counted = members | proposed
        best: tuple[Fraction, tuple[Id, ...]] = (Fraction(0), ())
        for one in self.of(node):
            if one.published or (one.by_area and not all(map(self.volatile, members))):
                continue
            rows = self.without_doubles(one, counted)
            low = self.low_sum(rows)
            if low > best[0]:
                best = low, rows
        return best[1]

    def without_doubles(
        self, one: ComponentList, counted: frozenset[str]
    ) -> tuple[Id, ...]:
        """Return rows outside a subject, a group and its members counted once.

        Parameters
        ----------
        one : ComponentList
            The list.
        counted : frozenset of str
            Identities of the subject.
        """
        doubles: set[str] = set()
        for group in one.rows:
            members = (self.parts_of(group) - {group}) & one.rows.keys()
            if not members or group in counted:
                continue
            own = self.low_sum((one.rows[group][0],))
            parts = self.low_sum(one.rows[member][0] for member in members)
            doubles |= members if own > parts and not members & counted else {group}
        return tuple(
            name
            for identity, (name, _) in one.rows.items()
            if identity not in counted and identity not in doubles
        )

    def low_sum(self, ids: Iterable[Id]) -> Fraction:
        """Add the low ends of some figures.

        Parameters
        ----------
        ids : iterable of Id
            The figures. [%]
        """
        lows = (self.working.range(i).low for i in ids)
        return exact_sum(low for low in lows if low is not None)


def _bounded(row: CompositionRow, composition: Composition) -> Range:
    """Return a share; ``n.d.`` lies below the limit of its list, if that has one."""
    span, shown = row.share.range, composition.shown_from
    if span.high is None and not row.share.detected and shown is not None:
        return Range(Fraction(0), shown.range.high)
    return span


def _marks(row: CompositionRow, composition: Composition) -> frozenset[Mark]:
    marks: set[Mark] = set()
    if composition.kind == "published range":
        marks.add(Mark.PUBLISHED_NOT_LOT)
    if composition.basis == "area" or row.share.basis == "area":
        marks.add(Mark.AREA_PERCENT)
    return frozenset(marks)
