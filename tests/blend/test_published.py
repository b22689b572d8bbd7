"""Dilutions, alligations and two analysed oils, against what is printed elsewhere.

The whole road: text as a maker writes it, records, totals, caps.
"""

from datetime import date
from fractions import Fraction

import pytest

from blendcheck.assess import knowledge
from blendcheck.blend.shares import Subject
from blendcheck.blend.totals import Totals, total
from blendcheck.checks import caps
from blendcheck.checks.case import Case
from blendcheck.quantity import Mark
from blendcheck.records.finding import Outcome
from blendcheck.records.material import Materials
from blendcheck.records.recipe import Recipe
from tests.blurred.said import digits
from tests.published import Printed

pytestmark = pytest.mark.published

ETHANOL, WATER, SALT = "64-17-5", "7732-18-5", "7647-14-5"


def made(material, recipe, **shelf) -> Totals:
    return total(
        Recipe.model_validate({"name": "published", **recipe}),
        Materials.model_validate({"material": material, **shelf}),
        knowledge(),
    )


def share(totals: Totals, cas: str, reading: str = "documented") -> Fraction:
    found = totals.subject(Subject(cas, cas, frozenset({cas})))
    span = totals.working.range(getattr(found, reading))
    assert span.high is not None
    return span.high


# -- alligation ------------------------------------------------------------------


def strength(percent):
    """Alcohol sold at a strength; read by weight here, so that it does not contract."""
    return {
        "id": f"alcohol {percent}",
        "name": f"Alcohol {percent} %",
        "kind": "aroma chemical",
        "cas": ETHANOL,
        "dilution": {
            "percent": f"{percent} %",
            "diluent": "water",
            "papers_describe": "undiluted",
        },
    }


SOLVENT = {"id": "water", "name": "Water", "kind": "solvent", "cas": WATER}

MIXTURES = [
    (
        [("40", "3000 g"), ("60", "1000 g"), ("70", "1000 g")],
        Printed(
            "50", "%", "pharmacy-alligation", "3 000 + 1 000 + 1 000 of 40, 60, 70 %"
        ),
    ),
    (
        [("95", "20 g"), ("50", "25 g")],
        Printed("70", "%", "pharmacy-alligation", "95 % and 50 % in 20 : 25 parts"),
    ),
    (
        [("70", "1 g"), ("20", "4 g")],
        Printed("30", "%", "pharmacy-alligation", "70 % and 20 % in 1 : 4 parts"),
    ),
]


@pytest.mark.parametrize(("lines", "printed"), MIXTURES, ids=lambda x: str(x)[:40])
def test_mixtures_of_strengths(lines, printed):
    totals = made(
        [SOLVENT, *(strength(percent) for percent, _ in lines)],
        {"line": [{"material": f"alcohol {p}", "amount": a} for p, a in lines]},
    )
    assert share(totals, ETHANOL) == printed.value
    assert share(totals, WATER) == 100 - printed.value


@pytest.mark.parametrize(("lines", "printed"), MIXTURES[1:], ids=["20 : 25", "1 : 4"])
def test_mixtures_of_strengths_as_a_stock_blend_in_parts(lines, printed):
    parts = [
        {"material": f"alcohol {p}", "amount": a.replace("g", "parts")}
        for p, a in lines
    ]
    totals = made(
        [SOLVENT, *(strength(percent) for percent, _ in lines)],
        {"line": [{"stock": "mixture", "amount": "137.5 g"}]},
        stock=[{"id": "mixture", "line": parts}],
    )
    assert share(totals, ETHANOL) == printed.value


def test_a_solution_by_weight():
    """3 000 g of a 5 % solution: 150 g in 2 850 g."""
    solute = Printed(
        "150", "g", "pharmacy-dilution", "sodium chloride for 3 000 g of 5 %"
    )
    solvent = Printed("2850", "g", "pharmacy-dilution", "water for the same")
    salt = {"id": "salt", "name": "Salt", "kind": "solid", "cas": SALT}
    totals = made(
        [salt, SOLVENT],
        {
            "pieces": 1,
            "piece_mass": "3000 g",
            "line": [
                {"material": "salt", "amount": "5 % of finished"},
                {"material": "water", "amount": "95 % of finished"},
            ],
        },
    )
    grams = [totals.working.range(line.grams) for line in totals.expansion.lines]
    assert [one.low for one in grams] == [solute.value, solvent.value]
    assert all(one.is_exact for one in grams)
    assert share(totals, SALT) == 5


