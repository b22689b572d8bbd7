"""The difference of two recipes by what leaves them, in every state of release.

What leaves of a constituent is a range, and the same in both recipes. So the sign of a
difference is certain where it stays the same for every part between the ends. Two
bounds of it are worked out, and the tighter one counts at each corner: constituent by
constituent, where what leaves of one is the same from every lot; and lot by lot, where
no lot gives off more than it holds.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final

import numpy as np

from blendcheck.equations.arrays import FloatArray
from blendcheck.estimates.released import Released
from blendcheck.ranking.difference import Difference
from blendcheck.ranking.forms import Content, Lot

__all__ = ["Views"]

_TINY: Final = 1e-9  # g in a batch: an estimate is no finer than this
_Pair = tuple[FloatArray, FloatArray]


@dataclass(slots=True)
class Views:
    """Every state of release at every setting.

    Parameters
    ----------
    parts : Released
        What leaves of each constituent, one row for each state.
    """

    parts: Released
    _places: Mapping[str, int] = field(init=False)
    _held: dict[Lot, _Pair] = field(init=False, default_factory=dict)

    def __post_init__(self) -> None:
        self._places = {name: n for n, name in enumerate(self.parts.cas)}

    @property
    def settings(self) -> tuple[str, ...]:
        """Names of the settings, each once."""
        return tuple(dict.fromkeys(self.parts.settings))

    def against(self, found: Difference, side: int) -> tuple[str, ...]:
        """Return the settings at which a difference may not have a sign.

        Parameters
        ----------
        found : Difference
            Two recipes.
        side : int
            1 if the first has more released in full, -1 if the second has.

        Returns
        -------
        tuple of str
            Empty where every state at every setting bears it out.
        """
        low, high = self._ends(found)
        bad = ~(low > _TINY) if side > 0 else ~(high < -_TINY)
        return tuple(
            dict.fromkeys(
                name for name, no in zip(self.parts.settings, bad, strict=True) if no
            )
        )

    def _ends(self, found: Difference) -> _Pair:
        """Return the least and the greatest difference in each row, in g in a batch."""
        factors = np.array(
            [[(float(a), float(b)) for a, b in row] for row in found.factors]
        )
        by_lot = self._by_lot(found.lots, factors)
        by_part = self._by_part(found.lots, factors)
        low = np.maximum(by_lot[0], by_part[0]).min(axis=1)
        high = np.minimum(by_lot[1], by_part[1]).max(axis=1)
        return low / 100, high / 100

    # -- lot by lot -----------------------------------------------------------

    def _by_lot(self, lots: Sequence[Lot], factors: FloatArray) -> _Pair:
        pairs = [self._lot(lot) for lot in lots]
        least = np.stack([low for low, _ in pairs], axis=-1)  # (rows, lots)
        most = np.stack([high for _, high in pairs], axis=-1)
        return (
            _least(factors[..., 0], least, most),
            -_least(-factors[..., 1], least, most),
        )

    def _lot(self, lot: Lot) -> _Pair:
        if lot not in self._held:
            self._held[lot] = self._holds(lot)
        return self._held[lot]

    def _holds(self, lot: Lot) -> _Pair:
        """Return the least and the most that leaves of a lot, in % of it.

        The most is reached by filling the lot up from the low ends, what leaves most
        first, until its sum is reached: a linear programme with one constraint beside
        its bounds.
        """
        lows = np.array([float(part.low) for part in lot.contents])
        highs = np.array([float(part.high) for part in lot.contents])
        few, many = self._of(lot.contents)
        order = np.argsort(-many, axis=1)
        widths = np.maximum(highs - lows, 0.0)[order]
        before = np.cumsum(widths, axis=1) - widths
        room = max(0.0, float(lot.high) - float(lows.sum()))
        more = np.clip(room - before, 0.0, widths)
        top = many @ lows + (np.take_along_axis(many, order, axis=1) * more).sum(axis=1)
        return few @ lows, top

    def _of(self, contents: Sequence[Content]) -> _Pair:
        """Return what leaves of each component of a lot; of the unknown, anything."""
        rows = len(self.parts.settings)
        few, many = np.zeros((rows, len(contents))), np.ones((rows, len(contents)))
        for n, part in enumerate(contents):
            place = self._places.get(part.identity)
            if place is not None:
                few[:, n] = self.parts.low[:, place]
                many[:, n] = self.parts.high[:, place]
        return few, many

    # -- constituent by constituent -------------------------------------------

    def _by_part(self, lots: Sequence[Lot], factors: FloatArray) -> _Pair:
        columns: dict[object, int] = {}
        places = []  # (column, lot, low, high)
        named: list[Content] = []
        for n, lot in enumerate(lots):
            for part in lot.contents:
                # what a list hides is another thing in every lot
                name = part.identity or (n, part)
                if name not in columns:
                    columns[name] = len(columns)
                    named.append(part)
                places.append((columns[name], n, float(part.low), float(part.high)))
        few, many = self._of(named)
        low = np.zeros((len(factors), len(columns)))
        high = np.zeros_like(low)
        for column, n, least, most in places:
            small, large = factors[:, n, 0], factors[:, n, 1]
            low[:, column] += np.where(small >= 0, small * least, small * most)
            high[:, column] += np.where(large >= 0, large * most, large * least)
        return _least(low, few, many), -_least(-high, few, many)


def _least(factors: FloatArray, few: FloatArray, many: FloatArray) -> FloatArray:
    """Return Σ factor × value at the end that makes it least, shape (rows, corners)."""
    above, below = np.maximum(factors, 0.0), np.minimum(factors, 0.0)
    return np.asarray(few @ above.T + many @ below.T)
