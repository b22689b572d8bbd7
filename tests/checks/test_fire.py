"""Fire by stage, from entered flash points.

Published figures stand beside the tests that use them:

- IEC 60079-20-1 (2010), flash points, as tabulated in the general-purpose library
  ``chemicals``; 2-propanol 12 °C.
- NIOSH Pocket Guide to Chemical Hazards, isopropyl alcohol: flash point 53 °F.
- BG RCI, explosion protection, question 2.1: a solvent mixture with a flash point of
  45 °C, brushed on, in a workshop of at most 30 °C, stays at least 15 K below it; for
  a single liquid without halogens the difference is 5 K. Nothing is sprayed.
"""

from fractions import Fraction

import pytest
from chemicals.safety import T_flash
from hypothesis import given
from hypothesis import strategies as st

from blendcheck.checks import fire
from blendcheck.checks.margins import place_of
from blendcheck.checks.stages import stages
from blendcheck.interval import Range
from blendcheck.records.finding import Outcome
from blendcheck.words import render
from tests.checks.cases import ALCOHOL, BICARBONATE, make_case, oil

HOB = {"room": "20 °C", "ignition": ["hob"]}
NOT_LOOKED = {"room": "20 °C"}
NOTHING = {"room": "20 °C", "ignition": []}


def tablet(*lines, process, **recipe):
    return make_case((BICARBONATE, "100 g"), *lines, process=process, **recipe)


def limits(case):
    return {f.subject: f for f in fire.check(case) if f.kind == "limit"}


def outcomes(case):
    return {stage: finding.outcome for stage, finding in limits(case).items()}


# -- against published figures ----------------------------------------------


@pytest.mark.published
@pytest.mark.parametrize("printed", ["12 °C", "53 °F"])
def test_2_propanol_is_over_at_room_temperature_beside_a_hob(printed):
    alcohol = ALCOHOL | {"flash_point": printed}
    found = outcomes(tablet((alcohol, "5 g"), process=HOB))
    assert found == dict.fromkeys(
        ("stored oils", "weighing", "wet mix", "drying"), Outcome.OVER
    )


@pytest.mark.published
def test_two_prints_of_one_flash_point_agree_within_a_kelvin():
    """53 °F (NIOSH) and 12 °C (IEC) are one measurement, rounded twice."""
    steps = []
    for printed in ("12 °C", "53 °F"):
        case = tablet((ALCOHOL | {"flash_point": printed}, "5 g"), process=HOB)
        steps.append(case.working.range(limits(case)["weighing"].value).low)
    assert steps[0] == -8
    assert abs(steps[0] - steps[1]) < 1


IEC = {  # CAS numbers of single liquids with a flash point in IEC 60079-20-1
    "acetic acid": "64-19-7",
    "p-cymene": "99-87-6",
    "ethanol": "64-17-5",
    "2-propanol": "67-63-0",
    "turpentine": "8006-64-2",
}


@pytest.mark.published
@pytest.mark.parametrize("cas", IEC.values(), ids=IEC)
@pytest.mark.parametrize(
    ("below", "outcome"),
    [
        ("0", Outcome.OVER),  # at the flash point
        ("0.01", Outcome.UNKNOWN),
        ("4.99", Outcome.UNKNOWN),
        ("5", Outcome.WITHIN),  # BG RCI: 5 K for a single liquid
    ],
)
def test_single_liquids_of_the_iec_table(cas, below, outcome):
    kelvin = Fraction(str(T_flash(cas, method="IEC 60079-20-1 (2010)")))
    celsius = kelvin - Fraction("273.15")
    room = celsius - Fraction(below)
    liquid = oil(
        "Liquid", kind="solvent", cas=cas, flash_point=f"{float(celsius)} °C closed cup"
    )
    process = {"room": f"{float(room):.2f} °C", "ignition": ["candle"]}
    found = outcomes(tablet((liquid, "2 g"), process=process))
    assert found["stored oils"] is outcome
    assert found["weighing"] is outcome


