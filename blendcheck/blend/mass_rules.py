"""Rules that make grams: products, parts, sums, what stays."""

from fractions import Fraction

from blendcheck.blend.closing import share_end
from blendcheck.blend.printed import (
    ends,
    equation,
    extreme,
    lows,
    masses_of,
    operand,
    span_of,
)
from blendcheck.interval import Range
from blendcheck.records.mass import Mass, Unknowns
from blendcheck.records.working import Given, How, Value, rule

# -- products --------------------------------------------------------------


def _show_product(
    given: tuple[Given, ...], how: How, unknowns: Unknowns, value: Value
) -> tuple[str, ...]:
    span = span_of(value, unknowns)
    lines = []
    for end, word in ends(span):
        factors = [share_end(g.range(unknowns), end) for g in given]
        left = " × ".join(operand(f) for f in factors)
        lines.append(equation(word, left, share_end(span, end), how[0] if how else "g"))
    return tuple(lines)


@rule(
    "product",
    "g = number × grams in one of it",
    "The number written, times what one of it weighs.",
    _show_product,
)
def _product(given: tuple[Given, ...], how: How, unknowns: Unknowns) -> Value:
    del how
    masses = [g.mass for g in given]
    loose = [m for m in masses if not m.is_exact]
    number = Fraction(1)
    for mass in masses:
        if mass.is_exact:
            number *= mass.fixed
    if not loose:
        return Mass(number)
    if len(loose) == 1:
        return loose[0].times(number)
    low, high = number, number
    low_open = high_open = False
    for mass in loose:
        span = mass.range(unknowns)
        low, high = low * share_end(span, "low"), high * share_end(span, "high")
        low_open, high_open = low_open or span.low_open, high_open or span.high_open
    return Range(low, high, low_open, high_open)


def _show_divided(
    given: tuple[Given, ...], how: How, unknowns: Unknowns, value: Value
) -> tuple[str, ...]:
    span = span_of(value, unknowns)
    top, bottom = given[0].range(unknowns), given[1].range(unknowns)
    return tuple(
        equation(
            word,
            f"{operand(share_end(top, end))} ÷ {operand(share_end(bottom, 'low'))}",
            share_end(span, end),
            how[0] if how else "g",
        )
        for end, word in ends(span)
    )


@rule(
    "divided",
    "share = whole ÷ number",
    "The whole, divided by a number that is known exactly.",
    _show_divided,
)
def _divided(given: tuple[Given, ...], how: How, unknowns: Unknowns) -> Value:
    del how, unknowns
    return given[0].mass.times(1 / given[1].mass.fixed)


# -- masses ----------------------------------------------------------------


def _show_percent_of(
    given: tuple[Given, ...], how: How, unknowns: Unknowns, value: Value
) -> tuple[str, ...]:
    span = span_of(value, unknowns)
    whole, percent = given[1].mass, given[0].mass.fixed
    lines = []
    for end, word in ends(span):
        base = whole.at(extreme(whole, unknowns, end))
        below = f"(100 + {operand(percent)})" if "on top" in how else "100"
        left = f"{operand(percent)} ÷ {below} × {operand(base)}"
        lines.append(equation(word, left, share_end(span, end), "g"))
    return tuple(lines)


@rule(
    "percent of",
    "g = p ÷ 100 × base; on top of the base: g = p ÷ (100 + p) × total",
    "A percent of a total; a load on top of the base is p of (100 + p) of the total.",
    _show_percent_of,
)
def _percent_of(given: tuple[Given, ...], how: How, unknowns: Unknowns) -> Value:
    del unknowns
    percent = given[0].mass.fixed
    return given[1].mass.times(
        percent / (100 + percent) if "on top" in how else percent / 100
    )


def _show_part(
    given: tuple[Given, ...], how: How, unknowns: Unknowns, value: Value
) -> tuple[str, ...]:
    del how
    span = span_of(value, unknowns)
    mix, part = given[0].mass, given[1].mass.fixed
    all_parts = " + ".join(operand(g.mass.fixed) for g in given[2:])
    return tuple(
        equation(
            word,
            f"{operand(mix.at(extreme(mix, unknowns, end)))} × {operand(part)} "
            f"÷ ({all_parts})",
            share_end(span, end),
            "g",
        )
        for end, word in ends(span)
    )


