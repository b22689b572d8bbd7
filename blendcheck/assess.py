"""All checks on one recipe."""

from collections.abc import Callable, Iterable, Iterator
from datetime import date
from functools import cache
from types import MappingProxyType

from blendcheck import reference
from blendcheck.blend.totals import Knowledge, Totals, total
from blendcheck.checks import (
    caps,
    documents,
    fire,
    irritants,
    oxidation,
    packing,
    people,
    screen,
    species,
)
from blendcheck.checks.case import Case, Watch
from blendcheck.frozen import Frozen
from blendcheck.records.finding import Finding, Outcome, overall
from blendcheck.records.material import Materials
from blendcheck.records.recipe import Recipe
from blendcheck.records.snapshot import content_hash
from blendcheck.records.working import Working

__all__ = ["CHECKS", "Assessment", "assess", "knowledge", "reworded"]

Check = Callable[[Case], Iterator[Finding]]

CHECKS: tuple[Check, ...] = (
    caps.check,
    screen.check,
    fire.check,
    packing.check,
    documents.check,
    species.check,
    oxidation.check,
    irritants.check,
    people.check,
)
"""The checks that decide, in the order in which their findings are listed."""


def _estimating() -> tuple[Check, ...]:
    """Return the checks that show estimates; numpy comes with them."""
    from blendcheck.checks import air, blend_flash, fizz, workroom

    return (blend_flash.check, workroom.check, fizz.check, air.check)


def _labelling() -> tuple[Check, ...]:
    """Return the checks of what stands on a label."""
    from blendcheck.checks import (
        ages,
        bath,
        classes,
        closures,
        owes,
        skin,
        swallowed,
        wording,
    )

    return (
        skin.check,
        classes.check,
        wording.check,
        closures.check,
        bath.check,
        ages.check,
        swallowed.check,
        owes.check,
    )


_WORST_FIRST = {outcome: n for n, outcome in enumerate(Outcome)}


class Assessment(Frozen):
    """What all checks found for one recipe on one day.

    Parameters
    ----------
    case : Case
        What was checked, with its totals and its working.
    findings : tuple of Finding
        What stops the maker first, then what is open, then facts and cautions.
    outcome : Outcome
        The worst outcome of the limits that count.
    hash : str
        Hash of everything that the result rests on.
    estimates, label : tuple of Finding
        Those of the findings that show estimates, and those that say what stands on
        a label; empty where they were not asked for.
    """

    case: Case
    findings: tuple[Finding, ...]
    outcome: Outcome
    hash: str
    estimates: tuple[Finding, ...] = ()
    label: tuple[Finding, ...] = ()

    @property
    def totals(self) -> Totals:
        """The totals."""
        return self.case.totals

    @property
    def working(self) -> Working:
        """Figures and steps."""
        return self.case.working


@cache
def knowledge() -> Knowledge:
    """Return what the tables say about substances, read once."""
    groups = {
        group.cas: reference.members_of(group.cas) - {group.cas}
        for group in reference.groups()
        if group.cas
    }
    return Knowledge(
        volatile=reference.is_volatile,
        groups=MappingProxyType(groups),
        names=lambda name: frozenset(reference.find(name).candidates),
    )


def _watch(what: str) -> tuple[Watch, ...]:
    rows = reference.watch_for_oil(what)
    if reference.check_digit_ok(what):
        rows = (*reference.watch_for_cas(what), *rows)
    return tuple(Watch(row.reason, row.source_id, row.tag) for row in rows)


def assess(
    recipe: Recipe,
    materials: Materials,
    on: date,
    *,
    estimates: bool = False,
    label: bool = False,
) -> Assessment:
    """Check a recipe.

    Estimates and what stands on a label are facts and cautions: neither changes the
    outcome, so both are worked out only where somebody asks for them.

    Parameters
    ----------
    recipe, materials : Recipe, Materials
        What was written.
    on : date
        The day for which it is checked.
    estimates : bool, optional
        Whether to estimate the blend's flash point and what is in the air.
    label : bool, optional
        Whether to work out allergens, hazard classes and the words of a label.

    Returns
    -------
    Assessment
        Findings, totals and working.

    Raises
    ------
    InputError, RecipeError
        If the recipe cannot be weighed.
    """
    totals = total(recipe, materials, knowledge())
    case = Case(recipe, materials, totals, totals.working, on, _watch)
    decided = _found(CHECKS, case)
    estimated = _found(_estimating(), case) if estimates else ()
    labelled = _found(_labelling(), case) if label else ()
    return Assessment(
        case,
        tuple(sorted((*decided, *estimated, *labelled), key=_order)),
        overall(decided),
        content_hash(recipe, materials, on),
        estimated,
        labelled,
    )


_WORDLESS = frozenset({"classes", "skin"})
"""Checks of a label that take long and never read what stands on the papers."""


def reworded(found: Assessment, recipe: Recipe) -> Assessment:
    """Check a recipe again whose words on the papers alone were changed.

    Masses, percents, estimates, classes and allergens do not rest on those words, so
    they are taken over; what reads the words is checked anew.

    Parameters
    ----------
    found : Assessment
        The check of the recipe as it was.
    recipe : Recipe
        The same recipe, with other ``papers``.

    Returns
    -------
    Assessment
        What :func:`assess` would return.
    """
    old = found.case
    case = Case(recipe, old.materials, old.totals, old.working, old.on, old.watch)
    decided = _found(CHECKS, case)
    labelled: list[Finding] = []
    for check in _labelling() if found.label else ():
        name = check.__module__.rpartition(".")[2]
        kept = [one for one in found.label if one.check == name]
        labelled += kept if name in _WORDLESS else check(case)
    return Assessment(
        case,
        tuple(sorted((*decided, *found.estimates, *labelled), key=_order)),
        overall(decided),
        content_hash(recipe, old.materials, old.on),
        found.estimates,
        tuple(labelled),
    )


def _found(checks: Iterable[Check], case: Case) -> tuple[Finding, ...]:
    return tuple(finding for check in checks for finding in check(case))


def _order(finding: Finding) -> tuple[bool, int, int]:
    """Put what stops the maker first; a sort keeps the order of the checks."""
    worst = _WORST_FIRST.get(finding.outcome, 9) if finding.outcome else 9
    return (not (finding.kind == "limit" and finding.counts), worst, finding.severity)
