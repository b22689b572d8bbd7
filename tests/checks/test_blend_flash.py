"""Estimated flash points as findings: facts and cautions that decide nothing."""

import pytest

from blendcheck.assess import assess
from blendcheck.checks import blend_flash
from blendcheck.estimates.flash import flash_of_parts
from blendcheck.estimates.parts import part_of
from blendcheck.quantity import Mark, print_estimate
from blendcheck.words import render
from tests.checks.cases import ALCOHOL, BICARBONATE, ON, by_code, make_case, oil

LINALOOL, LIMONENE, PINENE = "78-70-6", "5989-27-5", "80-56-8"


def report(*rows, unidentified="0 %", whole=True, basis="w/w"):
    return {
        "kind": "full GC-MS",
        "basis": basis,
        "copied_whole": whole,
        "unidentified": unidentified,
        "row": [
            {"name": name, "cas": cas, "share": share} for name, cas, share in rows
        ],
    }


def scented(name, *rows, flash=None, **fields):
    more = {"flash_point": flash} if flash else {}
    return oil(name, composition=[report(*rows, **fields)], **more)


def two(flash="72 °C closed cup"):
    heavy = scented("Heavy oil", ("Linalool", LINALOOL, "100 %"), flash=flash)
    light = scented("Light oil", ("Limonene", LIMONENE, "100 %"), flash="48 °C")
    return heavy, light


def findings(case):
    found = list(blend_flash.check(case))
    for one in found:
        assert one.kind in ("fact", "caution")
        assert one.outcome is None
        for say in (one.why, *one.also, *one.ask):
            assert render(say)
    return found


def test_oils_and_their_blend():
    heavy, light = two()
    found = findings(make_case((heavy, "8 g"), (light, "2 g"), (BICARBONATE, "90 g")))
    assert [one.subject for one in found] == ["Heavy oil", "Light oil", "the blend"]
    alone, _, blend = (one.estimates[0] for one in found)
    assert (alone.low, alone.central, alone.high) == pytest.approx((70, 75, 80))
    assert blend.central < alone.central
    assert blend.unit == "°C"
    assert {"espinosa-1999", "sds-linalool"} <= set(blend.sources)
    names = [one.name for f in found for one in f.estimates]
    assert len(names) == len(set(names))


def test_the_entered_figure_counts_and_stands_beside():
    heavy, light = two()
    (one, *_) = findings(make_case((heavy, "8 g"), (BICARBONATE, "90 g")))
    assert [say.code for say in one.also] == ["flash.entered"]
    assert one.also[0].values["flash"] == "72 °C closed cup"
    far = scented("Oil", ("Linalool", LINALOOL, "100 %"), flash="46 °C")
    (one,) = findings(make_case((far, "8 g"), (BICARBONATE, "90 g")))
    assert [say.code for say in one.also] == ["flash.entered", "flash.differs"]
    none = scented("Oil", ("Linalool", LINALOOL, "100 %"))
    (one,) = findings(make_case((none, "8 g"), (BICARBONATE, "90 g")))
    assert [say.code for say in one.also] == ["flash.not-entered"]
    assert light["name"] == "Light oil"


@pytest.mark.parametrize(
    ("flash", "differs"),
    [(">61 °C", False), (">93 °C", True), ("<60 °C", True), ("60-70 °C", False),
     ("60-69 °C", True), ("<100 °C", False)],
)  # fmt: skip
def test_a_bound_on_the_paper_differs_where_it_leaves_the_estimate(flash, differs):
    bound = scented("Oil", ("Linalool", LINALOOL, "100 %"), flash=flash)  # 70 to 80
    (one,) = findings(make_case((bound, "8 g"), (BICARBONATE, "90 g")))
    codes = ["flash.entered", *(["flash.differs"] if differs else [])]
    assert [say.code for say in one.also] == codes


@pytest.mark.parametrize(
    ("fields", "code"),
    [
        ({"unidentified": "6 %"}, "flash.no-oil"),
        ({"whole": False}, "flash.no-report-oil"),
        ({"unidentified": "4 %"}, "flash.oil"),
    ],
)
def test_what_a_report_leaves_open(fields, code):
    rest = 100 - int(fields.get("unidentified", "0 %").split()[0])
    one = scented("Oil", ("Linalool", LINALOOL, f"{rest} %"), **fields)
    (found,) = findings(make_case((one, "8 g"), (BICARBONATE, "90 g")))
    assert found.why.code == code
    assert bool(found.estimates) == (code == "flash.oil")
    if code == "flash.no-oil":
        assert "not listed (up to 6.0 %)" in render(found.why)
        assert [say.code for say in found.ask] == ["flash.ask"]


