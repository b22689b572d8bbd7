"""Hazard classes of the neat blend and of the finished product, and their labels.

Facts and cautions: nothing here is a limit. Finished cosmetics are outside this
labelling in the European Union; which law a claim falls under is asked, never decided.
"""

from collections.abc import Iterator, Mapping

from blendcheck.checks.case import Case
from blendcheck.checks.entries import used
from blendcheck.estimates.classes import (
    EU,
    UN,
    US,
    WITHOUT_SUM,
    Classes,
    Classified,
    Standing,
)
from blendcheck.estimates.classes.labels import LabelElements
from blendcheck.estimates.classes.recipes import Labelled, lacking, recipe_classes
from blendcheck.quantity import Mark, print_estimate
from blendcheck.quantity.hazards import SUPPLEMENTAL
from blendcheck.records.estimate import Estimate
from blendcheck.records.finding import Finding, Say

__all__ = ["check", "elements_text"]

_CHECK = "classes"
_DIGITS = 6
_SHOWN = (Standing.CERTAIN, Standing.POSSIBLE)


def check(case: Case) -> Iterator[Finding]:
    """Classify, show the label, and ask what is missing.

    Parameters
    ----------
    case : Case
        The case.

    Yields
    ------
    Finding
        For each mixture its classes with their sums, what cannot be ruled out, its
        label elements and where other schemes differ; then what to ask.
    """
    found = recipe_classes(case.totals, EU)
    others = {
        scheme.name: {one.name: one for one in recipe_classes(case.totals, scheme)}
        for scheme in (US, UN)
    }
    asked: set[str] = set()
    for one in found:
        yield from _classes(one, asked)
        yield _label(one)
        yield from _differences(one, others)
    yield from _not_carried(case)
    yield from _lacking(case)
    yield _regime(case, found)


# -- classes ---------------------------------------------------------------


def _classes(one: Labelled, asked: set[str]) -> Iterator[Finding]:
    shown = [c for c in one.classes.classes if c.standing in _SHOWN]
    for classified in shown:
        yield _class(one, classified)
    if not shown:
        why = Say("classes.none", {"mixture": one.name})
        below = tuple(_sum(one.name, c) for c in one.classes.below)
        yield _fact(one.name, why, estimates=below)
    yield from _open(one, asked)
    for remark in one.classes.remarks:
        code = "classes.solid" if remark == "solid" else "classes.liquid-not-known"
        yield _fact(one.name, Say(code, {"mixture": one.name}))


def _class(one: Labelled, found: Classified) -> Finding:
    certain = found.standing is Standing.CERTAIN
    values = {
        "mixture": one.name,
        "hazard": found.hazard_class,
        "code": found.statement,
        "because": ", ".join(found.because),
    }
    code = "classes.certain" if certain else "classes.possible"
    if found.statement == "EUH208":
        code = "classes.names" if certain else "classes.may-name"
        values["because"] = ", ".join(found.substances)
    also: list[Say] = []
    if Mark.FROM_MEMORY in found.marks:
        also.append(Say("classes.from-memory"))
    if found.hazard_class == "Asp. Tox. 1":
        also.append(Say("classes.layers"))
    if found.hazard_class.startswith("Flam. Liq.") and not certain:
        also.append(Say("classes.flash-point"))
    return Finding(
        kind="fact",
        check=_CHECK,
        subject=f"{one.name}: {found.hazard_class}",
        why=Say(code, values),
        also=tuple(also),
        source=", ".join(found.sources),
        marks=found.marks,
        severity=5,
        estimates=(_sum(one.name, found),),
    )


def _sum(mixture: str, found: Classified) -> Estimate:
    """Return the sum behind a class, so that it can be opened."""
    low, high = (None if e is None else float(e) for e in (found.low, found.high))
    name = f"classes.{mixture}.{found.hazard_class}.{found.standing}"
    what = "flash point of the mixture" if found.unit == "°C" else "what is compared"
    return Estimate(
        name,
        f"{found.hazard_class}, {what}",
        found.unit,
        low if low == high else None,
        low,
        high,
        max((_digits(end) for end in (low, high) if end is not None), default=1),
        found.lines,
        found.sources,
        found.marks | {Mark.ESTIMATED},
    )


def _digits(value: float) -> int:
    """Return how many digits a sum needs: 50 is shown as 50, not as 50.0000."""
    whole = print_estimate(value, digits=_DIGITS)
    for digits in range(1, _DIGITS):
        if float(print_estimate(value, digits=digits)) == float(whole):
            return digits
    return _DIGITS


def _open(one: Labelled, asked: set[str]) -> Iterator[Finding]:
    """Say once for each mixture what cannot be ruled out; ask once for each paper."""
    left = [c for c in one.classes.classes if c.standing is Standing.OPEN]
    if not left:
        return
    names = dict.fromkeys(
        name for c in left for name in c.because if name in one.classes.unclassified
    )
    ask = [name for name in names if name not in asked]
    asked.update(ask)
    values = {
        "mixture": one.name,
        "hazards": ", ".join(c.hazard_class for c in left),
        "materials": ", ".join(names),
    }
    yield Finding(
        kind="caution",
        check=_CHECK,
        subject=one.name,
        why=Say("classes.open", values),
        ask=tuple(Say("classes.ask-sheet", {"material": name}) for name in ask),
        marks=frozenset({Mark.ABSENCE}),
        severity=4,
    )


