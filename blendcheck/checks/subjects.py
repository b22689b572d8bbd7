"""Who counts as whom: matching by CAS, then by what the maker confirmed.

Nothing is merged or split silently. A match that the tables propose and the maker
has not answered counts as something that *may* be there, and so does a printed name
without a number that the tables do not know: it can turn a ``within`` into ``unknown``
and never the other way round.
"""

from blendcheck.blend.shares import Subject
from blendcheck.blend.totals import Totals
from blendcheck.records.material import CapEntry, Confirmed, Materials, identity_of

__all__ = ["holds_no_scent", "proposals_for", "subject_of"]

_NO_SCENT = frozenset(
    {"ash", "fatty acids", "paraffins", "sterols", "triglycerides", "wax", "waxes"}
)


def holds_no_scent(name: str) -> bool:
    """Whether a printed line without a number is known to name no scent.

    Parameters
    ----------
    name : str
        As printed.

    Returns
    -------
    bool
        True for waxes, fats and the like (common practice).
    """
    return name.casefold().strip() in _NO_SCENT


def subject_of(entry: CapEntry, totals: Totals) -> Subject:
    """Return what a cap on a component counts.

    Parameters
    ----------
    entry : CapEntry
        A cap on a component.
    totals : Totals
        The totals whose components are matched.

    Returns
    -------
    Subject
        With confirmed members and open proposals.
    """
    own = entry.subject
    name = entry.name or totals.components.get(own, own)
    if (name, own) not in totals.matched:
        totals.matched[name, own] = _subject(name, own, totals)
    return totals.matched[name, own]


def _subject(name: str, own: str, totals: Totals) -> Subject:
    materials, knowledge = totals.materials, totals.knowledge
    own = totals.alias.get(own, own)
    confirmed = {own} | _confirmed(materials, own)
    members = {totals.alias.get(identity, identity) for identity in confirmed}
    members |= confirmed & totals.components.keys()
    refused = _refused(materials, own)
    related = set(knowledge.parts_of(own)) | {
        group for group, parts in knowledge.groups.items() if own in parts
    }
    if own.startswith("name:"):
        related |= knowledge.names(own.removeprefix("name:"))
    proposed = {i for i in related if i in totals.components}
    for identity, printed in totals.components.items():
        if not identity.startswith("name:"):
            continue
        wanted = members | related
        if _may_be_any(identity, printed, totals) or not wanted.isdisjoint(
            knowledge.names(printed)
        ):
            proposed.add(identity)
    proposed -= members | refused
    return Subject(name, own, frozenset(members), frozenset(proposed))


def _may_be_any(identity: str, printed: str, totals: Totals) -> bool:
    """Whether nobody can say what a printed name without a number means."""
    known = totals.knowledge.names(printed) or identity in totals.alias
    return not known and not holds_no_scent(printed)


def _identities(entry: Confirmed) -> str:
    return entry.cas if entry.name is None else identity_of(entry.name, None)


def _confirmed(materials: Materials, own: str) -> set[str]:
    """Identities that the maker said are this, or count toward it."""
    found: set[str] = set()
    grew = True
    while grew:
        grew = False
        for entry in materials.confirmed:
            target = entry.counts_as or entry.cas
            who = _identities(entry)
            if entry.same and target in found | {own} and who not in found | {own}:
                found.add(who)
                grew = True
        for entry in materials.confirmed:
            # a cap written by name only, confirmed to mean a CAS number
            if (
                entry.same
                and entry.name is not None
                and entry.counts_as is None
                and identity_of(entry.name, None) == own
                and entry.cas not in found
            ):
                found.add(entry.cas)
                grew = True
    return found


def _refused(materials: Materials, own: str) -> set[str]:
    return {
        _identities(entry)
        for entry in materials.confirmed
        if not entry.same and (entry.counts_as or entry.cas) == own
    }


def proposals_for(subject: Subject, totals: Totals) -> tuple[tuple[str, str], ...]:
    """List the matches that are open, as printed name and identity.

    Parameters
    ----------
    subject : Subject
        What is counted.
    totals : Totals
        The totals that name the components.
    """
    return tuple(
        (totals.components.get(identity, identity), identity)
        for identity in sorted(subject.proposed)
    )
