"""What stands on each paper, before it is drawn."""

import re
from dataclasses import replace
from fractions import Fraction

import pytest
from pydantic import ValidationError

from blendcheck.checks import packing, people
from blendcheck.errors import InputError
from blendcheck.files import dump_recipe, recipe_from_text
from blendcheck.papers import KINDS, make
from blendcheck.papers.card import (
    MOST_WORDS,
    NOT_ON_CARD,
    card_cautions,
    name_of,
    said_on_card,
)
from blendcheck.papers.content import Blanks, Lines, Table
from blendcheck.papers.ingredients import ingredient_list
from blendcheck.papers.label import net_mass
from blendcheck.papers.limits import open_line
from blendcheck.papers.plain_text import markdown, plain
from blendcheck.papers.web import html
from blendcheck.records.finding import Outcome, Say
from blendcheck.records.papers import PaperTexts
from blendcheck.words import codes, render
from tests.papers.makers import RECIPES, demo, said, within
from tests.test_words import reading_ease


def words(lines):
    return len(" ".join(lines).split())


# -- every paper -------------------------------------------------------------------


@pytest.mark.parametrize("name", RECIPES)
@pytest.mark.parametrize("kind", KINDS)
def test_every_paper_names_recipe_hash_and_moment(name, kind):
    kept = demo(name, channel="gift")
    paper = make(kind, kept)
    assert paper.about == kept.recipe.name
    assert kept.assessment.hash in paper.trace
    assert "2026-11-25 14:05" in paper.trace
    assert paper.stamp == "202611251405"
    assert kept.assessment.hash in said(paper)


@pytest.mark.parametrize("kind", KINDS)
def test_no_paper_promises(kind):
    found = set()
    for name in RECIPES:
        kept = demo(name, channel="gift", estimates=kind == "note")
        paper = make(kind, kept)
        cited = {"Sources"}  # titles of other people's papers
        ours = "\n".join(
            said(replace(paper, sections=(one,)))
            for one in paper.sections
            if one.title not in cited
        ).replace(kept.recipe.name, "")
        found |= set(re.findall(r"\b(?:safe|approved|compliant|pass|pure)\b", ours))
    assert found == set()


def test_the_moment_is_not_read_from_a_clock():
    one, other = make("card", demo()), make("card", demo())
    assert one == other


def test_the_words_outlive_a_file():
    words = {
        "title": 'Tide "one" \\ #',
        "message": "First line.\nSecond line.",
        "made_on": "2026-11-25",
        "pieces_in_pack": 2,
        "small_last": True,
        "reason": [{"about": "Peppermint oil", "says": "asked"}],
    }
    recipe = demo(papers=words).recipe
    again = recipe_from_text(dump_recipe(recipe))
    assert again == recipe
    assert again.papers.message == "First line.\nSecond line."


def test_a_reason_is_given_once():
    twice = [{"about": "Oil", "says": "a"}, {"about": "OIL", "says": "b"}]
    with pytest.raises(ValidationError, match="two reasons are given"):
        PaperTexts.model_validate({"reason": twice})


# -- limits that are open --------------------------------------------------------


@pytest.mark.parametrize("name", RECIPES)
def test_open_limits_stand_on_batch_sheet_and_note(name):
    kept = demo(name, channel="gift")
    for kind in ("batch", "note"):
        text = said(make(kind, kept))
        for finding in kept.open:
            assert finding.subject in text
            assert finding.limit in text
            assert render(finding.why) in text
    assert {f.outcome for f in kept.open}.isdisjoint({Outcome.WITHIN})


def test_the_demo_has_open_limits_of_every_sort():
    found = {f.outcome for name in RECIPES for f in demo(name).open}
    assert found == {Outcome.OVER, Outcome.STRADDLES, Outcome.UNKNOWN}


@pytest.mark.parametrize("name", RECIPES)
def test_the_card_can_always_be_made_and_says_what_is_open(name):
    kept = demo(name)
    text = said(make("card", kept))
    assert ("Not fully checked:" in text) == bool(kept.open)


def test_nothing_is_called_open_that_is_within():
    kept = within()
    assert kept.open == ()
    assert open_line(kept) == ""
    assert "Not fully checked" not in said(make("card", kept))
    assert "All are within the figures entered" in said(make("batch", kept))


