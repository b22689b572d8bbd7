"""Caps on materials, on components and on the load, under every category."""

from collections.abc import Iterator

from blendcheck.blend.turning import turning_figures
from blendcheck.checks.case import Case
from blendcheck.checks.categories import by_category, without_basis
from blendcheck.checks.entries import (
    entries_in_use,
    is_old,
    limit_text,
    outcome_of,
    total_for,
    used,
)
from blendcheck.checks.judge import cap_percent
from blendcheck.checks.reasons import ask, beside, turn_say, why
from blendcheck.frozen import Frozen
from blendcheck.quantity import (
    Base,
    NotPermitted,
    print_range,
)
from blendcheck.records.finding import Finding, Outcome, Say
from blendcheck.records.material import CapEntry, Material

__all__ = ["check"]

_CHECK = "caps"


class _Judged(Frozen):
    entry: CapEntry
    finding: Finding


def check(case: Case) -> Iterator[Finding]:
    """Compare every cap in use with its total.

    Parameters
    ----------
    case : Case
        The case.

    Yields
    ------
    Finding
        One for each cap and category; one for each set of categories that
        disagree; one for each scented material without a cap.
    """
    groups: dict[tuple[str, ...], list[_Judged]] = {}
    for entry in entries_in_use(case):
        summed = entry.summed_with is not None
        if summed and not isinstance(entry.cap, NotPermitted):
            continue
        finding = _judge_entry(entry, case)
        key = (
            entry.on,
            entry.material or entry.subject,
            entry.scheme,
            entry.edition,
            entry.document or "",
        )
        groups.setdefault(key, []).append(_Judged(entry, finding))
    for judged in groups.values():
        yield from by_category(
            [(one.entry, one.finding) for one in judged], case.recipe.category
        )
    yield from without_basis(case)
    yield from _without_cap(case)
    yield from _contradictions(case)
    yield _unnamed(case)


def _judge_entry(entry: CapEntry, case: Case) -> Finding:
    total = total_for(entry, case)
    working = case.working
    cap = entry.cap
    outcome, old = outcome_of(entry, total, case), is_old(entry, case)
    percent = cap_percent(cap)
    open_outcome = outcome in (Outcome.UNKNOWN, Outcome.STRADDLES)
    turning = (
        turning_figures(case.totals, total, percent)
        if percent is not None and open_outcome
        else ()
    )
    reason = why(entry, total, case, outcome, old=old)
    return Finding(
        kind="fact" if outcome is None else "limit",
        check=_CHECK,
        subject=total.subject.name,
        why=reason,
        outcome=outcome,
        value=total.span,
        limit=limit_text(entry, cap),
        unit="%",
        base=Base.FINISHED,
        cap=entry,
        also=beside(total, percent, case),
        # no figure makes an old edition hold, nor takes back what went in as itself
        turns_at=None
        if old or reason.code == "caps.may-be-added"
        else turn_say(turning, total, case),
        ask=ask(entry, turning, total, case, outcome, old=old),
        source=entry.document or entry.scheme,
        marks=working.marks(total.span),
        severity=1 if outcome is Outcome.OVER else 3,
    )


def _without_cap(case: Case) -> Iterator[Finding]:
    entries = entries_in_use(case)
    capped = {entry.material for entry in entries if entry.on == "material"}
    component_caps = any(entry.on == "component" for entry in entries)
    for material in used(case.totals).values():
        if not material.is_scented or material.id in capped:
            continue
        values = {"subject": material.name}
        stated = material.checked_by_components and component_caps
        if stated and _has_list(material, case):
            yield Finding(
                kind="fact",
                check=_CHECK,
                subject=material.name,
                why=Say("caps.by-components", values),
            )
            continue
        yield Finding(
            kind="limit",
            check=_CHECK,
            subject=material.name,
            why=Say("caps.none", values),
            outcome=Outcome.UNKNOWN,
            ask=(Say("ask.certificate", values),),
            severity=2,
        )


def _has_list(material: Material, case: Case) -> bool:
    nodes = [
        node
        for node in case.totals.leaves
        if node.material is not None and node.material.id == material.id
    ]
    return all(
        case.totals.is_own(node)
        or any(not one.published for one in case.totals.shares.lists.of(node))
        for node in nodes
    )


def _contradictions(case: Case) -> Iterator[Finding]:
    for node in case.totals.leaves:
        if node.material is None or case.totals.is_own(node):
            continue
        for row in case.totals.shares.lists.rows(node).values():
            if row.contradicted:
                values = {"subject": row.name, "material": node.says}
                yield Finding(
                    kind="caution",
                    check=_CHECK,
                    subject=row.name,
                    why=Say("caps.papers-disagree", values),
                    value=row.id,
                    unit="%",
                    severity=3,
                )


def _unnamed(case: Case) -> Finding:
    """Say how much of the product no paper names."""
    total = case.totals.unlisted()
    span = case.working.range(total.span)
    return Finding(
        kind="fact",
        check=_CHECK,
        subject=total.subject.name,
        why=Say("caps.unnamed", {"share": print_range(span, "%")}),
        value=total.span,
        unit="%",
        base=Base.FINISHED,
    )
