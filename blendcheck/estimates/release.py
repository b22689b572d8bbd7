"""How much of a constituent leaves a dissolving piece, by the three ways into air.

From a film of oil and the wet surface of the piece, at the temperature of the water;
carried by the bubbles of the fizz; and from what dissolves. Each way is a range, and
together they run up to full release, which is the bound. An emulsifier slows all three
and is left out: it never makes a result smaller.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Literal

import numpy as np

from blendcheck import reference
from blendcheck.equations.arrays import FloatArray
from blendcheck.equations.constants import ZERO_CELSIUS
from blendcheck.equations.saturation import saturation_concentration
from blendcheck.equations.transfer import equilibrium_fraction
from blendcheck.estimates.pressures import Pressure, pressure_of, pressures_of
from blendcheck.estimates.setting import ShowerSetting
from blendcheck.estimates.ways import (
    Ratio,
    carried_part,
    dissolved_part,
    film_part,
    molar_mass_of,
    ratio_of,
)
from blendcheck.quantity import Mark, print_estimate

__all__ = ["Release", "Way", "release_of"]


@dataclass(frozen=True, slots=True, eq=False)
class Way:
    """One way into the air: the part that goes it, as a range, at every setting.

    Parameters
    ----------
    name : {"film", "gas", "water"}
        From film and wet surface, carried by gas, from what dissolves.
    low, middle, high : array
        Part of the mass that leaves. [-] The middle is NaN where nothing is known.
    """

    name: Literal["film", "gas", "water"]
    low: FloatArray
    middle: FloatArray
    high: FloatArray


@dataclass(frozen=True, slots=True, eq=False)
class Release:
    """What leaves of one constituent, at every setting of a grid.

    Parameters
    ----------
    cas : str
        Whose it is.
    ways : tuple of Way
        The three ways.
    low, central, high : array
        Part of the mass that reaches the air while the piece dissolves, 0 to 1; the
        central value is NaN where no vapour pressure is known, and the range is then
        none to all. [-]
    ceiling : array
        Saturated vapour of the liquid alone at the temperature of the water, at the
        high end of its pressure; infinite where none is known. [mg/m3]
    pressure : Pressure or None
        At the first setting.
    lines, sources : tuple of str
        Figures that went in; source ids.
    marks : frozenset of Mark
        Doubts.
    """

    cas: str
    ways: tuple[Way, ...]
    low: FloatArray
    central: FloatArray
    high: FloatArray
    ceiling: FloatArray
    pressure: Pressure | None
    lines: tuple[str, ...]
    sources: tuple[str, ...]
    marks: frozenset[Mark]

    @property
    def is_known(self) -> bool:
        """Whether there is a central value."""
        return not bool(np.isnan(self.central).any())


def release_of(
    cas: str, settings: Sequence[ShowerSetting], gas_m3_per_mol: float
) -> Release:
    """Estimate what leaves of a constituent.

    Parameters
    ----------
    cas : str
        A CAS number of the table of constituents.
    settings : sequence of ShowerSetting
        At least one.
    gas_m3_per_mol : float
        Volume of the fizz's gas for each mole of scented oil, at the temperature of
        the first setting, >= 0. [m3/mol]

    Returns
    -------
    Release
        The same for a constituent whatever else is in the blend, so that two
        recipes differ by their grams alone.

    Raises
    ------
    DomainError
        If ``gas_m3_per_mol`` is negative.

    Notes
    -----
    A share of what there is stays a film, the rest dissolves; the middle takes half
    each (own choice), the range takes all of it by the lesser and by the greater way.
    The gas takes its part of either. Raoult's law with activity coefficients of 1;
    the uncertainty of the pressure is in the range.
    """
    settings = tuple(settings)
    film, water, found = _without_gas(cas, settings)
    gas = _gas(cas, settings, gas_m3_per_mol)
    if not found.is_known:
        return replace(found, ways=(film, gas, water))
    low = np.minimum(film.low, water.low)
    high = 1 - (1 - np.maximum(film.high, water.high)) * (1 - gas.high)
    half = np.where(
        np.isnan(water.middle), film.middle, (film.middle + water.middle) / 2
    )
    central = 1 - (1 - half) * (1 - gas.middle)
    return replace(found, ways=(film, gas, water), low=low, central=central, high=high)


@lru_cache(maxsize=4096)
def _without_gas(
    cas: str, settings: tuple[ShowerSetting, ...]
) -> tuple[Way, Way, Release]:
    water_c = np.array([s.water_c for s in settings])
    pressures = pressures_of(cas, water_c)
    nothing, all_of_it = np.zeros(water_c.shape), np.ones(water_c.shape)
    unknown = np.full(water_c.shape, np.nan)
    name = reference.constituents()[cas].name
    if pressures is None:
        film = Way("film", nothing, unknown, all_of_it)
        water = Way("water", nothing, unknown, all_of_it)
        says = f"{name}: no vapour pressure is known, so only full release is shown"
        none = Release(
            cas, (), nothing, unknown, all_of_it, np.full(water_c.shape, np.inf), None,
            (says,), (), frozenset({Mark.ESTIMATED}),
        )  # fmt: skip
        return film, water, none
    film = _film(settings, *pressures)
    ratio = ratio_of(cas, settings)
    water = _water(settings, ratio)
    pressure = pressure_of(cas, settings[0].water_c)
    kelvin = water_c + ZERO_CELSIUS
    ceiling = saturation_concentration(
        pressures[0] * pressures[1], molar_mass_of(cas), kelvin
    )
    lines = (
        *((pressure.says,) if pressure is not None else ()),
        _line(f"{name} from film and wet surface", film),
        *(() if ratio is None else (f"{name} in air over in water: {ratio.says}",)),
        _line(f"{name} from what dissolves", water),
    )
    marks = {Mark.ESTIMATED, Mark.FROM_MEMORY}  # the transfer in air is from memory
    sources = (
        *(() if pressure is None else pressure.sources),
        *(() if ratio is None else ratio.sources),
        "moya-1999",
    )
    found = Release(
        cas, (), nothing, film.middle, all_of_it, ceiling, pressure, lines,
        tuple(dict.fromkeys(sources)), frozenset(marks),
    )  # fmt: skip
    return film, water, found


def _line(what: str, way: Way) -> str:
    low, high = (100 * float(end[0]) for end in (way.low, way.high))
    return f"{what}: {_percent(low)} to {_percent(high)} %"


def _percent(number: float) -> str:
    return print_estimate(number, digits=1)


# -- film and wet surface ----------------------------------------------------


def _film(
    settings: tuple[ShowerSetting, ...], pascals: FloatArray, factor: FloatArray
) -> Way:
    kelvin = np.array([s.kelvin for s in settings])
    hours = np.array([s.dissolving_min for s in settings]) / 60
    return Way(
        "film",
        film_part(pascals / factor, kelvin, hours, 0.0),
        film_part(pascals, kelvin, hours, 0.5),
        film_part(pascals * factor, kelvin, hours, 1.0),
    )


# -- what dissolves ----------------------------------------------------------


def _water(settings: tuple[ShowerSetting, ...], ratio: Ratio | None) -> Way:
    size = len(settings)
    if ratio is None:
        return Way("water", np.zeros(size), np.full(size, np.nan), np.ones(size))
    flow = np.array([s.flow_l_per_min for s in settings])
    minutes = np.array([s.dissolving_min for s in settings])
    stall = np.array([s.stall_m3 for s in settings])
    changes = np.array([s.stall_changes for s in settings])
    low, middle, high = (
        dissolved_part(each, flow) for each in (ratio.low, ratio.middle, ratio.high)
    )
    most = equilibrium_fraction(
        ratio.high,
        air_volume=stall * (1 + changes * minutes / 60),
        water_volume=flow * minutes / 1000,
    )
    # A solubility that nobody read bounds nothing: full release does.
    top = np.ones(size) if ratio.memory else np.maximum(high, most)
    return Way("water", low, middle, top)


# -- carried by the fizz -----------------------------------------------------


def _gas(cas: str, settings: tuple[ShowerSetting, ...], m3_per_mol: float) -> Way:
    """Return what bubbles carry out of the oil: none, half of it, or saturated."""
    water_c = np.array([s.water_c for s in settings])
    found = pressures_of(cas, water_c)
    kelvin = water_c + ZERO_CELSIUS
    if found is None:
        high = np.ones(water_c.shape) if m3_per_mol else np.zeros(water_c.shape)
        return Way("gas", np.zeros(water_c.shape), np.full(water_c.shape, np.nan), high)
    pascals, factor = found
    volume = m3_per_mol * kelvin / kelvin[0]

    return Way(
        "gas",
        np.zeros(water_c.shape),
        carried_part(pascals, kelvin, volume) / 2,
        carried_part(pascals * factor, kelvin, volume),
    )
