"""The Papers page in a browser: from a demo recipe to a card in three actions."""

import pytest
from playwright.sync_api import expect

from tests.browser.grid import wait_app, wait_idle
from tests.papers.makers import words_of

GALE = "North gale, strong peppermint and eucalyptus tablets"
PHONE_PX = 390

expect.set_options(timeout=20_000)


def open_gale(page):
    page.get_by_label("Recipe", exact=True).click()
    page.get_by_role("option", name=GALE).click()
    expect(page.get_by_text("Over: at least one limit is broken")).to_be_visible()
    wait_idle(page)


def test_three_actions_to_a_printed_card(page, app_url):
    """Go to Papers, choose the recipe, download: the file is what the picture shows."""
    page.goto(app_url)
    wait_app(page, "Recipe")
    page.get_by_role("link", name="Papers").click()
    wait_app(page, "Papers")
    open_gale(page)
    picture = page.get_by_role("img", name="Gift card, page 1 of 2, as printed.")
    expect(picture.first).to_be_visible()
    assert picture.first.evaluate("one => one.complete && one.naturalWidth > 300")
    with page.expect_download() as waiting:
        page.get_by_role("button", name="Download to print (PDF)").click()
    found = words_of(waiting.value.path().read_bytes())
    assert found.count("Keep away from babies and children") == 8
    assert waiting.value.suggested_filename.endswith("-card.pdf")


def test_a_title_typed_is_printed_as_text(page, app_url):
    page.goto(f"{app_url}/papers")
    wait_app(page, "Papers")
    field = page.get_by_label("Title on card and label")
    field.fill("<b>Tide</b> #panic(1) $x$")
    field.press("Enter")
    wait_idle(page)
    page.get_by_text("The same in words").click()
    expect(page.get_by_text("<b>Tide</b> #panic(1) $x$").first).to_be_visible()


def test_other_eyes_find_nothing_serious(page, app_url):
    from axe_playwright_python.sync_playwright import Axe

    page.goto(f"{app_url}/papers")
    wait_app(page, "Papers")
    open_gale(page)
    found = Axe().run(page).response["violations"]
    serious = [
        (one["id"], [node["html"][:120] for node in one["nodes"]][:3])
        for one in found
        if one["impact"] in ("serious", "critical")
    ]
    assert serious == []


class TestPhone:
    @pytest.fixture
    def context_options(self):
        return {
            "viewport": {"width": PHONE_PX, "height": 844},
            "is_mobile": True,
            "has_touch": True,
            "accept_downloads": True,
        }

    def test_the_page_fits_a_phone(self, page, app_url):
        page.goto(f"{app_url}/papers")
        wait_app(page, "Papers")
        picture = page.get_by_role("img", name="Gift card, page 1 of 2, as printed.")
        expect(picture.first).to_be_visible()
        assert page.evaluate("document.documentElement.scrollWidth") <= PHONE_PX
        wide = page.evaluate(
            "[...document.querySelectorAll('.bc *')]"
            ".filter(e => e.getBoundingClientRect().right > innerWidth + 1).length"
        )
        assert wide == 0
