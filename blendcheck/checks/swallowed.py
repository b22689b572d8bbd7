"""What is in one piece, for whoever answers the telephone when somebody ate of it.

Names, CAS numbers and grams, with bicarbonate and alcohol: no threshold, no treatment,
no body mass. What is published about doses is apart from it, for the maker's own file.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from blendcheck import reference
from blendcheck.blend.shares import Subject
from blendcheck.checks.case import Case
from blendcheck.checks.contents import undocumented
from blendcheck.checks.entries import used
from blendcheck.interval import Range
from blendcheck.quantity import Base, print_range
from blendcheck.records.finding import Finding, Say
from blendcheck.records.material import Material
from blendcheck.records.working import Id
from blendcheck.reference import Swallowing

__all__ = ["InPiece", "Swallowed", "check", "in_one_piece", "thresholds"]


@dataclass(frozen=True, slots=True)
class InPiece:
    """One thing in one piece.

    Parameters
    ----------
    name : str
        What it is called on the shelf or on a paper.
    cas : str
        Its CAS number; empty where none is entered.
    grams : Id
        Step of its grams in one piece, low to high. [g]
    held : Range
        The same as a range. [g]
    is_component : bool
        Whether it is a component that papers name, and so part of a material that
        stands in the list as well.
    dries_off : bool
        Whether some of it leaves as the piece dries: a damp piece holds more.
    undried : Fraction or None
        The most of it in a piece that has not dried at all [g]; ``None`` for what
        does not dry off, and where nothing bounds it.
    """

    name: str
    cas: str
    grams: Id
    held: Range
    is_component: bool
    dries_off: bool
    undried: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Swallowed:
    """What one piece holds.

    Parameters
    ----------
    piece : Id or None
        Step of the mass of one piece [g]; ``None`` if it is not known.
    holds : tuple of InPiece
        Materials, then components, the most first; empty without a piece mass.
    not_known : tuple of str
        Scented materials whose papers do not show all that is in them.
    """

    piece: Id | None
    holds: tuple[InPiece, ...]
    not_known: tuple[str, ...]


def in_one_piece(case: Case) -> Swallowed:
    """List everything in one piece with its grams.

    Parameters
    ----------
    case : Case
        The case.

    Returns
    -------
    Swallowed
        What the household sheet prints. It holds nothing on doses.
    """
    blind = undocumented(case)
    if case.totals.piece_mass is None:
        return Swallowed(None, (), blind)
    materials = sorted(_materials(case), key=_most_first)
    components = sorted(_components(case), key=_most_first)
    return Swallowed(case.totals.piece_mass, (*materials, *components), blind)


def _most_first(one: InPiece) -> tuple[bool, object, str]:
    high = one.held.high
    return (high is not None, -(high or 0), one.name.casefold())


def _materials(case: Case) -> Iterator[InPiece]:
    totals = case.totals
    drying = {
        node.material.id
        for node in totals.leaves
        if node.material is not None and node.leaves is not None
    }
    for material in used(totals).values():
        grams = totals.per_piece(totals.material(material))
        if grams is not None:
            held = case.working.range(grams)
            dries = material.id in drying
            cas = material.cas or ""
            yield InPiece(
                material.name,
                cas,
                grams,
                held,
                is_component=False,
                dries_off=dries,
                undried=_undried(case, material) if dries else None,
            )


def _undried(case: Case, material: Material) -> Fraction | None:
    """Return the most grams in one piece while nothing has left it yet.

    What went into the batch, shared out like the finished mass; each end is taken
    so that the result is never too low.
    """
    totals, working = case.totals, case.working
    put_in = working.range(totals.batch_grams(totals.material(material, Base.WET)))
    piece = None if totals.piece_mass is None else working.range(totals.piece_mass)
    batch = working.range(totals.finished)
    if piece is None or put_in.high is None or piece.high is None or not batch.low:
        return None
    return put_in.high * piece.high / batch.low


def _components(case: Case) -> Iterator[InPiece]:
    totals = case.totals
    own = {material.cas for material in used(totals).values()}
    own |= {f"material:{name}" for name in used(totals)}
    for identity, name in totals.components.items():
        if identity in own:
            continue
        total = totals.subject(Subject(name, identity, frozenset({identity})))
        grams = totals.per_piece(total)
        if grams is not None:
            cas = identity if reference.check_digit_ok(identity) else ""
            held = case.working.range(grams)
            yield InPiece(name, cas, grams, held, is_component=True, dries_off=False)


def thresholds(case: Case) -> tuple[Swallowing, ...]:
    """Return what is published on swallowing what is in the recipe.

    For the maker's own safety note only, each row with its source: it never stands on
    a sheet for a household, where any swallowing by a child is a call.

    Parameters
    ----------
    case : Case
        The case.

    Returns
    -------
    tuple of Swallowing
        Rows of the table, for what a paper or the name of an oil shows.
    """
    numbers: set[str] = set()
    oils: set[str] = set()
    for identity in case.totals.components:
        if reference.check_digit_ok(identity):
            numbers |= reference.numbers_answering(identity)
    for material in used(case.totals).values():
        if material.cas is not None:
            numbers.add(material.cas)
        for text in (material.name, material.botanical, material.cas):
            oils |= set(reference.oils_named(text)) if text else set()
    if "wintergreen" in oils or "sweet birch" in oils:
        numbers.add("119-36-8")
    return tuple(
        row for row in reference.swallowing() if _speaks_of(row, numbers, oils)
    )


def _speaks_of(row: Swallowing, numbers: set[str], oils: set[str]) -> bool:
    if row.cas:
        return row.cas in numbers
    if row.substance.startswith("salicylate"):
        return "119-36-8" in numbers
    return any(row.substance == f"{oil} oil" for oil in oils)


def check(case: Case) -> Iterator[Finding]:
    """State what one piece holds, material by material.

    Parameters
    ----------
    case : Case
        The case.

    Yields
    ------
    Finding
        One fact; the components stand on the sheet itself.
    """
    found = in_one_piece(case)
    if found.piece is None:
        yield Finding(
            kind="fact",
            check="swallowed",
            subject="one piece",
            why=Say("swallowed.no-piece"),
            ask=(Say("people.ask-piece"),),
        )
        return
    also = [
        Say(
            "swallowed.damp" if one.dries_off else "swallowed.holds",
            {
                "name": one.name + (f" ({one.cas})" if one.cas else ""),
                "grams": print_range(one.held, "g", digits=3),
            },
        )
        for one in found.holds
        if not one.is_component
    ]
    if found.not_known:
        values = {"materials": ", ".join(found.not_known)}
        also.append(Say("swallowed.not-known", values))
    grams = print_range(case.working.range(found.piece), "g", digits=3)
    yield Finding(
        kind="fact",
        check="swallowed",
        subject="one piece",
        why=Say("swallowed.piece", {"grams": grams}),
        also=tuple(also),
        value=found.piece,
        unit="g",
    )
