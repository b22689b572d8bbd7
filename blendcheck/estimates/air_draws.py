"""The air of a shower over many draws of the room, of release and of compositions.

The room is drawn once for all recipes, a composition once for a lot: draw number n is
the same shower and the same bottle wherever it is asked for. A spread of draws stands
beside the range, never instead of it; it says how often only as far as the figures are
spread as they are drawn here, and nobody has measured that.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from blendcheck.equations.arrays import FloatArray
from blendcheck.equations.constants import ZERO_CELSIUS
from blendcheck.equations.room import Course, Decaying, Stage
from blendcheck.equations.zones import TwoZones
from blendcheck.estimates.draws import DRAWS, SEED, seeded, share_draws
from blendcheck.estimates.pressures import pressures_of
from blendcheck.estimates.scent import Leaf, Scent
from blendcheck.estimates.setting import ShowerSetting, grid_of
from blendcheck.estimates.shower import gas_for
from blendcheck.estimates.ways import (
    Ratio,
    carried_part,
    dissolved_part,
    film_part,
    ratio_of,
)

__all__ = ["AirDraws", "Rooms", "air_draws", "gram_draws", "part_draws", "room_draws"]

_HUNDRED: Final = 100.0
_MG_PER_G: Final = 1e3
_SIGMAS: Final = 2.0


@dataclass(frozen=True, slots=True, eq=False)
class Rooms:
    """Showers drawn at random, each array one number a draw.

    Parameters
    ----------
    stall, bathroom : array
        Air. [m3]
    exchange, outflow : array
        Flow between stall and bathroom, and out of the bathroom. [m3/h]
    hours, dissolving : array
        Duration of the shower, and time until the piece is gone. [h]
    water : array
        Temperature of the water. [°C]
    shut : float
        Time with the door shut. [h]
    flow : float
        Flow of the water. [L/min]
    film, shared, gas : array
        Where the draw lies between slow and quick film, how much of it is film, and
        how much of what the gas could carry it carries. [-]
    """

    stall: FloatArray
    bathroom: FloatArray
    exchange: FloatArray
    outflow: FloatArray
    hours: FloatArray
    dissolving: FloatArray
    water: FloatArray
    shut: float
    flow: float
    film: FloatArray
    shared: FloatArray
    gas: FloatArray

    def responses(self) -> FloatArray:
        """Return what one milligram becomes: mean over the shower, and later.

        Returns
        -------
        array, shape (draws, 2, 2)
            Mean and what the next person meets; stall and bathroom. One shower with
            one piece. [mg/m3 for each mg]
        """
        zone = TwoZones(self.stall, self.bathroom, self.exchange, self.outflow)
        source = Decaying(np.ones(self.stall.shape), 3.0 / self.dissolving)
        course = Course(
            [Stage(zone, self.hours, decaying=[source]), Stage(zone, self.shut)]
        )
        return np.stack([course.mean(0.0, self.hours), course.last()], axis=1)


def room_draws(
    setting: ShowerSetting, draws: int = DRAWS, *, seed: int = SEED
) -> Rooms:
    """Draw showers around a setting.

    Parameters
    ----------
    setting : ShowerSetting
        The middle.
    draws : int, optional
        How many.
    seed : int, optional
        Seed of all draws.

    Returns
    -------
    Rooms
        Each figure between the ends of the grid, evenly by its logarithm (water
        temperature evenly), half of the draws below the figure as entered. Where the
        parts of release lie is drawn evenly.
    """
    grid = grid_of(setting)

    def chance(name: str) -> FloatArray:
        return seeded("shower", name, seed=seed).random(draws)

    def drawn(name: str) -> FloatArray:
        values = [float(getattr(one, name)) for one in grid]
        middle = max(float(getattr(setting, name)), 1e-6)
        low, high = max(min(values), 1e-6), max(values)
        points = np.log([low, middle, max(high, middle)])
        return np.asarray(np.exp(np.interp(chance(name), [0.0, 0.5, 1.0], points)))

    # Stall and bathroom are small or large together, as are their air changes.
    room = chance("room")
    sizes = [min(g.stall_m3 for g in grid), setting.stall_m3]
    sizes.append(max(g.stall_m3 for g in grid))
    stall = np.exp(np.interp(room, [0.0, 0.5, 1.0], np.log(sizes)))
    bathroom = stall / setting.stall_m3 * setting.bathroom_m3
    water = [min(g.water_c for g in grid), max(g.water_c for g in grid)]
    return Rooms(
        stall=stall,
        bathroom=bathroom,
        exchange=stall * drawn("stall_changes"),
        outflow=bathroom * drawn("bathroom_changes"),
        hours=drawn("shower_min") / 60,
        dissolving=drawn("dissolving_min") / 60,
        water=water[0] + chance("water") * (water[1] - water[0]),
        shut=setting.shut_min / 60,
        flow=setting.flow_l_per_min,
        film=chance("film"),
        shared=chance("shared"),
        gas=chance("gas"),
    )


def gram_draws(
    scent: Scent, draws: int = DRAWS, *, seed: int = SEED
) -> tuple[tuple[str, ...], FloatArray]:
    """Draw the grams of each constituent in one use.

    Parameters
    ----------
    scent : Scent
        What one use holds.
    draws : int, optional
        How many.
    seed : int, optional
        Seed of all draws.

    Returns
    -------
    tuple of str
        CAS numbers, in the order of ``scent.constituents``.
    array, shape (draws, constituents)
        Grams. A lot is drawn once, wherever it is used, and is never more than
        itself. [g]
    """
    cas = tuple(one.cas for one in scent.constituents)
    place = {one: column for column, one in enumerate(cas)}
    grams = np.zeros((draws, len(cas)))
    for leaf in scent.leaves:
        if not leaf.parts:
            continue
        share = _shares(leaf, draws, seed) / _HUNDRED
        low, high = leaf.grams.low, leaf.grams.high
        chance = seeded("grams", leaf.node.id, seed=seed).random(draws)
        mass = low + chance * (high - low)
        for column, part in enumerate(leaf.parts):
            grams[:, place[part.identity]] += mass * share[:, column]
    return cas, grams


def _shares(leaf: Leaf, draws: int, seed: int) -> FloatArray:
    """Draw the shares of a lot: its volatile parts, and all the rest as one."""
    lows = np.array([p.share.low for p in leaf.parts]) * _HUNDRED
    highs = np.array([p.share.high for p in leaf.parts]) * _HUNDRED
    least, most = float(lows.sum()), float(highs.sum())
    if least > _HUNDRED:  # rounding of a printed report
        lows = lows * (_HUNDRED / least)
        least = _HUNDRED
    rest = max(0.0, _HUNDRED - most), max(0.0, _HUNDRED - least)
    return share_draws(
        np.append(lows, rest[0]),
        np.append(np.maximum(highs, lows), rest[1]),
        draws,
        seeded("lot", leaf.node.id, seed=seed),
    )


@dataclass(frozen=True, slots=True, eq=False)
class AirDraws:
    """What draws gave for all scent that is estimated.

    Parameters
    ----------
    mean, later : array, shape (draws, 2)
        Over the shower, and when the next person comes in; stall and bathroom.
        [mg/m3]
    by_constituent : array, shape (draws, constituents)
        Milligrams that reach the air. [mg]
    cas : tuple of str
        The constituents.
    """

    mean: FloatArray
    later: FloatArray
    by_constituent: FloatArray
    cas: tuple[str, ...]


def air_draws(
    scent: Scent,
    setting: ShowerSetting,
    rooms: Rooms | None = None,
    *,
    seed: int = SEED,
) -> AirDraws:
    """Draw the air of a shower.

    Parameters
    ----------
    scent : Scent
        What one use holds.
    setting : ShowerSetting
        The middle.
    rooms : Rooms, optional
        Showers that were drawn; the same for every recipe that is compared.
    seed : int, optional
        Seed of all draws.

    Returns
    -------
    AirDraws
        One shower with one use. A constituent without a vapour pressure is released
        in full; what no paper names is not in it. No ceiling is applied.
    """
    rooms = rooms if rooms is not None else room_draws(setting, seed=seed)
    draws = rooms.stall.size
    cas, grams = gram_draws(scent, draws, seed=seed)
    gas = gas_for(scent.gas_g, scent.load.middle, setting)
    released = _MG_PER_G * grams * part_draws(cas, setting, rooms, gas, seed=seed)
    unit = rooms.responses()
    total = released.sum(axis=1)
    found = unit * total[:, None, None]
    return AirDraws(found[:, 0], found[:, 1], released, cas)


_TEMPERATURES: Final = 9
"""Points between which pressures and ratios are interpolated, by logarithms."""


def part_draws(
    cas: Sequence[str],
    setting: ShowerSetting,
    rooms: Rooms,
    gas_m3_per_mol: float,
    *,
    seed: int = SEED,
) -> FloatArray:
    """Draw the part of each constituent that reaches the air.

    Parameters
    ----------
    cas : sequence of str
        Constituents of the table.
    setting : ShowerSetting
        The middle.
    rooms : Rooms
        The showers.
    gas_m3_per_mol : float
        See :func:`~blendcheck.estimates.release.release_of`.
    seed : int, optional
        Seed of all draws.

    Returns
    -------
    array, shape (draws, constituents)
        0 to 1; 1 where no vapour pressure is known. [-]

    Notes
    -----
    The three ways of :mod:`blendcheck.estimates.release`. The film, what of it is
    film, and the gas are the same for all constituents of a draw; the error of a
    pressure (its factor is two sigma) and the air-water ratio are drawn for each.
    """
    steps = np.linspace(rooms.water.min(), rooms.water.max(), _TEMPERATURES)
    settings = tuple(replace(setting, water_c=float(step)) for step in steps)
    known = [one for one in cas if pressures_of(one, steps) is not None]
    parts = np.ones((rooms.stall.size, len(cas)))
    if not known:
        return parts
    pascals = np.stack([_pressures(one, steps) for one in known], axis=1)
    wetness = [ratio_of(one, settings) for one in known]
    spot = _Spot(rooms.water, steps)
    kelvin = (rooms.water + ZERO_CELSIUS)[:, None]
    errors = np.stack([_errors(one, steps, rooms, seed) for one in known], axis=1)
    pressure = np.exp(spot.between(np.log(pascals)) + errors)
    film = film_part(pressure, kelvin, rooms.dissolving[:, None], rooms.film[:, None])
    water = film.copy()
    for column, (one, ratio) in enumerate(zip(known, wetness, strict=True)):
        if ratio is not None:
            drawn = _ratios(one, ratio, spot, rooms, seed)
            water[:, column] = dissolved_part(drawn, rooms.flow)
    share = rooms.shared[:, None]
    stays = share * film + (1 - share) * water
    volume = gas_m3_per_mol * kelvin / setting.kelvin
    gas = rooms.gas[:, None] * carried_part(pressure, kelvin, volume)
    columns = [column for column, one in enumerate(cas) if one in set(known)]
    parts[:, columns] = 1 - (1 - stays) * (1 - gas)
    return parts


def _pressures(cas: str, steps: FloatArray) -> FloatArray:
    found = pressures_of(cas, steps)
    return np.full(steps.shape, np.nan) if found is None else found[0]


def _errors(cas: str, steps: FloatArray, rooms: Rooms, seed: int) -> FloatArray:
    """Draw the logarithm of the error of a vapour pressure."""
    found = pressures_of(cas, steps)
    factor = 1.0 if found is None else float(found[1].max())
    chance = seeded("pressure", cas, seed=seed).standard_normal(rooms.stall.size)
    return np.asarray(chance * np.log(factor) / _SIGMAS)


def _ratios(
    cas: str, ratio: Ratio, spot: "_Spot", rooms: Rooms, seed: int
) -> FloatArray:
    chance = seeded("ratio", cas, seed=seed).random(rooms.stall.size)
    ends = np.stack([ratio.low, ratio.middle, ratio.high], axis=1)
    low, middle, high = spot.between(np.log(ends)).T
    below = low + 2 * chance * (middle - low)
    above = middle + (2 * chance - 1) * (high - middle)
    return np.asarray(np.exp(np.where(chance < 1 / 2, below, above)))


class _Spot:
    """Where each draw lies between evenly spaced points."""

    def __init__(self, values: FloatArray, steps: FloatArray) -> None:
        width = float(steps[1] - steps[0]) or 1.0
        place = (values - steps[0]) / width
        self._below = np.clip(place.astype(np.int64), 0, len(steps) - 2)
        self._weight = (place - self._below)[:, None]

    def between(self, table: FloatArray) -> FloatArray:
        """Interpolate each column of a table with a row for each point."""
        low, high = table[self._below], table[self._below + 1]
        return np.asarray(low + self._weight * (high - low))
