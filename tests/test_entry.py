"""Entries: nothing of the tables is lost on the way, and rivals stay rivals.

Two sorts of checks. Figures that a publication or a law prints are written out here
by hand with their source. And the CSV files are counted here without our reader:
every row must be reachable from an entry, once, with its printed digits.
"""

import csv
import json
from collections import Counter
from fractions import Fraction
from pathlib import Path

import pytest

from blendcheck import reference
from blendcheck.entry import (
    as_data,
    choices_data,
    look_up,
    oil_entry,
    substance_entry,
    tags_data,
)
from blendcheck.entry.substances import names_elsewhere
from tests.published import Printed

TABLES = Path(__file__).parents[1] / "reference"


def printed_rows(table):
    with (TABLES / f"{table}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def quantity(entry, name):
    return next(q.figures for q in entry.properties if q.name == name)


@pytest.fixture(scope="module")
def substances():
    keys = [*reference.constituents(), *names_elsewhere()]
    return {key: substance_entry(key) for key in keys}


@pytest.fixture(scope="module")
def oils():
    return {oil: oil_entry(oil) for oil in reference.oils()}


# -- against what is printed elsewhere -----------------------------------------

MENTHOL_BOILS = Printed("214", "degC", "crc-95", "boiling point of l-menthol")


@pytest.mark.published
def test_boiling_point_is_shown_in_celsius_and_as_printed():
    """The library prints kelvin; the handbook, as people read it, celsius."""
    first = quantity(substance_entry("2216-51-5"), "boiling point")[0]
    assert first.place.source.source_id == MENTHOL_BOILS.source_id
    assert first.shown == f"{MENTHOL_BOILS.text} °C"
    assert first.printed == "487.15 K"
    assert MENTHOL_BOILS.holds(first.range.low - Fraction("273.15"))


@pytest.mark.published
def test_menthol_is_an_allergen_with_all_its_isomers():
    """Regulation (EC) No 1223/2009, Annex III, entry 338, as amended by (EU)
    2023/1545: named above 0.001 % in leave-on and 0.01 % in rinse-off products."""
    for cas in ("2216-51-5", "89-78-1", "15356-60-2", "1490-04-6"):
        (found,) = substance_entry(cas).law.allergens
        assert (found.entry, found.label_name) == ("III/338", "Menthol")
        assert (found.leave_on, found.rinse_off) == ("0.001 %", "0.01 %")
        assert not found.prohibited
        assert len(found.members) == 4


@pytest.mark.published
def test_citral_is_neral_and_geranial():
    """Annex III, entry 70: the isomers are added up under the name Citral."""
    entry = substance_entry("5392-40-5")
    (group,) = [g for g in entry.groups if g.cas == "5392-40-5"]
    assert {part.cas for part in group.parts} == {"106-26-3", "141-27-5"}
    neral = substance_entry("106-26-3")
    assert [a.label_name for a in neral.law.allergens] == ["Citral"]
    assert "5392-40-5" in [n.text for n in neral.numbers]


@pytest.mark.published
def test_peroxide_limit_of_limonene_stands_with_its_provision():
    """Annex III, entry 88: peroxide value below 20 mmol/L in the substance."""
    found = [
        limit
        for limit in substance_entry("5989-27-5").law.limits
        if limit.provision == "III/88"
    ]
    assert [limit.figure.shown for limit in found] == ["< 20 mmol/L"]
    assert found[0].figure.range.high_open


@pytest.mark.published
def test_workplace_limit_of_camphor_answers_for_its_isomers():
    """29 CFR 1910.1000, Table Z-1: camphor, synthetic, 2 mg/m3."""
    for cas in ("76-22-2", "464-49-3"):
        osha = [
            limit
            for limit in substance_entry(cas).law.air_limits
            if limit.issued_by == "OSHA PEL"
        ]
        assert [limit.figure.shown for limit in osha] == ["≤ 2 mg/m³"]


@pytest.mark.published
def test_peppermint_of_the_pharmacopoeia():
    """European Pharmacopoeia, Menthae piperitae aetheroleum: menthol 30.0 to 55.0,
    menthone 14.0 to 32.0, cineole 3.5 to 14.0, limonene 1.0 to 5.0 per cent."""
    entry = oil_entry("peppermint")
    shares = {
        part.name: [
            share.figure.printed
            for share in part.shares
            if share.edition.startswith("European Pharmacopoeia")
        ]
        for part in entry.components
    }
    assert shares["menthol"] == ["30.0-55.0 %"]
    assert shares["menthone"] == ["14.0-32.0 %"]
    assert shares["1,8-cineole"] == ["3.5-14.0 %"]
    assert shares["limonene"] == ["1.0-5.0 %"]


@pytest.mark.published
def test_distilled_lime_is_not_given_the_light_caution_of_the_expressed():
    """Essential Oil Safety, 2nd edition: lime, cold pressed, is phototoxic; lime,
    distilled, is not."""
    distilled, expressed = oil_entry("lime-distilled"), oil_entry("lime-expressed")
    assert distilled.phototoxicity[0].fits
    assert distilled.phototoxicity[0].phototoxic == "no"
    assert not any("phototoxic" in told.about for told in distilled.watch)
    assert expressed.phototoxicity[0].phototoxic == "yes"
    assert any("phototoxic" in told.about for told in expressed.watch)
    # the ways of making stay side by side
    assert {one.made for one in distilled.phototoxicity} == {"expressed", "distilled"}


# -- nothing is lost -----------------------------------------------------------


def test_every_property_row_is_in_one_entry(substances):
    expected = Counter(
        (row["cas"], row["quantity"])
        for table in ("properties", "vapour_pressure")
        for row in printed_rows(table)
    )
    found = Counter(
        {
            (key, q.name): len(q.figures)
            for key, entry in substances.items()
            for q in entry.properties
        }
    )
    assert sum(expected.values()) > 900
    assert found == expected


def test_digits_are_the_printed_ones(substances):
    """The digits of every property stand in its text as the CSV has them."""
    wanted = Counter(
        (row["cas"], row["quantity"], row["printed_value"])
        for row in printed_rows("properties")
    )
    for key, entry in substances.items():
        for q in entry.properties:
            for figure in q.figures:
                digits = next(
                    part for part in figure.printed.split() if part[0].isdigit()
                )
                wanted[key, q.name, digits] -= 1
    assert {key: n for key, n in wanted.items() if n > 0} == {}


def test_every_row_of_law_air_and_hazard_can_be_reached(substances, oils):
    entries = [*substances.values(), *oils.values()]

    def places(pick):
        return {
            (item.place.source.source_id, item.place.locator)
            for entry in entries
            for item in pick(entry.law)
        }

    reached = {
        "ingredient_limits": places(lambda law: [x.figure for x in law.limits]),
        "exposure_limits": places(lambda law: [x.figure for x in law.air_limits]),
        "irritation_points": places(
            lambda law: [f for q in law.irritation for f in q.figures]
        ),
        "hazard_classes": places(lambda law: law.hazards),
        "swallowing": places(lambda law: law.swallowing),
        "allergens": places(lambda law: law.allergens),
    }
    for table, found in reached.items():
        wanted = {(r["source_id"], r["source_locator"]) for r in printed_rows(table)}
        assert wanted - found == set(), table


def test_every_published_share_is_in_its_oil_and_under_its_constituent(
    substances, oils
):
    rows = printed_rows("oil_composition")
    assert Counter(row["oil"] for row in rows) == Counter(
        {
            oil: sum(len(part.shares) for part in entry.components)
            for oil, entry in oils.items()
        }
    )
    for row in rows:
        entry = substances[row["cas"] or row["constituent"]]
        shares = [
            share
            for oil in entry.in_oils
            if oil.oil == row["oil"]
            for share in oil.shares
        ]
        assert any(
            share.printed_as == row["constituent"]
            and row["printed_value"].lstrip("~<>=") in share.figure.printed
            for share in shares
        ), row


def test_every_reason_to_watch_is_there(substances, oils):
    for row in printed_rows("constituent_watch"):
        told = substances[row["cas"]].watch
        assert (row["concern"], row["says"]) in [(t.about, t.says) for t in told]
    for row in printed_rows("oil_watch"):
        told = [(t.about, t.says) for t in oils[row["oil"]].watch]
        about = f"{row['name']}: {row['concern']}"
        assert any(a == about and s.startswith(row["says"]) for a, s in told), row


def test_memory_is_said_wherever_the_table_says_it(substances, oils):
    """Figures from memory: as many as the CSV files tag so, and none unmarked."""
    tagged = sum(row["tag"] == "memory" for row in printed_rows("properties"))
    found = sum(
        figure.place.from_memory
        for entry in substances.values()
        for q in entry.properties
        if q.name != "vapour pressure"
        for figure in q.figures
    )
    assert found == tagged > 0
    tagged = sum(row["tag"] == "memory" for row in printed_rows("oil_composition"))
    shares = [s for e in oils.values() for c in e.components for s in c.shares]
    assert sum(s.figure.place.from_memory for s in shares) == tagged > 0


def test_no_statement_is_without_its_source(substances, oils):
    def places(value):
        if isinstance(value, dict):
            if {"source", "locator", "tag"} <= set(value):
                yield value
            for inner in value.values():
                yield from places(inner)
        elif isinstance(value, list):
            for inner in value:
                yield from places(inner)

    for entry in (*list(substances.values())[::7], *oils.values()):
        document = as_data(entry, entry.name)
        sources = document.pop("sources")
        for place in places(document):
            assert sources[place["source"]]["citation"], place
            assert place["tag"] in ("seen", "memory")


# -- rivals ----------------------------------------------------------------------


def test_rivals_stand_side_by_side_the_preferred_first():
    rivals = quantity(substance_entry("2216-51-5"), "melting point")
    assert len(rivals) > 2
    assert len({figure.place.source.source_id for figure in rivals}) == len(rivals)
    for entry in map(substance_entry, list(reference.constituents())[:80]):
        for q in entry.properties:
            memory = [figure.place.from_memory for figure in q.figures]
            assert memory == sorted(memory)  # what was read comes first


def test_shares_that_nobody_read_never_widen_the_range_that_was_read():
    """Counted by hand from the CSV file: read rows only, from low to high."""
    rows = [
        row
        for row in printed_rows("oil_composition")
        if row["quantity"] == "content" and row["tag"] == "seen"
    ]
    for entry in map(oil_entry, reference.oils()):
        for part in entry.components:
            mine = [
                row
                for row in rows
                if row["oil"] == entry.oil
                and (row["cas"] or row["constituent"]) == (part.cas or part.name)
            ]
            if not mine:
                assert part.read is None
                continue
            assert part.read.low == min(Fraction(r["low"] or 0) for r in mine)
            assert part.read.high == max(Fraction(r["high"] or 100) for r in mine)


def test_what_is_not_known_is_none_and_not_empty():
    polysorbate = substance_entry("9005-65-6")
    assert polysorbate.structure.alerts is None
    assert polysorbate.structure.air_oxidisable is None
    assert polysorbate.structure.functional_groups is None
    cineole = substance_entry("470-82-6")
    assert cineole.structure.alerts is not None
    assert cineole.structure.air_oxidisable is False


def test_an_alert_is_an_invitation_and_has_its_source():
    alerts = substance_entry("97-53-0").structure.alerts
    assert "pro-hapten" in {alert.domain for alert in alerts}
    for alert in alerts:
        assert {"can", "may"} & set(alert.says.casefold().split())
        assert alert.place.source.citation


# -- plain data ----------------------------------------------------------------------


def test_entry_as_data_is_json_with_ranges_and_sources():
    document = json.loads(json.dumps(as_data(oil_entry("peppermint"), "peppermint")))
    assert set(document) == {"schema", "asked", "oil", "sources"}
    menthol = document["oil"]["components"][0]
    assert (menthol["cas"], menthol["read"]) == ("2216-51-5", [30, 55])
    limits = as_data(substance_entry("5989-27-5"), "x")["substance"]["law"]["limits"]
    assert limits[0]["figure"]["range"] == [None, 20]
    assert limits[0]["figure"]["open"] == ["high"]


def test_choices_as_data():
    document = choices_data(look_up("lime"))
    assert [one["key"] for one in document["choices"]] == [
        "lime-expressed",
        "lime-distilled",
    ]


def test_tags_add_up():
    document = tags_data(reference.tags())
    tables = document["tables"].values()
    assert document["total"]["rows"] == sum(one["rows"] for one in tables)
    counted = [r["tag"] for r in printed_rows("oil_composition")]
    mine = document["tables"]["oil_composition"]
    assert (mine["rows"], mine["memory"]) == (len(counted), counted.count("memory"))
