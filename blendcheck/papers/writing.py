"""Papers into files: names, formats, and nothing overwritten unasked."""

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import asdict, dataclass
from pathlib import Path
from types import MappingProxyType
from typing import Any, Final

from blendcheck.errors import InputError
from blendcheck.papers import make
from blendcheck.papers.content import Kind, Paper
from blendcheck.papers.kept import KeptCheck
from blendcheck.papers.layout import Layout

__all__ = ["MIME", "Made", "as_json", "file_name", "make_all", "rendered", "write"]

MIME: Final[Mapping[str, str]] = MappingProxyType(
    {
        "pdf": "application/pdf",
        "html": "text/html",
        "md": "text/markdown",
        "txt": "text/plain",
    }
)
"""Media type by format."""


def _pdf(paper: Paper, layout: Layout) -> bytes:
    from blendcheck.papers.typeset import pdf

    return pdf(paper, layout)


def _html(paper: Paper, _: Layout) -> bytes:
    from blendcheck.papers.web import html

    return html(paper).encode()


def _md(paper: Paper, _: Layout) -> bytes:
    from blendcheck.papers.plain_text import markdown

    return markdown(paper).encode()


def _txt(paper: Paper, _: Layout) -> bytes:
    from blendcheck.papers.plain_text import plain

    return plain(paper).encode()


_RENDERINGS: Final[Mapping[str, Callable[[Paper, Layout], bytes]]] = MappingProxyType(
    {"pdf": _pdf, "html": _html, "md": _md, "txt": _txt}
)


def rendered(paper: Paper, form: str, layout: Layout) -> bytes:
    """Return a paper in one of the formats.

    Parameters
    ----------
    paper : Paper
        The paper.
    form : str
        ``"pdf"``, ``"html"``, ``"md"`` or ``"txt"``.
    layout : Layout
        Sheet, cards and labels; only PDF has them.

    Raises
    ------
    InputError
        If it does not fit, or has a sign that the font lacks.
    """
    return _RENDERINGS[form](paper, layout)


def file_name(paper: Paper, form: str) -> str:
    """Return a file name that any system takes.

    Parameters
    ----------
    paper : Paper
        The paper.
    form : str
        Its format.

    Examples
    --------
    >>> from blendcheck.papers.content import Paper
    >>> file_name(Paper("card", "", "North gale, strong", (), "", ""), "pdf")
    'north-gale-strong-card.pdf'
    """
    words = re.sub(r"[^a-z0-9]+", "-", paper.about.casefold()).strip("-")
    return f"{words[:60].strip('-') or 'recipe'}-{paper.kind}.{form}"


@dataclass(frozen=True, slots=True)
class Made:
    """Papers that could be made, as bytes, and why others could not.

    Parameters
    ----------
    papers : tuple of (Paper, bytes)
        What was made.
    refused : tuple of (Kind, str)
        What was not, each with the sentence that says why.
    """

    papers: tuple[tuple[Paper, bytes], ...]
    refused: tuple[tuple[Kind, str], ...]


def make_all(kinds: Sequence[Kind], kept: KeptCheck, form: str, layout: Layout) -> Made:
    """Make papers in one format.

    Parameters
    ----------
    kinds : sequence of Kind
        Which papers; each once.
    kept : KeptCheck
        The check that they are made from.
    form : str
        The format.
    layout : Layout
        Sheet, cards and labels.

    Returns
    -------
    Made
        One that cannot be made does not stop the others.
    """
    papers: list[tuple[Paper, bytes]] = []
    refused: list[tuple[Kind, str]] = []
    for kind in dict.fromkeys(kinds):
        try:
            paper = make(kind, kept)
            papers.append((paper, rendered(paper, form, layout)))
        except InputError as error:
            refused.append((kind, str(error)))
    return Made(tuple(papers), tuple(refused))


def as_json(
    made: Made, kept: KeptCheck, form: str, paths: Sequence[Path]
) -> dict[str, Any]:
    """Return what was made as plain data, schema 1.

    Parameters
    ----------
    made : Made
        The papers.
    kept : KeptCheck
        What they were made from.
    form : str
        Their format.
    paths : sequence of Path
        Where each was written.

    Returns
    -------
    dict
        Ready for JSON: the files, the content of each paper, what was left off it,
        and what could not be made.
    """
    return {
        "schema": 1,
        "recipe": kept.name,
        "hash": kept.assessment.hash,
        "on": kept.assessment.case.on.isoformat(),
        "at": kept.at.strftime("%Y-%m-%dT%H:%M"),
        "outcome": str(kept.assessment.outcome),
        "papers": [
            {
                "kind": paper.kind,
                "format": form,
                "path": str(path),
                "title": paper.title,
                "sections": [asdict(section) for section in paper.sections],
                "left_off": list(paper.left_off),
            }
            for path, (paper, _) in zip(paths, made.papers, strict=True)
        ],
        "not_made": [{"kind": kind, "why": why} for kind, why in made.refused],
    }


def write(made: Made, form: str, out: Path, *, replace: bool) -> tuple[Path, ...]:
    """Write papers into files.

    Parameters
    ----------
    made : Made
        The papers.
    form : str
        Their format.
    out : Path
        A folder, made if it is not there; or the file for one paper, which has the
        ending of its format.
    replace : bool
        Whether files of the same name are overwritten.

    Returns
    -------
    tuple of Path
        What was written, in the order of the papers.

    Raises
    ------
    InputError
        ``exists`` if a file is there already, in which case nothing is written;
        ``other-ending`` if a file of another format is named; ``not-written`` if a
        file cannot be written.
    """
    ending = out.suffix.casefold().removeprefix(".")
    named = ending in MIME and not out.is_dir()
    if named and ending != form:
        raise InputError(
            f"{out} ends like another format than {form}",
            f"Name a folder or a file that ends in .{form}, or add --format {ending}",
            code="other-ending",
        )
    if named and len(made.papers) > 1:
        raise InputError(
            f"{out} is one file, and {len(made.papers)} papers are to be written",
            "Name a folder",
            code="one-file",
        )
    targets = {
        (out if named else out / file_name(paper, form)): data
        for paper, data in made.papers
    }
    there = [str(path) for path in targets if path.exists() or path.is_symlink()]
    if there and not replace:
        raise InputError(
            f"already there, and nothing is overwritten: {', '.join(there)}",
            "Name another folder, or add --replace",
            code="exists",
        )
    try:
        for path, data in targets.items():
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(data)
    except OSError as error:
        raise InputError(
            f"the papers cannot be written to {out}: {error.strerror or error}",
            "Name a folder that you may write to",
            code="not-written",
        ) from error
    return tuple(targets)
