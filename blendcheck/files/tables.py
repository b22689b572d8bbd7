"""Materials as one flat table, and back, without loss.

One row is one figure. ``what`` says what the row is about; only the columns that
belong to it are filled:

=========== =============================================================
what        columns
=========== =============================================================
workshop    field, printed (field ``current``: scheme as well)
material    material, field, printed
document    material, document, field, printed
lot         material, lot, field, printed
list        material, lot, list, field, printed
component   material, lot, list, name, cas, printed
hazard      material, list, field, printed (a class, a limit or a toxicity
            figure each in its own row)
cap         material, on, of, name, cas, scheme, edition, category,
            printed, document, summed with, footnote
stock       stock, field, printed
stock line  stock, material or of (another stock blend), lot, printed
confirmed   name, cas, of (counts as), printed (same / not the same)
=========== =============================================================

``material`` is the id of the material that the row belongs to; a cap without one
belongs to the shelf. ``list`` numbers the component lists of a material or a lot, and
what its sheets say of hazards.
Rows may stand in any order; the order of the first mention is kept. A blank cell
is "not given".
"""

from collections.abc import Iterator
from typing import Any, Final

from blendcheck.files.cells import rows_to_csv
from blendcheck.records.material import Materials
from blendcheck.records.snapshot import as_written

__all__ = [
    "CAP_CELLS",
    "CELLS",
    "COLUMNS",
    "HAZARD_LISTS",
    "LINE_CELLS",
    "NOTHING",
    "TABLES",
    "Row",
    "Table",
    "materials_to_csv",
]

COLUMNS: Final = (
    "what",
    "stock",
    "material",
    "lot",
    "list",
    "document",
    "field",
    "name",
    "cas",
    "on",
    "of",
    "scheme",
    "edition",
    "category",
    "printed",
    "summed with",
    "footnote",
)

Row = dict[str, str]
Table = dict[str, Any]

NOTHING: Final = "nothing"
TABLES: Final = frozenset({"weighed", "dilution", "shower", "workroom"})
HAZARD_LISTS: Final = frozenset({"classes", "limits", "ate"})
"""Fields of a hazard entry that hold several texts, each in a row of its own."""
CAP_CELLS: Final = {
    "on": "on",
    "material": "of",
    "name": "name",
    "cas": "cas",
    "scheme": "scheme",
    "edition": "edition",
    "category": "category",
    "printed": "printed",
    "document": "document",
    "summed_with": "summed with",
    "footnote": "footnote",
}
LINE_CELLS: Final = {
    "material": "material",
    "stock": "of",
    "lot": "lot",
    "amount": "printed",
}

# The cells of each kind of row: those that it must have, and those that it may.
CELLS: Final[dict[str, tuple[frozenset[str], frozenset[str]]]] = {
    "workshop": (frozenset({"field"}), frozenset({"scheme", "printed"})),
    "material": (frozenset({"material", "field"}), frozenset({"printed"})),
    "document": (
        frozenset({"material", "document"}),
        frozenset({"field", "printed"}),
    ),
    "lot": (frozenset({"material", "lot"}), frozenset({"field", "printed"})),
    "list": (
        frozenset({"material", "list", "field"}),
        frozenset({"lot", "printed"}),
    ),
    "component": (
        frozenset({"material", "list", "name", "printed"}),
        frozenset({"lot", "cas"}),
    ),
    "hazard": (frozenset({"material", "list", "field"}), frozenset({"printed"})),
    "cap": (frozenset({"scheme"}), frozenset({"material", *CAP_CELLS.values()})),
    "stock": (frozenset({"stock"}), frozenset({"field", "printed"})),
    "stock line": (
        frozenset({"stock", "printed"}),
        frozenset({"material", "of", "lot"}),
    ),
    "confirmed": (frozenset({"cas", "printed"}), frozenset({"name", "of"})),
}


def _cell(value: Any) -> str:  # noqa: ANN401  # whatever a record dumps to
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, list):
        return " ".join(value) or NOTHING
    return str(value)


def _is_below(value: Any) -> bool:  # noqa: ANN401
    """Say whether a value is a list of tables, whose rows are their own."""
    return isinstance(value, list) and bool(value) and isinstance(value[0], dict)


