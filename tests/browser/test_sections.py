"""Sections that are opened on demand, in a browser: pictures, papers, tables."""

import pytest
from playwright.sync_api import expect

from tests.browser.eyes import PHONE, serious, too_wide
from tests.browser.grid import wait_app, wait_idle

GALE = "North gale, strong peppermint and eucalyptus tablets"
LEE = "Lee shore, peppermint and lavender tablets"
ESTIMATES = "Fire and air, estimated"
LABEL = "For the label: allergens, hazard classes, words"
WORDS = "The same in words"

expect.set_options(timeout=20_000)


def go(page, app_url, name):
    page.goto(f"{app_url}/{name.lower()}")
    wait_app(page, name)


def choose(page, label, option):
    """Choose in a field, and wait until the field shows it.

    A long list holds only what is near what is typed.
    """
    field = page.get_by_label(label, exact=True)
    field.click()
    field.fill(option)
    page.get_by_role("option", name=option, exact=True).click()
    expect(field).to_have_value(option)
    wait_idle(page)


def unfold(page, title, shows):
    """Open a section, and wait for something that only stands in it."""
    page.get_by_text(title, exact=True).click()
    expect(page.get_by_text(shows).first).to_be_visible()
    wait_idle(page)


def open_both(page):
    """Open both sections of the Check page beyond the limits."""
    unfold(page, ESTIMATES, "How these were worked out")
    page.get_by_text(LABEL, exact=True).click()
    expect(page.get_by_text("How these were worked out")).to_have_count(2)
    wait_idle(page)


def drawn(page):
    """Return the pictures of the page that have ink on them, by their words.

    A canvas counts if two of its points differ, so an empty one does not.
    """
    return page.evaluate(
        """() => [...document.querySelectorAll('[data-testid="stVegaLiteChart"]')]
          .filter(box => {
            const one = box.querySelector('canvas');
            if (!one) return box.querySelectorAll('svg path').length > 1;
            const ink = one.getContext('2d')
              .getImageData(0, 0, one.width, one.height).data;
            const seen = new Set(new Uint32Array(ink.buffer));
            return seen.size > 2;
          })
          .map(box => (box.querySelector('[aria-label]') || box)
            .getAttribute('aria-label') || '')"""
    )


def wait_drawn(page, count):
    charts = page.get_by_test_id("stVegaLiteChart")
    expect(charts).to_have_count(count)
    for number in range(count):
        charts.nth(number).scroll_into_view_if_needed()
        expect(charts.nth(number).locator("canvas, svg").first).to_be_visible()
    page.wait_for_function(
        """count => [...document.querySelectorAll(
          '[data-testid="stVegaLiteChart"] canvas,' +
          '[data-testid="stVegaLiteChart"] svg')]
          .filter(one => one.getBoundingClientRect().width > 100).length >= count""",
        arg=count,
    )
    return drawn(page)


def test_estimates_open_with_their_pictures(page, app_url):
    go(page, app_url, "Check")
    choose(page, "Recipe", LEE)
    expect(page.get_by_test_id("stVegaLiteChart")).to_have_count(1)
    unfold(page, ESTIMATES, "How these were worked out")
    box = page.get_by_test_id("stExpander").filter(has_text=ESTIMATES)
    inside = box.first.get_by_test_id("stVegaLiteChart")
    expect(inside.first).to_be_visible()
    count = 1 + inside.count()
    assert count >= 3
    assert len(wait_drawn(page, count)) == count
    # the numbers open to their lines and to where the figures come from
    page.get_by_text("How these were worked out").first.click()
    expect(page.get_by_text("Where the figures come from:").first).to_be_visible()


def test_a_label_for_sale_asks_for_reasons_and_then_can_be_downloaded(page, app_url):
    go(page, app_url, "Papers")
    choose(page, "Recipe", GALE)
    choose(page, "Paper", "Label")
    # this one is for sale
    expect(page.get_by_label("How it leaves the house")).to_have_value("sale")
    expect(page.get_by_text("Not made:").first).to_be_visible()
    reasons = page.get_by_label("Your reason:")
    expect(reasons.first).to_be_visible()
    for number in range(reasons.count()):
        reasons.nth(number).fill(f"reason {number}")
        reasons.nth(number).press("Enter")
        wait_idle(page)
    expect(page.get_by_text("Not made:")).to_have_count(0)
    picture = page.get_by_role("img", name="Label, page 1")
    expect(picture.first).to_be_visible()
    with page.expect_download() as waiting:
        page.get_by_role("button", name="Download to print (PDF)").click()
    assert waiting.value.path().read_bytes().startswith(b"%PDF-")
    assert waiting.value.suggested_filename.endswith("-label.pdf")


