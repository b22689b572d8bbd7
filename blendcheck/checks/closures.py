"""Closures that a child cannot open: what in a liquid calls for one.

United States, 16 CFR 1700.14(a): methyl salicylate, turpentine, methanol, and
hydrocarbons (carbon and hydrogen only, added up) in thin liquids. European Union, CLP
Annex II, part 3: by class. A tablet, a soap or a balm is no liquid.
"""

import re
from collections.abc import Iterator
from fractions import Fraction
from functools import cache

from blendcheck import reference
from blendcheck.blend.expand import Node
from blendcheck.blend.shares import Share, Subject
from blendcheck.blend.totals import SubjectTotal
from blendcheck.checks.case import Case
from blendcheck.checks.contents import counted_together, tracked
from blendcheck.checks.entries import used
from blendcheck.checks.owes import rule_says
from blendcheck.interval import Range
from blendcheck.quantity import Base, print_range, read_number
from blendcheck.records.finding import Finding, Say
from blendcheck.reference import IngredientLimit

__all__ = ["check", "hydrocarbons", "reaches"]

_LIQUID = frozenset({"room mist", "other"})
_ONLY_CH = re.compile(r"C[0-9]*H[0-9]*")
_US, _EU = (None, "United States"), (None, "EU", "Great Britain")


def reaches(span: Range, least: Fraction, qualifier: str) -> bool | None:
    """Say whether a share reaches the figure of a rule.

    Parameters
    ----------
    span : Range
        The share. [%]
    least : Fraction
        The figure. [%]
    qualifier : str
        ``>`` where it must be exceeded, ``>=`` where it is enough to be at it.

    Returns
    -------
    bool or None
        ``None`` where the range leaves it open.
    """
    above = qualifier == ">"
    low, high = span.low, span.high
    if low is not None and (
        low > least or (low == least and (span.low_open or not above))
    ):
        return True
    if high is not None and (
        high < least or (high == least and (span.high_open or above))
    ):
        return False
    return None


def hydrocarbons(case: Case) -> Subject:
    """Return the components that are carbon and hydrogen only, as one sum.

    Parameters
    ----------
    case : Case
        The case. Every hydrocarbon of the tables counts, so that what no paper
        names may be one of them.
    """
    numbers = _hydrocarbon_numbers()
    return counted_together("hydrocarbons", "sum:hydrocarbons", numbers, case)


@cache
def _hydrocarbon_numbers() -> frozenset[str]:
    return frozenset(
        row.cas
        for row in reference.rows_of(reference.Constituent)
        if _ONLY_CH.fullmatch(row.formula)
    )


def check(case: Case) -> Iterator[Finding]:
    """State what in a liquid calls for a closure that a child cannot open.

    Parameters
    ----------
    case : Case
        The case.

    Yields
    ------
    Finding
        A caution where a figure is reached, facts where it is open or below, and the
        rule by class as a question.
    """
    if case.recipe.product not in _LIQUID:
        return
    place = case.materials.workshop.place
    if place in _US:
        for row in reference.rows_of(IngredientLimit):
            if row.state == "packaging duty":
                yield from _by_figure(row, case)
    if place in _EU:
        rules = reference.duties("closure", "EU")
        yield Finding(
            kind="fact",
            check="closures",
            subject="closure by class",
            why=Say("closures.by-class"),
            also=tuple(map(rule_says, rules)),
            source=", ".join(row.source_id for row in rules),
        )


def _total(row: IngredientLimit, case: Case) -> SubjectTotal | None:
    """Total what a rule speaks of, in the liquid as it is."""
    totals = case.totals
    if not row.cas:
        return totals.subject(hydrocarbons(case), Base.WET)
    subject = tracked(row.substance, row.cas, case)
    whole = {
        f"material:{material.id}"
        for material in used(totals).values()
        if material.cas == row.cas and material.dilution is None
    }

    def leaf(node: Node, _: bool) -> Share:  # noqa: FBT001
        if node.material is not None and f"material:{node.material.id}" in whole:
            return Share(totals.hundred(), totals.hundred(), totals.hundred())
        return totals.shares.of(node, subject, dried=False)

    found = Subject(
        subject.name, subject.own, subject.members | whole, subject.proposed
    )
    total = totals.found_in(found, leaf, Base.WET)
    return total if total.traced else None


def _by_figure(row: IngredientLimit, case: Case) -> Iterator[Finding]:
    total = _total(row, case)
    if total is None:
        return
    least = read_number(row.value)
    span = case.working.range(total.span)
    found = reaches(span, least, row.qualifier)
    summed = not row.cas
    values = {
        "what": total.subject.name,
        "percent": print_range(span, "%", cap=least),
        "limit": f"{row.qualifier} {row.printed_value} {row.printed_unit}",
        "rule": row.provision,
    }
    codes = {True: "closures.reached", False: "closures.below", None: "closures.open"}
    yield Finding(
        kind="caution" if found else "fact",
        check="closures",
        subject=total.subject.name,
        why=Say(codes[found], values),
        also=(Say("closures.thin"),) if summed and found is not False else (),
        ask=(Say("closures.ask", values),) if found is not False else (),
        value=total.span,
        unit="%",
        base=Base.WET,
        limit=values["limit"],
        source=row.source_id,
        marks=case.working.marks(total.span),
        severity=2 if found else 4,
    )
