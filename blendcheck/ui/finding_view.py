"""One finding on the page: its sentence, its figures, its question, its steps."""

import re
from collections.abc import Iterable, Sequence
from typing import Final

import streamlit as st

from blendcheck import reference
from blendcheck.assess import Assessment
from blendcheck.checks.judge import cap_percent
from blendcheck.quantity import Base, print_range
from blendcheck.records.finding import Finding, Say
from blendcheck.records.mass import Key
from blendcheck.records.material import Document
from blendcheck.records.working import RULES, Figure, Id
from blendcheck.ui import shown
from blendcheck.ui.choosing import outcome_words, sentence

__all__ = ["arithmetic", "questions", "show_finding", "subject_line", "value_text"]

_STEPS_LABEL: Final = "Show the arithmetic"


def value_text(finding: Finding, assessment: Assessment, *, base: bool = True) -> str:
    """Return what is compared, with the digits that show its side of the limit.

    Parameters
    ----------
    finding : Finding
        A finding.
    assessment : Assessment
        The result that it belongs to.
    base : bool, default True
        Whether a percent names its base.
    """
    if finding.value is None:
        return ""
    cap = cap_percent(finding.cap.cap) if finding.cap is not None else None
    span = assessment.working.range(finding.value)
    printed = print_range(span, finding.unit, cap=cap)
    if base and finding.unit == "%" and finding.base is Base.FINISHED:
        return f"{printed} of the finished product"
    return printed


def subject_line(finding: Finding) -> str:
    """Return the heading of a finding: its outcome in words, then what it is about.

    Parameters
    ----------
    finding : Finding
        A finding.
    """
    words = outcome_words(finding.outcome)
    return f"{words[0].upper()}{words[1:]}: {finding.subject}"


def _pairs(
    finding: Finding, assessment: Assessment, *, repeated: bool
) -> list[tuple[str, str]]:
    return [
        ("Limit", finding.limit),
        ("Worked out", value_text(finding, assessment)),
        ("Turns", sentence(finding.turns_at) if finding.turns_at else ""),
        ("Doubts", ", ".join(sorted(finding.marks))),
        ("From", _paper(finding.source, assessment)),
        ("To ask", "the question stands above" if repeated else ""),
    ]


def _paper(name: str, assessment: Assessment) -> str:
    """Return a paper of the maker or a source of our tables in words."""
    found = _documents(assessment).get(name)
    if found is not None:
        return _document_text(found)
    sources = reference.sources()
    return sources[name].citation if name in sources else name


def _documents(assessment: Assessment) -> dict[str, Document]:
    return {
        paper.id: paper
        for material in assessment.case.materials.material
        for paper in material.document
    }


def _document_text(paper: Document) -> str:
    when = paper.date.printed if paper.date is not None else "no date"
    named = (paper.kind, paper.issuer, paper.edition, when)
    return ", ".join(part for part in named if part)


def show_finding(
    finding: Finding, assessment: Assessment, key: str, said: set[str]
) -> None:
    """Show a finding with its reason, its question and, on demand, its steps.

    Parameters
    ----------
    finding : Finding
        The finding.
    assessment : Assessment
        The result that it belongs to.
    key : str
        Key of its expander.
    said : set of str
        Side remarks and questions that stand on the page already; they are not
        repeated, and those of this finding are added.
    """
    also = [one for say in finding.also if (one := sentence(say)) not in said]
    asks = questions(say for say in finding.ask if sentence(say) not in said)
    repeated = bool(finding.ask) and not asks
    said.update(also, (sentence(say) for say in finding.ask))
    sentences = [sentence(finding.why), *also]
    body = "".join(f"<p>{shown.text(sentence)}</p>" for sentence in sentences)
    head = shown.heading(subject_line(finding))
    pairs = shown.definition(_pairs(finding, assessment, repeated=repeated))
    shown.html(f'<div class="bc-finding">{head}{body}{pairs}</div>')
    if asks:
        st.code(asks, language=None, wrap_lines=True)
    if finding.value is not None:
        arithmetic(finding.value, assessment, key)


def questions(asks: Iterable[Say]) -> str:
    """Return questions as text to copy, one a line, the most telling first.

    Parameters
    ----------
    asks : iterable of Say
        What to ask.
    """
    return "\n".join(dict.fromkeys(sentence(say) for say in asks))


def arithmetic(value: Id, assessment: Assessment, key: str) -> None:
    """Offer every figure and step behind a value; worked out when it is opened.

    Parameters
    ----------
    value : Id
        The step.
    assessment : Assessment
        The result that it belongs to.
    key : str
        Key of the expander.
    """
    box = st.expander(_STEPS_LABEL, key=key, on_change="rerun", type="compact")
    if not box.open:
        return
    working = assessment.working
    behind = working.behind(value)
    figures = [working.figures[Key(i)] for i in behind if i not in working.steps]
    papers = _documents(assessment)
    rows = [_figure_row(one, papers) for one in figures if one.key != "hundred"]
    parts = [_figure_table(rows)]
    for name in reversed(behind):
        step = working.steps.get(name)
        if step is None:
            continue
        rule = RULES[step.rule]
        base = f" (% of {step.base})" if step.base is not None else ""
        parts.append(
            f"<p>{shown.strong(step.says + base)}<br>"
            f'<span class="bc-soft">{shown.text(rule.sentence)}</span></p>'
        )
        parts.append(shown.code_lines(working.lines(name)))
    with box:
        shown.html("".join(parts))


def _figure_table(rows: Sequence[tuple[str, ...]]) -> str:
    """Return the table of figures without the columns that are blank throughout."""
    heads = ("What it is", "As printed", "From", "Doubts")
    used = [n for n in range(len(heads)) if n < 2 or any(row[n] for row in rows)]
    return shown.table(
        "Figures as written",
        [heads[n] for n in used],
        [[row[n] for n in used] for row in rows],
    )


def _figure_row(one: Figure, papers: dict[str, Document]) -> tuple[str, ...]:
    paper = papers.get(one.document or "")
    origin = _document_text(paper) if paper is not None else one.document or ""
    unit = f" {one.unit}" if one.unit and not _names_unit(one) else ""
    basis = f" ({one.basis})" if one.basis else ""
    return one.says, f"{one.printed}{unit}{basis}", origin, ", ".join(sorted(one.marks))


def _names_unit(one: Figure) -> bool:
    """Whether the printed text ends in more than a number, so needs no unit."""
    return re.search(r"[^\d\s.,/–-]\s*$", one.printed) is not None
