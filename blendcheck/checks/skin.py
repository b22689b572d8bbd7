"""What is said of fragrance allergens: facts with their figure, and what to ask."""

from collections.abc import Iterator
from fractions import Fraction

from blendcheck import reference
from blendcheck.blend.turning import turning_figures
from blendcheck.checks.case import Case
from blendcheck.checks.declared import (
    Contact,
    Declaration,
    Listed,
    Verdict,
    declaration,
    is_on_older_list,
    listed,
    lists_in_force,
)
from blendcheck.checks.listed import names_not_placed
from blendcheck.checks.oil_entries import (
    is_oil_entry,
    oils_not_placed,
    plants_taken_as_plain,
)
from blendcheck.checks.subjects import proposals_for
from blendcheck.quantity import Base, Mark, exact_text, print_number, print_range
from blendcheck.records.finding import Finding, Say

__all__ = ["check"]

_CHECK = "skin"

_CODES: dict[Verdict, str] = {
    "declare": "skin.declare",
    "below": "skin.below",
    "undecided": "skin.undecided",
}

_IN_TEXT = {"EU": "the EU", "United States": "the United States"}
"""Places that take an article."""


def check(case: Case) -> Iterator[Finding]:
    """State which fragrance allergens must be named.

    Parameters
    ----------
    case : Case
        The case.

    Yields
    ------
    Finding
        Facts, and a caution for a substance that is prohibited by now. None has an
        outcome.
    """
    every = listed(case)
    named = [one for one in every if one.named or one.on(_contact(case)) == "declare"]
    made = declaration(case, every)
    yield _place(case, made)
    yield from _about_contact(case)
    for one in named:
        if one.entry.prohibited:
            yield _banned(one, case)
        else:
            yield _finding(one, case, is_asked=_is_asked(one, made))
    yield from _not_shown([one for one in every if one not in named], case)
    loose = oils_not_placed(case)
    if loose:
        values = {"materials": ", ".join(loose)}
        ask = (Say("skin.ask-inci", values),)
        yield _fact("oils", Say("skin.oil-not-placed", values), ask=ask)
    plants = plants_taken_as_plain(case)
    if plants:
        values = {"materials": ", ".join(plants)}
        ask = (Say("skin.ask-statement", values),)
        yield _fact("plants", Say("skin.plant-taken-as-plain", values), ask=ask)
    lines = names_not_placed(case)
    if lines:
        values = {"names": ", ".join(dict.fromkeys(lines.values()))}
        ask = (Say("skin.ask-number", values),)
        yield _fact("lines", Say("skin.line-not-placed", values), ask=ask)
    if not named:
        yield _fact("allergens", Say("skin.none-named"))


def _fact(
    subject: str,
    why: Say,
    *,
    also: tuple[Say, ...] = (),
    ask: tuple[Say, ...] = (),
    source: str = "eu-annex-iii",
    memory: bool = False,
) -> Finding:
    return Finding(
        kind="fact",
        check=_CHECK,
        subject=subject,
        why=why,
        also=also,
        ask=ask,
        source=source,
        marks=frozenset({Mark.FROM_MEMORY}) if memory else frozenset(),
    )


def _contact(case: Case) -> Contact | None:
    contact = case.recipe.contact
    return None if contact == "not for skin" else contact


# -- which list, which product ---------------------------------------------


def _is_asked(one: Listed, made: Declaration) -> bool:
    """Whether the place asks for the name; where none is chosen, each may."""
    if made.place is None:
        return True
    return made.asked and (made.names == "81 entries" or is_on_older_list(one.entry))


def _place(case: Case, made: Declaration) -> Finding:
    """Say which list holds where, with its dates."""
    place = made.place
    rows = lists_in_force(case) if place is None else reference.allergen_lists(place)
    memory = any(row.tag == "memory" for row in rows)
    said = [
        Say("skin.list", {"place": row.place, "says": row.says})
        for row in rows
        if row.tag != "memory"
    ]
    said += [
        Say(
            "skin.list-recalled",
            {"place": row.place, "says": row.says, "instead": row.fallback},
        )
        for row in rows
        if row.tag == "memory"
    ]
    source = ", ".join(dict.fromkeys(row.source_id for row in rows))
    if place is None:
        return _fact(
            "which list",
            Say("skin.no-place"),
            also=tuple(said),
            ask=(Say("skin.ask-place"),),
            source=source,
            memory=memory,
        )
    values = {
        "place": _IN_TEXT.get(place, place),
        "on": case.on.isoformat(),
        "names": made.names,
    }
    why = Say("skin.place" if made.asked else "skin.place-no-list", values)
    return _fact("which list", why, also=tuple(said), source=source, memory=memory)


def _about_contact(case: Case) -> Iterator[Finding]:
    if case.recipe.contact == "not for skin":
        yield _fact("skin", Say("skin.not-for-skin"))
    elif case.recipe.contact is None:
        values = {"product": case.recipe.product}
        ask = (Say("skin.ask-contact", values),)
        yield _fact("skin", Say("skin.no-contact", values), ask=ask)


# -- one entry -------------------------------------------------------------


def _limit(one: Listed, contact: Contact) -> Fraction:
    found = one.entry.leave_on if contact == "leave-on" else one.entry.rinse_off
    return Fraction(0) if found is None else found


def _deciding(one: Listed, case: Case) -> Contact:
    """Return the kind of product whose threshold is shown."""
    contact = _contact(case)
    if contact is not None:
        return contact
    # declared on both if above the higher, and below both if below the lower
    return "rinse-off" if one.on(None) == "declare" else "leave-on"


