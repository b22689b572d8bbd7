"""The maker's own words on the papers; the cautions are not among them."""

from collections.abc import Sequence
from typing import Final

import streamlit as st

from blendcheck.papers import Kind
from blendcheck.ui import shown
from blendcheck.ui.choice import fresh
from blendcheck.ui.draft import get, put
from blendcheck.ui.form import Form

__all__ = ["words"]

_CHANNEL: Final = ("gift", "sale", "free at the stall")


def words(form: Form, kind: Kind, open_subjects: Sequence[str]) -> None:
    """Show the fields of the maker's words.

    Parameters
    ----------
    form : Form
        The form of the recipe.
    kind : Kind
        Which paper is shown; only a label needs reasons.
    open_subjects : sequence of str
        What is not shown to be within its limit.
    """
    st.header("Your words", anchor=False)
    shown.paragraph(
        "They are kept with the recipe. The cautions come from the check and stay as "
        "they are. What holds for every recipe, such as your name and the telephone "
        "number of the poison line, is entered on the Materials page, under The "
        "workshop.",
        kind="bc-soft",
    )
    left, right = st.columns(2)
    with left:
        form.text(("papers", "title"), "Title on card and label", example="North gale")
        form.text(("papers", "who"), "Made by", example="your name or your workshop")
        form.text(("papers", "where"), "Where", example="street and town")
    with right:
        form.text(("papers", "lot"), "Lot of the batch", example="NG-12")
        form.text(("papers", "made_on"), "Made on", example="2026-11-25")
        form.text(("papers", "best_before"), "Best before", example="2027-05-25")
    if kind == "card":
        form.text(("papers", "message"), "Message on the card", long=True)
    if kind == "label":
        _label(form, open_subjects)


def _label(form: Form, open_subjects: Sequence[str]) -> None:
    left, right = st.columns(2)
    with left:
        form.one_of(("channel",), "How it leaves the house", _CHANNEL)
    with right:
        form.text(
            ("papers", "pieces_in_pack"), "Pieces in a pack", example="1", whole=True
        )
    form.tick(
        ("papers", "small_last"),
        "What makes up at most 1 % may come last, in the order of the alphabet",
    )
    if open_subjects and get(form.draft.raw, ("channel",)) != "gift":
        _reasons(form, open_subjects)


def _reasons(form: Form, open_subjects: Sequence[str]) -> None:
    """Ask for one reason a cause; they are printed on the safety note."""
    shown.paragraph(
        "These limits are not shown to be kept. A label for what is sold or handed out "
        "is made only with your reason for each. The reasons are printed on the safety "
        "note."
    )
    rows = get(form.draft.raw, ("papers", "reason")) or []
    given = {str(row.get("about", "")).casefold(): row.get("says", "") for row in rows}
    typed: dict[str, str] = {}
    for subject in open_subjects:
        key = fresh(
            f"paper-words.reason.{subject}", str(given.get(subject.casefold()) or "")
        )
        typed[subject] = st.text_input(
            f"Your reason: {shown.label(subject)}", key=key
        ).strip()
    others = [
        row
        for row in rows
        if str(row.get("about", "")).casefold()
        not in {subject.casefold() for subject in open_subjects}
    ]
    kept = [{"about": name, "says": says} for name, says in typed.items() if says]
    put(form.draft.raw, ("papers", "reason"), [*kept, *others] or None)
