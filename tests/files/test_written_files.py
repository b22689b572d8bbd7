"""Files on disk: kept whole, or left as they were."""

import os
import stat
import subprocess
import sys
from pathlib import Path

import pytest

from blendcheck.errors import InputError
from blendcheck.files.loading import load_materials
from blendcheck.files.reading import (
    load_recipe,
    materials_from_text,
    recipe_from_text,
)
from blendcheck.files.saving import (
    materials_text,
    recipe_text,
    save_materials,
    save_recipe,
    write_file,
)
from blendcheck.records.material import Materials
from blendcheck.records.recipe import Recipe
from tests.files.makers import SHELF


def test_a_new_file_is_written_and_read(tmp_path: Path) -> None:
    recipe = Recipe.model_validate(
        {"name": "T", "line": [{"material": "a", "amount": "5 g"}]}
    )
    save_recipe(tmp_path / "t.toml", recipe)
    assert load_recipe(tmp_path / "t.toml") == recipe
    assert [p.name for p in tmp_path.iterdir()] == ["t.toml"]


def test_line_ends_the_mark_and_permissions_are_kept(tmp_path: Path) -> None:
    path = tmp_path / "m.toml"
    path.write_bytes(b"\xef\xbb\xbf" + SHELF.replace("\n", "\r\n").encode())
    path.chmod(0o640)
    old = load_materials(path)
    workshop = old.workshop.model_copy(update={"name": "Gull Row"})
    save_materials(path, old.model_copy(update={"workshop": workshop}))
    data = path.read_bytes()
    assert data.startswith(b"\xef\xbb\xbf# the drawer")
    assert data.count(b"\r\n") == data.count(b"\n") == SHELF.count("\n")
    assert b'name = "Gull Row"   # the sign says so\r\n' in data
    assert stat.S_IMODE(path.stat().st_mode) == 0o640


def test_a_text_is_changed_without_a_file() -> None:
    shelf = materials_from_text(SHELF)
    assert materials_text(shelf, SHELF) == SHELF
    with pytest.raises(InputError, match="without quotes"):
        materials_text(shelf, SHELF + "x = y")
    text = 'name = "T" # fair\n[[line]]\nmaterial = "a"\namount = "5 g"\n'
    recipe = recipe_from_text(text).model_copy(update={"name": "U"})
    assert recipe_text(recipe, text) == text.replace('"T"', '"U"')


def test_a_link_stays_a_link(tmp_path: Path) -> None:
    real, link = tmp_path / "real.toml", tmp_path / "link.toml"
    real.write_text(SHELF, encoding="utf-8")
    link.symlink_to(real)
    save_materials(link, Materials())
    assert link.is_symlink()
    assert load_materials(real) == Materials()


def test_a_file_that_cannot_be_read_is_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "m.toml"
    path.write_text(SHELF + "lot = 007\n", encoding="utf-8")
    with pytest.raises(
        InputError, match=r"left as it is .*starts with a zero"
    ) as caught:
        save_materials(path, Materials())
    assert caught.value.code == "not-written"
    assert path.read_text(encoding="utf-8").endswith("lot = 007\n")


def test_a_text_that_does_not_read_back_is_not_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "m.toml"
    path.write_text(SHELF, encoding="utf-8")
    for wrong in (lambda text, *_: text, lambda *_: "x = 0,5"):
        monkeypatch.setattr("blendcheck.files.editing.edited", wrong)
        with pytest.raises(InputError, match="does not read back the same"):
            save_materials(path, Materials())
        assert path.read_text(encoding="utf-8") == SHELF
    assert [p.name for p in tmp_path.iterdir()] == ["m.toml"]


def test_a_failed_write_leaves_the_old_file_and_no_spare(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "m.toml"
    path.write_text(SHELF, encoding="utf-8")

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(InputError, match="cannot be written: No space left"):
        save_materials(path, Materials())
    assert path.read_text(encoding="utf-8") == SHELF
    assert [p.name for p in tmp_path.iterdir()] == ["m.toml"]


def test_a_file_changed_by_somebody_else_is_not_overwritten(tmp_path: Path) -> None:
    path = tmp_path / "m.toml"
    path.write_text(SHELF, encoding="utf-8")
    was = load_materials(path)
    path.write_text(SHELF.replace("Salt Lane", "Gull Row"), encoding="utf-8")
    with pytest.raises(InputError, match="changed by somebody else") as caught:
        save_materials(path, Materials(), was=was)
    assert caught.value.code == "changed-meanwhile"
    assert "Gull Row" in path.read_text(encoding="utf-8")


def test_a_missing_folder_is_named(tmp_path: Path) -> None:
    with pytest.raises(InputError, match=r"nowhere.*cannot be written: No such file"):
        write_file(tmp_path / "nowhere" / "m.toml", b"")


def test_a_table_is_saved_and_read_by_its_name(tmp_path: Path) -> None:
    path = tmp_path / "m.csv"
    shelf = materials_from_text(SHELF)
    save_materials(path, shelf)
    assert path.read_bytes().startswith(b"\xef\xbb\xbfwhat,")
    assert load_materials(path) == shelf
    with pytest.raises(InputError, match="changed by somebody else"):
        save_materials(path, Materials(), was=Materials())
    save_materials(path, Materials(), was=shelf)
    assert load_materials(path) == Materials()


def test_reading_a_recipe_loads_nothing_that_only_saving_needs() -> None:
    seen = "import sys, blendcheck.files as f; f.load; print(*sys.modules)"
    found = subprocess.run(
        [sys.executable, "-c", seen], check=True, capture_output=True, text=True
    )
    modules = found.stdout.split()
    assert "blendcheck.files.reading" in modules
    for name in ("tomlkit", "pandas", "blendcheck.files.pasted_text"):
        assert name not in modules
