"""Tables copied out of a paper: each line, how it was understood, and the answer.

Nothing is guessed. A line that has one reading becomes a row; one that has two is
a question, and the table cannot be confirmed while a question is left.
"""

from dataclasses import dataclass, replace
from typing import Generic, Literal, TypeVar

from blendcheck.errors import InputError
from blendcheck.quantity.cleaning import shown
from blendcheck.records.fields import Record

__all__ = ["Kind", "PastedLine", "PastedTable", "confirm", "without"]

Kind = Literal["row", "skipped", "question", "unidentified", "total"]

R = TypeVar("R", bound=Record)


@dataclass(frozen=True, slots=True)
class PastedLine(Generic[R]):
    """One line of the pasted text.

    Parameters
    ----------
    source : str
        The line as pasted.
    kind : {"row", "skipped", "question", "unidentified", "total"}
        What it was taken for.
    row : CompositionRow or CapEntry or None
        What was read, for a row and for the unidentified remainder.
    message : str
        How it was understood, or what is asked.
    left_out : bool, default False
        Whether the maker left it out.
    """

    source: str
    kind: Kind
    row: R | None
    message: str
    left_out: bool = False


@dataclass(frozen=True, slots=True)
class PastedTable(Generic[R]):
    """A pasted text, line by line; blank lines are dropped.

    Parameters
    ----------
    lines : tuple of PastedLine
        The lines in their order.
    """

    lines: tuple[PastedLine[R], ...]

    @property
    def rows(self) -> tuple[R, ...]:
        """What was read so far."""
        return tuple(line.row for line in self.lines if line.kind == "row" and line.row)

    @property
    def questions(self) -> tuple[int, ...]:
        """Positions, from 0, of the lines that are asked about."""
        return tuple(n for n, x in enumerate(self.lines) if x.kind == "question")

    @property
    def unidentified(self) -> R | None:
        """The line of what the report could not name, if it has one."""
        found = (line.row for line in self.lines if line.kind == "unidentified")
        return next(found, None)

    @property
    def is_whole(self) -> bool:
        """Whether no line was left out by the maker ("copied whole")."""
        return not any(line.left_out for line in self.lines)


def without(table: PastedTable[R], position: int) -> PastedTable[R]:
    """Leave a line out, as the maker decided.

    Parameters
    ----------
    table : PastedTable
        The table.
    position : int
        Which line, from 0.

    Returns
    -------
    PastedTable
        The table with that line skipped; it is not ``is_whole`` any more if the
        line was more than a remark.

    Raises
    ------
    InputError
        If there is no such line.
    """
    if not 0 <= position < len(table.lines):
        raise InputError(
            f"there is no line {position + 1}", f"There are {len(table.lines)}"
        )
    line = table.lines[position]
    gone = replace(
        line,
        kind="skipped",
        row=None,
        message="left out by you",
        left_out=line.left_out or line.kind != "skipped",
    )
    return PastedTable((*table.lines[:position], gone, *table.lines[position + 1 :]))


def confirm(table: PastedTable[R]) -> tuple[R, ...]:
    """Return the rows of a table about which nothing is left to ask.

    Parameters
    ----------
    table : PastedTable
        The table as the maker has seen it.

    Returns
    -------
    tuple of CompositionRow or CapEntry
        The rows in their order; the unidentified remainder is not one of them.

    Raises
    ------
    InputError
        If a question is left, or if there is no row at all (``pasted-questions``,
        ``pasted-empty``).
    """
    left = table.questions
    if left:
        named = "; ".join(
            f"line {n + 1}, {shown(table.lines[n].source)}: {table.lines[n].message}"
            for n in left[:3]
        )
        more = f" (and {len(left) - 3} more)" if len(left) > 3 else ""
        raise InputError(
            f"not every line is understood: {named}{more}",
            "Correct these lines and paste again, or leave them out one by one",
            code="pasted-questions",
        )
    rows = table.rows
    if not rows:
        raise InputError(
            "no line holds a row", "Copy the table again", code="pasted-empty"
        )
    return rows
