"""The label of a bottle that holds the neat blend, with the words for its hazards.

Signal word, pictograms by code and name, statements in the official words. The classes
that are only possible count too: a label would carry them as long as figures leave them
open. Pictograms are named, not drawn; they are stuck on.
"""

from blendcheck.errors import InputError
from blendcheck.estimates.classes.labels import LabelElements
from blendcheck.estimates.classes.recipes import Labelled, recipe_classes
from blendcheck.papers.content import Blank, Blanks, Lines, Paper, Part, Section
from blendcheck.papers.ingredients import ingredient_list
from blendcheck.papers.kept import KeptCheck, say
from blendcheck.papers.label import dates, short_trace, whose
from blendcheck.papers.limits import open_line

__all__ = ["bottle", "hazard_lines"]

_NEAT, _FINISHED = "neat blend", "finished product"


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
    hazards = tuple(f"{one.wording.rstrip('.')}." for one in label.hazards)
    if hazards:
        parts.append(Lines(hazards, form="run", tone="strong"))
    rest = (*label.supplemental, *label.precautions)
    if rest:
        said = tuple(f"{one.wording.rstrip('.')}." for one in rest)
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


def bottle(kept: KeptCheck) -> Paper:
    """Make the label of a bottle of the neat blend.

    Parameters
    ----------
    kept : KeptCheck
        The snapshot.

    Returns
    -------
    Paper
        The label.

    Raises
    ------
    InputError
        ``no-blend`` if nothing scented goes in.
    """
    found = hazards_of(kept, _NEAT)
    if found is None:
        raise InputError(
            "nothing scented goes in, so there is no neat blend to put in a bottle",
            "Take another paper",
            code="no-blend",
        )
    oils = [
        one.name
        for one in ingredient_list(kept.assessment.totals).listed
        if one.material.is_scented
    ]
    parts: list[Part] = [
        Lines((say("label.neat"),), tone="strong"),
        *hazard_lines(found.cautious),
        Lines((say("label.made-of", {"names": ", ".join(oils)}),)),
    ]
    if found.classes.unclassified:
        names = {"names": ", ".join(found.classes.unclassified)}
        parts.append(Lines((say("label.not-classed", names),), tone="strong"))
    still_open = open_line(kept)
    if still_open:
        parts.append(Lines((still_open,), tone="strong"))
    line = Blank(say("heads.poison-line"), kept.workshop.poison_line)
    parts += [Blanks((Blank(say("heads.amount")),)), dates(kept), whose(kept)]
    parts += [Blanks((line,)), Lines((short_trace(kept),), tone="soft")]
    title = say("heads.neat-blend", {"title": kept.title})
    told = [say("sheet.pictograms")] if found.cautious.pictograms else []
    return kept.paper("bottle", title, (Section("", tuple(parts)),), tuple(told))
