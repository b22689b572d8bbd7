"""What keeps hazard classes open, and what to ask of whom."""

from collections.abc import Iterator, Mapping
from typing import Final

from blendcheck.checks.case import Case
from blendcheck.checks.entries import used
from blendcheck.estimates.classes import WITHOUT_SUM, Classified, Standing
from blendcheck.estimates.classes.recipes import Labelled, lacking
from blendcheck.quantity import Mark
from blendcheck.quantity.hazards import SUPPLEMENTAL
from blendcheck.records.finding import Finding, Say

__all__ = ["cannot_be_ruled_out", "not_carried", "sheets_lack"]

_CHECK = "classes"
_PLAIN: Final[Mapping[str, str]] = {
    "Flam. Liq.": "it may catch fire",
    "Acute Tox.": "poison",
    "Skin Corr.": "harm to the skin",
    "Skin Irrit.": "harm to the skin",
    "Eye Dam.": "harm to the eyes",
    "Eye Irrit.": "harm to the eyes",
    "Resp. Sens.": "allergy",
    "Skin Sens.": "allergy",
    "Muta.": "harm to genes",
    "Carc.": "cancer",
    "Repr.": "harm to unborn children or to milk",
    "Lact.": "harm to unborn children or to milk",
    "STOT SE": "harm to organs or airways",
    "STOT RE": "harm to organs or airways",
    "ED HH": "harm to hormones",
    "Asp. Tox.": "harm to the lungs if swallowed",
    "Aquatic Acute": "harm to life in water",
    "Aquatic Chronic": "harm to life in water",
}
"""What a class is about, where naming every class would be a list of thirty."""


def cannot_be_ruled_out(one: Labelled, asked: set[str]) -> Iterator[Finding]:
    """Say once for each mixture what cannot be ruled out; ask once for each paper.

    Parameters
    ----------
    one : Labelled
        A mixture with its classes.
    asked : set of str
        What was asked for already; what is asked here is added.

    Yields
    ------
    Finding
        By its cause: a class that is not entered, an M-factor, a limit that is not in
        the tables.
    """
    left = [c for c in one.classes.classes if c.standing is Standing.OPEN]
    unknown = [c for c in left if set(c.because) & set(one.classes.unclassified)]
    rest = [c for c in left if c not in unknown]
    lasting = [c for c in rest if not c.hazard_class.startswith("Aquatic")]
    factors = [c for c in rest if c not in lasting]
    groups = (
        (unknown, "classes.open", "classes.ask-sheet"),
        (factors, "classes.open-factor", "classes.ask-factor"),
        (lasting, "classes.open-no-limit", ""),
    )
    for found, code, question in groups:
        if not found:
            continue
        names = dict.fromkeys(name for c in found for name in c.because)
        if found is unknown:
            names = {n: None for n in names if n in one.classes.unclassified}
        ask = [name for name in names if question and name not in asked]
        asked.update(ask)
        values = {
            "mixture": one.name,
            "hazards": ", ".join(dict.fromkeys(_said(c, code) for c in found)),
            "materials": "; ".join(names),
        }
        yield Finding(
            kind="caution",
            check=_CHECK,
            subject=one.name,
            why=Say(code, values),
            ask=tuple(Say(question, {"material": name}) for name in ask),
            marks=frozenset({Mark.ABSENCE}),
            severity=4,
        )


def _said(found: Classified, code: str) -> str:
    name = found.hazard_class
    if code != "classes.open":
        return name
    return next((s for start, s in _PLAIN.items() if name.startswith(start)), name)


def not_carried(case: Case) -> Iterator[Finding]:
    """Name classes and EUH statements of sheets for which there is no sum here.

    Parameters
    ----------
    case : Case
        The case.

    Yields
    ------
    Finding
        One for each material and class.
    """
    seen: dict[tuple[str, str], str] = {}
    for material in used(case.totals).values():
        for paper in material.hazard:
            for one in paper.classes:
                if one.name == SUPPLEMENTAL or one.name in WITHOUT_SUM:
                    said = " ".join((one.name, one.statement))
                    if one.name == SUPPLEMENTAL:
                        said = one.statement
                    seen.setdefault((material.name, said), one.statement)
    for (name, said), code in seen.items():
        values = {"material": name, "hazard": said}
        yield Finding(
            kind="caution",
            check=_CHECK,
            subject=f"{name}: {code}",
            why=Say("classes.not-carried", values),
            ask=(Say("classes.ask-not-carried", values),),
            severity=5,
        )


def sheets_lack(case: Case) -> Iterator[Finding]:
    """Ask about classes that others give a material and that its sheet does not have.

    Parameters
    ----------
    case : Case
        The case.

    Yields
    ------
    Finding
        One for each material and class.
    """
    for one in lacking(case.totals):
        values = {
            "material": one.material,
            "code": one.statement,
            "hazard": one.hazard_class,
            "components": "; ".join(one.because),
        }
        same = one.because == (one.material,)
        code = "classes.sheet-lacks-oil" if same else "classes.sheet-lacks"
        yield Finding(
            kind="caution",
            check=_CHECK,
            subject=one.material,
            why=Say(code, values),
            also=(Say("classes.from-memory"),) if one.from_memory else (),
            ask=(Say("classes.ask-lacking", values),),
            source=", ".join(one.sources),
            marks=frozenset({Mark.FROM_MEMORY}) if one.from_memory else frozenset(),
            severity=4,
        )
