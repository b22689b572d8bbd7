"""What is classified and what comes out: parts with their profiles, classes with sums.

Shares are exact ranges. A class is *certain* when the documented low ends alone reach
its limit (it, or a more severe one), *possible* when the high ends can, and *cannot be
ruled out* when only something that nobody classified could.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from fractions import Fraction
from types import MappingProxyType

from blendcheck.interval import Range
from blendcheck.quantity import Mark
from blendcheck.quantity.hazard_figures import Route, SpecificLimit, Toxicity
from blendcheck.quantity.hazards import family_of

__all__ = [
    "EU",
    "UN",
    "US",
    "Claim",
    "Classes",
    "Classified",
    "Ingredient",
    "Mixture",
    "Part",
    "Profile",
    "Scheme",
    "Standing",
]

HUNDRED = Fraction(100)
_NO_TOXICITY: Mapping[Route, Toxicity] = MappingProxyType({})


class Standing(StrEnum):
    """How sure a class is, surest first."""

    CERTAIN = "certain"
    POSSIBLE = "possible"
    OPEN = "cannot be ruled out"
    BELOW = "below its limit"


@dataclass(frozen=True, slots=True)
class Scheme:
    """Whose rules are read.

    Parameters
    ----------
    name : str
        ``"EU CLP"``, ``"UN GHS"`` or ``"US"``.
    category_5 : bool
        Whether category 5 of acute toxicity is used; only the UN has it.
    by_sums_only : bool
        Whether acids, bases and others whose effect does not add up are summed all
        the same. For comparison only.
    """

    name: str
    category_5: bool = False
    by_sums_only: bool = False


EU = Scheme("EU CLP")
"""Regulation (EC) No 1272/2008, Annex I."""
UN = Scheme("UN GHS", category_5=True)
"""The UN's scheme with every category."""
US = Scheme("US")
"""29 CFR 1910.1200 where it differs: sensitisers; water is left out."""


@dataclass(frozen=True, slots=True)
class Claim:
    """A class that somebody gives a substance or a material.

    Parameters
    ----------
    name, statement : str
        Class and category, and the statement's code.
    source : str
        Who says so, in words.
    documented : bool
        False for a class from memory: it may make a class possible, never certain.
    """

    name: str
    statement: str
    source: str = "supplier's sheet"
    documented: bool = True

    @property
    def family(self) -> str:
        """The class without its category."""
        return family_of(self.name)


@dataclass(frozen=True, slots=True)
class Profile:
    """What is known of the hazards of a substance or a material.

    Parameters
    ----------
    claims : tuple of Claim
        Its classes.
    complete : bool
        Whether a class that does not stand there is not one.
    limits : tuple of SpecificLimit
        Specific concentration limits.
    toxicity : mapping
        Acute toxicity figures by route.
    m_acute, m_chronic : Fraction or None
        M-factors.
    adds_up : bool
        False for an acid, base, salt, aldehyde, phenol or surfactant that is marked.
    acidity, viscosity, flash, boiling : Range or None
        pH; kinematic viscosity at 40 °C [mm2/s]; flash and boiling point [°C].
    entered : bool
        Whether a supplier's paper was entered for it at all. The toxicity of what has
        no paper here is not unknown to science, only to us: it is asked for.
    """

    claims: tuple[Claim, ...] = ()
    complete: bool = False
    limits: tuple[SpecificLimit, ...] = ()
    toxicity: Mapping[Route, Toxicity] = field(default_factory=lambda: _NO_TOXICITY)
    m_acute: Fraction | None = None
    m_chronic: Fraction | None = None
    adds_up: bool = True
    acidity: Range | None = None
    viscosity: Range | None = None
    flash: Range | None = None
    boiling: Range | None = None
    entered: bool = True

    def speaks(self, families: frozenset[str]) -> bool:
        """Whether it says what the class is, or that there is none.

        Parameters
        ----------
        families : frozenset of str
            Classes without their category.
        """
        return self.complete or any(
            one.documented and one.family in families for one in self.claims
        )


@dataclass(frozen=True, slots=True)
class Ingredient:
    """A component of a part; its share is one of the whole mixture [%]."""

    name: str
    key: str
    share: Range
    profile: Profile = Profile()


