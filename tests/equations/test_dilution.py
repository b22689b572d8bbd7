"""The float twin of the exact mass balance: the same answers, and its limits."""

import math
from collections import Counter
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from blendcheck.equations import dilution
from blendcheck.errors import DomainError
from blendcheck.largest import largest
from tests.checks.shelves import (
    LINALOOL,
    cap,
    checked,
    component_cap,
    oil,
    paper,
    row,
)

STEP = Fraction(1, 100)  # what largest rounds down to without a scale, g


def within_a_step(exact, twin):
    """The exact answer is rounded down to the step; the float one is not."""
    below = 1e-9 * max(1.0, float(twin))
    return -below <= float(twin) - float(exact) < float(STEP) + below


def exact_loads(base, grams, other, share, others_share, limit):
    """What the program finds for the first of two oils that bring linalool."""
    oils = [
        oil("a", cap("100"), papers=[paper(row("x", LINALOOL, f"{share} %"))]),
        oil("b", cap("100"), papers=[paper(row("x", LINALOOL, f"{others_share} %"))]),
    ]
    lines = {"base": f"{base} g", "a": f"{grams} g", "b": f"{other} g"}
    shelf = {"cap": [component_cap("x", LINALOOL, f"{limit} %")]}
    found = largest(checked(lines, oils, shelf=shelf))
    return {each.reading: each for each in found if each.says == "A"}


def float_loads(base, grams, other, share, others_share, limit):
    """The same by this module."""
    brings = other * others_share / 100
    finished = base + grams + other
    loads = {
        "finished mass held": dilution.largest_load_finished_held(
            limit / 100, finished=finished, other=brings, share=share / 100
        )
    }
    if share > limit:
        loads["the rest held"] = dilution.largest_load_rest_held(
            limit / 100, rest=base + other, other=brings, share=share / 100
        )
    return loads


def test_largest_load_is_that_of_the_exact_closed_form():
    compared = Counter()

    @given(
        st.tuples(
            st.integers(20, 900), st.integers(1, 90), st.integers(1, 90),
            st.integers(5, 100), st.integers(0, 60), st.integers(2, 60),
        )
    )  # fmt: skip
    @settings(max_examples=40, deadline=None, derandomize=True)
    def on_a_recipe(recipe):
        found = exact_loads(*recipe)
        for reading, load in float_loads(*recipe).items():
            exact = found.get(reading)
            # Nothing but the cap on x may differ: where the base cannot give way that
            # far, or the oil's own cap comes first, the exact one says so instead.
            if exact and exact.limited_by == "x" and exact.grams is not None:
                assert within_a_step(exact.grams, load), (reading, exact.grams, load)
                compared[reading] += 1

    on_a_recipe()
    print(f"compared with the exact closed form: {dict(compared)}")
    assert min(compared["finished mass held"], compared["the rest held"]) >= 10


caps = st.floats(1e-4, 0.5)


@given(caps, st.floats(1, 1e4), st.floats(0, 0.9), st.floats(0.01, 1))
def test_both_readings_end_on_the_cap(limit, mass, used, share):
    other = used * limit * mass
    held = float(
        dilution.largest_load_finished_held(
            limit, finished=mass, other=other, share=share
        )
    )
    assert (other + held * share) / mass == pytest.approx(limit, rel=1e-12)
    if share > limit * 1.001:
        grows = float(
            dilution.largest_load_rest_held(limit, rest=mass, other=other, share=share)
        )
        assert (other + grows * share) / (mass + grows) == pytest.approx(
            limit, rel=1e-11
        )


def test_limits_of_the_load():
    rest = {"rest": 100.0, "other": 0.0}
    at = dilution.largest_load_rest_held
    assert float(at(0.5, share=0.5, **rest)) == math.inf  # never reaches the cap
    assert float(at(0.5, share=0.2, **rest)) == math.inf
    assert float(at(0.01, rest=100.0, other=2.0, share=0.5)) == 0  # already above it
    assert float(at(0.01, share=0.5, left=0.0, **rest)) == 2.0  # it dries away whole
    with pytest.raises(DomainError, match=r"other = 2\.0 must be at most cap x rest"):
        at(0.01, rest=100.0, other=2.0, share=0.001)
    held = dilution.largest_load_finished_held
    assert float(held(0.01, finished=100.0, other=2.0, share=0.5)) == 0
    many = held([0.01, 0.02], finished=100.0, other=0.5, share=0.5)
    assert many.tolist() == [1.0, 3.0]


fractions_ = st.floats(0, 1)


@given(st.lists(st.tuples(st.floats(0.1, 1e3), fractions_), min_size=1, max_size=8))
def test_a_mixture_lies_between_its_parts(parts):
    amounts, shares = map(np.array, zip(*parts, strict=True))
    mixed = float(dilution.mixed_fraction(amounts, shares))
    assert shares.min() - 1e-15 <= mixed <= shares.max() + 1e-15
    split = dilution.mixed_fraction(np.repeat(amounts / 2, 2), np.repeat(shares, 2))
    assert float(split) == pytest.approx(mixed, rel=1e-12, abs=1e-15)


@given(fractions_, fractions_, fractions_)
def test_alligation_is_undone_by_mixing(one, two, three):
    low, wanted, high = sorted((one, two, three))
    if not high - low > 1e-6:
        return
    share = float(dilution.alligation_share(high, low, wanted))
    mixed = dilution.mixed_fraction([share, 1 - share], [high, low])
    assert float(mixed) == pytest.approx(wanted, abs=1e-12)


@given(st.floats(0.01, 0.99), st.floats(0.7, 1.0), st.floats(0.7, 1.1))
def test_strength_there_and_back(volume, density, solution):
    densities = {"density": density, "solution_density": solution}
    if volume * density > solution:
        with pytest.raises(
            DomainError, match=r"mass fraction = .* must be from 0 to 1"
        ):
            dilution.mass_fraction_from_volume_fraction(volume, **densities)
        return
    mass = dilution.mass_fraction_from_volume_fraction(volume, **densities)
    back = dilution.volume_fraction_from_mass_fraction(mass, **densities)
    assert float(back) == pytest.approx(volume, rel=1e-12)
