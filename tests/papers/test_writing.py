"""The command, its files, and the renderings that need no typesetter."""

import json
import os
import re
import subprocess
import sys
from html.parser import HTMLParser

import pytest

from blendcheck.cli import main
from blendcheck.demo import write_demo
from blendcheck.papers import KINDS, make
from blendcheck.papers.content import texts
from blendcheck.papers.plain_text import plain
from blendcheck.papers.web import html
from tests.papers.makers import demo, squeezed, words_of

WHEN = ("--on", "2026-11-25", "--time", "14:05")
CARD = "north-gale-strong-peppermint-and-eucalyptus-tablets-card.pdf"


@pytest.fixture
def folder(tmp_path):
    write_demo(tmp_path / "demo")
    return tmp_path


def run(folder, *arguments, recipe="north-gale"):
    out = str(folder / "out")
    path = str(folder / "demo" / f"{recipe}.toml")
    return main(["papers", path, *WHEN, "--out", out, *arguments])


# -- the command -------------------------------------------------------------------


def test_one_command_makes_a_card(folder, capsys):
    assert run(folder) == 1  # a limit is over, as in check
    said = capsys.readouterr()
    assert said.out == f"{folder / 'out' / CARD}\n"
    assert said.err == ""
    data = (folder / "out" / CARD).read_bytes()
    assert data.startswith(b"%PDF")
    assert "Keep away from babies and children" in words_of(data)


def test_the_same_command_gives_the_same_bytes(folder):
    run(folder)
    first = (folder / "out" / CARD).read_bytes()
    run(folder, "--replace")
    assert (folder / "out" / CARD).read_bytes() == first


def test_nothing_is_overwritten_unasked(folder, capsys):
    run(folder)
    (folder / "out" / CARD).write_bytes(b"mine")
    assert run(folder, "--kind", "card", "--kind", "batch") == 2
    assert "nothing is overwritten" in capsys.readouterr().err
    assert [p.name for p in (folder / "out").iterdir()] == [CARD]
    assert (folder / "out" / CARD).read_bytes() == b"mine"


@pytest.mark.parametrize("form", ["pdf", "html", "md", "txt"])
def test_every_kind_in_every_format(folder, form):
    assert run(folder, "--kind", "all", "--format", form, recipe="slack-tide") == 0
    names = sorted(p.name for p in (folder / "out").iterdir())
    assert len(names) == len(KINDS)
    assert all(name.endswith(f".{form}") for name in names)


def test_what_cannot_be_made_is_said_and_the_others_are_written(folder, capsys):
    assert run(folder, "--kind", "all") == 2
    said = capsys.readouterr()
    assert len(said.out.splitlines()) >= 5
    assert "blendcheck: label: the label is not made" in said.err
    assert len(list((folder / "out").iterdir())) == 5


def test_a_file_can_be_named(folder):
    out = folder / "deep" / "mine.html"
    assert run(folder, "--format", "html", "--out", str(out)) == 1
    assert out.read_text(encoding="utf-8").startswith("<!DOCTYPE html>")


def test_one_file_for_two_papers_is_refused(folder, capsys):
    arguments = ("--kind", "card", "--kind", "batch", "--out", str(folder / "x.pdf"))
    assert run(folder, *arguments) == 2
    assert "is one file, and 2 papers are to be written" in capsys.readouterr().err


@pytest.mark.parametrize("name", ["x.pdf", "x.HTML"])
def test_a_file_that_ends_like_another_format_is_refused(folder, capsys, name):
    assert run(folder, "--format", "txt", "--out", str(folder / name)) == 2
    said = capsys.readouterr().err
    assert "ends like another format than txt" in said
    assert not (folder / name).exists()


def test_a_folder_that_cannot_be_written_to(folder, capsys):
    (folder / "file").write_text("x")
    assert run(folder, "--out", str(folder / "file" / "below")) == 2
    assert "the papers cannot be written to" in capsys.readouterr().err


@pytest.mark.parametrize("text", ["25:00", "two", "14", "14:05:99"])
def test_a_time_that_is_none_is_refused(folder, capsys, text):
    status = run(folder, "--time", text)
    if text == "14":  # an hour alone is a time
        assert status == 1
    else:
        assert status == 2
        assert f'"{text}" is not a time' in capsys.readouterr().err


