"""Tables copied out of papers: read as meant, or asked about; never otherwise."""

import random
from dataclasses import dataclass

import pytest
from hypothesis import given
from hypothesis import strategies as st

from blendcheck.errors import InputError
from blendcheck.files import (
    PastedTable,
    confirm,
    read_pasted_components,
    without,
)
from blendcheck.quantity import read_percent
from blendcheck.records.material import Composition, CompositionRow
from tests.files.makers import patient


def understood(text: str) -> list[tuple[str, str | None, str]]:
    """Name, CAS and printed share of every row; no question may be left."""
    rows = confirm(read_pasted_components(text))
    return [(row.name, row.cas, row.share.printed) for row in rows]


def kinds(table: PastedTable) -> list[str]:
    return [line.kind for line in table.lines]


LONG_LINE = (
    "Limonene  5989-27-5  227-813-5  601-096-00-2  01-2119529223-47-XXXX  10-25"
    "  Flam. Liq. 3, H226; Skin Irrit. 2, H315; Skin Sens. 1B, H317; Aquatic"
    " Acute 1, H400; M=1"
)

# One line, and what it must be read as. CAS and EC numbers as in the European
# inventory; the shares are invented.
ONE_LINE = [
    ("Menthol\t89-78-1\t30-50 %", ("Menthol", "89-78-1", "30-50 %")),
    ("Menthol  89-78-1  201-939-0  30-50 %", ("Menthol", "89-78-1", "30-50 %")),
    ("| Menthol | 201-939-0 | 89-78-1 | 30 |", ("Menthol", "89-78-1", "30")),
    ("Menthol 89-78-1 <0.1", ("Menthol", "89-78-1", "<0.1")),
    ("Menthol 30-50 % 89-78-1", ("Menthol", "89-78-1", "30-50 %")),
    ("30-50 %  Menthol  CAS 89-78-1", ("Menthol", "89-78-1", "30-50 %")),
    ("CAS: 89-78-1 EC: 201-939-0 Menthol 5 %", ("Menthol", "89-78-1", "5 %")),
    ("Menthol (CAS No. 89-78-1) 5 %", ("Menthol", "89-78-1", "5 %")),
    ("1,8-Cineole 470-82-6 ≥ 10 - < 25", ("1,8-Cineole", "470-82-6", "≥ 10 - < 25")),
    (
        "1,8–Cineole\u00a0470\u201182\u20116\u00a03.5–14 %",
        ("1,8-Cineole", "470-82-6", "3.5-14 %"),  # dashes and spaces are made plain
    ),
    ("Limonene 5989-27-5 tr", ("Limonene", "5989-27-5", "tr")),
    ("Limonene | 5989-27-5 | n.d.", ("Limonene", "5989-27-5", "n.d.")),
    (
        "Limonene 5989-27-5 n.d. (<10 ppm)",
        ("Limonene", "5989-27-5", "n.d. (<10 ppm)"),
    ),
    ("Geraniol ......... 0.3 %", ("Geraniol", None, "0.3 %")),
    ("• Alpha pinene: 3.45 %", ("Alpha pinene", None, "3.45 %")),
    ("Linalool 0.35", ("Linalool", None, "0.35")),
    ("1 Menthol 89-78-1 30.1", ("Menthol", "89-78-1", "30.1")),
    ("1. Menthol\t30.1", ("Menthol", None, "30.1")),
    ("Polysorbate 80\t9005-65-6\t5", ("Polysorbate 80", "9005-65-6", "5")),
    ("Catechol 120-80-9 1 %", ("Catechol", "120-80-9", "1 %")),
    ("3-Carene 13466-78-9 0.5 %", ("3-Carene", "13466-78-9", "0.5 %")),
    (
        LONG_LINE,
        ("Limonene", "5989-27-5", "10-25"),
    ),
    (
        "Menthol 89-78-1 30 - 50 Skin Irrit. 2 H315 Eye Irrit. 2 H319",
        ("Menthol", "89-78-1", "30 - 50"),
    ),
    ("beta-Pinene 127-91-3 100 mg/kg", ("beta-Pinene", "127-91-3", "100 mg/kg")),
]


