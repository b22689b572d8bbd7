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
from blendcheck.quantity.cleaning import flatten, shown, words

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

CLASSES: Final[dict[str, tuple[str, ...]]] = {
    name: words(codes)
    for name, codes in {
        "Flam. Liq. 1": "H224",
        "Flam. Liq. 2": "H225",
        "Flam. Liq. 3": "H226",
        "Flam. Liq. 4": "H227",
        "Flam. Sol. 1": "H228",
        "Flam. Sol. 2": "H228",
        "Ox. Liq. 1": "H271",
        "Ox. Liq. 2": "H272",
        "Ox. Liq. 3": "H272",
        "Ox. Sol. 1": "H271",
        "Ox. Sol. 2": "H272",
        "Ox. Sol. 3": "H272",
        "Met. Corr. 1": "H290",
        "Acute Tox. 1": "H300|H310|H330",
        "Acute Tox. 2": "H300|H310|H330",
        "Acute Tox. 3": "H301|H311|H331",
        "Acute Tox. 4": "H302|H312|H332",
        "Acute Tox. 5": "H303|H313|H333",
        "Skin Corr. 1": "H314",
        "Skin Corr. 1A": "H314",
        "Skin Corr. 1B": "H314",
        "Skin Corr. 1C": "H314",
        "Skin Irrit. 2": "H315",
        "Skin Irrit. 3": "H316",
        "Eye Dam. 1": "H318",
        "Eye Irrit. 2": "H319",
        "Eye Irrit. 2B": "H320",
        "Resp. Sens. 1": "H334",
        "Resp. Sens. 1A": "H334",
        "Resp. Sens. 1B": "H334",
        "Skin Sens. 1": "H317",
        "Skin Sens. 1A": "H317",
        "Skin Sens. 1B": "H317",
        "Muta. 1A": "H340",
        "Muta. 1B": "H340",
        "Muta. 2": "H341",
        "Carc. 1A": "H350|H350i",
        "Carc. 1B": "H350|H350i",
        "Carc. 2": "H351",
        "Repr. 1A": "H360|H360F|H360D|H360FD|H360Fd|H360Df",
        "Repr. 1B": "H360|H360F|H360D|H360FD|H360Fd|H360Df",
        "Repr. 2": "H361|H361f|H361d|H361fd",
        "Lact.": "H362",
        "STOT SE 1": "H370",
        "STOT SE 2": "H371",
        "STOT SE 3": "H335|H336",
        "STOT RE 1": "H372",
        "STOT RE 2": "H373",
        "Asp. Tox. 1": "H304",
        "Asp. Tox. 2": "H305",
        "Aquatic Acute 1": "H400",
        "Aquatic Acute 2": "H401",
        "Aquatic Acute 3": "H402",
        "Aquatic Chronic 1": "H410",
        "Aquatic Chronic 2": "H411",
        "Aquatic Chronic 3": "H412",
        "Aquatic Chronic 4": "H413",
        "Ozone 1": "H420",
        "ED HH 1": "EUH380",
        "ED HH 2": "EUH381",
        "ED ENV 1": "EUH430",
        "ED ENV 2": "EUH431",
        "PBT": "EUH440",
        "vPvB": "EUH441",
        "PMT": "EUH450",
        "vPvM": "EUH451",
    }.items()
}
"""Statements of every class that is read; the first is meant where none is printed."""

_KNOWN: Final = frozenset(code for codes in CLASSES.values() for code in codes)
_GENERAL: Final = frozenset({"H350", "H360", "H361"})
"""Statements whose shorter form is meant where the sheet prints only the class."""

