"""The page as a person uses it: type into a table, watch, download, look on a phone."""

import pytest
from playwright.sync_api import expect

from blendcheck.files.reading import recipe_from_text
from tests.browser.grid import download, set_cell, wait_app, wait_idle

GALE = "North gale, strong peppermint and eucalyptus tablets"
PHONE_PX = 390
IS_OVER = "Peppermint oil is at least 2.5 %"

# several may share the machine
expect.set_options(timeout=20_000)


def open_recipe(page, name, shown):
    """Choose a recipe, and wait for something that only it shows."""
    box = page.get_by_label("Recipe", exact=True)
    box.click()
    page.get_by_role("option", name=name).click()
    expect(page.get_by_text(shown).first).to_be_visible()
    wait_idle(page)


def blend_table(page):
    """Return the table of the blend; an open recipe has its oils in it."""
    grid = page.get_by_test_id("stDataFrame").first
    expect(grid.get_by_test_id("glide-cell-1-0")).to_have_text("Peppermint oil")
    return grid


def test_typing_into_the_blend_changes_the_outcome_and_the_download(page, app_url):
    """36 g of peppermint oil in 1440 g are 2.5 %, over a cap of 2.00 %; 20 g in
    1424 g are 1.4 %. The file that is then downloaded holds what was typed."""
    page.goto(app_url)
    wait_app(page, "Recipe")
    open_recipe(page, GALE, IS_OVER)
    over = page.get_by_text(IS_OVER)
    expect(over).to_be_visible()
    set_cell(page, blend_table(page), "Amount", 0, "20 g")
    expect(over).to_have_count(0)

    set_cell(page, blend_table(page), "Amount", 1, "30,5 g")
    expect(page.get_by_text("Not taken over:")).to_be_visible()
    expect(page.get_by_text("Lines of the blend: row 2, Amount")).to_be_visible()
    set_cell(page, blend_table(page), "Amount", 1, "30.5 g")
    expect(page.get_by_text("Not taken over:")).to_have_count(0)

    recipe = recipe_from_text(download(page, "Download this recipe (TOML)"))
    assert [line.amount.printed for line in recipe.blend.line] == ["20 g", "30.5 g"]


def test_check_opens_to_its_arithmetic_and_what_is_typed_outlives_a_page(page, app_url):
    page.goto(app_url)
    wait_app(page, "Recipe")
    open_recipe(page, GALE, IS_OVER)
    set_cell(page, blend_table(page), "Amount", 0, "72 g")
    # 72 of 1404 + 72 = 1476 g
    expect(page.get_by_text("Peppermint oil is at least 4.87").first).to_be_visible()
    page.get_by_role("link", name="Check").click()
    wait_app(page, "Check")
    expect(page.get_by_role("heading", name="Over: Peppermint oil")).to_be_visible()
    # the load, 72 and 36 g, is over its own cap and stands first
    page.get_by_text("Show the arithmetic").first.click()
    expect(page.get_by_text("÷ 1476 = ").first).to_be_visible()
    wait_idle(page)
    page.get_by_role("link", name="Recipe").click()
    wait_app(page, "Recipe")
    expect(page.get_by_test_id("glide-cell-3-0").first).to_have_text("72 g")


def test_a_new_name_does_not_close_what_it_names(page, app_url):
    """The browser remembers the old name of what is chosen; the page must not take
    that for another choice and put the typed text away."""
    page.goto(app_url)
    wait_app(page, "Recipe")
    open_recipe(page, GALE, IS_OVER)
    name = page.get_by_label("Name of the recipe")
    name.fill("Gale *two* <b>")
    name.press("Enter")
    choice = page.get_by_label("Recipe", exact=True)
    expect(choice).to_have_value("Gale *two* <b>")
    mass = page.get_by_label("Mass of one piece, dry")
    mass.fill("55 g")
    mass.press("Enter")
    wait_idle(page)
    expect(choice).to_have_value("Gale *two* <b>")
    expect(mass).to_have_value("55 g")

    page.get_by_label("Name, as on the bottle").fill("Rosemary oil")
    page.get_by_label("Grams in the batch").fill("5")
    page.get_by_label("Cap as printed").fill("2 %")
    page.get_by_role("button", name="Add this oil").click()
    expect(page.get_by_text("Rosemary oil is on the shelf")).to_be_visible()
    expect(page.get_by_label("Grams in the batch")).to_have_value("")
    expect(blend_table(page).get_by_test_id("glide-cell-1-2")).to_have_text(
        "Rosemary oil"
    )
    recipe = recipe_from_text(download(page, "Download this recipe (TOML)"))
    assert (recipe.name, recipe.piece_mass.printed) == ("Gale *two* <b>", "55 g")
    assert [line.amount.printed for line in recipe.blend.line] == [
        "36 g",
        "36 g",
        "5 g",
    ]


class TestPhone:
    @pytest.fixture
    def context_options(self):
        return {
            "viewport": {"width": PHONE_PX, "height": 844},
            "is_mobile": True,
            "has_touch": True,
            "accept_downloads": True,
        }

    def test_check_page_can_be_read_without_scrolling_sideways(self, page, app_url):
        page.goto(f"{app_url}/check")
        wait_app(page, "Check")
        open_recipe(page, GALE, IS_OVER)
        lead = page.get_by_text("Over: at least one limit is broken")
        expect(lead).to_be_visible()
        assert page.evaluate("document.documentElement.scrollWidth") <= PHONE_PX
        # tables are laid out as lists: nothing on the page is wider than the screen
        wide = page.evaluate(
            "[...document.querySelectorAll('.bc *')]"
            ".filter(e => e.getBoundingClientRect().right > innerWidth + 1).length"
        )
        assert wide == 0
        first = page.get_by_role("row", name="Peppermint oil, lot PM-2607")
        expect(first.first).to_contain_text("36")


def test_the_page_can_be_read_with_other_eyes(page, app_url):
    """No script runs that came with a name, and the checker of the browser's
    accessibility tree finds nothing serious."""
    from axe_playwright_python.sync_playwright import Axe

    page.goto(f"{app_url}/check")
    wait_app(page, "Check")
    open_recipe(page, GALE, IS_OVER)
    expect(page.get_by_text("Over: at least one limit is broken")).to_be_visible()
    found = Axe().run(page).response["violations"]
    serious = [
        (one["id"], [node["html"][:120] for node in one["nodes"]][:3])
        for one in found
        if one["impact"] in ("serious", "critical")
    ]
    assert serious == []
