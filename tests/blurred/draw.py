"""Draws one world from a seed."""

from random import Random

from tests.blurred.draw_caps import Capper
from tests.blurred.draw_recipe import Writer, weigh_when_dry
from tests.blurred.draw_shelf import MIXED, PROFILES, UNWEIGHED, Shelf
from tests.blurred.hull import Hull
from tests.blurred.physics import Plan, Truth, make_plan
from tests.blurred.world import World


def draw(seed: int) -> tuple[World, Plan, Truth, Hull]:
    """Draw a world, its solved lines, its truth and what is known of it.

    Parameters
    ----------
    seed : int
        The same seed gives the same world.
    """
    rng = Random(f"blurred {seed}")  # noqa: S311  # no secret hangs on it
    profile = PROFILES[seed % len(PROFILES)]
    world = World(str(seed), profile, {}, {}, [], None)
    shelf = Shelf(rng, world)
    Writer(rng, shelf).write()
    shelf.confirm()
    plan = make_plan(world)
    truth = Truth.of(world, plan)
    if profile in (UNWEIGHED, MIXED) and rng.random() < 0.25:
        weigh_when_dry(rng, world, truth.whole)
        truth = Truth.of(world, plan)
    hull = Hull(world, plan)
    Capper(rng, world, truth, hull).write()
    return world, plan, truth, hull
