"""Amounts of a recipe line."""

import pytest

from blendcheck.quantity import Base, print_amount, read_amount
from tests.quantity.cases import asks, refuses, span

READ = [
    # text, kind, number, unit, reason
    ("10 g", "mass", "[10, 10]", "g", "the plain case"),
    ("10g", "mass", "[10, 10]", "g", "no space"),
    ("24.50 g", "mass", "[24.5, 24.5]", "g", "a scale's digits"),
    (".5 g", "mass", "[0.5, 0.5]", "g", "no zero before the point"),
    ("0 g", "mass", "[0, 0]", "g", "a written zero is a number"),
    ("1.25 kg", "mass", "[1.25, 1.25]", "kg", "kilograms"),
    ("250 MG", "mass", "[250, 250]", "mg", "all capitals"),
    ("2 lbs.", "mass", "[2, 2]", "lb", "plural with a dot"),
    ("4 oz wt", "mass", "[4, 4]", "oz", "ounces of weight"),
    ("4 oz. (weight)", "mass", "[4, 4]", "oz", "the same in brackets"),
    ("5 mL", "volume", "[5, 5]", "mL", "millilitres"),
    ("5 cc", "volume", "[5, 5]", "mL", "cubic centimetres"),
    ("1 l", "volume", "[1, 1]", "L", "small l"),
    ("2 U.S. fl. oz.", "volume", "[2, 2]", "US fl oz", "with dots"),
    ("2 fl oz (UK)", "volume", "[2, 2]", "imp fl oz", "behind, in brackets"),
    ("2 imperial fluid ounces", "volume", "[2, 2]", "imp fl oz", "in words"),
    ("1 1/2 tsp", "volume", "[3/2, 3/2]", "tsp", "a kitchen fraction"),
    ("½ tsp", "volume", "[1/2, 1/2]", "tsp", "one sign"),
    ("1½ tbsp", "volume", "[3/2, 3/2]", "tbsp", "sign behind a digit"),
    ("1 ½ tbsp", "volume", "[3/2, 3/2]", "tbsp", "the same with a space"),
    ("3\u20444 tsp", "volume", "[3/4, 3/4]", "tsp", "the fraction slash"),
    ("1/3 tsp", "volume", "[1/3, 1/3]", "tsp", "no end of decimals"),
    ("1 metric tsp", "volume", "[1, 1]", "metric tsp", "5 mL, kept apart"),
    ("20 drops", "count", "[20, 20]", "drop", "drops"),
    ("1 drop", "count", "[1, 1]", "drop", "one drop"),
    ("2 cups", "count", "[2, 2]", "cup", "a cup is weighed, not a volume"),
    ("3 pinches", "count", "[3, 3]", "pinch", "pinches"),
    ("2 Capfuls", "count", "[2, 2]", "capful", "capital letter"),
    ("4 scoops", "count", "[4, 4]", "scoop", "scoops"),
    ("6 sprays", "count", "[6, 6]", "spray", "sprays"),
    ("3 parts", "parts", "[3, 3]", "part", "parts"),
    ("10-12 g", "mass", "[10, 12]", "g", "hyphen"),
    ("10 – 12 drops", "count", "[10, 12]", "drop", "en dash with spaces"),
    ("10\u221212 g", "mass", "[10, 12]", "g", "a minus sign between is a dash"),
    ("10 to 12 g", "mass", "[10, 12]", "g", "in words"),
    ("10 g - 12 g", "mass", "[10, 12]", "g", "unit at both ends"),
    ("1/2-3/4 cup", "count", "[1/2, 3/4]", "cup", "two fractions"),
    ("1-1 1/2 tsp", "volume", "[1, 3/2]", "tsp", "to one and a half"),
    ("10\u00a0g", "mass", "[10, 10]", "g", "no-break space"),
    ("  10 \t g ", "mass", "[10, 10]", "g", "spaces around and between"),
]

