"""``blendcheck reference``: entries, choices, tags, and what is not there."""

import csv
import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from blendcheck import reference
from blendcheck.cli import main
from blendcheck.entry import substance_entry

ROOT = Path(__file__).parents[1]


def said(capsys, *arguments):
    status = main(["reference", *arguments])
    done = capsys.readouterr()
    return status, done.out, done.err


def section(text, title):
    """Return the lines below a heading, up to the next blank line."""
    head = f"\n{title}\n{'-' * len(title)}\n"
    assert head in text, title
    return text.split(head)[1].split("\n\n")[0]


@pytest.mark.published
def test_entry_has_every_part_with_numbered_sources(capsys):
    """l-Menthol: CRC Handbook, 95th edition, melts at 42.1 degC; Annex III of
    Regulation (EC) No 1223/2009, entry 338, 0.001 % and 0.01 %."""
    status, out, err = said(capsys, "2216-51-5")
    assert (status, err) == (0, "")
    assert out.startswith("l-menthol, CAS 2216-51-5\nC10H20O, 156.269 g/mol")
    figures = section(out, "Figures")
    melting = figures.split("  melting point, ")[1].split("\n  water")[0]
    handbook = next(line for line in melting.splitlines() if "42.1 °C" in line)
    number = re.search(r"\[(\d+)\]", handbook)[1]
    sources = section(out, "Sources")
    named = re.search(rf"\[{number}\].*?(?=\n\[|$)", sources, re.S)[0]
    assert "CRC Handbook of Chemistry and Physics" in " ".join(named.split())
    assert melting.count("\n  * ") > 3  # the rivals stand below each other
    allergen = " ".join(section(out, "Fragrance allergens, EU list").split())
    assert "III/338, Menthol; named above 0.001 % (leave-on), 0.01 % (rinse" in allergen
    oils = section(out, "Published oils that contain it")
    assert "  peppermint\n  * 30.0-55.0 %; European Pharmacopoeia" in oils


def test_memory_is_marked_in_the_text(capsys):
    _, out, _ = said(capsys, "2216-51-5")
    lines = " ".join(section(out, "Figures").split())
    assert re.search(r"456 g/m³ \(printed 456 mg/L\);[^*]*from memory", lines)


def test_every_citation_has_its_source_and_lines_are_short(capsys):
    for key in (
        *list(reference.constituents())[::25],
        "peppermint",
        "lime (distilled)",
    ):
        _, out, _ = said(capsys, key)
        body, sources = out.split("\nSources\n-------\n")
        cited = {int(n) for n in re.findall(r"\[(\d+)\] ?", body)}
        listed = {int(n) for n in re.findall(r"^\[(\d+)\]", sources, re.M)}
        assert cited <= listed == set(range(1, len(listed) + 1)), key
        for line in out.splitlines():
            # one long word (a SMILES, an address) stays whole
            assert len(line) <= 88 or len(line.split()) <= 3, line


def test_oil_has_its_ranges_and_its_watch_list(capsys):
    status, out, _ = said(capsys, "peppermint", "oil")
    assert status == 0
    published = section(out, "Published composition")
    assert published.startswith("  menthol, 2216-51-5: 30 to 55 %\n")
    assert "pulegone: liver" in section(out, "Watched for")


def test_a_name_of_several_lists_them_and_a_choice_opens_one(capsys):
    status, out, _ = said(capsys, "lime")
    assert status == 0
    assert "“lime” may mean 2 things" in out
    assert "  2. lime (distilled), CAS 8008-26-2 (oil: " in out
    status, out, _ = said(capsys, "lime", "--choice", "2")
    assert (status, out.splitlines()[0]) == (0, "lime (distilled) oil, CAS 8008-26-2")


REFUSED = [
    (["mentol"], r"no substance and no oil called 'mentol'\. Nearest to it: menthol;"),
    (["1490-04-7"], r"its check digit is wrong\. Nearest to it: 1490-04-6"),
    ([], r"nothing is named\. Write a name"),
    (["zzqqy"], r"Try a CAS number or another name"),
    (["lime", "--choice", "3"], r"no choice 3 for 'lime'\. Choose from 1 to 2"),
    (["lime", "--choice", "0"], r"no choice 0"),
    (["lime", "--tags"], r"--tags counts whole tables"),
]


@pytest.mark.parametrize(("arguments", "message"), REFUSED)
@pytest.mark.parametrize("form", [[], ["--json"]], ids=["text", "json"])
def test_what_cannot_be_answered_is_said_in_one_line(capsys, arguments, message, form):
    status, out, err = said(capsys, *arguments, *form)
    assert (status, out) == (2, "")
    assert re.search(message, err)
    assert err.count("\n") == 1


def test_json_is_the_entry(capsys):
    status, out, _ = said(capsys, "eucalyptol", "--json")
    document = json.loads(out)
    assert status == 0
    assert (document["schema"], document["asked"]) == (1, "eucalyptol")
    cineole = document["substance"]
    assert (cineole["cas"], cineole["listed"]) == ("470-82-6", True)
    entry = substance_entry("470-82-6")
    assert [q["name"] for q in cineole["properties"]] == [
        q.name for q in entry.properties
    ]
    figure = cineole["properties"][0]["figures"][0]
    assert figure["place"]["source"] in document["sources"]


def test_json_of_several(capsys):
    _, out, _ = said(capsys, "lime", "--json")
    assert [one["kind"] for one in json.loads(out)["choices"]] == ["oil", "oil"]


def test_tags_count_every_table_by_hand(capsys):
    """Counted in the CSV files without our reader."""
    status, out, _ = said(capsys, "--tags")
    assert status == 0
    lines = {line.split()[0]: line.split()[1:3] for line in out.splitlines()[1:]}
    rows = memory = 0
    for table in reference.tags():
        with (ROOT / "reference" / f"{table}.csv").open(encoding="utf-8") as file:
            tags = [row["tag"] for row in csv.DictReader(file)]
        assert lines[table] == [str(len(tags)), str(tags.count("memory"))]
        rows, memory = rows + len(tags), memory + tags.count("memory")
    assert lines["total"] == [str(rows), str(memory)]
    _, out, _ = said(capsys, "--tags", "--json")
    assert json.loads(out)["total"]["memory"] == memory


@pytest.mark.parametrize("text", ["$(x)", "<b>", "%s", "{0}", "é" * 100, "a b c d"])
def test_nonsense_ends_in_a_sentence(capsys, text):
    status, _, err = said(capsys, text)
    assert status == 2
    assert "Traceback" not in err


def test_it_imports_nothing_heavy():
    """No structure is drawn and no page built for a text."""
    done = subprocess.run(
        [sys.executable, "-X", "importtime", "-m", "blendcheck", "reference", "lime"],
        cwd=ROOT,
        env=os.environ | {"PYTHONIOENCODING": "utf-8"},
        capture_output=True,
        encoding="utf-8",
        timeout=100,
        check=True,
    )
    tops = set(re.findall(r"\|\s+([\w]+)", done.stderr))
    assert "blendcheck" in tops
    assert tops & {"rdkit", "pandas", "numpy", "streamlit", "altair"} == set()
