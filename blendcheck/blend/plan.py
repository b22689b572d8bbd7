"""From the lines as written to grams: amounts, parts, percents and loads."""

from collections.abc import Callable, Mapping
from fractions import Fraction

from blendcheck.blend.balance_rules import line_how
from blendcheck.blend.grams import grams_of
from blendcheck.blend.shelf import Shelf
from blendcheck.blend.solve import TOTALS, LineKind, LineRule, Total
from blendcheck.errors import InputError, RecipeError
from blendcheck.frozen import Frozen
from blendcheck.interval import Range
from blendcheck.quantity import Base
from blendcheck.records.mass import NOTHING, Key, key_of
from blendcheck.records.material import Material, StockLine
from blendcheck.records.recipe import Line
from blendcheck.records.working import Figure, Id

__all__ = ["LineMass", "Planner"]

_OF_BASE: Mapping[Base | None, LineKind] = {
    None: "of finished",
    Base.FINISHED: "of finished",
    Base.POWDERS: "of powders",
    Base.SOAPING_OILS: "of soaping oils",
    Base.WET: "of wet mix",
}


class LineMass(Frozen):
    """A line of the recipe as it is weighed: what it is, and the step of its mass."""

    where: str
    says: str
    material: str | None
    stock: str | None
    lot: str | None
    grams: Id
    in_blend: bool


