"""The document of ``check --json``: every key, and every number in it.

The shape is written out here once more, by hand, from what the README promises. The
numbers are worked from the recipe, not read back.
"""

import json
import re
from datetime import date
from fractions import Fraction

import pytest

from blendcheck import __version__
from blendcheck.assess import assess
from blendcheck.demo import MATERIALS, demo_files
from blendcheck.files import materials_from_text, recipe_from_text
from blendcheck.largest import largest
from blendcheck.records.working import RULES
from blendcheck.report import report
from tests.checks.shelves import LINALOOL, cap, checked, component_cap, oil, paper, row

ON = date(2026, 11, 25)
RECIPES = [name for name in demo_files() if name != MATERIALS]

TOP = {
    "schema",
    "recipe",
    "hash",
    "on",
    "blendcheck",
    "outcome",
    "masses",
    "lines",
    "components",
    "findings",
    "largest",
    "figures",
    "steps",
}
MASSES = {"wet_g", "powders_g", "finished_g", "piece_g", "pieces", "left_over_g"}
LINE = {"material", "lot", "g", "percent", "g_per_piece", "g_per_use"}
COMPONENT = {"name", "cas", "percent_finished", "g_per_piece", "from", "marks"}
FINDING = {
    "kind",
    "check",
    "subject",
    "outcome",
    "counts",
    "value",
    "limit",
    "unit",
    "base",
    "scheme",
    "edition",
    "category",
    "why",
    "also",
    "turns_at",
    "ask",
    "source",
    "marks",
    "step",
}
LARGEST = {
    "of",
    "lines",
    "category",
    "reading",
    "g",
    "percent_finished",
    "limited_by",
    "no_number_for",
}
FIGURE = {"printed", "range", "unit", "says", "basis", "document", "marks"}
STEP = {"rule", "given", "result", "linear", "unit", "base", "says", "marks"}
OUTCOMES = {"over", "straddles", "unknown", "within"}


@pytest.fixture(scope="module")
def documents():
    shelf = materials_from_text(demo_files()[MATERIALS], MATERIALS)
    made = {}
    for name in RECIPES:
        result = assess(recipe_from_text(demo_files()[name], name), shelf, ON)
        made[name] = json.loads(json.dumps(report(result, largest(result))))
    return made


def is_range(value):
    ends = [end for end in value if end is not None]
    return (
        isinstance(value, list)
        and len(value) == 2
        and all(isinstance(e, int | float) and not isinstance(e, bool) for e in ends)
        and (len(ends) < 2 or ends[0] <= ends[1])
    )


# -- the shape -------------------------------------------------------------------


@pytest.mark.parametrize("name", RECIPES)
def test_every_key_is_there_and_no_other(documents, name):
    found = documents[name]
    assert set(found) == TOP
    assert set(found["masses"]) == MASSES
    for key, wanted in (
        ("lines", LINE),
        ("components", COMPONENT),
        ("findings", FINDING),
        ("largest", LARGEST),
    ):
        assert found[key], key
        assert all(set(one) - {"open"} == wanted for one in found[key]), key
    assert all(set(one) - {"open"} == FIGURE for one in found["figures"].values())
    assert all(set(one) - {"open"} == STEP for one in found["steps"].values())


@pytest.mark.parametrize("name", RECIPES)
def test_the_head_says_what_was_checked_and_when(documents, name):
    found = documents[name]
    assert (found["schema"], found["blendcheck"]) == (1, __version__)
    assert found["on"] == "2026-11-25"
    assert f'name = "{found["recipe"]}"' in demo_files()[name]
    assert re.fullmatch(r"[0-9a-f]{12}", found["hash"])
    assert found["outcome"] in OUTCOMES


@pytest.mark.parametrize("name", RECIPES)
def test_ranges_are_two_ends_low_first(documents, name):
    found = documents[name]
    masses = found["masses"]
    spans = [masses[k] for k in MASSES - {"pieces"}]
    for one in found["lines"]:
        spans += [one["g"], one["g_per_piece"], one["g_per_use"]]
        spans += list(one["percent"].values())
    for one in found["components"]:
        spans += [one["percent_finished"], one["g_per_piece"]]
        spans += [each["g"] for each in one["from"]]
    spans += [one["value"] for one in found["findings"]]
    spans += [one["range"] for one in found["figures"].values()]
    spans += [one["result"] for one in found["steps"].values()]
    assert all(is_range(span) for span in spans if span is not None)


