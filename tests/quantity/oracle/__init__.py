"""A second, slow reader that finds every meaning a text could have.

Written apart from the package's readers and on another plan: it cuts a text at every
place where it could be cut and looks at all the combinations, with
:mod:`decimal` for the digits and word lists of its own. Its answer is a *set*. A
reader may accept a text only if that set holds exactly one meaning, and must then
give that one. An empty set means "no sense at all", two members mean "ask".
"""

from tests.quantity.meanings import Meaning
from tests.quantity.oracle.caps import caps
from tests.quantity.oracle.dates import dates
from tests.quantity.oracle.densities import densities
from tests.quantity.oracle.shares import amounts, percents
from tests.quantity.oracle.temperatures import temperatures
from tests.quantity.oracle.text import UNSURE

ORACLES = {
    "amount": amounts,
    "percent": percents,
    "temperature": temperatures,
    "cap": caps,
    "density": densities,
    "date": dates,
}


def is_sure(found: set[Meaning]) -> bool:
    """Say whether a text has one meaning, and no number that is likely a slip."""
    return len(found) == 1 and not any(
        part == UNSURE for meaning in found for part in meaning
    )
