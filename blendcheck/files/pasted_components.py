"""A component table copied out of a paper, line by line."""

import re
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Final

from pydantic import ValidationError

from blendcheck.errors import InputError
from blendcheck.files.pasted import Kind, PastedLine, PastedTable
from blendcheck.files.pasted_heading import Heading, is_heading
from blendcheck.files.pasted_text import (
    Codes,
    cells_of,
    codes_of,
    has_strong_cells,
    has_unit,
    is_figure,
    is_punctuation,
    pasted_lines,
    plain,
    unit_figures,
)
from blendcheck.quantity import exact_text, print_percent, read_number
from blendcheck.quantity.cleaning import shown
from blendcheck.records.material import CompositionRow

__all__ = ["read_pasted_components"]

Line = PastedLine[CompositionRow]

LONGEST: Final = 400  # characters of a line
MOST: Final = 2000  # lines

_TOTAL: Final = re.compile(r"(?:sub-?total|grand total|total|sum)\b", re.IGNORECASE)
_UNIDENTIFIED: Final = re.compile(
    r"(?:total )?(?:(?:not|non|un)[ -]?identified|unresolved|unknowns?\b|n\. ?i\.$"
    r"|others?$|remainder|balance"
    r"|(?:other|minor) (?:constituents|components|compounds))",
    re.IGNORECASE,
)
_FOOTER: Final = re.compile(
    r"(?:page|p\.) ?[0-9]+(?: ?(?:of|/) ?[0-9]+)?", re.IGNORECASE
)
_LETTER: Final = re.compile(r"[^\W\d_]")
_LEADING: Final = re.compile(r"[#(]*([0-9]+(?:[.,][0-9]+)?)[.):,]* +(?=[^\s<>=%~≤≥-])")
_LAST_NUMBER: Final = re.compile(r"(?:^|\s)[0-9]+(?:[.,][0-9]+)?$")
_MOST_WORDS: Final = 8  # of a figure: "not more than 5 % (by weight)"
_EDGES: Final = " ,;:-*|/"


class _AskError(Exception):
    """A line has more than one reading, or none."""


@dataclass(frozen=True, slots=True)
class _Reading:
    """What one line holds."""

    name: str
    figures: tuple[str, ...]
    left_out: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()


