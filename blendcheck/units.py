"""Constants and exact conversions, each with where it comes from.

Everything is a :class:`fractions.Fraction`: the definitions are exact, so nothing
is rounded here. Printed tables give the same figures to seven digits; the tests
compare them.

Volumes of spoons are the United States customary ones, because that is what
SP 811 lists and what recipe pages mean by "tsp"; a metric teaspoon (5 mL) has
its own name. A cup, a scoop or a drop has no volume here: it is weighed once
for each material.

References
----------
.. [1] source id ``nist-sp811-2008``, A. Thompson and B. N. Taylor, Guide for the
   Use of the International System of Units (SI), NIST Special Publication 811,
   2008 edition, Appendix B.8 and B.9: pound (avoirdupois), exactly
   0.453 592 37 kg (footnote 22); ounce = 1/16 pound; inch, exactly 2.54 cm;
   U.S. gallon = 231 cubic inches; gallon (Canadian and U.K.), exactly
   4.546 09 L; temperatures: t/degC = (t/degF - 32)/1.8 and T/K - 273.15.
.. [2] source id ``tanaka-2001``, M. Tanaka et al., Metrologia 38 (2001) 301-309,
   doi 10.1088/0026-1394/38/4/3: density of air-free water at 101 325 Pa.
"""

from fractions import Fraction
from types import MappingProxyType
from typing import Final

__all__ = [
    "ABSOLUTE_ZERO",
    "GRAMS_PER",
    "MILLILITRES_PER",
    "OUNCES_PER_POUND",
    "PERCENT_PER_PPM",
    "WATER_G_PER_ML",
    "WATER_REFERENCE_LOW",
    "celsius_from_fahrenheit",
    "celsius_from_kelvin",
    "fahrenheit_from_celsius",
    "kelvin_from_celsius",
]

ABSOLUTE_ZERO: Final = Fraction(-27315, 100)
"""0 K. [degC] Source id ``nist-sp811-2008``, B.8."""

OUNCES_PER_POUND: Final = 16
"""Ounces (avoirdupois) in a pound. Source id ``nist-sp811-2008``, B.8."""

PERCENT_PER_PPM: Final = Fraction(1, 10_000)
"""One part per million in percent. By definition: 1e-6 / 1e-2."""

_POUND = Fraction(45_359_237, 100_000)  # g, exact
_US_GALLON = 231 * Fraction(254, 100) ** 3  # mL: 231 cubic inches
_IMPERIAL_GALLON = Fraction(454_609, 100)  # mL, exact
_US_FLUID_OUNCE = _US_GALLON / 128
_TABLESPOON = _US_FLUID_OUNCE / 2

GRAMS_PER: Final = MappingProxyType(
    {
        "g": Fraction(1),
        "kg": Fraction(1000),
        "mg": Fraction(1, 1000),
        "lb": _POUND,
        "oz": _POUND / OUNCES_PER_POUND,
    }
)
"""Grams in one unit of mass. [g] Source id ``nist-sp811-2008``, B.8."""

MILLILITRES_PER: Final = MappingProxyType(
    {
        "mL": Fraction(1),
        "L": Fraction(1000),
        "US fl oz": _US_FLUID_OUNCE,
        "imp fl oz": _IMPERIAL_GALLON / 160,
        "tsp": _TABLESPOON / 3,
        "tbsp": _TABLESPOON,
        "metric tsp": Fraction(5),
    }
)
"""Millilitres in one unit of volume. [mL] Source id ``nist-sp811-2008``, B.8.

``tsp`` and ``tbsp`` are the United States customary spoons. The metric teaspoon
is common practice: 5 mL. (A "metric tablespoon" is 15 mL or 20 mL, depending on
the country, and has no entry.)
"""

WATER_G_PER_ML: Final = MappingProxyType(
    {
        4: Fraction("0.9999749"),
        15: Fraction("0.9991026"),
        20: Fraction("0.9982067"),
        25: Fraction("0.9970470"),
    }
)
"""Density of water at the reference temperatures of relative density. [g/mL]

Keys in degC. Source id ``tanaka-2001``, its formula at 101 325 Pa, to 1e-7 g/mL.
"""

WATER_REFERENCE_LOW: Final = WATER_G_PER_ML[25]
"""Lowest density of the reference water that a paper is likely to mean. [g/mL]

A number without a unit may be g/mL or relative to water at 4 to 25 degC; its
density then lies between this times the number and the number itself.
"""


def celsius_from_fahrenheit(fahrenheit: Fraction) -> Fraction:
    """Convert a temperature from degrees Fahrenheit, exactly.

    Parameters
    ----------
    fahrenheit : Fraction
        Temperature, any value. [degF]

    Returns
    -------
    Fraction
        Temperature. [degC]

    Notes
    -----
    t/degC = (t/degF - 32)/1.8, source id ``nist-sp811-2008``, B.8. Valid for any
    temperature.

    Examples
    --------
    >>> celsius_from_fahrenheit(Fraction(212))
    Fraction(100, 1)
    """
    return (fahrenheit - 32) * 5 / 9


def fahrenheit_from_celsius(celsius: Fraction) -> Fraction:
    """Convert a temperature to degrees Fahrenheit, exactly.

    Parameters
    ----------
    celsius : Fraction
        Temperature, any value. [degC]

    Returns
    -------
    Fraction
        Temperature. [degF]

    Notes
    -----
    The inverse of :func:`celsius_from_fahrenheit`.
    """
    return celsius * 9 / 5 + 32


def celsius_from_kelvin(kelvin: Fraction) -> Fraction:
    """Convert a temperature from kelvins, exactly.

    Parameters
    ----------
    kelvin : Fraction
        Temperature. [K]

    Returns
    -------
    Fraction
        Temperature. [degC]

    Notes
    -----
    t/degC = T/K - 273.15, source id ``nist-sp811-2008``, B.8. A value below 0 K is
    converted too; the reader of temperatures refuses it.

    Examples
    --------
    >>> celsius_from_kelvin(Fraction(27315, 100))
    Fraction(0, 1)
    """
    return kelvin + ABSOLUTE_ZERO


def kelvin_from_celsius(celsius: Fraction) -> Fraction:
    """Convert a temperature to kelvins, exactly.

    Parameters
    ----------
    celsius : Fraction
        Temperature. [degC]

    Returns
    -------
    Fraction
        Temperature. [K]

    Notes
    -----
    The inverse of :func:`celsius_from_kelvin`.
    """
    return celsius - ABSOLUTE_ZERO
