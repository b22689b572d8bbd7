"""The command line: exit statuses, what is printed, and one clear message for nonsense.

The statuses are the three that the README promises: 0 where no limit that counts is
over, straddling or unknown, 1 where one is, 2 for input that cannot be used.
"""

import json
import os
import re
import subprocess
import sys
from datetime import date
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from blendcheck import __version__
from blendcheck.cli import main
from blendcheck.demo import MATERIALS, demo_files, write_demo

RECIPES = [name for name in demo_files() if name != MATERIALS]
ON = ("--on", "2026-11-25")

SHELF = """
[workshop]
scale = "0.1 g"

[[material]]
id = "base"
name = "Bicarbonate"
kind = "solid"
cas = "144-55-8"

[[material]]
id = "mint"
name = "Mint oil"
kind = "essential oil"
lot = [{ lot = "A1" }, { lot = "A2" }]

[[material]]
id = "rose"
name = "Rose oil"
kind = "essential oil"
flash_point = "60 °C closed cup"
cap = [{ scheme = "standard", printed = "5 %" }]

[[material]]
id = "thin"
name = "Thin oil"
kind = "essential oil"
dilution = { percent = "10 %", diluent = "gone", papers_describe = "undiluted" }

[[material]]
id = "spirit"
name = "Spirit"
kind = "alcohol"
leaves_on_drying = "100 %"

[[stock]]
id = "one"
line = [{ stock = "two", amount = "1 part" }]

[[stock]]
id = "two"
line = [
  { stock = "one", amount = "1 part" },
  { material = "rose", amount = "1 part" },
]
"""

BASE = '[[line]]\nmaterial = "base"\namount = "95 g"\n'
PROCESS = '[process]\nroom = "17 °C"\nignition = []\n'


def line(what, amount, *more):
    return "\n".join(("[[line]]", what, f'amount = "{amount}"', *more, ""))


def rose(amount):
    return line('material = "rose"', amount)


@pytest.fixture
def shed(tmp_path, monkeypatch):
    """A folder with a materials file, which is where the commands run."""
    monkeypatch.chdir(tmp_path)
    Path("materials.toml").write_text(SHELF, encoding="utf-8")
    return tmp_path


def write(text, name="recipe.toml"):
    Path(name).write_text(f'name = "Test"\n{text}', encoding="utf-8")
    return name


def run(capsys, *arguments):
    """Return status, what went to the screen and what went to the error stream."""
    status = main([str(a) for a in arguments])
    streams = capsys.readouterr()
    return status, streams.out, streams.err


# -- exit statuses -----------------------------------------------------------------

STATUS = {
    "windbreak.toml": 0,  # within, at half the strength
    "lee-shore.toml": 0,  # within, with a blend that can be estimated
    "slack-tide.toml": 0,  # within
    "white-squall.toml": 1,  # may be over
    "north-gale.toml": 1,  # over
    "porch-balm.toml": 1,  # over
    "driftwood.toml": 1,  # not known
    "fair-wind.toml": 1,  # not known
}


@pytest.fixture(scope="module")
def demo(tmp_path_factory):
    folder = tmp_path_factory.mktemp("demo")
    write_demo(folder)
    return folder


@pytest.mark.parametrize(("name", "status"), STATUS.items())
@pytest.mark.parametrize("form", [(), ("--json",), ("--steps",)])
def test_the_status_of_each_demo_recipe(capsys, demo, name, status, form):
    found, out, err = run(capsys, "check", demo / name, *ON, *form)
    assert (found, err) == (status, "")
    assert out


def test_every_demo_recipe_has_its_status():
    assert set(STATUS) == set(RECIPES)


def test_comparing_is_zero_only_if_all_are_within(capsys, demo):
    within, over = demo / "slack-tide.toml", demo / "north-gale.toml"
    assert run(capsys, "compare", within, within, *ON)[0] == 0
    assert run(capsys, "compare", within, over, *ON)[0] == 1


