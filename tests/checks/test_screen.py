"""Use ÷ cap over all scented materials, and sums that a document itself demands.

The screen is tested for what it claims: if it says ``within``, no component behind the
certificates can be above its own limit. The truth there is a component that every oil
holds; the certificates are written from it as a supplier would.
"""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from blendcheck.records.finding import Outcome
from blendcheck.words import render
from tests.checks.shelves import (
    SCHEME,
    basis,
    cap,
    checked,
    component_cap,
    counting,
    decimal,
    ends,
    oil,
    on,
    only,
    paper,
    row,
)

TOGETHER, SUM = "scented materials together", "sum of a document"
OVER, STRADDLES = Outcome.OVER, Outcome.STRADDLES
UNKNOWN, WITHIN = Outcome.UNKNOWN, Outcome.WITHIN


def screens(result):
    return on(result, TOGETHER, "use over cap")


def two(first, second, *, a="2 g", b="3 g", base="95 g", **more):
    """Two oils, at 2 % and 3 %, each with its caps."""
    oils = [oil("a", *first), oil("b", *second)]
    return checked({"base": base, "a": a, "b": b}, oils, **more)


# -- the screen ------------------------------------------------------------------


@pytest.mark.parametrize(
    ("first", "second", "total", "outcome"),
    [
        ("4 %", "6 %", 1, WITHIN),  # 1/2 + 1/2: at 1 is within
        ("4 %", "5.9 %", Fraction(1, 2) + Fraction(30, 59), UNKNOWN),
        ("10 %", "10 %", Fraction(1, 2), WITHIN),
        ("2 %", "3 %", 2, UNKNOWN),  # both at their own cap
        ("Not restricted", "Not restricted", Fraction(5, 100), WITHIN),
        ("not added; max 4 %", "6 %", 1, WITHIN),
    ],
)
def test_uses_divided_by_their_caps_are_added(first, second, total, outcome):
    result = two([cap(first)], [cap(second)])
    found = counting(screens(result))
    assert ends(result, found) == (total, total)
    assert found.outcome is outcome
    assert "our own" in render(found.why) or outcome is UNKNOWN


def test_above_one_is_not_shown_to_be_within_and_never_over():
    result = two([cap("2 %")], [cap("3 %")])
    found = counting(screens(result))
    assert (found.outcome, found.why.code) == (UNKNOWN, "screen.above")
    assert "not shown to be within" in render(found.why)
    assert [say.code for say in found.ask] == ["ask.blend"]
    assert {f.outcome for f in on(result, "A") + on(result, "B")} == {WITHIN}
    assert result.outcome is UNKNOWN


def test_no_restriction_counts_as_a_cap_of_one_hundred_percent():
    """A is not restricted and holds 0.9 % of a component limited to 1 %; A goes in at
    15 %. B has a cap of 2 % and goes in at 1.9 %. Counted as nothing, A would leave the
    sum at 0.95; the truth can be 1.085 % of the component. With 100 % it reads 1.10.
    """
    result = two(
        [cap("Not restricted")], [cap("2 %")], a="15 g", b="1.9 g", base="83.1 g"
    )
    found = counting(screens(result))
    assert ends(result, found) == (Fraction("1.1"), Fraction("1.1"))
    assert found.outcome is UNKNOWN
    assert found.why.values["sum"] == "1.1"


@pytest.mark.parametrize("printed", ["", "-", "N/A", "0"])
def test_missing_or_not_applicable_makes_it_unknown(printed):
    # what is not permitted has no fraction either, and is over by itself
    result = two([cap("50 %")], [cap(printed)])
    found = counting(screens(result))
    assert (found.outcome, found.why.code) == (UNKNOWN, "screen.incomplete")
    assert found.why.values["materials"] == "B"


def test_a_scented_material_without_a_certificate_is_missing_from_the_screen():
    result = two([cap("50 %")], [])
    found = counting(screens(result))
    assert (found.outcome, found.why.values["materials"]) == (UNKNOWN, "B")
    assert [say.values["subject"] for say in found.ask] == ["B"]


