"""Equations against figures that a publication prints.

Limits in air: United States, 29 CFR 1910.1000(d); NIOSH, documentation of immediately
dangerous concentrations; ACGIH, Industrial Ventilation. Alcohol: United States
Pharmacopeia, alcoholometric table. Rooms: US CDC, MMWR 43 (RR-13), Table S3-1; a
textbook of environmental engineering; calculus exercises on mixing. Mixed vapours: a
textbook of process safety. Where only the question was read and the answer was worked
by hand, the test says so and compares with the hand's digits.
"""

import math
import re
from pathlib import Path

import numpy as np
import pytest

from blendcheck.equations import additivity, dilution, fizz, flash, saturation, transfer
from blendcheck.equations.room import Course, Stage
from blendcheck.equations.zones import OneZone, decay_time, steady_state
from blendcheck.reference import sources
from tests.published import Printed

pytestmark = pytest.mark.published

AT_20, AT_25 = 293.15, 298.15
PROPANOL = 60.10  # g/mol, as the NIOSH page prints it
OSHA = "osha-1910-1000"


def test_the_printed_figure_needs_a_reason_to_be_wider():
    with pytest.raises(ValueError, match="needs its reason"):
        Printed("1.0", "g", "memory", "none", widen="0.1")
    printed = Printed("1.0", "g", "memory", "none")
    assert printed.holds(1.049)
    assert printed.holds(0.951)
    assert not printed.holds(1.051)
    assert not printed.holds(0.949)


def test_every_source_is_in_the_table():
    text = Path(__file__).read_text("utf-8")
    named = re.findall(r'Printed\(\s*[^,]+,\s*"[^"]+",\s*(?:"([^"]+)"|OSHA)', text)
    named = {name for name in named if name} | {OSHA}
    assert len(named) >= 8
    assert named <= set(sources())


# -- limits in air -------------------------------------------------------------------


def test_average_over_a_shift():
    printed = Printed("81.25", "ppm", OSHA, "(d)(1)(i), example")
    assert printed.holds(additivity.time_weighted_average([150, 75, 50], [2, 2, 4]))


def test_sum_of_fractions():
    printed = Printed("0.925", "-", OSHA, "(d)(2)(i), example")
    assert printed.holds(additivity.hazard_sum([500, 45, 40], [1000, 200, 200]))


PAIRS = [
    # ppm, g/mol, K, printed mg/m3
    (1.000, 40.0, AT_25, Printed("1.635", "mg/m3", "acgih-iv-23", "conversion")),
    (400, PROPANOL, AT_25, Printed("983", "mg/m3", "niosh-isopropanol", "1993 TLV")),
    (500, PROPANOL, AT_25, Printed(
        "1230", "mg/m3", "niosh-isopropanol", "1993 STEL",
        widen="4.5", why_wider="the source rounds to three digits",
    )),
    (100, 136.0, AT_25, Printed("556", "mg/m3", "niosh-turpentine", "conversion")),
]  # fmt: skip


@pytest.mark.parametrize(("ppm", "mass", "kelvin", "printed"), PAIRS)
def test_ppm_in_mg_per_m3(ppm, mass, kelvin, printed):
    assert printed.holds(additivity.mg_per_m3_from_ppm(ppm, mass, temperature=kelvin))


def test_molar_volume_of_the_hygienists():
    printed = Printed(
        "24.45", "L/mol", "acgih-iv-23", "conversion, 25 degC and 1 atm",
        widen="0.012", why_wider="the source scales 22.4 L/mol by 298/273: 24.451",
    )  # fmt: skip
    assert printed.holds(
        1e3 / additivity.mg_per_m3_from_ppm(1e3, 1.0, temperature=AT_25)
    )


def test_a_lethal_concentration_is_counted_at_20_degrees():
    # 190 g of 2-propanol evaporated in 30 min at 50 L/min: "about 50 700 ppm".
    given = 190e3 / (30 * 0.050)
    printed = Printed(
        "50700", "ppm", "niosh-isopropanol", "lethal concentration, about 50 700",
        widen="50", why_wider="the source rounds to hundreds",
    )  # fmt: skip
    assert printed.holds(
        additivity.ppm_from_mg_per_m3(given, PROPANOL, temperature=AT_20)
    )
    at_25 = additivity.ppm_from_mg_per_m3(given, PROPANOL, temperature=AT_25)
    assert not printed.holds(at_25)  # 51 560: the two temperatures are kept apart


def test_lower_limit_of_a_mixed_vapour():
    printed = Printed("2.751", "%", "crowl-louvar", "hexane, methane, ethylene")
    got = flash.le_chatelier_limit([0.24, 0.61, 0.15], [1.2, 5.3, 3.1])
    assert printed.holds(got)


# -- strengths -----------------------------------------------------------------------

ALCOHOL = [
    # % v/v, specific gravity at 15.56 degC, printed % w/w
    ("10", "0.9866", "8.05"),
    ("20", "0.9759", "16.27"),
    ("30", "0.9653", "24.67"),
]


