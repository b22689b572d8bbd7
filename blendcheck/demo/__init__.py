"""An invented workshop on a windy coast: its shelf and eight recipes, as files.

Every name and figure in these files is made up; they show what papers look like in
their different states, and nothing in them may be used for a real product.
"""

from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from pathlib import Path
from types import MappingProxyType

from blendcheck.errors import InputError

__all__ = ["MATERIALS", "demo_files", "write_demo"]

MATERIALS = "materials.toml"
"""Name of the materials file; every other file is a recipe that uses it."""


@cache
def demo_files() -> Mapping[str, str]:
    """Return the files of the demo.

    Returns
    -------
    mapping of str to str
        Text by file name: the materials file, then the recipes in the order of
        their names. Lines end in a line feed.

    Examples
    --------
    >>> next(iter(demo_files()))
    'materials.toml'
    """
    found = {
        one.name: one.read_text(encoding="utf-8")
        for one in files(__name__).iterdir()
        if one.name.endswith(".toml")
    }
    ordered = sorted(found, key=lambda name: (name != MATERIALS, name))
    return MappingProxyType({name: found[name] for name in ordered})


def write_demo(folder: Path) -> tuple[Path, ...]:
    """Write the files of the demo into a folder.

    Parameters
    ----------
    folder : Path
        Where to; it is made if it is not there.

    Returns
    -------
    tuple of Path
        What was written, the materials file first.

    Raises
    ------
    InputError
        ``exists`` if a file of one of these names is already there, in which case
        nothing is written; ``not-written`` if the folder cannot be written to.
    """
    texts = {folder / name: text for name, text in demo_files().items()}
    there = [path.name for path in texts if path.exists() or path.is_symlink()]
    if there:
        raise InputError(
            f"{folder} already has {', '.join(there)}, and nothing is overwritten",
            "Name an empty or a new folder",
            code="exists",
        )
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for path, text in texts.items():
            # "x" refuses what came to be there since it was looked at
            with path.open("x", encoding="utf-8", newline="\n") as file:
                file.write(text)
    except OSError as error:
        raise InputError(
            f"the demo cannot be written to {folder}: {error.strerror or error}",
            "Name a folder that you may write to",
            code="not-written",
        ) from error
    return tuple(texts)
