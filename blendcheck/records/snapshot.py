"""The canonical snapshot of a check's input, and its hash.

A result is only as old as what it was checked with, so the snapshot holds the
recipe and every record that it reaches, in printed text. It is plain data: what
JSON and TOML can both hold, and the records validate it back to themselves.
"""

import hashlib
import json
from collections.abc import Iterable
from datetime import date
from typing import Any

from blendcheck.records.fields import Record
from blendcheck.records.material import Material, Materials, Stock, StockLine
from blendcheck.records.recipe import Recipe

__all__ = ["SHOWN", "as_written", "content_hash", "materials_used", "snapshot"]

SHOWN = 12
"""How many digits of a hash a face shows. [hexadecimal digits]"""


def as_written(record: Record) -> dict[str, Any]:
    """Return a record as the plain tables that a file holds.

    Parameters
    ----------
    record : Record
        Any record.

    Returns
    -------
    dict
        Field names to text, whole numbers, true or false, lists and tables.
        Figures are their printed text. What is left out of a file is left out
        here: fields that are not given or equal their default.
    """
    written = _without_blanks(record.model_dump(by_alias=True, exclude_defaults=True))
    if isinstance(record, Recipe):
        return {"schema": record.schema_, **written}
    return written


def _without_blanks(table: dict[str, Any]) -> dict[str, Any]:
    """Drop what a file cannot hold or need not say; tuples become lists.

    An empty table says nothing. An empty list does: ``ignition = []`` is not the
    same as no ``ignition``.
    """
    made = {key: _plain(value) for key, value in table.items() if value is not None}
    return {key: value for key, value in made.items() if value != {}}


def _plain(value: Any) -> Any:  # noqa: ANN401  # whatever a record dumps to
    if isinstance(value, dict):
        return _without_blanks(value)
    if isinstance(value, list | tuple):
        return [_plain(item) for item in value]
    return value


def _lines(recipe: Recipe) -> tuple[StockLine, ...]:
    blend = recipe.blend.line if recipe.blend is not None else ()
    return (*recipe.line, *blend)


def materials_used(recipe: Recipe, materials: Materials) -> Materials:
    """Return the part of a shelf that a recipe reaches.

    Parameters
    ----------
    recipe : Recipe
        The recipe. A name that is nowhere on the shelf is passed over.
    materials : Materials
        The shelf.

    Returns
    -------
    Materials
        The materials and stock blends behind its lines, through stock blends and
        diluents, each whole with all its lots, in the order of the shelf; the
        caps on components, on the load and on those materials; the confirmed
        matches; the workshop.
    """
    stocks: dict[str, Stock] = {s.id: s for s in (*materials.stock, *recipe.stock)}
    shelf: dict[str, Material] = {m.id: m for m in materials.material}
    found_stocks: set[str] = set()
    found: set[str] = set()
    waiting: list[StockLine] = [*_lines(recipe), *_all_lines(recipe.stock)]
    while waiting:
        line = waiting.pop()
        if line.stock in stocks and line.stock not in found_stocks:
            found_stocks.add(line.stock)
            waiting.extend(stocks[line.stock].line)
        name = line.material
        while name in shelf and name not in found:
            found.add(name)
            dilution = shelf[name].dilution
            name = dilution.diluent if dilution is not None else None
    return materials.model_copy(
        update={
            "material": tuple(m for m in materials.material if m.id in found),
            "stock": tuple(s for s in materials.stock if s.id in found_stocks),
            "cap": tuple(
                cap
                for cap in materials.cap
                if cap.on != "material" or cap.material in found | {None}
            ),
        }
    )


def _all_lines(stocks: Iterable[Stock]) -> list[StockLine]:
    return [line for stock in stocks for line in stock.line]


def snapshot(recipe: Recipe, materials: Materials) -> dict[str, Any]:
    """Return what a check of a recipe rests on, as plain data.

    Parameters
    ----------
    recipe : Recipe
        The recipe.
    materials : Materials
        The shelf; only what the recipe reaches is kept, see
        :func:`materials_used`.

    Returns
    -------
    dict
        ``recipe`` and ``materials``, each as its file would hold it. The records
        validate them back to an equal recipe and an equal part of the shelf.
    """
    return {
        "recipe": as_written(recipe),
        "materials": as_written(materials_used(recipe, materials)),
    }


def content_hash(recipe: Recipe, materials: Materials, on: date) -> str:
    """Return a hash of everything that a check rests on.

    Parameters
    ----------
    recipe : Recipe
        The recipe.
    materials : Materials
        The shelf.
    on : date
        The day of the check.

    Returns
    -------
    str
        The first 12 hexadecimal digits of the SHA-256 of the snapshot and the
        day, as JSON with sorted keys and without spaces, in UTF-8. The same
        printed texts give the same hash; a material that the recipe does not
        reach does not touch it.
    """
    content = {**snapshot(recipe, materials), "on": on.isoformat()}
    text = json.dumps(
        content, ensure_ascii=False, sort_keys=True, separators=(",", ":")
    )
    return hashlib.sha256(text.encode()).hexdigest()[:SHOWN]
