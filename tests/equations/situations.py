"""Rooms drawn at random, and their air by the exponential of a matrix.

``scipy.linalg.expm`` of a matrix that holds the concentrations, every source and the
time integrals in one vector. It is turned by an orthogonal matrix first: scipy has a
shortcut for triangular matrices that loses half the digits where two rates nearly
coincide, and the comparison needs them.
"""

import numpy as np
from hypothesis import strategies as st
from scipy.linalg import expm
from scipy.stats import ortho_group

from blendcheck.equations.room import Course, Decaying, Stage
from blendcheck.equations.zones import OneZone, TwoZones

TURN = {n: ortho_group.rvs(n, random_state=7) for n in range(3, 8)}


def matrix(zone):
    """Exchange between zones, and the share of a release that each gets. [1/h, 1/m3]"""
    if isinstance(zone, OneZone):
        return np.array([[-zone.loss]]), np.array([1 / zone.volume])
    out, back = zone.exchange / zone.stall_volume, zone.exchange / zone.bathroom_volume
    away = zone.outflow / zone.bathroom_volume + zone.bathroom_loss
    rates = np.array([[-out - zone.stall_loss, out], [back, -back - away]])
    return rates, np.array([1 / zone.stall_volume, 0.0])


def by_expm(zone, start, emission, pools, time):
    """Concentrations at a time, and their mean until then, by the augmented matrix.

    What is still to be released stands in it as a concentration and time as a share
    of the whole, so that all its numbers are of one size.
    """
    rates, into = matrix(zone)
    n = len(into)
    size = 2 * n + 1 + len(pools)
    whole = np.zeros((size, size))
    whole[:n, :n] = rates * time
    whole[n : 2 * n, :n] = np.eye(n)
    entry = into / into[0]
    steady = emission * into[0] * time
    whole[:n, 2 * n] = entry
    for i, (_, rate) in enumerate(pools):
        whole[:n, 2 * n + 1 + i] = rate * time * entry
        whole[2 * n + 1 + i, 2 * n + 1 + i] = -rate * time
    held = [mass * into[0] for mass, _ in pools]
    state = np.concatenate([start, np.zeros(n), [steady], held])
    turn = TURN[size]
    result = turn.T @ (expm(turn @ whole @ turn.T) @ (turn @ state))
    return result[:n], result[n : 2 * n]


volumes = st.floats(0.5, 100)
flows = st.one_of(st.just(0.0), st.floats(1e-9, 1e-3), st.floats(0.01, 200))
rates = st.one_of(st.just(0.0), st.floats(1e-10, 1e-3), st.floats(0.01, 60))
masses = st.one_of(st.just(0.0), st.floats(0.1, 1000))
levels = st.one_of(st.just(0.0), st.floats(0.1, 500))
times = st.floats(1e-4, 4)
near = st.sampled_from([0.0, 1e-12, 1e-9, -1e-7, 1e-4, -1e-3])

one_zones = st.builds(OneZone, volumes, rates)
two_zones = st.builds(TwoZones, volumes, volumes, flows, flows, rates, rates)


@st.composite
def situations(draw, zones):
    """A room with sources, some of whose rates lie on or beside a rate of the room."""
    zone = draw(zones)
    own = -np.linalg.eigvals(matrix(zone)[0]).real
    beside = st.builds(
        lambda rate, shift: max(rate * (1 + shift), 0.0),
        st.sampled_from(list(own)),
        near,
    )
    pools = draw(st.lists(st.tuples(masses, st.one_of(rates, beside)), max_size=2))
    start = [draw(levels) for _ in range(zone.size)]
    return zone, start, draw(masses), pools, draw(times)


def volume_of(zone):
    return zone.volume if isinstance(zone, OneZone) else zone.stall_volume


def course_of(situation):
    zone, start, emission, pools, time = situation
    decaying = [Decaying(mass, rate) for mass, rate in pools]
    return Course([Stage(zone, time, emission=emission, decaying=decaying)], start)
