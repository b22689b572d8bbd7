"""Edition and age of the papers behind the figures, and whether they fit the lot.

A figure is only as current as the paper that prints it. These are cautions; that a
cap of another edition than the one in force shows nothing is said by the caps.
"""

from calendar import monthrange
from collections.abc import Iterator, Mapping
from datetime import date

from blendcheck.blend.expand import Node
from blendcheck.checks.case import Case
from blendcheck.checks.entries import entries_in_use, used
from blendcheck.quantity import print_date
from blendcheck.records.finding import Finding, Say
from blendcheck.records.material import CapEntry, Composition, Document, Material

__all__ = ["check", "review_due"]

_CHECK = "papers"


def review_due(on: date, months: int) -> date:
    """Return the day on which a paper is to be looked at again.

    Parameters
    ----------
    on : date
        Date of the paper.
    months : int
        Calendar months after which it is looked at again, >= 1.

    Returns
    -------
    date
        The same day of a later month, or the last day of a month that is shorter.

    Examples
    --------
    >>> review_due(date(2024, 1, 31), 1)
    datetime.date(2024, 2, 29)
    """
    count = on.month - 1 + months
    year, month = on.year + count // 12, count % 12 + 1
    return date(year, month, min(on.day, monthrange(year, month)[1]))


def check(case: Case) -> Iterator[Finding]:
    """Look at the papers of everything in the recipe.

    Parameters
    ----------
    case : Case
        The case.

    Yields
    ------
    Finding
        Cautions, each with what to ask.
    """
    for material in used(case.totals).values():
        if (
            material.is_scented
            and not material.document
            and not _is_own(material, case)
        ):
            yield _caution("papers.none", material.name, {}, ask="papers.ask-papers")
        for document in material.document:
            yield from _document(material, document, case)
        yield from _document_edition(material, case)
        yield from _same_name(material, case)
    for node in case.totals.leaves:
        yield from _lot(node)
    yield from _editions(case)


def _is_own(material: Material, case: Case) -> bool:
    """Whether a material is a single substance, known without a paper."""
    return any(
        case.totals.is_own(node)
        for node in case.totals.leaves
        if node.material is material
    )


def _caution(
    code: str,
    subject: str,
    values: dict[str, str],
    *,
    ask: str | None = None,
    source: str = "",
) -> Finding:
    filled = {"subject": subject} | values
    return Finding(
        kind="caution",
        check=_CHECK,
        subject=subject,
        why=Say(code, filled),
        ask=() if ask is None else (Say(ask, filled),),
        source=source,
        severity=4,
    )


# -- date ------------------------------------------------------------------


def _document(material: Material, document: Document, case: Case) -> Iterator[Finding]:
    values = {"paper": document.kind}
    if document.date is None:
        yield _caution(
            "papers.no-date",
            material.name,
            values,
            ask="papers.ask-date",
            source=document.id,
        )
        return
    printed = document.date.on
    values["date"] = print_date(document.date)
    if printed > case.on:
        yield _caution(
            "papers.later-than-today", material.name, values, source=document.id
        )
        return
    months = case.materials.workshop.review_after_months
    if months is not None and review_due(printed, months) < case.on:
        yield _caution(
            "papers.old",
            material.name,
            values | {"months": str(months)},
            ask="papers.ask-current",
            source=document.id,
        )


# -- edition ---------------------------------------------------------------


def _editions(case: Case) -> Iterator[Finding]:
    """Compare the edition of every cap in use with the one in force."""
    current = case.materials.workshop.current
    seen: set[tuple[str, ...]] = set()
    for entry in entries_in_use(case):
        subject = _subject(entry, case)
        key = (subject, entry.scheme, entry.edition, entry.document or "")
        if entry.scheme in current and key not in seen:
            seen.add(key)
            yield from _edition(subject, entry, current[entry.scheme])
        elif (entry.scheme,) not in seen and _asks_edition(entry, current):
            seen.add((entry.scheme,))
            values = {"scheme": entry.scheme}
            yield _caution(
                "papers.current-not-known",
                entry.scheme,
                values,
                ask="papers.ask-edition-in-force",
            )


def _asks_edition(entry: CapEntry, current: Mapping[str, str]) -> bool:
    """Whether nobody said which edition is in force of a scheme that has editions.

    A cap without an edition and without a paper is the maker's own rule.
    """
    return entry.scheme not in current and bool(entry.edition or entry.document)


def _subject(entry: CapEntry, case: Case) -> str:
    if entry.on == "material" and entry.material is not None:
        return case.materials.get(entry.material).name
    return entry.name or entry.cas or "the whole load"


def _edition(subject: str, entry: CapEntry, current: str) -> Iterator[Finding]:
    values = {"scheme": entry.scheme, "edition": entry.edition, "current": current}
    source = entry.document or ""
    if not entry.edition:
        yield _caution(
            "papers.no-edition",
            subject,
            values,
            ask="papers.ask-edition",
            source=source,
        )
    elif entry.edition != current:
        yield _caution(
            "papers.other-edition",
            subject,
            values,
            ask="papers.ask-certificate",
            source=source,
        )


def _document_edition(material: Material, case: Case) -> Iterator[Finding]:
    """Report a paper whose edition is not the one entered with its caps."""
    papers = {document.id: document for document in material.document}
    seen: set[tuple[str, str]] = set()
    for entry in entries_in_use(case):
        paper = papers.get(entry.document or "")
        if entry.material != material.id or paper is None or not paper.edition:
            continue
        key = (paper.id, entry.edition)
        if entry.edition in ("", paper.edition) or key in seen:
            continue
        seen.add(key)
        yield _caution(
            "papers.editions-differ",
            material.name,
            {"paper": paper.edition, "edition": entry.edition},
            source=paper.id,
        )


# -- who, and which lot ----------------------------------------------------


def _plain(name: str) -> str:
    return " ".join(name.casefold().split())


def _same_name(material: Material, case: Case) -> Iterator[Finding]:
    others = [
        other.supplier or other.id
        for other in case.materials.material
        if other.id != material.id and _plain(other.name) == _plain(material.name)
    ]
    if others:
        own = material.supplier or material.id
        yield _caution(
            "papers.same-name",
            material.name,
            {"supplier": own, "others": ", ".join(others)},
        )


def _lot(node: Node) -> Iterator[Finding]:
    material = node.material
    if material is None:
        return
    dated = {document.id: document for document in material.document}
    for composition in material.lists(node.lot):
        lot = _lot_of(composition, dated)
        if lot is not None and lot != node.lot:
            yield _caution(
                "papers.other-lot",
                material.name,
                {"paper": lot, "lot": node.lot or "not entered"},
                ask="papers.ask-lot",
                source=composition.document or "",
            )
    if not material.lists(node.lot) and any(lot.composition for lot in material.lot):
        yield _caution(
            "papers.lot-without-list",
            material.name,
            {"lot": node.lot or "not entered"},
            ask="papers.ask-lot",
        )


def _lot_of(composition: Composition, documents: dict[str, Document]) -> str | None:
    """Return the lot that the paper of a list speaks of, if it names one."""
    document = documents.get(composition.document or "")
    return None if document is None else document.lot
