"""Cases built by hand: a shelf, a recipe, a kitchen."""

from datetime import date

from blendcheck import reference
from blendcheck.blend.totals import Knowledge, total
from blendcheck.checks.case import Case, Watch
from blendcheck.records.material import Materials
from blendcheck.records.recipe import Recipe

ON = date(2026, 11, 25)

BICARBONATE = {"id": "bicarbonate", "name": "Bicarbonate", "kind": "solid"}
CITRIC = {"id": "citric", "name": "Citric acid", "kind": "solid", "cas": "77-92-9"}
ALCOHOL = {
    "id": "alcohol",
    "name": "Alcohol",
    "kind": "alcohol",
    "cas": "67-63-0",
    "flash_point": "12 °C closed cup",
    "leaves_on_drying": "100 %",
}


def oil(name="Oil", **fields):
    return {
        "id": name.lower().replace(" ", "-"),
        "name": name,
        "kind": "essential oil",
        **fields,
    }


def knowledge():
    groups = {
        group.cas: reference.members_of(group.cas)
        for group in reference.groups()
        if group.cas
    }
    return Knowledge(
        groups=groups, names=lambda name: frozenset(reference.find(name).candidates)
    )


def watch(what):
    rows = (*reference.watch_for_cas(what), *reference.watch_for_oil(what))
    return tuple(Watch(row.reason, row.source_id, row.tag) for row in rows)


def make_case(*lines, shelf=None, on=ON, process=None, watch=watch, **recipe):
    """Build a case.

    ``lines`` are pairs of a material (a dict) and an amount, with an optional lot.
    Further materials, stock blends and the workshop go in ``shelf``.
    """
    materials = {one[0]["id"]: one[0] for one in lines}
    whole = dict(shelf or {})
    whole["material"] = [*materials.values(), *whole.get("material", ())]
    written = {
        "name": "test",
        "line": [
            {
                "material": one[0]["id"],
                "amount": one[1],
                **({"lot": one[2]} if len(one) > 2 else {}),
            }
            for one in lines
        ],
        "process": process or {},
        **recipe,
    }
    shelf_record = Materials.model_validate(whole)
    recipe_record = Recipe.model_validate(written)
    totals = total(recipe_record, shelf_record, knowledge())
    return Case(recipe_record, shelf_record, totals, totals.working, on, watch)


def by_code(findings):
    """The findings by the code of their reason."""
    found = {}
    for finding in findings:
        found.setdefault(finding.why.code, []).append(finding)
    return found
