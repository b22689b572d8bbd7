"""Oils that are entries of the list of allergens: none is left off on a guess.

Entries and their names: Annex III to Regulation (EC) No 1223/2009 as amended by
Regulation (EU) 2023/1545. Older and other names of the same oils, and numbers that
suppliers print and the annex does not: common practice, from memory.
"""

from datetime import date

import pytest

from blendcheck import reference
from blendcheck.checks import skin
from blendcheck.checks.declared import declaration
from blendcheck.checks.oil_entries import is_oil_entry, is_placed, oil_entries_of
from blendcheck.records.material import Material
from tests.checks.cases import by_code, oil
from tests.checks.test_skin import MINT, one, report, said, scent, tablet

PARTS = report(("linalool", "78-70-6", "100 %"))
OILS = {e.label_name for e in reference.allergens() if is_oil_entry(e)}


def material(**fields):
    return Material.model_validate(
        {"kind": "essential oil", "id": "x", "name": "Oil 3"} | fields
    )


@pytest.mark.parametrize(
    ("fields", "entry"),
    [
        # INCI names of the same oil that are not the annex's own
        ({"inci": "Lavandula Angustifolia Flower Oil"}, "III/360"),
        ({"inci": "Citrus Limon (Lemon) Fruit Oil"}, "III/353"),
        ({"inci": "Citrus Medica Limonum Peel Oil"}, "III/353"),
        ({"inci": "Mentha Piperita (Peppermint) Leaf Oil"}, "III/361"),
        ({"inci": "Citrus Bergamia Peel Oil"}, "III/352"),
        ({"inci": "Mentha Spicata Leaf Oil"}, "III/362"),
        # a number of the same oil that is not in the annex
        ({"cas": "84625-32-1"}, "III/355"),
        # the plant
        ({"botanical": "Mentha x piperita L."}, "III/361"),
        ({"botanical": "Syzygium aromaticum"}, "III/356"),
        ({"botanical": "M. piperita", "name": "Peppermint"}, "III/361"),
        ({"botanical": "Lavandula spp.", "name": "Lavender"}, "III/360"),
        # the name of the trade, with other words
        ({"name": "Lavender oil 40/42"}, "III/360"),
        ({"name": "Bulgarian lavender"}, "III/360"),
        ({"name": "Neroli"}, "III/350"),
        ({"name": "Oakmoss absolute", "kind": "absolute"}, "III/91"),
        ({"name": "Jasmine absolute", "kind": "absolute"}, "III/357"),
        ({"name": "Balsam of Peru"}, "III/154"),
        ({"name": "Mint"}, "III/361"),
        ({"name": "Mint"}, "III/362"),
        ({"name": "Lavender oil", "inci": "Parfum"}, "III/360"),
    ],
)
def test_an_oil_under_another_name_or_number_may_be_the_entry(fields, entry):
    is_it, may_be = oil_entries_of(material(**fields))
    assert is_it == frozenset()
    assert entry in may_be
    case = tablet((oil(**{"name": "Oil 3", "composition": [PARTS], **fields}), "1 g"))
    label = next(e.label_name for e in reference.allergens() if e.entry == entry)
    assert one(case, label).rinse_off == "undecided"
    assert label in declaration(case).undecided


@pytest.mark.parametrize(
    "fields",
    [
        {"cas": "8000-25-7", "name": "Rosemary oil"},
        {"name": "Tea tree oil"},
        {"inci": "Rosmarinus Officinalis Leaf Oil"},
        {"inci": "Citrus Reticulata Peel Oil", "name": "Mandarin"},
        {"botanical": "Eucalyptus radiata", "name": "Eucalyptus"},
        {"botanical": "Pinus sylvestris", "name": "Pine"},
        {"inci": "Abies Sibirica Oil"},
    ],
)
def test_an_oil_that_is_known_to_be_another_is_none_of_the_list(fields):
    assert oil_entries_of(material(**fields)) == (frozenset(), frozenset())
    assert is_placed(material(**fields))


@pytest.mark.parametrize(
    "fields",
    [
        {"name": "From the swap table"},
        {"name": "Pfefferminzöl"},
        {"name": "From the swap table", "inci": "Parfum"},
        {"name": "From the swap table", "cas": "68650-46-4"},
        {"name": "Lavender and pine blend"},
        {"name": "Deep forest", "inci": "Essential Oil Blend"},
    ],
)
def test_an_oil_of_which_nothing_is_recognised_may_be_any(fields):
    """Even with a full report of its constituents: they are what an oil is."""
    unknown = oil(**fields, composition=[PARTS])
    case = tablet((unknown, "1 g"))
    assert not is_placed(material(**fields))
    assert {one(case, label).rinse_off for label in OILS} == {"undecided"}
    assert one(case, "Coumarin").rinse_off == "below"
    made = declaration(case)
    assert set(made.undecided) | set(made.not_shown) == OILS
    assert "skin.oil-not-placed" in by_code(skin.check(case))


@pytest.mark.parametrize("rows", [1, 2])
def test_a_report_of_constituents_does_not_show_which_oils_a_perfume_holds(rows):
    made_of = [("menthol", "2216-51-5", "60 %"), ("menthone", "89-80-5", "40 %")]
    if rows == 1:
        made_of = [("menthol", "2216-51-5", "100 %")]
    case = tablet((scent(*made_of), "1 g"), grams="99 g")
    mint = one(case, "Mentha Piperita Oil")
    assert mint.rinse_off == "undecided"
    assert case.working.range(mint.total.span).high == 1
    assert set(declaration(case).not_shown) == OILS


