"""Vapour pressure of a constituent: the number, how it is known, and how well.

The choice is made in :mod:`blendcheck.estimates.branches` and travels with the
number. It is the pressure of the liquid; for a substance that is a crystal at that
temperature, of the sub-cooled liquid, because in a blend it is dissolved.
"""

from dataclasses import dataclass
from functools import cache
from typing import Final, Literal

import numpy as np

from blendcheck import reference
from blendcheck.equations.arrays import FloatArray, Floats, finite
from blendcheck.equations.constants import ZERO_CELSIUS
from blendcheck.estimates.branches import Branch, How, branches_of
from blendcheck.estimates.points import alike, melting_point
from blendcheck.quantity import Mark, print_estimate

__all__ = [
    "ROW_K",
    "LiquidCurve",
    "Pressure",
    "TabledCurve",
    "curve_of",
    "pressure_of",
    "pressures_of",
    "tabled_curve",
]

_USED_LOW_K, _USED_HIGH_K = 285.0, 385.0
"""Between which temperatures blends and their parts flash, and showers run. [K]"""

ROW_K: Final = 0.5
"""Distance of the rows of a tabled curve. [K]"""

_TABLE_K: Final = (199.0, 481.0)
_STEP_K: Final = 0.01
_NEAR_ONE: Final = 1.05
_ENOUGH_K: Final = 20.0


@dataclass(frozen=True, slots=True)
class Pressure:
    """A vapour pressure at one temperature.

    Parameters
    ----------
    cas : str
        Whose it is.
    celsius : float
        Temperature. [°C]
    pascals : float
        Vapour pressure of the liquid. [Pa]
    factor : float
        Its uncertainty, times or divided by, about two sigma. [-]
    how : {"measured", "compiled", "estimated"}
        How it is known.
    phase : {"liquid", "sub-cooled liquid"}
        The second where the substance alone is a crystal at that temperature.
    of : str
        CAS number of the substance whose figures were used.
    sources : tuple of str
        Source ids.
    tag : {"seen", "memory"}
        ``memory`` where a figure that went in was not read in a source.
    says : str
        One line with the number, its factor and how it is known.
    """

    cas: str
    celsius: float
    pascals: float
    factor: float
    how: How
    phase: Literal["liquid", "sub-cooled liquid"]
    of: str
    sources: tuple[str, ...]
    tag: Literal["seen", "memory"]
    says: str

    @property
    def low(self) -> float:
        """The number divided by its factor, in pascals."""
        return self.pascals / self.factor

    @property
    def high(self) -> float:
        """The number times its factor, in pascals."""
        return self.pascals * self.factor

    @property
    def marks(self) -> frozenset[Mark]:
        """Doubts that travel with every result made from it."""
        found = {Mark.ESTIMATED}
        return frozenset(
            found | ({Mark.FROM_MEMORY} if self.tag == "memory" else set())
        )


def pressure_of(cas: str, celsius: float) -> Pressure | None:
    """Return the vapour pressure of a constituent.

    Parameters
    ----------
    cas : str
        A CAS number.
    celsius : float
        Temperature, finite. [°C]

    Returns
    -------
    Pressure or None
        ``None`` where nothing is known: it is then not zero, and whoever asks has
        to say so (full release still bounds what reaches the air).

    Raises
    ------
    DomainError
        If ``celsius`` is not finite.

    Examples
    --------
    >>> found = pressure_of("5989-27-5", 25.0)  # d-limonene
    >>> found.how, found.pascals, found.factor
    ('measured', 200.0, 1.2)
    >>> pressure_of("494-90-6", 25.0) is None  # menthofuran
    True
    """
    kelvin = float(finite("celsius", celsius)) + ZERO_CELSIUS
    for branch in branches_of(cas):
        if branch.low <= kelvin <= branch.high:
            return _pressure(cas, branch, kelvin)
    return None


def _pressure(cas: str, branch: Branch, kelvin: float) -> Pressure:
    at = np.asarray(kelvin)
    pascals, factor = float(branch.curve(at)), float(branch.factor(at))
    known = (melting_point(one) for one in alike(cas))
    melting = next((each for each in known if each is not None), 0.0)
    solid = melting > kelvin
    celsius = kelvin - ZERO_CELSIUS
    name = reference.constituents()[cas].name
    liquid = "sub-cooled liquid" if solid else "liquid"
    says = (
        f"{name}, {liquid}, at {print_estimate(celsius, digits=3)} °C: "
        f"{print_estimate(pascals, digits=2)} Pa, times or divided by "
        f"{print_estimate(factor, digits=2)} ({branch.says})"
    )
    return Pressure(
        cas,
        celsius,
        pascals,
        factor,
        branch.how,
        "sub-cooled liquid" if solid else "liquid",
        branch.of,
        branch.sources,
        branch.tag,
        says,
    )


