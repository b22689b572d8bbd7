"""Drive the page's tables and wait for it as a person would.

Three traps are dealt with here. The page's state reads as idle before its first
run too, so a heading is waited for first. The table is drawn on a canvas under a
scroller, so cells are reached by one click of the mouse and the arrow keys. The
editor of a cell opens a moment after Enter, so it is waited for before typing.
"""

from playwright.sync_api import Locator, Page, expect

HEADER_PX = 35
ROW_PX = 35
LOAD_MS = 30_000
TRIES = 3


def wait_idle(page: Page) -> None:
    """Wait until the page's script is not running."""
    state = "data-test-script-state"
    expect(page.get_by_test_id("stApp")).to_have_attribute(
        state, "notRunning", timeout=LOAD_MS
    )


def wait_app(page: Page, heading: str) -> None:
    """Wait until a page with this heading is shown and has finished its run."""
    expect(page.get_by_role("heading", name=heading, exact=True)).to_be_visible(
        timeout=LOAD_MS
    )
    wait_idle(page)


def columns(grid: Locator) -> list[str]:
    """Return the printed column headers of a table, left to right."""
    heads = grid.locator("canvas th[role=columnheader]")
    expect(heads.first).to_be_attached()
    return heads.all_inner_texts()


def cell(grid: Locator, header: str, row: int) -> Locator:
    """Return one cell of the table's hidden accessible twin; ``row`` from 0."""
    heads = grid.locator("canvas th[role=columnheader]")
    place = columns(grid).index(header)
    column = int(heads.nth(place).get_attribute("aria-colindex") or "")
    return grid.get_by_test_id(f"glide-cell-{column}-{row}")


def select_cell(page: Page, grid: Locator, header: str, row: int) -> None:
    """Put the table's cursor on a cell with the mouse and the arrow keys.

    The table may still move while the page settles, so a click can miss: it is
    tried again until the table itself says that the wanted cell is selected.
    """
    place = columns(grid).index(header)
    first, wanted = cell(grid, columns(grid)[0], 0), cell(grid, header, row)
    for attempt in range(TRIES):
        grid.scroll_into_view_if_needed()
        box = grid.bounding_box()
        assert box is not None
        page.mouse.click(box["x"] + 60, box["y"] + HEADER_PX + ROW_PX / 2)
        try:
            expect(first).to_have_attribute("aria-selected", "true", timeout=2_000)
            for _ in range(place):
                page.keyboard.press("ArrowRight")
            for _ in range(row):
                page.keyboard.press("ArrowDown")
            expect(wanted).to_have_attribute("aria-selected", "true", timeout=2_000)
        except AssertionError:
            if attempt == TRIES - 1:
                raise
        else:
            return


def set_cell(page: Page, grid: Locator, header: str, row: int, text: str) -> None:
    """Type a text into a cell and wait until the table shows it."""
    select_cell(page, grid, header, row)
    page.keyboard.press("Enter")
    editor = page.locator("#portal input, #portal textarea").first
    expect(editor).to_be_visible()
    expect(editor).to_be_focused()
    editor.fill(text)
    expect(editor).to_have_value(text)
    editor.press("Enter")
    expect(editor).to_have_count(0)
    expect(cell(grid, header, row)).to_have_text(text)
    wait_idle(page)


def download(page: Page, button: str) -> str:
    """Press a download button and return the file's text.

    Waits for the page to be idle first: the button carries the file of the last
    finished run.
    """
    wait_idle(page)
    with page.expect_download() as waiting:
        page.get_by_role("button", name=button).click()
    return waiting.value.path().read_text(encoding="utf-8")
