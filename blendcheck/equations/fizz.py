r"""Carbon dioxide of bicarbonate with an acid, and what is left over.

The acid gives as many protons as it has carboxyl groups that bicarbonate can
neutralise, :math:`HCO_3^- + H^+ \to CO_2 + H_2O`; whichever runs out first limits
the gas.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

import numpy as np

from blendcheck.equations.arrays import FloatArray, Floats, not_negative, positive
from blendcheck.equations.constants import ATMOSPHERE, GAS_CONSTANT

__all__ = [
    "ACIDS",
    "BICARBONATE",
    "CARBON_DIOXIDE",
    "Acid",
    "Fizz",
    "fizz",
    "gas_volume",
]

BICARBONATE: Final = 84.006
"""Molar mass of sodium bicarbonate. [g/mol] From source id ``ciaaw-2021``."""

CARBON_DIOXIDE: Final = 44.009
"""Molar mass of carbon dioxide. [g/mol] From source id ``ciaaw-2021``."""


@dataclass(frozen=True, slots=True)
class Acid:
    """An acid of a fizzing piece.

    Parameters
    ----------
    molar_mass : float
        As weighed, water of crystallisation included. [g/mol]
    protons : int
        Protons that it gives to bicarbonate. [mol/mol]
    """

    molar_mass: float
    protons: int


ACIDS: Final[Mapping[str, Acid]] = MappingProxyType(
    {
        "citric acid": Acid(192.123, 3),
        "citric acid monohydrate": Acid(210.138, 3),
        "cream of tartar": Acid(188.176, 1),
        "malic acid": Acid(134.087, 2),
        "tartaric acid": Acid(150.086, 2),
    }
)
"""The acids of the trade. Masses: source id ``ciaaw-2021``; protons: the formulas,
C6H8O7 (and its monohydrate), KHC4H4O6, C4H6O5, C4H6O6."""


@dataclass(frozen=True, slots=True, eq=False)
class Fizz:
    """What bicarbonate and acids give.

    Parameters
    ----------
    carbon_dioxide : array
        Gas by stoichiometry: what a closed recipe can give. [g]
    upper_bound : array
        Gas if all carbon of the bicarbonate leaves. [g]
    bicarbonate_left : array
        Bicarbonate without acid: the rinse is alkaline. [g]
    acid_left : dict of str to array
        Each acid that is left if all are used up in the same proportion: the rinse
        is acid. [g]
    protons_left : array
        The same as an amount of acid, however the acids share it. [mol]
    """

    carbon_dioxide: FloatArray
    upper_bound: FloatArray
    bicarbonate_left: FloatArray
    acid_left: Mapping[str, FloatArray]
    protons_left: FloatArray


def fizz(bicarbonate: Floats, acids: Mapping[str, Floats]) -> Fizz:
    r"""Work out the gas of a fizzing mixture and what is left of its parts.

    Parameters
    ----------
    bicarbonate : float or array
        Sodium bicarbonate, >= 0. [g]
    acids : dict of str to float or array
        Mass of each acid, >= 0, under its name in :data:`ACIDS`. [g]

    Returns
    -------
    Fizz
        Gas and rests.

    Raises
    ------
    DomainError
        If a mass is negative (NaN included).
    KeyError
        If an acid is none of :data:`ACIDS`.

    Notes
    -----
    :math:`n(CO_2) = \min(n_{bicarbonate}, \sum_a z_a n_a)`, as in 3 NaHCO3
    + C6H8O7 -> Na3C6H5O7 + 3 H2O + 3 CO2.
    From source id ``citric-bicarbonate-stoichiometry``. Valid for: gas that leaves in
    the end; in a shower the running water takes part of it down the drain, and from a
    puddle that is left for hours somewhat more can leave. Departs from the source in:
    several acids count together; gas from warmed bicarbonate without acid is in the
    upper bound only.

    Examples
    --------
    >>> result = fizz(1.00, {"citric acid": 1.00})
    >>> float(result.carbon_dioxide), float(result.acid_left["citric acid"])
    (0.5239, 0.2377)
    """
    base = not_negative("bicarbonate", bicarbonate) / BICARBONATE
    masses = {name: not_negative(name, mass) for name, mass in acids.items()}
    protons = np.zeros(())
    for name, mass in masses.items():
        acid = ACIDS[name]
        protons = protons + mass / acid.molar_mass * acid.protons
    reacted = np.minimum(base, protons)
    left = protons - reacted
    kept = np.zeros(left.shape)
    np.divide(left, np.broadcast_to(protons, left.shape), out=kept, where=left > 0)
    return Fizz(
        np.asarray(reacted * CARBON_DIOXIDE),
        np.asarray(base * CARBON_DIOXIDE),
        np.asarray((base - reacted) * BICARBONATE),
        {name: np.asarray(mass * kept) for name, mass in masses.items()},
        np.asarray(left),
    )


def gas_volume(
    mass: Floats,
    *,
    temperature: Floats,
    molar_mass: Floats = CARBON_DIOXIDE,
    pressure: Floats = ATMOSPHERE,
) -> FloatArray:
    r"""Return the volume of a gas.

    Parameters
    ----------
    mass : float or array
        Mass of gas, >= 0. [g]
    temperature : float or array
        Its temperature, > 0. [K]
    molar_mass : float or array
        Molar mass, > 0; carbon dioxide by default. [g/mol]
    pressure : float or array, default 101325
        Its pressure, > 0. [Pa]

    Returns
    -------
    array
        Volume. [L]

    Raises
    ------
    DomainError
        If ``mass`` is negative or another argument not positive (NaN included).

    Notes
    -----
    :math:`V = m R T/(M p)`, ideal gas, source id ``codata-2018`` for R. Valid for:
    gases near room temperature and pressure (carbon dioxide within 0.6 %). Departs
    from the source in: nothing.

    Examples
    --------
    >>> float(gas_volume(0.2619, temperature=298.15))
    0.1456
    """
    amount = not_negative("mass", mass) / positive("molar_mass", molar_mass)
    energy = GAS_CONSTANT * positive("temperature", temperature)
    return np.asarray(1e3 * amount * energy / positive("pressure", pressure))
