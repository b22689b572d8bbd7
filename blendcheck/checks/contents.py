"""What is in the piece that calls for a caution, and how many grams of it.

What a paper does not show is not thereby absent: an oil without a full report calls
for the cautions because it is not known what is in it.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from blendcheck.blend.expand import Node
from blendcheck.blend.shares import Subject
from blendcheck.blend.totals import SubjectTotal
from blendcheck.checks.case import Case, Watch
from blendcheck.checks.entries import used
from blendcheck.checks.subjects import subject_of
from blendcheck.quantity import Base, print_range
from blendcheck.records.finding import Finding, Say
from blendcheck.records.material import CapEntry, Material
from blendcheck.records.working import Id

__all__ = [
    "TRACKED",
    "Reasons",
    "counted_together",
    "facts",
    "grams_in_piece",
    "is_slippery",
    "looked_up",
    "papers_show_contents",
    "reasons",
    "tracked",
    "undocumented",
]

TRACKED: tuple[tuple[str, str], ...] = (
    ("menthol, all its forms", "1490-04-6"),
    ("1,8-cineole (eucalyptol)", "470-82-6"),
    ("camphor, all its forms", "76-22-2"),
    ("methyl salicylate", "119-36-8"),
)
"""Constituents whose grams are shown from all sources, with their CAS numbers."""

_OILY = frozenset(
    {"essential oil", "fragrance oil", "absolute", "carrier", "soaping oil"}
)
_CLAYS = ("clay", "kaolin", "bentonite", "montmorillonite", "illite", "rhassoul")
_SLIPPERY = frozenset({"shower tablet", "bath fizz", "other"})


@dataclass(slots=True)
class Reasons:
    """Why one caution applies.

    Parameters
    ----------
    what : dict
        Names of oils and constituents that call for it, in order.
    watches : dict
        The rows that say so.
    """

    what: dict[str, None] = field(default_factory=dict)
    watches: dict[Watch, None] = field(default_factory=dict)

    @property
    def source(self) -> str:
        """Source ids, each once."""
        return ", ".join(dict.fromkeys(watch.source for watch in self.watches))


# -- what calls for a caution ----------------------------------------------


def reasons(case: Case) -> dict[str, Reasons]:
    """Collect what in the recipe calls for which caution.

    Parameters
    ----------
    case : Case
        The case.

    Returns
    -------
    dict
        By the reason of the table of cautions. A material that the maker entered
        as not phototoxic is not called so by its name, but still by a constituent.
    """
    found: dict[str, Reasons] = {}
    for node in case.totals.leaves:
        for text, shown, by_name in looked_up(node):
            for watch in case.watch(text):
                material = node.material
                denied = material is not None and material.phototoxic == "no"
                if watch.reason == "phototoxic" and by_name and denied:
                    continue
                reason = found.setdefault(watch.reason, Reasons())
                reason.what.setdefault(shown)
                reason.watches.setdefault(watch)
    return found


def looked_up(node: Node) -> Iterator[tuple[str, str, bool]]:
    """Yield texts to look up: what it is, how to show it, whether it names the oil.

    Parameters
    ----------
    node : Node
        A leaf.
    """
    material = node.material
    if material is None:
        return
    for text in (material.name, material.botanical, material.inci, material.cas):
        if text:
            yield text, material.name, True
    for composition in material.lists(node.lot):
        for row in composition.row:
            if row.share.detected:
                yield row.cas or row.name, f"{row.name} in {material.name}", False


def papers_show_contents(node: Node, case: Case) -> bool:
    """Whether the papers of a leaf show what is in it.

    Parameters
    ----------
    node : Node
        A leaf.
    case : Case
        The case.

    Returns
    -------
    bool
        For a single substance, and for a full report that was copied whole.
    """
    if node.material is None or case.totals.is_own(node):
        return True
    return any(
        made.kind == "full GC-MS" and made.copied_whole
        for made in node.material.lists(node.lot)
    )


def undocumented(case: Case) -> tuple[str, ...]:
    """Name the scented materials of which it is not known what is in them.

    Parameters
    ----------
    case : Case
        The case.
    """
    return tuple(
        dict.fromkeys(
            node.says
            for node in case.totals.leaves
            if node.material is not None
            and node.material.is_scented
            and not papers_show_contents(node, case)
        )
    )


# -- grams -----------------------------------------------------------------


def tracked(name: str, cas: str, case: Case) -> Subject:
    """Return a constituent with all its forms, as what is counted together.

    Parameters
    ----------
    name : str
        What to call it.
    cas : str
        Its CAS number, or that of its group.
    case : Case
        The case.

    Returns
    -------
    Subject
        Its isomers count with it. A form that a list prints beside its own parts
        only may count, so that nothing is counted twice.
    """
    return counted_together(name, cas, {cas}, case)


def counted_together(name: str, own: str, forms: Iterable[str], case: Case) -> Subject:
    """Return several forms, each with its isomers, as one subject.

    Parameters
    ----------
    name : str
        What to call it.
    own : str
        Identity that stands for the whole.
    forms : iterable of str
        CAS numbers that count, also numbers of groups.
    case : Case
        The case.

    Returns
    -------
    Subject
        A form that a list prints beside its own parts only may count.
    """
    totals = case.totals
    members: set[str] = set()
    proposed: set[str] = set()
    wanted = {part for one in forms for part in (one, *totals.knowledge.parts_of(one))}
    for form in wanted:
        entry = CapEntry(on="component", name=name, cas=form, scheme="-")
        subject = subject_of(entry, totals)
        members |= subject.members
        proposed |= subject.proposed
    doubled = {
        identity
        for node in totals.leaves
        for rows in (_rows(node),)
        for identity in rows & members
        if totals.knowledge.parts_of(identity) & rows - {identity}
    }
    return Subject(
        name, own, frozenset(members - doubled), frozenset(proposed - members | doubled)
    )


def _rows(node: Node) -> frozenset[str]:
    """Identities that the lists of a leaf print."""
    if node.material is None:
        return frozenset()
    return frozenset(
        row.identity for made in node.material.lists(node.lot) for row in made.row
    )


def grams_in_piece(total: SubjectTotal, case: Case) -> str | None:
    """Print the grams of a total in one piece.

    Parameters
    ----------
    total : SubjectTotal
        A total of the finished product.
    case : Case
        The case.

    Returns
    -------
    str or None
        ``None`` if it is not known how much a piece weighs.
    """
    step = case.totals.per_piece(total)
    return None if step is None else _grams(step, case)


def _grams(step: Id, case: Case) -> str:
    return print_range(case.working.range(step), "g", digits=3)


def facts(case: Case) -> Iterator[Finding]:
    """State the grams in one piece and in one use.

    Parameters
    ----------
    case : Case
        The case.

    Yields
    ------
    Finding
        Facts: menthol, cineole, camphor, methyl salicylate and what the maker
        marked as an irritant, from all sources, where a paper shows them; each
        scented material; what makes a floor slippery.
    """
    totals = case.totals
    if totals.piece_mass is None:
        return
    for name, cas in _flagged(case):
        total = totals.subject(tracked(name, cas, case))
        if case.working.range(total.documented).high:
            yield from _fact(total, case)
    for material in used(totals).values():
        if material.is_scented:
            yield from _fact(totals.material(material), case)
    if case.recipe.product in _SLIPPERY:
        for name, wanted in _SLIP:
            total = totals.kinds(name, wanted)
            if total.traced:
                yield from _fact(total, case)


def _flagged(case: Case) -> Iterator[tuple[str, str]]:
    """Yield what is tracked, and what the maker marked, each once."""
    yield from TRACKED
    seen = {cas for _, cas in TRACKED}
    seen |= {part for one in seen for part in case.totals.knowledge.parts_of(one)}
    for material in used(case.totals).values():
        for cas in material.irritant:
            if cas not in seen:
                seen.add(cas)
                yield case.totals.components.get(cas, cas), cas


def _fact(total: SubjectTotal, case: Case) -> Iterator[Finding]:
    totals, name = case.totals, total.subject.name
    each = [("people.grams-piece", totals.per_piece(total))]
    if case.recipe.pieces_per_use != "1":
        each.append(("people.grams-use", totals.per_use(total)))
    if case.recipe.pieces_given not in (None, 1):
        each.append(("people.grams-given", totals.per_person(total)))
    for code, step in each:
        if step is None:
            continue
        values = {
            "subject": name,
            "grams": _grams(step, case),
            "pieces": case.recipe.pieces_per_use,
            "given": str(case.recipe.pieces_given),
        }
        yield Finding(
            kind="fact",
            check="people",
            subject=name,
            why=Say(code, values),
            value=step,
            unit="g",
            base=Base.FINISHED,
            marks=case.working.marks(step),
        )


def _is_oily(material: Material) -> bool:
    return material.kind in _OILY


def _is_emulsifier(material: Material) -> bool:
    return material.kind == "emulsifier"


def _is_clay(material: Material) -> bool:
    text = f"{material.name} {material.inci}".casefold()
    return material.kind == "solid" and any(clay in text for clay in _CLAYS)


_SLIP = (
    ("oily matter", _is_oily),
    ("emulsifiers", _is_emulsifier),
    ("clay", _is_clay),
)


def is_slippery(material: Material) -> bool:
    """Whether a material makes a wet floor slippery.

    Parameters
    ----------
    material : Material
        Oil, emulsifier or clay.
    """
    return any(wanted(material) for _, wanted in _SLIP)
