"""Traps of general property tables: each is pinned, and none is in our tables.

The libraries are a cross-check here and nothing that blendcheck runs on. Where a
trap goes away in a newer release, its test says so by failing.
"""

from fractions import Fraction

import pytest
from chemicals import LFL, TWA, T_flash, Tb, Tc, Tm, omega
from chemicals.acentric import LK_omega
from chemicals.critical import Pc
from chemicals.identifiers import search_chemical
from chemicals.vapor_pressure import Lee_Kesler
from rdkit import Chem
from thermo import VaporPressure
from thermo.group_contribution.joback import Joback

from blendcheck import reference

ZERO = Fraction("273.15")


def kelvins(cas, quantity):
    return [float(datum.value) for datum in reference.properties_of(cas, quantity)]


def celsius(cas, quantity):
    return [kelvin - 273.15 for kelvin in kelvins(cas, quantity)]


def test_linalool_170_pa():
    """Critical constants passed along make the library fall back on an estimator."""
    cas = "78-70-6"
    guessed = VaporPressure(
        CASRN=cas, Tb=Tb(cas), Tc=Tc(cas), Pc=Pc(cas), omega=omega(cas)
    )
    assert guessed(298.15) == pytest.approx(170, rel=0.05)
    measured = reference.vapour_pressures_of(cas)[0]
    assert (float(measured.value), measured.tag) == (27.0, "seen")
    assert all(float(datum.value) < 60 for datum in reference.vapour_pressures_of(cas))


def test_linalool_by_lee_kesler_with_the_librarys_own_constants():
    """Its acentric factor belongs to another boiling point than its own."""
    cas = "78-70-6"
    inconsistent = Lee_Kesler(298.15, Tc(cas), Pc(cas), omega(cas))
    boiling = Tb(cas)
    critical = Joback(search_chemical(cas).smiles).Tc(
        Joback(search_chemical(cas).smiles).counts, boiling
    )
    consistent = Lee_Kesler(
        298.15, critical, Pc(cas), LK_omega(boiling, critical, Pc(cas))
    )
    assert inconsistent > 100
    assert consistent < 60


def test_triacetin_264_pa_inside_its_stated_range():
    library = VaporPressure(CASRN="102-76-1")
    library.method = "LANDOLT"
    low, high = library.T_limits["LANDOLT"]
    assert low < 298.15 < high
    assert library(298.15) == pytest.approx(264.4, rel=0.01)
    assert "landolt-antoine" not in {
        fit.source_id for fit in reference.vapour_fits_of("102-76-1")
    }


@pytest.mark.parametrize(
    ("name", "cas", "printed"),
    # boiling points under reduced pressure that stand as if normal [degC]
    [
        ("beta-caryophyllene", "87-44-5", 129.5),
        ("alpha-humulene", "6753-98-6", 123),
        ("trans-anethole", "4180-23-8", 81),
        ("camphene", "79-92-5", 107),
        ("dodecanal", "112-54-9", 185),
    ],
)
def test_reduced_pressure_boiling_points(name, cas, printed):
    library = [
        Tb(cas, method=method) - 273.15
        for method in ("COMMON_CHEMISTRY", "WEBBOOK", "WIKIDATA", "YAWS")
        if Tb(cas, method=method) is not None
    ]
    assert any(abs(found - printed) < 1 for found in library), name
    assert all(abs(ours - printed) > 10 for ours in celsius(cas, "boiling point"))


@pytest.mark.parametrize(
    ("name", "cas", "method", "printed"),
    [
        ("undecanal", "112-44-7", "WEBBOOK", 272),
        ("alpha-thujone", "546-80-5", "CRC_ORG", 221),
        ("hexyl cinnamal", "101-86-0", "CRC_ORG", 252),
    ],
)
def test_plain_errors_of_boiling_points(name, cas, method, printed):
    assert Tb(cas, method=method) - 273.15 == pytest.approx(printed, abs=0.5), name
    assert all(abs(ours - printed) > 8 for ours in celsius(cas, "boiling point"))


@pytest.mark.parametrize(
    ("name", "cas", "printed"),
    # melting points of derivatives, or of something else [degC]
    [
        ("terpinen-4-ol", "562-74-3", 162.5),
        ("nonanal", "124-19-6", 94.5),
        ("benzyl salicylate", "118-58-1", 130.5),
        ("ethyl maltol", "4940-11-8", 91),
        ("6-methyl-5-hepten-2-one", "110-93-0", 173.5),
        ("dodecanal", "112-54-9", 44),
    ],
)
def test_melting_points_of_derivatives(name, cas, printed):
    library = [
        Tm(cas, method=method) - 273.15
        for method in ("COMMON_CHEMISTRY", "CRC_ORG", "OPEN_NTBKM")
        if Tm(cas, method=method) is not None
    ]
    assert any(abs(found - printed) < 1 for found in library), name
    assert all(abs(ours - printed) > 8 for ours in celsius(cas, "melting point"))