def pressures_of(cas: str, celsius: Floats) -> tuple[FloatArray, FloatArray] | None:
    """Return the vapour pressures of a constituent at many temperatures.

    Parameters
    ----------
    cas : str
        A CAS number.
    celsius : float or array
        Temperatures, finite. [°C]

    Returns
    -------
    (array, array) or None
        Pressures [Pa] and their factors of uncertainty [-], each number the same
        that :func:`pressure_of` gives; ``None`` where nothing is known at one of
        the temperatures.

    Raises
    ------
    DomainError
        If a temperature is not finite.
    """
    kelvin = finite("celsius", celsius) + ZERO_CELSIUS
    flat = np.atleast_1d(kelvin)
    pascals, factors = np.full(flat.shape, np.nan), np.full(flat.shape, np.nan)
    for branch in branches_of(cas):
        here = np.isnan(pascals) & (branch.low <= flat) & (flat <= branch.high)
        if here.any():
            pascals[here] = branch.curve(flat[here])
            factors[here] = branch.factor(flat[here])
    if np.isnan(pascals).any():
        return None
    return pascals.reshape(kelvin.shape), factors.reshape(kelvin.shape)


@dataclass(frozen=True, slots=True, eq=False)
class LiquidCurve:
    """One vapour-pressure curve without a jump, for ratios of pressures.

    Inside its range it is one branch; outside it goes on with a constant heat of
    vaporisation, so that an equation is never run where it can turn.

    Parameters
    ----------
    cas : str
        Whose it is.
    branch : Branch
        The one that it follows.
    """

    cas: str
    branch: Branch

    def __call__(self, kelvin: FloatArray) -> FloatArray:
        """Return the pressures in pascals, for temperatures in kelvins."""
        at = np.asarray(kelvin, dtype=np.float64)
        low, high = self.branch.low, self.branch.high
        inside = np.clip(at, low, high)
        found = np.asarray(self.branch.curve(inside))
        if np.array_equal(inside, at):
            return found
        (bottom, low_slope), (top, high_slope) = _ends(self.branch)
        down = bottom + low_slope * (1 / at - 1 / low)
        up = top + high_slope * (1 / at - 1 / high)
        return np.where(at < low, np.exp(down), np.where(at > high, np.exp(up), found))


@dataclass(frozen=True, slots=True, eq=False)
class TabledCurve:
    """A curve read from a table of ln P over 1/T, for many temperatures at once.

    Between the rows, :data:`ROW_K` apart, ln P counts as a straight line over 1/T;
    what that costs is below 5e-5 of the pressure.

    Parameters
    ----------
    inverse : array
        1/T, rising. [1/K]
    logs : array
        ln P. [-]
    """

    inverse: FloatArray
    logs: FloatArray

    def __call__(self, kelvin: FloatArray) -> FloatArray:
        """Return the pressures in pascals, for temperatures in kelvins."""
        return np.asarray(np.exp(np.interp(1 / kelvin, self.inverse, self.logs)))


@cache
def tabled_curve(cas: str) -> TabledCurve | None:
    """Return the curve of :func:`curve_of` as a table, 199 to 481 K.

    Parameters
    ----------
    cas : str
        A CAS number.

    Returns
    -------
    TabledCurve or None
        ``None`` where nothing is known.
    """
    curve = curve_of(cas)
    if curve is None:
        return None
    kelvin = np.arange(_TABLE_K[1], _TABLE_K[0] - ROW_K / 2, -ROW_K)
    return TabledCurve(1 / kelvin, np.log(curve(kelvin)))


@cache
def _ends(branch: Branch) -> tuple[tuple[float, float], tuple[float, float]]:
    """Return ln P and its slope over 1/T at both ends of a branch."""
    ends = []
    for end, inward in ((branch.low, _STEP_K), (branch.high, -_STEP_K)):
        kelvin = np.array([end, end + inward])
        logs = np.log(branch.curve(kelvin))
        slope = (logs[1] - logs[0]) / (1 / kelvin[1] - 1 / kelvin[0])
        ends.append((float(logs[0]), float(slope)))
    return ends[0], ends[1]


@cache
def curve_of(cas: str) -> LiquidCurve | None:
    """Return one smooth curve of the vapour pressure, for ratios of pressures.

    Parameters
    ----------
    cas : str
        A CAS number.

    Returns
    -------
    LiquidCurve or None
        A measured point with the boiling point first, then the compiled
        coefficients that cover most of 285 to 385 K (the preferred source where
        two cover alike, and none that covers less than 20 K of it), then the
        anchored estimate, then whatever there is; ``None`` where nothing is known.
    """
    branches = branches_of(cas)
    measured = [b for b in branches if b.how == "measured"]
    if measured:
        return LiquidCurve(cas, max(measured, key=lambda b: b.high - b.low))
    compiled = [b for b in branches if b.how == "compiled" and _covered(b) >= _ENOUGH_K]
    if compiled:
        most = max(map(_covered, compiled))
        return LiquidCurve(
            cas, next(b for b in compiled if _covered(b) * _NEAR_ONE >= most)
        )
    estimated = [b for b in branches if b.how == "estimated"]
    rest = estimated or branches
    return LiquidCurve(cas, rest[0]) if rest else None


def _covered(branch: Branch) -> float:
    low, high = max(branch.low, _USED_LOW_K), min(branch.high, _USED_HIGH_K)
    return max(high - low, 0.0)
