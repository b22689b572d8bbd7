r"""Well-mixed zones: one room, or a shower stall inside a bathroom.

A zone holds the rates of its exchange; :mod:`blendcheck.equations.room` follows
what is in its air. Times are in hours, concentrations in mg/m3, flows in m3/h.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import TypeAlias

import numpy as np

from blendcheck.equations.arrays import (
    FloatArray,
    Floats,
    finite,
    not_negative,
    positive,
)
from blendcheck.equations.exponentials import divided_difference
from blendcheck.errors import DomainError

__all__ = [
    "OneZone",
    "TwoZones",
    "Vector",
    "Zone",
    "decay_time",
    "first_order_peak",
    "steady_state",
]

Vector: TypeAlias = tuple[FloatArray, ...]
"""One array a zone; the stall first, then the bathroom."""


@dataclass(frozen=True, slots=True, eq=False)
class OneZone:
    r"""A room of which every corner has the same air.

    Parameters
    ----------
    volume : float or array
        Volume of air, > 0. [m3]
    loss : float or array
        Everything that takes vapour out of the air, as a rate, >= 0: air changes
        with the outside, deposition, reaction. [1/h]

    Raises
    ------
    DomainError
        If ``volume`` is not positive or ``loss`` is negative (NaN included).

    Notes
    -----
    :math:`V\,dC/dt = G - \lambda V C`. From source id ``masters-environmental``.
    Valid for: air that mixes faster than it is exchanged; measured rooms differ
    from it by a factor of 2 to 3 (from memory), and near a source by more.
    Departs from the source in: nothing.
    """

    volume: Floats
    loss: Floats
    _volume: FloatArray = field(init=False, repr=False)
    _slow: FloatArray = field(init=False, repr=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "_volume", positive("volume", self.volume))
        object.__setattr__(self, "_slow", -not_negative("loss", self.loss))

    @property
    def size(self) -> int:
        """Number of zones."""
        return 1

    def source(self, amount: FloatArray) -> Vector:
        """Spread an amount, or a rate of release, over the zone that it enters."""
        return (amount / self._volume,)

    def respond(
        self, time: FloatArray, vector: Vector, others: Sequence[FloatArray]
    ) -> Vector:
        """Apply the divided difference over this zone's rate and further ones."""
        rates = [rate * time for rate in (self._slow, *others)]
        scale = time ** len(others)
        return (divided_difference(*rates) * scale * vector[0],)

    def flow(self, vector: Vector) -> Vector:
        """Rate of change that exchange alone causes."""
        return (self._slow * vector[0],)

    def settled(self, vector: Vector) -> Vector:
        """State that a constant source keeps up, infinite without any loss."""
        with np.errstate(divide="ignore", invalid="ignore"):
            return (vector[0] / -self._slow,)


