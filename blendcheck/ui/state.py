"""What the page remembers: the shelf and the recipes, as typed and as accepted.

Only inputs are kept between two runs. Results are derived anew from the records
of a run; :func:`assessed` hands the same result out again while recipe, shelf and
day are the very same objects.
"""

import re
from collections.abc import Callable
from copy import deepcopy
from dataclasses import dataclass, field
from datetime import date, datetime
from time import monotonic
from typing import Any, Final, TypeVar

import streamlit as st

from blendcheck.demo import MATERIALS, demo_files
from blendcheck.files.reading import materials_from_text, recipe_from_text
from blendcheck.records.material import Material, Materials
from blendcheck.records.recipe import Recipe
from blendcheck.records.snapshot import as_written
from blendcheck.ui.draft import Draft

__all__ = [
    "Kept",
    "Shelf",
    "add_recipe",
    "begin",
    "current",
    "drop_stale",
    "forget",
    "moment",
    "names",
    "on_day",
    "own",
    "recipes",
    "shelf",
    "start",
    "unused_id",
]

_KEEP: Final = 24
_MOMENTS: Final = 200
_STALE: Final = "shelf.stale"
_FOLLOWS: Final = 5.0
"""Time after which the browser has followed; nobody means to type what stood in the
same field of another record before it is over. [s]"""
_T = TypeVar("_T")


@dataclass
class Kept:
    """A recipe on the page: its draft, and the last record that could be checked.

    Parameters
    ----------
    draft : Draft
        What is typed.
    good : Recipe or None
        What is in use; ``None`` if it never could be checked.
    """

    draft: Draft
    good: Recipe | None = None

    @property
    def name(self) -> str:
        """The name as typed, or that of the recipe in use."""
        typed = str(self.draft.raw.get("name") or "").strip()
        return typed or (self.good.name if self.good else "recipe without a name")


@dataclass
class Shelf:
    """The shelf on the page: the record in use, and the drafts of what is edited.

    Parameters
    ----------
    materials : Materials
        What every check uses.
    text : str
        The file that it was read from, with its remarks.
    drafts : dict of str to Draft
        Materials whose page was opened, by id.
    rest : Draft
        Workshop, stock blends, caps on components and confirmed matches.
    """

    materials: Materials
    text: str = ""
    drafts: dict[str, Draft] = field(default_factory=dict)
    rest: Draft = field(default_factory=lambda: Draft({}))

    def replace(self, materials: Materials) -> None:
        """Use other materials, and start every draft anew.

        Parameters
        ----------
        materials : Materials
            What every check uses from now on.
        """
        self.materials = materials
        self.drafts.clear()
        written = as_written(materials)
        written.pop("material", None)
        self.rest = Draft(written)

    def draft(self, material: Material) -> Draft:
        """Return the draft of a material, made when it is first opened.

        Parameters
        ----------
        material : Material
            The material.
        """
        if material.id not in self.drafts:
            self.drafts[material.id] = Draft(as_written(material))
        return self.drafts[material.id]

    def put(self, material: Material) -> None:
        """Use another record for a material, or add it.

        Parameters
        ----------
        material : Material
            The material, known by its id.
        """
        there = [m.id for m in self.materials.material]
        made = [material if m.id == material.id else m for m in self.materials.material]
        if material.id not in there:
            made.append(material)
        self.materials = self.materials.model_copy(update={"material": tuple(made)})

    def remove(self, name: str) -> None:
        """Take a material off the shelf.

        Parameters
        ----------
        name : str
            Its id.
        """
        left = tuple(m for m in self.materials.material if m.id != name)
        self.materials = self.materials.model_copy(update={"material": left})
        self.drafts.pop(name, None)


# -- what is kept ------------------------------------------------------------


def start() -> None:
    """Load the demo into a new session."""
    if "shelf.shelf" in st.session_state:
        return
    files = demo_files()
    begin(materials_from_text(files[MATERIALS], MATERIALS), files[MATERIALS])
    for name, text in files.items():
        if name != MATERIALS:
            add_recipe(recipe_from_text(text, name), text)
    first = min(recipes(), key=lambda key: recipes()[key].name)
    st.session_state["shelf.current"] = first


def begin(materials: Materials, text: str = "") -> None:
    """Begin with a shelf and without recipes.

    Parameters
    ----------
    materials : Materials
        The shelf.
    text : str, optional
        The file that it was read from.
    """
    held = Shelf(Materials(), text=text)
    held.replace(materials)
    st.session_state["shelf.shelf"] = held
    st.session_state["shelf.recipes"] = {}


