"""Every meaning of a density."""

import itertools
import re
from fractions import Fraction

from tests.quantity.meanings import Meaning
from tests.quantity.oracle.ends import ends
from tests.quantity.oracle.temperatures import single
from tests.quantity.oracle.text import UNSURE, numbers, plain, table

_WATER = {
    "4": Fraction("0.9999749"),
    "15": Fraction("0.9991026"),
    "20": Fraction("0.9982067"),
    "25": Fraction("0.9970470"),
}
_DENSITY_UNITS = table("""
    1: g/ml, g/cm3, g/cm³, g/cc, g cm-3, g ml-1, kg/l, kg/dm3, kg/dm³, g per ml
    1000: kg/m3, kg/m³, kg m-3, g/l
""")
_RELATIVE = ("sg", "s.g.", "specific gravity", "relative density", "rel density")


def _at(text: str):
    """Yield the printed temperature in the words behind a density."""
    if not text:
        yield None
    for front, back in (
        ("@", ""),
        ("@ ", ""),
        ("at ", ""),
        ("at", ""),
        (", ", ""),
        (",", ""),
        ("(", ")"),
        ("(at ", ")"),
        ("(@ ", ")"),
        ("(@", ")"),
    ):
        if (
            text.startswith(front)
            and text.endswith(back)
            and text[-1:].isalpha() != (back != "")
        ):
            inner = text[len(front) : len(text) - len(back)]
            for span, _ in single(inner):
                if span != UNSURE and span[0] == span[1] and inner[:1] not in "<>-":
                    yield span[0]


def _density_tails(text: str) -> set[tuple]:
    found = set()
    for name, scale in _DENSITY_UNITS.items():
        if text.startswith(name):
            rest = text.removeprefix(name).removeprefix(" ")
            found |= {(scale, at) for at in _at(rest)}
    for word in ("", "relative", "(relative)"):
        if text.startswith(word):
            rest = text.removeprefix(word).removeprefix(" ")
            found |= {("bare", at) for at in _at(rest)}
            shape = re.fullmatch(
                r"\(?d? ?([1-9][0-9]?) ?(°c)?/([1-9][0-9]?) ?(°c)?\)?", rest
            )
            if shape and shape[3] in _WATER:
                at = numbers(shape[1])
                found.add((shape[3], next(iter(at)) if len(at) == 1 else UNSURE))
    return found


def _same_density(first: str, other, unit) -> bool:
    return other[0] in ("1", "1000") and other == (unit[0], None)


def _in_grams(low: Fraction, high: Fraction, kind: str, *, named: bool):
    """Return both ends in g/mL, None if the kind of figure does not allow them."""
    if kind == "bare":
        usual = Fraction(1, 2) <= low and high <= 2
        return (low * _WATER["25"], high) if usual else None
    if kind in ("1", "1000"):
        return None if named else (low / int(kind), high / int(kind))
    return low * _WATER[kind], high * _WATER[kind]


def _unnamed(text: str):
    """Yield the text, and what is left of it behind the name of the quantity."""
    yield False, text
    for word, join in itertools.product(
        (*_RELATIVE, "rel. density"),
        ("", " ", ":", ": ", " : ", " :", "=", " = ", "= ", " ="),
    ):
        if text.startswith(word + join):
            yield True, text.removeprefix(word + join)


def densities(text: str) -> set[Meaning]:
    """Return every meaning of a density."""
    found = set()
    for named, rest in _unnamed(plain(text) or ""):
        for span, (kind, at) in ends(
            rest, _density_tails, words=False, bounds=False, same_unit=_same_density
        ):
            if span == UNSURE or at == UNSURE:
                found.add(("density", UNSURE, None))
                continue
            both = _in_grams(*span[:2], kind, named=named)
            if both and Fraction(1, 5) <= both[0] and both[1] <= 25:
                found.add(("density", (*both, False, False), at))
    return found
