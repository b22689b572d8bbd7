"""From what a paper prints to the constituents that it may mean.

A CAS number is exact. A name only proposes: ``menthol`` may be any of several
isomers, and the maker says which. Nothing is merged here.
"""

import re
import unicodedata
from collections.abc import Mapping
from functools import cache

from blendcheck.frozen import Frozen
from blendcheck.reference.cells import check_digit_ok
from blendcheck.reference.rows import Constituent, Synonym
from blendcheck.reference.tables import constituents, rows_of, rows_where

__all__ = ["Match", "find", "normal_name"]

_GREEK = str.maketrans(
    {"α": "alpha", "β": "beta", "γ": "gamma", "δ": "delta", "ε": "epsilon"}
)
_DASHES = str.maketrans(dict.fromkeys("‐‑‒–—−", "-"))  # noqa: RUF001
_SIGNS = (("(+/-)", "(dl)"), ("(+-)", "(dl)"), ("(±)", "(dl)"), ("(-)", "(minus)"))
_LIKE_CAS = re.compile(r"[0-9]{2,7}-[0-9]{2}-[0-9]")


def normal_name(text: str) -> str:
    """Return a name in the form in which names are compared.

    Capitals, spaces, hyphens and the kind of dash make no difference, Greek letters
    are spelled out, and a point between digits is a comma. What tells isomers apart
    stays: ``d-``, ``l-``, ``dl-``, ``(+)``, ``(-)``, ``(±)``, ``(R)``, ``(E)``,
    ``cis-``.

    Parameters
    ----------
    text : str
        A name as printed.

    Returns
    -------
    str
        Not for showing.

    Examples
    --------
    >>> normal_name("α-Terpineol") == normal_name("alpha terpineol")
    True
    >>> normal_name("(-)-Menthol") == normal_name("menthol")
    False
    """
    plain = unicodedata.normalize("NFKC", text).casefold()
    plain = plain.translate(_GREEK).translate(_DASHES)
    plain = "".join(plain.split())
    for sign, word in _SIGNS:
        plain = plain.replace(sign, word)
    if "." in plain:
        plain = re.sub(r"(?<=\d)\.(?=\d)", ",", plain)
    return plain.replace("-", "").replace("_", "")


class Match(Frozen):
    """What a printed name or number may mean.

    Parameters
    ----------
    text : str
        As given.
    exact : str or None
        The CAS number, if ``text`` is one that the table of constituents has.
    candidates : tuple of str
        CAS numbers that the text may mean, the most likely first; empty when
        ``exact`` is set.
    kinds : tuple of str
        Why each candidate is one: ``name``, ``inci``, ``synonym``, ``isomer``,
        ``other CAS for same``.
    cas : str or None
        The text itself, if it is a CAS number with a right check digit, in the
        tables or not.
    miswritten : bool
        The text has the form of a CAS number, and its check digit is wrong.
    """

    text: str
    exact: str | None = None
    candidates: tuple[str, ...] = ()
    kinds: tuple[str, ...] = ()
    cas: str | None = None
    miswritten: bool = False

    @property
    def ambiguous(self) -> bool:
        """Whether more than one constituent is proposed, so that we must ask."""
        return len(self.candidates) > 1


@cache
def _index() -> Mapping[str, Mapping[str, str]]:
    """Return, for each normal name, the CAS numbers it may mean and why."""
    index: dict[str, dict[str, str]] = {}

    def add(name: str, cas: str, kind: str) -> None:
        index.setdefault(normal_name(name), {}).setdefault(cas, kind)

    for row in rows_of(Constituent):
        add(row.name, row.cas, "name")
    for kind in ("synonym", "isomer", "other CAS for same"):
        for synonym in rows_of(Synonym):
            if synonym.kind == kind:
                add(synonym.name, synonym.cas, kind)
    for row in rows_of(Constituent):
        if row.inci:
            add(row.inci, row.cas, "inci")
    return index


def find(name_or_cas: str) -> Match:
    """Say which constituents a printed name or CAS number may mean.

    Parameters
    ----------
    name_or_cas : str
        As printed on a paper or typed by the maker.

    Returns
    -------
    Match
        Exact for a known CAS number; else proposals to be confirmed, or none.

    Raises
    ------
    ReferenceDataError
        If a row of the tables breaks a rule.

    Examples
    --------
    >>> find("eucalyptol").candidates
    ('470-82-6',)
    >>> find("menthol").ambiguous
    True
    >>> find("470-82-6").exact
    '470-82-6'
    """
    text = unicodedata.normalize("NFKC", name_or_cas).translate(_DASHES).strip()
    is_cas = check_digit_ok(text)
    if is_cas and text in constituents():
        return Match(name_or_cas, exact=text, cas=text)
    if is_cas:  # another number of a constituent: its line alone answers
        rows = rows_where(Synonym, "name", text)
        found: Mapping[str, str] = {row.cas: row.kind for row in rows}
    else:
        found = _index().get(normal_name(text), {}) if text else {}
    return Match(
        name_or_cas,
        candidates=tuple(found),
        kinds=tuple(found.values()),
        cas=text if is_cas else None,
        miswritten=not is_cas and _LIKE_CAS.fullmatch(text) is not None,
    )
