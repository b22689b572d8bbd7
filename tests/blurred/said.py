"""Figures as a maker or a supplier writes them, each with the meaning it has.

The meaning is set here, by hand, from how such papers are read; nothing is parsed.
A world is written with these texts, and the tool has to read them back.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from random import Random

HUNDRED = Fraction(100)
ZERO = Fraction(0)

BANDS = tuple(
    (Fraction(low), Fraction(high))
    for low, high in (
        ("0.1", "1"),
        ("1", "5"),
        ("5", "10"),
        ("10", "25"),
        ("25", "50"),
        ("50", "75"),
        ("75", "100"),
        ("0.5", "1.5"),
        ("1", "2.5"),
        ("2.5", "10"),
        ("3", "7"),
        ("7", "13"),
        ("10", "30"),
        ("15", "40"),
        ("30", "60"),
    )
)
"""Concentration bands as safety data sheets print them; they overlap on purpose."""


@dataclass(frozen=True, slots=True)
class Said:
    """A text and what it means: the ends, ``None`` where nothing is stated."""

    text: str
    low: Fraction
    high: Fraction | None
    low_open: bool = False
    high_open: bool = False
    absent: bool = False
    """"n.d.": looked for and not found."""
    only_low: bool = False
    """``>10 %``: no upper end is stated, although 100 % is one."""

    @property
    def loose(self) -> bool:
        """Whether more than one number fits."""
        return self.high is None or self.low < self.high

    def holds(self, value: Fraction) -> bool:
        """Whether a number fits."""
        if value < self.low or (self.low_open and value == self.low):
            return False
        if self.high is None:
            return True
        return value < self.high or (value == self.high and not self.high_open)


def is_decimal(value: Fraction) -> bool:
    """Whether a number can be written with a decimal point."""
    bottom = value.denominator
    for prime in (2, 5):
        while bottom % prime == 0:
            bottom //= prime
    return bottom == 1


def digits(value: Fraction) -> str:
    """Write a decimal number exactly."""
    assert is_decimal(value), value
    assert value >= 0, value
    places = 0
    while (value * 10**places).denominator != 1:
        places += 1
    whole, rest = divmod(int(value * 10**places), 10**places)
    return f"{whole}.{rest:0{places}d}" if places else str(whole)


def exactly(value: Fraction, unit: str = " %") -> Said:
    """One number."""
    return Said(f"{digits(value)}{unit}", value, value)


def share(rng: Random, value: Fraction) -> Said:
    """One share of a composition, in one of the ways in which it is printed."""
    if value < Fraction(1, 10) and rng.random() < 0.4:
        return Said(f"{digits(value * 10_000)} ppm", value, value)
    return exactly(value, rng.choice((" %", "%", "")))


def _floor(value: Fraction, grid: Fraction) -> Fraction:
    return value // grid * grid


def _ceil(value: Fraction, grid: Fraction) -> Fraction:
    return -(-value // grid) * grid


def around(
    rng: Random,
    truths: Sequence[Fraction],
    *,
    width: Fraction,
    grid: Fraction,
    ceiling: Fraction | None = None,
    floor: Fraction = ZERO,
) -> tuple[Fraction, Fraction]:
    """Two different ends that hold every truth, sometimes one that is met."""
    least, most = min(truths), max(truths)
    low, high = least, most
    met = rng.random()
    if met > 0.15 or least != most:
        low = _floor(least - width * Fraction(rng.randint(0, 10), 10), grid)
    if met < 0.85 or low == high:
        high = _ceil(most + width * Fraction(rng.randint(1, 10), 10), grid)
    low = max(low, floor)
    if ceiling is not None:
        high = min(high, ceiling)
    if low == high:
        low = max(floor, low - grid)
    return low, high


def written(
    rng: Random, low: Fraction, high: Fraction, truths: Sequence[Fraction], unit: str
) -> Said:
    """Write two ends, excluding one now and then where no truth lies on it."""
    a, b = digits(low), digits(high)
    style = rng.random()
    if style < 0.25:
        low_open = low < min(truths) and rng.random() < 0.3
        high_open = high > max(truths)
        first, second = ">" if low_open else "≥", "<" if high_open else "≤"
        text = f"{first} {a} - {second} {b}{unit}"
        return Said(text, low, high, low_open, high_open)
    join = rng.choice(("-", "–", " to ", " - "))
    return Said(f"{a}{join}{b}{unit}", low, high)


def ranged(rng: Random, truths: Sequence[Fraction]) -> Said:
    """A range of a share that holds every truth."""
    most = max(truths)
    grid = Fraction(1, rng.choice((1, 2, 10))) if most > 2 else Fraction(1, 100)
    width = max(most * Fraction(rng.choice((5, 20, 50, 100)), 100), grid)
    low, high = around(rng, truths, width=width, grid=grid, ceiling=HUNDRED)
    return written(rng, low, high, truths, rng.choice((" %", "%", "")))


def at_most(rng: Random, truths: Sequence[Fraction]) -> Said:
    """``<0.5 %``, ``≤ 0.5 %``, ``max. 0.5 %``."""
    most = max(truths)
    grid = Fraction(1, rng.choice((10, 100, 1000)))
    high = min(_ceil(most * Fraction(rng.randint(10, 30), 10) + grid, grid), HUNDRED)
    if high > most and rng.random() < 0.5:
        return Said(
            f"{rng.choice(('<', '< ', 'less than '))}{digits(high)} %",
            ZERO,
            high,
            high_open=True,
        )
    sign = rng.choice(("≤ ", "<=", "max. ", "up to ", "not more than "))
    return Said(f"{sign}{digits(high)} %", ZERO, high)


def at_least(rng: Random, truths: Sequence[Fraction]) -> Said:
    """``>10 %``, ``≥ 10 %``, ``min. 10 %``."""
    least = min(truths)
    low = _floor(least * Fraction(rng.randint(5, 10), 10), Fraction(1, 10))
    if low < least and rng.random() < 0.5:
        return Said(f">{digits(low)} %", low, HUNDRED, low_open=True, only_low=True)
    sign = rng.choice(("≥ ", ">=", "min. ", "at least "))
    return Said(f"{sign}{digits(low)} %", low, HUNDRED, only_low=True)


def band(rng: Random, truths: Sequence[Fraction]) -> Said:
    """A band of a safety data sheet."""
    least, most = min(truths), max(truths)
    fits = [pair for pair in BANDS if pair[0] <= least and most <= pair[1]]
    if not fits:
        return at_most(rng, truths) if most < 50 else ranged(rng, truths)
    low, high = rng.choice(fits)
    if high > most and rng.random() < 0.4:
        text = f"≥ {digits(low)} - < {digits(high)} %"
        return Said(text, low, high, high_open=True)
    return Said(
        f"{digits(low)}{rng.choice(('-', ' - ', '–'))}{digits(high)} %", low, high
    )


def trace(rng: Random) -> Said:
    """Present, with no figure."""
    return Said(rng.choice(("tr", "trace", "tr.")), ZERO, None, low_open=True)


def not_found(limit: Fraction | None) -> Said:
    """Looked for and not found, with or without the limit of the method."""
    if limit is None:
        return Said("n.d.", ZERO, None, absent=True)
    text = f"n.d. (<{digits(limit * 10_000)} ppm)"
    return Said(text, ZERO, limit, high_open=True, absent=True)
