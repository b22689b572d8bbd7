"""One entry as plain text with numbered sources."""

from collections.abc import Iterable, Iterator
from typing import Final

from blendcheck.entry import (
    POISON_LINE,
    Figure,
    Law,
    OilEntry,
    Quantity,
    Share,
    Structure,
    SubstanceEntry,
    Told,
)
from blendcheck.interval import Range
from blendcheck.plain_reference.lines import Sources, item, section
from blendcheck.quantity import print_range
from blendcheck.textlines import wrapped

__all__ = ["entry_text"]

_NOT_YOURS: Final = (
    "What others published, never your lot: your supplier's paper comes first. What "
    "is not here is not thereby harmless. The number in brackets is the source at "
    "the end; “from memory” means that nobody read it there."
)
_DRAWN: Final = {
    "complete": "one isomer",
    "open": "some of its stereo is not stated",
    "one of": "one of the isomers that it stands for",
}


def entry_text(entry: SubstanceEntry | OilEntry) -> str:
    """Write an entry for reading.

    Parameters
    ----------
    entry : SubstanceEntry or OilEntry
        The entry.

    Returns
    -------
    str
        Plain text with numbered sources.
    """
    cited = Sources()
    if isinstance(entry, OilEntry):
        lines = list(_oil(entry, cited))
    else:
        lines = list(_substance(entry, cited))
    lines += _law(entry.law, cited)
    lines += section("Sources", cited.lines())
    return "\n".join(lines) + "\n"


def _substance(entry: SubstanceEntry, cited: Sources) -> Iterator[str]:
    number = f", CAS {entry.cas}" if entry.cas else ""
    yield f"{entry.name}{number}"
    if not entry.listed:
        yield wrapped(
            "The table of constituents does not have it; other tables name it."
        )
    if entry.note:
        yield wrapped(entry.note)
    yield from _structure(entry.structure, cited)
    yield ""
    yield wrapped(_NOT_YOURS)
    named = (item(f"{n.text} ({n.kind})", cited.cite(n.place)) for n in entry.names)
    yield from section("Names", named)
    numbers = (item(f"{n.text} ({n.kind})", cited.cite(n.place)) for n in entry.numbers)
    yield from section("Other numbers", numbers)
    yield from section("Counts together with", _groups(entry, cited))
    yield from section("Watched for", _told(entry.watch, cited))
    yield from section("May irritate the airways", _told(entry.breathing, cited))
    yield from section("Invitations to look", _look(entry.structure, cited))
    yield from section("Figures", _quantities(entry.properties, cited))
    fits = (
        item(
            f"{fit.equation}: {fit.formula}",
            ", ".join(f"{k} = {v}" for k, v in fit.coefficients.items()),
            f"from {fit.valid} only",
            cited.cite(fit.place),
        )
        for fit in entry.fits
    )
    yield from section("Vapour pressure by equation", fits)
    yield from section("Published oils that contain it", _in_oils(entry, cited))


def _structure(found: Structure, cited: Sources) -> Iterator[str]:
    if found.formula:
        drawn = _DRAWN.get(found.drawn, "")
        shown = f"; SMILES {found.smiles} ({drawn})" if found.smiles else ""
        place = "" if found.place is None else f" {cited.cite(found.place)}"
        yield wrapped(f"{found.formula}, {found.molar_mass}{shown}.{place}")
    if found.family:
        yield wrapped(f"Shown with the {found.family}.")
    if found.functional_groups:
        groups = ", ".join(f"{k} ({n})" for k, n in found.functional_groups.items())
        yield wrapped(f"Functional groups: {groups}.")


def _groups(entry: SubstanceEntry, cited: Sources) -> Iterator[str]:
    for group in entry.groups:
        number = f", CAS {group.cas}" if group.cas else ""
        yield f"  {group.name}{number}"
        for part in group.parts:
            what = f"{part.relation} {group.name}"
            yield item(f"{part.name}, {part.cas}", what, cited.cite(part.place))


def _told(found: Iterable[Told], cited: Sources) -> Iterator[str]:
    for told in found:
        figure = "" if told.figure is None else f": {told.figure.printed}"
        yield item(f"{told.about}: {told.says}{figure}", cited.cite(told.place))


def _look(found: Structure, cited: Sources) -> Iterator[str]:
    if found.alerts is None:
        yield wrapped("Its structure is not known, so nothing was looked for.", "  ")
    for alert in found.alerts or ():
        says = f"{alert.name} ({alert.domain}): {alert.says}"
        yield item(says, cited.cite(alert.place))
    yield from _told(found.air_oxidation, cited)


