"""Hazard classes, limits and toxicity figures as safety data sheets print them.

``Skin Irrit. 2, H315``, ``Asp. Tox. 1 H304``, ``H226`` and ``Aspiration hazard,
category 1`` each mean one class of Regulation (EC) No 1272/2008, Annex VI, Table 1.1,
or of the UN GHS. A text that leaves the category, the route or the statement open is
asked about; a class that does not fit its statement is refused.
"""

import re
from typing import Final, Literal

from blendcheck.errors import InputError, QuestionError
from blendcheck.frozen import Frozen
from blendcheck.quantity.cleaning import flatten, shown
from blendcheck.quantity.hazard_names import ALIASES, CLASSES, TITLES

__all__ = [
    "CLASSES",
    "NOT_CLASSIFIED",
    "SUPPLEMENTAL",
    "HazardClassText",
    "family_of",
    "read_hazard_class",
    "route_of",
]

NOT_CLASSIFIED: Final = "not classified"
"""What a sheet says that gives no class at all."""
SUPPLEMENTAL: Final = "supplemental"
"""The name under which a bare EUH statement is kept."""

_KNOWN: Final = frozenset(code for codes in CLASSES.values() for code in codes)
_GENERAL: Final = frozenset({"H350", "H360", "H361"})
"""Statements whose shorter form is meant where the sheet prints only the class."""

_CODE: Final = r"(?i)\b(EUH|H)[ ]?(\d{3})([A-Za-z]{0,2})\b"
_CATEGORY: Final = (
    r"^(?P<family>.*?)[ ,;:]*(?:hazard )?(?:category|categories|[ck]at\.?|kategorie)?"
    r"[ ,;:]*"
    r"(?P<category>[1-5][abc]?)?$"
)
_NOTHING: Final = (
    r"(?:th(?:is|e) (?:product|substance|mixture|material) )?(?:is |are )?"
    r"(?:not|no)[ -](?:classified|classification|hazardous|hazard classes?|class"
    r"|a hazardous (?:substance|mixture))(?: as (?:hazardous|dangerous))?"
    r"|nicht eingestuft"
)
_BLANK: Final = r"none|n/?a|[-–—]+|keine"
_ROUTES: Final = {
    "oral": "oral",
    "swallowed": "oral",
    "dermal": "dermal",
    "inhalation": "inhalation",
    "inhaled": "inhalation",
}
_ROUTE: Final = (
    r"[(, -]*\b(oral|swallowed|dermal|inhalation|inhaled)\b(?: (?:toxicity|route))?"
    r"(?:[:,/ (-]*(?:vapours?|dusts?|mists?|gas(?:es)?|and|or)\b)*\)*"
)
_EFFECTS: Final = {
    "H335": r"[,( -]*\brespiratory (?:tract )?irritation\b\)?",
    "H336": r"[,( -]*\b(?:narcotic effects?|narcosis|drowsiness)\b\)?",
}
"""Words for the statement of STOT SE 3, where a sheet prints them with the class."""
_EDGES: Final = " ,;:()/*-"
_ORGANS: Final = r"\([^0-9()]*\)?$"
_FACTOR: Final = r"(?i)\bm(?:[- ]?factor)? ?(?:\([a-z]+\))? ?[=:] ?\d"


class HazardClassText(Frozen):
    """One hazard class as a sheet prints it.

    Parameters
    ----------
    printed : str
        The text.
    name : str
        Class and category, a key of :data:`CLASSES`; :data:`NOT_CLASSIFIED`; or
        :data:`SUPPLEMENTAL` for a bare EUH statement.
    statement : str
        Its code, such as ``H315``; empty for "not classified".
    """

    printed: str
    name: str
    statement: str = ""


