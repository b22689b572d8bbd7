"""The most that stays within: a closed form against a search by the ordinary check.

The search knows nothing of the closed form: it writes a recipe with another amount,
lets every check run, and halves its way to the last step of the scale that is within.
Published examples are those of pharmacy calculation (alligation) and of a trade
association's advice of 1978 on bergamot oil; each is named where it stands.
"""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from blendcheck.largest import Largest, largest
from blendcheck.records.finding import Outcome
from tests.checks.shelves import (
    LINALOOL,
    MENTHOL,
    SCHEME,
    basis,
    cap,
    checked,
    component_cap,
    decimal,
    of_caps,
    oil,
    paper,
    row,
)

HELD, GROWS = "finished mass held", "the rest held"


def scale(text: str = "0.1 g", **more):
    return {"workshop": {"scale": text, **more}}


def holding(name, share, *caps, **more):
    papers = [paper(row("x", LINALOOL, share))]
    return oil(name, *(caps or (cap("100"),)), papers=papers, **more)


def found(result, says, reading) -> Largest:
    (one,) = [x for x in largest(result) if (x.says, x.reading) == (says, reading)]
    return one


def most(result, says, reading):
    return found(result, says, reading).grams


# -- by hand -------------------------------------------------------------------------


def test_an_oil_under_its_own_cap_in_both_readings():
    # cap 5 %: of 100 g held 5 g; beside 95 g that stay, x/(95 + x) = 5 %: 5 g too
    result = checked({"base": "95 g", "oil": "5 g"}, [oil("oil", cap("5 %"))])
    assert most(result, "Oil", HELD) == most(result, "Oil", GROWS) == 5
    # beside 98 g that stay: 98/19 = 5.1578... g, rounded down to the scale
    result = checked({"base": "98 g", "oil": "2 g"}, [oil("oil", cap("5 %"))])
    assert most(result, "Oil", HELD) == 5
    assert most(result, "Oil", GROWS) == Fraction("5.15")


def test_percent_is_that_of_the_finished_product_it_gives():
    result = checked({"base": "98 g", "oil": "2 g"}, [oil("oil", cap("5 %"))])
    grows = found(result, "Oil", GROWS)
    assert grows.percent == Fraction("5.15") / Fraction("103.15") * 100
    assert found(result, "Oil", HELD).percent == 5


def test_it_names_what_limits_and_what_has_no_number():
    one = holding("oil", "50 %", cap("9 %"))
    shelf = {"cap": [component_cap("x", LINALOOL, "2 %")]}
    result = checked({"base": "95 g", "oil": "5 g"}, [one], shelf=shelf)
    held = found(result, "Oil", HELD)
    assert (held.grams, held.limited_by, held.open) == (4, "x", ())
    missing = oil("oil", cap("9 %"), cap("N/A", edition="52"))
    result = checked({"base": "95 g", "oil": "5 g"}, [missing])
    held = found(result, "Oil", HELD)
    assert (held.grams, held.limited_by, held.open) == (9, "Oil", ("Oil",))


def test_where_no_cap_states_a_number_there_is_no_most():
    result = checked(
        {"base": "95 g", "oil": "5 g"}, [oil("oil", cap("Not restricted"))]
    )
    for reading in (HELD, GROWS):
        one = found(result, "Oil", reading)
        assert (one.grams, one.percent, one.limited_by) == (None, None, "")


def test_nothing_is_left_where_the_other_oils_alone_are_over():
    oils = [holding("a", "50 %"), holding("b", "10 %")]
    shelf = {"cap": [component_cap("x", LINALOOL, "1 %")]}
    result = checked({"base": "94 g", "a": "4 g", "b": "2 g"}, oils, shelf=shelf)
    for reading in (HELD, GROWS):
        one = found(result, "B", reading)
        assert (one.grams, one.percent, one.limited_by) == (0, 0, "x")
    # a may be 1.6 g beside b: 0.8 + 0.2 g in 100 g
    assert most(result, "A", HELD) == Fraction("1.6")


def test_the_whole_blend_keeps_its_proportions():
    oils = [oil("a", cap("100")), oil("b", cap("100"))]
    own = {"on": "load", "scheme": "own rule", "printed": "3 %"}
    result = checked(
        {"base": "95 g", "a": "4 g", "b": "1 g"}, oils, shelf={"cap": [own]}
    )
    one = found(result, "the whole blend", HELD)
    assert one.grams == 3
    assert one.where == ("line[2]", "line[3]")


