"""Checks to make papers from: the demo, and cases built by hand."""

import io
import json
from datetime import date, datetime
from functools import cache, lru_cache

import pdfplumber

from blendcheck.assess import assess
from blendcheck.demo import MATERIALS, demo_files
from blendcheck.files import materials_from_text, recipe_from_text
from blendcheck.papers.content import texts
from blendcheck.papers.kept import KeptCheck
from blendcheck.records.material import Materials
from blendcheck.records.recipe import Recipe

ON = date(2026, 11, 25)
AT = datetime(2026, 11, 25, 14, 5)  # noqa: DTZ001  # what a face hands in
RECIPES = sorted(name for name in demo_files() if name != MATERIALS)
STRONGEST = "north-gale.toml"
AIR = "\N{ZERO WIDTH SPACE}"


def demo(name=STRONGEST, **how):
    """A recipe of the demo, with the maker's words and other fields set.

    ``papers`` and ``shop`` are fields of their tables, ``estimates`` asks for the
    estimates too, the rest are fields of the recipe. The same is made once.
    """
    return _demo(name, json.dumps(how))


@cache
def _demo(name, how):
    return _made(name, **json.loads(how))


def _made(name, *, papers=None, shop=None, estimates=False, called=None, **changed):
    recipe = recipe_from_text(demo_files()[name], name)
    shelf = materials_from_text(demo_files()[MATERIALS], MATERIALS)
    changed |= {"name": called} if called else {}
    recipe = Recipe.model_validate(
        {**recipe.model_dump(by_alias=True), **changed, "papers": papers or {}}
    )
    if shop:
        kept = shelf.workshop.model_dump() | shop
        shelf = Materials.model_validate({**shelf.model_dump(), "workshop": kept})
    return KeptCheck(assess(recipe, shelf, ON, estimates=estimates, label=True), AT)


def within(**papers):
    """A recipe with one cap that is kept, in a kitchen without a flame."""
    shelf = Materials.model_validate(
        {
            "workshop": {"name": "Kelpmarrow Workshop", "scale": "0.1 g"},
            "material": [
                {
                    "id": "base",
                    "name": "Bicarbonate",
                    "kind": "solid",
                    "cas": "144-55-8",
                    "inci": "Sodium Bicarbonate",
                },
                {
                    "id": "oil",
                    "name": "Spruce oil",
                    "kind": "essential oil",
                    "flash_point": ">93 °C closed cup",
                    "inci": "Picea Mariana Leaf Oil",
                    "cap": [{"scheme": "standard", "printed": "5 %"}],
                },
            ],
        }
    )
    recipe = Recipe.model_validate(
        {
            "name": "Plain tide",
            "channel": "gift",
            "piece_mass": "50 g",
            "line": [
                {"material": "base", "amount": "98 g"},
                {"material": "oil", "amount": "2 g"},
            ],
            "process": {"room": "17 °C", "ignition": []},
            "papers": papers,
        }
    )
    return KeptCheck(assess(recipe, shelf, ON, label=True), AT)


def case_of(materials, lines, **recipe):
    """A recipe of a bicarbonate called "base" and other materials, in 50 g pieces."""
    base = {
        "id": "base",
        "name": "Bicarbonate",
        "kind": "solid",
        "cas": "144-55-8",
        "inci": "Sodium Bicarbonate",
    }
    shelf = Materials.model_validate({"material": [base, *materials]})
    made = Recipe.model_validate(
        {"name": "Tide", "piece_mass": "50 g", "line": lines, **recipe}
    )
    return KeptCheck(assess(made, shelf, ON, label=True), AT)


def said(paper):
    """Every text of a paper, one a line."""
    return "\n".join(texts(paper))


@lru_cache(maxsize=24)
def pages(data):
    """Pages of a PDF, as pdfplumber reads them."""
    return pdfplumber.open(io.BytesIO(data)).pages


def words_of(data):
    """The text of a PDF, spaces made single, signs that show nothing left out."""
    text = "\n".join(page.extract_text() or "" for page in pages(data))
    return squeezed(text)


def squeezed(text):
    return " ".join(text.replace(AIR, "").replace("\N{NO-BREAK SPACE}", " ").split())


def bare(text):
    """Without any space, for text whose lines may end anywhere."""
    return "".join(squeezed(text).split())