def family_of(name: str) -> str:
    """Return the class without its category.

    Parameters
    ----------
    name : str
        A class and category, such as ``Skin Irrit. 2``.

    Examples
    --------
    >>> family_of("Skin Corr. 1B"), family_of("Lact.")
    ('Skin Corr.', 'Lact.')
    """
    head, _, last = name.rpartition(" ")
    return head if head and last[0].isdigit() else name


def route_of(statement: str) -> Literal["oral", "dermal", "inhalation"] | None:
    """Return the route that a statement on acute toxicity speaks of.

    Parameters
    ----------
    statement : str
        A code. ``None`` comes back for one that is not on acute toxicity.
    """
    if statement[:3] not in ("H30", "H31", "H33") or statement[3:4] not in "01235":
        return None
    if statement in ("H305", "H315", "H335"):
        return None
    routes: dict[str, Literal["oral", "dermal", "inhalation"]] = {
        "H30": "oral",
        "H31": "dermal",
        "H33": "inhalation",
    }
    return routes[statement[:3]]


def _codes(text: str) -> tuple[str, ...]:
    """Return the statement codes in a text; H360Fd and H360FD are not the same."""
    parts = re.findall(_CODE, text)
    found = (f"{kind.upper()}{digits}{tail}" for kind, digits, tail in parts)
    return tuple(dict.fromkeys(found))


def _unread(text: str) -> InputError:
    if re.search(_FACTOR, text):
        return InputError(
            f"{shown(text)} holds an M-factor beside the class",
            "Write the class here, and the M-factor in its own place",
            code="hazard-factor",
        )
    fix = "Write it as the sheet prints it, like Skin Irrit. 2, H315; one class a line"
    if re.fullmatch(_BLANK, flatten(text).strip(" .")):
        fix = 'Write "not classified" if that is what the sheet says, or leave it out'
    return InputError(
        f"{shown(text)} is not read as a hazard class", fix, code="hazard-class"
    )


def _which(text: str, names: list[str], codes: set[str]) -> QuestionError:
    if len(names) > 1:
        choice = ", ".join(names[:-1]) + f" or {names[-1]}"
        return QuestionError(
            f"{shown(text)} may be {choice}",
            "Write the category that the sheet prints beside it",
            code="hazard-category",
        )
    choice = ", ".join(sorted(codes))
    return QuestionError(
        f"{shown(text)} does not say which statement goes with it ({choice})",
        "Write the H statement that the sheet prints beside it",
        code="hazard-statement",
    )


class _Parts(Frozen):
    """What stands before the statement."""

    family: str | None = None
    category: str | None = None
    route: str | None = None
    implied: str | None = None


def _class_part(text: str) -> _Parts:
    """Return what a text says without its statement."""
    plain = flatten(text).replace("sensitiz", "sensitis").replace("oxidiz", "oxidis")
    plain = plain.strip(_EDGES + ".[]")
    if not plain:
        return _Parts()
    route = implied = None
    met = re.search(_ROUTE, plain)
    if met is not None:
        route = _ROUTES[met[1]]
        plain = _without(plain, met)
    for code, effect in _EFFECTS.items():
        met = re.search(effect, plain)
        if met is not None:
            implied = code
            plain = _without(plain, met)
    family, category = _family(text, plain)
    return _Parts(family, category, route, implied)


def _without(plain: str, met: re.Match[str]) -> str:
    return (plain[: met.start()] + " " + plain[met.end() :]).strip(_EDGES)


def _family(text: str, plain: str) -> tuple[str | None, str | None]:
    """Return the class and the category; a title of two classes goes by the latter."""
    if plain.startswith(("stot", "specific target organ")):
        plain = re.sub(_ORGANS, "", plain).strip()
    plain = re.sub(r"\bcategory (acute|chronic)\b", r"\1", plain)
    found = re.match(_CATEGORY, plain)
    if found is None or re.search(r"\d", found["family"]):
        raise _unread(text)
    key = re.sub(r"[^a-z]", "", found["family"])
    category = found["category"]
    if key in TITLES:
        if category is None:
            return None, None
        family = TITLES[key].get(category[0])
    else:
        family = ALIASES.get(key)
    if family is None:
        raise _unread(text)
    return family, category.upper() if category else None


