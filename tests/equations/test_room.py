"""Air of one and two zones: against the matrix exponential, and at its limits."""

import math
from decimal import Decimal, getcontext

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from blendcheck.equations.exponentials import divided_difference
from blendcheck.equations.room import Course, Decaying, Stage
from blendcheck.equations.zones import OneZone, TwoZones, decay_time, steady_state
from blendcheck.errors import DomainError
from tests.equations.situations import (
    by_expm,
    course_of,
    matrix,
    near,
    one_zones,
    situations,
    two_zones,
    volume_of,
)


@pytest.mark.parametrize("zones", [one_zones, two_zones], ids=["one", "two"])
@given(data=st.data())
@settings(max_examples=120, deadline=None)
def test_concentration_and_mean_are_those_of_the_matrix_exponential(zones, data):
    situation = data.draw(situations(zones))
    zone, start, emission, pools, time = situation
    course = course_of(situation)
    at, mean = by_expm(*situation)
    # The largest concentration that there could be, and so the scale of an error.
    largest = sum(start) + (emission * time + sum(m for m, _ in pools)) / volume_of(
        zone
    )
    near_enough = {"rel": 1e-9, "abs": 1e-11 * largest}
    assert course.at(time) == pytest.approx(at, **near_enough)
    assert course.mean(0.0, time) == pytest.approx(mean, **near_enough)
    assert np.all(course.at(time) >= 0)


@given(st.lists(st.floats(-50, 0), min_size=2, max_size=5), st.data())
@settings(max_examples=120, deadline=None)
def test_divided_differences_keep_thirteen_digits(nodes, data):
    """Against 150-digit arithmetic, also where nodes are equal or nearly so."""
    first = nodes[0] * (1 + data.draw(near))
    nodes = [*nodes[:-1], min(first, 0.0)]
    getcontext().prec = 150
    exact = sorted(Decimal(node) for node in nodes)
    for i in range(1, len(exact)):  # equal ones are told apart by far less than 1e-13
        exact[i] = max(exact[i], exact[i - 1] + Decimal(10) ** -25)
    table = [node.exp() for node in exact]
    for order in range(1, len(exact)):
        table = [
            (table[i + 1] - table[i]) / (exact[i + order] - exact[i])
            for i in range(len(exact) - order)
        ]
    ours = float(divided_difference(*[np.array(node) for node in nodes]))
    assert ours == pytest.approx(float(table[0]), rel=1e-13)


def test_the_worked_equations_of_one_zone():
    """The five source shapes in the form that textbooks print."""
    volume, loss, time = 10.0, 2.0, 1.0
    room = OneZone(volume, loss)
    fall = math.exp(-loss * time)

    def at(stage, initial=0.0):
        return float(Course([stage], initial).at(time)[0])

    assert at(Stage(room, time), 5.0) == pytest.approx(5 * fall)
    steady = 100 / (loss * volume)
    assert at(Stage(room, time, emission=100.0)) == pytest.approx(steady * (1 - fall))
    assert at(Stage(room, time, at_once=100.0)) == pytest.approx(10 * fall)
    gone = [Stage(room, 0.25, emission=400.0), Stage(room, 0.75)]
    assert float(Course(gone).at(time)[0]) == pytest.approx(
        400 / 20 * (1 - math.exp(-0.5)) * math.exp(-1.5)
    )
    dry = Stage(room, time, decaying=[Decaying(100.0, 6.0)])
    assert at(dry) == pytest.approx(100 * 6 / (10 * 4) * (fall - math.exp(-6)))


@pytest.mark.regression
def test_own_figures_kept():
    room = OneZone(10.0, 2.0)
    dry = Course([Stage(room, 1.0, decaying=[Decaying(100.0, 6.0)])])
    assert float(dry.at(1.0)[0]) == pytest.approx(1.992848, abs=5e-7)
    assert float(dry.mean(0.0, 1.0)[0]) == pytest.approx(3.991182, abs=5e-7)
    scenes = [
        (2.0, 12.0, 18.904, 14.877),
        (10.0, 1.0, 8.882, 5.100),
        (10.0, 8.0, 4.996, 3.551),
    ]
    for volume, loss, end, mean in scenes:
        tablet = Stage(OneZone(volume, loss), 1 / 6, decaying=[Decaying(200.0, 4.0)])
        course = Course([tablet])
        assert float(course.at(1 / 6)[0]) == pytest.approx(end, abs=6e-4)
        assert float(course.mean(0.0, 1 / 6)[0]) == pytest.approx(mean, abs=6e-4)
    shower = TwoZones(2.0, 10.0, 6.0, 20.0)
    assert steady_state(shower, 100.0) == pytest.approx([21.66667, 5.0], abs=5e-6)
    ten = Course([Stage(shower, 1 / 6, emission=100.0)]).at(1 / 6)
    assert ten == pytest.approx([6.606688, 0.308381], abs=6e-7)


