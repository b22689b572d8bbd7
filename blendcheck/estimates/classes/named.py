"""EUH208: which sensitisers the label names though they bring no class.

Method: Regulation (EC) No 1272/2008, Annex II, 2.8, with Table 3.4.6: from 0.1 % on
(category 1 and 1B), from 0.01 % on (1A), or from a tenth of a specific limit. That
table was not read, so between the two figures a sensitiser *may* have to be named.
"""

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from blendcheck.estimates.classes.ladder import entry, specific_limit, standing_of
from blendcheck.estimates.classes.limits import limit_of
from blendcheck.estimates.classes.model import (
    Classified,
    Mixture,
    Profile,
    Standing,
)
from blendcheck.estimates.classes.single import classified_alone
from blendcheck.estimates.classes.sums import Reach, reach_of
from blendcheck.estimates.classes.terms import Term

__all__ = ["sensitiser_statement"]

TEN = Fraction(10)
_CODE = "EUH208"
_FAMILIES = ("Skin Sens.", "Resp. Sens.")
_NAMES = tuple(f"{family} 1{sub}" for family in _FAMILIES for sub in ("", "A", "B"))
_RULE = "each sensitiser alone"


def sensitiser_statement(mixture: Mixture) -> Iterator[Classified]:
    """Find the sensitisers that EUH208 names.

    Parameters
    ----------
    mixture : Mixture
        The mixture.

    Yields
    ------
    Classified
        One entry for those that certainly reach the limit, one for those that can.
    """
    together: dict[str, list[tuple[Term, Profile]]] = {}
    for term, profile in classified_alone(mixture, _NAMES):
        together.setdefault(term.key, []).append((term, profile))
    by_standing: dict[Standing, list[Classified]] = {}
    for found in together.values():
        reach, standing = _named(found)
        if standing in (Standing.CERTAIN, Standing.POSSIBLE):
            made = entry(_CODE, _CODE, standing, reach)
            by_standing.setdefault(standing, []).append(made)
    for standing in Standing:
        if standing in by_standing:
            yield _merged(by_standing[standing], standing)


def _named(found: list[tuple[Term, Profile]]) -> tuple[Reach, Standing | None]:
    """Return the sum of one substance, and how sure it is that it must be named."""
    strict = limit_of("Skin and Resp. Sens. 1A", "or a tenth of the specific limit")
    usual = limit_of("Skin and Resp. Sens. 1, 1B", "or a tenth of the specific limit")
    terms = [term for term, _ in found]
    own = _own_limit([profile for _, profile in found])
    if own is not None:
        against = min(own, strict.value)
        sure = reach_of(_RULE, strict, terms, own)
    else:
        against = strict.value
        is_strong = any(
            claim.documented and claim.name in ("Skin Sens. 1A", "Resp. Sens. 1A")
            for _, profile in found
            for claim in profile.claims
        )
        sure = reach_of(_RULE, strict if is_strong else usual, terms)
    if sure.certain:
        return sure, Standing.CERTAIN
    cautious = reach_of(_RULE, strict, terms, against)
    standing = standing_of(cautious)
    if standing is Standing.CERTAIN:
        return cautious, Standing.POSSIBLE
    return cautious, standing


def _own_limit(profiles: list[Profile]) -> Fraction | None:
    """Return the share from which a paper itself, or its limit, has it named [%]."""
    found = []
    for profile in profiles:
        special = specific_limit(profile, ("H317", "H334"))
        found += [] if special is None else [special / TEN]
        said = specific_limit(profile, (_CODE,))
        found += [] if said is None else [said]
    return min(found, default=None)


def _merged(each: list[Classified], standing: Standing) -> Classified:
    return replace(
        each[0],
        standing=standing,
        lines=tuple(line for one in each for line in one.lines),
        because=tuple(dict.fromkeys(n for one in each for n in one.because)),
        substances=tuple(dict.fromkeys(n for one in each for n in one.substances)),
        marks=frozenset().union(*(one.marks for one in each)),
        low=max((one.low for one in each if one.low is not None), default=None),
        high=max((one.high for one in each if one.high is not None), default=None),
    )
