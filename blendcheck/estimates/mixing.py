"""A blend as arrays: which parts it can hold, at its low end, high end and between.

Each lot is a list of shares with a low and a high end that add up to 100 %. A share
that has all its figures is a *part*. Any other is a *light end* at the low end of the
estimate and something that does not burn at the high end; between them it is left
out. :mod:`blendcheck.estimates.ends` looks for the compositions at the ends.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Final, Literal

import numpy as np

from blendcheck.equations.activity import ModifiedUnifac, stands_above_one
from blendcheck.equations.arrays import FloatArray
from blendcheck.equations.flash import flash_point
from blendcheck.estimates.compositions import Component, Lot
from blendcheck.estimates.parts import (
    ALPHA_PINENE,
    CINEOLE,
    Part,
    activity_of,
    bracket_of,
    part_of,
    unmixable,
)

__all__ = ["End", "MixedLot", "Mixture", "Open", "mixture_of", "shares_at_most"]

End = Literal["low", "middle", "high"]

_LIGHT: Final = (ALPHA_PINENE, CINEOLE)
_HUNDRED: Final = 100.0


@dataclass(frozen=True, slots=True)
class Open:
    """A share that lacks a figure.

    Parameters
    ----------
    name : str
        What it is; ``not listed`` for what a report leaves open.
    lack : str
        What is missing.
    percent : float
        Its share of the blend at most. [%]
    taken_for : str or None
        CAS number of the light end that it counts as; ``None`` where it is so small
        a molecule that neither bounds it.
    """

    name: str
    lack: str
    percent: float
    taken_for: str | None


@dataclass(frozen=True, slots=True, eq=False)
class MixedLot:
    """A lot as arrays: place of each share among the parts, and its ends [%]."""

    key: str
    places: np.ndarray
    lows: FloatArray
    highs: FloatArray
    grams: tuple[float, float]

    def fill(self, scores: FloatArray) -> FloatArray:
        """Give what the ranges leave open to the shares of the highest score."""
        shares = self.lows.copy()
        rest = _HUNDRED - float(shares.sum())
        if rest < 0:  # rounding of a printed report
            return shares * (_HUNDRED / float(shares.sum()))
        for n in np.argsort(-scores[self.places], kind="stable"):
            more = min(rest, float(self.highs[n] - self.lows[n]))
            shares[n] += more
            rest -= more
        return shares

    @property
    def middle(self) -> FloatArray:
        """The middle of each range, scaled so that the lot is all of itself."""
        middle = (self.lows + self.highs) / 2
        return np.asarray(middle * (_HUNDRED / float(middle.sum())))

    def filled_alike(self) -> FloatArray:
        """Take of each range alike what makes up the whole."""
        rest, room = _HUNDRED - float(self.lows.sum()), self.highs - self.lows
        if rest <= 0 or not room.any():
            return self.fill(np.zeros(int(self.places.max()) + 1))
        return np.asarray(self.lows + room * min(1.0, rest / float(room.sum())))

    @property
    def is_open(self) -> bool:
        """Whether shares or grams are left open."""
        (low, high), rest = self.grams, _HUNDRED - float(self.lows.sum())
        return low < high or (0 < rest < float((self.highs - self.lows).sum()))


class Mixture:
    """Some lots that are mixed.

    Parameters
    ----------
    parts : tuple of Part
        Constituents with all their figures, each once.
    lots : sequence of MixedLot
        The lots; places behind the parts are the light ends.
    opened : tuple of Open
        Shares that lack a figure, the largest first.
    """

    def __init__(
        self,
        parts: tuple[Part, ...],
        lots: Sequence[MixedLot],
        opened: tuple[Open, ...],
    ) -> None:
        self.parts, self.lots, self.opened = parts, tuple(lots), opened
        light = [part_of(cas) for cas in _LIGHT]
        self.everything = (*parts, *(one for one in light if isinstance(one, Part)))
        self.masses = np.array([part.molar_mass for part in self.everything])
        self.curves = [part.table for part in self.everything]

    @property
    def known(self) -> int:
        """Number of parts with all their figures."""
        return len(self.parts)

    @cached_property
    def activity(self) -> ModifiedUnifac:
        """Model of the activity coefficients, light ends included."""
        return activity_of(tuple(part.cas for part in self.parts), len(_LIGHT))

    def flash_points(self, end: End) -> FloatArray:
        """Return the flash points of the parts at an end, in kelvins."""
        low = end == "low"
        found = np.array([p.flash_low if low else p.flash for p in self.everything])
        if not low:
            found[self.known :] = np.inf
        return found

    def kelvin(self, x: FloatArray, end: End) -> FloatArray:
        """Return the flash points of compositions in mole fractions."""
        points = self.flash_points(end)
        return flash_point(x, self.curves, points, self.activity)

    def moles(self, grams: FloatArray, end: End) -> FloatArray:
        """Turn grams of the parts, shape (..., n), into mole fractions."""
        amounts = grams / self.masses
        if end == "middle":
            amounts[..., self.known :] = 0.0
        return np.asarray(amounts / amounts.sum(axis=-1, keepdims=True))

    def grams(self, shares: Sequence[FloatArray], masses: FloatArray) -> FloatArray:
        """Return the grams of the parts, from shares of each lot and its mass."""
        total = np.zeros(len(self.everything))
        for lot, percents, mass in zip(self.lots, shares, masses, strict=True):
            np.add.at(total, lot.places, percents * mass)
        return total

    def middle(self) -> FloatArray:
        """Return the mole fractions at the middle of every range."""
        masses = np.array([sum(lot.grams) / 2 for lot in self.lots])
        return self.moles(
            self.grams([lot.middle for lot in self.lots], masses), "middle"
        )

    def terms(self, x: FloatArray, kelvin: float, end: End) -> FloatArray:
        """Return activity coefficient times pressure ratio of each part."""
        points = self.flash_points(end)
        gammas = self.activity.coefficients(x, kelvin)
        at = np.asarray(kelvin)
        ratio = [
            float(curve(at) / curve(np.asarray(point))) if np.isfinite(point) else 0.0
            for curve, point in zip(self.curves, points, strict=True)
        ]
        return np.asarray(gammas * np.array(ratio))

    def may_split(self, x: FloatArray, kelvin: float) -> bool:
        """Say whether the liquid must separate, so that one phase cannot be."""
        return bool(stands_above_one(x, self.activity.ln_coefficients(x, kelvin)))


def mixture_of(lots: Sequence[tuple[Lot, float, float]]) -> Mixture | tuple[Open, ...]:
    """Put lots together.

    Parameters
    ----------
    lots : sequence of (Lot, float, float)
        Lots with a known composition and their grams, low to high. [g]

    Returns
    -------
    Mixture or tuple of Open
        What lacks a figure where nothing is left that has them all.
    """
    lacks = _lacks(lots)
    cases = tuple(
        dict.fromkeys(
            one.cas
            for lot, _, _ in lots
            for one in lot.components
            if one.cas is not None and one.cas not in lacks and one.high > 0
        )
    )
    opened = _opened(lots, lacks)
    parts = tuple(part for part in map(part_of, cases) if isinstance(part, Part))
    if not parts:
        return opened
    place = {part.cas: n for n, part in enumerate(parts)}
    light = {cas: len(parts) + n for n, cas in enumerate(_LIGHT)}

    def where(one: Component) -> int:
        if one.cas in place:
            return place[one.cas]
        return light[bracket_of(one.cas, one.name) or ALPHA_PINENE]

    mixed = [
        MixedLot(
            lot.key,
            np.array([*map(where, lot.components), light[ALPHA_PINENE]]),
            np.array([*(one.low for one in lot.components), lot.unlisted[0]]),
            np.array([*(one.high for one in lot.components), lot.unlisted[1]]),
            (low, high),
        )
        for lot, low, high in lots
    ]
    return Mixture(parts, mixed, opened)


def _lacks(lots: Sequence[tuple[Lot, float, float]]) -> dict[str, str]:
    """Return what lacks, by CAS number: figures, or an interaction of two groups."""
    shares: dict[str, float] = {}
    for (lot, _, _), part in zip(lots, shares_at_most(lots), strict=True):
        for one in lot.components:
            if one.cas is not None and one.high > 0:
                shares[one.cas] = shares.get(one.cas, 0.0) + one.high * part
    parts = {cas: part_of(cas) for cas in shares}
    lacks: dict[str, str] = {
        cas: part for cas, part in parts.items() if not isinstance(part, Part)
    }

    def weight(cases: frozenset[str]) -> float:
        return sum(shares[cas] for cas in cases)

    for _ in range(len(shares)):
        left = tuple(cas for cas in shares if cas not in lacks)
        pairs = unmixable(left)
        if not pairs:
            break
        # The lighter side of the first pair is taken out, and the rest is seen anew.
        side = min((pairs[0].one, pairs[0].other), key=weight)
        lacks |= dict.fromkeys(side, f"no interaction of {pairs[0].says}")
    return lacks


def shares_at_most(lots: Sequence[tuple[Lot, float, float]]) -> tuple[float, ...]:
    """Return the share of each lot in the blend at most, others at their least.

    Parameters
    ----------
    lots : sequence of (Lot, float, float)
        Lots and their grams, low to high. [g]

    Returns
    -------
    tuple of float
        Shares, 0 to 1. [-]
    """
    least = sum(low for _, low, _ in lots)
    return tuple(high / ((least - low + high) or 1.0) for _, low, high in lots)


def _opened(
    lots: Sequence[tuple[Lot, float, float]], lacks: dict[str, str]
) -> tuple[Open, ...]:
    """Name the shares that lack a figure, each with its share of the blend at most."""
    found: dict[tuple[str, str, str | None], float] = {}
    for (lot, _, _), share in zip(lots, shares_at_most(lots), strict=True):
        if lot.unlisted[1] > 0:
            key = ("not listed", "not listed", ALPHA_PINENE)
            found[key] = found.get(key, 0.0) + lot.unlisted[1] * share
        for one in lot.components:
            if one.high == 0 or (one.cas is not None and one.cas not in lacks):
                continue
            lack = "not in the tables" if one.cas is None else lacks[one.cas]
            named = (one.name, lack, bracket_of(one.cas, one.name))
            found[named] = found.get(named, 0.0) + one.high * share
    made = (Open(name, lack, p, light) for (name, lack, light), p in found.items())
    return tuple(sorted(made, key=lambda one: -one.percent))
