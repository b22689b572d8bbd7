"""Allergens, limits, hazard classes, labels and phrases against the regulations."""

import re
from fractions import Fraction

import pytest

from blendcheck import reference

# Regulation (EC) No 1223/2009, Annex III as amended by Regulation (EU) 2023/1545:
# reference numbers whose substances the label must name.
FIRST_LIST = {45, *range(67, 93)} - {68, 79, 83}  # of 2003, less two now prohibited
OLDER_ENTRIES = {46, 109, 114, 122, 124, 131, 133, 154, 157, 175, 196, 324}
NEW_ENTRIES = set(range(327, 372))
PROHIBITED = {"II/1380", "II/1666"}


@pytest.mark.published
def test_the_list_of_allergens_has_81_entries_that_must_be_named():
    named = [entry for entry in reference.allergens() if not entry.prohibited]
    assert len(named) == 81
    assert {entry.entry for entry in named} == {
        f"III/{number}" for number in FIRST_LIST | OLDER_ENTRIES | NEW_ENTRIES
    }
    assert (len(FIRST_LIST), len(OLDER_ENTRIES), len(NEW_ENTRIES)) == (24, 12, 45)


@pytest.mark.published
def test_two_of_the_first_26_are_prohibited_instead():
    found = {entry.entry for entry in reference.allergens() if entry.prohibited}
    assert found == PROHIBITED


@pytest.mark.published
def test_thresholds_are_those_of_the_regulation():
    # 0.001 % in leave-on and 0.01 % in rinse-off products, exceeded, not reached.
    for entry in reference.allergens():
        if not entry.prohibited:
            assert entry.leave_on == Fraction(1, 1000)
            assert entry.rinse_off == Fraction(1, 100)


@pytest.mark.published
@pytest.mark.parametrize(
    ("entry", "label_name", "numbers"),
    # The same regulation, column "CAS number" of the entry.
    [
        ("III/45", "Benzyl Alcohol", "100-51-6"),
        ("III/70", "Citral", "5392-40-5 141-27-5 106-26-3"),
        ("III/73", "Isoeugenol", "97-54-1 5932-68-3 5912-86-7"),
        ("III/86", "Citronellol", "106-22-9 26489-01-0 1117-61-9 7540-51-4"),
        ("III/88", "Limonene", "138-86-3 7705-14-8 5989-27-5 5989-54-8"),
        ("III/329", "Anethole", "104-46-1 4180-23-8"),
        ("III/331", "Camphor", "76-22-2 21368-68-3 464-49-3 464-48-2"),
        ("III/333", "Carvone", "99-49-0 6485-40-1 2244-16-8"),
        ("III/338", "Menthol", "89-78-1 1490-04-6 2216-51-5 15356-60-2"),
        ("III/341", "Santalol", "11031-45-1 115-71-9 77-42-9"),
        ("III/343", "Terpineol", "8000-41-7 98-55-5 138-87-4 586-81-2"),
        ("III/361", "Mentha Piperita Oil", "8006-90-4 84082-70-2"),
        ("III/371", "Pinene", "80-56-8 7785-70-8 127-91-3 18172-67-3"),
    ],
)
def test_members_of_entries(entry, label_name, numbers):
    (found,) = (each for each in reference.allergens() if each.entry == entry)
    assert found.label_name == label_name
    assert found.cas == set(numbers.split())


def test_a_number_that_stands_in_two_entries_answers_for_both():
    for cas in ("72968-50-4", "8028-48-6"):
        assert [entry.entry for entry in reference.allergens_of(cas)] == [
            "III/350",
            "III/351",
        ]


def test_substances_that_the_tables_call_by_an_allergens_name_are_members():
    """The INCI names of constituents come from the same annex; they must agree."""
    by_label = {entry.label_name.casefold(): entry for entry in reference.allergens()}
    compared = 0
    for row in reference.constituents().values():
        entry = by_label.get(row.inci.casefold())
        if entry is None or row.inci_source_id != "eu-annex-iii":
            continue
        compared += 1
        assert entry in reference.allergens_of(row.cas), row
    assert compared >= 40


def test_groups_that_name_an_entry_have_its_members():
    entries = {
        int(entry.entry.split("/")[1]): entry
        for entry in reference.allergens()
        if not entry.prohibited
    }
    compared = 0
    for row in reference.rows_of(reference.GroupMember):
        number = re.fullmatch(r"entry (\d+)", row.source_locator)
        if row.source_id == "eu-annex-iii" and number:
            compared += 1
            assert row.member_cas in entries[int(number[1])].cas, row
    assert compared >= 20


