"""What may not change a total, and what it has to add up to.

Recipes are drawn as in the blurred-truth test and written again in another way: at
another size, in another order, with a line split in two, with a stock blend taken
apart by hand.
"""

from collections.abc import Iterator
from copy import deepcopy
from dataclasses import replace
from fractions import Fraction
from random import Random

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from blendcheck.blend.shares import Subject
from blendcheck.blend.totals import total
from blendcheck.checks import caps
from blendcheck.errors import BlendcheckError
from blendcheck.interval import Range
from blendcheck.records.mass import Mass
from blendcheck.records.material import Materials
from blendcheck.records.recipe import Recipe
from blendcheck.records.working import Given
from tests.blurred import said
from tests.blurred.asking import Answer, ask
from tests.blurred.draw import draw
from tests.blurred.plan import kind_of, top_lines
from tests.blurred.said import Said
from tests.blurred.substances import KNOWLEDGE
from tests.blurred.world import Part, World

pytestmark = pytest.mark.broad

SEEDS = st.integers(min_value=0, max_value=10**6)
WORLDS = settings(max_examples=40, deadline=None)


def random_from(seed: int) -> Random:
    return Random(seed)  # noqa: S311  # no secret hangs on it


def checked(world: World) -> Answer:
    answer = ask(world)
    assume(isinstance(answer, Answer))
    assert isinstance(answer, Answer)
    return answer


def percents(answer: Answer) -> dict[tuple[str, ...], list[Range]]:
    """Every capped total of the finished product, in its three readings."""
    span = answer.case.working.range
    found = {}
    for key, finding in answer.by_cap.items():
        assert finding.cap is not None
        one = caps.total_for(finding.cap, answer.case)
        found[key] = [span(i) for i in (one.documented, one.most, one.strict)]
    return found


def same(one: Answer, other: Answer) -> None:
    assert percents(one) == percents(other)
    assert one.outcomes() == other.outcomes()
    assert one.overall == other.overall


def unit_of(text: Said) -> str:
    return text.text.lstrip("0123456789.-–")


def scaled(text: Said, factor: Fraction) -> Said:
    """The same amount, so many times; a number or a range."""
    assert text.high is not None
    low, high, unit = text.low * factor, text.high * factor, unit_of(text)
    if low == high:
        return said.exactly(low, unit)
    return Said(f"{said.digits(low)}-{said.digits(high)}{unit}", low, high)


# -- size ----------------------------------------------------------------------


def resized(world: World, factor: Fraction) -> World:
    """The same recipe, so many times as large."""
    world = deepcopy(world)
    for part in top_lines(world):
        if kind_of(world, part) == "weighed":
            part.said = scaled(part.said, factor)
    if world.piece_mass is not None:
        world.piece_mass = scaled(world.piece_mass, factor)
    if world.dry_mass is not None:
        world.dry_mass = scaled(world.dry_mass, factor)
    return world


@given(SEEDS, st.sampled_from(["2", "3", "0.5", "0.125", "7.5"]))
@WORLDS
def test_a_batch_of_another_size_has_the_same_percents(seed, size):
    world, factor = draw(seed)[0], Fraction(size)
    answer, other = checked(world), checked(resized(world, factor))
    same(answer, other)
    grams, more = answer.case.working.range, other.case.working.range
    for name, node in answer.totals.expansion.nodes.items():
        twin = other.totals.expansion.nodes[name]
        assert grams(node.wet).times(factor) == more(twin.wet)
        assert grams(node.left).times(factor) == more(twin.left)


# -- sums ----------------------------------------------------------------------


@given(SEEDS)
@WORLDS
def test_what_is_left_of_the_leaves_adds_up_to_the_finished_mass(seed):
    answer = checked(draw(seed)[0])
    working, expansion = answer.case.working, answer.totals.expansion
    left = [Given(n.left, working.value(n.left)).mass for n in expansion.nodes.values()]
    finished = Given(expansion.expected, working.value(expansion.expected)).mass
    assert Mass.total(left) == finished
    wet = [Given(n.wet, working.value(n.wet)).mass for n in expansion.nodes.values()]
    assert Mass.total(wet) == Given(expansion.wet, working.value(expansion.wet)).mass
    lines = [Given(one.grams, working.value(one.grams)).mass for one in expansion.lines]
    assert Mass.total(lines) == Mass.total(wet)


