"""The page has a field for everything that a record can hold, and loses none of it.

The records say what there is: their ``model_fields`` are walked, down to the last
text. A key of a field on the page is the page's name and the path in the draft, a
table's key the path of its list, so what can be entered is read off the page itself.
"""

import types
from collections.abc import Iterator
from typing import Annotated, Literal, Union, get_args, get_origin

import pytest
from streamlit.testing.v1 import AppTest

from blendcheck.records.fields import Record
from blendcheck.records.material import Material, Materials
from blendcheck.records.recipe import Recipe
from blendcheck.records.snapshot import as_written
from tests.ui.full import full_recipe, full_shelf
from tests.ui.pages import TIMEOUT, messages, run, table_keys, unfold
from tests.ui.test_pages import SECTIONS

# One field on the page stands for several of the record.
MEANS = {
    "what": ("material", "stock"),  # a choice among materials and stock blends
}

EXCEPTIONS = {
    Material: {
        "id": "given when it is added: recipe files call it by this word",
        "cap.*.material": "the cap stands with the material that it speaks of",
    },
    Materials: {
        "cap.*.material": "a cap on one material is entered with that material",
        "stock.*.id": "made from its name when it is added",
        "confirmed.*.name": "answered with yes or no where the page asks",
        "confirmed.*.cas": "answered with yes or no where the page asks",
        "confirmed.*.counts_as": "answered with yes or no where the page asks",
        "confirmed.*.same": "answered with yes or no where the page asks",
    },
    Recipe: {
        "schema_": "the form of the file, not the maker's",
        "materials": "the page has one shelf, and gives it its file name",
        "stock.*.id": "made from its name when it is added",
    },
}


# -- what the records hold ---------------------------------------------------------


def leaves(model: type[Record]) -> Iterator[str]:
    """Yield the path of every field that holds no record of its own."""
    for name, field in model.model_fields.items():
        yield from _inside(name, field.annotation)


def _inside(path: str, kind: object) -> Iterator[str]:
    origin, args = get_origin(kind), get_args(kind)
    if origin is Annotated:
        yield from _inside(path, args[0])
    elif origin in (Union, types.UnionType):
        inner = [one for one in args if one is not type(None)]
        yield from _inside(path, inner[0])
    elif origin is tuple and _record(args[0]) is not None:
        yield from _inside(f"{path}.*", args[0])
    elif origin is dict:
        yield f"{path}.*"
    elif (record := _record(kind)) is not None:
        yield from (f"{path}.{inner}" for inner in leaves(record))
    else:
        assert origin in (None, tuple, Literal), (path, kind)
        yield path


def _record(kind: object) -> type[Record] | None:
    while get_origin(kind) is Annotated:
        kind = get_args(kind)[0]
    return kind if isinstance(kind, type) and issubclass(kind, Record) else None


def covers(path: str, leaf: str) -> bool:
    """Say whether a path on the page is a field of the record, or one in its table."""
    there, wanted = path.split("."), leaf.split(".")
    return len(there) >= len(wanted) and all(
        one in ("*", two) for one, two in zip(wanted, there, strict=False)
    )


# -- what the page shows ------------------------------------------------------------


def paths(at, page: str) -> set[str]:
    """Return the paths of all fields and all columns that are on the page now."""
    front = f"{page}."
    found = set()
    fields = (*at.text_input, *at.text_area, *at.selectbox, *at.checkbox, *at.radio)
    for key in (str(one.key) for one in fields):
        if key.startswith(front):
            found.add(key.removeprefix(front))
    tables = zip(table_keys(at), at.dataframe, strict=True)
    for key, table in tables:
        if key.startswith(front):
            place = key.removeprefix(front).rpartition(".")[0]
            for column in table.value.columns:
                found |= {f"{place}.*.{one}" for one in MEANS.get(column, (column,))}
    return {
        ".".join("*" if part.isdigit() else part for part in one.split("."))
        for one in found
    }


def filled(name: str):
    """Return a page with a shelf and a recipe in which no field is left out."""
    source = (
        "from blendcheck.ui import state\n"
        "from tests.ui.full import full_recipe, full_shelf\n"
        f"from blendcheck.ui import {name}\n"
        'if "shelf.shelf" not in state.st.session_state:\n'
        "    state.begin(full_shelf())\n"
        "    state.add_recipe(full_recipe())\n"
        f"{name}.show()\n"
    )
    at = AppTest.from_string(source, default_timeout=TIMEOUT).run()
    assert not at.exception
    return at


