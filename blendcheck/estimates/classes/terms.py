"""Who counts in a sum: parts by their own paper, else by their components."""

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from blendcheck.estimates.classes.model import Ingredient, Mixture, Part, Profile
from blendcheck.interval import Range

__all__ = [
    "Amounts",
    "Met",
    "Pick",
    "Term",
    "end_of",
    "not_known",
    "terms_of",
    "unknown_term",
]

Grade = Literal["documented", "memory", "unknown"]
ZERO = Fraction(0)
HUNDRED = Fraction(100)


@dataclass(frozen=True, slots=True)
class Met:
    """That a profile counts in a sum: with which weight, from which share on, why."""

    weight: Fraction
    says: str
    documented: bool = True
    cutoff: Fraction = ZERO


Pick = Callable[[Profile], Met | None]


@dataclass(frozen=True, slots=True)
class Term:
    """One contributor of a sum.

    Parameters
    ----------
    name, key : str
        Who; one key is one substance.
    share : Range
        Of the mixture. [%]
    met : Met
        Weight, cut-off and reason.
    grade : str
        Whether the class is documented, from memory, or not known at all.
    lot : str
        The part that it comes from.
    room, whole : Fraction
        Most that the contributors of that part can hold together, and the part. [%]
    own_name : str
        Its name alone, where ``name`` says what it stands in.
    """

    name: str
    key: str
    share: Range
    met: Met
    grade: Grade
    lot: str
    room: Fraction
    whole: Fraction
    own_name: str = ""

    @property
    def substance(self) -> str:
        """Its name alone, without what it stands in."""
        return self.own_name or self.name


Amounts = tuple[tuple[Term, Fraction], ...]


def end_of(share: Range, *, high: bool) -> Fraction:
    """Return one end of a share; a missing one is 0 or 100.

    Parameters
    ----------
    share : Range
        The share. [%]
    high : bool
        Which end.
    """
    if high:
        return HUNDRED if share.high is None else share.high
    return share.low or ZERO


def terms_of(
    mixture: Mixture, families: frozenset[str], pick: Pick, unknown: Met
) -> tuple[Term, ...]:
    """Collect the contributors of a sum.

    Parameters
    ----------
    mixture : Mixture
        The mixture.
    families : frozenset of str
        Classes of which a sheet must speak to be taken at its word.
    pick : callable
        Says whether and how a profile counts.
    unknown : Met
        How something counts that nobody classified: as the worst that it can be.

    Returns
    -------
    tuple of Term
        A part whose own paper speaks of these classes counts as a whole; of any other
        its components do, and the rest of it is not known.
    """
    found = (_of_part(part, families, pick, unknown) for part in mixture.parts)
    return tuple(term for terms in found for term in terms)


def _of_part(
    part: Part, families: frozenset[str], pick: Pick, unknown: Met
) -> list[Term]:
    most = end_of(part.share, high=True)
    if most == 0:
        return []
    own = pick(part.profile)
    whole: list[Term] = []
    if own is not None:
        grade: Grade = "documented" if own.documented else "memory"
        whole = [
            Term(
                part.name,
                part.key,
                part.share,
                own,
                grade,
                part.place,
                most,
                most,
                part.called,
            )
        ]
    if part.profile.speaks(families):
        return whole
    inside = [(one, pick(one.profile)) for one in part.components]
    silent = sum(
        (end_of(c.share, high=False) for c, met in inside if met is None), ZERO
    )
    room = max(most - silent, ZERO)
    found = [_component(one, met, part, room, most) for one, met in inside if met]
    rest = not_known(part, families)
    if rest is not None:
        found.append(unknown_term(part, rest, unknown))
    return [*whole, *found]


def unknown_term(part: Part, share: Range, met: Met) -> Term:
    """Return what nobody classified of a part as a contributor.

    Parameters
    ----------
    part : Part
        The part.
    share : Range
        How much of the mixture that is. [%]
    met : Met
        How it counts.
    """
    most = end_of(part.share, high=True)
    key = f"{part.place}/not known"
    return Term(part.name, key, share, met, "unknown", part.place, most, most)


def not_known(part: Part, families: frozenset[str]) -> Range | None:
    """Return how much of a part nobody classified, as a share of the mixture.

    Parameters
    ----------
    part : Part
        The part.
    families : frozenset of str
        Classes of which its paper, or that of a component, must speak.

    Returns
    -------
    Range or None
        From nothing to what is left over; ``None`` where nothing is. [%]
    """
    if part.profile.speaks(families):
        return None
    known = sum(
        (
            end_of(one.share, high=False)
            for one in part.components
            if one.profile.speaks(families)
        ),
        ZERO,
    )
    rest = end_of(part.share, high=True) - known
    if rest <= 0:
        return None
    return Range(ZERO, rest, high_open=part.share.high_open)


def _component(
    one: Ingredient, met: Met, part: Part, room: Fraction, most: Fraction
) -> Term:
    grade: Grade = "documented" if met.documented else "memory"
    name = f"{one.name} in {part.name}"
    return Term(name, one.key, one.share, met, grade, part.place, room, most, one.name)
