"""How papers are laid out: on which sheet, how many cards, how large a label."""

from dataclasses import dataclass
from typing import Literal

__all__ = ["CARDS", "FORMATS", "LABELS", "SHEETS", "Cards", "Labels", "Layout", "Sheet"]

Sheet = Literal["a4", "letter"]
Cards = Literal["8", "4", "folded"]
Labels = Literal["small", "medium", "large"]

SHEETS: tuple[Sheet, ...] = ("a4", "letter")
CARDS: tuple[Cards, ...] = ("8", "4", "folded")
LABELS: tuple[Labels, ...] = ("small", "medium", "large")
FORMATS: tuple[str, ...] = ("pdf", "html", "md", "txt")


@dataclass(frozen=True, slots=True)
class Layout:
    """The choices for what is printed.

    Parameters
    ----------
    sheet : {"a4", "letter"}
        The sheet of paper.
    cards : {"8", "4", "folded"}
        Eight or four cards on a sheet, printed on both sides, or one that is folded
        twice.
    labels : {"small", "medium", "large"}
        8, 6 or 4 labels on a sheet.
    """

    sheet: Sheet = "a4"
    cards: Cards = "8"
    labels: Labels = "large"
