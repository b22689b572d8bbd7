"""What calls for the usual cautions."""

import pytest

from blendcheck import reference
from blendcheck.reference import oils_named, watch_for_cas, watch_for_oil

USUAL = {"animals", "asthma", "children", "epilepsy", "eyes"}


def reasons(rows):
    return {row.reason for row in rows}


@pytest.mark.parametrize(
    "cas",
    [
        "1490-04-6",
        "2216-51-5",
        "89-78-1",
        "15356-60-2",
        "470-82-6",
        "76-22-2",
        "464-49-3",
        "464-48-2",
        "21368-68-3",
    ],
)
def test_menthol_cineole_and_camphor_by_every_number(cas):
    assert reasons(watch_for_cas(cas)) >= USUAL


@pytest.mark.parametrize(
    "name",
    [
        "Peppermint oil",
        "peppermint essential oil, lot 41",
        "Mentha Piperita (Peppermint) Oil",
        "Huile essentielle, Mentha × piperita",
        "8006-90-4",
        "Cornmint, dementholised",
        "Mentha arvensis",
        "Eucalyptus globulus",
        "EUCALYPTUS RADIATA",
        "Camphor, white",
    ],
)
def test_peppermint_cornmint_eucalyptus_and_camphor_oils(name):
    assert reasons(watch_for_oil(name)) >= USUAL


@pytest.mark.published
@pytest.mark.parametrize(
    "name",
    # Essential Oil Safety, 2nd edition (2014), phototoxic oils, as quoted on a
    # secondary page.
    [
        "Angelica root",
        "Bergamot",
        "Cumin",
        "Grapefruit",
        "Lemon, cold pressed",
        "Lime (expressed)",
        "Orange, bitter",
        "Tagetes",
    ],
)
def test_phototoxic_oils(name):
    assert "phototoxic" in reasons(watch_for_oil(name))


@pytest.mark.published
@pytest.mark.parametrize(
    "name",
    # The same source: oils that do not cause it.
    [
        "Bergamot FCF",
        "Bergamot, furanocoumarin-free",
        "Lemon (steam distilled)",
        "Lime, distilled",
        "Orange, sweet",
        "Sweet orange",
    ],
)
def test_oils_that_are_not_phototoxic(name):
    assert "phototoxic" not in reasons(watch_for_oil(name))


@pytest.mark.parametrize(
    ("name", "oils"),
    [
        ("Lemongrass", ()),
        ("Lemon eucalyptus", ("eucalyptus",)),
        ("Lemon balm", ()),
        ("Limette", ()),
        ("Clary sage", ()),
        ("Sage, Dalmatian", ("sage",)),
        ("Pineapple fragrance", ()),
        ("Petitgrain, bitter orange leaf", ()),
        ("Lavender", ()),
        ("Spike lavender", ("spike lavender",)),
        ("Peppermint and eucalyptus blend", ("peppermint", "eucalyptus")),
        ("", ()),
        ("8006-90-5", ()),
        ("70-54-2", ()),
    ],
)
def test_whole_words_decide(name, oils):
    assert set(oils_named(name)) == set(oils)


def test_a_name_that_does_not_say_how_it_was_made_gets_the_caution():
    assert "phototoxic" in reasons(watch_for_oil("Lime"))
    assert "phototoxic" in reasons(watch_for_oil("lemon oil"))


def test_every_watched_oil_has_names_and_every_named_oil_is_watched():
    watched = {row.subject for row in reference.watch() if row.about == "oil"}
    named = {row.oil for row in reference.rows_of(reference.OilName)}
    assert watched == named
    for row in reference.rows_of(reference.OilName):
        if row.use != "not when":
            assert row.oil in oils_named(row.name), row


def test_every_watched_constituent_is_in_the_tables():
    watched = {row.subject for row in reference.watch() if row.about == "constituent"}
    assert watched <= set(reference.constituents())


def test_a_substance_that_is_not_watched_has_no_rows():
    assert watch_for_cas("64-17-5") == ()
    assert watch_for_cas("50-00-0") == ()


def test_the_worst_reasons_do_not_rest_on_memory_alone():
    """Children and epilepsy, for the three constituents and eucalyptus oil."""
    by_number = map(watch_for_cas, ("1490-04-6", "470-82-6", "76-22-2"))
    for rows in (*by_number, watch_for_oil("eucalyptus")):
        for reason in ("children", "epilepsy"):
            assert "seen" in {row.tag for row in rows if row.reason == reason}
