"""What a person breathes in a shower in which a tablet dissolves.

An estimate with its bound: nothing here decides anything, one digit is shown, and
what no paper names is counted in grams. The middle is made with the middle of what the
papers print and of the three ways into the air; the bound with the most grams, all of
them released, whichever way the figures of the settings shown are put together.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import Final, TypeAlias

import numpy as np
from numpy.typing import NDArray

from blendcheck.blend.totals import Totals
from blendcheck.equations.arrays import FloatArray
from blendcheck.estimates.release import Release, release_of
from blendcheck.estimates.scent import Constituent, Grams, Scent, scent_of
from blendcheck.estimates.setting import (
    ShowerSetting,
    corners_of,
    grid_of,
    setting_of,
)
from blendcheck.estimates.shower import (
    course_of,
    gas_for,
    moments_of,
    responses,
)
from blendcheck.quantity import Mark
from blendcheck.records.recipe import Product
from blendcheck.records.setting import Shower

__all__ = ["ConstituentAir", "Levels", "NoAir", "OverTime", "ShowerAir", "shower_air"]

IntArray: TypeAlias = NDArray[np.int64]

_POINTS: Final = 161
_MG_PER_G: Final = 1e3


@dataclass(frozen=True, slots=True)
class NoAir:
    """Why no estimate is made: a code of the table of words."""

    code: str


@dataclass(frozen=True, slots=True, eq=False)
class Levels:
    """Concentrations by quantity and zone, of one constituent or of all.

    Each array has the shape (3, 2), by :data:`~blendcheck.estimates.shower.QUANTITIES`
    and :data:`~blendcheck.estimates.shower.ZONES`. [mg/m3]

    Parameters
    ----------
    central : array or None
        At the setting as entered; ``None`` where no vapour pressure is known, and of
        all scent where no paper names any of it.
    least, most : array
        At that setting, over what the papers and the three ways leave open.
    lowest, highest : array or None
        The central value over the grid.
    lowest_at, highest_at : array of int
        Which settings of the grid those are.
    bound : array
        The most grams, released in full, with the figures of the grid put together
        in the way that fills the air most; for a constituent at most its saturated
        vapour.
    floor : array
        The other end: the fewest grams and the least release, put together in the way
        that fills the air least.
    """

    central: FloatArray | None
    least: FloatArray
    most: FloatArray
    lowest: FloatArray | None
    highest: FloatArray | None
    lowest_at: IntArray
    highest_at: IntArray
    bound: FloatArray
    floor: FloatArray


@dataclass(frozen=True, slots=True, eq=False)
class ConstituentAir:
    """One constituent in the air.

    Parameters
    ----------
    constituent : Constituent
        Its grams in one use.
    release : Release
        What leaves of it.
    levels : Levels
        What is in the air.
    ceiling : float
        Saturated vapour at the temperature of the water; infinite where no vapour
        pressure is known. [mg/m3]
    """

    constituent: Constituent
    release: Release
    levels: Levels
    ceiling: float

    @property
    def marks(self) -> frozenset[Mark]:
        """Doubts."""
        return self.constituent.marks | self.release.marks


@dataclass(frozen=True, slots=True, eq=False)
class OverTime:
    """Concentrations of all scent over time, at the setting as entered.

    Parameters
    ----------
    minutes : array
        From the beginning of the first shower. [min]
    stall, bathroom : array
        The central value. [mg/m3]
    stall_full, bathroom_full : array
        The most grams, released in full. [mg/m3]
    moments : tuple of (float, str)
        What happens when. [min]
    """

    minutes: FloatArray
    stall: FloatArray
    bathroom: FloatArray
    stall_full: FloatArray
    bathroom_full: FloatArray
    moments: tuple[tuple[float, str], ...]


@dataclass(frozen=True, eq=False)
class ShowerAir:
    """What is in the air of a shower.

    Parameters
    ----------
    setting : ShowerSetting
        As entered, with what was filled in.
    grid : tuple of ShowerSetting
        The settings that the spread is shown over, the first one as entered.
    scent : Scent
        What one use holds.
    constituents : tuple of ConstituentAir
        Most grams first.
    total : Levels
        All scent together. Its bound holds what no paper names as well.
    """

    setting: ShowerSetting
    grid: tuple[ShowerSetting, ...]
    scent: Scent
    constituents: tuple[ConstituentAir, ...]
    total: Levels

    @property
    def counted_in_full(self) -> tuple[str, ...]:
        """Constituents without a vapour pressure, in the total at full release."""
        return tuple(
            one.constituent.name
            for one in self.constituents
            if not one.release.is_known
        )

    @property
    def sources(self) -> tuple[str, ...]:
        """Source ids of everything that went in, each once."""
        ids = (
            *self.setting.sources,
            *(s for c in self.constituents for s in c.release.sources),
        )
        return tuple(dict.fromkeys(ids))

    @property
    def marks(self) -> frozenset[Mark]:
        """Doubts of the total."""
        found = set(self.setting.marks)
        for one in self.constituents:
            found |= one.marks
        return frozenset(found)

    @cached_property
    def over_time(self) -> OverTime:
        """Concentrations over time, for a chart."""
        course = course_of(self.setting)
        end = float(np.max(course.duration))
        moments = moments_of(self.setting)
        grid = np.linspace(0.0, end, _POINTS)
        stops = np.array([minute / 60 for minute, _ in moments if minute / 60 <= end])
        both = np.round(np.concatenate([grid, stops]), 9)  # one moment, one point
        hours = np.unique(np.minimum(both, end))
        unit = course.at(hours[:, None])[:, 0, :]  # (times, zones)
        middle, full = np.zeros(unit.shape), np.zeros(unit.shape)
        for one in self.constituents:
            grams, release = one.constituent.grams, one.release
            part = float(release.central[0]) if release.is_known else 1.0
            middle += np.minimum(_MG_PER_G * grams.middle * part * unit, one.ceiling)
            full += np.minimum(_MG_PER_G * grams.high * unit, one.ceiling)
        full += _MG_PER_G * self.scent.unknown.high * unit
        full = np.minimum(full, _MG_PER_G * _all_grams(self.scent) * unit)
        return OverTime(
            60 * hours, middle[:, 0], middle[:, 1], full[:, 0], full[:, 1], moments
        )


def shower_air(
    totals: Totals,
    product: Product,
    shower: Shower | None = None,
    *,
    scent: Scent | None = None,
) -> ShowerAir | NoAir:
    """Estimate what is in the air of a shower.

    Parameters
    ----------
    totals : Totals
        Totals of a recipe.
    product : str
        What is made; only a shower tablet dissolves in a shower.
    shower : Shower, optional
        What the maker entered.
    scent : Scent, optional
        What one use holds, if it was worked out already.

    Returns
    -------
    ShowerAir or NoAir
        The second with its reason: the product, a piece of which it is not known how
        much it weighs, or nothing scented.
    """
    if product != "shower tablet":
        mist = product == "room mist"
        return NoAir("air.no-estimate-droplets" if mist else "air.no-estimate-product")
    scent = scent if scent is not None else scent_of(totals)
    if scent is None:
        return NoAir("air.no-estimate-piece")
    if not scent.leaves:
        return NoAir("air.no-estimate-scentless")
    return air_of(scent, setting_of(shower))


def air_of(scent: Scent, setting: ShowerSetting) -> ShowerAir:
    """Estimate what a known scent leaves in the air.

    Parameters
    ----------
    scent : Scent
        What one use holds.
    setting : ShowerSetting
        The shower.

    Returns
    -------
    ShowerAir
        Every constituent and their total.
    """
    grid = grid_of(setting)
    unit, least, most = _of_one_gram(setting)
    gas = gas_for(scent.gas_g, scent.load.middle, setting)
    found: list[ConstituentAir] = []
    for one in scent.constituents:
        release = release_of(one.cas, grid, gas)
        levels = _levels(one.grams, release, unit, (least, most))
        found.append(ConstituentAir(one, release, levels, float(release.ceiling[0])))
    return ShowerAir(
        setting, grid, scent, tuple(found), _total(scent, found, unit, most)
    )


@lru_cache(maxsize=16)
def _of_one_gram(setting: ShowerSetting) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Return what one gram becomes at the grid of a setting, the least and the most.

    It does not rest on the recipe, so it is kept while the shower stays the same.
    """
    unit = _MG_PER_G * responses(grid_of(setting))
    corners = _MG_PER_G * responses(corners_of(setting))
    least = np.minimum(unit.min(axis=0), corners.min(axis=0))
    most = np.maximum(unit.max(axis=0), corners.max(axis=0))
    for kept in (unit, least, most):
        kept.flags.writeable = False
    return unit, least, most


