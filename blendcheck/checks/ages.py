"""Published age lines for what is in the piece, each with its source.

They disagree, and they speak of medicines and of other ways of use. So none stands on
a card; they stand side by side in the maker's own file.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from blendcheck import reference
from blendcheck.checks.case import Case
from blendcheck.checks.contents import looked_up
from blendcheck.quantity import Mark
from blendcheck.records.finding import Finding, Say

__all__ = ["AgeLine", "age_lines", "check", "published_ages"]

_AGE = re.compile(r"\b[0-9]+ (?:months|years)\b")
_RULINGS = {
    "119-36-8": "methyl salicylate, age",
    "1490-04-6": "peppermint oil and menthol, age",
}
"""Rulings with an age, by what they speak of."""


@dataclass(frozen=True, slots=True)
class AgeLine:
    """One published age line.

    Parameters
    ----------
    about : str
        What it speaks of: a material or a component, as the maker's papers name it.
    says : str
        What was published.
    age : str
        The age in it, as printed.
    source : str
        Source id.
    tag : str
        ``"seen"`` or ``"memory"``.
    """

    about: str
    says: str
    age: str
    source: str
    tag: str


def published_ages(text: str) -> tuple[str, ...]:
    """Return the ages in a sentence, as printed.

    Parameters
    ----------
    text : str
        A sentence.

    Examples
    --------
    >>> published_ages("not under 30 months, and 4 years in the bath")
    ('30 months', '4 years')
    """
    return tuple(dict.fromkeys(_AGE.findall(text)))


def age_lines(case: Case) -> tuple[AgeLine, ...]:
    """Return every published age line for what is in the recipe.

    Parameters
    ----------
    case : Case
        The case.

    Returns
    -------
    tuple of AgeLine
        Each sentence of each source once; empty where the tables have none, which
        says nothing about children.
    """
    found: dict[tuple[str, str], AgeLine] = {}
    for node in case.totals.leaves:
        for text, shown, _ in looked_up(node):
            for says, source, tag in _said_of(text):
                for age in published_ages(says):
                    line = AgeLine(shown, says, age, source, tag)
                    found.setdefault((says, age), line)
    return tuple(found.values())


def _said_of(text: str) -> Iterator[tuple[str, str, str]]:
    rows = list(reference.watch_for_oil(text))
    topics: set[str] = set()
    if reference.check_digit_ok(text):
        rows += reference.watch_for_cas(text)
        numbers = reference.numbers_answering(text)
        topics = {topic for cas, topic in _RULINGS.items() if cas in numbers}
    for row in rows:
        if row.reason == "children":
            yield row.says, row.source_id, row.tag
    for topic in sorted(topics):
        for ruling in reference.rulings(topic):
            yield ruling.says, ruling.source_id, ruling.tag


def check(case: Case) -> Iterator[Finding]:
    """State the published age lines, and that they disagree.

    Parameters
    ----------
    case : Case
        The case.

    Yields
    ------
    Finding
        One fact, where there is a line at all.
    """
    lines = age_lines(case)
    if not lines:
        return
    ages = tuple(dict.fromkeys(line.age for line in lines))
    values = {"ages": ", ".join(ages)}
    memory = any(line.tag == "memory" for line in lines)
    yield Finding(
        kind="fact",
        check="ages",
        subject="age lines",
        why=Say("ages.differ" if len(ages) > 1 else "ages.one", values),
        also=tuple(
            Say(
                "ages.line" if line.tag == "seen" else "ages.line-recalled",
                {
                    "about": line.about,
                    "says": line.says,
                    "source": reference.source(line.source).citation,
                },
            )
            for line in lines
        ),
        source=", ".join(dict.fromkeys(line.source for line in lines)),
        marks=frozenset({Mark.FROM_MEMORY}) if memory else frozenset(),
    )