def test_reference_goes_from_an_oil_to_a_component(page, app_url):
    go(page, app_url, "Reference")
    field = page.get_by_label("Name, synonym, CAS number or oil")
    field.fill("eucalyptol")
    field.press("Enter")
    expect(page.get_by_text("470-82-6").first).to_be_visible()
    # two hydrogens short of twenty: C10H18O
    expect(page.get_by_text("C10H18O").first).to_be_visible()
    wait_idle(page)
    assert serious(page) == []
    page.get_by_label("Go on to an oil that contains it").click()
    page.get_by_role("option").first.click()
    expect(page.get_by_label("Go on to a component")).to_be_visible()
    wait_idle(page)
    field.fill("no such thing at all")
    field.press("Enter")
    expect(page.get_by_text("Not found:").first).to_be_visible()


def test_a_sheet_is_typed_and_shown_as_understood(page, app_url):
    go(page, app_url, "Materials")
    choose(page, "Open one material", "Eucalyptus oil")
    title = "From the data sheet: hazard classes"
    unfold(page, title, "Section 2, as understood")
    section = page.get_by_test_id("stExpander").filter(has_text=title)
    classes = section.get_by_role("textbox", name="Hazard classes, one a line")
    classes.fill("Flam. Liq. 3; H226; Eye Dam. 1; H318")
    classes.press("Control+Enter")
    expect(section.get_by_text("Causes serious eye damage.")).to_be_visible()
    classes.fill("Flam. Liq. 3; H318")
    classes.press("Control+Enter")
    expect(page.get_by_text("do not fit each other")).to_be_visible()
    expect(page.get_by_text("Not taken over:")).to_be_visible()
    classes.fill("Flam. Liq. 3; H226")
    classes.press("Control+Enter")
    expect(page.get_by_text("Not taken over:")).to_have_count(0)
    wait_idle(page)
    assert serious(page) == []


@pytest.mark.parametrize("name", [GALE, LEE])
def test_other_eyes_find_nothing_serious_on_check(page, app_url, name):
    go(page, app_url, "Check")
    choose(page, "Recipe", name)
    open_both(page)
    assert serious(page) == []


@pytest.mark.parametrize(
    "kind", ["Gift card", "Label", "Batch sheet", "Safety note for your file"]
)
def test_other_eyes_find_nothing_serious_on_papers(page, app_url, kind):
    go(page, app_url, "Papers")
    # a label of what is for sale needs reasons first; this one is a gift
    choose(page, "Recipe", LEE)
    if kind != "Gift card":
        choose(page, "Paper", kind)
    page.get_by_text(WORDS, exact=True).click()
    expect(page.locator(".bc pre").first).to_be_visible()
    wait_idle(page)
    assert serious(page) == []


class TestPhone:
    @pytest.fixture
    def context_options(self):
        return PHONE

    def test_check_with_both_sections_open(self, page, app_url):
        go(page, app_url, "Check")
        choose(page, "Recipe", LEE)
        open_both(page)
        count = page.get_by_test_id("stVegaLiteChart").count()
        wait_drawn(page, count)
        assert too_wide(page) == []

    @pytest.mark.parametrize("kind", ["Label", "Safety note for your file"])
    def test_papers_with_their_words_open(self, page, app_url, kind):
        go(page, app_url, "Papers")
        choose(page, "Recipe", LEE)
        choose(page, "Paper", kind)
        page.get_by_text(WORDS, exact=True).click()
        expect(page.locator(".bc pre").first).to_be_visible()
        wait_idle(page)
        assert too_wide(page) == []

    def test_reference(self, page, app_url):
        go(page, app_url, "Reference")
        field = page.get_by_label("Name, synonym, CAS number or oil")
        field.fill("peppermint oil")
        field.press("Enter")
        expect(page.get_by_label("Go on to a component")).to_be_visible()
        wait_idle(page)
        assert too_wide(page) == []

    def test_the_sheet_of_a_material(self, page, app_url):
        go(page, app_url, "Materials")
        choose(page, "Open one material", "Eucalyptus oil")
        title = "From the data sheet: hazard classes"
        unfold(page, title, "Section 2, as understood")
        assert too_wide(page) == []
