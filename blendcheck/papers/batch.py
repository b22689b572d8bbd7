"""The maker's batch sheet: what to weigh, what to write down, what to look at."""

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
from blendcheck.papers.limits import open_section
from blendcheck.quantity import Base, exact_text, print_range
from blendcheck.weighing import Weighed

__all__ = ["batch"]

_WORK = frozenset(
    {
        "people.alcohol",
        "people.alcohol-mist",
        "people.dust",
        "people.eyes",
        "people.date-bottles",
        "people.germs",
    }
)
"""Cautions for the maker at work."""


def batch(kept: KeptCheck) -> Paper:
    """Make the batch sheet.

    Parameters
    ----------
    kept : KeptCheck
        The snapshot.

    Returns
    -------
    Paper
        With every limit that is open, the weighing list, targets and blanks.
    """
    sections = (
        Section("", (_this_batch(kept),)),
        open_section(kept),
        Section(say("heads.weigh"), _weighing(kept)),
        Section(say("heads.targets"), (_targets(kept),)),
        Section(say("heads.while-making"), (Lines(_work(kept), form="list"),)),
        Section(say("heads.before-wrapping"), _before_wrapping(kept)),
    )
    return kept.paper("batch", say("heads.batch"), sections)


def _this_batch(kept: KeptCheck) -> Blanks:
    words = kept.words
    made = "" if words.made_on is None else words.made_on.printed
    return Blanks(
        (
            Blank(say("heads.batch-lot"), words.lot),
            Blank(say("heads.made-on"), made),
            Blank(say("heads.made-by")),
            Blank(say("heads.room")),
            Blank(say("heads.humidity")),
        )
    )


def _weighing(kept: KeptCheck) -> tuple[Part, ...]:
    rows = tuple(
        (str(n), line.says, line.lot, _to_weigh(line), "")
        for n, line in enumerate(kept.weighing.lines, start=1)
    )
    heads = ("heads.number", "heads.what", "heads.lot", "heads.weigh-g")
    table = Table(
        say("heads.weigh-order"),
        (*map(say, heads), say("heads.weighed")),
        rows,
        numbers=(3,),
        fill=(4,),
        wide=(1,),
    )
    return (table, Lines(_rounding(kept), form="list"))


def _to_weigh(line: Weighed) -> str:
    if line.to_weigh is not None:
        return f"{exact_text(line.to_weigh)} g"
    amount = line.as_written or print_range(line.planned, "g")
    return say("heads.as-written", {"amount": amount})


def _rounding(kept: KeptCheck) -> tuple[str, ...]:
    found = kept.weighing
    if found.scale is None:
        return (say("sheet.not-rounded"),)
    scale = {"scale": f"{exact_text(found.scale)} g"}
    checked = found.rounded is not None
    code = "sheet.rounded" if checked else "sheet.rounded-not-checked"
    lines = [say(code, scale)]
    lines += [say("sheet.too-fine", {"name": name}) for name in found.too_fine]
    for finding, outcome in found.changed:
        values = {
            "subject": finding.subject,
            "before": say(f"outcome.{finding.outcome or 'none'}"),
            "after": say(f"outcome.{outcome or 'none'}"),
        }
        lines.append(say("sheet.rounding-changes", values))
    return tuple(lines)


def _targets(kept: KeptCheck) -> Table:
    totals = kept.assessment.totals
    pieces, left_over = totals.pieces()
    rows = [
        (say("heads.wet"), kept.grams(totals.whole(Base.WET)), ""),
        (say("heads.dry"), kept.grams(totals.expansion.expected), ""),
        (say("heads.piece"), kept.grams(totals.piece_mass), ""),
        (say("heads.pieces"), "" if pieces is None else str(pieces), ""),
    ]
    if left_over is not None:
        rows.append((say("heads.left-over"), print_range(left_over, "g"), ""))
    return Table(
        say("heads.targets-caption"),
        (say("heads.what"), say("heads.target"), say("heads.came-out")),
        tuple(rows),
        numbers=(1,),
        fill=(2,),
    )


def _work(kept: KeptCheck) -> tuple[str, ...]:
    found = kept.told("caution")
    return tuple(say(f.why.code, f.why.values) for f in found if f.why.code in _WORK)


def _before_wrapping(kept: KeptCheck) -> tuple[Part, ...]:
    totals = kept.assessment.totals
    expected = {"expected": kept.grams(totals.expansion.expected)}
    lines = [say("sheet.weigh-dry", expected)]
    cautions = {f.why.code for f in kept.told("caution")}
    if "packing.jars" in cautions:
        lines.append(say("sheet.not-sealed-damp"))
    lines += [
        say("sheet.one-piece-weighed"),
        say("sheet.lot-on-each"),
        say("sheet.card-with-each"),
        say("sheet.bottles-closed"),
    ]
    blanks = ("hours-dried", "signed")
    return (
        Lines(tuple(lines), form="ticks"),
        Blanks(tuple(Blank(say(f"heads.{name}")) for name in blanks)),
    )