def test_certificates_of_two_editions_are_never_added_together():
    result = two([cap("50 %", edition="51")], [cap("50 %", edition="49")])
    found = screens(result)
    assert {f.why.code for f in found} == {"screen.incomplete"}
    assert {f.why.values["materials"] for f in found} == {"A", "B"}
    assert result.outcome is UNKNOWN


def test_certificates_of_two_schemes_are_never_added_together():
    result = two([cap("50 %")], [cap("50 %") | {"scheme": "another"}])
    assert {f.why.code for f in screens(result)} == {"screen.incomplete"}


def test_certificates_of_two_categories_are_never_added_together():
    result = two([cap("50 %", "9")], [cap("50 %", "12")])
    assert counting(screens(result)).why.code == "screen.incomplete"


def test_each_category_has_its_own_sum_and_only_the_recorded_one_counts():
    first, second = (
        [cap("4 %", "9"), cap("2 %", "5A")],
        [cap("6 %", "9"), cap("3 %", "5A")],
    )
    found = {f.limit: f for f in screens(two(first, second))}
    (nine,) = [f for limit, f in found.items() if "category 9" in limit]
    (five,) = [f for limit, f in found.items() if "category 5A" in limit]
    assert (nine.outcome, nine.counts) == (WITHIN, True)
    assert (five.outcome, five.counts) == (UNKNOWN, False)


def test_one_scented_material_is_checked_by_its_own_cap_alone():
    assert screens(checked({"base": "98 g", "a": "2 g"}, [oil("a", cap("4 %"))])) == []


def test_an_unscented_material_has_no_part_in_it():
    clay = {"id": "clay", "name": "Clay", "kind": "solid"}
    lines = {"base": "90 g", "clay": "5 g", "a": "2 g", "b": "3 g"}
    oils = [oil("a", cap("4 %")), oil("b", cap("6 %")), clay]
    assert counting(screens(checked(lines, oils))).outcome is WITHIN


def test_of_two_certificates_of_one_oil_the_stricter_is_taken():
    lax, strict = cap("50 %", document="new"), cap("2 %", document="old")
    for pair in ([lax, strict], [strict, lax]):
        result = two(pair, [cap("6 %")])
        assert ends(result, counting(screens(result)))[1] == Fraction(3, 2)


def test_uses_in_a_range_are_taken_at_their_high_ends():
    result = two([cap("4 %")], [cap("6 %")], a="1-2 g", base="95 g")
    found = counting(screens(result))
    low, high = ends(result, found)
    assert high == Fraction(2, 100) / Fraction(4, 100) + Fraction(300, 99) / 6
    assert low < 1 < high
    assert found.outcome is UNKNOWN


def test_a_sum_of_nothing_is_printed_as_zero():
    result = two([cap("4 %")], [cap("6 %")], a="0 g", b="0 g")
    assert counting(screens(result)).why.values["sum"] == "0"


PERCENTS = st.integers(1, 10_000).map(lambda n: Fraction(n, 100))  # 0.01 to 100 %


@settings(max_examples=60, deadline=None)
@given(
    limit=st.integers(1, 400).map(lambda n: Fraction(n, 100)),
    oils=st.lists(st.tuples(PERCENTS, st.integers(1, 60)), min_size=2, max_size=5),
)
def test_within_speaks_for_a_component_that_every_oil_holds(limit, oils):
    """Each supplier divides the limit of the component by what its oil holds of it,
    and prints the result with two decimals, rounded down. ``within`` of the screen is
    then true of the sum in the piece.
    """
    shelf, lines, brought = [], {"base": "400 g"}, Fraction(0)
    for n, (held, grams) in enumerate(oils):
        most = Fraction(int(limit / held * 100 * 100), 100)
        printed = "Not restricted" if most >= 100 else f"{decimal(most)} %"
        shelf.append(oil(f"oil {n}", cap(printed if most else "not permitted")))
        lines[f"oil {n}"] = f"{grams} g"
        brought += held * grams
    result = checked(lines, shelf)
    whole = 400 + sum(grams for _, grams in oils)
    truth = brought / whole
    found = counting(screens(result))
    assert found.outcome in (WITHIN, UNKNOWN)
    if found.outcome is WITHIN:
        assert truth <= limit


