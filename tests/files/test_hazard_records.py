"""What a sheet says of hazards, in a file: read, refused in one sentence, kept."""

from datetime import date

import pytest

from blendcheck.errors import InputError, QuestionError
from blendcheck.files.reading import materials_from_text, recipe_from_text
from blendcheck.files.table_reading import materials_from_csv
from blendcheck.files.tables import materials_to_csv
from blendcheck.files.writing import dump_materials
from blendcheck.records.snapshot import content_hash, snapshot

SHELF = """
[[material]]
id = "fir"
name = "Fir oil"
kind = "essential oil"

[[material.hazard]]
document = "sds-7"
classes = ["Flam. Liq. 3, H226", "Asp. Tox. 1 H304"]
ate = ["oral 1680 mg/kg"]
viscosity = "≤ 20.5 mm2/s"
m_acute = 1
ph = 6.5
copied_whole = true

[[material.hazard]]
name = "d-Limonene"
cas = "5989-27-5"
classes = ["Skin Sens. 1B, H317"]
limits = ["Skin Sens. 1B; H317: C ≥ 2 %"]
"""
RECIPE = 'name = "r"\n[[line]]\nmaterial = "fir"\namount = "1 g"\n'


def test_a_sheet_is_read_and_kept_as_printed():
    shelf = materials_from_text(SHELF)
    whole, component = shelf.material[0].hazard
    assert [one.name for one in whole.classes] == ["Flam. Liq. 3", "Asp. Tox. 1"]
    assert (whole.is_of_component, component.is_of_component) == (False, True)
    assert materials_from_text(dump_materials(shelf)) == shelf
    assert materials_from_csv(materials_to_csv(shelf)) == shelf
    assert '"Asp. Tox. 1 H304"' in dump_materials(shelf)


def test_it_is_part_of_the_snapshot_and_of_the_hash():
    recipe, on = recipe_from_text(RECIPE), date(2026, 11, 25)
    shelf = materials_from_text(SHELF)
    other = materials_from_text(SHELF.replace("1680", "1690"))
    held = snapshot(recipe, shelf)["materials"]["material"][0]["hazard"]
    assert held[0]["ate"] == ["oral 1680 mg/kg"]
    assert content_hash(recipe, shelf, on) != content_hash(recipe, other, on)


REFUSED = [
    ('classes = ["Acute Tox. 4"]', QuestionError, "which statement goes with it"),
    ('classes = ["Skin Irrit. 2 H319"]', InputError, "do not fit each other"),
    ('clases = ["H226"]', InputError, 'Did you mean "classes"'),
    ("m_acute = 5", InputError, '"5" is not an M-factor'),
    ("copied_whole = true\nph = 3", InputError, "copied_whole is set, but no class"),
    ('document = "sds"', InputError, "says nothing of a hazard"),
    ('classes = ["not classified", "H226"]', InputError, "stands beside a class"),
    ('classes = ["H226", "Flam. Liq. 3"]', InputError, "stands twice"),
    ('ate = ["oral 5 mg/kg", "oral 6 mg/kg"]', InputError, "two toxicity figures"),
    ('classes = "H226"', InputError, "hazard[1].classes"),
]


@pytest.mark.parametrize(("line", "kind", "says"), REFUSED)
def test_what_is_not_understood_is_one_sentence_with_its_place(line, kind, says):
    text = SHELF.partition("[[material.hazard]]")[0] + "[[material.hazard]]\n" + line
    with pytest.raises(kind) as caught:
        materials_from_text(text, "shelf.toml")
    message = str(caught.value)
    assert says in message
    assert message.startswith("shelf.toml, line ")
    assert "\n" not in message
