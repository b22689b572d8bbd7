"""Worked examples and rule tables of authorities, to their printed digits.

UN: examples 3.1c, 3.1d and 3.2/3.3a of ST/SG/AC.10/C.4/2008/23 and 4.1a of
ST/SG/AC.10/C.4/2012/25. ECHA Helpdesk: exercises of 5 March 2012. Canada: Hazardous
Products Regulations (SOR/2015-17), sections 8.1.7, 8.2.11, 8.4.5. Western Australia:
Work Health and Safety Regulations 2022, Schedule 6. CLP: Regulation (EC) No 1272/2008,
Annex I.
"""

from fractions import Fraction

import pytest

from blendcheck.estimates.classes import EU, UN, US, Mixture, Scheme, Standing, classify
from blendcheck.estimates.classes.labels import label_of
from blendcheck.quantity import print_number
from tests.blend.worked import work
from tests.estimates.made import at, inside, part

CERTAIN, POSSIBLE = Standing.CERTAIN, Standing.POSSIBLE
UN_WITHOUT_5 = Scheme("UN GHS")

pytestmark = pytest.mark.published


def mixture(*parts, **more):
    return Mixture("mixture", parts, **more)


def sure(found):
    return set(found.names(CERTAIN))


def printed(line):
    """The result of a printed line, which must come to what it says."""
    worked = work(line)
    assert worked.holds, line
    return worked.value


def sum_lines(entry):
    return [line for line in entry.lines if " = " in line and "M = " not in line]


# -- acute toxicity ----------------------------------------------------------

W1 = mixture(
    part("1", "4", ate=["oral 1737 mg/kg"]),
    part("2", "5", ate=["oral > 5000 mg/kg"]),
    part("3", "5", ate=["oral 5400 mg/kg"]),
    part("4", "86", ate=["oral > 2000 mg/kg, no signs of toxicity"]),
)


@pytest.mark.parametrize("scheme", [EU, UN, UN_WITHOUT_5])
def test_un_3_1c(scheme):
    """ATEmix 43 425 mg/kg, not classified."""
    found = classify(W1, scheme)
    assert not any(name.startswith("Acute Tox.") for name in found.names())
    entry = found.of("Acute Tox. (oral)")
    assert entry.standing is Standing.BELOW
    assert entry.low == entry.high == 43425
    assert [printed(line) for line in sum_lines(entry)] == [43425]


W2 = mixture(
    part("1", "26", ate=["oral 2737 mg/kg", "dermal 6480 mg/kg", "vapour 11 mg/L"]),
    part("2", "23", ate=["oral 4500 mg/kg", "dermal > 6000 mg/kg", "vapour 19 mg/L"]),
    part("3", "11", ate=["oral > 5000 mg/kg"], complete=False),
    part(
        "4",
        "40",
        ate=["oral 400 mg/kg", "dermal > 2000 mg/kg, no signs", "vapour 4 mg/L"],
    ),
)


def test_un_3_1d_with_category_5():
    """ATEmix 873 mg/kg, category 4."""
    found = classify(W2, UN)
    entry = found.of("Acute Tox. 4 (oral)")
    assert entry.standing is CERTAIN
    assert entry.statement == "H302"
    assert print_number(entry.low, digits=1) == "873"
    assert round(entry.low) == 873
    (line,) = sum_lines(entry)
    assert round(printed(line)) == 873


def test_un_3_1d_without_category_5():
    """What is above 2000 mg/kg drops out: 100/ATE = 40/400 (own arithmetic)."""
    for scheme in (EU, UN_WITHOUT_5, US):
        entry = classify(W2, scheme).of("Acute Tox. 4 (oral)")
        assert entry.standing is CERTAIN
        assert entry.low == entry.high == 1000


def test_un_3_1d_vapour_with_11_percent_not_known():
    """More than 10 % not known: (100 - 11)/ATE = 26/11 + 23/19 + 40/4 (own sum)."""
    entry = classify(W2, UN).of("Acute Tox. 3 (inhalation)")
    by_hand = Fraction(89) / (Fraction(26, 11) + Fraction(23, 19) + Fraction(40, 4))
    assert entry.low == by_hand
    open_one = classify(W2, UN).of("Acute Tox. (inhalation)")
    assert open_one.standing is Standing.OPEN
    assert open_one.because == ("3",)


