"""Fields of what was open before, sent once more by a browser that had not followed."""

import pytest

from blendcheck.ui import state
from tests.ui.pages import open_page, recipe_id, run


def fields(at, page):
    """What the browser would send: the texts, choices and ticks of a form."""
    kinds = (at.text_input, at.text_area, at.selectbox, at.checkbox)
    return {
        str(one.key): one.value
        for kind in kinds
        for one in kind
        if str(one.key).startswith(f"{page}.")
    }


def send(at, values):
    for kind in (at.text_input, at.text_area, at.selectbox, at.checkbox):
        for one in kind:
            if str(one.key) in values:
                one.set_value(values[str(one.key)])
    return run(at)


def test_a_material_does_not_get_the_fields_of_another():
    at = open_page("materials")
    before = at.session_state["shelf.shelf"].materials
    old = fields(at, "material")
    at.selectbox("materials.which").set_value("eucalyptus")
    run(at)
    send(at, old)
    assert at.session_state["shelf.shelf"].materials == before
    assert at.text_input("material.supplier").value == "Thrumsea Oils"


def test_a_recipe_does_not_get_the_fields_of_another():
    at = open_page("recipe")
    held = at.session_state["shelf.recipes"]
    before = {key: kept.good for key, kept in held.items()}
    names = {key: kept.name for key, kept in held.items()}
    old = fields(at, "recipe")
    del old["recipe.recipe"]
    at.selectbox("recipe.recipe").set_value(recipe_id(at, "North gale"))
    run(at)
    send(at, old)
    assert {key: kept.good for key, kept in held.items()} == before
    assert {key: kept.name for key, kept in held.items()} == names


@pytest.mark.parametrize("waited", [True, False])
def test_what_is_typed_once_the_browser_has_followed_is_used(monkeypatch, waited):
    """The supplier of the material before, typed by hand."""
    at = open_page("materials")
    supplier = at.text_input("material.supplier").value
    at.selectbox("materials.which").set_value("eucalyptus")
    run(at)
    if waited:
        now = state.monotonic()
        monkeypatch.setattr(state, "monotonic", lambda: now + 6)
    else:
        run(at)  # the browser has sent the new fields
    at.text_input("material.supplier").set_value(supplier)
    run(at)
    made = at.session_state["shelf.shelf"].materials.get("eucalyptus")
    assert made.supplier == supplier
