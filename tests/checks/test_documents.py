"""Edition and age of papers.

Months are counted as the general-purpose library ``dateutil`` counts them.
"""

from datetime import date

import pytest
from dateutil.relativedelta import relativedelta
from hypothesis import given
from hypothesis import strategies as st

from blendcheck.checks import documents
from blendcheck.checks.documents import review_due
from blendcheck.words import render
from tests.checks.cases import BICARBONATE, by_code, make_case, oil


def tablet(material, *rest, **fields):
    return make_case((BICARBONATE, "100 g"), (material, "2 g", *rest), **fields)


def sheet(**fields):
    return {"id": "sds", "kind": "safety data sheet", "date": "2026-01-31", **fields}


def capped(edition="51st", scheme="fragrance standard", **fields):
    cap = {"scheme": scheme, "edition": edition, "category": "9", "printed": "5 %"}
    return oil("Pine oil", document=[sheet()], cap=[cap | fields])


def found(case):
    return by_code(documents.check(case))


@given(on=st.dates(date(1950, 1, 1), date(2150, 12, 31)), months=st.integers(1, 240))
def test_months_are_counted_as_a_calendar_library_counts_them(on, months):
    assert review_due(on, months) == on + relativedelta(months=months)


@pytest.mark.parametrize(
    ("today", "old"),
    [
        (date(2027, 1, 31), False),  # the day itself
        (date(2027, 2, 1), True),
        (date(2026, 1, 31), False),  # the day it was printed
    ],
)
def test_age_of_a_paper(today, old):
    shelf = {"workshop": {"review_after_months": 12}}
    case = tablet(oil(document=[sheet()]), shelf=shelf, on=today)
    assert ("papers.old" in found(case)) is old


def test_without_an_age_nothing_is_old():
    case = tablet(oil(document=[sheet()]), on=date(2100, 1, 1))
    assert found(case) == {}


def test_a_paper_without_a_date_is_asked_about():
    case = tablet(oil(document=[sheet(date=None)]))
    finding = found(case)["papers.no-date"][0]
    assert finding.kind == "caution"
    assert finding.ask[0].code == "papers.ask-date"


def test_a_paper_from_the_future_is_a_slip():
    case = tablet(oil(document=[sheet(date="2026-12-01")]))
    assert "2026-12-01" in render(found(case)["papers.later-than-today"][0].why)


def test_no_paper_at_all():
    assert "papers.none" in found(tablet(oil()))
    menthol = {
        "id": "menthol",
        "name": "Menthol",
        "kind": "aroma chemical",
        "cas": "2216-51-5",
    }
    assert found(tablet(menthol)) == {}  # a single substance is known without one


@pytest.mark.parametrize(
    ("edition", "current", "code"),
    [
        ("51st", {"fragrance standard": "51st"}, None),
        ("49th", {"fragrance standard": "51st"}, "papers.other-edition"),
        ("", {"fragrance standard": "51st"}, "papers.no-edition"),
        ("51st", {}, "papers.current-not-known"),
        ("51st", {"another": "51st"}, "papers.current-not-known"),
    ],
)
def test_edition_of_a_cap(edition, current, code):
    case = tablet(capped(edition), shelf={"workshop": {"current": current}})
    assert set(found(case)) == ({code} if code else set())


def test_an_edition_is_said_once_for_all_its_categories():
    caps = [
        {
            "scheme": "fragrance standard",
            "edition": "49th",
            "category": str(n),
            "printed": "5 %",
        }
        for n in range(1, 12)
    ]
    case = tablet(
        oil(document=[sheet()], cap=caps),
        shelf={"workshop": {"current": {"fragrance standard": "51st"}}},
    )
    assert len(found(case)["papers.other-edition"]) == 1
    case = tablet(oil(document=[sheet()], cap=caps))
    assert len(found(case)["papers.current-not-known"]) == 1


def test_a_cap_on_a_component_has_an_edition_too():
    cap = {
        "on": "component",
        "name": "citral",
        "cas": "5392-40-5",
        "scheme": "fragrance standard",
        "edition": "49th",
        "printed": "1 %",
    }
    case = tablet(
        oil(document=[sheet()]),
        shelf={"workshop": {"current": {"fragrance standard": "51st"}}, "cap": [cap]},
    )
    assert "citral" in render(found(case)["papers.other-edition"][0].why)


def test_an_own_rule_has_no_edition():
    own = {"scheme": "own rule", "on": "load", "printed": "3 %"}
    case = tablet(oil(document=[sheet()]), shelf={"cap": [own]})
    assert found(case) == {}


def test_the_paper_and_the_entry_disagree():
    material = capped("51st", document="sds")
    material["document"] = [sheet(edition="49th")]
    case = tablet(
        material, shelf={"workshop": {"current": {"fragrance standard": "51st"}}}
    )
    assert "papers.editions-differ" in found(case)


def test_one_name_from_two_suppliers():
    twin = oil("pine  OIL", id="twin", supplier="Second")
    case = tablet(
        oil("Pine oil", supplier="First", document=[sheet()]),
        shelf={"material": [twin]},
    )
    said = render(found(case)["papers.same-name"][0].why)
    assert "First" in said
    assert "Second" in said


def test_a_report_of_another_lot():
    made = {"kind": "full GC-MS", "document": "gc", "row": []}
    report = {"id": "gc", "kind": "GC-MS report", "date": "2026-01-01", "lot": "41"}
    material = oil(
        document=[report], composition=[made], lot=[{"lot": "41"}, {"lot": "42"}]
    )
    assert found(tablet(material, "41")) == {}
    finding = found(tablet(material, "42"))["papers.other-lot"][0]
    assert "41" in render(finding.why)
    assert finding.ask[0].values["lot"] == "42"


def test_a_lot_without_a_report_beside_one_that_has_it():
    made = {"kind": "full GC-MS", "row": []}
    material = oil(
        document=[sheet()], lot=[{"lot": "41", "composition": [made]}, {"lot": "42"}]
    )
    assert found(tablet(material, "41")) == {}
    assert "papers.lot-without-list" in found(tablet(material, "42"))
