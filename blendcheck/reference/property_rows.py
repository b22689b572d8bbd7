"""Rows on substances and oils: properties, vapour pressures, compositions.

Columns that every table of figures has are explained in
:mod:`blendcheck.reference.figures`; ``checked_on`` is the day on which the figure
was last compared with its source, ``basis`` what it rests on, ``at`` the
temperature that it was printed for [degC].
"""

from collections.abc import Mapping
from fractions import Fraction
from typing import ClassVar

from blendcheck.quantity import read_number
from blendcheck.reference.figures import Figure, Span, figure_problem, span_problem
from blendcheck.reference.rows import Row

__all__ = [
    "AlcoholDensity",
    "ConstituentWatch",
    "CriticalPoint",
    "LiquidPoint",
    "Oil",
    "OilComponent",
    "OilNumber",
    "OilProperty",
    "OilWatch",
    "Property",
    "VapourFit",
    "VapourPressure",
]


class AlcoholDensity(Figure):
    """The density of an alcohol with water; ``share`` is its percent by mass."""

    table: ClassVar[str] = "alcohol_densities"
    key: ClassVar[tuple[str, ...]] = ("cas", "share", "at", "source_id")
    blank: ClassVar[frozenset[str]] = frozenset({"note", "conditions"})

    cas: str
    quantity: str
    share: str
    qualifier: str
    printed_value: str
    printed_unit: str
    value: str
    unit: str
    at: str
    basis: str
    conditions: str
    source_id: str
    source_locator: str
    checked_on: str
    tag: str
    note: str

    def check(self, weights: Mapping[str, Fraction]) -> str | None:
        """Say what is wrong across the cells; see :meth:`Row.check`."""
        if not 0 <= read_number(self.share) <= 100:
            return f"share {self.share} is no percent"
        return figure_problem(self)


class Property(Figure):
    """A property of a constituent, one printed figure a row."""

    table: ClassVar[str] = "properties"
    key: ClassVar[tuple[str, ...]] = (
        *("cas", "quantity", "printed_value", "at", "conditions", "source_id"),
        "source_locator",
    )
    blank: ClassVar[frozenset[str]] = frozenset({"note", "at", "conditions"})

    cas: str
    quantity: str
    qualifier: str
    printed_value: str
    printed_unit: str
    value: str
    unit: str
    at: str
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


class VapourPressure(Figure):
    """A vapour pressure read row by row, with its temperature and its method.

    ``phase`` says whether the source means the crystal, the liquid (which below the
    melting point is the sub-cooled liquid) or does not say. What evaporates from a
    blend is the liquid's.
    """

    table: ClassVar[str] = "vapour_pressure"
    key: ClassVar[tuple[str, ...]] = ("cas", "at", "printed_value", "source_id")
    blank: ClassVar[frozenset[str]] = frozenset({"note", "conditions"})

    cas: str
    quantity: str
    qualifier: str
    printed_value: str
    printed_unit: str
    value: str
    unit: str
    at: str
    phase: str
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


class VapourFit(Row):
    """Coefficients of a vapour-pressure equation, valid between two temperatures.

    ``equation`` is ``Antoine`` (log p = a - b/(T + c)), ``Wagner 3-6`` or ``Wagner
    2.5-5`` (ln(p/pc) = (a x + b x^1.5 + c x^3 + d x^6)/Tr or with powers 2.5 and 5,
    x = 1 - Tr) or ``DIPPR 101`` (ln p = a + b/T + c ln T + d T^e). ``t_c`` [K] and
    ``p_c`` [Pa] are the critical point where the equation uses it. Nothing is
    claimed outside ``t_min_k`` to ``t_max_k``. ``check_p`` is the pressure [Pa]
    that the coefficients give at ``check_t_k``, so that a slip shows.
    """

    table: ClassVar[str] = "vapour_coefficients"
    key: ClassVar[tuple[str, ...]] = ("cas", "source_id")
    blank: ClassVar[frozenset[str]] = frozenset(
        {"note", "c", "d", "e", "t_c", "p_c", "log_base"}
    )

    cas: str
    equation: str
    a: str
    b: str
    c: str
    d: str
    e: str
    t_c: str
    p_c: str
    t_min_k: str
    t_max_k: str
    pressure_unit: str
    temperature_unit: str
    log_base: str
    check_t_k: str
    check_p: str
    basis: str
    source_id: str
    source_locator: str
    checked_on: str
    tag: str
    note: str

    def check(self, weights: Mapping[str, Fraction]) -> str | None:
        """Say what is wrong across the cells; see :meth:`Row.check`."""
        needed = {
            "Antoine": ("c", "log_base"),
            "DIPPR 101": ("c", "d", "e"),
        }.get(self.equation, ("c", "d", "t_c", "p_c"))
        blank = [name for name in needed if not getattr(self, name)]
        if blank:
            return f"{blank[0]} is blank, which {self.equation} needs"
        low, at, high = map(Fraction, (self.t_min_k, self.check_t_k, self.t_max_k))
        if not low < high:
            return f"t_min_k {self.t_min_k} is not below t_max_k {self.t_max_k}"
        if not low <= at <= high:
            return f"check_t_k {self.check_t_k} is outside the range of the fit"
        return None


