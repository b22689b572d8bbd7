"""At which composition inside the printed ranges a blend flashes lowest, and highest.

The ranges and the masses leave a polytope of grams open. From several starts, steps are
taken towards the corner to which the slope points, as far as that helps, so that an end
which lies between two corners (a blend that flashes below both its parts) is found too.
The slope holds what a gram does to all activity coefficients: with water or a glycol in
it, that is most of it.
"""

from collections.abc import Sequence
from typing import Final, Literal

import numpy as np

from blendcheck.equations.arrays import FloatArray
from blendcheck.estimates.mixing import MixedLot, Mixture

__all__ = ["end_of"]

_START_K: Final = 330.0
_NUDGE: Final = 1e-5
"""Of all the grams, by which a slope is taken. [-]"""
_STRIDES: Final = (1.0, 0.5, 0.25, 0.1, 0.03, 0.01)
"""How far towards a corner a step goes; the best of them is taken. [-]"""
_STEPS: Final = 25
_ROUNDS: Final = 3
_MOST_STARTS: Final = 8
_GAIN: Final = 1e-6
"""Of the logarithm of the sum, below which a step is no gain; some 1e-4 K. [-]"""


def end_of(mixture: Mixture, end: Literal["low", "high"]) -> tuple[FloatArray, float]:
    """Return the composition at which the flash point is lowest or highest.

    Parameters
    ----------
    mixture : Mixture
        What is mixed.
    end : {"low", "high"}
        Which end.

    Returns
    -------
    (array, float)
        Mole fractions and flash point, infinite where it does not flash. [K]

    Notes
    -----
    Frank and Wolfe's method from several starts, own implementation: an end that lies
    far from all of them can be missed. A test holds it against compositions at random
    and corners at random.
    """
    search = _Search(mixture, end)
    grams = search.middle()[None]
    if not search.is_open:
        x = mixture.moles(grams, end)
        return x[0], float(mixture.kelvin(x, end)[0])
    kelvin = float(search.flash(grams)[0])
    best = grams[0]
    grams = search.starts(best, kelvin)
    for _ in range(_ROUNDS):
        grams = search.descend(grams, kelvin)
        points = search.flash(grams)
        first = int(np.argmin(search.sign * points))
        gain = search.sign * (kelvin - float(points[first]))
        if gain > 0:
            best, kelvin = grams[first], float(points[first])
        if not gain > _GAIN or not np.isfinite(kelvin):
            break
    return mixture.moles(best[None], end)[0], kelvin


class _Search:
    """Compositions in grams of the parts, many at once, shape (starts, parts)."""

    def __init__(self, mixture: Mixture, end: Literal["low", "high"]) -> None:
        self.mixture, self.end = mixture, end
        self.sign = 1.0 if end == "low" else -1.0
        points = mixture.flash_points(end)
        self._burns = np.isfinite(points)
        self._alone = np.array(
            [
                float(curve(np.asarray(point))) if np.isfinite(point) else np.inf
                for curve, point in zip(mixture.curves, points, strict=True)
            ]
        )

    @property
    def lots(self) -> Sequence[MixedLot]:
        """The lots."""
        return self.mixture.lots

    @property
    def is_open(self) -> bool:
        """Whether anything is left open."""
        return any(lot.is_open for lot in self.lots)

    def middle(self) -> FloatArray:
        """Return grams near the middle of every range."""
        masses = [sum(lot.grams) / 2 for lot in self.lots]
        shares = [lot.filled_alike() for lot in self.lots]
        return self.mixture.grams(shares, np.array(masses))

    def flash(self, grams: FloatArray) -> FloatArray:
        """Return the flash points."""
        return self.mixture.kelvin(self.mixture.moles(grams, self.end), self.end)

    def value(self, grams: FloatArray, kelvin: float) -> FloatArray:
        """Return the logarithm of Le Chatelier's sum, larger where it flashes lower."""
        at = np.asarray(kelvin if np.isfinite(kelvin) else _START_K)
        ratio = np.array([float(curve(at)) for curve in self.mixture.curves])
        x = self.mixture.moles(grams, self.end)
        gammas = self.mixture.activity.coefficients(x, np.full(x.shape[:-1], at))
        with np.errstate(divide="ignore"):
            return np.asarray(np.log((x * gammas * (ratio / self._alone)).sum(axis=-1)))

    def slopes(self, grams: FloatArray, kelvin: float) -> FloatArray:
        """Return what a gram of each part does to that, turned towards the end."""
        size = grams.shape[-1]
        step = _NUDGE * grams.sum(axis=-1)[:, None, None]
        nudged = grams[:, None, :] + step * np.eye(size)
        here = self.value(grams, kelvin)[:, None]
        with np.errstate(invalid="ignore"):
            rise = (self.value(nudged, kelvin) - here) / step[..., 0]
        return np.asarray(np.nan_to_num(self.sign * rise, posinf=0.0, neginf=0.0))

    def corner(self, slopes: FloatArray) -> FloatArray:
        """Return the corner to which a slope points."""
        shares = [lot.fill(slopes) for lot in self.lots]
        masses = [
            lot.grams[1 if share @ slopes[lot.places] > 0 else 0]
            for lot, share in zip(self.lots, shares, strict=True)
        ]
        return self.mixture.grams(shares, np.array(masses))

    def starts(self, grams: FloatArray, kelvin: float) -> FloatArray:
        """Return the middle, the corner it points to, and corners full of one part."""
        slopes = self.slopes(grams[None], kelvin)[0]
        far = 1 + np.abs(slopes).max()
        room = np.zeros(slopes.shape)
        for lot in self.lots:
            np.add.at(room, lot.places, (lot.highs - lot.lows) * lot.grams[1])
        widest = [n for n in np.argsort(-room, kind="stable") if room[n] > 0]
        found = [grams, self.corner(slopes)]
        for n in widest[:_MOST_STARTS]:
            pushed = slopes.copy()
            pushed[n] = far
            found.append(self.corner(pushed))
        return np.unique(np.array(found), axis=0)

    def descend(self, grams: FloatArray, kelvin: float) -> FloatArray:
        """Step towards the corners for as long as it helps, at one temperature."""
        grams = grams.copy()
        moving = np.arange(len(grams))
        for _ in range(_STEPS):
            here = grams[moving]
            corners = np.array([self.corner(s) for s in self.slopes(here, kelvin)])
            strides = np.reshape(_STRIDES, (-1, 1, 1))
            tried = here + strides * (corners - here)
            values = self.sign * self.value(tried, kelvin)
            best = values.argmax(axis=0)
            rows = np.arange(len(here))
            with np.errstate(invalid="ignore"):
                gain = values[best, rows] - self.sign * self.value(here, kelvin)
            helps = gain > _GAIN
            grams[moving[helps]] = tried[best, rows][helps]
            moving = moving[helps]
            if not len(moving):
                break
        return grams