def test_dipropylene_glycol_is_drawn_as_an_acetal():
    """Right formula and mass, wrong connections: groups counted on it are wrong."""
    ours = reference.constituents()["25265-71-8"]
    library = search_chemical("25265-71-8").smiles
    ours_drawn, theirs = map(Chem.MolFromSmiles, (ours.smiles, library))
    acetal = Chem.MolFromSmarts("[OX2][CX4H1]([#6])[OX2]")
    assert theirs.HasSubstructMatch(acetal)
    assert not ours_drawn.HasSubstructMatch(acetal)


@pytest.mark.parametrize(
    ("name", "right", "answered"),
    [
        ("nerol", "106-25-2", "106-24-1"),
        ("neryl acetate", "141-12-8", "105-87-3"),
        ("isoborneol", "124-76-5", "507-70-0"),
        ("menthyl acetate", "2623-23-6", "89-48-5"),
        ("dl-menthol", "89-78-1", "1490-04-6"),
    ],
)
def test_wrong_isomers_by_name(name, right, answered):
    assert search_chemical(name).CASs == answered
    found = reference.find(name)
    assert right in (found.exact, *found.candidates)
    if name not in ("menthyl acetate",):
        assert found.candidates[:1] != (answered,)


def test_equations_run_on_outside_their_range_in_silence():
    camphor = VaporPressure(CASRN="76-22-2")
    low, _ = camphor.T_limits["ANTOINE_WEBBOOK"]
    assert low > 450
    assert camphor.calculate(298.15, "ANTOINE_WEBBOOK") == pytest.approx(9.6, rel=0.05)
    for fit in reference.vapour_fits_of("76-22-2"):
        assert float(fit.t_min_k) > 298.15


def test_an_estimate_is_not_a_measured_flash_point_of_an_alcohol():
    assert T_flash("64-17-5", method="Serat DIPPR (2017)") - 273.15 < -12
    rows = reference.properties_of("64-17-5", "flash point")
    assert rows[-1].source_id == "serat-2017"
    assert rows[-1].basis == "estimated"
    assert rows[0].value == ZERO + 12


def test_a_negative_flammable_limit():
    assert LFL(CASRN="111-87-5", method="IEC 60079-20-1 (2010)") < 0
    assert all(
        datum.value > 0
        for datum in reference.properties_of("111-87-5", "lower flammable limit")
    )


def test_a_limit_on_a_group_is_not_found_by_its_members():
    assert TWA("80-56-8") is None
    (turpentine,) = (
        row
        for row in reference.air_limits_of("8006-64-2")
        if row.issued_by == "Regulation 833"
    )
    assert turpentine.datum.printed == "<= 20 ppm"
    assert "alpha-pinene" in turpentine.note


def test_no_limit_is_a_conversion_of_a_conversion():
    """The library gives glycerol mist as 2.66 ppm, made from mg/m3."""
    value, unit = TWA("56-81-5")
    assert (unit, round(value, 2)) == ("ppm", 2.66)
    assert reference.air_limits_of("56-81-5") == ()


def test_a_fused_superscript_is_read_as_a_temperature():
    """The library column prints 934.645 for 0.9346 g/cm3 at 45 degC."""
    (pulegone,) = reference.properties_of("89-82-7", "density")
    assert float(pulegone.value) == 934.6
    assert pulegone.conditions == "45 degC"
    assert "934.645" in pulegone.note


def test_the_crystal_of_menthol_does_not_stand_above_its_liquid():
    """8.5 Pa for the crystal was told; 4.5 Pa is measured for the liquid."""
    for cas in ("2216-51-5", "89-78-1", "1490-04-6"):
        for datum in reference.vapour_pressures_of(cas):
            assert float(datum.value) <= 4.5, datum


def test_camphor_keeps_both_figures_and_says_that_they_disagree():
    rows = reference.vapour_pressures_of("76-22-2")
    assert {datum.printed for datum in rows} == {"0.65 mmHg", "0.2 mmHg"}
    assert all("30 to 90 Pa" in datum.note for datum in rows)
