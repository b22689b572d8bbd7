"""Which class is the more severe one of two of the same kind."""

from collections.abc import Iterable, Iterator
from typing import Final

from blendcheck.estimates.classes.model import Classes, Classified, Standing

__all__ = ["is_hidden", "most_severe"]

_LADDERS: Final = (
    ("Flam. Liq. 1", "Flam. Liq. 2", "Flam. Liq. 3"),
    *(
        tuple(f"Acute Tox. {n} ({route})" for n in (1, 2, 3, 4, 5))
        for route in ("oral", "dermal", "inhalation")
    ),
    ("Skin Corr. 1", "Skin Irrit. 2"),
    ("Eye Dam. 1", "Eye Irrit. 2"),
    ("Muta. 1A", "Muta. 1B", "Muta. 2"),
    ("Carc. 1A", "Carc. 1B", "Carc. 2"),
    ("Repr. 1A", "Repr. 1B", "Repr. 2"),
    ("STOT SE 1", "STOT SE 2"),
    ("STOT RE 1", "STOT RE 2"),
    ("ED HH 1", "ED HH 2"),
    ("Aquatic Acute 1", "Aquatic Acute 2", "Aquatic Acute 3"),
    tuple(f"Aquatic Chronic {n}" for n in (1, 2, 3, 4)),
)


def is_hidden(one: Classified, classes: Classes) -> bool:
    """Whether a more severe class of the same ladder is possible.

    Parameters
    ----------
    one : Classified
        A class.
    classes : Classes
        All of them.
    """
    possible = classes.names(Standing.CERTAIN, Standing.POSSIBLE)
    return any(
        name in possible
        for ladder in _LADDERS
        if one.hazard_class in ladder
        for name in ladder[: ladder.index(one.hazard_class)]
    )


def most_severe(found: Iterable[Classified]) -> Iterator[Classified]:
    """Of each ladder keep the most severe class.

    Parameters
    ----------
    found : iterable of Classified
        Classes in any order.

    Yields
    ------
    Classified
        Those that no more severe one hides, in the same order.
    """
    chosen = tuple(found)
    names = {one.hazard_class for one in chosen}
    hidden: set[str] = set()
    for ladder in _LADDERS:
        met = [name for name in ladder if name in names]
        hidden |= set(met[1:])
    yield from (one for one in chosen if one.hazard_class not in hidden)
