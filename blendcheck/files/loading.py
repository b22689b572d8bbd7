"""A recipe together with the materials file that it names."""

from pathlib import Path

from blendcheck.errors import InputError
from blendcheck.files.reading import load_recipe, materials_from_text, read_file
from blendcheck.records.material import Materials
from blendcheck.records.recipe import Recipe

__all__ = ["is_csv", "load", "load_materials"]


def is_csv(path: Path) -> bool:
    """Say whether a file is a table by its name.

    Parameters
    ----------
    path : Path
        The file.
    """
    return path.suffix.casefold() == ".csv"


def load_materials(path: str | Path) -> Materials:
    """Read a materials file: TOML, or the flat table if its name ends in ``.csv``.

    Parameters
    ----------
    path : str or Path
        A file of at most 5 MB.

    Returns
    -------
    Materials
        The shelf.

    Raises
    ------
    InputError
        If it is missing or cannot be read; the message names file, line and
        field. A :class:`~blendcheck.errors.QuestionError` where a text has more
        than one meaning.
    """
    path = Path(path)
    text = read_file(path)
    if is_csv(path):
        # not needed for a recipe in TOML, and start-up counts
        from blendcheck.files.table_reading import materials_from_csv

        return materials_from_csv(text, str(path))
    return materials_from_text(text, str(path))


def load(
    recipe_path: str | Path, materials_path: str | Path | None = None
) -> tuple[Recipe, Materials]:
    """Read a recipe and its materials.

    Parameters
    ----------
    recipe_path : str or Path
        The recipe.
    materials_path : str or Path, optional
        The materials file; by default the one that the recipe names, looked for
        from the folder of the recipe.

    Returns
    -------
    tuple of Recipe and Materials
        Both, as written.

    Raises
    ------
    InputError
        If one of them is missing or cannot be read.
    """
    recipe_path = Path(recipe_path)
    recipe = load_recipe(recipe_path)
    if materials_path is not None:
        return recipe, load_materials(materials_path)
    named = recipe_path.parent / recipe.materials
    if not named.exists():
        raise InputError(
            f'it names the materials file "{recipe.materials}", and there is no '
            f"{named}",
            'Correct materials = "..." in the recipe, or name the file with '
            "--materials",
            where=str(recipe_path),
            code="no-materials-file",
        )
    return recipe, load_materials(named)
