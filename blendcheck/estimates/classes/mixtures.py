"""From a recipe and its papers to mixtures that can be classified.

Supplier's classes come first, then harmonised classes of the tables: those read in a
source are documented, those from memory only make a class possible. What others
notified or proposed classifies nothing.
"""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

from blendcheck import reference
from blendcheck.blend.expand import Node
from blendcheck.blend.regram import grams_amount, line_at
from blendcheck.blend.totals import Totals, total
from blendcheck.errors import InputError, RecipeError
from blendcheck.estimates.classes.model import (
    Claim,
    Ingredient,
    Mixture,
    Part,
    Profile,
)
from blendcheck.interval import Range
from blendcheck.quantity import Base, Temperature
from blendcheck.quantity.hazard_measures import Measure
from blendcheck.quantity.hazards import CLASSES, NOT_CLASSIFIED, SUPPLEMENTAL, family_of
from blendcheck.records.hazard import Hazard
from blendcheck.records.material import Material, Stock, StockLine, identity_of
from blendcheck.records.recipe import Line, Recipe

if TYPE_CHECKING:
    from blendcheck.quantity.hazard_figures import Route, Toxicity

__all__ = [
    "FINISHED_PRODUCT",
    "NEAT_BLEND",
    "WET_MIX",
    "finished_product",
    "harmonised_claims",
    "material_profile",
    "neat_blend",
    "wet_mix",
]

NEAT_BLEND = "neat blend"
FINISHED_PRODUCT = "finished product"
WET_MIX = "wet mix"
_WATER = "7732-18-5"
_STOCK = "neat blend, weighed"
_LIQUID: Mapping[str, bool] = {
    "shower tablet": False,
    "bath fizz": False,
    "soap": False,
    "balm": False,
    "room mist": True,
}
"""Whether a product is a liquid; one that is not here nobody can tell."""


# -- profiles --------------------------------------------------------------


def harmonised_claims(cas: str | None) -> tuple[Claim, ...]:
    """Return the harmonised classes of a substance, as far as the tables have them.

    Parameters
    ----------
    cas : str or None
        Its CAS number.

    Returns
    -------
    tuple of Claim
        Those from memory are not documented.
    """
    if cas is None:
        return ()
    found = []
    for row in reference.hazard_classes_of(cas):
        if row.standing != "harmonised" or row.hazard_class not in CLASSES:
            continue
        read = row.tag == "seen"
        source = "harmonised class" if read else "harmonised class, from memory"
        statement = row.statement or CLASSES[row.hazard_class][0]
        claim = Claim(
            row.hazard_class, statement, f"{source} ({row.source_id})", documented=read
        )
        found.append(claim)
    return tuple(found)


def _of_papers(papers: Iterable[Hazard]) -> Profile:
    """Put what several papers say of one thing together; the worse counts."""
    profile = Profile(entered=False)
    toxicity: dict[Route, Toxicity] = {}
    for paper in papers:
        source = "supplier's sheet" + (f" {paper.document}" if paper.document else "")
        claims = tuple(
            Claim(one.name, one.statement, source)
            for one in paper.classes
            if one.name not in (NOT_CLASSIFIED, SUPPLEMENTAL)
        )
        claims += _of_limits(paper, {one.family for one in claims}, source)
        for figure in paper.ate:
            known = toxicity.get(figure.route)
            if known is None or (figure.range.low or 0) < (known.range.low or 0):
                toxicity[figure.route] = figure
        profile = replace(
            profile,
            claims=(*profile.claims, *claims),
            complete=profile.complete or paper.copied_whole,
            entered=True,
            limits=(*profile.limits, *paper.limits),
            m_acute=_larger(profile.m_acute, _range(paper.m_acute)),
            m_chronic=_larger(profile.m_chronic, _range(paper.m_chronic)),
            adds_up=profile.adds_up and paper.adds_up,
            acidity=profile.acidity or _range(paper.ph),
            viscosity=profile.viscosity or _range(paper.viscosity),
            boiling=profile.boiling or _range(paper.boiling_point),
        )
    return replace(profile, toxicity=toxicity)


def _of_limits(paper: Hazard, families: set[str], source: str) -> tuple[Claim, ...]:
    """Return classes that a paper prints only with their specific limit."""
    found = {
        limit.hazard.name: Claim(limit.hazard.name, limit.hazard.statement, source)
        for limit in paper.limits
        if limit.hazard.name != SUPPLEMENTAL
    }
    return tuple(one for one in found.values() if one.family not in families)


