"""A blend of twelve parts for tests of method and speed.

Pressures at 25 degC, boiling points and flash points are rounded and from memory:
what is compared is the arithmetic, not these oils.
"""

from functools import partial

import numpy as np

from blendcheck.equations.vapour import thomson_pressure
from tests.equations.dortmund import groups_of

CAS = (
    "138-86-3", "80-56-8", "127-91-3", "99-85-4", "470-82-6", "2216-51-5",
    "14073-97-3", "78-70-6", "115-95-7", "562-74-3", "99-87-6", "67-63-0",
)  # fmt: skip
AT_25 = (200, 584, 389, 140, 258, 4.5, 42, 27, 12.2, 5, 190, 5800)  # Pa
BOILING = (449, 429, 439, 456, 450, 487, 483, 471, 493, 485, 450, 355.4)  # K
FLASH = np.array([47.9, 30.6, 37.5, 52.5, 49, 93, 78, 75, 85, 79, 47, 12]) + 273.15
CURVES = [
    partial(thomson_pressure, known=298.15, pressure=pressure, boiling=boiling)
    for pressure, boiling in zip(AT_25, BOILING, strict=True)
]
GROUPS = [groups_of(cas) for cas in CAS]
