"""Shares in percent as papers and recipes print them.

A share of a composition lies between 0 and 100 %: ``>95 %`` reaches to 100, and
``<0.1 %`` starts at 0. ``tr`` and a bare ``n.d.`` state no upper end at all.
``n.d. (<10 ppm)`` is below 10 ppm. A blank, a dash or "balance" is no share.
"""

import re
from fractions import Fraction
from typing import Final, Literal, NamedTuple

from blendcheck.errors import InputError, QuestionError
from blendcheck.interval import Range
from blendcheck.quantity.bounds import with_signs
from blendcheck.quantity.cleaning import clean, shown, words
from blendcheck.quantity.numbers import Parts, range_of, span
from blendcheck.quantity.printing import ends_text, exact_text
from blendcheck.quantity.refusals import refusal
from blendcheck.quantity.values import Base, Percent
from blendcheck.units import PERCENT_PER_PPM

__all__ = ["BASE_TEXT", "Share", "print_percent", "read_percent", "share_unit"]

Basis = Literal["w/w", "v/v", "area"]


class Share(NamedTuple):
    """What stands behind the number of a share.

    ``scale`` takes the printed number to percent; ``basis`` and ``base`` are None
    where the text does not say.
    """

    scale: Fraction | None
    basis: Basis | None
    base: Base | None = None


def _with_percent_sign(words: str) -> list[str]:
    return [f"% {words}", f"%{words}", f"% ({words})", f"{words} %", f"{words}%"]


_BASES_NAMED: Final[dict[Basis, str]] = {
    "w/w": "w/w|wt/wt|m/m|wt|by weight|weight|by mass|mass",
    "v/v": "v/v|vol/vol|vol|by volume|volume|abv",
    "area": "area|gc area|peak area|gc peak area|gc-ms area|gc",
}
_UNITS: Final[dict[str, Share]] = {
    "%": Share(None, None),
    "ppm": Share(PERCENT_PER_PPM, None),
    **dict.fromkeys(
        words("mg/kg|ppm w/w|ppm (w/w)|ppm by weight"), Share(PERCENT_PER_PPM, "w/w")
    ),
    **{
        text: Share(None, basis)
        for basis, names in _BASES_NAMED.items()
        for name in words(names)
        for text in _with_percent_sign(name)
    },
}

BASE_TEXT: Final = {
    Base.FINISHED: "of the finished product",
    Base.WET: "of the wet mix",
    Base.POWDERS: "of the powders",
    Base.SOAPING_OILS: "of the soaping oils",
    Base.BLEND: "of the blend",
    Base.MATERIAL: "of the material",
}

_BASES: Final = {
    "finished": Base.FINISHED,
    "finished product": Base.FINISHED,
    "finished piece": Base.FINISHED,
    "finished tablet": Base.FINISHED,
    "finished bar": Base.FINISHED,
    "finished mass": Base.FINISHED,
    "finished weight": Base.FINISHED,
    "wet mix": Base.WET,
    "wet mass": Base.WET,
    "wet weight": Base.WET,
    "powders": Base.POWDERS,
    "powder": Base.POWDERS,
    "soaping oils": Base.SOAPING_OILS,
    "soap oils": Base.SOAPING_OILS,
    "blend": Base.BLEND,
    "material": Base.MATERIAL,
}
_BASES_ASKED: Final = frozenset(
    words("total|whole|oils|oil|mix|mixture|batch|base|product|recipe|weight|mass")
)

_LIMITS: Final = (Fraction(0), Fraction(100))
_RULE: Final = "a share between 0 and 100 %"
_ZERO: Final = Fraction(0)

_WORDED: Final = re.compile(
    r"(?:(?P<absent>n\.? ?d\.?|n/d|not detected|none detected"
    r"|below (?:the )?detection limit|bdl)|traces?|tr\.?)(?![a-z])"
    r" ?(?P<rest>.*)"
)
_LIMIT_WORDS: Final = re.compile(
    r"(?:lod|detection limit|limit of detection|limit) ?[:=]? ?(?=[0-9.])"
)
_PERCENT_WORDS: Final = re.compile(r"percent|per cent|pct\.?(?![a-z])")
_LETTER_DOT: Final = re.compile(r"(?<=[a-z])\.")

_NO_SHARE: Final = {
    "dash": ("-", "--", "---"),
    "not-applicable": ("n/a", "na", "n.a.", "n. a.", "not applicable"),
    "balance": words(
        "balance|bal|bal.|remainder|rest|rem|q.s.|qs|q.s|q. s.|to 100|to 100 %|to 100%"
        "|ad 100|ad 100 %|ad 100%|q.s. to 100|q.s. to 100 %|qs to 100|qs to 100 %"
    ),
}


def _base(text: str, named: str) -> Base:
    plain = named.removeprefix("the ")
    found = _BASES.get(plain)
    if found is not None:
        return found
    if plain in _BASES_ASKED:
        raise QuestionError(
            f'{shown(text)}: "{named}" does not say which mass that is',
            "Write of the finished product, of the wet mix, of the powders, of the "
            "soaping oils or of the blend",
            code="percent-of-what",
        )
    raise InputError(
        f'{shown(text)}: "{named}" is not a base that is known',
        "Write of the finished product, of the wet mix, of the powders, of the "
        "soaping oils or of the blend",
        code="unreadable",
    )


