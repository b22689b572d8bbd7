"""The difference of two recipes over everything that is unknown.

Divided by the first recipe's part of a batch, the difference of two loads is
``Σ share × (mass of the one - ρ × mass of the other)``, with ρ the ratio of both parts.
It is linear in every unknown on its own, so its extremes lie at corners: each share
stands at the end that its factor's sign asks for, and only what is unknown of the
masses, and ρ, are tried in turn.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import product
from typing import Final

from blendcheck.blend.closing import extreme_ratio
from blendcheck.errors import DomainError
from blendcheck.interval import Range
from blendcheck.ranking.forms import Form, Lot
from blendcheck.records.mass import NOTHING, Corner, Key, Mass, bound

__all__ = ["Difference", "Ends", "difference"]

_MOST_CORNERS: Final = 10
"""Unknowns of the masses that are tried in turn; more are taken lot by lot."""

Ends = tuple[Fraction, Fraction]

_ZERO: Final = Fraction(0)
_ONE: Final = Fraction(1)


def _sum(terms: Iterator[Fraction]) -> Fraction:
    return sum(terms, _ZERO)


@dataclass(frozen=True, slots=True)
class Difference:
    """Two recipes, ready to be compared in full and by what leaves.

    Parameters
    ----------
    lots : tuple of Lot
        Every lot of either; one that is in both stands once.
    corners : tuple of tuple of Fraction
        The factor of each lot, in grams, at every corner of the masses and of ρ.
    ranges : tuple of (Fraction, Fraction) or None
        The same as a range lot by lot, where there are too many corners.
    scale : Range
        The first recipe's part of its batch, by which a difference is multiplied
        to be grams in one piece or use. [1]
    """

    lots: tuple[Lot, ...]
    corners: tuple[tuple[Fraction, ...], ...]
    ranges: tuple[Ends, ...] | None
    scale: Range

    def in_full(self) -> Ends:
        """Return the ends of the difference, released in full, before it is scaled."""
        shares = [(lot.low, lot.high) for lot in self.lots]
        if self.ranges is not None:
            return _by_ranges(self.ranges, shares)
        lows, highs = [], []
        for factors in self.corners:
            pairs = list(zip(factors, shares, strict=True))
            lows.append(_sum(f * s[0 if f >= 0 else 1] for f, s in pairs))
            highs.append(_sum(f * s[1 if f >= 0 else 0] for f, s in pairs))
        return min(lows) / 100, max(highs) / 100

    @property
    def factors(self) -> tuple[tuple[Ends, ...], ...]:
        """Least and greatest factor of each lot, for every corner."""
        if self.ranges is not None:
            return (self.ranges,)
        return tuple(tuple((f, f) for f in row) for row in self.corners)

    def by_weight(self) -> "Difference":
        """Return the same with what was printed by area as far off as it may be."""
        return replace(self, lots=tuple(lot.by_weight() for lot in self.lots))

    def grams(self, ends: Ends) -> Range:
        """Return a difference in grams.

        Parameters
        ----------
        ends : (Fraction, Fraction)
            From :meth:`in_full`.
        """
        low, high = _both(self.scale)
        return Range(
            min(ends[0] * low, ends[0] * high), max(ends[1] * low, ends[1] * high)
        )


def _by_ranges(factors: Sequence[Ends], shares: Sequence[Ends]) -> Ends:
    low = high = _ZERO
    for span, share in zip(factors, shares, strict=True):
        corners = [f * s for f in span for s in share]
        low, high = low + min(corners), high + max(corners)
    return low / 100, high / 100


def difference(one: Form, other: Form, *, use: bool) -> Difference:
    """Return the difference of two recipes.

    Parameters
    ----------
    one, other : Form
        The recipes; above zero the first has more.
    use : bool
        Whether one use is compared, else one piece.

    Returns
    -------
    Difference
        To be asked in full and by what leaves.

    Raises
    ------
    DomainError
        If an unknown has no bound on a side that is needed.
    """
    unknowns = {**one.unknowns, **other.unknowns}
    ratio = _ratio(one, other, unknowns, use=use)
    keys = list(dict.fromkeys((*one.lots, *other.lots)))
    lots = tuple((one.lots.get(k) or other.lots[k])[0] for k in keys)
    masses = [
        (one.lots[k][1] if k in one.lots else NOTHING,
         other.lots[k][1] if k in other.lots else NOTHING) for k in keys
    ]  # fmt: skip
    unknown = list(
        dict.fromkeys(key for pair in masses for m in pair for key in m.counts)
    )
    scale = _scale(one, use=use)
    if len(unknown) > _MOST_CORNERS:
        ranges = tuple(_factor(pair, ratio, unknowns) for pair in masses)
        return Difference(lots, (), ranges, scale)
    corners = tuple(
        tuple(a.at(corner) - r * b.at(corner) for a, b in masses)
        for corner in _corners(unknown, unknowns)
        for r in dict.fromkeys(ratio)
    )
    return Difference(lots, corners, None, scale)


def _corners(keys: Sequence[Key], unknowns: Mapping[Key, Range]) -> Iterator[Corner]:
    ends = [
        dict.fromkeys(bound(unknowns, key, up) for up in (False, True)) for key in keys
    ]
    for values in product(*ends):
        yield dict(zip(keys, values, strict=True))


def _factor(
    pair: tuple[Mass, Mass], ratio: Ends, unknowns: Mapping[Key, Range]
) -> Ends:
    """Return the range of one lot's factor: linear in the masses for a given ρ."""
    spans = [(pair[0] - pair[1].times(r)).range(unknowns) for r in ratio]
    return (
        min(_both(span)[0] for span in spans),
        max(_both(span)[1] for span in spans),
    )


def _ratio(one: Form, other: Form, unknowns: Mapping[Key, Range], *, use: bool) -> Ends:
    """Return the other's part of its batch divided by the first's, low to high."""
    low, high = _piece_ratio(one, other)
    first = Mass(_ONE) if one.shared_out else one.whole
    second = Mass(_ONE) if other.shared_out else other.whole
    if first is not None and second is not None:
        least = extreme_ratio(first, second, unknowns, "low").value
        most = extreme_ratio(first, second, unknowns, "high").value
    else:
        least, most = _by_finished(one, other)
    uses = other.used / one.used if use else _ONE
    return low * least * uses, high * most * uses


def _piece_ratio(one: Form, other: Form) -> Ends:
    return _divided(_both(other.piece), _both(one.piece))


def _by_finished(one: Form, other: Form) -> Ends:
    unit = (_ONE, _ONE)
    above = unit if one.shared_out else _both(one.finished)
    return _divided(above, unit if other.shared_out else _both(other.finished))


def _both(span: Range) -> Ends:
    """Return both ends; one that is missing is never taken for nothing."""
    if span.low is None or span.high is None:
        raise DomainError("mass", "unbounded", "bounded on both sides to be compared")
    return span.low, span.high


def _divided(above: Ends, below: Ends) -> Ends:
    return above[0] / below[1], above[1] / below[0]


def _scale(one: Form, *, use: bool) -> Range:
    low, high = _both(one.piece)
    if not one.shared_out:
        whole = _both(one.finished)
        low, high = low / whole[1], high / whole[0]
    factor = one.used if use else _ONE
    return Range(low * factor, high * factor)
