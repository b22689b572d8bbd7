"""What a recipe brings of the marked components, lot by lot, before it is closed.

A recipe's load in one piece is ``κ Σ mass × share``: the masses linear in what is
unknown of drops and densities, each share an unknown of its lot, and κ the part of the
batch that one piece is. Lots, drops and densities of one shelf are the same unknown in
every recipe; how much a batch keeps on drying is not.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Final

from blendcheck.assess import Assessment
from blendcheck.blend.totals import Traced
from blendcheck.checks.marked import Marked, total_of
from blendcheck.interval import Range
from blendcheck.quantity import Mark
from blendcheck.records.mass import Key, Mass
from blendcheck.records.material import Material
from blendcheck.records.working import Id

__all__ = ["Content", "Form", "Lot", "Shelves", "by_weight", "form_of"]

_SHELF: Final = ("drop/", "drop-volume/", "measure/", "density/")
"""Unknowns that belong to a thing on the shelf and not to one batch."""

_REST: Final = ""
_HUNDRED: Final = Fraction(100)
_AREA: Final = Fraction(1, 10)
"""How far area % may lie from percent by weight, of the figure; own choice."""


@dataclass(frozen=True, slots=True)
class Content:
    """One marked component in a lot; of the rest the identity is blank [%]."""

    identity: str
    low: Fraction
    high: Fraction


@dataclass(frozen=True, slots=True)
class Lot:
    """What one lot holds of the marked components.

    Parameters
    ----------
    key : tuple
        The same for the same lot of the same shelf, whichever recipe it is in.
    says : str
        What the maker calls it.
    contents : tuple of Content
        The components, each in its own range.
    low, high : Fraction
        Ends of their sum, which never exceeds what the lot can hold. [%]
    by_area : bool
        Whether its list prints area % of a chromatogram.
    """

    key: tuple[object, ...]
    says: str
    contents: tuple[Content, ...]
    low: Fraction
    high: Fraction
    by_area: bool = False

    def by_weight(self) -> "Lot":
        """Return what it may hold by weight, which area % may miss by a tenth."""
        if not self.by_area:
            return self
        contents = tuple(
            Content(part.identity, *by_weight(part.low, part.high))
            for part in self.contents
        )
        low, high = by_weight(self.low, self.high)
        return replace(self, contents=contents, low=low, high=high)


def by_weight(low: Fraction, high: Fraction) -> tuple[Fraction, Fraction]:
    """Return what a range of area % may be by weight.

    Parameters
    ----------
    low, high : Fraction
        As printed. [area %]
    """
    return low * (1 - _AREA), min(_HUNDRED, high * (1 + _AREA))


@dataclass(frozen=True, slots=True)
class Form:
    """The load of one recipe as a linear form.

    Parameters
    ----------
    lots : mapping
        Lot and grams of it in the batch, by the key of the lot.
    whole : Mass or None
        Finished mass of the batch; ``None`` where it is known only as a range. [g]
    finished : Range
        The same as a range. [g]
    piece : Range
        Mass of one piece; of a batch that is shared out, 1 over the pieces. [g]
    shared_out : bool
        Whether a piece is its part of the batch, whatever that weighs.
    used : Fraction
        Pieces in one use.
    unknowns : mapping
        Bounds of every unknown of the masses.
    """

    lots: Mapping[tuple[object, ...], tuple[Lot, Mass]]
    whole: Mass | None
    finished: Range
    piece: Range
    shared_out: bool
    used: Fraction
    unknowns: Mapping[Key, Range]


class Shelves:
    """Tells whether two recipes mean the same thing on the shelf.

    Two shelves may hold equal records (one file, read twice): those are the same
    bottle. Records of the same id that differ are two.
    """

    def __init__(self) -> None:
        self._seen: dict[str, list[Material]] = {}

    def number(self, material: Material) -> int:
        """Return a number that is the same for equal records of one id.

        Parameters
        ----------
        material : Material
            A record of a shelf.
        """
        seen = self._seen.setdefault(material.id, [])
        for n, known in enumerate(seen):
            if known is material or known == material:
                return n
        seen.append(material)
        return len(seen) - 1


def form_of(
    one: Assessment, marked: Marked, number: int, shelves: Shelves
) -> Form | None:
    """Return the load of a recipe as a linear form.

    Parameters
    ----------
    one : Assessment
        The recipe.
    marked : Marked
        What is counted, the same for all recipes that are compared.
    number : int
        Place of the recipe, which tells its own unknowns from those of others.
    shelves : Shelves
        The same for all recipes that are compared.

    Returns
    -------
    Form or None
        ``None`` where it is not known how much one piece weighs.
    """
    totals, working = one.totals, one.working
    piece = totals.piece_mass
    if piece is None:
        return None
    shared_out = totals.recipe.piece_mass is None
    names = _Names(one, number, shelves)
    lots: dict[tuple[object, ...], tuple[Lot, Mass]] = {}
    for traced in total_of(marked, totals).traced:
        lot = _lot(traced, one, marked, names)
        mass = names.renamed(totals.mass_of(traced.mass))
        if lot.key in lots:
            mass = mass + lots[lot.key][1]
        lots[lot.key] = (lot, mass)
    whole = None
    if totals.weighed is None:
        whole = names.renamed(totals.mass_of(totals.finished))
    pieces = totals.recipe.pieces or 1
    return Form(
        lots,
        whole,
        working.range(totals.finished),
        Range.at(Fraction(1, pieces)) if shared_out else working.range(piece),
        shared_out,
        totals.recipe.share_of_piece_used,
        names.unknowns,
    )


class _Names:
    """Gives unknowns that belong to one batch a name of their own."""

    def __init__(self, one: Assessment, number: int, shelves: Shelves) -> None:
        self.bounds = one.working.unknowns
        self.number, self.shelves = number, shelves
        self.shelf = {m.id: m for m in one.case.materials.material}
        self.unknowns: dict[Key, Range] = {}

    def renamed(self, mass: Mass) -> Mass:
        counts = {self._name(key): count for key, count in mass.counts.items()}
        return Mass(mass.fixed, counts)

    def _name(self, key: Key) -> Key:
        name = Key(f"recipe {self.number}/{key}")
        if key.startswith(_SHELF):
            # the same dropper on another shelf is another dropper
            bottle = self.bottle(key.split("/")[1])
            name = name if bottle is None else Key(f"bottle {bottle}/{key}")
        self.unknowns[name] = self.bounds[key]
        return name

    def bottle(self, material: str) -> int | None:
        """Return which record of a material this recipe means."""
        found = self.shelf.get(material)
        return None if found is None else self.shelves.number(found)


# -- one lot ------------------------------------------------------------------


def _lot(traced: Traced, one: Assessment, marked: Marked, names: _Names) -> Lot:
    node, share = traced.node, traced.share
    low, high = _end(one, share.documented, "low"), _end(one, share.most, "high")
    if node.material is None:
        key: tuple[object, ...] = ("mix", names.number, node.id)
        contents: tuple[Content, ...] = (Content(_REST, low, high),)
    else:
        key = ("lot", node.material.id, node.lot, names.bottle(node.material.id))
        if node.leaves is not None:  # how much of it stays belongs to the batch
            key = (*key, names.number, node.leaves)
        contents = _contents(traced, one, marked, low, high)
    marks = one.working.marks(share.most or share.documented or Id(""))
    by_area = Mark.AREA_PERCENT in marks
    return Lot(key, node.says, contents, low, high, by_area)


def _end(one: Assessment, name: Id | None, end: str) -> Fraction:
    if name is None:
        return Fraction(0)
    span = one.working.range(name)
    if end == "low":
        return Fraction(0) if span.low is None else span.low
    return _HUNDRED if span.high is None else span.high


def _contents(
    traced: Traced, one: Assessment, marked: Marked, low: Fraction, high: Fraction
) -> tuple[Content, ...]:
    node, totals = traced.node, one.totals
    material = node.material
    if material is None or material.id in marked.whole:
        return (Content(_REST, low, high),)
    if totals.is_own(node):
        identity = next(iter(totals.shares.lists.identities(node)))
        return (Content(identity, low, high),)
    found: list[Content] = []
    rows = totals.shares.lists.rows(node)
    for identity in sorted(rows):
        span = one.working.range(rows[identity].id)
        top = _HUNDRED if span.high is None else span.high
        if identity in marked.members:
            found.append(Content(identity, span.low or Fraction(0), min(top, high)))
        elif identity in marked.proposed:
            found.append(Content(_REST, Fraction(0), min(top, high)))
    found.append(Content(_REST, Fraction(0), _hidden(traced, one, marked, high)))
    return tuple(found)


def _hidden(
    traced: Traced, one: Assessment, marked: Marked, high: Fraction
) -> Fraction:
    """Return the most that a list may hide of what is marked [%]."""
    lists = one.totals.shares.lists
    absent = marked.members - lists.rows(traced.node).keys()
    cover = lists.cover(traced.node, marked.subject.own, absent) if absent else ()
    if cover is None:
        return high
    ends = (one.working.range(name).high for name in cover)
    return sum((_HUNDRED if end is None else end for end in ends), Fraction(0))
