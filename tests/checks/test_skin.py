"""Fragrance allergens to name: thresholds, groups, oils, places, dates.

Regulation (EU) 2023/1545, recital as quoted by a consultancy: an allergen is labelled
"when their concentration exceeds 0,001 % in leave-on products and 0,01 % in rinse-off
products"; its notes (*) and (**): what does not comply "may be placed on the Union
market until 31 July 2026 and made available on the Union market until 31 July 2028".
"""

from datetime import date, timedelta
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from blendcheck import reference
from blendcheck.assess import assess
from blendcheck.checks import skin
from blendcheck.checks.declared import declaration, is_on_older_list, listed
from blendcheck.checks.oil_entries import is_oil_entry, oil_entries_of
from blendcheck.quantity import Mark
from blendcheck.records.material import Material
from blendcheck.words import render
from tests.checks.cases import BICARBONATE, by_code, make_case, oil
from tests.checks.shelves import decimal

EU = {"workshop": {"place": "EU"}}
LIMITS = {"leave-on": Fraction(1, 1000), "rinse-off": Fraction(1, 100)}
GERANIAL, NERAL = "141-27-5", "106-26-3"


def report(*rows, **fields):
    """A full report, copied whole, that names every part of the oil."""
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


def scent(*rows, **fields):
    """A perfume of substances: no oil of the list."""
    return oil(
        "Sea fog",
        kind="aroma chemical" if len(rows) == 0 else "fragrance oil",
        **{"composition": [report(*rows)], **fields},
    )


def tablet(*lines, contact="rinse-off", shelf=EU, grams="100 g", **recipe):
    """Lines in a base of bicarbonate; the base is ``grams``."""
    return make_case(
        (BICARBONATE, grams), *lines, contact=contact, shelf=shelf, **recipe
    )


def one(case, label):
    return next(x for x in listed(case) if x.entry.label_name == label)


def said(finding):
    turn = (finding.turns_at,) if finding.turns_at else ()
    every = (finding.why, *finding.also, *turn, *finding.ask)
    return " ".join(render(say) for say in every)


# -- the list and its thresholds ---------------------------------------------


@pytest.mark.published
def test_every_entry_has_the_thresholds_of_the_regulation():
    named = [entry for entry in reference.allergens() if not entry.prohibited]
    assert len(named) == 81
    assert {entry.leave_on for entry in named} == {LIMITS["leave-on"]}
    assert {entry.rinse_off for entry in named} == {LIMITS["rinse-off"]}


@pytest.mark.published
@pytest.mark.parametrize("contact", LIMITS)
@pytest.mark.parametrize(
    ("more", "verdict"),
    [(Fraction(0), "below"), (Fraction(1, 10**9), "declare")],
    ids=["at it", "just above it"],
)
def test_it_is_named_when_its_share_exceeds_the_threshold(contact, more, verdict):
    """ "Exceeds": at the threshold itself it need not be named."""
    grams = (LIMITS[contact] + more) * 2  # of an oil that is half linalool, in 100 g
    half = scent(("linalool", "78-70-6", "50 %"), ("water", "7732-18-5", "50 %"))
    case = tablet(
        (half, f"{decimal(grams)} g"),
        contact=contact,
        grams=f"{decimal(100 - grams)} g",
    )
    found = one(case, "Linalool")
    assert case.working.range(found.total.span).low == LIMITS[contact] + more
    assert found.on(contact) == verdict
    named = declaration(case).declare
    assert ("Linalool" in named) is (verdict == "declare")


OLDER = (  # Directive 2003/15/EC, annex, its 26 names (from memory)
    *("Amyl Cinnamal", "Benzyl Alcohol", "Cinnamyl Alcohol", "Citral", "Eugenol"),
    *("Hydroxycitronellal", "Isoeugenol", "Amylcinnamyl Alcohol", "Benzyl Salicylate"),
    *("Cinnamal", "Coumarin", "Geraniol", "Anise Alcohol", "Benzyl Cinnamate"),
    *("Farnesol", "Butylphenyl Methylpropional", "Linalool", "Benzyl Benzoate"),
    *("Citronellol", "Hexyl Cinnamal", "Limonene", "Methyl 2-Octynoate"),
    *("Alpha-Isomethyl Ionone", "Evernia Prunastri Extract"),
    "Evernia Furfuracea Extract",
    "Hydroxyisohexyl 3-Cyclohexene Carboxaldehyde",
)


