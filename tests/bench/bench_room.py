"""Ten thousand showers with twelve constituents: air, beside the matrix exponential.

``python -m pytest -q -s tests/bench/bench_room.py`` prints both and their ratio. For
each draw of the room and each constituent, which leaves at its own rate: end and mean
of the shower in stall and bathroom, and both half an hour later with the door shut.
``scipy.linalg.expm`` is given all matrices at once; it is timed on fewer and scaled.

The second test does the same from a recipe: compositions of the lots, what leaves by
the three ways, and the rooms, all drawn.
"""

import statistics
import time

import numpy as np
import pytest
from scipy.linalg import expm

from blendcheck.equations.room import Course, Decaying, Stage
from blendcheck.equations.zones import TwoZones
from blendcheck.estimates.air_draws import air_draws, gram_draws, part_draws, room_draws
from blendcheck.estimates.scent import scent_of
from blendcheck.estimates.setting import setting_of
from blendcheck.estimates.shower import gas_for
from tests.checks.cases import make_case, oil

pytestmark = [pytest.mark.bench, pytest.mark.timeout(600)]

DRAWS, PARTS, FEWER, RUNS = 10_000, 12, 500, 5
LIMIT_S, NEAR = 0.3, 1e-9
LATER = 0.5  # h

RNG = np.random.default_rng(9)
STALL, BATHROOM = RNG.uniform(0.8, 3, (DRAWS, 1)), RNG.uniform(6, 15, (DRAWS, 1))
EXCHANGE, OUTFLOW = RNG.uniform(3, 60, (DRAWS, 1)), RNG.uniform(2, 100, (DRAWS, 1))
SHOWER = RNG.uniform(0.1, 0.3, (DRAWS, 1))  # h
MASS, RATE = RNG.uniform(0, 500, (DRAWS, PARTS)), RNG.uniform(2, 30, (DRAWS, PARTS))


def closed_form():
    """End and mean of the shower, and half an hour later: (3, draws, parts, zones)."""
    zone = TwoZones(STALL, BATHROOM, EXCHANGE, OUTFLOW)
    course = Course([Stage(zone, SHOWER, decaying=[Decaying(MASS, RATE)]),
                     Stage(zone, LATER)])  # fmt: skip
    return np.stack([course.at(SHOWER), course.mean(0.0, SHOWER), course.last()])


def by_expm(draws):
    """The same by the matrix of both concentrations, their integrals and the source."""
    size = (draws, PARTS)
    stall, bathroom, exchange, outflow, shower = (
        np.broadcast_to(each[:draws], size)
        for each in (STALL, BATHROOM, EXCHANGE, OUTFLOW, SHOWER)
    )
    rate, mass = RATE[:draws], MASS[:draws]
    whole = np.zeros((*size, 5, 5))
    whole[..., 0, 0] = -exchange / stall
    whole[..., 0, 1] = exchange / stall
    whole[..., 1, 0] = exchange / bathroom
    whole[..., 1, 1] = -(exchange + outflow) / bathroom
    whole[..., 2, 0] = whole[..., 3, 1] = 1
    whole[..., 0, 4] = rate
    whole[..., 4, 4] = -rate
    start = np.zeros((*size, 5, 1))
    start[..., 4, 0] = mass / stall
    end = expm(whole * shower[..., None, None]) @ start
    mean = end[..., 2:4, 0] / shower[..., None]
    later = expm(whole * LATER) @ end
    return np.stack([end[..., :2, 0], mean, later[..., :2, 0]])


def test_air_of_ten_thousand_showers():
    closed_form()
    by_expm(10)
    mine, scaled = [], []
    for _ in range(RUNS):
        start = time.perf_counter()
        found = closed_form()
        mine.append(time.perf_counter() - start)
        start = time.perf_counter()
        expected = by_expm(FEWER)
        scaled.append((time.perf_counter() - start) * DRAWS / FEWER)
    far = float((np.abs(found[:, :FEWER] - expected) / expected).max())
    ratio = statistics.median(scaled) / statistics.median(mine)
    print(
        f"\nair, {DRAWS} draws of {PARTS} constituents: "
        f"{statistics.median(mine):.3f} s (best {min(mine):.3f}); expm, scaled from "
        f"{FEWER}: {statistics.median(scaled):.1f} s; ratio {ratio:.0f}; "
        f"largest relative difference {far:.1e}"
    )
    assert far <= NEAR
    assert min(mine) < LIMIT_S


