"""Structures through RDKit, which nothing else imports and which loads on first use.

Verification runs in the tests and on command, never at the load of a table.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any, Protocol

from blendcheck.errors import DomainError

__all__ = [
    "Disagreement",
    "Drawn",
    "Identity",
    "Verification",
    "identity",
    "open_stereo",
    "verify_constituents",
]


class Drawn(Protocol):
    """A row that has a structure: a constituent of the reference tables."""

    @property
    def cas(self) -> str:
        """The CAS number."""

    @property
    def smiles(self) -> str:
        """The structure, empty where there is none."""

    @property
    def formula(self) -> str:
        """The formula in Hill order."""

    @property
    def molar_mass(self) -> str:
        """The average molar mass as printed [g/mol]."""


@dataclass(frozen=True, slots=True)
class Identity:
    """What follows from a structure.

    Parameters
    ----------
    formula : str
        In Hill order, all parts of a salt or hydrate together.
    molar_mass : float
        Average molar mass with RDKit's atomic weights, not the mass of the
        commonest isotopes. [g/mol]
    inchikey : str
        Its first 14 letters are the skeleton, without stereo.
    """

    formula: str
    molar_mass: float
    inchikey: str


@dataclass(frozen=True, slots=True)
class Disagreement:
    """A cell of a row that is not what its structure gives."""

    cas: str
    field: str
    printed: str
    computed: str


@dataclass(frozen=True, slots=True)
class Verification:
    """The result of :func:`verify_constituents`.

    Parameters
    ----------
    compared : int
        Rows that have a structure.
    disagreements : tuple of Disagreement
        Empty when every formula and molar mass follows from its structure.
    duplicates : Mapping
        InChIKeys that several rows share, with their CAS numbers.
    """

    compared: int
    disagreements: tuple[Disagreement, ...]
    duplicates: Mapping[str, tuple[str, ...]]


def _molecule(smiles: str) -> Any:  # noqa: ANN401 - RDKit's stubs say Mol, never None
    from rdkit import Chem, rdBase

    with rdBase.BlockLogs():
        molecule = Chem.MolFromSmiles(smiles) if smiles else None
    if molecule is None:
        raise DomainError("smiles", repr(smiles), "a structure that RDKit can read")
    return molecule


def identity(smiles: str) -> Identity:
    """Return formula, average molar mass and InChIKey of a structure.

    Parameters
    ----------
    smiles : str
        One structure; parts of a salt or hydrate are separated by a point.

    Returns
    -------
    Identity
        Computed by RDKit.

    Raises
    ------
    DomainError
        If RDKit cannot read it.

    Examples
    --------
    >>> identity("O").formula, identity("ClCCl").molar_mass
    ('H2O', 84.93)
    """
    from rdkit import Chem
    from rdkit.Chem.Descriptors import MolWt
    from rdkit.Chem.rdMolDescriptors import CalcMolFormula

    molecule = _molecule(smiles)
    return Identity(
        CalcMolFormula(molecule), MolWt(molecule), Chem.MolToInchiKey(molecule)
    )


def open_stereo(smiles: str) -> int:
    """Count the centres and double bonds whose stereo a structure leaves open.

    Parameters
    ----------
    smiles : str
        One structure.

    Returns
    -------
    int
        As RDKit counts them, bridgeheads of cages included, which have no freedom:
        1,8-cineole counts 2.

    Raises
    ------
    DomainError
        If RDKit cannot read it.

    Examples
    --------
    >>> open_stereo("CC=CC"), open_stereo("C/C=C/C")
    (1, 0)
    """
    from rdkit import Chem

    found = Chem.FindPotentialStereo(_molecule(smiles))
    return sum(each.specified == Chem.StereoSpecified.Unspecified for each in found)


def verify_constituents(rows: Iterable[Drawn]) -> Verification:
    """Compare every row's formula and molar mass with its structure.

    A molar mass agrees if it is within half a unit of its last printed place.

    Parameters
    ----------
    rows : iterable
        Constituents of the reference tables.

    Returns
    -------
    Verification
        Disagreements row by row, and structures that several rows share.

    Raises
    ------
    DomainError
        If RDKit cannot read a structure.
    """
    wrong: list[Disagreement] = []
    sharing: dict[str, list[str]] = defaultdict(list)
    for row in rows:
        if not row.smiles:
            continue
        found = identity(row.smiles)
        sharing[found.inchikey].append(row.cas)
        if found.formula != row.formula:
            wrong.append(Disagreement(row.cas, "formula", row.formula, found.formula))
        places = len(row.molar_mass.partition(".")[2])
        printed = f"{found.molar_mass:.{places}f}"
        # Binary floats: a hair more than half a unit.
        if abs(found.molar_mass - float(row.molar_mass)) > 0.500001 * 10**-places:
            wrong.append(Disagreement(row.cas, "molar_mass", row.molar_mass, printed))
    return Verification(
        compared=sum(len(numbers) for numbers in sharing.values()),
        disagreements=tuple(wrong),
        duplicates={k: tuple(v) for k, v in sharing.items() if len(v) > 1},
    )
