"""Papers as PDF and as a picture, set by typst.

Texts go in as JSON and are never read as markup. The PDF follows PDF/UA-1: tagged, so
that it can be read aloud. A card that is too long and a sign that the font lacks stop
the work with a sentence; nothing is cut off or left out. The same paper gives the
same bytes, because its date is that of the snapshot.
"""

import json
import re
from dataclasses import asdict
from functools import cache
from importlib.resources import as_file, files
from math import isqrt
from typing import Any, Final

from blendcheck.errors import InputError
from blendcheck.papers.content import SMALL, Blanks, Lines, Paper, Part, Section, Table
from blendcheck.papers.layout import Layout

__all__ = ["LEAST_SIZE", "drawings", "pdf", "pictures"]

LEAST_SIZE: Final = 8
"""Smallest text on cards and sheets; on the label of a bottle it is 7.5. [pt]"""

_HELD: Final = "\N{NO-BREAK SPACE}"
_BEFORE_UNIT: Final = re.compile(r"(?<=[0-9]) (?=(?:%|g|oz|mL|mm|K|°C)(?![A-Za-z]))")
_BREAK: Final = "\N{ZERO WIDTH SPACE}"
_UNBROKEN: Final = re.compile(r"\S{25}(?=\S)")
_LONGEST_SHARE: Final = 60
"""Signs from which a longer text asks for no more room than another. [1]"""

_ROOM_BESIDE: Final = 4
"""Signs that the space beside a column takes. [1]"""

_LONGEST_WORD: Final = 24
"""Signs of a word that is not broken. [1]"""

_MANY_ROWS: Final = 24
"""Rows of tables from which a sheet is set closer. [1]"""

_LONG: Final = re.compile(r"too long\|([a-z]+)\|([0-9]+)")
_LACKING: Final = re.compile(r'the text `"(.*?)"` could not be displayed', re.DOTALL)

_GRIDS: Final[dict[str, dict[str, Any]]] = {
    "8": {"columns": 2, "rows": 4, "sizes": [8], "large": 12, "inset": 4},
    "4": {"columns": 2, "rows": 2, "sizes": [10], "large": 16, "inset": 8},
    "folded": {"columns": 2, "rows": 2, "sizes": [10], "large": 18, "inset": 9},
    "small": {"columns": 2, "rows": 4, "sizes": [8.5], "large": 10, "inset": 3},
    "medium": {"columns": 2, "rows": 3, "sizes": [9.5, 8.5], "large": 11, "inset": 3},
    "large": {"columns": 2, "rows": 2, "sizes": [11, 10, 9, 8.5]}
    | {"large": 14, "inset": 6},
}
"""Cards and labels on a sheet: columns, rows, sizes of text of which the largest that
fits is taken [pt], size of the title [pt], inner edge [mm].

Labels start at 8.5 pt: 21 CFR 701.3(b) asks for letters of 1/16 inch, 4.5 pt, and a
lower-case letter of this font is 0.547 of its size high.
"""

_BOTTLES: Final[dict[str, dict[str, Any]]] = {
    "small": {"columns": 2, "rows": 3, "sizes": [7.5], "large": 9, "inset": 3},
    "medium": {"columns": 2, "rows": 2, "sizes": [8.5, 7.5], "large": 10, "inset": 4},
    "large": {"columns": 1, "rows": 2, "sizes": [11, 10, 9, 8.5]}
    | {"large": 13, "inset": 7},
}
"""The same for a bottle, whose words for hazards take more room."""

_PANELS: Final = {
    "front": "the front of the card",
    "inside": "the left inside of the card",
    "cautions": "the inside of the card",
    "back": "the back of the card",
    "label": "the label",
}


