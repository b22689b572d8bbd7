"""The demo: its files load, and each recipe comes out as it is written for."""

import re
from collections.abc import Callable, Iterator
from datetime import date
from fractions import Fraction

import pytest

from blendcheck import reference
from blendcheck.assess import Assessment, assess
from blendcheck.demo import MATERIALS, demo_files, write_demo
from blendcheck.errors import InputError
from blendcheck.files.reading import materials_from_text, recipe_from_text
from blendcheck.interval import Range
from blendcheck.quantity import Missing, NoRestriction, NotApplicable
from blendcheck.records.finding import Finding, Outcome
from blendcheck.records.material import CapEntry, Composition, Material, Materials
from blendcheck.records.recipe import Recipe

ON = date(2026, 11, 25)

RECIPES = tuple(name for name in demo_files() if name != MATERIALS)

WRITTEN_FOR = {
    "north-gale.toml": Outcome.OVER,
    "porch-balm.toml": Outcome.OVER,
    "windbreak.toml": Outcome.WITHIN,
    "white-squall.toml": Outcome.STRADDLES,
    "driftwood.toml": Outcome.UNKNOWN,
    "fair-wind.toml": Outcome.UNKNOWN,
    "lee-shore.toml": Outcome.WITHIN,
    "slack-tide.toml": Outcome.WITHIN,
}

# What decides each recipe, as check, subject, outcome and code of the reason.
DECIDED_BY = [
    ("north-gale.toml", "caps", "Peppermint oil", Outcome.OVER, "caps.over"),
    ("north-gale.toml", "fire", "wet mix", Outcome.OVER, "fire.over"),
    ("porch-balm.toml", "caps", "Peppermint oil", Outcome.OVER, "caps.over"),
    ("white-squall.toml", "caps", "menthol", Outcome.STRADDLES, "caps.straddles"),
    (
        "driftwood.toml",
        "caps",
        "Unlabelled oil from the swap table",
        Outcome.UNKNOWN,
        "caps.none",
    ),
    ("fair-wind.toml", "caps", "Peppermint oil", Outcome.UNKNOWN, "caps.differs"),
    ("fair-wind.toml", "caps", "camphor", Outcome.UNKNOWN, "caps.absence"),
    ("lee-shore.toml", "caps", "menthol", Outcome.WITHIN, "caps.within"),
    ("slack-tide.toml", "caps", "Lavender oil", Outcome.WITHIN, "caps.within"),
    ("slack-tide.toml", "caps", "camphor", Outcome.WITHIN, "caps.within"),
]


def _recipe(name: str) -> Recipe:
    return recipe_from_text(demo_files()[name], name)


@pytest.fixture(scope="module")
def shelf() -> Materials:
    return materials_from_text(demo_files()[MATERIALS], MATERIALS)


@pytest.fixture(scope="module")
def checked(shelf: Materials) -> dict[str, Assessment]:
    return {name: assess(_recipe(name), shelf, ON) for name in RECIPES}


def _found(result: Assessment, check: str, subject: str) -> list[Finding]:
    return [f for f in result.findings if (f.check, f.subject) == (check, subject)]


def _counting(result: Assessment, check: str, subject: str) -> Finding:
    """Return the one limit of a subject that counts."""
    found = _found(result, check, subject)
    (one,) = [f for f in found if f.kind == "limit" and f.counts]
    return one


def _span(result: Assessment, finding: Finding) -> Range:
    assert finding.value is not None
    return result.working.range(finding.value)


# -- files -----------------------------------------------------------------


def test_materials_first_then_recipes() -> None:
    names = list(demo_files())
    assert names == [MATERIALS, *sorted(WRITTEN_FOR)]


@pytest.mark.parametrize("name", RECIPES)
def test_a_recipe_names_the_file_beside_it(name: str) -> None:
    assert _recipe(name).materials == MATERIALS


@pytest.mark.parametrize("name", demo_files())
def test_a_file_says_that_it_is_invented(name: str) -> None:
    assert re.search(r"invented", demo_files()[name], re.IGNORECASE)


