"""How much of each entry of the list of fragrance allergens is in the piece.

An entry may be a substance, a group whose members are added up, or an oil. An oil
counts by its number or its INCI name; a number that stands in two entries, or a name
alone, may count and is asked about. Oil and constituents of the same bottle are two
entries, and both are looked at.
"""

import re
from collections.abc import Iterable, Mapping
from functools import cache
from types import MappingProxyType

from blendcheck import reference
from blendcheck.blend.expand import Node
from blendcheck.blend.shares import Share, Subject
from blendcheck.blend.totals import SubjectTotal
from blendcheck.checks.case import Case
from blendcheck.checks.contents import counted_together
from blendcheck.checks.entries import used
from blendcheck.quantity import Mark
from blendcheck.records.mass import key_of
from blendcheck.records.material import Material, identity_of
from blendcheck.records.working import Figure, Id
from blendcheck.reference import AllergenEntry

__all__ = ["entry_total", "is_oil_entry", "oil_entries_of", "oils_not_placed"]

_ONE_OIL = frozenset({"essential oil", "absolute"})
"""Kinds that are one oil and not a mixture of oils."""

_OIL_WORDS = re.compile(r"\b(?:oil|extract|absolute|water|resin|turpentine)\b", re.I)
_NOT_THE_OIL = re.compile(r"\b(?:essential|oil|absolute|organic|undiluted)\b", re.I)


@cache
def is_oil_entry(entry: AllergenEntry) -> bool:
    """Whether an entry is an oil, an extract or an absolute.

    Parameters
    ----------
    entry : AllergenEntry
        An entry of the list.
    """
    return any(_OIL_WORDS.search(name) for name in entry.members)


def _plain(text: str) -> str:
    """Return a name in lower case, without brackets and the sign of a hybrid."""
    bare = re.sub(r"\(.*?\)", " ", text.casefold().replace("×", " "))
    words = [word for word in re.findall(r"[^\W_]+", bare) if word != "x"]
    return " ".join(words)


@cache
def _oil_names() -> Mapping[str, tuple[AllergenEntry, ...]]:
    """Return the oil entries by each INCI name and each number."""
    found: dict[str, tuple[AllergenEntry, ...]] = {}
    for entry in reference.allergens():
        if is_oil_entry(entry):
            for name in {*map(_plain, (*entry.members, entry.label_name)), *entry.cas}:
                found[name] = (*found.get(name, ()), entry)
    return MappingProxyType(found)


def _by_name(material: Material) -> frozenset[str]:
    """Return the entries that the name of an oil may mean."""
    wanted = {_plain(_NOT_THE_OIL.sub(" ", material.name)), _plain(material.botanical)}
    oils = {row.oil for name in wanted if name for row in reference.find_oils(name)}
    watched = {
        name
        for text in (material.name, material.botanical)
        if text
        for name in reference.oils_named(text)
    }
    oils |= {row.oil for row in reference.oils().values() if row.watched_as in watched}
    numbers = {
        row.cas
        for oil in oils
        for row in reference.rows_where(reference.OilNumber, "oil", oil)
    }
    found = {entry.entry for n in numbers for entry in _oil_names().get(n, ())}
    plant = _plain(material.botanical)
    return frozenset(found) | {
        entry.entry
        for name, entries in _oil_names().items()
        for entry in entries
        if plant and name.startswith(f"{plant} ")
    }


def oil_entries_of(material: Material) -> tuple[frozenset[str], frozenset[str]]:
    """Return the entries that an oil is, and those that it may be.

    Parameters
    ----------
    material : Material
        A material of the shelf.

    Returns
    -------
    tuple of frozenset of str
        Reference numbers of the entries. Its INCI name settles it; else a number
        that stands in one entry only; a name alone settles nothing.
    """
    if material.kind not in _ONE_OIL:
        return frozenset(), frozenset()
    by_inci = _oil_names().get(_plain(material.inci), ()) if material.inci else ()
    by_cas = _oil_names().get(material.cas or "", ())
    if len(by_inci) == 1:
        return frozenset({by_inci[0].entry}), frozenset()
    if len(by_cas) == 1:
        return frozenset({by_cas[0].entry}), frozenset()
    if by_cas or by_inci:
        return frozenset(), frozenset(entry.entry for entry in (*by_cas, *by_inci))
    if material.cas or material.inci:
        return frozenset(), frozenset()
    return frozenset(), _by_name(material)


