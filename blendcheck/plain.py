"""What the command line prints: plain text without colour.

Sentences are at most 88 characters wide; tables and steps as wide as they need.
"""

from collections.abc import Iterable, Iterator, Sequence

from blendcheck.assess import Assessment
from blendcheck.compare import Cell, Comparison
from blendcheck.interval import Range
from blendcheck.largest import Largest, largest
from blendcheck.quantity import Base, print_number, print_range
from blendcheck.records.finding import Finding, Outcome, Say
from blendcheck.records.working import Id
from blendcheck.textlines import heading, wrapped
from blendcheck.weighing import WeighingList, weighing_list
from blendcheck.words import render

__all__ = ["check_text", "compare_text"]


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
    found = [f for f in assessment.findings if f.kind == kind and f.counts]
    lines = heading(title) if found else []
    for finding in found:
        lines.append(wrapped(render(finding.why), "  ", "* "))
    return lines


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


def compare_text(comparison: Comparison) -> str:
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
    lines += ["", wrapped(render(Say("compare.no-order")))]
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


def _per_piece(cell: Cell | None) -> str:
    return _grams(cell, None if cell is None else cell.per_piece)


def _per_use(cell: Cell | None) -> str:
    return _grams(cell, None if cell is None else cell.per_use)


def _grams(cell: Cell | None, span: Range | None) -> str:
    if cell is None:
        return "none entered"
    if span is None:
        return "no piece mass"
    return print_range(span, "g") + ("" if cell.documented else " (not all documented)")