def _range(printed: Measure | Temperature | None) -> Range | None:
    return None if printed is None else printed.range


def _larger(one: Fraction | None, other: Range | None) -> Fraction | None:
    found = (one, None if other is None else other.low)
    return max((x for x in found if x is not None), default=None)


def _with_harmonised(profile: Profile, cas: str | None) -> Profile:
    """Add harmonised classes where the supplier's paper does not speak."""
    if profile.complete:
        return profile
    spoken = {claim.family for claim in profile.claims}
    more = tuple(c for c in harmonised_claims(cas) if family_of(c.name) not in spoken)
    acute, chronic = (_harmonised_factor(cas, kind) for kind in ("acute", "chronic"))
    return replace(
        profile,
        claims=(*profile.claims, *more),
        m_acute=profile.m_acute or acute,
        m_chronic=profile.m_chronic or chronic,
    )


def _harmonised_factor(cas: str | None, kind: str) -> Fraction | None:
    """Return the M-factor of a harmonised class, as far as the tables have it."""
    for row in () if cas is None else reference.hazard_classes_of(cas):
        found = re.search(rf"M\({kind}\)=(10*)\b", row.limits)
        if row.standing == "harmonised" and found is not None:
            return Fraction(found[1])
    return None


def material_profile(material: Material, lot: str | None = None) -> Profile:
    """Return what is known of the hazards of a material as a whole.

    Parameters
    ----------
    material : Material
        The material.
    lot : str, optional
        Its lot, for the flash point.
    """
    papers = [one for one in material.hazard if not one.is_of_component]
    profile = _with_harmonised(_of_papers(papers), material.cas)
    if material.cas == _WATER or (material.kind == "water" and not papers):
        profile = replace(profile, complete=True, entered=True)
    own = next((one.flash_point for one in material.lot if one.lot == lot), None)
    flash = own or material.flash_point
    if flash is None or (flash.range.low is None and flash.range.high is None):
        return profile
    return replace(profile, flash=flash.range)


def _component_profile(
    totals: Totals, material: Material, identity: str, name: str
) -> Profile:
    """Return what is known of a component: by its own sheet, else by another's.

    One number is one substance, so what the sheet of another material in the recipe
    says of it counts where this one is silent.
    """
    cas = None if identity.startswith("name:") else identity
    papers = _rows_of(material, {identity, identity_of(name, None)})
    if not papers and cas is not None:
        others = (n.material for n in totals.leaves if n.material is not None)
        found = [(m, p) for m in others for p in _rows_of(m, {cas})]
        papers = [
            p.model_copy(update={"document": p.document or f"of {m.name}"})
            for m, p in found
        ]
    profile = _with_harmonised(_of_papers(papers), cas)
    return replace(profile, complete=True) if cas == _WATER else profile


def _rows_of(material: Material, named: set[str]) -> list[Hazard]:
    """Return what the sheet of a material says of a component, by name or number."""
    return [
        one
        for one in material.hazard
        if one.is_of_component
        and not named.isdisjoint({one.cas, identity_of(one.name, None)})
    ]


# -- parts -----------------------------------------------------------------


def _times(share: Range, whole: Range, *, sure: bool, most: bool) -> Range:
    """Return a share of a share; without ``sure`` its low end is nothing."""
    low = (share.low or Fraction(0)) * (whole.low or Fraction(0)) / 100
    top = share.high if most and share.high is not None else Fraction(100)
    outer = Fraction(100) if whole.high is None else whole.high
    high = top * outer / 100
    low = low if sure else Fraction(0)
    is_open = low < high and ((most and share.high_open) or whole.high_open)
    return Range(low, high, high_open=is_open)


def _ingredients(
    totals: Totals, node: Node, whole: Range, *, dried: bool
) -> Iterator[Ingredient]:
    material = node.material
    if material is None or totals.is_own(node):
        return
    rows = totals.shares.lists.rows(node)
    for identity, row in rows.items():
        sure = not row.published and not (dried and node.leaves is not None)
        share = _times(
            totals.working.range(row.id), whole, sure=sure, most=row.says_most
        )
        profile = _component_profile(totals, material, identity, row.name)
        yield Ingredient(row.name, identity, share, profile)
    for paper in material.hazard:
        if not paper.is_of_component:
            continue
        identity = identity_of(paper.name, paper.cas)
        identity = totals.alias.get(identity, identity)
        names = {identity_of(row.name, None) for row in rows.values()}
        if identity in rows or identity_of(paper.name, None) in names:
            continue
        name = paper.name or paper.cas or identity
        profile = _component_profile(totals, material, identity, name)
        share = Range(Fraction(0), whole.high)
        yield Ingredient(f"{name} (share not entered)", identity, share, profile)


