"""Structures through RDKit, which nothing else imports and which loads on first use.

Verification runs in the tests and on command, never at the load of a table; what
pages and checks need is kept in ``reference/constituent_families.csv``.
"""

import re
from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any, Protocol
from xml.sax.saxutils import escape

from blendcheck.errors import DomainError

__all__ = [
    "Disagreement",
    "Drawn",
    "Identity",
    "Twins",
    "Verification",
    "carbon_parts",
    "count_patterns",
    "drawing",
    "identity",
    "open_stereo",
    "twins",
    "verify_constituents",
]

_NO_STEREO = "UHFFFAOYSA"  # begins the second block of a flat structure's InChIKey


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


@dataclass(frozen=True, slots=True)
class Twins:
    """Rows that share a skeleton of atoms and bonds but not the whole structure.

    Parameters
    ----------
    skeleton : str
        The first 14 letters of their InChIKeys.
    flat : tuple of str
        CAS numbers drawn without any stereo: they may stand for any of the others.
    with_stereo : Mapping
        The other rows' CAS numbers by InChIKey.
    """

    skeleton: str
    flat: tuple[str, ...]
    with_stereo: Mapping[str, tuple[str, ...]]


def twins(rows: Iterable[Drawn]) -> tuple[Twins, ...]:
    """Return the rows that differ by stereo alone: mirror images, E and Z, flat ones.

    Parameters
    ----------
    rows : iterable
        Constituents of the reference tables.

    Returns
    -------
    tuple of Twins
        One for each skeleton that is drawn in more than one way.

    Raises
    ------
    DomainError
        If RDKit cannot read a structure.
    """
    drawn: dict[str, dict[str, list[str]]] = defaultdict(lambda: defaultdict(list))
    for row in rows:
        if row.smiles:
            key = identity(row.smiles).inchikey
            drawn[key[:14]][key].append(row.cas)
    found = []
    for skeleton, keys in drawn.items():
        flat = [cas for k, v in keys.items() if k[15:25] == _NO_STEREO for cas in v]
        others = {k: tuple(v) for k, v in keys.items() if k[15:25] != _NO_STEREO}
        if len(keys) > 1:
            found.append(Twins(skeleton, tuple(flat), others))
    return tuple(found)


def carbon_parts(smiles: str) -> tuple[str, ...]:
    """Return the carbon skeletons of a structure: what is left of it without the rest.

    Everything but carbon is taken away and every bond is made single; an ester
    falls into its acid and its alcohol. Terpenoids are compared in this form.

    Parameters
    ----------
    smiles : str
        One structure.

    Returns
    -------
    tuple of str
        Canonical SMILES without stereo, the largest first.

    Raises
    ------
    DomainError
        If RDKit cannot read it.

    Examples
    --------
    >>> carbon_parts("CC(=O)OC1CC2CCC1(C)C2(C)C")  # bornyl acetate
    ('CC12CCC(CC1)C2(C)C', 'CC')
    >>> carbon_parts("O")
    ()
    """
    from rdkit import Chem

    molecule = _molecule(smiles)
    bare = Chem.RWMol()
    places = {
        atom.GetIdx(): bare.AddAtom(Chem.Atom(6))
        for atom in molecule.GetAtoms()
        if atom.GetAtomicNum() == 6
    }
    for bond in molecule.GetBonds():
        ends = bond.GetBeginAtomIdx(), bond.GetEndAtomIdx()
        if all(end in places for end in ends):
            bare.AddBond(*(places[end] for end in ends), Chem.BondType.SINGLE)
    Chem.SanitizeMol(bare)
    parts = filter(None, Chem.MolToSmiles(bare).split("."))
    return tuple(sorted(parts, key=lambda part: (-part.count("C"), part)))


@cache
def _pattern(smarts: str) -> Any:  # noqa: ANN401 - RDKit's stubs say Mol, never None
    from rdkit import Chem, rdBase

    with rdBase.BlockLogs():
        pattern = Chem.MolFromSmarts(smarts) if smarts else None
    if pattern is None:
        raise DomainError("smarts", repr(smarts), "a pattern that RDKit can read")
    return pattern


def count_patterns(smiles: str, patterns: Mapping[str, str]) -> dict[str, int]:
    """Count how often each pattern occurs in a structure.

    Parameters
    ----------
    smiles : str
        One structure.
    patterns : Mapping
        SMARTS by name.

    Returns
    -------
    dict
        The count of each pattern that occurs, in the order given; places on the
        same atoms count once.

    Raises
    ------
    DomainError
        If RDKit cannot read the structure or a pattern.

    Examples
    --------
    >>> count_patterns("OCC(O)CO", {"C=O": "C=O", "OH": "[OX2H]"})
    {'OH': 3}
    """
    molecule = _molecule(smiles)
    found = {k: molecule.GetSubstructMatches(_pattern(v)) for k, v in patterns.items()}
    return {name: len(places) for name, places in found.items() if places}


def drawing(smiles: str, width: int, height: int, *, title: str = "") -> str:
    """Draw a structural formula as an SVG element in one colour.

    The colour is that of the text around it, on a light page and on a dark one.

    Parameters
    ----------
    smiles : str
        One structure.
    width, height : int
        Size, from 40 to 2000. [px]
    title : str, default the formula in words
        What a screen reader says. It is shown as text, never as markup.

    Returns
    -------
    str
        One ``svg`` element with a ``title``, without scripts, links or style sheets.

    Raises
    ------
    DomainError
        If RDKit cannot read the structure or the size is outside its range.
    """
    from rdkit.Chem.Draw.rdMolDraw2D import MolDraw2DSVG, PrepareAndDrawMolecule

    molecule = _molecule(smiles)
    for name, size in (("width", width), ("height", height)):
        if not 40 <= size <= 2000:
            raise DomainError(name, size, "from 40 to 2000 px")
    canvas = MolDraw2DSVG(width, height)
    options = canvas.drawOptions()
    options.useBWAtomPalette()
    options.clearBackground = False
    PrepareAndDrawMolecule(canvas, molecule)
    canvas.FinishDrawing()
    said = title or f"Structural formula, {identity(smiles).formula}"
    body = canvas.GetDrawingText().replace("#000000", "currentColor")
    body = re.sub(r"(?s)^.*?<svg[^>]*>|<!--.*?-->|class='[^']*' ?", "", body)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" width="{width}" '
        f'height="{height}" viewBox="0 0 {width} {height}">'
        f"<title>{escape(said)}</title>{body.strip()}"
    )
