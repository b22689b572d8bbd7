"""Hazard classes and their figures as sheets print them."""

from fractions import Fraction

import pytest

from blendcheck.errors import InputError, QuestionError
from blendcheck.quantity.hazard_figures import read_specific_limit, read_toxicity
from blendcheck.quantity.hazard_measures import (
    read_acidity,
    read_factor,
    read_viscosity,
)
from blendcheck.quantity.hazards import (
    CLASSES,
    NOT_CLASSIFIED,
    SUPPLEMENTAL,
    family_of,
    read_hazard_class,
    route_of,
)

READ = [
    ("Skin Irrit. 2, H315", "Skin Irrit. 2", "H315"),
    ("Asp. Tox. 1 H304", "Asp. Tox. 1", "H304"),
    ("asp tox 1", "Asp. Tox. 1", "H304"),
    ("Aspiration hazard, Category 1 (H304)", "Asp. Tox. 1", "H304"),
    ("H226", "Flam. Liq. 3", "H226"),
    ("H315: Causes skin irritation.", "Skin Irrit. 2", "H315"),
    ("Acute Tox. 4 (oral)", "Acute Tox. 4", "H302"),
    ("Skin sensitization, category 1B", "Skin Sens. 1B", "H317"),
    ("Eye Irrit. 2A; H319", "Eye Irrit. 2", "H319"),
    ("Repr. 1B, H360Fd", "Repr. 1B", "H360Fd"),
    ("Repr. 1B", "Repr. 1B", "H360"),
    ("Aquatic chronic hazard, category 2 (H411)", "Aquatic Chronic 2", "H411"),
    ("STOT SE 3; H336", "STOT SE 3", "H336"),
    ("Not classified", NOT_CLASSIFIED, ""),
    ("EUH066", SUPPLEMENTAL, "EUH066"),
    ("Aquatic Chronic 2 / H411", "Aquatic Chronic 2", "H411"),
    ("Acute Tox. 4 * H302", "Acute Tox. 4", "H302"),
    ("H302 - Acute Tox. 4 (oral)", "Acute Tox. 4", "H302"),
    ("Acute Tox. 4 (inhalation: vapours), H332", "Acute Tox. 4", "H332"),
    ("Acute Tox. 4 (Inhalation:dust,mist)", "Acute Tox. 4", "H332"),
    ("Skin corrosion/irritation, category 2 (H315)", "Skin Irrit. 2", "H315"),
    ("Skin corrosion/irritation, category 1B", "Skin Corr. 1B", "H314"),
    ("Skin corrosion/irritation, H315", "Skin Irrit. 2", "H315"),
    ("Serious eye damage/eye irritation, Category 1", "Eye Dam. 1", "H318"),
    (
        "Hazardous to the aquatic environment, long-term hazard, Category Chronic 2",
        "Aquatic Chronic 2",
        "H411",
    ),
    ("STOT RE 2 (liver) H373", "STOT RE 2", "H373"),
    (
        "STOT - single exposure, category 3, respiratory irritation",
        "STOT SE 3",
        "H335",
    ),
    ("STOT SE 3 (narcotic effects)", "STOT SE 3", "H336"),
    ("Skin Irrit. Kat. 2", "Skin Irrit. 2", "H315"),
    ("The substance is not classified as hazardous.", NOT_CLASSIFIED, ""),
]


@pytest.mark.parametrize(("text", "name", "statement"), READ)
def test_classes_as_printed(text, name, statement):
    found = read_hazard_class(text)
    assert (found.name, found.statement, found.printed) == (name, statement, text)


@pytest.mark.published
def test_every_class_with_its_statement_reads_as_itself():
    """Regulation (EC) No 1272/2008, Annex VI, Table 1.1, and the UN's own codes."""
    for name, statements in CLASSES.items():
        for statement in statements:
            found = read_hazard_class(f"{name}, {statement}")
            assert (found.name, found.statement) == (name, statement)


ASKED = [
    ("H317", "hazard-category", "Skin Sens. 1, Skin Sens. 1A or Skin Sens. 1B"),
    ("H314", "hazard-category", "Skin Corr. 1"),
    ("H300", "hazard-category", "Acute Tox. 1 or Acute Tox. 2"),
    ("Acute Tox. 4", "hazard-statement", "H302, H312, H332"),
    ("STOT SE 3", "hazard-statement", "H335, H336"),
]


@pytest.mark.parametrize(("text", "code", "says"), ASKED)
def test_what_is_left_open_is_asked(text, code, says):
    with pytest.raises(QuestionError) as caught:
        read_hazard_class(text)
    assert caught.value.code == code
    assert says in str(caught.value)


REFUSED = [
    ("Skin Irrit. 2, H319", "hazard-mismatch"),
    ("Acute Tox. 4 (oral), H312", "hazard-mismatch"),
    ("H225 H319", "hazard-several"),
    ("Skin Irrit. 2 H315, Eye Irrit. 2 H319", "hazard-class"),
    ("harmless", "hazard-class"),
    ("Skin Irrit. 22", "hazard-class"),
    ("none", "hazard-class"),
    ("Aquatic Acute 1; H400; M=10", "hazard-factor"),
    ("Aquatic Chronic 1 (M = 10) H410", "hazard-factor"),
    ("STOT SE 3 (narcotic effects), H335", "hazard-mismatch"),
    ("", "hazard-class"),
    ("7", "hazard-class"),
]


