"""Compares what the tool says of a world with its truth."""

from collections.abc import Iterable
from fractions import Fraction

from blendcheck.blend.totals import SubjectTotal
from blendcheck.checks import caps
from blendcheck.interval import Range
from blendcheck.quantity import Base
from blendcheck.records.finding import Finding, Outcome
from tests.blurred.asking import DECIDED, Answer
from tests.blurred.forms import TooManyError
from tests.blurred.hull import Hull, plain_leaves
from tests.blurred.physics import Truth
from tests.blurred.plan import Plan
from tests.blurred.said import ZERO
from tests.blurred.tally import Tally
from tests.blurred.world import Cap, World


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
        self,
        world: World,
        plan: Plan,
        truth: Truth,
        hull: Hull,
        answer: Answer,
        tally: Tally,
    ) -> None:
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
        yield from self._ranges(cap)

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

    def _ranges(self, cap: Cap) -> Iterable[str]:
        total = self._total(cap)
        span = self.answer.case.working.range
        low, high = self.true(cap)
        documented, strict = span(total.documented), span(total.strict)
        if not self.missed_density():
            if strict.high is not None and strict.high < high:
                yield f"truth {float(high)} above {strict}: {cap.key}"
            if documented.low is not None and documented.low > low:
                yield f"truth {float(low)} below {documented}: {cap.key}"
        try:
            if cap.on == "component":
                yield from self._component_hull(cap, total)
            else:
                yield from self._leaf_hull(cap, documented)
        except TooManyError:
            return

    def _component_hull(self, cap: Cap, total: SubjectTotal) -> Iterable[str]:
        if not self.hull.is_simple(cap.own):
            return
        span = self.answer.case.working.range
        known = self.hull.component(cap.own)
        for name in ("documented", "most", "strict"):
            yield from self._compare(
                f"{cap.key} {name}",
                span(getattr(total, name)),
                known[name],
                low=name == "documented",
            )

    def _leaf_hull(self, cap: Cap, found: Range) -> Iterable[str]:
        yield from self._compare(f"{cap.key}", found, self.hull.leaves(cap.material))
        if self.world.dry_mass is None:
            low, high = plain_leaves(self.world, self.plan, cap.material)
            if found.low is None or found.low > low or (found.high or ZERO) < high:
                yield f"{cap.key}: {found} does not hold the hull {low} {high}"
            self.tally.held += 1

    def _compare(
        self,
        what: str,
        found: Range,
        known: tuple[Fraction, Fraction],
        *,
        low: bool = True,
    ) -> Iterable[str]:
        """Equal to the brute force; with a weighed dry mass only the truth is held."""
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
        if found.outcome is Outcome.OVER and low <= 1 and not self.missed_density():
            yield f"sum over, but it is {float(low)}"

    def _screen(self, found: Finding, entries: list[Cap]) -> Iterable[str]:
        most: dict[str, Fraction] = {}
        for cap in entries:
            limit = cap.percent if cap.percent is not None else Fraction(100)
            use = self.truth.material(cap.material or "")
            fraction = use / limit if limit else Fraction(int(use > 0)) * 1000
            most[cap.material or ""] = max(most.get(cap.material or "", ZERO), fraction)
        if sum(most.values(), ZERO) > 1:
            total = float(sum(most.values(), ZERO))
            yield f"use over cap within at {total}: {found.limit}"

    def _overall(self) -> Iterable[str]:
        """The outcome of the whole recipe, in the category that is the true one."""
        outcome, world = self.answer.overall, self.world
        used = {leaf[0] for leaf in self.truth.made.wet}
        caps_used = [
            cap
            for cap in world.caps
            if cap.summed_with is None
            and (cap.on != "material" or cap.material in used)
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
            if not cap.category or (
                self.world.has_basis and cap.category == self.world.category
            ):
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
            yield from self._holds(
                f"% of wet {cap.key}", working.range(found.span), grams / wet * 100
            )
            batch = working.range(totals.batch_grams(total))
            yield from self._holds(f"g in the batch {cap.key}", batch, grams)
            piece = totals.per_piece(total)
            if piece is not None and self.world.piece_mass is not None:
                each = self.world.true["amount", "piece_mass"]
                share = grams / self.truth.whole
                yield from self._holds(
                    f"g a piece {cap.key}", working.range(piece), each * share
                )

    def _holds(self, what: str, found: Range, high: Fraction) -> Iterable[str]:
        if found.high is not None and found.high < high and not self._missed():
            yield f"{what}: {found} does not hold {float(high)}"

    def missed_density(self) -> bool:
        """Whether a published density lies outside of the truth.

        A ``within`` may not rest on it. An ``over`` may: it is never hidden.
        """
        return any(
            key[0] == "density" and not self.world.said[key].holds(value)
            for key, value in self.world.true.items()
        )

    def _missed(self) -> bool:
        """Whether a published figure, which need not hold the truth, takes part."""
        return any(
            m.density_published or any(p.published for p in m.papers)
            for m in self.world.materials.values()
        )
