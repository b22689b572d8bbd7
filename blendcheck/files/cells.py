"""Cells of CSV: what a spreadsheet would run as a formula is made harmless."""

import csv
import io
import re
from collections.abc import Iterable, Sequence
from typing import Final

from blendcheck.errors import InputError

__all__ = ["guarded", "rows_from_csv", "rows_to_csv", "unguarded"]

# "=", "+", "-", "@", their full-width forms, tab and line ends at the start of a
# cell make it a formula in one spreadsheet or another; "'" in front stops that.
_LIVE: Final = re.compile(r"'*[=+\-@\t\r\n＝＋－＠]")  # noqa: RUF001
_GUARDED: Final = re.compile(r"'+[=+\-@\t\r\n＝＋－＠]")  # noqa: RUF001
_SEPARATORS: Final = (",", ";", "\t")
_SAYS_SEPARATOR: Final = re.compile(r'"?sep=([,;\t])"?\r?\n', re.IGNORECASE)


def guarded(text: str) -> str:
    """Return a cell that no spreadsheet takes for a formula.

    Parameters
    ----------
    text : str
        Any text.

    Returns
    -------
    str
        The text, with ``'`` in front if it begins like a formula (or like a text
        that was guarded before, so that :func:`unguarded` is exact).

    Examples
    --------
    >>> guarded("=1+1"), guarded("-20 °C"), guarded("o'clock")
    ("'=1+1", "'-20 °C", "o'clock")
    """
    return f"'{text}" if _LIVE.match(text) else text


def unguarded(text: str) -> str:
    """Return the text that :func:`guarded` was given.

    Parameters
    ----------
    text : str
        A cell.

    Examples
    --------
    >>> unguarded("'=1+1"), unguarded("'tis")
    ('=1+1', "'tis")
    """
    return text[1:] if _GUARDED.match(text) else text


def rows_to_csv(header: Sequence[str], rows: Iterable[Sequence[object]]) -> str:
    """Return a table as CSV (RFC 4180) that no spreadsheet runs as formulas.

    Parameters
    ----------
    header : sequence of str
        Names of the columns.
    rows : iterable of sequence
        The cells; ``None`` is left blank, everything else is written as its text.

    Returns
    -------
    str
        Comma separated, every line ended by CR LF, each cell :func:`guarded`.

    Raises
    ------
    InputError
        If a row has not as many cells as the header.
    """
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    for row in (header, *rows):
        if len(row) != len(header):
            raise InputError(f"a row has {len(row)} cells, the header {len(header)}")
        writer.writerow("" if cell is None else guarded(str(cell)) for cell in row)
    return out.getvalue()


def _separator(text: str, needed: frozenset[str], where: str) -> tuple[str, str, int]:
    """Return the separator, the text without what only names it, and lines cut."""
    said = _SAYS_SEPARATOR.match(text)
    cut = 0
    if said is not None:
        text, cut = text[said.end() :], 1
    for separator in _SEPARATORS:
        first = next(csv.reader(io.StringIO(text, newline=""), delimiter=separator), [])
        if needed <= {unguarded(cell).strip().casefold() for cell in first}:
            return separator, text, cut
    raise InputError(
        f"the first line does not name the columns {', '.join(sorted(needed))}",
        "Keep the first line of the file as it was written",
        where=where,
        code="csv-header",
    )


def rows_from_csv(
    text: str, needed: frozenset[str], where: str
) -> list[tuple[int, list[str]]]:
    """Read a table from CSV.

    Parameters
    ----------
    text : str
        CSV with a header; separated by commas, semicolons or tabs.
    needed : frozenset of str
        Columns that the header must name, in small letters.
    where : str
        Name of the file, for messages.

    Returns
    -------
    list of (int, list of str)
        The header and every row that is not blank: the line that it begins in,
        from 1, and its cells, :func:`unguarded`, as many as the header has.

    Raises
    ------
    InputError
        If the header is another one, a quotation mark is not closed, or a row has
        more cells than the header (``csv-cells``): then a text holds a separator
        and is not in quotes, or a decimal comma split a figure.
    """
    text = text.removeprefix("\ufeff")
    separator, text, cut = _separator(text, needed, where)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True)
    found: list[tuple[int, list[str]]] = []
    width = 0
    line = cut + 1
    try:
        for read in reader:
            begins, line = line, reader.line_num + cut + 1
            cells = [unguarded(cell) for cell in read]
            if not any(cell.strip() for cell in cells):
                continue
            width = width or len(cells)
            if any(cell.strip() for cell in cells[width:]):
                raise InputError(
                    f"the row has {len(cells)} cells, the header {width}",
                    "Put a text that holds a separator in quotation marks, and write "
                    "decimals with a point",
                    where=f"{where}, line {begins}",
                    code="csv-cells",
                )
            found.append((begins, (cells + [""] * width)[:width]))
    except csv.Error as error:
        raise InputError(
            f"the row is not CSV: {error}",
            "Save the table again as CSV",
            where=f"{where}, line {reader.line_num + cut}",
            code="csv",
        ) from None
    return found
