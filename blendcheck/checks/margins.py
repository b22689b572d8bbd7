"""How far a temperature must stay below a flash point, and the rules for it."""

from fractions import Fraction
from typing import Literal

from blendcheck.blend.printed import equation, operand
from blendcheck.interval import Range
from blendcheck.records.mass import Unknowns
from blendcheck.records.working import Given, How, Value, rule

__all__ = [
    "MARGIN_MIXTURE",
    "MARGIN_ONE_LIQUID",
    "MARGIN_SOURCE",
    "MIST_SOURCE",
    "Place",
    "place_of",
]

MARGIN_ONE_LIQUID = Fraction(5)
"""Margin below the flash point for one liquid that is a single substance. [K]

source id ``bgrci-exinfo-2.1``: no ignitable atmosphere is expected if the flash
point lies at least 5 K (a single liquid) or 15 K (a mixture of solvents, neither
with halogens) above the temperature of the work, **and nothing is sprayed or
splashed**.
"""

MARGIN_MIXTURE = Fraction(15)
"""Margin below the flash point for a mixture, as every oil is. [K]

source id ``bgrci-exinfo-2.1``.
"""

MARGIN_SOURCE = "bgrci-exinfo-2.1"
"""Source id of both margins."""

MIST_SOURCE = "bgbau-flammable"
"""Source id of the warning on mists and on heavy vapours.

source id ``bgbau-flammable``: vapours are heavier than air, gather near the floor
and creep to what can light them; a liquid below its flash point can be lit where a
source warms its surface; fine droplets light more easily still.
"""

Place = Literal["above", "across", "missing", "near", "enough"]
"""Where a temperature lies beside a flash point, worst first."""


def place_of(margin: Range, needed: Fraction) -> Place:
    """Say where a temperature lies beside a flash point.

    Parameters
    ----------
    margin : Range
        Flash point minus temperature; an end that nothing bounds is ``None``. [K]
    needed : Fraction
        The margin that is asked for, > 0. [K]

    Returns
    -------
    {"above", "across", "missing", "near", "enough"}
        ``"above"`` if it is at or above the flash point, ``"across"`` if the printed
        figures allow both, ``"missing"`` if an end that is needed is not there,
        ``"near"`` if it is below by less than the margin, else ``"enough"``.

    Examples
    --------
    >>> place_of(Range.at(-8), Fraction(15)), place_of(Range.at(15), Fraction(15))
    ('above', 'enough')
    """
    if margin.high is not None and margin.high <= 0:
        return "above"
    if margin.low is None:
        return "missing"
    if margin.low >= needed:
        return "enough"
    if margin.low > 0 or (margin.low == 0 and margin.low_open):
        return "near"
    return "missing" if margin.high is None else "across"


def _number(value: Fraction) -> str:
    return f"({operand(value)})" if value < 0 else operand(value)


def _show_margin(
    given: tuple[Given, ...], how: How, unknowns: Unknowns, value: Value
) -> tuple[str, ...]:
    del how
    span = value if isinstance(value, Range) else value.range(unknowns)
    flash, warm = (g.range(unknowns) for g in given)
    lines = []
    for word, result, first, second in (
        ("low end", span.low, flash.low, warm.high),
        ("high end", span.high, flash.high, warm.low),
    ):
        if result is not None and first is not None and second is not None:
            left = f"{_number(first)} - {_number(second)}"
            lines.append(equation("" if span.is_exact else word, left, result, "K"))
    return tuple(lines[:1] if span.is_exact else lines)


@rule(
    "margin below flash point",
    "margin = flash point - temperature; an open cup gives its high end only",
    "How far the temperature lies below the flash point. An open cup reads high, so "
    "it says only how far at most.",
    _show_margin,
)
def _margin(given: tuple[Given, ...], how: How, unknowns: Unknowns) -> Value:
    flash, warm = (g.range(unknowns) for g in given)
    low = high = None
    if flash.low is not None and warm.high is not None and "open cup" not in how:
        low = flash.low - warm.high
    if flash.high is not None and warm.low is not None:
        high = flash.high - warm.low
    loose = low is None or low != high
    return Range(
        low,
        high,
        loose and low is not None and (flash.low_open or warm.high_open),
        loose and high is not None and (flash.high_open or warm.low_open),
    )


@rule(
    "at least as warm",
    "temperature ≥ that of the room",
    "A heat gun warms what it is held at; how far is not known.",
    lambda given, how, unknowns, value: tuple(
        equation("low end", operand(low), low, "°C")
        for low in (given[0].range(unknowns).low,)
        if low is not None
    ),
)
def _at_least(given: tuple[Given, ...], how: How, unknowns: Unknowns) -> Value:
    del how
    room = given[0].range(unknowns)
    return Range(room.low, None, low_open=room.low is not None and room.low_open)