def test_a_component_at_most_counts_and_not_what_is_hoped_for():
    # 10-40 %, cap 1 %: at 40 % only 2.5 g of 100 g stay within whatever the lot holds
    shelf = {"cap": [component_cap("x", LINALOOL, "1 %")]}
    result = checked(
        {"base": "95 g", "oil": "5 g"}, [holding("oil", "10-40 %")], shelf=shelf
    )
    assert most(result, "Oil", HELD) == Fraction("2.5")
    # without a paper all of it may be x
    result = checked(
        {"base": "95 g", "oil": "5 g"}, [oil("oil", cap("100"))], shelf=shelf
    )
    assert most(result, "Oil", HELD) == 1


def test_alcohol_that_leaves_is_not_what_gives_way():
    spirit = {
        "id": "spirit",
        "name": "Spirit",
        "kind": "alcohol",
        "leaves_on_drying": "100 %",
    }
    lines = {"base": "98 g", "oil": "2 g", "spirit": "50 g"}
    result = checked(lines, [oil("oil", cap("5 %")), spirit])
    assert most(result, "Oil", HELD) == 5  # of 100 g dry, not of 150 g wet


def test_every_category_has_its_own_most_until_one_is_recorded():
    one = oil("oil", cap("5 %", "9"), cap("1 %", "5A"))
    lines = {"base": "98 g", "oil": "2 g"}
    both = {
        x.category: x.grams
        for x in largest(checked(lines, [one], category=[]))
        if x.reading == HELD
    }
    assert both == {f"{SCHEME}, category 9": 5, f"{SCHEME}, category 5A": 1}
    recorded = largest(checked(lines, [one], category=[basis("5A")]))
    assert {x.category for x in recorded} == {f"{SCHEME}, category 5A"}


def test_own_rules_hold_under_every_category():
    one = oil("oil", cap("5 %", "9"), cap("1 %", "5A"))
    own = {"on": "load", "scheme": "own rule", "printed": "3 %"}
    result = checked(
        {"base": "98 g", "oil": "2 g"}, [one], category=[], shelf={"cap": [own]}
    )
    both = {
        x.category[-2:].strip(): x.grams for x in largest(result) if x.reading == HELD
    }
    assert both == {"9": 3, "5A": 1}


def test_a_documents_own_sum_is_held_as_well():
    group = {"summed_with": "phototoxic oils"}
    oils = [oil("a", cap("5 %", **group)), oil("b", cap("10 %", **group))]
    result = checked({"base": "94 g", "a": "2 g", "b": "4 g"}, oils)
    # b takes 4/10 of the whole; a may take 6/10 of its 5 %
    assert found(result, "A", HELD).grams == 3
    assert found(result, "A", HELD).limited_by == "phototoxic oils"
    # a:b as 1:2, x/5 + 2x/10 = 1: 2.5 and 5 g
    assert most(result, "the whole blend", HELD) == Fraction("7.5")


def test_what_may_not_be_added_as_itself_may_not_be_added_in_grams():
    crystals = {
        "id": "crystals",
        "name": "Menthol crystals",
        "kind": "aroma chemical",
        "cas": MENTHOL,
    }
    shelf = {"cap": [component_cap("menthol", MENTHOL, "not added; max 0.5 %")]}
    result = checked({"base": "99 g", "crystals": "1 g"}, [crystals], shelf=shelf)
    assert most(result, "Menthol crystals", HELD) == 0


@pytest.mark.parametrize(
    ("text", "expected"),
    [("0.01 g", "5.15"), ("0.1 g", "5.1"), ("0.5 g", "5"), ("2 g", "4"), ("1 kg", "0")],
)
def test_it_is_rounded_down_to_the_scale(text, expected):
    result = checked(
        {"base": "98 g", "oil": "2 g"}, [oil("oil", cap("5 %"))], shelf=scale(text)
    )
    assert most(result, "Oil", GROWS) == Fraction(expected)


def test_a_line_on_which_others_depend_is_left_out_and_nothing_fails():
    lines = [
        {"material": "base", "amount": "2 parts"},
        {"material": "oil", "amount": "30 drops"},
        {"material": "clay", "amount": "5 % of the finished product"},
    ]
    clay = {"id": "clay", "name": "Clay", "kind": "solid"}
    one = oil("oil", cap("5 %"), density="0.9 g/mL")
    result = checked(lines, [one, clay], pieces=10, piece_mass="10 g")
    assert all(x.grams is None or x.grams >= 0 for x in largest(result))


