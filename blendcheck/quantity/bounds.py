"""Bounds in words, such as "up to 5 %", turned into their signs."""

import re
from typing import Final

from blendcheck.quantity.cleaning import VULGAR_CHARACTERS

__all__ = ["with_signs"]

_WORDS: Final = {
    "less than or equal to": "<=",
    "greater than or equal to": ">=",
    "not more than": "<=",
    "no more than": "<=",
    "not less than": ">=",
    "no less than": ">=",
    "less than": "<",
    "more than": ">",
    "greater than": ">",
    "at most": "<=",
    "at least": ">=",
    "up to": "<=",
    "maximum": "<=",
    "minimum": ">=",
    "max.": "<=",
    "min.": ">=",
    "max": "<=",
    "min": ">=",
    "below": "<",
    "above": ">",
    "under": "<",
    "over": ">",
}
_WORD_BOUND: Final = re.compile(
    "(" + "|".join(map(re.escape, _WORDS)) + rf") (?=[0-9.{VULGAR_CHARACTERS}-])"
)


def with_signs(plain: str) -> str:
    """Replace a bound in words at the start ("up to 5") by its sign ("<=5").

    Parameters
    ----------
    plain : str
        A cleaned text.

    Returns
    -------
    str
        The same text, or the one with the sign.
    """
    found = _WORD_BOUND.match(plain)
    if found is None:
        return plain
    return _WORDS[found.group(1)] + plain[found.end() :]