def _fits(
    name: str, family: str | None, category: str | None, codes: tuple[str, ...]
) -> bool:
    if family is not None and family_of(name) != family:
        return False
    own = name.rpartition(" ")[2] if name != family_of(name) else None
    if category is not None and own != category:
        return False
    return not codes or codes[0] in CLASSES[name]


def _statement(text: str, name: str, codes: tuple[str, ...], route: str | None) -> str:
    if codes:
        if route is not None and route_of(codes[0]) not in (route, None):
            raise InputError(
                f"route and statement of {shown(text)} do not fit each other",
                "Compare it with the sheet",
                code="hazard-mismatch",
            )
        return codes[0]
    open_ones = [c for c in CLASSES[name] if route is None or route_of(c) == route]
    if len(open_ones) == 1 or open_ones[0] in _GENERAL:
        return open_ones[0]
    raise _which(text, [name], set(open_ones))


def _pieces(text: str) -> tuple[tuple[str, ...], _Parts]:
    """Return the statements of a text and what stands beside them."""
    codes = _codes(text)
    start = re.search(_CODE, text)
    if start is None:
        return codes, _class_part(text)
    front, behind = text[: start.start()], re.sub(_CODE, "", text[start.end() :])
    if re.search(r"\d", behind):
        if front.strip(" ([-"):
            raise _unread(text)  # a second class behind the first
        front = behind  # the statement stands first: H302 Acute Tox. 4
    if len(codes) > 1:
        raise InputError(
            f"{shown(text)} holds more than one statement",
            "Write one class a line, each with its own statement",
            code="hazard-several",
        )
    return codes, _class_part(front)


def _read(text: str) -> HazardClassText:
    codes, said = _pieces(text)
    family, category = said.family, said.category
    if family is None and not codes:
        raise _unread(text)
    if family is None and codes[0].startswith("EUH") and codes[0] not in _KNOWN:
        return HazardClassText(text, SUPPLEMENTAL, codes[0])
    if family == "Eye Irrit." and category == "2A":
        category = "2"  # the UN's name of the category of Union law
    codes = codes or ((said.implied,) if said.implied else ())
    names = [name for name in CLASSES if _fits(name, family, category, codes)]
    if not names or said.implied not in (None, *codes):
        if any(_fits(name, family, category, ()) for name in CLASSES):
            raise InputError(
                f"class and statement of {shown(text)} do not fit each other",
                "Compare both with the sheet",
                code="hazard-mismatch",
            )
        raise _unread(text)
    if len(names) > 1:
        raise _which(text, names, set())
    statement = _statement(text, names[0], codes, said.route)
    return HazardClassText(text, names[0], statement)


def read_hazard_class(text: str) -> HazardClassText:
    """Read a hazard class of a safety data sheet.

    Parameters
    ----------
    text : str
        ``Skin Irrit. 2, H315``, ``Asp. Tox. 1 H304``, ``H226``, ``Acute Tox. 4
        (oral)``, ``Skin sensitisation, category 1B``, ``not classified``; the wording
        of the statement may follow its code.

    Returns
    -------
    HazardClassText
        Class, category and statement.

    Raises
    ------
    QuestionError
        ``hazard-category`` or ``hazard-statement`` where the text leaves one open.
    InputError
        ``hazard-class``, ``hazard-mismatch``, ``hazard-several`` or
        ``hazard-factor``.

    Examples
    --------
    >>> read_hazard_class("Asp. Tox. 1 H304").name, read_hazard_class("H226").name
    ('Asp. Tox. 1', 'Flam. Liq. 3')
    """
    if re.fullmatch(_NOTHING, flatten(text).strip(" .")):
        return HazardClassText(text, NOT_CLASSIFIED)
    return _read(text)
