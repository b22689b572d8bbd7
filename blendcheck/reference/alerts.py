"""What the structure of a constituent shows: its family, groups, reactive places.

All of it was computed beforehand (``reference/make_families.py``) and is looked up
here without RDKit. A reactive place is an invitation to look, never a verdict, and
nothing found is not the same as nothing there: a number that the table does not
have, or has without a structure, answers None.
"""

from collections.abc import Mapping
from types import MappingProxyType

from blendcheck.reference.cells import check_digit_ok
from blendcheck.reference.molecule_rows import (
    AirOxidation,
    ConstituentFamily,
    FamilyRule,
    StructuralAlert,
    listed,
)
from blendcheck.reference.names import find
from blendcheck.reference.tables import rows_of, rows_where

__all__ = [
    "air_oxidation_of",
    "alerts_of",
    "families",
    "family_of",
    "family_rules",
    "functional_groups_of",
    "is_air_oxidisable",
]


def _rows(cas: str) -> tuple[ConstituentFamily, ...]:
    return rows_where(ConstituentFamily, "cas", cas)


def _row(cas: str) -> ConstituentFamily | None:
    own = _rows(cas)
    if own or not check_digit_ok(cas):
        return own[0] if own else None
    # Another number of the same thing, or of several that the patterns see alike.
    meant = [row for number in find(cas).candidates for row in _rows(number)]
    alike = {(row.family, row.alerts, row.air_oxidisable) for row in meant}
    return meant[0] if len(alike) == 1 else None


def families() -> tuple[str, ...]:
    """Return the families in the order in which they are shown.

    Returns
    -------
    tuple of str
        Each once; the last but one is for what no rule names, the last for what
        has no structure.
    """
    return tuple(dict.fromkeys(row.family for row in rows_of(FamilyRule)))


def family_rules(family: str) -> tuple[FamilyRule, ...]:
    """Return the rules that put a substance into a family.

    Parameters
    ----------
    family : str
        One of :func:`families`.

    Returns
    -------
    tuple of FamilyRule
        Any one of them is enough, where no earlier rule of another family fits.
        Empty for another text.

    Examples
    --------
    >>> [row.rule for row in family_rules("lactones")]
    ['An ester in a ring.']
    """
    return tuple(row for row in rows_of(FamilyRule) if row.family == family)


def family_of(cas: str) -> str | None:
    """Return the family in which a constituent is shown.

    Parameters
    ----------
    cas : str
        A CAS number; another number of the same constituent will do.

    Returns
    -------
    str or None
        One of :func:`families`; None for a number that the tables do not have.

    Examples
    --------
    >>> family_of("470-82-6"), family_of("50-00-0")
    ('monoterpene oxides', None)
    """
    row = _row(cas)
    return None if row is None else row.family


def functional_groups_of(cas: str) -> Mapping[str, int] | None:
    """Count the functional groups of a constituent.

    Parameters
    ----------
    cas : str
        A CAS number; another number of the same constituent will do.

    Returns
    -------
    Mapping or None
        Read-only, by name. None where the structure is not known, and for a
        mixture.

    Examples
    --------
    >>> dict(functional_groups_of("78-70-6"))
    {'alcohol': 1, 'C=C': 2}
    """
    row = _row(cas)
    if row is None or row.from_structure != "own":
        return None
    return MappingProxyType(row.group_counts)


def alerts_of(cas: str) -> tuple[StructuralAlert, ...] | None:
    """Return the reactive places of a constituent: invitations to look.

    Parameters
    ----------
    cas : str
        A CAS number; another number of the same constituent will do.

    Returns
    -------
    tuple of StructuralAlert or None
        Empty where no pattern fits, which does not speak for the substance; None
        where the structure is not known. A mixture has what any member has.

    Examples
    --------
    >>> [row.alert for row in alerts_of("97-53-0")]
    ['4-allylphenol', 'allylic C-H']
    """
    row = _row(cas)
    if row is None or row.from_structure == "none":
        return None
    names = listed(row.alerts)
    return tuple(each for each in rows_of(StructuralAlert) if each.alert in names)


def is_air_oxidisable(cas: str) -> bool | None:
    """Say whether the structure has a place that air attacks on standing.

    That is a hydrogen next to a carbon double bond, or an alkylated furan ring;
    a phenol, which stops the chain of that reaction, does not count. [1]_

    Parameters
    ----------
    cas : str
        A CAS number; another number of the same constituent will do.

    Returns
    -------
    bool or None
        False says that no such place was found, not that the substance keeps:
        aldehydes turn into acids, and ethers take up oxygen too. None where the
        structure is not known; a mixture is True when any member is.

    References
    ----------
    .. [1] source id ``hagvall-2007``, abstract; the rule for phenols is common
       practice.

    Examples
    --------
    >>> is_air_oxidisable("5989-27-5"), is_air_oxidisable("470-82-6")
    (True, False)
    >>> is_air_oxidisable("9005-65-6") is None  # polysorbate 80, not drawn
    True
    """
    row = _row(cas)
    if row is None or row.air_oxidisable == "not known":
        return None
    return row.air_oxidisable == "yes"


def air_oxidation_of(cas: str) -> tuple[AirOxidation, ...]:
    """Return what was published on a constituent that was left in the air.

    Parameters
    ----------
    cas : str
        A CAS number; another number of the same constituent will do.

    Returns
    -------
    tuple of AirOxidation
        Empty when the table has nothing on it.
    """
    row = _row(cas)
    numbers = {cas} if row is None else {cas, row.cas}
    return tuple(each for each in rows_of(AirOxidation) if each.cas in numbers)
