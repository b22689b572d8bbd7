"""The same recipe with every line in grams, so that amounts can be varied."""

from collections.abc import Mapping
from fractions import Fraction

from blendcheck.blend.totals import Totals
from blendcheck.errors import RecipeError
from blendcheck.interval import Range
from blendcheck.quantity import Amount, exact_text
from blendcheck.records.material import Stock, StockLine
from blendcheck.records.recipe import Blend, Line, Recipe

__all__ = ["BLEND_AS_LINE", "grams_amount", "in_grams", "line_at"]

BLEND_AS_LINE = "blend, weighed"
"""Id of the stock blend that stands for a blend which was written with a load."""


def grams_amount(grams: Fraction) -> Amount:
    """Return an exact mass as an amount.

    Parameters
    ----------
    grams : Fraction
        The mass, >= 0. [g]
    """
    return Amount(f"{exact_text(grams)} g", "mass", Range.at(grams), "g")


def in_grams(totals: Totals, instead: Mapping[str, Fraction] | None = None) -> Recipe:
    """Return the recipe of some totals with its lines in grams.

    Parameters
    ----------
    totals : Totals
        Totals of the recipe.
    instead : mapping of str to Fraction, optional
        Other grams for some lines, by their place (``line[2]``, ``blend``); 0
        leaves the line out. [g]

    Returns
    -------
    Recipe
        An equal recipe; lines that were counted or measured keep their amount.

    Raises
    ------
    RecipeError
        If a line depends on the total of a recipe with something uncounted in it,
        or if nothing would be left.
    """
    recipe, working = totals.recipe, totals.working
    lines: dict[str, tuple[Line | StockLine, Amount]] = {}
    for mass in totals.expansion.lines:
        line = line_at(recipe, mass.where)
        grams = working.range(mass.grams)
        if instead is not None and mass.where in instead:
            if instead[mass.where] > 0:
                lines[mass.where] = line, grams_amount(instead[mass.where])
        elif grams.is_exact and grams.low is not None:
            if grams.low > 0:
                lines[mass.where] = line, grams_amount(grams.low)
        elif line.amount.kind in ("parts", "percent") or mass.where == "blend":
            raise RecipeError(
                f"{mass.where} depends on lines that are not weighed (drops, volumes): "
                "weigh those first"
            )
        else:
            lines[mass.where] = line, line.amount
    return _rebuilt(recipe, lines)


def line_at(recipe: Recipe, where: str) -> Line | StockLine:
    """Return the line at a place of a recipe.

    Parameters
    ----------
    recipe : Recipe
        The recipe.
    where : str
        ``line[2]``, ``blend.line[1]``, or ``blend`` for a blend with a load.
    """
    if where == "blend":
        return Line(stock=BLEND_AS_LINE, amount=grams_amount(Fraction(1)))
    place, number = where.removesuffix("]").split("[")
    if place == "line":
        return recipe.line[int(number) - 1]
    if recipe.blend is None:
        raise RecipeError(f"there is no {where}")
    return recipe.blend.line[int(number) - 1]


def _rebuilt(
    recipe: Recipe, lines: Mapping[str, tuple[Line | StockLine, Amount]]
) -> Recipe:
    base = [
        line.model_copy(update={"amount": amount})
        for where, (line, amount) in lines.items()
        if not where.startswith("blend.")
    ]
    scent = tuple(
        line.model_copy(update={"amount": amount})
        for where, (line, amount) in lines.items()
        if where.startswith("blend.")
    )
    stocks = recipe.stock
    if recipe.blend is not None and recipe.blend.load is not None:
        stocks = (*stocks, Stock(id=BLEND_AS_LINE, line=recipe.blend.line))
    if not base and not scent:
        raise RecipeError("nothing is left in the recipe")
    return recipe.model_copy(
        update={
            "line": tuple(base),
            "blend": Blend(line=scent) if scent else None,
            "stock": stocks,
        }
    )
