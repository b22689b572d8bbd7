"""Texts written with their meaning: accepted as meant, or asked about.

4 000 texts as a rule; ``BLENDCHECK_TEXTS=100000`` sets another number.
"""

import dataclasses
import os
from collections import Counter

import pytest

from blendcheck.errors import InputError, QuestionError
from tests.quantity.grammar import Writer
from tests.quantity.meanings import PRINTERS, READERS, meaning_of
from tests.quantity.oracle import ORACLES, is_sure

pytestmark = pytest.mark.broad

TEXTS = int(os.environ.get("BLENDCHECK_TEXTS", "4000"))
LONG = pytest.mark.timeout(60 + TEXTS // 20)


def samples(seed):
    writer = Writer(seed)
    for _ in range(TEXTS):
        yield writer.any()


def reads_again(kind, value):
    """Say whether print and printed text read as the same meaning."""
    again = READERS[kind](PRINTERS[kind](value))
    kept = READERS[kind](value.printed)
    return meaning_of(again) == meaning_of(value) and kept == dataclasses.replace(value)


@LONG
def test_every_text_is_read_as_meant_asked_or_refused():
    counts = Counter()
    for sample in samples(seed=2025):
        read = READERS[sample.kind]
        if sample.meaning is not None:
            value = read(sample.text)
            assert meaning_of(value) == sample.meaning, sample
            assert value.printed.strip() == sample.text.strip(), sample
            counts["read"] += 1
            continue
        expected = QuestionError if sample.asked else InputError
        with pytest.raises(InputError, match=r"\w") as caught:
            read(sample.text)
        assert type(caught.value) is expected, sample
        assert caught.value.code == sample.asked + sample.refused, sample
        counts["asked" if sample.asked else "refused"] += 1
    assert min(counts[each] for each in ("read", "asked", "refused")) > TEXTS // 60
    assert sum(counts.values()) == TEXTS


@LONG
def test_every_accepted_text_prints_and_reads_the_same():
    for sample in samples(seed=7):
        if sample.meaning is not None:
            value = READERS[sample.kind](sample.text)
            assert reads_again(sample.kind, value), sample


@LONG
def test_the_oracle_finds_the_meaning_of_every_text():
    """Checks the oracle, with meanings that the generator knows."""
    for sample in samples(seed=11):
        found = ORACLES[sample.kind](sample.text)
        if sample.meaning is not None:
            assert found == {sample.meaning}, sample


def outcome(kind, text):
    """Return (word for what the reader did, the value or the error)."""
    try:
        return "read", READERS[kind](text)
    except QuestionError as question:
        return "asked", question
    except InputError as error:
        return "refused", error


@LONG
def test_a_changed_text_is_read_as_the_one_thing_it_can_mean_or_not_at_all(capsys):
    counts = Counter()
    writer = Writer(99)
    for sample in samples(seed=13):
        text = writer.slip(sample.text)
        if writer.often(0.3):
            text = writer.slip(text)
        # some land in the wrong field of the form
        kind = writer.one_of(*READERS) if writer.often(0.1) else sample.kind
        possible = ORACLES[kind](text)
        did, result = outcome(kind, text)
        if did == "read":
            meant = meaning_of(result)
            assert possible == {meant}, (kind, text)
            assert reads_again(kind, result), (kind, text)
            same = meant == sample.meaning
            counts["read as before" if same else "read, changed"] += 1
            continue
        assert result.code != "bad-input", (kind, text)
        assert len(result.sentence) > len(text) or result.code == "too-long"
        counts[f"{did}, has one meaning" if is_sure(possible) else did] += 1
    with capsys.disabled():
        print(f"\n{TEXTS} changed texts:", dict(sorted(counts.items())))
    assert counts["read as before"] > TEXTS // 10
    assert counts["asked"] + counts["refused"] > TEXTS // 10
    # what a reader may well refuse although it makes sense stays rare
    needless = counts["asked, has one meaning"] + counts["refused, has one meaning"]
    assert needless < TEXTS // 100


@LONG
def test_a_row_of_signs_is_read_only_if_it_makes_one_sense():
    counts = Counter()
    writer = Writer(5)
    for _ in range(TEXTS):
        text = "".join(
            writer.one_of(*writer.ALPHABET, "%", " g", " °C", "10", "5")
            for _ in range(writer.one_of(1, 2, 3, 4, 5, 6))
        )
        for kind in READERS:
            did, result = outcome(kind, text)
            counts[did] += 1
            if did == "read":
                assert ORACLES[kind](text) == {meaning_of(result)}, (kind, text)
                assert reads_again(kind, result), (kind, text)
    assert min(counts[did] for did in ("read", "asked", "refused")) > TEXTS // 20
