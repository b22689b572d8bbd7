"""What stands in a line that was copied out of a paper: figures, codes, words.

Numbers are only *found* here; what they mean is for :mod:`blendcheck.quantity`.
"""

import re
from dataclasses import dataclass
from typing import Final

__all__ = [
    "Codes",
    "cells_of",
    "codes_of",
    "has_strong_cells",
    "has_unit",
    "is_figure",
    "is_punctuation",
    "pasted_lines",
    "plain",
    "unit_figures",
]

# One character for one, so that a place in the plain line is one in the source.
_PLAIN: Final = str.maketrans(
    {
        **dict.fromkeys("\u2010\u2011\u2012\u2013\u2014\u2015\u2212\ufe63\uff0d", "-"),
        **dict.fromkeys("\u00a0\u1680\u2000\u2001\u2002\u2003\u2004\u2005\u2006", " "),
        **dict.fromkeys("\u2007\u2008\u2009\u200a\u202f\u205f\u3000", " "),
        "\uff05": "%",
        "\u2502": "|",
        "\u2503": "|",
        "\u00a6": "|",
    }
)

_NUMBER: Final = r"(?:[0-9]+(?:[.,][0-9]+)?|[.,][0-9]+)"
_SIGN: Final = (
    r"(?:<=|>=|=<|=>|[<>≤≥⩽⩾≦≧=~≈±]|(?:max|min|ca|approx)\.?(?![a-z])"
    r"|up to|about|less than|more than|at most|at least|below|above)"
)
_UNIT: Final = (
    r"(?:%(?: ?\(?(?:w/w|v/v|m/m|wt\.?|w/v|(?:gc )?area|by weight|by volume)\)?)?"
    r"|(?:area|wt\.?|w/w) ?%|ppm|ppb|mg/kg|mg/g|g/kg|‰|percent|per cent)"
)
_SIGNED: Final = rf"(?:{_SIGN} ?)?{_NUMBER}"
_RANGE: Final = rf"{_SIGNED}(?: ?{_UNIT})? ?(?:-|to|\.\.\.|…|(?=[<>≤≥])) ?{_SIGNED}"
_ABSENT: Final = (
    r"(?:tr\.?|traces?|n\.? ?d\.?|not detected|none detected|bdl"
    r"|below (?:the )?detection limit)"
)
_LIMIT: Final = (
    rf"(?: ?\(?(?:(?:lod|limit|detection limit)[ :=]*)?{_SIGNED} ?{_UNIT}?\)?)"
)
_FIGURE: Final = re.compile(
    rf"(?:{_RANGE}(?: ?{_UNIT})?|{_SIGNED}(?: ?{_UNIT})?|{_ABSENT}{_LIMIT}?)",
    re.IGNORECASE,
)
_UNIT_FIGURE: Final = re.compile(
    rf"(?<![\w.,/-])(?:{_ABSENT}{_LIMIT}|{_RANGE} ?{_UNIT}|{_SIGNED} ?{_UNIT})(?!\w)",
    re.IGNORECASE,
)
_HAS_UNIT: Final = re.compile(rf"{_UNIT}|{_ABSENT}", re.IGNORECASE)

_CAS: Final = re.compile(
    r"[(\[]?(?:CAS(?:[ -]?(?:No\.?|Nr\.?|RN|number))?[ :.#]*)?"
    r"(?<![0-9-])([0-9]{2,7}-[0-9]{2}-[0-9])(?![0-9-])[)\]]?",
    re.IGNORECASE,
)
# EC number, index number and registration number of European papers
_OTHER_NUMBERS: Final = re.compile(
    r"[(\[]?(?:(?:EC|EINECS|ELINCS|Index|REACH|Registration)"
    r"(?:[ -]?(?:No\.?|Nr\.?|number))?[ :.#]*)?(?<![0-9-])"
    r"(?:[0-9]{3}-[0-9]{3}-[0-9]{2}-[0-9X]|[0-9]{3}-[0-9]{3}-[0-9]"
    r"|[0-9]{2}-[0-9]{10}-[0-9]{2}(?:-[0-9X]{4})?)(?![0-9-])[)\]]?",
    re.IGNORECASE,
)
# Hazard class and category codes: Regulation (EC) 1272/2008, Annex VI, table 1.1;
# statement codes: Annex III and IV. "Category 2" is how data sheets spell it out.
_CLASSES: Final = re.compile(
    r"\b(?:(?:Flam|Ox|Pyr)\. ?(?:Gas|Liq|Sol)\.?|Press\. ?Gas|Self-react\."
    r"|Self-heat\.|Water-react\.|Org\. ?Perox\.|Met\. ?Corr\.|Acute ?Tox\."
    r"|Skin ?(?:Corr|Irrit|Sens)\.|Eye ?(?:Dam|Irrit)\.|Resp\. ?Sens\.|Muta\."
    r"|Carc\.|Repr\.|Lact\.|STOT ?(?:SE|RE)|Asp\. ?Tox\.|Expl\."
    r"|Aquatic ?(?:Acute|Chronic))"
    r"(?: ?[1-5][A-G]?)?(?![0-9%]|[.,][0-9])"
    r"|\bCat(?:egory|\.)? ?[1-5][A-G]?(?![0-9%]|[.,][0-9])"
    r"|\b(?:EU)?H[2-5][0-9]{2}(?:[A-Z]{1,2}|[a-z]{1,3})?\b|\bGHS ?0[1-9]\b"
    r"|\bM(?:-factor)?(?: ?\([a-z]+\))? ?[=:] ?[0-9]+"
)

