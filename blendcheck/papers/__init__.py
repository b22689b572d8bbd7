"""The papers that go with a batch: card, label, batch sheet, note, swallowed sheet.

One content, made from a kept check, and four renderings of it. Nothing here is
imported by a plain check.
"""

import importlib
from typing import TYPE_CHECKING

from blendcheck.papers.content import KINDS, Kind, Paper

if TYPE_CHECKING:
    from collections.abc import Callable

    from blendcheck.papers.kept import KeptCheck

__all__ = ["KINDS", "Kind", "Paper", "make"]


def make(kind: Kind, kept: "KeptCheck") -> Paper:
    """Make one paper.

    Parameters
    ----------
    kind : Kind
        Which paper.
    kept : KeptCheck
        The check that it is made from.

    Returns
    -------
    Paper
        Its content, ready for any rendering.

    Raises
    ------
    InputError
        If it cannot be made: a label without a reason for what is open, a text with
        a sign that shows nothing.
    """
    maker: Callable[[KeptCheck], Paper] = getattr(
        importlib.import_module(f"{__name__}.{kind}"), kind
    )
    return maker(kept)
