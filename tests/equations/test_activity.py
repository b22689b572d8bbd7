"""Activity coefficients: against thermo's, and what thermodynamics asks of them."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from blendcheck.equations.activity import (
    ModifiedUnifac,
    stands_above_one,
    uncovered_pairs,
)
from blendcheck.errors import DomainError
from tests.equations.dortmund import arrays, groups_of, ours, theirs

NUMBERS = {
    "limonene": "138-86-3", "alpha-pinene": "80-56-8", "p-cymene": "99-87-6",
    "cineole": "470-82-6", "menthol": "2216-51-5", "menthone": "14073-97-3",
    "linalool": "78-70-6", "linalyl acetate": "115-95-7", "eugenol": "97-53-0",
    "benzyl alcohol": "100-51-6", "methyl salicylate": "119-36-8",
    "propanol": "67-63-0", "ethanol": "64-17-5", "water": "7732-18-5",
    "isopropyl myristate": "110-27-0", "triacetin": "102-76-1",
}  # fmt: skip
GROUPS = {name: groups_of(cas) for name, cas in NUMBERS.items()}
UNLIKE = (
    "eugenol", "methyl salicylate", "cineole", "isopropyl myristate", "menthone",
    "benzyl alcohol",
)  # fmt: skip
COVERED = sorted(GROUPS.keys() - set(UNLIKE))

shares = st.lists(st.floats(0, 1), min_size=2, max_size=8).filter(
    lambda x: sum(x) > 0.1
)


@given(shares, st.floats(255, 420), st.permutations(COVERED))
@settings(max_examples=150, deadline=None)
def test_coefficients_are_those_of_the_general_library(parts, kelvin, order):
    x = np.array(parts) / sum(parts)
    groups = [GROUPS[name] for name in order[: len(parts)]]
    got = ours(groups).ln_coefficients(x, kelvin)
    expected = np.log(theirs(groups, x, kelvin).gammas())
    assert got == pytest.approx(expected, rel=0, abs=1e-9)


@pytest.mark.parametrize("name", UNLIKE)
def test_the_other_groups_too(name):
    for other in ("limonene", "propanol", "water"):
        groups = [GROUPS[name], GROUPS[other]]
        if uncovered_pairs(*[arrays(groups)[i] for i in (0, 3, 4)]):
            continue
        for share in (0.0, 0.03, 0.5, 1.0):
            x = np.array([share, 1 - share])
            got = ours(groups).ln_coefficients(x, 310.0)
            expected = np.log(theirs(groups, x, 310.0).gammas())
            assert got == pytest.approx(expected, rel=0, abs=1e-9)


@given(st.sampled_from(COVERED), st.floats(255, 420))
def test_a_constituent_alone_is_ideal(name, kelvin):
    model = ours([GROUPS[name], GROUPS["water"]])
    assert float(model.ln_coefficients([1.0, 0.0], kelvin)[0]) == pytest.approx(
        0, abs=1e-12
    )


@given(shares, st.floats(270, 400), st.permutations(COVERED), st.integers(0, 99))
@settings(max_examples=60, deadline=None)
def test_gibbs_and_duhem(parts, kelvin, order, seed):
    """At constant temperature and pressure the sum of x d(ln gamma) is nothing."""
    x = (np.array(parts) + 0.05) / (np.array(parts) + 0.05).sum()
    step = np.random.default_rng(seed).normal(size=len(x))
    step = 1e-5 * (step - step.mean())
    model = ours([GROUPS[name] for name in order[: len(x)]])
    change = model.ln_coefficients(x + step, kelvin) - model.ln_coefficients(
        x - step, kelvin
    )
    assert float(x @ change) == pytest.approx(0, abs=1e-8)


def test_a_constituent_written_twice_is_one():
    """Half of it and half of it under another name is all of it."""
    pair = [GROUPS["limonene"], GROUPS["propanol"]]
    once = ours(pair).ln_coefficients([0.4, 0.6], 320.0)
    twice = ours([*pair, GROUPS["limonene"]]).ln_coefficients([0.1, 0.6, 0.3], 320.0)
    assert twice[[0, 1]] == pytest.approx(once, rel=1e-12)
    assert twice[2] == pytest.approx(twice[0], rel=1e-14)


def test_shapes_broadcast():
    model = ours([GROUPS["limonene"], GROUPS["ethanol"], GROUPS["water"]])
    rng = np.random.default_rng(4)
    x = rng.dirichlet(np.ones(3), size=5)
    kelvin = rng.uniform(280, 360, size=7)
    table = model.ln_coefficients(x[:, None, :], kelvin)
    assert table.shape == (5, 7, 3)
    for i in range(5):
        for j in range(7):
            alone = model.ln_coefficients(x[i], kelvin[j])
            assert table[i, j] == pytest.approx(alone, rel=1e-12, abs=1e-14)
    assert model.ln_coefficients(x, 300.0).shape == (5, 3)
    assert model.size == 3


def test_oil_and_water_cannot_be_one_liquid():
    model = ours([GROUPS["limonene"], GROUPS["water"]])
    x = np.array([[0.5, 0.5], [1e-9, 1 - 1e-9], [1.0, 0.0]])
    splits = stands_above_one(x, model.ln_coefficients(x, 298.15))
    assert splits.tolist() == [True, False, False]
    mixed = ours([GROUPS["ethanol"], GROUPS["water"]])
    x = np.array([[0.1, 0.9], [0.5, 0.5]])
    assert not stands_above_one(x, mixed.ln_coefficients(x, 298.15)).any()


# -- what is refused -----------------------------------------------------------------


def test_a_pair_without_a_parameter_is_named_and_refused():
    # Phenols and aldehydes: no interaction is published.
    groups = [GROUPS["eugenol"], groups_of("5392-40-5")]
    counts, _, _, mains, a, _, _ = arrays(groups)
    (pair,) = uncovered_pairs(counts, mains, a)
    assert pair[0] < pair[1]
    with pytest.raises(DomainError, match="a of every pair of main groups = nan must"):
        ours(groups)
    # Groups that do not occur may lack theirs.
    assert uncovered_pairs(np.vstack([counts[:1], counts[:1]]), mains, a) == []


GOOD = {
    "counts": [[1, 1], [2, 0]],
    "r": [0.6, 1.2],
    "q": [0.7, 0.9],
    "main_group": [0, 1],
    "a": [[0, 10.0], [20.0, 0]],
    "b": np.zeros((2, 2)),
    "c": np.zeros((2, 2)),
}
BAD = [
    ("a size is missing", {"r": [0.6]}, "counts = .* must be .constituents, groups"),
    ("no volume", {"r": [0.6, 0.0]}, "r = 0.0 must be > 0"),
    ("negative surface", {"q": [0.7, -0.1]}, "q = -0.1 must be >= 0"),
    ("NaN surface", {"q": [0.7, np.nan]}, "q = nan must be >= 0"),
    ("half the matrix", {"b": np.zeros((2, 1))}, r"b = \(2, 1\) must be \(2, 2\)"),
    ("no such main group", {"main_group": [0, 2]}, "main_group = 2.0 must be from 0"),
    ("infinite", {"c": [[0, np.inf], [0, 0]]}, "c of every pair of main groups = inf"),
    ("no group", {"counts": [[1, 1], [0, 0]]}, "groups of a constituent = 0.0 must"),
    ("negative count", {"counts": [[1, 1], [2, -1]]}, "counts = -1.0 must be >= 0"),
]


@pytest.mark.parametrize(
    ("change", "message"), [b[1:] for b in BAD], ids=[b[0] for b in BAD]
)
def test_bad_parameters(change, message):
    with pytest.raises(DomainError, match=message):
        ModifiedUnifac(**(GOOD | change))


FRACTIONS = [
    ([0.5, 0.4], 300.0, "sum of x = 0.9 must be"),
    ([1.5, -0.5], 300.0, "x = -0.5 must be >= 0"),
    ([np.nan, 0.5], 300.0, "x = nan must be >= 0"),
    ([0.5, 0.25, 0.25], 300.0, r"x = \(3,\) must be \(..., 2\)"),
    (1.0, 300.0, r"x = \(\) must be"),
    ([0.5, 0.5], 0.0, "temperature = 0.0 must be > 0"),
    ([0.5, 0.5], np.nan, "temperature = nan must be > 0"),
]


@pytest.mark.parametrize(("x", "kelvin", "message"), FRACTIONS)
def test_bad_blends(x, kelvin, message):
    with pytest.raises(DomainError, match=message):
        ModifiedUnifac(**GOOD).coefficients(x, kelvin)
