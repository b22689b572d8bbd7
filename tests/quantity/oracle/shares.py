"""Every meaning of a share and of an amount."""

import itertools
from fractions import Fraction
from functools import cache

from tests.quantity.meanings import Meaning
from tests.quantity.oracle.ends import ends
from tests.quantity.oracle.text import (
    UNSURE,
    kitchen_numbers,
    listed,
    lookup,
    plain,
    table,
)

_SIGN_FORMS = ("%", "percent", "per cent", "pct", "pct.")
_BASIS_FORMS = {
    "w/w": "w/w,wt/wt,m/m,wt,by weight,weight,by mass,mass",
    "v/v": "v/v,vol/vol,vol,by volume,volume,abv",
    "area": "area,gc area,peak area,gc peak area,gc-ms area,gc",
}


def _share_table() -> dict[str, tuple]:
    hundredth, millionth = Fraction(1), Fraction(1, 10**4)
    found: dict[str, tuple] = dict.fromkeys(_SIGN_FORMS, (hundredth, None))
    for basis, forms in _BASIS_FORMS.items():
        for form, sign in itertools.product(forms.split(","), _SIGN_FORMS):
            for text in (
                f"{sign} {form}",
                f"{sign}{form}",
                f"{sign} ({form})",
                f"{form} {sign}",
                f"{form}{sign}",
            ):
                found[text] = (hundredth, basis)
    found["ppm"] = (millionth, None)
    for text in ("mg/kg", "ppm w/w", "ppm (w/w)", "ppm by weight"):
        found[text] = (millionth, "w/w")
    return found


_SHARES = _share_table()
_BASES = table("""
    FINISHED: finished, finished product, finished piece, finished tablet
    FINISHED: finished bar, finished mass, finished weight
    WET: wet mix, wet mass, wet weight
    POWDERS: powder, powders
    SOAPING_OILS: soaping oils, soap oils
    BLEND: blend
    MATERIAL: material
""")


@cache
def share_units(text: str) -> frozenset[tuple]:
    """Return (scale, basis, base) for every sense of the words behind a share."""
    found = {(*unit, None) for unit in lookup(_SHARES, text)}
    head, of, base = text.rpartition(" of ")
    if of and base.removeprefix("the ") in _BASES:
        name = _BASES[base.removeprefix("the ")]
        found |= {(*unit, name) for unit in lookup(_SHARES, head)}
    return frozenset(found)


def _share_or_bare(text: str) -> frozenset[tuple]:
    bare = (Fraction(1), None, None, "no sign")
    return share_units(text) if text else frozenset({bare})


def _same_percent(first: str, other, unit) -> bool:
    # "10 % - 25 % w/w": the first sign only repeats that it is a percent
    return first.endswith("%") and other == (1, None, None) and other[0] == unit[0]


def scaled(value: Fraction, unit: tuple) -> Fraction:
    return value * unit[0]


def shares(text: str):
    return ends(
        text,
        _share_or_bare,
        same_unit=_same_percent,
        limits=(Fraction(0), Fraction(100)),
        scale=scaled,
    )


_ABSENT = listed(
    "n.d.,nd,n.d,nd.,n. d.,n d,n. d,n d.,n/d,not detected,none detected,bdl"
    ",below detection limit,below the detection limit"
)
_PRESENT = ("tr", "tr.", "trace", "traces")
_FIGURES = "0123456789."
_LIMIT_FORMS = ("lod", "detection limit", "limit of detection", "limit")


def _detection_limits(text: str):
    if text.startswith("(") and text.endswith(")"):
        text = text[1:-1].strip()
    forms = {text} if text[:1] not in tuple(_FIGURES) else set()
    for word, join in itertools.product(_LIMIT_FORMS, ("", " ")):
        for mark in ("", ":", ": ", "=", "= "):
            front = word + join + mark
            if text.startswith(front) and text[len(front) :][:1] in tuple(_FIGURES):
                forms.add("<" + text.removeprefix(front))
    for span, unit in itertools.chain(*map(shares, forms)):
        if span != UNSURE and span[0] == 0:
            yield span, unit


