"""Rows of caps copied out of certificates: read as meant, or asked about."""

import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from blendcheck.errors import InputError
from blendcheck.files import confirm, read_pasted_caps
from tests.files.makers import patient

CAPS = """\
Certificate, third edition
Category  Limit (%)
Category 1  0.00
Category 2  Deodorants  2.5 %
Cat. 3 | 14.46 %
Category 4: 100
5A | 0.5
Category 5.D\tBaby goods\t0.4
6 Not restricted
Category 9 - soap 14.46 %
10A not permitted
10B Not permitted as an added ingredient; max 0.01 %
11A -
12 N/A
N/A = no restriction
"""


def test_rows_of_caps_are_read() -> None:
    table = read_pasted_caps(CAPS, scheme="Our scheme", edition="3", document="cert")
    assert table.questions == ()
    rows = confirm(table)
    assert [(row.category, row.printed, row.cap.state) for row in rows] == [
        ("1", "0.00", "not permitted"),
        ("2", "2.5 %", "limit"),
        ("3", "14.46 %", "limit"),
        ("4", "100", "no restriction stated"),
        ("5A", "0.5", "limit"),
        ("5D", "0.4", "limit"),
        ("6", "Not restricted", "no restriction stated"),
        ("9", "14.46 %", "limit"),
        ("10A", "not permitted", "not permitted"),
        (
            "10B",
            "Not permitted as an added ingredient; max 0.01 %",
            "not as an added ingredient",
        ),
        ("11A", "-", "missing"),
        ("12", "N/A", "no restriction stated"),
    ]
    assert {(r.on, r.scheme, r.edition, r.document) for r in rows} == {
        ("material", "Our scheme", "3", "cert")
    }
    assert "left out: Deodorants" in table.lines[3].message
    assert "is it one on the paper too?" in table.lines[2].message


def test_not_applicable_without_its_footnote_stays_so() -> None:
    (line,) = read_pasted_caps("12 N/A", scheme="S").lines
    assert line.row is not None
    assert line.row.cap.state == "not applicable"
    assert "paste the footnote" in line.message


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("Cat. 5 B  0,5 %", "the comma"),
        ("7A, 7B  0.8", "more than one category"),
        ("Category 1 0.1 Category 2 0.2", "more than one category"),
        ("8 | 1.2 | 0.8", "could each be the cap"),
        ("8 1.2 0.8", "gap inside a number"),
        ("Category 11B", "no cap"),
        ("Category 11B see page", "no cap"),
        ("12 <5 %", "figure itself"),
        ("12 3-4 %", "a range"),
        ("12 140 %", "between 0 and 100"),
        ("Products 0.5 %", "without its category"),
        ("Soap, category 9: 0.5", "does not stand first"),
        ("9 0.5\n9 0.6", "stands above"),
        ("9 not added", "gives no limit"),
    ],
)
def test_a_cap_is_asked_about(line: str, said: str) -> None:
    table = read_pasted_caps(line, scheme="S")
    assert table.lines[-1].kind == "question"
    with pytest.raises(InputError, match=said):
        confirm(table)


# ── a grammar that writes each line with its meaning

CATEGORIES = ["1", "2", "5A", "5.B", "7 A", "9", "10B", "11", "12"]
FRONTS = ["", "Category ", "Cat. ", "CATEGORY ", "Class ", "Cat ", "category: "]
GOODS = [
    *("", "Soap", "Hand creams, all types", "Products with 2 uses", "- rinse-off"),
    *("Baby (0-3 years)", "Room spray 5", "leave on (fine fragrance)"),
]
PRINTED = [
    *("14.46 %", "0.5", "0", "0.00 %", "100", "Not restricted", "not permitted", "N/A"),
    *("-", "max 5 %", "5", "12", "not added; max 0.01 %", "No limit", "500 ppm"),
    "0.5 % (from natural sources only)",
]
TWO_MEANINGS = ["0,5 %", "1.2-3 %", "<5 %", "not added"]


def test_a_line_is_read_as_meant_or_asked_about() -> None:
    rnd = random.Random(11)  # noqa: S311
    read = 0
    for _ in range(4000):
        category, printed = rnd.choice(CATEGORIES), rnd.choice(PRINTED + TWO_MEANINGS)
        gap = rnd.choice([" ", "  ", "\t", " | ", ": "])
        cells = (category, rnd.choice(GOODS), printed)
        text = rnd.choice(FRONTS) + gap.join(filter(None, cells))
        (line,) = read_pasted_caps(text, scheme="S").lines
        if line.kind == "question":
            continue
        assert line.row is not None, line
        assert printed not in TWO_MEANINGS, line
        plain = category.replace(".", "").replace(" ", "")
        assert (line.row.category, line.row.printed) == (plain, printed), line
        read += 1
    print(f"pasted caps: {read} of 4000 read, the rest asked about")
    assert read > 2800


@patient(300)
@given(st.text(max_size=200))
def test_no_text_ends_in_a_traceback(text: str) -> None:
    for line in read_pasted_caps(text, scheme="S").lines:
        assert (line.row is not None) == (line.kind == "row")


def test_hostile_lines_take_no_time() -> None:
    for piece in ("1", "1 ", "1 - ", "< ", "1.1,", "%", "cat ", "1-", ". ", "(0 "):
        line = f"9 {(piece * 400)[:390]}"
        read_pasted_caps("\n".join([line] * 20), scheme="S")


def test_more_than_a_table_is_refused() -> None:
    with pytest.raises(InputError, match="more than a table"):
        read_pasted_caps("a\n" * 3000, scheme="S")
