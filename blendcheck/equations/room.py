r"""What is in the air of a shower or a workroom, and when.

A course is a row of stages: the shower, then the door shut; one shower after
another; the fan on afterwards. In each stage the zone's rates are constant, and the
concentrations follow in closed form, as divided differences of the exponential over
the rates of zone and source (:mod:`blendcheck.equations.exponentials`), so that a
source rate equal to a loss rate, or a loss of nothing, is no special case. Each
stage starts from what the one before it left in the air, and from what its sources
have not yet released: that is superposition.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from blendcheck.equations.arrays import (
    BoolArray,
    FloatArray,
    Floats,
    not_negative,
    positive,
)
from blendcheck.equations.zones import Vector, Zone
from blendcheck.errors import DomainError

__all__ = ["Course", "Decaying", "Stage"]

_GRID = 24
"""Points of a stage between which a peak is looked for."""
_HALVINGS = 24
_SCAN = 400


@dataclass(frozen=True, slots=True, eq=False)
class Decaying:
    r"""A source that runs dry, :math:`G = M k e^{-kt}`.

    Parameters
    ----------
    mass : float or array
        Mass that it releases in all, >= 0. [mg]
    rate : float or array
        Rate at which it runs dry, >= 0. [1/h]
    """

    mass: Floats
    rate: Floats


@dataclass(frozen=True, slots=True, eq=False)
class Stage:
    """A time during which the room stays as it is.

    Parameters
    ----------
    zone : OneZone or TwoZones
        The room. All stages of a course have the same number of zones.
    duration : float or array
        How long it lasts, > 0. [h]
    at_once : float or array, default 0
        Mass released at its start, >= 0. [mg]
    emission : float or array, default 0
        Constant release while it lasts, >= 0. [mg/h]
    decaying : sequence of Decaying
        Sources that start with it; they go on into later stages.
    """

    zone: Zone
    duration: Floats
    at_once: Floats = 0.0
    emission: Floats = 0.0
    decaying: Sequence[Decaying] = ()


@dataclass(frozen=True, slots=True, eq=False)
class _Air:
    """The state at one moment, and the constant sources that go on from it."""

    zone: Zone
    held: Vector
    emission: FloatArray
    pools: tuple[tuple[FloatArray, FloatArray], ...]

    def after(self, time: FloatArray, *, integral: bool = False) -> Vector:
        """Concentrations after a time without change, or their time integral."""
        zero = np.zeros(())
        over = (zero,) if integral else ()
        parts = [self.zone.respond(time, self.held, over)]
        if np.any(self.emission):
            source = self.zone.source(self.emission)
            parts.append(self.zone.respond(time, source, (zero, *over)))
        for mass, rate in self.pools:
            source = self.zone.source(mass * rate)
            parts.append(self.zone.respond(time, source, (-rate, *over)))
        return tuple(sum(each[1:], each[0]) for each in zip(*parts, strict=True))

    def left(self, time: FloatArray) -> tuple[tuple[FloatArray, FloatArray], ...]:
        """Return what the sources that run dry have not released by then."""
        return tuple((mass * np.exp(-rate * time), rate) for mass, rate in self.pools)

    def later(self, time: FloatArray) -> "_Air":
        """Return the state after a time without change."""
        if not np.any(time):
            return self
        return _Air(self.zone, self.after(time), self.emission, self.left(time))

    def slope(self, time: FloatArray, zone: int) -> FloatArray:
        """Rate of change of one zone's concentration at that time."""
        released = self.emission
        for mass, rate in self.left(time):
            released = released + mass * rate
        flow = self.zone.flow(self.after(time))[zone]
        return flow + self.zone.source(released)[zone]