@pytest.mark.parametrize("name", RECIPES)
def test_only_limits_have_an_outcome(documents, name):
    for one in documents[name]["findings"]:
        assert one["kind"] in ("limit", "fact", "caution")
        if one["kind"] == "limit":
            assert one["outcome"] in OUTCOMES
        else:
            assert one["outcome"] is None


@pytest.mark.parametrize("name", RECIPES)
def test_the_overall_outcome_is_the_worst_limit_that_counts(documents, name):
    found = documents[name]
    counted = {
        one["outcome"]
        for one in found["findings"]
        if one["kind"] == "limit" and one["counts"]
    }
    order = ["over", "straddles", "unknown", "within"]
    assert found["outcome"] == min(counted, key=order.index)


@pytest.mark.parametrize("name", RECIPES)
def test_every_id_leads_to_a_step_or_a_figure(documents, name):
    found = documents[name]
    ids = found["steps"].keys() | found["figures"].keys()
    assert found["steps"].keys() & found["figures"].keys() == set()
    for one in found["findings"]:
        assert one["step"] is None or one["step"] in ids
        assert (one["step"] is None) == (one["value"] is None)
        if one["step"] in found["steps"]:
            assert found["steps"][one["step"]]["result"] == one["value"]
    for step in found["steps"].values():
        assert step["rule"] in RULES
        assert set(step["given"]) <= ids


@pytest.mark.parametrize("name", RECIPES)
def test_steps_end_at_figures_and_never_run_in_a_circle(documents, name):
    steps = documents[name]["steps"]
    done: set[str] = set()

    def open_up(one, path):
        assert one not in path
        if one in steps and one not in done:
            for given in steps[one]["given"]:
                open_up(given, (*path, one))
            done.add(one)

    for one in documents[name]["findings"]:
        if one["step"]:
            open_up(one["step"], ())


@pytest.mark.parametrize("name", RECIPES)
def test_every_text_has_its_code_and_its_values(documents, name):
    for one in documents[name]["findings"]:
        says = [one["why"], *one["also"], *one["ask"]]
        says += [one["turns_at"]] if one["turns_at"] else []
        for say in says:
            assert set(say) == {"code", "text", "values"}
            assert re.fullmatch(r"[a-z]+\.[a-z-]+", say["code"])
            assert "{" not in say["text"]


# -- the numbers -------------------------------------------------------------------


def of(result):
    return json.loads(json.dumps(report(result, largest(result))))


def by(found, key, value):
    (one,) = [x for x in found if x[key] == value]
    return one


def test_masses_lines_and_components_of_a_recipe_worked_by_hand():
    """1000 g dry of 1100 g wet in 16 pieces of 60 g, half a piece for one use.

    20 g of the oil are 2 % of the finished product, 20/11 % of the wet mix and
    20/9.8 % of the 980 g of powders; 1.2 g in a piece and 0.6 g in a use. Linalool is
    25 to < 50 % of the oil: 0.5 to < 1 % finished, 0.3 to 0.6 g a piece.
    """
    spirit = {
        "id": "spirit",
        "name": "Spirit",
        "kind": "alcohol",
        "leaves_on_drying": "100 %",
    }
    one = oil(
        "oil",
        cap("5 %", document="certificate"),
        papers=[paper(row("Linalool", LINALOOL, "≥ 25 - < 50 %"))],
        lot=[{"lot": "007"}],
    )
    found = of(
        checked(
            {"base": "980 g", "oil": "20 g", "spirit": "100 g"},
            [one, spirit],
            pieces=16,
            piece_mass="60 g",
            pieces_per_use="1/2",
        )
    )
    assert found["masses"] == {
        "wet_g": [1100, 1100],
        "powders_g": [980, 980],
        "finished_g": [1000, 1000],
        "piece_g": [60, 60],
        "pieces": 16,
        "left_over_g": [40, 40],
    }
    line = by(found["lines"], "material", "oil")
    assert line["lot"] == "007"
    assert line["g"] == [20, 20]
    assert line["percent"]["finished"] == [2, 2]
    assert line["percent"]["wet"] == [pytest.approx(20 / 11, rel=1e-11)] * 2
    assert line["percent"]["powders"] == [pytest.approx(20 / 9.8, rel=1e-11)] * 2
    assert line["g_per_piece"] == [1.2, 1.2]
    assert line["g_per_use"] == [0.6, 0.6]
    assert by(found["lines"], "material", "spirit")["percent"]["finished"] == [0, 0]
    linalool = by(found["components"], "cas", LINALOOL)
    assert linalool["name"] == "Linalool"
    assert linalool["percent_finished"] == [0.5, 1]
    assert linalool["open"] == ["high"]
    assert linalool["g_per_piece"] == [0.3, 0.6]
    assert linalool["from"] == [{"material": "oil", "lot": "007", "g": [5, 10]}]
    finding = by([f for f in found["findings"] if f["scheme"]], "subject", "Oil")
    assert finding["value"] == [2, 2]
    assert (finding["unit"], finding["base"]) == ("%", "finished")
    assert (finding["edition"], finding["category"]) == ("51", "9")
    assert finding["source"] == "certificate"


