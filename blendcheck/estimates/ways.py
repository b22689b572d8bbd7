"""The three ways of a scent into the air, each for one constituent.

From a film of oil, from what dissolves in the water, and carried by gas; what goes in
is a vapour pressure, an air-water ratio and the setting of the shower.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from blendcheck import reference
from blendcheck.equations.arrays import (
    FloatArray,
    Floats,
    fraction,
    not_negative,
    positive,
)
from blendcheck.equations.constants import GAS_CONSTANT, ZERO_CELSIUS
from blendcheck.equations.transfer import (
    GAS_UNITS,
    LIQUID_UNITS,
    air_water_ratio,
    carried_by_gas,
    film_rate,
    solubility_at,
    transfer_fraction,
)
from blendcheck.estimates.points import alike
from blendcheck.estimates.pressures import pressures_of
from blendcheck.estimates.setting import ShowerSetting
from blendcheck.quantity import print_estimate
from blendcheck.reference.figures import Datum

__all__ = [
    "OIL_MOLAR_MASS",
    "Ratio",
    "carried_part",
    "dissolved_part",
    "film_part",
    "molar_mass_of",
    "ratio_of",
]

OIL_MOLAR_MASS: Final = 150.0
"""Mean molar mass of a scented oil. [g/mol] Own choice: between a monoterpene (136)
and a sesquiterpene (204)."""

_MOLAR_VOLUME: Final = 1.6e-4
"""Molar volume of such an oil. [m3/mol] Own choice, 150 g/mol at 0.9 g/cm3."""

_THIN_FILM, _THICK_FILM = 2e-6, 2e-4
"""Film of oil: a gram spread over half a square metre of floor, and a gram on the
surface of the piece alone. [m] Own choice."""

_STILL_AIR, _MOVING_AIR = 2.0, 5.0
"""Mass transfer in the air above it. [m/h] From memory, the range indoors."""

_USUAL_FLOW: Final = 7.9
"""Flow at which the transfer units of falling water are taken to hold. [L/min] The
mean of source id ``reu-2016``; the units go with one over the flow."""

_SOLUBILITY_FACTOR: Final = 1.5
"""Uncertainty of a solubility in water, times or divided by. [-] Own choice: the two
figures read for one substance lie that far apart."""


@dataclass(frozen=True, slots=True, eq=False)
class Ratio:
    """Air-water ratios at every setting, with their range and their grounds."""

    low: FloatArray
    middle: FloatArray
    high: FloatArray
    says: str
    sources: tuple[str, ...]
    memory: bool


def molar_mass_of(cas: str) -> float:
    """Return the molar mass of a constituent, or that of an oil where none is known.

    Parameters
    ----------
    cas : str
        A CAS number of the table of constituents.

    Returns
    -------
    float
        Molar mass. [g/mol]
    """
    return float(reference.constituents()[cas].molar_mass_value or OIL_MOLAR_MASS)


def film_part(
    pascals: Floats, kelvin: Floats, hours: Floats, position: Floats
) -> FloatArray:
    """Return the part that leaves a film of oil in a time.

    Parameters
    ----------
    pascals : float or array
        Vapour pressure, >= 0. [Pa]
    kelvin : float or array
        Temperature, > 0. [K]
    hours : float or array
        Time, >= 0. [h]
    position : float or array
        0 a thick film in still air, 1 a thin one in moving air, between them by
        logarithms. [-]

    Returns
    -------
    array
        Part that leaves, 0 to 1. [-]

    Raises
    ------
    DomainError
        If an argument is outside its range (NaN included).

    Notes
    -----
    :func:`~blendcheck.equations.transfer.film_rate` with an activity coefficient of 1:
    the ends of the film lie a factor of 250 apart.
    """
    ends = np.log([_STILL_AIR / _THICK_FILM, _MOVING_AIR / _THIN_FILM])
    at = fraction("position", position)
    swept = np.exp(ends[0] + at * (ends[1] - ends[0]))
    rate = film_rate(
        pascals,
        kelvin,
        area=1.0,
        mass_transfer=swept,
        activity_coefficient=1.0,
        oil_amount=1 / _MOLAR_VOLUME,
    )
    return np.asarray(-np.expm1(-rate * not_negative("hours", hours)))


def carried_part(pascals: Floats, kelvin: Floats, m3_per_mol: Floats) -> FloatArray:
    """Return the part that bubbles carry out of the oil if they leave it saturated.

    Parameters
    ----------
    pascals : float or array
        Vapour pressure, >= 0. [Pa]
    kelvin : float or array
        Temperature, > 0. [K]
    m3_per_mol : float or array
        Volume of gas for each mole of oil, >= 0. [m3/mol]

    Returns
    -------
    array
        Part that is carried, at most 1. [-]

    Raises
    ------
    DomainError
        If an argument is outside its range (NaN included).
    """
    moles = not_negative("pascals", pascals) / (
        GAS_CONSTANT * positive("kelvin", kelvin)
    )
    return carried_by_gas(1.0, m3_per_mol, moles)


def dissolved_part(ratio: Floats, flow: Floats) -> FloatArray:
    """Return the part of what is dissolved that leaves the water of a shower.

    Parameters
    ----------
    ratio : float or array
        Air-water ratio at the temperature of the water, >= 0. [-]
    flow : float or array
        Flow of the water, > 0. [L/min]

    Returns
    -------
    array
        Part that leaves, 0 to 1: the low end for a piece on the floor. [-]

    Raises
    ------
    DomainError
        If an argument is outside its range (NaN included).

    Notes
    -----
    The transfer units go with one over the flow, source id ``little-1992``.
    """
    units = _USUAL_FLOW / positive("flow", flow)
    return transfer_fraction(
        ratio, liquid_units=LIQUID_UNITS * units, gas_units=GAS_UNITS * units
    )


def ratio_of(cas: str, settings: Sequence[ShowerSetting]) -> Ratio | None:
    """Return the air-water ratios of a constituent at the temperatures of the water.

    Parameters
    ----------
    cas : str
        A CAS number of the table of constituents.
    settings : sequence of ShowerSetting
        The showers.

    Returns
    -------
    Ratio or None
        From published Henry solubilities, else from vapour pressure and solubility in
        water; ``None`` where neither is known.
    """
    kelvin = np.array([s.kelvin for s in settings])
    for one in alike(cas):
        rows = [d for d in _figures(one, "Henry solubility") if _counts(d)]
        slopes = _figures(one, "temperature dependence of Henry solubility")
        if rows and slopes:
            return _by_henry(rows, slopes[0], kelvin)
    for one in alike(cas):
        rows = list(_figures(one, "water solubility"))
        found = pressures_of(cas, kelvin - ZERO_CELSIUS)
        if rows and found is not None:
            return _by_solubility(cas, rows[0], kelvin, *found)
    return None


def _figures(cas: str, quantity: str) -> tuple[Datum, ...]:
    found = reference.properties_of(cas, quantity)
    return tuple(datum for datum in found if datum.value is not None)


def _counts(datum: Datum) -> bool:
    """Leave out what the compilation itself calls an outlier or at another heat."""
    return "outlier" not in datum.note and "another temperature" not in datum.note


def _by_henry(rows: list[Datum], slope: Datum, kelvin: FloatArray) -> Ratio:
    solubilities = sorted(float(row.value or 0) for row in rows)
    ends = (solubilities[-1], float(np.median(solubilities)), solubilities[0])
    low, middle, high = (
        air_water_ratio(solubility_at(kelvin, each, float(slope.value or 0)), kelvin)
        for each in ends
    )
    says = (
        f"{print_estimate(float(middle[0]), digits=2)}, from {len(rows)} published "
        f"Henry solubilities, {print_estimate(float(low[0]), digits=2)} to "
        f"{print_estimate(float(high[0]), digits=2)}"
    )
    sources = dict.fromkeys((*(row.source_id for row in rows), slope.source_id))
    memory = any(row.tag == "memory" for row in (*rows, slope))
    return Ratio(low, middle, high, says, tuple(sources), memory)


def _by_solubility(
    cas: str, row: Datum, kelvin: FloatArray, pascals: FloatArray, factor: FloatArray
) -> Ratio:
    """Return vapour pressure over solubility in water.

    The pressure is that of the liquid also where the solubility is that of crystals:
    that errs towards more in the air.
    """
    moles = float(row.value or 0) / molar_mass_of(cas)  # mol/m3
    middle = pascals / (moles * GAS_CONSTANT * kelvin)
    doubt = factor * _SOLUBILITY_FACTOR
    says = (
        f"{print_estimate(float(middle[0]), digits=2)}, from the vapour pressure and "
        f"a solubility of {row.printed}"
        + (" (from memory, so full release bounds it)" if row.tag == "memory" else "")
    )
    return Ratio(
        middle / doubt,
        middle,
        middle * doubt,
        says,
        (row.source_id,),
        row.tag == "memory",
    )