def test_status_and_json_agree(capsys, demo):
    for name in RECIPES:
        status, out, _ = run(capsys, "check", demo / name, *ON, "--json")
        assert (json.loads(out)["outcome"] == "within") is (status == 0)


def test_without_a_date_it_is_todays(capsys, demo):
    before = date.today().isoformat()  # noqa: DTZ011  # as the maker's calendar says
    _, out, _ = run(capsys, "check", demo / "slack-tide.toml", "--json")
    assert before <= json.loads(out)["on"]


def test_another_materials_file_takes_the_place_of_the_recipes_own(capsys, shed):
    recipe = write(BASE + rose("5 g") + PROCESS)
    assert run(capsys, "check", recipe, *ON)[0] == 0
    Path("strict.toml").write_text(SHELF.replace("5 %", "4 %"), encoding="utf-8")
    assert run(capsys, "check", recipe, *ON, "--materials", "strict.toml")[0] == 1


# -- what is printed ---------------------------------------------------------------


def test_the_plain_text_leads_with_what_stops_the_maker(capsys, demo):
    _, out, _ = run(capsys, "check", demo / "north-gale.toml", *ON)
    titles = ["What stops it", "What is open", "Within", "Weighing list", "Facts"]
    places = [out.index(f"\n{title}\n") for title in titles]
    assert places == sorted(places)
    assert out.index("Cautions") > places[-1]
    assert "Peppermint oil is at least 2.5 % of the finished piece" in out


@pytest.mark.parametrize("name", RECIPES)
def test_sentences_fit_the_screen_and_hold_no_colour(capsys, demo, name):
    _, out, _ = run(capsys, "check", demo / name, *ON)
    assert "\x1b" not in out
    told = [x for x in out.splitlines() if x.startswith(("* ", "  "))]
    assert told
    assert max(map(len, told)) <= 88
    # a number and its unit stay on one line
    assert not any(re.match(r"\s+(%|g|K|°C)\b", x) for x in out.splitlines())


@pytest.mark.parametrize("name", RECIPES)
def test_the_words_that_may_not_be_said_are_not_said(capsys, demo, name):
    _, out, _ = run(capsys, "check", demo / name, *ON)
    said = set(re.findall(r"[a-z]+", out.casefold()))
    assert not said & {"safe", "approved", "compliant", "passed", "score", "grade"}


def test_steps_print_the_arithmetic(capsys, shed):
    recipe = write(BASE + rose("5 g") + PROCESS)
    _, out, _ = run(capsys, "check", recipe, *ON, "--steps")
    (worked,) = [x for x in out.splitlines() if "Rose oil, documented" in x]
    left, right = worked.split(": ", 1)[1].rsplit("=", 1)
    assert right.strip() == "5 %"
    assert {"5", "100"} <= set(re.findall(r"[0-9.]+", left))


def test_the_most_is_printed_with_what_limits_it_and_what_has_no_number(capsys, shed):
    caps = 'printed = "5 %" }, { scheme = "other", printed = "N/A" }]'
    text = SHELF.replace('printed = "5 %" }]', caps)
    Path("materials.toml").write_text(text, encoding="utf-8")
    recipe = write(BASE + rose("5 g") + PROCESS)
    _, out, _ = run(capsys, "check", recipe, *ON)
    plain = " ".join(out.split())
    assert (
        "Rose oil, finished mass held: at most 5 g (5 %), limited by Rose oil." in plain
    )
    assert "No number is stated, so nothing is held, for Rose oil." in plain


def test_version_and_help(capsys):
    for arguments in (["--version"], ["--help"], ["check", "--help"]):
        with pytest.raises(SystemExit) as stopped:
            main(arguments)
        assert stopped.value.code == 0
    assert __version__ in capsys.readouterr().out


def test_the_demo_is_written_and_listed(capsys, tmp_path):
    status, out, _ = run(capsys, "demo", tmp_path / "new", "--json")
    assert status == 0
    written = {Path(one).name for one in json.loads(out)["files"]}
    assert written == set(demo_files())
    again, _, err = run(capsys, "demo", tmp_path / "new")
    assert again == 2
    assert "nothing is overwritten" in err


