"""The Reference page, and starting a material from a published composition."""

import base64
import re
from fractions import Fraction
from xml.etree import ElementTree

import pytest

from blendcheck import reference
from blendcheck.entry import oil_entry
from blendcheck.interval import Range
from blendcheck.quantity import Mark
from blendcheck.records.material import Composition, CompositionRow
from blendcheck.ui import ranges
from blendcheck.ui.reference_oil import Report, rows_of
from tests.ui.pages import messages, open_page, read, run, unfold
from tests.ui.test_pages import FORBIDDEN, SYMBOLS

FIELD = "reference.text"
WHICH = "reference.which"
OIL = "material.starting-oil"
PAPERS = ("names", "groups", "fits", "allergens", "limits", "air", "hazards")


def look(text, at=None):
    at = at or open_page("reference")
    at.text_input(FIELD).set_value(text)
    return run(at)


def words(at):
    return " ".join(read(at).split())


def tables(at):
    """Return the cells of every table on the page by its caption."""
    found = {}
    for one in at.get("html"):
        for body in re.findall(r"<table.*?</table>", str(one.value), flags=re.S):
            caption = re.search(r"<caption>(.*?)</caption>", body)[1]
            rows = re.findall(r'<tr role="row">(.*?)</tr>', body)
            found[caption] = [
                re.findall(r"<t[hd][^>]*>(.*?)</t[hd]>", row) for row in rows
            ]
    return found


# -- a substance -------------------------------------------------------------------


@pytest.mark.published
def test_substance_with_rival_figures_and_their_sources():
    """CRC Handbook of Chemistry and Physics, 95th edition: l-menthol melts at
    42.1 degC; four more sources stand beside it."""
    at = look("levomenthol")
    assert messages(at) == []
    head, *rows = tables(at)["melting point: 5 figures side by side"]
    assert head == ["Figure", "As printed", "Source and place", "How we know"]
    assert rows[0][:2] == ["42.1 °C", "315.25 K"]
    assert "CRC Handbook of Chemistry and Physics" in rows[0][2]
    assert {row[3] for row in rows} == {"read in the source"}
    assert len({row[2] for row in rows}) == 5


def test_memory_is_said_in_words_on_the_page():
    rows = tables(look("l-menthol"))["water solubility: 2 figures side by side"]
    assert [row[-1] for row in rows[1:]] == [
        "read in the source",
        "from memory, not read",
    ]


def test_drawing_is_an_image_with_words():
    at = look("l-menthol")
    pictures = [str(one.value) for one in at.get("html") if "<img" in str(one.value)]
    (picture,) = pictures
    assert 'alt="Structural formula of l-menthol"' in picture
    coded = re.search(r'src="data:image/svg\+xml;base64,([^"]+)"', picture)[1]
    drawn = ElementTree.fromstring(base64.b64decode(coded))  # noqa: S314 - our own
    assert drawn.tag == "{http://www.w3.org/2000/svg}svg"
    assert b"currentColor" not in base64.b64decode(coded)


def test_which_oils_contain_it_and_how_much():
    rows = tables(look("2216-51-5"))["3 oils, and how much is in them"]
    assert ["peppermint", "30.0-55.0 %"] in [row[:2] for row in rows]
    assert any(row[0] == "spearmint" and "from memory" in row[-1] for row in rows)


@pytest.mark.parametrize(
    "text", ["l-menthol", "limonene (isomer not stated)", "60-12-8"]
)
def test_every_part_opens(text):
    at = look(text)
    for key in PAPERS:
        unfold(at, f"reference.{key}")
    assert words(at)


def test_swallowing_starts_with_the_poison_line():
    at = look("76-22-2")
    unfold(at, "reference.swallowing")
    assert "Any swallowing by a child is a call to the poison line, now." in words(at)


def test_what_has_no_structure_says_so():
    said = words(look("polysorbate 80"))
    assert "No structure in the tables." in said
    assert "Its structure is not known, so no reactive place was sought." in said


# -- several, none, nonsense ---------------------------------------------------------


def test_nothing_is_chosen_where_a_name_means_several():
    at = look("menthol")
    assert "“menthol” may mean 4 things" in words(at)
    assert at.radio(WHICH).value is None
    assert "Figures" not in [one.value for one in at.header]
    at.radio(WHICH).set_value("substance/2216-51-5")
    run(at)
    assert "Figures" in [one.value for one in at.header]
    # another name asks anew
    look("lime", at)
    assert at.radio(WHICH).value is None


def test_unknown_name_offers_the_nearest():
    at = look("mentol")
    assert messages(at) == [
        "Not found: the tables have no substance and no oil called 'mentol'."
    ]
    nearest = at.selectbox("reference.next")
    assert "menthol" in nearest.options
    nearest.set_value("l-menthol")
    run(at)
    assert at.text_input(FIELD).value == "l-menthol"
    assert messages(at) == []


def test_wrong_check_digit_is_said():
    (said,) = messages(look("1490-04-7"))
    assert "its check digit is wrong" in said


NONSENSE = ["<script>alert(1)</script>", "![x](http://a.b)", "$x^2$", "  ", "…", "-"]