def shelf() -> Shelf:
    """Return the shelf of this session."""
    held: Shelf = st.session_state["shelf.shelf"]
    return held


def recipes() -> dict[str, Kept]:
    """Return the recipes of this session by their id on the page."""
    held: dict[str, Kept] = st.session_state["shelf.recipes"]
    return held


def current() -> str:
    """Return the id of the recipe that is open; blank if there is none."""
    chosen = st.session_state.get("shelf.current")
    return chosen if chosen in recipes() else next(iter(recipes()), "")


def add_recipe(recipe: Recipe | dict[str, Any], text: str = "") -> str:
    """Add a recipe, and return its id on the page.

    Parameters
    ----------
    recipe : Recipe or dict
        A record, or the draft of one that is not complete yet.
    text : str, optional
        The file that it was read from.

    Returns
    -------
    str
        The id.
    """
    number = int(st.session_state.get("shelf.count", 0)) + 1
    st.session_state["shelf.count"] = number
    key = f"recipe-{number}"
    if isinstance(recipe, Recipe):
        recipes()[key] = Kept(Draft(as_written(recipe), text=text), recipe)
    else:
        recipes()[key] = Kept(Draft(deepcopy(recipe), text=text))
    return key


def names() -> dict[str, str]:
    """Return the name of every recipe by its id; equal names are numbered."""
    seen: dict[str, int] = {}
    made: dict[str, str] = {}
    for key, kept in recipes().items():
        count = seen[kept.name] = seen.get(kept.name, 0) + 1
        made[key] = kept.name if count == 1 else f"{kept.name} ({count})"
    return made


def forget(prefix: str | tuple[str, ...]) -> None:
    """Drop what fields show, so that they are filled from the drafts again.

    Parameters
    ----------
    prefix : str or tuple of str
        First part of the fields' keys, such as ``recipe.``; or several.
    """
    stale = st.session_state.setdefault(_STALE, {})
    now = monotonic()
    for key in [k for k in st.session_state if str(k).startswith(prefix)]:
        stale[key] = st.session_state[key], now
        del st.session_state[key]


def own(key: str) -> None:
    """Say that a field is given its value at every run, so it is never a stale one.

    Parameters
    ----------
    key : str
        Key of the field.
    """
    st.session_state.get(_STALE, {}).pop(key, None)


def drop_stale(prefix: str) -> None:
    """Drop what the browser sends of fields that were forgotten a moment ago.

    Who presses twice in haste makes it send the fields of what was open before once
    more, and they would be taken for those of what is open now. A field that comes
    back with another value has followed.

    Parameters
    ----------
    prefix : str
        First part of the fields' keys.
    """
    stale: dict[Any, tuple[Any, float]] = st.session_state.get(_STALE, {})
    now = monotonic()
    for key in [k for k in stale if str(k).startswith(prefix)]:
        value, when = stale[key]
        if key not in st.session_state and now - when < _FOLLOWS:
            continue
        if now - when < _FOLLOWS and st.session_state[key] == value:
            del st.session_state[key]
        else:
            del stale[key]


def unused_id(name: str, taken: Callable[[str], bool]) -> str:
    """Make an id out of a name.

    Parameters
    ----------
    name : str
        Any text.
    taken : callable
        Says whether an id is in use.

    Returns
    -------
    str
        Lower-case words; numbered if that is taken.
    """
    words = re.sub(r"[^\w%.]+", " ", name.casefold()).strip()[:60] or "material"
    made, number = words, 2
    while taken(made):
        made, number = f"{words} {number}", number + 1
    return made


def moment(content: str) -> datetime:
    """Return when the page first saw what a paper rests on.

    Parameters
    ----------
    content : str
        Hash of the check.

    Returns
    -------
    datetime
        The same for the same content in one session, however often it is printed.
    """
    seen: dict[str, datetime] = st.session_state.setdefault("shelf.moments", {})
    if content not in seen:
        if len(seen) >= _MOMENTS:
            del seen[next(iter(seen))]
        seen[content] = datetime.now()  # noqa: DTZ005  # the maker's own clock
    return seen[content]


def on_day() -> date:
    """Return the day for which the page checks; today unless another is chosen."""
    day = st.session_state.get("shelf.on")
    # here and in `moment` alone the page reads the clock
    return day if isinstance(day, date) else date.today()  # noqa: DTZ011
