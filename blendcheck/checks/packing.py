"""Before wrapping: whether the batch is as dry as it can be.

The expected finished mass is a range, because water that came with the spritz may
leave, stay or drive the fizz. A batch heavier than the range still holds spritz and
must not be sealed; one far lighter lost more than spritz.
"""

from collections.abc import Iterator

from blendcheck.checks.case import Case
from blendcheck.interval import Range
from blendcheck.quantity import Mark, print_bound, print_number, print_range
from blendcheck.records.finding import Finding, Outcome, Say
from blendcheck.records.working import Id

__all__ = ["check", "outcome_of"]

_CHECK = "packing"
_FIZZ = frozenset({"shower tablet", "bath fizz"})
_JAR_SOURCE = "cpsc-09-112"
"""Source of the jars that burst: source id ``cpsc-09-112``."""


def outcome_of(weighed: Range, expected: Range) -> Outcome:
    """Compare a weighed dry mass with the mass that is expected when dry.

    Parameters
    ----------
    weighed : Range
        What was weighed, with what may have been lost on the way added. [g]
    expected : Range
        What is expected when dry. [g]

    Returns
    -------
    Outcome
        ``over`` if it is heavier than the range; ``straddles`` if it is only once
        what was lost is added; ``unknown`` if it is lighter; else ``within``.

    Examples
    --------
    >>> str(outcome_of(Range.at(103), Range.between(100, 102)))
    'over'
    """
    if expected.high is None or weighed.high is None:
        return Outcome.UNKNOWN
    side = weighed.against(expected.high)
    if side == "above":
        return Outcome.OVER
    if side == "across":
        return Outcome.STRADDLES
    light = expected.low is not None and weighed.high < expected.low
    return Outcome.UNKNOWN if light else Outcome.WITHIN


def check(case: Case) -> Iterator[Finding]:
    """Compare the dry mass with its range, and say how not to pack.

    Parameters
    ----------
    case : Case
        The case.

    Yields
    ------
    Finding
        A limit if the dry batch was weighed, else a caution to weigh it; for
        anything that fizzes, the caution on jars.
    """
    dries = any(node.leaves is not None for node in case.totals.leaves)
    fizz = case.recipe.product in _FIZZ
    weighed = case.totals.weighed
    if weighed is not None:
        yield _weighed(case, weighed)
    elif dries or fizz:
        yield _not_weighed(case)
    if fizz:
        yield Finding(
            kind="caution",
            check=_CHECK,
            subject="jars",
            why=Say("packing.jars"),
            source=_JAR_SOURCE,
            severity=1,
        )


def _values(case: Case) -> dict[str, str]:
    expected = case.working.range(case.totals.expansion.expected)
    return {"expected": print_range(expected, "g")}


def _not_weighed(case: Case) -> Finding:
    code = "packing.weigh-soap" if case.recipe.product == "soap" else "packing.weigh"
    return Finding(
        kind="caution",
        check=_CHECK,
        subject="dry mass",
        why=Say(code, _values(case)),
        value=case.totals.expansion.expected,
        unit="g",
        severity=3,
    )


def _weighed(case: Case, weighed: Id) -> Finding:
    working = case.working
    span = working.range(weighed)
    expected = working.range(case.totals.expansion.expected)
    outcome = outcome_of(span, expected)
    guessed = _guessed(case)
    values = _values(case) | {"weighed": _shown(span, expected), "materials": guessed}
    if outcome is Outcome.WITHIN and guessed:
        return _limit(
            case,
            Outcome.UNKNOWN,
            Say("packing.leaves-not-known", values),
            ask=(Say("packing.ask-leaves", values),),
        )
    if outcome is Outcome.UNKNOWN:
        return _limit(
            case,
            outcome,
            Say("packing.light", values),
            ask=(Say("packing.ask-light"),),
        )
    return _limit(
        case,
        outcome,
        Say(_code(outcome, case), values),
        turns_at=_turns_at(span, expected) if outcome is Outcome.STRADDLES else None,
    )


def _code(outcome: Outcome, case: Case) -> str:
    if outcome is Outcome.WITHIN:
        return "packing.within"
    if outcome is Outcome.STRADDLES:
        return "packing.may-be-heavy"
    return "packing.heavy-soap" if case.recipe.product == "soap" else "packing.heavy"


def _turns_at(span: Range, expected: Range) -> Say | None:
    if span.low is None or expected.high is None:
        return None
    lost = print_number(expected.high - span.low, rounding="down")
    return Say("packing.turns-lost", {"lost": f"{lost} g"})


def _shown(span: Range, expected: Range) -> str:
    """Print the weighed mass with the digits that show its side of the range."""
    if span.is_exact and span.low is not None and expected.high is not None:
        return f"{print_bound(span.low, expected.high)} g"
    return print_range(span, "g", cap=expected.high)


def _limit(
    case: Case,
    outcome: Outcome,
    why: Say,
    *,
    turns_at: Say | None = None,
    ask: tuple[Say, ...] = (),
) -> Finding:
    expected = case.working.range(case.totals.expansion.expected)
    most = (
        "not known"
        if expected.high is None
        else print_number(expected.high, rounding="up")
    )
    return Finding(
        kind="limit",
        check=_CHECK,
        subject="dry mass",
        why=why,
        outcome=outcome,
        value=case.totals.weighed,
        limit=f"at most {most} g",
        unit="g",
        turns_at=turns_at,
        ask=ask,
        severity=1 if outcome is Outcome.OVER else 3,
        marks=case.working.marks(case.totals.expansion.expected),
    )


def _guessed(case: Case) -> str:
    """Materials of which nobody entered how much leaves."""
    return ", ".join(
        node.says
        for node in case.totals.leaves
        if node.leaves is not None and Mark.ESTIMATED in case.working.marks(node.leaves)
    )