@pytest.mark.published
@pytest.mark.parametrize(
    ("cas", "applies_to", "printed"),
    # Annex III: entries 88, 102, 103 (peroxide value), 73 and 324; Annex II, 360.
    [
        ("5989-27-5", "peroxide value", "< 20 mmol/L"),
        ("586-62-9", "peroxide value", "< 10 mmol/L"),
        ("90028-76-5", "peroxide value", "< 10 mmol/L"),
        ("93-15-2", "rinse-off products", "<= 0.001 %"),
        ("93-15-2", "other leave-on and oral products", "<= 0.0002 %"),
        ("97-54-1", "other than oral", "<= 0.02 %"),
        ("119-36-8", "(h) hand wash", "<= 0.6 %"),
        (
            "94-59-7",
            "finished cosmetic, from natural essences only",
            "<= 100 ppm w/w",
        ),
    ],
)
def test_limits_of_annexes(cas, applies_to, printed):
    found = {
        row.datum.printed
        for row in reference.limits_of(cas)
        if row.jurisdiction == "EU" and row.applies_to == applies_to
    }
    assert printed in found


def test_a_prohibition_is_no_figure_and_not_missing():
    rows = [
        row
        for row in reference.rows_of(reference.IngredientLimit)
        if row.state == "not permitted"
    ]
    assert len(rows) >= 10
    assert all(row.datum.range is None for row in rows)


def test_united_kingdom_and_union_stand_side_by_side():
    rows = reference.limits_of("119-36-8")
    assert {row.jurisdiction for row in rows} >= {"EU", "UK (GB)", "US"}


# ---- phrases -----------------------------------------------------------------

# Part of an independent open data set of statements (EUH statements).
EUH = {
    "EUH014": "Reacts violently with water",
    "EUH018": "In use may form flammable/explosive vapour-air mixture",
    "EUH019": "May form explosive peroxides",
    "EUH029": "Contact with water liberates toxic gas",
    "EUH031": "Contact with acids liberates toxic gas",
    "EUH032": "Contact with acids liberates very toxic gas",
    "EUH044": "Risk of explosion if heated under confinement",
    "EUH066": "Repeated exposure may cause skin dryness or cracking",
    "EUH070": "Toxic by eye contact",
    "EUH071": "Corrosive to the respiratory tract",
    "EUH209": "Can become highly flammable in use",
    "EUH209A": "Can become flammable in use",
    "EUH210": "Safety data sheet available on request",
}

# Regulation (EC) No 1272/2008, Annex I, hazard statements as its label tables print
# them: Tables 2.6.2, 3.1.3, 3.4.7, 3.8.4 and 3.10.2.
IN_LABEL_TABLES = {
    "H224": "Extremely flammable liquid and vapour",
    "H225": "Highly flammable liquid and vapour",
    "H226": "Flammable liquid and vapour",
    "H300": "Fatal if swallowed",
    "H301": "Toxic if swallowed",
    "H302": "Harmful if swallowed",
    "H304": "May be fatal if swallowed and enters airways",
    "H311": "Toxic in contact with skin",
    "H312": "Harmful in contact with skin",
    "H317": "May cause an allergic skin reaction",
    "H331": "Toxic if inhaled",
    "H332": "Harmful if inhaled",
    "H334": "May cause allergy or asthma symptoms or breathing difficulties if inhaled",
    "H335": "May cause respiratory irritation",
    "H336": "May cause drowsiness or dizziness",
    "H420": "Harms public health and the environment by destroying ozone in the upper "
    "atmosphere",
}


@pytest.mark.published
@pytest.mark.parametrize(("code", "wording"), [*EUH.items(), *IN_LABEL_TABLES.items()])
def test_phrases_against_other_places_that_print_them(code, wording):
    found = reference.phrases()[code].wording
    assert found.rstrip(".") == wording


def test_every_combined_phrase_is_made_of_phrases_that_exist():
    """Codes such as P305+P351+P338; their parts are printed one by one as well."""
    codes = set(reference.phrases())
    combined = {code for code in codes if "+" in code}
    assert len(combined) >= 40
    for code in combined:
        # P370+P380+P375[+P378]: the last part is optional.
        for part in code.replace("[", "").replace("]", "").split("+"):
            assert part in codes, (code, part)


def test_phrases_by_series():
    counts = dict.fromkeys(("H", "EUH", "P"), 0)
    for phrase in reference.phrases().values():
        counts[phrase.series] += 1
    assert counts == {"H": 91, "EUH": 33, "P": 128}
    assert reference.phrases("xx") == {}


def test_every_statement_of_the_tables_has_its_wording():
    codes = set(reference.phrases())
    needed = {row.statement for row in reference.rows_of(reference.HazardClass)}
    needed |= {row.statement for row in reference.mixture_limits()}
    needed |= {
        row.element
        for row in reference.rows_of(reference.LabelElement)
        if row.section not in ("pictogram", "signal word")
    }
    assert needed - {""} - codes == NOT_IN_UNION_LAW


# UN GHS only: Flam. Liq. 4 and the short-term water hazards 2 and 3.
NOT_IN_UNION_LAW = {"H227", "H401", "H402"}


