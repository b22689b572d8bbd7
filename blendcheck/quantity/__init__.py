"""What people write, and back: amounts, shares, temperatures, caps, dates.

``read_x`` turns a text into a value with its exact meaning, or raises: a
:class:`~blendcheck.errors.QuestionError` where the text has more than one meaning,
else an :class:`~blendcheck.errors.InputError`, each with a code (listed in
``refusals.py``). ``print_x`` turns the value back into a text that reads the same.
Only this room reads or prints a number.
"""

from blendcheck.quantity.amounts import print_amount, read_amount
from blendcheck.quantity.caps import print_cap, read_cap
from blendcheck.quantity.dates import print_date, read_date
from blendcheck.quantity.densities import print_density, read_density
from blendcheck.quantity.numbers import read_number
from blendcheck.quantity.percents import print_percent, read_percent
from blendcheck.quantity.printing import (
    exact_text,
    print_bound,
    print_estimate,
    print_number,
    print_range,
    round_down_to,
    round_outward,
)
from blendcheck.quantity.settings import (
    Setting,
    print_setting,
    read_setting,
)
from blendcheck.quantity.temperatures import print_temperature, read_temperature
from blendcheck.quantity.values import (
    Amount,
    Base,
    CapText,
    Density,
    Limit,
    Mark,
    Missing,
    NoRestriction,
    NotAdded,
    NotApplicable,
    NotPermitted,
    Percent,
    PrintedDate,
    Temperature,
)

__all__ = [
    "Amount",
    "Base",
    "CapText",
    "Density",
    "Limit",
    "Mark",
    "Missing",
    "NoRestriction",
    "NotAdded",
    "NotApplicable",
    "NotPermitted",
    "Percent",
    "PrintedDate",
    "Setting",
    "Temperature",
    "exact_text",
    "print_amount",
    "print_bound",
    "print_cap",
    "print_date",
    "print_density",
    "print_estimate",
    "print_number",
    "print_percent",
    "print_range",
    "print_setting",
    "print_temperature",
    "read_amount",
    "read_cap",
    "read_date",
    "read_density",
    "read_number",
    "read_percent",
    "read_setting",
    "read_temperature",
    "round_down_to",
    "round_outward",
]
