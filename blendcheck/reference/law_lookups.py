"""Look-ups on law and standards: allergens, limits, classes, labels, phrases."""

from collections.abc import Mapping
from fractions import Fraction
from functools import cache
from types import MappingProxyType

from blendcheck.frozen import Frozen
from blendcheck.quantity.numbers import read_number
from blendcheck.reference.cautions import numbers_answering
from blendcheck.reference.law_rows import (
    Allergen,
    HazardClass,
    IngredientLimit,
    LabelElement,
    MixtureLimit,
    Phrase,
    Ruling,
)
from blendcheck.reference.tables import rows_of, rows_where

__all__ = [
    "AllergenEntry",
    "allergens",
    "allergens_of",
    "hazard_classes_of",
    "label_elements",
    "limits_of",
    "mixture_limits",
    "phrases",
    "rulings",
]


class AllergenEntry(Frozen):
    """An entry of the list of fragrance allergens: what the label must name.

    Parameters
    ----------
    entry : str
        Reference number, such as ``III/70``.
    label_name : str
        What stands in the list of ingredients.
    members : tuple of str
        Names that the entry lists; they are added up before the comparison.
    cas : frozenset of str
        Their CAS numbers. A number of an oil may stand in two entries.
    leave_on, rinse_off : Fraction or None
        Share above which it must be named [% w/w]; None where it is prohibited.
    rows : tuple of Allergen
        The rows of the table, with source and place.
    """

    entry: str
    label_name: str
    members: tuple[str, ...]
    cas: frozenset[str]
    leave_on: Fraction | None
    rinse_off: Fraction | None
    rows: tuple[Allergen, ...]

    @property
    def prohibited(self) -> bool:
        """Whether the substance is prohibited instead of named."""
        return self.leave_on is None


def _entry(rows: tuple[Allergen, ...]) -> AllergenEntry:
    first = rows[0]
    return AllergenEntry(
        entry=first.entry,
        label_name=first.label_name,
        members=tuple(name.strip() for name in first.members.split(";")),
        cas=frozenset(row.cas for row in rows),
        leave_on=read_number(first.leave_on) if first.leave_on else None,
        rinse_off=read_number(first.rinse_off) if first.rinse_off else None,
        rows=rows,
    )


@cache
def allergens() -> tuple[AllergenEntry, ...]:
    """Return every entry of the list of fragrance allergens.

    Returns
    -------
    tuple of AllergenEntry
        81 that must be named, and two that are prohibited instead.
    """
    rows: dict[str, list[Allergen]] = {}
    for row in rows_of(Allergen):
        rows.setdefault(row.entry, []).append(row)
    return tuple(_entry(tuple(each)) for each in rows.values())


def allergens_of(cas: str) -> tuple[AllergenEntry, ...]:
    """Return the entries in which a substance or an oil counts.

    Parameters
    ----------
    cas : str
        A CAS number; also by the number of its group.

    Returns
    -------
    tuple of AllergenEntry
        Empty when none lists it.

    Examples
    --------
    >>> [found.label_name for found in allergens_of("106-26-3")]  # neral
    ['Citral']
    """
    numbers = numbers_answering(cas)
    return tuple(entry for entry in allergens() if entry.cas & numbers)


def limits_of(cas: str) -> tuple[IngredientLimit, ...]:
    """Return what cosmetic and other law allows of a substance or an oil.

    Parameters
    ----------
    cas : str
        A CAS number; also by the number of its group.

    Returns
    -------
    tuple of IngredientLimit
        Every jurisdiction and product type side by side; the maker says which
        apply. Empty is no row here, not "no limit".

    Examples
    --------
    >>> rinse_off = limits_of("93-15-2")[-1]  # methyl eugenol
    >>> rinse_off.applies_to, rinse_off.datum.printed
    ('rinse-off products', '<= 0.001 %')
    """
    numbers = numbers_answering(cas)
    return tuple(
        row
        for number in sorted(numbers)
        for row in rows_where(IngredientLimit, "cas", number)
    )


def hazard_classes_of(cas: str) -> tuple[HazardClass, ...]:
    """Return hazard classes that somebody gives a substance: a sanity list.

    Parameters
    ----------
    cas : str
        A CAS number, exactly this one.

    Returns
    -------
    tuple of HazardClass
        Never an authority: the supplier's safety data sheet classifies.
    """
    return rows_where(HazardClass, "cas", cas)


def label_elements(hazard_class: str) -> tuple[LabelElement, ...]:
    """Return pictogram, signal word and statements of a hazard class.

    Parameters
    ----------
    hazard_class : str
        As in the table, such as ``Flam. Liq. 3``.

    Returns
    -------
    tuple of LabelElement
        Empty when the table does not have the class.

    Examples
    --------
    >>> [row.element for row in label_elements("Asp. Tox. 1")][:3]
    ['GHS08', 'Danger', 'H304']
    """
    return tuple(
        row for row in rows_of(LabelElement) if row.hazard_class == hazard_class
    )


def mixture_limits() -> tuple[MixtureLimit, ...]:
    """Return the rules for the class of a mixture, every scheme side by side.

    Returns
    -------
    tuple of MixtureLimit
        In the order of the table.
    """
    return rows_of(MixtureLimit)


@cache
def phrases(language: str = "en") -> Mapping[str, Phrase]:
    """Return the hazard and precautionary statements by their codes.

    Parameters
    ----------
    language : str, default "en"
        Two letters.

    Returns
    -------
    Mapping
        Read-only; empty for a language that the table does not have.

    Examples
    --------
    >>> phrases()["H304"].wording
    'May be fatal if swallowed and enters airways.'
    """
    return MappingProxyType(
        {row.code: row for row in rows_of(Phrase) if row.language == language}
    )


def rulings(topic: str = "") -> tuple[Ruling, ...]:
    """Return rules in words, with what is done where one was not read.

    Parameters
    ----------
    topic : str, optional
        As in the table; all by default.

    Returns
    -------
    tuple of Ruling
        In the order of the table.
    """
    return tuple(row for row in rows_of(Ruling) if topic in ("", row.topic))
