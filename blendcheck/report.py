"""The documents that ``--json`` writes: schema 1, described in the README."""

from collections.abc import Mapping
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from blendcheck import __version__
from blendcheck.assess import Assessment
from blendcheck.blend.shares import Subject
from blendcheck.blend.totals import SubjectTotal, Totals, Traced
from blendcheck.interval import Range
from blendcheck.largest import Largest
from blendcheck.quantity import Base, print_estimate, print_number
from blendcheck.records.estimate import Estimate
from blendcheck.records.finding import Finding, Say
from blendcheck.records.mass import Mass
from blendcheck.records.working import Id
from blendcheck.words import render

if TYPE_CHECKING:  # a check needs neither
    from blendcheck.compare import Comparison, Row
    from blendcheck.ranking import EqualStrength, Ranking

__all__ = ["SCHEMA", "compared", "report"]

SCHEMA = 1
_DIGITS = 12
_BASES = {"finished": Base.FINISHED, "wet": Base.WET}

Json = dict[str, Any]


def report(assessment: Assessment, largest: tuple[Largest, ...] = ()) -> Json:
    """Write a check as plain data.

    Parameters
    ----------
    assessment : Assessment
        The check.
    largest : tuple of Largest, optional
        The largest amounts, where they were worked out.

    Returns
    -------
    dict
        Ready for JSON. A range is a list of its two ends, ``None`` where nothing
        bounds it; ``open`` beside it names an end that is itself excluded. Numbers
        carry twelve significant digits; verdicts were made on exact ones.
    """
    case, totals = assessment.case, assessment.totals
    document: Json = {
        "schema": SCHEMA,
        "recipe": case.recipe.name,
        "hash": assessment.hash,
        "on": case.on.isoformat(),
        "blendcheck": __version__,
        "outcome": str(assessment.outcome),
        "masses": _masses(totals),
        "lines": [_line(totals, one) for one in totals.lines()],
        "components": [
            _component(totals, identity, name)
            for identity, name in totals.components.items()
        ],
        "findings": [_finding(one, assessment) for one in assessment.findings],
        "largest": [_largest(one) for one in largest],
    }
    document["figures"] = {key: _figure(assessment, key) for key in _keys(assessment)}
    document["steps"] = {
        name: _step(assessment, name) for name in assessment.working.steps
    }
    return document


def _number(value: Fraction | None) -> float | int | None:
    if value is None:
        return None
    if value.denominator == 1:
        return value.numerator
    return float(print_number(value, digits=_DIGITS))


def _range(span: Range) -> list[float | int | None]:
    return [_number(span.low), _number(span.high)]


def _open(span: Range) -> Json:
    ends = [
        e
        for e, is_open in (("low", span.low_open), ("high", span.high_open))
        if is_open
    ]
    return {"open": ends} if ends else {}


def _at(totals: Totals, name: Id | None) -> list[float | int | None] | None:
    return None if name is None else _range(totals.working.range(name))


def _masses(totals: Totals) -> Json:
    pieces, left_over = totals.pieces()
    return {
        "wet_g": _at(totals, totals.whole(Base.WET)),
        "powders_g": _at(totals, totals.whole(totals.powder_base)),
        "finished_g": _at(totals, totals.finished),
        "piece_g": _at(totals, totals.piece_mass),
        "pieces": pieces,
        "left_over_g": None if left_over is None else _range(left_over),
    }


def _line(totals: Totals, one: Traced) -> Json:
    node = one.node
    percent: Json = {}
    own: SubjectTotal | None = None
    for name, base in (*_BASES.items(), ("powders", totals.powder_base)):
        if not totals.has(base):
            percent[name] = None
            continue
        found = totals.leaf(node, base)
        percent[name] = _at(totals, found.span)
        own = found if base is Base.FINISHED else own
    return {
        **_whose(one),
        "g": _at(totals, node.wet),
        "percent": percent,
        "g_per_piece": None if own is None else _at(totals, totals.per_piece(own)),
        "g_per_use": None if own is None else _at(totals, totals.per_use(own)),
    }


def _whose(one: Traced) -> Json:
    material = one.node.material
    return {
        "material": one.node.says if material is None else material.id,
        "lot": one.node.lot,
    }


def _component(totals: Totals, identity: str, name: str) -> Json:
    found = totals.subject(Subject(name, identity, frozenset({identity})))
    span = totals.working.range(found.span)
    return {
        "name": name,
        "cas": None if ":" in identity else identity,
        "percent_finished": _range(span),
        **_open(span),
        "g_per_piece": _at(totals, totals.per_piece(found)),
        "from": [
            {
                "material": t.node.says
                if t.node.material is None
                else t.node.material.id,
                "lot": t.node.lot,
                "g": _at(totals, totals.traced_grams(t)),
            }
            for t in found.traced
        ],
        "marks": sorted(totals.working.marks(found.span)),
    }


def _say(say: Say | None) -> Json | None:
    if say is None:
        return None
    return {"code": say.code, "text": render(say), "values": dict(say.values)}