# -- nonsense -----------------------------------------------------------------------

PLANS = 'pieces = 10\npiece_mass = "10 g"\n'

REFUSED = {
    "a material that is not there": (
        BASE + line('material = "mnt"', "5 g"),
        (
            'recipe.toml, line[2]: there is no material "mnt". The materials file has: '
            "base, mint, rose, spirit, thin"
        ),
    ),
    "a stock blend that is not there": (
        BASE + line('stock = "three"', "5 g"),
        (
            'recipe.toml, line[2]: there is no stock blend "three". '
            "The files have: one, two"
        ),
    ),
    "a diluent that is not there": (
        BASE + line('material = "thin"', "5 g"),
        (
            'recipe.toml, line[2], diluent of "thin": there is no material "gone". '
            "The materials file has: base, mint, rose, spirit, thin"
        ),
    ),
    "stock blends in a circle": (
        BASE + line('stock = "one"', "5 g"),
        (
            "recipe.toml: a stock blend contains itself: one → two → one. Take one of "
            "these "
            "lines out"
        ),
    ),
    "no lot where there are several": (
        BASE + line('material = "mint"', "5 g"),
        (
            "recipe.toml, line[2]: Mint oil has several lots. Say which lot is used; "
            "the "
            "file has: A1, A2"
        ),
    ),
    "a lot that is not there": (
        BASE + line('material = "mint"', "5 g", 'lot = "A3"'),
        (
            'recipe.toml, line[2]: Mint oil has no lot "A3". Say which lot is used; '
            "the "
            "file "
            "has: A1, A2"
        ),
    ),
    "a lot without quotes": (
        BASE + line('material = "mint"', "5 g", "lot = 7"),
        (
            "recipe.toml, line 8, line[2].lot: the lot 7 is written without quotes. "
            "Write "
            'lots in quotes, exactly as printed: lot = "7"'
        ),
    ),
    "drops without a density": (
        BASE + rose("20 drops"),
        (
            "recipe.toml, line[2]: a drop of Rose oil has not been weighed. Weigh one "
            "(better: twenty of them, divided by twenty) or enter its density"
        ),
    ),
    "a volume without a density": (
        BASE + rose("5 mL"),
        (
            "recipe.toml, line[2]: Rose oil is measured by volume but its density is "
            "not "
            "entered. Weigh it, or enter the density from the supplier's paper"
        ),
    ),
    "a cup that was not weighed": (
        BASE + rose("2 cups"),
        (
            "recipe.toml, line[2]: a cup of Rose oil has not been weighed. Weigh one "
            "(better: twenty of them, divided by twenty)"
        ),
    ),
    "a negative amount": (
        BASE + rose("-5 g"),
        (
            'recipe.toml, line 7, line[2].amount: "-5 g" starts with a minus sign. '
            "Write "
            "an "
            "amount like 10 g, 5 mL, 20 drops or 2 %"
        ),
    ),
    "a decimal comma": (
        BASE + rose("0,5 g"),
        (
            'recipe.toml, line 7, line[2].amount: the comma in "0,5 g" may make it '
            "0.5 or "
            "0 "
            "and 5. Write decimals with a point, and thousands without a mark"
        ),
    ),
    "an ounce of neither kind": (
        BASE + rose("1 oz"),
        (
            'recipe.toml, line 7, line[2].amount: "1 oz" does not say weight or fluid '
            "ounces. Write oz wt, US fl oz or imp fl oz"
        ),
    ),
    "an amount without quotes": (
        BASE + '[[line]]\nmaterial = "rose"\namount = 5 g\n',
        (
            'recipe.toml, line 7: "amount = 5 g" has a text or a figure with its unit '
            'without quotes. Put it in quotes, like amount = "60 g"'
        ),
    ),
    "a percent above a hundred": (
        BASE + rose("120 % of the finished product"),
        (
            'recipe.toml, line 7, line[2].amount: "120 % of the finished product" '
            "must be "
            "between 0 and 100 %. Compare it with the paper, digit by digit"
        ),
    ),
    "percents that leave no room": (
        PLANS
        + line('material = "base"', "60 % of the finished product")
        + rose("50 % of the finished product"),
        None,
    ),
    "percents of no known mass": (
        BASE
        + rose("5 % of the finished product")
        + line('material = "base"', "1 part"),
        None,
    ),
    "nothing that stays": (
        line('material = "spirit"', "50 g"),
        (
            "recipe.toml: it is not certain that anything is left of this recipe "
            "when it "
            "is "
            "dry (0 g): enter how much goes in, and how much of it leaves on drying"
        ),
    ),
    "no lines": (
        "",
        "recipe.toml: the recipe has no lines. Add what goes in, with amounts",
    ),
    "a piece of no mass": (
        'piece_mass = "0 g"\n' + BASE,
        "recipe.toml: piece_mass is 0 g. Weigh it, or leave it out",
    ),
    "no pieces": (
        "pieces = 0\n" + BASE,
        "recipe.toml, line 2, pieces: pieces = 0 must be at least 1",
    ),
    "a dry volume": (
        'dry_mass = "5 L"\n' + BASE,
        "recipe.toml: dry_mass must be weighed. Write it in grams",
    ),
    "a field that does not exist": (
        BASE + line('material = "rose"', "5 g", 'ammount = "5 g"'),
        (
            'recipe.toml, line 8, line[2].ammount: there is no field "ammount" here. '
            "Did "
            "you "
            'mean "amount"?'
        ),
    ),
    "a category of nobody": (
        BASE + '[[category]]\nscheme = "standard"\ncategory = "9"\n',
        None,
    ),
    "a materials file that is not there": (
        'materials = "other.toml"\n' + BASE,
        (
            'recipe.toml: it names the materials file "other.toml", and there is no '
            'other.toml. Correct materials = "..." in the recipe, or name the file '
            "with "
            "--materials"
        ),
    ),
}


