"""Which of two recipes loads the air less with what is marked as irritating.

Recipes are compared by the difference of their linear forms before anything is closed,
so that a lot which is in both cancels. An order is stated only where grams released in
full and the whole range of the estimate with transfer agree at every setting shown;
else the reason stands in its place.
"""

from blendcheck.ranking.names import told_apart
from blendcheck.ranking.order import Pair, Ranking, rank
from blendcheck.ranking.strength import EqualStrength, at_equal_strength

__all__ = [
    "EqualStrength",
    "Pair",
    "Ranking",
    "at_equal_strength",
    "rank",
    "told_apart",
]
