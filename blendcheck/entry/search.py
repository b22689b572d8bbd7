"""From what somebody types to the entry that is meant, or to those that may be.

A name may mean several isomers, and a plant several oils: then all of them are
offered, and the maker says which. Nothing is chosen here.
"""

import difflib
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from typing import Final, Literal

from blendcheck import reference
from blendcheck.entry.oils import bare_name, oil_entry
from blendcheck.entry.substances import names_elsewhere, substance_entry
from blendcheck.entry.whole import OilEntry, SubstanceEntry
from blendcheck.errors import InputError
from blendcheck.reference import Oil, Synonym, normal_name, rows_of

__all__ = ["Choice", "Found", "look_up", "open_entry"]

_NEAR: Final = 6
_LONGEST: Final = 200
_WHY: Final = {
    "name": "its name",
    "inci": "its name on ingredient lists, or that of its group",
    "synonym": "another name for it",
    "isomer": "an isomer that the bare name may mean",
    "other CAS for same": "another number for it",
}


@dataclass(frozen=True, slots=True)
class Choice:
    """One entry that a text may mean.

    Parameters
    ----------
    kind : {"substance", "oil"}
        What it is.
    key : str
        CAS number, or printed name, of a substance; id of an oil.
    name : str
        To show.
    cas : str or None
        Its CAS number.
    why : str
        Why it is offered.
    """

    kind: Literal["substance", "oil"]
    key: str
    name: str
    cas: str | None
    why: str


@dataclass(frozen=True, slots=True)
class Found:
    """What a text may mean.

    Parameters
    ----------
    text : str
        As typed.
    choices : tuple of Choice
        The likeliest first; several where the maker has to say which.
    nearest : tuple of str
        Names and numbers like the text, where nothing fits.
    miswritten : bool
        It has the form of a CAS number, and its check digit is wrong.
    """

    text: str
    choices: tuple[Choice, ...]
    nearest: tuple[str, ...] = ()
    miswritten: bool = False

    @property
    def problem(self) -> InputError | None:
        """The sentence for a text that nothing fits; None where something does."""
        if self.choices:
            return None
        if self.miswritten:
            what = f"{self.text} is not a CAS number: its check digit is wrong"
        else:
            what = f"the tables have no substance and no oil called {self.text!r}"
        like = "; ".join(self.nearest)
        fix = f"Nearest to it: {like}" if like else "Try a CAS number or another name"
        return InputError(what, fix, code="unknown")


def open_entry(choice: Choice) -> SubstanceEntry | OilEntry:
    """Return the entry that was chosen.

    Parameters
    ----------
    choice : Choice
        One of those that :func:`look_up` offers.

    Raises
    ------
    InputError, ReferenceDataError
        If there is no such entry.
    """
    if choice.kind == "oil":
        return oil_entry(choice.key)
    return substance_entry(choice.key)


def look_up(text: str) -> Found:
    """Say what a name, synonym, CAS number or oil may mean.

    Parameters
    ----------
    text : str
        As printed on a paper or typed; at most 200 characters.

    Returns
    -------
    Found
        One choice, several, or the nearest names.

    Raises
    ------
    InputError
        If nothing is typed, or far too much.

    Examples
    --------
    >>> [choice.key for choice in look_up("Lime oil").choices]
    ['lime-expressed', 'lime-distilled']
    >>> [choice.name for choice in look_up("eucalyptol").choices]
    ['1,8-cineole']
    >>> look_up("mentol").nearest[0]
    'menthol'
    """
    given = " ".join(text.split())
    if not given:
        raise InputError("nothing is named", "write a name, a CAS number or an oil")
    if len(given) > _LONGEST:
        raise InputError(
            f"a name of {len(given)} characters is too long", "write one name"
        )
    match = reference.find(given)
    if match.miswritten:
        return Found(given, (), _nearest(given), miswritten=True)
    choices = dict.fromkeys(
        (*_substances(match), *_oils(given, match), *_elsewhere(given, match))
    )
    nearest = () if choices else _nearest(given)
    return Found(given, tuple(choices), nearest)


