"""A printed figure and ours: conversions, refused rows, and what a look-up gives."""

import csv
import re
import shutil
from fractions import Fraction
from pathlib import Path

import pytest

import blendcheck
from blendcheck import reference
from blendcheck.errors import ReferenceDataError
from blendcheck.interval import Range
from blendcheck.reference.conversions import UNITS, convert
from blendcheck.reference.figures import Datum

FOLDER = Path(blendcheck.__file__).parents[1] / "reference"


@pytest.mark.published
@pytest.mark.parametrize(
    ("printed", "printed_unit", "unit", "ours"),
    # NIST SP 811 (2008), B.8 and B.9: degC and degF to K; mmHg = 133.3224 Pa; US
    # gallon = 3.785 412 L. Molar mass and volume units by definition.
    [
        ("12", "degC", "K", "285.15"),
        ("53", "degF", "K", "284.8166667"),
        ("0.65", "mmHg", "Pa", "86.65954"),
        ("42.6", "hPa", "Pa", "4260"),
        ("2.1", "US gal/min", "L/min", "7.949365"),
        ("5000", "ug/m3", "mg/m3", "5"),
        ("0.007", "mol/mol", "% v/v", "0.7"),
        ("100", "ppm w/w", "%", "0.01"),
        ("1", "mg/kg of product", "%", "0.0001"),
        ("0.8954", "g/cm3", "kg/m3", "895.4"),
        ("45.4", "kJ/mol", "J/mol", "45400"),
    ],
)
def test_conversions(printed, printed_unit, unit, ours):
    found = convert(Fraction(printed), printed_unit, unit)
    half_a_place = Fraction(1, 2 * 10 ** len(ours.partition(".")[2]))
    assert abs(found - Fraction(ours)) <= half_a_place


def test_parts_per_million_of_air_are_never_turned_into_mass():
    assert not any(printed == "ppm" and unit != "ppm" for printed, unit in UNITS), (
        "a gas needs a temperature that its source names"
    )


@pytest.fixture
def folder(tmp_path):
    copy = tmp_path / "reference"
    shutil.copytree(FOLDER, copy)
    return copy


def change(folder, row_type, line, **cells):
    """Write a line of a table anew with some cells changed."""
    path = folder / f"{row_type.table}.csv"
    with path.open(encoding="utf-8", newline="") as file:
        rows = list(csv.reader(file))
    for name, cell in cells.items():
        rows[line - 1][rows[0].index(name)] = cell
    with path.open("w", encoding="utf-8", newline="") as file:
        csv.writer(file, lineterminator="\n").writerows(rows)


BAD = [
    ("another value", {"value": "286.15"}, "value 286.15 K is not 12 degC"),
    ("another printed value", {"printed_value": "13"}, "value 285.15 K is not 13"),
    ("rounded too far", {"value": "285"}, "value 285 K is not 12 degC"),
    ("another unit", {"unit": "Pa"}, "there is no conversion from degC to Pa"),
    ("no unit", {"printed_unit": ""}, "printed_unit is blank"),
    ("sign", {"qualifier": "less"}, "qualifier less is none of"),
    ("words", {"printed_value": "about 12"}, "printed_value about 12 is not a dec"),
    ("comma", {"value": "285,15"}, "value 285,15 is not a decimal number"),
    ("quantity", {"quantity": "colour"}, "quantity colour is not a quantity"),
    (
        "unit of another quantity",
        {"quantity": "vapour pressure"},
        "unit K is not ours for the quantity vapour pressure",
    ),
    ("basis", {"basis": "guessed"}, "basis guessed is none of measured"),
    ("temperature", {"at": "warm"}, "at warm is not a decimal number"),
]