_CODE: Final = r"(?i)\b(EUH|H)[ ]?(\d{3})([A-Za-z]{0,2})\b"
_CATEGORY: Final = (
    r"^(?P<family>.*?)[ ,;:]*(?:hazard )?(?:category|categories|cat\.?)?[ ,;:]*"
    r"(?P<category>[1-5][abc]?)?$"
)
_NOTHING: Final = (
    r"(?:is |are )?(?:not|no)[ -](?:classified|hazardous|hazard classes?|class)"
    r"(?: as hazardous)?\.?"
)
_ROUTES: Final = {
    "oral": "oral",
    "swallowed": "oral",
    "dermal": "dermal",
    "inhalation": "inhalation",
    "inhaled": "inhalation",
}
_ROUTE: Final = (
    r"[(, -]*\b(oral|swallowed|dermal|inhalation|inhaled)\b(?: (?:toxicity|route))?\)?"
)
_ALIASES: Final = {
    "flamliq": "Flam. Liq.",
    "flammableliquid": "Flam. Liq.",
    "flammableliquids": "Flam. Liq.",
    "flamsol": "Flam. Sol.",
    "flammablesolid": "Flam. Sol.",
    "flammablesolids": "Flam. Sol.",
    "oxliq": "Ox. Liq.",
    "oxidisingliquid": "Ox. Liq.",
    "oxidisingliquids": "Ox. Liq.",
    "oxsol": "Ox. Sol.",
    "oxidisingsolid": "Ox. Sol.",
    "oxidisingsolids": "Ox. Sol.",
    "metcorr": "Met. Corr.",
    "corrosivetometals": "Met. Corr.",
    "acutetox": "Acute Tox.",
    "acutetoxicity": "Acute Tox.",
    "skincorr": "Skin Corr.",
    "skincorrosion": "Skin Corr.",
    "skincorrosive": "Skin Corr.",
    "skinirrit": "Skin Irrit.",
    "skinirritation": "Skin Irrit.",
    "skinirritant": "Skin Irrit.",
    "eyedam": "Eye Dam.",
    "eyedamage": "Eye Dam.",
    "seriouseyedamage": "Eye Dam.",
    "eyeirrit": "Eye Irrit.",
    "eyeirritation": "Eye Irrit.",
    "eyeirritant": "Eye Irrit.",
    "seriouseyeirritation": "Eye Irrit.",
    "respsens": "Resp. Sens.",
    "respiratorysens": "Resp. Sens.",
    "respiratorysensitisation": "Resp. Sens.",
    "respiratorysensitiser": "Resp. Sens.",
    "skinsens": "Skin Sens.",
    "skinsensitisation": "Skin Sens.",
    "skinsensitiser": "Skin Sens.",
    "muta": "Muta.",
    "germcellmutagenicity": "Muta.",
    "mutagenicity": "Muta.",
    "carc": "Carc.",
    "carcinogenicity": "Carc.",
    "repr": "Repr.",
    "reproductivetoxicity": "Repr.",
    "toxictoreproduction": "Repr.",
    "lact": "Lact.",
    "stotse": "STOT SE",
    "stotsingle": "STOT SE",
    "stotsingleexposure": "STOT SE",
    "specifictargetorgantoxicitysingleexposure": "STOT SE",
    "stotre": "STOT RE",
    "stotrepeated": "STOT RE",
    "stotrepeatedexposure": "STOT RE",
    "specifictargetorgantoxicityrepeatedexposure": "STOT RE",
    "asptox": "Asp. Tox.",
    "aspirationhazard": "Asp. Tox.",
    "aspirationtoxicity": "Asp. Tox.",
    "aquaticacute": "Aquatic Acute",
    "aquaticacutehazard": "Aquatic Acute",
    "acuteaquatichazard": "Aquatic Acute",
    "shorttermacuteaquatichazard": "Aquatic Acute",
    "hazardoustotheaquaticenvironmentacute": "Aquatic Acute",
    "hazardoustotheaquaticenvironmentacutehazard": "Aquatic Acute",
    "aquaticchronic": "Aquatic Chronic",
    "aquaticchronichazard": "Aquatic Chronic",
    "chronicaquatichazard": "Aquatic Chronic",
    "longtermchronicaquatichazard": "Aquatic Chronic",
    "hazardoustotheaquaticenvironmentchronic": "Aquatic Chronic",
    "hazardoustotheaquaticenvironmentchronichazard": "Aquatic Chronic",
    "ozone": "Ozone",
    "edhh": "ED HH",
    "edenv": "ED ENV",
    "pbt": "PBT",
    "vpvb": "vPvB",
    "pmt": "PMT",
    "vpvm": "vPvM",
}


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
    return InputError(
        f"{shown(text)} is not read as a hazard class",
        "Write it as the sheet prints it, like Skin Irrit. 2, H315; one class a line",
        code="hazard-class",
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


def _class_part(text: str) -> tuple[str | None, str | None, str | None]:
    """Return family, category and route of what stands before the statement."""
    plain = flatten(text).replace("sensitiz", "sensitis").replace("oxidiz", "oxidis")
    plain = plain.strip(" ,;:.()[]-")
    if not plain:
        return None, None, None
    route = None
    met = re.search(_ROUTE, plain)
    if met is not None:
        route = _ROUTES[met[1]]
        plain = (plain[: met.start()] + " " + plain[met.end() :]).strip(" ,;:()-")
    found = re.match(_CATEGORY, plain)
    if found is None:
        raise _unread(text)
    key = re.sub(r"[^a-z]", "", found["family"])
    if key not in _ALIASES:
        raise _unread(text)
    category = found["category"]
    return _ALIASES[key], category.upper() if category else None, route


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


def _read(text: str) -> HazardClassText:
    codes = _codes(text)
    start = re.search(_CODE, text)
    front = text if start is None else text[: start.start()]
    if start is not None and re.search(r"\d", re.sub(_CODE, "", text[start.end() :])):
        raise _unread(text)  # a second class behind the first
    if len(codes) > 1:
        raise InputError(
            f"{shown(text)} holds more than one statement",
            "Write one class a line, each with its own statement",
            code="hazard-several",
        )
    family, category, route = _class_part(front)
    if family is None and not codes:
        raise _unread(text)
    if family is None and codes[0].startswith("EUH") and codes[0] not in _KNOWN:
        return HazardClassText(text, SUPPLEMENTAL, codes[0])
    if family == "Eye Irrit." and category == "2A":
        category = "2"  # the UN's name of the category of Union law
    names = [name for name in CLASSES if _fits(name, family, category, codes)]
    if not names:
        if any(_fits(name, family, category, ()) for name in CLASSES):
            raise InputError(
                f"class and statement of {shown(text)} do not fit each other",
                "Compare both with the sheet",
                code="hazard-mismatch",
            )
        raise _unread(text)
    if len(names) > 1:
        raise _which(text, names, set())
    return HazardClassText(text, names[0], _statement(text, names[0], codes, route))


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
        ``hazard-class``, ``hazard-mismatch`` or ``hazard-several``.

    Examples
    --------
    >>> read_hazard_class("Asp. Tox. 1 H304").name, read_hazard_class("H226").name
    ('Asp. Tox. 1', 'Flam. Liq. 3')
    """
    if re.fullmatch(_NOTHING, flatten(text).strip(" .")):
        return HazardClassText(text, NOT_CLASSIFIED)
    return _read(text)
