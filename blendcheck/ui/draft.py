"""What is typed for one record: its tables as text, and what validation refuses."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Final

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from blendcheck.errors import InputError

__all__ = ["Draft", "Path", "Row", "get", "problems_of", "put"]

Path = tuple[str | int, ...]
"""Keys and positions from 0 that lead to a value of a draft."""

Row = dict[str, Any]
"""One row of a table in a draft."""


@dataclass
class Draft:
    """What is typed for one record, beside the last record that was accepted.

    Parameters
    ----------
    raw : dict
        The tables of its file, figures as typed.
    text : str
        The file that it was read from, with its remarks; blank for a new one.
    tables : dict
        For each table on the page the number of its widget and the rows that it
        started from.
    """

    raw: dict[str, Any]
    text: str = ""
    tables: dict[Path, tuple[int, list[Row]]] = field(default_factory=dict)

    def changed(self) -> None:
        """Say that the draft was changed from outside its form."""
        self.tables.clear()


def get(raw: Any, path: Path) -> Any:  # noqa: ANN401  # whatever a file holds
    """Return what a draft holds at a path, ``None`` where it holds nothing.

    Parameters
    ----------
    raw : dict or list
        The draft, or a part of it.
    path : Path
        Where to look.
    """
    for part in path:
        if isinstance(raw, dict):
            raw = raw.get(str(part))
        elif isinstance(raw, list) and isinstance(part, int) and part < len(raw):
            raw = raw[part]
        else:
            return None
    return raw


def put(raw: dict[str, Any], path: Path, value: Any) -> None:  # noqa: ANN401
    """Write a value into a draft; ``None`` takes it out, and emptied tables too.

    Parameters
    ----------
    raw : dict
        The draft.
    path : Path
        Keys that lead to the value.
    value : Any
        The value.
    """
    head, rest = path[0], path[1:]
    inner: Any = raw
    if not rest:
        if value is None:
            inner.pop(head, None)
        else:
            inner[head] = value
        return
    if isinstance(inner, list):
        put(inner[int(head)], rest, value)
        return
    table = inner.setdefault(head, {})
    put(table, rest, value)
    if table == {}:
        del inner[head]


_SAID: Final[Mapping[str, str]] = {
    "missing": "not filled in: write it, or delete the row",
    "string_too_short": "is blank: write it, or delete the row",
    "int_parsing": "is not a whole number: write digits only, like 24",
    "int_type": "is not a whole number: write digits only, like 24",
    "int_from_float": "is not a whole number: write digits only, like 24",
    "int_parsing_size": "has too many digits",
    "bool_parsing": "is neither yes nor no",
}


_ON_THE_PAGE: Final[Mapping[str, str]] = {
    "hazard-empty": "no class stands here. Write the classes as the sheet prints them, "
    'or "not classified" if that is what it says',
}
"""Sentences for refusals whose own words speak of a file."""


def _sentence(detail: ErrorDetails) -> str:
    inner = detail.get("ctx", {}).get("error")
    if isinstance(inner, InputError):
        return _ON_THE_PAGE.get(inner.code, inner.sentence)
    kind = detail["type"]
    given = detail["input"]
    shown_input = f'"{given}" ' if isinstance(given, str | int) and given != "" else ""
    if kind in _SAID:
        return (shown_input if kind != "missing" else "") + _SAID[kind]
    if kind == "literal_error":
        return f"{shown_input}is not one of {detail['ctx']['expected']}"
    limits = detail.get("ctx", {})
    for key, word in (("ge", "at least"), ("le", "at most"), ("max_length", "at most")):
        if key in limits:
            unit = " characters" if key == "max_length" else ""
            return f"{shown_input}must be {word} {limits[key]}{unit}"
    return f"{shown_input}cannot be read: {detail['msg']}"


def problems_of(error: ValidationError) -> dict[Path, str]:
    """Return what validation refused, by the place in the draft.

    Parameters
    ----------
    error : ValidationError
        What validation raised.

    Returns
    -------
    dict of Path to str
        One sentence for each place, the first where there are several.
    """
    found: dict[Path, str] = {}
    for detail in error.errors(include_url=False):
        found.setdefault(tuple(detail["loc"]), _sentence(detail))
    return found
