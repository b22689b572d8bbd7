"""Fragrance allergens: which of the list must be named, which not, which is open.

Annex III to Regulation (EC) No 1223/2009, as amended by Regulation (EU) 2023/1545:
an allergen is named where its share *exceeds* 0.001 % in what stays on the skin and
0.01 % in what is rinsed off; the members of an entry are added up. Facts only: a list
of names is no limit. The place, and so the list, is the maker's choice.
"""

from fractions import Fraction
from typing import Literal

from blendcheck import reference
from blendcheck.blend.totals import SubjectTotal
from blendcheck.checks.case import Case
from blendcheck.checks.entries import mass_marks, used
from blendcheck.checks.judge import judge
from blendcheck.checks.listed import entry_total, names_not_placed
from blendcheck.frozen import Frozen
from blendcheck.quantity import Limit, exact_text
from blendcheck.records.finding import Outcome
from blendcheck.records.workshop import Place
from blendcheck.reference import AllergenEntry, AllergenList

__all__ = [
    "Contact",
    "Declaration",
    "Listed",
    "Verdict",
    "declaration",
    "is_on_older_list",
    "listed",
    "lists_in_force",
    "verdict",
]

Verdict = Literal["declare", "below", "undecided"]
Contact = Literal["leave-on", "rinse-off"]

_VERDICTS: dict[Outcome | None, Verdict] = {
    Outcome.OVER: "declare",
    Outcome.WITHIN: "below",
}


class Listed(Frozen):
    """An entry of the list, and how much of it is in the piece.

    Parameters
    ----------
    entry : AllergenEntry
        The entry.
    total : SubjectTotal
        Its share of the finished product. [%]
    leave_on, rinse_off : {"declare", "below", "undecided"}
        Whether it must be named on each kind of product. For a substance that is
        prohibited, whether any of it is there.
    named : bool
        Whether a paper shows some of it, or it is an oil of the recipe.
    """

    entry: AllergenEntry
    total: SubjectTotal
    leave_on: Verdict
    rinse_off: Verdict
    named: bool

    def on(self, contact: Contact | None) -> Verdict:
        """Return the verdict for a kind of product.

        Parameters
        ----------
        contact : {"leave-on", "rinse-off"} or None
            ``None`` where nobody said which: then the two must agree.
        """
        if contact == "leave-on":
            return self.leave_on
        if contact == "rinse-off":
            return self.rinse_off
        return self.leave_on if self.leave_on == self.rinse_off else "undecided"


class Declaration(Frozen):
    """What stands on the label about allergens, in the wording of the list.

    Parameters
    ----------
    declare : tuple of str
        Names to print, the most first.
    undecided : tuple of str
        Names for which a figure is missing, of what a paper shows.
    not_shown : tuple of str
        Names that no paper shows and none rules out.
    banned : tuple of str
        Substances of the older list that are there and are prohibited by now.
    names : {"24 names", "81 entries"}
        The list that was used.
    place : str or None
        The place that was chosen. Without one the longer list is used.
    contact : {"leave-on", "rinse-off"} or None
        The kind of product.
    asked : bool
        Whether the place asks for such a list at all.
    """

    declare: tuple[str, ...]
    undecided: tuple[str, ...]
    not_shown: tuple[str, ...]
    banned: tuple[str, ...]
    names: str
    place: Place | None
    contact: Contact | None
    asked: bool


def is_on_older_list(entry: AllergenEntry) -> bool:
    """Whether an entry is one of the 26 names of the older list.

    Parameters
    ----------
    entry : AllergenEntry
        The entry; two of the 26 are prohibited by now.
    """
    return any("orig 26" in row.since for row in entry.rows)


def verdict(total: SubjectTotal, threshold: Fraction, case: Case) -> Verdict:
    """Say whether a share exceeds a threshold.

    Parameters
    ----------
    total : SubjectTotal
        The share.
    threshold : Fraction
        At the threshold is not above it. [% of the finished product]
    case : Case
        The case.

    Returns
    -------
    {"declare", "below", "undecided"}
        Undecided where the range crosses the threshold, where a paper that does
        not show it does not rule it out, and where only a published range or an
        unconfirmed match decides.
    """
    working = case.working
    outcome = judge(
        working.range(total.documented),
        working.range(total.most),
        working.range(total.strict),
        Limit(exact_text(threshold), threshold),
        mass_marks(total, case),
    )
    return _VERDICTS.get(outcome, "undecided")


