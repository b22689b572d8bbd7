"""Drawings: SVG in one colour, with words for those who cannot see them."""

import re
from xml.etree import ElementTree

import pytest

from blendcheck import reference
from blendcheck.errors import DomainError
from blendcheck.structure import drawing

DRAWN = [row for row in reference.constituents().values() if row.smiles]
SVG = "{http://www.w3.org/2000/svg}"
L_MENTHOL = "CC(C)[C@@H]1CC[C@@H](C)C[C@H]1O"
D_MENTHOL = "CC(C)[C@H]1CC[C@H](C)C[C@@H]1O"


def parsed(text):
    return ElementTree.fromstring(text)  # noqa: S314 - our own text


def shapes(text):
    return [each for each in parsed(text) if each.tag != f"{SVG}title"]


@pytest.mark.parametrize("row", DRAWN, ids=lambda row: row.cas)
def test_every_structure_is_drawn(row):
    root = parsed(drawing(row.smiles, 240, 180))
    assert root.tag == f"{SVG}svg"
    assert root.attrib["viewBox"] == "0 0 240 180"
    assert root[0].tag == f"{SVG}title"
    assert root[0].text == f"Structural formula, {row.formula}"
    assert len(root) > 1


@pytest.mark.parametrize("row", DRAWN, ids=lambda row: row.cas)
def test_a_drawing_has_one_colour_and_nothing_that_acts(row):
    text = drawing(row.smiles, 240, 180)
    colours = set(re.findall(r"(?:fill|stroke)[:=]['\"]?([#\w]+)", text))
    assert colours <= {"none", "currentColor", "evenodd"}
    assert "#" not in text
    tags = {each.tag.removeprefix(SVG) for each in parsed(text).iter()}
    assert tags <= {"svg", "title", "path", "ellipse", "text", "tspan"}
    named = {name for each in parsed(text).iter() for name in each.attrib}
    assert not [name for name in named if name.startswith("on") or "href" in name]


@pytest.mark.parametrize("size", [(60, 40), (300, 200), (200, 300), (2000, 2000)])
def test_lines_stay_inside_the_picture(size):
    width, height = size
    text = drawing(L_MENTHOL, *size)
    for path in re.findall(r" d='([^']*)'", text):
        numbers = [float(n) for n in re.findall(r"-?[0-9.]+", path)]
        assert all(-1 <= x <= width + 1 for x in numbers[::2])
        assert all(-1 <= y <= height + 1 for y in numbers[1::2])


def test_a_larger_molecule_has_more_lines():
    lines = [len(shapes(drawing(smiles, 200, 200))) for smiles in ("CC", "CCC", "CCCC")]
    assert 1 == lines[0] < lines[1] < lines[2]


def test_mirror_images_are_drawn_differently():
    left, right = (drawing(each, 200, 150) for each in (L_MENTHOL, D_MENTHOL))
    assert left != right
    flat = drawing("CC(C)C1CCC(C)CC1O", 200, 150)
    assert flat not in (left, right)


def test_the_same_structure_is_drawn_the_same_way_every_time():
    assert drawing(L_MENTHOL, 200, 150) == drawing(L_MENTHOL, 200, 150)


@pytest.mark.parametrize("title", ["<script>x</script>", "a & b", "]]>", "ß \"'"])
def test_a_title_is_shown_as_text(title):
    text = drawing("CCO", 100, 80, title=title)
    root = parsed(text)
    assert root[0].text == title
    assert "<script" not in text
    assert root.attrib["role"] == "img"


@pytest.mark.parametrize(
    ("width", "height", "name"),
    [(39, 100, "width"), (100, 2001, "height"), (0, 0, "width"), (100, -5, "height")],
)
def test_a_size_outside_its_range_is_refused(width, height, name):
    with pytest.raises(
        DomainError, match=rf"{name} = -?\d+ must be from 40 to 2000 px"
    ):
        drawing("CCO", width, height)


def test_what_is_no_structure_is_refused():
    with pytest.raises(DomainError, match="must be a structure that RDKit can read"):
        drawing("C1CC", 100, 100)
