r"""The most of a vapour that air can hold, and the most that can be there at all."""

import numpy as np

from blendcheck.equations.arrays import (
    FloatArray,
    Floats,
    fraction,
    not_negative,
    positive,
)
from blendcheck.equations.constants import GAS_CONSTANT

__all__ = ["ceiling_concentration", "saturation_concentration"]


def saturation_concentration(
    pressure: Floats, molar_mass: Floats, temperature: Floats
) -> FloatArray:
    r"""Return the concentration of a vapour at its saturation.

    Parameters
    ----------
    pressure : float or array
        Vapour pressure (times mole fraction and activity coefficient where it is one
        of several in a liquid), >= 0. [Pa]
    molar_mass : float or array
        Molar mass, > 0. [g/mol]
    temperature : float or array
        Temperature, > 0. [K]

    Returns
    -------
    array
        Concentration. [mg/m3]

    Raises
    ------
    DomainError
        If an argument is outside its range (NaN included).

    Notes
    -----
    :math:`C = P M/(R T)`, ideal gas; source id ``codata-2018`` for R. Valid for:
    vapours far below 1 bar. Departs from the source in: nothing.

    Examples
    --------
    >>> float(saturation_concentration(4.5, 156.27, 298.15))
    283.7
    """
    mass = not_negative("pressure", pressure) * positive("molar_mass", molar_mass)
    return 1e3 * mass / (GAS_CONSTANT * positive("temperature", temperature))


def ceiling_concentration(
    mass: Floats,
    volume: Floats,
    pressure: Floats,
    molar_mass: Floats,
    temperature: Floats,
    *,
    mole_fraction: Floats = 1.0,
    activity_coefficient: Floats = 1.0,
) -> FloatArray:
    r"""Return what a concentration in air cannot exceed.

    Parameters
    ----------
    mass : float or array
        Mass of the substance that is there at all, >= 0. [mg]
    volume : float or array
        Volume of air, > 0. [m3]
    pressure : float or array
        Vapour pressure of the liquid at the temperature of the source, the
        sub-cooled one for a dissolved solid, >= 0. [Pa]
    molar_mass : float or array
        Molar mass, > 0. [g/mol]
    temperature : float or array
        Temperature of the source, > 0. [K]
    mole_fraction : float or array, default 1
        Share in the liquid, 0 to 1; 1 is the bound that holds for every blend.
        [mol/mol]
    activity_coefficient : float or array, default 1
        Activity coefficient, >= 0; activity, the product, counts as at most 1,
        because a liquid cannot hold more than the substance alone would. [-]

    Returns
    -------
    array
        The lower of full release and saturation. [mg/m3]

    Raises
    ------
    DomainError
        If an argument is outside its range (NaN included).

    Notes
    -----
    :math:`C \le \min(M/V,\; a\,P M/(R T))`. Mass balance, and
    source id ``codata-2018`` for R. Valid for: air that is not warmer than the source.
    Departs from the source in: nothing.
    """
    released = not_negative("mass", mass) / positive("volume", volume)
    share = fraction("mole_fraction", mole_fraction)
    activity = share * not_negative("activity_coefficient", activity_coefficient)
    full = saturation_concentration(pressure, molar_mass, temperature)
    return np.minimum(released, np.minimum(activity, 1.0) * full)
