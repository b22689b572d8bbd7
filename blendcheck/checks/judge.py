"""The one function that makes an outcome."""

from fractions import Fraction

from blendcheck.interval import Range
from blendcheck.quantity import (
    CapText,
    Limit,
    Mark,
    NoRestriction,
    NotAdded,
    NotPermitted,
)
from blendcheck.records.finding import Outcome

__all__ = ["cap_percent", "judge"]


def cap_percent(cap: CapText) -> Fraction | None:
    """Return the percent that a cap allows.

    Parameters
    ----------
    cap : CapText
        A cap in any state.

    Returns
    -------
    Fraction or None
        The number, 0 where it is not permitted; ``None`` where the document
        states no number. [% of the finished product]
    """
    if isinstance(cap, Limit | NotAdded):
        return cap.percent
    return Fraction(0) if isinstance(cap, NotPermitted) else None


def judge(
    documented: Range,
    most: Range,
    strict: Range,
    cap: CapText,
    marks: frozenset[Mark] = frozenset(),
) -> Outcome | None:
    """Compare a total with a cap.

    Parameters
    ----------
    documented : Range
        What is documented, low to high. [%]
    most : Range
        Its high end counts what no list shows as well. [%]
    strict : Range
        As ``most``, with figures from published ranges not taken for the lot's
        own. [%]
    cap : CapText
        The cap.
    marks : frozenset of Mark, optional
        Doubts of the masses that decide, such as a density from a published
        range.

    Returns
    -------
    Outcome or None
        ``None`` where the document states no restriction: a fact, not a limit.
        ``over`` when the low end is above the cap, ``within`` when the high end is
        at or below it, ``straddles`` when both documented ends lie on either
        side; else ``unknown``.

    Notes
    -----
    With the documented range [a, b] and at most u more: over if a > cap; within
    if b + u <= cap; straddles if a <= cap < b; else unknown. A ``within`` that
    holds only on a published range is ``unknown``.
    """
    if isinstance(cap, NoRestriction):
        return None
    percent = cap_percent(cap)
    if percent is None:
        return Outcome.UNKNOWN
    if documented.against(percent) == "above":
        return Outcome.OVER
    if strict.against(percent) == "at or below":
        doubtful = Mark.PUBLISHED_NOT_LOT in marks
        return Outcome.UNKNOWN if doubtful else Outcome.WITHIN
    if most.against(percent) == "at or below":
        return Outcome.UNKNOWN
    if documented.high is not None and documented.against(percent) == "across":
        return Outcome.STRADDLES
    return Outcome.UNKNOWN  # not documented up to an end
