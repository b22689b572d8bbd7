"""Hazard classes of a recipe: its papers, its lots, its label, what is asked."""

from fractions import Fraction

import pytest

from blendcheck.assess import assess
from blendcheck.checks import classes
from blendcheck.checks.classes import elements_text
from blendcheck.estimates.classes import Standing
from blendcheck.estimates.classes.mixtures import (
    finished_product,
    harmonised_claims,
    neat_blend,
    wet_mix,
)
from blendcheck.estimates.classes.recipes import lacking, recipe_classes
from blendcheck.quantity import Mark
from blendcheck.words import codes, render
from tests.checks.cases import ALCOHOL, BICARBONATE, CITRIC, ON, by_code, make_case, oil
from tests.test_words import reading_ease

NOT_CLASSIFIED = {"classes": ["not classified"], "copied_whole": True}
POWDER = BICARBONATE | {"hazard": [NOT_CLASSIFIED]}
SHEET = {
    "document": "sds-7",
    "classes": ["Flam. Liq. 3, H226", "Skin Irrit. 2, H315", "Skin Sens. 1, H317"],
    "copied_whole": True,
}
FIR = oil("Fir oil", hazard=[SHEET], flash_point="45 °C closed cup")


def labelled(case, name="neat blend"):
    return next(one for one in recipe_classes(case.totals) if one.name == name)


def standings(case, name="neat blend"):
    return {c.hazard_class: c.standing for c in labelled(case, name).classes.classes}


# -- mixtures ----------------------------------------------------------------


def test_the_neat_blend_is_the_blend_alone_and_the_product_is_what_dries():
    case = make_case((POWDER, "90 g"), (FIR, "10 g"), (ALCOHOL, "5 g"))
    (alone,) = neat_blend(case.totals).parts
    assert (alone.name, alone.share.low) == ("Fir oil", 100)
    shares = {p.name: p.share.high for p in finished_product(case.totals).parts}
    assert shares == {"Bicarbonate": 90, "Fir oil": 10, "Alcohol": 0}
    wet = {p.name: p.share.high for p in wet_mix(case.totals).parts}
    assert wet["Alcohol"] == Fraction(500, 105)


def test_a_blend_by_parts_and_one_in_grams_are_the_same_mixture():
    def shares(blend, **shelf):
        case = make_case(
            (POWDER, "98 g"),
            blend=blend,
            shelf={"material": [FIR, oil("Pine oil")], **shelf},
        )
        return [(p.name, p.share.low) for p in neat_blend(case.totals).parts]

    lines = [("fir-oil", "1 g", "1 part"), ("pine-oil", "3 g", "3 parts")]
    grams = {"line": [{"material": m, "amount": g} for m, g, _ in lines]}
    parts = {
        "load": "2 %",
        "of": "the total",
        "line": [{"material": m, "amount": p} for m, _, p in lines],
    }
    assert shares(grams) == shares(parts) == [("Fir oil", 25), ("Pine oil", 75)]


def test_a_recipe_without_scent_has_no_neat_blend():
    case = make_case((POWDER, "90 g"))
    assert neat_blend(case.totals) is None
    assert [one.name for one in recipe_classes(case.totals)] == ["finished product"]


def test_components_take_their_share_from_the_list_and_their_class_from_the_sheet():
    made = oil(
        "Blend",
        composition=[
            {
                "kind": "hazardous ingredients",
                "row": [{"name": "Irritol", "share": "40-60 %"}],
            }
        ],
        hazard=[{"name": "irritol", "classes": ["Skin Irrit. 2, H315"]}],
    )
    case = make_case((POWDER, "80 g"), (made, "20 g"))
    part = next(p for p in finished_product(case.totals).parts if p.name == "Blend")
    (component,) = part.components
    assert (component.share.low, component.share.high) == (8, 12)
    assert standings(case, "finished product")["Skin Irrit. 2"] is Standing.POSSIBLE
    assert standings(case)["Skin Irrit. 2"] is Standing.CERTAIN


