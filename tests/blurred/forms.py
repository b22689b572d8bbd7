"""Grams as sums over unknowns, and every corner of a box of them."""

from collections.abc import Iterable, Sequence
from fractions import Fraction
from itertools import product

from tests.blurred.said import ZERO
from tests.blurred.world import Key

Form = dict[Key, Fraction]
"""Grams: a fixed number under the empty key, and grams for each unit of an unknown."""
Box = dict[Key, tuple[Fraction, Fraction]]
Ends = tuple[Fraction, Fraction]

FIXED: Key = ()
MOST_KEYS = 9
"""Unknowns up to which every corner is tried."""


class TooManyError(Exception):
    """More unknowns than corners can be tried for."""


def times(form: Form, factor: Fraction) -> Form:
    return {key: value * factor for key, value in form.items()}


def added(forms: Iterable[Form]) -> Form:
    total: Form = {}
    for form in forms:
        for key, value in form.items():
            total[key] = total.get(key, ZERO) + value
    return total


def loose_keys(*forms: Form) -> list[Key]:
    return list(dict.fromkeys(k for form in forms for k, v in form.items() if k and v))


def at(form: Form, corner: dict[Key, Fraction]) -> Fraction:
    return sum((v * (corner[k] if k else 1) for k, v in form.items() if v), ZERO)


def corners(box: Box, keys: Sequence[Key]) -> Iterable[dict[Key, Fraction]]:
    if len(keys) > MOST_KEYS:
        raise TooManyError
    for chosen in product(*(box[key] for key in keys)):
        yield dict(zip(keys, chosen, strict=True))


def ends_of(box: Box, form: Form) -> Ends:
    low = high = form.get(FIXED, ZERO)
    for key, count in form.items():
        if key:
            a, b = box[key]
            low += count * (a if count > 0 else b)
            high += count * (b if count > 0 else a)
    return low, high
