"""Alcohol vapour in the room where a batch dries: averages over time.

The room is one well-mixed zone (:mod:`blendcheck.equations.room`). Its average says
nothing of the air above the tray, which holds vapour up to its saturation.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

import numpy as np

from blendcheck import reference
from blendcheck.blend.totals import Totals
from blendcheck.equations.additivity import ppm_from_mg_per_m3
from blendcheck.equations.arrays import FloatArray
from blendcheck.equations.constants import ZERO_CELSIUS
from blendcheck.equations.room import Course, Stage
from blendcheck.equations.zones import OneZone
from blendcheck.estimates.alcohol import Spirit, spirits
from blendcheck.estimates.alcohol_limits import Cloud, Limit, cloud_over, limits_for
from blendcheck.estimates.workroom_setting import Room, room_of
from blendcheck.quantity import print_estimate
from blendcheck.records.estimate import Estimate

__all__ = ["RoomAir", "in_the_room"]

_SHORT: Final = 0.25  # h, averaging time of a short-term limit
_SHIFT: Final = 8.0  # h
_WINDOWS: Final = 61
_DURATIONS: Final = 97
_POINTS: Final = 121
_PPM: Final = 1e6
_LONGEST: Final = 24.0  # h, of the chart
_DIGITS: Final = 2


@dataclass(frozen=True, slots=True, eq=False)
class RoomAir:
    """One alcohol in the air of the workroom.

    Parameters
    ----------
    spirit : Spirit
        Which, and how much.
    room : Room
        The settings.
    estimates : tuple of Estimate
        Highest average, short-term mean, 8 h mean [ppm], share of the lower
        explosive limit [%], time until the average is under ``level`` [h]; where the
        volume is not entered, the room that would be needed instead [m3].
    limits : tuple of Limit
        What they are set beside.
    level : float
        The chosen level. [ppm]
    cloud : Cloud
        The air above the tray.
    hours, low, high : array
        Course of the average for a chart; empty without a volume. [h], [ppm]
    """

    spirit: Spirit
    room: Room
    estimates: tuple[Estimate, ...]
    limits: tuple[Limit, ...]
    level: float
    cloud: Cloud
    hours: FloatArray
    low: FloatArray
    high: FloatArray

    def estimate(self, what: str) -> Estimate | None:
        """Return one of the estimates by the end of its name."""
        return next((e for e in self.estimates if e.name.endswith(f".{what}")), None)


# -- the room -----------------------------------------------------------------


def in_the_room(totals: Totals) -> tuple[RoomAir, ...]:
    """Estimate the alcohol vapour in the workroom.

    Parameters
    ----------
    totals : Totals
        Totals of a recipe.

    Returns
    -------
    tuple of RoomAir
        One for each alcohol. The high end takes all of it as released at once, in
        the smallest room with the least exchange that was entered; the low end has
        it leave over the drying time. For the time until the average stays under the
        level, every duration up to the longest is looked at.

    Notes
    -----
    One well-mixed zone, as :class:`~blendcheck.equations.room.Course`. Measured rooms
    differ from it by a factor of 2 to 3 (from memory), near the tray by far more.
    """
    room = room_of(totals)
    return tuple(
        _air(spirit, room, totals) for spirit in spirits(totals) if spirit.high > 0
    )


def _air(spirit: Spirit, room: Room, totals: Totals) -> RoomAir:
    limits = limits_for(spirit.cas)
    entered = totals.materials.workshop.workroom.level
    averages = [limit.ppm for limit in limits if "average" in limit.says]
    level = min(averages, default=200.0)
    if entered is not None:
        level = float(entered.range.low or level)
    cloud = cloud_over(spirit.cas, room.tray_celsius)
    empty = np.zeros(0)
    if room.volume is None:
        needed = tuple(_needed(spirit, room, limits))
        return RoomAir(spirit, room, needed, limits, level, cloud, empty, empty, empty)
    courses = _Courses(spirit, room, level)
    made = tuple(_averages(courses, spirit, room, cloud, level))
    hours, low, high = courses.series()
    return RoomAir(spirit, room, made, limits, level, cloud, hours, low, high)


def _per_mg(spirit: Spirit, room: Room) -> float:
    """Return the ppm of one mg/m3 at the temperature of the room."""
    weight = float(reference.constituents()[spirit.cas].molar_mass_value or 0)
    kelvin = room.celsius + ZERO_CELSIUS
    return float(ppm_from_mg_per_m3(1.0, weight, temperature=kelvin))


class _Courses:
    """The courses behind the low and the high end of every average."""

    def __init__(self, spirit: Spirit, room: Room, level: float) -> None:
        self.per_mg = _per_mg(spirit, room)
        small, large = room.volume or (1.0, 1.0)
        slow, fast = room.air_changes
        self.level = level / self.per_mg
        longest = 0.0 if room.drying is None else room.drying[1]
        self.longest = longest
        self.high_mass, self.high_zone = spirit.high * 1000, OneZone(small, slow)
        self.high = self._at_once(self.high_mass, small, slow)
        self.low = self._over(spirit.low * 1000, large, fast, longest)
        self.low_at_once = self._at_once(spirit.low * 1000, large, fast)
        exact = spirit.low == spirit.high and small == large and slow == fast
        exact = exact and room.drying is not None and room.drying[0] == longest
        self.central = self.low if exact else None

    def _length(self, mass: float, volume: float, loss: float) -> float:
        top = mass / volume
        if loss <= 0 or top <= self.level:
            return 2 * _SHIFT
        return max(2 * _SHIFT, 1.05 * float(np.log(top / self.level)) / loss)

    def _at_once(self, mass: float, volume: float, loss: float) -> Course:
        zone = OneZone(volume, loss)
        length = self._length(mass, volume, loss) + self.longest
        return Course([Stage(zone, length, at_once=mass)])

    def _over(self, mass: float, volume: float, loss: float, time: float) -> Course:
        if not time:
            return self._at_once(mass, volume, loss)
        zone = OneZone(volume, loss)
        length = self._length(mass, volume, loss)
        return Course([Stage(zone, time, emission=mass / time), Stage(zone, length)])

    def peak(self, course: Course) -> float:
        """Return the highest average in ppm."""
        return float(course.peak()[0]) * self.per_mg

    def short(self, course: Course) -> float:
        """Return the highest mean over 15 minutes in ppm."""
        return self._highest(course, _SHORT)

    def shift(self, course: Course) -> float:
        """Return the highest mean over 8 hours in ppm."""
        return self._highest(course, _SHIFT)

    def _highest(self, course: Course, hours: float) -> float:
        top = float(course.peak()[1])
        first = np.linspace(max(0.0, top - hours), top, _WINDOWS)
        return float(course.mean(first, first + hours).max()) * self.per_mg

    def below(self, course: Course) -> float | None:
        """Return the hours until the average stays under the level, if it ever does."""
        found = float(course.time_below(self.level))
        return found if np.isfinite(found) else None

    def soonest(self) -> float | None:
        """Return the least of those hours: all at once, or over the longest drying."""
        ends = [self.below(course) for course in (self.low, self.low_at_once)]
        return min((end for end in ends if end is not None), default=None)

    def latest(self) -> float | None:
        """Return the most of those hours, however long up to the longest it dries.

        What leaves slowly stays longer, until it leaves so slowly that the level is
        never reached: the most lies between two durations that are tried, and the
        later of them is taken.
        """
        last = self.below(self.high)
        if last is None or not self.longest:
            return last
        times = np.linspace(0.0, self.longest, _DURATIONS)[1:]
        after = np.full(times.shape, float(self.high.duration))
        course = Course(
            [
                Stage(self.high_zone, times, emission=self.high_mass / times),
                Stage(self.high_zone, after),
            ]
        )
        found = course.time_below(self.level)
        reached = np.append(last > 0, found > 0)
        next_one = np.where(reached[:-1] & ~reached[1:], times, 0.0)
        return max(last, float(found.max()), float(next_one.max()))

    def series(self) -> tuple[FloatArray, FloatArray, FloatArray]:
        """Return hours [h] and both ends of the average [ppm], for a chart."""
        ends = [self.below(course) or _SHIFT for course in (self.low, self.high)]
        end = min(_LONGEST, max(1.0, *ends) * 1.2, float(self.low.duration))
        end = min(end, float(self.high.duration))
        hours = np.linspace(0.0, end, _POINTS)
        low, high = (
            course.at(hours)[..., 0] * self.per_mg for course in (self.low, self.high)
        )
        return hours, np.minimum(low, high), np.maximum(low, high)


def _averages(
    courses: _Courses, spirit: Spirit, room: Room, cloud: Cloud, level: float
) -> Iterator[Estimate]:
    lines = (*spirit.lines, room.line)
    head = spirit.name
    sources = (*spirit.sources, *room.sources)
    small, _ = room.volume or (1.0, 1.0)
    top = spirit.high * 1000 / small
    most = (
        f"{print_estimate(spirit.high * 1000, digits=3)} mg ÷ "
        f"{print_estimate(small, digits=3)} m³ = {print_estimate(top, digits=3)} mg/m³ "
        f"= {print_estimate(top * courses.per_mg, digits=3)} ppm at most"
    )
    for name, says, of in (
        ("peak", "average over the room, highest", courses.peak),
        ("short", "average over the room, highest 15 minutes", courses.short),
        ("shift", "average over the room, highest 8 hours", courses.shift),
    ):
        central = None if courses.central is None else of(courses.central)
        made = _estimate(
            f"{head}.{name}",
            f"{spirit.name}, {says}",
            "ppm",
            central,
            of(courses.low) if room.drying is not None else None,
            of(courses.high),
            (*lines, most),
            sources,
            room,
        )
        yield made
        if name == "peak" and cloud.lower is not None:
            yield _of_limit(made, cloud.lower, head, spirit, cloud)
    yield _estimate(
        f"{head}.below",
        f"time until the average stays under {print_estimate(level, digits=3)} ppm",
        "h",
        None if courses.central is None else courses.below(courses.central),
        courses.soonest() if room.drying is not None else None,
        courses.latest(),
        lines,
        sources,
        room,
    )


def _of_limit(
    peak: Estimate, lower: float, head: str, spirit: Spirit, cloud: Cloud
) -> Estimate:
    """Return the highest average as a share of the lower explosive limit."""
    factor = 100 / (lower / 100 * _PPM)
    central, low, high = (
        None if end is None else end * factor
        for end in (peak.central, peak.low, peak.high)
    )
    return Estimate(
        f"{head}.of-limit",
        f"{spirit.name}, highest average as a share of the lower explosive limit",
        "%",
        central,
        low,
        high,
        _DIGITS,
        (*peak.lines, f"lower explosive limit {print_estimate(lower, digits=2)} % v/v"),
        (*peak.sources, *cloud.sources),
        peak.marks,
    )


def _needed(
    spirit: Spirit, room: Room, limits: tuple[Limit, ...]
) -> Iterator[Estimate]:
    """Return the rooms in which all of it, at once, stays at each limit."""
    per_mg = _per_mg(spirit, room)
    for n, limit in enumerate(limits, start=1):
        per_gram = 1000 * per_mg / limit.ppm
        low, high = spirit.low * per_gram, spirit.high * per_gram
        line = (
            f"{print_estimate(spirit.high, digits=3)} g ÷ "
            f"{print_estimate(limit.ppm / per_mg / 1000, digits=3)} g/m³ "
            f"({print_estimate(limit.ppm, digits=3)} ppm, {limit.says})"
        )
        yield _estimate(
            f"{spirit.name}.room-{n}",
            f"room in which all of the {spirit.name} at once, without any air change, "
            f"stays at {limit.says}",
            "m3",
            high if low == high else None,
            low,
            high,
            (*spirit.lines, line),
            (*spirit.sources, limit.source),
            room,
        )


def _estimate(
    name: str,
    says: str,
    unit: str,
    central: float | None,
    low: float | None,
    high: float | None,
    lines: tuple[str, ...],
    sources: tuple[str, ...],
    room: Room,
) -> Estimate:
    if low is not None and high is not None:
        low, high = min(low, high), max(low, high)
    return Estimate(
        name,
        says,
        unit,
        central,
        low,
        high,
        _DIGITS,
        lines,
        tuple(dict.fromkeys(sources)),
        room.marks,
    )
