"""Carbon dioxide of a fizzing piece in stall and bathroom, and the rinse it leaves.

Facts and cautions only.
"""

from collections.abc import Iterator

from blendcheck.checks.case import Case
from blendcheck.estimates.fizz import FizzEstimate, fizz_of
from blendcheck.estimates.fizz_powders import not_reckoned, not_told
from blendcheck.quantity import Mark, print_estimate
from blendcheck.records.estimate import Estimate
from blendcheck.records.finding import Finding, Say

__all__ = ["check"]

_CHECK = "fizz"
_WHAT = "fizz"
_FIZZES = ("shower tablet", "bath fizz")


def check(case: Case) -> Iterator[Finding]:
    """State the carbon dioxide of one use, and what is left over.

    Parameters
    ----------
    case : Case
        The case.

    Yields
    ------
    Finding
        Facts; a caution where the gas may pass the short-term limit for workers, or the
        level that a rule for indoor air calls unacceptable. Without bicarbonate only
        what is not worked out is named.
    """
    found = fizz_of(case.totals)
    if found is None:
        yield from _without_bicarbonate(case)
        return
    whole = case.totals.piece_mass is None
    yield _gas(found, whole=whole)
    yield _rest(found, whole=whole)
    if found.setting is not None and not whole:
        yield from _rooms(found)


def _without_bicarbonate(case: Case) -> Iterator[Finding]:
    """Say what may fizz all the same."""
    others, untold = not_reckoned(case.totals), not_told(case.totals)
    if others:
        names = {"materials": ", ".join(others)}
        why = Say("fizz.not-reckoned", names)
        yield Finding(kind="fact", check=_CHECK, subject=_WHAT, why=why)
    elif untold and case.recipe.product in _FIZZES:
        names = {"materials": ", ".join(untold)}
        why, ask = Say("fizz.no-bicarbonate"), (Say("fizz.ask-number", names),)
        yield Finding(kind="fact", check=_CHECK, subject=_WHAT, why=why, ask=ask)


def _gas(found: FizzEstimate, *, whole: bool) -> Finding:
    gas, bound = found.estimate("co2"), found.estimate("bound")
    values = {"of": _of(whole=whole), "gas": _words(gas), "bound": _words(bound)}
    asks, also = [], []
    if found.not_reckoned:
        names = {"materials": ", ".join(found.not_reckoned)}
        also.append(Say("fizz.not-reckoned", names))
    if found.not_told:
        names = {"materials": ", ".join(found.not_told)}
        asks.append(Say("fizz.ask-number", names))
    if whole:
        asks.append(Say("fizz.ask-piece"))
    return Finding(
        kind="fact",
        check=_CHECK,
        subject=_WHAT,
        why=Say("fizz.gas", values),
        also=tuple(also),
        ask=tuple(asks),
        estimates=tuple(e for e in (gas, bound) if e is not None),
        marks=frozenset({Mark.ESTIMATED}),
        source="citric-bicarbonate-stoichiometry",
    )


def _of(*, whole: bool) -> str:
    return "the whole batch" if whole else "one use"


def _rest(found: FizzEstimate, *, whole: bool) -> Finding:
    base, acid = found.estimate("bicarbonate-left"), found.estimate("acid-left")
    values = {
        "of": _of(whole=whole),
        "bicarbonate": _words(base),
        "acid": _words(acid),
    }
    code = found.rinse.replace(" ", "-")
    return Finding(
        kind="fact",
        check=_CHECK,
        subject="what is left of it",
        why=Say(f"fizz.rinse-{code}", values),
        estimates=tuple(e for e in (base, acid) if e is not None),
        marks=frozenset({Mark.ESTIMATED}),
    )


def _rooms(found: FizzEstimate) -> Iterator[Finding]:
    stall, bathroom = found.estimate("stall"), found.estimate("bathroom")
    made = tuple(e for e in (stall, bathroom) if e is not None)
    values = {
        "bathroom": _top(bathroom),
        "limits": "; ".join(
            f"{whose}: {print_estimate(ppm, digits=3)} ppm"
            for whose, ppm, _ in found.limits
        ),
    }
    code = "fizz.bathroom"
    if stall is not None:
        code = "fizz.stall"
        values["stall"] = _top(stall)
    marks = frozenset[Mark]().union(*(one.marks for one in made))
    yield Finding(
        kind="fact",
        check=_CHECK,
        subject="carbon dioxide in the air",
        why=Say(code, values),
        also=(Say("fizz.drain"),),
        estimates=made,
        marks=marks,
        source=", ".join(dict.fromkeys(source for _, _, source in found.limits)),
    )
    for code, word in (("fizz.air", "short-term"), ("fizz.stale", "unacceptable")):
        level = next((ppm for whose, ppm, _ in found.limits if word in whose), None)
        if level is not None and any((one.high or 0) > level for one in made):
            yield Finding(
                kind="caution",
                check=_CHECK,
                subject="carbon dioxide in the air",
                why=Say(code, {"level": f"{print_estimate(level, digits=3)} ppm"}),
                marks=marks,
                severity=3,
            )
            return


def _top(made: Estimate | None) -> str:
    """Say the central value and the bound above it, each in its own words."""
    if made is None or made.high is None:
        return "not known"
    bound = f"{print_estimate(made.high, digits=made.digits)} {made.unit}"
    if made.central is None:
        return f"up to {bound}"
    middle = print_estimate(made.central, digits=made.digits)
    return f"{middle} {made.unit} (with all the carbon {bound})"


def _words(made: Estimate | None) -> str:
    if made is None or made.low is None or made.high is None:
        return "not known"
    low = print_estimate(made.low, digits=made.digits)
    high = print_estimate(made.high, digits=made.digits)
    return f"{high} {made.unit}" if low == high else f"{low} to {high} {made.unit}"
