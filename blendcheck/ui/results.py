"""What is derived from the inputs: checks, weighing lists, comparisons.

Every run asks anew. The same result is handed out again while recipe, shelf and
day are the very same: records are frozen, so the same object means the same content.
"""

from collections import OrderedDict
from collections.abc import Callable, Hashable, Sequence
from datetime import date
from typing import Any, Final, TypeVar

from blendcheck.assess import Assessment, assess, reworded
from blendcheck.compare import Comparison, compare
from blendcheck.errors import BlendcheckError, InputError
from blendcheck.largest import Largest, largest
from blendcheck.records.material import Materials
from blendcheck.records.recipe import Recipe
from blendcheck.ui import state
from blendcheck.weighing import WeighingList, weighing_list

__all__ = [
    "assessed",
    "compared",
    "estimated",
    "labelled",
    "largest_of",
    "to_weigh",
    "trouble",
    "whole",
]

_KEEP: Final = 24
_T = TypeVar("_T")

_Entry = tuple[tuple[Any, ...], Any]
_WORDED: Final[dict[str, Assessment]] = {}
"""The last check of each kind that papers were made from."""
_RESULTS: "OrderedDict[Hashable, _Entry]" = OrderedDict()


def _once(make: Callable[..., _T], *given: Any) -> _T:  # noqa: ANN401
    """Call a function once for the same objects.

    Records are frozen, so the same object means the same content. The objects are
    held as long as the result, so that an identity is never given out twice.
    """
    key = (make.__qualname__, *(g if isinstance(g, date) else id(g) for g in given))
    found = _RESULTS.get(key)
    if found is not None:
        _RESULTS.move_to_end(key)
        made: _T = found[1]
        return made
    result = make(*given)
    _RESULTS[key] = (given, result)
    while len(_RESULTS) > _KEEP:
        _RESULTS.popitem(last=False)
    return result


def assessed(recipe: Recipe) -> Assessment:
    """Check a recipe with the shelf and the day of the page.

    Parameters
    ----------
    recipe : Recipe
        The recipe.

    Returns
    -------
    Assessment
        The result.

    Raises
    ------
    BlendcheckError
        If it cannot be weighed with what is on the shelf.
    """
    return _once(assess, recipe, state.shelf().materials, state.on_day())


def estimated(recipe: Recipe) -> Assessment:
    """Check a recipe and estimate the blend's flash point and what is in the air.

    Parameters
    ----------
    recipe : Recipe
        The recipe.
    """
    return _once(_estimated, recipe, state.shelf().materials, state.on_day())


def _estimated(recipe: Recipe, materials: Materials, on: date) -> Assessment:
    return assess(recipe, materials, on, estimates=True)


def labelled(recipe: Recipe) -> Assessment:
    """Check a recipe and work out what stands on a label.

    Parameters
    ----------
    recipe : Recipe
        The recipe.
    """
    return _once(_labelled, recipe, state.shelf().materials, state.on_day())


def _labelled(recipe: Recipe, materials: Materials, on: date) -> Assessment:
    return _but_for_words("label", recipe, materials, on, label=True)


def _but_for_words(
    what: str,
    recipe: Recipe,
    materials: Materials,
    on: date,
    **asked: bool,
) -> Assessment:
    """Check a recipe; where only the words on its papers changed, only those."""
    last = _WORDED.get(what)
    if last is not None:
        before = last.case
        same = recipe.model_copy(update={"papers": before.recipe.papers})
        if (before.materials is materials, before.on) == (True, on) and (
            same == before.recipe
        ):
            found = reworded(last, recipe)
            _WORDED[what] = found
            return found
    found = _WORDED[what] = assess(recipe, materials, on, **asked)
    return found


def whole(recipe: Recipe) -> Assessment:
    """Check a recipe with estimates and with what stands on a label.

    Parameters
    ----------
    recipe : Recipe
        The recipe.
    """
    return _once(_whole, recipe, state.shelf().materials, state.on_day())


def _whole(recipe: Recipe, materials: Materials, on: date) -> Assessment:
    return _but_for_words("all", recipe, materials, on, estimates=True, label=True)


def to_weigh(assessment: Assessment) -> WeighingList:
    """Return the weighing list of a result.

    Parameters
    ----------
    assessment : Assessment
        The result.
    """
    return _once(weighing_list, assessment)


def largest_of(assessment: Assessment) -> tuple[Largest, ...]:
    """Return the largest amounts of a result.

    Parameters
    ----------
    assessment : Assessment
        The result.
    """
    return _once(largest, assessment)


def compared(keys: Sequence[str]) -> Comparison:
    """Put recipes side by side.

    Parameters
    ----------
    keys : sequence of str
        Two to eight ids of recipes on the page.

    Returns
    -------
    Comparison
        Without an order.

    Raises
    ------
    BlendcheckError
        If one of them cannot be checked.
    """
    found = []
    for key in keys:
        kept = state.recipes()[key]
        if kept.good is None:
            raise InputError(
                f'"{kept.name}" cannot be checked yet',
                "the Recipe page says what to correct",
            )
        found.append(assessed(kept.good))
    return _once(_side_by_side, *found)


def _side_by_side(*found: Assessment) -> Comparison:
    return compare(found)


def trouble(recipe: Recipe) -> BlendcheckError | None:
    """Say why a recipe cannot be checked, if so.

    Parameters
    ----------
    recipe : Recipe
        The recipe.
    """
    try:
        assessed(recipe)
    except BlendcheckError as error:
        return error
    return None
