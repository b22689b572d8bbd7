"""What a recipe comes to when every unknown has one value.

Used for the truth, and for the corners of the unknowns. Written from mass balance
alone: every line is solved for its grams, stock blends and dilutions are taken
apart, what dries is taken off. No ranges, no steps, nothing of the tool.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from fractions import Fraction

from tests.blurred.said import HUNDRED, ZERO
from tests.blurred.world import ALL_OR_NOTHING, DROP, Key, Lot, Material, Part, World

Values = Callable[[Key], Fraction]
LeafKey = tuple[str, str | None, Key | None]
"""Material, lot, and the unknown that says how much of it leaves."""

GRAMS = {
    "g": Fraction(1), "kg": Fraction(1000), "mg": Fraction(1, 1000),
    "oz": Fraction("28.349523125"), "lb": Fraction("453.59237"),
}  # fmt: skip
"""NIST SP 811 (2008), appendix B.8: the avoirdupois pound is 0.453 592 37 kg."""

MILLILITRES = {
    "mL": Fraction(1), "L": Fraction(1000), "metric tsp": Fraction(5),
    "tsp": Fraction("4.92892159375"),
}  # fmt: skip
"""NIST SP 811 (2008), appendix B.8: the teaspoon is 4.928 922 mL, which is a sixth
of a fluid ounce, 231/128 cubic inches of 16.387 064 mL."""

ONE = Fraction(1)


def density_key(part: Part) -> Key:
    return ("density", part.material or "", part.lot or "-")


def factors(world: World, part: Part) -> tuple[Fraction, tuple[Key, ...]]:
    """Grams in one of the unit: an exact number and the unknowns it is times."""
    material = None if part.material is None else world.materials[part.material]
    if part.unit in GRAMS:
        return GRAMS[part.unit], ()
    if material is not None and part.unit in material.weighed:
        return ONE, (("measure", material.id, part.unit),)
    if part.unit in MILLILITRES:
        return MILLILITRES[part.unit], (density_key(part),)
    return ONE, (("drop", part.material or ""), density_key(part))


def leaves_key(world: World, part: Part) -> Key | None:
    """The unknown share that leaves of what a line names."""
    if part.leaves is not None:
        return ("leaves", part.where)
    return material_leaves(world.materials[part.material or ""])


def material_leaves(material: Material) -> Key | None:
    return ("leaves", material.id) if material.dries else None


def lot_of(material: Material, part: Part) -> Lot:
    return material.lot(part.lot)


def said_of(world: World, key: Key) -> "tuple[Fraction, Fraction]":
    """Both ends of an unknown, as the text of the world has them."""
    said = world.said[key]
    if key[0] == "leaves" and said.high is None:
        return said.low, HUNDRED
    assert said.high is not None
    return said.low, said.high


# -- the plan ------------------------------------------------------------------


@dataclass(slots=True)
class Plan:
    """Grams of every line as a sum over the weighed lines and the target."""

    weighed: list[int]
    share: list[list[Fraction]]
    to_target: list[Fraction]


def kind_of(world: World, part: Part) -> str:
    if part.unit == "part":
        return "parts"
    return part.unit if part.unit.startswith("% ") else "weighed"


def top_lines(world: World) -> list[Part]:
    """Lines of the recipe and of a blend without a load, or the blend as one."""
    if world.blend is None:
        return world.lines
    if world.blend.load is None:
        return world.lines + world.blend.parts
    unit = "% of finished" if world.blend.of == "the total" else "% on top"
    return [
        *world.lines,
        Part("blend", None, "blend", None, world.blend.load, unit),
    ]


def parts_of(world: World, stock: str) -> list[Part]:
    if stock == "blend" and world.blend is not None:
        return world.blend.parts
    return world.stocks[stock].parts


def _weight(world: World, part: Part) -> Fraction:
    """What a line of a blend is planned with: its low end."""
    if part.unit in ("part", "%"):
        return part.said.low
    exact, keys = factors(world, part)
    for key in keys:
        exact *= said_of(world, key)[0]
    return exact * part.said.low


def planned(
    world: World, part: Part, of_material: Callable[[Material, Part], Fraction]
) -> Fraction:
    """A property of a line as planned, weighed over the leaves of its blend."""
    if part.material is not None:
        return of_material(world.materials[part.material], part)
    inner = parts_of(world, part.stock or "")
    weights = [_weight(world, one) for one in inner]
    total = sum(weights, ZERO)
    if total == 0:
        return ONE
    return (
        sum(
            (
                w * planned(world, one, of_material)
                for w, one in zip(weights, inner, strict=True)
            ),
            ZERO,
        )
        / total
    )


def _stays(world: World) -> Callable[[Material, Part], Fraction]:
    def stays(material: Material, part: Part) -> Fraction:
        said = part.leaves or material.leaves
        if said is None:
            said = ALL_OR_NOTHING if material.dries else None
        if said is None:
            return ONE
        high = HUNDRED if said.high is None else said.high
        return 1 - high / 100

    return stays


def make_plan(world: World) -> Plan:
    """Solve the lines of the recipe, one equation a line.

    A line of a percent is that percent of the planned total that it names; parts
    share one unknown; the planned finished mass counts every line once all that
    can leave has left.
    """
    lines = top_lines(world)
    count = len(lines)
    kinds = [kind_of(world, part) for part in lines]
    stays = [planned(world, part, _stays(world)) for part in lines]
    solids = [_kind_share(world, part, "solid") for part in lines]
    oils = [_kind_share(world, part, "soaping oil") for part in lines]
    totals = {
        "% of finished": stays, "% on top": stays, "% of powders": solids,
        "% of soaping oils": oils, "% of wet mix": [ONE] * count,
    }  # fmt: skip
    weighed = [i for i, kind in enumerate(kinds) if kind == "weighed"]
    has_parts = "parts" in kinds
    size = count + has_parts
    columns = len(weighed) + 1
    rows: list[list[Fraction]] = []
    for i, (kind, part) in enumerate(zip(kinds, lines, strict=True)):
        row = [Fraction(int(i == j)) for j in range(size)] + [ZERO] * columns
        number = part.said.low
        if kind == "weighed":
            row[size + weighed.index(i)] = ONE
        elif kind == "parts":
            row[count] = -number
        elif not weighed and not has_parts and kind == "% of finished":
            row[-1] = number / 100
        else:
            share = number / (100 + number) if kind == "% on top" else number / 100
            for j, weight in enumerate(totals[kind]):
                row[j] -= share * weight
        rows.append(row)
    if has_parts:
        rows.append([*stays, ZERO, *([ZERO] * len(weighed)), ONE])
    solved = _solve(rows, size)
    return Plan(
        weighed, [row[: len(weighed)] for row in solved[:count]],
        [row[-1] for row in solved[:count]],
    )  # fmt: skip


def _kind_share(world: World, part: Part, kind: str) -> Fraction:
    return planned(world, part, lambda m, _: Fraction(int(m.kind == kind)))


def _solve(rows: list[list[Fraction]], size: int) -> list[list[Fraction]]:
    """Gauss and Jordan with the right-hand sides behind; the right-hand sides."""
    for i in range(size):
        pivot = next(r for r in range(i, size) if rows[r][i] != 0)
        rows[i], rows[pivot] = rows[pivot], rows[i]
        scale = rows[i][i]
        if scale != 1:
            rows[i] = [value / scale for value in rows[i]]
        head = rows[i]
        for r in range(size):
            factor = rows[r][i]
            if r != i and factor:
                rows[r] = [a - factor * b if b else a
                           for a, b in zip(rows[r], head, strict=True)]  # fmt: skip
    return [row[size:] for row in rows]


# -- one point -----------------------------------------------------------------


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


def _put(
    world: World, made: Made, part: Part, grams: Fraction, value: Values
) -> None:
    if part.material is not None:
        material = world.materials[part.material]
        key = leaves_key(world, part)
        _put_material(world, made, material, part.lot, key, grams, value)
        return
    inner = parts_of(world, part.stock or "")
    relative = inner[0].unit in ("part", "%")
    each = [
        one.said.low if relative else grams_of(world, one, value) for one in inner
    ]
    total = sum(each, ZERO)
    for one, weight in zip(inner, each, strict=True):
        _put(world, made, one, grams * weight / total, value)


def _put_material(
    world: World, made: Made, material: Material, lot: str | None, key: Key | None,
    grams: Fraction, value: Values,
) -> None:  # fmt: skip
    dilution = material.dilution
    if dilution is not None and dilution.describes == "undiluted":
        oil = grams * value(("dilution", material.id)) / 100
        diluent = world.materials[dilution.diluent]
        _put_material(world, made, diluent, diluent.lots[0].id,
                      material_leaves(diluent), grams - oil, value)  # fmt: skip
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


def unknown_drop(world: World, part: Part) -> bool:
    """Whether a line counts drops that were not weighed."""
    material = world.materials.get(part.material or "")
    return part.unit == "drop" and material is not None and not material.weighed


__all__ = [
    "DROP", "GRAMS", "MILLILITRES", "LeafKey", "Made", "Plan", "Truth", "Values",
    "density_key", "factors", "grams_of", "kind_of", "leaves_key", "make", "make_plan",
    "material_leaves", "parts_of", "said_of", "stays_of", "target", "top_lines",
    "unknown_drop",
]  # fmt: skip
