"""The command line: check, compare, papers, reference, demo and page.

Exit status: 0 when no limit that counts is over, straddling or unknown, 1 when one
is, 2 for input that cannot be used, with one message and no traceback.
"""

import argparse
import json
import sys
from collections.abc import Callable, Sequence
from datetime import date, datetime, time
from pathlib import Path
from typing import Any

from blendcheck import __version__
from blendcheck.assess import Assessment, assess
from blendcheck.errors import BlendcheckError, InputError
from blendcheck.files import load
from blendcheck.quantity import read_date
from blendcheck.records.finding import Outcome

__all__ = ["main"]

OK, NOT_SHOWN, BAD_INPUT = 0, 1, 2


def main(argv: Sequence[str] | None = None) -> int:
    """Run the command line.

    Parameters
    ----------
    argv : sequence of str, optional
        Arguments; those of the process by default.

    Returns
    -------
    int
        Exit status.
    """
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(encoding="utf-8", errors="replace")
    arguments = _parser().parse_args(argv)
    run: Callable[[argparse.Namespace], int] = arguments.run
    try:
        return run(arguments)
    except BlendcheckError as error:
        print(f"blendcheck: {error}", file=sys.stderr)
        return BAD_INPUT
    except BrokenPipeError:
        # the reader of a pipe has seen enough
        sys.stderr.close()
        return OK


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="blendcheck",
        description="Checks a scented bath or shower recipe against the caps and "
        "flash points that you entered from supplier papers.",
        epilog="Supplier data, local codes and licensed practice come first.",
    )
    parser.add_argument(
        "--version", action="version", version=f"blendcheck {__version__}"
    )
    commands = parser.add_subparsers(required=True, metavar="COMMAND")

    check = commands.add_parser("check", help="check one recipe")
    check.add_argument("recipe", type=Path, metavar="RECIPE")
    _common(check)
    check.add_argument(
        "--steps", action="store_true", help="print the arithmetic of every limit"
    )
    check.add_argument(
        "--estimates",
        action="store_true",
        help="estimate the blend's flash point and what is in the air as well",
    )
    check.add_argument(
        "--label",
        action="store_true",
        help="work out allergens, hazard classes and words for a label as well",
    )
    check.set_defaults(run=_check)

    compare = commands.add_parser("compare", help="two to eight recipes side by side")
    compare.add_argument("recipes", type=Path, nargs="+", metavar="RECIPE")
    _common(compare)
    compare.set_defaults(run=_compare)

    _papers_parser(commands.add_parser("papers", help="cards, labels and sheets"))

    looked_up = commands.add_parser(
        "reference", help="what the tables say about a substance or an oil"
    )
    looked_up.add_argument("name", nargs="*", metavar="NAME-OR-CAS")
    looked_up.add_argument(
        "--choice", type=int, default=None, help="which one, where a name means several"
    )
    looked_up.add_argument(
        "--tags", action="store_true", help="how much of each table is from memory"
    )
    looked_up.add_argument("--json", action="store_true", help="write JSON")
    looked_up.set_defaults(run=_reference)

    demo = commands.add_parser("demo", help="write the demo recipes into a folder")
    demo.add_argument("folder", type=Path, metavar="FOLDER")
    demo.add_argument("--json", action="store_true", help="list the files as JSON")
    demo.set_defaults(run=_demo)

    page = commands.add_parser("page", help="open the page in the browser")
    page.add_argument(
        "--demo", action="store_true", help="start with the demo recipes loaded"
    )
    page.add_argument("--port", type=int, default=None, help="port on this machine")
    page.set_defaults(run=_page)
    return parser


def _papers_parser(papers: argparse.ArgumentParser) -> None:
    papers.description = (
        "Makes the papers that go with a recipe: gift card, label, batch sheet, safety "
        "note for the file, and a sheet for when a piece was swallowed. Files that are "
        "there already are left as they are, unless --replace is given. The exit "
        "status is that of check; 2 if a paper cannot be made, after the others were "
        "written."
    )
    papers.add_argument("recipe", type=Path, metavar="RECIPE")
    papers.add_argument(
        "--kind",
        action="append",
        choices=("card", "label", "bottle", "batch", "note", "swallowed", "all"),
        help="which paper; may be given several times (default: card)",
    )
    papers.add_argument("--sheet", choices=("a4", "letter"), default="a4")
    papers.add_argument(
        "--cards",
        choices=("8", "4", "folded"),
        default="8",
        help="cards on a sheet, front and back; folded is one that is folded twice",
    )
    papers.add_argument(
        "--labels",
        choices=("small", "medium", "large"),
        default="large",
        help="8, 6 or 4 labels on a sheet; 6, 4 or 2 of a bottle",
    )
    papers.add_argument(
        "--format", choices=("pdf", "html", "md", "txt"), default="pdf", dest="form"
    )
    papers.add_argument(
        "--out",
        type=Path,
        default=Path(),
        metavar="FILE-OR-FOLDER",
        help="where to (default: this folder)",
    )
    papers.add_argument(
        "--replace", action="store_true", help="overwrite files that are there already"
    )
    papers.add_argument(
        "--time",
        default=None,
        metavar="HH:MM",
        help="time of the snapshot, on the day checked for (default: now)",
    )
    _common(papers)
    papers.set_defaults(run=_papers)