@pytest.mark.parametrize(("line", "meant"), ONE_LINE)
def test_a_line_is_read(line: str, meant: tuple[str, str | None, str]) -> None:
    assert understood(line) == [meant]


ASKED = [
    ("Menthol 89-78-2 5 %", "check digit of CAS 89-78-2"),
    ("Menthol 89-78-1 0,5 %", "the comma"),
    ("Menthol 30,5", "the comma"),
    ("Menthol 89-78-1 12.1 30.5", "not understood"),
    ("Menthol\t89-78-1\t12.1\t30.5", '"12.1" and "30.5" could each be the share'),
    ("Menthol 12.1 30.5", "two numbers"),
    ("Menthol 10 30 %", "two numbers|could be the share"),
    ("3 Menthol 89-78-1 30.5", "beside the name"),
    ("Alcohol 96 %\t64-17-5\t10-25 %", "could each be the share"),
    ("Polysorbate 80", "part of the name"),
    ("Limonene 138-86-3 / 5989-27-5 5 %", "two CAS numbers"),
    ("Thymol 89-83-8", "no share"),
    ("89-83-8 5 %", "no name"),
    ("<  0.1  Carvone  99-49-0", '"<" is not understood'),
    ("Carvone\t99-49-0\t0.1*", "not understood"),
    ("Carvone 99-49-0 140 %", "between 0 and 100"),
    ("Carvone 99-49-0 25-10 %", "first end"),
    ("Carvone 99-49-0 5 g/kg", "not read"),
    ("Carvone 99-49-0 about 5 %", "how far off"),
    ("Carvone 99-49-0 -", "no share"),
    ("Monoterpenes", "no figure"),
    ("x" * 500, "too long"),
]


@pytest.mark.parametrize(("line", "said"), ASKED)
def test_a_line_is_asked_about(line: str, said: str) -> None:
    table = read_pasted_components(line)
    assert kinds(table) == ["question"]
    assert table.questions == (0,)
    with pytest.raises(
        InputError, match=f"not every line.*line 1.*(?:{said})"
    ) as caught:
        confirm(table)
    assert caught.value.code == "pasted-questions"


REPORT = """\
Composition of an oil, lot A12

Peak\tRT (min)\tCompound\tCAS\tArea %
1\t4.52\tα-Pinene\t80-56-8\t0.65
2\t5.01\tβ-Pinene\t127-91-3\t0.98
Page 1 of 2
Peak\tRT (min)\tCompound\tCAS\tArea %
3\t12.30\tMenthol\t89-78-1\t97.50
4\t13.00\tnot identified\t-\t0.80
\t\tTotal\t\t99.93
"""


def test_a_report_is_read_by_its_columns() -> None:
    table = read_pasted_components(REPORT)
    assert kinds(table) == [
        *("skipped", "skipped", "row", "row", "skipped", "skipped"),
        *("row", "unidentified", "total"),
    ]
    assert "".join(line.source + "\n" for line in table.lines) == REPORT.replace(
        "\n\n", "\n"
    )
    rows = confirm(table)
    assert [(r.name, r.cas, r.share.printed) for r in rows] == [
        ("α-Pinene", "80-56-8", "0.65 % (GC area)"),
        ("β-Pinene", "127-91-3", "0.98 % (GC area)"),
        ("Menthol", "89-78-1", "97.50 % (GC area)"),
    ]
    assert {r.share.basis for r in rows} == {"area"}
    remainder = table.unidentified
    assert remainder is not None
    assert remainder.share.printed == "0.80 % (GC area)"
    assert "RT (min): 12.30" in table.lines[6].message
    assert "add up to it" in table.lines[8].message
    Composition(kind="full GC-MS", row=rows, unidentified=remainder.share)


def test_a_total_that_does_not_fit_is_said() -> None:
    table = read_pasted_components(
        REPORT.replace("3\t12.30\tMenthol\t89-78-1\t97.50\n", "")
    )
    assert table.lines[-1].kind == "total"
    assert "add up to 2.43 %: is one missing" in table.lines[-1].message


