"""The usual cautions that follow from what is in the piece, severe ones first.

No number decides here and nothing is ever said to be fine for somebody. The list
ends with the papers, codes and people that come before it.
"""

from collections.abc import Iterator, Mapping
from types import MappingProxyType

from blendcheck.checks.case import Case
from blendcheck.checks.contents import (
    Reasons,
    facts,
    grams_in_piece,
    is_slippery,
    reasons,
    undocumented,
)
from blendcheck.checks.entries import used
from blendcheck.checks.lookalike import SOURCE as FOOD_SOURCE
from blendcheck.checks.lookalike import food_words
from blendcheck.errors import DomainError
from blendcheck.quantity import Mark
from blendcheck.records.finding import Finding, Say
from blendcheck.records.material import Material

__all__ = ["REASONS", "check"]

_CHECK = "people"

REASONS: Mapping[str, tuple[str, int]] = MappingProxyType(
    {
        "children": ("people.children", 1),
        "asthma": ("people.asthma", 1),
        "swallowed": ("people.swallowed", 1),
        "epilepsy": ("people.epilepsy", 1),
        "animals": ("people.animals", 2),
        "eyes": ("people.eyes", 2),
        "phototoxic": ("people.phototoxic", 2),
    }
)
"""Sentence and severity of each reason in the table of cautions."""

_IF_NOT_KNOWN = ("children", "epilepsy")
"""Cautions that apply to a scent of which it is not known what is in it."""

_FOR_ANY_SCENT = ("asthma", "animals")
"""Cautions that apply to anything scented, whatever is in it."""

_CAN_SPOIL = frozenset({"balm", "room mist", "other"})
"""Goods that stay wet where water goes in."""

_ON_THE_FLOOR = frozenset({"shower tablet", "bath fizz", "soap", "room mist", "other"})


def check(case: Case) -> Iterator[Finding]:
    """State grams, then cautions.

    Parameters
    ----------
    case : Case
        The case.

    Yields
    ------
    Finding
        Facts; cautions by severity; last, whom to ask.

    Raises
    ------
    DomainError
        If the table of cautions has a reason for which there is no sentence.
    """
    yield from facts(case)
    yield from sorted(_cautions(case), key=lambda finding: finding.severity)
    yield _caution("people.closing", 9)


def _cautions(case: Case) -> Iterator[Finding]:
    found = reasons(case)
    for reason in found:
        if reason not in REASONS:
            rule = "one of " + ", ".join(sorted(REASONS))
            raise DomainError("reason of a caution", reason, rule)
    blind = undocumented(case)
    materials = used(case.totals).values()
    smells = bool(found) or any(m.is_scented for m in materials)
    yield from _from_contents(found, blind, smells=smells)
    yield _swallowed(case, found.get("swallowed"), smells=smells)
    yield from _phototoxic(case, found.get("phototoxic"))
    yield from _about_the_piece(case, smells=smells)
    yield from _about_the_work(case)
    if blind:
        values = {"materials": ", ".join(blind)}
        yield _caution(
            "people.contents-not-known",
            3,
            values,
            ask=(Say("people.ask-report", values),),
        )


def _caution(
    code: str,
    severity: int,
    values: Mapping[str, str] | None = None,
    *,
    because: Reasons | None = None,
    blind: tuple[str, ...] = (),
    ask: tuple[Say, ...] = (),
    source: str = "",
) -> Finding:
    also: list[Say] = []
    marks: frozenset[Mark] = frozenset()
    if because is not None and because.what:
        also.append(Say("people.because", {"what": ", ".join(because.what)}))
        if any(watch.tag == "memory" for watch in because.watches):
            marks = frozenset({Mark.FROM_MEMORY})
    if blind:
        also.append(Say("people.not-known", {"materials": ", ".join(blind)}))
    return Finding(
        kind="caution",
        check=_CHECK,
        subject=code.removeprefix("people.").replace("-", " "),
        why=Say(code, values or {}),
        also=tuple(also),
        ask=ask,
        source=source if because is None else because.source,
        marks=marks,
        severity=severity,
    )


