"""The irritant load of several recipes as range bars, all volatile scent behind them.

The chart is a plain Vega-Lite description; nothing is drawn or imported here. Both
bars differ in form as well as in colour, and the text beside them says the same.
Numbers become floats only for their place on the paper.
"""

from collections.abc import Iterator
from typing import Any, Final

from blendcheck.compare import Cell, Comparison
from blendcheck.interval import Range
from blendcheck.quantity import print_range
from blendcheck.ranking import told_apart

__all__ = ["picture", "sentences"]

_LOAD: Final = "#0072B2"  # Okabe and Ito, Color Universal Design
_STEP: Final = 68
_OFFSET: Final = 18


def _piece(cell: Cell | None) -> Range | None:
    return None if cell is None else cell.per_piece


def sentences(found: Comparison) -> list[str]:
    """Say every row of the chart in words.

    Parameters
    ----------
    found : Comparison
        Recipes side by side.
    """
    names = told_apart(found.names)
    return [_sentence(found, n, name) for n, name in enumerate(names)]


def _sentence(found: Comparison, n: int, name: str) -> str:
    load, scent = _piece(found.irritants.cells[n]), _piece(found.volatile.cells[n])
    if found.irritants.cells[n] is None:
        first = "irritant load not known"
    elif load is None:
        return f"{name}: no piece mass"
    else:
        first = f"irritant load {print_range(load, 'g', digits=3)}"
    behind = "not known" if scent is None else print_range(scent, "g", digits=3)
    return f"{name}: {first}, all volatile scent {behind}"


def picture(found: Comparison, *, ink: str = "black") -> dict[str, Any]:
    """Return the chart as a Vega-Lite description.

    Parameters
    ----------
    found : Comparison
        Recipes side by side; at least one of them has a piece mass.
    ink : str, default "black"
        Colour of the words and of the outline.

    Returns
    -------
    dict
        The description, its data inside.
    """
    bars = list(_bars(found))
    end = max((bar["high"] for bar in bars), default=1.0) * 1.05
    labels = [
        {"row": str(n), "label": text.replace(": ", "\n", 1)}
        for n, text in enumerate(sentences(found))
    ]
    place = {
        "field": "row",
        "type": "nominal",
        "sort": None,
        "title": None,
        "scale": {"domain": [str(n) for n in range(len(found.names))]},
        "axis": {"labels": False, "ticks": False, "domain": False},
    }
    grams = {
        "field": "low",
        "type": "quantitative",
        "title": "in one piece, g",
        "scale": {"domain": [0, end]},
        "axis": {"tickCount": 5, "grid": True, "gridOpacity": 0.4},
    }
    outline = {"height": 18, "color": "transparent", "stroke": ink, "strokeWidth": 1}
    layers = [
        _layer(bars, "scent", {**outline, "strokeDash": [3, 3]}, place, grams),
        _layer(bars, "load", {"height": 10, "color": _LOAD}, place, grams),
        {
            "data": {"values": labels},
            "mark": {
                "type": "text",
                "clip": True,  # a long name must not squeeze the bars
                "align": "left",
                "baseline": "top",
                "dy": -_OFFSET - 14,
                "lineBreak": "\n",
                "lineHeight": 16,
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
    drawn = [layer for layer in layers if layer["data"]["values"]]
    return {"height": {"step": _STEP}, "layer": drawn}


def _layer(
    bars: list[dict[str, Any]],
    kind: str,
    mark: dict[str, Any],
    place: dict[str, Any],
    grams: dict[str, Any],
) -> dict[str, Any]:
    return {
        "data": {"values": [bar for bar in bars if bar["kind"] == kind]},
        "mark": {"type": "bar", "yOffset": _OFFSET, **mark},
        "encoding": {"y": place, "x": grams, "x2": {"field": "high"}},
    }


def _bars(found: Comparison) -> Iterator[dict[str, Any]]:
    """Yield the bars; an exact figure becomes a stroke that can be seen."""
    rows = (("scent", found.volatile), ("load", found.irritants))
    tops = [
        float(span.high or 0)
        for _, row in rows
        for cell in row.cells
        if (span := _piece(cell)) is not None
    ]
    least = max(tops, default=1.0) / 120
    for kind, row in rows:
        for n, cell in enumerate(row.cells):
            span = _piece(cell)
            if span is None:
                continue
            low, high = float(span.low or 0), float(span.high or 0)
            if high - low < least:
                low, high = max(0.0, low - least / 2), high + least / 2
            yield {"row": str(n), "kind": kind, "low": low, "high": high}
