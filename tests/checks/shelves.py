"""Small shelves and recipes as plain dicts, and what a check says of them.

``checked`` runs every check; ``capped`` only the two that compare with caps. Masses
are written so that a percent can be worked in the head: 100 g finished.
"""

from collections.abc import Iterable, Mapping
from datetime import date
from fractions import Fraction
from typing import Any

from blendcheck.assess import Assessment, assess
from blendcheck.records.finding import Finding
from blendcheck.records.material import Materials
from blendcheck.records.recipe import Recipe

ON = date(2026, 11, 25)
SCHEME = "trade standard"
MENTHOL = "2216-51-5"
CITRAL, GERANIAL, NERAL = "5392-40-5", "141-27-5", "106-26-3"
LIMONENE, D_LIMONENE, L_LIMONENE = "138-86-3", "5989-27-5", "5989-54-8"
LINALOOL = "78-70-6"

Table = dict[str, Any]

BASE: Table = {
    "id": "base",
    "name": "Bicarbonate",
    "kind": "solid",
    "cas": "144-55-8",
}


def cap(printed: str, category: str = "9", edition: str = "51", **more: Any) -> Table:
    return {
        "scheme": SCHEME,
        "edition": edition,
        "category": category,
        "printed": printed,
        **more,
    }


def component_cap(name: str, cas: str | None, printed: str, **more: Any) -> Table:
    named = {"name": name} if cas is None else {"name": name, "cas": cas}
    return {
        "on": "component",
        "scheme": "own rule",
        "printed": printed,
        **named,
        **more,
    }


def row(name: str, cas: str | None, share: str) -> Table:
    found = {"name": name, "share": share}
    return found if cas is None else {**found, "cas": cas}


def paper(*rows: Table, kind: str = "full GC-MS", **more: Any) -> Table:
    """Return a component list; with ``whole`` given it was copied whole."""
    return {"kind": kind, "basis": "w/w", "row": list(rows), **more}


def oil(id_: str = "oil", *caps: Table, papers: Iterable[Table] = (), **more: Any):
    return {
        "id": id_,
        "name": id_.capitalize(),
        "kind": "essential oil",
        "flash_point": "60 °C closed cup",
        "cap": list(caps),
        "composition": list(papers),
        **more,
    }


def basis(category: str = "9", **more: Any) -> Table:
    return {
        "scheme": SCHEME,
        "category": category,
        "said_by": "the supplier's technical desk",
        "on": "2026-10-02",
        **more,
    }


def records(
    lines: Mapping[str, str] | Iterable[Table],
    materials: Iterable[Table],
    *,
    shelf: Table | None = None,
    **recipe: Any,
) -> tuple[Recipe, Materials]:
    """Return a recipe and its shelf; ``lines`` may be amounts by material."""
    if isinstance(lines, Mapping):
        lines = [{"material": m, "amount": amount} for m, amount in lines.items()]
    recipe.setdefault("category", [basis()])
    recipe.setdefault("process", {"room": "17 °C", "ignition": [], "heat_gun": False})
    written = {"name": "test", "line": list(lines), **recipe}
    whole = {"material": [BASE, *materials], **(shelf or {})}
    return Recipe.model_validate(written), Materials.model_validate(whole)


def checked(
    lines: Mapping[str, str] | Iterable[Table],
    materials: Iterable[Table] = (),
    *,
    on: date = ON,
    **more: Any,
) -> Assessment:
    recipe, shelf = records(lines, materials, **more)
    return assess(recipe, shelf, on)


CAP_CHECKS = ("caps", "use over cap", "sum of a document")


def of_caps(assessment: Assessment) -> list[Finding]:
    """The findings that compare with caps, limits and facts."""
    return [
        f
        for f in assessment.findings
        if f.check in CAP_CHECKS and f.kind in ("limit", "fact")
    ]


def on(assessment: Assessment, subject: str, check: str = "caps") -> list[Finding]:
    return [f for f in of_caps(assessment) if f.subject == subject and f.check == check]


def only(found: list[Finding]) -> Finding:
    assert len(found) == 1, [(f.subject, f.outcome, f.why.code) for f in found]
    return found[0]


def counting(found: list[Finding]) -> Finding:
    return only([f for f in found if f.counts])


def ends(assessment: Assessment, finding: Finding) -> tuple[Fraction, Fraction]:
    assert finding.value is not None
    span = assessment.working.range(finding.value)
    assert span.low is not None
    assert span.high is not None
    return span.low, span.high


def decimal(value: Fraction) -> str:
    """Write a number whose decimals end, for use in a recipe."""
    assert value >= 0
    places = 0
    while (value * 10**places).denominator != 1:
        places += 1
        assert places < 60, f"{value} has no decimals that end"
    digits = str(int(value * 10**places)).rjust(places + 1, "0")
    return digits if places == 0 else f"{digits[:-places]}.{digits[-places:]}"
