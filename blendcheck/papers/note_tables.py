"""The tables of the safety note: masses, contents, figures, papers, sources."""

from dataclasses import replace

from blendcheck import reference
from blendcheck.blend.shares import Subject
from blendcheck.checks import ages, swallowed
from blendcheck.papers.content import Lines, Part, Table
from blendcheck.papers.kept import KeptCheck, joined, say
from blendcheck.quantity import Base
from blendcheck.records.material import Material

__all__ = [
    "age_lines",
    "components",
    "documents",
    "figures",
    "lines",
    "masses",
    "sources",
    "thresholds",
]

_DIGITS = 4


_SIGNS = {"=": "", "<=": "≤", ">=": "≥", "~": "about"}
"""How the signs of the tables are printed."""


def _heads(*names: str) -> tuple[str, ...]:
    return tuple(say(f"heads.{name}") for name in names)


def _without_blank(table: Table) -> Table:
    """Leave out the columns in which nothing stands."""
    kept = [
        n
        for n in range(len(table.heads))
        if n == 0 or any(row[n] for row in table.rows)
    ]

    def moved(columns: tuple[int, ...]) -> tuple[int, ...]:
        return tuple(kept.index(n) for n in columns if n in kept)

    return replace(
        table,
        heads=tuple(table.heads[n] for n in kept),
        rows=tuple(tuple(row[n] for n in kept) for row in table.rows),
        numbers=moved(table.numbers),
        wide=moved(table.wide),
    )


def masses(kept: KeptCheck) -> Table:
    """Return the masses of the batch.

    Parameters
    ----------
    kept : KeptCheck
        The snapshot.
    """
    totals = kept.assessment.totals
    pieces, _ = totals.pieces()
    rows = (
        (say("heads.wet"), kept.grams(totals.whole(Base.WET))),
        (say("heads.dry"), kept.grams(totals.expansion.expected)),
        (say("heads.finished-used"), kept.grams(totals.finished)),
        (say("heads.piece"), kept.grams(totals.piece_mass)),
        (say("heads.pieces"), "" if pieces is None else str(pieces)),
        (say("heads.per-use"), kept.recipe.pieces_per_use),
    )
    return Table(say("heads.masses"), _heads("what", "value"), rows, numbers=(1,))


def lines(kept: KeptCheck) -> Table:
    """Return every line in percent of each base, and in grams.

    Parameters
    ----------
    kept : KeptCheck
        The snapshot.
    """
    totals = kept.assessment.totals
    bases = (Base.FINISHED, Base.WET, totals.powder_base)
    rows = []
    for one in totals.lines():
        shares = [
            kept.grams(totals.leaf(one.node, base).span, "", _DIGITS)
            if totals.has(base)
            else ""
            for base in bases
        ]
        own = totals.leaf(one.node)
        grams = (totals.per_piece(own), totals.per_use(own))
        rows.append((one.node.says, *shares, *(kept.grams(g, "") for g in grams)))
    heads = _heads("what", "of-finished", "of-wet")
    powders = say("heads.of-base", {"base": str(totals.powder_base)})
    return Table(
        say("heads.lines"),
        (*heads, powders, *_heads("g-in-piece", "g-in-use")),
        tuple(rows),
        numbers=(1, 2, 3, 4, 5),
    )


def components(kept: KeptCheck) -> tuple[Part, ...]:
    """Return every component that a paper names, low to high.

    Parameters
    ----------
    kept : KeptCheck
        The snapshot.
    """
    totals = kept.assessment.totals
    rows = []
    for identity, name in totals.components.items():
        found = totals.subject(Subject(name, identity, frozenset({identity})))
        marks = ", ".join(sorted(totals.working.marks(found.span)))
        rows.append(
            (
                name,
                "" if ":" in identity else identity,
                kept.grams(found.span, "", _DIGITS),
                kept.grams(totals.per_piece(found), "", _DIGITS),
                marks,
            )
        )
    heads = _heads("what", "cas", "of-finished", "g-in-piece", "doubts")
    table = Table(
        say("heads.components"), heads, tuple(rows), numbers=(2, 3), wide=(0, 4)
    )
    return (_without_blank(table),)


# -- from the tables -----------------------------------------------------------


