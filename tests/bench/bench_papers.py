"""How long a sheet of cards takes, once the typesetter is imported.

``python -m pytest -q -s -m bench tests/bench/bench_papers.py`` prints the medians. The
limit holds for the time of the processor too, so that a machine that others use does
not fail it.
"""

import statistics
import time

import pytest

from blendcheck.papers import KINDS, make
from blendcheck.papers.layout import CARDS, SHEETS, Layout
from blendcheck.papers.typeset import pdf, pictures
from tests.papers.makers import demo

pytestmark = pytest.mark.bench

LIMIT_S = 0.5
RUNS = 7


def median(work):
    """Medians by the clock and by the processor. [s]"""
    clock, processor = [], []
    for _ in range(RUNS):
        start, busy = time.perf_counter(), time.process_time()
        work()
        clock.append(time.perf_counter() - start)
        processor.append(time.process_time() - busy)
    return statistics.median(clock), statistics.median(processor)


@pytest.mark.parametrize("sheet", SHEETS)
@pytest.mark.parametrize("cards", CARDS)
def test_a_sheet_of_cards(sheet, cards):
    kept = demo()
    layout = Layout(sheet, cards)
    clock, processor = median(lambda: pdf(make("card", kept), layout))
    print(f"\ncards, {cards}, {sheet}: {clock:.3f} s, processor {processor:.3f} s")
    assert min(clock, processor) < LIMIT_S


def test_the_first_sheet_after_the_imports():
    """Cold: fonts are read, nothing is remembered by the typesetter."""
    import subprocess
    import sys

    program = (
        "import time, typst\n"
        "from blendcheck.papers import make\n"
        "from blendcheck.papers.layout import Layout\n"
        "from blendcheck.papers.typeset import pdf\n"
        "from tests.papers.makers import demo\n"
        "kept = demo()\n"
        "start = time.perf_counter()\n"
        "pdf(make('card', kept), Layout())\n"
        "print(time.perf_counter() - start)\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True
    )
    print(f"\nfirst sheet of cards: {float(done.stdout):.3f} s")
    assert float(done.stdout) < LIMIT_S


@pytest.mark.parametrize("kind", KINDS)
def test_every_paper_and_its_picture(kind):
    kept = demo(channel="gift", estimates=True)
    paper = make(kind, kept)
    clock, processor = median(lambda: pdf(paper, Layout()))
    drawn, _ = median(lambda: pictures(paper, Layout()))
    print(f"\n{kind}: {clock:.3f} s, with its pictures {drawn:.3f} s")
    assert min(clock, processor) < LIMIT_S
