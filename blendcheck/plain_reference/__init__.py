"""What ``blendcheck reference`` prints: plain text, widest 88 characters."""

from collections.abc import Mapping

from blendcheck.entry import (
    Found,
    as_data,
    choices_data,
    look_up,
    open_entry,
    tags_data,
)
from blendcheck.errors import InputError
from blendcheck.plain_reference.text import entry_text
from blendcheck.quantity import print_number
from blendcheck.reference import TagCount, tags
from blendcheck.textlines import wrapped

__all__ = ["answer", "choices_text", "entry_text", "tags_answer", "tags_text"]


def answer(
    asked: str, *, as_json: bool, choice: int | None = None
) -> str | dict[str, object]:
    """Answer what a name, synonym, CAS number or oil is.

    Parameters
    ----------
    asked : str
        As typed.
    as_json : bool
        Whether plain data for JSON is wanted instead of a text.
    choice : int, optional
        Which of several meanings, from 1.

    Returns
    -------
    str or dict
        The entry; where the text may mean several, those to choose from.

    Raises
    ------
    InputError
        If the tables have nothing of that name, and the message names the nearest;
        or if there is no such choice.
    """
    found = look_up(asked)
    if found.problem is not None:
        raise found.problem
    meant = found.choices
    if choice is not None:
        if not 0 < choice <= len(meant):
            raise InputError(
                f"there is no choice {choice} for {found.text!r}",
                f"choose from 1 to {len(meant)}",
                where="--choice",
            )
        meant = meant[choice - 1 : choice]
    if len(meant) > 1:
        return choices_data(found) if as_json else choices_text(found)
    entry = open_entry(meant[0])
    return as_data(entry, found.text) if as_json else entry_text(entry)


def tags_answer(*, as_json: bool) -> str | dict[str, object]:
    """Answer how much of each table rests on memory.

    Parameters
    ----------
    as_json : bool
        Whether plain data for JSON is wanted instead of a text.
    """
    return tags_data(tags()) if as_json else tags_text(tags())


def choices_text(found: Found) -> str:
    """Write what a text may mean, for choosing.

    Parameters
    ----------
    found : Found
        Several choices.
    """
    lines = [wrapped(f"“{found.text}” may mean {len(found.choices)} things:"), ""]
    for n, choice in enumerate(found.choices, start=1):
        number = f", CAS {choice.cas}" if choice.cas else ""
        text = f"{choice.name}{number} ({choice.kind}: {choice.why})"
        lines.append(wrapped(text, "     ", f"{n:>3}. "))
    lines += ["", wrapped("Ask again with its number or name, or add --choice 1.")]
    return "\n".join(lines) + "\n"


def tags_text(counts: Mapping[str, TagCount]) -> str:
    """Write how many rows of each table rest on memory.

    Parameters
    ----------
    counts : Mapping
        By the name of the table.

    Returns
    -------
    str
        A table with a total.
    """
    seen = sum(count.seen for count in counts.values())
    memory = sum(count.memory for count in counts.values())
    rows = [("table", "rows", "from memory", "share")]
    for name, count in (*sorted(counts.items()), ("total", TagCount(seen, memory))):
        share = print_number(count.memory_share * 100, digits=2)
        all_rows = str(count.seen + count.memory)
        rows.append((name, all_rows, str(count.memory), f"{share} %"))
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    lines = [
        f"{row[0]:<{widths[0]}}  "
        + "  ".join(f"{c:>{w}}" for c, w in zip(row[1:], widths[1:], strict=True))
        for row in rows
    ]
    return "\n".join(lines) + "\n"
