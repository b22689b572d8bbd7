"""The sheet for the household, for when somebody ate of a piece.

It gives names, numbers and grams for whoever answers the telephone. It never gives a
threshold, a treatment or a body mass: none of that is for a household to weigh up.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from blendcheck.checks.entries import used
from blendcheck.checks.swallowed import InPiece, in_one_piece
from blendcheck.interval import Range
from blendcheck.papers.content import (
    Blank,
    Blanks,
    Lines,
    Paper,
    Part,
    Section,
    Table,
)
from blendcheck.papers.kept import KeptCheck, joined, say
from blendcheck.papers.limits import open_line
from blendcheck.quantity import print_number, print_range, round_outward

__all__ = ["swallowed"]

_DIGITS = 3
"""Significant digits of what is known exactly; of a range two can be said on the
telephone."""

_HARDLY_ANY = Fraction(1, 1000)
"""Components that are below this stand together in one line. [g]"""


def swallowed(kept: KeptCheck) -> Paper:
    """Make the sheet.

    Parameters
    ----------
    kept : KeptCheck
        The snapshot.

    Returns
    -------
    Paper
        Whom to call, and what is in one piece, with CAS numbers and grams.
    """
    call = (
        Lines((say("sheet.call-now"),), tone="lead"),
        Lines((say("sheet.call-why"),)),
        Blanks(
            (
                Blank(say("heads.poison-line"), kept.workshop.poison_line),
                Blank(say("heads.emergency")),
            )
        ),
        Lines((say("sheet.tell"), say("sheet.have-here"))),
        Blanks(
            tuple(
                Blank(say(f"heads.{name}"))
                for name in ("who-ate", "how-much-gone", "when-eaten")
            )
        ),
    )
    sections = (
        Section("", call),
        Section(say("heads.in-piece"), tuple(_contents(kept))),
    )
    return kept.paper("swallowed", say("heads.swallowed"), sections)


def _contents(kept: KeptCheck) -> Iterator[Part]:
    case = kept.assessment.case
    found = in_one_piece(case)
    if kept.title != kept.name:
        yield Blanks((Blank(say("heads.name-on-it"), kept.title),))
    if found.piece is None:
        yield Lines((say("sheet.piece-not-known"),), tone="strong")
        yield _without_grams(kept)
    else:
        piece = Blank(say("heads.piece"), kept.grams(found.piece))
        yield Blanks((piece,))
        yield from _held(kept, found.holds)
    if found.not_known:
        values = {"materials": joined(found.not_known)}
        yield Lines((say("sheet.not-all-known", values),), tone="strong")
    still_open = open_line(kept)
    if still_open:
        yield Lines((still_open,))


def _held(kept: KeptCheck, holds: Sequence[InPiece]) -> Iterator[Part]:
    materials = [one for one in holds if not one.is_component]
    components = [one for one in holds if one.is_component]
    yield _table(kept, "sheet.what-went-in", materials)
    if any(one.dries_off for one in materials):
        yield Lines((say("sheet.damp"),))
    more = [one for one in components if not _is_hardly_any(one)]
    if more:
        yield _table(kept, "sheet.named-by-papers", more)
    few = [f"{one.name} {one.cas}".strip() for one in components if _is_hardly_any(one)]
    if few:
        yield Lines((say("sheet.hardly-any", {"names": joined(few)}),))


def _is_hardly_any(one: InPiece) -> bool:
    return one.held.high is not None and one.held.high < _HARDLY_ANY


def _table(kept: KeptCheck, caption: str, rows: Sequence[InPiece]) -> Table:
    heads = (say("heads.what"), say("heads.cas"), say("heads.g-in-piece"))
    cells = tuple(
        (
            f"{_called(one, kept)} *" if one.dries_off else _called(one, kept),
            one.cas,
            _grams(one),
        )
        for one in rows
    )
    return Table(say(caption), heads, cells, numbers=(2,))


def _grams(one: InPiece) -> str:
    """Return what a dry piece holds, and a damp one where that is more."""
    held = one.held if one.held.is_exact else _outward(one.held)
    dry = print_range(held, digits=_DIGITS)
    if one.undried is None:
        return dry
    damp = _outward(Range(Fraction(0), one.undried)).high or one.undried
    return say(
        "heads.dry-or-damp", {"dry": dry, "damp": print_number(damp, digits=_DIGITS)}
    )


def _outward(held: Range) -> Range:
    """Round each end outward to two significant digits, or to whole grams."""
    low, high = held.low, held.high
    return Range(
        low if low is None else round_outward(Range.at(low), _step(low)).low,
        high if high is None else round_outward(Range.at(high), _step(high)).high,
    )


def _step(grams: Fraction) -> Fraction:
    step = Fraction(1)
    while 0 < grams < 10 * step:
        step /= 10
    return step


def _without_grams(kept: KeptCheck) -> Table:
    """Return names and numbers where it is not known what a piece weighs."""
    totals = kept.assessment.totals
    materials = used(totals).values()
    rows = {(one.name, one.cas or "") for one in materials}
    rows |= {
        (name, "" if ":" in identity else identity)
        for identity, name in totals.components.items()
    }
    heads = (say("heads.what"), say("heads.cas"))
    return Table(say("sheet.what-went-in"), heads, tuple(sorted(rows)))


def _called(one: InPiece, kept: KeptCheck) -> str:
    """Return a material with its botanical or INCI name behind it."""
    if one.is_component:
        return one.name
    for material in used(kept.assessment.totals).values():
        other = material.botanical or material.inci
        if material.name == one.name and other.casefold() not in (
            "",
            one.name.casefold(),
        ):
            return f"{one.name} ({other})"
    return one.name
