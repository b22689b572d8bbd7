"""Each of 200 hostile texts by itself, through every paper and format.

It takes most of a minute, so .ci/fast leaves it out; test_hostile puts all texts
through together.
"""

import pytest

from blendcheck.errors import InputError
from blendcheck.papers import KINDS, make
from blendcheck.papers.layout import FORMATS
from blendcheck.papers.writing import rendered
from tests.papers.hostile import HOSTILE, LONG, SIGNS_THAT_DO_NOT_SHOW
from tests.papers.makers import pages
from tests.papers.reading import FIT, LAYOUT, check_printed, check_refused, kept


def check_each(text, forms):
    for kind in KINDS:
        if text in LONG and kind != "note" and len(text) > FIT:
            continue  # see below: the record itself refuses it
        for form in forms:
            try:
                data = rendered(make(kind, kept(text)), form, LAYOUT)
            except InputError as error:
                check_refused(text, form, error)
                continue
            check_printed(text, form, data)


@pytest.mark.parametrize("text", HOSTILE, ids=range(len(HOSTILE)))
def test_printed_letter_by_letter_or_refused(text):
    check_each(text, FORMATS)


def test_most_are_printed_and_few_are_refused():
    """A program that refuses everything must not pass."""
    refused = {"pdf": 0, "html": 0}
    for text in HOSTILE:
        for form in refused:
            try:
                rendered(make("card", kept(text)), form, LAYOUT)
            except InputError:
                refused[form] += 1
    print(f"\nrefused of {len(HOSTILE)}: {refused}")
    assert refused["html"] <= len(SIGNS_THAT_DO_NOT_SHOW) + 2
    assert refused["pdf"] <= refused["html"] + 20


@pytest.mark.parametrize("text", [t for t in LONG if len(t) == 5000], ids=range(7))
def test_five_thousand_signs_stay_on_the_page(text):
    data = rendered(make("note", kept(text)), "pdf", LAYOUT)
    for page in pages(data):
        for char in page.chars:
            assert 40 < char["x0"] < char["x1"] < page.width - 40
