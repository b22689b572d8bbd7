"""Everything that the tables say about an essential oil."""

import re
from collections.abc import Iterable, Iterator
from fractions import Fraction
from typing import Final

from blendcheck import reference
from blendcheck.entry.laws import law_of
from blendcheck.entry.making import by_quantity, place_of, share_of, together
from blendcheck.entry.records import Component, Name, Phototoxicity, Told
from blendcheck.entry.whole import OilEntry
from blendcheck.reference import Oil, OilComponent, OilNumber, rows_of

__all__ = ["bare_name", "oil_entry"]

_MADE: Final = ("expressed", "distilled")


def bare_name(text: str) -> str:
    """Return the name of an oil without what stands in brackets and without "oil".

    Parameters
    ----------
    text : str
        Such as ``lime (distilled)`` or ``Lime essential oil``.

    Examples
    --------
    >>> bare_name("Lime essential oil"), bare_name("lime (distilled)")
    ('Lime', 'lime')
    """
    plain = " ".join(text.partition("(")[0].split())
    return re.sub(r"(?i)(?:\s+essential)?\s+oil$", "", plain)


def oil_entry(oil_id: str) -> OilEntry:
    """Return everything that the tables say about an essential oil.

    Parameters
    ----------
    oil_id : str
        Its id.

    Returns
    -------
    OilEntry
        Nothing in it is of the maker's own lot.

    Raises
    ------
    ReferenceDataError
        If there is no oil of that id.

    Examples
    --------
    >>> entry = oil_entry("peppermint")
    >>> entry.components[0].name, len(entry.components[0].shares) > 2
    ('menthol', True)
    """
    oil = reference.oil(oil_id)
    numbers = tuple(row for row in rows_of(OilNumber) if row.oil == oil.oil)
    printed = frozenset({row.cas for row in numbers} | ({oil.cas} - {""}))
    return OilEntry(
        oil=oil.oil,
        name=oil.name,
        botanical_name=oil.botanical_name,
        part=oil.part,
        cas=oil.cas,
        note=oil.note,
        place=place_of(oil),
        numbers=tuple(Name(row.cas, "CAS number", place_of(row)) for row in numbers),
        components=_components(oil.oil),
        properties=by_quantity(reference.oil_properties(oil.oil)),
        watch=tuple(_watch(oil)),
        phototoxicity=tuple(_light(oil)),
        law=law_of(printed, printed, f"{bare_name(oil.name)} oil"),
    )


def _components(oil_id: str) -> tuple[Component, ...]:
    rows: dict[str, list[OilComponent]] = {}
    for row in reference.oil_composition(oil_id):
        rows.setdefault(row.cas or row.constituent, []).append(row)
    return tuple(sorted((_component(each) for each in rows.values()), key=_least_first))


def _least_first(component: Component) -> Fraction:
    span = component.read or component.recalled
    return -(span.high or Fraction(0)) if span is not None else Fraction(0)


def _component(rows: list[OilComponent]) -> Component:
    read = [row for row in rows if row.quantity == "content" and row.tag == "seen"]
    others = [row for row in rows if row not in read]
    cas = rows[0].cas
    return Component(
        name=rows[0].constituent,
        cas=cas or None,
        family=reference.family_of(cas) if cas else None,
        read=together(row.range for row in read),
        recalled=together(row.range for row in others),
        shares=tuple(share_of(row) for row in (*read, *others)),
    )


def _watch(oil: Oil) -> Iterator[Told]:
    for row in reference.oil_watch(oil.oil):
        most = f"; up to {row.most} % published" if row.most else ""
        yield Told(f"{row.name}: {row.concern}", row.says + most, None, place_of(row))
    # a caution about the expressed oil says nothing of a distilled one
    spared = any(one.fits and one.phototoxic == "no" for one in _light(oil))
    for caution in reference.watch():
        if caution.reason == "phototoxic" and spared:
            continue
        if caution.about == "oil" and caution.subject == oil.watched_as:
            yield Told(
                f"{caution.subject} oil: {caution.reason}",
                caution.says,
                None,
                place_of(caution),
            )


def _light(oil: Oil) -> Iterable[Phototoxicity]:
    """Return what is listed of oils of that name, its own way of making first."""
    name = bare_name(oil.name)
    made = next((way for way in _MADE if way in f"{oil.name} {oil.part}"), "")
    found = []
    for row in reference.phototoxic_oils():
        if row.name in (name, oil.watched_as) or (
            row.watched_as and row.watched_as == oil.watched_as
        ):
            known = made and row.made in _MADE
            found.append(
                Phototoxicity(
                    row.name,
                    row.made,
                    row.phototoxic,
                    row.says,
                    (row.made == made) if known else None,
                    place_of(row),
                )
            )
    return sorted(found, key=lambda each: each.fits is not True)
