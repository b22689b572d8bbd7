"""The limits of the classification rules, from the tables, each with its source."""

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from blendcheck import reference
from blendcheck.errors import ReferenceDataError

__all__ = ["Limit", "limit_of"]

_SIGNS = {">=": "≥", "<=": "≤"}


@dataclass(frozen=True, slots=True)
class Limit:
    """One limit of a rule.

    Parameters
    ----------
    value : Fraction
        The figure as printed, in the printed unit.
    says : str
        The limit with its place: ``≥ 10 % (EU CLP, Table 3.2.3)``.
    rule : str
        The rule as the table words it.
    source : str
        Source id.
    statement : str
        The code that it leads to.
    is_read : bool
        False where the figure is from memory.
    """

    value: Fraction
    says: str
    rule: str
    source: str
    statement: str
    is_read: bool


@cache
def limit_of(hazard: str, rule: str, scheme: str = "EU CLP") -> Limit:
    """Return a limit by its class and the beginning of its rule.

    Parameters
    ----------
    hazard : str
        Class, as the table writes it.
    rule : str
        How the rule begins.
    scheme : str, default "EU CLP"
        Scheme, or one of those that the row names.

    Raises
    ------
    ReferenceDataError
        If the table has no such row, or more than one.
    """
    found = [
        row
        for row in reference.mixture_limits()
        if row.hazard == hazard
        and row.rule.startswith(rule)
        and scheme in row.scheme.split(" and ")
        and row.value
    ]
    if len(found) != 1:
        message = f"mixture_limits: {len(found)} rows for {scheme}, {hazard}, {rule}"
        raise ReferenceDataError(message)
    row = found[0]
    return Limit(
        Fraction(row.printed_value),
        f"{_SIGNS.get(row.qualifier, row.qualifier)} {row.printed_value} "
        f"{row.printed_unit.replace('degC', '°C')} ({row.scheme}, {row.annex})",
        row.rule,
        row.source_id,
        row.statement,
        row.tag == "seen",
    )
