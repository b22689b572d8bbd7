"""Plain text, numbers and word lists of the second reader."""

import re
import unicodedata
from decimal import Decimal
from fractions import Fraction
from functools import cache

UNSURE = Fraction(10**40 + 1, 3)
"""Stands among the values of a number that is likely to be a slip of the hand."""

_FRACTION_SIGNS = "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"


def plain(text: str) -> str | None:
    """Return the text in simple signs, None if a sign has no simple form."""
    if len(text) > 200:
        return None
    out = []
    for sign in text:
        kind = unicodedata.category(sign)
        if sign.isspace() or kind == "Zs":
            out.append(" ")
        elif sign.isascii() or sign in _FRACTION_SIGNS or sign in "°³±≈":
            out.append(sign)
        elif kind == "Pd" or unicodedata.name(sign, "") == "MINUS SIGN":
            out.append("-")
        else:
            name = unicodedata.name(sign, "")
            simple = {
                "MASCULINE ORDINAL INDICATOR": "°",
                "RING ABOVE": "°",
                "DEGREE CELSIUS": "°c",
                "DEGREE FAHRENHEIT": "°f",
                "KELVIN SIGN": "k",
                "FRACTION SLASH": "/",
                "DIVISION SLASH": "/",
                "FULLWIDTH SOLIDUS": "/",
                "FULLWIDTH PERCENT SIGN": "%",
                "FULLWIDTH LESS-THAN SIGN": "<",
                "FULLWIDTH GREATER-THAN SIGN": ">",
            }.get(name)
            if simple is None and "OR EQUAL TO" in name.replace("OVER", "OR"):
                simple = "<=" if name.startswith("LESS") else ">="
            if simple is None and "SLANTED EQUAL TO" in name:
                simple = "<=" if name.startswith("LESS") else ">="
            if simple is None:
                return None
            out.append(simple)
    return re.sub(" +", " ", "".join(out)).strip().lower()


def listed(text: str) -> list[str]:
    """Return the words of a list with commas."""
    return [word.strip() for word in text.split(",")]


def digits(text: str) -> bool:
    return bool(text) and all(sign in "0123456789" for sign in text)


_KITCHEN = (2, 3, 4, 5, 6, 7, 8, 9, 10, 12, 16, 32, 64)


def _odd(text: str) -> bool:
    """Say whether a fraction is none that a kitchen would write."""
    top, bottom = (int(part) for part in text.split("/"))
    return bottom not in _KITCHEN or any(
        top % factor == 0 and bottom % factor == 0 for factor in range(2, bottom + 1)
    )


def _ratio(text: str) -> Fraction | None:
    top, slash, bottom = text.partition("/")
    if not slash or not digits(top) or not digits(bottom):
        return None
    if top.startswith("0") or bottom.startswith("0"):
        return None
    return Fraction(Decimal(top)) / Fraction(Decimal(bottom))


def _sign_value(text: str) -> Fraction | None:
    if len(text) != 1 or text not in _FRACTION_SIGNS:
        return None
    top, _, bottom = unicodedata.normalize("NFKC", text).partition("\u2044")
    return Fraction(int(top), int(bottom))


@cache
def kitchen_numbers(text: str) -> frozenset[Fraction]:
    """Return every number that the text could be, fractions included."""
    if not text or text != text.strip():
        return frozenset()
    whole, point, part = text.partition(".")
    if digits(text) or (point and digits(part) and (not whole or digits(whole))):
        found = {Fraction(Decimal(text))}
        if len(whole) > 1 and whole[0] == "0":
            found.add(UNSURE)
        return frozenset(found)
    found = {_ratio(text), _sign_value(text)} - {None}
    if any(value >= 1 for value in found) or (_ratio(text) and _odd(text)):
        found.add(UNSURE)
    for cut in range(1, len(text)):
        front, behind = text[:cut], text[cut:].removeprefix(" ")
        small = {_ratio(behind), _sign_value(behind)} - {None}
        if digits(front) and small and min(small) < 1:
            if "/" in behind and text[cut] != " ":
                continue
            if "/" in behind and _odd(behind):
                found.add(UNSURE)
            found |= {Fraction(Decimal(front)) + value for value in small}
            if len(front) > 1 and front[0] == "0":
                found.add(UNSURE)
    return frozenset(found)


def numbers(text: str) -> frozenset[Fraction]:
    """Return every decimal number that the text could be."""
    decimal = all(sign in "0123456789." for sign in text)
    return kitchen_numbers(text) if decimal else frozenset()


def signed_numbers(text: str) -> frozenset[Fraction]:
    """Return every number that the text could be, minus signs included."""
    if text.startswith("-"):
        return frozenset(-value for value in numbers(text[1:]))
    return numbers(text)


@cache
def _dotted(phrase: str) -> re.Pattern[str]:
    """Match a phrase in which any letter may carry the dot of an abbreviation."""
    return re.compile(
        "".join(rf"{c}\.?" if c.isalpha() else re.escape(c) for c in phrase)
    )


def lookup(table: dict[str, tuple], text: str) -> set[tuple]:
    if text in table:
        return {table[text]}
    if "." not in text:
        return set()
    return {value for phrase, value in table.items() if _dotted(phrase).fullmatch(text)}


def table(rows: str) -> dict[str, str]:
    found = {}
    for row in rows.strip().splitlines():
        name, _, forms = row.partition(":")
        for form in forms.split(","):
            found[form.strip()] = name.strip()
    return found
