"""The Materials page: the shelf with the state of its papers, and one material."""

from collections.abc import Sequence
from typing import Final

import streamlit as st

from blendcheck.records.material import Material
from blendcheck.ui import material_parts as parts
from blendcheck.ui import shelf_parts, shown, starting_view, state
from blendcheck.ui.choice import choice
from blendcheck.ui.choosing import head
from blendcheck.ui.composition import compositions
from blendcheck.ui.form import Form
from blendcheck.ui.hazards import hazards
from blendcheck.ui.material_caps import caps

__all__ = ["papers_of", "show"]

_WHICH: Final = "materials.which"
_KEPT: Final = "shelf.material"


def show() -> None:
    """Show the page."""
    head("Materials")
    _list()
    material = _pick()
    if material is not None:
        _edit(material)
    shelf_parts.sections()


# -- the list ---------------------------------------------------------------------


def _caps_words(material: Material) -> str:
    found: dict[str, int] = {}
    for entry in material.cap:
        where = ", ".join(part for part in (entry.scheme, entry.edition) if part)
        found[where] = found.get(where, 0) + 1
    if not found:
        return "no cap entered" if material.is_scented else ""
    return "; ".join(
        f"{where} ({count} {'cap' if count == 1 else 'caps'})"
        for where, count in found.items()
    )


def _components_words(material: Material) -> str:
    if material.cas is not None:
        return "a single substance"
    found = []
    for lot in material.lot:
        found += [
            f"{one.kind} of lot {lot.lot}"
            + (", copied whole" if one.copied_whole else "")
            for one in lot.composition
        ]
    found += [
        one.kind + (", copied whole" if one.copied_whole else "")
        for one in material.composition
    ]
    return "; ".join(found) or "not known"


def papers_of(material: Material) -> tuple[str, str, str]:
    """Return the state of a material's papers in words.

    Parameters
    ----------
    material : Material
        The material.

    Returns
    -------
    tuple of str
        Its caps, its components, its flash point.
    """
    flash = "" if material.flash_point is None else material.flash_point.printed
    if not flash and (material.is_scented or material.kind in ("alcohol", "solvent")):
        flash = "not entered"
    return _caps_words(material), _components_words(material), flash


def _list() -> None:
    held = state.shelf().materials.material
    if not held:
        shown.paragraph("The shelf is empty.")
        return
    rows = [(m.name, m.kind, m.supplier, *papers_of(m)) for m in held]
    heads = ("Material", "Kind", "Supplier", "Caps", "Components", "Flash point")
    shown.html(shown.table("On the shelf, with the state of the papers", heads, rows))


# -- one of them --------------------------------------------------------------------


def _words(materials: Sequence[Material]) -> dict[str, str]:
    names = [m.name for m in materials]
    return {
        m.id: m.name if names.count(m.name) == 1 else f"{m.name} ({m.supplier or m.id})"
        for m in materials
    }


def _pick() -> Material | None:
    words = _words(state.shelf().materials.material)
    left, right = st.columns([3, 2], vertical_alignment="bottom")
    with right:
        parts.new_material(_KEPT)
    if not words:
        return None
    chosen = choice(
        "Open one material",
        words,
        key=_WHICH,
        kept=_KEPT,
        changed=state.forget,
        args=("material.",),
        where=left,
    )
    return state.shelf().materials.get(chosen)


def _edit(material: Material) -> None:
    shown.html(shown.heading(material.name, level=2))
    answer = st.container()
    form = Form("material", state.shelf().draft(material))
    parts.what(form)
    sections = (
        ("Papers", "papers", parts.papers),
        ("Lots", "lots", parts.lots),
        ("Components", "components", compositions),
        ("Start from a published composition", "starting", starting_view.section),
        ("Caps", "caps", caps),
        ("From the data sheet: hazard classes", "hazards", hazards),
        ("Measures that were weighed: drop, spoon, cup", "weighed", parts.weighed),
        ("Sold diluted", "dilution", parts.dilution),
        ("Part of the plant, breathing irritants, remark", "marks", parts.marks),
        ("Take it off the shelf", "remove", parts.remove),
    )
    for label, key, section in sections:
        box = st.expander(label, key=f"material-section.{key}", on_change="rerun")
        if box.open:
            with box:
                section(form)
    made = form.check(Material)
    if made is None:
        shown.message(
            "What is typed here cannot be used yet; the reason stands at its field. "
            "Every check still uses the last material that could be read.",
            lead="Not taken over",
            where=answer,
        )
        for said in form.unplaced:
            shown.message(said, where=answer)
    elif made != material:
        state.shelf().put(made)
        # the list above was made before this change was read
        st.rerun()
