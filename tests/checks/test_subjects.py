"""Who counts as whom. An open match may be there, and decides nothing by itself.

Regulation (EC) No 1223/2009, Annex III, entry 88 lists limonene under several CAS
numbers (138-86-3, 5989-27-5, 5989-54-8, 7705-14-8), entry 70 citral with geranial and
neral; 1,8-cineole and eucalyptol are two names of CAS 470-82-6.
"""

import pytest

from blendcheck.checks.subjects import proposals_for, subject_of
from blendcheck.records.finding import Outcome
from blendcheck.records.material import CapEntry
from tests.checks.shelves import (
    CITRAL,
    D_LIMONENE,
    GERANIAL,
    L_LIMONENE,
    LIMONENE,
    LINALOOL,
    NERAL,
    cap,
    checked,
    component_cap,
    counting,
    ends,
    oil,
    on,
    paper,
    row,
)

CINEOLE = "470-82-6"
OVER, STRADDLES = Outcome.OVER, Outcome.STRADDLES
UNKNOWN, WITHIN = Outcome.UNKNOWN, Outcome.WITHIN


def check(name, cas, printed, *rows, confirmed=(), grams="5 g", rest="95 g"):
    """One oil with a full list copied whole, one cap on a component."""
    listed = paper(*rows, copied_whole=True, unidentified="0 %")
    return checked(
        {"base": rest, "oil": grams},
        [oil("oil", cap("100"), papers=[listed])],
        shelf={
            "cap": [component_cap(name, cas, printed)],
            "confirmed": list(confirmed),
        },
    )


def found(*args, **more):
    return counting(on(check(*args, **more), args[0]))


def subject(name, cas, *rows, confirmed=()):
    result = check(name, cas, "1 %", *rows, confirmed=confirmed)
    entry = CapEntry.model_validate(component_cap(name, cas, "1 %"))
    return subject_of(entry, result.totals), result.totals


# -- by CAS, then by what is confirmed ------------------------------------------------


def test_the_same_cas_under_two_names_is_one_substance():
    one = found("1,8-cineole", CINEOLE, "3 %", row("Eucalyptol", CINEOLE, "70 %"))
    assert one.outcome is OVER  # 3.5 %
    assert one.ask == ()


@pytest.mark.parametrize(
    ("printed", "outcome"),
    [
        ("3 %", UNKNOWN),  # 3.5 % if it is: not over while nobody said so
        ("3.4999 %", UNKNOWN),
        ("3.5 %", WITHIN),  # within whether it is or not
    ],
)
def test_a_row_by_name_alone_is_neither_over_nor_within_by_itself(printed, outcome):
    one = found("1,8-cineole", CINEOLE, printed, row("Eucalyptol", None, "70 %"))
    assert one.outcome is outcome
    asked = [say.values["name"] for say in one.ask if say.code == "ask.confirm"]
    assert asked == ([] if outcome is WITHIN else ["Eucalyptol"])


SAME = {"name": "Eucalyptol", "cas": CINEOLE}
OTHER = {**SAME, "same": False}


@pytest.mark.parametrize(
    ("answer", "outcome"), [([SAME], OVER), ([OTHER], WITHIN), ([], UNKNOWN)]
)
def test_a_name_counts_as_it_was_answered(answer, outcome):
    one = found(
        "1,8-cineole",
        CINEOLE,
        "3 %",
        row("Eucalyptol", None, "70 %"),
        confirmed=answer,
    )
    assert one.outcome is outcome


def test_an_answer_is_found_whatever_the_case_and_the_spaces():
    spelt = {"name": "  EUCALYPTOL ", "cas": CINEOLE}
    one = found(
        "1,8-cineole",
        CINEOLE,
        "3 %",
        row("Eucalyptol", None, "70 %"),
        confirmed=[spelt],
    )
    assert one.outcome is OVER


def test_a_name_that_means_something_else_is_not_proposed():
    one = found("1,8-cineole", CINEOLE, "3 %", row("Linalool", None, "70 %"))
    assert not any(say.code == "ask.confirm" for say in one.ask)


