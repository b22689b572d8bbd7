"""The PDFs, read back with libraries that did not write them."""

import io
from dataclasses import replace
from datetime import timedelta
from functools import cache

import pikepdf
import pytest

from blendcheck.errors import InputError
from blendcheck.papers import KINDS, make
from blendcheck.papers.content import SMALL, texts
from blendcheck.papers.kept import KeptCheck
from blendcheck.papers.layout import CARDS, LABELS, SHEETS, Layout
from blendcheck.papers.typeset import LEAST_SIZE, pdf, pictures
from tests.papers.makers import RECIPES, bare, demo, pages, within, words_of

POINTS = {"a4": (595.28, 841.89), "letter": (612.0, 792.0)}
"""Sheets [pt]: ISO 216 A4, 210 × 297 mm; US Letter, 8.5 × 11 in."""


def layouts(kind):
    """Every way in which a paper can be laid out."""
    if kind == "card":
        return [Layout(sheet, cards) for sheet in SHEETS for cards in CARDS]
    if kind in ("label", "bottle"):
        return [Layout(sheet, labels="large") for sheet in SHEETS]
    return [Layout(sheet) for sheet in SHEETS]


EACH = [(kind, layout) for kind in KINDS for layout in layouts(kind)]
IDS = ["-".join((k, one.sheet, one.cards, one.labels)) for k, one in EACH]


def made(kind, layout, name="north-gale.toml", **how):
    paper = make(kind, demo(name, channel="gift", **how))
    return paper, drawn(paper, layout)


@cache
def drawn(paper, layout):
    return pdf(paper, layout)


# -- words -----------------------------------------------------------------------


FOOT = 62
"""Height of the foot of a page, which a paragraph may run past. [pt]"""


def in_order(data, *, foot=0):
    """Every letter in the order in which it is read, without spaces."""
    return bare(
        "".join(
            char["text"]
            for page in pages(data)
            for char in page.chars
            if char["top"] < page.height - foot
        )
    )


@pytest.mark.parametrize(("kind", "layout"), EACH, ids=IDS)
def test_every_text_is_printed(kind, layout):
    paper, data = made(kind, layout)
    on_sheet = kind not in SMALL
    read = in_order(data, foot=FOOT if on_sheet else 0)
    two_sided = kind == "card" and layout.cards != "folded"
    for text in printed(paper):
        if not (two_sided and text == "What it is"):  # it heads the inside alone
            assert bare(text) in read, text


def printed(paper):
    """Texts of a paper above its foot."""
    return [text for text in texts(paper) if text != paper.trace]


@pytest.mark.parametrize("kind", ["batch", "swallowed"])
def test_words_are_found_as_a_person_reads_them(kind):
    paper, data = made(kind, Layout())
    found = words_of(data)
    assert paper.title in found
    assert paper.about in found
    assert "Citric acid, anhydrous" in found
    assert found.count(f"Record {demo(channel='gift').assessment.hash}") == len(
        pages(data)
    )


def test_eight_cards_front_and_back():
    _, data = made("card", Layout())
    front, back = pages(data)
    assert front.extract_text().count("strong peppermint and") == 8
    assert back.extract_text().count("Read this first") == 8


def test_hash_and_moment_stand_on_every_card_and_label():
    kept = demo(channel="gift")
    for kind, count in (("card", 8), ("label", 4)):
        text = words_of(pdf(make(kind, kept), Layout()))
        line = f"Record {kept.assessment.hash}, 2026-11-25 14:05."
        assert text.count(line) == count


# -- size, colour, place -------------------------------------------------------------


@pytest.mark.parametrize(("kind", "layout"), EACH, ids=IDS)
def test_no_text_is_smaller_than_eight_points(kind, layout):
    _, data = made(kind, layout)
    sizes = {round(char["size"], 2) for page in pages(data) for char in page.chars}
    assert min(sizes) >= LEAST_SIZE == 8


@pytest.mark.published
def test_letters_of_a_label_are_a_sixteenth_of_an_inch():
    """21 CFR 701.3(b): letters not less than 1/16 inch high, 4.5 pt.

    The height of a lower-case letter is read from the font itself (OS/2 table).
    """
    _, data = made("label", Layout())
    with pikepdf.open(io.BytesIO(data)) as file:
        heights = {
            float(font.DescendantFonts[0].FontDescriptor.get("/XHeight", 0))
            for font in file.pages[0].Resources.Font.values()
        }
    x_height = min(heights - {0.0}, default=1120 / 2048 * 1000)
    least = min(c["size"] for page in pages(data) for c in page.chars)
    assert least * x_height / 1000 >= 72 / 16


def luminance(grey):
    """Relative luminance of a grey from 0 to 1 (WCAG 2.2)."""
    return grey / 12.92 if grey <= 0.04045 else ((grey + 0.055) / 1.055) ** 2.4


@pytest.mark.published
@pytest.mark.parametrize("kind", KINDS)
def test_text_stands_out_from_the_paper(kind):
    """WCAG 2.2, success criterion 1.4.3: 4.5 to 1; 1.4.6 asks for 7 to 1."""
    _, data = made(kind, Layout())
    for page in pages(data):
        for char in page.chars:
            colour = char["non_stroking_color"]
            greys = colour if isinstance(colour, tuple | list) else (colour,)
            assert len(set(greys)) == 1, "black and grey alone"
            assert 1.05 / (luminance(float(greys[0])) + 0.05) >= 7


@pytest.mark.parametrize(("kind", "layout"), EACH, ids=IDS)
def test_everything_lies_on_the_sheet(kind, layout):
    _, data = made(kind, layout)
    for page in pages(data):
        assert (page.width, page.height) == pytest.approx(
            POINTS[layout.sheet], abs=0.05
        )
        for char in page.chars:
            assert 0 < char["x0"] < char["x1"] < page.width
            assert 0 < char["top"] < char["bottom"] < page.height


