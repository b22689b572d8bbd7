"""The tables themselves: pins, keys, sources, and what the loader refuses."""

import hashlib
import re
import shutil
from dataclasses import fields
from fractions import Fraction
from pathlib import Path

import pytest

import blendcheck
from blendcheck import reference
from blendcheck.errors import ReferenceDataError

ROOT = Path(blendcheck.__file__).parents[1]
FOLDER = ROOT / "reference"

# An edit of a table is deliberate: change the row, then the pin.
PINS = {
    "air_oxidation": (10, "23107c58202e1214"),
    "allergen_lists": (10, "c5fe79eb53de4404"),
    "alcohol_densities": (32, "ffe04e5760de2acb"),
    "allergens": (172, "e625244f4e1e1cd2"),
    "atomic_weights": (8, "c7c778ed5f379c75"),
    "breathing_irritants": (24, "05cce64002ed4075"),
    "carbon_skeletons": (34, "e3da2f37d1e366ef"),
    "claims": (33, "bae68b17ebcf2fcf"),
    "constituent_families": (256, "1e8dce4e5711d970"),
    "constituent_watch": (29, "7f831028548db236"),
    "constituents": (256, "9271afaad37b7ae3"),
    "duties": (50, "31dae6864ec5b781"),
    "critical_points": (226, "7be3be3a1843d580"),
    "exposure_limits": (111, "3fc8dbf457a60559"),
    "families": (40, "86b295018e3a60bf"),
    "functional_groups": (26, "068cb7e7e777e66f"),
    "groups": (69, "f9aa802ef2b4a505"),
    "hazard_classes": (147, "55a7b28fecc0aff8"),
    "ingredient_limits": (116, "b2b9fa50e3527e67"),
    "irritation_points": (39, "855fda7114da4eb7"),
    "label_elements": (360, "043579686185b822"),
    "liquid_points": (43, "9bb23f1b7b36e749"),
    "mixture_limits": (113, "7658da0a4e29139f"),
    "oil_cas": (103, "caf729102e8279c5"),
    "oil_composition": (655, "55517a086399da2f"),
    "oil_names": (195, "27737de28723603c"),
    "oil_properties": (201, "5693188b88524bec"),
    "oil_watch": (129, "29211e1a2ab96e53"),
    "oils": (51, "dbe2027b08c1bc28"),
    "phototoxic_oils": (25, "e0f7f3c558ad2d8b"),
    "phrases": (252, "9a2abb9cd00da442"),
    "properties": (979, "37d4d1c6ee63256c"),
    "rules": (28, "71765c17acbc9a4a"),
    "shower_parameters": (51, "a12eb21f3c04cd25"),
    "sources": (286, "58cd2ea0bd455e9f"),
    "structural_alerts": (22, "07198705077f9a21"),
    "swallowing": (38, "e66f13a1cee01190"),
    "synonyms": (640, "9300ffbcbe79d08d"),
    "unifac_assignments": (1106, "76154d703ae441d9"),
    "unifac_groups": (35, "b12d868a3de797fb"),
    "unifac_interactions": (254, "6a2270d3c350e4e3"),
    "vapour_coefficients": (219, "3ee112490b028328"),
    "vapour_pressure": (18, "d7d48187937f2a0c"),
    "watch": (112, "8b809c92621f4a33"),
}


def digest(table):
    return hashlib.sha256((FOLDER / f"{table}.csv").read_bytes()).hexdigest()[:16]


@pytest.mark.parametrize("row_type", reference.TABLES, ids=lambda each: each.table)
def test_row_count_and_checksum_are_pinned(row_type):
    rows = reference.rows_of(row_type)
    assert (len(rows), digest(row_type.table)) == PINS[row_type.table]


def test_every_file_has_a_row_class():
    files = {path.stem for path in FOLDER.glob("*.csv")}
    assert files == {row_type.table for row_type in reference.TABLES} == set(PINS)


def cited():
    return {
        getattr(row, column)
        for row_type in reference.TABLES
        for row in reference.rows_of(row_type)
        for column in row_type.cites
    } - {""}


def named_in_the_package():
    """Return the sources that docstrings name, as ``source id ``x```` ."""
    return {
        name
        for path in (ROOT / "blendcheck").rglob("*.py")
        for name in re.findall(r"source id ``([^`]+)``", path.read_text("utf-8"))
    }


def test_every_source_that_is_named_exists_and_every_source_is_named():
    assert "ciaaw-2021" in named_in_the_package()
    assert cited() | named_in_the_package() == set(reference.sources())


def test_an_address_is_one_and_rows_say_when_their_source_was_read():
    for source in reference.sources().values():
        assert re.fullmatch(r"(https?://\S+)?", source.locator_url), source
        if source.source_id in cited() - {"memory"}:
            assert source.retrieved_on, source
    assert not reference.source("memory").retrieved_on


