"""The parts of one material: what it is, its papers, its lots, its measures."""

from typing import Final, get_args

import streamlit as st

from blendcheck.records.material import Material, MaterialKind
from blendcheck.ui import shown, state
from blendcheck.ui.choice import fresh
from blendcheck.ui.choosing import Ingredients
from blendcheck.ui.columns import Column
from blendcheck.ui.draft import get, put
from blendcheck.ui.form import Form

__all__ = [
    "dilution",
    "lots",
    "marks",
    "new_material",
    "papers",
    "remove",
    "weighed",
    "what",
]

_MEASURES: Final = ("drop", "tsp", "tbsp", "cup", "scoop", "pinch", "capful", "spray")
_NEW: Final = "material-new"


def new_material(kept: str) -> None:
    """Show how a material is added.

    Parameters
    ----------
    kept : str
        Where the id of the open material is kept.
    """
    left, right = st.columns([3, 1], vertical_alignment="bottom")
    name = left.text_input(
        "Add a material: its name", key=f"{_NEW}.name", placeholder="Rosemary oil"
    )
    right.button("Add the material", key=f"{_NEW}.add", on_click=_add, args=(kept,))
    if not name.strip() and st.session_state.pop(f"{_NEW}.no-name", False):
        shown.message("the new material has no name. Write it as on the bottle")


def _add(kept: str) -> None:
    name = str(st.session_state.get(f"{_NEW}.name") or "").strip()[:200]
    if not name:
        st.session_state[f"{_NEW}.no-name"] = True
        return
    shelf = state.shelf()
    there = {m.id for m in shelf.materials.material}
    made = Material(
        id=state.unused_id(name, there.__contains__), name=name, kind="essential oil"
    )
    shelf.put(made)
    st.session_state[kept] = made.id
    st.session_state[f"{_NEW}.name"] = ""
    state.forget("material.")


def what(form: Form) -> None:
    """Show what a material is, its density, its flash point, what leaves on drying.

    Parameters
    ----------
    form : Form
        The form of the material.
    """
    rows = st.columns(3)
    with rows[0]:
        form.text(("name",), "Name, as on the bottle")
        form.text(
            ("supplier",), "Supplier", why="A second supplier's oil is a new oil."
        )
        form.text(("density",), "Density", example="0.885-0.895 @20 °C")
        form.tick(
            ("density_is_published",),
            "The density is a published range, not this bottle's",
        )
    with rows[1]:
        form.one_of(("kind",), "Kind", get_args(MaterialKind), blank=None)
        form.text(
            ("cas",),
            "CAS number, for a single substance",
            example="89-78-1",
            why="A single substance is its own full composition.",
        )
        form.text(
            ("flash_point",), "Flash point, with its cup", example="62 °C closed cup"
        )
        form.one_of(
            ("flash_point_document",),
            "Flash point from",
            _paper_ids(form),
        )
    with rows[2]:
        form.text(("botanical",), "Botanical name")
        form.text(("inci",), "INCI name")
        form.text(
            ("leaves_on_drying",),
            "Leaves on drying, in %",
            example="100 %",
            why="The share of its mass that is gone from the finished piece.",
        )
        form.text(
            ("strength",),
            "Strength of an alcohol",
            example="70 % v/v",
            why="How much of it is alcohol, by volume (v/v) or by weight (w/w).",
        )
        form.one_of(("phototoxic",), "Phototoxic", ("yes", "no", "not known"))
    shown.paragraph(
        f"Recipe files call it “{get(form.draft.raw, ('id',))}”.", kind="bc-soft"
    )


def _paper_ids(form: Form) -> list[str]:
    rows = get(form.draft.raw, ("document",)) or ()
    return [str(row["id"]) for row in rows if row.get("id")]


def papers(form: Form) -> None:
    """Show the papers that came with a material.

    Parameters
    ----------
    form : Form
        The form of the material.
    """
    form.table(
        ("document",),
        "Papers",
        [
            Column("id", "Short name of the paper"),
            Column("kind", "Kind", help="cap certificate, safety data sheet, ..."),
            Column("issuer", "From"),
            Column("date", "Date (year-month-day)"),
            Column("edition", "Edition of the standard"),
            Column("lot", "For lot"),
        ],
    )


