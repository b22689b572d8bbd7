"""The powders that fizz: bicarbonate and acids by CAS number, and what may be one.

Nothing is worked out for other acids and carbonates, nor for a powder without a number:
they are named, so that no figure is taken for the whole.
"""

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Final

from blendcheck.blend.totals import Totals
from blendcheck.records.material import Material

__all__ = [
    "ACID_OF",
    "BICARBONATES",
    "NOT_RECKONED",
    "not_reckoned",
    "not_told",
    "powders_of",
]

BICARBONATES: Final = frozenset({"144-55-8"})
"""CAS number of sodium bicarbonate."""

ACID_OF: Final[Mapping[str, str]] = MappingProxyType(
    {
        "77-92-9": "citric acid",
        "5949-29-1": "citric acid monohydrate",
        "868-14-4": "cream of tartar",
        "87-69-4": "tartaric acid",
        "133-37-9": "tartaric acid",
        "147-71-7": "tartaric acid",
        "526-83-0": "tartaric acid",
        "6915-15-7": "malic acid",
        "617-48-1": "malic acid",
        "97-67-6": "malic acid",
        "636-61-3": "malic acid",
    }
)
"""Name in :data:`~blendcheck.equations.fizz.ACIDS` by CAS number, isomers included."""

NOT_RECKONED: Final = frozenset(
    {
        "298-14-6",  # potassium bicarbonate
        "1066-33-7",  # ammonium bicarbonate
        "497-19-8",  # sodium carbonate
        "533-96-0",  # sodium sesquicarbonate
        "584-08-7",  # potassium carbonate
        "471-34-1",  # calcium carbonate
        "546-93-0",  # magnesium carbonate
        "50-81-7",  # ascorbic acid
        "110-17-8",  # fumaric acid
        "124-04-9",  # adipic acid
        "50-21-5",  # lactic acid
        "79-33-4",
        "110-15-6",  # succinic acid
        "144-62-7",  # oxalic acid
        "5329-14-6",  # sulfamic acid
        "7758-16-9",  # disodium dihydrogen diphosphate
        "7558-80-7",  # sodium dihydrogen phosphate
        "7681-38-1",  # sodium hydrogen sulfate
        "18996-35-5",  # monosodium citrate
        "144-33-2",  # disodium citrate
        "90-80-2",  # gluconolactone
        "64-19-7",  # acetic acid
    }
)
"""CAS numbers of other acids and carbonates, of which nothing is worked out; common
practice."""


def powders_of(
    totals: Totals,
) -> tuple[tuple[Material, ...], Mapping[str, tuple[Material, ...]]]:
    """Return bicarbonates, and acids by their name in the equations.

    Parameters
    ----------
    totals : Totals
        Totals of a recipe.
    """
    bases: dict[str, Material] = {}
    acids: dict[str, dict[str, Material]] = {}
    for node in totals.leaves:
        material = node.material
        if material is None or not totals.is_own(node):
            continue
        if material.cas in BICARBONATES:
            bases[material.id] = material
        elif material.cas is not None and material.cas in ACID_OF:
            acids.setdefault(ACID_OF[material.cas], {})[material.id] = material
    return (
        tuple(bases.values()),
        {name: tuple(found.values()) for name, found in acids.items()},
    )


def not_told(totals: Totals) -> tuple[str, ...]:
    """Name the powders without a CAS number.

    Parameters
    ----------
    totals : Totals
        Totals of a recipe.
    """
    return _names(totals, lambda one: one.kind == "solid" and one.cas is None)


def not_reckoned(totals: Totals) -> tuple[str, ...]:
    """Name the acids and carbonates of which nothing is worked out.

    Parameters
    ----------
    totals : Totals
        Totals of a recipe.
    """
    return _names(totals, lambda one: one.cas in NOT_RECKONED)


def _names(totals: Totals, wanted: Callable[[Material], bool]) -> tuple[str, ...]:
    return tuple(
        dict.fromkeys(
            node.material.name
            for node in totals.leaves
            if node.material is not None and wanted(node.material)
        )
    )