def test_a_product_without_powders_or_pieces_says_null():
    carrier = {"id": "wax", "name": "Wax", "kind": "carrier"}
    lines = [
        {"material": "wax", "amount": "95 g"},
        {"material": "oil", "amount": "5 g"},
    ]
    found = of(checked(lines, [oil("oil", cap("5 %")), carrier], product="balm"))
    assert found["masses"]["piece_g"] is None
    assert found["masses"]["pieces"] is None
    assert found["masses"]["left_over_g"] is None
    for line in found["lines"]:
        assert line["percent"]["powders"] is None
        assert (line["g_per_piece"], line["g_per_use"]) == (None, None)


def test_an_end_that_nothing_bounds_is_null():
    # the flash point ">93 °C" has no high end
    one = oil("oil", cap("5 %"), flash_point=">93 °C closed cup")
    found = of(checked({"base": "95 g", "oil": "5 g"}, [one]))
    figures = [f for f in found["figures"].values() if f["printed"].startswith(">93")]
    assert figures
    assert all(f["range"] == [93, None] and f["open"] == ["low"] for f in figures)


def test_a_component_by_name_only_has_no_cas():
    one = oil("oil", cap("5 %"), papers=[paper(row("Mystery", None, "10 %"))])
    found = of(checked({"base": "95 g", "oil": "5 g"}, [one]))
    assert by(found["components"], "name", "Mystery")["cas"] is None


def test_marks_travel_with_components_findings_figures_and_steps():
    one = oil(
        "oil",
        cap("100"),
        papers=[{**paper(row("x", LINALOOL, "40 %")), "basis": "area"}],
    )
    shelf = {"cap": [component_cap("x", LINALOOL, "5 %")]}
    found = of(checked({"base": "95 g", "oil": "5 g"}, [one], shelf=shelf))
    finding = by(found["findings"], "subject", "x")
    assert finding["marks"] == ["area %"]
    assert by(found["components"], "cas", LINALOOL)["marks"] == ["area %"]
    assert found["steps"][finding["step"]]["marks"] == ["area %"]
    (figure,) = [f for f in found["figures"].values() if f["printed"] == "40 %"]
    assert (figure["basis"], figure["marks"]) == ("area", ["area %"])


def test_numbers_have_twelve_digits_and_whole_ones_none_behind_the_point():
    one = oil("oil", cap("50 %"))
    found = of(checked({"base": "2 g", "oil": "1 g"}, [one]))
    line = by(found["lines"], "material", "oil")
    assert line["percent"]["finished"] == [33.3333333333, 33.3333333333]
    assert isinstance(line["g"][0], int)
    exact = Fraction(100, 3)
    assert abs(Fraction("33.3333333333") - exact) < Fraction(1, 10**10)


def test_the_largest_amounts_stand_beside_the_findings():
    found = of(checked({"base": "98 g", "oil": "2 g"}, [oil("oil", cap("5 %"))]))
    held = by(found["largest"], "reading", "finished mass held")
    assert (held["of"], held["g"], held["percent_finished"]) == ("Oil", 5, 5)
    assert held["limited_by"] == "Oil"
    assert held["lines"] == ["line[2]"]


def test_the_same_input_gives_the_same_document_and_another_another_hash():
    def made(grams, on=ON):
        one = oil("oil", cap("5 %"))
        return of(checked({"base": "98 g", "oil": grams}, [one], on=on))

    assert made("2 g") == made("2 g")
    hashes = {
        made("2 g")["hash"],
        made("2.0 g")["hash"],  # written otherwise: another record
        made("3 g")["hash"],
        made("2 g", date(2026, 11, 26))["hash"],
    }
    assert len(hashes) == 4
