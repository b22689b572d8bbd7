"""Text as typed or copied, made plain for reading; the print itself is kept.

Spaces of every width become one space, every dash one hyphen, ``≤`` becomes
``<=``, letters become small. Nothing that could change a number is dropped: a
digit of another script, an invisible character or a soft hyphen is refused.
"""

from typing import Final

from blendcheck.errors import InputError

__all__ = ["LONGEST", "VULGAR_CHARACTERS", "clean", "flatten", "shown", "words"]

LONGEST: Final = 200
"""Longest text that is read as one figure. [characters]"""

VULGAR_CHARACTERS: Final = "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"

_KEPT = frozenset("°³±≈" + VULGAR_CHARACTERS)

_PLAIN: Final = str.maketrans(
    {
        # hyphens, figure, en and em dash, minus, small and full-width hyphen
        **dict.fromkeys("\u2010\u2011\u2012\u2013\u2014\u2015\u2212\ufe63\uff0d", "-"),
        **dict.fromkeys("\u2264\u2a7d\u2266", "<="),
        **dict.fromkeys("\u2265\u2a7e\u2267", ">="),
        "\uff1c": "<",
        "\uff1e": ">",
        "\uff05": "%",
        **dict.fromkeys("\u2044\u2215\uff0f", "/"),
        # masculine ordinal and ring above, typed for the degree sign
        **dict.fromkeys("\u00ba\u02da", "°"),
        "\u2103": "°c",
        "\u2109": "°f",
        "\u212a": "k",
    }
)


def words(listed: str) -> tuple[str, ...]:
    """Return the words of a list that is written with bars between them.

    Parameters
    ----------
    listed : str
        ``"drop|drops"``.
    """
    return tuple(listed.split("|"))


def shown(text: str) -> str:
    """Return a text as a message quotes it: one line, at most 60 characters.

    Parameters
    ----------
    text : str
        What was written.

    Returns
    -------
    str
        The text in double quotes, characters that do not print escaped.
    """
    line = " ".join(text.split())
    if not line.isprintable():
        line = line.encode("unicode_escape").decode("ascii")
    return f'"{line[:57]}..."' if len(line) > 60 else f'"{line}"'


def flatten(text: str) -> str:
    """Return a remark with plain spaces, dashes and signs, in small letters.

    Parameters
    ----------
    text : str
        Words of any length, such as a footnote; nothing in them is refused.

    Returns
    -------
    str
        The plain words, for comparing only.
    """
    return " ".join(text.translate(_PLAIN).split()).lower()


def clean(text: object) -> str:
    """Return a text with plain spaces, dashes and signs, in small letters.

    Parameters
    ----------
    text : object
        What was written: it must be a ``str`` of at most 200 characters.

    Returns
    -------
    str
        The plain text: ASCII but for the degree sign, ``³`` and fractions
        such as ``½``; no space at either end, none doubled.

    Raises
    ------
    InputError
        If it is no text (code ``not-text``), too long (``too-long``), or holds a
        character that is not read (``characters``).
    """
    if not isinstance(text, str):
        raise InputError(
            f"{text!r} is not text",
            "Put the figure in quotation marks, as it is printed",
            code="not-text",
        )
    if len(text) > LONGEST:
        raise InputError(
            f"{shown(text)} is too long for one figure",
            "Write one figure, and put the rest in a remark",
            code="too-long",
        )
    if text.isascii():
        return " ".join(text.split()).lower()
    plain = " ".join(text.translate(_PLAIN).split())
    for sign in plain:
        if not sign.isascii() and sign not in _KEPT:
            raise InputError(
                f"{shown(text)} holds the character U+{ord(sign):04X}, "
                "which is not read",
                "Type the figure again with the digits 0 to 9 and plain signs",
                code="characters",
            )
    return plain.lower()
