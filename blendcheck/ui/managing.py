"""Copy a recipe, start a new one, remove one, open a file."""

from typing import Any, Final

import streamlit as st

from blendcheck.errors import InputError
from blendcheck.files.reading import recipe_from_text, text_from_bytes
from blendcheck.records.material import Material
from blendcheck.ui import shown, state
from blendcheck.ui.choosing import Ingredients
from blendcheck.ui.state import Kept

__all__ = ["manage"]

_NEW: Final = "recipe-new"
_FILE: Final = "recipe-file"
_BASE: Final = "a base that is not described yet"


def manage(kept: Kept | None) -> None:
    """Show how recipes are copied, started, removed and opened.

    Parameters
    ----------
    kept : Kept or None
        The open recipe.
    """
    label = "Copy, start a new one, remove, open a file"
    box = st.expander(
        label, key="recipe-section.manage", on_change="rerun", expanded=kept is None
    )
    if not box.open:
        return
    with box:
        if kept is not None:
            _copying(kept)
        _starting()
        _opening()
        if kept is not None:
            _removing()


def _open(key: str) -> None:
    st.session_state["shelf.current"] = key
    state.forget("recipe.")


# -- copy ---------------------------------------------------------------------


def _copying(kept: Kept) -> None:
    left, right = st.columns([4, 1], vertical_alignment="bottom")
    name = left.text_input(
        "Copy this recipe under a new name",
        key=f"{_NEW}.copy",
        placeholder=f"{kept.name}, milder"[:80],
    )
    right.button("Copy it", key=f"{_NEW}.copy-it", on_click=_copy, args=(kept,))
    if not name.strip() and st.session_state.pop(f"{_NEW}.no-copy-name", False):
        shown.message("the copy has no name. Write one")


def _copy(kept: Kept) -> None:
    name = str(st.session_state.get(f"{_NEW}.copy") or "").strip()
    if not name:
        st.session_state[f"{_NEW}.no-copy-name"] = True
        return
    key = state.add_recipe({**kept.draft.raw, "name": name})
    made = state.recipes()[key]
    made.draft.text = kept.draft.text
    if kept.good is not None:
        made.good = kept.good.model_copy(update={"name": name})
    st.session_state[f"{_NEW}.copy"] = ""
    _open(key)


# -- start --------------------------------------------------------------------


def _starting() -> None:
    columns = st.columns([3, 1, 1, 3, 1], vertical_alignment="bottom")
    name = columns[0].text_input(
        "Start a new recipe: its name", key=f"{_NEW}.name", placeholder="Spring tablets"
    )
    for column, field, label, usual in (
        (columns[1], "pieces", "Pieces", "24"),
        (columns[2], "mass", "Of each", "60 g"),
    ):
        st.session_state.setdefault(f"{_NEW}.{field}", usual)
        column.text_input(label, key=f"{_NEW}.{field}")
    there = Ingredients(state.shelf().materials, {}).by_words
    options = [words for words, (kind, _) in there.items() if kind == "material"]
    columns[3].selectbox(
        "What fills it up",
        [_BASE, *options],
        key=f"{_NEW}.base",
        help="It takes the mass that the other lines leave. Change it in the table.",
    )
    columns[4].button("Start it", key=f"{_NEW}.start", on_click=_begin)
    if not name.strip() and st.session_state.pop(f"{_NEW}.no-new-name", False):
        shown.message("the new recipe has no name. Write one")


def _begin() -> None:
    names = ("name", "pieces", "mass", "base")
    given = {n: str(st.session_state.get(f"{_NEW}.{n}") or "").strip() for n in names}
    if not given["name"]:
        st.session_state[f"{_NEW}.no-new-name"] = True
        return
    line = {**_base(given["base"]), "amount": "1 part"}
    raw: dict[str, Any] = {"name": given["name"], "line": [line]}
    if given["pieces"]:
        digits = given["pieces"].isascii() and given["pieces"].isdigit()
        short = digits and len(given["pieces"]) < 10
        raw["pieces"] = int(given["pieces"]) if short else given["pieces"]
    if given["mass"]:
        raw["piece_mass"] = given["mass"]
    st.session_state[f"{_NEW}.name"] = ""
    _open(state.add_recipe(raw))


def _base(words: str) -> dict[str, str]:
    shelf = state.shelf()
    if words and words != _BASE:
        return Ingredients(shelf.materials, {}).read(words)
    found = next(
        (m for m in shelf.materials.material if m.name == "Unscented base"), None
    )
    if found is None:
        there = {m.id for m in shelf.materials.material}
        name = state.unused_id("unscented base", there.__contains__)
        found = Material(id=name, name="Unscented base", kind="other")
        shelf.put(found)
    return {"material": found.id}


# -- files, removal -------------------------------------------------------------


def _opening() -> None:
    st.file_uploader(
        "Open a recipe file (TOML)", type=["toml"], key=f"{_FILE}.open", on_change=_read
    )
    if problem := st.session_state.get(f"{_FILE}.problem"):
        shown.message(problem)


def _read() -> None:
    st.session_state.pop(f"{_FILE}.problem", None)
    given = st.session_state.get(f"{_FILE}.open")
    if given is None:
        return
    try:
        text = text_from_bytes(given.getvalue(), given.name)
        recipe = recipe_from_text(text, given.name)
    except InputError as error:
        st.session_state[f"{_FILE}.problem"] = str(error)
        return
    _open(state.add_recipe(recipe, text))


def _removing() -> None:
    sure = st.checkbox("Yes, take the open recipe off the page", key=f"{_NEW}.sure")
    st.button(
        "Remove this recipe",
        key=f"{_NEW}.remove",
        disabled=not sure,
        on_click=_remove,
        help="A file that you downloaded stays where it is.",
    )


def _remove() -> None:
    state.recipes().pop(state.current(), None)
    st.session_state[f"{_NEW}.sure"] = False
    _open(state.current())
