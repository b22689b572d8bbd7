"""Limits in air: conversion of units, time-weighted means, sums of fractions."""

import numpy as np

from blendcheck.equations.arrays import (
    FloatArray,
    Floats,
    finite,
    not_negative,
    positive,
)
from blendcheck.equations.constants import ATMOSPHERE, GAS_CONSTANT
from blendcheck.errors import DomainError

__all__ = [
    "hazard_sum",
    "mg_per_m3_from_ppm",
    "ppm_from_mg_per_m3",
    "time_weighted_average",
]


def mg_per_m3_from_ppm(
    ppm: Floats,
    molar_mass: Floats,
    *,
    temperature: Floats,
    pressure: Floats = ATMOSPHERE,
) -> FloatArray:
    r"""Convert a vapour concentration from ppm by volume to mg/m3.

    Parameters
    ----------
    ppm : float or array
        Volume fraction of the vapour, >= 0. [1e-6 m3/m3]
    molar_mass : float or array
        Average molar mass of the vapour, > 0. [g/mol]
    temperature : float or array
        Temperature at which the volume is counted, > 0. [K] It has no default:
        printed limits are converted at 20 degC or at 25 degC, 1.7 % apart.
    pressure : float or array, default 101325
        Air pressure, > 0. [Pa]

    Returns
    -------
    array
        Mass concentration. [mg/m3]

    Raises
    ------
    DomainError
        If ``ppm`` is negative, or another argument is not positive (NaN included).

    Notes
    -----
    :math:`c = 10^{-3} x\,p\,M/(R\,T)`, ideal gas; source id ``acgih-iv-23``.
    Valid for: vapours and gases near room pressure, not mists or dusts.
    Departs from the source in: R T / p is calculated, 24.465 L/mol at 25 degC,
    where the source rounds to 24.45.

    Examples
    --------
    >>> float(mg_per_m3_from_ppm(400, 60.10, temperature=298.15))
    982.6
    """
    amount = not_negative("ppm", ppm) * positive("pressure", pressure)
    mass = amount * positive("molar_mass", molar_mass)
    return mass / (1e3 * GAS_CONSTANT * positive("temperature", temperature))


def ppm_from_mg_per_m3(
    concentration: Floats,
    molar_mass: Floats,
    *,
    temperature: Floats,
    pressure: Floats = ATMOSPHERE,
) -> FloatArray:
    r"""Convert a vapour concentration from mg/m3 to ppm by volume.

    Parameters
    ----------
    concentration : float or array
        Mass concentration of the vapour, >= 0. [mg/m3]
    molar_mass : float or array
        Average molar mass of the vapour, > 0. [g/mol]
    temperature : float or array
        Temperature at which the volume is counted, > 0. [K]
    pressure : float or array, default 101325
        Air pressure, > 0. [Pa]

    Returns
    -------
    array
        Volume fraction. [1e-6 m3/m3]

    Raises
    ------
    DomainError
        If ``concentration`` is negative, or another argument is not positive (NaN
        included).

    Notes
    -----
    The inverse of :func:`mg_per_m3_from_ppm`; source id ``acgih-iv-23``. Valid for
    and departs from the source in: as there.

    Examples
    --------
    >>> float(ppm_from_mg_per_m3(1.635, 40.0, temperature=298.15))
    1.000
    """
    one = mg_per_m3_from_ppm(
        1.0, molar_mass, temperature=temperature, pressure=pressure
    )
    return not_negative("concentration", concentration) / one


def time_weighted_average(
    concentrations: Floats, hours: Floats, *, over: float = 8.0
) -> FloatArray:
    r"""Average concentrations over a shift, or over another stated time.

    Parameters
    ----------
    concentrations : array, shape (..., n)
        Concentration during each part, >= 0. [any unit of concentration]
    hours : array, shape (..., n)
        Length of each part, >= 0. [h]
    over : float, default 8
        Time that the limit averages over, > 0. [h]

    Returns
    -------
    array, shape (...)
        Time-weighted average. [unit of ``concentrations``]

    Raises
    ------
    DomainError
        If a number is negative or NaN, or if the parts do not add up to ``over``: an
        hour that nobody entered is not an hour at zero.

    Notes
    -----
    :math:`E = \sum_i C_i T_i / T`; source id ``osha-1910-1000``, paragraph
    (d)(1). Valid for: any averaging time. Departs from the source in: hours without
    exposure are entered with 0; the source leaves them out.

    Examples
    --------
    >>> float(time_weighted_average([150, 75, 50], [2, 2, 4]))
    81.25
    """
    parts = not_negative("hours", hours)
    length = float(positive("over", over))
    total = np.asarray(parts.sum(axis=-1))
    off = np.abs(total - length) > 1e-9 * length
    if np.any(off):
        raise DomainError("hours", float(total[off][0]), f"{length:g} in all")
    levels = not_negative("concentrations", concentrations)
    return np.asarray((levels * parts).sum(axis=-1) / length)


def hazard_sum(concentrations: Floats, limits: Floats) -> FloatArray:
    r"""Add the fractions of their limits that several substances take up.

    Parameters
    ----------
    concentrations : array, shape (..., n)
        Concentration of each substance, >= 0. [any unit]
    limits : array, shape (..., n)
        Limit or reference point of each, > 0. [unit of ``concentrations``]

    Returns
    -------
    array, shape (...)
        Sum of the fractions. [-]

    Raises
    ------
    DomainError
        If a concentration is negative, or a limit is not positive, or either is NaN:
        a substance without a limit cannot be left out of the sum silently.

    Notes
    -----
    :math:`E_m = \sum_i C_i/L_i`; source id ``osha-1910-1000``, paragraph (d)(2).
    Valid for: limits of one kind (same effect, same averaging time, same tier).
    Departs from the source in: nothing.

    Examples
    --------
    >>> float(hazard_sum([500, 45, 40], [1000, 200, 200]))
    0.925
    """
    levels = not_negative("concentrations", concentrations)
    return np.asarray((levels / positive("limits", finite("limits", limits))).sum(-1))
