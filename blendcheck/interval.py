"""Exact ranges: two rational ends, each included or not, either one missing.

A range says between which ends a number lies. Ends are
:class:`fractions.Fraction`, never binary floats, so that a figure that lies
exactly on a cap stays on it. No text is read or printed here.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from math import lcm
from typing import Literal

from blendcheck.errors import DomainError

__all__ = ["ONE", "ZERO", "Range", "Side", "exact", "exact_sum"]

Side = Literal["at or below", "above", "across"]


def exact(value: int | Fraction) -> Fraction:
    """Return ``value`` as a fraction, and refuse anything that is not exact.

    Parameters
    ----------
    value : int or Fraction
        The number. A ``float`` or ``bool`` is refused.

    Returns
    -------
    Fraction
        The same number.

    Raises
    ------
    DomainError
        If ``value`` is a ``float`` or a ``bool``.
    """
    if isinstance(value, Fraction):
        return value
    if isinstance(value, bool | float):
        raise DomainError("value", repr(value), "an int or a Fraction, not a float")
    return Fraction(value)


def exact_sum(numbers: Iterable[Fraction]) -> Fraction:
    """Add numbers over one common denominator, faster than pair by pair.

    Parameters
    ----------
    numbers : iterable of Fraction
        The terms; none gives 0.

    Returns
    -------
    Fraction
        The sum, exactly.

    Examples
    --------
    >>> exact_sum([Fraction(1, 2), Fraction(1, 3), Fraction(1, 6)])
    Fraction(1, 1)
    """
    terms = [(one.numerator, one.denominator) for one in numbers]
    below = lcm(*(down for _, down in terms))
    return Fraction(sum(up * (below // down) for up, down in terms), below)


@dataclass(frozen=True, slots=True)
class Range:
    """A number that is known to lie between two ends.

    Parameters
    ----------
    low, high : Fraction or None
        The ends; ``None`` where nothing bounds the number on that side.
    low_open, high_open : bool, default False
        Whether that end is itself excluded (``<0.1`` excludes 0.1).

    Raises
    ------
    DomainError
        If an end is a float, or if no number lies between the ends.
    """

    low: Fraction | None
    high: Fraction | None
    low_open: bool = False
    high_open: bool = False

    def __post_init__(self) -> None:
        low, high = self.low, self.high
        for end in (low, high):
            if end is not None and not isinstance(end, Fraction):
                raise DomainError("end of a range", repr(end), "a Fraction or None")
        if low is None or high is None or (low is not high and low < high):
            return
        if low > high or self.low_open or self.high_open:
            raise DomainError("range", f"{low} to {high}", "low end first, not empty")

    @classmethod
    def at(cls, value: int | Fraction) -> "Range":
        """Return the range that holds one number only.

        Parameters
        ----------
        value : int or Fraction
            The number.
        """
        number = exact(value)
        return cls(number, number)

    @classmethod
    def between(cls, low: int | Fraction, high: int | Fraction) -> "Range":
        """Return the closed range from ``low`` to ``high``.

        Parameters
        ----------
        low, high : int or Fraction
            The ends, ``low`` at most ``high``.
        """
        return cls(exact(low), exact(high))

    @property
    def is_exact(self) -> bool:
        """Whether the range holds one number only."""
        low, high = self.low, self.high
        return low is not None and (low is high or low == high)

    def against(self, cap: Fraction) -> Side:
        """Say on which side of a cap the number lies.

        Parameters
        ----------
        cap : Fraction
            The cap, in the unit of the range.

        Returns
        -------
        {"at or below", "above", "across"}
            ``"at or below"`` if the number cannot exceed the cap (a high end on
            the cap does not), ``"above"`` if it must, else ``"across"``.
        """
        if self.high is not None and self.high <= cap:
            return "at or below"
        if self.low is not None and (
            self.low > cap or (self.low == cap and self.low_open)
        ):
            return "above"
        return "across"

    def holds(self, value: Fraction) -> bool:
        """Say whether ``value`` lies in the range.

        Parameters
        ----------
        value : Fraction
            The number to look for.
        """
        if self.low is not None and (
            value < self.low or (self.low_open and value == self.low)
        ):
            return False
        return self.high is None or not (
            value > self.high or (self.high_open and value == self.high)
        )

    def __add__(self, other: "Range") -> "Range":
        """Add two ranges of different unknowns, end by end."""
        low = None if self.low is None or other.low is None else self.low + other.low
        high = (
            None if self.high is None or other.high is None else self.high + other.high
        )
        return Range(
            low,
            high,
            low is not None and (self.low_open or other.low_open),
            high is not None and (self.high_open or other.high_open),
        )

    def times(self, factor: int | Fraction) -> "Range":
        """Multiply by a number that is known exactly and is not negative.

        Parameters
        ----------
        factor : int or Fraction
            The factor, >= 0.

        Raises
        ------
        DomainError
            If ``factor`` is negative.
        """
        number = exact(factor)
        if number < 0:
            raise DomainError("factor", number, ">= 0")
        if number == 0:
            return ZERO
        return Range(
            None if self.low is None else self.low * number,
            None if self.high is None else self.high * number,
            self.low_open,
            self.high_open,
        )

    @staticmethod
    def total(ranges: Iterable["Range"]) -> "Range":
        """Add many ranges of different unknowns.

        Parameters
        ----------
        ranges : iterable of Range
            The terms; none gives exactly 0.
        """
        result = ZERO
        for term in ranges:
            result = result + term
        return result


ZERO = Range(Fraction(0), Fraction(0))
ONE = Range(Fraction(1), Fraction(1))
