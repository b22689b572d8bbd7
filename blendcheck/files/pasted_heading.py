"""The heading of a pasted component table: which column is which."""

import re
from dataclasses import dataclass
from typing import Final

from blendcheck.files.pasted_text import Codes, cells_of, is_figure

__all__ = ["Heading", "is_heading"]


def _set(words: str) -> frozenset[str]:
    return frozenset(words.split())


_NAME_WORDS: Final = _set(
    "component components constituent constituents compound compounds name substance"
    " substances ingredient ingredients chemical allergen allergens"
)
_SHARE_WORDS: Final = _set(
    "% conc conc. concentration content area share amount range weight w/w percent"
    " percentage ppm mg/kg wt wt. level quantity result"
)
_PEAK_WORDS: Final = _set("rt ri time retention index peak")
_CODE_WORDS: Final = _set("cas ec einecs")
_OTHER_WORDS: Final = _set("no no. # classification hazard inci class")
_WORD: Final = re.compile(r"[\w./%#]+")

# What a heading says about bare numbers below it: what to put behind them.
_HEADING_UNITS: Final = (
    (re.compile(r"g/kg|mg/g|‰|\bmol|per mille|\bppb\b", re.IGNORECASE), None),
    (re.compile(r"ppm|mg/kg", re.IGNORECASE), " ppm"),
    (re.compile(r"v/v|vol", re.IGNORECASE), " % v/v"),
    (re.compile(r"area", re.IGNORECASE), " % (GC area)"),
    (re.compile(r"w/w|m/m|wt|weight", re.IGNORECASE), " % w/w"),
)


@dataclass(frozen=True, slots=True)
class Heading:
    """What the heading of a table says: its columns, and the unit of the share.

    Parameters
    ----------
    columns : tuple of str
        The columns, if there are any.
    share, name : int or None
        Which column holds the share, and which the name; None if that is not clear.
    unit : str or None
        What belongs behind a figure without a unit; None if the heading gives a
        unit that is not read.
    """

    columns: tuple[str, ...] = ()
    share: int | None = None
    name: int | None = None
    unit: str | None = ""

    @classmethod
    def of(cls, line: str) -> "Heading":
        """Read a heading.

        Parameters
        ----------
        line : str
            A plain line.
        """
        cells = cells_of(line)
        kinds = [_column(cell) for cell in cells]
        only = kinds.count("share") == 1
        share = kinds.index("share") if only else None
        name = kinds.index("name") if kinds.count("name") == 1 else None
        says = cells[share] if share is not None else line
        unit = next((unit for sign, unit in _HEADING_UNITS if sign.search(says)), "")
        return cls(tuple(cells), share, name, unit)


def _words(text: str) -> set[str]:
    return {word.casefold() for word in _WORD.findall(text.replace("%", " % "))}


def _column(cell: str) -> str:
    words = _words(cell)
    if words & _PEAK_WORDS:
        return "share" if {"area", "%"} <= words else "other"
    if words & _CODE_WORDS:
        return "code"
    if words & _NAME_WORDS:
        return "name"
    return "share" if words & _SHARE_WORDS else "other"


def is_heading(line: str, codes: Codes) -> bool:
    """Say whether a line is the heading of a component table.

    Parameters
    ----------
    line : str
        A plain line.
    codes : Codes
        What :func:`~blendcheck.files.pasted_text.codes_of` found in it.
    """
    if codes.cas or any(is_figure(cell) for cell in cells_of(codes.rest)):
        return False
    words = _words(line)
    groups = (_NAME_WORDS, _SHARE_WORDS, _PEAK_WORDS | _CODE_WORDS | _OTHER_WORDS)
    return sum(bool(words & group) for group in groups) >= 2
