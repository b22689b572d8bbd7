"""What has to be asked about or refused, and slips of the hand."""

from tests.quantity.grammar.pieces import MONTHS, Pieces, Sample


class Trouble(Pieces):
    """Draws texts with more than one meaning, or none."""

    def asked(self) -> Sample:
        text, _ = self.decimal(50, 1)
        whole = self.chance.randrange(1, 99)
        tenth = self.chance.randrange(10)
        day, month = self.chance.sample(range(1, 13), 2)
        return self.one_of(
            Sample("amount", f"{text} oz", asked="bare-oz"),
            Sample("amount", f"{text} ounces", asked="bare-oz"),
            Sample("amount", f"{text} fl. oz.", asked="fl-oz-which"),
            Sample("amount", f"{text}", asked="unit-missing"),
            Sample("amount", f"about {text} g", asked="about"),
            Sample("amount", f"~{text} g", asked="about"),
            Sample("amount", f"{text} ± 1 g", asked="about"),
            Sample("amount", f"{whole},{tenth} g", asked="decimal-comma"),
            Sample("amount", f"{whole},{tenth:03} g", asked="decimal-comma"),
            Sample("amount", f"0{whole} g", asked="leading-zero"),
            Sample("amount", f"{2 * whole + 1}/2 tsp", asked="improper"),
            Sample("amount", f"{whole}/{whole + 1}0 g", asked="fraction"),
            Sample("amount", f"{whole}-1/2 cups", asked="mixed-or-range"),
            Sample("amount", f"{text} Mg", asked="unit-case"),
            Sample("amount", f"{text} T", asked="spoon-which"),
            Sample("amount", f"{text} metric tbsp", asked="metric-tbsp"),
            Sample("amount", f"{text} ppo", asked="ppo-unit"),
            Sample("amount", f"{text} % of the total", asked="percent-of-what"),
            Sample("amount", f"{text} % of the oils", asked="percent-of-what"),
            Sample("percent", f"{whole},{tenth}", asked="decimal-comma"),
            Sample("percent", f"{whole},{tenth} - {whole},9 %", asked="decimal-comma"),
            Sample("percent", f"ca. {text} %", asked="about"),
            Sample("percent", f"<0{whole} %", asked="leading-zero"),
            Sample("percent", f"{text} % of the total", asked="percent-of-what"),
            Sample("temperature", f"{whole}", asked="unit-missing"),
            Sample("temperature", f">{whole}", asked="unit-missing"),
            Sample("temperature", f"{whole} CC", asked="unit-missing"),
            Sample("temperature", f"{whole},{tenth} °C", asked="decimal-comma"),
            Sample("temperature", f"approx. {whole} °C", asked="about"),
            Sample("temperature", f"{whole} °C ({whole} °F)", asked="units-disagree"),
            Sample("cap", f"{whole}-100", asked="cap-range"),
            Sample("cap", f"<{whole} %", asked="cap-bound"),
            Sample("cap", f"{whole},{tenth} %", asked="decimal-comma"),
            Sample("cap", "not added", asked="not-added-limit"),
            Sample("density", f"8{whole}", asked="unit-missing"),
            Sample("density", f"0,{whole}", asked="decimal-comma"),
            Sample("date", f"{day:02}/{month:02}/25", asked="date-order"),
            Sample("date", f"{day}.{month}.2025", asked="date-order"),
            Sample("date", f"{day} {MONTHS[month - 1]} 25", asked="date-year"),
        )

    def refused(self) -> Sample:
        low, _, high, _ = self.two(40)
        whole = self.chance.randrange(101, 999)
        kind = self.one_of("amount", "percent", "cap", "density")
        return self.one_of(
            Sample("amount", "", refused="blank"),
            Sample("percent", self.one_of("", "  ", "\u00a0"), refused="blank"),
            Sample("density", "", refused="blank"),
            Sample("date", "", refused="blank"),
            Sample("percent", self.one_of("-", "–"), refused="dash"),
            Sample("percent", "N/A", refused="not-applicable"),
            Sample("percent", self.one_of("q.s.", "balance"), refused="balance"),
            Sample(kind, f"-{high}", refused="negative"),
            Sample("percent", f"{high} - {low} %", refused="range-order"),
            Sample("temperature", f"{high} - {low} °C", refused="range-order"),
            Sample("percent", f"{whole} %", refused="out-of-range"),
            Sample("cap", f"{whole}", refused="out-of-range"),
            Sample("amount", f"{whole} % of finished", refused="out-of-range"),
            Sample("amount", f"<{high} g", refused="amount-bound"),
            Sample("amount", f"{low} g to {high} mL", refused="units-mixed"),
            Sample("amount", f"1 {whole} g", refused="number-gap"),
            Sample("amount", f"1e{whole} g", refused="number"),
            Sample("amount", f"{whole}. g", refused="number"),
            Sample("amount", self.one_of("nan", "inf", "-inf"), refused="number"),
            Sample("amount", f"{whole}_{whole} g", refused="number-gap"),
            Sample("amount", "\u0663 g", refused="characters"),
            Sample("percent", f"1\u00ad{whole} %", refused="characters"),
            Sample("percent", f"{low} ppm - {high} %", refused="units-mixed"),
            Sample("temperature", f"-{whole} °C", refused="below-absolute-zero")
            if whole > 273
            else Sample("temperature", "-1 K", refused="below-absolute-zero"),
            Sample("cap", f"{low} % of the blend", refused="cap-base"),
            Sample("cap", self.one_of("nil", "none", "ok"), refused="unreadable"),
            Sample("percent", f"{low} % - {high} ppm", refused="units-mixed"),
            Sample("percent", f"n.d. ({high} ppm)", refused="detection-limit"),
            Sample("temperature", f"{low}--{high} °C", refused="unreadable"),
            Sample("temperature", f"-{high} -{low} °C", refused="range-bounds"),
            Sample("temperature", f"{low} °C - {high} °F", refused="units-mixed"),
            Sample("temperature", f"{low}/{high} °F", refused="unreadable"),
            Sample("density", f"{whole} g/mL", refused="out-of-range"),
            Sample("density", f"<{high}", refused="range-bounds"),
            Sample("date", "30 February 2025", refused="date-impossible"),
            Sample("date", "April 2025", refused="date-day"),
            Sample("date", "3 April 1925", refused="date-year-range"),
        )

    ALPHABET = "0123456789.,-–/ %<>()g½°tocxe=≤\u00a0'_"

    def slip(self, text: str) -> str:
        """Change one thing in a text, as a hand or a copy does."""
        if not text:
            return self.one_of(*self.ALPHABET)
        at = self.chance.randrange(len(text))
        other = self.one_of(*self.ALPHABET)
        return self.one_of(
            text[:at] + text[at + 1 :],
            text[:at] + other + text[at:],
            text[:at] + other + text[at + 1 :],
            text[:at] + text[at : at + 2][::-1] + text[at + 2 :],
            text[:at] + text[at] + text[at:],
            text.replace(" ", "  "),
            text.replace(" ", ""),
            text.replace(".", ",", 1),
            text.replace("-", self.one_of("–", "—", "\u2212", "--", " ")),
            text.replace(".", "", 1),
            text[:at],
            text[at:],
        )