# -- sums of a document -------------------------------------------------------------


def summed(*pairs, rest="100 g", category="9", shelf=None, **recipe):
    """Oils of one group: (grams, cap as printed) each."""
    oils = [
        oil(f"oil {n}", cap(printed, category, summed_with="phototoxic oils"))
        for n, (_, printed) in enumerate(pairs)
    ]
    lines = {"base": rest} | {f"oil {n}": g for n, (g, _) in enumerate(pairs)}
    return checked(lines, oils, shelf=shelf, **recipe)


def of_group(result):
    return on(result, "phototoxic oils", SUM)


@pytest.mark.parametrize(
    ("first", "second", "outcome"),
    [
        ("4 %", "4 %", WITHIN),  # 1/2 + 1/2
        ("4 %", "3.99 %", OVER),
        ("10 %", "10 %", WITHIN),
        ("1 %", "100 %", OVER),
    ],
)
def test_a_documents_own_sum_above_one_is_over(first, second, outcome):
    result = summed(("2 g", first), ("2 g", second), rest="96 g")
    found = counting(of_group(result))
    assert found.outcome is outcome
    assert result.outcome in (
        outcome,
        UNKNOWN,
    )  # the screen of our own may not say more
    # the cap of each alone is not what the document compares with
    assert on(result, "Oil 0") == on(result, "Oil 1") == []


@pytest.mark.published
def test_the_sum_of_a_regulation_that_adds_fractions_of_limits():
    """29 CFR 1910.1000(d)(2)(i), the example of the mixture: 500 of 1000, 45 of 200
    and 40 of 200 ppm give 0.500 + 0.225 + 0.200 = 0.925, below 1 and within limits.

    The same fractions here: 5 of 10, 4.5 of 20 and 4 of 20 %.
    """
    result = summed(("5 g", "10 %"), ("4.5 g", "20 %"), ("4 g", "20 %"), rest="86.5 g")
    found = counting(of_group(result))
    assert ends(result, found) == (Fraction("0.925"), Fraction("0.925"))
    assert found.outcome is WITHIN
    assert "0.925" in render(found.why)


def test_a_range_of_the_sum_across_one_straddles():
    result = summed(("1-3 g", "4 %"), ("2 g", "4 %"), rest="96 g")
    found = counting(of_group(result))
    assert (found.outcome, found.why.code) == (STRADDLES, "screen.document-straddles")


def test_components_can_be_summed_and_silence_makes_it_unknown():
    caps = [
        component_cap(name, cas, "1 %", summed_with="sensitisers")
        for name, cas in (("x", "78-70-6"), ("y", "97-53-0"))
    ]
    rows = [row("x", "78-70-6", "10 %"), row("y", "97-53-0", "10 %")]
    full = oil("oil", cap("100"), papers=[paper(*rows)])
    silent = oil("oil", cap("100"), papers=[paper(rows[0])])

    def of(one, grams, rest):
        shelf = {"cap": caps}
        result = checked({"base": rest, "oil": grams}, [one], shelf=shelf)
        return only(on(result, "sensitisers", SUM))

    assert of(full, "5 g", "95 g").outcome is WITHIN  # 0.5 + 0.5
    assert of(full, "6 g", "94 g").outcome is OVER  # 0.6 + 0.6
    found = of(silent, "5 g", "95 g")
    assert (found.outcome, found.why.code) == (UNKNOWN, "screen.document-unknown")


