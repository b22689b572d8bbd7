"""What the check of the air says, and that it never decides."""

import re
from pathlib import Path

import pytest

from blendcheck import demo
from blendcheck.assess import assess
from blendcheck.checks.air import check
from blendcheck.estimates import ratios
from blendcheck.estimates.acute import Reference
from blendcheck.files.loading import load
from blendcheck.quantity import Mark
from blendcheck.reference import sources
from blendcheck.words import codes, render
from tests.checks.cases import ON, by_code, make_case, oil
from tests.estimates.test_shower import (
    CINEOLE,
    LIMONENE,
    MENTHOL,
    UNKNOWN,
    a_case,
)
from tests.test_words import reading_ease

ROWS = [
    ("Limonene", LIMONENE, "40-50 %"),
    ("Menthol", MENTHOL, "20 %"),
    ("Cineole", CINEOLE, "10 %"),
    ("Menthofuran", UNKNOWN, "2 %"),
]
PINE = [("Limonene", LIMONENE, "97 %")]


def found_in(case):
    return list(check(case))


def test_what_it_says_of_a_tablet():
    found = by_code(found_in(a_case(rows=ROWS)))
    (total,) = found["air.total-part"]
    assert "Up to 0.6 g" in render(total.why)
    assert len(total.estimates) == 6
    assert {e.name for e in total.estimates} == {
        f"air.total.{zone}.{what}"
        for zone in ("stall", "bathroom")
        for what in ("peak", "mean", "later")
    }
    said = [say.code for say in total.also]
    assert said == [
        "air.next-person", "air.spread", "air.rough", "air.in-full", "air.menthol",
    ]  # fmt: skip
    (each,) = found["air.each"]
    assert len(each.estimates) == 24
    (missing,) = found["air.not-estimated"]
    assert missing.estimates[0].high == pytest.approx(0.56, rel=0.05)
    assert found["air.people"][0].kind == "caution"
    assert "air.no-reference" in found


def test_an_oil_that_no_paper_names_is_not_known_and_not_zero():
    found = by_code(found_in(a_case(rows=())))
    (total,) = found["air.total-unknown"]
    assert "not known" in render(total.why)
    assert "about 0" not in render(total.why)
    assert all(one.central is None and one.high > 0 for one in total.estimates)


def test_a_limit_from_memory_is_said_once():
    (one,) = by_code(found_in(a_case(rows=PINE)))["air.beside-acute"]
    assert "lower than the limit for 30 min, from memory)" in render(one.why)


def test_the_smell_counts_what_has_a_pressure_and_names_nothing_else(monkeypatch):
    """An odour threshold without a vapour pressure is no smell of 0."""
    point = Reference(UNKNOWN, "people", 1.0, "made up", "abraham-2012", "seen")
    known = ratios.odour_threshold
    monkeypatch.setattr(
        ratios, "odour_threshold", lambda c: point if c == UNKNOWN else known(c)
    )
    alone = found_in(a_case(rows=[("Menthofuran", UNKNOWN, "99 %")]))
    assert "air.smell" not in by_code(alone)
    (both,) = by_code(found_in(a_case(rows=ROWS)))["air.smell"]
    assert "menthofuran" not in render(both.why)


def test_every_estimate_is_in_order_marked_and_sourced():
    for finding in found_in(a_case(rows=ROWS)):
        for one in finding.estimates:
            assert Mark.ESTIMATED in one.marks
            assert one.digits == 1
            low, high = one.low, one.high
            if one.central is not None:
                assert low <= one.central + 1e-12
                assert high is None or one.central <= high * (1 + 1e-9)
            assert set(one.sources) <= set(sources()) | {"memory"}
        for source in filter(None, finding.source.split(", ")):
            assert source in sources()


def test_names_of_estimates_are_their_own():
    names = [e.name for f in found_in(a_case(rows=ROWS)) for e in f.estimates]
    assert len(names) == len(set(names))


def test_ratios_are_listed_or_added():
    listed = by_code(found_in(a_case(rows=ROWS)))["air.beside-people"][0]
    assert [say.code for say in listed.also] == ["air.not-added"]
    added = by_code(found_in(a_case(rows=PINE)))["air.beside-people"][0]
    assert [say.code for say in added.also] == ["air.added"]
    assert "asthma" in render(added.why)
    assert added.estimates[-1].name == "air.beside.people.sum"


def test_the_smell_has_no_upper_end_where_much_has_no_threshold():
    whole = by_code(found_in(a_case(rows=PINE)))["air.smell"][0].estimates[0]
    assert whole.high is not None
    rows = [("Limonene", LIMONENE, "50 %"), ("Camphor", "76-22-2", "40 %")]
    part = by_code(found_in(a_case(rows=rows)))["air.smell"][0].estimates[0]
    assert part.high is None


@pytest.mark.parametrize("product", ["room mist", "balm", "soap", "bath fizz", "other"])
def test_nothing_else_gets_an_estimate(product):
    (one,) = found_in(a_case(product=product))
    assert one.kind == "fact"
    assert one.estimates == ()
    assert "o estimate is made" in render(one.why)
    mist = product == "room mist"
    assert ("droplets" in render(one.why)) == mist


def test_without_a_piece_it_asks():
    (one,) = found_in(make_case(({"id": "s", "name": "S", "kind": "solid"}, "98 g"),
                                (oil(), "2 g")))  # fmt: skip
    assert [say.code for say in one.ask] == ["air.ask-piece"]


def _cases():
    yield a_case(rows=ROWS)
    yield a_case(rows=PINE)
    yield a_case(rows=[("Camphor", "76-22-2", "95 %")])
    yield a_case(rows=[("Benzaldehyde", "100-52-7", "95 %")])
    yield a_case(rows=ROWS, shelf={"workshop": {"shower": {"showers_in_a_row": 2}}})
    yield a_case(rows=())
    yield a_case(product="room mist")
    yield a_case(product="soap")
    yield make_case(({"id": "s", "name": "S", "kind": "solid"}, "98 g"), (oil(), "2 g"))
    yield make_case(
        ({"id": "s", "name": "S", "kind": "solid"}, "98 g"), piece_mass="50 g"
    )


def test_every_sentence_is_reached_and_plain():
    said = {}
    for case in _cases():
        for finding in found_in(case):
            for say in (finding.why, *finding.also, *finding.ask):
                said.setdefault(render(say), say.code)
    ours = {code for code in codes() if code.startswith("air.")}
    assert ours - set(said.values()) == set()
    text = " ".join(said)
    print(f"\nreading ease of air: {reading_ease(text):.0f}")
    assert reading_ease(text) >= 60


def test_it_never_decides_and_never_clears_anybody():
    for case in _cases():
        for finding in found_in(case):
            assert finding.kind in ("fact", "caution")
            assert finding.outcome is None
            text = render(finding.why)
            assert not re.search(r"\b(safe|fine|no risk|harmless)\b", text)


@pytest.mark.parametrize("name", ["fair-wind", "white-squall", "slack-tide"])
def test_the_demo_has_its_air_and_the_same_outcome(name):
    recipe, materials = load(Path(demo.__file__).parent / f"{name}.toml")[:2]
    plain = assess(recipe, materials, ON)
    more = assess(recipe, materials, ON, estimates=True)
    assert plain.outcome == more.outcome
    assert not any(f.check == "air" for f in plain.findings)
    assert any(f.why.code.startswith("air.total") for f in more.findings)
