"""Where something can light: the stages of the work, what is there, how warm it is.

Only entered flash points are looked at; none is predicted and none is averaged.
A flash point says when vapour can be lit, not when scent is lost.
"""

from collections.abc import Iterator
from fractions import Fraction
from typing import get_args

from blendcheck.blend.expand import Node
from blendcheck.checks.case import Case
from blendcheck.checks.margins import MARGIN_MIXTURE, MARGIN_ONE_LIQUID
from blendcheck.frozen import Frozen
from blendcheck.interval import Range
from blendcheck.quantity import Mark, Temperature
from blendcheck.records.mass import Key
from blendcheck.records.material import Material
from blendcheck.records.recipe import Stage
from blendcheck.records.working import Figure, Id

__all__ = [
    "AtStage",
    "There",
    "margin_below_flash_point",
    "stages",
]

_BURN = frozenset(
    {
        "essential oil",
        "fragrance oil",
        "absolute",
        "aroma chemical",
        "carrier",
        "solvent",
        "alcohol",
    }
)
"""Kinds that are asked for a flash point; any other counts only if it has one."""

_WATER = "7732-18-5"
_ALL = Fraction(100)  # percent
_OPEN_BOTTLES: tuple[Stage, ...] = ("stored oils", "weighing")
_WET: tuple[Stage, ...] = ("wet mix", "drying")
_LIQUID_PRODUCTS = frozenset({"soap", "balm", "room mist"})


class There(Frozen):
    """One thing that can burn and is there at a stage.

    Parameters
    ----------
    material : Material
        What it is.
    says : str
        What the maker calls it.
    flash : Id or None
        Figure of its flash point [°C]; ``None`` where the papers have none.
    printed : str
        The flash point as printed.
    cup : {"closed", "open"} or None
        How it was measured, where the paper says so.
    margin : Fraction
        What the flash point must lie above the temperature, at least. [K]
    may_be_gone : bool
        Whether it may have left by then.
    guessed : bool
        Whether that is so only because nobody entered how much leaves.
    """

    material: Material
    says: str
    flash: Id | None
    printed: str
    cup: str | None
    margin: Fraction
    may_be_gone: bool = False
    guessed: bool = False


class AtStage(Frozen):
    """One stage of the work.

    Parameters
    ----------
    stage : Stage
        Its name.
    temperature : Id or None
        Figure or step of how warm it is there [°C]; ``None`` if it is not known.
    printed : str
        The temperature as printed.
    sources : tuple of str or None
        What can light a vapour there; empty if somebody looked and there is
        nothing, ``None`` if it is not known.
    misty : bool
        Whether a mist, a soaked cloth or an oily powder is there, which can light
        below the flash point.
    there : tuple of There
        What can burn, in the order of the recipe.
    """

    stage: Stage
    temperature: Id | None
    printed: str
    sources: tuple[str, ...] | None
    misty: bool
    there: tuple[There, ...]


def margin_below_flash_point(case: Case, at: AtStage, one: There) -> Id | None:
    """Work out how far a stage stays below a flash point.

    Parameters
    ----------
    case : Case
        The case.
    at : AtStage
        The stage.
    one : There
        What is there.

    Returns
    -------
    Id or None
        The step [K]; ``None`` if flash point or temperature is not known.
    """
    if one.flash is None or at.temperature is None:
        return None
    return case.working.work(
        f"margin/{at.stage}/{one.flash}",
        "margin below flash point",
        (one.flash, at.temperature),
        unit="K",
        says=f"{one.says}, {at.stage}: flash point above the temperature there by",
        how=("open cup",) if one.cup == "open" else (),
    ).id


# -- the stages ------------------------------------------------------------


def stages(case: Case) -> tuple[AtStage, ...]:
    """List the stages at which something that can burn is there.

    Parameters
    ----------
    case : Case
        The case.

    Returns
    -------
    tuple of AtStage
        In the order of the work. Heated base, wrapping and posting appear only if
        their temperature is entered (wrapping also with a heat gun), drying only
        if something dries.
    """
    return tuple(
        at
        for stage in get_args(Stage)
        if _happens(stage, case) and (at := _at(stage, case)).there
    )


def _happens(stage: Stage, case: Case) -> bool:
    process = case.recipe.process
    if stage in process.temperature:
        return True
    if stage == "wrapping":
        return process.heat_gun is True
    if stage == "drying":
        return case.recipe.product != "room mist" and any(
            node.leaves is not None for node in case.totals.leaves
        )
    return stage in (*_OPEN_BOTTLES, "wet mix")


def _at(stage: Stage, case: Case) -> AtStage:
    temperature, printed = _temperature(stage, case)
    return AtStage(
        stage,
        temperature,
        printed,
        _sources(stage, case),
        _is_misty(stage, case),
        tuple(_things(stage, case)),
    )


