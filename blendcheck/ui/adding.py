"""The quickest way in: an oil by its name, its grams and its cap as printed."""

from typing import Any, Final, get_args

import streamlit as st

from blendcheck.errors import InputError, QuestionError
from blendcheck.quantity import read_amount, read_cap
from blendcheck.records.material import CapEntry, Material, MaterialKind
from blendcheck.ui import shown, state
from blendcheck.ui.draft import get
from blendcheck.ui.state import Kept

__all__ = ["add_oil", "grams_text"]

_KEY: Final = "recipe-add"
_SCHEME: Final = "supplier's certificate"


def grams_text(typed: str) -> str:
    """Return an amount for a field that asks for grams: a bare number is grams.

    Parameters
    ----------
    typed : str
        What is typed.

    Returns
    -------
    str
        An amount with its unit.

    Raises
    ------
    InputError
        If it cannot be read, or has more than one meaning.
    """
    try:
        read_amount(typed)
    except QuestionError as error:
        if error.code != "unit-missing":
            raise
        read_amount(f"{typed} g")
        return f"{typed.strip()} g"
    return typed.strip()


def _answers() -> dict[str, str]:
    names = ("name", "grams", "cap", "kind", "scheme", "edition", "category")
    return {
        name: str(st.session_state.get(f"{_KEY}.{name}") or "").strip()
        for name in names
    }


def _refuse(field: str, sentence: str) -> None:
    st.session_state[f"{_KEY}.problem"] = (field, sentence)


def _add(kept: Kept) -> None:
    given = _answers()
    st.session_state.pop(f"{_KEY}.problem", None)
    materials = state.shelf().materials
    if not given["name"]:
        _refuse("name", "the oil has no name. Write it as on the bottle")
        return
    if any(m.name.casefold() == given["name"].casefold() for m in materials.material):
        _refuse(
            "name",
            f'there is a "{given["name"]}" on the shelf. Choose it in the table of the '
            "blend, or give this one another name: the oil of a second supplier is a "
            "new oil",
        )
        return
    try:
        amount = grams_text(given["grams"])
    except InputError as error:
        _refuse("grams", error.sentence)
        return
    try:
        read_cap(given["cap"])
    except InputError as error:
        _refuse("cap", error.sentence)
        return
    made = _material(given)
    state.shelf().put(made)
    _add_line(kept, {"material": made.id, "amount": amount})
    for name in ("name", "grams", "cap"):
        st.session_state[f"{_KEY}.{name}"] = ""
    st.session_state[f"{_KEY}.done"] = made.name


def _material(given: dict[str, str]) -> Material:
    there = {m.id for m in state.shelf().materials.material}
    cap = CapEntry(
        scheme=given["scheme"] or _SCHEME,
        edition=given["edition"],
        category=given["category"],
        printed=given["cap"],
    )
    kind: Any = given["kind"] or "essential oil"
    return Material(
        id=state.unused_id(given["name"], there.__contains__),
        name=given["name"],
        kind=kind,
        cap=(cap,),
    )


def _add_line(kept: Kept, line: dict[str, str]) -> None:
    """Put the oil into the blend; where that is written by parts, into the base."""
    raw = kept.draft.raw
    blend = raw.get("blend") or {}
    if get(raw, ("blend", "load")):
        raw.setdefault("line", []).append(line)
    else:
        blend.setdefault("line", []).append(line)
        raw["blend"] = blend
    kept.draft.changed()


def add_oil(kept: Kept) -> None:
    """Show the form that takes a new oil in.

    Parameters
    ----------
    kept : Kept
        The recipe that it goes into.
    """
    field, sentence = st.session_state.get(f"{_KEY}.problem", ("", ""))
    done = st.session_state.pop(f"{_KEY}.done", "")
    with st.form(_KEY, border=True):
        st.markdown(
            "**Add a new oil** by its name, its grams and its cap. What is blank on "
            "the paper stays blank here: missing is not zero."
        )
        columns = st.columns(3)
        labels = (
            ("name", "Name, as on the bottle", "Rosemary oil"),
            ("grams", "Grams in the batch", "12"),
            ("cap", "Cap as printed", "2.5 %"),
        )
        for column, (name, label, example) in zip(columns, labels, strict=True):
            with column:
                st.text_input(
                    label,
                    key=f"{_KEY}.{name}",
                    placeholder=example,
                    persist_state="session",
                )
                if field == name:
                    shown.message(sentence)
        with st.expander("More, if the certificate says it"):
            kind, scheme, edition, category = st.columns(4)
            kind.selectbox("Kind", get_args(MaterialKind), key=f"{_KEY}.kind")
            scheme.text_input("Scheme", key=f"{_KEY}.scheme", placeholder=_SCHEME)
            edition.text_input(
                "Edition", key=f"{_KEY}.edition", placeholder="51st Amendment"
            )
            category.text_input("Category", key=f"{_KEY}.category", placeholder="9")
        st.form_submit_button("Add this oil", on_click=_add, args=(kept,))
    if done:
        shown.paragraph(
            f"{done} is on the shelf and in the recipe. Its lot, papers and components "
            "are entered on the Materials page."
        )
