"""Bad files: one message with file, line, field, reason and fix; never a traceback."""

import tomllib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from blendcheck.errors import InputError, QuestionError
from blendcheck.files import load, load_materials, load_recipe
from blendcheck.files.reading import (
    LARGEST,
    materials_from_text,
    recipe_from_text,
    text_from_bytes,
)
from blendcheck.files.writing import dump_recipe
from blendcheck.records.recipe import Recipe
from tests.files.makers import patient, recipes

GOOD = """\
name = "Fair tablet"

[[line]]
material = "bicarb"
amount = "60 g"

[[line]]
material = "pep"
lot = "A12"
amount = "1.2 g"
"""


def with_line(line: str) -> str:
    """Put a line where ``lot`` of the second ``[[line]]`` stands, line 9."""
    return GOOD.replace('lot = "A12"', line)


# What stands in line 9, what the message says of it, its code, its class.
SYNTAX = [
    ("amount = 0,5", "comma in a number", "decimal-comma", QuestionError),
    ("on = 03/04/25", "date without quotes", "date-order", QuestionError),
    ("on = 3.4.25", "date without quotes", "date-order", QuestionError),
    ("lot = 007", 'starts with a zero.*lot = "007"', "leading-zero", InputError),
    ("lot = 60 g", 'without quotes.*"60 g"', "quotes-missing", InputError),
    ("lot = A12", "without quotes", "quotes-missing", InputError),
    ("lot = <0.1 %", "without quotes", "quotes-missing", InputError),
    ("lot = 10-25 %", "without quotes", "quotes-missing", InputError),
    ("lot = ½", "without quotes", "quotes-missing", InputError),
    ('lot = "A12', "quotation mark that is not closed", "quote-missing", InputError),
    ("lot = “A12”", "typographic quotation marks", "typographic-quotes", InputError),
    (r'lot = "A\12"', r"single backslash.*twice", "backslash", InputError),
    ('lot = "A12" %', "behind the closing", "behind-quotes", InputError),
    ("lot = 'it's'", "behind the closing", "behind-quotes", InputError),
    ('lot: "A12"', '":" where "="', "no-equals", InputError),
    ("lot", 'not "name = value"', "no-equals", InputError),
    ("lot =", "blank is not zero", "no-value", InputError),
    ("lot = True", "small letters", "true-or-false", InputError),
    ("lot = yes", "true or false", "true-or-false", InputError),
    ("lot = 2025-02-30", "date that does not exist", "date-impossible", InputError),
    ('lot = ["A"', "should be closed", "bracket-missing", InputError),
    ('lot = {a = "b",}', "comma too many", "bracket-missing", InputError),
    ("[[line]", "does not close its brackets", "header-brackets", InputError),
    ("[line]", "open already", "table-twice", InputError),
    ('material = "x"', "has already.*header", "field-twice", InputError),
    ('lot = "a\x01b"', "does not print", "characters", InputError),
    ("é = 1", 'not "name = value"', "no-equals", InputError),
]


@pytest.mark.parametrize(("line", "said", "code", "kind"), SYNTAX)
def test_a_text_that_is_not_toml(
    line: str, said: str, code: str, kind: type[InputError]
) -> None:
    text = with_line(line)
    with pytest.raises(tomllib.TOMLDecodeError):
        tomllib.loads(text)
    # an open bracket or three quotes are noticed later than where they stand
    place = r"fair.toml, line \d+: "
    with pytest.raises(InputError, match=f"(?s)^{place}.*{said}") as caught:
        recipe_from_text(text, "fair.toml")
    assert (caught.value.code, type(caught.value)) == (code, kind)
    assert "\n" not in str(caught.value)


@pytest.mark.parametrize("line", [row[0] for row in SYNTAX if "[" not in row[0]])
def test_the_line_and_its_text_are_named(line: str) -> None:
    with pytest.raises(InputError, match=r"^fair\.toml, line 9: ") as caught:
        recipe_from_text(with_line(line), "fair.toml")
    shown = line.encode("unicode_escape").decode() if not line.isprintable() else line
    assert shown in str(caught.value)