# ---- hazard classes ----------------------------------------------------------

# Regulation (EC) No 1272/2008, Annex VI, part 1, Table 1.1, from memory for those
# that our own table of label elements does not have.
STATEMENTS = {
    "Acute Tox. 3": {"H301", "H311", "H331"},
    "Acute Tox. 4": {"H302", "H312", "H332"},
    "Carc. 1B": {"H350"},
    "Carc. 2": {"H351"},
    "Flam. Sol. 2": {"H228"},
    "Muta. 2": {"H341"},
    "Repr. 1B": {"H360", "H360F", "H360D", "H360Fd", "H360Df", "H360FD"},
    "Repr. 2": {"H361", "H361f", "H361d", "H361fd"},
    "Skin Corr. 1A": {"H314"},
    "Skin Corr. 1B": {"H314"},
    "STOT SE 2": {"H371"},
    "STOT SE 3": {"H335", "H336"},
}


def statements_of(hazard_class):
    own = {
        row.element
        for row in reference.label_elements(hazard_class)
        if row.section == "hazard"
    }
    return own | STATEMENTS.get(hazard_class, set())


def test_hazard_classes_carry_their_own_statement():
    for row in reference.rows_of(reference.HazardClass):
        if row.statement:
            assert row.statement in statements_of(row.hazard_class), row


@pytest.mark.published
def test_signal_words_and_pictograms_of_the_label_tables():
    # Tables 2.6.2, 3.1.3, 3.3.5, 3.4.7, 3.8.4, 3.9.5, 3.10.2 and 4.1.4; those of
    # carcinogens, mutagens and reproduction from memory.
    words = {
        row.hazard_class: row.element
        for row in reference.rows_of(reference.LabelElement)
        if row.section == "signal word"
    }
    danger = {name for name, word in words.items() if word == "Danger"}
    assert danger == {
        *("Flam. Liq. 1", "Flam. Liq. 2", "STOT SE 1", "Eye Dam. 1", "Asp. Tox. 1"),
        *("Skin Corr. 1", "STOT RE 1", "Resp. Sens. 1", "Resp. Sens. 1A"),
        *("Resp. Sens. 1B", "Carc. 1A", "Carc. 1B", "Muta. 1A", "Muta. 1B"),
        *("Repr. 1A", "Repr. 1B"),
        *(
            f"Acute Tox. {n} ({route})"
            for n in (1, 2, 3)
            for route in ("oral", "dermal", "inhalation")
        ),
    }
    assert set(words.values()) == {"Danger", "Warning"}


@pytest.mark.published
@pytest.mark.parametrize(
    ("route", "points"),
    # Hazardous Products Regulations (Canada), s. 8.1.7, table: the twenty converted
    # acute toxicity point estimates.
    [
        ("oral", "0.5 5 100 500"),
        ("dermal", "5 50 300 1100"),
        ("gas", "10 100 700 4500"),
        ("vapour", "0.05 0.5 3 11"),
        ("dust and mist", "0.005 0.05 0.5 1.5"),
    ],
)
def test_converted_point_estimates(route, points):
    found = [
        row.value
        for row in reference.mixture_limits()
        if row.sort == "conversion" and row.rule.startswith(f"{route}:")
    ]
    assert found == points.split()


@pytest.mark.published
def test_flammable_liquids_are_bounded_at_23_and_60_degc():
    bounds = {
        (row.hazard, row.datum.printed)
        for row in reference.mixture_limits()
        if row.hazard.startswith("Flam. Liq.") and row.scheme == "EU CLP"
    }
    assert ("Flam. Liq. 2", "< 23 degC") in bounds
    assert ("Flam. Liq. 3", ">= 23 degC") in bounds
    assert ("Flam. Liq. 3", "<= 60 degC") in bounds


# ---- air limits: two units of one limit --------------------------------------


@pytest.mark.published
def test_limits_printed_in_both_units_are_one_limit():
    """mg/m3 = ppm * M / 24.45 at 25 degC, or / 24.1 at 20 degC (German lists)."""
    compared = 0
    rows = reference.rows_of(reference.ExposureLimit)
    masses = {"8006-64-2": 136.2, "": 136.2}  # terpenes C10H16
    for row in rows:
        if row.printed_unit != "ppm":
            continue
        for other in rows:
            same = (row.cas, row.issued_by, row.quantity, row.conditions) == (
                other.cas,
                other.issued_by,
                other.quantity,
                other.conditions,
            )
            if not same or other.printed_unit != "mg/m3":
                continue
            constituent = reference.constituents().get(row.cas)
            mass = masses.get(row.cas) or float(constituent.molar_mass_value)
            low, high = (float(row.value) * mass / volume for volume in (24.45, 24.05))
            assert low * 0.945 <= float(other.value) <= high * 1.08, (row, other)
            compared += 1
    assert compared >= 12
