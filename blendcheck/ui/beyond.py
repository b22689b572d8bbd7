"""What the Check page shows beyond the limits: estimates, and what a label needs.

Both are worked out when somebody opens them. Neither is part of the outcome.
"""

from collections.abc import Sequence
from typing import Final

import streamlit as st

from blendcheck import reference
from blendcheck.quantity import print_estimate
from blendcheck.records.estimate import Estimate
from blendcheck.records.finding import Finding
from blendcheck.records.recipe import Recipe
from blendcheck.ui import results, shown
from blendcheck.ui.choosing import sentence
from blendcheck.ui.courses import courses
from blendcheck.ui.finding_view import questions
from blendcheck.ui.spread import spread

__all__ = ["beyond"]

_NONE: Final = (None, None, None)
_TIED: Final = "\u00a0"
_FEW: Final = 8
"""As many estimates stand open; a longer list is opened. [1]"""


def beyond(recipe: Recipe) -> None:
    """Offer the estimates and what a label needs.

    Parameters
    ----------
    recipe : Recipe
        The recipe, which can be checked.
    """
    st.header("Beyond the limits", anchor=False)
    shown.paragraph(
        "Estimates and labels have no part in the outcome above. An estimate never "
        "takes the place of a figure that was measured.",
        kind="bc-soft",
    )
    box = st.expander(
        "Fire and air, estimated", key="check.estimates", on_change="rerun"
    )
    if box.open:
        with box:
            found = results.estimated(recipe)
            courses(found)
            spread(found, "check.estimates.spread")
            _list(found.estimates, "check.estimates")
    box = st.expander(
        "For the label: allergens, hazard classes, words",
        key="check.label",
        on_change="rerun",
    )
    if box.open:
        with box:
            _list(results.labelled(recipe).label, "check.label")


def _list(findings: Sequence[Finding], key: str) -> None:
    """Show findings with their estimates, and how those were worked out."""
    said: set[str] = set()
    for number, finding in enumerate(findings):
        lines = [sentence(say) for say in (finding.why, *finding.also)]
        fresh = [line for line in dict.fromkeys(lines) if line not in said]
        said.update(fresh)
        if not fresh and not finding.estimates:
            continue
        subject = finding.subject[:1].upper() + finding.subject[1:]
        body = "".join(f"<p>{shown.text(line)}</p>" for line in fresh)
        shown.html(f'<div class="bc-finding">{shown.heading(subject)}{body}</div>')
        _numbers(finding, f"{key}.{number}")
    asks = questions(say for finding in findings for say in finding.ask)
    if asks:
        shown.paragraph("To ask or find out:")
        st.code(asks, language=None, wrap_lines=True)
    _worked_out(findings, key)


def _numbers(finding: Finding, key: str) -> None:
    """Show the estimates of a finding; a long list when it is opened."""
    numbers = [e for e in finding.estimates if (e.low, e.central, e.high) != _NONE]
    if len(numbers) <= _FEW:
        if numbers:
            shown.html(_table(numbers))
        return
    box = st.expander(
        f"All {len(numbers)} numbers",
        key=f"{key}.numbers",
        on_change="rerun",
        type="compact",
    )
    if box.open:
        with box:
            shown.html(_table(numbers))


def _table(estimates: Sequence[Estimate]) -> str:
    heads = ("What", "About", "From, to", "Doubts")
    rows = [
        (one.says, _middle(one), _ends(one), ", ".join(sorted(one.marks)))
        for one in estimates
    ]
    used = [n for n in range(len(heads)) if n == 0 or any(row[n] for row in rows)]
    return shown.table(
        "Estimated",
        [heads[n] for n in used],
        [[row[n] for n in used] for row in rows],
    )


def _number(one: Estimate, value: float) -> str:
    unit = one.unit.replace(" ", _TIED)
    return f"{print_estimate(value, digits=one.digits)}{_TIED}{unit}".rstrip()


def _middle(one: Estimate) -> str:
    """Return the central value; ends that read the same count as one."""
    if one.central is not None:
        return _number(one, one.central)
    low, high = _printed_ends(one)
    return low if low == high and one.low is not None else ""


def _ends(one: Estimate) -> str:
    if (one.low, one.high) == (None, None):
        return ""
    low, high = _printed_ends(one)
    return "" if low == high else f"{low} to {high}"


def _printed_ends(one: Estimate) -> tuple[str, str]:
    low, high = one.low, one.high
    return (
        "not known" if low is None else _number(one, low),
        "not known" if high is None else _number(one, high),
    )


def _worked_out(findings: Sequence[Finding], key: str) -> None:
    worked = [one for finding in findings for one in finding.estimates if one.lines]
    if not worked:
        return
    box = st.expander(
        "How these were worked out",
        key=f"{key}.lines",
        on_change="rerun",
        type="compact",
    )
    if not box.open:
        return
    sources = reference.sources()
    with box:
        for one in worked:
            shown.html(f"<p>{shown.strong(one.says)}</p>{shown.code_lines(one.lines)}")
        used = dict.fromkeys(name for one in worked for name in one.sources)
        shown.paragraph("Where the figures come from:")
        shown.html(
            shown.items(
                f"{name}: {sources[name].citation}" if name in sources else name
                for name in used
            )
        )
