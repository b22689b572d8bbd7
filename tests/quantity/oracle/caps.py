"""Every meaning of a cap."""

import itertools
import re

from tests.quantity.meanings import Meaning
from tests.quantity.oracle.shares import shares
from tests.quantity.oracle.text import UNSURE, listed, plain, table

_STATES = table("""
    not permitted: not permitted, not allowed, prohibited, banned, forbidden
    not permitted: not approved, not to be used, do not use, must not be used
    not permitted: none permitted
    no restriction stated: not restricted, no restriction, no restrictions, no limit
    no restriction stated: unrestricted, no limits, unlimited, not limited
    no restriction stated: without restriction
    not applicable: n/a, na, n.a., n. a., n.a, not applicable
    missing: -, --, ---, not stated, not available, no data, unknown
""")
_NEVER_ADDED = listed(
    "not added,not to be added,not added ingredient,not as an added ingredient"
    ",not as an added,not permitted as an added ingredient,not permitted as an added"
    ",not to be added ingredient,not an added ingredient"
)
_BROUGHT = listed(
    "natural sources,natural sources only,from natural sources"
    ",from natural sources only,only from natural sources"
)


def _frees(footnote: str, token: str) -> bool:
    """Say whether a footnote in brackets says that there is no restriction."""
    note = footnote.strip(" .*\"'")
    for join in (" = ", "= ", " =", "=", ": ", ":", " - ", " means ", " indicates "):
        if note.startswith(token + join):
            note = note.removeprefix(token + join).strip(" .*\"'")
            break
    else:
        if _STATES.get(token) != "not applicable":
            return False
    return bool(
        re.fullmatch(
            r"(there (is|are) )?no ([a-z]+ )?(restrictions?|limits?)( appl(y|ies))?"
            r"|(is )?(not restricted|unrestricted|unlimited)",
            note,
        )
    )


def _cap_figures(text: str):
    for span, unit in shares(text):
        if span == UNSURE:
            yield UNSURE
        elif unit[1] in (None, "w/w") and unit[2] in (None, "FINISHED"):
            low, high, low_open, high_open = span
            if low_open or high_open:
                continue
            if low == high or (low == 0 and not text.startswith("0")):
                yield high


def _explained(text: str) -> Meaning | None:
    """Return the meaning of "N/A", "-" or "0" with its footnote in brackets."""
    body, bracket, note = text.strip().partition("(")
    token = (plain(body) or "").removesuffix("*")
    silent = _STATES.get(token) == "not applicable"
    zero = re.fullmatch(r"0(\.0+)?( ?%)?", token)
    if bracket and not note.endswith(")"):
        return None
    note = note.removesuffix(")").strip()
    defined = bracket and (silent or zero or set(token) == {"-"})
    if defined and _frees(" ".join(note.lower().split()), token):
        return ("cap", "no restriction stated", None)
    return ("cap", "not applicable", note) if silent else None


def caps(text: str) -> set[Meaning]:
    """Return every meaning of a cap without a footnote of its own."""
    simple = plain(text)
    explained = _explained(text)
    if explained is not None:
        return {explained}
    if simple is None:
        return set()
    if not simple or simple in _STATES:
        return {("cap", _STATES.get(simple, "missing"), None)}
    special = {0: "not permitted", 100: "no restriction stated"}
    found = {
        ("cap", special[value], None) if value in special else ("cap", "limit", value)
        for value in _cap_figures(simple)
    }
    return found | {
        ("cap", "not as an added ingredient", value)
        if value
        else ("cap", "not permitted", None)
        for value in _brought(simple)
    }


def _brought(text: str):
    for words, join, limit in itertools.product(
        _NEVER_ADDED,
        ("; ", ": ", ", ", " - ", " "),
        ("", "max ", "max. ", "maximum ", "up to ", "at most ", "limit ", "<=", "<= "),
    ):
        front = words + join + limit
        if text.startswith(front) and text[len(front) :][:1] in tuple("0123456789."):
            yield from _cap_figures(text.removeprefix(front))
    for words in (*_BROUGHT, *_NEVER_ADDED):
        for behind in (f" {words}", f" ({words})"):
            if text.endswith(behind):
                yield from _cap_figures(text.removesuffix(behind))
