"""Paste a table out of a paper, see how each line was understood, confirm it."""

from collections.abc import Callable
from typing import Any, Final

import streamlit as st

from blendcheck.errors import InputError
from blendcheck.files.pasted import PastedTable, confirm, without
from blendcheck.files.pasted_components import read_pasted_components
from blendcheck.records.snapshot import as_written
from blendcheck.ui import shown
from blendcheck.ui.choice import fresh
from blendcheck.ui.draft import Path, get, put
from blendcheck.ui.form import Form

__all__ = ["paste_components", "paste_rows"]

_TAKEN: Final = {
    "row": "a row",
    "skipped": "left out",
    "question": "not clear",
    "unidentified": "what the report could not name",
    "total": "a total",
}

_LEAVE_OUT: Final = "A list with lines left out is not copied whole."


def paste_components(form: Form, path: Path) -> None:
    """Show where a component table can be pasted, and how it is understood.

    Parameters
    ----------
    form : Form
        The form of the material.
    path : Path
        The component list that the rows go into.
    """

    def done(table: PastedTable[Any]) -> None:
        if table.unidentified is not None:
            put(
                form.draft.raw,
                (*path, "unidentified"),
                table.unidentified.share.printed,
            )
            st.session_state.pop(form.key((*path, "unidentified")), None)

    paste_rows(
        form,
        (*path, "row"),
        "Paste a component table, as it comes out of the paper",
        read_pasted_components,
        done,
    )


def paste_rows(
    form: Form,
    path: Path,
    label: str,
    read: Callable[[str], PastedTable[Any]],
    done: Callable[[PastedTable[Any]], None] | None = None,
) -> None:
    """Show where rows can be pasted; they are used when nothing is left to ask.

    Parameters
    ----------
    form : Form
        The form of the record.
    path : Path
        The rows of the draft that they are added to.
    label : str
        Label of the field.
    read : callable
        Reads the pasted text.
    done : callable, optional
        Called with the confirmed table.
    """
    key = form.key((*path, "paste"))
    typed = st.text_area(label, key=fresh(key), height=120)
    if not typed.strip():
        return
    try:
        table = read(typed)
    except InputError as error:
        shown.message(error.sentence)
        return
    table = _left_out(table, f"{key}.without")
    rows = [
        (str(n + 1), line.source, _TAKEN[line.kind], line.message)
        for n, line in enumerate(table.lines)
    ]
    heads = ("Line", "As pasted", "Taken for", "Understood as, or asked")
    shown.html(shown.table("Line by line", heads, rows))
    there = len(get(form.draft.raw, path) or ())
    instead = there > 0 and st.checkbox(
        f"Instead of the rows that stand there now ({there})",
        key=fresh(f"{key}.instead", value=False),
    )
    if table.questions:
        lines = ", ".join(str(n + 1) for n in table.questions)
        shown.message(
            f"not clear: line {lines}. Correct it above as the paper prints it, or "
            "leave it out",
        )
        return
    if not table.rows:
        shown.message("no line holds a row. Copy the table again")
        return
    st.button(
        "Confirm these lines",
        key=f"{key}.confirm",
        on_click=_take,
        args=(form, path, table, key, instead, done),
    )


def _left_out(table: PastedTable[Any], key: str) -> PastedTable[Any]:
    typed = st.text_input(
        "Leave lines out: their numbers",
        key=fresh(key),
        placeholder="3 5",
        help=_LEAVE_OUT,
    )
    for word in typed.replace(",", " ").split():
        number = int(word) if word.isascii() and word.isdigit() else 0
        try:
            table = without(table, number - 1)
        except InputError as error:
            shown.message(f'"{word}": {error.sentence}')
    return table


def _take(
    form: Form,
    path: Path,
    table: PastedTable[Any],
    key: str,
    instead: bool,  # noqa: FBT001
    done: Callable[[PastedTable[Any]], None] | None,
) -> None:
    rows = [as_written(row) for row in confirm(table)]
    there = [] if instead else list(get(form.draft.raw, path) or ())
    put(form.draft.raw, path, [*there, *rows])
    if done is not None:
        done(table)
    form.draft.changed()
    for name in (key, f"{key}.without", f"{key}.instead"):
        st.session_state.pop(name, None)
