"""Which entered caps hold together while an amount is varied."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from fractions import Fraction

from blendcheck.checks.case import Case
from blendcheck.checks.entries import outcome_of, total_for
from blendcheck.checks.judge import cap_percent
from blendcheck.checks.screen import document_sum
from blendcheck.quantity import NoRestriction
from blendcheck.records.finding import Outcome
from blendcheck.records.material import CapEntry

__all__ = ["all_hold", "as_they_stand", "divisor", "uses"]


def as_they_stand(case: Case) -> Case:
    """Return a case in which every entered cap counts, of whatever edition.

    Parameters
    ----------
    case : Case
        The case.
    """
    workshop = case.materials.workshop.model_copy(update={"current": {}})
    materials = case.materials.model_copy(update={"workshop": workshop})
    return replace(case, materials=materials)


def uses(case: Case, entry: CapEntry) -> bool:
    """Say whether the material of a cap is in a recipe.

    Parameters
    ----------
    case : Case
        The case of the recipe.
    entry : CapEntry
        A cap on a material.
    """
    return any(
        node.material is not None and node.material.id == entry.material
        for node in case.totals.leaves
    )


def divisor(entry: CapEntry) -> Fraction | None:
    """Return what a use is divided by in a document's sum.

    Parameters
    ----------
    entry : CapEntry
        A member of the sum.

    Returns
    -------
    Fraction or None
        Its cap, 100 where none is stated to be needed; ``None`` without a number.
        [% of the finished product]
    """
    if isinstance(entry.cap, NoRestriction):
        return Fraction(100)
    return cap_percent(entry.cap)


def all_hold(
    case: Case, entries: Iterable[CapEntry], sums: Iterable[Sequence[CapEntry]]
) -> bool:
    """Say whether every cap and every sum of a document is within.

    Parameters
    ----------
    case : Case
        The case to check.
    entries : iterable of CapEntry
        Caps that hold one by one.
    sums : iterable of sequences of CapEntry
        Members of each sum.
    """
    return all(
        outcome_of(entry, total_for(entry, case), case) is Outcome.WITHIN
        for entry in entries
    ) and all(document_sum(case, one).outcome is Outcome.WITHIN for one in sums)
