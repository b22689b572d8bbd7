"""The parts of the Recipe page: what it is, its lines, its stocks, its kitchen."""

import re
from collections.abc import Mapping
from typing import Any, Final, get_args

import streamlit as st

from blendcheck.records.recipe import Product, Stage
from blendcheck.ui import shown, state
from blendcheck.ui.choice import choice, fresh
from blendcheck.ui.choosing import Ingredients
from blendcheck.ui.columns import Column, write_cells
from blendcheck.ui.draft import Path, Row, get, put
from blendcheck.ui.form import Form

__all__ = [
    "basis",
    "blend",
    "kitchen",
    "lines",
    "mass",
    "own_caps",
    "place_of",
    "stocks",
    "what",
]

_CONTACT: Final = ("leave-on", "rinse-off", "not for skin")
_CHANNEL: Final = ("gift", "sale", "free at the stall")
_IGNITION: Final = ("not known", "looked, and there is none", "there is")


def what(form: Form) -> None:
    """Show name, product, and how it is made up in pieces.

    Parameters
    ----------
    form : Form
        The form of the recipe.
    """
    form.text(("name",), "Name of the recipe", example="Winter tablets")
    left, middle, right = st.columns(3)
    with left:
        form.one_of(("product",), "Product", get_args(Product), blank=None)
    with middle:
        form.one_of(("contact",), "On the skin", _CONTACT)
    with right:
        form.one_of(("channel",), "How it leaves the house", _CHANNEL)
    left, middle, right = st.columns(3)
    with left:
        form.text(("pieces",), "Pieces to make", example="24", whole=True)
    with middle:
        form.text(("piece_mass",), "Mass of one piece, dry", example="60 g")
    with right:
        form.one_of(
            ("pieces_per_use",),
            "Pieces put down for one use",
            ("1/2", "1", "2"),
            blank=None,
            default="1",
        )
        form.text(
            ("pieces_given",), "Pieces given to one person", example="6", whole=True
        )


def _line_columns(names: Ingredients, *, dries: bool) -> list[Column]:
    made = [
        Column("what", "Material or stock blend", options=list(names.by_words)),
        Column("lot", "Lot", help="exactly as printed on the bottle"),
        Column(
            "amount",
            "Amount",
            help="as you write it: 12 g, 1 1/2 tsp, 40 drops, 2 parts, "
            "5 % of the finished product",
        ),
    ]
    if dries:
        made.append(
            Column(
                "leaves_on_drying",
                "Leaves on drying",
                help="in percent, only if this line differs from its material",
            )
        )
    return made


def _line_table(
    form: Form, path: Path, label: str, *, dries: bool = False
) -> list[Row]:
    names = Ingredients(state.shelf().materials, form.draft.raw)
    columns = _line_columns(names, dries=dries)

    def show(row: Row) -> Row:
        cells = {c.key: str(row.get(c.key) or "") for c in columns}
        return {**cells, "what": names.show(row)}

    def read(row: Row, cells: Row) -> Row:
        made = write_cells(row, {k: v for k, v in cells.items() if k != "what"})
        if "what" in cells:
            made = {k: v for k, v in made.items() if k not in ("material", "stock")}
            made.update(names.read(str(cells["what"] or "").strip()))
        return made

    return form.table(path, label, columns, show=show, read=read)


def lines(form: Form) -> None:
    """Show the lines of the base.

    Parameters
    ----------
    form : Form
        The form of the recipe.
    """
    _line_table(form, ("line",), "Lines of the base", dries=True)


def blend(form: Form) -> None:
    """Show the lines of the blend, its load, and what the load is of.

    Parameters
    ----------
    form : Form
        The form of the recipe.
    """
    _line_table(form, ("blend", "line"), "Lines of the blend")
    left, right = st.columns(2)
    with left:
        form.text(
            ("blend", "load"),
            "Load of the whole blend, in %",
            example="2 %",
            why="Leave it blank if the lines above are weighed as they stand.",
        )
    with right:
        form.one_of(
            ("blend", "of"),
            "The load is a percent",
            ("the total", "on top of the base"),
            blank="no load: weighed as they stand",
            why="2 % of the total is more than 2 % on top of the base.",
        )


