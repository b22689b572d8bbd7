"""Hazard classes of the neat blend and of the finished product, and their labels.

Facts and cautions: nothing here is a limit. Finished cosmetics are outside this
labelling in the European Union; which law a claim falls under is asked, never decided.
"""

from collections.abc import Iterable, Iterator, Mapping

from blendcheck.checks.case import Case
from blendcheck.checks.class_gaps import (
    cannot_be_ruled_out,
    not_carried,
    sheets_lack,
)
from blendcheck.estimates.classes import (
    EU,
    UN,
    US,
    Classes,
    Classified,
    Standing,
)
from blendcheck.estimates.classes.labels import LabelElements, Statement
from blendcheck.estimates.classes.recipes import Labelled, recipe_classes
from blendcheck.estimates.classes.severity import is_hidden
from blendcheck.estimates.classes.wording import TO_FILL_IN, wording_of
from blendcheck.quantity import Mark, print_estimate
from blendcheck.records.estimate import Estimate
from blendcheck.records.finding import Finding, Say

__all__ = ["check", "elements_text"]

_CHECK = "classes"
_DIGITS = 6
_STRICTER = ("Carc.", "Repr.", "Lact.", "STOT SE 1", "STOT SE 2", "STOT RE")
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
        yield from _not_read(one)
    yield from not_carried(case)
    yield from sheets_lack(case)
    yield _regime(case, found)


# -- classes ---------------------------------------------------------------


def _classes(one: Labelled, asked: set[str]) -> Iterator[Finding]:
    shown = [
        c
        for c in one.classes.classes
        if c.standing in _SHOWN
        if c.statement != "EUH208" or _named_only(c, one.classes)
    ]
    for classified in shown:
        yield _class(one, classified)
    if not shown:
        why = Say("classes.none", {"mixture": one.name})
        below = tuple(_sum(one.name, c) for c in one.classes.below)
        yield _fact(one.name, why, estimates=below)
    yield from cannot_be_ruled_out(one, asked)
    for remark in one.classes.remarks:
        code = "classes.solid" if remark == "solid" else "classes.liquid-not-known"
        yield _fact(one.name, Say(code, {"mixture": one.name}))


def _named_only(found: Classified, classes: Classes) -> tuple[str, ...]:
    """Return what EUH208 names: not what the label names for its class already."""
    classed = {
        name
        for one in classes.classes
        if one.standing in _SHOWN and one.statement in ("H317", "H334")
        for name in one.substances
    }
    return tuple(name for name in found.substances if name not in classed)


def _class(one: Labelled, found: Classified) -> Finding:
    certain = found.standing is Standing.CERTAIN
    wording = wording_of(found.statement, liquid=one.classes.mixture.liquid).rstrip(".")
    values = {
        "mixture": one.name,
        "hazard": found.hazard_class,
        "code": f"{found.statement}: {wording}" if wording else found.statement,
        "because": "; ".join(found.because),
    }
    code = "classes.certain" if certain else "classes.possible"
    if certain and is_hidden(found, one.classes):
        code = "classes.at-least"
    if found.statement == "EUH208":
        code = "classes.names" if certain else "classes.may-name"
        values |= {"code": found.statement}
        values |= {"because": "; ".join(_named_only(found, one.classes))}
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
    parts = (label.signal_word, *pictograms, _statements(statements))
    return "; ".join(part for part in parts if part)


def _statements(statements: Iterable[Statement]) -> str:
    said = (f"{one.code} {one.wording.rstrip('.')}" for one in statements)
    return "; ".join(said)


def _label(one: Labelled) -> Finding:
    label = one.cautious
    if label.is_empty:
        return _fact(one.name, Say("classes.no-label", {"mixture": one.name}))
    pictograms = (f"{one.code} ({one.text})" for one in label.pictograms)
    shown = ", ".join(part for part in (label.signal_word, *pictograms) if part)
    code = "classes.label" if shown else "classes.label-words"
    values = {"mixture": one.name, "elements": shown}
    also = list(_label_also(label))
    if one.certain != label:
        also.append(Say("classes.counts-possible"))
    if Mark.FROM_MEMORY in label.marks:
        also.append(Say("classes.from-memory"))
    return Finding(
        kind="fact",
        check=_CHECK,
        subject=f"{one.name}: label",
        why=Say(code, values),
        also=tuple(also),
        source=", ".join(label.sources),
        marks=label.marks,
        severity=5,
    )


def _label_also(label: LabelElements) -> Iterator[Say]:
    """Yield the statements of a label, and what to know of them."""
    for code, statements in (
        ("classes.label-hazards", (*label.hazards, *label.supplemental)),
        ("classes.label-precautions", label.precautions),
    ):
        if statements:
            yield Say(code, {"statements": _statements(statements)})
    dots = [one.code for one in label.precautions if TO_FILL_IN in one.wording]
    if dots:
        yield Say("classes.fill-in", {"codes": ", ".join(dots)})
    if label.names:
        yield Say("classes.contains", {"names": "; ".join(label.names)})
    if label.not_chosen:
        yield Say("classes.choice", {"codes": ", ".join(label.not_chosen)})
    if label.without_elements:
        hazards = ", ".join(label.without_elements)
        yield Say("classes.without-elements", {"hazards": hazards})


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


def _not_read(one: Labelled) -> Iterator[Finding]:
    """Say where the United States may be stricter by limits that were not read."""
    names = dict.fromkeys(
        part.name
        for part in one.classes.mixture.parts
        if part.share.high != 0
        for profile in (part.profile, *(c.profile for c in part.components))
        if any(claim.name.startswith(_STRICTER) for claim in profile.claims)
    )
    if names:
        values = {"mixture": one.name, "materials": "; ".join(names)}
        yield _fact(one.name, Say("classes.us-not-read", values))


# -- which law ------------------------------------------------------------


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
