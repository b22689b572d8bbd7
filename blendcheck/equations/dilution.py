"""Mass balance of a blend in floats: shares, alligation, strength, largest load.

The verdicts are made on exact fractions elsewhere; these are the same equations for
sweeps over many blends at once.
"""

import numpy as np

from blendcheck.equations.arrays import (
    FloatArray,
    Floats,
    fraction,
    not_negative,
    positive,
)
from blendcheck.errors import DomainError

__all__ = [
    "alligation_share",
    "largest_load_finished_held",
    "largest_load_rest_held",
    "mass_fraction_from_volume_fraction",
    "mixed_fraction",
    "volume_fraction_from_mass_fraction",
]


def mixed_fraction(amounts: Floats, fractions: Floats) -> FloatArray:
    r"""Return the share of a constituent in what is mixed from several parts.

    Parameters
    ----------
    amounts : array, shape (..., n)
        Mass of each part, >= 0, not all 0. [g] Volumes give a share by volume if no
        contraction is assumed.
    fractions : array, shape (..., n)
        Share of the constituent in each part, 0 to 1. [g/g]

    Returns
    -------
    array, shape (...)
        Share in the mixture. [g/g]

    Raises
    ------
    DomainError
        If an amount is negative, all are 0, or a share is outside 0 to 1 (NaN
        included).

    Notes
    -----
    :math:`w = \sum_i m_i w_i / \sum_i m_i`, mass balance;
    source id ``pharmacy-alligation``, alligation medial. Valid for: any mixing in which
    nothing leaves. Departs from the source in: nothing.

    Examples
    --------
    >>> float(mixed_fraction([3000, 1000, 1000], [0.40, 0.60, 0.70]))
    0.50
    """
    masses = not_negative("amounts", amounts)
    whole = positive("sum of amounts", masses.sum(axis=-1))
    return np.asarray((masses * fraction("fractions", fractions)).sum(-1) / whole)


def alligation_share(strong: Floats, weak: Floats, wanted: Floats) -> FloatArray:
    r"""Return how much of a mixture must be the stronger of two parts.

    Parameters
    ----------
    strong, weak, wanted : float or array
        Strengths, 0 to 1, ``wanted`` between the others, which differ. [g/g]

    Returns
    -------
    array
        Share of the stronger part in the mixture. [g/g]

    Raises
    ------
    DomainError
        If the strengths are not in that order or outside 0 to 1 (NaN included).

    Notes
    -----
    :math:`(w - w_2)/(w_1 - w_2)`; source id ``pharmacy-alligation``, alternate.
    Valid for: as :func:`mixed_fraction`. Departs from the source in: parts are
    given as a share of the whole.

    Examples
    --------
    >>> float(alligation_share(0.95, 0.50, 0.70)) * 45  # parts in 45
    20.0
    """
    high, low = fraction("strong", strong), fraction("weak", weak)
    goal = fraction("wanted", wanted)
    width = positive("strong - weak", high - low)
    return fraction("(wanted - weak)/(strong - weak)", (goal - low) / width)


def mass_fraction_from_volume_fraction(
    volume_fraction: Floats, *, density: Floats, solution_density: Floats
) -> FloatArray:
    r"""Convert the strength of a solution from v/v to w/w.

    Parameters
    ----------
    volume_fraction : float or array
        Volume of the unmixed liquid in a volume of solution, 0 to 1. [mL/mL]
    density : float or array
        Density of the unmixed liquid, > 0. [g/mL]
    solution_density : float or array
        Density of the solution at the same temperature, > 0. [g/mL] Both may be
        specific gravities against the same water.

    Returns
    -------
    array
        Share by mass. [g/g]

    Raises
    ------
    DomainError
        If a density is not positive, or a share, given or resulting, is outside 0
        to 1 (NaN included).

    Notes
    -----
    :math:`w = \varphi\,\rho_1/\rho`: the volume is counted before mixing,
    so that contraction is in the density of the solution. From
    source id ``usp-alcoholometric``. Valid for: two densities at one temperature.
    Departs from the source in: the table's rounding.

    Examples
    --------
    >>> float(mass_fraction_from_volume_fraction(
    ...     0.10, density=0.7936, solution_density=0.9866))
    0.0804
    """
    mass = fraction("volume_fraction", volume_fraction) * positive("density", density)
    whole = positive("solution_density", solution_density)
    return fraction("mass fraction", mass / whole)