TWELVE = (
    ("5989-27-5", "20-40 %"), ("470-82-6", "5-15 %"), ("2216-51-5", "5-15 %"),
    ("80-56-8", "2-10 %"), ("127-91-3", "2-8 %"), ("78-70-6", "5-12 %"),
    ("115-95-7", "5-12 %"), ("76-22-2", "1-5 %"), ("97-53-0", "0.5-2 %"),
    ("99-87-6", "1-4 %"), ("14073-97-3", "2-6 %"), ("119-36-8", "0.5-2 %"),
)  # fmt: skip


def blend():
    """Two lots of one oil with twelve constituents, in a tablet of 100 g."""
    rows = [{"name": cas, "cas": cas, "share": share} for cas, share in TWELVE]
    report = {"kind": "full GC-MS", "copied_whole": True, "row": rows}
    lots = [{"lot": n, "composition": [report]} for n in ("a", "b")]
    scented = oil(lot=lots)
    soda = {"id": "soda", "name": "Soda", "kind": "solid", "cas": "144-55-8"}
    case = make_case(
        (soda, "98 g"), (scented, "1 g", "a"), (scented, "1 g", "b"),
        piece_mass="100 g", product="shower tablet",
    )  # fmt: skip
    return scent_of(case.totals)


def rooms_by_expm(rooms, draws):
    """Mean of the shower and half an hour later, of one milligram, by matrices."""
    stall, bathroom = rooms.stall[:draws], rooms.bathroom[:draws]
    exchange, outflow = rooms.exchange[:draws], rooms.outflow[:draws]
    rate, hours = 3.0 / rooms.dissolving[:draws], rooms.hours[:draws]
    whole = np.zeros((draws, 5, 5))
    whole[:, 0, 0] = -exchange / stall
    whole[:, 0, 1] = exchange / stall
    whole[:, 1, 0] = exchange / bathroom
    whole[:, 1, 1] = -(exchange + outflow) / bathroom
    whole[:, 2, 0] = whole[:, 3, 1] = 1
    whole[:, 0, 4], whole[:, 4, 4] = rate, -rate
    start = np.zeros((draws, 5, 1))
    start[:, 4, 0] = 1 / stall
    end = expm(whole * hours[:, None, None]) @ start
    later = expm(whole * rooms.shut) @ end
    return np.stack([end[:, 2:4, 0] / hours[:, None], later[:, :2, 0]], axis=1)


def test_air_of_a_recipe_in_ten_thousand_draws():
    scent, setting = blend(), setting_of()
    assert len(scent.constituents) == PARTS
    air_draws(scent, setting)
    mine = []
    for _ in range(RUNS):
        start = time.perf_counter()
        rooms = room_draws(setting, DRAWS)
        found = air_draws(scent, setting, rooms)
        mine.append(time.perf_counter() - start)
    cas, grams = gram_draws(scent, DRAWS)
    gas = gas_for(scent.gas_g, scent.load.middle, setting)
    released = 1e3 * grams * part_draws(cas, setting, rooms, gas)
    start = time.perf_counter()
    unit = rooms_by_expm(rooms, FEWER)
    each = released[:FEWER, :, None, None] * unit[:, None]  # constituent by constituent
    scaled = (time.perf_counter() - start) * DRAWS / FEWER
    expected = each.sum(axis=1)
    got = np.stack([found.mean, found.later], axis=1)[:FEWER]
    far = float((np.abs(got - expected) / expected).max())
    print(
        f"\nair of a recipe, {DRAWS} draws of {PARTS} constituents: "
        f"{statistics.median(mine):.3f} s (best {min(mine):.3f}); expm for the rooms "
        f"alone, scaled from {FEWER}: {scaled:.2f} s; ratio "
        f"{scaled / statistics.median(mine):.0f}; largest relative difference {far:.1e}"
    )
    assert far <= NEAR
    assert min(mine) < LIMIT_S
