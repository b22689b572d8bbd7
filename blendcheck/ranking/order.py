"""An order of recipes, or the reason why there is none.

Grams released in full decide exactly; the estimate with transfer must agree over the
whole of its range, at every setting of the grid. What was not marked or not documented
is never called lower.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from itertools import combinations
from typing import TYPE_CHECKING, Final, Literal

from blendcheck.assess import Assessment
from blendcheck.checks.contents import undocumented
from blendcheck.checks.marked import Marked, marked_in, of_all
from blendcheck.errors import DomainError
from blendcheck.interval import Range
from blendcheck.quantity import print_range
from blendcheck.ranking.difference import Difference, Ends, difference
from blendcheck.ranking.forms import Form, Shelves, form_of
from blendcheck.ranking.names import told_apart
from blendcheck.records.finding import Say

if TYPE_CHECKING:
    from blendcheck.estimates.setting import ShowerSetting
    from blendcheck.ranking.views import Views

__all__ = ["Pair", "Ranking", "rank"]

Per = Literal["piece", "use"]

_ZERO: Final = Fraction(0)


@dataclass(frozen=True, slots=True)
class Pair:
    """Two recipes, and which of them has less.

    Parameters
    ----------
    first, second : int
        Their places.
    lower : int or None
        The place of the one with less; ``None`` where no order holds.
    alike : bool
        Whether both have the very same load, whatever is unknown.
    grams : Range or None
        How much more the first has than the second, released in full. [g]
    why : Say
        The order, or the reason for none.
    """

    first: int
    second: int
    lower: int | None
    alike: bool
    grams: Range | None
    why: Say


@dataclass(frozen=True, slots=True)
class Ranking:
    """Recipes by their irritant load, in one piece or in one use.

    Parameters
    ----------
    per : {"piece", "use"}
        What is compared.
    pairs : tuple of Pair
        Every two recipes that can be compared at all.
    apart : mapping of int to Say
        Recipes that cannot, with the reason.
    order : tuple of int, or None
        All of the others from least to most, where every pair has an order.
    settings : tuple of str
        The settings at which the estimate with transfer was asked.
    """

    per: Per
    pairs: tuple[Pair, ...]
    apart: Mapping[int, Say]
    order: tuple[int, ...] | None
    settings: tuple[str, ...]


def rank(
    assessments: Sequence[Assessment], marks: Sequence[Marked] | None = None
) -> tuple[Ranking, Ranking]:
    """Rank recipes by what is marked as irritating to breathe.

    Parameters
    ----------
    assessments : sequence of Assessment
        The checks, at least two.
    marks : sequence of Marked, optional
        What is marked in each, where it was collected already.

    Returns
    -------
    (Ranking, Ranking)
        For one piece and for one use. The setting is the shower of the first
        recipe's workshop, the same for all.

    Notes
    -----
    An order is stated only if it holds for everything that is unknown, by grams
    released in full and by everything that may leave
    (:func:`~blendcheck.estimates.released.released`), at every setting of
    :func:`~blendcheck.estimates.setting.grid_of`. What leaves of a constituent is the
    same in all recipes. Area % may be a tenth off.
    """
    if marks is None:
        marks = [marked_in(one.totals) for one in assessments]
    shelves = Shelves()
    names = told_apart([one.case.recipe.name for one in assessments])
    forms: dict[int, Form] = {}
    apart: dict[int, Say] = {}
    together = of_all(marks)
    for n, (one, own) in enumerate(zip(assessments, marks, strict=True)):
        why = _why_apart(one, own, names[n])
        form = form_of(one, together[n], n, shelves) if why is None else None
        if why is not None or form is None:
            apart[n] = why or Say("compare.no-piece", {"recipe": names[n]})
        else:
            forms[n] = form
    views = _views(assessments, forms) if len(forms) > 1 else None
    return (
        _ranking("piece", names, forms, apart, views),
        _ranking("use", names, forms, apart, views),
    )


def _why_apart(one: Assessment, own: Marked, name: str) -> Say | None:
    """Say why a recipe is not comparable with any other."""
    blind = undocumented(one.case)
    if blind:
        values = {"recipe": name, "materials": ", ".join(blind)}
        return Say("compare.undocumented", values)
    if own.nothing:
        return Say("compare.nothing-marked", {"recipe": name})
    if one.totals.piece_mass is None:
        return Say("compare.no-piece", {"recipe": name})
    if one.case.recipe.product != "shower tablet":
        product = one.case.recipe.product
        return Say("compare.no-estimate", {"recipe": name, "product": product})
    return None


# -- the estimate with transfer -----------------------------------------------


def _views(assessments: Sequence[Assessment], forms: Mapping[int, Form]) -> "Views":
    """Return what leaves of each component, in every state at every setting."""
    from blendcheck.estimates.scent import scent_of
    from blendcheck.estimates.setting import setting_of
    from blendcheck.estimates.shower import gas_for

    names = {
        part.identity
        for form in forms.values()
        for lot, _ in form.lots.values()
        for part in lot.contents
        if part.identity
    }
    first = assessments[0]
    setting = setting_of(first.case.materials.workshop.shower)
    gas = 0.0
    for n in forms:
        scent = scent_of(assessments[n].totals)
        if scent is not None:
            gas = max(gas, gas_for(scent.gas_g, scent.load.low, setting))
    return _cached(tuple(sorted(names)), setting, gas)


@lru_cache(maxsize=64)
def _cached(names: tuple[str, ...], setting: "ShowerSetting", gas: float) -> "Views":
    """Work it out once for the same shower."""
    from blendcheck.estimates.released import released
    from blendcheck.ranking.views import Views

    return Views(released(names, setting, gas))


# -- pairs --------------------------------------------------------------------


def _ranking(
    per: Per,
    names: Sequence[str],
    forms: Mapping[int, Form],
    apart: Mapping[int, Say],
    views: "Views | None",
) -> Ranking:
    pairs = []
    for first, second in combinations(forms, 2):
        called, places = (names[first], names[second]), (first, second)
        try:
            found = difference(forms[first], forms[second], use=per == "use")
        except DomainError:
            values = {"one": called[0], "other": called[1]}
            why = Say("compare.not-bounded", values)
            pairs.append(Pair(*places, None, alike=False, grams=None, why=why))
            continue
        pairs.append(_pair(found, views, places, called, per))
    asked = () if views is None else views.settings
    return Ranking(per, tuple(pairs), apart, _chain(forms, pairs), asked)


def _pair(
    found: Difference,
    views: "Views | None",
    places: tuple[int, int],
    names: tuple[str, str],
    per: Per,
) -> Pair:
    full = found.in_full()
    grams = found.grams(full)
    values = {"one": names[0], "other": names[1], "per": per}
    if full == (_ZERO, _ZERO):
        why = Say("compare.alike", values)
        return Pair(*places, None, alike=True, grams=grams, why=why)
    side, weighed = _side(full), found.by_weight()
    if side is None or side != _side(weighed.in_full()):
        values["grams"] = print_range(grams, "g", digits=2)
        why = Say("compare.open" if side is None else "compare.by-area", values)
        return Pair(*places, None, alike=False, grams=grams, why=why)
    against = () if views is None else views.against(weighed, side)
    lower = places[1] if side > 0 else places[0]
    values["less"] = names[1] if side > 0 else names[0]
    values["more"] = names[0] if side > 0 else names[1]
    if against:
        values["settings"] = _few(against)
        why = Say("compare.views-differ", values)
        return Pair(*places, None, alike=False, grams=grams, why=why)
    span = grams if side > 0 else Range(-(grams.high or _ZERO), -(grams.low or _ZERO))
    values["grams"] = print_range(span, "g", digits=2)
    return Pair(
        *places, lower, alike=False, grams=grams, why=Say("compare.less", values)
    )


def _few(settings: Sequence[str]) -> str:
    """Name some settings, and count the others."""
    most = 3
    named = "; ".join(settings[:most])
    more = len(settings) - most
    return named if more <= 0 else f"{named} and {more} more"


def _side(ends: Ends) -> int | None:
    """Return 1 if the first has more everywhere, -1 if the second has."""
    if ends[0] > 0:
        return 1
    return -1 if ends[1] < 0 else None


def _chain(forms: Mapping[int, Form], pairs: Sequence[Pair]) -> tuple[int, ...] | None:
    """Put all recipes in order, where every pair has one."""
    if len(forms) < 2 or any(pair.lower is None for pair in pairs):
        return None
    wins = dict.fromkeys(forms, 0)
    for pair in pairs:
        if pair.lower is not None:
            wins[pair.lower] += 1
    order = tuple(sorted(forms, key=lambda n: -wins[n]))
    return order if len(set(wins.values())) == len(wins) else None
