"""Saving: remarks and layout survive, only what differs changes, nothing is lost."""

import difflib
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from blendcheck.files import writing
from blendcheck.files.alignment import match
from blendcheck.files.editing import edited
from blendcheck.files.reading import (
    materials_from_text,
    recipe_from_text,
)
from blendcheck.files.saving import (
    whole,
)
from blendcheck.files.writing import (
    EMPTY_SHELF,
    dump_materials,
    dump_recipe,
    table_text,
)
from blendcheck.records.material import Materials
from blendcheck.records.recipe import Recipe
from blendcheck.records.snapshot import as_written
from tests.files.makers import (
    SHELF,
    patient,
    recipe_tables,
    recipes,
    shelf_tables,
    shelves,
)


def changed(text: str, **changes: object) -> tuple[str, list[str]]:
    """Apply ``material.0.name=...`` style changes; return text and differing lines."""
    old = materials_from_text(text)
    tables = as_written(old)
    for path, value in changes.items():
        *way, last = [int(p) if p.isdigit() else p for p in path.split("__")]
        at = tables
        for step in way:
            at = at[step]
        if value is None:
            del at[last]
        elif isinstance(last, int) and last == len(at):
            at.append(value)
        else:
            at[last] = value
    new = Materials.model_validate(tables)
    result = edited(text, whole(old), whole(new), as_written(new))
    assert materials_from_text(result) == new
    lines = difflib.ndiff(text.splitlines(), result.splitlines())
    return result, [x for x in lines if x[0] in "+-" and x[2:].strip()]


def test_a_changed_figure_changes_one_line() -> None:
    _, lines = changed(SHELF, material__0__density="0.905 g/mL")
    assert lines == ["- density = 0.900", '+ density = "0.905 g/mL"']


def test_a_renamed_id_keeps_its_remark() -> None:
    _, lines = changed(SHELF, material__0__id="mint")
    assert lines == [
        '- id = "pep"   # short',
        '+ id = "mint"   # short',
    ]


def test_a_new_field_stands_with_its_table_not_under_the_next_remark() -> None:
    result, lines = changed(SHELF, material__1__supplier="Kelp & Sons")
    assert lines == ['+ supplier = "Kelp & Sons"']
    assert 'kind = "solid"\nsupplier = "Kelp & Sons"\n\n# bicarbonate\n' in result


def test_a_deleted_material_takes_its_remark_with_it_and_no_other() -> None:
    result, lines = changed(SHELF, material__1=None)
    assert "# clay" not in result
    assert "# bicarbonate\n[[material]]" in result
    assert len(lines) == 5


def test_a_row_changes_alone_and_keeps_its_remark() -> None:
    _, lines = changed(SHELF, material__0__composition__0__row__1__share="20 %")
    assert lines == [
        '-   { name = "Menthone", share = "14-32 %" }, # by name only',
        '+   { name = "Menthone", share = "20 %" }, # by name only',
    ]


def test_a_deleted_row_goes_alone() -> None:
    _, lines = changed(SHELF, material__0__composition__0__row__1=None)
    assert lines == ['-   { name = "Menthone", share = "14-32 %" }, # by name only']


def test_a_new_lot_and_a_new_material_are_added_whole() -> None:
    result, lines = changed(
        SHELF,
        material__0__lot__1={"lot": "007", "received": "2025-04-03"},
        material__3={"id": "x", "name": "X", "kind": "other"},
    )
    assert all(line.startswith("+") for line in lines)
    assert result.index('lot = "007"') < result.index("# clay")
    assert result.rstrip().endswith('kind = "other"')


def test_a_new_order_carries_the_remarks_along() -> None:
    old = materials_from_text(SHELF)
    new = old.model_copy(update={"material": old.material[::-1]})
    result = edited(SHELF, whole(old), whole(new), as_written(new))
    assert materials_from_text(result) == new
    for remark in ("# peppermint: the big bottle", "# clay", "# bicarbonate"):
        assert f"{remark}" in result
    assert '# clay, for the colour\n[[material]]\nid = "clay"' in result
    assert '# bicarbonate\n[[material]]\nid = "bicarb"' in result


def test_tables_in_an_unusual_order_are_edited_too() -> None:
    text = (
        '[[material]]\nid = "a"\nname = "A"\nkind = "other"\n# mine\n[workshop]\n'
        'name = "x"\n[[material]]\nid = "b"\nname = "B"\nkind = "other"\n'
        '[[material.lot]]\nlot = "1"\n'
    )
    result, lines = changed(text, material__1__name="BB", workshop__name="y")
    assert len(lines) == 4
    assert "# mine\n[workshop]" in result


