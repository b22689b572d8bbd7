"""Words that claim more than a scent, and words that do not.

Claims named by authorities: US Food and Drug Administration, Aromatherapy ("claims
that a product will relieve colic, ease pain, relax muscles, treat depression or
anxiety, or help you sleep are drug claims"); UK Advertising Standards Authority,
Healthcare: medicinal claims ("cure", "restore", "prevent", "avoid", "fight" or
"heal"); Commission Regulation (EU) No 655/2013 (approval by an authority).
"""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from blendcheck import demo, reference
from blendcheck.checks import wording
from blendcheck.checks.spoken import places, words_of
from blendcheck.checks.wording import hits, offer, rules_of, texts_of
from blendcheck.quantity import Mark
from blendcheck.words import render
from tests.checks.cases import BICARBONATE, by_code, make_case, oil


def claims(text):
    return [hit.claim.claim for hit in hits(text)]


# -- what authorities name ----------------------------------------------------


@pytest.mark.published
@pytest.mark.parametrize(
    "text",
    [
        "relieves colic",
        "will ease pain",
        "helps to relax muscles",
        "treats your anxiety",
        "to treat depression",
        "to help you sleep",
        "helps cure a sore throat",
        "heals chapped hands",
        "fights colds",
        "prevents infection",
        "restores balance",
        "approved by the authorities",
        "clinically proven",
        "free from parabens",
        "hypoallergenic",
    ],
)
def test_claims_that_authorities_name_are_found(text):
    assert claims(text), text


@pytest.mark.parametrize(
    ("text", "claim"),
    [
        ("Sinus tablets", "sinus"),
        ("SINUS!", "sinus"),
        ("Headache helper", "headache"),
        ("for migraines", "headache"),
        ("Cold & flu shower", "cold"),
        ("Cold-and-flu shower", "cold"),
        ("when you have a cold", "cold"),
        ("de-congesting? no: decongests", "congestion"),
        ("Sleepy lavender", "sleep"),
        ("sleep better", "sleep"),
        ("Relaxing soak", "relax"),
        ("calming mist", "relax"),
        ("anti-bacterial", "germs"),
        ("ANTIBACTERIAL", "germs"),
        ("all-natural, so safe", "natural"),
        ("all-natural, so safe", "safe"),
        ("Safe for babies", "safe"),
        ("baby\u2011friendly", "for everybody"),
        ("non-toxic", "non-toxic"),
        ("non toxic", "non-toxic"),
        ("chemical\u2010free", "non-toxic"),
        ("hypo\u00adallergenic", "hypoallergenic"),  # with a sign that is not seen
        ("\uff53\uff49\uff4e\uff55\uff53", "sinus"),  # full-width letters
        ("stress\u2011free", "anxiety"),
        ("not only soothing", "relax"),
        ("you will not have headaches", "headache"),
        ("Muscle soak", "pain"),
        ("repels midges", "pests"),
        ("It cures colds", "cold"),
        ("cure-all", "cure"),
        ("immune boosting", "body"),
        ("guaranteed to please", "promise"),
        ("Beat the cold", "cold"),
        ("Cold tablets", "cold"),
        ("Breathe deeper: breathe better", "congestion"),
        ("respiratory support", "congestion"),
        ("stops snoring", "cough"),
        ("for bruises and insect bites", "skin complaint"),
        ("Uplifting mist", "relax"),
        ("muscle recovery", "body"),
        ("a purifying steam", "germs"),
        ("eases morning sickness", "flu, fever and other illness"),
        ("a spa treatment", "treat"),
        ("sin\u200bus", "sinus"),  # signs that are not seen
        ("si\u2060n\u200eu\ufe0fs", "sinus"),
        ("si\u0301nus", "sinus"),  # an accent that stands apart, and one that does not
        ("s\u00ednus", "sinus"),
        ("head\nache? cold\nand\nflu", "cold"),
        ("sleep\u2013well", "sleep"),
        ("100 % effective", "promise"),
    ],
)
def test_a_claim_is_found_in_its_forms(text, claim):
    assert claim in claims(text)


@pytest.mark.parametrize(
    "text",
    [
        # the trade's own words
        "Cold-pressed lemon oil",
        "cold pressed",
        "cold-process soap",
        "Keep it in a cold room",
        "Cold sea, dark pines",
        "the soap cures for six weeks",
        "cure for 4 weeks on a rack",
        "it cures hard",
        "Wrapped with a cold cloth",
        "Safety data sheet of the supplier",
        "Keep it in a safe place",
        "A little treat for the bath",
        "Bath treats",
        "treat yourself",
        "bas-relief mould",
        "organic peroxides",
        "A relaxed fit for the belt",
        "Money for the safe on the wall",
        "Wrapped in pure new wool",
        "stressed timber",
        "the medicine chest by the door",
        "thread tension",
        # names of places and the sea
        "Sleepy Hollow",
        "sleepy harbour",
        "Calm sea",
        "Slack tide, bath",
        "Winter gale",
        # cautions that a card must carry
        "Not for people with asthma, unless their doctor agrees.",
        "Keep it away from babies and children unless a health professional agrees.",
        "May cause headaches. Open the window.",
        "This is not a medicine.",
        "If you take medicine, ask your pharmacist first.",
        "It is not safe for pets.",
        "Not suitable for children.",
        "It isn't safe for cats",
        "not for colds",
        "Never natural, always tested on ourselves",
        "If you have eczema, ask a doctor",
        "Not for people with respiratory disease.",
        "Stop if somebody coughs.",
        "Not for children who had a fit with a fever.",
        # scent, plainly said
        "Cool mint and pine, with a hint of wood",
        "Smells of soft lavender",
        "It fizzes and scents the room",
        "",
        "   \n\t ",
        "12345 %%% ###",
    ],
)
def test_no_false_hits(text):
    assert claims(text) == []