# -- published -------------------------------------------------------------------------


@pytest.mark.published
@pytest.mark.parametrize(
    ("strong", "weak", "aim", "rest", "parts"),
    [
        # 20 parts of alcohol of 95 % with 25 parts of 50 % give 70 %
        ("95 %", "50 %", "70 %", "25 g", 20),
        # one part of an elixir of 70 % with four parts of 20 % gives 30 %
        ("70 %", "20 %", "30 %", "40 g", 10),
        # plain coal tar in a 2 % ointment to make 4 %: 2 parts to 96
        ("100 %", "2 %", "4 %", "96 g", 2),
    ],
)
def test_alligation(strong, weak, aim, rest, parts):
    """Alligation handout for pharmacy students, examples of the alternate method
    (https://www.scribd.com/document/151502467), the second also in R. Aylor, Alligation
    tutorial II (pharmacy-tech-test.com). The weaker stands as the rest that is held.
    """
    materials = [
        holding("strong", strong),
        {
            "id": "weak",
            "name": "Weak",
            "kind": "solvent",
            "composition": [paper(row("x", LINALOOL, weak))],
        },
    ]
    lines = [
        {"material": "weak", "amount": rest},
        {"material": "strong", "amount": "1 g"},
    ]
    shelf = {"cap": [component_cap("x", LINALOOL, aim)]}
    result = checked(lines, materials, shelf=shelf)
    assert most(result, "Strong", GROWS) == parts


@pytest.mark.published
def test_bergamot_oil_by_its_bergapten():
    """International Fragrance Association, review of October 1978, as quoted at
    bioassoberg.com (The international regulation of the bergamot essential oil): not
    more than 75 ppm of 5-methoxypsoralen (CAS 484-20-8) in the compound; with "an
    average content of 5-MOP of 0.35 %, the level of oil of bergamot will be 2 %".

    75 ppm over 0.35 % is 2.14 %; the advice gives whole percents, as a scale of 1 g
    does for 100 g.
    """
    bergamot = oil(
        "bergamot",
        cap("100"),
        papers=[paper(row("5-methoxypsoralen", "484-20-8", "0.35 %"))],
    )
    limit = component_cap("5-methoxypsoralen", "484-20-8", "75 ppm")
    result = checked(
        {"base": "99 g", "bergamot": "1 g"},
        [bergamot],
        shelf={"cap": [limit], **scale("1 g")},
    )
    assert most(result, "Bergamot", HELD) == 2


# -- against a search by the ordinary check -------------------------------------------


@st.composite
def kitchens(draw):
    """One base, oils in grams, caps on them, on a component and on the load."""
    step = draw(st.sampled_from(["0.01 g", "0.1 g", "0.5 g", "1 g"]))
    lines = {"base": Fraction(draw(st.integers(200, 2000)))}
    materials = []
    shelf = {"cap": [], **scale(step)}
    group = {"summed_with": "group"} if draw(st.booleans()) else {}
    for n in range(draw(st.integers(1, 3))):
        name = f"oil {n}"
        lines[name] = Fraction(draw(st.integers(1, 300)), 10)
        low, high = sorted(draw(st.integers(1, 90)) for _ in range(2))
        own = draw(st.integers(50, 1000))
        caps = [cap(f"{decimal(Fraction(own, 100))} %", **group)]
        materials.append(
            holding(name, f"{low}-{high} %" if low < high else "7 %", *caps)
        )
    if draw(st.booleans()):
        printed = decimal(Fraction(draw(st.integers(10, 500)), 100))
        shelf["cap"].append(component_cap("x", LINALOOL, f"{printed} %"))
    if draw(st.booleans()):
        printed = f"{draw(st.integers(1, 9))} %"
        shelf["cap"].append({"on": "load", "scheme": "own rule", "printed": printed})
    if draw(st.booleans()):
        low = draw(st.integers(0, 100))
        lines["water"] = Fraction(draw(st.integers(1, 60)))
        leaves = f"{low}-100 %" if low < 100 else "100 %"
        materials.append(
            {
                "id": "water",
                "name": "Water",
                "kind": "water",
                "leaves_on_drying": leaves,
            }
        )
    return lines, materials, shelf


def written(lines):
    return {name: f"{decimal(grams)} g" for name, grams in lines.items() if grams}


