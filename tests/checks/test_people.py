"""The usual cautions, and the grams beside them.

Published figures: a recipe page's shower tablet (450 g bicarbonate, 225 g citric acid,
50 g kaolin, 35 g menthol, 15 g oil, 5 g polysorbate, 30 g alcohol that leaves) holds
4.49 % of menthol, 2.7 g in a piece of 60 g (common practice; the arithmetic is by
hand). Menthol, cineole and camphor in children: European Medicines Agency, terpenic
derivatives (2012), read for suppositories.
"""

import re
from fractions import Fraction

import pytest

from blendcheck import reference
from blendcheck.checks import people
from blendcheck.checks.case import Watch
from blendcheck.errors import DomainError
from blendcheck.quantity import Mark
from blendcheck.words import render
from tests.checks.cases import ALCOHOL, BICARBONATE, CITRIC, by_code, make_case, oil

MENTHOL = {
    "id": "menthol",
    "name": "Menthol crystals",
    "kind": "aroma chemical",
    "cas": "2216-51-5",
}
KAOLIN = {"id": "kaolin", "name": "Kaolin", "kind": "solid"}
POLYSORBATE = {"id": "polysorbate", "name": "Polysorbate 80", "kind": "emulsifier"}


def report(*rows, **fields):
    return {
        "kind": "full GC-MS",
        "basis": "w/w",
        "copied_whole": True,
        "unidentified": "0 %",
        "row": [
            {"name": name, "cas": cas, "share": share} for name, cas, share in rows
        ],
        **fields,
    }


def lavender(**fields):
    """A gentle oil with a whole report and nothing on the list of cautions."""
    rows = (("linalool", "78-70-6", "60 %"), ("linalyl acetate", "115-95-7", "40 %"))
    return oil("Lavender oil", composition=[report(*rows)], **fields)


def tablet(*lines, **recipe):
    return make_case((BICARBONATE, "100 g"), *lines, **recipe)


def said(finding):
    return " ".join(render(say) for say in (finding.why, *finding.also, *finding.ask))


def grams(case, subject, code="people.grams-piece"):
    found = next(
        f for f in people.check(case) if f.why.code == code and f.subject == subject
    )
    assert found.kind == "fact"
    assert found.outcome is None
    assert found.unit == "g"
    return case.working.range(found.value)


# -- grams -------------------------------------------------------------------


def test_menthol_in_a_piece_of_a_published_recipe():
    case = make_case(
        (BICARBONATE, "450 g"),
        (CITRIC, "225 g"),
        (KAOLIN, "50 g"),
        (MENTHOL, "35 g"),
        (lavender(), "15 g"),
        (POLYSORBATE, "5 g"),
        (ALCOHOL, "30 g"),
        piece_mass="60 g",
    )
    span = grams(case, "menthol, all its forms")
    assert span.is_exact
    assert span.low == Fraction(35 * 60, 780)  # 4.49 % of 60 g
    assert round(float(span.low), 1) == 2.7
    assert round(float(grams(case, "Lavender oil").low), 2) == 1.15
    assert round(float(grams(case, "clay").low), 2) == round(50 * 60 / 780, 2)
    assert grams(case, "emulsifiers").low == Fraction(5 * 60, 780)
    assert grams(case, "oily matter").low == Fraction(15 * 60, 780)


def test_menthol_is_added_from_crystals_and_oils_in_all_its_forms():
    mint = oil(
        "Cornmint oil",
        composition=[
            report(("menthol", "89-78-1", "50 %"), ("menthone", "89-80-5", "50 %"))
        ],
    )
    case = make_case(
        (BICARBONATE, "94 g"), (MENTHOL, "4 g"), (mint, "2 g"), piece_mass="50 g"
    )
    span = grams(case, "menthol, all its forms")
    assert span.low == Fraction(4 * 50, 100) + Fraction(1 * 50, 100)  # 2 g + 0.5 g


def test_a_list_with_a_form_and_its_parts_counts_once():
    mint = oil(
        "Cornmint oil",
        composition=[
            report(("menthol", "89-78-1", "50 %"), ("l-menthol", "2216-51-5", "40 %"))
        ],
    )
    case = make_case((BICARBONATE, "98 g"), (mint, "2 g"), piece_mass="100 g")
    span = grams(case, "menthol, all its forms")
    assert span.low <= 1  # never 90 % of it
    assert span.high >= 1


def test_cineole_and_camphor_of_one_oil():
    rosemary = oil(
        "Rosemary oil",
        composition=[
            report(
                ("1,8-cineole", "470-82-6", "40-50 %"), ("camphor", "76-22-2", "10 %")
            )
        ],
    )
    case = make_case((BICARBONATE, "98 g"), (rosemary, "2 g"), piece_mass="100 g")
    span = grams(case, "1,8-cineole (eucalyptol)")
    assert (span.low, span.high) == (Fraction(8, 10), Fraction(1))
    assert grams(case, "camphor, all its forms").low == Fraction(2, 10)


