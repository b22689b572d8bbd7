"""What somebody who hands out goods owes besides, as questions with the rule behind.

Nothing here decides what is lawful. Each question names whom to ask; the rule beside
it is quoted with its source, and one from memory says so.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from blendcheck import reference
from blendcheck.checks.case import Case
from blendcheck.quantity import Mark
from blendcheck.records.finding import Finding, Say
from blendcheck.records.workshop import Place
from blendcheck.reference import Duty

__all__ = ["Channel", "Question", "check", "questions", "rule_says"]

Channel = Literal["gift", "sale", "free at the stall"]

_TOPICS: dict[str, str] = {
    "assessor": "owes.assessor",
    "responsible person": "owes.responsible-person",
    "notice": "owes.notice",
    "poison centre": "owes.poison-centre",
    "insurer": "owes.insurer",
    "local code": "owes.local-code",
    "free is supplied": "owes.free-is-supplied",
    "private gift": "owes.private-gift",
    "food look": "owes.food-look",
    "other law": "owes.other-law",
    "records": "owes.records",
}
"""The question of each topic of the duties, in the order in which they are asked."""


@dataclass(frozen=True, slots=True)
class Question:
    """One question to answer before a piece is handed over.

    Parameters
    ----------
    topic : str
        As in the table of duties.
    says : Say
        The question.
    rules : tuple of Duty
        What is behind it, for the place, or for every place where none is chosen.
    """

    topic: str
    says: Say
    rules: tuple[Duty, ...]


def questions(
    channel: Channel | None, place: Place | None = None
) -> tuple[Question, ...]:
    """Return the questions of a way of handing out.

    Parameters
    ----------
    channel : {"gift", "sale", "free at the stall"} or None
        How it leaves the house; ``None`` asks everything.
    place : str, optional
        Whose law; all by default.

    Returns
    -------
    tuple of Question
        In the order in which they are asked. A topic on which the tables have no
        rule for the place and the channel is left out.

    Examples
    --------
    >>> [one.topic for one in questions("gift", "EU")]
    ['insurer', 'local code', 'private gift', 'food look']
    """
    found = []
    for topic, code in _TOPICS.items():
        rules = tuple(
            row
            for row in reference.duties(topic, place)
            if channel is None or channel in row.each_channel
        )
        if rules:
            found.append(Question(topic, Say(code), rules))
    return tuple(found)


def rule_says(row: Duty) -> Say:
    """Quote a rule.

    Parameters
    ----------
    row : Duty
        The rule. One from memory says so.
    """
    place = "Anywhere" if row.place == "any" else row.place
    code = "owes.rule" if row.tag == "seen" else "owes.rule-recalled"
    return Say(code, {"place": place, "says": row.says})


def check(case: Case) -> Iterator[Finding]:
    """Ask what comes besides the recipe, by the way in which it leaves the house.

    Parameters
    ----------
    case : Case
        The case.

    Yields
    ------
    Finding
        Facts that are questions, and first the question of the way itself.
    """
    channel, place = case.recipe.channel, case.materials.workshop.place
    if channel is None:
        yield Finding(
            kind="fact",
            check="owes",
            subject="channel",
            why=Say("owes.no-channel"),
            ask=(Say("owes.ask-channel"),),
        )
    for one in questions(channel, place):
        memory = any(row.tag == "memory" for row in one.rules)
        yield Finding(
            kind="fact",
            check="owes",
            subject=one.topic,
            why=one.says,
            also=tuple(map(rule_says, one.rules)),
            source=", ".join(dict.fromkeys(row.source_id for row in one.rules)),
            marks=frozenset({Mark.FROM_MEMORY}) if memory else frozenset(),
        )