def _is_there(total: SubjectTotal, case: Case) -> Verdict:
    low = case.working.range(total.documented)
    if low.against(Fraction(0)) == "above":
        return "declare"
    high = case.working.range(total.strict).high
    return "below" if high == 0 else "undecided"


def listed(case: Case) -> tuple[Listed, ...]:
    """Total every entry of the list.

    Parameters
    ----------
    case : Case
        The case.

    Returns
    -------
    tuple of Listed
        All 83 entries in the order of the list, the two prohibited ones last.
    """
    found = []
    for entry in reference.allergens():
        total = entry_total(entry, case)
        if entry.leave_on is None or entry.rinse_off is None:
            there = _is_there(total, case)
            verdicts = (there, there)
        else:
            verdicts = (
                verdict(total, entry.leave_on, case),
                verdict(total, entry.rinse_off, case),
            )
        found.append(Listed(entry, total, *verdicts, _is_named(total, case)))
    return tuple(found)


def _is_named(total: SubjectTotal, case: Case) -> bool:
    """Whether something that counts, or may, is printed or goes in as itself."""
    if case.working.range(total.documented).high:
        return True
    maybe = total.subject.proposed - names_not_placed(case).keys()
    wanted = total.subject.members | maybe
    materials = {f"material:{one}" for one in used(case.totals)}
    return not wanted.isdisjoint(case.totals.components.keys() | materials)


def lists_in_force(case: Case) -> tuple[AllergenList, ...]:
    """Return which lists the chosen place asks for on the day of the check.

    Parameters
    ----------
    case : Case
        The case.

    Returns
    -------
    tuple of AllergenList
        Those of every place where none is chosen.
    """
    return reference.allergen_lists(case.materials.workshop.place, case.on)


def _contact(case: Case) -> Contact | None:
    contact = case.recipe.contact
    return None if contact == "not for skin" else contact


def declaration(case: Case, found: tuple[Listed, ...] | None = None) -> Declaration:
    """Return the names for the label of a batch that is made on the day.

    Parameters
    ----------
    case : Case
        The case.
    found : tuple of Listed, optional
        What :func:`listed` returned, if it was asked already.

    Returns
    -------
    Declaration
        In the wording of the list. Where no place is chosen, or the place has no
        list of its own, the longer list is used, and ``asked`` says which.
    """
    place, contact = case.materials.workshop.place, _contact(case)
    new = {
        row.names
        for row in lists_in_force(case)
        if row.applies_to != "on the market already"
    }
    older = place is not None and new == {"24 names"}
    every = found or listed(case)
    kept = [
        one
        for one in every
        if not one.entry.prohibited and (is_on_older_list(one.entry) or not older)
    ]
    kept.sort(key=lambda one: _most_first(one, case))

    def named(wanted: Verdict, *, shown: bool) -> tuple[str, ...]:
        return tuple(
            one.entry.label_name
            for one in kept
            if one.on(contact) == wanted and one.named is shown
        )

    return Declaration(
        declare=named("declare", shown=True) + named("declare", shown=False),
        undecided=named("undecided", shown=True),
        not_shown=named("undecided", shown=False),
        banned=tuple(
            one.entry.label_name
            for one in every
            if one.entry.prohibited and one.leave_on != "below" and one.named
        ),
        names="24 names" if older else "81 entries",
        place=place,
        contact=contact,
        asked=place is not None and bool(new - {"none"}),
    )


def _most_first(one: Listed, case: Case) -> tuple[Fraction, Fraction, str]:
    span = case.working.range(one.total.span)
    low, high = span.low or Fraction(0), span.high or Fraction(100)
    return -low, -high, one.entry.label_name.casefold()
