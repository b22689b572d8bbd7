"""Rows for modified UNIFAC (Dortmund): groups, where they occur, how they interact."""

from collections.abc import Mapping
from fractions import Fraction
from typing import ClassVar

from blendcheck.reference.rows import Row

__all__ = ["UnifacAssignment", "UnifacGroup", "UnifacInteraction"]


def _not_whole(row: Row, *columns: str) -> str | None:
    for column in columns:
        cell = str(getattr(row, column))
        if not (cell.isascii() and cell.isdigit() and cell[0] != "0"):
            return f"{column} {cell} is not a whole number above 0"
    return None


class UnifacGroup(Row):
    """A structural group: its main group, relative volume ``r`` and surface ``q``."""

    table: ClassVar[str] = "unifac_groups"
    key: ClassVar[tuple[str, ...]] = ("group_number",)

    group_number: str
    group: str
    main_group: str
    main_group_name: str
    formula: str
    r: str
    q: str
    source_id: str
    source_locator: str
    checked_on: str
    tag: str
    note: str

    def check(self, weights: Mapping[str, Fraction]) -> str | None:
        """Say what is wrong across the cells; see :meth:`Row.check`."""
        return _not_whole(self, "group_number", "main_group")


class UnifacAssignment(Row):
    """How often a group occurs in a constituent, and who assigned it.

    ``assigned`` is ``compiled``, ``same constitution`` or ``by rule``.
    """

    table: ClassVar[str] = "unifac_assignments"
    key: ClassVar[tuple[str, ...]] = ("cas", "group_number")

    cas: str
    group_number: str
    count: str
    assigned: str
    source_id: str
    source_locator: str
    checked_on: str
    tag: str
    note: str

    def check(self, weights: Mapping[str, Fraction]) -> str | None:
        """Say what is wrong across the cells; see :meth:`Row.check`."""
        return _not_whole(self, "group_number", "count")


class UnifacInteraction(Row):
    """Interaction of two main groups: ``a`` [K], ``b`` [-] and ``c`` [1/K].

    Energy over the gas constant is a + b T + c T^2; it differs by direction.
    """

    table: ClassVar[str] = "unifac_interactions"
    key: ClassVar[tuple[str, ...]] = ("main_group", "other_main_group")

    main_group: str
    other_main_group: str
    a: str
    b: str
    c: str
    source_id: str
    source_locator: str
    checked_on: str
    tag: str
    note: str

    def check(self, weights: Mapping[str, Fraction]) -> str | None:
        """Say what is wrong across the cells; see :meth:`Row.check`."""
        return _not_whole(self, "main_group", "other_main_group")
