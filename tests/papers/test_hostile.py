"""200 hostile texts through every paper and format.

Each is printed letter by letter, or refused in one sentence. What was printed is read
back with general libraries: a PDF reader, an HTML parser, a Markdown reader.
"""

import unicodedata
from collections import Counter
from functools import cache
from html.parser import HTMLParser

import pypdfium2
import pytest
from markdown_it import MarkdownIt
from pydantic import ValidationError

from blendcheck.assess import assess
from blendcheck.errors import InputError
from blendcheck.papers import KINDS, make
from blendcheck.papers.content import tidy
from blendcheck.papers.kept import KeptCheck
from blendcheck.papers.layout import FORMATS, Layout
from blendcheck.papers.writing import rendered
from blendcheck.records.material import Materials
from blendcheck.records.papers import PaperTexts
from blendcheck.records.recipe import Recipe
from tests.papers.hostile import HOSTILE, LONG, SIGNS_THAT_DO_NOT_SHOW
from tests.papers.makers import AT, ON, bare, squeezed

LAYOUT = Layout(cards="folded")
FIT = 120
"""Longest text that is tried where the record takes it; longer ones go to the issuer
of a paper, which has no bound and stands on the note."""


@cache
def kept(text):
    """A recipe with a text wherever a maker can type one."""
    short, lot = text[:FIT], text[:60]
    shelf = Materials.model_validate(
        {
            "workshop": {"where": short},
            "material": [
                {
                    "id": "base",
                    "name": f"{short}.",
                    "kind": "solid",
                    "inci": short,
                    "botanical": short,
                    "supplier": text,
                },
                {
                    "id": "oil",
                    "name": "Oil",
                    "kind": "essential oil",
                    "cap": [{"scheme": f"s {short}", "printed": "50 %"}],
                    "document": [{"id": "d", "kind": short + ".", "issuer": text}],
                    "lot": [{"lot": f"{lot}."}],
                },
            ],
        }
    )
    recipe = Recipe.model_validate(
        {
            "name": f"{short}.",
            "channel": "gift",
            "piece_mass": "50 g",
            "line": [
                {"material": "base", "amount": "98 g"},
                {"material": "oil", "lot": f"{lot}.", "amount": "2 g"},
            ],
            "process": {"ignition": [], "room": "17 °C"},
            "papers": {
                "title": f"{short}.",
                "message": short,
                "who": short,
                "lot": lot,
                "reason": [{"about": f"{short}.", "says": f"{short}."}],
            },
        }
    )
    return KeptCheck(assess(recipe, shelf, ON), AT)


class Text(HTMLParser):
    """The text of an HTML file, and its elements."""

    def __init__(self, source):
        super().__init__()
        self.parts, self.elements = [], set()
        self.attributes = set()
        self.feed(source)

    def handle_starttag(self, tag, attrs):
        self.elements.add(tag)
        self.attributes |= {name for name, _ in attrs}

    def handle_data(self, data):
        self.parts.append(data)

    @property
    def text(self):
        return squeezed(" ".join(self.parts))


def read_html(data):
    found = Text(data.decode())
    assert found.elements <= {
        *("html", "head", "meta", "title", "style", "body", "main", "h1", "h2", "p"),
        *("section", "ul", "li", "table", "caption", "thead", "tbody", "tr", "th"),
        *("td", "strong", "span", "footer"),
    }
    assert found.attributes <= {
        "lang",
        "charset",
        "name",
        "content",
        "class",
        "dir",
        "scope",
    }
    return found.text


def read_markdown(data):
    reader = MarkdownIt("commonmark").enable(["table", "strikethrough"])
    found = Text(reader.render(data.decode()))
    assert found.elements <= {
        *("h1", "h2", "p", "ul", "li", "strong", "table", "thead", "tbody", "tr"),
        *("th", "td", "hr"),
    }
    return found.text


def read_text(data):
    return squeezed(data.decode())


def read_pdf(data):
    with pypdfium2.PdfDocument(data) as file:
        text = "".join(page.get_textpage().get_text_range() for page in file)
    return text.replace("\ufffe", "-")  # its sign for a hyphen at the end of a line


READ = {"html": read_html, "md": read_markdown, "txt": read_text, "pdf": read_pdf}


def is_turned(text):
    return any(unicodedata.bidirectional(sign) in ("R", "AL") for sign in text)


def check_printed(text, form, data):
    shown = tidy(text)
    if form != "pdf":
        assert shown in READ[form](data)
        return
    # a reader may give letters as others that look the same, or in another order
    found = unicodedata.normalize("NFKC", bare(read_pdf(data)))
    wanted = unicodedata.normalize("NFKC", bare(shown))
    across_pages = len(text) > 2000  # the foot of a page stands in between
    combines = any(unicodedata.combining(sign) for sign in text)
    if is_turned(text) or combines or across_pages:
        assert not Counter(wanted) - Counter(found)
    else:
        assert wanted in found


def check_refused(text, form, error):
    said = str(error)
    assert "\n" not in said
    assert len(said) < 300
    if error.code == "sign":
        assert any(unicodedata.category(sign)[0] == "C" for sign in text)
    else:
        assert form == "pdf"
        assert error.code in ("glyph", "too-long")


def test_there_are_two_hundred():
    assert len(HOSTILE) >= 200


@pytest.mark.parametrize("text", HOSTILE, ids=range(len(HOSTILE)))
def test_printed_letter_by_letter_or_refused(text):
    for kind in KINDS:
        if text in LONG and kind != "note" and len(text) > FIT:
            continue  # see below: the record itself refuses it
        for form in FORMATS:
            try:
                data = rendered(make(kind, kept(text)), form, LAYOUT)
            except InputError as error:
                check_refused(text, form, error)
                continue
            check_printed(text, form, data)


def test_most_are_printed_and_few_are_refused():
    """A program that refuses everything must not pass."""
    refused = {"pdf": 0, "html": 0}
    for text in HOSTILE:
        for form in refused:
            try:
                rendered(make("card", kept(text)), form, LAYOUT)
            except InputError:
                refused[form] += 1
    print(f"\nrefused of {len(HOSTILE)}: {refused}")
    assert refused["html"] <= len(SIGNS_THAT_DO_NOT_SHOW) + 2
    assert refused["pdf"] <= refused["html"] + 20


@pytest.mark.parametrize("text", SIGNS_THAT_DO_NOT_SHOW, ids=ascii)
def test_a_sign_that_does_not_show_is_named(text):
    with pytest.raises(InputError, match=r"invisible character U\+[0-9A-F]{4}"):
        make("card", kept(text))


@pytest.mark.parametrize("field", ["title", "message", "who", "where", "lot"])
def test_five_thousand_signs_are_refused_by_the_record(field):
    with pytest.raises(ValidationError, match="at most"):
        PaperTexts.model_validate({field: "a" * 5000})


@pytest.mark.parametrize("text", [t for t in LONG if len(t) == 5000], ids=range(7))
def test_five_thousand_signs_stay_on_the_page(text):
    from tests.papers.makers import pages

    data = rendered(make("note", kept(text)), "pdf", LAYOUT)
    for page in pages(data):
        for char in page.chars:
            assert 40 < char["x0"] < char["x1"] < page.width - 40
