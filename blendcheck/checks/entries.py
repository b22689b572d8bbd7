"""Which caps speak of a recipe, and what each is compared with."""

from collections.abc import Iterable, Iterator
from fractions import Fraction

from blendcheck.blend.expand import Node
from blendcheck.blend.totals import SubjectTotal, Totals
from blendcheck.checks.case import Case
from blendcheck.checks.judge import cap_percent, judge
from blendcheck.checks.subjects import subject_of
from blendcheck.interval import Range
from blendcheck.quantity import (
    Base,
    CapText,
    Mark,
    NotAdded,
)
from blendcheck.records.finding import Outcome
from blendcheck.records.mass import Key
from blendcheck.records.material import CapEntry, Material
from blendcheck.records.working import Figure, Id

__all__ = [
    "as_added",
    "cap_figure",
    "entries_in_use",
    "is_old",
    "limit_text",
    "mass_marks",
    "outcome_of",
    "total_for",
    "used",
]


def used(totals: Totals) -> dict[str, Material]:
    """Materials in the recipe by id, each once.

    Parameters
    ----------
    totals : Totals
        The totals.
    """
    return {
        node.material.id: node.material
        for node in totals.leaves
        if node.material is not None
    }


def entries_in_use(case: Case) -> tuple[CapEntry, ...]:
    """Caps that speak of this recipe: of its materials, any component, its load.

    Parameters
    ----------
    case : Case
        The case.
    """
    present = used(case.totals)
    everything = (*case.materials.caps(), *case.recipe.cap)
    return tuple(
        entry
        for entry in everything
        if entry.on != "material" or entry.material in present
    )


def is_old(entry: CapEntry, case: Case) -> bool:
    """Whether a cap is of another edition than the one in force.

    Parameters
    ----------
    entry : CapEntry
        The cap.
    case : Case
        The case; its workshop names the editions in force.
    """
    current = case.materials.workshop.current.get(entry.scheme)
    return current is not None and entry.edition != current


def total_for(entry: CapEntry, case: Case, base: Base = Base.FINISHED) -> SubjectTotal:
    """Return the total that a cap is compared with.

    Parameters
    ----------
    entry : CapEntry
        A cap in use.
    case : Case
        The case.
    base : Base, default finished
        What the total is a percent of.
    """
    totals = case.totals
    if entry.on == "load":
        return totals.load(base)
    if entry.on == "component":
        return totals.subject(subject_of(entry, totals), base)
    return totals.material(case.materials.get(entry.material or ""), base)


def cap_figure(entry: CapEntry, case: Case) -> Id:
    """Keep the number of a cap as a figure; no restriction counts as 100 %.

    Parameters
    ----------
    entry : CapEntry
        A cap with a number, or one that states no restriction.
    case : Case
        The case.
    """
    percent = cap_percent(entry.cap)
    number = Fraction(100) if percent is None else percent
    what = entry.material or entry.subject
    key = Key(
        "/".join(("cap", entry.on, what, entry.scheme, entry.edition, entry.category))
        + (f"/{entry.document}" if entry.document else "")
    )
    return Id(
        case.working.add(
            Figure(
                key,
                entry.cap.printed,
                Range.at(number),
                "%",
                f"cap on {entry.name or what}, {limit_text(entry, entry.cap)}",
                document=entry.document,
            )
        )
    )


def limit_text(entry: CapEntry, cap: CapText) -> str:
    """Return a cap as printed, with scheme, edition and category.

    Parameters
    ----------
    entry : CapEntry
        The entry.
    cap : CapText
        Its cap, already read.
    """
    where = [x for x in (entry.scheme, entry.edition) if x]
    if entry.category:
        where.append(f"category {entry.category}")
    printed = cap.printed or "blank"
    return f"{printed} ({', '.join(where)})"


def mass_marks(total: SubjectTotal, case: Case) -> frozenset[Mark]:
    """Return the doubts that weaken a ``within``: a published density in a mass.

    Parameters
    ----------
    total : SubjectTotal
        The percent. Its strict reading takes no composition from a published
        range, so such a mark on it comes from a mass.
    case : Case
        The case.
    """
    return case.working.marks(total.strict) & {Mark.PUBLISHED_NOT_LOT}


def outcome_of(entry: CapEntry, total: SubjectTotal, case: Case) -> Outcome | None:
    """Compare one cap with its total, in every state that a cap can have.

    Parameters
    ----------
    entry : CapEntry
        The cap.
    total : SubjectTotal
        What it is compared with.
    case : Case
        The case.

    Returns
    -------
    Outcome or None
        As :func:`~blendcheck.checks.judge.judge`; what may not be added is ``over``
        where it goes in as itself, and an edition that is no longer in force shows
        neither ``within`` nor that there is no restriction.
    """
    working = case.working
    outcome = judge(
        working.range(total.documented),
        working.range(total.most),
        working.range(total.strict),
        entry.cap,
        mass_marks(total, case),
    )
    added = as_added(entry, total, case) if isinstance(entry.cap, NotAdded) else None
    if added is Outcome.OVER or (added and outcome is not Outcome.OVER):
        outcome = added
    if is_old(entry, case) and outcome in (None, Outcome.WITHIN):
        return Outcome.UNKNOWN
    return outcome


def as_added(entry: CapEntry, total: SubjectTotal, case: Case) -> Outcome | None:
    """Say what follows from a material or a component that goes in as itself.

    Parameters
    ----------
    entry : CapEntry
        A cap on what may not be added.
    total : SubjectTotal
        What it is compared with.
    case : Case
        The case.

    Returns
    -------
    Outcome or None
        ``over`` if it does; ``straddles`` if the amount may also be nothing;
        ``unknown`` if only an unconfirmed match says that it is the same.
    """
    found: Outcome | None = None
    for node, is_sure in _leaves(case.totals.nodes, case):
        if entry.on == "component":
            share = case.totals.shares.of(node, total.subject)
            if not (case.totals.is_own(node) and share.is_there):
                continue
            if share.documented is None:
                found = found or Outcome.UNKNOWN
                continue
        elif node.material is None or node.material.id != entry.material:
            continue
        if is_sure:
            return Outcome.OVER
        found = Outcome.STRADDLES
    return found


def _leaves(
    nodes: Iterable[Node], case: Case, *, is_sure: bool = True
) -> Iterator[tuple[Node, bool]]:
    """Every leaf that can be in the piece, and whether some of it must be."""
    for node in nodes:
        span = Range.at(0) if node.wet is None else case.working.range(node.wet)
        if span.high == 0:
            continue
        sure = is_sure and span.low is not None and (span.low > 0 or span.low_open)
        if node.material is not None:
            yield node, sure
        yield from _leaves(node.inner.values(), case, is_sure=sure)