PERCENT = [
    ("2 %", "[2, 2]", None, "nothing said about the base"),
    ("2 percent", "[2, 2]", None, "in words"),
    ("½ %", "[1/2, 1/2]", None, "one sign"),
    ("2 % w/w", "[2, 2]", None, "by weight is what a recipe means"),
    ("500 ppm", "[0.05, 0.05]", None, "parts per million, exactly"),
    ("2 % of finished", "[2, 2]", Base.FINISHED, "the base of caps"),
    ("2% of the powders", "[2, 2]", Base.POWDERS, "powders"),
    ("130 % of the powders", "[130, 130]", Base.POWDERS, "may be over 100"),
    ("1-2 % of the wet mix", "[1, 2]", Base.WET, "as mixed"),
    ("1 % - 2 % of the wet mix", "[1, 2]", Base.WET, "sign at both ends"),
    ("5 % of the soaping oils", "[5, 5]", Base.SOAPING_OILS, "soap's base"),
    ("40 % of the blend", "[40, 40]", Base.BLEND, "inside a blend"),
    ("40 % of the material", "[40, 40]", Base.MATERIAL, "inside a material"),
    ("0.7 oz ppo", "[4.375, 4.375]", Base.SOAPING_OILS, "0.7/16 of the oils"),
    ("1 oz. per lb of oils", "[6.25, 6.25]", Base.SOAPING_OILS, "in words"),
]

ASKED = [
    ("2 oz", "bare-oz", "weight or fluid", "the two differ with the density"),
    ("2 ounces", "bare-oz", "weight or fluid", "in words"),
    ("2 fl oz", "fl-oz-which", "which fluid ounce", "29.6 or 28.4 mL"),
    ("2 fl. oz.", "fl-oz-which", "US fl oz or imp fl oz", "with dots"),
    ("10", "unit-missing", "has no unit", "grams, drops, parts?"),
    ("10 g - 12", "unit-missing", "has no unit", "the second end has none"),
    ("0,5 g", "decimal-comma", "0.5 or 0 and 5", "a decimal comma is not guessed"),
    ("1,000 g", "decimal-comma", r"1\.000 or 1000", "both meanings are named"),
    ("about 10 g", "about", "how far off", "no ends"),
    ("~10 g", "about", "how far off", "the same in a sign"),
    ("10 g approx.", "about", "Write a range", "behind the unit"),
    ("10 ± 1 g", "about", "Write a range", "9-11 must be written so"),
    ("05 g", "leading-zero", "Write 0.5 or 5", "0.5 that lost its point"),
    ("11/2 tsp", "improper", "without the space", "1 1/2 that lost its space"),
    ("1-1/2 tsp", "mixed-or-range", "Write 1 1/2", "a mixed number with a hyphen"),
    ("10/25 g", "fraction", "Write 10-25", "not in lowest terms: a range?"),
    ("1/23 g", "fraction", "decimal number", "no kitchen divides by 23"),
    ("10 Mg", "unit-case", "millions of grams", "megagrams, if taken at its word"),
    ("1 T", "spoon-which", "which spoon", "T and t are two spoons"),
    ("1 c", "spoon-which", "which spoon or cup", "cup?"),
    ("1 metric tbsp", "metric-tbsp", "15 mL or 20 mL", "depends on the country"),
    ("0.7 ppo", "ppo-unit", "ounces per pound", "grams per pound are used too"),
    ("2 % of the total", "percent-of-what", "of the wet mix", "finished or as mixed?"),
    ("2 % of the oils", "percent-of-what", "which mass", "soaping or essential?"),
]

