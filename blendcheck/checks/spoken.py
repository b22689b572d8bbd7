"""Words of a text, and where a phrase stands in it.

A hyphen parts words as a space does, so ``non-toxic`` and ``non toxic`` are one
phrase. Letters are compared in their plain form, without accents and without signs
that are not seen.
"""

import re
import unicodedata
from collections.abc import Iterator, Sequence

from blendcheck.frozen import Frozen

__all__ = ["Word", "places", "words_of"]

_MARKS = range(0x300, 0x370)
_UNSEEN = (
    *(0xAD, 0x61C, 0x115F, 0x1160, 0x180E, 0x3164, 0xFEFF),
    *range(0x200B, 0x2010),
    *range(0x202A, 0x202F),
    *range(0x2060, 0x2070),
    *range(0xFE00, 0xFE10),
)
_DROP = dict.fromkeys((*_MARKS, *_UNSEEN))
"""Accents that stand apart, and signs that are not seen."""
_WORD = re.compile(rf"(?:[^\W_]|[{''.join(map(chr, _DROP))}])+")
_STOPS = re.compile(r"[.!?;:,\n()\u2013\u2014]")


class Word(Frozen):
    """A word of a text.

    Parameters
    ----------
    plain : str
        The word in lower case and in its plain form.
    start, end : int
        Where it stands in the text.
    stops : bool
        Whether what is said ends with it: a stop, a comma or the end follows.
    """

    plain: str
    start: int
    end: int
    stops: bool


def words_of(text: str) -> tuple[Word, ...]:
    """Return the words of a text.

    Parameters
    ----------
    text : str
        Any text.

    Examples
    --------
    >>> [word.plain for word in words_of("Cold-pressed, not COLD!")]
    ['cold', 'pressed', 'not', 'cold']
    """
    found = [
        (plain, match.start(), match.end())
        for match in _WORD.finditer(text)
        if (plain := _plain(match[0]))
    ]
    ends = [start for _, start, _ in found[1:]] + [len(text)] * bool(found)
    return tuple(
        Word(plain, start, end, after == len(text) or _stops(text[end:after]))
        for (plain, start, end), after in zip(found, ends, strict=True)
    )


def _plain(text: str) -> str:
    return unicodedata.normalize("NFKD", text).translate(_DROP).casefold()


def _stops(between: str) -> bool:
    return bool(_STOPS.search(between))


def places(words: Sequence[Word], phrase: Sequence[str]) -> Iterator[tuple[int, int]]:
    """Find a phrase.

    Parameters
    ----------
    words : sequence of Word
        The words of a text.
    phrase : sequence of str
        Words in lower case; ``*`` stands for any one word, a ``$`` at the end for a
        stop there.

    Yields
    ------
    tuple of int
        Place of the first word, and of the one after the last.
    """
    at_end = bool(phrase) and phrase[-1] == "$"
    wanted = phrase[:-1] if at_end else phrase
    size = len(wanted)
    for start in range(len(words) - size + 1 if size else 0):
        run = words[start : start + size]
        fits = all(w in ("*", r.plain) for w, r in zip(wanted, run, strict=True))
        if fits and (not at_end or run[-1].stops):
            yield start, start + size