def _finding(one: Listed, case: Case, *, is_asked: bool) -> Finding:
    found, total = one.on(_contact(case)), one.total
    contact = _deciding(one, case)
    threshold = _limit(one, contact)
    span = case.working.range(total.span)
    values = {
        "name": one.entry.label_name,
        "percent": print_range(span, "%", cap=threshold),
        "threshold": f"{exact_text(threshold)} %",
        "contact": contact,
    }
    code = _CODES[found]
    if _contact(case) is None and one.leave_on != one.rinse_off:
        code = "skin.depends"
    place = case.materials.workshop.place
    if found != "below" and not is_asked and place is not None:
        code = "skin.not-asked"
        values["place"] = _IN_TEXT.get(place, place)
    also = [Say("skin.older")] if is_on_older_list(one.entry) else []
    several = _counted(one, case)
    if len(several) > 1:
        also.append(Say("skin.added-up", {"names": ", ".join(several)}))
    if is_oil_entry(one.entry):
        also.append(Say("skin.oil-and-parts"))
    also += _doubts(one, case, threshold)
    marks = case.working.marks(total.span)
    return Finding(
        kind="fact",
        check=_CHECK,
        subject=one.entry.label_name,
        why=Say(code, values),
        value=total.span,
        limit=f"{values['threshold']} ({contact}, entry {one.entry.entry})",
        unit="%",
        base=Base.FINISHED,
        also=tuple(also),
        turns_at=_turns(one, case, contact) if found == "undecided" else None,
        ask=_ask(one, case, contact) if found == "undecided" else (),
        source="eu-annex-iii",
        marks=marks | ({Mark.FROM_MEMORY} if len(several) > 1 else set()),
        severity=4 if found == "undecided" else 5,
    )


def _doubts(one: Listed, case: Case, threshold: Fraction) -> Iterator[Say]:
    """Say that a figure is not the lot's own, or no percent by weight and close."""
    working, total = case.working, one.total
    low, high = working.range(total.documented).low, working.range(total.most).high
    if Mark.PUBLISHED_NOT_LOT in working.marks(total.documented):
        yield Say("skin.published")
    near = [end for end in (low, high) if end and abs(end - threshold) * 10 < end]
    if near and Mark.AREA_PERCENT in working.marks(total.most):
        yield Say("skin.area")


def _counted(one: Listed, case: Case) -> tuple[str, ...]:
    """Names of what is added up in an entry, as the papers print them."""
    components = case.totals.components
    present = sorted(one.total.subject.members & components.keys())
    return tuple(dict.fromkeys(components[identity] for identity in present))


def _turns(one: Listed, case: Case, contact: Contact) -> Say | None:
    for turning in turning_figures(case.totals, one.total, _limit(one, contact)):
        if turning.turn is not None and turning.traced is not None:
            return Say(
                "skin.turns",
                {
                    "name": one.entry.label_name,
                    "material": turning.traced.node.says,
                    "turn": print_number(turning.turn, rounding="down") + " %",
                },
            )
    return None


def _ask(one: Listed, case: Case, contact: Contact) -> tuple[Say, ...]:
    name, loose = one.entry.label_name, names_not_placed(case)
    asks = [
        Say("ask.confirm", {"name": text, "identity": identity, "subject": name})
        for text, identity in proposals_for(one.total.subject, case.totals)
        if not identity.startswith("material:") and identity not in loose
    ]
    asks += [
        Say("skin.ask-entry", {"material": case.materials.get(text).name, "name": name})
        for text in sorted(
            identity.removeprefix("material:")
            for identity in one.total.subject.proposed
            if identity.startswith("material:")
        )
    ]
    if _contact(case) is None and one.leave_on != one.rinse_off:
        asks.append(Say("skin.ask-contact", {"product": case.recipe.product}))
    for turning in turning_figures(case.totals, one.total, _limit(one, contact)):
        if turning.traced is not None:
            values = {"subject": name, "material": turning.traced.node.says}
            asks.append(Say("ask.share", values))
    return tuple(say for n, say in enumerate(asks) if say not in asks[:n])


# -- prohibited, and not shown ---------------------------------------------


def _banned(one: Listed, case: Case) -> Finding:
    """Say that one of the older names is prohibited, and is or may be there."""
    sure = one.leave_on == "declare"
    values = {
        "name": one.entry.label_name,
        "percent": print_range(case.working.range(one.total.span), "%"),
        "entry": one.entry.entry,
    }
    return Finding(
        kind="caution",
        check=_CHECK,
        subject=one.entry.label_name,
        why=Say("skin.banned" if sure else "skin.may-be-banned", values),
        value=one.total.span,
        unit="%",
        base=Base.FINISHED,
        ask=(Say("skin.ask-banned", values),),
        source="eu-annex-iii",
        marks=case.working.marks(one.total.span),
        severity=1,
    )


def _not_shown(rest: list[Listed], case: Case) -> Iterator[Finding]:
    """Say which names no paper shows and none rules out, together."""
    contact = _contact(case)
    loose = [
        one
        for one in rest
        if (one.leave_on if one.entry.prohibited else one.on(contact)) != "below"
    ]
    if not loose:
        yield _fact("other names", Say("skin.ruled-out", {"count": str(len(rest))}))
        return
    materials = dict.fromkeys(
        traced.node.says for one in loose for traced in one.total.traced
    )
    older = sum(is_on_older_list(one.entry) for one in loose)
    values = {
        "count": str(len(loose)),
        "older": str(older),
        "materials": ", ".join(materials),
    }
    yield _fact(
        "other names",
        Say("skin.not-shown", values),
        also=(
            Say(
                "skin.these",
                {"names": ", ".join(one.entry.label_name for one in loose)},
            ),
        ),
        ask=(Say("skin.ask-statement", {"materials": values["materials"]}),),
    )
