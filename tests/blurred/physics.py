"""What a recipe comes to when every unknown has one value.

Used for the truth, and for the corners of the unknowns. Written from mass balance
alone: every line is solved for its grams, stock blends and dilutions are taken
apart, what dries is taken off. No ranges, no steps, nothing of the tool.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from fractions import Fraction

from tests.blurred.plan import (
    Plan,
    factors,
    leaves_key,
    material_leaves,
    parts_of,
    top_lines,
)
from tests.blurred.said import ZERO
from tests.blurred.world import Key, Lot, Material, Part, World

Values = Callable[[Key], Fraction]
LeafKey = tuple[str, str | None, Key | None]
"""Material, lot, and the unknown that says how much of it leaves."""


@dataclass(slots=True)
class Made:
    """The batch at one point: grams put in, and what leaves, of every leaf."""

    world: World
    wet: dict[LeafKey, Fraction] = field(default_factory=dict)
    gone: dict[LeafKey, Fraction] = field(default_factory=dict)
    """Share that leaves. [%]"""

    def left(self, leaf: LeafKey) -> Fraction:
        return self.wet[leaf] * (100 - self.gone[leaf]) / 100

    @property
    def finished(self) -> Fraction:
        return sum((self.left(leaf) for leaf in self.wet), ZERO)

    def whole(self, base: str) -> Fraction:
        if base == "finished":
            return self.finished
        kinds = {"powders": "solid", "soaping oils": "soaping oil"}
        return sum(
            (
                grams
                for (name, _, _), grams in self.wet.items()
                if base == "wet mix" or self.world.materials[name].kind == kinds[base]
            ),
            ZERO,
        )


def target(world: World, value: Values) -> Fraction:
    if world.pieces is None or world.piece_mass is None:
        return ZERO
    grams = world.pieces * value(("amount", "piece_mass"))
    return grams if world.loss is None else grams / (1 - world.loss.low / 100)


def make(world: World, plan: Plan, value: Values) -> Made:
    """Weigh the recipe out with one value for each unknown."""
    lines = top_lines(world)
    fixed = [grams_of(world, lines[i], value) for i in plan.weighed]
    goal = target(world, value) if any(plan.to_target) else ZERO
    made = Made(world)
    for part, row, per_target in zip(lines, plan.share, plan.to_target, strict=True):
        grams = goal * per_target
        for a, b in zip(row, fixed, strict=True):
            if a:
                grams += a * b
        _put(world, made, part, grams, value)
    return made


def grams_of(world: World, part: Part, value: Values) -> Fraction:
    number, keys = factors(world, part)
    number *= value(("amount", part.where))
    for key in keys:
        number *= value(key)
    return number


def _put(world: World, made: Made, part: Part, grams: Fraction, value: Values) -> None:
    if part.material is not None:
        material = world.materials[part.material]
        key = leaves_key(world, part)
        _put_material(world, made, material, part.lot, key, grams, value)
        return
    inner = parts_of(world, part.stock or "")
    relative = inner[0].unit in ("part", "%")
    each = [one.said.low if relative else grams_of(world, one, value) for one in inner]
    total = sum(each, ZERO)
    for one, weight in zip(inner, each, strict=True):
        _put(world, made, one, grams * weight / total, value)


def _put_material(
    world: World,
    made: Made,
    material: Material,
    lot: str | None,
    key: Key | None,
    grams: Fraction,
    value: Values,
) -> None:
    dilution = material.dilution
    if dilution is not None and dilution.describes == "undiluted":
        oil = grams * value(("dilution", material.id)) / 100
        diluent = world.materials[dilution.diluent]
        _put_material(
            world,
            made,
            diluent,
            diluent.lots[0].id,
            material_leaves(diluent),
            grams - oil,
            value,
        )
        grams = oil
        key = material_leaves(material)
    leaf = (material.id, lot, key)
    made.wet[leaf] = made.wet.get(leaf, ZERO) + grams
    made.gone[leaf] = ZERO if key is None else value(key)


# -- the truth -----------------------------------------------------------------


def stays_of(material: Material, lot: Lot, key: str, gone: Fraction) -> Fraction:
    """Percent of a lot that a constituent is, and still is after drying."""
    share = lot.holds.get(key, ZERO)
    if gone == 0 or share == 0:
        return share
    left = 100 - gone
    for other in material.last_to_leave:
        held = lot.holds.get(other, ZERO)
        if other == key:
            return min(held, left)
        left = max(left - held, ZERO)
    return ZERO


@dataclass(slots=True)
class Truth:
    """True percents of the finished product."""

    world: World
    made: Made
    whole: Fraction

    @classmethod
    def of(cls, world: World, plan: Plan) -> "Truth":
        made = make(world, plan, world.true.__getitem__)
        dry = made.finished if world.true_dry_mass is None else world.true_dry_mass
        return cls(world, made, dry)

    def component(self, own: str) -> tuple[Fraction, Fraction]:
        """What counts for certain, and the most that is it in truth. [%]"""
        low, high = self.component_grams(own)
        return low / self.whole * 100, high / self.whole * 100

    def component_grams(self, own: str) -> tuple[Fraction, Fraction]:
        low = high = ZERO
        for leaf, grams in self.made.wet.items():
            material = self.world.materials[leaf[0]]
            lot = material.lot(leaf[1])
            surely = self.world.surely(own, material, lot)
            for key in self.world.at_most(own, material, lot):
                share = stays_of(material, lot, key, self.made.gone[leaf])
                high += grams * share / 100
                low += grams * share / 100 if key in surely else 0
        return low, high

    def material(self, name: str) -> Fraction:
        """Percent of a material, as its papers describe it."""
        return self._sum(lambda m: m.id == name)

    def load(self) -> Fraction:
        """Percent of everything scented."""
        return self._sum(lambda m: m.scented)

    def _sum(self, wanted: Callable[[Material], bool]) -> Fraction:
        grams = sum(
            (
                self.made.left(leaf)
                for leaf in self.made.wet
                if wanted(self.world.materials[leaf[0]])
            ),
            ZERO,
        )
        return grams / self.whole * 100
