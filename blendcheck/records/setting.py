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
from blendcheck.quantity import read_number, read_setting
from blendcheck.quantity.settings import SettingUnit
from blendcheck.records.fields import Read, Record, text_of

__all__ = ["Measure", "Shower"]


class Measure(Frozen):
    """One number as written, and its value in the unit that its field names.

    Parameters
    ----------
    printed : str
        The text as written, with or without the unit.
    value : Fraction
        The number, exact. [unit of the field]
    """

    printed: str
    value: Fraction


def _measure(low: str, high: str, unit: str, kept: SettingUnit | None) -> Any:  # noqa: ANN401
    """Return the reader of a number between two bounds, both allowed."""
    least, most = read_number(low), read_number(high)

    def read(value: Any) -> Measure:  # noqa: ANN401  # whatever a file holds
        if isinstance(value, Measure):
            return value
        text = text_of(value)
        number = _number(text, kept)
        if not least <= number <= most:
            raise InputError(
                f"{text} lies outside {low} to {high} {unit}",
                "the name of the field says its unit; leave it out if you do not know",
                code="setting-bounds",
            )
        return Measure(text, number)

    return Read(read, lambda value: value.printed)


def _number(text: str, kept: SettingUnit | None) -> Fraction:
    """Read a bare number, or one with its unit."""
    if kept is None or not any(sign.isalpha() for sign in text):
        return read_number(text)
    span = read_setting(text, kept).range
    if span.low is None or not span.is_exact:
        raise InputError(
            f'"{text}" is a range, and the setting of a shower is one number',
            "write the usual figure: the estimate is shown over a range of its own",
            code="setting-range",
        )
    return span.low


_Stall = Annotated[Measure, _measure("0.5", "20", "m3", "m3")]
_Bathroom = Annotated[Measure, _measure("1", "200", "m3", "m3")]
_StallAir = Annotated[Measure, _measure("0", "500", "an hour", "1/h")]
_BathroomAir = Annotated[Measure, _measure("0", "60", "an hour", "1/h")]
_Short = Annotated[Measure, _measure("1", "120", "min", "min")]
_Dissolving = Annotated[Measure, _measure("0.5", "240", "min", "min")]
_Pause = Annotated[Measure, _measure("1", "240", "min", "min")]
_Shut = Annotated[Measure, _measure("1", "600", "min", "min")]
_Fan = Annotated[Measure, _measure("0", "600", "min", "min")]
_Water = Annotated[Measure, _measure("10", "60", "°C", None)]
_Flow = Annotated[Measure, _measure("1", "40", "L/min", "L/min")]
_Count = Annotated[int, Field(ge=1, le=20)]


class Shower(Record):
    """Where and how a tablet is used. ``[workshop.shower]`` of a materials file.

    ``stall_volume_m3`` and ``bathroom_volume_m3`` (the bathroom without its stall) are
    volumes of air. ``stall_air_changes_per_h`` is how often the air of the stall is
    exchanged with that of the bathroom, ``bathroom_air_changes_per_h`` how often the
    air of the bathroom is exchanged with the outside during the shower and while the
    door is shut, ``fan_air_changes_per_h`` the same with the fan on.

    A shower lasts ``shower_minutes`` and falls at ``water_flow_litres_per_min`` with
    ``water_temperature_celsius``. The piece is gone after ``dissolving_minutes``, a
    time that was measured or is assumed. ``showers_in_a_row`` is how many people
    shower one after the other, ``minutes_between`` apart, and
    ``showers_with_a_piece`` how many of the first of them put down a piece. Then the
    door stays shut for ``door_shut_minutes``, and after that the fan runs for
    ``fan_minutes``.
    """

    stall_volume_m3: _Stall | None = None
    bathroom_volume_m3: _Bathroom | None = None
    stall_air_changes_per_h: _StallAir | None = None
    bathroom_air_changes_per_h: _BathroomAir | None = None
    shower_minutes: _Short | None = None
    water_temperature_celsius: _Water | None = None
    water_flow_litres_per_min: _Flow | None = None
    dissolving_minutes: _Dissolving | None = None
    dissolving_time_is: Literal["measured", "assumed"] | None = None
    door_shut_minutes: _Shut | None = None
    fan_minutes: _Fan | None = None
    fan_air_changes_per_h: _BathroomAir | None = None
    showers_in_a_row: _Count | None = None
    showers_with_a_piece: _Count | None = None
    minutes_between: _Pause | None = None

    @model_validator(mode="after")
    def _fits_together(self) -> Self:
        if self.dissolving_time_is == "measured" and self.dissolving_minutes is None:
            raise InputError(
                "the dissolving time was measured, but it is not entered",
                "write dissolving_minutes, or leave dissolving_time_is out",
                code="setting-dissolving",
            )
        if (self.showers_with_a_piece or 1) > (self.showers_in_a_row or 1):
            raise InputError(
                "more showers with a piece than showers in a row",
                "write showers_in_a_row as well, at least as many",
                code="setting-showers",
            )
        return self
