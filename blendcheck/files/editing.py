"""Change a few values of a TOML text and leave everything else as it stands.

A text is cut into sections: the remarks directly above a header belong to that
header and stay with it. Inside a section the fields are changed with tomlkit,
which keeps remarks, order and spacing of lines and lists. (Over a whole file it
counts the remark above a header to the table before it: a field added there
would land below that remark, and deleting a table would leave its remark to the
next one.)
"""

from dataclasses import dataclass, field
from typing import Any, Final

import tomlkit
from tomlkit.exceptions import TOMLKitError
from tomlkit.items import Array
from tomlkit.toml_document import TOMLDocument

from blendcheck.errors import InputError
from blendcheck.files.alignment import match
from blendcheck.files.places import Path, layout_of
from blendcheck.files.writing import (
    EMPTY_SHELF,
    header_text,
    is_inline,
    table_text,
    value_text,
)

__all__ = ["edited"]

_ABSENT: Final = object()
Table = dict[str, Any]


@dataclass(slots=True, eq=False)
class _Node:
    """A table of the text: its section, if it has one, and the tables below it."""

    path: Path
    lead: str = ""  # blank lines and remarks directly above the header
    header: str = ""
    body: str = ""
    tail: str = ""  # remarks below the last field
    below: list["_Node"] = field(default_factory=list)

    @property
    def keys(self) -> tuple[str, ...]:
        return tuple(part for part in self.path if isinstance(part, str))

    def text(self) -> str:
        own = self.lead + self.header + self.body + self.tail
        return own + "".join(node.text() for node in self.below)

    def children(self, key: str) -> list["_Node"]:
        """Return the tables of one name below this one, in order."""
        depth = len(self.path)
        return [node for node in self.below if node.path[depth] == key]


def edited(text: str, old: Table, new: Table, written: Table) -> str:
    """Return a text with the values that differ changed.

    Parameters
    ----------
    text : str
        TOML, its lines ended by a line feed.
    old, new : dict
        Every field of the record that the text holds, and of the one that it
        shall hold, defaults included.
    written : dict
        The fields of the new record that a file need state.

    Returns
    -------
    str
        The new text. What is equal in ``old`` and ``new`` is not touched.

    Raises
    ------
    InputError
        If tomlkit cannot make the change (code ``not-written``).
    """
    if old == new:
        return text
    if not text.endswith("\n"):
        text += "\n"
    root = _tree(text)
    try:
        _change(root, old, new, written)
    except TOMLKitError as error:
        raise InputError(
            f"the file is laid out in a way that cannot be edited ({error})",
            "Save under another name",
            code="not-written",
        ) from None
    result = root.text()
    return result if result.strip() else EMPTY_SHELF


def _tree(text: str) -> _Node:
    sections = layout_of(text).sections
    root = _Node(())
    lead = ""
    for number, section in enumerate(sections):
        last = number + 1 == len(sections)
        until = len(text) if last else sections[number + 1].start
        tail, next_lead = _cut(text[section.body_end : until], last=last)
        node = _reach(root, section.path)
        node.lead, node.tail = lead, tail
        node.header = text[section.start : section.end]
        node.body = text[section.end : section.body_end]
        lead = next_lead
    return root


def _cut(gap: str, *, last: bool) -> tuple[str, str]:
    """Cut what stands between two sections into the end of one, the lead of the next.

    The remarks directly above a header are its own, with the blank lines above
    them.
    """
    if last:
        return gap, ""
    lines = gap.splitlines(keepends=True)
    at = len(lines)
    while at and lines[at - 1].strip():
        at -= 1
    while at and not lines[at - 1].strip():
        at -= 1
    return "".join(lines[:at]), "".join(lines[at:])


def _reach(root: _Node, path: Path) -> _Node:
    """Return the node of a path; tables that have no header get one without text."""
    node, at = root, 0
    while at < len(path):
        at += 2 if at + 1 < len(path) and isinstance(path[at + 1], int) else 1
        found = next((n for n in node.below if n.path == path[:at]), None)
        if found is None:
            found = _Node(path[:at])
            node.below.append(found)
        node = found
    return node


