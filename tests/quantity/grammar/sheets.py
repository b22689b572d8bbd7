"""What stands in data sheets and reports: shares and temperatures."""

from fractions import Fraction

from tests.quantity.grammar.pieces import DASHES, Pieces, Sample
from tests.quantity.meanings import Meaning


class Sheets(Pieces):
    """Draws the texts of data sheets and reports."""

    SHARE_SIGNS = (
        ("", 1, None),
        ("%", 1, None),
        (" %", 1, None),
        (" % w/w", 1, "w/w"),
        ("% (w/w)", 1, "w/w"),
        (" wt %", 1, "w/w"),
        (" % by weight", 1, "w/w"),
        (" % v/v", 1, "v/v"),
        (" vol %", 1, "v/v"),
        (" area %", 1, "area"),
        (" % (GC area)", 1, "area"),
        (" GC area %", 1, "area"),
        (" ppm", 10_000, None),
        (" mg/kg", 10_000, "w/w"),
    )

    def percent(self) -> Sample:
        sign, parts, basis = self.one_of(*self.SHARE_SIGNS)
        shape = self.chance.randrange(8)
        if shape == 0:
            return self.worded_percent()
        behind, base = ("", None)
        if "%" in sign and self.often(0.1):
            behind, base = self.percent_base()
        tail = sign + behind
        top = 100 * parts
        rest = (basis, base, True)
        if shape < 3:
            text, value = self.one_of(self.decimal(top, 4), self.decimal(top // 20))
            value /= parts
            return self.sample(
                "percent", text + tail, (value, value, False, False), *rest
            )
        if shape < 5:
            return self.one_ended(top, parts, tail, rest)
        low, a, high, b = self.two(top)
        a, b = a / parts, b / parts
        if shape == 5:
            one, two = self.one_of((">=", "<"), (">", "<="), (">=", "<="), (">", "<"))
            first = self.one_of(one, one + " ", one.replace(">=", "≥") + " ")
            second = self.one_of(two, two + " ", two.replace("<=", "≤") + " ")
            join = self.one_of("-", " - ", " – ", " to ", " and ", " ")
            text = f"{first}{low}{join}{second}{high}{tail}"
            return self.sample("percent", text, (a, b, one == ">", two == "<"), *rest)
        if shape == 6 and "%" in tail:
            text = f"{low}{self.one_of('%', ' %')}{self.one_of(*DASHES)}{high}{tail}"
        else:
            text = f"{low}{self.one_of(*DASHES)}{high}{tail}"
        return self.sample("percent", text, (a, b, False, False), *rest)

    def one_ended(self, top: int, parts: int, tail: str, rest) -> Sample:
        text, value = self.decimal(top, 3)
        value /= parts
        sign = self.one_of("<", "<=", ">", ">=")
        if value == 0 and sign == "<":
            sign = "<="
        if sign[0] == "<":
            ends = (Fraction(0), value, False, sign == "<")
        else:
            ends = (value, Fraction(100), sign == ">", False)
        return self.sample(
            "percent", f"{self.bound_sign(sign)}{text}{tail}", ends, *rest
        )

    def worded_percent(self) -> Sample:
        present = self.often(0.5)
        word = (
            self.one_of("tr", "trace", "Traces", "tr.", "TR")
            if present
            else self.one_of(
                "n.d.", "nd", "N.D.", "not detected", "n/d", "None detected"
            )
        )
        if self.often(0.4):
            ends = (Fraction(0), None, present, False)
            return self.sample("percent", word, ends, None, None, present)
        text, value = self.decimal(50, 2)
        value += 1
        text = str(value) if value.denominator == 1 else None
        if text is None:
            tenths = int(value * 100)
            text = f"{tenths // 100}.{tenths % 100:02d}"
            value = Fraction(tenths, 100)
        sign, parts, basis = self.one_of(*self.SHARE_SIGNS)
        bound = self.one_of("<", "< ", "<=", "LOD ", "limit ")
        limit = f"{bound}{text}{sign}"
        limit = self.one_of(f" ({limit})", f" {limit}")
        ends = (Fraction(0), value / parts, present, bound != "<=")
        return self.sample("percent", word + limit, ends, basis, None, present)

    DEGREES = (
        (
            "c",
            ("°C", " °C", "\u00a0°C", " C", " deg C", "℃", " degrees Celsius", " ºC"),
        ),
        ("f", ("°F", " °F", " F", "F", " degF", " deg. F", "℉", " Fahrenheit")),
        ("k", (" K", "K", " kelvin", " \u212a")),
    )
    CUPS = (
        ("closed", ("closed cup", "CC", "TCC", "PMCC", "Pensky-Martens closed cup")),
        ("open", ("open cup", "OC", "COC", "Cleveland open cup")),
    )

    @staticmethod
    def celsius(value: Fraction, unit: str) -> Fraction:
        if unit == "f":
            return (value - 32) / Fraction("1.8")
        return value - Fraction("273.15") if unit == "k" else value

    def temperature(self) -> Sample:
        shape = self.chance.randrange(8)
        if shape == 0:
            text = self.one_of(
                "", " ", "N/A", "n/a", "no data", "No data available", "-", "–", "n.d."
            )
            return Sample("temperature", text, self.unknown())
        unit, forms = self.one_of(*self.DEGREES)
        form = self.one_of(*forms)
        before, behind, cup = self.cup()
        if shape < 4:
            text, value = self.decimal(400, 1)
            if unit != "k" and self.often(0.1):
                text, value = self.one_of("-", "\u2212", "–") + text, -value
                if value < -200:
                    text, value = "-5", Fraction(-5)
            ends = self.both(self.celsius(value, unit))
            text = f"{before}{text}{form}{behind}"
        elif shape < 6:
            text, value = self.decimal(400, 1)
            sign = self.one_of("<", "<=", ">", ">=")
            value = self.celsius(value, unit)
            ends = (
                (None, value, False, sign == "<")
                if sign[0] == "<"
                else (value, None, sign == ">", False)
            )
            text = f"{before}{self.bound_sign(sign)}{text}{form}{behind}"
        elif shape == 6 and unit != "k" and self.often(0.2):
            low, a, high, b = self.two(100)
            ends = (self.celsius(-b, unit), self.celsius(-a, unit), False, False)
            minus = self.one_of("-", "\u2212")
            text = f"{before}{minus}{high} to {minus}{low}{form}{behind}"
        elif shape == 6:
            low, a, high, b = self.two(300)
            ends = (self.celsius(a, unit), self.celsius(b, unit), False, False)
            text = f"{before}{low}{self.one_of(*DASHES)}{high}{form}{behind}"
        else:
            return self.two_units()
        return self.sample("temperature", text, ends, cup)

    @staticmethod
    def unknown() -> Meaning:
        return ("temperature", (None, None, False, False), None)

    def cup(self) -> tuple[str, str, str | None]:
        if self.often(0.6):
            return "", "", None
        cup, forms = self.one_of(*self.CUPS)
        form = self.cased(self.one_of(*forms))
        if self.often(0.2):
            return self.one_of(f"{form}: ", f"{form} "), "", cup
        return "", self.one_of(f" {form}", f" ({form})", f", {form}", f" - {form}"), cup

    def two_units(self) -> Sample:
        celsius = self.chance.randrange(10, 200)
        fahrenheit = round(Fraction(celsius * 9, 5) + 32)
        sign = self.one_of("", "", ">", "> ")
        one, two = f"{sign}{celsius} °C", f"{sign}{fahrenheit} °F"
        value = Fraction(celsius)
        if self.often(0.5):
            one, two, value = two, one, Fraction(5 * (fahrenheit - 32), 9)
        ends = (value, None, True, False) if sign else self.both(value)
        text = self.one_of(f"{one} ({two})", f"{one} / {two}", f"{one}/{two}")
        return self.sample("temperature", text, ends, None)
