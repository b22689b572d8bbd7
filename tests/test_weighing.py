"""The weighing list: what the scale shows, and what that changes.

Rounding is compared with the standard library's decimal arithmetic (half to even, as
IEEE 754 names it), the check of the rounded recipe with a recipe typed in by hand.
"""

from decimal import ROUND_HALF_EVEN, Decimal
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from blendcheck.records.finding import Outcome
from blendcheck.weighing import scale_of, weighing_list
from tests.checks.shelves import cap, checked, oil

OVER, WITHIN = Outcome.OVER, Outcome.WITHIN


def scale(text):
    return {"workshop": {"scale": text}}


def weights(result):
    return {line.says: line.to_weigh for line in weighing_list(result).lines}


@settings(max_examples=60, deadline=None)
@given(
    grams=st.decimals("0.5", "500", places=4),
    step=st.sampled_from(["0.01", "0.1", "0.5", "1", "0.2"]),
)
def test_lines_are_rounded_to_the_nearest_step_of_the_scale(grams, step):
    one = oil("oil", cap("100"))
    result = checked(
        {"base": "600 g", "oil": f"{grams} g"}, [one], shelf=scale(f"{step} g")
    )
    steps = (grams / Decimal(step)).quantize(Decimal(1), ROUND_HALF_EVEN)
    assert weights(result)["Oil"] == Fraction(steps) * Fraction(step)


def test_lines_stand_in_the_order_of_the_recipe_with_lots_and_what_was_written():
    one = oil("oil", cap("100"), lot=[{"lot": "007"}])
    result = checked(
        {"base": "98 g"},
        [one],
        blend={
            "line": [{"material": "oil", "lot": "007", "amount": "20 g"}],
        },
        shelf=scale("0.1 g"),
    )
    listed = weighing_list(result).lines
    assert [(x.where, x.says, x.lot, x.as_written) for x in listed] == [
        ("line[1]", "Bicarbonate", "", "98 g"),
        ("blend.line[1]", listed[1].says, "007", "20 g"),
    ]


def test_pounds_and_ounces_are_listed_in_grams():
    # the international avoirdupois pound: 453.59237 g exactly
    one = oil("oil", cap("100"))
    result = checked({"base": "1 lb", "oil": "2 g"}, [one], shelf=scale("0.01 g"))
    assert weights(result)["Bicarbonate"] == Fraction("453.59")


def test_parts_are_worked_out_and_then_rounded():
    lines = [
        {"material": "base", "amount": "2 parts"},
        {"material": "clay", "amount": "1 part"},
        {"material": "oil", "amount": "2 g"},
    ]
    clay = {"id": "clay", "name": "Clay", "kind": "solid"}
    result = checked(
        lines,
        [oil("oil", cap("100")), clay],
        pieces=10,
        piece_mass="10 g",
        shelf=scale("0.1 g"),
    )
    # 98 g as 2 to 1: 65.333... and 32.666... g
    assert weights(result) == {
        "Bicarbonate": Fraction("65.3"),
        "Clay": Fraction("32.7"),
        "Oil": 2,
    }


def test_a_line_that_is_counted_is_not_weighed():
    one = oil("oil", cap("100"), density="0.9 g/mL")
    result = checked({"base": "98 g", "oil": "20 drops"}, [one], shelf=scale("0.1 g"))
    (_, drops) = weighing_list(result).lines
    assert drops.to_weigh is None
    assert not drops.planned.is_exact
    assert drops.as_written == "20 drops"


def test_rounding_that_breaks_a_cap_is_told():
    # 4.96 g in 99.9 g are 4.965 %; 5.0 g in 99.9 g are 5.005 %
    one = oil("oil", cap("5 %"))
    lines = {"base": "94.94 g", "oil": "4.96 g"}
    found = weighing_list(checked(lines, [one], shelf=scale("0.1 g")))
    assert [(f.subject, f.outcome, now) for f, now in found.changed] == [
        ("Oil", WITHIN, OVER)
    ]
    assert found.rounded.outcome is OVER


