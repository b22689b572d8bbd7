"""An entry as plain data, ready for JSON."""

from collections.abc import Mapping
from dataclasses import asdict, fields, is_dataclass
from fractions import Fraction
from typing import Any, Final

from blendcheck.entry.records import Place
from blendcheck.entry.search import Found
from blendcheck.entry.whole import OilEntry, SubstanceEntry
from blendcheck.interval import Range
from blendcheck.quantity import print_number
from blendcheck.reference import TagCount

__all__ = ["SCHEMA", "as_data", "choices_data", "tags_data"]

SCHEMA: Final = 1
_DIGITS: Final = 12

Json = dict[str, Any]


def _number(value: Fraction | None) -> float | int | None:
    if value is None or value.denominator == 1:
        return None if value is None else value.numerator
    return float(print_number(value, digits=_DIGITS))


class _Writer:
    """Turns records into plain data, and keeps the sources that they cite."""

    def __init__(self) -> None:
        self.sources: dict[str, Json] = {}

    def plain(self, value: Any) -> Any:  # noqa: ANN401  # any field of a record
        """Return any field of a record as plain data."""
        if isinstance(value, Range):
            return [_number(value.low), _number(value.high)]
        if isinstance(value, Fraction):
            return _number(value)
        if isinstance(value, Place):
            return self.place(value)
        if is_dataclass(value) and not isinstance(value, type):
            return self.record(value)
        if isinstance(value, Mapping):
            return {str(key): self.plain(inner) for key, inner in value.items()}
        if isinstance(value, tuple | list):
            return [self.plain(inner) for inner in value]
        return value

    def place(self, place: Place) -> Json:
        """Return a place; its source stands in the table of sources."""
        source = place.source
        self.sources[source.source_id] = asdict(source)
        return {
            "source": source.source_id,
            "locator": place.locator,
            "tag": place.tag,
            "note": place.note,
        }

    def record(self, value: Any) -> Json:  # noqa: ANN401  # any record
        """Return a record; ``open`` stands beside a range that leaves an end out."""
        made: Json = {}
        for field in fields(value):
            held = getattr(value, field.name)
            made[field.name] = self.plain(held)
            if isinstance(held, Range) and (held.low_open or held.high_open):
                ends = (("low", held.low_open), ("high", held.high_open))
                made["open"] = [name for name, is_open in ends if is_open]
        return made


def as_data(entry: SubstanceEntry | OilEntry, asked: str) -> Json:
    """Write an entry as plain data.

    Parameters
    ----------
    entry : SubstanceEntry or OilEntry
        The entry.
    asked : str
        What was typed.

    Returns
    -------
    dict
        Keys are the fields of the records. A range is a list of its two ends,
        ``None`` where nothing bounds it; ``open`` beside it names an end that is
        itself excluded. ``sources`` holds each source by its id.
    """
    kind = "oil" if isinstance(entry, OilEntry) else "substance"
    writer = _Writer()
    document = {"schema": SCHEMA, "asked": asked, kind: writer.record(entry)}
    document["sources"] = writer.sources
    return document


def choices_data(found: Found) -> Json:
    """Write what a text may mean as plain data.

    Parameters
    ----------
    found : Found
        Several choices.
    """
    return {
        "schema": SCHEMA,
        "asked": found.text,
        "choices": _Writer().plain(found.choices),
    }


def tags_data(counts: Mapping[str, TagCount]) -> Json:
    """Write how much of each table rests on memory as plain data.

    Parameters
    ----------
    counts : Mapping
        By the name of the table.
    """
    seen = sum(count.seen for count in counts.values())
    memory = sum(count.memory for count in counts.values())
    tables = {name: _tag(count) for name, count in sorted(counts.items())}
    return {"schema": SCHEMA, "tables": tables, "total": _tag(TagCount(seen, memory))}


def _tag(count: TagCount) -> Json:
    return {
        "rows": count.seen + count.memory,
        "memory": count.memory,
        "memory_share": _number(count.memory_share),
    }