def _figure(figure: Figure, cited: Sources) -> str:
    shown = figure.shown
    if figure.printed != figure.shown:
        shown += f" (printed {figure.printed})"
    basis = "" if figure.basis == "not stated" else figure.basis
    return item(shown, figure.conditions, basis, cited.cite(figure.place))


def _quantities(found: Iterable[Quantity], cited: Sources) -> Iterator[str]:
    for quantity in found:
        count = len(quantity.figures)
        rivals = f", {count} figures" if count > 1 else ""
        yield f"  {quantity.name}{rivals}"
        for figure in quantity.figures:
            yield _figure(figure, cited)


def _share(share: Share, cited: Sources, *, named: bool) -> str:
    what = f"as {share.printed_as}" if named else ""
    if named and share.cas:
        what += f", {share.cas}"
    typical = "typical" if share.typical else ""
    figure = share.figure
    return item(
        figure.printed, typical, what, figure.conditions, cited.cite(figure.place)
    )


def _in_oils(entry: SubstanceEntry, cited: Sources) -> Iterator[str]:
    for oil in entry.in_oils:
        yield f"  {oil.name}"
        for share in oil.shares:
            yield _share(share, cited, named=share.cas != entry.cas)


# -- an oil ------------------------------------------------------------------


def _oil(entry: OilEntry, cited: Sources) -> Iterator[str]:
    yield f"{entry.name} oil{f', CAS {entry.cas}' if entry.cas else ''}"
    yield wrapped(f"{entry.botanical_name}, {entry.part}. {cited.cite(entry.place)}")
    yield ""
    yield wrapped(_NOT_YOURS)
    numbers = (item(n.text, cited.cite(n.place)) for n in entry.numbers)
    yield from section("CAS numbers", numbers)
    yield from section("Watched for", _told(entry.watch, cited))
    light = (
        item(
            f"{one.name}, {one.made}: "
            + ("acts with light" if one.phototoxic == "yes" else "not listed for it"),
            "the way this oil is made" if one.fits else "",
            one.says,
            cited.cite(one.place),
        )
        for one in entry.phototoxicity
    )
    yield from section("Light", light)
    yield from section("Figures", _quantities(entry.properties, cited))
    yield from section("Published composition", _components(entry, cited))


def _span(read: Range | None, recalled: Range | None) -> str:
    if read is not None:
        return print_range(read, "%")
    if recalled is not None:
        return f"{print_range(recalled, '%')}, from memory or typical only"
    return "no figure"


def _components(entry: OilEntry, cited: Sources) -> Iterator[str]:
    for part in entry.components:
        number = f", {part.cas}" if part.cas else ""
        span = _span(part.read, part.recalled)
        yield wrapped(f"{part.name}{number}: {span}", "    ", "  ")
        for share in part.shares:
            yield _share(share, cited, named=False)


# -- law ---------------------------------------------------------------------


def _law(law: Law, cited: Sources) -> list[str]:
    allergens = (
        item(
            f"{one.entry}, {one.label_name}",
            "prohibited"
            if one.prohibited
            else f"named above {one.leave_on} (leave-on), {one.rinse_off} (rinse-off)",
            f"for {', '.join(one.members)}, added up" if len(one.members) > 1 else "",
            one.since,
            cited.cite(one.place),
        )
        for one in law.allergens
    )
    limits = (
        item(
            f"{one.jurisdiction}, {one.provision}, {one.substance}, {one.applies_to}: "
            f"{one.figure.quantity} {one.figure.shown}",
            one.figure.conditions,
            _dates(one.in_force_from, one.superseded_on),
            cited.cite(one.figure.place),
        )
        for one in law.limits
    )
    air = (
        item(
            f"{one.issued_by} ({one.jurisdiction}), {one.substance}, "
            f"{one.figure.quantity}: {one.figure.shown}",
            one.figure.conditions,
            _dates(one.in_force_from, one.superseded_on),
            cited.cite(one.figure.place),
        )
        for one in law.air_limits
    )
    hazards = (
        item(
            f"{one.hazard_class} {one.statement} ({one.standing})",
            one.wording,
            one.limits,
            cited.cite(one.place),
        )
        for one in law.hazards
    )
    return [
        *section("Fragrance allergens, EU list", allergens),
        *section("Limits in law", limits),
        *section("Air: workplace and indoor values, not for a shower", air),
        *section("Odour and irritation", _quantities(law.irritation, cited)),
        *section("Hazard classes: the supplier's sheet decides", hazards),
        *section(
            "Swallowing: your own note only",
            _told(law.swallowing, cited),
            lead=POISON_LINE,
        ),
    ]


def _dates(start: str, end: str) -> str:
    words = (f"from {start}" if start else "", f"until {end}" if end else "")
    return " ".join(filter(None, words))
