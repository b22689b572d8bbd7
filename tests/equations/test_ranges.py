"""Every number that is no number, or outside its range, is refused.

For each public function: arguments that it takes, and for each of them a value just
inside and one just outside, besides NaN. A new public function fails here until it
has its line.
"""

import importlib
import inspect
import math
from pathlib import Path

import numpy as np
import pytest

from blendcheck import equations
from blendcheck.equations import (
    additivity,
    anchored,
    dilution,
    fizz,
    flash,
    room,
    saturation,
    transfer,
    vapour,
    zones,
)
from blendcheck.errors import DomainError

ROOM = zones.OneZone(10.0, 2.0)
AIR = {"temperature": 298.15}
CRITICAL = {"critical_temperature": 650.0, "critical_pressure": 2.6e6}
FIT = {"log_base": "e", "pressure_unit": "Pa", "temperature_unit": "K"}

# function: what it takes, and what is just outside for each argument that is a number
CASES = {
    additivity.mg_per_m3_from_ppm: (
        {"ppm": 0.0, "molar_mass": 40.0, **AIR, "pressure": 101_325.0},
        {"ppm": -1e-9, "molar_mass": 0.0, "temperature": 0.0, "pressure": 0.0},
    ),
    additivity.ppm_from_mg_per_m3: (
        {"concentration": 0.0, "molar_mass": 40.0, **AIR, "pressure": 101_325.0},
        {"concentration": -1e-9, "molar_mass": 0, "temperature": 0, "pressure": 0},
    ),
    additivity.time_weighted_average: (
        {"concentrations": [1.0, 0.0], "hours": [8.0, 0.0], "over": 8.0},
        {"concentrations": [1.0, -1e-9], "hours": [7.9, 0.0], "over": 0.0},
    ),
    additivity.hazard_sum: (
        {"concentrations": [1.0, 0.0], "limits": [2.0, 5.0]},
        {"concentrations": [1.0, -1e-9], "limits": [2.0, 0.0]},
    ),
    anchored.lee_kesler_acentric_factor: (
        {"boiling": 470.0, **CRITICAL},
        {"boiling": 650.1, "critical_temperature": 469.9, "critical_pressure": 0.0},
    ),
    anchored.lee_kesler_pressure: (
        {"temperature": 650.0, "acentric_factor": 0.5, **CRITICAL},
        {"temperature": 650.1, "acentric_factor": math.inf,
         "critical_temperature": 0.0, "critical_pressure": 0.0},
    ),
    anchored.modified_grain_pressure: (
        {"temperature": 298.15, "boiling": 470.0, "fishtine": 1.25},
        {"temperature": 705.0, "boiling": 0.0, "fishtine": 0.0},
    ),
    anchored.anchored_estimate: (
        {"temperature": 298.15, "boiling": 470.0, **CRITICAL, "fishtine": 1.25},
        {"temperature": 0.0, "boiling": 0.0, "critical_temperature": 0.0,
         "critical_pressure": 0.0, "fishtine": 0.0},
    ),
    anchored.anchored_bounds: ({"pressure": 0.0}, {"pressure": -1e-9}),
    dilution.mixed_fraction: (
        {"amounts": [1.0, 0.0], "fractions": [0.0, 1.0]},
        {"amounts": [0.0, 0.0], "fractions": [0.0, 1.01]},
    ),
    dilution.alligation_share: (
        {"strong": 1.0, "weak": 0.0, "wanted": 0.5},
        {"strong": 0.0, "weak": 1.0, "wanted": 1.1},
    ),
    dilution.mass_fraction_from_volume_fraction: (
        {"volume_fraction": 1.0, "density": 0.79, "solution_density": 0.79},
        {"volume_fraction": 1.1, "density": 0.0, "solution_density": 0.78},
    ),
    dilution.volume_fraction_from_mass_fraction: (
        {"mass_fraction": 1.0, "density": 0.79, "solution_density": 0.79},
        {"mass_fraction": -0.1, "density": 0.78, "solution_density": 0.0},
    ),
    dilution.largest_load_finished_held: (
        {"cap": 0.01, "finished": 100.0, "other": 0.0, "share": 1.0},
        {"cap": 1.01, "finished": 0.0, "other": -1e-9, "share": 0.0},
    ),
    dilution.largest_load_rest_held: (
        {"cap": 0.01, "rest": 100.0, "other": 0.0, "share": 1.0, "left": 1.0},
        {"cap": -0.01, "rest": 0.0, "other": -1e-9, "share": 1.1, "left": 1.1},
    ),
    fizz.fizz: (
        {"bicarbonate": 0.0, "acids": {"malic acid": 0.0}},
        {"bicarbonate": -1e-9, "acids": {"malic acid": -1e-9}},
    ),
    fizz.gas_volume: (
        {"mass": 0.0, **AIR, "molar_mass": 44.0, "pressure": 101_325.0},
        {"mass": -1e-9, "temperature": 0.0, "molar_mass": 0.0, "pressure": 0.0},
    ),
    flash.le_chatelier_limit: (
        {"fractions": [1.0, 0.0], "limits": [1.2, 5.3]},
        {"fractions": [0.9, 0.0], "limits": [1.2, 0.0]},
    ),
    saturation.saturation_concentration: (
        {"pressure": 0.0, "molar_mass": 136.2, **AIR},
        {"pressure": -1e-9, "molar_mass": 0.0, "temperature": 0.0},
    ),
    saturation.ceiling_concentration: (
        {"mass": 0.0, "volume": 2.0, "pressure": 0.0, "molar_mass": 136.2, **AIR,
         "mole_fraction": 1.0, "activity_coefficient": 0.0},
        {"mass": -1e-9, "volume": 0.0, "pressure": -1e-9, "molar_mass": 0.0,
         "temperature": 0.0, "mole_fraction": 1.01, "activity_coefficient": -0.1},
    ),
    transfer.solubility_at: (
        {"temperature": 313.15, "solubility": 4.8e-4, "slope": -10.0},
        {"temperature": 0.0, "solubility": 0.0, "slope": math.inf},
    ),
    transfer.air_water_ratio: (
        {"solubility": 4.8e-4, **AIR}, {"solubility": 0.0, "temperature": 0.0},
    ),
    transfer.transfer_fraction: (
        {"ratio": 0.0, "liquid_units": 1.6, "gas_units": 30.0},
        {"ratio": -1e-9, "liquid_units": 0.0, "gas_units": 0.0},
    ),
    transfer.equilibrium_fraction: (
        {"ratio": 0.0, "air_volume": 2.0, "water_volume": 0.08},
        {"ratio": -1e-9, "air_volume": 0.0, "water_volume": 0.0},
    ),
    transfer.film_rate: (
        {"pressure": 0.0, **AIR, "area": 0.01, "mass_transfer": 3.0,
         "activity_coefficient": 0.0, "oil_amount": 0.01},
        {"pressure": -1e-9, "temperature": 0.0, "area": 0.0, "mass_transfer": 0.0,
         "activity_coefficient": -1e-9, "oil_amount": 0.0},
    ),
    transfer.carried_by_gas: (
        {"mass": 0.0, "gas_volume": 0.0, "concentration": 0.0},
        {"mass": -1e-9, "gas_volume": -1e-9, "concentration": -1e-9},
    ),
    vapour.antoine_pressure: (
        {"temperature": 300.0, "a": 21.0, "b": 3700.0, "c": -60.0, **FIT},
        {"temperature": 60.0, "a": math.inf, "b": math.inf, "c": -300.0},
    ),
    vapour.clausius_clapeyron_pressure: (
        {"temperature": 310.0, "known": 298.15, "pressure": 4.5, "heat": 74e3},
        {"temperature": 0.0, "known": 0.0, "pressure": 0.0, "heat": 0.0},
    ),
    vapour.dippr_pressure: (
        {"temperature": 300.0, "a": 73.6, "b": -7258.2, "c": -7.3, "d": 4.2e-6,
         "e": 2.0},
        {"temperature": 0.0, "a": math.inf, "b": math.inf, "c": math.inf,
         "d": math.inf, "e": math.inf},
    ),
    vapour.subcooled_liquid_pressure: (
        {"solid_pressure": 1.0, "temperature": 298.15, "melting": 315.0,
         "entropy_of_fusion": 56.5},
        {"solid_pressure": 0.0, "temperature": 0.0, "melting": 0.0,
         "entropy_of_fusion": 0.0},
    ),
    vapour.thomson_pressure: (
        {"temperature": 300.0, "known": 298.15, "pressure": 200.0, "boiling": 450.0},
        {"temperature": 60.0, "known": 60.0, "pressure": 0.0, "boiling": 298.0},
    ),
    vapour.two_point_pressure: (
        {"temperature": 300.0, "first": (298.15, 4.5), "second": (313.15, 19.0)},
        {"temperature": 0.0, "first": (298.15, 0.0), "second": (298.15, 19.0)},
    ),
    vapour.wagner_pressure: (
        {"temperature": 513.9, "coefficients": (-8.7, 1.2, -4.9, 1.6),
         "critical_temperature": 513.9, "critical_pressure": 6.1e6, "form": "2.5-5"},
        {"temperature": 514.0, "coefficients": (-8.7, math.inf, -4.9, 1.6),
         "critical_temperature": 513.0, "critical_pressure": 0.0},
    ),
    zones.OneZone: ({"volume": 10.0, "loss": 0.0}, {"volume": 0.0, "loss": -1e-9}),
    zones.TwoZones: (
        {"stall_volume": 2.0, "bathroom_volume": 10.0, "exchange": 0.0,
         "outflow": 0.0, "stall_loss": 0.0, "bathroom_loss": 0.0},
        {"stall_volume": 0.0, "bathroom_volume": 0.0, "exchange": -1e-9,
         "outflow": -1e-9, "stall_loss": -1e-9, "bathroom_loss": -1e-9},
    ),
    zones.steady_state: ({"zone": ROOM, "emission": 0.0}, {"emission": -1e-9}),
    zones.decay_time: (
        {"start": 1.0, "target": 1.0, "loss": 2.0, "background": 0.0},
        {"start": 0.9, "target": 0.0, "loss": 0.0, "background": 1.0},
    ),
    zones.first_order_peak: (
        {"mass": 0.0, "rate": 1.0, "zone": ROOM}, {"mass": -1e-9, "rate": 0.0},
    ),
}  # fmt: skip

