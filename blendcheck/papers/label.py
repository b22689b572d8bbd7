"""The label: what it is, what is in it, how much, from whom."""

from fractions import Fraction

from blendcheck.checks.declared import declaration
from blendcheck.papers.content import Blank, Blanks, Lines, Paper, Part, Section
from blendcheck.papers.hazards import hazard_lines, hazards_of
from blendcheck.papers.ingredients import IngredientList, ingredient_list
from blendcheck.papers.kept import KeptCheck, claims, joined, say
from blendcheck.papers.limits import open_line, refuse_without_reasons
from blendcheck.quantity import PrintedDate, exact_text, round_down_to
from blendcheck.units import GRAMS_PER

__all__ = ["dates", "label", "net_mass", "short_trace", "whose"]

_OUNCE_STEP = Fraction(1, 100)
_GRAM_STEP = Fraction(1, 100)
_TO_SAY = frozenset(
    {
        *("skin.not-shown", "skin.banned", "skin.no-place"),
        *("classes.regime", "classes.regime-not-for-skin"),
    }
)
"""What the checks of a label say that the maker must know before printing."""


def net_mass(kept: KeptCheck) -> str:
    """Return the net mass in grams and ounces, never more than is in it.

    Parameters
    ----------
    kept : KeptCheck
        The snapshot.

    Returns
    -------
    str
        Both rounded down, from the low end of what a piece weighs, times the pieces
        in a pack; blank where it is not known.
    """
    totals = kept.assessment.totals
    if totals.piece_mass is None:
        return ""
    low = totals.working.range(totals.piece_mass).low
    if low is None or low <= 0:
        return ""
    count = kept.words.pieces_in_pack or 1
    grams = round_down_to(low * count, _GRAM_STEP)
    ounces = round_down_to(low * count / GRAMS_PER["oz"], _OUNCE_STEP)
    each = f"{count} × {exact_text(round_down_to(low, _GRAM_STEP))} g = "
    start = each if count > 1 else ""
    return f"{start}{exact_text(grams)} g ({exact_text(ounces)} oz)"


def label(kept: KeptCheck) -> Paper:
    """Make the label.

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
        ``reason-missing`` if it is for anything but a gift, a limit is open, and
        the maker gives no reason for it.
    """
    refuse_without_reasons(kept)
    words = kept.words
    found = ingredient_list(kept.assessment.totals, small_last=words.small_last)
    parts: list[Part] = [
        Blanks((Blank(say("heads.net"), net_mass(kept)),)),
        Lines((say("label.made-of", {"names": _names(found)}),)),
        Lines((f"{say('label.card')} {say('card.children')}",), tone="strong"),
    ]
    parts[2:2] = _allergens(kept, found)
    if _may_be_a_mixture(kept):
        found_hazards = hazards_of(kept, "finished product")
        parts += hazard_lines(found_hazards.cautious) if found_hazards else ()
    still_open = open_line(kept)
    if still_open:
        parts.append(Lines((still_open,), tone="strong"))
    parts += [dates(kept), whose(kept)]
    parts.append(Lines((short_trace(kept),), tone="soft"))
    return kept.paper(
        "label", kept.title, (Section("", tuple(parts)),), _said(found, kept)
    )


def _may_be_a_mixture(kept: KeptCheck) -> bool:
    """Whether it may be for a room and not for the skin, so that CLP may apply."""
    recipe = kept.recipe
    return recipe.product == "room mist" or recipe.contact == "not for skin"


def short_trace(kept: KeptCheck) -> str:
    """Return hash and moment, as they stand on what is small.

    Parameters
    ----------
    kept : KeptCheck
        The snapshot.
    """
    at = kept.at.strftime("%Y-%m-%d %H:%M")
    return say("card.trace", {"hash": kept.assessment.hash, "at": at})


def dates(kept: KeptCheck) -> Blanks:
    """Return lot, day made and best before, or room to write them.

    Parameters
    ----------
    kept : KeptCheck
        The snapshot.
    """
    words = kept.words
    return Blanks(
        (
            Blank(say("heads.lot"), words.lot),
            Blank(say("heads.made-on"), _day(words.made_on)),
            Blank(say("heads.best-before"), _day(words.best_before)),
        )
    )


def whose(kept: KeptCheck) -> Blanks:
    """Return who made it, and where; one line if both are known.

    Parameters
    ----------
    kept : KeptCheck
        The snapshot.
    """
    words, workshop = kept.words, kept.workshop
    who = words.who or workshop.who or workshop.name
    where = words.where or workshop.where
    if who and where:
        return Blanks((Blank(say("heads.who"), f"{who}, {where}"),))
    return Blanks((Blank(say("heads.who"), who), Blank(say("heads.where"), where)))


def _allergens(kept: KeptCheck, found: IngredientList) -> list[Part]:
    """Return the allergens to name, and those of which it is open.

    One that stands in the list of ingredients under the same name is named there.
    """
    declared = declaration(kept.assessment.case)
    listed = {one.material.inci.casefold() for one in found.listed}
    lines = []
    for code, every in (
        ("label.allergens", declared.declare),
        ("label.may-hold", declared.undecided),
    ):
        names = [name for name in every if name.casefold() not in listed]
        if names:
            lines.append(say(code, {"names": joined(names)}))
    return [Lines(tuple(lines))] if lines else []


def _names(found: IngredientList) -> str:
    return ", ".join(one.name for one in found.listed)


def _day(date: PrintedDate | None) -> str:
    return "" if date is None else date.printed


def _said(found: IngredientList, kept: KeptCheck) -> tuple[str, ...]:
    """Say what the maker must know about the list that is printed."""
    told = (
        ("sheet.gone", found.gone),
        ("sheet.no-inci", found.without_inci),
        ("sheet.order-open", found.order_open),
    )
    said = [say(code, {"names": joined(names)}) for code, names in told if names]
    said += [
        say(f.why.code, f.why.values)
        for f in kept.assessment.findings
        if f.why.code in _TO_SAY
    ]
    if not any(f.check == "skin" for f in kept.assessment.findings):
        said.append(say("sheet.no-allergens"))
    return (*said, *claims(kept))