def stocks(form: Form, *, shelf: bool = False) -> None:
    """Show the stock blends of a draft, one at a time.

    Parameters
    ----------
    form : Form
        The form of a recipe or of the shelf.
    shelf : bool, default False
        Whether they stand on the shelf, for every recipe.
    """
    there = get(form.draft.raw, ("stock",)) or []
    left, right = st.columns([3, 1], vertical_alignment="bottom")
    left.text_input(
        "Name of a new stock blend",
        key=fresh(form.key(("new-stock",))),
        placeholder="gale blend",
    )
    right.button(
        "Add the blend",
        key=form.key(("add-stock",)),
        on_click=_add_stock,
        args=(form, shelf),
    )
    if st.session_state.pop(form.key(("no-stock-name",)), False):
        shown.message("the new stock blend has no name. Write one")
    if not there:
        st.caption("No stock blend yet. One is mixed ahead, and then used by weight.")
        return
    words = {
        str(n): f"{n + 1}. {row.get('name') or row.get('id')}"
        for n, row in enumerate(there)
    }
    chosen = choice(
        "Stock blend",
        words,
        key=form.key(("which-stock",)),
        kept=f"{form.page}-kept.stock",
    )
    at = int(chosen)
    left, right = st.columns(2)
    with left:
        form.text(("stock", at, "name"), "Name of the stock blend")
    with right:
        form.text(
            ("stock", at, "made"), "Mixed on (year-month-day)", example="2026-11-20"
        )
    label = f"Lines of the stock blend {words[chosen]}"
    _line_table(form, ("stock", at, "line"), label)
    st.button(
        "Remove this stock blend",
        key=form.key(("drop-stock",)),
        on_click=_drop_stock,
        args=(form, at),
    )


def _add_stock(form: Form, shelf: bool) -> None:  # noqa: FBT001
    name = str(st.session_state.get(form.key(("new-stock",))) or "").strip()
    if not name:
        st.session_state[form.key(("no-stock-name",))] = True
        return
    raw = form.draft.raw
    taken = {str(row.get("id")) for row in get(raw, ("stock",)) or ()}
    if not shelf:
        taken |= {stock.id for stock in state.shelf().materials.stock}
    made = state.unused_id(name, taken.__contains__)
    raw.setdefault("stock", []).append({"id": made, "name": name, "line": []})
    form.draft.changed()
    st.session_state[form.key(("new-stock",))] = ""
    st.session_state[f"{form.page}-kept.stock"] = str(len(raw["stock"]) - 1)


def _drop_stock(form: Form, at: int) -> None:
    left = [row for n, row in enumerate(form.draft.raw["stock"]) if n != at]
    put(form.draft.raw, ("stock",), left or None)
    form.draft.changed()
    st.session_state[f"{form.page}-kept.stock"] = "0"


def kitchen(form: Form) -> None:
    """Show how warm it is, and what can light a vapour there.

    Parameters
    ----------
    form : Form
        The form of the recipe.
    """
    form.text(("process", "room"), "Room temperature", example="18 °C")
    _ignition(form)
    form.yes_no(("process", "heat_gun"), "Is a heat gun used to wrap?")
    st.markdown("Temperature at a stage, where it is not the room's:")
    columns = st.columns(3)
    for n, stage in enumerate(get_args(Stage)):
        with columns[n % 3]:
            form.text(("process", "temperature", stage), stage.capitalize())


def _ignition(form: Form) -> None:
    path: Path = ("process", "ignition")
    now = get(form.draft.raw, path)
    key, listed = form.key(path), form.key((*path, "list"))
    if key not in st.session_state:
        st.session_state[key] = _IGNITION[0 if now is None else 2 if now else 1]
    answer = st.radio(
        "What can light a vapour in this kitchen? A hob, a pilot light, a heater, "
        "candles, switches; look near the floor too.",
        _IGNITION,
        key=key,
    )
    form.slot(path, "What can light a vapour")
    if answer == _IGNITION[2]:
        if listed not in st.session_state:
            st.session_state[listed] = "\n".join(now or ())
        typed = st.text_area("What is there, one a line", key=listed)
        there = [one.strip() for one in typed.splitlines() if one.strip()]
        # nothing listed yet is not the same as nothing there
        put(form.draft.raw, path, there or ["not said what"])
        return
    put(form.draft.raw, path, None if answer == _IGNITION[0] else [])


