"""Runs many worlds and adds up what was seen.

``python -m tests.blurred.run 100000`` prints a line for every few thousand worlds.
"""

import sys
import time
from collections.abc import Callable, Iterator
from concurrent.futures import ProcessPoolExecutor, as_completed
from pprint import pformat
from random import Random

from blendcheck.errors import BlendcheckError
from blendcheck.records.finding import Outcome
from tests.blurred.asking import DECIDED, Answer, Tool, ask, check_caps
from tests.blurred.draw import draw
from tests.blurred.hull import Hull
from tests.blurred.substances import GROUPS, cas_of
from tests.blurred.tally import Tally, summary
from tests.blurred.turns import wrong_turns
from tests.blurred.verdicts import Judge
from tests.blurred.weaken import BASIS, narrow, take
from tests.blurred.world import World

_CHUNK = 250
_EVERY = 60
"""How often to say how far it is. [s]"""


def judge(seed: int, tally: Tally, tool: Tool) -> None:
    """Draw a world, check it, and compare every answer with the truth."""
    _judged(seed, tally, tool)


def _judged(seed: int, tally: Tally, tool: Tool) -> tuple[World, Hull, Answer] | None:
    world, plan, truth, hull = draw(seed)
    tally.worlds += 1
    answer = ask(world, tool)
    if isinstance(answer, BlendcheckError):
        tally.failures.append((seed, f"refused: {answer}"))
        return None
    judge = Judge(world, plan, truth, hull, answer, tally)
    tally.failures += [(seed, text) for text in judge.wrong()]
    return world, hull, answer


def one(seed: int, tally: Tally, tool: Tool) -> None:
    """Judge a world; then say it more exactly, take something away, turn a figure."""
    judged = _judged(seed, tally, tool)
    if judged is None:
        return
    world, hull, answer = judged
    rng = Random(f"changes {seed}")  # noqa: S311  # no secret hangs on it
    found = [*_narrowed(rng, world, answer, tally, tool)]
    found += _taken(rng, world, hull, answer, tally, tool)
    for text in wrong_turns(world, hull, answer):
        tally.turned += not text
        found += [text] if text else []
    tally.failures += [(seed, text) for text in found]


def _narrowed(
    rng: Random,
    world: World,
    before: Answer,
    tally: Tally,
    tool: Tool,
) -> Iterator[str]:
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
    rng: Random,
    world: World,
    hull: Hull,
    before: Answer,
    tally: Tally,
    tool: Tool,
) -> Iterator[str]:
    other, what, gone = take(rng, world)
    if not what:
        return
    tally.taken += 1
    after = ask(other, tool)
    if isinstance(after, BlendcheckError):
        return  # it asks for what was taken
    found = before.outcomes()
    asked = {
        cap.key
        for cap in world.caps
        if cap.on == "component" and gone & _in_doubt(world, hull, cap.own)
    }
    published = _rests_on_published(world)
    for key, outcome in after.outcomes().items():
        if key in asked or (outcome is Outcome.OVER and published):
            continue
        if outcome in DECIDED and found.get(key) is not outcome:
            yield f"{found.get(key)} became {outcome} without {what}: {key}"
    if what == BASIS or asked or (after.overall is Outcome.OVER and published):
        return  # results that agree in every category on the document then count
    if after.overall in DECIDED and after.overall is not before.overall:
        yield f"overall {before.overall} became {after.overall} without {what}"


def _in_doubt(world: World, hull: Hull, own: str) -> frozenset[str]:
    """Lines whose going takes a doubt away with it, and so may decide.

    An open match: the question goes with the line. A part that is printed beside
    its own group: papers mean by the group's line either the total or the rest, so
    both together are a range, and leave the others more room; the group's line
    alone is the group.
    """
    found = set(hull.open_matches(own))
    for group, (_, parts) in GROUPS.items():
        if group in hull.present:
            found |= world.members(group) | cas_of(parts)
    return frozenset(found)


def _rests_on_published(world: World) -> bool:
    """Whether a handbook's range may step in where a figure of the lot is missing.

    An ``over`` that rests on it is never hidden.
    """
    return any(p.published for m in world.materials.values() for p in m.papers)


def some(
    first: int,
    last: int,
    tool: Tool = check_caps,
    run: Callable[[int, Tally, Tool], None] = one,
) -> Tally:
    """Run the worlds of a range of seeds in this process."""
    tally = Tally()
    for seed in range(first, last):
        run(seed, tally, tool)
    return tally


def many(worlds: int, *, first: int = 0, jobs: int = 2) -> Iterator[Tally]:
    """Run worlds on several cores; what was seen so far, again and again."""
    tally = Tally()
    ends = range(first, first + worlds, _CHUNK)
    with ProcessPoolExecutor(jobs) as pool:
        waiting = [
            pool.submit(some, start, min(start + _CHUNK, first + worlds))
            for start in ends
        ]
        for done in as_completed(waiting):
            tally.add(done.result())
            yield tally


def as_text(seed: int) -> str:
    """The files of a world, to look at one that failed."""
    world = draw(seed)[0]
    shelf = pformat(world.materials_table(), width=100, compact=True)
    recipe = pformat(world.recipe_table(), width=100, compact=True)
    truth = {key: str(value) for key, value in world.true.items()}
    return f"world {seed} ({world.profile})\n{shelf}\n{recipe}\ntrue: {truth}"


def main() -> None:
    worlds = int(sys.argv[1])
    first = int(sys.argv[2]) if len(sys.argv) > 2 else 0
    began, shown, told = time.monotonic(), 0.0, 0
    tally = Tally()
    for tally in many(worlds, first=first):
        for seed, text in tally.failures[told:]:
            print(f"world {seed}: {text}", flush=True)
        told = len(tally.failures)
        if time.monotonic() - shown > _EVERY:
            shown = time.monotonic()
            spent = f"{shown - began:.0f} s"
            print(f"{tally.worlds} worlds, {told} failures, {spent}", flush=True)
    print(summary(tally))


if __name__ == "__main__":
    main()