@pytest.mark.parametrize("text", NONSENSE)
def test_what_is_typed_is_shown_as_text(text):
    at = look(text)
    for one in at.get("html"):
        assert "<script" not in str(one.value)
    if text.strip():
        assert text in messages(at)[0]
    assert not any(text.strip() in m.value for m in at.markdown if text.strip())


def test_from_an_oil_to_its_component_and_on():
    at = look("peppermint")
    onward = at.selectbox("reference.next")
    assert "menthofuran" in onward.options
    onward.set_value("494-90-6")
    run(at)
    assert at.text_input(FIELD).value == "494-90-6"
    assert at.selectbox("reference.next").value is None
    at.selectbox("reference.next").set_value("peppermint")
    run(at)
    assert "peppermint, essential oil" in words(at)


def test_first_visit_says_what_to_type():
    at = open_page("reference")
    assert at.title[0].value == "Reference"
    assert len(at.selectbox("reference.next").options) == len(reference.oils())


@pytest.mark.parametrize("text", ["", "menthol", "l-menthol", "lime (distilled)"])
def test_no_claims_and_no_symbols(text):
    at = look(text)
    for line in read(at).splitlines():
        assert not FORBIDDEN.search(line), line
        assert not SYMBOLS.search(line), line


# -- an oil ---------------------------------------------------------------------------


@pytest.mark.published
def test_oil_with_the_lot_of_the_shelf_over_it():
    """European Pharmacopoeia (as in the WHO monograph): menthol 30 to 55 %. The
    demo's lot PM-2607 prints 40.0 %."""
    at = look("peppermint oil")
    assert at.selectbox("reference.report.peppermint").value == 0
    assert "PM-2607" in at.selectbox("reference.report.peppermint").options[0]
    head, *rows = tables(at)["The chart as a table"]
    by_name = {row[0]: dict(zip(head, row, strict=True)) for row in rows}
    assert by_name["menthol"]["Published and read"] == "30 to 55 %"
    assert by_name["menthol"]["In the report"] == "40.0 %"
    assert by_name["menthol"]["Against what was read"] == "inside"
    assert by_name["carvone"]["In the report"] == "not shown"
    shares = tables(at)["Every published share, side by side"]
    assert ["menthol", "30.0-55.0 %"] in [row[:2] for row in shares]


def test_report_can_be_taken_away():
    at = look("peppermint oil")
    at.selectbox("reference.report.peppermint").set_value(-1)
    run(at)
    head = tables(at)["The chart as a table"][0]
    assert "In the report" not in head


def test_oil_without_a_material_says_how_to_get_one():
    at = look("vetiver")
    assert "No material on the shelf has a report of this oil." in words(at)


def test_lot_outside_asks_whether_it_is_that_oil():
    """A shelf lot of peppermint with 22 % camphor-like menthofuran: published 1 to 9 %
    (European Pharmacopoeia, as quoted)."""
    at = open_page("reference")
    held = at.session_state["shelf.shelf"]
    oil = held.materials.get("peppermint")
    report = Composition(
        kind="full GC-MS",
        row=(CompositionRow(name="Menthofuran", cas="494-90-6", share="22 %"),),
    )
    lot = oil.lot[0].model_copy(update={"composition": (report,)})
    held.put(oil.model_copy(update={"lot": (lot,), "composition": ()}))
    look("peppermint", at)
    head, *rows = tables(at)["The chart as a table"]
    mine = next(row for row in rows if row[0] == "menthofuran")
    assert mine[head.index("Against what was read")] == "above all that is published"
    assert "Ask whether it is the oil that you think it is." in words(at)


AGAINST = [
    (Range.between(10, 20), Range.between(12, 18), "inside"),
    (Range.between(10, 20), Range.between(10, 20), "inside"),
    (Range.between(10, 20), Range.between(18, 22), "reaches outside"),
    (Range.between(10, 20), Range.at(21), "above all that is published"),
    (Range.between(10, 20), Range(None, Fraction(9)), "below all that is published"),
    (Range.between(10, 20), Range(Fraction(15), None), "reaches outside"),
    (None, Range.at(5), "nothing was read to compare it with"),
    (Range.between(10, 20), None, ""),
]


@pytest.mark.parametrize(("published", "lot", "said"), AGAINST)
def test_lot_against_published(published, lot, said):
    row = ranges.Row("x", "", published, None, lot, "" if lot is None else "as printed")
    assert ranges.against(row) == said


def test_each_line_of_a_report_stands_once():
    """An isomer's own number goes before the number of its group."""
    lines = [
        ("Limonene", "138-86-3", "1 %"),  # isomer not stated
        ("d-Limonene", "5989-27-5", "2 %"),
        ("Moonlight", None, "3 %"),
        ("NEOMENTHOL", None, "3.1 %"),
    ]
    rows = tuple(CompositionRow(name=n, cas=c, share=s) for n, c, s in lines)
    report = Report("x", Composition(kind="full GC-MS", row=rows))
    made = rows_of(oil_entry("peppermint"), report)
    found = [(row.name, row.printed) for row in made if row.printed]
    assert sorted(found) == [
        ("Limonene", "1 %"),
        ("Moonlight", "3 %"),
        ("limonene", "2 %"),
        ("neomenthol", "3.1 %"),
    ]


