"""Look-ups on substances: properties, vapour pressures, air limits, irritants.

Each answer is a published figure with its unit, conditions and source; rival
sources are rival answers, the preferred one first.

The order is the same everywhere, and this is its reason. A figure that somebody
read comes before one from memory. A measurement that the row names comes before a
figure whose method is not stated, and an estimate comes last. Among sources that
do not state the method, a standard that gives closed-cup figures comes first, then
compilations that were evaluated critically, then open collections. Where two flash
points or flammable limits still tie, the lower is first: it errs towards caution.
"""

from collections.abc import Iterable, Mapping
from functools import cache
from types import MappingProxyType
from typing import TypeVar

from blendcheck.reference.air_rows import (
    BreathingIrritant,
    ExposureLimit,
    IrritationPoint,
    ShowerParameter,
    Swallowing,
)
from blendcheck.reference.cautions import numbers_answering
from blendcheck.reference.figures import Datum, Figure
from blendcheck.reference.property_rows import (
    AlcoholDensity,
    CriticalPoint,
    LiquidPoint,
    Property,
    VapourFit,
    VapourPressure,
)
from blendcheck.reference.rows import Row
from blendcheck.reference.tables import rows_of

__all__ = [
    "PREFERENCE",
    "air_limits_of",
    "alcohol_densities_of",
    "critical_point_of",
    "irritants",
    "irritation_of",
    "liquid_points_of",
    "properties_of",
    "shower_parameters",
    "swallowing",
    "vapour_fits_of",
    "vapour_pressures_of",
    "why_irritant",
]

PREFERENCE: tuple[str, ...] = (
    "iec-60079-20-1",
    "nfpa-497",
    "crc-95",
    "poling-2000-wagner",
    "mcgarry-1983",
    "perry-8",
    "vdi-2010",
    "poling-2000",
    "nist-webbook",
    "landolt-antoine",
    "open-melting-points",
    "common-chemistry",
    "wikidata-2021",
)
"""Sources that do not state a method, the preferred first; any other comes before."""

_BASIS = ("measured", "regulatory", "not stated", "conventional", "estimated")
_CAUTIOUS = frozenset({"flash point", "lower flammable limit"})
R = TypeVar("R", bound=Row)


def _source_rank(source_id: str) -> int:
    return PREFERENCE.index(source_id) + 1 if source_id in PREFERENCE else 0


def _rank(datum: Datum) -> tuple[int, int, int, float]:
    low = datum.range.low if datum.range is not None else None
    tie = float(low or 0) if datum.quantity in _CAUTIOUS else 0.0
    return (
        int(datum.tag == "memory"),
        _BASIS.index(datum.basis or "not stated"),
        _source_rank(datum.source_id),
        tie,
    )


@cache
def _index(row_type: type[R], column: str) -> Mapping[str, tuple[R, ...]]:
    """Return the rows of a table by the text of a column."""
    found: dict[str, list[R]] = {}
    for row in rows_of(row_type):
        found.setdefault(getattr(row, column), []).append(row)
    return MappingProxyType({key: tuple(rows) for key, rows in found.items()})


def _data(rows: Iterable[Figure]) -> tuple[Datum, ...]:
    return tuple(sorted((row.datum for row in rows), key=_rank))


def properties_of(cas: str, quantity: str = "") -> tuple[Datum, ...]:
    """Return the published properties of a constituent, the preferred first.

    Parameters
    ----------
    cas : str
        A CAS number, exactly this one: isomers are not merged.
    quantity : str, optional
        Of :data:`~blendcheck.reference.conversions.QUANTITIES`; all by default.

    Returns
    -------
    tuple of Datum
        By quantity, then in the order of preference; empty when nothing is known.

    Examples
    --------
    >>> first = properties_of("64-17-5", "flash point")[0]
    >>> float(first.value), first.unit, first.conditions, first.source_id
    (285.15, 'K', 'closed cup', 'iec-60079-20-1')
    """
    rows = _index(Property, "cas").get(cas, ())
    found = _data(row for row in rows if quantity in ("", row.quantity))
    return tuple(sorted(found, key=lambda datum: datum.quantity))


def alcohol_densities_of(cas: str) -> tuple[AlcoholDensity, ...]:
    """Return the densities of an alcohol with water, from water to the alcohol.

    Parameters
    ----------
    cas : str
        A CAS number, exactly this one.

    Returns
    -------
    tuple of AlcoholDensity
        Rows with ``share`` [% w/w] and ``datum`` [kg/m3]; empty for what is not in
        the table.

    Examples
    --------
    >>> last = alcohol_densities_of("64-17-5")[-1]
    >>> last.share, last.datum.printed
    ('100', '789.24 kg/m3')
    """
    return _index(AlcoholDensity, "cas").get(cas, ())


