"""Rows of caps copied out of a certificate, line by line."""

import re
from typing import Final

from pydantic import ValidationError

from blendcheck.errors import InputError
from blendcheck.files.pasted import PastedLine, PastedTable
from blendcheck.files.pasted_text import is_punctuation, pasted_lines, plain
from blendcheck.quantity import (
    CapText,
    Limit,
    Missing,
    NotAdded,
    NotApplicable,
    NotPermitted,
    print_cap,
    read_cap,
)
from blendcheck.quantity.cleaning import shown
from blendcheck.records.material import CapEntry

__all__ = ["read_pasted_caps"]

LONGEST: Final = 400  # characters of a line
MOST: Final = 500  # lines

_CATEGORY_WORD: Final = re.compile(
    r"\b(?:categor(?:y|ies)|cat\.?|class)(?![a-z])", re.I
)
_CATEGORY: Final = re.compile(
    r"(?:(?:category|cat\.?|class)[ :.#]*)?([0-9]{1,2})(?:[. ]?([A-D]))?"
    r"(?![\w%]|[.,][0-9]| ?%| ?ppm)[.):]?",
    re.IGNORECASE,
)
_SECOND: Final = re.compile(
    r"\s*(?:,|/|&|\+|and|-|to)\s*[0-9]{1,2}[A-D]?(?![\w.%])", re.I
)
_FOOTNOTE: Final = re.compile(
    r"[*\"']*(n/a|n\.a\.|na|0|-)[\"']*\s*(?:=|:|means|indicates|stands for)\s*\S.*",
    re.IGNORECASE,
)
_NOT_APPLICABLE: Final = frozenset({"n/a", "na", "n.a.", "n.a"})
_DIGIT: Final = re.compile(r"[0-9]")
# A semicolon is part of a cap: "not as an added ingredient; max 0.01 %".
_CELL_END: Final = re.compile(r"\t+|\|| {2,}|\.{4,}")
_MARK_BEHIND: Final = re.compile(r"\*+$")
_MOST_WORDS: Final = 9  # "not permitted as an added ingredient; max 0.01 %"
_EDGES: Final = " |:;,.-"


class _AskError(Exception):
    """A line has more than one reading, or none."""


def _is_cap(text: str) -> bool:
    """Say whether a text is a cap, or one that is asked about."""
    if is_punctuation(text) and text != "-":
        return False
    try:
        read_cap(text)
    except InputError as error:
        return error.code not in {"unreadable", "blank", "characters"}
    return True


def _printed(rest: str) -> tuple[str, str]:
    """Return the cap at the end of a line, and the words in front of it."""
    cells = [cell.strip() for cell in _CELL_END.split(rest) if cell.strip()]
    if cells and _is_cap(cells[-1]) and len(cells) > 1:
        front = cells[:-1]
        if any(_is_cap(cell) for cell in front if not is_punctuation(cell)):
            both = " and ".join(shown(cell) for cell in cells if _is_cap(cell))
            raise _AskError(f"{both} could each be the cap")
        return cells[-1], " ".join(cell for cell in front if not is_punctuation(cell))
    words = " ".join(cells).strip().lstrip(":|").split()
    for first in range(max(0, len(words) - _MOST_WORDS), len(words)):
        cap = " ".join(words[first:])
        if not _is_cap(cap):
            continue
        front_words = words[:first]
        rest = " ".join(words[first + 1 :])
        if front_words and words[first][0].isdigit() and _is_cap(rest):
            pair = (words[first], rest)  # "Room spray 5 not added"
        elif front_words and _DIGIT.search(front_words[-1]):
            pair = (front_words[-1], cap)
        else:
            return cap, " ".join(front_words)
        raise _AskError(f"{' and '.join(map(shown, pair))} could each be the cap")
    raise _AskError("no cap stands behind the category")


def _state(cap: CapText) -> str:
    match cap:
        case Limit():
            return f"at most {print_cap(cap)} of the finished product"
        case NotAdded():
            return print_cap(cap)
        case NotPermitted() if _DIGIT.search(cap.printed):
            return "not permitted, for a 0 is printed: is it one on the paper too?"
        case NotApplicable():
            return "not applicable: paste the footnote that says what it means as well"
        case Missing():
            return "nothing is stated"
    return cap.state


