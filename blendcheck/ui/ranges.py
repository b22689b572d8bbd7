"""Published ranges of an oil's components, with a lot's own report over them.

The chart is a plain Vega-Lite description; nothing is drawn or imported here. What
was read, what was only recalled and what the lot holds differ in form as well as in
colour. Numbers become floats only for their place on the paper.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, Final

from blendcheck.interval import Range
from blendcheck.quantity import print_range

__all__ = ["Row", "against", "picture", "sentence_of"]

_PUBLISHED: Final = "#0072B2"  # Okabe and Ito, Color Universal Design
_STEP: Final = 46
_OFFSET: Final = 12


@dataclass(frozen=True)
class Row:
    """One component of the chart and of the table beside it.

    Parameters
    ----------
    name : str
        The component.
    cas : str
        Its number; blank where there is none.
    read : Range or None
        What was read in sources, all together. [%]
    recalled : Range or None
        What is from memory, or a typical figure. [%]
    lot : Range or None
        What the lot's report prints. [%]
    printed : str
        The same as printed; blank where the report does not show it.
    named : str, optional
        The component as the report prints it, where that differs.
    """

    name: str
    cas: str
    read: Range | None
    recalled: Range | None
    lot: Range | None
    printed: str
    named: str = ""


def _ends(span: Range) -> tuple[Fraction, Fraction]:
    return span.low or Fraction(0), Fraction(100) if span.high is None else span.high


def against(row: Row) -> str:
    """Say in words how the lot lies to what was read in sources.

    Parameters
    ----------
    row : Row
        One component.

    Returns
    -------
    str
        Blank where the lot's report does not show it.

    Examples
    --------
    >>> published = Range.between(30, 55)
    >>> against(Row("menthol", "", published, None, Range.at(60), "60 %"))
    'above all that is published'
    """
    if row.lot is None:
        return ""
    if row.read is None:
        return "nothing was read to compare it with"
    (low, high), (least, most) = _ends(row.lot), _ends(row.read)
    if low > most:
        return "above all that is published"
    if high < least:
        return "below all that is published"
    return "inside" if least <= low and high <= most else "reaches outside"


def sentence_of(row: Row) -> str:
    """Say a row in words, for those who do not see the chart.

    Parameters
    ----------
    row : Row
        One component.
    """
    said = []
    if row.read is not None:
        said.append(f"published {print_range(row.read, '%')}")
    elif row.recalled is not None:
        said.append(f"from memory or typical {print_range(row.recalled, '%')}")
    if row.printed:
        said.append(f"lot {row.printed}")
    return f"{row.name}: {', '.join(said) or 'no figure'}"


def picture(rows: list[Row], *, ink: str = "black") -> dict[str, Any]:
    """Return the chart as a Vega-Lite description.

    Parameters
    ----------
    rows : list of Row
        The components, at least one.
    ink : str, default "black"
        Colour of the words and of the lot.

    Returns
    -------
    dict
        The description, its data inside.
    """
    spans = [s for row in rows for s in (row.read, row.recalled, row.lot) if s]
    end = min(100.0, max((float(_ends(span)[1]) for span in spans), default=1) * 1.05)
    bars = [bar for n, row in enumerate(rows) for bar in _bars(n, row, end)]
    labels = [{"row": str(n), "label": sentence_of(r)} for n, r in enumerate(rows)]
    place = {
        "field": "row",
        "type": "nominal",
        "sort": None,
        "title": None,
        "scale": {"domain": [str(n) for n in range(len(rows))]},
        "axis": {"labels": False, "ticks": False, "domain": False},
    }
    share = {
        "field": "low",
        "type": "quantitative",
        "title": "share of the oil, %",
        "scale": {"domain": [0, end]},
        "axis": {"tickCount": 5, "grid": True, "gridOpacity": 0.4},
    }
    layers: list[dict[str, Any]] = [
        _layer(bars, "read", {"height": 16, "color": _PUBLISHED}, place, share),
        _layer(
            bars,
            "recalled",
            {
                "height": 16,
                "color": "transparent",
                "stroke": ink,
                "strokeDash": [3, 3],
                "strokeWidth": 1,
            },
            place,
            share,
        ),
        _layer(bars, "lot", {"height": 6, "color": ink}, place, share),
        {
            "data": {"values": [bar for bar in bars if bar["kind"] == "lot end"]},
            "mark": {
                "type": "tick",
                "size": 26,
                "thickness": 3,
                "yOffset": _OFFSET - 4,
                "color": ink,
            },
            "encoding": {"y": place, "x": share},
        },
        {
            "data": {"values": labels},
            "mark": {
                "type": "text",
                "clip": True,  # a long name must not squeeze the bars
                "align": "left",
                "baseline": "middle",
                "dy": -_OFFSET,
                "dx": 3,
                "fontSize": 13,
                "color": ink,
            },
            "encoding": {
                "y": place,
                "x": {"value": 0},
                "text": {"field": "label", "type": "nominal"},
            },
        },
    ]
    # a layer without a mark is a picture without words to a screen reader
    drawn = [layer for layer in layers if layer["data"]["values"]]
    return {"height": {"step": _STEP}, "layer": drawn}


def _layer(
    bars: list[dict[str, Any]],
    kind: str,
    mark: dict[str, Any],
    place: dict[str, Any],
    share: dict[str, Any],
) -> dict[str, Any]:
    return {
        "data": {"values": [bar for bar in bars if bar["kind"] == kind]},
        "mark": {"type": "bar", "yOffset": _OFFSET - 4, **mark},
        "encoding": {"y": place, "x": share, "x2": {"field": "high"}},
    }


def _bars(n: int, row: Row, end: float) -> Iterator[dict[str, Any]]:
    """Yield the bars of a row; an exact figure becomes a stroke that can be seen."""
    recalled = row.recalled if row.read is None else None
    for kind, span in (("read", row.read), ("recalled", recalled), ("lot", row.lot)):
        if span is None:
            continue
        low, high = (min(float(one), end) for one in _ends(span))
        if kind == "lot":
            for one in (low, high):
                yield {"row": str(n), "kind": "lot end", "low": one, "high": one}
        elif high - low < end / 120:
            low, high = max(0.0, low - end / 240), high + end / 240
        yield {"row": str(n), "kind": kind, "low": low, "high": high}