def test_a_component_without_a_share_may_be_all_of_it():
    made = oil("Blend", hazard=[{"name": "Irritol", "classes": ["Skin Irrit. 2"]}])
    case = make_case((POWDER, "80 g"), (made, "20 g"))
    assert standings(case, "finished product")["Skin Irrit. 2"] is Standing.POSSIBLE


def test_a_published_range_makes_no_class_certain():
    made = oil(
        "Orange oil",
        composition=[
            {
                "kind": "published range",
                "row": [{"name": "Irritol", "share": "90 %"}],
            }
        ],
        hazard=[{"name": "Irritol", "classes": ["Skin Irrit. 2"]}],
    )
    case = make_case((made, "20 g"), (POWDER, "1 g"))
    assert standings(case)["Skin Irrit. 2"] is Standing.POSSIBLE


# -- where a class comes from ------------------------------------------------


def test_supplier_first_then_harmonised_read_then_from_memory():
    assert {c.documented for c in harmonised_claims("77-92-9")} == {True}
    assert {c.documented for c in harmonised_claims("5989-27-5")} == {False}
    assert harmonised_claims("80-56-8") == ()  # notified by others: classifies nothing
    read = make_case((CITRIC, "50 g"), (POWDER, "50 g"))
    assert standings(read, "finished product")["Eye Irrit. 2"] is Standing.CERTAIN
    # 17th adaptation, Regulation (EU) 2021/849: H319 and H335; 50 % is above 20 %
    h335 = "STOT SE 3 (irritation)"
    assert standings(read, "finished product")[h335] is Standing.CERTAIN
    told = make_case((CITRIC | {"hazard": [NOT_CLASSIFIED]}, "50 g"), (POWDER, "50 g"))
    assert "Eye Irrit. 2" not in standings(told, "finished product")


def test_a_harmonised_class_from_memory_is_said_to_be():
    report = [{"name": "d-Limonene", "cas": "5989-27-5", "share": "95 %"}]
    orange = oil("Orange oil", composition=[{"kind": "full GC-MS", "row": report}])
    case = make_case((orange, "2 g"), (POWDER, "98 g"))
    found = labelled(case).classes.of("Skin Sens. 1")
    assert found.standing is Standing.POSSIBLE
    assert Mark.FROM_MEMORY in found.marks
    assert found.substances == ("d-Limonene",)


def test_a_class_that_is_printed_only_with_its_limit_counts():
    sheet = {"name": "X", "limits": ["STOT SE 3, H335: C >= 5 %"]}
    made = oil(
        "Blend",
        hazard=[sheet],
        composition=[
            {"kind": "hazardous ingredients", "row": [{"name": "X", "share": "6 %"}]}
        ],
    )
    case = make_case((POWDER, "1 g"), (made, "20 g"))
    assert standings(case)["STOT SE 3 (irritation)"] is Standing.CERTAIN


def test_the_m_factor_of_a_harmonised_class_is_the_one_of_the_table():
    report = [{"name": "d-Limonene", "cas": "5989-27-5", "share": "3 %"}]
    orange = oil("Orange oil", composition=[{"kind": "full GC-MS", "row": report}])
    case = make_case((orange, "2 g"), (POWDER, "98 g"))
    (part,) = neat_blend(case.totals).parts
    (component,) = part.components
    assert component.profile.m_acute == 1
    assert component.profile.m_chronic is None


def test_one_number_is_one_substance_whatever_sheet_speaks_of_it():
    """0.6 % from each oil: only together they reach 1 %, and one sheet is silent."""

    def made(name, **more):
        row = {"name": "Linalool", "cas": "78-70-6", "share": "60 %"}
        return oil(name, composition=[{"kind": "full GC-MS", "row": [row]}], **more)

    row = {"cas": "78-70-6", "classes": ["Skin Sens. 1B, H317"]}
    one = made("One", hazard=[row])
    case = make_case((POWDER, "98 g"), (one, "1 g"), (made("Other"), "1 g"))
    found = labelled(case, "finished product").classes.of("Skin Sens. 1")
    assert found.standing is Standing.CERTAIN
    assert found.low == Fraction("1.2")
    assert any("of One" in line for line in found.lines)


