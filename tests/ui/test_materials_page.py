"""The shelf: papers in words, edits, pasted tables, matches, files."""

import pytest

from blendcheck.files.reading import materials_from_text
from blendcheck.files.table_reading import materials_from_csv
from blendcheck.files.tables import materials_to_csv
from blendcheck.records.material import CapEntry, Composition, Material
from blendcheck.ui.filing import materials_file
from blendcheck.ui.matches import Proposal, answer_of
from tests.ui.pages import edit, messages, open_page, read, run, unfold


def press(at, label):
    next(button for button in at.button if button.label == label).click()
    return run(at)


def shelf(at):
    return at.session_state["shelf.shelf"].materials


def open_one(name):
    at = open_page("materials")
    at.selectbox("materials.which").set_value(name)
    return run(at)


@pytest.fixture
def peppermint():
    return open_one("peppermint")


def test_state_of_papers_is_said_in_words():
    from blendcheck.ui.materials import papers_of

    bare = Material(id="a", name="A", kind="essential oil")
    assert papers_of(bare) == ("no cap entered", "not known", "not entered")
    full = bare.model_copy(
        update={
            "cap": (CapEntry(scheme="s", edition="1", printed="5 %"),) * 2,
            "composition": (Composition(kind="full GC-MS", copied_whole=True),),
        }
    )
    assert papers_of(full)[:2] == ("s, 1 (2 caps)", "full GC-MS, copied whole")
    salt = Material(id="b", name="B", kind="solid", cas="144-55-8")
    assert papers_of(salt) == ("", "a single substance", "")


GOOD_FIELDS = [
    ("density", "0.885-0.895 @20 °C"),
    ("flash_point", "143 °F closed cup"),
    ("leaves_on_drying", "62.8-100 %"),
    ("name", "Peppermint <b>oil</b> $5"),
]


@pytest.mark.parametrize(("field", "typed"), GOOD_FIELDS)
def test_field_is_used_as_typed(peppermint, field, typed):
    peppermint.text_input(f"material.{field}").set_value(typed)
    run(peppermint)
    assert messages(peppermint) == []
    value = getattr(shelf(peppermint).get("peppermint"), field)
    assert getattr(value, "printed", value) == typed


BAD_FIELDS = [
    ("density", "heavy", "Density"),
    ("density", "0,9", "comma"),
    ("flash_point", "170", "170"),  # of which scale?
    ("flash_point", "warm", "Flash point"),
    ("cas", "2216-51-4", "check digit"),
    ("cas", "none", "CAS"),
    ("leaves_on_drying", "120 %", "drying"),
    ("name", "", "Name"),
]


@pytest.mark.parametrize(("field", "typed", "said"), BAD_FIELDS)
def test_bad_field_is_said_and_the_last_material_stays(peppermint, field, typed, said):
    before = shelf(peppermint)
    peppermint.text_input(f"material.{field}").set_value(typed)
    run(peppermint)
    assert shelf(peppermint) == before
    assert any(said in m for m in messages(peppermint)[1:]), messages(peppermint)
    assert peppermint.text_input(f"material.{field}").value == typed


def test_typed_text_outlives_opening_another_material(peppermint):
    peppermint.text_input("material.density").set_value("heavy")
    run(peppermint)
    for name in ("kaolin", "peppermint"):
        peppermint.selectbox("materials.which").set_value(name)
        run(peppermint)
    assert peppermint.text_input("material.density").value == "heavy"


# -- tables ----------------------------------------------------------------------


def test_cap_row_keeps_its_other_fields(peppermint):
    unfold(peppermint, "material-section.caps")
    edit(peppermint, "material.cap", {2: {"printed": "1.9 %"}})
    cap = shelf(peppermint).get("peppermint").cap[2]
    assert (cap.printed, cap.category, cap.document) == (
        "1.9 %",
        "9",
        "thrumsea-peppermint-certificate",
    )


@pytest.mark.parametrize("printed", ["1-2 %", "<2 %", "1,9", "many"])
def test_bad_cap_is_said_at_its_row(peppermint, printed):
    before = shelf(peppermint)
    unfold(peppermint, "material-section.caps")
    edit(peppermint, "material.cap", {2: {"printed": printed}})
    assert shelf(peppermint) == before
    assert any("row 3" in m for m in messages(peppermint))