class _Reader:
    def __init__(self, footnotes: dict[str, str], common: dict[str, str]) -> None:
        self.footnotes, self.common = footnotes, common
        self.seen: dict[str, str] = {}

    def take(self, source: str) -> PastedLine[CapEntry]:
        line = plain(source).strip().strip("|").strip()
        if len(source) > LONGEST:
            said = "the line is too long to be one row"
            return PastedLine(source, "question", None, said)
        if _FOOTNOTE.fullmatch(line):
            return PastedLine(source, "skipped", None, "the footnote")
        try:
            return self._row(source, line)
        except _AskError as ask:
            return PastedLine(source, "question", None, str(ask))

    def _row(self, source: str, line: str) -> PastedLine[CapEntry]:
        found = _CATEGORY.match(line)
        if found is None:
            if _CATEGORY_WORD.search(line) and _DIGIT.search(line):
                raise _AskError("the category does not stand first on this line")
            if "%" in line and _DIGIT.search(line):
                raise _AskError("a figure without its category")
            return PastedLine(source, "skipped", None, "no category at its start")
        rest = line[found.end() :]
        another = _CATEGORY_WORD.search(rest) and _DIGIT.search(rest)
        if _SECOND.match(rest) or another:
            raise _AskError("more than one category: write one line for each")
        category = found[1] + (found[2] or "").upper()
        printed, words = _printed(rest)
        entry = self._entry(category, printed)
        if category in self.seen:
            raise _AskError(
                f"category {category} stands above as {shown(self.seen[category])}"
            )
        self.seen[category] = printed
        message = f"category {category}: {_state(entry.cap)}"
        words = words.strip(_EDGES)
        if words:
            message += f"; left out: {words}"
        return PastedLine(source, "row", entry, message)

    def _entry(self, category: str, printed: str) -> CapEntry:
        token = _MARK_BEHIND.sub("", printed).casefold()
        key = "n/a" if token in _NOT_APPLICABLE else token
        fields = {
            **self.common,
            "category": category,
            "printed": printed,
            "footnote": self.footnotes.get(key, ""),
        }
        try:
            return CapEntry.model_validate(fields)
        except ValidationError as error:
            inner = error.errors()[0].get("ctx", {}).get("error")
            said = inner.sentence if isinstance(inner, InputError) else str(error)
            raise _AskError(said) from None


def _footnotes(lines: list[str]) -> dict[str, str]:
    found: dict[str, str] = {}
    for line in lines:
        note = _FOOTNOTE.fullmatch(plain(line).strip().strip("|").strip())
        if note is not None:
            token = note[1].casefold()
            key = "n/a" if token in _NOT_APPLICABLE else token
            found.setdefault(key, line.strip())
    return found


def read_pasted_caps(
    text: str, *, scheme: str, edition: str = "", document: str | None = None
) -> PastedTable[CapEntry]:
    """Read rows of caps as they come out of a certificate.

    Parameters
    ----------
    text : str
        One category a line, with what is printed for it: ``Category 9  14.46 %``,
        ``Cat. 5A | 0.5``, ``9 Not restricted``, ``12 N/A``. At most 500 lines.
    scheme, edition : str
        Whose caps they are, and by which edition; nothing is taken from the text.
    document : str, optional
        Id of the paper.

    Returns
    -------
    PastedTable of CapEntry
        Every line that is not blank, and how it was understood, each a cap on the
        material. A line such as ``N/A = no restriction`` is taken as the footnote
        of what it explains. Asked about: two figures that could be the cap, more
        than one category on a line, a category that stands twice, a decimal comma,
        a figure without its category.

    Raises
    ------
    InputError
        If there are more than 500 lines.

    Examples
    --------
    >>> table = read_pasted_caps("Cat. 9  14.46 %", scheme="our own", edition="1")
    >>> table.lines[0].message
    'category 9: at most 14.46 % of the finished product'
    """
    sources = pasted_lines(text)
    if len(sources) > MOST:
        raise InputError(
            f"{len(sources)} lines are more than a table of {MOST}",
            "Paste the rows of caps only",
            code="too-large",
        )
    common = {"scheme": scheme, "edition": edition}
    if document is not None:
        common["document"] = document
    reader = _Reader(_footnotes(sources), common)
    return PastedTable(tuple(reader.take(source) for source in sources))
