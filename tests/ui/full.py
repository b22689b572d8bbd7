"""One material, one shelf and one recipe in which no field is left out."""

import tomllib
from decimal import Decimal

from pydantic import ValidationError

from blendcheck.records.material import Materials
from blendcheck.records.recipe import Recipe
from blendcheck.records.setting import Shower
from blendcheck.records.workroom import Workroom

SHELF = """
[workshop]
name = "Skerry Bench"
place = "EU"
who = "somebody of the Skerry Bench"
where = "the lane behind the slipway"
poison_line = "000 000"
scale = "0.1 g"
review_after_months = 24
current = { "gull scheme" = "3" }

[[material]]
id = "kelp oil"
name = "Kelp oil"
kind = "essential oil"
botanical = "Kelpa invented"
part = "fronds"
inci = "Kelpa Oil"
supplier = "Skua Oils"
cas = "8000-48-4"
density = "0.9"
density_is_published = true
flash_point = "60 °C closed cup"
flash_point_document = "sheet"
leaves_on_drying = "0 %"
strength = "70 % v/v"
weighed = { drop = "0.03 g", tsp = "4 g" }
checked_by_components = true
phototoxic = "no"
irritant = ["470-82-6"]
remark = "invented"

  [material.dilution]
  percent = "10 %"
  diluent = "carrier"
  papers_describe = "as sold"

  [[material.document]]
  id = "sheet"
  kind = "safety data sheet"
  issuer = "Skua Oils"
  date = "2026-01-02"
  edition = "3"
  lot = "K-1"

  [[material.lot]]
  lot = "K-1"
  received = "2026-02-01"
  opened = "2026-03-01"
  storage = "cool"
  density = "0.91"
  flash_point = "61 °C closed cup"

    [[material.lot.composition]]
    kind = "full GC-MS"
    document = "sheet"
    basis = "area"
    copied_whole = true
    covers = ["470-82-6"]
    shown_from = "0.01 %"
    unidentified = "1 %"
    row = [{ name = "1,8-Cineole", cas = "470-82-6", share = "40 %" }]

  [[material.composition]]
  kind = "hazardous ingredients"
  document = "sheet"
  basis = "w/w"
  copied_whole = true
  covers = ["470-82-6"]
  shown_from = "0.1 %"
  unidentified = "2 %"
  row = [{ name = "1,8-Cineole", cas = "470-82-6", share = "25-50 %" }]

  [[material.hazard]]
  document = "sheet"
  classes = ["Flam. Liq. 3; H226", "Asp. Tox. 1, H304"]
  limits = ["Skin Irrit. 2; H315: C ≥ 20 %"]
  ate = ["oral 1680 mg/kg", "dermal > 2000 mg/kg"]
  m_acute = "1"
  m_chronic = "10"
  viscosity = "≤ 20.5 mm2/s"
  boiling_point = "176 °C"
  ph = "5"
  adds_up = false
  copied_whole = true

  [[material.hazard]]
  name = "1,8-Cineole"
  cas = "470-82-6"
  document = "sheet"
  classes = ["Flam. Liq. 3, H226", "Skin Sens. 1B, H317"]
  limits = ["Skin Sens. 1B; H317: C ≥ 1 %"]
  ate = ["oral 2480 mg/kg"]
  m_acute = "1"
  m_chronic = "1"
  viscosity = "≤ 2 mm2/s"
  boiling_point = "176 °C"
  ph = "6"
  adds_up = false
  copied_whole = true

  [[material.cap]]
  on = "component"
  name = "1,8-Cineole"
  cas = "470-82-6"
  scheme = "gull scheme"
  edition = "3"
  category = "9"
  printed = "N/A"
  footnote = "no restriction"
  document = "sheet"
  summed_with = "light"

[[material]]
id = "carrier"
name = "Carrier"
kind = "carrier"

  [[material.lot]]
  lot = "C-1"

[[stock]]
id = "mix"
name = "Mix"
made = "2026-04-01"
line = [
  { material = "kelp oil", lot = "K-1", amount = "1 part" },
  { material = "carrier", amount = "1 part" },
]

[[stock]]
id = "mixed mix"
line = [{ stock = "mix", amount = "1 part" }]

[[cap]]
on = "component"
name = "1,8-Cineole"
cas = "470-82-6"
scheme = "gull scheme"
edition = "3"
category = "9"
printed = "N/A"
footnote = "no restriction"
document = "sheet"
summed_with = "light"

[[confirmed]]
name = "Cineole"
cas = "470-82-6"
same = false

[[confirmed]]
cas = "5989-27-5"
counts_as = "138-86-3"
"""

RECIPE = """
schema = 1
name = "Every field"
materials = "shelf.toml"
product = "bath fizz"
contact = "rinse-off"
channel = "sale"
pieces = 10
piece_mass = "60 g"
pieces_per_use = "1/2"
pieces_given = 2
allowance_for_loss = "2 %"
dry_mass = "600 g"
remark = "invented"

[[line]]
material = "carrier"
lot = "C-1"
amount = "600 g"
leaves_on_drying = "1 %"

[blend]
load = "2 %"
of = "the total"
line = [
  { material = "kelp oil", lot = "K-1", amount = "1 part" },
  { stock = "own mix", amount = "1 part" },
]

[[stock]]
id = "own mix"
name = "Own mix"
made = "2026-04-02"
line = [{ material = "kelp oil", lot = "K-1", amount = "1 part" }]

[[stock]]
id = "mix of mix"
line = [{ stock = "own mix", amount = "1 part" }]

[[line]]
stock = "own mix"
amount = "1 g"

[[cap]]
on = "component"
material = "kelp oil"
name = "as printed"
cas = "470-82-6"
scheme = "mine"
edition = "1"
category = "9"
printed = "N/A"
footnote = "no restriction"
document = "letter"
summed_with = "light"

[process]
room = "18 °C"
ignition = ["hob"]
heat_gun = false
temperature = { drying = "20 °C", posting = "30 °C" }

[[category]]
scheme = "gull scheme"
category = "9"
said_by = "the desk of Skua Oils"
on = "2026-05-01"
edition = "3"

[papers]
title = "Every field"
message = "For you"
who = "somebody"
where = "the lane"
made_on = "2026-05-02"
best_before = "2027-05-02"
lot = "E-1"
pieces_in_pack = 2
small_last = true
reason = [{ about = "Kelp oil", says = "it is invented" }]
"""

# Of the rooms any figure will do that the field takes.
_TRIED = (
    *("2 m3", "20 per hour", "10 min", "4 h", "38 °C", "8 L/min", "200 ppm"),
    *("20 mL", "assumed", 1, "2", "30"),
)


def room_of(model):
    """Return a table for a room, every field filled in."""
    made = {}
    for field in model.model_fields:
        for value in _TRIED:
            try:
                model.model_validate({field: value})
            except ValidationError:
                continue
            made[field] = value
            break
    return model.model_validate(made).model_dump()


def full_shelf():
    raw = tomllib.loads(SHELF, parse_float=Decimal)
    raw["workshop"] |= {"shower": room_of(Shower), "workroom": room_of(Workroom)}
    return Materials.model_validate(raw)


def full_recipe():
    return Recipe.model_validate(tomllib.loads(RECIPE, parse_float=Decimal))
