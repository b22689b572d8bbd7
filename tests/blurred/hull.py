"""Brute force: the smallest and the largest percent over all corners of the unknowns.

What counts as one unknown is as the tool states it: an amount, a density, a measure,
a product of two of them on one line, what leaves of a material; and a mix whose
proportions are not known exactly is closed from the inside out, its closed figure
being one unknown.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import product

from tests.blurred.forms import (
    FIXED,
    MOST_KEYS,
    Box,
    Ends,
    Form,
    TooManyError,
    added,
    at,
    corners,
    ends_of,
    loose_keys,
    times,
)
from tests.blurred.physics import make
from tests.blurred.plan import (
    Plan,
    factors,
    leaves_key,
    material_leaves,
    parts_of,
    said_of,
    top_lines,
)
from tests.blurred.readings import NOTHING, Reading, components, proposals, read
from tests.blurred.said import HUNDRED, ZERO
from tests.blurred.world import Key, Lot, Material, Part, World


@dataclass(slots=True)
class Node:
    """A leaf, or a mix that is closed on its own."""

    material: Material | None = None
    lot: Lot | None = None
    leaves: Key | None = None
    inner: "dict[Key, Node]" = field(default_factory=dict)
    forms: list[Form] = field(default_factory=list)

    @property
    def wet(self) -> Form:
        return added(self.forms)

    @property
    def dries(self) -> bool:
        return self.leaves is not None or any(n.dries for n in self.inner.values())


class Hull:
    """Corner search for one world.

    Parameters
    ----------
    world : World
        The world.
    plan : Plan
        Its solved lines.
    """

    def __init__(self, world: World, plan: Plan) -> None:
        self.world, self.box = world, Box()
        for key in world.said:
            self.box[key] = said_of(world, key)
        self.nodes: dict[Key, Node] = {}
        lines = top_lines(world)
        fixed = [self._grams(lines[i]) for i in plan.weighed]
        goal = self._target() if any(plan.to_target) else {}
        for part, row, to_target in zip(lines, plan.share, plan.to_target, strict=True):
            form = added(times(f, share) for f, share in zip(fixed, row, strict=True))
            self._into(self.nodes, part, added([form, times(goal, to_target)]))
        self.left = {k: self._left(k, node) for k, node in self.nodes.items()}
        self.present = components(world)
        self._readings: dict[tuple[str, str, str | None], Reading] = {}

    # -- masses ------------------------------------------------------------

    def _linear(self, number: Fraction, keys: Sequence[Key], name: Key) -> Form:
        """A product: exact, in one unknown, or closed to an unknown of its own."""
        loose = []
        for key in keys:
            a, b = self.box[key]
            if a == b:
                number *= a
            else:
                loose.append(key)
        if not loose:
            return {FIXED: number}
        if len(loose) == 1:
            return {loose[0]: number}
        low = high = Fraction(1)
        for key in loose:
            low, high = low * self.box[key][0], high * self.box[key][1]
        self.box[name] = low, high
        return {name: number}

    def _grams(self, part: Part) -> Form:
        number, keys = factors(self.world, part)
        if len(keys) == 2:  # a drop that was not weighed
            one = self._linear(Fraction(1), keys, ("one drop", *keys[1][1:]))
            keys = tuple(k for k in one if k)
            number *= one.get(FIXED, Fraction(1)) if not keys else one[keys[0]]
        amount = ("amount", part.where)
        return self._linear(number, [amount, *keys], ("line", part.where))

    def _target(self) -> Form:
        world = self.world
        if world.pieces is None:
            return {}
        kept = Fraction(1) if world.loss is None else 1 - world.loss.low / 100
        key = ("amount", "piece_mass")
        return self._linear(world.pieces / kept, [key], key)

    def _exact(self, form: Form) -> bool:
        return not loose_keys(form)

    def _into(self, nodes: dict[Key, Node], part: Part, form: Form) -> None:
        if part.material is not None:
            material = self.world.materials[part.material]
            key = leaves_key(self.world, part)
            self._material_into(nodes, material, part.lot, key, form)
            return
        inner = parts_of(self.world, part.stock or "")
        relative = inner[0].unit in ("part", "%")
        each = [{FIXED: p.said.low} if relative else self._grams(p) for p in inner]
        if all(map(self._exact, each)):
            total = sum((one.get(FIXED, ZERO) for one in each), ZERO)
            for p, one in zip(inner, each, strict=True):
                self._into(nodes, p, times(form, one.get(FIXED, ZERO) / total))
            return
        name = ("stock", part.stock or "")
        if name not in nodes:
            nodes[name] = Node()
            for p, one in zip(inner, each, strict=True):
                self._into(nodes[name].inner, p, one)
        nodes[name].forms.append(form)

    def _material_into(
        self,
        nodes: dict[Key, Node],
        material: Material,
        lot: str | None,
        leaves: Key | None,
        form: Form,
        *,
        neat: bool = False,
    ) -> None:
        dilution = material.dilution
        if neat or dilution is None or dilution.describes == "as sold":
            name = ("leaf", material.id, lot or "-", str(leaves))
            if name not in nodes:
                nodes[name] = Node(material, material.lot(lot), leaves)
            nodes[name].forms.append(form)
            return
        share = ("dilution", material.id)
        low, high = self.box[share]
        diluent = self.world.materials[dilution.diluent]
        own, other = material_leaves(material), material_leaves(diluent)
        into, oil, rest = nodes, times(form, low / 100), times(form, 1 - low / 100)
        if low != high:
            name = ("diluted", material.id, lot or "-")
            if name in nodes:
                nodes[name].forms.append(form)
                return
            nodes[name] = Node(forms=[form])
            into = nodes[name].inner
            oil, rest = {share: Fraction(1)}, {FIXED: HUNDRED, share: Fraction(-1)}
        self._material_into(into, material, lot, own, oil, neat=True)
        self._material_into(into, diluent, diluent.lots[0].id, other, rest)

    def _left(self, name: Key, node: Node) -> Form:
        wet = node.wet
        if not node.dries:
            return wet
        if node.leaves is None:
            low, high = self._stays(node)
        else:
            gone = self.box[node.leaves]
            if gone[0] == gone[1]:
                return times(wet, 1 - gone[0] / 100)
            if self._exact(wet):
                grams = wet.get(FIXED, ZERO)
                return {FIXED: grams, node.leaves: -grams / 100}
            low, high = 100 - gone[1], 100 - gone[0]
        a, b = ends_of(self.box, wet)
        key = ("left", *name)
        self.box[key] = a * low / 100, b * high / 100
        return (
            {key: Fraction(1)}
            if self.box[key][0] != self.box[key][1]
            else {FIXED: self.box[key][0]}
        )

    def _stays(self, node: Node) -> Ends:
        if node.leaves is None:
            inner = list(node.inner.values())
            if not any(one.dries for one in inner):
                return HUNDRED, HUNDRED
            return self._ratio(
                [(self._stays(one), one.wet) for one in inner],
                added(one.wet for one in inner),
            )
        low, high = self.box[node.leaves]
        return 100 - high, 100 - low

    # -- percents ----------------------------------------------------------

    def _ratio(self, parts: Sequence[tuple[Ends, Form]], whole: Form) -> Ends:
        """Smallest and largest Σ share × part over the whole, in percent."""
        low_form = added(times(form, ends[0]) for ends, form in parts)
        high_form = added(times(form, ends[1]) for ends, form in parts)
        keys = loose_keys(low_form, high_form, whole)
        lows, highs = [], []
        for corner in corners(self.box, keys):
            below = at(whole, corner)
            lows.append(at(low_form, corner) / below)
            highs.append(at(high_form, corner) / below)
        return min(lows), max(highs)

    def whole(self, base: str) -> Form:
        if base == "finished":
            return added(self.left.values())
        return added(node.wet for node in self.nodes.values())

    def reading(self, own: str, material: Material, lot: Lot) -> Reading:
        key = (own, material.id, lot.id)
        if key not in self._readings:
            maybe = self.open_matches(own)
            self._readings[key] = read(self.world, own, maybe, material, lot)
        return self._readings[key]

    def open_matches(self, own: str) -> frozenset[str]:
        """Names in the recipe that may be it, and that nobody has answered for."""
        return proposals(self.world, own, self.present)

    def _shares(self, own: str, node: Node) -> dict[str, Ends | None]:
        """The three readings of a node's share of a component."""
        if node.material is not None and node.lot is not None:
            return self._leaf_shares(own, node, node.material, node.lot)
        inner = list(node.inner.values())
        shares = [self._shares(own, one) for one in inner]
        whole = added(one.wet for one in inner)
        found: dict[str, Ends | None] = {}
        for name in ("documented", "most", "strict"):
            parts = [
                (ends, one.wet)
                for one, share in zip(inner, shares, strict=True)
                if (ends := share[name]) is not None
            ]
            found[name] = self._ratio(parts, whole) if parts else None
        return found

    def _leaf_shares(
        self, own: str, node: Node, material: Material, lot: Lot
    ) -> dict[str, Ends | None]:
        said = self.reading(own, material, lot)
        if said is NOTHING:
            return dict.fromkeys(("documented", "most", "strict"))
        if node.leaves is not None and material.is_one_substance:
            return {
                "documented": None,
                "most": (ZERO, HUNDRED),
                "strict": (ZERO, HUNDRED),
            }
        low = ZERO if said.documented is None else said.documented[0]
        found: dict[str, Ends | None] = {
            "documented": said.documented,
            "most": (low, said.most),
            "strict": (low, said.strict),
        }
        if node.leaves is None:
            return found
        can = 100 - self.box[node.leaves][0]
        return {
            name: None if ends is None else (ZERO, min(ends[1], can))
            for name, ends in found.items()
        }

    def component(self, own: str, base: str = "finished") -> dict[str, Ends]:
        """Ends of the three readings of a component. [%]"""
        shares = [
            (self._shares(own, node), self._counted(name, node))
            for name, node in self.nodes.items()
        ]
        whole = self.whole(base)
        return {
            name: self._ratio(
                [(ends, wet) for share, wet in shares if (ends := share[name])], whole
            )
            for name in ("documented", "most", "strict")
        }

    def _counted(self, name: Key, node: Node) -> Form:
        """Grams that a share is taken of: of spirit alone, only what may stay."""
        spirit = node.material is not None and node.material.is_one_substance
        return self.left[name] if spirit else node.wet

    def is_simple(self, own: str) -> bool:
        """Whether every reading behind a component is simple enough for equality."""

        def simple(node: Node) -> bool:
            if node.material is None or node.lot is None:
                return all(map(simple, node.inner.values()))
            return self.reading(own, node.material, node.lot).exact

        return all(map(simple, self.nodes.values()))

    def leaves(self, wanted: str | None) -> Ends:
        """Ends of a material, or of everything scented, in the finished product."""
        parts: list[tuple[Ends, Form]] = []
        for name, node in self.nodes.items():
            if node.material is None:
                share = self._leaf_part(node, wanted)
                if share is not None:
                    parts.append((share, node.wet))
            elif self._wanted(node.material, wanted):
                parts.append(((HUNDRED, HUNDRED), self.left[name]))
        return self._ratio(parts, self.whole("finished"))

    def _wanted(self, material: Material, wanted: str | None) -> bool:
        return material.scented if wanted is None else material.id == wanted

    def _leaf_part(self, node: Node, wanted: str | None) -> Ends | None:
        inner = list(node.inner.values())
        parts = []
        for one in inner:
            if one.material is None:
                share = self._leaf_part(one, wanted)
                if share is not None:
                    parts.append((share, one.wet))
            elif self._wanted(one.material, wanted):
                parts.append((self._stays(one), one.wet))
        return self._ratio(parts, added(n.wet for n in inner)) if parts else None


# -- the same without any closing ------------------------------------------------


def plain_corners(world: World) -> Iterable[dict[Key, Fraction]]:
    """Every corner of what is written, nothing closed: each unknown occurs once."""
    keys = [
        key for key in world.true if said_of(world, key)[0] != said_of(world, key)[1]
    ]
    if len(keys) > MOST_KEYS:
        raise TooManyError
    fixed = {key: said_of(world, key)[0] for key in world.true}
    for chosen in product(*(said_of(world, key) for key in keys)):
        yield fixed | dict(zip(keys, chosen, strict=True))


def plain_leaves(world: World, plan: Plan, wanted: str | None) -> Ends:
    """Ends of a material (or the load) with every unknown in common. [%]"""
    found = []
    for corner in plain_corners(world):
        made = make(world, plan, corner.__getitem__)
        grams = sum(
            (
                made.left(leaf)
                for leaf in made.wet
                if (
                    world.materials[leaf[0]].scented
                    if wanted is None
                    else leaf[0] == wanted
                )
            ),
            ZERO,
        )
        found.append(grams / made.finished * 100)
    return min(found), max(found)
