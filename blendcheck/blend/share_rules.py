"""Rules for what one lot holds: sums, remainders, what silence leaves."""

from fractions import Fraction

from blendcheck.blend.closing import End, share_end
from blendcheck.blend.printed import ENDS, ends, equation, operand, span_of
from blendcheck.interval import Range
from blendcheck.records.mass import Unknowns
from blendcheck.records.working import Given, How, Value, rule

_WORDS = ("low end", "high end")


def _show_remainder(
    given: tuple[Given, ...], how: How, unknowns: Unknowns, value: Value
) -> tuple[str, ...]:
    del how
    lows = [operand(share_end(g.range(unknowns), "low")) for g in given]
    high = share_end(span_of(value, unknowns), "high")
    left = " - ".join(["100", *(x for x in lows if x != "0")])
    return (equation("high end", left, high, "%"),)


@rule(
    "remainder",
    "at most 100 - Σ low ends of the list",
    "What a list leaves for anything that it does not show.",
    _show_remainder,
)
def _remainder(given: tuple[Given, ...], how: How, unknowns: Unknowns) -> Value:
    del how
    low = sum((share_end(g.range(unknowns), "low") for g in given), Fraction(0))
    return Range(Fraction(0), max(100 - low, Fraction(0)))


def _show_held(
    given: tuple[Given, ...], how: How, unknowns: Unknowns, value: Value
) -> tuple[str, ...]:
    span = span_of(value, unknowns)
    count = int(how[0])
    lines = []
    for end, word in ends(span):
        left = _held_text(given, count, unknowns, end, span)
        lines.append(equation(word, left, share_end(span, end), "%"))
    return tuple(lines)


def _held_text(
    given: tuple[Given, ...], count: int, unknowns: Unknowns, end: End, span: Range
) -> str:
    counted = [share_end(g.range(unknowns), end) for g in given[:count]]
    if sum(counted, Fraction(0)) == share_end(span, end):
        return " + ".join(operand(x) for x in counted)
    if end == "low":
        return operand(share_end(span, end))
    others = [operand(share_end(g.range(unknowns), "low")) for g in given[count:]]
    return " - ".join(["100", *(x for x in others if x != "0")])


@rule(
    "sum inside one lot",
    "Σ shares, at most 100 - Σ low ends of the other lines of the list",
    "Shares of one lot added; together they cannot exceed what that lot can hold. "
    "Where a list has both a group and its members, the larger low end is kept.",
    _show_held,
)
def _held(given: tuple[Given, ...], how: How, unknowns: Unknowns) -> Value:
    count, group_first = int(how[0]), how[1:] == ("group",)
    inside = [g.range(unknowns) for g in given[:count]]
    others = sum(
        (share_end(g.range(unknowns), "low") for g in given[count:]), Fraction(0)
    )
    lows = [share_end(s, "low") for s in inside]
    if group_first:
        low = max(lows[0], sum(lows[1:], Fraction(0)))
        low_open = False
    else:
        low, low_open = sum(lows, Fraction(0)), any(s.low_open for s in inside)
    top = sum((share_end(s, "high") for s in inside), Fraction(0))
    room = max(100 - others, Fraction(0))
    high, high_open = (
        (top, any(s.high_open for s in inside)) if top <= room else (room, False)
    )
    high = max(high, low)
    return Range(low, high, low_open and low < high, high_open and low < high)


def _show_can_stay(
    given: tuple[Given, ...], how: How, unknowns: Unknowns, value: Value
) -> tuple[str, ...]:
    del how
    span = span_of(value, unknowns)
    gone = share_end(given[1].range(unknowns), "low")
    high = share_end(span, "high")
    left = f"100 - {operand(gone)}" if 100 - gone == high else operand(high)
    return (equation("high end", left, high, "%"),)


@rule(
    "can stay",
    "at most the smaller of its share and 100 - what leaves",
    "A component of a material that dries off: none of it may be left, or as much "
    "as the share of the material that stays.",
    _show_can_stay,
)
def _can_stay(given: tuple[Given, ...], how: How, unknowns: Unknowns) -> Value:
    del how
    share, leaves = (g.range(unknowns) for g in given)
    high = min(share_end(share, "high"), 100 - share_end(leaves, "low"))
    return Range(Fraction(0), high)


def _show_low_only(
    given: tuple[Given, ...], how: How, unknowns: Unknowns, value: Value
) -> tuple[str, ...]:
    del how, value
    low = share_end(given[0].range(unknowns), "low")
    return (equation("", operand(low), low, "%"),)


@rule(
    "low end only",
    "at least the printed low end",
    "The paper prints no high end; only its low end is documented.",
    _show_low_only,
)
def _low_only(given: tuple[Given, ...], how: How, unknowns: Unknowns) -> Value:
    del how
    span = given[0].range(unknowns)
    low = share_end(span, "low")
    return Range(low, low)


