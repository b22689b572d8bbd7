"""Make ``oil_watch.csv`` from ``oil_composition.csv`` and ``constituent_watch.csv``.

A watched constituent is written down for an oil when a published composition of
that oil names it. ``most`` is the highest end that any of them prints, or of those
from memory where none was read. Run it after an edit of either table: ``python
reference/make_oil_watch.py``. A test fails when the file is not what it makes.
"""

import csv
import sys
from collections.abc import Iterator
from dataclasses import fields
from pathlib import Path

from blendcheck.quantity import exact_text
from blendcheck.reference import rows_of
from blendcheck.reference.property_rows import (
    ConstituentWatch,
    Oil,
    OilComponent,
    OilWatch,
)

HERE = Path(__file__).parent


def _row(watch: ConstituentWatch, published: list[OilComponent]) -> OilWatch:
    read = [row for row in published if row.tag == "seen"] or published
    ends = [row.range.high for row in read if row.range.high is not None]
    most = max(ends, default=None)
    content = next((row for row in read if row.range.high == most), read[0])
    is_read = watch.tag == "seen" and content.tag == "seen"
    return OilWatch(
        oil=content.oil,
        cas=watch.cas,
        name=watch.name,
        concern=watch.concern,
        says=watch.says,
        most="" if most is None else exact_text(most),
        content_source_id=content.source_id,
        source_id=watch.source_id,
        source_locator=watch.source_locator,
        tag="seen" if is_read else "memory",
        note="" if is_read else "reason or share from memory",
    )


def rows() -> Iterator[OilWatch]:
    """Yield the rows, oil by oil in the order of the table of oils."""
    for oil in rows_of(Oil):
        published: dict[str, list[OilComponent]] = {}
        for component in rows_of(OilComponent):
            if component.oil == oil.oil and component.cas:
                published.setdefault(component.cas, []).append(component)
        for watch in rows_of(ConstituentWatch):
            if watch.cas in published:
                yield _row(watch, published[watch.cas])


def text() -> str:
    """Return the whole file."""
    lines: list[str] = []

    class Lines:
        def write(self, line: str) -> None:
            lines.append(line)

    columns = [field.name for field in fields(OilWatch)]
    out = csv.writer(Lines(), lineterminator="\n")
    out.writerow(columns)
    out.writerows([getattr(row, name) for name in columns] for row in rows())
    return "".join(lines)


def main() -> None:
    """Write the file beside this script and say how many rows it has."""
    made = text()
    (HERE / "oil_watch.csv").write_text(made, "utf-8", newline="")
    sys.stdout.write(f"oil_watch.csv: {made.count(chr(10)) - 1} rows\n")


if __name__ == "__main__":
    main()
