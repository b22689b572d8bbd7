"""Results under several categories: which of them count."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from blendcheck.checks.case import Case
from blendcheck.checks.entries import entries_in_use
from blendcheck.records.finding import Finding, Outcome, Say
from blendcheck.records.material import CapEntry
from blendcheck.records.recipe import CategoryBasis
from blendcheck.words import render

__all__ = ["by_category", "categories_of", "without_basis"]


def categories_of(entry: CapEntry, bases: Sequence[CategoryBasis]) -> tuple[str, ...]:
    """Return the categories that are recorded for the scheme of a cap.

    Parameters
    ----------
    entry : CapEntry
        The cap.
    bases : sequence of CategoryBasis
        What is recorded; where a product is recorded in two categories, both count.
    """
    return tuple(
        dict.fromkeys(
            basis.category
            for basis in bases
            if basis.scheme == entry.scheme and basis.edition in ("", entry.edition)
        )
    )


def by_category(
    judged: Sequence[tuple[CapEntry, Finding]], bases: Sequence[CategoryBasis]
) -> Iterator[Finding]:
    """Decide which of the results under several categories count.

    Parameters
    ----------
    judged : sequence of (CapEntry, Finding)
        Results of one subject, scheme, edition and document.
    bases : sequence of CategoryBasis
        Recorded bases.

    Yields
    ------
    Finding
        Every result; with a recorded basis only its category counts; without
        one, results that agree count as they are, and results that differ count
        together as ``unknown``.
    """
    entry = judged[0][0]
    chosen = categories_of(entry, bases)
    with_category = [pair for pair in judged if pair[0].category]
    for one, finding in judged:
        if not one.category:
            yield finding
    if not with_category:
        return
    if chosen:
        yield from _with_basis(with_category, chosen)
        return
    outcomes = {finding.outcome for _, finding in with_category}
    if len(outcomes) == 1 or outcomes == {None, Outcome.WITHIN}:
        # nothing known under any category is one gap, told once
        once = outcomes == {Outcome.UNKNOWN}
        for n, (_, finding) in enumerate(with_category):
            yield replace(finding, counts=not (once and n))
        return
    for _, finding in with_category:
        yield replace(finding, counts=False)
    yield _differs(with_category)


def _with_basis(
    judged: Sequence[tuple[CapEntry, Finding]], chosen: Sequence[str]
) -> Iterator[Finding]:
    for entry, finding in judged:
        yield replace(finding, counts=entry.category in chosen)
    first = judged[0][1]
    for category in chosen:
        if any(entry.category == category for entry, _ in judged):
            continue
        values = {"subject": first.subject, "category": category}
        yield replace(
            first,
            kind="limit",
            outcome=Outcome.UNKNOWN,
            why=Say("caps.category-not-listed", values),
            limit="",
            cap=None,
            also=(),
            turns_at=None,
            ask=(Say("ask.cap", values),),
        )


def _word(outcome: Outcome | None) -> str:
    return render(Say("outcome.none" if outcome is None else f"outcome.{outcome}"))


def _differs(judged: Sequence[tuple[CapEntry, Finding]]) -> Finding:
    entry, first = judged[0]
    listed = ", ".join(f"{e.category}: {_word(f.outcome)}" for e, f in judged)
    values = {"subject": first.subject, "results": listed, "scheme": entry.scheme}
    return replace(
        first,
        kind="limit",
        outcome=Outcome.UNKNOWN,
        counts=True,
        why=Say("caps.differs", values),
        limit="every category on the document",
        cap=None,
        also=(),
        turns_at=None,
        ask=(Say("ask.category", values),),
        severity=2,
    )


def without_basis(case: Case) -> Iterator[Finding]:
    """One open question for each scheme whose category nobody is recorded for."""
    asked: dict[str, None] = {}
    for entry in entries_in_use(case):
        if entry.category and not categories_of(entry, case.recipe.category):
            asked[entry.scheme] = None
    for scheme in asked:
        values = {"scheme": scheme, "product": case.recipe.product}
        yield Finding(
            kind="limit",
            check="caps",
            subject=f"category under {scheme}",
            why=Say("caps.no-basis", values),
            outcome=Outcome.UNKNOWN,
            ask=(Say("ask.category", values),),
            severity=2,
        )
