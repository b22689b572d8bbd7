"""From rows of the tables to the parts of an entry."""

import re
from collections.abc import Iterable, Mapping
from fractions import Fraction
from typing import Any, Final

from blendcheck.entry.records import Figure, Place, Quantity, Share
from blendcheck.interval import Range
from blendcheck.quantity import print_range
from blendcheck.reference import Datum, OilComponent, source
from blendcheck.units import celsius_from_kelvin

__all__ = ["by_quantity", "figure_of", "place_of", "share_of", "signs", "together"]

_TEMPERATURES: Final = frozenset(
    {"melting point", "boiling point", "flash point", "autoignition temperature"}
)
"""Quantities that people read in degrees Celsius; ours are in kelvin."""

_SIGNS: Final[Mapping[str, str]] = {
    "degC": "°C",
    "degF": "°F",
    "(m3 Pa)": "(m³ Pa)",
    "/cm3": "/cm³",
    "m3/": "m³/",
    "/m3": "/m³",
    "mm2": "mm²",
    "ug/": "µg/",
}
"""How a cell of a table is written, and how it is shown."""


def signs(text: str) -> str:
    """Return a cell of a table with the signs that people read.

    Parameters
    ----------
    text : str
        Such as ``12 degC`` or ``<= 2 mg/m3``.

    Examples
    --------
    >>> signs("~ 12 degC"), signs("<= 2 mg/m3")
    ('about 12 °C', '≤ 2 mg/m³')
    """
    for written, shown in _SIGNS.items():
        text = text.replace(written, shown)
    for written, shown in (("<=", "≤ "), (">=", "≥ "), ("~", "about ")):
        text = re.sub(rf"{written}\s*", shown, text)
    return text


def place_of(row: Any) -> Place:  # noqa: ANN401  # rows share columns, not a class
    """Return where a row stands.

    Parameters
    ----------
    row : Row or Datum
        Anything with a source, a place in it, a tag and a note.
    """
    return Place(source(row.source_id), row.source_locator, row.tag, row.note)


def _read_in(datum: Datum, span: Range) -> tuple[Range, str]:
    """Return a figure in the unit that people read, and that unit."""
    if datum.quantity in _TEMPERATURES and datum.unit == "K":
        low, high = (
            None if end is None else celsius_from_kelvin(end)
            for end in (span.low, span.high)
        )
        return Range(low, high, span.low_open, span.high_open), "°C"
    return span, "" if datum.unit == "1" else signs(datum.unit)


def figure_of(datum: Datum, *, edition: str = "") -> Figure:
    """Return a published figure as it is shown.

    Parameters
    ----------
    datum : Datum
        The figure.
    edition : str, optional
        Edition of a standard, put before the conditions.
    """
    printed = signs(datum.printed)
    if datum.unit == "1":
        printed = printed.removesuffix(" 1")
    shown = printed
    if datum.range is not None:
        span, unit = _read_in(datum, datum.range)
        if unit and not printed.endswith(f" {unit}"):
            about = "about " if datum.about else ""
            shown = about + print_range(span, unit)
    conditions = signs(datum.conditions)
    return Figure(
        quantity=datum.quantity,
        printed=printed,
        shown=shown,
        range=datum.range,
        unit=signs(datum.unit),
        basis=datum.basis,
        conditions="; ".join(filter(None, (edition, conditions))),
        place=place_of(datum),
    )


def by_quantity(data: Iterable[Datum]) -> tuple[Quantity, ...]:
    """Put rival figures of one quantity beside each other.

    Parameters
    ----------
    data : iterable of Datum
        The preferred first within each quantity.

    Returns
    -------
    tuple of Quantity
        In the order in which each quantity first appears.
    """
    found: dict[str, list[Figure]] = {}
    for datum in data:
        found.setdefault(datum.quantity, []).append(figure_of(datum))
    return tuple(Quantity(name, tuple(rows)) for name, rows in found.items())


def share_of(row: OilComponent) -> Share:
    """Return a published share of a constituent in an oil.

    Parameters
    ----------
    row : OilComponent
        A row of the table of compositions.
    """
    return Share(
        printed_as=row.constituent,
        cas=row.cas or None,
        edition=row.edition,
        typical=row.quantity == "typical content",
        figure=figure_of(row.datum, edition=row.edition),
    )


def together(spans: Iterable[Range]) -> Range | None:
    """Return the range from the smallest low end to the largest high end of shares.

    Parameters
    ----------
    spans : iterable of Range
        Shares in percent; a missing low end is 0 and a missing high end 100.

    Returns
    -------
    Range or None
        None for none.

    Examples
    --------
    >>> together([Range(None, Fraction(2)), Range.at(5)])
    Range(low=Fraction(0, 1), high=Fraction(5, 1), low_open=False, high_open=False)
    """
    ends: list[tuple[Fraction, Fraction]] = [
        (span.low or Fraction(0), Fraction(100) if span.high is None else span.high)
        for span in spans
    ]
    if not ends:
        return None
    return Range(min(low for low, _ in ends), max(high for _, high in ends))
