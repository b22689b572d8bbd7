"""Put text on the page as text: sentences, lists, tables and messages.

Everything that a maker or a supplier wrote goes through :func:`text` and is
shown character for character. It never reaches a Markdown place, where an image
would be fetched, a dollar sign become mathematics and a bracket a link.
"""

import re
from collections.abc import Iterable, Sequence
from html import escape
from typing import Final

import streamlit as st
from streamlit.delta_generator import DeltaGenerator

__all__ = [
    "STYLE",
    "code_lines",
    "definition",
    "heading",
    "html",
    "ink",
    "items",
    "label",
    "message",
    "paragraph",
    "picture",
    "put_style",
    "strong",
    "table",
    "text",
]

STYLE: Final = """
<style>
.stMainBlockContainer { max-width: 70rem; padding-top: 4rem; }
[data-testid="stExpander"] summary, [data-testid="stExpander"] summary *
  { color: inherit !important; opacity: 1 !important; }
.bc p, .bc li, .bc dd { max-width: 46rem; margin: 0 0 .4rem 0; line-height: 1.5; }
.bc ul, .bc ol { margin: .2rem 0 .4rem 0; padding-left: 1.4rem; }
.bc-lead { font-size: 1.3rem; line-height: 1.45; }
.bc-finding { border-left: 3px solid currentColor; padding-left: .8rem; }
.stMainBlockContainer h2 { font-size: 1.5rem; padding-top: 1rem; }
.bc-finding h3 { font-size: 1.1rem; margin: 0 0 .2rem 0; padding: 0; }
.bc-soft { opacity: .82; }
.bc-message { border: 2px solid currentColor; padding: .5rem .7rem;
  max-width: 46rem; overflow-wrap: anywhere; }
.bc dl { display: grid; grid-template-columns: max-content 1fr;
  column-gap: 1rem; margin: 0; padding: 0; }
.bc dt { font-weight: 600; margin: 0; padding: 0; }
.bc dd { overflow-wrap: anywhere; padding: 0; }
.bc-wide { overflow-x: auto; margin-bottom: .8rem; }
.bc table { border-collapse: collapse; font-size: .95rem; }
.bc caption { text-align: left; caption-side: top; padding: .2rem 0 .4rem 0;
  font-weight: 600; }
.bc th, .bc td { border-bottom: 1px solid rgba(128, 128, 128, .5);
  padding: .25rem .8rem .25rem 0; text-align: left; vertical-align: top; }
.bc tbody th { min-width: 8rem; overflow-wrap: anywhere; }
.bc thead th { border-bottom: 2px solid currentColor; vertical-align: bottom;
  max-width: 11rem; overflow-wrap: anywhere; }
.bc .bc-number { text-align: right; font-variant-numeric: tabular-nums; }
.bc pre { white-space: pre-wrap; overflow-wrap: anywhere; font-size: .85rem;
  margin: 0 0 .6rem 0; background: none; padding: 0; border: 0; }
.bc-picture { width: 100%; height: auto; border: 1px solid #767676;
  background: #fff; }
@media (max-width: 40rem) {
  .bc dl { grid-template-columns: 1fr; }
  .bc dd { margin-bottom: .5rem; }
  .bc thead { position: absolute; clip-path: inset(50%); }
  .bc table, .bc tbody, .bc tr, .bc td, .bc tbody th, .bc caption
    { display: block; width: 100%; }
  .bc tr { border-bottom: 1px solid rgba(128, 128, 128, .5); padding: .4rem 0; }
  .bc th, .bc td { border: 0; padding: .05rem 0; }
  .bc .bc-number { text-align: left; }
  .bc td:empty { display: none; }
  .bc td::before { content: attr(data-head) ": "; opacity: .82; }
}
</style>
"""


def text(value: object) -> str:
    """Return any text so that HTML shows it character for character.

    Parameters
    ----------
    value : object
        What to show.
    """
    return escape(str(value), quote=True)


def label(value: object) -> str:
    """Return a text for a label, where Markdown would be read; signs are escaped.

    Parameters
    ----------
    value : object
        What to show.
    """
    return re.sub(r"([!-/:-@\[-`{-~])", r"\\\1", str(value))


def strong(value: object) -> str:
    """Return a text as HTML in bold.

    Parameters
    ----------
    value : object
        What to show.
    """
    return f"<strong>{text(value)}</strong>"


def put_style() -> None:
    """Give the page its style sheet; once a run."""
    st.html(STYLE)


def ink() -> str:
    """Return the colour of the words in the reader's theme."""
    return "white" if st.context.theme.type == "dark" else "black"


