"""How much rests on memory, and what is done about the harmful part of it."""

from fractions import Fraction

import pytest

from blendcheck import reference

# The share from memory may only fall: these are the shares on the day on which the
# tables were first filled. A row that was looked up lowers its line.
AT_MOST = {
    "air_oxidation": Fraction(0),
    "allergen_lists": Fraction(1, 10),
    "alcohol_densities": Fraction(0),
    "allergens": Fraction(0),
    "atomic_weights": Fraction(5, 8),
    "breathing_irritants": Fraction(1, 24),
    "carbon_skeletons": Fraction(3, 34),
    "claims": Fraction(15, 33),
    "constituent_families": Fraction(122, 256),
    "constituent_watch": Fraction(1, 29),
    "constituents": Fraction(32, 256),
    "duties": Fraction(20, 50),
    "critical_points": Fraction(0),
    "exposure_limits": Fraction(30, 111),
    "families": Fraction(22, 40),
    "functional_groups": Fraction(12, 26),
    "groups": Fraction(1, 69),
    "hazard_classes": Fraction(85, 147),
    "ingredient_limits": Fraction(13, 116),
    "irritation_points": Fraction(2, 39),
    "label_elements": Fraction(33, 214),
    "liquid_points": Fraction(40, 43),
    "mixture_limits": Fraction(6, 111),
    "oil_cas": Fraction(61, 103),
    "oil_composition": Fraction(223, 655),
    "oil_names": Fraction(172, 195),
    "oil_properties": Fraction(76, 201),
    "oil_watch": Fraction(62, 129),
    "oils": Fraction(17, 51),
    "phototoxic_oils": Fraction(0),
    "phrases": Fraction(0),
    "properties": Fraction(8, 979),
    "rules": Fraction(9, 28),
    "shower_parameters": Fraction(20, 51),
    "structural_alerts": Fraction(3, 22),
    "swallowing": Fraction(2, 38),
    "synonyms": Fraction(282, 640),
    "unifac_assignments": Fraction(0),
    "unifac_groups": Fraction(0),
    "unifac_interactions": Fraction(0),
    "vapour_coefficients": Fraction(0),
    "vapour_pressure": Fraction(5, 18),
    "watch": Fraction(38, 112),
}


@pytest.mark.parametrize("table", sorted(AT_MOST))
def test_the_share_from_memory_does_not_grow(table):
    assert reference.tags()[table].memory_share <= AT_MOST[table]


def test_every_table_has_its_share():
    assert set(AT_MOST) == set(reference.tags())


FALLBACKS = [
    # topic of the rule, what is done until somebody has read it
    ("peppermint oil and menthol, age", "30 months"),
    ("toddler body mass", "9 kg"),
    ("acute limits of a European project", "45 mg/m3"),
    ("extended list of allergens", "whole list of 81"),
    ("private gift", "treated as supplied"),
    ("fragrance allergens, sum of a group", "added up"),
    ("ingredient order", "falling order"),
    ("true soap", "check the rule"),
    ("household products", "check the rule"),
]


@pytest.mark.parametrize(("topic", "fallback"), FALLBACKS)
def test_a_rule_from_memory_carries_what_is_done_instead(topic, fallback):
    found = [row for row in reference.rulings(topic) if row.tag == "memory"]
    assert found
    assert all(fallback in row.fallback for row in found)


def test_every_rule_from_memory_is_in_that_list():
    topics = {row.topic for row in reference.rulings() if row.tag == "memory"}
    assert topics == {topic for topic, _ in FALLBACKS}


def swallowing(says):
    (row,) = (row for row in reference.swallowing() if row.says.startswith(says))
    return row


@pytest.mark.published
def test_methyl_salicylate_is_read_and_named():
    # The consensus guideline of 2007 (Clin. Toxicol. 45, 95-131), as quoted on a
    # clinical reference page: more than a lick or taste under 6 years, more than
    # 4 mL from 6 years, 150 mg/kg or 6.5 g of aspirin, whichever is less.
    assert swallowing("under 6 years: more than a lick").tag == "seen"
    assert swallowing("from 6 years: more than").datum.printed == "> 4 mL"
    first, second = (
        row
        for row in reference.swallowing()
        if row.says.startswith("emergency department from")
    )
    assert [first.datum.printed, second.datum.printed] == [">= 150 mg/kg", ">= 6.5 g"]
    assert {first.tag, second.tag} == {"seen"}


@pytest.mark.published
@pytest.mark.parametrize(
    ("hazard", "rule", "printed"),
    # Hazardous Products Regulations (Canada), s. 8.3.11(2) and (3), which carry the
    # figures of the UN GHS for eyes.
    [
        ("Eye Dam. 1", "sum of Skin Corr. 1 and Eye Dam. 1", ">= 3 %"),
        ("Eye Irrit. 2", "sum of Skin Corr. 1 and Eye Dam. 1, below 3 %", ">= 1 %"),
        ("Eye Irrit. 2", "sum of Eye Irrit. 2", ">= 10 %"),
        ("Eye Irrit. 2", "10 times the sum of Skin Corr. 1 and Eye Dam.", ">= 10 %"),
        ("Eye Dam. 1", "not additive: acid of pH 2 or less", ">= 1 %"),
        ("Eye Irrit. 2", "not additive: another Eye Irrit. 2", ">= 3 %"),
    ],
)
def test_the_rules_for_eyes_are_read(hazard, rule, printed):
    found = [
        row
        for row in reference.mixture_limits()
        if row.hazard == hazard and row.rule.startswith(rule)
    ]
    assert printed in {row.datum.printed for row in found if row.tag == "seen"}


