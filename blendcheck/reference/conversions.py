"""Units that sources print, our units, and which of ours a quantity has.

Every conversion is exact. A pair that is not listed is refused, and so is a figure
in a unit that is not ours for its quantity.
"""

from collections.abc import Mapping
from fractions import Fraction
from types import MappingProxyType
from typing import Final

from blendcheck.units import PERCENT_PER_PPM

__all__ = ["BASES", "QUALIFIERS", "QUANTITIES", "UNITS", "convert"]

Conversion = tuple[Fraction, Fraction]
_SAME: Conversion = (Fraction(1), Fraction(0))
_ZERO_CELSIUS = Fraction(27315, 100)
_FAHRENHEIT = (Fraction(5, 9), Fraction(45967, 180))


def _times(factor: int | Fraction) -> Conversion:
    return Fraction(factor), Fraction(0)


UNITS: Final[Mapping[tuple[str, str], Conversion]] = MappingProxyType(
    {
        **{
            (unit, unit): _SAME
            for unit in (
                *("1", "K", "Pa", "%", "% v/v", "kg/m3", "g/m3", "J/mol"),
                *("mol/(m3 Pa)", "mg/m3", "ppm", "mmol/L", "mg/kg", "mg/mL"),
                *("g", "mL", "mL/kg", "min", "L/min", "m3", "1/h", "kg", "m3/min"),
                *("m3/h", "L/m3", "mm2/s", "years", "months", "mg/kg per day"),
                *("mg/day", "pH", "mg/L"),
            )
        },
        ("degC", "K"): (Fraction(1), _ZERO_CELSIUS),
        ("degF", "K"): _FAHRENHEIT,
        ("hPa", "Pa"): _times(100),
        ("mmHg", "Pa"): _times(Fraction(101_325, 760)),
        ("mol/mol", "% v/v"): _times(100),
        ("g/cm3", "kg/m3"): _times(1000),
        ("mg/L", "g/m3"): _SAME,
        ("kJ/mol", "J/mol"): _times(1000),
        ("ug/m3", "mg/m3"): _times(Fraction(1, 1000)),
        ("ppm w/w", "%"): _times(PERCENT_PER_PPM),
        ("mg/kg of product", "%"): _times(PERCENT_PER_PPM),
        ("g/kg", "%"): _times(Fraction(1, 10)),
        ("mg", "g"): _times(Fraction(1, 1000)),
        ("US gal/min", "L/min"): _times(Fraction(3_785_411_784, 10**9)),
        ("L/s", "m3/h"): _times(Fraction(36, 10)),
        ("ug/kg per day", "mg/kg per day"): _times(Fraction(1, 1000)),
    }
)
"""Scale and offset from a printed unit to ours: ours = printed * scale + offset.

Exact. Temperatures, litre and gallon: source id ``nist-sp811-2008``, B.8; 760 mmHg
are 101 325 Pa; ``ppm`` alone is a volume fraction of a gas and is never turned into
mg/m3 here, because that needs a temperature that the source has to name.
"""

_AIR = ("ppm", "mg/m3", "1")
QUANTITIES: Final[Mapping[str, tuple[str, ...]]] = MappingProxyType(
    {
        "melting point": ("K",),
        "boiling point": ("K",),
        "flash point": ("K",),
        "autoignition temperature": ("K",),
        "lower flammable limit": ("% v/v",),
        "upper flammable limit": ("% v/v",),
        "density": ("kg/m3",),
        "relative density": ("1",),
        "refractive index": ("1",),
        "vapour pressure": ("Pa",),
        "enthalpy of vaporisation": ("J/mol",),
        "water solubility": ("g/m3",),
        "Henry solubility": ("mol/(m3 Pa)",),
        "temperature dependence of Henry solubility": ("K",),
        "kinematic viscosity": ("mm2/s",),
        "acidity": ("pH",),
        "acute toxicity estimate": ("mg/kg", "ppm", "mg/L"),
        "content": ("%",),
        "typical content": ("%",),
        "peroxide value": ("mmol/L",),
        "average, 8 h": _AIR,
        "average, 10 h": _AIR,
        "short-term, 15 min": _AIR,
        "ceiling": _AIR,
        "ceiling, 10 min": _AIR,
        "peak factor, 15 min": _AIR,
        "immediately dangerous, 30 min": _AIR,
        "acute limit, 30 min": _AIR,
        "indoor guide value I, long term": _AIR,
        "indoor guide value II, action": _AIR,
        "lowest concentration of interest, long term": _AIR,
        "indoor air, unobjectionable": _AIR,
        "indoor air, unacceptable": _AIR,
        "odour threshold": _AIR,
        "RD50, mouse": _AIR,
        "no effect on breathing, mouse": _AIR,
        "airflow limitation, mouse": _AIR,
        "irritation threshold, people": _AIR,
        "irritation felt, people": _AIR,
        "no irritation felt, people": _AIR,
        "no change of the lungs, people": _AIR,
    }
)
"""Our units for every quantity of the tables of figures."""

QUALIFIERS: Final = ("=", "<", "<=", ">", ">=", "~")
"""How a printed figure bounds the quantity; ``~`` is about."""

BASES: Final = ("measured", "estimated", "regulatory", "conventional", "not stated")
"""What a figure rests on."""


def convert(printed: Fraction, printed_unit: str, unit: str) -> Fraction:
    """Convert a printed figure to our unit, exactly.

    Parameters
    ----------
    printed : Fraction
        The figure as printed, in ``printed_unit``.
    printed_unit, unit : str
        A pair of :data:`UNITS`.

    Returns
    -------
    Fraction
        The figure in ``unit``.

    Raises
    ------
    KeyError
        If there is no such pair.

    Examples
    --------
    >>> convert(Fraction(12), "degC", "K")
    Fraction(5703, 20)
    """
    scale, offset = UNITS[printed_unit, unit]
    return printed * scale + offset
