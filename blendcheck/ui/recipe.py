"""The Recipe page: choose, edit, weigh."""

from typing import Any, Final

import streamlit as st

from blendcheck.errors import BlendcheckError, InputError
from blendcheck.records.finding import Outcome
from blendcheck.records.recipe import Recipe
from blendcheck.ui import filing, results, shown, state
from blendcheck.ui import recipe_parts as parts
from blendcheck.ui.adding import add_oil
from blendcheck.ui.choosing import head, overall_sentence, pick_recipe, sentence
from blendcheck.ui.form import Form
from blendcheck.ui.managing import manage
from blendcheck.ui.state import Kept
from blendcheck.ui.weigh import weighing

__all__ = ["show"]

_FILES: Final = "recipe-file"
_FIRST: Final = 3
"""How many reasons stand at the top; the Check page has them all."""


def show() -> None:
    """Show the page."""
    head("Recipe")
    state.own("recipe.recipe")
    _name_typed()
    kept = pick_recipe("recipe")
    answer = st.container()
    manage(kept)
    if kept is None:
        return
    form = Form("recipe", kept.draft)
    st.header("What it is", anchor=False)
    parts.what(form)
    st.header("What goes in", anchor=False)
    add_oil(kept)
    st.markdown(
        "**Blend**: what smells, by amount, or by parts or percent with a load."
    )
    parts.blend(form)
    st.markdown("**Base**: everything else, the spritz included.")
    parts.lines(form)
    _more(form)
    refused = _take(form, kept)
    with answer:
        _answer(kept, form, refused=refused)
    if kept.good is not None:
        weighing(kept.good)
    _files(kept)


def _name_typed() -> None:
    """Take a new name over before the list of recipes is shown."""
    state.drop_stale("recipe.")
    typed = st.session_state.get("recipe.name")
    if typed and state.current():
        state.recipes()[state.current()].draft.raw["name"] = typed


def _section(label: str, key: str) -> Any:  # noqa: ANN401
    """Return an expander whose content runs only while it is open."""
    return st.expander(label, key=f"recipe-section.{key}", on_change="rerun")


def _more(form: Form) -> None:
    sections = (
        ("Stock blends of this recipe", "stock", parts.stocks),
        (
            "Kitchen: temperatures, and what can light a vapour",
            "kitchen",
            parts.kitchen,
        ),
        ("Dry mass, loss, remark", "mass", parts.mass),
        ("Category: who said so, and when", "basis", parts.basis),
        ("Caps of your own", "caps", parts.own_caps),
    )
    for label, key, show in sections:
        box = _section(label, key)
        if box.open:
            with box:
                show(form)


# -- taking it over -----------------------------------------------------------


def _take(form: Form, kept: Kept) -> bool:
    """Use what is typed if it can be checked; say where it is refused if not."""
    recipe = form.check(Recipe)
    if recipe is None:
        return True
    if kept.good is not None and recipe == kept.good:
        recipe = kept.good
    error = results.trouble(recipe)
    if error is not None:
        where = error.where if isinstance(error, InputError) else str(error)
        place = parts.place_of(where, kept.draft.raw)
        form.say({place: str(error)})
        return True
    kept.good = recipe
    return False


def _answer(kept: Kept, form: Form, *, refused: bool) -> None:
    if refused:
        last = (
            "Results here and on the other pages are of the last recipe that could "
            "be checked."
        )
        shown.message(
            "What is typed here cannot be checked yet; the reason is at its field. "
            + (last if kept.good is not None else "There is no result yet."),
            lead="Not taken over",
        )
        for said in form.unplaced:
            shown.message(said)
    if kept.good is None:
        return
    try:
        found = results.assessed(kept.good)
    except BlendcheckError as error:
        shown.message(str(error))
        return
    shown.paragraph(overall_sentence(found.outcome), kind="bc-lead")
    stops = [
        sentence(finding.why)
        for finding in found.findings
        if finding.kind == "limit"
        and finding.counts
        and finding.outcome is not Outcome.WITHIN
    ]
    shown.html(shown.items(stops[:_FIRST]))
    more = len(stops) - _FIRST
    rest = f"{more} more on the Check page, with" if more > 0 else "The Check page has"
    shown.paragraph(f"{rest} the arithmetic and the questions to send.", kind="bc-soft")


# -- the file ----------------------------------------------------------------


def _files(kept: Kept) -> None:
    recipe = kept.good
    if recipe is None:
        return
    st.header("Keep it", anchor=False)
    try:
        found = results.assessed(recipe)
    except BlendcheckError:
        found = None
    if found is not None:
        shown.paragraph(
            f"Checked for {found.case.on.isoformat()}; recipe and materials together "
            f"have the hash {found.hash}."
        )
    text = kept.draft.text
    st.download_button(
        "Download this recipe (TOML)",
        data=lambda: filing.recipe_file(recipe, text),
        file_name=filing.file_name(recipe.name, ".toml"),
        mime="application/toml",
        key=f"{_FILES}.save",
        on_click="ignore",
    )
