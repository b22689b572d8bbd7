"""Rows of stages: superposition, conservation, peaks, and times to a level."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from blendcheck.equations.room import Course, Decaying, Stage
from blendcheck.equations.zones import OneZone, TwoZones, decay_time, first_order_peak
from tests.equations.situations import (
    by_expm,
    course_of,
    masses,
    rates,
    situations,
    two_zones,
    volumes,
)


@given(
    two_zones,
    st.floats(0.05, 0.5),
    st.floats(0.05, 2),
    st.tuples(masses, rates),
    st.integers(1, 4),
)
@settings(max_examples=40, deadline=None)
def test_repeated_showers_superpose(zone, shower, pause, source, times_):
    """Showers one after another are the sum of one shower begun at each time."""
    decaying = [Decaying(*source)]
    row = []
    for _ in range(times_):
        row += [Stage(zone, shower, emission=50.0, decaying=decaying),
                Stage(zone, pause)]  # fmt: skip
    whole = times_ * (shower + pause)
    several = Course(row).at(whole)
    alone = Course([Stage(zone, shower, emission=50.0, decaying=decaying),
                    Stage(zone, whole)])  # fmt: skip
    starts = [i * (shower + pause) for i in range(times_)]
    summed = sum(alone.at(whole - start) for start in starts)
    assert several == pytest.approx(summed, rel=1e-9, abs=1e-12)


@given(two_zones, st.floats(0.05, 1), st.floats(0.05, 1), masses)
@settings(max_examples=40, deadline=None)
def test_a_cut_without_a_change_changes_nothing(zone, first, second, mass):
    stage = {"decaying": [Decaying(mass, 4.0)]}
    cut = Course([Stage(zone, first, **stage), Stage(zone, second)], (2.0, 1.0))
    whole = Course([Stage(zone, first + second, **stage)], (2.0, 1.0))
    for time in (first / 2, first + second / 3, first + second):
        assert cut.at(time) == pytest.approx(whole.at(time), rel=1e-11, abs=1e-13)
    low, high = first / 3, first + second / 2
    assert cut.mean(low, high) == pytest.approx(
        whole.mean(low, high), rel=1e-11, abs=1e-13
    )


def test_the_fan_on_afterwards():
    """What the fan finds is what the shower left, and what the tablet still holds."""
    shower = TwoZones(2.0, 10.0, 6.0, 5.0)
    fan = TwoZones(2.0, 10.0, 30.0, 80.0)
    course = Course([Stage(shower, 0.2, decaying=[Decaying(200.0, 6.0)]),
                     Stage(fan, 0.5)])  # fmt: skip
    left, _ = by_expm(shower, [0, 0], 0.0, [(200.0, 6.0)], 0.2)
    held = 200 * math.exp(-6 * 0.2)
    after, _ = by_expm(fan, left, 0.0, [(held, 6.0)], 0.5)
    assert course.at(0.7) == pytest.approx(after, rel=1e-9)
    assert course.last() == pytest.approx(after, rel=1e-9)
    assert np.all(course.at(0.7) < course.at(0.2))


@given(situations(two_zones), st.floats(0.5, 20))
@settings(max_examples=40, deadline=None)
def test_air_is_linear_in_what_is_released(situation, factor):
    zone, start, emission, pools, time = situation
    more = (zone, [factor * each for each in start], factor * emission,
            [(factor * mass, rate) for mass, rate in pools], time)  # fmt: skip
    assert course_of(more).at(time) == pytest.approx(
        factor * course_of(situation).at(time), rel=1e-11, abs=1e-200
    )


@given(situations(two_zones))
@settings(max_examples=100, deadline=None)
def test_nothing_appears_from_nowhere(situation):
    """What hangs in the air is at most what was there and what was released."""
    zone, start, emission, pools, time = situation
    held = course_of(situation).at(time)
    volumes_ = np.array([zone.stall_volume, zone.bathroom_volume])
    brought = volumes_ @ start + emission * time + sum(mass for mass, _ in pools)
    assert volumes_ @ held <= brought * (1 + 1e-12) + 1e-12


def test_arrays_go_through_like_numbers():
    rng = np.random.default_rng(3)
    sizes = rng.uniform(1, 9, (5, 1))
    loads, dry = rng.uniform(1, 9, (5, 4)), rng.uniform(1, 9, 4)
    zone = TwoZones(sizes, 2 * sizes, 6.0, 20.0)
    course = Course([Stage(zone, 0.3, decaying=[Decaying(loads, dry)])])
    mean = course.mean(0.0, 0.3)
    peak, when = course.peak()
    assert mean.shape == (5, 4, 2)
    assert peak.shape == when.shape == (5, 4)
    small = TwoZones(sizes[2, 0], 2 * sizes[2, 0], 6.0, 20.0)
    one = Course([Stage(small, 0.3, decaying=[Decaying(loads[2, 1], dry[1])])])
    assert mean[2, 1] == pytest.approx(one.mean(0.0, 0.3), rel=1e-14)
    assert peak[2, 1] == pytest.approx(float(one.peak()[0]), rel=1e-14)


# -- peaks and times -----------------------------------------------------------------


@given(st.floats(0.1, 50), st.floats(0.1, 50), volumes)
@settings(max_examples=40, deadline=None)
def test_peak_of_a_source_that_runs_dry(rate, loss, volume):
    room = OneZone(volume, loss)
    peak, when = first_order_peak(100.0, rate, room)
    course = Course([Stage(room, 3 * float(when), decaying=[Decaying(100.0, rate)])])
    found, time = course.peak()
    assert float(found) == pytest.approx(float(peak), rel=1e-9)
    assert float(time) == pytest.approx(float(when), rel=1e-3)


def test_limits_of_that_peak():
    assert first_order_peak(100.0, 2.0, OneZone(10.0, 2.0)) == pytest.approx(
        (10 / math.e, 0.5), rel=1e-12
    )
    peak, when = first_order_peak(100.0, 2.0, OneZone(10.0, 0.0))
    assert (float(peak), float(when)) == (10.0, math.inf)


@given(situations(two_zones), st.integers(0, 1))
@settings(max_examples=40, deadline=None)
def test_no_moment_is_above_the_peak(situation, zone):
    course = course_of(situation)
    peak, when = course.peak(zone)
    moments = np.linspace(0, situation[-1], 501)
    held = course.at(moments)[:, zone]
    assert np.all(held <= peak * (1 + 1e-9) + 1e-12)
    assert float(course.at(float(when))[zone]) == pytest.approx(float(peak), rel=1e-12)


def test_a_peak_may_lie_in_a_later_stage():
    room = OneZone(10.0, 1.0)
    stages = [Stage(room, 0.5, at_once=50.0), Stage(room, 0.5, at_once=90.0)]
    peak, when = Course(stages).peak()
    assert float(when) == 0.5
    assert float(peak) == pytest.approx(9 + 5 * math.exp(-0.5))


def test_time_until_a_level_is_kept():
    room = OneZone(30.0, 2.0)
    course = Course([Stage(room, 0.5, emission=6000.0), Stage(room, 10.0)])
    top = float(course.at(0.5)[0])
    expected = 0.5 + float(decay_time(top, 4.0, 2.0))
    assert float(course.time_below(4.0)) == pytest.approx(expected, abs=1e-6)
    assert float(course.time_below(2 * top)) == 0
    assert (
        float(Course([Stage(room, 0.5, emission=6000.0)]).time_below(4.0)) == math.inf
    )
