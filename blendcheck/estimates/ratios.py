"""Air beside acute reference points, one tier at a time, and the strength of smell.

Ratios are added only where a tier has a reference for more than nine tenths of what
evaporates, by weight; else they are listed, with the names that have none.
"""

from collections.abc import Callable
from dataclasses import dataclass

from blendcheck.estimates.acute import (
    COVER,
    TIERS,
    Reference,
    Tier,
    odour_threshold,
    reference_point,
)
from blendcheck.estimates.air import ConstituentAir, ShowerAir

__all__ = ["Ratio", "Ratios", "odour_of", "ratios_of", "without_any"]

_STALL = 0
_MEAN = 1


@dataclass(frozen=True, slots=True)
class Ratio:
    """The air in the stall, over the shower, divided by a reference point.

    Parameters
    ----------
    air : ConstituentAir
        The constituent.
    reference : Reference
        What it is divided by.
    central : float or None
        At the setting as entered; ``None`` where there is no estimate. [-]
    low, high : float
        Of the least and of the most that can be in the air over all that is open. [-]
    """

    air: ConstituentAir
    reference: Reference
    central: float | None
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Ratios:
    """The ratios of one tier.

    Parameters
    ----------
    ratios : tuple of Ratio
        Largest first.
    without : tuple of str
        Constituents that have no reference in this tier.
    cover : float
        Share of what evaporates that has one, by weight, at least. What no paper
        names has none. [-]
    total : (float, float, float) or None
        Low, central and high sum; ``None`` where it must not be added up. [-]
    """

    ratios: tuple[Ratio, ...]
    without: tuple[str, ...]
    cover: float
    total: tuple[float, float, float] | None


def ratios_of(air: ShowerAir, tier: Tier) -> Ratios:
    """Divide the air in the stall by the reference points of one tier.

    Parameters
    ----------
    air : ShowerAir
        The estimate.
    tier : str
        One of :data:`~blendcheck.estimates.acute.TIERS`.

    Returns
    -------
    Ratios
        Listed; added up above :data:`~blendcheck.estimates.acute.COVER`.

    Notes
    -----
    The mean over the shower is compared, because the points are averages over some
    minutes to two hours. Sum of fractions, source id ``osha-1910-1000``, (d)(2), within
    one tier.
    """
    return _ratios(air, lambda cas: reference_point(cas, tier))


def odour_of(air: ShowerAir) -> Ratios:
    """Divide the air in the stall by odour thresholds of one method.

    Parameters
    ----------
    air : ShowerAir
        The estimate.

    Returns
    -------
    Ratios
        Multiples of the threshold; they tell two blends of about the same strength of
        smell, and nothing about irritation.
    """
    return _ratios(air, odour_threshold)


def _ratios(air: ShowerAir, find: Callable[[str], Reference | None]) -> Ratios:
    found: list[Ratio] = []
    without: list[str] = []
    covered = 0.0
    open_grams = air.scent.unknown.high
    for one in air.constituents:
        point = find(one.constituent.cas)
        if point is None:
            without.append(one.constituent.name)
            open_grams += one.constituent.grams.high
            continue
        covered += one.constituent.grams.low
        found.append(_ratio(one, point))
    cover = covered / (covered + open_grams) if covered else 0.0
    found.sort(key=lambda ratio: -ratio.high)
    total = None
    if cover > COVER and all(ratio.central is not None for ratio in found):
        total = (
            sum(ratio.low for ratio in found),
            sum(ratio.central or 0.0 for ratio in found),
            sum(ratio.high for ratio in found),
        )
    return Ratios(tuple(found), tuple(without), cover, total)


def _ratio(one: ConstituentAir, point: Reference) -> Ratio:
    levels, limit = one.levels, point.mg_per_m3
    central = None
    if levels.central is not None:
        central = float(levels.central[_MEAN, _STALL]) / limit
    low, high = (float(each[_MEAN, _STALL]) for each in (levels.floor, levels.bound))
    return Ratio(one, point, central, low / limit, high / limit)


def without_any(air: ShowerAir) -> tuple[str, ...]:
    """Name the constituents that have no reference point in any tier.

    Parameters
    ----------
    air : ShowerAir
        The estimate.
    """
    return tuple(
        one.constituent.name
        for one in air.constituents
        if all(reference_point(one.constituent.cas, tier) is None for tier in TIERS)
    )
