"""Limits that are not shown to be kept: on every sheet of the maker, and in short."""

from collections.abc import Iterable

from blendcheck.errors import InputError
from blendcheck.papers.content import Lines, Part, Section, tidy
from blendcheck.papers.kept import KeptCheck, joined, say
from blendcheck.records.finding import Finding, Outcome

__all__ = [
    "finding_lines",
    "head_of",
    "open_causes",
    "open_line",
    "open_section",
    "outcome_word",
    "reason_for",
    "refuse_without_reasons",
]

_WORDS_ON_CARD = 4
"""Words of subjects that the line of a card names before it counts the rest."""

_SIGNS_ON_CARD = 60
"""Signs of one subject that stand there; the whole of it is on sheet and note."""

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
    subjects = list(dict.fromkeys(_short(f.subject) for f in ordered))
    if not subjects:
        return ""
    shown = subjects[:1]
    for subject in subjects[1:]:
        if len(" ".join((*shown, subject)).split()) > _WORDS_ON_CARD:
            break
        shown.append(subject)
    more = len(subjects) - len(shown)
    values = {"subjects": joined(shown), "count": str(more)}
    return say("card.open-more" if more > 0 else "card.open", values)


def _short(subject: str) -> str:
    """Return a subject that fits a card whatever the maker calls it."""
    said = tidy(subject)
    if len(said) <= _SIGNS_ON_CARD:
        return said
    return f"{said[: _SIGNS_ON_CARD - 1].rstrip()}…"


def open_causes(findings: Iterable[Finding]) -> tuple[str, ...]:
    """Return what a label for sale must give a reason for, each once.

    Parameters
    ----------
    findings : iterable of Finding
        The findings of a check.

    Returns
    -------
    tuple of str
        Subjects of the limits that count and are not shown to be kept; that no limit
        counts is a cause too.
    """
    counting = [f for f in findings if f.kind == "limit" and f.counts]
    if not counting:
        return (say("heads.no-limit"),)
    is_open = (f.subject for f in counting if f.outcome is not Outcome.WITHIN)
    return tuple(dict.fromkeys(is_open))


def reason_for(cause: str, kept: KeptCheck) -> str:
    """Return the maker's reason for what is open; blank for none.

    Parameters
    ----------
    cause : str
        The subject of a limit.
    kept : KeptCheck
        The snapshot.
    """
    about = tidy(cause).casefold()
    given = kept.words.reason
    return next((r.says for r in given if tidy(r.about).casefold() == about), "")


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
    if kept.recipe.channel == "gift":
        return
    causes = open_causes(kept.assessment.findings)
    missing = [one for one in causes if not reason_for(one, kept)]
    if not missing:
        return
    raise InputError(
        "the label is not made, because limits are not shown to be kept and no reason "
        f"is given for: {joined(missing)}",
        "Write one [[papers.reason]] for each in the recipe, with about and says; it "
        'is printed on the safety note. A gift has channel = "gift"',
        code="reason-missing",
    )