def mass(form: Form) -> None:
    """Show the weighed dry mass and the allowance for what is lost.

    Parameters
    ----------
    form : Form
        The form of the recipe.
    """
    left, right = st.columns(2)
    with left:
        form.text(
            ("dry_mass",),
            "Weighed dry mass of the whole batch",
            example="1438 g",
            why="Weigh it before you wrap it.",
        )
    with right:
        form.text(
            ("allowance_for_loss",),
            "Allowance for loss, in %",
            example="2 %",
            why="What sticks to the bowl and the moulds.",
        )
    form.text(("remark",), "Remark", long=True)


def basis(form: Form) -> None:
    """Show who said which category the product is in, and when.

    Parameters
    ----------
    form : Form
        The form of the recipe.
    """
    st.markdown(
        "This tool never chooses a category. Ask your supplier or assessor in "
        "writing, and record here who said it and when."
    )
    schemes = sorted({e.scheme for e in state.shelf().materials.caps()})
    form.table(
        ("category",),
        "Who said which category",
        [
            Column("scheme", "Scheme", options=schemes),
            Column("category", "Category"),
            Column("said_by", "Said by"),
            Column("on", "On (year-month-day)"),
            Column("edition", "Edition, if only for one"),
        ],
    )


def own_caps(form: Form) -> None:
    """Show the maker's own caps in this recipe.

    Parameters
    ----------
    form : Form
        The form of the recipe.
    """
    names = Ingredients(state.shelf().materials, {})
    columns = [
        Column("on", "Cap on", options=["load", "component", "material"]),
        Column("material", "Material", options=list(names.by_words)),
        Column("name", "Component"),
        Column("cas", "CAS number"),
        Column("scheme", "Whose cap it is"),
        Column("printed", "Cap, % of the finished product"),
        Column("category", "Category", help="if it holds for one category only"),
        Column("edition", "Edition"),
        Column("footnote", "Its footnote", help="what N/A means there"),
        Column("document", "Printed on"),
        Column("summed_with", "Added with", help="if use ÷ cap is to be added"),
    ]

    def show(row: Row) -> Row:
        cells = {c.key: str(row.get(c.key) or "") for c in columns}
        return {**cells, "material": names.show({"material": row.get("material")})}

    def read(row: Row, cells: Row) -> Row:
        found = names.read(str(cells["material"] or "")) if "material" in cells else {}
        if "material" in cells:
            cells = {**cells, "material": found.get("material")}
        return _own_cap(row, cells)

    form.table(
        ("cap",), "Caps of your own for this recipe", columns, show=show, read=read
    )


def _own_cap(row: Row, cells: Row) -> Row:
    made = write_cells(row, cells)
    if made:
        made.setdefault("scheme", "own cap")
        made.setdefault("on", "load")
    return made


_PLACE: Final = re.compile(r"(?:(blend)\.)?(?:(.+)\.)?line\[(\d+)\]")


def place_of(where: str, raw: Mapping[str, Any]) -> Path:
    """Return the place in a draft that a message names.

    Parameters
    ----------
    where : str
        Such as ``line[2]``, ``blend.line[1]``, ``gale blend.line[1]`` or
        ``piece_mass``.
    raw : mapping
        The draft.
    """
    found = _PLACE.match(where)
    if found is None:
        return (where.split(",")[0],) if where else ()
    row = int(found[3]) - 1
    if found[1] or found[2] == "blend":
        return ("blend", "line", row)
    if found[2] is None:
        return ("line", row)
    ids = [str(one.get("id")) for one in raw.get("stock", ())]
    return ("stock", ids.index(found[2]), "line", row) if found[2] in ids else ()
