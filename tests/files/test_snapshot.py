"""The snapshot holds what a check rests on, and nothing else."""

import hashlib
import json
from datetime import date
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from blendcheck.records.material import Materials
from blendcheck.records.recipe import Recipe
from blendcheck.records.snapshot import content_hash, materials_used, snapshot
from tests.files.makers import patient, recipes, shelves

ON = date(2025, 12, 1)


def shelf(*ids: str, **more: Any) -> Materials:
    materials = [{"id": i, "name": i.upper(), "kind": "solid"} for i in ids]
    return Materials.model_validate({"material": materials, **more})


def recipe(*names: str, **more: Any) -> Recipe:
    lines = [{"material": name, "amount": "5 g"} for name in names]
    return Recipe.model_validate({"name": "T", "line": lines, **more})


def test_the_hash_is_that_of_the_canonical_text() -> None:
    text = (
        '{"materials":{"material":[{"id":"a","kind":"solid","name":"A"}]},'
        '"on":"2025-12-01","recipe":{"line":[{"amount":"5 g","material":"a"}],'
        '"name":"T","schema":1}}'
    )
    found = content_hash(recipe("a"), shelf("a", "b"), ON)
    assert found == hashlib.sha256(text.encode()).hexdigest()[:12]


def test_what_the_recipe_does_not_reach_does_not_touch_it() -> None:
    one = content_hash(recipe("a"), shelf("a"), ON)
    assert content_hash(recipe("a"), shelf("a", "b"), ON) == one
    unused = {"scheme": "S", "material": "b", "printed": "1 %"}
    assert content_hash(recipe("a"), shelf("a", "b", cap=[unused]), ON) == one
    used = {"scheme": "S", "material": "a", "printed": "1 %"}
    of_component = {"scheme": "S", "on": "component", "name": "x", "printed": "1 %"}
    for cap in (used, of_component):
        assert content_hash(recipe("a"), shelf("a", cap=[cap]), ON) != one


def test_every_printed_digit_and_the_day_count() -> None:
    one = content_hash(recipe("a"), shelf("a"), ON)
    other = recipe("a").model_copy(update={"line": recipe("a").line * 2})
    assert content_hash(other, shelf("a"), ON) != one
    more_digits = Recipe.model_validate(
        {"name": "T", "line": [{"material": "a", "amount": "5.0 g"}]}
    )
    assert content_hash(more_digits, shelf("a"), ON) != one
    assert content_hash(recipe("a"), shelf("a"), date(2025, 12, 2)) != one


def test_stock_blends_and_diluents_are_followed() -> None:
    diluted = {"percent": "10 %", "diluent": "d", "papers_describe": "as sold"}
    things = [{"id": i, "name": i, "kind": "solid"} for i in "abcdx"]
    things[2]["dilution"] = diluted  # type: ignore[assignment]
    stocks = [
        {"id": "s", "line": [{"stock": "t", "amount": "1 part"}]},
        {
            "id": "t",
            "line": [
                {"material": "c", "amount": "1 part"},
                {"stock": "s", "amount": "1 part"},  # a cycle must not hang
            ],
        },
        {"id": "u", "line": [{"material": "x", "amount": "1 part"}]},
    ]
    materials = Materials.model_validate({"material": things, "stock": stocks})
    made = Recipe.model_validate(
        {
            "name": "T",
            "line": [
                {"stock": "s", "amount": "5 g"},
                {"material": "a", "amount": "1 g"},
            ],
            "stock": [{"id": "own", "line": [{"material": "b", "amount": "1 g"}]}],
        }
    )
    used = materials_used(made, materials)
    assert [m.id for m in used.material] == ["a", "b", "c", "d"]
    assert [s.id for s in used.stock] == ["s", "t"]


def _names(made: Recipe) -> set[str]:
    return {line.material for line in made.line if line.material is not None}


@patient()
@given(recipes, shelves, st.data())
def test_the_records_read_their_snapshot_back(
    made: Recipe, materials: Materials, data: st.DataObject
) -> None:
    if materials.material:  # let the recipe reach something
        wanted = data.draw(st.sampled_from(materials.material)).id
        line = made.line[0].model_copy(update={"material": wanted, "stock": None})
        made = made.model_copy(update={"line": (line, *made.line[1:])})
    taken = json.loads(json.dumps(snapshot(made, materials)))
    assert Recipe.model_validate(taken["recipe"]) == made
    kept = Materials.model_validate(taken["materials"])
    assert kept == materials_used(made, materials)
    assert _names(made) & {m.id for m in materials.material} <= {
        m.id for m in kept.material
    }
    assert content_hash(made, kept, ON) == content_hash(made, materials, ON)
