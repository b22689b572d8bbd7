"""Makes recipes and shelves of every shape, with texts that are hard to carry."""

from typing import Any

from hypothesis import HealthCheck, settings
from hypothesis import strategies as st

from blendcheck.records.material import Materials
from blendcheck.records.recipe import Recipe


def patient(most: int = 100) -> settings:
    """Settings for a machine that others use as well."""
    return settings(
        max_examples=most, deadline=None, suppress_health_check=[HealthCheck.too_slow]
    )


HARD = [
    "=1+1",
    "'=1+1",
    "''@x",
    "-20 °C",
    "@SUM(A1)",
    "+44",
    "\u201cfair\u201d",
    'say "oil"',
    "it's",
    "a\\b",
    "two\nlines",
    "tab\there",
    "a,b;c\td",
    "# no remark",
    "[line]",
    '"""',
    "'''",
    "007",
    "1e3",
    "true",
    "\u202etfel",
    "\u00a0x\u00a0y",
    "Öl – 香り 🌿",
    "a\rb",
    "x = 1",
]
text = st.one_of(
    st.sampled_from(HARD),
    st.text(st.characters(exclude_categories=["Cs"]), min_size=1, max_size=12).filter(
        lambda t: t.strip() == t and bool(t.strip())
    ),
)
percent = st.sampled_from(
    ["10-25 %", "<0.1 %", "≥ 10 - < 25", "tr", "n.d. (<10 ppm)", "0.50", "5", "0.00 %"]
)
exact_percent = st.sampled_from(["2 %", "0.5%", "12.50 %"])
mass = st.sampled_from(["60 g", "0.25 kg", "1 1/2 oz wt", "900 mg", "2-3 g"])
amount = st.one_of(mass, st.sampled_from(["20 drops", "15 mL", "½ tsp"]))
temperature = st.sampled_from(["62 °C", ">93 °C", "143 F closed cup", "N/A", ""])
density = st.sampled_from(["0.900 g/mL", "0.885–0.895 g/mL"])
day = st.sampled_from(["2025-04-03", "3 April 2025"])
cas = st.sampled_from(
    ["89-78-1", "470-82-6", "5989-27-5", "80-56-8", "7732-18-5", "50-00-0", "64-17-5"]
)
printed_cap = st.sampled_from(
    ["14.46 %", "0", "Not restricted", "N/A", "-", "", "0.50"]
)


def table(
    must: dict[str, st.SearchStrategy[Any]], may: dict[str, st.SearchStrategy[Any]]
) -> st.SearchStrategy[dict[str, Any]]:
    return st.fixed_dictionaries(must, optional=may)


def some(items: st.SearchStrategy[Any], most: int = 3, **more: Any) -> Any:
    return st.lists(items, max_size=most, **more)


shower = table(
    {},
    {
        "stall_volume": st.sampled_from(["1.5 m3", "2.00 m³", "70 cu ft"]),
        "duration": st.sampled_from(["8 min", "8.5 min", "1 h"]),
        "water_temperature": st.sampled_from(["38 °C", "104 °F"]),
        "showers_in_a_row": st.integers(2, 20),
        "showers_with_a_piece": st.just(1),
        "dissolving": st.just("12 min"),
    },
)


