"""Against the identifier table of the ``chemicals`` library, by CAS number.

The library (1.5.2; tables compiled from PubChem records) is a cross-check here and
nothing that blendcheck runs on. Where the two disagree, the row is listed by name
with the reason; a new disagreement, or one that went away, fails.
"""

from functools import cache

import pytest
from chemicals.identifiers import search_chemical
from rdkit import Chem, rdBase

from blendcheck import reference
from blendcheck.reference import check_digit_ok

TABLE = reference.constituents()

FLAT = "the library draws no stereo here"
REDIRECTED = "the library answers with a number that states no isomer"
OTHER = "the library answers with another isomer"

DISAGREEMENTS = {
    # the same number, other stereo
    "trans-beta-ionone": FLAT,
    "pulegone": FLAT,
    "geraniol": f"{FLAT}, and calls the number nerol",
    "alpha-ionone": FLAT,
    "alpha-isomethyl ionone": FLAT,
    "cis-jasmone": FLAT,
    "cis-3-hexenyl acetate": FLAT,
    "alpha-humulene": FLAT,
    "beta-ocimene (isomer not stated)": "the library draws E",
    "trimethylcyclopentenyl methylisopentenol": "the library draws Z",
    "isoborneol": "the library draws a cage that cannot exist",
    "isobornyl acetate": "the library draws a cage that cannot exist",
    "l-borneol": "the library draws a cage that cannot exist",
    "longifolene": "the library draws a cage that cannot exist",
    # another number, other stereo
    "menthone (trans)": REDIRECTED,
    "isomenthone": REDIRECTED,
    "geranial": REDIRECTED,
    "trans,trans-farnesol": REDIRECTED,
    "l-linalool": REDIRECTED,
    "d-borneol": REDIRECTED,
    "l-camphor": REDIRECTED,
    "d-camphor": REDIRECTED,
    "dl-camphor": REDIRECTED,
    "l-menthyl acetate": REDIRECTED,
    "d-fenchone": REDIRECTED,
    "l-fenchone": REDIRECTED,
    "cis-isoeugenol": REDIRECTED,
    "cis-anethole": REDIRECTED,
    "trans-alpha-damascone": REDIRECTED,
    "cis-beta-damascone": REDIRECTED,
    "nerol": f"{REDIRECTED} and is that of geraniol",
    "neryl acetate": f"{OTHER}, geranyl acetate",
    "neomenthol": f"{OTHER}, of the iso series",
    "d-menthol": f"{OTHER}, l-menthol",
    "damascenone (isomer not stated)": f"{OTHER}, the E form",
    # another number, the same structure
    "dl-menthol": "redirected to l-menthol; the racemate is drawn as that",
    "beta-santalol": "redirected to 37172-32-0",
    "beta-thujone": "redirected to thujone, drawn without stereo here too",
    "caryophyllene oxide": "redirected to 13877-94-6",
    "(E)-beta-ocimene": "redirected to beta-ocimene, which the library draws as E",
    "dl-limonene": "redirected to limonene, isomer not stated",
    "dl-citronellol": "redirected to citronellol, isomer not stated",
    "trans-nerolidol": "redirected to nerolidol, which the library draws as E",
    # another skeleton
    "dipropylene glycol": "the library draws an acetal: right formula and mass",
    "dipropylene glycol methyl ether": "isomer mixture; another isomer is drawn",
    "potassium hydrogen tartrate": "the library answers with tartaric acid",
    # no structure here
    "kaolin": "the library draws discrete fragments of a layer silicate",
    "polysorbate 20": "the library draws four oxyethylene units of about twenty",
    "polysorbate 80": "the library draws four oxyethylene units of about twenty",
    "terpineol (mixture)": "redirected to alpha-terpineol",
    # not in the library
    "oxypeucedanin": "absent",
    "bergamottin": "absent",
    "ambroxide": "absent",
    "santalol (mixture)": "absent",
    "khusimol": "absent",
    "trans-beta-damascone": "absent",
    "delta-damascone": "absent",
    "acetyl cedrene": "absent",
    "trimethylbenzenepropanol": "absent",
    "tetramethyl acetyloctahydronaphthalenes": "absent",
    "tetramethyl acetyloctahydronaphthalenes (2,3,5,5-isomer)": "absent",
    "tetramethyl acetyloctahydronaphthalenes (8a-hydrogen, 4-ene isomer)": "absent",
    "tetramethyl acetyloctahydronaphthalenes (8a-hydrogen, 5-ene isomer)": "absent",
}


