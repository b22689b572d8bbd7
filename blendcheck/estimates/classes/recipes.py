"""The classes and labels of a recipe: of its neat blend and of the finished product."""

from collections.abc import Iterator
from fractions import Fraction

from blendcheck import reference
from blendcheck.blend.expand import Node
from blendcheck.blend.totals import Totals
from blendcheck.estimates.classes.engine import classify
from blendcheck.estimates.classes.labels import LabelElements, label_of
from blendcheck.estimates.classes.mixtures import (
    finished_product,
    material_profile,
    neat_blend,
)
from blendcheck.estimates.classes.model import EU, Classes, Scheme, Standing
from blendcheck.frozen import Frozen
from blendcheck.quantity.hazards import CLASSES, family_of
from blendcheck.records.material import Material
from blendcheck.starting import oils_meant, published_shares

__all__ = ["Labelled", "Lacking", "lacking", "recipe_classes"]


class Labelled(Frozen):
    """One mixture of a recipe with its classes and its label.

    Parameters
    ----------
    name : str
        ``"neat blend"`` or ``"finished product"``.
    classes : Classes
        Every class with the lines that it opens to.
    certain : LabelElements
        Elements for the classes that are certain.
    cautious : LabelElements
        Elements for the possible classes too: what a label would carry as long as
        the figures leave them open.
    """

    name: str
    classes: Classes
    certain: LabelElements
    cautious: LabelElements


def recipe_classes(totals: Totals, scheme: Scheme = EU) -> tuple[Labelled, ...]:
    """Classify the neat blend and the finished product of a recipe.

    Parameters
    ----------
    totals : Totals
        The totals of the recipe.
    scheme : Scheme, default EU
        By whose rules.

    Returns
    -------
    tuple of Labelled
        The neat blend first, where there is one.
    """
    mixtures = (neat_blend(totals), finished_product(totals))
    return tuple(
        Labelled(
            mixture.name,
            found,
            label_of(found, Standing.CERTAIN),
            label_of(found),
        )
        for mixture in mixtures
        if mixture is not None
        for found in (classify(mixture, scheme),)
    )


# -- what a sheet lacks ----------------------------------------------------

Shares = dict[str, tuple[str, Fraction]]


class _Rule(Frozen):
    """From which share of components on a class is asked about."""

    family: str
    hazard_class: str
    statement: str
    least: Fraction
    summed: bool


_BY_COMPONENTS = (
    _Rule("Asp. Tox.", "Asp. Tox. 1", "H304", Fraction(10), summed=True),
    _Rule("Skin Sens.", "Skin Sens. 1", "H317", Fraction(1), summed=False),
)
"""Shares from which components would bring the class. [%] (3.10.3.3.1, Table 3.4.5)"""


class Lacking(Frozen):
    """A class that a supplier's sheet does not have and that others give it.

    Parameters
    ----------
    material : str
        The material.
    hazard_class, statement : str
        The class and its code.
    because : tuple of str
        Components that others class so, or the material itself.
    sources : tuple of str
        Source ids.
    from_memory : bool
        Whether all of that is from memory.
    """

    material: str
    hazard_class: str
    statement: str
    because: tuple[str, ...]
    sources: tuple[str, ...]
    from_memory: bool


def lacking(totals: Totals) -> Iterator[Lacking]:
    """Find classes to ask the supplier about; they classify nothing.

    Parameters
    ----------
    totals : Totals
        The totals of a recipe.

    Yields
    ------
    Lacking
        For each material whose own paper was entered: classes that somebody gives an
        oil of that number, aspiration where its components reach 10 %, and a skin
        sensitiser from 1 % on.
    """
    seen: set[tuple[str, str]] = set()
    for node in totals.leaves:
        material = node.material
        if material is None or not material_profile(material).entered:
            continue
        for found in _lacking(totals, node, material):
            key = (material.id, found.statement)
            if key not in seen:
                seen.add(key)
                yield found


def _lacking(totals: Totals, node: Node, material: Material) -> Iterator[Lacking]:
    own = material_profile(material, node.lot)
    families = {claim.family for claim in own.claims}
    for row in reference.hazard_classes_of(material.cas or ""):
        if row.hazard_class in CLASSES and family_of(row.hazard_class) not in families:
            statement = row.statement or CLASSES[row.hazard_class][0]
            yield Lacking(
                material.name,
                row.hazard_class,
                statement,
                (material.name,),
                (row.source_id,),
                row.tag == "memory",
            )
    shares = _shares(totals, node, material)
    for rule in _BY_COMPONENTS:
        if rule.family not in families:
            yield from _by_components(material, shares, rule)


def _by_components(
    material: Material, shares: Shares, rule: _Rule
) -> Iterator[Lacking]:
    met = {cas: _rows(cas, rule.statement) for cas in shares}
    met = {cas: rows for cas, rows in met.items() if rows}
    reached = {cas for cas in met if shares[cas][1] >= rule.least}
    if rule.summed:
        total = sum((shares[cas][1] for cas in met), Fraction(0))
        reached = set(met) if total >= rule.least else set()
    if reached:
        found = [row for cas in reached for row in met[cas]]
        yield Lacking(
            material.name,
            rule.hazard_class,
            rule.statement,
            tuple(sorted(shares[cas][0] for cas in reached)),
            tuple(sorted({row.source_id for row in found})),
            all(row.tag == "memory" for row in found),
        )


def _rows(cas: str, statement: str) -> list[reference.HazardClass]:
    rows = reference.hazard_classes_of(cas)
    return [row for row in rows if row.statement == statement]


def _shares(totals: Totals, node: Node, material: Material) -> Shares:
    """Return low ends of components that have a number: listed, else published."""
    if totals.is_own(node):
        return {}
    rows = totals.shares.lists.rows(node)
    found = {
        identity: (row.name, totals.working.range(row.id).low or Fraction(0))
        for identity, row in rows.items()
        if not identity.startswith("name:")
    }
    if found:
        return found
    for oil in oils_meant(material):
        return {
            one.cas: (one.name, one.range.low or Fraction(0))
            for one in published_shares(oil.oil)
            if one.cas is not None
        }
    return {}
