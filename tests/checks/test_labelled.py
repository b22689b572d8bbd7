"""What goes with the piece: grams, age lines, a bath, closures, what a seller owes.

Sources beside each check: 16 CFR 1700.14(a)(3), (6), (8), (31) and (32); CLP Annex II,
part 3, as the Belgian authority prints it; European Medicines Agency, terpenic
derivatives (2012) and eucalyptus oil; a Swiss label on an inhalant; a recipe page's
shower tablet (common practice) whose grams are worked by hand.
"""

import re
from datetime import date
from fractions import Fraction

import pytest

from blendcheck import reference, words
from blendcheck.assess import assess
from blendcheck.checks import ages, bath, closures, owes, people, swallowed, wording
from blendcheck.checks.ages import age_lines
from blendcheck.checks.closures import hydrocarbons, reaches
from blendcheck.checks.lookalike import food_words
from blendcheck.checks.owes import questions
from blendcheck.checks.swallowed import in_one_piece, thresholds
from blendcheck.interval import Range
from blendcheck.quantity import Mark
from blendcheck.words import codes, render
from tests.checks.cases import ALCOHOL, BICARBONATE, CITRIC, by_code, make_case, oil
from tests.checks.shelves import decimal

SODA = BICARBONATE | {"cas": "144-55-8"}
MENTHOL = {
    "id": "menthol",
    "name": "Menthol crystals",
    "kind": "aroma chemical",
    "cas": "2216-51-5",
}
KAOLIN = {"id": "kaolin", "name": "Kaolin", "kind": "solid", "cas": "1332-58-7"}
POLYSORBATE = {"id": "polysorbate", "name": "Polysorbate 80", "kind": "emulsifier"}
WATER = {"id": "water", "name": "Water", "kind": "water", "cas": "7732-18-5"}


def report(*rows, **fields):
    return {
        "kind": "full GC-MS",
        "basis": "w/w",
        "copied_whole": True,
        "unidentified": "0 %",
        "row": [
            {"name": name, "cas": cas, "share": share} for name, cas, share in rows
        ],
        **fields,
    }


def published_tablet(**recipe):
    """450 bicarbonate, 225 citric acid, 50 kaolin, 35 menthol, 15 oil and so on."""
    eucalyptus = oil(
        "Eucalyptus oil",
        composition=[
            report(("1,8-cineole", "470-82-6", "70-80 %"), ("p", "99-87-6", "20-30 %"))
        ],
    )
    return make_case(
        (SODA, "450 g"),
        (CITRIC, "225 g"),
        (KAOLIN, "50 g"),
        (MENTHOL, "35 g"),
        (eucalyptus, "15 g"),
        (POLYSORBATE, "5 g"),
        (ALCOHOL, "30 g"),
        piece_mass="60 g",
        **recipe,
    )


def said(finding):
    return " ".join(render(say) for say in (finding.why, *finding.also, *finding.ask))


# -- grams for one person ------------------------------------------------------


def test_grams_in_all_that_one_person_is_given():
    case = published_tablet(pieces_given=6, pieces_per_use="1/2")
    found = {
        (f.why.code, f.subject): case.working.range(f.value).low
        for f in people.check(case)
        if f.kind == "fact"
    }
    piece = Fraction(35 * 60, 780)  # 2.7 g, 4.49 % of 60 g: as published
    assert found["people.grams-piece", "menthol, all its forms"] == piece
    assert found["people.grams-use", "menthol, all its forms"] == piece / 2
    assert found["people.grams-given", "menthol, all its forms"] == piece * 6


@pytest.mark.parametrize("given", [None, 1])
def test_one_piece_for_one_person_is_said_once(given):
    case = published_tablet(pieces_given=given)
    assert "people.grams-given" not in by_code(people.check(case))


def test_what_the_maker_marked_is_tracked_too():
    pine = oil(
        "Pine oil",
        irritant=["80-56-8", "470-82-6"],
        composition=[report(("alpha-pinene", "80-56-8", "50 %"))],
    )
    case = make_case((SODA, "98 g"), (pine, "2 g"), piece_mass="50 g")
    facts = [f for f in people.check(case) if f.kind == "fact"]
    found = {f.subject: case.working.range(f.value).low for f in facts}
    assert found["alpha-pinene"] == Fraction(1, 2)  # 2 % of 50 g, half of it
    assert [f.subject for f in facts].count("1,8-cineole (eucalyptol)") <= 1