@given(SEEDS)
@WORLDS
def test_everything_together_is_all_of_the_product(seed):
    world = draw(seed)[0]
    answer = checked(world)
    whole = answer.totals.kinds("everything", lambda _: True)
    found = answer.case.working.range(whole.documented)
    mixes = [n for n in answer.totals.expansion.nodes.values() if n.material is None]
    drying = any(n.left != n.wet for n in mixes)
    if world.dry_mass is None and not drying:
        assert found == Range.at(100)
    else:
        low, high = found.low, found.high
        assert low is not None
        assert high is not None
        assert low <= 100 <= high or world.dry_mass is not None


@given(SEEDS)
@WORLDS
def test_single_substances_share_the_product_out(seed):
    """With nothing unknown the percents of all lots add up to 100 %."""
    answer = checked(draw(seed)[0])
    totals, span = answer.totals, answer.case.working.range
    exact = all(n.material and span(n.left).is_exact for n in totals.nodes)
    assume(exact and totals.weighed is None)
    materials = {m.id: m for n in totals.leaves if (m := n.material) is not None}
    found = [span(totals.material(m).documented) for m in materials.values()]
    assert Range.total(found) == Range.at(100)


# -- the same in other words -----------------------------------------------------


def reordered(world: World, rng: Random) -> World:
    world = deepcopy(world)
    for parts in _all_parts(world):
        rng.shuffle(parts)
    materials = list(world.materials.items())
    rng.shuffle(materials)
    world.materials = dict(materials)
    for material in world.materials.values():
        for papers in (material.papers, *(lot.papers for lot in material.lots)):
            for paper in papers:
                rng.shuffle(paper.rows)
    return world


def _all_parts(world: World) -> Iterator[list[Part]]:
    yield world.lines
    if world.blend is not None:
        yield world.blend.parts
    for stock in world.stocks.values():
        yield stock.parts


@given(SEEDS, st.integers(0, 9))
@WORLDS
def test_the_order_of_lines_changes_nothing(seed, order):
    world = draw(seed)[0]
    same(checked(world), checked(reordered(world, random_from(order))))


def split(world: World, rng: Random) -> World | None:
    """One line written as two, 3 : 1."""
    world = deepcopy(world)
    choice = [
        (parts, part)
        for parts in _all_parts(world)
        for part in parts
        if part.said.high and (kind_of(world, part) != "% on top")
    ]
    if not choice:
        return None
    parts, part = rng.choice(choice)
    small, large = (scaled(part.said, Fraction(n, 4)) for n in (1, 3))
    at = parts.index(part)
    parts[at : at + 1] = [replace(part, said=small), replace(part, said=large)]
    return world


@given(SEEDS, st.integers(0, 9))
@WORLDS
def test_a_line_split_in_two_changes_nothing(seed, which):
    world = draw(seed)[0]
    other = split(world, random_from(which))
    assume(other is not None)
    assert other is not None
    same(checked(world), checked(other))


# -- a stock blend taken apart by hand --------------------------------------------

PARTS = st.lists(st.integers(1, 9), min_size=1, max_size=4)
OILS = ("oil0", "oil1", "oil2", "oil3")


def shelf(stocks):
    oils = [
        {
            "id": oil,
            "name": oil,
            "kind": "essential oil",
            "density": "0.9 g/mL",
            "composition": [
                {
                    "kind": "full GC-MS",
                    "basis": "w/w",
                    "copied_whole": True,
                    "unidentified": f"{n} %",
                    "row": [
                        {
                            "name": "Camphor",
                            "cas": "76-22-2",
                            "share": f"{10 + n}-{20 + n} %",
                        }
                    ],
                }
            ],
        }
        for n, oil in enumerate(OILS)
    ]
    base = {"id": "soda", "name": "Soda", "kind": "solid", "cas": "144-55-8"}
    return {"material": [base, *oils], "stock": stocks}


def stock(name, numbers, unit):
    return {
        "id": name,
        "line": [
            {"material": OILS[n], "amount": f"{number} {unit}"}
            for n, number in enumerate(numbers)
        ],
    }


def totals_of(stocks, lines):
    recipe = {"name": "t", "line": [{"material": "soda", "amount": "900 g"}, *lines]}
    made = total(
        Recipe.model_validate(recipe),
        Materials.model_validate(shelf(stocks)),
        KNOWLEDGE,
    )
    camphor = Subject("camphor", "76-22-2", frozenset({"76-22-2"}))
    found = [made.subject(camphor), made.load()]
    found += [made.material(made.materials.get(oil)) for oil in OILS]
    return [
        made.working.range(step)
        for one in found
        for step in (one.documented, one.most, one.strict)
    ]