def test_the_sensitiser_statement_is_not_read_and_says_what_is_done():
    rows = [row for row in reference.mixture_limits() if row.statement == "EUH208"]
    assert len(rows) == 2
    for row in rows:
        assert row.tag == "memory"
        assert "from 0.01 % for every sensitiser" in row.note


@pytest.mark.published
@pytest.mark.parametrize(
    ("hazard_class", "codes"),
    # Regulation (EC) No 1272/2008, Annex I, Tables 3.3.5 and 4.1.4 (Czech text).
    [
        ("Eye Dam. 1", "GHS05 Danger H318 P280 P305+P351+P338 P310"),
        ("Eye Irrit. 2", "GHS07 Warning H319 P264 P280 P305+P351+P338 P337+P313"),
        ("Aquatic Acute 1", "GHS09 Warning H400 P273 P391 P501"),
        ("Aquatic Chronic 1", "GHS09 Warning H410 P273 P391 P501"),
        ("Aquatic Chronic 2", "GHS09 H411 P273 P391 P501"),
        ("Aquatic Chronic 3", "H412 P273 P501"),
        ("Aquatic Chronic 4", "H413 P273 P501"),
    ],
)
def test_label_elements_for_eyes_and_water_are_read(hazard_class, codes):
    rows = reference.label_elements(hazard_class)
    assert [row.element for row in rows] == codes.split()
    assert {row.tag for row in rows} == {"seen"}


def test_label_elements_that_are_not_read_send_to_the_sheet():
    unread = {
        row.hazard_class
        for row in reference.rows_of(reference.LabelElement)
        if row.tag == "memory"
    }
    assert unread == {
        *("Skin Corr. 1", "Skin Irrit. 2", "Repr. 1A", "Repr. 1B", "Repr. 2"),
        *("Carc. 1A", "Carc. 1B", "Carc. 2", "Muta. 1A", "Muta. 1B", "Muta. 2"),
    }
    for name in unread:
        for row in reference.label_elements(name):
            assert "safety data sheet decides" in row.note


def test_a_hazard_class_from_memory_is_never_an_authority():
    for row in reference.rows_of(reference.HazardClass):
        if row.tag == "memory":
            assert "safety data sheet decides" in row.note, row


def test_drug_strengths_from_memory_make_every_claim_a_drug_claim():
    rows = [
        row
        for row in reference.rows_of(reference.IngredientLimit)
        if row.tag == "memory"
    ]
    assert {row.jurisdiction for row in rows} == {"US"}
    for row in rows:
        assert "is shown as a drug claim, whatever the strength" in row.note, row


def test_air_figures_from_memory_are_bounded_by_full_release():
    rows = (
        *reference.rows_of(reference.Property),
        *reference.rows_of(reference.VapourPressure),
    )
    for row in rows:
        if row.tag == "memory":
            assert "full release" in row.note, row


def test_air_limits_from_memory_stay_out_of_verdicts():
    for row in reference.rows_of(reference.ExposureLimit):
        if row.tag == "memory":
            assert "never in a verdict" in row.note or "context only" in row.note, row


def test_an_acute_limit_from_memory_names_the_lower_figure_that_is_used():
    rows = [
        row
        for row in reference.rows_of(reference.IrritationPoint)
        if row.tag == "memory"
    ]
    assert {row.quantity for row in rows} == {"acute limit, 30 min"}
    assert all("45 mg/m3" in row.note for row in rows)


@pytest.mark.published
@pytest.mark.parametrize(
    ("topic", "source_id"),
    # What had been told from memory about oils, fire, gifts and newborns, now read.
    [
        ("tea tree oil", "tea-tree-rac-quoted"),
        ("tea tree oil", "hse-tea-tree-quoted"),
        ("phototoxic oils together", "ifra-phototoxic-quoted"),
        ("flash point margin", "bgrci-flash"),
        ("menthol and G6PD deficiency", "olowe-1980"),
        ("free of charge", "eu-1223-article-2"),
    ],
)
def test_what_was_told_from_memory_is_read(topic, source_id):
    found = [row for row in reference.rulings(topic) if row.source_id == source_id]
    assert found
    assert all(row.tag == "seen" for row in found)


@pytest.mark.published
def test_margins_below_the_flash_point():
    # BG RCI, answers on explosion protection, 2.1: 15 K for solvent mixtures, 5 K
    # for pure liquids, without halogens, if spraying and splashing are excluded.
    margins = {row.value for row in reference.rulings("flash point margin")}
    assert margins == {"5", "15"}


@pytest.mark.published
def test_strong_rubbing_alcohol_flashes_below_23_degc():
    # 57 degF, closed cup, from the sheet for 91 %: Flam. Liq. 2.
    strong, weaker = reference.rulings("flash point of rubbing alcohol")
    assert strong.datum.value < Fraction("296.15")
    assert "treated as Flam. Liq. 2" in weaker.fallback
