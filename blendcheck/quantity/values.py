"""What a text means once it has been read: value types that keep their print.

The readers beside this module build these from text and print them back; the
records above keep them. Numbers are exact, and the printed text is never lost.
"""

from datetime import date
from enum import StrEnum
from fractions import Fraction
from typing import Literal

from blendcheck.frozen import Frozen
from blendcheck.interval import Range

__all__ = [
    "Amount",
    "Base",
    "CapText",
    "Density",
    "Limit",
    "Mark",
    "Missing",
    "NoRestriction",
    "NotAdded",
    "NotApplicable",
    "NotPermitted",
    "Percent",
    "PrintedDate",
    "Temperature",
]


class Mark(StrEnum):
    """A doubt that travels with every result made from a figure."""

    AREA_PERCENT = "area %"
    """A GC peak area, shown as such; it may differ from % by weight."""
    PUBLISHED_NOT_LOT = "published range, not your lot"
    FROM_MEMORY = "from memory"
    ESTIMATED = "estimated"
    DROPS = "drops, not weighed"
    ABSENCE = "rests on what a list does not show"
    UNCONFIRMED = "rests on a match that is not confirmed"


class Base(StrEnum):
    """What a percent is a percent of. Caps apply to ``FINISHED``."""

    FINISHED = "finished"
    WET = "wet mix"
    POWDERS = "powders"
    SOAPING_OILS = "soaping oils"
    BLEND = "blend"
    MATERIAL = "material"


class Amount(Frozen):
    """How much of a thing a recipe line asks for, as written.

    ``number`` counts ``unit``; ``unit`` is a canonical name:
    mass ``g kg mg oz lb``; volume ``mL L "US fl oz" "imp fl oz" tsp tbsp
    "metric tsp"`` (``tsp`` and ``tbsp`` are the United States customary spoons);
    counts ``drop cup scoop pinch capful spray``; ``part`` for parts;
    ``%`` for a percent, whose base is then in ``base``.
    """

    printed: str
    kind: Literal["mass", "volume", "count", "parts", "percent"]
    number: Range
    unit: str
    base: Base | None = None


class Percent(Frozen):
    """A share in percent, ``range`` within [0, 100] where it is a composition.

    ``basis`` is ``"w/w"``, ``"v/v"``, ``"area"`` or ``None`` (not said);
    ``base`` what it is a percent of, where the text says so. ``range.low`` and
    ``range.high`` are percents (``10 ppm`` is 0.001). ``detected`` is False for
    ``n.d.``; a bare ``n.d.`` or ``tr`` has ``high`` None: nothing is stated.
    """

    printed: str
    range: Range
    basis: Literal["w/w", "v/v", "area"] | None = None
    base: Base | None = None
    detected: bool = True


class Temperature(Frozen):
    """A temperature or a flash point. ``range`` in degrees Celsius, exact.

    ``>93 °C`` has ``low`` 93 (open) and ``high`` None. ``no data``, ``N/A`` and a
    blank have both ends None: unknown.
    """

    printed: str
    range: Range
    cup: Literal["closed", "open"] | None = None


class Density(Frozen):
    """A density. ``range`` in g/mL; ``at`` in degrees Celsius where printed."""

    printed: str
    range: Range
    at: Fraction | None = None


class PrintedDate(Frozen):
    """A date with the text it was read from."""

    printed: str
    on: date


class Limit(Frozen):
    """A cap in percent of the finished product, > 0 and <= 100."""

    printed: str
    percent: Fraction
    state: Literal["limit"] = "limit"


class NotPermitted(Frozen):
    """Not permitted at all: a cap of 0."""

    printed: str
    state: Literal["not permitted"] = "not permitted"


class NotAdded(Frozen):
    """Not permitted as an added ingredient; ``percent`` limits what oils bring."""

    printed: str
    percent: Fraction
    state: Literal["not as an added ingredient"] = "not as an added ingredient"


class NoRestriction(Frozen):
    """The document states no restriction: a fact, not a ``within``."""

    printed: str
    state: Literal["no restriction stated"] = "no restriction stated"


class NotApplicable(Frozen):
    """Marked "N/A"; only the document's own footnote says what that means."""

    printed: str
    footnote: str
    state: Literal["not applicable"] = "not applicable"


class Missing(Frozen):
    """Blank or a dash: nothing is stated."""

    printed: str
    state: Literal["missing"] = "missing"


CapText = Limit | NotPermitted | NotAdded | NoRestriction | NotApplicable | Missing
