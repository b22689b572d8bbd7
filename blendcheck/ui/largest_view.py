"""The most of an oil, or of the blend, that stays within the caps entered."""

from blendcheck.assess import Assessment
from blendcheck.errors import BlendcheckError
from blendcheck.largest import Largest
from blendcheck.quantity import exact_text, print_number
from blendcheck.ui import results, shown

__all__ = ["most"]


def most(assessment: Assessment) -> None:
    """Show the largest amounts, each rounded down to the scale and checked again.

    Parameters
    ----------
    assessment : Assessment
        A result.
    """
    try:
        found = results.largest_of(assessment)
    except BlendcheckError as error:
        shown.message(str(error), lead="Not worked out")
        return
    if not found:
        shown.paragraph("No entered cap limits a scented line of this recipe.")
        return
    heads = ("Of", "Under", "What is held", "Most", "% of finished", "Limited by")
    rows = [_row(one) for one in found]
    shown.html(shown.table("The most that stays within", heads, rows, numbers=(3, 4)))
    open_ones = {name for one in found for name in one.open}
    if open_ones:
        shown.paragraph(
            "No number is entered for: " + ", ".join(sorted(open_ones)) + ". These "
            "could not be held, so the amounts above do not speak for them."
        )
    shown.paragraph(
        "A cap is not a clearance for breathing, and the most is no recommendation.",
        kind="bc-soft",
    )


def _row(one: Largest) -> tuple[str, ...]:
    return (
        one.says,
        one.category or "-",
        one.reading,
        "no entered cap limits it"
        if one.grams is None
        else f"{exact_text(one.grams)} g",
        "-" if one.percent is None else print_number(one.percent, rounding="up"),
        one.limited_by,
    )
