"""Words that make one think of food: a child may take the piece for it.

Directive 87/357/EEC speaks of goods that may be taken for food by their shape, smell,
colour, wrapping or size; the same rule stands in Regulation (EU) 2023/988. The words
are common practice: shapes that were called back, and sweet scents.
"""

from collections.abc import Iterator

from blendcheck.checks.case import Case
from blendcheck.checks.entries import used
from blendcheck.checks.spoken import places, words_of

__all__ = ["FOODS", "SOURCE", "food_words"]

SOURCE = "food-imitation"
"""Source id ``food-imitation``."""

_LISTED = (
    "apple|banana|biscuit|biscuits|blueberry|bonbon|bonbons|bubblegum|bubble gum|"
    "bun|buns|cake|cakes|candy|candies|candyfloss|candy cane|caramel|cherry|"
    "chocolate|chocolates|cookie|cookies|cupcake|cupcakes|custard|donut|donuts|"
    "doughnut|doughnuts|fruit salad|fudge|gingerbread|gummy|gummies|honeycomb|"
    "ice cream|ice lolly|icing|jam|jelly|lollipop|lollipops|lolly|macaron|"
    "macarons|macaroon|mango|marshmallow|marshmallows|milkshake|mince pie|muffin|"
    "muffins|pancake|pancakes|peach|pie|popcorn|praline|pralines|pudding|"
    "raspberry|sherbet|sorbet|sprinkles|strawberry|sugar plum|sweetie|sweeties|"
    "sweets|syrup|tart|toffee|truffle|truffles|vanilla|waffle|waffles|watermelon"
)

FOODS: tuple[str, ...] = tuple(_LISTED.split("|"))
"""Names of food, in lower case."""


def food_words(case: Case) -> tuple[str, ...]:
    """Return the words for food in a recipe, as they are written.

    Parameters
    ----------
    case : Case
        The case: its name, remark and paper texts, its stock blends and the names of
        its fragrance oils. An essential oil is called by its plant, so its name is
        left alone.
    """
    found: dict[str, None] = {}
    for text in _texts(case):
        words = words_of(text)
        plain = {word.plain for word in words}
        for food in FOODS:
            phrase = food.split()
            if not plain.issuperset(phrase):
                continue
            for start, end in places(words, phrase):
                found.setdefault(text[words[start].start : words[end - 1].end])
    return tuple(found)


def _texts(case: Case) -> Iterator[str]:
    recipe = case.recipe
    yield from (recipe.name, recipe.remark, recipe.papers.title, recipe.papers.message)
    yield from (stock.name or stock.id for stock in recipe.stock)
    for material in used(case.totals).values():
        if material.kind == "fragrance oil":
            yield material.name