def test_an_open_text_of_three_quotes_is_placed_where_it_opens() -> None:
    with pytest.raises(InputError, match=r"line 9: .*not closed"):
        recipe_from_text(with_line('remark = """two\nlines'), "fair.toml")


# Line 9 is TOML but no field of a line: what is said, and the code.
FIELDS = [
    ("lot = 7", r'lot 7 is written without quotes\. .*lot = "7"', "lot-quotes"),
    ("lot = 7.10", r'lot 7.10 is .*lot = "7.10"', "lot-quotes"),
    ("lot = 2025-04-03", r'lot = "2025-04-03"', "lot-quotes"),
    ("lot = true", r'lot = "true"', "lot-quotes"),
    ('lot = ["a"]', "one text, and a list", "not-text"),
    ("material = 5", "second", "field-twice"),
    ('lto = "A12"', 'no field "lto" here. Did you mean "lot"', "field-unknown"),
    ('Lot = "A12"', 'Did you mean "lot"', "field-unknown"),
    ('zzz = "A12"', "It is one of: material, stock, lot, amount", "field-unknown"),
    ('leaves_on_drying = "0,5 %"', "comma", "decimal-comma"),
    ('leaves_on_drying = ""', "blank", "blank"),
    ('leaves_on_drying = "140 %"', "between 0 and 100", "out-of-range"),
    ("leaves_on_drying = true", "True is not a figure", "bad-input"),
    ('leaves_on_drying = ["5 %"]', "one figure belongs", "bad-input"),
    ("leaves_on_drying = 1_0", '"1_0" is a number that is not', "number"),
    ("leaves_on_drying = 0x10", "plain digits", "number"),
    ("leaves_on_drying = 1e1", "plain digits", "number"),
    ("leaves_on_drying = inf", "plain digits", "number"),
    ("leaves_on_drying = nan", "plain digits", "number"),
    ("leaves_on_drying = [1_0]", "plain digits", "number"),
    ('stock = "x"', "one of the two", "line-target"),
]


@pytest.mark.parametrize(
    ("line", "said", "code"), [row for row in FIELDS if row[2] != "field-twice"]
)
def test_a_field_that_is_refused(line: str, said: str, code: str) -> None:
    with pytest.raises(InputError, match=said) as caught:
        recipe_from_text(with_line(line), "fair.toml")
    at = 7 if code == "line-target" else 9
    assert str(caught.value).startswith(f"fair.toml, line {at}, line[2]")
    assert caught.value.code == code
    question = code == "decimal-comma"
    assert isinstance(caught.value, QuestionError) == question


RECIPES = [
    ('nam = "x"\nline = []', 'line 1, nam: there is no field "nam" here.*"name"'),
    ('line = [{material = "a", amount = "5 g"}]', "name: .*missing"),
    (
        'name = ""\n[[line]]\nmaterial="a"\namount="1 g"',
        'line 1, name: "name" is blank',
    ),
    ('name = "x"', "no lines"),
    ("name = 24\npieces = 1", 'line 1, name: "name" is a text.*name = "24"'),
    (GOOD.replace("name", "schema = 2\nname"), "schema = 2 is not a form"),
    (GOOD.replace("name", 'product = "soup"\nname'), 'Did you mean "soap"'),
    (GOOD.replace("name", 'product = "zz"\nname'), "It is one of: shower tablet"),
    (GOOD.replace("name", 'pieces = "two"\nname'), 'line 1, pieces: .*"two" is not'),
    (GOOD.replace("name", "pieces = 2.5\nname"), "whole number, and .2.5. is not"),
    (GOOD.replace("name", "pieces = 0\nname"), "pieces = 0 must be at least 1"),
    (GOOD.replace("[[line]]\nmaterial", "[line]\nmaterial", 1), "open already"),
    (
        GOOD.split("\n\n[[line]]\nm")[0] + '\n[line]\nmaterial="a"',
        r"two brackets.*\[\[l",
    ),
    (GOOD + "[[process]]\n", r"stands once, .*Write \[process\]"),
    ('process = "hot"\n' + GOOD, r"is a table, .*\[process\]"),
    (GOOD + '[process]\nheat_gun = "?"', "true or false"),
    (GOOD + '[process]\nignition = "hob"', r'is a list.*ignition = \["'),
    (GOOD + '[process.temperature]\ndryng = "5 °C"', 'Did you mean "drying"'),
    (GOOD + '[process.temperature]\ndrying = "50"', "temperature.drying: .*unit"),
    (GOOD + '[[cap]]\nscheme="S"\nprinted = "5-6 %"', r"cap\[1\].*a range, and a cap"),
    (GOOD + "[blend]\nline = []\n[blend.x]", "blend"),
    (GOOD.replace('"60 g"', '"60 oz"'), r"line 5, line\[1\]\.amount: .*oz"),
    (f"{GOOD}[[line]]\namount='x'\nfoo=1\n", r"line 12.*\(1 more to correct"),
    (f"{GOOD}x=1\ny=2\n[[line]]", r"line\[2\]\.x: .*\(2 more to correct"),
]


