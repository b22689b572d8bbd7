"""Recipe and materials files in TOML, tables in CSV, tables pasted from papers.

The parts that a check of a recipe does not need (saving, CSV, pasted tables) are
imported when they are first asked for.
"""

import importlib
from typing import TYPE_CHECKING, Any

from blendcheck.files.loading import load, load_materials
from blendcheck.files.reading import (
    load_recipe,
    materials_from_text,
    recipe_from_text,
    text_from_bytes,
)

if TYPE_CHECKING:
    from blendcheck.files.cells import rows_to_csv
    from blendcheck.files.pasted import PastedLine, PastedTable, confirm, without
    from blendcheck.files.pasted_caps import read_pasted_caps
    from blendcheck.files.pasted_components import read_pasted_components
    from blendcheck.files.saving import (
        materials_text,
        recipe_text,
        save_materials,
        save_recipe,
    )
    from blendcheck.files.table_reading import materials_from_csv
    from blendcheck.files.tables import materials_to_csv
    from blendcheck.files.writing import dump_materials, dump_recipe

__all__ = [
    "PastedLine",
    "PastedTable",
    "confirm",
    "dump_materials",
    "dump_recipe",
    "load",
    "load_materials",
    "load_recipe",
    "materials_from_csv",
    "materials_from_text",
    "materials_text",
    "materials_to_csv",
    "read_pasted_caps",
    "read_pasted_components",
    "recipe_from_text",
    "recipe_text",
    "rows_to_csv",
    "save_materials",
    "save_recipe",
    "text_from_bytes",
    "without",
]

_LATER = {
    "PastedLine": "pasted",
    "PastedTable": "pasted",
    "confirm": "pasted",
    "dump_materials": "writing",
    "dump_recipe": "writing",
    "materials_from_csv": "table_reading",
    "materials_text": "saving",
    "materials_to_csv": "tables",
    "read_pasted_caps": "pasted_caps",
    "read_pasted_components": "pasted_components",
    "recipe_text": "saving",
    "rows_to_csv": "cells",
    "save_materials": "saving",
    "save_recipe": "saving",
    "without": "pasted",
}


def __getattr__(name: str) -> Any:  # noqa: ANN401  # the names of _LATER
    if name not in _LATER:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    module = importlib.import_module(f"{__name__}.{_LATER[name]}")
    return getattr(module, name)