@pytest.mark.parametrize("case", REFUSED)
def test_a_recipe_that_cannot_be_used_gets_one_message_with_place_and_fix(
    capsys, shed, case
):
    text, message = REFUSED[case]
    status, out, err = run(capsys, "check", write(text), *ON)
    assert (status, out) == (2, "")
    assert err.count("\n") == 1
    assert err.startswith("blendcheck: recipe.toml")
    if message is not None:
        assert err == f"blendcheck: {message}\n"


def test_each_message_says_what_to_do():
    without_fix = {"no pieces"}
    for case, (_, message) in REFUSED.items():
        if message is not None and case not in without_fix:
            told = message.split(": ", 1)[1]
            assert re.search(r"[.:?] ?[A-Za-z]", told), case


FILES = {
    "missing.toml": "missing.toml: there is no such file. Check the name and the "
    "folder",
    "folder": "folder: this is a folder. Name a file in it",
    "random.toml": "random.toml: the file is not in UTF-8 (first in line 1). Save it "
    "again with the encoding UTF-8",
    "zeros.toml": "zeros.toml: the file is not a text. Give the TOML file",
    "paper.pdf": "paper.pdf: the file is a PDF. Give the TOML file",
    "sheet.xlsx": "sheet.xlsx: the file is a spreadsheet, a word processor file or an "
    "archive. Give the TOML file",
    "empty.toml": "empty.toml: the file is empty. Is it the right file?",
    "materials.toml": "materials.toml: this is a materials file, not a recipe. Give "
    "the "
    'recipe; it names its materials file itself (materials = "...")',
    "words.toml": 'words.toml, line 1: "two cups of bicarbonate" is not '
    '"name = value". Write it like '
    'amount = "60 g"; a remark of your own starts with #',
    "other.toml": "other.toml: this is not a recipe: it has neither a name nor a line "
    "of one. Give a recipe file; the README shows one",
}


