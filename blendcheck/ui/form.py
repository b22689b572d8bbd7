"""Fields and tables of one record: typed text stays, messages stand at the field.

A form works on the *draft* of a record: the plain tables that its file would
hold, with the text as typed. Every run writes the widgets into the draft and
validates it. What is refused is said at its field; the last record that was
accepted stays in use, and the typed text stays where it is.
"""

import itertools
import re
from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING, Any, Final, TypeVar

import streamlit as st
from pydantic import ValidationError

from blendcheck.records.fields import Record
from blendcheck.ui import shown, state
from blendcheck.ui.columns import (
    Column,
    cell,
    config,
    edited,
    plain_cells,
    write_cells,
)
from blendcheck.ui.draft import Draft, Path, Row, get, problems_of, put

if TYPE_CHECKING:
    from streamlit.delta_generator import DeltaGenerator

__all__ = ["Form"]

_R = TypeVar("_R", bound=Record)

_NOT_SAID: Final = "not said"
_WHOLE: Final = re.compile("[0-9]{1,9}")
_NUMBERS: Final = itertools.count(1)


class Form:
    """The widgets of one draft on one page.

    Parameters
    ----------
    page : str
        First part of every widget's key.
    draft : Draft
        What is edited.
    """

    def __init__(self, page: str, draft: Draft) -> None:
        state.drop_stale(f"{page}.")
        self.page, self.draft = page, draft
        self.slots: dict[Path, tuple[str, DeltaGenerator]] = {}
        self.heads: dict[Path, Mapping[str, str]] = {}
        self.first: dict[Path, int] = {}
        self.refused: dict[Path, str] = {}
        self.unplaced: list[str] = []

    # -- keys ---------------------------------------------------------------

    def key(self, path: Path) -> str:
        """Return the key of a widget.

        Parameters
        ----------
        path : Path
            What it edits.
        """
        return ".".join((self.page, *(str(part) for part in path)))

    def _seed(self, path: Path, value: Any) -> str:  # noqa: ANN401
        key = self.key(path)
        if key not in st.session_state:
            st.session_state[key] = value
        return key

    def slot(self, path: Path, label: str) -> None:
        """Keep a place for the messages about a field, below it.

        Parameters
        ----------
        path : Path
            What the field edits.
        label : str
            Its label.
        """
        self.slots[path] = (label, st.empty())

    # -- fields -------------------------------------------------------------

    def text(
        self,
        path: Path,
        label: str,
        *,
        example: str = "",
        why: str | None = None,
        long: bool = False,
        whole: bool = False,
    ) -> str:
        """Show a text field; a blank one is left out of the draft.

        Parameters
        ----------
        path : Path
            What it edits.
        label : str
            Its label, with the unit or what to write.
        example : str, optional
            Shown while it is blank.
        why : str, optional
            What it is for.
        long : bool, default False
            Whether it takes several lines.
        whole : bool, default False
            Whether it holds a whole number, which a file writes without quotes.

        Returns
        -------
        str
            What is typed.
        """
        key = self._seed(path, cell(get(self.draft.raw, path)))
        make = st.text_area if long else st.text_input
        typed = make(label, key=key, placeholder=example or None, help=why) or ""
        self.slot(path, label)
        value: str | int | None = typed if typed.strip() else None
        if whole and _WHOLE.fullmatch(typed.strip()):
            value = int(typed)
        put(self.draft.raw, path, value)
        return typed

    def one_of(
        self,
        path: Path,
        label: str,
        options: Sequence[str],
        *,
        blank: str | None = _NOT_SAID,
        default: str | None = None,
        why: str | None = None,
    ) -> str | None:
        """Show a choice.

        Parameters
        ----------
        path : Path
            What it edits.
        label : str
            Its label.
        options : sequence of str
            What may be chosen, in words.
        blank : str or None, default "not said"
            Words for leaving it out; ``None`` if it cannot be left out.
        default : str, optional
            What a file that leaves it out means; else the first.
        why : str, optional
            What it is for.

        Returns
        -------
        str or None
            The choice.
        """
        now = cell(get(self.draft.raw, path))
        if now and now not in options:
            options = [*options, now]  # a paper that was renamed is still named here
        words = [*([blank] if blank is not None else []), *options]
        key = self._seed(path, now if now in options else default or words[0])
        if st.session_state[key] not in words:
            st.session_state[key] = words[0]
        chosen = st.selectbox(label, words, key=key, help=why)
        self.slot(path, label)
        value = None if chosen == blank else chosen
        put(self.draft.raw, path, value)
        return value

    def yes_no(self, path: Path, label: str, *, why: str | None = None) -> None:
        """Show a question with yes, no and not said.

        Parameters
        ----------
        path : Path
            What it edits: true, false, or left out.
        label : str
            The question.
        why : str, optional
            What it is for.
        """
        words = {None: _NOT_SAID, True: "yes", False: "no"}
        key = self._seed(path, words.get(get(self.draft.raw, path), _NOT_SAID))
        chosen = st.radio(
            label, list(words.values()), key=key, horizontal=True, help=why
        )
        value = next((v for v, word in words.items() if word == chosen), None)
        put(self.draft.raw, path, value)

    def words(
        self, path: Path, label: str, *, example: str = "", why: str | None = None
    ) -> None:
        """Show a field for several words, such as CAS numbers; none is left out.

        Parameters
        ----------
        path : Path
            What it edits: a list of texts.
        label : str
            Its label.
        example : str, optional
            Shown while it is blank.
        why : str, optional
            What it is for.
        """
        key = self._seed(path, " ".join(get(self.draft.raw, path) or ()))
        typed = st.text_input(label, key=key, placeholder=example or None, help=why)
        self.slot(path, label)
        put(self.draft.raw, path, typed.replace(",", " ").split() or None)

    def tick(
        self, path: Path, label: str, *, why: str | None = None, means: bool = True
    ) -> bool:
        """Show a box to tick; unticked is left out of the draft.

        Parameters
        ----------
        path : Path
            What it edits.
        label : str
            The statement.
        why : str, optional
            What it is for.
        means : bool, default True
            What a ticked box writes; leaving it out means the other.
        """
        key = self._seed(path, get(self.draft.raw, path) is means)
        ticked = st.checkbox(label, key=key, help=why)
        put(self.draft.raw, path, means if ticked else None)
        return ticked

    # -- tables -------------------------------------------------------------

    def table(
        self,
        path: Path,
        label: str,
        columns: Sequence[Column],
        *,
        show: Callable[[Row], Row] | None = None,
        read: Callable[[Row, Row], Row] | None = None,
        part: Callable[[Row], bool] | None = None,
        keep_empty: bool = False,
        dynamic: bool = True,
    ) -> list[Row]:
        """Show rows of a draft in a table that can be typed into.

        Parameters
        ----------
        path : Path
            A list of tables in the draft.
        label : str
            What the table holds; read out to those who cannot see it.
        columns : sequence of Column
            Its columns.
        show, read : callable, optional
            Turn a row into cells, and (row, changed cells) into a row. Without
            them cells stand in the row under the column's key.
        part : callable, optional
            Says which rows of the list the table shows; the others stay before them.
        keep_empty : bool, default False
            Whether an empty list stays in the draft.
        dynamic : bool, default True
            Whether rows may be added and removed.

        Returns
        -------
        list of dict
            The rows, as they now stand in the draft.
        """
        import pandas as pd  # half a second, only where there is a table

        key, base = self._base(path, part)
        show = show or plain_cells(columns)
        cells = [show(row) for row in base]
        frame = pd.DataFrame(cells, columns=[c.key for c in columns], dtype=object)
        st.data_editor(
            frame,
            key=key,
            num_rows="dynamic" if dynamic else "fixed",
            hide_index=True,
            width="stretch",
            alt=label,
            column_config={c.key: config(c, cells) for c in columns},
        )
        self.slot(path, label)
        self.heads[path] = {c.key: c.head for c in columns}
        rows = edited(base, st.session_state[key], read or write_cells)
        there = get(self.draft.raw, path) or ()
        others = [row for row in there if part is not None and not part(row)]
        self.first[path] = len(others)
        rows = [*others, *rows]
        put(self.draft.raw, path, rows if rows or keep_empty else None)
        return rows

    def _base(
        self, path: Path, part: Callable[[Row], bool] | None
    ) -> tuple[str, list[Row]]:
        """Return a table's key, and the rows that it started from.

        A table remembers what was typed as changes to those rows, so they must not
        move while it is on the page. A table that comes back starts anew, with a
        number that no table had before.
        """
        number, base = self.draft.tables.get(path, (0, []))
        key = f"{self.key(path)}.{number}"
        if number and key in st.session_state:
            return key, base
        number = next(_NUMBERS)
        there = get(self.draft.raw, path) or ()
        base = [row for row in there if part is None or part(row)]
        self.draft.tables[path] = (number, base)
        return f"{self.key(path)}.{number}", base

    # -- answers ------------------------------------------------------------

    def check(self, model: type[_R]) -> _R | None:
        """Validate the draft and say at each field what is refused.

        Parameters
        ----------
        model : type of Record
            What the draft is to become.

        Returns
        -------
        Record or None
            The record; ``None`` if something was refused.
        """
        problems = dict(self.refused)
        made: _R | None = None
        try:
            made = model.model_validate(self.draft.raw)
        except ValidationError as error:
            problems |= problems_of(error)
        self.say(problems)
        return None if problems else made

    def refuse(self, path: Path, sentence: str) -> None:
        """Refuse what a record would take, but the page can see is not meant.

        Parameters
        ----------
        path : Path
            Where it stands in the draft.
        sentence : str
            What is wrong, and what to do.
        """
        self.refused[path] = sentence

    def say(self, problems: Mapping[Path, str]) -> None:
        """Show messages at their fields; what has no field on the page is kept.

        Parameters
        ----------
        problems : mapping of Path to str
            Sentences by place. Those without a field go to :attr:`unplaced`.
        """
        at: dict[Path, list[str]] = {}
        for path, sentence in problems.items():
            slot = self._slot_of(path)
            if slot is None:
                self.unplaced.append(self._place(path, ()) + sentence)
            else:
                at.setdefault(slot, []).append(self._place(path, slot) + sentence)
        for slot, sentences in at.items():
            label, where = self.slots[slot]
            shown.message(f"{label}: {' / '.join(sentences)}", where=where)

    def _slot_of(self, path: Path) -> Path | None:
        """Return the smallest field around a place, else the first one inside it."""
        for length in range(len(path), 0, -1):
            if path[:length] in self.slots:
                return path[:length]
        inside = (slot for slot in self.slots if path and slot[: len(path)] == path)
        return next(inside, None)

    def _place(self, path: Path, slot: Path) -> str:
        words: list[str] = []
        for at, part in enumerate(path[len(slot) :]):
            if isinstance(part, int):
                first = self.first.get(slot, 0) if at == 0 else 0
                words.append(f"row {part + 1 - first}" if part >= first else "above")
            elif part not in ("str", "int", "function-plain[text_of()]"):
                words.append(self.heads.get(slot, {}).get(part, part.replace("_", " ")))
        return f"{', '.join(words)}: " if words else ""
