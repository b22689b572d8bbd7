"""Every leaf and every component of a recipe, low to high, each percent closed once."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import cached_property

from blendcheck.blend.amounts import Amounts, SubjectTotal, Traced
from blendcheck.blend.expand import Node
from blendcheck.blend.lists import own_identity
from blendcheck.blend.shares import Share, Shares, Subject
from blendcheck.quantity import Base
from blendcheck.records.material import Material, Materials, identity_of
from blendcheck.records.recipe import Recipe
from blendcheck.records.working import Id, Working

__all__ = ["Knowledge", "SubjectTotal", "Totals", "Traced", "total"]


@dataclass(frozen=True)
class Knowledge:
    """What the totals must know about substances, passed in from the tables.

    Parameters
    ----------
    volatile : callable
        Says of an identity whether a gas chromatograph would show it.
    groups : mapping of str to frozenset of str
        Members of each group by the group's CAS number.
    names : callable
        CAS numbers that a printed name may mean.
    """

    volatile: Callable[[str], bool] = lambda _: False
    groups: Mapping[str, frozenset[str]] = field(default_factory=dict)
    names: Callable[[str], frozenset[str]] = lambda _: frozenset()

    def parts_of(self, identity: str) -> frozenset[str]:
        """Members of a group; nothing for a substance that is none."""
        return self.groups.get(identity, frozenset())


LeafShare = Callable[[Node, bool], Share]
"""The share of a leaf, and whether the leaf lies inside a mix."""


class Totals(Amounts):
    """Totals of one recipe.

    Parameters
    ----------
    recipe, materials : Recipe, Materials
        What was written.
    working : Working
        Where figures and steps are kept.
    knowledge : Knowledge
        What the tables say about substances.

    Attributes
    ----------
    matched : dict of (str, str) to Subject
        What was counted as one subject so far, by its name and identity.

    Raises
    ------
    InputError, RecipeError
        If the recipe cannot be expanded.
    """

    def __init__(
        self,
        recipe: Recipe,
        materials: Materials,
        working: Working,
        knowledge: Knowledge,
    ) -> None:
        super().__init__(recipe, materials, working)
        self.knowledge = knowledge
        self.alias = {
            identity_of(entry.name, None): entry.cas
            for entry in materials.confirmed
            if entry.same and entry.name is not None and entry.counts_as is None
        }
        self.shares = Shares(
            working, knowledge.volatile, knowledge.parts_of, self.alias
        )
        self._subjects: dict[tuple[str, Subject, Base], SubjectTotal] = {}
        self.matched: dict[tuple[str, str], Subject] = {}

    # -- subjects ---------------------------------------------------------

    def subject(self, subject: Subject, base: Base = Base.FINISHED) -> SubjectTotal:
        """Total a substance or a group.

        Parameters
        ----------
        subject : Subject
            What is totalled.
        base : Base, default finished
            What it is a percent of.

        Returns
        -------
        SubjectTotal
            Its three readings.
        """
        dried = base is Base.FINISHED
        return self._total(
            "substance",
            subject,
            base,
            lambda node, _: self.shares.of(node, subject, dried=dried),
        )

    def material(self, material: Material, base: Base = Base.FINISHED) -> SubjectTotal:
        """Total a material over all its lots, as its papers describe it.

        Parameters
        ----------
        material : Material
            The material; of a diluted one whose papers describe the undiluted
            oil only that oil counts.
        base : Base, default finished
            What it is a percent of.
        """
        subject = Subject(material.name, f"material:{material.id}", frozenset())
        return self._leaf_total(subject, base, lambda m: m.id == material.id)

    def leaf(self, node: Node, base: Base = Base.FINISHED) -> SubjectTotal:
        """Total one leaf or mix of the recipe.

        Parameters
        ----------
        node : Node
            One of :attr:`nodes`.
        base : Base, default finished
            What it is a percent of.
        """
        subject = Subject(node.says, f"node:{node.id}", frozenset())
        whole = Share(self.hundred(), self.hundred(), self.hundred())
        return self._total(
            "leaves", subject, base, lambda one, _: whole if one is node else Share()
        )

    def lines(self) -> tuple[Traced, ...]:
        """Every leaf and mix of the recipe with the step of its mass."""
        whole = Share(self.hundred(), self.hundred(), self.hundred())
        return tuple(Traced(node, whole, node.wet or Id("")) for node in self.nodes)

    def load(self, base: Base = Base.FINISHED) -> SubjectTotal:
        """Total all scented materials.

        Parameters
        ----------
        base : Base, default finished
            What it is a percent of.
        """
        subject = Subject("load", "load", frozenset())
        return self._leaf_total(subject, base, lambda m: m.is_scented)

    def kinds(self, name: str, wanted: Callable[[Material], bool]) -> SubjectTotal:
        """Total the materials for which a question is answered with yes.

        Parameters
        ----------
        name : str
            A name for the total, the same for the same question.
        wanted : callable
            The question.
        """
        subject = Subject(name, f"kinds:{name}", frozenset())
        return self._leaf_total(subject, Base.FINISHED, wanted)

    def found_in(
        self, subject: Subject, leaf: LeafShare, base: Base = Base.FINISHED
    ) -> SubjectTotal:
        """Total what a caller finds in each leaf.

        Parameters
        ----------
        subject : Subject
            What is totalled; its key says what was looked for.
        leaf : callable
            The share of a leaf, and whether the leaf lies inside a mix. Of the
            finished product it is the share when dry.
        base : Base, default finished
            What it is a percent of.
        """
        return self._total("found", subject, base, leaf)

    def unlisted(self) -> SubjectTotal:
        """Total the share of the product whose composition is not known."""
        subject = Subject("composition not known", "unlisted", frozenset())

        def share(node: Node, _: bool) -> Share:  # noqa: FBT001
            found = self.shares.can_stay(node, subject, self.shares.unlisted(node))
            return Share(found, found, found)

        return self._total("unlisted", subject, Base.FINISHED, share)

    def _leaf_total(
        self, subject: Subject, base: Base, wanted: Callable[[Material], bool]
    ) -> SubjectTotal:
        def share(node: Node, inside: bool) -> Share:  # noqa: FBT001
            if node.material is None or not wanted(node.material):
                return Share()
            whole = self.hundred()
            if inside and node.leaves is not None and base is Base.FINISHED:
                whole = self._what_stays(node, node.leaves)
            return Share(whole, whole, whole)

        return self._total("leaves", subject, base, share)

    def _what_stays(self, node: Node, leaves: Id) -> Id:
        """Return the share of a leaf inside a mix that is left on drying."""
        return self.working.work(
            f"stay/{leaves}",
            "stays",
            (self.hundred(), leaves),
            unit="%",
            says=f"share of {node.says} that stays",
        ).id

    def _total(
        self, kind: str, subject: Subject, base: Base, leaf: LeafShare
    ) -> SubjectTotal:
        key = (kind, subject, base)
        if key not in self._subjects:
            traced = tuple(
                Traced(node, share, self._mass(kind, subject, node, base))
                for node in self.nodes
                if (share := self._node_share(kind, subject, node, leaf, base)).is_there
            )
            self._subjects[key] = self._close(kind, subject, base, traced)
        return self._subjects[key]

    def _mass(self, kind: str, subject: Subject, node: Node, base: Base) -> Id:
        """Return the mass that a share is taken of: of a leaf itself, what is left."""
        itself = node.material is not None or subject.own == f"node:{node.id}"
        whole = kind == "leaves" or self.is_own(node)
        if whole and base is Base.FINISHED and itself:
            return node.left or Id("")
        return node.wet or Id("")

    def _node_share(
        self,
        kind: str,
        subject: Subject,
        node: Node,
        leaf: LeafShare,
        base: Base,
        *,
        inside: bool = False,
    ) -> Share:
        direct = leaf(node, inside)
        if node.material is not None or direct.is_there:
            return direct
        inner: list[tuple[Node, Share]] = []
        for one in node.inner.values():
            share = self._node_share(kind, subject, one, leaf, base, inside=True)
            if share.is_there:
                inner.append((one, share))
        if not inner:
            return Share()
        ids: list[Id | None] = []
        for reading in ("documented", "most", "strict"):
            pairs: list[Id] = []
            for one, share in inner:
                value = getattr(share, reading)
                if value is not None:
                    pairs += [value, one.wet or Id("")]
            ids.append(
                self.working.work(
                    f"{node.id}/{kind}/{subject.key}/{base}/{reading}",
                    "percent",
                    (*pairs, node.inner_whole or Id("")),
                    unit="%",
                    says=f"{subject.name} in {node.says}",
                ).id
                if pairs
                else None
            )
        return Share(*ids)

    def _close(
        self, kind: str, subject: Subject, base: Base, traced: tuple[Traced, ...]
    ) -> SubjectTotal:
        steps: dict[tuple[Id, ...], Id] = {}
        found: list[Id] = []
        whole = self.whole(base)
        weighed = self.weighed if base is Base.FINISHED else None
        tail = (whole,) if weighed is None else (whole, weighed)
        for reading in ("documented", "most", "strict"):
            pairs: tuple[Id, ...] = ()
            for one in traced:
                value = getattr(one.share, reading)
                if value is not None:
                    pairs += (value, one.mass)
            if pairs not in steps:
                steps[pairs] = self.working.work(
                    f"{kind}/{subject.key}/{base}/{reading}",
                    "percent",
                    (*pairs, *tail),
                    unit="%",
                    says=f"{subject.name}, {reading}",
                    base=base,
                    how=() if weighed is None else ("weighed",),
                ).id
            found.append(steps[pairs])
        documented, most, strict = found
        span = most
        if most != documented:
            span = self.working.work(
                f"{kind}/{subject.key}/{base}",
                "low to high",
                (documented, most),
                unit="%",
                says=subject.name,
                base=base,
            ).id
        return SubjectTotal(subject, documented, most, strict, span, traced, base)

    @cached_property
    def components(self) -> Mapping[str, str]:
        """Every component that a paper names, by identity, with its name."""
        found: dict[str, str] = {}
        for node in self.leaves:
            for identity, name in self.shares.lists.identities(node).items():
                found.setdefault(identity, name)
        return found

    def is_own(self, node: Node) -> bool:
        """Whether a leaf is its own full composition.

        Parameters
        ----------
        node : Node
            A leaf.
        """
        return node.material is not None and own_identity(node.material) is not None


def total(
    recipe: Recipe,
    materials: Materials,
    knowledge: Knowledge | None = None,
    working: Working | None = None,
) -> Totals:
    """Total a recipe.

    Parameters
    ----------
    recipe : Recipe
        The recipe.
    materials : Materials
        The shelf that it names.
    knowledge : Knowledge, optional
        What the tables say about substances.
    working : Working, optional
        Where figures and steps are kept.

    Returns
    -------
    Totals
        Totals, each worked out when it is asked for.
    """
    return Totals(recipe, materials, working or Working(), knowledge or Knowledge())
