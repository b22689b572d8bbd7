"""Compositions drawn at random inside their printed ranges, the same for every use.

One draw holds for a lot, not for a line: wherever the lot is used, in whatever recipe,
draw number n of the same seed is the same composition. A lot never adds up to more
than 100 %. A spread of draws stands beside an interval, never instead of it: it says
how often, and only as far as shares are spread evenly inside their ranges, which no
report says.
"""

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from blendcheck.equations.arrays import FloatArray, Floats, not_negative
from blendcheck.equations.constants import ZERO_CELSIUS
from blendcheck.errors import DomainError
from blendcheck.estimates.compositions import Lot
from blendcheck.estimates.mixing import Mixture, mixture_of

__all__ = [
    "DRAWS",
    "SEED",
    "Spread",
    "flash_draws",
    "lot_draws",
    "seeded",
    "share_draws",
    "spread_of",
]

DRAWS: Final = 10_000
"""How many compositions are drawn."""

SEED: Final = 1
"""Seed of all draws, so that a result can be had again."""

_HUNDRED: Final = 100.0
_QUANTILES: Final = (0.05, 0.5, 0.95)


@dataclass(frozen=True, slots=True)
class Spread:
    """What draws of compositions gave.

    Parameters
    ----------
    low, middle, high : float
        5, 50 and 95 % of the draws lie at or below. [unit of the draws]
    draws : int
        How many.
    """

    low: float
    middle: float
    high: float
    draws: int


def seeded(*names: object, seed: int = SEED) -> np.random.Generator:
    """Return a generator of its own for a name, the same every time.

    Parameters
    ----------
    *names : object
        What it is for, such as the key of a lot; read as text.
    seed : int, optional
        Seed of all draws.

    Returns
    -------
    Generator
        It does not depend on what else is drawn, or in which order.
    """
    text = "\x1f".join(map(str, (seed, *names)))
    digest = hashlib.sha256(text.encode()).digest()
    return np.random.default_rng(int.from_bytes(digest[:16], "big"))


def share_draws(
    lows: Floats, highs: Floats, draws: int, generator: np.random.Generator
) -> FloatArray:
    """Draw shares inside their ranges, which together make exactly 100 %.

    Parameters
    ----------
    lows, highs : array, shape (k,)
        Ends of the shares, 0 to 100, the low ends adding up to at most 100 and the
        high ends to at least 100. [%]
    draws : int
        How many, > 0.
    generator : Generator
        Source of chance.

    Returns
    -------
    array, shape (draws, k)
        Shares. [%]

    Raises
    ------
    DomainError
        If the ends cannot add up to 100 % or an end is negative (NaN included).

    Notes
    -----
    Each share is drawn evenly from its range; what is over or under 100 % is then
    taken from all shares alike, each in proportion to the room that it has.
    """
    low, high = not_negative("lows", lows), not_negative("highs", highs)
    least, most = float(low.sum()), float(high.sum())
    if least > _HUNDRED + 1e-9 or most < _HUNDRED - 1e-9 or np.any(low > high):
        raise DomainError("shares", f"{least:g} to {most:g} %", "able to make 100 %")
    drawn = low + generator.random((draws, len(low))) * (high - low)
    total = drawn.sum(axis=1, keepdims=True)
    with np.errstate(divide="ignore", invalid="ignore"):
        down = low + (drawn - low) * ((_HUNDRED - least) / (total - least))
        up = high - (high - drawn) * ((most - _HUNDRED) / (most - total))
    found = np.where(total > _HUNDRED, down, np.where(total < _HUNDRED, up, drawn))
    return np.asarray(np.where(np.isfinite(found), found, drawn))


def lot_draws(lot: Lot, draws: int = DRAWS, *, seed: int = SEED) -> FloatArray:
    """Draw compositions of a lot.

    Parameters
    ----------
    lot : Lot
        A lot with a known composition.
    draws : int, optional
        How many.
    seed : int, optional
        Seed of all draws.

    Returns
    -------
    array, shape (draws, k + 1)
        Shares of its k components and of what is not listed, together 100. [%]
    """
    lows = np.array([*(one.low for one in lot.components), lot.unlisted[0]])
    highs = np.array([*(one.high for one in lot.components), lot.unlisted[1]])
    least = float(lows.sum())
    if least > _HUNDRED:  # rounding of a printed report
        lows, highs = lows * (_HUNDRED / least), highs * (_HUNDRED / least)
    return share_draws(lows, highs, draws, seeded("lot", lot.key, seed=seed))


def flash_draws(
    lots: Sequence[tuple[Lot, float, float]], draws: int = DRAWS, *, seed: int = SEED
) -> FloatArray | None:
    """Draw flash points of lots that are mixed, in °C.

    Parameters
    ----------
    lots : sequence of (Lot, float, float)
        Lots with a known composition and their grams, low to high. [g]
    draws : int, optional
        How many.
    seed : int, optional
        Seed of all draws.

    Returns
    -------
    array, shape (draws,), or None
        What lacks a figure is left out and the rest scaled, as for the value between
        the ends; the error of the model is not in it. ``None`` where nothing has all
        its figures.
    """
    mixture = mixture_of(lots)
    if not isinstance(mixture, Mixture):
        return None
    grams = np.zeros((draws, len(mixture.everything)))
    for mixed, (lot, low, high) in zip(mixture.lots, lots, strict=True):
        chance = seeded("grams", lot.key, seed=seed).random(draws)
        masses = low + chance * (high - low)
        shares = lot_draws(lot, draws, seed=seed) * masses[:, None]
        for column, place in enumerate(mixed.places):
            grams[:, place] += shares[:, column]
    return mixture.kelvin(mixture.moles(grams, "middle"), "middle") - ZERO_CELSIUS


def spread_of(values: FloatArray) -> Spread:
    """Return where most of the draws lie.

    Parameters
    ----------
    values : array
        Draws, at least one.

    Returns
    -------
    Spread
        Its 5, 50 and 95 % points.
    """
    low, middle, high = np.quantile(values, _QUANTILES)
    return Spread(float(low), float(middle), float(high), values.size)