def age_lines(kept: KeptCheck) -> tuple[Part, ...]:
    """Return every published line of age for what is in it.

    Parameters
    ----------
    kept : KeptCheck
        The snapshot.
    """
    rows = tuple(
        (one.about, one.says, one.source, one.tag)
        for one in ages.age_lines(kept.assessment.case)
    )
    if not rows:
        return ()
    heads = _heads("of-what", "says", "source", "read")
    table = Table(say("heads.ages"), heads, tuple(dict.fromkeys(rows)), wide=(0, 1))
    return (Lines((say("sheet.age-lines"),), tone="strong"), table)


def thresholds(kept: KeptCheck) -> tuple[Part, ...]:
    """Return what is published on swallowing what is in it.

    Parameters
    ----------
    kept : KeptCheck
        The snapshot.
    """
    rows = tuple(
        (
            row.substance,
            row.says,
            _threshold(row),
            row.source_id,
            row.tag,
        )
        for row in swallowed.thresholds(kept.assessment.case)
    )
    if not rows:
        return ()
    heads = _heads("of-what", "says", "figure", "source", "read")
    table = Table(say("heads.thresholds"), heads, rows, wide=(1,))
    return (Lines((say("sheet.thresholds"),), tone="strong"), table)


def _threshold(row: reference.Swallowing) -> str:
    sign = _SIGNS.get(row.qualifier, row.qualifier)
    unit = row.printed_unit.replace("ug/", "µg/")
    return f"{sign} {row.printed_value} {unit}".strip()


# -- what was entered ------------------------------------------------------------


def figures(kept: KeptCheck) -> Table:
    """Return every figure that was entered, as printed.

    Parameters
    ----------
    kept : KeptCheck
        The snapshot.
    """
    rows = tuple(
        (
            figure.says,
            figure.printed,
            figure.basis or "",
            figure.document or "",
            ", ".join(sorted(figure.marks)),
        )
        for figure in kept.assessment.working.figures.values()
        if figure.key != "hundred"
    )
    heads = _heads("what", "as-printed", "basis", "paper", "doubts")
    return _without_blank(Table(say("heads.figures"), heads, rows, wide=(0, 3, 4)))


def _materials(kept: KeptCheck) -> tuple[Material, ...]:
    found = {
        node.material.id: node.material
        for node in kept.assessment.totals.leaves
        if node.material is not None
    }
    return tuple(found.values())


def documents(kept: KeptCheck) -> tuple[Part, ...]:
    """Return the papers that are held, and the materials without one.

    Parameters
    ----------
    kept : KeptCheck
        The snapshot.
    """
    rows = []
    none: list[str] = []
    for material in _materials(kept):
        if not material.document:
            none.append(material.name)
        for paper in material.document:
            rows.append(
                (
                    material.name,
                    paper.id,
                    paper.kind,
                    paper.issuer or material.supplier,
                    "" if paper.date is None else paper.date.printed,
                    paper.edition,
                    paper.lot or "",
                )
            )
    heads = _heads("of-what", "paper", "kind", "issuer", "date", "edition", "lot")
    table = Table(say("heads.papers-held"), heads, tuple(rows), wide=(0, 1, 2, 3, 5, 6))
    parts: list[Part] = [_without_blank(table)]
    if none:
        parts.append(Lines((say("sheet.no-paper", {"materials": joined(none)}),)))
    return tuple(parts)


def sources(kept: KeptCheck) -> tuple[Part, ...]:
    """Return the published sources that the note names.

    Parameters
    ----------
    kept : KeptCheck
        The snapshot.
    """
    case = kept.assessment.case
    named: dict[str, None] = {}
    for finding in kept.assessment.findings:
        named.update(dict.fromkeys(finding.source.split(", ")))
        for estimate in finding.estimates:
            named.update(dict.fromkeys(estimate.sources))
    named.update(dict.fromkeys(one.source for one in ages.age_lines(case)))
    named.update(dict.fromkeys(row.source_id for row in swallowed.thresholds(case)))
    known = reference.sources()
    rows = tuple((name, _cited(known[name])) for name in sorted(named) if name in known)
    return (Table(say("heads.sources"), _heads("source", "citation"), rows, wide=(1,)),)


def _cited(source: reference.Source) -> str:
    """Return where it is printed, with its edition where one is stated."""
    citation = source.citation.strip(" .")
    edition = source.edition.strip(" .")
    if edition in ("", "not stated") or edition in citation:
        return citation
    return f"{citation}. {edition}"
