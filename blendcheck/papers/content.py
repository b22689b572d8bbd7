"""What stands on a paper, before anything is drawn: titles, sentences, tables, blanks.

Every rendering starts from the same content, so that the printed paper, the page in
the browser and the plain text say the same.
"""

import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

from blendcheck.errors import InputError

__all__ = [
    "KINDS",
    "SMALL",
    "Blank",
    "Blanks",
    "Kind",
    "Lines",
    "Paper",
    "Part",
    "Section",
    "Table",
    "texts",
    "tidied",
    "tidy",
    "unprintable",
]

Kind = Literal["card", "label", "bottle", "batch", "note", "swallowed"]

KINDS: tuple[Kind, ...] = ("card", "label", "bottle", "batch", "note", "swallowed")
"""Gift card, label, label of a bottle of the neat blend, batch sheet, note for the
file, sheet for when a piece was swallowed."""


SMALL: frozenset[Kind] = frozenset({"card", "label", "bottle"})
"""Papers of which many stand on a sheet."""


@dataclass(frozen=True, slots=True)
class Lines:
    """Sentences one below the other.

    Parameters
    ----------
    items : tuple of str
        The sentences.
    form : {"plain", "list", "ticks", "run"}
        Paragraphs, a list, a list with a box to tick in front of each, or a list
        that may run on in one paragraph where there is little room.
    tone : {"plain", "lead", "strong", "soft"}
        How much it stands out.
    """

    items: tuple[str, ...]
    form: Literal["plain", "list", "ticks", "run"] = "plain"
    tone: Literal["plain", "lead", "strong", "soft"] = "plain"


@dataclass(frozen=True, slots=True)
class Table:
    """Rows under heads.

    Parameters
    ----------
    caption : str
        What the table shows.
    heads : tuple of str
        Column heads, with units.
    rows : tuple of tuple of str
        Cells; the first names the row.
    numbers : tuple of int
        Columns that hold numbers, from 0.
    fill : tuple of int
        Columns that are left blank, to be filled in by hand.
    wide : tuple of int
        Columns that hold sentences and take what room is left.
    """

    caption: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    numbers: tuple[int, ...] = ()
    fill: tuple[int, ...] = ()
    wide: tuple[int, ...] = (0,)


@dataclass(frozen=True, slots=True)
class Blank:
    """A name with its value, or with room to write where there is none."""

    name: str
    value: str = ""


@dataclass(frozen=True, slots=True)
class Blanks:
    """Names with values or blanks, beside each other or one below the other."""

    items: tuple[Blank, ...]


Part = Lines | Table | Blanks


@dataclass(frozen=True, slots=True)
class Section:
    """A part of a paper with its title; of a card, one of its sides.

    Parameters
    ----------
    title : str
        The title; blank for none.
    parts : tuple of Part
        What stands in it.
    side : {"front", "inside", "back"}
        Where it stands on a card that has sides.
    """

    title: str
    parts: tuple[Part, ...]
    side: Literal["front", "inside", "back"] = "front"


@dataclass(frozen=True, slots=True)
class Paper:
    """One paper, ready to be drawn.

    Parameters
    ----------
    kind : Kind
        Which paper it is.
    title : str
        Its title.
    about : str
        What it is about: the name of the recipe.
    sections : tuple of Section
        What stands on it.
    trace : str
        What it was made from, and when.
    stamp : str
        Year, month, day, hour and minute of the snapshot, twelve digits.
    left_off : tuple of str
        What the maker must know before it is printed, in sentences for the face: what
        is not on it, what is to be added by hand, words that claim too much.
    """

    kind: Kind
    title: str
    about: str
    sections: tuple[Section, ...]
    trace: str
    stamp: str
    left_off: tuple[str, ...] = ()

    @property
    def names_recipe(self) -> bool:
        """Whether the name of the recipe stands below the title.

        A card and a label have the maker's title, and nothing beside it.
        """
        return self.kind not in SMALL and self.about != self.title


def tidy(text: str) -> str:
    """Return a text on one line, with single spaces.

    Parameters
    ----------
    text : str
        Any text.
    """
    return " ".join(text.split())


def _tidy_part(part: Part, title: str) -> Part:
    match part:
        case Lines():
            return replace(part, items=tuple(map(tidy, part.items)))
        case Table():
            rows = tuple(tuple(map(tidy, row)) for row in part.rows)
            heads = tuple(map(tidy, part.heads))
            caption = "" if part.caption == title else tidy(part.caption)
            return replace(part, caption=caption, heads=heads, rows=rows)
        case Blanks():
            items = (Blank(tidy(one.name), tidy(one.value)) for one in part.items)
            return Blanks(tuple(items))


def tidied(paper: Paper) -> Paper:
    """Return a paper with every text on one line, with single spaces.

    A caption that says what the title above it says is left out.

    Parameters
    ----------
    paper : Paper
        The paper.
    """
    sections = tuple(
        replace(
            one,
            title=tidy(one.title),
            parts=tuple(_tidy_part(p, one.title) for p in one.parts),
        )
        for one in paper.sections
    )
    return replace(
        paper, title=tidy(paper.title), about=tidy(paper.about), sections=sections
    )


def texts(paper: Paper) -> Iterator[str]:
    """Return every text of a paper in reading order.

    Parameters
    ----------
    paper : Paper
        The paper.

    Yields
    ------
    str
        Titles, sentences, heads, cells, names and values.
    """
    yield paper.title
    if paper.names_recipe:
        yield paper.about
    for section in paper.sections:
        yield section.title
        for part in section.parts:
            yield from _texts(part)
    yield paper.trace


def _texts(part: Part) -> Iterator[str]:
    match part:
        case Lines():
            yield from part.items
        case Table():
            yield part.caption
            yield from part.heads
            for row in part.rows:
                yield from row
        case Blanks():
            for one in part.items:
                yield one.name
                yield one.value


def unprintable(paper: Paper) -> None:
    """Refuse a paper with a sign that shows nothing or turns its line round.

    Parameters
    ----------
    paper : Paper
        The paper.

    Raises
    ------
    InputError
        ``sign`` if a text holds a control character, a mark that reverses what
        follows it, half a character or one that no standard defines.
    """
    for text in texts(paper):
        for sign in text:
            if unicodedata.category(sign) in ("Cc", "Cf", "Cs", "Co", "Cn"):
                start = text[: text.index(sign)][-20:]
                after = f' after "{start}"' if start else ""
                raise InputError(
                    f"a text holds the invisible character U+{ord(sign):04X}{after}",
                    "Delete it and type the text again",
                    code="sign",
                )
