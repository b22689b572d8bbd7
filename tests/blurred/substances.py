"""A dozen constituents, their groups and the names that papers use for them.

CAS numbers are the registry's; which substance is in which invented oil is drawn.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from blendcheck.blend.totals import Knowledge


@dataclass(frozen=True, slots=True)
class Substance:
    """One constituent as chemistry sees it."""

    key: str
    name: str
    cas: str | None
    volatile: bool = True


SUBSTANCES = {
    one.key: one
    for one in (
        Substance("menthol", "Menthol", "2216-51-5"),
        Substance("menthone", "Menthone", "89-80-5"),
        Substance("cineole", "1,8-Cineole", "470-82-6"),
        Substance("d-limonene", "d-Limonene", "5989-27-5"),
        Substance("l-limonene", "l-Limonene", "5989-54-8"),
        Substance("geranial", "Geranial", "141-27-5"),
        Substance("neral", "Neral", "106-26-3"),
        Substance("linalool", "Linalool", "78-70-6"),
        Substance("camphor", "Camphor", "76-22-2"),
        Substance("pinene", "alpha-Pinene", "80-56-8"),
        Substance("bergapten", "Bergapten", "484-20-8", volatile=False),
        Substance("waxes", "Waxes", None, volatile=False),
        # printed as "Eucalyptol" by a supplier who means something else by it
        Substance("mystery", "Eucalyptol", None, volatile=False),
        Substance("ethanol", "Ethanol", "64-17-5"),
        Substance("carrier", "Carrier", "73398-61-5", volatile=False),
    )
}
"""Everything that an invented oil may hold."""

GROUPS = {
    "5392-40-5": ("Citral", ("geranial", "neral")),
    "138-86-3": ("Limonene", ("d-limonene", "l-limonene")),
}
"""Groups by CAS number: the name, and the constituents that make it up."""

NAMES = {
    "eucalyptol": frozenset({"470-82-6"}),
    "linalool": frozenset({"78-70-6"}),
    "limonene": frozenset({"138-86-3", "5989-27-5", "5989-54-8"}),
    "menthol": frozenset({"2216-51-5"}),
}
"""CAS numbers that a name without one may mean."""

UNKNOWN = {"name:laurel camphor": "camphor"}
"""Names without a number that no table knows, and what is behind them."""

NAME_ONLY = {
    "camphor": "Laurel camphor",
    "cineole": "Eucalyptol",
    "linalool": "Linalool",
    "d-limonene": "Limonene",
    "menthol": "Menthol",
}
"""How a paper that gives no CAS number prints some constituents."""

_BY_CAS = {one.cas: one for one in SUBSTANCES.values() if one.cas is not None}


def identity(name: str, cas: str | None) -> str:
    """What a printed line is totalled under."""
    return cas or f"name:{' '.join(name.lower().split())}"


def really(own: str) -> frozenset[str]:
    """Constituents that a CAS number or a name stands for in chemistry."""
    if own in GROUPS:
        return frozenset(GROUPS[own][1])
    if own in _BY_CAS:
        return frozenset({_BY_CAS[own].key})
    if own in UNKNOWN:
        return frozenset({UNKNOWN[own]})
    meant = NAMES.get(own.removeprefix("name:"), frozenset())
    return frozenset().union(*(really(cas) for cas in meant))


def volatile(own: str) -> bool:
    """Whether a gas chromatograph would show it, as a table would say."""
    keys = {} if own.startswith("name:") else really(own)
    return bool(keys) and all(SUBSTANCES[key].volatile for key in keys)


def cas_of(keys: Iterable[str]) -> frozenset[str]:
    """CAS numbers of constituents."""
    return frozenset(cas for key in keys if (cas := SUBSTANCES[key].cas) is not None)


KNOWLEDGE = Knowledge(
    volatile=volatile,
    groups={group: cas_of(parts) for group, (_, parts) in GROUPS.items()},
    names=lambda printed: NAMES.get(" ".join(printed.casefold().split()), frozenset()),
)
"""The same as the tool is told it."""
