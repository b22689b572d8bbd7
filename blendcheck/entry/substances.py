"""Everything that the tables say about a substance."""

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction
from functools import cache
from typing import Any, Final

from blendcheck import reference
from blendcheck.entry.laws import law_of
from blendcheck.entry.making import by_quantity, place_of, share_of
from blendcheck.entry.records import (
    Alert,
    Fit,
    GroupShown,
    InOil,
    Name,
    Part,
    Place,
    Share,
    Told,
)
from blendcheck.entry.whole import Structure, SubstanceEntry
from blendcheck.errors import InputError
from blendcheck.quantity import print_number, read_number
from blendcheck.reference import (
    Constituent,
    ConstituentWatch,
    OilComponent,
    Synonym,
    VapourFit,
    numbers_answering,
    rows_of,
)
from blendcheck.units import celsius_from_kelvin

__all__ = ["names_elsewhere", "substance_entry"]

_FORMULAS: Final = {
    "Antoine": "log p = a - b/(T + c)",
    "Wagner 3-6": "ln(p/pc) = (a x + b x^1.5 + c x^3 + d x^6)/Tr, x = 1 - Tr",
    "Wagner 2.5-5": "ln(p/pc) = (a x + b x^1.5 + c x^2.5 + d x^5)/Tr, x = 1 - Tr",
    "DIPPR 101": "ln p = a + b/T + c ln T + d T^e",
}
_LETTERS: Final = ("a", "b", "c", "d", "e", "t_c", "p_c", "log_base")
_NAMING: Final[tuple[Any, ...]] = (
    reference.IngredientLimit,
    reference.ExposureLimit,
    reference.IrritationPoint,
    reference.HazardClass,
    reference.Swallowing,
)
"""Tables that name substances which the table of constituents may not have."""


@cache
def names_elsewhere() -> Mapping[str, Mapping[str, Place]]:
    """Return the substances that only other tables than that of constituents name.

    Returns
    -------
    Mapping
        For each CAS number, or for each name where a row has no number, the names
        that are printed there and where each stands first.
    """
    named: list[tuple[str, str, Any]] = [
        (row.cas, row.substance, row) for table in _NAMING for row in rows_of(table)
    ]
    named += [(row.cas, row.label_name, row) for row in rows_of(reference.Allergen)]
    named += [(row.cas, row.constituent, row) for row in rows_of(OilComponent)]
    named += [(row.cas, row.name, row) for row in rows_of(ConstituentWatch)]
    known = reference.constituents()
    found: dict[str, dict[str, Place]] = {}
    for cas, name, row in named:
        if (cas or name) not in known:
            found.setdefault(cas or name, {}).setdefault(name, place_of(row))
    return found


def substance_entry(key: str) -> SubstanceEntry:
    """Return everything that the tables say about a substance.

    Parameters
    ----------
    key : str
        A CAS number; or, where the tables name a substance without one, the name
        that they print.

    Returns
    -------
    SubstanceEntry
        Nothing in it is of the maker's own lot.

    Raises
    ------
    InputError
        If no table speaks of it.

    Examples
    --------
    >>> entry = substance_entry("78-70-6")
    >>> entry.name, entry.structure.family
    ('linalool', 'monoterpene alcohols')
    >>> entry.properties[-1].name, entry.properties[-1].figures[0].printed
    ('vapour pressure', '27 Pa')
    """
    row = reference.constituents().get(key)
    elsewhere = names_elsewhere().get(key, {})
    if row is None and not elsewhere:
        raise InputError(
            f"no table has a substance {key}", "look it up by its name", code="unknown"
        )
    is_cas = row is not None or reference.check_digit_ok(key)
    numbers = numbers_answering(key) if is_cas else frozenset[str]()
    own = frozenset({key}) if is_cas else frozenset[str]()
    figures = (*reference.properties_of(key), *reference.vapour_pressures_of(key))
    return SubstanceEntry(
        cas=key if is_cas else None,
        name=row.name if row is not None else next(iter(elsewhere)),
        listed=row is not None,
        note="" if row is None else row.note,
        names=(
            *_names(key, row),
            *(Name(n, "named so elsewhere", p) for n, p in elsewhere.items()),
        ),
        numbers=tuple(_numbers(key)),
        structure=_structure(key, row),
        groups=tuple(_groups(key)),
        watch=tuple(_watch(key, numbers)),
        breathing=tuple(
            Told(why.name, why.says, None, place_of(why))
            for why in (reference.why_irritant(key) if is_cas else ())
        ),
        properties=by_quantity(figures),
        fits=tuple(_fit(fit) for fit in reference.vapour_fits_of(key)),
        in_oils=_in_oils(key, numbers, "" if is_cas else key),
        law=law_of(numbers, own, "" if is_cas else key),
    )


# -- names and groups --------------------------------------------------------