def test_the_unit_of_the_heading_counts() -> None:
    text = "Allergen | CAS | ppm\nLinalool | 78-70-6 | 1500\nGeraniol | 106-24-1 | <10"
    shares = [row.share for row in confirm(read_pasted_components(text))]
    assert [s.range.high for s in shares] == [
        read_percent("0.15").range.high,
        read_percent("0.001").range.high,
    ]
    table = read_pasted_components(text.replace("ppm", "g/kg Content"))
    assert kinds(table) == ["skipped", "question", "question"]
    assert "unit that is not read" in table.lines[1].message


def test_two_columns_that_could_be_the_share_are_asked_about() -> None:
    text = "Component\tCAS\tMin %\tMax %\nMenthol\t89-78-1\t30\t50"
    assert kinds(read_pasted_components(text)) == ["skipped", "question"]


def test_a_name_above_its_row_is_joined_and_said() -> None:
    table = read_pasted_components("Menthyl acetate\n89-48-5  5-10 %")
    assert kinds(table) == ["skipped", "row"]
    assert understood("Menthyl acetate\n89-48-5  5-10 %") == [
        ("Menthyl acetate", "89-48-5", "5-10 %")
    ]


@pytest.mark.parametrize(
    "text",
    [
        "Methyl dihydro-\n24851-98-7  5-10 %",  # the name goes on somewhere
        "Methyl dihydro-\njasmonate 24851-98-7  5-10 %",  # a heading, or a name
        "Methyl dihydro- 24851-98-7  5-10 %\njasmonate",
        "An oil\nMenthyl acetate\n89-48-5  5-10 %",  # which of the two
    ],
)
def test_a_name_in_two_pieces_is_asked_about(text: str) -> None:
    assert read_pasted_components(text).questions


def test_what_a_report_could_not_name_is_no_component() -> None:
    for name in ("not identified", "Unidentified", "unknown 3", "Others", "n.i."):
        table = read_pasted_components(f"Menthol\t5 %\n{name}\t0.8 %")
        assert kinds(table) == ["row", "unidentified"]
    table = read_pasted_components("unknown 1\t0.2 %\nunknown 2\t0.3 %")
    assert kinds(table) == ["unidentified", "question"]
    nickel = read_pasted_components("Ni\t0.8 ppm")
    assert kinds(nickel) == ["row"]


def test_a_component_that_stands_twice_is_asked_about() -> None:
    table = read_pasted_components("Menthol\t89-78-1\t5 %\nl-Menthol\t89-78-1\t6 %")
    assert kinds(table) == ["row", "question"]


def test_a_line_is_left_out_only_by_the_maker() -> None:
    table = read_pasted_components("Monoterpenes\nPinene\t5 %\nPage 1")
    assert table.is_whole
    left = without(table, 0)
    assert (left.lines[0].kind, left.lines[0].message) == ("skipped", "left out by you")
    assert not left.is_whole
    assert len(confirm(left)) == 1
    assert without(table, 2).is_whole  # nothing was in it
    with pytest.raises(InputError, match="no line 9"):
        without(table, 8)


def test_nothing_to_confirm_is_said() -> None:
    for text in ("", "\n \n", "Component  CAS  %"):
        with pytest.raises(InputError, match="no line holds a row"):
            confirm(read_pasted_components(text))


def test_more_than_a_table_is_refused() -> None:
    with pytest.raises(InputError, match="more than a table"):
        read_pasted_components("a\n" * 3000)


# ── a grammar that writes each line with its meaning

NAMES = [
    *("Menthol", "1,8-Cineole", "α-Pinene", "3-Carene", "d-Limonene", "p-Cymene"),
    *("Polysorbate 80", "(E)-2-Hexenal", "p-Mentha-1,8-diene", "2-Phenylethanol"),
    *("Methyl 2-octynoate", "Menthyl acetate", "C12-15 alcohols", "Iso E", "Ni oil"),
    *(
        "Catechol",
        "Terpinen-4-ol",
        "Vitamin E (50)",
        "Total oil",
        "N-propyl",
        "Oil, mint",
    ),
]
CAS = [
    "89-78-1",
    "470-82-6",
    "80-56-8",
    "13466-78-9",
    "5989-27-5",
    "99-87-6",
    "50-00-0",
]
EC = ["201-939-0", "207-431-5", "227-813-5", "200-001-8"]
SHARES = [
    *("30-50 %", "10 – 25", "≥ 10 - < 25", "<0.1 %", "> 95 %", "0.65", "12", "32.41 %"),
    *("tr", "n.d.", "n.d. (<10 ppm)", "10 ppm", "≤ 1 %", "1 – 5 %", "0.5%", "100"),
]
CLASSES = [
    "Skin Irrit. 2, H315",
    "Flam. Liq. 3; H226; Asp. Tox. 1; H304",
    "H317",
    "Aquatic Chronic 2",
    "Acute Tox. 4 H302 Category 1",
]


