"""The irritant load: grams of what is marked as irritating to breathe, added up.

"Irritant load" is our own word. It counts the volatile components that carry a mark
and nothing else, so what has no mark is not shown to be mild. What can make a person
allergic by breathing it is told by itself at any amount and never added. Dusts belong
to the making.
"""

from collections.abc import Iterator
from typing import Final

from blendcheck.blend.shares import Subject
from blendcheck.blend.totals import SubjectTotal, Traced
from blendcheck.checks.case import Case
from blendcheck.checks.contents import tracked, undocumented
from blendcheck.checks.entries import used
from blendcheck.checks.marked import (
    DROWSY,
    IRRITANT,
    SENSITISING,
    Marked,
    is_powder,
    is_scent,
    marked_in,
    may_be_volatile,
    stated,
    total_of,
    volatile_total,
)
from blendcheck.quantity import Base, print_range
from blendcheck.records.finding import Finding, Say
from blendcheck.records.working import Id

__all__ = ["DUSTS", "check", "cover_of"]

_CHECK: Final = "irritants"
_LOAD: Final = "irritant load"

DUSTS: Final = frozenset(
    {
        "77-92-9",  # citric acid
        "5949-29-1",  # citric acid monohydrate
        "87-69-4",  # tartaric acid
        "133-37-9",
        "6915-15-7",  # malic acid
        "617-48-1",
        "151-21-3",  # sodium dodecyl sulfate
        "68585-47-7",
        "97375-27-4",  # sodium coco sulfate
        "1847-58-1",  # sodium lauryl sulfoacetate
        "61789-32-0",  # sodium cocoyl isethionate
        "68439-57-6",  # sodium olefin sulfonate
        "144-62-7",  # oxalic acid
    }
)
"""CAS numbers of acids and powdered surfactants whose dust stings; common practice."""


def check(case: Case) -> Iterator[Finding]:
    """State the irritant load, and what is told apart from it.

    Parameters
    ----------
    case : Case
        The case.

    Yields
    ------
    Finding
        Facts and cautions. Without scent only what makes a person allergic or drowsy,
        and dust.
    """
    if any(map(is_scent, used(case.totals).values())):
        yield from _load(case)
        yield from _cooling(case)
    yield from _stated(case)
    yield from _dusts(case)


def _load(case: Case) -> Iterator[Finding]:
    marks = marked_in(case.totals)
    volatile = volatile_total(case.totals)
    blind = undocumented(case)
    also = []
    if blind:
        also.append(Say("irritants.blind", {"materials": ", ".join(blind)}))
    if marks.nothing:
        values = {"all": _grams(volatile, case)}
        yield Finding(
            kind="fact",
            check=_CHECK,
            subject=_LOAD,
            why=Say("irritants.unknown", values),
            also=tuple(also),
            ask=(Say("irritants.ask-marks"),),
        )
        return
    total = total_of(marks, case.totals)
    piece = case.totals.per_piece(total)
    values = {"grams": _grams(total, case), "all": _grams(volatile, case)}
    if piece is not None and case.recipe.pieces_per_use != "1":
        use = case.totals.per_use(total)
        also.insert(
            0,
            Say(
                "irritants.use",
                {
                    "grams": "" if use is None else _print(use, case),
                    "pieces": case.recipe.pieces_per_use,
                },
            ),
        )
    cover = cover_of(total, case)
    if cover is not None:
        span = print_range(case.working.range(cover), "%", digits=3)
        also.append(Say("irritants.cover", {"share": span}))
    also += _counted(marks, case)
    yield Finding(
        kind="fact",
        check=_CHECK,
        subject=_LOAD,
        why=Say("irritants.piece" if piece else "irritants.batch", values),
        value=piece or case.totals.batch_grams(total),
        unit="g",
        base=Base.FINISHED,
        also=tuple(also),
        marks=case.working.marks(total.span),
    )


def _grams(total: SubjectTotal, case: Case) -> str:
    step = case.totals.per_piece(total) or case.totals.batch_grams(total)
    return _print(step, case)


def _print(step: Id, case: Case) -> str:
    return print_range(case.working.range(step), "g", digits=3)


