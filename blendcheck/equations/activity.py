r"""Activity coefficients by modified UNIFAC (Dortmund), for many blends at once.

A blend of n constituents is described by how often each of s structural groups
occurs in each constituent, and by the interaction of the main groups to which those
belong. Groups of one main group differ only in size, so that everything but the
size is worked out for main groups: a few of them instead of some dozen groups.
"""

from typing import Final

import numpy as np
import numpy.typing as npt

from blendcheck.equations.arrays import (
    BoolArray,
    FloatArray,
    Floats,
    IndexArray,
    finite,
    not_negative,
    positive,
    within,
)
from blendcheck.errors import DomainError

__all__ = ["ModifiedUnifac", "stands_above_one", "uncovered_pairs"]

_TOLERANCE: Final = 1e-9
"""By how much a sum of mole fractions may differ from 1, or an activity. [-]"""

_HALF_Z: Final = 5.0
"""Half of the coordination number 10. [-] From source id ``gmehling-1993``."""


class ModifiedUnifac:
    r"""Modified UNIFAC (Dortmund) for a fixed set of constituents.

    Parameters
    ----------
    counts : array, shape (n, s)
        How often each group occurs in each constituent, >= 0. [-]
    r, q : array, shape (s,)
        Relative volume and surface of each group, r > 0, q >= 0. [-]
    main_group : array of int, shape (s,)
        Index of each group's main group in the interaction matrices, 0 to m - 1.
    a, b, c : array, shape (m, m)
        Interaction of main group i (row) with j (column): a + b T + c T^2, 0 on the
        diagonal. NaN where no parameter is published. [K, -, 1/K]

    Raises
    ------
    DomainError
        If shapes do not fit, a number is outside its range, a constituent has no
        group, or an interaction between two main groups that occur is missing.

    Notes
    -----
    :math:`\ln\gamma_i = \ln\gamma_i^C + \sum_k \nu_k^{(i)} (\ln\Gamma_k -
    \ln\Gamma_k^{(i)})`
    with the combinatorial part
    :math:`1 - V'_i + \ln V'_i - 5 q_i (1 - V_i/F_i + \ln(V_i/F_i))`,
    :math:`V'_i = r_i^{3/4}/\sum_j x_j r_j^{3/4}`, and with
    :math:`\psi_{nm} = \exp[-(a_{nm} + b_{nm} T + c_{nm} T^2)/T]`.
    From source id ``gmehling-1993``, equations 1 to 9. Valid for: one liquid phase of
    non-electrolytes, about 290 to 420 K; polymers and surfactants are outside. Departs
    from the source in: nothing.

    Examples
    --------
    Hexane and 2-butanone, half and half at 60 degC; groups CH3, CH2, CH3CO of the
    main groups CH2 and CH2CO:

    >>> model = ModifiedUnifac(
    ...     counts=[[2, 4, 0], [1, 1, 1]],
    ...     r=[0.6325, 0.6325, 1.7048], q=[1.0608, 0.7081, 1.6700],
    ...     main_group=[0, 0, 1],
    ...     a=[[0, 433.6], [199.0, 0]], b=[[0, 0.1473], [-0.8709, 0]],
    ...     c=[[0, 0], [0, 0]])
    >>> model.coefficients([0.5, 0.5], 333.15)
    array([1.4165, 1.3630])
    """

    def __init__(
        self,
        counts: Floats,
        r: Floats,
        q: Floats,
        main_group: npt.ArrayLike,
        a: Floats,
        b: Floats,
        c: Floats,
    ) -> None:
        groups = not_negative("counts", counts)
        volumes, surfaces = positive("r", r), not_negative("q", q)
        mains = np.asarray(main_group, dtype=np.intp)
        size = np.asarray(a).shape[-1] if np.ndim(a) == 2 else 0
        if groups.ndim != 2 or any(
            each.shape != groups.shape[1:] for each in (volumes, surfaces, mains)
        ):
            raise DomainError("counts", groups.shape, "(constituents, groups)")
        within("main_group", mains, 0, size - 1)
        positive("groups of a constituent", groups.sum(axis=1))
        # Surfaces by main group, of those that occur at all.
        present = np.unique(mains[groups.sum(axis=0) > 0])
        members = mains[:, None] == present
        self._surfaces = (groups * surfaces) @ members
        self._a, self._b, self._c = (
            _interaction(name, each, size, present)
            for name, each in (("a", a), ("b", b), ("c", c))
        )
        self._r = groups @ volumes
        self._q = positive("surface of a constituent", self._surfaces.sum(axis=1))
        self._r34 = self._r**0.75
        self._alone = self._surfaces / self._q[:, None]
        self._held = np.nonzero(self._surfaces)
        self._weights = np.zeros((len(self._held[0]), len(self._r)))
        rows = np.arange(len(self._held[0]))
        self._weights[rows, self._held[0]] = self._surfaces[self._held]

    @property
    def size(self) -> int:
        """Number of constituents."""
        return len(self._r)

    def ln_coefficients(self, x: Floats, temperature: Floats) -> FloatArray:
        """Return the logarithms (base e) of the activity coefficients.

        Parameters
        ----------
        x : array, shape (..., n)
            Mole fractions, >= 0, adding up to 1 in each composition. [mol/mol]
        temperature : array, shape (...)
            Temperature, > 0; broadcast against the compositions. [K]

        Returns
        -------
        array, shape (..., n)
            ln gamma of each constituent, also of one of which there is nothing (its
            value at infinite dilution). [-]

        Raises
        ------
        DomainError
            If the shapes do not fit or a number is outside its range (NaN included).
        """
        fractions = self._fractions(x)
        psi = self._psi(positive("temperature", temperature))
        residual = self._residual(fractions, psi) - self._alone_logs(psi)
        return self._combinatorial(fractions) + residual

    def coefficients(self, x: Floats, temperature: Floats) -> FloatArray:
        """Return the activity coefficients.

        Parameters
        ----------
        x : array, shape (..., n)
            Mole fractions, >= 0, adding up to 1 in each composition. [mol/mol]
        temperature : array, shape (...)
            Temperature, > 0; broadcast against the compositions. [K]

        Returns
        -------
        array, shape (..., n)
            Activity coefficients. [-]

        Raises
        ------
        DomainError
            If the shapes do not fit or a number is outside its range (NaN included).
        """
        return np.exp(self.ln_coefficients(x, temperature))

    def _fractions(self, x: Floats) -> FloatArray:
        fractions = not_negative("x", x)
        if fractions.ndim == 0 or fractions.shape[-1] != self.size:
            raise DomainError("x", fractions.shape, f"(..., {self.size})")
        total = fractions.sum(axis=-1)
        within("sum of x", total, 1 - _TOLERANCE, 1 + _TOLERANCE)
        return fractions

    def _combinatorial(self, x: FloatArray) -> FloatArray:
        modified = self._r34 / (x @ self._r34)[..., None]
        shape = (self._r / self._q) * ((x @ self._q) / (x @ self._r))[..., None]
        size = 1 - modified + np.log(modified)
        return np.asarray(size - _HALF_Z * self._q * (1 - shape + np.log(shape)))

    def _psi(self, temperature: FloatArray) -> FloatArray:
        """Interaction of main groups at each temperature, shape (..., m, m)."""
        kelvin = temperature[..., None, None]
        return np.exp(-(self._a / kelvin + self._b + self._c * kelvin))

    def _residual(self, x: FloatArray, psi: FloatArray) -> FloatArray:
        """Sum of the groups' ln Gamma in the blend, for each constituent."""
        surfaces = x @ self._surfaces
        share = surfaces / surfaces.sum(axis=-1, keepdims=True)
        total = (share[..., :, None] * psi).sum(axis=-2)
        back = (psi * (share / total)[..., None, :]).sum(axis=-1)
        return np.asarray((1 - np.log(total) - back) @ self._surfaces.T)

    def _alone_logs(self, psi: FloatArray) -> FloatArray:
        """Sum of the groups' ln Gamma in each constituent alone.

        There the first and the last term of ln Gamma cancel in the sum over groups;
        logarithms are taken only of groups that the constituent has.
        """
        total = self._alone @ psi
        logs = np.log(total[..., self._held[0], self._held[1]])
        return np.asarray(-logs @ self._weights)