def test_the_older_list_has_its_26_names_and_two_are_banned():
    older = [entry for entry in reference.allergens() if is_on_older_list(entry)]
    assert {entry.label_name for entry in older} == set(OLDER)
    assert len(OLDER) == 26
    assert {e.label_name for e in older if e.prohibited} == {
        "Butylphenyl Methylpropional",
        "Hydroxyisohexyl 3-Cyclohexene Carboxaldehyde",
    }


# -- groups ------------------------------------------------------------------


def test_members_of_a_group_are_added_up_before_they_are_compared():
    """0.006 % and 0.005 %: each below 0.01 %, together 0.011 %."""
    parts = (("geranial", GERANIAL, "6 %"), ("neral", NERAL, "5 %"))
    rest = ("water", "7732-18-5", "89 %")
    case = tablet((scent(*parts, rest), "0.1 g"), grams="99.9 g")
    assert one(case, "Citral").rinse_off == "declare"
    assert declaration(case).declare == ("Citral",)
    finding = by_code(skin.check(case))["skin.declare"][0]
    assert "0.011 %" in said(finding)
    assert "geranial, neral" in said(finding) or "neral, geranial" in said(finding)
    assert Mark.FROM_MEMORY in finding.marks  # the sum is the usual reading
    alone = tablet((scent(parts[0], ("water", "7732-18-5", "94 %")), "0.1 g"))
    assert one(alone, "Citral").rinse_off == "below"


@pytest.mark.parametrize(
    ("label", "members"),
    [
        ("Limonene", ("5989-27-5", "5989-54-8")),
        ("Pinene", ("80-56-8", "127-91-3")),
        ("Terpineol", ("98-55-5", "138-87-4", "586-81-2")),
        ("Rose Ketones", ("23696-85-7", "57378-68-4", "43052-87-5")),
        ("Menthol", ("2216-51-5", "15356-60-2")),
    ],
)
def test_groups_with_and_without_a_number_of_their_own(label, members):
    rows = [(f"part {n}", cas, "1 %") for n, cas in enumerate(members)]
    rest = ("water", "7732-18-5", f"{100 - len(members)} %")
    case = tablet((scent(*rows, rest), "1 g"), grams="99 g")
    span = case.working.range(one(case, label).total.span)
    assert span.low == Fraction(len(members), 100)
    assert span.high == span.low


def test_a_group_printed_beside_its_members_counts_once():
    rows = (
        ("limonene", "138-86-3", "60 %"),
        ("d-limonene", "5989-27-5", "58 %"),
        ("water", "7732-18-5", "40 %"),
    )
    case = tablet((scent(*rows), "1 g"), grams="99 g")
    span = case.working.range(one(case, "Limonene").total.span)
    assert span.low <= Fraction(60, 100) <= span.high


def test_one_substance_over_two_oils_is_added_up():
    first = oil("First", composition=[report(("linalool", "78-70-6", "100 %"))])
    second = oil("Second", composition=[report(("linalool", "78-70-6", "100 %"))])
    case = tablet((first, "0.006 g"), (second, "0.006 g"))
    assert one(case, "Linalool").rinse_off == "declare"


# -- ranges and silence ------------------------------------------------------


def test_a_range_across_the_threshold_is_open_and_says_where_it_turns():
    case = tablet(
        (scent(("linalool", "78-70-6", "5-15 %")), "0.1 g"),
        grams="99.9 g",
    )
    finding = by_code(skin.check(case))["skin.undecided"][0]
    assert finding.subject == "Linalool"
    assert "0.005 to 0.015 %" in said(finding)
    assert "at most 10 %" in said(finding)  # 0.01 g of 0.1 g
    assert "exact figure for Linalool in Sea fog" in said(finding)
    assert declaration(case).undecided == ("Linalool",)


def test_silence_rules_nothing_out_without_a_paper_that_would_show_it():
    silent = oil("Old bottle", kind="fragrance oil")
    case = tablet((silent, "1 g"))
    made = declaration(case)
    assert made.declare == ()
    assert len(made.not_shown) == 81
    found = by_code(skin.check(case))["skin.not-shown"][0]
    assert "Old bottle" in said(found)
    assert "statement of all the names" in said(found)


