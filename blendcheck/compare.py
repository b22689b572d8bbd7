"""Several recipes side by side: outcomes, grams, the irritant load, and an order.

An order by irritant load is stated only where :mod:`blendcheck.ranking` finds that it
holds by grams released in full and by the whole range of the estimate with transfer, at
every setting; else the reason for none stands there.
"""

from collections.abc import Sequence

from blendcheck.assess import Assessment
from blendcheck.blend.shares import Subject
from blendcheck.blend.totals import SubjectTotal
from blendcheck.checks.contents import TRACKED, tracked
from blendcheck.checks.irritants import cover_of
from blendcheck.checks.marked import Marked, marked_in, of_all, total_of, volatile_total
from blendcheck.errors import InputError
from blendcheck.frozen import Frozen
from blendcheck.interval import Range
from blendcheck.ranking import (
    EqualStrength,
    Ranking,
    at_equal_strength,
    rank,
    told_apart,
)
from blendcheck.records.finding import Outcome, Say

__all__ = ["MOST", "Cell", "Comparison", "Row", "compare", "sentences_of"]

LEAST, MOST = 2, 8


class Cell(Frozen):
    """One subject in one recipe.

    Parameters
    ----------
    percent : Range
        Of the finished product. [%]
    per_piece, per_use : Range or None
        In one piece and in one use; ``None`` without a piece mass. [g]
    documented : bool
        False where part of it rests on what no list shows.
    """

    percent: Range
    per_piece: Range | None
    per_use: Range | None
    documented: bool


class Row(Frozen):
    """One subject across the recipes; ``None`` where a recipe cannot hold it."""

    name: str
    kind: str
    cells: tuple[Cell | None, ...]


class Comparison(Frozen):
    """Recipes side by side.

    Parameters
    ----------
    names : tuple of str
        Names of the recipes, in the order given.
    outcomes : tuple of Outcome
        Their overall outcomes.
    load : Row
        All scented materials together.
    rows : tuple of Row
        Scented materials, then components that call for a caution.
    irritants : Row
        The irritant load; ``None`` where nothing is marked: then it is not known.
    volatile : Row
        All volatile scent.
    cover : tuple of (Range or None)
        Share of all scent that is marked, in each recipe. [%]
    rankings : tuple of Ranking
        In one piece, and in one use.
    strength : EqualStrength
        The load at equal strength of scent.
    """

    names: tuple[str, ...]
    outcomes: tuple[Outcome, ...]
    load: Row
    rows: tuple[Row, ...]
    irritants: Row
    volatile: Row
    cover: tuple[Range | None, ...]
    rankings: tuple[Ranking, ...]
    strength: EqualStrength


def compare(assessments: Sequence[Assessment]) -> Comparison:
    """Put two to eight checked recipes side by side.

    Parameters
    ----------
    assessments : sequence of Assessment
        The checks.

    Returns
    -------
    Comparison
        In the order given; the rankings say whether another order holds.

    Raises
    ------
    InputError
        If there are fewer than two or more than eight.
    """
    if not LEAST <= len(assessments) <= MOST:
        count = len(assessments)
        recipes = "recipe" if count == 1 else "recipes"
        raise InputError(
            f"{count} {recipes} to compare", f"name {LEAST} to {MOST} recipes"
        )
    materials: dict[str, str] = {}
    components: dict[str, str] = {}
    for one in assessments:
        for node in one.totals.leaves:
            if node.material is not None and node.material.is_scented:
                materials.setdefault(node.material.id, node.material.name)
        for identity, name in one.totals.components.items():
            if one.case.watch(identity):
                group = _group_of(identity, one)
                components.setdefault(*(group or (identity, name)))
    rows = [
        Row(name, "material", tuple(_material(one, key) for one in assessments))
        for key, name in materials.items()
    ]
    rows += [
        Row(name, "component", tuple(_component(one, key, name) for one in assessments))
        for key, name in components.items()
    ]
    marks = [marked_in(one.totals) for one in assessments]
    counted = [
        None if own.nothing else every
        for own, every in zip(marks, of_all(marks), strict=True)
    ]
    return Comparison(
        tuple(one.case.recipe.name for one in assessments),
        tuple(one.outcome for one in assessments),
        Row("all scent together", "load", tuple(map(_load, assessments))),
        tuple(rows),
        Row("irritant load", "irritants", tuple(map(_irritants, assessments, counted))),
        Row("all volatile scent", "volatile", tuple(map(_volatile, assessments))),
        tuple(map(_cover, assessments, counted)),
        rank(assessments, marks),
        at_equal_strength(assessments, marks),
    )


def sentences_of(found: Ranking, names: Sequence[str]) -> tuple[Say, ...]:
    """Return the order of a ranking in sentences, or the reasons for none.

    Parameters
    ----------
    found : Ranking
        In one piece or in one use.
    names : sequence of str
        Names of the recipes; equal ones are told apart by their places.

    Returns
    -------
    tuple of Say
        The order of all first, then every two, then what cannot be ranked.
    """
    said = []
    names = told_apart(names)
    if found.order is not None and len(found.order) > LEAST:
        ordered = ", ".join(names[n] for n in found.order)
        said.append(Say("compare.chain", {"per": found.per, "names": ordered}))
    elif found.order is None and len(names) > LEAST:
        said.append(Say("compare.no-chain", {"per": found.per}))
    said += [pair.why for pair in found.pairs]
    if found.settings:
        values = {"settings": "; ".join(found.settings)}
        said.append(Say("compare.settings", values))
    return (*said, *found.apart.values())


def _irritants(one: Assessment, marked: Marked | None) -> Cell | None:
    return None if marked is None else _cell(one, total_of(marked, one.totals))


def _volatile(one: Assessment) -> Cell:
    return _cell(one, volatile_total(one.totals))


def _cover(one: Assessment, marked: Marked | None) -> Range | None:
    if marked is None:
        return None
    cover = cover_of(total_of(marked, one.totals), one.case)
    return None if cover is None else one.working.range(cover)


def _load(one: Assessment) -> Cell:
    return _cell(one, one.totals.load())


def _material(one: Assessment, key: str) -> Cell | None:
    for node in one.totals.leaves:
        if node.material is not None and node.material.id == key:
            return _cell(one, one.totals.material(node.material))
    return None


def _group_of(identity: str, one: Assessment) -> tuple[str, str] | None:
    """Return the constituent whose forms are counted together, if it is one of them."""
    for name, cas in TRACKED:
        if identity == cas or identity in one.totals.knowledge.parts_of(cas):
            return cas, name
    return None


def _component(one: Assessment, identity: str, name: str) -> Cell | None:
    if (identity, name) == _group_of(identity, one):
        subject = tracked(name, identity, one.case)
    else:
        subject = Subject(name, identity, frozenset({identity}))
    found = one.totals.subject(subject)
    return _cell(one, found) if found.traced else None


def _cell(one: Assessment, found: SubjectTotal) -> Cell:
    working, totals = one.working, one.totals
    piece, use = totals.per_piece(found), totals.per_use(found)
    return Cell(
        working.range(found.span),
        None if piece is None else working.range(piece),
        None if use is None else working.range(use),
        documented=working.range(found.documented) == working.range(found.most),
    )
