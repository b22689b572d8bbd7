"""Rules that close percents, and grams in a piece."""

from blendcheck.blend.closing import closed_share, extreme_ratio, share_end, weighted
from blendcheck.blend.printed import ends, equation, extreme, lows, operand, span_of
from blendcheck.interval import Range
from blendcheck.records.mass import Mass, Unknowns
from blendcheck.records.working import Given, How, Value, rule

# -- percents --------------------------------------------------------------


def _split(
    given: tuple[Given, ...], how: How, unknowns: Unknowns
) -> tuple[list[Range], list[Mass], Mass, Range | None]:
    weighed = given[-1].range(unknowns) if "weighed" in how else None
    body = given[:-1] if weighed is not None else given
    pairs = body[:-1]
    shares = [g.range(unknowns) for g in pairs[::2]]
    masses = [g.mass for g in pairs[1::2]]
    return shares, masses, body[-1].mass, weighed


def _show_percent(
    given: tuple[Given, ...], how: How, unknowns: Unknowns, value: Value
) -> tuple[str, ...]:
    span = span_of(value, unknowns)
    shares, masses, whole, weighed = _split(given, how, unknowns)
    lines = []
    for end, word in ends(span):
        part = weighted(shares, masses, end)
        met = extreme_ratio(part, whole, unknowns, end)
        corner = {
            **lows(masses, unknowns),
            **met.corner,
        }
        below = whole.at(corner)
        if met.value * 100 != share_end(span, end) and weighed is not None:
            below = share_end(weighed, "high" if end == "low" else "low")
            corner = {**corner, **extreme(part, unknowns, end)}
        terms = [
            f"{operand(share_end(s, end))} × {operand(m.at(corner))}"
            for s, m in zip(shares, masses, strict=True)
            if share_end(s, end)
        ]
        left = f"({' + '.join(terms) or '0'}) ÷ {operand(below)}"
        lines.append(equation(word, left, share_end(span, end), "%"))
    return tuple(lines)


@rule(
    "percent",
    "% = Σ (share × g) ÷ g of the whole",
    "What each material brings, added, as a percent of the whole; of the expected "
    "and the weighed whole the smaller is used.",
    _show_percent,
)
def _percent(given: tuple[Given, ...], how: How, unknowns: Unknowns) -> Value:
    shares, masses, whole, weighed = _split(given, how, unknowns)
    return closed_share(shares, masses, whole, unknowns, weighed)


def _show_grams(
    given: tuple[Given, ...], how: How, unknowns: Unknowns, value: Value
) -> tuple[str, ...]:
    del how
    span = span_of(value, unknowns)
    shares = [g.range(unknowns) for g in given[::2]]
    masses = [g.mass for g in given[1::2]]
    lines = []
    for end, word in ends(span):
        corner = {
            **lows(masses, unknowns),
            **extreme(weighted(shares, masses, end), unknowns, end),
        }
        terms = [
            f"{operand(share_end(s, end))} × {operand(m.at(corner))}"
            for s, m in zip(shares, masses, strict=True)
            if share_end(s, end)
        ]
        left = f"({' + '.join(terms) or '0'}) ÷ 100"
        lines.append(equation(word, left, share_end(span, end), "g"))
    return tuple(lines)


@rule(
    "grams",
    "g = Σ (share × g) ÷ 100",
    "What each material brings, in grams.",
    _show_grams,
)
def _grams(given: tuple[Given, ...], how: How, unknowns: Unknowns) -> Value:
    del how
    shares = [g.range(unknowns) for g in given[::2]]
    masses = [g.mass for g in given[1::2]]
    low = weighted(shares, masses, "low").range(unknowns)
    high = weighted(shares, masses, "high").range(unknowns)
    ends = share_end(low, "low"), share_end(high, "high")
    return Range(*ends)


def _show_per_piece(
    given: tuple[Given, ...], how: How, unknowns: Unknowns, value: Value
) -> tuple[str, ...]:
    del how
    span = span_of(value, unknowns)
    percent, piece = (g.range(unknowns) for g in given)
    return tuple(
        equation(
            word,
            f"{operand(share_end(percent, end))} ÷ 100 "
            f"× {operand(share_end(piece, end))}",
            share_end(span, end),
            "g",
        )
        for end, word in ends(span)
    )


@rule(
    "per piece",
    "g in a piece = % of finished ÷ 100 × g of the piece",
    "The percent of the finished product, times what one piece weighs.",
    _show_per_piece,
)
def _per_piece(given: tuple[Given, ...], how: How, unknowns: Unknowns) -> Value:
    del how
    percent, piece = (g.range(unknowns) for g in given)
    return Range(
        share_end(percent, "low") * share_end(piece, "low") / 100,
        share_end(percent, "high") * share_end(piece, "high") / 100,
    )