@pytest.mark.parametrize(("volume", "gravity", "mass"), ALCOHOL)
def test_ethanol_by_mass(volume, gravity, mass):
    printed = Printed(
        mass, "% w/w", "usp-alcoholometric", f"row {volume} % v/v",
        widen="0.005", why_wider="gravities are printed to four digits",
    )  # fmt: skip
    got = dilution.mass_fraction_from_volume_fraction(
        float(volume) / 100, density=0.7936, solution_density=float(gravity)
    )
    assert printed.holds(100 * got)


def test_rubbing_alcohol_by_mass():
    # 70 % v/v: density 0.8757 of the solution (from memory), inside the limits 0.872
    # to 0.883 (20 degC) that the pharmacopeia sets for 68 to 72 % v/v.
    got = dilution.mass_fraction_from_volume_fraction(
        0.70, density=0.7854, solution_density=0.8757
    )
    assert float(got) == pytest.approx(0.628, abs=5e-4)


def test_mixing_and_alligation():
    # Pharmacy calculation: 3 000 mL of 40 %, 1 000 mL of 60 % and of 70 % give 50 %;
    # 95 % and 50 % to 70 % in 20 : 25 parts; 70 % and 20 % to 30 % in 1 : 4.
    mixed = 100 * dilution.mixed_fraction([3000, 1000, 1000], [0.4, 0.6, 0.7])
    assert Printed("50", "%", "pharmacy-alligation", "3 000 + 1 000 + 1 000 mL").holds(
        mixed
    )
    assert 45 * float(dilution.alligation_share(0.95, 0.50, 0.70)) == pytest.approx(20)
    assert 5 * float(dilution.alligation_share(0.70, 0.20, 0.30)) == pytest.approx(1)


def test_a_solution_by_mass():
    # 3 000 g of 5 % sodium chloride: 150 g and 2 850 g of water.
    assert float(dilution.mixed_fraction([150, 2850], [1.0, 0.0])) == 0.05


# -- rooms ---------------------------------------------------------------------------

PURGE = {
    # air changes an hour: minutes to remove 90, 99 and 99.9 %
    2: ("69", "138", "207"), 6: ("23", "46", "69"), 8: ("17", "35", "52"),
    10: ("14", "28", "41"), 12: ("12", "23", "35"), 15: ("9", "18", "28"),
    20: ("7", "14", "21"), 50: ("3", "6", "8"),
}  # fmt: skip


@pytest.mark.parametrize("changes", PURGE)
def test_time_to_purge_a_room(changes):
    for left, text in zip((0.1, 0.01, 0.001), PURGE[changes], strict=True):
        printed = Printed(text, "min", "mmwr-43-rr13", f"Table S3-1, {changes} ACH")
        assert printed.holds(60 * decay_time(1.0, left, changes))


def test_smoke_in_a_bar():
    # 500 m3, 1 000 m3/h, 50 smokers, 2 cigarettes an hour, 1.40 mg of formaldehyde
    # each, which reacts at 0.40 /h; clean at first. The hour is from memory.
    bar = OneZone(500.0, 1000 / 500 + 0.40)
    made = 50 * 2 * 1.40
    steady = Printed("0.117", "mg/m3", "masters-environmental", "bar, steady state")
    assert steady.holds(steady_state(bar, made)[0])
    after = Printed("0.106", "mg/m3", "memory", "the same textbook, after 1 h")
    assert after.holds(Course([Stage(bar, 1.0, emission=made)]).at(1.0)[0])


def test_carbon_monoxide_leaves_a_room():
    # An exercise on a public page: 12 x 8 x 8 ft, 100 cubic feet a minute, from 3 % to
    # 0.01 %: 43.8 min.
    minutes = decay_time(3.0, 0.01, 100 / (12 * 8 * 8))
    assert float(minutes) == pytest.approx(43.8, abs=0.05)


def test_air_that_is_not_clean_comes_in():
    # A calculus exercise: 180 m3, 2 m3/min, carbon dioxide from 0.25 %, incoming
    # 0.05 %: 0.05 + 0.20 exp(-t/90), t in minutes.
    room = OneZone(180.0, 60 * 2 / 180)
    hours = np.array([0.0, 0.5, 1.5, 4.0])
    got = Course([Stage(room, 4.0, emission=120 * 0.05)], 0.25).at(hours)[:, 0]
    assert got == pytest.approx(0.05 + 0.20 * np.exp(-60 * hours / 90), rel=1e-12)
    time = decay_time(0.25, 0.15, 120 / 180, background=0.05)
    assert 60 * float(time) == pytest.approx(90 * math.log(2), rel=1e-12)


# -- fizz ----------------------------------------------------------------------------
# School exercises print the equation 3 NaHCO3 + C6H8O7 -> Na3C6H5O7 + 3 H2O + 3 CO2
# and these masses; the answers were worked by hand with 84.007, 192.124 (monohydrate
# 210.138) and 44.0095 g/mol.

EXERCISES = [
    # bicarbonate, citric acid (g): gas (g)
    (1.00, 1.00, 0.524),
    (1.30, 1.30, 0.681),
    (0.920, 0.701, 0.482),
    (2.5, 5.0, 1.31),
]


