"""Families and skeletons: from the structure, one each, and as others class them."""

import importlib.util
import subprocess
import sys
from pathlib import Path

import pytest
from chemicals.identifiers import search_chemical

import blendcheck
from blendcheck import reference
from blendcheck.errors import DomainError, ReferenceDataError
from blendcheck.structure import carbon_parts, count_patterns, identity
from tests.structure.published import FAMILIES, FAMILIES_THAT_DIFFER, REVIEW_2008

FOLDER = Path(blendcheck.__file__).parents[1] / "reference"
SKELETONS = reference.rows_of(reference.CarbonSkeleton)
MADE = {row.cas: row for row in reference.rows_of(reference.ConstituentFamily)}
NAMES = {cas: row.name for cas, row in reference.constituents().items()}


@pytest.fixture(scope="module")
def maker():
    spec = importlib.util.spec_from_file_location("made", FOLDER / "make_families.py")
    module = importlib.util.module_from_spec(spec)
    sys.modules["made"] = module
    spec.loader.exec_module(module)
    yield module
    del sys.modules["made"]


# -- the table that is made beforehand -----------------------------------------


def test_the_table_is_what_the_structures_give(maker):
    carried = (FOLDER / "constituent_families.csv").read_text("utf-8")
    assert carried.splitlines() == maker.text().splitlines()


def test_every_constituent_is_in_exactly_one_family():
    assert list(MADE) == list(reference.constituents())
    assert {row.family for row in MADE.values()} <= set(reference.families())


def test_no_structure_is_left_without_a_family_of_its_kind():
    """The last rules catch everything; nothing that is drawn needs them."""
    *_, unnamed, undrawn = reference.families()
    assert not [NAMES[cas] for cas, row in MADE.items() if row.family == unnamed]
    without = {cas for cas, row in MADE.items() if row.family == undrawn}
    assert {NAMES[cas] for cas in without} == {
        *("kaolin", "khusimol", "polysorbate 20", "polysorbate 80"),
    }


def test_every_family_has_members_and_a_rule_in_words():
    used = {row.family for row in MADE.values()}
    assert set(reference.families()) - used == {
        *("benzenoid phenols", "other terpenoids", "other compounds"),
    }
    for family in reference.families():
        assert all(row.rule.endswith(".") for row in reference.family_rules(family))
        assert reference.family_rules(family)
    assert reference.family_rules("moonlight") == ()


def test_rules_are_in_order_and_speak_of_groups_and_classes_that_exist():
    rules = reference.rows_of(reference.FamilyRule)
    places = [int(row.place) for row in rules]
    assert places == sorted(places)
    groups = {row.group for row in reference.rows_of(reference.FunctionalGroup)}
    named = {each for row in rules for each in f"{row.needs}; {row.lacks}".split("; ")}
    assert named - {""} <= groups
    assert {row.carbon_class for row in rules} - {""} == {
        row.carbon_class for row in SKELETONS
    }


def test_a_mixture_has_what_its_members_have():
    terpineol, santalol = MADE["8000-41-7"], MADE["11031-45-1"]
    assert (terpineol.family, terpineol.air_oxidisable, terpineol.alerts) == (
        *("monoterpene alcohols", "yes", "allylic C-H"),
    )
    assert santalol.family == "sesquiterpene alcohols"
    assert {row.from_structure for row in (terpineol, santalol)} == {"members"}
    assert MADE["9005-65-6"].air_oxidisable == "not known"


def test_isomers_and_mirror_images_share_their_family():
    by_skeleton = {}
    for cas, row in reference.constituents().items():
        if row.smiles:
            key = identity(row.smiles).inchikey[:14]
            by_skeleton.setdefault(key, set()).add(MADE[cas].family)
    assert all(len(families) == 1 for families in by_skeleton.values())


@pytest.mark.parametrize(
    ("smiles", "family"),
    [
        ("O=CC1=CCC(C(C)=C)CC1", "monoterpene aldehydes"),  # perillaldehyde
        ("CC(=C)C1CCC2(C)C(C1)C(=C)CCC2", "other compounds"),  # selinene: not listed
        ("CC12CCCC(C)(C)C1CCC(C)C2CCO", "diterpenoids"),
        ("C=C(C)C1CCC2(C)OC2C1", "monoterpene oxides"),  # limonene oxide
        ("CC1CCC2C13CCC(C)(OC)C(C3)C2(C)C", "sesquiterpene oxides"),  # cedryl ether
        ("CC(C)=CCCC(C)=CC(=O)O", "other terpenoids"),  # geranic acid
        ("CC(C)=CCCC(C)=CCCC(C)=CC(=O)O", "other terpenoids"),  # farnesoic acid
        ("C=CCc1ccc2OCOc2c1OC", "phenylpropanoids"),
        ("COc1ccccc1O", "benzenoid phenols"),
        ("O=C1CCCCCCCCCCCCCC1", "aliphatic ketones"),
        ("c1ccc2[nH]ccc2c1", "aromatic heterocycles"),
        ("CC(=O)OCc1ccccc1", "benzenoid esters"),
        ("CCCCC=O", "aliphatic aldehydes"),
        ("OCC", "aliphatic alcohols"),
        ("OCCO", "glycols and their ethers"),
        ("[Na+].[Cl-]", "minerals, salts and water"),
        ("CC(=O)[O-].[Na+]", "minerals, salts and water"),
        ("CC(C)=CCCC(C)=CCOC(=O)c1ccccc1", "monoterpene esters"),
        ("OC1CC2CCC1(C)C2(C)C.O", "monoterpene alcohols"),
    ],
)
def test_rules_on_structures_that_the_table_does_not_have(maker, smiles, family):
    assert maker.found_in(smiles).rule.family == family


