"""Why a cap came out as it did, where it turns, and what to ask."""

from collections.abc import Sequence
from fractions import Fraction
from typing import Literal

from blendcheck.blend.totals import SubjectTotal
from blendcheck.blend.turning import Turning
from blendcheck.checks.case import Case
from blendcheck.checks.judge import cap_percent
from blendcheck.checks.subjects import proposals_for
from blendcheck.quantity import (
    CapText,
    Mark,
    NoRestriction,
    NotAdded,
    NotApplicable,
    NotPermitted,
    print_bound,
    print_number,
)
from blendcheck.records.finding import Outcome, Say
from blendcheck.records.material import CapEntry

__all__ = ["ask", "beside", "turn_say", "why"]


def _shown(value: Fraction | None, cap: Fraction) -> str:
    return "?" if value is None else print_bound(value, cap) + " %"


def why(
    entry: CapEntry,
    total: SubjectTotal,
    case: Case,
    outcome: Outcome | None,
    *,
    old: bool,
) -> Say:
    """Say why a cap came out as it did.

    Parameters
    ----------
    entry : CapEntry
        The cap.
    total : SubjectTotal
        What is compared with it.
    case : Case
        The case.
    outcome : Outcome or None
        How it came out.
    old : bool
        Whether the cap is of an edition no longer in force.
    """
    cap = entry.cap
    percent = cap_percent(cap)
    subject = total.subject.name
    if percent is None:
        return _why_no_number(entry, cap, subject, old=old)
    working = case.working
    documented, most = working.range(total.documented), working.range(total.most)
    strict = working.range(total.strict)
    values = {
        "subject": subject,
        "cap": print_number(percent) + " %",
        "low": _shown(documented.low, percent),
        "documented": _shown(documented.high, percent),
        "high": _shown(most.high, percent),
        "edition": entry.edition or entry.scheme,
        "category": entry.category or "-",
    }
    if isinstance(cap, NotAdded):
        code = _why_added(total, case, percent, outcome, old=old)
        if code is not None:
            return Say(code, values)
    if isinstance(cap, NotPermitted) and outcome is Outcome.OVER:
        return Say("caps.not-permitted", values)
    if outcome is Outcome.OVER:
        return Say("caps.over", values)
    if outcome is Outcome.STRADDLES:
        both = most.high != documented.high
        return Say("caps.straddles-and-absence" if both else "caps.straddles", values)
    if outcome is Outcome.WITHIN:
        margin = percent - (most.high or percent)
        values["margin"] = print_number(margin) + " %"
        return Say("caps.within", values)
    return Say(
        _why_unknown(total, case, percent, old=old),
        values | {"strict": _shown(strict.high, percent)},
    )


def _why_added(
    total: SubjectTotal,
    case: Case,
    percent: Fraction,
    outcome: Outcome | None,
    *,
    old: bool,
) -> str | None:
    """Say that it goes in as itself, where that decides and not the figure."""
    working = case.working
    if outcome is Outcome.OVER:
        by_figure = working.range(total.documented).against(percent) == "above"
        return None if by_figure else "caps.added"
    if outcome is Outcome.WITHIN or old:
        return None
    by_figure = working.range(total.strict).against(percent) != "at or below"
    doubtful = Mark.PUBLISHED_NOT_LOT in working.marks(total.strict)
    return None if by_figure or doubtful else "caps.may-be-added"


def _why_unknown(
    total: SubjectTotal, case: Case, percent: Fraction, *, old: bool
) -> str:
    working = case.working
    strict, most = working.range(total.strict), working.range(total.most)
    if strict.against(percent) == "at or below":
        return "caps.old-edition" if old else "caps.published-density"
    if most.against(percent) == "at or below":
        return "caps.published"
    if Mark.UNCONFIRMED in working.marks(total.most):
        return "caps.unconfirmed"
    return "caps.absence"


def _why_no_number(entry: CapEntry, cap: CapText, subject: str, *, old: bool) -> Say:
    values = {
        "subject": subject,
        "category": entry.category or "-",
        "edition": entry.edition or entry.scheme,
        "printed": cap.printed or "blank",
    }
    if isinstance(cap, NoRestriction):
        return Say("caps.old-no-restriction" if old else "caps.no-restriction", values)
    if isinstance(cap, NotApplicable):
        code = "caps.not-applicable" if cap.footnote else "caps.no-footnote"
        return Say(code, values | {"footnote": cap.footnote})
    return Say("caps.missing", values)