@dataclass(frozen=True, slots=True)
class Part:
    """One lot of a material in a mixture.

    Parameters
    ----------
    name, key : str
        What it is called, and which substance it is.
    share : Range
        Of the mixture. [%]
    profile : Profile
        What its own paper says of it as a whole.
    components : tuple of Ingredient
        What its papers list.
    lot : str
        Tells two lots of one material apart.
    called : str
        Its name without the lot, as a label writes it; ``name`` by default.
    """

    name: str
    key: str
    share: Range
    profile: Profile = Profile()
    components: tuple[Ingredient, ...] = ()
    lot: str = ""
    called: str = ""

    @property
    def place(self) -> str:
        """Key and lot: what can hold no more than itself."""
        return f"{self.key}/{self.lot}" if self.lot else self.key


@dataclass(frozen=True, slots=True)
class Mixture:
    """A mixture to classify.

    Parameters
    ----------
    name : str
        ``"neat blend"`` or ``"finished product"``.
    parts : tuple of Part
        What it is made of.
    liquid : bool or None
        Whether it is a liquid; ``None`` where nobody said.
    flash, boiling, viscosity, acidity : Range or None
        Measured on the mixture itself: °C, °C, mm2/s at 40 °C, pH.
    """

    name: str
    parts: tuple[Part, ...]
    liquid: bool | None = True
    flash: Range | None = None
    boiling: Range | None = None
    viscosity: Range | None = None
    acidity: Range | None = None

    @property
    def alone(self) -> Part | None:
        """The one material that it is, with nothing else in it.

        Such a mixture is what its supplier classified, and keeps those classes.
        """
        parts = [part for part in self.parts if part.share.high != 0]
        same = {(part.key, part.profile.claims) for part in parts}
        held = sum((part.share.high or HUNDRED for part in parts), Fraction(0))
        return parts[0] if len(same) == 1 and held >= HUNDRED else None


@dataclass(frozen=True, slots=True)
class Classified:
    """One class of a mixture, with the sum that it opens to.

    Parameters
    ----------
    hazard_class, statement : str
        As in the label tables, such as ``Skin Irrit. 2`` and ``H315``.
    standing : Standing
        How sure it is.
    lines : tuple of str
        Each contributor with its share, class and source; the sum; the limit.
    because : tuple of str
        Names of what it rests on.
    sources : tuple of str
        Source ids of the rules.
    marks : frozenset of Mark
        Doubts.
    low, high : Fraction or None
        Ends of what was compared. [``unit``]
    unit : str
        Unit of the ends.
    substances : tuple of str
        Names of the substances or materials alone, as a label names them.
    """

    hazard_class: str
    statement: str
    standing: Standing
    lines: tuple[str, ...]
    because: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()
    marks: frozenset[Mark] = frozenset()
    low: Fraction | None = None
    high: Fraction | None = None
    unit: str = "%"
    substances: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Classes:
    """Every class of one mixture by one scheme.

    Parameters
    ----------
    mixture : Mixture
        What was classified.
    scheme : Scheme
        By whose rules.
    classes : tuple of Classified
        In the order of the law: physical, health, water.
    below : tuple of Classified
        Sums that stay below their limit, for whoever asks why there is no class.
    unclassified : tuple of str
        Parts of which not every class is known.
    remarks : tuple of str
        What was not done, and why.
    """

    mixture: Mixture
    scheme: Scheme
    classes: tuple[Classified, ...]
    below: tuple[Classified, ...] = ()
    unclassified: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()

    def names(self, *standings: Standing) -> tuple[str, ...]:
        """List the classes of some standings; all of them by default.

        Parameters
        ----------
        *standings : Standing
            Which.
        """
        return tuple(
            one.hazard_class
            for one in self.classes
            if not standings or one.standing in standings
        )

    def of(self, hazard_class: str) -> Classified | None:
        """Return the entry of a class, one below its limit too, or ``None``.

        Parameters
        ----------
        hazard_class : str
            Its name.
        """
        both = (*self.classes, *self.below)
        return next((c for c in both if c.hazard_class == hazard_class), None)
