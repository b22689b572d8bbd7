"""Dates as papers print them.

Year first, or the month as a word, is read. ``03/04/2025`` is asked about, because
it is 3 April or 4 March; ``25/04/2025`` and ``03/03/2025`` have one reading only.
"""

import re
from datetime import date
from typing import Final

from blendcheck.errors import InputError, QuestionError
from blendcheck.quantity.cleaning import clean, shown, words
from blendcheck.quantity.values import PrintedDate

__all__ = ["print_date", "read_date"]

_NAMES: Final = words(
    "january|february|march|april|may|june|july|august|september|october|november"
    "|december"
)
_MONTHS: Final = {
    **{name: place for place, name in enumerate(_NAMES, start=1)},
    **{name[:3]: place for place, name in enumerate(_NAMES, start=1)},
    "sept": 9,
}
_YEAR_FIRST: Final = re.compile(r"([0-9]{4})([-/.])([0-9]{1,2})\2([0-9]{1,2})")
# The rarer forms are compiled by ``re`` when first met.
_YEAR_LAST: Final = r"([0-9]{1,2})([-/.])([0-9]{1,2})\2([0-9]{4}|[0-9]{2})"
_DAY_MONTH: Final = (
    r"([0-9]{1,2})(?:st|nd|rd|th)?(?: (?:of )?|-)([a-z]+)\.?(?:, | |-)"
    r"([0-9]{4}|'?[0-9]{2})"
)
_MONTH_DAY: Final = r"([a-z]+)\.? ([0-9]{1,2})(?:st|nd|rd|th)?,? ([0-9]{4}|'?[0-9]{2})"
_MONTH_ONLY: Final = (
    r"[a-z]+\.?,? [0-9]{4}|[0-9]{1,2}[-/.][0-9]{4}|[0-9]{4}[-/.][0-9]{1,2}|[0-9]{4}"
)
_FIRST_YEAR, _LAST_YEAR = 1950, 2150


def _date(text: str, year: int, month: int, day: int) -> date:
    if not _FIRST_YEAR <= year <= _LAST_YEAR:
        raise InputError(
            f"the year in {shown(text)} is outside {_FIRST_YEAR} to {_LAST_YEAR}",
            "Write the date like 2025-04-03",
            code="date-year-range",
        )
    try:
        return date(year, month, day)
    except ValueError:
        raise InputError(
            f"there is no day {shown(text)}",
            "Write the date like 2025-04-03",
            code="date-impossible",
        ) from None


def _possible(month: int, day: int) -> bool:
    return 1 <= month <= 12 and 1 <= day <= 31


def _year_last(text: str, first: int, second: int, year: str) -> date:
    if len(year) == 2:
        raise QuestionError(
            f"{shown(text)} does not say which is the day, the month or the year",
            "Write the date like 2025-04-03, year first",
            code="date-order",
        )
    day_first, month_first = _possible(second, first), _possible(first, second)
    if day_first and month_first and first != second:
        raise QuestionError(
            f"{shown(text)} is {first} {_NAMES[second - 1].title()} or "
            f"{second} {_NAMES[first - 1].title()}",
            "Write the date like 2025-04-03, year first",
            code="date-order",
        )
    month, day = (first, second) if month_first else (second, first)
    return _date(text, int(year), month, day)


def _worded(text: str, day: str, name: str, year: str) -> date | None:
    month = _MONTHS.get(name)
    if month is None:
        return None
    if len(year) < 4:
        raise QuestionError(
            f"{shown(text)} gives the year in two digits",
            "Write the date like 2025-04-03, with four",
            code="date-year",
        )
    return _date(text, int(year), month, int(day))


def _read(text: str, plain: str) -> date | None:
    found = _YEAR_FIRST.fullmatch(plain)
    if found:
        return _date(text, int(found[1]), int(found[3]), int(found[4]))
    found = re.fullmatch(_YEAR_LAST, plain)
    if found:
        return _year_last(text, int(found[1]), int(found[3]), found[4])
    found = re.fullmatch(_DAY_MONTH, plain)
    if found:
        return _worded(text, found[1], found[2], found[3])
    found = re.fullmatch(_MONTH_DAY, plain)
    if found:
        return _worded(text, found[2], found[1], found[3])
    return None


def read_date(text: str) -> PrintedDate:
    """Read a date.

    Parameters
    ----------
    text : str
        ``2025-04-03``, ``2025/04/03``, ``3 April 2025``, ``Apr 3, 2025``,
        ``25/04/2025``.

    Returns
    -------
    PrintedDate
        The day, between 1950 and 2150, and the text as printed.

    Raises
    ------
    QuestionError
        ``date-order`` if day and month may be swapped (or the year has two digits
        among numbers), ``date-year`` if a year beside a month's name has two.
    InputError
        ``blank``, ``date-impossible``, ``date-day`` (no day), ``date-year-range``,
        ``unreadable``.

    Examples
    --------
    >>> read_date("Apr 3, 2025").on.isoformat()
    '2025-04-03'
    """
    plain = clean(text)
    found = _read(text, plain)
    if found is not None:
        return PrintedDate(text, found)
    fix = "Write the date like 2025-04-03"
    if not plain:
        raise InputError("the date is blank", fix, code="blank")
    if re.fullmatch(_MONTH_ONLY, plain):
        raise InputError(f"{shown(text)} gives no day", fix, code="date-day")
    raise InputError(f"{shown(text)} is not read as a date", fix, code="unreadable")


def print_date(value: PrintedDate) -> str:
    """Print a date so that it reads back as the same day.

    Parameters
    ----------
    value : PrintedDate
        The date.

    Returns
    -------
    str
        Year first: ``2025-04-03``.
    """
    return value.on.isoformat()