@pytest.mark.parametrize("cas", [D_LIMONENE, L_LIMONENE, "7705-14-8"])
@pytest.mark.parametrize("answer", [True, False, None])
def test_another_cas_of_limonene_is_proposed_and_never_merged(cas, answer):
    confirmed = (
        [] if answer is None else [{"cas": cas, "counts_as": LIMONENE, "same": answer}]
    )
    one = found(
        "limonene", LIMONENE, "2 %", row("limonene", cas, "70 %"), confirmed=confirmed
    )
    expected = {True: OVER, False: WITHIN, None: UNKNOWN}[answer]
    assert one.outcome is expected


def test_proposals_go_both_ways_from_an_isomer_to_its_group_too():
    # a cap on d-limonene; the paper prints the number that states no isomer
    one = found("d-limonene", D_LIMONENE, "2 %", row("limonene", LIMONENE, "70 %"))
    assert one.outcome is UNKNOWN
    assert [s.values["identity"] for s in one.ask if s.code == "ask.confirm"] == [
        LIMONENE
    ]


def test_one_isomer_is_not_proposed_for_another():
    known, _ = subject("d-limonene", D_LIMONENE, row("l", L_LIMONENE, "70 %"))
    assert known.proposed == frozenset()


def test_open_matches_are_added_to_what_is_confirmed():
    rows = [row("limonene", LIMONENE, "30 %"), row("d-limonene", D_LIMONENE, "40 %")]
    one = found("limonene", LIMONENE, "1.5 %", *rows)
    # 30 % of 5 g are 1.5 % for certain; the group's own figure may or may not hold
    # the isomer, so it is neither over nor within
    assert one.outcome is UNKNOWN


# -- groups --------------------------------------------------------------------------

MEMBERS = [{"cas": one, "counts_as": CITRAL} for one in (GERANIAL, NERAL)]
ROWS = [row("geranial", GERANIAL, "40 %"), row("neral", NERAL, "30 %")]


def test_citral_is_neral_and_geranial_once_the_maker_says_so():
    result = check("citral", CITRAL, "3.5 %", *ROWS, confirmed=MEMBERS)
    one = counting(on(result, "citral"))
    assert ends(result, one) == (3.5, 3.5)
    assert one.outcome is WITHIN  # 2 + 1.5 %, at the cap
    assert found("citral", CITRAL, "3.4 %", *ROWS, confirmed=MEMBERS).outcome is OVER


def test_unconfirmed_members_are_neither_over_nor_within():
    one = found("citral", CITRAL, "3.4 %", *ROWS)
    assert one.outcome is UNKNOWN
    asked = {s.values["identity"] for s in one.ask if s.code == "ask.confirm"}
    assert asked == {GERANIAL, NERAL}


def test_a_half_confirmed_group_is_over_only_by_the_confirmed_half():
    half = MEMBERS[:1]
    # geranial alone brings 2 %
    assert found("citral", CITRAL, "1.9 %", *ROWS, confirmed=half).outcome is OVER
    assert found("citral", CITRAL, "3 %", *ROWS, confirmed=half).outcome is UNKNOWN


def test_a_group_printed_beside_its_members_is_not_over_by_being_counted_twice():
    rows = [row("citral", CITRAL, "70 %"), *ROWS]
    result = check("citral", CITRAL, "3.5 %", *rows, confirmed=MEMBERS)
    one = counting(on(result, "citral"))
    # the paper does not say whether the members are part of the first line
    assert ends(result, one) == (3.5, 5)
    assert one.outcome is STRADDLES


def test_refusing_one_member_leaves_the_other_open():
    answers = [{**MEMBERS[0], "same": False}]
    one = found("citral", CITRAL, "1.9 %", *ROWS, confirmed=answers)
    asked = {s.values["identity"] for s in one.ask if s.code == "ask.confirm"}
    assert asked <= {NERAL}


# -- caps by name, chains of answers ---------------------------------------------


def test_a_cap_by_name_alone_proposes_the_numbers_that_the_name_may_mean():
    known, totals = subject("limonene", None, row("d-limonene", D_LIMONENE, "70 %"))
    assert known.members == {"name:limonene"}
    assert D_LIMONENE in known.proposed
    assert ("d-limonene", D_LIMONENE) in proposals_for(known, totals)
    assert (
        found("limonene", None, "2 %", row("x", D_LIMONENE, "70 %")).outcome is UNKNOWN
    )


