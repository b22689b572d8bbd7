"""The Compare page: two to eight recipes, an order or the reason for none, ranges."""

from collections.abc import Callable

import streamlit as st

from blendcheck.compare import MOST, Cell, Comparison, Row, sentences_of
from blendcheck.errors import BlendcheckError
from blendcheck.interval import Range
from blendcheck.quantity import print_range
from blendcheck.ranking import told_apart
from blendcheck.records.finding import Say
from blendcheck.ui import load_chart, results, shown, state
from blendcheck.ui.choosing import head, outcome_words, sentence

__all__ = ["show"]

_KEPT = "shelf.compared"


def show() -> None:
    """Show the page."""
    head("Compare")
    chosen = _choose(state.names())
    if len(chosen) < 2:
        shown.paragraph("Choose two recipes or more.")
        return
    try:
        found = results.compared(chosen)
    except BlendcheckError as error:
        shown.message(str(error), lead="Not compared")
        return
    _order(found)
    _outcomes(found)
    _grams(found, "In one piece, low to high [g]", lambda cell: cell.per_piece)
    _grams(found, "In one use, low to high [g]", lambda cell: cell.per_use)
    _grams(found, "Of the finished product, low to high [%]", lambda one: one.percent)
    shown.paragraph(
        "An asterisk (*): part of it rests on what no list shows. “Not named”: no "
        "paper of that recipe names it, which does not show that it is not there.",
        kind="bc-soft",
    )


def _choose(names: dict[str, str]) -> list[str]:
    st.markdown(f"Recipes to put side by side, two to {MOST}:")
    first = st.session_state.get(_KEPT, list(names)[:3])
    columns = st.columns(2)
    chosen: list[str] = []
    for n, (key, name) in enumerate(names.items()):
        field = f"compare.{key}"
        if field not in st.session_state:
            st.session_state[field] = key in first
        if columns[n % 2].checkbox(shown.label(name), key=field):
            chosen.append(key)
    st.session_state[_KEPT] = chosen
    return chosen


def _order(found: Comparison) -> None:
    """Say who has less, or why nobody can say it; then draw the ranges."""
    st.header("Irritant load", anchor=False)
    shown.paragraph(sentence(Say("compare.load")))
    said = dict.fromkeys(
        sentence(say)
        for ranking in found.rankings
        for say in sentences_of(ranking, found.names)
    )
    shown.html(shown.items(said))
    shown.paragraph(sentence(Say("compare.not-mild")))
    if any(cell is not None and cell.per_piece for cell in found.volatile.cells):
        rows = load_chart.sentences(found)
        st.vega_lite_chart(
            load_chart.picture(found, ink=shown.ink()),
            width="stretch",
            alt="Bars of the irritant load in one piece, all volatile scent behind. "
            + ". ".join(rows),
        )
        shown.paragraph(
            "Solid bar: irritant load, low to high. Dashed outline: all volatile "
            "scent, low to high.",
            kind="bc-soft",
        )
    _loads(found)
    st.header("At equal strength of scent", anchor=False)
    shown.html(
        shown.items(
            sentence(say) for say in (*found.strength.pairs, *found.strength.why)
        )
    )
    if found.strength.pairs:
        shown.paragraph(sentence(Say("compare.strength-how")), kind="bc-soft")


def _loads(found: Comparison) -> None:
    heads = (
        "Recipe",
        "In one piece [g]",
        "In one use [g]",
        "All volatile scent, one piece [g]",
        "Marked, of all scent [%]",
    )
    rows = []
    for n, name in enumerate(told_apart(found.names)):
        load, scent = found.irritants.cells[n], found.volatile.cells[n]
        cover = found.cover[n]
        rows.append(
            (
                name,
                _known(found.irritants, load, lambda cell: cell.per_piece),
                _known(found.irritants, load, lambda cell: cell.per_use),
                _cell(found.volatile, scent, lambda cell: cell.per_piece),
                "-" if cover is None else print_range(cover, digits=3),
            )
        )
    table = shown.table("Irritant load, low to high", heads, rows, numbers=range(1, 5))
    shown.html(table)


def _known(row: Row, cell: Cell | None, pick: Callable[[Cell], Range | None]) -> str:
    return "not known" if cell is None else _cell(row, cell, pick)


def _outcomes(found: Comparison) -> None:
    rows = [
        (name, outcome_words(outcome))
        for name, outcome in zip(told_apart(found.names), found.outcomes, strict=True)
    ]
    shown.html(shown.table("Overall outcome", ("Recipe", "Outcome"), rows))


def _grams(
    found: Comparison, caption: str, pick: Callable[[Cell], Range | None]
) -> None:
    rows = [_row(row, pick) for row in (found.load, *found.rows)]
    heads = ("What", *told_apart(found.names))
    columns = range(1, len(heads))
    shown.html(shown.table(caption, heads, rows, numbers=columns))


def _row(row: Row, pick: Callable[[Cell], Range | None]) -> tuple[str, ...]:
    return (row.name, *(_cell(row, cell, pick) for cell in row.cells))


def _cell(row: Row, cell: Cell | None, pick: Callable[[Cell], Range | None]) -> str:
    if cell is None:
        return "not named" if row.kind == "component" else "none"
    span = pick(cell)
    if span is None:
        return "no piece mass"
    return print_range(span, digits=3) + ("" if cell.documented else " *")