def _part(totals: Totals, node: Node, base: Base) -> Part | None:
    material = node.material
    if material is None:
        return None
    share = totals.working.range(totals.leaf(node, base).span)
    dried = base is Base.FINISHED
    return Part(
        node.says,
        material.cas or f"material:{material.id}",
        share,
        material_profile(material, node.lot),
        tuple(_ingredients(totals, node, share, dried=dried)),
        node.id,
        material.name,
    )


def _parts(totals: Totals, base: Base) -> tuple[Part, ...]:
    found = (_part(totals, node, base) for node in totals.leaves)
    return tuple(part for part in found if part is not None)


def finished_product(totals: Totals) -> Mixture:
    """Return the finished product as a mixture.

    Parameters
    ----------
    totals : Totals
        The totals of a recipe.
    """
    liquid = _LIQUID.get(totals.recipe.product)
    return Mixture(FINISHED_PRODUCT, _parts(totals, Base.FINISHED), liquid)


def wet_mix(totals: Totals) -> Mixture:
    """Return the wet mix, as it is made, as a mixture.

    Parameters
    ----------
    totals : Totals
        The totals of a recipe; what leaves on drying is still in it.
    """
    liquid = True if totals.recipe.product == "room mist" else None
    return Mixture(WET_MIX, _parts(totals, Base.WET), liquid)


# -- the neat blend --------------------------------------------------------


def neat_blend(totals: Totals) -> Mixture | None:
    """Return the scent alone, before it goes into the base, as a mixture.

    Parameters
    ----------
    totals : Totals
        The totals of a recipe.

    Returns
    -------
    Mixture or None
        The lines of the blend, or the scented lines of a recipe without one;
        ``None`` where there are none, or they cannot be weighed on their own.
    """
    recipe = _blend_recipe(totals)
    if recipe is None:
        return None
    try:
        own = total(recipe, totals.materials, totals.knowledge)
        return Mixture(NEAT_BLEND, _parts(own, Base.WET), liquid=True)
    except (InputError, RecipeError):
        return None


def _blend_recipe(totals: Totals) -> Recipe | None:
    recipe = totals.recipe
    if recipe.blend is not None:
        lines = recipe.blend.line
        if any(one.amount.kind in ("parts", "percent") for one in lines):
            stock = Stock(id=_STOCK, line=lines)
            line = Line(stock=_STOCK, amount=grams_amount(Fraction(100)))
            return Recipe(name=NEAT_BLEND, line=(line,), stock=(*recipe.stock, stock))
        return Recipe(
            name=NEAT_BLEND,
            line=tuple(map(_as_line, lines)),
            stock=recipe.stock,
        )
    scented = tuple(_scented_lines(totals))
    if not scented:
        return None
    return Recipe(name=NEAT_BLEND, line=scented, stock=recipe.stock)


def _as_line(line: StockLine) -> Line:
    return Line(
        material=line.material, stock=line.stock, lot=line.lot, amount=line.amount
    )


def _scented_lines(totals: Totals) -> Iterator[Line]:
    """Yield the lines of a recipe that bring scent, in grams where they are exact."""
    for mass in totals.expansion.lines:
        line = line_at(totals.recipe, mass.where)
        if not _is_scented(line, totals):
            continue
        grams = totals.working.range(mass.grams)
        amount = line.amount
        if grams.is_exact and grams.low is not None:
            amount = grams_amount(grams.low)
        elif amount.kind in ("parts", "percent"):
            continue
        yield _as_line(line.model_copy(update={"amount": amount}))


def _is_scented(line: StockLine, totals: Totals) -> bool:
    if line.material is not None:
        return totals.materials.get(line.material).is_scented
    stocks = {one.id: one for one in (*totals.materials.stock, *totals.recipe.stock)}
    stock = stocks.get(line.stock or "")
    return stock is not None and any(_is_scented(one, totals) for one in stock.line)
