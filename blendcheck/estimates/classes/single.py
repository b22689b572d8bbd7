"""Sensitisers, cancer, genes, reproduction, organs, hormones: each substance alone.

Method: Regulation (EC) No 1272/2008, Annex I, Tables 3.4.5, 3.5.2, 3.6.2, 3.7.2,
3.8.3, 3.9.4 and 3.11.2. One substance is totalled over every lot that
brings it; two substances are never added up. Canada and the United States classify a
category 1 sensitiser without sub-category at a tenth of the share.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from blendcheck import reference
from blendcheck.estimates.classes.ladder import (
    Rung,
    climb,
    specific_limit,
)
from blendcheck.estimates.classes.limits import Limit, limit_of
from blendcheck.estimates.classes.model import (
    Claim,
    Classified,
    Mixture,
    Part,
    Profile,
    Scheme,
    Standing,
)
from blendcheck.estimates.classes.sums import Reach, reach_of
from blendcheck.estimates.classes.terms import (
    Met,
    Term,
    end_of,
    not_known,
    unknown_term,
)
from blendcheck.quantity import Mark, print_range
from blendcheck.quantity.hazards import CLASSES

__all__ = ["classified_alone", "single_classes"]

ONE = Fraction(1)
_NOT_KNOWN = Met(ONE, "not classified by anybody")
_SINGLY = "each substance alone"
Alone = tuple[Term, Profile]


def _claim(profile: Profile, names: Sequence[str]) -> Claim | None:
    found = [one for one in profile.claims if one.name in names]
    return max(found, key=lambda one: one.documented, default=None)


def classified_alone(mixture: Mixture, names: Sequence[str]) -> Iterator[Alone]:
    """Yield every substance and material of some classes, whatever it stands in.

    Parameters
    ----------
    mixture : Mixture
        The mixture.
    names : sequence of str
        The classes.

    Yields
    ------
    tuple of Term and Profile
        A contributor, and what is known of it.
    """
    for part in mixture.parts:
        most = end_of(part.share, high=True)
        if most == 0:
            continue
        claim = _claim(part.profile, names)
        if claim is not None:
            yield _term(part, part.name, part.key, claim, most), part.profile
        for one in part.components:
            claim = _claim(one.profile, names)
            if claim is not None:
                name = f"{one.name} in {part.name}"
                term = _term(part, name, one.key, claim, most)
                yield replace(term, share=one.share, own_name=one.name), one.profile


def _term(part: Part, name: str, key: str, claim: Claim, most: Fraction) -> Term:
    says = f"{claim.name} ({claim.statement}), {claim.source}"
    met = Met(ONE, says, claim.documented)
    lot = f"{part.place}/{key}"
    return Term(
        name,
        key,
        part.share,
        met,
        "documented" if claim.documented else "memory",
        lot,
        most,
        most,
        part.called,
    )


def _reaches(
    mixture: Mixture,
    names: Sequence[str],
    families: frozenset[str],
    limit: Limit,
    rule: str = _SINGLY,
    *,
    unknown: bool = True,
    milder: Sequence[str] = (),
) -> Iterator[Reach]:
    """Yield one sum for each substance, over all lots.

    ``milder`` are classes that other papers may give the same substance: the worse
    counts, so those lots are added.
    """
    alone: dict[str, list[Alone]] = {}
    for term, profile in classified_alone(mixture, names):
        alone.setdefault(term.key, []).append((term, profile))
    places = {(one.lot, one.name) for found in alone.values() for one, _ in found}
    for term, profile in classified_alone(mixture, milder):
        if term.key in alone and (term.lot, term.name) not in places:
            alone[term.key].append((term, profile))
    for found in alone.values():
        own = [
            special
            for _, profile in found
            if (special := specific_limit(profile, _statements(limit))) is not None
        ]
        yield reach_of(
            rule, limit, [term for term, _ in found], min(own) if own else None
        )
    if not unknown:
        return
    for part in mixture.parts:
        rest = not_known(part, families)
        if rest is not None and rest.high:
            yield reach_of(rule, limit, [unknown_term(part, rest, _NOT_KNOWN)])


def _statements(limit: Limit) -> tuple[str, ...]:
    long_forms = {
        "H360": ("H360", "H360F", "H360D", "H360FD", "H360Fd", "H360Df"),
        "H361": ("H361", "H361f", "H361d", "H361fd"),
        "H350": ("H350", "H350i"),
    }
    return long_forms.get(limit.statement, (limit.statement,))


# -- the classes -----------------------------------------------------------

_GROUPED: Mapping[str, tuple[str, tuple[str, ...], tuple[str, ...]]] = {
    # class of the mixture: row of the table, classes of the substance, milder ones
    "Muta. 1B": ("Muta. 1A, 1B", ("Muta. 1A", "Muta. 1B"), ("Muta. 2",)),
    "Muta. 2": ("Muta. 2", ("Muta. 2",), ()),
    "Carc. 1B": ("Carc. 1A, 1B", ("Carc. 1A", "Carc. 1B"), ("Carc. 2",)),
    "Carc. 2": ("Carc. 2", ("Carc. 2",), ()),
    "Repr. 1B": ("Repr. 1A, 1B", ("Repr. 1A", "Repr. 1B"), ("Repr. 2",)),
    "Repr. 2": ("Repr. 2", ("Repr. 2",), ()),
    "Lact.": ("Repr., lactation", ("Lact.",), ()),
    "ED HH 1": ("Endocrine disruptor for people 1", ("ED HH 1",), ("ED HH 2",)),
    "ED HH 2": ("Endocrine disruptor for people 2", ("ED HH 2",), ()),
}
_LADDERS = (
    ("Muta. 1B", "Muta. 2"),
    ("Carc. 1B", "Carc. 2"),
    ("Repr. 1B", "Repr. 2"),
    ("Lact.",),
)
_HORMONES = (("ED HH 1", "ED HH 2"),)


def _rung(mixture: Mixture, hazard_class: str) -> Rung:
    row, names, milder = _GROUPED[hazard_class]
    family = hazard_class.rpartition(" ")[0] or hazard_class
    limit = limit_of(row, _SINGLY)
    reaches = tuple(_reaches(mixture, names, frozenset({family}), limit, milder=milder))
    return Rung(hazard_class, limit.statement, reaches, alone=True)


def _organ_ladder(mixture: Mixture, family: str) -> tuple[Rung, Rung]:
    families = frozenset({family})
    first, second = f"{family} 1", f"{family} 2"
    high = limit_of(first, first)
    below = limit_of(second, f"{first}, below 10 %")
    milder = limit_of(second, second)
    return (
        Rung(
            first,
            high.statement,
            tuple(_reaches(mixture, (first,), families, high, milder=(second,))),
            alone=True,
        ),
        Rung(
            second,
            milder.statement,
            (
                *_reaches(
                    mixture,
                    (first,),
                    families,
                    below,
                    f"{first}, below 10 %, each substance alone",
                    milder=(second,),
                ),
                *_reaches(mixture, (second,), families, milder),
            ),
            alone=True,
        ),
    )


def _sensitiser(mixture: Mixture, scheme: Scheme, family: str) -> Rung:
    families = frozenset({family})
    weak: tuple[str, ...] = (f"{family} 1", f"{family} 1B")
    strong = (f"{family} 1A",)
    usual = limit_of(f"{family} 1, 1B", _SINGLY)
    sharp = limit_of(f"{family} 1A", _SINGLY)
    reaches = [*_reaches(mixture, strong, families, sharp, milder=weak)]
    if scheme.name == "US":
        stricter = limit_of(f"{family} 1", _SINGLY, "US")
        reaches += _reaches(mixture, (weak[0],), families, stricter, unknown=False)
        weak = (weak[1],)
    reaches += _reaches(mixture, weak, families, usual, unknown=False)
    return Rung(f"{family} 1", usual.statement, tuple(reaches), alone=True)


def single_classes(mixture: Mixture, scheme: Scheme) -> Iterator[Classified]:
    """Classify by what counts for each substance alone.

    Parameters
    ----------
    mixture : Mixture
        The mixture.
    scheme : Scheme
        By whose rules.

    Yields
    ------
    Classified
        Sensitisers, mutagens, carcinogens, reproduction, organs; hormones for the EU.
        Where category 1A and 1B share a limit the entry is written as 1B.
    """
    for family in ("Resp. Sens.", "Skin Sens."):
        yield from climb((_sensitiser(mixture, scheme, family),))
    for ladder in _LADDERS:
        for found in climb([_rung(mixture, name) for name in ladder]):
            yield _as_claimed(found, mixture)
    for family in ("STOT SE", "STOT RE"):
        yield from climb(_organ_ladder(mixture, family))
    if scheme.name == "EU CLP":
        for ladder in _HORMONES:
            yield from climb([_rung(mixture, name) for name in ladder])
        yield from _lasting(mixture)


_LASTING = ("ED ENV 1", "ED ENV 2", "PBT", "vPvB", "PMT", "vPvM")


def _lasting(mixture: Mixture) -> Iterator[Classified]:
    """State classes of the environment whose limits the tables do not have."""
    rule = next(row for row in reference.mixture_limits() if row.sort == "date")
    dates = f"no limit in the tables; {rule.hazard}: {rule.rule} ({rule.annex})"
    for name in _LASTING:
        found = [term for term, _ in classified_alone(mixture, (name,))]
        said = [f"{t.name}: {print_range(t.share, '%')}, {t.met.says}" for t in found]
        kept = mixture.alone is not None and any(
            term.grade == "documented" for term in found
        )
        if found:
            yield Classified(
                name,
                CLASSES[name][0],
                Standing.CERTAIN if kept else Standing.OPEN,
                (*said, dates),
                tuple(term.name for term in found),
                (rule.source_id,),
                frozenset() if kept else frozenset({Mark.ABSENCE}),
                substances=tuple(term.substance for term in found),
            )


def _as_claimed(found: Classified, mixture: Mixture) -> Classified:
    """Write 1A, and the longer form of the statement, where a substance has them."""
    family = found.hazard_class.rpartition(" ")[0]
    if not found.hazard_class.endswith("1B") and family != "Repr.":
        return found
    claims = [
        claim
        for name, profile in _named_profiles(mixture)
        if name in found.because
        for claim in profile.claims
        if claim.family == family and claim.name[:-1] == found.hazard_class[:-1]
    ]
    if family == "Repr." and found.hazard_class.endswith("2"):
        claims = [
            claim
            for name, profile in _named_profiles(mixture)
            if name in found.because
            for claim in profile.claims
            if claim.name == "Repr. 2"
        ]
    if not claims:
        return found
    statements = {claim.statement for claim in claims}
    statement = statements.pop() if len(statements) == 1 else found.statement
    name = min(claim.name for claim in claims)
    return replace(found, hazard_class=name, statement=statement)


def _named_profiles(mixture: Mixture) -> Iterator[tuple[str, Profile]]:
    for part in mixture.parts:
        yield part.name, part.profile
        for one in part.components:
            yield f"{one.name} in {part.name}", one.profile