def test_rounding_that_mends_a_cap_is_told_too():
    one = oil("oil", cap("5 %"))
    lines = {"base": "95 g", "oil": "5.02 g"}
    found = weighing_list(checked(lines, [one], shelf=scale("0.1 g")))
    assert [(f.outcome, now) for f, now in found.changed] == [(OVER, WITHIN)]


def test_rounding_onto_the_cap_is_within():
    # 5.0 g in 100.0 g
    one = oil("oil", cap("5 %"))
    lines = {"base": "94.96 g", "oil": "4.96 g"}
    found = weighing_list(checked(lines, [one], shelf=scale("0.1 g")))
    assert found.changed == ()
    assert found.rounded.outcome is WITHIN


def test_a_limit_that_moves_with_the_masses_is_compared_as_well():
    # dry it should weigh 100.06 g as written and 100.0 g as rounded; it weighs 100.05 g
    one = oil("oil", cap("100"))
    lines = {"base": "95.03 g", "oil": "5.03 g"}
    result = checked(lines, [one], shelf=scale("0.1 g"), dry_mass="100.05 g")
    found = weighing_list(result)
    assert ("dry mass", OVER) in [(f.subject, now) for f, now in found.changed]


@settings(max_examples=40, deadline=None)
@given(
    base=st.decimals("80", "120", places=3),
    a=st.decimals("0.6", "9", places=3),
    b=st.decimals("0.6", "9", places=3),
)
def test_the_rounded_check_is_that_of_the_rounded_amounts_typed_in(base, a, b):
    oils = [oil("a", cap("5 %")), oil("b", cap("4 %"))]
    amounts = {"base": base, "a": a, "b": b}
    as_written = {name: f"{grams} g" for name, grams in amounts.items()}
    typed = {
        name: f"{grams.quantize(Decimal('0.1'), ROUND_HALF_EVEN)} g"
        for name, grams in amounts.items()
    }
    found = weighing_list(checked(as_written, oils, shelf=scale("0.1 g")))
    by_hand = checked(typed, oils, shelf=scale("0.1 g"))

    def told(result):
        return [
            (f.check, f.subject, f.outcome, f.why.code)
            for f in result.findings
            if f.kind == "limit"
        ]

    assert told(found.rounded) == told(by_hand)


def test_a_blend_with_a_load_is_weighed_as_one_line_and_checked():
    oils = [oil("a", cap("5 %")), oil("b", cap("5 %"))]
    blend = {
        "load": "2.03 %",
        "of": "the total",
        "line": [
            {"material": "a", "amount": "1 part"},
            {"material": "b", "amount": "1 part"},
        ],
    }
    lines = [{"material": "base", "amount": "1 part"}]
    result = checked(
        lines, oils, blend=blend, pieces=10, piece_mass="10 g", shelf=scale("0.1 g")
    )
    found = weighing_list(result)
    assert [(x.where, x.to_weigh) for x in found.lines if x.where == "blend"] == [
        ("blend", 2)
    ]
    assert found.rounded is not None
    assert found.rounded.outcome is WITHIN


def test_what_the_scale_cannot_show_is_named_and_nothing_is_checked():
    one = oil("oil", cap("5 %"))
    result = checked({"base": "100 g", "oil": "0.4 g"}, [one], shelf=scale("1 g"))
    found = weighing_list(result)
    assert found.too_fine == ("Oil",)
    assert found.rounded is None
    assert found.changed == ()


def test_a_line_of_nothing_is_not_too_fine():
    one = oil("oil", cap("5 %"))
    result = checked({"base": "100 g", "oil": "0 g"}, [one], shelf=scale("1 g"))
    assert weighing_list(result).too_fine == ()


@pytest.mark.parametrize("text", [None, "0 g"])
def test_without_a_scale_nothing_is_rounded(text):
    shelf = None if text is None else scale(text)
    result = checked({"base": "98 g", "oil": "1.23456 g"}, [oil("oil")], shelf=shelf)
    found = weighing_list(result)
    assert scale_of(result) is None
    assert (found.scale, found.rounded, found.changed) == (None, None, ())
    assert weights(result)["Oil"] == Fraction("1.23456")