# -- what fits ---------------------------------------------------------------


def _substances(match: reference.Match) -> Iterator[Choice]:
    rows = reference.constituents()
    if match.exact is not None:
        row = rows[match.exact]
        yield Choice("substance", row.cas, row.name, row.cas, "its CAS number")
    for cas, kind in zip(match.candidates, match.kinds, strict=True):
        yield Choice("substance", cas, rows[cas].name, cas, _WHY[kind])


def _oils(given: str, match: reference.Match) -> Iterator[Choice]:
    wanted = normal_name(given)
    for oil in reference.oils().values():
        if wanted in (normal_name(oil.oil), normal_name(oil.name)):
            yield _oil(oil, "its name")
            return
    if match.exact is not None or match.kinds == ("name",):
        return  # the full name of a substance, such as camphor (isomer not stated)
    named = reference.find_oils(given) or reference.find_oils(bare_name(given))
    for oil in named:
        yield _oil(oil, "an oil of that name or number")
    watched = reference.oils_named(given)
    for oil in reference.oils().values():
        if oil not in named and (oil.watched_as in watched or _begins(oil, given)):
            yield _oil(oil, "an oil of that plant, or near it")


def _begins(oil: Oil, given: str) -> bool:
    """Whether the name of an oil or its plant begins with these whole words."""
    names = (oil.name, *oil.botanical_name.split("/"))
    return any(_starts(name, bare_name(given)) for name in names)


def _starts(name: str, given: str) -> bool:
    words, start = (each.casefold().replace(",", " ").split() for each in (name, given))
    return bool(start) and words[: len(start)] == start


def _oil(oil: Oil, why: str) -> Choice:
    return Choice("oil", oil.oil, oil.name, oil.cas or None, why)


def _elsewhere(given: str, match: reference.Match) -> list[Choice]:
    """Return what only other tables name, unless it was offered as an oil.

    A full name that has no number stands alone: it could not be told from longer
    names otherwise.
    """
    wanted = normal_name(given)
    offered = {row.cas for row in rows_of(reference.OilNumber)}
    if match.candidates and match.cas is not None:
        offered.add(match.cas)  # another number of a constituent
    offered |= {f"{bare_name(oil.name)} oil" for oil in reference.oils().values()}
    same, longer = [], []
    for key, names in names_elsewhere().items():
        cas = key if reference.check_digit_ok(key) else None
        why = "named in other tables" + ("" if cas else ", without a number")
        for name in names if key not in offered else ():
            if wanted in (normal_name(key), normal_name(name)):
                same.append(Choice("substance", key, name, cas, why))
                break
            if _starts(name, given):
                longer.append(Choice("substance", key, name, cas, why))
                break
    alone = any(choice.cas is None for choice in same)
    return same if alone else same + longer


# -- what is near ------------------------------------------------------------


@cache
def _pool() -> dict[str, str]:
    """Return every name and number to show, by its form for comparing."""
    pool: dict[str, str] = {}
    shown: list[str] = []
    for row in reference.constituents().values():
        shown += [row.name, row.cas]
    shown += [synonym.name for synonym in rows_of(Synonym)]
    for oil in reference.oils().values():
        shown += [oil.name, bare_name(oil.name), oil.botanical_name]
    for key, names in names_elsewhere().items():
        shown += [*names, key]
    for name in shown:
        pool.setdefault(normal_name(name), name)
    return pool


def _nearest(given: str) -> tuple[str, ...]:
    wanted, pool = normal_name(bare_name(given) or given), _pool()
    like = difflib.get_close_matches(wanted, pool, n=_NEAR, cutoff=0.7)
    if len(wanted) > 2:
        inside = sorted((form for form in pool if wanted in form), key=len)
        like += [form for form in inside if form not in like]
    return tuple(pool[form] for form in like[:_NEAR])