@given(PARTS, st.sampled_from(["parts", "g", "oz wt", "mL"]), st.integers(1, 9))
@settings(deadline=None)
def test_a_stock_blend_taken_apart_by_hand_is_the_same(numbers, unit, times):
    """``times`` g a part: every line of it is a whole number of grams."""
    grams = sum(numbers) * times
    mixed = totals_of(
        [stock("mix", numbers, unit)], [{"stock": "mix", "amount": f"{grams} g"}]
    )
    by_hand = totals_of(
        [],
        [
            {"material": OILS[n], "amount": f"{number * times} g"}
            for n, number in enumerate(numbers)
        ],
    )
    assert mixed == by_hand


@given(PARTS, st.integers(1, 5), st.integers(1, 4), st.integers(1, 4))
@settings(deadline=None)
def test_a_stock_blend_inside_another_is_the_same(numbers, times, inner, other):
    """inner : other parts of the first blend and of one more oil."""
    weight = sum(numbers) * times
    grams = weight * (inner + other)
    nested = totals_of(
        [
            stock("first", numbers, "parts"),
            {
                "id": "second",
                "line": [
                    {"stock": "first", "amount": f"{inner} parts"},
                    {"material": "oil3", "amount": f"{other} parts"},
                ],
            },
        ],
        [{"stock": "second", "amount": f"{grams} g"}],
    )
    lines = [
        {"material": OILS[n], "amount": f"{number * times * inner} g"}
        for n, number in enumerate(numbers)
    ]
    lines.append({"material": "oil3", "amount": f"{weight * other} g"})
    assert nested == totals_of([], lines)


# -- what a lot can hold -----------------------------------------------------------

LOWS = st.lists(st.integers(0, 30), min_size=2, max_size=6)
ROWS = ("5392-40-5", "141-27-5", "106-26-3", "76-22-2", "78-70-6", "89-80-5")


@given(LOWS, st.lists(st.integers(0, 100), min_size=6, max_size=6), st.booleans())
@settings(deadline=None)
def test_a_group_is_never_more_than_its_lot_can_hold(lows, widths, whole):
    assume(sum(lows) <= 100)
    ends = [
        (low, min(low + width, 100)) for low, width in zip(lows, widths, strict=False)
    ]
    rows = [
        {"name": cas, "cas": cas, "share": f"{a}-{b} %" if a < b else f"{a} %"}
        for cas, (a, b) in zip(ROWS[1:], ends, strict=False)
    ]
    table = {
        "material": [
            {
                "id": "oil",
                "name": "Oil",
                "kind": "essential oil",
                "composition": [
                    {
                        "kind": "full GC-MS",
                        "basis": "w/w",
                        "copied_whole": whole,
                        "row": rows,
                    }
                ],
            }
        ]
    }
    recipe = {"name": "t", "line": [{"material": "oil", "amount": "50 g"}]}
    made = total(
        Recipe.model_validate(recipe), Materials.model_validate(table), KNOWLEDGE
    )
    members = frozenset(ROWS[:3])
    citral = made.subject(Subject("citral", ROWS[0], members))
    others = sum(
        a for cas, (a, _) in zip(ROWS[1:], ends, strict=False) if cas not in members
    )
    inside = [pair for cas, pair in zip(ROWS[1:], ends, strict=False) if cas in members]
    documented = made.working.range(citral.documented)
    top = min(sum(b for _, b in inside), 100 - others)
    assert documented == Range.between(sum(a for a, _ in inside), top)
    most = made.working.range(citral.most)
    assert most.high is not None
    assert top <= most.high <= 100 - others
    everything = frozenset(ROWS)
    whole_lot = made.subject(Subject("all", "all", everything))
    assert made.working.range(whole_lot.most).high <= 100


def test_a_product_that_leaves_whole_is_refused():
    table = {
        "material": [
            {"id": "w", "name": "W", "kind": "alcohol", "leaves_on_drying": "100 %"}
        ]
    }
    recipe = {"name": "t", "line": [{"material": "w", "amount": "50 g"}]}
    with pytest.raises(BlendcheckError, match="anything is left of this recipe"):
        total(Recipe.model_validate(recipe), Materials.model_validate(table), KNOWLEDGE)
