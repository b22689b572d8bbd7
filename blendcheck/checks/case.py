"""What every check is handed."""

from collections.abc import Callable
from datetime import date

from blendcheck.blend.totals import Totals
from blendcheck.frozen import Frozen
from blendcheck.records.material import Materials
from blendcheck.records.recipe import Recipe
from blendcheck.records.working import Working

__all__ = ["Case", "Watch"]


class Watch(Frozen):
    """A substance or an oil that calls for a usual caution.

    Parameters
    ----------
    reason : str
        Code of the caution in the table of words.
    source : str
        Source id of the reason.
    tag : str
        ``"seen"`` or ``"memory"``.
    """

    reason: str
    source: str
    tag: str


class Case(Frozen):
    """One recipe with everything that a check may look at.

    Parameters
    ----------
    recipe, materials : Recipe, Materials
        What was written.
    totals : Totals
        Masses and percents, each worked out when it is asked for.
    working : Working
        Figures and steps.
    on : date
        The day for which it is checked.
    watch : callable
        Cautions that go with a CAS number or with the name of an oil.
    """

    recipe: Recipe
    materials: Materials
    totals: Totals
    working: Working
    on: date
    watch: Callable[[str], tuple[Watch, ...]] = lambda _: ()