def test_methyl_salicylate_is_tracked():
    rows = (("methyl salicylate", "119-36-8", "98 %"),)
    case = make_case(
        (SODA, "99 g"),
        (oil("Wintergreen oil", composition=[report(*rows)]), "1 g"),
        piece_mass="50 g",
    )
    facts = {f.subject: f for f in people.check(case) if f.kind == "fact"}
    span = case.working.range(facts["methyl salicylate"].value)
    assert span.low == Fraction(49, 100)


# -- cautions that were missing ------------------------------------------------


def test_the_card_says_children_without_an_age():
    found = by_code(people.check(published_tablet()))["people.children"][0]
    text = said(found)
    assert "babies and children unless a health professional agrees" in text
    assert not re.search(r"[0-9]+ (?:months|years)", text)


def test_medicines():
    assert "pharmacist" in said(
        by_code(people.check(published_tablet()))["people.medicines"][0]
    )
    plain = make_case((SODA, "100 g"))
    assert "people.medicines" not in by_code(people.check(plain))


@pytest.mark.parametrize(
    ("product", "germs", "droplets"),
    [("room mist", True, True), ("balm", True, False), ("shower tablet", False, False)],
)
def test_water_in_mists_and_balms(product, germs, droplets):
    case = make_case((WATER, "90 g"), (oil(), "1 g"), product=product)
    found = by_code(people.check(case))
    assert ("people.germs" in found) is germs
    assert ("people.droplets" in found) is droplets
    if germs:
        text = said(found["people.germs"][0])
        assert "needs a preservative and a test for germs: not covered here" in text
    if droplets:
        text = said(found["people.droplets"][0])
        assert "breathed as droplets: no estimate is made" in text
    dry = by_code(people.check(make_case((KAOLIN, "9 g"), product=product)))
    assert "people.germs" not in dry


@pytest.mark.published
@pytest.mark.parametrize(
    ("name", "found"),
    [
        # called back: bath fizz in the shape of cupcakes and doughnuts
        ("Cupcake bath fizz", ("Cupcake",)),
        ("Two doughnuts in a box", ("doughnuts",)),
        ("Ice-cream cones", ("Ice-cream",)),
        ("Lemon drops", ("Lemon drops",)),
        ("Two mince pies", ("mince pies", "pies")),
        ("Caramel brownies", ("brownies", "Caramel")),
        ("Grapeshot gale", ()),  # a word is compared whole
        ("Winter gale", ()),
        ("Pancaked ice floes", ()),
    ],
)
def test_words_for_food(name, found):
    case = make_case((SODA, "99 g"), (oil(), "1 g"))
    case = type(case)(
        case.recipe.model_copy(update={"name": name}),
        case.materials,
        case.totals,
        case.working,
        case.on,
        case.watch,
    )
    assert food_words(case) == found
    cautions = by_code(people.check(case))
    assert ("people.food-like" in cautions) is bool(found)
    assert "people.not-food" in cautions


def test_the_scent_of_a_fragrance_oil_counts_and_a_plant_does_not():
    sweet = oil("Vanilla fudge", kind="fragrance oil")
    case = make_case((SODA, "99 g"), (sweet, "1 g"))
    assert food_words(case) == ("Vanilla", "fudge") or set(food_words(case)) == {
        "Vanilla",
        "fudge",
    }
    plant = make_case((SODA, "99 g"), (oil("Apple mint oil"), "1 g"))
    assert food_words(plant) == ()
    lines = [{"material": "oil", "amount": "1 g"}]
    shelf = {"stock": [{"id": "s", "name": "Toffee", "line": lines}]}
    blend = {"line": [{"stock": "s", "amount": "1 g"}]}
    shelf["material"] = [oil()]
    stocked = make_case((SODA, "99 g"), shelf=shelf, blend=blend)
    assert food_words(stocked) == ("Toffee",)


# -- swallowed -----------------------------------------------------------------


def test_one_piece_with_its_numbers_and_grams():
    case = published_tablet()
    rows = {one.name: one for one in in_one_piece(case).holds}
    assert rows["Bicarbonate"].cas == "144-55-8"
    assert rows["Bicarbonate"].held == Range.at(Fraction(450 * 60, 780))
    assert rows["Menthol crystals"].held == Range.at(Fraction(35 * 60, 780))
    assert rows["Alcohol"].held == Range.at(0)
    assert rows["Alcohol"].dries_off
    assert rows["Alcohol"].cas == "67-63-0"
    cineole = rows["1,8-cineole"]
    assert cineole.is_component
    assert cineole.cas == "470-82-6"
    low, high = (Fraction(15 * 60, 780) * s / 100 for s in (70, 80))
    assert (cineole.held.low, cineole.held.high) == (low, high)