TWO_MEANINGS = ["0,5 %", "12,3", "1,5-3 %", "<0,1"]
NUMBERS = [None, None, "1", "1.", "17", "4.52", "(3)", "#4"]
ORDERS = ["01234", "12034", "03124", "30124", "02143", "10324", "31024"]
COLUMNS = ["\t", " | ", "   ", " \t "]
SEPARATORS = [*COLUMNS, " ", "  ", ", ", "; "]


@dataclass(frozen=True)
class Meant:
    """A line, and what its writer meant by it."""

    name: str
    cas: str | None
    share: str
    line: str


def write_line(
    rnd: random.Random,
    separators: list[str],
    shares: list[str],
    *,
    mixed: bool,
    numbered: bool = True,
) -> Meant:
    """Write one row in some layout."""
    name, share, cas = rnd.choice(NAMES), rnd.choice(shares), rnd.choice([None, *CAS])
    parts = [name, cas, rnd.choice([None, *EC]), share, rnd.choice([None, *CLASSES])]
    order = [parts[int(n)] for n in rnd.choice(ORDERS)]
    number = rnd.choice(NUMBERS) if numbered else None
    cells = [c for c in [number, *order] if c is not None]
    one = rnd.choice(separators)
    gaps = [rnd.choice(separators) if mixed else one for _ in cells]
    line = "".join(map("".join, zip(cells, gaps, strict=True)))
    return Meant(name, cas, share, line.rstrip())


def was_read(meant: Meant) -> bool:
    """Say whether a line was read; a reading that was not meant fails."""
    (line,) = read_pasted_components(meant.line).lines
    if line.kind in {"question", "total"}:
        return False
    row = line.row
    assert isinstance(row, CompositionRow), line
    assert meant.share not in TWO_MEANINGS, line
    assert (row.name, row.cas) == (meant.name, meant.cas), line
    assert row.share.range == read_percent(meant.share).range, line
    return True


@patient(1500)
@given(st.randoms(use_true_random=False), st.booleans())
def test_a_line_is_read_as_meant_or_asked_about(
    rnd: random.Random,
    mixed: bool,  # noqa: FBT001
) -> None:
    was_read(write_line(rnd, SEPARATORS, [*SHARES, *TWO_MEANINGS], mixed=mixed))


@pytest.mark.slow
def test_a_hundred_thousand_lines() -> None:
    rnd = random.Random(20251)  # noqa: S311
    shares = [*SHARES, *TWO_MEANINGS]
    read = sum(
        was_read(write_line(rnd, SEPARATORS, shares, mixed=n % 2 == 0))
        for n in range(100_000)
    )
    print(f"pasted lines of every layout: {read} of 100000 read, the rest asked about")


def test_most_lines_in_columns_are_read() -> None:
    """A reader that asks about everything would hold the tests above as well."""
    rnd = random.Random(7)  # noqa: S311
    lines = [
        write_line(rnd, COLUMNS, SHARES, mixed=False, numbered=False)
        for _ in range(500)
    ]
    read = sum(map(was_read, lines))
    print(f"pasted lines in columns: {read} of 500 read, the rest asked about")
    assert read > 450


@patient(300)
@given(st.text(max_size=200))
def test_no_text_ends_in_a_traceback(text: str) -> None:
    for line in read_pasted_components(text).lines:
        assert (line.row is not None) == (line.kind in {"row", "unidentified"})


def test_hostile_lines_take_no_time() -> None:
    for piece in ("1", "1 ", "1 - ", "< ", "1.1,", "%", "CAS ", "1-", ". ", "to 1 "):
        line = (piece * 400)[:399]
        read_pasted_components("\n".join([line] * 20))
