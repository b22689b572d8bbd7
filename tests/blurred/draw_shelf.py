"""Draws what stands on the shelf: bases, alcohol, oils with their lots and papers."""

from dataclasses import dataclass
from fractions import Fraction
from random import Random

from tests.blurred import said
from tests.blurred.draw_papers import Habits, add_papers
from tests.blurred.said import HUNDRED, ZERO, Said
from tests.blurred.substances import SUBSTANCES
from tests.blurred.world import Confirmed, Dilution, Lot, Material, World

GRID = Fraction(1, 100)
WATER_25 = Fraction("0.9970470")
"""Density of water at 25 degC [g/mL], Tanaka et al., Metrologia 38 (2001) 301: the
lightest water that a relative density without a reference may be meant against."""
FULL, RANGES, SHEETS, UNWEIGHED, PUBLISHED, MIXED = (
    "full papers",
    "ranges",
    "sheets",
    "unweighed",
    "published",
    "mixed",
)
PROFILES = (FULL, RANGES, SHEETS, UNWEIGHED, PUBLISHED, MIXED)

_STYLES = {
    FULL: ("full",),
    RANGES: ("chromatogram",),
    SHEETS: ("sheets", "sheets", "chromatogram", "none"),
    UNWEIGHED: ("full",),
    PUBLISHED: ("published", "published", "full"),
    MIXED: ("full", "chromatogram", "sheets", "sheets", "published", "none"),
}

_FREE = [key for key in SUBSTANCES if key not in {"ethanol", "carrier", "mystery"}]


@dataclass(frozen=True, slots=True)
class Doubts:
    """What may be unknown about the masses of one world."""

    amounts: bool
    densities: bool
    drops: bool
    drying: bool
    dilutions: bool


def doubts_of(rng: Random, profile: str) -> Doubts:
    if profile in (UNWEIGHED, MIXED):
        return Doubts(*(rng.random() < 0.4 for _ in range(5)))
    published = profile == PUBLISHED
    return Doubts(
        amounts=False,
        densities=published,
        drops=False,
        drying=rng.random() < 0.2 and published,
        dilutions=False,
    )


