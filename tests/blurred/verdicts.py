"""Lets the tool check a world, and compares its answers with the truth."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from datetime import date
from fractions import Fraction

from blendcheck.blend.shares import Subject
from blendcheck.blend.totals import SubjectTotal, Totals, total
from blendcheck.checks import caps, screen
from blendcheck.checks.case import Case
from blendcheck.errors import BlendcheckError
from blendcheck.interval import Range
from blendcheck.quantity import Base
from blendcheck.records.finding import Finding, Outcome, overall
from blendcheck.records.material import CapEntry, Materials
from blendcheck.records.recipe import Recipe
from tests.blurred.hull import Hull, TooManyError, plain_leaves
from tests.blurred.physics import Plan, Truth
from tests.blurred.said import ZERO
from tests.blurred.substances import KNOWLEDGE
from tests.blurred.world import Cap, World

DECIDED = (Outcome.WITHIN, Outcome.OVER)
ON = date(2026, 11, 25)

Key = tuple[str, ...]


def key_of(entry: CapEntry) -> Key:
    """The same key as :attr:`Cap.key`, from what the tool reports."""
    return (entry.on, entry.material or entry.subject, entry.scheme, entry.edition,
            entry.category, entry.document or "")  # fmt: skip


@dataclass(frozen=True, slots=True)
class Answer:
    """What the tool says of one world."""

    case: Case
    findings: tuple[Finding, ...]

    @property
    def totals(self) -> Totals:
        return self.case.totals

    @property
    def overall(self) -> Outcome:
        return overall(self.findings)

    @property
    def by_cap(self) -> dict[Key, Finding]:
        return {
            key_of(f.cap): f for f in self.findings if f.cap is not None and f.value
        }

    def outcomes(self) -> dict[Key, Outcome | None]:
        """Outcomes by cap, and of sums by what they sum."""
        found: dict[Key, Outcome | None] = {}
        for f in self.findings:
            if f.kind != "limit" or not f.value:
                continue
            if f.cap is not None:
                found[key_of(f.cap)] = f.outcome
            elif f.limit.startswith("1 ("):
                found[f.check, f.subject, f.limit] = f.outcome
        return found


Tool = Callable[[Case], Iterable[Finding]]


def check_caps(case: Case) -> Iterable[Finding]:
    yield from caps.check(case)
    yield from screen.check(case)


def ask(world: World, tool: Tool = check_caps) -> Answer | BlendcheckError:
    """Read the world's files and check them.

    Returns
    -------
    Answer or BlendcheckError
        The error where the tool refuses and asks instead.
    """
    return ask_files(world.materials_table(), world.recipe_table(), tool)


def ask_files(
    shelf: dict[str, object], written: dict[str, object], tool: Tool = check_caps
) -> Answer | BlendcheckError:
    try:
        materials = Materials.model_validate(shelf)
        recipe = Recipe.model_validate(written)
        totals = total(recipe, materials, KNOWLEDGE)
        case = Case(recipe, materials, totals, totals.working, ON)
        return Answer(case, tuple(tool(case)))
    except BlendcheckError as error:
        return error


@dataclass(slots=True)
class Tally:
    """What was seen over many worlds."""

    worlds: int = 0
    limits: dict[str, int] = field(default_factory=dict)
    decided: dict[str, int] = field(default_factory=dict)
    outcomes: dict[str, int] = field(default_factory=dict)
    equal: int = 0
    held: int = 0
    on_the_cap: int = 0
    narrowed: int = 0
    taken: int = 0
    turned: int = 0
    failures: list[tuple[int, str]] = field(default_factory=list)

    def add(self, other: "Tally") -> None:
        for name in ("limits", "decided", "outcomes"):
            mine, more = getattr(self, name), getattr(other, name)
            for key, count in more.items():
                mine[key] = mine.get(key, 0) + count
        for name in ("worlds", "equal", "held", "on_the_cap", "narrowed", "taken",
                     "turned"):  # fmt: skip
            setattr(self, name, getattr(self, name) + getattr(other, name))
        self.failures += other.failures

    def count(self, profile: str, outcome: Outcome | None) -> None:
        self.limits[profile] = self.limits.get(profile, 0) + 1
        said = outcome in DECIDED
        self.decided[profile] = self.decided.get(profile, 0) + said
        self.outcomes[str(outcome)] = self.outcomes.get(str(outcome), 0) + 1

    def share(self, profile: str) -> float:
        """Share of the limits of a profile that came out within or over."""
        return self.decided.get(profile, 0) / max(self.limits.get(profile, 0), 1)


class Judge:
    """Compares one answer with the truth of its world.

    Parameters
    ----------
    world, plan, truth, hull
        The world.
    answer : Answer
        What the tool says.
    tally : Tally
        Where it is counted.
    """

    def __init__(
        self, world: World, plan: Plan, truth: Truth, hull: Hull, answer: Answer,
        tally: Tally,
    ) -> None:  # fmt: skip
        self.world, self.plan, self.truth, self.hull = world, plan, truth, hull
        self.answer, self.tally = answer, tally

    def wrong(self) -> Iterable[str]:
        """Everything that the tool says and that is not so."""
        by_cap = self.answer.by_cap
        used = {leaf[0] for leaf in self.truth.made.wet}
        for cap in self.world.caps:
            if cap.on == "material" and cap.material not in used:
                continue
            if cap.summed_with is not None:
                continue
            found = by_cap.get(cap.key)
            if found is None:
                yield f"no finding for {cap.key}"
                continue
            yield from self._one(cap, found)
        yield from self._sums()
        yield from self._overall()
        yield from self._other_bases()

    # -- one cap -----------------------------------------------------------

    def true(self, cap: Cap) -> tuple[Fraction, Fraction]:
        if cap.on == "component":
            return self.truth.component(cap.own)
        value = (
            self.truth.load()
            if cap.on == "load"
            else self.truth.material(cap.material or "")
        )
        return value, value

    def _one(self, cap: Cap, found: Finding) -> Iterable[str]:
        outcome = found.outcome
        if cap.percent is None:
            if outcome in DECIDED:
                yield f"{outcome} without a number: {cap.key} {cap.printed}"
            return
        low, high = self.true(cap)
        self.tally.on_the_cap += cap.percent in (low, high)
        self.tally.count(self.world.profile, outcome)
        if outcome is Outcome.WITHIN and high > cap.percent:
            yield f"within, but the truth is {float(high)} > {cap.printed}: {cap.key}"
        added = cap.state == "not added" and self._is_added(cap)
        sure = added or self.missed_density()
        if outcome is Outcome.OVER and low <= cap.percent and not sure:
            yield f"over, but the truth is {float(low)} <= {cap.printed}: {cap.key}"
        yield from self._ranges(cap, found)

    def _is_added(self, cap: Cap) -> bool:
        if cap.on == "material":
            return self.truth.material(cap.material or "") > 0
        if cap.on == "load":
            return False
        members = self.world.members(cap.own)
        return any(
            grams
            and (m := self.world.materials[leaf[0]]).is_one_substance
            and m.cas in members
            for leaf, grams in self.truth.made.wet.items()
        )

    # -- ranges ------------------------------------------------------------

    def _total(self, cap: Cap) -> SubjectTotal:
        entry = self.answer.by_cap[cap.key].cap
        assert entry is not None
        return caps.total_for(entry, self.answer.case)

    def _ranges(self, cap: Cap, found: Finding) -> Iterable[str]:
        total = self._total(cap)
        span = self.answer.case.working.range
        low, high = self.true(cap)
        strict = span(total.strict)
        hit = strict.high is None or strict.high >= high
        if not hit and not self.missed_density():
            yield f"truth {float(high)} above {strict}: {cap.key}"
        try:
            if cap.on == "component":
                yield from self._component_hull(cap, total)
            else:
                yield from self._leaf_hull(cap, span(total.documented))
        except TooManyError:
            return
        del low, found

    def _component_hull(self, cap: Cap, total: SubjectTotal) -> Iterable[str]:
        if not self.hull.is_simple(cap.own):
            return
        span = self.answer.case.working.range
        known = self.hull.component(cap.own)
        for name in ("documented", "most", "strict"):
            yield from self._compare(
                f"{cap.key} {name}", span(getattr(total, name)), known[name],
                low=name == "documented",
            )  # fmt: skip

    def _leaf_hull(self, cap: Cap, found: Range) -> Iterable[str]:
        yield from self._compare(f"{cap.key}", found, self.hull.leaves(cap.material))
        if self.world.dry_mass is None:
            low, high = plain_leaves(self.world, self.plan, cap.material)
            if found.low is None or found.low > low or (found.high or ZERO) < high:
                yield f"{cap.key}: {found} does not hold the hull {low} {high}"
            self.tally.held += 1

    def _compare(
        self, what: str, found: Range, known: tuple[Fraction, Fraction], *,
        low: bool = True,
    ) -> Iterable[str]:  # fmt: skip
        """Equal to the brute force, or holding it where a dry mass was weighed."""
        if self.world.dry_mass is not None:
            return
        self.tally.equal += 1
        ends = (found.low if low else known[0], found.high)
        if ends != known:
            shown = [float(x) if x is not None else None for x in (*ends, *known)]
            yield f"{what}: {shown[:2]} is not the brute force {shown[2:]}"

    # -- sums and the whole ------------------------------------------------

    def _sums(self) -> Iterable[str]:
        groups: dict[str, list[Cap]] = {}
        scented: dict[str, list[Cap]] = {}
        used = {leaf[0] for leaf in self.truth.made.wet}
        for cap in self.world.caps:
            where = [x for x in (cap.scheme, cap.edition) if x]
            where += [f"category {cap.category}"] if cap.category else []
            limit = f"1 ({', '.join(where)})"
            if cap.summed_with is not None:
                groups.setdefault(limit, []).append(cap)
            elif cap.on == "material" and cap.category and cap.material in used:
                scented.setdefault(limit, []).append(cap)
        for f in self.answer.findings:
            if f.check == "sum of a document":
                yield from self._document_sum(f, groups[f.limit])
            elif f.check == "use over cap" and f.outcome is Outcome.WITHIN:
                yield from self._screen(f, scented[f.limit])

    def _document_sum(self, found: Finding, entries: list[Cap]) -> Iterable[str]:
        low = high = ZERO
        for cap in entries:
            if not cap.percent:
                return
            a, b = self.true(cap)
            low, high = low + a / cap.percent, high + b / cap.percent
        if found.outcome is Outcome.WITHIN and high > 1:
            yield f"sum within, but it is {float(high)}"
        if found.outcome is Outcome.OVER and low <= 1:
            yield f"sum over, but it is {float(low)}"

    def _screen(self, found: Finding, entries: list[Cap]) -> Iterable[str]:
        most: dict[str, Fraction] = {}
        for cap in entries:
            limit = cap.percent if cap.percent is not None else Fraction(100)
            use = self.truth.material(cap.material or "")
            fraction = use / limit if limit else Fraction(int(use > 0)) * 1000
            most[cap.material or ""] = max(most.get(cap.material or "", ZERO), fraction)
        if sum(most.values(), ZERO) > 1:
            yield f"use over cap within at {float(sum(most.values(), ZERO))}: {found.limit}"

    def _overall(self) -> Iterable[str]:
        """The outcome of the whole recipe, in the category that is the true one."""
        outcome, world = self.answer.overall, self.world
        used = {leaf[0] for leaf in self.truth.made.wet}
        caps_used = [
            cap
            for cap in world.caps
            if cap.summed_with is None and (cap.on != "material" or cap.material in used)
        ]
        if outcome is Outcome.WITHIN:
            for cap in caps_used:
                binds = cap.category in ("", world.category) and cap.percent is not None
                if binds and self.true(cap)[1] > (cap.percent or ZERO):
                    yield f"within overall, but over is {cap.key}"
            if any(cap.category for cap in caps_used) and not world.has_basis:
                yield "within overall without a basis of the category"
        if outcome is Outcome.OVER and not self._some_over(caps_used):
            yield "over overall, but nothing that binds is over"

    def _some_over(self, entries: list[Cap]) -> bool:
        """Whether a cap that binds is over; with no basis, all those of a document."""
        if self.missed_density() or any(
            f.check == "sum of a document" and f.outcome is Outcome.OVER
            for f in self.answer.findings
        ):
            return True
        together: dict[tuple[str, ...], list[bool]] = {}
        for cap in entries:
            over = cap.percent is not None and self.true(cap)[0] > cap.percent
            over = over or (cap.state == "not added" and self._is_added(cap))
            if not cap.category or (self.world.has_basis and
                                    cap.category == self.world.category):  # fmt: skip
                together[cap.key] = [over]
            elif not self.world.has_basis:
                group = (*cap.key[:4], cap.document)
                together.setdefault(group, []).append(over)
        return any(map(all, together.values()))

    def _other_bases(self) -> Iterable[str]:
        """The same in the wet mix, and grams in the batch and in one piece."""
        totals, working = self.answer.totals, self.answer.case.working
        for cap in self.world.caps[:2]:
            if cap.on != "component" or cap.summed_with is not None:
                continue
            total = self._total(cap)
            _, grams = self.truth.component_grams(cap.own)
            wet = self.truth.made.whole("wet mix")
            found = totals.subject(total.subject, Base.WET)
            yield from self._holds("% of wet", working.range(found.span), grams / wet * 100, cap)
            batch = working.range(totals.batch_grams(total))
            yield from self._holds("g in the batch", batch, grams, cap)
            piece = totals.per_piece(total)
            if piece is not None and self.world.piece_mass is not None:
                each = self.world.true["amount", "piece_mass"]
                share = grams / self.truth.whole
                yield from self._holds("g a piece", working.range(piece), each * share, cap)

    def _holds(self, what: str, found: Range, high: Fraction, cap: Cap) -> Iterable[str]:
        if found.high is not None and found.high < high and not self._missed(cap):
            yield f"{what}: {found} does not hold {float(high)}: {cap.key}"

    def missed_density(self) -> bool:
        """Whether a published density lies outside of the truth.

        A ``within`` may not rest on it. An ``over`` may: it is never hidden.
        """
        return any(
            key[0] == "density" and not self.world.said[key].holds(value)
            for key, value in self.world.true.items()
        )

    def _missed(self, cap: Cap) -> bool:
        """Whether a published figure, which need not hold the truth, takes part."""
        del cap
        return any(
            m.density_published or any(p.published for p in m.papers)
            for m in self.world.materials.values()
        )


__all__ = ["DECIDED", "Answer", "Judge", "Subject", "Tally", "Tool", "ask", "check_caps"]