@rule(
    "part of a mix",
    "g = mix × part ÷ Σ parts",
    "What one line of a blend brings, in proportion to its part of the blend.",
    _show_part,
)
def _part(given: tuple[Given, ...], how: How, unknowns: Unknowns) -> Value:
    del how, unknowns
    total = sum((g.mass.fixed for g in given[2:]), Fraction(0))
    return given[0].mass.times(given[1].mass.fixed / total)


def _show_sum(
    given: tuple[Given, ...], how: How, unknowns: Unknowns, value: Value
) -> tuple[str, ...]:
    unit = how[0] if how else "g"
    if isinstance(value, Range):
        return tuple(
            equation(
                word,
                " + ".join(operand(share_end(g.range(unknowns), end)) for g in given),
                share_end(value, end),
                unit,
            )
            for end, word in ends(value)
        )
    span = value.range(unknowns)
    lines = []
    for end, word in ends(span):
        corner = extreme(value, unknowns, end)
        full = {**lows(masses_of(given), unknowns), **corner}
        left = " + ".join(operand(g.mass.at(full)) for g in given) or "0"
        lines.append(equation(word, left, value.at(corner), unit))
    return tuple(lines)


@rule("sum", "total = Σ parts", "The parts, added.", _show_sum)
def _sum(given: tuple[Given, ...], how: How, unknowns: Unknowns) -> Value:
    del how, unknowns
    return Mass.total(g.mass for g in given)


def _show_stays(
    given: tuple[Given, ...], how: How, unknowns: Unknowns, value: Value
) -> tuple[str, ...]:
    del how
    span = span_of(value, unknowns)
    mass, leaves = given[0].range(unknowns), given[1].range(unknowns)
    lines = []
    for end, word in ends(span):
        gone = share_end(leaves, "high" if end == "low" else "low")
        left = f"{operand(share_end(mass, end))} × (100 - {operand(gone)}) ÷ 100"
        lines.append(equation(word, left, share_end(span, end), "g"))
    return tuple(lines)


@rule(
    "stays",
    "g left = g × (100 - leaves) ÷ 100",
    "What is left of a material once its volatile share has gone.",
    _show_stays,
)
def _stays(given: tuple[Given, ...], how: How, unknowns: Unknowns) -> Value:
    del how
    mass, leaves = given
    span = leaves.range(unknowns)
    if span.is_exact:
        return mass.mass.times((100 - share_end(span, "high")) / 100)
    if mass.mass.is_exact:
        grams = mass.mass.fixed
        return Mass(grams) - leaves.mass.times(grams / 100)
    held = mass.range(unknowns)
    return Range(
        share_end(held, "low") * (100 - share_end(span, "high")) / 100,
        share_end(held, "high") * (100 - share_end(span, "low")) / 100,
    )


def _show_before_loss(
    given: tuple[Given, ...], how: How, unknowns: Unknowns, value: Value
) -> tuple[str, ...]:
    del how
    span = span_of(value, unknowns)
    weighed, kept = (g.range(unknowns) for g in given)
    return tuple(
        equation(
            word,
            f"{operand(share_end(weighed, end))} ÷ "
            f"{operand(share_end(kept, 'high' if end == 'low' else 'low'))}",
            share_end(span, end),
            "g",
        )
        for end, word in ends(span)
    )


@rule(
    "before loss",
    "from the weighed mass up to weighed ÷ share kept",
    "What was lost on the way had the same composition, so the batch before the "
    "loss weighed between what is on the scale and that divided by the share kept.",
    _show_before_loss,
)
def _before_loss(given: tuple[Given, ...], how: How, unknowns: Unknowns) -> Value:
    del how
    weighed, kept = (g.range(unknowns) for g in given)
    return Range(
        share_end(weighed, "low") / share_end(kept, "high"),
        share_end(weighed, "high") / share_end(kept, "low"),
    )


@rule(
    "smaller",
    "the smaller of the expected and the weighed mass, at each end",
    "Of the expected and the weighed dry mass the smaller is used.",
    lambda given, how, unknowns, value: tuple(
        equation(word, operand(share_end(span, end)), share_end(span, end), "g")
        for span in (span_of(value, unknowns),)
        for end, word in ends(span)
    ),
)
def _smaller(given: tuple[Given, ...], how: How, unknowns: Unknowns) -> Value:
    del how
    first, second = (g.range(unknowns) for g in given)
    return Range(
        min(share_end(first, "low"), share_end(second, "low")),
        min(share_end(first, "high"), share_end(second, "high")),
    )