@pytest.mark.published
@pytest.mark.parametrize(
    ("room", "outcome"), [("30 °C", Outcome.WITHIN), ("30.1 °C", Outcome.UNKNOWN)]
)
def test_solvent_mixture_of_the_workshop_example(room, outcome):
    mixture = oil("Cleaner", kind="solvent", flash_point="45 °C")
    process = {"room": room, "ignition": ["heater"]}
    finding = limits(tablet((mixture, "2 g"), process=process))["weighing"]
    assert finding.outcome is outcome
    assert finding.limit == "at least 15 K below the flash point"


# -- missing, bounds, open cups ---------------------------------------------


@pytest.mark.parametrize("process", [HOB, NOT_LOOKED, NOTHING])
@pytest.mark.parametrize("printed", [None, "no data", "N/A"])
def test_a_missing_flash_point_is_asked_for(printed, process):
    fields = {} if printed is None else {"flash_point": printed}
    found = limits(tablet((oil(**fields), "2 g"), process=process))["weighing"]
    assert found.outcome is Outcome.UNKNOWN
    assert "fire.ask-flash-point" in [say.code for say in found.ask]
    assert found.value is None


@pytest.mark.parametrize(
    ("printed", "outcome"),
    [
        (">93 °C", Outcome.WITHIN),  # the test stopped there
        (">35 °C", Outcome.WITHIN),  # 15 K above 20 °C, as a bound
        (">34 °C", Outcome.UNKNOWN),
        (">15 °C", Outcome.UNKNOWN),  # may be above or below the room
        ("<23 °C", Outcome.UNKNOWN),  # no low end
        ("<20 °C", Outcome.OVER),
        ("35 °C", Outcome.WITHIN),
        ("34.99 °C", Outcome.UNKNOWN),
        ("20 °C", Outcome.OVER),
        ("18-25 °C", Outcome.STRADDLES),
        ("21-25 °C", Outcome.UNKNOWN),
        ("35-40 °C", Outcome.WITHIN),
        ("100 °C open cup", Outcome.UNKNOWN),  # an open cup reads high
        ("20 °C open cup", Outcome.OVER),
        (">93 °C open cup", Outcome.UNKNOWN),
    ],
)
def test_what_is_printed_decides(printed, outcome):
    found = outcomes(tablet((oil(flash_point=printed), "2 g"), process=HOB))
    assert found["weighing"] is outcome


@pytest.mark.parametrize("process", [{"ignition": ["hob"]}, {"ignition": []}, {}])
def test_a_missing_room_temperature_is_asked_for(process):
    case = tablet((oil(flash_point=">93 °C"), "2 g"), process=process)
    found = limits(case)["weighing"]
    assert found.outcome is Outcome.UNKNOWN
    assert found.why.code == "fire.no-temperature"
    assert found.ask[0].code == "fire.ask-temperature"
    assert render(found.turns_at) == "Within if it is at most 78 °C there."


def test_a_range_of_room_temperatures_counts_at_its_warm_end():
    process = {"room": "15-25 °C", "ignition": ["hob"]}
    case = tablet((oil(flash_point="39 °C"), "2 g"), process=process)
    assert outcomes(case)["weighing"] is Outcome.UNKNOWN
    case = tablet((oil(flash_point="40 °C"), "2 g"), process=process)
    assert outcomes(case)["weighing"] is Outcome.WITHIN


# -- sources of ignition -----------------------------------------------------


def test_sources_that_are_not_known_make_it_unknown():
    case = tablet((oil(flash_point="18 °C"), "2 g"), process=NOT_LOOKED)
    found = limits(case)["weighing"]
    assert found.outcome is Outcome.UNKNOWN
    assert [say.code for say in found.ask] == ["fire.ask-sources"]
    assert "floor" in render(found.ask[0])


def test_nothing_there_is_a_caution_and_no_limit():
    case = tablet((oil(flash_point="18 °C"), "2 g"), process=NOTHING)
    found = {f.subject: f for f in fire.check(case)}
    assert {f.kind for f in found.values()} == {"caution"}
    assert {f.outcome for f in found.values()} == {None}
    assert "can light" in render(found["weighing"].why)