# Tested beside what they do: in test_activity, test_flash, test_room.
ELSEWHERE = {
    "Course", "Decaying", "ModifiedUnifac", "Stage", "divided_difference",
    "flash_point", "stands_above_one", "uncovered_pairs",
}  # fmt: skip
# They only carry results or constants.
NO_NUMBERS = {"Acid", "Fizz"}


def with_a_nan(value):
    """The same shape of argument with one number that is none."""
    if isinstance(value, dict):
        return dict.fromkeys(value, math.nan)
    if isinstance(value, tuple):
        return (value[0], math.nan, *value[2:])
    if isinstance(value, list):
        return [math.nan, *value[1:]]
    return math.nan


EACH = [(f, name) for f, (_, outside) in CASES.items() for name in outside]


def test_every_public_function_has_its_line():
    found = set()
    for path in Path(equations.__file__).parent.glob("*.py"):
        if path.stem in ("__init__", "arrays"):
            continue
        module = importlib.import_module(f"blendcheck.equations.{path.stem}")
        for name in module.__all__:
            value = getattr(module, name)
            if inspect.isclass(value) or inspect.isfunction(value):
                found.add(name)
    assert found == {f.__name__ for f in CASES} | ELSEWHERE | NO_NUMBERS


@pytest.mark.parametrize("function", CASES, ids=lambda f: f.__name__)
def test_every_number_of_it_is_tried(function):
    taken, outside = CASES[function]
    assert set(outside) <= set(taken)
    left = {n for n in taken if n not in outside}
    assert all(not isinstance(taken[n], int | float | list | tuple) for n in left), left
    function(**taken)  # just inside


