"""The sourced tables of ``reference/``: who the constituents are, what they need.

Every row names its source, the place in it, and whether somebody read it there
(``seen``) or it was recalled (``memory``). A row that breaks a rule stops the load
with its file and line. Structures are compared with formula and mass by
:mod:`blendcheck.structure`, in the tests and on command, not at every load.

``cells`` and ``conversions`` say what a cell may hold, ``rows`` and its kin what a
row holds, ``tables`` reads them, ``names`` matches what papers print, ``grouping``
says what counts together, ``cautions`` what to warn of, and the look-ups answer for
a substance, an oil or a law. A figure comes as a :class:`Datum`, with its unit,
conditions and source, never as a bare number.
"""

import importlib
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from blendcheck.reference.activity_rows import (
        UnifacAssignment,
        UnifacGroup,
        UnifacInteraction,
    )
    from blendcheck.reference.air_rows import (
        BreathingIrritant,
        ExposureLimit,
        IrritationPoint,
        PhototoxicOil,
        ShowerParameter,
        Swallowing,
    )
    from blendcheck.reference.alerts import (
        air_oxidation_of,
        alerts_of,
        families,
        family_of,
        family_rules,
        functional_groups_of,
        is_air_oxidisable,
    )
    from blendcheck.reference.cautions import (
        numbers_answering,
        oils_named,
        watch,
        watch_for_cas,
        watch_for_oil,
    )
    from blendcheck.reference.cells import (
        RULES,
        check_digit_ok,
    )
    from blendcheck.reference.conversions import (
        QUANTITIES,
        UNITS,
    )
    from blendcheck.reference.duty_lookups import (
        allergen_lists,
        claims,
        duties,
    )
    from blendcheck.reference.duty_rows import (
        AllergenList,
        Claim,
        Duty,
    )
    from blendcheck.reference.figures import (
        Datum,
    )
    from blendcheck.reference.grouping import (
        Group,
        groups,
        groups_of,
        members_of,
    )
    from blendcheck.reference.law_lookups import (
        AllergenEntry,
        allergens,
        allergens_of,
        hazard_classes_of,
        label_elements,
        limits_of,
        mixture_limits,
        phrases,
        rulings,
    )
    from blendcheck.reference.law_rows import (
        Allergen,
        HazardClass,
        IngredientLimit,
        LabelElement,
        MixtureLimit,
        Phrase,
        Ruling,
    )
    from blendcheck.reference.molecule_rows import (
        AirOxidation,
        CarbonSkeleton,
        ConstituentFamily,
        FamilyRule,
        FunctionalGroup,
        StructuralAlert,
    )
    from blendcheck.reference.names import (
        Match,
        find,
        normal_name,
    )
    from blendcheck.reference.oil_lookups import (
        find_oils,
        oil,
        oil_composition,
        oil_properties,
        oil_watch,
        oils,
        oils_with,
        phototoxic_oils,
    )
    from blendcheck.reference.property_lookups import (
        PREFERENCE,
        air_limits_of,
        alcohol_densities_of,
        critical_point_of,
        irritants,
        irritation_of,
        liquid_points_of,
        properties_of,
        shower_parameters,
        swallowing,
        vapour_fits_of,
        vapour_pressures_of,
        why_irritant,
    )
    from blendcheck.reference.property_rows import (
        AlcoholDensity,
        ConstituentWatch,
        CriticalPoint,
        LiquidPoint,
        Oil,
        OilComponent,
        OilNumber,
        OilProperty,
        OilWatch,
        Property,
        VapourFit,
        VapourPressure,
    )
    from blendcheck.reference.registry import (
        TABLES,
        TagCount,
        tags,
    )
    from blendcheck.reference.rows import (
        AtomicWeight,
        Constituent,
        GroupMember,
        OilName,
        Row,
        Source,
        Synonym,
        Watch,
    )
    from blendcheck.reference.tables import (
        constituents,
        read_table,
        rows_of,
        rows_where,
        source,
        sources,
    )
    from blendcheck.reference.volatiles import (
        is_volatile,
    )

