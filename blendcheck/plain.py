"""What the command line prints: plain text without colour.

Sentences are at most 88 characters wide; tables and steps as wide as they need.
"""

from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

from blendcheck.assess import Assessment
from blendcheck.interval import Range
from blendcheck.largest import Largest, largest
from blendcheck.quantity import Base, print_estimate, print_number, print_range
from blendcheck.records.estimate import Estimate
from blendcheck.records.finding import Finding, Outcome, Say
from blendcheck.records.working import Id
from blendcheck.textlines import heading, wrapped
from blendcheck.weighing import WeighingList, weighing_list
from blendcheck.words import render

if TYPE_CHECKING:  # a check needs neither
    from blendcheck.compare import Cell, Comparison

__all__ = ["check_text", "compare_text"]

_FEW = 8
"""As many estimates of one finding are printed; more only with the steps. [1]"""


def outcome_word(outcome: Outcome | None) -> str:
    """Return an outcome as it is shown.

    Parameters
    ----------
    outcome : Outcome or None
        The outcome; ``None`` where a paper states no restriction.
    """
    return render(Say("outcome.none" if outcome is None else f"outcome.{outcome}"))


def check_text(assessment: Assessment, *, steps: bool = False) -> str:
    """Write a check for reading.

    Parameters
    ----------
    assessment : Assessment
        The check.
    steps : bool, default False
        Write the arithmetic of every limit as well.

    Returns
    -------
    str
        Plain text.
    """
    lines = [
        assessment.case.recipe.name,
        f"Checked for {assessment.case.on.isoformat()}. Record {assessment.hash}.",
        "",
        wrapped(render(Say(f"overall.{assessment.outcome}"))),
    ]
    lines += _findings(assessment, steps=steps)
    lines += _weighing(weighing_list(assessment))
    lines += _largest(largest(assessment))
    lines += _lines(assessment)
    lines += _told(assessment, "fact", "Facts")
    lines += _told(assessment, "caution", "Cautions")
    lines += _beyond("Fire and air, estimated", assessment.estimates, steps=steps)
    lines += _beyond("For the label", assessment.label, steps=steps)
    return "\n".join(lines) + "\n"


# -- findings ----------------------------------------------------------------


def _findings(assessment: Assessment, *, steps: bool) -> Iterator[str]:
    limits = [f for f in assessment.findings if f.kind != "caution"]
    groups = (
        ("What stops it", [f for f in limits if f.counts and _is(f, Outcome.OVER)]),
        ("What is open", [f for f in limits if f.counts and _open(f)]),
        ("Within", [f for f in limits if f.counts and _is(f, Outcome.WITHIN)]),
        ("Under other categories", [f for f in limits if not f.counts]),
    )
    for title, found in groups:
        if not found:
            continue
        yield from heading(title)
        for finding in found:
            yield from _finding(finding, assessment, steps=steps)


def _is(finding: Finding, outcome: Outcome) -> bool:
    return finding.outcome is outcome


def _open(finding: Finding) -> bool:
    return finding.outcome in (Outcome.STRADDLES, Outcome.UNKNOWN)


def _finding(finding: Finding, assessment: Assessment, *, steps: bool) -> Iterator[str]:
    limit = f", limit {finding.limit}" if finding.limit else ""
    head = f"{outcome_word(finding.outcome)}: {finding.subject}{limit}"
    yield wrapped(head, "  ", "* ")
    yield wrapped(render(finding.why), "  ")
    for say in finding.also:
        yield wrapped(render(say), "  ")
    if finding.turns_at is not None:
        yield wrapped(render(finding.turns_at), "  ")
    for say in finding.ask:
        yield wrapped(render(say), "    ", "  - ")
    if steps and finding.value is not None:
        yield from _steps(assessment, finding.value)


def _steps(assessment: Assessment, value: Id) -> Iterator[str]:
    working = assessment.working
    for step, lines in working.story(value):
        for line in lines:
            yield f"      {step.says}: {line}"


def _told(assessment: Assessment, kind: str, title: str) -> list[str]:
    beyond = {id(f) for f in (*assessment.estimates, *assessment.label)}
    found = [
        f
        for f in assessment.findings
        if f.kind == kind and f.counts and id(f) not in beyond
    ]
    lines = heading(title) if found else []
    for finding in found:
        lines.append(wrapped(render(finding.why), "  ", "* "))
    return lines


def _beyond(title: str, found: Sequence[Finding], *, steps: bool) -> Iterator[str]:
    """Write estimates or what a label needs; neither is part of the outcome."""
    if not found:
        return
    yield from heading(title)
    for finding in found:
        yield wrapped(render(finding.why), "  ", "* ")
        for say in finding.also:
            yield wrapped(render(say), "  ")
        many = len(finding.estimates) > _FEW and not steps
        if many:
            yield f"  = {len(finding.estimates)} numbers, listed with --steps"
        for one in () if many else finding.estimates:
            yield wrapped(f"{one.says}: {_estimate(one)}", "    ", "  = ")
            if steps:
                yield from (f"      {line}" for line in one.lines)
        for say in finding.ask:
            yield wrapped(render(say), "    ", "  - ")


def _estimate(one: Estimate) -> str:
    """Write an estimate with its range and its doubts."""

    def number(value: float | None) -> str:
        if value is None:
            return "not known"
        return f"{print_estimate(value, digits=one.digits)} {one.unit}".rstrip()

    said = []
    if one.central is not None:
        said.append(f"about {number(one.central)}")
    if not number(one.low) == number(one.central) == number(one.high):
        said.append(f"from {number(one.low)} to {number(one.high)}")
    doubts = ", ".join(sorted(one.marks))
    return f"{', '.join(said) or 'not known'} ({doubts})"