def share_unit(text: str, tail: str) -> Share | None:
    """Return what the words behind the number of a share mean.

    Parameters
    ----------
    text : str
        What was written, for messages.
    tail : str
        The cleaned text behind the number, ``% of the powders``.

    Returns
    -------
    Share or None
        None if it is not the unit of a share at all.

    Raises
    ------
    QuestionError
        ``percent-of-what`` for "of the total" and its like.
    InputError
        If the base is not known.
    """
    found = _UNITS.get(tail)
    if found is not None:
        return found
    unit, of, base = tail.partition(" of ")
    unit = _LETTER_DOT.sub("", _PERCENT_WORDS.sub("%", unit))
    found = _UNITS.get(unit)
    if found is None or not of:
        return found
    return found._replace(base=_base(text, base))


def _share(text: str, parts: Parts) -> tuple[Range, Share]:
    middle, tail = parts[2], parts[6]
    unit = share_unit(text, tail) if tail else Share(None, None)
    if unit is None:
        raise refusal(text, clean(text), "a share", "10-25 %, <0.1 % or n.d.")
    # "10 % - 25 % w/w": the first sign only repeats that it is a percent
    repeats = middle == "%" and unit.scale is None
    if middle and middle != tail and not repeats:
        raise InputError(
            f"the two ends of {shown(text)} are in different units",
            "Write both ends in one unit",
            code="units-mixed",
        )
    scale = unit.scale
    convert = None if scale is None else scale.__mul__
    return range_of(text, parts, limits=_LIMITS, rule=_RULE, convert=convert), unit


def _no_share(text: str, plain: str) -> InputError:
    for code, forms in _NO_SHARE.items():
        if plain in forms:
            return InputError(
                f"{shown(text)} states no share, and is not zero",
                "Write the figure, or n.d. or tr as printed, or leave the row out",
                code=code,
            )
    return refusal(text, plain, "a share", "10-25 %, <0.1 % or n.d.")


def _limit_parts(text: str, rest: str) -> Parts:
    inner = rest[1:-1].strip() if rest[0] == "(" and rest[-1] == ")" else rest
    parts = span(_LIMIT_WORDS.sub("<", with_signs(inner), count=1))
    if parts is None or parts[5] is not None or parts[0] not in {"<", "<="}:
        raise InputError(
            f"the detection limit in {shown(text)} is not read",
            "Write it like n.d. (<10 ppm)",
            code="detection-limit",
        )
    return parts


def _worded(text: str, plain: str) -> Percent:
    found = _WORDED.fullmatch(plain)
    if found is None:
        raise _no_share(text, plain)
    present = found["absent"] is None
    rest = found["rest"]
    if not rest:
        return Percent(text, Range(_ZERO, None, low_open=present), detected=present)
    limit, unit = _share(text, _limit_parts(text, rest))
    share = Range(_ZERO, limit.high, present, limit.high_open)
    return Percent(text, share, unit.basis, unit.base, detected=present)


def read_percent(text: str) -> Percent:
    """Read a share of a composition.

    Parameters
    ----------
    text : str
        ``32.41``, ``10-25 %``, ``≥ 10 - < 25``, ``<0.1 %``, ``10 ppm``,
        ``32 area %``, ``tr``, ``n.d. (<10 ppm)``, ``2 % of finished``. Without a
        unit it is percent.

    Returns
    -------
    Percent
        The share in percent, within [0, 100], its basis and base where said, and
        the text as printed.

    Raises
    ------
    QuestionError
        ``decimal-comma``, ``about``, ``leading-zero``, ``percent-of-what`` ...
    InputError
        ``blank``, ``dash``, ``not-applicable``, ``balance``, ``out-of-range``,
        ``range-order``, ``unreadable`` ...

    Notes
    -----
    ``tr`` is present, so its low end is 0, excluded; with no limit printed its
    high end is None. ``n.d.`` is not present as far as anyone looked: its low end
    is 0 and ``detected`` is False.

    Examples
    --------
    >>> read_percent("<0.1 %").range
    Range(low=Fraction(0, 1), high=Fraction(1, 10), low_open=False, high_open=True)
    """
    plain = clean(text)
    parts = span(plain)
    if parts is None:
        parts = span(with_signs(plain))
        if parts is None:
            return _worded(text, plain)
    share, unit = _share(text, parts)
    return Percent(text, share, unit.basis, unit.base)


_BASIS_TEXT: Final = {None: "%", "w/w": "% w/w", "v/v": "% v/v", "area": "% (GC area)"}


def _share_text(share: Range, unit: str) -> str:
    low, high = share.low, share.high
    if low is None or high is None:
        ends = (low, high)
    elif low == 0 and not share.low_open and 0 < high < 100:
        ends = (None, high)  # "< 0.1 %" starts at 0 for every reader
    elif high == 100 and not share.high_open and 0 < low < 100:
        ends = (low, None)  # "> 95 %" ends at 100
    else:
        ends = (low, high)
    first, second = (None if end is None else exact_text(end) for end in ends)
    return ends_text(share, first, second, unit, "not known")


def print_percent(value: Percent) -> str:
    """Print a share so that it reads back with the same meaning.

    Parameters
    ----------
    value : Percent
        The share.

    Returns
    -------
    str
        ``10 to 25 %``, ``< 0.1 %``, ``> 95 %``, ``trace``, ``not detected``,
        ``not detected (< 0.001 %)``, ``32 % (GC area)``, ``2 % of the powders``.

    Examples
    --------
    >>> print_percent(read_percent("10-25 %"))
    '10 to 25 %'
    """
    share = value.range
    unit = f" {_BASIS_TEXT[value.basis]}"
    if value.base is not None:
        unit += f" {BASE_TEXT[value.base]}"
    if share.high is None and share.low == 0:
        return "trace" if value.detected else "not detected"
    if value.detected or share.high is None:
        return _share_text(share, unit)
    sign = "<" if share.high_open else "≤"
    return f"not detected ({sign} {exact_text(share.high)}{unit})"
