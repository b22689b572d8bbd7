"""Essential oils: who they are, what was published of them, what to watch."""

import importlib.util
from fractions import Fraction

import pytest

import blendcheck
from blendcheck import reference
from blendcheck.errors import ReferenceDataError

ROOT = reference.tables.Path(blendcheck.__file__).parents[1]


def test_there_are_at_least_45_oils():
    oils = reference.oils()
    assert len(oils) >= 45
    assert len({row.name for row in oils.values()}) == len(oils)


@pytest.mark.parametrize(
    "row_type",
    [
        reference.OilComponent,
        reference.OilNumber,
        reference.OilProperty,
        reference.OilWatch,
    ],
)
def test_rows_on_oils_speak_of_oils_of_the_table(row_type):
    assert {row.oil for row in reference.rows_of(row_type)} <= set(reference.oils())


def test_every_oil_has_a_composition_numbers_and_properties():
    for oil_id in reference.oils():
        assert reference.oil_composition(oil_id), oil_id
        assert reference.oil_properties(oil_id), oil_id
    numbered = {row.oil for row in reference.rows_of(reference.OilNumber)}
    assert numbered == set(reference.oils())


def test_the_first_number_of_an_oil_is_among_its_numbers():
    numbers = {(row.oil, row.cas) for row in reference.rows_of(reference.OilNumber)}
    for row in reference.oils().values():
        assert (row.oil, row.cas) in numbers


def test_cautions_call_an_oil_what_the_table_of_oils_says():
    """Else the oil ids and the names that cautions match would drift apart."""
    watched = {row.oil for row in reference.rows_of(reference.OilName)}
    compared = 0
    for row in reference.oils().values():
        if row.watched_as:
            assert row.watched_as in watched, row
            named = reference.oils_named(row.name)
            assert row.watched_as in named or "distilled" in row.name, row
            compared += 1
    assert compared >= 25


@pytest.mark.parametrize(
    ("asked", "ids"),
    [
        ("peppermint", {"peppermint"}),
        (" Peppermint ", {"peppermint"}),
        ("8006-90-4", {"peppermint"}),
        ("Mentha x piperita", {"peppermint"}),
        ("lemon", {"lemon-expressed"}),
        ("Lime", {"lime-expressed", "lime-distilled"}),
        ("Citrus sinensis", {"sweet-orange"}),
        ("lotus", set()),
        ("", set()),
    ],
)
def test_oils_are_found_by_id_name_botanical_name_and_number(asked, ids):
    assert {row.oil for row in reference.find_oils(asked)} == ids


@pytest.mark.parametrize(
    "look_up",
    [
        reference.oil,
        reference.oil_composition,
        reference.oil_properties,
        reference.oil_watch,
    ],
)
def test_an_unknown_oil_is_refused_and_what_to_do_is_said(look_up):
    with pytest.raises(ReferenceDataError, match=r"lotus .* find_oils"):
        look_up("lotus")


# ---- compositions ------------------------------------------------------------


def papers():
    """Group composition rows as one paper prints them: oil, edition and source."""
    found = {}
    for row in reference.rows_of(reference.OilComponent):
        place = (row.oil, row.edition, row.conditions, row.source_id)
        found.setdefault((*place, row.source_locator), []).append(row)
    return found


def test_low_ends_of_one_paper_leave_room_for_each_other():
    """Low ends above 100 % together would be a slip: a sum is not its own parts."""
    compared = 0
    for place, rows in papers().items():
        if len({row.constituent for row in rows}) < 4:
            continue
        lows = {}
        for row in rows:
            low = row.range.low or Fraction(0)
            lows[row.constituent] = max(low, lows.get(row.constituent, Fraction(0)))
        compared += 1
        assert sum(lows.values()) <= 100, place
    assert compared >= 40


def test_a_number_in_a_composition_is_that_of_the_name_beside_it():
    """The name must lead to that number or to its group, by the tables of names."""
    compared, others = 0, set()
    for row in reference.rows_of(reference.OilComponent):
        if not row.cas:
            continue
        meant = reference.find(row.constituent).candidates
        if not meant:
            continue
        compared += 1
        answering = set().union(*map(reference.numbers_answering, meant))
        if row.cas not in answering:
            others.add((row.constituent, row.cas))
    assert others == OTHER_NUMBERS
    assert compared >= 400


# That of the left-handed form; the table of constituents has the plain one.
OTHER_NUMBERS = {("alpha-bisabolol", "23089-26-1")}


