"""What counts together."""

import pytest

from blendcheck import reference
from blendcheck.reference import groups, groups_of, members_of
from blendcheck.structure import identity

# Regulation (EC) 1223/2009, Annex III as amended by (EU) 2023/1545, as quoted in
# public transcriptions: members printed with these entries.
PRINTED_IN_THE_REGULATION = {
    "5392-40-5": {"5392-40-5", "141-27-5", "106-26-3"},  # entry 70, citral
    "97-54-1": {"97-54-1", "5932-68-3", "5912-86-7"},  # entry 73, isoeugenol
    "106-22-9": {"106-22-9", "26489-01-0", "1117-61-9", "7540-51-4"},  # entry 86
    "138-86-3": {"138-86-3", "7705-14-8", "5989-27-5", "5989-54-8"},  # entry 88
    "76-22-2": {"76-22-2", "21368-68-3", "464-49-3", "464-48-2"},  # entry 331
    "99-49-0": {"99-49-0", "6485-40-1", "2244-16-8"},  # entry 333, carvone
    "1490-04-6": {"89-78-1", "1490-04-6", "2216-51-5", "15356-60-2"},  # entry 338
    "11031-45-1": {"11031-45-1", "115-71-9", "77-42-9"},  # entry 341, santalol
    "8000-41-7": {"8000-41-7", "98-55-5", "138-87-4", "586-81-2"},  # entry 343
}


@pytest.mark.published
@pytest.mark.parametrize("cas", list(PRINTED_IN_THE_REGULATION))
def test_members_are_those_of_the_regulation(cas):
    assert members_of(cas) == PRINTED_IN_THE_REGULATION[cas]


@pytest.mark.published
@pytest.mark.parametrize(
    ("name", "printed"),
    [  # the same source, entries 371, 344 and 157 (those in our tables)
        ("pinene", {"80-56-8", "7785-70-8", "127-91-3", "18172-67-3"}),
        (
            "tetramethyl acetyloctahydronaphthalenes",
            {"54464-57-2", "54464-59-4", "68155-66-8", "68155-67-9"},
        ),
        (
            "rose ketones",
            [
                "43052-87-5",
                "24720-09-0",
                "23696-85-7",
                "57378-68-4",
                "23726-92-3",
                "23726-91-2",
            ],
        ),
    ],
)
def test_groups_without_a_number_go_by_name(name, printed):
    (group,) = (each for each in groups() if each.name == name)
    assert group.cas is None
    assert {member.member_cas for member in group.members} == set(printed)
    assert set(printed) <= members_of(name)


def test_a_racemate_number_counts_its_own_mirror_images():
    assert members_of("89-78-1") == {"89-78-1", "2216-51-5", "15356-60-2"}
    assert members_of("2216-51-5") == {"2216-51-5"}


def test_what_no_group_has_stands_alone():
    assert members_of("470-82-6") == {"470-82-6"}
    assert groups_of("470-82-6") == ()


def test_members_of_members_count_and_groups_of_says_where():
    assert {"7785-26-4", "19902-08-0"} <= members_of("pinene")
    assert [each.name for each in groups_of("7785-26-4")] == ["pinene", "alpha-pinene"]
    assert [each.name for each in groups_of("89-78-1")] == ["menthol", "dl-menthol"]


def test_a_group_has_one_number_and_numbers_name_one_group():
    for group in groups():
        assert {member.group_cas for member in group.members} == {group.cas or ""}
    numbers = [group.cas for group in groups() if group.cas]
    assert len(numbers) == len(set(numbers))


def test_no_group_contains_itself_or_comes_round():
    for group in groups():
        for member in group.members:
            assert group.cas not in members_of(member.member_cas), group.name


def test_isomers_share_a_skeleton_and_parts_of_a_sum_a_formula():
    """RDKit: the first block of the InChIKey is the structure without stereo."""
    table = reference.constituents()
    compared = 0
    for row in reference.rows_of(reference.GroupMember):
        member = table[row.member_cas]
        whole = table.get(row.group_cas)
        if whole is not None and whole.formula:
            assert member.formula == whole.formula, row
        if row.relation == "isomer of":
            assert whole is not None, row
            keys = {identity(each.smiles).inchikey[:14] for each in (member, whole)}
            assert len(keys) == 1, row
            compared += 1
    assert compared > 40
