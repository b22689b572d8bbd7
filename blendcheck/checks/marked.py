"""Which volatile components are marked as irritating to breathe, and by whom.

A mark comes from the maker, from a supplier's data sheet (H335) or from the sourced
list. What has no mark is not thereby mild. Dusts are no vapour: they are told apart.
"""

from collections.abc import Iterable, Mapping, Sequence
from hashlib import sha256
from typing import Final

from blendcheck import reference
from blendcheck.blend.expand import Node
from blendcheck.blend.shares import Share, Subject
from blendcheck.blend.totals import SubjectTotal, Totals
from blendcheck.frozen import Frozen
from blendcheck.records.material import Material, identity_of

__all__ = [
    "DROWSY",
    "IRRITANT",
    "SENSITISING",
    "Marked",
    "MarkedSubject",
    "is_powder",
    "is_scent",
    "marked_in",
    "may_be_volatile",
    "of_all",
    "stated",
    "total_of",
    "volatile_total",
]

SENSITISING: Final = "H334"
IRRITANT: Final = "H335"
DROWSY: Final = "H336"
_LIST: Final = "sourced list"
_DIGITS: Final = 12
_APART: Final = ("alcohol", "water", "solvent")
_NOT_NAMED: Final = "name:what no paper names"
"""Never printed by a list, so that what a list does not name counts at its most."""


class MarkedSubject(Subject):
    """Everything marked, as one subject with a short key."""

    @property
    def key(self) -> str:
        """Its own identity with a digest of what counts, for the names of steps.

        The same recipe is totalled with other marks as soon as another recipe is
        compared with it: two subjects, two steps.
        """
        counts = "+".join(sorted(self.members)), "?".join(sorted(self.proposed))
        digest = sha256("/".join(counts).encode()).hexdigest()[:_DIGITS]
        return f"{self.own} {digest}"


class Marked(Frozen):
    """What is marked in one or several recipes.

    Parameters
    ----------
    by : mapping of str to tuple of str
        For each marked identity that a paper names, who marks it.
    names : mapping of str to str
        What to call each.
    members : frozenset of str
        All identities that count, those of the list that no paper names included:
        silence of a list may hide them.
    proposed : frozenset of str
        Names on papers that may mean one of them.
    whole : frozenset of str
        Ids of materials whose sheet says H335 of the whole, powders and what leaves
        on drying left out.
    """

    by: Mapping[str, tuple[str, ...]]
    names: Mapping[str, str]
    members: frozenset[str]
    proposed: frozenset[str]
    whole: frozenset[str]

    @property
    def nothing(self) -> bool:
        """Whether no mark was found on anything that is in the recipe."""
        return not (self.by or self.proposed or self.whole)

    @property
    def subject(self) -> MarkedSubject:
        """What is totalled."""
        return MarkedSubject(
            "marked as irritating to breathe", "irritants", self.members, self.proposed
        )


def may_be_volatile(identity: str) -> bool:
    """Whether a component may leave as a vapour: all but what is known not to.

    Parameters
    ----------
    identity : str
        CAS number, or ``name:...``.
    """
    return identity not in reference.constituents() or reference.is_volatile(identity)


def stated(totals: Totals, statement: str) -> Mapping[str, tuple[str, str]]:
    """Return what suppliers' sheets give a hazard statement, by identity.

    Parameters
    ----------
    totals : Totals
        Totals of a recipe.
    statement : str
        Such as ``H335``.

    Returns
    -------
    Mapping
        Name and material of each component; a material as a whole stands under
        ``material:id``.
    """
    found: dict[str, tuple[str, str]] = {}
    for node in totals.leaves:
        material = node.material
        if material is None:
            continue
        for hazard in material.hazard:
            if all(one.statement != statement for one in hazard.classes):
                continue
            if hazard.is_of_component:
                identity = identity_of(hazard.name or hazard.cas or "", hazard.cas)
                name = hazard.name or totals.components.get(identity, identity)
            elif totals.is_own(node) and material.cas is not None:
                identity, name = material.cas, material.name
            else:
                identity, name = f"material:{material.id}", material.name
            found.setdefault(identity, (name, material.name))
    return found


def marked_in(totals: Totals) -> Marked:
    """Collect the marks on what is in a recipe.

    Parameters
    ----------
    totals : Totals
        Totals of a recipe.

    Returns
    -------
    Marked
        Alcohols are left out: they leave on drying, and are worked out for the
        room where that happens. So are powders: their dust belongs to the making.
        What a mark names and no list prints counts as far as a list may hide it.
    """
    sheets = stated(totals, IRRITANT)
    makers = _by_maker(totals)
    left_out = _alcohols(totals) | _dusts(totals)
    names = {identity: name for identity, (name, _) in sheets.items()}
    names |= {cas: _called(cas) for cas in makers} | dict(totals.components)
    by: dict[str, tuple[str, ...]] = {}
    proposed: set[str] = set()
    for identity, name in names.items():
        if identity in left_out or not may_be_volatile(identity):
            continue
        if identity not in totals.components and not _may_be_hidden(identity, totals):
            continue
        who = [makers[identity]] if identity in makers else []
        if identity in sheets:
            who.append(f"sheet of {sheets[identity][1]} (H335)")
        if reference.check_digit_ok(identity) and reference.why_irritant(identity):
            who.append(_LIST)
        if who:
            by[identity] = tuple(who)
        elif identity.startswith("name:") and _may_mean(name, totals):
            proposed.add(identity)
    whole = {
        identity.removeprefix("material:")
        for identity in sheets
        if identity.startswith("material:")
    }
    counted = {
        node.material.id
        for node in totals.leaves
        if node.material is not None
        and node.material.kind not in _APART
        and not is_powder(node.material)
    }
    listed = {cas for cas in reference.irritants() if reference.is_volatile(cas)}
    doubled = _doubled(totals, by)
    return Marked(
        by,
        {identity: names[identity] for identity in by},
        frozenset((set(by) | listed) - left_out - doubled),
        frozenset(proposed | doubled),
        frozenset(whole & counted),
    )


