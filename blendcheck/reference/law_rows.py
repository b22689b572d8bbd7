"""Rows from law and standards: allergens, limits, classes, labels, phrases, rules.

What a law says is quoted with its place and edition. A row tagged ``memory`` was
not read in the law; its note then says what is done until somebody has.
"""

from collections.abc import Mapping
from fractions import Fraction
from typing import ClassVar

from blendcheck.reference.figures import Figure, figure_problem
from blendcheck.reference.rows import Row

__all__ = [
    "Allergen",
    "HazardClass",
    "IngredientLimit",
    "LabelElement",
    "MixtureLimit",
    "Phrase",
    "Ruling",
]


class Allergen(Row):
    """One CAS number of an entry of the list of fragrance allergens.

    ``entry`` is the reference number of the annex, ``label_name`` what stands on
    the label, ``members`` the names that the entry lists, separated by semicolons.
    ``leave_on`` and ``rinse_off`` are the shares above which it must be named
    [% w/w], blank where the substance is prohibited instead.
    """

    table: ClassVar[str] = "allergens"
    key: ClassVar[tuple[str, ...]] = ("entry", "cas")
    blank: ClassVar[frozenset[str]] = frozenset({"note", "leave_on", "rinse_off"})

    entry: str
    label_name: str
    members: str
    cas: str
    status: str
    grouped: str
    since: str
    leave_on: str
    rinse_off: str
    limit_unit: str
    source_id: str
    source_locator: str
    checked_on: str
    tag: str
    note: str

    def check(self, weights: Mapping[str, Fraction]) -> str | None:
        """Say what is wrong across the cells; see :meth:`Row.check`."""
        limits = bool(self.leave_on), bool(self.rinse_off)
        if limits != ((self.status == "declarable"),) * 2:
            return f"leave_on and rinse_off do not fit the status {self.status}"
        if limits[0] and Fraction(self.leave_on) * 10 != Fraction(self.rinse_off):
            return "leave_on is not a tenth of rinse_off"
        return None


class IngredientLimit(Figure):
    """What a law allows of a substance: a figure, or a state in words."""

    table: ClassVar[str] = "ingredient_limits"
    key: ClassVar[tuple[str, ...]] = (
        *("jurisdiction", "provision", "substance", "cas", "applies_to"),
        *("qualifier", "printed_value"),
    )
    blank: ClassVar[frozenset[str]] = frozenset(
        (
            *("note", "cas", "qualifier", "printed_value", "printed_unit", "value"),
            *("unit", "conditions", "in_force_from", "superseded_on"),
        )
    )

    jurisdiction: str
    provision: str
    substance: str
    cas: str
    applies_to: str
    state: str
    quantity: str
    qualifier: str
    printed_value: str
    printed_unit: str
    value: str
    unit: str
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
        if (self.state == "not permitted") == bool(self.value):
            return f"the figure does not fit the state {self.state}"
        return figure_problem(self, may_be_words=True)


class MixtureLimit(Figure):
    """A rule for the class of a mixture; ``statement`` is the code it leads to."""

    table: ClassVar[str] = "mixture_limits"
    key: ClassVar[tuple[str, ...]] = ("scheme", "hazard", "rule", "printed_value")
    blank: ClassVar[frozenset[str]] = frozenset(
        (
            *("note", "qualifier", "printed_value", "printed_unit", "value", "unit"),
            *("statement", "annex"),
        )
    )

    scheme: str
    hazard: str
    sort: str
    rule: str
    quantity: str
    qualifier: str
    printed_value: str
    printed_unit: str
    value: str
    unit: str
    statement: str
    annex: str
    source_id: str
    source_locator: str
    checked_on: str
    tag: str
    note: str

    def check(self, weights: Mapping[str, Fraction]) -> str | None:
        """Say what is wrong across the cells; see :meth:`Row.check`."""
        return figure_problem(self, may_be_words=True)


class HazardClass(Row):
    """One hazard class that somebody gives a substance.

    A sanity list: it may make us ask, it never classifies. The supplier's safety
    data sheet does.
    """

    table: ClassVar[str] = "hazard_classes"
    key: ClassVar[tuple[str, ...]] = (
        *("cas", "standing", "hazard_class", "statement", "source_id"),
        "source_locator",
    )
    blank: ClassVar[frozenset[str]] = frozenset({"note", "statement", "limits"})

    cas: str
    substance: str
    standing: str
    hazard_class: str
    statement: str
    limits: str
    source_id: str
    source_locator: str
    checked_on: str
    tag: str
    note: str


class LabelElement(Row):
    """One element of the label of a hazard class."""

    table: ClassVar[str] = "label_elements"
    key: ClassVar[tuple[str, ...]] = ("hazard_class", "section", "element")

    hazard_class: str
    section: str
    element: str
    source_id: str
    source_locator: str
    checked_on: str
    tag: str
    note: str


class Phrase(Row):
    """The wording of a statement, by its code and language."""

    table: ClassVar[str] = "phrases"
    key: ClassVar[tuple[str, ...]] = ("code", "language")

    code: str
    series: str
    language: str
    wording: str
    source_id: str
    source_locator: str
    checked_on: str
    tag: str
    note: str

    def check(self, weights: Mapping[str, Fraction]) -> str | None:
        """Say what is wrong across the cells; see :meth:`Row.check`."""
        if not self.code.startswith(self.series):
            return f"code {self.code} is not of the series {self.series}"
        return None


class Ruling(Figure):
    """A rule in words, some with a figure; ``fallback`` is done where it is unread."""

    table: ClassVar[str] = "rules"
    key: ClassVar[tuple[str, ...]] = ("topic", "jurisdiction", "says")
    blank: ClassVar[frozenset[str]] = frozenset(
        (
            *("note", "qualifier", "printed_value", "printed_unit", "value", "unit"),
            "fallback",
        )
    )

    topic: str
    jurisdiction: str
    says: str
    qualifier: str
    printed_value: str
    printed_unit: str
    value: str
    unit: str
    fallback: str
    source_id: str
    source_locator: str
    checked_on: str
    tag: str
    note: str

    def check(self, weights: Mapping[str, Fraction]) -> str | None:
        """Say what is wrong across the cells; see :meth:`Row.check`."""
        if self.tag == "memory" and not self.fallback:
            return "fallback is blank, which a rule from memory needs"
        return figure_problem(self, may_be_words=True)