@pytest.mark.parametrize("layout", layouts("card"), ids=str)
def test_nothing_crosses_a_line_to_cut_along(layout):
    edge = 9 / 25.4 * 72
    for kind in ("card", "label"):
        _, data = made(kind, replace(layout, labels="large"))
        rows = 4 if kind == "card" and layout.cards == "8" else 2
        for page in pages(data):
            wide = (float(page.width) - 2 * edge) / 2
            high = (float(page.height) - 2 * edge) / rows
            for char in page.chars:
                column = int((char["x0"] - edge) // wide)
                row = int((char["top"] - edge) // high)
                assert edge + column * wide + 5 < char["x0"]
                assert char["x1"] < edge + (column + 1) * wide - 5
                assert edge + row * high + 4 < char["top"]
                assert char["bottom"] < edge + (row + 1) * high - 4


def test_what_does_not_fit_is_refused_in_one_sentence():
    long = within(message="One more line.\n" * 15)
    with pytest.raises(InputError, match=r"^the front of the card does not fit: it is"):
        pdf(make("card", long), Layout())
    assert pdf(make("card", long), Layout(cards="folded"))
    with pytest.raises(InputError, match=r"^the label does not fit: .* larger label"):
        pdf(make("label", demo(channel="gift")), Layout(labels="small"))


def test_a_small_label_takes_a_short_recipe():
    for labels in LABELS:
        assert pdf(make("label", within()), Layout(labels=labels))


@pytest.mark.parametrize("sign", ["日", "🎁", "𓀀"])
def test_a_sign_that_the_font_lacks_is_named(sign):
    with pytest.raises(InputError, match=f"no sign for {sign} "):
        pdf(make("card", within(title=f"Plain {sign} tide")), Layout())
    with pytest.raises(InputError, match=f"no sign for {sign} "):
        pictures(make("card", within(title=f"Plain {sign} tide")), Layout())


# -- structure -----------------------------------------------------------------------


def tags(node, found=None):
    """The tags below a node of the structure tree, in order."""
    found = [] if found is None else found
    if isinstance(node, pikepdf.Array):
        for one in node:
            tags(one, found)
    elif isinstance(node, pikepdf.Dictionary):
        if "/S" in node:
            found.append(str(node.S))
        if "/K" in node:
            tags(node.K, found)
    return found


@pytest.mark.parametrize("kind", KINDS)
def test_structure_can_be_read_aloud(kind):
    """ISO 14289-1 (PDF/UA-1): marked, with a language, a title shown, and tags."""
    paper, data = made(kind, Layout())
    with pikepdf.open(io.BytesIO(data)) as file:
        root = file.Root
        assert bool(root.MarkInfo.Marked)
        assert str(root.Lang) == "en"
        assert bool(root.ViewerPreferences.DisplayDocTitle)
        metadata = file.open_metadata()
        assert metadata["dc:title"] == paper.title
        assert metadata["pdfuaid:part"] == "1"
        found = tags(root.StructTreeRoot.K)
    assert found[0] == "/Document"
    assert "/H1" in found
    if kind in ("batch", "note", "swallowed"):
        assert found.count("/H1") == 1
        assert {"/H2", "/Table", "/THead", "/TH", "/TR", "/TD"} <= set(found)
        assert found.count("/H2") == sum(bool(s.title) for s in paper.sections)
    assert {"/P", "/L"} & set(found)


def test_fonts_are_inside():
    _, data = made("note", Layout())
    with pikepdf.open(io.BytesIO(data)) as file:
        fonts = [
            font.DescendantFonts[0]
            for page in file.pages
            for font in page.Resources.Font.values()
        ]
        names = {str(font.BaseFont).partition("+")[2] for font in fonts}
        files = [set(dict(font.FontDescriptor)) for font in fonts]
    assert names == {"DejaVuSans", "DejaVuSans-Bold"}
    assert all({"/FontFile2", "/FontFile3"} & one for one in files)


# -- the same again ---------------------------------------------------------------


@pytest.mark.parametrize("kind", KINDS)
def test_the_same_paper_gives_the_same_bytes(kind):
    paper = make(kind, demo(channel="gift"))
    assert pdf(paper, Layout()) == pdf(paper, Layout())
    assert pictures(paper, Layout(), ppi=40) == pictures(paper, Layout(), ppi=40)


def test_the_date_of_the_file_is_that_of_the_snapshot():
    kept = demo()
    later = KeptCheck(kept.assessment, kept.at + timedelta(days=3))
    one, other = (pdf(make("card", k), Layout()) for k in (kept, later))
    assert one != other
    with pikepdf.open(io.BytesIO(one)) as file:
        assert str(file.docinfo["/CreationDate"]).startswith("D:20261125140500")


@pytest.mark.parametrize("name", RECIPES)
def test_the_card_of_every_demo_recipe_fits_in_the_smallest_size(name):
    for sheet in SHEETS:
        assert pdf(make("card", demo(name)), Layout(sheet, "8"))


def test_pictures_are_pictures_of_the_pages():
    from PIL import Image

    paper = make("batch", demo())
    shown = pictures(paper, Layout("letter"), ppi=50)
    assert len(shown) == len(pages(pdf(paper, Layout("letter"))))
    with Image.open(io.BytesIO(shown[0])) as picture:
        assert picture.size == pytest.approx((425, 550), abs=2)
        dark, light = picture.convert("L").getextrema()
    assert dark < 60 < 250 < light
