"""Where one figure alone would bring a total within its cap."""

from fractions import Fraction

from blendcheck.blend.closing import extreme_ratio, share_end
from blendcheck.blend.totals import SubjectTotal, Totals, Traced
from blendcheck.errors import DomainError
from blendcheck.frozen import Frozen
from blendcheck.interval import Range
from blendcheck.quantity import Base
from blendcheck.records.mass import Key, Mass, Unknowns, bound

__all__ = ["Turning", "turning_figures", "worst_grams"]


_NEGLIGIBLE = 1000
"""A figure on which a thousandth of the most telling one hangs is not asked for."""


class Turning(Frozen):
    """One figure that is not known exactly, and where it turns the outcome.

    Parameters
    ----------
    traced : Traced or None
        The material whose share it is; ``None`` for a measure or a density.
    key : Key or None
        The unknown, where it is not a share.
    held : Range
        What is known of it. [%, or unit of the unknown]
    turn : Fraction or None
        The total is within its cap if the figure is at most this; ``None`` if the
        figure alone cannot settle it.
    at_least : bool
        True where it is "at least" instead (a heavier whole).
    weight : Fraction
        How much of the finished product hangs on it. [%]
    """

    traced: Traced | None
    key: Key | None
    held: Range
    turn: Fraction | None
    at_least: bool
    weight: Fraction


def turning_figures(
    totals: Totals, total: SubjectTotal, cap: Fraction
) -> tuple[Turning, ...]:
    r"""List the figures that could settle a total, the most telling first.

    Parameters
    ----------
    totals : Totals
        The totals that it belongs to.
    total : SubjectTotal
        The total, of the finished product.
    cap : Fraction
        The cap. [%]

    Returns
    -------
    tuple of Turning
        Figures with room between their ends, the negligible left out. Those that
        settle it alone come first, then those on which more of the product hangs.

    Notes
    -----
    All others are held at their worst: the total is at most the cap when
    :math:`s_i \le (c W - \sum_{j \ne i} s_j m_j)/m_i` at every corner of the
    masses. Mass balance; nothing is linearised.
    """
    unknowns = totals.working.unknowns
    wholes = _wholes(totals, total)
    found = [
        turning
        for one in total.traced
        if (turning := _share_turning(totals, total, one, cap, wholes)) is not None
    ]
    found += _mass_turnings(totals, total, cap, wholes, unknowns)
    most = max((turning.weight for turning in found), default=Fraction(0))
    telling = [t for t in found if t.weight * _NEGLIGIBLE >= most]
    return tuple(sorted(telling, key=lambda t: (t.turn is None, -t.weight)))


def _wholes(totals: Totals, total: SubjectTotal) -> list[Mass]:
    wholes = [totals.mass_of(totals.whole(total.base))]
    if totals.weighed is not None and total.base is Base.FINISHED:
        low = totals.working.range(totals.weighed).low
        wholes.append(Mass(low or Fraction(0)))
    return wholes


def worst_grams(totals: Totals, total: SubjectTotal, but: Traced | None = None) -> Mass:
    """Return the grams of a subject with every share but one at its high end.

    Parameters
    ----------
    totals : Totals
        The totals that it belongs to.
    total : SubjectTotal
        The subject.
    but : Traced, optional
        A material to leave out.

    Returns
    -------
    Mass
        The sum. [g]
    """
    working = totals.working
    return Mass.total(
        totals.mass_of(one.mass).times(
            share_end(working.range(one.share.strict), "high") / 100
        )
        for one in total.traced
        if one is not but and one.share.strict is not None
    )


def _share_turning(
    totals: Totals,
    total: SubjectTotal,
    one: Traced,
    cap: Fraction,
    wholes: list[Mass],
) -> Turning | None:
    working = totals.working
    if one.share.strict is None or totals.is_own(one.node):
        return None  # a single substance has no figure to ask for
    low = Fraction(0)
    if one.share.documented is not None:
        low = share_end(working.range(one.share.documented), "low")
    high = share_end(working.range(one.share.strict), "high")
    if low == high:
        return None
    mass = totals.mass_of(one.mass)
    rest = worst_grams(totals, total, one)
    unknowns = working.unknowns
    try:
        turn = min(
            extreme_ratio(whole.times(cap / 100) - rest, mass, unknowns, "low").value
            for whole in wholes
        )
    except DomainError:  # the line may weigh nothing
        return None
    heavy = mass.range(unknowns).high or Fraction(0)
    whole = wholes[0].range(unknowns).low or Fraction(1)
    weight = (high - low) * heavy / whole
    settles = low <= turn * 100
    return Turning(
        one,
        None,
        Range(low, high),
        turn * 100 if settles else None,
        at_least=False,
        weight=weight,
    )


def _mass_turnings(
    totals: Totals,
    total: SubjectTotal,
    cap: Fraction,
    wholes: list[Mass],
    unknowns: Unknowns,
) -> list[Turning]:
    worst = worst_grams(totals, total)
    found = []
    keys = {key: None for form in (worst, *wholes) for key in form.counts}
    for key in keys:
        lines = [
            _line(worst - whole.times(cap / 100), key, unknowns) for whole in wholes
        ]
        slopes = [slope for slope, _ in lines if slope != 0]
        if not slopes:
            continue
        at_least = slopes[0] < 0
        turns = [-rest / slope for slope, rest in lines if slope != 0]
        turn: Fraction | None = max(turns) if at_least else min(turns)
        if any((slope < 0) != at_least for slope in slopes) or any(
            slope == 0 and rest > 0 for slope, rest in lines
        ):
            turn = None  # over another whole it stays above, whatever this one is
        low, high = bound(unknowns, key, up=False), bound(unknowns, key, up=True)
        settles = turn is not None and (turn <= high if at_least else turn >= low)
        heavy = max(map(abs, slopes)) * (high - low)
        whole_low = wholes[0].range(unknowns).low or Fraction(1)
        found.append(
            Turning(
                None,
                key,
                unknowns[key],
                turn if settles else None,
                at_least=at_least,
                weight=heavy / whole_low * 100,
            )
        )
    return found


def _line(over: Mass, key: Key, unknowns: Unknowns) -> tuple[Fraction, Fraction]:
    """Return the slope over one unknown, and the rest where all others are worst."""
    slope = over.counts.get(key, Fraction(0))
    others = {k: c for k, c in over.counts.items() if k != key}
    rest = over.fixed + sum(
        (c * bound(unknowns, k, up=c > 0) for k, c in others.items()), Fraction(0)
    )
    return slope, rest
