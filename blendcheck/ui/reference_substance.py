"""An entry of a substance on the page."""

from base64 import b64encode
from typing import Final

import streamlit as st

from blendcheck.entry import Structure, SubstanceEntry
from blendcheck.ui import reference_parts as parts
from blendcheck.ui import shown

__all__ = ["show_substance"]

_WIDTH, _HEIGHT = 320, 220
_DRAWN: Final = {
    "complete": "One isomer is drawn.",
    "open": "Some of its stereo is not stated.",
    "one of": "Drawn is one of the isomers that it stands for.",
}


def show_substance(entry: SubstanceEntry) -> None:
    """Show everything that the tables say about a substance.

    Parameters
    ----------
    entry : SubstanceEntry
        The entry.
    """
    shown.html(shown.heading(entry.name, level=2))
    left, right = st.columns([3, 2])
    with left:
        _facts(entry)
    with right:
        _drawing(entry)
    shown.paragraph(parts.NOT_YOURS, kind="bc-soft")
    _watch(entry)
    st.header("Figures", anchor=False)
    if entry.properties:
        parts.put(parts.figures(entry.properties))
    else:
        shown.paragraph("The tables have no figure of it.")
    _oils(entry)
    sections: list[parts.Section] = [
        ("Names and numbers", "names", lambda: _names(entry)),
    ]
    if entry.groups:
        sections.append(("Counts together with", "groups", lambda: _groups(entry)))
    if entry.fits:
        fits: parts.Section = (
            "Vapour pressure by equation",
            "fits",
            lambda: _fits(entry),
        )
        sections.append(fits)
    st.header("More of it", anchor=False)
    parts.folded([*sections, *parts.law_sections(entry.law)])


# -- what it is ------------------------------------------------------------------


def _air(structure: Structure) -> str:
    return {
        True: "its structure has a place that air attacks",
        False: "no place found that air attacks, which does not say that it keeps",
        None: "not known",
    }[structure.air_oxidisable]


def _facts(entry: SubstanceEntry) -> None:
    found = entry.structure
    groups = found.functional_groups
    inci = [name.text for name in entry.names if name.kind == "INCI name"]
    others = [f"{number.text} ({number.kind})" for number in entry.numbers]
    shown.html(
        shown.definition(
            (
                ("CAS number", entry.cas or "none in the tables"),
                ("Other numbers", ", ".join(others)),
                ("Ingredient list", ", ".join(inci)),
                ("Formula", ", ".join(filter(None, (found.formula, found.molar_mass)))),
                ("Family", found.family or "not known"),
                (
                    "Functional groups",
                    "not known"
                    if groups is None
                    else ", ".join(f"{name} ({n})" for name, n in groups.items()),
                ),
                ("In air", _air(found)),
                ("Structure", _DRAWN.get(found.drawn, "not known")),
                (
                    "From",
                    ""
                    if found.place is None
                    else f"{parts.place_words(found.place)} "
                    f"({parts.tag_words(found.place)})",
                ),
                (
                    "Remark",
                    ""
                    if entry.listed
                    else "The table of constituents does not have it; others name it.",
                ),
            )
        )
    )


@st.cache_data(show_spinner=False)
def _svg(smiles: str, title: str, ink: str) -> str:
    """Return a drawing as the address of an image; SVG itself is stripped here."""
    from blendcheck.structure import drawing  # half a second, once

    drawn = drawing(smiles, _WIDTH, _HEIGHT, title=title).replace("currentColor", ink)
    coded = b64encode(drawn.encode("utf-8")).decode("ascii")
    return f"data:image/svg+xml;base64,{coded}"


def _drawing(entry: SubstanceEntry) -> None:
    smiles = entry.structure.smiles
    if smiles:
        title = f"Structural formula of {entry.name}"
        address = _svg(smiles, title, shown.ink())
        shown.html(
            f'<img src="{address}" alt="{shown.text(title)}" '
            f'width="{_WIDTH}" height="{_HEIGHT}">'
        )
    else:
        shown.paragraph("No structure in the tables.", kind="bc-soft")


# -- what to look at -------------------------------------------------------------


def _watch(entry: SubstanceEntry) -> None:
    found = parts.told_table("Watched for", "Concern", entry.watch)
    found += parts.told_table(
        "May irritate the airways", "Named there as", entry.breathing
    )
    look = entry.structure
    if look.alerts:
        rows = [
            (
                alert.name,
                alert.domain,
                alert.says,
                parts.place_words(alert.place),
                parts.tag_words(alert.place),
            )
            for alert in look.alerts
        ]
        heads = (
            *("Place in the structure", "Reaction", "What there is to look at"),
            *parts.WHERE,
        )
        found += parts.table("Invitations to look, never a verdict", heads, rows)
    found += parts.told_table("Left in air", "State", look.air_oxidation)
    if found:
        st.header("What to look at", anchor=False)
        parts.put(found)
    if look.alerts is None:
        shown.paragraph("Its structure is not known, so no reactive place was sought.")


# -- oils ------------------------------------------------------------------------


def _oils(entry: SubstanceEntry) -> None:
    st.header("Published oils that contain it", anchor=False)
    if not entry.in_oils:
        shown.paragraph("No published composition of the tables names it.")
        return
    rows = []
    for oil in entry.in_oils:
        for share in oil.shares:
            figure, stated, source, tag = parts.share_cells(share)
            named = share.printed_as
            if share.cas != entry.cas and share.cas:
                named += f" ({share.cas})"
            rows.append((oil.name, figure, named, stated, source, tag))
    heads = (
        *("Oil", "Share of the oil", "Named there as", "Stated for"),
        *parts.WHERE,
    )
    count = len(entry.in_oils)
    caption = f"{count} {'oil' if count == 1 else 'oils'}, and how much is in them"
    parts.put(parts.table(caption, heads, rows, numbers=[1]))


# -- folded away -----------------------------------------------------------------


def _names(entry: SubstanceEntry) -> str:
    rows = [
        (
            name.text,
            name.kind,
            parts.place_words(name.place),
            parts.tag_words(name.place),
        )
        for name in (*entry.names, *entry.numbers)
    ]
    heads = ("Name or number", "What it is", *parts.WHERE)
    return parts.table("Under which papers print it", heads, rows)


def _groups(entry: SubstanceEntry) -> str:
    rows = [
        (
            part.name,
            part.cas,
            f"{part.relation} {group.name}" + (f" ({group.cas})" if group.cas else ""),
            parts.place_words(part.place),
            parts.tag_words(part.place),
        )
        for group in entry.groups
        for part in group.parts
    ]
    heads = ("Substance", "CAS number", "How", *parts.WHERE)
    return parts.table("Counted together where a paper says so", heads, rows)


def _fits(entry: SubstanceEntry) -> str:
    rows = [
        (
            fit.equation,
            fit.formula,
            ", ".join(f"{name} = {value}" for name, value in fit.coefficients.items()),
            fit.valid,
            parts.place_words(fit.place),
            parts.tag_words(fit.place),
        )
        for fit in entry.fits
    ]
    heads = (
        *("Equation", "Formula", "Coefficients", "Only from"),
        *parts.WHERE,
    )
    return parts.table("Nothing is claimed outside the range", heads, rows)