def _temperature(stage: Stage, case: Case) -> tuple[Id | None, str]:
    process = case.recipe.process
    own = process.temperature.get(stage)
    entered, where = (process.room, "room") if own is None else (own, stage)
    if entered is None or not _says_something(entered.range):
        return None, ""
    figure = Figure(
        Key(f"temperature/{where}"),
        entered.printed,
        entered.range,
        "°C",
        "temperature of the room" if own is None else f"temperature, {stage}",
    )
    key = Id(case.working.add(figure))
    if own is None and stage == "wrapping":
        step = case.working.work(
            "temperature/wrapping, heat gun",
            "at least as warm",
            (key,),
            unit="°C",
            says="temperature under the heat gun",
        )
        return step.id, f"{entered.printed} or more"
    return key, entered.printed


def _sources(stage: Stage, case: Case) -> tuple[str, ...] | None:
    process = case.recipe.process
    if stage == "posting":
        return None  # nobody at home knows what a parcel travels with
    if stage == "wrapping" and process.heat_gun:
        return ("heat gun", *(s for s in process.ignition or () if s != "heat gun"))
    return process.ignition


def _is_misty(stage: Stage, case: Case) -> bool:
    product = case.recipe.product
    if product == "room mist":
        return stage not in (*_OPEN_BOTTLES, "posting")
    if stage not in _WET:
        return False
    kinds = {node.material.kind for node in case.totals.leaves if node.material}
    return "alcohol" in kinds or (product not in _LIQUID_PRODUCTS and "solid" in kinds)


def _says_something(span: Range) -> bool:
    return span.low is not None or span.high is not None


# -- what is there ---------------------------------------------------------


def _things(stage: Stage, case: Case) -> Iterator[There]:
    seen: set[tuple[str, str | None]] = set()
    for node in case.totals.leaves:
        material = node.material
        if material is None or (material.id, node.lot) in seen:
            continue
        flash = _flash_point(material, node.lot)
        if not _can_burn(material, flash):
            continue
        presence = _presence(stage, node, case)
        if presence == "gone":
            continue
        seen.add((material.id, node.lot))
        yield There(
            material,
            node.says,
            _flash_figure(node, flash, case),
            "" if flash is None else flash.printed,
            None if flash is None else flash.cup,
            _needed(stage, node, case),
            presence == "may be gone",
            presence == "may be gone"
            and node.leaves is not None
            and Mark.ESTIMATED in case.working.marks(node.leaves),
        )


def _flash_point(material: Material, lot: str | None) -> Temperature | None:
    """Return the lot's own flash point, else the material's, if it says anything."""
    own = next((one.flash_point for one in material.lot if one.lot == lot), None)
    for flash in (own, material.flash_point):
        if flash is not None and _says_something(flash.range):
            return flash
    return None


def _can_burn(material: Material, flash: Temperature | None) -> bool:
    if material.cas == _WATER:
        return False
    return material.kind in _BURN or flash is not None


def _flash_figure(node: Node, flash: Temperature | None, case: Case) -> Id | None:
    if flash is None or node.material is None:
        return None
    figure = Figure(
        Key(f"flash/{node.material.id}/{node.lot or '-'}"),
        flash.printed,
        flash.range,
        "°C",
        f"flash point of {node.says}",
        document=node.material.flash_point_document,
    )
    return Id(case.working.add(figure))


def _presence(stage: Stage, node: Node, case: Case) -> str:
    """Say whether a leaf is ``there``, ``gone`` or ``may be gone`` at a stage.

    What stays of an alcohol whose share that leaves is entered is its water, so a
    dry piece has none of it left; how dry it is, the dry mass tells.
    """
    if node.leaves is None or stage in (*_OPEN_BOTTLES, *_WET):
        return "there"
    leaves = case.working.range(node.leaves)
    low = leaves.low or Fraction(0)
    high = _ALL if leaves.high is None else leaves.high
    if high == 0:
        return "there"
    if node.material is not None and node.material.kind == "alcohol":
        return "gone" if low > 0 else "may be gone"
    if high < _ALL:
        return "there"
    return "gone" if low == _ALL else "may be gone"


def _needed(stage: Stage, node: Node, case: Case) -> Fraction:
    """Return the margin: a single substance alone in its bottle, or a mixture."""
    material = node.material
    alone = (
        stage in _OPEN_BOTTLES
        and material is not None
        and material.cas is not None
        and material.kind != "alcohol"  # sold with water in it
        and case.totals.is_own(node)
        and not _is_mixed_ahead(material.id, case)
    )
    return MARGIN_ONE_LIQUID if alone else MARGIN_MIXTURE


def _is_mixed_ahead(material: str, case: Case) -> bool:
    """Whether a material stands on the shelf in a stock blend or a dilution."""
    shelf = case.materials
    in_stock = {
        line.material
        for stock in (*shelf.stock, *case.recipe.stock)
        for line in stock.line
    }
    diluted = {m.id for m in shelf.material if m.dilution is not None}
    diluents = {m.dilution.diluent for m in shelf.material if m.dilution is not None}
    return material in in_stock | diluted | diluents
