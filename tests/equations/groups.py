"""Structural groups of modified UNIFAC (Dortmund), counted in a structure.

Written from the names of the groups, without looking at any list of assignments:
atoms are taken by the most special group first, and an atom that is left over means
that the molecule has no full assignment. It is the second opinion on the table of
assignments.
"""

from rdkit import Chem

# In this order; each match takes its atoms. `keep` lists the positions of the pattern
# that the group owns; the others are neighbours that must be there.
_PATTERNS = (
    # number, name, pattern, positions owned
    (16, "H2O", "[OX2H2]", (0,)),
    (42, "COOH", "[CX3](=O)[OX2H1]", (0, 1, 2)),
    (21, "CH3COO", "[CH3][CX3](=O)[OX2;H0]", (0, 1, 2, 3)),
    (22, "CH2COO", "[CH2X4][CX3](=O)[OX2;H0]", (0, 1, 2, 3)),
    (77, "COO", "[#6X3](=O)[OX2,o;H0]", (0, 1, 2)),
    (20, "CHO", "[CX3H1]=O", (0, 1)),
    (18, "CH3CO", "[CH3][CX3](=O)[#6]", (0, 1, 2)),
    (19, "CH2CO", "[CH2X4][CX3](=O)[#6]", (0, 1, 2)),
    (17, "ACOH", "[c][OX2H1]", (0, 1)),
    (14, "OH(P)", "[OX2H1][CH2X4,CH3X4]", (0,)),
    (81, "OH(S)", "[OX2H1][CH1X4]", (0,)),
    (82, "OH(T)", "[OX2H1][CH0X4]", (0,)),
    (24, "CH3O", "[CH3][OX2;H0]", (0, 1)),
    # An ether in a ring: one neighbour belongs to it on each side, whatever
    # hydrogens they hold.
    (27, "THF", "[CX4;R][OX2;R;!r3][CX4;R]", (0, 1, 2)),
    (25, "CH2O", "[CH2X4;!R][OX2;H0;!R]", (0, 1)),
    (36, "ACNH2", "c[NH2]", (0, 1)),
    (38, "AC2HN", "c[nH]c", (0, 1, 2)),
    (66, "C=-C", "[CX2]#[CX2]", (0, 1)),
    (5, "CH2=CH", "[CH2X3]=[CH1X3]", (0, 1)),
    (6, "CH=CH", "[CH1X3]=[CH1X3]", (0, 1)),
    # RDKit counts the lactone ring of coumarin as aromatic.
    (6, "CH=CH", "[cH]:[cH]:c(=O)o", (0, 1)),
    (7, "CH2=C", "[CH2X3]=[CH0X3]", (0, 1)),
    (8, "CH=C", "[CH1X3]=[CH0X3]", (0, 1)),
    (70, "C=C", "[CH0X3]=[CH0X3]", (0, 1)),
    (11, "ACCH3", "c[CH3]", (0, 1)),
    (12, "ACCH2", "c[CH2X4]", (0, 1)),
    (13, "ACCH", "c[CH1X4]", (0, 1)),
    (9, "ACH", "[cH]", (0,)),
    (10, "AC", "[cH0]", (0,)),
    (78, "CY-CH2", "[CH2X4;R]", (0,)),
    (79, "CY-CH", "[CH1X4;R]", (0,)),
    (80, "CY-C", "[CH0X4;R]", (0,)),
    (1, "CH3", "[CH3X4]", (0,)),
    (2, "CH2", "[CH2X4]", (0,)),
    (3, "CH", "[CH1X4]", (0,)),
    (4, "C", "[CH0X4]", (0,)),
)
_QUERIES = [
    (number, Chem.MolFromSmarts(pattern), owned)
    for number, _, pattern, owned in _PATTERNS
]


def counted(smiles: str) -> dict[int, int] | None:
    """Return the number of each group, or None where an atom is left over."""
    molecule = Chem.MolFromSmiles(smiles)
    free = {atom.GetIdx() for atom in molecule.GetAtoms()}
    found: dict[int, int] = {}
    for number, query, owned in _QUERIES:
        for match in molecule.GetSubstructMatches(query, uniquify=False):
            atoms = {match[position] for position in owned}
            if atoms <= free:
                free -= atoms
                found[number] = found.get(number, 0) + 1
    return None if free else found
