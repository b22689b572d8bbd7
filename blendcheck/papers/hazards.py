"""The words for hazards on a label, from the classes of a mixture.

Signal word, pictograms by code and name, statements in the official words. The classes
that are only possible count too: a label would carry them as long as figures leave them
open. Pictograms are named, not drawn; they are stuck on.
"""

from blendcheck.estimates.classes.labels import LabelElements
from blendcheck.estimates.classes.recipes import Labelled, recipe_classes
from blendcheck.papers.content import Lines, Part
from blendcheck.papers.kept import KeptCheck, say

__all__ = ["hazard_lines", "hazards_of"]


def hazard_lines(label: LabelElements) -> tuple[Part, ...]:
    """Return the words for hazards on a label.

    Parameters
    ----------
    label : LabelElements
        The elements; nothing is returned for none.
    """
    if label.is_empty:
        return ()
    parts: list[Part] = []
    if label.signal_word:
        parts.append(Lines((label.signal_word,), tone="lead"))
    if label.pictograms:
        named = ", ".join(f"{one.code} ({one.text})" for one in label.pictograms)
        parts.append(Lines((say("label.pictograms", {"names": named}),), tone="soft"))
    if label.names:
        names = {"names": ", ".join(label.names)}
        parts.append(Lines((say("label.contains", names),)))
    hazards = tuple(_ended(one.wording) for one in label.hazards)
    if hazards:
        parts.append(Lines(hazards, form="run", tone="strong"))
    rest = (*label.supplemental, *label.precautions)
    if rest:
        said = tuple(_ended(one.wording) for one in rest)
        parts.append(Lines(said, form="run"))
    return tuple(parts)


def hazards_of(kept: KeptCheck, name: str) -> Labelled | None:
    """Return the classes of the neat blend or of the finished product.

    Parameters
    ----------
    kept : KeptCheck
        The snapshot.
    name : {"neat blend", "finished product"}
        Which mixture.
    """
    found = recipe_classes(kept.assessment.totals)
    return next((one for one in found if one.name == name), None)


def _ended(text: str) -> str:
    """Return a statement with a stop at its end; three dots are to be filled in."""
    return text if text.endswith((".", "…", "?")) else f"{text}."