@pytest.mark.parametrize(("text", "said"), RECIPES)
def test_a_recipe_that_is_refused(text: str, said: str) -> None:
    with pytest.raises(InputError, match=f"^fair.toml.*{said}"):
        recipe_from_text(text, "fair.toml")


NO_RECIPES = [
    ("", "empty"),
    ("  \n\t\n", "empty"),
    ("# only a remark\n", "not a recipe"),
    ('[project]\nname = "x"\n[build-system]\nrequires = []', "not a recipe"),
    ('[[material]]\nid = "a"', "materials file, not a recipe"),
    ('[workshop]\nname = "x"', "materials file, not a recipe"),
    ('{"name": "x"}', "line 1: "),
    ("what,material\r\n", "line 1: "),
]


@pytest.mark.parametrize(("text", "said"), NO_RECIPES)
def test_a_file_that_is_no_recipe(text: str, said: str) -> None:
    with pytest.raises(InputError, match=said):
        recipe_from_text(text.replace("\r\n", "\n"), "x.toml")


SOLID = '[[material]]\nid = "a"\nname = "A"\nkind = "solid"\n'
NO_MATERIALS = [
    ("", "empty"),
    (GOOD, "a recipe, not a materials file"),
    ('[tool.x]\na = "b"', "not a materials file"),
    ('[[material]]\nid = "a"\nname = "A"\nkind = "essental oil"', '"essential oil"'),
    (
        '[[material]]\nid = "a"\nname = "A"\nkind = "solid"\n[[material.lot]]\nlot = 7',
        r'line 6, material\[1\]\.lot\[1\]\.lot: .*lot = "7"',
    ),
    (
        SOLID
        + """[[material.composition]]
kind = "full GC-MS"
row = [
  { name = "x", share = "5" },
  { name = "y", cas = "89-78-2", share = "5" },
]""",
        r"line 9, material\[1\]\.composition\[1\]\.row\[2\]\.cas: the check digit",
    ),
    (
        SOLID * 2,
        'two materials have the id "a"',
    ),
    (
        '[[material]]\nid="a"\nname="A"\nkind="solid"\n[material.weighed]\ndrup="1 g"',
        'line 6, material.1..weighed.drup: .*Did you mean "drop"',
    ),
]


@pytest.mark.parametrize(("text", "said"), NO_MATERIALS)
def test_a_file_that_is_no_shelf(text: str, said: str) -> None:
    with pytest.raises(InputError, match=said):
        materials_from_text(text, "m.toml")


BYTES = [
    (b"%PDF-1.7 \xff", "a PDF"),
    (b"PK\x03\x04 \xff", "spreadsheet"),
    (b"\x89PNG\r\n", "picture"),
    ('name = "x"'.encode("utf-16"), "UTF-16"),
    ('a = "b"\nname = "Öl"'.encode("latin-1"), "not in UTF-8 .first in line 2"),
    (b'name = "x"\0', "not a text"),
    (b"#" * (LARGEST + 1), "larger than 5 MB"),
]


