"""Grams as a linear form in the unknowns, until a figure is closed.

Twenty drops of an oil and forty drops of another, counted with the same
dropper, share one unknown: the mass of a drop. Kept as ``fixed + Σ count ×
unknown`` the shared part cancels where it must; as two ranges it would not.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from types import MappingProxyType
from typing import Literal, NewType

from blendcheck.errors import DomainError
from blendcheck.interval import Range, exact_sum

__all__ = ["NOTHING", "Corner", "Key", "Mass", "Unknowns", "key_of"]

Key = NewType("Key", str)
"""The name of one unknown number, such as ``lot/pep/A12/2216-51-5``."""


def key_of(*parts: str | None) -> Key:
    """Join the parts of a key, so that a slash inside a part stays in it.

    Parameters
    ----------
    *parts : str or None
        Ids, lots, identities; ``None`` is written as a dash.

    Examples
    --------
    >>> key_of("lot", "2024/07", None)
    'lot/2024%2F07/-'
    """
    return Key(
        "/".join(
            "-" if part is None else part.replace("%", "%25").replace("/", "%2F")
            for part in parts
        )
    )


Unknowns = Mapping[Key, Range]
"""The range of every unknown. [unit of the unknown]"""

Corner = Mapping[Key, Fraction]
"""One value chosen for each unknown."""

_NO_COUNTS: Mapping[Key, Fraction] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Mass:
    """A mass that is linear in the unknowns: ``fixed + Σ count × unknown``.

    Parameters
    ----------
    fixed : Fraction
        The part that depends on nothing unknown. [g]
    counts : mapping of Key to Fraction
        Grams for each unit of an unknown; zero counts are left out.
    """

    fixed: Fraction
    counts: Mapping[Key, Fraction] = field(default_factory=lambda: _NO_COUNTS)

    @classmethod
    def of(cls, key: Key, count: Fraction) -> "Mass":
        """Return ``count`` times one unknown.

        Parameters
        ----------
        key : Key
            The unknown.
        count : Fraction
            How many of it. [g per unit of the unknown]
        """
        return cls(Fraction(0), {key: count}) if count else NOTHING

    def __add__(self, other: "Mass") -> "Mass":
        if not other.counts:
            return Mass(self.fixed + other.fixed, self.counts)
        counts = dict(self.counts)
        for key, count in other.counts.items():
            counts[key] = counts.get(key, Fraction(0)) + count
        return Mass(
            self.fixed + other.fixed, {k: c for k, c in counts.items() if c != 0}
        )

    def __sub__(self, other: "Mass") -> "Mass":
        return self + other.times(Fraction(-1))

    def times(self, factor: Fraction) -> "Mass":
        """Return the form with every coefficient multiplied.

        Parameters
        ----------
        factor : Fraction
            Any exact number.
        """
        if factor == 0:
            return NOTHING
        if factor == 1:
            return self
        return Mass(
            self.fixed * factor, {k: c * factor for k, c in self.counts.items()}
        )

    @property
    def is_exact(self) -> bool:
        """Whether nothing unknown is left in it."""
        return not self.counts

    def at(self, corner: Corner) -> Fraction:
        """Return the grams for one choice of the unknowns.

        Parameters
        ----------
        corner : mapping of Key to Fraction
            A value for every unknown of the form.

        Returns
        -------
        Fraction
            The mass. [g]
        """
        grams = self.fixed
        for key, count in self.counts.items():
            grams += count * corner[key]
        return grams

    def extreme(self, unknowns: Unknowns, end: Literal["low", "high"]) -> Corner:
        """Return the corner at which the form is smallest or largest.

        Parameters
        ----------
        unknowns : mapping of Key to Range
            Bounds of every unknown; both ends are needed.
        end : {"low", "high"}
            Which extreme.

        Raises
        ------
        DomainError
            If an unknown has no bound on a side that is needed.
        """
        up = end == "high"
        return {
            key: bound(unknowns, key, up == (count.numerator > 0))
            for key, count in self.counts.items()
        }

    def range(self, unknowns: Unknowns) -> Range:
        """Return the grams, low to high.

        Parameters
        ----------
        unknowns : mapping of Key to Range
            Bounds of every unknown.

        Returns
        -------
        Range
            The mass. [g]
        """
        if not self.counts:
            return Range(self.fixed, self.fixed)
        low, high = self.extreme(unknowns, "low"), self.extreme(unknowns, "high")
        at_low, at_high = self.at(low), self.at(high)
        loose = at_low < at_high
        return Range(
            at_low,
            at_high,
            loose and any(is_open(unknowns, k, v) for k, v in low.items()),
            loose and any(is_open(unknowns, k, v) for k, v in high.items()),
        )

    @staticmethod
    def total(masses: Iterable["Mass"]) -> "Mass":
        """Add many forms.

        Parameters
        ----------
        masses : iterable of Mass
            The terms.
        """
        fixed: list[Fraction] = []
        counts: dict[Key, Fraction] = {}
        for mass in masses:
            fixed.append(mass.fixed)
            for key, count in mass.counts.items():
                counts[key] = counts.get(key, Fraction(0)) + count
        return Mass(exact_sum(fixed), {k: c for k, c in counts.items() if c != 0})


NOTHING = Mass(Fraction(0))


def bound(unknowns: Unknowns, key: Key, up: bool) -> Fraction:  # noqa: FBT001
    """Return one end of an unknown.

    Parameters
    ----------
    unknowns : mapping of Key to Range
        Bounds of every unknown.
    key : Key
        Which unknown.
    up : bool
        True for the high end.

    Raises
    ------
    DomainError
        If that end is missing.
    """
    end = unknowns[key].high if up else unknowns[key].low
    if end is None:
        raise DomainError(key, "unbounded", "bounded on both sides to be weighed with")
    return end


def is_open(unknowns: Unknowns, key: Key, value: Fraction) -> bool:
    """Say whether ``value`` is an end of an unknown that is itself excluded.

    Parameters
    ----------
    unknowns : mapping of Key to Range
        Bounds of every unknown.
    key : Key
        Which unknown.
    value : Fraction
        The end that was used.
    """
    span = unknowns[key]
    return (span.high_open and value == span.high) or (
        span.low_open and value == span.low
    )
