"""Skin and eyes: sums, those whose effect does not add up, and acidity.

Method: Regulation (EC) No 1272/2008, Annex I, 3.2.3 and 3.3.3, Tables 3.2.3, 3.2.4,
3.3.3 and 3.3.4. Valid for: mixtures of classified substances. Departs from the source
in: what does not add up is told by its pH or by the maker, not by its chemistry.
"""

from collections.abc import Iterator, Mapping
from fractions import Fraction

from blendcheck.estimates.classes.ladder import Rung, by_class, climb
from blendcheck.estimates.classes.limits import Limit, limit_of
from blendcheck.estimates.classes.model import (
    Classified,
    Mixture,
    Profile,
    Scheme,
    Standing,
)
from blendcheck.estimates.classes.sums import Reach, reach_of
from blendcheck.estimates.classes.terms import Met, Pick, terms_of
from blendcheck.interval import Range
from blendcheck.quantity import print_range

__all__ = ["eye_classes", "skin_classes"]

ONE, TEN = Fraction(1), Fraction(10)
_SKIN = frozenset({"Skin Corr.", "Skin Irrit."})
_EYE = frozenset({"Skin Corr.", "Eye Dam.", "Eye Irrit."})
_CORROSIVE = ("Skin Corr. 1", "Skin Corr. 1A", "Skin Corr. 1B", "Skin Corr. 1C")
_NOT_KNOWN = "not classified by anybody"


def _weights(*groups: tuple[tuple[str, ...], Fraction]) -> Mapping[str, Fraction]:
    return {name: weight for names, weight in groups for name in names}


def _sum(
    mixture: Mixture,
    families: frozenset[str],
    weights: Mapping[str, Fraction],
    limit: Limit,
    rule: str,
    *,
    pick: Pick | None = None,
) -> Reach:
    cutoff = limit_of("Skin and eye", "generic cut-off").value
    usual = by_class(
        lambda claim: weights.get(claim.name), limit, (limit.statement,), cutoff
    )
    worst = Met(max(weights.values()), _NOT_KNOWN)
    terms = terms_of(mixture, families, pick or usual, worst)
    return reach_of(rule, limit, terms)


def _does_not_add_up(usual: Pick) -> Pick:
    """Return a pick of what is an acid, a base, or marked by the maker."""

    def pick(profile: Profile) -> Met | None:
        met = usual(profile)
        if met is None:
            return None
        strong = _is_strong(profile.acidity)
        if not profile.adds_up or strong is Standing.CERTAIN:
            return Met(ONE, met.says, met.documented)
        if strong is Standing.POSSIBLE:
            return Met(ONE, met.says, documented=False)
        return None

    return pick


def _acidity_limits() -> tuple[Fraction, Fraction]:
    start = "whole mixture, absent other data: pH at or "
    return (
        limit_of("Skin Corr. 1", start + "below").value,
        limit_of("Skin Corr. 1", start + "above").value,
    )


def _is_strong(acidity: Range | None) -> Standing | None:
    """Say whether a pH is at or beyond one of the two limits."""
    if acidity is None:
        return None
    acid, base = _acidity_limits()
    low, high = acidity.low or Fraction(0), acidity.high
    if high is None:
        high = Fraction(14)
    if high <= acid or low >= base:
        return Standing.CERTAIN
    return Standing.POSSIBLE if low <= acid or high >= base else None


def _singly(
    mixture: Mixture,
    families: frozenset[str],
    names: tuple[str, ...],
    hazard: str,
    rule: str,
) -> Reach:
    limit = limit_of(hazard, rule)
    weights = dict.fromkeys(names, ONE)
    usual = by_class(lambda claim: weights.get(claim.name), limit)
    says = "acids, bases and others whose effect does not add up"
    pick = _does_not_add_up(usual)
    return _sum(mixture, families, weights, limit, says, pick=pick)


def _by_acidity(
    mixture: Mixture, hazard_class: str, statement: str
) -> Iterator[Classified]:
    standing = _is_strong(mixture.acidity)
    if standing is None or mixture.acidity is None:
        return
    limit = limit_of("Skin Corr. 1", "whole mixture, absent other data: pH at or below")
    base = limit_of("Skin Corr. 1", "whole mixture, absent other data: pH at or above")
    lines = (
        f"pH of the mixture: {print_range(mixture.acidity)}",
        f"absent other data: pH {limit.says}",
        f"absent other data: pH {base.says}",
    )
    yield Classified(
        hazard_class,
        statement,
        standing,
        lines,
        (f"pH of the {mixture.name}",),
        (limit.source,),
        low=mixture.acidity.low,
        high=mixture.acidity.high,
        unit="pH",
    )


