"""Blurs what lots truly hold into the papers that a supplier sends.

Every figure holds the truth, except in a published range, where it may not.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from random import Random

from tests.blurred import said
from tests.blurred.said import ZERO, Said
from tests.blurred.substances import GROUPS, NAME_ONLY, SUBSTANCES, cas_of
from tests.blurred.world import Lot, Paper, Row, group_of

Holds = Sequence[dict[str, Fraction]]
"""What the lots that a paper speaks of truly hold. [%]"""

ALLERGENS = ("5392-40-5", "78-70-6", "5989-27-5", "138-86-3", "470-82-6", "76-22-2")


@dataclass(frozen=True, slots=True)
class Habits:
    """How papers look in one world."""

    names: bool
    """Some lines give no CAS number."""
    groups: bool
    """Citral and limonene may be printed as one line, or as both."""
    mystery: bool
    """"Eucalyptol" without a number is something else."""
    miss: bool
    """A published range may miss the lot."""


def _line(key: str, habits: Habits, rng: Random) -> tuple[str, str | None]:
    substance = SUBSTANCES[key]
    by_name = habits.names and key in NAME_ONLY and rng.random() < 0.35
    if by_name and not (habits.mystery and key == "cineole"):
        return NAME_ONLY[key], None
    return substance.name, substance.cas


def lines_of(
    rng: Random, keys: Sequence[str], habits: Habits
) -> list[tuple[str, str | None, frozenset[str]]]:
    """Decide under which names a list prints constituents."""
    lines: list[tuple[str, str | None, frozenset[str]]] = []
    done: set[str] = set()
    for key in keys:
        group = group_of(key)
        if key in done:
            continue
        if group is not None and habits.groups and rng.random() < 0.35:
            lines.append((GROUPS[group][0], group, frozenset(GROUPS[group][1])))
            done.update(GROUPS[group][1])
            if rng.random() < 0.3:
                one = SUBSTANCES[key]
                lines.append((one.name, one.cas, frozenset({key})))
            continue
        name, cas = _line(key, habits, rng)
        lines.append((name, cas, frozenset({key})))
        # what is printed one by one is not printed together as well
        done.update(GROUPS[group][1] if group is not None else ())
        lines += [
            _alone(other, habits, rng)
            for other in keys
            if group is not None and other != key and group_of(other) == group
        ]
    return lines


def _alone(
    key: str, habits: Habits, rng: Random
) -> tuple[str, str | None, frozenset[str]]:
    name, cas = _line(key, habits, rng)
    return name, cas, frozenset({key})


def values(holds: Holds, keys: frozenset[str]) -> list[Fraction]:
    """True shares of a line in every lot that its paper speaks of. [%]"""
    return [sum((lot.get(k, ZERO) for k in keys), ZERO) for lot in holds]


def keys_in(holds: Holds) -> list[str]:
    found: dict[str, None] = {}
    for lot in holds:
        found |= dict.fromkeys(key for key, share in lot.items() if share)
    return list(found)


def full(rng: Random, holds: Holds, habits: Habits) -> Paper:
    """Everything that is in the lot, each to its figure, adding up to 100 %."""
    rows = [
        Row(name, cas, said.share(rng, values(holds, keys)[0]), keys)
        for name, cas, keys in lines_of(rng, keys_in(holds), habits)
    ]
    return Paper(
        "full GC-MS",
        _no_group_beside_members(rows),
        whole=True,
        unidentified=rng.choice((None, said.exactly(ZERO))),
    )


def _no_group_beside_members(rows: list[Row]) -> list[Row]:
    """A full list adds up to 100 %: no constituent stands in it twice."""
    groups = {row.cas: row.keys for row in rows if row.cas in GROUPS}
    return [
        row
        for row in rows
        if row.cas in groups or not any(row.keys <= keys for keys in groups.values())
    ]


def chromatogram(
    rng: Random, holds: Holds, habits: Habits, *, exact: bool, whole: bool
) -> Paper:
    """A GC-MS report: volatiles only, small peaks unnamed up to a remainder."""
    volatile = [key for key in keys_in(holds) if SUBSTANCES[key].volatile]
    unnamed = [
        key
        for key in volatile
        if max(values(holds, frozenset({key}))) < 2 and rng.random() < 0.5
    ]
    shown = [key for key in volatile if key not in unnamed]
    rows = [
        Row(name, cas, _peak(rng, values(holds, keys), exact=exact), keys)
        for name, cas, keys in lines_of(rng, shown, habits)
    ]
    named = frozenset().union(*(row.keys for row in rows))
    rest = max(values(holds, frozenset(volatile) - named), default=ZERO)
    remainder = said.exactly(rest) if exact else said.at_most(rng, [rest])
    basis = rng.choice(("w/w", "area", None)) if _adds_up(holds) else "w/w"
    paper = Paper("full GC-MS", rows, basis, whole=True, unidentified=remainder)
    if not whole:
        _forget(rng, paper)
    return paper


def _adds_up(holds: Holds) -> bool:
    """Whether peak areas of the volatile part are also percents by weight."""
    return all(SUBSTANCES[key].volatile for key in keys_in(holds))


def _peak(rng: Random, truths: list[Fraction], *, exact: bool) -> Said:
    if exact and min(truths) == max(truths):
        return said.share(rng, truths[0])
    pick = rng.random()
    if max(truths) < 2 and pick < 0.15 and min(truths) > 0:
        return said.trace(rng)
    if pick < 0.25:
        return said.at_most(rng, truths)
    if pick < 0.3 and min(truths) > 1:
        return said.at_least(rng, truths)
    if pick < 0.5 and min(truths) == max(truths):
        return said.share(rng, truths[0])
    return said.ranged(rng, truths)


def _forget(rng: Random, paper: Paper) -> None:
    """The maker did not copy all of it, and so may not say that it is whole."""
    paper.whole = False
    keep = [row for row in paper.rows if rng.random() < 0.7]
    paper.rows = keep
    if rng.random() < 0.5:
        paper.unidentified = None


def data_sheet(rng: Random, holds: Holds, habits: Habits) -> Paper:
    """Hazardous ingredients in bands; silent about what it need not show."""
    keys = [key for key in keys_in(holds) if rng.random() < 0.7]
    rows = [
        Row(name, cas, said.band(rng, values(holds, group)), group)
        for name, cas, group in lines_of(rng, keys, habits)
    ]
    paper = Paper("hazardous ingredients", rows, rng.choice(("w/w", None)))
    if rng.random() < 0.35:
        _with_cut_off(rng, paper, holds, rng.choice((Fraction(1, 10), Fraction(1))))
    elif rng.random() < 0.3:
        paper.whole = True  # copied whole, and yet it bounds nothing
    return paper


def _with_cut_off(rng: Random, paper: Paper, holds: Holds, limit: Fraction) -> None:
    """State the cut-off for some substances; those above it have to be shown."""
    shown = {row.identity for row in paper.rows}
    open_names = [*ALLERGENS, *sorted(cas_of(SUBSTANCES))]
    covers = []
    for cas in dict.fromkeys(rng.sample(open_names, 7)):
        meant = _keys(cas)
        below = max(values(holds, meant)) < limit
        if cas in shown or below:
            covers.append(cas)
    paper.whole, paper.covers = True, tuple(covers)
    paper.shown_from = said.exactly(limit)


def _keys(cas: str) -> frozenset[str]:
    if cas in GROUPS:
        return frozenset(GROUPS[cas][1])
    return frozenset(k for k, one in SUBSTANCES.items() if one.cas == cas)


def statement(rng: Random, holds: Holds, habits: Habits) -> Paper:
    """An allergen statement: its own names, down to its detection limit."""
    limit = rng.choice((Fraction(1, 1000), Fraction(1, 100), Fraction(1, 10_000)))
    groups = habits.groups and rng.random() < 0.7
    names = [cas for cas in ALLERGENS if groups or cas not in GROUPS]
    rows = []
    for cas in names:
        keys = _keys(cas)
        truths = values(holds, keys)
        if cas == "138-86-3" and rng.random() < 0.5:
            continue  # the statement prints d-limonene alone
        name = GROUPS[cas][0] if cas in GROUPS else _name(cas)
        row = _allergen_row(rng, name, cas, keys, truths, limit)
        if row is not None:
            rows.append(row)
    left_out = {"138-86-3"} - {row.cas for row in rows}
    covers = tuple(cas for cas in names if cas not in left_out)
    if max(values(holds, _keys("138-86-3"))) < limit and "138-86-3" in names:
        covers = tuple(names)
    paper = Paper(
        "allergen statement",
        rows,
        rng.choice(("w/w", None)),
        whole=True,
        covers=covers,
        shown_from=_limit(rng, limit),
    )
    if rng.random() < 0.2:
        _forget(rng, paper)
    return paper


def _limit(rng: Random, limit: Fraction) -> Said:
    if rng.random() < 0.5:
        return Said(f"{said.digits(limit * 10_000)} ppm", limit, limit)
    return said.exactly(limit)


def _name(cas: str) -> str:
    return next(one.name for one in SUBSTANCES.values() if one.cas == cas)


def _allergen_row(
    rng: Random,
    name: str,
    cas: str,
    keys: frozenset[str],
    truths: list[Fraction],
    limit: Fraction,
) -> Row | None:
    if max(truths) < limit:
        pick = rng.random()
        if pick < 0.5:
            return None
        return Row(name, cas, said.not_found(limit if pick < 0.75 else None), keys)
    if min(truths) == max(truths) and rng.random() < 0.6:
        return Row(name, cas, said.share(rng, truths[0]), keys)
    return Row(name, cas, said.ranged(rng, truths), keys)


def published(rng: Random, holds: Holds, habits: Habits) -> Paper:
    """Ranges of a handbook; the lot in hand may hold more than they say."""
    rows = []
    for name, cas, keys in lines_of(rng, keys_in(holds), habits):
        truths = values(holds, keys)
        if habits.miss and rng.random() < 0.4:
            truths = [t * Fraction(rng.choice((20, 60, 80, 95)), 100) for t in truths]
        rows.append(Row(name, cas, said.ranged(rng, truths), keys))
    while sum((row.said.low for row in rows), ZERO) > 100:
        rows.pop()
    return Paper("published range", rows)


def add_papers(rng: Random, lots: list[Lot], style: str, habits: Habits) -> list[Paper]:
    """Give every lot its papers; the ones returned speak of all lots."""
    if style == "full":
        for lot in lots:
            lot.papers = [full(rng, [lot.holds], habits)]
        return []
    if style == "published":
        return [published(rng, [lot.holds for lot in lots], habits)]
    if style == "chromatogram":
        for lot in lots:
            exact = rng.random() < 0.3
            lot.papers = [
                chromatogram(rng, [lot.holds], habits, exact=exact, whole=True)
            ]
        return []
    return _some(rng, lots, habits)


def _some(rng: Random, lots: list[Lot], habits: Habits) -> list[Paper]:
    """Whatever the supplier happened to send, or nothing."""
    for lot in lots:
        if rng.random() < 0.35:
            whole = rng.random() < 0.5
            lot.papers.append(
                chromatogram(rng, [lot.holds], habits, exact=False, whole=whole)
            )
        if rng.random() < 0.35:
            lot.papers.append(statement(rng, [lot.holds], habits))
    common = []
    if rng.random() < 0.6:
        common.append(data_sheet(rng, [lot.holds for lot in lots], habits))
    if rng.random() < 0.2 and habits.miss:
        common.append(published(rng, [lot.holds for lot in lots], habits))
    return common
