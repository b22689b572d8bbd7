"""What recipes are called when several are spoken of."""

from collections import Counter
from collections.abc import Sequence

__all__ = ["told_apart"]


def told_apart(names: Sequence[str]) -> tuple[str, ...]:
    """Return names that no two recipes share.

    Parameters
    ----------
    names : sequence of str
        Names as written, in the order of the recipes.

    Returns
    -------
    tuple of str
        As written; a name that stands twice has its place behind it, from 1.

    Examples
    --------
    >>> told_apart(["Mild", "Strong", "Mild"])
    ('Mild (1)', 'Strong', 'Mild (3)')
    """
    counts = Counter(names)
    return tuple(
        name if counts[name] == 1 else f"{name} ({n})"
        for n, name in enumerate(names, start=1)
    )