@pytest.mark.parametrize("row_type", reference.TABLES, ids=lambda each: each.table)
def test_rows_from_memory_and_only_those_are_tagged_so(row_type):
    for row in reference.rows_of(row_type):
        tag = getattr(row, "tag", "seen")
        if row_type.cites and row.source_id == "memory":
            assert tag == "memory", row
        # An atomic weight or a CAS number can have a source that we know of and
        # did not read word for word.
        if tag == "memory" and row_type.table not in ("atomic_weights", "oil_names"):
            assert "memory" in {getattr(row, name) for name in row_type.cites}, row


def test_names_of_constituents_are_told_apart():
    names = [reference.normal_name(r.name) for r in reference.constituents().values()]
    assert len(names) == len(set(names))


@pytest.mark.parametrize(
    ("row_type", "column"),
    [
        (reference.Synonym, "cas"),
        (reference.GroupMember, "group_cas"),
        (reference.GroupMember, "member_cas"),
    ],
)
def test_every_number_referred_to_is_a_constituent(row_type, column):
    numbers = {getattr(row, column) for row in reference.rows_of(row_type)} - {""}
    assert numbers <= set(reference.constituents())


def test_tables_cannot_be_changed_by_a_caller():
    with pytest.raises(TypeError, match="does not support item assignment"):
        reference.constituents()["64-17-5"] = None
    with pytest.raises(AttributeError, match="cannot assign to field"):
        reference.source("memory").citation = "other"


def test_shares_from_memory_are_counted_per_table():
    tags = reference.tags()
    assert set(tags) == set(PINS) - {"sources"}
    for table, count in tags.items():
        assert count.seen + count.memory == PINS[table][0]
        assert 0 <= count.memory_share <= 1
    assert tags["atomic_weights"].memory_share == Fraction(5, 8)


# ---- what the loader refuses -------------------------------------------------


@pytest.fixture
def folder(tmp_path):
    copy = tmp_path / "reference"
    shutil.copytree(FOLDER, copy)
    return copy


def edit(folder, table, old, new):
    """Replace the first ``old`` in a table and return the number of its line."""
    path = folder / f"{table}.csv"
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), "utf-8")
    return text[: text.index(old)].count("\n") + 1


MENTHOL = "2216-51-5,l-menthol,Menthol,eu-annex-iii,seen,"
BAD_ROWS = [
    ("check digit", MENTHOL, MENTHOL.replace("51-5", "51-6"), "cas 2216-51-6 is not a"),
    ("no CAS form", MENTHOL, MENTHOL.replace("2216", "02216"), "cas 02216-51-5 is no"),
    ("blank name", ",l-menthol,", ",,", "name is blank"),
    ("space", ",l-menthol,", ", l-menthol,", "name ' l-menthol' has a space before"),
    (
        "cell missing",
        MENTHOL,
        MENTHOL.replace(",seen", ""),
        "it has 14 cells, the",
    ),
    ("unknown tag", ",seen,,", ",heard,,", "inci_tag heard is none of seen, memory"),
    ("date", ",2026-11-25,", ",25/11/2026,", "checked_on 25/11/2026 is"),
    (
        "date too short",
        ",2026-11-25,",
        ",20261125,",
        "checked_on 20261125 is no",
    ),
    ("formula", ",C10H20O,", ",C10H2O0,", "formula C10H2O0 is not a formula"),
    ("mass", ",156.269,", ",156.279,", "molar_mass 156.279 is not that of C10H20O"),
    ("mass in words", ",156.269,", ",about 156,", "molar_mass about 156 is not a dec"),
    ("element", ",C10H20O,", ",C10H20Xx,", "formula C10H20Xx: no atomic weight for Xx"),
    ("unit", ",156.269,g/mol", ",156.269,kg/mol", "molar_mass_unit kg/mol is none of"),
    ("half a mass", ",156.269,g/mol", ",156.269,", "formula, molar_mass and molar_mas"),
    (
        "half an INCI name",
        "Menthol,eu-annex-iii,",
        "Menthol,,",
        "inci, inci_source",
    ),
    ("drawn", ",open,C3H8O2", ",none,C3H8O2", "drawn 'none' does not fit the cell sm"),
    ("source", ",chemicals-1.5.2,", ",no-such,", "source no-such is not in sources.cs"),
]


@pytest.mark.parametrize(
    ("old", "new", "message"), [row[1:] for row in BAD_ROWS], ids=lambda _: ""
)
def test_a_bad_row_stops_the_load_with_file_and_line(folder, old, new, message):
    line = edit(folder, "constituents", old, new)
    place = f"reference/constituents.csv, line {line}: {message}"
    with pytest.raises(ReferenceDataError, match=re.escape(place)):
        reference.read_table(reference.Constituent, folder)


