"""What a recipe names: materials, their lots, stock blends and their parts."""

from fractions import Fraction

from blendcheck.blend.grams import grams_of
from blendcheck.errors import InputError, RecipeError
from blendcheck.interval import Range
from blendcheck.quantity import Mark, Percent
from blendcheck.records.mass import Key, key_of
from blendcheck.records.material import Material, Materials, Stock, StockLine
from blendcheck.records.recipe import Recipe
from blendcheck.records.working import Figure, Given, Id, Working

__all__ = ["Shelf"]

_DEEPEST = 50
"""Stock blends inside one another, beyond which a mistake is likelier than a need."""

_MOST_LINES = 10_000
"""Lines of a recipe with its stock blends written out, for the same reason."""


class Shelf:
    """Looks up what lines name and turns amounts into steps, each once.

    Parameters
    ----------
    recipe, materials : Recipe, Materials
        What was written.
    working : Working
        Where figures and steps are kept.

    Raises
    ------
    InputError
        If two stock blends have the same id.
    """

    def __init__(self, recipe: Recipe, materials: Materials, working: Working) -> None:
        self.recipe, self.materials, self.working = recipe, materials, working
        self.stocks: dict[str, Stock] = {}
        for stock in (*materials.stock, *recipe.stock):
            if stock.id in self.stocks:
                raise InputError(
                    f'two stock blends have the id "{stock.id}"', "rename one of them"
                )
            if stock.id == "blend":
                raise InputError(
                    'a stock blend cannot have the id "blend"',
                    "that is the name of the recipe's own blend; rename it",
                )
            self.stocks[stock.id] = stock
        if recipe.blend is not None and recipe.blend.load is not None:
            self.stocks["blend"] = Stock(
                id="blend", name="the blend", line=recipe.blend.line
            )
        # a mist is sold wet: nothing leaves it unless the maker says so
        self.dries = recipe.product != "room mist"
        self.parts_done: dict[str, list[tuple[StockLine, Id]]] = {}

    def look_through(self) -> None:
        """Refuse what cannot be written out, before anything is weighed.

        Raises
        ------
        InputError
            If a line names something that is not there; the message names the line.
        RecipeError
            If a stock blend contains itself, or they hold one another without end.
        """
        blend = self.recipe.blend
        lines: list[tuple[str, StockLine]] = [
            (f"line[{n}]", line) for n, line in enumerate(self.recipe.line, start=1)
        ]
        if blend is not None:
            lines += [
                (f"blend.line[{n}]", line) for n, line in enumerate(blend.line, start=1)
            ]
        held: dict[str, int] = {}
        count = sum(self._lines_of(where, line, (), held) for where, line in lines)
        if count > _MOST_LINES:
            raise RecipeError(
                f"with its stock blends written out the recipe has {count} lines, more "
                f"than {_MOST_LINES}: some stock blend names others too often"
            )

    def _lines_of(
        self, where: str, line: StockLine, path: tuple[str, ...], held: dict[str, int]
    ) -> int:
        if line.material is not None:
            try:
                material = self.materials.get(line.material)
                if material.dilution is not None:
                    where = f'{where}, diluent of "{material.id}"'
                    self.materials.get(material.dilution.diluent)
            except InputError as error:
                raise error.at(where) from None
            return 1
        try:
            stock = self.stock(line.stock or "")
        except InputError as error:
            raise error.at(where) from None
        if stock.id in path:
            chain = " → ".join((*path[path.index(stock.id) :], stock.id))
            raise RecipeError(
                f"a stock blend contains itself: {chain}. Take one of these lines out"
            )
        if len(path) >= _DEEPEST:
            raise RecipeError(
                f"more than {_DEEPEST} stock blends lie inside one another, from "
                f'"{path[0]}" on: name a material in one of them'
            )
        if stock.id not in held:
            held[stock.id] = sum(
                self._lines_of(
                    f'stock "{stock.id}", line[{n}]', inner, (*path, stock.id), held
                )
                for n, inner in enumerate(stock.line, start=1)
            )
        return held[stock.id]

    def says(self, line: StockLine) -> str:
        """Return what the maker calls the thing that a line names.

        Parameters
        ----------
        line : StockLine
            The line.
        """
        if line.material is not None:
            return self.materials.get(line.material).name
        stock = self.stock(line.stock or "")
        return stock.name or stock.id

    def stock(self, name: str) -> Stock:
        """Return a stock blend by its id.

        Parameters
        ----------
        name : str
            The id.

        Raises
        ------
        InputError
            If there is none; the message lists what there is.
        """
        if name not in self.stocks:
            known = ", ".join(sorted(self.stocks)) or "none"
            raise InputError(
                f'there is no stock blend "{name}"',
                f"the files have: {known}",
                code="no-stock",
            )
        return self.stocks[name]

    def grams(self, where: str, line: StockLine) -> Id:
        """Return the step of the mass of a line that is written as an amount.

        Parameters
        ----------
        where : str
            Place of the line.
        line : StockLine
            The line.
        """
        material = None
        if line.material is not None:
            material = self.materials.get(line.material)
        lot = None if material is None else self.lot(where, material, line)
        return grams_of(
            line.amount, material, lot, where, self.says(line), self.working
        )

    def exact(self, where: str, value: Id) -> Fraction:
        """Return a figure that must be one number.

        Parameters
        ----------
        where : str
            Place of the line.
        value : Id
            The figure.

        Raises
        ------
        InputError
            If it is a range.
        """
        span = self.working.range(value)
        if not span.is_exact or span.low is None:
            raise InputError(
                "a line that is weighed by parts or percent needs one number",
                "write one number instead of a range",
                where=where,
                code="amount-range",
            )
        return span.low

    def parts(self, stock: Stock) -> list[tuple[StockLine, Id]]:
        """Return the lines of a stock blend with the figure or step of their part.

        Parameters
        ----------
        stock : Stock
            The stock blend.
        """
        if stock.id not in self.parts_done:
            self.parts_done[stock.id] = [
                (line, self._part(f"{key_of(stock.id)}.line[{n}]", line))
                for n, line in enumerate(stock.line, start=1)
            ]
        return self.parts_done[stock.id]

    def _part(self, where: str, line: StockLine) -> Id:
        if line.amount.kind not in ("parts", "percent"):
            return self.grams(where, line)
        return Id(
            self.working.add(
                Figure(
                    key_of("amount", where),
                    line.amount.printed,
                    line.amount.number,
                    "parts",
                    f"{self.says(line)}, as written",
                )
            )
        )

    def is_exact(self, name: Id) -> bool:
        """Say whether nothing unknown is left in a value.

        Parameters
        ----------
        name : Id
            Figure or step.
        """
        return Given(name, self.working.value(name)).mass.is_exact

    def number(self, name: str, value: int) -> Id:
        """Keep a plain number as a figure.

        Parameters
        ----------
        name : str
            Its key.
        value : int
            The number.
        """
        figure = Figure(Key(name), str(value), Range.at(value), "", name)
        return Id(self.working.add(figure))

    def lot(self, where: str, material: Material, line: StockLine | None) -> str | None:
        """Return the lot that a line uses: the one it names, or the only one.

        Parameters
        ----------
        where : str
            Place of the line.
        material : Material
            The material.
        line : StockLine or None
            The line, if it can name a lot.

        Raises
        ------
        InputError
            If there are several lots and none is named, or it names another.
        """
        lots = [one.lot for one in material.lot]
        asked = line.lot if line is not None else None
        if asked is None and len(lots) <= 1:
            return lots[0] if lots else None
        if asked in lots:
            return asked
        known = ", ".join(lots) or "none"
        what = (
            f"{material.name} has several lots"
            if asked is None
            else f'{material.name} has no lot "{asked}"'
        )
        raise InputError(
            what,
            f"say which lot is used; the file has: {known}",
            where=where,
            code="lot",
        )

    def leaves(
        self, material: Material, where: str | None, own: Percent | None
    ) -> Id | None:
        """Return the figure of what leaves on drying; ``None`` where nothing does.

        Parameters
        ----------
        material : Material
            The material; alcohol and water may leave, wholly or not at all, where
            nothing is entered.
        where : str or None
            Place of a line that says otherwise for itself.
        own : Percent or None
            What that line says. [%]
        """
        printed = own if own is not None else material.leaves_on_drying
        may_dry = material.kind in ("alcohol", "water") and self.dries
        if printed is None and not may_dry:
            return None
        marks: frozenset[Mark] = frozenset()
        if printed is None:
            text, span = "not entered: none of it, or all", Range.between(0, 100)
            marks = frozenset({Mark.ESTIMATED})
        else:
            text, span = printed.printed, printed.range
            if span.low is None or span.high is None:
                span = Range(span.low or Fraction(0), span.high or Fraction(100))
        key = key_of("leaves", where or material.id)
        says = f"share of {material.name} that leaves on drying"
        self.working.add(Figure(key, text, span, "%", says, marks=marks))
        return Id(key)
