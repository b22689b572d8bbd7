"""Runs many worlds and adds up what was seen.

``python -m tests.blurred.run 100000`` prints a line for every few thousand worlds.
"""

import sys
import time
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import ProcessPoolExecutor, as_completed
from pprint import pformat
from random import Random

from blendcheck.checks.case import Case
from blendcheck.errors import BlendcheckError
from blendcheck.records.finding import Finding
from tests.blurred.draw import draw
from tests.blurred.draw_shelf import PROFILES
from tests.blurred.verdicts import DECIDED, Answer, Judge, Tally, ask, check_caps
from tests.blurred.weaken import BASIS, narrow, take
from tests.blurred.world import World

_CHUNK = 250


def one(seed: int, tally: Tally, tool: Callable[[Case], Iterable[Finding]]) -> None:
    """Draw a world, check it, say it more exactly, take something away."""
    world, plan, truth, hull = draw(seed)
    tally.worlds += 1
    answer = ask(world, tool)
    if isinstance(answer, BlendcheckError):
        tally.failures.append((seed, f"refused: {answer}"))
        return
    judge = Judge(world, plan, truth, hull, answer, tally)
    tally.failures += [(seed, text) for text in judge.wrong()]
    rng = Random(f"changes {seed}")  # noqa: S311
    tally.failures += [(seed, text) for text in _narrowed(rng, world, answer, tally, tool)]
    tally.failures += [(seed, text) for text in _taken(rng, world, answer, tally, tool)]


def _narrowed(
    rng: Random, world: World, before: Answer, tally: Tally,
    tool: Callable[[Case], Iterable[Finding]],
) -> Iterator[str]:  # fmt: skip
    other, what = narrow(rng, world)
    if not what:
        return
    tally.narrowed += 1
    after = ask(other, tool)
    if isinstance(after, BlendcheckError):
        yield f"refused after {what}: {after}"
        return
    found = after.outcomes()
    for key, outcome in before.outcomes().items():
        if outcome in DECIDED and found.get(key) is not outcome:
            yield f"{outcome} became {found.get(key)} by saying {what}: {key}"
    if before.overall in DECIDED and after.overall is not before.overall:
        yield f"overall {before.overall} became {after.overall} by saying {what}"


def _taken(
    rng: Random, world: World, before: Answer, tally: Tally,
    tool: Callable[[Case], Iterable[Finding]],
) -> Iterator[str]:  # fmt: skip
    other, what = take(rng, world)
    if not what:
        return
    tally.taken += 1
    after = ask(other, tool)
    if isinstance(after, BlendcheckError):
        return  # it asks for what was taken
    found = before.outcomes()
    for key, outcome in after.outcomes().items():
        if outcome in DECIDED and found.get(key) is not outcome:
            yield f"{found.get(key)} became {outcome} without {what}: {key}"
    if what == BASIS:
        return  # results that agree in every category on the document then count
    if after.overall in DECIDED and after.overall is not before.overall:
        yield f"overall {before.overall} became {after.overall} without {what}"


def some(
    first: int, last: int, tool: Callable[[Case], Iterable[Finding]] = check_caps
) -> Tally:
    """Run the worlds of a range of seeds in this process."""
    tally = Tally()
    for seed in range(first, last):
        one(seed, tally, tool)
    return tally


def many(worlds: int, *, first: int = 0, jobs: int = 2) -> Iterator[Tally]:
    """Run worlds on several cores; what was seen so far, again and again."""
    tally = Tally()
    ends = range(first, first + worlds, _CHUNK)
    with ProcessPoolExecutor(jobs) as pool:
        waiting = [
            pool.submit(some, start, min(start + _CHUNK, first + worlds)) for start in ends
        ]
        for done in as_completed(waiting):
            tally.add(done.result())
            yield tally


def summary(tally: Tally) -> str:
    """What was seen, in a few lines: the share decided is the tool's usefulness."""
    lines = [
        f"{tally.worlds} worlds, {sum(tally.limits.values())} limits "
        f"({tally.on_the_cap} exactly on the cap), {len(tally.failures)} failures",
        f"outcomes: {tally.outcomes}",
        f"{tally.equal} ranges equal to the brute force, {tally.held} hold the hull of "
        "the unknowns in common",
        f"{tally.narrowed} said more exactly, {tally.taken} with something taken away",
    ]
    lines += [
        f"decided with {profile}: {100 * tally.share(profile):.1f} % of "
        f"{tally.limits.get(profile, 0)}"
        for profile in PROFILES
    ]
    return "\n".join(lines)


def as_text(seed: int) -> str:
    """The files of a world, to look at one that failed."""
    world = draw(seed)[0]
    shelf = pformat(world.materials_table(), width=100, compact=True)
    recipe = pformat(world.recipe_table(), width=100, compact=True)
    truth = {key: str(value) for key, value in world.true.items()}
    return f"world {seed} ({world.profile})\n{shelf}\n{recipe}\ntrue: {truth}"


def main() -> None:
    worlds = int(sys.argv[1])
    first = int(sys.argv[2]) if len(sys.argv) > 2 else 0  # noqa: PLR2004
    began, shown = time.monotonic(), 0.0
    tally = Tally()
    for tally in many(worlds, first=first):
        if time.monotonic() - shown > 30:  # noqa: PLR2004
            shown = time.monotonic()
            print(f"{tally.worlds} worlds after {shown - began:.0f} s, "
                  f"{len(tally.failures)} failures", flush=True)  # fmt: skip
    print(summary(tally))
    for seed, text in tally.failures[:40]:
        print(seed, text)


if __name__ == "__main__":
    main()