def test_materials_of_one_piece_add_up_to_it():
    case = published_tablet()
    parts = [one for one in in_one_piece(case).holds if not one.is_component]
    assert Range.total(one.held for one in parts) == Range.at(60)


def test_the_sheet_has_no_threshold_treatment_or_body_mass():
    never = re.compile(
        r"mg/kg|\bkg\b|lethal|fatal|toxic|threshold|dose|vomit|charcoal|milk|drink|"
        r"months|years",
        re.I,
    )
    for case in (published_tablet(), make_case((SODA, "9 g"), (oil(), "1 g"))):
        for finding in swallowed.check(case):
            assert not never.search(said(finding))
    fields = set(swallowed.InPiece.__dataclass_fields__)
    fields |= set(swallowed.Swallowed.__dataclass_fields__)
    assert not fields & {"threshold", "dose", "treatment", "body_mass"}


def test_without_a_piece_mass_nothing_is_made_up():
    case = make_case((SODA, "99 g"), (oil(), "1 g"))
    made = in_one_piece(case)
    assert made.piece is None
    assert made.holds == ()
    assert made.not_known == ("Oil",)
    assert "swallowed.no-piece" in by_code(swallowed.check(case))


def test_thresholds_stand_apart_with_their_sources():
    found = thresholds(published_tablet())
    substances = {row.substance for row in found}
    assert {"menthol", "sodium bicarbonate", "citric acid"} <= substances
    assert "eucalyptus oil" in substances
    assert "2-propanol" in substances
    assert "camphor" not in substances
    assert all(row.source_id in reference.sources() for row in found)
    winter = make_case((SODA, "99 g"), (oil("Wintergreen oil"), "1 g"))
    names = {row.substance for row in thresholds(winter)}
    assert "salicylate, as aspirin" in names
    assert thresholds(make_case((KAOLIN, "9 g"))) == ()


# -- age lines -----------------------------------------------------------------


@pytest.mark.published
def test_age_lines_stand_side_by_side_and_disagree():
    lines = age_lines(published_tablet())
    by_age = {line.age: line.source for line in lines if line.tag == "seen"}
    # European Medicines Agency (terpenic derivatives; eucalyptus oil); Swiss label
    assert by_age["30 months"] == "ema-terpenic-2012"
    assert by_age["2 years"] == "ch-inhalant-label"
    assert by_age["4 years"] == "ema-eucalyptus-oil"
    (found,) = ages.check(published_tablet())
    text = said(found)
    assert "disagree: 30 months, 2 years, 4 years" in text or "disagree" in text
    assert "None stands on the card" in text
    assert "European Medicines Agency" in text
    assert Mark.FROM_MEMORY in found.marks  # the line on peppermint and menthol


def test_no_line_for_a_gentle_oil_and_one_for_wintergreen():
    rows = (("linalool", "78-70-6", "100 %"),)
    case = make_case(
        (SODA, "9 g"), (oil("Lavender", composition=[report(*rows)]), "1 g")
    )
    assert list(ages.check(case)) == []
    rows = (("methyl salicylate", "119-36-8", "99 %"),)
    mild = oil("Sweet note", composition=[report(*rows)])
    (found,) = ages.check(make_case((SODA, "9 g"), (mild, "1 g")))
    assert found.why.code == "ages.one"
    assert "6 years" in said(found)


# -- a bath --------------------------------------------------------------------


def test_what_the_same_piece_would_put_into_a_bath():
    case = published_tablet()
    (found,) = bath.check(case)
    # 50 g of menthol and oil in 780 g: 3.846 g in 60 g, 25.6 mg in each of 150 L
    assert case.working.range(found.value).low == Fraction(50 * 60, 780) / 150
    text = said(found)
    assert "150 L" in text
    assert "floats on the water as it is" in text
    assert "dispers" not in text
    assert found.kind == "fact"
    assert {f.why.code for f in bath.check(published_tablet(product="bath fizz"))} == {
        "bath.meant"
    }
    assert list(bath.check(published_tablet(product="balm"))) == []
    assert list(bath.check(make_case((SODA, "9 g"), (oil(), "1 g")))) == []


