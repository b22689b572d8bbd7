"""Several classes, limits or toxicity figures in one text, told apart.

Section 2 of a sheet prints one class a line, or all of them in one line with
semicolons between: ``Flam. Liq. 3; H226; Asp. Tox. 1; H304``. A semicolon or a comma
also stands between a class and its statement, so it does not always part two classes.
Nothing is read here and no letter is changed: what is still not clear is refused by the
reader of the single text.
"""

import re
from typing import Final

__all__ = ["classes_of", "figures_of", "limits_of"]

_CODE: Final = r"\b(?:EUH|H)[ ]?\d{3}[A-Za-z]{0,2}\b"
_OUTSIDE: Final = r";(?![^(\n]*\))"
_BULLETS: Final = " \t-–—•·*▪"


def _pieces(text: str) -> list[list[str]]:
    """Return the pieces between semicolons, line by line; brackets stay whole."""
    return [
        [piece for one in re.split(_OUTSIDE, line) if (piece := one.strip(" \t"))]
        for line in text.splitlines()
        if line.strip(_BULLETS)
    ]


def _parted(piece: str) -> list[str]:
    """Part "Flam. Liq. 3, H226, Asp. Tox. 1, H304" behind its statements."""
    if len(re.findall(_CODE, piece, re.IGNORECASE)) < 2:
        return [piece]
    return re.sub(rf"(?i)({_CODE})[ ]?[,/][ ]?", "\\1\n", piece).split("\n")


def classes_of(text: str) -> tuple[str, ...]:
    """Return the hazard classes in a text, each as printed.

    Parameters
    ----------
    text : str
        One class a line, or several with semicolons or commas between.

    Returns
    -------
    tuple of str
        The texts for :func:`~blendcheck.quantity.hazards.read_hazard_class`.

    Examples
    --------
    >>> classes_of("Flam. Liq. 3; H226; Asp. Tox. 1, H304")
    ('Flam. Liq. 3; H226', 'Asp. Tox. 1, H304')
    >>> classes_of("H226, H304")
    ('H226', 'H304')
    """
    found: list[str] = []
    for line in _pieces(text):
        waiting = ""
        for piece in line:
            has_code = re.search(_CODE, piece, re.IGNORECASE)
            is_code = re.match(_CODE, piece, re.IGNORECASE)
            if waiting and not is_code:
                found.append(waiting)
                waiting = ""
            joined = f"{waiting}; {piece}" if waiting else piece
            waiting = "" if has_code else joined
            if has_code:
                found += _parted(joined)
        if waiting:
            found.append(waiting)
    return tuple(one.strip(_BULLETS) for one in found if one.strip(_BULLETS))


def limits_of(text: str) -> tuple[str, ...]:
    """Return the specific concentration limits in a text, each as printed.

    Parameters
    ----------
    text : str
        One limit a line, or several with semicolons between.

    Returns
    -------
    tuple of str
        The texts for
        :func:`~blendcheck.quantity.hazard_figures.read_specific_limit`.

    Examples
    --------
    >>> limits_of("Skin Corr. 1B; H314: C ≥ 25 %; Skin Irrit. 2; H315: 10 % ≤ C < 25 %")
    ('Skin Corr. 1B; H314: C ≥ 25 %', 'Skin Irrit. 2; H315: 10 % ≤ C < 25 %')
    """
    found: list[str] = []
    for line in _pieces(text):
        waiting = ""
        for piece in line:
            waiting = f"{waiting}; {piece}" if waiting else piece
            if re.search("[%<>≤≥]", piece):
                found.append(waiting)
                waiting = ""
        if waiting:
            found.append(waiting)
    return tuple(one.strip(_BULLETS) for one in found if one.strip(_BULLETS))


def figures_of(text: str) -> tuple[str, ...]:
    """Return the toxicity figures in a text, each as printed.

    Parameters
    ----------
    text : str
        One figure a line, or several with semicolons between.

    Returns
    -------
    tuple of str
        The texts for :func:`~blendcheck.quantity.hazard_figures.read_toxicity`.

    Examples
    --------
    >>> figures_of("LD50 oral 1680 mg/kg; dermal > 2000 mg/kg (rat; no deaths)")
    ('LD50 oral 1680 mg/kg', 'dermal > 2000 mg/kg (rat; no deaths)')
    """
    return tuple(piece for line in _pieces(text) for piece in line)