def test_a_recipe_that_cannot_be_read(folder, capsys):
    (folder / "demo" / "north-gale.toml").write_text("name = 1,5\n")
    assert run(folder) == 2
    error = capsys.readouterr().err
    assert error.startswith("blendcheck: ")
    assert "Traceback" not in error


def test_json_names_files_content_and_what_was_left_off(folder, capsys):
    assert run(folder, "--json", "--kind", "label", "--kind", "batch") == 2
    found = json.loads(capsys.readouterr().out)
    assert found["schema"] == 1
    assert found["at"] == "2026-11-25T14:05"
    assert found["outcome"] == "over"
    assert [one["kind"] for one in found["papers"]] == ["batch"]
    assert found["papers"][0]["sections"][1]["title"] == "Limits"
    assert [one["kind"] for one in found["not_made"]] == ["label"]


def test_texts_stand_in_the_recipe_and_in_the_workshop(folder):
    shelf = folder / "demo" / "materials.toml"
    text = shelf.read_text(encoding="utf-8")
    line = 'name = "Kelpmarrow Workshop"\n'
    assert line in text
    more = 'where = "The Slip, Kelpmarrow"\npoison_line = "555 0100"\n'
    shelf.write_text(text.replace(line, line + more), encoding="utf-8")
    recipe = folder / "demo" / "slack-tide.toml"
    words = (
        '\n[papers]\ntitle = "Slack tide"\nlot = "ST-7"\nbest_before = "2027-05-25"\n'
    )
    recipe.write_text(recipe.read_text(encoding="utf-8") + words, encoding="utf-8")
    for form in ("pdf", "txt"):
        run(
            *(folder, "--kind", "card", "--kind", "label", "--format", form),
            *("--replace", "--out", str(folder / form)),
            recipe="slack-tide",
        )
        found = ""
        for path in sorted((folder / form).iterdir()):
            data = path.read_bytes()
            found += words_of(data) if form == "pdf" else squeezed(data.decode())
        for wanted in ("The Slip, Kelpmarrow", "555 0100", "ST-7", "2027-05-25"):
            assert wanted in found


def test_typst_is_imported_for_nothing_else(folder):
    """A check of a recipe, and a paper as text, start without the typesetter."""
    recipe = str(folder / "demo" / "slack-tide.toml")
    for command, there in (
        (["check", recipe], False),
        (["papers", recipe, "--format", "txt", "--out", str(folder / "o")], False),
        (["papers", recipe, "--out", str(folder / "o")], True),
    ):
        done = subprocess.run(
            [sys.executable, "-X", "importtime", "-m", "blendcheck", *command],
            env=os.environ,
            capture_output=True,
            encoding="utf-8",
            timeout=100,
            check=False,
        )
        assert done.returncode == 0, done.stderr[-500:]
        loaded = set(re.findall(r"\|\s+([\w.]+)$", done.stderr, re.M))
        assert ("typst" in loaded) is there
        assert ("blendcheck.papers" in loaded) is (command[0] == "papers")


# -- HTML and text -----------------------------------------------------------------


class Outline(HTMLParser):
    def __init__(self, source):
        super().__init__()
        self.seen, self.open, self.text = [], [], ""
        self.feed(source)

    def handle_starttag(self, tag, attrs):
        self.seen.append((tag, dict(attrs)))
        if tag not in ("meta",):
            self.open.append(tag)

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        self.text += f" {data}"


@pytest.mark.parametrize("kind", KINDS)
def test_html_is_whole_and_needs_nothing_else(kind):
    source = html(make(kind, demo(channel="gift")))
    found = Outline(source)
    assert found.open == []
    names = [tag for tag, _ in found.seen]
    assert names.count("h1") == 1
    assert {"script", "link", "img", "iframe"}.isdisjoint(names)
    assert "http" not in source
    assert ("html", {"lang": "en"}) in found.seen
    tables = names.count("table")
    assert names.count("thead") == names.count("tbody") == tables
    assert all(
        attrs.get("scope") in ("col", "row") for tag, attrs in found.seen if tag == "th"
    )


@pytest.mark.parametrize("kind", KINDS)
def test_html_and_text_say_all_that_the_paper_says(kind):
    paper = make(kind, demo(channel="gift"))
    read = squeezed(Outline(html(paper)).text)
    written = squeezed(plain(paper))
    for text in texts(paper):
        assert squeezed(text) in read
        assert squeezed(text) in written