def _interaction(
    name: str, matrix: Floats, size: int, present: IndexArray
) -> FloatArray:
    """Return the rows and columns of the main groups that occur, all known."""
    values = np.asarray(matrix, dtype=np.float64)
    if values.shape != (size, size):
        raise DomainError(name, values.shape, f"({size}, {size})")
    return finite(
        f"{name} of every pair of main groups", values[np.ix_(present, present)]
    )


def uncovered_pairs(
    counts: Floats, main_group: npt.ArrayLike, a: Floats
) -> list[tuple[int, int]]:
    """Return the pairs of main groups that occur together without a parameter.

    Parameters
    ----------
    counts : array, shape (n, s)
        How often each group occurs in each constituent, >= 0. [-]
    main_group : array of int, shape (s,)
        Index of each group's main group.
    a : array, shape (m, m)
        Interaction of main groups, NaN where no parameter is published. [K]

    Returns
    -------
    list of (int, int)
        Index pairs, the lower one first: what to name when a blend is refused.

    Raises
    ------
    DomainError
        If a count is negative (NaN included).
    """
    groups = not_negative("counts", counts)
    mains = np.asarray(main_group, dtype=np.intp)
    known = np.isfinite(np.asarray(a, dtype=np.float64))
    present = np.unique(mains[groups.sum(axis=0) > 0]).tolist()
    return [
        (i, j)
        for i in present
        for j in present
        if i < j and not (known[i, j] and known[j, i])
    ]


def stands_above_one(x: Floats, ln_coefficients: Floats) -> BoolArray:
    r"""Say whether an activity stands above 1, so that the liquid must split.

    Parameters
    ----------
    x : array, shape (..., n)
        Mole fractions, >= 0. [mol/mol]
    ln_coefficients : array, shape (..., n)
        ln gamma at those fractions. [-]

    Returns
    -------
    array of bool, shape (...)
        True where :math:`x_i \gamma_i > 1` for some i: the constituent alone is more
        stable, so that one liquid cannot be. False does not prove that it is one.

    Raises
    ------
    DomainError
        If a number is outside its range (NaN included).

    Notes
    -----
    The condition of equilibrium between a solution and its constituent,
    source id ``poling-2000``, section 8-14. Valid for: any model of activity. Departs
    from the source in: it is used as a sufficient condition only.
    """
    activity = not_negative("x", x) * np.exp(finite("ln gamma", ln_coefficients))
    return np.asarray((activity > 1 + _TOLERANCE).any(axis=-1))
