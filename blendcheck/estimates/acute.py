"""Acute reference points for air, one tier at a time, and thresholds of smell.

A tier is a kind of evidence, and ratios of one tier are never added to those of
another. All of it speaks of workers, healthy volunteers or mice: nothing here is a
limit for somebody with asthma, for a child or for a pet.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType
from typing import Final, Literal

from blendcheck import reference
from blendcheck.equations.additivity import mg_per_m3_from_ppm
from blendcheck.reference.air_rows import ExposureLimit, IrritationPoint

__all__ = [
    "COVER",
    "ODOUR_METHOD",
    "TIERS",
    "Reference",
    "Tier",
    "odour_threshold",
    "reference_point",
]

Tier = Literal["people", "acute limit", "short-term limit", "mice"]

TIERS: Final[tuple[Tier, ...]] = ("people", "acute limit", "short-term limit", "mice")
"""Seen in people, a tenth of it; a published acute limit; a short-term limit for
workers; three hundredths of what halves the breathing rate of mice."""

COVER: Final = 0.9
"""Share of the volatile mass that must have a reference before ratios are added."""

ODOUR_METHOD: Final = "squeeze bottle"
"""The one method of odour thresholds that is used: it has the most substances."""

_TENTH, _OF_RD50 = 0.1, 0.03
_ROOM_K: Final = 298.15

_PEOPLE: Final[Mapping[str, str]] = MappingProxyType(
    {
        "no irritation felt, people": "people felt no irritation",
        "no change of the lungs, people": "no change in the lungs of people",
        "irritation threshold, people": "threshold of irritation in people",
        "irritation felt, people": "people felt irritation",
    }
)
_SHORT: Final = frozenset({"short-term, 15 min", "ceiling", "ceiling, 10 min"})


@dataclass(frozen=True, slots=True)
class Reference:
    """A concentration to compare with, and what it is.

    Parameters
    ----------
    cas : str
        Whose it is.
    tier : str
        One of :data:`TIERS`.
    mg_per_m3 : float
        The figure after its factor. [mg/m3]
    says : str
        What it is, as printed, with the factor.
    source : str
        Source id.
    tag : {"seen", "memory"}
        ``memory`` where nobody read it in its source.
    """

    cas: str
    tier: Tier
    mg_per_m3: float
    says: str
    source: str
    tag: Literal["seen", "memory"]


@cache
def reference_point(cas: str, tier: Tier) -> Reference | None:
    """Return the reference point of a constituent in one tier.

    Parameters
    ----------
    cas : str
        A CAS number; an isomer answers for its group.
    tier : str
        One of :data:`TIERS`.

    Returns
    -------
    Reference or None
        The lowest that was read; one from memory only where none was, and then never
        above what was seen in people. ``None`` is not known, which is not harmless.

    Notes
    -----
    ppm are turned into mg/m3 at 25 degC with the constituent's molar mass.

    Examples
    --------
    >>> reference_point("80-56-8", "people").mg_per_m3  # 450 mg/m3, divided by 10
    45.0
    >>> reference_point("470-82-6", "people") is None  # 1,8-cineole
    True
    """
    found = list(_FINDERS[tier](cas))
    seen = [one for one in found if one.tag == "seen"]
    if seen:
        return min(seen, key=lambda one: one.mg_per_m3)
    people = reference_point(cas, "people") if tier == "acute limit" else None
    if found and people is not None and people.mg_per_m3 < found[0].mg_per_m3:
        says = f"{people.says}, lower than the limit for 30 min"
        return Reference(cas, tier, people.mg_per_m3, says, people.source, "memory")
    return min(found, key=lambda one: one.mg_per_m3, default=None)


def _mg_per_m3(cas: str, row: IrritationPoint | ExposureLimit) -> float | None:
    """Return the figure of a row, or the end of a bound, in mg/m3."""
    span = row.range
    if span is None:
        return None
    number = span.low if span.low is not None else span.high
    if number is None or row.unit not in ("mg/m3", "ppm"):
        return None
    if row.unit == "mg/m3":
        return float(number)
    known = reference.constituents().get(cas)
    if known is None or known.molar_mass_value is None:
        return None
    mass = float(known.molar_mass_value)
    return float(mg_per_m3_from_ppm(float(number), mass, temperature=_ROOM_K))


def _made(
    cas: str,
    tier: Tier,
    row: IrritationPoint | ExposureLimit,
    factor: float,
    says: str,
) -> Iterator[Reference]:
    number = _mg_per_m3(cas, row)
    if number is not None and number > 0:
        tag: Literal["seen", "memory"] = "memory" if row.tag == "memory" else "seen"
        yield Reference(cas, tier, factor * number, says, row.source_id, tag)


def _figures(row: IrritationPoint | ExposureLimit) -> str:
    sign = "" if row.qualifier in ("=", "<=") else f"{row.qualifier} "
    return f"{sign}{row.printed_value} {row.printed_unit}"


def _people(cas: str) -> Iterator[Reference]:
    for row in reference.irritation_of(cas):
        what = _PEOPLE.get(row.quantity)
        if what is not None and not row.qualifier.startswith("<"):
            when = f" ({row.conditions})" if row.conditions else ""
            says = f"{what} at {_figures(row)}{when}; a tenth of it"
            yield from _made(cas, "people", row, _TENTH, says)


def _acute(cas: str) -> Iterator[Reference]:
    for row in reference.irritation_of(cas):
        if row.quantity == "acute limit, 30 min":
            says = f"acute limit for 30 min, {_figures(row)}"
            yield from _made(cas, "acute limit", row, 1.0, says)


def _short_term(cas: str) -> Iterator[Reference]:
    rows = reference.air_limits_of(cas)
    for row in rows:
        if row.quantity in _SHORT:
            says = f"{row.issued_by}, {row.quantity}, {_figures(row)}, for workers"
            yield from _made(cas, "short-term limit", row, 1.0, says)
        if row.quantity == "peak factor, 15 min":
            for base in rows:
                same = base.issued_by == row.issued_by and base.unit == "mg/m3"
                if same and base.quantity == "average, 8 h":
                    says = (
                        f"{row.issued_by}, {_figures(base)} over 8 h times "
                        f"{row.printed_value} for 15 min, for workers"
                    )
                    factor = float(row.value)
                    yield from _made(cas, "short-term limit", base, factor, says)


def _mice(cas: str) -> Iterator[Reference]:
    for row in reference.irritation_of(cas):
        if row.quantity == "RD50, mouse":
            says = f"{_figures(row)} halves the breathing rate of mice; 0.03 of it"
            yield from _made(cas, "mice", row, _OF_RD50, says)


_FINDERS: Final = MappingProxyType(
    {
        "people": _people,
        "acute limit": _acute,
        "short-term limit": _short_term,
        "mice": _mice,
    }
)


@cache
def odour_threshold(cas: str) -> Reference | None:
    """Return the odour threshold of a constituent by one method.

    Parameters
    ----------
    cas : str
        A CAS number; an isomer answers for its group.

    Returns
    -------
    Reference or None
        The lowest by :data:`ODOUR_METHOD`, as ``mg_per_m3``; its ``tier`` says
        ``people``. Thresholds by other methods differ a hundredfold and are not used.

    Examples
    --------
    >>> odour_threshold("2216-51-5").mg_per_m3  # menthol, 0.0219 ppm
    0.140
    """
    found = [
        made
        for row in reference.irritation_of(cas)
        if row.quantity == "odour threshold" and row.conditions == ODOUR_METHOD
        for made in _made(
            cas, "people", row, 1.0, f"smelt from {_figures(row)} ({ODOUR_METHOD})"
        )
    ]
    return min(found, key=lambda one: one.mg_per_m3, default=None)
