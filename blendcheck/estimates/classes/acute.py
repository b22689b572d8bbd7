"""Acute toxicity: the estimate of the mixture from those of its parts, by route.

Method: UN GHS 3.1.3.6, as in Regulation (EC) No 1272/2008, Annex I, 3.1.3.6, with the
converted point estimates of Table 3.1.2. 100/ATE of the mixture is the sum of
share/ATE; where more than 10 % is of unknown toxicity, 100 less that share stands
above. Valid for: parts with a figure, a category, or a paper that says there is none.
Departs from the source in: a category for inhalation without a figure counts for
vapour, and may count for every other form that a figure is given for. A converted
point of category 2 lies on the limit of category 1, so what is certain is never more
severe than the most severe part (bridging, 3.1.3.5), and one material alone keeps the
class of its sheet. What is of unknown toxicity makes a class possible, not certain:
it may only not have been entered.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from blendcheck.blend.printed import equation, operand
from blendcheck.estimates.classes.limits import limit_of
from blendcheck.estimates.classes.model import (
    Classified,
    Mixture,
    Part,
    Scheme,
    Standing,
)
from blendcheck.estimates.classes.points import (
    Known,
    Scale,
    class_of,
    known_of,
    scale_of,
    side_of,
)
from blendcheck.estimates.classes.sums import high_of, low_of
from blendcheck.estimates.classes.terms import Amounts, Met, Term, end_of
from blendcheck.interval import Range
from blendcheck.quantity import Mark, print_range
from blendcheck.quantity.hazard_figures import ROUTE_UNITS, Route

__all__ = ["acute_classes"]

ZERO, HUNDRED = Fraction(0), Fraction(100)
_UNKNOWN_FROM = Fraction(10)
"""Share of unknown toxicity above which it is taken off. [%] (3.1.3.6.2.3)"""


@dataclass(frozen=True, slots=True)
class _Sum:
    """Contributors with their weights at both ends, and what is not known."""

    low: tuple[Term, ...]
    high: tuple[Term, ...]
    left_out: tuple[str, ...]
    unknown: Range
    unknown_names: tuple[str, ...]
    not_entered: tuple[str, ...]
    limitless: bool
    most_severe: int | None
    """Category of the most severe part."""


class _Collector:
    """Goes through the parts of a mixture for one route."""

    def __init__(self, scale: Scale) -> None:
        self.scale = scale
        self.low: list[Term] = []
        self.high: list[Term] = []
        self.left_out: list[str] = []
        self.unknown_low = self.unknown_high = ZERO
        self.not_entered: list[str] = []
        self.unknown_names: list[str] = []
        self.limitless = False
        self.categories: list[int] = []
        self.relevant = limit_of("Acute Tox.", "relevant ingredients").value

    def part(self, part: Part) -> None:
        """Take in a part: by its own paper, else by its components."""
        if end_of(part.share, high=True) == 0:
            return
        own = known_of(part.profile, self.scale)
        if own is not None:
            self._count(part.name, part.called, part.key, part.share, own, part)
            if own.documented or part.profile.complete:
                return
        known_low = known_high = ZERO
        for one in part.components:
            known = known_of(one.profile, self.scale)
            if known is None:
                continue
            name = f"{one.name} in {part.name}"
            self._count(name, one.name, one.key, one.share, known, part)
            if known.documented:
                known_low += end_of(one.share, high=False)
                known_high += end_of(one.share, high=True)
        self._notknown_of(part, known_low, known_high)

    def _notknown_of(self, part: Part, low: Fraction, high: Fraction) -> None:
        least = max(end_of(part.share, high=False) - high, ZERO)
        most = max(end_of(part.share, high=True) - low, ZERO)
        if not part.profile.entered:
            if most >= self.relevant:
                self.not_entered.append(part.name)
            return
        if least >= self.relevant:
            self.unknown_low += least
        if most >= self.relevant:
            self.unknown_high += most
            self.unknown_names.append(part.name)

    def _count(
        self,
        name: str,
        own_name: str,
        key: str,
        share: Range,
        known: Known,
        part: Part,
    ) -> None:
        figure = known.figure
        if figure is None:
            self.left_out.append(f"{name}: {print_range(share, '%')}, {known.says}")
            return
        whole = end_of(part.share, high=True)
        low, high = figure.low or ZERO, figure.high

        def term(ate: Fraction) -> Term:
            cutoff = ZERO if ate <= self.scale.severe else self.relevant
            met = Met(1 / ate, known.says, known.documented, cutoff)
            return Term(
                name,
                key,
                share,
                met,
                "documented" if known.documented else "memory",
                part.place,
                whole,
                whole,
                own_name,
            )

        if high is not None and high <= self.scale.top:
            self.low.append(term(high))
        reaches = low < self.scale.top or (
            low == self.scale.top and not figure.low_open
        )
        if not reaches:
            shown = print_range(share, "%")
            self.left_out.append(f"{name}: {shown}, {known.says}: above every category")
            return
        if known.category is not None:
            self.categories.append(known.category)
        if low == 0:
            self.limitless = True
        else:
            self.high.append(term(low))

    def done(self) -> _Sum:
        """Return what was collected."""
        return _Sum(
            tuple(self.low),
            tuple(self.high),
            tuple(self.left_out),
            Range(self.unknown_low, max(self.unknown_high, self.unknown_low)),
            tuple(dict.fromkeys(self.unknown_names)),
            tuple(dict.fromkeys(self.not_entered)),
            self.limitless,
            min(self.categories, default=None),
        )


def _above(unknown: Fraction) -> Fraction:
    return HUNDRED if unknown <= _UNKNOWN_FROM else HUNDRED - unknown


def _estimate(
    amounts: Amounts, unknown: Fraction, word: str, unit: str
) -> tuple[Fraction, str] | None:
    """Return an end of the estimate of the mixture and the line that it comes from.

    The estimate is never below that of the most toxic contributor: what is not known
    and what counts share 100 % between them, which ends of ranges taken apart do not.
    """
    total = sum((t.met.weight * amount for t, amount in amounts), ZERO)
    if total == 0:
        return None
    above = max(_above(unknown), ZERO)
    found = above / total
    floor = min(1 / t.met.weight for t, _ in amounts)
    if found < floor:
        return floor, equation(word, operand(floor), floor, unit)
    terms = [
        f"{operand(amount)} ÷ {operand(1 / t.met.weight)}" for t, amount in amounts
    ]
    top = "100" if above == HUNDRED else f"(100 - {operand(unknown)})"
    if above == 0:
        top = "0"
    return found, equation(word, f"{top} ÷ ({' + '.join(terms)})", found, unit)


def _routes(mixture: Mixture) -> Iterator[Route]:
    given = {
        route
        for part in mixture.parts
        for profile in (part.profile, *(c.profile for c in part.components))
        for route in profile.toxicity
    }
    for route in ROUTE_UNITS:
        if route in ("oral", "dermal", "vapour") or route in given:
            yield route


def acute_classes(mixture: Mixture, scheme: Scheme) -> Iterator[Classified]:
    """Classify for acute toxicity by every route.

    Parameters
    ----------
    mixture : Mixture
        The mixture.
    scheme : Scheme
        By whose rules; the UN's category 5 is used if it is on.

    Yields
    ------
    Classified
        ``Acute Tox. n (route)`` with the estimate of the mixture; where something is
        of unknown toxicity, the class without its category cannot be ruled out.
    """
    for route in _routes(mixture):
        collector = _Collector(scale_of(route, scheme))
        for part in mixture.parts:
            collector.part(part)
        kept = _kept(mixture, route)
        yield from _classified(collector.scale, collector.done(), kept)


def _kept(mixture: Mixture, route: Route) -> int | None:
    """Return the category that one material alone keeps from its sheet."""
    part = mixture.alone
    found = None if part is None else class_of(part.profile, route)
    documented = found is not None and found.documented and found.figure is not None
    return found.category if found is not None and documented else None


def _classified(scale: Scale, found: _Sum, kept: int | None) -> Iterator[Classified]:
    unit = ROUTE_UNITS[scale.route]
    least, most = low_of(found.low), high_of(found.high)
    unknown_high = end_of(found.unknown, high=True)
    same = _above(unknown_high) == HUNDRED and least == most and not found.limitless
    word = "" if same else "high end"
    top = _estimate(least, ZERO, word, unit)
    end = "" if same else "low end"
    bottom = _estimate(most, unknown_high, end, unit)
    lines = [
        _contributor(term) for term in dict.fromkeys(t for t, _ in (*least, *most))
    ]
    lines += found.left_out
    if unknown_high:
        share = print_range(found.unknown, "%")
        names = ", ".join(found.unknown_names)
        lines.append(f"acute toxicity not known: {share} ({names})")
    if found.not_entered:
        lines.append(f"no paper entered, asked for: {', '.join(found.not_entered)}")
    open_ones = (*found.unknown_names, *found.not_entered)
    lines += [] if bottom is None else [bottom[1]]
    lines += [top[1]] if top is not None and not same else []
    lines += [] if bottom is not None or top is not None else ["nothing counts"]
    sure = None if top is None else scale.category(top[0])
    worst = 1 if found.limitless else None
    if bottom is not None and worst is None:
        worst = scale.category(bottom[0])
    if kept is not None:
        lines.append("it stands alone, so the class of its sheet holds")
        sure, worst = kept, min(kept, found.most_severe or kept)
    elif sure is not None and found.most_severe is not None:
        if found.most_severe > sure:
            severe = f"no part is more severe than category {found.most_severe}"
            lines.append(f"{severe}, so no more than that is certain")
        sure = max(sure, found.most_severe)
    low = None if bottom is None or found.limitless else bottom[0]
    high = None if top is None else top[0]
    for one in _entries(scale, (sure, worst), tuple(lines), (low, high)):
        amounts = (least if one.standing is Standing.CERTAIN else most) or most
        memory = any(term.grade == "memory" for term, _ in amounts)
        yield replace(
            one,
            because=tuple(dict.fromkeys(term.name for term, _ in amounts)),
            substances=tuple(dict.fromkeys(term.substance for term, _ in amounts)),
            marks=frozenset({Mark.FROM_MEMORY}) if memory else frozenset(),
        )
    if (open_ones and sure != 1) or (worst is None and low is not None):
        yield Classified(
            f"Acute Tox. ({side_of(scale.route)})",
            "",
            Standing.OPEN if open_ones else Standing.BELOW,
            tuple(lines),
            open_ones,
            (scale.limits[0].source,),
            frozenset({Mark.ABSENCE}) if open_ones else frozenset(),
            low,
            high,
            unit,
        )


def _contributor(term: Term) -> str:
    share = print_range(term.share, "%", digits=6)
    return f"{term.name}: {share}, {term.met.says}"


def _entries(
    scale: Scale,
    categories: tuple[int | None, int | None],
    lines: tuple[str, ...],
    ends: tuple[Fraction | None, Fraction | None],
) -> Iterator[Classified]:
    """Yield the categories from the worst that is possible to the one that is sure."""
    sure, worst = categories
    if worst is None:
        return
    last = sure if sure is not None else len(scale.limits)
    for n in range(worst, last + 1):
        limit = scale.limits[n - 1]
        certain = n == sure
        yield Classified(
            f"Acute Tox. {n} ({side_of(scale.route)})",
            limit.statement,
            Standing.CERTAIN if certain else Standing.POSSIBLE,
            (*lines, f"Acute Tox. {n}: {limit.says}"),
            (),
            (limit.source,),
            frozenset(),
            *ends,
            ROUTE_UNITS[scale.route],
        )