def volume_fraction_from_mass_fraction(
    mass_fraction: Floats, *, density: Floats, solution_density: Floats
) -> FloatArray:
    r"""Convert the strength of a solution from w/w to v/v.

    Parameters
    ----------
    mass_fraction : float or array
        Mass of the unmixed liquid in a mass of solution, 0 to 1. [g/g]
    density : float or array
        Density of the unmixed liquid, > 0. [g/mL]
    solution_density : float or array
        Density of the solution at the same temperature, > 0. [g/mL]

    Returns
    -------
    array
        Share by volume. [mL/mL]

    Raises
    ------
    DomainError
        If a density is not positive, or a share, given or resulting, is outside 0
        to 1 (NaN included).

    Notes
    -----
    The inverse of :func:`mass_fraction_from_volume_fraction`;
    source id ``usp-alcoholometric``. Valid for and departs from the source in: as
    there.
    """
    whole = fraction("mass_fraction", mass_fraction)
    volume = whole * positive("solution_density", solution_density)
    return fraction("volume fraction", volume / positive("density", density))


def largest_load_finished_held(
    cap: Floats, *, finished: Floats, other: Floats, share: Floats
) -> FloatArray:
    r"""Return the most of a material when the finished mass stays the same.

    Parameters
    ----------
    cap : float or array
        Limit of a constituent in the finished product, 0 to 1. [g/g]
    finished : float or array
        Mass of the finished product, > 0. [g]
    other : float or array
        Mass of the constituent that everything else brings, >= 0. [g]
    share : float or array
        Share of the constituent in the material, above 0, at most 1. [g/g]

    Returns
    -------
    array
        Mass of the material; 0 where the rest alone is above the cap. [g]

    Raises
    ------
    DomainError
        If an argument is outside its range (NaN included).

    Notes
    -----
    From :math:`R + s\,x \le c\,W` follows :math:`x \le (c\,W - R)/s`. Mass balance;
    source id ``pharmacy-alligation``. Valid for: a base without the constituent that
    gives way for the material. Departs from the source in: it is solved for the load.

    Examples
    --------
    >>> float(largest_load_finished_held(0.01, finished=1440, other=2.0, share=0.4))
    31.0
    """
    room = fraction("cap", cap) * positive("finished", finished)
    room = room - not_negative("other", other)
    brings = positive("share", fraction("share", share))
    return np.maximum(room / brings, 0.0)


def largest_load_rest_held(
    cap: Floats, *, rest: Floats, other: Floats, share: Floats, left: Floats = 1.0
) -> FloatArray:
    r"""Return the most of a material when it comes on top of the rest.

    Parameters
    ----------
    cap : float or array
        Limit of a constituent in the finished product, 0 to 1. [g/g]
    rest : float or array
        Finished mass without the material, > 0. [g]
    other : float or array
        Mass of the constituent that everything else brings, >= 0. [g]
    share : float or array
        Share of the constituent in the material, 0 to 1. [g/g]
    left : float or array, default 1
        What one gram of the material leaves in the finished product, 0 to 1. [g/g]

    Returns
    -------
    array
        Mass of the material; 0 where the rest alone is above the cap and more of
        the material cannot lower the share, infinite where no amount reaches it. [g]

    Raises
    ------
    DomainError
        If an argument is outside its range (NaN included), or if the rest is above
        the cap and the material would dilute it: then there is a least amount, not
        a largest.

    Notes
    -----
    From :math:`R + s\,x \le c\,(W + l\,x)` follows
    :math:`x \le (c\,W - R)/(s - c\,l)` where :math:`s > c\,l`. Mass balance;
    source id ``pharmacy-alligation``. Valid for: a load that changes nothing else
    in the batch. Departs from the source in: it is solved for the load.

    Examples
    --------
    >>> float(largest_load_rest_held(0.01, rest=1390, other=2.0, share=0.4))
    30.51
    """
    limit = fraction("cap", cap)
    room = limit * positive("rest", rest) - not_negative("other", other)
    slope = fraction("share", share) - limit * fraction("left", left)
    if np.any((room < 0) & (slope < 0)):
        raise DomainError("other", float(np.max(other)), "at most cap x rest")
    room, slope = np.broadcast_arrays(room, slope)
    most = np.where(room < 0, 0.0, np.full(room.shape, np.inf))
    np.divide(np.maximum(room, 0.0), slope, out=most, where=slope > 0)
    return most
