"""Every meaning of a date."""

import re

from tests.quantity.meanings import Meaning
from tests.quantity.oracle.text import digits, listed, plain

_MONTHS = listed(
    "january,february,march,april,may,june,july,august,september,october,november"
    ",december"
)
_LENGTHS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)


def _day_exists(year: int, month: int, day: int) -> bool:
    if not (1 <= month <= 12 and 1950 <= year <= 2150):
        return False
    leap = year % 4 == 0 and (year % 100 != 0 or year % 400 == 0)
    return 1 <= day <= _LENGTHS[month - 1] + (leap and month == 2)


def _month(word: str) -> int | None:
    word = word.removesuffix(".")
    for place, name in enumerate(_MONTHS, start=1):
        if word in (name, name[:3]) or (word == "sept" and place == 9):
            return place
    return None


def _numeric(pieces: list[str]) -> set[tuple[int, int, int]]:
    """Return every (year, month, day) that three numbers could be."""
    sizes = [len(piece) for piece in pieces]
    one, two, three = map(int, pieces)
    orders = set()
    if sizes[0] == 4 and max(sizes[1:]) <= 2:
        orders.add((one, two, three))
    if sizes[2] == 4 and max(sizes[:2]) <= 2:
        orders |= {(three, one, two), (three, two, one)}
    if max(sizes) <= 2:  # a year of two digits never has one reading
        orders |= {(2000 + three, one, two), (2000 + three, two, one)}
        orders |= {(1950, 1, 1), (1950, 1, 2)}
    return orders


def _worded(day: str, month: str, year: str) -> set[tuple[int, int, int]]:
    number = day[:-2] if day[-2:] in ("st", "nd", "rd", "th") else day
    place = _month(month)
    good = digits(number) and len(number) <= 2 and digits(year) and len(year) == 4
    return {(int(year), place, int(number))} if good and place else set()


def dates(text: str) -> set[Meaning]:
    """Return every meaning of a date."""
    simple = plain(text) or ""
    orders = set()
    for mark in "-/.":
        pieces = simple.split(mark)
        if len(pieces) == 3 and all(map(digits, pieces)):
            orders |= _numeric(pieces)
    pieces = re.sub("[-,]", " ", simple.replace(" of ", " ")).split()
    if len(pieces) == 3:
        one, two, three = pieces
        orders |= _worded(one, two, three) | _worded(two, one, three)
    return {("date", *order) for order in orders if _day_exists(*order)}
