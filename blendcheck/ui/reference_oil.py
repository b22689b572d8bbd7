"""An entry of an oil on the page: its composition as ranges, a lot over it."""

from collections.abc import Iterator
from dataclasses import dataclass

import streamlit as st

from blendcheck import reference as tables
from blendcheck.entry import Component, OilEntry
from blendcheck.quantity import print_range
from blendcheck.records.material import Composition, CompositionRow, Material
from blendcheck.starting import oils_meant
from blendcheck.ui import ranges, shown, state
from blendcheck.ui import reference_parts as parts

__all__ = ["Report", "reports_of", "rows_of", "show_oil"]


@dataclass(frozen=True)
class Report:
    """A component list of a material on the shelf that is the oil.

    Parameters
    ----------
    words : str
        Material, lot and kind of list.
    composition : Composition
        The list.
    """

    words: str
    composition: Composition


def show_oil(entry: OilEntry) -> None:
    """Show everything that the tables say about an oil.

    Parameters
    ----------
    entry : OilEntry
        The entry.
    """
    shown.html(shown.heading(f"{entry.name}, essential oil", level=2))
    numbers = [number.text for number in entry.numbers] or [entry.cas]
    where = f"{parts.place_words(entry.place)} ({parts.tag_words(entry.place)})"
    shown.html(
        shown.definition(
            (
                ("Plant", entry.botanical_name),
                ("Part", entry.part),
                ("CAS numbers", ", ".join(numbers)),
                ("From", where),
            )
        )
    )
    shown.paragraph(parts.NOT_YOURS, kind="bc-soft")
    _composition(entry)
    watch = parts.told_table("Watched for", "What", entry.watch) + _light(entry)
    if watch:
        st.header("What to look at", anchor=False)
        parts.put(watch)
    st.header("Figures", anchor=False)
    if entry.properties:
        parts.put(parts.figures(entry.properties))
    else:
        shown.paragraph("The tables have no figure of it.")
    sections: list[parts.Section] = [
        ("CAS numbers with their sources", "numbers", lambda: _numbers(entry)),
    ]
    st.header("More of it", anchor=False)
    parts.folded([*sections, *parts.law_sections(entry.law)])


# -- the lot's own report ----------------------------------------------------------


def reports_of(oil: str) -> list[Report]:
    """Return the component lists on the shelf that speak of an oil.

    Parameters
    ----------
    oil : str
        Id of the oil.

    Returns
    -------
    list of Report
        Published ranges are left out, and lists of an oil that was sold diluted and
        is described so.
    """
    found: list[Report] = []
    for material in state.shelf().materials.material:
        if any(one.oil == oil for one in oils_meant(material)):
            found += _own_lists(material)
    return found


def _own_lists(material: Material) -> Iterator[Report]:
    thinned = material.dilution
    if thinned is not None and thinned.papers_describe == "as sold":
        return
    lists = [
        (f"{material.name}, lot {lot.lot}", one)
        for lot in material.lot
        for one in lot.composition
    ]
    lists += [(material.name, one) for one in material.composition]
    for words, one in lists:
        if one.kind != "published range" and one.row:
            area = ", GC area %" if one.basis == "area" else ""
            yield Report(f"{words}: {one.kind}{area}", one)


def _fits(row: CompositionRow, part: Component) -> bool:
    """Whether a line of a report prints a component, an isomer or its group."""
    if row.cas is None or part.cas is None:
        return tables.normal_name(row.name) == tables.normal_name(part.name)
    return row.cas in tables.numbers_answering(part.cas) | tables.members_of(part.cas)


def rows_of(entry: OilEntry, report: Report | None) -> list[ranges.Row]:
    """Return the rows of the chart: published components, then the lot's others.

    Parameters
    ----------
    entry : OilEntry
        The oil.
    report : Report or None
        What is laid over it.

    Returns
    -------
    list of Row
        Each line of the report stands in one row: at the component of the same
        number, else at the first that it may count under.
    """
    left = [] if report is None else list(report.composition.row)
    held: dict[int, CompositionRow] = {}
    for exact in (True, False):
        for n, part in enumerate(entry.components):
            found = next(
                (r for r in left if (r.cas == part.cas if exact else _fits(r, part))),
                None,
            )
            if n not in held and found is not None and (part.cas or not exact):
                held[n] = found
                left.remove(found)
    rows = [_row(part, held.get(n)) for n, part in enumerate(entry.components)]
    others = [
        ranges.Row(r.name, r.cas or "", None, None, r.share.range, r.share.printed)
        for r in left
    ]
    return rows + others