def test_picture_draws_what_was_read_recalled_and_measured_apart():
    rows = [
        ranges.Row(
            "a", "", Range.between(10, 20), None, Range.between(12, 14), "12-14"
        ),
        ranges.Row("b", "", None, Range.at(5), None, ""),
    ]
    assert len(ranges.picture(rows[:1])["layer"]) == 4  # none is empty
    layers = ranges.picture(rows)["layer"]
    held = {
        bar["kind"]: (bar["row"], bar["low"], bar["high"])
        for layer in layers
        for bar in layer["data"]["values"]
        if bar.get("kind") in ("read", "lot")
    }
    assert held == {"read": ("0", 10.0, 20.0), "lot": ("0", 12.0, 14.0)}
    ends = [b["low"] for x in layers for b in x["data"]["values"] if "end" in str(b)]
    assert sorted(ends) == [12.0, 14.0]
    recalled = next(x for x in layers if x["mark"].get("strokeDash"))
    (bar,) = recalled["data"]["values"]
    assert bar["row"] == "1"
    assert all(layer["data"]["values"] for layer in layers)
    assert bar["low"] < 5 < bar["high"]  # wide enough to be seen


# -- starting points ---------------------------------------------------------------


@pytest.fixture
def spearmint():
    """The shelf with one more oil, by its name only, and its part opened."""
    at = open_page("materials")
    at.text_input("material-new.name").set_value("Spearmint oil")
    at.button("material-new.add").click()
    run(at)
    return unfold(at, "material-section.starting")


def material(at):
    return at.session_state["shelf.shelf"].materials.get("spearmint oil")


def test_start_from_a_published_composition(spearmint):
    box = spearmint.selectbox(OIL)
    assert box.options[1] == "spearmint (fits its name)"
    assert "starting.composition" not in [b.key for b in spearmint.button]
    box.set_value("spearmint")
    run(spearmint)
    caption = f"spearmint: {Mark.PUBLISHED_NOT_LOT}"
    shown = {row[0]: row[2] for row in tables(spearmint)[caption][1:]}
    assert material(spearmint).composition == ()  # looking takes nothing over
    spearmint.button("starting.composition").click()
    run(spearmint)
    assert f"components, marked “{Mark.PUBLISHED_NOT_LOT}”" in words(spearmint)
    (made,) = material(spearmint).composition
    assert (made.kind, made.copied_whole) == ("published range", False)
    assert {row.name for row in made.row} == set(shown)
    assert messages(spearmint) == []
    # the draft of the form holds it too, so that the next edit does not lose it
    spearmint.text_input("material.supplier").set_value("Hesperwick Aromatics")
    run(spearmint)
    assert material(spearmint).supplier == "Hesperwick Aromatics"
    assert len(material(spearmint).composition) == 1
    # once more replaces it
    spearmint.selectbox(OIL).set_value("spearmint")
    run(spearmint)
    spearmint.button("starting.composition").click()
    run(spearmint)
    assert len(material(spearmint).composition) == 1
    assert len(material(spearmint).document) == 1


def test_published_density_is_a_marked_choice(spearmint):
    spearmint.selectbox(OIL).set_value("spearmint")
    run(spearmint)
    assert not material(spearmint).density_is_published
    spearmint.button("starting.density").click()
    run(spearmint)
    made = material(spearmint)
    assert made.density_is_published
    assert spearmint.checkbox("material.density_is_published").value is True
    printed = spearmint.text_input("material.density").value
    assert printed == made.density.printed
    row = next(
        d
        for d in reference.oil_properties("spearmint")
        if d.quantity == "relative density" and d.tag == "seen"
    )
    # relative to water at 20 degC, 0.9982 g/mL (Tanaka and others, 2001)
    assert made.density.range.low == pytest.approx(float(row.range.low) * 0.9982, 1e-4)
    assert made.composition == ()


def test_what_is_typed_wrong_is_corrected_first(spearmint):
    spearmint.text_input("material.density").set_value("heavy")
    run(spearmint)
    assert "First correct what cannot be used above." in words(spearmint)


def test_another_material_is_asked_anew(spearmint):
    spearmint.selectbox(OIL).set_value("vetiver")
    run(spearmint)
    spearmint.selectbox("materials.which").set_value("lavender")
    run(spearmint)
    assert spearmint.selectbox(OIL).value == ""


def test_own_papers_stay():
    at = open_page("materials")
    at.selectbox("materials.which").set_value("peppermint")
    run(at)
    before = at.session_state["shelf.shelf"].materials.get("peppermint")
    unfold(at, "material-section.starting")
    at.selectbox(OIL).set_value("peppermint")
    run(at)
    at.button("starting.composition").click()
    run(at)
    after = at.session_state["shelf.shelf"].materials.get("peppermint")
    assert after.lot == before.lot
    assert after.composition[: len(before.composition)] == before.composition
    assert after.document[: len(before.document)] == before.document
    assert after.density == before.density