def test_nothing_there_still_shows_a_margin_that_is_kept():
    case = tablet((oil(flash_point="60 °C"), "2 g"), process=NOTHING)
    assert outcomes(case) == {"stored oils": Outcome.WITHIN, "weighing": Outcome.WITHIN}


def test_alcohol_says_that_its_vapour_sinks():
    case = tablet((ALCOHOL, "5 g"), process=HOB)
    for finding in limits(case).values():
        assert "fire.sinks" in [say.code for say in finding.also]


# -- mist, soaked cloth, oily powder -----------------------------------------

celsius = st.integers(-10, 200).map(lambda n: f"{n} °C")


@given(flash=celsius, room=celsius, ignition=st.sampled_from([None, ["hob"], []]))
def test_an_oily_powder_is_never_within(flash, room, ignition):
    process = {"room": room}
    if ignition is not None:
        process["ignition"] = ignition
    case = tablet((ALCOHOL, "5 g"), (oil(flash_point=flash), "2 g"), process=process)
    for finding in fire.check(case):
        if finding.subject in ("wet mix", "drying"):
            assert finding.outcome is not Outcome.WITHIN
            assert (finding.kind == "caution") == (ignition == [])


def test_an_oily_powder_far_below_the_flash_point_stays_unknown_beside_a_hob():
    found = limits(tablet((oil(flash_point=">93 °C"), "2 g"), process=HOB))
    assert found["wet mix"].why.code == "fire.mist"
    assert found["wet mix"].outcome is Outcome.UNKNOWN


def test_a_room_mist_is_never_within_beside_a_hob():
    water = {"id": "water", "name": "Water", "kind": "water", "cas": "7732-18-5"}
    case = make_case(
        (water, "95 g"),
        (oil(flash_point=">93 °C"), "1 g"),
        process=HOB,
        product="room mist",
    )
    found = outcomes(case)
    assert found["wet mix"] is Outcome.UNKNOWN
    assert found["stored oils"] is Outcome.WITHIN
    assert "drying" not in found  # a mist is not dried


def test_a_balm_is_a_liquid_at_rest():
    wax = {"id": "wax", "name": "Wax", "kind": "other"}
    case = make_case(
        (wax, "95 g"),
        (oil(flash_point="60 °C"), "1 g"),
        process=HOB | {"temperature": {"heated base": "70 °C"}},
        product="balm",
    )
    found = outcomes(case)
    assert found["wet mix"] is Outcome.WITHIN
    assert found["heated base"] is Outcome.OVER


# -- stages ------------------------------------------------------------------


def test_stages_that_only_exist_when_they_are_given():
    plain = tablet((oil(flash_point="60 °C"), "2 g"), process=NOT_LOOKED)
    assert {at.stage for at in stages(plain)} == {"stored oils", "weighing", "wet mix"}
    given_ones = {"heated base": "70 °C", "wrapping": "40 °C", "posting": "50 °C"}
    full = tablet(
        (ALCOHOL, "5 g"),
        (oil(flash_point="60 °C"), "2 g"),
        process=NOT_LOOKED | {"temperature": given_ones},
    )
    assert [at.stage for at in stages(full)] == [
        "stored oils",
        "weighing",
        "wet mix",
        "drying",
        "heated base",
        "wrapping",
        "posting",
    ]


def test_a_heat_gun_is_a_source_and_of_unknown_heat():
    case = tablet(
        (oil(flash_point=">93 °C"), "2 g"), process=NOTHING | {"heat_gun": True}
    )
    found = limits(case)["wrapping"]
    assert found.outcome is Outcome.UNKNOWN
    assert found.why.code == "fire.no-top"
    warm = NOTHING | {"heat_gun": True, "temperature": {"wrapping": "120 °C"}}
    case = tablet((oil(flash_point="100 °C"), "2 g"), process=warm)
    assert limits(case)["wrapping"].outcome is Outcome.OVER
    assert "heat gun" in render(limits(case)["wrapping"].why)


def test_a_heat_gun_in_a_room_above_the_flash_point_is_over():
    case = tablet(
        (oil(flash_point="18 °C"), "2 g"), process=NOTHING | {"heat_gun": True}
    )
    assert limits(case)["wrapping"].outcome is Outcome.OVER