def test_a_published_range_is_no_report():
    made = report(("Linalool", LINALOOL, "100 %"))
    made |= {"kind": "published range", "copied_whole": False}
    one = oil("Oil", composition=[made])
    (found,) = findings(make_case((one, "8 g"), (BICARBONATE, "90 g")))
    assert found.why.code == "flash.no-report-oil"


def test_a_diluted_oil_lacks_its_diluent():
    carrier = {"id": "carrier", "name": "Carrier", "kind": "carrier"}
    thin = scented("Thin oil", ("Linalool", LINALOOL, "100 %")) | {
        "dilution": {
            "percent": "10 %",
            "diluent": "carrier",
            "papers_describe": "undiluted",
        }
    }
    shelf = {"material": [carrier]}
    (found,) = findings(make_case((thin, "8 g"), (BICARBONATE, "90 g"), shelf=shelf))
    assert found.why.code == "flash.no-oil"
    assert "Carrier in Thin oil (up to 90 %)" in render(found.why)


def test_single_substances_have_their_own_figure_and_no_estimate():
    menthol = {
        "id": "menthol", "name": "Menthol", "kind": "aroma chemical",
        "cas": "2216-51-5", "flash_point": "93 °C closed cup",
    }  # fmt: skip
    assert findings(make_case((menthol, "8 g"), (BICARBONATE, "90 g"))) == []
    heavy, _ = two()
    found = findings(make_case((menthol, "4 g"), (heavy, "4 g"), (BICARBONATE, "90 g")))
    assert [one.subject for one in found] == ["Heavy oil", "the blend"]


def test_near_a_class_limit_the_statement_is_a_closed_cup_test():
    near = scented("Oil", ("Benzaldehyde", "100-52-7", "100 %"))  # 64 degC
    (one,) = findings(make_case((near, "8 g"), (BICARBONATE, "90 g")))
    assert one.kind == "caution"
    said = next(say for say in one.also if say.code == "flash.closed-cup")
    assert "60 °C" in render(said)
    assert "needs a closed-cup test" in render(said)


def test_the_wet_mix_has_the_alcohols_own_figure_only():
    heavy, _ = two()
    case = make_case((heavy, "8 g"), (ALCOHOL, "10 g"), (BICARBONATE, "90 g"))
    found = by_code(findings(case))
    (wet,) = found["flash.wet-mix"]
    assert wet.estimates == ()
    assert "12 °C closed cup" in render(wet.why)


@pytest.mark.parametrize(("base", "warned"), [("75 °C", True), ("55 °C", False)])
def test_a_heated_base_that_is_as_warm_as_the_oils_flash(base, warned):
    heavy, _ = two()
    case = make_case(
        (heavy, "8 g"),
        (BICARBONATE, "90 g"),
        process={"temperature": {"heated base": base}},
    )
    assert ("flash.heated" in by_code(findings(case))) is warned


@pytest.mark.parametrize(
    ("row", "code"),
    [
        (("Linalool", LINALOOL, "100 %"), "flash.posted-above"),
        (("Limonene", LIMONENE, "100 %"), "flash.posted-below"),
        (("Benzaldehyde", "100-52-7", "100 %"), "flash.posted-may"),
    ],
)
def test_posting_defers_to_the_carrier(row, code):
    case = make_case(
        (scented("Oil", row), "8 g"),
        (BICARBONATE, "90 g"),
        process={"temperature": {"posting": "30 °C"}},
    )
    (found,) = by_code(findings(case))[code]
    assert [say.code for say in found.ask] == ["flash.ask-carrier"]


def test_ranges_have_a_spread_of_draws_beside_the_interval():
    wide = scented(
        "Oil", ("Linalool", LINALOOL, "60-90 %"), ("Limonene", LIMONENE, "10-40 %")
    )
    (one,) = findings(make_case((wide, "8 g"), (BICARBONATE, "90 g")))
    interval, spread = one.estimates
    assert spread.name == f"{interval.name}.draws"
    assert interval.low < spread.low < spread.high < interval.high