@pytest.mark.parametrize(("cells", "message"), [row[1:] for row in BAD], ids=str)
def test_a_bad_figure_stops_the_load(folder, cells, message):
    flash = {
        "quantity": "flash point",
        "printed_value": "12",
        "printed_unit": "degC",
        "value": "285.15",
        "unit": "K",
    }
    change(folder, reference.Property, 2, **(flash | cells))
    place = f"reference/properties.csv, line 2: {message}"
    with pytest.raises(ReferenceDataError, match=re.escape(place)):
        reference.read_table(reference.Property, folder)


SPANS = [
    ({"printed_value": "66-78"}, "high 350.15 K is not 78 degC"),
    ({"low": "340.15"}, "low 340.15 K is not 66 degC"),
    ({"low": ""}, "low (blank) does not fit 66-77"),
    ({"printed_value": ">66"}, "high 350.15 does not fit >66"),
    ({"printed_value": "77-66", "low": "350.15", "high": "339.15"}, "low 350.15 is ab"),
    ({"printed_value": "66 to 77"}, "printed_value 66 to 77 is not a range"),
]


@pytest.mark.parametrize(("cells", "message"), SPANS, ids=str)
def test_a_bad_range_stops_the_load(folder, cells, message):
    flash = {
        "quantity": "flash point",
        "printed_value": "66-77",
        "printed_unit": "degC",
        "low": "339.15",
        "high": "350.15",
        "unit": "K",
    }
    change(folder, reference.OilProperty, 2, **(flash | cells))
    place = f"reference/oil_properties.csv, line 2: {message}"
    with pytest.raises(ReferenceDataError, match=re.escape(place)):
        reference.read_table(reference.OilProperty, folder)


OTHERS = [
    (
        reference.OilComponent,
        {"printed_value": "90-105", "low": "90", "high": "105"},
        "high is above 100 %",
    ),
    (reference.IngredientLimit, {"state": "not permitted"}, "the figure does not fit"),
    (reference.IngredientLimit, {"unit": ""}, "qualifier, printed figure, our figure"),
    (reference.Allergen, {"leave_on": "0.002"}, "leave_on is not a tenth of rinse_off"),
    (reference.Allergen, {"status": "prohibited"}, "leave_on and rinse_off do not fit"),
    (reference.Phrase, {"code": "P210", "series": "H"}, "code P210 is not of the seri"),
    (reference.Ruling, {"tag": "memory", "fallback": ""}, "fallback is blank"),
    (reference.HazardClass, {"statement": "H999"}, "statement H999 is not a code"),
    (reference.VapourFit, {"t_min_k": "900"}, "t_min_k 900 is not below t_max_k"),
    (reference.VapourFit, {"check_t_k": "1"}, "check_t_k 1 is outside the range"),
    (reference.VapourFit, {"c": ""}, "c is blank, which Antoine needs"),
    (reference.VapourFit, {"a": "ten"}, "a ten is not a number such as"),
    (reference.VapourFit, {"equation": "DIPPR 101"}, "d is blank, which DIPPR 101"),
    (reference.ExposureLimit, {"value": "3"}, "value 3 mg/m3 is not 2 mg/m3"),
    (reference.IrritationPoint, {"value": "3"}, "value 3 ppm is not"),
    (reference.ShowerParameter, {"value": "3"}, "value 3 min is not"),
    (reference.Swallowing, {"value": "3"}, "value 3 mg/kg is not"),
    (reference.MixtureLimit, {"value": "3"}, "value 3 K is not"),
    (reference.VapourPressure, {"value": "3"}, "value 3 Pa is not"),
    (reference.PhototoxicOil, {"made": "pressed"}, "made pressed is none of"),
    (reference.OilWatch, {"content_source_id": "none"}, "source none is not in sourc"),
    (reference.ConstituentWatch, {"concern": "worry"}, "concern worry is none of"),
]


@pytest.mark.parametrize(("row_type", "cells", "message"), OTHERS, ids=str)
def test_each_table_of_figures_has_rules_of_its_own(folder, row_type, cells, message):
    change(folder, row_type, 2, **cells)
    place = f"reference/{row_type.table}.csv, line 2: {message}"
    with pytest.raises(ReferenceDataError, match=re.escape(place)):
        reference.read_table(row_type, folder)


