"""Limits for alcohol vapour at work, and the air just above a wet tray."""

from dataclasses import dataclass
from typing import Final

from blendcheck import reference
from blendcheck.equations.constants import ATMOSPHERE, ZERO_CELSIUS
from blendcheck.estimates.pressures import pressure_of
from blendcheck.quantity import print_estimate
from blendcheck.reference import Datum

__all__ = ["Cloud", "Limit", "cloud_over", "limits_for"]

_PPM: Final = 1e6
_TENTH: Final = 0.1


@dataclass(frozen=True, slots=True)
class Limit:
    """A limit for workers, or the tenth of an explosive limit.

    Parameters
    ----------
    says : str
        Whose it is and what it averages over.
    ppm : float
        The limit. [ppm]
    source : str
        Source id.
    tag : {"seen", "memory"}
        Whether somebody read it there.
    """

    says: str
    ppm: float
    source: str
    tag: str


@dataclass(frozen=True, slots=True)
class Cloud:
    """The air just above the wet tray.

    Parameters
    ----------
    saturated : float or None
        Share of vapour over pure alcohol at the room's temperature. [% v/v]
    lower, upper : float or None
        Explosive limits. [% v/v]
    flash_point : float or None
        Closed cup. [°C]
    lines, sources : tuple of str
        Figures and their sources.
    """

    saturated: float | None
    lower: float | None
    upper: float | None
    flash_point: float | None
    celsius: float
    lines: tuple[str, ...]
    sources: tuple[str, ...]

    @property
    def can_light(self) -> bool | None:
        """Whether it can be lit at that temperature; ``None`` if it is not known."""
        if self.flash_point is not None and self.celsius >= self.flash_point:
            return True
        if self.saturated is None or self.lower is None:
            return None
        return self.saturated >= self.lower


def limits_for(cas: str) -> tuple[Limit, ...]:
    """Return the lowest limits for workers that were read, and the fire level.

    Parameters
    ----------
    cas : str
        Which alcohol.

    Returns
    -------
    tuple of Limit
        Short-term, 8 h average, and a tenth of the lower explosive limit; one from
        memory only where none was read. Limits that were replaced are left out.
    """
    found = []
    for quantity in ("short-term, 15 min", "average, 8 h"):
        rows = [
            row
            for row in reference.air_limits_of(cas)
            if row.quantity == quantity
            and row.unit == "ppm"
            and "replaced" not in row.conditions
            and not row.superseded_on
        ]
        rows.sort(key=lambda row: (row.tag == "memory", float(row.value)))
        if rows:
            first = rows[0]
            found.append(
                Limit(
                    f"{first.issued_by} ({first.jurisdiction}), {quantity}",
                    float(first.value),
                    first.source_id,
                    first.tag,
                )
            )
    lower = reference.properties_of(cas, "lower flammable limit")
    share = _number(lower)
    if share is not None:
        found.append(
            Limit(
                f"10 % of the lower explosive limit, {lower[0].printed}",
                share / 100 * _PPM * _TENTH,
                lower[0].source_id,
                lower[0].tag,
            )
        )
    return tuple(found)


def _number(found: tuple[Datum, ...]) -> float | None:
    """Return the preferred figure; ``None`` where none was read."""
    value = found[0].value if found else None
    return None if value is None else float(value)


def cloud_over(cas: str, celsius: float) -> Cloud:
    """Return what the air right above an alcohol can hold.

    Parameters
    ----------
    cas : str
        Which alcohol, taken as without water: with water there is less.
    celsius : float
        Temperature of the tray, finite. [°C]

    Returns
    -------
    Cloud
        With explosive limits and flash point, where they were read.
    """
    lower = reference.properties_of(cas, "lower flammable limit")
    upper = reference.properties_of(cas, "upper flammable limit")
    flash = reference.properties_of(cas, "flash point")
    pressure = pressure_of(cas, celsius)
    kelvin = _number(flash)
    saturated = None if pressure is None else 100 * pressure.pascals / ATMOSPHERE
    lines, sources = [], dict[str, None]()
    if pressure is not None and saturated is not None:
        share = print_estimate(saturated, digits=2)
        lines += [pressure.says, f"÷ 101325 Pa = {share} % v/v above the liquid"]
        sources.update(dict.fromkeys(pressure.sources))
    for found in (lower, upper, flash):
        if found:
            lines.append(f"{found[0].quantity} {_printed(found[0])}")
            sources.setdefault(found[0].source_id)
    return Cloud(
        saturated,
        _number(lower),
        _number(upper),
        None if kelvin is None else kelvin - ZERO_CELSIUS,
        celsius,
        tuple(lines),
        tuple(sources),
    )


def _printed(datum: Datum) -> str:
    """Return a figure as printed; a temperature in degrees Celsius first."""
    if datum.unit != "K" or datum.value is None:
        return datum.printed
    celsius = print_estimate(float(datum.value) - ZERO_CELSIUS, digits=3)
    return f"{celsius} °C (printed: {datum.printed})"
