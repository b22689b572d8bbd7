"""What oils may flash at, estimated: facts and cautions beside the entered figures.

A measured or supplier's figure always wins and stands beside the estimate. There is no
estimate for the wet mix, where the alcohol's own figure counts, and none for an oil
without a full report.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Literal

from blendcheck.blend.expand import Node
from blendcheck.checks.case import Case
from blendcheck.estimates.compositions import Lot, Weighed, weighed
from blendcheck.estimates.draws import flash_draws, spread_of
from blendcheck.estimates.flash import (
    BlendFlash,
    flash_of_oils,
    flash_of_weighed,
)
from blendcheck.estimates.mixing import Open
from blendcheck.quantity import Temperature, print_estimate
from blendcheck.records.estimate import Estimate
from blendcheck.records.finding import Finding, Say

__all__ = ["check"]

_CHECK = "flash"
_SOURCE = "liaw-2002"
_FEW_DRAWS = 500
_WIDE = 1.0  # percent that ranges leave open, from which draws say something
_NAMED = 4
_POSTED_LIMIT = 60.0


def check(case: Case) -> Iterator[Finding]:
    """Estimate what the oils flash at, alone and weighed together.

    Parameters
    ----------
    case : Case
        The case.

    Yields
    ------
    Finding
        Facts and cautions only.
    """
    oils = [
        (one, found)
        for one, found in flash_of_oils(case.totals)
        if not case.totals.is_own(one.node)
    ]
    for one, found in oils:
        yield _oil(one, found)
    blend = flash_of_weighed(case.totals)
    if blend is not None:
        yield _blend(case, blend)
    oils_alone = blend or (oils[0][1] if len(oils) == 1 else None)
    if oils_alone is not None and oils_alone.low is not None:
        yield from _heated(case, oils_alone)
        yield from _posted(case, oils_alone)
    yield from _wet_mix(case)


# -- the findings ------------------------------------------------------------


def _oil(one: Weighed, found: BlendFlash) -> Finding:
    says, entered = one.lot.says, _entered(one.node)
    if found.low is None:
        return _refused("oil", says, found, entered)
    values = {"material": says, "range": _range(found)}
    lots = [(one.lot, 1.0, 1.0)]
    return Finding(
        kind="caution" if found.near_limits else "fact",
        check=_CHECK,
        subject=says,
        why=Say("flash.oil", values),
        also=(*_beside(says, found, entered), *_doubts(found)),
        unit="°C",
        source=_SOURCE,
        marks=found.marks,
        severity=4,
        estimates=_estimates(f"flash.oil.{one.lot.key}", found, lots),
    )


def _blend(case: Case, found: BlendFlash) -> Finding:
    if found.low is None:
        return _refused("blend", found.says, found, None)
    lots = [(one.lot, one.low, one.high) for one in weighed(case.totals)]
    return Finding(
        kind="caution" if found.near_limits else "fact",
        check=_CHECK,
        subject=found.says,
        why=Say("flash.blend", {"range": _range(found)}),
        also=_doubts(found),
        unit="°C",
        source=_SOURCE,
        marks=found.marks,
        severity=4,
        estimates=_estimates("flash.blend", found, lots),
    )


def _refused(
    kind: Literal["oil", "blend"],
    says: str,
    found: BlendFlash,
    entered: Temperature | None,
) -> Finding:
    no_report = all(one.lack == "no full report" for one in found.refused)
    values = {"material": says, "names": _names(found.refused)}
    also = () if entered is None else (Say("flash.entered", _values(says, entered)),)
    asked = kind == "oil" and entered is None
    return Finding(
        kind="fact",
        check=_CHECK,
        subject=says,
        why=Say(f"flash.{'no-report' if no_report else 'no'}-{kind}", values),
        also=also,
        ask=(Say("flash.ask", values),) if asked else (),
        source=_SOURCE,
        severity=5,
    )


def _heated(case: Case, found: BlendFlash) -> Iterator[Finding]:
    """Say it where a heated base is as warm as the oils alone may flash."""
    base = case.recipe.process.temperature.get("heated base")
    if base is None or found.low is None:
        return
    warmest = base.range.high
    if warmest is not None and float(warmest) < found.low:
        return
    yield Finding(
        kind="caution",
        check=_CHECK,
        subject="heated base",
        why=Say("flash.heated", {"range": _range(found), "temperature": base.printed}),
        source=_SOURCE,
        marks=found.marks,
        severity=2,
    )


def _posted(case: Case, found: BlendFlash) -> Iterator[Finding]:
    """Say in general words how carriers class liquids, and defer to the carrier."""
    if "posting" not in case.recipe.process.temperature or found.low is None:
        return
    above = found.low > _POSTED_LIMIT
    below = found.high is not None and found.high <= _POSTED_LIMIT
    code = "flash.posted-above" if above else "flash.posted-may"
    yield Finding(
        kind="fact",
        check=_CHECK,
        subject="posting",
        why=Say("flash.posted-below" if below else code, {"range": _range(found)}),
        ask=(Say("flash.ask-carrier"),),
        source="clp-2025",
        marks=found.marks,
        severity=5,
    )


def _wet_mix(case: Case) -> Iterator[Finding]:
    """Say that the wet mix has no estimate, and which figure counts instead."""
    for node in case.totals.leaves:
        if node.material is not None and node.material.kind == "alcohol":
            entered = _entered(node)
            flash = "not entered" if entered is None else entered.printed
            yield Finding(
                kind="fact",
                check=_CHECK,
                subject="wet mix",
                why=Say("flash.wet-mix", {"material": node.says, "flash": flash}),
                source=_SOURCE,
                severity=5,
            )
            return


# -- words and numbers -----------------------------------------------------


def _entered(node: Node) -> Temperature | None:
    """Return the flash point on the maker's papers, the lot's own first."""
    if node.material is None:
        return None
    own = (one.flash_point for one in node.material.lot if one.lot == node.lot)
    return next((f for f in own if f is not None), node.material.flash_point)


def _values(says: str, entered: Temperature) -> dict[str, str]:
    return {"material": says, "flash": entered.printed}


def _beside(
    says: str, found: BlendFlash, entered: Temperature | None
) -> tuple[Say, ...]:
    if entered is None:
        return (Say("flash.not-entered", {"material": says}),)
    values = _values(says, entered)
    span = entered.range
    exact = span.is_exact and span.low is not None
    outside = exact and (
        float(span.low or 0) < (found.low or 0.0)
        or (found.high is not None and float(span.low or 0) > found.high)
    )
    first = Say("flash.entered", values)
    return (first, Say("flash.differs", values)) if outside else (first,)


def _doubts(found: BlendFlash) -> tuple[Say, ...]:
    said: list[Say] = []
    if found.near_limits:
        limits = ", ".join(f"{_degrees(each)} °C" for each in found.near_limits)
        said.append(Say("flash.closed-cup", {"limits": limits}))
    if found.opened:
        said.append(Say("flash.light-ends", {"names": _names(found.opened)}))
    if found.recalled:
        named = found.recalled[:_NAMED]
        more = " and others" if len(found.recalled) > _NAMED else ""
        said.append(Say("flash.recalled", {"names": ", ".join(named) + more}))
    if found.may_split:
        said.append(Say("flash.split"))
    return tuple(said)


def _names(ones: Sequence[Open]) -> str:
    """Name shares that lack a figure, the largest first."""
    shown = [
        f"{one.name} (up to {print_estimate(one.percent, digits=2)} %)"
        for one in ones[:_NAMED]
    ]
    more = len(ones) - _NAMED
    return ", ".join(shown) + (" and others" if more > 0 else "")


def _range(found: BlendFlash) -> str:
    low = _degrees(found.low or 0.0)
    if found.high is None:
        return f"{low} °C or more"
    return f"{low} to {_degrees(found.high)} °C"


def _degrees(celsius: float) -> str:
    return print_estimate(celsius, digits=3 if abs(celsius) >= 100 else 2)


def _estimates(
    name: str, found: BlendFlash, lots: Sequence[tuple[Lot, float, float]]
) -> tuple[Estimate, ...]:
    central = Estimate(
        name,
        f"flash point of {found.says}, closed cup",
        "°C",
        found.central,
        found.low,
        found.high,
        2,
        found.lines,
        found.sources,
        found.marks,
    )
    if not any(_is_open(lot) for lot, _, _ in lots):
        return (central,)
    drawn = flash_draws(lots, _FEW_DRAWS)
    if drawn is None:
        return (central,)
    spread = spread_of(drawn)
    return (
        central,
        replace(
            central,
            name=f"{name}.draws",
            says="where 9 of 10 random compositions inside the printed ranges lie",
            central=spread.middle,
            low=spread.low,
            high=spread.high,
            lines=(
                f"{spread.draws} compositions, one for each lot, shares spread evenly",
                "the error of the model is not in it",
            ),
        ),
    )


def _is_open(lot: Lot) -> bool:
    """Say whether printed ranges leave enough open for draws to say something."""
    return sum(one.high - one.low for one in lot.components) >= _WIDE
