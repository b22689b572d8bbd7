"""Every page, with the demo, as at a first start."""

import re
from pathlib import Path

import pytest
from streamlit.testing.v1 import AppTest

from tests.ui.pages import PAGES, TIMEOUT, choose, open_page, read, run, unfold

APP = Path(__file__).parents[2] / "app.py"

# What a page may never say or show: claims, marks out of ten, sales talk.
FORBIDDEN = re.compile(
    r"\b(safe|safely|approved?|compliant|pass(es|ed)?|natural|pure|score|grade|badge)\b",
    re.IGNORECASE,
)
SYMBOLS = re.compile("[\U0001f300-\U0001faff☀-➿✅❌⚠]")

# One sentence of the table of words speaks of what an oil "brings by nature".
SECTIONS = {
    "recipe": [
        f"recipe-section.{k}"
        for k in ("manage", "stock", "kitchen", "mass", "basis", "caps")
    ],
    "check": ["check.others", "check.components", "check.most"],
    "materials": [
        *(
            f"material-section.{k}"
            for k in (
                "papers",
                "lots",
                "components",
                "caps",
                "hazards",
                "weighed",
                "dilution",
                "marks",
                "remove",
            )
        ),
        *(
            f"shelf-section.{k}"
            for k in (
                "workshop",
                "shower",
                "workroom",
                "caps",
                "stocks",
                "matches",
                "files",
            )
        ),
    ],
    "compare": [],
    "papers": ["papers.words"],
}


@pytest.mark.parametrize("name", PAGES)
def test_page_opens_with_its_heading(name):
    at = open_page(name)
    assert at.title[0].value == name.capitalize()


@pytest.mark.parametrize("name", PAGES)
def test_every_section_opens(name):
    at = open_page(name)
    for key in SECTIONS[name]:
        unfold(at, key)
    assert not at.exception


@pytest.mark.parametrize("name", PAGES)
def test_no_claims_and_no_symbols(name):
    at = open_page(name)
    for key in SECTIONS[name]:
        unfold(at, key)
    text = read(at)
    labels = [
        str(one.label)
        for one in (*at.text_input, *at.selectbox, *at.button, *at.checkbox)
    ]
    for line in (*text.splitlines(), *labels):
        assert not FORBIDDEN.search(line), line
        assert not SYMBOLS.search(line), line


@pytest.mark.parametrize(
    "recipe",
    [
        "Driftwood",
        "Fair wind",
        "North gale",
        "Porch balm",
        "Slack tide",
        "White squall",
    ],
)
def test_every_demo_recipe_shows_on_every_page(recipe):
    for name in ("recipe", "check"):
        at = open_page(name)
        choose(at, name, recipe)
        assert at.session_state["shelf.recipes"]


def test_the_app_starts_on_a_page_with_a_heading():
    at = AppTest.from_file(str(APP), default_timeout=TIMEOUT).run()
    assert not at.exception
    assert at.title[0].value == "Recipe"


def test_session_keeps_inputs_only():
    """No result is held between runs: keys belong to a page's fields or the shelf."""
    at = open_page("check")
    run(at)
    kinds = {
        type(at.session_state[k]).__name__
        for k in ("shelf.shelf", "shelf.recipes", "shelf.current")
    }
    assert kinds == {"Shelf", "dict", "str"}