@cache
def _source(kind: str) -> bytes:
    """Return the template of a paper, in one piece."""
    names = {
        "card": ("common", "cut", "card"),
        "folded": ("common", "cut", "folded"),
        "label": ("common", "cut", "label"),
        "bottle": ("common", "cut", "label"),
    }.get(kind, ("common", "sheet"))
    folder = files("blendcheck.papers") / "templates"
    return b"\n".join((folder / f"{name}.typ").read_bytes() for name in names)


def pdf(paper: Paper, layout: Layout) -> bytes:
    """Set a paper as PDF.

    Parameters
    ----------
    paper : Paper
        Its content.
    layout : Layout
        The sheet, and how many on it.

    Returns
    -------
    bytes
        The file; the same bytes for the same paper and layout.

    Raises
    ------
    InputError
        ``too-long`` if a card or a label does not fit; ``glyph`` for a sign that
        the font cannot show.
    """
    made = _compile(paper, layout, format="pdf", pdf_standards="ua-1")
    return made[0]


def pictures(
    paper: Paper, layout: Layout, *, ppi: int = 110, printed: bool = False
) -> tuple[bytes, ...]:
    """Set a paper as pictures, one a page.

    Parameters
    ----------
    paper : Paper
        Its content.
    layout : Layout
        The sheet, and how many on it.
    ppi : int, default 110
        Pixels to the inch.
    printed : bool, default False
        Whether the same was set as PDF before, and nothing was refused.

    Returns
    -------
    tuple of bytes
        PNG files.

    Raises
    ------
    InputError
        As :func:`pdf`, which is made first: a picture alone would show a box for a
        sign that the font lacks.
    """
    if not printed:
        pdf(paper, layout)
    return _compile(paper, layout, format="png", ppi=float(ppi))


def drawings(paper: Paper, layout: Layout) -> tuple[bytes, ...]:
    """Draw a paper that was set as PDF before, and that nothing was refused of.

    In half the time of a picture, and sharp at every size.

    Parameters
    ----------
    paper : Paper
        Its content.
    layout : Layout
        The sheet, and how many on it.

    Returns
    -------
    tuple of bytes
        SVG files, one a page; every letter is an outline.
    """
    return _compile(paper, layout, format="svg")


def _compile(paper: Paper, layout: Layout, **how: Any) -> tuple[bytes, ...]:  # noqa: ANN401
    import typst  # 0.1 s, only for papers that are printed

    data = json.dumps(_data(paper, layout), ensure_ascii=False)
    kind = paper.kind
    folded = kind == "card" and layout.cards == "folded"
    with as_file(files("blendcheck.papers") / "fonts") as folder:
        try:
            made: object = typst.compile(
                _source("folded" if folded else kind),
                root=str(folder),
                font_paths=_fonts(str(folder)),
                sys_inputs={"data": data},
                timestamp=_seconds(paper.stamp),
                **how,
            )
        except typst.TypstError as error:
            raise _refused(str(error.diagnostic), paper, layout) from None
    pages = made if isinstance(made, list) else [made]
    return tuple(page for page in pages if isinstance(page, bytes))


@cache
def _fonts(folder: str) -> Any:  # noqa: ANN401  # typst is not imported up there
    """Return the fonts of the papers, looked for once and never on the machine."""
    import typst

    return typst.Fonts(include_system_fonts=False, font_paths=[folder])


def _seconds(stamp: str) -> int:
    """Return the moment of a snapshot as typst takes it, read as universal time."""
    from calendar import timegm
    from time import strptime

    return timegm(strptime(stamp, "%Y%m%d%H%M"))


def _refused(said: str, paper: Paper, layout: Layout) -> InputError:
    """Turn what typst says into a sentence."""
    lacking = list(dict.fromkeys("".join(_LACKING.findall(said))))
    if lacking:
        signs = ", ".join(f"{sign} (U+{ord(sign):04X})" for sign in lacking[:5])
        return InputError(
            f"the printed papers have no sign for {signs}",
            "Write it in other letters, or take the paper as HTML, Markdown or text",
            code="glyph",
        )
    long = _LONG.search(said)
    if long:
        name, missing = _PANELS[long[1]], long[2]
        return InputError(
            f"{name} does not fit: it is {missing} mm too long",
            _advice(paper, layout),
            code="too-long",
        )
    raise InputError(f"the paper cannot be set: {said.splitlines()[0]}", code="not-set")


