"""What a record refuses, said for the maker: file, line, field, reason and fix."""

import difflib
import re
import typing
from collections.abc import Callable, Iterable
from typing import Any, Final

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from blendcheck.errors import InputError
from blendcheck.files.places import Layout, Path
from blendcheck.quantity.cleaning import shown
from blendcheck.records.fields import Record

__all__ = ["nearest", "path_text", "refused"]

_OPTIONS: Final = re.compile(r"'([^']*)'")
_PLAIN_KEY: Final = re.compile(r"[A-Za-z0-9_-]+")

_Found = dict[Path, tuple[int, ErrorDetails, type[Record] | None]]


def nearest(word: str, known: Iterable[str]) -> str | None:
    """Return the known word that is spelt most like another, if one is close.

    Parameters
    ----------
    word : str
        What was written.
    known : iterable of str
        What could have been meant.
    """
    by_case = {k.casefold(): k for k in known}
    close = difflib.get_close_matches(word.casefold(), by_case, n=1, cutoff=0.6)
    return by_case[close[0]] if close else None


def path_text(path: Path) -> str:
    """Return a path as a message names it, counted from 1: ``line[3].amount``.

    Parameters
    ----------
    path : Path
        Keys and positions from 0.
    """
    text = ""
    for part in path:
        if isinstance(part, int):
            text += f"[{part + 1}]"
        else:
            key = part if _PLAIN_KEY.fullmatch(part) else f'"{part}"'
            text += f".{key}" if text else key
    return text


def refused(
    error: ValidationError, model: type[Record], layout: Layout, where: str
) -> InputError:
    """Return one message for everything that a record refused.

    Parameters
    ----------
    error : ValidationError
        What validation raised.
    model : type of Record
        The record that was to be made.
    layout : Layout
        Where the values stand in the file.
    where : str
        Name of the file.

    Returns
    -------
    InputError
        The refusal that stands first in the file, with the number of others. A
        question keeps its class and code.
    """
    found: _Found = {}
    for detail in error.errors(include_url=False):
        path, table = _trace(model, detail["loc"])
        place = layout.nearest(path)
        line = place.line if place is not None else 0
        if path not in found or detail["type"] == "value_error":
            found[path] = (line, detail, table)
    path = min(found, key=lambda path: _order(path, found))
    line, detail, table = found[path]
    said = _say(detail, path, table)
    others = len(found) - 1
    if others:
        more = f"({others} more to correct after this one)"
        fix = f"{said.fix} {more}" if said.fix else more
        said = type(said)(said.what, fix, where=said.where, code=said.code)
    places = (where, f"line {line}" if line else "", path_text(path))
    return said.at(", ".join(place for place in places if place))


def _order(path: Path, found: _Found) -> tuple[bool, int]:
    """Sort by line; a missing field comes after a misspelt one of its table."""
    line, detail, _ = found[path]
    misspelt = detail["type"] == "missing" and any(
        other[:-1] == path[:-1] and found[other][1]["type"] == "extra_forbidden"
        for other in found
    )
    return misspelt, line


def _trace(
    model: type[Record], loc: tuple[int | str, ...]
) -> tuple[Path, type[Record] | None]:
    """Follow a place through the records.

    Returns the place in the file, without what validation adds to it (the
    branch of a union, ``[key]``), and the record whose field it is.
    """
    path: list[int | str] = []
    table: type[Record] | None = None
    inside: type[Record] | type[dict[str, Any]] | None = model
    for part in loc:
        if isinstance(part, int):
            path.append(part)
            continue
        if inside is None or part == "[key]":
            break
        path.append(part)
        if inside is dict:
            inside = None
            continue
        table = typing.cast("type[Record]", inside)
        field = next(
            (f for n, f in table.model_fields.items() if part == (f.alias or n)), None
        )
        inside = None if field is None else _inside(field.annotation)
    return tuple(path), table


def _inside(annotation: Any) -> type[Record] | type[dict[str, Any]] | None:  # noqa: ANN401
    """Return the kind of table that a field holds, if it holds one."""
    if isinstance(annotation, type):
        return annotation if issubclass(annotation, Record) else None
    if typing.get_origin(annotation) is dict:
        return dict
    for argument in typing.get_args(annotation):
        found = _inside(argument)
        if found is not None:
            return found
    return None


def _fields(table: type[Record]) -> list[str]:
    return [f.alias or name for name, f in table.model_fields.items()]


def _meant(word: str, known: Iterable[str]) -> str:
    known = list(known)
    close = nearest(word, known)
    if close is not None:
        return f'Did you mean "{close}"?'
    return f"It is one of: {', '.join(known)}"


def _value_error(detail: ErrorDetails, _: str, __: type[Record] | None) -> InputError:
    inner = detail.get("ctx", {}).get("error")
    if isinstance(inner, InputError):
        return inner
    return InputError(str(inner if inner is not None else detail["msg"]))


