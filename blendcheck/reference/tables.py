"""Reading the tables: the files, each row's rules, keys and sources.

The files are ``blendcheck/_reference`` in an installed wheel and ``reference/`` in
a checkout. A table is read when something first asks for it, and only once.
"""

import csv
from collections.abc import Iterator, Mapping
from dataclasses import fields
from functools import cache, cached_property
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar, cast

from blendcheck.errors import ReferenceDataError
from blendcheck.quantity.numbers import read_number
from blendcheck.reference.cells import RULES
from blendcheck.reference.rows import AtomicWeight, Constituent, Row, Source

if TYPE_CHECKING:
    from fractions import Fraction

__all__ = [
    "columns_of",
    "constituents",
    "read_table",
    "rows_of",
    "rows_where",
    "source",
    "sources",
]

R = TypeVar("R", bound=Row)


@cache
def _folder() -> Traversable:
    inside = files("blendcheck") / "_reference"
    return inside if inside.is_dir() else Path(__file__).parents[2] / "reference"


def _bad_cell(column: str, cell: str) -> str:
    if not cell:
        return f"{column} is blank"
    if cell != cell.strip():
        return f"{column} {cell!r} has a space before or after it"
    return f"{column} {cell} {RULES[column][1]}"


def columns_of(row_type: type[Row]) -> list[str]:
    """Return the columns of a table, in the order of its heading.

    Parameters
    ----------
    row_type : type
        The row class of the table.
    """
    return [field.name for field in fields(row_type)]


class _Reader:
    """Checks that need more than one row: earlier keys, sources, atomic weights."""

    def __init__(self, row_type: type[Row], folder: Traversable | None) -> None:
        self.row_type, self.columns = row_type, columns_of(row_type)
        self.rules = [
            (column, column in row_type.blank, RULES.get(column, (bool, ""))[0])
            for column in self.columns
        ]
        self.keys: set[tuple[str, ...]] = set()
        self.weights: Mapping[str, Fraction] = {}
        self.sources: frozenset[str] = frozenset()
        if row_type.cites:
            if folder is None:
                self.sources = frozenset(_carried(Source).by_cell("source_id"))
            else:
                cited = read_table(Source, folder)
                self.sources = frozenset(row.source_id for row in cited)
        if row_type is Constituent:
            weights = (
                read_table(AtomicWeight, folder) if folder else rows_of(AtomicWeight)
            )
            self.weights = {row.element: read_number(row.weight) for row in weights}

    def bad_cells(self, cells: list[str]) -> str:
        """Return the first thing wrong with the cells of a line, or an empty text."""
        if len(cells) != len(self.columns):
            return f"it has {len(cells)} cells, the heading has {len(self.columns)}"
        for (column, may_be_blank, accepts), cell in zip(
            self.rules, cells, strict=True
        ):
            fits = accepts(cell) and cell == cell.strip() if cell else may_be_blank
            if not fits:
                return _bad_cell(column, cell)
        return ""

    def problem(self, row: Row) -> str:
        """Return what is wrong with a row whose cells are right one by one."""
        key = tuple(getattr(row, column) for column in self.row_type.key)
        if key in self.keys:
            return f"{', '.join(key)} is in an earlier line already"
        self.keys.add(key)
        cited = {getattr(row, column) for column in self.row_type.cites} - {""}
        if cited - self.sources:
            return f"source {min(cited - self.sources)} is not in sources.csv"
        return row.check(self.weights) or ""


def read_table(row_type: type[R], folder: Traversable | None = None) -> tuple[R, ...]:
    """Read one table and check its heading and every row.

    Parameters
    ----------
    row_type : type
        The row class of the table.
    folder : Traversable, optional
        Where the CSV files lie; by default the tables that blendcheck carries.

    Returns
    -------
    tuple
        The rows, in the order of the file.

    Raises
    ------
    ReferenceDataError
        If the file cannot be read or a row breaks a rule. The message names the
        file, the line and what is wrong.
    """
    reader = _Reader(row_type, folder)
    folder = folder or _folder()
    rows: list[R] = []
    line = 1
    problem: object = ""
    try:
        text = (folder / f"{row_type.table}.csv").read_text("utf-8")
        lines = csv.reader(text.splitlines(), strict=True)
        if next(lines, None) != reader.columns:
            problem = f"the heading must be {','.join(reader.columns)}"
        for cells in () if problem else lines:
            line = lines.line_num
            problem = reader.bad_cells(cells)
            if not problem:
                rows.append(row_type(*cells))
                problem = reader.problem(rows[-1])
            if problem:
                break
    except (OSError, UnicodeDecodeError, csv.Error) as error:
        problem = error
    if problem:
        place = f"reference/{row_type.table}.csv, line {line}"
        raise ReferenceDataError(f"{place}: {problem}")
    return tuple(rows)


