"""Draws a recipe: by grams, parts or percent, with drops, volumes and stock blends."""

from fractions import Fraction
from itertools import pairwise
from random import Random

from tests.blurred import said
from tests.blurred.draw_shelf import FULL, RANGES, Shelf
from tests.blurred.physics import make
from tests.blurred.plan import GRAMS, MILLILITRES, make_plan
from tests.blurred.said import Said
from tests.blurred.world import DROP, Blend, Material, Part, Stock


class Writer:
    """Writes the recipe of one world.

    Parameters
    ----------
    rng : Random
        Where chance comes from.
    shelf : Shelf
        The shelf to take from.
    """

    def __init__(self, rng: Random, shelf: Shelf) -> None:
        self.rng, self.shelf, self.world = rng, shelf, shelf.world
        self.doubts = shelf.doubts

    # -- amounts -----------------------------------------------------------

    def mass(self, grams: Fraction, where: str, *, loose: bool) -> tuple[Said, str]:
        """An amount by weight, in some unit, as a number or as a range."""
        unit, shown = self.rng.choice(
            (("g", "g"), ("g", " g"), ("g", " grams"), ("kg", " kg"), ("mg", " mg"))
        )
        value = grams / GRAMS[unit]
        if self.rng.random() < 0.08:
            unit, shown = "oz", " oz wt"
            value = Fraction(max(round(grams / 7), 1), 4)
        return self._amount(value, where, unit, shown, loose=loose)

    def _amount(
        self, value: Fraction, where: str, unit: str, shown: str, *, loose: bool
    ) -> tuple[Said, str]:
        text = said.exactly(value, shown)
        if loose and value and self.rng.random() < 0.4:
            width = value * Fraction(self.rng.choice((2, 5, 20)), 100)
            low, high = value - width, value + width
            low, high = self.rng.choice(((low, high), (value, high), (low, value)))
            text = Said(f"{said.digits(low)}-{said.digits(high)}{shown}", low, high)
        self.shelf.know(("amount", where), text, value)
        return text, unit

    def _volume(self, grams: Fraction, where: str) -> tuple[Said, str]:
        unit, shown = self.rng.choice(
            (
                ("mL", " mL"),
                ("mL", "ml"),
                ("tsp", " tsp"),
                ("metric tsp", " metric tsp"),
            )
        )
        value = grams / MILLILITRES[unit]
        value = Fraction(max(round(value * 4), 1), 4)
        return self._amount(value, where, unit, shown, loose=self.doubts.amounts)

    def _drops(self, grams: Fraction, where: str) -> tuple[Said, str]:
        value = Fraction(max(1, round(grams * 28)))
        return self._amount(value, where, "drop", " drops", loose=self.doubts.amounts)

    def scent_amount(
        self, material: Material, grams: Fraction, where: str
    ) -> tuple[Said, str]:
        """How an oil is measured out: weighed, poured or dropped."""
        pick = self.rng.random()
        poured = material.density is not None and self.world.profile not in (
            FULL,
            RANGES,
        )
        if poured and self.doubts.densities and pick < 0.4:
            return self._volume(grams, where)
        if pick < 0.7 and self._may_drop(material):
            self._know_drop(material)
            return self._drops(grams, where)
        return self.mass(grams, where, loose=self.doubts.amounts)

    def _may_drop(self, material: Material) -> bool:
        weighed = material.weighed.get("drop")
        if weighed is not None and not weighed.loose:
            return True
        return self.doubts.drops and (weighed or material.density) is not None

    def _know_drop(self, material: Material) -> None:
        key = ("drop", material.id)
        if "drop" not in material.weighed and key not in self.world.true:
            value = DROP.low + (DROP.low) * Fraction(self.rng.randint(0, 10), 10)
            self.shelf.know(key, DROP, value)

    # -- lines -------------------------------------------------------------

    def line(
        self, material: Material, grams: Fraction, where: str, *, scent: bool = False
    ) -> Part:
        lot = self.rng.choice(material.lots).id
        if scent:
            text, unit = self.scent_amount(material, grams, where)
        else:
            loose = self.doubts.amounts and self.rng.random() < 0.3
            text, unit = self.mass(grams, where, loose=loose)
        alone = len(material.lots) == 1 and self.rng.random() < 0.5
        return Part(where, material.id, None, lot, text, unit, names_lot=not alone)

    def relative(
        self, material: Material, number: Fraction, unit: str, where: str
    ) -> Part:
        """A line in parts or percent."""
        printed = {
            "part": " parts",
            "%": " %",
            "% of finished": " % of finished",
            "% of powders": " % of the powders",
            "% of wet mix": " % of the wet mix",
            "% of soaping oils": " % of the soaping oils",
        }
        lot = self.rng.choice(material.lots).id
        return Part(
            where, material.id, None, lot, said.exactly(number, printed[unit]), unit
        )

    # -- the parts of a recipe ---------------------------------------------

    def write(self) -> None:
        """Draw how the recipe is written, then its base and its scent."""
        rng, shelf, world = self.rng, self.shelf, self.world
        oils = [shelf.oil(n) for n in range(1, rng.choice((1, 2, 2, 3)) + 1)]
        if rng.random() < 0.35:
            oils.append(shelf.crystals())
        mode = rng.choice(
            ("grams", "grams", "round", "parts", "percent", "oils", "powders")
        )
        size = Fraction(rng.choice((200, 250, 500, 1000, 1440, 1474)))
        getattr(self, f"_{mode}")(size)
        if rng.random() < 0.5 and "spirit" not in world.materials:
            shelf.alcohol()
        if "spirit" in world.materials and rng.random() < 0.8:
            self._spritz(size, mode)
        self._scent(oils, size, mode)
        if mode == "round":
            self._fill_up(size)

    def _base(self, number: int) -> Material:
        names = (
            ("soda", "solid", "144-55-8"),
            ("citric", "solid", "77-92-9"),
            ("clay", "solid", None),
            ("polysorbate", "emulsifier", "9005-65-6"),
        )
        name, kind, cas = names[number]
        return self.shelf.plain(name, kind, cas, "inert")

    def _grams(self, size: Fraction) -> None:
        for n in range(self.rng.randint(1, 3)):
            grams = size * Fraction(self.rng.randint(10, 60), 100)
            self.world.lines.append(self.line(self._base(n), grams, f"line[{n + 1}]"))

    def _round(self, size: Fraction) -> None:
        del size
        self.world.lines.append(self.line(self._base(1), Fraction(20), "line[1]"))

    def _fill_up(self, size: Fraction) -> None:
        """Weigh in the last base up to a round finished mass, where that can be."""
        world = self.world
        made = make(world, make_plan(world), world.true.__getitem__)
        grams = size - made.finished
        if grams > 0 and said.is_decimal(grams) and grams.denominator <= 10**9:
            where = f"line[{len(world.lines) + 1}]"
            text = said.exactly(grams, " g")
            self.shelf.know(("amount", where), text, grams)
            world.lines.append(
                Part(
                    where,
                    self._base(0).id,
                    None,
                    world.materials["soda"].lots[0].id,
                    text,
                    "g",
                )
            )

    def _parts(self, size: Fraction) -> None:
        self._pieces(size)
        numbers = self.rng.choice(((2, 1), (4, 2, 1), (3, 2), (1,)))
        for n, number in enumerate(numbers):
            part = self.relative(
                self._base(n), Fraction(number), "part", f"line[{n + 1}]"
            )
            self.world.lines.append(part)

    def _pieces(self, size: Fraction) -> None:
        rng, world = self.rng, self.world
        world.pieces = rng.choice((4, 12, 24))
        value = Fraction(max(round(size / world.pieces), 2))
        text = said.exactly(value, " g")
        if self.doubts.amounts and rng.random() < 0.3:
            text = Said(
                f"{said.digits(value - 1)}-{said.digits(value + 1)} g",
                value - 1,
                value + 1,
            )
        world.piece_mass = text
        self.shelf.know(("amount", "piece_mass"), text, value)
        if rng.random() < 0.4:
            world.loss = said.exactly(Fraction(rng.choice((2, 5, 10))))

    def _percent(self, size: Fraction) -> None:
        """Percents of the finished product that fill it, the scent's load included."""
        self._pieces(size)
        load = self._load_text()
        left = 100 - load.low
        first = Fraction(self.rng.randint(30, 80))
        for n, number in enumerate((first, left - first)):
            part = self.relative(
                self._base(n), number, "% of finished", f"line[{n + 1}]"
            )
            self.world.lines.append(part)
        self.world.blend = Blend([], load, "the total")

    def _oils(self, size: Fraction) -> None:
        self.world.product = "soap"
        for n, name in enumerate(("olive", "coconut")):
            material = self.shelf.plain(name, "soaping oil", None, "inert")
            grams = size * Fraction(self.rng.randint(20, 40), 100)
            self.world.lines.append(self.line(material, grams, f"line[{n + 1}]"))
        lye = self.shelf.plain("lye", "solid", "1310-73-2", "inert")
        number = Fraction(self.rng.randint(120, 150), 10)
        self.world.lines.append(
            self.relative(lye, number, "% of soaping oils", "line[3]")
        )

    def _powders(self, size: Fraction) -> None:
        for n in range(2):
            grams = size * Fraction(self.rng.randint(20, 50), 100)
            self.world.lines.append(self.line(self._base(n), grams, f"line[{n + 1}]"))
        unit = self.rng.choice(("% of powders", "% of wet mix", "% of finished"))
        number = Fraction(self.rng.randint(5, 60), 10)
        self.world.lines.append(self.relative(self._base(3), number, unit, "line[3]"))

    def _spritz(self, size: Fraction, mode: str) -> None:
        world, rng = self.world, self.rng
        spirit = world.materials["spirit"]
        where = f"line[{len(world.lines) + 1}]"
        leaves = spirit.leaves
        if mode == "percent":
            gone = leaves is None or leaves.high == 100
            if gone:
                world.lines.append(
                    self.relative(spirit, Fraction(5), "% of finished", where)
                )
            return
        line = self.line(spirit, size * Fraction(rng.randint(1, 5), 100), where)
        if self.doubts.drying and rng.random() < 0.3:
            low = Fraction(rng.choice((40, 80)))
            line.leaves = Said(
                f"{said.digits(low)}-{said.digits(low + 20)} %", low, low + 20
            )
            self.shelf.know(
                ("leaves", where), line.leaves, low + Fraction(rng.randint(0, 20))
            )
        world.lines.append(line)
        if rng.random() < 0.15:
            where = f"line[{len(world.lines) + 1}]"
            world.lines.append(self.line(spirit, size / 50, where))

    # -- the scent ---------------------------------------------------------

    def _load_text(self) -> Said:
        return said.exactly(Fraction(self.rng.randint(2, 80), 10))

    def _scent(self, oils: list[Material], size: Fraction, mode: str) -> None:
        rng, world = self.rng, self.world
        if mode == "percent":  # its lines have to fill the finished product
            oils = [oil for oil in oils if self._stays(oil)] or [self._carrier()]
        things: list[Material | Stock] = list(oils)
        if rng.random() < 0.35:
            things = self._into_stock(things)
        if mode in ("oils", "powders") and rng.random() < 0.5:
            oil = oils[0]
            unit = "% of soaping oils" if mode == "oils" else "% of powders"
            where = f"line[{len(world.lines) + 1}]"
            world.lines.append(
                self.relative(oil, Fraction(rng.randint(5, 50), 10), unit, where)
            )
        loaded = world.blend is not None or rng.random() < 0.45
        if loaded:
            self._loaded_blend(things)
            return
        parts = [
            self._scent_line(thing, size, f"blend.line[{n}]")
            for n, thing in enumerate(things, start=1)
        ]
        if rng.random() < 0.3:
            for part in parts:
                where = f"line[{len(world.lines) + 1}]"
                world.said[("amount", where)] = world.said.pop(("amount", part.where))
                world.true[("amount", where)] = world.true.pop(("amount", part.where))
                part.where = where
                world.lines.append(part)
        else:
            world.blend = Blend(parts)

    def _stays(self, oil: Material) -> bool:
        diluent = None if oil.dilution is None else oil.dilution.diluent
        return not oil.dries and diluent != "spirit"

    def _scent_line(self, thing: Material | Stock, size: Fraction, where: str) -> Part:
        grams = size * Fraction(self.rng.choice((1, 2, 5, 10, 20, 40, 80)), 1000)
        if isinstance(thing, Material):
            return self.line(thing, grams, where, scent=True)
        text, unit = self.mass(grams, where, loose=self.doubts.amounts)
        return Part(where, None, thing.id, None, text, unit)

    def _loaded_blend(self, things: list[Material | Stock]) -> None:
        rng, world = self.rng, self.world
        if world.blend is None:
            load = self._load_text()
            world.blend = Blend(
                [], load, rng.choice(("the total", "on top of the base"))
            )
        world.blend.parts = self._lines_of_blend(things, "blend")

    def _lines_of_blend(self, things: list[Material | Stock], name: str) -> list[Part]:
        """Lines of a blend, all by parts, all by percent, or all by amounts."""
        rng = self.rng
        way = rng.choice(("part", "%", "amounts"))
        where = [f"{name}.line[{n}]" for n in range(1, len(things) + 1)]
        if way == "amounts":
            return [
                self._scent_line(thing, Fraction(1000), place)
                for thing, place in zip(things, where, strict=True)
            ]
        numbers = [Fraction(rng.randint(1, 9)) for _ in things]
        if way == "%":
            cuts = sorted(rng.sample(range(1, 100), len(things) - 1))
            ends = [0, *cuts, 100]
            numbers = [Fraction(b - a) for a, b in pairwise(ends)]
        lines = []
        for thing, number, place in zip(things, numbers, where, strict=True):
            if isinstance(thing, Material):
                lines.append(self.relative(thing, number, way, place))
            else:
                shown = " parts" if way == "part" else " %"
                lines.append(
                    Part(place, None, thing.id, None, said.exactly(number, shown), way)
                )
        return lines

    def _into_stock(self, things: list[Material | Stock]) -> list[Material | Stock]:
        """Mix some of the oils ahead, now and then inside another stock blend."""
        rng = self.rng
        count = rng.randint(1, len(things))
        inside, outside = things[:count], things[count:]
        if rng.random() < 0.5:
            inside = [*inside, self._carrier()]
        stock = self._stock("first", inside)
        if rng.random() < 0.35:
            more: list[Material | Stock] = [stock, *(outside or [self._carrier()])]
            stock = self._stock("second", more)
        again = [things[0]] if rng.random() < 0.3 else []
        return [stock, *outside, *again]

    def _carrier(self) -> Material:
        fills = self.world.blend is not None
        if self.doubts.drying and "spirit" in self.world.materials and not fills:
            return self.world.materials["spirit"]
        if self.rng.random() < 0.2:
            return self._base(2)
        return self.shelf.plain("jojoba", "carrier", None, "inert")

    def _stock(self, name: str, things: list[Material | Stock]) -> Stock:
        stock = Stock(name, self._lines_of_blend(things, name), self.rng.random() < 0.5)
        self.world.stocks[name] = stock
        return stock
