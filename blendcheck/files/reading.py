"""Recipe and materials files: from bytes to records, with exact numbers.

What finds lines and words messages is imported when something is refused: most
files are not, and the time that a command takes to start counts.
"""

import re
import tomllib
from decimal import Decimal
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final, TypeVar

from pydantic import ValidationError

from blendcheck.errors import InputError
from blendcheck.quantity.cleaning import shown
from blendcheck.records.fields import Record
from blendcheck.records.material import Materials
from blendcheck.records.recipe import Recipe

if TYPE_CHECKING:
    from blendcheck.files.places import Layout

__all__ = [
    "LARGEST",
    "load_recipe",
    "materials_from_text",
    "read_file",
    "recipe_from_text",
    "text_from_bytes",
]

LARGEST: Final = 5_000_000
"""Largest file that is read. [bytes]"""

_PLAIN_BARE: Final = re.compile(
    r"true|false|[+-]?[0-9]+(?:\.[0-9]+)?|[0-9]{4}-[0-9]{2}-[0-9]{2}.*|[0-9]{2}:.*"
)
# A whole number that tomllib reads without a trace: 1_000, 0x10. May find too many.
_ODD_WHOLE: Final = re.compile(
    r"(?:[=\[,]|^)[ \t]*[+-]?(?:0[xob]|[0-9]+_)", re.MULTILINE
)
_MAGIC: Final = {
    b"%PDF": "a PDF",
    b"PK\x03\x04": "a spreadsheet, a word processor file or an archive",
    b"\xd0\xcf\x11\xe0": "an old spreadsheet or word processor file",
    b"\x89PNG": "a picture",
    b"\xff\xd8\xff": "a picture",
}
_UTF16: Final = (b"\xff\xfe", b"\xfe\xff")

_SHARED: Final = frozenset({"stock", "cap"})
_RECIPE_FIELDS: Final = frozenset(
    field.alias or name for name, field in Recipe.model_fields.items()
)
_MATERIALS_FIELDS: Final = frozenset(Materials.model_fields)

_R = TypeVar("_R", bound=Record)


class _Spelt(Decimal):
    """A decimal number that prints as it is spelt in the file."""

    spelt: str

    def __new__(cls, spelt: str) -> "_Spelt":
        made = super().__new__(cls, spelt)
        made.spelt = spelt
        return made

    def __str__(self) -> str:
        return self.spelt


def text_from_bytes(data: bytes, where: str) -> str:
    """Return the text of a file, its lines ended by a line feed.

    Parameters
    ----------
    data : bytes
        What the file holds; UTF-8, with or without a byte order mark.
    where : str
        Name of the file, for messages.

    Returns
    -------
    str
        The text, without the mark.

    Raises
    ------
    InputError
        If it is larger than 5 MB, not a text, or not UTF-8.
    """
    if len(data) > LARGEST:
        raise InputError(
            f"the file is larger than {LARGEST // 1_000_000} MB",
            "A recipe or a materials file is a short text; is it the right file?",
            where=where,
            code="too-large",
        )
    for start, kind in _MAGIC.items():
        if data.startswith(start):
            raise InputError(
                f"the file is {kind}", "Give the TOML file", where=where, code="binary"
            )
    if data.startswith(_UTF16):
        raise _not_utf8(where, "it is UTF-16")
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise _not_utf8(where, f"first in line {line}") from None
    if "\0" in text:
        raise InputError(
            "the file is not a text", "Give the TOML file", where=where, code="binary"
        )
    return text.replace("\r\n", "\n")


def _not_utf8(where: str, detail: str) -> InputError:
    return InputError(
        f"the file is not in UTF-8 ({detail})",
        "Save it again with the encoding UTF-8",
        where=where,
        code="encoding",
    )


def read_file(path: Path) -> str:
    """Return the text of a file.

    Parameters
    ----------
    path : Path
        The file.

    Returns
    -------
    str
        Its text, see :func:`text_from_bytes`.

    Raises
    ------
    InputError
        If there is no such file, it cannot be opened, or it is not a text.
    """
    try:
        with path.open("rb") as file:
            data = file.read(LARGEST + 1)
    except FileNotFoundError:
        raise InputError(
            "there is no such file",
            "Check the name and the folder",
            where=str(path),
            code="no-file",
        ) from None
    except IsADirectoryError:
        raise InputError(
            "this is a folder", "Name a file in it", where=str(path), code="no-file"
        ) from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise InputError(
            f"the file cannot be opened: {reason}", where=str(path), code="no-file"
        ) from None
    return text_from_bytes(data, str(path))