def _row(part: Component, line: CompositionRow | None) -> ranges.Row:
    named = ""
    if line is not None and line.cas != part.cas:
        named = ", ".join(filter(None, (line.name, line.cas)))
    return ranges.Row(
        part.name,
        part.cas or "",
        part.read,
        part.recalled,
        None if line is None else line.share.range,
        "" if line is None else line.share.printed,
        named,
    )


# -- composition -----------------------------------------------------------------


def _pick(entry: OilEntry) -> Report | None:
    found = reports_of(entry.oil)
    if not found:
        shown.paragraph(
            "No material on the shelf has a report of this oil. Enter one on the "
            "Materials page and it is drawn over the published ranges.",
            kind="bc-soft",
        )
        return None
    key = f"reference.report.{entry.oil}"
    options = [*range(len(found)), -1]
    if st.session_state.get(key) not in options:
        st.session_state[key] = 0
    chosen = st.selectbox(
        "Drawn over it: the report of",
        options,
        format_func=lambda n: found[n].words if n >= 0 else "nothing",
        key=key,
    )
    return found[chosen] if chosen >= 0 else None


def _composition(entry: OilEntry) -> None:
    st.header("Composition", anchor=False)
    if not entry.components:
        shown.paragraph("The tables have no published composition of it.")
        return
    report = _pick(entry)
    rows = rows_of(entry, report)
    st.vega_lite_chart(
        ranges.picture(rows, ink=shown.ink()),
        width="stretch",
        alt="Bars of shares in the oil. " + ". ".join(map(ranges.sentence_of, rows)),
    )
    over = (
        "" if report is None else f" Dark strokes and the line between: {report.words}."
    )
    shown.paragraph(
        "Wide bar: read in sources, all of them together. Broken outline: only from "
        f"memory or a typical figure.{over}"
    )
    _same_content(rows, report)
    _shares(entry)


def _same_content(rows: list[ranges.Row], report: Report | None) -> None:
    heads = ["Component", "CAS number", "Published and read", "Not read, or typical"]
    cells = [
        [
            row.name,
            row.cas,
            print_range(row.read, "%") if row.read else "",
            print_range(row.recalled, "%") if row.recalled else "",
        ]
        for row in rows
    ]
    if report is not None:
        heads += ["In the report", "Against what was read"]
        for row, line in zip(rows, cells, strict=True):
            named = f" (printed as {row.named})" if row.named else ""
            line += [(row.printed or "not shown") + named, ranges.against(row)]
    parts.put(parts.table("The chart as a table", heads, cells, numbers=[1, 2, 3]))
    if report is not None and any("all that" in ranges.against(row) for row in rows):
        shown.paragraph(
            "Something in the report lies outside all that is published. Ask whether "
            "it is the oil that you think it is."
        )


def _shares(entry: OilEntry) -> None:
    rows = [
        (share.printed_as, *parts.share_cells(share))
        for part in entry.components
        for share in part.shares
    ]
    heads = ("Component", "Share", "Stated for", *parts.WHERE)
    parts.put(
        parts.table("Every published share, side by side", heads, rows, numbers=[1])
    )


# -- light and numbers -----------------------------------------------------------


def _light(entry: OilEntry) -> str:
    fits = {True: "the way this oil is made", False: "another way", None: ""}
    rows = [
        (
            f"{one.name}, {one.made}",
            "acts with light" if one.phototoxic == "yes" else "not listed for it",
            fits[one.fits],
            one.says,
            parts.place_words(one.place),
            parts.tag_words(one.place),
        )
        for one in entry.phototoxicity
    ]
    heads = (
        *("Oil and how it was made", "Light", "This oil", "What is said"),
        *parts.WHERE,
    )
    return parts.table("Light", heads, rows) if rows else ""


def _numbers(entry: OilEntry) -> str:
    rows = [
        (
            number.text,
            parts.place_words(number.place),
            parts.tag_words(number.place),
        )
        for number in entry.numbers
    ]
    heads = ("CAS number", *parts.WHERE)
    return parts.table("Under which papers print it", heads, rows)