@pytest.mark.parametrize("name", demo_files())
def test_no_word_that_promises_too_much(name: str) -> None:
    promised = r"\b(safe|safely|approved|compliant|pass|passes|natural|pure)\b"
    assert not re.search(promised, demo_files()[name], re.IGNORECASE)


def test_all_is_written(tmp_path) -> None:
    folder = tmp_path / "new" / "shed"
    written = write_demo(folder)
    assert {path.name: path.read_bytes().decode() for path in written} == dict(
        demo_files()
    )
    assert sorted(folder.iterdir()) == sorted(written)


def test_nothing_is_overwritten(tmp_path) -> None:
    own = tmp_path / "slack-tide.toml"
    own.write_text("mine", encoding="utf-8")
    with pytest.raises(InputError, match=r"already has slack-tide\.toml") as refused:
        write_demo(tmp_path)
    assert refused.value.code == "exists"
    assert list(tmp_path.iterdir()) == [own]
    assert own.read_text(encoding="utf-8") == "mine"


def test_a_file_is_no_folder(tmp_path) -> None:
    taken = tmp_path / "shed"
    taken.write_text("", encoding="utf-8")
    with pytest.raises(InputError, match="cannot be written") as refused:
        write_demo(taken)
    assert refused.value.code == "not-written"


# -- outcomes --------------------------------------------------------------


@pytest.mark.parametrize("name", RECIPES)
def test_outcome_is_the_one_it_is_written_for(
    name: str, checked: dict[str, Assessment]
) -> None:
    assert checked[name].outcome is WRITTEN_FOR[name]


def test_all_four_outcomes_and_three_within(checked: dict[str, Assessment]) -> None:
    outcomes = [result.outcome for result in checked.values()]
    assert set(outcomes) == set(Outcome)
    assert outcomes.count(Outcome.WITHIN) == 3


@pytest.mark.parametrize(("name", "check", "subject", "outcome", "code"), DECIDED_BY)
def test_it_is_decided_by_what_it_shows(
    name: str,
    check: str,
    subject: str,
    outcome: Outcome,
    code: str,
    checked: dict[str, Assessment],
) -> None:
    found = _found(checked[name], check, subject)
    assert (outcome, code) in [
        (f.outcome, f.why.code) for f in found if f.kind == "limit" and f.counts
    ]


def test_gentle_one_has_neither_mint_nor_eucalyptus(
    checked: dict[str, Assessment],
) -> None:
    used = {node.material.id for node in checked["slack-tide.toml"].totals.leaves}
    assert used.isdisjoint({"peppermint", "eucalyptus", "menthol crystals"})


# -- the sums in the comments, by hand -------------------------------------


def test_north_gale_by_hand(checked: dict[str, Assessment]) -> None:
    # 24 pieces of 60 g are 1440 g; 36 g ÷ 1440 g = 2.5 %; 2.5 % of 60 g = 1.5 g.
    result = checked["north-gale.toml"]
    assert result.working.range(result.totals.finished) == Range.at(1440)
    peppermint = _counting(result, "caps", "Peppermint oil")
    assert peppermint.cap is not None
    assert peppermint.cap.category == "9"
    assert _span(result, peppermint) == Range.at(Fraction("2.5"))
    oil = next(m for m in result.case.materials.material if m.id == "peppermint")
    grams = result.totals.per_piece(result.totals.material(oil))
    assert grams is not None
    assert result.working.range(grams) == Range.at(Fraction("1.5"))
    # 40.0 % of 36 g is 14.4 g of menthol, 1.0 %. The eucalyptus sheet names at
    # least 75 + 2.5 + 1 + 1 = 79.5 %; the other 20.5 % of 36 g = 7.38 g might be
    # menthol as well: (14.4 + 7.38) ÷ 1440 = 1.5125 %.
    menthol = _span(result, _counting(result, "caps", "menthol"))
    assert (menthol.low, menthol.high) == (1, Fraction("1.5125"))


