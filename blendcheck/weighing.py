"""The weighing list: planned grams rounded to the scale, and what that changes."""

from collections.abc import Sequence
from datetime import date
from fractions import Fraction

from blendcheck.assess import Assessment, assess
from blendcheck.blend.regram import in_grams
from blendcheck.errors import RecipeError
from blendcheck.frozen import Frozen
from blendcheck.interval import Range
from blendcheck.records.finding import Finding, Outcome
from blendcheck.units import GRAMS_PER

__all__ = ["Weighed", "WeighingList", "scale_of", "weighing_list"]


class Weighed(Frozen):
    """One line of the list.

    Parameters
    ----------
    where : str
        Place in the recipe.
    says : str
        What to weigh.
    lot : str
        Its lot, or nothing.
    planned : Range
        Grams worked out. [g]
    to_weigh : Fraction or None
        The same rounded to the scale; ``None`` for a line that is counted. [g]
    as_written : str
        The amount as the maker wrote it.
    """

    where: str
    says: str
    lot: str
    planned: Range
    to_weigh: Fraction | None
    as_written: str


class WeighingList(Frozen):
    """Lines to weigh, and how the rounded recipe checks.

    Parameters
    ----------
    lines : tuple of Weighed
        In the order of the recipe.
    scale : Fraction or None
        Resolution of the scale; ``None`` if it is not entered. [g]
    rounded : Assessment or None
        The check of the rounded recipe, where lines could be rounded.
    changed : tuple of (Finding, Outcome or None)
        Findings whose outcome the rounding changes, with the new outcome.
    too_fine : tuple of str
        Lines that the scale cannot show.
    """

    lines: tuple[Weighed, ...]
    scale: Fraction | None
    rounded: Assessment | None
    changed: tuple[tuple[Finding, Outcome | None], ...]
    too_fine: tuple[str, ...]


def scale_of(assessment: Assessment) -> Fraction | None:
    """Return the resolution of the scale, if it is entered.

    Parameters
    ----------
    assessment : Assessment
        A check.
    """
    scale = assessment.case.materials.workshop.scale
    if scale is None or scale.kind != "mass" or not scale.number.high:
        return None
    return scale.number.high * GRAMS_PER[scale.unit]


def weighing_list(assessment: Assessment) -> WeighingList:
    """Round the lines of a recipe to the scale, and check what was rounded.

    Parameters
    ----------
    assessment : Assessment
        The check of the recipe as written.

    Returns
    -------
    WeighingList
        The list.
    """
    totals, scale = assessment.totals, scale_of(assessment)
    lines: list[Weighed] = []
    instead: dict[str, Fraction] = {}
    too_fine: list[str] = []
    for mass in totals.expansion.lines:
        planned = totals.working.range(mass.grams)
        to_weigh = None
        if planned.is_exact and planned.low is not None:
            to_weigh = planned.low if scale is None else _nearest(planned.low, scale)
            instead[mass.where] = to_weigh
            if to_weigh == 0 and planned.low > 0:
                too_fine.append(mass.says)
        lines.append(
            Weighed(
                mass.where,
                mass.says,
                mass.lot or "",
                planned,
                to_weigh,
                _as_written(assessment, mass.where),
            )
        )
    rounded, changed = None, tuple[tuple[Finding, Outcome | None], ...]()
    if scale is not None and not too_fine:
        rounded = _check_rounded(assessment, instead, assessment.case.on)
        if rounded is not None:
            changed = _changed(assessment, rounded)
    return WeighingList(tuple(lines), scale, rounded, changed, tuple(too_fine))


def _nearest(value: Fraction, step: Fraction) -> Fraction:
    return round(value / step) * step


def _as_written(assessment: Assessment, where: str) -> str:
    figure = "load" if where == "blend" else f"amount/{where}"
    return next(
        (f.printed for k, f in assessment.working.figures.items() if k == figure), ""
    )


def _check_rounded(
    assessment: Assessment, instead: dict[str, Fraction], on: date
) -> Assessment | None:
    try:
        recipe = in_grams(assessment.totals, instead)
    except RecipeError:
        return None
    return assess(recipe, assessment.case.materials, on)


def _key(finding: Finding) -> tuple[object, ...]:
    return (finding.kind, finding.check, finding.subject, finding.cap, finding.limit)


def _about(finding: Finding) -> tuple[object, ...]:
    """Return what a limit is about, where its own figure moves with the masses."""
    return (finding.kind, finding.check, finding.subject, finding.cap)


def _after(finding: Finding, after: Sequence[Finding]) -> Finding | None:
    """Return the same limit of the rounded recipe, if there is just one."""
    for same in (_key, _about):
        found = [one for one in after if same(one) == same(finding)]
        if len(found) == 1:
            return found[0]
    return None


def _changed(
    before: Assessment, after: Assessment
) -> tuple[tuple[Finding, Outcome | None], ...]:
    pairs = [
        (f, _after(f, after.findings)) for f in before.findings if f.kind == "limit"
    ]
    return tuple(
        (f, now.outcome)
        for f, now in pairs
        if now is not None and now.outcome != f.outcome
    )
