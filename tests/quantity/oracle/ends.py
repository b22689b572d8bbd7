"""One or two ends with a unit: every way to cut a text into them."""

import itertools
from fractions import Fraction

from tests.quantity.oracle.text import UNSURE, numbers

_BOUNDS = {
    "": "=",
    "<": "<",
    ">": ">",
    "<=": "≤",
    ">=": "≥",
}
_BOUND_WORDS = {
    "<": "less than|below|under",
    ">": "more than|greater than|above|over",
    "≤": "less than or equal to|not more than|no more than|at most|up to|max|max."
    "|maximum",
    "≥": "greater than or equal to|not less than|no less than|at least|min|min."
    "|minimum",
}


def _bounds(text: str, *, words: bool):
    """Yield (relation, rest) for every bound that the text could start with."""
    for sign, relation in _BOUNDS.items():
        if text.startswith(sign):
            yield relation, text[len(sign) :].removeprefix(" " if sign else "")
    for relation, listed in _BOUND_WORDS.items() if words else ():
        for word in listed.split("|"):
            if text.startswith(word + " "):
                yield relation, text[len(word) + 1 :]


def _valued(text: str, read_number, read_unit):
    """Yield (number, unit) for every cut of a text into a number and its unit."""
    for cut in range(1, len(text) + 1):
        values = read_number(text[:cut])
        if values:
            for unit in read_unit(text[cut:].removeprefix(" ")):
                for value in values:
                    yield value, unit


def _one(relation: str, value: Fraction, floor, ceiling):
    if relation == "=":
        return (value, value, False, False)
    low, high = (floor, value) if relation in "<≤" else (value, ceiling)
    return (low, high, relation == ">", relation == "<")


_JOINS = ("-", "to", "and", "")
_NO_UNIT = ("no unit",)


def _left(text: str, read_number, read_unit):
    """Yield (number, unit) of a first end, which may leave the unit to the second."""
    yield from ((value, _NO_UNIT) for value in read_number(text))
    yield from _valued(text, read_number, read_unit)


def _pairs(text: str, read_number, read_unit, same_unit, *, words: bool):
    """Yield ((relation, number), (relation, number), unit) for every pair of ends."""
    for cut, join in itertools.product(range(1, len(text)), _JOINS):
        if not text.startswith(join, cut):
            continue
        left = text[:cut].removesuffix(" ")
        right = text[cut + len(join) :].removeprefix(" ")
        if join == "-" and right.startswith("-"):
            continue
        both = (
            list(_bounds(left, words=words)),
            list(_bounds(right, words=False)),
        )
        for (one, first), (two, second) in itertools.product(*both):
            if join in ("and", "") and "=" in (one, two):
                continue
            if join != "to" and first.startswith("-"):
                continue
            for high, unit in _valued(second, read_number, read_unit):
                for low, other in _left(first, read_number, read_unit):
                    if other in (unit, _NO_UNIT) or same_unit(first, other, unit):
                        yield (one, low), (two, high), unit


def ends(
    text: str,
    read_unit,
    *,
    same_unit=lambda first, other, unit: False,
    read_number=numbers,
    limits=(None, None),
    words: bool = True,
    scale=lambda value, _: value,
    bounds: bool = True,
):
    """Return every ((low, high, open, open), unit) that the text could mean."""
    floor, ceiling = limits
    found = set()
    for relation, rest in _bounds(text, words=words):
        for value, unit in _valued(rest, read_number, read_unit):
            if abs(value) == UNSURE:
                found.add((UNSURE, unit))
                continue
            if relation == "=" or bounds:
                found.add((_one(relation, scale(value, unit), floor, ceiling), unit))
    for one, two, unit in _pairs(text, read_number, read_unit, same_unit, words=words):
        if UNSURE in (abs(one[1]), abs(two[1])):
            found.add((UNSURE, unit))
        elif (
            one[0] in "=>≥" and two[0] in "=<≤" and (bounds or one[0] + two[0] == "==")
        ):
            low, high = scale(one[1], unit), scale(two[1], unit)
            found.add(((low, high, one[0] == ">", two[0] == "<"), unit))
    return {each for each in found if each[0] == UNSURE or _possible(each[0], limits)}


def _possible(span, limits) -> bool:
    low, high, low_open, high_open = span
    floor, ceiling = limits
    if low is not None and floor is not None and low < floor:
        return False
    if high is not None and ceiling is not None and high > ceiling:
        return False
    if low is None or high is None:
        return True
    return low < high or (low == high and not low_open and not high_open)
