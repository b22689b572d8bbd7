"""Every table by its row class, and how much of each somebody read in its source.

Apart from :mod:`blendcheck.reference.tables`, so that a check which asks for a few
rows does not first define the row classes of all tables.
"""

from collections.abc import Mapping
from fractions import Fraction

from blendcheck.frozen import Frozen
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
from blendcheck.reference.duty_rows import AllergenList, Claim, Duty
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
from blendcheck.reference.tables import columns_of, rows_of

__all__ = ["TABLES", "TagCount", "tags"]

TABLES: tuple[type[Row], ...] = (
    AirOxidation,
    AlcoholDensity,
    Allergen,
    AllergenList,
    AtomicWeight,
    BreathingIrritant,
    CarbonSkeleton,
    Claim,
    Constituent,
    ConstituentFamily,
    ConstituentWatch,
    CriticalPoint,
    Duty,
    ExposureLimit,
    FamilyRule,
    FunctionalGroup,
    GroupMember,
    HazardClass,
    IngredientLimit,
    IrritationPoint,
    LabelElement,
    LiquidPoint,
    MixtureLimit,
    Oil,
    OilComponent,
    OilName,
    OilNumber,
    OilProperty,
    OilWatch,
    PhototoxicOil,
    Phrase,
    Property,
    Ruling,
    ShowerParameter,
    Source,
    StructuralAlert,
    Swallowing,
    Synonym,
    UnifacAssignment,
    UnifacGroup,
    UnifacInteraction,
    VapourFit,
    VapourPressure,
    Watch,
)
"""The row class of every table."""


class TagCount(Frozen):
    """How many rows of a table somebody read in their source, how many not."""

    seen: int
    memory: int

    @property
    def memory_share(self) -> Fraction:
        """Share of the rows that rest on memory, from 0 to 1."""
        return Fraction(self.memory, max(1, self.seen + self.memory))


def tags() -> Mapping[str, TagCount]:
    """Count the tags of every table that has them.

    Returns
    -------
    Mapping
        By the name of the table.
    """
    counts = {}
    for row_type in TABLES:
        if "tag" in columns_of(row_type):
            found = [str(getattr(row, "tag", "")) for row in rows_of(row_type)]
            counts[row_type.table] = TagCount(
                found.count("seen"), found.count("memory")
            )
    return counts