SPECIFIC_GRAVITY_OF_ALCOHOL = "0.7936"
ROUNDED = (
    "the table was made with more digits of both specific gravities than it prints"
)
ALCOHOL_TABLE = [
    (
        "10",
        "0.9866",
        Printed(
            "8.05",
            "% w/w",
            "usp-alcoholometric",
            "10 % v/v",
            widen="0.005",
            why_wider=ROUNDED,
        ),
    ),
    (
        "20",
        "0.9759",
        Printed(
            "16.27",
            "% w/w",
            "usp-alcoholometric",
            "20 % v/v",
            widen="0.005",
            why_wider=ROUNDED,
        ),
    ),
    (
        "30",
        "0.9653",
        Printed(
            "24.67",
            "% w/w",
            "usp-alcoholometric",
            "30 % v/v",
            widen="0.005",
            why_wider=ROUNDED,
        ),
    ),
]


@pytest.mark.parametrize(("volume", "gravity", "printed"), ALCOHOL_TABLE)
def test_alcohol_by_volume_in_percent_by_weight(volume, gravity, printed):
    """100 mL at that specific gravity, of which so many millilitres are alcohol.

    The water is what is left of its weight, so the contraction is in the table.
    """
    whole = 100 * Fraction(gravity)
    water = whole - Fraction(volume) * Fraction(SPECIFIC_GRAVITY_OF_ALCOHOL)
    alcohol = {
        "id": "alcohol",
        "name": "Alcohol",
        "kind": "solvent",
        "cas": ETHANOL,
        "density": f"{SPECIFIC_GRAVITY_OF_ALCOHOL} g/mL",
    }
    totals = made(
        [alcohol, SOLVENT],
        {
            "line": [
                {"material": "alcohol", "amount": f"{volume} mL"},
                {"material": "water", "amount": f"{digits(water)} g"},
            ]
        },
    )
    assert printed.holds(share(totals, ETHANOL))


# -- two published analyses ---------------------------------------------------------

ORANGE = {
    "80-56-8": ("alpha-Pinene", "1.1"),
    "555-10-2": ("beta-Phellandrene", "0.5"),
    "127-91-3": ("beta-Pinene", "3.0"),
    "5989-27-5": ("Limonene", "94.6"),
    "78-70-6": ("Linalool", "0.4"),
    "112-31-2": ("Decanal", "0.2"),
}
"""Source ``citrus-gcms-2015``; adds up to 99.8 %."""

TEA_TREE = {
    "562-74-3": ("Terpinen-4-ol", "40.1"),
    "99-85-4": ("gamma-Terpinene", "23.0"),
    "99-86-5": ("alpha-Terpinene", "10.4"),
    "470-82-6": ("1,8-Cineole", "5.1"),
    "586-62-9": ("Terpinolene", "3.1"),
    "99-87-6": ("p-Cymene", "2.9"),
    "80-56-8": ("alpha-Pinene", "2.6"),
    "98-55-5": ("alpha-Terpineol", "2.4"),
    "489-39-4": ("Aromadendrene", "1.5"),
    "483-76-1": ("delta-Cadinene", "1.3"),
    "5989-27-5": ("Limonene", "1.0"),
    "3387-41-5": ("Sabinene", "0.2"),
    "51371-47-2": ("Globulol", "0.2"),
    "552-02-3": ("Viridiflorol", "0.1"),
}
"""Source ``tea-tree-2017``; adds up to 93.9 %."""

BY_HAND = [
    # 94.6 % of 12 g and 1.0 % of 8 g: 11.352 + 0.08 g; both lists show it
    ("5989-27-5", "1.1432", "1.1432"),
    # 1.1 % of 12 g and 2.6 % of 8 g: 0.132 + 0.208 g
    ("80-56-8", "0.034", "0.034"),
    # 40.1 % of 8 g: 3.208 g; orange names all but 0.2 % of 12 g: 0.024 g more
    ("562-74-3", "0.3208", "0.3232"),
    # 5.1 % of 8 g: 0.408 g, and the same 0.024 g
    ("470-82-6", "0.0408", "0.0432"),
    # 0.4 % of 12 g: 0.048 g; tea tree names all but 6.1 % of 8 g: 0.488 g more
    ("78-70-6", "0.0048", "0.0536"),
    # 0.2 % of 12 g: 0.024 g, and the same 0.488 g
    ("112-31-2", "0.0024", "0.0512"),
    # shown by neither: 0.024 + 0.488 g
    ("76-22-2", "0", "0.0512"),
    # a furocoumarin is not volatile: nothing bounds it but the oils, 12 + 8 g
    ("484-20-8", "0", "2"),
]
"""CAS number, documented and at most, in % of 1 000 g that hold 12 g and 8 g."""


