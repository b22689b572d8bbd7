"""How long ago an oil that turns in air was opened, in plain words."""

import pytest

from blendcheck.checks.oxidation import check
from blendcheck.words import render
from tests.checks.cases import BICARBONATE, ON, make_case, oil


@pytest.mark.parametrize(
    ("opened", "said"),
    [
        ("2026-11-25", ", less than a month ago."),
        ("2026-10-26", ", less than a month ago."),
        ("2026-10-25", ", 1 month ago."),
        ("2026-09-25", ", 2 months ago."),
        ("2025-11-25", ", 12 months ago."),
    ],
)
def test_the_age_of_an_opened_oil_is_said_in_words(opened, said):
    row = {"name": "Limonene", "cas": "5989-27-5", "share": "90 %"}
    listed = [{"kind": "full GC-MS", "copied_whole": True, "row": [row]}]
    citrus = oil("Oil", lot=[{"lot": "1", "opened": opened}], composition=listed)
    case = make_case((BICARBONATE, "98 g"), (citrus, "2 g", "1"), on=ON)
    (found,) = check(case)
    assert f"was opened on {opened}{said}" in render(found.why)
