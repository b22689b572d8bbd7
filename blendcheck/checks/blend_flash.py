"""What oils may flash at, estimated: facts and cautions beside the entered figures.

A measured or supplier's figure always wins and stands beside the estimate. There is no
estimate for the wet mix, where the alcohol's own figure counts, and none for an oil
without a full report.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import isfinite
from typing import Literal

from blendcheck.blend.expand import Node
from blendcheck.checks.case import Case
from blendcheck.estimates.bottles import MIXED_IN
from blendcheck.estimates.compositions import Lot, Weighed
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
_POSTED_LIMIT = 60
_REFUSALS = {"no full report": "no-report", MIXED_IN: "mixed-in"}


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
        yield _blend(blend)
    together = blend or (oils[0][1] if len(oils) == 1 else None)
    if together is not None and together.low is not None:
        yield from _heated(case, together)
    else:
        known = [found for _, found in oils if found.low is not None]
        known.sort(key=lambda found: found.low or 0.0)
        for lowest in known[:1]:
            yield from _heated(case, lowest, "flash.heated-oil")
    if together is not None:
        yield from _posted(case, together)
    yield from _wet_mix(case)


# -- the findings ------------------------------------------------------------


def _oil(one: Weighed, found: BlendFlash) -> Finding:
    says, entered = one.lot.says, _entered(one.node)
    if found.low is None:
        return _refused("oil", says, found, entered)
    values = {"material": says, "range": _range(found)}
    absolute = one.node.material is not None and one.node.material.kind == "absolute"
    residue = (Say("flash.absolute", values),) if absolute else ()
    return Finding(
        kind="caution" if found.near_limits else "fact",
        check=_CHECK,
        subject=says,
        why=Say("flash.oil", values),
        also=(*_beside(says, found, entered), *_doubts(found), *residue),
        unit="°C",
        source=_SOURCE,
        marks=found.marks,
        severity=4,
        estimates=_estimates(f"flash.oil.{one.lot.key}", found),
    )


def _blend(found: BlendFlash) -> Finding:
    if found.low is None:
        return _refused("blend", found.says, found, None)
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
        estimates=_estimates("flash.blend", found),
    )


def _refused(
    kind: Literal["oil", "blend"],
    says: str,
    found: BlendFlash,
    entered: Temperature | None,
) -> Finding:
    lacks = {one.lack for one in found.refused}
    code = _REFUSALS.get(next(iter(lacks)), "no") if len(lacks) == 1 else "no"
    code = code if lacks else "none"  # it does not flash up to 200 °C
    values = {
        "material": says,
        "names": _names(found.refused, shares=code != "mixed-in"),
    }
    also = () if entered is None else (Say("flash.entered", _values(says, entered)),)
    asked = kind == "oil" and entered is None
    return Finding(
        kind="fact",
        check=_CHECK,
        subject=says,
        why=Say(f"flash.{code}-{kind}", values),
        also=also,
        ask=(Say("flash.ask", values),) if asked else (),
        source=_SOURCE,
        severity=5,
    )


def _heated(
    case: Case, found: BlendFlash, code: str = "flash.heated"
) -> Iterator[Finding]:
    """Say it where a heated base is as warm as the oils, or one, may flash."""
    base = case.recipe.process.temperature.get("heated base")
    low, _ = found.shown
    if base is None or low is None:
        return
    warmest = base.range.high
    if warmest is not None and warmest < low:
        return
    values = {"range": _range(found), "temperature": base.printed}
    yield Finding(
        kind="caution",
        check=_CHECK,
        subject="heated base",
        why=Say(code, {**values, "material": found.says}),
        source=_SOURCE,
        marks=found.marks,
        severity=2,
    )


def _posted(case: Case, found: BlendFlash) -> Iterator[Finding]:
    """Say in general words how carriers class liquids, and defer to the carrier."""
    if "posting" not in case.recipe.process.temperature:
        return
    low, high = found.shown
    if low is None:
        code, values = "flash.posted-not-known", {}
    else:
        above = low > _POSTED_LIMIT
        below = high is not None and high <= _POSTED_LIMIT
        code = "flash.posted-above" if above else "flash.posted-may"
        code, values = "flash.posted-below" if below else code, {"range": _range(found)}
    yield Finding(
        kind="fact",
        check=_CHECK,
        subject="posting",
        why=Say(code, values),
        ask=(Say("flash.ask-carrier"),),
        source="clp-2025",
        marks=found.marks,
        severity=5,
    )


def _wet_mix(case: Case) -> Iterator[Finding]:
    """Say that the wet mix has no estimate, and which figure counts instead."""
    said: set[str] = set()
    for node in case.totals.leaves:
        material = node.material
        if material is None or material.kind != "alcohol" or node.says in said:
            continue
        said.add(node.says)
        entered = _entered(node)
        code = "flash.wet-mix-not-entered" if entered is None else "flash.wet-mix"
        values = {"material": node.says, "flash": entered.printed if entered else ""}
        yield Finding(
            kind="fact",
            check=_CHECK,
            subject="wet mix",
            why=Say(code, values),
            ask=(Say("flash.ask-alcohol", values),) if entered is None else (),
            source=_SOURCE,
            severity=5,
        )


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
    span, (low, high) = entered.range, found.shown
    below = span.high is not None and low is not None and span.high < low
    above = span.low is not None and high is not None and span.low > high
    said = [Say("flash.entered", values)]
    if below or above:
        said.append(Say("flash.differs", values))
    if entered.cup == "open":
        said.append(Say("flash.open-cup", values))
    return tuple(said)


def _doubts(found: BlendFlash) -> tuple[Say, ...]:
    said: list[Say] = []
    if found.near_limits:
        limits = ", ".join(
            f"{print_estimate(each, digits=2)} °C" for each in found.near_limits
        )
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


def _names(ones: Sequence[Open], *, shares: bool = True) -> str:
    """Name shares that lack a figure, the largest first."""
    shown = [
        f"{one.name} (up to {print_estimate(one.percent, digits=2)} %)"
        if shares
        else one.name
        for one in ones[:_NAMED]
    ]
    more = len(ones) - _NAMED
    return ", ".join(shown) + (" and others" if more > 0 else "")


def _range(found: BlendFlash) -> str:
    low, high = found.shown
    return f"{low} °C or more" if high is None else f"{low} to {high} °C"


def _estimates(name: str, found: BlendFlash) -> tuple[Estimate, ...]:
    low, high = found.shown
    digits = max(len(str(end)) for end in (low, high) if end is not None)
    central = Estimate(
        name,
        f"flash point of {found.says}, closed cup",
        "°C",
        found.central,
        low,
        high,
        max(digits, 2),
        found.lines,
        found.sources,
        found.marks,
    )
    if not any(_is_open(lot) for lot, _, _ in found.lots):
        return (central,)
    drawn = flash_draws(found.lots, _FEW_DRAWS)
    if drawn is None or not isfinite(drawn.max()):
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
