"""Several recipes side by side: outcomes, and grams in one piece and in one use.

No order is stated here. Which of two pieces loads the air of a shower less with
irritants is a question of release and of the room, not of grams alone.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from blendcheck.assess import Assessment
from blendcheck.blend.shares import Subject
from blendcheck.blend.totals import SubjectTotal
from blendcheck.checks.contents import TRACKED, tracked
from blendcheck.errors import InputError
from blendcheck.interval import Range
from blendcheck.records.finding import Outcome

__all__ = ["MOST", "Cell", "Comparison", "Row", "compare"]

LEAST, MOST = 2, 8


@dataclass(frozen=True, slots=True)
class Cell:
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


@dataclass(frozen=True, slots=True)
class Row:
    """One subject across the recipes; ``None`` where a recipe cannot hold it."""

    name: str
    kind: str
    cells: tuple[Cell | None, ...]


@dataclass(frozen=True, slots=True)
class Comparison:
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
    """

    names: tuple[str, ...]
    outcomes: tuple[Outcome, ...]
    load: Row
    rows: tuple[Row, ...]


def compare(assessments: Sequence[Assessment]) -> Comparison:
    """Put two to eight checked recipes side by side.

    Parameters
    ----------
    assessments : sequence of Assessment
        The checks.

    Returns
    -------
    Comparison
        Without an order.

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
    return Comparison(
        tuple(one.case.recipe.name for one in assessments),
        tuple(one.outcome for one in assessments),
        Row("all scent together", "load", tuple(map(_load, assessments))),
        tuple(rows),
    )


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