def composition(rng: Random, *, mystery: bool) -> dict[str, Fraction]:
    """What an oil truly holds, adding up to exactly 100 %."""
    keys = rng.sample(_FREE, rng.randint(2, 6))
    if mystery and rng.random() < 0.6:
        keys.append("mystery")
    rng.shuffle(keys)
    holds: dict[str, Fraction] = {}
    rest = HUNDRED
    for key in keys[:-1]:
        size = rng.choice(
            (Fraction(1, 50), Fraction(1, 5), Fraction(3, 5), Fraction(9, 10))
        )
        part = rest * size * Fraction(rng.randint(1, 20), 20)
        grid = rng.choice((GRID, Fraction(1, 10), Fraction(1, 2)))
        part = max(part // grid * grid, GRID)
        holds[key] = part
        rest -= part
    holds[keys[-1]] = rest
    return holds


class Shelf:
    """Fills the shelf of one world.

    Parameters
    ----------
    rng : Random
        Where chance comes from.
    world : World
        The world; its truth and its texts are filled in.
    """

    def __init__(self, rng: Random, world: World) -> None:
        self.rng, self.world = rng, world
        self.doubts = doubts_of(rng, world.profile)
        loose = world.profile not in (FULL, UNWEIGHED)
        self.habits = Habits(
            names=rng.random() < 0.4,
            groups=rng.random() < 0.6,
            mystery=rng.random() < 0.08,
            miss=loose and rng.random() < 0.7,
        )

    def know(self, key: tuple[str, ...], text: Said, value: Fraction) -> None:
        """Keep a figure and its true value."""
        self.world.said[key], self.world.true[key] = text, value

    def add(self, material: Material) -> Material:
        self.world.materials[material.id] = material
        if material.density is not None:
            self._densities(material)
        return material

    def _densities(self, material: Material) -> None:
        for lot in material.lots:
            if lot.id is not None and self.rng.random() < 0.3:
                lot.density = self.density()
            text = lot.density or material.density
            assert text is not None
            assert text.high is not None
            value = text.low
            if text.loose:
                value += (text.high - text.low) * Fraction(self.rng.randint(0, 10), 10)
            if material.density_published and self.rng.random() < 0.4:
                value *= Fraction(self.rng.choice((95, 97, 103, 105)), 100)
            self.know(("density", material.id, lot.id or "-"), text, value)

    def density(self) -> Said:
        """A density [g/mL], of a lot or of all of them."""
        value = Fraction(self.rng.randint(84, 98), 100)
        unit = " g/mL"
        if not self.doubts.densities or self.rng.random() < 0.4:
            return said.exactly(value, unit)
        if self.rng.random() < 0.2:  # relative to some water, or g/mL
            return Said(said.digits(value), value * WATER_25, value)
        low, high = said.around(self.rng, [value], width=Fraction(3, 100), grid=GRID)
        return Said(f"{said.digits(low)}-{said.digits(high)}{unit}", low, high)

    # -- unscented ---------------------------------------------------------

    def plain(self, name: str, kind: str, cas: str | None, key: str) -> Material:
        """A base, a carrier or an emulsifier: its own full composition."""
        if name in self.world.materials:
            return self.world.materials[name]
        lots = [Lot(None, {key: HUNDRED})]
        if self.rng.random() < 0.1:
            lots = [Lot(f"{name}/{n}", {key: HUNDRED}) for n in (1, 2)]
        return self.add(Material(name, name.capitalize(), kind, lots, cas=cas))

    def alcohol(self) -> Material:
        """A spritz that leaves, with water that may stay; or a floral water."""
        rng = self.rng
        kind = rng.choice(("alcohol", "alcohol", "alcohol", "water"))
        made = Material(
            "spirit",
            "Spirit",
            kind,
            [Lot(None, {"ethanol": HUNDRED})],
            cas="64-17-5",
            last_to_leave=("ethanol",),
        )
        made.density = self.density()
        key = ("leaves", made.id)
        pick = rng.random()
        if not self.doubts.drying:
            made.leaves = said.exactly(Fraction(rng.choice((95, 100))))
            self.know(key, made.leaves, made.leaves.low)
        elif pick < 0.25:
            value = Fraction(rng.randint(0, 100))
            self.know(key, Said("", ZERO, HUNDRED), value)
        else:
            low = Fraction(rng.choice((60, 70, 90, 98)))
            made.leaves = Said(f"{said.digits(low)}-100 %", low, HUNDRED)
            value = low + (100 - low) * Fraction(rng.randint(0, 10), 10)
            self.know(key, made.leaves, value)
        return self.add(made)

    # -- scented -----------------------------------------------------------

    def crystals(self) -> Material:
        """Menthol as a single substance, or citral, which is a group of two."""
        citral = self.rng.random() < 0.2
        if citral:
            share = Fraction(self.rng.randint(55, 75))
            holds = {"geranial": share, "neral": 100 - share}
            made = Material(
                "citral",
                "Citral",
                "aroma chemical",
                [Lot(None, holds)],
                cas="5392-40-5",
            )
        else:
            made = Material(
                "crystals",
                "Menthol crystals",
                "aroma chemical",
                [Lot(None, {"menthol": HUNDRED})],
                cas="2216-51-5",
            )
        if self.rng.random() < 0.2:
            return self.diluted(made)
        return self.add(made)

    def oil(self, number: int) -> Material:
        """An essential or fragrance oil with its lots and papers."""
        rng = self.rng
        name = f"oil{number}" if rng.random() < 0.9 else f"oil/{number}"
        kind = rng.choice(("essential oil", "essential oil", "fragrance oil"))
        lots = self._lots(number)
        made = Material(name, f"Oil {number}", kind, lots)
        diluted = rng.random() < 0.25
        if diluted and rng.random() < 0.5:
            self._mix_in_carrier(made)
        made.density = self.density() if rng.random() < 0.8 else None
        if made.density and self.world.profile in (PUBLISHED, MIXED):
            made.density_published = rng.random() < 0.5
        if made.density is None or rng.random() < 0.3:
            self._weigh_drop(made)
        style = rng.choice(_STYLES[self.world.profile])
        made.papers = add_papers(rng, made.lots, style, self.habits)
        if self.doubts.drying and rng.random() < 0.2:
            self._tincture(made)
        return self.diluted(made) if diluted else self.add(made)

    def _lots(self, number: int) -> list[Lot]:
        rng = self.rng
        count = rng.choice((1, 1, 2))
        mystery = self.habits.mystery
        if count == 1 and rng.random() < 0.6:
            return [Lot(None, composition(rng, mystery=mystery))]
        first = composition(rng, mystery=mystery)
        lots = [Lot(f"{number}/1", first)]
        if count == 2:
            lots.append(Lot(f"{number}/2", self._like(first)))
        return lots

    def _like(self, holds: dict[str, Fraction]) -> dict[str, Fraction]:
        """Another lot of the same oil: a little moved from one to another."""
        more = dict(holds)
        a, b = self.rng.sample(list(more), 2)
        moved = more[a] * Fraction(self.rng.randint(0, 3), 10) // GRID * GRID
        more[a] -= moved
        more[b] += moved
        return {key: share for key, share in more.items() if share}

    def _weigh_drop(self, made: Material) -> None:
        value = Fraction(self.rng.randint(250, 410), 10_000)
        if self.doubts.drops and self.rng.random() < 0.4:
            # not below what an unweighed drop is taken for
            low = max(value * Fraction(9, 10), Fraction(245, 10_000))
            text = Said(f"{said.digits(low)}-{said.digits(value)} g", low, value)
        else:
            text = said.exactly(value, " g")
        made.weighed["drop"] = text
        self.know(("measure", made.id, "drop"), text, value)

    def _tincture(self, made: Material) -> None:
        """An oil of which a part leaves with the spritz."""
        low = Fraction(self.rng.choice((10, 50, 80)))
        value = low + Fraction(self.rng.randint(0, 10))
        made.leaves = Said(
            f"{said.digits(low)}-{said.digits(low + 10)} %", low, low + 10
        )
        self.know(("leaves", made.id), made.leaves, value)
        made.last_to_leave = self._order(made)

    def _order(self, made: Material) -> tuple[str, ...]:
        keys = sorted({key for lot in made.lots for key in lot.holds})
        self.rng.shuffle(keys)
        return tuple(keys)

    def _mix_in_carrier(self, made: Material) -> None:
        """Sold mixed with a carrier, and described as it is sold."""
        percent = Fraction(self.rng.choice((5, 10, 25, 50)))
        for lot in made.lots:
            lot.holds = {k: v * percent / 100 for k, v in lot.holds.items()}
            lot.holds["carrier"] = 100 - percent
        made.dilution = Dilution(said.exactly(percent), "almond", "as sold")

    def diluted(self, made: Material) -> Material:
        """Sell it diluted, and keep the diluent on the shelf."""
        rng = self.rng
        if made.dilution is None:
            diluent = (
                "spirit" if self.doubts.drying and rng.random() < 0.2 else "almond"
            )
            percent = Fraction(rng.choice((5, 10, 20, 50)))
            text = said.exactly(percent)
            if self.doubts.dilutions:
                low, high = percent - rng.randint(0, 2), percent + rng.randint(1, 2)
                text = Said(f"{said.digits(low)}-{said.digits(high)} %", low, high)
            made.dilution = Dilution(text, diluent, "undiluted")
            self.know(("dilution", made.id), text, percent)
        self.add(made)
        if "almond" not in self.world.materials:
            self.add(
                Material(
                    "almond",
                    "Almond oil",
                    "carrier",
                    [Lot(None, {"carrier": HUNDRED})],
                    cas="73398-61-5",
                )
            )
        if made.dilution.diluent not in self.world.materials:
            self.alcohol()
        return made

    def confirm(self) -> None:
        """Answer the proposed matches: all of them, or as it comes."""
        rng, world = self.rng, self.world
        every = world.profile in (FULL, UNWEIGHED, RANGES)
        pairs = (
            ("141-27-5", "5392-40-5"),
            ("106-26-3", "5392-40-5"),
            ("5989-27-5", "138-86-3"),
            ("5989-54-8", "138-86-3"),
        )
        for cas, group in pairs:
            if every or rng.random() < 0.5:
                world.confirmed.append(Confirmed(cas, counts_as=group))
        names = (
            ("Eucalyptol", "470-82-6"),
            ("Linalool", "78-70-6"),
            ("Limonene", "5989-27-5"),
            ("Menthol", "2216-51-5"),
            ("Laurel camphor", "76-22-2"),
        )
        for name, cas in names:
            if name == "Eucalyptol" and self.habits.mystery:
                world.confirmed.append(Confirmed(cas, name=name, same=False))
            elif every or rng.random() < 0.5:
                world.confirmed.append(Confirmed(cas, name=name))
