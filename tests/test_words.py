"""The table of sentences: complete, used, plain and within our words.

Reading ease is Flesch's: R. Flesch, A new readability yardstick, Journal of Applied
Psychology 32 (1948) 221-233: 206.835 - 1.015 × words in a sentence - 84.6 ×
syllables in a word; 60 to 70 is plain English. Syllables are counted by groups of
vowels, which for the words used here agrees with a dictionary (checked below).
"""

import ast
import re
import tomllib
from pathlib import Path

import pytest

from blendcheck import words
from blendcheck.checks import documents, fire, packing, people
from blendcheck.errors import DomainError
from blendcheck.records.finding import Outcome, Say
from blendcheck.words import codes, render, values_of
from tests.checks.cases import ALCOHOL, BICARBONATE, make_case, oil

PACKAGE = Path(words.__file__).parents[1]
OURS = ("fire", "packing", "people", "papers")
"""Sections whose every sentence the cases below must reach."""


# -- the table ---------------------------------------------------------------


def test_outcomes_have_their_labels():
    labels = {code for code in codes() if code.startswith("outcome.")}
    assert labels - {"outcome.none"} == {f"outcome.{outcome}" for outcome in Outcome}
    assert render(Say("outcome.straddles")) == "may be over"


def test_the_sections_read_one_by_one_are_the_whole_table():
    text = Path(words.__file__).with_name("en.toml").read_text(encoding="utf-8")
    whole = {
        f"{section}.{name}": sentence
        for section, sentences in tomllib.loads(text).items()
        for name, sentence in sentences.items()
    }
    assert codes() == whole.keys()
    for code, sentence in whole.items():
        values = {name: f"{{{name}}}" for name in values_of(code)}
        assert render(Say(code, values)) == sentence


def test_a_code_that_is_not_there_is_refused():
    with pytest.raises(DomainError, match=r"code = fire\.moonlight must be a sent"):
        render(Say("fire.moonlight"))


def test_a_value_that_is_not_given_is_named():
    with pytest.raises(
        DomainError, match=r"sentence papers.old .* given with date, mo"
    ):
        render(Say("papers.old", {"subject": "Oil", "paper": "sheet"}))


@pytest.mark.parametrize("text", ["{stage}", "{0}", "{", "}", "%s", "<b>", "ß €"])
def test_a_value_is_put_in_as_it_is(text):
    said = render(Say("fire.also-missing", {"materials": text}))
    assert said == f"No flash point is entered for: {text}."


def test_values_are_plain_names():
    for code in codes():
        assert all(re.fullmatch(r"[a-z_]+", name) for name in values_of(code)), code


# -- the code and the table --------------------------------------------------


def _said_in(path):
    """Codes written in a module, and the beginnings of those that are put together."""
    sections = {code.partition(".")[0] for code in codes()}
    shaped = re.compile(rf"(?:{'|'.join(sorted(sections))})\.[a-z0-9-]*")
    whole, begun = set(), set()
    tree = ast.parse(path.read_text(encoding="utf-8"))
    inside = {
        id(v) for n in ast.walk(tree) if isinstance(n, ast.JoinedStr) for v in n.values
    }
    for node in ast.walk(tree):
        if not isinstance(node, ast.Constant) or not isinstance(node.value, str):
            continue
        if shaped.fullmatch(node.value):
            (begun if id(node) in inside else whole).add(node.value)
    return whole, begun


def _said(*, faces):
    whole, begun = set(), set()
    for path in sorted(PACKAGE.rglob("*.py")):
        if not faces and "ui" in path.parts:
            continue  # the page has names of its own that are shaped like codes
        more = _said_in(path)
        whole |= more[0]
        begun |= more[1]
    # a section alone, as in removeprefix("people."), is no code
    return {code for code in whole if not code.endswith(".")}, begun


def test_every_code_in_the_package_is_in_the_table():
    whole, begun = _said(faces=False)
    assert len(whole) > 80  # they were found
    assert whole - codes() == set()
    for start in begun:
        assert any(code.startswith(start) for code in codes()), start


def test_every_sentence_is_said_somewhere():
    whole, begun = _said(faces=True)
    unsaid = {
        code
        for code in codes() - whole
        if not code.startswith("outcome.") and not code.startswith(tuple(begun))
    }
    assert unsaid == set()


# -- every sentence is reached and rendered ----------------------------------

CHECKS = (fire.check, packing.check, documents.check, people.check)
HOB = {"room": "20 °C", "ignition": ["hob"]}
GUESSED = {k: v for k, v in ALCOHOL.items() if k != "leaves_on_drying"}
MAY_STAY = ALCOHOL | {"leaves_on_drying": "0-100 %"}
WATER = {"id": "water", "name": "Water", "kind": "water", "leaves_on_drying": "95 %"}
POWDER = (BICARBONATE, "100 g")


