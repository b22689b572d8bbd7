"""The safety note for the maker's file: everything, with its sources."""

from collections.abc import Iterable, Iterator

from blendcheck.papers.content import Lines, Paper, Part, Section, Table
from blendcheck.papers.kept import KeptCheck, say
from blendcheck.papers.limits import (
    finding_lines,
    head_of,
    open_causes,
    outcome_word,
    reason_for,
)
from blendcheck.papers.note_estimates import estimates_said, estimates_table
from blendcheck.papers.note_tables import (
    age_lines,
    components,
    documents,
    figures,
    lines,
    masses,
    sources,
    thresholds,
)
from blendcheck.records.finding import Finding, Outcome

__all__ = ["note"]

_TABLES_OF_THEIR_OWN = frozenset({"ages", "swallowed"})
"""Checks whose facts stand in a table of the note already."""


def note(kept: KeptCheck) -> Paper:
    """Make the safety note.

    Parameters
    ----------
    kept : KeptCheck
        The snapshot.

    Returns
    -------
    Paper
        What decides comes first: limits that are over or open, the maker's reasons,
        what to ask, cautions. Then what is within, facts, masses and contents, what
        a label needs, estimates, lines of age and thresholds, every figure entered,
        and the sources.
    """
    made = (
        Section("", (Lines((_overall(kept),), tone="strong"), _basis(kept))),
        *_decided(kept),
        Section(say("heads.reasons"), _reasons(kept)),
        Section(say("heads.unknown"), _unknown(kept)),
        Section(say("heads.cautions"), _told(kept.told("caution"))),
        *_not_open(kept),
        Section(say("heads.facts"), _told(kept.told("fact"))),
        Section(say("heads.masses"), (masses(kept), lines(kept))),
        Section(say("heads.components"), components(kept)),
        Section(say("heads.for-label"), _told(kept.assessment.label)),
        Section(say("heads.estimates"), _told(kept.assessment.estimates)),
        Section(say("heads.ages"), age_lines(kept)),
        Section(say("heads.thresholds"), thresholds(kept)),
        Section(say("heads.figures"), (figures(kept),)),
        Section(say("heads.papers-held"), documents(kept)),
        Section(say("heads.sources"), sources(kept)),
    )
    filled = tuple(one for one in made if _has_something(one))
    return kept.paper("note", say("heads.note"), filled)


def _has_something(section: Section) -> bool:
    return any(
        bool(part.rows) if isinstance(part, Table) else bool(part.items)
        for part in section.parts
    )


def _overall(kept: KeptCheck) -> str:
    return say(f"overall.{kept.assessment.outcome}")


def _basis(kept: KeptCheck) -> Lines:
    recipe = kept.recipe
    said = [
        say(
            "sheet.category-by",
            {
                "scheme": one.scheme,
                "category": one.category,
                "said_by": one.said_by,
                "on": one.on.printed,
            },
        )
        for one in recipe.category
    ]
    return Lines(
        (
            say(
                "sheet.product",
                {
                    "product": recipe.product,
                    "contact": recipe.contact or say("heads.not-said"),
                    "channel": recipe.channel or say("heads.not-said"),
                },
            ),
            *(said or [say("sheet.category-none")]),
            say("sheet.order"),
        )
    )


# -- limits ------------------------------------------------------------------


def _decided(kept: KeptCheck) -> Iterator[Section]:
    """Return what is over and what is open; that nothing counts is open too."""
    unsettled = (Outcome.STRADDLES, Outcome.UNKNOWN)
    if not kept.counting:
        yield Section(say("heads.limits"), (Lines((say("sheet.limits-none"),)),))
    for title, outcomes in (
        ("heads.stops", (Outcome.OVER,)),
        ("heads.open", unsettled),
    ):
        found = [f for f in kept.counting if f.outcome in outcomes]
        yield Section(say(title), tuple(_parts(found)))


def _not_open(kept: KeptCheck) -> Iterator[Section]:
    """Return what is within, and what stands under other categories."""
    found = [f for f in kept.counting if f.outcome is Outcome.WITHIN]
    yield Section(say("heads.within"), tuple(_parts(found)))
    rows = tuple(
        (
            f.subject,
            f.limit,
            kept.grams(f.value, f.unit),
            outcome_word(f),
        )
        for f in kept.assessment.findings
        if f.kind == "limit" and not f.counts
    )
    heads = ("heads.what", "heads.limit", "heads.worked-out", "heads.outcome")
    table = Table(
        say("heads.others-caption"), tuple(map(say, heads)), rows, wide=(0, 1)
    )
    yield Section(say("heads.others"), (table,))


def _parts(found: Iterable[Finding]) -> Iterator[Part]:
    for finding in found:
        yield Lines((head_of(finding),), tone="strong")
        asks = tuple(say(one.code, one.values) for one in finding.ask)
        yield Lines((" ".join(finding_lines(finding)),))
        if asks:
            yield Lines(asks, form="list")


def _reasons(kept: KeptCheck) -> tuple[Part, ...]:
    causes = open_causes(kept.assessment.findings)
    given = {one: reason_for(one, kept) for one in causes if reason_for(one, kept)}
    if given:
        rows = tuple(f"{about}: {says}" for about, says in given.items())
        return (Lines((say("sheet.reasons-why"),)), Lines(rows, form="list"))
    if causes and kept.recipe.channel != "gift":
        return (Lines((say("sheet.reasons-none"),)),)
    return ()


def _unknown(kept: KeptCheck) -> tuple[Part, ...]:
    """Return what to ask, the most telling first, each once."""
    asks: dict[str, None] = {}
    for finding in (*kept.open, *kept.told("caution"), *kept.assessment.label):
        for one in finding.ask:
            asks.setdefault(say(one.code, one.values))
    return (Lines(tuple(asks), form="list"),)


# -- facts and cautions --------------------------------------------------------


def _told(findings: Iterable[Finding]) -> tuple[Part, ...]:
    """Write findings: short ones as a list, long ones under their first sentence."""
    parts: list[Part] = []
    short: list[str] = []
    for finding in findings:
        if finding.check in _TABLES_OF_THEIR_OWN:
            continue
        first, rest = say(finding.why.code, finding.why.values), _rest(finding)
        if not finding.also and not estimates_table(finding.estimates):
            short.append(" ".join((first, *rest)))
            continue
        if short:
            parts.append(Lines(tuple(short), form="list"))
            short = []
        parts.append(Lines((first,), tone="strong"))
        if rest:
            parts.append(Lines((" ".join(rest),)))
        parts += estimates_table(finding.estimates)
    if short:
        parts.append(Lines(tuple(short), form="list"))
    return tuple(parts)


def _rest(finding: Finding) -> tuple[str, ...]:
    """Return what stands behind the first sentence, doubts and sources last."""
    said = [*finding_lines(finding)[1:]]
    few = estimates_said(finding.estimates)
    said += [few] if few else []
    if finding.marks:
        said.append(f"({', '.join(sorted(finding.marks))})")
    if finding.source:
        said.append(f"[{finding.source}]")
    return tuple(said)
