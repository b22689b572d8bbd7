"""Isomers under one name, boiling and melting points, and compiled equations."""

from collections.abc import Callable
from functools import cache
from typing import Literal

import numpy as np

from blendcheck import reference
from blendcheck.equations.arrays import FloatArray
from blendcheck.equations.constants import ATMOSPHERE
from blendcheck.equations.vapour import (
    antoine_pressure,
    dippr_pressure,
    wagner_pressure,
)
from blendcheck.reference.property_rows import VapourFit

__all__ = ["Curve", "alike", "boiling_point", "fit_curve", "melting_point"]

Curve = Callable[[FloatArray], FloatArray]
"""Temperatures [K] to pressures [Pa]."""

_ALIKE = (frozenset({"5392-40-5", "141-27-5", "106-26-3"}),)  # citral and its parts


@cache
def alike(cas: str) -> tuple[str, ...]:
    """Return the substances whose figures may stand in, the substance itself first.

    Parameters
    ----------
    cas : str
        A CAS number.

    Returns
    -------
    tuple of str
        Isomers under one name: mirror images, racemates, numbers without isomer.
        Never the parts of a sum, such as alpha- and beta-pinene.

    Examples
    --------
    >>> alike("2216-51-5")  # l-menthol
    ('2216-51-5', '1490-04-6', '89-78-1', '15356-60-2')
    """
    found = [cas]
    for group in reference.groups():
        isomers = [m.member_cas for m in group.members if m.relation == "isomer of"]
        if group.cas and isomers and cas in (group.cas, *isomers):
            found += [group.cas, *isomers]
    for same in _ALIKE:
        found += sorted(same, reverse=True) if cas in same else ()
    return tuple(dict.fromkeys(found))


@cache
def boiling_point(cas: str) -> tuple[float, str] | None:
    """Return the boiling point at 101 325 Pa and its source.

    Parameters
    ----------
    cas : str
        A CAS number, exactly this one.

    Returns
    -------
    (float, str) or None
        Temperature [K] and source id. Where no boiling point is tabled, that of
        compiled coefficients whose range reaches one atmosphere, then one from
        memory.
    """
    data = [d for d in reference.properties_of(cas, "boiling point") if d.value]
    good = [d for d in data if "more than 8 K" not in d.note] or data
    if good and good[0].value is not None:
        return float(good[0].value), good[0].source_id
    for fit in reference.vapour_fits_of(cas):
        found = _reaches_atmosphere(fit)
        if found is not None:
            return found, fit.source_id
    others = reference.liquid_points_of(cas, "boiling point")
    if others and others[0].value is not None:
        return float(others[0].value), others[0].source_id
    return None


def _reaches_atmosphere(fit: VapourFit) -> float | None:
    """Return where coefficients give one atmosphere, if that is at most 5 K outside."""
    curve, top = fit_curve(fit), float(fit.t_max_k)
    kelvin = np.linspace(float(fit.t_min_k), top, 60)
    rising = curve(kelvin)
    if rising[-1] >= ATMOSPHERE:
        return float(np.interp(np.log(ATMOSPHERE), np.log(rising), kelvin))
    slope = np.log(rising[-1] / rising[-2]) / (kelvin[-1] - kelvin[-2])
    beyond = float(np.log(ATMOSPHERE / rising[-1]) / slope)
    return top + beyond if beyond <= 5.0 else None


@cache
def melting_point(cas: str) -> float | None:
    """Return the melting point, the preferred figure.

    Parameters
    ----------
    cas : str
        A CAS number, exactly this one; see :func:`alike`.

    Returns
    -------
    float or None
        Temperature. [K]
    """
    data = [d for d in reference.properties_of(cas, "melting point") if d.value]
    good = [d for d in data if "more than 8 K" not in d.note] or data
    return float(good[0].value) if good and good[0].value is not None else None


def fit_curve(fit: VapourFit) -> Curve:
    """Return the equation of a row of compiled coefficients.

    Parameters
    ----------
    fit : VapourFit
        The row.

    Returns
    -------
    callable
        Temperatures [K] to pressures [Pa]; nothing is claimed outside its range.
    """
    a, b = float(fit.a), float(fit.b)
    c, d, e = (float(each or 0) for each in (fit.c, fit.d, fit.e))
    if fit.equation == "Antoine":
        base: Literal["e", "10"] = "e" if fit.log_base == "e" else "10"
        return lambda kelvin: antoine_pressure(
            kelvin, a, b, c, log_base=base, pressure_unit="Pa", temperature_unit="K"
        )
    if fit.equation == "DIPPR 101":
        return lambda kelvin: dippr_pressure(kelvin, a, b, c, d, e)
    form: Literal["2.5-5", "3-6"] = "3-6" if "3-6" in fit.equation else "2.5-5"
    return lambda kelvin: wagner_pressure(
        kelvin,
        (a, b, c, d),
        critical_temperature=float(fit.t_c),
        critical_pressure=float(fit.p_c),
        form=form,
    )