@dataclass(frozen=True, slots=True, eq=False)
class TwoZones:
    r"""A shower stall inside a bathroom; what is released enters the stall.

    Parameters
    ----------
    stall_volume, bathroom_volume : float or array
        Volume of air, the bathroom's without the stall, > 0. [m3]
    exchange : float or array
        Flow between stall and bathroom, each way, >= 0. [m3/h]
    outflow : float or array
        Flow from the bathroom to elsewhere, >= 0. [m3/h]
    stall_loss, bathroom_loss : float or array, default 0
        Deposition and reaction, as rates, >= 0. [1/h]

    Raises
    ------
    DomainError
        If a volume is not positive or another argument negative (NaN included).

    Notes
    -----
    :math:`V_s\,dC_s/dt = G - Q_s (C_s - C_b)`,
    :math:`V_b\,dC_b/dt = Q_s (C_s - C_b) - Q_b C_b`, without what comes back from
    the rest of the house. From source id ``mckone-1987``. Valid for: a stall that is
    open to its bathroom, house air free of the vapour. Departs from the source in:
    the house is not a third compartment.
    """

    stall_volume: Floats
    bathroom_volume: Floats
    exchange: Floats
    outflow: Floats
    stall_loss: Floats = 0.0
    bathroom_loss: Floats = 0.0
    _volume: FloatArray = field(init=False, repr=False)
    _rates: tuple[FloatArray, FloatArray, FloatArray, FloatArray] = field(
        init=False, repr=False
    )
    _slow: FloatArray = field(init=False, repr=False)
    _fast: FloatArray = field(init=False, repr=False)
    _shifted: tuple[FloatArray, FloatArray] = field(init=False, repr=False)

    def __post_init__(self) -> None:
        stall = positive("stall_volume", self.stall_volume)
        bathroom = positive("bathroom_volume", self.bathroom_volume)
        exchange = not_negative("exchange", self.exchange)
        away = not_negative("outflow", self.outflow) / bathroom
        away = away + not_negative("bathroom_loss", self.bathroom_loss)
        lost = not_negative("stall_loss", self.stall_loss)
        out, back = exchange / stall, exchange / bathroom
        # The rates are the eigenvalues of [[-out - lost, out], [back, -back - away]],
        # real because out * back >= 0. The slow one comes from the determinant, and
        # the matrix less its fast rate is written as sums: no digit is lost where
        # rates are equal or nearly 0.
        half = ((out + lost) - (back + away)) / 2
        spread = np.sqrt(half**2 + out * back)
        fast = (out + lost + back + away) / 2 + spread
        determinant = out * away + lost * (back + away)
        slow = np.zeros_like(fast + determinant)
        np.divide(determinant, fast, out=slow, where=fast > 0)
        object.__setattr__(self, "_volume", stall)
        object.__setattr__(self, "_rates", (out, back, lost, away))
        object.__setattr__(self, "_slow", -slow)
        object.__setattr__(self, "_fast", -fast)
        first = _without_cancelling(-half, spread, out * back)
        second = _without_cancelling(half, spread, out * back)
        object.__setattr__(self, "_shifted", (first, second))

    @property
    def size(self) -> int:
        """Number of zones."""
        return 2

    def source(self, amount: FloatArray) -> Vector:
        """Spread an amount, or a rate of release, over the stall, which it enters."""
        into = amount / self._volume
        return (into, np.zeros_like(into))

    def respond(
        self, time: FloatArray, vector: Vector, others: Sequence[FloatArray]
    ) -> Vector:
        """Apply the divided difference over these zones' rates and further ones.

        The function of a 2x2 matrix in Newton's form at its fast rate: every term
        is positive.
        """
        scale = time ** len(others)
        further = [rate * time for rate in others]
        one = divided_difference(self._fast * time, *further) * scale
        two = divided_difference(self._slow * time, self._fast * time, *further)
        two = two * scale * time
        out, back, _, _ = self._rates
        stall, bathroom = vector
        first, second = self._shifted
        return (
            one * stall + two * (first * stall + out * bathroom),
            one * bathroom + two * (back * stall + second * bathroom),
        )

    def flow(self, vector: Vector) -> Vector:
        """Rates of change that exchange alone causes."""
        out, back, lost, away = self._rates
        stall, bathroom = vector
        return (
            out * (bathroom - stall) - lost * stall,
            back * (stall - bathroom) - away * bathroom,
        )

    def settled(self, vector: Vector) -> Vector:
        """State that a constant source keeps up, infinite without any loss."""
        out, back, lost, away = self._rates
        determinant = out * away + lost * (back + away)
        with np.errstate(divide="ignore", invalid="ignore"):
            return (
                ((back + away) * vector[0] + out * vector[1]) / determinant,
                (back * vector[0] + (out + lost) * vector[1]) / determinant,
            )


Zone: TypeAlias = OneZone | TwoZones
"""What the equations of a room accept."""


def _without_cancelling(
    half: FloatArray, spread: FloatArray, product: FloatArray
) -> FloatArray:
    """Return half + sqrt(half^2 + product), also where half is negative."""
    plus = np.abs(half) + spread
    small = np.zeros_like(plus)
    np.divide(product, plus, out=small, where=plus > 0)
    return np.where(half >= 0, plus, small)