# -- skeletons -------------------------------------------------------------------

# OPSIN 2.9.0 (Lowe and others, J. Chem. Inf. Model. 51, 739-753, 2011) read the
# systematic names of the table; these are the InChIKeys of what it drew.
OPSIN = [
    *("ZALHPSXXQIPKTQ", "IHPXJGBVRWFEJB", "CFJYNSNXFXLKNS", "QRDCBPPMQOPHOU"),
    *("UMWPTXOKSJXVDS", "GCTNBVHDRFKLLK", "BWRHOYDPVJPXMF", "XOKSLPVRUOBDEW"),
    *("BEWYHVAWEKZDPP", "HINAOCRDJFBYGD", "XETQTCAMTVHYPO", "RRBYUSWBLVXTQN"),
    *("YFHFHLSMISYUAQ", "NOWQRWPUNHMSAF", "IBMAYSYTZAVZPY", "UTJJFHJHTZKQSW"),
    *("SITKOPDZOGHVLY", "FZZNNPQZDRVKLU", "AJWBFJHTFGRNDG", "QAQCPAHQVOKALN"),
    *("LNCBZBSMKWMKIM", "UIDUJXXQMGYOIN", "HFHBKDQLMMKJAY", "JJTQQGNEXQKQRF"),
    *("OECAXGZVYRHQKP", "OAYZLMHJYGEAAR", "WRPNPNJQYVOMDM", "HRJSKMHWUDVLLH"),
    *("CZYBMHGRUFVNNS", "LEWJAHURGICVRE", "PXIHFQXAITTXJK", "PUUCZCJOATUHNE"),
    *("XMHKGKIKXCLHMA", "DEDZSLCZHWTGOR"),
]


def test_skeletons_are_those_of_their_systematic_names():
    found = [identity(row.smiles).inchikey for row in SKELETONS]
    assert found == [f"{key}-UHFFFAOYSA-N" for key in OPSIN]


# The saturated hydrocarbon of that name, or one with the same carbons, in the
# identifier table of the ``chemicals`` library 1.5.2.
HYDROCARBONS = {
    "2,6-dimethyloctane": "2051-30-1",
    "lavandulane": "4032-93-3",
    "p-menthane": "99-82-1",
    "m-menthane": "16580-24-8",
    "o-menthane": "16580-23-7",
    "pinane": "473-55-2",
    "bornane": "464-15-3",
    "carane": "554-59-6",
    "fenchane": "6248-88-0",
    "isocamphane": "473-19-8",
    "tricyclane": "508-32-7",
    "farnesane": "3891-98-3",
    "cadinane": "483-77-2",
    "propylbenzene": "103-65-1",
}


@pytest.mark.parametrize(("skeleton", "cas"), HYDROCARBONS.items())
def test_skeletons_against_the_hydrocarbons_of_their_name(skeleton, cas):
    (row,) = (row for row in SKELETONS if row.skeleton == skeleton)
    assert carbon_parts(search_chemical(cas).smiles)[0] == row.smiles


CARBONS = {"monoterpenoid": 10, "sesquiterpenoid": 15, "phenylpropanoid": 9}


@pytest.mark.published
@pytest.mark.parametrize("row", SKELETONS, ids=lambda row: row.skeleton)
def test_skeletons_have_the_carbons_of_their_class(row):
    """IUPAC, Glossary of class names, Pure Appl. Chem. 67 (1995) 1307: C10, C15, C20;
    loss of a fragment, generally a methyl group, is allowed."""
    assert row.smiles == carbon_parts(row.smiles)[0]
    carbons = row.smiles.count("C")
    if row.skeleton == "guaiane without a methyl":
        assert carbons == 14
    elif row.carbon_class == "diterpenoid":
        assert carbons == (20 if row.skeleton == "labdane" else 16)
    elif row.carbon_class == "ionone":
        assert carbons in (13, 14)
    else:
        assert carbons == CARBONS[row.carbon_class]


