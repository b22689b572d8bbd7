"""The most of an oil, or of the whole blend, that stays within the entered caps.

Two readings: the finished mass is held (the base gives way), or the rest of the
recipe is held (the batch grows). The amount is closed exactly, rounded down to the
scale, put into the recipe and checked again; what does not check is not shown.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from functools import cached_property
from typing import Literal

from blendcheck.assess import Assessment
from blendcheck.blend.closing import share_end
from blendcheck.blend.regram import in_grams, line_at
from blendcheck.blend.totals import total
from blendcheck.blend.turning import worst_grams
from blendcheck.checks.case import Case
from blendcheck.checks.categories import categories_of
from blendcheck.checks.entries import (
    as_added,
    entries_in_use,
    total_for,
)
from blendcheck.checks.holding import all_hold, as_they_stand, divisor, uses
from blendcheck.checks.judge import cap_percent
from blendcheck.checks.screen import summed_by
from blendcheck.errors import BlendcheckError, RecipeError
from blendcheck.frozen import Frozen
from blendcheck.quantity import (
    Base,
    NoRestriction,
    NotAdded,
    NotPermitted,
    round_down_to,
)
from blendcheck.records.material import CapEntry, StockLine
from blendcheck.records.recipe import Line, Recipe
from blendcheck.units import GRAMS_PER

__all__ = ["Largest", "Reading", "largest"]

Reading = Literal["finished mass held", "the rest held"]

_READINGS: tuple[Reading, ...] = ("finished mass held", "the rest held")
_FINE = Fraction(1, 100)
"""Step to round down to where no scale is entered. [g]"""
_TRIES = 3


class Largest(Frozen):
    """The most of one thing under one category, in one reading.

    Parameters
    ----------
    says : str
        The oil, or "the whole blend".
    where : tuple of str
        Its lines in the recipe.
    category : str
        Scheme and category that it holds under, or nothing.
    reading : str
        What is held.
    grams : Fraction or None
        The most, rounded down to the scale and checked; ``None`` where no entered
        cap limits it. [g]
    percent : Fraction or None
        The same as a percent of the finished product, at its high end. [%]
    limited_by : str
        What limits it.
    open : tuple of str
        Subjects whose cap states no number, so that they could not be held.

    Notes
    -----
    Caps of an old edition are held as they stand; the check itself says that they
    are old. The screen of use ÷ cap is no cap, and is not held.
    """

    says: str
    where: tuple[str, ...]
    category: str
    reading: Reading
    grams: Fraction | None
    percent: Fraction | None
    limited_by: str
    open: tuple[str, ...]


class _Target(Frozen):
    """Lines that are varied together, alone, and what remains without them."""

    says: str
    where: tuple[str, ...]
    alone: Case
    rest: Case | None


def largest(assessment: Assessment) -> tuple[Largest, ...]:
    r"""Work out the most of each scented line and of the whole blend.

    Parameters
    ----------
    assessment : Assessment
        The check of the recipe as written.

    Returns
    -------
    tuple of Largest
        For each target, under each category (or the recorded one), both readings.

    Notes
    -----
    With the rest bringing at most R grams of a subject into W grams, and one gram
    of the target bringing at most s: the finished mass held,
    :math:`x \le (c W - R)/s`; the rest held, :math:`x \le (c W_r - R)/(s - c l)`
    with l the grams left of one gram. Mass balance in exact rationals. Departs
    from it in: where masses of the rest are ranges, their worst ends are used.
    """
    return tuple(_Search(assessment.case).found())


class _Held(Frozen):
    """What is held for one target: bounds found, and what they are checked with."""

    bounds: list[tuple[Fraction, str]]
    unstated: list[str]
    entries: list[CapEntry]
    sums: list[list[CapEntry]]


def _dries(line: Line | StockLine, case: Case) -> bool:
    """Whether a line loses weight on drying, so that it cannot give way for oil."""
    if isinstance(line, Line) and line.leaves_on_drying is not None:
        return True
    if line.material is None:
        return False
    material = case.materials.get(line.material)
    return material.leaves_on_drying is not None or material.kind in (
        "alcohol",
        "water",
    )


class _Search:
    def __init__(self, case: Case) -> None:
        self.case, self.totals = as_they_stand(case), case.totals
        self.now = {
            m.where: case.working.range(m.grams).high or Fraction(0)
            for m in case.totals.expansion.lines
        }
        self.tried: dict[tuple[tuple[str, ...], Fraction, Reading], Case] = {}

    def found(self) -> Iterator[Largest]:
        """Every target under every scenario in both readings."""
        for target in self.targets:
            for label, entries in self._scenarios():
                for reading in _READINGS:
                    try:
                        most = self._most(target, label, entries, reading)
                    except RecipeError:  # a line that cannot be varied on its own
                        continue
                    if most is not None:
                        yield most

    # -- what is varied -----------------------------------------------------

    @cached_property
    def targets(self) -> tuple[_Target, ...]:
        """Each scented line, and all of them together."""
        lines = []
        for mass in self.totals.expansion.lines:
            target = self._target(mass.says, (mass.where,))
            if target is not None:
                lines.append(target)
        if len(lines) > 1:
            everything = tuple(where for line in lines for where in line.where)
            whole = self._target("the whole blend", everything)
            if whole is not None:
                lines.append(whole)
        return tuple(lines)

    def _target(self, says: str, where: tuple[str, ...]) -> _Target | None:
        others = [w for w in self.now if w not in where]
        try:
            alone = self._case(self._only(where))
            if not alone.working.range(alone.totals.load(Base.WET).most).high:
                return None
            rest = self._case(self._only(others)) if others else None
        except BlendcheckError:
            return None
        return _Target(says, where, alone, rest)

    def _only(self, where: Sequence[str]) -> Recipe:
        return self._grams_recipe({w: Fraction(0) for w in self.now if w not in where})

    def _grams_recipe(self, instead: dict[str, Fraction]) -> Recipe:
        """Return the recipe in grams, without the mass weighed as it was."""
        return in_grams(self.totals, instead).model_copy(update={"dry_mass": None})

    def _case(self, recipe: Recipe) -> Case:
        totals = total(recipe, self.case.materials, self.totals.knowledge)
        return Case(
            recipe,
            self.case.materials,
            totals,
            totals.working,
            self.case.on,
            self.case.watch,
        )

    def _scenarios(self) -> Iterator[tuple[str, list[CapEntry]]]:
        """Entries that hold together: of one category, and those without one."""
        entries = entries_in_use(self.case)
        plain = [e for e in entries if not e.category]
        categories: dict[tuple[str, str], list[CapEntry]] = {}
        for entry in entries:
            chosen = categories_of(entry, self.case.recipe.category)
            if entry.category and (not chosen or entry.category in chosen):
                key = (entry.scheme, entry.category)
                categories.setdefault(key, []).append(entry)
        if not categories:
            yield "", plain
        for (scheme, category), held in categories.items():
            yield f"{scheme}, category {category}", [*plain, *held]

    # -- how much ------------------------------------------------------------

    def _most(
        self,
        target: _Target,
        label: str,
        entries: Sequence[CapEntry],
        reading: Reading,
    ) -> Largest | None:
        held = _Held([], [], [], [])
        for entry in entries:
            if entry.summed_with is None or isinstance(entry.cap, NotPermitted):
                self._hold_one(held, target, entry, reading)
        for members in summed_by(entries).values():
            self._hold_sum(held, target, members, reading)
        grams: Fraction | None = None
        percent: Fraction | None = None
        limited_by = ""
        if held.bounds:
            most, limited_by = min(held.bounds)
            checked = self._checked(target, held, max(most, Fraction(0)), reading)
            if checked is None:
                return None
            grams, percent = checked
        return Largest(
            target.says,
            target.where,
            label,
            reading,
            grams,
            percent,
            limited_by,
            tuple(held.unstated),
        )

    def _hold_one(
        self, held: _Held, target: _Target, entry: CapEntry, reading: Reading
    ) -> None:
        name, share = self._brings(target, entry)
        cap = cap_percent(entry.cap)
        if share == 0 or isinstance(entry.cap, NoRestriction):
            return
        if cap is None:
            held.unstated.append(name)
            return
        held.entries.append(entry)
        bound = self._bound(target, share, self._others(target, entry), cap, reading)
        if isinstance(entry.cap, NotAdded) and any(
            as_added(entry, total_for(entry, one), one)
            for one in (target.alone, target.rest)
            if one is not None
        ):
            bound = Fraction(0)
        if bound is not None:
            held.bounds.append((bound, name))

    def _hold_sum(
        self,
        held: _Held,
        target: _Target,
        members: Sequence[CapEntry],
        reading: Reading,
    ) -> None:
        """Hold a document's sum: each share and each rest over its own cap, at 1."""
        share, other = Fraction(0), Fraction(0)
        stated: list[CapEntry] = []
        for entry in members:
            name, brought = self._brings(target, entry)
            by = divisor(entry)
            if by is not None:
                stated.append(entry)
                share += brought / by
                other += self._others(target, entry) / by
            elif brought:
                held.unstated.append(name)
        if share == 0:
            return
        held.sums.append(stated)
        bound = self._bound(target, share, other, Fraction(1), reading)
        if bound is not None:
            held.bounds.append((bound, members[0].summed_with or ""))

    def _brings(self, target: _Target, entry: CapEntry) -> tuple[str, Fraction]:
        """Say what one hundred grams of the target bring of a subject, at most."""
        alone = target.alone
        if entry.on == "material" and not uses(alone, entry):
            return "", Fraction(0)
        brought = total_for(entry, alone, Base.WET)
        return brought.subject.name, share_end(
            alone.working.range(brought.strict), "high"
        )

    def _others(self, target: _Target, entry: CapEntry) -> Fraction:
        """Return the grams that the rest of the recipe brings of a subject, at most."""
        rest = target.rest
        if rest is None or (entry.on == "material" and not uses(rest, entry)):
            return Fraction(0)
        form = worst_grams(rest.totals, total_for(entry, rest))
        return form.range(rest.working.unknowns).high or Fraction(0)

    def _bound(
        self,
        target: _Target,
        share: Fraction,
        other: Fraction,
        cap: Fraction,
        reading: Reading,
    ) -> Fraction | None:
        if reading == "finished mass held":
            whole = self._finished(self.case)
            return (cap / 100 * whole - other) / (share / 100)
        if target.rest is None:
            return None
        alone = target.alone
        wet = alone.working.range(alone.totals.expansion.wet).high or Fraction(1)
        slope = share / 100 - cap / 100 * self._finished(alone) / wet
        room = cap / 100 * self._finished(target.rest) - other
        if slope > 0:
            return room / slope
        return None if room >= 0 else Fraction(0)

    def _finished(self, case: Case) -> Fraction:
        return case.working.range(case.totals.expansion.expected).low or Fraction(0)

    # -- rounded, put in, checked ---------------------------------------------

    def _checked(
        self,
        target: _Target,
        held: _Held,
        most: Fraction,
        reading: Reading,
    ) -> tuple[Fraction, Fraction] | None:
        step = self._scale()
        grams = round_down_to(most, step)
        for _ in range(_TRIES):
            if grams <= 0:
                return Fraction(0), Fraction(0)
            tried = self._tried(target, grams, reading)
            if all_hold(tried, held.entries, held.sums):
                return grams, grams / self._finished(tried) * 100
            grams -= step
        return None

    def _tried(self, target: _Target, grams: Fraction, reading: Reading) -> Case:
        """Return the recipe with an amount put in; categories often share one."""
        key = (target.where, grams, reading)
        if key not in self.tried:
            self.tried[key] = self._case(self._with(target, grams, reading))
        return self.tried[key]

    def _scale(self) -> Fraction:
        scale = self.case.materials.workshop.scale
        if scale is None or scale.kind != "mass" or not scale.number.high:
            return _FINE
        return scale.number.high * GRAMS_PER[scale.unit]

    def _with(self, target: _Target, grams: Fraction, reading: Reading) -> Recipe:
        scented = sum((self.now[w] for w in target.where), Fraction(0))
        instead = {w: self.now[w] * grams / scented for w in target.where}
        if reading == "finished mass held":
            instead |= self._base_given_way(grams - scented)
        return self._grams_recipe(instead)

    def _base_given_way(self, more: Fraction) -> dict[str, Fraction]:
        """Shrink or grow the dry unscented lines so that the finished mass stays."""
        scented = {w for target in self.targets for w in target.where}
        base = [
            mass.where
            for mass in self.totals.expansion.lines
            if mass.where not in scented
            and self.case.working.range(mass.grams).is_exact
            and not _dries(line_at(self.case.recipe, mass.where), self.case)
        ]
        weight = sum((self.now[w] for w in base), Fraction(0))
        if weight <= more:
            raise RecipeError("the base cannot give way that far")
        return {w: self.now[w] * (1 - more / weight) for w in base}
