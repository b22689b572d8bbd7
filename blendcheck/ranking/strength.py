"""Two blends at equal strength of scent, where odour thresholds cover them.

The load divided by the multiples of the odour threshold that the same grams make, all
thresholds by one method. Both are linear in the shares of the lots, so that the ratio
is closed in one step. Thresholds by other methods differ a hundredfold and more.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from itertools import combinations
from typing import Final

from blendcheck import reference
from blendcheck.assess import Assessment
from blendcheck.blend.closing import extreme_ratio
from blendcheck.blend.expand import Node
from blendcheck.checks.contents import undocumented
from blendcheck.checks.marked import Marked, marked_in, may_be_volatile, of_all
from blendcheck.errors import DomainError
from blendcheck.interval import Range
from blendcheck.quantity import Mark
from blendcheck.ranking.forms import by_weight
from blendcheck.ranking.names import told_apart
from blendcheck.records.finding import Say
from blendcheck.records.mass import NOTHING, Key, Mass, key_of
from blendcheck.records.working import Id

__all__ = ["EqualStrength", "at_equal_strength"]

_ZERO: Final = Fraction(0)
_HUNDRED: Final = Fraction(100)
_NAMED: Final = 6


@dataclass(frozen=True, slots=True)
class EqualStrength:
    """The load of recipes for the same strength of scent.

    Parameters
    ----------
    loads : tuple of (Range or None)
        Irritant load divided by strength, one for each recipe; ``None`` where it
        cannot be worked out. [mg/m3 of threshold: only their order means something]
    why : tuple of Say
        For each recipe without one, what is missing.
    pairs : tuple of Say
        What can be said of every two recipes that have one.
    """

    loads: tuple[Range | None, ...]
    why: tuple[Say, ...]
    pairs: tuple[Say, ...]


def at_equal_strength(
    assessments: Sequence[Assessment], marks: Sequence[Marked] | None = None
) -> EqualStrength:
    """Compare blends at equal strength of scent.

    Parameters
    ----------
    assessments : sequence of Assessment
        The checks.
    marks : sequence of Marked, optional
        What is marked in each, where it was collected already.

    Returns
    -------
    EqualStrength
        With what is missing, where thresholds of one method do not cover enough.

    Notes
    -----
    Multiples of the threshold are added, as if smells did: an orientation only. The
    cover asked for is :data:`~blendcheck.estimates.acute.COVER`, by weight; what is
    not covered may smell of anything, so that it bounds the load from above only.
    """
    if marks is None:
        marks = [marked_in(one.totals) for one in assessments]
    names = told_apart([one.case.recipe.name for one in assessments])
    each = zip(assessments, of_all(marks), names, strict=True)
    found = [_one(*one) for one in each]
    loads = tuple(one if isinstance(one, Range) else None for one in found)
    why = tuple(one for one in found if isinstance(one, Say))
    pairs = []
    for first, second in combinations(range(len(loads)), 2):
        one, other = loads[first], loads[second]
        if one is not None and other is not None:
            pairs.append(_said(names[first], names[second], one, other))
    return EqualStrength(loads, why, tuple(pairs))


def _said(one: str, other: str, first: Range, second: Range) -> Say:
    values = {"one": one, "other": other}
    if first.high is not None and second.low is not None and first.high < second.low:
        return Say("compare.strength-less", {"less": one, "more": other})
    if second.high is not None and first.low is not None and second.high < first.low:
        return Say("compare.strength-less", {"less": other, "more": one})
    return Say("compare.strength-open", values)


def _one(one: Assessment, marked: Marked, name: str) -> Range | Say:
    blind = undocumented(one.case)
    if blind:
        values = {"recipe": name, "materials": ", ".join(blind)}
        return Say("compare.strength-undocumented", values)
    parts = _Parts(one, marked)
    if not parts.exact:
        return Say("compare.strength-drops", {"recipe": name})
    if not parts.covered:
        values = {"recipe": name, "names": _few(list(parts.without))}
        return Say("compare.strength-missing", values)
    try:
        low = extreme_ratio(parts.load, parts.odour, parts.unknowns, "low").value
        high = extreme_ratio(parts.load, parts.odour, parts.unknowns, "high").value
    except DomainError:
        return Say("compare.strength-missing", {"recipe": name, "names": "all of it"})
    # What has no threshold may smell of anything, and then takes less for the same.
    return Range(_ZERO if parts.may_smell else low, high)


def _few(names: list[str]) -> str:
    """Name what stands first, and count the others."""
    if not names:
        return "any of it"
    more = len(names) - _NAMED
    named = ", ".join(names[:_NAMED])
    return named if more <= 0 else f"{named} and {more} more"


@cache
def _threshold(identity: str) -> Fraction | None:
    """Return the odour threshold of a component; ``None`` where there is none."""
    from blendcheck.estimates.acute import odour_threshold

    found = None if ":" in identity else odour_threshold(identity)
    if found is None:
        return None
    return Fraction(found.mg_per_m3).limit_denominator(10**9)


class _Parts:
    """Load and strength as forms in the shares of the lots."""

    def __init__(self, one: Assessment, marked: Marked) -> None:
        self.one, self.marked = one, marked
        self.load, self.odour = NOTHING, NOTHING
        self.unknowns: dict[Key, Range] = {}
        self.without: dict[str, None] = {}
        self.exact = True
        self.may_smell = False
        self._with, self._all = _ZERO, _ZERO
        for node in one.totals.nodes:
            self._add(node)

    @property
    def covered(self) -> bool:
        """Whether thresholds cover enough of the volatile mass, at its least."""
        from blendcheck.estimates.acute import COVER

        return self._all > 0 and self._with > Fraction(COVER) * self._all

    def _add(self, node: Node) -> None:
        totals = self.one.totals
        material = node.material
        if material is None:
            self.exact = False
            return
        own = totals.is_own(node)
        evaporates = own and reference.is_volatile(material.cas or "")
        if not (material.is_scented or evaporates) or node.left is None:
            return
        if _is_apart(node):
            return
        shares = _shares(node, self.one)
        mass = totals.mass_of(node.left)
        if not mass.is_exact:
            self.exact = False
            return
        self._all += mass.fixed
        for identity, name in shares.items():
            self._component(node, identity, name, mass.fixed, material.id)
        if not own:
            self._rest(node, mass.fixed)

    def _component(
        self, node: Node, identity: str, name: Id, grams: Fraction, material: str
    ) -> None:
        span = self.one.working.range(name)
        low, high = span.low or _ZERO, _HUNDRED if span.high is None else span.high
        if Mark.AREA_PERCENT in self.one.working.marks(name):
            low, high = by_weight(low, high)
        key = key_of(node.id, identity)
        self.unknowns[key] = Range(low, high)
        if identity in self.marked.members or material in self.marked.whole:
            self.load = self.load + Mass.of(key, grams / 100)
        threshold = _threshold(identity)
        if threshold is not None:
            count = grams / 100 / threshold
            self.odour = self.odour + Mass.of(key, count)
            self._with += grams * low / 100
        elif may_be_volatile(identity):
            self.may_smell = self.may_smell or high > 0
            self.without.setdefault(self.one.totals.components.get(identity, identity))
        else:
            self._all -= grams * low / 100

    def _rest(self, node: Node, grams: Fraction) -> None:
        """Count what a list may hide as marked, and as without a smell."""
        lists = self.one.totals.shares.lists
        absent = self.marked.members - lists.rows(node).keys()
        cover = lists.cover(node, self.marked.subject.own, absent) or ()
        ends = (self.one.working.range(name).high for name in cover)
        highs = (_HUNDRED if end is None else end for end in ends)
        key = key_of(node.id, "what its list may hide")
        hidden = sum(highs, _ZERO)
        self.may_smell = self.may_smell or hidden > 0
        self.unknowns[key] = Range(_ZERO, hidden)
        self.load = self.load + Mass.of(key, grams / 100)


def _shares(node: Node, one: Assessment) -> Mapping[str, Id]:
    lists = one.totals.shares.lists
    if one.totals.is_own(node):
        return dict.fromkeys(lists.identities(node), one.totals.hundred())
    rows = lists.rows(node)
    parts = lists.parts_of
    return {
        identity: row.id
        for identity, row in rows.items()
        if not (parts(identity) - {identity}) & rows.keys()
    }


def _is_apart(node: Node) -> bool:
    """Whether it leaves on drying, so that it is no part of the scent."""
    material = node.material
    return material is None or material.kind in ("alcohol", "water", "solvent")
