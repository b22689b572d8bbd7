"""The Check page: what stops the maker first, every figure openable, nothing hidden."""

import json
from datetime import date
from fractions import Fraction

import pytest

from blendcheck.assess import assess
from blendcheck.demo import MATERIALS, demo_files
from blendcheck.files.reading import materials_from_text, recipe_from_text
from blendcheck.interval import Range
from blendcheck.records.finding import Outcome
from blendcheck.report import report
from blendcheck.ui import chart
from blendcheck.ui.chart import Bar
from tests.ui.pages import choose, open_page, read, run, unfold

OUTCOMES = [
    # the demo says in its own files what each recipe is meant to show
    ("North gale", "Over: at least one limit"),
    ("White squall", "May be over: on the papers"),
    ("Fair wind", "Not enough information: something is missing"),
    ("Driftwood", "Not enough information: something is missing"),
    ("Slack tide", "Within the figures you entered."),
]


def check(name):
    return choose(open_page("check"), "check", name)


@pytest.mark.parametrize(("name", "words"), OUTCOMES)
def test_overall_outcome_stands_first_in_words(name, words):
    lines = [line.strip() for line in read(check(name)).splitlines() if line.strip()]
    assert lines[0].startswith(words)


def heads(at):
    return [one.value for one in at.header]


def test_what_stops_the_maker_comes_before_what_is_within():
    at = check("North gale")
    assert heads(at)[:4] == [
        "What stops you, or is open",
        "What counts, and is within the figures entered",
        "Use against cap",
        "Under other categories",
    ]
    text = read(at)
    assert text.index("Over: Peppermint oil") < text.index("Within (entered figures)")
    assert text.index("Over: Peppermint oil") < text.index("Not enough information:")


def test_nothing_that_stops_is_listed_where_all_is_within():
    assert "What stops you, or is open" not in heads(check("Slack tide"))


def test_arithmetic_can_be_worked_by_hand():
    """36 g of 1440 g: 860 + 430 + 64 + 14 + 36 + 36, the spritz being gone."""
    at = check("North gale")
    keys = [one.proto.id.split("-", 2)[2] for one in at.expander]
    first = next(key for key in keys if key.startswith("check.steps.caps.Peppermint"))
    assert "÷ 1440" not in read(at)
    unfold(at, first)
    text = read(at)
    assert "(100 × 36) ÷ 1440 = 2.5 %" in text
    assert 860 + 430 + 64 + 14 + 36 + 36 == 1440
    assert Fraction(36 * 100, 1440) == Fraction("2.5")
    assert "Figures as written" in text


def test_questions_stand_ready_to_copy_and_are_not_repeated():
    at = check("Driftwood")
    asked = [line for one in at.code for line in one.value.splitlines()]
    stops = asked[: asked.index(asked[-1])]
    assert len(stops) == len(set(stops))
    assert any("certificate" in line for line in asked)


def test_day_is_an_input():
    at = check("North gale")
    at.date_input("check.on").set_value(date(2030, 1, 1))
    run(at)
    assert "Checked for 2030-01-01" in read(at)
    # a certificate of 2026 is then more than 24 months old
    assert "months old: cap certificate, 2026" in read(at)


def test_a_recipe_that_cannot_be_checked_says_so():
    at = check("North gale")
    held = at.session_state["shelf.shelf"]
    held.remove("peppermint")
    run(at)
    assert "No result" in read(at)
    assert "peppermint" in read(at)


def test_grams_stand_beside_every_percent():
    """1.5 g of peppermint oil in a piece of 60 g is 2.5 %."""
    text = read(check("North gale"))
    assert "g in one piece" in text
    assert "% of finished" in text
    assert "% of wet mix" in text
    assert "% of powders" in text
    assert Fraction("1.5") / 60 == Fraction("2.5") / 100


def test_user_text_is_shown_as_text():
    hostile = "<img src=x onerror=alert(1)> ![i](http://a.example/i.png) $x$ :red[y]"
    at = open_page("recipe")
    at.text_input("recipe.name").set_value(hostile)
    run(at)
    assert not [m for m in at.markdown if "<img" in m.value or "![i]" in m.value]
    pages = [one.value for one in at.get("html")]
    assert not [body for body in pages if "<img" in body]


# -- chart --------------------------------------------------------------------------


def bar(low, high, outcome=Outcome.WITHIN):
    span = Range(
        None if low is None else Fraction(low), None if high is None else Fraction(high)
    )
    return Bar("menthol", "within", span, "1 to 2 %", outcome)


CASES = [
    (("0.2", "0.5"), (0.2, 0.5)),
    (("0.5", "0.5"), (0.5, 0.5)),  # an exact figure is still a stroke
    (("1", "1"), (1.0, 1.0)),  # at the cap is within: nothing of it lies beyond
    (("1.001", "1.001"), (1.001, 1.001)),  # over: nothing of it lies below
    (("0", "0"), (0.0, 0.0)),
    (("0", "9"), (0.0, 3.0)),  # cut where the axis ends
    ((None, None), (0.0, 3.0)),  # nothing bounds it
    (("8", "9"), (3.0, 3.0)),
]


@pytest.mark.parametrize(("ends", "drawn"), CASES)
def test_bars_lie_where_the_figures_are(ends, drawn):
    row = chart.picture([bar(*ends)])["data"]["values"][0]
    assert (row["low"], row["high"]) == pytest.approx(drawn, abs=0.021)
    assert row["high"] > row["low"]
    high = None if ends[1] is None else Fraction(ends[1])
    assert ("beyond the picture" in row["label"]) is (high is not None and high > 3)
    if high is not None and ends[0] == ends[1]:
        assert (row["high"] > 1) is (high > 1)
        assert (row["low"] < 1) is (high <= 1)


def demo_result(name):
    files = demo_files()
    return assess(
        recipe_from_text(files[name]),
        materials_from_text(files[MATERIALS]),
        date.today(),  # noqa: DTZ011  # the day that the page takes
    )


def test_chart_and_sentences_say_the_same():
    """Peppermint oil: 2.5 % in use, a cap of 2.00 %: 5/4 of the cap."""
    found = chart.bars(demo_result("north-gale.toml"))
    rows = chart.picture(found)["data"]["values"]
    first = found[0]
    assert first.span == Range.at(Fraction("2.5") / 2)
    assert rows[0]["low"] == pytest.approx(1.25, abs=0.021)
    text = read(check("North gale"))
    for one, row in zip(found, rows, strict=True):
        assert chart.sentence_of(one) in text
        assert one.words in row["label"]


# -- file -----------------------------------------------------------------------------


def test_download_is_built_from_the_result_that_is_shown():
    at = check("Slack tide")
    found = demo_result("slack-tide.toml")
    assert found.hash in read(at)
    assert json.loads(json.dumps(report(found)))["hash"] == found.hash
