"""The check that papers are made from, kept as it stood at one moment."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from functools import cached_property

from blendcheck import __version__
from blendcheck.assess import Assessment
from blendcheck.papers.content import Kind, Paper, Section, tidied, tidy, unprintable
from blendcheck.quantity import print_range
from blendcheck.records.finding import Finding, Outcome, Say
from blendcheck.records.papers import PaperTexts
from blendcheck.records.recipe import Recipe
from blendcheck.records.working import Id
from blendcheck.records.workshop import Workshop
from blendcheck.weighing import WeighingList, weighing_list
from blendcheck.words import render

__all__ = ["KeptCheck", "claims", "joined", "say"]


def say(code: str, values: Mapping[str, str] | None = None) -> str:
    """Return a sentence of the table of words.

    Parameters
    ----------
    code : str
        Its code.
    values : mapping of str to str, optional
        What is put in.
    """
    return render(Say(code, values or {}))


def joined(names: Iterable[str]) -> str:
    """Return names in a row, apart by semicolons where one of them has a comma.

    Parameters
    ----------
    names : iterable of str
        The names.

    Examples
    --------
    >>> joined(["Kaolin", "Cedarwood oil, lot CW-0322"])
    'Kaolin; Cedarwood oil, lot CW-0322'
    """
    said = tuple(names)
    return ("; " if any(", " in one for one in said) else ", ").join(said)


@dataclass(frozen=True)
class KeptCheck:
    """A check as it stood at one moment; papers come from nothing else.

    Parameters
    ----------
    assessment : Assessment
        The check; of a recipe that was taken over whole, never of one half typed.
    at : datetime
        When it was kept, as the face says; no clock is read here. Its seconds
        are not printed.
    """

    assessment: Assessment
    at: datetime

    @property
    def recipe(self) -> Recipe:
        """The recipe."""
        return self.assessment.case.recipe

    @property
    def workshop(self) -> Workshop:
        """The workshop."""
        return self.assessment.case.materials.workshop

    @property
    def words(self) -> PaperTexts:
        """What the maker wrote for the papers."""
        return self.recipe.papers

    @property
    def name(self) -> str:
        """The name of the recipe, on one line."""
        return tidy(self.recipe.name)

    @property
    def title(self) -> str:
        """The title that the maker gave, else the name of the recipe."""
        return tidy(self.words.title) or self.name

    @cached_property
    def weighing(self) -> WeighingList:
        """The weighing list, rounded to the scale."""
        return weighing_list(self.assessment)

    @property
    def counting(self) -> tuple[Finding, ...]:
        """The limits that count."""
        return tuple(
            f for f in self.assessment.findings if f.kind == "limit" and f.counts
        )

    @property
    def open(self) -> tuple[Finding, ...]:
        """The limits that count and are over, may be over or are not known."""
        return tuple(f for f in self.counting if f.outcome is not Outcome.WITHIN)

    def told(self, kind: str) -> tuple[Finding, ...]:
        """Return the facts or the cautions, estimates and labels left aside.

        Parameters
        ----------
        kind : str
            ``"fact"`` or ``"caution"``.
        """
        apart = {*map(id, self.assessment.estimates), *map(id, self.assessment.label)}
        return tuple(
            f
            for f in self.assessment.findings
            if f.kind == kind and f.counts and id(f) not in apart
        )

    def grams(self, step: Id | None, unit: str = "g", digits: int = 4) -> str:
        """Print what a step holds; blank for none.

        Parameters
        ----------
        step : Id or None
            The step.
        unit : str, default "g"
            Its unit.
        digits : int, default 4
            Significant digits, >= 1.
        """
        if step is None:
            return ""
        return print_range(self.assessment.working.range(step), unit, digits=digits)

    @property
    def trace(self) -> str:
        """One line: the day checked for, the hash, the moment, the program."""
        return say(
            "sheet.trace",
            {
                "on": self.assessment.case.on.isoformat(),
                "hash": self.assessment.hash,
                "at": self.at.strftime("%Y-%m-%d %H:%M"),
                "version": __version__,
            },
        )

    def paper(
        self,
        kind: Kind,
        title: str,
        sections: tuple[Section, ...],
        left_off: tuple[str, ...] = (),
    ) -> Paper:
        """Put a paper together.

        Parameters
        ----------
        kind : Kind
            Which paper it is.
        title : str
            Its title.
        sections : tuple of Section
            What stands on it.
        left_off : tuple of str, optional
            What the maker wrote and is not on it.

        Raises
        ------
        InputError
            If a text holds a sign that shows nothing.
        """
        stamp = self.at.strftime("%Y%m%d%H%M")
        made = tidied(
            Paper(kind, title, self.name, sections, self.trace, stamp, left_off)
        )
        unprintable(made)
        return made


def claims(kept: KeptCheck) -> tuple[str, ...]:
    """Return what the check of words says of the maker's texts.

    Parameters
    ----------
    kept : KeptCheck
        The snapshot.
    """
    return tuple(
        say(f.why.code, f.why.values)
        for f in kept.assessment.label
        if f.check == "wording" and f.kind == "caution"
    )
