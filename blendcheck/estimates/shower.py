"""What one milligram in the air of a shower becomes, at every setting of a grid.

All constituents leave a dissolving piece at the same rate, so one course a setting
does for all of them: their grams and their release only scale it.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from blendcheck.equations.arrays import FloatArray
from blendcheck.equations.fizz import gas_volume
from blendcheck.equations.room import Course, Decaying, Stage
from blendcheck.equations.zones import TwoZones
from blendcheck.estimates.setting import ShowerSetting
from blendcheck.estimates.ways import OIL_MOLAR_MASS

__all__ = [
    "QUANTITIES",
    "ZONES",
    "course_of",
    "gas_for",
    "moments_of",
    "responses",
]

QUANTITIES: Final = ("peak", "mean", "later")
"""Highest value; mean over the shower (the last one of several in a row); what the
next person meets, when the door has been shut for the time of the setting."""

ZONES: Final = ("stall", "bathroom")

_HOUR_MIN = 60.0


def _column(settings: Sequence[ShowerSetting], name: str) -> FloatArray:
    return np.array([getattr(one, name) for one in settings], dtype=np.float64)


@dataclass(frozen=True, slots=True, eq=False)
class _Room:
    """Stages of a course for settings with the same number of showers."""

    stages: list[Stage]
    last_start: FloatArray
    last_end: FloatArray
    opened: FloatArray


def _room(settings: Sequence[ShowerSetting], *, fan: bool) -> _Room:
    def column(name: str) -> FloatArray:
        return _column(settings, name)

    stall, bathroom = column("stall_m3"), column("bathroom_m3")
    exchange = stall * column("stall_changes")
    zone = TwoZones(stall, bathroom, exchange, bathroom * column("bathroom_changes"))
    source = [Decaying(np.ones(len(settings)), column("rate"))]
    minutes, pause = column("shower_min") / _HOUR_MIN, column("pause_min") / _HOUR_MIN
    first = settings[0]
    stages: list[Stage] = []
    start = np.zeros(len(settings))
    for shower in range(first.showers):
        if shower:
            stages.append(Stage(zone, pause))
            start = start + minutes + pause
        has_piece = shower < first.pieces
        stages.append(Stage(zone, minutes, decaying=source if has_piece else ()))
    shut = column("shut_min") / _HOUR_MIN
    stages.append(Stage(zone, shut))
    if fan and first.fan_min > 0:
        airy = TwoZones(stall, bathroom, exchange, bathroom * column("fan_changes"))
        stages.append(Stage(airy, column("fan_min") / _HOUR_MIN))
    return _Room(stages, start, start + minutes, start + minutes + shut)


def responses(settings: Sequence[ShowerSetting]) -> FloatArray:
    """Return what one milligram that is released becomes.

    Parameters
    ----------
    settings : sequence of ShowerSetting
        With the same number of showers and pieces.

    Returns
    -------
    array, shape (settings, 3, 2)
        By :data:`QUANTITIES` and :data:`ZONES`. [mg/m3 for each mg]

    Notes
    -----
    :class:`~blendcheck.equations.room.Course`, closed form. Several pieces in a row
    add up.
    """
    room = _room(settings, fan=False)
    course = Course(room.stages)
    peaks = [course.peak(zone)[0] for zone in range(len(ZONES))]
    mean = course.mean(room.last_start, room.last_end)
    found = np.stack([np.stack(peaks, axis=-1), mean, course.last()], axis=1)
    return np.asarray(found)


def course_of(setting: ShowerSetting) -> Course:
    """Return the course of one milligram at one setting, with the fan at its end.

    Parameters
    ----------
    setting : ShowerSetting
        The shower.
    """
    return Course(_room([setting], fan=True).stages)


def moments_of(setting: ShowerSetting) -> tuple[tuple[float, str], ...]:
    """Return what happens when, for a chart.

    Parameters
    ----------
    setting : ShowerSetting
        The shower.

    Returns
    -------
    tuple of (float, str)
        Minutes from the start, and what it is.
    """
    found: list[tuple[float, str]] = []
    start = 0.0
    for shower in range(setting.showers):
        if shower:
            start += setting.shower_min + setting.pause_min
        number = "" if setting.showers == 1 else f" {shower + 1}"
        found.append((start, f"shower{number} begins"))
        found.append((start + setting.shower_min, f"shower{number} ends"))
    opened = start + setting.shower_min + setting.shut_min
    found.append((opened, "the next person comes in"))
    if setting.fan_min > 0:
        found[-1] = (opened, "the next person comes in, fan on")
    return tuple(found)


def gas_for(gas_g: float, oil_g: float, setting: ShowerSetting) -> float:
    """Return the volume of gas for each mole of oil.

    Parameters
    ----------
    gas_g, oil_g : float
        Carbon dioxide and scented oil in one use, >= 0. [g]
    setting : ShowerSetting
        The shower.

    Returns
    -------
    float
        Volume at the temperature of the water; 0 without oil. [m3/mol]
    """
    if not oil_g > 0:
        return 0.0
    litres = float(gas_volume(gas_g, temperature=setting.kelvin))
    return litres / 1e3 / (oil_g / OIL_MOLAR_MASS)
