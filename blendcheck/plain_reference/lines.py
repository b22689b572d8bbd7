"""Lines of text, widest 88 characters, and the numbered sources of an entry."""

from collections.abc import Iterable, Iterator

from blendcheck.entry import Place
from blendcheck.textlines import heading, wrapped

__all__ = ["Sources", "item", "section"]


def item(*parts: str) -> str:
    """Return one item of a list; blank parts are left out.

    Parameters
    ----------
    *parts : str
        What is put together with semicolons.
    """
    return wrapped("; ".join(filter(None, parts)), "    ", "  * ")


def section(title: str, lines: Iterable[str], *, lead: str = "") -> list[str]:
    """Return a section, or nothing where it has no lines.

    Parameters
    ----------
    title : str
        Its heading.
    lines : iterable of str
        Its lines.
    lead : str, optional
        A sentence before them.
    """
    found = list(lines)
    if not found:
        return []
    opening = [wrapped(lead)] if lead else []
    return [*heading(title), *opening, *found]


class Sources:
    """The sources of one entry, numbered in the order in which they are cited."""

    def __init__(self) -> None:
        self.numbers: dict[str, int] = {}
        self.places: list[Place] = []

    def cite(self, place: Place) -> str:
        """Return a short reference to a place, with what is odd there.

        Parameters
        ----------
        place : Place
            Where a statement stands.
        """
        known = place.source.source_id
        if known not in self.numbers:
            self.numbers[known] = len(self.numbers) + 1
            self.places.append(place)
        words = f"[{self.numbers[known]}] {place.locator}".strip()
        if place.from_memory:
            words += ", from memory"
        return f"{words} ({place.note})" if place.note else words

    def lines(self) -> Iterator[str]:
        """Yield the list of sources."""
        for place in self.places:
            source = place.source
            number = f"[{self.numbers[source.source_id]}]"
            said = (source.citation, source.edition, source.locator_url)
            text = ". ".join(part for part in said if part and part != "not stated")
            yield wrapped(text, "     ", f"{number:<5}")
