r"""Ways of a scent into the air: from water, from a film of oil, carried by gas.

Each gives one end of a range; full release is the bound of them all.
"""

from typing import Final

import numpy as np

from blendcheck.equations.arrays import (
    FloatArray,
    Floats,
    finite,
    not_negative,
    positive,
)
from blendcheck.equations.constants import GAS_CONSTANT

__all__ = [
    "GAS_UNITS",
    "LIQUID_UNITS",
    "air_water_ratio",
    "carried_by_gas",
    "equilibrium_fraction",
    "film_rate",
    "solubility_at",
    "transfer_fraction",
]

LIQUID_UNITS: Final = 1.61
"""Transfer units of falling shower water on the water side. [-] Own calibration on
the end that source id ``moya-1999`` prints: cyclohexane 80 %."""

GAS_UNITS: Final = 30.0
"""The same on the air side, to be multiplied by the air-water ratio. [-] Own
calibration on the other end: acetone 6.3 %, which leaves 26 to 42."""

_REFERENCE = 298.15


def solubility_at(temperature: Floats, solubility: Floats, slope: Floats) -> FloatArray:
    r"""Move a Henry solubility from 25 degC to another temperature.

    Parameters
    ----------
    temperature : float or array
        Temperature of the water, > 0. [K]
    solubility : float or array
        Solubility of the vapour in water at 298.15 K, > 0. [mol/(m3 Pa)]
    slope : float or array
        d ln H / d(1/T), positive where warm water holds less. [K]

    Returns
    -------
    array
        Solubility at ``temperature``. [mol/(m3 Pa)]

    Raises
    ------
    DomainError
        If an argument is outside its range (NaN included).

    Notes
    -----
    :math:`H = H^\circ \exp[B(1/T - 1/T^\circ)]`. From source id ``sander-2023``. Valid
    for: some tens of kelvins about 25 degC. Departs from the source in: nothing.
    """
    inverse = 1 / positive("temperature", temperature) - 1 / _REFERENCE
    exponent = finite("slope", slope) * inverse
    return np.asarray(positive("solubility", solubility) * np.exp(exponent))


def air_water_ratio(solubility: Floats, temperature: Floats) -> FloatArray:
    r"""Return the concentration in air over the one in water, at equilibrium.

    Parameters
    ----------
    solubility : float or array
        Henry solubility at ``temperature``, > 0. [mol/(m3 Pa)]
    temperature : float or array
        Temperature, > 0. [K]

    Returns
    -------
    array
        Concentration ratio. [(mg/m3)/(mg/m3)]

    Raises
    ------
    DomainError
        If an argument is not positive (NaN included).

    Notes
    -----
    :math:`K_{aw} = 1/(H R T)`. From source id ``sander-2023``. Valid for: dilute
    solutions; a solubiliser such as polysorbate lowers it. Departs from the source
    in: nothing.

    Examples
    --------
    >>> float(air_water_ratio(4.8e-4, 298.15))
    0.840
    """
    energy = GAS_CONSTANT * positive("temperature", temperature)
    return np.asarray(1 / (positive("solubility", solubility) * energy))


def transfer_fraction(
    ratio: Floats,
    *,
    liquid_units: Floats = LIQUID_UNITS,
    gas_units: Floats = GAS_UNITS,
) -> FloatArray:
    r"""Return the part of what is dissolved in shower water that leaves as it falls.

    Parameters
    ----------
    ratio : float or array
        Air-water ratio at the water's temperature, >= 0. [-]
    liquid_units : float or array, default 1.61
        Transfer units on the water side, > 0. [-]
    gas_units : float or array, default 30
        Transfer units on the air side for a ratio of 1, > 0. [-]

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
    :math:`\eta = 1 - e^{-N}`, :math:`1/N = 1/N_L + 1/(g K_{aw})`, two resistances
    in series. From source id ``little-1992``. Valid for: what is dissolved in supply
    water that falls through the stall; for a tablet on the floor it is the low end.
    Departs from the source in: no back pressure of the air, and the units are
    calibrated on two measured substances.

    Examples
    --------
    >>> float(transfer_fraction(1.68))
    0.79
    """
    gas = positive("gas_units", gas_units) * not_negative("ratio", ratio)
    liquid = positive("liquid_units", liquid_units)
    return np.asarray(-np.expm1(-gas * liquid / (gas + liquid)))


