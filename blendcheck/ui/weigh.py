"""The weighing list: what to put on the scale, and what the rounding changes."""

import streamlit as st

from blendcheck.errors import BlendcheckError
from blendcheck.quantity import exact_text, print_range
from blendcheck.records.recipe import Recipe
from blendcheck.ui import results, shown
from blendcheck.ui.choosing import outcome_words
from blendcheck.weighing import WeighingList

__all__ = ["rounding_sentences", "weighing"]


def weighing(recipe: Recipe) -> None:
    """Show the weighing list of a recipe.

    Parameters
    ----------
    recipe : Recipe
        A recipe.
    """
    st.header("Weighing list", anchor=False)
    try:
        found = results.to_weigh(results.assessed(recipe))
    except BlendcheckError as error:
        shown.message(str(error))
        return
    rows = [
        (
            line.says,
            line.lot,
            line.as_written,
            print_range(line.planned, "g"),
            "measure it as written"
            if line.to_weigh is None
            else f"{exact_text(line.to_weigh)} g",
        )
        for line in found.lines
    ]
    heads = ("What", "Lot", "As written", "Worked out", "Weigh")
    shown.html(shown.table("What to weigh", heads, rows, numbers=(3, 4)))
    shown.html(shown.items(rounding_sentences(found)))


def rounding_sentences(found: WeighingList) -> list[str]:
    """Return what rounding to the scale does, in sentences.

    Parameters
    ----------
    found : WeighingList
        The list.
    """
    if found.scale is None:
        no_scale = (
            "The list is not rounded: the resolution of your scale is not entered. "
            "Enter it on the Materials page, under The workshop."
        )
        return [no_scale]
    said = [f"Rounded to what the scale shows, {exact_text(found.scale)} g."]
    said += [
        f"The scale cannot show so little of {name}: weigh it on a finer scale, or "
        "make a larger batch or a stock blend."
        for name in found.too_fine
    ]
    if found.rounded is None:
        said.append("The rounded recipe was not checked again.")
        return said
    said += [
        f"Rounding changes {finding.subject}, {finding.limit}: from "
        f"{outcome_words(finding.outcome)} to {outcome_words(outcome)}."
        for finding, outcome in found.changed
    ]
    if not found.changed:
        said.append("Checked again as rounded: no outcome changes.")
    return said
