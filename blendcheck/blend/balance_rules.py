"""The rule that solves the mass balance of a recipe."""

from collections.abc import Sequence
from fractions import Fraction
from functools import lru_cache

from blendcheck.blend.closing import (
    share_end,
)
from blendcheck.blend.printed import (
    ends,
    equation,
    extreme,
    lows,
    masses_of,
    operand,
)
from blendcheck.blend.solve import TOTALS, LineRule, solve_total, solve_totals
from blendcheck.records.mass import NOTHING, Corner, Mass, Unknowns
from blendcheck.records.working import Given, How, Value, rule

__all__ = ["line_how"]


# -- the recipe's own totals -----------------------------------------------


def line_how(line: LineRule) -> str:
    """Write a line rule as text, so that a step can keep it."""
    return "|".join((line.kind, *(str(x) for x in (line.stays, line.powder, line.oil))))


@lru_cache(maxsize=256)
def _read_how(how: str) -> tuple[str, Fraction, Fraction, Fraction]:
    kind, stays, powder, oil = how.split("|")
    return kind, Fraction(stays), Fraction(powder), Fraction(oil)


def _line_rule(given: Given, how: str) -> LineRule:
    kind, stays, powder, oil = _read_how(how)
    mass = given.mass
    fixed = kind == "fixed"
    return LineRule(
        kind,  # type: ignore[arg-type]  # written by line_how
        mass if fixed else NOTHING,
        Fraction(0) if fixed else mass.fixed,
        stays,
        powder,
        oil,
    )


def _rules_of(given: tuple[Given, ...], how: How) -> tuple[list[LineRule], Mass | None]:
    count = len(how) - 1
    target = given[count].mass if len(given) > count else None
    return [_line_rule(g, h) for g, h in zip(given, how[1:], strict=False)], target


def _show_total(
    given: tuple[Given, ...], how: How, unknowns: Unknowns, value: Value
) -> tuple[str, ...]:
    """Show the balance with the solved numbers in it."""
    mass = value if isinstance(value, Mass) else Mass(share_end(value, "low"))
    lines, target = _rules_of(given, how)
    totals = solve_totals(lines, target)
    shown = []
    for end, word in ends(mass.range(unknowns)):
        corner = {
            **{
                k: share_end(unknowns[k], "low")
                for t in totals.values()
                for k in t.counts
            },
            **lows(masses_of(given[: len(lines)]), unknowns),
            **extreme(mass, unknowns, end),
        }
        at = [totals[name].at(corner) for name in TOTALS]
        left = _balance(lines, at, corner, how[0])
        shown.append(equation(word, left, mass.at(corner), "g"))
    return tuple(shown)


def _balance(
    lines: Sequence[LineRule], at: Sequence[Fraction], corner: Corner, name: str
) -> str:
    grams = [
        line.mass.at(corner)
        + sum((s * t for s, t in zip(line.slope(), at, strict=True)), Fraction(0))
        for line in lines
    ]
    if name == "one part":
        others = [
            operand(g * line.stays)
            for g, line in zip(grams, lines, strict=True)
            if line.kind != "parts" and g * line.stays
        ]
        parts = [
            operand(line.number * line.stays) for line in lines if line.kind == "parts"
        ]
        rest = " - ".join([operand(at[0]), *others])
        return f"({rest}) ÷ ({' + '.join(parts)})"
    index = TOTALS.index(name)
    terms = [
        operand(g * line.weights()[index])
        for g, line in zip(grams, lines, strict=True)
        if g * line.weights()[index]
    ]
    return " + ".join(terms) or "0"


@rule(
    "total of the recipe",
    "total = Σ lines, each line in grams, parts or a percent of a total",
    "The mass balance of the recipe, solved for one of its totals.",
    _show_total,
)
def _total(given: tuple[Given, ...], how: How, unknowns: Unknowns) -> Value:
    del unknowns
    lines, target = _rules_of(given, how)
    return solve_total(lines, target, how[0])  # type: ignore[arg-type]
