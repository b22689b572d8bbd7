"""How a rule prints its lines.

Every printed line is an equation that a reader can work by hand; its digits are
those of the operands that were used, so that it evaluates to what it shows.
"""

from collections.abc import Sequence
from fractions import Fraction

from blendcheck.blend.closing import End, share_end
from blendcheck.interval import Range
from blendcheck.quantity import print_number
from blendcheck.records.mass import Corner, Key, Mass, Unknowns
from blendcheck.records.working import Given, Value

__all__ = [
    "ENDS",
    "ends",
    "equation",
    "extreme",
    "lows",
    "masses_of",
    "operand",
    "span_of",
]

ENDS: tuple[End, End] = ("low", "high")
_OPERAND, _RESULT = 12, 6


def operand(value: Fraction) -> str:
    """Print a number that goes into a line.

    Parameters
    ----------
    value : Fraction
        The number.
    """
    return print_number(value, digits=_OPERAND)


def equation(end: str, left: str, result: Fraction, unit: str) -> str:
    """Print one line: the end it belongs to, the expression, its result.

    Parameters
    ----------
    end : str
        ``"low end"``, ``"high end"`` or nothing.
    left : str
        The expression.
    result : Fraction
        What it comes to.
    unit : str
        Unit of the result.
    """
    head = f"{end}: " if end else ""
    return f"{head}{left} = {print_number(result, digits=_RESULT)} {unit}".rstrip()


def span_of(value: Value, unknowns: Unknowns) -> Range:
    """Return a value as a range.

    Parameters
    ----------
    value : Range or Mass
        What a step holds.
    unknowns : mapping of Key to Range
        Bounds of every unknown.
    """
    return value if isinstance(value, Range) else value.range(unknowns)


def ends(value: Range) -> tuple[tuple[End, str], ...]:
    """Return both ends with their word; one without a word where they agree.

    Parameters
    ----------
    value : Range
        The result.
    """
    if value.is_exact:
        return (("high", ""),)
    return (("low", "low end"), ("high", "high end"))


def extreme(mass: Mass, unknowns: Unknowns, end: End) -> Corner:
    """Return the corner at which a mass is smallest or largest.

    Parameters
    ----------
    mass : Mass
        The mass.
    unknowns : mapping of Key to Range
        Bounds of every unknown.
    end : {"low", "high"}
        Which.
    """
    return mass.extreme(unknowns, end)


def lows(masses: Sequence[Mass], unknowns: Unknowns) -> dict[Key, Fraction]:
    """Return the low end of every unknown in some masses.

    Parameters
    ----------
    masses : sequence of Mass
        The masses.
    unknowns : mapping of Key to Range
        Bounds of every unknown.
    """
    return {
        key: share_end(unknowns[key], "low") for mass in masses for key in mass.counts
    }


def masses_of(given: Sequence[Given]) -> list[Mass]:
    """Return the masses behind some given values.

    Parameters
    ----------
    given : sequence of Given
        The values.
    """
    return [g.mass for g in given]
