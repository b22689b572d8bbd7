"""What papers print, and the constituents that it may mean."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from blendcheck import reference
from blendcheck.reference import check_digit_ok, find, normal_name

# Chemical Abstracts Service, "Check Digit Verification of CAS Registry Numbers":
# 107-07-3; its client services, quoted on a mailing list: 1-propanol, 71-23-8.
# Water from a worked example on a chemical supplier's page.
PUBLISHED_NUMBERS = ["107-07-3", "71-23-8", "7732-18-5"]


@pytest.mark.published
@pytest.mark.parametrize("cas", PUBLISHED_NUMBERS)
def test_published_examples_of_the_check_digit(cas):
    assert check_digit_ok(cas)
    wrong = [f"{cas[:-1]}{digit}" for digit in "0123456789" if digit != cas[-1]]
    assert not any(map(check_digit_ok, wrong))


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("", "nothing"),
        ("107073", "no hyphens"),
        ("107-7-3", "one digit in the middle"),
        ("0107-07-3", "a leading zero"),
        ("12345678-07-3", "eight digits in front"),
        ("107-07-33", "two check digits"),
        (" 107-07-3", "a space"),
        ("107-07-3\n", "a line end"),
        ("107–07–3", "dashes that are no hyphens"),
        ("\u0661\u0660\u0667-\u0660\u0667-\u0663", "digits of another script"),
    ],
)
def test_other_forms_are_no_cas_numbers(text, why):
    assert not check_digit_ok(text), why


@pytest.mark.parametrize(
    ("name", "cas"),
    [
        ("eucalyptol", "470-82-6"),
        ("Cineole", "470-82-6"),
        ("1,8-Cineole", "470-82-6"),
        ("1.8-cineole", "470-82-6"),
        ("1,8 cineole", "470-82-6"),
        ("d-Limonene", "5989-27-5"),
        ("D–LIMONENE", "5989-27-5"),
        ("(R)-(+)-limonene", "5989-27-5"),
        ("l-limonene", "5989-54-8"),
        ("(−)-menthol", "2216-51-5"),
        ("Levomenthol", "2216-51-5"),
        ("racementhol", "89-78-1"),
        ("γ-Terpinene", "99-85-4"),
        ("Δ3-carene", "13466-78-9"),
        ("isopropyl alcohol", "67-63-0"),
        ("IPA", "67-63-0"),
        ("baking soda", "144-55-8"),
        ("methyl chavicol", "140-67-0"),
        ("nerol", "106-25-2"),
        ("neryl acetate", "141-12-8"),
        ("isoborneol", "124-76-5"),
        ("isomenthone", "491-07-6"),
        ("neomenthol", "491-01-0"),
        ("dipropylene glycol", "25265-71-8"),
        ("cream of tartar", "868-14-4"),
    ],
)
def test_names_that_mean_one_thing(name, cas):
    """Among them those that a general library answers with another isomer."""
    assert find(name).candidates[0] == cas
    assert find(name).exact is None


@pytest.mark.parametrize(
    ("name", "numbers"),
    [
        ("menthol", {"1490-04-6", "89-78-1", "2216-51-5", "15356-60-2"}),
        ("limonene", {"138-86-3", "5989-27-5", "5989-54-8", "7705-14-8"}),
        ("carvone", {"99-49-0", "6485-40-1", "2244-16-8"}),
        ("citral", {"5392-40-5", "141-27-5", "106-26-3"}),
        ("camphor", {"76-22-2", "464-49-3", "464-48-2", "21368-68-3"}),
        ("cinnamaldehyde", {"104-55-2", "14371-10-9"}),
        ("isoeugenol", {"97-54-1", "5932-68-3", "5912-86-7"}),
        ("citric acid", {"77-92-9", "5949-29-1"}),
    ],
)
def test_ambiguous_names_are_asked_about(name, numbers):
    match = find(name)
    assert match.ambiguous
    assert set(match.candidates) == numbers
    assert len(match.kinds) == len(match.candidates)


@pytest.mark.parametrize("cas", list(reference.constituents()))
def test_a_known_number_is_exact_and_proposes_nothing_else(cas):
    match = find(f" {cas} ")
    assert (match.exact, match.cas, match.candidates) == (cas, cas, ())
    assert not match.miswritten


def test_a_number_with_a_wrong_check_digit_is_told_apart_from_an_unknown_one():
    assert find("470-82-5").miswritten
    unknown = find("50-00-0")  # formaldehyde: a number, not in the tables
    assert (unknown.cas, unknown.exact, unknown.candidates) == ("50-00-0", None, ())
    assert not unknown.miswritten
    assert find("no such thing") == reference.Match("no such thing")
    assert find("") == reference.Match("")


def test_another_number_for_the_same_thing_proposes_and_does_not_merge():
    match = find("1506-02-1")
    assert (match.exact, match.cas) == (None, "1506-02-1")
    assert match.candidates == ("21145-77-7",)
    assert match.kinds == ("other CAS for same",)


def test_every_name_in_the_tables_finds_its_constituent():
    for row in reference.constituents().values():
        assert row.cas in find(row.name).candidates, row
        assert not row.inci or row.cas in find(row.inci).candidates, row
    for row in reference.rows_of(reference.Synonym):
        assert row.cas in find(row.name).candidates, row


def test_the_own_name_comes_first_and_isomers_after_synonyms():
    order = ["name", "synonym", "isomer", "other CAS for same", "inci"]
    for row in reference.rows_of(reference.Synonym):
        kinds = [order.index(kind) for kind in find(row.name).kinds]
        assert kinds == sorted(kinds), row.name


@pytest.mark.parametrize(
    "names",
    [
        ("menthol", "l-menthol", "d-menthol", "dl-menthol", "(-)-menthol"),
        ("limonene", "(+)-limonene", "(−)-limonene", "(±)-limonene"),
        ("anethole", "(E)-anethole", "(Z)-anethole", "trans-anethole", "cis-anethole"),
        ("pinene", "alpha-pinene", "β-pinene"),
        ("carvone", "(R)-carvone", "(S)-carvone"),
        ("3-carene", "2-carene"),
    ],
)
def test_marks_of_isomers_are_kept_apart(names):
    assert len({normal_name(name) for name in names}) == len(names)


@given(st.sampled_from(sorted(reference.constituents())), st.data())
def test_spacing_case_and_dashes_make_no_difference(cas, data):
    name = reference.constituents()[cas].name
    written = "".join(
        data.draw(st.sampled_from("-‐–−")) if sign == "-" else sign  # noqa: RUF001
        for sign in data.draw(st.sampled_from([name, name.upper(), f"  {name} "]))
    )
    assert find(written).candidates[0] == cas


@given(st.text(max_size=40))
def test_any_text_is_answered(text):
    match = find(text)
    assert match.text == text
    assert match.exact is None or match.exact in reference.constituents()
    assert set(match.candidates) <= set(reference.constituents())