@pytest.fixture
def drawer(shed):
    Path("folder").mkdir()
    Path("random.toml").write_bytes(b"\xff\xc3\x28 amount")
    Path("zeros.toml").write_bytes(b"name = 1\0\0")
    Path("paper.pdf").write_bytes(b"%PDF-1.7\n")
    Path("sheet.xlsx").write_bytes(b"PK\x03\x04rest")
    Path("empty.toml").write_text("")
    Path("words.toml").write_text("two cups of bicarbonate\n")
    Path("other.toml").write_text("colour = 'blue'\n")
    write(BASE)
    return shed


@pytest.mark.parametrize(("name", "message"), FILES.items())
def test_a_file_that_is_not_a_recipe_is_named(capsys, drawer, name, message):
    status, out, err = run(capsys, "check", name, *ON)
    assert (status, out) == (2, "")
    assert err == f"blendcheck: {message}\n"


@pytest.mark.parametrize(
    ("name", "message"),
    [
        ("missing.toml", FILES["missing.toml"]),
        ("folder", FILES["folder"]),
        ("random.toml", FILES["random.toml"]),
        (
            "recipe.toml",
            (
                "recipe.toml: this is a recipe, not a materials file. Give the file "
                "with "
                "the [[material]] tables"
            ),
        ),
    ],
)
def test_a_materials_file_that_cannot_be_used_is_named(capsys, drawer, name, message):
    status, _, err = run(capsys, "check", "recipe.toml", *ON, "--materials", name)
    assert (status, err) == (2, f"blendcheck: {message}\n")


@pytest.mark.parametrize(
    ("day", "message"),
    [
        (
            "03/04/25",
            (
                '"03/04/25" does not say which is the day, the month or the year. '
                "Write "
                "the "
                "date like 2025-04-03, year first"
            ),
        ),
        (
            "tomorrow",
            '"tomorrow" is not read as a date. Write the date like 2025-04-03',
        ),
        ("2026-02-30", 'there is no day "2026-02-30". Write the date like 2025-04-03'),
        ("", "the date is blank. Write the date like 2025-04-03"),
    ],
)
def test_a_date_that_is_none_is_the_fault_of_the_option(capsys, drawer, day, message):
    for command in (
        ["check", "recipe.toml"],
        ["compare", "recipe.toml", "recipe.toml"],
    ):
        status, _, err = run(capsys, *command, "--on", day)
        assert (status, err) == (2, f"blendcheck: --on: {message}\n")


@pytest.mark.parametrize(
    ("count", "message"),
    [
        (1, "1 recipe to compare. Name 2 to 8 recipes"),
        (9, "9 recipes to compare. Name 2 to 8 recipes"),
    ],
)
def test_one_or_nine_recipes_are_not_compared(capsys, drawer, count, message):
    status, out, err = run(capsys, "compare", *["recipe.toml"] * count, *ON)
    assert (status, out, err) == (2, "", f"blendcheck: {message}\n")


def test_a_recipe_that_fails_among_others_is_named(capsys, drawer):
    status, out, err = run(capsys, "compare", "recipe.toml", "missing.toml", *ON)
    assert (status, out, err) == (2, "", f"blendcheck: {FILES['missing.toml']}\n")


@pytest.mark.parametrize("port", ["0", "65536", "-1"])
def test_a_port_that_is_none_is_refused(capsys, port):
    status, _, err = run(capsys, "page", f"--port={port}")
    assert status == 2
    assert "is not a port. Choose one" in err


@pytest.mark.parametrize(
    "arguments",
    [[], ["nonsense"], ["check"], ["check", "a", "b"], ["page", "--port", "x"]],
)
def test_a_command_that_does_not_exist_ends_with_2(capsys, arguments):
    with pytest.raises(SystemExit) as stopped:
        main(arguments)
    assert stopped.value.code == 2
    assert "usage: blendcheck" in capsys.readouterr().err


