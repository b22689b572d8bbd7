"""Mixtures written down as in the published examples."""

from fractions import Fraction

from blendcheck.estimates.classes import Claim, Ingredient, Part, Profile
from blendcheck.interval import Range
from blendcheck.quantity import read_percent
from blendcheck.quantity.hazard_figures import read_specific_limit, read_toxicity
from blendcheck.quantity.hazards import NOT_CLASSIFIED, read_hazard_class


def share(text):
    """A share as printed: ``4``, ``3-7 %``, ``<1 %``."""
    return read_percent(str(text)).range


def profile(*classes, ate=(), limits=(), complete=True, documented=True, **more):
    """What a sheet says; the whole of it unless ``complete=False``."""
    toxicity = {one.route: one for one in map(read_toxicity, ate)}
    read = [read_hazard_class(one) for one in classes]
    return Profile(
        tuple(
            Claim(one.name, one.statement, documented=documented)
            for one in read
            if one.name != NOT_CLASSIFIED
        ),
        complete,
        tuple(map(read_specific_limit, limits)),
        toxicity,
        **more,
    )


def part(name, percent, *classes, components=(), **more):
    """A part of a mixture."""
    key = more.pop("key", name)
    return Part(name, key, share(percent), profile(*classes, **more), components)


def inside(name, percent, *classes, **more):
    """A component, with its share of the whole mixture."""
    key = more.pop("key", name)
    return Ingredient(name, key, share(percent), profile(*classes, **more))


def at(text):
    return Range.at(Fraction(text))