@cache
def library(cas):
    """Return (number that the library answers with, InChIKey, molar mass)."""
    try:
        found = search_chemical(cas)
    except ValueError:
        return None
    return found.CASs, key(found.smiles), found.MW


@cache
def key(smiles):
    with rdBase.BlockLogs():
        molecule = Chem.MolFromSmiles(smiles) if smiles else None
    return Chem.MolToInchiKey(molecule) if molecule else ""


def agrees(cas, smiles):
    found = library(cas)
    return found is not None and found[0] == cas and found[1] == key(smiles) != ""


@pytest.mark.published
def test_structures_agree_by_number_except_for_those_listed(record_property):
    differing = {row.name for row in TABLE.values() if not agrees(row.cas, row.smiles)}
    assert differing == set(DISAGREEMENTS)
    record_property("agreeing", len(TABLE) - len(differing))
    assert len(TABLE) - len(differing) >= 190


def test_absent_means_absent():
    for row in TABLE.values():
        absent = DISAGREEMENTS.get(row.name) == "absent"
        assert absent == (library(row.cas) is None), row.name


def test_a_row_tagged_as_read_in_the_library_agrees_with_it():
    """Or its note says in what the library's drawing was not followed."""
    for row in TABLE.values():
        if row.source_id == "chemicals-1.5.2" and not agrees(row.cas, row.smiles):
            assert row.name in ("kaolin", "l-borneol", "longifolene"), row.name
            assert "the library" in row.note


@pytest.mark.published
def test_molar_masses_agree_within_0_01():
    """The library uses older atomic weights, so the third place differs."""
    compared = 0
    for row in TABLE.values():
        found = library(row.cas)
        if found is None or not row.molar_mass or row.name == "polysorbate 80":
            continue
        if row.name == "potassium hydrogen tartrate":  # potassium lost, see above
            assert float(row.molar_mass) - found[2] > 38
            continue
        assert float(row.molar_mass) == pytest.approx(found[2], rel=0, abs=0.01), row
        compared += 1
    assert compared > 230


# ---- one digit wrong ---------------------------------------------------------


def wrong_numbers(cas):
    """Yield the number with each digit changed to each other digit."""
    for place, old in enumerate(cas):
        if old.isdigit():
            for new in "0123456789".replace(old, ""):
                yield cas[:place] + new + cas[place + 1 :]


def referred_to():
    """Return the numbers that other tables refer to, which must be constituents."""
    numbers = {row.cas for row in reference.rows_of(reference.Synonym)}
    numbers |= {row.subject for row in reference.watch()}
    for row in reference.rows_of(reference.GroupMember):
        numbers |= {row.group_cas, row.member_cas}
    return numbers


def caught_by(row, wrong, referred):
    """Name the first check that notices ``wrong`` in the place of the row's number.

    A number that the library does not have, or that it answers with another number
    or another structure, is a disagreement; a row that is listed by name must go on
    disagreeing in the way that was listed.
    """
    if not check_digit_ok(wrong):
        return "check digit"
    if row.name not in DISAGREEMENTS:
        return "structure" if not agrees(wrong, row.smiles) else None
    if library(wrong) != library(row.cas):
        return "structure"
    return "cross-reference" if row.cas in referred else None


def test_one_wrong_digit_of_a_number_is_caught(record_property):
    """By the check digit alone: about nine in ten. With the structure against the
    library: all but rows that the library does not have; there another table still
    refers to the right number.
    """
    referred = referred_to()
    checks = [
        caught_by(row, wrong, referred)
        for row in TABLE.values()
        for wrong in wrong_numbers(row.cas)
    ]
    tried = len(checks)
    shares = {
        check: checks.count(check) / tried
        for check in ("check digit", "structure", "cross-reference")
    }
    record_property("tried", tried)
    for check, share in shares.items():
        record_property(f"caught_first_by_{check}_percent", round(100 * share, 2))
    assert None not in checks
    assert 0.85 < shares["check digit"] < 0.95
    assert shares["cross-reference"] < 0.01
