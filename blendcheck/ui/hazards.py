"""What a safety data sheet says of hazards: of the material, and of its components.

One block of fields holds section 2, one table the rows of section 3. Both stand in one
list of the file, ``[[material.hazard]]``; what names a component is a row.
"""

from collections.abc import Callable, Sequence
from typing import Any, Final

import streamlit as st
from pydantic import ValidationError

from blendcheck import reference
from blendcheck.quantity import print_range
from blendcheck.quantity.hazard_figures import ROUTE_UNITS, SpecificLimit
from blendcheck.quantity.hazard_lists import classes_of, figures_of, limits_of
from blendcheck.quantity.hazards import HazardClassText
from blendcheck.records.hazard import Hazard
from blendcheck.ui import shown, state
from blendcheck.ui.choice import choice, fresh
from blendcheck.ui.columns import Column, cell, plain_cells, write_cells
from blendcheck.ui.draft import Path, Row, get, put
from blendcheck.ui.form import Form

__all__ = ["hazards"]

_LIST: Final = "hazard"
_WHICH: Final = "material.hazard-kept"
_SPLIT: Final[dict[str, Callable[[str], tuple[str, ...]]]] = {
    "classes": classes_of,
    "limits": limits_of,
    "ate": figures_of,
}
"""Fields that hold several texts."""
_SAYS: Final[dict[str, dict[bool, str]]] = {
    "copied_whole": {True: "yes", False: "no"},
    "adds_up": {True: "yes", False: "no"},
}
"""Fields that hold yes or no."""
_FIGURES: Final = (
    ("viscosity", "Viscosity at 40 °C", "20.5 mm2/s", "Section 9, kinematic."),
    ("boiling_point", "Boiling point", "176 °C", "Section 9, where it begins to boil."),
    ("ph", "pH", "4.5", "Section 9."),
    ("m_acute", "M-factor, acute", "1", "Section 2 or 3, of what is toxic in water."),
    ("m_chronic", "M-factor, chronic", "1", "The same, for the long term."),
)


def _is_row(entry: Row) -> bool:
    """Whether an entry speaks of a component; a new row has a blank name at least."""
    return "name" in entry or "cas" in entry


def hazards(form: Form) -> None:
    """Show what the sheets of a material say of hazards.

    Parameters
    ----------
    form : Form
        The form of the material.
    """
    shown.paragraph(
        "Copy what the sheet prints. Nothing is classified here: the label section of "
        "the Check page works out the classes of blend and product from these.",
        kind="bc-soft",
    )
    raw = form.draft.raw
    entries = list(raw.get(_LIST) or ())
    own = [one for one in entries if not _is_row(one)]
    rows = [one for one in entries if _is_row(one)]
    # the material comes first; without a sheet a blank block waits to be filled in
    raw[_LIST] = [*(own or [{}]), *rows]
    _own(form, len(own))
    _components(form)


# -- the material itself: section 2 --------------------------------------------


def _own(form: Form, count: int) -> None:
    raw = form.draft.raw
    st.markdown("**Of the material itself** (section 2 of the sheet)")
    at = 0
    if count > 1:
        words = {str(n): _sheet_words(n, raw[_LIST][n]) for n in range(count)}
        at = int(
            choice(
                "Sheet",
                words,
                key=form.key(("which-hazard",)),
                kept=_WHICH,
                changed=_another,
                args=(form,),
            )
        )
    path: Path = (_LIST, at)
    _block(form, path)
    if count:
        _buttons(form, at, count)
    if count <= 1 and not raw[_LIST][0]:
        del raw[_LIST][0]
        for slot in [one for one in form.slots if one[:2] == path]:
            del form.slots[slot]
    if not raw[_LIST]:
        del raw[_LIST]


def _sheet_words(number: int, entry: Row) -> str:
    return f"{number + 1}. {entry.get('document') or 'paper not said'}"


