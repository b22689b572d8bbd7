"""What calls for the usual cautions: constituents by number, oils by name.

These are invitations to look and to say so on the card, never limits. What is not
in the table is not thereby harmless.
"""

import re
import unicodedata
from functools import cache

from blendcheck.reference.cells import check_digit_ok
from blendcheck.reference.grouping import groups_of
from blendcheck.reference.names import find
from blendcheck.reference.rows import OilName, Watch
from blendcheck.reference.tables import rows_of, rows_where

__all__ = [
    "numbers_answering",
    "oils_named",
    "watch",
    "watch_for_cas",
    "watch_for_oil",
]


def watch() -> tuple[Watch, ...]:
    """Return every reason for a caution, in the order of the table.

    Returns
    -------
    tuple of Watch
        Several rows, from several sources, may give the same reason.
    """
    return rows_of(Watch)


@cache
def numbers_answering(cas: str) -> frozenset[str]:
    """Return the CAS numbers under which the tables may speak of a constituent.

    Parameters
    ----------
    cas : str
        A CAS number.

    Returns
    -------
    frozenset of str
        The number itself, those of its groups, and what its other numbers name.

    Examples
    --------
    >>> "1490-04-6" in numbers_answering("2216-51-5")  # l-menthol, menthol
    True
    """
    groups = {group.cas for group in groups_of(cas) if group.cas}
    return frozenset({cas, *groups, *find(cas).candidates})


@cache
def watch_for_cas(cas: str) -> tuple[Watch, ...]:
    """Return why a constituent calls for cautions.

    Parameters
    ----------
    cas : str
        A CAS number. An isomer answers for its group: l-menthol for menthol.

    Returns
    -------
    tuple of Watch
        Empty when the table has nothing on it.

    Examples
    --------
    >>> sorted({row.reason for row in watch_for_cas("484-20-8")})
    ['phototoxic']
    """
    numbers = numbers_answering(cas)
    return tuple(
        row for row in watch() if row.about == "constituent" and row.subject in numbers
    )


@cache
def _words(text: str) -> str:
    """Return the words of a text, each with a space before and after it."""
    plain = unicodedata.normalize("NFKC", text).casefold()
    return " ".join(["", *re.findall(r"[^\W_]+", plain), ""])


@cache
def oils_named(name_or_cas: str) -> tuple[str, ...]:
    """Return the oils of the table that the name of a material may mean.

    Whole words are compared: ``lemongrass`` is not ``lemon``. Words such as
    ``distilled`` or ``FCF`` rule out an oil where the table says so; where the name
    does not say how the oil was made, the oil is returned.

    Parameters
    ----------
    name_or_cas : str
        The name of a material as the maker wrote it, or the CAS number of an oil.

    Returns
    -------
    tuple of str
        Names of oils; several may fit.

    Examples
    --------
    >>> oils_named("Peppermint essential oil, lot 41")
    ('peppermint',)
    >>> oils_named("Bergamot FCF")
    ()
    """
    given = name_or_cas.strip()
    if check_digit_ok(given):
        rows = rows_where(OilName, "name", given)
        return tuple(dict.fromkeys(row.oil for row in rows if row.use == "CAS"))
    words = _words(given)
    found: dict[str, None] = {}
    ruled_out: set[str] = set()
    for row in rows_of(OilName):
        if row.use == "CAS" or _words(row.name) not in words:
            continue
        if row.use == "not when":
            ruled_out.add(row.oil)
        else:
            found[row.oil] = None
    return tuple(oil for oil in found if oil not in ruled_out)


def watch_for_oil(name_or_cas: str) -> tuple[Watch, ...]:
    """Return why an oil calls for cautions.

    Parameters
    ----------
    name_or_cas : str
        The name of a material as the maker wrote it, or the CAS number of an oil.

    Returns
    -------
    tuple of Watch
        Those of every oil that the name may mean; empty when the table has none.

    Examples
    --------
    >>> any(row.reason == "phototoxic" for row in watch_for_oil("Lemon, expressed"))
    True
    """
    oils = oils_named(name_or_cas)
    if not oils:
        return ()
    return tuple(row for row in watch() if row.about == "oil" and row.subject in oils)
