"""Start a material from what is published of its oil, and the published density.

Both are deliberate and stay marked: a published range is not the maker's lot, and no
limit is called within on its strength. What the maker's own papers print goes first.
"""

from collections.abc import Callable
from typing import Any, Final

import streamlit as st
from pydantic import ValidationError

from blendcheck import reference as tables
from blendcheck.quantity import Density, Mark, print_range
from blendcheck.records.material import Material
from blendcheck.records.snapshot import as_written
from blendcheck.starting import (
    oils_meant,
    published_density,
    published_shares,
    started_from,
)
from blendcheck.ui import shown, state
from blendcheck.ui.form import Form

__all__ = ["render", "section"]

_OIL: Final = "material.starting-oil"
"""Forgotten with the fields of the material: another one is another oil."""
_DONE: Final = "starting.done"
_TAKEN: Final = ("document", "composition", "density", "density_is_published")


def section(form: Form) -> None:
    """Show the part for the material of a form, and take over what is chosen.

    Parameters
    ----------
    form : Form
        The form of the material.
    """
    try:
        material = Material.model_validate(form.draft.raw)
    except ValidationError:
        shown.paragraph("First correct what cannot be used above.")
        return
    if said := st.session_state.pop(_DONE, ""):
        shown.paragraph(said)
    made = render(material)
    if made is not None:
        _take(form, made)
        what = "density" if made.composition == material.composition else "components"
        st.session_state[_DONE] = (
            f"Taken over: the {what}, marked “{Mark.PUBLISHED_NOT_LOT}”."
        )
        st.rerun()


def _take(form: Form, made: Material) -> None:
    """Put what was chosen into the draft, and let its fields be filled anew."""
    written = as_written(made)
    raw: dict[str, Any] = form.draft.raw
    for key in _TAKEN:
        raw.pop(key, None)
        if key in written:
            raw[key] = written[key]
    form.draft.changed()
    state.shelf().put(made)
    state.forget(f"{form.page}.")


def render(material: Material) -> Material | None:
    """Show what a material can be started from.

    Parameters
    ----------
    material : Material
        The material; nothing of its own papers is touched.

    Returns
    -------
    Material or None
        A new record when something was chosen in this run.
    """
    meant = [oil.oil for oil in oils_meant(material)]
    others = [oil for oil in tables.oils() if oil not in meant]
    options = ["", *meant, *others]
    if st.session_state.get(_OIL) not in options:
        st.session_state[_OIL] = ""
    shown.paragraph(
        "Until your supplier's paper is here, a material can be started from what is "
        "published of other lots. Every component then says “"
        f"{Mark.PUBLISHED_NOT_LOT}”, and no limit counts as within on its strength."
    )
    names = {key: oil.name for key, oil in tables.oils().items()}
    chosen = st.selectbox(
        "Which oil is it",
        options,
        format_func=lambda one: _words(one, names, meant),
        key=_OIL,
    )
    if not chosen:
        return None
    return _composition(material, chosen) or _density(material, chosen)


def _words(oil: str, names: dict[str, str], meant: list[str]) -> str:
    if not oil:
        return "not chosen"
    return f"{names[oil]} (fits its name)" if oil in meant else names[oil]


def _button(label: str, key: str, make: Callable[[], Material]) -> Material | None:
    return make() if st.button(label, key=f"starting.{key}") else None


def _composition(material: Material, oil: str) -> Material | None:
    shares = published_shares(oil)
    if not shares:
        shown.paragraph(
            "Nobody read a published composition of it in a source, so there is none "
            "to start from."
        )
        return None
    rows = [
        (
            share.name,
            share.cas or "",
            print_range(share.range, "%"),
            "; ".join(tables.source(one).citation for one in share.sources),
        )
        for share in shares
    ]
    heads = ("Component", "CAS number", "Published range", "Sources")
    caption = f"{tables.oil(oil).name}: {Mark.PUBLISHED_NOT_LOT}"
    shown.html(shown.table(caption, heads, rows))
    shown.paragraph(
        "Only ranges that somebody read in a source; what else is in it counts as not "
        "known.",
        kind="bc-soft",
    )
    if any(one.kind == "published range" for one in material.composition):
        shown.paragraph("An earlier starting point is replaced.")
    return _button("Start from it", "composition", lambda: started_from(material, oil))


def _density(material: Material, oil: str) -> Material | None:
    density = published_density(oil)
    if density is None:
        shown.paragraph("Nobody read a published density of it in a source.")
        return None
    now = material.density
    if now is not None and material.density_is_published:
        shown.paragraph(f"Its density now: {now.printed}, {Mark.PUBLISHED_NOT_LOT}.")
    elif now is not None:
        shown.paragraph(
            f"Its density now: {now.printed}. The published one would take its place."
        )
    return _button(
        f"Use the published density {shown.label(density.printed)}",
        "density",
        lambda: _marked(material, density),
    )


def _marked(material: Material, density: Density) -> Material:
    return material.model_copy(
        update={"density": density, "density_is_published": True}
    )
