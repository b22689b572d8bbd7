"""The elements of a label: signal word, pictograms, statements, in the official words.

Pictograms follow the precedence of source id ``clp-article-26``: the skull leaves no
exclamation mark; corrosion leaves none for irritation of skin and eyes; the health
hazard pictogram for the airways leaves none for skin sensitisers and irritation. Danger
leaves out Warning (Article 20). Statements that are plainly said twice are left out
(Article 27; from memory which those are). At most six precautionary statements, one of
them on disposal, by source id ``clp-article-28``; which six is our own choice, see
:data:`CHOICE`.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from blendcheck import reference
from blendcheck.estimates.classes.model import Classes, Classified, Standing
from blendcheck.estimates.classes.severity import most_severe
from blendcheck.estimates.classes.wording import wording_of
from blendcheck.quantity import Mark
from blendcheck.quantity.cleaning import words

__all__ = [
    "CHOICE",
    "MOST_PRECAUTIONS",
    "PICTOGRAMS",
    "LabelElements",
    "Pictogram",
    "Statement",
    "label_of",
]

PICTOGRAMS: Final[Mapping[str, str]] = MappingProxyType(
    {
        "GHS02": "flame",
        "GHS05": "corrosion",
        "GHS06": "skull and crossbones",
        "GHS07": "exclamation mark",
        "GHS08": "health hazard",
        "GHS09": "environment",
    }
)
"""Names of the pictograms, as a text in their place."""

MOST_PRECAUTIONS: Final = 6

CHOICE: Final = words(
    "P102|P301+P310|P331|P301+P330+P331|P303+P361+P353|P305+P351+P338|P304+P340|"
    "P342+P311|P308+P311|P308+P313|P210|P310|P302+P352|P333+P313|P301+P312|P280|P260|"
    "P261|P273|P314|P312|P311|P337+P313|P332+P313|P405|P403+P235|P403+P233|P391|P271|"
    "P264|P270|P201|P202|P362+P364|P361+P364|P330|P363|P233|P262|P284|P370+P378|P272|"
    "P320|P321|P240|P241|P242|P243"
)
"""In which order precautionary statements are taken until six stand there: out of
reach of children first, then first aid, then fire, then the rest. Disposal is always
one of the six. A choice of ours, for a household; the law leaves it to the supplier."""

_DISPOSAL: Final = "P501"
_OUT_OF_REACH: Final = "P102"

_SAID_BY: Final[Mapping[str, tuple[str, ...]]] = MappingProxyType(
    {
        "H318": ("H314",),
        "H400": ("H410",),
        "P310": ("P301+P310",),
        "P312": ("P301+P310", "P310", "P301+P312"),
        "P301+P312": ("P301+P310",),
        "P302+P352": ("P303+P361+P353",),
        "P361+P364": ("P303+P361+P353",),
        "P362+P364": ("P303+P361+P353", "P361+P364"),
        "P363": ("P362+P364", "P361+P364"),
        "P261": ("P260",),
        "P331": ("P301+P330+P331",),
        "P330": ("P301+P330+P331",),
        "P233": ("P403+P233",),
        "P332+P313": ("P333+P313",),
        "P311": ("P342+P311", "P308+P311"),
    }
)
"""Statements that another one on the label says already."""

_IRRITATION: Final = frozenset({"Skin Irrit. 2", "Eye Irrit. 2"})
_ORDER: Final = {standing: n for n, standing in enumerate(Standing)}


@dataclass(frozen=True, slots=True)
class Pictogram:
    """A pictogram by its code, with the text that says the same."""

    code: str
    text: str


@dataclass(frozen=True, slots=True)
class Statement:
    """A statement by its code, in the official words.

    Parameters
    ----------
    code : str
        ``H315``, ``EUH208``, ``P301+P310``.
    wording : str
        The official wording with its choices made; see
        :mod:`~blendcheck.estimates.classes.wording`.
    for_class : str
        The hazard class that brings it.
    """

    code: str
    wording: str
    for_class: str = ""


@dataclass(frozen=True, slots=True)
class LabelElements:
    """What a label of a mixture would carry.

    Parameters
    ----------
    mixture : str
        ``"neat blend"`` or ``"finished product"``.
    standings : tuple of Standing
        Which classes it speaks of: the certain ones, or the possible ones too.
    signal_word : str
        ``"Danger"``, ``"Warning"`` or empty.
    pictograms : tuple of Pictogram
        After precedence.
    hazards, supplemental, precautions : tuple of Statement
        H, EUH and P statements.
    names : tuple of str
        Substances that the label names because they bring the classes.
    left_out : tuple of str
        What precedence took away, with the reason.
    not_chosen : tuple of str
        Codes of precautionary statements for which there was no room.
    without_elements : tuple of str
        Classes of which the tables have no label elements.
    sources : tuple of str
        Source ids.
    marks : frozenset of Mark
        Doubts; ``from memory`` if a table row was not read in the law.
    """

    mixture: str
    standings: tuple[Standing, ...]
    signal_word: str = ""
    pictograms: tuple[Pictogram, ...] = ()
    hazards: tuple[Statement, ...] = ()
    supplemental: tuple[Statement, ...] = ()
    precautions: tuple[Statement, ...] = ()
    names: tuple[str, ...] = ()
    left_out: tuple[str, ...] = ()
    not_chosen: tuple[str, ...] = ()
    without_elements: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()
    marks: frozenset[Mark] = frozenset()

    @property
    def is_empty(self) -> bool:
        """Whether nothing of it would stand on a label."""
        return not (self.hazards or self.supplemental)


def label_of(
    classes: Classes,
    *standings: Standing,
    public: bool = True,
) -> LabelElements:
    """Return the elements of a label for the classes of a mixture.

    Parameters
    ----------
    classes : Classes
        What was found.
    *standings : Standing
        Which classes count; by default those that are certain and those that are
        possible, the more severe one of each ladder.
    public : bool, default True
        Whether it is for the general public, and so carries P102.

    Returns
    -------
    LabelElements
        Elements in the official wording.
    """
    wanted = standings or (Standing.CERTAIN, Standing.POSSIBLE)
    chosen = tuple(most_severe(c for c in classes.classes if c.standing in wanted))
    rows = {c.hazard_class: reference.label_elements(c.hazard_class) for c in chosen}
    hazards = [c for c in chosen if c.statement.startswith("H")]
    if not chosen:
        return LabelElements(classes.mixture.name, wanted)
    said = {
        r.element for each in rows.values() for r in each if r.section == "signal word"
    }
    signal = "Danger" if "Danger" in said else "Warning" if said else ""
    pictograms, dropped = _pictograms(rows)
    statements, repeated = _hazard_statements(hazards)
    liquid = classes.mixture.liquid
    precautions, more, left = _precautions(
        rows, liquid, public=public and bool(hazards)
    )
    used = [row for each in rows.values() for row in each]
    doubts = frozenset().union(*(c.marks for c in chosen))
    if any(row.tag == "memory" for row in used):
        doubts |= {Mark.FROM_MEMORY}
    return LabelElements(
        classes.mixture.name,
        wanted,
        signal,
        pictograms,
        statements,
        tuple(_supplemental(chosen)),
        precautions,
        tuple(_names(hazards)),
        (*dropped, *repeated, *more),
        left,
        tuple(c.hazard_class for c in hazards if not rows[c.hazard_class]),
        tuple(dict.fromkeys(row.source_id for row in used)),
        doubts,
    )


# -- pictograms ------------------------------------------------------------

Rows = Mapping[str, Sequence[reference.LabelElement]]


def _pictograms(rows: Rows) -> tuple[tuple[Pictogram, ...], tuple[str, ...]]:
    """Apply Article 26."""
    by_code: dict[str, list[str]] = {}
    for hazard_class, each in rows.items():
        for row in each:
            if row.section == "pictogram":
                by_code.setdefault(row.element, []).append(hazard_class)
    dropped: list[str] = []
    mark = by_code.get("GHS07", [])
    airways = any(c.startswith("Resp. Sens.") for c in by_code.get("GHS08", ()))
    if mark and "GHS06" in by_code:
        mark = []
        dropped.append("GHS07: GHS06 stands there (Article 26)")
    if mark and "GHS05" in by_code and _IRRITATION & set(mark):
        mark = [c for c in mark if c not in _IRRITATION]
        dropped.append("GHS07 for skin or eye irritation: GHS05 stands there")
    if mark and airways:
        left = [c for c in mark if c not in _IRRITATION and "Skin Sens." not in c]
        if left != mark:
            dropped.append("GHS07 for skin: GHS08 for the airways stands there")
        mark = left
    by_code["GHS07"] = mark
    codes = sorted(code for code, classes in by_code.items() if classes)
    return (
        tuple(Pictogram(code, PICTOGRAMS.get(code, code)) for code in codes),
        tuple(dropped) if not mark or dropped else (),
    )


# -- statements ------------------------------------------------------------


_ROUTES: Final = (
    ("H300", "H310", "H330"),
    ("H301", "H311", "H331"),
    ("H302", "H312", "H332"),
)


def _combined(codes: Sequence[str]) -> list[str]:
    """Put statements on several routes into one, where the law has that one."""
    left = list(codes)
    for routes in _ROUTES:
        met = [code for code in routes if code in left]
        joined = "+".join(met)
        if len(met) > 1 and joined in reference.phrases():
            left[left.index(met[0])] = joined
            left = [code for code in left if code not in met]
    return left


def _hazard_statements(
    found: Sequence[Classified],
) -> tuple[tuple[Statement, ...], tuple[str, ...]]:
    classes = {one.statement: one.hazard_class for one in found}
    kept, dropped = _without_repeats(list(dict.fromkeys(classes)))
    statements = []
    for code in _combined(kept):
        first = code.partition("+")[0]
        statements.append(Statement(code, wording_of(code), classes[first]))
    return tuple(statements), dropped


def _without_repeats(codes: Sequence[str]) -> tuple[list[str], tuple[str, ...]]:
    present = set(codes)
    kept: list[str] = []
    dropped: list[str] = []
    for code in codes:
        said = [other for other in _SAID_BY.get(code, ()) if other in present]
        if said:
            dropped.append(f"{code}: {said[0]} says it")
        else:
            kept.append(code)
    return kept, tuple(dropped)


def _supplemental(chosen: Iterable[Classified]) -> Iterator[Statement]:
    """Write EUH statements; EUH208 leaves out what the class itself is named for."""
    found = tuple(chosen)
    named: dict[str, None] = {}
    classed = {
        name
        for one in found
        if one.statement in ("H317", "H334")
        for name in one.substances
    }
    for one in found:
        if one.statement == "EUH208":
            named |= dict.fromkeys(n for n in one.substances if n not in classed)
        elif one.statement.startswith("EUH"):
            wording = wording_of(one.statement)
            yield Statement(one.statement, wording, one.hazard_class)
    if named:
        whole = reference.phrases()["EUH208"].wording
        names = ", ".join(named)
        wording = whole.replace("<name of sensitising substance>", names)
        yield Statement("EUH208", wording, "EUH208")


def _names(found: Iterable[Classified]) -> Iterator[str]:
    """Name what brings the health classes of the label (Article 18(3)(b))."""
    seen: dict[str, None] = {}
    for one in found:
        if one.statement[:2] == "H3" and one.statement not in ("H315", "H319"):
            seen |= dict.fromkeys(one.substances)
    yield from seen


def _precautions(
    rows: Rows,
    liquid: bool | None,  # noqa: FBT001
    *,
    public: bool,
) -> tuple[tuple[Statement, ...], tuple[str, ...], tuple[str, ...]]:
    """Choose at most six, by :data:`CHOICE`; return what is left out too."""
    brought: dict[str, list[str]] = {}
    for hazard_class, each in rows.items():
        for row in each:
            if row.element.startswith("P"):
                brought.setdefault(row.element, []).append(hazard_class)
    codes = [*([_OUT_OF_REACH] if public else []), *brought]
    kept, dropped = _without_repeats(codes)
    rank = {code: n for n, code in enumerate(CHOICE)}
    ordered = sorted(
        (code for code in kept if code != _DISPOSAL),
        key=lambda code: (rank.get(code, len(rank)), code),
    )
    room = MOST_PRECAUTIONS - (_DISPOSAL in kept)
    chosen = ordered[:room] + ([_DISPOSAL] if _DISPOSAL in kept else [])
    made = (
        Statement(
            code,
            wording_of(code, liquid=liquid, classes=brought.get(code, ())),
            next(iter(brought.get(code, ())), ""),
        )
        for code in chosen
    )
    return tuple(made), dropped, tuple(ordered[room:])