@dataclass(slots=True)
class _Reader:
    heading: Heading = field(default_factory=Heading)
    lines: list[Line] = field(default_factory=list)
    waiting: list[int] = field(default_factory=list)  # lines that hold words only
    number: int = 0  # of the last row that was numbered
    seen: dict[str, str] = field(default_factory=dict)
    has_remainder: bool = False

    def take(self, source: str) -> None:
        line = plain(source)
        codes = codes_of(line)
        if len(source) > LONGEST:
            self._add(source, "question", None, "the line is too long to be one row")
        elif is_heading(line, codes):
            self._settle_waiting(skip=not self.seen)
            self.heading = Heading.of(line)
            self._add(source, "skipped", None, "the heading of the table")
        elif _FOOTER.fullmatch(line.strip()):
            self._add(source, "skipped", None, "the number of a page")
        else:
            self._content(source, codes)

    def _content(self, source: str, codes: Codes) -> None:
        try:
            reading = self._read(plain(source), codes)
            self._sort(source, codes, reading)
        except _AskError as ask:
            self._settle_waiting()
            self._add(source, "question", None, str(ask))

    def _sort(self, source: str, codes: Codes, reading: _Reading) -> None:
        name = reading.name
        if not reading.figures and not codes.cas:
            self._words_only(source, codes, name)
            return
        if not name and len(self.waiting) == 1 and not _has_digit(reading.left_out):
            name = self._name_above()
        self._settle_waiting()
        if _TOTAL.match(name) and not codes.cas:
            self._add(source, "total", None, self._against_total(reading.figures))
            return
        row = self._row(name, codes, reading)
        said = f"{row.name}, {row.cas or 'no CAS'}, {print_percent(row.share)}"
        out = [*reading.left_out, *codes.classes]
        extra = (
            [*reading.remarks, f"left out: {', '.join(out)}"]
            if out
            else reading.remarks
        )
        message = "; ".join((said, *extra))
        if row.cas is None and _UNIDENTIFIED.match(name):
            if self.has_remainder:
                raise _AskError(
                    "a second line of what could not be named: add them up, or leave "
                    "one out"
                )
            self.has_remainder = True
            self._add(source, "unidentified", row, message)
            return
        if row.identity in self.seen:
            raise _AskError(f"{row.name} stands in the table twice")
        self.seen[row.identity] = row.name
        self._add(source, "row", row, message)

    def _name_above(self) -> str:
        """Take the words of the line above for the name of this one."""
        above = self.lines[self.waiting[0]].source
        words = above.strip()
        if words.endswith(("-", ",", "(")):
            raise _AskError(
                f"the name above may go on after {shown(words)}: write it on this line"
            )
        said = "the name; its row is the next line"
        self.lines[self.waiting.pop()] = PastedLine(above, "skipped", None, said)
        return words.strip(_EDGES)

    def _row(self, name: str, codes: Codes, reading: _Reading) -> CompositionRow:
        if len(codes.cas) > 1:
            raise _AskError(
                f"two CAS numbers, {' and '.join(codes.cas)}: make one row for each"
            )
        if not reading.figures:
            raise _AskError("no share stands on this line")
        if len(reading.figures) > 1:
            raise _AskError(
                f"{' and '.join(map(shown, reading.figures))} could each be the share"
            )
        if not name:
            raise _AskError("no name stands on this line")
        share = reading.figures[0]
        if not has_unit(share):
            if self.heading.unit is None:
                raise _AskError(
                    "the heading gives a unit that is not read: write % or ppm behind "
                    "the figure"
                )
            share += self.heading.unit
        cas = codes.cas[0] if codes.cas else None
        try:
            return CompositionRow.model_validate(
                {"name": name, "cas": cas, "share": share}
            )
        except ValidationError as error:
            inner = error.errors()[0].get("ctx", {}).get("error")
            said = inner.sentence if isinstance(inner, InputError) else str(error)
            raise _AskError(said) from None

    def _words_only(self, source: str, codes: Codes, name: str) -> None:
        if not name:
            what = "hazard classes only" if codes.classes else "nothing to read"
            self._add(source, "skipped", None, what)
            return
        self.waiting.append(len(self.lines))
        self._add(
            source,
            "question",
            None,
            "no figure: a heading to leave out, or part of the name beside it?",
        )

    def _settle_waiting(self, *, skip: bool = False) -> None:
        for at in self.waiting if skip else ():
            source = self.lines[at].source
            self.lines[at] = PastedLine(source, "skipped", None, "above the heading")
        self.waiting.clear()

    def _add(
        self, source: str, kind: Kind, row: CompositionRow | None, message: str
    ) -> None:
        self.lines.append(PastedLine(source, kind, row, message))

    # ── one line

    def _read(self, line: str, codes: Codes) -> _Reading:
        by_column = self._by_column(line)
        if by_column is not None:
            return by_column
        cells = [cell for cell in cells_of(codes.rest) if not is_punctuation(cell)]
        remarks: list[str] = []
        cells = self._without_number(cells, remarks)
        figures = [cell for cell in cells if is_figure(cell)]
        texts = [cell for cell in cells if not is_figure(cell)]
        own = [found for cell in texts for found in unit_figures(cell)]
        if own:
            texts = [_without(cell, own) for cell in texts]
        for cell in texts:
            if not (_LETTER.search(cell) or is_punctuation(cell)):
                raise _AskError(f"{shown(cell)} is not understood")
        if texts and not (figures or own):
            figures, texts = self._split(texts)
        if figures or own:
            _refuse_numbers_beside(texts, cells, strong=has_strong_cells(line))
        figures += own
        name, *more = [t for t in (t.strip(_EDGES) for t in texts) if t] or [""]
        return _Reading(name, tuple(figures), tuple(more), tuple(remarks))

    def _by_column(self, line: str) -> _Reading | None:
        """Read a line by the columns of the heading, if it has just these."""
        heading = self.heading
        if heading.share is None or heading.name is None or not has_strong_cells(line):
            return None
        cells = cells_of(line)
        if len(cells) != len(heading.columns):
            return None
        share, name = cells[heading.share], cells[heading.name]
        if not is_figure(share) or not _LETTER.search(name) or unit_figures(name):
            return None
        if codes_of(name).cas or codes_of(name).classes:
            return None
        out = tuple(
            f"{column}: {cell}"
            for n, (column, cell) in enumerate(zip(heading.columns, cells, strict=True))
            if n not in {heading.share, heading.name}
            and not is_punctuation(cells_of(codes_of(cell).rest)[0])
        )
        return _Reading(name.strip(_EDGES), (share,), out)

    def _without_number(self, cells: list[str], remarks: list[str]) -> list[str]:
        """Drop the number of the row, if the rows are counted."""
        if len(cells) < 2 and not (cells and _LEADING.match(cells[0])):
            return cells
        following = str(self.number + 1)
        first = cells[0]
        found = _LEADING.match(first)
        if first.strip("#(.)") == following:
            rest = cells[1:]
        elif found is not None and found[1] == following:
            rest = [first[found.end() :], *cells[1:]]
        else:
            return cells
        if not any(_LETTER.search(cell) for cell in rest):
            return cells
        self.number += 1
        remarks.append(f"{following} is the number of the row")
        return rest

    def _split(self, texts: list[str]) -> tuple[list[str], list[str]]:
        """Part a name from the figure behind it, where one space is between them."""
        parts = _parts(texts[-1])
        if parts is None:
            return [], texts
        name, figure = parts
        if figure.isdigit():
            raise _AskError(
                f"is {figure} the share, or part of the name? Write % behind it"
            )
        if is_figure(name.split()[-1]):
            raise _AskError(f"two numbers stand behind the name in {shown(texts[-1])}")
        return [figure], [*texts[:-1], name]

    def _against_total(self, figures: tuple[str, ...]) -> str:
        """Compare a printed total with the sum of the rows above it."""
        said = "a total"
        rows = [line.row for line in self.lines if line.row is not None]
        spans = [row.share.range for row in rows]
        printed = re.sub(r"\s*%.*", "", figures[0]) if len(figures) == 1 else ""
        try:
            total = read_number(printed)
        except InputError:
            return said
        if not rows or not all(span.is_exact for span in spans):
            return said
        ends = [span.low or Fraction(0) for span in spans]
        without = ends[:-1] if self.has_remainder else ends
        sums = {sum(ends, Fraction(0)), sum(without, Fraction(0))}
        slack = Fraction(len(rows) + 1, 100)
        if any(abs(total - one) <= slack for one in sums):
            return f"{said}; the rows above add up to it"
        return (
            f"{said}, {printed} %, but the rows above add up to "
            f"{exact_text(max(sums))} %: is one missing or misread?"
        )