def is_within(lines, materials, shelf, target):
    """Whether every cap that the target has a part in is within."""
    touched = {target.capitalize(), "x", "load", "group"}
    result = checked(written(lines), materials, shelf=shelf)
    return all(
        f.outcome is Outcome.WITHIN
        for f in of_caps(result)
        if f.kind == "limit" and f.counts and f.subject in touched
    )


def varied(lines, targets, grams, reading):
    """Return the amounts with the targets together at so many grams."""
    now = sum(lines[t] for t in targets)
    new = dict(lines) | {t: lines[t] * grams / now for t in targets}
    if reading == HELD:
        new["base"] = lines["base"] - (grams - now)
    return new


def searched(lines, materials, shelf, targets, reading, step, top):
    """The last whole number of steps that is within, found by halving."""
    low, high = 0, int(top / step)
    while low < high:
        middle = (low + high + 1) // 2
        new = varied(lines, targets, middle * step, reading)
        if is_within(new, materials, shelf, targets[0]):
            low = middle
        else:
            high = middle - 1
    return low * step


def _target_of(one, lines):
    names = list(lines)
    return [
        names[int(place.removeprefix("line[").removesuffix("]")) - 1]
        for place in one.where
    ]


@settings(max_examples=40, deadline=None)
@given(kitchens())
def test_the_closed_form_agrees_with_the_search_for_single_oils(kitchen):
    lines, materials, shelf = kitchen
    step = Fraction(shelf["workshop"]["scale"].removesuffix(" g"))
    result = checked(written(lines), materials, shelf=shelf)
    for one in largest(result):
        targets = _target_of(one, lines)
        if len(targets) > 1:
            continue
        reach = lines["base"] if one.reading == HELD else 4 * sum(lines.values())
        if one.grams is None:  # no cap that it has a part in
            new = varied(lines, targets, reach - step, one.reading)
            assert is_within(new, materials, shelf, targets[0])
            continue
        got = searched(
            lines, materials, shelf, targets, one.reading, step, reach - step
        )
        assert one.grams == got, (one, targets)


@settings(max_examples=40, deadline=None)
@given(kitchens())
def test_it_stays_within_and_one_step_more_does_not(kitchen):
    lines, materials, shelf = kitchen
    step = Fraction(shelf["workshop"]["scale"].removesuffix(" g"))
    result = checked(written(lines), materials, shelf=shelf)
    for one in largest(result):
        targets = _target_of(one, lines)
        if one.grams is None or len(targets) > 1:
            continue
        assert one.grams % step == 0
        if one.grams:
            new = varied(lines, targets, one.grams, one.reading)
            assert is_within(new, materials, shelf, targets[0]), one
        new = varied(lines, targets, one.grams + step, one.reading)
        assert not is_within(new, materials, shelf, targets[0]), one


@settings(max_examples=30, deadline=None)
@given(kitchens())
def test_the_whole_blend_in_its_proportions_reaches_its_bound_to_a_step(kitchen):
    """Worked here from masses: of a finished mass W held, every oil i at x times its
    part p_i of the blend keeps its own cap while x p_i <= c_i W / 100, and the load
    cap while x <= c W / 100; the component is sum(h_i p_i) x at its high ends."""
    lines, materials, shelf = kitchen
    oils = [m for m in materials if m["kind"] == "essential oil"]
    if len(oils) < 2 or "water" in lines:
        return
    blend = sum(lines[m["id"]] for m in oils)
    whole, part = sum(lines.values()), {m["id"]: lines[m["id"]] / blend for m in oils}
    number = {m["id"]: Fraction(m["cap"][0]["printed"].split()[0]) for m in oils}
    bounds = []
    if any("summed_with" in m["cap"][0] for m in oils):
        bounds.append(whole / 100 / sum(part[i] / number[i] for i in part))
    else:
        bounds += [number[i] * whole / 100 / part[i] for i in part]
    for one in shelf["cap"]:
        most = Fraction(one["printed"].split()[0]) * whole / 100
        if one["on"] == "load":
            bounds.append(most)
        else:
            high = {
                m["id"]: Fraction(
                    m["composition"][0]["row"][0]["share"].split("-")[-1].split()[0]
                )
                for m in oils
            }
            bounds.append(most / sum(high[i] / 100 * part[i] for i in part))
    step = Fraction(shelf["workshop"]["scale"].removesuffix(" g"))
    result = checked(written(lines), materials, shelf=shelf)
    one = found(result, "the whole blend", HELD)
    assert one.grams == min(bounds) // step * step