_GAP: Final = "\x1f"
_STRONG: Final = re.compile(rf"\t+|\||;| {{2,}}|\.{{4,}}|{_GAP}")
_IS_STRONG: Final = re.compile(r"\t|\|| {2,}|\.{4,}")
_PUNCTUATION: Final = re.compile(r"[-|:;,.*/()\[\]+'\" ]*")
_COMMA_IN_FRONT: Final = re.compile(r"^,(?![0-9])\s*")
_BULLET: Final = re.compile(r"^(?:[•·*‣▪]\s*|-\s+(?=[^\W\d]))")


@dataclass(frozen=True, slots=True)
class Codes:
    """What was found in a line beside its name and figure.

    Parameters
    ----------
    cas : tuple of str
        What has the form of a CAS number.
    classes : tuple of str
        Hazard classes and statement codes.
    rest : str
        The line without these and without other registry numbers.
    """

    cas: tuple[str, ...]
    classes: tuple[str, ...]
    rest: str


def plain(text: str) -> str:
    """Return a text with plain dashes, spaces and column lines, of the same length.

    Parameters
    ----------
    text : str
        What was pasted.
    """
    return text.translate(_PLAIN)


def pasted_lines(text: str) -> list[str]:
    """Return the lines of a pasted text that are not blank, without their ends.

    Parameters
    ----------
    text : str
        What was pasted; only line feeds and carriage returns end a line.
    """
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    return [line.rstrip() for line in lines if plain(line).strip()]


def codes_of(line: str) -> Codes:
    """Take the registry numbers and hazard codes out of a line.

    Parameters
    ----------
    line : str
        A plain line. A number of the form 3-3-1 digits is an EC number, never a
        CAS number (2 to 7, 2 and 1 digits).
    """
    rest = _BULLET.sub("", line.strip())
    rest = _OTHER_NUMBERS.sub(_GAP, rest)
    cas = tuple(found[1] for found in _CAS.finditer(rest))
    rest = _CAS.sub(_GAP, rest)
    classes = tuple(found[0] for found in _CLASSES.finditer(rest))
    return Codes(cas, classes, _CLASSES.sub(_GAP, rest))


def has_strong_cells(line: str) -> bool:
    """Say whether a line is cut by tabs, column lines, wide gaps or dots.

    Parameters
    ----------
    line : str
        A plain line.
    """
    return _IS_STRONG.search(line.strip()) is not None


def cells_of(line: str) -> list[str]:
    """Cut a line at tabs, column lines, wide gaps and what was taken out.

    Parameters
    ----------
    line : str
        A plain line, or the rest that :func:`codes_of` left.
    """
    cells = _STRONG.split(line.strip().strip("|"))
    return [_COMMA_IN_FRONT.sub("", cell.strip(" :")).rstrip(" ,:") for cell in cells]


def is_punctuation(cell: str) -> bool:
    """Say whether a cell holds nothing but separators; a dash stands for a blank.

    Parameters
    ----------
    cell : str
        A cell.
    """
    return _PUNCTUATION.fullmatch(cell) is not None


def is_figure(cell: str) -> bool:
    """Say whether a whole cell has the shape of a share or a cap.

    Parameters
    ----------
    cell : str
        A cell.
    """
    return _FIGURE.fullmatch(cell) is not None


def has_unit(figure: str) -> bool:
    """Say whether a figure names its unit, or is a word such as "trace".

    Parameters
    ----------
    figure : str
        A figure.
    """
    return _HAS_UNIT.search(figure) is not None


def unit_figures(cell: str) -> list[str]:
    """Return the figures with a unit that stand free inside a text.

    Parameters
    ----------
    cell : str
        A cell.
    """
    return [found[0] for found in _UNIT_FIGURE.finditer(cell)]