# -- from what is in it ----------------------------------------------------


def _from_contents(
    found: Mapping[str, Reasons], blind: tuple[str, ...], *, smells: bool
) -> Iterator[Finding]:
    for reason in ("children", "asthma", "epilepsy", "animals"):
        because = found.get(reason)
        not_known = blind if reason in _IF_NOT_KNOWN else ()
        always = smells and reason in _FOR_ANY_SCENT
        if because is not None or not_known or always:
            code, severity = REASONS[reason]
            yield _caution(code, severity, because=because, blind=not_known)
    code, severity = REASONS["eyes"]
    yield _caution(code, severity, because=found.get("eyes"))
    if smells:
        yield _caution("people.pregnancy", 2)
        yield _caution("people.medicines", 2)


def _swallowed(case: Case, because: Reasons | None, *, smells: bool) -> Finding:
    code, severity = REASONS["swallowed"]
    scented = any(m.is_scented for m in used(case.totals).values())
    grams = grams_in_piece(case.totals.load(), case) if scented else None
    if grams is not None:
        return _caution(code, severity, {"grams": grams}, because=because)
    return _caution(
        "people.swallowed-plain",
        severity,
        because=because,
        ask=(Say("people.ask-piece"),) if smells else (),
    )


def _phototoxic(case: Case, because: Reasons | None) -> Iterator[Finding]:
    """Name what is phototoxic, and what nobody looked up."""
    reason = because or Reasons()
    not_known: list[str] = []
    for material in used(case.totals).values():
        listed = material.name in reason.what
        if material.phototoxic == "yes":
            reason.what.setdefault(material.name)
        elif material.phototoxic == "not known" or listed:
            not_known.append(material.name)
    if not (reason.what or not_known):
        return
    code, severity = REASONS["phototoxic"]
    yield _caution(
        code if reason.what else "people.phototoxic-not-known",
        severity,
        {} if reason.what else {"materials": ", ".join(not_known)},
        because=reason,
        ask=tuple(Say("people.ask-phototoxic", {"material": m}) for m in not_known),
    )


# -- from what it is and how it is made ------------------------------------


def _about_the_piece(case: Case, *, smells: bool) -> Iterator[Finding]:
    product = case.recipe.product
    materials = used(case.totals).values()
    if product == "shower tablet" and smells:
        yield _caution("people.not-for-the-bath", 2)
    if product in _ON_THE_FLOOR and any(is_slippery(m) for m in materials):
        yield _caution("people.slip", 2)
    yield _caution("people.not-food", 2)
    foods = food_words(case)
    if foods:
        values = {"words": ", ".join(foods)}
        yield _caution("people.food-like", 2, values, source=FOOD_SOURCE)
    if product == "room mist":
        yield _caution("people.droplets", 2)
    if product in _CAN_SPOIL and any(m.kind == "water" for m in materials):
        yield _caution("people.germs", 2)


def _about_the_work(case: Case) -> Iterator[Finding]:
    materials = used(case.totals).values()
    if any(m.kind == "alcohol" for m in materials):
        yield _caution("people.alcohol", 1)
        if case.recipe.product == "room mist":
            yield _caution("people.alcohol-mist", 1)
    if any(m.kind == "solid" for m in materials) and case.recipe.product != "balm":
        yield _caution("people.dust", 3)
    undated = _not_dated(case)
    if undated:
        yield _caution("people.date-bottles", 5, {"materials": ", ".join(undated)})


def _not_dated(case: Case) -> tuple[str, ...]:
    """Oils whose bottle has no opening date."""
    return tuple(
        dict.fromkeys(
            node.says
            for node in case.totals.leaves
            if node.material is not None
            and _ages(node.material)
            and not _opened(node.material, node.lot)
        )
    )


def _ages(material: Material) -> bool:
    return material.kind in ("essential oil", "fragrance oil", "absolute")


def _opened(material: Material, lot: str | None) -> bool:
    return any(one.lot == lot and one.opened is not None for one in material.lot)