@pytest.mark.published
@pytest.mark.parametrize(
    ("oil_id", "constituent", "printed"),
    # European Pharmacopoeia, Peppermint oil, as printed in a paper that quotes the
    # monograph; and of the older edition for its wider limits.
    [
        ("peppermint", "menthol", "30.0-55.0"),
        ("peppermint", "menthone", "14.0-32.0"),
        ("peppermint", "1,8-cineole", "3.5-14.0"),
        ("peppermint", "menthofuran", "1.0-9.0"),
    ],
)
def test_limits_of_the_pharmacopoeia(oil_id, constituent, printed):
    found = {
        row.printed_value
        for row in reference.oil_composition(oil_id)
        if row.constituent == constituent and row.basis == "regulatory"
    }
    assert printed in found


def test_editions_stand_side_by_side():
    editions = {
        row.edition
        for row in reference.oil_composition("lavender")
        if row.constituent == "linalool"
    }
    assert len(editions) >= 2


def test_who_answers_for_a_constituent():
    found = {row.oil for row in reference.oils_with("470-82-6")}
    assert {"peppermint", "eucalyptus-globulus-cineole-type", "niaouli"} <= found
    assert reference.oils_with("50-00-0") == ()


# ---- what to watch -----------------------------------------------------------


def test_the_watch_list_is_what_its_script_makes():
    path = ROOT / "reference" / "make_oil_watch.py"
    spec = importlib.util.spec_from_file_location("make_oil_watch", path)
    script = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(script)
    assert script.text() == (ROOT / "reference" / "oil_watch.csv").read_text("utf-8")


@pytest.mark.published
@pytest.mark.parametrize(
    ("oil_id", "name", "concern"),
    # The main constituents that compositions of these oils print (ISO standards and
    # pharmacopoeias as named in the table of compositions).
    [
        ("peppermint", "pulegone", "liver"),
        ("peppermint", "menthofuran", "liver"),
        ("eucalyptus-globulus-cineole-type", "1,8-cineole", "airways of children"),
        ("camphor-white", "safrole", "cancer"),
        ("sage-dalmatian", "alpha-thujone", "convulsions"),
        ("fennel-bitter", "estragole", "cancer"),
        ("lemongrass", "citral", "airways of children"),
        ("cinnamon-bark", "trans-cinnamaldehyde", "sensitiser"),
        ("clove-bud", "eugenol", "sensitiser"),
        ("wintergreen", "methyl salicylate", "salicylate"),
        ("bergamot-expressed", "bergapten", "light"),
    ],
)
def test_oils_are_watched_for(oil_id, name, concern):
    rows = reference.oil_watch(oil_id)
    found = {(row.name, row.concern) for row in rows}
    parts = {"citral": ("geranial", "neral")}.get(name, (name,))
    assert found & {(part, concern) for part in (name, *parts)}, found


def test_every_watched_constituent_is_found_in_some_oil_or_listed():
    watched = {row.name for row in reference.rows_of(reference.ConstituentWatch)}
    found = {row.name for row in reference.rows_of(reference.OilWatch)}
    assert watched - found == IN_NO_COMPOSITION


# Compositions print the trans isomer for cinnamal; none names methoxsalen.
IN_NO_COMPOSITION = {"cinnamal", "methoxsalen"}


# ---- light -------------------------------------------------------------------


def test_both_tables_on_light_name_the_same_oils():
    listed = {
        row.watched_as or row.name
        for row in reference.phototoxic_oils()
        if row.phototoxic == "yes"
    }
    warned = {
        row.subject
        for row in reference.watch()
        if (row.about, row.reason) == ("oil", "phototoxic")
    }
    assert listed == warned


def test_no_oil_is_listed_both_ways_for_the_same_making():
    found = {}
    for row in reference.phototoxic_oils():
        found.setdefault((row.name, row.made), set()).add(row.phototoxic)
    assert all(len(answers) == 1 for answers in found.values())


@pytest.mark.parametrize(
    ("name", "warned"),
    [
        ("Tangerine, expressed", True),
        ("Tangerine, distilled", False),
        ("Parsley leaf oil", True),
        ("Parsley seed oil", False),
        ("Petitgrain mandarin", True),
        ("Petitgrain", False),
        ("Lime, distilled", False),
        ("Lime", True),
    ],
)
def test_words_of_the_name_decide_whether_light_is_spoken_of(name, warned):
    found = {row.reason for row in reference.watch_for_oil(name)}
    assert ("phototoxic" in found) is warned
