"""A printed figure, our figure, and how the one is made into the other.

Rows keep the figure as the source prints it, and beside it the figure in our unit.
The second is recomputed from the first when a table is read, exactly, and a row in
which the two differ is refused.
"""

import re
from fractions import Fraction

from blendcheck.frozen import Frozen
from blendcheck.interval import Range
from blendcheck.quantity.numbers import read_number
from blendcheck.reference.conversions import QUANTITIES, UNITS, convert
from blendcheck.reference.rows import Row

__all__ = ["Datum", "Figure", "Span", "figure_problem", "span_problem", "span_range"]

_DECIMAL = re.compile(r"(?:0|[1-9][0-9]*)(?:\.[0-9]+)?")
_END = r"(?:0|[1-9][0-9]*)(?:\.[0-9]+)?"
_SPAN = re.compile(rf"(?:({_END})-({_END})|(<=?|>=?|~)?({_END})|trace-({_END}))")
_EXACT_ENOUGH = 7
"""Digits of ours that a conversion which does not end must give."""


def _same(exact: Fraction, text: str) -> bool:
    """Say whether a text is the exact figure, or it rounded to enough digits."""
    ours = read_number(text)
    if ours == exact:
        return True
    digits = text.replace(".", "").lstrip("0")
    half_a_place = Fraction(1, 2 * 10 ** len(text.partition(".")[2]))
    return len(digits) >= _EXACT_ENOUGH and abs(ours - exact) <= half_a_place


def _unit_problem(row: "Figure | Span") -> str | None:
    if (row.printed_unit, row.unit) not in UNITS:
        return f"there is no conversion from {row.printed_unit} to {row.unit}"
    quantity = str(getattr(row, "quantity", ""))
    if quantity and row.unit not in QUANTITIES.get(quantity, ()):
        return f"unit {row.unit} is not ours for the quantity {quantity or '(blank)'}"
    return None


def figure_problem(row: "Figure", *, may_be_words: bool = False) -> str | None:
    """Say what is wrong with a printed figure and ours beside it.

    Parameters
    ----------
    row : Figure
        The row.
    may_be_words : bool, default False
        Whether a row may have no figure at all.

    Returns
    -------
    str or None
        The end of a sentence; None when they agree.
    """
    cells = (
        row.qualifier,
        row.printed_value,
        row.printed_unit,
        row.value,
        row.unit,
    )
    if may_be_words and not any(cells):
        return None
    if not all(cells):
        return "qualifier, printed figure, our figure and their units: fill all"
    problem = _unit_problem(row)
    if problem:
        return problem
    if _DECIMAL.fullmatch(row.printed_value) is None:
        return f"printed_value {row.printed_value} is not a decimal number"
    exact = convert(read_number(row.printed_value), row.printed_unit, row.unit)
    if not _same(exact, row.value):
        return (
            f"value {row.value} {row.unit} is not "
            f"{row.printed_value} {row.printed_unit}"
        )
    return None


def _printed_ends(text: str) -> tuple[str, str, str] | None:
    """Return the sign, low and high end of a printed range."""
    found = _SPAN.fullmatch(text)
    if found is None:
        return None
    low, high, sign, one, above_trace = found.groups()
    if low:
        return "-", low, high
    if above_trace:
        return "<=", "", above_trace
    sign = sign or "="
    return sign, "" if "<" in sign else one, "" if ">" in sign else one


def span_problem(row: "Span") -> str | None:
    """Say what is wrong with a printed range and our ends beside it.

    Parameters
    ----------
    row : Span
        The row.

    Returns
    -------
    str or None
        The end of a sentence; None when they agree.
    """
    problem = _unit_problem(row)
    if problem:
        return problem
    ends = _printed_ends(row.printed_value)
    if ends is None:
        return f"printed_value {row.printed_value} is not a range such as 1.0-5.0"
    for name, printed, ours in zip(
        ("low", "high"), ends[1:], (row.low, row.high), strict=True
    ):
        if bool(printed) != bool(ours):
            return f"{name} {ours or '(blank)'} does not fit {row.printed_value}"
        if printed:
            exact = convert(read_number(printed), row.printed_unit, row.unit)
            if not _same(exact, ours):
                return f"{name} {ours} {row.unit} is not {printed} {row.printed_unit}"
    if row.low and row.high and read_number(row.low) > read_number(row.high):
        return f"low {row.low} is above high {row.high}"
    return None


