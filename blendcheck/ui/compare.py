"""The Compare page: two to eight recipes side by side, without an order."""

from collections.abc import Callable

import streamlit as st

from blendcheck.compare import MOST, Cell, Comparison, Row
from blendcheck.errors import BlendcheckError
from blendcheck.interval import Range
from blendcheck.quantity import print_range
from blendcheck.records.finding import Say
from blendcheck.ui import results, shown, state
from blendcheck.ui.choosing import head, outcome_words
from blendcheck.words import render

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
    shown.paragraph(render(Say("compare.no-order")))
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


def _outcomes(found: Comparison) -> None:
    rows = [
        (name, outcome_words(outcome))
        for name, outcome in zip(found.names, found.outcomes, strict=True)
    ]
    shown.html(shown.table("Overall outcome", ("Recipe", "Outcome"), rows))


def _grams(
    found: Comparison, caption: str, pick: Callable[[Cell], Range | None]
) -> None:
    rows = [_row(row, pick) for row in (found.load, *found.rows)]
    heads = ("What", *found.names)
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