def percents(text: str) -> set[Meaning]:
    """Return every meaning of a share of a composition."""
    simple = plain(text)
    if simple is None:
        return set()
    found = {("percent", span, unit[1], unit[2], True) for span, unit in shares(simple)}
    for words, detected in ((_ABSENT, False), (_PRESENT, True)):
        for word in words:
            if not simple.startswith(word):
                continue
            rest = simple.removeprefix(word).removeprefix(" ")
            if not rest:
                span = (Fraction(0), None, detected, False)
                found.add(("percent", span, None, None, detected))
            for (_, high, _, is_open), unit in _detection_limits(rest):
                span = (Fraction(0), high, detected, is_open)
                found.add(("percent", span, unit[1], unit[2], detected))
    return found


_UNITS = table("""
    mass g: g, gm, gms, gram, grams, gramme, grammes
    mass kg: kg, kgs, kilo, kilos, kilogram, kilograms
    mass mg: mg, milligram, milligrams
    mass lb: lb, lbs, pound, pounds
    mass oz: oz wt, oz weight, oz (weight), oz (wt), oz by weight, wt oz, weight oz
    mass oz: oz av, oz avdp, ounces by weight, ounces (weight), ounce by weight
    mass oz: ounces weight
    volume mL: ml, mls, millilitre, millilitres, milliliter, milliliters, cc, ccs
    volume mL: cm3, cm³
    volume L: l, litre, litres, liter, liters
    volume tsp: tsp, tsps, teaspoon, teaspoons, us tsp, us teaspoon, us teaspoons
    volume tbsp: tbsp, tbsps, tablespoon, tablespoons
    volume tbsp: us tbsp, us tablespoon, us tablespoons
    volume metric tsp: metric tsp, metric teaspoon, metric teaspoons, tsp (metric)
    count drop: drop, drops
    count cup: cup, cups, cupful, cupfuls
    count scoop: scoop, scoops
    count pinch: pinch, pinches
    count capful: capful, capfuls
    count spray: spray, sprays
    parts part: part, parts, part by weight, parts by weight
""")
for _place, _unit in (
    ("us", "US fl oz"),
    ("uk", "imp fl oz"),
    ("imp", "imp fl oz"),
    ("imperial", "imp fl oz"),
):
    for _ounce in ("fl oz", "floz", "fluid oz", "fluid ounce", "fluid ounces"):
        for _form in (
            f"{_place} {_ounce}",
            f"{_ounce} {_place}",
            f"{_ounce} ({_place})",
        ):
            _UNITS[_form] = f"volume {_unit}"
_PER_POUND = listed(
    "oz ppo,oz/lb,oz/lb of oils,oz per lb,oz per pound,oz per lb of oils"
    ",oz per pound of oils,oz per lb of soaping oils,oz per pound of soaping oils"
)


@cache
def _amount_units(text: str) -> frozenset[tuple]:
    table = {name: (Fraction(1), *unit.split(" ", 1)) for name, unit in _UNITS.items()}
    found = lookup(table, text)
    found |= {
        (scale, "percent", base)
        for scale, basis, base in share_units(text)
        if basis in (None, "w/w")
    }
    per_pound = dict.fromkeys(
        _PER_POUND, (Fraction(100, 16), "percent", "SOAPING_OILS")
    )
    return frozenset(found | lookup(per_pound, text))


def _same_amount_percent(first: str, other, unit) -> bool:
    return (
        first.endswith("%") and other == (1, "percent", None) and other[:2] == unit[:2]
    )


def amounts(text: str) -> set[Meaning]:
    """Return every meaning of an amount in a recipe line."""
    simple = plain(text)
    if simple is None:
        return set()
    found = set()
    for span, (_, kind, unit) in ends(
        simple,
        _amount_units,
        read_number=kitchen_numbers,
        limits=(Fraction(0), None),
        words=False,
        scale=scaled,
        bounds=False,
        same_unit=_same_amount_percent,
    ):
        if unit == "mg" and "Mg" in text:
            continue
        if kind != "percent":
            found.add(("amount", span, kind, unit, None))
        elif span == UNSURE or unit in ("POWDERS", "SOAPING_OILS") or span[1] <= 100:
            found.add(("amount", span, kind, "%", unit))
    return found
