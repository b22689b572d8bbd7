"""Rows that differ by stereo alone: which count together, which are different."""

import pytest

from blendcheck import reference
from blendcheck.structure import Twins, identity, twins

TABLE = reference.constituents()
FOUND = twins(TABLE.values())

# One skeleton, two substances with names of their own (CAS Registry; papers list
# them apart): what counts for one does not count for the other.
DIFFERENT = [
    ({"76-49-3"}, {"125-12-2"}),  # bornyl and isobornyl acetate, endo and exo
    ({"507-70-0", "464-43-7", "464-45-9"}, {"124-76-5"}),  # borneol and isoborneol
    (  # menthol and neomenthol
        {"1490-04-6", "89-78-1", "2216-51-5", "15356-60-2"},
        {"491-01-0", "2216-52-6"},
    ),
    ({"105-87-3"}, {"141-12-8"}),  # geranyl and neryl acetate, E and Z
    ({"106-24-1"}, {"106-25-2"}),  # geraniol and nerol, E and Z
]


def numbers(found):
    return {*found.flat, *(c for each in found.with_stereo.values() for c in each)}


def counts_together(one, other):
    return any(
        {one, other} <= reference.members_of(group.cas or group.name)
        for group in reference.groups()
    )


def are_different(one, other):
    return any(
        (one in a and other in b) or (one in b and other in a) for a, b in DIFFERENT
    )


@pytest.mark.parametrize("found", FOUND, ids=lambda each: each.skeleton)
def test_twins_count_together_or_are_known_to_be_different(found):
    for one in numbers(found):
        for other in numbers(found) - {one}:
            assert counts_together(one, other) is not are_different(one, other), (
                TABLE[one].name,
                TABLE[other].name,
            )


def test_every_pair_that_is_called_different_is_a_pair_of_twins():
    together = [numbers(found) for found in FOUND]
    for one, other in DIFFERENT:
        assert any(one | other <= each for each in together)


def test_how_many_skeletons_have_twins():
    assert len(FOUND) == 25
    assert sum(bool(found.flat) for found in FOUND) == 22


def test_a_flat_row_is_told_from_those_with_stereo():
    (limonene,) = (found for found in FOUND if "5989-27-5" in numbers(found))
    assert set(limonene.flat) == {"138-86-3", "7705-14-8"}
    assert set(limonene.with_stereo.values()) == {("5989-27-5",), ("5989-54-8",)}
    (citral,) = (found for found in FOUND if "5392-40-5" in numbers(found))
    assert citral.flat == ("5392-40-5",)
    (geraniol,) = (found for found in FOUND if "106-24-1" in numbers(found))
    assert geraniol.flat == ()  # no number of the table means either of them


@pytest.mark.published
def test_twins_have_the_first_block_of_the_inchikey_in_common():
    """InChI Trust, technical FAQ: the first 14 letters hold formula and bonds, the
    second block stereo; UHFFFAOYSA stands where there is none (from memory)."""
    for found in FOUND:
        keys = {cas: identity(TABLE[cas].smiles).inchikey for cas in numbers(found)}
        assert {key[:14] for key in keys.values()} == {found.skeleton}
        assert all(keys[cas][15:25] == "UHFFFAOYSA" for cas in found.flat)
        for key, members in found.with_stereo.items():
            assert key[15:25] != "UHFFFAOYSA"
            assert {keys[cas] for cas in members} == {key}


def test_rows_that_are_drawn_alike_are_no_twins():
    row = TABLE["78-70-6"]
    assert twins([row, row]) == ()
    assert twins([]) == ()
    one, other = TABLE["126-90-9"], TABLE["126-91-0"]
    (found,) = twins([one, row, other])
    assert isinstance(found, Twins)
    assert found.flat == ("78-70-6",)
    assert len(found.with_stereo) == 2
