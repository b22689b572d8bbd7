"""What an entry is made of: frozen records with the place of every statement.

Nothing here stands in for a supplier's own paper. A figure is kept with the text
that was printed, its conditions and its source; rival figures stay beside each
other, the preferred one first, and what nobody read in a source says so.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from blendcheck.interval import Range
from blendcheck.reference import Source

__all__ = [
    "AirLimit",
    "Alert",
    "AllergenShown",
    "Component",
    "Figure",
    "Fit",
    "GroupShown",
    "Hazard",
    "InOil",
    "LegalLimit",
    "Name",
    "Part",
    "Phototoxicity",
    "Place",
    "Quantity",
    "Share",
    "Told",
]


@dataclass(frozen=True, slots=True)
class Place:
    """Where a statement stands, and whether somebody read it there.

    Parameters
    ----------
    source : Source
        Citation, edition, address and licence.
    locator : str
        Page, table or entry.
    tag : str
        ``seen``, or ``memory`` when nobody read it in a source.
    note : str
        What is odd.
    """

    source: Source
    locator: str
    tag: str
    note: str

    @property
    def from_memory(self) -> bool:
        """Whether nobody read it in a source."""
        return self.tag == "memory"


@dataclass(frozen=True, slots=True)
class Figure:
    """One published figure.

    Parameters
    ----------
    quantity : str
        What is measured.
    printed : str
        As the source prints it, with its sign and unit; words where it has no
        number.
    shown : str
        The same in the unit that people read, such as °C; the printed text where
        that has this unit already.
    range : Range or None
        In ``unit``; None where the source has words only.
    unit : str
        Our unit of ``range``.
    basis : str
        Measured, estimated, regulatory, conventional, not stated.
    conditions : str
        Method, state, temperature, edition, as far as stated.
    place : Place
        Where it stands.
    """

    quantity: str
    printed: str
    shown: str
    range: Range | None
    unit: str
    basis: str
    conditions: str
    place: Place


@dataclass(frozen=True, slots=True)
class Quantity:
    """A quantity with its rival figures side by side, the preferred one first."""

    name: str
    figures: tuple[Figure, ...]


@dataclass(frozen=True, slots=True)
class Name:
    """A name or number; ``kind`` says of what sort it is."""

    text: str
    kind: str
    place: Place


@dataclass(frozen=True, slots=True)
class Told:
    """Something that a source says in words, with a figure where it has one."""

    about: str
    says: str
    figure: Figure | None
    place: Place


@dataclass(frozen=True, slots=True)
class Part:
    """A member of a group: its number, its name, and how it belongs there."""

    cas: str
    name: str
    relation: str
    place: Place


@dataclass(frozen=True, slots=True)
class GroupShown:
    """Substances that count together; ``cas`` is None where the group has none."""

    name: str
    cas: str | None
    parts: tuple[Part, ...]


@dataclass(frozen=True, slots=True)
class Alert:
    """A reactive place in the structure: an invitation to look, never a verdict."""

    name: str
    domain: str
    says: str
    place: Place


@dataclass(frozen=True, slots=True)
class Fit:
    """Coefficients of a vapour-pressure equation, as kept.

    Parameters
    ----------
    equation, formula : str
        Its name, and what is computed.
    coefficients : Mapping
        Printed text by letter.
    valid : str
        Between which temperatures; nothing is claimed outside.
    place : Place
        Where they stand.
    """

    equation: str
    formula: str
    coefficients: Mapping[str, str]
    valid: str
    place: Place


@dataclass(frozen=True, slots=True)
class Share:
    """A published share of a constituent in an oil.

    Parameters
    ----------
    printed_as : str
        The constituent as the source names it.
    cas : str or None
        Its number, if there is one.
    edition : str
        Of a standard.
    typical : bool
        The source gives a typical figure instead of a range.
    figure : Figure
        The share. [% of the oil]
    """

    printed_as: str
    cas: str | None
    edition: str
    typical: bool
    figure: Figure


@dataclass(frozen=True, slots=True)
class InOil:
    """An oil in which published compositions name a constituent, and how much."""

    oil: str
    name: str
    shares: tuple[Share, ...]


@dataclass(frozen=True, slots=True)
class AirLimit:
    """A limit or guide value for air; for workers or for a lifetime, not a shower."""

    issued_by: str
    jurisdiction: str
    substance: str
    in_force_from: str
    superseded_on: str
    figure: Figure


@dataclass(frozen=True, slots=True)
class LegalLimit:
    """What a law allows of a substance; the figure may be words."""

    jurisdiction: str
    provision: str
    substance: str
    applies_to: str
    state: str
    in_force_from: str
    superseded_on: str
    figure: Figure


@dataclass(frozen=True, slots=True)
class Hazard:
    """A hazard class that somebody gives a substance: a sanity list, no authority."""

    substance: str
    standing: str
    hazard_class: str
    statement: str
    wording: str
    limits: str
    place: Place


@dataclass(frozen=True, slots=True)
class AllergenShown:
    """An entry of the list of fragrance allergens.

    ``leave_on`` and ``rinse_off`` are the shares above which it must be named
    [% w/w, printed text]; both blank where the substance is prohibited instead.
    """

    entry: str
    label_name: str
    members: tuple[str, ...]
    leave_on: str
    rinse_off: str
    prohibited: bool
    since: str
    place: Place


@dataclass(frozen=True, slots=True)
class Component:
    """A constituent of published compositions of an oil.

    Parameters
    ----------
    name : str
        As the first source names it.
    cas : str or None
        Its number, if there is one.
    family : str or None
        The family in which it is shown.
    read : Range or None
        All ranges that somebody read in a source, together. [%]
    recalled : Range or None
        All other figures together: from memory, or a typical figure. [%]
    shares : tuple of Share
        Every published share, side by side.
    """

    name: str
    cas: str | None
    family: str | None
    read: Range | None
    recalled: Range | None
    shares: tuple[Share, ...]


@dataclass(frozen=True, slots=True)
class Phototoxicity:
    """Whether an oil that is made in a certain way is listed as acting with light.

    ``fits`` is True where the oil of the entry is made that way, None where the way
    is not stated.
    """

    name: str
    made: str
    phototoxic: str
    says: str
    fits: bool | None
    place: Place