# -- tables ------------------------------------------------------------------


def _weighing(found: WeighingList) -> Iterator[str]:
    yield from heading("Weighing list")
    rows = []
    for line in found.lines:
        grams = (
            print_range(line.planned, "g")
            if line.to_weigh is None
            else f"{print_number(line.to_weigh)} g"
        )
        lot = f", lot {line.lot}" if line.lot else ""
        rows.append((grams, f"{line.says}{lot}", line.as_written))
    yield from _columns(rows)
    if found.scale is None:
        yield "The scale's resolution is not entered, so nothing was rounded."
        return
    for name in found.too_fine:
        yield wrapped(f"The scale cannot show so little of {name}: make a dilution.")
    for finding, outcome in found.changed:
        yield wrapped(
            f"Rounding to the scale changes {finding.subject}: "
            f"{outcome_word(finding.outcome)} becomes {outcome_word(outcome)}."
        )
    if found.rounded is not None and not found.changed:
        yield (
            f"Rounded to {print_number(found.scale)} g and checked again: "
            "no outcome changes."
        )


def _largest(found: Sequence[Largest]) -> Iterator[str]:
    if not found:
        return
    yield from heading("The most that stays within the entered caps")
    for one in found:
        under = f" ({one.category})" if one.category else ""
        if one.grams is None or one.percent is None:
            most = "no cap in number"
        else:
            grams, percent = print_number(one.grams), print_number(one.percent)
            most = f"at most {grams} g ({percent} %), limited by {one.limited_by}"
        yield wrapped(f"{one.says}, {one.reading}{under}: {most}.", "  ", "* ")
        if one.open:
            names = ", ".join(dict.fromkeys(one.open))
            yield wrapped(
                f"No number is stated, so nothing is held, for {names}.", "  "
            )


def _lines(assessment: Assessment) -> Iterator[str]:
    totals, working = assessment.totals, assessment.working
    powders = totals.powder_base
    yield from heading(
        f"Percent of finished / wet mix / {powders}, and grams in a piece"
    )
    rows = []
    for one in totals.lines():
        shares = [
            print_range(working.range(totals.leaf(one.node, base).span), "%")
            if totals.has(base)
            else "-"
            for base in (Base.FINISHED, Base.WET, powders)
        ]
        piece = totals.per_piece(totals.leaf(one.node))
        grams = "-" if piece is None else print_range(working.range(piece), "g")
        rows.append((one.node.says, *shares, grams))
    yield from _columns(rows)


def _columns(rows: Iterable[tuple[str, ...]]) -> Iterator[str]:
    table = list(rows)
    widths = [max(map(len, column)) for column in zip(*table, strict=True)]
    for row in table:
        cells = (cell.ljust(width) for cell, width in zip(row, widths, strict=True))
        yield "  ".join(cells).rstrip()


# -- comparison --------------------------------------------------------------


def compare_text(comparison: "Comparison") -> str:
    """Write a comparison for reading.

    Parameters
    ----------
    comparison : Comparison
        Recipes side by side.

    Returns
    -------
    str
        Plain text.
    """
    lines = [
        f"{n}. {name}: {outcome_word(outcome)}"
        for n, (name, outcome) in enumerate(
            zip(comparison.names, comparison.outcomes, strict=True), start=1
        )
    ]
    lines += _load(comparison)
    for title, pick in (
        ("Grams in one piece", _per_piece),
        ("Grams in one use", _per_use),
    ):
        lines += heading(title)
        head = ("", *(f"{n}." for n in range(1, len(comparison.names) + 1)))
        rows = [
            (row.name, *(pick(cell) for cell in row.cells))
            for row in (comparison.load, *comparison.rows)
        ]
        lines += _columns([head, *rows])
    return "\n".join(lines) + "\n"


def _load(comparison: "Comparison") -> Iterator[str]:
    """Write the irritant load of every recipe, then the order or why there is none."""
    from blendcheck.compare import sentences_of

    yield from heading("Irritant load")
    yield wrapped(render(Say("compare.load")))
    yield ""
    rows = [("", "in one piece", "in one use", "all volatile scent", "marked")]
    columns = (comparison.irritants.cells, comparison.volatile.cells, comparison.cover)
    for n, (load, scent, cover) in enumerate(zip(*columns, strict=True), start=1):
        known = load is not None
        rows.append(
            (
                f"{n}.",
                _per_piece(load) if known else "not known",
                _per_use(load) if known else "not known",
                _per_piece(scent),
                "-" if cover is None else print_range(cover, "%", digits=3),
            )
        )
    yield from _columns(rows)
    for text in dict.fromkeys(
        render(say)
        for found in comparison.rankings
        for say in sentences_of(found, comparison.names)
    ):
        yield wrapped(text, "  ", "* ")
    yield wrapped(render(Say("compare.not-mild")))
    yield from heading("At equal strength of scent")
    for say in (*comparison.strength.pairs, *comparison.strength.why):
        yield wrapped(render(say), "  ", "* ")
    if comparison.strength.pairs:
        yield wrapped(render(Say("compare.strength-how")))


def _per_piece(cell: "Cell | None") -> str:
    return _grams(cell, None if cell is None else cell.per_piece)


def _per_use(cell: "Cell | None") -> str:
    return _grams(cell, None if cell is None else cell.per_use)


def _grams(cell: "Cell | None", span: Range | None) -> str:
    if cell is None:
        return "none entered"
    if span is None:
        return "no piece mass"
    return print_range(span, "g") + ("" if cell.documented else " (not all documented)")