@pytest.mark.parametrize(
    ("leaves", "outcome"),
    [
        ("100 %", Outcome.WITHIN),  # gone: the oil is what is left
        ("62.8-100 %", Outcome.WITHIN),  # what may stay is its water
        ("0 %", Outcome.OVER),  # stays
        ("0-100 %", Outcome.STRADDLES),  # may stay, as entered
        (None, Outcome.UNKNOWN),  # nobody entered it
    ],
)
def test_what_is_left_when_it_is_wrapped(leaves, outcome):
    alcohol = {**ALCOHOL, "leaves_on_drying": leaves}
    if leaves is None:
        del alcohol["leaves_on_drying"]
    case = tablet(
        (alcohol, "5 g"),
        (oil(flash_point="60 °C"), "2 g"),
        process=HOB | {"temperature": {"wrapping": "30 °C"}},
    )
    assert outcomes(case)["wrapping"] is outcome


def test_nobody_knows_what_a_parcel_travels_with():
    process = NOTHING | {"temperature": {"posting": "60 °C"}}
    case = tablet((oil(flash_point="60 °C"), "2 g"), process=process)
    found = limits(case)["posting"]
    assert found.outcome is Outcome.UNKNOWN
    assert [say.code for say in found.ask] == ["fire.ask-carrier"]


# -- what is asked -----------------------------------------------------------


@pytest.mark.parametrize(
    "kind", ["solid", "water", "emulsifier", "colour", "other", "soaping oil"]
)
def test_what_does_not_burn_is_not_asked_for_a_flash_point(kind):
    thing = {"id": "thing", "name": "Thing", "kind": kind}
    assert list(fire.check(tablet((thing, "2 g"), process=HOB))) == []


def test_water_is_never_asked_even_as_a_solvent():
    water = {"id": "water", "name": "Water", "kind": "solvent", "cas": "7732-18-5"}
    assert list(fire.check(tablet((water, "2 g"), process=HOB))) == []


def test_a_solid_counts_once_a_flash_point_is_entered():
    crystals = {
        "id": "crystals",
        "name": "Crystals",
        "kind": "solid",
        "flash_point": "93 °C",
    }
    found = outcomes(tablet((crystals, "2 g"), process=HOB))
    assert found["weighing"] is Outcome.WITHIN


def test_the_lots_own_flash_point_comes_first():
    two_lots = oil(
        flash_point="60 °C",
        lot=[
            {"lot": "a", "flash_point": "18 °C"},
            {"lot": "b"},
            {"lot": "c", "flash_point": "no data"},
        ],
    )
    for lot, outcome in (("a", "over"), ("b", "within"), ("c", "within")):
        case = tablet((two_lots, "2 g", lot), process=HOB)
        assert outcomes(case)["weighing"] == outcome


def test_five_kelvin_are_only_for_one_substance_alone_in_its_bottle():
    menthone = oil(
        "Menthone", kind="aroma chemical", cas="89-80-5", flash_point="28 °C"
    )
    process = HOB
    assert outcomes(tablet((menthone, "2 g"), process=process))["weighing"] == "within"
    stock = {
        "stock": [
            {
                "id": "ahead",
                "line": [
                    {"material": "menthone", "amount": "1 part"},
                ],
            }
        ]
    }
    mixed = tablet((menthone, "2 g"), process=process, shelf=stock)
    assert outcomes(mixed)["weighing"] == "unknown"
    with_list = menthone | {"composition": [{"kind": "full GC-MS", "row": []}]}
    assert (
        outcomes(tablet((with_list, "2 g"), process=process))["weighing"] == "unknown"
    )


def test_the_lowest_flash_point_of_a_stage_decides():
    case = tablet(
        (oil("High", flash_point="90 °C"), "2 g"),
        (oil("Low", flash_point="48 °C"), "2 g"),
        (oil("Bound", flash_point=">93 °C"), "2 g"),
        process=HOB,
    )
    found = limits(case)["weighing"]
    assert found.why.values["material"] == "Low"
    assert case.working.range(found.value) == Range.at(28)
    assert case.working.lines(found.value) == ("48 - 20 = 28 K",)


