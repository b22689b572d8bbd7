r"""Vapour pressure estimated from the boiling point, when nothing was measured.

Two independent forms pass through the boiling point at one atmosphere; their
geometric mean is better than either. It is the last resort, and what it gives is
uncertain by :data:`ESTIMATE_FACTOR`.
"""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

import numpy as np

from blendcheck.equations.arrays import (
    FloatArray,
    Floats,
    finite,
    not_negative,
    positive,
    within,
)
from blendcheck.equations.constants import ATMOSPHERE

__all__ = [
    "ESTIMATE_FACTOR",
    "ESTIMATE_FACTOR_ONE_SIGMA",
    "FISHTINE_FACTORS",
    "anchored_bounds",
    "anchored_estimate",
    "lee_kesler_acentric_factor",
    "lee_kesler_pressure",
    "modified_grain_pressure",
]

ESTIMATE_FACTOR: Final = 2.6
"""Uncertainty of the anchored estimate near 25 degC, times or divided by, at two
sigma. [-] Own comparison with 29 measured or tabulated pressures of fragrance
constituents: root mean square factor 1.61, 90 % within a factor of 2."""

ESTIMATE_FACTOR_ONE_SIGMA: Final = 1.6
"""The same at one sigma. [-]"""

FISHTINE_FACTORS: Final[Mapping[str, float]] = MappingProxyType(
    {
        "alcohol": 1.25,
        "aldehyde or ketone": 1.06,
        "ester": 1.08,
        "ether": 1.03,
        "hydrocarbon": 1.00,
        "phenol": 1.15,
    }
)
"""Fishtine's factor K_F by class of compound. [-] From memory, rounded:
source id ``lyman-1990``, chapter 14, prints them by class and number of carbon
atoms."""

_CALORIES = 1.987  # gas constant as the source has it, cal/(mol K)
_COMPRESSED = 0.97  # compressibility of the vapour at the boiling point
_POWER = 0.19  # of liquids


def _simple(reduced: FloatArray) -> FloatArray:
    return np.asarray(
        5.92714 - 6.09648 / reduced - 1.28862 * np.log(reduced) + 0.169347 * reduced**6
    )


def _correction(reduced: FloatArray) -> FloatArray:
    return np.asarray(
        15.2518 - 15.6875 / reduced - 13.4721 * np.log(reduced) + 0.43577 * reduced**6
    )


def _reduced(temperature: FloatArray, critical: Floats) -> FloatArray:
    ratio = temperature / positive("critical_temperature", critical)
    return within("temperature / critical_temperature", ratio, 0.0, 1.0)


def lee_kesler_acentric_factor(
    boiling: Floats, *, critical_temperature: Floats, critical_pressure: Floats
) -> FloatArray:
    r"""Return the acentric factor that makes Lee and Kesler's curve pass through 1 atm.

    Parameters
    ----------
    boiling : float or array
        Boiling point at 101 325 Pa, measured, above 0, below critical. [K]
    critical_temperature : float or array
        Critical temperature, > 0; estimated from the same boiling point if need be.
        [K]
    critical_pressure : float or array
        Critical pressure, > 0. [Pa]

    Returns
    -------
    array
        Acentric factor. [-]

    Raises
    ------
    DomainError
        If an argument is outside its range (NaN included).

    Notes
    -----
    :math:`\omega = [\ln(p_0/P_c) - f^{(0)}(T_{br})]/f^{(1)}(T_{br})`.
    From source id ``lee-kesler-1975``. Valid for: non-polar and slightly polar liquids.
    Departs from the source in: nothing. An acentric factor from anywhere else would
    unhook the curve from the boiling point.
    """
    reduced = _reduced(positive("boiling", boiling), critical_temperature)
    scale = positive("critical_pressure", critical_pressure)
    return (np.log(ATMOSPHERE / scale) - _simple(reduced)) / _correction(reduced)


def lee_kesler_pressure(
    temperature: Floats,
    acentric_factor: Floats,
    *,
    critical_temperature: Floats,
    critical_pressure: Floats,
) -> FloatArray:
    r"""Return a vapour pressure by Lee and Kesler's corresponding states.

    Parameters
    ----------
    temperature : float or array
        Temperature, above 0, at most critical. [K]
    acentric_factor : float or array
        From :func:`lee_kesler_acentric_factor`. [-]
    critical_temperature : float or array
        Critical temperature, > 0. [K]
    critical_pressure : float or array
        Critical pressure, > 0. [Pa]

    Returns
    -------
    array
        Vapour pressure. [Pa]

    Raises
    ------
    DomainError
        If an argument is outside its range (NaN included).

    Notes
    -----
    :math:`\ln(P/P_c) = f^{(0)}(T_r) + \omega f^{(1)}(T_r)`.
    From source id ``lee-kesler-1975``. Valid for: reduced temperatures above 0.3; not
    for polyols (glycerol comes out 2000 times too low). Departs from the source in:
    nothing.
    """
    at = _reduced(positive("temperature", temperature), critical_temperature)
    power = _simple(at) + finite("acentric_factor", acentric_factor) * _correction(at)
    return positive("critical_pressure", critical_pressure) * np.exp(power)


