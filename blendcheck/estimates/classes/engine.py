"""All hazard classes of a mixture, by one scheme."""

from collections.abc import Iterable, Iterator

from blendcheck.estimates.classes.acute import acute_classes
from blendcheck.estimates.classes.liquid import flammable_classes
from blendcheck.estimates.classes.model import (
    EU,
    Classes,
    Classified,
    Mixture,
    Scheme,
    Standing,
)
from blendcheck.estimates.classes.named import sensitiser_statement
from blendcheck.estimates.classes.single import single_classes
from blendcheck.estimates.classes.skin import eye_classes, skin_classes
from blendcheck.estimates.classes.summed import (
    aspiration_classes,
    organ_classes,
    water_classes,
)
from blendcheck.quantity import Mark

__all__ = ["WITHOUT_SUM", "classify"]

_MEMORY = frozenset({Mark.FROM_MEMORY})
_UN_ONLY = frozenset(("Acute Tox. 5", "Skin Irrit. 3", "Asp. Tox. 2"))
"""Classes that Union law does not have."""
WITHOUT_SUM = _UN_ONLY | frozenset(
    (
        *("Flam. Sol. 1", "Flam. Sol. 2", "Met. Corr. 1", "Ozone 1"),
        *("Ox. Liq. 1", "Ox. Liq. 2", "Ox. Liq. 3"),
        *("Ox. Sol. 1", "Ox. Sol. 2", "Ox. Sol. 3"),
    )
)
"""Classes that are read on a sheet and for which no rule here makes a sum: tests of the
mixture decide them, or only the UN has them."""

_ORDER = {standing: n for n, standing in enumerate(Standing)}


def classify(mixture: Mixture, scheme: Scheme = EU) -> Classes:
    """Classify a mixture by the published rules.

    Parameters
    ----------
    mixture : Mixture
        What it is made of, with what is known of each part.
    scheme : Scheme, default EU
        By whose rules.

    Returns
    -------
    Classes
        Every class that is certain, possible, or cannot be ruled out, each with the
        sum that it opens to.
    """
    found = [
        *flammable_classes(mixture, scheme),
        *acute_classes(mixture, scheme),
        *skin_classes(mixture, scheme),
        *eye_classes(mixture, scheme),
        *single_classes(mixture, scheme),
        *organ_classes(mixture),
        *aspiration_classes(mixture),
        *water_classes(mixture, scheme),
        *_kept(mixture, scheme),
    ]
    if scheme.name == "EU CLP":
        found += sensitiser_statement(mixture)
    once = tuple(_once(found))
    return Classes(
        mixture,
        scheme,
        tuple(one for one in once if one.standing is not Standing.BELOW),
        tuple(one for one in once if one.standing is Standing.BELOW),
        tuple(_unclassified(mixture)),
        tuple(_remarks(mixture)),
    )


def _kept(mixture: Mixture, scheme: Scheme) -> Iterator[Classified]:
    """Keep what the sheet of one material alone prints, where no rule makes a sum."""
    part = mixture.alone
    for claim in () if part is None else part.profile.claims:
        of_scheme = claim.name not in _UN_ONLY or scheme.category_5
        if part is not None and claim.name in WITHOUT_SUM and of_scheme:
            yield Classified(
                claim.name,
                claim.statement,
                Standing.CERTAIN if claim.documented else Standing.POSSIBLE,
                (
                    f"{part.name}: {claim.name} ({claim.statement}), {claim.source}",
                    "it stands alone, so the class of its sheet holds",
                ),
                (part.name,),
                marks=frozenset() if claim.documented else _MEMORY,
                substances=(part.called or part.name,),
            )


def _once(found: Iterable[Classified]) -> Iterator[Classified]:
    """Keep the surest entry of a class; EUH208 may stand once for each standing."""
    best: dict[tuple[str, str], Classified] = {}
    for one in found:
        key = (one.hazard_class, one.standing if one.statement == "EUH208" else "")
        known = best.get(key)
        if known is None or _ORDER[one.standing] < _ORDER[known.standing]:
            best[key] = one
    yield from best.values()


def _unclassified(mixture: Mixture) -> Iterator[str]:
    for part in mixture.parts:
        if part.share.high != 0 and not part.profile.complete:
            yield part.name


def _remarks(mixture: Mixture) -> Iterator[str]:
    if mixture.liquid is False:
        yield "solid"
    elif mixture.liquid is None:
        yield "liquid or solid not known"