def _another(form: Form) -> None:
    state.forget(f"{form.page}.{_LIST}.")
    form.draft.changed()


def _buttons(form: Form, at: int, count: int) -> None:
    left, right = st.columns(2)
    left.button(
        "Add what another sheet says of it",
        key=form.key(("hazard-more",)),
        on_click=_more,
        args=(form, count),
    )
    right.button(
        "Remove what this sheet says of it",
        key=form.key(("hazard-drop",)),
        on_click=_drop,
        args=(form, at),
    )


def _more(form: Form, at: int) -> None:
    form.draft.raw[_LIST].insert(at, {})
    st.session_state[_WHICH] = str(at)
    _another(form)


def _drop(form: Form, at: int) -> None:
    left = [one for n, one in enumerate(form.draft.raw[_LIST]) if n != at]
    put(form.draft.raw, (_LIST,), left or None)
    st.session_state.pop(_WHICH, None)
    _another(form)


def _block(form: Form, path: Path) -> None:
    left, right = st.columns(2)
    with left:
        _lines(
            form,
            (*path, "classes"),
            "Hazard classes, one a line",
            example="Flam. Liq. 3, H226\nAsp. Tox. 1, H304",
            why="Or “not classified”, if that is what the sheet says.",
        )
        form.tick(
            (*path, "copied_whole"),
            "Copied whole: every class of section 2 stands here",
            why="Only then is what is not printed not a class. Taking a line out "
            "clears it.",
        )
        form.one_of((*path, "document"), "Printed on", _papers(form))
    with right:
        _lines(
            form,
            (*path, "ate"),
            "Acute toxicity, one route a line",
            example="oral 1680 mg/kg\ndermal > 2000 mg/kg",
            why="Section 11: LD50, LC50 or ATE.",
        )
        _lines(
            form,
            (*path, "limits"),
            "Specific concentration limits, one a line",
            example="Skin Irrit. 2, H315: 10 % ≤ C < 25 %",
        )
    columns = st.columns(len(_FIGURES))
    for column, (field, label, example, why) in zip(columns, _FIGURES, strict=True):
        with column:
            form.text((*path, field), label, example=example, why=why)
    form.tick(
        (*path, "adds_up"),
        "Its effect on skin and eyes does not follow a sum: an acid, a base, a salt, "
        "an aldehyde, a phenol or a surfactant",
        means=False,
    )
    form.slot(path, "What the sheet says of it")
    _understood([get(form.draft.raw, path)], "Section 2, as understood")


def _papers(form: Form) -> list[str]:
    rows = get(form.draft.raw, ("document",)) or ()
    return [str(row["id"]) for row in rows if row.get("id")]


def _lines(
    form: Form, path: Path, label: str, *, example: str, why: str | None = None
) -> None:
    """Show a field for several texts; fewer classes than before are no whole copy."""
    before = get(form.draft.raw, path) or []
    now = "\n".join(before)
    key = fresh(form.key(path), now)
    typed = st.text_area(label, key=key, placeholder=example, help=why) or ""
    form.slot(path, label)
    if typed == now:
        return
    made = list(_SPLIT[str(path[-1])](typed))
    put(form.draft.raw, path, made or None)
    if path[-1] == "classes" and len(made) < len(before):
        whole = (*path[:-1], "copied_whole")
        put(form.draft.raw, whole, None)
        st.session_state.pop(form.key(whole), None)


# -- its components: section 3 ---------------------------------------------------


def _columns(form: Form) -> list[Column]:
    several = "several: a semicolon between"
    yes_no = ("yes", "no")
    figures = [Column(field, label, help=why) for field, label, _, why in _FIGURES]
    return [
        Column("name", "Component, as printed", help="as in the component list"),
        Column("cas", "CAS number"),
        Column("classes", "Classes", help=f"Skin Irrit. 2, H315; {several}"),
        Column("copied_whole", "Every class copied", options=yes_no),
        Column("limits", "Specific limits", help=f"from C ≥ on; {several}"),
        Column("ate", "Acute toxicity", help=f"oral 1680 mg/kg; {several}"),
        *figures[3:],
        Column("document", "Printed on", options=_papers(form) or None),
        Column(
            "adds_up",
            "Follows a sum",
            options=yes_no,
            help="no for an acid, base, salt, aldehyde, phenol or surfactant",
        ),
        *figures[:3],
    ]


