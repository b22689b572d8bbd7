"""The flat table of materials back to records; :mod:`~blendcheck.files.tables`."""

from collections.abc import Callable
from typing import Final

from pydantic import ValidationError

from blendcheck.errors import InputError
from blendcheck.files.cells import rows_from_csv
from blendcheck.files.places import Layout, Path, Place
from blendcheck.files.refused import nearest, refused
from blendcheck.files.tables import (
    CAP_CELLS,
    CELLS,
    COLUMNS,
    HAZARD_LISTS,
    LINE_CELLS,
    NOTHING,
    TABLES,
    Row,
    Table,
)
from blendcheck.records.material import Materials

__all__ = ["materials_from_csv"]

_SAME: Final = {"same": True, "not the same": False}
_SETS: Final = frozenset({"irritant", "covers"})


class _Shelf:
    """Puts rows back into tables, and remembers the line of each."""

    def __init__(self) -> None:
        self.tables: Table = {}
        self.layout = Layout()
        self.found: dict[tuple[str, ...], tuple[Table, Path]] = {}

    def open(self, name: tuple[str, ...], line: int, keys: Table) -> tuple[Table, Path]:
        """Return the table of that name, made where it stands the first time.

        ``name`` holds, in turn, the key of a repeated table and what it is called.
        """
        if name in self.found:
            return self.found[name]
        outer, path = self.found[name[:-2]] if len(name) > 2 else (self.tables, ())
        return self.append(outer, path, name[-2], line, keys, name)

    def append(
        self,
        outer: Table,
        path: Path,
        key: str,
        line: int,
        table: Table,
        name: tuple[str, ...] = (),
    ) -> tuple[Table, Path]:
        """Add one more table to a list of them."""
        items = outer.setdefault(key, [])
        items.append(table)
        path = (*path, key, len(items) - 1)
        self.layout.places[path] = Place(line)
        if name:
            self.found[name] = (table, path)
        return table, path

    def material(self, row: Row, line: int) -> tuple[Table, Path]:
        name = ("material", row["material"])
        return self.open(name, line, {"id": row["material"]})

    def lot_or_material(self, row: Row, line: int) -> tuple[str, ...]:
        self.material(row, line)
        name: tuple[str, ...] = ("material", row["material"])
        if row["lot"]:
            name = (*name, "lot", row["lot"])
            self.open(name, line, {"lot": row["lot"]})
        return name

    def put(self, table: Table, path: Path, row: Row, line: int) -> None:
        """Set the field that a row names."""
        keys = row["field"].split(".", 1) if row["field"] else []
        if not keys:
            return
        holder = table
        if keys[0] in TABLES and len(keys) == 2:
            holder = table.setdefault(keys[0], {})
        else:
            keys = [row["field"]]
        if keys[-1] in holder:
            raise InputError(
                f'two rows give "{row["field"]}" of the same thing',
                "Keep one of them",
                code="field-twice",
            )
        text = row["printed"]
        holder[keys[-1]] = _set_of(text) if keys[-1] in _SETS else text
        self.layout.places[(*path, *keys)] = Place(line)


def _set_of(text: str) -> list[str]:
    return [] if text.strip().casefold() == NOTHING else text.split()


def _filled(cells: dict[str, str], row: Row) -> Table:
    """Return the fields of a table whose cells are not blank."""
    return {key: row[cell] for key, cell in cells.items() if row[cell]}


def _workshop(shelf: _Shelf, row: Row, line: int) -> None:
    table = shelf.tables.setdefault("workshop", {})
    if row["field"] == "current":
        table.setdefault("current", {})[row["scheme"]] = row["printed"]
        shelf.layout.places["workshop", "current", row["scheme"]] = Place(line)
    else:
        shelf.put(table, ("workshop",), row, line)


def _material(shelf: _Shelf, row: Row, line: int) -> None:
    shelf.put(*shelf.material(row, line), row, line)


def _document(shelf: _Shelf, row: Row, line: int) -> None:
    shelf.material(row, line)
    name = ("material", row["material"], "document", row["document"])
    shelf.put(*shelf.open(name, line, {"id": row["document"]}), row, line)


def _lot(shelf: _Shelf, row: Row, line: int) -> None:
    shelf.put(*shelf.found[shelf.lot_or_material(row, line)], row, line)


def _list(shelf: _Shelf, row: Row, line: int) -> None:
    name = (*shelf.lot_or_material(row, line), "composition", row["list"])
    shelf.put(*shelf.open(name, line, {}), row, line)


def _component(shelf: _Shelf, row: Row, line: int) -> None:
    name = (*shelf.lot_or_material(row, line), "composition", row["list"])
    table, path = shelf.open(name, line, {})
    cells = {"name": "name", "cas": "cas", "share": "printed"}
    shelf.append(table, path, "row", line, _filled(cells, row))


