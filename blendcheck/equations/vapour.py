r"""Vapour pressure of a substance, in each form that a source may print.

Measured pressures come first, moved by a heat of vaporisation or between two points,
then compiled coefficients inside their range, and last the estimate that is anchored
at the boiling point (:mod:`blendcheck.equations.anchored`). Every form takes a
temperature in kelvins and returns pascals.
"""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final, Literal

import numpy as np

from blendcheck.equations.arrays import (
    FloatArray,
    Floats,
    finite,
    positive,
    within,
)
from blendcheck.equations.constants import ATMOSPHERE, GAS_CONSTANT, ZERO_CELSIUS
from blendcheck.errors import DomainError

__all__ = [
    "ENTROPY_OF_FUSION",
    "PASCALS_PER",
    "antoine_pressure",
    "clausius_clapeyron_pressure",
    "dippr_pressure",
    "subcooled_liquid_pressure",
    "thomson_pressure",
    "two_point_pressure",
    "wagner_pressure",
]

PASCALS_PER: Final[Mapping[str, float]] = MappingProxyType(
    {"Pa": 1.0, "kPa": 1e3, "bar": 1e5, "atm": ATMOSPHERE, "mmHg": 133.322387415}
)
"""Pascals in one unit of pressure. [Pa] From source id ``nist-sp811-2008``, B.8."""

ENTROPY_OF_FUSION: Final = 56.5
"""Entropy of fusion of rigid molecules. [J/(mol K)]
From source id ``yalkowsky-1979``."""

_WAGNER = MappingProxyType({"2.5-5": (1.5, 2.5, 5.0), "3-6": (1.5, 3.0, 6.0)})


def antoine_pressure(
    temperature: Floats,
    a: Floats,
    b: Floats,
    c: Floats,
    *,
    log_base: Literal["e", "10"],
    pressure_unit: Literal["Pa", "kPa", "bar", "atm", "mmHg"],
    temperature_unit: Literal["K", "degC"],
    valid: tuple[float, float] | None = None,
) -> FloatArray:
    r"""Return a vapour pressure from printed Antoine coefficients.

    Parameters
    ----------
    temperature : float or array
        Temperature, > 0. [K]
    a, b, c : float or array
        Coefficients as printed. [-, ``temperature_unit``, ``temperature_unit``]
    log_base : {"e", "10"}
        Base of the logarithm that the coefficients give.
    pressure_unit : {"Pa", "kPa", "bar", "atm", "mmHg"}
        Unit of the pressure that they give.
    temperature_unit : {"K", "degC"}
        Unit of the temperature that they take.
    valid : (float, float), optional
        Range of the fit, in which the temperature must lie. [K]

    Returns
    -------
    array
        Vapour pressure. [Pa]

    Raises
    ------
    DomainError
        If the temperature is outside ``valid`` or not positive, a coefficient is
        not finite (NaN included), or the temperature is at or below the pole -c.

    Notes
    -----
    :math:`\log P = A - B/(T + C)`. From source id ``poling-2000``, section 7-3. Valid
    for: temperatures inside the range of the fit; outside it the raw equation can
    be wrong by a factor of ten. Departs from the source in: nothing.

    Examples
    --------
    Water, coefficients in degC, mmHg and base 10 (from memory), at 100 degC:

    >>> float(antoine_pressure(373.15, 8.07131, 1730.63, 233.426,
    ...     log_base="10", pressure_unit="mmHg", temperature_unit="degC")) / 133.322
    760.09
    """
    kelvin = positive("temperature", temperature)
    if valid is not None:
        within("temperature", kelvin, *valid)
    shifted = kelvin if temperature_unit == "K" else kelvin - ZERO_CELSIUS
    distance = positive("temperature + c", shifted + finite("c", c))
    power = finite("a", a) - finite("b", b) / distance
    factor = np.log(10.0) if log_base == "10" else 1.0
    return np.asarray(np.exp(factor * power) * PASCALS_PER[pressure_unit])


