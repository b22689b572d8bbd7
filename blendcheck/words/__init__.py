"""The one table of sentences: a code and its values in, a sentence out.

Checks say *what* they found by a code; how it is said stands in ``en.toml`` alone,
one section a check, so that wording can improve and another language can be added
without touching a check.
"""

import re
import tomllib
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from string import Formatter
from types import MappingProxyType

from blendcheck.errors import DomainError
from blendcheck.records.finding import Say

__all__ = ["codes", "render", "values_of"]

_TABLE = "en.toml"


@cache
def _sections() -> Mapping[str, str]:
    """Return the text of every section by its name: a check needs a few of them."""
    text = Path(__file__).with_name(_TABLE).read_text(encoding="utf-8")
    _, *parts = re.split(r"^\[([\w-]+)\]$", text, flags=re.MULTILINE)
    return MappingProxyType(dict(zip(parts[::2], parts[1::2], strict=True)))


@cache
def _sentences(section: str) -> Mapping[str, str]:
    """Return the sentences of a section by their names, read once."""
    return MappingProxyType(tomllib.loads(_sections().get(section, "")))


def codes() -> frozenset[str]:
    """Return every code of the table.

    Returns
    -------
    frozenset of str
        ``section.name`` each.
    """
    return frozenset(
        f"{section}.{name}" for section in _sections() for name in _sentences(section)
    )


def _sentence(code: str) -> str:
    section, _, name = code.partition(".")
    sentence = _sentences(section).get(name)
    if sentence is None:
        raise DomainError("code", code, f"a sentence of {_TABLE}")
    return sentence


@cache
def values_of(code: str) -> frozenset[str]:
    """Return the names of the values in a sentence.

    Parameters
    ----------
    code : str
        Its code.

    Raises
    ------
    DomainError
        If the table has no such sentence.
    """
    parsed = Formatter().parse(_sentence(code))
    return frozenset(name for _, name, _, _ in parsed if name is not None)


def render(say: Say) -> str:
    """Say a sentence.

    Parameters
    ----------
    say : Say
        Its code, and its values as printed texts; values that the sentence does not
        use are left out.

    Returns
    -------
    str
        The sentence. What a value holds is put in as it is and never read again.

    Raises
    ------
    DomainError
        If the table has no such sentence, or a value of it is not given.

    Examples
    --------
    >>> render(Say("outcome.straddles"))
    'may be over'
    """
    missing = values_of(say.code) - say.values.keys()
    if missing:
        rule = f"given with {', '.join(sorted(missing))}"
        raise DomainError(f"sentence {say.code}", dict(say.values), rule)
    return _sentence(say.code).format_map(say.values)