def test_doubts_travel():
    area = scented(
        "Oil",
        ("Linalool", LINALOOL, "90 %"),
        ("Myrcene", "123-35-3", "6 %"),
        ("Menthofuran", "494-90-6", "4 %"),
        basis="area",
    )
    (one,) = findings(make_case((area, "8 g"), (BICARBONATE, "90 g")))
    assert {Mark.ESTIMATED, Mark.FROM_MEMORY, Mark.AREA_PERCENT} <= one.marks
    codes = [say.code for say in one.also]
    assert {"flash.recalled", "flash.light-ends"} <= set(codes)
    assert "Menthofuran (up to 4.0 %)" in render(
        one.also[codes.index("flash.light-ends")]
    )


def test_drops_and_stock_blends_are_weighed_into_the_blend():
    heavy, light = two()
    shelf = {
        "material": [light],
        "stock": [
            {
                "id": "stock",
                "line": [
                    {"material": "heavy-oil", "amount": "3 parts"},
                    {"material": "light-oil", "amount": "1 part"},
                ],
            }
        ],
    }
    base = make_case((heavy, "6 g"), (light, "2 g"), (BICARBONATE, "90 g"))
    mixed = make_case(
        (BICARBONATE, "90 g"),
        shelf={**shelf, "material": [heavy, light]},
        blend={
            "load": "8 %",
            "of": "the total",
            "line": [{"stock": "stock", "amount": "1 part"}],
        },
    )
    first, second = (
        by_code(findings(case))["flash.blend"][0].estimates[0] for case in (base, mixed)
    )
    assert second.central == pytest.approx(first.central, abs=1e-6)


def test_an_assessment_is_the_same_with_estimates():
    heavy, light = two()
    case = make_case((heavy, "8 g"), (light, "2 g"), (BICARBONATE, "90 g"))
    plain = assess(case.recipe, case.materials, ON)
    more = assess(case.recipe, case.materials, ON, estimates=True)
    assert more.outcome == plain.outcome
    assert any(one.check == "flash" for one in more.findings)


ETHANOL = {"id": "spirit", "name": "Spirit", "kind": "alcohol", "cas": "64-17-5"}


def test_a_spirit_in_the_same_bottle_has_no_estimate_of_oils_alone():
    heavy, light = two()
    bottle = {
        "id": "bottle",
        "line": [
            {"material": "heavy-oil", "amount": "9 g"},
            {"material": "spirit", "amount": "1 g"},
        ],
    }
    shelf = {"material": [heavy, ETHANOL], "stock": [bottle]}
    lines = [
        {"material": "bicarbonate", "amount": "90 g"},
        {"material": "light-oil", "amount": "2 g"},
        {"stock": "bottle", "amount": "8 g"},
    ]
    case = make_case((BICARBONATE, "90 g"), (light, "2 g"), shelf=shelf, line=lines)
    found = by_code(findings(case))
    assert "flash.blend" not in found
    (refused,) = found["flash.mixed-in-blend"]
    assert "Spirit" in render(refused.why)
    # Sprayed on afterwards it lies in no bottle with them.
    apart = make_case((BICARBONATE, "90 g"), (heavy, "8 g"), (light, "2 g"),
                      (ETHANOL, "1 g"))  # fmt: skip
    assert "flash.blend" in by_code(findings(apart))


@pytest.mark.parametrize("percent", ["97 %", "97-99 %"])
def test_an_oil_sold_in_a_little_spirit_flashes_as_that_makes_it(percent):
    thin = scented("Thin oil", ("Linalool", LINALOOL, "100 %")) | {
        "dilution": {
            "percent": percent,
            "diluent": "spirit",
            "papers_describe": "undiluted",
        }
    }
    case = make_case(
        (thin, "8 g"), (BICARBONATE, "90 g"), shelf={"material": [ETHANOL]}
    )
    (oil_found,) = by_code(findings(case))["flash.oil"]
    expected = flash_of_parts({LINALOOL: 97, "64-17-5": 3})
    assert oil_found.estimates[0].low == pytest.approx(expected - 5, abs=1)


@pytest.mark.parametrize(
    ("name", "cas"),
    [("Ethanol", None), ("n-Hexane", None), ("Hexane", "110-54-3"), ("acetone", None)],
)
def test_a_solvent_that_lacks_figures_is_not_taken_for_a_light_oil(name, cas):
    row = {"name": name, "share": "3 %"} | ({"cas": cas} if cas else {})
    made = report(("Linalool", LINALOOL, "97 %"))
    made["row"].append(row)
    one = oil("Oil", composition=[made])
    (found,) = findings(make_case((one, "8 g"), (BICARBONATE, "90 g")))
    assert found.why.code == "flash.no-oil"
    assert name in render(found.why)


