"""The room as a whole: what it offers, how fast it is."""

import re
import subprocess
import sys
import time
from pathlib import Path

import pytest

from blendcheck import quantity
from blendcheck.errors import InputError
from blendcheck.quantity import refusals
from tests.quantity.meanings import READERS


def test_everything_is_listed_in_order():
    assert list(quantity.__all__) == sorted(quantity.__all__)
    for name in quantity.__all__:
        assert getattr(quantity, name).__doc__, name


def test_every_code_is_listed():
    folder = Path(quantity.__file__).parent
    source = "".join(path.read_text("utf-8") for path in folder.glob("*.py"))
    listed = set(re.findall(r"``([a-z-]+)``", refusals.__doc__))
    used = set(re.findall(r'code="([a-z-]+)"', source))
    used |= {code for code in listed if f'"{code}"' in source}  # the ones in tables
    assert used == listed


def test_no_heavy_import():
    heavy = ["pandas", "numpy", "pydantic", "streamlit", "rdkit"]
    code = "import sys, blendcheck.quantity; print([n for n in sys.modules])"
    loaded = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True
    ).stdout
    assert not [name for name in heavy if f"'{name}'" in loaded]


SIMPLE = [
    ("amount", "10 g"),
    ("amount", "10-12 drops"),
    ("percent", "10-25 %"),
    ("percent", "n.d. (<10 ppm)"),
    ("temperature", ">93 °C"),
    ("cap", "14.46"),
    ("date", "2025-04-03"),
]


@pytest.mark.bench
@pytest.mark.parametrize(("kind", "text"), SIMPLE)
def test_a_simple_text_takes_microseconds(kind, text):
    read, rounds = READERS[kind], 2_000
    best = 1.0
    for _ in range(5):
        start = time.perf_counter()
        for _ in range(rounds):
            read(text)
        best = min(best, (time.perf_counter() - start) / rounds)
    assert best < 15e-6 * 4  # 15 us is the aim; a busy machine may be slower


LONGEST = 200
HARD = ["1", "1 ", "1-", "1 to ", "<", "(", "1/", "a", "½", "not added ", "n.d. (", "°"]


@pytest.mark.parametrize("kind", READERS)
@pytest.mark.parametrize("piece", HARD)
def test_a_long_text_is_refused(kind, piece):
    # a pattern that backtracks without end would run into the time limit of a test
    text = (piece * LONGEST)[:LONGEST]
    with pytest.raises(InputError, match=r"\w"):
        READERS[kind](text)
