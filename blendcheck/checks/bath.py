"""What the same piece would put into a bath, if somebody used it there.

Oil floats on water as it is. An emulsifier is never read as taking that away, so the
share of a litre is said only to show that it is not what touches the skin.
"""

from collections.abc import Iterator
from fractions import Fraction

from blendcheck.checks.case import Case
from blendcheck.interval import Range
from blendcheck.quantity import Mark, print_range
from blendcheck.records.finding import Finding, Say
from blendcheck.records.mass import Key
from blendcheck.records.working import Figure

__all__ = ["LITRES", "check"]

LITRES = "150"
"""A bath. [L] (common practice)"""

_PRODUCTS = frozenset({"shower tablet", "bath fizz", "other"})


def check(case: Case) -> Iterator[Finding]:
    """State the grams of scent in one piece beside the water of a bath.

    Parameters
    ----------
    case : Case
        The case.

    Yields
    ------
    Finding
        A fact, for a piece that may end up in a bath and whose mass is known.
    """
    if case.recipe.product not in _PRODUCTS:
        return
    load = case.totals.load()
    grams = case.totals.per_piece(load)
    if grams is None or not load.traced:
        return
    litres = case.working.add(
        Figure(Key("bath"), LITRES, Range.at(Fraction(LITRES)), "L", "water in a bath")
    )
    each = case.working.work(
        "bath/each litre",
        "divided",
        (grams, litres),
        unit="g/L",
        says="scent for each litre of a bath",
    )
    values = {
        "grams": print_range(case.working.range(grams), "g", digits=3),
        "litres": LITRES,
        "each": print_range(case.working.range(each.id), "g", digits=2),
    }
    fizz = case.recipe.product == "bath fizz"
    yield Finding(
        kind="fact",
        check="bath",
        subject="bath",
        why=Say("bath.meant" if fizz else "bath.misuse", values),
        also=(Say("bath.floats"),),
        value=each.id,
        unit="g/L",
        marks=case.working.marks(each.id) - {Mark.ABSENCE},
    )
