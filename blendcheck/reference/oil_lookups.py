"""Look-ups on essential oils: names, figures, published compositions, what to watch.

A published composition says what was found in other lots of that name. It is never
the maker's lot, and nothing here speaks for it.
"""

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from blendcheck.errors import ReferenceDataError
from blendcheck.reference.air_rows import PhototoxicOil
from blendcheck.reference.figures import Datum
from blendcheck.reference.names import normal_name
from blendcheck.reference.property_rows import (
    Oil,
    OilComponent,
    OilNumber,
    OilProperty,
    OilWatch,
)
from blendcheck.reference.tables import rows_of, rows_where

__all__ = [
    "find_oils",
    "oil",
    "oil_composition",
    "oil_properties",
    "oil_watch",
    "oils",
    "oils_with",
    "phototoxic_oils",
]


@cache
def oils() -> Mapping[str, Oil]:
    """Return every oil of the tables by its id.

    Returns
    -------
    Mapping
        Read-only, in the order of the table.
    """
    return MappingProxyType({row.oil: row for row in rows_of(Oil)})


def oil(oil_id: str) -> Oil:
    """Return one oil.

    Parameters
    ----------
    oil_id : str
        Its id; :func:`find_oils` turns a name or number into ids.

    Returns
    -------
    Oil
        Names, part of the plant, main CAS number.

    Raises
    ------
    ReferenceDataError
        If there is no oil of that id.

    Examples
    --------
    >>> oil("lemon-expressed").botanical_name
    'Citrus limon'
    """
    try:
        return oils()[oil_id]
    except KeyError:
        raise ReferenceDataError(
            f"oil {oil_id} is not in reference/oils.csv. Ask find_oils for its id"
        ) from None


def find_oils(name_or_cas: str) -> tuple[Oil, ...]:
    """Return the oils that a name or a CAS number may mean.

    Parameters
    ----------
    name_or_cas : str
        An id, the name or the botanical name of an oil, its name without what
        stands in brackets, or a CAS number.

    Returns
    -------
    tuple of Oil
        Several may fit, and the maker says which; empty when none does.

    Examples
    --------
    >>> [found.oil for found in find_oils("Lime")]
    ['lime-expressed', 'lime-distilled']
    >>> [found.oil for found in find_oils("8006-90-4")]
    ['peppermint']
    """
    given = name_or_cas.strip()
    meant = {row.oil for row in rows_where(OilNumber, "cas", given)}
    meant |= _by_name().get(normal_name(given), set())
    return tuple(row for row in rows_of(Oil) if row.oil in meant)


@cache
def _by_name() -> Mapping[str, set[str]]:
    """Return the ids of the oils that each normal name may mean."""
    found: dict[str, set[str]] = {}
    for row in rows_of(Oil):
        names = (row.oil, row.name, row.name.partition("(")[0])
        for name in (*names, *row.botanical_name.split("/")):
            found.setdefault(normal_name(name.strip()), set()).add(row.oil)
    return found


def oil_composition(oil_id: str) -> tuple[OilComponent, ...]:
    """Return what published compositions print for an oil, row by row.

    Parameters
    ----------
    oil_id : str
        The id of an oil.

    Returns
    -------
    tuple of OilComponent
        Each with ``range`` and ``datum``; rival sources and editions side by side.

    Raises
    ------
    ReferenceDataError
        If there is no oil of that id.
    """
    wanted = oil(oil_id).oil
    return rows_where(OilComponent, "oil", wanted)


def oil_properties(oil_id: str) -> tuple[Datum, ...]:
    """Return density, refractive index, flash point and the like of an oil.

    Parameters
    ----------
    oil_id : str
        The id of an oil.

    Returns
    -------
    tuple of Datum
        Published ranges; those that were read come before those from memory.

    Raises
    ------
    ReferenceDataError
        If there is no oil of that id.
    """
    wanted = oil(oil_id).oil
    found = (row.datum for row in rows_where(OilProperty, "oil", wanted))
    return tuple(sorted(found, key=lambda each: (each.quantity, each.tag == "memory")))


def oil_watch(oil_id: str) -> tuple[OilWatch, ...]:
    """Return the constituents to watch in an oil, and why.

    Parameters
    ----------
    oil_id : str
        The id of an oil.

    Returns
    -------
    tuple of OilWatch
        Those that a published composition names; others may be in the lot.

    Raises
    ------
    ReferenceDataError
        If there is no oil of that id.
    """
    wanted = oil(oil_id).oil
    return rows_where(OilWatch, "oil", wanted)


def oils_with(cas: str) -> tuple[OilComponent, ...]:
    """Return the oils in which published compositions name a constituent.

    Parameters
    ----------
    cas : str
        A CAS number, exactly this one.

    Returns
    -------
    tuple of OilComponent
        One row for each published share.
    """
    return rows_where(OilComponent, "cas", cas)


def phototoxic_oils() -> tuple[PhototoxicOil, ...]:
    """Return which oils are listed as acting with light, and how they were made.

    Returns
    -------
    tuple of PhototoxicOil
        In the order of the table. What is not listed is not thereby harmless.
    """
    return rows_of(PhototoxicOil)
