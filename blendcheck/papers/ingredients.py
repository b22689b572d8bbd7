"""What stands in the list of ingredients, and in which order.

The order is by weight as it is put in, as Regulation (EC) 1223/2009, Article 19(1)(g)
asks ("in descending order of weight ... at the time they are added"); what is not in
the finished product is no ingredient (the same place, i and ii).
"""

from dataclasses import dataclass
from itertools import pairwise

from blendcheck.blend.totals import Totals
from blendcheck.interval import Range
from blendcheck.quantity import Base
from blendcheck.records.material import Material

__all__ = ["Ingredient", "IngredientList", "ingredient_list"]


@dataclass(frozen=True, slots=True)
class Ingredient:
    """One material of the list.

    Parameters
    ----------
    material : Material
        What it is; several lots of it are one ingredient.
    put_in : Range
        Its share of the wet mix. [%]
    """

    material: Material
    put_in: Range

    @property
    def name(self) -> str:
        """The INCI name with the common one behind it, where they differ."""
        inci, name = self.material.inci, self.material.name
        if not inci:
            return name
        return inci if inci.casefold() == name.casefold() else f"{inci} ({name})"


@dataclass(frozen=True, slots=True)
class IngredientList:
    """The list, with what must be said about it.

    Parameters
    ----------
    listed : tuple of Ingredient
        In the order of the list.
    gone : tuple of str
        Materials that leave wholly on drying.
    order_open : tuple of str
        Neighbours of which it is not settled which weighs more.
    without_inci : tuple of str
        Materials for which no INCI name is entered.
    """

    listed: tuple[Ingredient, ...]
    gone: tuple[str, ...]
    order_open: tuple[str, ...]
    without_inci: tuple[str, ...]


def ingredient_list(totals: Totals, *, small_last: bool = False) -> IngredientList:
    """List what is in the finished piece, the heaviest first.

    Parameters
    ----------
    totals : Totals
        The totals.
    small_last : bool, default False
        Whether what makes up at most 1 % comes last, by the alphabet.

    Returns
    -------
    IngredientList
        Materials, stock blends and dilutions opened.
    """
    materials = {
        node.material.id: node.material
        for node in totals.leaves
        if node.material is not None
    }
    listed: list[Ingredient] = []
    gone: list[str] = []
    for material in materials.values():
        left = totals.working.range(totals.material(material).most)
        put_in = totals.working.range(totals.material(material, Base.WET).span)
        if left.high == 0:
            gone.append(material.name)
        else:
            listed.append(Ingredient(material, put_in))
    listed.sort(key=_heaviest_first)
    if small_last:
        large = [one for one in listed if not _is_small(one.put_in)]
        small = [one for one in listed if _is_small(one.put_in)]
        ordered, listed = large, large + sorted(small, key=_by_alphabet)
    else:
        ordered = listed
    return IngredientList(
        tuple(listed),
        tuple(gone),
        _not_settled(ordered),
        tuple(one.material.name for one in listed if not one.material.inci),
    )


def _heaviest_first(one: Ingredient) -> tuple[bool, object, object]:
    """Order by the high end, then by the low end; what nothing bounds comes first."""
    low, high = one.put_in.low, one.put_in.high
    return (high is not None, -(high or 0), -(low or 0))


def _by_alphabet(one: Ingredient) -> str:
    return one.name.casefold()


def _is_small(span: Range) -> bool:
    return span.high is not None and span.high <= 1


def _not_settled(ordered: list[Ingredient]) -> tuple[str, ...]:
    names: dict[str, None] = {}
    for first, second in pairwise(ordered):
        high = second.put_in.high
        low = first.put_in.low
        both_exact = first.put_in.is_exact and second.put_in.is_exact
        if both_exact or (low is not None and high is not None and low >= high):
            continue
        names.setdefault(first.material.name)
        names.setdefault(second.material.name)
    return tuple(names)
