"""Columns of a table on the page, and what was typed into its cells."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import streamlit as st

from blendcheck.ui.draft import Row

__all__ = ["Column", "cell", "config", "edited", "plain_cells", "write_cells"]


@dataclass(frozen=True)
class Column:
    """A column of a table: the key in the row, its head, and what may stand there.

    ``options`` makes it a choice.
    """

    key: str
    head: str
    options: Sequence[str] | None = None
    help: str | None = None


def cell(value: Any) -> str:  # noqa: ANN401
    """Return what a cell shows; nothing for what is left out.

    Parameters
    ----------
    value : Any
        What the file holds.
    """
    return "" if value is None else str(value)


def plain_cells(columns: Iterable[Column]) -> Callable[[Row], Row]:
    """Return a function that shows each field of a row in the column of its name.

    Parameters
    ----------
    columns : iterable of Column
        The columns.
    """
    keys = [column.key for column in columns]
    return lambda row: {key: cell(row.get(key)) for key in keys}


def write_cells(row: Row, cells: Row) -> Row:
    """Return a row with what was typed; fields without a column stay as they are.

    Parameters
    ----------
    row : dict
        The row before.
    cells : dict
        The cells that were changed; a blank one takes its field out.
    """
    made = dict(row)
    for key, value in cells.items():
        text = cell(value)
        if text.strip():
            made[key] = text
        else:
            made.pop(key, None)
    return made


def edited(
    base: Sequence[Row], change: Mapping[str, Any], read: Callable[[Row, Row], Row]
) -> list[Row]:
    """Apply what was typed into a table to the rows that it started from.

    Parameters
    ----------
    base : sequence of dict
        The rows that the table started from.
    change : mapping
        What the table remembers: edited, added and deleted rows.
    read : callable
        Makes a row of (row before, changed cells).

    Returns
    -------
    list of dict
        The rows; added ones in which nothing stands are left out.
    """
    typed = {int(n): cells for n, cells in change.get("edited_rows", {}).items()}
    gone = set(change.get("deleted_rows", ()))
    rows = [
        read(row, typed[n]) if n in typed else row
        for n, row in enumerate(base)
        if n not in gone
    ]
    added = (read({}, cells) for cells in change.get("added_rows", ()) if cells)
    return rows + [row for row in added if row]


def config(column: Column, cells: Sequence[Row]) -> Any:  # noqa: ANN401
    """Return how the table shows a column.

    Parameters
    ----------
    column : Column
        The column.
    cells : sequence of dict
        What stands in the table; a choice that is not offered any more stays.
    """
    if column.options is None:
        return st.column_config.TextColumn(column.head, help=column.help)
    there = (cell(row.get(column.key)) for row in cells)
    options = list(dict.fromkeys([*column.options, *(text for text in there if text)]))
    return st.column_config.SelectboxColumn(
        column.head, options=options, help=column.help
    )
