"""Draws caps around the truth: on it, at the ends of what is known, and elsewhere."""

from fractions import Fraction
from random import Random

from tests.blurred import said
from tests.blurred.draw_shelf import FULL, UNWEIGHED
from tests.blurred.forms import TooManyError
from tests.blurred.hull import Hull
from tests.blurred.physics import Truth
from tests.blurred.substances import GROUPS, SUBSTANCES
from tests.blurred.world import Cap, World

_CATEGORIES = ("9", "4", "10A")
_COMPONENTS = (
    *((name, cas) for cas, (name, _) in GROUPS.items()),
    *((one.name, one.cas) for one in SUBSTANCES.values() if one.cas),
    ("Eucalyptol", None),
    ("Limonene", None),
    ("Citric acid", "77-92-9"),
)
_LONGEST = 60


class Capper:
    """Writes the caps of one world.

    Parameters
    ----------
    rng : Random
        Where chance comes from.
    world : World
        The world, its recipe written.
    truth : Truth
        Its true percents.
    hull : Hull
        What is known of them.
    """

    def __init__(self, rng: Random, world: World, truth: Truth, hull: Hull) -> None:
        self.rng, self.world, self.truth, self.hull = rng, world, truth, hull
        self.strict = world.profile in (FULL, UNWEIGHED)

    def write(self) -> None:
        """Draw caps on the load, on materials and on components."""
        rng, world = self.rng, self.world
        world.category = rng.choice(_CATEGORIES)
        world.has_basis = self.strict or rng.random() < 0.6
        world.current = rng.choice((None, "51"))
        if rng.random() < 0.5:
            self._add("load", None, "", None)
        used = list(dict.fromkeys(leaf[0] for leaf in self.truth.made.wet))
        for name in used:
            if world.materials[name].scented and rng.random() < 0.6:
                self._certificate(name)
        choice = [
            pair for pair in _COMPONENTS if not self.strict or self._decided(*pair)
        ]
        near = [pair for pair in choice if self._holds(*pair)]
        for _ in range(rng.randint(1, 3)):
            name, cas = rng.choice(near if near and rng.random() < 0.8 else choice)
            if rng.random() < 0.2:
                self._categories("component", None, name, cas)
            else:
                self._add("component", None, name, cas)
        if rng.random() < 0.12:
            self._summed(near or choice)

    def _decided(self, name: str, cas: str | None) -> bool:
        """Whether full papers leave no open match for a component."""
        own = Cap("component", "", None, name=name, cas=cas).own
        return cas != "64-17-5" and not self.hull.open_matches(own)

    def _holds(self, name: str, cas: str | None) -> bool:
        own = Cap("component", "", None, name=name, cas=cas).own
        return self.truth.component_grams(own)[1] > 0

    # -- one entry ---------------------------------------------------------

    def _certificate(self, material: str) -> None:
        if self.rng.random() < 0.5:
            self._add("material", material, "", None)
        else:
            self._categories("material", material, "", None)
            if self.rng.random() < 0.15:
                self._categories("material", material, "", None)

    def _categories(
        self, on: str, material: str | None, name: str, cas: str | None
    ) -> None:
        number = len(self.world.caps)
        edition = "49" if not self.strict and self.rng.random() < 0.1 else "51"
        chosen = [c for c in _CATEGORIES if self.rng.random() < 0.7]
        if self.strict:
            chosen = list(_CATEGORIES)
        for category in chosen:
            cap = self._cap(on, material, name, cas)
            cap.category, cap.document, cap.edition = (
                category,
                f"paper {number}",
                edition,
            )
            self.world.caps.append(cap)

    def _add(self, on: str, material: str | None, name: str, cas: str | None) -> None:
        cap = self._cap(on, material, name, cas)
        cap.document = f"paper {len(self.world.caps)}"
        if not self.strict and self.rng.random() < 0.05:
            cap.edition = "49"
        self.world.caps.append(cap)

    def _summed(self, choice: list[tuple[str, str | None]]) -> None:
        for name, cas in dict.fromkeys(self.rng.choices(choice, k=2)):
            cap = self._cap("component", None, name, cas)
            if cap.percent is None or cap.percent == 0:
                continue
            cap.percent *= 2
            cap.printed = f"{said.digits(cap.percent)} %"
            cap.summed_with, cap.document = "phototoxic", "paper of sums"
            if cap.percent < 100:
                self.world.caps.append(cap)

    def _cap(self, on: str, material: str | None, name: str, cas: str | None) -> Cap:
        shelved = self.rng.random() < 0.8
        cap = Cap(on, "", None, material=material, name=name, cas=cas, shelved=shelved)
        if self.rng.random() < 0.1 and not self.strict:
            return self._without_number(cap)
        cap.percent = self._percent(cap)
        text = said.digits(cap.percent)
        cap.printed = self.rng.choice((f"{text} %", f"{text}", f"max {text} %"))
        if cap.percent == 0:
            cap.printed = self.rng.choice(("0", "not permitted", "0.00"))
        return cap

    def _without_number(self, cap: Cap) -> Cap:
        printed, state = self.rng.choice(
            (
                ("not restricted", "no restriction"),
                ("100", "no restriction"),
                ("N/A", "not applicable"),
                ("-", "missing"),
                ("", "missing"),
                ("0.5 % (from natural sources only)", "not added"),
                ("not permitted", "limit"),
            )
        )
        cap.printed, cap.state = printed, state
        cap.percent = {"not added": Fraction(1, 2), "limit": Fraction(0)}.get(state)
        return cap

    def _percent(self, cap: Cap) -> Fraction:
        """A number for the cap: on the truth, at an end, near it, or far."""
        rng = self.rng
        true = rng.choice(self._true(cap))
        pick = rng.random()
        if pick < 0.25:
            chosen = true
        elif pick < 0.45:
            chosen = rng.choice(self._ends(cap) or [true])
        elif pick < 0.75:
            chosen = self._rounded(true * Fraction(rng.randint(80, 120), 100))
        else:
            chosen = self._rounded(true * Fraction(rng.choice((2, 5, 20, 50)), 10))
        if chosen <= 0:
            chosen = rng.choice((Fraction(0), Fraction(1, 1000), Fraction(1, 10)))
        writable = said.is_decimal(chosen) and len(said.digits(chosen)) <= _LONGEST
        if chosen >= 100 or not writable:
            chosen = self._rounded(min(chosen, Fraction(99)))
        return chosen

    def _true(self, cap: Cap) -> tuple[Fraction, ...]:
        if cap.on == "component":
            return self.truth.component(cap.own)
        if cap.on == "material":
            return (self.truth.material(cap.material or ""),)
        return (self.truth.load(),)

    def _ends(self, cap: Cap) -> list[Fraction]:
        try:
            if cap.on == "component":
                known = self.hull.component(cap.own)
                return [end for ends in known.values() for end in ends if 0 < end < 100]
            return list(self.hull.leaves(cap.material))
        except TooManyError:
            return []

    def _rounded(self, value: Fraction) -> Fraction:
        places = self.rng.choice((1, 2, 3, 6))
        return Fraction(round(value * 10**places), 10**places)