def clausius_clapeyron_pressure(
    temperature: Floats, known: Floats, pressure: Floats, heat: Floats
) -> FloatArray:
    r"""Move a measured vapour pressure to another temperature.

    Parameters
    ----------
    temperature : float or array
        Temperature, > 0. [K]
    known : float or array
        Temperature of the measurement, > 0. [K]
    pressure : float or array
        Measured vapour pressure, > 0. [Pa]
    heat : float or array
        Heat of vaporisation (of sublimation for a solid), > 0. [J/mol]

    Returns
    -------
    array
        Vapour pressure. [Pa]

    Raises
    ------
    DomainError
        If an argument is not positive (NaN included).

    Notes
    -----
    :math:`\ln(P/P_1) = -(\Delta H/R)(1/T - 1/T_1)`. From source id ``poling-2000``,
    section 7-2. Valid for: some tens of kelvins, without melting in between.
    Departs from the source in: nothing.
    """
    inverse = 1 / positive("temperature", temperature) - 1 / positive("known", known)
    exponent = -positive("heat", heat) / GAS_CONSTANT * inverse
    return np.asarray(positive("pressure", pressure) * np.exp(exponent))


def two_point_pressure(
    temperature: Floats,
    first: tuple[Floats, Floats],
    second: tuple[Floats, Floats],
) -> FloatArray:
    r"""Interpolate between two measured vapour pressures.

    Parameters
    ----------
    temperature : float or array
        Temperature, > 0. [K]
    first, second : (float or array, float or array)
        Temperature and vapour pressure of each point, both > 0, at different
        temperatures. [K, Pa]

    Returns
    -------
    array
        Vapour pressure. [Pa]

    Raises
    ------
    DomainError
        If a number is not positive (NaN included) or the temperatures are equal.

    Notes
    -----
    ln P is linear in 1/T (Clausius and Clapeyron). From source id ``poling-2000``,
    section 7-2. Valid for: between the points and some tens of kelvins beyond.
    Departs from the source in: nothing.
    """
    inverse = 1 / positive("temperature", temperature)
    low, high = (1 / positive("temperature of a point", p[0]) for p in (first, second))
    if np.any(low == high):
        raise DomainError("second", "the temperature of the first", "another one")
    start, end = (np.log(positive("pressure", p[1])) for p in (first, second))
    slope = (end - start) / (high - low)
    return np.asarray(np.exp(start + slope * (inverse - low)))


def thomson_pressure(
    temperature: Floats, known: Floats, pressure: Floats, boiling: Floats
) -> FloatArray:
    r"""Return a vapour pressure from one measured point and the boiling point.

    Parameters
    ----------
    temperature : float or array
        Temperature, > 0. [K]
    known, pressure : float or array
        Temperature and vapour pressure of the point, > 0. [K, Pa]
    boiling : float or array
        Boiling point at 101 325 Pa, above ``known``. [K]

    Returns
    -------
    array
        Vapour pressure. [Pa]

    Raises
    ------
    DomainError
        If an argument is not positive (NaN included), ``boiling`` is not above
        ``known``, or a temperature is at or below the pole of the equation.

    Notes
    -----
    Antoine's equation through both points with Thomson's
    :math:`C = 18 - 0.19\,T_b`. From source id ``thomson-1946``. Valid for: liquids
    between the point and the boiling point; curvature as of an average organic
    liquid. Departs from the source in: nothing.
    """
    top = positive("boiling", boiling)
    shift = 18.0 - 0.19 * top
    base = positive("known + C", positive("known", known) + shift)
    width = positive("boiling - known", top + shift - base)
    at = positive("temperature + C", positive("temperature", temperature) + shift)
    rise = np.log(ATMOSPHERE / positive("pressure", pressure))
    slope = rise * base * (base + width) / width
    return np.asarray(ATMOSPHERE * np.exp(slope * (1 / (base + width) - 1 / at)))