def test_stock_blends_inside_one_another_without_end_are_refused(capsys, shed):
    def nested(count, inner):
        text = SHELF[: SHELF.index("[[stock]]")]
        for n in range(count):
            what = f'stock = "s{n - 1}"' if n else 'material = "rose"'
            parts = ", ".join([f'{{ {what}, amount = "1 part" }}'] * inner)
            text += f'[[stock]]\nid = "s{n}"\nline = [{parts}]\n'
        Path("materials.toml").write_text(text, encoding="utf-8")
        recipe = write(BASE + line(f'stock = "s{count - 1}"', "5 g") + PROCESS)
        return run(capsys, "check", recipe, *ON)

    status, _, err = nested(600, 1)
    assert status == 2
    assert "more than 50 stock blends lie inside one another" in err
    status, _, err = nested(24, 2)
    assert status == 2
    assert "16777217 lines, more than 10000" in err  # 2 to the 24th, and the base
    assert nested(40, 1)[0] == 0


# -- whatever is in the file, no traceback ----------------------------------------

JUNK = ['"', "[", "]", "{", "}", "=", "#", "\n", "0", "-", "%", "∞", "\\", "é", "1e9"]


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(data=st.data())
def test_a_damaged_file_is_checked_or_refused_and_never_a_traceback(
    data, tmp_path_factory
):
    """Lines taken out, doubled and swapped, characters put in, amounts exchanged."""
    folder = tmp_path_factory.getbasetemp() / "damaged"
    folder.mkdir(exist_ok=True)
    names = data.draw(st.sampled_from(RECIPES)), MATERIALS
    for name in names:
        lines = demo_files()[name].split("\n")
        for _ in range(data.draw(st.integers(0, 3))):
            at = data.draw(st.integers(0, len(lines) - 1))
            what = data.draw(
                st.sampled_from(["out", "twice", "swap", "junk", "figure"])
            )
            other = data.draw(st.integers(0, len(lines) - 1))
            if what == "out":
                lines[at] = ""
            elif what == "twice":
                lines.insert(at, lines[at])
            elif what == "swap":
                lines[at], lines[other] = lines[other], lines[at]
            elif what == "junk":
                place = data.draw(st.integers(0, len(lines[at])))
                junk = data.draw(st.sampled_from(JUNK))
                lines[at] = lines[at][:place] + junk + lines[at][place:]
            else:
                odd = data.draw(
                    st.sampled_from(
                        ["0 g", "0 %", "100 %", "1-2 drops", "N/A", "", "9"]
                    )
                )
                lines[at] = re.sub(r'"[^"]*"', f'"{odd}"', lines[at], count=1)
        (folder / name).write_text("\n".join(lines), encoding="utf-8")
    form = data.draw(st.sampled_from(["--json", "--steps"]))
    assert main(["check", str(folder / names[0]), *ON, form]) in (0, 1, 2)


# -- as a process ---------------------------------------------------------------------


def started(*arguments, **more):
    return subprocess.run(
        [sys.executable, "-m", "blendcheck", *map(str, arguments)],
        capture_output=True,
        check=False,
        **more,
    )


def test_as_a_process_it_ends_with_its_status_and_needs_no_terminal(demo):
    done = started("check", demo / "slack-tide.toml", *ON, "--json")
    assert (done.returncode, done.stderr) == (0, b"")
    assert json.loads(done.stdout)["outcome"] == "within"
    bad = started("check", demo / "none.toml")
    assert (bad.returncode, bad.stdout) == (2, b"")
    assert b"Traceback" not in bad.stderr


def test_names_that_the_screen_cannot_show_do_not_stop_it(demo):
    plain = {
        **os.environ,
        "LC_ALL": "C",
        "PYTHONIOENCODING": "ascii",
        "PYTHONUTF8": "0",
    }
    done = started("check", demo / "driftwood.toml", *ON, env=plain)
    assert (done.returncode, done.stderr) == (1, b"")
    assert "°C" in done.stdout.decode("utf-8")


def test_a_reader_that_stops_early_is_no_error(demo):
    made = subprocess.Popen(
        [
            sys.executable,
            "-m",
            "blendcheck",
            "check",
            demo / "north-gale.toml",
            *ON,
            "--json",
        ],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    )
    assert made.stdout is not None
    assert made.stderr is not None
    made.stdout.read(10)
    made.stdout.close()
    told = made.stderr.read()
    made.stderr.close()
    made.wait(timeout=60)
    assert b"Traceback" not in told
