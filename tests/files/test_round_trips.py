"""What is written reads back the same, in TOML and in CSV."""

import csv
import io
import tomllib

from hypothesis import given
from hypothesis import strategies as st

from blendcheck.files.cells import guarded, rows_to_csv, unguarded
from blendcheck.files.places import layout_of
from blendcheck.files.reading import materials_from_text, recipe_from_text
from blendcheck.files.table_reading import materials_from_csv
from blendcheck.files.tables import COLUMNS, materials_to_csv
from blendcheck.files.writing import dump_materials, dump_recipe
from blendcheck.records.material import Materials
from blendcheck.records.recipe import Recipe
from tests.files.makers import patient, recipes, shelves, text


@patient()
@given(recipes)
def test_a_recipe_reads_back_equal(recipe: Recipe) -> None:
    assert recipe_from_text(dump_recipe(recipe)) == recipe


@patient()
@given(shelves)
def test_a_shelf_reads_back_equal(shelf: Materials) -> None:
    assert materials_from_text(dump_materials(shelf)) == shelf


@patient()
@given(recipes)
def test_the_canonical_text_is_stable(recipe: Recipe) -> None:
    once = dump_recipe(recipe)
    assert dump_recipe(recipe_from_text(once)) == once


@patient()
@given(shelves, st.sampled_from([",", ";", "\t"]))
def test_a_shelf_survives_csv_with_every_separator(
    shelf: Materials, separator: str
) -> None:
    written = materials_to_csv(shelf)
    cells = list(csv.reader(io.StringIO(written, newline="")))
    out = io.StringIO()
    csv.writer(out, delimiter=separator).writerows(cells)
    assert materials_from_csv(out.getvalue()) == shelf


@patient()
@given(shelves)
def test_no_cell_is_live_in_a_spreadsheet(shelf: Materials) -> None:
    for row in csv.reader(io.StringIO(materials_to_csv(shelf), newline="")):
        assert len(row) == len(COLUMNS)
        for cell in row:
            assert not cell.startswith(("=", "+", "-", "@", "\t", "\r", "\n"))


@patient()
@given(st.text())
def test_guarding_is_undone_exactly(cell: str) -> None:
    assert unguarded(guarded(cell)) == cell


@patient()
@given(
    st.lists(
        st.lists(
            st.text(st.characters(exclude_categories=["Cs"])), min_size=2, max_size=2
        )
    )
)
def test_results_are_plain_csv(rows: list[list[str]]) -> None:
    written = rows_to_csv(["a", "b"], rows)
    read = list(csv.reader(io.StringIO(written, newline="")))
    assert [[unguarded(cell) for cell in row] for row in read] == [["a", "b"], *rows]


def _leaves(value: object, path: tuple[str | int, ...] = ()) -> list[tuple]:
    if isinstance(value, dict):
        return [x for k, v in value.items() for x in _leaves(v, (*path, k))]
    if isinstance(value, list):
        return [x for n, v in enumerate(value) for x in _leaves(v, (*path, n))]
    return [(path, value)]


VALUES = st.recursive(
    st.one_of(
        st.sampled_from(
            [
                "1",
                "1.50",
                "true",
                "2025-04-03",
                "2025-04-03 10:00:00",
                "07:32:00",
                '"""a\n# b = 1 ""x"" \\" c"""',
                "'''it's ''\n[x]'''",
                '""""q""""',
                "'a # b'",
                '"c:\\\\d \\" ] } ,"',
                '""',
            ]
        ),
        text.map(
            lambda t: (
                '"'
                + t.encode("unicode_escape")
                .decode()
                .replace('"', "'")
                .replace("\\x", "\\u00")
                .replace("\\'", "'")
                + '"'
            )
        ),
    ),
    lambda inner: st.one_of(
        st.lists(inner, max_size=3).map(
            lambda xs: "[\n # r ] \n" + "".join(f"  {x} , # c ]\n" for x in xs) + "]"
        ),
        st.lists(inner, max_size=3).map(lambda xs: f"[{', '.join(xs)}]"),
        st.lists(inner, min_size=1, max_size=2).map(
            lambda xs: (
                "{ " + ", ".join(f"k{n} . x = {x}" for n, x in enumerate(xs)) + " }"
            )
        ),
    ),
    max_leaves=5,
)


@st.composite
def documents(draw: st.DrawFn) -> str:
    """TOML laid out in every way: dotted and quoted keys, nested repeated tables."""
    lines = ["# top", ""]
    lines += [
        f"{key} = {draw(VALUES)}{draw(st.sampled_from(['', ' # c', '  ']))}"
        for key in draw(
            st.lists(st.sampled_from(["a", '"b c"', "d.e", "'f.g'"]), unique=True)
        )
    ]
    for n in range(draw(st.integers(0, 4))):
        head = draw(
            st.sampled_from(
                [
                    "[[m]]",
                    "[[ m . lot ]]",
                    "[[m.lot.row]]",
                    f"[t{n}]",
                    f"[u{n}.'v w']",
                    f"[m.z{n}]",
                ]
            )
        )
        if "m." in head.replace(" ", "") and "[[m]]" not in lines:
            lines.append("[[m]]")
        if (
            "row" in head
            and "[[ m . lot ]]"
            not in lines[max(i for i, x in enumerate(lines) if x == "[[m]]") :]
        ):
            lines.append("[[ m . lot ]]")
        lines += [draw(st.sampled_from(["", "# about"])), head]
        lines += [f"  k{i} = {draw(VALUES)}" for i in range(draw(st.integers(0, 2)))]
    return "\n".join(lines) + draw(st.sampled_from(["", "\n", "\n# end"]))


@patient()
@given(documents())
def test_every_value_is_found_where_tomllib_reads_it(written: str) -> None:
    try:
        tables = tomllib.loads(written)
    except tomllib.TOMLDecodeError:
        return  # the maker of documents is looser than TOML
    layout = layout_of(written)
    lines = written.split("\n")
    for path, value in _leaves(tables):
        if value in ({}, []):
            continue
        place = layout.places[path]
        assert tomllib.loads(f"x = {place.raw}")["x"] == value
        assert place.raw.split("\n")[0] in lines[place.line - 1]


def test_the_maker_of_documents_makes_toml_most_of_the_time() -> None:
    """The test above means nothing if most of its documents are refused."""
    read = refused = 0

    @patient(200)
    @given(documents())
    def count(written: str) -> None:
        nonlocal read, refused
        try:
            tomllib.loads(written)
            read += 1
        except tomllib.TOMLDecodeError:
            refused += 1

    count()
    assert read > 4 * refused
