"""The spread by draws beside the range: where most of many drawn worlds lie.

A range holds all that the papers and the model leave open. Draws show where within it
most results lie if every figure is spread as they are drawn here, which nobody has
measured; so they stand beside the range and never take its place.
"""

from collections.abc import Iterator, Sequence
from typing import Any, Final, NamedTuple

import streamlit as st

from blendcheck.assess import Assessment
from blendcheck.quantity import print_estimate
from blendcheck.ui import shown

__all__ = ["Spread", "picture", "spread"]

_BAND: Final = "#56B4E9"  # Okabe and Ito, Color Universal Design
_DRAWN: Final = "#0072B2"
_DRAWS: Final = 2000
_LEAST: Final = 1e-6


class Spread(NamedTuple):
    """One row: a range, and where most of the draws lie.

    Parameters
    ----------
    says : str
        What it is.
    unit : str
        Unit of the numbers.
    range : tuple of (float, float)
        Ends of the range.
    drawn : tuple of (float, float, float)
        The 5, 50 and 95 % points of the draws.
    digits : int
        Significant digits that mean something.
    """

    says: str
    unit: str
    range: tuple[float, float]
    drawn: tuple[float, float, float]
    digits: int


def spread(found: Assessment, key: str) -> None:
    """Offer the spread by draws.

    Parameters
    ----------
    found : Assessment
        A result with estimates.
    key : str
        Key of the expander.
    """
    box = st.expander(
        "Spread by draws, beside the range", key=key, on_change="rerun", type="compact"
    )
    if not box.open:
        return
    with box:
        air, flash = list(_air(found)), list(_flash(found))
        if not air and not flash:
            shown.paragraph("There is no range here that draws could fill.")
            return
        shown.paragraph(
            "The pale bar is the range. The dark bar holds nine draws in ten, the line "
            "in it the middle draw. One composition is drawn for each lot, and one "
            "room for all. How often a thing comes out rests on how it was drawn, so "
            "the range is what counts.",
            kind="bc-soft",
        )
        for rows, even in ((air, False), (flash, True)):
            if rows:
                st.vega_lite_chart(
                    picture(rows, ink=shown.ink(), logarithmic=not even),
                    width="stretch",
                    alt=". ".join(map(_sentence, rows)),
                )
                shown.html(shown.items(map(_sentence, rows)))


def _air(found: Assessment) -> Iterator[Spread]:
    from blendcheck.estimates.air import NoAir, shower_air
    from blendcheck.estimates.air_draws import air_draws, room_draws
    from blendcheck.estimates.draws import spread_of

    case = found.case
    air = shower_air(case.totals, case.recipe.product, case.materials.workshop.shower)
    if isinstance(air, NoAir) or air.total.central is None:
        return
    drawn = air_draws(air.scent, air.setting, room_draws(air.setting, _DRAWS))
    ends = {one.name: one for finding in found.estimates for one in finding.estimates}
    for moment, values, words in (
        ("mean", drawn.mean, "over the shower"),
        ("later", drawn.later, "when the next person comes in"),
    ):
        for column, zone in enumerate(("stall", "bathroom")):
            one = ends.get(f"air.total.{zone}.{moment}")
            if one is None or one.high is None:
                continue
            most = spread_of(values[:, column])
            yield Spread(
                f"All scent, {zone}, {words}",
                "mg/m³",
                (one.low or 0.0, one.high),
                (most.low, most.middle, most.high),
                1,
            )


def _flash(found: Assessment) -> Iterator[Spread]:
    listed = {one.name: one for f in found.estimates for one in f.estimates}
    for name, one in listed.items():
        drawn = listed.get(f"{name}.draws")
        if drawn is None or one.low is None or one.high is None:
            continue
        points = (drawn.low, drawn.central, drawn.high)
        if None not in points:
            low, middle, high = (float(point or 0) for point in points)
            yield Spread(
                one.says, one.unit, (one.low, one.high), (low, middle, high), one.digits
            )


def _sentence(one: Spread) -> str:
    low, middle, high, first, last = (
        print_estimate(value, digits=one.digits) for value in (*one.drawn, *one.range)
    )
    return (
        f"{one.says}: nine draws in ten from {low} to {high} {one.unit}, "
        f"the middle one {middle}; the range goes from {first} to {last} {one.unit}"
    )


def picture(
    rows: Sequence[Spread], *, ink: str = "black", logarithmic: bool = False
) -> dict[str, Any]:
    """Return the rows as a Vega-Lite description.

    Parameters
    ----------
    rows : sequence of Spread
        Rows of one unit, at least one.
    ink : str, default "black"
        Colour of lines and words.
    logarithmic : bool, default False
        Whether the axis is logarithmic.

    Returns
    -------
    dict
        The description, its data inside.
    """
    row = {
        "field": "row",
        "type": "nominal",
        "sort": None,
        "title": None,
        "axis": {"labels": False, "ticks": False, "domain": False},
    }
    scale: dict[str, Any] = {"zero": False}
    if logarithmic:
        scale = {"type": "log"}

    def along(field: str) -> dict[str, Any]:
        return {
            "field": field,
            "type": "quantitative",
            "title": rows[0].unit,
            "scale": scale,
            "axis": {"grid": False, "tickCount": 5},
        }

    def bar(first: str, last: str, colour: str, height: int) -> dict[str, Any]:
        return {
            "mark": {"type": "bar", "height": height, "yOffset": 14, "color": colour},
            "encoding": {"y": row, "x": along(first), "x2": {"field": last}},
        }

    return {
        "data": {"values": [_values(n, one) for n, one in enumerate(rows)]},
        "height": {"step": 52},
        "layer": [
            bar("first", "last", _BAND, 18),
            bar("low", "high", _DRAWN, 10),
            {
                "mark": {
                    "type": "tick",
                    "size": 18,
                    "thickness": 3,
                    "yOffset": 14,
                    "color": ink,
                },
                "encoding": {"y": row, "x": along("middle")},
            },
            {
                "mark": {
                    "type": "text",
                    "align": "left",
                    "baseline": "top",
                    "dy": -22,
                    "dx": 3,
                    "fontSize": 13,
                    "color": ink,
                },
                "encoding": {
                    "y": row,
                    "x": {"value": 0},
                    "text": {"field": "says", "type": "nominal"},
                },
            },
        ],
    }


def _values(n: int, one: Spread) -> dict[str, Any]:
    low, middle, high = one.drawn
    return {
        "row": str(n),
        "says": one.says,
        "first": max(one.range[0], _LEAST) if one.unit != "°C" else one.range[0],
        "last": one.range[1],
        "low": low,
        "middle": middle,
        "high": high,
    }