def _fire_cases():
    def at(flash, process=HOB, **recipe):
        fields = {} if flash is None else {"flash_point": flash}
        return make_case(POWDER, (oil(**fields), "2 g"), process=process, **recipe)

    warm = {"temperature": {"wrapping": "30 °C", "posting": "50 °C"}}
    for flash in ("12 °C", "18-25 °C", "60 °C", "30 °C", "90 °C open cup", ">15 °C"):
        yield at(flash)
    yield at(None)
    yield at("12 °C", {"room": "20 °C"})
    yield at("12 °C", {"room": "20 °C", "ignition": []})
    yield at(">93 °C", {"ignition": ["hob"]})
    yield at(">93 °C", HOB | {"heat_gun": True})
    yield at(">93 °C", HOB | warm)
    for alcohol in (ALCOHOL, GUESSED, MAY_STAY):
        yield make_case(
            POWDER,
            (alcohol, "5 g"),
            (oil(flash_point="60 °C"), "2 g"),
            process=HOB | warm,
        )


def _packing_cases():
    for dry in ("102 g", "103 g", "101 g"):
        yield make_case(POWDER, (ALCOHOL, "5 g"), (oil(), "2 g"), dry_mass=dry)
    yield make_case(POWDER, (ALCOHOL, "5 g"), dry_mass="99 g", allowance_for_loss="3 %")
    yield make_case(POWDER, (GUESSED, "5 g"), dry_mass="102 g")
    yield make_case(POWDER, (WATER, "9 g"), product="soap")
    yield make_case(POWDER, (WATER, "9 g"), product="soap", dry_mass="105 g")


def _people_cases():
    yield make_case(
        POWDER,
        (oil("Peppermint oil"), "2 g"),
        (oil("Bergamot oil"), "1 g"),
        piece_mass="60 g",
        pieces_per_use="1/2",
        pieces_given=6,
        remark="like a cupcake",
    )
    yield make_case(POWDER, (oil("Sea fog", phototoxic="not known"), "2 g"))
    yield make_case((WATER, "90 g"), (ALCOHOL, "9 g"), product="room mist")


def _paper_cases():
    def cap(edition, **fields):
        return {
            "scheme": "fragrance standard",
            "edition": edition,
            "category": "9",
            "printed": "5 %",
            **fields,
        }

    shelf = {
        "workshop": {
            "review_after_months": 12,
            "current": {"fragrance standard": "2nd"},
        },
        "material": [oil(id="twin", supplier="Second")],
    }
    papers = [
        {"id": "a", "kind": "safety data sheet"},
        {"id": "b", "kind": "certificate", "date": "2020-01-01", "edition": "2nd"},
        {"id": "c", "kind": "GC-MS report", "date": "2030-01-01", "lot": "40"},
    ]
    full = oil(
        document=papers,
        cap=[cap("1st", document="b"), cap("")],
        composition=[{"kind": "full GC-MS", "document": "c", "row": []}],
        lot=[{"lot": "41"}],
    )
    yield make_case(POWDER, (full, "2 g"), shelf=shelf)
    yield make_case(POWDER, (full, "2 g"))
    lots = [
        {"lot": "1", "composition": [{"kind": "full GC-MS", "row": []}]},
        {"lot": "2"},
    ]
    yield make_case(POWDER, (oil(lot=lots), "2 g", "2"))


def _findings():
    for make in (_fire_cases, _packing_cases, _people_cases, _paper_cases):
        for case in make():
            for check in CHECKS:
                yield from check(case)


def _sayings():
    for finding in _findings():
        yield from (finding.why, *finding.also, *finding.ask)
        if finding.turns_at is not None:
            yield finding.turns_at


def test_every_sentence_is_reached_and_rendered():
    reached = set()
    for say in _sayings():
        assert "{" not in render(say)
        reached.add(say.code)
    ours = {code for code in codes() if code.startswith(tuple(f"{s}." for s in OURS))}
    assert ours - reached == set()


# -- words -------------------------------------------------------------------

NEVER = (
    "safe",
    "safely",
    "approved",
    "compliant",
    "compliance",
    "pass",
    "passes",
    "passed",
    "natural",
    "pure",
    "score",
    "grade",
    "badge",
    "rating",
    "headroom",
    "notes",
    "harmless",
    "guarantee",
    "guaranteed",
    "toxin-free",
    "pet-safe",
)
"""Words of sales talk and of false comfort."""


def _table():
    """Every sentence as it stands in the table."""
    return {code: words._sentence(code) for code in sorted(codes())}


