"""What a constituent brings to a flash point: groups, pressure and its own figure.

The flash point of a constituent alone is chosen once, by a rule, before anything is
compared: its own tabled figures in their order of preference, regressed ones only for
hydrocarbons, esters, carbonyls and ethers; then those of an isomer under the same
name; then the small table of further points, most of which are from memory. A
constituent that lacks groups, a pressure or a figure of its own is not guessed at.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from math import inf
from types import MappingProxyType
from typing import Final, Literal

import numpy as np

from blendcheck import reference
from blendcheck.equations.activity import ModifiedUnifac, uncovered_pairs
from blendcheck.errors import DomainError
from blendcheck.estimates.points import alike
from blendcheck.estimates.pressures import (
    LiquidCurve,
    TabledCurve,
    curve_of,
    tabled_curve,
)
from blendcheck.reference.figures import Datum

__all__ = [
    "ALPHA_PINENE",
    "CINEOLE",
    "RECALLED_K",
    "WATER",
    "Lack",
    "Part",
    "Unmixable",
    "activity_of",
    "bracket_of",
    "flash_figure",
    "part_of",
    "unmixable",
]

WATER: Final = "7732-18-5"
RECALLED_K: Final = 10.0
"""By how much a flash point from memory is taken lower at the low end. [K] Own
choice: figures for one substance in our tables lie up to 10 K apart."""

ALPHA_PINENE: Final = "80-56-8"
"""Light end for what is not listed, or is a hydrocarbon with ten carbon atoms."""

CINEOLE: Final = "470-82-6"
"""Light end for what holds oxygen, or fifteen carbon atoms: 1,8-cineole."""

Lack = Literal[
    "no structural groups",
    "no flash point of its own",
    "no vapour pressure",
    "not in the tables",
]
_REGRESSED = "serat-2017"
_REGRESSED_FAIL = frozenset({"alcohol", "phenol", "carboxylic acid"})
_SMALLEST = 10  # carbon atoms
_SOLVENTS: Final[Mapping[str, frozenset[str]]] = MappingProxyType(
    {
        "110-54-3": frozenset({"hexane", "n-hexane", "hexanes"}),
        "142-82-5": frozenset({"heptane", "n-heptane"}),
        "109-66-0": frozenset({"pentane", "n-pentane"}),
        "110-82-7": frozenset({"cyclohexane"}),
        "8032-32-4": frozenset({"petroleum ether", "light petroleum"}),
        "67-56-1": frozenset({"methanol", "methyl alcohol"}),
        "60-29-7": frozenset({"diethyl ether", "ether"}),
        "115-10-6": frozenset({"dimethyl ether"}),
        "79-20-9": frozenset({"methyl acetate"}),
        "78-93-3": frozenset({"butanone", "2-butanone", "ethyl methyl ketone"}),
        "106-97-8": frozenset({"butane", "n-butane"}),
        "74-98-6": frozenset({"propane"}),
        "108-88-3": frozenset({"toluene"}),
    }
)
"""Solvents of Directive 2009/32/EC and like ones that our tables lack, from memory."""

_SOLVENT_NAMES: Final = frozenset().union(*_SOLVENTS.values())


@dataclass(frozen=True, slots=True, eq=False)
class Part:
    """A constituent of which all is known that a flash point needs.

    Parameters
    ----------
    cas, name : str
        Who it is.
    molar_mass : float
        Molar mass. [g/mol]
    flash : float
        Closed-cup flash point alone, infinite for water. [K]
    flash_low : float
        What is taken at the low end of a blend. [K]
    figure : Datum or None
        Where the flash point comes from.
    curve : LiquidCurve
        Vapour pressure. [K to Pa]
    table : TabledCurve
        The same from a table.
    groups : mapping of str to int
        Structural groups by their number.
    """

    cas: str
    name: str
    molar_mass: float
    flash: float
    flash_low: float
    figure: Datum | None
    curve: LiquidCurve
    table: TabledCurve
    groups: Mapping[str, int]

    @property
    def sources(self) -> tuple[str, ...]:
        """Source ids of its flash point and its pressure."""
        own = () if self.figure is None else (self.figure.source_id,)
        return (*own, *self.curve.branch.sources)

    @property
    def from_memory(self) -> bool:
        """Whether its flash point or its pressure rests on memory."""
        own = self.figure is not None and self.figure.tag == "memory"
        return own or self.curve.branch.tag == "memory"


def _may_stand(datum: Datum, cas: str) -> bool:
    """Say whether a tabled flash point may stand for the closed cup."""
    if datum.value is None or "open" in datum.conditions:
        return False
    if datum.source_id != _REGRESSED:
        return datum.tag == "seen"
    groups = reference.functional_groups_of(cas)
    return groups is not None and not _REGRESSED_FAIL & set(groups)


@cache
def flash_figure(cas: str) -> Datum | None:
    """Return the flash point that a constituent alone is taken to have.

    Parameters
    ----------
    cas : str
        A CAS number.

    Returns
    -------
    Datum or None
        In kelvins; ``None`` where nothing is known that may stand for it.

    Examples
    --------
    >>> flash_figure("64-17-5").source_id, flash_figure("123-35-3").tag
    ('iec-60079-20-1', 'memory')
    >>> flash_figure("494-90-6") is None  # menthofuran
    True
    """
    same = alike(cas)
    for one in same:
        for datum in reference.properties_of(one, "flash point"):
            if _may_stand(datum, one):
                return datum
    for one in same:
        for datum in reference.liquid_points_of(one, "flash point"):
            if datum.value is not None:
                return datum
    return None


@cache
def _assigned() -> Mapping[str, Mapping[str, int]]:
    found: dict[str, dict[str, int]] = {}
    for row in reference.rows_of(reference.UnifacAssignment):
        found.setdefault(row.cas, {})[row.group_number] = int(row.count)
    return MappingProxyType(found)


def _groups(cas: str) -> Mapping[str, int] | None:
    return next((_assigned()[one] for one in alike(cas) if one in _assigned()), None)


@cache
def part_of(cas: str) -> Part | Lack:
    """Return what a constituent brings, or what is missing of it.

    Parameters
    ----------
    cas : str
        A CAS number.

    Returns
    -------
    Part or str
        The part, or the first thing that it lacks.

    Examples
    --------
    >>> part_of("494-90-6"), part_of("89-81-6")  # menthofuran, piperitone
    ('no structural groups', 'no structural groups')
    """
    row = reference.constituents().get(cas)
    if row is None or not row.molar_mass:
        return "not in the tables"
    groups = _groups(cas)
    if groups is None:
        return "no structural groups"
    figure = None if cas == WATER else flash_figure(cas)
    if figure is None and cas != WATER:
        return "no flash point of its own"
    curve, table = curve_of(cas), tabled_curve(cas)
    if curve is None or table is None:
        return "no vapour pressure"
    flash = inf if figure is None else float(figure.value or 0)
    recalled = figure is not None and figure.tag == "memory"
    low = flash - (RECALLED_K if recalled else 0.0)
    mass = float(row.molar_mass)
    return Part(cas, row.name, mass, flash, low, figure, curve, table, groups)


def bracket_of(cas: str | None, name: str = "") -> str | None:
    """Return what a constituent without its figures is taken for at the low end.

    Parameters
    ----------
    cas : str or None
        Its CAS number; ``None`` where it has none.
    name : str, optional
        As printed: of a constituent without a CAS number, what it may be counts.

    Returns
    -------
    str or None
        CAS number of a light end: 1,8-cineole for a constituent with oxygen and ten
        carbon atoms or more, or with fifteen carbon atoms; alpha-pinene for a
        hydrocarbon with ten, or for one of which no formula is known; ``None`` for
        anything smaller, and for a solvent that oils and absolutes are extracted
        with: they may be lighter than both.

    Notes
    -----
    Of all such constituents in our tables that have a flash point of their own, none
    with oxygen lies below 1,8-cineole and no hydrocarbon below alpha-pinene; a test
    holds that. Own choice.
    """
    if cas in _SOLVENTS or " ".join(name.casefold().split()) in _SOLVENT_NAMES:
        return None
    if cas is None:
        maybe = {bracket_of(one) for one in reference.find(name).candidates}
        return next((one for one in (None, ALPHA_PINENE) if one in maybe), ALPHA_PINENE)
    row = reference.constituents().get(cas)
    if row is None or not row.formula:
        return ALPHA_PINENE
    carbons = _atoms(row.formula, "C")
    if carbons < _SMALLEST:
        return None
    heavy = carbons >= _SMALLEST + 5 or _atoms(row.formula, "O") > 0
    return CINEOLE if heavy else ALPHA_PINENE


def _atoms(formula: str, element: str) -> int:
    """Count an element of one letter in a formula such as C10H18O."""
    _, found, after = formula.partition(element)
    if not found or (after[:1].islower()):
        return 0
    digits = ""
    for letter in after:
        if not letter.isdigit():
            break
        digits += letter
    return int(digits or 1)


@cache
def _matrices() -> tuple[
    Mapping[str, int],
    np.ndarray,
    np.ndarray,
    tuple[int, ...],
    tuple[np.ndarray, ...],
]:
    """Return groups by number, their sizes, main groups and interactions."""
    rows = reference.rows_of(reference.UnifacGroup)
    mains = sorted({row.main_group for row in rows}, key=int)
    place = {main: n for n, main in enumerate(mains)}
    tables = tuple(np.full((len(mains), len(mains)), np.nan) for _ in range(3))
    for table in tables:
        np.fill_diagonal(table, 0.0)
    for row in reference.rows_of(reference.UnifacInteraction):
        at = place.get(row.main_group), place.get(row.other_main_group)
        if None not in at:
            for table, value in zip(tables, (row.a, row.b, row.c), strict=True):
                table[at] = float(value)
    return (
        MappingProxyType({row.group_number: n for n, row in enumerate(rows)}),
        np.array([float(row.r) for row in rows]),
        np.array([float(row.q) for row in rows]),
        tuple(place[row.main_group] for row in rows),
        tables,
    )


def _counts(cases: Iterable[str]) -> np.ndarray:
    place = _matrices()[0]
    parts = [part_of(cas) for cas in cases]
    counts = np.zeros((len(parts), len(place)))
    for n, part in enumerate(parts):
        if not isinstance(part, Part):
            raise DomainError("part", part, "a constituent with all its figures")
        for number, count in part.groups.items():
            counts[n, place[number]] = count
    return counts


@dataclass(frozen=True, slots=True)
class Unmixable:
    """Two groups without a published interaction, and which parts hold them."""

    says: str
    one: frozenset[str]
    other: frozenset[str]


@cache
def unmixable(cases: tuple[str, ...]) -> tuple[Unmixable, ...]:
    """Name the pairs of groups of which no interaction is published.

    Parameters
    ----------
    cases : tuple of str
        CAS numbers of parts.

    Returns
    -------
    tuple of Unmixable
        Empty where the model of activity holds for all of them together.
    """
    _, _, _, mains, tables = _matrices()
    rows = reference.rows_of(reference.UnifacGroup)
    names = {main: r.main_group_name for main, r in zip(mains, rows, strict=True)}
    counts = _counts(cases)

    def holding(main: int) -> frozenset[str]:
        columns = np.flatnonzero(np.asarray(mains) == main)
        held = counts[:, columns].sum(axis=1) > 0
        return frozenset(cas for cas, has in zip(cases, held, strict=True) if has)

    return tuple(
        Unmixable(f"{names[i]} with {names[j]}", holding(i), holding(j))
        for i, j in uncovered_pairs(counts, mains, tables[0])
    )


@cache
def activity_of(cases: tuple[str, ...], light: int = 0) -> ModifiedUnifac:
    """Return the model of the activity coefficients of some parts.

    Parameters
    ----------
    cases : tuple of str
        CAS numbers of parts, each with all its figures.
    light : int, default 0
        How many light ends are added behind them, each with the groups of
        alpha-pinene: in an oil with oxygen that errs to the low side.

    Returns
    -------
    ModifiedUnifac
        Kept for the same parts in the same order.

    Raises
    ------
    DomainError
        If a part lacks something, or a pair of groups has no published interaction.
    """
    _, r, q, mains, (a, b, c) = _matrices()
    counts = _counts((*cases, *(ALPHA_PINENE,) * light))
    used = np.flatnonzero(counts.sum(axis=0))
    return ModifiedUnifac(
        counts[:, used], r[used], q[used], np.asarray(mains)[used], a, b, c
    )
