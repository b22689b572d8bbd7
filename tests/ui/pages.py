"""Run a page without a browser, and read what a person would read on it."""

import html
import re

from streamlit.testing.v1 import AppTest

PAGES = ("materials", "recipe", "check", "compare", "papers")
TIMEOUT = 60  # [s]; a loaded machine imports slowly


def open_page(name: str) -> AppTest:
    """Return a page after its first run, with the demo loaded."""
    source = f"from blendcheck.ui import {name}\n\n{name}.show()\n"
    at = AppTest.from_string(source, default_timeout=TIMEOUT).run()
    assert not at.exception
    return at


def run(at: AppTest) -> AppTest:
    """Run again, and fail for anything that is not a message to the maker."""
    at.run()
    assert not at.exception, [e.value for e in at.exception]
    return at


def read(at: AppTest) -> str:
    """Return the text of the page, without markup."""
    parts = [str(one.value) for one in at.get("html")]
    parts += [str(one.value) for one in (*at.markdown, *at.caption, *at.code)]
    text = "\n".join(parts)
    text = re.sub(r"<style>.*?</style>", "", text, flags=re.S)
    return html.unescape(re.sub(r"<[^>]+>", " ", text))


def messages(at: AppTest) -> list[str]:
    """Return the messages about entries that cannot be used."""
    found = []
    for one in at.get("html"):
        for body in re.findall(r'role="alert">(.*?)</div>', str(one.value), flags=re.S):
            found.append(html.unescape(re.sub(r"<[^>]+>", "", body)))
    return found


def table_keys(at: AppTest) -> list[str]:
    """Return the keys of the tables on the page; an element's id ends in its key."""
    return [one.proto.id.split("-", 2)[2] for one in at.dataframe if one.proto.id]


def key_of(at: AppTest, table: str) -> str:
    """Return the full key of a table; its number is not known beforehand."""
    pattern = re.compile(re.escape(table) + r"\.\d+")
    found = [key for key in table_keys(at) if pattern.fullmatch(key)]
    assert len(found) == 1, (table, table_keys(at))
    return found[0]


def edit(
    at: AppTest,
    table: str,
    cells: dict[int, dict[str, object]] | None = None,
    *,
    added: list[dict[str, object]] | None = None,
    deleted: list[int] | None = None,
) -> AppTest:
    """Type into a table as a person would, and run."""
    at.session_state[key_of(at, table)] = {
        "edited_rows": cells or {},
        "added_rows": added or [],
        "deleted_rows": deleted or [],
    }
    return run(at)


def unfold(at: AppTest, key: str) -> AppTest:
    """Open a section that runs only while it is open."""
    at.session_state[key] = True
    return run(at)


def recipe_id(at: AppTest, name: str) -> str:
    """Return the id on the page of the recipe whose name begins so."""
    held = at.session_state["shelf.recipes"]
    return next(key for key, kept in held.items() if kept.name.startswith(name))


def choose(at: AppTest, page: str, name: str) -> AppTest:
    """Open a recipe."""
    at.selectbox(f"{page}.recipe").set_value(recipe_id(at, name))
    return run(at)


def good(at: AppTest):
    """Return the record of the open recipe that is in use."""
    return at.session_state["shelf.recipes"][at.session_state["shelf.current"]].good
