"""Weighted sums of shares, low to high, that never exceed what one lot can hold."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from blendcheck.blend.printed import equation, operand
from blendcheck.estimates.classes.limits import Limit
from blendcheck.estimates.classes.model import Ingredient, Mixture, Part, Profile
from blendcheck.interval import Range
from blendcheck.quantity import print_range

__all__ = [
    "Amounts",
    "Met",
    "Reach",
    "Term",
    "end_of",
    "high_of",
    "low_of",
    "not_known",
    "reach_of",
    "terms_of",
    "unknown_term",
]

Grade = Literal["documented", "memory", "unknown"]
ZERO = Fraction(0)
HUNDRED = Fraction(100)


@dataclass(frozen=True, slots=True)
class Met:
    """That a profile counts in a sum: with which weight, from which share on, why."""

    weight: Fraction
    says: str
    documented: bool = True
    cutoff: Fraction = ZERO


Pick = Callable[[Profile], Met | None]


@dataclass(frozen=True, slots=True)
class Term:
    """One contributor of a sum.

    Parameters
    ----------
    name, key : str
        Who; one key is one substance.
    share : Range
        Of the mixture. [%]
    met : Met
        Weight, cut-off and reason.
    grade : str
        Whether the class is documented, from memory, or not known at all.
    lot : str
        The part that it comes from.
    room, whole : Fraction
        Most that the contributors of that part can hold together, and the part. [%]
    own_name : str
        Its name alone, where ``name`` says what it stands in.
    """

    name: str
    key: str
    share: Range
    met: Met
    grade: Grade
    lot: str
    room: Fraction
    whole: Fraction
    own_name: str = ""

    @property
    def substance(self) -> str:
        """Its name alone, without what it stands in."""
        return self.own_name or self.name


Amounts = tuple[tuple[Term, Fraction], ...]


def end_of(share: Range, *, high: bool) -> Fraction:
    """Return one end of a share; a missing one is 0 or 100.

    Parameters
    ----------
    share : Range
        The share. [%]
    high : bool
        Which end.
    """
    if high:
        return HUNDRED if share.high is None else share.high
    return share.low or ZERO


def terms_of(
    mixture: Mixture, families: frozenset[str], pick: Pick, unknown: Met
) -> tuple[Term, ...]:
    """Collect the contributors of a sum.

    Parameters
    ----------
    mixture : Mixture
        The mixture.
    families : frozenset of str
        Classes of which a sheet must speak to be taken at its word.
    pick : callable
        Says whether and how a profile counts.
    unknown : Met
        How something counts that nobody classified: as the worst that it can be.

    Returns
    -------
    tuple of Term
        A part whose own paper speaks of these classes counts as a whole; of any other
        its components do, and the rest of it is not known.
    """
    found = (_of_part(part, families, pick, unknown) for part in mixture.parts)
    return tuple(term for terms in found for term in terms)


def _of_part(
    part: Part, families: frozenset[str], pick: Pick, unknown: Met
) -> list[Term]:
    most = end_of(part.share, high=True)
    if most == 0:
        return []
    own = pick(part.profile)
    whole: list[Term] = []
    if own is not None:
        grade: Grade = "documented" if own.documented else "memory"
        whole = [
            Term(part.name, part.key, part.share, own, grade, part.place, most, most)
        ]
    if part.profile.speaks(families):
        return whole
    inside = [(one, pick(one.profile)) for one in part.components]
    silent = sum(
        (end_of(c.share, high=False) for c, met in inside if met is None), ZERO
    )
    room = max(most - silent, ZERO)
    found = [_component(one, met, part, room, most) for one, met in inside if met]
    rest = not_known(part, families)
    if rest is not None:
        found.append(unknown_term(part, rest, unknown))
    return [*whole, *found]


def unknown_term(part: Part, share: Range, met: Met) -> Term:
    """Return what nobody classified of a part as a contributor.

    Parameters
    ----------
    part : Part
        The part.
    share : Range
        How much of the mixture that is. [%]
    met : Met
        How it counts.
    """
    most = end_of(part.share, high=True)
    key = f"{part.place}/not known"
    return Term(part.name, key, share, met, "unknown", part.place, most, most)


def not_known(part: Part, families: frozenset[str]) -> Range | None:
    """Return how much of a part nobody classified, as a share of the mixture.

    Parameters
    ----------
    part : Part
        The part.
    families : frozenset of str
        Classes of which its paper, or that of a component, must speak.

    Returns
    -------
    Range or None
        From nothing to what is left over; ``None`` where nothing is. [%]
    """
    if part.profile.speaks(families):
        return None
    known = sum(
        (
            end_of(one.share, high=False)
            for one in part.components
            if one.profile.speaks(families)
        ),
        ZERO,
    )
    rest = end_of(part.share, high=True) - known
    if rest <= 0:
        return None
    return Range(ZERO, rest, high_open=part.share.high_open)


def _component(
    one: Ingredient, met: Met, part: Part, room: Fraction, most: Fraction
) -> Term:
    grade: Grade = "documented" if met.documented else "memory"
    name = f"{one.name} in {part.name}"
    return Term(name, one.key, one.share, met, grade, part.place, room, most, one.name)


# -- ends ------------------------------------------------------------------


def _above_cutoff(found: Iterable[Term], *, high: bool) -> list[Term]:
    """Leave out what is below its cut-off, all lots of one substance together."""
    terms = list(found)
    totals: dict[str, Fraction] = {}
    for term in terms:
        total = totals.get(term.key, ZERO)
        totals[term.key] = total + end_of(term.share, high=high)
    return [t for t in terms if totals[t.key] >= t.met.cutoff and totals[t.key] > 0]


def low_of(terms: Sequence[Term]) -> Amounts:
    """Return what each contributor adds at least: documented classes only.

    Parameters
    ----------
    terms : sequence of Term
        The contributors.
    """
    sure = (term for term in terms if term.grade == "documented")
    return tuple(
        (term, end_of(term.share, high=False))
        for term in _above_cutoff(sure, high=False)
        if end_of(term.share, high=False) > 0
    )


def high_of(terms: Sequence[Term], *, unknown: bool = False) -> Amounts:
    """Return what each contributor adds where their weighted sum is largest.

    Parameters
    ----------
    terms : sequence of Term
        The contributors.
    unknown : bool, default False
        Whether what nobody classified counts too, as the worst that it can be.
    """
    counted = [t for t in terms if unknown or t.grade != "unknown"]
    counted = _above_cutoff(counted, high=True)
    made: dict[int, Fraction] = {}
    for lot in dict.fromkeys(term.lot for term in counted):
        inside = [t for t in counted if t.lot == lot]
        room = min(t.whole if unknown else t.room for t in inside)
        left = max(
            room - sum((end_of(t.share, high=False) for t in inside), ZERO), ZERO
        )
        for term in sorted(inside, key=lambda t: -t.met.weight):
            low, high = (end_of(term.share, high=h) for h in (False, True))
            more = min(high - low, left)
            left -= more
            made[id(term)] = low + more
    return tuple((term, made[id(term)]) for term in counted)


def _total(amounts: Amounts) -> Fraction:
    return sum((term.met.weight * amount for term, amount in amounts), ZERO)


def _never_quite(amounts: Amounts) -> bool:
    """Whether a high end is itself excluded, so that the sum stays below it."""
    return any(
        term.share.high_open and amount == term.share.high for term, amount in amounts
    )


# -- a sum beside its limit ------------------------------------------------


@dataclass(frozen=True, slots=True)
class Reach:
    """A sum, low to high, beside the limit of a rule.

    Parameters
    ----------
    rule : str
        What is summed, in words.
    limit : Limit
        The limit.
    terms : tuple of Term
        The contributors.
    least, most, worst : tuple
        Amounts at the low end, at the high end, and with what is not known.
    against : Fraction
        What the sum is compared with; the limit unless a specific one replaces it. [%]
    """

    rule: str
    limit: Limit
    terms: tuple[Term, ...]
    least: Amounts
    most: Amounts
    worst: Amounts
    against: Fraction

    @property
    def low(self) -> Fraction:
        """The sum at its low end [%]."""
        return _total(self.least)

    @property
    def high(self) -> Fraction:
        """The sum at its high end [%]."""
        return _total(self.most)

    @property
    def certain(self) -> bool:
        """Whether the low end reaches the limit."""
        return bool(self.least) and self.low >= self.against

    @property
    def possible(self) -> bool:
        """Whether the high end can reach it."""
        return bool(self.most) and self._reached(self.most)

    @property
    def open(self) -> bool:
        """Whether what is not known could reach it."""
        return bool(self.worst) and self._reached(self.worst)

    def _reached(self, amounts: Amounts) -> bool:
        total = _total(amounts)
        if total == self.against:
            return not _never_quite(amounts)
        return total > self.against

    @property
    def lines(self) -> tuple[str, ...]:
        """Contributors, the sum at both ends, and the limit."""
        named = {id(term): term for term, _ in (*self.least, *self.most)}
        only_open = self.open and not self.possible
        if only_open:
            named |= {id(term): term for term, _ in self.worst}
        found = [_line(term) for term in self.terms if id(term) in named]
        ends = [("low end", self.least), ("high end", self.most)]
        if self.least == self.most:
            ends = [("", self.most)]
        if only_open:
            ends.append(("high end", self.worst))
        found += [_sum_line(word, amounts) for word, amounts in ends if amounts]
        found.append(f"{self.rule}: {self.limit.says}")
        if self.against != self.limit.value:
            found.append(f"specific limit of the sheet: >= {operand(self.against)} %")
        return tuple(found)


def _line(term: Term) -> str:
    share = print_range(term.share, "%", digits=6)
    return f"{term.name}: {share}, {term.met.says}"


def _sum_line(word: str, amounts: Amounts) -> str:
    left = " + ".join(
        operand(amount)
        if term.met.weight == 1
        else f"{operand(term.met.weight)} × {operand(amount)}"
        for term, amount in amounts
    )
    return equation(word, left, _total(amounts), "%")


def reach_of(
    rule: str,
    limit: Limit,
    terms: Sequence[Term],
    against: Fraction | None = None,
) -> Reach:
    """Put a sum beside its limit.

    Parameters
    ----------
    rule : str
        What is summed, in words.
    limit : Limit
        The limit.
    terms : sequence of Term
        The contributors.
    against : Fraction, optional
        A specific limit that replaces it. [%]
    """
    return Reach(
        rule,
        limit,
        tuple(terms),
        low_of(terms),
        high_of(terms),
        high_of(terms, unknown=True),
        limit.value if against is None else against,
    )
