"""Nonsense in every field and every table: one message or none, never a traceback."""

import pytest

from tests.ui.pages import PAGES, messages, open_page, run, table_keys, unfold
from tests.ui.test_pages import SECTIONS

NONSENSE = {
    "a blank": " ",
    "markup": "<script>alert(1)</script>",
    "a formula": '=HYPERLINK("http://a.example")',
    "a picture": "![x](http://a.example/x.png)",
    "a lemon": "🍋",
    "right to left": "\u202eabc",
    "not a number": "NaN",
    "without end": "inf",
    "an exponent": "1e999",
    "many digits": "9" * 400,
    "braces": "{0.__class__} {x}",
    "a quote": "'\"\\",
    "a null": "a\x00b",
    "two lines": "1 g\n2 g",
}


def opened(name):
    at = open_page(name)
    for key in SECTIONS[name]:
        unfold(at, key)
    return at


@pytest.mark.parametrize("text", NONSENSE.values(), ids=NONSENSE.keys())
@pytest.mark.parametrize("name", ["recipe", "materials", "papers"])
def test_nonsense_in_every_field(name, text):
    at = opened(name)
    before = at.session_state["shelf.shelf"].materials.material
    for field in (*at.text_input, *at.text_area):
        field.set_value(text)
    run(at)
    run(at)
    assert messages(at) or text == " "
    # what could not be read did not reach the shelf
    assert len(at.session_state["shelf.shelf"].materials.material) == len(before)


@pytest.mark.parametrize("text", NONSENSE.values(), ids=NONSENSE.keys())
@pytest.mark.parametrize("name", ["recipe", "materials"])
def test_nonsense_in_every_cell(name, text):
    at = opened(name)
    tables = dict(zip(table_keys(at), [t.value for t in at.dataframe], strict=True))
    for key, table in tables.items():
        row = dict.fromkeys(table.columns, text)
        at.session_state[key] = {
            "edited_rows": {0: row} if len(table) else {},
            "added_rows": [row, {}],
            "deleted_rows": [],
        }
    run(at)
    run(at)
    assert messages(at) or text == " "


@pytest.mark.parametrize("name", PAGES)
def test_every_button_can_be_pressed_at_once(name):
    at = opened(name)
    for button in at.button:
        if not button.disabled:
            button.click()
            run(at)
            break
    assert not at.exception


@pytest.mark.parametrize("name", ["recipe", "materials"])
def test_every_row_of_every_table_can_go(name):
    at = opened(name)
    for key, one in zip(table_keys(at), list(at.dataframe), strict=True):
        at.session_state[key] = {
            "edited_rows": {},
            "added_rows": [],
            "deleted_rows": list(range(len(one.value))),
        }
    run(at)
    run(at)
