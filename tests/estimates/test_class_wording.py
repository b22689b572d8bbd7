"""Statements on a label: official words, with the choices made that the law leaves.

Regulation (EC) No 1272/2008, Annex IV: of phrases parted by a stroke one is chosen,
words in square brackets are used where they fit, dots are filled in.
"""

import re

import pytest

from blendcheck import reference
from blendcheck.estimates.classes.wording import TO_FILL_IN, wording_of
from blendcheck.quantity.hazards import CLASSES

_ROUTES = ("oral", "dermal", "inhalation")
NAMES = [
    *CLASSES,
    *(f"{n} ({route})" for n in CLASSES if n.startswith("Acute") for route in _ROUTES),
    *("STOT SE 3 (irritation)", "STOT SE 3 (narcosis)"),
]
CODES = sorted(
    {
        row.element
        for name in NAMES
        for row in reference.label_elements(name)
        if row.element.startswith(("P", "H"))
    }
)


@pytest.mark.parametrize("code", CODES)
def test_no_stroke_and_no_bracket_is_left(code):
    text = wording_of(code, liquid=True, classes=["Skin Irrit. 2"])
    assert text
    assert not re.search(r"[/\[\]<>]", text), text
    if TO_FILL_IN in text:
        assert code in ("P501", "P370+P378", "P320", "P321")


@pytest.mark.published
@pytest.mark.parametrize("code", CODES)
def test_every_word_is_one_of_the_law(code):
    """Nothing is added to Annex IV but "or", "and", "hands" and stops."""
    law = set(re.findall(r"[a-z]+", reference.phrases()[code].wording.lower()))
    ours = re.findall(r"[a-z]+", wording_of(code, liquid=None).lower())
    assert set(ours) - law <= {"or", "and", "hands"}


def test_what_is_worn_and_breathed_follows_the_classes():
    assert wording_of("P280", classes=["Skin Sens. 1B"]) == "Wear protective gloves."
    both = wording_of("P280", classes=["Flam. Liq. 3", "Eye Irrit. 2"])
    assert both == "Wear protective gloves and eye protection."
    assert "face protection" in wording_of("P280", classes=["Skin Corr. 1"])
    assert "face protection" in wording_of("P280", classes=["Eye Dam. 1", "Repr. 2"])
    assert wording_of("P261", liquid=False) == "Avoid breathing dust."
    assert wording_of("P261", liquid=True).endswith("mist, vapours or spray.")
    assert wording_of("P999") == ""