def test_dotted_and_inline_tables_are_edited_in_place() -> None:
    text = (
        'name = "T"\nprocess.room = "20 °C" # warm\n'
        'process.heat_gun = false\nline = [ { material = "a", amount = "5 g" } ]\n'
    )
    old = recipe_from_text(text)
    tables = as_written(old)
    tables["process"] = {"room": "21 °C", "ignition": []}
    tables["line"].append({"material": "b", "amount": "6 g"})
    new = Recipe.model_validate(tables)
    result = edited(text, whole(old), whole(new), as_written(new))
    assert recipe_from_text(result) == new
    assert 'process.room = "21 °C" # warm\n' in result
    assert "heat_gun" not in result


def test_a_default_that_is_written_out_stays() -> None:
    text = (
        'name = "T"\npieces_per_use = "1"\n[[line]]\nmaterial = "a"\namount = "5 g"\n'
    )
    old = recipe_from_text(text)
    new = old.model_copy(update={"name": "U"})
    result = edited(text, whole(old), whole(new), as_written(new))
    assert result == text.replace('"T"', '"U"')


def test_a_load_can_be_added_to_a_blend_without_a_header() -> None:
    text = 'name = "T"\n[[blend.line]]\nmaterial = "a"\namount = "5 g"\n'
    old = recipe_from_text(text)
    tables = as_written(old)
    tables["blend"].update(load="2 %", of="the total")
    new = Recipe.model_validate(tables)
    result = edited(text, whole(old), whole(new), as_written(new))
    assert recipe_from_text(result) == new


def _remarked(text: str) -> str:
    """Put a remark above every header and behind every one-line field."""
    lines = []
    for n, line in enumerate(text.splitlines()):
        if line.startswith("["):
            lines += [f"# above {n}", line + f" # at {n}"]
        elif line.endswith('"') and " = " in line and not line.startswith(" "):
            lines.append(f"{line} # behind {n}")
        else:
            lines.append(line)
    return "\n".join(lines) + "\n"


@pytest.fixture(params=["rows on one line", "rows as tables"])
def layout(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    if request.param == "rows as tables":
        monkeypatch.setattr(writing, "_ONE_LINE_EACH", frozenset())


@pytest.mark.usefixtures("layout")
def test_any_shelf_turns_into_any_other() -> None:
    @patient(150)
    @given(shelves, shelves, st.sampled_from([_remarked, str]))
    def check(old: Materials, new: Materials, layout: Callable[[str], str]) -> None:
        text = layout(dump_materials(old))
        assert materials_from_text(text) == old
        result = edited(text, whole(old), whole(new), as_written(new))
        assert materials_from_text(result) == new

    check()


@patient(150)
@given(recipes, recipes, st.sampled_from([_remarked, str]))
def test_any_recipe_turns_into_any_other(
    old: Recipe, new: Recipe, layout: Callable[[str], str]
) -> None:
    text = layout(dump_recipe(old))
    result = edited(text, whole(old), whole(new), as_written(new))
    assert recipe_from_text(result) == new


def _in_common(one: str, other: str) -> int:
    """How many characters two texts have in common at their start."""
    pairs = enumerate(zip(one, other, strict=False))
    return next((n for n, (a, b) in pairs if a != b), min(len(one), len(other)))


@patient(100)
@given(shelf_tables, st.data())
def test_one_table_less_loses_its_remarks_only(
    tables: dict, data: st.DataObject
) -> None:
    old = Materials.model_validate(tables)
    if not old.material:
        return
    text = _remarked(dump_materials(old))
    gone = data.draw(st.integers(0, len(old.material) - 1))
    kept = old.material[:gone] + old.material[gone + 1 :]
    new = old.model_copy(update={"material": kept})
    result = edited(text, whole(old), whole(new), as_written(new))
    assert materials_from_text(result) == new
    if result == EMPTY_SHELF:
        return
    # what went is one piece of the text, and it begins with the material's remark
    same_start = _in_common(text, result)
    same_end = _in_common(text[::-1], result[::-1])
    assert same_start + same_end >= len(result)
    remarks = [x for x in text.splitlines() if x.startswith("# above")]
    own = len(remarks) - sum(x.startswith("# above") for x in result.splitlines())
    headers = table_text((), {"material": [as_written(old.material[gone])]})
    assert own == sum(x.startswith("[") for x in headers.splitlines())


@patient()
@given(recipe_tables)
def test_saving_what_is_there_already_touches_nothing(tables: dict) -> None:
    old = Recipe.model_validate(tables)
    text = _remarked(dump_recipe(old))
    assert edited(text, whole(old), whole(old), as_written(old)) == text


@patient()
@given(st.lists(st.integers(0, 5)), st.lists(st.integers(0, 5)))
def test_no_old_item_is_used_twice_and_equal_ones_are_found(
    old: list[int], new: list[int]
) -> None:
    found = match(old, new)
    used = [at for at in found if at is not None]
    assert len(used) == len(set(used))
    shared = sum(min(old.count(x), new.count(x)) for x in set(old))
    same = sum(
        1 for at, x in zip(found, new, strict=True) if at is not None and old[at] == x
    )
    assert same == shared