def test_every_skeleton_is_that_of_a_constituent():
    drawn = [row.smiles for row in reference.constituents().values() if row.smiles]
    parts = {part for smiles in drawn for part in carbon_parts(smiles)}
    assert {row.smiles for row in SKELETONS} <= parts


# -- as others class them ----------------------------------------------------------

CASES = [
    (source, says, families, cas)
    for source, says, families, numbers in FAMILIES
    for cas in numbers.split()
]


def case_name(value):
    return value if isinstance(value, str) and len(value) < 30 else ""


@pytest.mark.published
@pytest.mark.parametrize(("source", "says", "families", "cas"), CASES, ids=case_name)
def test_families_against_published_classes(source, says, families, cas):
    agrees = reference.family_of(cas) in families
    assert agrees is ((cas, says) not in FAMILIES_THAT_DIFFER), source


def test_how_many_are_compared_and_every_difference_has_its_reason():
    compared = {cas for *_, cas in CASES}
    read = {cas for source, *_, cas in CASES if source != REVIEW_2008}
    assert (len(compared), len(read)) == (81, 36)
    assert set(FAMILIES_THAT_DIFFER) <= {(cas, says) for _, says, _, cas in CASES}
    assert all(reason for reason in FAMILIES_THAT_DIFFER.values())


# -- the look-ups --------------------------------------------------------------------


def test_a_number_that_the_tables_do_not_have_has_no_answer():
    for look in (
        reference.family_of,
        reference.functional_groups_of,
        reference.alerts_of,
        reference.is_air_oxidisable,
    ):
        assert look("50-00-0") is None
        assert look("limonene") is None  # a name is not guessed at
        assert look("") is None
    assert reference.air_oxidation_of("50-00-0") == ()


def test_another_number_of_the_same_constituent_is_understood():
    others = [
        row
        for row in reference.rows_of(reference.Synonym)
        if row.kind == "other CAS for same"
    ]
    assert others
    answered = [row for row in others if reference.family_of(row.name)]
    assert len(answered) == len({row.name for row in answered}) > 0
    for row in answered:
        assert reference.family_of(row.name) == reference.family_of(row.cas)


def test_what_is_not_known_is_neither_yes_nor_no():
    assert reference.is_air_oxidisable("9005-65-6") is None
    assert reference.alerts_of("9005-65-6") is None
    assert reference.functional_groups_of("8000-41-7") is None  # a mixture
    assert reference.alerts_of("7732-18-5") == ()


def test_the_look_ups_need_no_rdkit():
    script = (
        "import sys; from blendcheck import reference as r; cas = '78-70-6';"
        "r.family_of(cas), r.alerts_of(cas), r.is_air_oxidisable(cas);"
        "r.functional_groups_of(cas); assert 'rdkit' not in sys.modules"
    )
    done = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr


# -- what is refused -------------------------------------------------------------------


@pytest.mark.parametrize("smarts", ["", "[", "c1cc", "[C"])
def test_what_is_no_pattern_is_refused(smarts):
    with pytest.raises(DomainError, match=r"smarts = .* must be a pattern that RDKit"):
        count_patterns("C", {"x": smarts})


@pytest.mark.parametrize("function", [carbon_parts, lambda s: count_patterns(s, {})])
def test_what_is_no_structure_is_refused(function):
    with pytest.raises(DomainError, match="must be a structure that RDKit can read"):
        function("C1CC")


BAD = [
    # table, cell in the file, what stands there instead, what the loader says
    ("functional_groups", ",yes,", ",maybe,", "shown maybe is none of yes, no"),
    (
        "carbon_skeletons",
        ",monoterpenoid,",
        ",terpene,",
        "carbon_class terpene is none",
    ),
    ("families", "10,coumarins", "ten,coumarins", "place ten is not a whole number"),
    ("families", ",monoterpenoid,", ",terpene,", "carbon_class terpene is none of dit"),
    ("structural_alerts", ",SN2,", ",verdict,", "domain verdict is none of Michael"),
    ("air_oxidation", "\n78-70-6,", "\n78-70-7,", "cas 78-70-7 is not a CAS number"),
    ("constituent_families", ",no,own,", ",never,own,", "air_oxidisable never is none"),
    ("constituent_families", ",no,own,", ",no,guess,", "from_structure guess is none"),
    ("constituent_families", ",alcohol 3,", ",alcohol,", "alcohol lacks a count"),
]


@pytest.mark.parametrize(("table", "old", "new", "message"), BAD, ids=lambda v: v[:20])
def test_a_row_that_breaks_a_rule_stops_the_load(tmp_path, table, old, new, message):
    for path in FOLDER.glob("*.csv"):
        (tmp_path / path.name).write_bytes(path.read_bytes())
    path = tmp_path / f"{table}.csv"
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), "utf-8")
    row_type = next(each for each in reference.TABLES if each.table == table)
    with pytest.raises(ReferenceDataError, match=message):
        reference.read_table(row_type, tmp_path)
