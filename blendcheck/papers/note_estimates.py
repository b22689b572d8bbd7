"""Estimates on the safety note, in as little room as they can be read in."""

from collections.abc import Sequence

from blendcheck.papers.content import Table
from blendcheck.papers.kept import say
from blendcheck.quantity import print_estimate
from blendcheck.records.estimate import Estimate

__all__ = ["estimates_said", "estimates_table"]

_FEW = 3
"""As many estimates stand in a sentence; more stand in a table."""


def estimates_said(found: Sequence[Estimate]) -> str:
    """Return a few estimates as one sentence; blank for none and for many.

    Parameters
    ----------
    found : sequence of Estimate
        The estimates of one finding.
    """
    if not found or len(found) > _FEW:
        return ""
    said = "; ".join(f"{one.says}: {_alone(one)}" for one in found)
    return say("sheet.estimated", {"said": said})


def estimates_table(found: Sequence[Estimate]) -> tuple[Table, ...]:
    """Return many estimates as a table; nothing for a few.

    Parameters
    ----------
    found : sequence of Estimate
        The estimates of one finding.

    Returns
    -------
    tuple of Table
        One row a thing where the same is said of several things, else one row an
        estimate.
    """
    if len(found) <= _FEW:
        return ()
    return (_side_by_side(found) or _below_each_other(found),)


def _alone(one: Estimate) -> str:
    """Return an estimate with its unit, and that it is about so much."""
    if one.central is None and one.low is None and one.high is None:
        return say("heads.not-bounded")
    said = f"{_range_of(one)} {one.unit}".rstrip()
    return said if one.central is None else say("heads.about-sure", {"said": said})


def _range_of(one: Estimate) -> str:
    """Return an estimate with its range; the range alone where nothing is central."""
    values = (one.central, one.low, one.high)
    about, low, high = (_number(value, one) for value in values)
    ends = say("heads.low-to-high", {"low": low, "high": high})
    if one.central is None:
        return ends
    if low == about == high:
        return about
    return say("heads.about-in-range", {"about": about, "range": ends})


def _number(value: float | None, one: Estimate) -> str:
    if value is None:
        return say("heads.not-bounded")
    return print_estimate(value, digits=one.digits)


def _side_by_side(found: Sequence[Estimate]) -> Table | None:
    """Put what is said of several things alike into columns, if it is so.

    An estimate says of what it is before its first comma and a space, and what of it
    behind them.
    """
    things: dict[str, dict[str, Estimate]] = {}
    for one in found:
        thing, _, what = one.says.partition(", ")
        things.setdefault(thing, {})[what] = one
    columns = tuple(next(iter(things.values())))
    units = {one.unit for one in found}
    is_alike = all(tuple(row) == columns for row in things.values())
    if not is_alike or len(things) * len(columns) != len(found) or len(units) > 1:
        return None
    if len(columns) == 1:
        return None
    rows = tuple(
        (thing, *(_range_of(row[what]) for what in columns))
        for thing, row in things.items()
    )
    caption = say("heads.estimates-in", {"unit": units.pop() or "1"})
    numbers = tuple(range(1, len(columns) + 1))
    wide = (0, *numbers)
    return Table(caption, (say("heads.estimated"), *columns), rows, numbers, wide=wide)


def _below_each_other(found: Sequence[Estimate]) -> Table:
    heads = ("heads.estimated", "heads.about", "heads.from-low", "heads.to-high")
    rows = tuple(
        (
            one.says,
            "" if one.central is None else _with_unit(one.central, one),
            _with_unit(one.low, one),
            _with_unit(one.high, one),
        )
        for one in found
    )
    return Table("", tuple(map(say, heads)), rows, numbers=(1, 2, 3))


def _with_unit(value: float | None, one: Estimate) -> str:
    if value is None:
        return _number(value, one)
    return f"{_number(value, one)} {one.unit}".rstrip()
