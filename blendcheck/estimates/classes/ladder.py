"""From sums to classes: the most severe first, each with how sure it is."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from blendcheck.estimates.classes.limits import Limit
from blendcheck.estimates.classes.model import (
    Claim,
    Classified,
    Profile,
    Standing,
)
from blendcheck.estimates.classes.sums import Reach
from blendcheck.estimates.classes.terms import Met, Pick
from blendcheck.quantity import Mark

__all__ = ["Rung", "by_class", "climb", "entry", "specific_limit", "standing_of"]

ONE = Fraction(1)


@dataclass(frozen=True, slots=True)
class Rung:
    """A class and the sums that lead to it.

    Parameters
    ----------
    hazard_class, statement : str
        The class.
    reaches : tuple of Reach
        The sums; each alone is enough.
    alone : bool
        Whether each is one substance, so that all that reach it are named.
    """

    hazard_class: str
    statement: str
    reaches: tuple[Reach, ...]
    alone: bool = False


def standing_of(reach: Reach) -> Standing | None:
    """Return how sure a class is by one sum; ``None`` if nothing is in it.

    Parameters
    ----------
    reach : Reach
        The sum.
    """
    if reach.certain:
        return Standing.CERTAIN
    if reach.possible:
        return Standing.POSSIBLE
    if reach.open:
        return Standing.OPEN
    return Standing.BELOW if reach.most else None


def entry(
    hazard_class: str, statement: str, standing: Standing, reach: Reach
) -> Classified:
    """Return the entry of a class that a sum leads to.

    Parameters
    ----------
    hazard_class, statement : str
        The class.
    standing : Standing
        How sure it is.
    reach : Reach
        The sum that it opens to.
    """
    amounts = {
        Standing.CERTAIN: reach.least,
        Standing.POSSIBLE: reach.most,
        Standing.OPEN: reach.worst,
        Standing.BELOW: reach.most,
    }[standing]
    because = tuple(dict.fromkeys(term.name for term, _ in amounts))
    substances = tuple(dict.fromkeys(term.substance for term, _ in amounts))
    marks: set[Mark] = set()
    if not reach.limit.is_read or any(t.grade == "memory" for t, _ in amounts):
        marks.add(Mark.FROM_MEMORY)
    if standing is Standing.OPEN:
        marks.add(Mark.ABSENCE)
    return Classified(
        hazard_class,
        statement,
        standing,
        reach.lines,
        because,
        (reach.limit.source,),
        frozenset(marks),
        reach.low,
        reach.high,
        substances=substances,
    )


_SUREST = {standing: n for n, standing in enumerate(Standing)}


def _surest(pair: tuple[Standing, Reach]) -> tuple[int, Fraction]:
    """Order sums: the surest first, of those as sure the one nearest its limit."""
    standing, reach = pair
    return _SUREST[standing], -reach.high / reach.against


def climb(rungs: Iterable[Rung]) -> Iterator[Classified]:
    """Give each class of a ladder its standing, from the most severe down.

    Parameters
    ----------
    rungs : iterable of Rung
        Most severe first.

    Yields
    ------
    Classified
        A class that is certain hides what is less severe. One that is only possible
        does not: it may be the less severe one.
    """
    for rung in rungs:
        found = [(s, r) for r in rung.reaches if (s := standing_of(r)) is not None]
        if not found:
            continue
        standing, reach = min(found, key=_surest)
        made = entry(rung.hazard_class, rung.statement, standing, reach)
        if rung.alone:
            others = (r for s, r in found if s is standing and r is not reach)
            made = _merged(made, rung, others)
        yield made
        if standing is Standing.CERTAIN:
            return


def _merged(first: Classified, rung: Rung, others: Iterable[Reach]) -> Classified:
    """Put substances that reach a class alone, as surely, into one entry."""
    more = [
        entry(rung.hazard_class, rung.statement, first.standing, reach)
        for reach in others
    ]
    every = (first, *more)
    return replace(
        first,
        lines=tuple(line for one in every for line in one.lines),
        because=tuple(dict.fromkeys(n for one in every for n in one.because)),
        substances=tuple(dict.fromkeys(n for one in every for n in one.substances)),
        sources=tuple(dict.fromkeys(s for one in every for s in one.sources)),
        marks=frozenset().union(*(one.marks for one in every)),
    )


def specific_limit(profile: Profile, statements: Sequence[str]) -> Fraction | None:
    """Return the share from which a paper itself gives one of some statements.

    Parameters
    ----------
    profile : Profile
        The profile.
    statements : sequence of str
        Codes, such as ``H315``.

    Returns
    -------
    Fraction or None
        The lowest low end above 0. [%]
    """
    found = [
        limit.range.low
        for limit in profile.limits
        if limit.hazard.statement in statements and limit.range.low
    ]
    return min(found, default=None)


def by_class(
    weights: Callable[[Claim], Fraction | None],
    limit: Limit,
    statements: Sequence[str] = (),
    cutoff: Fraction = Fraction(0),
) -> Pick:
    """Return a pick that weighs a profile by its classes.

    Parameters
    ----------
    weights : callable
        Weight of a claim in the sum; ``None`` if it does not count.
    limit : Limit
        Limit of the sum.
    statements : sequence of str
        What the sum leads to: a specific limit for it replaces the weight, so that
        the share counts as a fraction of its own limit.
    cutoff : Fraction
        Share from which on it counts. [%]
    """

    def pick(profile: Profile) -> Met | None:
        found = [
            (weight, claim)
            for claim in profile.claims
            if (weight := weights(claim)) is not None
        ]
        if not found:
            return None
        weight, claim = max(found, key=lambda pair: (pair[1].documented, pair[0]))
        says = f"{claim.name} ({claim.statement}), {claim.source}"
        own = specific_limit(profile, statements)
        start = cutoff if profile.adds_up else Fraction(0)
        if own is not None:
            weight, start = limit.value / own, min(start, own)
            says += ", its own limit"
        return Met(weight, says, claim.documented, start)

    return pick