def test_lot_keeps_its_report_when_its_date_changes(peppermint):
    unfold(peppermint, "material-section.lots")
    edit(peppermint, "material.lot", {0: {"opened": "2026-11-01"}})
    lot = shelf(peppermint).get("peppermint").lot[0]
    assert lot.opened.printed == "2026-11-01"
    assert len(lot.composition[0].row) == 14


@pytest.mark.parametrize("typed", ["03/04/25", "yesterday"])
def test_date_with_two_meanings_is_asked_about(peppermint, typed):
    unfold(peppermint, "material-section.lots")
    edit(peppermint, "material.lot", {0: {"opened": typed}})
    assert any("row 1, Opened" in m and typed in m for m in messages(peppermint))


def test_taking_a_row_out_clears_copied_whole(peppermint):
    unfold(peppermint, "material-section.components")
    rows = "material.lot.0.composition.0.row"
    edit(peppermint, rows, deleted=[13])
    report = shelf(peppermint).get("peppermint").lot[0].composition[0]
    assert (len(report.row), report.copied_whole) == (13, False)
    # the maker may say again that it is whole
    peppermint.checkbox("material.lot.0.composition.0.copied_whole").check()
    run(peppermint)
    report = shelf(peppermint).get("peppermint").lot[0].composition[0]
    assert report.copied_whole


# -- pasting -----------------------------------------------------------------------


PASTED = """Name\tCAS\tShare
Menthol\t2216-51-5\t30-50 %
Menthone\t14073-97-3\t< 0.1 %
"""


def paste_into_new_list(at, text):
    unfold(at, "material-section.components")
    at.selectbox("material.new-list.kind").set_value("hazardous ingredients")
    at.selectbox("material.new-list.where").set_value("lot PM-2609")
    press(at, "Add the list")
    at.text_area("material.lot.1.composition.0.row.paste").set_value(text)
    return run(at)


def labels(at):
    return [button.label for button in at.button]


def test_pasted_table_is_shown_line_by_line_then_confirmed(peppermint):
    paste_into_new_list(peppermint, PASTED)
    assert "30 to 50 %" in read(peppermint)
    press(peppermint, "Confirm these lines")
    rows = shelf(peppermint).get("peppermint").lot[1].composition[0].row
    assert [(r.name, r.cas, r.share.printed) for r in rows] == [
        ("Menthol", "2216-51-5", "30-50 %"),
        ("Menthone", "14073-97-3", "< 0.1 %"),
    ]
    assert peppermint.text_area("material.lot.1.composition.0.row.paste").value == ""


def test_nothing_can_be_confirmed_while_a_line_is_not_clear(peppermint):
    paste_into_new_list(peppermint, PASTED + "Limonene\t5989-27-5\t0,5 %\n")
    assert "Confirm these lines" not in labels(peppermint)
    assert any("line 4" in m for m in messages(peppermint))
    key = "material.lot.1.composition.0.row.paste.without"
    peppermint.text_input(key).set_value("99 x")
    run(peppermint)
    assert "Confirm these lines" not in labels(peppermint)
    peppermint.text_input(key).set_value("4")
    run(peppermint)
    press(peppermint, "Confirm these lines")
    rows = shelf(peppermint).get("peppermint").lot[1].composition[0].row
    assert len(rows) == 2


def test_pasted_caps_are_confirmed_under_their_scheme(peppermint):
    unfold(peppermint, "material-section.caps")
    peppermint.text_input("material.paste-cap.scheme").set_value("my scheme")
    peppermint.text_input("material.paste-cap.edition").set_value("2")
    peppermint.text_area("material.cap.paste").set_value(
        "Category 9  14.46 %\nCat. 4 0.5"
    )
    run(peppermint)
    press(peppermint, "Confirm these lines")
    new = shelf(peppermint).get("peppermint").cap[-2:]
    assert [(c.scheme, c.edition, c.category) for c in new] == [
        ("my scheme", "2", "9"),
        ("my scheme", "2", "4"),
    ]


