"""A frozen record behaves as the standard library's frozen dataclass does."""

import copy
import pickle
from dataclasses import FrozenInstanceError, asdict, dataclass, fields, replace

import pytest

from blendcheck.frozen import Frozen


@dataclass(frozen=True)
class Standard:
    """The one to agree with."""

    name: str
    grams: int
    notes: tuple[str, ...] = ()
    dry: bool = False


class Ours(Frozen):
    """The same fields."""

    name: str
    grams: int
    notes: tuple[str, ...] = ()
    dry: bool = False


class Heavier(Ours):
    """A record with one field more."""

    pieces: int = 1


class Shared(Frozen, base=True):
    """No record: what two records share, in an order of its own."""

    tag: str
    cas: str

    @property
    def both(self) -> str:
        return f"{self.cas} {self.tag}"


class Cited(Shared):
    """Says its columns again, in its own order."""

    cas: str
    name: str
    tag: str


CALLS = [
    (("oil", 3), {}),
    (("oil", 3, ("a",), True), {}),
    (("oil",), {"grams": 3}),
    (("oil",), {"grams": 3, "dry": True}),
    ((), {"dry": True, "grams": 3, "name": "oil"}),
]
WRONG = [
    ((), {}),
    (("oil",), {}),
    (("oil",), {"dry": True}),
    (("oil", 3, (), True, 5), {}),
    (("oil", 3), {"name": "oil"}),
    (("oil", 3), {"colour": "blue"}),
    (("oil",), {"colour": "blue"}),
]


@pytest.mark.parametrize(("values", "named"), CALLS)
def test_values_stand_where_a_dataclass_puts_them(values, named):
    ours, theirs = Ours(*values, **named), Standard(*values, **named)
    assert asdict(ours) == asdict(theirs)
    assert repr(ours) == repr(theirs).replace("Standard", "Ours")
    assert hash(ours) == hash(theirs)
    assert replace(ours, grams=9) == Ours(**{**asdict(theirs), "grams": 9})
    assert [f.name for f in fields(ours)] == [f.name for f in fields(theirs)]


@pytest.mark.parametrize(("values", "named"), WRONG)
def test_what_a_dataclass_refuses_is_refused(values, named):
    for kind in (Standard, Ours):
        with pytest.raises(TypeError, match=kind.__name__):
            kind(*values, **named)


def test_equal_only_where_class_and_values_are():
    assert Ours("oil", 3) == Ours("oil", 3)
    assert Ours("oil", 3) != Ours("oil", 4)
    assert Ours("oil", 3) != Standard("oil", 3)
    assert Ours("oil", 3) != Heavier("oil", 3)
    assert len({Ours("oil", 3), Ours("oil", 3), Ours("oil", 4)}) == 2


def test_nothing_in_it_changes():
    one = Ours("oil", 3)
    for change in (
        lambda: setattr(one, "grams", 4),
        lambda: setattr(one, "colour", "blue"),
        lambda: delattr(one, "grams"),
    ):
        with pytest.raises(FrozenInstanceError, match=r"field '(grams|colour)'"):
            change()
    assert one == Ours("oil", 3)


def test_it_is_copied_and_kept():
    one = Heavier("oil", 3, pieces=2)
    assert copy.copy(one) == copy.deepcopy(one) == one
    assert pickle.loads(pickle.dumps(one)) == one  # noqa: S301  # our own bytes


def test_fields_of_a_parent_come_first_and_those_of_a_base_not_at_all():
    assert [f.name for f in fields(Heavier)][-2:] == ["dry", "pieces"]
    assert [f.name for f in fields(Cited)] == ["cas", "name", "tag"]
    assert Cited("89-78-1", "menthol", "seen").both == "89-78-1 seen"


def test_patterns_match_it_by_place():
    match Ours("oil", 3):
        case Ours(name, grams):
            assert (name, grams) == ("oil", 3)
        case _:
            pytest.fail("no match")