def test_an_emulsifier_does_not_change_it():
    plain = make_case((SODA, "9 g"), (oil(), "1 g"), piece_mass="10 g")
    helped = make_case(
        (SODA, "8 g"), (POLYSORBATE, "1 g"), (oil(), "1 g"), piece_mass="10 g"
    )
    assert [said(f) for f in bath.check(plain)] == [said(f) for f in bath.check(helped)]


# -- closures ------------------------------------------------------------------


@pytest.mark.published
@pytest.mark.parametrize(
    ("share", "reached"), [("5", False), ("5.000001", True), ("4.9", False)]
)
def test_methyl_salicylate_in_a_liquid(share, reached):
    """16 CFR 1700.14(a)(3): liquid preparations with *more than* 5 percent."""
    rows = (("methyl salicylate", "119-36-8", "100 %"),)
    mild = oil("Mild", composition=[report(*rows)])
    case = make_case(
        (WATER, f"{decimal(100 - Fraction(share))} g"),
        (mild, f"{share} g"),
        product="room mist",
    )
    found = [f for f in closures.check(case) if f.subject == "Methyl salicylate"]
    assert [f.why.code for f in found] == [
        "closures.reached" if reached else "closures.below"
    ]


@pytest.mark.published
def test_hydrocarbons_are_added_up_and_ten_percent_is_enough():
    """16 CFR 1700.14(a)(31): "10 percent or more", individual percentages summed."""
    pine = oil(
        "Pine oil",
        composition=[
            report(
                ("alpha-pinene", "80-56-8", "30 %"),
                ("limonene", "138-86-3", "30 %"),
                ("1,8-cineole", "470-82-6", "40 %"),  # has oxygen
            )
        ],
    )
    for oil_grams, code in (("50", "reached"), ("16.6", "below")):
        rest = decimal(300 - Fraction(oil_grams))
        case = make_case(
            (WATER, f"{rest} g"), (pine, f"{oil_grams} g"), product="room mist"
        )
        counted = hydrocarbons(case).members & case.totals.components.keys()
        assert counted == {"80-56-8", "138-86-3"}
        found = [f for f in closures.check(case) if f.subject == "hydrocarbons"]
        assert [f.why.code for f in found] == [f"closures.{code}"]  # 60 % of it
    assert "thin liquids that are no emulsion" in said(
        by_code(closures.check(make_case((pine, "9 g"), product="other")))[
            "closures.reached"
        ][0]
    )


def test_an_oil_without_papers_leaves_it_open():
    case = make_case((WATER, "50 g"), (oil(), "50 g"), product="room mist")
    found = [f for f in closures.check(case) if f.subject == "hydrocarbons"]
    assert [f.why.code for f in found] == ["closures.open"]
    assert found[0].ask


@pytest.mark.parametrize("product", ["shower tablet", "soap", "balm", "bath fizz"])
def test_what_is_no_liquid_is_left_alone(product):
    case = make_case((SODA, "9 g"), (oil("Wintergreen oil"), "1 g"), product=product)
    assert list(closures.check(case)) == []


@pytest.mark.parametrize(("grams", "code"), [("10 g", "reached"), ("9 g", "below")])
def test_turpentine_counts_as_itself(grams, code):
    """16 CFR 1700.14(a)(6): turpentine, 10 percent or more by weight, its own oil."""
    turpentine = oil("Turpentine", cas="8006-64-2")
    water = {"id": "w", "name": "Water", "kind": "water", "cas": "7732-18-5"}
    rest = "90 g" if code == "reached" else "91 g"
    case = make_case((turpentine, grams), (water, rest), product="room mist")
    found = [f for f in closures.check(case) if f.subject == "Turpentine"]
    assert [f.why.code for f in found] == [f"closures.{code}"]


def test_closures_by_place():
    def codes_for(place):
        shelf = {"workshop": {"place": place}} if place else None
        case = make_case((oil(), "9 g"), product="room mist", shelf=shelf)
        return {f.why.code for f in closures.check(case)}

    assert codes_for("EU") == {"closures.by-class"}
    assert codes_for("Canada") == set()
    assert "closures.by-class" not in codes_for("United States")
    assert codes_for(None) >= {"closures.by-class", "closures.open"}