def test_what_does_not_flash_is_said_so():
    wet = scented("Wet oil", ("Water", "7732-18-5", "100 %"))
    (found,) = findings(make_case((wet, "8 g"), (BICARBONATE, "90 g")))
    assert found.why.code == "flash.none-oil"


def test_what_is_said_is_what_stands_in_the_estimate():
    """Whole degrees, outwards, and a class limit that is shown is named."""
    for percent in range(0, 101, 10):
        one = scented(
            "Oil",
            ("Linalool", LINALOOL, f"{100 - percent} %"),
            ("Benzyl benzoate", "120-51-4", f"{percent} %"),
        )
        (found,) = findings(make_case((one, "8 g"), (BICARBONATE, "90 g")))
        first = found.estimates[0]
        assert f"from {first.low:.0f} to {first.high:.0f} °C" in render(found.why)
        for end in (first.low, first.high):
            assert float(print_estimate(end, digits=first.digits)) == end
        codes = [say.code for say in found.also]
        near = any(first.low <= each <= first.high for each in (23, 60, 93))
        assert ("flash.closed-cup" in codes) == near


def test_an_open_cup_and_an_absolute_are_said():
    made = scented("Oil", ("Linalool", LINALOOL, "100 %"), flash="76 °C open cup")
    case = make_case(({**made, "kind": "absolute"}, "8 g"), (BICARBONATE, "90 g"))
    codes = [say.code for say in findings(case)[0].also]
    assert codes == ["flash.entered", "flash.open-cup", "flash.absolute"]


def test_an_alcohol_without_a_figure_is_asked_about():
    heavy, _ = two()
    case = make_case((heavy, "8 g"), (ALCOHOL, "10 g"), (ETHANOL, "5 g"),
                     (BICARBONATE, "90 g"))  # fmt: skip
    found = by_code(findings(case))
    assert len(found["flash.wet-mix"]) == 1
    (other,) = found["flash.wet-mix-not-entered"]
    assert [say.code for say in other.ask] == ["flash.ask-alcohol"]


def test_light_ends_that_went_in_have_their_sources():
    one = scented("Oil", ("Linalool", LINALOOL, "97 %"), unidentified="3 %")
    (found,) = findings(make_case((one, "8 g"), (BICARBONATE, "90 g")))
    sources = found.estimates[0].sources
    assert set(part_of(PINENE).sources) <= set(sources)
    assert "gmehling-1993" in sources


def test_an_oil_is_held_against_the_heated_base_where_the_blend_has_no_estimate():
    heavy, light = two()
    process = {"temperature": {"heated base": "60-65 °C", "posting": "30 °C"}}
    case = make_case((heavy, "8 g"), (light, "2 g"), (oil("Unlisted"), "1 g"),
                     (BICARBONATE, "90 g"), process=process)  # fmt: skip
    found = by_code(findings(case))
    assert "flash.blend" not in found
    (warned,) = found["flash.heated-oil"]
    assert "Light oil" in render(warned.why)  # 42 to 53 degC, the lowest
    (posted,) = found["flash.posted-not-known"]
    assert [say.code for say in posted.ask] == ["flash.ask-carrier"]


def test_a_trace_in_a_little_oil_does_not_take_out_what_the_blend_is_made_of():
    """Thymol and citral have no interaction: the lighter in grams is left out."""
    much = scented(
        "Much", ("Thymol", "89-83-8", "40 %"), ("Limonene", LIMONENE, "60 %")
    )
    little = scented(
        "Little", ("Geranial", "141-27-5", "90 %"), ("L", LIMONENE, "10 %")
    )
    case = make_case((much, "19.6 g"), (little, "0.4 g"), (BICARBONATE, "80 g"))
    (blend,) = by_code(findings(case))["flash.blend"]
    names = render(next(say for say in blend.also if say.code == "flash.light-ends"))
    assert "Geranial (up to 1.8 %)" in names
    assert "Thymol" not in names


def test_a_trace_is_at_most_what_the_other_rows_leave():
    one = scented("Oil", ("Linalool", LINALOOL, "97-99 %"), ("X", None, "tr"))
    (found,) = findings(make_case((one, "8 g"), (BICARBONATE, "90 g")))
    said = next(say for say in found.also if say.code == "flash.light-ends")
    assert "X (up to 3.0 %)" in render(said)