def test_white_squall_by_hand(checked: dict[str, Assessment]) -> None:
    # 36 g of crystals and 25 to 50 % of 28.8 g of oil, in 1440 g.
    result = checked["white-squall.toml"]
    menthol = _counting(result, "caps", "menthol")
    span = _span(result, menthol)
    assert (span.low, span.high) == (3, Fraction("3.5"))
    # 3.2 % of 1440 g = 46.08 g; (46.08 - 36) ÷ 28.8 = 35 %.
    assert menthol.turns_at is not None
    assert menthol.turns_at.values["turn"] == "35 %"
    # 28.8 g ÷ 1440 g = 2.00 %, and at the cap is within.
    peppermint = _counting(result, "caps", "Peppermint oil")
    assert _span(result, peppermint) == Range.at(2)
    assert peppermint.outcome is Outcome.WITHIN


def test_same_blend_in_two_products(checked: dict[str, Assessment]) -> None:
    # 2 % of headland blend, one half of it peppermint oil: 1.0 % in both.
    for name in ("fair-wind.toml", "porch-balm.toml"):
        result = checked[name]
        for finding in _found(result, "caps", "Peppermint oil"):
            assert _span(result, finding) == Range.at(1)


def test_slack_tide_by_hand(checked: dict[str, Assessment]) -> None:
    # 14.4 g of lavender oil in 1440 to 1442 g; of 2.0 g sold at 10 % it is 0.2 g.
    result = checked["slack-tide.toml"]
    lavender = _span(result, _counting(result, "caps", "Lavender oil"))
    assert (lavender.low, lavender.high) == (Fraction(1440, 1442), 1)
    diluted = "Geranium oil, 10 % in fractionated coconut oil"
    geranium = _span(result, _counting(result, "caps", diluted))
    assert (geranium.low, geranium.high) == (Fraction(20, 1442), Fraction(20, 1440))


def test_driftwood_counts_a_drop_as_a_range(checked: dict[str, Assessment]) -> None:
    # 60 drops of 0.03 g are 1.8 g. Common practice: 20 to 40 drops in 1 mL, so that
    # 40 drops of the other oil are 1 to 2 mL of 0.898 to 0.912 g/mL.
    result = checked["driftwood.toml"]
    grams = {
        line.material: result.working.range(line.grams)
        for line in result.totals.expansion.lines
    }
    assert grams["jar oil"] == Range.at(Fraction("1.8"))
    fir = grams["fir needle"]
    assert (fir.low, fir.high) == (Fraction("0.898"), Fraction("1.824"))


# -- papers in their different states --------------------------------------


def _lists(shelf: Materials) -> Iterator[tuple[Material, str | None, Composition]]:
    for material in shelf.material:
        for lot in material.lot:
            for one in lot.composition:
                yield material, lot.lot, one
        for one in material.composition:
            yield material, None, one


def _shares(shelf: Materials) -> set[str]:
    return {row.share.printed for _, _, one in _lists(shelf) for row in one.row}


def _caps(shelf: Materials, state: type) -> list[CapEntry]:
    return [entry for entry in shelf.caps() if isinstance(entry.cap, state)]


def _full_report_of_a_lot(shelf: Materials) -> bool:
    return any(
        one.kind == "full GC-MS" and one.copied_whole and lot is not None
        for _, lot, one in _lists(shelf)
    )


def _ranges_only(shelf: Materials) -> bool:
    oil = shelf.get("eucalyptus")
    sheets = {one.kind for one in oil.composition}
    whole = any(lot.composition for lot in oil.lot)
    return sheets == {"hazardous ingredients"} and not whole


def _old_edition(shelf: Materials) -> bool:
    current = shelf.workshop.current
    return any(
        entry.edition != current[entry.scheme]
        for entry in shelf.caps()
        if entry.scheme in current
    )


def _no_papers(shelf: Materials) -> bool:
    return any(
        m.is_scented and not (m.document or m.cap or m.composition or m.lot)
        for m in shelf.material
    )


def _statement_with_limit(shelf: Materials) -> bool:
    return any(
        one.kind == "allergen statement" and one.shown_from and one.covers
        for _, _, one in _lists(shelf)
    )