@pytest.mark.parametrize(
    ("span", "qualifier", "expected"),
    [
        (Range.at(10), ">=", True),
        (Range.at(10), ">", False),
        (Range.between(9, 10), ">=", None),
        (Range.between(9, 10), ">", False),
        (Range.between(10, 11), ">", None),
        (Range(Fraction(10), Fraction(11), low_open=True), ">", True),
        (Range(Fraction(9), Fraction(10), high_open=True), ">=", False),
        (Range(Fraction(0), None), ">=", None),
    ],
)
def test_reaching_a_figure(span, qualifier, expected):
    assert reaches(span, Fraction(10), qualifier) is expected


# -- what a seller owes --------------------------------------------------------


@pytest.mark.parametrize("place", ["EU", "Great Britain", "Canada", "United States"])
def test_a_seller_is_asked_for_more_than_a_giver(place):
    gift = {one.topic for one in questions("gift", place)}
    sale = {one.topic for one in questions("sale", place)}
    free = {one.topic for one in questions("free at the stall", place)}
    assert {"insurer", "local code"} <= gift & sale & free
    assert "assessor" in sale & free
    assert "assessor" not in gift
    assert "private gift" not in sale | free
    assert sale <= free | {"private gift"}  # free at a stall counts as supplied


@pytest.mark.published
def test_free_at_the_stall_counts_as_supplied_in_the_eu():
    """Regulation (EC) No 1223/2009, Article 2: "free of charge"."""
    found = {one.topic: one for one in questions("free at the stall", "EU")}
    rules = found["free is supplied"].rules
    assert {row.tag for row in rules} == {"seen"}
    assert any("free of charge" in row.says for row in rules)


def test_all_that_was_asked_for_is_asked():
    topics = {one.topic for one in questions("sale")}
    assert topics >= {
        "assessor",
        "insurer",
        "responsible person",
        "poison centre",
        "local code",
    }


def test_without_a_way_everything_is_asked():
    case = make_case((SODA, "9 g"), (oil(), "1 g"))
    found = list(owes.check(case))
    assert found[0].why.code == "owes.no-channel"
    assert found[0].ask
    assert len(found) == 1 + len(questions(None))
    gift = make_case((SODA, "9 g"), (oil(), "1 g"), channel="gift")
    assert "owes.assessor" not in by_code(owes.check(gift))
    for finding in owes.check(gift):
        assert finding.kind == "fact"
        assert finding.why.code.startswith("owes.")


def test_a_rule_from_memory_says_so():
    for one in questions(None):
        for row in one.rules:
            text = render(owes.rule_says(row))
            assert ("from memory" in text) is (row.tag == "memory")


# -- together ------------------------------------------------------------------


def test_labels_are_facts_and_cautions_and_plain_checks_do_without_them():
    case = published_tablet(channel="sale", remark="sinus relief")
    on = date(2026, 11, 25)
    plain = assess(case.recipe, case.materials, on)
    whole = assess(case.recipe, case.materials, on, label=True)
    assert whole.outcome == plain.outcome
    mine = {"wording", "closures", "bath", "ages", "swallowed", "owes", "skin"}
    assert not {f.check for f in plain.findings} & mine
    more = [f for f in whole.findings if f.check in mine]
    assert {f.kind for f in more} == {"fact", "caution"}
    for finding in more:
        for say in (finding.why, *finding.also, *finding.ask):
            assert "{" not in render(say)


# -- words ---------------------------------------------------------------------

SECTIONS = ("skin", "bath", "ages", "swallowed", "closures", "wording", "owes")


def _sentence(code):
    return words._sentence(code)


@pytest.mark.parametrize("section", SECTIONS)
def test_each_section_reads_as_plain_english(section):
    """Flesch (1948); what stands in braces is left out, as it is the maker's or law."""
    from tests.test_words import reading_ease

    text = " ".join(
        re.sub(r"\s*\{[a-z_]+\}:?", "", _sentence(code))
        for code in sorted(codes())
        if code.startswith(f"{section}.") and not _sentence(code).startswith("{")
    )
    print(f"\nreading ease of {section}: {reading_ease(text):.0f}")
    assert reading_ease(text) >= 60


def test_the_sentences_claim_nothing_themselves():
    for code in codes():
        if code.startswith(("people.", "papers.", "card.", "label.", "sheet.")):
            plain = re.sub(r"\{[a-z_]+\}", "x", _sentence(code))
            found = [hit.found for hit in wording.hits(plain)]
            assert found == [], (code, found)
