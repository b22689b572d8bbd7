"""What is said of alcohol, fizz and the irritant load: every sentence, plainly."""

import re

import pytest

from blendcheck.assess import assess
from blendcheck.checks import fizz, irritants, workroom
from blendcheck.words import codes, render
from tests.checks.cases import ALCOHOL, CITRIC, make_case, oil
from tests.checks.shelves import MENTHOL, paper, row
from tests.test_words import NEVER, reading_ease

BASE = {"id": "bicarbonate", "name": "Bicarbonate", "kind": "solid", "cas": "144-55-8"}
SILENT = {k: v for k, v in ALCOHOL.items() if k != "leaves_on_drying"}
NAMELESS = {k: v for k, v in ALCOHOL.items() if k != "cas"}
WHITE = {"id": "white", "name": "White powder", "kind": "solid"}
POWDER = (BASE, "900 g")
ACID = (CITRIC, "400 g")
ROOM = {"volume": "30 m3", "air_changes": "1 per hour", "drying": "6 h"}


def made(*lines, room=None, temperature="20 °C", **recipe):
    recipe = {"pieces": 24, "product": "shower tablet"} | recipe
    return make_case(
        *lines,
        shelf={"workshop": {"workroom": room or {}}},
        process={"room": temperature},
        **recipe,
    )


def whole(*rows, **fields):
    rows = rows or (row("menthol", MENTHOL, "40 %"),)
    return oil("Mint", composition=[paper(*rows, copied_whole=True,
                                          unidentified="0 %")], **fields)  # fmt: skip


def cases():
    yield made(POWDER, (ALCOHOL, "30 g"))
    yield made(POWDER, (ALCOHOL, "30 g"), room=ROOM)
    yield made(POWDER, (ALCOHOL, "3 kg"), room=ROOM | {"alcohol_kept": "5 L"})
    yield made(POWDER, (ALCOHOL, "3 kg"), room={"volume": "30 m3"})
    yield made(POWDER, (ALCOHOL, "30 g"), room=ROOM, temperature="2 °C")
    yield made(POWDER, (SILENT, "30 g"))
    yield made(POWDER, (NAMELESS, "30 g"))
    yield made((ALCOHOL, "30 g"), (oil(), "2 g"), product="room mist", pieces=None)
    yield made(POWDER, ACID, (WHITE, "50 g"))
    yield made((BASE, "300 g"), ACID)
    yield made((BASE, "84.007 g"), (CITRIC, "64.041 g"), pieces=None)
    yield made((BASE, "10-500 g"), (CITRIC, "200-210 g"))
    yield made(POWDER, ACID, product="bath fizz")
    yield made((BASE, "40 kg"), (CITRIC, "20 kg"), pieces=1)
    sheet = [
        {"name": "x", "cas": "115-95-7", "classes": ["Resp. Sens. 1, H334"]},
        {"name": "y", "cas": "78-70-6", "classes": ["STOT SE 3, H336"]},
        {"classes": ["STOT SE 3, H335"]},
    ]
    named = row("Camphor", None, "5 %")
    mint = whole(row("menthol", MENTHOL, "40 %"), named, row("x", "115-95-7", "9 %"))
    yield made(POWDER, ACID, (mint, "20 g"), pieces_per_use="1/2")
    yield made(POWDER, (whole(hazard=sheet), "20 g"), pieces=None)
    yield made(POWDER, (oil(), "20 g"))
    yield made(POWDER)
    yield made(POWDER, (ALCOHOL, "30 g"), room=ROOM | {"drying": None})
    yield made((WHITE, "50 g"), (oil(), "2 g"))
    yield made(POWDER, ({**WHITE, "cas": "50-81-7"}, "50 g"))
    yield made(POWDER, ({**ALCOHOL, "strength": "70 % v/v"}, "30 g"))
    yield made(POWDER, ({**NAMELESS, "kind": "water", "name": "Witch hazel"}, "9 g"))


def found():
    for case in cases():
        for check in (workroom.check, fizz.check, irritants.check):
            yield from check(case)


def sayings():
    for finding in found():
        yield from (finding.why, *finding.also, *finding.ask)


OURS = ("alcohol", "fizz", "irritants")
NOT_REACHED = {
    "alcohol.average-only",  # an alcohol without an explosive limit in the tables
    "alcohol.no-room-only",
    "fizz.rinse-neither",  # to the last digit
}


def test_every_sentence_is_reached_and_rendered():
    reached = {say.code for say in sayings() if "{" not in render(say)}
    ours = {code for code in codes() if code.startswith(tuple(f"{s}." for s in OURS))}
    assert ours - reached == NOT_REACHED


@pytest.mark.parametrize("section", OURS)
def test_each_section_reads_as_plain_english(section):
    said = {
        render(say): None for say in sayings() if say.code.startswith(f"{section}.")
    }
    text = " ".join(said)
    print(f"\nreading ease of {section}: {reading_ease(text):.0f}")
    assert reading_ease(text) >= 60


def test_no_word_that_promises_too_much():
    for say in sayings():
        words = set(re.findall(r"[a-z]+(?:-[a-z]+)*", render(say).casefold()))
        assert words.isdisjoint(NEVER), say.code


def test_only_facts_and_cautions():
    assert {one.kind for one in found()} == {"fact", "caution"}


def test_estimates_are_asked_for_and_never_move_the_outcome():
    for case in cases():
        plain = assess(case.recipe, case.materials, case.on)
        with_ = assess(case.recipe, case.materials, case.on, estimates=True)
        assert plain.outcome is with_.outcome
        assert not any(f.check in ("alcohol", "fizz") for f in plain.findings)


def test_every_estimate_has_its_lines_and_its_marks():
    for one in (e for finding in found() for e in finding.estimates):
        assert one.lines, one.name
        assert one.marks, one.name
        if one.low is not None and one.high is not None:
            assert one.low <= one.high, one.name


def test_a_cloud_can_be_lit_while_the_room_is_far_below():
    for finding in workroom.check(made(POWDER, (ALCOHOL, "30 g"), room=ROOM)):
        if finding.why.code == "alcohol.cloud":
            assert finding.severity == 1
            return
    pytest.fail("nothing is said of the air above the tray")


def test_what_the_fire_code_allows_is_asked():
    asked = {say.code for say in sayings()}
    assert {"alcohol.ask-code", "alcohol.ask-kept"} <= asked