def _common(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--materials", type=Path, default=None, help="materials file to use instead"
    )
    parser.add_argument("--on", default=None, help="date to check for, as 2026-11-25")
    parser.add_argument("--json", action="store_true", help="write JSON")


def _day(text: str | None) -> date:
    if text is None:
        return date.today()  # noqa: DTZ011  # the maker's own calendar day
    try:
        return read_date(text).on
    except InputError as error:
        raise error.at("--on") from None


def _assessed(
    path: Path,
    arguments: argparse.Namespace,
    *,
    estimates: bool = False,
    label: bool = False,
) -> Assessment:
    on = _day(arguments.on)
    recipe, materials = load(path, arguments.materials)
    try:
        return assess(recipe, materials, on, estimates=estimates, label=label)
    except InputError as error:
        raise error.at(str(path)) from None
    except BlendcheckError as error:
        raise InputError(str(error), where=str(path)) from None


def _status(outcomes: Sequence[Outcome]) -> int:
    return OK if all(o is Outcome.WITHIN for o in outcomes) else NOT_SHOWN


def _write(document: Any) -> None:  # noqa: ANN401  # whatever json can write
    json.dump(document, sys.stdout, ensure_ascii=False, indent=1)
    sys.stdout.write("\n")


def _check(arguments: argparse.Namespace) -> int:
    assessment = _assessed(
        arguments.recipe,
        arguments,
        estimates=arguments.estimates,
        label=arguments.label,
    )
    if arguments.json:
        from blendcheck.largest import largest
        from blendcheck.report import report

        _write(report(assessment, largest(assessment)))
    else:
        from blendcheck.plain import check_text

        sys.stdout.write(check_text(assessment, steps=arguments.steps))
    return _status([assessment.outcome])


def _compare(arguments: argparse.Namespace) -> int:
    from blendcheck.compare import compare

    assessments = [_assessed(path, arguments) for path in arguments.recipes]
    comparison = compare(assessments)
    if arguments.json:
        from blendcheck.report import compared

        _write(compared(comparison))
    else:
        from blendcheck.plain import compare_text

        sys.stdout.write(compare_text(comparison))
    return _status(comparison.outcomes)


def _moment(arguments: argparse.Namespace) -> datetime:
    """Return when papers are made: now, or the day checked for at the time given."""
    text = arguments.time
    if text is None:
        return datetime.now()  # noqa: DTZ005  # the maker's own clock
    try:
        return datetime.combine(_day(arguments.on), time.fromisoformat(text))
    except ValueError:
        raise InputError(
            f'"{text}" is not a time', "write it like 14:05", where="--time"
        ) from None


def _papers(arguments: argparse.Namespace) -> int:
    from blendcheck.papers import KINDS
    from blendcheck.papers.kept import KeptCheck
    from blendcheck.papers.layout import Layout
    from blendcheck.papers.writing import as_json, make_all, write

    at = _moment(arguments)
    asked = arguments.kind or ["card"]
    kinds = KINDS if "all" in asked else tuple(k for k in KINDS if k in asked)
    assessment = _assessed(
        arguments.recipe, arguments, estimates="note" in kinds, label=True
    )
    layout = Layout(arguments.sheet, arguments.cards, arguments.labels)
    kept = KeptCheck(assessment, at)
    made = make_all(kinds, kept, arguments.form, layout)
    paths = write(made, arguments.form, arguments.out, replace=arguments.replace)
    if arguments.json:
        _write(as_json(made, kept, arguments.form, paths))
    else:
        for path, (paper, _) in zip(paths, made.papers, strict=True):
            sys.stdout.write(f"{path}\n")
            for said in paper.left_off:
                sys.stdout.write(f"  {said}\n")
    for kind, why in made.refused:
        print(f"blendcheck: {kind}: {why}", file=sys.stderr)
    return BAD_INPUT if made.refused else _status([assessment.outcome])


def _reference(arguments: argparse.Namespace) -> int:
    from blendcheck.plain_reference import answer, tags_answer

    name = " ".join(arguments.name)
    if arguments.tags and name:
        raise InputError("--tags counts whole tables", f"leave {name!r} out")
    if arguments.tags:
        said = tags_answer(as_json=arguments.json)
    else:
        said = answer(name, as_json=arguments.json, choice=arguments.choice)
    if isinstance(said, str):
        sys.stdout.write(said)
    else:
        _write(said)
    return OK


def _demo(arguments: argparse.Namespace) -> int:
    from blendcheck.demo import write_demo

    written = write_demo(arguments.folder)
    if arguments.json:
        _write({"schema": 1, "files": [str(path) for path in written]})
    else:
        for path in written:
            sys.stdout.write(f"{path}\n")
    return OK


def _page(arguments: argparse.Namespace) -> int:
    from blendcheck.page import start

    return start(demo=arguments.demo, port=arguments.port)
