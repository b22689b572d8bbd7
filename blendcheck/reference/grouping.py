"""Substances that count together: isomers of a name, parts of a sum.

A cap on ``citral`` speaks of geranial and neral; a certificate that prints
limonene by one CAS number speaks of all its isomers. Adding up is the caller's
work, and it says that it did so.
"""

from collections.abc import Mapping
from functools import cache

from blendcheck.frozen import Frozen
from blendcheck.reference.rows import GroupMember
from blendcheck.reference.tables import rows_of

__all__ = ["Group", "groups", "groups_of", "members_of"]


class Group(Frozen):
    """A name that documents use for several substances.

    Parameters
    ----------
    name : str
        As in the table.
    cas : str or None
        The number under which documents print the group, if there is one.
    members : tuple of GroupMember
        Each with its relation, source and place.
    """

    name: str
    cas: str | None
    members: tuple[GroupMember, ...]


@cache
def groups() -> tuple[Group, ...]:
    """Return every group, in the order of the table.

    Returns
    -------
    tuple of Group
        Groups may contain members of other groups.
    """
    rows: dict[str, list[GroupMember]] = {}
    for row in rows_of(GroupMember):
        rows.setdefault(row.group, []).append(row)
    return tuple(
        Group(name, members[0].group_cas or None, tuple(members))
        for name, members in rows.items()
    )


@cache
def _members() -> Mapping[str, frozenset[str]]:
    """Return the members of each group, by CAS number and by name."""
    direct: dict[str, set[str]] = {}
    for group in groups():
        numbers = {member.member_cas for member in group.members}
        for key in filter(None, (group.name, group.cas)):
            direct.setdefault(key, set()).update(numbers)

    def reach(key: str) -> frozenset[str]:
        found: set[str] = set()
        ahead = [key]
        while ahead:
            for cas in direct.get(ahead.pop(), set()) - found:
                found.add(cas)
                ahead.append(cas)
        return frozenset(found)

    return {key: reach(key) for key in direct}


def members_of(cas_or_name: str) -> frozenset[str]:
    """Return the CAS numbers that count when a document speaks of a substance.

    Parameters
    ----------
    cas_or_name : str
        A CAS number, or the name of a group as in the table.

    Returns
    -------
    frozenset of str
        The number itself and the members of its group, members of members
        included. Only the number itself where no group has it; for the name of a
        group without a number, its members.

    Examples
    --------
    >>> sorted(members_of("5392-40-5"))  # citral: itself, neral, geranial
    ['106-26-3', '141-27-5', '5392-40-5']
    >>> members_of("470-82-6")
    frozenset({'470-82-6'})
    """
    own = {group.name: group.cas for group in groups()}
    itself = own.get(cas_or_name, cas_or_name)
    members = _members().get(cas_or_name, frozenset())
    return members if itself is None else members | {itself}


def groups_of(cas: str) -> tuple[Group, ...]:
    """Return the groups that a substance counts in.

    Parameters
    ----------
    cas : str
        A CAS number.

    Returns
    -------
    tuple of Group
        Those that have it as a member, directly or through another group, and the
        group that it names.
    """
    return tuple(
        group
        for group in groups()
        if cas == group.cas or cas in _members()[group.cas or group.name]
    )
