"""The Papers page: a preview, the maker's words, the files.

Papers are made from a recipe that was taken over whole. The moment that they print is
that at which the page first saw what they rest on, not that of the download.
"""

from base64 import b64encode
from collections.abc import Mapping
from functools import lru_cache
from typing import Final

import streamlit as st

from blendcheck.assess import Assessment
from blendcheck.errors import BlendcheckError, InputError
from blendcheck.papers import KINDS, Kind, Paper, make
from blendcheck.papers.kept import KeptCheck
from blendcheck.papers.layout import CARDS, LABELS, SHEETS, Layout
from blendcheck.papers.limits import open_causes
from blendcheck.papers.plain_text import plain
from blendcheck.papers.typeset import drawings
from blendcheck.papers.writing import MIME, file_name, rendered
from blendcheck.records.recipe import Recipe
from blendcheck.ui import paper_words, results, shown, state
from blendcheck.ui.choice import choice
from blendcheck.ui.choosing import head, overall_sentence, pick_recipe
from blendcheck.ui.form import Form
from blendcheck.ui.state import Kept

__all__ = ["show"]

_KINDS: Final[Mapping[str, str]] = {
    "card": "Gift card",
    "label": "Label",
    "bottle": "Label for a bottle of the neat blend",
    "batch": "Batch sheet",
    "note": "Safety note for your file",
    "swallowed": "Sheet for the home, if a piece was swallowed",
}
_SHEETS: Final[Mapping[str, str]] = {"a4": "A4", "letter": "US Letter"}
_CARDS: Final[Mapping[str, str]] = {
    "8": "8 on a sheet, both sides",
    "4": "4 on a sheet, both sides",
    "folded": "1, folded twice, one side",
}
_LABELS: Final[Mapping[str, str]] = {
    "large": "large, 4 on a sheet",
    "medium": "medium, 6 on a sheet",
    "small": "small, 8 on a sheet",
}
_BOTTLES: Final[Mapping[str, str]] = {
    "large": "large, 2 on a sheet",
    "medium": "medium, 4 on a sheet",
    "small": "small, 6 on a sheet",
}
_FORMS: Final[Mapping[str, str]] = {
    "pdf": "Download to print (PDF)",
    "html": "Download as a web page (HTML)",
    "md": "Download as Markdown",
    "txt": "Download as plain text",
}
_SHOWN: Final = 2
"""Pages of which a picture is shown."""


def show() -> None:
    """Show the page."""
    head("Papers")
    kept = pick_recipe("papers")
    if kept is None:
        return
    kind = _kind()
    layout = _layout(kind)
    answer = st.container()
    form = Form("paper-words", kept.draft)
    paper_words.words(form, kind, _open_subjects(kept, kind))
    refused = _take(form, kept, kind)
    with answer:
        _answer(kept, kind, layout, form, refused=refused)


# -- what is chosen ------------------------------------------------------------


def _kind() -> Kind:
    chosen = choice("Paper", _KINDS, key="papers.kind", kept="shelf.paper")
    return next(kind for kind in KINDS if kind == chosen)


def _layout(kind: Kind) -> Layout:
    left, right = st.columns(2)
    sheet = choice("Sheet", _SHEETS, key="papers.sheet", kept="shelf.sheet", where=left)
    cards, labels = "8", "large"
    if kind == "card":
        cards = choice(
            "Cards", _CARDS, key="papers.cards", kept="shelf.cards", where=right
        )
    if kind in ("label", "bottle"):
        sizes = _LABELS if kind == "label" else _BOTTLES
        labels = choice(
            "Labels", sizes, key="papers.labels", kept="shelf.labels", where=right
        )
    return Layout(
        next(one for one in SHEETS if one == sheet),
        next(one for one in CARDS if one == cards),
        next(one for one in LABELS if one == labels),
    )


# -- taking the maker's words over -----------------------------------------------