@pytest.mark.parametrize(
    "text",
    ["%%%", "= 5", "\x00", "<table>", "🍋 " * 50],
    ids=["percent signs", "formula", "control", "markup", "pictures"],
)
def test_pasted_nonsense_is_asked_about_or_skipped(peppermint, text):
    before = shelf(peppermint).get("peppermint").lot[1]
    paste_into_new_list(peppermint, text)
    assert "Confirm these lines" not in labels(peppermint)
    assert shelf(peppermint).get("peppermint").lot[1].lot == before.lot


# -- new, removed, workshop ------------------------------------------------------------


def test_material_is_added_and_taken_off(peppermint):
    press(peppermint, "Add the material")
    assert any("no name" in m for m in messages(peppermint))
    peppermint.text_input("material-new.name").set_value("Peppermint oil")
    press(peppermint, "Add the material")
    made = shelf(peppermint).get("peppermint oil")
    # a second oil of the same name inherits nothing
    assert (made.cap, made.flash_point, made.composition) == ((), None, ())
    unfold(peppermint, "material-section.remove")
    peppermint.checkbox("material.sure").check()
    run(peppermint)
    press(peppermint, "Take it off")
    assert "peppermint oil" not in [m.id for m in shelf(peppermint).material]


def test_dilution_needs_its_answers():
    at = open_one("lavender")
    unfold(at, "material-section.dilution")
    at.text_input("material.dilution.percent").set_value("10 %")
    run(at)
    assert messages(at)
    at.selectbox("material.dilution.diluent").set_value("Fractionated coconut oil")
    at.selectbox("material.dilution.papers_describe").set_value("as sold")
    run(at)
    assert messages(at) == []
    assert shelf(at).get("lavender").dilution.diluent == "coconut carrier"


def test_workshop_scale_is_used_or_asked_about():
    at = open_page("materials")
    unfold(at, "shelf-section.workshop")
    at.text_input("shelf-form.workshop.scale").set_value("0,1 g")
    run(at)
    assert any("comma" in m for m in messages(at))
    assert shelf(at).workshop.scale.printed == "0.1 g"
    at.text_input("shelf-form.workshop.scale").set_value("0.01 g")
    run(at)
    assert shelf(at).workshop.scale.printed == "0.01 g"
    at.text_input("shelf-form.workshop.current.fragrance standard").set_value("52nd")
    run(at)
    assert shelf(at).workshop.current["fragrance standard"] == "52nd"


# -- matches -------------------------------------------------------------------------

ANSWERS = [
    # a printed name is a substance that has a number
    (
        ("Eucalyptol", "name:eucalyptol", "cineole", "470-82-6"),
        {"name": "Eucalyptol", "cas": "470-82-6"},
    ),
    # one form counts toward the substance that is capped
    (
        ("d-Limonene", "5989-27-5", "limonene", "138-86-3"),
        {"cas": "5989-27-5", "counts_as": "138-86-3"},
    ),
    # the cap itself is written by name only
    (
        ("d-Limonene", "5989-27-5", "limonene", "name:limonene"),
        {"name": "limonene", "cas": "5989-27-5"},
    ),
    (("Camphre", "name:camphre", "camphor", "name:camphor"), None),
]


@pytest.mark.parametrize(("asked", "recorded"), ANSWERS)
def test_answer_is_recorded_by_a_number(asked, recorded):
    one = Proposal(*asked)
    assert answer_of(one, same=True) == recorded
    refused = answer_of(one, same=False)
    assert refused == (None if recorded is None else {**recorded, "same": False})


def test_match_taken_back_is_open_again_and_can_be_answered():
    at = open_page("materials")
    at.session_state["shelf.current"] = next(
        k
        for k, v in at.session_state["shelf.recipes"].items()
        if v.name.startswith("Fair")
    )
    unfold(at, "shelf-section.matches")
    count = len(shelf(at).confirmed)
    assert count > 0
    press(at, "Take it back")
    assert len(shelf(at).confirmed) == count - 1


# -- files ---------------------------------------------------------------------------