def test_a_statement_bounds_the_names_that_it_covers():
    statement = {
        "kind": "allergen statement",
        "basis": "w/w",
        "copied_whole": True,
        "covers": ["78-70-6", "97-53-0"],
        "shown_from": "0.001 %",
        "row": [{"name": "linalool", "cas": "78-70-6", "share": "2 %"}],
    }
    case = tablet((oil("Fog", kind="fragrance oil", composition=[statement]), "1 g"))
    assert one(case, "Linalool").rinse_off == "declare"
    assert one(case, "Eugenol").rinse_off == "below"  # covered and not shown
    assert one(case, "Coumarin").rinse_off == "undecided"  # not covered


def test_a_published_range_alone_decides_no_below():
    published = report(("linalool", "78-70-6", "0.1-0.5 %"), kind="published range")
    published |= {"copied_whole": False}
    case = tablet((scent(composition=[published]), "1 g"))
    assert one(case, "Linalool").rinse_off == "undecided"


def test_a_published_range_that_is_high_enough_is_named_with_its_doubt():
    published = report(("linalool", "78-70-6", "20-50 %"), kind="published range")
    published |= {"copied_whole": False}
    case = tablet((scent(composition=[published]), "1 g"))
    assert declaration(case).declare == ("Linalool",)
    found = next(f for f in skin.check(case) if f.subject == "Linalool")
    assert "not on the lot's own figure" in said(found)
    assert Mark.PUBLISHED_NOT_LOT in found.marks


@pytest.mark.parametrize(("share", "close"), [("10.5 %", True), ("20 %", False)])
def test_an_area_percent_close_to_the_threshold_says_so(share, close):
    by_area = report(("linalool", "78-70-6", share), basis="area")
    case = tablet((scent(composition=[by_area]), "0.1 g"), grams="99.9 g")
    found = next(f for f in skin.check(case) if f.subject == "Linalool")
    assert ("area percent" in said(found)) is close


@pytest.mark.parametrize("drops", [True, False])
@pytest.mark.parametrize("leaves", ["0-40 %", None])
def test_an_oil_counts_the_same_as_by_its_own_total(drops, leaves):
    """Through a stock blend, counted in drops or weighed, with what dries off."""
    mint = oil("Peppermint oil", cas="8006-90-4", density="0.90-0.91")
    pine = oil("Pine oil", cas="8000-26-8", density="0.86-0.88")
    if leaves:
        mint["leaves_on_drying"] = leaves
    amounts = ("40 drops", "20 drops") if drops else ("2 g", "1 g")
    lines = [
        {"material": one["id"], "amount": amount}
        for one, amount in zip((mint, pine), amounts, strict=True)
    ]
    stock = {"stock": [{"id": "gale", "line": lines}], "material": [mint, pine]}
    case = make_case(
        (BICARBONATE, "97 g"),
        shelf=EU | stock,
        blend={"line": [{"stock": "gale", "amount": "3 g"}]},
    )
    found = one(case, "Mentha Piperita Oil").total
    own = case.totals.material(case.materials.get("peppermint-oil"))
    span, other = (case.working.range(x.span) for x in (found, own))
    if leaves:  # closed leaf by leaf, so that it may be wider, never narrower
        assert 0 < span.low <= other.low <= other.high <= span.high <= 3
    else:
        assert (span.low, span.high) == (other.low, other.high)


@st.composite
def _rows(draw):
    """Low end, high end and truth of two members, in tenths of a percent."""
    made = []
    for _ in range(2):
        low, high = sorted((draw(st.integers(0, 300)), draw(st.integers(0, 300))))
        made.append((low, high, draw(st.integers(low, high))))
    return made


@settings(deadline=None, max_examples=60)
@given(
    rows=_rows(), milligrams=st.integers(1, 400), contact=st.sampled_from(list(LIMITS))
)
def test_a_verdict_never_contradicts_a_world_that_fits_the_papers(
    rows, milligrams, contact
):
    """The ends are those of the corners; a verdict holds in each world in between."""
    shares = [f"{low / 10:.1f}-{high / 10:.1f} %" for low, high, _ in rows]
    parts = zip(("geranial", "neral"), (GERANIAL, NERAL), shares, strict=True)
    grams = Fraction(milligrams, 1000)
    case = tablet(
        (scent(*parts), f"{decimal(grams)} g"),
        grams=f"{decimal(100 - grams)} g",
        contact=contact,
    )
    found = one(case, "Citral")

    def percent(which):
        return sum((Fraction(row[which], 1000) for row in rows), Fraction(0)) * grams

    truth, limit = percent(2), LIMITS[contact]
    verdict = found.on(contact)
    assert (verdict == "declare") <= (truth > limit)
    assert (verdict == "below") <= (truth <= limit)
    by_corners = (
        "declare"
        if percent(0) > limit
        else "below"
        if percent(1) <= limit
        else "undecided"
    )
    assert verdict == by_corners


