"""The room where a batch dries: what was entered, and what is assumed in its place."""

from dataclasses import dataclass
from typing import Final

from blendcheck import reference
from blendcheck.blend.totals import Totals
from blendcheck.errors import DomainError
from blendcheck.interval import Range
from blendcheck.quantity import Mark, print_estimate

__all__ = ["Room", "room_of"]

_ROOM_AIR: Final = 20.0
"""Temperature of the air where nobody entered it; common practice. [degC]"""


@dataclass(frozen=True, slots=True)
class Room:
    """The settings of the workroom, each low to high.

    Parameters
    ----------
    volume : tuple of float, or None
        Volume of air; ``None`` if nobody entered it. [m3]
    air_changes : tuple of float
        Exchange of its air. [1/h]
    drying : tuple of float, or None
        How long the alcohol takes to leave; ``None`` if nobody entered it. [h]
    celsius : float
        Temperature of the air. [°C]
    line : str
        The settings in words.
    marks : frozenset of Mark
        Doubts of what was assumed.
    sources : tuple of str
        Where what was assumed comes from.
    """

    volume: tuple[float, float] | None
    air_changes: tuple[float, float]
    drying: tuple[float, float] | None
    celsius: float
    line: str
    marks: frozenset[Mark]
    sources: tuple[str, ...]


def _ends(span: Range) -> tuple[float, float]:
    if span.low is None or span.high is None:
        raise DomainError("setting", "unbounded", "bounded on both sides")
    return float(span.low), float(span.high)


def room_of(totals: Totals) -> Room:
    """Return the settings of the workroom, with what is assumed in words.

    Parameters
    ----------
    totals : Totals
        Totals of a recipe; the workshop holds the room, the recipe its temperature.

    Returns
    -------
    Room
        Without air changes entered, from none at all to what houses have
        (source id ``nas-radon``).
    """
    entered = totals.materials.workshop.workroom
    volume = None if entered.volume is None else _ends(entered.volume.range)
    drying = None if entered.drying is None else _ends(entered.drying.range)
    marks, sources = {Mark.ESTIMATED}, []
    if entered.air_changes is not None:
        changes, air = _ends(entered.air_changes.range), entered.air_changes.printed
    else:
        high = _house_air()
        changes, sources = (0.0, high), ["nas-radon"]
        air = f"from none to {print_estimate(high, digits=3)} per hour, as in houses"
    temperature = totals.recipe.process.room
    span = None if temperature is None else temperature.range
    celsius = _ROOM_AIR
    if span is not None and span.high is not None:
        celsius = float(span.high)
    time = "all at once" if entered.drying is None else f"over {entered.drying.printed}"
    where = "no volume" if entered.volume is None else entered.volume.printed
    line = (
        f"room: {where}; its air changes {air}; the alcohol leaves {time}; "
        f"{print_estimate(celsius, digits=3)} °C"
    )
    return Room(
        volume, changes, drying, celsius, line, frozenset(marks), tuple(sources)
    )


def _house_air() -> float:
    """Return the highest typical air change of a house that was read, per hour."""
    rows = reference.shower_parameters("air changes of a house, geometric mean")
    spans = [row.range for row in rows if row.range is not None]
    return max(float(span.high) for span in spans if span.high is not None)
