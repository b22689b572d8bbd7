"""What a row can be held against beyond its own cells, for trying slips on.

Each returns True when the row, changed, no longer agrees with something that stands
elsewhere: a library, a rival source, an estimate by groups, another table. The
bounds are those of the tests that hold the tables themselves to them.
"""

import re
from collections import defaultdict
from dataclasses import fields
from decimal import Decimal
from functools import cache

import pytest
from chemicals.identifiers import search_chemical

from blendcheck import reference
from tests.reference.fits import METHODS, factor, in_library, library, pressure
from tests.reference.volumes import by_groups, is_caged

# Every number in these is one of the table of constituents.
OF_CONSTITUENTS = {
    *("air_oxidation", "breathing_irritants", "constituent_families", "groups"),
    *("properties", "swallowing", "synonyms", "vapour_coefficients"),
    *("vapour_pressure", "watch"),
}


# Made from other tables of ours; tests make them again and compare.
MADE = {"constituent_families", "oil_watch"}


def cells(row):
    return {field.name: getattr(row, field.name) for field in fields(row)}


# ---- numbers -----------------------------------------------------------------


@cache
def mentions():
    """Return the tables in which each CAS number stands."""
    found = defaultdict(set)
    for row_type in reference.TABLES:
        for row in reference.rows_of(row_type):
            for cell in cells(row).values():
                if reference.check_digit_ok(cell):
                    found[cell].add(row_type.table)
    return dict(found)


@cache
def library_formula(cas):
    """Return the formula of a number in the identifier table of ``chemicals``."""
    try:
        found = search_chemical(cas)
    except ValueError:
        return None
    return found.formula if found.CASs == cas else None


def is_confirmed(cas):
    """Say whether a number stands in two tables, or in ours and the library."""
    return len(mentions()[cas] - MADE) > 1 or library_formula(cas) is not None


def means_another(changed, table, column, old):
    """A number with a right check digit is no constituent, or confirmed no longer.

    Tables of constituents must keep to that table; else the number must stand in
    another table as well, or be that of the same formula in the library.
    """
    new = changed[column]
    if table in MADE:
        return True
    if table in OF_CONSTITUENTS and new not in reference.constituents():
        return True
    if table == "properties":
        return property_disagrees(changed)
    if table == "vapour_coefficients":
        return fit_disagrees(changed)
    if new in mentions():
        return False
    if mentions()[old] - {table} - MADE:
        return True
    theirs = library_formula(old)
    return theirs is not None and library_formula(new) != theirs


# ---- vapour pressures --------------------------------------------------------


def fit_disagrees(changed):
    """The coefficients do not give the pressure that stands beside them."""
    fit = reference.VapourFit(**changed)
    digits = Decimal(fit.check_p).as_tuple()
    half = Decimal((0, (5,), len(digits.digits) + digits.exponent - 11))
    try:
        found = pressure(fit, float(fit.check_t_k))
    except (OverflowError, ValueError, ZeroDivisionError):
        return True
    if isinstance(found, complex) or abs(found - float(fit.check_p)) > float(half):
        return True
    ranges = library(fit.cas).T_limits
    ours = float(fit.t_min_k), float(fit.t_max_k)
    return ours != pytest.approx(ranges.get(METHODS[fit.source_id], (0, 0)))


def pressure_disagrees(changed):
    """A vapour pressure is over 1.5 times another, or 2 times when from memory."""
    row = reference.VapourPressure(**changed)
    ours, kelvin = float(row.value), float(row.at) + 273.15
    if not ours:
        return True
    theirs = [in_library(row.cas, method, kelvin) for method in METHODS.values()]
    theirs += [
        float(other.value)
        for other in reference.rows_of(reference.VapourPressure)
        if (other.cas, other.at, other.phase) == (row.cas, row.at, row.phase)
        and other.source_id != row.source_id
    ]
    allowed = 2 if row.tag == "memory" else 1.5
    return any(factor(ours, other) > allowed for other in theirs if other)


# ---- properties --------------------------------------------------------------

RIVALS = {"boiling point": 16, "melting point": 16, "flash point": 24}  # K
BANDS = {  # of plain organic liquids and solids, from memory
    "autoignition temperature": (450, 950),
    "boiling point": (190, 750),
    "density": (650, 1400),
    "enthalpy of vaporisation": (20_000, 130_000),
    "flash point": (240, 520),
    "melting point": (80, 650),
}
# Where a source tabulates one temperature only.
AT_25 = {"enthalpy of vaporisation", "Henry solubility", "water solubility"}
FAR = "more than 8 K"


@cache
def values(cas, quantity):
    return tuple(
        (float(datum.value), datum.source_id, datum.source_locator, datum.note)
        for datum in reference.properties_of(cas, quantity)
        if datum.value is not None and datum.basis != "estimated"
    )


