"""The component lists of a material: rows as printed, and what their silence means."""

from typing import Any, Final

import streamlit as st

from blendcheck.ui import state
from blendcheck.ui.choice import choice
from blendcheck.ui.columns import Column
from blendcheck.ui.draft import Path, get, put
from blendcheck.ui.form import Form
from blendcheck.ui.pasting import paste_components

__all__ = ["compositions"]

_KINDS: Final = (
    "full GC-MS",
    "allergen statement",
    "hazardous ingredients",
    "published range",
)
_WHOLE: Final = "whole material"
_WHICH: Final = "material.list-kept"
_ROWS: Final = (
    Column("name", "Component, as printed"),
    Column("cas", "CAS number"),
    Column("share", "Share, as printed", help="10-25 %, <0.1 %, tr, n.d., 10 ppm"),
)


def _lists(raw: dict[str, Any]) -> dict[str, tuple[Path, str]]:
    """Return the place of each list, and the words that the page shows for it."""
    found: dict[str, tuple[Path, str]] = {}

    def take(where: str, path: Path, rows: list[dict[str, Any]]) -> None:
        for n, one in enumerate(rows):
            place = (*path, n)
            words = f"{one.get('kind')}, {where}" + (f" ({n + 1})" if n else "")
            found[".".join(map(str, place))] = place, words

    for at, lot in enumerate(raw.get("lot") or ()):
        path: Path = ("lot", at, "composition")
        take(f"lot {lot.get('lot')}", path, lot.get("composition") or [])
    take(_WHOLE, ("composition",), raw.get("composition") or [])
    return found


def compositions(form: Form) -> None:
    """Show the component lists of a material, one at a time.

    Parameters
    ----------
    form : Form
        The form of the material.
    """
    _adding(form)
    lists = _lists(form.draft.raw)
    if not lists:
        st.caption(
            "No list yet. What is in it then counts as not known, and whatever can be "
            "in an oil may be in it."
        )
        return
    chosen = choice(
        "Component list",
        {one: words for one, (_, words) in lists.items()},
        key=form.key(("which-list",)),
        kept=_WHICH,
        changed=_another,
        args=(form,),
    )
    path, _ = lists[chosen]
    _silence(form, path)
    form.table((*path, "row"), "Components as printed", _ROWS)
    paste_components(form, path)
    st.button(
        "Remove this list",
        key=form.key(("drop-list",)),
        on_click=_drop,
        args=(form, path),
    )


def _another(form: Form) -> None:
    state.forget(f"{form.page}.lot.")
    state.forget(f"{form.page}.composition.")
    form.draft.changed()


def _adding(form: Form) -> None:
    raw = form.draft.raw
    places = [f"lot {lot.get('lot')}" for lot in raw.get("lot") or ()]
    columns = st.columns([2, 2, 1], vertical_alignment="bottom")
    columns[0].selectbox(
        "Add a list: its kind", _KINDS, key=form.key(("new-list", "kind"))
    )
    columns[1].selectbox(
        "It speaks of", [*places, _WHOLE], key=form.key(("new-list", "where"))
    )
    columns[2].button(
        "Add the list", key=form.key(("new-list", "add")), on_click=_add, args=(form,)
    )


def _add(form: Form) -> None:
    raw = form.draft.raw
    kind = st.session_state[form.key(("new-list", "kind"))]
    where = st.session_state[form.key(("new-list", "where"))]
    owner, path = raw, ""
    for at, lot in enumerate(raw.get("lot") or ()):
        if where == f"lot {lot.get('lot')}":
            owner, path = lot, f"lot.{at}."
    rows = owner.setdefault("composition", [])
    rows.append({"kind": kind})
    _another(form)
    st.session_state[_WHICH] = f"{path}composition.{len(rows) - 1}"


def _drop(form: Form, path: Path) -> None:
    holder = get(form.draft.raw, path[:-1])
    del holder[path[-1]]
    if not holder:
        put(form.draft.raw, path[:-1], None)
    st.session_state.pop(_WHICH, None)
    _another(form)


def _silence(form: Form, path: Path) -> None:
    """Show what the list is, and what it means that something is not on it."""
    _rows_went(form, path)
    papers = [
        str(p["id"]) for p in get(form.draft.raw, ("document",)) or () if p.get("id")
    ]
    columns = st.columns(2)
    with columns[0]:
        form.one_of((*path, "kind"), "Kind of list", _KINDS, blank=None)
        form.one_of((*path, "document"), "Printed on", papers)
        form.one_of((*path, "basis"), "Percent by", ("w/w", "area"))
    with columns[1]:
        form.text(
            (*path, "shown_from"),
            "It shows what is above",
            example="0.01 %",
            why="The detection limit or cut-off that the paper states.",
        )
        form.text(
            (*path, "unidentified"),
            "Not identified, as printed",
            example="1.8 %",
            why="The remainder that a report could not name.",
        )
        form.words(
            (*path, "covers"),
            "CAS numbers that it would have had to show",
            example="5989-27-5 78-70-6",
            why="For an allergen statement: the names that it looked for.",
        )
    form.tick(
        (*path, "copied_whole"),
        "Copied whole: every line of the paper stands below",
        why="Only then does its silence say anything. Taking a row out clears it.",
    )


def _rows_went(form: Form, path: Path) -> None:
    """Clear "copied whole" when a row was just taken out of the table."""
    place = (*path, "row")
    number, _ = form.draft.tables.get(place, (0, []))
    change = st.session_state.get(f"{form.key(place)}.{number}") or {}
    gone = len(change.get("deleted_rows", ()))
    seen = f"{form.key((*path, 'gone'))}.{number}"
    if gone > st.session_state.get(seen, 0):
        put(form.draft.raw, (*path, "copied_whole"), None)
        st.session_state.pop(form.key((*path, "copied_whole")), None)
    st.session_state[seen] = gone