def _components(form: Form) -> None:
    st.markdown("**Of its components** (section 3 of the sheet)")
    shown.paragraph(
        "How much of a component is in it comes from the list under Components, by the "
        "same number or name.",
        kind="bc-soft",
    )
    columns = _columns(form)
    plain = plain_cells(columns)

    def show(row: Row) -> Row:
        several = {key: "; ".join(row.get(key) or ()) for key in _SPLIT}
        said = {key: words.get(row.get(key), "") for key, words in _yes_no()}
        return {**plain(row), **several, **said}

    form.table((_LIST,), "Components", columns, show=show, read=_read, part=_is_row)
    rows = get(form.draft.raw, (_LIST,)) or []
    for at, row in enumerate(rows):
        if _is_row(row) and not cell(row.get("name")) and not row.get("cas"):
            form.refuse(
                (_LIST, at),
                "no component is named. Write its name or its CAS number, or delete "
                "the row",
            )
    _understood([row for row in rows if _is_row(row)], "Section 3, as understood")


def _yes_no() -> list[tuple[str, dict[Any, str]]]:
    return [(key, dict(words)) for key, words in _SAYS.items()]


def _read(row: Row, cells: Row) -> Row:
    """Return a row with what was typed; a row of its own always has a name."""
    made = write_cells(row, cells)
    for key, split in _SPLIT.items():
        if key in cells and key in made:
            made[key] = list(split(cell(cells[key])))
    for key, words in _yes_no():
        if key in cells and key in made:
            typed = cell(cells[key])
            made[key] = next((v for v, word in words.items() if word == typed), typed)
    fewer = len(made.get("classes") or ()) < len(row.get("classes") or ())
    if fewer and "copied_whole" not in cells:
        made.pop("copied_whole", None)
    if made and not _is_row(made):
        made["name"] = ""
    return made


# -- as understood -----------------------------------------------------------------


def _understood(entries: Sequence[Any], caption: str) -> None:
    """Show how each text was read; an entry that is refused is left out."""
    lines: list[tuple[str, ...]] = []
    for entry in entries:
        try:
            read = Hazard.model_validate(entry)
        except ValidationError:
            continue
        who = read.name or read.cas or ""
        lines += [(who, *said) for said in _said(read)]
    if not lines:
        return
    named = any(line[0] for line in lines)
    heads = ("Component", "As printed", "Read as")
    shown.html(
        shown.table(
            caption,
            heads if named else heads[1:],
            [line if named else line[1:] for line in lines],
        )
    )


def _said(read: Hazard) -> list[tuple[str, str]]:
    said = [(one.printed, _class_words(one)) for one in read.classes]
    said += [
        (
            one.printed,
            _limit_words(one),
        )
        for one in read.limits
    ]
    said += [
        (
            one.printed,
            f"{one.route}: {print_range(one.range)} {ROUTE_UNITS[one.route]}"
            + (", without signs" if one.clean else ""),
        )
        for one in read.ate
    ]
    return said


def _limit_words(one: SpecificLimit) -> str:
    hazard = ", ".join(part for part in (one.hazard.name, one.hazard.statement) if part)
    return f"{hazard}, where a mixture holds {print_range(one.range)} % of it"


def _class_words(one: HazardClassText) -> str:
    if not one.statement:
        return one.name
    phrase = reference.phrases().get(one.statement)
    wording = f": {phrase.wording}" if phrase is not None else ""
    return f"{one.name}, {one.statement}{wording}"