def _show_high_only(
    given: tuple[Given, ...], how: How, unknowns: Unknowns, value: Value
) -> tuple[str, ...]:
    del how, given
    high = share_end(span_of(value, unknowns), "high")
    return (equation("high end", operand(high), high, "%"),)


def _show_together(
    given: tuple[Given, ...], how: How, unknowns: Unknowns, value: Value
) -> tuple[str, ...]:
    del how, given
    span = span_of(value, unknowns)
    return tuple(
        equation(word, operand(share_end(span, end)), share_end(span, end), "%")
        for end, word in ends(span)
    )


@rule(
    "all papers together",
    "from the largest low end to the smallest high end; where papers exclude one "
    "another, from the smallest low end to the largest high end",
    "Every paper of the lot is taken at its word; papers that contradict one another "
    "are not decided between.",
    _show_together,
)
def _together(given: tuple[Given, ...], how: How, unknowns: Unknowns) -> Value:
    del how
    spans = [g.range(unknowns) for g in given]
    low = max(spans, key=lambda s: (share_end(s, "low"), s.low_open))
    high = min(spans, key=lambda s: (share_end(s, "high"), not s.high_open))
    least, most = share_end(low, "low"), share_end(high, "high")
    if least < most or (least == most and not (low.low_open or high.high_open)):
        return Range(least, most, low.low_open, high.high_open)
    return Range(
        min(share_end(s, "low") for s in spans),
        max(share_end(s, "high") for s in spans),
    )


@rule(
    "may count",
    "from 0 up to the share",
    "It counts if the maker confirms the match; until then it may be nothing.",
    _show_high_only,
)
def _may_count(given: tuple[Given, ...], how: How, unknowns: Unknowns) -> Value:
    del how
    return Range(Fraction(0), share_end(given[0].range(unknowns), "high"))


def _show_room(
    given: tuple[Given, ...], how: How, unknowns: Unknowns, value: Value
) -> tuple[str, ...]:
    others = given[1:] if how else given
    return _show_remainder(others, (), unknowns, value)


@rule(
    "room in one lot",
    "at most 100 - Σ low ends of the other lines of the list",
    "No list says how much it is, so it may be all that the other lines leave.",
    _show_room,
)
def _room(given: tuple[Given, ...], how: How, unknowns: Unknowns) -> Value:
    first, others = (given[:1], given[1:]) if how else ((), given)
    low = share_end(first[0].range(unknowns), "low") if first else Fraction(0)
    taken = sum((share_end(g.range(unknowns), "low") for g in others), Fraction(0))
    return Range(low, max(100 - taken, low))


def _show_unlisted(
    given: tuple[Given, ...], how: How, unknowns: Unknowns, value: Value
) -> tuple[str, ...]:
    del how
    span = span_of(value, unknowns)
    lines = []
    for end, word in ends(span):
        other: End = "high" if end == "low" else "low"
        shares = [operand(share_end(g.range(unknowns), other)) for g in given]
        left = " - ".join(["100", *(x for x in shares if x != "0")])
        result = share_end(span, end)
        if result == 0:  # the list may name all of it, and more
            left = "0"
        lines.append(equation(word, left, result, "%"))
    return tuple(lines)


@rule(
    "unlisted",
    "100 - Σ shares of the list",
    "What the components of the list leave unnamed.",
    _show_unlisted,
)
def _unlisted(given: tuple[Given, ...], how: How, unknowns: Unknowns) -> Value:
    del how
    spans = [g.range(unknowns) for g in given]
    low = sum((share_end(s, "low") for s in spans), Fraction(0))
    high = sum((share_end(s, "high") for s in spans), Fraction(0))
    return Range(max(100 - high, Fraction(0)), max(100 - low, Fraction(0)))


def _show_span(
    given: tuple[Given, ...], how: How, unknowns: Unknowns, value: Value
) -> tuple[str, ...]:
    del how
    span = span_of(value, unknowns)
    return tuple(
        equation(
            word, operand(share_end(g.range(unknowns), end)), share_end(span, end), "%"
        )
        for g, end, word in zip(given, ENDS, ("low end", "high end"), strict=True)
    )


@rule(
    "low to high",
    "from the documented low end to the most that it can be",
    "The low end is what is documented; the high end counts what no list shows.",
    _show_span,
)
def _low_to_high(given: tuple[Given, ...], how: How, unknowns: Unknowns) -> Value:
    del how
    low, high = (g.range(unknowns) for g in given)
    return Range(
        share_end(low, "low"),
        share_end(high, "high"),
        low.low_open and low.low != high.high,
        high.high_open and low.low != high.high,
    )
