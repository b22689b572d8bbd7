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
from blendcheck.records.material import Materials
from blendcheck.records.recipe import Recipe
from blendcheck.records.setting import Measure, Shower
from blendcheck.records.snapshot import as_written, content_hash, snapshot
from blendcheck.records.workshop import Workshop

TEXT = """\
# the shed
[workshop]
name = "Shed"

[workshop.shower]   # measured with a tape
stall_volume = "1.50 m3"
bathroom_volume = "350 cu ft"
stall_air_changes = "3 per hour"
duration = "8 min"
water_temperature = "104 °F"
water_flow = "2.5 gpm"
dissolving = "12 min"
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


def test_figures_with_their_units():
    shower = materials_from_text(TEXT).workshop.shower
    assert shower.stall_volume == Measure("1.50 m3", Fraction("1.5"))
    assert shower.stall_air_changes.value == 3
    assert shower.duration.value == 8
    assert shower.water_temperature.value == 40
    # A US gallon is 231 cubic inches of 2.54 cm, a cubic foot 0.3048 m cubed.
    assert shower.water_flow.value == Fraction("2.5") * 231 * Fraction("0.254") ** 3
    assert shower.bathroom_volume.value == 350 * Fraction("0.3048") ** 3
    assert shower.showers_in_a_row == 3


def test_round_trips():
    read = materials_from_text(TEXT)
    assert materials_from_text(dump_materials(read)) == read
    assert materials_from_csv(materials_to_csv(read)) == read
    assert Materials.model_validate(as_written(read)) == read


def test_an_edit_keeps_the_remarks():
    old = materials_from_text(TEXT)
    shower = old.workshop.shower.model_copy(
        update={"duration": Measure("9 min", Fraction(9))}
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
    assert 'duration = "9 min"' in text
    assert materials_from_text(text) == new


def test_an_empty_table_is_no_shower():
    assert Workshop(shower=Shower()).shower is None
    assert materials_from_text("[workshop.shower]\n").workshop.shower is None


def test_the_hash_and_the_snapshot_hold_it():
    plain = shelf()
    entered, other = shelf(duration="8 min"), shelf(duration="9 min")
    hashes = {content_hash(RECIPE, one, ON) for one in (plain, entered, other)}
    assert len(hashes) == 3
    kept = snapshot(RECIPE, entered)["materials"]
    assert kept["workshop"]["shower"] == {"duration": "8 min"}
    assert Materials.model_validate(kept).workshop.shower == entered.workshop.shower


REFUSED = [
    ('stall_volume = "50 m3"', "stall_volume: 50 m3 lies outside 0.5 to 20 m3"),
    ('stall_volume = "0 m3"', "0 m3 lies outside 0.5 to 20 m3"),
    ('bathroom_volume = "500 m3"', "500 m3 lies outside 1 to 200 m3"),
    ('bathroom_air_changes = "61 /h"', "61 /h lies outside 0 to 60 per hour"),
    ('water_temperature = "90 °C"', "90 °C lies outside 10 to 60 °C"),
    ('duration = "30 s"', "30 s lies outside 1 to 120 min"),
    ("stall_volume_m3 = 2", 'there is no field "stall_volume_m3" .*"stall_volume"'),
    ('duration = "long"', '"long" is not read as a time'),
    ('duration = "8-12 min"', "is not one figure, and the setting of a shower is"),
    ('water_temperature = "> 30 °C"', "is not one figure"),
    ('duration = "8 m3"', "is not read"),
    ("showers_in_a_row = 0", "showers_in_a_row"),
    ("showers_in_a_row = 21", "showers_in_a_row"),
    ("showers_with_a_piece = 2", "more showers with a piece than showers in a row"),
    ('dissolving_time_is = "measured"', "it is not entered"),
    ('dissolving_time_is = "guessed"', "dissolving_time_is"),
    ("water_flow = true", "not a figure"),
]


@pytest.mark.parametrize(("line", "message"), REFUSED)
def test_what_is_refused_names_the_place(line, message):
    with pytest.raises(InputError, match=message) as caught:
        materials_from_text(f"[workshop.shower]\n{line}\n", "shelf.toml")
    assert str(caught.value).startswith("shelf.toml, line ")


@pytest.mark.parametrize(
    ("line", "example"),
    [
        ("stall_volume = 2", "30 m3"),
        ("bathroom_air_changes = 2", "0.5 per hour"),
        ('duration = "10"', "10 min"),
        ("dissolving = 12", "10 min"),
        ("water_flow = 8", "8 L/min"),
        ("water_temperature = 40", "°C"),
    ],
)
def test_a_bare_number_is_asked_for_its_unit(line, example):
    with pytest.raises(QuestionError, match="has no unit") as caught:
        materials_from_text(f"[workshop.shower]\n{line}\n", "shelf.toml")
    assert caught.value.code == "unit-missing"
    assert example in str(caught.value)


def test_a_decimal_comma_is_asked_about():
    with pytest.raises(QuestionError, match="comma"):
        materials_from_text('[workshop.shower]\nstall_volume = "1,5 m3"\n')


def test_a_binary_float_is_refused():
    with pytest.raises(ValueError, match="not a figure"):
        Shower(stall_volume=1.5)
