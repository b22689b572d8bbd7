"""How the lines of a recipe get their grams: units, the plan, one equation a line.

Written from mass balance alone; nothing of the tool.
"""

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from tests.blurred.said import HUNDRED, ZERO
from tests.blurred.world import ALL_OR_NOTHING, Key, Material, Part, World

GRAMS = {
    "g": Fraction(1),
    "kg": Fraction(1000),
    "mg": Fraction(1, 1000),
    "oz": Fraction("28.349523125"),
    "lb": Fraction("453.59237"),
}
"""NIST SP 811 (2008), appendix B.8: the avoirdupois pound is 0.453 592 37 kg."""

MILLILITRES = {
    "mL": Fraction(1),
    "L": Fraction(1000),
    "metric tsp": Fraction(5),
    "tsp": Fraction("4.92892159375"),
}
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


def said_of(world: World, key: Key) -> "tuple[Fraction, Fraction]":
    """Both ends of an unknown, as the text of the world has them."""
    said = world.said[key]
    if key[0] == "leaves" and said.high is None:
        return said.low, HUNDRED
    assert said.high is not None
    return said.low, said.high


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
        "% of finished": stays,
        "% on top": stays,
        "% of powders": solids,
        "% of soaping oils": oils,
        "% of wet mix": [ONE] * count,
    }
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
        weighed,
        [row[: len(weighed)] for row in solved[:count]],
        [row[-1] for row in solved[:count]],
    )


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
                rows[r] = [
                    a - factor * b if b else a
                    for a, b in zip(rows[r], head, strict=True)
                ]
    return [row[size:] for row in rows]