def _finding(one: Finding, assessment: Assessment) -> Json:
    working = assessment.working
    span = None if one.value is None else working.range(one.value)
    return {
        "kind": one.kind,
        "check": one.check,
        "subject": one.subject,
        "outcome": None if one.outcome is None else str(one.outcome),
        "counts": one.counts,
        "value": None if span is None else _range(span),
        **({} if span is None else _open(span)),
        "limit": one.limit,
        "unit": one.unit,
        "base": None if one.base is None else str(one.base),
        "scheme": None if one.cap is None else one.cap.scheme,
        "edition": None if one.cap is None else one.cap.edition,
        "category": None if one.cap is None else one.cap.category,
        "why": _say(one.why),
        "also": [_say(say) for say in one.also],
        "turns_at": _say(one.turns_at),
        "ask": [_say(say) for say in one.ask],
        "source": one.source,
        "marks": sorted(one.marks),
        "step": one.value,
        **(
            {"estimates": [_estimate(e) for e in one.estimates]}
            if one.estimates
            else {}
        ),
    }


def _estimate(one: Estimate) -> Json:
    """Write an estimate with the digits that mean something."""
    return {
        "name": one.name,
        "says": one.says,
        "unit": one.unit,
        **{
            end: None
            if value is None
            else float(print_estimate(value, digits=one.digits))
            for end, value in (
                ("central", one.central),
                ("low", one.low),
                ("high", one.high),
            )
        },
        "digits": one.digits,
        "lines": list(one.lines),
        "sources": list(one.sources),
        "marks": sorted(one.marks),
    }


def _largest(one: Largest) -> Json:
    return {
        "of": one.says,
        "lines": list(one.where),
        "category": one.category,
        "reading": one.reading,
        "g": _number(one.grams),
        "percent_finished": _number(one.percent),
        "limited_by": one.limited_by,
        "no_number_for": list(one.open),
    }


def _keys(assessment: Assessment) -> Mapping[str, Any]:
    return {str(key): None for key in assessment.working.figures}


def _figure(assessment: Assessment, key: str) -> Json:
    figure = assessment.working.figures[key]  # type: ignore[index]
    return {
        "printed": figure.printed,
        "range": _range(figure.range),
        **_open(figure.range),
        "unit": figure.unit,
        "says": figure.says,
        "basis": figure.basis,
        "document": figure.document,
        "marks": sorted(figure.marks),
    }


def _step(assessment: Assessment, name: Id) -> Json:
    working = assessment.working
    step = working.steps[name]
    span = working.range(name)
    return {
        "rule": step.rule,
        "given": list(step.given),
        "result": _range(span),
        **_open(span),
        "linear": isinstance(step.value, Mass),
        "unit": step.unit,
        "base": None if step.base is None else str(step.base),
        "says": step.says,
        "marks": sorted(step.marks),
    }


def compared(comparison: "Comparison") -> Json:
    """Write a comparison as plain data.

    Parameters
    ----------
    comparison : Comparison
        Recipes side by side.

    Returns
    -------
    dict
        Ready for JSON; ranges as in :func:`report`. A cell is ``None`` where a recipe
        cannot hold the subject.
    """
    return {
        "schema": SCHEMA,
        "recipes": [
            {"name": name, "outcome": str(outcome)}
            for name, outcome in zip(comparison.names, comparison.outcomes, strict=True)
        ],
        "rows": [_row(row) for row in (comparison.load, *comparison.rows)],
        "irritant_load": _row(comparison.irritants),
        "all_volatile_scent": _row(comparison.volatile),
        "marked_percent_of_scent": [_range_or_none(one) for one in comparison.cover],
        "rankings": [_ranking(one, comparison.names) for one in comparison.rankings],
        "equal_strength": _strength(comparison.strength),
    }


def _ranking(one: "Ranking", names: tuple[str, ...]) -> Json:
    """Write an order, or why there is none; places count from 0."""
    return {
        "per": one.per,
        "order": None if one.order is None else list(one.order),
        "settings": list(one.settings),
        "pairs": [
            {
                "recipes": [pair.first, pair.second],
                "lower": pair.lower,
                "alike": pair.alike,
                "g_more_in_the_first": _range_or_none(pair.grams),
                "why": _say(pair.why),
            }
            for pair in one.pairs
        ],
        "not_ranked": [
            {"recipe": n, "name": names[n], "why": _say(say)}
            for n, say in one.apart.items()
        ],
    }


def _strength(one: "EqualStrength") -> Json:
    return {
        "load_by_strength": [_range_or_none(load) for load in one.loads],
        "said": [_say(say) for say in one.pairs],
        "missing": [_say(say) for say in one.why],
    }


def _row(row: "Row") -> Json:
    return {
        "name": row.name,
        "kind": row.kind,
        "cells": [
            None
            if cell is None
            else {
                "percent_finished": _range(cell.percent),
                "g_per_piece": _range_or_none(cell.per_piece),
                "g_per_use": _range_or_none(cell.per_use),
                "documented": cell.documented,
            }
            for cell in row.cells
        ],
    }


def _range_or_none(span: Range | None) -> list[float | int | None] | None:
    return None if span is None else _range(span)
