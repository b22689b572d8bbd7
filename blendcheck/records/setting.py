"""The shower that an estimate is made for: figures that the maker can change.

Every field may be left out. What is left out is filled in by the estimate, from a
published figure or from a choice of its own, and the estimate says which: a record
holds what was written and nothing else.
"""

from fractions import Fraction
from typing import Annotated, Any, Literal, Self

from pydantic import Field, model_validator

from blendcheck.errors import InputError
from blendcheck.frozen import Frozen
from blendcheck.quantity import read_number, read_setting, read_temperature
from blendcheck.quantity.settings import SettingUnit
from blendcheck.records.fields import Read, Record, text_of

__all__ = ["Measure", "Shower"]


class Measure(Frozen):
    """One figure as written, and its value.

    Parameters
    ----------
    printed : str
        The text as written, with its unit.
    value : Fraction
        The number, exact. [m3, 1/h, min, L/min or °C, by the field]
    """

    printed: str
    value: Fraction


def _measure(low: str, high: str, unit: SettingUnit | Literal["°C"]) -> Any:  # noqa: ANN401
    """Return the reader of a figure between two bounds, both allowed."""
    least, most = read_number(low), read_number(high)
    says = "per hour" if unit == "1/h" else unit

    def read(value: Any) -> Measure:  # noqa: ANN401  # whatever a file holds
        if isinstance(value, Measure):
            return value
        text = text_of(value)
        number = _number(text, unit)
        if not least <= number <= most:
            raise InputError(
                f"{text} lies outside {low} to {high} {says}",
                "look at the unit, or leave it out if you do not know",
                code="setting-bounds",
            )
        return Measure(text, number)

    return Read(read, lambda value: value.printed)


def _number(text: str, unit: SettingUnit | Literal["°C"]) -> Fraction:
    """Read one figure with its unit."""
    if unit == "°C":
        span = read_temperature(text).range
    else:
        span = read_setting(text, unit).range
    if span.low is None or not span.is_exact:
        raise InputError(
            f'"{text}" is not one figure, and the setting of a shower is',
            "write the usual figure: the estimate is shown over a range of its own",
            code="setting-range",
        )
    return span.low


_Stall = Annotated[Measure, _measure("0.5", "20", "m3")]
_Bathroom = Annotated[Measure, _measure("1", "200", "m3")]
_StallAir = Annotated[Measure, _measure("0", "500", "1/h")]
_BathroomAir = Annotated[Measure, _measure("0", "60", "1/h")]
_Short = Annotated[Measure, _measure("1", "120", "min")]
_Dissolving = Annotated[Measure, _measure("0.5", "240", "min")]
_Pause = Annotated[Measure, _measure("1", "240", "min")]
_Shut = Annotated[Measure, _measure("1", "600", "min")]
_Fan = Annotated[Measure, _measure("0", "600", "min")]
_Water = Annotated[Measure, _measure("10", "60", "°C")]
_Flow = Annotated[Measure, _measure("1", "40", "L/min")]
_Count = Annotated[int, Field(ge=1, le=20)]


class Shower(Record):
    """Where and how a tablet is used. ``[workshop.shower]`` of a materials file.

    Every figure is written with its unit. ``stall_volume`` and ``bathroom_volume``
    (the bathroom without its stall) are volumes of air. ``stall_air_changes`` is how
    often the air of the stall is exchanged with that of the bathroom,
    ``bathroom_air_changes`` how often the air of the bathroom is exchanged with the
    outside during the shower and while the door is shut, ``fan_air_changes`` the same
    with the fan on.

    A shower lasts for its ``duration`` and falls at ``water_flow`` with
    ``water_temperature``. The piece is gone after ``dissolving``, a time that was
    measured or is assumed. ``showers_in_a_row`` is how many people shower one after
    the other, with the time ``between`` them, and ``showers_with_a_piece`` how many of
    the first of them put down a piece. Then the door stays shut for ``door_shut``, and
    after that the fan runs for ``fan``.
    """

    stall_volume: _Stall | None = None
    bathroom_volume: _Bathroom | None = None
    stall_air_changes: _StallAir | None = None
    bathroom_air_changes: _BathroomAir | None = None
    duration: _Short | None = None
    water_temperature: _Water | None = None
    water_flow: _Flow | None = None
    dissolving: _Dissolving | None = None
    dissolving_time_is: Literal["measured", "assumed"] | None = None
    door_shut: _Shut | None = None
    fan: _Fan | None = None
    fan_air_changes: _BathroomAir | None = None
    showers_in_a_row: _Count | None = None
    showers_with_a_piece: _Count | None = None
    between: _Pause | None = None

    @model_validator(mode="after")
    def _fits_together(self) -> Self:
        if self.dissolving_time_is == "measured" and self.dissolving is None:
            raise InputError(
                "the dissolving time was measured, but it is not entered",
                "write dissolving, or leave dissolving_time_is out",
                code="setting-dissolving",
            )
        if (self.showers_with_a_piece or 1) > (self.showers_in_a_row or 1):
            raise InputError(
                "more showers with a piece than showers in a row",
                "write showers_in_a_row as well, at least as many",
                code="setting-showers",
            )
        return self
