"""The Reference page: what the tables say about a substance or an oil."""

from collections.abc import Sequence
from typing import Final

import streamlit as st

from blendcheck import reference as tables
from blendcheck.entry import (
    Choice,
    Found,
    OilEntry,
    SubstanceEntry,
    look_up,
    open_entry,
)
from blendcheck.errors import InputError
from blendcheck.ui import shown
from blendcheck.ui.choosing import head
from blendcheck.ui.reference_oil import show_oil
from blendcheck.ui.reference_substance import show_substance

__all__ = ["show"]

_TEXT: Final = "reference.text"
_WHICH: Final = "reference.which"
_NEXT: Final = "reference.next"
_KEPT: Final = "shelf.reference"


def show() -> None:
    """Show the page."""
    head("Reference")
    if _TEXT not in st.session_state:
        st.session_state[_TEXT] = st.session_state.get(_KEPT, "")
    typed = st.text_input(
        "Name, synonym, CAS number or oil",
        key=_TEXT,
        placeholder="peppermint, eucalyptol, 5989-27-5",
        max_chars=200,
    )
    st.session_state[_KEPT] = typed
    if not typed.strip():
        _nothing_typed()
        return
    choice = _choice(typed)
    if choice is None:
        return
    entry = open_entry(choice)
    _onward(entry)
    if isinstance(entry, OilEntry):
        show_oil(entry)
    else:
        show_substance(entry)


def _nothing_typed() -> None:
    shown.paragraph(
        "Type what a paper prints. You get the structure, every figure with its "
        "source, and which published oils hold how much of it; for an oil, its "
        "published composition with your lot's report over it."
    )
    names = [oil.name for oil in tables.oils().values()]
    _go_on("Or choose one of the oils", sorted(names, key=str.casefold))


def _choice(typed: str) -> Choice | None:
    try:
        found = look_up(typed)
    except InputError as error:
        shown.message(error.sentence)
        return None
    if found.problem is not None:
        shown.message(found.problem.what + ".", lead="Not found")
        if found.nearest:
            _go_on("Nearest to it", found.nearest)
        return None
    return found.choices[0] if len(found.choices) == 1 else _which(found)


def _which(found: Found) -> Choice | None:
    words = {}
    for one in found.choices:
        number = f", CAS {one.cas}" if one.cas else ""
        words[f"{one.kind}/{one.key}"] = f"{one.name}{number} ({one.kind}: {one.why})"
    shown.paragraph(
        f"“{found.text}” may mean {len(found.choices)} things. Choose which one is "
        "meant; nothing is chosen for you."
    )
    if st.session_state.get(_WHICH) not in words:
        st.session_state[_WHICH] = None
    chosen = st.radio(
        "Which one is meant",
        list(words),
        format_func=lambda one: shown.label(words.get(one, one)),
        key=_WHICH,
        index=None,
    )
    by_key = {f"{one.kind}/{one.key}": one for one in found.choices}
    return by_key.get(chosen) if chosen else None


# -- from one entry to the next ------------------------------------------------------


def _go() -> None:
    chosen = st.session_state.get(_NEXT)
    if chosen:
        st.session_state[_TEXT] = chosen
        st.session_state[_NEXT] = None


def _go_on(label: str, names: Sequence[str]) -> None:
    st.selectbox(
        label,
        list(dict.fromkeys(names)),
        index=None,
        key=_NEXT,
        on_change=_go,
        placeholder="choose",
    )


def _onward(entry: SubstanceEntry | OilEntry) -> None:
    """Offer what the entry names: components of an oil, oils of a substance."""
    if isinstance(entry, OilEntry):
        names = [part.cas or part.name for part in entry.components]
        label = "Go on to a component"
        shown_as = {part.cas or part.name: part.name for part in entry.components}
    else:
        names = [oil.name for oil in entry.in_oils]
        label = "Go on to an oil that contains it"
        shown_as = {}
    if names:
        st.selectbox(
            label,
            list(dict.fromkeys(names)),
            index=None,
            key=_NEXT,
            on_change=_go,
            format_func=lambda one: shown_as.get(one, one),
            placeholder="choose",
        )
