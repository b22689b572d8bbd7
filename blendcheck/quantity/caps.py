"""Caps as certificates print them, read into states.

A cap is a limit, not permitted (0), not permitted as an added ingredient, not
restricted, not applicable with the document's own footnote, or missing. Where a
footnote says what "N/A", "0" or "-" stands for, the footnote wins.
"""

import re
from fractions import Fraction
from typing import Final

from blendcheck.errors import InputError, QuestionError
from blendcheck.quantity.bounds import with_signs
from blendcheck.quantity.cleaning import clean, flatten, shown, words
from blendcheck.quantity.numbers import Parts, range_of, span
from blendcheck.quantity.percents import share_unit
from blendcheck.quantity.printing import exact_text
from blendcheck.quantity.refusals import out_of_range, refusal
from blendcheck.quantity.values import (
    Base,
    CapText,
    Limit,
    Missing,
    NoRestriction,
    NotAdded,
    NotApplicable,
    NotPermitted,
)

__all__ = ["print_cap", "read_cap"]

_STATES: Final = {
    **dict.fromkeys(
        words(
            "not permitted|not allowed|prohibited|banned|forbidden|not approved"
            "|not to be used|do not use|must not be used|none permitted"
        ),
        "not permitted",
    ),
    **dict.fromkeys(
        words(
            "not restricted|no restriction|no restrictions|unrestricted|no limit"
            "|no limits|unlimited|not limited|without restriction"
        ),
        "no restriction",
    ),
    **dict.fromkeys(
        words("n/a|na|n.a.|n. a.|n.a|not applicable"),
        "not applicable",
    ),
    **dict.fromkeys(
        words("|-|--|---|not stated|not available|no data|unknown"),
        "missing",
    ),
}
_DASHES: Final = frozenset({"-", "--", "---"})
_NOT_SAID: Final = frozenset(
    word for word, state in _STATES.items() if state == "not applicable"
)
_MARKS: Final = " \"'*."

# "no restriction" with the name of a scheme in between, and a full sentence
_NO_RESTRICTION: Final = re.compile(
    r"(?:there (?:is|are) )?no (?:[a-z]+ )?(?:restrictions?|limits?)"
    r"(?: (?:apply|applies))?|(?:is )?(?:not restricted|unrestricted|unlimited)"
)
_CLAUSES: Final = re.compile(r"[.;](?:\s|$)")
_DEFINES: Final = re.compile(
    r"(.+?)(?: ?[=:] ?| - | means | indicates | stands for )(.+)"
)

_ADDED: Final = (
    r"not (?:to be |permitted as an |as an )?added(?: ingredient)?"
    r"|not an added ingredient"
)
_NOT_ADDED: Final = re.compile(
    rf"(?:{_ADDED})(?:[;:,]| -)? (?:(?:max\.?|maximum|up to|at most|limit) |<= ?)?"
    r"([0-9.].*)"
)
_NOT_ADDED_ALONE: Final = re.compile(_ADDED)
_SOURCES: Final = (
    rf"(?:from )?natural sources(?: only)?|only from natural sources|{_ADDED}"
)
_FROM_SOURCES: Final = re.compile(rf"([^(]+?) (?:\((?:{_SOURCES})\)|(?:{_SOURCES}))")
_SOURCES_ALONE: Final = re.compile(_SOURCES)

_ZERO: Final = re.compile(r"0(?:\.0+)?(?: ?%)?")
_LIMITS: Final = (Fraction(0), Fraction(100))
_RULE: Final = "a cap between 0 and 100 %"
_EXAMPLE: Final = "5 %, not permitted, not restricted or N/A"


def _definition(token: str, footnote: str) -> str | None:
    """Return the state that a footnote gives to a printed token, if it does."""
    meanings = set()
    for clause in _CLAUSES.split(flatten(footnote)):
        plain = clause.strip(_MARKS)
        found = _DEFINES.fullmatch(plain)
        defined = found is not None and found[1].strip(_MARKS) == token
        meaning = found[2].strip(_MARKS) if found and defined else plain
        if _NO_RESTRICTION.fullmatch(meaning) and (defined or token in _NOT_SAID):
            meanings.add("no restriction")
        elif defined and meaning in _STATES:
            meanings.add(_STATES[meaning])
    return meanings.pop() if len(meanings) == 1 else None


def _with_footnote(text: str, footnote: str) -> str:
    return f"{text} ({footnote})" if footnote else text


def _state(printed: str, state: str, footnote: str) -> CapText:
    if state == "no restriction":
        return NoRestriction(printed)
    if state == "not permitted":
        return NotPermitted(printed)
    if state == "missing":
        return Missing(printed)
    return NotApplicable(printed, footnote)


def _explained(text: str, token: str, footnote: str) -> CapText | None:
    """Read "N/A", "0" or a dash together with the footnote that explains it."""
    applicable = token not in _NOT_SAID
    if applicable and token not in _DASHES and not _ZERO.fullmatch(token):
        return None
    meaning = _definition(token, footnote) if footnote else None
    if meaning is not None:
        return _state(_with_footnote(text, footnote), meaning, footnote)
    if applicable:
        return None
    return NotApplicable(_with_footnote(text, footnote), footnote)