def steady_state(zone: Zone, emission: Floats) -> FloatArray:
    r"""Return the concentrations that a constant source leads to.

    Parameters
    ----------
    zone : OneZone or TwoZones
        Where it is released.
    emission : float or array
        Rate of release, >= 0. [mg/h]

    Returns
    -------
    array, shape (..., 1) or (..., 2)
        Concentration in each zone. [mg/m3]

    Raises
    ------
    DomainError
        If ``emission`` is negative (NaN included), or nothing leaves the air: then
        there is no steady state.

    Notes
    -----
    One zone: :math:`C = G/(\lambda V)`; two: :math:`C_b = G/Q_b`,
    :math:`C_s = G/Q_b + G/Q_s` where nothing deposits.
    From source id ``masters-environmental``. Valid for: a source that goes on much
    longer than the air takes to change. Departs from the source in: nothing.

    Examples
    --------
    >>> steady_state(OneZone(500.0, 1000 / 500 + 0.40), 140.0)
    array([0.1166])
    """
    rates = zone.source(not_negative("emission", emission))
    result = np.stack(np.broadcast_arrays(*zone.settled(rates)), axis=-1)
    if not np.all(np.isfinite(result)):
        raise DomainError("loss", 0.0, "> 0 for a steady state to exist")
    return result


def decay_time(
    start: Floats, target: Floats, loss: Floats, *, background: Floats = 0.0
) -> FloatArray:
    r"""Return how long air of one zone takes to fall from one level to another.

    Parameters
    ----------
    start, target : float or array
        Concentrations, ``start`` at or above ``target``, ``target`` above
        ``background``. [any unit]
    loss : float or array
        Rate of loss, > 0. [1/h]
    background : float or array, default 0
        Concentration that the incoming air holds, >= 0. [unit of ``start``]

    Returns
    -------
    array
        Time without any source. [h]

    Raises
    ------
    DomainError
        If the levels are not in that order, or ``loss`` is not positive (NaN
        included).

    Notes
    -----
    :math:`t = \ln[(C_0 - C_\infty)/(C - C_\infty)]/\lambda`.
    From source id ``mmwr-43-rr13``. Valid for: one well-mixed zone; where mixing is
    imperfect the source multiplies by up to 10. Departs from the source in: nothing.

    Examples
    --------
    >>> float(60 * decay_time(1.0, 0.01, 6.0))
    46.05
    """
    floor = not_negative("background", background)
    above = finite("start", start) - floor
    left = positive("target - background", finite("target", target) - floor)
    if not np.all(above >= left):
        raise DomainError("start", float(np.min(above + floor)), "at or above target")
    return np.asarray(np.log(above / left) / positive("loss", loss))


def first_order_peak(
    mass: Floats, rate: Floats, zone: OneZone
) -> tuple[FloatArray, FloatArray]:
    r"""Return the highest concentration that a source which runs dry causes.

    Parameters
    ----------
    mass : float or array
        Mass that is released in all, >= 0. [mg]
    rate : float or array
        Rate at which the source runs dry, > 0. [1/h]
    zone : OneZone
        The room, empty of the vapour at first.

    Returns
    -------
    concentration : array
        The peak. [mg/m3]
    time : array
        When it is reached; infinite where nothing leaves the air. [h]

    Raises
    ------
    DomainError
        If ``mass`` is negative or ``rate`` is not positive (NaN included).

    Notes
    -----
    :math:`t = \ln(k/\lambda)/(k - \lambda)`,
    :math:`C = (M/V)\,e^{-\lambda t}`, because there
    :math:`k e^{-kt} = \lambda e^{-\lambda t}`. From source id ``epa-tichenor-sparks``
    for the form of the source. Valid for: one well-mixed zone. Departs from the
    source in: sinks are part of the loss.

    Examples
    --------
    >>> peak, time = first_order_peak(100.0, 6.0, OneZone(10.0, 2.0))
    >>> float(peak), float(time)
    (5.7735, 0.27465)
    """
    dry = positive("rate", rate)
    loss = not_negative("loss", zone.loss)
    ratio = loss / dry
    with np.errstate(divide="ignore", invalid="ignore"):
        step = np.log(ratio) / (ratio - 1)
        near = np.abs(ratio - 1) < 1e-6
        time = np.where(near, 1 - (ratio - 1) / 2, step) / dry
        kept = np.where(loss > 0, np.exp(-loss * np.where(loss > 0, time, 0.0)), 1.0)
    spread = not_negative("mass", mass) / positive("volume", zone.volume)
    return spread * kept, time
