"""Concentrations over time as pictures: scent in the shower, alcohol where it dries.

Plain Vega-Lite descriptions. A band runs from the central value, or the low end, to the
bound; a line of words says the same for those who do not see it.
"""

from collections.abc import Iterator, Sequence
from typing import Any, Final, NamedTuple

import streamlit as st

from blendcheck.assess import Assessment
from blendcheck.quantity import print_estimate
from blendcheck.ui import shown

__all__ = ["Course", "courses", "picture"]

_BAND: Final = "#56B4E9"  # Okabe and Ito, Color Universal Design
_MOST: Final = 200


class Course(NamedTuple):
    """One panel: a band over time.

    Parameters
    ----------
    title : str
        What is shown, with its unit.
    time : str
        What the time axis says, with its unit.
    times, low, high : sequence of float
        Ends of the band at each time.
    level : float or None
        A level drawn as a line through the panel.
    level_says : str
        What the level is.
    says : str
        The same in words.
    """

    title: str
    time: str
    times: Sequence[float]
    low: Sequence[float]
    high: Sequence[float]
    level: float | None
    level_says: str
    says: str


def courses(found: Assessment) -> None:
    """Show what is in the air over time.

    Parameters
    ----------
    found : Assessment
        A result with estimates.
    """
    panels = [*_shower(found), *_workroom(found)]
    if not panels:
        return
    for one in panels:
        st.vega_lite_chart(
            picture(one, ink=shown.ink()),
            width="stretch",
            alt=f"{one.title}. {one.says}",
        )
        shown.paragraph(one.says)


def _shower(found: Assessment) -> Iterator[Course]:
    from blendcheck.estimates.air import NoAir, shower_air

    case = found.case
    air = shower_air(case.totals, case.recipe.product, case.materials.workshop.shower)
    if isinstance(air, NoAir) or air.total.central is None:
        return
    over = air.over_time
    events = "; ".join(
        f"{print_estimate(minute, digits=2)} min: {what}"
        for minute, what in over.moments
    )
    for zone, middle, full in (
        ("stall", over.stall, over.stall_full),
        ("bathroom", over.bathroom, over.bathroom_full),
    ):
        yield Course(
            f"All scent in the air of the {zone} [mg/m³]",
            "minutes from the start of the shower",
            over.minutes.tolist(),
            middle.tolist(),
            full.tolist(),
            None,
            "",
            "The solid line is the middle, the dashed line the bound. "
            f"In the {zone} the highest is about "
            f"{print_estimate(float(middle.max()))} mg/m³, and "
            f"{print_estimate(float(full.max()))} mg/m³ if all of it goes off. "
            f"{events}.",
        )


def _workroom(found: Assessment) -> Iterator[Course]:
    from blendcheck.estimates.workroom import in_the_room

    for air in in_the_room(found.totals):
        if not len(air.hours):
            continue
        yield Course(
            f"{air.spirit.name} in the air of the workroom, average [ppm]",
            "hours from the spritz",
            air.hours.tolist(),
            air.low.tolist(),
            air.high.tolist(),
            air.level,
            f"chosen level, {print_estimate(air.level, digits=3)} ppm",
            f"The average is at most {print_estimate(float(air.high.max()), digits=2)} "
            f"ppm; the chosen level is {print_estimate(air.level, digits=3)} ppm. The "
            "air right above the tray holds far more.",
        )


def picture(one: Course, *, ink: str = "black") -> dict[str, Any]:
    """Return a panel as a Vega-Lite description.

    Parameters
    ----------
    one : Course
        What to show.
    ink : str, default "black"
        Colour of lines and words.

    Returns
    -------
    dict
        The description, its data inside.
    """
    every = max(1, len(one.times) // _MOST)
    values = [
        {"t": t, "low": low, "high": high}
        for t, low, high in zip(one.times, one.low, one.high, strict=True)
    ][::every]
    time = {
        "field": "t",
        "type": "quantitative",
        "title": one.time,
        "axis": {"grid": False, "tickCount": 6},
    }
    low = {
        "field": "low",
        "type": "quantitative",
        "title": None,
        "axis": {"tickCount": 5},
    }
    layers: list[dict[str, Any]] = [
        {
            "mark": {"type": "area", "color": _BAND, "opacity": 0.5},
            "encoding": {"x": time, "y": low, "y2": {"field": "high"}},
        },
        {
            "mark": {"type": "line", "color": ink, "strokeWidth": 2},
            "encoding": {"x": time, "y": low},
        },
        {
            "mark": {"type": "line", "color": ink, "strokeDash": [5, 4]},
            "encoding": {"x": time, "y": {**low, "field": "high"}},
        },
    ]
    if one.level is not None:
        layers += _level(one.level, one.level_says, ink)
    return {
        "title": {
            "text": one.title,
            "anchor": "start",
            "fontSize": 13,
            "color": ink,
            "limit": 330,
        },
        "data": {"values": values},
        "height": 260,
        "layer": layers,
    }


def _level(level: float, says: str, ink: str) -> list[dict[str, Any]]:
    at = {"y": {"datum": level, "type": "quantitative"}}
    words = {
        "type": "text",
        "align": "right",
        "baseline": "bottom",
        "dy": -3,
        "text": says,
        "color": ink,
        "fontSize": 12,
    }
    # a line without data gets no name of its own; its words stand beside it
    rule = {"type": "rule", "color": ink, "aria": False}
    return [
        {"mark": rule, "encoding": at},
        {"mark": words, "encoding": {**at, "x": {"value": "width"}}},
    ]