def span_range(row: "Span") -> Range:
    """Return the range that a row prints, in our unit.

    Parameters
    ----------
    row : Span
        The row.

    Returns
    -------
    Range
        An end that nothing bounds is None.
    """
    low, high = (read_number(end) if end else None for end in (row.low, row.high))
    return Range(
        low,
        high,
        low is not None and re.match(r">(?!=)", row.printed_value) is not None,
        high is not None and re.match(r"<(?!=)", row.printed_value) is not None,
    )


class Datum(Frozen):
    """One published figure, with everything that it must not be parted from.

    Parameters
    ----------
    subject : str
        A CAS number, the id of an oil, or a name where the row has no number.
    quantity : str
        Of :data:`QUANTITIES`, or the name that the table gives it.
    range : Range or None
        The figure in ``unit``; a bound stays a bound. None where the source has
        words only (``not permitted``).
    unit : str
        Our unit; empty where there is no figure.
    printed : str
        As the source prints it, with its qualifier and unit.
    about : bool
        The source prints "about".
    basis : str
        Of :data:`BASES`; empty where the table has none.
    conditions : str
        Method, state, temperature, product category, as far as stated.
    source_id, source_locator : str
        The source and the place in it.
    tag : str
        ``seen``, or ``memory`` when nobody read the figure in a source.
    note : str
        What is odd.
    """

    subject: str
    quantity: str
    range: Range | None
    unit: str
    printed: str
    about: bool
    basis: str
    conditions: str
    source_id: str
    source_locator: str
    tag: str
    note: str

    @property
    def value(self) -> Fraction | None:
        """The figure in ``unit``, where it is one number and not a bound."""
        found = self.range
        return found.low if found is not None and found.is_exact else None


class Figure(Row, base=True):
    """A row with one printed figure; see :class:`~blendcheck.reference.rows.Row`.

    ``qualifier`` is one of :data:`QUALIFIERS`. ``printed_value`` and
    ``printed_unit`` are as printed, ``value`` and ``unit`` ours.
    """

    qualifier: str
    printed_value: str
    printed_unit: str
    value: str
    unit: str
    source_id: str
    source_locator: str
    tag: str
    note: str

    @property
    def subject(self) -> str:
        """What the figure is about: number, id, or name."""
        return str(getattr(self, "cas", "") or getattr(self, "substance", ""))

    @property
    def range(self) -> Range | None:
        """The figure in our unit; None where the row has words only."""
        if not self.value:
            return None
        number = read_number(self.value)
        if self.qualifier in ("=", "~"):
            return Range.at(number)
        is_open = self.qualifier in ("<", ">")
        if self.qualifier.startswith("<"):
            return Range(None, number, high_open=is_open)
        return Range(number, None, low_open=is_open)

    @property
    def datum(self) -> Datum:
        """The figure with its unit, conditions and source."""
        sign = "" if self.qualifier == "=" else f"{self.qualifier} "
        words = str(getattr(self, "state", ""))
        printed = f"{sign}{self.printed_value} {self.printed_unit}"
        at = str(getattr(self, "at", ""))
        conditions = [
            at and f"{at} degC",
            str(getattr(self, "phase", "")),
            str(getattr(self, "conditions", "")),
        ]
        return Datum(
            subject=self.subject,
            quantity=str(getattr(self, "quantity", "")),
            range=self.range,
            unit=self.unit,
            printed=printed if self.printed_value else words,
            about=self.qualifier == "~",
            basis=str(getattr(self, "basis", "")),
            conditions="; ".join(filter(None, conditions)),
            source_id=self.source_id,
            source_locator=self.source_locator,
            tag=self.tag,
            note=self.note,
        )


class Span(Row, base=True):
    """A row with one printed range.

    ``printed_value`` is as printed: ``1.0-5.0``, ``<=2``, ``>93``, ``trace-9`` or
    one number. ``low`` and ``high`` are its ends in our unit.
    """

    quantity: str
    printed_value: str
    printed_unit: str
    low: str
    high: str
    unit: str
    source_id: str
    source_locator: str
    tag: str
    note: str

    @property
    def range(self) -> Range:
        """The range in our unit."""
        return span_range(self)

    @property
    def datum(self) -> Datum:
        """The range with its unit, conditions and source."""
        return Datum(
            subject=str(getattr(self, "oil", "")),
            quantity=self.quantity,
            range=self.range,
            unit=self.unit,
            printed=f"{self.printed_value} {self.printed_unit}",
            about=self.printed_value.startswith("~"),
            basis=str(getattr(self, "basis", "")),
            conditions=str(getattr(self, "conditions", "")),
            source_id=self.source_id,
            source_locator=self.source_locator,
            tag=self.tag,
            note=self.note,
        )