def _names(key: str, row: Constituent | None) -> Iterator[Name]:
    if row is not None and row.inci:
        place = Place(reference.source(row.inci_source_id), "", row.inci_tag, "")
        yield Name(row.inci, "INCI name", place)
    for synonym in rows_of(Synonym):
        if synonym.cas == key and synonym.kind != "other CAS for same":
            isomer = synonym.kind == "isomer"
            kind = "bare name, which may mean this isomer" if isomer else "synonym"
            yield Name(synonym.name, kind, place_of(synonym))


def _numbers(key: str) -> Iterator[Name]:
    for synonym in rows_of(Synonym):
        if synonym.cas == key and synonym.kind == "other CAS for same":
            yield Name(synonym.name, "other number of the same", place_of(synonym))
    for group in reference.groups_of(key):
        if group.cas and group.cas != key:
            member = next(
                (each for each in group.members if each.member_cas == key),
                group.members[0],
            )
            kind = f"number of the group {group.name}"
            yield Name(group.cas, kind, place_of(member))


def _name_of(cas: str) -> str:
    row = reference.constituents().get(cas)
    if row is not None:
        return row.name
    return next(iter(names_elsewhere().get(cas, {})), cas)


def _groups(key: str) -> Iterator[GroupShown]:
    for group in reference.groups_of(key):
        parts = (
            Part(
                each.member_cas,
                _name_of(each.member_cas),
                each.relation,
                place_of(each),
            )
            for each in group.members
        )
        yield GroupShown(group.name, group.cas, tuple(parts))


# -- structure ---------------------------------------------------------------


def _structure(key: str, row: Constituent | None) -> Structure:
    family = reference.family_of(key)
    alerts = reference.alerts_of(key)
    return Structure(
        smiles="" if row is None else row.smiles,
        drawn="none" if row is None else row.drawn,
        formula="" if row is None else row.formula,
        molar_mass=""
        if row is None or not row.molar_mass
        else f"{row.molar_mass} {row.molar_mass_unit}",
        place=None if row is None else place_of(row),
        family=family,
        family_rules=tuple(
            Told(rule.family, rule.rule, None, place_of(rule))
            for rule in (reference.family_rules(family) if family else ())
        ),
        functional_groups=reference.functional_groups_of(key),
        alerts=None
        if alerts is None
        else tuple(Alert(a.alert, a.domain, a.says, place_of(a)) for a in alerts),
        air_oxidisable=reference.is_air_oxidisable(key),
        air_oxidation=tuple(
            Told("left in air", each.says, None, place_of(each))
            for each in reference.air_oxidation_of(key)
        ),
    )


# -- cautions ----------------------------------------------------------------


def _watch(key: str, numbers: frozenset[str]) -> Iterator[Told]:
    for row in rows_of(ConstituentWatch):
        if row.cas in numbers | {key}:
            yield Told(row.concern, row.says, None, place_of(row))
    for caution in reference.watch_for_cas(key) if numbers else ():
        yield Told(caution.reason, caution.says, None, place_of(caution))


# -- vapour ------------------------------------------------------------------


def _fit(fit: VapourFit) -> Fit:
    low, high = (
        print_number(celsius_from_kelvin(read_number(end)))
        for end in (fit.t_min_k, fit.t_max_k)
    )
    return Fit(
        equation=fit.equation,
        formula=f"{_FORMULAS[fit.equation]}, p in {fit.pressure_unit}, "
        f"T in {fit.temperature_unit}",
        coefficients={
            letter: getattr(fit, letter) for letter in _LETTERS if getattr(fit, letter)
        },
        valid=f"{low} to {high} °C",
        place=place_of(fit),
    )


# -- oils --------------------------------------------------------------------


def _in_oils(key: str, numbers: frozenset[str], name: str) -> tuple[InOil, ...]:
    """Return the oils that contain it, its isomers, or what it is an isomer of."""
    counted = numbers | reference.members_of(key)
    named = reference.normal_name(name)

    def meant(row: OilComponent) -> bool:
        if row.cas:
            return row.cas in counted
        return bool(named) and reference.normal_name(row.constituent) == named

    rows: dict[str, list[OilComponent]] = {}
    for row in rows_of(OilComponent):
        if meant(row):
            rows.setdefault(row.oil, []).append(row)
    found = (
        InOil(oil, reference.oil(oil).name, _shares(each)) for oil, each in rows.items()
    )
    return tuple(sorted(found, key=_most_first))


def _most_first(found: InOil) -> Fraction:
    spans = (share.figure.range for share in found.shares)
    ends = (span.high for span in spans if span is not None)
    return -max((end for end in ends if end is not None), default=Fraction(0))


def _shares(rows: Iterable[OilComponent]) -> tuple[Share, ...]:
    """Return the shares, those that were read first."""
    shares = [share_of(row) for row in rows]
    return tuple(sorted(shares, key=lambda share: share.figure.place.from_memory))
