"""The masses of a recipe whose lines depend on its own totals.

"2 % of the total" needs the total, which needs the 2 %. All such lines are linear
in five numbers: the finished mass, the powders, the soaping oils, the wet mix and
the grams of one part. The five equations are solved exactly; what is unknown
(a drop, a density) stays in the right-hand side as a linear form.
"""

from collections.abc import Sequence
from fractions import Fraction
from typing import Literal, NamedTuple

from blendcheck.errors import RecipeError
from blendcheck.records.mass import NOTHING, Mass

__all__ = ["TOTALS", "LineKind", "LineRule", "Total", "solve_total", "solve_totals"]

Total = Literal["finished", "powders", "soaping oils", "wet mix", "one part"]
TOTALS: tuple[Total, ...] = (
    "finished",
    "powders",
    "soaping oils",
    "wet mix",
    "one part",
)

LineKind = Literal[
    "fixed",
    "of finished",
    "on top",
    "of powders",
    "of soaping oils",
    "of wet mix",
    "parts",
]


class LineRule(NamedTuple):
    """How one line gets its grams.

    Parameters
    ----------
    kind : str
        ``fixed`` grams, a percent ``of`` a total, a load ``on top`` of the rest,
        or ``parts``.
    mass : Mass
        Grams of a fixed line. [g]
    number : Fraction
        Percent or parts of the other kinds.
    stays, powder, oil : Fraction
        Share of the line that is left when all that can leave has left, that is
        powder, and that is soaping oil. [1]
    """

    kind: LineKind
    mass: Mass
    number: Fraction
    stays: Fraction
    powder: Fraction
    oil: Fraction

    def slope(self) -> tuple[Fraction, Fraction, Fraction, Fraction, Fraction]:
        """Grams of the line for each unit of the five totals."""
        zero = Fraction(0)
        number = self.number
        where: dict[str, tuple[int, Fraction]] = {
            "of finished": (0, number / 100),
            "on top": (0, number / (100 + number)),
            "of powders": (1, number / 100),
            "of soaping oils": (2, number / 100),
            "of wet mix": (3, number / 100),
            "parts": (4, number),
        }
        row = [zero] * 5
        if self.kind in where:
            index, value = where[self.kind]
            row[index] = value
        return row[0], row[1], row[2], row[3], row[4]

    def weights(self) -> tuple[Fraction, Fraction, Fraction, Fraction]:
        """How much one gram of the line adds to the first four totals."""
        return self.stays, self.powder, self.oil, Fraction(1)


def solve_totals(lines: Sequence[LineRule], target: Mass | None) -> dict[Total, Mass]:
    """Solve for the five totals.

    Parameters
    ----------
    lines : sequence of LineRule
        Every line of the recipe.
    target : Mass or None
        Finished mass to make; needed when lines are in parts, or when none is
        in grams. [g]

    Returns
    -------
    dict
        Each total as a linear form in the unknowns. [g]

    Raises
    ------
    RecipeError
        If the lines leave no room for one another, or a target is missing.

    Notes
    -----
    Mass balance, solved by elimination in exact rationals. With lines in parts
    the finished mass is the target and one part is what is left for it.
    """
    parts = any(line.kind == "parts" for line in lines)
    fixed = any(line.kind == "fixed" for line in lines)
    if (parts or not fixed) and target is None:
        raise RecipeError(
            "the lines are in parts or percent, so the mass to make is needed: "
            "give pieces and piece_mass"
        )
    if fixed and all(line.kind == "fixed" for line in lines):
        return {name: _added(lines, name) for name in TOTALS}
    rows, right = _equations(lines)
    if parts:
        rows[4], right[4] = [Fraction(int(i == 0)) for i in range(5)], target or NOTHING
    else:
        rows[4], right[4] = [Fraction(int(i == 4)) for i in range(5)], NOTHING
        if not fixed:
            _must_fill(rows[0])
            rows[0] = [Fraction(int(i == 0)) for i in range(5)]
            right[0] = target or NOTHING
    return dict(zip(TOTALS, _eliminate(rows, right), strict=True))


def solve_total(lines: Sequence[LineRule], target: Mass | None, name: Total) -> Mass:
    """Solve for one of the five totals.

    Parameters
    ----------
    lines, target
        As in :func:`solve_totals`.
    name : str
        Which one.

    Returns
    -------
    Mass
        The total as a linear form in the unknowns. [g]

    Raises
    ------
    RecipeError
        As :func:`solve_totals`.
    """
    if lines and all(line.kind == "fixed" for line in lines):
        return _added(lines, name)
    return solve_totals(lines, target)[name]


def _added(lines: Sequence[LineRule], name: Total) -> Mass:
    """Add up one total of lines that are all in grams; none of them is a part."""
    if name == "one part":
        return NOTHING
    at = TOTALS.index(name)
    return Mass.total(line.mass.times(line.weights()[at]) for line in lines)


def _equations(
    lines: Sequence[LineRule],
) -> tuple[list[list[Fraction]], list[Mass]]:
    """Total minus what the sloped lines add = what the fixed lines add."""
    rows = [[Fraction(int(i == j)) for j in range(5)] for i in range(5)]
    right = [NOTHING] * 5
    for line in lines:
        slope, weights = line.slope(), line.weights()
        for i, weight in enumerate(weights):
            if not weight:
                continue
            right[i] = right[i] + line.mass.times(weight)
            for j in range(5):
                rows[i][j] -= weight * slope[j]
    return rows, right


def _must_fill(row: Sequence[Fraction]) -> None:
    if row[0] != 0 and not any(row[1:4]):
        raise RecipeError(
            f"the percents add up to {float(100 - 100 * row[0]):g} % of the finished "
            "mass, not to 100 %: correct them, or give one line in grams"
        )


def _eliminate(rows: list[list[Fraction]], right: list[Mass]) -> list[Mass]:
    size = len(rows)
    for i in range(size):
        pivot = next((r for r in range(i, size) if rows[r][i] != 0), None)
        if pivot is None:
            raise RecipeError(
                "the percents leave no room for the rest of the recipe: "
                "they add up to 100 % or more before the lines in grams are counted"
            )
        rows[i], rows[pivot] = rows[pivot], rows[i]
        right[i], right[pivot] = right[pivot], right[i]
        scale = 1 / rows[i][i]
        rows[i] = [value * scale for value in rows[i]]
        right[i] = right[i].times(scale)
        for r in range(size):
            factor = rows[r][i]
            if r == i or factor == 0:
                continue
            rows[r] = [a - factor * b for a, b in zip(rows[r], rows[i], strict=True)]
            right[r] = right[r] - right[i].times(factor)
    return right
