"""What a text means, as plain tuples: the common ground of generator, reader, oracle.

``(kind, ...)`` with exact fractions; an end that nothing bounds is ``None``.
"""

from fractions import Fraction

from blendcheck import quantity as q

Ends = tuple[Fraction | None, Fraction | None, bool, bool]
Meaning = tuple[object, ...]

READERS = {
    "amount": q.read_amount,
    "percent": q.read_percent,
    "temperature": q.read_temperature,
    "cap": q.read_cap,
    "density": q.read_density,
    "date": q.read_date,
}
PRINTERS = {
    "amount": q.print_amount,
    "percent": q.print_percent,
    "temperature": q.print_temperature,
    "cap": q.print_cap,
    "density": q.print_density,
    "date": q.print_date,
}


def _ends(value) -> Ends:
    return (value.low, value.high, value.low_open, value.high_open)


def meaning_of(value) -> Meaning:
    """Return the meaning of a value that a reader gave."""
    match value:
        case q.Amount():
            base = value.base and value.base.name
            return ("amount", _ends(value.number), value.kind, value.unit, base)
        case q.Percent():
            base = value.base and value.base.name
            return ("percent", _ends(value.range), value.basis, base, value.detected)
        case q.Temperature():
            return ("temperature", _ends(value.range), value.cup)
        case q.Density():
            return ("density", _ends(value.range), value.at)
        case q.PrintedDate():
            return ("date", value.on.year, value.on.month, value.on.day)
        case q.Limit() | q.NotAdded():
            return ("cap", value.state, value.percent)
        case q.NotApplicable():
            return ("cap", value.state, value.footnote)
        case _:
            return ("cap", value.state, None)