def kept_recipe(at):
    (kept,) = at.session_state["shelf.recipes"].values()
    return kept


def opened(at, keys):
    for key in keys:
        unfold(at, key)
    return at


@pytest.fixture(scope="module")
def seen():
    """Every path that the pages show, by the record that it belongs to."""
    at = opened(filled("materials"), SECTIONS["materials"])
    found = {Material: paths(at, "material"), Materials: paths(at, "shelf-form")}
    for one in ("composition.0", "lot.0.composition.0"):
        at.selectbox("material.which-list").set_value(one)
        run(at)
        found[Material] |= paths(at, "material")
    at = opened(filled("recipe"), SECTIONS["recipe"])
    found[Recipe] = paths(at, "recipe")
    at = filled("papers")
    for kind in ("card", "label"):
        at.selectbox("papers.kind").set_value(kind)
        run(at)
        found[Recipe] |= paths(at, "paper-words")
    if any(one.startswith("reason.") for one in found[Recipe]):
        # one field a limit that is not shown to be kept; its subject is the `about`
        found[Recipe] |= {"papers.reason.*.about", "papers.reason.*.says"}
    return found


@pytest.mark.parametrize("model", [Material, Materials, Recipe])
def test_every_field_can_be_entered(seen, model):
    wanted = [
        leaf
        for leaf in leaves(model)
        if not (model is Materials and leaf.startswith("material.*."))
    ]
    missing = {
        leaf for leaf in wanted if not any(covers(path, leaf) for path in seen[model])
    }
    assert missing == set(EXCEPTIONS[model])


def test_the_records_are_walked_to_their_last_field():
    """A path of each shape that a record can have; none of them ends in a record."""
    assert {
        "hazard.*.classes",
        "lot.*.composition.*.row.*.share",
        "dilution.percent",
        "weighed.*",
    } <= set(leaves(Material))
    assert {"workshop.current.*", "workshop.workroom.volume"} <= set(leaves(Materials))
    assert {"blend.line.*.amount", "papers.reason.*.says"} <= set(leaves(Recipe))
    assert not covers("hazard.*.document", "document.*.id")


def written(record) -> set[str]:
    found: set[str] = set()

    def walk(path: str, value: object) -> None:
        if isinstance(value, dict):
            for key, inner in value.items():
                walk(f"{path}.{key}", inner)
        elif isinstance(value, list) and value and isinstance(value[0], dict):
            for inner in value:
                walk(f"{path}.*", inner)
        else:
            found.add(path.removeprefix("."))

    walk("", as_written(record))
    return {one.replace("schema", "schema_") for one in found}


@pytest.mark.parametrize(
    ("model", "make"),
    [
        (Material, lambda: full_shelf().get("kelp oil")),
        (Materials, full_shelf),
        (Recipe, full_recipe),
    ],
    ids=["material", "shelf", "recipe"],
)
def test_the_full_example_leaves_no_field_out(model, make):
    there = written(make())
    missing = {
        leaf
        for leaf in leaves(model)
        if not any(covers(path, leaf) for path in there)
        # the material and the caps of another kind are no fields of this example
        and not leaf.endswith("cap.*.material")
    }
    assert missing == set()


def test_opening_every_section_of_the_shelf_changes_nothing():
    at = opened(filled("materials"), SECTIONS["materials"])
    for one in ("composition.0", "lot.0.composition.0"):
        at.selectbox("material.which-list").set_value(one)
        run(at)
    run(at)
    assert messages(at) == []
    held = at.session_state["shelf.shelf"]
    assert held.materials == full_shelf()
    assert held.draft(held.materials.get("kelp oil")).raw == as_written(
        full_shelf().get("kelp oil")
    )


def test_opening_every_section_of_the_recipe_changes_nothing():
    at = opened(filled("recipe"), SECTIONS["recipe"])
    run(at)
    assert messages(at) == []
    kept = kept_recipe(at)
    assert kept.good == full_recipe()
    assert kept.draft.raw == as_written(full_recipe())


def test_the_papers_change_nothing_either():
    at = filled("papers")
    for kind in ("card", "label"):
        at.selectbox("papers.kind").set_value(kind)
        run(at)
    assert kept_recipe(at).good == full_recipe()
