"""The label of a bottle that holds the neat blend, with the words for its hazards."""

from blendcheck.errors import InputError
from blendcheck.papers.content import Blank, Blanks, Lines, Paper, Part, Section
from blendcheck.papers.hazards import hazard_lines, hazards_of
from blendcheck.papers.ingredients import ingredient_list
from blendcheck.papers.kept import KeptCheck, claims, joined, say
from blendcheck.papers.label import dates, short_trace, whose
from blendcheck.papers.limits import open_line

__all__ = ["bottle"]


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
    found = hazards_of(kept, "neat blend")
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
        names = {"names": joined(found.classes.unclassified)}
        parts.append(Lines((say("label.not-classed", names),), tone="strong"))
    still_open = open_line(kept)
    if still_open:
        parts.append(Lines((still_open,), tone="strong"))
    line = Blank(say("heads.poison-line"), kept.workshop.poison_line)
    parts.append(Blanks((Blank(say("heads.amount")), *dates(kept).items)))
    parts += [whose(kept), Blanks((line,))]
    parts.append(Lines((short_trace(kept),), tone="soft"))
    title = say("heads.neat-blend", {"title": kept.title})
    told = [say("sheet.pictograms")] if found.cautious.pictograms else []
    if any("…" in one.wording for one in found.cautious.precautions):
        told.append(say("sheet.dots"))
    told += claims(kept)
    return kept.paper("bottle", title, (Section("", tuple(parts)),), tuple(told))
