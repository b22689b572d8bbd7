"""Alcohol vapour where a batch dries, and alcohol that stands at home.

Facts and cautions only: a room's average decides nothing, least of all about the air
just above the tray.
"""

from collections.abc import Iterator

from blendcheck.checks.case import Case
from blendcheck.checks.entries import used
from blendcheck.estimates.alcohol import ALCOHOLS, unknown_alcohols
from blendcheck.estimates.alcohol_limits import Limit
from blendcheck.estimates.workroom import RoomAir, in_the_room
from blendcheck.estimates.workroom_setting import kept_at_home
from blendcheck.quantity import Mark, print_estimate
from blendcheck.records.estimate import Estimate
from blendcheck.records.finding import Finding, Say
from blendcheck.records.material import Material

__all__ = ["check"]

_CHECK = "alcohol"
_WHAT = "alcohol in the workroom"
_WITCH_HAZEL = ("witch hazel", "hamamelis")


def check(case: Case) -> Iterator[Finding]:
    """State what the alcohol of a batch does to the air of the room.

    Parameters
    ----------
    case : Case
        The case.

    Yields
    ------
    Finding
        Facts with estimates; cautions about the cloud above the tray, about cloths
        and about what is kept. Nothing for a recipe without alcohol.
    """
    unknown = unknown_alcohols(case.totals)
    if unknown:
        values = {"materials": ", ".join(unknown)}
        yield _fact("alcohol.which", values, ask=(Say("alcohol.ask-which", values),))
    rooms = in_the_room(case.totals)
    for air in rooms:
        yield from _of_one(air, case)
    if unknown and not rooms:
        names = {"alcohol": "alcohol"}
        yield _above_the_tray(Say("alcohol.cloud-not-known", names))
    yield from _unsaid(case)
    if rooms or unknown:
        yield from _kept(case)


def _unsaid(case: Case) -> Iterator[Finding]:
    """Ask about witch hazel that is not entered as an alcohol: it is sold with it."""
    names = [
        material.name
        for material in used(case.totals).values()
        if material.kind != "alcohol" and _is_witch_hazel(material)
    ]
    if names:
        values = {"materials": ", ".join(names)}
        ask = (Say("alcohol.ask-hazel"),)
        yield _fact("alcohol.hazel", values, ask=ask)


def _is_witch_hazel(material: Material) -> bool:
    texts = f"{material.name} {material.inci} {material.botanical}".casefold()
    return material.cas not in ALCOHOLS and any(name in texts for name in _WITCH_HAZEL)


def _of_one(air: RoomAir, case: Case) -> Iterator[Finding]:
    entered = air.room.volume is not None
    if case.recipe.product == "room mist":
        yield _fact("alcohol.mist", {"alcohol": air.spirit.name}, marks=_marks(air))
    yield _average(air) if entered else _no_room(air)
    if entered:
        yield from _beside_limits(air)
        yield _until(air)
    yield _cloud(air)


def _ask(air: RoomAir) -> tuple[Say, ...]:
    asks = []
    if air.spirit.unknown:
        values = {"materials": ", ".join(air.spirit.unknown)}
        asks.append(Say("alcohol.ask-strength", values))
    if air.room.volume is None:
        asks.append(Say("alcohol.ask-room"))
    if air.room.drying is None:
        asks.append(Say("alcohol.ask-drying"))
    return tuple(asks)


def _marks(air: RoomAir) -> frozenset[Mark]:
    return air.spirit.marks | air.room.marks


def _average(air: RoomAir) -> Finding:
    peak, share = air.estimate("peak"), air.estimate("of-limit")
    values = {
        "alcohol": air.spirit.name,
        "grams": _span(air.spirit.low, air.spirit.high, "g", 2),
        "peak": _words(peak),
        "share": _words(share),
        "room": air.room.line.removeprefix("room: "),
    }
    code = "alcohol.average" if share is not None else "alcohol.average-only"
    return _fact(
        code,
        values,
        also=(Say("alcohol.model"),),
        ask=_ask(air),
        estimates=tuple(e for e in (peak, share) if e is not None),
        marks=_marks(air),
    )


def _no_room(air: RoomAir) -> Finding:
    fire = next(
        (
            made
            for made, limit in zip(air.estimates, air.limits, strict=True)
            if "explosive" in limit.says
        ),
        None,
    )
    values = {
        "alcohol": air.spirit.name,
        "grams": _span(air.spirit.low, air.spirit.high, "g", 2),
        "room": _words(fire),
    }
    code = "alcohol.no-room" if fire is not None else "alcohol.no-room-only"
    return _fact(
        code, values, ask=_ask(air), estimates=air.estimates, marks=_marks(air)
    )


