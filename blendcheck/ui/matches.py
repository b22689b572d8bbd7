"""Names that may mean the same substance: proposed, and answered by the maker."""

from dataclasses import dataclass
from typing import Any

import streamlit as st

from blendcheck.assess import Assessment
from blendcheck.errors import BlendcheckError
from blendcheck.ui import results, shown, state
from blendcheck.ui.draft import get, put
from blendcheck.ui.form import Form

__all__ = ["Proposal", "answer_of", "matches", "proposals"]

_NAME = "name:"


@dataclass(frozen=True)
class Proposal:
    """A printed name or number that may count toward a capped substance.

    Parameters
    ----------
    name : str
        Name as printed.
    identity : str
        Its CAS number, or ``name:`` and the name.
    subject : str
        What the cap is on.
    own : str
        Identity of that.
    """

    name: str
    identity: str
    subject: str
    own: str


def proposals(assessment: Assessment) -> list[Proposal]:
    """Return the matches that a result leaves open.

    Parameters
    ----------
    assessment : Assessment
        A result.
    """
    found: dict[Proposal, None] = {}
    for finding in assessment.findings:
        if finding.cap is None:
            continue
        for say in finding.ask:
            if say.code == "ask.confirm":
                values = say.values
                one = Proposal(
                    values["name"],
                    values["identity"],
                    values["subject"],
                    finding.cap.subject,
                )
                found[one] = None
    return list(found)


def answer_of(one: Proposal, *, same: bool) -> dict[str, Any] | None:
    """Return what is recorded for an answer, as the materials file holds it.

    Parameters
    ----------
    one : Proposal
        What was asked.
    same : bool
        The answer.

    Returns
    -------
    dict or None
        ``None`` if neither of the two has a CAS number to record it by.
    """
    made: dict[str, Any]
    if one.identity.startswith(_NAME):
        if one.own.startswith(_NAME):
            return None
        made = {"name": one.name, "cas": one.own}
    elif one.own.startswith(_NAME):
        made = {"name": one.subject, "cas": one.identity}
    else:
        made = {"cas": one.identity, "counts_as": one.own}
    return made if same else {**made, "same": False}


def matches(form: Form) -> None:
    """Show the open matches of the open recipe, and those that were answered.

    Parameters
    ----------
    form : Form
        The form of the shelf.
    """
    for n, one in enumerate(_open_ones()):
        identity = "" if one.identity.startswith(_NAME) else f" ({one.identity})"
        shown.paragraph(
            f"A paper prints “{one.name}”{identity}. Is it {one.subject} or part of it?"
        )
        if answer_of(one, same=True) is None:
            shown.paragraph("Give one of the two its CAS number first.", kind="bc-soft")
            continue
        left, right, _ = st.columns([1, 1, 3])
        for column, words, same in (
            (left, "Yes, it is", True),
            (right, "No, it is not", False),
        ):
            column.button(
                words,
                key=f"matches.{n}.{same}",
                on_click=_answer,
                args=(form, one, same),
            )
    _answered(form)


def _open_ones() -> list[Proposal]:
    key = state.current()
    kept = state.recipes().get(key)
    if kept is None or kept.good is None:
        return []
    try:
        found = proposals(results.assessed(kept.good))
    except BlendcheckError:
        return []
    if not found:
        shown.paragraph(f"Nothing is open for “{kept.name}”.", kind="bc-soft")
    return found


def _answer(form: Form, one: Proposal, same: bool) -> None:  # noqa: FBT001
    made = answer_of(one, same=same)
    if made is None:
        return
    rows = [*(get(form.draft.raw, ("confirmed",)) or ()), made]
    put(form.draft.raw, ("confirmed",), rows)
    form.draft.changed()


def _answered(form: Form) -> None:
    rows = get(form.draft.raw, ("confirmed",)) or []
    if not rows:
        return
    said = [
        (
            str(row.get("name") or row.get("cas")),
            "is" if row.get("same", True) else "is not",
            str(row.get("counts_as") or row.get("cas")),
        )
        for row in rows
    ]
    heads = ("What a paper prints", "Answer", "What it counts as")
    shown.html(shown.table("Answered", heads, said))
    words = [f"{n + 1}. {a} {b} {c}" for n, (a, b, c) in enumerate(said)]
    left, right = st.columns([4, 1], vertical_alignment="bottom")
    chosen = left.selectbox("Take an answer back", words, key="matches.which")
    right.button(
        "Take it back",
        key="matches.back",
        on_click=_back,
        args=(form, words.index(chosen)),
    )


def _back(form: Form, at: int) -> None:
    rows = [row for n, row in enumerate(form.draft.raw["confirmed"]) if n != at]
    put(form.draft.raw, ("confirmed",), rows or None)
    form.draft.changed()
    st.session_state.pop("matches.which", None)