def cover_of(total: SubjectTotal, case: Case) -> Id | None:
    """Work out which share of all scent is marked, closed in one step.

    Parameters
    ----------
    total : SubjectTotal
        The total of what is marked.
    case : Case
        The case.

    Returns
    -------
    Id or None
        The step [%]; ``None`` where the scent lies in a mix whose proportions are
        not known, or where there may be none at all.
    """
    load = case.totals.load()
    if any(one.node.material is None for one in load.traced):
        return None
    working = case.working
    crystals = (one for one in total.traced if _are_crystals(one, case))
    masses = tuple(dict.fromkeys(one.mass for one in (*load.traced, *crystals)))
    if not masses:
        return None
    whole = working.work(
        "irritants/all scent", "sum", masses, unit="g", says="all scented materials"
    ).id
    if not working.range(whole).low:
        return None
    ends = []
    for reading in ("documented", "most"):
        pairs: tuple[Id, ...] = ()
        for one in total.traced:
            share = getattr(one.share, reading)
            if share is not None and one.mass in masses:
                pairs += (share, one.mass)
        ends.append(
            working.work(
                f"irritants/cover/{reading}",
                "percent",
                (*pairs, whole),
                unit="%",
                says=f"share of all scent that is marked, {reading}",
                base=Base.BLEND,
            ).id
        )
    return working.work(
        "irritants/cover",
        "low to high",
        tuple(ends),
        unit="%",
        says="share of all scent that is marked",
        base=Base.BLEND,
    ).id


def _are_crystals(one: Traced, case: Case) -> bool:
    """Whether it is a single substance that is marked and entered as no scent."""
    material = one.node.material
    return material is not None and case.totals.is_own(one.node)


def _counted(marks: Marked, case: Case) -> Iterator[Say]:
    """Say what is counted, by whom it is marked, and how much of it."""
    for identity, who in marks.by.items():
        name = marks.names[identity]
        subject = Subject(name, identity, frozenset({identity}))
        total = case.totals.subject(subject)
        if total.traced:
            values = {
                "name": name,
                "who": ", ".join(who),
                "grams": _grams(total, case),
            }
            yield Say("irritants.counted", values)
    for material in used(case.totals).values():
        if material.id in marks.whole:
            values = {
                "name": material.name,
                "grams": _grams(case.totals.material(material), case),
            }
            yield Say("irritants.counted-whole", values)
    if marks.proposed:
        yield Say("irritants.may-count", {"names": _names(marks, case)})


def _names(marks: Marked, case: Case) -> str:
    return ", ".join(
        sorted(case.totals.components.get(one, one) for one in marks.proposed)
    )


# -- told apart ---------------------------------------------------------------


def _stated(case: Case) -> Iterator[Finding]:
    for statement, code, severity in (
        (SENSITISING, "irritants.sensitising", 1),
        (DROWSY, "irritants.drowsy", 2),
    ):
        for identity, (name, sheet) in stated(case.totals, statement).items():
            values = {
                "name": name,
                "sheet": sheet,
                "grams": _of_stated(identity, name, case),
            }
            yield Finding(
                kind="caution",
                check=_CHECK,
                subject=name,
                why=Say(code, values),
                severity=severity,
            )


def _of_stated(identity: str, name: str, case: Case) -> str:
    totals = case.totals
    if identity.startswith("material:"):
        wanted = identity.removeprefix("material:")
        material = next(m for m in used(totals).values() if m.id == wanted)
        return _grams(totals.material(material), case)
    total = totals.subject(Subject(name, identity, frozenset({identity})))
    return _grams(total, case) if total.traced else "an amount that is not known"


def _cooling(case: Case) -> Iterator[Finding]:
    total = case.totals.subject(tracked("menthol, all its forms", "1490-04-6", case))
    if case.working.range(total.documented).high:
        yield Finding(
            kind="caution",
            check=_CHECK,
            subject="menthol",
            why=Say("irritants.cooling"),
            severity=2,
        )


def _dusts(case: Case) -> Iterator[Finding]:
    """Name the powders whose dust stings while it is made."""
    totals = case.totals
    sheets = stated(totals, IRRITANT)
    found = []
    for material in used(totals).values():
        if material.kind not in ("solid", "emulsifier", "aroma chemical", "other"):
            continue
        said = {material.cas, f"material:{material.id}"} & sheets.keys()
        said |= {material.cas} & set(material.irritant)
        dusty = is_powder(material) or not may_be_volatile(material.cas or "")
        if material.cas in DUSTS or (said and dusty):
            step = totals.batch_grams(totals.material(material, Base.WET))
            found.append(f"{material.name} ({_print(step, case)})")
    if found:
        yield Finding(
            kind="caution",
            check=_CHECK,
            subject="dust while it is made",
            why=Say("irritants.dust", {"materials": ", ".join(found)}),
            severity=3,
        )
