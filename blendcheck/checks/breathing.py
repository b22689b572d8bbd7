"""The air of a shower beside acute reference points, and how strong it smells.

Facts only, one tier at a time; what each tier speaks of is said with it.
"""

from collections.abc import Iterable, Iterator, Mapping
from types import MappingProxyType
from typing import Final

from blendcheck.estimates.acute import ODOUR_METHOD, TIERS, Tier
from blendcheck.estimates.air import ShowerAir
from blendcheck.estimates.ratios import Ratio, Ratios, odour_of, ratios_of, without_any
from blendcheck.quantity import Mark, print_estimate
from blendcheck.records.estimate import Estimate
from blendcheck.records.finding import Finding, Say

__all__ = ["UNIT", "about", "beside", "fact", "names_of"]

UNIT: Final = "mg/m³"
"""Unit of every concentration that is shown."""

_NAMED_MOST: Final = 8
"""Names in one sentence; the rest is counted."""

_TIER_CODES: Final[Mapping[Tier, str]] = MappingProxyType(
    {
        "people": "air.beside-people",
        "acute limit": "air.beside-acute",
        "short-term limit": "air.beside-short-term",
        "mice": "air.beside-mice",
    }
)


def fact(
    subject: str,
    why: Say,
    *,
    also: Iterable[Say] = (),
    ask: tuple[Say, ...] = (),
    estimates: Iterable[Estimate] = (),
    marks: frozenset[Mark],
    source: Iterable[str] = (),
) -> Finding:
    """Return a fact about the air.

    Parameters
    ----------
    subject : str
        What it is about.
    why : Say
        The sentence.
    also, ask : tuple of Say
        What else must be said, and asked.
    estimates : iterable of Estimate
        The numbers.
    marks : frozenset of Mark
        Doubts.
    source : iterable of str
        Source ids.
    """
    return Finding(
        kind="fact",
        check="air",
        subject=subject,
        why=why,
        also=tuple(also),
        ask=ask,
        estimates=tuple(estimates),
        marks=marks,
        source=", ".join(dict.fromkeys(source)),
    )


def about(number: float | None) -> str:
    """Print a number with the one digit that means something.

    Parameters
    ----------
    number : float or None
        ``None`` is not known.
    """
    return "not known" if number is None else print_estimate(float(number))


def names_of(names: Iterable[str]) -> str:
    """Join names for one sentence, and count those beyond the first eight.

    Parameters
    ----------
    names : iterable of str
        The names.
    """
    found = tuple(dict.fromkeys(names))
    more = len(found) - _NAMED_MOST
    shown = ", ".join(found[:_NAMED_MOST])
    return f"{shown} and {more} more" if more > 0 else shown


def beside(air: ShowerAir) -> Iterator[Finding]:
    """State ratios tier by tier, what has no reference, and the strength of smell.

    Parameters
    ----------
    air : ShowerAir
        The estimate.

    Yields
    ------
    Finding
        Facts.
    """
    for tier in TIERS:
        yield from _beside(air, tier)
    yield from _no_reference(air)
    yield from _smell(air)


def _beside(air: ShowerAir, tier: Tier) -> Iterator[Finding]:
    found = ratios_of(air, tier)
    if not found.ratios:
        return
    values = {
        "ratios": "; ".join(_ratio_says(one) for one in found.ratios[:_NAMED_MOST])
    }
    yield fact(
        f"the air beside what is known: {tier}",
        Say(_TIER_CODES[tier], values),
        also=_added_up(found),
        estimates=_ratio_estimates(found, f"air.beside.{tier.replace(' ', '-')}"),
        marks=_ratio_marks(air, found),
        source=(one.reference.source for one in found.ratios),
    )


def _ratio_says(one: Ratio) -> str:
    name, says = one.air.constituent.name, one.reference.says
    memory = ", from memory" if one.reference.tag == "memory" else ""
    return f"{name} {about(one.central)}, at most {about(one.high)} ({says}{memory})"


def _added_up(found: Ratios) -> tuple[Say, ...]:
    cover = {"cover": print_estimate(100 * found.cover, digits=2)}
    if found.total is None:
        return (Say("air.not-added", cover),)
    low, central, high = found.total
    sums = {"sum": about(central), "low": about(low), "high": about(high)}
    return (Say("air.added", {**cover, **sums}),)


def _ratio_estimates(found: Ratios, name: str) -> Iterator[Estimate]:
    for one in found.ratios:
        number = print_estimate(one.reference.mg_per_m3, digits=2)
        yield Estimate(
            name=f"{name}.{one.air.constituent.cas}",
            says=f"{one.air.constituent.name}, air in the stall over its reference",
            unit="",
            central=one.central,
            low=one.low,
            high=one.high,
            lines=(f"{one.reference.says}: {number} {UNIT}",),
            sources=(one.reference.source,),
            marks=one.air.marks,
        )
    if found.total is not None:
        low, central, high = found.total
        yield Estimate(f"{name}.sum", "all ratios added", "", central, low, high)


def _ratio_marks(air: ShowerAir, found: Ratios) -> frozenset[Mark]:
    memory = any(one.reference.tag == "memory" for one in found.ratios)
    return air.marks | (frozenset({Mark.FROM_MEMORY}) if memory else frozenset())


def _no_reference(air: ShowerAir) -> Iterator[Finding]:
    names = without_any(air)
    if names:
        yield fact(
            "no figure to put beside it",
            Say("air.no-reference", {"names": names_of(names)}),
            marks=frozenset({Mark.ESTIMATED}),
        )


def _smell(air: ShowerAir) -> Iterator[Finding]:
    found = odour_of(air)
    known = [one for one in found.ratios if one.central is not None]
    if not known:
        return
    low = sum(one.low for one in found.ratios)
    high = sum(one.high for one in found.ratios)
    central = sum(one.central or 0.0 for one in known)
    cover = print_estimate(100 * found.cover, digits=2)
    values = {
        "strength": about(central),
        "names": names_of(one.air.constituent.name for one in known),
        "cover": cover,
        "method": ODOUR_METHOD,
    }
    strength = Estimate(
        name="air.smell",
        says=f"strength of smell, by the method {ODOUR_METHOD}",
        unit="",
        central=central,
        low=low,
        high=high if found.total is not None else None,
        lines=tuple(
            f"{one.air.constituent.name}: {about(one.central)} ({one.reference.says})"
            for one in found.ratios
        ),
        sources=tuple(dict.fromkeys(one.reference.source for one in found.ratios)),
        marks=air.marks,
    )
    yield fact(
        "how strong it smells",
        Say("air.smell", values),
        estimates=(strength,),
        marks=air.marks,
        source=strength.sources,
    )
