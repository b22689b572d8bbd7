"""The room where a batch dries: what was entered, and what is assumed in its place.

With it stands what the maker keeps of alcohol at home.
"""

from dataclasses import dataclass
from typing import Final

from blendcheck import reference
from blendcheck.blend.totals import Totals
from blendcheck.errors import DomainError
from blendcheck.interval import Range
from blendcheck.quantity import Mark, Temperature, print_estimate
from blendcheck.units import GRAMS_PER, MILLILITRES_PER

__all__ = ["Kept", "Room", "kept_at_home", "room_of"]

_ROOM_AIR: Final = 20.0
"""Temperature of the air where nobody entered it; common practice. [degC]"""

_WET: Final = ("wet mix", "drying")
"""Stages at which alcohol is still in the tray."""


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
    tray_celsius : float
        Temperature of the tray, where it is given for a stage; else that of the
        air. [°C]
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
    tray_celsius: float
    line: str
    marks: frozenset[Mark]
    sources: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Kept:
    """Alcohol that stands at home, as a volume of liquid in litres."""

    printed: str
    low: float
    high: float


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
    process = totals.recipe.process
    given = _hottest(process.room)
    celsius = _ROOM_AIR if given is None else given
    trays = (_hottest(process.temperature.get(stage)) for stage in _WET)
    tray = max((one for one in trays if one is not None), default=celsius)
    time = "all at once" if entered.drying is None else f"over {entered.drying.printed}"
    where = "no volume" if entered.volume is None else entered.volume.printed
    line = (
        f"room: {where}; its air changes {air}; the alcohol leaves {time}; "
        f"{print_estimate(celsius, digits=3)} °C"
    )
    return Room(
        volume, changes, drying, celsius, tray, line, frozenset(marks), tuple(sources)
    )


def _hottest(entered: Temperature | None) -> float | None:
    """Return the high end of a temperature [°C]; ``None`` where there is none."""
    high = None if entered is None else entered.range.high
    return None if high is None else float(high)


def _house_air() -> float:
    """Return the highest typical air change of a house that was read, per hour."""
    rows = reference.shower_parameters("air changes of a house, geometric mean")
    spans = [row.range for row in rows if row.range is not None]
    return max(float(span.high) for span in spans if span.high is not None)


# -- what is kept -------------------------------------------------------------

_LIGHTEST: Final = 0.785  # g/mL, 2-propanol at 20 °C
_HEAVIEST: Final = 1.0


def kept_at_home(totals: Totals) -> Kept | None:
    """Return how much alcohol stands at home, as a volume of liquid.

    Parameters
    ----------
    totals : Totals
        Totals of the recipe.

    Returns
    -------
    Kept or None
        ``None`` if nobody entered it. A weight is turned into a range of volume,
        because the strength of every bottle is not known.
    """
    amount = totals.materials.workshop.workroom.alcohol_kept
    if amount is None:
        return None
    low, high = _ends(amount.number)
    if amount.kind == "volume":
        scale = float(MILLILITRES_PER[amount.unit]) / 1000
        return Kept(amount.printed, low * scale, high * scale)
    scale = float(GRAMS_PER[amount.unit]) / 1000
    return Kept(amount.printed, low * scale / _HEAVIEST, high * scale / _LIGHTEST)
