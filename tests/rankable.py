"""Small shower tablets whose oils have whole reports, for tests of their order."""

from blendcheck.ranking import rank
from tests.checks.shelves import MENTHOL, checked, oil, paper, row

CINEOLE, CAMPHOR, PINENE = "470-82-6", "76-22-2", "80-56-8"
LINALYL_ACETATE = "115-95-7"
"""In the table of constituents, volatile, and on no list of irritants."""

CLAY = {"id": "clay", "name": "Kaolin", "kind": "solid", "cas": "1332-58-7"}
"""The base: no fizz, so that the estimate with transfer has no gas to reckon with."""


def report(*rows, unidentified="0 %"):
    return paper(*rows, copied_whole=True, unidentified=unidentified)


def shelf(**shares):
    """Three oils, each with a whole report of a marked and an unmarked component."""
    made = {"mint": MENTHOL, "gum": CINEOLE, "pine": PINENE}
    oils = []
    for name, cas in made.items():
        marked, rest = shares.get(name, ("40-50 %", "40-60 %"))
        oils.append(
            oil(
                name,
                papers=[
                    report(
                        row(f"marked in {name}", cas, marked),
                        row("linalyl acetate", LINALYL_ACETATE, rest),
                    )
                ],
                density="0.90",
                weighed={"drop": "0.02-0.04 g"},
            )
        )
    return [*oils, CLAY]


def tablet(lines, oils=None, **recipe):
    recipe = {"pieces": 10, "piece_mass": "60 g", "product": "shower tablet"} | recipe
    return checked(lines, shelf() if oils is None else oils, **recipe)


def piece(assessments):
    return rank(assessments)[0]


def pair(assessments):
    (found,) = piece(assessments).pairs
    return found
