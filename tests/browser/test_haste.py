"""Somebody in a hurry presses again before the page has followed.

The browser then still sends the fields of what was open before; they must not be taken
for those of what is open now.
"""

import pytest
from playwright.sync_api import expect

from blendcheck.files.reading import materials_from_text, recipe_from_text
from blendcheck.records.snapshot import as_written
from tests.browser.grid import download, wait_app, wait_idle

expect.set_options(timeout=20_000)

HASTE = 4
"""How often, since it is a matter of milliseconds. [1]"""


def take(page, label, option):
    """Choose in a field, and wait for nothing."""
    field = page.get_by_label(label, exact=True)
    field.click()
    field.fill(option)
    page.get_by_role("option", name=option, exact=True).click()


def settle(page):
    page.wait_for_timeout(600)
    wait_idle(page)


@pytest.mark.parametrize("section", ["Papers", "From the data sheet: hazard classes"])
def test_no_material_gets_the_fields_of_another(page, app_url, section):
    page.goto(f"{app_url}/materials")
    wait_app(page, "Materials")
    main = page.get_by_test_id("stMainBlockContainer")
    page.get_by_text("Files", exact=True).click()
    button = "Download the shelf (TOML)"
    expect(page.get_by_role("button", name=button)).to_be_visible()
    before = materials_from_text(download(page, button))
    for name in ("Eucalyptus oil", "Kaolin") * (HASTE // 2):
        take(page, "Open one material", name)
        main.get_by_text(section, exact=True).click()
        settle(page)
        box = page.get_by_role("textbox", name="Name, as on the bottle")
        expect(box).to_have_value(name)
    assert materials_from_text(download(page, button)) == before


def test_no_recipe_gets_the_fields_of_another(page, app_url):
    """In haste a choice may be lost; what is shown is then what was open before."""
    page.goto(app_url)
    wait_app(page, "Recipe")
    button = "Download this recipe (TOML)"
    shown = page.get_by_label("Recipe", exact=True)
    names = shown.input_value(), "Fair wind, mild peppermint and eucalyptus tablets"
    files = {}
    for name in names:
        take(page, "Recipe", name)
        settle(page)
        expect(shown).to_have_value(name)
        files[name] = recipe_from_text(download(page, button))
    for name in names * (HASTE // 2):
        take(page, "Recipe", name)
        page.get_by_text("Dry mass, loss, remark", exact=True).click()
        settle(page)
        found = recipe_from_text(download(page, button))
        assert as_written(found) == as_written(files[found.name])
    for name in names:
        take(page, "Recipe", name)
        settle(page)
        if shown.input_value() == name:
            assert recipe_from_text(download(page, button)) == files[name]