def vapour_pressures_of(cas: str) -> tuple[Datum, ...]:
    """Return vapour pressures read row by row, the preferred first.

    Parameters
    ----------
    cas : str
        A CAS number, exactly this one.

    Returns
    -------
    tuple of Datum
        The conditions name temperature and method.

    Examples
    --------
    >>> linalool = vapour_pressures_of("78-70-6")[0]
    >>> float(linalool.value), linalool.unit, linalool.conditions
    (27.0, 'Pa', '25 degC; liquid; static method')
    """
    return _data(_index(VapourPressure, "cas").get(cas, ()))


def vapour_fits_of(cas: str) -> tuple[VapourFit, ...]:
    """Return vapour-pressure coefficients, the preferred first.

    Parameters
    ----------
    cas : str
        A CAS number, exactly this one.

    Returns
    -------
    tuple of VapourFit
        Each claims nothing outside its own range of temperature.

    Examples
    --------
    >>> [fit.source_id for fit in vapour_fits_of("76-22-2")]
    ['nist-webbook']
    """
    rows = _index(VapourFit, "cas").get(cas, ())
    return tuple(sorted(rows, key=lambda row: _source_rank(row.source_id)))


def liquid_points_of(cas: str, quantity: str) -> tuple[Datum, ...]:
    """Return flash or boiling points for estimates, where the properties have none.

    Parameters
    ----------
    cas : str
        A CAS number, exactly this one.
    quantity : str
        ``flash point`` or ``boiling point``.

    Returns
    -------
    tuple of Datum
        Most of them from memory; whoever uses one passes the tag on.

    Examples
    --------
    >>> liquid_points_of("123-35-3", "flash point")[0].tag  # myrcene
    'memory'
    """
    rows = _index(LiquidPoint, "cas").get(cas, ())
    return _data(row for row in rows if row.quantity == quantity)


def critical_point_of(cas: str) -> CriticalPoint | None:
    """Return the estimated critical point of a constituent.

    Parameters
    ----------
    cas : str
        A CAS number, exactly this one.

    Returns
    -------
    CriticalPoint or None
        None where the structure is not known, or the estimate of vapour pressure
        that it is for does not hold (salts, acids, polyols).

    Examples
    --------
    >>> critical_point_of("78-70-6").fishtine_class  # linalool
    'alcohol'
    """
    found = _index(CriticalPoint, "cas").get(cas, ())
    return found[0] if found else None


def air_limits_of(cas: str) -> tuple[ExposureLimit, ...]:
    """Return limits and guide values for air, as rows with ``datum``.

    Parameters
    ----------
    cas : str
        A CAS number; also rows on the group that the number belongs to.

    Returns
    -------
    tuple of ExposureLimit
        In the order of the table. They are for workers or for a lifetime; see
        :class:`~blendcheck.reference.air_rows.ExposureLimit`.

    Examples
    --------
    >>> camphor = air_limits_of("464-49-3")[0]  # d-camphor answers for camphor
    >>> camphor.issued_by, camphor.datum.printed
    ('OSHA PEL', '<= 2 mg/m3')
    """
    return _answering(ExposureLimit, cas)


def irritation_of(cas: str) -> tuple[IrritationPoint, ...]:
    """Return concentrations at which people or mice did or did not react.

    Parameters
    ----------
    cas : str
        A CAS number; also rows on the group that the number belongs to.

    Returns
    -------
    tuple of IrritationPoint
        In the order of the table; empty is not known, which is not harmless.
    """
    return _answering(IrritationPoint, cas)


def _answering(row_type: type[R], cas: str) -> tuple[R, ...]:
    wanted = numbers_answering(cas)
    return tuple(row for row in rows_of(row_type) if getattr(row, "cas", "") in wanted)


@cache
def irritants() -> Mapping[str, tuple[BreathingIrritant, ...]]:
    """Return the volatile constituents that may irritate the airways.

    Returns
    -------
    Mapping
        By CAS number; every row gives one reason. What is not listed is not
        thereby harmless.
    """
    return _index(BreathingIrritant, "cas")


def why_irritant(cas: str) -> tuple[BreathingIrritant, ...]:
    """Return why a constituent is taken for a breathing irritant.

    Parameters
    ----------
    cas : str
        A CAS number. An isomer answers for its group: l-menthol for menthol.

    Returns
    -------
    tuple of BreathingIrritant
        Empty when it is not listed.

    Examples
    --------
    >>> len(why_irritant("2216-51-5")) > 0, why_irritant("56-81-5")
    (True, ())
    """
    return _answering(BreathingIrritant, cas)


def shower_parameters(parameter: str = "") -> tuple[Datum, ...]:
    """Return published figures about showers and bathrooms.

    Parameters
    ----------
    parameter : str, optional
        Its name in the table; all by default.

    Returns
    -------
    tuple of Datum
        In the order of the table.
    """
    rows = rows_of(ShowerParameter)
    return tuple(row.datum for row in rows if parameter in ("", row.parameter))


def swallowing() -> tuple[Swallowing, ...]:
    """Return what is known of swallowing, for the maker's own note only.

    Returns
    -------
    tuple of Swallowing
        Never to be printed on a household sheet.
    """
    return rows_of(Swallowing)
