"""Starting points, not data: a published composition standing in for a paper.

A material may be started from what is published of its species. Every component
then carries the mark "published range, not your lot", the list never counts as
copied whole, and no ``within`` may rest on it. A supplier's paper replaces it
component by component. Only ranges that somebody read in their source are taken.
"""

from fractions import Fraction

from blendcheck import reference
from blendcheck.frozen import Frozen
from blendcheck.interval import Range
from blendcheck.quantity import Density, Percent, exact_text, read_density
from blendcheck.records.material import (
    Composition,
    CompositionRow,
    Document,
    Material,
    identity_of,
)

__all__ = [
    "Published",
    "oils_meant",
    "published_density",
    "published_shares",
    "started_from",
]

_READ = "seen"


class Published(Frozen):
    """What is published of one component of an oil, all sources together.

    Parameters
    ----------
    name : str
        The component.
    cas : str or None
        Its CAS number, where the source or the table gives one.
    range : Range
        From the smallest low end to the largest high end of all sources. [%]
    sources : tuple of str
        Source ids, each once.
    """

    name: str
    cas: str | None
    range: Range
    sources: tuple[str, ...]

    @property
    def identity(self) -> str:
        """The identity under which it is totalled."""
        return identity_of(self.name, self.cas)


def oils_meant(material: Material) -> tuple[reference.Oil, ...]:
    """Return the oils of the tables that a material may be.

    Parameters
    ----------
    material : Material
        Its botanical name decides; without one its CAS number, then its name.

    Returns
    -------
    tuple of Oil
        Several may fit, and the maker says which; empty when none does.
    """
    for text in (material.botanical, material.cas or "", material.name):
        if not text:
            continue
        found = reference.find_oils(text) or reference.find_oils(_without_oil(text))
        if found:
            return found
    return ()


def _without_oil(text: str) -> str:
    """Return a trade name without its last words "oil" and "essential oil"."""
    plain = " ".join(text.split())
    for ending in (" essential oil", " oil"):
        if plain.casefold().endswith(ending):
            return plain[: -len(ending)]
    return plain


def published_shares(oil_id: str) -> tuple[Published, ...]:
    """Return the published ranges of an oil's components.

    Parameters
    ----------
    oil_id : str
        The id of an oil in the tables.

    Returns
    -------
    tuple of Published
        One for each component, in the order of the table.

    Raises
    ------
    ReferenceDataError
        If there is no oil of that id.
    """
    found: dict[str, list[reference.OilComponent]] = {}
    for row in reference.oil_composition(oil_id):
        if row.quantity == "content" and row.tag == _READ:
            found.setdefault(row.cas or row.constituent, []).append(row)
    return tuple(_together(rows) for rows in found.values())


def _together(rows: list[reference.OilComponent]) -> Published:
    spans = [row.range for row in rows]
    low = min((span.low or Fraction(0)) for span in spans)
    highs = [Fraction(100) if span.high is None else span.high for span in spans]
    sources = tuple(dict.fromkeys(row.source_id for row in rows))
    first = rows[0]
    return Published(
        first.constituent, first.cas or None, Range(low, max(highs)), sources
    )


def started_from(material: Material, oil_id: str) -> Material:
    """Return a material with the published composition of an oil as its list.

    Parameters
    ----------
    material : Material
        The material; its own papers stay and go before what is published.
    oil_id : str
        The id of an oil in the tables.

    Returns
    -------
    Material
        A new record; an earlier starting point is replaced.

    Raises
    ------
    ReferenceDataError
        If there is no oil of that id.
    """
    oil = reference.oil(oil_id)
    shares = published_shares(oil_id)
    name = f"published: {oil.name}"
    sources = tuple(dict.fromkeys(s for share in shares for s in share.sources))
    document = Document(
        id=name,
        kind="published composition, not of your lot",
        issuer="; ".join(reference.source(s).citation for s in sources),
    )
    composition = Composition(
        kind="published range",
        document=name,
        row=tuple(
            CompositionRow(name=share.name, cas=share.cas, share=_percent(share.range))
            for share in shares
        ),
    )
    own = tuple(one for one in material.composition if one.kind != "published range")
    papers = tuple(
        one for one in material.document if not one.id.startswith("published: ")
    )
    return material.model_copy(
        update={"composition": (*own, composition), "document": (*papers, document)}
    )


def _percent(span: Range) -> Percent:
    ends = [exact_text(end) for end in (span.low, span.high) if end is not None]
    text = ends[0] if span.is_exact else "-".join(ends)
    return Percent(f"{text} %", span)


def published_density(oil_id: str) -> Density | None:
    """Return the published range of an oil's density, to be chosen and marked.

    Parameters
    ----------
    oil_id : str
        The id of an oil in the tables.

    Returns
    -------
    Density or None
        Relative density as printed in the source that was read, if there is one.

    Raises
    ------
    ReferenceDataError
        If there is no oil of that id.
    """
    for datum in reference.oil_properties(oil_id):
        span = datum.range
        if datum.quantity != "relative density" or datum.tag != _READ or span is None:
            continue
        if span.low and span.high:
            ends = f"{exact_text(span.low)}-{exact_text(span.high)}"
            return read_density(f"{ends} (20/20)")
    return None
