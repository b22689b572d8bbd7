"""What law, standards and studies say of a substance or an oil."""

from collections.abc import Callable, Iterable
from typing import Any, Final

from blendcheck import reference
from blendcheck.entry.making import by_quantity, figure_of, place_of
from blendcheck.entry.records import AirLimit, AllergenShown, Hazard, LegalLimit, Told
from blendcheck.entry.whole import Law
from blendcheck.quantity import print_number
from blendcheck.reference import (
    AllergenEntry,
    ExposureLimit,
    HazardClass,
    IngredientLimit,
    IrritationPoint,
    Swallowing,
    normal_name,
    rows_of,
)

__all__ = ["POISON_LINE", "Meant", "law_of", "meant_by"]

Meant = Callable[[Any], bool]
"""Says whether a row speaks of what the entry is about."""

POISON_LINE: Final = "Any swallowing by a child is a call to the poison line, now."
"""What stands above whatever is known of swallowing."""


def meant_by(numbers: Iterable[str], name: str = "") -> Meant:
    """Return the question whether a row speaks of a substance.

    Parameters
    ----------
    numbers : iterable of str
        CAS numbers under which the tables may speak of it.
    name : str, optional
        For rows without a number: the name that they print.

    Returns
    -------
    callable
        Takes a row that has the columns ``cas`` and ``substance``.
    """
    wanted, named = frozenset(numbers), normal_name(name)

    def meant(row: Any) -> bool:  # noqa: ANN401  # rows share columns, not a class
        if row.cas:
            return row.cas in wanted
        return bool(named) and normal_name(row.substance) == named

    return meant


def law_of(numbers: frozenset[str], exactly: frozenset[str], name: str = "") -> Law:
    """Return what law, standards and studies say.

    Parameters
    ----------
    numbers : frozenset of str
        CAS numbers under which the tables may speak of it, those of its groups
        included.
    exactly : frozenset of str
        Its own CAS numbers: hazard classes are not taken over from a group.
    name : str, optional
        For rows without a number.

    Returns
    -------
    Law
        Empty parts say that the tables have nothing, which speaks for nothing.
    """
    meant, own = meant_by(numbers, name), meant_by(exactly, name)
    entries = (each for each in reference.allergens() if each.cas & numbers)
    points = (row.datum for row in rows_of(IrritationPoint) if meant(row))
    return Law(
        allergens=tuple(_allergen(each, numbers) for each in entries),
        limits=tuple(_limit(row) for row in rows_of(IngredientLimit) if meant(row)),
        air_limits=tuple(_air(row) for row in rows_of(ExposureLimit) if meant(row)),
        irritation=by_quantity(sorted(points, key=lambda datum: datum.quantity)),
        hazards=tuple(_hazard(row) for row in rows_of(HazardClass) if own(row)),
        swallowing=tuple(_swallowed(row) for row in rows_of(Swallowing) if meant(row)),
    )


def _allergen(entry: AllergenEntry, numbers: frozenset[str]) -> AllergenShown:
    row = next(row for row in entry.rows if row.cas in numbers)
    leave, rinse = (
        "" if share is None else f"{print_number(share)} {row.limit_unit}"
        for share in (entry.leave_on, entry.rinse_off)
    )
    return AllergenShown(
        entry=entry.entry,
        label_name=entry.label_name,
        members=entry.members,
        leave_on=leave,
        rinse_off=rinse,
        prohibited=entry.prohibited,
        since=row.since,
        place=place_of(row),
    )


def _limit(row: IngredientLimit) -> LegalLimit:
    return LegalLimit(
        jurisdiction=row.jurisdiction,
        provision=row.provision,
        substance=row.substance,
        applies_to=row.applies_to,
        state=row.state,
        in_force_from=row.in_force_from,
        superseded_on=row.superseded_on,
        figure=figure_of(row.datum),
    )


def _air(row: ExposureLimit) -> AirLimit:
    return AirLimit(
        issued_by=row.issued_by,
        jurisdiction=row.jurisdiction,
        substance=row.substance,
        in_force_from=row.in_force_from,
        superseded_on=row.superseded_on,
        figure=figure_of(row.datum),
    )


def _hazard(row: HazardClass) -> Hazard:
    phrase = reference.phrases().get(row.statement)
    return Hazard(
        substance=row.substance,
        standing=row.standing,
        hazard_class=row.hazard_class,
        statement=row.statement,
        wording="" if phrase is None else phrase.wording,
        limits=row.limits,
        place=place_of(row),
    )


def _swallowed(row: Swallowing) -> Told:
    datum = row.datum
    figure = None if datum.range is None else figure_of(datum)
    return Told(row.substance, row.says, figure, place_of(row))
