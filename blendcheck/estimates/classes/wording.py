"""Statements in the official words, with the choices made that the law leaves open.

Method: Regulation (EC) No 1272/2008, Annexes III and IV. Of phrases with a stroke
between them one or more is chosen; words in square brackets are used where they fit;
dots are filled in by the supplier (introduction to Annex IV, from memory). What is
chosen here suits a small bottle or piece for a household. Dots that only the maker can
fill in stay: where a thing may be thrown away, and what puts out a fire.
"""

import re
from collections.abc import Iterable, Mapping
from types import MappingProxyType
from typing import Final

from blendcheck import reference
from blendcheck.quantity.hazards import family_of

__all__ = ["TO_FILL_IN", "wording_of"]

TO_FILL_IN: Final = "…"
"""What stands where the maker fills in."""

_OPTIONAL: Final = re.compile(r"\s*<[^>]*>")
_EITHER: Final[Mapping[str, str]] = MappingProxyType(
    {
        "CENTER/doctor/…": "CENTER or doctor",
        "CENTRE/doctor/…": "CENTRE or doctor",
        "plenty of water/…": "plenty of water",
        "water [or shower]": "water or shower",
        "advice/attention": "advice or attention",
        "contents/container": "contents and container",
        "Wash … thoroughly": "Wash hands thoroughly",
        "explosion-proof [electrical/ventilating/lighting/…]": "explosion-proof",
        "[In case of inadequate ventilation] wear": "Wear",
        "Use… to": "Use … to",
    }
)
"""Parts of a statement that leave a choice, and the choice."""

_AIR: Final = "dust/fume/gas/mist/vapours/spray"
_BREATHED: Final[Mapping[bool | None, str]] = MappingProxyType(
    {
        True: "mist, vapours or spray",
        False: "dust",
        None: "dust, mist, vapours or spray",
    }
)
_WORN: Final = "protective gloves/protective clothing/eye protection/face protection"
_GLOVES: Final = frozenset({"Skin Irrit.", "Skin Sens.", "Acute Tox. 4 (dermal)"})
_EYES: Final = frozenset({"Eye Dam.", "Eye Irrit."})
_BOTH: Final = frozenset({"Flam. Liq."})
_ALL: Final = (
    "protective gloves, protective clothing, eye protection and face protection"
)


def _worn(classes: Iterable[str]) -> str:
    """Choose what to wear: gloves for skin, eye protection for eyes, else all of it."""
    families = {name if "(" in name else family_of(name) for name in classes}
    needing = families & (_GLOVES | _EYES | _BOTH)
    if needing != families or not families:
        return _ALL
    parts = ["protective gloves"] if families & (_GLOVES | _BOTH) else []
    if families & (_EYES | _BOTH):
        parts.append("eye protection")
    return " and ".join(parts)


def wording_of(
    code: str, *, liquid: bool | None = None, classes: Iterable[str] = ()
) -> str:
    """Return a statement in the official words, as it can stand on a label.

    Parameters
    ----------
    code : str
        ``H315``, ``P301+P310``.
    liquid : bool or None
        Whether the mixture is a liquid: what of it may be breathed.
    classes : iterable of str
        Classes of the mixture that bring the statement: what to wear.

    Returns
    -------
    str
        The wording; empty for a code that the table does not have.

    Examples
    --------
    >>> wording_of("P280", classes=["Eye Irrit. 2"])
    'Wear eye protection.'
    """
    phrase = reference.phrases().get(code)
    if phrase is None:
        return ""
    text = _OPTIONAL.sub("", phrase.wording).strip()
    for choice, chosen in _EITHER.items():
        text = text.replace(choice, chosen)
    text = text.replace(_AIR, _BREATHED[liquid]).replace(_WORN, _worn(classes))
    return f"{text}." if code.startswith("P") and text[-1].isalpha() else text
