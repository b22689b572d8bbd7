"""Limits that are not shown to be kept: on every sheet of the maker, and in short."""

from collections.abc import Sequence

from blendcheck.errors import InputError
from blendcheck.papers.content import Lines, Part, Section
from blendcheck.papers.kept import KeptCheck, say
from blendcheck.records.finding import Finding

__all__ = [
    "finding_lines",
    "head_of",
    "open_line",
    "open_section",
    "outcome_word",
    "reason_for",
    "refuse_without_reasons",
]

_WORDS_ON_CARD = 4
"""Words of subjects that the line of a card names before it counts the rest."""

_ABOUT_THE_KITCHEN = ("fire", "packing")
"""Checks of the work, which a card names after those of the piece."""


def outcome_word(finding: Finding) -> str:
    """Return the outcome of a limit in words.

    Parameters
    ----------
    finding : Finding
        A limit.
    """
    if finding.outcome is None:
        return say("outcome.none")
    return say(f"outcome.{finding.outcome}")


def head_of(finding: Finding) -> str:
    """Return outcome, subject and limit in one sentence.

    Parameters
    ----------
    finding : Finding
        A limit.
    """
    word = outcome_word(finding)
    values = {
        "outcome": word[:1].upper() + word[1:],
        "subject": finding.subject,
        "limit": finding.limit,
    }
    return say("sheet.limit" if finding.limit else "sheet.limit-plain", values)


def finding_lines(finding: Finding) -> tuple[str, ...]:
    """Return what a finding says, and where it turns; not what to ask.

    Parameters
    ----------
    finding : Finding
        Any finding.
    """
    says = [finding.why, *finding.also]
    if finding.turns_at is not None:
        says.append(finding.turns_at)
    return tuple(say(one.code, one.values) for one in says)


def open_section(kept: KeptCheck) -> Section:
    """Return the limits that stand on a sheet and cannot be left off.

    Parameters
    ----------
    kept : KeptCheck
        The snapshot.

    Returns
    -------
    Section
        One sentence if all are within; else each with its first reason.
    """
    title = say("heads.limits")
    if not kept.counting:
        return Section(title, (Lines((say("sheet.limits-none"),), tone="strong"),))
    if not kept.open:
        count = {"count": str(len(kept.counting))}
        return Section(title, (Lines((say("sheet.limits-within", count),)),))
    rows = tuple(f"{head_of(f)} {say(f.why.code, f.why.values)}" for f in kept.open)
    parts: tuple[Part, ...] = (
        Lines((say("sheet.limits-open"),), tone="strong"),
        Lines(rows, form="list"),
    )
    return Section(title, parts)


def open_line(kept: KeptCheck) -> str:
    """Return the line of a card or a label on what is not shown; blank for nothing.

    Parameters
    ----------
    kept : KeptCheck
        The snapshot.

    Returns
    -------
    str
        The subjects of the open limits, those of the piece before those of the
        work, and how many more there are.
    """
    if not kept.counting:
        return say("card.open", {"subjects": say("heads.no-limit")})
    ordered = sorted(kept.open, key=lambda f: f.check in _ABOUT_THE_KITCHEN)
    subjects = list(dict.fromkeys(f.subject for f in ordered))
    if not subjects:
        return ""
    shown = subjects[:1]
    for subject in subjects[1:]:
        if len(" ".join((*shown, subject)).split()) > _WORDS_ON_CARD:
            break
        shown.append(subject)
    more = len(subjects) - len(shown)
    values = {"subjects": ", ".join(shown), "count": str(more)}
    return say("card.open-more" if more > 0 else "card.open", values)


def reason_for(finding: Finding, kept: KeptCheck) -> str:
    """Return the maker's reason for a limit that is open; blank for none.

    Parameters
    ----------
    finding : Finding
        The limit.
    kept : KeptCheck
        The snapshot.
    """
    subject = finding.subject.casefold()
    return next(
        (r.says for r in kept.words.reason if r.about.casefold() == subject), ""
    )


def _without_reason(kept: KeptCheck) -> Sequence[str]:
    return list(dict.fromkeys(f.subject for f in kept.open if not reason_for(f, kept)))


def refuse_without_reasons(kept: KeptCheck) -> None:
    """Refuse a label for goods that are given out while a cause has no reason.

    Parameters
    ----------
    kept : KeptCheck
        The snapshot. A label for a gift is never refused here.

    Raises
    ------
    InputError
        ``reason-missing``, naming every cause.
    """
    missing = _without_reason(kept)
    if kept.recipe.channel == "gift":
        return
    if not kept.counting:
        missing = [say("heads.no-limit")]
    if not missing:
        return
    raise InputError(
        "the label is not made, because limits are not shown to be kept and no reason "
        f"is given for: {', '.join(missing)}",
        "Write one [[papers.reason]] for each in the recipe, with about and says; it "
        'is printed on the safety note. A gift has channel = "gift"',
        code="reason-missing",
    )