def _missing(_: ErrorDetails, name: str, __: type[Record] | None) -> InputError:
    return InputError(f'"{name}" is missing', f"Add {name} = ...", code="field-missing")


def _unknown(_: ErrorDetails, name: str, table: type[Record] | None) -> InputError:
    known = _fields(table) if table is not None else []
    return InputError(
        f'there is no field "{name}" here', _meant(name, known), code="field-unknown"
    )


def _option(detail: ErrorDetails, name: str, _: type[Record] | None) -> InputError:
    given = detail["input"]
    if name == "schema":
        return InputError(
            f"schema = {given} is not a form of recipe that this version reads",
            "Use the version of blendcheck that wrote it, or schema = 1",
            code="schema",
        )
    known = _OPTIONS.findall(str(detail.get("ctx", {}).get("expected", "")))
    word = given if isinstance(given, str) else str(given)
    return InputError(
        f'{shown(word)} is not a choice for "{name}"',
        _meant(word, known),
        code="choice",
    )


def _text(detail: ErrorDetails, name: str, _: type[Record] | None) -> InputError:
    given = detail["input"]
    if isinstance(given, dict | list):
        return InputError(
            f'"{name}" is one text, and a list or a table stands there',
            f'Write it like {name} = "..."',
            code="not-text",
        )
    spelt = str(given).lower() if isinstance(given, bool) else str(given)
    if name == "lot":
        return InputError(
            f"the lot {shown(spelt)[1:-1]} is written without quotes",
            f'Write lots in quotes, exactly as printed: lot = "{spelt}"',
            code="lot-quotes",
        )
    return InputError(
        f'"{name}" is a text, and {shown(spelt)[1:-1]} is written without quotes',
        f'Write it in quotes: {name} = "{spelt}"',
        code="not-text",
    )


def _many(detail: ErrorDetails, name: str, _: type[Record] | None) -> InputError:
    if isinstance(detail["input"], dict):
        return InputError(
            f'"{name}" repeats, so its header has two brackets',
            f"Write [[{name}]]",
            code="header-brackets",
        )
    return InputError(
        f'"{name}" is a list', f'Write it like {name} = ["...", "..."]', code="list"
    )


def _table(detail: ErrorDetails, name: str, _: type[Record] | None) -> InputError:
    if isinstance(detail["input"], list):
        return InputError(
            f'"{name}" stands once, so its header has one bracket on each side',
            f"Write [{name}]",
            code="header-brackets",
        )
    return InputError(
        f'"{name}" is a table, and one value stands there',
        f"Write its header, [{name}], and its fields below it",
        code="table",
    )


def _whole(detail: ErrorDetails, name: str, _: type[Record] | None) -> InputError:
    return InputError(
        f'"{name}" is a whole number, and {shown(str(detail["input"]))} is not',
        f"Write it like {name} = 24",
        code="whole-number",
    )


def _yes_or_no(detail: ErrorDetails, name: str, _: type[Record] | None) -> InputError:
    return InputError(
        f'"{name}" is true or false, and {shown(str(detail["input"]))} is neither',
        "Write true or false, without quotes",
        code="true-or-false",
    )


def _bound(detail: ErrorDetails, name: str, _: type[Record] | None) -> InputError:
    limits = detail.get("ctx", {})
    ends = [f"{word} {limits[key]}" for key, word in _ENDS.items() if key in limits]
    return InputError(
        f"{name} = {detail['input']} must be {' and '.join(ends)}", code="out-of-range"
    )


def _length(detail: ErrorDetails, name: str, _: type[Record] | None) -> InputError:
    if detail["type"] == "string_too_long":
        longest = detail.get("ctx", {}).get("max_length")
        return InputError(
            f'"{name}" is too long', f"Keep it to {longest} characters", code="too-long"
        )
    return InputError(f'"{name}" is blank', "Write it, or delete it", code="blank")


_ENDS: Final = {"ge": "at least", "le": "at most", "gt": "above", "lt": "below"}

_Sayer = Callable[[ErrorDetails, str, type[Record] | None], InputError]
_SAY: Final[dict[str, _Sayer]] = {
    "value_error": _value_error,
    "missing": _missing,
    "extra_forbidden": _unknown,
    "literal_error": _option,
    "string_type": _text,
    "tuple_type": _many,
    "model_type": _table,
    "dict_type": _table,
    "int_type": _whole,
    "int_parsing": _whole,
    "int_parsing_size": _whole,
    "int_from_float": _whole,
    "bool_type": _yes_or_no,
    "bool_parsing": _yes_or_no,
    "greater_than_equal": _bound,
    "less_than_equal": _bound,
    "string_too_short": _length,
    "string_too_long": _length,
    "too_short": _length,
}


def _say(detail: ErrorDetails, path: Path, table: type[Record] | None) -> InputError:
    names = [part for part in path if isinstance(part, str)]
    sayer = _SAY.get(detail["type"])
    if sayer is None:
        return InputError(detail["msg"], "Compare it with the README")
    return sayer(detail, names[-1] if names else "", table)
