"""From an amount as written to grams, through units, densities and measures."""

from fractions import Fraction

from blendcheck.errors import InputError
from blendcheck.interval import Range
from blendcheck.quantity import Amount, Density, Mark
from blendcheck.records.mass import Key, key_of
from blendcheck.records.material import Material
from blendcheck.records.working import Figure, Id, Working
from blendcheck.units import GRAMS_PER, MILLILITRES_PER

__all__ = ["grams_of"]

DROPS_IN_ML = (20, 40)
"""Drops in one millilitre, low and high: a range seen in studies of droppers and
common practice at the bench, never a unit."""


def grams_of(
    amount: Amount,
    material: Material | None,
    lot: str | None,
    where: str,
    says: str,
    working: Working,
) -> Id:
    """Work an amount out in grams.

    Parameters
    ----------
    amount : Amount
        A mass, a volume or a count.
    material : Material or None
        What is measured; ``None`` for a stock blend or a piece, which are weighed.
    lot : str or None
        Its lot.
    where : str
        Place in the recipe, for messages and ids.
    says : str
        Name for the steps.
    working : Working
        Where figures and steps are kept.

    Returns
    -------
    Id
        The step of the mass. [g]

    Raises
    ------
    InputError
        If the amount has no upper end, or grams cannot be had from it.
    """
    if amount.number.low is None or amount.number.high is None:
        raise InputError(
            f'"{amount.printed}" has no upper or no lower end',
            "write how much it is",
            where=where,
            code="amount-open",
        )
    number = working.add(
        Figure(
            key_of("amount", where),
            amount.printed,
            amount.number,
            amount.unit,
            f"{says}, as written",
        )
    )
    factors: tuple[Id | Key, ...]
    if amount.kind == "mass":
        factors = () if amount.unit == "g" else (_unit(amount.unit, working),)
    elif material is not None and amount.unit in material.weighed:
        factors = (_measure(amount.unit, material, working),)
    elif amount.kind == "volume":
        density = _density(material, lot, where, says, working)
        factors = (_volume(amount.unit, working), density)
    else:
        factors = (_count(amount.unit, material, lot, where, says, working),)
    if not factors:
        return Id(number)
    return working.work(
        f"grams/{where}",
        "product",
        (number, *factors),
        unit="g",
        says=f"{says}, weighed",
    ).id


def _unit(unit: str, working: Working) -> Key:
    return working.add(
        Figure(
            Key(f"unit/{unit}"),
            f"grams in 1 {unit}",
            Range.at(GRAMS_PER[unit]),
            "g",
            f"grams in 1 {unit}",
            document="NIST SP 811",
        )
    )


def _volume(unit: str, working: Working) -> Key:
    return working.add(
        Figure(
            Key(f"unit/{unit}"),
            f"millilitres in 1 {unit}",
            Range.at(MILLILITRES_PER[unit]),
            "mL",
            f"millilitres in 1 {unit}",
            document="NIST SP 811",
        )
    )


def _measure(unit: str, material: Material, working: Working) -> Key | Id:
    weighed = material.weighed[unit]  # type: ignore[index]
    if weighed.kind != "mass" or weighed.number.high is None:
        raise InputError(
            f'the {unit} of {material.name} is "{weighed.printed}"',
            "weigh one and write it in grams",
            code="measure-mass",
        )
    key = working.add(
        Figure(
            key_of("measure", material.id, unit),
            weighed.printed,
            weighed.number,
            weighed.unit,
            f"one {unit} of {material.name}, weighed",
        )
    )
    if weighed.unit == "g":
        return key
    return working.work(
        key_of("measure", material.id, unit, "g"),
        "product",
        (key, _unit(weighed.unit, working)),
        unit="g",
        says=f"one {unit} of {material.name}",
    ).id


def _known_density(material: Material | None, lot: str | None) -> Density | None:
    if material is None:
        return None
    own = next((one.density for one in material.lot if one.lot == lot), None)
    return own or material.density


def _density(
    material: Material | None, lot: str | None, where: str, says: str, working: Working
) -> Key:
    density = _known_density(material, lot)
    if material is None or density is None:
        raise InputError(
            f"{says} is measured by volume but its density is not entered",
            "weigh it, or enter the density from the supplier's paper",
            where=where,
            code="density-missing",
        )
    marks = {Mark.PUBLISHED_NOT_LOT} if material.density_is_published else set()
    return working.add(
        Figure(
            key_of("density", material.id, lot),
            density.printed,
            density.range,
            "g/mL",
            f"density of {material.name}",
            marks=frozenset(marks),
        )
    )


def _count(
    unit: str,
    material: Material | None,
    lot: str | None,
    where: str,
    says: str,
    working: Working,
) -> Id:
    if unit != "drop" or material is None or _known_density(material, lot) is None:
        also = " or enter its density" if unit == "drop" else ""
        raise InputError(
            f"a {unit} of {says} has not been weighed",
            f"weigh one (better: twenty of them, divided by twenty){also}",
            where=where,
            code="measure-unweighed",
        )
    few, many = DROPS_IN_ML
    volume = working.add(
        Figure(
            key_of("drop-volume", material.id),
            f"{few} to {many} drops in 1 mL",
            Range(Fraction(1, many), Fraction(1, few)),
            "mL",
            f"volume of one drop of {material.name}, not weighed",
            marks=frozenset({Mark.DROPS, Mark.ESTIMATED}),
        )
    )
    density = _density(material, lot, where, says, working)
    return working.work(
        key_of("drop", material.id, lot),
        "product",
        (volume, density),
        unit="g",
        says=f"one drop of {material.name}, estimated",
    ).id