def test_a_member_without_a_number_leaves_the_sum_open():
    found = counting(of_group(summed(("1 g", "4 %"), ("1 g", "N/A"))))
    assert (found.outcome, found.why.code) == (UNKNOWN, "screen.no-number")


def test_what_is_above_one_without_the_missing_number_is_over_all_the_same():
    found = counting(of_group(summed(("9 g", "4 %"), ("1 g", "N/A"))))
    assert found.outcome is OVER


@pytest.mark.parametrize(("grams", "outcome"), [("1 g", OVER), ("0 g", WITHIN)])
def test_a_member_that_is_not_permitted_is_a_limit_by_itself(grams, outcome):
    # nothing can be divided by a cap of 0: it is over wherever it is used
    result = summed(("1 g", "4 %"), (grams, "not permitted"))
    assert counting(on(result, "Oil 1")).outcome is outcome
    assert counting(of_group(result)).outcome is WITHIN


def test_no_restriction_in_a_documents_sum_counts_as_one_hundred_percent():
    result = summed(("2 g", "Not restricted"), ("2 g", "4 %"), rest="96 g")
    found = counting(of_group(result))
    assert ends(result, found)[1] == Fraction("0.52")


def test_an_oil_with_two_certificates_is_not_added_to_itself():
    group = {"summed_with": "phototoxic oils"}
    one = oil("a", cap("5 %", document="x", **group), cap("4 %", document="y", **group))
    result = checked({"base": "97 g", "a": "3 g"}, [one])
    found = counting(of_group(result))
    assert ends(result, found)[1] == Fraction(3, 4)  # of the stricter
    assert found.outcome is WITHIN


def test_sums_follow_the_recorded_category_and_differ_without_one():
    group = {"summed_with": "phototoxic oils"}
    one = oil("a", cap("5 %", "9", **group), cap("1 %", "5A", **group))
    lines = {"base": "97 g", "a": "3 g"}
    recorded = of_group(checked(lines, [one]))
    assert {(f.outcome, f.counts) for f in recorded} == {(WITHIN, True), (OVER, False)}
    open_ = of_group(checked(lines, [one], category=[]))
    assert counting(open_).outcome is UNKNOWN
    assert OVER in {f.outcome for f in open_}  # shown, not hidden


def test_a_sum_of_an_old_edition_is_never_within():
    shelf = {"workshop": {"current": {SCHEME: "52"}}}
    old = counting(of_group(summed(("1 g", "4 %"), shelf=shelf)))
    assert old.outcome is UNKNOWN
    over = counting(of_group(summed(("9 g", "4 %"), shelf=shelf)))
    assert over.outcome is OVER


def test_a_published_density_that_decides_leaves_both_sums_open():
    book = {"density": "0.9 g/mL", "density_is_published": True}
    oils = [oil("a", cap("5 %"), **book), oil("b", cap("50 %"))]
    result = checked({"base": "95 g", "a": "3 mL", "b": "1 g"}, oils)
    found = counting(screens(result))
    assert (found.outcome, found.why.code) == (UNKNOWN, "screen.published-density")
    group = {"summed_with": "phototoxic oils"}
    one = oil("a", cap("5 %", **group), **book)
    result = checked({"base": "95 g", "a": "3 mL"}, [one])
    assert counting(of_group(result)).outcome is UNKNOWN


def test_every_step_of_a_sum_replays_and_its_printed_line_is_true():
    result = two([cap("4 %")], [cap("7 %")])
    found = counting(screens(result))
    step = result.working.steps[found.value]
    assert result.working.replay(found.value) == step.value
    (line,) = result.working.lines(found.value)
    left, right = line.replace("÷", "/").split("=")
    assert left.split("/")[0].strip() == "2"
    assert abs(eval(left) - float(right)) < 5e-4  # noqa: S307  # our own printed line


def test_the_bases_of_two_schemes_do_not_mix():
    other = basis(category="A", scheme="another")
    result = two([cap("4 %")], [cap("6 %")], category=[basis(), other])
    assert counting(screens(result)).outcome is WITHIN