CANADA_8_1_7 = {
    "oral": ("H300", "H300", "H301", "H302", "0.5 5 100 500"),
    "dermal": ("H310", "H310", "H311", "H312", "5 50 300 1100"),
    "inhalation": ("H330", "H330", "H331", "H332", "0.05 0.5 3 11"),
}


@pytest.mark.parametrize("route", CANADA_8_1_7)
def test_converted_points_by_category(route):
    """80 % of one category in water: the estimate is its converted point ÷ 0.8."""
    *codes, points = CANADA_8_1_7[route]
    for category, (code, point) in enumerate(
        zip(codes, points.split(), strict=True), start=1
    ):
        toxic = part("a", "80", f"Acute Tox. {category}, {code}")
        found = classify(mixture(toxic, part("water", "20", "not classified")))
        entry = found.of(f"Acute Tox. {category} ({route})")
        assert entry.standing is CERTAIN
        assert entry.low == Fraction(point) / Fraction("0.8")


# -- skin and eyes -----------------------------------------------------------

W4 = mixture(
    part("1", "4", "Skin Corr. 1", acidity=at("1.8")),
    part("2", "5", "Skin Irrit. 2"),
    part("3", "5", "Skin Irrit. 3"),
    part("4", "86", complete=False),
    acidity=at("4.0"),
)


@pytest.mark.parametrize("scheme", [UN, EU])
def test_un_3_2_acid_that_does_not_add_up(scheme):
    """Skin category 1: the acid alone is at or above 1 %; pH 4.0 triggers nothing."""
    found = classify(W4, scheme)
    assert "Skin Corr. 1" in sure(found)
    entry = found.of("Skin Corr. 1")
    assert entry.because == ("1",)
    assert any("≥ 1 %" in line for line in entry.lines)


def test_un_3_2_by_sums_only():
    """By plain sums 10 × 4 + 5 = 45 is only category 2 (own arithmetic)."""
    found = classify(W4, Scheme("UN GHS", by_sums_only=True))
    assert "Skin Corr. 1" not in found.names(CERTAIN, POSSIBLE)
    assert found.of("Skin Irrit. 2").standing is CERTAIN


def test_un_3_2_the_two_ways_differ_by_the_rule_alone():
    known = mixture(*W4.parts[:3], part("water", "86", "not classified"))
    by_sums = classify(known, Scheme("UN GHS", by_sums_only=True))
    assert sure(by_sums) & {"Skin Corr. 1", "Skin Irrit. 2"} == {"Skin Irrit. 2"}
    assert "Skin Corr. 1" in sure(classify(known, UN))


def surfactant_mix(thickener, surfactant):
    return mixture(
        part("surfactant", surfactant, "not classified", ate=["oral > 5000 mg/kg"]),
        part("thickener", thickener, "Skin Irrit. 2, H315", ate=["oral 3600 mg/kg"]),
        part("water", "90", "not classified"),
    )


def test_echa_helpdesk_below_the_cut_off():
    """0.8 % is below 1 %: not counted, not Skin Irrit. 2."""
    found = classify(surfactant_mix("0.8", "9.2"))
    assert found.of("Skin Irrit. 2") is None


def test_echa_helpdesk_above_the_cut_off():
    """1.8 % counts; by Table 3.2.3 it is below 10 % (own arithmetic)."""
    entry = classify(surfactant_mix("1.8", "8.2")).of("Skin Irrit. 2")
    assert entry.standing is Standing.BELOW
    assert entry.high == Fraction("1.8")


