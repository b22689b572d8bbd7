"""What a check says: limits with an outcome, facts and cautions."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from types import MappingProxyType
from typing import Literal

from blendcheck.frozen import Frozen
from blendcheck.quantity import Base, Mark
from blendcheck.records.estimate import Estimate
from blendcheck.records.material import CapEntry
from blendcheck.records.working import Id

__all__ = ["Finding", "Outcome", "Say", "overall"]

_EMPTY: Mapping[str, str] = MappingProxyType({})


class Outcome(StrEnum):
    """The outcome of a limit, worst first."""

    OVER = "over"
    STRADDLES = "straddles"
    UNKNOWN = "unknown"
    WITHIN = "within"


@dataclass(frozen=True, slots=True)
class Say:
    """A sentence by its code in the table of words, and the values in it."""

    code: str
    values: Mapping[str, str] = field(default_factory=lambda: _EMPTY)


class Finding(Frozen):
    """One thing that a check found.

    Parameters
    ----------
    kind : {"limit", "fact", "caution"}
        Only a limit has an outcome.
    check : str
        The check that found it.
    subject : str
        What it is about, in the maker's words.
    why : Say
        The reason.
    outcome : Outcome or None
        ``None`` for facts and cautions.
    counts : bool
        Whether the outcome is part of the overall one.
    value : Id or None
        The step that is compared.
    limit : str
        The limit as printed, with its unit.
    cap : CapEntry or None
        The entry that the limit comes from.
    also : tuple of Say
        What else must be said beside the reason.
    turns_at : Say or None
        The one figure that would settle it, and where it turns.
    ask : tuple of Say
        What to ask, the most telling first.
    marks : frozenset of Mark
        Doubts of the value.
    estimates : tuple of Estimate
        Estimated numbers that a fact or a caution shows; never part of a limit.
    """

    kind: Literal["limit", "fact", "caution"]
    check: str
    subject: str
    why: Say
    outcome: Outcome | None = None
    counts: bool = True
    value: Id | None = None
    limit: str = ""
    unit: str = ""
    base: Base | None = None
    cap: CapEntry | None = None
    also: tuple[Say, ...] = ()
    turns_at: Say | None = None
    ask: tuple[Say, ...] = ()
    source: str = ""
    marks: frozenset[Mark] = frozenset()
    severity: int = 5
    estimates: tuple[Estimate, ...] = ()


def overall(findings: Iterable[Finding]) -> Outcome:
    """Return the worst outcome of the limits that count.

    Parameters
    ----------
    findings : iterable of Finding
        Everything that was found.

    Returns
    -------
    Outcome
        Over before straddles before unknown before within. With no limit that
        counts nothing was shown: unknown.
    """
    found = {f.outcome for f in findings if f.kind == "limit" and f.counts}
    return next((outcome for outcome in Outcome if outcome in found), Outcome.UNKNOWN)
