"""What stands in certificates: caps, densities and dates."""

from fractions import Fraction

from tests.quantity.grammar.pieces import DASHES, MONTHS, Pieces, Sample


class Certificates(Pieces):
    """Draws the texts of certificates."""

    WORDS = (
        ("not permitted", ("Not permitted", "prohibited", "Not approved", "banned")),
        ("not permitted", ("0", "0.00", "0 %", "0.0%")),
        ("no restriction stated", ("Not restricted", "No restriction", "No limit")),
        ("no restriction stated", ("unlimited", "100", "100 %", "100.00", "100%")),
        (
            "no restriction stated",
            ("N/A (no restriction)", "N/A (N/A = not restricted)"),
        ),
        ("missing", ("-", "–", "", "--", "not stated")),
    )

    def cap(self) -> Sample:
        shape = self.chance.randrange(8)
        if shape < 2:
            state, forms = self.one_of(*self.WORDS)
            return Sample("cap", self.one_of(*forms), ("cap", state, None))
        if shape == 2:
            note = self.one_of("", "see page 2", "not for this use", "ask the supplier")
            word = self.one_of("N/A", "n/a", "NA", "not applicable")
            text = f"{word} ({note})" if note else word
            return Sample("cap", text, ("cap", "not applicable", note))
        text, value = self.decimal(99, 4)
        if value == 0:
            text, value = "0.01", Fraction(1, 100)
        sign = self.one_of("", "%", " %", " % w/w", " % of the finished product")
        if shape == 3:
            text = self.one_of(
                f"{text}{sign or '%'} (from natural sources only)",
                f"{text} % not added",
                f"not added; max {text}{sign}",
                f"Not permitted as an added ingredient, max. {text}{sign}",
            )
            return self.sample("cap", text, "not as an added ingredient", value)
        before = self.one_of("", "", "", "≤ ", "<=", "max ", "up to ", "not more than ")
        if self.often(0.1):
            return self.sample("cap", f"{before}{text} ppm", "limit", value / 10_000)
        return self.sample("cap", f"{before}{text}{sign}", "limit", value)

    def density(self) -> Sample:
        shape = self.chance.randrange(6)
        thousandths = self.chance.randrange(600, 1400)
        value = Fraction(thousandths, 1000)
        text = f"{thousandths // 1000}.{thousandths % 1000:03d}"
        at, where = self.at()
        if shape == 0:
            unit = self.one_of(" g/mL", " g/cm3", "g/cm³", " kg/L", " g/ml")
            return self.sample("density", f"{text}{unit}{where}", self.both(value), at)
        if shape == 1:
            unit = self.one_of(" kg/m3", "kg/m³", " g/L")
            text = f"{thousandths}{unit}{where}"
            return self.sample("density", text, self.both(value), at)
        if shape == 2:
            reference, water = self.one_of(
                ("4", Fraction("0.9999749")),
                ("15", Fraction("0.9991026")),
                ("20", Fraction("0.9982067")),
                ("25", Fraction("0.9970470")),
            )
            warm = self.one_of("15", "20", "25")
            form = self.one_of("({}/{})", "(d{}/{})", "{}/{}", "d {}/{}")
            text = f"{text} {form.format(warm, reference)}"
            return self.sample(
                "density", text, self.both(value * water), Fraction(int(warm))
            )
        water = Fraction("0.9970470")
        if shape == 3:
            before = self.one_of("", "SG ", "specific gravity: ", "relative density ")
            ends = (value * water, value, False, False)
            return self.sample("density", f"{before}{text}{where}", ends, at)
        more = thousandths + self.chance.randrange(1, 30)
        high = Fraction(more, 1000)
        second = f"{more // 1000}.{more % 1000:03d}"
        unit = self.one_of("", " g/mL", " g/cm3")
        low = value if unit else value * water
        text = f"{text}{self.one_of(*DASHES)}{second}{unit}{where}"
        return self.sample("density", text, (low, high, False, False), at)

    def at(self) -> tuple[Fraction | None, str]:
        if self.often(0.5):
            return None, ""
        degrees = self.one_of(15, 20, 25)
        form = self.one_of(" @{} °C", " @ {}°C", " at {} °C", " ({} °C)", "@{} C")
        return Fraction(degrees), form.format(degrees)

    def date(self) -> Sample:
        year = self.chance.randrange(1960, 2080)
        month, day = self.chance.randrange(1, 13), self.chance.randrange(1, 29)
        name = MONTHS[month - 1]
        short = (name[:3], name[:3] + ".", "Sept" if month == 9 else name)
        name = self.cased(self.one_of(name, *short))
        shape = self.chance.randrange(7)
        if shape < 2:
            mark = self.one_of("-", "-", "/", ".", "\u2011", "–")
            pad = self.one_of("02", "1")
            text = f"{year}{mark}{month:{pad}}{mark}{day:{pad}}"
        elif shape == 2:
            ending = {1: "st", 2: "nd", 3: "rd", 21: "st", 22: "nd", 23: "rd"}
            text = f"{day}{ending.get(day, 'th')} {self.one_of('', 'of ')}{name} {year}"
        elif shape == 3:
            text = f"{name} {day}{self.one_of(',', '')} {year}"
        elif shape == 4:
            text = f"{day} {name} {year}"
        else:
            mark = self.one_of("/", "-", ".")
            first, second = self.one_of((day, month), (month, day))
            text = f"{first:02}{mark}{second:02}{mark}{year}"
            if day <= 12 and day != month:
                return Sample("date", text, asked="date-order")
        return self.sample("date", text, year, month, day)
