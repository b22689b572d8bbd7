"""What the sheet says of hazards, typed as printed: used, said at its field, kept."""

from datetime import date

import pytest

from blendcheck.assess import assess
from blendcheck.estimates.classes.recipes import recipe_classes
from blendcheck.files.reading import materials_from_text
from blendcheck.quantity.hazard_lists import classes_of, figures_of, limits_of
from blendcheck.records.hazard import Hazard
from blendcheck.ui.filing import materials_file
from tests.ui.pages import edit, key_of, messages, open_page, read, run, unfold

SECTION = "material-section.hazards"
TABLE = "material.hazard"


def press(at, label):
    next(button for button in at.button if button.label == label).click()
    return run(at)


def opened(name):
    at = open_page("materials")
    at.selectbox("materials.which").set_value(name)
    run(at)
    return unfold(at, SECTION)


def hazard(at, name):
    return at.session_state["shelf.shelf"].materials.get(name).hazard


def field(name, number=0):
    return f"material.hazard.{number}.{name}"


def typed(at, name, text, number=0):
    key = field(name, number)
    area = name in ("classes", "limits", "ate")
    (at.text_area(key) if area else at.text_input(key)).set_value(text)
    return run(at)


# -- several texts in one ---------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("Flam. Liq. 3; H226; Asp. Tox. 1; H304", 2),
        ("Flam. Liq. 3, H226, Asp. Tox. 1, H304, Skin Irrit. 2, H315", 3),
        ("Flam. Liq. 3 H226 / Skin Irrit. 2 H315", 2),
        ("H226; H304; H315", 3),
        ("- Skin Irrit. 2 (H315)\n\n• Eye Irrit. 2 (H319)\n", 2),
        ("Acute Tox. 4 (oral), H302: Harmful if swallowed.", 1),
        ("Skin Irrit. 2, H315, causes irritation of the skin", 1),
        ("not classified", 1),
        ("", 0),
        (" ; \n ;; ", 0),
    ],
)
def test_classes_are_told_apart(text, parts):
    found = classes_of(text)
    assert len(found) == parts
    # what was parted is parted the same way again
    assert classes_of("\n".join(found)) == classes_of("; ".join(found)) == found
    for one in found:
        Hazard(classes=(one,))


def test_limits_and_figures_are_told_apart():
    # as Annex VI, Table 3 of Regulation (EC) No 1272/2008 prints the limits of
    # hydrochloric acid (from memory)
    printed = (
        "Skin Corr. 1B; H314: C ≥ 25 %; Skin Irrit. 2; H315: 10 % ≤ C < 25 %; "
        "Eye Irrit. 2; H319: 10 % ≤ C < 25 %; STOT SE 3; H335: C ≥ 10 %"
    )
    found = limits_of(printed)
    assert [one.hazard.name for one in Hazard(limits=found).limits] == [
        "Skin Corr. 1B",
        "Skin Irrit. 2",
        "Eye Irrit. 2",
        "STOT SE 3",
    ]
    assert "; ".join(found) == printed
    assert figures_of("oral 1680 mg/kg; dermal > 2000 mg/kg") == (
        "oral 1680 mg/kg",
        "dermal > 2000 mg/kg",
    )


def test_two_classes_before_their_statements_are_not_guessed_apart():
    found = classes_of("Flam. Liq. 3; Skin Irrit. 2; H226; H315")
    with pytest.raises(ValueError, match="do not fit each other"):
        Hazard(classes=found)


# -- the material itself -------------------------------------------------------------


def test_a_first_sheet_is_typed_as_printed():
    at = opened("coconut carrier")
    assert hazard(at, "coconut carrier") == ()
    assert messages(at) == []
    typed(at, "classes", "Flam. Liq. 3, H226; Asp. Tox. 1, H304\nSkin Irrit. 2 H315")
    at.checkbox(field("copied_whole")).check()
    at.selectbox(field("document")).set_value("hesperwick-coconut-sds")
    run(at)
    typed(at, "ate", "oral 1680 mg/kg")
    typed(at, "limits", "Skin Irrit. 2; H315: 10 % ≤ C < 25 %")
    for name, text in (
        ("viscosity", "≤ 20.5 mm2/s"),
        ("boiling_point", "176 °C"),
        ("ph", "5"),
        ("m_acute", "1"),
        ("m_chronic", "M = 10"),
    ):
        typed(at, name, text)
    at.checkbox(field("adds_up")).check()
    run(at)
    assert messages(at) == []
    (one,) = hazard(at, "coconut carrier")
    assert [c.printed for c in one.classes] == [
        "Flam. Liq. 3, H226",
        "Asp. Tox. 1, H304",
        "Skin Irrit. 2 H315",
    ]
    assert (one.copied_whole, one.adds_up) == (True, False)
    assert one.document == "hesperwick-coconut-sds"
    assert one.m_chronic.printed == "M = 10"
    assert one.boiling_point.printed == "176 °C"
    assert "May be fatal if swallowed and enters airways" in read(at)
    assert "where a mixture holds ≥ 10 to < 25 % of it" in read(at)
    held = at.session_state["shelf.shelf"]
    text = materials_file(held.materials, held.text)
    assert materials_from_text(text) == held.materials


