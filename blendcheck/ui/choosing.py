"""What several pages share: the head of a page, the open recipe, the names shown."""

from collections.abc import Mapping

import streamlit as st

from blendcheck.records.finding import Outcome, Say
from blendcheck.records.material import Materials, Stock
from blendcheck.ui import shown, state
from blendcheck.ui.choice import choice
from blendcheck.ui.draft import get
from blendcheck.ui.state import Kept
from blendcheck.words import render

__all__ = [
    "Ingredients",
    "head",
    "outcome_words",
    "overall_sentence",
    "pick_recipe",
    "sentence",
]


def outcome_words(outcome: Outcome | None) -> str:
    """Return an outcome in words.

    Parameters
    ----------
    outcome : Outcome or None
        The outcome; ``None`` for what states no restriction.
    """
    if outcome is None:
        return "no restriction stated"
    return render(Say(f"outcome.{outcome}"))


def sentence(say: Say) -> str:
    """Return a sentence with a capital at its front.

    Parameters
    ----------
    say : Say
        What is said. A front such as ``d-`` or ``p-`` is part of a chemical name and
        stays as it is.
    """
    said = render(say)
    return said[:1].upper() + said[1:] if said[:2].isalpha() else said


def overall_sentence(outcome: Outcome) -> str:
    """Return the overall outcome of a recipe as a sentence.

    Parameters
    ----------
    outcome : Outcome
        The worst outcome of the limits that count.
    """
    return render(Say(f"overall.{outcome}"))


def head(title: str) -> None:
    """Start a page: the session's inputs, the style sheet and the heading.

    Parameters
    ----------
    title : str
        Name of the page.
    """
    state.start()
    shown.put_style()
    st.title(title, anchor=False)


def pick_recipe(page: str) -> Kept | None:
    """Show which recipe is open, and let another be chosen.

    Parameters
    ----------
    page : str
        First part of the field's key.

    Returns
    -------
    Kept or None
        The open recipe; ``None`` if there is none.
    """
    names = state.names()
    if not names:
        shown.paragraph(
            "There is no recipe yet. Start one on the Recipe page, or open a file."
        )
        return None
    chosen = choice(
        "Recipe",
        names,
        key=f"{page}.recipe",
        kept="shelf.current",
        changed=state.forget,
        args=(("recipe.", "paper-words."),),
    )
    return state.recipes()[chosen]


class Ingredients:
    """What a line can name, by the words that the page shows for it.

    Parameters
    ----------
    materials : Materials
        The shelf.
    raw : dict
        The draft whose own stock blends can be named too.
    """

    def __init__(self, materials: Materials, raw: Mapping[str, object]) -> None:
        self.by_words: dict[str, tuple[str, str]] = {}
        self.words: dict[tuple[str, str], str] = {}
        names = [m.name for m in materials.material]
        for material in materials.material:
            words = material.name
            if names.count(words) > 1:
                words = f"{words} ({material.supplier or material.id})"
            self._take(words, ("material", material.id))
        for stock in materials.stock:
            self._take_stock(stock.id, _stock_name(stock))
        for row in get(raw, ("stock",)) or ():
            self._take_stock(str(row.get("id")), str(row.get("name") or row.get("id")))

    def _take_stock(self, name: str, words: str) -> None:
        self._take(f"stock blend: {words}", ("stock", name))

    def _take(self, words: str, what: tuple[str, str]) -> None:
        if words in self.by_words:
            words = f"{words} [{what[1]}]"
        self.by_words[words], self.words[what] = what, words

    def show(self, row: Mapping[str, object]) -> str:
        """Return the words for what a line names.

        Parameters
        ----------
        row : mapping
            The line, as its file holds it.
        """
        for kind in ("material", "stock"):
            name = row.get(kind)
            if name:
                return self.words.get((kind, str(name)), str(name))
        return ""

    def read(self, words: str) -> dict[str, str]:
        """Return what the words for a line name, as its file holds it.

        Parameters
        ----------
        words : str
            Words that :meth:`show` gave, or the id of a material.
        """
        if not words:
            return {}
        kind, name = self.by_words.get(words, ("material", words))
        return {kind: name}


def _stock_name(stock: Stock) -> str:
    return stock.name or stock.id