def _advice(paper: Paper, layout: Layout) -> str:
    is_card = paper.kind == "card"
    larger = "a larger card" if is_card else "a larger label"
    largest = layout.cards if is_card else layout.labels
    shorter = "shorten the texts"
    if largest in ("4", "folded"):
        return shorter
    if largest == "large":
        return f"{shorter}, or take it as HTML and print that"
    return f"choose {larger}, or {shorter}"


# -- the content as plain data -------------------------------------------------


def _data(paper: Paper, layout: Layout) -> dict[str, Any]:
    made: dict[str, Any] = {
        "title": _broken(paper.title),
        "about": _broken(paper.about),
        "trace": paper.trace,
        "sheet": "a4" if layout.sheet == "a4" else "us-letter",
        "sections": [_section(one) for one in paper.sections],
    }
    on_sheet = paper.kind not in SMALL
    made["above"] = {
        "plain": 0.75,
        "lead": 1.2,
        "strong": 1.2 if on_sheet else 0.8,
        "soft": 0.9,
    }
    made["dense"] = paper.kind == "note" or _rows(paper) > _MANY_ROWS
    made["folded"] = paper.kind == "card" and layout.cards == "folded"
    made["packed"] = paper.kind in ("label", "bottle") and layout.labels != "large"
    if paper.kind == "card":
        made |= {"tight": layout.cards == "8", **_GRIDS[layout.cards]}
    if paper.kind == "label":
        made |= {"tight": layout.labels != "large", **_GRIDS[layout.labels]}
    if paper.kind == "bottle":
        made |= {"tight": True, **_BOTTLES[layout.labels]}
    return made


def _rows(paper: Paper) -> int:
    parts = (part for section in paper.sections for part in section.parts)
    return sum(len(part.rows) for part in parts if isinstance(part, Table))


def _section(section: Section) -> dict[str, Any]:
    return {
        "title": _broken(section.title),
        "side": section.side,
        "parts": [_part(part) for part in section.parts],
    }


def _part(part: Part) -> dict[str, Any]:
    kinds = {Lines: "lines", Table: "table", Blanks: "blanks"}
    made = {"type": kinds[type(part)], **_all_broken(asdict(part))}
    if isinstance(part, Table):
        made["shares"] = _shares(part)
    return made


def _shares(table: Table) -> list[int]:
    """Return how much room each wide column asks for.

    Between the mean and the longest text, so that one long cell does not take the
    room of many; never less than the longest word.
    """
    shares = []
    for n, head in enumerate(table.heads):
        texts = [row[n] for row in table.rows if row[n]]
        longest = min(max(map(len, texts), default=1), _LONGEST_SHARE)
        mean = min(sum(map(len, texts)) // max(len(table.rows), 1), _LONGEST_SHARE)
        word = max(map(len, " ".join((head, *texts)).split()), default=1)
        asked = max(isqrt(longest * mean), longest // 3, min(word, _LONGEST_WORD))
        shares.append(asked + _ROOM_BESIDE)
    return shares


def _all_broken(value: Any) -> Any:  # noqa: ANN401  # whatever a part holds
    if isinstance(value, str):
        return _broken(value)
    if isinstance(value, dict):
        return {key: _all_broken(inner) for key, inner in value.items()}
    if isinstance(value, list | tuple):
        return [_all_broken(inner) for inner in value]
    return value


def _broken(text: str) -> str:
    """Let a line end inside what has no space for 25 signs, never before a unit."""
    held = _BEFORE_UNIT.sub(_HELD, text)
    return _UNBROKEN.sub(lambda found: found[0] + _BREAK, held)
