"""Parts of an entry that a substance and an oil share: figures, law, their sources.

Every table says where its rows stand and whether somebody read them there. All
texts are shown as text.
"""

from collections.abc import Callable, Iterable, Sequence
from functools import partial
from typing import Final

import streamlit as st

from blendcheck.entry import (
    POISON_LINE,
    Figure,
    Law,
    Place,
    Quantity,
    Share,
    Told,
)
from blendcheck.ui import shown

__all__ = [
    "NOT_YOURS",
    "WHERE",
    "Section",
    "figures",
    "folded",
    "law_sections",
    "place_words",
    "put",
    "share_cells",
    "table",
    "tag_words",
    "told_table",
]

NOT_YOURS: Final = (
    "What others published, never your lot: your supplier's paper comes first. What is "
    "not here is not thereby harmless."
)
WHERE: Final = ("Source and place", "How we know")
"""Heads of the two columns that stand in every table."""

_STYLE: Final = """<style>
.bc .bc-entry thead th { overflow-wrap: normal; }
@media (min-width: 40rem) {
  .bc .bc-entry .bc-number { text-align: left; white-space: nowrap; }
}
</style>"""

Section = tuple[str, str, Callable[[], str]]
"""Label, key, and what makes the HTML of a part that is shown when it is opened."""


def place_words(place: Place) -> str:
    """Return a source with the place in it, and what is odd there.

    Parameters
    ----------
    place : Place
        Where a statement stands.
    """
    source = place.source
    edition = "" if source.edition == "not stated" else source.edition
    said = "; ".join(filter(None, (source.citation, edition, place.locator)))
    return f"{said}. Remark: {place.note}" if place.note else said


def tag_words(place: Place) -> str:
    """Return in words whether somebody read a statement in its source.

    Parameters
    ----------
    place : Place
        Where it stands.
    """
    return "from memory, not read" if place.from_memory else "read in the source"


def _cells(place: Place) -> tuple[str, str]:
    return place_words(place), tag_words(place)


def put(body: str) -> None:
    """Show tables of an entry.

    Parameters
    ----------
    body : str
        HTML made by :func:`table` and its kin.
    """
    shown.html(f'{_STYLE}<div class="bc-entry">{body}</div>')


def table(
    caption: str,
    heads: Sequence[str],
    rows: Iterable[Sequence[str]],
    *,
    numbers: Iterable[int] = (),
) -> str:
    """Return a table as HTML without the columns that are blank in every row.

    Parameters
    ----------
    caption : str
        What the table shows.
    heads : sequence of str
        Column heads.
    rows : iterable of sequence of str
        Cells as plain text; the first cell names the row.
    numbers : iterable of int, optional
        Columns that are not broken into lines, from 0.
    """
    cells = list(rows)
    used = [n for n in range(len(heads)) if not n or any(row[n] for row in cells)]
    return shown.table(
        caption,
        [heads[n] for n in used],
        [[row[n] for n in used] for row in cells],
        numbers=[used.index(n) for n in numbers if n in used],
    )


# -- figures -------------------------------------------------------------------


def figures(found: Iterable[Quantity]) -> str:
    """Return a table for each quantity, its rival figures side by side, as HTML.

    Parameters
    ----------
    found : iterable of Quantity
        The quantities.
    """
    heads = ("Figure", "As printed", "Stated for", *WHERE)
    tables = []
    for quantity in found:
        count = len(quantity.figures)
        rivals = f": {count} figures side by side" if count > 1 else ""
        rows = [_figure_cells(figure) for figure in quantity.figures]
        tables.append(table(f"{quantity.name}{rivals}", heads, rows, numbers=[1]))
    return "".join(tables)


def _figure_cells(figure: Figure) -> tuple[str, ...]:
    printed = "" if figure.printed == figure.shown else figure.printed
    basis = "" if figure.basis == "not stated" else figure.basis
    stated = "; ".join(filter(None, (figure.conditions, basis)))
    return (figure.shown, printed, stated, *_cells(figure.place))


def share_cells(share: Share) -> tuple[str, str, str, str]:
    """Return a published share: figure, edition and conditions, source, tag.

    Parameters
    ----------
    share : Share
        The share.
    """
    figure = share.figure
    typical = "typical figure" if share.typical else ""
    stated = "; ".join(filter(None, (typical, figure.conditions)))
    return (figure.printed, stated, *_cells(figure.place))


