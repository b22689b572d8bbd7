"""What a cell may hold: one rule for each column name, the same in every table."""

import re
from collections.abc import Callable, Mapping
from datetime import date

from blendcheck.reference.conversions import BASES, QUALIFIERS, QUANTITIES

__all__ = ["RULES", "Rule", "check_digit_ok"]

_CAS = re.compile(r"[1-9][0-9]{1,6}-[0-9]{2}-[0-9]")
_FORMULA = re.compile(r"(?:[A-Z][a-z]?(?:[1-9][0-9]*)?)+")
_WEIGHT = re.compile(r"[1-9][0-9]*\.[0-9]+")
_DECIMAL = re.compile(r"(?:0|[1-9][0-9]*)(?:\.[0-9]+)?")
_SIGNED = re.compile(r"-?[0-9]+(?:\.[0-9]+)?(?:[eE][-+]?[0-9]+)?")
_STATEMENT = re.compile(r"(?:H[2-4]|EUH[02-4])[0-9]{2}[A-Za-z]{0,2}")


def check_digit_ok(cas: str) -> bool:
    """Say whether a text is a CAS number whose check digit is right.

    The digits before the last, counted from the right, times 1, 2, 3 ...; the last
    digit of their sum is the check digit. [1]_ A wrong digit can go unnoticed:
    about one in ten does.

    Parameters
    ----------
    cas : str
        Two to seven digits, two digits, the check digit, with hyphens.

    Returns
    -------
    bool
        False also for a text of another form.

    References
    ----------
    .. [1] Chemical Abstracts Service, Check Digit Verification of CAS Registry
       Numbers, which has the first example.

    Examples
    --------
    >>> check_digit_ok("107-07-3")
    True
    >>> check_digit_ok("107-07-4")
    False
    """
    if _CAS.fullmatch(cas) is None:
        return False
    digits = [int(digit) for digit in reversed(cas.replace("-", ""))]
    return sum(n * digit for n, digit in enumerate(digits)) % 10 == digits[0]


def _is_date(text: str) -> bool:
    try:
        return date.fromisoformat(text).isoformat() == text
    except ValueError:
        return False


Rule = tuple[Callable[[str], object], str]
"""A test of a cell, and the end of the sentence that says what is wrong."""


def _one_of(*words: str) -> Rule:
    return words.__contains__, f"is none of {', '.join(words)}"


_NUMBER: Rule = (check_digit_ok, "is not a CAS number with a right check digit")
_DATE: Rule = (_is_date, "is not a date written YYYY-MM-DD")
_TAG = _one_of("seen", "memory")
_FIGURE: Rule = (_DECIMAL.fullmatch, "is not a decimal number such as 0.85")
_COEFFICIENT: Rule = (_SIGNED.fullmatch, "is not a number such as -6.94758")
_YES_NO = _one_of("yes", "no")

RULES: Mapping[str, Rule] = {
    "a": _COEFFICIENT,
    "about": _one_of("constituent", "oil"),
    "at": _FIGURE,
    "b": _COEFFICIENT,
    "assigned": _one_of("compiled", "same constitution", "by rule"),
    "basis": _one_of(*BASES),
    "c": _COEFFICIENT,
    "cas": _NUMBER,
    "check_p": _FIGURE,
    "check_t_k": _FIGURE,
    "checked_on": _DATE,
    "concern": _one_of(
        *("cancer", "convulsions", "airways of children", "liver", "sensitiser"),
        *("light", "salicylate"),
    ),
    "d": _COEFFICIENT,
    "drawn": _one_of("complete", "open", "one of", "none"),
    "e": _COEFFICIENT,
    "equation": _one_of("Antoine", "DIPPR 101", "Wagner 2.5-5", "Wagner 3-6"),
    "fishtine_class": _one_of(
        *("alcohol", "aldehyde or ketone", "ester", "ether", "hydrocarbon", "phenol")
    ),
    "formula": (_FORMULA.fullmatch, "is not a formula such as C10H16O"),
    "group_cas": _NUMBER,
    "grouped": _YES_NO,
    "high": _FIGURE,
    "in_force_from": _DATE,
    "inci_tag": _TAG,
    "kind": _one_of("synonym", "isomer", "other CAS for same"),
    "language": _one_of("en"),
    "leave_on": _FIGURE,
    "limit_unit": _one_of("%"),
    "log_base": _one_of("10", "e"),
    "low": _FIGURE,
    "made": _one_of(
        *("expressed", "distilled", "furocoumarin-free", "absolute", "not stated")
    ),
    "member_cas": _NUMBER,
    "molar_mass": (_WEIGHT.fullmatch, "is not a decimal number such as 154.253"),
    "molar_mass_unit": _one_of("g/mol"),
    "most": _FIGURE,
    "p_c": _FIGURE,
    "phase": _one_of("crystal", "liquid", "not stated"),
    "phototoxic": _YES_NO,
    "pressure_unit": _one_of("Pa"),
    "qualifier": _one_of(*QUALIFIERS),
    "quantity": (QUANTITIES.__contains__, "is not a quantity of the tables"),
    "q": _FIGURE,
    "r": _FIGURE,
    "reason": _one_of(
        "animals", "asthma", "children", "epilepsy", "eyes", "phototoxic", "swallowed"
    ),
    "relation": _one_of("isomer of", "part of sum"),
    "retrieved_on": _DATE,
    "rinse_off": _FIGURE,
    "section": _one_of(
        *("pictogram", "signal word", "hazard", "prevention", "response"),
        *("storage", "disposal"),
    ),
    "series": _one_of("H", "EUH", "P"),
    "share": _FIGURE,
    "sort": _one_of(
        *("physical", "cut-off", "formula", "criteria", "conversion", "limit"),
        *("summation", "elicitation", "table", "supplemental", "date"),
    ),
    "state": _one_of("limit", "not permitted", "packaging duty"),
    "statement": (_STATEMENT.fullmatch, "is not a code such as H315"),
    "status": _one_of("declarable", "prohibited"),
    "suggested": _YES_NO,
    "superseded_on": _DATE,
    "t_c": _FIGURE,
    "t_c_over_t_b": _FIGURE,
    "t_max_k": _FIGURE,
    "t_min_k": _FIGURE,
    "tag": _TAG,
    "temperature_unit": _one_of("K"),
    "use": _one_of("name", "CAS", "not when"),
    "value": _FIGURE,
    "weight": (_WEIGHT.fullmatch, "is not a decimal number such as 12.011"),
}
"""The rule of each column that has one, by the column's name."""