__all__ = [
    "PREFERENCE",
    "QUANTITIES",
    "RULES",
    "TABLES",
    "UNITS",
    "AirOxidation",
    "AlcoholDensity",
    "Allergen",
    "AllergenEntry",
    "AllergenList",
    "AtomicWeight",
    "BreathingIrritant",
    "CarbonSkeleton",
    "Claim",
    "Constituent",
    "ConstituentFamily",
    "ConstituentWatch",
    "CriticalPoint",
    "Datum",
    "Duty",
    "ExposureLimit",
    "FamilyRule",
    "FunctionalGroup",
    "Group",
    "GroupMember",
    "HazardClass",
    "IngredientLimit",
    "IrritationPoint",
    "LabelElement",
    "LiquidPoint",
    "Match",
    "MixtureLimit",
    "Oil",
    "OilComponent",
    "OilName",
    "OilNumber",
    "OilProperty",
    "OilWatch",
    "PhototoxicOil",
    "Phrase",
    "Property",
    "Row",
    "Ruling",
    "ShowerParameter",
    "Source",
    "StructuralAlert",
    "Swallowing",
    "Synonym",
    "TagCount",
    "UnifacAssignment",
    "UnifacGroup",
    "UnifacInteraction",
    "VapourFit",
    "VapourPressure",
    "Watch",
    "air_limits_of",
    "air_oxidation_of",
    "alcohol_densities_of",
    "alerts_of",
    "allergen_lists",
    "allergens",
    "allergens_of",
    "check_digit_ok",
    "claims",
    "constituents",
    "critical_point_of",
    "duties",
    "families",
    "family_of",
    "family_rules",
    "find",
    "find_oils",
    "functional_groups_of",
    "groups",
    "groups_of",
    "hazard_classes_of",
    "irritants",
    "irritation_of",
    "is_air_oxidisable",
    "is_volatile",
    "label_elements",
    "limits_of",
    "liquid_points_of",
    "members_of",
    "mixture_limits",
    "normal_name",
    "numbers_answering",
    "oil",
    "oil_composition",
    "oil_properties",
    "oil_watch",
    "oils",
    "oils_named",
    "oils_with",
    "phototoxic_oils",
    "phrases",
    "properties_of",
    "read_table",
    "rows_of",
    "rows_where",
    "rulings",
    "shower_parameters",
    "source",
    "sources",
    "swallowing",
    "tags",
    "vapour_fits_of",
    "vapour_pressures_of",
    "watch",
    "watch_for_cas",
    "watch_for_oil",
    "why_irritant",
]

_ROOMS = {
    "activity_rows": (
        "UnifacAssignment",
        "UnifacGroup",
        "UnifacInteraction",
    ),
    "air_rows": (
        "BreathingIrritant",
        "ExposureLimit",
        "IrritationPoint",
        "PhototoxicOil",
        "ShowerParameter",
        "Swallowing",
    ),
    "alerts": (
        "air_oxidation_of",
        "alerts_of",
        "families",
        "family_of",
        "family_rules",
        "functional_groups_of",
        "is_air_oxidisable",
    ),
    "cautions": (
        "numbers_answering",
        "oils_named",
        "watch",
        "watch_for_cas",
        "watch_for_oil",
    ),
    "cells": (
        "RULES",
        "check_digit_ok",
    ),
    "conversions": (
        "QUANTITIES",
        "UNITS",
    ),
    "duty_lookups": (
        "allergen_lists",
        "claims",
        "duties",
    ),
    "duty_rows": (
        "AllergenList",
        "Claim",
        "Duty",
    ),
    "figures": ("Datum",),
    "grouping": (
        "Group",
        "groups",
        "groups_of",
        "members_of",
    ),
    "law_lookups": (
        "AllergenEntry",
        "allergens",
        "allergens_of",
        "hazard_classes_of",
        "label_elements",
        "limits_of",
        "mixture_limits",
        "phrases",
        "rulings",
    ),
    "law_rows": (
        "Allergen",
        "HazardClass",
        "IngredientLimit",
        "LabelElement",
        "MixtureLimit",
        "Phrase",
        "Ruling",
    ),
    "molecule_rows": (
        "AirOxidation",
        "CarbonSkeleton",
        "ConstituentFamily",
        "FamilyRule",
        "FunctionalGroup",
        "StructuralAlert",
    ),
    "names": (
        "Match",
        "find",
        "normal_name",
    ),
    "oil_lookups": (
        "find_oils",
        "oil",
        "oil_composition",
        "oil_properties",
        "oil_watch",
        "oils",
        "oils_with",
        "phototoxic_oils",
    ),
    "property_lookups": (
        "PREFERENCE",
        "air_limits_of",
        "alcohol_densities_of",
        "critical_point_of",
        "irritants",
        "irritation_of",
        "liquid_points_of",
        "properties_of",
        "shower_parameters",
        "swallowing",
        "vapour_fits_of",
        "vapour_pressures_of",
        "why_irritant",
    ),
    "property_rows": (
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
    ),
    "registry": (
        "TABLES",
        "TagCount",
        "tags",
    ),
    "rows": (
        "AtomicWeight",
        "Constituent",
        "GroupMember",
        "OilName",
        "Row",
        "Source",
        "Synonym",
        "Watch",
    ),
    "tables": (
        "constituents",
        "read_table",
        "rows_of",
        "rows_where",
        "source",
        "sources",
    ),
    "volatiles": ("is_volatile",),
}
_ROOM_OF = {name: room for room, names in _ROOMS.items() for name in names}


def __getattr__(name: str) -> Any:  # noqa: ANN401  # whatever the room holds
    """Import a room when something in it is first asked for."""
    if name not in _ROOM_OF:
        message = f"module {__name__!r} has no attribute {name!r}"
        raise AttributeError(message)
    room = importlib.import_module(f"{__name__}.{_ROOM_OF[name]}")
    value = getattr(room, name)
    globals()[name] = value
    return value