@pytest.mark.parametrize(("data", "said"), BYTES)
def test_bytes_that_are_no_text(tmp_path: Path, data: bytes, said: str) -> None:
    path = tmp_path / "x.toml"
    path.write_bytes(data)
    with pytest.raises(InputError, match=rf"x\.toml: .*{said}"):
        load_recipe(path)
    with pytest.raises(InputError, match=said):
        text_from_bytes(data, "x.toml")


def test_missing_files_and_folders(tmp_path: Path) -> None:
    with pytest.raises(InputError, match=r"none.toml: there is no such file"):
        load_recipe(tmp_path / "none.toml")
    with pytest.raises(InputError, match="this is a folder"):
        load_materials(tmp_path)
    with pytest.raises(InputError, match="cannot be opened"):
        load_recipe("a\0b")


def test_a_recipe_finds_its_materials_from_its_own_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "winter"
    folder.mkdir()
    (folder / "fair.toml").write_text('materials = "../shelf.toml"\n' + GOOD)
    with pytest.raises(InputError, match=r"names the materials file .*--materials"):
        load(folder / "fair.toml")
    shelf = '[[material]]\nid = "pep"\nname = "P"\nkind = "essential oil"\n'
    (tmp_path / "shelf.toml").write_text(shelf)
    monkeypatch.chdir(folder)
    for path in ("fair.toml", folder / "fair.toml"):
        recipe, materials = load(path)
        assert (recipe.name, materials.get("pep").name) == ("Fair tablet", "P")
    (folder / "other.toml").write_text("# none yet\n")
    assert load("fair.toml", "other.toml")[1].material == ()


def test_a_byte_order_mark_and_windows_lines_are_read() -> None:
    data = b"\xef\xbb\xbf" + GOOD.replace("\n", "\r\n").encode()
    assert recipe_from_text(text_from_bytes(data, "x")) == recipe_from_text(GOOD)


# A number without quotes keeps its digits: "24.50" is not "24.5".
@pytest.mark.parametrize("digits", ["24.50", "0.1", "0.00000001", "5", "100.0"])
def test_numbers_keep_the_digits_of_the_file(digits: str) -> None:
    text = GOOD.replace("name", f"allowance_for_loss = {digits}\nname")
    if digits == "100.0":
        with pytest.raises(InputError, match="below 100"):
            recipe_from_text(text)
        return
    loss = recipe_from_text(text).allowance_for_loss
    assert loss is not None
    assert loss.printed == digits


def test_hostile_depth_and_length_end_in_a_message() -> None:
    for text in (
        f"x = {'[' * 100_000}",
        f"x = {'[' * 100_000}{']' * 100_000}",
        f"x = {'{a=' * 50_000}1{'}' * 50_000}",
        f"pieces = {'9' * 5000}\nname = 'x'",
        f"[{'a.' * 5000}b]\nname = 1",
        f"name = {'x' * 100_000}",
    ):
        with pytest.raises(InputError):
            recipe_from_text(text)


def _message(text: str | bytes) -> str:
    """Read something; return what is said against it, or nothing."""
    try:
        whole = text if isinstance(text, str) else text_from_bytes(text, "x")
        recipe_from_text(whole, "x")
    except InputError as error:
        return str(error)
    return ""


@patient(300)
@given(st.binary(max_size=200))
def test_no_bytes_end_in_a_traceback(data: bytes) -> None:
    assert _message(data).startswith("x")


@patient(400)
@given(recipes, st.data())
def test_no_slip_of_the_hand_ends_in_a_traceback(
    recipe: Recipe, data: st.DataObject
) -> None:
    text = dump_recipe(recipe)
    at = data.draw(st.integers(0, len(text)))
    until = data.draw(st.integers(at, min(len(text), at + 5)))
    put = data.draw(
        st.sampled_from(["", '"', "=", "\n", "[", ",", "0,5", "x", "#", "'"])
    )
    said = _message(text[:at] + put + text[until:])
    assert said == "" or said.startswith("x")
    assert "\n" not in said
