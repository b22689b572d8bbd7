"""What belongs to the whole shelf: workshop, caps on components, matches, files."""

from typing import get_args

import streamlit as st

from blendcheck.errors import BlendcheckError, InputError
from blendcheck.files.reading import materials_from_text, text_from_bytes
from blendcheck.files.table_reading import materials_from_csv
from blendcheck.files.tables import materials_to_csv
from blendcheck.records.material import Materials
from blendcheck.records.workshop import Place
from blendcheck.ui import filing, results, rooms, shown, state
from blendcheck.ui.choice import fresh
from blendcheck.ui.columns import Column
from blendcheck.ui.draft import Row
from blendcheck.ui.form import Form
from blendcheck.ui.matches import matches
from blendcheck.ui.material_caps import cap_columns, write_cap
from blendcheck.ui.recipe_parts import stocks

__all__ = ["sections"]


def sections() -> None:
    """Show the sections of the shelf; each runs only while it is open."""
    st.header("The whole shelf", anchor=False)
    form = Form("shelf-form", state.shelf().rest)
    made = (
        (
            "The workshop: scale, age of papers, editions in force",
            "workshop",
            _workshop,
        ),
        ("The shower that the air is estimated for", "shower", rooms.shower),
        ("The room where alcohol dries off", "workroom", rooms.workroom),
        ("Caps on components and on the load, for every recipe", "caps", _caps),
        ("Stock blends for every recipe", "stocks", _stocks),
        ("Names that may mean the same substance", "matches", matches),
        ("Files", "files", _files),
    )
    for label, key, show in made:
        box = st.expander(label, key=f"shelf-section.{key}", on_change="rerun")
        if box.open:
            with box:
                show(form)
    _take(form)


def _take(form: Form) -> None:
    shelf = state.shelf()
    rest = form.check(Materials)
    if rest is None:
        shown.message(
            "What is typed here cannot be used yet; the reason stands at its field. "
            "Every check still uses what could be read last.",
            lead="Not taken over",
        )
        for said in form.unplaced:
            shown.message(said)
        return
    made = rest.model_copy(update={"material": shelf.materials.material})
    if made != shelf.materials:
        shelf.materials = made


def _workshop(form: Form) -> None:
    form.text(("workshop", "name"), "Name of the workshop")
    form.one_of(
        ("workshop", "place"),
        "Whose law you go by",
        get_args(Place),
        why="Lists of allergens and classes differ from place to place.",
    )
    left, right = st.columns(2)
    with left:
        form.text(("workshop", "scale"), "What the scale can show", example="0.1 g")
    with right:
        form.text(
            ("workshop", "review_after_months"),
            "Look at a paper again after, in months",
            example="24",
            whole=True,
        )
    for name, label, example in (
        ("who", "Made by, on the papers", "your name or your workshop"),
        ("where", "Where, on the papers", "street and town"),
        ("poison_line", "Telephone number of your poison line", ""),
    ):
        form.text(("workshop", name), label, example=example)
    for scheme in sorted({entry.scheme for entry in state.shelf().materials.caps()}):
        form.text(
            ("workshop", "current", scheme),
            f"Edition of {shown.label(scheme)} in force, as far as you know",
        )


def _caps(form: Form) -> None:
    columns = [
        Column("on", "Cap on", options=["component", "load"]),
        Column("name", "Component"),
        Column("cas", "CAS number"),
        *cap_columns([]),
    ]

    def read(row: Row, cells: Row) -> Row:
        made = write_cap(row, cells)
        if made:
            made.setdefault("on", "component")
        return made

    form.table(("cap",), "Caps on components and on the load", columns, read=read)


def _stocks(form: Form) -> None:
    stocks(form, shelf=True)


# -- files -------------------------------------------------------------------------


def _files(form: Form) -> None:
    del form
    shelf = state.shelf()
    materials, text = shelf.materials, shelf.text
    left, right = st.columns(2)
    left.download_button(
        "Download the shelf (TOML)",
        data=lambda: filing.materials_file(materials, text),
        file_name="materials.toml",
        mime="application/toml",
        key="materials.save",
        on_click="ignore",
    )
    right.download_button(
        "Download the shelf (CSV)",
        data=lambda: materials_to_csv(materials),
        file_name="materials.csv",
        mime="text/csv",
        key="materials.save-csv",
        on_click="ignore",
    )
    st.file_uploader(
        "Open a shelf (TOML or CSV); it takes the place of this one",
        type=["toml", "csv"],
        key="materials.open",
        on_change=_read,
    )
    if problem := st.session_state.get("materials.problem"):
        shown.message(problem)
    sure = st.checkbox(
        "Yes, put the shelf and all recipes away and begin with nothing",
        key=fresh("materials.sure", value=False),
    )
    st.button("Begin empty", key="materials.empty", disabled=not sure, on_click=_empty)


def _read() -> None:
    st.session_state.pop("materials.problem", None)
    given = st.session_state.get("materials.open")
    if given is None:
        return
    try:
        text = text_from_bytes(given.getvalue(), given.name)
        table = given.name.casefold().endswith(".csv")
        read = materials_from_csv if table else materials_from_text
        made = read(text, given.name)
    except InputError as error:
        st.session_state["materials.problem"] = str(error)
        return
    shelf = state.shelf()
    shelf.text = "" if table else text
    shelf.replace(made)
    for prefix in ("material.", "shelf-form."):
        state.forget(prefix)
    st.session_state["materials.problem"] = _not_found(made)


def _not_found(made: Materials) -> str:
    """Name the recipes that do not go with the new shelf."""
    del made
    lost = []
    for kept in state.recipes().values():
        if kept.good is None:
            continue
        try:
            results.assessed(kept.good)
        except BlendcheckError:
            lost.append(kept.name)
    if not lost:
        return ""
    return "these recipes name what is not on this shelf: " + "; ".join(lost)


def _empty() -> None:
    state.begin(Materials())
    for prefix in ("material", "shelf-form.", "recipe", "check.", "compare."):
        state.forget(prefix)