# -- what is said in words -------------------------------------------------------


def told_table(caption: str, about: str, found: Sequence[Told]) -> str:
    """Return what sources say in words as an HTML table; nothing for none.

    Parameters
    ----------
    caption : str
        What the table shows.
    about : str
        Head of the first column.
    found : sequence of Told
        The statements.
    """
    rows = []
    for told in found:
        figure = "" if told.figure is None else f": {told.figure.printed}"
        rows.append((told.about, told.says + figure, *_cells(told.place)))
    heads = (about, "What is said", *WHERE)
    return table(caption, heads, rows) if rows else ""


# -- law -------------------------------------------------------------------------


def law_sections(law: Law) -> list[Section]:
    """Return the parts about law and air that have something in them.

    Parameters
    ----------
    law : Law
        Of a substance or an oil.

    Returns
    -------
    list
        For :func:`folded`.
    """
    sections: list[tuple[bool, str, str, Callable[[Law], str]]] = [
        (bool(law.allergens), "Fragrance allergens, EU list", "allergens", _allergens),
        (bool(law.limits), "Limits in law", "limits", _limits),
        (
            bool(law.air_limits or law.irritation),
            "Air, odour, irritation: for work and rooms, not for a shower",
            "air",
            _air,
        ),
        (
            bool(law.hazards),
            "Hazard classes: the supplier's sheet decides",
            "hazards",
            _hazards,
        ),
        (
            bool(law.swallowing),
            "Swallowing: for your own note only",
            "swallowing",
            _swallowing,
        ),
    ]
    return [
        (label, key, partial(make, law))
        for there, label, key, make in sections
        if there
    ]


def folded(sections: Iterable[Section]) -> None:
    """Show parts that are worked out only while they are open.

    Parameters
    ----------
    sections : iterable
        Label, key and what makes the HTML.
    """
    for label, key, make in sections:
        box = st.expander(label, key=f"reference.{key}", on_change="rerun")
        if box.open:
            with box:
                put(make())


def _dates(start: str, end: str) -> str:
    words = (f"from {start}" if start else "", f"until {end}" if end else "")
    return " ".join(filter(None, words))


def _allergens(law: Law) -> str:
    rows = [
        (
            one.label_name,
            one.entry,
            "prohibited" if one.prohibited else one.leave_on,
            "prohibited" if one.prohibited else one.rinse_off,
            ", ".join(one.members),
            one.since,
            *_cells(one.place),
        )
        for one in law.allergens
    ]
    heads = (
        *("Name on the label", "Entry", "Named above, leave-on"),
        *("Named above, rinse-off", "Added up under it", "Since", *WHERE),
    )
    return table("Entries in which it counts", heads, rows)


def _limits(law: Law) -> str:
    rows = [
        (
            f"{one.jurisdiction}, {one.provision}",
            one.substance,
            one.applies_to,
            f"{one.figure.quantity}: {one.figure.shown}",
            one.figure.conditions,
            _dates(one.in_force_from, one.superseded_on),
            *_cells(one.figure.place),
        )
        for one in law.limits
    ]
    heads = ("Law", "Substance", "For", "Limit", "Conditions", "In force", *WHERE)
    return table("What a law allows", heads, rows)


def _air(law: Law) -> str:
    rows = [
        (
            f"{one.issued_by} ({one.jurisdiction})",
            one.substance,
            f"{one.figure.quantity}: {one.figure.shown}",
            "; ".join(
                filter(
                    None,
                    (
                        one.figure.conditions,
                        _dates(one.in_force_from, one.superseded_on),
                    ),
                )
            ),
            *_cells(one.figure.place),
        )
        for one in law.air_limits
    ]
    heads = ("Whose", "Substance", "Value", "Conditions", *WHERE)
    values = table("Workplace and indoor values", heads, rows) if rows else ""
    return values + figures(law.irritation)


def _hazards(law: Law) -> str:
    rows = [
        (
            one.hazard_class,
            " ".join(filter(None, (one.statement, one.wording))),
            one.standing,
            one.limits,
            *_cells(one.place),
        )
        for one in law.hazards
    ]
    heads = ("Class", "Statement", "Standing", "Limits", *WHERE)
    return table("A list to compare a sheet with", heads, rows)


def _swallowing(law: Law) -> str:
    lead = f"<p>{shown.strong(POISON_LINE)}</p>"
    return lead + told_table("What is known", "Substance", law.swallowing)
