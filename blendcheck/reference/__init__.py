"""The sourced tables of ``reference/``: who the constituents are, what they need.

Every row names its source, the place in it, and whether somebody read it there
(``seen``) or it was recalled (``memory``). A row that breaks a rule stops the load
with its file and line. Structures are compared with formula and mass by
:mod:`blendcheck.structure`, in the tests and on command, not at every load.

``rows`` says what a row holds, ``tables`` reads them, ``names`` matches what papers
print, ``grouping`` says what counts together, ``cautions`` what to warn of.
"""

from blendcheck.reference.cautions import (
    oils_named,
    watch,
    watch_for_cas,
    watch_for_oil,
)
from blendcheck.reference.grouping import Group, groups, groups_of, members_of
from blendcheck.reference.names import Match, find, normal_name
from blendcheck.reference.rows import (
    RULES,
    AtomicWeight,
    Constituent,
    GroupMember,
    OilName,
    Row,
    Source,
    Synonym,
    Watch,
    check_digit_ok,
)
from blendcheck.reference.tables import (
    TABLES,
    TagCount,
    constituents,
    read_table,
    rows_of,
    source,
    sources,
    tags,
)
from blendcheck.reference.volatiles import is_volatile

__all__ = [
    "RULES",
    "TABLES",
    "AtomicWeight",
    "Constituent",
    "Group",
    "GroupMember",
    "Match",
    "OilName",
    "Row",
    "Source",
    "Synonym",
    "TagCount",
    "Watch",
    "check_digit_ok",
    "constituents",
    "find",
    "groups",
    "groups_of",
    "is_volatile",
    "members_of",
    "normal_name",
    "oils_named",
    "read_table",
    "rows_of",
    "source",
    "sources",
    "tags",
    "watch",
    "watch_for_cas",
    "watch_for_oil",
]
