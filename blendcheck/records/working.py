"""Figures, steps and rules: how every number shown can be opened.

A *figure* is something that the maker wrote: one printed number, a leaf of
every derivation. A *step* is one line of arithmetic that a registered *rule*
made from figures and earlier steps. A *working* holds all of both for one
check; findings, pages and papers point into it by id.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from fractions import Fraction
from typing import NamedTuple, NewType

from blendcheck.errors import DomainError
from blendcheck.frozen import Frozen
from blendcheck.interval import Range
from blendcheck.quantity import Base, Mark
from blendcheck.records.mass import Key, Mass, Unknowns

__all__ = [
    "RULES",
    "Compute",
    "Figure",
    "Given",
    "Id",
    "Rule",
    "Show",
    "Step",
    "Value",
    "Working",
    "rule",
]

Id = NewType("Id", str)
"""The id of a figure (its key) or of a step."""

Value = Range | Mass
"""What a step holds: a closed range, or grams still linear in the unknowns."""


class Given(NamedTuple):
    """A value that a rule is given, under its id."""

    id: Id
    value: Value

    @property
    def mass(self) -> Mass:
        """The value as a linear form: itself, a number, or one unknown."""
        if isinstance(self.value, Mass):
            return self.value
        if self.value.is_exact and self.value.low is not None:
            return Mass(self.value.low)
        return Mass.of(Key(self.id), Fraction(1))

    def range(self, unknowns: Unknowns) -> Range:
        """Return the value as a range.

        Parameters
        ----------
        unknowns : mapping of Key to Range
            Bounds of every unknown.
        """
        if isinstance(self.value, Mass):
            return self.value.range(unknowns)
        return self.value


How = tuple[str, ...]
"""What a rule must know besides numbers, such as which line is a powder."""

Compute = Callable[[tuple[Given, ...], How, Unknowns], Value]
Show = Callable[[tuple[Given, ...], How, Unknowns, Value], tuple[str, ...]]

NO_MARKS: frozenset[Mark] = frozenset()


class Figure(NamedTuple):
    """One printed figure, with where it stands and what is doubtful about it.

    Parameters
    ----------
    key : Key
        The unknown number that it bounds.
    printed : str
        The text as written.
    range : Range
        What the text says. [``unit``]
    unit : str
        Unit of ``range``.
    says : str
        What it is, in plain words ("menthol in Peppermint oil, lot A12").
    basis : str, optional
        ``"w/w"``, ``"v/v"`` or ``"area"``.
    document : str, optional
        Id of the paper that prints it.
    marks : frozenset of Mark, optional
        Doubts that travel with every result.
    """

    key: Key
    printed: str
    range: Range
    unit: str
    says: str
    basis: str | None = None
    document: str | None = None
    marks: frozenset[Mark] = NO_MARKS


class Rule(Frozen):
    """A kind of arithmetic: its name, formula, sentence and function.

    Parameters
    ----------
    name : str
        Stable name, used in files.
    formula : str
        The formula in symbols.
    sentence : str
        The same in words.
    compute : callable
        Makes the result from the given values; used to compute and to replay.
    show : callable
        Writes the printed lines, each an equation that can be worked by hand.
    """

    name: str
    formula: str
    sentence: str
    compute: Compute
    show: Show


RULES: dict[str, Rule] = {}


def rule(
    name: str, formula: str, sentence: str, show: Show
) -> Callable[[Compute], Compute]:
    """Register a function as a rule.

    Parameters
    ----------
    name, formula, sentence, show
        As in :class:`Rule`.

    Raises
    ------
    DomainError
        If a rule of that name exists.
    """

    def register(compute: Compute) -> Compute:
        if name in RULES:
            raise DomainError("rule", name, "registered once")
        RULES[name] = Rule(name, formula, sentence, compute, show)
        return compute

    return register


class Step(NamedTuple):
    """One line of arithmetic.

    Parameters
    ----------
    id : Id
        Its name in the working.
    rule : str
        Name of the rule that made it.
    given : tuple of Id
        Figures and steps that it was made from, in order.
    value : Range or Mass
        Its result.
    unit : str
        Unit of the result.
    says : str
        What the result is, in plain words.
    base : Base, optional
        What a percent is a percent of.
    marks : frozenset of Mark, optional
        The doubts of everything that it was made from.
    how : tuple of str, optional
        What the rule was told besides numbers.
    """

    id: Id
    rule: str
    given: tuple[Id, ...]
    value: Value
    unit: str
    says: str
    base: Base | None = None
    marks: frozenset[Mark] = NO_MARKS
    how: How = ()


@dataclass(slots=True)
class Working:
    """All figures and steps of one check; it only grows.

    Parameters
    ----------
    figures : dict of Key to Figure
        What was written.
    steps : dict of Id to Step
        What was worked out.
    """

    figures: dict[Key, Figure] = field(default_factory=dict)
    steps: dict[Id, Step] = field(default_factory=dict)
    _unknowns: dict[Key, Range] = field(default_factory=dict)

    @property
    def unknowns(self) -> Unknowns:
        """The range of every figure and of every closed step, by its name."""
        return self._unknowns

    def add(self, figure: Figure) -> Key:
        """Take a figure in, once.

        Parameters
        ----------
        figure : Figure
            The figure.

        Returns
        -------
        Key
            Its key.

        Raises
        ------
        DomainError
            If the key is taken by a figure that says something else.
        """
        known = self.figures.get(figure.key)
        if known is not None and known != figure:
            raise DomainError("figure", figure.key, "one figure for each unknown")
        self.figures[figure.key] = figure
        self._unknowns[figure.key] = figure.range
        return figure.key

    def work(
        self,
        step: str,
        rule_name: str,
        given: tuple[Id | Key, ...],
        *,
        unit: str,
        says: str,
        base: Base | None = None,
        how: How = (),
        doubts: frozenset[Mark] = NO_MARKS,
    ) -> Step:
        """Apply a rule and keep the step.

        Parameters
        ----------
        step : str
            Name of the new step; asking again for the same name returns the
            step that is there.
        rule_name : str
            Which rule.
        given : tuple of Id or Key
            What it is given, in the order of the rule.
        unit, says, base, how
            As in :class:`Step`.
        doubts : frozenset of Mark, optional
            Marks that this step adds to those of what it was given.

        Returns
        -------
        Step
            The step.
        """
        name = Id(step)
        if name in self.steps:
            return self.steps[name]
        ids = tuple(map(Id, given))
        values = tuple([Given(i, self.value(i)) for i in ids])
        value = RULES[rule_name].compute(values, how, self._unknowns)
        marks = doubts.union(*map(self.marks, ids))
        made = Step(name, rule_name, ids, value, unit, says, base, marks, how)
        self.steps[name] = made
        if isinstance(value, Range):
            self._unknowns[Key(name)] = value
        return made

    def value(self, name: Id) -> Value:
        """Return the value behind an id.

        Parameters
        ----------
        name : Id
            Figure or step.

        Raises
        ------
        DomainError
            If there is no such id.
        """
        step = self.steps.get(name)
        if step is not None:
            return step.value
        figure = self.figures.get(Key(name))
        if figure is None:
            raise DomainError("id", name, "a figure or a step of this working")
        return figure.range

    def marks(self, name: Id) -> frozenset[Mark]:
        """Return the doubts behind an id, those of the unknowns included.

        Parameters
        ----------
        name : Id
            Figure or step.
        """
        step = self.steps.get(name)
        return self.figures[Key(name)].marks if step is None else step.marks

    def range(self, name: Id) -> Range:
        """Return the value behind an id as a range.

        Parameters
        ----------
        name : Id
            Figure or step.
        """
        value = self.value(name)
        return value.range(self._unknowns) if isinstance(value, Mass) else value

    def lines(self, name: Id) -> tuple[str, ...]:
        """Write the printed lines of a step; nothing for a figure.

        Parameters
        ----------
        name : Id
            Figure or step.
        """
        step = self.steps.get(name)
        if step is None:
            return ()
        values = tuple(Given(i, self.value(i)) for i in step.given)
        return RULES[step.rule].show(values, step.how, self._unknowns, step.value)

    def story(self, name: Id) -> tuple[tuple[Step, tuple[str, ...]], ...]:
        """List the steps behind a value with their lines, first things first.

        Parameters
        ----------
        name : Id
            Figure or step.

        Returns
        -------
        tuple of (Step, tuple of str)
            Steps in the order in which they were worked; those that only hand a
            number on, without arithmetic, are left out.
        """
        wanted = set(self.behind(name))
        told = []
        for one, step in self.steps.items():
            if one not in wanted:
                continue
            lines = tuple(line for line in self.lines(one) if not _only_repeats(line))
            if lines:
                told.append((step, lines))
        return tuple(told)

    def replay(self, name: Id) -> Value:
        """Work a step out again from what it was given.

        Parameters
        ----------
        name : Id
            The step.

        Returns
        -------
        Range or Mass
            The result; it equals the stored one, or something is broken.
        """
        step = self.steps[name]
        values = tuple(Given(i, self.value(i)) for i in step.given)
        return RULES[step.rule].compute(values, step.how, self._unknowns)

    def behind(self, name: Id) -> tuple[Id, ...]:
        """List everything that a value rests on, nearest first, each once.

        Parameters
        ----------
        name : Id
            Figure or step.
        """
        seen: dict[Id, None] = {}
        queue = [name]
        while queue:
            at = queue.pop(0)
            if at in seen:
                continue
            seen[at] = None
            step = self.steps.get(at)
            if step is None:
                continue
            queue.extend(step.given)
            if isinstance(step.value, Mass):
                queue.extend(Id(k) for k in step.value.counts)
        return tuple(seen)


def _only_repeats(line: str) -> bool:
    """Whether an equation has the same number on both sides and nothing else."""
    left, _, right = line.rpartition(" = ")
    return left.rpartition(": ")[2].strip("()") == right.partition(" ")[0]
