"""The shower that an estimate is made for, every figure with where it comes from.

What the maker did not enter is filled in from the table of shower figures, or by a
choice of our own where no figure was found. Around the setting lies a small grid of
others, each with one thing changed and two with everything changed the same way.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import cache
from itertools import product
from types import MappingProxyType
from typing import Any, Final, Literal

from blendcheck import reference
from blendcheck.equations.constants import ZERO_CELSIUS
from blendcheck.quantity import Mark, print_number
from blendcheck.records.setting import Measure, Shower

__all__ = ["Origin", "ShowerSetting", "corners_of", "grid_of", "setting_of"]


@dataclass(frozen=True, slots=True)
class Origin:
    """Where a figure of a setting comes from.

    Parameters
    ----------
    how : {"entered", "table", "own choice"}
        Written by the maker, a published figure, or ours because none was found.
    source : str
        Source id; empty unless it is from a table.
    tag : {"seen", "memory"}
        ``memory`` for a published figure that nobody read in its source.
    printed : str
        The figure as written or as the source prints it.
    """

    how: Literal["entered", "table", "own choice"]
    source: str = ""
    tag: Literal["seen", "memory"] = "seen"
    printed: str = ""

    @property
    def says(self) -> str:
        """In words."""
        if self.how == "entered":
            return "entered"
        if self.how == "own choice":
            return "our choice: no published figure"
        memory = ", from memory" if self.tag == "memory" else ""
        return f"published figure ({self.source}){memory}"


@dataclass(frozen=True, slots=True)
class ShowerSetting:
    """A shower with every figure filled in.

    Parameters
    ----------
    name : str
        What tells it from the others of a grid.
    stall_m3, bathroom_m3 : float
        Volumes of air, the bathroom's without the stall. [m3]
    stall_changes, bathroom_changes : float
        Air changes of the stall with the bathroom, and of the bathroom with the
        outside, during the shower and with the door shut. [1/h]
    shower_min : float
        How long one shower lasts. [min]
    water_c : float
        Temperature of the water. [°C]
    flow_l_per_min : float
        Flow of the water. [L/min]
    dissolving_min : float
        Time after which the piece is gone. [min]
    measured : bool
        Whether that time was measured.
    shut_min : float
        How long the door stays shut afterwards. [min]
    fan_min, fan_changes : float
        How long the fan runs after that [min], and the air changes then. [1/h]
    showers, pieces : int
        Showers in a row, and how many of the first of them have a piece.
    pause_min : float
        Time between two showers. [min]
    origins : mapping of str to Origin
        Where each figure comes from, by the name of the field.
    """

    name: str
    stall_m3: float
    bathroom_m3: float
    stall_changes: float
    bathroom_changes: float
    shower_min: float
    water_c: float
    flow_l_per_min: float
    dissolving_min: float
    measured: bool
    shut_min: float
    fan_min: float
    fan_changes: float
    showers: int
    pieces: int
    pause_min: float
    origins: Mapping[str, Origin] = field(compare=False, repr=False)

    @property
    def kelvin(self) -> float:
        """Temperature of the water, in kelvins."""
        return self.water_c + ZERO_CELSIUS

    @property
    def rate(self) -> float:
        """Rate at which the piece gives off what it gives off, per hour.

        Three over the dissolving time: 95 % is gone when the piece is. Own choice.
        """
        return 180.0 / self.dissolving_min

    @property
    def sources(self) -> tuple[str, ...]:
        """Source ids of the figures that come from a table, each once."""
        return tuple(dict.fromkeys(o.source for o in self.origins.values() if o.source))

    @property
    def marks(self) -> frozenset[Mark]:
        """Doubts of every result that is made with it."""
        memory = any(o.tag == "memory" for o in self.origins.values())
        return frozenset({Mark.ESTIMATED} | ({Mark.FROM_MEMORY} if memory else set()))

    @property
    def texts(self) -> Mapping[str, str]:
        """Figures as text, for a sentence, by the name of the field without m3."""
        numbers = {name: getattr(self, name) for name in _FIELDS}
        texts = {n.removesuffix("_m3"): _text(value) for n, value in numbers.items()}
        texts["showers"], texts["pieces"] = str(self.showers), str(self.pieces)
        texts["dissolving"] = "measured" if self.measured else "assumed"
        return MappingProxyType(texts)

    def lines(self) -> tuple[str, ...]:
        """Return one line for each figure: what, how much, where it comes from."""
        texts = self.texts
        return tuple(
            f"{says}: {texts[name.removesuffix('_m3')]} {unit} "
            f"({self.origins[name].says})"
            for name, (says, unit) in _FIELDS.items()
        )


_FIELDS: Final[Mapping[str, tuple[str, str]]] = MappingProxyType(
    {
        "stall_m3": ("air in the stall", "m³"),
        "bathroom_m3": ("air in the bathroom", "m³"),
        "stall_changes": ("air changes of the stall", "per hour"),
        "bathroom_changes": ("air changes of the bathroom", "per hour"),
        "shower_min": ("one shower", "min"),
        "water_c": ("water", "°C"),
        "flow_l_per_min": ("flow of water", "L/min"),
        "dissolving_min": ("the piece is gone after", "min"),
        "shut_min": ("door shut afterwards", "min"),
        "fan_min": ("fan on after that", "min"),
        "fan_changes": ("air changes with the fan", "per hour"),
        "pause_min": ("between two showers", "min"),
    }
)

_ENTERED: Final[Mapping[str, str]] = MappingProxyType(
    {
        "stall_m3": "stall_volume",
        "bathroom_m3": "bathroom_volume",
        "stall_changes": "stall_air_changes",
        "bathroom_changes": "bathroom_air_changes",
        "shower_min": "duration",
        "water_c": "water_temperature",
        "flow_l_per_min": "water_flow",
        "dissolving_min": "dissolving",
        "shut_min": "door_shut",
        "fan_min": "fan",
        "fan_changes": "fan_air_changes",
        "pause_min": "between",
    }
)
"""The field of the record that holds each figure."""

_TABLE: Final[Mapping[str, str]] = MappingProxyType(
    {
        "stall_m3": "volume of a shower stall",
        "bathroom_m3": "volume of a bathroom",
        "stall_changes": "air residence time, shower stall",
        "bathroom_changes": "air residence time, bathroom",
        "shower_min": "duration of a shower",
        "water_c": "water temperature",
        "flow_l_per_min": "flow of a shower",
        "fan_changes": "air changes of a bathroom, fan on",
    }
)
_OWN: Final[Mapping[str, float]] = MappingProxyType(
    {"dissolving_min": 10.0, "shut_min": 30.0, "fan_min": 30.0, "pause_min": 10.0}
)
"""Own choices. Ten minutes: as long as the shower; thirty: what the next person
meets is asked for half an hour later."""


@cache
def _published(name: str) -> tuple[float, Origin]:
    """Return the figure that the table offers, in the unit of the setting.

    A row that is offered as a starting point comes before one that is not.
    """
    rows = [
        row
        for row in reference.rows_of(reference.ShowerParameter)
        if row.parameter == _TABLE[name]
    ]
    row = next((row for row in rows if row.suggested == "yes"), rows[0])
    datum = row.datum
    number = float(datum.value or 0)
    if datum.unit == "K":
        number -= ZERO_CELSIUS
    elif row.parameter.startswith("air residence time"):
        number = 60.0 / number
    tag: Literal["seen", "memory"] = "memory" if datum.tag == "memory" else "seen"
    return number, Origin("table", datum.source_id, tag, datum.printed)


def setting_of(shower: Shower | None = None) -> ShowerSetting:
    """Return a shower with every figure filled in.

    Parameters
    ----------
    shower : Shower, optional
        What the maker entered.

    Returns
    -------
    ShowerSetting
        Named ``as entered``; each figure with its origin.

    Examples
    --------
    >>> plain = setting_of()
    >>> plain.stall_m3, plain.shower_min, plain.origins["stall_m3"].tag
    (2.0, 10.0, 'memory')
    """
    given = shower or Shower()
    numbers: dict[str, Any] = {}
    origins: dict[str, Origin] = {}
    for name, entered in _ENTERED.items():
        value: Measure | None = getattr(given, entered)
        if value is not None:
            numbers[name] = float(value.value)
            origins[name] = Origin("entered", printed=value.printed)
        elif name in _OWN:
            numbers[name], origins[name] = _OWN[name], Origin("own choice")
        else:
            numbers[name], origins[name] = _published(name)
    showers = given.showers_in_a_row or 1
    return ShowerSetting(
        name="as entered",
        **numbers,
        measured=given.dissolving_time_is == "measured",
        showers=showers,
        pieces=given.showers_with_a_piece or showers,
        origins=MappingProxyType(origins),
    )


_SMALL, _LARGE = 0.5, 1.5
_FEW_CHANGES, _MANY_CHANGES = 1.0, 8.0
_STALL_SLOW, _STALL_QUICK = 0.5, 4.0
_WARMER_K = 5.0
_SLOWER = 2.0
_SHORT_SHOWER_MIN, _LONG_SHOWER_MIN = 7.8, 20.0
"""The grid. Rooms half and half again as large, the stall's exchange halved and four
times, water five kelvins colder and warmer, dissolving twice as fast and as slow: own
choices. One air change an hour lies among those without a fan (from memory), eight
with one, source id ``ashrae-j-21``. Showers of 7.8 min, source id ``reu-2016``, and
20 min, source id ``thm-showers``."""


def grid_of(setting: ShowerSetting) -> tuple[ShowerSetting, ...]:
    """Return a setting and the others that a result is shown over.

    Parameters
    ----------
    setting : ShowerSetting
        The middle.

    Returns
    -------
    tuple of ShowerSetting
        It comes first; then room size, air change, duration and water temperature,
        each one way and the other; the dissolving time, if it was not measured; and
        last all of them the way that fills the air most and least.
    """
    changes = {way: _changed(setting, way) for way in ("more", "less")}
    grid = [setting]
    for what in changes["more"]:
        for way in ("more", "less"):
            values, says = changes[way][what]
            grid.append(replace(setting, name=says, **values))
    for way, says in (("more", "air most filled"), ("less", "air least filled")):
        every = {k: v for values, _ in changes[way].values() for k, v in values.items()}
        grid.append(replace(setting, name=f"all of these at once, {says}", **every))
    return tuple(grid)


def corners_of(setting: ShowerSetting) -> tuple[ShowerSetting, ...]:
    """Return the settings between which a bound is looked for.

    Parameters
    ----------
    setting : ShowerSetting
        The middle.

    Returns
    -------
    tuple of ShowerSetting
        Every way to put together the ends of :func:`grid_of`: rooms and the bathroom's
        air changes, and four exchanges of the stall, durations and dissolving times,
        because which of them fills the air most is another one for a peak, for a mean,
        and for what the next person meets. Between them a few per cent can be missed.
    """
    grid = grid_of(setting)

    def ends(name: str, between: int = 0) -> tuple[float, ...]:
        values = [float(getattr(one, name)) for one in grid]
        low, high = min(values), max(values)
        if not low > 0:
            return tuple(dict.fromkeys((low, high)))
        inner = (
            low * (high / low) ** (n / (between + 1)) for n in range(1, 1 + between)
        )
        return tuple(dict.fromkeys((low, *inner, high)))

    return tuple(
        replace(
            setting,
            name="one of the corners",
            stall_m3=stall,
            bathroom_m3=setting.bathroom_m3 * stall / setting.stall_m3,
            stall_changes=exchange,
            bathroom_changes=changes,
            shower_min=minutes,
            dissolving_min=gone,
        )
        for stall, exchange, changes, minutes, gone in product(
            ends("stall_m3"),
            ends("stall_changes", between=2),
            ends("bathroom_changes"),
            ends("shower_min", between=2),
            ends("dissolving_min", between=2),
        )
    )


_Change = tuple[dict[str, Any], str]


def _changed(setting: ShowerSetting, way: str) -> dict[str, _Change]:
    """Return each change that fills the air more, or less, with its name."""
    fuller = way == "more"
    room = _SMALL if fuller else _LARGE
    stall, bathroom = setting.stall_m3 * room, setting.bathroom_m3 * room
    now, last = setting.bathroom_changes, setting.shower_min
    air = min(now, _FEW_CHANGES) if fuller else max(now, _MANY_CHANGES)
    exchange = setting.stall_changes * (_STALL_SLOW if fuller else _STALL_QUICK)
    minutes = max(last, _LONG_SHOWER_MIN) if fuller else min(last, _SHORT_SHOWER_MIN)
    water = setting.water_c + (_WARMER_K if fuller else -_WARMER_K)
    found: dict[str, _Change] = {
        "room": (
            {"stall_m3": stall, "bathroom_m3": bathroom},
            f"stall of {_text(stall)} m³ and bathroom of {_text(bathroom)} m³",
        ),
        "air": (
            {"stall_changes": exchange, "bathroom_changes": air},
            f"stall with {_text(exchange)} air changes an hour, bathroom {_text(air)}",
        ),
        "duration": ({"shower_min": minutes}, f"shower of {_text(minutes)} min"),
        "water": ({"water_c": water}, f"water of {_text(water)} °C"),
    }
    if not setting.measured:
        gone = setting.dissolving_min * (1 / _SLOWER if fuller else _SLOWER)
        says = f"piece gone after {_text(gone)} min"
        found["dissolving"] = ({"dissolving_min": gone}, says)
    return found


def _text(number: float) -> str:
    return print_number(Fraction(number).limit_denominator(10_000), digits=3)
