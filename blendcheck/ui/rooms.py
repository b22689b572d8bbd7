"""The rooms that estimates are made for: the shower, and the room where a batch dries.

What is left blank is filled in or asked for by the estimate, which says so.
"""

from typing import Final

import streamlit as st

from blendcheck.ui import shown
from blendcheck.ui.form import Form

__all__ = ["shower", "workroom"]

_SHOWER: Final = (
    ("stall_volume_m3", "Air in the stall, m³", "stall"),
    ("bathroom_volume_m3", "Air in the bathroom without the stall, m³", "bathroom"),
    (
        "stall_air_changes_per_h",
        "Air of the stall changed, times an hour",
        "stall_changes",
    ),
    (
        "bathroom_air_changes_per_h",
        "Air of the bathroom changed, times an hour",
        "bathroom_changes",
    ),
    ("shower_minutes", "One shower, minutes", "shower_min"),
    ("water_temperature_celsius", "Water, °C", "water_c"),
    ("water_flow_litres_per_min", "Flow of water, litres a minute", "flow_l_per_min"),
    ("dissolving_minutes", "The piece is gone after, minutes", "dissolving_min"),
    ("door_shut_minutes", "Door shut afterwards, minutes", "shut_min"),
    ("fan_minutes", "Fan on after that, minutes", "fan_min"),
    ("fan_air_changes_per_h", "Air changes with the fan, times an hour", "fan_changes"),
    ("minutes_between", "Between two showers, minutes", "pause_min"),
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
    for number, (field, label, name) in enumerate(_SHOWER):
        with (left, right)[number % 2]:
            form.text(("workshop", "shower", field), label, example=texts.get(name, ""))
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
