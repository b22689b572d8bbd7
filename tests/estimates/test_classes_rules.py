"""What must hold for any mixture: ranges, specific limits, unknowns, lines."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from blendcheck.errors import ReferenceDataError
from blendcheck.estimates.classes import (
    EU,
    UN,
    US,
    Claim,
    Mixture,
    Part,
    Profile,
    Standing,
    classify,
)
from blendcheck.estimates.classes.labels import label_of
from blendcheck.estimates.classes.limits import limit_of
from blendcheck.interval import Range
from blendcheck.quantity.hazard_figures import read_toxicity
from blendcheck.quantity.hazards import CLASSES
from tests.blend.worked import work
from tests.estimates.made import at, inside, part

CERTAIN, POSSIBLE, OPEN = Standing.CERTAIN, Standing.POSSIBLE, Standing.OPEN

NAMES = [
    "Skin Corr. 1B",
    "Skin Irrit. 2",
    "Eye Dam. 1",
    "Eye Irrit. 2",
    "Skin Sens. 1A",
    "Skin Sens. 1B",
    "Resp. Sens. 1",
    "Carc. 2",
    "Muta. 1B",
    "Repr. 2",
    "STOT SE 1",
    "STOT SE 2",
    "STOT SE 3",
    "STOT RE 1",
    "Asp. Tox. 1",
    "Aquatic Acute 1",
    "Aquatic Chronic 1",
    "Aquatic Chronic 2",
    "Aquatic Chronic 3",
    "Aquatic Chronic 4",
    "Acute Tox. 3",
    "Acute Tox. 4",
]
LADDERS = [
    ("Skin Corr. 1", "Skin Irrit. 2"),
    ("Eye Dam. 1", "Eye Irrit. 2"),
    ("STOT SE 1", "STOT SE 2"),
    ("STOT RE 1", "STOT RE 2"),
    ("Aquatic Acute 1", "Aquatic Acute 2", "Aquatic Acute 3"),
    tuple(f"Aquatic Chronic {n}" for n in (1, 2, 3, 4)),
    *(
        tuple(f"Acute Tox. {n} ({route})" for n in (1, 2, 3, 4, 5))
        for route in ("oral", "dermal", "inhalation")
    ),
]
LADDER_OF = {name: ladder for ladder in LADDERS for name in ladder}
"""Most severe first: a certain class is that one or one before it."""

TOXICITIES = [
    {one.route: one for one in map(read_toxicity, texts)}
    for texts in (
        (),
        ("oral 400 mg/kg",),
        ("oral > 2000 mg/kg",),
        ("oral 2500 mg/kg", "dermal 900-1200 mg/kg"),
        ("oral > 2000 mg/kg, no signs", "mist 1.2 mg/L"),
    )
]
tenth = st.integers(0, 400).map(lambda n: Fraction(n, 10))
claims = st.lists(st.sampled_from(NAMES), max_size=3, unique=True)


@st.composite
def parts(draw, name):
    low = draw(tenth) + Fraction(1, 10)
    high = low + draw(tenth)
    profile = Profile(
        tuple(
            Claim(c, CLASSES[c][0], documented=draw(st.booleans()))
            for c in draw(claims)
        ),
        complete=draw(st.booleans()),
        acidity=draw(st.sampled_from([None, at("1.5"), at("7")])),
        viscosity=draw(st.sampled_from([None, at("1"), at("30")])),
        flash=draw(st.sampled_from([None, at("12"), at("48"), at("70")])),
        toxicity=draw(st.sampled_from(TOXICITIES)),
        m_chronic=draw(st.sampled_from([None, Fraction(1), Fraction(10)])),
    )
    return Part(name, name, Range(low, high), profile)


mixtures = st.tuples(parts("a"), parts("b"), parts("c")).map(
    lambda found: Mixture("m", found)
)
SCHEMES = st.sampled_from([EU, UN, US])
WORLDS = settings(max_examples=60, deadline=None)


def shown(found, *standings):
    """Classes by standing; acute ones without a category are left to another test."""
    return {n for n in found.names(*standings) if not n.startswith("Acute Tox. (")}


def wider(mixture, step):
    grown = tuple(
        Part(
            p.name,
            p.key,
            Range(max(p.share.low - step, Fraction(0)), p.share.high + step),
            p.profile,
        )
        for p in mixture.parts
    )
    return Mixture(mixture.name, grown)


@given(mixtures, SCHEMES, tenth)
@WORLDS
def test_widening_a_range_never_removes_a_possible_class(mixture, scheme, step):
    before, after = classify(mixture, scheme), classify(wider(mixture, step), scheme)
    assert shown(before, CERTAIN, POSSIBLE) <= shown(after, CERTAIN, POSSIBLE)
    assert shown(before) <= shown(after)


@given(mixtures, SCHEMES, st.data())
@WORLDS
def test_any_figures_inside_the_ranges_give_only_possible_classes(
    mixture, scheme, data
):
    """One true mixture inside the ranges, with every class documented."""
    exact = []
    for p in mixture.parts:
        n = data.draw(st.integers(0, 10))
        share = p.share.low + (p.share.high - p.share.low) * Fraction(n, 10)
        exact.append(Part(p.name, p.key, Range.at(share), p.profile))
    found = classify(mixture, scheme)
    true = classify(Mixture("m", tuple(exact)), scheme)
    assert shown(true, CERTAIN, POSSIBLE) <= shown(found, CERTAIN, POSSIBLE)
    for name in shown(found, CERTAIN):
        as_severe = LADDER_OF.get(name, (name,))
        worse = as_severe[: as_severe.index(name) + 1]
        assert set(worse) & shown(true, CERTAIN), name


@given(mixtures, SCHEMES)
@WORLDS
def test_every_printed_sum_works_out(mixture, scheme):
    found = classify(mixture, scheme)
    for entry in (*found.classes, *found.below):
        for line in entry.lines:
            if " = " in line and "M = " not in line:
                assert work(line).holds, line
        assert entry.lines


@given(mixtures)
@WORLDS
def test_a_complete_sheet_leaves_nothing_open(mixture):
    told = tuple(
        Part(
            p.name,
            p.key,
            p.share,
            Profile(
                p.profile.claims,
                complete=True,
                flash=at("70"),
                m_acute=Fraction(1),
                m_chronic=Fraction(1),
            ),
        )
        for p in mixture.parts
    )
    assert classify(Mixture("m", told)).names(OPEN) == ()


def test_what_nobody_classified_cannot_be_ruled_out_and_has_a_name():
    found = classify(
        Mixture(
            "m",
            (part("jar oil", "5", complete=False), part("w", "95", "not classified")),
        )
    )
    for name in ("Skin Corr. 1", "Skin Sens. 1", "Aquatic Chronic 1", "Carc. 1B"):
        assert found.of(name).standing is OPEN
        assert found.of(name).because == ("jar oil",)
    assert found.of("STOT SE 1") is None  # 5 % cannot reach 10 %
    assert found.unclassified == ("jar oil",)
    assert label_of(found).is_empty


def test_a_class_from_memory_is_never_certain():
    known = part("a", "50", "Skin Irrit. 2", documented=False)
    entry = classify(Mixture("m", (known,))).of("Skin Irrit. 2")
    assert entry.standing is POSSIBLE
    assert "from memory" in {str(mark) for mark in entry.marks}


# -- specific limits ---------------------------------------------------------


@pytest.mark.parametrize(
    ("percent", "expected"),
    [
        ("24.9", "Skin Irrit. 2"),
        ("25", "Skin Corr. 1"),
        ("9.9", None),
        ("10", "Skin Irrit. 2"),
    ],
)
def test_specific_limits_of_an_acid_are_honoured(percent, expected):
    """Acetic acid, Annex VI: >= 25 % 1B, 10-25 % irritant (figures from memory)."""
    acid = part(
        "acid",
        percent,
        "Skin Corr. 1A",
        limits=[
            "Skin Corr. 1B; H314: 25 % <= C < 90 %",
            "Skin Irrit. 2; H315: 10 % <= C < 25 %",
        ],
    )
    found = classify(Mixture("m", (acid, part("w", "75", "not classified"))))
    skin = [n for n in found.names(CERTAIN) if n.startswith("Skin")]
    assert skin == ([] if expected is None else [expected])


def test_a_specific_limit_replaces_the_usual_one_of_a_sensitiser():
    strict = part(
        "a", "0.02", "Skin Sens. 1A", limits=["Skin Sens. 1A, H317: C >= 0.01 %"]
    )
    loose = part("b", "1.5", "Skin Sens. 1B", limits=["Skin Sens. 1B, H317: C >= 2 %"])
    assert "Skin Sens. 1" in classify(Mixture("m", (strict,))).names(CERTAIN)
    assert "Skin Sens. 1" not in classify(Mixture("m", (loose,))).names(
        CERTAIN, POSSIBLE
    )


def test_a_specific_limit_counts_as_a_fraction_in_a_sum():
    """5 % of what counts from 10 % and 5 % of what counts from 10 % by rule."""
    special = part("a", "5", "Eye Irrit. 2", limits=["Eye Irrit. 2, H319: C >= 50 %"])
    usual = part("b", "9", "Eye Irrit. 2")
    entry = classify(Mixture("m", (special, usual))).of("Eye Irrit. 2")
    assert entry.high == 10  # 10/50 of 5 %, and 9 %
    assert entry.standing is CERTAIN


def test_a_marked_substance_that_does_not_add_up():
    phenol = part("phenol", "1", "Skin Corr. 1B", adds_up=False)
    found = classify(Mixture("m", (phenol, part("w", "99", "not classified"))))
    assert found.of("Skin Corr. 1").standing is CERTAIN


# -- lots and components -----------------------------------------------------


def test_components_count_where_the_sheet_does_not_speak():
    made = part(
        "oil",
        "20",
        complete=False,
        components=(
            inside("x", "12", "Skin Irrit. 2"),
            inside("y", "0-8 %", complete=False),
        ),
    )
    entry = classify(Mixture("m", (made,))).of("Skin Irrit. 2")
    assert entry.standing is CERTAIN
    assert entry.substances == ("x",)


def test_the_whole_counts_where_the_sheet_speaks():
    made = part(
        "oil", "20", "Skin Irrit. 2", components=(inside("x", "12", "Skin Corr. 1"),)
    )
    found = classify(Mixture("m", (made,)))
    assert found.of("Skin Corr. 1") is None
    assert found.of("Skin Irrit. 2").because == ("oil",)


def test_one_lot_never_holds_more_than_itself():
    made = part(
        "oil",
        "8",
        complete=False,
        components=(
            inside("x", "0-8 %", "Skin Irrit. 2"),
            inside("y", "0-8 %", "Skin Irrit. 2"),
        ),
    )
    found = classify(Mixture("m", (made, part("w", "92", "not classified"))))
    assert found.of("Skin Irrit. 2").standing is not POSSIBLE
    # 8 % at the most, however the two share it; what is open is a corrosive rest
    assert found.of("Skin Irrit. 2").standing is OPEN


# -- flammable liquids -------------------------------------------------------


@pytest.mark.parametrize(
    ("flash", "boiling", "expected"),
    # CLP Table 2.6.1
    [
        ("22.9", "34", {"Flam. Liq. 1"}),
        ("22.9", "35", {"Flam. Liq. 1"}),
        ("22.9", "35.1", {"Flam. Liq. 2"}),
        ("23", "35", {"Flam. Liq. 3"}),
        ("60", "170", {"Flam. Liq. 3"}),
        ("60.1", "170", set()),
    ],
)
def test_flammable_liquids(flash, boiling, expected):
    own = Mixture("m", (part("a", "100"),), flash=at(flash), boiling=at(boiling))
    assert set(classify(own).names(CERTAIN)) == expected


def test_without_a_boiling_point_category_1_and_2_are_both_possible():
    own = Mixture("m", (part("a", "100"),), flash=at("12"))
    found = classify(own)
    assert set(found.names(POSSIBLE)) == {"Flam. Liq. 1", "Flam. Liq. 2"}


def test_flash_points_of_parts_never_make_a_class_certain():
    two = Mixture(
        "m", (part("a", "50", flash=at("50")), part("b", "50", flash=at("55")))
    )
    found = classify(two)
    assert found.of("Flam. Liq. 3").standing is POSSIBLE


def test_a_limit_that_is_not_in_the_table_is_refused():
    with pytest.raises(ReferenceDataError, match=r"0 rows for EU CLP, Skin Corr\. 9"):
        limit_of("Skin Corr. 9", "sum")


def test_category_4_of_the_un_is_shown_and_stands_on_no_label():
    own = Mixture("m", (part("a", "100", "not classified"),), flash=at("70"))
    assert "Flam. Liq. 4" not in classify(own, EU).names()
    for scheme in (UN, US):
        found = classify(own, scheme)
        assert found.of("Flam. Liq. 4").standing is POSSIBLE
        assert label_of(found).pictograms == ()


def test_classes_without_a_limit_are_stated():
    lasting = Mixture("m", (part("a", "0.05", "PBT", "ED ENV 1"),))
    found = classify(lasting)
    assert found.of("PBT").standing is OPEN
    assert "1 May 2026" in found.of("ED ENV 1").lines[-1]


def test_hormones_count_for_each_substance_alone():
    """CLP Table 3.11.2: 0.1 % and 1 %."""
    at_limit = classify(Mixture("m", (part("a", "0.1", "ED HH 1"),)))
    below = classify(Mixture("m", (part("a", "0.99", "ED HH 2"),)))
    assert at_limit.names(CERTAIN) == ("ED HH 1",)
    assert below.names(CERTAIN, POSSIBLE) == ()
