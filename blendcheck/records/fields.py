"""Field types of the records: text from a file in, exact values out.

Each type reads its text with :mod:`blendcheck.quantity` when a record is
validated and writes the printed text back when it is dumped, so that a record
and its file say the same. TOML numbers arrive as ``int`` or ``Decimal`` and are
read from their digits; a binary float is refused.
"""

from collections.abc import Callable
from decimal import Decimal
from typing import Annotated, Any

from pydantic import BaseModel, ConfigDict, PlainSerializer, PlainValidator
from pydantic import StringConstraints as Text

from blendcheck.errors import InputError
from blendcheck.quantity import (
    Amount,
    Density,
    Percent,
    PrintedDate,
    Temperature,
    read_amount,
    read_date,
    read_density,
    read_percent,
    read_temperature,
)

__all__ = [
    "AmountText",
    "CasText",
    "DateText",
    "DensityText",
    "Name",
    "PercentText",
    "Record",
    "TemperatureText",
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


def _reader(kind: type, read: Callable[[str], Any]) -> PlainValidator:
    def validate(value: Any) -> Any:  # noqa: ANN401
        return value if isinstance(value, kind) else read(text_of(value))

    return PlainValidator(validate)


_PRINTED = PlainSerializer(lambda value: value.printed, return_type=str)


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


AmountText = Annotated[Amount, _reader(Amount, read_amount), _PRINTED]
PercentText = Annotated[Percent, _reader(Percent, read_percent), _PRINTED]
TemperatureText = Annotated[
    Temperature, _reader(Temperature, read_temperature), _PRINTED
]
DensityText = Annotated[Density, _reader(Density, read_density), _PRINTED]
DateText = Annotated[PrintedDate, _reader(PrintedDate, read_date), _PRINTED]
CasText = Annotated[str, PlainValidator(_cas)]
Name = Annotated[str, Text(min_length=1, max_length=200)]
