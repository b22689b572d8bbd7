"""Facts and cautions of the Check page."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

import streamlit as st

from blendcheck.assess import Assessment
from blendcheck.records.finding import Finding, Say
from blendcheck.ui import shown
from blendcheck.ui.choosing import sentence
from blendcheck.ui.finding_view import arithmetic, questions

__all__ = ["cautions", "facts"]

_GRAMS: Final = ("people.grams-piece", "people.grams-use")


def facts(found: Assessment) -> None:
    """Show the facts: grams in a piece and in a use, and what the papers state.

    Parameters
    ----------
    found : Assessment
        A result.
    """
    there = [f for f in found.findings if f.kind == "fact"]
    if not there:
        return
    st.header("Facts", anchor=False)
    grams = [f for f in there if f.why.code in _GRAMS]
    if grams:
        shown.html(_grams_table(grams, found))
    others = [f for f in there if f.why.code not in _GRAMS]
    shown.html(shown.items(dict.fromkeys(map(_sentences, _by_paper(others)))))
    names = {_sentences(f): f.value for f in there if f.value is not None}
    chosen = st.selectbox(
        "Open one of these figures",
        list(names),
        index=None,
        placeholder="choose one",
        key="check.fact",
    )
    value = names.get(chosen or "")
    if value is not None:
        arithmetic(value, found, f"check.steps.{value}")


def _grams_table(grams: Sequence[Finding], found: Assessment) -> str:
    cells: dict[str, dict[str, str]] = {}
    for fact in grams:
        cells.setdefault(fact.subject, {})[fact.why.code] = fact.why.values["grams"]
    rows = [
        [name, *(row.get(code, "") for code in _GRAMS)] for name, row in cells.items()
    ]
    use = f"In one use (pieces: {found.case.recipe.pieces_per_use})"
    used = [0, *(n for n in (1, 2) if any(row[n] for row in rows))]
    heads = ("What", "In one piece", use)
    return shown.table(
        "How much is in it",
        [heads[n] for n in used],
        [[row[n] for n in used] for row in rows],
        numbers=range(1, len(used)),
    )


def _by_paper(facts: Sequence[Finding]) -> list[Finding]:
    """Say once for all its categories that a paper states no restriction."""
    made: dict[tuple[str, ...], Finding] = {}
    for n, fact in enumerate(facts):
        values = fact.why.values
        same = fact.why.code == "caps.no-restriction"
        key = (
            (fact.subject, values["edition"], values["printed"]) if same else (str(n),)
        )
        before = made.get(key)
        if before is not None:
            category = f"{before.why.values['category']}, {values['category']}"
            say = Say(fact.why.code, {**values, "category": category})
            made[key] = replace(before, why=say)
        else:
            made[key] = fact
    return list(made.values())


def cautions(found: Assessment, said: set[str]) -> None:
    """Show the cautions, severe ones first, and what to ask about them.

    Parameters
    ----------
    found : Assessment
        A result.
    said : set of str
        Side remarks that stand on the page already.
    """
    there = [f for f in found.findings if f.kind == "caution"]
    there.sort(key=lambda f: f.severity)
    st.header("Cautions", anchor=False)
    lines = []
    for caution in there:
        also = [one for say in caution.also if (one := sentence(say)) not in said]
        said.update(also)
        lines.append(" ".join([sentence(caution.why), *also]))
    shown.html(shown.items(lines))
    asks = questions(say for f in there for say in f.ask)
    if asks:
        shown.paragraph("To ask or find out:")
        st.code(asks, language=None, wrap_lines=True)


def _sentences(finding: Finding) -> str:
    return " ".join([sentence(finding.why), *(sentence(say) for say in finding.also)])