class Course:
    r"""Concentrations over a row of stages.

    Parameters
    ----------
    stages : sequence of Stage
        At least one.
    initial : float or array, or one for each zone, default 0
        Concentration at the start, >= 0. [mg/m3]

    Raises
    ------
    DomainError
        If there is no stage, the number of zones changes, or a mass, rate, emission
        or duration is outside its range (NaN included).

    Notes
    -----
    The solution of :class:`~blendcheck.equations.zones.OneZone` and
    :class:`~blendcheck.equations.zones.TwoZones` with constant rates; source ids as
    there, source id ``epa-tichenor-sparks`` for the source that runs dry. Valid
    for: vapour far below its saturation, so that release does not depend on what is
    in the air already; compare with a ceiling afterwards. Departs from the source
    in: nothing is returned by walls and towels.

    All arguments may be arrays that broadcast against each other and against the
    times asked for; the zones are the last axis of a result.

    Examples
    --------
    A first-order source of 200 mg in 2 m3 with 12 air changes an hour:

    >>> from blendcheck.equations.zones import OneZone
    >>> shower = Stage(OneZone(2.0, 12.0), 1 / 6, decaying=[Decaying(200.0, 4.0)])
    >>> course = Course([shower])
    >>> float(course.at(1 / 6)[0]), float(course.mean(0.0, 1 / 6)[0])
    (18.904, 14.877)
    """

    def __init__(
        self, stages: Sequence[Stage], initial: Sequence[Floats] | Floats = 0.0
    ) -> None:
        if not stages:
            raise DomainError("stages", 0, "at least one")
        zones = {stage.zone.size for stage in stages}
        if len(zones) > 1:
            raise DomainError("stages", sorted(zones), "of one number of zones")
        self._size = zones.pop()
        held = self._initial(initial)
        pools: tuple[tuple[FloatArray, FloatArray], ...] = ()
        start = np.zeros(())
        self._airs: list[tuple[FloatArray, FloatArray, _Air]] = []
        for stage in stages:
            duration = positive("duration", stage.duration)
            at_once = stage.zone.source(not_negative("at_once", stage.at_once))
            held = tuple(a + b for a, b in zip(held, at_once, strict=True))
            pools = (
                *pools,
                *((not_negative("mass", source.mass),
                   not_negative("rate", source.rate)) for source in stage.decaying),
            )  # fmt: skip
            emission = not_negative("emission", stage.emission)
            air = _Air(stage.zone, held, emission, pools)
            self._airs.append((start, duration, air))
            last = air.later(duration)
            held, pools = last.held, last.pools
            start = start + duration
        self._end, self._last = start, held

    def _initial(self, initial: Sequence[Floats] | Floats) -> Vector:
        values = (
            tuple(initial) if isinstance(initial, Sequence) else (initial,) * self._size
        )
        if len(values) != self._size:
            raise DomainError("initial", len(values), f"one for each of {self._size}")
        return tuple(not_negative("initial", value) for value in values)

    @property
    def duration(self) -> FloatArray:
        """Length of all stages, in hours."""
        return self._end

    def last(self) -> FloatArray:
        """Return the concentrations at the end, shape (..., zones), in mg/m3."""
        return _stacked(self._last)

    def at(self, time: Floats) -> FloatArray:
        """Return the concentrations at a time.

        Parameters
        ----------
        time : float or array
            From 0 to the end of the last stage. [h]

        Returns
        -------
        array, shape (..., zones)
            Concentration in each zone; what a stage releases at once counts from
            its start on. [mg/m3]

        Raises
        ------
        DomainError
            If a time lies outside the stages (NaN included).
        """
        times = self._times("time", time)
        result: Vector | None = None
        for start, duration, air in self._airs:
            values = air.after(np.clip(times - start, 0.0, duration))
            if result is None:
                result = values
            else:
                begun = times >= start
                result = tuple(
                    np.where(begun, new, old)
                    for new, old in zip(values, result, strict=True)
                )
        return _stacked(result or ())

    def mean(self, start: Floats, end: Floats) -> FloatArray:
        """Return the mean concentrations over a window.

        Parameters
        ----------
        start, end : float or array
            The window, ``start`` below ``end``, inside the stages. [h]

        Returns
        -------
        array, shape (..., zones)
            Mean concentration in each zone. [mg/m3]

        Raises
        ------
        DomainError
            If the window is empty or leaves the stages (NaN included).
        """
        first, final = self._times("start", start), self._times("end", end)
        width = positive("end - start", final - first)
        total: list[FloatArray] = [np.zeros(())] * self._size
        for begun, duration, air in self._airs:
            low = np.clip(first - begun, 0.0, duration)
            high = np.clip(final - begun, 0.0, duration)
            if not np.any(high > low):
                continue
            part = air.later(low).after(high - low, integral=True)
            total = [a + b for a, b in zip(total, part, strict=True)]
        return _stacked([each / width for each in total])

    def peak(self, zone: int = 0) -> tuple[FloatArray, FloatArray]:
        """Return the highest concentration in one zone and when it is reached.

        Parameters
        ----------
        zone : int, default 0
            0 the room or the stall, 1 the bathroom.

        Returns
        -------
        concentration : array
            The peak; exact to 1e-9 of itself. [mg/m3]
        time : array
            Its time; the first, where several are equally high. [h]
        """
        best, when = np.full((), -1.0), np.zeros(())
        for start, duration, air in self._airs:
            local = self._summit(air, duration, zone)
            value = air.after(local)[zone]
            higher = value > best
            best = np.where(higher, value, best)
            when = np.where(higher, start + local, when)
        return best, when

    @staticmethod
    def _summit(air: _Air, duration: FloatArray, zone: int) -> FloatArray:
        shape = np.broadcast(duration, air.after(duration)[zone]).ndim
        grid = np.linspace(0.0, 1.0, _GRID + 1).reshape((-1,) + (1,) * shape)
        values = air.after(grid * duration)[zone]
        top = np.argmax(np.broadcast_to(values, np.broadcast(values, grid).shape), 0)
        low = np.maximum(top - 1, 0) / _GRID * duration
        high = np.minimum(top + 1, _GRID) / _GRID * duration
        found = _halved(low, high, lambda t: air.slope(t, zone) > 0)
        # In a dip between two points of the grid the halving can end on its wrong
        # side; then the point of the grid itself is the peak.
        coarse = top / _GRID * duration
        better = air.after(found)[zone] >= air.after(coarse)[zone]
        return np.where(better, found, coarse)

    def time_below(self, level: Floats, zone: int = 0) -> FloatArray:
        """Return the time from which a concentration stays at or below a level.

        Parameters
        ----------
        level : float or array
            Concentration, > 0. [mg/m3]
        zone : int, default 0
            0 the room or the stall, 1 the bathroom.

        Returns
        -------
        array
            The time; 0 where the level is never passed, infinite where the course
            ends above it. [h]

        Raises
        ------
        DomainError
            If ``level`` is not positive (NaN included).

        Notes
        -----
        The last passing between 400 equal steps, then halved. A rise above the
        level that lasts less than a step can be missed.
        """
        limit = positive("level", level)
        shape = np.broadcast(self._end, self._last[zone], limit).ndim
        steps = np.linspace(0.0, 1.0, _SCAN + 1).reshape((-1,) + (1,) * shape)
        above = self.at(steps * self._end)[..., zone] > limit
        above = np.broadcast_to(above, np.broadcast(above, steps).shape)
        last = _SCAN - np.argmax(above[::-1], axis=0)
        low = last / _SCAN * self._end
        high = np.minimum(last + 1, _SCAN) / _SCAN * self._end
        time = _halved(low, high, lambda t: self.at(t)[..., zone] > limit)
        time = np.where(above[-1], np.inf, time)
        return np.where(above.any(axis=0), time, 0.0)

    def _times(self, name: str, time: Floats) -> FloatArray:
        times = not_negative(name, time)
        # The sum of the durations may round above the caller's own sum.
        if not np.all(times <= self._end * (1 + 1e-12)):
            raise DomainError(name, float(np.max(times)), "within the stages")
        return times


def _stacked(vector: Sequence[FloatArray]) -> FloatArray:
    return np.stack(np.broadcast_arrays(*vector), axis=-1)


def _halved(
    low: FloatArray, high: FloatArray, before: Callable[[FloatArray], BoolArray]
) -> FloatArray:
    """Return where a condition stops to hold, by halving the bracket."""
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        holds = before(middle)
        low, high = np.where(holds, middle, low), np.where(holds, high, middle)
    return np.where(before(high), high, low)
