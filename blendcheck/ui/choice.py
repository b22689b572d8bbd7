"""A choice whose words may change while it is open.

The browser remembers the words of what is chosen, not the thing itself. If a
recipe is renamed while it is chosen, its old words name nothing any more, and the
choice would fall back to the first one. So what is chosen is kept apart, under a
key of its own, and is put into the field anew at every run.
"""

from collections.abc import Callable, Mapping
from typing import Any

import streamlit as st
from streamlit.delta_generator import DeltaGenerator

from blendcheck.ui import state

__all__ = ["choice", "fresh"]


def fresh(key: str, value: Any = "") -> str:  # noqa: ANN401
    """Give a field its first value, and return its key.

    A field that is only forgotten here goes on showing in the browser what was
    typed into it, and sends it back; one that is given a value shows that.

    Parameters
    ----------
    key : str
        Key of the field.
    value : Any, default ""
        What it holds at first, and again after its key was taken out.
    """
    if key not in st.session_state:
        st.session_state[key] = value
    return key


def choice(
    label: str,
    options: Mapping[str, str],
    *,
    key: str,
    kept: str,
    changed: Callable[..., Any] | None = None,
    args: tuple[Any, ...] = (),
    where: DeltaGenerator | None = None,
) -> str:
    """Show a choice among things whose names may change.

    Parameters
    ----------
    label : str
        Its label.
    options : mapping of str to str
        Words by id; at least one.
    key : str
        Key of the field.
    kept : str
        Where the id that is chosen is kept.
    changed : callable, optional
        Called when another one was chosen.
    args : tuple, optional
        What it is called with.
    where : DeltaGenerator, optional
        The place on the page.

    Returns
    -------
    str
        The id that is chosen; the first one if the kept one is gone.
    """
    if st.session_state.get(kept) not in options:
        st.session_state[kept] = next(iter(options))
    st.session_state[key] = st.session_state[kept]
    state.own(key)
    (where or st).selectbox(
        label,
        list(options),
        format_func=lambda one: options.get(one, one),
        key=key,
        on_change=_take,
        args=(key, kept, changed, args),
    )
    chosen: str = st.session_state[kept]
    return chosen


def _take(
    key: str, kept: str, changed: Callable[..., Any] | None, args: tuple[Any, ...]
) -> None:
    st.session_state[kept] = st.session_state[key]
    if changed is not None:
        changed(*args)
