"""What was seen over many worlds, added up."""

from dataclasses import dataclass, field

from blendcheck.records.finding import Outcome
from tests.blurred.asking import DECIDED
from tests.blurred.draw_shelf import PROFILES


@dataclass(slots=True)
class Tally:
    """What was seen over many worlds."""

    worlds: int = 0
    limits: dict[str, int] = field(default_factory=dict)
    decided: dict[str, int] = field(default_factory=dict)
    outcomes: dict[str, int] = field(default_factory=dict)
    equal: int = 0
    held: int = 0
    on_the_cap: int = 0
    narrowed: int = 0
    taken: int = 0
    turned: int = 0
    failures: list[tuple[int, str]] = field(default_factory=list)

    def add(self, other: "Tally") -> None:
        for name in ("limits", "decided", "outcomes"):
            mine, more = getattr(self, name), getattr(other, name)
            for key, count in more.items():
                mine[key] = mine.get(key, 0) + count
        for name in (
            "worlds",
            "equal",
            "held",
            "on_the_cap",
            "narrowed",
            "taken",
            "turned",
        ):
            setattr(self, name, getattr(self, name) + getattr(other, name))
        self.failures += other.failures

    def count(self, profile: str, outcome: Outcome | None) -> None:
        self.limits[profile] = self.limits.get(profile, 0) + 1
        said = outcome in DECIDED
        self.decided[profile] = self.decided.get(profile, 0) + said
        self.outcomes[str(outcome)] = self.outcomes.get(str(outcome), 0) + 1

    def share(self, profile: str) -> float:
        """Share of the limits of a profile that came out within or over."""
        return self.decided.get(profile, 0) / max(self.limits.get(profile, 0), 1)


def summary(tally: Tally) -> str:
    """What was seen, in a few lines: the share decided is the tool's usefulness."""
    on_the_cap = f"({tally.on_the_cap} exactly on the cap)"
    equal = f"{tally.equal} ranges equal to the brute force"
    changed = f"{tally.narrowed} said more exactly, {tally.taken} with something taken"
    lines = [
        f"{tally.worlds} worlds, {len(tally.failures)} failures",
        f"{sum(tally.limits.values())} limits {on_the_cap}",
        f"outcomes: {tally.outcomes}",
        f"{equal}, {tally.held} hold the hull of the unknowns in common",
        f"{changed} away, {tally.turned} turning points tried",
    ]
    lines += [
        f"decided with {profile}: {100 * tally.share(profile):.1f} % of "
        f"{tally.limits.get(profile, 0)}"
        for profile in PROFILES
    ]
    return "\n".join(lines)
