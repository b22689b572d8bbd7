"""Ten thousand showers with twelve constituents: air, beside the matrix exponential.

``python -m pytest -q -s tests/bench/bench_room.py`` prints both and their ratio. For
each draw of the room and each constituent, which leaves at its own rate: end and mean
of the shower in stall and bathroom, and both half an hour later with the door shut.
``scipy.linalg.expm`` is given all matrices at once; it is timed on fewer and scaled.
"""

import statistics
import time

import numpy as np
import pytest
from scipy.linalg import expm

from blendcheck.equations.room import Course, Decaying, Stage
from blendcheck.equations.zones import TwoZones

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
