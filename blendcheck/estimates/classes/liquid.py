"""Flammable liquids, from flash points and boiling points that were entered.

Method: Regulation (EC) No 1272/2008, Annex I, Table 2.6.1. A mixture is classed by its
own flash point. Where none was measured, those of its parts show which classes are
possible: a blend can flash below both of its parts, so they rule nothing out.
"""

from collections.abc import Iterator

from blendcheck.estimates.classes.limits import limit_of
from blendcheck.estimates.classes.model import (
    Classified,
    Mixture,
    Part,
    Scheme,
    Standing,
)
from blendcheck.estimates.classes.terms import end_of
from blendcheck.interval import Range
from blendcheck.quantity import Mark, print_range

__all__ = ["flammable_classes"]

_NAMES = ("Flam. Liq. 1", "Flam. Liq. 2", "Flam. Liq. 3")
_CODES = {"Flam. Liq. 1": "H224", "Flam. Liq. 2": "H225", "Flam. Liq. 3": "H226"}


def _categories(flash: Range, boiling: Range | None) -> tuple[set[str], bool]:
    """Return the classes that a flash point allows, and whether none is allowed too."""
    cold = limit_of("Flam. Liq. 2", "flash point below").value
    warm = limit_of("Flam. Liq. 3", "flash point up to").value
    boils = limit_of("Flam. Liq. 1", "initial boiling point at or below").value
    found: set[str] = set()
    if flash.low is None or flash.low < cold:
        side = "across" if boiling is None else boiling.against(boils)
        if side != "above":
            found.add("Flam. Liq. 1")
        if side != "at or below":
            found.add("Flam. Liq. 2")
    below_warm = flash.low is None or flash.low <= warm
    if below_warm and (flash.high is None or flash.high >= cold):
        top = flash.high
        if not (top is not None and top == cold and flash.high_open):
            found.add("Flam. Liq. 3")
    may_be_none = flash.high is None or flash.high > warm
    return found, may_be_none


def flammable_classes(mixture: Mixture, scheme: Scheme) -> Iterator[Classified]:
    """Classify as a flammable liquid.

    Parameters
    ----------
    mixture : Mixture
        The mixture; a solid is never in this class.
    scheme : Scheme
        By whose rules.

    Yields
    ------
    Classified
        ``Flam. Liq. 1`` to ``3``; for the UN and the United States ``4`` as a
        possibility, from memory, which no label here carries.
    """
    if mixture.liquid is False:
        return
    if scheme.name != "EU CLP":
        yield from _category_4(mixture)
    parts = [p for p in mixture.parts if end_of(p.share, high=True) > 0]
    if mixture.flash is not None:
        yield from _by_own(mixture.name, mixture.flash, mixture.boiling, mixture.liquid)
    elif len(parts) == 1 and parts[0].profile.flash is not None:
        one = parts[0]
        yield from _by_own(
            one.name, parts[0].profile.flash, one.profile.boiling, mixture.liquid
        )
    else:
        yield from _by_parts(parts)


def _category_4(mixture: Mixture) -> Iterator[Classified]:
    """Show category 4 of the UN, whose limits were not read."""
    above = limit_of("Flam. Liq. 4", "flash point above", "UN GHS")
    up_to = limit_of("Flam. Liq. 4", "flash point up to", "UN GHS")
    parts = [p for p in mixture.parts if end_of(p.share, high=True) > 0]
    flashes = [(mixture.name, mixture.flash)]
    if mixture.flash is None:
        flashes = [(part.name, part.profile.flash) for part in parts]
    met = [
        (name, flash)
        for name, flash in flashes
        if flash is not None
        and (flash.low is None or flash.low <= up_to.value)
        and (flash.high is None or flash.high > above.value)
    ]
    if met:
        yield Classified(
            "Flam. Liq. 4",
            above.statement,
            Standing.POSSIBLE,
            (
                *(f"flash point of {n}: {print_range(f, '°C')}" for n, f in met),
                f"Flam. Liq. 4: flash point {above.says}",
                f"Flam. Liq. 4: flash point {up_to.says}",
            ),
            tuple(name for name, _ in met),
            (above.source,),
            frozenset({Mark.FROM_MEMORY}),
            unit="°C",
        )


def _by_own(
    name: str,
    flash: Range,
    boiling: Range | None,
    liquid: bool | None,  # noqa: FBT001
) -> Iterator[Classified]:
    found, may_be_none = _categories(flash, boiling)
    sure = len(found) == 1 and not may_be_none and liquid is True
    lines = [f"flash point of {name}: {print_range(flash, '°C')}"]
    if boiling is not None:
        lines.append(f"boiling point of {name}: {print_range(boiling, '°C')}")
    elif "Flam. Liq. 1" in found:
        lines.append("boiling point not entered: category 1 needs one up to 35 °C")
    standing = Standing.CERTAIN if sure else Standing.POSSIBLE
    for hazard_class in _NAMES:
        if hazard_class in found:
            yield _entry(hazard_class, standing, lines, (name,), flash)


def _entry(
    hazard_class: str,
    standing: Standing,
    lines: list[str],
    names: tuple[str, ...],
    flash: Range | None,
) -> Classified:
    limits = [
        row
        for rule in ("flash point from", "flash point up to")
        if hazard_class == "Flam. Liq. 3"
        for row in (limit_of(hazard_class, rule),)
    ] or [limit_of(hazard_class, "flash point below")]
    marks = frozenset({Mark.ABSENCE}) if standing is Standing.OPEN else frozenset()
    return Classified(
        hazard_class,
        _CODES[hazard_class],
        standing,
        (*lines, *(f"{hazard_class}: flash point {one.says}" for one in limits)),
        names,
        (limits[0].source,),
        marks,
        None if flash is None else flash.low,
        None if flash is None else flash.high,
        "°C",
    )


def _by_parts(parts: list[Part]) -> Iterator[Classified]:
    """Say what is possible from the flash points of the parts."""
    lines, allowed, missing = list[str](), set[str](), list[str]()
    names: dict[str, list[str]] = {}
    for part in parts:
        flash = part.profile.flash
        if flash is None or (flash.low is None and flash.high is None):
            missing.append(part.name)
            continue
        found, _ = _categories(flash, part.profile.boiling)
        lines.append(f"flash point of {part.name}: {print_range(flash, '°C')}")
        allowed |= found
        for hazard_class in found:
            names.setdefault(hazard_class, []).append(part.name)
    lines.append(
        "flash point of the mixture not measured: its parts show what is possible"
    )
    if missing:
        lines.append(f"no flash point entered for {', '.join(missing)}")
    for hazard_class in _NAMES:
        if hazard_class in allowed:
            because = tuple(names[hazard_class])
            yield _entry(hazard_class, Standing.POSSIBLE, lines, because, None)
        elif missing:
            yield _entry(hazard_class, Standing.OPEN, lines, tuple(missing), None)
