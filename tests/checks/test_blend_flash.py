"""Estimated flash points as findings: facts and cautions that decide nothing."""

import pytest

from blendcheck.assess import assess
from blendcheck.checks import blend_flash
from blendcheck.quantity import Mark
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


def test_a_bound_on_the_paper_is_not_called_different():
    bound = scented("Oil", ("Linalool", LINALOOL, "100 %"), flash=">93 °C")
    (one,) = findings(make_case((bound, "8 g"), (BICARBONATE, "90 g")))
    assert [say.code for say in one.also] == ["flash.entered"]


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
    assert "carrier (up to 90 %)" in render(found.why)


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