def _levels(
    grams: Grams,
    release: Release,
    unit: FloatArray,
    ends: tuple[FloatArray, FloatArray],
) -> Levels:
    ceiling = release.ceiling[:, None, None]

    def at(mass: float, part: FloatArray) -> FloatArray:
        return np.minimum(mass * part[:, None, None] * unit, ceiling)

    middle = at(grams.middle, release.central) if release.is_known else None
    return _gathered(
        middle,
        at(grams.low, release.low)[0],
        at(grams.high, release.high)[0],
        np.minimum(grams.high * ends[1], release.ceiling.max()),
        np.minimum(grams.low * release.low.min() * ends[0], release.ceiling.min()),
    )


def _gathered(
    middle: FloatArray | None,
    least: FloatArray,
    most: FloatArray,
    bound: FloatArray,
    floor: FloatArray,
) -> Levels:
    if middle is None:
        nowhere: IntArray = np.zeros(least.shape, dtype=np.int64)
        return Levels(None, least, most, None, None, nowhere, nowhere, bound, floor)
    return Levels(
        middle[0],
        least,
        most,
        middle.min(axis=0),
        middle.max(axis=0),
        middle.argmin(axis=0),
        middle.argmax(axis=0),
        bound,
        floor,
    )


def _total(
    scent: Scent, parts: Sequence[ConstituentAir], unit: FloatArray, at_most: FloatArray
) -> Levels:
    """Add the constituents; the bound holds all the scent, named or not."""
    shape = unit.shape
    middle, least = np.zeros(shape), np.zeros(shape[1:])
    most, full = np.zeros(shape[1:]), np.zeros(shape[1:])
    for one in parts:
        grams, release = one.constituent.grams, one.release
        part = release.central if release.is_known else np.ones(release.low.shape)
        ceiling = release.ceiling[:, None, None]
        middle += np.minimum(grams.middle * part[:, None, None] * unit, ceiling)
        full += one.levels.bound
        least += one.levels.least
        most += one.levels.most
    everything, unknown = _all_grams(scent), scent.unknown.high
    full = np.minimum(full + unknown * at_most, everything * at_most)
    most = np.minimum(most + unknown * unit[0], everything * unit[0])
    floor = sum((one.levels.floor for one in parts), np.zeros(shape[1:]))
    return _gathered(middle if parts else None, least, most, full, floor)


def _all_grams(scent: Scent) -> float:
    """Grams of everything that could be in the air."""
    return scent.load.high + sum(
        one.grams.high for one in scent.not_estimated if not one.in_load
    )
