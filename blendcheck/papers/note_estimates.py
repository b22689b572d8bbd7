"""Estimates on the safety note, in as little room as they can be read in."""

from collections.abc import Sequence

from blendcheck.papers.content import Lines, Part, Table
from blendcheck.papers.kept import say
from blendcheck.quantity import print_estimate
from blendcheck.records.estimate import Estimate

__all__ = ["estimate_parts", "in_words"]

_FEW = 3
"""As many estimates stand as lines; more stand in a table."""


def estimate_parts(found: Sequence[Estimate]) -> tuple[Part, ...]:
    """Return the estimates of one finding.

    Parameters
    ----------
    found : sequence of Estimate
        The estimates; none gives nothing.

    Returns
    -------
    tuple of Part
        Lines for a few; for many that say the same of several things a table with
        one row a thing; else a table with one row an estimate.
    """
    if not found:
        return ()
    if len(found) <= _FEW:
        lines = tuple(f"{one.says}: {in_words(one, unit=one.unit)}" for one in found)
        return (Lines(lines, form="list"),)
    return (_side_by_side(found) or _below_each_other(found),)


def in_words(one: Estimate, *, unit: str) -> str:
    """Return an estimate with its range; the range alone where nothing is central.

    Parameters
    ----------
    one : Estimate
        The estimate.
    unit : str
        Its unit; blank where it stands elsewhere.
    """
    about, low, high = (_number(value, one) for value in (one.central, one.low, one.high))
    ends = say("heads.low-to-high", {"low": low, "high": high})
    if one.central is None:
        said = ends
    elif low == about == high:
        said = about
    else:
        said = say("heads.about-in-range", {"about": about, "range": ends})
    return f"{said} {unit}".rstrip()


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
        (thing, *(in_words(row[what], unit="") for what in columns))
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
