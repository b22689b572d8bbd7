"""Weighted sums of shares, low to high, that never exceed what one lot can hold."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from blendcheck.blend.printed import equation, operand
from blendcheck.estimates.classes.limits import Limit
from blendcheck.estimates.classes.terms import Amounts, Term, end_of
from blendcheck.quantity import print_range

__all__ = ["Reach", "high_of", "low_of", "reach_of"]

ZERO = Fraction(0)

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
        found += [
            _sum_line(word, amounts) for word, amounts in ends if _is_sum(amounts)
        ]
        found.append(f"{self.rule}: {self.limit.says}")
        if self.against != self.limit.value:
            found.append(f"specific limit of the sheet: ≥ {operand(self.against)} %")
        return tuple(found)


def _line(term: Term) -> str:
    share = print_range(term.share, "%", digits=6)
    return f"{term.name}: {share}, {term.met.says}"


def _is_sum(amounts: Amounts) -> bool:
    """Whether there is more to add up than one share that stands there already."""
    if len(amounts) != 1:
        return bool(amounts)
    ((term, amount),) = amounts
    return term.met.weight != 1 or amount not in (term.share.low, term.share.high)


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