REFUSED = [
    ("", "blank", "blank is not zero", "an empty cell"),
    (" \u00a0", "blank", "blank is not zero", "spaces only"),
    ("g", "unreadable", "not read as an amount", "no number"),
    ("ten g", "unreadable", "not read as an amount", "a number in words"),
    ("10 wibbles", "unreadable", "not read as an amount", "unknown unit"),
    ("10 g of oil", "unreadable", "not read as an amount", "a name behind"),
    ("1 lb 4 oz", "unreadable", "not read as an amount", "two units"),
    ("-5 g", "negative", "minus sign", "less than nothing"),
    ("\u22125 g", "negative", "minus sign", "the real minus sign"),
    ("nan", "number", "plain digits", "no number"),
    ("1e5 g", "number", "plain digits", "an exponent"),
    ("1.2.3 g", "number", "plain digits", "two points"),
    ("10. g", "number", "plain digits", "a digit lost behind the point?"),
    ("1/0 g", "number", "divide", "no number"),
    ("0/2 g", "number", "without zeros", "no fraction"),
    ("1_000 g", "number-gap", "gap inside", "a programmer's number"),
    ("1 000 g", "number-gap", "gap inside", "thousands are not guessed"),
    ("1\u202f000 g", "number-gap", "gap inside", "narrow space as well"),
    ("1'000 g", "number-gap", "gap inside", "thousands mark"),
    ("\u0663 g", "characters", r"U\+0663", "a digit of another script"),
    ("\uff11\uff10 g", "characters", r"U\+FF11", "full-width digits"),
    ("1\u00ad0 g", "characters", r"U\+00AD", "a soft hyphen hides a range"),
    ("1\u200b0 g", "characters", r"U\+200B", "an invisible space"),
    ("12-10 g", "range-order", "lower end first", "reversed"),
    ("10-12-14 g", "unreadable", "not read as an amount", "three ends"),
    ("<5 g", "amount-bound", "not an amount", "how much is it?"),
    ("10 - < 12 g", "amount-bound", "not an amount", "the same with two ends"),
    ("10 g - 12 mL", "units-mixed", "different units", "mass to volume"),
    ("120 % of finished", "out-of-range", "between 0 and 100", "more than all"),
    ("120 %", "out-of-range", "between 0 and 100", "more than all"),
    ("2 % v/v", "percent-basis", "not a percent by weight", "needs a density"),
    ("2 % of the sauce", "unreadable", "not a base", "an unknown base"),
    ("1" + "0" * 200 + " g", "too-long", "too long", "not one figure"),
]


@pytest.mark.parametrize(("text", "kind", "number", "unit", "reason"), READ)
def test_amount_is_read_exactly(text, kind, number, unit, reason):
    amount = read_amount(text)
    assert (amount.kind, amount.unit) == (kind, unit), reason
    assert amount.number == span(number), reason
    assert amount.base is None
    assert amount.printed == text


@pytest.mark.parametrize(("text", "number", "base", "reason"), PERCENT)
def test_percent_of_a_base(text, number, base, reason):
    amount = read_amount(text)
    assert (amount.kind, amount.unit, amount.base) == ("percent", "%", base), reason
    assert amount.number == span(number), reason
    assert amount.printed == text


@pytest.mark.parametrize(("text", "code", "match", "reason"), ASKED)
def test_more_than_one_meaning_is_asked_about(text, code, match, reason):
    asks(read_amount, text, code, match)


@pytest.mark.parametrize(("text", "code", "match", "reason"), REFUSED)
def test_what_is_no_amount_is_refused(text, code, match, reason):
    refuses(read_amount, text, code, match)


def test_something_that_is_no_text_is_refused():
    refuses(read_amount, 10.5, "not-text", "quotation marks")


PRINTED = [
    ("10 - 12 Drops", "10 to 12 drops"),
    ("1 drop", "1 drop"),
    ("½ cups", "0.5 cup"),
    ("2 pinch", "2 pinches"),
    ("1 2/3 tsp", "1 2/3 tsp"),
    ("4 ounces by weight", "4 oz wt"),
    ("24.50 g", "24.5 g"),
    ("0.7 oz ppo", "4.375 % of the soaping oils"),
    ("1/7 oz ppo", "1/7 oz ppo"),
    ("1/3 ppm", "1/3 ppm"),
    ("2% of powder", "2 % of the powders"),
]


@pytest.mark.parametrize(("text", "printed"), PRINTED)
def test_amount_prints_tidily(text, printed):
    assert print_amount(read_amount(text)) == printed
