"""Airways and drowsiness, aspiration, water: summed classes.

Method: Regulation (EC) No 1272/2008, Annex I, 3.8.3.4.5, 3.10.3.3 and Tables 4.1.1 to
4.1.3. Valid for: mixtures of classified substances. Departs from the source in: where a
sheet prints no M-factor, 1 is taken for what is certain or possible, and any for what
cannot be ruled out.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from blendcheck.estimates.classes.ladder import Rung, by_class, climb
from blendcheck.estimates.classes.limits import Limit, limit_of
from blendcheck.estimates.classes.model import (
    Claim,
    Classified,
    Mixture,
    Profile,
    Scheme,
    Standing,
)
from blendcheck.estimates.classes.sums import Reach, high_of, reach_of
from blendcheck.estimates.classes.terms import Met, Pick, Term, terms_of
from blendcheck.interval import Range
from blendcheck.quantity import Mark, print_range

__all__ = ["NO_FACTOR", "aspiration_classes", "organ_classes", "water_classes"]

ONE = Fraction(1)
NO_FACTOR = ", no M-factor printed"
"""How the line of a contributor ends that lacks its M-factor."""
_NOT_KNOWN = "not classified by anybody"


# -- airways and drowsiness ------------------------------------------------

_EFFECTS = (("H335", "irritation"), ("H336", "narcosis"))


def organ_classes(mixture: Mixture) -> Iterator[Classified]:
    """Classify for irritation of the airways and for drowsiness.

    Parameters
    ----------
    mixture : Mixture
        The mixture.

    Yields
    ------
    Classified
        ``STOT SE 3`` with H335, with H336, or both; 20 % is a guideline of the law.
    """
    families = frozenset({"STOT SE"})
    for statement, effect in _EFFECTS:
        limit = limit_of("STOT SE 3", f"sum of what carries {statement}")

        def weight(claim: Claim, code: str = statement) -> Fraction | None:
            return ONE if claim.statement == code else None

        pick = by_class(weight, limit, (statement,))
        terms = terms_of(mixture, families, pick, Met(ONE, _NOT_KNOWN))
        reach = reach_of(f"sum of what carries {statement}", limit, terms)
        yield from climb((Rung(f"STOT SE 3 ({effect})", statement, (reach,)),))


# -- aspiration ------------------------------------------------------------


def _flows(mixture: Mixture) -> tuple[Standing | None, str]:
    """Say whether it is thin enough, and how that is known."""
    limit = limit_of("Asp. Tox. 1", "kinematic viscosity at 40 degC")
    own = mixture.viscosity
    if own is not None:
        text = f"kinematic viscosity at 40 °C: {print_range(own, 'mm2/s')}"
        said = f"{text}; limit {limit.says}"
        side = own.against(limit.value)
        if side == "at or below":
            return Standing.CERTAIN, said
        return (None if side == "above" else Standing.POSSIBLE), said
    thin = [_is_thin(part.profile.viscosity, limit) for part in mixture.parts]
    if thin and all(thin):
        return Standing.CERTAIN, (
            f"every part flows at 40 °C as thin as the limit {limit.says}, so the "
            "mixture is taken to (common practice)"
        )
    return Standing.POSSIBLE, f"viscosity of the mixture not known; limit {limit.says}"


def _is_thin(viscosity: Range | None, limit: Limit) -> bool:
    return viscosity is not None and viscosity.against(limit.value) == "at or below"


def aspiration_classes(mixture: Mixture) -> Iterator[Classified]:
    """Classify for aspiration; a solid is never in this class.

    Parameters
    ----------
    mixture : Mixture
        The mixture.

    Yields
    ------
    Classified
        ``Asp. Tox. 1``; certain only where it is known to be thin enough, or is one
        material that its supplier classed so.
    """
    if mixture.liquid is False:
        return
    limit = limit_of("Asp. Tox. 1", "sum of Asp. Tox. 1")
    pick = by_class(
        lambda claim: ONE if claim.name == "Asp. Tox. 1" else None, limit, ("H304",)
    )
    families = frozenset({"Asp. Tox."})
    terms = terms_of(mixture, families, pick, Met(ONE, _NOT_KNOWN))
    reach = reach_of("sum of Asp. Tox. 1", limit, terms)
    flows, said = _flows(mixture)
    if flows is None:
        return
    for found in climb((Rung("Asp. Tox. 1", "H304", (reach,)),)):
        standing = found.standing
        if standing is Standing.CERTAIN and mixture.alone is not None:
            flows = Standing.CERTAIN
            said = "it stands alone, so the class of its sheet holds"
        if standing is Standing.CERTAIN and flows is not Standing.CERTAIN:
            standing = Standing.POSSIBLE
        if standing is Standing.CERTAIN and mixture.liquid is None:
            standing = Standing.POSSIBLE
        yield replace(found, standing=standing, lines=(*found.lines, said))


# -- water -----------------------------------------------------------------

_ACUTE = frozenset({"Aquatic Acute"})
_CHRONIC = frozenset({"Aquatic Chronic"})
_START: Mapping[str, str] = {
    "Aquatic Acute 1": "sum of Acute 1 times M",
    "Aquatic Acute 2": "sum of 10 times Acute 1 times M",
    "Aquatic Acute 3": "sum of 100 times Acute 1 times M",
    "Aquatic Chronic 1": "sum of Chronic 1 times M",
    "Aquatic Chronic 2": "sum of 10 times Chronic 1 times M",
    "Aquatic Chronic 3": "sum of 100 times Chronic 1 times M",
    "Aquatic Chronic 4": "sum of Chronic 1 plus 2 plus 3 plus 4",
}
_WEIGHTS: Mapping[str, Mapping[str, int]] = {
    "Aquatic Acute 1": {"1": 1},
    "Aquatic Acute 2": {"1": 10, "2": 1},
    "Aquatic Acute 3": {"1": 100, "2": 10, "3": 1},
    "Aquatic Chronic 1": {"1": 1},
    "Aquatic Chronic 2": {"1": 10, "2": 1},
    "Aquatic Chronic 3": {"1": 100, "2": 10, "3": 1},
    "Aquatic Chronic 4": {"1": 1, "2": 1, "3": 1, "4": 1},
}


def _water_pick(
    hazard_class: str, families: frozenset[str], missing: Fraction = ONE
) -> Pick:
    """Return a pick; ``missing`` counts for an M-factor that no sheet prints."""
    weights = _WEIGHTS[hazard_class]
    times_m = hazard_class != "Aquatic Chronic 4"
    severe = limit_of("Aquatic Acute 1, Chronic 1", "generic cut-off").value
    others = limit_of("Aquatic Chronic 2 to 4", "generic cut-off").value

    def pick(profile: Profile) -> Met | None:
        found: list[tuple[bool, Fraction, Met]] = []
        for claim in profile.claims:
            category = claim.name[-1]
            if claim.family not in families or category not in weights:
                continue
            weight, says = Fraction(weights[category]), f"{claim.name}, {claim.source}"
            cutoff = others
            if category == "1":
                chronic = claim.family == "Aquatic Chronic"
                printed = profile.m_chronic if chronic else profile.m_acute
                factor = printed or missing
                if printed or missing == ONE:
                    says += f", M = {factor}"
                says += "" if printed else NO_FACTOR
                cutoff = severe / (printed or ONE)
                weight *= factor if times_m else 1
            met = Met(weight, says, claim.documented, cutoff)
            found.append((claim.documented, weight, met))
        return max(found, key=lambda one: one[:2])[2] if found else None

    return pick


def _open_factors(terms: Sequence[Term], limit: Limit, most: Sequence[Term]) -> Reach:
    """Put a sum beside its limit; an M-factor not printed may be any.

    ``most`` are the same contributors, those without an M-factor as the worst.
    """
    huge = [term for term in most if term.met.says.endswith(NO_FACTOR)]
    known = [term for term in terms if not term.met.says.endswith(NO_FACTOR)]
    reach = reach_of(limit.rule, limit, terms)
    if not huge:
        return reach
    made = replace(reach, worst=high_of([*known, *huge], unknown=True))
    if made.possible or not made.open:
        return made
    # opened, it shows the sum that leaves it open, not the one with M = 1
    return replace(made, terms=(*known, *huge), least=(), most=())


def _water_rung(mixture: Mixture, hazard_class: str, scheme: str) -> Rung:
    families = _ACUTE if "Acute" in hazard_class else _CHRONIC
    limit = limit_of(hazard_class, _START[hazard_class], scheme)
    severe = limit_of("Aquatic Acute 1, Chronic 1", "generic cut-off").value
    # Its M-factor is not known either, so it counts from the cut-off on.
    unknown = Met(limit.value / severe, _NOT_KNOWN, cutoff=severe)
    terms, most = (
        terms_of(mixture, families, _water_pick(hazard_class, families, m), unknown)
        for m in (ONE, limit.value / severe)
    )
    reach = _open_factors(terms, limit, most)
    return Rung(hazard_class, limit.statement, (reach,))


def water_classes(mixture: Mixture, scheme: Scheme) -> Iterator[Classified]:
    """Classify for water; the United States leave these classes out.

    Parameters
    ----------
    mixture : Mixture
        The mixture.
    scheme : Scheme
        By whose rules; acute categories 2 and 3 are the UN's alone.

    Yields
    ------
    Classified
        Short-term and long-term classes.
    """
    if scheme.name == "US":
        return
    acute = ["Aquatic Acute 1"]
    if scheme.name == "UN GHS":
        acute += ["Aquatic Acute 2", "Aquatic Acute 3"]
    yield from climb([_water_rung(mixture, name, scheme.name) for name in acute])
    chronic = [f"Aquatic Chronic {n}" for n in (1, 2, 3, 4)]
    for found in climb([_water_rung(mixture, name, scheme.name) for name in chronic]):
        marks = found.marks
        if any(NO_FACTOR in line for line in found.lines):
            marks |= {Mark.ESTIMATED}
        yield replace(found, marks=marks)
