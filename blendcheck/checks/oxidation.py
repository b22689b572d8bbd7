"""Old oils: how much of a lot turns in air, and what the law limits.

Limonene and its kin form stronger sensitisers in air. No percent is changed here:
an oil that smells weaker may be oxidised and not weaker. What can be asked for is
the peroxide value, which the law limits in the raw substance.
"""

from collections.abc import Iterator

from blendcheck import reference
from blendcheck.blend.expand import Node
from blendcheck.blend.shares import Subject
from blendcheck.checks.case import Case
from blendcheck.quantity import print_range
from blendcheck.records.finding import Finding, Say
from blendcheck.records.material import Lot

__all__ = ["check", "months_between", "peroxide_limits"]

_CHECK = "oxidation"
_LIMONENE = "5989-27-5"


def check(case: Case) -> Iterator[Finding]:
    """Say how much of each scented lot can turn in air, and since when it is open.

    Parameters
    ----------
    case : Case
        The case.

    Yields
    ------
    Finding
        A caution for each opened lot whose papers name something air-oxidisable;
        bottles without a date are listed together by the cautions about people.
    """
    for node in case.totals.leaves:
        if node.material is None or not node.material.is_scented:
            continue
        found = _finding(node, case)
        if found is not None:
            yield found


def _finding(node: Node, case: Case) -> Finding | None:
    named = case.totals.shares.lists.identities(node)
    members = frozenset(i for i in named if reference.is_air_oxidisable(i))
    lot = _lot(node)
    if not members or lot is None or lot.opened is None:
        return None
    own = sorted(members)[0]
    subject = Subject("what turns in air", own, members)
    share = case.totals.shares.of(node, subject, dried=False).documented
    if share is None:
        return None
    values = {
        "material": node.says,
        "share": print_range(case.working.range(share), "%"),
        "names": ", ".join(sorted(named[i] for i in members)),
        "storage": lot.storage or "not entered",
        "limits": peroxide_limits(),
        "opened": lot.opened.on.isoformat(),
        "ago": _ago(months_between(lot, case)),
    }
    return Finding(
        kind="caution",
        check=_CHECK,
        subject=node.says,
        why=Say("oxidation.opened", values),
        value=share,
        unit="%",
        ask=(Say("oxidation.ask", values),),
        source="cosing-2022",
        severity=4,
    )


def _lot(node: Node) -> Lot | None:
    if node.material is None:
        return None
    return next((one for one in node.material.lot if one.lot == node.lot), None)


def months_between(lot: Lot, case: Case) -> int:
    """Return the whole months from the opening of a lot to the day of the check.

    Parameters
    ----------
    lot : Lot
        A lot with a date of opening.
    case : Case
        The case.
    """
    if lot.opened is None:
        return 0
    start, end = lot.opened.on, case.on
    months = (end.year - start.year) * 12 + end.month - start.month
    return max(months - (end.day < start.day), 0)


def _ago(months: int) -> str:
    if months == 0:
        return "less than a month ago"
    return "1 month ago" if months == 1 else f"{months} months ago"


def peroxide_limits() -> str:
    """Return the peroxide values that the law allows, as printed.

    The limit of limonene stands for itself; that of the pine-like oils and of the
    other terpenes is the stricter one. Source id ``cosing-2022``, entries of
    Annex III to Regulation (EC) No 1223/2009.
    """
    printed = dict.fromkeys(
        f"{row.qualifier} {row.printed_value} {row.printed_unit}"
        for row in reference.limits_of(_LIMONENE)
        if row.quantity == "peroxide value"
    )
    return ", ".join(printed)