def property_disagrees(changed):
    """A property contradicts a rival, its band, its groups or the order of things."""
    row = reference.Property(**changed)
    ours = float(row.value)
    low, high = BANDS.get(row.quantity, (0, float("inf")))
    if not low <= ours <= high or (row.quantity in AT_25 and row.at not in ("", "25")):
        return True
    return (
        far_from_rivals(row, ours)
        or out_of_order(row, ours)
        or (row.quantity == "density" and density_disagrees(row, ours))
        or (row.quantity == "boiling point" and boiling_disagrees(row, ours))
    )


def far_from_rivals(row, ours):
    allowed = RIVALS.get(row.quantity)
    if allowed is None or row.basis == "estimated":
        return False
    return any(
        abs(ours - value) > allowed
        for value, *place, note in values(row.cas, row.quantity)
        if place != [row.source_id, row.source_locator] and FAR not in row.note + note
    )


def out_of_order(row, ours):
    """Melting below boiling, flash below boiling, the lower limit below the upper."""
    if row.quantity in ("melting point", "flash point"):
        boiling = [value for value, *_ in values(row.cas, "boiling point")]
        return bool(boiling) and ours >= max(boiling)
    if row.quantity == "boiling point":
        below = values(row.cas, "melting point") + values(row.cas, "flash point")
        return any(ours <= value for value, *_ in below)
    if row.quantity == "lower flammable limit":
        upper = values(row.cas, "upper flammable limit")
        return any(ours >= value for value, *_ in upper)
    if row.quantity == "upper flammable limit":
        lower = values(row.cas, "lower flammable limit")
        return any(ours <= value for value, *_ in lower)
    return False


@cache
def group_volume(cas):
    smiles = reference.constituents()[cas].smiles
    return None if not smiles or is_caged(smiles) else by_groups(smiles)


def is_fused(row):
    """Say whether figure and temperature still make the digits that a note quotes."""
    quoted = re.search(r"reads ([0-9.]+)", row.note)
    if quoted is None:
        return True
    fused = Decimal(quoted[1]) / 1000
    return any(
        Decimal(f"{row.printed_value}{'0' * zeros}{row.at}") == fused
        for zeros in range(4)
    )


def density_disagrees(row, ours):
    if not is_fused(row):
        return True
    volume = group_volume(row.cas) if "solid" not in row.note else None
    if volume is None:
        return False
    molar_mass = float(reference.constituents()[row.cas].molar_mass_value)
    return abs(1000 * molar_mass / ours / volume - 1) > 0.14


def boiling_disagrees(row, ours):
    return FAR not in row.note and any(
        factor(pressure(fit, ours), 101_325) > 1.75
        for fit in reference.vapour_fits_of(row.cas)
        if float(fit.t_min_k) - 2 <= ours <= float(fit.t_max_k) + 2
    )


# ---- other tables ------------------------------------------------------------


def threshold_disagrees(changed):
    """All entries of the list have one threshold for each way of use."""
    limits = changed["leave_on"], changed["rinse_off"]
    return limits not in (("0.001", "0.01"), ("", ""))


def limit_disagrees(changed):
    """A limit printed in ppm is not the one that it prints in mg/m3."""
    row = reference.ExposureLimit(**changed)
    same = ("cas", "issued_by", "quantity", "conditions")
    constituent = reference.constituents().get(row.cas)
    mass = float(constituent.molar_mass_value) if constituent else 136.2  # terpenes
    for other in reference.rows_of(reference.ExposureLimit):
        units = {row.printed_unit: row, other.printed_unit: other}
        if set(units) != {"ppm", "mg/m3"}:
            continue
        if any(getattr(row, name) != getattr(other, name) for name in same):
            continue
        low, high = (float(units["ppm"].value) * mass / v for v in (24.45, 24.05))
        if not low * 0.945 <= float(units["mg/m3"].value) <= high * 1.08:
            return True
    return False


OIL_BANDS = {  # essential oils, from memory
    "relative density": (0.8, 1.25),
    "refractive index": (1.4, 1.66),
    "flash point": (293, 450),
}


def oil_property_disagrees(changed):
    """A range leaves its band."""
    row = reference.OilProperty(**changed)
    ends = [float(end) for end in (row.low, row.high) if end]
    low, high = OIL_BANDS.get(row.quantity, (float("-inf"), float("inf")))
    return any(not low <= end <= high for end in ends)


CROSS_CHECKS = {
    "allergens": threshold_disagrees,
    "exposure_limits": limit_disagrees,
    "oil_properties": oil_property_disagrees,
    "oil_watch": lambda _: True,  # a test makes it again from other tables
    "properties": property_disagrees,
    "vapour_coefficients": fit_disagrees,
    "vapour_pressure": pressure_disagrees,
}
