"""Words that make one think of food: a child may take the piece for it.

Directive 87/357/EEC speaks of goods that may be taken for food by their shape, smell,
colour, wrapping or size; the same rule stands in Regulation (EU) 2023/988. The words
are common practice: shapes that were called back, and sweet scents.
"""

from collections.abc import Iterator

from blendcheck.checks.case import Case
from blendcheck.checks.entries import used
from blendcheck.checks.spoken import places, words_of
from blendcheck.records.snapshot import materials_used

__all__ = ["FOODS", "SOURCE", "food_words"]

SOURCE = "food-imitation"
"""Source id ``food-imitation``."""

_LISTED = (
    "apple|apple crumble|apples|banana|bananas|biscuit|biscuits|blueberries|"
    "blueberry|bonbon|bonbons|brownie|brownies|bubble gum|bubblegum|bun|buns|"
    "butterscotch|cake|cakes|candies|candy|candy cane|candyfloss|caramel|"
    "caramels|cheesecake|cheesecakes|cherries|cherry|chocolate|chocolates|"
    "cinnamon bun|cinnamon roll|cinnamon rolls|cocoa|coconut ice|cola|cookie|"
    "cookies|croissant|croissants|cupcake|cupcakes|custard|dessert|desserts|"
    "donut|donuts|doughnut|doughnuts|easter egg|easter eggs|eclair|eclairs|"
    "fondant|frosting|fruit crumble|fruit drops|fruit salad|fudge|gingerbread|"
    "grape|grapes|gumdrop|gumdrops|gummies|gummy|honeycomb|humbug|humbugs|"
    "ice cream|ice lolly|icing|jam|jellies|jelly|lemon drop|lemon drops|"
    "lemonade|lollipop|lollipops|lolly|macaron|macarons|macaroon|mango|"
    "marshmallow|marshmallows|marzipan|melon|milkshake|mince pie|mince pies|"
    "muffin|muffins|nougat|pancake|pancakes|pastille|pastilles|peach|peaches|"
    "pear|pear drop|pear drops|pears|pie|pies|pineapple|popcorn|popsicle|"
    "popsicles|praline|pralines|pudding|puddings|raspberries|raspberry|rhubarb|"
    "scone|scones|sherbet|snack|snacks|sorbet|sprinkles|strawberries|"
    "strawberry|sugar cube|sugar cubes|sugar plum|sundae|sweetie|sweeties|"
    "sweets|swiss roll|syrup|tart|tarts|toffee|treacle|trifles|truffle|"
    "truffles|vanilla|waffle|waffles|watermelon"
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
    shelf = materials_used(recipe, case.materials)
    yield from (stock.name or stock.id for stock in (*recipe.stock, *shelf.stock))
    for material in used(case.totals).values():
        if material.kind == "fragrance oil":
            yield material.name
