"""Records to files: remarks survive, and the old file is never lost."""

import os
import secrets
from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar

from blendcheck.errors import InputError
from blendcheck.files.loading import is_csv
from blendcheck.files.reading import (
    materials_from_text,
    read_file,
    recipe_from_text,
)
from blendcheck.files.writing import dump_materials, dump_recipe
from blendcheck.records.fields import Record
from blendcheck.records.material import Materials
from blendcheck.records.recipe import Recipe
from blendcheck.records.snapshot import as_written

__all__ = [
    "materials_text",
    "recipe_text",
    "save_materials",
    "save_recipe",
    "whole",
    "write_file",
]

_R = TypeVar("_R", bound=Record)
_MARK = b"\xef\xbb\xbf"


def write_file(path: Path, data: bytes) -> None:
    """Write a file in one step: readers see the old one or the whole new one.

    Parameters
    ----------
    path : Path
        Where. A link is followed; an old file's permissions are kept.
    data : bytes
        What.

    Raises
    ------
    InputError
        If the folder is missing or the file cannot be written; the old file is
        then as it was.
    """
    target = path.resolve()
    spare = target.with_name(f".{target.name}.{secrets.token_hex(4)}.tmp")
    try:
        with spare.open("xb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        if target.exists():
            spare.chmod(target.stat().st_mode & 0o7777)
        spare.replace(target)
        _sync_folder(target.parent)
    except (OSError, ValueError) as error:
        spare.unlink(missing_ok=True)
        reason = getattr(error, "strerror", None) or str(error)
        raise InputError(
            f"the file cannot be written: {reason}",
            "Choose a folder that you may write to",
            where=str(path),
            code="not-written",
        ) from None


def _sync_folder(folder: Path) -> None:
    """Make the new name last through a power cut, where the system can."""
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def _plain(value: Any) -> Any:  # noqa: ANN401  # whatever a record dumps to
    if isinstance(value, dict):
        return {key: _plain(item) for key, item in value.items()}
    return [_plain(x) for x in value] if isinstance(value, list | tuple) else value


def whole(record: Record) -> dict[str, Any]:
    """Return every field of a record, defaults included, as plain tables.

    Parameters
    ----------
    record : Record
        Any record.
    """
    return {k: _plain(v) for k, v in record.model_dump(by_alias=True).items()}


def _held(path: Path, read: Callable[[str, str], _R], was: _R | None) -> tuple[str, _R]:
    """Return the text of a file that is there, and its record."""
    text = read_file(path)
    try:
        held = read(text, str(path))
    except InputError as error:
        raise InputError(
            f"the file that is there cannot be read, so it is left as it is "
            f"({error.sentence})",
            "Correct it, or save under another name",
            code="not-written",
        ) from error
    if was is not None and was != held:
        raise InputError(
            "the file was changed by somebody else since it was read",
            "Read it again, or save under another name",
            where=str(path),
            code="changed-meanwhile",
        )
    return text, held


def _edited(text: str, old: Record, new: Record) -> str:
    # tomlkit is only needed here, and costs time at start-up
    from blendcheck.files.editing import edited

    return edited(text, whole(old), whole(new), as_written(new))


def recipe_text(recipe: Recipe, text: str) -> str:
    """Return the text of a recipe's file with only what differs changed.

    Parameters
    ----------
    recipe : Recipe
        What the file shall hold.
    text : str
        What it holds now, its lines ended by a line feed.

    Returns
    -------
    str
        The new text; remarks, order and layout survive.

    Raises
    ------
    InputError
        If ``text`` cannot be read, or the new one does not read back equal
        (``not-written``).
    """
    new = _edited(text, recipe_from_text(text), recipe)
    _reads_back(new, recipe, recipe_from_text, Path("recipe"))
    return new


def materials_text(materials: Materials, text: str) -> str:
    """Return the text of a materials file with only what differs changed.

    Parameters
    ----------
    materials : Materials
        What the file shall hold.
    text : str
        What it holds now, its lines ended by a line feed.

    Returns
    -------
    str
        The new text; remarks, order and layout survive.

    Raises
    ------
    InputError
        As for :func:`recipe_text`.
    """
    new = _edited(text, materials_from_text(text), materials)
    _reads_back(new, materials, materials_from_text, Path("materials"))
    return new


def _save(
    path: Path,
    record: _R,
    read: Callable[[str, str], _R],
    dump: Callable[[_R], str],
    was: _R | None,
) -> None:
    if not path.exists():
        text = dump(record)
        _reads_back(text, record, read, path)
        write_file(path, text.encode())
        return
    old_text, old = _held(path, read, was)
    if old == record:
        return
    text = _edited(old_text, old, record)
    _reads_back(text, record, read, path)
    data = path.read_bytes()
    mark = _MARK if data.startswith(_MARK) else b""
    line_end = "\r\n" if b"\r\n" in data else "\n"
    write_file(path, mark + text.replace("\n", line_end).encode())


def _reads_back(
    text: str, record: _R, read: Callable[[str, str], _R], path: Path
) -> None:
    """Refuse a text that does not hold what it should; nothing is written then."""
    try:
        same = read(text, str(path)) == record
    except InputError:
        same = False
    if not same:
        raise InputError(
            "what was to be written does not read back the same, so nothing was "
            "written",
            "Save under another name, and report how this file is laid out",
            where=str(path),
            code="not-written",
        )


def save_recipe(path: str | Path, recipe: Recipe, *, was: Recipe | None = None) -> None:
    """Write a recipe file; in one that exists only what differs is changed.

    Parameters
    ----------
    path : str or Path
        The file. Its remarks, its order and its layout survive.
    recipe : Recipe
        What it shall hold.
    was : Recipe, optional
        What the caller believes that the file holds: if it holds something else,
        nothing is written.

    Raises
    ------
    InputError
        If a file that exists cannot be read (``not-written``) or holds something
        else than ``was`` (``changed-meanwhile``), or if the new one cannot be
        written or does not read back equal (``not-written``). The old file is
        then as it was.
    """
    _save(Path(path), recipe, recipe_from_text, dump_recipe, was)


def save_materials(
    path: str | Path, materials: Materials, *, was: Materials | None = None
) -> None:
    """Write a materials file; in one that exists only what differs is changed.

    Parameters
    ----------
    path : str or Path
        A TOML file, whose remarks, order and layout survive, or the flat table if
        its name ends in ``.csv``.
    materials : Materials
        What it shall hold.
    was : Materials, optional
        As for :func:`save_recipe`.

    Raises
    ------
    InputError
        As for :func:`save_recipe`.
    """
    path = Path(path)
    if not is_csv(path):
        _save(path, materials, materials_from_text, dump_materials, was)
        return
    from blendcheck.files.table_reading import materials_from_csv
    from blendcheck.files.tables import materials_to_csv

    text = materials_to_csv(materials)
    if path.exists():
        _held(path, materials_from_csv, was)
    _reads_back(text, materials, materials_from_csv, path)
    # the mark tells spreadsheets that it is UTF-8
    write_file(path, _MARK + text.encode())
