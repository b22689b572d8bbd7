"""Tables of the Check page: masses, lines and components, low to high."""

import streamlit as st

from blendcheck.assess import Assessment
from blendcheck.blend.shares import Subject
from blendcheck.blend.totals import SubjectTotal, Traced
from blendcheck.interval import Range
from blendcheck.quantity import Base, print_range
from blendcheck.records.working import Id
from blendcheck.ui import shown
from blendcheck.ui.finding_view import arithmetic

__all__ = ["components", "lines", "masses"]


def _g(assessment: Assessment, name: Id | None) -> str:
    return "-" if name is None else print_range(assessment.working.range(name), "g")


def masses(assessment: Assessment) -> None:
    """Show the masses that every percent rests on.

    Parameters
    ----------
    assessment : Assessment
        A result.
    """
    totals = assessment.totals
    pieces, left_over = totals.pieces()
    pairs = [
        ("Wet mix", _g(assessment, totals.whole(Base.WET))),
        (
            str(totals.powder_base).capitalize(),
            _g(assessment, totals.whole(totals.powder_base)),
        ),
        ("Finished, dry", _g(assessment, totals.finished)),
        ("One piece", _g(assessment, totals.piece_mass)),
        ("Whole pieces", "" if pieces is None else str(pieces)),
        ("Left over", "" if left_over is None else print_range(left_over, "g")),
    ]
    shown.html(shown.definition((n, v) for n, v in pairs if v != "-"))


def _share(assessment: Assessment, total: SubjectTotal) -> str:
    return print_range(assessment.working.range(total.span), digits=3)


def _line(assessment: Assessment, one: Traced) -> tuple[str, ...]:
    totals = assessment.totals
    finished = totals.leaf(one.node)
    return (
        one.node.says,
        _grams(assessment, one.node.wet),
        _share(assessment, finished),
        _share(assessment, totals.leaf(one.node, Base.WET)),
        _of_powders(assessment, one),
        _grams(assessment, totals.per_piece(finished)),
        _grams(assessment, totals.per_use(finished)),
    )


def _of_powders(assessment: Assessment, one: Traced) -> str:
    """Return the percent of the powders; a balm has none to be a percent of."""
    totals = assessment.totals
    if not assessment.working.range(totals.whole(totals.powder_base)).low:
        return "-"
    return _share(assessment, totals.leaf(one.node, totals.powder_base))


def _grams(assessment: Assessment, name: Id | None) -> str:
    return (
        "-" if name is None else print_range(assessment.working.range(name), digits=3)
    )


def lines(assessment: Assessment) -> None:
    """Show each line as percent of finished, wet mix and powders, and in grams.

    Parameters
    ----------
    assessment : Assessment
        A result.
    """
    totals = assessment.totals
    rows = [_line(assessment, one) for one in totals.lines()]
    heads = (
        "Line",
        "g in the batch",
        "% of finished",
        "% of wet mix",
        f"% of {totals.powder_base}",
        "g in one piece",
        f"g in one use ({assessment.case.recipe.pieces_per_use})",
    )
    shown.html(shown.table("Lines of the recipe", heads, rows, numbers=range(1, 7)))
    shown.paragraph(
        "Caps apply to the percent of the finished product. What leaves on drying is "
        "in the wet mix and not in the finished piece.",
        kind="bc-soft",
    )


def _is_zero(span: Range) -> bool:
    return span.high == 0


def components(assessment: Assessment) -> None:
    """Show every component that a paper names, low to high, the largest first.

    Parameters
    ----------
    assessment : Assessment
        A result.
    """
    totals, working = assessment.totals, assessment.working
    found = [
        (identity, name, totals.subject(Subject(name, identity, frozenset({identity}))))
        for identity, name in totals.components.items()
    ]
    found = [one for one in found if not _is_zero(working.range(one[2].span))]
    found.sort(key=lambda one: -(working.range(one[2].span).high or 100))
    rows = [
        (
            name,
            "" if ":" in identity else identity,
            _share(assessment, total),
            _grams(assessment, totals.per_piece(total)),
            ", ".join(sorted(working.marks(total.span))),
        )
        for identity, name, total in found
    ]
    heads = ("Component", "CAS", "% of finished", "g in one piece", "Doubts")
    shown.html(shown.table("Components, low to high", heads, rows, numbers=(2, 3)))
    if not found:
        return
    names = {f"{name} ({identity})": total for identity, name, total in found}
    chosen = st.selectbox(
        "Open one of these figures",
        list(names),
        index=None,
        placeholder="choose one",
        key="check.component",
    )
    if chosen is not None:
        arithmetic(names[chosen].span, assessment, f"check.steps.{chosen}")
