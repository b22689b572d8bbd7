"""Lets the tool read the files of a world and check them."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import date

from blendcheck.blend.totals import Totals, total
from blendcheck.checks import caps, screen
from blendcheck.checks.case import Case
from blendcheck.errors import BlendcheckError
from blendcheck.records.finding import Finding, Outcome, overall
from blendcheck.records.material import CapEntry, Materials
from blendcheck.records.recipe import Recipe
from tests.blurred.substances import KNOWLEDGE
from tests.blurred.world import World

DECIDED = (Outcome.WITHIN, Outcome.OVER)
ON = date(2026, 11, 25)

Key = tuple[str, ...]


def key_of(entry: CapEntry) -> Key:
    """The same key as :attr:`Cap.key`, from what the tool reports."""
    return (
        entry.on,
        entry.material or entry.subject,
        entry.scheme,
        entry.edition,
        entry.category,
        entry.document or "",
    )


@dataclass(frozen=True, slots=True)
class Answer:
    """What the tool says of one world."""

    case: Case
    findings: tuple[Finding, ...]

    @property
    def totals(self) -> Totals:
        return self.case.totals

    @property
    def overall(self) -> Outcome:
        return overall(self.findings)

    @property
    def by_cap(self) -> dict[Key, Finding]:
        return {
            key_of(f.cap): f for f in self.findings if f.cap is not None and f.value
        }

    def outcomes(self) -> dict[Key, Outcome | None]:
        """Outcomes by cap, and of sums by what they sum."""
        found: dict[Key, Outcome | None] = {}
        for f in self.findings:
            if f.kind != "limit" or not f.value:
                continue
            if f.cap is not None:
                found[key_of(f.cap)] = f.outcome
            elif f.limit.startswith("1 ("):
                found[f.check, f.subject, f.limit] = f.outcome
        return found


Tool = Callable[[Case], Iterable[Finding]]


def check_caps(case: Case) -> Iterable[Finding]:
    yield from caps.check(case)
    yield from screen.check(case)


def ask(world: World, tool: Tool = check_caps) -> Answer | BlendcheckError:
    """Read the world's files and check them.

    Returns
    -------
    Answer or BlendcheckError
        The error where the tool refuses and asks instead.
    """
    return ask_files(world.materials_table(), world.recipe_table(), tool)


def ask_files(
    shelf: dict[str, object], written: dict[str, object], tool: Tool = check_caps
) -> Answer | BlendcheckError:
    try:
        materials = Materials.model_validate(shelf)
        recipe = Recipe.model_validate(written)
        totals = total(recipe, materials, KNOWLEDGE)
        case = Case(recipe, materials, totals, totals.working, ON)
        return Answer(case, tuple(tool(case)))
    except BlendcheckError as error:
        return error
