"""Acute toxicity: the estimate of the mixture from those of its parts, by route.

Method: UN GHS 3.1.3.6, as in Regulation (EC) No 1272/2008, Annex I, 3.1.3.6, with the
converted point estimates of Table 3.1.2. 100/ATE of the mixture is the sum of
share/ATE; where more than 10 % is of unknown toxicity, 100 less that share stands
above. Valid for: parts with a figure, a category, or a paper that says there is none.
Departs from the source in: a category for inhalation without a figure is read as one
for vapour.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from blendcheck.blend.printed import equation, operand
from blendcheck.estimates.classes.limits import Limit, limit_of
from blendcheck.estimates.classes.model import (
    Classified,
    Mixture,
    Part,
    Profile,
    Scheme,
    Standing,
)
from blendcheck.estimates.classes.sums import high_of, low_of
from blendcheck.estimates.classes.terms import Amounts, Met, Term, end_of
from blendcheck.interval import Range
from blendcheck.quantity import Mark, print_range
from blendcheck.quantity.hazard_figures import ROUTE_UNITS, Route
from blendcheck.quantity.hazards import route_of

__all__ = ["acute_classes"]

ZERO, HUNDRED = Fraction(0), Fraction(100)
_UNKNOWN_FROM = Fraction(10)
"""Share of unknown toxicity above which it is taken off. [%] (3.1.3.6.2.3)"""
_INHALED: tuple[Route, ...] = ("gas", "vapour", "dust and mist")
_SIDE = {"oral": "oral", "dermal": "dermal"}


@dataclass(frozen=True, slots=True)
class _Known:
    """A figure of one profile by one route, or that it does not count."""

    figure: Range | None
    says: str
    documented: bool = True


@dataclass(frozen=True, slots=True)
class _Scale:
    """Category limits of a route, most severe first."""

    route: Route
    limits: tuple[Limit, ...]

    @property
    def top(self) -> Fraction:
        """Figure above which nothing counts."""
        return self.limits[-1].value

    @property
    def severe(self) -> Fraction:
        """Figure up to which a constituent counts at any share (categories 1 to 3)."""
        return self.limits[2].value

    def category(self, figure: Fraction) -> int | None:
        """Return the category of an estimate; ``None`` above all."""
        for n, limit in enumerate(self.limits, start=1):
            if figure <= limit.value:
                return n
        return None


def _scale(route: Route, scheme: Scheme) -> _Scale:
    rule = f"{route}: estimate at or below"
    limits = [limit_of(f"Acute Tox. {n}", rule) for n in (1, 2, 3, 4)]
    if scheme.category_5 and route in ("oral", "dermal"):
        limits.append(limit_of("Acute Tox. 5", rule, "UN GHS"))
    return _Scale(route, tuple(limits))


def _known(profile: Profile, route: Route) -> _Known | None:
    """Return what is known of a profile; ``None`` if nothing is."""
    printed = profile.toxicity.get(route)
    if printed is not None:
        if printed.clean:
            return _Known(None, f"{printed.printed}: left out")
        return _Known(printed.range, printed.printed)
    side = _SIDE.get(route, "inhalation")
    other = any(way in profile.toxicity for way in _INHALED)
    if side == "oral" or side == "dermal" or (route == "vapour" and not other):
        for claim in sorted(profile.claims, key=lambda c: (not c.documented, c.name)):
            if route_of(claim.statement) == side and claim.name[-1] in "1234":
                point = limit_of(claim.name, f"{route}: converted", "UN GHS").value
                says = f"{claim.name} ({claim.statement}), {claim.source}"
                return _Known(
                    Range.at(point),
                    f"{says}, converted {operand(point)} {ROUTE_UNITS[route]}",
                    claim.documented,
                )
    return _Known(None, "no class by this route") if profile.complete else None


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


class _Collector:
    """Goes through the parts of a mixture for one route."""

    def __init__(self, scale: _Scale) -> None:
        self.scale, self.route = scale, scale.route
        self.low: list[Term] = []
        self.high: list[Term] = []
        self.left_out: list[str] = []
        self.unknown_low = self.unknown_high = ZERO
        self.not_entered: list[str] = []
        self.unknown_names: list[str] = []
        self.limitless = False
        self.relevant = limit_of("Acute Tox.", "relevant ingredients").value

    def part(self, part: Part) -> None:
        """Take in a part: by its own paper, else by its components."""
        if end_of(part.share, high=True) == 0:
            return
        own = _known(part.profile, self.route)
        if own is not None:
            self._count(part.name, part.called, part.key, part.share, own, part)
            if own.documented or part.profile.complete:
                return
        known_low = known_high = ZERO
        for one in part.components:
            known = _known(one.profile, self.route)
            if known is None:
                continue
            name = f"{one.name} in {part.name}"
            self._count(name, one.name, one.key, one.share, known, part)
            if known.documented:
                known_low += end_of(one.share, high=False)
                known_high += end_of(one.share, high=True)
        self._not_known(part, known_low, known_high)

    def _not_known(self, part: Part, low: Fraction, high: Fraction) -> None:
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
        known: _Known,
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
        elif low == 0:
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
        collector = _Collector(_scale(route, scheme))
        for part in mixture.parts:
            collector.part(part)
        yield from _classified(collector.scale, collector.done())


def _classified(scale: _Scale, found: _Sum) -> Iterator[Classified]:
    unit = ROUTE_UNITS[scale.route]
    least, most = low_of(found.low), high_of(found.high)
    same = found.unknown.is_exact and least == most and not found.limitless
    unknown_low, unknown_high = (end_of(found.unknown, high=h) for h in (False, True))
    word = "" if same else "high end"
    top = _estimate(least, unknown_low, word, unit)
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
    low = None if bottom is None or found.limitless else bottom[0]
    high = None if top is None else top[0]
    for one in _entries(scale, (sure, worst), tuple(lines), (low, high)):
        amounts = least if one.standing is Standing.CERTAIN else most
        memory = any(term.grade == "memory" for term, _ in amounts)
        yield replace(
            one,
            because=tuple(dict.fromkeys(term.name for term, _ in amounts)),
            substances=tuple(dict.fromkeys(term.substance for term, _ in amounts)),
            marks=frozenset({Mark.FROM_MEMORY}) if memory else frozenset(),
        )
    if (open_ones and sure != 1) or (worst is None and low is not None):
        yield Classified(
            f"Acute Tox. ({_side(scale.route)})",
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


def _side(route: Route) -> str:
    return _SIDE.get(route, "inhalation")


def _entries(
    scale: _Scale,
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
            f"Acute Tox. {n} ({_side(scale.route)})",
            limit.statement,
            Standing.CERTAIN if certain else Standing.POSSIBLE,
            (*lines, f"Acute Tox. {n}: {limit.says}"),
            (),
            (limit.source,),
            frozenset(),
            *ends,
            ROUTE_UNITS[scale.route],
        )
