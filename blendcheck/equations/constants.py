"""Physical constants and conventions that the equations share."""

from typing import Final

__all__ = ["ATMOSPHERE", "GAS_CONSTANT", "ZERO_CELSIUS"]

GAS_CONSTANT: Final = 8.31446261815324
"""Molar gas constant, exact since 2019. [J/(mol K)] From source id ``codata-2018``."""

ATMOSPHERE: Final = 101_325.0
"""Standard atmosphere, exact. [Pa] From source id ``nist-sp811-2008``, B.8."""

ZERO_CELSIUS: Final = 273.15
"""0 degC, exact. [K] From source id ``nist-sp811-2008``, B.8."""