def beside(
    total: SubjectTotal, percent: Fraction | None, case: Case
) -> tuple[Say, ...]:
    """Say that an area percent may be off by as much as a small margin."""
    working = case.working
    if percent is None:
        return ()
    subject = {"subject": total.subject.name}
    said: list[Say] = []
    over = working.range(total.documented).against(percent) == "above"
    decides = working.range(total.documented).low if over else None
    if decides is None:
        decides = working.range(total.most).high
    close = decides is not None and abs(percent - decides) * 10 < decides
    if close and Mark.AREA_PERCENT in working.marks(total.most):
        said.append(Say("caps.area", subject))
    if over and Mark.PUBLISHED_NOT_LOT in working.marks(total.documented):
        said.append(Say("caps.published-over", subject))
    return tuple(said)


def turn_say(turning: Sequence[Turning], total: SubjectTotal, case: Case) -> Say | None:
    """Say which one figure would settle it, and where it turns.

    Parameters
    ----------
    turning : sequence of Turning
        Figures that could settle it, the most telling first.
    total : SubjectTotal
        What is compared.
    case : Case
        The case.
    """
    first = next((t for t in turning if t.turn is not None), None)
    if first is None or first.turn is None:
        return None
    if first.traced is not None:
        return Say(
            "caps.turns",
            {
                "subject": total.subject.name,
                "material": first.traced.node.says,
                "turn": print_number(first.turn, rounding="down") + " %",
            },
        )
    return Say(
        "caps.turns-at-least" if first.at_least else "caps.turns-at-most",
        {"what": _unknown_name(first, case), "turn": _unknown_turn(first, case)},
    )


def _unknown_name(turning: Turning, case: Case) -> str:
    key = turning.key
    if key is None:
        return ""
    figure = case.working.figures.get(key)
    return figure.says if figure is not None else case.working.steps[key].says  # type: ignore[index]


def _unknown_turn(turning: Turning, case: Case) -> str:
    key = turning.key
    if key is None or turning.turn is None:
        return ""
    figure = case.working.figures.get(key)
    unit = figure.unit if figure is not None else case.working.steps[key].unit  # type: ignore[index]
    rounding: Literal["up", "down"] = "up" if turning.at_least else "down"
    return f"{print_number(turning.turn, rounding=rounding)} {unit}".strip()


def _is_free(entry: CapEntry) -> bool:
    return isinstance(entry.cap, NoRestriction)


def ask(
    entry: CapEntry,
    turning: Sequence[Turning],
    total: SubjectTotal,
    case: Case,
    outcome: Outcome | None,
    *,
    old: bool,
) -> tuple[Say, ...]:
    """Return what to ask, the most telling first; nothing where it is settled.

    Parameters
    ----------
    entry : CapEntry
        The cap.
    turning : sequence of Turning
        Figures that could settle it.
    total : SubjectTotal
        What is compared.
    case : Case
        The case.
    outcome : Outcome or None
        How it came out.
    old : bool
        Whether the cap is of an edition no longer in force.
    """
    if outcome not in (Outcome.UNKNOWN, Outcome.STRADDLES):
        return ()
    if cap_percent(entry.cap) is None and not (old and _is_free(entry)):
        return (
            Say(
                "ask.cap",
                {"subject": total.subject.name, "category": entry.category or "-"},
            ),
        )
    asks: list[Say] = []
    if old:
        current = case.materials.workshop.current.get(entry.scheme, "")
        asks.append(
            Say("ask.edition", {"subject": total.subject.name, "edition": current})
        )
    asks += [
        _match(name, identity, total, case)
        for name, identity in proposals_for(total.subject, case.totals)
    ]
    for one in turning:
        if one.traced is None:
            values = {"what": _unknown_name(one, case)}
            asks.append(Say("ask.weigh", values))
        else:
            values = {"subject": total.subject.name, "material": one.traced.node.says}
            asks.append(Say("ask.share", values))
    return tuple(say for n, say in enumerate(asks) if say not in asks[:n])


def _match(name: str, identity: str, total: SubjectTotal, case: Case) -> Say:
    """Ask whether a printed name means the subject, or for its CAS number."""
    values = {"name": name, "subject": total.subject.name}
    if identity.startswith("name:") and not case.totals.knowledge.names(name):
        return Say("ask.number", values)
    return Say("ask.confirm", {**values, "identity": identity})
