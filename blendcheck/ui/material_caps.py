"""Caps as a certificate prints them: typed, or pasted and confirmed."""

from typing import Any, Final

import streamlit as st

from blendcheck.files.pasted import PastedTable
from blendcheck.files.pasted_caps import read_pasted_caps
from blendcheck.ui.choice import fresh
from blendcheck.ui.columns import Column, write_cells
from blendcheck.ui.draft import Row, get
from blendcheck.ui.form import Form
from blendcheck.ui.pasting import paste_rows

__all__ = ["cap_columns", "caps", "write_cap"]

_SCHEME: Final = "supplier's certificate"


def cap_columns(papers: list[str]) -> list[Column]:
    """Return the columns of a table of caps.

    Parameters
    ----------
    papers : list of str
        Short names of the papers that may print them; none leaves the column free.
    """
    return [
        Column("scheme", "Scheme"),
        Column("edition", "Edition"),
        Column("category", "Category"),
        Column(
            "printed",
            "Cap as printed",
            help="14.46, 0, Not restricted, N/A, - or a blank, exactly as it stands",
        ),
        Column("footnote", "Its footnote", help="what the paper says N/A means"),
        Column("document", "Printed on", options=papers or None),
        Column("summed_with", "Added with", help="if the paper adds use ÷ cap itself"),
    ]


def write_cap(row: Row, cells: Row) -> Row:
    """Return a cap with what was typed; a new row gets a scheme.

    Parameters
    ----------
    row : dict
        The row before.
    cells : dict
        What was typed.
    """
    made = write_cells(row, cells)
    if made and not row:
        made.setdefault("scheme", _SCHEME)
    return made


def caps(form: Form) -> None:
    """Show the caps on a material.

    Parameters
    ----------
    form : Form
        The form of the material.
    """
    raw = form.draft.raw
    papers = [str(p["id"]) for p in get(raw, ("document",)) or () if p.get("id")]
    heads = [
        *cap_columns(papers),
        Column(
            "on",
            "Cap on",
            options=["material", "component", "load"],
            help="blank: on this material",
        ),
        Column("name", "Component", help="if the cap is on a component of it"),
        Column("cas", "Its CAS number"),
    ]
    form.table(("cap",), "Caps on this material", heads, read=write_cap)
    form.tick(
        ("checked_by_components",),
        "It has no certificate: the caps entered for its components are all that "
        "their source lists",
    )
    st.markdown("**Out of a certificate**")
    columns = st.columns(3)
    scheme = columns[0].text_input(
        "Scheme", key=fresh(form.key(("paste-cap", "scheme"))), placeholder=_SCHEME
    )
    edition = columns[1].text_input(
        "Edition", key=fresh(form.key(("paste-cap", "edition")))
    )
    document = columns[2].selectbox(
        "Printed on", ["not said", *papers], key=form.key(("paste-cap", "document"))
    )

    def read(text: str) -> PastedTable[Any]:
        return read_pasted_caps(
            text,
            scheme=scheme.strip() or _SCHEME,
            edition=edition.strip(),
            document=None if document == "not said" else document,
        )

    paste_rows(form, ("cap",), "Paste the caps, one category a line", read)
