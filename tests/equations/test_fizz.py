"""Fizz: conservation, limits, and where the chemical equilibrium ends.

The equilibrium is worked out here from constants of a general chemistry table, all
from memory: citric acid pK 3.13, 4.76, 6.40; carbonic acid 6.35, 10.33; solubility of
carbon dioxide 0.034 mol/(L atm); 400 ppm of it in room air. No activity coefficients.
"""

import csv
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

import blendcheck
from blendcheck.equations import fizz
from blendcheck.errors import DomainError

amounts = st.one_of(st.just(0.0), st.floats(0.01, 500))
some_acids = st.dictionaries(st.sampled_from(sorted(fizz.ACIDS)), amounts)


@given(amounts, some_acids)
def test_nothing_is_lost(base, acids):
    """Carbon and protons before and after; one of both runs out."""
    result = fizz.fizz(base, acids)
    gas = float(result.carbon_dioxide) / fizz.CARBON_DIOXIDE
    left = float(result.bicarbonate_left) / fizz.BICARBONATE
    assert gas + left == pytest.approx(base / fizz.BICARBONATE, abs=1e-12)
    given_ = sum(
        mass / fizz.ACIDS[name].molar_mass * fizz.ACIDS[name].protons
        for name, mass in acids.items()
    )
    protons = float(result.protons_left)
    assert gas + protons == pytest.approx(given_, abs=1e-12)
    assert min(left, protons) == pytest.approx(0, abs=1e-12)
    assert result.carbon_dioxide <= result.upper_bound * (1 + 1e-15)
    kept = sum(
        float(mass) / fizz.ACIDS[name].molar_mass * fizz.ACIDS[name].protons
        for name, mass in result.acid_left.items()
    )
    assert kept == pytest.approx(protons, abs=1e-10)


def test_arrays_go_through():
    ratio = np.linspace(0.5, 4, 8)
    result = fizz.fizz(ratio / (1 + ratio), {"citric acid": 1 / (1 + ratio)})
    assert result.carbon_dioxide.shape == (8,)
    best = 3 * fizz.BICARBONATE / fizz.ACIDS["citric acid"].molar_mass
    assert abs(ratio[result.carbon_dioxide.argmax()] - best) < 0.5


def test_acids_by_what_they_can_do():
    """A gram of each with more bicarbonate than it needs, from strong to weak."""
    gas = {
        name: float(fizz.fizz(100.0, {name: 1.0}).carbon_dioxide) for name in fizz.ACIDS
    }
    # 44.01 g of gas a mole of protons; masses of the acids in g/mol, by hand.
    assert gas["citric acid"] == pytest.approx(3 * 44.01 / 192.12, rel=1e-3)
    assert gas["citric acid monohydrate"] == pytest.approx(3 * 44.01 / 210.14, rel=1e-3)
    assert gas["malic acid"] == pytest.approx(2 * 44.01 / 134.09, rel=1e-3)
    assert gas["tartaric acid"] == pytest.approx(2 * 44.01 / 150.09, rel=1e-3)
    assert gas["cream of tartar"] == pytest.approx(44.01 / 188.18, rel=1e-3)


CAS = {
    "citric acid": "77-92-9", "citric acid monohydrate": "5949-29-1",
    "cream of tartar": "868-14-4", "malic acid": "6915-15-7",
    "tartaric acid": "87-69-4",
}  # fmt: skip


def test_masses_are_those_of_the_tables():
    path = Path(blendcheck.__file__).parents[1] / "reference" / "constituents.csv"
    with path.open(encoding="utf-8", newline="") as file:
        masses = {row["cas"]: row["molar_mass"] for row in csv.DictReader(file)}
    masses = {cas: float(mass) for cas, mass in masses.items() if mass}
    assert {n: a.molar_mass for n, a in fizz.ACIDS.items()} == {
        name: masses[cas] for name, cas in CAS.items()
    }
    assert masses["144-55-8"] == fizz.BICARBONATE
    assert masses["124-38-9"] == fizz.CARBON_DIOXIDE


def test_what_is_refused():
    with pytest.raises(DomainError, match=r"bicarbonate = -1\.0 must be >= 0"):
        fizz.fizz(-1.0, {})
    with pytest.raises(DomainError, match="citric acid = nan must be >= 0"):
        fizz.fizz(1.0, {"citric acid": float("nan")})
    with pytest.raises(KeyError, match="vinegar"):
        fizz.fizz(1.0, {"vinegar": 1.0})


# -- against the chemical equilibrium ------------------------------------------------

CITRIC = np.array([3.13, 4.76, 6.40])
CARBONIC = np.array([6.35, 10.33])


def charge(ph, pks):
    """Mean negative charge of an acid that is spread over its forms."""
    logs = np.concatenate([[0.0], np.cumsum(ph - pks)])
    forms = 10 ** (logs - logs.max())
    return float(forms @ np.arange(len(forms)) / forms.sum())


def carbonic_share(ph, form):
    logs = np.concatenate([[0.0], np.cumsum(ph - CARBONIC)])
    return float((10 ** (logs - logs.max()) / (10 ** (logs - logs.max())).sum())[form])


def released(ratio, litres, pressure):
    """pH and share of the carbon that has left, at that pressure of the gas [atm].

    One gram of powder in so much water, in equilibrium with the air above it.
    """
    sodium = ratio / (1 + ratio) / 84.007 / litres
    citric = 1 / (1 + ratio) / 192.124 / litres
    dissolved = 0.034 * pressure

    def balance(ph):
        held = dissolved / carbonic_share(ph, 0)
        negative = citric * charge(ph, CITRIC) + held * charge(ph, CARBONIC)
        return sodium + 10**-ph - negative - 10 ** (ph - 14)

    ph = brentq(balance, 2, 12)
    return ph, 1 - dissolved / carbonic_share(ph, 0) / sodium


@pytest.mark.parametrize("ratio", [1.0, 1.312, 2.0, 3.0])
def test_stoichiometry_is_where_open_water_ends(ratio):
    """A gram of powder in a litre, left open: within 3 % of all carbon, by hours.

    In much more water some gas stays dissolved; in a puddle bicarbonate slowly goes
    on to carbonate and gives more, which the upper bound holds.
    """
    result = fizz.fizz(ratio / (1 + ratio), {"citric acid": 1 / (1 + ratio)})
    expected = float(result.carbon_dioxide / result.upper_bound)
    for litres, low, high in ((1.0, -0.03, 0.03), (8.0, -0.09, 0.0), (0.1, -0.01, 0.1)):
        ph, share = released(ratio, litres, 400e-6)
        print(f"{ratio}:1 in {litres} L: pH {ph:.2f}, {100 * share:.1f} % released, "
              f"stoichiometry {100 * expected:.1f} %")  # fmt: skip
        assert low <= share - expected <= high
        assert share <= 1
        if ratio >= 2:  # bicarbonate is left over: an alkaline rinse
            assert 7.5 < ph < 10
        if ratio == 1:  # acid is left over
            assert ph < 7


def test_under_its_own_gas_less_of_it_leaves():
    """Why stoichiometry is the upper end in a shower: a closed piece gives less."""
    ph, share = released(2.0, 0.1, 0.5)
    assert share < float(fizz.fizz(2.0, {"citric acid": 1.0}).carbon_dioxide
                         / fizz.fizz(2.0, {}).upper_bound)  # fmt: skip
    assert ph < 7.5