STATES: dict[str, Callable[[Materials], object]] = {
    "full report of a lot": _full_report_of_a_lot,
    "ranges only": _ranges_only,
    "a masked range as printed": lambda s: "≥ 10 - < 25 %" in _shares(s),
    "not detected": lambda s: "n.d." in _shares(s),
    "a trace with a limit": lambda s: "tr (<0.05 %)" in _shares(s),
    "areas, not weights": lambda s: "area" in {x.basis for _, _, x in _lists(s)},
    "an edition that is not in force": _old_edition,
    "no papers at all": _no_papers,
    "an allergen statement with its limit": _statement_with_limit,
    "a diluted oil in a named diluent": lambda s: [
        s.get(m.dilution.diluent) for m in s.material if m.dilution
    ],
    "two lots of one oil": lambda s: any(len(m.lot) == 2 for m in s.material),
    "a flash point that is a bound": lambda s: any(
        m.flash_point and m.flash_point.printed.startswith(">93 °C") for m in s.material
    ),
    "N/A with a footnote": lambda s: [
        e for e in _caps(s, NotApplicable) if e.printed == "N/A" and e.footnote
    ],
    "N/A whose footnote lifts the cap": lambda s: [
        e for e in _caps(s, NoRestriction) if e.printed == "N/A"
    ],
    "not restricted": lambda s: [
        e for e in _caps(s, NoRestriction) if e.printed == "Not restricted"
    ],
    "a blank cap": lambda s: [e for e in _caps(s, Missing) if e.printed == ""],
    "a confirmed name": lambda s: s.confirmed,
}


@pytest.mark.parametrize("state", STATES)
def test_papers_in_every_state(state: str, shelf: Materials) -> None:
    assert STATES[state](shelf)


def test_every_material_is_used(
    shelf: Materials, checked: dict[str, Assessment]
) -> None:
    used = {
        node.material.id
        for result in checked.values()
        for node in result.totals.leaves
        if node.material is not None
    }
    assert used == {material.id for material in shelf.material}
    assert 12 <= len(used) <= 16


def test_every_paper_that_is_named_is_there(shelf: Materials) -> None:
    for material in shelf.material:
        held = {document.id for document in material.document}
        named = {entry.document for entry in material.cap}
        named |= {material.flash_point_document}
        named |= {one.document for who, _, one in _lists(shelf) if who is material}
        assert named - {None} <= held


def test_numbers_and_names_agree_with_the_tables(shelf: Materials) -> None:
    known = reference.constituents()
    rows = [row for _, _, one in _lists(shelf) for row in one.row if row.cas in known]
    for row in rows:
        assert row.cas in reference.find(row.name).candidates, row.name
    assert len(rows) >= 40


# Limits of the European Pharmacopoeia: peppermint as quoted in Peter (ed.), Handbook
# of Herbs and Spices, chapter Peppermint, p. 475; lavender (10th ed.) as quoted in
# Molecules 2022, 27, 3216, Table 2. [%]
LIMITS = {
    "peppermint": {
        "5989-27-5": ("1.0", "5.0"),
        "470-82-6": ("3.5", "14.0"),
        "14073-97-3": ("14.0", "32.0"),
        "494-90-6": ("1.0", "9.0"),
        "491-07-6": ("1.5", "10.0"),
        "2623-23-6": ("2.8", "10.0"),
    },
    "lavender": {
        "78-70-6": ("20", "45"),
        "115-95-7": ("25", "47"),
        "562-74-3": ("0.1", "8"),
        "106-68-3": ("0.1", "5"),
        "470-82-6": ("0", "2.5"),
        "76-22-2": ("0", "1.2"),
        "5989-27-5": ("0", "1"),
        "98-55-5": ("0", "2"),
    },
}


@pytest.mark.published
@pytest.mark.parametrize("oil", LIMITS)
def test_invented_reports_look_like_their_plant(oil: str, shelf: Materials) -> None:
    material = shelf.get(oil)
    (report,) = [one for lot in material.lot for one in lot.composition]
    shares = {row.cas: row.share.range for row in report.row}
    for cas, (low, high) in LIMITS[oil].items():
        span = shares[cas]
        assert span.low is not None
        assert span.high is not None
        assert Fraction(low) <= span.low <= span.high <= Fraction(high)