def html(body: str, *, where: DeltaGenerator | None = None) -> None:
    """Show HTML whose texts went through :func:`text`.

    Parameters
    ----------
    body : str
        The HTML.
    where : DeltaGenerator, optional
        The place on the page; without it, the next one.
    """
    (where or st).html(f'<div class="bc">{body}</div>')


def paragraph(
    value: str, *, kind: str = "", where: DeltaGenerator | None = None
) -> None:
    """Show one paragraph of plain text.

    Parameters
    ----------
    value : str
        The text.
    kind : str, optional
        A class of the style sheet, such as ``bc-lead``.
    where : DeltaGenerator, optional
        The place on the page.
    """
    html(f'<p class="{kind}">{text(value)}</p>', where=where)


def heading(value: str, *, level: int = 3) -> str:
    """Return a heading as HTML.

    Parameters
    ----------
    value : str
        The text.
    level : int, default 3
        2 to 6.
    """
    return f"<h{level}>{text(value)}</h{level}>"


def items(values: Iterable[str]) -> str:
    """Return a list of plain texts as HTML; nothing for none.

    Parameters
    ----------
    values : iterable of str
        The texts.
    """
    rows = "".join(f"<li>{text(value)}</li>" for value in values)
    return f"<ul>{rows}</ul>" if rows else ""


def definition(pairs: Iterable[tuple[str, str]]) -> str:
    """Return names with their values as HTML; pairs without a value are left out.

    Parameters
    ----------
    pairs : iterable of (str, str)
        Name and value, as plain text.
    """
    rows = "".join(
        f"<dt>{text(name)}</dt><dd>{text(value)}</dd>" for name, value in pairs if value
    )
    return f"<dl>{rows}</dl>" if rows else ""


def code_lines(lines: Iterable[str]) -> str:
    """Return lines of arithmetic as HTML; long ones are broken, not cut.

    Parameters
    ----------
    lines : iterable of str
        The lines.
    """
    body = "\n".join(text(line) for line in lines)
    return f"<pre>{body}</pre>" if body else ""


def table(
    caption: str,
    heads: Sequence[str],
    rows: Iterable[Sequence[str]],
    *,
    numbers: Iterable[int] = (),
) -> str:
    """Return a table as HTML that can be read aloud; on a phone rows become lists.

    Parameters
    ----------
    caption : str
        What the table shows.
    heads : sequence of str
        Column heads, with units.
    rows : iterable of sequence of str
        Cells as plain text; the first cell names the row.
    numbers : iterable of int, optional
        Columns that hold numbers, from 0.

    Returns
    -------
    str
        The HTML.
    """
    kinds = [
        ' class="bc-number"' if n in set(numbers) else "" for n in range(len(heads))
    ]
    top = "".join(
        f'<th role="columnheader" scope="col"{kind}>{text(head)}</th>'
        for head, kind in zip(heads, kinds, strict=True)
    )
    body = "".join(_row(row, heads, kinds) for row in rows)
    # the roles say what it is where the style sheet lays rows out as lists
    return (
        f'<div class="bc-wide" tabindex="0" role="region" aria-label="{text(caption)}">'
        f'<table role="table"><caption>{text(caption)}</caption>'
        f'<thead role="rowgroup"><tr role="row">{top}</tr></thead>'
        f'<tbody role="rowgroup">{body}</tbody></table></div>'
    )


def _row(row: Sequence[str], heads: Sequence[str], kinds: Sequence[str]) -> str:
    cells = [f'<th role="rowheader" scope="row">{text(row[0])}</th>']
    cells += [
        f'<td role="cell" data-head="{text(head)}"{kind}>{text(value)}</td>'
        for value, head, kind in zip(row[1:], heads[1:], kinds[1:], strict=True)
    ]
    return f'<tr role="row">{"".join(cells)}</tr>'


def picture(data: str, alt: str) -> str:
    """Return a picture as HTML that needs nothing from elsewhere.

    Parameters
    ----------
    data : str
        An SVG file in base 64; inside a picture no script of it would run.
    alt : str
        What it shows, for those who cannot see it.
    """
    source = f"data:image/svg+xml;base64,{data}"
    # the style sheet may come a moment later, and a sheet is wider than a phone
    fits = "width:100%;height:auto"
    return f'<img class="bc-picture" alt="{text(alt)}" style="{fits}" src="{source}">'


def message(
    value: str, *, lead: str = "To correct", where: DeltaGenerator | None = None
) -> None:
    """Show one message about an entry, in a box with a word in front.

    Parameters
    ----------
    value : str
        The sentence: what is wrong and what to do.
    lead : str, default "To correct"
        The word in front.
    where : DeltaGenerator, optional
        The place on the page.
    """
    body = f"{strong(lead + ':')} {text(value)}"
    html(f'<div class="bc-message" role="alert">{body}</div>', where=where)
