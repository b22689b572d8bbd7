"""Which entry of the list of fragrance allergens an oil is, may be, or cannot be.

The INCI name settles it, or a number that stands in one entry only. Suppliers print
other numbers and older names too, so everything else that is known of an oil only
makes it one that may be the entry. An oil of which nothing is recognised may be any.
"""

import re
from collections.abc import Iterator, Mapping
from functools import cache
from types import MappingProxyType
from typing import NamedTuple

from blendcheck import reference
from blendcheck.checks.case import Case
from blendcheck.checks.entries import used
from blendcheck.records.material import Material
from blendcheck.reference import AllergenEntry

__all__ = [
    "is_oil_entry",
    "is_one_oil",
    "is_placed",
    "oil_entries_of",
    "oils_not_placed",
    "plants_taken_as_plain",
]

_ONE_OIL = frozenset({"essential oil", "absolute"})
"""Kinds that are one oil and not a mixture of oils."""

_OIL_WORDS = re.compile(r"\b(?:oil|extract|absolute|water|resin|turpentine)\b", re.I)
_NOT_THE_OIL = re.compile(r"\b(?:essential|oil|absolute|organic|undiluted)\b", re.I)
_MIXED = re.compile(r"\b(?:blends?|blended|mix|mixed|mixture|synergy)\b", re.I)
_NO_PLANT = frozenset(
    {
        *("absolute", "essential", "expressed", "extract", "oil", "organic", "water"),
        *("aroma", "fragrance", "parfum", "perfume", "undiluted"),
        *("bark", "blossom", "bud", "flower", "fruit", "leaf", "needle", "peel"),
        *("resin", "root", "seed", "stem", "twig", "wood"),
        *("sp", "species", "spp"),
    }
)
"""Words of an INCI name that name no plant."""

_OF_PLANTS = re.compile(
    r"\b(?:hydrosols?|hydrolat[es]*|infus\w+|macerat\w+|tinctures?|witch hazel|petals?|"
    r"leaf|leaves|buds?|herbs?|peel|zest|spices?|(?:rose|flower|floral|blossom|lavender"
    r"|mint|orange) (?:water|powder))\b",
    re.I,
)
"""Names of what is made from a plant, and so may smell of it (common practice)."""

_SHORTEST = 3
"""Letters of a word in a plant's name that is no abbreviation."""

_TRADE_NAMES: Mapping[str, str] = MappingProxyType(
    {
        "III/91": "oakmoss|oak moss",
        "III/92": "treemoss|tree moss|pseudevernia furfuracea",
        "III/109": "pine|dwarf pine|mountain pine|mugo|pinus pumilio",
        "III/114": "pine|dwarf pine",
        "III/122": "cedar|cedarwood|atlas",
        "III/124": "turpentine",
        "III/154": "peru balsam|balsam peru|balsam of peru",
        "III/196": "verbena|aloysia citrodora|aloysia citriodora|aloysia triphylla|"
        "lippia triphylla|verbena triphylla",
        "III/347": "ylang|cananga",
        "III/348": "cassia|cinnamon|cinnamomum aromaticum",
        "III/349": "cinnamon",
        "III/350": "neroli|orange flower|orange blossom|citrus amara|citrus vulgaris",
        "III/351": "orange|bigarade|citrus amara|citrus vulgaris",
        "III/352": "bergamot",
        "III/353": "lemon|citrus medica",
        "III/354": "lemongrass|lemon grass|andropogon schoenanthus|"
        "andropogon citratus|andropogon flexuosus",
        "III/355": "eucalyptus|blue gum",
        "III/356": "clove|cloves",
        "III/357": "jasmine|jasmin",
        "III/358": "cedar|cedarwood|virginian",
        "III/359": "laurel|bay|bay leaf",
        "III/360": "lavender|lavandin|lavandula officinalis|lavandula vera|"
        "lavandula burnatii",
        "III/361": "peppermint|mint",
        "III/362": "spearmint|mint",
        "III/363": "narcissus|jonquil|daffodil",
        "III/364": "geranium|pelargonium roseum|pelargonium asperum",
        "III/365": "patchouli|patchouly",
        "III/366": "rose|rosa",
        "III/367": "sandalwood",
    }
)
"""What the trade calls the oils of the list, and older names of their plants, in
lower case, by entry (common practice, from memory)."""


class _Named(NamedTuple):
    """What tells one oil from another."""

    name: str
    botanical: str
    inci: str
    cas: str


class _Place(NamedTuple):
    """The entries that an oil is, those that it may be, whether it is recognised."""

    is_it: frozenset[str]
    may_be: frozenset[str]
    is_known: bool


_NO_OIL = _Place(frozenset(), frozenset(), is_known=True)


@cache
def is_oil_entry(entry: AllergenEntry) -> bool:
    """Whether an entry is an oil, an extract or an absolute.

    Parameters
    ----------
    entry : AllergenEntry
        An entry of the list.
    """
    return any(_OIL_WORDS.search(name) for name in entry.members)


def is_one_oil(material: Material) -> bool:
    """Whether a material is by its kind one oil, and no mixture of oils.

    Parameters
    ----------
    material : Material
        A material of the shelf.
    """
    return material.kind in _ONE_OIL


def _plain(text: str) -> str:
    """Return a name in lower case, without brackets and the sign of a hybrid."""
    bare = re.sub(r"\(.*?\)", " ", text.casefold().replace("×", " "))
    words = [word for word in re.findall(r"[^\W_]+", bare) if word != "x"]
    return " ".join(words)


