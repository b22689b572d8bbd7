"""Use ÷ cap: what two certificates say together, and sums that a document demands.

Two oils within their own caps do not make a blend within, because both may carry
the same restricted component. The sum of use ÷ cap is a cautious screen of our own:
at or below 1 it speaks for whatever is behind those certificates, above 1 nothing
is shown. Where a document itself sums fractions, the sum is that document's rule.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction

from blendcheck.blend.printed import equation, operand
from blendcheck.checks.case import Case
from blendcheck.checks.categories import by_category
from blendcheck.checks.entries import (
    cap_figure,
    entries_in_use,
    is_old,
    total_for,
    used,
)
from blendcheck.checks.judge import cap_percent, judge
from blendcheck.interval import Range
from blendcheck.quantity import (
    Limit,
    Mark,
    NoRestriction,
    NotAdded,
    NotPermitted,
    print_bound,
)
from blendcheck.records.finding import Finding, Outcome, Say
from blendcheck.records.mass import Unknowns
from blendcheck.records.material import CapEntry
from blendcheck.records.working import Given, How, Id, Value, rule

__all__ = ["check", "document_sum", "summed_by"]

_ONE = Fraction(1)
_HUNDRED = Fraction(100)


def _show_fractions(
    given: tuple[Given, ...], how: How, unknowns: Unknowns, value: Value
) -> tuple[str, ...]:
    del how
    span = value if isinstance(value, Range) else value.range(unknowns)
    ends = (("low", span.low), ("high", span.high))
    lines = []
    for end, result in ends:
        terms = []
        for use, cap in zip(given[::2], given[1::2], strict=True):
            share, most = use.range(unknowns), cap.range(unknowns).high
            top = (share.low if end == "low" else share.high) or Fraction(0)
            terms.append(f"{operand(top)} ÷ {operand(most or _HUNDRED)}")
        word = "" if span.is_exact else f"{end} end"
        lines.append(
            equation(word, " + ".join(terms) or "0", result or Fraction(0), "")
        )
        if span.is_exact:
            break
    return tuple(lines)


@rule(
    "use over cap",
    "Σ use ÷ cap",
    "Each use divided by its own cap, added; no restriction stated counts as a cap "
    "of 100 %.",
    _show_fractions,
)
def _fractions(given: tuple[Given, ...], how: How, unknowns: Unknowns) -> Value:
    del how
    low = high = Fraction(0)
    for use, cap in zip(given[::2], given[1::2], strict=True):
        share, most = use.range(unknowns), cap.range(unknowns).high or _HUNDRED
        low += (share.low or Fraction(0)) / most
        high += (_HUNDRED if share.high is None else share.high) / most
    return Range(low, high)


def check(case: Case) -> Iterator[Finding]:
    """Screen the certificates of a blend together, and apply documents' own sums.

    Parameters
    ----------
    case : Case
        The case.

    Yields
    ------
    Finding
        For each scheme, edition and category with two or more scented materials,
        and for each sum that a document demands.
    """
    yield from _screens(case)
    yield from _document_sums(case)


def _screens(case: Case) -> Iterator[Finding]:
    scented = {m.id: m for m in used(case.totals).values() if m.is_scented}
    groups: dict[tuple[str, str], dict[str, dict[str, CapEntry]]] = defaultdict(dict)
    for entry in entries_in_use(case):
        if entry.on == "material" and entry.category and entry.material in scented:
            by_cat = groups[(entry.scheme, entry.edition)]
            held = by_cat.setdefault(entry.category, {})
            known = held.get(entry.material or "")
            held[entry.material or ""] = _stricter(known, entry)
    if len(scented) < 2:  # one material is screened by its own cap
        return
    for categories in groups.values():
        judged = [
            (next(iter(entries.values())), _screen(case, entries, set(scented)))
            for entries in categories.values()
        ]
        if is_old(judged[0][0], case):  # the caps themselves say so, one by one
            continue
        yield from _once(by_category(judged, case.recipe.category))


def _once(findings: Iterator[Finding]) -> Iterator[Finding]:
    """Say what is missing under every category alike only once."""
    told: set[tuple[bool, str]] = set()
    for finding in findings:
        names = finding.why.values.get("materials")
        if finding.why.code != "screen.incomplete" or names is None:
            yield finding
            continue
        key = (finding.counts, names)
        if key not in told:
            told.add(key)
            yield finding


def _stricter(known: CapEntry | None, entry: CapEntry) -> CapEntry:
    """Of two certificates for one thing and category, keep the stricter."""
    return entry if known is None else min(known, entry, key=_strictness)


def _strictness(entry: CapEntry) -> tuple[bool, Fraction]:
    percent = cap_percent(entry.cap)
    stated = percent is not None or isinstance(entry.cap, NoRestriction)
    return not stated, _HUNDRED if percent is None else percent


def _screen(case: Case, entries: dict[str, CapEntry], scented: set[str]) -> Finding:
    first = next(iter(entries.values()))
    where = f"{first.scheme}, {first.edition}, category {first.category}".replace(
        ", ,", ","
    )
    values = {"where": where}
    missing = sorted(
        case.materials.get(m).name
        for m in scented
        if m not in entries or not _has_number(entries[m])
    )
    if missing:
        names = values | {"materials": ", ".join(missing)}
        return Finding(
            kind="limit",
            check="use over cap",
            subject="scented materials together",
            why=Say("screen.incomplete", names),
            outcome=Outcome.UNKNOWN,
            limit=f"1 ({where})",
            ask=tuple(
                Say("ask.cap", {"subject": name, "category": first.category})
                for name in missing
            ),
            severity=3,
        )
    step = _sum_step(case, list(entries.values()), f"use over cap/{where}")
    span = case.working.range(step)
    within = span.against(_ONE) == "at or below"
    if within and Mark.PUBLISHED_NOT_LOT in case.working.marks(step):
        outcome, code = Outcome.UNKNOWN, "screen.published-density"
    else:
        outcome = Outcome.WITHIN if within else Outcome.UNKNOWN
        code = "screen.within" if within else "screen.above"
    shown = {"sum": _sum_text(span)}
    return Finding(
        kind="limit",
        check="use over cap",
        subject="scented materials together",
        why=Say(code, values | shown),
        outcome=outcome,
        value=step,
        limit=f"1 ({where})",
        marks=case.working.marks(step),
        severity=3,
        ask=() if within else (Say("ask.blend", values),),
    )


def _has_number(entry: CapEntry) -> bool:
    return isinstance(entry.cap, Limit | NoRestriction | NotAdded)


def _sum_step(
    case: Case, entries: Sequence[CapEntry], name: str, reading: str = "span"
) -> Id:
    given: list[Id] = []
    for entry in entries:
        total = total_for(entry, case)
        given += [getattr(total, reading), cap_figure(entry, case)]
    return case.working.work(
        name, "use over cap", tuple(given), unit="", says="use ÷ cap, added"
    ).id


def _sum_text(span: Range) -> str:
    return print_bound(_ONE if span.high is None else span.high, _ONE)


def _document_sums(case: Case) -> Iterator[Finding]:
    together: dict[tuple[str, ...], list[tuple[CapEntry, Finding]]]
    together = defaultdict(list)
    for key, entries in summed_by(entries_in_use(case)).items():
        together[key[:3]].append((entries[0], document_sum(case, entries)))
    for judged in together.values():
        yield from by_category(judged, case.recipe.category)


def summed_by(entries: Iterable[CapEntry]) -> dict[tuple[str, ...], list[CapEntry]]:
    """Group the caps that a document adds up as fractions.

    Parameters
    ----------
    entries : iterable of CapEntry
        Caps, of any kind.

    Returns
    -------
    dict
        By scheme, edition, group and category, its members, each once, under the
        stricter of two certificates. What is not permitted has no fraction: it is a
        limit by itself, and left out.
    """
    groups: dict[tuple[str, ...], dict[tuple[str, str], CapEntry]] = defaultdict(dict)
    for entry in entries:
        if entry.summed_with is not None and not isinstance(entry.cap, NotPermitted):
            key = (entry.scheme, entry.edition, entry.summed_with, entry.category)
            what = (entry.on, entry.material or entry.subject)
            groups[key][what] = _stricter(groups[key].get(what), entry)
    return {key: list(members.values()) for key, members in groups.items()}


def document_sum(case: Case, entries: Sequence[CapEntry]) -> Finding:
    """Add the uses of one document's group as fractions of their caps.

    Parameters
    ----------
    case : Case
        The case.
    entries : sequence of CapEntry
        Members of one group of :func:`summed_by`.
    """
    first = entries[0]
    where = ", ".join(
        x
        for x in (
            first.scheme,
            first.edition,
            f"category {first.category}" if first.category else "",
        )
        if x
    )
    values = {"group": first.summed_with or "", "where": where}
    common = {"check": "sum of a document", "subject": first.summed_with or ""}
    stated = [e for e in entries if _has_number(e)]
    without = [e for e in entries if not _has_number(e) and _may_be_in(e, case)]
    name = f"sum of a document/{where}/{first.summed_with}"
    steps = [
        _sum_step(case, stated, f"{name}/{reading}", reading)
        for reading in ("documented", "most", "strict")
    ]
    documented, most, strict = (case.working.range(step) for step in steps)
    marks = case.working.marks(steps[2]) & {Mark.PUBLISHED_NOT_LOT}
    outcome = judge(documented, most, strict, Limit("1", _ONE), marks)
    if without and outcome is not Outcome.OVER:
        asked = {
            "subject": first.summed_with or "",
            "category": first.category or "-",
        }
        return Finding(
            kind="limit",
            why=Say("screen.no-number", values),
            outcome=Outcome.UNKNOWN,
            limit=f"1 ({where})",
            ask=(Say("ask.cap", asked),),
            **common,  # type: ignore[arg-type]
        )
    if outcome is Outcome.WITHIN and any(is_old(e, case) for e in entries):
        outcome = Outcome.UNKNOWN
    code = f"screen.document-{outcome or Outcome.UNKNOWN}"
    shown = {"sum": _sum_text(documented if outcome is Outcome.OVER else most)}
    return Finding(
        kind="limit",
        why=Say(code, values | shown),
        outcome=outcome,
        value=steps[1],
        limit=f"1 ({where})",
        marks=case.working.marks(steps[1]),
        severity=1 if outcome is Outcome.OVER else 3,
        ask=()
        if outcome in (Outcome.WITHIN, Outcome.OVER)
        else (Say("ask.blend", values),),
        **common,  # type: ignore[arg-type]
    )


def _may_be_in(entry: CapEntry, case: Case) -> bool:
    return case.working.range(total_for(entry, case).most).high != 0
