"""The figure that would settle a limit, and where it turns: is that so?

The world is written again with that one figure at the turning point, where the
limit has to be ``within``; and, if it is the share of a lot, a little beyond it,
where it must not be (unless a mix that is closed on its own holds that lot too).
"""

from collections.abc import Iterator
from copy import deepcopy
from fractions import Fraction

from blendcheck.blend.turning import Turning, turning_figures
from blendcheck.checks import caps
from blendcheck.errors import BlendcheckError
from blendcheck.records.finding import Finding, Outcome
from tests.blurred import said
from tests.blurred.asking import Answer, ask
from tests.blurred.hull import Hull
from tests.blurred.weaken import put
from tests.blurred.world import Cap, Key, Row, World

_GRID = 10**9
_STEP = Fraction(1, 10**6)
_MANY = 2


def wrong_turns(world: World, hull: Hull, answer: Answer) -> Iterator[str]:
    """Every turning figure of a world that does not turn there; counted by "" ."""
    if any(
        m.density_published or any(p.published for p in m.papers)
        for m in world.materials.values()
    ):
        return
    for cap in world.caps:
        found = answer.by_cap.get(cap.key)
        if found is None or found.cap is None or not _is_open(found, cap, world):
            continue
        total = caps.total_for(found.cap, answer.case)
        assert cap.percent is not None
        turning = turning_figures(answer.totals, total, cap.percent)
        for one in [t for t in turning if t.turn is not None][:_MANY]:
            yield from _turns(world, hull, cap, one)


def _is_open(found: Finding, cap: Cap, world: World) -> bool:
    current = world.current is None or cap.edition == world.current
    return found.outcome is Outcome.STRADDLES and bool(cap.percent) and current


def _turns(world: World, hull: Hull, cap: Cap, one: Turning) -> Iterator[str]:
    assert one.turn is not None
    assert one.held.low is not None
    up = one.at_least
    at = Fraction((one.turn * _GRID).__floor__() + up, _GRID)
    if at < one.held.low or (one.held.high is not None and at > one.held.high):
        return
    beyond = at - at * _STEP if up else at + at * _STEP + Fraction(1, _GRID)
    # a measure may also sit inside a closed product, so its turn is on the careful side
    alone = one.traced is not None and all(n.material for n in hull.nodes.values())
    beyond = beyond if alone else one.held.low - 1
    for value, within in ((at, True), (beyond, False)):
        if value < one.held.low or value > (one.held.high or value):
            continue
        copy = deepcopy(world)
        if not _write(copy, hull, one, cap, value):
            return
        after = ask(copy)
        if isinstance(after, BlendcheckError):
            yield f"refused at the turn: {after}"
            return
        outcome = after.by_cap[cap.key].outcome
        if (outcome is Outcome.WITHIN) is not within:
            what = one.key or (one.traced and one.traced.node.id)
            at_what = f"{float(value)}, turn {float(one.turn)}"
            yield f"{outcome} with {what} at {at_what}: {cap.key}"
        yield ""


def _write(world: World, hull: Hull, one: Turning, cap: Cap, value: Fraction) -> bool:
    if one.traced is not None:
        row = _only_row(world, hull, one, cap)
        if row is not None:
            row.said = said.exactly(value)
        return row is not None
    key = _mine(world, str(one.key))
    if key is None:
        return False
    unit = world.said[key].text.lstrip("0123456789.-–")
    unit = " g/mL" if key[0] == "density" else unit
    return bool(world.said[key].text) and put(world, key, said.exactly(value, unit))


def _only_row(world: World, hull: Hull, one: Turning, cap: Cap) -> Row | None:
    """The one line that says all of the share, in the one list of the one lot."""
    node = one.traced.node if one.traced is not None else None
    if node is None or node.material is None or cap.on != "component":
        return None
    material = world.materials[node.material.id]
    lot = material.lot(node.lot)
    if material.papers or len(lot.papers) != 1 or material.dries:
        return None
    known = hull.reading(cap.own, material, lot)
    if not known.exact or known.documented is None or known.documented[1] != known.most:
        return None  # more than the line may be there
    rows = [r for r in lot.papers[0].rows if r.identity in world.members(cap.own)]
    if len(rows) != 1 or world.settled(rows[0].identity) != world.settled(cap.own):
        return None
    said_low = sum(
        (r.said.low for r in lot.papers[0].rows if r is not rows[0]), Fraction(0)
    )
    high = rows[0].said.high
    fits = high is not None and high <= 100 - said_low
    return rows[0] if fits and not rows[0].said.only_low else None


def _mine(world: World, key: str) -> Key | None:
    """The unknown of the world that a key of the tool names, for the simple ones."""
    for mine in world.said:
        name = "/".join(part.replace("/", "%2F") for part in mine)
        if name == key and mine[0] in {"amount", "density", "measure", "leaves"}:
            relative = any(
                p.unit.startswith("%") or p.unit == "part" for p in world.lines
            )
            return None if mine[0] == "leaves" and (relative or world.blend) else mine
    return None
