"""200 hostile texts through every paper and format, many at a time.

Each is printed letter by letter, or refused in one sentence. What was printed is read
back with general libraries: a PDF reader, an HTML parser, a Markdown reader.
"""

import unicodedata
from dataclasses import replace
from functools import cache

import pytest
from pydantic import ValidationError

from blendcheck.assess import assess
from blendcheck.errors import InputError
from blendcheck.papers import KINDS, make
from blendcheck.papers.content import (
    Blank,
    Blanks,
    Lines,
    Paper,
    Section,
    Table,
    tidy,
    unprintable,
)
from blendcheck.papers.kept import KeptCheck
from blendcheck.papers.layout import Layout
from blendcheck.papers.writing import rendered
from blendcheck.records.material import Materials
from blendcheck.records.papers import PaperTexts
from blendcheck.records.recipe import Recipe
from tests.papers.hostile import HOSTILE, SIGNS_THAT_DO_NOT_SHOW
from tests.papers.makers import AT, ON
from tests.papers.reading import FIT, LAYOUT, READ, check_in_pdf, kept


def test_there_are_two_hundred():
    assert len(HOSTILE) >= 200


def shows(text):
    return all(unicodedata.category(sign)[0] != "C" for sign in tidy(text))


TEXTS = tuple(dict.fromkeys(tidy(t) for t in HOSTILE if shows(t) and len(t) <= FIT))


@cache
def kept_all():
    """A recipe in which each text is a material, a lot and a supplier."""
    rows = [(f"m{n}", text) for n, text in enumerate(TEXTS)]
    materials = [
        {
            "id": key,
            "name": f"{text}.",
            "kind": "essential oil",
            "inci": f"I {text}",
            "lot": [{"lot": text[:60]}],
            "document": [{"id": "d", "kind": f"K {text}", "issuer": f"S {text}"}],
        }
        for key, text in rows
    ]
    recipe = Recipe.model_validate(
        {
            "name": "All",
            "channel": "gift",
            "piece_mass": "50 g",
            "line": [
                {"material": key, "lot": text[:60], "amount": "2 g"}
                for key, text in rows
            ],
        }
    )
    shelf = Materials.model_validate({"material": materials})
    return KeptCheck(assess(recipe, shelf, ON, label=True), AT)


@cache
def paper_of_all(kind):
    return make(kind, kept_all())


@pytest.mark.parametrize("form", ["html", "md", "txt"])
@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind != "card"])
def test_all_are_written_letter_by_letter(kind, form):
    found = READ[form](rendered(paper_of_all(kind), form, LAYOUT))
    for text in TEXTS:
        assert text in found, text


EMPTY = Paper("note", "All", "All", (), "trace", "202611251405")


@pytest.mark.parametrize("form", ["html", "md", "txt"])
def test_each_is_written_on_a_card_letter_by_letter(form):
    """A card names few materials, so each text has a card of its own."""
    for text in TEXTS:
        assert text in READ[form](rendered(make("card", kept(text)), form, LAYOUT))


@cache
def printable():
    """Hostile texts that print, found by halving, so that few papers are set."""

    def found(some):
        if not some:
            return []
        lines = tuple(tidy(text) for text in some)
        paper = replace(EMPTY, sections=(Section("", (Lines(lines),)),))
        try:
            unprintable(paper)
            rendered(paper, "pdf", LAYOUT)
        except InputError:
            if len(some) == 1:
                return []
            half = len(some) // 2
            return found(some[:half]) + found(some[half:])
        return [tidy(text) for text in some]

    return found([text for text in HOSTILE if tidy(text) and len(text) < 300])


@pytest.mark.parametrize("kind", ["note", "label", "card"])
def test_all_that_can_be_printed_is_printed_in_one_go(kind):
    """Titles, list items, cells, names and values go into each template as text."""
    some = [text for text in printable() if kind == "note" or len(text) <= 60]
    assert len(some) > 150
    step = {"note": 200, "label": 12, "card": 6}[kind]
    for n in range(0, len(some), step):
        part = tuple(some[n : n + step])
        parts = (
            Lines(part, form="run" if kind == "card" else "list"),
            Blanks(tuple(Blank(text, text) for text in part[:3])),
        )
        if kind == "note":
            rows = tuple((text, text) for text in part)
            parts += (Table("", ("a", "b"), rows, wide=(0, 1)),)
        paper = replace(EMPTY, kind=kind, sections=(Section(part[0], parts),))
        data = rendered(paper, "pdf", Layout(cards="4"))
        for text in part:
            check_in_pdf(text, data)


@pytest.mark.parametrize("text", SIGNS_THAT_DO_NOT_SHOW, ids=ascii)
def test_a_sign_that_does_not_show_is_named(text):
    with pytest.raises(InputError, match=r"invisible character U\+[0-9A-F]{4}"):
        make("card", kept(text))


@pytest.mark.parametrize("field", ["title", "message", "who", "where", "lot"])
def test_five_thousand_signs_are_refused_by_the_record(field):
    with pytest.raises(ValidationError, match="at most"):
        PaperTexts.model_validate({field: "a" * 5000})
