"""What a gas chromatograph would have had to show.

The silence of a full GC-MS report speaks only of volatile constituents. The line is
drawn by a rule of the bench (common practice, no source claimed): small molecules
of carbon, hydrogen and at most three oxygen atoms, up to 250 g/mol. Furocoumarins
lie inside that window and are not volatile enough to count on; everything that the
table of cautions names for light is therefore left out, as is whatever is not in
the table of constituents.
"""

from functools import cache

from blendcheck.reference.cautions import watch_for_cas
from blendcheck.reference.tables import constituents

__all__ = ["is_volatile"]

_HEAVIEST = 250
"""Largest molar mass that counts as volatile. [g/mol] Common practice."""
_MOST_OXYGEN = 3


@cache
def is_volatile(identity: str) -> bool:
    """Say whether a full GC-MS report would have had to show a substance.

    Parameters
    ----------
    identity : str
        A CAS number; anything else is not known to be volatile.

    Returns
    -------
    bool
        False also where nothing is known.

    Examples
    --------
    >>> is_volatile("5989-27-5"), is_volatile("484-20-8"), is_volatile("name:x")
    (True, False, False)
    """
    row = constituents().get(identity)
    if row is None or row.molar_mass_value is None or row.molar_mass_value > _HEAVIEST:
        return False
    atoms = row.atoms
    if set(atoms) - {"C", "H", "O"} or atoms.get("O", 0) > _MOST_OXYGEN:
        return False
    return all(found.reason != "phototoxic" for found in watch_for_cas(identity))
