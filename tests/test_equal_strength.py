"""Blends at equal strength of scent: by hand, in ranges, and what is missing."""

import pytest

from blendcheck.compare import compare
from blendcheck.words import render
from tests.checks.shelves import (
    D_LIMONENE,
    LINALOOL,
    oil,
    row,
)
from tests.rankable import (
    CLAY,
    report,
    tablet,
)

# -- equal strength of scent -------------------------------------------------------


def pair_of_known(first, second):
    """Two blends of two components that have thresholds by one method."""
    made = []
    for name, share in (("one", first), ("other", second)):
        rows = (
            row("limonene", D_LIMONENE, share[0]),
            row("linalool", LINALOOL, share[1]),
        )
        blend = oil(name, papers=[report(*rows)])
        made.append(tablet({"clay": "590 g", name: "10 g"}, [blend, CLAY]))
    return made


def test_equal_strength_by_hand():
    """Thresholds 9.863 and 0.951 ppm (squeeze bottle); 136.2 and 154.3 g/mol, 25 °C.

    Limonene is marked, linalool not: the blend with more of it smells less for its
    load. Load over strength of 90 % limonene: 0.9 ÷ (0.9 ÷ 54.9 + 0.1 ÷ 6.0) mg/m³.
    """
    weak, strong = pair_of_known(("10 %", "90 %"), ("90 %", "10 %"))
    found = compare([weak, strong]).strength
    assert found.why == ()
    limonene, linalool = 9.863 * 136.24 / 24.465, 0.951 * 154.25 / 24.465
    for load, share in zip(found.loads, (0.1, 0.9), strict=True):
        by_hand = share / (share / limonene + (1 - share) / linalool)
        assert load.is_exact
        assert float(load.low) == pytest.approx(by_hand, rel=2e-3)
    (said,) = found.pairs
    assert said.code == "compare.strength-less"


def test_equal_strength_of_ranges_is_closed_in_one_step():
    """The same share stands above and below: never wider than its corners."""
    one, other = pair_of_known(("46-54 %", "46-54 %"), ("48-52 %", "48-52 %"))
    found = compare([one, other]).strength
    assert found.loads[0].low < found.loads[1].low
    assert found.loads[1].high < found.loads[0].high
    assert found.pairs[0].code == "compare.strength-open"
    limonene, linalool = 9.863 * 136.24 / 24.465, 0.951 * 154.25 / 24.465
    corners = [
        a / (a / limonene + b / linalool) for a in (0.46, 0.54) for b in (0.46, 0.54)
    ]
    assert float(found.loads[0].low) == pytest.approx(min(corners), rel=2e-3)
    assert float(found.loads[0].high) == pytest.approx(max(corners), rel=2e-3)


@pytest.mark.parametrize(("more", "code"), [
    ({}, "compare.strength-less"),
    ({"unidentified": "1 %"}, "compare.strength-open"),
])  # fmt: skip
def test_what_may_smell_of_anything_is_never_called_more(more, code):
    """The last per cent may smell like all the rest: then less of it would do."""
    weak, _ = pair_of_known(("10 %", "90 %"), ("90 %", "10 %"))
    rows = (row("limonene", D_LIMONENE, "90 %"), row("linalool", LINALOOL, "9 %"))
    last = () if more else (row("linalool too", "126-91-0", "1 %"),)
    other = oil("other", papers=[report(*rows, *last, **more)])
    strong = tablet({"clay": "590 g", "other": "10 g"}, [other, CLAY])
    found = compare([weak, strong]).strength
    assert found.why == ()
    assert found.pairs[0].code == code


def test_what_has_no_threshold_is_named():
    recipe = tablet({"clay": "594 g", "mint": "6 g"})
    found = compare([recipe, recipe]).strength
    assert found.loads == (None, None)
    assert found.pairs == ()
    assert "no odour threshold is known for: linalyl acetate." in render(found.why[0])


def test_drops_and_unknown_oils_have_no_strength():
    drops = tablet({"clay": "594 g", "mint": "20 drops"})
    unknown = tablet({"clay": "594 g", "x": "6 g"}, [oil("x"), CLAY])
    codes = [say.code for say in compare([drops, unknown]).strength.why]
    assert codes == ["compare.strength-drops", "compare.strength-undocumented"]
