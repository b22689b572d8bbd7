"""Use against cap as horizontal range bars, the cap as one line through all rows.

The chart is a plain Vega-Lite description: nothing is drawn or imported here. Every
bar stands for a fraction of its own cap, worked out by the rule that the findings
use, so that caps of 0.1 % and of 6 % share one axis. Numbers become floats only for
their place on the paper.
"""

from dataclasses import dataclass
from typing import Any, Final

from blendcheck.assess import Assessment
from blendcheck.checks.entries import cap_figure
from blendcheck.checks.judge import cap_percent
from blendcheck.interval import Range
from blendcheck.records.finding import Finding, Outcome
from blendcheck.ui.choosing import outcome_words
from blendcheck.ui.finding_view import value_text

__all__ = ["Bar", "bars", "picture", "sentence_of"]

_WIDEST: Final = 3.0
"""Where the axis ends at the latest, in caps; what is beyond is cut and said."""

# Okabe and Ito, Color Universal Design. The word stands at every bar as well.
_COLOURS: Final = {
    Outcome.OVER: "#D55E00",
    Outcome.STRADDLES: "#E69F00",
    Outcome.UNKNOWN: "#56B4E9",
    Outcome.WITHIN: "#0072B2",
}


@dataclass(frozen=True)
class Bar:
    """One row of the chart.

    Parameters
    ----------
    row : str
        What is limited, and by what.
    words : str
        Its outcome in words.
    span : Range
        Use as a fraction of the cap. [1]
    value : str
        The same in percent of the finished product, as printed.
    outcome : Outcome
        The outcome.
    """

    row: str
    words: str
    span: Range
    value: str
    outcome: Outcome


def bars(assessment: Assessment) -> list[Bar]:
    """Return a bar for each limit that counts and has a cap with a number.

    Parameters
    ----------
    assessment : Assessment
        A result.
    """
    made: list[Bar] = []
    for finding in assessment.findings:
        bar = _bar(finding, assessment) if finding.counts else None
        if bar is not None:
            made.append(bar)
    return made


def _bar(finding: Finding, assessment: Assessment) -> Bar | None:
    entry, value = finding.cap, finding.value
    if entry is None or value is None or finding.outcome is None or finding.unit != "%":
        return None
    if not cap_percent(entry.cap):
        return None
    step = assessment.working.work(
        f"use of the cap/{finding.check}/{finding.subject}/{finding.limit}",
        "use over cap",
        (value, cap_figure(entry, assessment.case)),
        unit="",
        says=f"{finding.subject}, use ÷ cap",
    ).id
    where = f", category {entry.category}" if entry.category else ""
    return Bar(
        f"{finding.subject}{where}",
        outcome_words(finding.outcome),
        assessment.working.range(step),
        value_text(finding, assessment),
        finding.outcome,
    )


def sentence_of(bar: Bar) -> str:
    """Say a bar in words, for those who do not see the chart.

    Parameters
    ----------
    bar : Bar
        The bar.
    """
    return f"{bar.row}: {bar.value}, {bar.words}"


def _place(value: Any, default: float) -> float:  # noqa: ANN401
    return default if value is None else float(value)


def picture(found: list[Bar], *, ink: str = "black") -> dict[str, Any]:
    """Return the chart of some bars as a Vega-Lite description.

    Parameters
    ----------
    found : list of Bar
        The bars, at least one.
    ink : str, default "black"
        Colour of the words and of the line of the cap.

    Returns
    -------
    dict
        The description, its data inside.
    """
    highest = max(_place(bar.span.high, _WIDEST) for bar in found)
    end = min(max(1.25, highest * 1.05), _WIDEST)
    row = {
        "field": "row",
        "type": "nominal",
        "sort": None,
        "title": None,
        "axis": {"labels": False, "ticks": False, "domain": False},
    }
    use = {
        "field": "low",
        "type": "quantitative",
        "title": "use as a share of the cap",
        "scale": {"domain": [0, end]},
        "axis": {"format": ".0%", "tickCount": 5, "grid": False},
    }
    return {
        "data": {"values": [_values(n, bar, end) for n, bar in enumerate(found)]},
        "height": {"step": 58},
        "layer": [
            {
                "mark": {"type": "bar", "height": 12, "yOffset": 16},
                "encoding": {
                    "y": row,
                    "x": use,
                    "x2": {"field": "high"},
                    "color": _colour(),
                },
            },
            {
                "mark": {
                    "type": "text",
                    "clip": True,  # a long name must not squeeze the bars
                    "align": "left",
                    "baseline": "top",
                    "dy": -26,
                    "dx": 3,
                    "fontSize": 13,
                    "lineBreak": "\n",
                    "lineHeight": 16,
                    "color": ink,
                },
                "encoding": {
                    "y": row,
                    "x": {"value": 0},
                    "text": {"field": "label", "type": "nominal"},
                },
            },
            {
                "mark": {
                    "type": "tick",
                    "size": 30,
                    "thickness": 3,
                    "yOffset": 16,
                    "color": ink,
                },
                "encoding": {"y": row, "x": {"datum": 1}},
            },
            {
                "data": {"values": [{"cap": 1}]},
                "mark": {
                    "type": "text",
                    "align": "center",
                    "baseline": "bottom",
                    "fontSize": 13,
                    "fontWeight": "bold",
                    "color": ink,
                },
                "encoding": {
                    "x": {"field": "cap", "type": "quantitative"},
                    "y": {"value": 0},
                    "text": {"value": "the cap"},
                },
            },
        ],
    }


def _values(n: int, bar: Bar, end: float) -> dict[str, Any]:
    low, high = _place(bar.span.low, 0.0), _place(bar.span.high, end)
    beyond = ", goes on beyond the picture" if high > end else ""
    if bar.span.high is None:
        beyond = ", nothing bounds it"
    low, high = _wide_enough(min(low, end), min(high, end), end / 150)
    return {
        "row": str(n),
        "low": low,
        "high": high,
        "words": bar.words,
        "label": f"{bar.row}\n{bar.words}{beyond}",
    }


def _wide_enough(low: float, high: float, least: float) -> tuple[float, float]:
    """Make an exact figure a stroke that can be seen, on its own side of the cap."""
    if high - low >= least:
        return low, high
    return (low, low + least) if low > 1 or low < least else (high - least, high)


def _colour() -> dict[str, Any]:
    words = [outcome_words(outcome) for outcome in Outcome]
    return {
        "field": "words",
        "type": "nominal",
        "legend": None,
        "scale": {"domain": words, "range": list(_COLOURS.values())},
    }