def test_a_numerical_solver_agrees():
    zone = TwoZones(1.7, 9.0, 14.0, 33.0, 0.3, 0.1)
    rates, into = matrix(zone)
    solved = solve_ivp(
        lambda t, c: rates @ c + into * (80 + 300 * 5 * math.exp(-5 * t)),
        (0.0, 0.4), [3.0, 1.0], rtol=1e-11, atol=1e-12,
    )  # fmt: skip
    stage = Stage(zone, 0.4, emission=80.0, decaying=[Decaying(300.0, 5.0)])
    assert Course([stage], (3.0, 1.0)).at(0.4) == pytest.approx(
        solved.y[:, -1], rel=1e-8
    )


# -- limits --------------------------------------------------------------------------


def test_source_rate_equal_to_loss():
    room = OneZone(10.0, 2.0)
    for rate in (2.0, 2.0 * (1 + 1e-9), 2.0 * (1 - 1e-7)):
        course = Course([Stage(room, 1.0, decaying=[Decaying(100.0, rate)])])
        assert float(course.at(1.0)[0]) == pytest.approx(
            100 * rate * math.exp(-2) / 10, rel=2e-7
        )
    equal = Course([Stage(room, 1.0, decaying=[Decaying(100.0, 2.0)])])
    assert float(equal.at(1.0)[0]) == pytest.approx(20 * math.exp(-2), rel=1e-14)


@pytest.mark.parametrize("loss", [0.0, 1e-15, 1e-9])
def test_without_loss_all_of_it_stays(loss):
    sealed = OneZone(10.0, loss)
    for rate in (0.5, 4.0, 400.0):
        course = Course([Stage(sealed, 2.0, decaying=[Decaying(100.0, rate)])])
        assert float(course.at(2.0)[0]) == pytest.approx(
            10 * -math.expm1(-2 * rate), rel=1e-8
        )
        assert float(course.at(2.0)[0]) <= 10.0
    bath = TwoZones(2.0, 8.0, 6.0, loss)
    mixed = Course([Stage(bath, 50.0, at_once=100.0)]).at(50.0)
    assert mixed == pytest.approx([10.0, 10.0], rel=1e-6)


def test_a_source_at_no_rate_releases_nothing():
    course = Course([Stage(OneZone(10.0, 1.0), 1.0, decaying=[Decaying(100.0, 0.0)])])
    assert float(course.at(1.0)[0]) == 0


def test_a_fast_source_is_a_release_at_once():
    room = TwoZones(2.0, 10.0, 6.0, 20.0)
    fast = Course([Stage(room, 0.5, decaying=[Decaying(100.0, 1e7)])]).at(0.5)
    assert fast == pytest.approx(Course([Stage(room, 0.5, at_once=100.0)]).at(0.5),
                                 rel=1e-5)  # fmt: skip


def test_a_stall_that_is_closed_is_one_zone():
    shut = TwoZones(2.0, 10.0, 0.0, 20.0, 1.5, 0.0)
    stage = {"emission": 60.0, "decaying": [Decaying(100.0, 4.0)]}
    two = Course([Stage(shut, 0.5, **stage)], (1.0, 3.0)).at(0.5)
    one = Course([Stage(OneZone(2.0, 1.5), 0.5, **stage)], 1.0).at(0.5)
    assert two[0] == pytest.approx(one[0], rel=1e-13)
    assert two[1] == pytest.approx(3 * math.exp(-1.0), rel=1e-13)


BAD = [
    ("no stages", lambda: Course([]), "stages = 0 must be at least one"),
    (
        "mixed zones",
        lambda: Course([Stage(OneZone(1, 1), 1), Stage(TwoZones(1, 1, 1, 1), 1)]),
        "of one number of zones",
    ),
    (
        "levels for one zone",
        lambda: Course([Stage(TwoZones(1, 1, 1, 1), 1)], (1.0,)),
        "initial = 1 must be one for each of 2",
    ),
    (
        "time after the end",
        lambda: Course([Stage(OneZone(1, 1), 1)]).at(1.01),
        "time = 1.01 must be within the stages",
    ),
    (
        "empty window",
        lambda: Course([Stage(OneZone(1, 1), 1)]).mean(0.5, 0.5),
        "end - start = 0.0 must be > 0",
    ),
    (
        "nothing leaves",
        lambda: steady_state(TwoZones(1, 1, 5.0, 0.0), 3.0),
        "loss = 0.0 must be > 0 for a steady state",
    ),
    (
        "level below the incoming air",
        lambda: decay_time(5.0, 1.0, 2.0, background=1.0),
        "target - background = 0.0 must be > 0",
    ),
    (
        "already below",
        lambda: decay_time(0.5, 1.0, 2.0),
        "start = 0.5 must be at or above target",
    ),
]


@pytest.mark.parametrize(
    ("act", "message"), [b[1:] for b in BAD], ids=[b[0] for b in BAD]
)
def test_what_is_refused(act, message):
    with pytest.raises(DomainError, match=message):
        act()
