"""Which item of an old list an item of a new list is, so that remarks stay with it."""

from typing import Any, Final

__all__ = ["match"]

_NAMES: Final = (
    "kind",
    "document",
    "on",
    "material",
    "stock",
    "name",
    "cas",
    "lot",
    "scheme",
    "edition",
    "category",
)


def _identity(item: Any) -> Any:  # noqa: ANN401  # whatever a record dumps to
    """Return what an item is called, apart from its figures."""
    if not isinstance(item, dict):
        return item
    if "id" in item:
        return item["id"]
    if "received" in item:  # a lot
        return item["lot"]
    return tuple(item.get(name) for name in _NAMES)


def match(old: list[Any], new: list[Any]) -> list[int | None]:
    """Return, for each new item, the position of the old item that it is.

    Parameters
    ----------
    old, new : list
        Two states of one list.

    Returns
    -------
    list of (int or None)
        Equal items first, then those of the same name, then, between two that
        were found, what stands at the same place (a renamed item). None for an
        item that was not there. No old item is given twice.
    """
    found: list[int | None] = [None] * len(new)
    free = set(range(len(old)))
    _alike(found, free, old, new)
    _alike(found, free, [_identity(x) for x in old], [_identity(x) for x in new])
    _renamed(found, free, len(old))
    return found


def _alike(
    found: list[int | None], free: set[int], old: list[Any], new: list[Any]
) -> None:
    for at, item in enumerate(new):
        same = [i for i in sorted(free) if old[i] == item] if found[at] is None else []
        if same:
            # one at the same place rather than an equal one elsewhere
            source = at if at in same else same[0]
            found[at] = source
            free.remove(source)


def _renamed(found: list[int | None], free: set[int], count: int) -> None:
    before = -1
    for at, old in enumerate(found):
        if old is not None:
            before = old
            continue
        after = next((i for i in found[at:] if i is not None), count)
        between = [i for i in sorted(free) if before < i < after]
        if between:
            found[at] = before = between[0]
            free.remove(before)