def _hazard(shelf: _Shelf, row: Row, line: int) -> None:
    shelf.material(row, line)
    name = ("material", row["material"], "hazard", row["list"])
    table, path = shelf.open(name, line, {})
    if row["field"] in HAZARD_LISTS:
        texts = table.setdefault(row["field"], [])
        texts.append(row["printed"])
        shelf.layout.places[(*path, row["field"], len(texts) - 1)] = Place(line)
    else:
        shelf.put(table, path, row, line)


def _cap(shelf: _Shelf, row: Row, line: int) -> None:
    at = shelf.material(row, line) if row["material"] else (shelf.tables, ())
    shelf.append(*at, "cap", line, _filled(CAP_CELLS, row))


def _stock(shelf: _Shelf, row: Row, line: int) -> None:
    name = ("stock", row["stock"])
    shelf.put(*shelf.open(name, line, {"id": row["stock"]}), row, line)


def _stock_line(shelf: _Shelf, row: Row, line: int) -> None:
    table, path = shelf.open(("stock", row["stock"]), line, {"id": row["stock"]})
    shelf.append(table, path, "line", line, _filled(LINE_CELLS, row))


def _confirmed(shelf: _Shelf, row: Row, line: int) -> None:
    same = _SAME.get(row["printed"].strip().casefold())
    if same is None:
        raise InputError(
            f'"{row["printed"]}" does not say whether the two are the same',
            "Write same, or not the same",
            code="choice",
        )
    table = _filled({"name": "name", "cas": "cas", "counts_as": "of"}, row)
    shelf.append(shelf.tables, (), "confirmed", line, {**table, "same": same})


_PUT: Final[dict[str, Callable[[_Shelf, Row, int], None]]] = {
    "workshop": _workshop,
    "material": _material,
    "document": _document,
    "lot": _lot,
    "list": _list,
    "component": _component,
    "hazard": _hazard,
    "cap": _cap,
    "stock": _stock,
    "stock line": _stock_line,
    "confirmed": _confirmed,
}


def _columns(header: list[str], where: str) -> list[str]:
    names = [cell.strip().casefold() for cell in header]
    for name in names:
        if name and name not in COLUMNS:
            close = nearest(name, COLUMNS)
            raise InputError(
                f'there is no column "{name}"',
                f'Did you mean "{close}"?'
                if close
                else f"They are {', '.join(COLUMNS)}",
                where=where,
                code="csv-header",
            )
        if name and names.count(name) > 1:
            raise InputError(
                f'two columns are called "{name}"',
                "Remove one",
                where=where,
                code="csv-header",
            )
    return names


def _checked(row: Row) -> str:
    """Return the kind of a row, if its cells are those of that kind."""
    what = row["what"].strip().casefold()
    if what not in CELLS:
        close = nearest(what, CELLS)
        raise InputError(
            f'"{row["what"]}" is no kind of row',
            f'Did you mean "{close}"?' if close else f"Kinds are {', '.join(CELLS)}",
            code="csv-row",
        )
    must, may = CELLS[what]
    for column, cell in row.items():
        if column in must and not cell.strip():
            raise InputError(
                f'a {what} row needs the cell "{column}"', "Fill it in", code="csv-row"
            )
        if column not in must | may | {"what"} and cell.strip():
            raise InputError(
                f'a {what} row has no cell "{column}", and "{cell}" stands there',
                "Is the row shifted, by a decimal comma or a missing cell?",
                code="csv-row",
            )
    return what


def materials_from_csv(text: str, where: str = "table") -> Materials:
    """Read a shelf from the table that ``materials_to_csv`` writes.

    Parameters
    ----------
    text : str
        CSV, separated by commas, semicolons or tabs.
    where : str, default "table"
        Name of the file, for messages.

    Returns
    -------
    Materials
        The shelf, every figure with its printed text; lots keep their zeros.

    Raises
    ------
    InputError
        If a row is not understood or a figure cannot be read; the message names
        the line. A :class:`~blendcheck.errors.QuestionError` where a text has
        more than one meaning, such as a decimal comma.
    """
    shelf = _Shelf()
    columns: list[str] = []
    needed = frozenset({"what", "printed"})
    for line, cells in rows_from_csv(text, needed, where):
        if not columns:
            columns = _columns(cells, f"{where}, line {line}")
            continue
        row = {**dict.fromkeys(COLUMNS, ""), **dict(zip(columns, cells, strict=True))}
        row.pop("", None)
        try:
            _PUT[_checked(row)](shelf, row, line)
        except InputError as error:
            raise error.at(f"{where}, line {line}") from None
    try:
        return Materials.model_validate(shelf.tables)
    except ValidationError as error:
        raise refused(error, Materials, shelf.layout, where) from None
