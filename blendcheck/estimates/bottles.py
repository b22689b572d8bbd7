"""What is in one bottle with an oil: what it is sold diluted in, and spirits.

A flash point of oils says nothing of a bottle that holds something else as well: a few
per cent of spirit in it set its flash point.
"""

from collections.abc import Iterable
from typing import Final

from blendcheck.blend.totals import Totals
from blendcheck.estimates.compositions import Component, Lot, Weighed
from blendcheck.estimates.mixing import Open
from blendcheck.estimates.parts import Part, part_of
from blendcheck.records.material import Stock, StockLine

__all__ = ["MIXED_IN", "as_sold", "mixed_in"]

MIXED_IN: Final = "in one bottle with the oils"
"""What an estimate lacks where :func:`mixed_in` finds something."""

_SPIRITS: Final = frozenset({"alcohol", "solvent", "water"})


def as_sold(totals: Totals, one: Weighed) -> tuple[Lot, float, float] | Open:
    """Return a lot with its grams, together with what it is diluted in.

    Parameters
    ----------
    totals : Totals
        Totals of a recipe.
    one : Weighed
        A lot of it.

    Returns
    -------
    (Lot, float, float) or Open
        A leaf of a diluted material is the oil alone; what stands on the shelf, and
        what is weighed, holds the diluent too. The second where that lacks a figure:
        it is never taken for a light end, because it may be a spirit, which is
        lighter than all of them. [g]
    """
    material = one.node.material
    sold = None if material is None else totals.materials.get(material.id)
    dilution = None if sold is None else sold.dilution
    if dilution is None or dilution.papers_describe == "as sold":
        return one.lot, one.low, one.high
    span, diluent = dilution.percent.range, totals.materials.get(dilution.diluent)
    least, most = (float(end or 0) / 100 for end in (span.low, span.high))
    rest = Component(diluent.cas, diluent.name, 100 * (1 - most), 100 * (1 - least))
    if diluent.cas is None or not isinstance(part_of(diluent.cas), Part):
        return Open(f"{diluent.name} in {one.lot.says}", "not known", rest.high, None)
    rows = tuple(
        Component(row.cas, row.name, row.low * least, row.high * most)
        for row in one.lot.components
    )
    unlisted = one.lot.unlisted[0] * least, one.lot.unlisted[1] * most
    lot = Lot(
        one.lot.key, one.lot.says, (*rows, rest), unlisted, one.lot.is_whole,
        one.lot.marks,
    )  # fmt: skip
    return lot, one.low / most, one.high / (least or most)


def mixed_in(totals: Totals) -> tuple[Open, ...]:
    """Return the spirits and waters that lie in one bottle with oils.

    Parameters
    ----------
    totals : Totals
        Totals of a recipe.

    Returns
    -------
    tuple of Open
        Those in the blend, or in a stock blend that holds something scented.
    """
    recipe, materials = totals.recipe, totals.materials
    stocks = {one.id: one for one in (*materials.stock, *recipe.stock)}
    found: dict[str, Open] = {}

    def scented(lines: Iterable[StockLine]) -> bool:
        return any(
            materials.get(one.material).is_scented
            if one.material is not None
            else scented(stocks[one.stock or ""].line)
            for one in lines
        )

    def look(bottle: Stock) -> None:
        held = scented(bottle.line)
        for one in bottle.line:
            if one.stock is not None:
                look(stocks[one.stock])
                continue
            material = materials.get(one.material or "")
            if held and material.kind in _SPIRITS:
                found[material.id] = Open(material.name, MIXED_IN, 100.0, None)

    blend = () if recipe.blend is None else recipe.blend.line
    for line in (*recipe.line, *blend):
        if line.stock is not None:
            look(stocks[line.stock])
    if blend:
        look(Stock(id="blend", line=blend))
    return tuple(found.values())
