"""Vapour pressures of constituents: the right way of knowing, and close to rivals."""

import math

import numpy as np
import pytest

from blendcheck import reference
from blendcheck.errors import DomainError
from blendcheck.estimates import branches, points
from blendcheck.estimates.pressures import curve_of, pressure_of, pressures_of
from blendcheck.quantity import Mark
from tests.reference.fits import METHODS, factor, in_library


def known(cas, celsius=25.0):
    found = pressure_of(cas, celsius)
    assert found is not None
    return found


# ---- the order: measured, compiled, estimated --------------------------------------


@pytest.mark.published
@pytest.mark.parametrize(
    ("cas", "pascals", "source"),
    # Espinosa Diaz and others, Fluid Phase Equilibria 157, 257 (1999), static method;
    # Kozlovskiy and others (2015) and Keating and others (2017), J. Chem. Thermodyn.,
    # correlation gas chromatography. At 25 degC.
    [
        ("78-70-6", 27.0, "espinosa-1999"),  # linalool
        ("5989-27-5", 200.0, "espinosa-1999"),  # d-limonene
        ("115-95-7", 12.2, "kozlovskiy-2015"),  # linalyl acetate
        ("89-78-1", 4.5, "keating-2017"),  # dl-menthol, sub-cooled liquid
        ("515-69-5", 0.020, "keating-2017"),  # bisabolol: no boiling point, by its heat
    ],
)
def test_a_measured_row_comes_first_and_unchanged(cas, pascals, source):
    found = known(cas)
    assert found.how == "measured"
    assert found.pascals == pytest.approx(pascals, rel=1e-9)
    assert found.sources[0] == source
    assert found.tag == "seen"
    assert found.low < pascals < found.high


@pytest.mark.published
def test_coefficients_give_what_handbooks_print():
    # Ethanol 7.87 kPa and 2-propanol 6.02 kPa at 25 degC, water 3.169 kPa: CRC Handbook
    # of Chemistry and Physics, 95th edition, 6-88 to 6-109 (from memory).
    for cas, pascals in (("64-17-5", 7870), ("67-63-0", 6020), ("7732-18-5", 3169)):
        found = known(cas)
        assert found.how == "compiled"
        assert factor(found.pascals, pascals) < 1.05
        assert found.low < pascals < found.high


@pytest.mark.parametrize(
    ("cas", "celsius", "how"),
    [
        ("78-70-6", 25.0, "measured"),
        ("78-70-6", 49.0, "measured"),
        ("78-70-6", 80.0, "measured"),  # no coefficients: the row moved further
        ("115-95-7", 49.0, "measured"),
        ("115-95-7", 60.0, "compiled"),  # coefficients from 329 K
        ("470-82-6", 25.0, "compiled"),
        ("76-22-2", 25.0, "estimated"),  # coefficients begin at 451 K
        ("76-22-2", 190.0, "compiled"),
        ("14073-97-3", 25.0, "estimated"),  # l-menthone
    ],
)
def test_the_branch_is_the_first_that_holds_at_the_temperature(cas, celsius, how):
    assert known(cas, celsius).how == how


def test_figures_from_memory_or_of_unstated_method_do_not_count_as_measured():
    # Menthone 34 Pa and methyl salicylate 4.6 Pa are tabled from memory, camphor's
    # crystals without a method.
    assert known("89-80-5").how == "estimated"
    assert known("119-36-8").how == "compiled"
    assert known("76-22-2").how == "estimated"


def test_nothing_known_is_none_and_not_zero():
    for cas in ("494-90-6", "9005-65-6", "144-55-8", "50-00-0"):  # menthofuran ...
        assert pressure_of(cas, 25.0) is None
        assert pressures_of(cas, [25.0]) is None
        assert curve_of(cas) is None


def test_a_temperature_must_be_one():
    with pytest.raises(DomainError):
        pressure_of("78-70-6", math.nan)


# ---- liquids that are crystals alone ------------------------------------------------


def test_a_dissolved_solid_counts_as_its_subcooled_liquid():
    menthol = known("2216-51-5")
    assert menthol.phase == "sub-cooled liquid"
    assert menthol.of == "89-78-1"  # the racemate was measured as a liquid
    assert known("2216-51-5", 60.0).phase == "liquid"
    assert known("78-70-6").phase == "liquid"


@pytest.mark.published
def test_camphor_stands_above_its_crystals():
    # 26.7 Pa (20 degC) and 86.7 Pa (25 degC) are quoted for the crystals, read as 30 to
    # 90 Pa; a liquid below its melting point stands above its crystal.
    assert known("464-49-3").high > 30