def test_without_a_sheet_nothing_is_ruled_out_and_the_name_is_said():
    case = make_case((POWDER, "98 g"), (oil("Jar oil"), "2 g"))
    found = by_code(classes.check(case))
    opened = found["classes.open"]
    said = render(opened[0].why)
    assert "Jar oil" in said
    assert said.count("harm to the skin") == 1  # corrosion and irritation, said once
    assert "Skin Corr." not in said
    (asked,) = (say for finding in opened for say in finding.ask)
    assert render(asked).startswith("Enter what the data sheet of Jar oil says")


def test_with_whole_sheets_nothing_is_open():
    case = make_case((POWDER, "98 g"), (FIR, "2 g"))
    found = by_code(classes.check(case))
    assert "classes.open" not in found
    certain = {f.subject for f in found["classes.certain"]}
    assert certain == {
        "neat blend: Flam. Liq. 3",
        "neat blend: Skin Irrit. 2",
        "neat blend: Skin Sens. 1",
        "finished product: Skin Sens. 1",
    }


def test_what_lacks_an_m_factor_or_a_limit_is_told_apart():
    sheet = {"classes": ["H400", "PBT"], "copied_whole": True}
    case = make_case((POWDER, "98 g"), (oil("Jar oil", hazard=[sheet]), "2 g"))
    found = by_code(classes.check(case))
    assert "classes.open" not in found
    (factor,) = found["classes.open-factor"]
    assert "Aquatic Acute 1" in render(factor.why)
    (asked,) = factor.ask
    assert render(asked).startswith("Look for the M factor of Jar oil")
    (lasting,) = found["classes.open-no-limit"]
    assert render(lasting.why).startswith(
        "The finished product holds what is classed PBT: Jar oil."
    )


# -- findings ----------------------------------------------------------------


def test_findings_never_count_and_open_to_their_sums():
    case = make_case((POWDER, "98 g"), (FIR, "2 g"))
    found = list(classes.check(case))
    assert {f.kind for f in found} <= {"fact", "caution"}
    skin = next(f for f in found if f.subject == "neat blend: Skin Irrit. 2")
    (estimate,) = skin.estimates
    assert estimate.lines == (
        "Fir oil: 100 %, Skin Irrit. 2 (H315), supplier's sheet sds-7",
        "sum of Skin Irrit. 2: ≥ 10 % (EU CLP, Table 3.2.3)",
    )
    assert skin.source == "canada-hpr"


def test_they_are_part_of_the_label_and_leave_the_outcome_alone():
    case = make_case((POWDER, "98 g"), (FIR, "2 g"))
    plain = assess(case.recipe, case.materials, ON)
    label = assess(case.recipe, case.materials, ON, label=True)
    assert label.outcome is plain.outcome
    assert any(f.check == "classes" for f in label.findings)
    assert not any(f.check == "classes" for f in plain.findings)


def test_the_label_in_one_line():
    case = make_case((POWDER, "98 g"), (FIR, "2 g"))
    text = elements_text(labelled(case).cautious)
    assert text.startswith(
        "Warning; GHS02 (flame); GHS07 (exclamation mark); "
        "H226 Flammable liquid and vapour; H315 Causes skin irritation; H317"
    )
    assert "EUH208" not in text  # the oil is named for H317 already
    product = elements_text(
        labelled(
            make_case((POWDER, "99.9 g"), (FIR, "0.1 g")), "finished product"
        ).cautious
    )
    assert product == "EUH208 Contains Fir oil. May produce an allergic reaction"


