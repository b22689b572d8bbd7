"""Carbon dioxide of a fizzing piece: how much, where it goes, what is left over.

Bicarbonate and the acids are found by CAS number among all lots of a recipe. The
acid or the bicarbonate, whichever runs out first, limits the gas; all carbon of the
bicarbonate is the bound above it.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Final, Literal

import numpy as np

from blendcheck import reference
from blendcheck.blend.totals import SubjectTotal, Totals
from blendcheck.equations.fizz import (
    ACIDS,
    BICARBONATE,
    CARBON_DIOXIDE,
    Fizz,
    fizz,
    gas_volume,
)
from blendcheck.errors import DomainError
from blendcheck.estimates.fizz_powders import not_reckoned, not_told, powders_of
from blendcheck.estimates.setting import ShowerSetting, setting_of
from blendcheck.interval import Range
from blendcheck.quantity import Mark, print_estimate
from blendcheck.records.estimate import Estimate
from blendcheck.records.material import Material

__all__ = ["FizzEstimate", "Rinse", "fizz_of"]

Rinse = Literal["acid", "alkaline", "neither", "either", "no acid", "not known"]

_IN_THE_SHOWER: Final = frozenset({"shower tablet"})
_IN_THE_BATH: Final = frozenset({"bath fizz"})
_PPM: Final = 1e6
_LITRES: Final = 1000.0
_TWO: Final = 2
_HUNDRED: Final = 100
_CO2: Final = "124-38-9"


@dataclass(frozen=True, slots=True)
class FizzEstimate:
    """What a fizzing piece gives off in one use.

    Parameters
    ----------
    estimates : tuple of Estimate
        ``co2`` and ``bound`` [g], ``stall`` and ``bathroom`` [ppm above what is
        there], ``bicarbonate-left`` and ``acid-left`` [g].
    rinse : {"acid", "alkaline", "neither", "either", "no acid", "not known"}
        What the rinse is in the end; not known while something may be an acid.
    limits : tuple of (str, float, str)
        Limits for workers on carbon dioxide: whose, how much [ppm], source id.
    not_told : tuple of str
        Powders without a CAS number: any of them may be an acid or bicarbonate.
    not_reckoned : tuple of str
        Other acids and carbonates, of which nothing is worked out.
    setting : ShowerSetting or None
        The rooms; ``None`` where no piece dissolves in a shower or a bath.
    """

    estimates: tuple[Estimate, ...]
    rinse: Rinse
    limits: tuple[tuple[str, float, str], ...]
    not_told: tuple[str, ...]
    not_reckoned: tuple[str, ...]
    setting: ShowerSetting | None

    def estimate(self, what: str) -> Estimate | None:
        """Return one of the estimates by the end of its name."""
        return next((e for e in self.estimates if e.name.endswith(f".{what}")), None)


def fizz_of(totals: Totals) -> FizzEstimate | None:
    """Estimate the carbon dioxide of one use, and what is left over.

    Parameters
    ----------
    totals : Totals
        Totals of a recipe.

    Returns
    -------
    FizzEstimate or None
        ``None`` without bicarbonate. Without a piece mass the whole batch is used.
        While a powder may be an acid, the gas is a range up to its bound.

    Notes
    -----
    Grams as :func:`blendcheck.equations.fizz.fizz`. Concentrations take all of the
    gas as mixed into the room and none of it as carried away: the highest that
    can be there on average. In a shower the running water takes a part of it down
    the drain.
    """
    bases, acids = powders_of(totals)
    if not bases:
        return None
    base = _grams(totals, "bicarbonate", bases)
    parts = {name: _grams(totals, name, materials) for name, materials in acids.items()}
    untold, others = not_told(totals), not_reckoned(totals)
    found = _ends(base, parts)
    if untold or others:
        found = found.opened()
    lines = _lines(base, parts, found)
    product = totals.recipe.product
    setting = None
    if product in _IN_THE_SHOWER | _IN_THE_BATH:
        setting = setting_of(totals.materials.workshop.shower)
    made = [
        _estimate("co2", "carbon dioxide in one use", "g", found.gas, lines),
        _estimate(
            "bound",
            "carbon dioxide if all the bicarbonate gives its own",
            "g",
            found.bound,
            (f"{_span(base)} g × {_ratio()} = {_span(found.bound)} g",),
        ),
        _estimate(
            "bicarbonate-left", "bicarbonate left over", "g", found.base_left, lines
        ),
    ]
    if not found.is_open:
        made.append(
            _estimate("acid-left", "acid left over", "g", found.acid_left, lines)
        )
    if setting is not None:
        made += _in_rooms(found.gas, found.bound, setting, product in _IN_THE_SHOWER)
    return FizzEstimate(tuple(made), found.rinse, _limits(), untold, others, setting)


# -- grams --------------------------------------------------------------------


def _grams(
    totals: Totals, name: str, materials: tuple[Material, ...]
) -> tuple[float, float]:
    """Return the grams of one use, of the finished piece."""
    ids = {material.id for material in materials}
    total: SubjectTotal = totals.kinds(f"fizz {name}", lambda one: one.id in ids)
    step = totals.per_use(total) or totals.batch_grams(total)
    return _floats(totals.working.range(step))


def _floats(span: Range) -> tuple[float, float]:
    if span.low is None or span.high is None:
        raise DomainError("grams", "unbounded", "bounded")
    return float(span.low), float(span.high)


@dataclass(frozen=True, slots=True)
class _Found:
    gas: tuple[float, float]
    bound: tuple[float, float]
    base_left: tuple[float, float]
    acid_left: tuple[float, float]
    no_acid: bool
    is_open: bool = False

    def opened(self) -> "_Found":
        """Return what holds while more of it may be an acid, or bicarbonate."""
        return replace(
            self,
            gas=(self.gas[0], self.bound[1]),
            base_left=(0.0, self.base_left[1]),
            is_open=True,
        )

    @property
    def rinse(self) -> Rinse:
        if self.is_open:
            return "not known"
        if self.no_acid:
            return "no acid"
        if self.base_left[0] > 0:
            return "alkaline"
        if self.acid_left[0] > 0:
            return "acid"
        if self.base_left[1] > 0 or self.acid_left[1] > 0:
            return "either"
        return "neither"


def _ends(
    base: tuple[float, float], acids: Mapping[str, tuple[float, float]]
) -> _Found:
    """Work out all four corners: the gas rises with both, what is left with one."""

    def at(which: int, other: int) -> Fizz:
        return fizz(base[which], {name: part[other] for name, part in acids.items()})

    low, high = at(0, 0), at(1, 1)
    most_base, most_acid = at(1, 0), at(0, 1)
    return _Found(
        (float(low.carbon_dioxide), float(high.carbon_dioxide)),
        (float(low.upper_bound), float(high.upper_bound)),
        (_tiny(most_acid.bicarbonate_left), _tiny(most_base.bicarbonate_left)),
        (_acid(most_base), _acid(most_acid)),
        no_acid=not any(high for _, high in acids.values()),
    )


def _tiny(grams: np.ndarray) -> float:
    """Return grams, a remainder of rounding as none."""
    return float(grams) if float(grams) > 1e-9 else 0.0


def _acid(found: Fizz) -> float:
    return _tiny(np.asarray(sum(float(g) for g in found.acid_left.values())))


# -- concentrations -----------------------------------------------------------


def _in_rooms(
    gas: tuple[float, float],
    bound: tuple[float, float],
    setting: ShowerSetting,
    in_the_stall: bool,  # noqa: FBT001
) -> list[Estimate]:
    rooms = [("bathroom", "bathroom", setting.bathroom_m3 + setting.stall_m3)]
    if in_the_stall:
        rooms.insert(0, ("stall", "stall", setting.stall_m3))
    made = []
    for name, says, volume in rooms:
        ends = tuple(_ppm(grams, volume, setting.kelvin) for grams in
                     (gas[0], gas[1], bound[1]))  # fmt: skip
        litres = print_estimate(_volume(gas[1], setting.kelvin), digits=2)
        line = (
            f"{_span(gas)} g, {litres} L at {print_estimate(setting.water_c, digits=2)}"
            f" °C, in {print_estimate(volume, digits=2)} m³ = "
            f"{print_estimate(ends[1], digits=2)} ppm; with all the carbon "
            f"{print_estimate(ends[_TWO], digits=2)} ppm"
        )
        made.append(
            Estimate(
                f"carbon-dioxide.{name}",
                f"carbon dioxide in the {says}, if none of it is carried away",
                "ppm",
                ends[1] if gas[0] == gas[1] else None,
                0.0,
                ends[_TWO],
                2,
                (line, *setting.lines()[:_TWO]),
                setting.sources,
                setting.marks,
            )
        )
    return made


def _volume(grams: float, kelvin: float) -> float:
    return float(gas_volume(grams, temperature=kelvin))


def _ppm(grams: float, cubic_metres: float, kelvin: float) -> float:
    return _PPM * _volume(grams, kelvin) / (cubic_metres * _LITRES)


def _limits() -> tuple[tuple[str, float, str], ...]:
    """Return the lowest limits for workers and the levels for rooms that were read."""
    wanted = ("average, 8 h", "short-term, 15 min", "indoor air, unacceptable")
    found = []
    for quantity in wanted:
        rows = [
            row
            for row in reference.air_limits_of(_CO2)
            if row.quantity == quantity and row.tag == "seen" and row.unit == "ppm"
        ]
        if rows:
            first = min(rows, key=lambda row: float(row.value))
            whose = f"{first.issued_by} ({first.jurisdiction}), {quantity}"
            found.append((whose, float(first.value), first.source_id))
    return tuple(found)


# -- words --------------------------------------------------------------------


def _ratio() -> str:
    """Return the masses of gas and bicarbonate of which they are a ratio."""
    return f"{_mass(CARBON_DIOXIDE)} ÷ {_mass(BICARBONATE)}"


def _mass(number: float) -> str:
    """Print a molar mass with three decimals."""
    return print_estimate(number, digits=5 if number < _HUNDRED else 6)


def _span(span: tuple[float, float]) -> str:
    low, high = (print_estimate(end, digits=3) for end in span)
    return low if low == high else f"{low} to {high}"


def _lines(
    base: tuple[float, float],
    acids: Mapping[str, tuple[float, float]],
    found: _Found,
) -> tuple[str, ...]:
    molar = (base[0] / BICARBONATE, base[1] / BICARBONATE)
    lines = [
        f"bicarbonate {_span(base)} g ÷ {_mass(BICARBONATE)} g/mol = {_span(molar)} mol"
    ]
    for name, part in acids.items():
        acid = ACIDS[name]
        moles = tuple(end / acid.molar_mass * acid.protons for end in part)
        lines.append(
            f"{name} {_span(part)} g ÷ {_mass(acid.molar_mass)} g/mol "
            f"× {acid.protons} = "
            f"{_span((moles[0], moles[1]))} mol"
        )
    lines.append(
        f"the smaller × {_mass(CARBON_DIOXIDE)} g/mol = {_span(found.gas)} g of carbon "
        "dioxide"
    )
    return tuple(lines)


def _estimate(
    name: str,
    says: str,
    unit: str,
    ends: tuple[float, float],
    lines: tuple[str, ...],
) -> Estimate:
    low, high = ends
    return Estimate(
        f"carbon-dioxide.{name}",
        says,
        unit,
        low if low == high else None,
        low,
        high,
        3,
        lines,
        ("citric-bicarbonate-stoichiometry", "ciaaw-2021"),
        frozenset({Mark.ESTIMATED}),
    )
