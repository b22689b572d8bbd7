"""The one place where a mass becomes a percent.

A percent is a ratio of two linear forms over a box of unknowns. Its extremes lie
at corners of the box; which corner follows from the sign of each coefficient at
the extreme itself. Dinkelbach's iteration walks there in exact arithmetic, a few
steps for any number of unknowns.
"""

from collections.abc import Sequence
from fractions import Fraction
from typing import Literal, NamedTuple

from blendcheck.errors import DomainError
from blendcheck.interval import Range
from blendcheck.records.mass import Corner, Key, Mass, Unknowns, bound, is_open

__all__ = [
    "End",
    "Extreme",
    "closed_share",
    "extreme_ratio",
    "share_end",
    "weighted",
]

End = Literal["low", "high"]
_PERCENT = Fraction(1, 100)


class Extreme(NamedTuple):
    """An end of a closed figure: its value, where it is met, whether it is met."""

    value: Fraction
    corner: Corner
    open: bool


def extreme_ratio(part: Mass, whole: Mass, unknowns: Unknowns, end: End) -> Extreme:
    r"""Return the smallest or largest ratio of two masses over all unknowns.

    Parameters
    ----------
    part : Mass
        Numerator. [g]
    whole : Mass
        Denominator, positive everywhere in the box. [g]
    unknowns : mapping of Key to Range
        Bounds of every unknown of either form.
    end : {"low", "high"}
        Which extreme.

    Returns
    -------
    Extreme
        The ratio [1], the corner where it is taken, and whether the corner is
        itself excluded.

    Raises
    ------
    DomainError
        If the whole can be zero or less, or an unknown has no bound.

    Notes
    -----
    For the largest ratio: at the optimum :math:`\lambda` each unknown with
    :math:`n_j - \lambda d_j > 0` stands at its high end, every other at its low
    end, so :math:`\lambda_{k+1} = N(u_k)/D(u_k)` repeated from any corner rises
    to it and stops. Method: W. Dinkelbach, "On nonlinear fractional
    programming", Management Science 13 (1967) 492-498. Valid for: linear forms
    over a box. Departs from the source in: nothing.
    """
    if not whole.at(whole.extreme(unknowns, "low")) > 0:
        raise DomainError("whole", "0 g or less", "heavier than 0 g at its low end")
    if not part.counts and not whole.counts:
        return Extreme(part.fixed / whole.fixed, {}, open=False)
    up = end == "high"
    keys = list(dict.fromkeys((*part.counts, *whole.counts)))
    zero = Fraction(0)
    corner: dict[Key, Fraction] = {key: bound(unknowns, key, up) for key in keys}
    ratio = part.at(corner) / whole.at(corner)
    while True:
        gains = {
            key: part.counts.get(key, zero) - ratio * whole.counts.get(key, zero)
            for key in keys
        }
        corner = {
            key: bound(unknowns, key, (gain > 0) == up) for key, gain in gains.items()
        }
        better = part.at(corner) / whole.at(corner)
        if better == ratio:
            break
        ratio = better
    loose = any(
        gain != 0 and is_open(unknowns, key, corner[key]) for key, gain in gains.items()
    )
    return Extreme(ratio, corner, open=loose)


def weighted(shares: Sequence[Range], parts: Sequence[Mass], end: End) -> Mass:
    """Add masses, each times one end of its own share.

    Parameters
    ----------
    shares : sequence of Range
        A share for each part; a missing low end counts as 0, a missing high end
        as all of it. [%]
    parts : sequence of Mass
        The masses, of the same length. [g]
    end : {"low", "high"}
        Which end of every share.

    Returns
    -------
    Mass
        The sum. [g]
    """
    return Mass.total(
        part.times(share_end(share, end))
        for share, part in zip(shares, parts, strict=True)
    ).times(_PERCENT)


def share_end(share: Range, end: End) -> Fraction:
    """Return one end of a share, a missing one replaced by 0 or 100.

    Parameters
    ----------
    share : Range
        The share. [%]
    end : {"low", "high"}
        Which end.
    """
    if end == "low":
        return Fraction(0) if share.low is None else share.low
    return Fraction(100) if share.high is None else share.high


def _loose(
    shares: Sequence[Range], parts: Sequence[Mass], unknowns: Unknowns, end: End
) -> bool:
    """Whether an end rests on a share end that is excluded and does weigh in."""
    return any(
        (share.low_open if end == "low" else share.high_open)
        and (part.range(unknowns).low or 0) > 0
        for share, part in zip(shares, parts, strict=True)
    )


def closed_share(
    shares: Sequence[Range],
    parts: Sequence[Mass],
    whole: Mass,
    unknowns: Unknowns,
    weighed: Range | None = None,
) -> Range:
    """Close a percent in one step: Σ share × part over the whole.

    Parameters
    ----------
    shares : sequence of Range
        Share of what is counted in each part; each is an unknown of its own. [%]
    parts : sequence of Mass
        The parts, linear in the unknowns. [g]
    whole : Mass
        What the percent is a percent of. [g]
    unknowns : mapping of Key to Range
        Bounds of every unknown mass.
    weighed : Range, optional
        A weighed whole. The smaller of it and ``whole`` is used, at each end.
        [g]

    Returns
    -------
    Range
        The percent. [%]

    Notes
    -----
    Shares and masses are not negative, so each share stands at its own end and
    only the masses need a corner search. Equal to the hull over all corners
    while ``weighed`` is not given; with it, the low end is the larger of two low
    ends, which never lies above the hull's.
    """
    low, low_open = _closed_end(shares, parts, whole, unknowns, weighed, "low")
    wholes = (whole,) if weighed is None else (whole, weighed)
    if all(one.is_exact for one in (*shares, *parts, *wholes)):
        return Range(low, low)
    high, high_open = _closed_end(shares, parts, whole, unknowns, weighed, "high")
    differ = low < high
    return Range(low, high, low_open and differ, high_open and differ)


def _closed_end(
    shares: Sequence[Range],
    parts: Sequence[Mass],
    whole: Mass,
    unknowns: Unknowns,
    weighed: Range | None,
    end: End,
) -> tuple[Fraction, bool]:
    """Close one end of a percent; say whether that end is itself excluded."""
    part = weighted(shares, parts, end)
    found = [extreme_ratio(part, whole, unknowns, end)]
    if weighed is not None:
        scale = weighed.high if end == "low" else weighed.low
        if scale is None:
            raise DomainError("weighed mass", "unbounded", "a weighed mass")
        found.append(extreme_ratio(part, Mass(scale), unknowns, end))
    top = max(found, key=lambda one: one.value)
    return top.value * 100, top.open or _loose(shares, parts, unknowns, end)
