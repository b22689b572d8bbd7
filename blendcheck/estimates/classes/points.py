"""What is known of the toxicity of a part: a printed figure, or its class as a point.

Method: Regulation (EC) No 1272/2008, Annex I, Tables 3.1.1 and 3.1.2. Where a paper's
own class is more severe than its figure, everything between the two may hold.
"""

from dataclasses import dataclass
from fractions import Fraction

from blendcheck.blend.printed import operand
from blendcheck.estimates.classes.limits import Limit, limit_of
from blendcheck.estimates.classes.model import Profile, Scheme
from blendcheck.interval import Range
from blendcheck.quantity.hazard_figures import ROUTE_UNITS, Route, Toxicity
from blendcheck.quantity.hazards import route_of

__all__ = ["Known", "Scale", "class_of", "known_of", "scale_of", "side_of"]

ZERO = Fraction(0)
_INHALED: tuple[Route, ...] = ("gas", "vapour", "dust and mist")
_SIDE = {"oral": "oral", "dermal": "dermal"}


def side_of(route: Route) -> str:
    """Return the route as a class names it: oral, dermal or inhalation.

    Parameters
    ----------
    route : str
        One of :data:`~blendcheck.quantity.hazard_figures.ROUTE_UNITS`.
    """
    return _SIDE.get(route, "inhalation")


@dataclass(frozen=True, slots=True)
class Known:
    """A figure of one profile by one route, or that it does not count.

    Unit of the route. ``category`` is that of the class or of the figure; ``None``
    above all of them.
    """

    figure: Range | None
    says: str
    documented: bool = True
    category: int | None = None


@dataclass(frozen=True, slots=True)
class Scale:
    """Category limits of a route, most severe first."""

    route: Route
    limits: tuple[Limit, ...]

    @property
    def top(self) -> Fraction:
        """Figure above which nothing counts."""
        return self.limits[-1].value

    @property
    def severe(self) -> Fraction:
        """Figure up to which a constituent counts at any share (categories 1 to 3)."""
        return self.limits[2].value

    def category(self, figure: Fraction) -> int | None:
        """Return the category of an estimate; ``None`` above all.

        Parameters
        ----------
        figure : Fraction
            The estimate, in the unit of the route.
        """
        for n, limit in enumerate(self.limits, start=1):
            if figure <= limit.value:
                return n
        return None


def scale_of(route: Route, scheme: Scheme) -> Scale:
    """Return the category limits of a route.

    Parameters
    ----------
    route : str
        One of :data:`~blendcheck.quantity.hazard_figures.ROUTE_UNITS`.
    scheme : Scheme
        By whose rules; the UN has a category 5 by mouth and through the skin.
    """
    rule = f"{route}: estimate at or below"
    limits = [limit_of(f"Acute Tox. {n}", rule) for n in (1, 2, 3, 4)]
    if scheme.category_5 and route in ("oral", "dermal"):
        limits.append(limit_of("Acute Tox. 5", rule, "UN GHS"))
    return Scale(route, tuple(limits))


def known_of(profile: Profile, scale: Scale) -> Known | None:
    """Return what is known of a profile by a route.

    Parameters
    ----------
    profile : Profile
        The profile.
    scale : Scale
        The route with its limits.

    Returns
    -------
    Known or None
        A figure, or that it does not count; ``None`` if nothing is known.
    """
    by_class = class_of(profile, scale.route)
    printed = profile.toxicity.get(scale.route)
    if printed is not None:
        return _by_figure(printed, by_class, scale)
    if by_class is not None:
        return by_class
    return Known(None, "no class by this route") if profile.complete else None


def class_of(profile: Profile, route: Route) -> Known | None:
    """Return the converted point of the class that a sheet gives by a route.

    Parameters
    ----------
    profile : Profile
        The profile.
    route : str
        The route.
    """
    forms = [way for way in _INHALED if way in profile.toxicity]
    if route in _INHALED and forms and route not in forms:
        return None  # its class is that of the form that it has a figure for
    for claim in sorted(profile.claims, key=lambda c: (not c.documented, c.name)):
        if route_of(claim.statement) != side_of(route) or claim.name[-1] not in "1234":
            continue
        point = limit_of(claim.name, f"{route}: converted", "UN GHS").value
        says = (
            f"{claim.name} ({claim.statement}), {claim.source}, "
            f"converted {operand(point)} {ROUTE_UNITS[route]}"
        )
        found = Range.at(point)
        if route in ("gas", "dust and mist") and not forms:
            found, says = Range(point, None), f"{says}, its form not said"
        return Known(found, says, claim.documented, int(claim.name[-1]))
    return None


def _by_figure(printed: Toxicity, by_class: Known | None, scale: Scale) -> Known:
    """Return a printed figure; where its own paper's class is worse, up to that."""
    low = printed.range.low or ZERO
    category = None if printed.clean else scale.category(low)
    if low == scale.top and printed.range.low_open:
        category = None
    if by_class is not None and by_class.category is not None:
        point = None if by_class.figure is None else by_class.figure.low
        if category is None or by_class.category < category:
            high = None if printed.clean else printed.range.high
            says = f"{printed.printed}; but {by_class.says}: both count"
            return Known(Range(point, high), says, category=by_class.category)
    if printed.clean:
        return Known(None, f"{printed.printed}: left out")
    return Known(printed.range, printed.printed, category=category)
