"""The flat table of materials, and cells that a spreadsheet would run."""

import csv
import io

import pytest

from blendcheck.errors import InputError, QuestionError
from blendcheck.files import (
    materials_from_csv,
    materials_from_text,
    materials_to_csv,
    rows_to_csv,
)
from blendcheck.files.tables import COLUMNS

SHELF = """\
[workshop]
name = "Salt Lane"
[workshop.current]
"Our scheme" = "3"

[[material]]
id = "pep"
name = "=cmd|' /C calc'!A0"
kind = "essential oil"
irritant = ["89-78-1", "470-82-6"]
[material.weighed]
drop = "0.031 g"
[[material.document]]
id = "sds-1"
kind = "safety data sheet"
[[material.composition]]
kind = "hazardous ingredients"
document = "sds-1"
covers = []
row = [ { name = "Menthol", cas = "89-78-1", share = "≥ 30 - < 50 %" } ]
[[material.cap]]
scheme = "Our scheme"
category = "9"
printed = "-"
[[material.lot]]
lot = "007"
[[material.lot.composition]]
kind = "full GC-MS"
copied_whole = true
row = [ { name = "Menthone", share = "24.50" } ]

[[stock]]
id = "calm"
[[stock.line]]
material = "pep"
lot = "007"
amount = "3 parts"

[[confirmed]]
name = "menthol"
cas = "89-78-1"
same = false
"""

HEADER = ",".join(COLUMNS)


def row(**cells: str) -> str:
    """One line of the table, other cells blank."""
    named = {key.replace("_", " "): value for key, value in cells.items()}
    out = io.StringIO()
    csv.writer(out).writerow([named.get(column, "") for column in COLUMNS])
    return out.getvalue().rstrip("\r\n")


MATERIAL = [
    row(what="material", material="a", field="name", printed="A"),
    row(what="material", material="a", field="kind", printed="solid"),
]


def table(*rows: str) -> str:
    return "\r\n".join((HEADER, *rows)) + "\r\n"


def test_what_is_on_the_shelf_stands_in_the_table() -> None:
    shelf = materials_from_text(SHELF)
    rows = list(csv.DictReader(io.StringIO(materials_to_csv(shelf), newline="")))
    said = [
        {key: cell for key, cell in one.items() if cell and key != "what"}
        for one in rows
        if one["what"] in {"component", "lot", "cap", "stock line"}
    ]
    assert said == [
        {
            "material": "pep",
            "list": "1",
            "name": "Menthol",
            "cas": "89-78-1",
            "printed": "≥ 30 - < 50 %",
        },
        {
            "material": "pep",
            "on": "material",
            "scheme": "Our scheme",
            "category": "9",
            "printed": "'-",
        },
        {"material": "pep", "lot": "007"},
        {
            "material": "pep",
            "lot": "007",
            "list": "1",
            "name": "Menthone",
            "printed": "24.50",
        },
        {"stock": "calm", "material": "pep", "lot": "007", "printed": "3 parts"},
    ]
    assert {"'=cmd|' /C calc'!A0"} == {
        one["printed"] for one in rows if one["field"] == "name" and one["material"]
    }
    assert materials_from_csv(materials_to_csv(shelf)) == shelf


def test_a_table_that_a_spreadsheet_saved_again_is_read() -> None:
    """With a mark, semicolons, TRUE, blank lines and cells cut at the end."""
    shelf = materials_from_text(SHELF)
    rows = list(csv.reader(io.StringIO(materials_to_csv(shelf), newline="")))
    lines = []
    for cells in rows:
        out = io.StringIO()
        while cells and not cells[-1]:
            cells.pop()
        csv.writer(out, delimiter=";").writerow(cells)
        lines += [out.getvalue().replace("true", "TRUE"), ";;;\r\n"]
    assert materials_from_csv("\ufeff" + "".join(lines)) == shelf
    assert materials_from_csv("sep=;\r\n" + "".join(lines)) == shelf


