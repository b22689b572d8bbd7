"""What another pair of eyes finds: the accessibility tree, the width of a phone."""

from playwright.sync_api import Page

PHONE = {
    "viewport": {"width": 390, "height": 844},
    "is_mobile": True,
    "has_touch": True,
    "accept_downloads": True,
}
"""A small phone held upright. [CSS pixels]"""


def serious(page: Page) -> list[tuple[str, list[str]]]:
    """Return what axe calls serious or critical, with the first elements."""
    from axe_playwright_python.sync_playwright import Axe

    return [
        (one["id"], [node["html"][:160] for node in one["nodes"]][:3])
        for one in Axe().run(page).response["violations"]
        if one["impact"] in ("serious", "critical")
    ]


def too_wide(page: Page) -> list[str]:
    """Return what reaches past the right edge of the window.

    A box that scrolls inside itself is no scrolling of the page, so what is in one
    does not count.
    """
    found: list[str] = page.evaluate(
        """() => {
          const clipped = one => {
            for (let up = one.parentElement; up; up = up.parentElement) {
              const how = getComputedStyle(up).overflowX;
              if (how === 'auto' || how === 'scroll' || how === 'hidden') {
                const edge = up.getBoundingClientRect().right;
                if (up !== document.documentElement && edge <= innerWidth + 1)
                  return true;
              }
            }
            return false;
          };
          return [...document.querySelectorAll('.bc *, [data-testid] canvas, svg')]
            .filter(one => one.getBoundingClientRect().right > innerWidth + 1)
            .filter(one => one.getBoundingClientRect().width > 0)
            .filter(one => !clipped(one))
            .map(one => one.outerHTML.slice(0, 160));
        }"""
    )
    if page.evaluate("document.documentElement.scrollWidth > innerWidth"):
        found.append("the page itself scrolls sideways")
    return found
