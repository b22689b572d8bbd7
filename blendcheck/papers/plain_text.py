"""Papers as plain text and as Markdown."""

import re
from collections.abc import Iterator
from typing import Final

from blendcheck.papers.content import Blanks, Lines, Paper, Part, Table
from blendcheck.textlines import heading, wrapped

__all__ = ["markdown", "plain"]

_BLANK: Final = "_" * 24
_TICK: Final = "[ ] "
_ALWAYS: Final = re.compile(r"[\\`*_{}\[\]<>#|~$&@]")
_ADDRESS: Final = re.compile(r":(?=//)|(?<=www)\.", re.IGNORECASE)
_AT_START: Final = re.compile(r"^([-+=]|[0-9]+[.)])")


def plain(paper: Paper) -> str:
    """Write a paper as plain text.

    Parameters
    ----------
    paper : Paper
        Its content.

    Returns
    -------
    str
        Lines of at most 88 signs; tables as wide as they need.
    """
    lines = [paper.title, "=" * len(paper.title)]
    if paper.names_recipe:
        lines.append(paper.about)
    for section in paper.sections:
        lines += heading(section.title) if section.title else [""]
        for part in section.parts:
            lines += _plain_part(part)
    return "\n".join([*lines, "", wrapped(paper.trace)]) + "\n"


def _plain_part(part: Part) -> Iterator[str]:
    match part:
        case Lines():
            first = {"plain": "", "ticks": _TICK}.get(part.form, "- ")
            for text in part.items:
                yield wrapped(text, " " * len(first), first)
        case Blanks():
            for one in part.items:
                yield f"{one.name}: {one.value or _BLANK}"
        case Table():
            if part.caption:
                yield part.caption
            yield from _columns(part)


def _columns(part: Table) -> Iterator[str]:
    rows = [part.heads, *(_filled(part, row) for row in part.rows)]
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    for row in rows:
        cells = (
            cell.rjust(width) if n in part.numbers else cell.ljust(width)
            for n, (cell, width) in enumerate(zip(row, widths, strict=True))
        )
        yield "  ".join(cells).rstrip()


def _filled(part: Table, row: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(
        "_" * 10 if n in part.fill and not cell else cell for n, cell in enumerate(row)
    )


def markdown(paper: Paper) -> str:
    """Write a paper as Markdown.

    Parameters
    ----------
    paper : Paper
        Its content.

    Returns
    -------
    str
        Text in which nothing that the maker wrote is read as Markdown or HTML.
    """
    lines = [f"# {_md(paper.title)}", ""]
    if paper.names_recipe:
        lines += [_md(paper.about), ""]
    for section in paper.sections:
        if section.title:
            lines += [f"## {_md(section.title)}", ""]
        for part in section.parts:
            lines += [*_md_part(part), ""]
    return "\n".join([*lines, "---", "", _md(paper.trace)]) + "\n"


def _md_part(part: Part) -> Iterator[str]:
    match part:
        case Lines():
            yield from _md_lines(part)
        case Blanks():
            for one in part.items:
                yield f"- {_md(one.name)}: {_md(one.value) or _BLANK}"
        case Table():
            if part.caption:
                yield f"**{_md(part.caption)}**"
                yield ""
            yield _md_row(part.heads)
            yield _md_row(
                tuple("---:" if n in part.numbers else "---" for n in _range(part)),
                raw=True,
            )
            for row in part.rows:
                yield _md_row(_filled(part, tuple(map(_md, row))), raw=True)


def _range(part: Table) -> range:
    return range(len(part.heads))


def _md_lines(part: Lines) -> Iterator[str]:
    first = {"plain": "", "ticks": f"- {_TICK}"}.get(part.form, "- ")
    for n, text in enumerate(part.items):
        if n and not first:
            yield ""
        said = _md(text)
        yield first + (f"**{said}**" if part.tone in ("strong", "lead") else said)


def _md_row(cells: tuple[str, ...], *, raw: bool = False) -> str:
    return f"| {' | '.join(cells if raw else map(_md, cells))} |"


def _md(text: str) -> str:
    """Escape what Markdown may read, so that it is shown as it is.

    CommonMark 0.31.2, section 2.4: a backslash before a sign of punctuation shows
    that sign. Signs that mean something at the start of a line alone are escaped
    there, and addresses so that none becomes a link.
    """
    said = _ADDRESS.sub(r"\\\g<0>", _ALWAYS.sub(r"\\\g<0>", text))
    return _AT_START.sub(lambda found: found[0][:-1] + "\\" + found[0][-1], said)
