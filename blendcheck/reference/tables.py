"""Reading the tables: the files, each row's rules, keys and sources.

The files are ``blendcheck/_reference`` in an installed wheel and ``reference/`` in
a checkout. A table is read when something first asks for it, and only once.
"""

import csv
from collections.abc import Mapping
from dataclasses import dataclass, fields
from fractions import Fraction
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path
from types import MappingProxyType
from typing import TypeVar, cast

from blendcheck.errors import ReferenceDataError
from blendcheck.quantity.numbers import read_number
from blendcheck.reference.air_rows import (
    BreathingIrritant,
    ExposureLimit,
    IrritationPoint,
    PhototoxicOil,
    ShowerParameter,
    Swallowing,
)
from blendcheck.reference.cells import RULES
from blendcheck.reference.law_rows import (
    Allergen,
    HazardClass,
    IngredientLimit,
    LabelElement,
    MixtureLimit,
    Phrase,
    Ruling,
)
from blendcheck.reference.molecule_rows import (
    AirOxidation,
    CarbonSkeleton,
    ConstituentFamily,
    FamilyRule,
    FunctionalGroup,
    StructuralAlert,
)
from blendcheck.reference.property_rows import (
    ConstituentWatch,
    Oil,
    OilComponent,
    OilNumber,
    OilProperty,
    OilWatch,
    Property,
    VapourFit,
    VapourPressure,
)
from blendcheck.reference.rows import (
    AtomicWeight,
    Constituent,
    GroupMember,
    OilName,
    Row,
    Source,
    Synonym,
    Watch,
)

__all__ = [
    "TABLES",
    "TagCount",
    "constituents",
    "read_table",
    "rows_of",
    "source",
    "sources",
    "tags",
]

TABLES: tuple[type[Row], ...] = (
    AirOxidation,
    Allergen,
    AtomicWeight,
    BreathingIrritant,
    CarbonSkeleton,
    Constituent,
    ConstituentFamily,
    ConstituentWatch,
    ExposureLimit,
    FamilyRule,
    FunctionalGroup,
    GroupMember,
    HazardClass,
    IngredientLimit,
    IrritationPoint,
    LabelElement,
    MixtureLimit,
    Oil,
    OilComponent,
    OilName,
    OilNumber,
    OilProperty,
    OilWatch,
    PhototoxicOil,
    Phrase,
    Property,
    Ruling,
    ShowerParameter,
    Source,
    StructuralAlert,
    Swallowing,
    Synonym,
    VapourFit,
    VapourPressure,
    Watch,
)
"""The row class of every table."""

R = TypeVar("R", bound=Row)


def _folder() -> Traversable:
    inside = files("blendcheck") / "_reference"
    return inside if inside.is_dir() else Path(__file__).parents[2] / "reference"


def _bad_cell(column: str, cell: str, blank: frozenset[str]) -> str | None:
    if not cell:
        return None if column in blank else f"{column} is blank"
    if cell != cell.strip():
        return f"{column} {cell!r} has a space before or after it"
    accepts, problem = RULES.get(column, (bool, ""))
    return None if accepts(cell) else f"{column} {cell} {problem}"


def _problem(cells: list[str], columns: list[str], row_type: type[Row]) -> str:
    """Return the first thing wrong with the cells of a line, or an empty text."""
    if len(cells) != len(columns):
        return f"it has {len(cells)} cells, the heading has {len(columns)}"
    pairs = zip(columns, cells, strict=True)
    found = (_bad_cell(column, cell, row_type.blank) for column, cell in pairs)
    return next(filter(None, found), "")


def _columns(row_type: type[Row]) -> list[str]:
    return [field.name for field in fields(row_type)]  # type: ignore[arg-type]


class _Reader:
    """Checks that need more than one row: earlier keys, sources, atomic weights."""

    def __init__(self, row_type: type[Row], folder: Traversable | None) -> None:
        self.row_type, self.columns = row_type, _columns(row_type)
        self.keys: set[tuple[str, ...]] = set()
        self.weights: Mapping[str, Fraction] = {}
        self.sources: frozenset[str] = frozenset()
        if row_type.cites:
            cited = read_table(Source, folder) if folder else rows_of(Source)
            self.sources = frozenset(row.source_id for row in cited)
        if row_type is Constituent:
            weights = (
                read_table(AtomicWeight, folder) if folder else rows_of(AtomicWeight)
            )
            self.weights = {row.element: read_number(row.weight) for row in weights}

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
        The row class of the table, one of :data:`TABLES`.
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
            problem = _problem(cells, reader.columns, row_type)
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


@cache
def _carried(table: str) -> tuple[Row, ...]:
    return read_table(next(each for each in TABLES if each.table == table))


def rows_of(row_type: type[R]) -> tuple[R, ...]:
    """Return the rows of a table that blendcheck carries, read once.

    Parameters
    ----------
    row_type : type
        The row class of the table, one of :data:`TABLES`.

    Returns
    -------
    tuple
        The rows, in the order of the file.

    Raises
    ------
    ReferenceDataError
        If a row breaks a rule.
    """
    return cast("tuple[R, ...]", _carried(row_type.table))


@cache
def sources() -> Mapping[str, Source]:
    """Return every source by its id.

    Returns
    -------
    Mapping
        Read-only.
    """
    return MappingProxyType({row.source_id: row for row in rows_of(Source)})


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
    return MappingProxyType({row.cas: row for row in rows_of(Constituent)})


@dataclass(frozen=True, slots=True)
class TagCount:
    """How many rows of a table somebody read in their source, how many not."""

    seen: int
    memory: int

    @property
    def memory_share(self) -> Fraction:
        """Share of the rows that rest on memory, from 0 to 1."""
        return Fraction(self.memory, max(1, self.seen + self.memory))


def tags() -> Mapping[str, TagCount]:
    """Count the tags of every table that has them.

    Returns
    -------
    Mapping
        By the name of the table.
    """
    counts = {}
    for row_type in TABLES:
        if "tag" in _columns(row_type):
            found = [str(getattr(row, "tag", "")) for row in rows_of(row_type)]
            counts[row_type.table] = TagCount(
                found.count("seen"), found.count("memory")
            )
    return counts