def modified_grain_pressure(
    temperature: Floats, boiling: Floats, fishtine: Floats
) -> FloatArray:
    r"""Return a vapour pressure of a liquid by the modified Grain method.

    Parameters
    ----------
    temperature : float or array
        Temperature, above 0, below 1.5 times the boiling point. [K]
    boiling : float or array
        Boiling point at 101 325 Pa, > 0. [K]
    fishtine : float or array
        Fishtine's factor of the class, > 0: :data:`FISHTINE_FACTORS`. [-]

    Returns
    -------
    array
        Vapour pressure, of the sub-cooled liquid below the melting point. [Pa]

    Raises
    ------
    DomainError
        If an argument is outside its range (NaN included).

    Notes
    -----
    With :math:`T_p = T/T_b` and m = 0.19,
    :math:`\ln(P/p_0) = \frac{K_F (8.75 + R \ln T_b)}{0.97 R}
    \left[1 - \frac{(3 - 2T_p)^m}{T_p} - 2m(3 - 2T_p)^{m-1} \ln T_p\right]`,
    R = 1.987 cal/(mol K). From source id ``lyman-1990``, chapter 14. Valid for: liquids
    below their boiling point. Departs from the source in: m of liquids also below
    the melting point, which gives the sub-cooled liquid.
    """
    top = positive("boiling", boiling)
    at = positive("temperature", temperature) / top
    distance = positive("3 - 2 T/Tb", 3 - 2 * at)
    heat = positive("fishtine", fishtine) * (8.75 + _CALORIES * np.log(top))
    shape = (
        1 - distance**_POWER / at - 2 * _POWER * distance ** (_POWER - 1) * np.log(at)
    )
    return np.asarray(ATMOSPHERE * np.exp(heat / (_COMPRESSED * _CALORIES) * shape))


def anchored_estimate(
    temperature: Floats,
    boiling: Floats,
    *,
    critical_temperature: Floats,
    critical_pressure: Floats,
    fishtine: Floats,
) -> FloatArray:
    r"""Return the geometric mean of Lee and Kesler's and the modified Grain pressure.

    Parameters
    ----------
    temperature : float or array
        Temperature, above 0, at most critical. [K]
    boiling : float or array
        Boiling point at 101 325 Pa, measured, > 0. [K]
    critical_temperature : float or array
        Critical temperature, estimated from the same boiling point, > 0. [K]
    critical_pressure : float or array
        Critical pressure, > 0. [Pa]
    fishtine : float or array
        Fishtine's factor of the class, > 0. [-]

    Returns
    -------
    array
        Vapour pressure, of the sub-cooled liquid below the melting point. [Pa]

    Raises
    ------
    DomainError
        If an argument is outside its range (NaN included).

    Notes
    -----
    :math:`P = \sqrt{P_{LK} P_{Grain}}`. As of both parts,
    source id ``lee-kesler-1975`` and source id ``lyman-1990``; the mean is ours. Valid
    for: fragrance constituents with a measured boiling point near 25 degC, to
    :data:`ESTIMATE_FACTOR`; not for polyols. Departs from the source in: the mean.
    """
    omega = lee_kesler_acentric_factor(
        boiling,
        critical_temperature=critical_temperature,
        critical_pressure=critical_pressure,
    )
    first = lee_kesler_pressure(
        temperature,
        omega,
        critical_temperature=critical_temperature,
        critical_pressure=critical_pressure,
    )
    second = modified_grain_pressure(temperature, boiling, fishtine)
    return np.asarray(np.sqrt(first * second))


def anchored_bounds(pressure: Floats) -> tuple[FloatArray, FloatArray]:
    """Return the ends between which an anchored estimate leaves the pressure.

    Parameters
    ----------
    pressure : float or array
        What :func:`anchored_estimate` gave, >= 0. [Pa]

    Returns
    -------
    low, high : array
        Divided and multiplied by :data:`ESTIMATE_FACTOR`. [Pa]

    Raises
    ------
    DomainError
        If ``pressure`` is negative (NaN included).
    """
    central = not_negative("pressure", pressure)
    return np.asarray(central / ESTIMATE_FACTOR), np.asarray(central * ESTIMATE_FACTOR)
