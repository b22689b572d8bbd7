"""The rooms that estimates are made for: the shower, and the room where a batch dries.

What is left blank is filled in or asked for by the estimate, which says so.
"""

from typing import Final

import streamlit as st

from blendcheck.ui import shown
from blendcheck.ui.form import Form

__all__ = ["shower", "workroom"]

_SHOWER: Final = (
    ("stall_volume", "Air in the stall", "stall", "m3"),
    ("bathroom_volume", "Air in the bathroom without the stall", "bathroom", "m3"),
    (
        "stall_air_changes",
        "How often the air of the stall is changed",
        "stall_changes",
        "per hour",
    ),
    (
        "bathroom_air_changes",
        "How often the air of the bathroom is changed",
        "bathroom_changes",
        "per hour",
    ),
    ("duration", "One shower", "shower_min", "min"),
    ("water_temperature", "Water", "water_c", "°C"),
    ("water_flow", "Flow of water", "flow_l_per_min", "L/min"),
    ("dissolving", "The piece is gone after", "dissolving_min", "min"),
    ("door_shut", "Door shut afterwards", "shut_min", "min"),
    ("fan", "Fan on after that", "fan_min", "min"),
    ("fan_air_changes", "Air changes with the fan", "fan_changes", "per hour"),
    ("between", "Between two showers", "pause_min", "min"),
)
_WORKROOM: Final = (
    ("volume", "Air in the room", "30 m3"),
    ("air_changes", "How often its air is changed", "1 per hour"),
    ("drying", "How long a batch dries", "4 h"),
    ("also_used", "Alcohol used beside the recipe, in one go", "20 mL"),
    ("alcohol_kept", "Alcohol kept at home, all bottles", "1 L"),
    ("level", "Level that the average is to fall under", "200 ppm"),
)


def shower(form: Form) -> None:
    """Show the figures of the shower, each with what is taken while it is blank.

    Parameters
    ----------
    form : Form
        The form of the shelf.
    """
    from blendcheck.estimates.setting import setting_of  # numpy comes with it

    texts = setting_of(None).texts
    shown.paragraph(
        "Blank fields are filled in with the figure in grey. The estimate says which, "
        "and where it comes from.",
        kind="bc-soft",
    )
    left, right = st.columns(2)
    for number, (field, label, name, unit) in enumerate(_SHOWER):
        with (left, right)[number % 2]:
            example = f"{texts[name]} {unit}"
            form.text(("workshop", "shower", field), label, example=example)
    form.one_of(
        ("workshop", "shower", "dissolving_time_is"),
        "The time in which a piece dissolves is",
        ("measured", "assumed"),
    )
    left, right = st.columns(2)
    with left:
        form.text(
            ("workshop", "shower", "showers_in_a_row"),
            "Showers in a row",
            example="1",
            whole=True,
        )
    with right:
        form.text(
            ("workshop", "shower", "showers_with_a_piece"),
            "How many of them with a piece",
            example="1",
            whole=True,
        )


def workroom(form: Form) -> None:
    """Show the figures of the room where a batch dries.

    Parameters
    ----------
    form : Form
        The form of the shelf.
    """
    shown.paragraph(
        "Nothing is filled in for the size of this room: measure it.", kind="bc-soft"
    )
    left, right = st.columns(2)
    for number, (field, label, example) in enumerate(_WORKROOM):
        with (left, right)[number % 2]:
            form.text(("workshop", "workroom", field), label, example=example)
