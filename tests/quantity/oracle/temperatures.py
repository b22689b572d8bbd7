"""Every meaning of a temperature."""

import itertools
from fractions import Fraction

from tests.quantity.meanings import Meaning
from tests.quantity.oracle.ends import ends
from tests.quantity.oracle.text import UNSURE, listed, plain, signed_numbers, table

_SCALES = table("""
    c: c, celsius, centigrade
    f: f, fahrenheit
""")
_DEGREES = ("", "°", "° ", "deg", "deg ", "deg.", "deg. ", "degree ", "degrees ")
_CUP_FORMS = table("""
    closed: closed cup, closed-cup, closed, cc, tcc, pmcc, tag closed cup
    closed: pensky-martens, pensky martens, pensky-martens closed cup, setaflash
    closed: pensky martens closed cup, abel, abel closed cup
    open: open cup, open-cup, open, oc, toc, coc, cleveland open cup, cleveland
    open: tag open cup
""")
_NO_FIGURE = listed(
    ",-,--,---,n/a,na,n.a.,n. a.,not applicable,not available,no data,n/d,nd,n.d."
    ",no data available,no information,no information available,not determined,n. d."
    ",not known,unknown,none,not tested,not measured,not relevant,no flash"
    ",does not flash,?"
)


def _degree_units(text: str) -> set[tuple]:
    found = set()
    text = text.removesuffix(".") if text[-2:-1].isalpha() else text
    for degree, (name, unit) in itertools.product(_DEGREES, _SCALES.items()):
        if text == degree + name:
            found.add((unit,))
    if text in ("k", "kelvin", "kelvins"):
        found.add(("k",))
    return found


def _celsius(value: Fraction, unit: tuple) -> Fraction:
    if unit == ("f",):
        return (value - 32) / Fraction(9, 5)
    return value - Fraction("273.15") if unit == ("k",) else value


def single(text: str):
    for span, unit in ends(
        text, _degree_units, read_number=signed_numbers, scale=_celsius
    ):
        zero = Fraction("-273.15")
        if span == UNSURE or all(end is None or end >= zero for end in span[:2]):
            yield span, unit


def _cups(text: str):
    """Yield the kind of cup that the words behind a temperature name."""
    if not text:
        yield None
        return
    rest = text
    for front in (", ", ",", "; ", ";", " - ", "- ", " -", "-", " "):
        if text.startswith(front):
            rest = text.removeprefix(front)
            break
    if rest.startswith("(") and rest.endswith(")"):
        rest = rest[1:-1]
    if rest in _CUP_FORMS:
        yield _CUP_FORMS[rest]


def _near(one, two) -> bool:
    if one == UNSURE or two == UNSURE or one[2:] != two[2:]:
        return False
    for a, b in zip(one[:2], two[:2], strict=True):
        if (a is None) != (b is None) or (a is not None and abs(a - b) > 1):
            return False
    return True


def _with_second(text: str):
    """Yield spans of a text that may give the same temperature in a second unit."""
    yield from ((span, None) for span, _ in single(text))
    for cut in range(1, len(text)):
        if text[cut] not in "(/":
            continue
        close = text[cut] == "("
        if close and not text.endswith(")"):
            continue
        inner = text[cut + 1 : -1 if close else None].strip()
        for (one, unit), (two, other) in itertools.product(
            single(text[:cut].removesuffix(" ")), single(inner)
        ):
            if unit != other:
                yield one, (two, inner[0] not in "<>")


def _agree(one, second: tuple | None) -> bool:
    if second is None:
        return True
    two, bare = second
    if bare and UNSURE not in (one, two) and one[0] != one[1] and two[0] == two[1]:
        low = None if one[0] is None else two[0]
        high = None if one[1] is None else two[1]
        two = (low, high, *one[2:])
    return _near(one, two)


def _fronts(text: str):
    """Yield (cup named in front, rest of the text)."""
    yield None, text
    for (name, cup), join in itertools.product(
        _CUP_FORMS.items(), (" ", ": ", ":", " : ", " :")
    ):
        if text.startswith(name + join):
            yield cup, text.removeprefix(name + join)


def temperatures(text: str) -> set[Meaning]:
    """Return every meaning of a temperature or a flash point."""
    simple = plain(text)
    if simple is None:
        return set()
    if simple in _NO_FIGURE:
        return {("temperature", (None, None, False, False), None)}
    found = set()
    for front, rest in _fronts(simple):
        for cut in range(1, len(rest) + 1):
            for behind in _cups(rest[cut:]):
                if None not in (front, behind) and front != behind:
                    continue
                for span, second in _with_second(rest[:cut].strip()):
                    if _agree(span, second):
                        found.add(("temperature", span, behind or front))
    return found
