"""Flammable liquids, from flash points and boiling points that were entered.

Method: Regulation (EC) No 1272/2008, Annex I, Table 2.6.1. A mixture is classed by its
own flash point. Where none was measured, the flash points and the classes of its parts
show which are possible: a blend can flash below both of its parts, so they rule nothing
out. One material alone keeps the class of its sheet.
"""

from collections.abc import Iterator
from dataclasses import replace

from blendcheck.estimates.classes.limits import limit_of
from blendcheck.estimates.classes.model import (
    Classified,
    Mixture,
    Part,
    Profile,
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
    else:
        yield from _without_own(mixture, parts)


def _without_own(mixture: Mixture, parts: list[Part]) -> Iterator[Classified]:
    """Classify where no flash point of the mixture itself was measured."""
    alone = mixture.alone
    if alone is not None and (kept := _claimed(alone.profile)):
        yield from _kept(alone, kept, mixture.liquid)
    elif len(parts) == 1 and (flash := parts[0].profile.flash) is not None:
        one = parts[0]
        yield from _by_own(one.name, flash, one.profile.boiling, mixture.liquid)
    else:
        yield from _by_parts(parts)


def _claimed(profile: Profile, *, documented: bool = True) -> dict[str, str]:
    """Return the classes that a sheet prints, each with who says so."""
    return {
        one.name: f"{one.name} ({one.statement}), {one.source}"
        for one in profile.claims
        if one.name in _NAMES and (one.documented or not documented)
    }


def _by_flash(profile: Profile) -> set[str]:
    """Return the classes that the flash point of a part allows.

    Where no boiling point was entered a class on the sheet decides between 1 and 2.
    """
    if profile.flash is None or not _has_flash(profile):
        return set()
    found, _ = _categories(profile.flash, profile.boiling)
    decided = profile.boiling is None and _claimed(profile)
    return found - {"Flam. Liq. 1"} if decided else found


def _kept(
    part: Part,
    kept: dict[str, str],
    liquid: bool | None,  # noqa: FBT001
) -> Iterator[Classified]:
    """Keep the class of the sheet; a flash point that says another is shown beside."""
    flash = part.profile.flash
    lines = [f"{part.name}: {said}" for said in kept.values()]
    lines.append("it stands alone, so the class of its sheet holds")
    allowed = _by_flash(part.profile)
    if flash is not None and allowed:
        lines.append(f"flash point of {part.name}: {print_range(flash, '°C')}")
    sure = Standing.CERTAIN if liquid is True else Standing.POSSIBLE
    worst = min(kept)  # Flam. Liq. 1 before 2 before 3
    for name in _NAMES:
        if name == worst:
            yield _entry(name, sure, lines, (part.name,), flash)
            return
        if name in allowed:
            yield _entry(name, Standing.POSSIBLE, lines, (part.name,), flash)


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
    """Say what is possible from the flash points and the classes of the parts."""
    read, names, missing = set[str](), dict[str, list[str]](), list[str]()
    for part in parts:
        found = set(_claimed(part.profile, documented=False)) | _by_flash(part.profile)
        read |= set(_claimed(part.profile)) | _by_flash(part.profile)
        for hazard_class in found:
            names.setdefault(hazard_class, []).append(part.name)
        if not found and not part.profile.complete and not _has_flash(part.profile):
            missing.append(part.name)
    _fill(names, len(parts))
    lines = [line for part in parts for line in _lines(part)]
    lines.append(
        "flash point of the mixture not measured: its parts show what is possible"
    )
    if missing:
        lines.append(f"no flash point entered for {', '.join(missing)}")
    for hazard_class in _NAMES:
        if hazard_class in names:
            because = tuple(names[hazard_class])
            found_one = _entry(hazard_class, Standing.POSSIBLE, lines, because, None)
            marks = frozenset() if read else frozenset({Mark.FROM_MEMORY})
            yield replace(found_one, marks=found_one.marks | marks)
        elif missing:
            yield _entry(hazard_class, Standing.OPEN, lines, tuple(missing), None)


def _has_flash(profile: Profile) -> bool:
    flash = profile.flash
    return flash is not None and (flash.low, flash.high) != (None, None)


def _lines(part: Part) -> Iterator[str]:
    for said in _claimed(part.profile, documented=False).values():
        yield f"{part.name}: {said}"
    flash = part.profile.flash
    if flash is not None and _has_flash(part.profile):
        yield f"flash point of {part.name}: {print_range(flash, '°C')}"


def _fill(names: dict[str, list[str]], count: int) -> None:
    """Add the milder classes: a part that burns less can raise the flash point."""
    worst = next((name for name in _NAMES if name in names), None)
    if worst is None or len(names[worst]) == count:
        return
    for name in _NAMES[_NAMES.index(worst) :]:
        names.setdefault(name, list(names[worst]))