# -- oils that are entries themselves ----------------------------------------


def entries(**fields):
    kind = {"kind": "essential oil", "id": "x", "name": "An oil"}
    return oil_entries_of(Material.model_validate(kind | fields))


@pytest.mark.parametrize(
    ("fields", "is_it", "may_be"),
    [
        ({"cas": "8006-90-4"}, {"III/361"}, set()),
        ({"inci": "Mentha Piperita Oil"}, {"III/361"}, set()),
        ({"inci": "Mentha Viridis Leaf Oil"}, {"III/362"}, set()),
        # one number, two entries: flower oil and peel oil
        ({"cas": "8028-48-6"}, set(), {"III/350", "III/351"}),
        (
            {"cas": "8028-48-6", "inci": "Citrus Aurantium Dulcis Peel Oil"},
            {"III/351"},
            set(),
        ),
        ({"name": "Peppermint oil"}, set(), {"III/361"}),
        ({"botanical": "Mentha × piperita"}, set(), {"III/361"}),
        ({"name": "Bergamot oil"}, set(), {"III/352"}),
        # a number that is on no entry: another oil
        ({"cas": "8000-25-7", "name": "Rosemary oil"}, set(), set()),
        ({"name": "Winter wind", "kind": "fragrance oil"}, set(), set()),
    ],
)
def test_which_entry_an_oil_is(fields, is_it, may_be):
    assert entries(**fields) == (is_it, may_be)


@pytest.mark.published
def test_an_oil_and_its_parts_are_two_names():
    """Entries 361 (Mentha Piperita Oil) and 338 (Menthol) of the same bottle."""
    mint = oil(
        "Peppermint oil",
        cas="8006-90-4",
        composition=[
            report(("menthol", "2216-51-5", "40 %"), ("menthone", "89-80-5", "60 %"))
        ],
    )
    case = tablet((mint, "1 g"), grams="99 g")
    assert declaration(case).declare == ("Mentha Piperita Oil", "Menthol")  # 1, 0.4 %


def test_an_oil_by_its_name_alone_is_open_and_asked_about():
    rows = (("linalool", "78-70-6", "100 %"),)
    mint = oil("Peppermint oil", composition=[report(*rows)])
    case = tablet((mint, "1 g"))
    assert one(case, "Mentha Piperita Oil").rinse_off == "undecided"
    found = [f for f in skin.check(case) if f.subject == "Mentha Piperita Oil"]
    assert "Is Peppermint oil the oil that the list calls" in said(found[0])
    assert Mark.UNCONFIRMED in found[0].marks


def test_an_oil_sold_diluted_counts_by_its_strength():
    carrier = {"id": "jojoba", "name": "Jojoba", "kind": "carrier"}
    for describes in ("as sold", "undiluted"):
        weak = oil(
            "Weak peppermint",
            cas="8006-90-4",
            dilution={
                "percent": "10 %",
                "diluent": "jojoba",
                "papers_describe": describes,
            },
        )
        case = tablet((weak, "1 g"), grams="99 g", shelf=EU | {"material": [carrier]})
        span = case.working.range(one(case, "Mentha Piperita Oil").total.span)
        assert (span.low, span.high) == (Fraction(1, 10), Fraction(1, 10)), describes


def test_an_oil_named_on_the_paper_of_a_fragrance_counts():
    rows = (("lemon oil", "8008-56-8", "30 %"), ("water", "7732-18-5", "70 %"))
    case = tablet((scent(*rows), "1 g"), grams="99 g")
    assert one(case, "Citrus Limon Peel Oil").rinse_off == "declare"


def test_one_oil_is_not_said_to_hold_another():
    case = tablet((oil("Rosemary oil", cas="8000-25-7"), "1 g"))
    assert one(case, "Rose Flower Oil/Extract").rinse_off == "below"
    assert one(case, "Linalool").rinse_off == "undecided"


def test_an_oil_without_number_and_name_is_asked_about():
    found = by_code(skin.check(tablet((oil("From the swap table"), "1 g"))))
    assert "INCI name" in said(found["skin.oil-not-placed"][0])