def _beside_limits(air: RoomAir) -> Iterator[Finding]:
    for what, word in (("short", "short-term"), ("shift", "average")):
        made = air.estimate(what)
        limit = next((one for one in air.limits if word in one.says), None)
        if made is None or limit is None:
            continue
        values = {
            "what": made.says,
            "value": _words(made),
            "limit": f"{print_estimate(limit.ppm, digits=3)} ppm",
            "whose": limit.says,
        }
        code = "alcohol.above" if _may_be_above(made, limit) else "alcohol.below"
        yield _fact(
            code,
            values,
            estimates=(made,),
            source=limit.source,
            marks=_marks(air) | _memory(limit),
        )


def _memory(limit: Limit) -> frozenset[Mark]:
    return frozenset({Mark.FROM_MEMORY} if limit.tag == "memory" else ())


def _may_be_above(made: Estimate, limit: Limit) -> bool:
    return made.high is None or made.high > limit.ppm


def _until(air: RoomAir) -> Finding:
    made = air.estimate("below")
    values = {
        "level": f"{print_estimate(air.level, digits=3)} ppm",
        "time": _words(made),
    }
    code = "alcohol.until"
    if made is None or made.high is None:
        code = "alcohol.until-not-known"
    elif air.room.drying is None:
        code = "alcohol.until-at-once"
    return _fact(
        code,
        values,
        estimates=() if made is None else (made,),
        marks=_marks(air),
    )


def _cloud(air: RoomAir) -> Finding:
    cloud = air.cloud
    values = {"alcohol": air.spirit.name}
    code = "alcohol.cloud-not-known"
    estimates: tuple[Estimate, ...] = ()
    if cloud.saturated is not None and cloud.lower is not None:
        code = "alcohol.cloud"
        values["saturated"] = f"{print_estimate(cloud.saturated, digits=2)} %"
        values["lower"] = f"{print_estimate(cloud.lower, digits=2)} %"
        values["temperature"] = f"{print_estimate(cloud.celsius, digits=2)} °C"
        if not cloud.can_light:
            code = "alcohol.cloud-cool"
        estimates = (
            Estimate(
                f"{air.spirit.name}.cloud",
                f"{air.spirit.name} in the air right above the liquid",
                "% v/v",
                cloud.saturated,
                0.0,
                cloud.saturated,
                2,
                cloud.lines,
                cloud.sources,
            ),
        )
    also = (Say("alcohol.cloud-water", values),) if air.spirit.watered else ()
    return _above_the_tray(Say(code, values), also, ", ".join(cloud.sources), estimates)


def _above_the_tray(
    why: Say,
    also: tuple[Say, ...] = (),
    source: str = "",
    estimates: tuple[Estimate, ...] = (),
) -> Finding:
    return Finding(
        kind="caution",
        check=_CHECK,
        subject="the air above the tray",
        why=why,
        also=(*also, Say("alcohol.cloths")),
        source=source,
        marks=frozenset({Mark.ESTIMATED}),
        severity=1,
        estimates=estimates,
    )


def _kept(case: Case) -> Iterator[Finding]:
    kept = kept_at_home(case.totals)
    if kept is None:
        yield Finding(
            kind="caution",
            check=_CHECK,
            subject="alcohol kept at home",
            why=Say("alcohol.kept-not-known"),
            ask=(Say("alcohol.ask-kept"), Say("alcohol.ask-code")),
            severity=3,
        )
        return
    litres = _span(kept.low, kept.high, "L", 2)
    yield Finding(
        kind="caution",
        check=_CHECK,
        subject="alcohol kept at home",
        why=Say("alcohol.kept", {"kept": kept.printed, "litres": litres}),
        ask=(Say("alcohol.ask-code"),),
        severity=3,
    )


# -- words --------------------------------------------------------------------


def _fact(
    code: str,
    values: dict[str, str],
    *,
    also: tuple[Say, ...] = (),
    ask: tuple[Say, ...] = (),
    estimates: tuple[Estimate, ...] = (),
    source: str = "",
    marks: frozenset[Mark] = frozenset(),
) -> Finding:
    return Finding(
        kind="fact",
        check=_CHECK,
        subject=_WHAT,
        why=Say(code, values),
        also=also,
        ask=ask,
        estimates=estimates,
        source=source,
        marks=marks,
    )


def _span(low: float, high: float, unit: str, digits: int) -> str:
    first = print_estimate(low, digits=digits)
    last = print_estimate(high, digits=digits)
    return f"{last} {unit}" if first == last else f"{first} to {last} {unit}"


def _words(made: Estimate | None) -> str:
    """Say the range of an estimate; an end that nothing bounds is named so."""
    if made is None:
        return "not known"
    unit = "m³" if made.unit == "m3" else made.unit
    if made.low is None and made.high is None:
        return "not known"
    if made.high is None:
        return f"{print_estimate(made.low or 0, digits=made.digits)} {unit} or more"
    if made.low is None:
        return f"up to {print_estimate(made.high, digits=made.digits)} {unit}"
    return _span(made.low, made.high, unit, made.digits)