BAD = [
    ("classes", "Skin Irrit. 2, H319", "Hazard classes", "do not fit"),
    ("classes", "Acute Tox. 4", "Hazard classes", "statement"),
    ("classes", "irritant", "Hazard classes", "not read as a hazard class"),
    ("ate", "1680", "Acute toxicity", "1680"),
    ("limits", "Skin Irrit. 2, H315: 10 %", "Specific concentration", "from where"),
    ("viscosity", "20.5", "Viscosity", "no unit"),
    ("viscosity", "20.5 mm2/s at 20 °C", "Viscosity", "not at 40"),
    ("boiling_point", "176", "Boiling point", "176"),
    ("ph", "15", "pH", "between 0 and 14"),
    ("m_acute", "2", "M-factor, acute", "not an M-factor"),
    ("m_chronic", "many", "M-factor, chronic", "not an M-factor"),
]


@pytest.mark.parametrize(("name", "text", "label", "said"), BAD)
def test_what_is_refused_is_said_at_its_field(name, text, label, said):
    at = opened("eucalyptus")
    before = hazard(at, "eucalyptus")
    typed(at, name, text)
    found = messages(at)
    assert any(f"To correct: {label}" in one and said in one for one in found), found
    assert hazard(at, "eucalyptus") == before
    key = field(name)
    area = name in ("classes", "limits", "ate")
    shown = at.text_area(key) if area else at.text_input(key)
    assert shown.value == text


def test_the_typed_text_outlives_another_material():
    at = opened("eucalyptus")
    typed(at, "classes", "irritant; H319")
    for name in ("kaolin", "eucalyptus"):
        at.selectbox("materials.which").set_value(name)
        run(at)
    assert at.text_area(field("classes")).value == "irritant; H319"


def test_a_class_taken_out_clears_copied_whole():
    at = opened("alcohol")
    assert at.checkbox(field("copied_whole")).value
    typed(at, "classes", "Flam. Liq. 2, H225\nEye Irrit. 2, H319")
    assert not at.checkbox(field("copied_whole")).value
    (one,) = hazard(at, "alcohol")
    assert (len(one.classes), one.copied_whole) == (2, False)
    at.checkbox(field("copied_whole")).check()
    run(at)
    assert hazard(at, "alcohol")[0].copied_whole


def test_a_class_that_is_corrected_leaves_it():
    at = opened("alcohol")
    text = "Flam. Liq. 2, H225\nEye Irrit. 2, H319\nSTOT SE 3, H335"
    typed(at, "classes", text)
    assert hazard(at, "alcohol")[0].copied_whole


def test_a_blank_block_says_nothing():
    at = opened("kaolin")
    at.checkbox(field("copied_whole")).uncheck()
    typed(at, "classes", " ")
    assert (hazard(at, "kaolin"), messages(at)) == ((), [])
    at.selectbox("materials.which").set_value("water")
    run(at)
    assert at.text_area(field("classes")).value == ""
    at.checkbox(field("copied_whole")).check()
    run(at)
    assert any("no class stands here" in one for one in messages(at))


def test_a_second_sheet_is_added_and_removed():
    at = opened("eucalyptus")
    first = hazard(at, "eucalyptus")
    press(at, "Add what another sheet says of it")
    assert any("no class stands here" in one for one in messages(at))
    typed(at, "classes", "Eye Irrit. 2, H319", number=1)
    assert messages(at) == []
    assert [one.classes[0].name for one in hazard(at, "eucalyptus")] == [
        "Flam. Liq. 3",
        "Eye Irrit. 2",
    ]
    at.selectbox("material.which-hazard").set_value("0")
    run(at)
    assert at.text_area(field("classes")).value.startswith("Flam. Liq. 3")
    at.selectbox("material.which-hazard").set_value("1")
    run(at)
    press(at, "Remove what this sheet says of it")
    assert hazard(at, "eucalyptus") == first


# -- its components --------------------------------------------------------------------


ROW = {
    "name": "d-Limonene",
    "cas": "5989-27-5",
    "classes": "Flam. Liq. 3; H226; Skin Irrit. 2; H315; Skin Sens. 1B; H317",
    "limits": "Skin Sens. 1B; H317: C ≥ 1 %",
    "ate": "oral 4400 mg/kg; dermal > 5000 mg/kg",
    "m_acute": "1",
    "m_chronic": "1",
    "copied_whole": "yes",
    "adds_up": "no",
    "document": "thrumsea-eucalyptus-sds",
    "viscosity": "≤ 2 mm2/s",
    "boiling_point": "176 °C",
    "ph": "6",
}