def wagner_pressure(
    temperature: Floats,
    coefficients: tuple[Floats, Floats, Floats, Floats],
    *,
    critical_temperature: Floats,
    critical_pressure: Floats,
    form: Literal["2.5-5", "3-6"],
) -> FloatArray:
    r"""Return a vapour pressure from Wagner coefficients.

    Parameters
    ----------
    temperature : float or array
        Temperature, above 0 and at most critical. [K]
    coefficients : four floats or arrays
        a, b, c, d. [-]
    critical_temperature : float or array
        Critical temperature, > 0. [K]
    critical_pressure : float or array
        Critical pressure, > 0. [Pa]
    form : {"2.5-5", "3-6"}
        Powers of the last two terms.

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
    :math:`\ln(P/P_c) = (a\tau + b\tau^{1.5} + c\tau^m + d\tau^n)/T_r` with
    :math:`\tau = 1 - T_r`. From source id ``poling-2000``, section 7-3. Valid for: the
    range of the fit. Departs from the source in: nothing.
    """
    critical = positive("critical_temperature", critical_temperature)
    reduced = positive("temperature", temperature) / critical
    tau = 1 - within("temperature / critical_temperature", reduced, 0.0, 1.0)
    a, b, c, d = (finite("coefficients", each) for each in coefficients)
    first, second, third = _WAGNER[form]
    total = a * tau + b * tau**first + c * tau**second + d * tau**third
    scale = positive("critical_pressure", critical_pressure)
    return np.asarray(scale * np.exp(total / reduced))


def dippr_pressure(
    temperature: Floats, a: Floats, b: Floats, c: Floats, d: Floats, e: Floats
) -> FloatArray:
    r"""Return a vapour pressure from coefficients of equation 101.

    Parameters
    ----------
    temperature : float or array
        Temperature, > 0. [K]
    a, b, c, d, e : float or array
        Coefficients for kelvins and pascals. [-, K, -, K^-e, -]

    Returns
    -------
    array
        Vapour pressure. [Pa]

    Raises
    ------
    DomainError
        If the temperature is not positive or a coefficient is not finite (NaN
        included).

    Notes
    -----
    :math:`\ln P = A + B/T + C \ln T + D T^E`. From source id ``perry-8``, Table 2-8.
    Valid for: the range of the fit, which is often said to begin at the melting
    point and is then not measured there. Departs from the source in: nothing.
    """
    kelvin = positive("temperature", temperature)
    first, second, third, fourth = (
        finite(name, each) for name, each in (("a", a), ("b", b), ("c", c), ("d", d))
    )
    tail = fourth * kelvin ** finite("e", e)
    return np.asarray(np.exp(first + second / kelvin + third * np.log(kelvin) + tail))


def subcooled_liquid_pressure(
    solid_pressure: Floats,
    temperature: Floats,
    melting: Floats,
    *,
    entropy_of_fusion: Floats = ENTROPY_OF_FUSION,
) -> FloatArray:
    r"""Return the vapour pressure of a solid as if it were molten.

    Parameters
    ----------
    solid_pressure : float or array
        Vapour pressure of the crystals, > 0. [Pa]
    temperature : float or array
        Temperature, > 0. [K]
    melting : float or array
        Melting point, > 0. [K]
    entropy_of_fusion : float or array, default 56.5
        Heat of fusion divided by the melting point, > 0. [J/(mol K)]

    Returns
    -------
    array
        Vapour pressure of the sub-cooled liquid, which counts for what is dissolved
        (menthol, camphor, thymol); never below that of the solid. [Pa]

    Raises
    ------
    DomainError
        If an argument is not positive (NaN included).

    Notes
    -----
    :math:`\ln(P_l/P_s) = \Delta S_f (T_m - T)/(R T)` below the melting point.
    From source id ``yalkowsky-1979``. Valid for: rigid molecules within about 150 K of
    melting. Round ones that melt from a rotating crystal (camphor, borneol) have a
    far smaller entropy of fusion: give it. Departs from the source in: heat
    capacities of solid and liquid count as equal.
    """
    at = positive("temperature", temperature)
    below = np.maximum(positive("melting", melting) - at, 0.0)
    entropy = positive("entropy_of_fusion", entropy_of_fusion)
    factor = np.exp(entropy * below / (GAS_CONSTANT * at))
    return np.asarray(positive("solid_pressure", solid_pressure) * factor)