def lots(form: Form) -> None:
    """Show the lots of a material.

    Parameters
    ----------
    form : Form
        The form of the material.
    """
    form.table(
        ("lot",),
        "Lots",
        [
            Column("lot", "Lot, exactly as printed"),
            Column("received", "Received (year-month-day)"),
            Column("opened", "Opened (year-month-day)"),
            Column("storage", "How it is stored", help="cool, dark, bottle full"),
            Column("density", "Density of this lot"),
            Column("flash_point", "Flash point of this lot"),
        ],
    )


def weighed(form: Form) -> None:
    """Show the measures that were put on the scale once.

    Parameters
    ----------
    form : Form
        The form of the material.
    """
    st.markdown(
        "A drop, a spoon and a cup are no units. Weigh 20 to 50 drops from **this** "
        "dropper and write the grams of one."
    )
    columns = st.columns(4)
    for n, measure in enumerate(_MEASURES):
        with columns[n % 4]:
            form.text(
                ("weighed", measure),
                f"One {measure} weighs",
                example="0.031 g" if measure == "drop" else "",
            )


def dilution(form: Form) -> None:
    """Show how a material that is sold diluted is made up.

    Parameters
    ----------
    form : Form
        The form of the material.
    """
    names = Ingredients(state.shelf().materials, {})
    words = [w for w, (kind, _) in names.by_words.items() if kind == "material"]
    columns = st.columns(3)
    with columns[0]:
        form.text(
            ("dilution", "percent"),
            "Share of the oil in it, % by weight",
            example="10 %",
        )
    with columns[1]:
        path = ("dilution", "diluent")
        key = form.key(path)
        now = names.show({"material": get(form.draft.raw, path)})
        options = ["not diluted", *words]
        if st.session_state.get(key) not in options:
            st.session_state[key] = now if now in words else options[0]
        chosen = st.selectbox("Diluted in", options, key=key)
        form.slot(path, "Diluted in")
        put(
            form.draft.raw,
            path,
            names.read(chosen)["material"] if chosen in words else None,
        )
    with columns[2]:
        form.one_of(
            ("dilution", "papers_describe"),
            "Its papers speak of",
            ("undiluted", "as sold"),
            why="A wrong guess is a ten-fold error, so there is no default.",
        )


def marks(form: Form) -> None:
    """Show which components are marked as breathing irritants, and a remark.

    Parameters
    ----------
    form : Form
        The form of the material.
    """
    form.text(("part",), "Part of the plant", example="flowering tops")
    form.words(
        ("irritant",),
        "Components that you mark as breathing irritants: their CAS numbers",
        example="470-82-6 2216-51-5",
    )
    form.text(("remark",), "Remark", long=True)


def remove(form: Form) -> None:
    """Show how a material is taken off the shelf.

    Parameters
    ----------
    form : Form
        The form of the material.
    """
    name = str(get(form.draft.raw, ("id",)))
    users = [
        kept.name
        for kept in state.recipes().values()
        if kept.good is not None and _uses(kept.good.model_dump(), name)
    ]
    if users:
        shown.paragraph("It is used by: " + "; ".join(users) + ".")
    sure = st.checkbox(
        "Yes, take it off the shelf", key=fresh("material.sure", value=False)
    )
    st.button(
        "Take it off",
        key="material.remove",
        disabled=not sure,
        on_click=_remove,
        args=(name,),
    )


def _uses(written: object, name: str) -> bool:
    if isinstance(written, dict):
        return written.get("material") == name or any(
            _uses(inner, name) for inner in written.values()
        )
    if isinstance(written, list | tuple):
        return any(_uses(inner, name) for inner in written)
    return False


def _remove(name: str) -> None:
    state.shelf().remove(name)
    state.forget("material.")