@pytest.mark.parametrize(("used", "factor"), [("1/2", Fraction(1, 2)), ("2", 2)])
def test_grams_in_one_use(used, factor):
    case = tablet((MENTHOL, "4 g"), piece_mass="60 g", pieces_per_use=used)
    piece = grams(case, "Menthol crystals")
    use = grams(case, "Menthol crystals", "people.grams-use")
    assert use.low == piece.low * factor


def test_one_piece_in_one_use_is_said_once():
    case = tablet((MENTHOL, "4 g"), piece_mass="60 g")
    assert "people.grams-use" not in by_code(people.check(case))


def test_pieces_stand_in_for_the_mass_of_a_piece():
    case = tablet((MENTHOL, "4 g"), pieces=4)
    assert grams(case, "Menthol crystals").low == 1


def test_without_a_piece_there_are_no_grams_and_it_is_asked():
    found = by_code(people.check(tablet((lavender(), "2 g"))))
    assert not any(f.kind == "fact" for fs in found.values() for f in fs)
    assert found["people.swallowed-plain"][0].ask[0].code == "people.ask-piece"


# -- what calls for a caution -------------------------------------------------

STRONG = {
    "menthol crystals": MENTHOL,
    "peppermint without papers": oil("Peppermint oil"),
    "eucalyptus without papers": oil("Eucalyptus globulus"),
    "cineole in a report": oil(
        "Blend no. 4", composition=[report(("1,8-cineole", "470-82-6", "5 %"))]
    ),
    "camphor by its isomer": oil(
        "Blend no. 5", composition=[report(("d-camphor", "464-49-3", "5 %"))]
    ),
}


@pytest.mark.parametrize("material", STRONG.values(), ids=STRONG)
def test_menthol_cineole_and_camphor(material):
    found = by_code(people.check(tablet((material, "2 g"))))
    for code in ("children", "asthma", "epilepsy", "animals", "eyes"):
        finding = found[f"people.{code}"][0]
        assert finding.kind == "caution"
        assert finding.outcome is None
        assert material["name"] in said(finding)
        assert finding.source


def test_a_gentle_oil_with_a_whole_report():
    found = by_code(people.check(tablet((lavender(), "2 g"))))
    assert "people.children" not in found
    assert "people.epilepsy" not in found
    assert "people.contents-not-known" not in found
    # anything scented, whatever is in it
    for code in ("asthma", "animals", "pregnancy", "eyes", "not-food"):
        assert f"people.{code}" in found


NOT_SHOWN = {
    "no list": {},
    "an allergen statement": {
        "composition": [
            {
                "kind": "allergen statement",
                "copied_whole": True,
                "row": [{"name": "linalool", "cas": "78-70-6", "share": "1 %"}],
            }
        ]
    },
    "a report not copied whole": {
        "composition": [report(("linalool", "78-70-6", "60 %"), copied_whole=False)]
    },
    "a published range": {
        "composition": [
            report(
                ("linalool", "78-70-6", "60 %"),
                kind="published range",
                copied_whole=False,
            )
        ]
    },
}


@pytest.mark.parametrize("fields", NOT_SHOWN.values(), ids=NOT_SHOWN)
def test_what_the_papers_do_not_show_calls_for_the_cautions(fields):
    case = tablet((oil("Winter wind", kind="fragrance oil", **fields), "2 g"))
    found = by_code(people.check(case))
    for code in ("people.children", "people.epilepsy"):
        assert "do not show all that is in: Winter wind" in said(found[code][0])
    assert found["people.contents-not-known"][0].ask[0].code == "people.ask-report"


def test_not_detected_is_no_reason():
    rows = (("linalool", "78-70-6", "99 %"), ("camphor", "76-22-2", "n.d."))
    case = tablet((oil("Lavender oil", composition=[report(*rows)]), "2 g"))
    assert "people.epilepsy" not in by_code(people.check(case))


def test_a_reason_from_memory_is_marked():
    case = tablet((oil("Peppermint oil"), "2 g"))
    assert Mark.FROM_MEMORY in by_code(people.check(case))["people.children"][0].marks


def test_every_reason_of_the_table_has_its_sentence():
    assert {row.reason for row in reference.watch()} <= people.REASONS.keys()


def test_a_reason_without_a_sentence_is_refused():
    def watch(_):
        return (Watch("moonlight", "memory", "memory"),)

    case = tablet((oil(), "2 g"), watch=watch)
    with pytest.raises(
        DomainError, match="reason of a caution = moonlight must be one"
    ):
        list(people.check(case))


