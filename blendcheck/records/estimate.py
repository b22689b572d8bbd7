"""What a model says: a number with its range, its doubts and what it was made from.

Verdicts rest on exact figures and open to steps (:mod:`blendcheck.records.working`).
An estimate rests on floats from an equation, so it never decides anything. It opens
to lines that name every figure that went in, with its source.
"""

from blendcheck.frozen import Frozen
from blendcheck.quantity import Mark

__all__ = ["Estimate"]


class Estimate(Frozen):
    """One estimated number.

    Parameters
    ----------
    name : str
        Stable name, such as ``air.total.stall.peak``; one in an assessment.
    says : str
        What it is, in plain words ("all scent, highest in the stall").
    unit : str
        Unit of the numbers.
    central : float or None
        The value at the settings as entered; ``None`` where only a range can be
        said.
    low, high : float or None
        Ends of what the model and its figures leave open; ``None`` where nothing
        bounds that end.
    digits : int
        Significant digits that mean something; one for air.
    lines : tuple of str
        How it was worked out, each line with its figures.
    sources : tuple of str
        Source ids of what was looked up.
    marks : frozenset of Mark
        Doubts, :attr:`~blendcheck.quantity.Mark.ESTIMATED` always among them.
    """

    name: str
    says: str
    unit: str
    central: float | None
    low: float | None = None
    high: float | None = None
    digits: int = 1
    lines: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()
    marks: frozenset[Mark] = frozenset({Mark.ESTIMATED})
