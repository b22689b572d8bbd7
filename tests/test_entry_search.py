"""What somebody types, and the entries that it may mean."""

import pytest

from blendcheck.entry import (
    OilEntry,
    SubstanceEntry,
    look_up,
    oil_entry,
    open_entry,
    substance_entry,
)
from blendcheck.errors import InputError, ReferenceDataError


def keys_of(text):
    return [choice.key for choice in look_up(text).choices]


SEARCHES = [
    ("2216-51-5", ["2216-51-5"]),
    ("l-menthol", ["2216-51-5"]),
    ("L-Menthol ", ["2216-51-5"]),
    ("eucalyptol", ["470-82-6"]),
    ("lime", ["lime-expressed", "lime-distilled"]),
    ("Lime oil", ["lime-expressed", "lime-distilled"]),
    ("lime (distilled)", ["lime-distilled"]),
    ("lime-expressed", ["lime-expressed"]),
    ("peppermint essential oil", ["peppermint"]),
    ("Mentha x piperita", ["peppermint"]),
    ("8006-90-4", ["peppermint"]),
    ("8000-29-1", ["citronella-java", "citronella-ceylon"]),
    ("cinnamon", ["cinnamon-bark", "cinnamon-leaf", "cassia"]),
    ("51414-25-6", ["31906-04-4"]),  # another number of the same
    ("camphor (isomer not stated)", ["76-22-2"]),
    ("furocoumarins", ["Furocoumarins"]),
    ("peru balsam", ["8007-00-9"]),
]


@pytest.mark.parametrize(("text", "keys"), SEARCHES)
def test_search_offers_what_is_meant(text, keys):
    assert keys_of(text) == keys
    for choice in look_up(text).choices:
        entry = open_entry(choice)
        assert isinstance(entry, OilEntry if choice.kind == "oil" else SubstanceEntry)
        assert choice.why


def test_a_name_that_means_several_is_never_chosen():
    assert set(keys_of("menthol")) >= {"1490-04-6", "89-78-1", "2216-51-5"}
    camphor = look_up("camphor").choices
    assert {choice.kind for choice in camphor} == {"substance", "oil"}
    assert look_up("menthol").problem is None


NEAR = [
    ("mentol", "menthol"),
    ("limonen", "limonene"),
    ("pepermint", "peppermint"),
    ("1,8-cineolle", "1,8-cineole"),
]


@pytest.mark.parametrize(("text", "near"), NEAR)
def test_an_unknown_name_gets_the_nearest(text, near):
    found = look_up(text)
    assert found.choices == ()
    assert near in found.nearest
    assert near in str(found.problem)
    assert found.problem.code == "unknown"


def test_a_wrong_check_digit_is_said():
    found = look_up("1490-04-7")
    assert found.miswritten
    assert "check digit" in str(found.problem)
    assert found.nearest[0] == "1490-04-6"


@pytest.mark.parametrize("text", ["", "   ", "x" * 201])
def test_what_cannot_be_looked_up_is_refused(text):
    with pytest.raises(InputError, match=r"nothing is named|too long"):
        look_up(text)


@pytest.mark.parametrize("text", ["zzqqy", "(x", "<b>$$", "ß€", "\N{SNOWMAN}", "-"])
def test_nonsense_gets_a_sentence(text):
    found = look_up(text)
    assert found.choices == ()
    assert "the tables have no" in str(found.problem)


def test_an_entry_that_is_not_there_is_refused():
    with pytest.raises(InputError, match="no table has a substance 50-00-0"):
        substance_entry("50-00-0")
    with pytest.raises(ReferenceDataError, match="oil moonlight is not in"):
        oil_entry("moonlight")