def test_files_read_back_and_keep_remarks(peppermint):
    peppermint.text_input("material.density").set_value("0.91")
    run(peppermint)
    held = peppermint.session_state["shelf.shelf"]
    text = materials_file(held.materials, held.text)
    assert "# EVERYTHING HERE IS INVENTED" in text
    assert materials_from_text(text) == held.materials
    assert materials_from_csv(materials_to_csv(held.materials)) == held.materials


@pytest.mark.parametrize(
    ("name", "data", "said"),
    [
        ("a.toml", b"", "empty"),
        ("a.toml", b"name = 1", "a.toml"),
        ("a.csv", b"what,\n1,2", "a.csv"),
        ("a.csv", b"\xff\xff\xff", "UTF-8"),
    ],
)
def test_file_that_is_no_shelf_is_refused(name, data, said):
    at = open_page("materials")
    before = shelf(at)
    unfold(at, "shelf-section.files")
    at.file_uploader[0].set_value((name, data, "text/plain"))
    run(at)
    assert any(said in m for m in messages(at)), messages(at)
    assert shelf(at) == before


def test_new_shelf_names_the_recipes_that_do_not_go_with_it():
    at = open_page("materials")
    unfold(at, "shelf-section.files")
    data = b'[[material]]\nid = "kaolin"\nname = "Kaolin"\nkind = "solid"\n'
    at.file_uploader[0].set_value(("mine.toml", data, "text/plain"))
    run(at)
    assert [m.id for m in shelf(at).material] == ["kaolin"]
    assert any("North gale" in m for m in messages(at))


def test_begin_empty():
    at = open_page("materials")
    unfold(at, "shelf-section.files")
    at.checkbox("materials.sure").check()
    run(at)
    press(at, "Begin empty")
    assert "The shelf is empty." in read(at)
    assert at.session_state["shelf.recipes"] == {}


def test_open_match_is_asked_and_the_answer_changes_the_check():
    """d-Limonene (5989-27-5) may count toward a cap on limonene (138-86-3)."""
    at = open_page("materials")
    held = at.session_state["shelf.recipes"]
    at.session_state["shelf.current"] = next(
        key for key, kept in held.items() if kept.name.startswith("North gale")
    )
    unfold(at, "shelf-section.caps")
    cap = {
        "on": "component",
        "name": "limonene",
        "cas": "138-86-3",
        "scheme": "mine",
        "printed": "0.5 %",
    }
    edit(at, "shelf-form.cap", added=[cap])
    assert messages(at) == []
    unfold(at, "shelf-section.matches")
    assert "A paper prints “d-Limonene” (5989-27-5)" in read(at)
    press(at, "Yes, it is")
    last = shelf(at).confirmed[-1]
    assert (last.cas, last.counts_as, last.same) == ("5989-27-5", "138-86-3", True)
    run(at)
    assert "A paper prints “d-Limonene” (5989-27-5)" not in read(at)


def test_irritants_are_numbers(peppermint):
    unfold(peppermint, "material-section.marks")
    peppermint.text_input("material.irritant").set_value("470-82-6, 2216-51-5")
    run(peppermint)
    assert shelf(peppermint).get("peppermint").irritant == ("470-82-6", "2216-51-5")
    peppermint.text_input("material.irritant").set_value("menthol")
    run(peppermint)
    assert any("breathing irritants" in m for m in messages(peppermint))


def test_stock_blend_of_the_shelf_is_made_and_removed():
    at = open_page("materials")
    unfold(at, "shelf-section.stocks")
    press(at, "Add the blend")
    assert any("no name" in m for m in messages(at))
    at.text_input("shelf-form.new-stock").set_value("Gale blend")
    press(at, "Add the blend")
    # a blend without a line is not one yet
    assert any("Lines of the stock blend" in m for m in messages(at))
    row = {"what": "Peppermint oil", "lot": "PM-2607", "amount": "2 parts"}
    edit(at, "shelf-form.stock.1.line", added=[row])
    assert messages(at) == []
    made = shelf(at).stock[-1]
    assert (made.id, made.line[0].material) == ("gale blend", "peppermint")
    press(at, "Remove this stock blend")
    assert [s.id for s in shelf(at).stock] == ["headland blend"]