@pytest.mark.parametrize(
    ("corrosive", "irritant", "expected"),
    [
        ("5.00", "0", {"Skin Corr. 1"}),
        ("4.99", "0", {"Skin Irrit. 2"}),
        ("1.00", "0", {"Skin Irrit. 2"}),
        ("0.99", "0", set()),
        ("0", "10.00", {"Skin Irrit. 2"}),
        ("0", "9.99", set()),
    ],
)
def test_canada_8_2_11_boundaries(corrosive, irritant, expected):
    parts = [part("rest", "1", "not classified")]
    if corrosive != "0":
        parts.append(part("c", corrosive, "Skin Corr. 1"))
    if irritant != "0":
        parts.append(part("i", irritant, "Skin Irrit. 2"))
    found = classify(mixture(*parts))
    assert sure(found) & {"Skin Corr. 1", "Skin Irrit. 2"} == expected


@pytest.mark.parametrize(
    ("damaging", "irritant", "expected"),
    # Canada, s. 8.3.11(2): 3 %, from 1 % below 3 %, 10 %, and ten times plus
    [
        ("3.00", "0", {"Eye Dam. 1"}),
        ("2.99", "0", {"Eye Irrit. 2"}),
        ("1.00", "0", {"Eye Irrit. 2"}),
        ("0.99", "0", set()),
        ("0", "10.00", {"Eye Irrit. 2"}),
        ("0", "9.99", set()),
    ],
)
def test_canada_8_3_11_boundaries(damaging, irritant, expected):
    parts = [part("rest", "1", "not classified")]
    if damaging != "0":
        parts.append(part("d", damaging, "Eye Dam. 1"))
    if irritant != "0":
        parts.append(part("i", irritant, "Eye Irrit. 2"))
    found = classify(mixture(*parts))
    assert sure(found) & {"Eye Dam. 1", "Eye Irrit. 2"} == expected


def test_a_stated_range_is_taken_at_its_upper_end():
    """3-7 % of a corrosive: 7 % must be used, corrosive (a Czech publisher, 2014)."""
    found = classify(
        mixture(
            part("c", "3-7 %", "Skin Corr. 1B"), part("w", "93-97 %", "not classified")
        )
    )
    assert found.of("Skin Corr. 1").standing is POSSIBLE
    assert found.of("Skin Irrit. 2").standing is CERTAIN  # at least that
    assert label_of(found).signal_word == "Danger"


# -- sensitisers -------------------------------------------------------------


@pytest.mark.parametrize(
    ("category", "at_limit", "below"),
    # Western Australia, Schedule 6, Table 6.1
    [("1", "1.0", "0.99"), ("1B", "1.0", "0.99"), ("1A", "0.1", "0.099")],
)
@pytest.mark.parametrize("family", ["Skin Sens.", "Resp. Sens."])
def test_sensitiser_boundaries(family, category, at_limit, below):
    for percent, expected in ((at_limit, True), (below, False)):
        found = classify(mixture(part("s", percent, f"{family} {category}")))
        assert (f"{family} 1" in sure(found)) is expected


def test_two_sensitisers_are_never_added_up():
    two = mixture(part("a", "0.6", "Skin Sens. 1B"), part("b", "0.6", "Skin Sens. 1B"))
    assert "Skin Sens. 1" not in classify(two).names(CERTAIN, POSSIBLE, Standing.OPEN)


def test_one_sensitiser_in_two_lots_is_one_substance():
    def lot(name):
        inner = inside("limonene", "0.6", "Skin Sens. 1B", key="5989-27-5")
        return part(name, "10", "not classified", components=(inner,))

    found = classify(mixture(lot("orange"), lot("lemon")))
    entry = found.of("Skin Sens. 1")
    assert entry.standing is CERTAIN
    assert entry.low == Fraction("1.2")
    assert entry.substances == ("limonene",)


@pytest.mark.parametrize(("scheme", "expected"), [(EU, False), (UN, False), (US, True)])
def test_canada_8_4_5_is_ten_times_stricter_for_category_1(scheme, expected):
    found = classify(mixture(part("s", "0.1", "Skin Sens. 1")), scheme)
    assert ("Skin Sens. 1" in sure(found)) is expected


# -- aspiration --------------------------------------------------------------


