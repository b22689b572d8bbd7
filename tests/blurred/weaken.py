"""Says less, or says more exactly: the same world with one figure changed.

To say a range more exactly must keep every ``within`` and ``over``. To take a
figure, a line, a list, a density or an answer away may lead to ``straddles`` or
``unknown`` (or to a question), never to ``within`` or ``over``.
"""

from collections.abc import Iterator
from copy import deepcopy
from dataclasses import replace
from fractions import Fraction
from random import Random

from tests.blurred import said
from tests.blurred.plan import kind_of, top_lines
from tests.blurred.said import Said
from tests.blurred.world import Key, Material, Paper, Part, World

BASIS = "basis of the category"


def _papers(world: World) -> Iterator[Paper]:
    """Every list on the shelf."""
    for material in world.materials.values():
        for lot in material.lots:
            yield from lot.papers
        yield from material.papers


# -- more exactly ---------------------------------------------------------------


def narrower(
    rng: Random,
    text: Said,
    truths: list[Fraction],
    unit: str,
    *,
    keep_low: bool = False,
) -> Said | None:
    """A range inside of another that still holds every truth."""
    if not text.loose or text.high is None or text.absent:
        return None
    least, most = min(truths), max(truths)
    if not (text.holds(least) and text.holds(most)):
        return None
    low = least - (least - text.low) * Fraction(rng.randint(0, 9), 10)
    low = text.low if keep_low else low
    high = most + (text.high - most) * Fraction(rng.randint(0, 9), 10)
    if not (said.is_decimal(low) and said.is_decimal(high)):
        return None
    if low == high:
        return said.exactly(low, unit)
    return Said(f"{said.digits(low)}-{said.digits(high)}{unit}", low, high)


def _narrow_row(rng: Random, world: World) -> str:
    choice = [
        (lots, paper, row)
        for material in world.materials.values()
        for lots, papers in (
            *(([lot], lot.papers) for lot in material.lots),
            (material.lots, material.papers),
        )
        for paper in papers
        for row in paper.rows
        if row.said.loose
    ]
    if not choice:
        return ""
    lots, paper, row = rng.choice(choice)
    truths = [
        sum((lot.holds.get(k, Fraction(0)) for k in row.keys), Fraction(0))
        for lot in lots
    ]
    new = narrower(rng, row.said, truths, " %")
    if new is None:
        return ""
    before, row.said = row.said.text, new
    return f"{row.name}: {before} to {new.text} ({paper.kind})"


def _narrow_mass(rng: Random, world: World) -> str:
    keys = [
        key
        for key, text in world.said.items()
        if text.loose and text.text and not _is_published(world, key)
    ]
    if not keys:
        return ""
    key = rng.choice(keys)
    old, new = world.said[key], None
    # a load is planned with what leaves, and with the low ends of a blend's parts:
    # with another plan it would be another recipe
    planned = any(kind_of(world, p) != "weighed" for p in top_lines(world))
    if key[0] == "leaves" and planned:
        return ""
    unit = " g/mL" if key[0] == "density" else old.text.lstrip("0123456789.-–")
    new = narrower(rng, old, [world.true[key]], unit, keep_low=planned)
    if new is None or not put(world, key, new):
        return ""
    world.said[key] = new
    return f"{key}: {old.text} to {new.text}"


def _is_published(world: World, key: Key) -> bool:
    """A density from a handbook, which stays a doubt however exact it is."""
    return key[0] == "density" and world.materials[key[1]].density_published


def put(world: World, key: Key, new: Said) -> bool:
    """Write another text for an unknown of the recipe."""
    on_a_line = key[0] == "amount" or key[1] not in world.materials
    return _put_line(world, key, new) if on_a_line else _put_shelf(world, key, new)


def _put_line(world: World, key: Key, new: Said) -> bool:
    if key == ("amount", "piece_mass"):
        world.piece_mass = new
        return True
    for part in _parts(world):
        if part.where == key[1] and key[0] == "amount":
            part.said = new
            return True
        if part.where == key[1]:
            part.leaves = new
            return True
    return False


def _put_shelf(world: World, key: Key, new: Said) -> bool:
    material = world.materials[key[1]]
    if key[0] == "density":
        return _put_density(material, key[2], new)
    if key[0] == "measure":
        material.weighed[key[2]] = new
    elif key[0] == "leaves":
        material.leaves = new
    elif key[0] == "dilution" and material.dilution is not None:
        material.dilution = replace(material.dilution, said=new)
    else:
        return False
    return True