def test_a_check_without_a_limit_is_not_taken_for_a_good_one():
    kept = within()
    bare = kept.assessment.case.materials.model_copy(
        update={
            "material": tuple(
                one.model_copy(update={"cap": (), "flash_point": None})
                for one in kept.assessment.case.materials.material
                if one.id == "base"
            )
        }
    )
    from blendcheck.assess import assess
    from blendcheck.papers.kept import KeptCheck
    from tests.papers.makers import AT, ON

    recipe = kept.recipe.model_copy(update={"line": kept.recipe.line[:1]})
    none = KeptCheck(assess(recipe, bare, ON), AT)
    if not none.counting:
        assert "Not fully checked: no limit that counts" in said(make("card", none))
        assert "nothing is shown to be within" in said(make("batch", none))


# -- the card --------------------------------------------------------------------


@pytest.mark.parametrize("name", RECIPES)
def test_the_cautions_of_a_card_have_at_most_ninety_words(name):
    kept = demo(name)
    severe, other = card_cautions(kept)
    assert words((*severe, *other, open_line(kept))) <= MOST_WORDS


TABLET = {"card.bath", "card.jar"}
MIST = {"card.flame", "card.mist"}


@pytest.mark.parametrize("apart", [MIST, TABLET], ids=["tablet", "mist"])
def test_all_cautions_that_can_meet_have_at_most_ninety_words(apart):
    """A shower tablet or a mist with everything, and one of the lung lines."""
    not_together = {"card.lungs", "card.fits", *apart}
    cautions = [
        render(Say(code))
        for code in codes()
        if code.startswith("card.")
        and code not in not_together
        and not code.startswith(("card.open", "card.what", "card.trace", "card.read"))
    ]
    assert len(cautions) == 12
    assert words(cautions) <= MOST_WORDS


def test_severe_cautions_come_first():
    kept = demo()
    severe, _ = card_cautions(kept)
    assert severe[0] == (
        "Keep away from babies and children unless a health professional agrees."
    )
    assert severe[1].startswith("If eaten: call the poison line now")
    paper = make("card", kept)
    back = next(s for s in paper.sections if s.side == "back")
    first = next(part for part in back.parts if isinstance(part, Lines))
    assert first.items == severe[:2]
    assert first.tone == "strong"


@pytest.mark.parametrize("name", RECIPES)
@pytest.mark.parametrize("kind", ["card", "label", "swallowed"])
def test_no_age_stands_on_what_goes_out(name, kind):
    text = said(make(kind, demo(name, channel="gift")))
    assert not re.search(r"\b[0-9]+ (?:months?|years?)\b", text)


def test_cautions_of_the_card_read_as_plain_english():
    severe, other = card_cautions(demo())
    assert reading_ease(" ".join((*severe, *other))) >= 60


def test_every_caution_on_people_and_packing_has_its_place():
    """A caution added to the checks must be given its words, or be left off here."""
    sections = {people._CHECK: "people", packing._CHECK: "packing"}
    seen = {
        name_of(finding)
        for name in RECIPES
        for finding in demo(name).told("caution")
        if finding.check in sections
    }
    assert seen - said_on_card() - NOT_ON_CARD == set()
    assert said_on_card().isdisjoint(NOT_ON_CARD)


def test_the_message_gives_way_to_an_open_limit():
    message = "For cold mornings.\nWith love."
    paper = make("card", demo(papers={"message": message}))
    assert "cold mornings" not in said(paper)
    assert any("message is not on the card" in one for one in paper.left_off)
    paper = make("card", within(message=message))
    assert "For cold mornings." in said(paper)
    assert "With love." in said(paper)
    assert paper.left_off == ()


def test_a_title_that_praises_gives_way_to_an_open_limit():
    title = "Cures every cold"
    paper = make("card", demo(papers={"title": title}))
    assert title not in said(paper)
    assert paper.title == demo().recipe.name
    assert any("Your title is not on the card" in one for one in paper.left_off)
    assert make("card", within(title=title)).title == title
    both = make("card", demo(papers={"title": title}, called=title))
    assert both.title == "Shower tablet"
    for write in (html, markdown, plain):
        assert title not in write(both)


# -- the label -------------------------------------------------------------------


