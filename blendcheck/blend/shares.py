"""What a lot holds of a substance, and what the silence of a list means.

Three readings of every share are kept apart: what is *documented*; the *most*
that it can be once everything that no list shows is counted too; and the most
when figures from a published range are not taken for the lot's own (*strict*).
"""

from collections.abc import Callable, Iterable, Mapping
from fractions import Fraction
from typing import NamedTuple

from blendcheck.blend.expand import Node
from blendcheck.blend.lists import Lists, Row, own_identity
from blendcheck.interval import Range, exact_sum
from blendcheck.quantity import Mark
from blendcheck.records.mass import Key
from blendcheck.records.working import Figure, Id, Working

__all__ = ["Share", "Shares", "Subject"]


class Subject(NamedTuple):
    """What is totalled: a substance, or a group with its members.

    Parameters
    ----------
    name : str
        What to call it.
    own : str
        Its own identity (CAS number or ``name:...``).
    members : frozenset of str
        Identities that count, its own included.
    proposed : frozenset of str
        Identities that would count if the maker confirmed the match.
    """

    name: str
    own: str
    members: frozenset[str]
    proposed: frozenset[str] = frozenset()

    @property
    def key(self) -> str:
        """Everything that counts, for the names of steps: two subjects, two steps."""
        others = ("+" + identity for identity in sorted(self.members - {self.own}))
        maybe = ("?" + identity for identity in sorted(self.proposed))
        return "".join((self.own, *others, *maybe))


class Share(NamedTuple):
    """Ids of the three readings of a share; ``None`` is documented as nothing."""

    documented: Id | None = None
    most: Id | None = None
    strict: Id | None = None

    @property
    def is_there(self) -> bool:
        """Whether any of it can be there at all."""
        return self.most is not None


