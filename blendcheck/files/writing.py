"""Records to TOML in one canonical layout, as a person would write it by hand."""

import re
from typing import Any, Final

from blendcheck.errors import InputError
from blendcheck.records.material import Materials
from blendcheck.records.recipe import Recipe
from blendcheck.records.snapshot import as_written

__all__ = [
    "EMPTY_SHELF",
    "dump_materials",
    "dump_recipe",
    "header_text",
    "is_inline",
    "key_text",
    "table_text",
    "value_text",
]

_PLAIN_KEY: Final = re.compile(r"[A-Za-z0-9_-]+")
_ESCAPES: Final = {
    '"': '\\"',
    "\\": "\\\\",
    "\b": "\\b",
    "\t": "\\t",
    "\n": "\\n",
    "\f": "\\f",
    "\r": "\\r",
}
_ONE_LINE_EACH: Final = frozenset({"row", "cap"})
EMPTY_SHELF: Final = "# An empty shelf: materials go here, each under [[material]].\n"

Keys = tuple[str, ...]


def _character(sign: str) -> str:
    if sign in _ESCAPES:
        return _ESCAPES[sign]
    if sign.isprintable():
        return sign
    code = ord(sign)
    return f"\\u{code:04X}" if code <= 0xFFFF else f"\\U{code:08X}"


def key_text(key: str) -> str:
    """Return a key as TOML writes it.

    Parameters
    ----------
    key : str
        Any text.
    """
    return key if _PLAIN_KEY.fullmatch(key) else value_text(key)


def value_text(value: Any) -> str:  # noqa: ANN401  # whatever a record dumps to
    """Return a value on one line, as TOML writes it.

    Parameters
    ----------
    value : str, bool, int, list or dict
        A value of :func:`~blendcheck.records.snapshot.as_written`. What does not
        print, spaces that are not plain ones included, is escaped.

    Raises
    ------
    InputError
        If it is of another kind.
    """
    match value:
        case str():
            return f'"{"".join(map(_character, value))}"'
        case bool():
            return "true" if value else "false"
        case int():
            return str(value)
        case list():
            return f"[{', '.join(map(value_text, value))}]"
        case dict():
            pairs = (f"{key_text(k)} = {value_text(v)}" for k, v in value.items())
            return f"{{ {', '.join(pairs)} }}" if value else "{}"
    raise InputError(f"{value!r} cannot be written to a file")


def is_inline(keys: Keys, value: Any) -> bool:  # noqa: ANN401
    """Say whether a value goes below its table's header, not under its own.

    Parameters
    ----------
    keys : tuple of str
        The keys that lead to it.
    value : Any
        The value. Rows of a component list, and caps of a material, stand one a
        line, as on the paper.
    """
    if isinstance(value, dict):
        return False
    if isinstance(value, list) and value and isinstance(value[0], dict):
        return len(keys) > 1 and keys[-1] in _ONE_LINE_EACH
    return True


def header_text(keys: Keys, *, repeated: bool) -> str:
    """Return a header line.

    Parameters
    ----------
    keys : tuple of str
        The keys that lead to the table.
    repeated : bool
        Whether the table repeats.
    """
    dotted = ".".join(map(key_text, keys))
    return f"[[{dotted}]]\n" if repeated else f"[{dotted}]\n"


def _pair_text(key: str, value: Any) -> str:  # noqa: ANN401
    if isinstance(value, list) and value and isinstance(value[0], dict):
        rows = "".join(f"  {value_text(row)},\n" for row in value)
        return f"{key_text(key)} = [\n{rows}]\n"
    return f"{key_text(key)} = {value_text(value)}\n"


def table_text(keys: Keys, table: dict[str, Any]) -> str:
    """Return the fields of a table and, below them, the tables in it.

    Parameters
    ----------
    keys : tuple of str
        The keys that lead to the table; its own header is not written.
    table : dict
        The table, as :func:`~blendcheck.records.snapshot.as_written` gives it.

    Returns
    -------
    str
        Whole lines; a blank line stands above every header.
    """
    inline = {k: v for k, v in table.items() if is_inline((*keys, k), v)}
    parts = [_pair_text(key, value) for key, value in inline.items()]
    for key, value in table.items():
        if key in inline:
            continue
        path = (*keys, key)
        repeated = isinstance(value, list)
        for item in value if repeated else [value]:
            parts.append("\n" + header_text(path, repeated=repeated))
            parts.append(table_text(path, item))
    return "".join(parts)


def dump_recipe(recipe: Recipe) -> str:
    """Return a recipe as TOML.

    Parameters
    ----------
    recipe : Recipe
        The recipe.

    Returns
    -------
    str
        A text that reads back to an equal recipe. Fields that are not given or
        equal their default are left out.
    """
    return table_text((), as_written(recipe))


def dump_materials(materials: Materials) -> str:
    """Return a shelf as TOML.

    Parameters
    ----------
    materials : Materials
        The shelf.

    Returns
    -------
    str
        A text that reads back to an equal shelf; one line of remark if it is
        empty.
    """
    return table_text((), as_written(materials)).lstrip("\n") or EMPTY_SHELF
