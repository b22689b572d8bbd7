"""Lines of plain text, widest 88 characters, for whatever a terminal shows."""

import re
import textwrap
from typing import Final

__all__ = ["WIDTH", "heading", "wrapped"]

WIDTH: Final = 88

_BEFORE_UNIT = re.compile(r"(?<=[0-9]) (?=(?:%|g|mL|K|°C)(?![A-Za-z]))")
_HELD = "\N{NO-BREAK SPACE}"


def wrapped(text: str, indent: str = "", first: str | None = None) -> str:
    """Break a text into lines, never inside a word or between a number and its unit.

    Parameters
    ----------
    text : str
        The text.
    indent : str, optional
        What stands before each line.
    first : str, optional
        What stands before the first line instead.
    """
    first = indent if first is None else first
    if text and len(first) + len(text) <= WIDTH and text == " ".join(text.split()):
        return first + text
    return textwrap.fill(
        _BEFORE_UNIT.sub(_HELD, text),
        WIDTH,
        initial_indent=first,
        subsequent_indent=indent,
        break_long_words=False,
        break_on_hyphens=False,
    ).replace(_HELD, " ")


def heading(text: str) -> list[str]:
    """Return a heading with a line under it and a blank line before it.

    Parameters
    ----------
    text : str
        The heading.
    """
    return ["", text, "-" * len(text)]
