"""The ways in which a vapour pressure is known, in the order in which they count.

A measured row comes first, within :data:`MOVED_K` of where it was measured; then
compiled coefficients inside their range; then a measured row moved further; last the
estimate that is anchored at the boiling point. All of them mean the liquid, below its
melting point the sub-cooled liquid, which is what evaporates from a blend. A figure
from memory or of unstated method never counts as measured, and none is used.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache, partial
from typing import Final, Literal

import numpy as np

from blendcheck import reference
from blendcheck.equations.anchored import (
    ESTIMATE_FACTOR,
    FISHTINE_FACTORS,
    anchored_estimate,
)
from blendcheck.equations.arrays import FloatArray
from blendcheck.equations.constants import ZERO_CELSIUS
from blendcheck.equations.vapour import (
    clausius_clapeyron_pressure,
    subcooled_liquid_pressure,
    thomson_pressure,
)
from blendcheck.estimates.points import (
    Curve,
    alike,
    boiling_point,
    fit_curve,
    melting_point,
)

__all__ = [
    "COMPILED_FACTOR",
    "HANDBOOK_FACTOR",
    "ISOMER_FACTOR",
    "MEASURED_FACTOR",
    "MOVED_K",
    "Branch",
    "How",
    "branches_of",
]

How = Literal["measured", "compiled", "estimated"]

MOVED_K: Final = 25.0
"""How far a measured pressure is moved before compiled coefficients count more. [K]"""

HANDBOOK_FACTOR: Final = 1.2
"""Uncertainty of an evaluated equation, times or divided by. [-] 95 % of 74 pairs of
rival equations for one substance in our table lie within 1.16 of each other."""

COMPILED_FACTOR: Final = 1.35
"""The same of compiled Antoine constants; 95 % of 127 pairs lie within 1.32. [-]"""

MEASURED_FACTOR: Final = 1.2
"""The same of a measurement whose method is stated, where it was made. [-] Own
choice: our measured rows agree with rival sources within 1.5."""

ISOMER_FACTOR: Final = 1.3
"""By how much more a figure is uncertain that was taken from an isomer. [-] Own
choice. Mirror images and their racemate count as one liquid."""

_HEAT_DOUBT: Final = 0.1
"""Relative uncertainty of a heat of vaporisation, also of one that a curve implies.
[-] Own choice."""

_SLOPE: Final = 6000.0
"""- d ln P / d(1/T) of a fragrance constituent, for that uncertainty only. [K]"""

_ANTOINE = frozenset({"landolt-antoine", "nist-webbook"})
_COLD_K, _HOT_K = 200.0, 480.0
_ROOM_K = 298.15
_MIRROR = re.compile(r"^(?:d|l|dl)-")
_AT = re.compile(r"(\d+(?:\.\d+)?) degC")


@dataclass(frozen=True, slots=True, eq=False)
class Branch:
    """One way in which the vapour pressure of a substance is known.

    Parameters
    ----------
    how : {"measured", "compiled", "estimated"}
        What kind of figure it is.
    of : str
        CAS number of the substance whose figures are used: its own, or an isomer's.
    low, high : float
        Between which temperatures it counts. [K]
    curve : callable
        Temperatures [K] to pressures of the liquid [Pa].
    factor : callable
        Temperatures [K] to the factor of uncertainty, times or divided by. [-]
    sources : tuple of str
        Source ids.
    tag : {"seen", "memory"}
        ``memory`` where a figure that went in was not read in a source.
    says : str
        What it is, without numbers that depend on the temperature.
    """

    how: How
    of: str
    low: float
    high: float
    curve: Curve
    factor: Curve
    sources: tuple[str, ...]
    tag: Literal["seen", "memory"]
    says: str


def _own(cas: str, of: str) -> tuple[float, str]:
    """Return the factor and the words for a figure that may be of an isomer."""
    if of == cas:
        return 1.0, ""
    table = reference.constituents()
    names = [_MIRROR.sub("", table[one].name) for one in (cas, of) if one in table]
    mirrored = len(set(names)) == 1
    return 1.0 if mirrored else ISOMER_FACTOR, f", taken from {table[of].name}"


def _measured(cas: str, of: str) -> Iterator[tuple[Branch, Branch]]:
    """Yield each measured row of a substance, near where it was measured and far."""
    for datum in reference.vapour_pressures_of(of):
        found = _AT.match(datum.conditions)
        if datum.basis != "measured" or datum.tag == "memory" or not found:
            continue
        at, value = float(found[1]) + ZERO_CELSIUS, float(datum.value or 0)
        crystal = "; crystal" in datum.conditions
        if crystal:
            melting = melting_point(of)
            if melting is None:
                continue
            value = float(subcooled_liquid_pressure(value, at, melting))
        moved = _moved(of, at, value)
        if moved is None:
            continue
        curve, top, sources = moved
        extra, words = _own(cas, of)
        extra *= MEASURED_FACTOR * (1.5 if crystal else 1.0)

        def factor(
            kelvin: FloatArray, at: float = at, base: float = extra
        ) -> FloatArray:
            away = np.abs(1 / np.asarray(kelvin) - 1 / at)
            return np.asarray(base * np.exp(_HEAT_DOUBT * _SLOPE * away))

        state = "of the crystals, made into that of the liquid" if crystal else ""
        says = " ".join(filter(None, ("measured", state)))
        says = f"{says} at {found[0].replace('degC', '°C')}{words}"
        near = Branch(
            "measured",
            of,
            at - MOVED_K,
            min(at + MOVED_K, top),
            curve,
            factor,
            (datum.source_id, *sources),
            "seen",
            says,
        )
        far = Branch(
            "measured",
            of,
            _COLD_K,
            top,
            curve,
            factor,
            (datum.source_id, *sources),
            "seen",
            f"{says} and moved from there",
        )
        yield near, far


def _moved(
    of: str, at: float, value: float
) -> tuple[Curve, float, tuple[str, ...]] | None:
    """Return a curve through a measured point, how far up it holds, and its sources."""
    boiling = boiling_point(of)
    if boiling is not None and boiling[0] > at:
        curve = partial(thomson_pressure, known=at, pressure=value, boiling=boiling[0])
        return curve, boiling[0], (boiling[1],)
    heats = reference.properties_of(of, "enthalpy of vaporisation")
    if not heats or heats[0].value is None:
        return None
    heat = partial(
        clausius_clapeyron_pressure,
        known=at,
        pressure=value,
        heat=float(heats[0].value),
    )
    return heat, at + 80.0, (heats[0].source_id,)


def _compiled(cas: str, of: str) -> Iterator[Branch]:
    extra, words = _own(cas, of)
    melting = melting_point(of) or 0.0
    for fit in reference.vapour_fits_of(of):
        low, high = float(fit.t_min_k), float(fit.t_max_k)
        if fit.equation == "Antoine":  # below melting it may mean the crystal
            low = max(low, melting)
        if low >= high:
            continue
        known = COMPILED_FACTOR if fit.source_id in _ANTOINE else HANDBOOK_FACTOR
        yield Branch(
            "compiled",
            of,
            low,
            high,
            fit_curve(fit),
            partial(_constant, value=known * extra),
            (fit.source_id,),
            "seen" if fit.tag == "seen" else "memory",
            f"compiled coefficients{words}",
        )


def _constant(kelvin: FloatArray, value: float) -> FloatArray:
    return np.full(np.shape(kelvin), value)


def _estimated(cas: str, of: str) -> Branch | None:
    """Return the estimate anchored at the boiling point.

    Its factor of uncertainty shrinks to that of a measurement at the boiling point,
    where the curve is fixed.
    """
    boiling, row = boiling_point(of), reference.critical_point_of(of)
    if boiling is None or row is None:
        return None
    top, boiling_source = boiling
    extra, words = _own(cas, of)
    curve = partial(
        anchored_estimate,
        boiling=top,
        critical_temperature=top * float(row.t_c_over_t_b),
        critical_pressure=float(row.p_c),
        fishtine=FISHTINE_FACTORS[row.fishtine_class],
    )

    def factor(kelvin: FloatArray) -> FloatArray:
        away = np.abs(1 / np.asarray(kelvin) - 1 / top) / (1 / _ROOM_K - 1 / top)
        return np.asarray(np.maximum(ESTIMATE_FACTOR**away, MEASURED_FACTOR) * extra)

    return Branch(
        "estimated",
        of,
        max(_COLD_K, 0.35 * top * float(row.t_c_over_t_b)),
        min(top + 10.0, _HOT_K) if top < _HOT_K else _HOT_K,
        curve,
        factor,
        ("lee-kesler-1975", "lyman-1990", row.source_id, boiling_source),
        "memory",  # Fishtine's factors are
        f"estimated from the boiling point{words}",
    )


@cache
def branches_of(cas: str) -> tuple[Branch, ...]:
    """Return every way in which a vapour pressure is known, the preferred first.

    Parameters
    ----------
    cas : str
        A CAS number.

    Returns
    -------
    tuple of Branch
        Empty where nothing is known. Within each kind the substance's own figures
        come before those of an isomer.
    """
    same = alike(cas)
    pairs = [pair for of in same for pair in _measured(cas, of)]
    estimates = (_estimated(cas, of) for of in same)
    return (
        *(near for near, _ in pairs),
        *(branch for of in same for branch in _compiled(cas, of)),
        *(far for _, far in pairs),
        *(branch for branch in estimates if branch is not None),
    )