def _with_its_footnote(text: str, footnote: str) -> CapText | None:
    """Read a token whose footnote stands beside it, behind it in brackets, or both."""
    body, bracket, inner = text.strip().partition("(")
    if not bracket:
        return _explained(body, clean(body).removesuffix("*"), footnote)
    if not inner.endswith(")"):
        return None
    notes = "; ".join(note for note in (inner[:-1].strip(), footnote) if note)
    return _explained(body.strip(), clean(body).removesuffix("*"), notes)


def _percent(text: str, plain: str) -> Fraction:
    """Return the one figure of a cap, in percent."""
    parts = span(with_signs(plain))
    if parts is None:
        raise refusal(text, plain, "a cap", _EXAMPLE)
    tail = parts[6]
    unit = share_unit(text, tail) if tail else None
    if tail and unit is None:
        raise refusal(text, plain, "a cap", _EXAMPLE)
    convert = None
    if unit is not None:
        if unit.basis in {"v/v", "area"} or unit.base not in {None, Base.FINISHED}:
            raise InputError(
                f"{shown(text)} is not a percent by weight of the finished product",
                "Caps are read in % w/w of the finished product only",
                code="cap-base",
            )
        convert = None if unit.scale is None else unit.scale.__mul__
    _one_figure(text, parts)
    found = range_of(text, parts, limits=_LIMITS, rule=_RULE, convert=convert)
    if found.high is None:  # the limits close every bound
        raise out_of_range(text, _RULE)
    return found.high


def _one_figure(text: str, parts: Parts) -> None:
    if parts[5] is not None:
        raise QuestionError(
            f"{shown(text)} is a range, and a cap is one figure",
            "Ask the supplier for the figure, or write the lower end",
            code="cap-range",
        )
    if parts[0] not in {None, "<="}:
        raise QuestionError(
            f"{shown(text)} does not say whether the figure itself is allowed",
            "Write max 5 % if it is; ask the supplier if not",
            code="cap-bound",
        )


def _not_added(text: str, plain: str) -> str | None:
    """Return the figure in a cap on what oils bring, None if it is no such cap."""
    found = _NOT_ADDED.fullmatch(plain)
    if found is not None:
        return found[1]
    found = _FROM_SOURCES.fullmatch(plain)
    if found is not None:
        return found[1]
    if _NOT_ADDED_ALONE.fullmatch(plain):
        raise QuestionError(
            f"{shown(text)} gives no limit on what oils bring with them",
            "Write it like: not added; max 0.01 %, or not permitted if none is allowed",
            code="not-added-limit",
        )
    return None


def _figure(text: str, plain: str, footnote: str) -> CapText:
    if footnote and _SOURCES_ALONE.fullmatch(flatten(footnote).strip(" .*()")):
        text, plain = f"{text} ({footnote})", f"{plain} (not added)"
    added = _not_added(text, plain)
    percent = _percent(text, plain if added is None else added)
    if percent == 0:
        return NotPermitted(text)
    if added is not None:
        return NotAdded(text, percent)
    return NoRestriction(text) if percent == 100 else Limit(text, percent)


def read_cap(text: str, footnote: str = "") -> CapText:
    """Read a cap into its state.

    Parameters
    ----------
    text : str
        What the certificate prints: ``14.46``, ``max 5 %``, ``0``, ``not
        permitted``, ``100``, ``not restricted``, ``N/A``, ``-``, ``0.5 % (from
        natural sources only)``, ``not added; max 0.01 %``, or a blank.
    footnote : str, default ""
        The document's own explanation of that print. It may also stand behind the
        text in brackets: ``N/A (N/A = no restriction)``.

    Returns
    -------
    Limit, NotPermitted, NotAdded, NoRestriction, NotApplicable or Missing
        The state. ``printed`` holds the text, with the footnote in brackets where
        the footnote took part.

    Raises
    ------
    QuestionError
        ``cap-range``, ``cap-bound`` (``<5 %``, ``>5 %``), ``not-added-limit``,
        ``decimal-comma``, ``about`` ...
    InputError
        ``out-of-range``, ``cap-base`` (not % w/w of the finished product),
        ``negative``, ``unreadable`` ...

    Examples
    --------
    >>> read_cap("14.46").state, read_cap("0.00").state, read_cap("100").state
    ('limit', 'not permitted', 'no restriction stated')
    >>> read_cap("N/A", "N/A = no restriction").state
    'no restriction stated'
    """
    explained = _with_its_footnote(text, footnote.strip())
    if explained is not None:
        return explained
    plain = clean(text)
    state = _STATES.get(plain)
    if state is not None:
        return _state(text, state, "")
    return _figure(text, plain, footnote)


def print_cap(value: CapText) -> str:
    """Print a cap so that it reads back with the same meaning.

    Parameters
    ----------
    value : Limit, NotPermitted, NotAdded, NoRestriction, NotApplicable or Missing
        The cap.

    Returns
    -------
    str
        ``5 %``, ``not permitted``, ``not as an added ingredient; max 0.5 %``,
        ``not restricted``, ``N/A (footnote)``, ``-``.

    Examples
    --------
    >>> print_cap(read_cap("<= 5.0"))
    '5 %'
    """
    match value:
        case Limit():
            return f"{exact_text(value.percent)} %"
        case NotAdded():
            return f"not as an added ingredient; max {exact_text(value.percent)} %"
        case NotPermitted():
            return "not permitted"
        case NoRestriction():
            return "not restricted"
        case NotApplicable():
            return _with_footnote("N/A", value.footnote)
        case Missing():
            return "-"