def test_every_oil_of_the_list_is_known_as_one():
    assert sum(map(is_oil_entry, reference.allergens())) == 29


# -- banned ------------------------------------------------------------------


@pytest.mark.published
@pytest.mark.parametrize("cas", ["80-54-6", "31906-04-4"])
def test_a_banned_name_is_a_caution(cas):
    """Annex II, entries 1666 and 1380."""
    case = tablet((scent(("a lily note", cas, "1 %")), "0.1 g"))
    assert declaration(case).banned
    found = by_code(skin.check(case))["skin.banned"][0]
    assert found.kind == "caution"
    assert found.severity == 1
    assert "bans it" in said(found)


# -- place, date, product ----------------------------------------------------


MINT = oil(
    "Mint", kind="fragrance oil", composition=[report(("m", "2216-51-5", "1 %"))]
)


@pytest.mark.published
@pytest.mark.parametrize(
    ("place", "on", "names"),
    [
        ("EU", "2026-07-31", "24 names"),
        ("EU", "2026-08-01", "81 entries"),
        ("Canada", "2026-04-12", "24 names"),
        ("Canada", "2026-07-31", "24 names"),
        ("Canada", "2026-08-01", "81 entries"),
        ("Great Britain", "2026-11-25", "24 names"),
        ("United States", "2026-11-25", "81 entries"),
        (None, "2020-01-01", "81 entries"),
    ],
)
def test_the_list_of_a_place_on_a_day(place, on, names):
    """Dates of Regulation (EU) 2023/1545 and of Canada's notice of 2025."""
    shelf = {"workshop": {"place": place}} if place else None
    case = tablet((MINT, "10 g"), shelf=shelf, on=date.fromisoformat(on))
    made = declaration(case)
    assert made.names == names
    assert ("Menthol" in made.declare) is (names == "81 entries")
    assert made.asked is (place not in (None, "United States"))


def test_stock_on_the_market_has_its_own_date():
    for on, still in ((date(2028, 7, 31), True), (date(2028, 8, 1), False)):
        rows = reference.allergen_lists("EU", on)
        assert ("24 names" in {row.names for row in rows}) is still


def test_no_place_is_assumed():
    case = tablet((MINT, "10 g"), shelf=None)
    found = by_code(skin.check(case))["skin.no-place"][0]
    text = said(found)
    for place in ("EU:", "Great Britain:", "Canada:", "United States, from memory"):
        assert place in text
    assert "Whose law do you go by" in text
    chosen = by_code(skin.check(tablet((MINT, "10 g"))))["skin.place"][0]
    assert "Canada" not in said(chosen)
    assert "31 July 2028" in said(chosen)


def test_without_a_product_the_two_must_agree():
    rows = (("linalool", "78-70-6", "100 %"),)
    for amount, code in (
        ("0.0005 g", "skin.below"),
        ("0.005 g", "skin.depends"),
        ("0.5 g", "skin.declare"),
    ):
        case = tablet((scent(*rows), amount), contact=None)
        found = [f for f in skin.check(case) if f.subject == "Linalool"]
        assert [f.why.code for f in found] == [code], amount
    assert "skin.no-contact" in by_code(skin.check(case))
    case = tablet((scent(*rows), "1 g"), contact="not for skin")
    assert "skin.not-for-skin" in by_code(skin.check(case))


def test_names_are_ordered_by_how_much_is_there():
    rows = (
        ("linalool", "78-70-6", "20 %"),
        ("coumarin", "91-64-5", "50 %"),
        ("eugenol", "97-53-0", "30 %"),
    )
    case = tablet((scent(*rows), "1 g"))
    assert declaration(case).declare == ("Coumarin", "Eugenol", "Linalool")


# -- facts only --------------------------------------------------------------


def test_a_label_never_changes_the_outcome():
    case = tablet((MINT, "10 g"), (oil("Old bottle"), "1 g"))
    on = date(2026, 11, 25) + timedelta(days=1)
    plain = assess(case.recipe, case.materials, on)
    whole = assess(case.recipe, case.materials, on, label=True)
    assert whole.outcome == plain.outcome
    assert whole.hash == plain.hash
    more = [f for f in whole.findings if f.check == "skin"]
    assert more
    assert {f.kind for f in more} <= {"fact", "caution"}
    assert not any(f.check == "skin" for f in plain.findings)