def test_a_sensitiser_that_brings_the_class_is_not_named_a_second_time():
    case = make_case((POWDER, "98 g"), (FIR, "2 g"))
    found = by_code(classes.check(case))
    assert "classes.names" not in found
    assert "classes.may-name" not in found
    little = make_case((POWDER, "99.9 g"), (FIR, "0.1 g"))
    (one,) = by_code(classes.check(little))["classes.names"]
    assert one.subject == "finished product: EUH208"


def test_the_label_says_what_is_left_out_and_what_to_fill_in():
    case = make_case((POWDER, "98 g"), (FIR, "2 g"))
    label = by_code(classes.check(case))["classes.label"][0]
    assert render(label.why).endswith(
        "its label shows: Warning, GHS02 (flame), GHS07 (exclamation mark)."
    )
    said = {say.code: render(say) for say in label.also}
    assert "H226 Flammable liquid and vapour; H315" in said["classes.label-hazards"]
    assert "P102 Keep out of reach" in said["classes.label-precautions"]
    assert "P501" in said["classes.fill-in"]
    assert "P261" in said["classes.choice"]
    assert "P102" not in said["classes.choice"]


def test_a_class_below_one_that_is_possible_is_held_at_least():
    row = {"name": "X", "share": "3-7 %"}
    made = oil(
        "Blend",
        composition=[{"kind": "hazardous ingredients", "row": [row]}],
        hazard=[{"name": "X", "classes": ["Skin Corr. 1B, H314"]}],
    )
    case = make_case((POWDER, "1 g"), (made, "20 g"))
    found = by_code(classes.check(case))
    assert {f.subject for f in found["classes.at-least"]} >= {
        "neat blend: Skin Irrit. 2"
    }


def test_a_solid_piece_has_no_classes_for_liquids():
    case = make_case((POWDER, "50 g"), (FIR, "50 g"), product="shower tablet")
    assert "Flam. Liq. 3" not in standings(case, "finished product")
    assert by_code(classes.check(case))["classes.solid"]


def test_the_united_states_and_the_un_are_shown_where_they_differ():
    case = make_case((POWDER, "99.5 g"), (FIR, "0.5 g"))
    (us,) = by_code(classes.check(case))["classes.us"]
    assert "Skin Sens. 1 (certain)" in render(us.why)
    assert us.subject == "finished product"


def test_limits_of_the_united_states_that_were_not_read_are_said():
    sheet = {"classes": ["Repr. 2, H361d"], "copied_whole": True}
    case = make_case((POWDER, "99 g"), (oil("Winter oil", hazard=[sheet]), "1 g"))
    found = by_code(classes.check(case))["classes.us-not-read"]
    assert [f.subject for f in found] == ["neat blend", "finished product"]
    assert "Winter oil" in render(found[0].why)


PINE = [{"name": "alpha-Pinene", "cas": "80-56-8", "share": "20-30 %"}]


def test_a_pinene_rich_oil_without_h304_is_asked_about():
    pine = oil(
        "Pine oil",
        hazard=[SHEET],
        composition=[{"kind": "full GC-MS", "row": PINE}],
    )
    case = make_case((POWDER, "98 g"), (pine, "2 g"))
    (one,) = [f for f in lacking(case.totals) if f.statement == "H304"]
    assert one.because == ("alpha-Pinene",)
    asked = by_code(classes.check(case))["classes.sheet-lacks"]
    assert "Your data sheet for Pine oil lacks H304. Is that right?" in {
        render(say) for f in asked for say in f.ask
    }
    assert "Asp. Tox. 1" not in standings(case)  # asked, never classified


def test_a_sheet_with_h304_is_not_asked_about():
    full = SHEET | {"classes": [*SHEET["classes"], "Asp. Tox. 1, H304"]}
    pine = oil(
        "Pine oil", hazard=[full], composition=[{"kind": "full GC-MS", "row": PINE}]
    )
    case = make_case((POWDER, "98 g"), (pine, "2 g"))
    assert not list(lacking(case.totals))