@pytest.mark.parametrize(("text", "code"), REFUSED)
def test_what_is_not_a_class_is_refused(text, code):
    with pytest.raises(InputError) as caught:
        read_hazard_class(text)
    assert caught.value.code == code


def test_families_and_routes():
    assert family_of("Aquatic Chronic 4") == "Aquatic Chronic"
    assert [route_of(c) for c in ("H302", "H312", "H332")] == [
        *("oral", "dermal", "inhalation")
    ]
    assert [route_of(c) for c in ("H304", "H315", "H317", "H334", "H335")] == [None] * 5


@pytest.mark.parametrize(
    ("text", "low", "high", "is_open"),
    [
        ("Skin Corr. 1B; H314: C ≥ 25 %", "25", "100", False),
        ("Skin Irrit. 2, H315: 10 % ≤ C < 25 %", "10", "25", True),
        ("Eye Irrit. 2; H319: >= 3 - < 10 %", "3", "10", True),
        ("Eye Dam. 1; H318: 3 % <= C", "3", "100", False),
        ("Skin Irrit. 2, H315, C ≥ 5 %", "5", "100", False),
    ],
)
def test_specific_limits(text, low, high, is_open):
    found = read_specific_limit(text).range
    assert (found.low, found.high) == (Fraction(low), Fraction(high))
    assert found.high_open is is_open


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("Skin Sens. 1; H317: 0,01 %", "decimal-comma"),
        ("Eye Irrit. 2: 5 %", "limit-from"),
        ("C >= 5 %", "limit-form"),
        ("not classified: C < 5 %", "limit-form"),
    ],
)
def test_specific_limits_that_are_not_read(text, code):
    with pytest.raises(InputError) as caught:
        read_specific_limit(text)
    assert caught.value.code == code


@pytest.mark.parametrize(
    ("text", "route", "low", "high"),
    [
        ("oral 1680 mg/kg", "oral", "1680", "1680"),
        ("LD50 dermal > 5000 mg/kg", "dermal", "5000", None),
        ("LD50 oral rat 1737 mg/kg bw", "oral", "1737", "1737"),
        ("ATE inhalation vapour 11 mg/L", "vapour", "11", "11"),
        ("inhalation (dust/mist) 3.64 mg/l 4h", "dust and mist", "3.64", "3.64"),
        ("gas 700 ppm", "gas", "700", "700"),
        ("ATE: 500 mg/kg (oral)", "oral", "500", "500"),
        ("> 2000 mg/kg bw oral", "oral", "2000", None),
        ("inhalation: ATE = 1.5 mg/L (dusts or mists)", "dust and mist", "1.5", "1.5"),
        ("ATEmix (oral) 1840 mg / kg", "oral", "1840", "1840"),
    ],
)
def test_toxicity(text, route, low, high):
    found = read_toxicity(text)
    assert found.route == route
    assert found.range.low == Fraction(low)
    assert found.range.high == (None if high is None else Fraction(high))
    assert not found.clean


def test_a_dose_without_signs_is_told_apart():
    assert read_toxicity("oral > 2000 mg/kg, no signs of toxicity").clean


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("inhalation 5 mg/L", "toxicity-form"),
        ("oral 5", "unit-missing"),
        ("oral 5 mg/L", "toxicity-unit"),
        ("oral 1,680 mg/kg", "decimal-comma"),
        ("oral 0 mg/kg", "out-of-range"),
        ("1680 mg/kg", "unreadable"),
        ("oral 5 mg/kg (dermal)", "toxicity-routes"),
        ("oral dermal 5 mg/kg", "toxicity-routes"),
        ("oral", "unreadable"),
    ],
)
def test_toxicity_that_is_not_read(text, code):
    with pytest.raises(InputError) as caught:
        read_toxicity(text)
    assert caught.value.code == code


def test_viscosity_is_at_40_degc():
    assert read_viscosity("≤ 20.5 mm²/s (40 °C)").range.high == Fraction("20.5")
    assert read_viscosity("1.1 cSt").range.low == Fraction("1.1")
    text = "Kinematic viscosity: 1.1 mm²/s @ 40 °C"
    assert read_viscosity(text).range.low == Fraction("1.1")
    with pytest.raises(InputError, match="not at 40 °C"):
        read_viscosity("7 mm2/s at 20 °C")
    with pytest.raises(QuestionError, match="no unit"):
        read_viscosity("7")
    with pytest.raises(InputError, match="not read as a viscosity"):
        read_viscosity("thin")


def test_acidity_and_factor():
    assert read_acidity("pH 2-3").range.high == 3
    assert read_factor("M-factor (acute): 10").range.low == 10
    assert read_factor("M-Factor Acute: 1").range.low == 1
    with pytest.raises(InputError, match="between 0 and 14"):
        read_acidity("15")
    with pytest.raises(InputError, match="not read as a pH"):
        read_acidity("sour")
    with pytest.raises(InputError, match="not an M-factor"):
        read_factor("5")


READERS = [
    read_hazard_class,
    read_specific_limit,
    read_toxicity,
    read_viscosity,
    read_acidity,
    read_factor,
]
HARD = ["1", "H3", "skin ", "a", "(", "oral ", "; ", "category ", "C >= ", "µ", "no "]


@pytest.mark.parametrize("read", READERS)
@pytest.mark.parametrize("piece", HARD)
def test_a_long_text_is_refused(read, piece):
    for length in (200, 5000):
        with pytest.raises(InputError, match=r"\w"):
            read((piece * length)[:length])