def _change(node: _Node, old: Table, new: Table, written: Table) -> None:
    body = tomlkit.parse(node.body)
    for key in dict.fromkeys((*old, *new)):
        before, after = old.get(key), new.get(key)
        if before == after:
            continue
        value = written.get(key, _ABSENT)
        if key in body:
            _change_field(body, key, before, after, value)
        elif node.children(key):
            _change_tables(node, key, before, after, value)
        elif value is not _ABSENT:
            _add(node, body, key, value)
    node.body = tomlkit.dumps(body)


def _add(node: _Node, body: TOMLDocument, key: str, value: Any) -> None:  # noqa: ANN401
    if is_inline((*node.keys, key), value):
        if node.path and not node.header:  # only its own tables were written so far
            node.lead, node.header = "\n", header_text(node.keys, repeated=False)
        body[key] = _item(value)
        return
    repeated = isinstance(value, list)
    for position, item in enumerate(value if repeated else [value]):
        path = (*node.path, key, position) if repeated else (*node.path, key)
        node.below.append(_new(path, item))


def _new(path: Path, table: Table) -> _Node:
    node = _Node(path, lead="\n")
    node.header = header_text(node.keys, repeated=isinstance(path[-1], int))
    node.body = table_text(node.keys, table)
    return node


def _change_tables(node: _Node, key: str, old: Any, new: Any, value: Any) -> None:  # noqa: ANN401
    nodes = node.children(key)
    if value is _ABSENT:
        node.below = [child for child in node.below if child not in nodes]
    elif isinstance(new, dict):
        _change(nodes[0], old or {}, new, value)
    else:
        _change_repeated(node, key, old, new, value)


def _change_repeated(
    node: _Node, key: str, old: list[Table], new: list[Table], written: list[Table]
) -> None:
    nodes = node.children(key)
    made: list[_Node] = []
    for position, source in enumerate(match(old, new)):
        if source is None:
            made.append(_new((*node.path, key, position), written[position]))
        else:
            _change(nodes[source], old[source], new[position], written[position])
            made.append(nodes[source])
    # The tables take the old ones' places in the file, what is left over follows.
    result: list[_Node] = []
    places = len(nodes)
    for child in node.below:
        if child not in nodes:
            result.append(child)
            continue
        places -= 1
        result.extend(made[:1] if places else made)
        made = made[1:] if places else []
    node.below = result


def _item(value: Any) -> Any:  # noqa: ANN401
    """Return a value for tomlkit, spelt as everywhere else."""
    if isinstance(value, list) and value and isinstance(value[0], dict):
        rows = "".join(f"  {value_text(row)},\n" for row in value)
        return tomlkit.value(f"[\n{rows}]")
    return tomlkit.value(value_text(value))


def _change_field(holder: Any, key: str, old: Any, new: Any, value: Any) -> None:  # noqa: ANN401
    """Change one field of a section's body, or of an inline table in it."""
    present = holder[key]
    if value is _ABSENT:
        del holder[key]
    elif isinstance(present, Array) and isinstance(new, list):
        _change_list(holder, key, old, new, value)
    elif isinstance(present, dict) and isinstance(new, dict):
        _change_inline(present, old or {}, new, value)
    else:
        holder[key] = _item(value)


def _change_inline(present: Any, old: Table, new: Table, written: Table) -> None:  # noqa: ANN401
    """Change the fields of an inline table, or of one with dotted keys."""
    for key in dict.fromkeys((*old, *new)):
        before, after = old.get(key), new.get(key)
        value = written.get(key, _ABSENT)
        if before == after:
            continue
        if key in present:
            _change_field(present, key, before, after, value)
        elif value is not _ABSENT:
            present[key] = _item(value)


def _change_list(
    holder: Any,  # noqa: ANN401
    key: str,
    old: list[Any],
    new: list[Any],
    written: list[Any],
) -> None:
    sources = match(old, new)
    kept = [source for source in sources if source is not None]
    if kept != sorted(kept):  # a new order: the list is written anew
        holder[key] = _item(written)
        return
    present = holder[key]
    for position in sorted(set(range(len(old))) - set(kept), reverse=True):
        del present[position]
    for position, source in enumerate(sources):
        if source is None:
            present.insert(position, _item(written[position]))
        elif old[source] != new[position]:
            if isinstance(new[position], dict):
                _change_inline(
                    present[position], old[source], new[position], written[position]
                )
            else:
                present[position] = _item(written[position])