def test_a_label_for_sale_needs_a_reason_for_each_cause():
    with pytest.raises(InputError, match=r"no reason is given for: Peppermint oil, st"):
        make("label", demo(channel="sale"))
    subjects = list(dict.fromkeys(f.subject for f in demo().open))
    some = [{"about": one, "says": "asked"} for one in subjects[:-1]]
    with pytest.raises(InputError, match=f"given for: {subjects[-1]}. Write"):
        make("label", demo(channel="sale", papers={"reason": some}))
    every = [
        {"about": one.upper(), "says": f"why {n}"} for n, one in enumerate(subjects)
    ]
    kept = demo(channel="sale", papers={"reason": every})
    assert make("label", kept).title == kept.recipe.name
    note = said(make("note", kept))
    for n, one in enumerate(subjects):
        assert f"{one}: why {n}" in note


@pytest.mark.parametrize("channel", ["free at the stall", None])
def test_a_label_for_anything_but_a_gift_is_held_to_the_same(channel):
    with pytest.raises(InputError, match="no reason is given"):
        make("label", demo(channel=channel))


def test_a_gift_label_needs_none_and_says_what_is_open():
    assert "Not fully checked" in said(make("label", demo(channel="gift")))


def test_ingredients_are_in_the_order_of_weight():
    """By hand: 860, 430, 64 g, then both oils of 36 g, then 14 g; alcohol is gone."""
    found = ingredient_list(demo().assessment.totals)
    assert [one.material.id for one in found.listed] == [
        "bicarbonate",
        "citric acid",
        "kaolin",
        "peppermint",
        "eucalyptus",
        "polysorbate 80",
    ]
    assert found.gone == ("Isopropyl alcohol 99.9 %",)
    assert found.listed[1].name == "Citric Acid (Citric acid, anhydrous)"
    assert found.listed[2].name == "Kaolin"


def test_small_ones_may_come_last_by_the_alphabet():
    totals = demo("fair-wind.toml").assessment.totals
    usual = ingredient_list(totals).listed
    small = ingredient_list(totals, small_last=True).listed
    at_most_one = [one for one in usual if one.put_in.high <= 1]
    assert len(at_most_one) >= 2  # the demo shows it
    names = sorted(one.name.casefold() for one in at_most_one)
    assert [one.name.casefold() for one in small][-len(names) :] == names
    assert {one.name for one in small} == {one.name for one in usual}


def test_an_order_that_is_not_settled_is_said():
    found = ingredient_list(demo("driftwood.toml").assessment.totals)
    assert "Siberian fir needle oil" in found.order_open


@pytest.mark.published
def test_net_mass_in_grams_and_ounces():
    """1 oz is 28.349 523 125 g: NIST Handbook 44, Appendix C, avoirdupois ounce."""
    ounces = Fraction(60) / Fraction("28.349523125")
    assert 2.11 <= ounces < 2.12
    assert net_mass(demo()) == "60 g (2.11 oz)"
    three = demo(papers={"pieces_in_pack": 3})
    assert 6.34 <= 3 * ounces < 6.35
    assert net_mass(three) == "3 × 60 g = 180 g (6.34 oz)"


def test_net_mass_is_left_to_be_written_where_it_is_not_known():
    kept = demo(channel="gift", piece_mass=None, pieces=None)
    assert net_mass(kept) == ""


def test_allergens_to_declare_stand_on_the_label():
    kept = demo(channel="gift")
    declared = [
        f.why.values["name"]
        for f in kept.assessment.label
        if f.why.code == "skin.declare"
    ]
    assert declared
    text = said(make("label", kept))
    for name in declared:
        assert name in text


def test_a_bottle_of_the_neat_blend_has_the_words_for_its_hazards():
    """Regulation (EC) 1272/2008, Annex III: the wording of H226, H304, H315, H319."""
    paper = make("bottle", demo())
    text = said(paper)
    assert "Danger" in text
    for words in (
        "Flammable liquid and vapour.",
        "May be fatal if swallowed and enters airways.",
        "Causes skin irritation.",
        "Causes serious eye irritation.",
        "GHS02 (flame)",
        "GHS08 (health hazard)",
        "Keep out of reach of children.",
    ):
        assert words in text
    assert any("not drawn" in one for one in paper.left_off)