def of_all(marks: Sequence[Marked]) -> tuple[Marked, ...]:
    """Return the marks to compare several recipes with.

    Parameters
    ----------
    marks : sequence of Marked
        Marks of each recipe, at least one.

    Returns
    -------
    tuple of Marked
        For each recipe: a component that is marked in one of them counts in all. A
        material that counts as a whole counts so where its own sheet says it: one of
        the same name on another shelf inherits nothing.
    """
    proposed = frozenset[str]().union(*(one.proposed for one in marks))
    members = frozenset[str]().union(*(one.members for one in marks)) - proposed
    by: dict[str, tuple[str, ...]] = {}
    names: dict[str, str] = {}
    for one in reversed(marks):
        by |= one.by
        names |= one.names
    return tuple(Marked(by, names, members, proposed, one.whole) for one in marks)


def _by_maker(totals: Totals) -> dict[str, str]:
    return {
        cas: "you"
        for node in totals.leaves
        if node.material is not None
        for cas in node.material.irritant
    }


def _alcohols(totals: Totals) -> frozenset[str]:
    return frozenset(
        node.material.cas
        for node in totals.leaves
        if node.material is not None
        and node.material.kind == "alcohol"
        and node.material.cas is not None
    )


def is_powder(material: Material) -> bool:
    """Whether a material is a powder that gives off no vapour, as far as is known.

    Parameters
    ----------
    material : Material
        Crystals of what is known to evaporate, such as menthol, are none.
    """
    evaporates = material.cas is not None and reference.is_volatile(material.cas)
    return material.kind in ("solid", "emulsifier") and not evaporates


def is_scent(material: Material) -> bool:
    """Whether a material is scented, or a crystal that is known to evaporate.

    Parameters
    ----------
    material : Material
        What leaves on drying is none.
    """
    evaporates = material.cas is not None and reference.is_volatile(material.cas)
    return material.is_scented or (evaporates and material.kind not in _APART)


def _dusts(totals: Totals) -> frozenset[str]:
    """Return identities that are in the recipe as a powder and in no scent."""
    powders: set[str] = set()
    scent: set[str] = set()
    for node in totals.leaves:
        if node.material is None:
            continue
        found = set(totals.shares.lists.identities(node))
        (powders if is_powder(node.material) else scent).update(found)
    return frozenset(powders - scent)


def _called(cas: str) -> str:
    """Return the name of a substance that no list prints."""
    row = reference.constituents().get(cas)
    return cas if row is None else row.name


def _may_be_hidden(identity: str, totals: Totals) -> bool:
    """Whether a list may hide what a mark names."""
    if identity.startswith("material:"):
        return False
    subject = Subject(identity, identity, frozenset({identity}))
    total = totals.subject(subject)
    return bool(total.traced) and bool(totals.working.range(total.most).high)


def _may_mean(name: str, totals: Totals) -> bool:
    return any(reference.why_irritant(cas) for cas in totals.knowledge.names(name))


def _doubled(totals: Totals, marked: Iterable[str]) -> frozenset[str]:
    """Find groups that a list prints beside their members: they only may count."""
    wanted = set(marked)
    found: set[str] = set()
    for node in totals.leaves:
        rows = set(totals.shares.lists.identities(node)) & wanted
        found |= {i for i in rows if totals.knowledge.parts_of(i) & rows - {i}}
    return frozenset(found)


def total_of(marked: Marked, totals: Totals) -> SubjectTotal:
    """Total everything marked in a recipe; a lot's sum never exceeds the lot.

    Parameters
    ----------
    marked : Marked
        The marks.
    totals : Totals
        Totals of the recipe.
    """

    def share(node: Node, _: bool) -> Share:  # noqa: FBT001
        if node.material is not None and node.material.id in marked.whole:
            return Share(totals.hundred(), totals.hundred(), totals.hundred())
        return totals.shares.of(node, marked.subject)

    return totals.found_in(marked.subject, share)


def volatile_total(totals: Totals) -> SubjectTotal:
    """Total all volatile matter of the scented materials, crystals with them.

    Parameters
    ----------
    totals : Totals
        Totals of a recipe.

    Returns
    -------
    SubjectTotal
        The low end counts what a paper names, the high end what it does not name
        as well; only what is known not to be volatile is left out.
    """
    named: set[str] = set()
    for node in totals.leaves:
        if node.material is not None and is_scent(node.material):
            named |= set(totals.shares.lists.identities(node))
    members = {i for i in named if may_be_volatile(i)} | {_NOT_NAMED}
    subject = MarkedSubject("all volatile scent", "volatile scent", frozenset(members))
    return totals.subject(subject)
