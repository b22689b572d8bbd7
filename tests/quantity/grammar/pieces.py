"""The pieces that texts are made of."""

from dataclasses import dataclass
from fractions import Fraction
from random import Random

from tests.quantity.meanings import Meaning

SPACES = ("", " ", " ", " ", "\u00a0", "\u2009", "\u202f", "  ")
GAPS = (" ", " ", " ", "\u00a0", "\u2009", "   ")
DASHES = (
    "-",
    "-",
    " - ",
    "–",
    " – ",
    "\u2012",
    "—",
    "\u2011",
    " to ",
    " to ",
    "\u2212",
)
FRACTIONS = {
    "½": (1, 2),
    "¼": (1, 4),
    "¾": (3, 4),
    "⅓": (1, 3),
    "⅔": (2, 3),
    "⅛": (1, 8),
    "⅝": (5, 8),
}


MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)


@dataclass(frozen=True)
class Sample:
    """A text with what it must be read as: a meaning, or the code of an error."""

    kind: str
    text: str
    meaning: Meaning | None = None
    asked: str = ""
    refused: str = ""


class Pieces:
    """Draws numbers, signs and spaces from one source of chance."""

    BASES = (
        ("FINISHED", ("finished", "the finished product", "finished product")),
        ("WET", ("the wet mix", "wet mix")),
        ("POWDERS", ("the powders", "powders")),
        ("SOAPING_OILS", ("the soaping oils", "soaping oils")),
        ("BLEND", ("the blend", "blend")),
        ("MATERIAL", ("the material",)),
    )

    def __init__(self, seed: int) -> None:
        self.chance = Random(seed)  # noqa: S311  # texts, not keys

    def one_of(self, *choices):
        return self.chance.choice(choices)

    def often(self, share: float) -> bool:
        return self.chance.random() < share

    def decimal(self, top: int = 100, places: int = 3) -> tuple[str, Fraction]:
        """A decimal number below ``top``, written with a point where it has places."""
        used = self.chance.randrange(places + 1)
        digits = self.chance.randrange(top * 10**used)
        value = Fraction(digits, 10**used)
        whole, part = divmod(digits, 10**used)
        if not used:
            return str(whole), value
        text = f"{whole}.{part:0{used}d}"
        if whole == 0 and self.often(0.1):
            text = text[1:]
        return text, value

    def mixed(self) -> tuple[str, Fraction]:
        """A number as kitchens write it: 1 1/2, 3/4, ½, 1½, 1 ½."""
        whole = self.chance.randrange(1, 30)
        if self.often(0.5):
            sign, (top, bottom) = self.chance.choice(list(FRACTIONS.items()))
            part = Fraction(top, bottom)
            if self.often(0.4):
                return sign, part
            return f"{whole}{self.one_of('', ' ')}{sign}", whole + part
        top, bottom = self.one_of(
            (1, 2), (1, 3), (2, 3), (3, 4), (2, 5), (5, 6), (7, 8), (3, 10), (5, 16)
        )
        slash = self.one_of("/", "/", "/", "\u2044")
        if self.often(0.4):
            return f"{top}{slash}{bottom}", Fraction(top, bottom)
        return f"{whole} {top}{slash}{bottom}", whole + Fraction(top, bottom)

    def two(self, top: int = 100) -> tuple[str, Fraction, str, Fraction]:
        """Two decimal numbers, the lower one first, not the same."""
        while True:
            first, second = self.decimal(top), self.decimal(top)
            if first[1] != second[1]:
                (low, a), (high, b) = sorted((first, second), key=lambda pair: pair[1])
                return low, a, high, b

    def cased(self, text: str) -> str:
        return self.one_of(text, text, text, text.upper(), text.lower())

    def framed(self, text: str) -> str:
        return self.one_of("", "", "", " ", "\t") + text + self.one_of("", "", "", " ")

    def bound_sign(self, sign: str) -> str:
        forms = {
            "<": ("<", "< ", "less than ", "\uff1c"),
            ">": (">", "> ", "more than ", "above "),
            "<=": ("<=", "≤", "≤ ", "up to ", "max ", "at most ", "\u2a7d"),
            ">=": (">=", "≥", "≥ ", "at least ", "min. ", "\u2267"),
        }
        return self.one_of(*forms[sign])

    def percent_base(self) -> tuple[str, str | None]:
        if self.often(0.3):
            return "", None
        name, forms = self.one_of(*self.BASES)
        return f" of {self.one_of(*forms)}", name

    @staticmethod
    def both(value: Fraction):
        return (value, value, False, False)

    def sample(self, kind: str, text: str, *meaning) -> Sample:
        return Sample(kind, self.framed(text), (kind, *meaning))
