"""What is breathed in the shower: concentrations, ratios and smell, with their bounds.

Facts and cautions only. No figure here says that somebody may breathe it: people at
risk are only ever warned.
"""

from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import Final

import numpy as np

from blendcheck.checks.breathing import UNIT, about, beside, fact, names_of
from blendcheck.checks.case import Case
from blendcheck.estimates.acute import COVER
from blendcheck.estimates.air import (
    ConstituentAir,
    Levels,
    NoAir,
    ShowerAir,
    shower_air,
)
from blendcheck.estimates.scent import Grams
from blendcheck.estimates.shower import QUANTITIES, ZONES
from blendcheck.quantity import Mark
from blendcheck.records.estimate import Estimate
from blendcheck.records.finding import Finding, Say
from blendcheck.reference import members_of

__all__ = ["check", "level_estimates"]

_CHECK = "air"
_MENTHOL: Final = "1490-04-6"
_PEAK, _MEAN, _LATER = range(len(QUANTITIES))
_STALL, _BATHROOM = range(len(ZONES))
_SAYS: Final[Mapping[str, str]] = MappingProxyType(
    {
        "peak": "at its peak",
        "mean": "over the shower",
        "later": "when the next person comes in",
    }
)


def check(case: Case) -> Iterator[Finding]:
    """State what is in the air of a shower, beside what is known of it.

    Parameters
    ----------
    case : Case
        The case.

    Yields
    ------
    Finding
        Facts and cautions. For anything but a piece that dissolves in a shower, one
        fact that says why there is no estimate.
    """
    air = shower_air(case.totals, case.recipe.product, case.materials.workshop.shower)
    if isinstance(air, NoAir):
        ask = "air.ask-piece" if air.code == "air.no-estimate-piece" else ""
        values = {"product": case.recipe.product}
        yield fact(
            "air of the shower",
            Say(air.code, values),
            ask=(Say(ask),) if ask else (),
            marks=frozenset(),
        )
        return
    yield _setting(air)
    yield _total(air)
    if air.constituents:
        yield _constituents(air)
    if air.scent.not_estimated:
        yield _not_estimated(air)
    yield from beside(air)
    yield _caution()


# -- the setting -------------------------------------------------------------


def _setting(air: ShowerAir) -> Finding:
    setting = air.setting
    also: list[Say] = []
    if setting.showers > 1:
        also.append(Say("air.setting-row", setting.texts))
    filled = [o for o in setting.origins.values() if o.how != "entered"]
    if filled:
        memory = sum(one.tag == "memory" for one in filled)
        own = sum(one.how == "own choice" for one in filled)
        counts = {"filled": len(filled), "memory": memory, "own": own}
        also.append(Say("air.setting-filled", {k: str(v) for k, v in counts.items()}))
    names = "; ".join(one.name for one in air.grid[1:])
    also.append(Say("air.setting-grid", {"settings": names}))
    return fact(
        "the shower",
        Say("air.setting", setting.texts),
        also=also,
        marks=setting.marks,
        source=setting.sources,
    )


# -- what is in the air --------------------------------------------------------


def level_estimates(
    name: str, says: str, levels: Levels, air: ShowerAir, more: ConstituentAir | None
) -> tuple[Estimate, ...]:
    """Return the six estimates of one constituent, or of all scent.

    Parameters
    ----------
    name, says : str
        Beginning of their names, and what they are of.
    levels : Levels
        The concentrations.
    air : ShowerAir
        The estimate that they belong to.
    more : ConstituentAir or None
        The constituent.

    Returns
    -------
    tuple of Estimate
        Peak, mean and later, in stall and bathroom. [mg/m3]
    """
    marks = air.marks if more is None else air.setting.marks | more.marks
    sources = air.sources if more is None else more.release.sources
    how = () if more is None else _how(more)
    made: list[Estimate] = []
    for row, quantity in enumerate(QUANTITIES):
        for column, zone in enumerate(ZONES):
            at = (row, column)
            central = None if levels.central is None else float(levels.central[at])
            made.append(
                Estimate(
                    name=f"{name}.{zone}.{quantity}",
                    says=f"{says}, {zone}, {_SAYS[quantity]}",
                    unit=UNIT,
                    central=central,
                    low=float(levels.floor[at]),
                    high=float(levels.bound[at]),
                    lines=(*how, *_lines(levels, air, at)),
                    sources=sources,
                    marks=marks,
                )
            )
    return tuple(made)


def _lines(levels: Levels, air: ShowerAir, at: tuple[int, int]) -> tuple[str, ...]:
    lines: list[str] = []
    if levels.lowest is not None and levels.highest is not None:
        for ends, where, says in (
            (levels.lowest, levels.lowest_at, "lowest"),
            (levels.highest, levels.highest_at, "highest"),
        ):
            name = air.grid[int(where[at])].name
            lines.append(
                f"{says} of the settings shown: {about(ends[at])} {UNIT} ({name})"
            )
    lines.append(
        f"at the setting as entered, over what papers and release leave open: "
        f"{about(levels.least[at])} to {about(levels.most[at])} {UNIT}"
    )
    lines.append(f"all of it in the air, at most: {about(levels.bound[at])} {UNIT}")
    return tuple(lines)