def test_a_look_up_gives_the_figure_with_all_that_belongs_to_it():
    first = reference.properties_of("64-17-5", "flash point")[0]
    assert isinstance(first, Datum)
    assert first.value == Fraction("285.15")
    assert (first.unit, first.printed) == ("K", "285.15 K")
    assert first.conditions == "closed cup"
    assert reference.source(first.source_id).citation.startswith("IEC 60079-20-1")


def test_a_bound_stays_a_bound():
    found = [
        row.datum
        for row in reference.rows_of(reference.IrritationPoint)
        if row.qualifier == ">"
    ]
    assert found
    for datum in found:
        assert datum.range.high is None
        assert datum.range.low_open
        assert datum.value is None
        assert datum.printed.startswith("> ")


@pytest.mark.parametrize(
    ("printed", "expected"),
    [
        (">93", Range(Fraction("366.15"), None, low_open=True)),
        ("36", Range.at(Fraction("309.15"))),
        ("50-58", Range.between(Fraction("323.15"), Fraction("331.15"))),
    ],
)
def test_ranges_of_flash_points_in_kelvin(printed, expected):
    found = {
        row.range
        for row in reference.rows_of(reference.OilProperty)
        if row.quantity == "flash point" and row.printed_value == printed
    }
    assert found <= {expected}
    if printed != "50-58":
        assert found


def test_words_come_without_a_figure():
    (verbena,) = (
        row
        for row in reference.rows_of(reference.IngredientLimit)
        if row.provision == "II/450"
    )
    assert verbena.datum.range is None
    assert verbena.datum.value is None
    assert verbena.datum.printed == "not permitted"


def test_preferred_figures_come_first_and_estimates_last():
    ethanol = reference.properties_of("64-17-5", "flash point")
    assert [datum.source_id for datum in ethanol] == [
        "iec-60079-20-1",
        "nfpa-497",
        "wikidata-2021",
        "serat-2017",
    ]
    cineole = reference.properties_of("470-82-6", "water solubility")
    assert [datum.tag for datum in cineole] == ["seen", "memory"]


def test_an_unknown_number_has_no_figures():
    assert reference.properties_of("50-00-0") == ()
    assert reference.vapour_pressures_of("50-00-0") == ()
    assert reference.vapour_fits_of("50-00-0") == ()
    assert reference.irritation_of("50-00-0") == ()


def test_every_figure_of_a_constituent_is_of_one_in_the_tables():
    for row_type in (
        reference.Property,
        reference.VapourPressure,
        reference.VapourFit,
        reference.BreathingIrritant,
    ):
        numbers = {row.cas for row in reference.rows_of(row_type)}
        assert numbers <= set(reference.constituents()), row_type


@pytest.mark.parametrize(
    "cas",
    # menthol (four numbers), menthone (four), pulegone, cineole, camphor (two),
    # thymol, carvacrol, citral, neral, cinnamal (two), methyl salicylate, l-limonene
    [
        *("1490-04-6", "2216-51-5", "89-78-1", "15356-60-2"),
        *("10458-14-7", "89-80-5", "14073-97-3", "491-07-6"),
        *("89-82-7", "470-82-6", "76-22-2", "464-49-3", "89-83-8", "499-75-2"),
        *("5392-40-5", "106-26-3", "104-55-2", "14371-10-9", "119-36-8"),
        "5989-54-8",
    ],
)
def test_breathing_irritants_by_every_number(cas):
    reasons = reference.why_irritant(cas)
    assert reasons
    assert all(row.says and row.source_id in reference.sources() for row in reasons)


def test_what_is_not_listed_has_no_reason():
    assert reference.why_irritant("56-81-5") == ()
    assert "56-81-5" not in reference.irritants()