def test_a_cap_by_name_alone_counts_once_the_name_is_confirmed():
    answer = [{"name": "limonene", "cas": D_LIMONENE}]
    one = found("limonene", None, "2 %", row("x", D_LIMONENE, "70 %"), confirmed=answer)
    assert one.outcome is OVER


def test_answers_carry_on_from_a_name_to_a_number_to_a_group():
    answers = [
        {"name": "Orange terpene", "cas": D_LIMONENE},
        {"cas": D_LIMONENE, "counts_as": LIMONENE},
    ]
    for order in (answers, answers[::-1]):
        one = found(
            "limonene",
            LIMONENE,
            "2 %",
            row("Orange terpene", None, "70 %"),
            confirmed=order,
        )
        assert one.outcome is OVER


def test_answers_that_point_in_a_circle_come_to_an_end():
    answers = [
        {"cas": D_LIMONENE, "counts_as": LIMONENE},
        {"cas": LIMONENE, "counts_as": D_LIMONENE},
    ]
    rows = [row("d", D_LIMONENE, "70 %")]
    assert found("limonene", LIMONENE, "2 %", *rows, confirmed=answers).outcome is OVER


def test_an_answer_for_one_substance_is_none_for_another():
    answer = [{"cas": LINALOOL, "counts_as": "97-53-0"}]
    one = found(
        "limonene", LIMONENE, "2 %", row("x", LINALOOL, "70 %"), confirmed=answer
    )
    assert one.outcome is WITHIN


def test_the_cas_that_a_maker_must_not_mix_up_is_never_merged_by_a_like_name():
    # same printed name, two numbers: two substances
    result = check(
        "limonene",
        LIMONENE,
        "1 %",
        row("limonene", D_LIMONENE, "30 %"),
        row("Limonene", "7705-14-8", "30 %"),
    )
    assert {D_LIMONENE, "7705-14-8"} <= set(result.totals.components)
    assert counting(on(result, "limonene")).outcome is UNKNOWN


# -- between oils ---------------------------------------------------------------------


def test_synonyms_are_added_across_oils_as_answered():
    a = oil("a", cap("100"), papers=[paper(row("Eucalyptol", None, "70 %"))])
    b = oil("b", cap("100"), papers=[paper(row("1,8-cineole", CINEOLE, "50 %"))])
    lines = {"base": "90 g", "a": "5 g", "b": "5 g"}

    def of(printed, *answers):
        shelf = {
            "cap": [component_cap("cineole", CINEOLE, printed)],
            "confirmed": list(answers),
        }
        return counting(on(checked(lines, [a, b], shelf=shelf), "cineole")).outcome

    assert of("5.9 %", SAME) is OVER  # 3.5 + 2.5
    assert of("6 %", SAME) is WITHIN
    assert of("2.4 %") is OVER  # b alone
    assert of("5.9 %") is UNKNOWN


# -- names that nobody can place ------------------------------------------------------

CAMPHOR = "76-22-2"


@pytest.mark.parametrize(
    ("name", "outcome"),
    [
        ("Laurel camphor", UNKNOWN),  # an old name of camphor that no table has
        ("House accord 7", UNKNOWN),
        ("Linalool", WITHIN),  # another substance, whatever its number is
        ("Waxes", WITHIN),
    ],
)
def test_a_name_without_a_number_that_no_table_knows_may_be_it(name, outcome):
    one = found("camphor", CAMPHOR, "1 %", row(name, None, "30 %"))
    assert one.outcome is outcome
    asked = {say.code for say in one.ask}
    assert ("ask.number" in asked) is (outcome is UNKNOWN)


def test_it_is_no_matter_where_it_could_not_fill_the_cap():
    assert (
        found("camphor", CAMPHOR, "2 %", row("House", None, "30 %")).outcome is WITHIN
    )


def test_its_number_settles_it():
    answers = ({"name": "House accord 7", "cas": "470-82-6"},)
    rows = (row("House accord 7", None, "30 %"),)
    one = found("camphor", CAMPHOR, "1 %", *rows, confirmed=answers)
    assert one.outcome is WITHIN
