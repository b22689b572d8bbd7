"""What can catch fire, stage by stage, from the flash points that were entered.

The outcome of a stage is that of the worst thing there. *Over*: at or above a flash
point with something that can light it. *Within*: below every flash point by the
margin. Anything between, missing, or printed in a way that does not show it, is
*unknown*. Where somebody looked and nothing can light a vapour, being near a flash
point is no limit but a caution.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from blendcheck.checks.case import Case
from blendcheck.checks.margins import MARGIN_SOURCE, MIST_SOURCE, Place, place_of
from blendcheck.checks.stages import (
    AtStage,
    There,
    margin_below_flash_point,
    stages,
)
from blendcheck.frozen import Frozen
from blendcheck.interval import Range
from blendcheck.quantity import print_number, print_range
from blendcheck.records.finding import Finding, Outcome, Say
from blendcheck.records.working import Id

__all__ = ["check"]

_ORDER: tuple[Place, ...] = ("above", "across", "missing", "near", "enough")
_CHECK = "fire"


class _Placed(Frozen):
    """One thing at a stage, and where the temperature lies beside its flash point."""

    one: There
    place: Place
    margin: Id | None
    span: Range
    lowest: Fraction | None


def check(case: Case) -> Iterator[Finding]:
    """Compare every stage with the flash points of what is there.

    Parameters
    ----------
    case : Case
        The case.

    Yields
    ------
    Finding
        For each stage a limit, a caution, or both.
    """
    for at in stages(case):
        placed = sorted((_placed(case, at, one) for one in at.there), key=_worst_first)
        if at.misty:
            yield _mist(case, at, placed)
        else:
            yield from _still(case, at, placed)


def _placed(case: Case, at: AtStage, one: There) -> _Placed:
    step = margin_below_flash_point(case, at, one)
    span = Range(None, None) if step is None else case.working.range(step)
    place = place_of(span, one.margin)
    if one.may_be_gone and place == "above":
        place = "missing" if one.guessed else "across"
    return _Placed(one, place, step, span, _lowest(case, one))


def _lowest(case: Case, one: There) -> Fraction | None:
    """Return the lowest flash point that the figure allows, in °C."""
    if one.flash is None:
        return None
    span = case.working.range(one.flash)
    return span.high if span.low is None else span.low


def _worst_first(placed: _Placed) -> tuple[int, bool, Fraction]:
    lowest = Fraction(0) if placed.lowest is None else placed.lowest
    return _ORDER.index(placed.place), placed.lowest is not None, lowest


# -- stages with a mist, a soaked cloth or an oily powder ------------------


def _mist(case: Case, at: AtStage, placed: Sequence[_Placed]) -> Finding:
    """Judge a stage whose mist or oily powder can light below the flash point."""
    worst = placed[0]
    if at.sources and worst.place in ("above", "across"):
        return _lit(case, at, worst, placed)
    values = {"stage": at.stage}
    if at.sources == ():
        return Finding(
            kind="caution",
            check=_CHECK,
            subject=at.stage,
            why=Say("fire.mist-none-there", values),
            also=_also(placed, missing=False),
            source=MIST_SOURCE,
            severity=2,
        )
    if at.sources is None:
        why = Say("fire.mist-sources-not-known", values)
    else:
        why = Say("fire.mist", values | {"sources": ", ".join(at.sources)})
    return Finding(
        kind="limit",
        check=_CHECK,
        subject=at.stage,
        why=why,
        outcome=Outcome.UNKNOWN,
        value=worst.margin,
        limit="nothing there that can light it",
        unit="K",
        also=_also(placed),
        turns_at=Say("fire.turns-sources", values),
        ask=_ask(case, at, [p for p in placed if p.place == "missing"]),
        source=MIST_SOURCE,
        severity=2,
    )


# -- stages with a liquid at rest ------------------------------------------


def _still(case: Case, at: AtStage, placed: Sequence[_Placed]) -> Iterator[Finding]:
    """Judge a stage where vapour comes from a liquid or a piece at rest."""
    if at.sources != ():
        yield _limit(case, at, placed)
        return
    may_light = [p for p in placed if p.place in ("above", "across", "near")]
    missing = [p for p in placed if p.place == "missing"]
    if may_light:
        yield _none_there(at, may_light)
    if missing:
        yield _limit(case, at, missing)
    elif not may_light:
        yield _limit(case, at, placed)


def _none_there(at: AtStage, placed: Sequence[_Placed]) -> Finding:
    worst = placed[0]
    return Finding(
        kind="caution",
        check=_CHECK,
        subject=at.stage,
        why=Say("fire.none-there", _values(at, worst)),
        value=worst.margin,
        unit="K",
        also=_also(placed),
        severity=2,
    )


def _limit(case: Case, at: AtStage, placed: Sequence[_Placed]) -> Finding:
    worst = placed[0]
    if worst.place == "enough":
        return Finding(
            kind="limit",
            check=_CHECK,
            subject=at.stage,
            why=Say("fire.within", _values(at, worst)),
            outcome=Outcome.WITHIN,
            value=worst.margin,
            limit=_limit_text(worst),
            unit="K",
            source=MARGIN_SOURCE,
            severity=4,
        )
    if at.sources and worst.place in ("above", "across"):
        return _lit(case, at, worst, placed)
    why = _why_unknown(case, at, placed)
    return Finding(
        kind="limit",
        check=_CHECK,
        subject=at.stage,
        why=why,
        outcome=Outcome.UNKNOWN,
        value=worst.margin,
        limit=_limit_text(worst),
        unit="K",
        also=_also(placed, missing=why.code != "fire.no-flash-point"),
        turns_at=_turns_at(case, at, placed),
        ask=_ask(case, at, [p for p in placed if p.place != "enough"]),
        source=MARGIN_SOURCE,
        severity=2,
    )


def _lit(case: Case, at: AtStage, worst: _Placed, placed: Sequence[_Placed]) -> Finding:
    """Report a flash point that is reached, or may be, beside a source."""
    over = worst.place == "above"
    values = _values(at, worst) | {"sources": ", ".join(at.sources or ())}
    return Finding(
        kind="limit",
        check=_CHECK,
        subject=at.stage,
        why=Say("fire.over" if over else _why_may_be(worst), values),
        outcome=Outcome.OVER if over else Outcome.STRADDLES,
        value=worst.margin,
        limit=_limit_text(worst),
        unit="K",
        also=_also(placed),
        turns_at=None if over else _turns_at(case, at, placed),
        ask=(
            *_ask(case, at, [p for p in placed if p.place in ("across", "missing")]),
            Say("fire.ask-fire-service", {"material": worst.one.says}),
        ),
        source=MARGIN_SOURCE,
        severity=1,
    )


# -- words -----------------------------------------------------------------


def _limit_text(worst: _Placed) -> str:
    return f"at least {print_number(worst.one.margin)} K below the flash point"


def _values(at: AtStage, worst: _Placed) -> dict[str, str]:
    one = worst.one
    return {
        "stage": at.stage,
        "material": one.says,
        "flash": one.printed,
        "temperature": at.printed,
        "needed": f"{print_number(one.margin)} K",
        "margin": print_range(worst.span, "K", cap=one.margin),
    }


def _why_unknown(case: Case, at: AtStage, placed: Sequence[_Placed]) -> Say:
    worst = placed[0]
    values = _values(at, worst)
    if at.temperature is None:
        return Say("fire.no-temperature", values)
    if worst.one.flash is None:
        values["materials"] = _without_figure(placed)
        return Say("fire.no-flash-point", values)
    if worst.place == "near":
        return Say("fire.near", values)
    if worst.one.guessed:
        return Say("fire.may-be-left", values)
    if worst.place == "missing":
        return Say(_why_missing(case, at, worst), values)
    return Say("fire.sources-not-known", values)


def _why_may_be(worst: _Placed) -> str:
    left = worst.one.may_be_gone
    return "fire.may-be-left-and-over" if left else "fire.may-be-over"


def _why_missing(case: Case, at: AtStage, worst: _Placed) -> str:
    if worst.one.cup == "open":
        return "fire.open-cup"
    return "fire.bound" if _warmest(case, at) is not None else "fire.no-top"


def _warmest(case: Case, at: AtStage) -> Fraction | None:
    """Return how warm it is there at most, in °C, if that is known."""
    return None if at.temperature is None else case.working.range(at.temperature).high


def _also(placed: Sequence[_Placed], *, missing: bool = True) -> tuple[Say, ...]:
    said: list[Say] = []
    if any(p.one.material.kind == "alcohol" for p in placed):
        said.append(Say("fire.sinks"))
    without = _without_figure(placed)
    if missing and without:
        said.append(Say("fire.also-missing", {"materials": without}))
    return tuple(said)


def _without_figure(placed: Sequence[_Placed]) -> str:
    return ", ".join(p.one.says for p in placed if p.one.flash is None)


def _turns_at(case: Case, at: AtStage, placed: Sequence[_Placed]) -> Say | None:
    """Return the one figure that would settle the stage, and where it turns."""
    if _warmest(case, at) is None:
        return _turns_temperature(case, placed)
    open_ones = [p for p in placed if p.place != "enough"]
    worst = open_ones[0]
    if worst.place == "above":
        nothing = Say("fire.turns-sources", {"stage": at.stage})
        return None if at.stage == "posting" else nothing
    if not any(_could_say_more(case, at, p.one) for p in open_ones):
        return _turns_temperature(case, placed)
    warm = _warmest(case, at)
    if len(open_ones) > 1 or warm is None or worst.one.guessed:
        return None
    least = print_number(warm + worst.one.margin, rounding="up")
    return Say("fire.turns-flash", {"material": worst.one.says, "least": f"{least} °C"})


def _turns_temperature(case: Case, placed: Sequence[_Placed]) -> Say | None:
    """Return how warm it may be there, if every flash point has a low end."""
    most: list[Fraction] = []
    for p in placed:
        flash = None if p.one.flash is None else case.working.range(p.one.flash)
        if flash is None or flash.low is None or p.one.cup == "open":
            return None
        most.append(flash.low - p.one.margin)
    warmest = print_number(min(most), rounding="down")
    return Say("fire.turns-temperature", {"most": f"{warmest} °C"})


def _ask(case: Case, at: AtStage, placed: Sequence[_Placed]) -> tuple[Say, ...]:
    """Ask what could change the outcome, the most telling first."""
    asked: list[Say] = []
    if _warmest(case, at) is None:
        asked.append(Say("fire.ask-temperature", {"stage": at.stage}))
    if at.sources is None and at.stage != "posting":
        asked.append(Say("fire.ask-sources"))
    for p in placed:
        material = {"material": p.one.says}
        if p.one.guessed:
            asked.append(Say("fire.ask-leaves", material))
        elif p.place != "above" and _could_say_more(case, at, p.one):
            asked.append(Say("fire.ask-flash-point", material))
    if at.stage == "posting":
        asked.append(Say("fire.ask-carrier"))
    return tuple(asked)


def _could_say_more(case: Case, at: AtStage, one: There) -> bool:
    """Whether a better flash point from the supplier could settle more.

    A figure such as ``>93 °C`` is enough for a stage whose temperature is not known
    yet; what is asked there is the temperature.
    """
    if one.flash is None or one.cup == "open":
        return True
    span = case.working.range(one.flash)
    if _warmest(case, at) is None:
        return span.low is None
    return not span.is_exact