def test_every_missing_flash_point_is_named_beside_one_that_is_reached():
    case = tablet((ALCOHOL, "5 g"), (oil("A"), "2 g"), (oil("B"), "1 g"), process=HOB)
    found = limits(case)["weighing"]
    assert found.outcome is Outcome.OVER
    said = " ".join(render(say) for say in found.also)
    assert "A" in said
    assert "B" in said
    assert [say.values["material"] for say in found.ask] == ["A", "B", "Alcohol"]


# -- where it turns ----------------------------------------------------------


@pytest.mark.parametrize("printed", [None, "100 °C open cup", ">25 °C", "<60 °C"])
def test_the_turning_figure_turns_it(printed):
    fields = {} if printed is None else {"flash_point": printed}
    first = limits(tablet((oil(**fields), "2 g"), process=HOB))["weighing"]
    assert first.outcome is Outcome.UNKNOWN
    least = Fraction(first.turns_at.values["least"].removesuffix(" °C"))
    for flash, outcome in ((least, "within"), (least - Fraction(1, 100), "unknown")):
        entered = oil(flash_point=f"{float(flash)} °C closed cup")
        assert outcomes(tablet((entered, "2 g"), process=HOB))["weighing"] == outcome


def test_the_turning_temperature_turns_it():
    near = oil(flash_point="30 °C closed cup")
    first = limits(tablet((near, "2 g"), process=HOB))["weighing"]
    assert first.why.code == "fire.near"
    assert first.ask == ()  # the supplier cannot say more
    most = first.turns_at.values["most"]
    cool = {"room": most, "ignition": ["hob"]}
    assert outcomes(tablet((near, "2 g"), process=cool))["weighing"] == "within"


# -- properties --------------------------------------------------------------

ORDER = list(Outcome)  # worst first


@given(
    flash=st.integers(-10, 120),
    lower=st.integers(1, 60),
    room=st.integers(0, 60),
    ignition=st.sampled_from([None, ["hob"]]),
)
def test_a_lower_flash_point_never_reads_better(flash, lower, room, ignition):
    process = {"room": f"{room} °C"} | (
        {} if ignition is None else {"ignition": ["hob"]}
    )
    first = outcomes(tablet((oil(flash_point=f"{flash} °C"), "2 g"), process=process))
    second = outcomes(
        tablet((oil(flash_point=f"{flash - lower} °C"), "2 g"), process=process)
    )
    for stage, outcome in first.items():
        assert ORDER.index(second[stage]) <= ORDER.index(outcome)


@given(
    low=st.integers(-20, 100),
    wide=st.integers(0, 60),
    room=st.integers(0, 60),
    inside=st.integers(0, 60),
)
def test_a_narrower_figure_keeps_within_and_over(low, wide, room, inside):
    """What is known for a range holds for every figure inside it."""
    point = Fraction(low + min(inside, wide))
    needed = Fraction(15)
    whole = place_of(Range.between(low - room, low + wide - room), needed)
    one = place_of(Range.at(point - room), needed)
    if whole in ("above", "enough"):
        assert one == whole
    if whole == "near":
        assert one in ("near", "enough")


@given(
    flash=st.one_of(
        celsius,
        celsius.map(lambda t: f">{t}"),
        celsius.map(lambda t: f"<{t}"),
        celsius.map(lambda t: f"{t} open cup"),
    ),
    room=celsius,
)
def test_every_margin_replays_and_its_line_can_be_worked(flash, room):
    process = {"room": room, "ignition": ["hob"], "heat_gun": True}
    case = tablet((oil(flash_point=flash), "2 g"), process=process)
    list(fire.check(case))
    for name, step in case.working.steps.items():
        if step.rule not in ("margin below flash point", "at least as warm"):
            continue
        assert case.working.replay(name) == step.value
        for line in case.working.lines(name):
            left, right = line.split(": ")[-1].split(" = ")
            assert Fraction(str(eval(left))) == Fraction(right.split()[0])  # noqa: S307