def test_a_tablet_has_no_words_of_the_law_for_mixtures_and_a_mist_has():
    """Cosmetics are outside them; what is not for the skin may not be."""
    tablet = said(make("label", demo(channel="gift")))
    assert "GHS07" not in tablet
    room = demo(channel="gift", contact="not for skin")
    assert "GHS07" in said(make("label", room))


def test_there_is_no_bottle_without_a_scent():
    kept = demo()
    lines = [
        one
        for one in kept.recipe.model_dump(by_alias=True)["line"]
        if one["material"] in ("bicarbonate", "citric acid")
    ]
    with pytest.raises(InputError, match="nothing scented goes in"):
        make("bottle", demo(line=lines, blend=None))


# -- batch sheet -------------------------------------------------------------------


def test_weights_stand_in_weighing_order_at_the_scale():
    kept = demo("driftwood.toml")
    table = next(
        part
        for section in make("batch", kept).sections
        for part in section.parts
        if isinstance(part, Table) and part.fill
    )
    assert [row[1] for row in table.rows] == [line.says for line in kept.weighing.lines]
    assert [row[0] for row in table.rows] == [
        str(n + 1) for n in range(len(table.rows))
    ]
    weights = [row[3] for row in table.rows]
    assert weights[:2] == ["460 g", "230 g"]
    # 60 drops of the dropper that was weighed once, 0.03 g a drop
    assert weights[-2:] == ["40 drops, as written", "1.8 g"]


def test_batch_sheet_has_blanks_to_fill_in():
    blanks = [
        one.name
        for section in make("batch", demo()).sections
        for part in section.parts
        if isinstance(part, Blanks)
        for one in part.items
        if not one.value
    ]
    assert {"Lot of this batch", "Made on", "Hours dried", "Signed"} <= set(blanks)


# -- swallowed, note -----------------------------------------------------------------

DOSES = re.compile(r"mg/kg|µg|\bkg\b|lethal|fatal|toxic|threshold|charcoal|vomit", re.I)


@pytest.mark.parametrize("name", RECIPES)
def test_the_household_sheet_has_names_and_grams_and_no_dose(name):
    kept = demo(name)
    text = said(make("swallowed", kept))
    assert "Call now, do not wait." in text
    assert "Poison line" in text
    assert not DOSES.search(text)
    for node in kept.assessment.totals.leaves:
        assert node.material.name in text
        assert (node.material.cas or "") in text


def test_alcohol_and_bicarbonate_stand_on_the_household_sheet():
    text = said(make("swallowed", demo()))
    assert "144-55-8" in text
    assert "67-63-0" in text
    assert "still damp holds more" in text


def test_the_household_sheet_by_hand():
    """36 g of peppermint oil in 1440 g is 1.5 g in 60 g; 860 g is 35.83 g."""
    rows = {
        row[0]: row
        for section in make("swallowed", demo()).sections
        for part in section.parts
        if isinstance(part, Table)
        for row in part.rows
    }
    assert rows["Peppermint oil (Mentha x piperita)"][2] == "1.5"
    assert rows["Sodium bicarbonate"][2] == "35.8"
    assert rows["l-Menthol"][1] == "2216-51-5"
    assert rows["l-Menthol"][2].startswith("0.6 to ")


def test_the_poison_line_is_printed_where_it_is_entered():
    kept = demo(shop={"poison_line": "555 0100"})
    for kind in ("card", "swallowed"):
        assert "555 0100" in said(make(kind, kept))


def test_the_note_has_what_the_household_sheet_has_not():
    text = said(make("note", demo(estimates=True)))
    assert "30 months" in text
    assert "2 years" in text
    assert DOSES.search(text)
    assert "European Medicines Agency" in text
    assert "thrumsea-peppermint-certificate" in text
    assert "l-Menthol in Peppermint oil, lot PM-2607" in text
    assert "Estimates" in text


def test_every_source_of_the_note_is_cited():
    kept = demo(estimates=True)
    sources = next(
        part
        for section in make("note", kept).sections
        if section.title == "Sources"
        for part in section.parts
    )
    cited = {row[0] for row in sources.rows}
    from blendcheck import reference

    for finding in kept.assessment.findings:
        for one in finding.source.split(", "):
            if one in reference.sources():
                assert one in cited