def _plant(text: str) -> str:
    """Return genus and species of a plant's name, blank if it is none."""
    words = [word for word in _plain(text).split() if word not in _NO_PLANT][:2]
    is_name = len(words) > 1 and all(len(word) >= _SHORTEST for word in words)
    return " ".join(words) if is_name else ""


@cache
def _oil_names() -> Mapping[str, tuple[AllergenEntry, ...]]:
    """Return the oil entries by each INCI name and each number."""
    found: dict[str, tuple[AllergenEntry, ...]] = {}
    for entry in reference.allergens():
        if is_oil_entry(entry):
            for name in {*map(_plain, (*entry.members, entry.label_name)), *entry.cas}:
                found[name] = (*found.get(name, ()), entry)
    return MappingProxyType(found)


def _settled(oil: _Named) -> frozenset[str]:
    """Return the entries of its INCI name, else of its number."""
    by_inci = _oil_names().get(_plain(oil.inci), ()) if oil.inci else ()
    by_number = _oil_names().get(oil.cas, ()) if oil.cas else ()
    every = by_inci if len(by_inci) == 1 else (*by_number, *by_inci)
    return frozenset(entry.entry for entry in every)


# -- what it may be --------------------------------------------------------


def _plants(oil: _Named) -> frozenset[str]:
    """Return the plants that the INCI and the botanical name give."""
    return frozenset(map(_plant, (oil.inci, oil.botanical))) - {""}


def _known_oils(oil: _Named) -> frozenset[str]:
    """Return the oils of the tables that it may be, by id.

    What names it best speaks alone: its plant, else its number, else its name.
    """
    bare = _plain(_NOT_THE_OIL.sub(" ", oil.name))
    for texts in ({_plain(oil.botanical), *_plants(oil)}, {oil.cas}, {bare}):
        found = {row.oil for text in texts - {""} for row in reference.find_oils(text)}
        if found:
            return frozenset(found)
    return frozenset(() if _plants(oil) else reference.oils_named(oil.name))


def _called(oil: _Named) -> Iterator[str]:
    """Yield the entries of whose plant or trade name it has the words."""
    plants = _plants(oil)
    for name, entries in _oil_names().items():
        if any(f"{name} ".startswith(f"{plant} ") for plant in plants):
            yield from (entry.entry for entry in entries)
    texts = [f" {_plain(text)} " for text in (oil.name, oil.inci)]
    for number, written in _TRADE_NAMES.items():
        names = written.split("|")
        by_word = any(f" {name} " in text for name in names for text in texts)
        # a plant that is named speaks alone; a name is asked only where none is
        if not plants.isdisjoint(names) if plants else by_word:
            yield number


@cache
def _place(oil: _Named) -> _Place:
    settled = _settled(oil)
    if len(settled) == 1:
        return _Place(settled, frozenset(), is_known=True)
    if settled:
        return _Place(frozenset(), settled, is_known=True)
    known = _known_oils(oil)
    numbers = {
        row.cas
        for one in known
        for row in reference.rows_where(reference.OilNumber, "oil", one)
    }
    by_oil = {entry.entry for n in numbers for entry in _oil_names().get(n, ())}
    may_be = frozenset(by_oil | set(_called(oil)))
    mixed = _MIXED.search(f"{oil.name} {oil.inci}") is not None
    return _Place(
        frozenset(),
        may_be,
        is_known=not mixed and bool(known or may_be or _plants(oil)),
    )


def _placed(material: Material) -> _Place:
    if not is_one_oil(material):
        return _NO_OIL
    cas = material.cas or ""
    return _place(_Named(material.name, material.botanical, material.inci, cas))


def oil_entries_of(material: Material) -> tuple[frozenset[str], frozenset[str]]:
    """Return the entries that an oil is, and those that it may be.

    Parameters
    ----------
    material : Material
        A material of the shelf.

    Returns
    -------
    tuple of frozenset of str
        Reference numbers of the entries. Its INCI name settles it; else a number
        that stands in one entry only; plants, other numbers and a name settle
        nothing. Both are empty for an oil that is none of the list, and for one of
        which nothing is recognised: :func:`is_placed` tells them apart.
    """
    found = _placed(material)
    return found.is_it, found.may_be


def is_placed(material: Material) -> bool:
    """Whether it is known which entry a material is or may be, or that it is none.

    Parameters
    ----------
    material : Material
        A material of the shelf. One that says that it is a blend is not placed,
        unless its INCI name or its number is an entry.
    """
    return _placed(material).is_known


def oils_not_placed(case: Case) -> tuple[str, ...]:
    """Name the oils of which nothing says which entry they are, if any.

    Parameters
    ----------
    case : Case
        The case.
    """
    return tuple(
        material.name
        for material in used(case.totals).values()
        if not is_placed(material)
    )


def plants_taken_as_plain(case: Case) -> tuple[str, ...]:
    """Name what is made from a plant and is entered as a thing without scent.

    Parameters
    ----------
    case : Case
        The case.

    Returns
    -------
    tuple of str
        Waters, infused oils and dried plants without a list: they are taken to be
        what their name says, and so to hold no name of the list.
    """
    totals = case.totals
    names = (
        node.material.name
        for node in totals.leaves
        if node.material is not None
        and not node.material.is_scented
        and totals.is_own(node)
        and _OF_PLANTS.search(node.material.name)
    )
    return tuple(dict.fromkeys(names))