# -- light -------------------------------------------------------------------


@pytest.mark.parametrize(
    ("material", "cautioned", "asked"),
    [
        (oil("Bergamot oil"), True, True),  # by its name; nobody said which kind
        (oil("Bergamot oil", phototoxic="yes"), True, False),
        (oil("Bergamot oil", phototoxic="no"), False, False),
        (
            oil(
                "Bergamot oil",
                phototoxic="no",
                composition=[report(("bergapten", "484-20-8", "0.3 %"))],
            ),
            True,
            False,
        ),
        (oil("Blend no. 6", phototoxic="not known"), True, True),
        (oil("Blend no. 6", phototoxic="yes"), True, False),
        (lavender(), False, False),
    ],
)
def test_phototoxic(material, cautioned, asked):
    found = [
        f
        for f in people.check(tablet((material, "2 g")))
        if f.why.code.startswith("people.phototoxic")
    ]
    assert len(found) == cautioned
    if found:
        assert material["name"] in said(found[0])
        assert bool(found[0].ask) is asked


# -- what it is and how it is made -------------------------------------------


@pytest.mark.parametrize("amount", ["0.1 g", "1 g", "20 g"])
def test_slip_reads_the_same_at_any_figure_and_with_an_emulsifier(amount):
    plain = by_code(people.check(tablet((lavender(), amount))))
    helped = by_code(people.check(tablet((lavender(), amount), (POLYSORBATE, amount))))
    assert plain["people.slip"] == helped["people.slip"]
    assert "does not wash that away" in said(plain["people.slip"][0])


@pytest.mark.parametrize(
    ("product", "bath", "slip"),
    [
        ("shower tablet", True, True),
        ("bath fizz", False, True),
        ("soap", False, True),
        ("room mist", False, True),
        ("balm", False, False),
    ],
)
def test_what_depends_on_the_product(product, bath, slip):
    found = by_code(people.check(tablet((lavender(), "2 g"), product=product)))
    assert ("people.not-for-the-bath" in found) is bath
    assert ("people.slip" in found) is slip
    assert "people.not-food" in found


def test_alcohol_and_dust_belong_to_the_work():
    found = by_code(people.check(tablet((ALCOHOL, "5 g"), (lavender(), "2 g"))))
    assert "flame" in said(found["people.alcohol"][0])
    assert "mask" in said(found["people.dust"][0])
    water = {"id": "water", "name": "Water", "kind": "water"}
    found = by_code(people.check(make_case((water, "99 g"), (lavender(), "1 g"))))
    assert "people.alcohol" not in found
    assert "people.dust" not in found


def test_bottles_are_dated():
    dated = lavender(lot=[{"lot": "a", "opened": "2026-03-01"}, {"lot": "b"}])
    for lot, asked in (("a", False), ("b", True)):
        found = by_code(people.check(tablet((dated, "2 g", lot))))
        assert ("people.date-bottles" in found) is asked


# -- the list as a whole -----------------------------------------------------


def everything():
    return tablet(
        (ALCOHOL, "5 g"),
        (MENTHOL, "3 g"),
        (oil("Bergamot oil"), "2 g"),
        (oil("Winter wind", kind="fragrance oil"), "1 g"),
        (POLYSORBATE, "1 g"),
        piece_mass="60 g",
    )


def test_severe_ones_stand_first_and_whom_to_ask_last():
    cautions = [f for f in people.check(everything()) if f.kind == "caution"]
    assert [f.severity for f in cautions] == sorted(f.severity for f in cautions)
    first = {f.why.code for f in cautions if f.severity == 1}
    assert {
        "people.children",
        "people.asthma",
        "people.swallowed",
        "people.epilepsy",
        "people.alcohol",
    } == first
    last = said(cautions[-1])
    for word in ("supplier", "local code", "doctor", "vet"):
        assert word in last


def test_every_list_ends_with_whom_to_ask():
    for case in (everything(), tablet(), tablet((lavender(), "1 g"), product="balm")):
        assert list(people.check(case))[-1].why.code == "people.closing"


def test_no_limit_comes_from_here_and_no_age_is_printed():
    for finding in people.check(everything()):
        assert finding.kind in ("fact", "caution")
        assert finding.outcome is None
        assert not re.search(r"\b(month|year)s?\b", said(finding))


def test_swallowed_says_the_grams_and_whom_to_call():
    case = everything()
    found = by_code(people.check(case))["people.swallowed"][0]
    # 6 g of scent in 107 g, of a piece of 60 g
    assert "3.36 g" in said(found) or "3.37 g" in said(found)
    assert "poison line now" in said(found)