def _open_subjects(kept: Kept, kind: Kind) -> tuple[str, ...]:
    """Return what a label for sale must give a reason for."""
    if kept.good is None:
        return ()
    try:
        found = _found(kept.good, kind).findings
    except BlendcheckError:
        return ()
    return open_causes(found)


def _take(form: Form, kept: Kept, kind: Kind) -> bool:
    """Use what is typed if it can be read; say where it is refused if not."""
    recipe = form.check(Recipe)
    if recipe is None:
        return True
    if recipe != kept.good:
        try:
            _found(recipe, kind)
        except BlendcheckError as error:
            form.unplaced.append(str(error))
            return True
        kept.good = recipe
    return False


# -- the paper -------------------------------------------------------------------


def _answer(
    kept: Kept, kind: Kind, layout: Layout, form: Form, *, refused: bool
) -> None:
    if refused:
        last = "The paper below is of the last recipe that could be checked."
        shown.message(
            "What is typed cannot be used yet; the reason stands at its field, here or "
            f"on the Recipe page. {last if kept.good is not None else ''}",
            lead="Not taken over",
        )
        for said in form.unplaced:
            shown.message(said)
    if kept.good is None:
        return
    try:
        check = _check(kept.good, kind)
        paper = make(kind, check)
    except BlendcheckError as error:
        shown.message(_why_not(error), lead="Not made")
        return
    if check.open or not check.counting:
        shown.paragraph(overall_sentence(check.assessment.outcome))
    shown.html(shown.items(paper.left_off))
    _files(paper, layout)
    _preview(paper, layout)


def _why_not(error: BlendcheckError) -> str:
    """Say what to do on this page; the message itself speaks of a file."""
    if isinstance(error, InputError) and error.code == "reason-missing":
        return f"{error.what}. Write a reason for each below, or say that it is a gift"
    return str(error)


def _found(recipe: Recipe, kind: Kind) -> Assessment:
    """Return what a paper is made from; only the note needs estimates."""
    return results.whole(recipe) if kind == "note" else results.labelled(recipe)


def _check(recipe: Recipe, kind: Kind) -> KeptCheck:
    found = _found(recipe, kind)
    return KeptCheck(found, state.moment(found.hash))


def _files(paper: Paper, layout: Layout) -> None:
    columns = st.columns(len(_FORMS))
    for column, (form, words) in zip(columns, _FORMS.items(), strict=True):
        try:
            data = _rendered(paper, form, layout)
        except InputError as error:
            shown.message(str(error), lead="Not printed", where=column)
            continue
        column.download_button(
            words,
            data=data,
            file_name=file_name(paper, form),
            mime=MIME[form],
            key=f"papers-file.{form}",
            on_click="ignore",
            type="primary" if form == "pdf" else "secondary",
            width="stretch",
        )


@lru_cache(maxsize=16)
def _rendered(paper: Paper, form: str, layout: Layout) -> bytes:
    """Return a file; the same one while the page is only looked at."""
    return rendered(paper, form, layout)


@lru_cache(maxsize=8)
def _pictures(paper: Paper, layout: Layout) -> tuple[bytes, ...]:
    _rendered(paper, "pdf", layout)  # it refuses what a picture would not show
    return drawings(paper, layout)


def _preview(paper: Paper, layout: Layout) -> None:
    try:
        pages = _pictures(paper, layout)
    except InputError:
        pages = ()
    columns = st.columns(_SHOWN)
    for n, page in enumerate(pages[:_SHOWN]):
        shown.html(
            shown.picture(
                b64encode(page).decode(),
                f"{_KINDS[paper.kind]}, page {n + 1} of {len(pages)}, as printed. Its "
                "words stand below, under The same in words.",
            ),
            where=columns[n],
        )
    if len(pages) > _SHOWN:
        shown.paragraph(f"{len(pages) - _SHOWN} more pages are in the file.")
    box = st.expander("The same in words", key="papers.words", on_change="rerun")
    if box.open:
        with box:
            shown.html(shown.code_lines(plain(paper).splitlines()))