@pytest.mark.parametrize(("base", "acid", "gas"), EXERCISES)
def test_exercises(base, acid, gas):
    result = fizz.fizz(base, {"citric acid": acid})
    places = 2 if gas > 1 else 3
    assert float(result.carbon_dioxide) == pytest.approx(gas, abs=0.51 * 10**-places)


def test_one_gram_with_one_gram():
    result = fizz.fizz(1.00, {"citric acid": 1.00})
    assert float(result.acid_left["citric acid"]) == pytest.approx(0.238, abs=5e-4)
    assert float(result.bicarbonate_left) == 0
    # 0.49 g were weighed: 93.5 % of it.
    yielded = 100 * 0.49 / float(result.carbon_dioxide)
    assert yielded == pytest.approx(93.5, abs=0.05)


YIELDS = [
    # bicarbonate to anhydrous citric acid by mass; per gram: mmol, mL at 25 and 40
    # degC, bicarbonate and acid left (g). By hand too.
    (1.0, 5.952, 145.6, 152.9, 0.0, 0.119),
    (1.5, 6.246, 152.8, 160.5, 0.075, 0.0),
    (2.0, 5.205, 127.3, 133.7, 0.229, 0.0),
    (3.0, 3.904, 95.5, 100.3, 0.422, 0.0),
    (4.0, 3.123, 76.4, 80.2, 0.538, 0.0),
]


@pytest.mark.parametrize(("ratio", "mmol", "at25", "at40", "base", "acid"), YIELDS)
def test_gas_of_a_gram_of_powder(ratio, mmol, at25, at40, base, acid):
    result = fizz.fizz(ratio / (1 + ratio), {"citric acid": 1 / (1 + ratio)})
    gas = float(result.carbon_dioxide)
    assert 1e3 * gas / fizz.CARBON_DIOXIDE == pytest.approx(mmol, abs=6e-4)
    assert 1e3 * float(fizz.gas_volume(gas, temperature=298.15)) == (
        pytest.approx(at25, abs=0.06)
    )
    assert 1e3 * float(fizz.gas_volume(gas, temperature=313.15)) == (
        pytest.approx(at40, abs=0.06)
    )
    assert float(result.bicarbonate_left) == pytest.approx(base, abs=6e-4)
    assert float(result.acid_left["citric acid"]) == pytest.approx(acid, abs=6e-4)


def test_ratio_at_which_nothing_is_left():
    for name, expected in (("citric acid", 1.312), ("citric acid monohydrate", 1.199)):
        acid = fizz.ACIDS[name]
        ratio = acid.protons * fizz.BICARBONATE / acid.molar_mass
        assert ratio == pytest.approx(expected, abs=5e-4)
        result = fizz.fizz(ratio, {name: 1.0})
        assert float(result.protons_left) == pytest.approx(0, abs=1e-12)
        assert float(result.bicarbonate_left) == pytest.approx(0, abs=1e-9)


# -- into the air --------------------------------------------------------------------


def test_ends_that_the_transfer_was_calibrated_on():
    # Moya (1999): in a shower 6.3 % of the acetone and 80 % of the cyclohexane leave.
    # These set the two constants: a check of the calibration, not of the model.
    # Henry solubility of acetone from memory: 0.27 mol/(m3 Pa) and 5500 K.
    acetone = transfer.air_water_ratio(transfer.solubility_at(313.15, 0.27, 5500),
                                       313.15)  # fmt: skip
    assert float(transfer.transfer_fraction(acetone)) == pytest.approx(0.063, abs=0.03)
    assert float(transfer.transfer_fraction(1e6)) == pytest.approx(0.80, abs=0.005)


SHOWERS = [
    # water (ug/L), air at the end of a controlled 10-min shower (ug/m3): medians of
    # two sites, source of 2005 (EHP 113, 863), chloroform
    (148.0, 318.0),
    (28.0, 67.0),
]


@pytest.mark.parametrize(("water", "measured"), SHOWERS)
def test_chloroform_in_showers(water, measured):
    """Not calibrated on: the mean is within a factor of two, here 1.1 to 1.3 high.

    Flow and room are not in the source: 8 L/min and 10 m3 at 1 air change an hour.
    """
    # Henry solubility of chloroform from memory: 2.4e-3 mol/(m3 Pa) and 4000 K.
    ratio = transfer.air_water_ratio(
        transfer.solubility_at(313.15, 2.4e-3, 4000.0), 313.15
    )
    released = 8 * 60 * water * float(transfer.transfer_fraction(ratio))  # ug/h
    shower = Stage(OneZone(10.0, 1.0), 1 / 6, emission=released)
    mean = float(Course([shower]).mean(0.0, 1 / 6)[0])
    print(f"chloroform: mean {mean:.0f} ug/m3, measured {measured:.0f}, "
          f"ratio {mean / measured:.2f}")  # fmt: skip
    assert 0.5 < mean / measured < 2


def test_air_saturated_with_menthol():
    # 4.5 Pa of the sub-cooled liquid at 25 degC (Keating 2017): by hand 284 mg/m3.
    got = saturation.saturation_concentration(4.5, 156.269, 298.15)
    assert float(got) == pytest.approx(284, abs=0.5)
