r"""Flash point of a liquid blend, and the lower flammable limit of a mixed vapour.

A liquid flashes at the temperature at which its vapour reaches the lower limit of
Le Chatelier's rule; each flammable part alone reaches its own limit at its own flash
point. Only ratios of vapour pressures enter.
"""

from collections.abc import Callable, Sequence
from typing import Final, TypeAlias

import numpy as np

from blendcheck.equations.activity import ModifiedUnifac
from blendcheck.equations.arrays import (
    BoolArray,
    FloatArray,
    Floats,
    IndexArray,
    fraction,
    not_negative,
    positive,
    within,
)
from blendcheck.errors import DomainError

__all__ = ["MODEL_ERROR", "Pressure", "flash_point", "le_chatelier_limit"]

Pressure: TypeAlias = Callable[[FloatArray], FloatArray]
"""Vapour pressure of one part: temperatures [K] to pressures [Pa], any shape."""

MODEL_ERROR: Final = 5.0
"""What an estimated flash point may be wrong by, either way. [K]

Measured flash points of aqueous solutions lay within 5 K of a like model,
source id ``astbury-2004``; uncertain flash points of the parts add to it.
"""

_TYPICAL_SLOPE: Final = -5500.0
"""d ln P / d(1/T) of a fragrance constituent, for the first step only. [K]"""

_NEAR: Final = 1e-7
"""Step at which a flash point is taken as found. [K]"""

_ROUGH: Final = 0.5
"""The same for a first guess. [K]"""

_START: Final = 330.0
_MOST_STEPS: Final = 80
_CHUNK: Final = 1000
"""Blends that are worked out at a time: what fits the processor's cache."""


def flash_point(
    x: Floats,
    pressures: Sequence[Pressure],
    flash_points: Floats,
    activity: ModifiedUnifac | None,
    *,
    lowest: float = 200.0,
    highest: float = 480.0,
) -> FloatArray:
    r"""Return the flash points of blends by Liaw's method.

    Parameters
    ----------
    x : array, shape (..., n)
        Mole fractions, >= 0, adding up to 1 in each blend. [mol/mol]
    pressures : sequence of n callables
        Vapour pressure of each part; asked for temperatures from ``lowest`` to
        ``highest``. For a dissolved solid, of the sub-cooled liquid.
    flash_points : array, shape (..., n)
        Closed-cup flash point of each part alone, ``lowest`` to ``highest``, or
        infinite for a part that does not burn (water). Nothing else may stand for a
        flash point that is not known. [K]
    activity : ModifiedUnifac or None
        Model of the activity coefficients; ``None`` takes them as 1.
    lowest, highest : float
        Between which temperatures the flash point is looked for. [K]

    Returns
    -------
    array, shape (...)
        Flash point; infinite where the blend does not flash up to ``highest``. [K]

    Raises
    ------
    DomainError
        If a number is outside its range (NaN included), the shapes do not fit, a
        blend flashes below ``lowest``, or ``activity`` is ``None`` where a part that
        does not burn is mixed with one that does: water with alcohol or oil is far
        from activity 1, and the result could be 30 K too high.

    Notes
    -----
    The temperature at which
    :math:`\sum_i x_i \gamma_i P_i(T)/P_i(T_{f,i}) = 1`, i flammable.
    From source id ``liaw-2002``. Solved for the logarithm over 1/T, which is nearly
    linear, by secants inside a bracket, so that a blend which flashes below all its
    parts is found like any other. Valid for: one liquid phase (see
    :func:`~blendcheck.equations.activity.stands_above_one`), parts of which the vapour
    is flammable alone, still liquid in a closed cup; not for mists, soaked cloths or
    powders. Departs from the source in: the lower limit does not change with
    temperature, and vapour of water does not dampen the flame; both matter most in weak
    aqueous solutions. Uncertain by :data:`MODEL_ERROR`.

    Examples
    --------
    Two equal parts with one vapour pressure curve, 320 K and 340 K:

    >>> curve = lambda kelvin: 1e11 * np.exp(-5500 / kelvin)
    >>> float(flash_point([0.5, 0.5], [curve, curve], [320.0, 340.0], None))
    327.29
    """
    fractions, points = np.broadcast_arrays(
        not_negative("x", x), _points(flash_points, lowest, highest)
    )
    if fractions.ndim == 0 or fractions.shape[-1] != len(pressures):
        raise DomainError("x", fractions.shape, f"(..., {len(pressures)})")
    within("sum of x", fractions.sum(axis=-1), 1 - 1e-9, 1 + 1e-9)
    burns = np.isfinite(points) & (fractions > 0)
    if activity is None and np.any(
        burns.any(-1) & ((fractions > 0) & ~np.isfinite(points)).any(-1)
    ):
        raise DomainError(
            "activity", None, "a model where a part that does not burn is mixed in"
        )
    shape = fractions.shape[:-1]
    flat, limits = (each.reshape(-1, len(pressures)) for each in (fractions, points))
    result = np.empty(len(flat))
    for start in range(0, len(flat), _CHUNK):
        part = slice(start, start + _CHUNK)
        blends = _Blends(flat[part], limits[part], pressures)
        kelvin = np.full(len(blends.x), np.clip(_START, lowest, highest))
        if activity is not None:  # at activity 1 first: cheap, and near enough
            kelvin = blends.solve(_Search(kelvin, lowest, highest, _ROUGH), None)
            kelvin = np.clip(kelvin, lowest, highest)
        search = _Search(kelvin, lowest, highest, _NEAR)
        result[part] = blends.solve(search, activity)
    if np.any(result < lowest):
        raise DomainError("flash point", f"below {lowest:g}", f">= {lowest:g} K")
    return result.reshape(shape)