@pytest.mark.parametrize(
    ("row_type", "old", "new", "message"),
    [
        (
            reference.Synonym,
            ",synonym,",
            ",alias,",
            "kind alias is none of synonym",
        ),
        (
            reference.Synonym,
            "1506-02-1,",
            "1506-02-2,",
            "name 1506-02-2 is not a CAS",
        ),
        (
            reference.GroupMember,
            ",part of sum,",
            ",in,",
            "relation in is none of",
        ),
        (
            reference.OilName,
            ",not when,",
            ",unless,",
            "use unless is none of name",
        ),
        (
            reference.OilName,
            "8006-90-4,",
            "8006-90-5,",
            "name 8006-90-5 is not a CAS",
        ),
        (reference.Watch, ",children,", ",kids,", "reason kids is none of"),
        (reference.Watch, "1490-04-6,", "1490-04-7,", "subject 1490-04-7 is not a"),
        (
            reference.Watch,
            "constituent,",
            "substance,",
            "about substance is none of",
        ),
        (
            reference.Source,
            "2026-11-25",
            "yesterday",
            "retrieved_on yesterday is",
        ),
        (
            reference.AtomicWeight,
            "12.011",
            "12,011",
            "it has 8 cells, the heading",
        ),
        (
            reference.AtomicWeight,
            "12.011",
            "twelve",
            "weight twelve is not a",
        ),
    ],
    ids=lambda _: "",
)
def test_each_table_has_rules_of_its_own(folder, row_type, old, new, message):
    line = edit(folder, row_type.table, old, new)
    place = f"reference/{row_type.table}.csv, line {line}: {message}"
    with pytest.raises(ReferenceDataError, match=re.escape(place)):
        reference.read_table(row_type, folder)


@pytest.mark.parametrize("row_type", reference.TABLES, ids=lambda each: each.table)
def test_a_row_that_stands_twice_is_refused(folder, row_type):
    path = folder / f"{row_type.table}.csv"
    lines = path.read_text("utf-8").splitlines(keepends=True)
    path.write_text("".join([*lines, lines[1]]), "utf-8")
    message = rf"\.csv, line {len(lines) + 1}: .* is in an earlier line already"
    with pytest.raises(ReferenceDataError, match=message):
        reference.read_table(row_type, folder)


@pytest.mark.parametrize("row_type", reference.TABLES, ids=lambda each: each.table)
def test_another_heading_is_refused(folder, row_type):
    edit(folder, row_type.table, "note\n" if row_type.cites else "retrieved_on", "x\n")
    message = rf"{row_type.table}\.csv, line 1: the heading must be "
    with pytest.raises(ReferenceDataError, match=message):
        reference.read_table(row_type, folder)


def test_a_missing_or_unreadable_file_is_named(folder):
    (folder / "watch.csv").unlink()
    with pytest.raises(ReferenceDataError, match=r"watch\.csv, line 1: .*No such file"):
        reference.read_table(reference.Watch, folder)
    (folder / "watch.csv").write_bytes(b"about\xff")
    with pytest.raises(ReferenceDataError, match=r"watch\.csv, line 1: .*decode byte"):
        reference.read_table(reference.Watch, folder)


def test_a_quotation_mark_that_is_not_closed_is_refused(folder):
    edit(folder, "watch", '"', "")
    with pytest.raises(ReferenceDataError, match=r"reference/watch\.csv, line \d+: "):
        reference.read_table(reference.Watch, folder)


def test_an_unknown_source_is_refused_by_name():
    with pytest.raises(ReferenceDataError, match=r"source hearsay is not in .* Add it"):
        reference.source("hearsay")


def digit_changes(text):
    """Yield the text with each of its digits changed to each other digit."""
    for place, old in enumerate(text):
        if old.isdigit():
            for new in "0123456789".replace(old, ""):
                yield text[:place] + new + text[place + 1 :]


def test_no_digit_of_a_formula_or_molar_mass_changes_unnoticed():
    """Both columns, every row, every digit: the load itself catches all of them."""
    weights = {
        row.element: Fraction(row.weight)
        for row in reference.rows_of(reference.AtomicWeight)
    }
    tried = missed = 0
    for row in reference.constituents().values():
        cells = {one.name: getattr(row, one.name) for one in fields(row)}
        for column in ("formula", "molar_mass"):
            accepts, _ = reference.RULES[column]
            for changed in digit_changes(cells[column]):
                tried += 1
                if accepts(changed):
                    again = reference.Constituent(**(cells | {column: changed}))
                    missed += again.check(weights) is None
    assert tried > 19_000
    assert missed == 0
