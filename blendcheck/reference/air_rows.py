"""Rows on breathing, light, the shower and swallowing."""

from collections.abc import Mapping
from fractions import Fraction
from typing import ClassVar

from blendcheck.reference.figures import Figure, figure_problem
from blendcheck.reference.rows import Row

__all__ = [
    "BreathingIrritant",
    "ExposureLimit",
    "IrritationPoint",
    "PhototoxicOil",
    "ShowerParameter",
    "Swallowing",
]


class ExposureLimit(Figure):
    """A limit or guide value for air; ``issued_by`` names whose it is.

    Workplace limits are for healthy adults at work, guide values for rooms are for
    a lifetime. Neither speaks of a shower, of asthma or of a child.
    """

    table: ClassVar[str] = "exposure_limits"
    key: ClassVar[tuple[str, ...]] = (
        *("substance", "issued_by", "quantity", "printed_value", "printed_unit"),
        *("conditions", "source_id"),
    )
    blank: ClassVar[frozenset[str]] = frozenset(
        {"note", "cas", "conditions", "in_force_from", "superseded_on"}
    )

    cas: str
    substance: str
    issued_by: str
    jurisdiction: str
    quantity: str
    qualifier: str
    printed_value: str
    printed_unit: str
    value: str
    unit: str
    basis: str
    conditions: str
    in_force_from: str
    superseded_on: str
    source_id: str
    source_locator: str
    checked_on: str
    tag: str
    note: str

    def check(self, weights: Mapping[str, Fraction]) -> str | None:
        """Say what is wrong across the cells; see :meth:`Row.check`."""
        return figure_problem(self)


class IrritationPoint(Figure):
    """A concentration in air at which people or mice did or did not react.

    Odour thresholds by different methods differ a hundredfold and more: they are
    never mixed in one ratio, and an odour is not an irritation.
    """

    table: ClassVar[str] = "irritation_points"
    key: ClassVar[tuple[str, ...]] = (
        *("substance", "quantity", "printed_value", "conditions", "source_id"),
    )
    blank: ClassVar[frozenset[str]] = frozenset({"note", "cas", "conditions"})

    cas: str
    substance: str
    quantity: str
    qualifier: str
    printed_value: str
    printed_unit: str
    value: str
    unit: str
    basis: str
    conditions: str
    source_id: str
    source_locator: str
    checked_on: str
    tag: str
    note: str

    def check(self, weights: Mapping[str, Fraction]) -> str | None:
        """Say what is wrong across the cells; see :meth:`Row.check`."""
        return figure_problem(self)


class BreathingIrritant(Row):
    """A volatile constituent that may irritate the airways, and why it is listed."""

    table: ClassVar[str] = "breathing_irritants"
    key: ClassVar[tuple[str, ...]] = ("cas", "says", "source_id")

    cas: str
    name: str
    says: str
    source_id: str
    source_locator: str
    checked_on: str
    tag: str
    note: str


class PhototoxicOil(Row):
    """Whether an oil made in a certain way is listed as acting with light.

    ``watched_as`` is the name that the tables of cautions and names give the oil.
    """

    table: ClassVar[str] = "phototoxic_oils"
    key: ClassVar[tuple[str, ...]] = ("name", "made", "source_id")
    blank: ClassVar[frozenset[str]] = frozenset({"note", "watched_as"})

    name: str
    watched_as: str
    made: str
    phototoxic: str
    says: str
    source_id: str
    source_locator: str
    checked_on: str
    tag: str
    note: str


class ShowerParameter(Figure):
    """A figure about showers, bathrooms and people in them.

    ``suggested`` says whether it is offered as a starting point for a setting.
    """

    table: ClassVar[str] = "shower_parameters"
    key: ClassVar[tuple[str, ...]] = (
        *("parameter", "qualifier", "printed_value", "conditions", "source_id"),
    )
    blank: ClassVar[frozenset[str]] = frozenset({"note", "conditions", "suggested"})

    parameter: str
    qualifier: str
    printed_value: str
    printed_unit: str
    value: str
    unit: str
    basis: str
    conditions: str
    suggested: str
    source_id: str
    source_locator: str
    checked_on: str
    tag: str
    note: str

    @property
    def subject(self) -> str:
        """What the figure is about."""
        return self.parameter

    def check(self, weights: Mapping[str, Fraction]) -> str | None:
        """Say what is wrong across the cells; see :meth:`Row.check`."""
        return figure_problem(self)


class Swallowing(Figure):
    """What is known of swallowing a substance: for the maker's own note only.

    Never a dose that is harmless: any swallowing by a child is a call to the poison
    line.
    """

    table: ClassVar[str] = "swallowing"
    key: ClassVar[tuple[str, ...]] = (
        *("substance", "says", "qualifier", "printed_value", "source_id"),
    )
    blank: ClassVar[frozenset[str]] = frozenset(
        (
            *("note", "cas", "qualifier", "printed_value", "printed_unit", "value"),
            "unit",
        )
    )

    substance: str
    cas: str
    says: str
    qualifier: str
    printed_value: str
    printed_unit: str
    value: str
    unit: str
    source_id: str
    source_locator: str
    checked_on: str
    tag: str
    note: str

    @property
    def subject(self) -> str:
        """What the figure is about."""
        return self.cas or self.substance

    def check(self, weights: Mapping[str, Fraction]) -> str | None:
        """Say what is wrong across the cells; see :meth:`Row.check`."""
        return figure_problem(self, may_be_words=True)
