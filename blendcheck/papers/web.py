"""Papers as one HTML file that needs nothing else and prints well.

Every text is escaped and set apart from the direction of its surroundings, so that a
name in another script does not turn a line round.
"""

from collections.abc import Iterator
from html import escape
from typing import Final

from blendcheck.papers.content import Blanks, Lines, Paper, Part, Section, Table

__all__ = ["html"]

_STYLE: Final = """
body { font-family: "DejaVu Sans", Verdana, sans-serif; font-size: 11pt;
  line-height: 1.4; color: #000; background: #fff; margin: 2rem auto;
  max-width: 46rem; padding: 0 1rem; overflow-wrap: anywhere; }
h1 { font-size: 1.6rem; line-height: 1.2; margin: 0 0 .3rem 0; }
h2 { font-size: 1.1rem; margin: 1.6rem 0 .5rem 0; border-bottom: 1px solid #767676; }
p { margin: .5rem 0; }
.lead { font-size: 1.5rem; font-weight: 700; }
.strong { font-weight: 700; }
.soft { color: #404040; font-size: .9rem; }
ul.ticks { list-style: "\\2610  "; }
table { border-collapse: collapse; width: 100%; font-size: .92rem; margin: .6rem 0; }
caption { text-align: left; font-weight: 700; padding: .3rem 0; }
th, td { text-align: left; vertical-align: top; padding: .25rem .7rem .25rem 0;
  border-bottom: 1px solid #b0b0b0; }
thead th { border-bottom: 2px solid #000; }
tbody th { font-weight: 400; }
.number { text-align: right; font-variant-numeric: tabular-nums; }
.fill { min-width: 6rem; }
.blank { display: inline-block; min-width: 14rem; border-bottom: 1px solid #000; }
footer { margin-top: 2rem; border-top: 1px solid #767676; }
@media print {
  body { margin: 0; max-width: none; font-size: 10pt; }
  h2, caption, thead { break-after: avoid; }
  tr, li { break-inside: avoid; }
  thead { display: table-header-group; }
}
"""


def html(paper: Paper) -> str:
    """Write a paper as HTML.

    Parameters
    ----------
    paper : Paper
        Its content.

    Returns
    -------
    str
        A whole file in UTF-8, with its style and without any address.
    """
    return "\n".join(_lines(paper)) + "\n"


def _lines(paper: Paper) -> Iterator[str]:
    yield "<!DOCTYPE html>"
    yield '<html lang="en"><head><meta charset="utf-8">'
    yield '<meta name="viewport" content="width=device-width, initial-scale=1">'
    yield f"<title>{escape(paper.title)}</title><style>{_STYLE}</style></head>"
    yield f'<body class="{paper.kind}"><main>'
    yield f'<h1 dir="auto">{escape(paper.title)}</h1>'
    if paper.names_recipe:
        yield f'<p dir="auto">{escape(paper.about)}</p>'
    for section in paper.sections:
        yield from _section(section)
    yield f'</main><footer class="soft"><p>{escape(paper.trace)}</p></footer>'
    yield "</body></html>"


def _section(section: Section) -> Iterator[str]:
    yield "<section>"
    if section.title:
        yield f'<h2 dir="auto">{escape(section.title)}</h2>'
    for part in section.parts:
        yield from _part(part)
    yield "</section>"


def _part(part: Part) -> Iterator[str]:
    match part:
        case Lines():
            yield from _texts(part)
        case Table():
            yield from _table(part)
        case Blanks():
            for one in part.items:
                value = (
                    f'<strong dir="auto">{escape(one.value)}</strong>'
                    if one.value
                    else '<span class="blank">&nbsp;</span>'
                )
                yield f"<p>{escape(one.name)}: {value}</p>"


def _texts(part: Lines) -> Iterator[str]:
    if part.form == "plain":
        for text in part.items:
            yield f'<p class="{part.tone}" dir="auto">{escape(text)}</p>'
        return
    yield f'<ul class="{part.form} {part.tone}">'
    for text in part.items:
        yield f'<li dir="auto">{escape(text)}</li>'
    yield "</ul>"


def _table(part: Table) -> Iterator[str]:
    kinds = [
        ' class="number"'
        if n in part.numbers
        else ' class="fill"'
        if n in part.fill
        else ""
        for n in range(len(part.heads))
    ]
    caption = f"<caption>{escape(part.caption)}</caption>" if part.caption else ""
    yield f"<table>{caption}<thead><tr>"
    for head, kind in zip(part.heads, kinds, strict=True):
        yield f'<th scope="col"{kind}>{escape(head)}</th>'
    yield "</tr></thead><tbody>"
    for row in part.rows:
        cells = [f'<th scope="row" dir="auto">{escape(row[0])}</th>']
        cells += [
            f'<td dir="auto"{kind}>{escape(cell)}</td>'
            for cell, kind in zip(row[1:], kinds[1:], strict=True)
        ]
        yield f"<tr>{''.join(cells)}</tr>"
    yield "</tbody></table>"