def test_a_statement_on_an_oil_rules_it_out_of_a_perfume():
    statement = {
        "kind": "allergen statement",
        "basis": "w/w",
        "copied_whole": True,
        "covers": ["8006-90-4", "84082-70-2"],
        "shown_from": "0.001 %",
        "row": [],
    }
    case = tablet((scent(composition=[statement]), "1 g"))
    assert one(case, "Mentha Piperita Oil").rinse_off == "below"
    assert one(case, "Mentha Viridis Leaf Oil").rinse_off == "undecided"


def test_one_substance_holds_no_oil():
    menthol = {
        "id": "menthol",
        "name": "Menthol",
        "kind": "aroma chemical",
        "cas": "2216-51-5",
    }
    case = tablet((menthol, "1 g"))
    assert {one(case, label).rinse_off for label in OILS} == {"below"}


# -- what the place asks for ---------------------------------------------------


@pytest.mark.parametrize(
    ("place", "on", "asks"),
    [
        ("EU", "2026-11-25", True),
        ("EU", "2026-07-31", False),
        ("Great Britain", "2026-11-25", False),
        ("Canada", "2026-07-31", False),
        ("Canada", "2026-08-01", True),
        ("United States", "2026-11-25", False),
        (None, "2026-11-25", True),
    ],
)
def test_nobody_is_told_to_name_what_the_place_does_not_ask_for(place, on, asks):
    """Menthol, entry 338, is on the longer list only."""
    shelf = {"workshop": {"place": place}} if place else None
    case = tablet((MINT, "10 g"), shelf=shelf, on=date.fromisoformat(on))
    found = next(f for f in skin.check(case) if f.subject == "Menthol")
    code = "skin.declare" if asks else "skin.not-asked"
    assert found.why.code == code
    assert ("must be named" in said(found)) is asks
    assert found.value is not None


def test_the_older_names_are_asked_for_in_great_britain():
    shelf = {"workshop": {"place": "Great Britain"}}
    case = tablet((scent(("linalool", "78-70-6", "100 %")), "1 g"), shelf=shelf)
    found = next(f for f in skin.check(case) if f.subject == "Linalool")
    assert found.why.code == "skin.declare"


def test_before_its_first_date_a_place_asks_for_no_list():
    """Canada: the first of the phased dates is 12 April 2026."""
    shelf = {"workshop": {"place": "Canada"}}
    case = tablet((MINT, "10 g"), shelf=shelf, on=date(2026, 4, 11))
    assert not declaration(case).asked
    assert "skin.place-no-list" in by_code(skin.check(case))


# -- lines of a list that say too little ---------------------------------------


@pytest.mark.parametrize(
    ("name", "cas"),
    [
        ("Linalool, beta-", None),  # a way of writing that no table has
        ("Aldehyde 99 of the house", None),
        ("Lavender oil", None),  # an oil in a mixture holds substances of the list
        ("Lavender oil", "8000-28-0"),
        ("Mentha Piperita Oil", None),
    ],
)
def test_a_line_that_may_be_or_hold_a_substance_rules_none_out(name, cas):
    row = {"name": name, "share": "5 %"} | ({"cas": cas} if cas else {})
    rest = {"name": "water", "cas": "7732-18-5", "share": "95 %"}
    case = tablet((scent(composition=[report() | {"row": [row, rest]}]), "1 g"))
    found = one(case, "Linalool")
    assert found.rinse_off == "undecided"
    assert not found.named  # it stands with the names that no paper shows
    assert "Linalool" in declaration(case).not_shown
    told = by_code(skin.check(case))["skin.line-not-placed"][0]
    assert name in said(told)
    assert "CAS number" in said(told)


@pytest.mark.parametrize("name", ["water", "Menthone", "Germacrene D", "Waxes"])
def test_a_line_whose_name_is_known_is_what_it_says(name):
    row = {"name": name, "share": "5 %"}
    rest = {"name": "1,8-cineole", "cas": "470-82-6", "share": "95 %"}
    case = tablet((scent(composition=[report() | {"row": [row, rest]}]), "1 g"))
    assert one(case, "Linalool").rinse_off == "below"
    assert "skin.line-not-placed" not in by_code(skin.check(case))


def test_the_answer_on_a_line_settles_it():
    row = {"name": "House note 7", "share": "5 %"}
    rest = {"name": "water", "cas": "7732-18-5", "share": "95 %"}
    answers = {"confirmed": [{"name": "House note 7", "cas": "89-80-5"}]}
    shelf = {"workshop": {"place": "EU"}} | answers
    perfume = scent(composition=[report() | {"row": [row, rest]}])
    case = tablet((perfume, "1 g"), shelf=shelf)
    assert one(case, "Linalool").rinse_off == "below"


@pytest.mark.parametrize(
    ("name", "kind", "told"),
    [
        ("Lavender hydrosol", "water", True),
        ("Rose water", "water", True),
        ("Rosemary infused oil", "carrier", True),
        ("Dried peppermint leaf", "solid", True),
        ("Water, distilled", "water", False),
        ("Fractionated coconut oil", "carrier", False),
        ("Rose clay", "solid", False),
    ],
)
def test_what_is_made_from_a_plant_and_entered_as_plain_is_asked_about(
    name, kind, told
):
    plain = {"id": "p", "name": name, "kind": kind}
    found = by_code(skin.check(tablet((plain, "1 g"))))
    assert ("skin.plant-taken-as-plain" in found) is told
