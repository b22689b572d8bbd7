"""Words on a label or a card that claim more than what the thing smells of.

A word alone decides nothing: an authority looks at the whole, case by case. So a hit
is a caution with the rule behind it and plain words to use instead, never a verdict.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache

from blendcheck import reference
from blendcheck.checks.case import Case
from blendcheck.checks.entries import used
from blendcheck.checks.owes import rule_says
from blendcheck.checks.spoken import Word, places, words_of
from blendcheck.quantity import Mark
from blendcheck.records.finding import Finding, Say
from blendcheck.records.snapshot import materials_used
from blendcheck.records.workshop import Place
from blendcheck.reference import Claim, Duty

__all__ = ["Hit", "check", "hits", "offer", "rules_of", "texts_of"]

_OFFERS = {
    "scent": "wording.offer-scent",
    "evening": "wording.offer-evening",
    "wash": "wording.offer-wash",
    "list": "wording.offer-list",
    "proof": "wording.offer-proof",
    "drop": "wording.offer-drop",
}
_SAYS = {
    "illness": "wording.illness",
    "treatment": "wording.treatment",
    "body": "wording.body",
    "mind": "wording.mind",
    "germs": "wording.germs",
    "absolute": "wording.absolute",
    "proof": "wording.proof",
    "free from": "wording.free-from",
    "authority": "wording.authority",
}
"""The reason for each group of words."""

_DENIALS = frozenset({"not", "never", "cannot", "nor"})
_CUT_SHORT = frozenset({"don", "doesn", "isn", "won", "can", "aren", "didn"})
_NO_DENIAL = frozenset({"only", "just", "merely", "simply"})
_FOR = frozenset({"for", "a", "an", "meant", "intended", "to"})
_REACH = 3
"""How many words before a claim a denial may stand."""


@dataclass(frozen=True, slots=True)
class Hit:
    """A claim found in a text.

    Parameters
    ----------
    claim : Claim
        The row of the table.
    found : str
        The words as they are written.
    start, end : int
        Where they stand in the text.
    """

    claim: Claim
    found: str
    start: int
    end: int


@cache
def _phrases() -> tuple[
    tuple[Claim, tuple[tuple[str, ...], ...], tuple[tuple[str, ...], ...]], ...
]:
    """Return each row with its phrases, the longest first, read once."""
    return tuple(
        (row, tuple(sorted(row.each_form, key=len, reverse=True)), row.each_exception)
        for row in reference.claims()
    )


def hits(text: str) -> tuple[Hit, ...]:
    """Find the claims in a text.

    Parameters
    ----------
    text : str
        Any text; its words are compared whole, a hyphen as a space.

    Returns
    -------
    tuple of Hit
        In the order of the text; each claim and each wording once.

    Examples
    --------
    >>> [hit.found for hit in hits("Cold-pressed oils for sinus relief")]
    ['sinus', 'relief']
    """
    words = words_of(text)
    plain = {word.plain for word in words}
    found: dict[tuple[str, str], Hit] = {}
    for row, forms, exceptions in _phrases():
        spared = _covered(words, exceptions, plain)
        taken: set[int] = set()
        for start, end in _spans(words, forms, plain):
            run = set(range(start, end))
            if run <= spared or run & taken or _is_denied(words, start, row):
                continue
            taken |= run
            first, last = words[start].start, words[end - 1].end
            hit = Hit(row, text[first:last], first, last)
            found.setdefault((row.claim, hit.found.casefold()), hit)
    return tuple(sorted(found.values(), key=lambda hit: (hit.start, hit.end)))


def _spans(
    words: Sequence[Word], phrases: Sequence[tuple[str, ...]], plain: set[str]
) -> Iterator[tuple[int, int]]:
    for phrase in phrases:
        if all(word in plain for word in phrase if word not in ("*", "$")):
            yield from places(words, phrase)


def _covered(
    words: Sequence[Word], phrases: Sequence[tuple[str, ...]], plain: set[str]
) -> set[int]:
    """Return the places of words that stand in a phrase which means something else."""
    return {
        place
        for start, end in _spans(words, phrases, plain)
        for place in range(start, end)
    }


def _is_denied(words: Sequence[Word], start: int, row: Claim) -> bool:
    """Whether a "not" before the words takes the claim away.

    "Not for colds" does; "not only relieves" and "you will not have a headache" do
    not: the first claims more, and so does the second.
    """
    before = _said_before(words, start)
    for n, plain in enumerate(before):
        after = before[n + 1 :]
        cut = plain in _CUT_SHORT and after[:1] == ["t"]
        if cut:
            after = after[1:]
        if not (cut or plain in _DENIALS) or _NO_DENIAL & set(after):
            continue
        if row.group != "illness" or _FOR & set(after):
            return True
    return False


def _said_before(words: Sequence[Word], start: int) -> list[str]:
    """Return the few words before a place that belong to what is said there."""
    found: list[str] = []
    for word in reversed(words[max(0, start - _REACH) : start]):
        if word.stops:
            break
        found.insert(0, word.plain)
    return found


def rules_of(claim: Claim, place: Place | None) -> tuple[Duty, ...]:
    """Return the rules behind a claim.

    Parameters
    ----------
    claim : Claim
        The row of the table.
    place : str or None
        Whose law; those of every place where none is chosen.
    """
    return reference.duties(claim.topic, place)


def offer(claim: Claim) -> Say:
    """Return what to write instead.

    Parameters
    ----------
    claim : Claim
        The row of the table.
    """
    return Say(_OFFERS[claim.offer])


def texts_of(case: Case) -> Iterator[tuple[str, str]]:
    """Yield the texts of a recipe that somebody may read, with where each stands.

    Parameters
    ----------
    case : Case
        The case: names of the recipe, its stock blends and its materials, its remark,
        and the maker's words on the papers.

    Yields
    ------
    tuple of str
        Where it stands, and the text.
    """
    recipe = case.recipe
    yield "the name of the recipe", recipe.name
    yield "the remark of the recipe", recipe.remark
    yield "the title on the papers", recipe.papers.title
    yield "the message on the papers", recipe.papers.message
    shelf = materials_used(recipe, case.materials)
    for stock in (*recipe.stock, *shelf.stock):
        yield "the name of a stock blend", stock.name or stock.id
    for material in used(case.totals).values():
        yield "the name of a material", material.name


def check(case: Case) -> Iterator[Finding]:
    """Point to the claims in the words of a recipe.

    Parameters
    ----------
    case : Case
        The case.

    Yields
    ------
    Finding
        Cautions, each with its rule and plain words instead; last, that a search for
        words is no advice on the law.
    """
    place = case.materials.workshop.place
    for where, text in dict.fromkeys(texts_of(case)):
        for hit in hits(text):
            yield _finding(where, hit, place)
    yield Finding(
        kind="fact",
        check="wording",
        subject="wording",
        why=Say("wording.closing"),
        severity=9,
    )


def _finding(where: str, hit: Hit, place: Place | None) -> Finding:
    claim, rules = hit.claim, rules_of(hit.claim, place)
    memory = claim.tag == "memory" or any(row.tag == "memory" for row in rules)
    sources = dict.fromkeys((*(row.source_id for row in rules), claim.source_id))
    values = {"where": where, "found": hit.found}
    return Finding(
        kind="caution",
        check="wording",
        subject=hit.found,
        why=Say(_SAYS[claim.group], values),
        also=(*map(rule_says, rules), offer(claim)),
        source=", ".join(sources),
        marks=frozenset({Mark.FROM_MEMORY}) if memory else frozenset(),
        severity=3,
    )