class _Carried:
    """A table that blendcheck carries: its lines once, its rows when asked for."""

    def __init__(self, row_type: type[Row]) -> None:
        self.row_type = row_type

    @cached_property
    def rows(self) -> tuple[Row, ...]:
        """Every row, checked."""
        return read_table(self.row_type)

    @cached_property
    def lines(self) -> tuple[tuple[int, list[str]], ...]:
        """Every line with its number, not yet checked."""
        place = f"reference/{self.row_type.table}.csv"
        try:
            text = (_folder() / f"{self.row_type.table}.csv").read_text("utf-8")
            reader = csv.reader(text.splitlines(), strict=True)
            heading = next(reader, None)
            lines = tuple((reader.line_num, cells) for cells in reader)
        except (OSError, UnicodeDecodeError, csv.Error) as error:
            raise ReferenceDataError(f"{place}: {error}") from None
        if heading != columns_of(self.row_type):
            wanted = ",".join(columns_of(self.row_type))
            raise ReferenceDataError(f"{place}, line 1: the heading must be {wanted}")
        return lines

    @cached_property
    def reader(self) -> "_Reader":
        """What checks its rows."""
        return _Reader(self.row_type, None)

    @cache  # noqa: B019  # one object a table, kept as long as the tables are
    def by_cell(self, column: str) -> Mapping[str, tuple[int, ...]]:
        """Return the places of the lines that hold each text in one column."""
        at = columns_of(self.row_type).index(column)
        found: dict[str, list[int]] = {}
        for place, (_, cells) in enumerate(self.lines):
            if len(cells) > at:
                found.setdefault(cells[at], []).append(place)
        return {cell: tuple(places) for cell, places in found.items()}

    @cache  # noqa: B019  # as above
    def row_at(self, place: int) -> Row:
        """Return one row, checked."""
        line, cells = self.lines[place]
        problem = self.reader.bad_cells(cells)
        if not problem:
            row = self.row_type(*cells)
            problem = self.reader.problem(row)
            if not problem:
                return row
        table = self.row_type.table
        raise ReferenceDataError(f"reference/{table}.csv, line {line}: {problem}")


_CARRIED: dict[str, _Carried] = {}


def _carried(row_type: type[Row]) -> _Carried:
    if row_type.table not in _CARRIED:
        _CARRIED[row_type.table] = _Carried(row_type)
    return _CARRIED[row_type.table]


def rows_where(row_type: type[R], column: str, cell: str) -> tuple[R, ...]:
    """Return the rows with a text in one column, and check only those.

    Parameters
    ----------
    row_type : type
        The row class of the table.
    column : str
        Name of the column.
    cell : str
        What it must hold.

    Returns
    -------
    tuple
        The rows, in the order of the file; each is checked once, when it is first
        asked for.

    Raises
    ------
    ReferenceDataError
        If one of them breaks a rule.
    """
    carried = _carried(row_type)
    places = carried.by_cell(column).get(cell, ())
    return cast("tuple[R, ...]", tuple(map(carried.row_at, places)))


def rows_of(row_type: type[R]) -> tuple[R, ...]:
    """Return the rows of a table that blendcheck carries, read once.

    Parameters
    ----------
    row_type : type
        The row class of the table.

    Returns
    -------
    tuple
        The rows, in the order of the file.

    Raises
    ------
    ReferenceDataError
        If a row breaks a rule.
    """
    return cast("tuple[R, ...]", _carried(row_type).rows)


class _Keyed(Mapping[str, R]):
    """A table by one column, each row checked when it is asked for."""

    def __init__(self, row_type: type[R], column: str) -> None:
        self._row_type, self._column = row_type, column

    def __getitem__(self, key: str) -> R:
        found = rows_where(self._row_type, self._column, key)
        if not found:
            raise KeyError(key)
        return found[0]

    def __iter__(self) -> Iterator[str]:
        return iter(_carried(self._row_type).by_cell(self._column))

    def __len__(self) -> int:
        return len(_carried(self._row_type).by_cell(self._column))

    def __contains__(self, key: object) -> bool:
        return key in _carried(self._row_type).by_cell(self._column)


@cache
def sources() -> Mapping[str, Source]:
    """Return every source by its id.

    Returns
    -------
    Mapping
        Read-only.
    """
    return _Keyed(Source, "source_id")


def source(source_id: str) -> Source:
    """Return the source that a row names.

    Parameters
    ----------
    source_id : str
        As printed in the column ``source_id``.

    Returns
    -------
    Source
        The citation, edition, address and licence.

    Raises
    ------
    ReferenceDataError
        If there is none of that name.
    """
    try:
        return sources()[source_id]
    except KeyError:
        raise ReferenceDataError(
            f"source {source_id} is not in reference/sources.csv. Add it there"
        ) from None


@cache
def constituents() -> Mapping[str, Constituent]:
    """Return every constituent by its CAS number.

    Returns
    -------
    Mapping
        Read-only, in the order of the numbers.
    """
    return _Keyed(Constituent, "cas")
