"""The Papers page: three actions to a card, the maker's words, the cautions fixed."""

import base64
import re
import tomllib
from xml.etree import ElementTree

import pytest

from blendcheck.papers import KINDS
from blendcheck.ui import filing
from tests.ui.pages import choose, good, messages, open_page, read, run, unfold


@pytest.fixture
def page():
    return open_page("papers")


def pictures(at):
    """The pictures on the page: what they are said to show, and their bytes."""
    found = []
    for one in at.get("html"):
        kind = re.escape("data:image/svg+xml;base64,")
        pattern = rf'<img class="bc-picture" alt="([^"]*)" [^>]*src="{kind}([^"]*)'
        for alt, data in re.findall(pattern, str(one.value)):
            found.append((alt, base64.b64decode(data)))
    return found


def size(data):
    """Return the width and height of a drawing. [pt]"""
    box = ElementTree.fromstring(data).get("viewBox")  # noqa: S314  # our own
    return tuple(map(float, box.split()[2:]))


def kind(at, name):
    at.selectbox("papers.kind").set_value(name)
    return run(at)


def words(at):
    """The paper in words, as the page shows it."""
    at = unfold(at, "papers.words")
    return read(at)


def type_in(at, field, text):
    at.text_input(f"paper-words.papers.{field}").set_value(text)
    return run(at)


def downloads(at):
    return {one.proto.id.split("-")[-1]: one for one in at.get("download_button")}


def test_three_actions_to_a_printed_card(page):
    """Open the page, choose the recipe, press the button."""
    at = choose(page, "papers", "North gale")
    buttons = [one.proto.label for one in at.get("download_button")]
    assert buttons[0] == "Download to print (PDF)"
    assert len(buttons) == 4
    shown = pictures(at)
    assert len(shown) == 2
    assert "Gift card, page 1 of 2" in shown[0][0]
    width, height = size(shown[1][1])
    assert width < height
    assert "call the poison line now" in words(at)


@pytest.mark.parametrize("name", KINDS)
def test_every_paper_is_shown_or_said_why_not(page, name):
    at = kind(choose(page, "papers", "North gale"), name)
    if name == "label":
        assert any("the label is not made" in one for one in messages(at))
        assert pictures(at) == []
        return
    assert messages(at) == []
    assert pictures(at)
    for form in ("pdf", "html", "md", "txt"):
        assert any(form in key for key in downloads(at))


def test_letter_and_folded(page):
    at = choose(page, "papers", "North gale")
    at.selectbox("papers.sheet").set_value("letter")
    at.selectbox("papers.cards").set_value("folded")
    at = run(at)
    ((_, data),) = pictures(at)
    width, height = size(data)
    assert height / width == pytest.approx(11 / 8.5, abs=0.01)


def test_words_are_taken_over_and_kept_with_the_recipe(page):
    at = choose(page, "papers", "Slack tide")
    at = type_in(at, "title", "Low water")
    at = type_in(at, "best_before", "2027-05-25")
    assert "Low water" in words(at)
    recipe = good(at)
    assert recipe.papers.title == "Low water"
    kept = at.session_state["shelf.recipes"][at.session_state["shelf.current"]]
    written = tomllib.loads(filing.recipe_file(recipe, kept.draft.text))
    assert written["papers"] == {"title": "Low water", "best_before": "2027-05-25"}


def test_a_date_that_is_none_is_said_at_its_field(page):
    at = choose(page, "papers", "Slack tide")
    at = type_in(at, "made_on", "03/04/25")
    assert any("Made on" in one for one in messages(at))
    assert pictures(at)  # of the last recipe that could be read


def test_what_cannot_be_used_does_not_print_the_last_paper_as_if_new(page):
    """Hash and moment stay those of the recipe that could be checked."""
    at = choose(page, "papers", "Slack tide")
    at = type_in(at, "title", "Low water")
    trace = re.search(r"Record [0-9a-f]{12}, [-0-9]+ [0-9:]+", words(at))[0]
    at = type_in(at, "made_on", "03/04/25")
    assert any("Not taken over" in one for one in messages(at))
    assert any(
        "of the last recipe that could be checked" in one for one in messages(at)
    )
    assert trace in read(at)
    at = type_in(at, "made_on", "2026-11-25")
    assert messages(at) == []
    assert trace.split(",")[0] not in read(at)


def test_another_recipe_does_not_inherit_the_words(page):
    at = choose(page, "papers", "Slack tide")
    at = type_in(at, "title", "Low water")
    at = choose(at, "papers", "North gale")
    assert at.text_input("paper-words.papers.title").value == ""
    assert good(at).papers.title == ""
    at = choose(at, "papers", "Slack tide")
    assert at.text_input("paper-words.papers.title").value == "Low water"


def test_text_is_shown_as_text(page):
    title = "<b>#panic(1)</b> $x$ [a](https://a.b)"
    at = choose(page, "papers", "Slack tide")
    at = type_in(at, "title", title)
    assert title in words(at)
    assert not any("<b>#panic" in str(one.value) for one in at.get("html"))


def test_a_sign_without_a_glyph_is_said_and_text_can_be_had(page):
    at = choose(page, "papers", "Slack tide")
    at = type_in(at, "title", "Tide 日")
    assert any("no sign for 日" in one for one in messages(at))
    assert pictures(at) == []
    assert len(at.get("download_button")) == 3


def test_the_message_goes_when_a_limit_is_open(page):
    at = choose(page, "papers", "North gale")
    at.text_area("paper-words.papers.message").set_value("Merry winter")
    at = run(at)
    assert "Your message is not on the card" in read(at)
    assert "Merry winter" not in words(at).split("The same in words")[-1]


def test_reasons_make_the_label(page):
    at = kind(choose(page, "papers", "White squall"), "label")
    fields = [
        one.key
        for one in at.text_input
        if str(one.key).startswith("paper-words.reason.")
    ]
    assert fields
    for number, key in enumerate(fields):
        at.text_input(key).set_value(f"reason {number}")
    at = run(at)
    assert messages(at) == []
    assert pictures(at)
    assert len(good(at).papers.reason) == len(fields)
    at = kind(at, "note")
    assert "reason 0" in words(at)


def test_a_gift_needs_no_reason(page):
    at = kind(choose(page, "papers", "North gale"), "label")
    at.selectbox("paper-words.channel").set_value("gift")
    at = run(at)
    assert messages(at) == []
    assert "Not fully checked" in words(at)


def test_the_moment_is_that_of_the_snapshot(page):
    at = choose(page, "papers", "North gale")
    first = at.session_state["shelf.moments"]
    stamp = dict(first)
    at = run(run(at))
    assert dict(at.session_state["shelf.moments"]) == stamp
    assert pictures(at) == pictures(run(at))
