"""Classes of a mixture by the published additivity rules, each opened to its sum.

``model`` says what goes in and what comes out; ``sums`` adds shares, low to high;
``skin``, ``single``, ``summed``, ``acute`` and ``liquid`` are the rules; ``engine``
applies them all; ``mixtures`` makes mixtures of a recipe and its papers; ``labels``
makes the elements of a label. Everything is exact. No class here decides a limit.
"""

from blendcheck.estimates.classes.engine import WITHOUT_SUM, classify
from blendcheck.estimates.classes.model import (
    EU,
    UN,
    US,
    Claim,
    Classes,
    Classified,
    Ingredient,
    Mixture,
    Part,
    Profile,
    Scheme,
    Standing,
)

__all__ = [
    "EU",
    "UN",
    "US",
    "WITHOUT_SUM",
    "Claim",
    "Classes",
    "Classified",
    "Ingredient",
    "Mixture",
    "Part",
    "Profile",
    "Scheme",
    "Standing",
    "classify",
]
