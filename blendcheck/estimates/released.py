"""What leaves of several constituents, for everything that they share.

Film, water and gas are the same for all that one piece gives off; its vapour pressure
and its ratio of air to water are each constituent's own. So the film is taken from
thick in still air to thin in moving air, the water from falling drops to water that
gives off all that the air can take up, the gas from none to all of it; and in each of
these states every constituent has a range of its own. What is between two states lies
between their ranges.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from blendcheck import reference
from blendcheck.equations.arrays import FloatArray
from blendcheck.equations.transfer import equilibrium_fraction
from blendcheck.estimates.pressures import pressures_of
from blendcheck.estimates.setting import ShowerSetting, grid_of
from blendcheck.estimates.ways import (
    carried_part,
    dissolved_part,
    film_part,
    ratio_of,
)

__all__ = ["Released", "released"]

_FILMS: Final = (0.0, 0.25, 0.5, 0.75, 1.0)
"""Positions between a thick film in still air and a thin one in moving air. [-]"""

_GAS: Final = (0.0, 0.03, 0.3, 1.0)
"""Parts of the gas that pass the oil. [-] Own choice: it is carried in proportion,
until nothing is left, so that the middle of the way counts."""

_WATERS: Final = 2
_STATES: Final = (len(_FILMS) + _WATERS) * len(_GAS)


@dataclass(frozen=True, slots=True, eq=False)
class Released:
    """Parts that leave, one row for each setting and each state.

    Parameters
    ----------
    cas : tuple of str
        The constituents: the columns.
    settings : tuple of str
        Name of the setting of each row.
    low, high : array, shape (rows, constituents)
        Part that leaves, 0 to 1. Nothing to all, where no vapour pressure is
        known. [-]
    """

    cas: tuple[str, ...]
    settings: tuple[str, ...]
    low: FloatArray
    high: FloatArray


def released(
    cas: Sequence[str], setting: ShowerSetting, gas_m3_per_mol: float = 0.0
) -> Released:
    """Return what leaves of each constituent, for everything that they share.

    Parameters
    ----------
    cas : sequence of str
        CAS numbers; of a name that is not in the table anything may leave.
    setting : ShowerSetting
        The middle of the grid.
    gas_m3_per_mol : float, default 0
        The most gas for each mole of scented oil, >= 0. [m3/mol]

    Returns
    -------
    Released
        Over the whole grid of :func:`~blendcheck.estimates.setting.grid_of`.

    Raises
    ------
    DomainError
        If ``gas_m3_per_mol`` is negative.

    Notes
    -----
    The ways of :func:`~blendcheck.estimates.release.release_of`, with what
    constituents have in common kept in common: its range moves the film, the water
    and the figures of the constituent all at once.
    """
    grid = grid_of(setting)
    rows = (len(grid) * _STATES, len(cas))
    low, high = np.zeros(rows), np.ones(rows)
    for column, one in enumerate(cas):
        ends = _ends(one, grid, gas_m3_per_mol)
        if ends is not None:
            low[:, column], high[:, column] = ends
    names = tuple(one.name for one in grid for _ in range(_STATES))
    return Released(tuple(cas), names, low, high)


def _ends(
    cas: str, grid: Sequence[ShowerSetting], gas: float
) -> tuple[FloatArray, FloatArray] | None:
    """Return low and high of a constituent, settings first, then states."""
    if cas not in reference.constituents():
        return None
    found = pressures_of(cas, np.array([one.water_c for one in grid]))
    if found is None:
        return None
    pascals, factor = found
    kelvin = np.array([one.kelvin for one in grid])
    hours = np.array([one.dissolving_min for one in grid]) / 60
    waters = _waters(cas, grid)
    ends = []
    pressures = (pascals / factor, pascals * factor)
    for pressure, water in zip(pressures, waters, strict=True):
        films = [film_part(pressure, kelvin, hours, at) for at in _FILMS]
        stays = 1 - np.stack([*films, *water])  # (states of oil and water, settings)
        bubbles = np.stack([carried_part(pressure, kelvin, at * gas) for at in _GAS])
        left = stays[:, None] * (1 - bubbles)[None]
        ends.append(1 - left.reshape(_STATES, len(grid)).T.reshape(-1))
    return ends[0], ends[1]


def _waters(
    cas: str, grid: Sequence[ShowerSetting]
) -> tuple[list[FloatArray], list[FloatArray]]:
    """Return what leaves falling drops and the most that air takes up, low and high.

    Without a ratio, or with one that nobody read, nothing bounds it from above.
    """
    settings = tuple(grid)
    nothing, all_of_it = np.zeros(len(settings)), np.ones(len(settings))
    ratio = ratio_of(cas, settings)
    if ratio is None:
        return [nothing] * _WATERS, [all_of_it] * _WATERS
    flow = np.array([one.flow_l_per_min for one in settings])
    minutes = np.array([one.dissolving_min for one in settings])
    stall = np.array([one.stall_m3 for one in settings])
    changes = np.array([one.stall_changes for one in settings])
    ends = []
    for one in (ratio.low, ratio.high):
        drops = dissolved_part(one, flow)
        taken_up = equilibrium_fraction(
            one,
            air_volume=stall * (1 + changes * minutes / 60),
            water_volume=flow * minutes / 1000,
        )
        ends.append([drops, np.maximum(drops, taken_up)])
    if ratio.memory:
        ends[1] = [all_of_it] * _WATERS
    return ends[0], ends[1]