class CriticalPoint(Row):
    """An estimated critical point, for the anchored estimate of vapour pressure.

    ``t_c_over_t_b`` is the critical temperature as a multiple of the boiling point,
    ``p_c`` the critical pressure [Pa], ``fishtine_class`` the class of compound by
    which Fishtine's factor is chosen. No row where the estimate does not hold.
    """

    table: ClassVar[str] = "critical_points"
    key: ClassVar[tuple[str, ...]] = ("cas",)

    cas: str
    t_c_over_t_b: str
    p_c: str
    pressure_unit: str
    fishtine_class: str
    basis: str
    source_id: str
    source_locator: str
    checked_on: str
    tag: str
    note: str

    def check(self, weights: Mapping[str, Fraction]) -> str | None:
        """Say what is wrong across the cells; see :meth:`Row.check`."""
        if Fraction(self.t_c_over_t_b) <= 1:
            return f"t_c_over_t_b {self.t_c_over_t_b} is not above 1"
        return None


class LiquidPoint(Property):
    """A flash or boiling point that is used only where ``properties`` has none.

    Most were recalled; an estimate that rests on one says so, and takes a recalled
    flash point 10 K lower at its low end.
    """

    table: ClassVar[str] = "liquid_points"


class Oil(Row):
    """An essential oil of which compositions or figures have been published.

    ``oil`` is its id, ``watched_as`` the name that the table of cautions gives the
    same or the nearest oil.
    """

    table: ClassVar[str] = "oils"
    key: ClassVar[tuple[str, ...]] = ("oil",)
    blank: ClassVar[frozenset[str]] = frozenset({"note", "watched_as"})

    oil: str
    name: str
    botanical_name: str
    part: str
    cas: str
    watched_as: str
    source_id: str
    source_locator: str
    checked_on: str
    tag: str
    note: str


class OilNumber(Row):
    """A CAS number under which papers print an oil; one number may name several."""

    table: ClassVar[str] = "oil_cas"
    key: ClassVar[tuple[str, ...]] = ("oil", "cas")

    oil: str
    cas: str
    source_id: str
    source_locator: str
    checked_on: str
    tag: str
    note: str


class OilProperty(Span):
    """A published range of a property of an oil."""

    table: ClassVar[str] = "oil_properties"
    key: ClassVar[tuple[str, ...]] = (
        *("oil", "quantity", "printed_value", "source_id", "source_locator"),
    )
    blank: ClassVar[frozenset[str]] = frozenset({"note", "low", "high", "conditions"})

    oil: str
    quantity: str
    printed_value: str
    printed_unit: str
    low: str
    high: str
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
        return span_problem(self)


class OilComponent(Span):
    """A published share of a constituent in an oil: a range or a typical figure.

    It says what was found in other lots of that name. It is never the maker's lot.
    """

    table: ClassVar[str] = "oil_composition"
    key: ClassVar[tuple[str, ...]] = (
        *("oil", "constituent", "quantity", "printed_value"),
        *("edition", "source_id", "source_locator"),
    )
    blank: ClassVar[frozenset[str]] = frozenset(
        {"note", "cas", "low", "high", "conditions", "edition"}
    )

    oil: str
    constituent: str
    cas: str
    quantity: str
    printed_value: str
    printed_unit: str
    low: str
    high: str
    unit: str
    basis: str
    edition: str
    conditions: str
    source_id: str
    source_locator: str
    checked_on: str
    tag: str
    note: str

    def check(self, weights: Mapping[str, Fraction]) -> str | None:
        """Say what is wrong across the cells; see :meth:`Row.check`."""
        return span_problem(self) or (
            "high is above 100 %" if self.high and Fraction(self.high) > 100 else None
        )


class ConstituentWatch(Row):
    """Why a constituent is looked for in every oil; ``concern`` is a code."""

    table: ClassVar[str] = "constituent_watch"
    key: ClassVar[tuple[str, ...]] = ("cas", "concern", "source_id")

    cas: str
    name: str
    concern: str
    says: str
    source_id: str
    source_locator: str
    checked_on: str
    tag: str
    note: str


class OilWatch(Row):
    """A watched constituent that published compositions name for an oil.

    Made from the tables ``oil_composition`` and ``constituent_watch``. ``most`` is
    the highest share that any of them prints [%], blank where none has a high end.
    ``tag`` is ``memory`` unless both the reason and a published share were read.
    """

    table: ClassVar[str] = "oil_watch"
    key: ClassVar[tuple[str, ...]] = ("oil", "cas", "concern", "source_id")
    blank: ClassVar[frozenset[str]] = frozenset({"note", "most"})
    cites: ClassVar[tuple[str, ...]] = ("source_id", "content_source_id")

    oil: str
    cas: str
    name: str
    concern: str
    says: str
    most: str
    content_source_id: str
    source_id: str
    source_locator: str
    tag: str
    note: str