def _tables(text: str, where: str) -> dict[str, Any]:
    """Read TOML, with decimal numbers exact."""
    if not text.strip():
        raise InputError(
            "the file is empty", "Is it the right file?", where=where, code="empty"
        )
    odd = _ODD_WHOLE.search(text) is not None

    def decimal(raw: str) -> _Spelt:
        nonlocal odd
        odd = odd or _PLAIN_BARE.fullmatch(raw) is None
        return _Spelt(raw)

    try:
        tables = tomllib.loads(text, parse_float=decimal)
    except RecursionError:
        raise InputError(
            "the file nests its brackets too deep", where=where, code="toml"
        ) from None
    except tomllib.TOMLDecodeError as error:
        from blendcheck.files.syntax import syntax_error

        raise syntax_error(text, error, where) from None
    except ValueError:  # Python refuses whole numbers of thousands of digits
        raise InputError(
            "a number has thousands of digits", where=where, code="number"
        ) from None
    if odd:
        _refuse_odd_numbers(_layout(text, where), where)
    return tables


def _layout(text: str, where: str) -> "Layout":
    """Find where every value stands."""
    from blendcheck.files.places import layout_of

    try:
        return layout_of(text)
    except RecursionError:
        raise InputError(
            "the file nests its brackets too deep", where=where, code="toml"
        ) from None
    except InputError as error:
        raise error.at(where) from None


def _refuse_odd_numbers(layout: "Layout", where: str) -> None:
    from blendcheck.files.refused import path_text

    for path, place in layout.places.items():
        raw = place.raw
        if raw and raw[0] not in "\"'[{" and not _PLAIN_BARE.fullmatch(raw):
            raise InputError(
                f"{shown(raw)} is a number that is not written in plain digits",
                "Write it like 1000 or 0.5, or in quotes as it is printed",
                where=f"{where}, line {place.line}, {path_text(path)}",
                code="number",
            )


def _record(model: type[_R], tables: dict[str, Any], text: str, where: str) -> _R:
    try:
        return model.model_validate(tables)
    except ValidationError as error:
        from blendcheck.files.refused import refused

        raise refused(error, model, _layout(text, where), where) from None


def recipe_from_text(text: str, where: str = "recipe") -> Recipe:
    """Read a recipe from TOML.

    Parameters
    ----------
    text : str
        The text.
    where : str, default "recipe"
        Name of the file, for messages.

    Returns
    -------
    Recipe
        The recipe, every figure with its printed text.

    Raises
    ------
    InputError
        If it is not TOML, not a recipe, or a field cannot be read; the message
        names file, line and field. A :class:`~blendcheck.errors.QuestionError`
        where a text has more than one meaning.
    """
    tables = _tables(text, where)
    keys = tables.keys()
    if keys & (_MATERIALS_FIELDS - _SHARED) and not keys & {"line", "blend"}:
        raise InputError(
            "this is a materials file, not a recipe",
            'Give the recipe; it names its materials file itself (materials = "...")',
            where=where,
            code="not-a-recipe",
        )
    if not keys & (_RECIPE_FIELDS - _SHARED):
        raise InputError(
            "this is not a recipe: it has neither a name nor a line of one",
            "Give a recipe file; the README shows one",
            where=where,
            code="not-a-recipe",
        )
    return _record(Recipe, tables, text, where)


def materials_from_text(text: str, where: str = "materials") -> Materials:
    """Read materials from TOML.

    Parameters
    ----------
    text : str
        The text. One of remarks only is an empty shelf.
    where : str, default "materials"
        Name of the file, for messages.

    Returns
    -------
    Materials
        The shelf, every figure with its printed text.

    Raises
    ------
    InputError
        As :func:`recipe_from_text`.
    """
    tables = _tables(text, where)
    keys = tables.keys()
    if keys & (_RECIPE_FIELDS - _SHARED) and not keys & (_MATERIALS_FIELDS - _SHARED):
        raise InputError(
            "this is a recipe, not a materials file",
            "Give the file with the [[material]] tables",
            where=where,
            code="not-materials",
        )
    if keys and not keys & _MATERIALS_FIELDS:
        raise InputError(
            "this is not a materials file: it has no [[material]] table",
            "Give a materials file; the README shows one",
            where=where,
            code="not-materials",
        )
    return _record(Materials, tables, text, where)


def load_recipe(path: str | Path) -> Recipe:
    """Read a recipe file.

    Parameters
    ----------
    path : str or Path
        A TOML file of at most 5 MB.

    Returns
    -------
    Recipe
        The recipe.

    Raises
    ------
    InputError
        If it is missing or cannot be read, see :func:`recipe_from_text`.
    """
    return recipe_from_text(read_file(Path(path)), str(path))
