"""What the papers of one lot say of a capped component, worked out by hand.

Three readings: what is documented, the most that it can be once everything that no
list shows is counted, and the most when published figures are not taken for the
lot's own. Also whether the reading is simple enough that the tool has to give the
very same ends; where several lists or doubled lines speak, it has to hold the truth.
"""

from dataclasses import dataclass
from fractions import Fraction

from tests.blurred.physics import make
from tests.blurred.plan import make_plan
from tests.blurred.said import HUNDRED, ZERO
from tests.blurred.substances import (
    GROUPS,
    NAMES,
    UNKNOWN,
    cas_of,
    identity,
    volatile,
)
from tests.blurred.world import Lot, Material, Paper, Row, World

Ends = tuple[Fraction, Fraction]


@dataclass(frozen=True, slots=True)
class Reading:
    """Ends of the three readings [%]; ``None``: documented as nothing at all."""

    documented: Ends | None
    most: Fraction
    strict: Fraction
    exact: bool = True

    @property
    def is_there(self) -> bool:
        return self.documented is not None or self.most > 0 or self.strict > 0


NOTHING = Reading(None, ZERO, ZERO)


def components(world: World) -> dict[str, str]:
    """Every identity that a paper on the shelf of this recipe names."""
    found: dict[str, str] = {}
    for material, lot in used(world):
        if material.is_one_substance:
            found.setdefault(material.cas or f"material:{material.id}", material.name)
        else:
            for paper in material.papers_of(lot):
                for row in paper.rows:
                    found.setdefault(row.identity, row.name)
    return found


def used(world: World) -> list[tuple[Material, Lot]]:
    """Lots that the recipe holds, diluents and stock blends opened."""
    made = make(world, make_plan(world), world.true.__getitem__)
    return [
        (world.materials[name], world.materials[name].lot(lot))
        for name, lot, _ in made.wet
    ]


def proposals(world: World, own: str, present: dict[str, str]) -> frozenset[str]:
    """Identities in the recipe that may be it, and that nobody has answered for."""
    members, own = world.members(own), world.settled(own)
    related = {group for group, (_, parts) in GROUPS.items() if own in cas_of(parts)}
    if own in GROUPS:
        related |= cas_of(GROUPS[own][1])
    related |= NAMES.get(own.removeprefix("name:"), frozenset())
    found = related & present.keys()
    for one in present:
        meant = world.aliases(one) or NAMES.get(one.removeprefix("name:"), frozenset())
        if one.startswith("name:") and meant & (members | related):
            found.add(one)
        if one in UNKNOWN and not world.aliases(one):
            found.add(one)
    refused = {c.who for c in world.confirmed if not c.same and c.counts_toward == own}
    return frozenset(found - members - refused)


def read(
    world: World, own: str, maybe: frozenset[str], material: Material, lot: Lot
) -> Reading:
    """Read the papers of a lot.

    Only the simple case is read to the end: one list of the lot (a published range
    may stand beside it), in which nothing stands twice.
    """
    members, own = world.members(own), world.settled(own)
    if material.is_one_substance:
        name = material.cas or f"material:{material.id}"
        if name in members:
            return Reading((HUNDRED, HUNDRED), HUNDRED, HUNDRED)
        return Reading(None, HUNDRED, HUNDRED) if name in maybe else NOTHING
    papers = material.papers_of(lot)
    lots_own = [paper for paper in papers if not paper.published]
    simple = len(papers) <= 1 and not any(_doubled(paper) for paper in papers)
    if not simple:
        return Reading((ZERO, HUNDRED), HUNDRED, HUNDRED, exact=False)
    paper = papers[0] if papers else Paper("none", [])
    shown = {row.identity for row in paper.rows}
    inside = [row for row in paper.rows if row.identity in members]
    doubtful = [row for row in paper.rows if row.identity in maybe]
    others = [row for row in paper.rows if row.identity not in members | maybe]
    heavy = lots_own and _weighs_on(paper, world.unaliased(members))
    room = HUNDRED - (_lows(others) if heavy else ZERO)
    documented, shut = _documented(inside, paper, room)
    absent = _absent(own, shown, world)
    high = ZERO if documented is None else documented[1]
    low = ZERO if documented is None else documented[0]
    most = max(room, low)
    bound = _bound(paper, absent, own)
    extra = [_limit(row, paper) for row in doubtful]
    if shut and bound is not None and None not in extra:
        more = sum((limit for limit in extra if limit is not None), ZERO)
        most = max(min(high + bound + more, most), low)
    strict = most
    if paper.published and (inside or doubtful):
        strict = room
    exact = not paper.published or not absent
    return Reading(documented, most, strict, exact)


def _doubled(paper: Paper) -> bool:
    """Whether a constituent stands in a list under two names."""
    seen: set[str] = set()
    for row in paper.rows:
        if row.keys & seen:
            return True
        seen |= row.keys
    return False


def _lows(rows: list[Row]) -> Fraction:
    return sum((row.said.low for row in rows), ZERO)


def _weighs_on(paper: Paper, members: frozenset[str]) -> bool:
    """Whether the other lines leave less room: peak areas only among volatiles."""
    by_area = paper.basis == "area" or (
        paper.basis is None and paper.kind == "full GC-MS"
    )
    return not by_area or all(map(volatile, members))


def _limit(row: Row, paper: Paper) -> Fraction | None:
    """The high end of a line; a bare n.d. takes the limit of its list."""
    if row.said.only_low:
        return None
    if row.said.high is None and row.said.absent and paper.shown_from is not None:
        return paper.shown_from.high
    return row.said.high


def _documented(
    inside: list[Row], paper: Paper, room: Fraction
) -> tuple[Ends | None, bool]:
    """Low and high of what is printed, and whether every line has a high end."""
    low = high = ZERO
    any_figure, shut = False, True
    for row in inside:
        limit = _limit(row, paper)
        if limit is None:
            shut = False
            if not row.said.low:
                continue
            limit = row.said.low
        any_figure = True
        low, high = low + row.said.low, high + limit
    if not any_figure:
        return None, shut
    return (low, max(min(high, room), low)), shut


def _absent(own: str, shown: set[str], world: World) -> frozenset[str]:
    """Substances that count and that the list does not show, by CAS where known.

    A name that is confirmed to be a CAS number is the same substance. A group that
    is not shown itself is accounted for by its parts only where every part counts.
    """
    members = world.members(own)
    if own in shown or world.aliases(own) & shown:
        return frozenset()
    missing = frozenset(
        one
        for one in world.unaliased(members)
        if one not in shown and not world.aliases(one) & shown
    )
    parts = cas_of(GROUPS[own][1]) if own in GROUPS else frozenset()
    return missing - {own} if parts and parts <= members else missing


def _bound(paper: Paper, absent: frozenset[str], own: str) -> Fraction | None:
    """What silence bounds: 0 if nothing is absent, ``None`` if it bounds nothing."""
    if not absent:
        return ZERO
    if not paper.whole or paper.published:
        return None
    if paper.kind == "full GC-MS" and paper.unidentified is not None:
        return paper.unidentified.high if all(map(volatile, absent)) else None
    if paper.covers is None or paper.shown_from is None:
        return None
    limit = paper.shown_from.high
    if own in paper.covers:  # a group that it would have shown: all of it
        return limit
    if not absent <= set(paper.covers):
        return None
    return None if limit is None else limit * len(absent)


__all__ = ["NOTHING", "Reading", "components", "identity", "proposals", "read", "used"]
