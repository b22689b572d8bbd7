"""Look-ups on what a seller owes: lists by place, duties, words that are claims."""

from datetime import date

from blendcheck.reference.duty_rows import AllergenList, Claim, Duty
from blendcheck.reference.tables import rows_of

__all__ = ["allergen_lists", "claims", "duties"]


def allergen_lists(
    place: str | None = None, on: date | None = None
) -> tuple[AllergenList, ...]:
    """Return which list of fragrance allergens a place asks for.

    Parameters
    ----------
    place : str, optional
        A place of the table; all by default.
    on : date, optional
        A day; only what holds on it. By default every date.

    Returns
    -------
    tuple of AllergenList
        In the order of the table.

    Examples
    --------
    >>> [row.names for row in allergen_lists("EU", date(2026, 8, 1))]
    ['81 entries', '24 names']
    """
    day = "" if on is None else on.isoformat()
    return tuple(
        row
        for row in rows_of(AllergenList)
        if place in (None, row.place)
        and (not day or row.in_force_from <= day)
        and (not day or not row.superseded_on or day <= row.superseded_on)
    )


def duties(topic: str, place: str | None = None) -> tuple[Duty, ...]:
    """Return what the law asks on a topic.

    Parameters
    ----------
    topic : str
        As in the table, such as ``assessor`` or ``claim: medicine``.
    place : str, optional
        A place of the table; all by default.

    Returns
    -------
    tuple of Duty
        In the order of the table; rows for any place are always among them.

    Examples
    --------
    >>> [row.tag for row in duties("assessor", "EU")]
    ['seen']
    """
    return tuple(
        row
        for row in rows_of(Duty)
        if row.topic == topic and (place is None or row.place in (place, "any"))
    )


def claims() -> tuple[Claim, ...]:
    """Return the words that say more of a thing than what it smells of.

    Returns
    -------
    tuple of Claim
        In the order of the table.
    """
    return rows_of(Claim)