def equilibrium_fraction(
    ratio: Floats, *, air_volume: Floats, water_volume: Floats
) -> FloatArray:
    r"""Return the part of what is dissolved that air can take up at all.

    Parameters
    ----------
    ratio : float or array
        Air-water ratio at the water's temperature, >= 0. [-]
    air_volume : float or array
        Volume of air that comes into touch with the water, > 0. [m3]
    water_volume : float or array
        Volume of the water, > 0. [m3]

    Returns
    -------
    array
        Part in the air once both stand in equilibrium, 0 to 1. [-]

    Raises
    ------
    DomainError
        If an argument is outside its range (NaN included).

    Notes
    -----
    :math:`f = K_{aw} V_a/(V_w + K_{aw} V_a)`, mass balance with the air-water ratio of
    source id ``sander-2023``. Valid for: an upper end, because air and water do not
    reach equilibrium. Departs from the source in: nothing.

    Examples
    --------
    >>> float(equilibrium_fraction(0.84, air_volume=1.0, water_volume=0.84))
    0.5
    """
    held = not_negative("ratio", ratio) * positive("air_volume", air_volume)
    return np.asarray(held / (positive("water_volume", water_volume) + held))


def film_rate(
    pressure: Floats,
    temperature: Floats,
    *,
    area: Floats,
    mass_transfer: Floats,
    activity_coefficient: Floats,
    oil_amount: Floats,
) -> FloatArray:
    r"""Return the rate at which a constituent leaves a film of oil.

    Parameters
    ----------
    pressure : float or array
        Vapour pressure of the constituent, >= 0. [Pa]
    temperature : float or array
        Temperature of the film, > 0. [K]
    area : float or array
        Its surface, > 0. [m2]
    mass_transfer : float or array
        Mass transfer coefficient of the air above it, > 0; 2 to 5 m/h indoors (from
        memory). [m/h]
    activity_coefficient : float or array
        Activity coefficient in the film, >= 0. [-]
    oil_amount : float or array
        Amount of substance in the film, which hardly changes, > 0. [mol]

    Returns
    -------
    array
        First-order rate. [1/h]

    Raises
    ------
    DomainError
        If an argument is outside its range (NaN included).

    Notes
    -----
    :math:`k = A k_m \gamma P/(R T n)`: evaporation
    :math:`A k_m x \gamma P/(R T)` from Raoult's law, with x the constituent's share
    of n. From source id ``epa-tichenor-sparks``. Valid for: a film in a fixed excess of
    carrier, air far from saturation. Departs from the source in: the rate is
    calculated, not fitted.
    """
    drive = not_negative("activity_coefficient", activity_coefficient)
    drive = drive * not_negative("pressure", pressure)
    swept = positive("area", area) * positive("mass_transfer", mass_transfer)
    energy = GAS_CONSTANT * positive("temperature", temperature)
    return np.asarray(swept * drive / (energy * positive("oil_amount", oil_amount)))


def carried_by_gas(
    mass: Floats, gas_volume: Floats, concentration: Floats
) -> FloatArray:
    r"""Return the mass that bubbles of gas carry out of the liquid they pass.

    Parameters
    ----------
    mass : float or array
        Mass that is there, >= 0. [mg]
    gas_volume : float or array
        Volume of the gas that leaves, >= 0. [m3]
    concentration : float or array
        Concentration that stands in equilibrium with the liquid: at most saturation
        times activity. [mg/m3]

    Returns
    -------
    array
        Mass carried out, at most ``mass``. [mg]

    Raises
    ------
    DomainError
        If an argument is negative (NaN included).

    Notes
    -----
    :math:`m = \min(M, V C)`, gas leaving saturated: mass balance,
    source id ``codata-2018`` for the gas law behind the concentration. Valid for: an
    upper end, because bubbles that rise fast leave below saturation. Departs from the
    source in: nothing.
    """
    volume = not_negative("gas_volume", gas_volume)
    carried = volume * not_negative("concentration", concentration)
    return np.minimum(not_negative("mass", mass), carried)
