"""Where each value of a TOML text stands: lines for messages, spans for edits.

The standard library reads TOML but forgets the lines. This scanner walks a text
that ``tomllib`` has already accepted, so it need not refuse anything; it only
remembers where tables and values begin and end, and how they are spelt.
"""

import re
import tomllib
from dataclasses import dataclass, field
from typing import Final

from blendcheck.errors import InputError

__all__ = ["Layout", "Path", "Place", "Section", "layout_of"]

Path = tuple[str | int, ...]
"""Keys and positions (from 0) that lead to a value."""

_BLANK: Final = re.compile(r"[ \t]*")
_GAP: Final = re.compile(r"(?:[ \t\r\n]|#[^\n]*)*")
_KEY: Final = re.compile(r"""[A-Za-z0-9_-]+|"(?:[^"\\\n]|\\.)*"|'[^'\n]*'""")
_STRING: Final = re.compile(
    r'"""(?:[^\\]|\\.)*?"""(?:"{0,2})|\'\'\'.*?\'\'\'(?:\'{0,2})'
    r'|"(?:[^"\\\n]|\\.)*"|\'[^\'\n]*\'',
    re.DOTALL,
)
_BARE: Final = re.compile(
    r"[0-9]{4}-[0-9]{2}-[0-9]{2} [0-9]{2}:[^\s,\]}#]*|[^\s,\]}#]+"
)


@dataclass(frozen=True, slots=True)
class Place:
    """Where a value stands.

    Parameters
    ----------
    line : int
        Line of its key or header, from 1.
    raw : str
        The value as spelt; blank for a table that has a header.
    """

    line: int
    raw: str = ""


@dataclass(slots=True)
class Section:
    """A header, ``[process]`` or ``[[line]]``, with the fields below it.

    Parameters
    ----------
    path : Path
        The table that it opens, with the position of every repeated table; empty
        for what stands above the first header.
    start, end : int
        Where the header's line begins, and where the next one does. [characters]
    body_end : int
        Where the line after the last field begins. [characters]
    """

    path: Path
    start: int
    end: int
    body_end: int


@dataclass(slots=True)
class Layout:
    """What a text holds, and where.

    Parameters
    ----------
    places : dict of Path to Place
        Every value and every table that is written out.
    sections : list of Section
        What stands above the first header, then each header in its order.
    """

    places: dict[Path, Place] = field(default_factory=dict)
    sections: list[Section] = field(default_factory=list)

    def nearest(self, path: Path) -> Place | None:
        """Return the place of a value, or of the smallest table around it.

        Parameters
        ----------
        path : Path
            Where to look.
        """
        for length in range(len(path), 0, -1):
            found = self.places.get(path[:length])
            if found is not None:
                return found
        return None


def layout_of(text: str) -> Layout:
    """Find every value of a TOML text.

    Parameters
    ----------
    text : str
        A text that ``tomllib.loads`` accepts, its lines ended by a line feed.

    Returns
    -------
    Layout
        The places of its values and the spans of its sections.
    """
    return _Scanner(text).run()


class _Scanner:
    def __init__(self, text: str) -> None:
        self.text, self.at = text, 0
        self.layout = Layout(sections=[Section((), 0, 0, 0)])
        self.counts: dict[Path, int] = {}  # tables read so far under a [[header]]
        self.table: Path = ()
        self.line, self.line_at = 1, 0

    def run(self) -> Layout:
        self._skip(_GAP)
        while self.at < len(self.text):
            if self.text[self.at] == "[":
                self._header()
            else:
                self._pair(self.table, self._line_here())
                self.layout.sections[-1].body_end = self._next_line()
            self._skip(_GAP)
        return self.layout

    def _skip(self, pattern: re.Pattern[str]) -> str:
        found = pattern.match(self.text, self.at)
        if found is None:
            return ""
        self.at = found.end()
        return found.group()

    def _line_here(self) -> int:
        self.line += self.text.count("\n", self.line_at, self.at)
        self.line_at = self.at
        return self.line

    def _next_line(self) -> int:
        end = self.text.find("\n", self.at)
        return len(self.text) if end < 0 else end + 1

    def _keys(self) -> tuple[str, ...]:
        """Read a key, dotted or not."""
        keys = []
        while True:
            self._skip(_BLANK)
            keys.append(_plain_key(self._skip(_KEY)))
            self._skip(_BLANK)
            if self.text[self.at : self.at + 1] != ".":
                return tuple(keys)
            self.at += 1

    def _header(self) -> None:
        start = self.text.rfind("\n", 0, self.at) + 1
        line = self._line_here()
        repeated = self.text.startswith("[[", self.at)
        self.at += 2 if repeated else 1
        *parents, last = self._keys()
        path: Path = ()
        for key in parents:
            path = self._into(path, key)
            self.layout.places.setdefault(path, Place(line))
        path = (*path, last)
        if repeated:
            position = self.counts.get(path, 0)
            self.counts[path] = position + 1
            if position == 0:
                self.layout.places[path] = Place(line)
            path = (*path, position)
        self.table = path
        self.layout.places[path] = Place(line)
        self.at = self._next_line()
        self.layout.sections.append(Section(path, start, self.at, self.at))

    def _into(self, path: Path, key: str) -> Path:
        """Step into a table; of repeated tables the last one is meant."""
        path = (*path, key)
        count = self.counts.get(path)
        return path if count is None else (*path, count - 1)

    def _pair(self, table: Path, line: int) -> None:
        keys = self._keys()
        self.at += 1  # the equals sign
        self._skip(_BLANK)
        for length in range(1, len(keys)):
            self.layout.places.setdefault((*table, *keys[:length]), Place(line))
        self._value((*table, *keys), line)

    def _value(self, path: Path, line: int) -> None:
        start = self.at
        match self.text[self.at]:
            case "[":
                self._list(path)
            case "{":
                self._inline_table(path)
            case '"' | "'":
                self._skip(_STRING)
            case _ if not self._skip(_BARE):
                raise InputError(
                    f"line {line} is not laid out as TOML", "Compare it with the README"
                )
        self.layout.places[path] = Place(line, self.text[start : self.at])

    def _list(self, path: Path) -> None:
        self.at += 1
        self._skip(_GAP)
        position = 0
        while self.text[self.at] != "]":
            self._value((*path, position), self._line_here())
            position += 1
            self._skip(_GAP)
            if self.text[self.at] == ",":
                self.at += 1
                self._skip(_GAP)
        self.at += 1

    def _inline_table(self, path: Path) -> None:
        self.at += 1
        self._skip(_GAP)
        while self.text[self.at] != "}":
            self._pair(path, self._line_here())
            self._skip(_GAP)
            if self.text[self.at] == ",":
                self.at += 1
                self._skip(_GAP)
        self.at += 1


def _plain_key(spelt: str) -> str:
    if spelt[:1] in {'"', "'"}:
        return str(tomllib.loads(f"key = {spelt}")["key"])
    return spelt
