"""Amounts of a recipe line: masses, volumes, counted things, parts and percents.

A bare ``oz`` or ``fl oz`` is asked about. ``tsp`` and ``tbsp`` are the United
States customary spoons (see :mod:`blendcheck.units`); ``metric tsp`` is 5 mL.
A volume needs a density, and a count a weighed example: neither is turned into
grams here.
"""

import re
from fractions import Fraction
from typing import Final, Literal

from blendcheck.errors import InputError, QuestionError
from blendcheck.interval import Range
from blendcheck.quantity.cleaning import clean, shown, words
from blendcheck.quantity.numbers import (
    KITCHEN_DENOMINATORS,
    Parts,
    kitchen_span,
    range_of,
)
from blendcheck.quantity.percents import BASE_TEXT, Share, share_unit
from blendcheck.quantity.printing import ends_text, exact_text, is_decimal
from blendcheck.quantity.refusals import refusal
from blendcheck.quantity.values import Amount, Base
from blendcheck.units import OUNCES_PER_POUND, PERCENT_PER_PPM

__all__ = ["print_amount", "read_amount"]

Kind = Literal["mass", "volume", "count", "parts", "percent"]
Unit = tuple[Kind, str]

_WRITTEN: Final[dict[Unit, str]] = {
    ("mass", "g"): "g|gram|grams|gramme|grammes|gm|gms",
    ("mass", "kg"): "kg|kgs|kilo|kilos|kilogram|kilograms",
    ("mass", "mg"): "mg|milligram|milligrams",
    ("mass", "lb"): "lb|lbs|pound|pounds",
    ("mass", "oz"): (
        "oz wt|oz weight|oz (weight)|oz (wt)|oz by weight|wt oz|weight oz|oz av|oz avdp"
        "|ounces by weight|ounces (weight)|ounce by weight|ounces weight"
    ),
    ("volume", "mL"): (
        "ml|mls|millilitre|millilitres|milliliter|milliliters|cc|ccs|cm3|cm³"
    ),
    ("volume", "L"): "l|litre|litres|liter|liters",
    ("volume", "tsp"): "tsp|tsps|teaspoon|teaspoons|us tsp|us teaspoon|us teaspoons",
    ("volume", "tbsp"): (
        "tbsp|tbsps|tablespoon|tablespoons|us tbsp|us tablespoon|us tablespoons"
    ),
    ("volume", "metric tsp"): (
        "metric tsp|metric teaspoon|metric teaspoons|tsp (metric)"
    ),
    ("count", "drop"): "drop|drops",
    ("count", "cup"): "cup|cups|cupful|cupfuls",
    ("count", "scoop"): "scoop|scoops",
    ("count", "pinch"): "pinch|pinches",
    ("count", "capful"): "capful|capfuls",
    ("count", "spray"): "spray|sprays",
    ("parts", "part"): "part|parts|part by weight|parts by weight",
}
_FLUID_OUNCE: Final = words("fl oz|floz|fluid oz|fluid ounce|fluid ounces")
_FLUID_OUNCES_OF: Final = {
    "us": "US fl oz",
    "imp": "imp fl oz",
    "imperial": "imp fl oz",
    "uk": "imp fl oz",
}
_UNITS: Final[dict[str, Unit]] = {
    **{word: unit for unit, listed in _WRITTEN.items() for word in words(listed)},
    **{
        form.format(place, ounce): ("volume", unit)
        for place, unit in _FLUID_OUNCES_OF.items()
        for ounce in _FLUID_OUNCE
        for form in ("{0} {1}", "{1} {0}", "{1} ({0})")
    },
}

_ASKED: Final[dict[str, tuple[str, str, str]]] = {
    **dict.fromkeys(
        ("oz", "ozs", "ounce", "ounces"),
        (
            "bare-oz",
            "does not say weight or fluid ounces",
            "oz wt, US fl oz or imp fl oz",
        ),
    ),
    **dict.fromkeys(
        _FLUID_OUNCE,
        ("fl-oz-which", "does not say which fluid ounce", "US fl oz or imp fl oz"),
    ),
    **dict.fromkeys(
        ("metric tbsp", "metric tablespoon", "metric tablespoons", "tbsp (metric)"),
        ("metric-tbsp", "may be 15 mL or 20 mL a spoon", "it in mL"),
    ),
    **dict.fromkeys(
        ("t", "c", "ts", "tb", "tbs"),
        ("spoon-which", "does not say which spoon or cup", "tsp, tbsp or cup"),
    ),
    **dict.fromkeys(
        ("ppo", "g ppo", "% ppo"),
        (
            "ppo-unit",
            "does not give ounces per pound of oils",
            "oz ppo, or % of the soaping oils",
        ),
    ),
    "": ("unit-missing", "has no unit", "g, mL, drops, parts or %"),
}
_PPO: Final = Share(Fraction(100, OUNCES_PER_POUND), None, Base.SOAPING_OILS)
_PPO_WORDS: Final = frozenset(
    words(
        "oz ppo|oz/lb|oz per lb|oz per pound|oz per lb of oils|oz per pound of oils"
        "|oz per lb of soaping oils|oz per pound of soaping oils|oz/lb of oils"
    )
)

_LETTER_DOT: Final = re.compile(r"(?<=[a-z])\.")
_ZERO: Final = Fraction(0)
_AMOUNT: Final = (_ZERO, None)
_PERCENT: Final = (_ZERO, Fraction(100))
_OPEN_ENDED: Final = frozenset({Base.POWDERS, Base.SOAPING_OILS})
_EXAMPLE: Final = "10 g, 5 mL, 20 drops or 2 %"