def _points(flash_points: Floats, lowest: float, highest: float) -> FloatArray:
    points = np.asarray(flash_points, dtype=np.float64)
    known = np.where(np.isposinf(points), lowest, points)
    within("flash_points", known, lowest, highest)
    return points


class _Blends:
    """The sum of Le Chatelier's rule for some blends, and where it is 1."""

    def __init__(
        self, x: FloatArray, points: FloatArray, pressures: Sequence[Pressure]
    ) -> None:
        self.x, self.pressures = x, pressures
        self.weights = np.zeros_like(x)
        for i, pressure in enumerate(pressures):
            burns = np.isfinite(points[:, i])
            if burns.any():
                alone = positive("vapour pressure", pressure(points[burns, i]))
                self.weights[burns, i] = x[burns, i] / alone

    def log_sum(
        self, rows: IndexArray, kelvin: FloatArray, activity: ModifiedUnifac | None
    ) -> FloatArray:
        """Logarithm of the sum for some of the blends, each at its temperature."""
        terms = self.weights[rows]
        for i, pressure in enumerate(self.pressures):
            if np.any(terms[:, i]):
                terms[:, i] *= pressure(kelvin)
        if activity is not None:
            terms = terms * activity.coefficients(self.x[rows], kelvin)
        with np.errstate(divide="ignore"):
            return np.asarray(np.log(terms.sum(axis=-1)))

    def solve(self, search: "_Search", activity: ModifiedUnifac | None) -> FloatArray:
        """Return the temperatures; inf above the range, -inf below it."""
        found = np.full(len(self.x), np.inf)
        burns = np.asarray(self.weights.any(axis=-1))
        rows = np.flatnonzero(burns)
        search.keep(burns)
        for _ in range(_MOST_STEPS):
            if not len(rows):
                return found
            done, kelvin = search.step(self.log_sum(rows, search.kelvin, activity))
            found[rows[done]] = kelvin[done]
            rows = rows[~done]
            search.keep(~done)
        raise DomainError("flash point", "none found", "a root of the sum")


class _Search:
    """Secants over 1/T inside a bracket, for many temperatures at once."""

    def __init__(
        self, start: FloatArray, lowest: float, highest: float, near: float
    ) -> None:
        self.lowest, self.highest, self.near = lowest, highest, near
        self.kelvin = start
        # The bracket; an end that was not tried yet is NaN.
        self.low, self.high = np.full_like(start, np.nan), np.full_like(start, np.nan)
        self.last, self.last_value = np.full_like(start, np.nan), np.zeros_like(start)

    def step(self, value: FloatArray) -> tuple[BoolArray, FloatArray]:
        """Take the values at the present temperatures and choose the next.

        Return where the search is over, and what it has found there.
        """
        now = self.kelvin
        beyond = (now >= self.highest) & (value < 0)
        under = (now <= self.lowest) & (value > 0)
        self.low = np.where(value < 0, now, self.low)
        self.high = np.where(value > 0, now, self.high)
        following = np.where(value == 0, now, self._next(value))
        done = beyond | under | (np.abs(following - now) < self.near)
        found = np.where(beyond, np.inf, np.where(under, -np.inf, following))
        self.last, self.last_value, self.kelvin = now, value, following
        return done, found

    def _next(self, value: FloatArray) -> FloatArray:
        inverse = 1 / self.kelvin
        with np.errstate(divide="ignore", invalid="ignore"):
            slope = (value - self.last_value) / (inverse - 1 / self.last)
        slope = np.where(slope < 0, slope, _TYPICAL_SLOPE)
        following = 1 / np.maximum(inverse - value / slope, 1e-6)
        # Where the step leaves the bracket, its middle; where it leaves the range on
        # a side that was not tried, the end of the range.
        outside = (following <= self.low) | (following >= self.high)
        middle = 2 / (1 / self.low + 1 / self.high)
        closed = np.isfinite(middle)
        following = np.where(outside & closed, middle, following)
        return np.clip(following, self.lowest, self.highest)

    def keep(self, rows: BoolArray) -> None:
        """Drop the temperatures that are found."""
        for name in ("kelvin", "low", "high", "last", "last_value"):
            setattr(self, name, getattr(self, name)[rows])


def le_chatelier_limit(fractions: Floats, limits: Floats) -> FloatArray:
    r"""Return the lower flammable limit of a mixture of vapours.

    Parameters
    ----------
    fractions : array, shape (..., n)
        Share of each vapour in the flammable part, adding up to 1. [mol/mol]
    limits : array, shape (..., n)
        Lower limit of each, above 0, below 100. [% by volume]

    Returns
    -------
    array, shape (...)
        Lower limit of the mixture. [% by volume]

    Raises
    ------
    DomainError
        If a number is outside its range or the shares do not add up to 1 (NaN
        included).

    Notes
    -----
    :math:`L = 1/\sum_i (y_i/L_i)`. From source id ``crowl-louvar``, Le
    Chatelier's rule. Valid for: vapours that burn alike, limits at one temperature.
    Departs from the source in: nothing.

    Examples
    --------
    Hexane, methane and ethylene:

    >>> float(le_chatelier_limit([0.24, 0.61, 0.15], [1.2, 5.3, 3.1]))
    2.751
    """
    shares = fraction("fractions", fractions)
    within("sum of fractions", shares.sum(axis=-1), 1 - 1e-9, 1 + 1e-9)
    each = within("limits", positive("limits", limits), 0.0, 100.0)
    return np.asarray(1 / (shares / each).sum(axis=-1))