def test_what_has_no_sum_is_named_and_asked():
    sheet = {"classes": ["Flam. Sol. 2, H228", "EUH066"], "copied_whole": True}
    case = make_case((POWDER, "98 g"), (oil("Camphor", hazard=[sheet]), "2 g"))
    found = by_code(classes.check(case))["classes.not-carried"]
    assert [f.subject for f in found] == ["Camphor: H228", "Camphor: EUH066"]


def test_which_law_is_a_question():
    case = make_case((POWDER, "98 g"), (FIR, "2 g"), contact="not for skin")
    (one,) = by_code(classes.check(case))["classes.regime"]
    assert one.kind == "caution"
    said = " ".join(render(s) for s in (one.why, *one.also, *one.ask))
    assert "Ask your authority" in said
    assert "not for the skin" in said


# -- words -------------------------------------------------------------------


def _cases():
    lasting = {"classes": ["H400", "PBT"], "copied_whole": True}
    yield make_case((POWDER, "98 g"), (oil("Jar oil", hazard=[lasting]), "2 g"))
    strong = oil(
        "Blend",
        composition=[
            {"kind": "hazardous ingredients", "row": [{"name": "X", "share": "3-7 %"}]}
        ],
        hazard=[{"name": "X", "classes": ["Skin Corr. 1B, H314"]}],
    )
    yield make_case((POWDER, "1 g"), (strong, "20 g"))
    camphor = oil(
        "Camphor", hazard=[{"classes": ["Flam. Sol. 2"], "copied_whole": True}]
    )
    yield make_case((camphor, "20 g"))
    thin = {"viscosity": "1.1 mm2/s"}
    asp = SHEET | {"classes": ["Asp. Tox. 1", "Repr. 2, H361"], **thin}
    limonene = [{"name": "d-Limonene", "cas": "5989-27-5", "share": "95 %"}]
    orange = oil("Orange oil", composition=[{"kind": "full GC-MS", "row": limonene}])
    lemon = oil("Lemon oil", cas="84929-31-7", hazard=[SHEET])
    yield make_case((POWDER, "98 g"), (oil("Jar oil"), "2 g"))
    yield make_case((POWDER, "99.5 g"), (FIR, "0.5 g"), contact="not for skin")
    yield make_case((POWDER, "99.5 g"), (orange, "1 g"))
    yield make_case((POWDER, "98 g"), product="other")
    yield make_case((FIR, "98 g"), (lemon, "3 g"), product="room mist")
    yield make_case((POWDER, "80 g"), (oil("Thin oil", hazard=[asp]), "20 g"))
    rare = oil("Rare", hazard=[{"classes": ["ED HH 1"], "copied_whole": True}])
    odd = oil("Odd", hazard=[{"classes": ["H305", "EUH066"], "copied_whole": True}])
    water = SHEET | {"classes": ["H400", "H410", "H302", "H319", "H335", "H304"]}
    yield make_case((rare, "9 g"), (odd, "1 g"), (oil("Wet", hazard=[water]), "50 g"))
    yield make_case(
        (POWDER, "98 g"),
        (
            oil(
                "Pine oil",
                hazard=[SHEET],
                composition=[{"kind": "full GC-MS", "row": PINE}],
            ),
            "2 g",
        ),
    )


def _sayings():
    for case in _cases():
        for finding in classes.check(case):
            yield from (finding.why, *finding.also, *finding.ask)


def test_every_sentence_is_reached_and_rendered():
    reached = set()
    for say in _sayings():
        assert "{" not in render(say)
        reached.add(say.code)
    assert {code for code in codes() if code.startswith("classes.")} == reached


@pytest.mark.published
def test_the_section_reads_as_plain_english():
    """Flesch's reading ease of 60 or more; lists of codes and wordings left out."""
    plain = {
        render(say): None
        for say in _sayings()
        if not say.code.startswith("classes.label")
        if say.code not in ("classes.open", "classes.contains", "classes.choice")
    }
    text = " ".join(plain)
    print(f"\nreading ease of classes: {reading_ease(text):.0f}")
    assert reading_ease(text) >= 60
