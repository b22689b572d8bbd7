"""The Check page: the outcome in a sentence, what stops the maker, then the rest."""

import json
from collections.abc import Callable, Sequence
from datetime import date
from typing import Any

import streamlit as st

from blendcheck.assess import Assessment
from blendcheck.errors import BlendcheckError
from blendcheck.records.finding import Finding, Outcome
from blendcheck.report import report
from blendcheck.ui import chart, filing, readouts, results, shown, state
from blendcheck.ui.beyond import beyond
from blendcheck.ui.choosing import (
    head,
    outcome_words,
    overall_sentence,
    pick_recipe,
)
from blendcheck.ui.facts import cautions, facts
from blendcheck.ui.finding_view import (
    show_finding,
    value_text,
)
from blendcheck.ui.largest_view import most
from blendcheck.ui.weigh import weighing

__all__ = ["show"]


def show() -> None:
    """Show the page."""
    head("Check")
    kept = pick_recipe("check")
    _day()
    if kept is None:
        return
    if kept.good is None:
        shown.message(
            "This recipe cannot be checked yet. The Recipe page says what to correct.",
            lead="No result",
        )
        return
    try:
        found = results.assessed(kept.good)
    except BlendcheckError as error:
        shown.message(str(error), lead="No result")
        return
    _overall(found)
    said: set[str] = set()
    _limits(found, said)
    _picture(found)
    _others(found, said)
    facts(found)
    cautions(found, said)
    beyond(kept.good)
    weighing(kept.good)
    st.header("What is in it", anchor=False)
    readouts.masses(found)
    readouts.lines(found)
    _on_demand(found)
    _files(found)


def _day() -> None:
    key = "check.on"
    if key not in st.session_state:
        st.session_state[key] = state.on_day()
    chosen = st.date_input("Checked for this day", key=key, format="YYYY-MM-DD")
    if isinstance(chosen, date):
        st.session_state["shelf.on"] = chosen


def _overall(found: Assessment) -> None:
    shown.paragraph(overall_sentence(found.outcome), kind="bc-lead")
    counting = [f for f in found.findings if f.kind == "limit" and f.counts]
    said = [
        f"{number} {outcome_words(outcome)}"
        for outcome in Outcome
        if (number := sum(f.outcome is outcome for f in counting))
    ]
    shown.paragraph(f"Limits that count: {len(counting)}. Of these {', '.join(said)}.")


def _is(found: Assessment, wanted: Callable[[Finding], bool]) -> list[Finding]:
    return [finding for finding in found.findings if wanted(finding)]


def _keys(findings: Sequence[Finding]) -> list[str]:
    """Return a key for each finding that stays with it when others come and go."""
    seen: dict[str, int] = {}
    made = []
    for one in findings:
        key = f"check.steps.{one.check}.{one.subject}.{one.limit}.{one.why.code}"
        seen[key] = seen.get(key, 0) + 1
        made.append(f"{key}.{seen[key]}")
    return made


def _show_all(findings: Sequence[Finding], found: Assessment, said: set[str]) -> None:
    for finding, key in zip(findings, _keys(findings), strict=True):
        show_finding(finding, found, key, said)


def _limits(found: Assessment, said: set[str]) -> None:
    counting = _is(found, lambda f: f.kind == "limit" and f.counts)
    stops = [f for f in counting if f.outcome is not Outcome.WITHIN]
    if stops:
        st.header("What stops you, or is open", anchor=False)
        _show_all(stops, found, said)
    within = [f for f in counting if f.outcome is Outcome.WITHIN]
    if within:
        st.header("What counts, and is within the figures entered", anchor=False)
        _show_all(within, found, said)


def _others(found: Assessment, said: set[str]) -> None:
    others = _is(found, lambda f: f.kind == "limit" and not f.counts)
    if not others:
        return
    st.header("Under other categories", anchor=False)
    rows = [
        (
            f.subject,
            f.limit,
            value_text(f, found, base=False),
            outcome_words(f.outcome),
        )
        for f in others
    ]
    heads = ("What", "Limit", "Worked out", "Outcome")
    shown.html(shown.table("Not part of the outcome above", heads, rows))
    shown.paragraph("Percents are of the finished product.", kind="bc-soft")
    box = st.expander(
        "Reasons and arithmetic under other categories",
        key="check.others",
        on_change="rerun",
    )
    if box.open:
        with box:
            _show_all(others, found, said)


def _picture(found: Assessment) -> None:
    bars = chart.bars(found)
    if not bars:
        return
    st.header("Use against cap", anchor=False)
    said = [chart.sentence_of(bar) for bar in bars]
    st.vega_lite_chart(
        chart.picture(bars, ink=shown.ink()),
        width="stretch",
        alt="Bars of use as a share of the cap. " + ". ".join(said),
    )
    shown.html(shown.items(said))


def _on_demand(found: Assessment) -> None:
    sections: tuple[tuple[str, str, Callable[[Assessment], Any]], ...] = (
        ("Components, low to high", "components", readouts.components),
        ("The most that stays within the caps entered", "most", most),
    )
    for label, key, show in sections:
        box = st.expander(label, key=f"check.{key}", on_change="rerun")
        if box.open:
            with box:
                show(found)


def _files(found: Assessment) -> None:
    st.header("Keep it", anchor=False)
    shown.paragraph(
        f"Checked for {found.case.on.isoformat()}; what it rests on has the hash "
        f"{found.hash}."
    )
    st.download_button(
        "Download this check (JSON)",
        data=lambda: json.dumps(report(found), ensure_ascii=False, indent=1),
        file_name=filing.file_name(
            f"{found.case.recipe.name} check {found.hash}", ".json"
        ),
        mime="application/json",
        key="check.save",
        on_click="ignore",
    )