@pytest.mark.parametrize(
    ("percent", "viscosity", "expected"),
    # CLP 3.10.3.3.1.1: 10 % or more, and at most 20.5 mm2/s at 40 degC
    [
        ("10.0", "20.5", CERTAIN),
        ("9.99", "20.5", Standing.BELOW),
        ("10.0", "20.6", None),
        ("10.0", None, POSSIBLE),
    ],
)
def test_aspiration_boundaries(percent, viscosity, expected):
    found = classify(
        mixture(
            part("a", percent, "Asp. Tox. 1, H304"),
            part("b", "85", "not classified"),
            viscosity=None if viscosity is None else at(viscosity),
        )
    )
    entry = found.of("Asp. Tox. 1")
    assert (entry and entry.standing) is expected


def test_a_solid_has_no_classes_for_liquids():
    solid = mixture(part("a", "100", "Asp. Tox. 1, H304", "Flam. Liq. 3"), liquid=False)
    found = classify(solid)
    assert found.of("Asp. Tox. 1") is None
    assert not any(n.startswith("Flam. Liq.") for n in found.names())


# -- water -------------------------------------------------------------------

W5 = mixture(
    part("1", "0.01", "H400", "H410", m_acute=Fraction(10), m_chronic=Fraction(10)),
    part("2", "1.0", "H401", "H411"),
    part("3", "25.0", "H413"),
    part("4", "73.99", "not classified"),
)


@pytest.mark.parametrize(("category", "by_hand"), [(1, "0.1"), (2, "2.0"), (3, "20")])
def test_un_4_1a_short_term(category, by_hand):
    """0.1 %, 2.0 % and 20 %: not classified. The part at 0.01 % just counts."""
    entry = classify(W5, UN).of(f"Aquatic Acute {category}")
    assert entry.standing is Standing.BELOW
    assert entry.low == entry.high == Fraction(by_hand)
    (line,) = sum_lines(entry)
    assert printed(line) == Fraction(by_hand)


def test_un_4_1a_below_its_cut_off_the_first_part_no_longer_counts():
    parts = (
        part("1", "0.0099", "H400", m_acute=Fraction(10)),
        *W5.parts[1:],
    )
    entry = classify(mixture(*parts), UN).of("Aquatic Acute 2")
    assert entry.high == Fraction(1)


# -- label elements ----------------------------------------------------------

LABELS = [
    # class, pictogram, signal word, statement: CLP Tables 2.6.2, 3.1.3, 3.2.5, 3.3.5,
    # 3.4.7, 3.7.3, 3.8.4, 3.9.5, 3.10.2, 4.1.4
    ("Flam. Liq. 3, H226", "GHS02", "Warning", "H226"),
    ("Acute Tox. 1, H300", "GHS06", "Danger", "H300"),
    ("Acute Tox. 3, H311", "GHS06", "Danger", "H311"),
    ("Acute Tox. 4, H302", "GHS07", "Warning", "H302"),
    ("Skin Corr. 1B", "GHS05", "Danger", "H314"),
    ("Skin Irrit. 2", "GHS07", "Warning", "H315"),
    ("Eye Dam. 1", "GHS05", "Danger", "H318"),
    ("Eye Irrit. 2", "GHS07", "Warning", "H319"),
    ("Resp. Sens. 1", "GHS08", "Danger", "H334"),
    ("Skin Sens. 1B", "GHS07", "Warning", "H317"),
    ("Repr. 2, H361d", "GHS08", "Warning", "H361d"),
    ("STOT SE 3, H335", "GHS07", "Warning", "H335"),
    ("STOT SE 3, H336", "GHS07", "Warning", "H336"),
    ("STOT RE 1", "GHS08", "Danger", "H372"),
    ("STOT RE 2", "GHS08", "Warning", "H373"),
    ("Aquatic Acute 1", "GHS09", "Warning", "H400"),
    ("Aquatic Chronic 2", "GHS09", "", "H411"),
    ("Aquatic Chronic 3", "", "", "H412"),
]


def labelled(*classes, **more):
    found = classify(
        mixture(part("a", "100", *classes, flash=at("50"), **more)),
    )
    return label_of(found)


