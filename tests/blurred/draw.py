"""Draws one world from a seed."""

from fractions import Fraction
from random import Random

from tests.blurred import said
from tests.blurred.draw_caps import Capper
from tests.blurred.draw_recipe import Writer
from tests.blurred.draw_shelf import MIXED, PROFILES, UNWEIGHED, Shelf
from tests.blurred.hull import Hull
from tests.blurred.physics import Truth
from tests.blurred.plan import Plan, make_plan
from tests.blurred.said import Said
from tests.blurred.world import World

_TENTH = Fraction(1, 10)


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
        _weigh_when_dry(rng, world, truth.whole)
        truth = Truth.of(world, plan)
    hull = Hull(world, plan)
    Capper(rng, world, truth, hull).write()
    return world, plan, truth, hull


def _weigh_when_dry(rng: Random, world: World, finished: Fraction) -> None:
    """Put the dry batch on the scale: all of it, less what was lost, or still moist."""
    kept, dry, moist = Fraction(1), finished, Fraction(0)
    if world.loss is not None:
        kept = 1 - world.loss.low / 100 * Fraction(rng.randint(0, 10), 10)
    pick = rng.random()
    if pick < 0.3:
        dry = finished * Fraction(rng.randint(90, 99), 100)
    elif pick < 0.6:
        moist = finished * Fraction(rng.randint(1, 8), 100)
    world.true_dry_mass = dry
    value = dry * kept + moist
    grid = _TENTH
    low, high = value // grid * grid, -(-value // grid) * grid
    if low == high:
        world.dry_mass = said.exactly(low, " g")
    else:
        world.dry_mass = Said(f"{said.digits(low)}-{said.digits(high)} g", low, high)
