"""Why a text is not TOML, in one sentence with the line and the usual cause.

``tomllib`` says "Expected newline or end of document" for ``0,5``, for
``03/04/25`` and for ``60 g`` alike. The line itself tells them apart.
"""

import re
from dataclasses import dataclass
from typing import Final

from blendcheck.errors import InputError, QuestionError
from blendcheck.quantity.cleaning import shown

__all__ = ["syntax_error"]

_AT_LINE: Final = re.compile(r"at line ([0-9]+)")
_COMMENT: Final = re.compile(r"""^((?:[^"'#]|"[^"]*"|'[^']*')*)#.*$""")


@dataclass(frozen=True, slots=True)
class _Cause:
    """What a line or the parser's reason looks like, and what to tell the maker."""

    code: str
    what: str
    fix: str
    value: re.Pattern[str] | None = None  # of the text behind the first "="
    line: re.Pattern[str] | None = None
    reason: re.Pattern[str] | None = None
    question: bool = False

    def fits(self, line: str, value: str, reason: str) -> bool:
        pairs = ((self.value, value), (self.line, line), (self.reason, reason))
        return all(p is None or p.search(text) is not None for p, text in pairs)


def _any(pattern: str) -> re.Pattern[str]:
    return re.compile(pattern)


_QUOTED: Final = r"""^("[^"]*"|'[^']*')"""

# The first that fits is told.
_CAUSES: Final = (
    _Cause(
        "typographic-quotes",
        "has typographic quotation marks",
        'Type straight ones: "',
        line=_any("^[^\"'#]*[“”„«»‘’]"),
    ),
    _Cause(
        "table-twice",
        "opens a table that is open already",
        "Keep all its fields under one header; a table that repeats has two "
        "brackets everywhere, like [[line]]",
        reason=_any("Cannot declare|Cannot mutate|Cannot redefine|Cannot overwrite"),
        line=_any(r"^\["),
    ),
    _Cause(
        "field-twice",
        "gives a field that its table has already",
        "Keep one of the two; each [[line]], [[material]] or [[stock]] needs a header "
        "of its own",
        reason=_any("Cannot overwrite|Cannot mutate|Duplicate"),
    ),
    _Cause(
        "header-brackets",
        "does not close its brackets",
        "Write [process] for a table that stands once, [[line]] for one that repeats",
        line=_any(r"^\["),
    ),
    _Cause(
        "bracket-missing",
        "stands where a list or a table should be closed, on this line or above it",
        "Close every [ with ] and every { with }",
        reason=_any("Unclosed"),
    ),
    _Cause(
        "bracket-missing",
        "does not close a table in { }, or has a comma too many",
        "{ } stays on one line and has no comma at its end",
        reason=_any("key part"),
        value=_any("{"),
    ),
    _Cause(
        "no-equals",
        'has ":" where "=" belongs',
        'Write it like amount = "60 g"',
        line=_any("^[^=\"']*:"),
        reason=_any("Expected '='|Invalid statement"),
    ),
    _Cause(
        "no-equals",
        'is not "name = value"',
        'Write it like amount = "60 g"; a remark of your own starts with #',
        reason=_any("Expected '='|Invalid statement|key part"),
    ),
    _Cause(
        "no-value",
        'has nothing behind "="',
        "Write the value, or delete the line: a blank is not zero",
        value=_any("^$"),
    ),
    _Cause(
        "backslash",
        r"has a single backslash in a text",
        r"Write it twice, \\, or put the text in single quotes",
        reason=_any("Unescaped|escape"),
    ),
    _Cause(
        "quote-missing",
        "has a quotation mark that is not closed on its line",
        "Put one before and one behind the text",
        reason=_any(r"Illegal character '\\n'|invalid character '\\n'|Unterminated"),
    ),
    _Cause(
        "characters",
        "holds a character that does not print",
        "Type the text again",
        reason=_any("Illegal character|invalid character"),
    ),
    _Cause(
        "behind-quotes",
        "goes on behind the closing quotation mark",
        "Put all of the value inside the quotation marks, and a remark behind #",
        value=_any(_QUOTED + r"\s*[^\s#]"),
    ),
    _Cause(
        "decimal-comma",
        "has a comma in a number: a decimal point, or thousands",
        'Write decimals with a point and figures in quotes, like "0.5 g"',
        value=_any(r"^[+-]?[0-9]+,[0-9]"),
        question=True,
    ),
    _Cause(
        "date-order",
        "holds a date without quotes, and its order is not clear",
        'Write it year first, like "2025-04-03"',
        value=_any(r"^[0-9]{1,2}([/.-])[0-9]{1,2}\1[0-9]{2,4}"),
        question=True,
    ),
    _Cause(
        "date-impossible",
        "holds a date that does not exist",
        'Write it year first, like "2025-04-03"',
        value=_any(r"^[0-9]{4}-[0-9]{2}-[0-9]{2}"),
    ),
    _Cause(
        "leading-zero",
        "holds a number that starts with a zero",
        'Write lots and codes in quotes, like lot = "007", and decimals like "0.7"',
        value=_any(r"^[+-]?0[0-9]"),
    ),
    _Cause(
        "true-or-false",
        "answers in a way that is not read",
        "Write true or false, in small letters and without quotes",
        value=_any(r"^(?i:true|false|yes|no)$"),
    ),
    _Cause(
        "bracket-missing",
        "begins or ends a list or a table whose bracket is not closed",
        "Close every [ with ] and every { with }, with commas between the parts",
        value=_any(r"^[\[{]"),
    ),
    _Cause(
        "quotes-missing",
        "has a text or a figure with its unit without quotes",
        'Put it in quotes, like amount = "60 g"',
        value=_any(r"\S"),
    ),
)


def syntax_error(text: str, error: ValueError, where: str) -> InputError:
    """Return the message for a text that is not TOML.

    Parameters
    ----------
    text : str
        The whole text, its lines ended by a line feed.
    error : ValueError
        What ``tomllib`` raised.
    where : str
        Name of the file.

    Returns
    -------
    InputError
        With file, line, the line itself, the usual cause and what to write
        instead; a :class:`~blendcheck.errors.QuestionError` for a decimal comma
        or a date whose order is not clear.
    """
    reason = str(error)
    number = _line_number(text, reason)
    line = _COMMENT.sub(r"\1", text.split("\n")[number - 1].strip()).strip()
    value = line.partition("=")[2].strip()
    where = f"{where}, line {number}"
    for cause in _CAUSES:
        if cause.fits(line, value, reason):
            kind = QuestionError if cause.question else InputError
            return kind(
                f"{shown(line)} {cause.what}", cause.fix, where=where, code=cause.code
            )
    return InputError(
        f"{shown(line)} is not read",
        'Compare it with its neighbours; a line is like amount = "60 g"',
        where=where,
        code="toml",
    )


def _line_number(text: str, reason: str) -> int:
    """Return the line that a reason of ``tomllib`` speaks of, from 1."""
    found = _AT_LINE.search(reason)
    if found is not None:
        return int(found[1])
    if "Unterminated" in reason:  # three quotes, somewhere above
        opened = max(text.rfind('"""'), text.rfind("'''"))
        if opened >= 0:
            return text.count("\n", 0, opened) + 1
    return text.rstrip().count("\n") + 1