def _how(more: ConstituentAir) -> tuple[str, ...]:
    grams, release = more.constituent.grams, more.release
    low, middle, high = (about(1e3 * g) for g in (grams.low, grams.middle, grams.high))
    ends = "" if low == high else f", {low} to {high} mg"
    lines = [f"in one use: {middle} mg{ends}", *release.lines]
    if release.is_known:
        parts = (release.low[0], release.central[0], release.high[0])
        least, part, most = (about(100 * float(p)) for p in parts)
        lines.append(f"reaches the air: {part} %, {least} to {most} %")
    if np.isfinite(more.ceiling):
        lines.append(f"its saturated vapour: {about(more.ceiling)} {UNIT}")
    return tuple(lines)


def _total(air: ShowerAir) -> Finding:
    levels = air.total
    if levels.central is None:
        return _all_unknown(air)
    central = levels.central
    grams = air.scent.unknown.high
    named = sum(one.constituent.grams.low for one in air.constituents)
    code = "air.total" if named > COVER * (named + grams) else "air.total-part"
    values = {
        "grams": about(grams),
        "mean": about(central[_MEAN, _STALL]),
        "peak": about(central[_PEAK, _STALL]),
        "bound": about(levels.bound[_PEAK, _STALL]),
        "room": about(central[_MEAN, _BATHROOM]),
        "later": about(central[_LATER, _STALL]),
        "later_room": about(central[_LATER, _BATHROOM]),
        "shut": air.setting.texts["shut_min"],
    }
    also = [Say("air.next-person", values), Say("air.rough")]
    if levels.lowest is not None and levels.highest is not None:
        at = (_MEAN, _STALL)
        spread = {
            "low": about(levels.lowest[at]),
            "high": about(levels.highest[at]),
            "low_at": air.grid[int(levels.lowest_at[at])].name,
            "high_at": air.grid[int(levels.highest_at[at])].name,
        }
        also.insert(1, Say("air.spread", spread))
    if air.counted_in_full:
        also.append(Say("air.in-full", _in_full(air)))
    menthols = members_of(_MENTHOL)
    if any(one.constituent.cas in menthols for one in air.constituents):
        also.append(Say("air.menthol"))
    return fact(
        "all scent in the air",
        Say(code, values),
        also=also,
        estimates=level_estimates("air.total", "all scent", levels, air, None),
        marks=air.marks,
        source=air.sources,
    )


def _all_unknown(air: ShowerAir) -> Finding:
    """Say that no paper names any of the scent, and what it is at most."""
    levels = air.total
    values = {
        "peak": about(levels.bound[_PEAK, _STALL]),
        "room": about(levels.bound[_PEAK, _BATHROOM]),
    }
    return fact(
        "all scent in the air",
        Say("air.total-unknown", values),
        also=(Say("air.rough"),),
        estimates=level_estimates("air.total", "all scent", levels, air, None),
        marks=air.marks,
        source=air.sources,
    )


def _in_full(air: ShowerAir) -> dict[str, str]:
    """Name what counts as all in the air, and how much of the mean that makes."""
    part = 0.0
    for one in air.constituents:
        grams = one.constituent.grams
        if not one.release.is_known and grams.high > 0:
            most = float(one.levels.most[_MEAN, _STALL])
            part += most * grams.middle / grams.high
    return {"names": names_of(air.counted_in_full), "part": about(part)}


def _constituents(air: ShowerAir) -> Finding:
    estimates: list[Estimate] = []
    ranked = sorted(
        air.constituents, key=lambda one: -float(one.levels.bound[_MEAN, _STALL])
    )
    shown: list[str] = []
    for one in ranked:
        name = one.constituent.name
        estimates += level_estimates(
            f"air.{one.constituent.cas}", name, one.levels, air, one
        )
        central = one.levels.central
        middle = about(None if central is None else central[_MEAN, _STALL])
        shown.append(
            f"{name} {middle} (at most {about(one.levels.bound[_MEAN, _STALL])})"
        )
    return fact(
        "each constituent in the air",
        Say("air.each", {"names": names_of(shown)}),
        estimates=estimates,
        marks=air.marks,
        source=air.sources,
    )


def _grams(grams: Grams) -> str:
    low, high = about(grams.low), about(grams.high)
    return f"{low} g" if low == high else f"{low} to {high} g"


def _not_estimated(air: ShowerAir) -> Finding:
    missing = air.scent.not_estimated
    each = tuple(f"{one.what}: {_grams(one.grams)}" for one in missing)
    unknown = air.scent.unknown
    estimate = Estimate(
        name="air.not-estimated",
        says="in one use, not estimated",
        unit="g",
        central=None,
        low=unknown.low,
        high=unknown.high,
        lines=each,
    )
    return fact(
        "what is not estimated",
        Say(
            "air.not-estimated", {"what": "; ".join(each), "grams": about(unknown.high)}
        ),
        estimates=(estimate,),
        marks=frozenset({Mark.ESTIMATED, Mark.ABSENCE}),
    )


# -- cautions ------------------------------------------------------------------


def _caution() -> Finding:
    return Finding(
        kind="caution",
        check=_CHECK,
        subject="who these figures are not for",
        why=Say("air.people"),
        severity=1,
    )