def test_columns_may_stand_in_any_order_and_be_left_out() -> None:
    text = (
        "Printed\tWHAT\tmaterial\tfield\nA\tmaterial\ta\tname\nsolid\tmaterial\ta\tkind"
    )
    assert materials_from_csv(text).get("a").name == "A"


@pytest.mark.parametrize(
    ("rows", "said", "code"),
    [
        ([row(what="metarial", material="a")], 'line 2: .*mean "material"', "csv-row"),
        ([row(what="zz")], "Kinds are workshop", "csv-row"),
        (
            [row(what="component", material="a", list="1", name="x")],
            "printed",
            "csv-row",
        ),
        (
            [row(what="lot", material="a", lot="1", cas="89-78-1")],
            'line 2: a lot row has no cell "cas"',
            "csv-row",
        ),
        ([MATERIAL[0]], 'line 2, material.1..kind: "kind" is missing', "field-missing"),
        ([*MATERIAL, MATERIAL[1]], 'line 4: two rows give "kind"', "field-twice"),
        (
            [
                *MATERIAL,
                row(what="material", material="a", field="densty", printed="1"),
            ],
            'line 4, material.1..densty: .*Did you mean "density"',
            "field-unknown",
        ),
        (
            [
                *MATERIAL,
                row(what="list", material="a", list="1", field="kind", printed="x"),
            ],
            "line 4, material.1..composition.1..kind: .*not a choice",
            "choice",
        ),
        ([row(what="confirmed", cas="89-78-1", printed="yes")], "line 2: ", "choice"),
        (['confirmed,"x'], "line 2: the row is not CSV", "csv"),
        ([",".join("x" * 30)], "30 cells, the header 17", "csv-cells"),
    ],
)
def test_a_table_that_is_refused(rows: list[str], said: str, code: str) -> None:
    with pytest.raises(InputError, match=f"^m.csv, {said}|^m.csv.*{said}") as caught:
        materials_from_csv(table(*rows), "m.csv")
    assert caught.value.code == code


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "does not name the columns printed, what"),
        ("a,b\r\n1,2", "does not name the columns"),
        ("what,printed,nmae\r\n", 'no column "nmae".*"name"'),
        ("what,printed,what\r\n", 'two columns are called "what"'),
    ],
)
def test_a_header_that_is_refused(text: str, said: str) -> None:
    with pytest.raises(InputError, match=said) as caught:
        materials_from_csv(text, "m.csv")
    assert caught.value.code == "csv-header"


def component(share: str) -> list[str]:
    of_list = row(
        what="list", material="a", list="1", field="kind", printed="full GC-MS"
    )
    cells = {"material": "a", "list": "1", "name": "x", "printed": share}
    return [*MATERIAL, of_list, row(what="component", **cells)]


def test_a_decimal_comma_is_asked_about() -> None:
    with pytest.raises(QuestionError, match=r"line 5, .*share: the comma") as caught:
        materials_from_csv(table(*component("0,5 %")), "m.csv")
    assert caught.value.code == "decimal-comma"


def test_a_decimal_comma_without_quotes_is_never_read_as_two_cells() -> None:
    unquoted = table(*component("0,5 %")).replace('"', "")
    with pytest.raises(InputError, match=r"line 5: "):
        materials_from_csv(unquoted, "m.csv")
    shortened = "\r\n".join(line.rstrip(",") for line in unquoted.split("\r\n"))
    with pytest.raises(InputError, match=r"line 5: .*no cell .*decimal comma"):
        materials_from_csv(shortened, "m.csv")


def test_results_carry_text_no_spreadsheet_runs() -> None:
    written = rows_to_csv(
        ["what", "g"], [["=1+1", "-20 °C"], [None, 5], ['a"b', "x\ny"]]
    )
    assert written == ("what,g\r\n'=1+1,'-20 °C\r\n,5\r\n" + '"a""b","x\ny"\r\n')
    with pytest.raises(InputError, match="1 cells, the header 2"):
        rows_to_csv(["a", "b"], [["x"]])