def _fields(table: Table, *without: str) -> Iterator[tuple[str, str]]:
    for key, value in table.items():
        if key in TABLES:
            yield from ((f"{key}.{inner}", _cell(v)) for inner, v in value.items())
        elif key not in without and not _is_below(value):
            yield key, _cell(value)


def _one_or_more(table: Table, *without: str) -> Iterator[tuple[str, str]]:
    """Yield the fields, or one blank field that only says that the table is there."""
    yield from list(_fields(table, *without)) or [("", "")]


def _list_rows(owner: Row, lists: list[Table]) -> Iterator[Row]:
    for number, one in enumerate(lists, start=1):
        place = {**owner, "list": str(number)}
        for field, printed in _fields(one):
            yield {"what": "list", **place, "field": field, "printed": printed}
        for row in one.get("row", ()):
            named = {"name": row["name"], "cas": row.get("cas", "")}
            yield {"what": "component", **place, **named, "printed": row["share"]}


def _hazard_rows(owner: Row, hazards: list[Table]) -> Iterator[Row]:
    for number, one in enumerate(hazards, start=1):
        place = {"what": "hazard", **owner, "list": str(number)}
        for field, value in one.items():
            each = value if field in HAZARD_LISTS else [_cell(value)]
            yield from ({**place, "field": field, "printed": text} for text in each)


def _cap_row(owner: Row, cap: Table) -> Row:
    cells = {cell: str(cap.get(key, "")) for key, cell in CAP_CELLS.items()}
    return {"what": "cap", **owner, **cells, "on": cap.get("on", "material")}


def _material_rows(material: Table) -> Iterator[Row]:
    owner = {"material": material["id"]}
    for field, printed in _fields(material, "id"):
        yield {"what": "material", **owner, "field": field, "printed": printed}
    for paper in material.get("document", ()):
        for field, printed in _fields(paper, "id"):
            place = {**owner, "document": paper["id"]}
            yield {"what": "document", **place, "field": field, "printed": printed}
    yield from _list_rows(owner, material.get("composition", []))
    yield from _hazard_rows(owner, material.get("hazard", []))
    for cap in material.get("cap", ()):
        yield _cap_row(owner, cap)
    for lot in material.get("lot", ()):
        place = {**owner, "lot": lot["lot"]}
        for field, printed in _one_or_more(lot, "lot"):
            yield {"what": "lot", **place, "field": field, "printed": printed}
        yield from _list_rows(place, lot.get("composition", []))


def _shelf_rows(shelf: Table) -> Iterator[Row]:
    workshop = shelf.get("workshop", {})
    for field, printed in _fields(workshop, "current"):
        yield {"what": "workshop", "field": field, "printed": printed}
    for scheme, edition in workshop.get("current", {}).items():
        cells = {"field": "current", "scheme": scheme, "printed": edition}
        yield {"what": "workshop", **cells}
    for material in shelf.get("material", ()):
        yield from _material_rows(material)
    for stock in shelf.get("stock", ()):
        for field, printed in _one_or_more(stock, "id"):
            cells = {"stock": stock["id"], "field": field, "printed": printed}
            yield {"what": "stock", **cells}
        for line in stock["line"]:
            cells = {cell: line.get(key, "") for key, cell in LINE_CELLS.items()}
            yield {"what": "stock line", "stock": stock["id"], **cells}
    for cap in shelf.get("cap", ()):
        yield _cap_row({}, cap)
    for one in shelf.get("confirmed", ()):
        same = "same" if one.get("same", True) else "not the same"
        cells = {"cas": one["cas"], "of": one.get("counts_as", ""), "printed": same}
        yield {"what": "confirmed", "name": one.get("name", ""), **cells}


def materials_to_csv(materials: Materials) -> str:
    """Return a shelf as one flat table.

    Parameters
    ----------
    materials : Materials
        The shelf.

    Returns
    -------
    str
        CSV as the head of this module describes it; see
        :func:`~blendcheck.files.cells.rows_to_csv`.
    """
    rows = _shelf_rows(as_written(materials))
    return rows_to_csv(COLUMNS, ([row.get(c, "") for c in COLUMNS] for row in rows))
