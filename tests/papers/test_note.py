"""The safety note: what decides comes first, and it stays short enough to be read."""

from dataclasses import replace

import pytest

from blendcheck.papers import make
from blendcheck.papers.content import Lines, Table
from blendcheck.papers.layout import Layout
from blendcheck.papers.note_estimates import estimates_said, estimates_table
from blendcheck.papers.plain_text import plain
from blendcheck.papers.typeset import pdf
from blendcheck.records.estimate import Estimate
from tests.papers.makers import RECIPES, case_of, demo, pages, said

MOST_PAGES = 15


def one(says, central, low, high, unit="mg/m³"):
    return Estimate(says, says, unit, central, low, high)


def test_what_decides_comes_before_what_it_rests_on():
    kept = demo(estimates=True, channel="gift")
    titles = [s.title for s in make("note", kept).sections]
    first = ["What stops it", "What is open", "What to ask, and whom", "Cautions"]
    assert titles[1:5] == first
    assert titles[-1] == "Sources"


@pytest.mark.parametrize("name", RECIPES)
def test_it_has_few_pages(name):
    data = pdf(make("note", demo(name, estimates=True)), Layout("letter"))
    assert len(pages(data)) <= MOST_PAGES


@pytest.mark.parametrize("name", RECIPES)
def test_every_estimate_stands_on_it(name):
    """Side by side or in a sentence, none of them is lost."""
    kept = demo(name, estimates=True)
    text = said(make("note", kept))
    for finding in (*kept.assessment.estimates, *kept.assessment.label):
        for estimate in finding.estimates:
            thing, _, what = estimate.says.partition(", ")
            assert estimate.says in text or (thing in text and what in text)


def test_many_of_the_same_stand_side_by_side():
    found = [
        one(f"{thing}, {place}", n + 1.0, 0.01, 200.0)
        for thing in ("camphor", "1,8-cineole")
        for n, place in enumerate(("stall", "bathroom"))
    ]
    (table,) = estimates_table(found)
    assert table.heads[1:] == ("stall", "bathroom")
    assert table.rows == (
        ("camphor", "1 (0.01 to 200)", "2 (0.01 to 200)"),
        ("1,8-cineole", "1 (0.01 to 200)", "2 (0.01 to 200)"),
    )
    assert "mg/m³" in table.caption


def test_estimates_that_differ_in_kind_stay_below_each_other():
    found = [one(f"a, {n}", 1.0, 0.5, 2.0) for n in range(3)]
    other = [*found, one("b, 7", 1.0, None, 2.0, "g")]
    (table,) = estimates_table(other)
    assert len(table.rows) == 4
    assert table.rows[3] == ("b, 7", "1 g", "no bound", "2 g")


def test_few_estimates_are_a_sentence():
    said = estimates_said([one("flash point", None, None, None, "°C")])
    assert said == "Estimated: flash point: no bound."
    said = estimates_said(
        [one("load", 5.0, 5.0, 5.0, "g"), one("b", 3.0, 1.0, 9.0, "g")]
    )
    assert said == "Estimated: load: about 5 g; b: about 3 (1 to 9) g."
    assert estimates_said([]) == ""
    assert estimates_table([one("load", 5.0, 5.0, 5.0)]) == ()


def test_a_caption_does_not_repeat_its_title():
    for kind in ("note", "batch", "swallowed"):
        for section in make(kind, demo()).sections:
            for part in section.parts:
                if isinstance(part, Table):
                    assert part.caption != section.title or not section.title
    assert "Masses\n------\nMasses" not in plain(make("note", demo()))


def test_columns_in_which_nothing_stands_are_left_out():
    table = next(
        part
        for section in make("note", demo("slack-tide.toml")).sections
        if section.title == "Papers held"
        for part in section.parts
        if isinstance(part, Table)
    )
    for column in zip(*table.rows, strict=True):
        assert any(column)


def test_signs_and_units_of_thresholds_are_printed_as_people_write_them():
    section = next(
        s
        for s in make("note", demo()).sections
        if s.title == "What is published on swallowing"
    )
    text = said(replace(make("note", demo()), sections=(section,)))
    assert "≤ 3 mL" in text
    for raw in ("<=", ">=", "~", " ug/", "= "):
        assert raw not in text


def test_names_with_a_comma_are_kept_apart():
    text = said(make("note", demo()))
    assert (
        "No paper is held for: Sodium bicarbonate; Citric acid, anhydrous; Kaolin."
        in text
    )


# -- that no limit counts is a cause too --------------------------------------------


def bare(**recipe):
    return case_of([], [{"material": "base", "amount": "98 g"}], **recipe)


def test_a_label_where_no_limit_counts_needs_a_reason_and_takes_one():
    from blendcheck.errors import InputError

    kept = bare(channel="sale")
    assert kept.counting == ()
    with pytest.raises(InputError, match="for: no limit that counts"):
        make("label", kept)
    reason = [{"about": "no limit that counts", "says": "unscented base"}]
    given = bare(channel="sale", papers={"reason": reason})
    assert make("label", given).kind == "label"
    note = make("note", given)
    assert "no limit that counts: unscented base" in said(note)
    reasons = next(s for s in note.sections if s.title == "Reasons of the maker")
    assert all(isinstance(part, Lines) for part in reasons.parts)
