"""Evaluating vapour-pressure coefficients, ours and those of the ``thermo`` library."""

import math
from functools import cache

from thermo import VaporPressure

METHODS = {
    "mcgarry-1983": "WAGNER_MCGARRY",
    "poling-2000-wagner": "WAGNER_POLING",
    "perry-8": "DIPPR_PERRY_8E",
    "vdi-2010": "VDI_PPDS",
    "poling-2000": "ANTOINE_POLING",
    "landolt-antoine": "LANDOLT",
    "nist-webbook": "ANTOINE_WEBBOOK",
}


def pressure(fit, kelvin):
    """Evaluate a row [Pa]; the equations are those of its docstring."""
    a, b = float(fit.a), float(fit.b)
    c, d, e = (float(each or "nan") for each in (fit.c, fit.d, fit.e))
    if fit.equation == "Antoine":
        return (10 if fit.log_base == "10" else math.e) ** (a - b / (kelvin + c))
    if fit.equation == "DIPPR 101":
        return math.exp(a + b / kelvin + c * math.log(kelvin) + d * kelvin**e)
    reduced = kelvin / float(fit.t_c)
    tau = max(0.0, 1 - reduced)  # at the critical point itself
    third, fourth = (3, 6) if fit.equation == "Wagner 3-6" else (2.5, 5)
    series = a * tau + b * tau**1.5 + c * tau**third + d * tau**fourth
    return float(fit.p_c) * math.exp(series / reduced)


@cache
def library(cas):
    return VaporPressure(CASRN=cas)


def in_library(cas, method, kelvin):
    """Return the pressure by a named method, or None outside its own range."""
    found = library(cas)
    if method not in found.all_methods:
        return None
    low, high = found.T_limits[method]
    if not low - 0.01 <= kelvin <= high + 0.01:
        return None
    found.method = method  # never by calculate(): it runs on outside the range
    return found(kelvin)


def factor(one, other):
    return max(one / other, other / one)
