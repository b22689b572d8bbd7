"""Works a printed line out again, from its printed digits alone.

A pocket calculator with fractions: decimal numbers, ``+``, ``-``, ``×``, ``÷`` and
brackets. Nothing of the tool is used.
"""

import re
from dataclasses import dataclass
from fractions import Fraction

TOKEN = re.compile(r"\s*([0-9]+(?:\.[0-9]+)?|[-+×÷()])")
LINE = re.compile(
    r"(?:(?P<end>low end|high end): )?(?P<left>.+) = (?P<right>-?[0-9.]+)"
    r"(?: (?P<unit>[^=]+))?"
)
EXACT_BELOW = 6
"""Results of fewer significant digits are printed whole, not rounded."""
OPERAND = Fraction(1, 10**9)
"""What twelve printed digits of each number can change, generously."""


class NotALineError(ValueError):
    """A printed line that cannot be worked by hand."""


@dataclass(frozen=True)
class Worked:
    """One printed line: which end it is, what it comes to, what it says it does."""

    end: str | None
    value: Fraction
    printed: Fraction
    tolerance: Fraction

    @property
    def holds(self) -> bool:
        """Whether it comes to what it says, to one unit of the last printed place."""
        return abs(self.value - self.printed) <= self.tolerance

    def shows(self, result: Fraction) -> bool:
        """Whether it shows a result, to one unit of the last printed place."""
        return abs(self.printed - result) <= self.tolerance


class _Calculator:
    def __init__(self, text: str) -> None:
        self.tokens = TOKEN.findall(text)
        if "".join(self.tokens) != re.sub(r"\s", "", text):
            raise NotALineError(text)
        self.at = 0

    def _peek(self) -> str:
        return self.tokens[self.at] if self.at < len(self.tokens) else ""

    def _next(self) -> str:
        self.at += 1
        return self.tokens[self.at - 1]

    def run(self) -> Fraction:
        value = self._sum()
        if self._peek():
            raise NotALineError(self._peek())
        return value

    def _sum(self) -> Fraction:
        value = self._product()
        while self._peek() in ("+", "-"):
            sign = 1 if self._next() == "+" else -1
            value += sign * self._product()
        return value

    def _product(self) -> Fraction:
        value = self._atom()
        while self._peek() in ("×", "÷"):
            if self._next() == "×":
                value *= self._atom()
            else:
                value /= self._atom()
        return value

    def _atom(self) -> Fraction:
        word = self._next() if self._peek() else ""
        if word == "(":
            value = self._sum()
            if self._next() != ")":
                raise NotALineError("a bracket is open")
            return value
        if not word or not word[0].isdigit():
            raise NotALineError(word or "nothing where a number belongs")
        return Fraction(word)


def work(line: str) -> Worked:
    """Work a printed line out.

    Parameters
    ----------
    line : str
        ``low end: (45 × 12 + 100 × 35) ÷ 1474 = 2.741 %``.

    Raises
    ------
    NotALineError
        If it is not an expression, an equals sign and a number.
    """
    found = LINE.fullmatch(line)
    if found is None:
        raise NotALineError(line)
    right = found["right"]
    printed = Fraction(right)
    digits = right.lstrip("-").replace(".", "").lstrip("0")
    slack = OPERAND * max(abs(printed), Fraction(1, 1000))
    place = Fraction(1, 10 ** len(right.partition(".")[2]))
    rounded = len(digits) >= EXACT_BELOW
    return Worked(
        found["end"],
        _Calculator(found["left"]).run(),
        printed,
        place + slack if rounded else slack,
    )