def oils_not_placed(case: Case) -> tuple[str, ...]:
    """Name the oils of which nothing says which entry they are, if any.

    Parameters
    ----------
    case : Case
        The case.

    Returns
    -------
    tuple of str
        Oils without a number and an INCI name whose name is no help either.
    """
    return tuple(
        material.name
        for material in used(case.totals).values()
        if material.kind in _ONE_OIL
        and not (material.cas or material.inci)
        and not _by_name(material)
    )


def _group(entry: AllergenEntry, case: Case) -> str:
    """Return the identity that stands for the whole entry."""
    if len(entry.cas) == 1:
        return next(iter(entry.cas))
    for cas in sorted(entry.cas):
        if entry.cas - {cas} <= case.totals.knowledge.parts_of(cas):
            return cas
    return f"allergen:{entry.entry}"


def _subject(entry: AllergenEntry, case: Case) -> Subject:
    own = _group(entry, case)
    names = {
        identity_of(name, None) for name in (*entry.members, entry.label_name) if name
    }
    found = counted_together(entry.label_name, own, entry.cas, case)
    members, present = found.members, case.totals.components
    if own.startswith("allergen:"):
        # a form that nobody prints is spoken for by the group that it belongs to
        parts = {
            part
            for one in members
            for part in case.totals.knowledge.parts_of(one) - {one}
        }
        members = frozenset(m for m in members if m in present or m not in parts)
    proposed = (found.proposed | (names & present.keys())) - members
    refused = {
        identity_of(one.name, None)
        for one in case.materials.confirmed
        if one.name is not None and not one.same and one.cas in entry.cas
    }
    return Subject(found.name, own, members, proposed - refused)


def entry_total(entry: AllergenEntry, case: Case) -> SubjectTotal:
    """Total an entry over oils and components.

    Parameters
    ----------
    entry : AllergenEntry
        An entry of the list.
    case : Case
        The case.

    Returns
    -------
    SubjectTotal
        Percent of the finished product in its three readings.
    """
    subject = _subject(entry, case)
    totals = case.totals
    if not is_oil_entry(entry):
        return totals.subject(subject)
    sure: set[str] = set()
    maybe: set[str] = set()
    for name, material in used(totals).items():
        is_it, may_be = oil_entries_of(material)
        if entry.entry in is_it:
            sure.add(name)
        elif entry.entry in may_be:
            maybe.add(name)

    def leaf(node: Node, _: bool) -> Share:  # noqa: FBT001
        if node.material is None:
            return Share()
        if node.material.id in sure | maybe:
            return _itself(node, subject, case, is_sure=node.material.id in sure)
        if _cannot_hold(node, subject.members | subject.proposed):
            return Share()
        return totals.shares.of(node, subject)

    marked = frozenset(f"material:{one}" for one in sure)
    possible = frozenset(f"material:{one}" for one in maybe)
    named = Subject(
        subject.name,
        subject.own,
        subject.members | marked,
        subject.proposed | possible,
    )
    return totals.found_in(named, leaf)


def _cannot_hold(node: Node, wanted: Iterable[str]) -> bool:
    """Whether a leaf is one oil whose papers name no other oil in it."""
    material = node.material
    if material is None or material.kind not in _ONE_OIL:
        return False
    printed = {row.identity for made in material.lists(node.lot) for row in made.row}
    return printed.isdisjoint(wanted)


def _itself(node: Node, subject: Subject, case: Case, *, is_sure: bool) -> Share:
    """Return the share of an oil in itself; less where it is sold diluted."""
    totals, material = case.totals, node.material
    share: Id | None = totals.hundred()
    if material is not None and material.dilution is not None:
        share = Id(
            case.working.add(
                Figure(
                    key_of("dilution", material.id),
                    material.dilution.percent.printed,
                    material.dilution.percent.range,
                    "%",
                    f"share of the oil in {material.name} as sold",
                )
            )
        )
        share = totals.shares.can_stay(node, subject, share)
    elif node.leaves is not None:
        share = case.working.work(
            f"stay/{node.leaves}",
            "stays",
            (totals.hundred(), node.leaves),
            unit="%",
            says=f"share of {node.says} that stays",
        ).id
    if is_sure or share is None:
        return Share(share, share, share)
    may_be = case.working.work(
        f"{node.id}/{share}/may count as {subject.own}",
        "may count",
        (share,),
        unit="%",
        says=f"{node.says}, if it counts as {subject.name}",
        doubts=frozenset({Mark.UNCONFIRMED}),
    ).id
    return Share(None, may_be, may_be)
