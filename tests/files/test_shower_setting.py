"""The shower of a materials file: read, written, refused, and in the hash."""

from datetime import date
from fractions import Fraction

import pytest

from blendcheck.errors import InputError, QuestionError
from blendcheck.files.editing import edited
from blendcheck.files.reading import materials_from_text
from blendcheck.files.table_reading import materials_from_csv
from blendcheck.files.tables import materials_to_csv
from blendcheck.files.writing import dump_materials
from blendcheck.records.material import Materials, Workshop
from blendcheck.records.recipe import Recipe
from blendcheck.records.setting import Measure, Shower
from blendcheck.records.snapshot import as_written, content_hash, snapshot

TEXT = """\
# the shed
[workshop]
name = "Shed"

[workshop.shower]   # measured with a tape
stall_volume_m3 = 1.50
bathroom_volume_m3 = "350 cu ft"
shower_minutes = "8 min"
dissolving_minutes = 12
dissolving_time_is = "measured"
showers_in_a_row = 3
showers_with_a_piece = 2
"""
ON = date(2026, 11, 25)
RECIPE = Recipe.model_validate(
    {"name": "r", "line": [{"material": "salt", "amount": "100 g"}]}
)


def shelf(**shower):
    return Materials.model_validate(
        {
            "workshop": {"shower": shower},
            "material": [{"id": "salt", "name": "Salt", "kind": "solid"}],
        }
    )


def test_numbers_with_and_without_their_unit():
    shower = materials_from_text(TEXT).workshop.shower
    assert shower.stall_volume_m3 == Measure("1.50", Fraction("1.5"))
    assert shower.shower_minutes.value == 8
    # A cubic foot is 0.3048 m cubed.
    assert shower.bathroom_volume_m3.value == 350 * Fraction("0.3048") ** 3
    assert shower.showers_in_a_row == 3


def test_round_trips():
    read = materials_from_text(TEXT)
    assert materials_from_text(dump_materials(read)) == read
    assert materials_from_csv(materials_to_csv(read)) == read
    assert Materials.model_validate(as_written(read)) == read


def test_an_edit_keeps_the_remarks():
    old = materials_from_text(TEXT)
    shower = old.workshop.shower.model_copy(
        update={"shower_minutes": Measure("9", Fraction(9))}
    )
    workshop = old.workshop.model_copy(update={"shower": shower})
    new = old.model_copy(update={"workshop": workshop})
    text = edited(
        TEXT,
        old.model_dump(by_alias=True),
        new.model_dump(by_alias=True),
        as_written(new),
    )
    assert "# measured with a tape" in text
    assert 'shower_minutes = "9"' in text
    assert materials_from_text(text) == new


def test_an_empty_table_is_no_shower():
    assert Workshop(shower=Shower()).shower is None
    assert materials_from_text("[workshop.shower]\n").workshop.shower is None


def test_the_hash_and_the_snapshot_hold_it():
    plain = shelf()
    entered, other = shelf(shower_minutes="8"), shelf(shower_minutes="9")
    hashes = {content_hash(RECIPE, one, ON) for one in (plain, entered, other)}
    assert len(hashes) == 3
    kept = snapshot(RECIPE, entered)["materials"]
    assert kept["workshop"]["shower"] == {"shower_minutes": "8"}
    assert Materials.model_validate(kept).workshop.shower == entered.workshop.shower


REFUSED = [
    ("stall_volume_m3 = 50", "stall_volume_m3: 50 lies outside 0.5 to 20 m3"),
    ("stall_volume_m3 = 0", "0 lies outside 0.5 to 20 m3"),
    ("bathroom_volume_m3 = 500", "500 lies outside 1 to 200 m3"),
    ("bathroom_air_changes_per_h = 61", "61 lies outside 0 to 60 an hour"),
    ("water_temperature_celsius = 90", "90 lies outside 10 to 60 °C"),
    ("shower_minutes = 0.5", "0.5 lies outside 1 to 120 min"),
    ("stall_volume = 2", 'there is no field "stall_volume" .*"stall_volume_m3"'),
    ('shower_minutes = "long"', '"long" is not read as a time'),
    ('shower_minutes = "8-12 min"', "the setting of a shower is one number"),
    ('shower_minutes = "8 m3"', "is not read"),
    ("showers_in_a_row = 0", "showers_in_a_row"),
    ("showers_in_a_row = 21", "showers_in_a_row"),
    ("showers_with_a_piece = 2", "more showers with a piece than showers in a row"),
    ('dissolving_time_is = "measured"', "it is not entered"),
    ('dissolving_time_is = "guessed"', "dissolving_time_is"),
    ("water_flow_litres_per_min = true", "not a figure"),
]


@pytest.mark.parametrize(("line", "message"), REFUSED)
def test_what_is_refused_names_the_place(line, message):
    with pytest.raises(InputError, match=message) as caught:
        materials_from_text(f"[workshop.shower]\n{line}\n", "shelf.toml")
    assert str(caught.value).startswith("shelf.toml, line ")


def test_a_decimal_comma_is_asked_about():
    with pytest.raises(QuestionError, match="comma"):
        materials_from_text('[workshop.shower]\nstall_volume_m3 = "1,5"\n')


def test_a_binary_float_is_refused():
    with pytest.raises(ValueError, match="not a figure"):
        Shower(stall_volume_m3=1.5)