class Shares:
    """Shares of substances in lots, worked out once each.

    Parameters
    ----------
    working : Working
        Where figures and steps are kept.
    volatile : callable
        Says of an identity whether a gas chromatograph would show it.
    parts_of : callable
        Members of a group by its identity, so that a list with both a group and
        its members is not counted twice.
    alias : mapping of str to str
        CAS numbers of names that the maker confirmed, by identity.
    """

    def __init__(
        self,
        working: Working,
        volatile: Callable[[str], bool],
        parts_of: Callable[[str], frozenset[str]],
        alias: Mapping[str, str],
    ) -> None:
        self.working = working
        self.lists = Lists(working, volatile, parts_of, alias)

    # -- the share of a subject -------------------------------------------

    def of(self, node: Node, subject: Subject, *, dried: bool = True) -> Share:
        """Return the three readings of a subject's share in a leaf.

        Parameters
        ----------
        node : Node
            A leaf.
        subject : Subject
            What is looked for.
        dried : bool, default True
            Whether what leaves on drying has left.
        """
        share = self._of(node, subject)
        if node.leaves is None or not dried or share.most is None:
            return share
        if node.material is not None and own_identity(node.material) is not None:
            stays = self._may_stay(share.most, node, subject)
            return Share(None, stays, stays)
        readings = (share.documented, share.most, share.strict)
        return Share(*(self.can_stay(node, subject, one) for one in readings))

    def _may_stay(self, share: Id, node: Node, subject: Subject) -> Id:
        """Return the share of what is left: it may be the water that stays."""
        return self.working.work(
            f"{share}|of what stays|{node.id}",
            "may count",
            (share,),
            unit="%",
            says=f"{subject.name} in what stays of {node.says}",
        ).id

    def can_stay(self, node: Node, subject: Subject, share: Id | None) -> Id | None:
        """Return what can be left of a share of a leaf that dries off.

        Parameters
        ----------
        node : Node
            A leaf.
        subject : Subject
            Whose share it is.
        share : Id or None
            The share of what was put in. [%]
        """
        if share is None or node.leaves is None:
            return share
        return self.working.work(
            f"{share}|stays|{node.id}",
            "can stay",
            (share, node.leaves),
            unit="%",
            says=f"{subject.name} that can stay of {node.says}",
        ).id

    def _of(self, node: Node, subject: Subject) -> Share:
        if node.material is None:
            return Share()
        own = own_identity(node.material)
        if own is not None:
            return self._of_one_substance(node, subject, own)
        name = f"{node.id}/{subject.key}"
        rows = self.lists.rows(node)
        inside = self._inside(rows, subject)
        maybe = [rows[i] for i in sorted(subject.proposed & rows.keys())]
        documented = self._documented(name, node, subject, inside)
        absent = self._absent(subject, inside)
        most = documented
        if absent or maybe or not all(row.says_most for row in inside):
            most = self._most(name, node, subject, documented, absent, inside, maybe)
        strict = most
        if any(row.published for row in (*inside, *maybe)):
            strict = self._room(f"{name}/strict", node, subject, None)
        return Share(documented, most, strict)

    def _of_one_substance(self, node: Node, subject: Subject, own: str) -> Share:
        if own in subject.members:
            whole = self._hundred()
            return Share(whole, whole, whole)
        if own in subject.proposed:
            whole = self._may_count(self._hundred(), f"{node.id}/", node.says, subject)
            return Share(None, whole, whole)
        return Share()

    def _hundred(self) -> Id:
        figure = Figure(Key("hundred"), "100", Range.at(100), "", "hundred")
        return Id(self.working.add(figure))

    def _may_count(self, share: Id, head: str, says: str, subject: Subject) -> Id:
        return self.working.work(
            f"{head}{share}/may count as {subject.own}",
            "may count",
            (share,),
            unit="%",
            says=f"{says}, if it counts as {subject.name}",
            doubts=frozenset({Mark.UNCONFIRMED}),
        ).id

    def _inside(self, rows: Mapping[str, Row], subject: Subject) -> list[Row]:
        """Return the rows that count, the group's own first."""
        found = sorted(
            subject.members & rows.keys(), key=lambda i: (i != subject.own, i)
        )
        return [rows[i] for i in found]

    def _documented(
        self, name: str, node: Node, subject: Subject, inside: list[Row]
    ) -> Id | None:
        printed = [(row, self._printed(row, node)) for row in inside]
        ids = [found for _, found in printed if found is not None]
        if not ids:
            return None
        others = self.lists.others(node, subject.members, subject.proposed)
        fits = self._high_sum(ids) <= 100 - self.lists.low_sum(others)
        if len(ids) == 1 and fits:
            return ids[0]
        group = inside[0].identity == subject.own and printed[0][1] is not None
        how = (str(len(ids)), "group") if group and len(ids) > 1 else (str(len(ids)),)
        return self.working.work(
            name,
            "sum inside one lot",
            (*ids, *(() if fits else others)),
            unit="%",
            says=f"{subject.name} in {node.says}",
            how=how,
        ).id

    def _printed(self, row: Row, node: Node) -> Id | None:
        """Return what is printed of a row: its range, or only its low end."""
        if row.says_most:
            return row.id
        if not self.working.range(row.id).low:
            return None
        return self.working.work(
            f"{row.id}/low",
            "low end only",
            (row.id,),
            unit="%",
            says=f"{row.name} in {node.says}, what is printed of it",
        ).id

    def _absent(self, subject: Subject, inside: list[Row]) -> frozenset[str]:
        """Return the members that no list shows.

        A list that shows the group shows all of it. A group that nothing shows by
        its own name is accounted for by its parts only where every part counts.
        """
        shown = {row.identity for row in inside}
        if subject.own in shown:
            return frozenset()
        absent = subject.members - shown
        parts = self.lists.parts_of(subject.own) - {subject.own}
        if parts and parts <= subject.members:
            absent -= {subject.own}
        named = {i for i in absent if self.lists.alias.get(i) in subject.members}
        return absent - named

    def _most(
        self,
        name: str,
        node: Node,
        subject: Subject,
        documented: Id | None,
        absent: frozenset[str],
        inside: list[Row],
        maybe: list[Row],
    ) -> Id:
        room = self._room(f"{name}/most", node, subject, documented)
        if not all(row.says_most for row in (*inside, *maybe)):
            return room
        cover = self.lists.cover(node, subject.own, absent) if absent else ()
        if cover is None:
            return room
        extra = [
            self._may_count(row.id, "", f"{row.name} in {node.says}", subject)
            for row in maybe
        ]
        given = tuple(i for i in (documented, *cover, *extra) if i is not None)
        limit = self.working.range(room).high
        if limit is not None and self._high_sum(given) >= limit:
            return room
        return self.working.work(
            f"{name}/covered",
            "sum inside one lot",
            given,
            unit="%",
            says=f"{subject.name} in {node.says}, at most",
            how=(str(len(given)),),
            doubts=frozenset({Mark.ABSENCE}) if cover else frozenset(),
        ).id

    def _high_sum(self, ids: Iterable[Id]) -> Fraction:
        highs = (self.working.range(i).high for i in ids)
        return exact_sum(high for high in highs if high is not None)

    def _room(
        self, name: str, node: Node, subject: Subject, documented: Id | None
    ) -> Id:
        others = self.lists.others(node, subject.members, subject.proposed)
        first = () if documented is None else (documented,)
        return self.working.work(
            name,
            "room in one lot",
            (*first, *others),
            unit="%",
            says=f"{subject.name} in {node.says}, at most",
            how=("documented",) if first else (),
            doubts=frozenset({Mark.ABSENCE}),
        ).id

    def unlisted(self, node: Node) -> Id | None:
        """Return the share of a leaf whose composition is not known.

        Parameters
        ----------
        node : Node
            A leaf.

        Returns
        -------
        Id or None
            The step [%], or ``None`` where nothing is missing.
        """
        if node.material is None or own_identity(node.material) is not None:
            return None
        lists = [one for one in self.lists.of(node) if not one.published]
        rows: tuple[Id, ...] = ()
        for one in lists:
            found = self.lists.without_doubles(one, frozenset())
            if self.lists.low_sum(found) > self.lists.low_sum(rows):
                rows = found
        return self.working.work(
            f"{node.id}/unlisted",
            "unlisted",
            rows,
            unit="%",
            says=f"share of {node.says} that its papers do not name",
        ).id