def test_antoine_constants_are_not_used_below_the_melting_point():
    for cas in reference.constituents():
        melting = points.melting_point(cas)
        for branch in branches.branches_of(cas):
            antoine = set(branch.sources) & {"landolt-antoine", "nist-webbook"}
            if branch.how == "compiled" and antoine and branch.of == cas and melting:
                assert branch.low >= melting


# ---- uncertainty --------------------------------------------------------------------


def test_a_measured_pressure_gets_less_certain_as_it_is_moved():
    factors = [known("78-70-6", t).factor for t in (25.0, 35.0, 45.0, 80.0)]
    assert factors == sorted(factors)
    assert factors[0] == branches.MEASURED_FACTOR < factors[-1]


def test_an_estimate_is_uncertain_and_says_so():
    found = known("14073-97-3")
    assert found.factor == pytest.approx(2.6, rel=0.01)
    assert "estimated from the boiling point" in found.says
    assert "2.6" in found.says
    # Fishtine's factors are from memory.
    assert found.marks == {Mark.ESTIMATED, Mark.FROM_MEMORY}
    near = known("562-74-3", 205.0)  # terpinen-4-ol, near its boiling point
    assert (near.how, near.factor) == ("estimated", branches.MEASURED_FACTOR)


@pytest.mark.published
def test_estimates_hold_what_was_measured_and_compiled(record_property):
    """The last branch where a better one can judge it: most lie inside its factor."""
    inside, total, logs = 0, 0, []
    for cas in reference.constituents():
        all_of_them = branches.branches_of(cas)
        estimate = [b for b in all_of_them if b.how == "estimated" and b.of == cas]
        better = [
            b
            for b in all_of_them
            if b.how != "estimated" and b.of == cas and b.low <= 298.15 <= b.high
        ]
        if not estimate or not better:
            continue
        at = np.asarray(298.15)
        apart = math.log(float(estimate[0].curve(at)) / float(better[0].curve(at)))
        logs.append(apart)
        total += 1
        inside += abs(apart) <= math.log(float(estimate[0].factor(at)))
        if abs(apart) > math.log(2.6):
            print(reference.constituents()[cas].name, round(math.exp(apart), 2))
    rms = math.exp(math.sqrt(sum(each**2 for each in logs) / total))
    record_property("estimates", (total, inside, rms))
    print(f"{inside} of {total} inside the factor, root mean square factor {rms:.2f}")
    assert total >= 30
    assert inside >= 0.9 * total


@pytest.mark.published
def test_compiled_pressures_are_those_of_the_library_inside_its_range():
    """The preferred coefficients against the same method of thermo, at 25 degC."""
    compared = 0
    for cas in reference.constituents():
        found = pressure_of(cas, 25.0)
        if found is None or found.how != "compiled" or found.of != cas:
            continue
        for source, method in METHODS.items():
            theirs = in_library(cas, method, 298.15)
            if theirs is None or source not in found.sources:
                continue
            assert factor(found.pascals, theirs) < 1 + 1e-6, (cas, source)
            compared += 1
    assert compared > 40


# ---- many temperatures, and smooth curves ------------------------------------------


def test_many_temperatures_are_the_same_as_one_by_one():
    celsius = np.linspace(0.0, 120.0, 25)
    for cas in ("78-70-6", "115-95-7", "555-10-2", "64-17-5"):
        pascals, factors = pressures_of(cas, celsius)
        for t, p, f in zip(celsius, pascals, factors, strict=True):
            one = known(cas, float(t))
            assert (one.pascals, one.factor) == pytest.approx((p, f), rel=1e-12)


def test_curves_rise_smoothly_over_the_whole_range():
    kelvin = np.linspace(200.0, 480.0, 561)
    curves = [c for c in map(curve_of, reference.constituents()) if c is not None]
    assert len(curves) > 130
    for curve in curves:
        logs = np.log(curve(kelvin))
        slope = np.diff(logs) / np.diff(1 / kelvin)
        assert np.all(slope < 0), curve.cas
        # No jump: the slope over 1/T changes little from one half kelvin to the next.
        jump = np.abs(np.diff(slope)) / np.abs(slope[1:])
        assert float(jump.max()) < 0.05, (curve.cas, curve.branch.says)


def test_a_curve_is_its_branch_inside_the_range():
    curve = curve_of("64-17-5")
    kelvin = np.linspace(280.0, 350.0, 8)
    expected, _ = pressures_of("64-17-5", kelvin - 273.15)
    assert curve(kelvin) == pytest.approx(expected, rel=1e-12)
