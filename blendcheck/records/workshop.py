"""The workshop: what holds for the whole kitchen, and where its pieces are used."""

from typing import Annotated, Literal

from pydantic import AfterValidator, Field
from pydantic import StringConstraints as Text

from blendcheck.records.fields import AmountText, Record
from blendcheck.records.setting import Shower
from blendcheck.records.workroom import Workroom

__all__ = ["Place", "Workshop"]


def _written(shower: Shower | None) -> Shower | None:
    """Take a table without a figure for one that is not there: a file cannot tell."""
    return None if shower == Shower() else shower


Place = Literal["EU", "Great Britain", "Canada", "United States"]
"""Regions whose law the tables know something of. Northern Ireland goes by the EU."""


class Workshop(Record):
    """What holds for the whole kitchen.

    ``place`` is the region whose law the maker goes by; it is never guessed.
    ``scale`` is the resolution of the scale, ``review_after`` the age at which
    a paper is looked at again (in months), ``current`` the edition in force of
    each scheme, as far as the maker knows. ``who``, ``where`` and ``poison_line``
    (a telephone number) stand on the papers. ``shower`` is the shower that the air is
    estimated for.
    """

    name: str = ""
    place: Place | None = None
    who: Annotated[str, Text(max_length=200)] = ""
    where: Annotated[str, Text(max_length=300)] = ""
    poison_line: Annotated[str, Text(max_length=100)] = ""
    scale: AmountText | None = None
    review_after_months: int | None = Field(default=None, ge=1, le=240)
    current: dict[str, str] = Field(default_factory=dict)
    workroom: Workroom = Workroom()
    shower: Annotated[Shower | None, AfterValidator(_written)] = None
