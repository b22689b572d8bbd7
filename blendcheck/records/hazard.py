"""What a supplier's safety data sheet says of hazards: sections 2, 3, 9 and 11."""

from typing import Annotated, Self

from pydantic import model_validator

from blendcheck.errors import InputError
from blendcheck.quantity.hazard_figures import (
    SpecificLimit,
    Toxicity,
    read_specific_limit,
    read_toxicity,
)
from blendcheck.quantity.hazard_measures import (
    Measure,
    read_acidity,
    read_factor,
    read_viscosity,
)
from blendcheck.quantity.hazards import (
    NOT_CLASSIFIED,
    HazardClassText,
    read_hazard_class,
)
from blendcheck.records.fields import (
    CasText,
    Record,
    TemperatureText,
    reader,
)

__all__ = ["Hazard"]

ClassText = Annotated[HazardClassText, reader(HazardClassText, read_hazard_class)]
LimitText = Annotated[SpecificLimit, reader(SpecificLimit, read_specific_limit)]
ToxicityText = Annotated[Toxicity, reader(Toxicity, read_toxicity)]
ViscosityText = Annotated[Measure, reader(Measure, read_viscosity)]
AcidityText = Annotated[Measure, reader(Measure, read_acidity)]
FactorText = Annotated[Measure, reader(Measure, read_factor)]


class Hazard(Record):
    """What one paper says of the hazards of a material, or of a component of it.

    Without ``name`` and ``cas`` it speaks of the material itself (section 2), with
    them of a component (section 3). ``copied_whole`` says that every class of that
    section stands here, so that what is not printed is not a class; left out,
    silence says nothing. ``adds_up = false`` marks an acid, base, salt, aldehyde,
    phenol or surfactant whose effect on skin and eyes does not follow a sum.
    """

    document: str | None = None
    name: str = ""
    cas: CasText | None = None
    classes: tuple[ClassText, ...] = ()
    limits: tuple[LimitText, ...] = ()
    ate: tuple[ToxicityText, ...] = ()
    m_acute: FactorText | None = None
    m_chronic: FactorText | None = None
    viscosity: ViscosityText | None = None
    boiling_point: TemperatureText | None = None
    ph: AcidityText | None = None
    adds_up: bool = True
    copied_whole: bool = False

    @property
    def is_of_component(self) -> bool:
        """Whether it speaks of a component and not of the material."""
        return bool(self.name or self.cas)

    @model_validator(mode="after")
    def _says_something(self) -> Self:
        figures = (self.m_acute, self.m_chronic, self.viscosity, self.boiling_point)
        if not (self.classes or self.limits or self.ate or self.ph or any(figures)):
            raise InputError(
                "the entry says nothing of a hazard",
                'write classes = ["..."] as the sheet prints them, or remove it',
                code="hazard-empty",
            )
        names = [one.name for one in self.classes]
        if NOT_CLASSIFIED in names and len(names) > 1:
            raise InputError(
                '"not classified" stands beside a class',
                "keep the one that the sheet prints",
                code="hazard-not-classified",
            )
        found = [(one.name, one.statement) for one in self.classes]
        if len(found) != len(set(found)):
            raise InputError(
                "a hazard class stands twice in one list",
                "keep the line that the sheet prints",
                code="hazard-twice",
            )
        routes = [one.route for one in self.ate]
        if len(routes) != len(set(routes)):
            raise InputError(
                "two toxicity figures are given for one route",
                "keep the one that the sheet classifies with, or the lower one",
                code="toxicity-twice",
            )
        if self.copied_whole and not names:
            raise InputError(
                "copied_whole is set, but no class stands there",
                'write classes = ["not classified"] if that is what the sheet says',
                code="hazard-empty",
            )
        return self
