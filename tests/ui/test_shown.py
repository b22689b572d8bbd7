"""Text is shown as text; a table says what its columns are."""

import re

import pytest

from blendcheck.ui import shown
from blendcheck.ui.draft import get, put

HOSTILE = [
    "<img src=x onerror=alert(1)>",
    "</td></table><script>x</script>",
    "&lt;b&gt;",
    '" onmouseover="alert(1)',
    "![i](http://a.example/i.png)",
]


@pytest.mark.parametrize("text", HOSTILE)
def test_markup_of_the_maker_is_never_markup(text):
    made = shown.table(text, ["What", text], [[text, text]])
    made += shown.items([text]) + shown.definition([(text, text)]) + shown.strong(text)
    assert text not in made or not re.search(r'[<>"&]', text)
    tags = set(re.findall(r"<(\w+)", made))
    assert tags <= {
        "div",
        "table",
        "caption",
        "thead",
        "tbody",
        "tr",
        "th",
        "td",
        "ul",
        "li",
        "dl",
        "dt",
        "dd",
        "strong",
    }


def test_label_escapes_what_markdown_reads():
    assert shown.label("*a* [b](c) $5 :red[x]") == (r"\*a\* \[b\]\(c\) \$5 \:red\[x\]")


def test_table_names_each_cell_for_a_narrow_screen():
    made = shown.table("Caption", ["What", "g"], [["oil", "1.5"]], numbers=(1,))
    assert '<td role="cell" data-head="g" class="bc-number">1.5</td>' in made
    assert '<th role="rowheader" scope="row">oil</th>' in made


def test_rows_of_another_width_are_refused():
    with pytest.raises(ValueError, match="zip"):
        shown.table("c", ["a", "b"], [["1", "2", "3"]])


# -- drafts ---------------------------------------------------------------------------

PUTS = [
    ({}, ("a", "b"), "x", {"a": {"b": "x"}}),
    ({"a": {"b": "x"}}, ("a", "b"), None, {}),  # an empty table says nothing
    ({"a": {"b": "x"}}, ("a", "b"), [], {"a": {"b": []}}),  # an empty list does
    ({"l": [{"c": 1}]}, ("l", 0, "c"), "y", {"l": [{"c": "y"}]}),
    ({"l": [{"c": 1}]}, ("l", 0, "d", "e"), "y", {"l": [{"c": 1, "d": {"e": "y"}}]}),
]


@pytest.mark.parametrize(("raw", "path", "value", "expected"), PUTS)
def test_put_writes_and_takes_out(raw, path, value, expected):
    put(raw, path, value)
    assert raw == expected
    assert get(raw, path) == value


@pytest.mark.parametrize("path", [("x",), ("l", 5), ("l", "x"), ("a", "b", "c")])
def test_get_of_nothing_is_none(path):
    assert get({"l": [1], "a": {"b": "text"}}, path) is None
