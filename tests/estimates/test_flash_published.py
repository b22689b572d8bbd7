"""Estimated flash points against published ones: alcohol with water, and oils.

Flash points of the parts, pressures and compositions were fixed before the first
comparison; nothing was tuned after it and no row is left out. Published compositions
are not the bottles that were measured.

Sources. Ethanol with water: a table of eight strengths that is copied widely, its basis
(by weight or by volume) and its cup not stated, so that it is run both ways; strengths
by volume are turned into weight with OIML R 22 (1975), 20 degC (from memory).
2-Propanol: two safety data sheets (70 % w/w 18.3 degC closed cup; rubbing alcohol 70 %
v/v 18 degC; 91 % w/w 57 degF, tag closed cup); 70 % v/v is 64.7 % w/w (Lebo, J. Am.
Chem. Soc. 43, 1005 (1921), densities). Oils: ISO 855:2003 Annex B as quoted, safety
data sheets, raw-material pages and an ECHA dossier, beside each row of
``published_flash_points.csv``; compositions in ``published_compositions.csv``.
"""

import csv
from collections import defaultdict
from pathlib import Path

import pytest

from blendcheck.equations.flash import flash_point
from blendcheck.errors import DomainError
from blendcheck.estimates.compositions import Component, Lot
from blendcheck.estimates.flash import flash_of_parts
from blendcheck.estimates.mixing import mixture_of
from blendcheck.estimates.parts import part_of

pytestmark = pytest.mark.published

HERE = Path(__file__).parent
ETHANOL, PROPANOL, WATER = "64-17-5", "67-63-0", "7732-18-5"

# strength as printed, the same by weight if it was meant by volume, published (degC)
ETHANOL_TABLE = (
    (5, 3.98, 62), (10, 8.01, 49), (20, 16.21, 36), (40, 33.30, 26),
    (50, 42.43, 24), (70, 62.39, 21), (80, 73.48, 20), (96, 93.84, 17),
)  # fmt: skip
PROPANOL_TABLE = ((70.0, 18.3), (64.7, 18.0), (91.0, (57 - 32) / 1.8))  # % w/w, degC

MEAN_AIM, HIGH_AIM = 3.0, 6.0  # K, stated before the comparison


def rows(name):
    with (HERE / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def watered(cas, percent):
    return flash_of_parts({cas: percent, WATER: 100 - percent})


def aqueous(by_weight):
    """Signed errors by name of the row."""
    errors = {
        f"ethanol {printed} %": watered(ETHANOL, printed if by_weight else weight)
        - published
        for printed, weight, published in ETHANOL_TABLE
    }
    return errors | {
        f"2-propanol {percent} % w/w": watered(PROPANOL, percent) - published
        for percent, published in PROPANOL_TABLE
    }


def oils():
    """Signed errors by oil and source."""
    made = defaultdict(list)
    for row in rows("published_compositions.csv"):
        made[row["oil"]].append(
            Component(row["cas"], row["cas"], float(row["low"]), float(row["high"]))
        )
    errors = {}
    for row in rows("published_flash_points.csv"):
        components = tuple(made[row["oil"]])
        lot = Lot(row["oil"], row["oil"], components, (0.0, 0.0), is_whole=True)
        mixture = mixture_of([(lot, 1.0, 1.0)])
        found = float(mixture.kelvin(mixture.middle(), "middle")) - 273.15
        errors[f"{row['oil']}, {row['source']}"] = found - float(row["celsius"])
    return errors


def report(name, errors):
    mean = sum(map(abs, errors.values())) / len(errors)
    worst = max(errors.values(), key=abs)
    print(f"\n{name}: n {len(errors)}, mean |error| {mean:.1f} K, worst {worst:+.1f} K")
    for row, error in errors.items():
        print(f"  {row}: {error:+.1f} K")
    return mean


@pytest.mark.parametrize("by_weight", [True, False], ids=["w/w", "v/v"])
def test_alcohol_with_water_and_oils(by_weight, record_property):
    errors = aqueous(by_weight) | oils()
    assert len(errors) == 8 + 3 + 19
    mean = report("all rows", errors)
    record_property("flash", (len(errors), mean, max(errors.values(), key=abs)))
    assert mean <= MEAN_AIM
    assert max(errors.values()) <= HIGH_AIM


def test_oils_alone():
    assert report("oils", oils()) <= MEAN_AIM


def test_alcohol_alone_by_weight_misses_the_aim_in_thin_solutions():
    """By weight the weakest two lie more than 5 K too low: reported, not tuned."""
    errors = aqueous(by_weight=True)
    low = {row for row, error in errors.items() if abs(error) > 5}
    assert low <= {"ethanol 5 %", "ethanol 10 %"}
    assert all(errors[row] < 0 for row in low)  # towards caution


def test_each_oil_counted_once():
    """Lemon and orange have two compositions and several figures: their means."""
    by_oil = defaultdict(list)
    for row, error in oils().items():
        by_oil[row.partition(",")[0].rstrip(" AB")].append(abs(error))
    means = {oil: sum(found) / len(found) for oil, found in by_oil.items()}
    assert set(means) == {
        *("lemon", "sweet orange", "lavender", "tea tree", "eucalyptus")
    }
    assert report("one figure an oil", means) <= MEAN_AIM


def test_activity_one_would_be_far_off():
    """Without activity coefficients 5 % ethanol would seem to flash 30 K too high."""
    parts = [part_of(ETHANOL), part_of(WATER)]
    with pytest.raises(DomainError, match="a model where a part that does not burn"):
        flash_point(
            [0.02, 0.98], [p.table for p in parts], [p.flash for p in parts], None
        )


def test_a_blend_can_flash_below_both_of_its_parts():
    # An alcohol with a hydrocarbon, as n-octane with ethanol (Liaw and others, 2002).
    pinene, hexenol = "80-56-8", "928-96-1"
    alone = flash_of_parts({pinene: 100}), flash_of_parts({hexenol: 100})
    mixed = [flash_of_parts({pinene: p, hexenol: 100 - p}) for p in (60, 70, 80, 90)]
    assert min(mixed) < min(alone)