def skin_classes(mixture: Mixture, scheme: Scheme) -> Iterator[Classified]:
    """Classify for skin corrosion and irritation.

    Parameters
    ----------
    mixture : Mixture
        The mixture.
    scheme : Scheme
        By whose rules.

    Yields
    ------
    Classified
        ``Skin Corr. 1`` and ``Skin Irrit. 2``.
    """
    found = tuple(_by_acidity(mixture, "Skin Corr. 1", "H314"))
    yield from found
    if any(one.standing is Standing.CERTAIN for one in found):
        return
    irritant = ("Skin Irrit. 2",)
    corrosive = _weights((_CORROSIVE, ONE))
    both = _weights((_CORROSIVE, TEN), (irritant, ONE))
    first = limit_of("Skin Corr. 1", "sum of Skin Corr. 1A, 1B and 1C")
    below = limit_of("Skin Irrit. 2", "sum of Skin Corr. 1, below")
    third = limit_of("Skin Irrit. 2", "sum of Skin Irrit. 2")
    fourth = limit_of("Skin Irrit. 2", "10 times the sum of Skin Corr. 1")
    more = _weights((irritant, ONE))
    severe = [_sum(mixture, _SKIN, corrosive, first, "sum of Skin Corr. 1")]
    milder = [
        _sum(mixture, _SKIN, corrosive, below, "sum of Skin Corr. 1, below 5 %"),
        _sum(mixture, _SKIN, more, third, "sum of Skin Irrit. 2"),
        _sum(mixture, _SKIN, both, fourth, "10 × Skin Corr. 1 + Skin Irrit. 2"),
    ]
    if not scheme.by_sums_only:
        severe.insert(
            0, _singly(mixture, _SKIN, _CORROSIVE, "Skin Corr. 1", "not additive")
        )
        milder.append(
            _singly(mixture, _SKIN, irritant, "Skin Irrit. 2", "not additive")
        )
    yield from climb(
        (
            Rung("Skin Corr. 1", "H314", tuple(severe)),
            Rung("Skin Irrit. 2", "H315", tuple(milder)),
        )
    )


def eye_classes(mixture: Mixture, scheme: Scheme) -> Iterator[Classified]:
    """Classify for eye damage and irritation.

    Parameters
    ----------
    mixture : Mixture
        The mixture.
    scheme : Scheme
        By whose rules.

    Yields
    ------
    Classified
        ``Eye Dam. 1`` and ``Eye Irrit. 2``.
    """
    found = tuple(_by_acidity(mixture, "Eye Dam. 1", "H318"))
    yield from found
    if any(one.standing is Standing.CERTAIN for one in found):
        return
    damaging = (*_CORROSIVE, "Eye Dam. 1")
    irritant = ("Eye Irrit. 2", "Eye Irrit. 2B")
    one = _weights((damaging, ONE))
    both = _weights((damaging, TEN), (irritant, ONE))
    more = _weights((irritant, ONE))
    start = "sum of Skin Corr. 1 and Eye Dam. 1"
    first = limit_of("Eye Dam. 1", start)
    below = limit_of("Eye Irrit. 2", f"{start}, below")
    third = limit_of("Eye Irrit. 2", "sum of Eye Irrit. 2")
    fourth = limit_of("Eye Irrit. 2", f"10 times the {start}")
    severe = [_sum(mixture, _EYE, one, first, start)]
    milder = [
        _sum(mixture, _EYE, one, below, f"{start}, below 3 %"),
        _sum(mixture, _EYE, more, third, "sum of Eye Irrit. 2"),
        _sum(
            mixture,
            _EYE,
            both,
            fourth,
            "10 × (Skin Corr. 1 and Eye Dam. 1) + Eye Irrit. 2",
        ),
    ]
    if not scheme.by_sums_only:
        severe.insert(0, _singly(mixture, _EYE, damaging, "Eye Dam. 1", "not additive"))
        milder.append(_singly(mixture, _EYE, irritant, "Eye Irrit. 2", "not additive"))
    yield from climb(
        (
            Rung("Eye Dam. 1", "H318", tuple(severe)),
            Rung("Eye Irrit. 2", "H319", tuple(milder)),
        )
    )
