"""Molar volumes of liquids by groups."""

from rdkit import Chem

# R. F. Fedors, Polym. Eng. Sci. 14, 147 (1974), increments of the molar volume at
# 25 degC [cm3/mol], from memory.
CARBON = {(False, 3): 33.5, (False, 2): 16.1, (False, 1): -1.0, (False, 0): -19.2}
CARBON |= {(True, 2): 28.5, (True, 1): 13.5, (True, 0): -5.5}
CARBONYL = {"ester": 18.0, "acid": 28.5, "aldehyde": 22.3, "ketone": 10.8}
HYDROXYL, ETHER, RING, SMALL_RING, CONJUGATED = 10.0, 3.8, 16.0, 18.0, -2.2
ALKYNE, VICINAL_HYDROXYL = 6.5, 13.0


def carbonyl_kind(atom):
    neighbours = [each for each in atom.GetNeighbors() if each.GetSymbol() == "O"]
    singles = [
        each
        for each in neighbours
        if atom.GetOwningMol()
        .GetBondBetweenAtoms(atom.GetIdx(), each.GetIdx())
        .GetBondTypeAsDouble()
        == 1
    ]
    if singles:
        return "acid" if singles[0].GetTotalNumHs() else "ester"
    return "aldehyde" if atom.GetTotalNumHs() else "ketone"


def is_carbonyl(atom):
    return any(
        bond.GetBondTypeAsDouble() == 2 and bond.GetOtherAtom(atom).GetSymbol() == "O"
        for bond in atom.GetBonds()
    )


def by_groups(smiles):
    """Return the molar volume by groups [cm3/mol], or None for other elements."""
    molecule = Chem.MolFromSmiles(smiles)
    if {atom.GetSymbol() for atom in molecule.GetAtoms()} - {"C", "O"}:
        return None
    total = 0.0
    for atom in molecule.GetAtoms():
        hydrogens = atom.GetTotalNumHs()
        if atom.GetSymbol() == "C" and is_carbonyl(atom):
            total += CARBONYL[carbonyl_kind(atom)]
        elif atom.GetSymbol() == "C":
            if any(bond.GetBondTypeAsDouble() == 3 for bond in atom.GetBonds()):
                total += ALKYNE
                continue
            unsaturated = atom.GetIsAromatic() or any(
                bond.GetBondTypeAsDouble() == 2 for bond in atom.GetBonds()
            )
            total += CARBON.get((unsaturated, hydrogens), 0)
        else:
            total += oxygen(atom, hydrogens)
    rings = molecule.GetRingInfo().AtomRings()
    total += sum(SMALL_RING if len(ring) < 5 else RING for ring in rings)
    aromatic = sum(
        all(molecule.GetAtomWithIdx(index).GetIsAromatic() for index in ring)
        for ring in rings
    )
    return total + 3 * CONJUGATED * aromatic


def oxygen(atom, hydrogens):
    if any(is_carbonyl(each) for each in atom.GetNeighbors()):
        return 0.0  # in the ester, the acid, the aldehyde or the ketone already
    if not hydrogens:
        return ETHER
    (carbon,) = atom.GetNeighbors()
    beside = any(
        other.GetSymbol() == "O" and other.GetTotalNumHs()
        for each in carbon.GetNeighbors()
        if each.GetSymbol() == "C"
        for other in each.GetNeighbors()
    )
    return VICINAL_HYDROXYL if beside else HYDROXYL


def is_caged(smiles):
    molecule = Chem.MolFromSmiles(smiles)
    return len(molecule.GetRingInfo().AtomRings()) > 1
