"""Field types of the records: text from a file in, exact values out.

Each type reads its text with :mod:`blendcheck.quantity` when a record is
validated and writes the printed text back when it is dumped, so that a record
and its file say the same. TOML numbers arrive as ``int`` or ``Decimal`` and are
read from their digits; a binary float is refused.
"""

from collections.abc import Callable
from decimal import Decimal
from typing import Annotated, Any

from pydantic import BaseModel, ConfigDict
from pydantic import StringConstraints as Text
from pydantic_core import core_schema

from blendcheck.errors import InputError
from blendcheck.quantity import (
    Amount,
    Density,
    Percent,
    PrintedDate,
    Setting,
    Temperature,
    read_amount,
    read_date,
    read_density,
    read_percent,
    read_setting,
    read_temperature,
)
from blendcheck.quantity.settings import SettingUnit

__all__ = [
    "AirChangesText",
    "AmountText",
    "CasText",
    "DateText",
    "DensityText",
    "HoursText",
    "LevelText",
    "Name",
    "PercentText",
    "Read",
    "Record",
    "TemperatureText",
    "VolumeText",
    "reader",
    "text_of",
]


class Record(BaseModel):
    """A frozen record that refuses fields it does not know."""

    model_config = ConfigDict(
        frozen=True,
        extra="forbid",
        allow_inf_nan=False,
        str_strip_whitespace=True,
    )


def text_of(value: Any) -> str:  # noqa: ANN401  # whatever a file holds
    """Return the digits or the text of a value from a file.

    Parameters
    ----------
    value : Any
        What the file holds: text, a whole number, a decimal number or a date.

    Returns
    -------
    str
        The text to read.

    Raises
    ------
    InputError
        If it is a binary float, a list, a table, or true/false.
    """
    if isinstance(value, str):
        return value
    if isinstance(value, bool | float):
        raise InputError(
            f"{value!r} is not a figure", "write it in quotes as it is printed"
        )
    if isinstance(value, Decimal):
        return format(value, "f")  # never 1E-7: the digits as they were written
    if isinstance(value, int) or hasattr(value, "isoformat"):
        return str(value)
    raise InputError(
        f"{type(value).__name__} found where one figure belongs",
        "write one figure in quotes",
    )


class Read:
    """Reads a field with a function when a record is validated.

    This says to pydantic in its own terms what ``PlainValidator`` says, without the
    serializer that it would first work out for the class of the value.

    Parameters
    ----------
    read : callable
        Makes the value out of what a file holds.
    written : callable, optional
        Makes the text that is written back; by default the value is that text.
    """

    def __init__(
        self,
        read: Callable[[Any], Any],
        written: Callable[[Any], str] | None = None,
    ) -> None:
        self.read, self.written = read, written

    def __get_pydantic_core_schema__(
        self,
        source: object,
        handler: object,
    ) -> core_schema.CoreSchema:
        text = core_schema.str_schema()
        written = None
        if self.written is not None:
            written = core_schema.plain_serializer_function_ser_schema(
                self.written, return_schema=text
            )
        return core_schema.no_info_plain_validator_function(
            self.read, serialization=written
        )


def reader(kind: type, read: Callable[[str], Any]) -> Read:
    """Return what reads the text of a field, and writes back what was printed.

    Parameters
    ----------
    kind : type
        Class of the value; a value of it is taken as it is.
    read : callable
        Reads the text; its value keeps the text as ``printed``.
    """

    def validate(value: Any) -> Any:  # noqa: ANN401  # whatever a file holds
        return value if isinstance(value, kind) else read(text_of(value))

    return Read(validate, lambda value: value.printed)


def _cas(value: Any) -> str:  # noqa: ANN401
    text = text_of(value).strip()
    digits = text.replace("-", "")
    parts = text.split("-")
    shaped = len(parts) == 3 and len(parts[1]) == 2 and len(parts[2]) == 1
    if not (shaped and digits.isascii() and digits.isdigit()):
        raise InputError(
            f'"{text}" is not a CAS number',
            "write it as on the paper, like 89-78-1, or leave it out",
            code="cas-form",
        )
    weights = sum(n * int(d) for n, d in enumerate(reversed(digits[:-1]), start=1))
    if weights % 10 != int(digits[-1]):
        raise InputError(
            f"the check digit of CAS {text} is wrong",
            "compare it with the paper digit by digit",
            code="cas-digit",
        )
    return text


AmountText = Annotated[Amount, reader(Amount, read_amount)]
PercentText = Annotated[Percent, reader(Percent, read_percent)]
TemperatureText = Annotated[Temperature, reader(Temperature, read_temperature)]
DensityText = Annotated[Density, reader(Density, read_density)]
DateText = Annotated[PrintedDate, reader(PrintedDate, read_date)]
CasText = Annotated[str, Read(_cas)]


def _setting(unit: SettingUnit) -> Read:
    """Return the reader of a figure of a room that is kept in ``unit``."""
    return reader(Setting, lambda text: read_setting(text, unit))


VolumeText = Annotated[Setting, _setting("m3")]
AirChangesText = Annotated[Setting, _setting("1/h")]
HoursText = Annotated[Setting, _setting("h")]
LevelText = Annotated[Setting, _setting("ppm")]
Name = Annotated[str, Text(min_length=1, max_length=200)]
