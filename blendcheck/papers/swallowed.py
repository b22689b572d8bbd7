"""The sheet for the household, for when somebody ate of a piece.

It gives names, numbers and grams for whoever answers the telephone. It never gives a
threshold, a treatment or a body mass: none of that is for a household to weigh up.
"""

from collections.abc import Iterator, Sequence

from blendcheck.checks.entries import used
from blendcheck.checks.swallowed import InPiece, in_one_piece
from blendcheck.papers.content import (
    Blank,
    Blanks,
    Lines,
    Paper,
    Part,
    Section,
    Table,
)
from blendcheck.papers.kept import KeptCheck, say
from blendcheck.papers.limits import open_line

__all__ = ["swallowed"]

_DIGITS = 3


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
        for caption, is_component in (
            ("sheet.what-went-in", False),
            ("sheet.named-by-papers", True),
        ):
            rows = [one for one in found.holds if one.is_component is is_component]
            if rows:
                yield _table(kept, caption, rows)
    if any(one.dries_off for one in found.holds):
        yield Lines((say("sheet.damp"),))
    if found.not_known:
        values = {"materials": ", ".join(found.not_known)}
        yield Lines((say("sheet.not-all-known", values),), tone="strong")
    still_open = open_line(kept)
    if still_open:
        yield Lines((still_open,))


def _table(kept: KeptCheck, caption: str, rows: Sequence[InPiece]) -> Table:
    heads = (say("heads.what"), say("heads.cas"), say("heads.g-in-piece"))
    cells = tuple(
        (
            f"{_called(one, kept)} *" if one.dries_off else _called(one, kept),
            one.cas,
            kept.grams(one.grams, "", _DIGITS),
        )
        for one in rows
    )
    return Table(say(caption), heads, cells, numbers=(2,))


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
