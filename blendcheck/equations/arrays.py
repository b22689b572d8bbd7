"""Arguments of the equations: turned into arrays, and refused outside their range.

Each check is written so that a NaN fails it: ``not all(value > 0)``, never
``any(value <= 0)``.
"""

from collections.abc import Callable

import numpy as np
import numpy.typing as npt

from blendcheck.errors import DomainError

__all__ = [
    "BoolArray",
    "FloatArray",
    "Floats",
    "IndexArray",
    "finite",
    "fraction",
    "not_negative",
    "positive",
    "within",
]

FloatArray = npt.NDArray[np.float64]
"""What every equation returns; of no dimension where all arguments were numbers."""

BoolArray = npt.NDArray[np.bool_]
"""Answers to a question asked of every number of an array."""

IndexArray = npt.NDArray[np.intp]
"""Places in another array."""

Floats = npt.ArrayLike
"""A number, or anything that numpy reads as an array of numbers."""


def _checked(
    name: str,
    value: Floats,
    accepts: Callable[[FloatArray], BoolArray],
    rule: str,
) -> FloatArray:
    array = np.asarray(value, dtype=np.float64)
    good = accepts(array)
    if not np.all(good):
        first = array.reshape(-1)[~np.asarray(good).reshape(-1)][0]
        raise DomainError(name, float(first), rule)
    return array


def finite(name: str, value: Floats) -> FloatArray:
    """Return ``value`` as an array of finite numbers.

    Parameters
    ----------
    name : str
        Name of the argument, for the message.
    value : float or array
        What was given.

    Returns
    -------
    array
        The same numbers.

    Raises
    ------
    DomainError
        If a number is infinite or NaN.
    """
    return _checked(name, value, np.isfinite, "a finite number")


def positive(name: str, value: Floats) -> FloatArray:
    """Return ``value`` as an array of finite numbers above zero.

    Parameters
    ----------
    name : str
        Name of the argument, for the message.
    value : float or array
        What was given.

    Returns
    -------
    array
        The same numbers.

    Raises
    ------
    DomainError
        If a number is not above zero, infinite or NaN.
    """
    return _checked(name, value, lambda v: (v > 0) & np.isfinite(v), "> 0")


def not_negative(name: str, value: Floats) -> FloatArray:
    """Return ``value`` as an array of finite numbers at or above zero.

    Parameters
    ----------
    name : str
        Name of the argument, for the message.
    value : float or array
        What was given.

    Returns
    -------
    array
        The same numbers.

    Raises
    ------
    DomainError
        If a number is negative, infinite or NaN.
    """
    return _checked(name, value, lambda v: (v >= 0) & np.isfinite(v), ">= 0")


def fraction(name: str, value: Floats) -> FloatArray:
    """Return ``value`` as an array of numbers from 0 to 1.

    Parameters
    ----------
    name : str
        Name of the argument, for the message.
    value : float or array
        What was given.

    Returns
    -------
    array
        The same numbers.

    Raises
    ------
    DomainError
        If a number is below 0, above 1 or NaN.
    """
    return _checked(name, value, lambda v: (v >= 0) & (v <= 1), "from 0 to 1")


def within(name: str, value: Floats, low: Floats, high: Floats) -> FloatArray:
    """Return ``value`` as an array of numbers from ``low`` to ``high``.

    Parameters
    ----------
    name : str
        Name of the argument, for the message.
    value : float or array
        What was given.
    low, high : float or array
        The ends, both allowed, in the unit of ``value``.

    Returns
    -------
    array
        The same numbers.

    Raises
    ------
    DomainError
        If a number is outside the ends or NaN.
    """
    lows, highs = np.asarray(low, np.float64), np.asarray(high, np.float64)
    rule = f"from {np.max(lows):g} to {np.min(highs):g}"
    values = np.asarray(value, dtype=np.float64)
    everywhere = np.broadcast_arrays(values, lows, highs)
    _checked(
        name, everywhere[0], lambda v: (v >= everywhere[1]) & (v <= everywhere[2]), rule
    )
    return values
