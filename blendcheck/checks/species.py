"""A lot report held against what is published of its species."""

from collections.abc import Iterator
from fractions import Fraction

from blendcheck import reference
from blendcheck.blend.expand import Node
from blendcheck.blend.lists import Row
from blendcheck.checks.case import Case
from blendcheck.interval import Range
from blendcheck.quantity import print_range
from blendcheck.records.finding import Finding, Say
from blendcheck.starting import Published, oils_meant, published_shares

__all__ = ["check"]

_CHECK = "species"


def check(case: Case) -> Iterator[Finding]:
    """Find components of a lot that lie outside what is published for its species.

    Parameters
    ----------
    case : Case
        The case.

    Yields
    ------
    Finding
        A caution for each component whose whole range lies outside, for every oil
        of the tables that the material may be.
    """
    for node in case.totals.leaves:
        if node.material is None or node.material.kind != "essential oil":
            continue
        oils = oils_meant(node.material)
        if not oils:
            continue
        published = [{p.identity: p for p in published_shares(o.oil)} for o in oils]
        for row in case.totals.shares.lists.rows(node).values():
            if row.published:
                continue
            found = [shares.get(row.identity) for shares in published]
            if all(one is not None and _outside(row, one, case) for one in found):
                first = next(one for one in found if one is not None)
                yield _finding(row, node, first, oils[0], case)


def _outside(row: Row, published: Published, case: Case) -> bool:
    """Whether no figure of the row can lie inside the published range."""
    own = case.working.range(row.id)
    low, high = _ends(own)
    least, most = _ends(published.range)
    return low > most or (row.says_most and high < least)


def _ends(span: Range) -> tuple[Fraction, Fraction]:
    return span.low or Fraction(0), Fraction(100) if span.high is None else span.high


def _finding(
    row: Row, node: Node, published: Published, oil: reference.Oil, case: Case
) -> Finding:
    values = {
        "component": row.name,
        "own": print_range(case.working.range(row.id), "%"),
        "published": print_range(published.range, "%"),
        "oil": oil.name,
        "material": node.says,
    }
    return Finding(
        kind="caution",
        check=_CHECK,
        subject=f"{row.name} in {node.says}",
        why=Say("species.outside", values),
        value=row.id,
        unit="%",
        ask=(Say("species.ask", values),),
        source=", ".join(published.sources),
        severity=3,
    )