def _put_density(material: Material, lot_name: str, new: Said) -> bool:
    lot = material.lot(None if lot_name == "-" else lot_name)
    if lot.density is not None:
        lot.density = new
    elif len(material.lots) == 1:
        material.density = new
    else:
        return False
    return True


def _parts(world: World) -> Iterator[Part]:
    yield from world.lines
    if world.blend is not None:
        yield from world.blend.parts
    for stock in world.stocks.values():
        yield from stock.parts


def narrow(rng: Random, world: World) -> tuple[World, str]:
    """A copy in which one range is said more exactly; "" if there is none."""
    copy = deepcopy(world)
    first, second = rng.sample((_narrow_row, _narrow_mass), 2)
    return copy, first(rng, copy) or second(rng, copy)


# -- less ------------------------------------------------------------------------


def _take_row(rng: Random, world: World) -> str:
    choice = [paper for paper in _papers(world) if paper.rows]
    if not choice:
        return ""
    paper = rng.choice(choice)
    row = paper.rows.pop(rng.randrange(len(paper.rows)))
    paper.whole = False
    return f"line {row.name} of {paper.kind}"


def _take_figure(rng: Random, world: World) -> str:
    choice = [row for paper in _papers(world) for row in paper.rows]
    if not choice:
        return ""
    row = rng.choice(choice)
    row.said = Said("tr", Fraction(0), None, low_open=True)
    return f"figure of {row.name}"


def _take_paper(rng: Random, world: World) -> str:
    homes = [
        papers
        for material in world.materials.values()
        for papers in (*(lot.papers for lot in material.lots), material.papers)
        if papers
    ]
    if not homes:
        return ""
    papers = rng.choice(homes)
    gone = papers.pop(rng.randrange(len(papers)))
    return f"paper {gone.kind}"


def _take_limit(rng: Random, world: World) -> str:
    choice = [
        (paper, name)
        for paper in _papers(world)
        for name in ("shown_from", "unidentified", "covers", "whole")
        if getattr(paper, name)
    ]
    if not choice:
        return ""
    paper, name = rng.choice(choice)
    setattr(paper, name, False if name == "whole" else None)
    return f"{name} of {paper.kind}"


def _take_density(rng: Random, world: World) -> str:
    choice = [m for m in world.materials.values() if m.density is not None]
    if not choice:
        return ""
    material = rng.choice(choice)
    material.density = None
    return f"density of {material.id}"


def _take_measure(rng: Random, world: World) -> str:
    choice = [m for m in world.materials.values() if m.weighed]
    if not choice:
        return ""
    material = rng.choice(choice)
    material.weighed.clear()
    return f"weighed drop of {material.id}"


def _take_answer(rng: Random, world: World) -> str:
    if not world.confirmed:
        return ""
    gone = world.confirmed.pop(rng.randrange(len(world.confirmed)))
    return f"answer {gone.who} as {gone.counts_toward} {gone.same}"


def _take_basis(rng: Random, world: World) -> str:
    del rng
    had, world.has_basis = world.has_basis, False
    return BASIS if had else ""


def _take_leaves(rng: Random, world: World) -> str:
    """What leaves of the alcohol: none of it, or all, then."""
    del rng
    spirit = world.materials.get("spirit")
    if spirit is None or spirit.leaves is None:
        return ""
    if any(kind_of(world, part) != "weighed" for part in top_lines(world)):
        return ""
    spirit.leaves = None
    return "what leaves of the spirit"


TAKERS = (
    _take_row,
    _take_row,
    _take_figure,
    _take_paper,
    _take_limit,
    _take_density,
    _take_measure,
    _take_answer,
    _take_basis,
    _take_leaves,
)


def take(rng: Random, world: World) -> tuple[World, str, frozenset[str]]:
    """A copy in which something is missing, and the identities that went with it.

    The text is "" if nothing could be taken.
    """
    copy = deepcopy(world)
    before = _lines(copy)
    for taker in rng.sample(TAKERS, len(TAKERS)):
        what = taker(rng, copy)
        if what:
            return copy, what, frozenset(one for one, _ in before - _lines(copy))
    return copy, "", frozenset()


def _lines(world: World) -> set[tuple[str, int]]:
    return {(row.identity, id(row)) for paper in _papers(world) for row in paper.rows}
