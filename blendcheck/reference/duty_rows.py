"""Rows on what a seller owes: lists by place, duties, words that are claims.

None of them decides what is lawful. They say what to ask, whom, and which text is
behind the question.
"""

from collections.abc import Mapping
from fractions import Fraction
from typing import ClassVar

from blendcheck.reference.rows import Row

__all__ = ["AllergenList", "Claim", "Duty"]

_PLACES = ("EU", "Great Britain", "Canada", "United States", "any")
_CHANNELS = ("gift", "sale", "free at the stall")
_LISTS = ("24 names", "81 entries", "none")
_GROUPS = {
    "illness": "claim: medicine",
    "treatment": "claim: medicine",
    "body": "claim: medicine",
    "mind": "claim: medicine",
    "germs": "claim: germs",
    "absolute": "claim: absolute",
    "proof": "claim: proof",
    "free from": "claim: free from",
    "authority": "claim: authority",
}
_OFFERS = ("scent", "evening", "wash", "list", "proof", "drop")


def _place_problem(place: str) -> str | None:
    return None if place in _PLACES else f"place {place} is none of {_PLACES}"


def _memory_problem(tag: str, fallback: str) -> str | None:
    if tag == "memory" and not fallback:
        return "fallback is blank, which a rule from memory needs"
    return None


class AllergenList(Row):
    """Which list of fragrance allergens a place asks for, and from when to when.

    ``names`` is the list, ``applies_to`` the goods, ``superseded_on`` the last day.
    """

    table: ClassVar[str] = "allergen_lists"
    key: ClassVar[tuple[str, ...]] = ("place", "names", "applies_to")
    blank: ClassVar[frozenset[str]] = frozenset(
        {"note", "in_force_from", "superseded_on", "fallback"}
    )

    place: str
    names: str
    applies_to: str
    in_force_from: str
    superseded_on: str
    says: str
    fallback: str
    source_id: str
    source_locator: str
    checked_on: str
    tag: str
    note: str

    def check(self, weights: Mapping[str, Fraction]) -> str | None:
        """Say what is wrong across the cells; see :meth:`Row.check`."""
        if self.names not in _LISTS:
            return f"names {self.names} is none of {_LISTS}"
        dates = self.in_force_from, self.superseded_on
        if all(dates) and dates[0] > dates[1]:
            return "superseded_on is before in_force_from"
        return _place_problem(self.place) or _memory_problem(self.tag, self.fallback)


class Duty(Row):
    """What the law of a place asks of somebody who hands out goods.

    ``channels`` are the ways of handing out that it speaks of, separated by
    semicolons; blank where it does not depend on them.
    """

    table: ClassVar[str] = "duties"
    key: ClassVar[tuple[str, ...]] = ("topic", "place", "says")
    blank: ClassVar[frozenset[str]] = frozenset({"note", "channels", "fallback"})

    topic: str
    place: str
    channels: str
    says: str
    fallback: str
    source_id: str
    source_locator: str
    checked_on: str
    tag: str
    note: str

    @property
    def each_channel(self) -> tuple[str, ...]:
        """The channels, one by one."""
        return tuple(one.strip() for one in self.channels.split(";") if one.strip())

    def check(self, weights: Mapping[str, Fraction]) -> str | None:
        """Say what is wrong across the cells; see :meth:`Row.check`."""
        other = set(self.each_channel) - set(_CHANNELS)
        if other:
            return f"channels {min(other)} is none of {_CHANNELS}"
        return _place_problem(self.place) or _memory_problem(self.tag, self.fallback)


class Claim(Row):
    """Words that say more of a thing than what it smells of.

    ``forms`` are the words and phrases, ``not_when`` the phrases in which they mean
    something else, each separated by ``|``. In a phrase ``*`` stands for any one
    word, and ``$`` for the end of what is said.
    """

    table: ClassVar[str] = "claims"
    key: ClassVar[tuple[str, ...]] = ("claim",)
    blank: ClassVar[frozenset[str]] = frozenset({"note", "not_when"})

    claim: str
    group: str
    forms: str
    not_when: str
    offer: str
    source_id: str
    source_locator: str
    checked_on: str
    tag: str
    note: str

    @property
    def topic(self) -> str:
        """The topic of the duties that stand behind it."""
        return _GROUPS[self.group]

    @property
    def each_form(self) -> tuple[tuple[str, ...], ...]:
        """The phrases, each as its words."""
        return _phrases(self.forms)

    @property
    def each_exception(self) -> tuple[tuple[str, ...], ...]:
        """The phrases that mean something else, each as its words."""
        return _phrases(self.not_when)

    def check(self, weights: Mapping[str, Fraction]) -> str | None:
        """Say what is wrong across the cells; see :meth:`Row.check`."""
        if self.group not in _GROUPS:
            return f"group {self.group} is none of {', '.join(_GROUPS)}"
        if self.offer not in _OFFERS:
            return f"offer {self.offer} is none of {', '.join(_OFFERS)}"
        words = [w for phrase in self.each_form for w in phrase]
        odd = [w for w in words if w != "$" and not (w.isalnum() and w.islower())]
        odd = [w for w in odd if not w.isdigit()]
        if odd or not all(self.each_form):
            return f"forms {odd[0] if odd else '(blank)'} is no plain word"
        return None


def _phrases(text: str) -> tuple[tuple[str, ...], ...]:
    return tuple(tuple(one.split()) for one in text.split("|") if one)