def _has_digit(cells: tuple[str, ...]) -> bool:
    return any(c.isdigit() for cell in cells for c in cell)


def _without(cell: str, figures: list[str]) -> str:
    """Return a text without its figures; another number beside them is asked about."""
    rest = cell
    for figure in figures:
        rest = rest.replace(figure, " ")
    rest = " ".join(rest.split())
    if rest != cell and _LAST_NUMBER.search(rest):
        raise _AskError(f"two numbers stand behind the name in {shown(cell)}")
    return rest


def _parts(text: str) -> tuple[str, str] | None:
    """Part a text into a name and the longest figure behind it."""
    words = text.split()
    for first in range(max(1, len(words) - _MOST_WORDS), len(words)):
        name, figure = " ".join(words[:first]), " ".join(words[first:])
        if is_figure(figure) and _LETTER.search(name):
            return name, figure
    return None


def _begins_with_figure(text: str) -> bool:
    words = text.split()
    for last in range(min(len(words) - 1, _MOST_WORDS), 0, -1):
        if is_figure(" ".join(words[:last]).rstrip(",;:")):
            return True
    return False


def _refuse_numbers_beside(texts: list[str], cells: list[str], *, strong: bool) -> None:
    """Ask about a number beside a name that could be the share as well.

    A whole number behind a name ("Polysorbate 80") belongs to it only if the share
    stands behind it, in a column or with its unit.
    """
    for cell in texts:
        parts = _parts(cell)
        bare = [c for c in cells if is_figure(c) and not has_unit(c)]
        in_front = cell in cells and any(c in cells[: cells.index(cell)] for c in bare)
        doubtful = parts is not None and (
            not parts[1].isdigit() or in_front or not (strong or not bare)
        )
        if doubtful or _LEADING.match(cell) or _begins_with_figure(cell):
            raise _AskError(
                f"a number beside the name in {shown(cell)} could be the share as well"
            )


def read_pasted_components(text: str) -> PastedTable[CompositionRow]:
    """Read a component table as it comes out of a paper.

    Parameters
    ----------
    text : str
        Lines with a name, a share and perhaps a CAS number, in columns (tabs,
        column lines, wide gaps) or not. At most 2000 lines.

    Returns
    -------
    PastedTable of CompositionRow
        Every line that is not blank, and how it was understood. EC, index and
        registration numbers, hazard classes and statement codes are passed over. A
        heading that names its columns says which figure is the share, and in what
        unit. Asked about: a CAS number with a wrong check digit, two figures that
        could be the share, a decimal comma, a name without a figure, a figure
        without a name, a component that stands twice.

    Raises
    ------
    InputError
        If there are more than 2000 lines.

    Examples
    --------
    >>> table = read_pasted_components("Menthol  89-78-1  201-939-0  30-50 %")
    >>> table.lines[0].message
    'Menthol, 89-78-1, 30 to 50 %'
    """
    sources = pasted_lines(text)
    if len(sources) > MOST:
        raise InputError(
            f"{len(sources)} lines are more than a table of {MOST}",
            "Paste the component table only",
            code="too-large",
        )
    reader = _Reader()
    for source in sources:
        reader.take(source)
    return PastedTable(tuple(reader.lines))
