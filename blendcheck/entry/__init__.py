"""Everything that the tables say about a substance or an oil, in one record.

:func:`look_up` says what a name or number may mean, :func:`open_entry` opens one of
the choices. Nothing in an entry is of the maker's own lot: it never stands in for a
supplier's paper.
"""

from blendcheck.entry.data import SCHEMA, as_data, choices_data, tags_data
from blendcheck.entry.laws import POISON_LINE
from blendcheck.entry.oils import bare_name, oil_entry
from blendcheck.entry.records import (
    AirLimit,
    Alert,
    AllergenShown,
    Component,
    Figure,
    Fit,
    GroupShown,
    Hazard,
    InOil,
    LegalLimit,
    Name,
    Part,
    Phototoxicity,
    Place,
    Quantity,
    Share,
    Told,
)
from blendcheck.entry.search import Choice, Found, look_up, open_entry
from blendcheck.entry.substances import substance_entry
from blendcheck.entry.whole import Law, OilEntry, Structure, SubstanceEntry

__all__ = [
    "POISON_LINE",
    "SCHEMA",
    "AirLimit",
    "Alert",
    "AllergenShown",
    "Choice",
    "Component",
    "Figure",
    "Fit",
    "Found",
    "GroupShown",
    "Hazard",
    "InOil",
    "Law",
    "LegalLimit",
    "Name",
    "OilEntry",
    "Part",
    "Phototoxicity",
    "Place",
    "Quantity",
    "Share",
    "Structure",
    "SubstanceEntry",
    "Told",
    "as_data",
    "bare_name",
    "choices_data",
    "look_up",
    "oil_entry",
    "open_entry",
    "substance_entry",
    "tags_data",
]