@pytest.mark.parametrize(
    ("function", "argument"), EACH, ids=[f"{f.__name__}-{a}" for f, a in EACH]
)
def test_a_number_outside_its_range_is_refused(function, argument):
    taken, outside = CASES[function]
    with pytest.raises(DomainError, match="must be"):
        function(**(taken | {argument: outside[argument]}))
    with pytest.raises(DomainError, match="nan"):
        function(**(taken | {argument: with_a_nan(taken[argument])}))


@pytest.mark.parametrize(
    "argument", ["duration", "at_once", "emission", "mass", "rate"]
)
@pytest.mark.parametrize("bad", [-1.0, math.nan])
def test_a_stage_refuses_them_too(argument, bad):
    sources = {"mass": 1.0, "rate": 1.0} | {argument: bad}
    fields = {"duration": 1.0} | {argument: bad}
    decaying = [room.Decaying(sources["mass"], sources["rate"])]
    fields = {n: v for n, v in fields.items() if n not in ("mass", "rate")}
    with pytest.raises(DomainError, match=argument):
        room.Course([room.Stage(ROOM, decaying=decaying, **fields)])


@pytest.mark.parametrize("bad", [-1.0, math.nan, math.inf])
def test_a_course_refuses_times_and_levels_that_are_none(bad):
    course = room.Course([room.Stage(ROOM, 1.0)], 1.0)
    for ask in (course.at, course.time_below, lambda t: course.mean(0.0, t)):
        with pytest.raises(DomainError, match="must be"):
            ask(bad)
    with pytest.raises(DomainError, match="initial = "):
        room.Course([room.Stage(ROOM, 1.0)], bad)


def test_the_first_bad_number_of_an_array_is_named():
    with pytest.raises(DomainError, match=r"ppm = -2\.0 must be >= 0"):
        additivity.mg_per_m3_from_ppm(np.array([[1.0, -2.0], [-3.0, 1.0]]), 40.0, **AIR)