def _fact(
    subject: str, why: Say, *, estimates: tuple[Estimate, ...] = (), source: str = ""
) -> Finding:
    return Finding(
        kind="fact",
        check=_CHECK,
        subject=subject,
        why=why,
        source=source,
        estimates=estimates,
        severity=6,
    )


# -- labels ----------------------------------------------------------------


def elements_text(label: LabelElements) -> str:
    """Write the elements of a label in one line.

    Parameters
    ----------
    label : LabelElements
        The elements.

    Returns
    -------
    str
        Signal word, pictograms by code and name, statements with their codes.
    """
    pictograms = (f"{one.code} ({one.text})" for one in label.pictograms)
    statements = (*label.hazards, *label.supplemental, *label.precautions)
    said = (f"{one.code} {one.wording.rstrip('.')}" for one in statements)
    parts = (label.signal_word, *pictograms, *said)
    return "; ".join(part for part in parts if part)


def _label(one: Labelled) -> Finding:
    label = one.cautious
    if label.is_empty:
        return _fact(one.name, Say("classes.no-label", {"mixture": one.name}))
    also = []
    if one.certain != label:
        also.append(Say("classes.counts-possible"))
    if label.names:
        also.append(Say("classes.contains", {"names": ", ".join(label.names)}))
    if any("six stand there" in text for text in label.left_out):
        also.append(Say("classes.choice"))
    if label.without_elements:
        hazards = ", ".join(label.without_elements)
        also.append(Say("classes.without-elements", {"hazards": hazards}))
    if Mark.FROM_MEMORY in label.marks:
        also.append(Say("classes.from-memory"))
    values = {"mixture": one.name, "elements": elements_text(label)}
    return Finding(
        kind="fact",
        check=_CHECK,
        subject=f"{one.name}: label",
        why=Say("classes.label", values),
        also=tuple(also),
        source=", ".join(label.sources),
        marks=label.marks,
        severity=5,
    )


# -- other schemes ---------------------------------------------------------


def _standings(classes: Classes, scheme: str) -> Mapping[str, Standing]:
    """Return the classes that two schemes can both have."""
    left_out = ("Aquatic", "ED ", "EUH") if scheme == "US" else ("EUH", "ED ")
    return {
        c.hazard_class: c.standing
        for c in classes.classes
        if c.standing in _SHOWN and not c.hazard_class.startswith(left_out)
    }


def _differences(
    one: Labelled, others: Mapping[str, Mapping[str, Labelled]]
) -> Iterator[Finding]:
    for scheme, labelled in others.items():
        other = labelled.get(one.name)
        if other is None:
            continue
        here, there = (_standings(x.classes, scheme) for x in (one, other))
        differ = [
            f"{name} ({there[name]})" if name in there else f"no {name}"
            for name in dict.fromkeys((*there, *here))
            if there.get(name) != here.get(name)
        ]
        if differ:
            values = {"mixture": one.name, "difference": ", ".join(differ)}
            code = "classes.us" if scheme == "US" else "classes.un"
            sums = tuple(
                _sum(f"{scheme}.{one.name}", c)
                for c in other.classes.classes
                if c.hazard_class in there and there[c.hazard_class] == c.standing
                if here.get(c.hazard_class) != c.standing
            )
            yield _fact(one.name, Say(code, values), estimates=sums)


# -- what to ask -----------------------------------------------------------


def _not_carried(case: Case) -> Iterator[Finding]:
    """Name classes and EUH statements of sheets for which there is no sum here."""
    seen: dict[tuple[str, str], str] = {}
    for material in used(case.totals).values():
        for paper in material.hazard:
            for one in paper.classes:
                if one.name == SUPPLEMENTAL or one.name in WITHOUT_SUM:
                    said = " ".join((one.name, one.statement))
                    if one.name == SUPPLEMENTAL:
                        said = one.statement
                    seen.setdefault((material.name, said), one.statement)
    for (name, said), code in seen.items():
        values = {"material": name, "hazard": said}
        yield Finding(
            kind="caution",
            check=_CHECK,
            subject=f"{name}: {code}",
            why=Say("classes.not-carried", values),
            ask=(Say("classes.ask-not-carried", values),),
            severity=5,
        )


def _lacking(case: Case) -> Iterator[Finding]:
    """Ask about classes that others give an oil and that its sheet does not have."""
    for one in lacking(case.totals):
        values = {
            "material": one.material,
            "code": one.statement,
            "hazard": one.hazard_class,
            "components": ", ".join(one.because),
        }
        same = one.because == (one.material,)
        code = "classes.sheet-lacks-oil" if same else "classes.sheet-lacks"
        yield Finding(
            kind="caution",
            check=_CHECK,
            subject=one.material,
            why=Say(code, values),
            also=(Say("classes.from-memory"),) if one.from_memory else (),
            ask=(Say("classes.ask-lacking", values),),
            source=", ".join(one.sources),
            marks=frozenset({Mark.FROM_MEMORY}) if one.from_memory else frozenset(),
            severity=4,
        )


def _regime(case: Case, found: tuple[Labelled, ...]) -> Finding:
    """Ask under which law it is, without deciding."""
    also = []
    if case.recipe.contact == "not for skin":
        also.append(Say("classes.regime-not-for-skin"))
    if any(one.name == "neat blend" for one in found):
        also.append(Say("classes.regime-blend"))
    return Finding(
        kind="caution",
        check=_CHECK,
        subject="which law",
        why=Say("classes.regime"),
        also=tuple(also),
        ask=(Say("classes.ask-regime"),),
        severity=6,
    )