def analysed(name, rows, remainder):
    return {
        "id": name,
        "name": name,
        "kind": "essential oil",
        "composition": [
            {
                "kind": "full GC-MS",
                "basis": "area",
                "copied_whole": True,
                "unidentified": remainder,
                "row": [
                    {"name": n, "cas": cas, "share": f"{p} %"}
                    for cas, (n, p) in rows.items()
                ],
            }
        ],
    }


BASES = [
    {"id": "soda", "name": "Soda", "kind": "solid", "cas": "144-55-8"},
    {
        "id": "spirit",
        "name": "Spirit",
        "kind": "alcohol",
        "cas": ETHANOL,
        "leaves_on_drying": "100 %",
    },
]
OILS = [analysed("orange", ORANGE, "0.2 %"), analysed("tea tree", TEA_TREE, "6.1 %")]

IN_GRAMS = {
    "line": [
        {"material": "soda", "amount": "0.98 kg"},
        {"material": "spirit", "amount": "40 g"},
        {"material": "orange", "amount": "12 g"},
        {"material": "tea tree", "amount": "8 g"},
    ]
}
AS_A_LOAD = {
    "pieces": 20,
    "piece_mass": "50 g",
    "line": [
        {"material": "soda", "amount": "1 part"},
        {"material": "spirit", "amount": "40 g"},
    ],
    "blend": {
        "load": "2 %",
        "of": "the total",
        "line": [
            {"material": "orange", "amount": "60 %"},
            {"material": "tea tree", "amount": "40 %"},
        ],
    },
}


@pytest.mark.parametrize("recipe", [IN_GRAMS, AS_A_LOAD], ids=["in grams", "as a load"])
@pytest.mark.parametrize(("cas", "documented", "most"), BY_HAND)
def test_two_published_analyses(recipe, cas, documented, most):
    totals = analysed_totals(recipe)
    one = totals.subject(Subject(cas, cas, frozenset({cas})))
    span = totals.working.range
    assert span(one.documented).high == Fraction(documented)
    assert span(one.documented).low == Fraction(documented)
    assert span(one.most).high == Fraction(most)
    if documented != "0":
        assert Mark.AREA_PERCENT in totals.working.marks(one.documented)


def analysed_totals(recipe) -> Totals:
    return total(
        Recipe.model_validate({"name": "analysed", **recipe}),
        Materials.model_validate({"material": BASES + OILS}),
        knowledge(),
    )


def test_what_the_two_analyses_leave_unnamed():
    """0.2 % of 12 g and 6.1 % of 8 g: 0.512 g of 1 000 g."""
    totals = analysed_totals(IN_GRAMS)
    found = totals.working.range(totals.unlisted().documented)
    assert found.low == found.high == Fraction("0.0512")
    assert sum(Fraction(p) for _, p in ORANGE.values()) == Fraction("99.8")
    assert sum(Fraction(p) for _, p in TEA_TREE.values()) == Fraction("93.9")


@pytest.mark.parametrize(
    ("printed", "outcome"),
    [
        ("1.1432 %", Outcome.WITHIN),
        ("1.1431 %", Outcome.OVER),
    ],
)
def test_a_cap_at_the_last_digit_of_a_published_analysis(printed, outcome):
    shelf = Materials.model_validate(
        {
            "material": BASES + OILS,
            "cap": [
                {
                    "on": "component",
                    "name": "Limonene",
                    "cas": "5989-27-5",
                    "scheme": "own rule",
                    "printed": printed,
                }
            ],
        }
    )
    recipe = Recipe.model_validate({"name": "analysed", **IN_GRAMS})
    totals = total(recipe, shelf, knowledge())
    case = Case(recipe, shelf, totals, totals.working, date(2026, 11, 25))
    found = [
        f for f in caps.check(case) if f.cap is not None and f.cap.on == "component"
    ]
    assert [f.outcome for f in found] == [outcome]