def test_words_are_compared_whole():
    for text in ("scold", "coldness", "unsafely", "flute", "painted", "reliefs"):
        assert claims(text) == [], text


def test_a_denial_does_not_reach_past_a_comma():
    assert claims("not heavy, relaxing") == ["relax"]
    assert claims("not relaxing") == []


def test_where_it_stands_is_where_it_is_written():
    text = "Cool  SINUS\u00a0Relief, twice: sinus relief"
    found = hits(text)
    assert [text[hit.start : hit.end] for hit in found] == [hit.found for hit in found]
    assert [hit.found for hit in found] == ["SINUS", "Relief"]  # each wording once


@given(st.text(max_size=200))
def test_any_text_is_read(text):
    for hit in hits(text):
        assert text[hit.start : hit.end] == hit.found
        assert hit.found


@pytest.mark.parametrize("row", reference.claims(), ids=lambda row: row.claim)
def test_every_form_of_the_table_is_found(row):
    """Alone, in capitals, in a sentence, with other hyphens and spaces."""
    for form in row.each_form:
        words = ["x" if word == "*" else word for word in form if word != "$"]
        text = " ".join(words)
        for joined in ("-", "  ", "\u2011", "\u00a0"):
            assert row.claim in claims(joined.join(words)), form
        for said in (text, text.upper(), f"It smells good: {text}."):
            assert row.claim in claims(said), said


@pytest.mark.parametrize("row", reference.claims(), ids=lambda row: row.claim)
def test_every_exception_of_the_table_spares_its_words(row):
    for phrase in row.each_exception:
        text = " ".join("six" if word == "*" else word for word in phrase)
        assert row.claim not in claims(text), text
        # an exception that no form could meet would say nothing
        assert any(
            next(places(words_of(text), form), None) is not None
            for form in row.each_form
        ), text


def test_phrases_are_found_where_they_stand():
    words = words_of("Keep it, keep it cool")
    assert list(places(words, ("keep", "it"))) == [(0, 2), (2, 4)]
    assert list(places(words, ("keep", "it", "$"))) == [(0, 2)]
    assert list(places(words, ("it", "*"))) == [(1, 3), (3, 5)]
    assert list(places(words, ())) == []


# -- rules and offers ---------------------------------------------------------


@pytest.mark.parametrize("place", ["EU", "Great Britain", "Canada", "United States"])
def test_every_claim_has_a_rule_in_every_place(place):
    for row in reference.claims():
        assert rules_of(row, place), (row.claim, place)
        assert {rule.place for rule in rules_of(row, place)} <= {place, "any"}


def test_a_rule_from_memory_says_what_is_done():
    for row_type in (reference.Duty, reference.AllergenList):
        for row in reference.rows_of(row_type):
            assert row.fallback or row.tag == "seen", row


def test_what_is_offered_claims_nothing_itself():
    for row in reference.claims():
        assert claims(render(offer(row))) == [], row.claim


def test_the_demo_and_the_cautions_claim_nothing():
    """Names of the invented workshop, and every sentence of the cautions on people."""
    names = []
    for text in demo.demo_files().values():
        names += re.findall(r'^name = "(.+)"$', text, flags=re.M)
    assert len(names) > 20
    for name in names:
        assert claims(name) == [], name


# -- on a recipe --------------------------------------------------------------


def said(finding):
    return " ".join(render(say) for say in (finding.why, *finding.also, *finding.ask))


def test_a_name_a_remark_and_the_papers_are_read():
    made = make_case(
        (BICARBONATE, "100 g"),
        (oil("Sinus oil"), "1 g"),
        remark="for colds",
        papers={"title": "Sleep well", "message": "Cured my headache"},
    )
    found = [f for f in wording.check(made) if f.kind == "caution"]
    text = " ".join(said(f) for f in found)
    for where in (
        "In the name of a material stands: Sinus",
        "In the remark of the recipe stands: colds",
        "In the title on the papers stands: Sleep",
        "In the message on the papers stands: headache",
    ):
        assert where in text
    assert all(f.outcome is None for f in found)


def test_each_claim_comes_with_its_rule_and_other_words():
    made = make_case(
        (BICARBONATE, "100 g"),
        (oil("Pine oil"), "1 g"),
        remark="sinus",
        shelf={"workshop": {"place": "United States"}},
    )
    (found,) = by_code(wording.check(made))["wording.illness"]
    text = said(found)
    assert "United States: claims to relieve" in text
    assert "EU" not in text
    assert "cool mint and pine" in text
    assert "fda-claims" in found.source
    made = make_case((BICARBONATE, "100 g"), (oil("Pine oil"), "1 g"), remark="sinus")
    (found,) = by_code(wording.check(made))["wording.illness"]
    assert "EU, from memory and not read" in said(found)
    assert Mark.FROM_MEMORY in found.marks


def test_it_defers():
    made = make_case((BICARBONATE, "100 g"), (oil("Pine oil"), "1 g"))
    found = list(wording.check(made))
    assert [f.why.code for f in found] == ["wording.closing"]
    assert "a word alone decides nothing" in said(found[0])


def test_a_stock_blend_that_is_not_used_is_left_alone():
    unused = {
        "stock": [{"id": "sleep", "line": [{"material": "pine-oil", "amount": "1 g"}]}]
    }
    made = make_case((BICARBONATE, "100 g"), (oil("Pine oil"), "1 g"), shelf=unused)
    assert "sleep" not in {text for _, text in texts_of(made)}


def test_the_table_has_one_row_a_claim_and_no_form_twice():
    seen = {}
    for row in reference.claims():
        for form in row.each_form:
            assert form not in seen, (form, row.claim, seen.get(form))
            seen[form] = row.claim
