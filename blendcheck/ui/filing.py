"""Recipes and the shelf as files, with the remarks of the file that they came from."""

import re
from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory

from blendcheck.errors import InputError
from blendcheck.files.saving import save_materials, save_recipe
from blendcheck.files.writing import dump_materials, dump_recipe
from blendcheck.records.material import Materials
from blendcheck.records.recipe import Recipe

__all__ = ["file_name", "materials_file", "recipe_file"]


def file_name(name: str, ending: str) -> str:
    """Return a file name that any system takes.

    Parameters
    ----------
    name : str
        Name of the recipe.
    ending : str
        With its dot.
    """
    words = re.sub(r"[^a-z0-9]+", "-", name.casefold()).strip("-")
    return f"{words[:60].strip('-') or 'recipe'}{ending}"


def recipe_file(recipe: Recipe, text: str) -> str:
    """Return the file of a recipe; the remarks of the file it came from stay.

    Parameters
    ----------
    recipe : Recipe
        The record to write.
    text : str
        The file that it was read from; blank for a new one.
    """
    return _written(
        text, lambda path: save_recipe(path, recipe), lambda: dump_recipe(recipe)
    )


def materials_file(materials: Materials, text: str) -> str:
    """Return the materials file; the remarks of the file it came from stay.

    Parameters
    ----------
    materials : Materials
        The record to write.
    text : str
        The file that it was read from; blank for a new one.
    """
    return _written(
        text,
        lambda path: save_materials(path, materials),
        lambda: dump_materials(materials),
    )


def _written(text: str, save: Callable[[Path], None], dump: Callable[[], str]) -> str:
    if not text:
        return dump()
    with TemporaryDirectory() as folder:
        path = Path(folder) / "page.toml"
        path.write_text(text, encoding="utf-8", newline="\n")
        try:
            save(path)
        except InputError:  # its layout is too odd to be edited in place
            return dump()
        return path.read_text(encoding="utf-8")