def test_component_rows_are_typed_as_printed():
    at = opened("eucalyptus")
    own = hazard(at, "eucalyptus")
    other = {"name": "p-Cymene", "classes": "Asp. Tox. 1, H304"}
    edit(at, TABLE, added=[ROW, other])
    assert messages(at) == []
    made = hazard(at, "eucalyptus")
    assert made[: len(own)] == own
    limonene, cymene = made[len(own) :]
    assert [c.statement for c in limonene.classes] == ["H226", "H315", "H317"]
    assert [t.printed for t in limonene.ate] == [
        "oral 4400 mg/kg",
        "dermal > 5000 mg/kg",
    ]
    assert (limonene.copied_whole, limonene.adds_up) == (True, False)
    assert (cymene.copied_whole, cymene.adds_up) == (False, True)
    assert "d-Limonene  Skin Sens. 1B; H317: C ≥ 1 %" in read(at)
    # the table shows again what stands in the record
    at.selectbox("materials.which").set_value("kaolin")
    run(at)
    at.selectbox("materials.which").set_value("eucalyptus")
    run(at)
    assert hazard(at, "eucalyptus") == made
    edit(at, TABLE, {1: {"m_acute": "10"}})
    assert hazard(at, "eucalyptus")[-1].m_acute.printed == "10"
    edit(at, TABLE, deleted=[0])
    assert [one.name for one in hazard(at, "eucalyptus")] == ["", "p-Cymene"]


def test_a_refused_cell_is_said_at_its_row():
    at = opened("eucalyptus")
    before = hazard(at, "eucalyptus")
    bad = {"name": "p-Cymene", "classes": "Asp. Tox. 1, H304; bad"}
    edit(at, TABLE, added=[ROW, bad])
    assert any("Components: row 2, Classes" in one for one in messages(at))
    assert hazard(at, "eucalyptus") == before


def test_a_row_without_a_name_is_not_taken_for_the_material():
    at = opened("eucalyptus")
    before = hazard(at, "eucalyptus")
    edit(at, TABLE, added=[{"classes": "Asp. Tox. 1, H304"}])
    assert any("row 1: no component is named" in one for one in messages(at))
    assert hazard(at, "eucalyptus") == before
    number = "99-87-6"
    edit(at, TABLE, added=[{"classes": "Asp. Tox. 1, H304", "cas": number}])
    assert messages(at) == []
    assert hazard(at, "eucalyptus")[-1].cas == number


def test_a_class_of_a_component_taken_out_clears_copied_whole():
    at = opened("eucalyptus")
    edit(at, TABLE, added=[ROW])
    for name in ("kaolin", "eucalyptus"):
        at.selectbox("materials.which").set_value(name)
        run(at)
    edit(at, TABLE, {0: {"classes": "Skin Irrit. 2; H315"}})
    assert not hazard(at, "eucalyptus")[-1].copied_whole


def test_a_material_without_a_sheet_can_have_components():
    at = opened("coconut carrier")
    edit(at, TABLE, added=[{"name": "x", "classes": "bad"}])
    assert any("Components: row 1, Classes" in one for one in messages(at))
    edit(at, TABLE, added=[{"name": "x", "classes": "H315"}])
    assert [one.name for one in hazard(at, "coconut carrier")] == ["x"]
    typed(at, "classes", "not classified")
    assert [one.name for one in hazard(at, "coconut carrier")] == ["", "x"]
    # the table's own row was not moved by the block above it
    edit(at, TABLE, {}, added=[{"name": "y", "classes": "H315"}])
    assert key_of(at, TABLE)
    assert hazard(at, "coconut carrier")[0].classes[0].name == "not classified"


def test_what_is_typed_reaches_the_classes_of_the_blend():
    """CLP, Annex I, Table 3.3.3: at least 3 % of what is Eye Dam. 1 make the mixture
    Eye Dam. 1. Half of the blend is eucalyptus oil."""
    at = opened("eucalyptus")
    typed(at, "classes", "Eye Dam. 1, H318")
    shelf = at.session_state["shelf.shelf"].materials
    kept = next(
        kept
        for kept in at.session_state["shelf.recipes"].values()
        if kept.name.startswith("North gale")
    )
    found = assess(kept.good, shelf, date(2026, 11, 25), label=True)
    neat, _ = recipe_classes(found.case.totals)
    (eye,) = [c for c in neat.classes.classes if c.hazard_class == "Eye Dam. 1"]
    assert (eye.statement, eye.standing) == ("H318", "certain")
