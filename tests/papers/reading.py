"""A recipe with one text everywhere, and papers read back by general libraries."""

import unicodedata
from collections import Counter
from functools import cache
from html.parser import HTMLParser

import pypdfium2
from markdown_it import MarkdownIt

from blendcheck.assess import assess
from blendcheck.papers.content import tidy
from blendcheck.papers.kept import KeptCheck
from blendcheck.papers.layout import Layout
from blendcheck.records.material import Materials
from blendcheck.records.recipe import Recipe
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


@cache
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
    check_in_pdf(text, data)


def check_in_pdf(text, data):
    """A reader may give letters as others that look the same, or in another order."""
    found = unicodedata.normalize("NFKC", bare(read_pdf(data)))
    wanted = unicodedata.normalize("NFKC", bare(tidy(text)))
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