@pytest.mark.parametrize(("printed_class", "picture", "word", "statement"), LABELS)
def test_label_elements_of_each_class(printed_class, picture, word, statement):
    more = {} if printed_class.startswith("Flam.") else {"liquid": False}
    alone = classify(
        Mixture(
            "mixture",
            (part("a", "100", printed_class, flash=at("50")),),
            liquid=more.get("liquid", True),
        )
    )
    label = label_of(alone)
    codes = {one.code for one in label.hazards}
    assert statement in codes or (statement == "H318" and "H314" in codes)
    eyes = {"GHS05"} if printed_class.startswith("Skin Corr.") else set()
    assert {one.code for one in label.pictograms} - eyes == ({picture} - eyes) - {""}
    assert label.signal_word == word


def test_the_skull_leaves_no_exclamation_mark():
    label = labelled("Acute Tox. 3, H301", "Skin Irrit. 2", "Skin Sens. 1")
    assert [one.code for one in label.pictograms] == ["GHS02", "GHS06"]


def test_corrosion_leaves_no_exclamation_mark_for_irritation_only():
    label = labelled("Skin Irrit. 2", "Eye Dam. 1")
    assert [one.code for one in label.pictograms] == ["GHS02", "GHS05"]
    label = labelled("Eye Dam. 1", "Acute Tox. 4, H302")
    assert [one.code for one in label.pictograms] == ["GHS02", "GHS05", "GHS07"]


def test_the_airways_leave_no_exclamation_mark_for_skin():
    label = labelled("Resp. Sens. 1", "Skin Sens. 1", "Skin Irrit. 2", "Eye Irrit. 2")
    assert [one.code for one in label.pictograms] == ["GHS02", "GHS08"]
    label = labelled("Asp. Tox. 1", "Skin Sens. 1")  # the same picture, not for airways
    assert [one.code for one in label.pictograms] == ["GHS02", "GHS07", "GHS08"]


def test_danger_leaves_out_warning_and_statements_are_not_said_twice():
    label = labelled("Skin Corr. 1B", "Aquatic Acute 1", "Aquatic Chronic 1")
    assert label.signal_word == "Danger"
    codes = [one.code for one in label.hazards]
    assert "H318" not in codes
    assert "H400" not in codes
    assert codes[-1] == "H410"


def test_statements_on_several_routes_are_combined_in_the_official_words():
    label = labelled("Acute Tox. 4, H302", "Acute Tox. 4, H312", "Acute Tox. 4, H332")
    wordings = {one.code: one.wording for one in label.hazards}
    assert wordings["H302+H312+H332"] == (
        "Harmful if swallowed, in contact with skin or if inhaled"
    )


def test_at_most_six_precautions_with_one_on_disposal():
    """Article 28(2) and (3)."""
    label = labelled(
        "Asp. Tox. 1",
        "Skin Irrit. 2",
        "Eye Irrit. 2",
        "Skin Sens. 1",
        "Aquatic Chronic 1",
        viscosity=at("1"),
    )
    codes = [one.code for one in label.precautions]
    assert len(codes) == 6
    assert codes[-1] == "P501"
    assert codes[:3] == ["P102", "P301+P310", "P331"]
    assert all(one.wording for one in label.precautions)


def test_the_wording_is_that_of_annexes_iii_and_iv():
    label = labelled("Asp. Tox. 1", "Skin Sens. 1", viscosity=at("1"))
    wordings = {s.code: s.wording for s in (*label.hazards, *label.precautions)}
    assert wordings["H304"] == "May be fatal if swallowed and enters airways."
    assert wordings["P102"] == "Keep out of reach of children."
    assert wordings["H226"] == "Flammable liquid and vapour."


def test_euh208_names_the_substance():
    """Annex II, 2.8, with a limit that is not read: from 0.01 % on."""
    found = classify(mixture(part("linalool", "0.5", "Skin Sens. 1B")))
    (statement,) = label_of(found).supplemental
    assert statement.wording == "Contains linalool. May produce an allergic reaction."
    below = classify(mixture(part("linalool", "0.0099", "Skin Sens. 1B")))
    assert label_of(below).supplemental == ()
