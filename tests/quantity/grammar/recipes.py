"""What stands in a recipe: amounts."""

from tests.quantity.grammar.pieces import DASHES, SPACES, Pieces, Sample


class Recipes(Pieces):
    """Draws the texts of recipe lines."""

    UNITS = (
        ("mass", "g", ("g", "gram", "grams", "g.", "gm")),
        ("mass", "kg", ("kg", "kilograms", "kilo")),
        ("mass", "mg", ("mg", "milligrams")),
        ("mass", "lb", ("lb", "lbs", "lb.", "pounds")),
        ("mass", "oz", ("oz wt", "oz (weight)", "oz. wt.", "ounces by weight")),
        ("volume", "mL", ("mL", "ml", "cc", "millilitres", "cm3", "cm³")),
        ("volume", "L", ("L", "l", "litres", "liters")),
        ("volume", "US fl oz", ("US fl oz", "U.S. fl. oz.", "fl oz (US)")),
        ("volume", "imp fl oz", ("imp fl oz", "imperial fluid ounces", "fl oz (UK)")),
        ("volume", "tsp", ("tsp", "tsp.", "teaspoons", "US tsp")),
        ("volume", "tbsp", ("tbsp", "tablespoon", "tablespoons")),
        ("volume", "metric tsp", ("metric tsp", "metric teaspoons")),
        ("count", "drop", ("drop", "drops")),
        ("count", "cup", ("cup", "cups")),
        ("count", "scoop", ("scoop", "scoops")),
        ("count", "pinch", ("pinch", "pinches")),
        ("count", "capful", ("capful", "capfuls")),
        ("count", "spray", ("spray", "sprays")),
        ("parts", "part", ("part", "parts", "parts by weight")),
    )

    def unit(self) -> tuple[str, str, str]:
        kind, unit, forms = self.one_of(*self.UNITS)
        form = self.one_of(*forms)
        return kind, unit, form if unit == "mg" else self.cased(form)

    def amount(self) -> Sample:
        shape = self.chance.randrange(10)
        if shape < 2:
            return self.percent_amount()
        if shape == 2:
            text, value = self.one_of(self.decimal(4, 2), self.mixed())
            form = self.one_of("oz ppo", "oz. ppo", "oz per lb of oils", "oz/lb")
            percent = value * 100 / 16
            meaning = (percent, percent, False, False)
            return self.sample(
                "amount", f"{text} {form}", meaning, "percent", "%", "SOAPING_OILS"
            )
        kind, unit, form = self.unit()
        if shape < 6:
            low, a, high, b = self.two(500)
            middle = f"{self.one_of('', ' ')}{form}" if self.often(0.15) else ""
            text = (
                f"{low}{middle}{self.one_of(*DASHES)}{high}{self.one_of(*SPACES)}{form}"
            )
            return self.sample("amount", text, (a, b, False, False), kind, unit, None)
        text, value = self.one_of(self.decimal(2000), self.decimal(10), self.mixed())
        text = f"{text}{self.one_of(*SPACES)}{form}"
        return self.sample(
            "amount", text, (value, value, False, False), kind, unit, None
        )

    def percent_amount(self) -> Sample:
        sign = self.one_of("%", " %", "\u00a0%", " percent", " per cent")
        behind, base = self.percent_base()
        if self.often(0.3):
            low, a, high, b = self.two()
            text = f"{low}{self.one_of(*DASHES)}{high}{sign}{behind}"
            return self.sample(
                "amount", text, (a, b, False, False), "percent", "%", base
            )
        text, value = self.one_of(self.decimal(100), self.mixed())
        ends = (value, value, False, False)
        return self.sample(
            "amount", f"{text}{sign}{behind}", ends, "percent", "%", base
        )