class Planner:
    """Gives every line of a recipe its grams.

    Parameters
    ----------
    shelf : Shelf
        What the recipe names.
    """

    def __init__(self, shelf: Shelf) -> None:
        self.shelf, self.recipe, self.working = shelf, shelf.recipe, shelf.working

    def plan(self) -> tuple[list[tuple[LineMass, Line | StockLine]], dict[Total, Id]]:
        """Return every line with the step of its mass, and the planned totals.

        Raises
        ------
        InputError, RecipeError
            If a line cannot be weighed, or the lines cannot be solved together.
        """
        lines = self._top_lines()
        rules, given = list[str](), list[Id]()
        for where, line, _ in lines:
            value, made = self._line_rule(where, line)
            rules.append(line_how(made))
            given.append(value)
        totals = self._totals(rules, given)
        masses: list[tuple[LineMass, Line | StockLine]] = []
        for (where, line, in_blend), value, how in zip(
            lines, given, rules, strict=True
        ):
            grams = self._line_mass(where, line, value, how, totals)
            self._not_negative(where, grams)
            says = self.shelf.says(line)
            mass = LineMass(
                where, says, line.material, line.stock, line.lot, grams, in_blend
            )
            masses.append((mass, line))
        return masses, totals

    def _top_lines(self) -> list[tuple[str, Line | StockLine, bool]]:
        lines: list[tuple[str, Line | StockLine, bool]] = [
            (f"line[{n}]", line, False)
            for n, line in enumerate(self.recipe.line, start=1)
        ]
        blend = self.recipe.blend
        if blend is None:
            return lines
        if blend.load is None:
            return lines + [
                (f"blend.line[{n}]", line, True)
                for n, line in enumerate(blend.line, start=1)
            ]
        one_gram = Line(stock="blend", amount="1 g")
        return [*lines, ("blend", one_gram, True)]

    def _line_rule(self, where: str, line: Line | StockLine) -> tuple[Id, LineRule]:
        stays = self._stays(line, ())
        powder = self._kind_share(line, "solid", ())
        oil = self._kind_share(line, "soaping oil", ())
        if where == "blend":
            value, kind = self._load()
        else:
            value, kind = self._amount(where, line)
        number = Fraction(0) if kind == "fixed" else self.shelf.exact(where, value)
        return value, LineRule(kind, NOTHING, number, stays, powder, oil)

    def _load(self) -> tuple[Id, LineKind]:
        blend = self.recipe.blend
        load = None if blend is None else blend.load
        if blend is None or load is None:
            raise RecipeError("the blend has no load")
        key = self.working.add(
            Figure(Key("load"), load.printed, load.range, "%", f"load, of {blend.of}")
        )
        kind: LineKind = "of finished" if blend.of == "the total" else "on top"
        return Id(key), kind

    def _amount(self, where: str, line: Line | StockLine) -> tuple[Id, LineKind]:
        amount = line.amount
        if amount.kind in ("parts", "percent"):
            key = self.working.add(
                Figure(
                    key_of("amount", where),
                    amount.printed,
                    amount.number,
                    "%" if amount.kind == "percent" else "parts",
                    f"{self.shelf.says(line)}, as written",
                )
            )
            if amount.kind == "parts":
                return Id(key), "parts"
            if amount.base not in _OF_BASE:
                raise InputError(
                    f'"{amount.printed}" is a percent of something a line cannot be '
                    "weighed by",
                    "write it of the finished mass, the powders, the soaping oils or "
                    "the wet mix",
                    where=where,
                )
            return Id(key), _OF_BASE[amount.base]
        return self.shelf.grams(where, line), "fixed"

    def _totals(self, rules: list[str], given: list[Id]) -> dict[Total, Id]:
        target = (
            self._target() if any(not r.startswith("fixed") for r in rules) else None
        )
        ids = (*given, target) if target is not None else tuple(given)
        return {
            name: Id(
                self.working.work(
                    f"total/{name}",
                    "total of the recipe",
                    ids,
                    unit="g",
                    says=f"planned {name}",
                    how=(name, *rules),
                ).id
            )
            for name in TOTALS
            if name != "one part" or any(r.startswith("parts") for r in rules)
        }

    def _target(self) -> Id | None:
        """Return the finished mass to make, with the allowance for what is lost."""
        piece, pieces = self.recipe.piece_mass, self.recipe.pieces
        if piece is None or pieces is None:
            return None
        each = grams_of(piece, None, None, "piece_mass", "one piece", self.working)
        count = self.working.add(
            Figure(Key("pieces"), str(pieces), Range.at(pieces), "", "pieces to make")
        )
        made = self.working.work(
            "target/pieces",
            "product",
            (count, each),
            unit="g",
            says="mass of all pieces",
        )
        loss = self.recipe.allowance_for_loss
        if loss is None or loss.range.high is None or loss.range.high == 0:
            return made.id
        kept = self.working.add(
            Figure(
                Key("kept"),
                f"1 less {loss.printed}",
                Range.at(1 - loss.range.high / 100),
                "",
                "share of the mix that becomes pieces",
            )
        )
        return self.working.work(
            "target", "divided", (made.id, kept), unit="g", says="finished mass to make"
        ).id

    def _line_mass(
        self, where: str, line: StockLine, value: Id, how: str, totals: dict[Total, Id]
    ) -> Id:
        kind = how.split("|")[0]
        says = f"{self.shelf.says(line)}, weighed"
        if kind == "fixed":
            return value
        if kind == "parts":
            return self.working.work(
                f"grams/{where}",
                "product",
                (value, totals["one part"]),
                unit="g",
                says=says,
            ).id
        base: Total = {
            "of finished": "finished",
            "on top": "finished",
            "of powders": "powders",
            "of soaping oils": "soaping oils",
            "of wet mix": "wet mix",
        }[kind]  # type: ignore[assignment]
        return self.working.work(
            f"grams/{where}",
            "percent of",
            (value, totals[base]),
            unit="g",
            says=says,
            how=("on top",) if kind == "on top" else (),
        ).id

    def _not_negative(self, where: str, grams: Id) -> None:
        low = self.working.range(grams).low
        if low is None or low < 0:
            raise RecipeError(
                f"{where}: its grams come out below 0, so the other lines already "
                "fill the recipe: correct their percents or the mass to make"
            )

    def _stays(self, line: Line | StockLine, path: tuple[str, ...]) -> Fraction:
        """Share of a line that is left when all that can leave has left."""

        def leaf(material: Material, one: Line | StockLine) -> Fraction:
            own = one.leaves_on_drying if isinstance(one, Line) else None
            leaves = self.shelf.leaves(material, "plan" if own else None, own)
            if leaves is None:
                return Fraction(1)
            high = self.working.range(leaves).high
            return 1 - (Fraction(100) if high is None else high) / 100

        return self._fraction(line, leaf, path)

    def _kind_share(
        self, line: Line | StockLine, kind: str, path: tuple[str, ...]
    ) -> Fraction:
        return self._fraction(line, lambda m, _: Fraction(int(m.kind == kind)), path)

    def _fraction(
        self,
        line: Line | StockLine,
        leaf: Callable[[Material, Line | StockLine], Fraction],
        path: tuple[str, ...],
    ) -> Fraction:
        """Weigh a property of leaves by their share of a line (low parts of a mix)."""
        if line.material is not None:
            return leaf(self.shelf.materials.get(line.material), line)
        stock = self.shelf.stock(line.stock or "")
        if stock.id in path:
            chain = " → ".join((*path[path.index(stock.id) :], stock.id))
            raise RecipeError(f"a stock blend contains itself: {chain}")
        parts = self.shelf.parts(stock)
        weights = [self.working.range(i).low or Fraction(0) for _, i in parts]
        total = sum(weights, Fraction(0))
        if total == 0:
            return Fraction(1)
        return (
            sum(
                (
                    w * self._fraction(inner, leaf, (*path, stock.id))
                    for w, (inner, _) in zip(weights, parts, strict=True)
                ),
                Fraction(0),
            )
            / total
        )