def test_no_word_that_promises_too_much():
    for code, sentence in _table().items():
        found = set(re.findall(r"[a-z]+(?:-[a-z]+)*", sentence.casefold()))
        assert found.isdisjoint(NEVER), code


def test_no_finding_calls_anything_fine_for_somebody():
    promise = re.compile(r"\b(fine|suitable|ok|okay|good|no risk|no danger)\b", re.I)
    for code, sentence in _table().items():
        assert not promise.search(sentence), code


def test_sentences_are_sentences():
    for code, sentence in _table().items():
        if not code.startswith(("outcome.", "heads.")):  # titles are no sentences
            assert sentence[-1] in ".?", code
            assert "!" not in sentence, code
            assert sentence == " ".join(sentence.split()), code


# -- reading ease ------------------------------------------------------------


def syllables(word):
    """Count the syllables of an English word by its groups of vowels."""
    plain = re.sub(r"[^a-z]", "", word.casefold())
    if not plain:
        return 1  # a number, a sign
    plain = re.sub(r"(?:es|ed)$", lambda m: _ending(plain, m[0]), plain)
    count = len(re.findall(r"[aeiouy]+", plain))
    count += len(re.findall(r"(?<![tsc])i[aou]|ier$", plain))  # two vowels, both heard
    if re.search(r"[^aeiouy]e$", plain) and not re.search(r"[^aeiou]le$", plain):
        count -= 1
    return max(count, 1)


def _ending(word, ending):
    """Keep -es and -ed only where they are heard."""
    stem = word[: -len(ending)]
    if ending == "es" and re.search(r"(?:s|x|z|ch|sh|g|c)$", stem):
        return "es"
    if ending == "ed" and re.search(r"[td]$", stem):
        return "ed"
    return "" if ending == "ed" else "e"


def reading_ease(text):
    """Flesch's reading ease; stricter than his, a colon does not end a sentence."""
    sentences = [s for s in re.split(r"[.?]+(?:\s|$)", text) if s.strip()]
    spoken = re.findall(r"[^\s]*[A-Za-z0-9][^\s]*", text)
    total = sum(syllables(word) for word in spoken)
    return 206.835 - 1.015 * len(spoken) / len(sentences) - 84.6 * total / len(spoken)


DICTIONARY = {  # syllables as dictionaries divide these words
    "vapour": 2,
    "alcohol": 3,
    "supplier": 3,
    "temperature": 4,
    "babies": 2,
    "children": 2,
    "asthma": 2,
    "window": 2,
    "slippery": 3,
    "emulsifier": 5,
    "weighs": 1,
    "entered": 2,
    "needed": 2,
    "lights": 1,
    "pieces": 2,
    "bottle": 2,
    "pregnant": 2,
    "midwife": 2,
    "doctor": 2,
    "poison": 2,
    "edition": 3,
    "certificate": 4,
    "material": 4,
    "oily": 2,
    "powder": 2,
    "batch": 1,
    "recipe": 3,
    "closed": 1,
    "citric": 2,
    "acid": 2,
    "goggles": 2,
    "margin": 2,
}


def test_syllables_agree_with_a_dictionary():
    wrong = {
        w: syllables(w) for w, n in DICTIONARY.items() if abs(syllables(w) - n) > 1
    }
    assert wrong == {}
    exact = sum(syllables(word) == n for word, n in DICTIONARY.items())
    assert exact >= 0.9 * len(DICTIONARY)
    counted = sum(syllables(word) for word in DICTIONARY)
    assert abs(counted - sum(DICTIONARY.values())) <= 0.05 * counted


@pytest.mark.published
def test_reading_ease_of_a_text_with_a_known_count():
    """By hand: 10 words, 2 sentences, 11 syllables (poi-son)."""
    text = "Keep it out of reach. Call the poison line now."
    by_hand = 206.835 - 1.015 * 10 / 2 - 84.6 * 11 / 10
    assert reading_ease(text) == pytest.approx(by_hand)


def test_cautions_read_as_plain_english():
    cautions = {
        render(say): None
        for finding in _findings()
        if finding.kind == "caution"
        for say in (finding.why, *finding.also)
    }
    text = " ".join(cautions)
    print(f"\nreading ease of the cautions: {reading_ease(text):.0f}")
    assert reading_ease(text) >= 60


@pytest.mark.parametrize("section", OURS)
def test_each_section_reads_as_plain_english(section):
    said = {
        render(say): None for say in _sayings() if say.code.startswith(f"{section}.")
    }
    text = " ".join(said)
    print(f"\nreading ease of {section}: {reading_ease(text):.0f}")
    assert reading_ease(text) >= 60
