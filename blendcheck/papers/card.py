"""The gift card: what it is on the front, what to mind on the back."""

from collections.abc import Iterator

from blendcheck.checks.wording import hits
from blendcheck.papers.content import Blank, Blanks, Lines, Paper, Part, Section
from blendcheck.papers.ingredients import ingredient_list
from blendcheck.papers.kept import KeptCheck, claims, say
from blendcheck.papers.label import short_trace
from blendcheck.papers.limits import open_line
from blendcheck.records.finding import Finding

__all__ = [
    "MOST_SIGNS",
    "MOST_WORDS",
    "NOT_ON_CARD",
    "card",
    "card_cautions",
    "name_of",
    "said_on_card",
]

MOST_WORDS = 90
"""Words that the cautions of one card may have."""

MOST_SIGNS = 240
"""Signs that the list of what is in it may have on a card."""

_SEVERE: tuple[tuple[str, frozenset[str]], ...] = (
    ("card.stop", frozenset({"asthma"})),
    ("card.ask-first", frozenset({"pregnancy", "medicines"})),
    ("card.flame", frozenset({"alcohol-mist"})),
    ("card.mist", frozenset({"droplets"})),
)
_OTHER: tuple[tuple[str, frozenset[str]], ...] = (
    ("card.eyes", frozenset({"eyes"})),
    ("card.sun", frozenset({"phototoxic", "phototoxic-not-known"})),
    ("card.bath", frozenset({"not-for-the-bath"})),
    ("card.slip", frozenset({"slip"})),
    ("card.animals", frozenset({"animals"})),
    ("card.food", frozenset({"not-food"})),
    ("card.jar", frozenset({"jars"})),
)

_STRONG = 2
"""How many of the severe ones stand out: children, and what is swallowed."""

_ALWAYS = frozenset({"children", "swallowed", "swallowed-plain"})
"""What a card says of any piece, whatever is known of it."""

_LUNGS, _FITS = "asthma", "epilepsy"

NOT_ON_CARD = frozenset(
    {
        *("alcohol", "closing", "contents-not-known", "date-bottles", "dust"),
        *("food-like", "germs", "weigh", "weigh-soap"),
    }
)
"""Cautions for the maker at work; they stand on the batch sheet and the note."""


def said_on_card() -> frozenset[str]:
    """Return the codes of the cautions that have their words on a card."""
    found = set(_ALWAYS | {_LUNGS, _FITS})
    for _, codes in (*_SEVERE, *_OTHER):
        found |= codes
    return frozenset(found)


def name_of(finding: Finding) -> str:
    """Return the code of a caution without its section.

    Parameters
    ----------
    finding : Finding
        A caution.
    """
    return finding.why.code.rpartition(".")[2]


def card_cautions(kept: KeptCheck) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return the cautions of a card, the severe ones apart.

    Parameters
    ----------
    kept : KeptCheck
        The snapshot.

    Returns
    -------
    tuple of str, tuple of str
        Severe ones and the others, each in its order; at most 90 words in all.
    """
    codes = frozenset(name_of(f) for f in kept.told("caution"))
    severe = ["card.children", "card.swallowed", *_lungs_and_fits(codes)]
    severe += [code for code, any_of in _SEVERE if codes & any_of]
    other = [code for code, any_of in _OTHER if codes & any_of]
    return tuple(map(say, severe)), tuple(map(say, other))


def _lungs_and_fits(codes: frozenset[str]) -> Iterator[str]:
    if _LUNGS in codes and _FITS in codes:
        yield "card.lungs-fits"
    elif _LUNGS in codes:
        yield "card.lungs"
    elif _FITS in codes:
        yield "card.fits"


def card(kept: KeptCheck) -> Paper:
    """Make the gift card.

    Parameters
    ----------
    kept : KeptCheck
        The snapshot.

    Returns
    -------
    Paper
        With its front, its inside and its back. While a limit is open it says so,
        and the maker's message stays off, so that nothing praises the piece.
    """
    still_open = open_line(kept)
    severe, other = card_cautions(kept)
    title = card_title(kept, is_open=bool(still_open))
    cautions: list[Part] = [Lines(severe[:_STRONG], tone="strong")]
    cautions.append(Lines(severe[_STRONG:], form="list"))
    if other:
        cautions.append(Lines(other, form="run"))
    if still_open:
        cautions.append(Lines((still_open,), tone="strong"))
    line = Blank(say("heads.poison-line"), kept.workshop.poison_line)
    cautions += [Blanks((line,)), Lines((short_trace(kept),), tone="soft")]
    return kept.paper(
        "card",
        title,
        (
            Section("", _front(kept, is_open=bool(still_open))),
            Section(say("heads.made-of"), _inside(kept), side="inside"),
            Section(say("heads.read-first"), tuple(cautions), side="back"),
        ),
        _left_off(kept, title, is_open=bool(still_open)),
    )


def _front(kept: KeptCheck, *, is_open: bool) -> tuple[Part, ...]:
    parts: list[Part] = []
    lines = () if is_open else tuple(kept.words.message.splitlines())
    message = tuple(line for line in lines if line.strip())
    if message:
        parts.append(Lines(message))
    parts.append(Lines((say("card.read-first"),), tone="strong"))
    return tuple(parts)


def _inside(kept: KeptCheck) -> tuple[Part, ...]:
    found = ingredient_list(kept.assessment.totals)
    words = kept.words
    given = [
        Blank(say("heads.lot"), words.lot),
        Blank(
            say("heads.best-before"),
            "" if words.best_before is None else words.best_before.printed,
        ),
    ]
    who = words.who or kept.workshop.who or kept.workshop.name
    where = words.where or kept.workshop.where
    sender = ", ".join(text for text in (who, where) if text)
    parts: list[Part] = [
        Lines((_what(tuple(one.material.name for one in found.listed)),)),
        Blanks((Blank(say("heads.from"), sender),)),
    ]
    entered = tuple(one for one in given if one.value)
    return (*parts, Blanks(entered)) if entered else tuple(parts)


def _what(names: tuple[str, ...]) -> str:
    """Name what is in it; of a long list the first names, and how many more.

    The card goes with the piece whatever is in it, so it must fit. The whole list
    stands on the label and on the sheet for the home.
    """
    shown = names[:1]
    for name in names[1:]:
        if len("; ".join((*shown, name))) > MOST_SIGNS:
            break
        shown = (*shown, name)
    values = {"names": "; ".join(shown), "count": str(len(names) - len(shown))}
    return say("card.what" if len(shown) == len(names) else "card.what-more", values)


def card_title(kept: KeptCheck, *, is_open: bool) -> str:
    """Return the title of a card.

    Parameters
    ----------
    kept : KeptCheck
        The snapshot.
    is_open : bool
        Whether a limit is open.

    Returns
    -------
    str
        The maker's title. While a limit is open one that claims more than a scent
        gives way to the name of the recipe, and that to what the thing is.
    """
    product = say(f"heads.{kept.recipe.product.replace(' ', '-')}")
    if not is_open:
        return kept.title
    names = (kept.title, kept.name)
    return next((name for name in names if not hits(name)), product)


def _left_off(kept: KeptCheck, title: str, *, is_open: bool) -> tuple[str, ...]:
    said = []
    if title != kept.title:
        said.append(say("sheet.title-off", {"title": title}))
    if is_open and kept.words.message.strip():
        said.append(say("sheet.message-off"))
    return (*said, *claims(kept))