def _ask(text: str, unit: str) -> None:
    found = _ASKED.get(unit)
    if found is not None:
        code, what, fix = found
        raise QuestionError(f"{shown(text)} {what}", f"Write {fix}", code=code)


def _unit(text: str, tail: str) -> Unit | Share:
    found = _UNITS.get(tail)
    if found is not None:
        return found
    plain = _LETTER_DOT.sub("", tail)
    found = _UNITS.get(plain)
    if found is not None:
        return found
    _ask(text, plain)
    if plain in _PPO_WORDS:
        return _PPO
    share = share_unit(text, tail)
    if share is None:
        raise refusal(text, clean(text), "an amount", _EXAMPLE)
    return share


def _same_unit(text: str, middle: str, unit: Unit | Share) -> bool:
    # "10 % - 12 % of the powders": the first sign only repeats that it is a percent
    repeats = middle == "%" and isinstance(unit, Share) and unit.scale is None
    return repeats or _unit(text, middle) == unit


def _percent(text: str, parts: Parts, share: Share) -> Amount:
    if share.basis in {"v/v", "area"}:
        raise InputError(
            f"{shown(text)} is not a percent by weight",
            "Weigh it, or write a volume in mL",
            code="percent-basis",
        )
    convert = None if share.scale is None else share.scale.__mul__
    limits = _AMOUNT if share.base in _OPEN_ENDED else _PERCENT
    number = range_of(
        text, parts, limits=limits, rule="between 0 and 100 %", convert=convert
    )
    return Amount(text, "percent", number, "%", share.base)


def read_amount(text: str) -> Amount:
    """Read how much of a thing a recipe line asks for.

    Parameters
    ----------
    text : str
        ``10 g``, ``1 1/2 tsp``, ``10-12 drops``, ``3 parts``, ``2 % of the
        powders``, ``0.7 oz ppo``.

    Returns
    -------
    Amount
        The number, exact and >= 0, with its unit, and the text as printed. Ounces
        per pound of oils (``oz ppo``) become a percent of the soaping oils.

    Raises
    ------
    QuestionError
        ``bare-oz``, ``fl-oz-which``, ``unit-missing``, ``about``,
        ``decimal-comma``, ``percent-of-what`` ...
    InputError
        ``blank``, ``negative``, ``number``, ``amount-bound`` (a bound is no
        amount), ``out-of-range`` (a percent above 100; of the powders or of the
        soaping oils it may be more), ``unreadable`` ...

    Examples
    --------
    >>> amount = read_amount("1½ tsp")
    >>> amount.number.low, amount.unit
    (Fraction(3, 2), 'tsp')
    """
    plain = clean(text)
    parts = kitchen_span(plain)
    if parts is None:
        raise refusal(text, plain, "an amount", _EXAMPLE)
    tail = parts[6]
    unit = _UNITS.get(tail) or _unit(text, tail)
    if parts[0] is not None or parts[4] is not None:
        raise InputError(
            f"{shown(text)} is a bound, not an amount",
            "Write the amount, or both ends of a range like 10-12 g",
            code="amount-bound",
        )
    if parts[2] and not _same_unit(text, parts[2], unit):
        raise InputError(
            f"the two ends of {shown(text)} are in different units",
            "Write both ends in one unit",
            code="units-mixed",
        )
    if isinstance(unit, Share):
        return _percent(text, parts, unit)
    kind, name = unit
    if name == "mg" and "Mg" in text:
        raise QuestionError(
            f"{shown(text)} is in millions of grams",
            "Write mg for thousandths of a gram",
            code="unit-case",
        )
    return Amount(text, kind, range_of(text, parts, limits=_AMOUNT), name)


_PLURAL: Final = {"pinch": "pinches"}
_SHOWN: Final = {"oz": "oz wt"}


def print_amount(value: Amount) -> str:
    """Print an amount so that it reads back with the same meaning.

    Parameters
    ----------
    value : Amount
        The amount.

    Returns
    -------
    str
        ``10 g``, ``1 2/3 tsp``, ``10 to 12 drops``, ``4.375 % of the soaping oils``.

    Examples
    --------
    >>> print_amount(read_amount("10 - 12 Drops"))
    '10 to 12 drops'
    """
    number = value.number
    unit = _SHOWN.get(value.unit, value.unit)
    if value.kind == "percent":
        number, unit = _percent_text(value)
    elif value.kind in {"count", "parts"} and not _is_one(number):
        unit = _PLURAL.get(unit, f"{unit}s")
    low = None if number.low is None else exact_text(number.low)
    high = None if number.high is None else exact_text(number.high)
    return ends_text(number, low, high, f" {unit}", "not known")


def _reads_back(value: Fraction | None) -> bool:
    return (
        value is None or is_decimal(value) or value.denominator in KITCHEN_DENOMINATORS
    )


def _percent_text(value: Amount) -> tuple[Range, str]:
    """Return number and unit of a percent, in a unit in which it reads back."""
    of_what = "" if value.base is None else f" {BASE_TEXT[value.base]}"
    units = [(Fraction(1), f"%{of_what}")]
    if value.base is Base.SOAPING_OILS:
        units.append((Fraction(OUNCES_PER_POUND, 100), "oz ppo"))
    units.append((1 / PERCENT_PER_PPM, f"ppm{of_what}"))
    for factor, unit in units:
        number = value.number.times(factor)
        if _reads_back(number.low) and _reads_back(number.high):
            return number, unit
    return value.number, units[0][1]


def _is_one(number: Range) -> bool:
    return number.high is not None and 0 < number.high <= 1
