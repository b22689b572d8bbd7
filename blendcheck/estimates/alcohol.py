"""How much alcohol a batch gives off: its strength by density, and grams.

Alcohol is sold by volume and weighed by mass. The two are joined by the density of
the mixture, which is read from a table; a strength that nobody entered is a range.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType
from typing import Final

import numpy as np

from blendcheck import reference
from blendcheck.blend.totals import Totals
from blendcheck.equations.arrays import FloatArray, Floats, fraction
from blendcheck.equations.dilution import volume_fraction_from_mass_fraction
from blendcheck.errors import DomainError
from blendcheck.interval import Range
from blendcheck.quantity import Amount, Base, Mark, Percent, print_estimate
from blendcheck.records.material import Material
from blendcheck.units import GRAMS_PER, MILLILITRES_PER

__all__ = [
    "ALCOHOLS",
    "Spirit",
    "Strength",
    "density_of",
    "mass_from_volume",
    "spirits",
    "strength_of",
    "unknown_alcohols",
]

ALCOHOLS: Final[Mapping[str, str]] = MappingProxyType(
    {"64-17-5": "ethanol", "67-63-0": "2-propanol"}
)
"""The alcohols that are worked out, by CAS number."""

_GRID: Final = np.linspace(0.0, 1.0, 4001)
_NEARLY_ALL: Final = 0.95  # g/g; stronger than that it is as good as without water
_KG_PER_M3: Final = 1e-3  # to g/mL


@dataclass(frozen=True, slots=True)
class Strength:
    """How much of a bottle is alcohol, by mass.

    Parameters
    ----------
    low, high : float
        Ends of the share. [g/g]
    line : str
        How it was worked out, with its figures.
    sources : tuple of str
        Source ids of the densities.
    known : bool
        Whether the maker entered it and said by volume or by weight.
    """

    low: float
    high: float
    line: str
    sources: tuple[str, ...] = ()
    known: bool = True


@dataclass(frozen=True, slots=True)
class Spirit:
    """One alcohol of a recipe, and what of it goes into the air.

    Parameters
    ----------
    cas, name : str
        Which alcohol.
    low, high : float
        Grams of alcohol, water not counted. [g]
    lines : tuple of str
        How they were worked out.
    sources : tuple of str
        Source ids.
    marks : frozenset of Mark
        Doubts.
    unknown : tuple of str
        Materials whose strength is not known, or not said by what.
    watered : bool
        Whether every bottle of it holds water for certain.
    """

    cas: str
    name: str
    low: float
    high: float
    lines: tuple[str, ...]
    sources: tuple[str, ...]
    marks: frozenset[Mark]
    unknown: tuple[str, ...]
    watered: bool = False


@cache
def _table(cas: str) -> tuple[FloatArray, FloatArray, tuple[str, ...]]:
    rows = reference.alcohol_densities_of(cas)
    if not rows:
        raise DomainError("cas", cas, "one of " + ", ".join(sorted(ALCOHOLS)))
    shares = np.array([float(row.share) for row in rows]) / 100
    values = np.array([float(row.value) for row in rows]) * _KG_PER_M3
    return shares, values, tuple(dict.fromkeys(row.source_id for row in rows))


def density_of(cas: str, share: Floats) -> FloatArray:
    """Return the density of an alcohol with water at 20 °C.

    Parameters
    ----------
    cas : str
        One of :data:`ALCOHOLS`.
    share : float or array
        Share of alcohol by mass, 0 to 1. [g/g]

    Returns
    -------
    array
        Density, interpolated between the rows of the table. [g/mL]

    Raises
    ------
    DomainError
        If the alcohol is not in the table or a share is outside 0 to 1.

    Notes
    -----
    Straight lines between the rows of source id ``lebo-1921`` and
    source id ``oiml-r22``, which lie at most 12 % apart: within 0.001 g/mL.
    Valid for: 20 °C. Departs from the source in: nothing at its rows.

    Examples
    --------
    >>> float(density_of("67-63-0", 0.628))
    0.8757
    """
    shares, values, _ = _table(cas)
    return np.interp(fraction("share", share), shares, values)


def mass_from_volume(cas: str, share: Floats) -> FloatArray:
    """Convert the strength of an alcohol from v/v to w/w at 20 °C.

    Parameters
    ----------
    cas : str
        One of :data:`ALCOHOLS`.
    share : float or array
        Share by volume, 0 to 1, counted before mixing. [mL/mL]

    Returns
    -------
    array
        Share by mass. [g/g]

    Raises
    ------
    DomainError
        If the alcohol is not in the table or a share is outside 0 to 1.

    Notes
    -----
    The share by mass whose share by volume, w ρ(w)/ρ(1), is the one given;
    source id ``usp-alcoholometric``. Valid for: 20 °C. Departs from the source in:
    the density comes from the tables of :func:`density_of`.

    Examples
    --------
    >>> float(mass_from_volume("67-63-0", 0.70))  # rubbing alcohol
    0.628
    """
    volumes = volume_fraction_from_mass_fraction(
        _GRID, density=density_of(cas, 1.0), solution_density=density_of(cas, _GRID)
    )
    return np.interp(fraction("share", share), volumes, _GRID)


# -- strength -----------------------------------------------------------------


def strength_of(material: Material) -> Strength:
    """Return how much of a bottle is alcohol.

    Parameters
    ----------
    material : Material
        A material whose CAS number is one of :data:`ALCOHOLS`.

    Returns
    -------
    Strength
        From the strength that the maker entered; without it between what leaves on
        drying and all of it. One that is not said to be by volume or by weight is
        both.
    """
    cas = material.cas or ""
    entered = material.strength
    if entered is None:
        return _from_drying(material)
    low, high = _ends(entered)
    sources = _table(cas)[2]
    if entered.basis == "w/w":
        return Strength(low, high, f"{entered.printed} is by weight")
    of_volume = mass_from_volume(cas, np.array([low, high]))
    line = (
        f"{entered.printed}, taken by volume, is "
        f"{print_estimate(100 * float(of_volume[0]), digits=3)} % by weight: "
        f"w with w × {print_estimate(float(density_of(cas, of_volume[0])), digits=3)}"
        f" ÷ {print_estimate(float(density_of(cas, 1.0)), digits=3)} g/mL = "
        f"{print_estimate(100 * low, digits=3)} %"
    )
    if entered.basis == "v/v":
        return Strength(float(of_volume[0]), float(of_volume[1]), line, sources)
    line += "; by weight if it is printed so: both are counted"
    return Strength(float(of_volume[0]), high, line, sources, known=False)


def _from_drying(material: Material) -> Strength:
    leaves = material.leaves_on_drying
    least = 0.0 if leaves is None else _ends(leaves)[0]
    if least == 1.0:
        return Strength(1.0, 1.0, f"all of {material.name} leaves on drying")
    says = "nothing is entered on how strong it is"
    if least:
        says = (
            f"what leaves on drying, {leaves.printed if leaves else ''}, is the least"
        )
    return Strength(least, 1.0, f"{material.name}: {says}", known=False)


def _ends(percent: Percent) -> tuple[float, float]:
    span = percent.range
    low = 0.0 if span.low is None else float(span.low) / 100
    return low, 1.0 if span.high is None else float(span.high) / 100


# -- grams --------------------------------------------------------------------


def spirits(totals: Totals) -> tuple[Spirit, ...]:
    """Return the alcohols of a recipe and the grams that they give off.

    Parameters
    ----------
    totals : Totals
        Totals of the recipe; its lines are the batch and its spritzes.

    Returns
    -------
    tuple of Spirit
        One for each alcohol. The high end takes all of it as gone; of a room mist,
        which keeps it, the low end is nothing. What the workroom says was used
        beside the recipe counts with the first.
    """
    found: dict[str, list[tuple[Material, Range]]] = {}
    for material, grams in _bottles(totals):
        found.setdefault(material.cas or "", []).append((material, grams))
    workroom = totals.materials.workshop.workroom
    beside = workroom.also_used
    made = []
    for n, (cas, bottles) in enumerate(found.items()):
        made.append(_spirit(cas, bottles, beside if n == 0 else None, totals))
    return tuple(made)


def unknown_alcohols(totals: Totals) -> tuple[str, ...]:
    """Name the alcohols of a recipe of which it is not known which they are."""
    return tuple(
        dict.fromkeys(
            node.material.name
            for node in totals.leaves
            if node.material is not None
            and node.material.kind == "alcohol"
            and node.material.cas not in ALCOHOLS
        )
    )


def _bottles(totals: Totals) -> Iterator[tuple[Material, Range]]:
    seen: set[str] = set()
    for node in totals.leaves:
        material = node.material
        if material is None or material.cas not in ALCOHOLS or material.id in seen:
            continue
        seen.add(material.id)
        total = totals.material(material, Base.WET)
        yield material, totals.working.range(totals.batch_grams(total))


def _spirit(
    cas: str,
    bottles: list[tuple[Material, Range]],
    beside: Amount | None,
    totals: Totals,
) -> Spirit:
    low = high = 0.0
    lines: list[str] = []
    sources: dict[str, None] = {}
    unknown: list[str] = []
    kept = totals.recipe.product == "room mist"
    for material, grams in bottles:
        strength = strength_of(material)
        least, most = _grams(grams)
        part = (0.0 if kept else least * strength.low, most * strength.high)
        low, high = low + part[0], high + part[1]
        sources.update(dict.fromkeys(strength.sources))
        if not strength.known:
            unknown.append(material.name)
        share = _span(100 * strength.low, 100 * strength.high)
        lines += [
            strength.line,
            (
                f"{material.name}: {_span(least, most)} g × {share} % ÷ 100 = "
                f"{_span(*part)} g of {ALCOHOLS[cas]}"
            ),
        ]
    if beside is not None:
        part = _beside(beside, bottles[0][0])
        low, high = low + part[0], high + part[1]
        lines.append(
            f"used beside the recipe, {beside.printed}: {_span(*part)} g of "
            f"{ALCOHOLS[cas]}"
        )
    return Spirit(
        cas,
        ALCOHOLS[cas],
        low,
        high,
        tuple(lines),
        tuple(sources),
        frozenset({Mark.ESTIMATED}),
        tuple(unknown),
        all(strength_of(material).high < _NEARLY_ALL for material, _ in bottles),
    )


def _grams(span: Range) -> tuple[float, float]:
    if span.low is None or span.high is None:
        raise DomainError("grams of alcohol", "unbounded", "bounded on both sides")
    return float(span.low), float(span.high)


def _beside(amount: Amount, material: Material) -> tuple[float, float]:
    strength = strength_of(material)
    low, high = _grams(amount.number)
    if amount.kind == "mass":
        scale = float(GRAMS_PER[amount.unit])
        return low * scale * strength.low, high * scale * strength.high
    scale = float(MILLILITRES_PER[amount.unit])
    cas = material.cas or ""
    ends = np.array([strength.low, strength.high])
    weak, strong = (float(x) for x in ends * density_of(cas, ends))
    return low * scale * weak, high * scale * strong


def _span(low: float, high: float) -> str:
    first, last = print_estimate(low, digits=3), print_estimate(high, digits=3)
    return first if first == last else f"{first} to {last}"
