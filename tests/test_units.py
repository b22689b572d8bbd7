"""Conversions against the figures that NIST prints, and against SciPy."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import constants

from blendcheck import units

# NIST Special Publication 811 (2008), Appendix B.8 and B.9. Figures in bold there
# are exact; the others are rounded to seven digits.
PRINTED = [
    # printed figure, power of ten, our value in that unit, row of the table
    ("4.535 924", -1, units.GRAMS_PER["lb"] / 1000, "pound (avoirdupois) to kg"),
    ("2.834 952", -2, units.GRAMS_PER["oz"] / 1000, "ounce (avoirdupois) to kg"),
    ("2.957 353", 1, units.MILLILITRES_PER["US fl oz"], "fluid ounce (U.S.) to mL"),
    ("2.841 306", 1, units.MILLILITRES_PER["imp fl oz"], "ounce (U.K. fluid) to mL"),
    ("4.928 922", 0, units.MILLILITRES_PER["tsp"], "teaspoon to mL"),
    ("1.478 676", 1, units.MILLILITRES_PER["tbsp"], "tablespoon to mL"),
    ("2.365 882", -1, units.MILLILITRES_PER["tbsp"] * 16 / 1000, "cup (U.S.) to L"),
    ("3.785 412", 0, units.MILLILITRES_PER["US fl oz"] * 128 / 1000, "gallon (U.S.)"),
]
EXACT = [
    # footnote 22: exactly 0.453 592 37 kg
    ("0.453 592 37", units.GRAMS_PER["lb"] / 1000),
    # gallon (Canadian and U.K.): exactly 4.546 09 L
    ("4.546 09", units.MILLILITRES_PER["imp fl oz"] * 160 / 1000),
    ("273.15", -units.ABSOLUTE_ZERO),
]


def digits(text: str) -> Fraction:
    return Fraction(text.replace(" ", ""))


@pytest.mark.published
@pytest.mark.parametrize(("printed", "power", "ours", "row"), PRINTED)
def test_unit_rounds_to_the_printed_figure(printed, power, ours, row):
    places = len(printed.replace(" ", "").partition(".")[2])
    half = Fraction(1, 2 * 10**places)
    assert abs(ours / Fraction(10) ** power - digits(printed)) <= half, row


@pytest.mark.published
@pytest.mark.parametrize(("printed", "ours"), EXACT)
def test_unit_is_exactly_the_printed_figure(printed, ours):
    assert ours == digits(printed)


@pytest.mark.parametrize(
    ("ours", "scipy"),
    [
        (units.GRAMS_PER["lb"], constants.pound * 1e3),
        (units.GRAMS_PER["oz"], constants.oz * 1e3),
        (units.MILLILITRES_PER["US fl oz"], constants.fluid_ounce * 1e6),
        (units.MILLILITRES_PER["imp fl oz"], constants.fluid_ounce_imp * 1e6),
        (units.MILLILITRES_PER["L"], constants.liter * 1e6),
    ],
)
def test_unit_agrees_with_scipy(ours, scipy):
    assert float(ours) == pytest.approx(scipy, rel=1e-13)


def test_spoons_and_metric_units():
    assert units.MILLILITRES_PER["tbsp"] == 3 * units.MILLILITRES_PER["tsp"]
    assert units.MILLILITRES_PER["tsp"] == Fraction("4.92892159375")
    assert units.MILLILITRES_PER["metric tsp"] == 5  # common practice
    assert units.GRAMS_PER["kg"] == 1000 == 1 / units.GRAMS_PER["mg"]
    assert units.OUNCES_PER_POUND * units.GRAMS_PER["oz"] == units.GRAMS_PER["lb"]


# NIST SP 811 (2008), B.8: T/K = (t/degF + 459.67)/1.8
@pytest.mark.published
@given(st.fractions())
def test_fahrenheit_to_kelvin_is_the_printed_formula(fahrenheit):
    printed = (fahrenheit + Fraction("459.67")) / Fraction("1.8")
    celsius = units.celsius_from_fahrenheit(fahrenheit)
    assert units.kelvin_from_celsius(celsius) == printed


# The scales meet at -40; water boils at 212 degF = 100 degC: definitions.
@pytest.mark.parametrize(("fahrenheit", "celsius"), [(-40, -40), (32, 0), (212, 100)])
def test_fahrenheit_fixed_points(fahrenheit, celsius):
    assert units.celsius_from_fahrenheit(Fraction(fahrenheit)) == celsius


@given(st.fractions())
def test_temperatures_convert_back(value):
    there = units.celsius_from_fahrenheit(value)
    assert units.fahrenheit_from_celsius(there) == value
    assert units.celsius_from_kelvin(units.kelvin_from_celsius(value)) == value
    assert float(there) == pytest.approx(
        constants.convert_temperature(float(value), "F", "C"), rel=1e-12, abs=1e-9
    )


# M. Tanaka et al., Metrologia 38 (2001) 301, doi 10.1088/0026-1394/38/4/3: the formula
# a5 [1 - (t + a1)^2 (t + a2) / (a3 (t + a4))] with its printed constants, kg/m3.
A1, A2, A3, A4, A5 = map(
    Fraction, ("-3.983035", "301.797", "522528.9", "69.34881", "999.97495")
)


@pytest.mark.published
@pytest.mark.parametrize("celsius", sorted(units.WATER_G_PER_ML))
def test_density_of_water_is_the_printed_formula(celsius):
    formula = A5 * (1 - (celsius + A1) ** 2 * (celsius + A2) / (A3 * (celsius + A4)))
    # seven decimals of g/mL are kept: half a unit of the last
    assert abs(units.WATER_G_PER_ML[celsius] - formula / 1000) <= Fraction(1, 2 * 10**7)


def test_reference_water_is_the_lightest_of_the_table():
    assert min(units.WATER_G_PER_ML.values()) == units.WATER_REFERENCE_LOW


def test_everything_is_listed_in_order():
    assert list(units.__all__) == sorted(units.__all__)
