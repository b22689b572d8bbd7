"""How much of each entry of the list of fragrance allergens is in the piece.

An entry may be a substance, a group whose members are added up, or an oil. An oil
counts by its number or its INCI name; what may be the oil is asked about. Oil and
constituents of the same bottle are two entries, and both are looked at. No list of
constituents shows which oils a perfume was made with.
"""

from functools import cache

from blendcheck import reference
from blendcheck.blend.expand import Node
from blendcheck.blend.shares import Share, Subject
from blendcheck.blend.totals import SubjectTotal
from blendcheck.checks.case import Case
from blendcheck.checks.contents import counted_together
from blendcheck.checks.entries import used
from blendcheck.checks.oil_entries import (
    is_oil_entry,
    is_one_oil,
    is_placed,
    oil_entries_of,
)
from blendcheck.checks.subjects import holds_no_scent
from blendcheck.quantity import Mark
from blendcheck.records.mass import key_of
from blendcheck.records.material import Material, identity_of
from blendcheck.records.working import Figure, Id
from blendcheck.reference import AllergenEntry

__all__ = ["entry_total", "names_not_placed"]


def _group(entry: AllergenEntry, case: Case) -> str:
    """Return the identity that stands for the whole entry."""
    if len(entry.cas) == 1:
        return next(iter(entry.cas))
    for cas in sorted(entry.cas):
        if entry.cas - {cas} <= case.totals.knowledge.parts_of(cas):
            return cas
    return f"allergen:{entry.entry}"


def names_not_placed(case: Case) -> dict[str, str]:
    """Return the printed lines of which nothing says what substance they are.

    Parameters
    ----------
    case : Case
        The case.

    Returns
    -------
    dict of str to str
        Names by identity: a name without a number that is not known, and an oil in
        the list of a mixture. Either may be, or may hold, any substance of the list.
    """
    known = case.totals.alias.keys() | _names_of_substances()
    return {
        identity: name
        for identity, name in case.totals.components.items()
        if identity not in known and _says_too_little(identity, name, case)
    }


def _says_too_little(identity: str, name: str, case: Case) -> bool:
    if identity.startswith("name:"):
        known = case.totals.knowledge.names(name)
        return not known and not holds_no_scent(name)
    return bool(reference.find_oils(identity))


@cache
def _names_of_substances() -> frozenset[str]:
    """Return the names of the entries that are no oils, as identities."""
    return frozenset(
        identity_of(name, None)
        for entry in reference.allergens()
        if not is_oil_entry(entry)
        for name in (*entry.members, entry.label_name)
        if name
    )


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
    if not is_oil_entry(entry):
        proposed |= names_not_placed(case).keys() - members
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
        return _of_others(node, subject, case)

    marked = frozenset(f"material:{one}" for one in sure)
    possible = frozenset(f"material:{one}" for one in maybe)
    named = Subject(
        subject.name,
        subject.own,
        subject.members | marked,
        subject.proposed | possible,
    )
    return totals.found_in(named, leaf)


def _of_others(node: Node, subject: Subject, case: Case) -> Share:
    """Return the share of an oil in a leaf that is not known to be it.

    A perfume may be made with it, and so may an oil of which nothing is recognised
    be it: what such a list names may come from the oil, so that only a statement on
    the oil itself leaves less room than the whole.
    """
    material, shares = node.material, case.totals.shares
    if material is None or case.totals.is_own(node):
        return shares.of(node, subject)
    wanted = subject.members | subject.proposed
    printed = {row.identity for made in material.lists(node.lot) for row in made.row}
    placed = is_one_oil(material) and is_placed(material)
    if placed and printed.isdisjoint(wanted):
        return Share()
    share = shares.of(node, subject)
    absent = subject.members - printed
    covered = shares.lists.cover(node, subject.own, absent) is not None
    if placed or covered or not (is_one_oil(material) or _is_perfume(material)):
        return share
    whole = _itself(node, subject, case, is_sure=False)
    return Share(share.documented, whole.most, whole.strict)


def _is_perfume(material: Material) -> bool:
    return material.kind == "fragrance oil"


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