cap = table(
    {"scheme": text},
    {
        "edition": text,
        "category": text,
        "printed": printed_cap,
        "footnote": text,
        "document": text,
        "summed_with": text,
    },
)
component_cap = table(
    {"scheme": text, "on": st.just("component"), "cas": cas, "printed": printed_cap},
    {"name": text},
)
rows = some(
    table({"name": text, "share": percent}, {"cas": cas}),
    4,
    unique_by=(
        lambda r: r["name"].casefold().split(),
        lambda r: r.get("cas", r["name"]),
    )
    and (lambda r: r.get("cas") or " ".join(r["name"].casefold().split())),
)
composition = table(
    {"kind": st.sampled_from(["full GC-MS", "allergen statement", "published range"])},
    {
        "document": text,
        "basis": st.sampled_from(["w/w", "area"]),
        "copied_whole": st.booleans(),
        "covers": st.lists(cas, max_size=3),
        "shown_from": percent,
        "unidentified": percent,
        "row": rows,
    },
).map(
    # a published range is never a whole copy of a lot's paper
    lambda made: (
        made | {"copied_whole": False}
        if made["kind"] == "published range" and made.get("copied_whole")
        else made
    )
)
lot = table(
    {"lot": text},
    {
        "received": day,
        "opened": day,
        "storage": text,
        "density": density,
        "flash_point": temperature,
        "composition": some(composition, 2),
    },
)
hazard = st.one_of(
    table(
        {
            "classes": st.lists(
                st.sampled_from(
                    ["Skin Irrit. 2, H315", "Asp. Tox. 1 H304", "H226", "Skin Sens. 1"]
                ),
                min_size=1,
                max_size=3,
                unique=True,
            )
        },
        {
            "document": text,
            "name": text,
            "cas": cas,
            "limits": st.just(["Skin Irrit. 2; H315: 10 % ≤ C < 25 %"]),
            "ate": st.just(["LD50 oral > 2000 mg/kg, no signs", "vapour 11 mg/L"]),
            "m_acute": st.sampled_from(["1", "M = 10"]),
            "viscosity": st.sampled_from(["≤ 20.5 mm²/s (40 °C)", "1.1 mm2/s"]),
            "boiling_point": temperature,
            "ph": st.sampled_from(["1.8", "<= 2"]),
            "adds_up": st.booleans(),
            "copied_whole": st.booleans(),
        },
    ),
    st.just({"classes": ["not classified"], "copied_whole": True}),
)
document = table(
    {"id": text, "kind": text},
    {"issuer": text, "date": day, "edition": text, "lot": text},
)
material = table(
    {
        "id": text,
        "name": text,
        "kind": st.sampled_from(["essential oil", "solid", "alcohol", "other"]),
    },
    {
        "botanical": text,
        "inci": text,
        "supplier": text,
        "remark": text,
        "cas": cas,
        "density": density,
        "density_is_published": st.booleans(),
        "flash_point": temperature,
        "flash_point_document": text,
        "leaves_on_drying": percent,
        "weighed": st.dictionaries(st.sampled_from(["drop", "cup", "tsp"]), mass),
        "dilution": table(
            {
                "percent": exact_percent,
                "diluent": text,
                "papers_describe": st.sampled_from(["undiluted", "as sold"]),
            },
            {},
        ),
        "phototoxic": st.sampled_from(["yes", "no", "not known"]),
        "irritant": st.lists(cas, max_size=2),
        "document": some(document, 2, unique_by=lambda d: d["id"]),
        "lot": some(lot, 2, unique_by=lambda x: x["lot"]),
        "composition": some(composition, 2),
        "hazard": some(hazard, 2),
        "cap": some(cap),
    },
)
line = st.one_of(
    table({"material": text, "amount": amount}, {"lot": text}),
    table({"stock": text, "amount": amount}, {}),
)
stock = table(
    {"id": text, "line": st.lists(line, min_size=1, max_size=3)},
    {"name": text, "made": day},
)
confirmed = table({"cas": cas}, {"name": text, "counts_as": cas, "same": st.booleans()})
shelf_tables = table(
    {},
    {
        "workshop": table(
            {},
            {
                "name": text,
                "place": st.sampled_from(["EU", "Great Britain"]),
                "scale": mass,
                "review_after_months": st.integers(1, 240),
                "current": st.dictionaries(text, text, max_size=2),
                "shower": shower,
            },
        ),
        "material": some(material, 3, unique_by=lambda m: m["id"]),
        "stock": some(stock, 2, unique_by=lambda s: s["id"]),
        "cap": some(st.one_of(cap, component_cap), 2),
        "confirmed": some(confirmed, 2),
    },
)
recipe_line = st.one_of(
    table(
        {"material": text, "amount": amount}, {"lot": text, "leaves_on_drying": percent}
    ),
    table({"stock": text, "amount": amount}, {}),
)
blend = st.one_of(
    table({"line": st.lists(line, min_size=1, max_size=3)}, {}),
    table(
        {
            "load": exact_percent,
            "of": st.sampled_from(["the total", "on top of the base"]),
            "line": st.lists(
                table({"material": text, "amount": st.just("2 parts")}, {"lot": text}),
                min_size=1,
                max_size=3,
            ),
        },
        {},
    ),
)
recipe_tables = table(
    {"name": text, "line": st.lists(recipe_line, min_size=1, max_size=4)},
    {
        "materials": text,
        "product": st.sampled_from(["shower tablet", "room mist", "other"]),
        "contact": st.sampled_from(["leave-on", "rinse-off"]),
        "channel": st.sampled_from(["gift", "sale"]),
        "pieces": st.integers(1, 500),
        "piece_mass": mass,
        "pieces_per_use": st.sampled_from(["1/2", "1", "2"]),
        "pieces_given": st.integers(1, 24),
        "allowance_for_loss": exact_percent,
        "dry_mass": mass,
        "remark": text,
        "blend": blend,
        "stock": some(stock, 2, unique_by=lambda s: s["id"]),
        "cap": some(cap, 2),
        "process": table(
            {},
            {
                "room": temperature,
                "ignition": some(text, 2),
                "heat_gun": st.booleans(),
                "temperature": st.dictionaries(
                    st.sampled_from(["drying", "heated base"]), temperature
                ),
            },
        ),
        "category": some(
            table(
                {"scheme": text, "category": text, "said_by": text, "on": day},
                {"edition": text},
            ),
            2,
        ),
    },
)
shelves = shelf_tables.map(Materials.model_validate)
recipes = recipe_tables.map(Recipe.model_validate)

SHELF = """\
# the drawer by the window

[workshop]
name = "Salt Lane"   # the sign says so

# peppermint: the big bottle
[[material]]
id = "pep"   # short
name = "Peppermint oil"
kind = "essential oil"
density = 0.900

# the new delivery
[[material.lot]]
lot = "A12"
# weighed by hand, twice

[[material.composition]]
kind = "full GC-MS"
row = [
  # copied from page 2
  { name = "Menthol", cas = "89-78-1", share = "30-50 %" }, # the main one
  { name = "Menthone", share = "14-32 %" }, # by name only
  { name = "1,8-Cineole", cas = "470-82-6", share = "3.5-14 %" },
]

# clay, for the colour
[[material]]
id = "clay"
name = "White clay"
kind = "solid"

# bicarbonate
[[material]]
id = "bicarb"
name = "Bicarbonate"
kind = "solid"
# the end
"""
