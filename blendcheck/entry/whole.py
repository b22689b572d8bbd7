"""The two whole entries: one for a substance, one for an essential oil."""

from collections.abc import Mapping
from dataclasses import dataclass

from blendcheck.entry.records import (
    AirLimit,
    Alert,
    AllergenShown,
    Component,
    Fit,
    GroupShown,
    Hazard,
    InOil,
    LegalLimit,
    Name,
    Phototoxicity,
    Place,
    Quantity,
    Told,
)

__all__ = ["Law", "OilEntry", "Structure", "SubstanceEntry"]


@dataclass(frozen=True, slots=True)
class Law:
    """What law, standards and studies say of a substance or an oil.

    Parameters
    ----------
    allergens : tuple of AllergenShown
        Entries of the list of fragrance allergens in which it counts.
    limits : tuple of LegalLimit
        Cosmetic and other law.
    air_limits : tuple of AirLimit
        Workplace and indoor values.
    irritation : tuple of Quantity
        Odour and irritation points, rivals side by side.
    hazards : tuple of Hazard
        A sanity list; the supplier's safety data sheet classifies.
    swallowing : tuple of Told
        For the maker's own note only, never for a household sheet.
    """

    allergens: tuple[AllergenShown, ...]
    limits: tuple[LegalLimit, ...]
    air_limits: tuple[AirLimit, ...]
    irritation: tuple[Quantity, ...]
    hazards: tuple[Hazard, ...]
    swallowing: tuple[Told, ...]


@dataclass(frozen=True, slots=True)
class Structure:
    """What the structure of a substance is, and what follows from it.

    Parameters
    ----------
    smiles : str
        Empty where there is none.
    drawn : str
        What it shows: ``complete``, ``open``, ``one of``, ``none``.
    formula, molar_mass : str
        Formula, and average molar mass as printed text [g/mol]; may be empty.
    place : Place or None
        Where name, structure and mass stand.
    family : str or None
        The family in which it is shown.
    family_rules : tuple of Told
        What puts a substance into that family.
    functional_groups : Mapping or None
        Count of each by name; None where the structure is not known.
    alerts : tuple of Alert or None
        Invitations to look; None where the structure is not known. Empty does not
        speak for the substance.
    air_oxidisable : bool or None
        Whether it has a place that air attacks; None is not known.
    air_oxidation : tuple of Told
        What was published on the substance after standing in air.
    """

    smiles: str
    drawn: str
    formula: str
    molar_mass: str
    place: Place | None
    family: str | None
    family_rules: tuple[Told, ...]
    functional_groups: Mapping[str, int] | None
    alerts: tuple[Alert, ...] | None
    air_oxidisable: bool | None
    air_oxidation: tuple[Told, ...]


@dataclass(frozen=True, slots=True)
class SubstanceEntry:
    """Everything that the tables say about a substance.

    Parameters
    ----------
    cas : str or None
        Its CAS number; None where the tables name it without one.
    name : str
        The name that blendcheck shows.
    listed : bool
        Whether the table of constituents has it. Where it has not, only what other
        tables say of it is here.
    note : str
        What is odd about the substance.
    names, numbers : tuple of Name
        Other names and numbers, the INCI name among them.
    structure : Structure
        Structure, family, functional groups, invitations to look.
    groups : tuple of GroupShown
        Those that it counts in.
    watch : tuple of Told
        Why it is watched for, and which cautions it calls for.
    breathing : tuple of Told
        Why it is taken for a breathing irritant; empty is not known.
    properties : tuple of Quantity
        Rival figures side by side.
    fits : tuple of Fit
        Vapour-pressure coefficients.
    in_oils : tuple of InOil
        Published oils that contain it, and how much.
    law : Law
        Law, standards and studies.
    """

    cas: str | None
    name: str
    listed: bool
    note: str
    names: tuple[Name, ...]
    numbers: tuple[Name, ...]
    structure: Structure
    groups: tuple[GroupShown, ...]
    watch: tuple[Told, ...]
    breathing: tuple[Told, ...]
    properties: tuple[Quantity, ...]
    fits: tuple[Fit, ...]
    in_oils: tuple[InOil, ...]
    law: Law


@dataclass(frozen=True, slots=True)
class OilEntry:
    """Everything that the tables say about an essential oil.

    Parameters
    ----------
    oil, name, botanical_name, part : str
        Its id, its name, the plant and the part of it.
    cas : str
        Its main CAS number; blank where the tables have none.
    note : str
        What is odd about the oil.
    place : Place
        Where its name stands.
    numbers : tuple of Name
        All CAS numbers under which papers print it.
    components : tuple of Component
        Those with the highest published share first.
    properties : tuple of Quantity
        Density, refractive index, flash point; rivals side by side.
    watch : tuple of Told
        Constituents to watch for, and cautions about the oil.
    phototoxicity : tuple of Phototoxicity
        Empty does not speak for the oil.
    law : Law
        Law, standards and studies.
    """

    oil: str
    name: str
    botanical_name: str
    part: str
    cas: str
    note: str
    place: Place
    numbers: tuple[Name, ...]
    components: tuple[Component, ...]
    properties: tuple[Quantity, ...]
    watch: tuple[Told, ...]
    phototoxicity: tuple[Phototoxicity, ...]
    law: Law
