"""Why a text is not read: one message a reason, each with its code.

==================== ========= =====================================================
code                 class     reason
==================== ========= =====================================================
``about``            question  "about", "ca.", "±": the ends are not given
``bare-oz``          question  ounces of weight or fluid ounces
``cap-bound``        question  a cap as "below 5", or as "at least 5"
``cap-range``        question  a cap printed as a range
``date-order``       question  03/04/25: day, month and year in an unknown order
``date-year``        question  a year of two digits
``decimal-comma``    question  a comma beside a digit
``fl-oz-which``      question  fluid ounces: US or imperial
``fraction``         question  10/25: no kitchen's fraction, perhaps a range
``hazard-category``  question  a class or a statement without its category
``hazard-statement`` question  a class that has several statements
``improper``         question  11/2: 5.5, or 1 1/2 without its space
``leading-zero``     question  05: 5, or 0.5 without its point
``limit-from``       question  a specific limit of one bare figure
``metric-tbsp``      question  a metric tablespoon is 15 mL or 20 mL
``mixed-or-range``   question  1-1/2: 1 1/2, or a range
``not-added-limit``  question  "not added", but no limit on what oils bring
``percent-of-what``  question  "of the total", "of the oils"
``ppo-unit``         question  "ppo" without "oz"
``spoon-which``      question  "t", "T", "c": which spoon or cup
``toxicity-form``    question  "inhalation": as vapour, mist or gas
``unit-case``        question  "Mg" is a million grams
``unit-missing``     question  no unit, where more than one is usual
``units-disagree``   question  two temperatures that are not the same one
==================== ========= =====================================================

Refused outright (:class:`~blendcheck.errors.InputError`): ``amount-bound``,
``balance``, ``below-absolute-zero``, ``blank``, ``cap-base``, ``characters``,
``dash``, ``date-day``, ``date-impossible``, ``date-year-range``,
``detection-limit``, ``hazard-class``, ``hazard-factor``, ``hazard-mismatch``,
``hazard-several``, ``limit-form``, ``m-factor``, ``negative``,
``not-applicable``, ``not-text``, ``number``, ``number-gap``, ``out-of-range``,
``percent-basis``, ``range-bounds``, ``range-order``, ``too-long``,
``toxicity-routes``, ``toxicity-unit``,
``units-mixed``, ``unreadable``, ``viscosity-temperature``.
"""

import re

from blendcheck.errors import InputError, QuestionError
from blendcheck.quantity.cleaning import shown

__all__ = ["about", "out_of_range", "refusal"]

# Compiled by ``re`` when first needed: texts that can be read never come here.
_COMMA = r"[0-9],|,[0-9]"
_BETWEEN = r"([0-9]+),([0-9]+)"
_ABOUT = (
    r"[±≈~]|\+/?-|(?:^|[^a-z])(?:about|approx|approximately|ca|circa|around|roughly"
    r"|nearly|almost)(?:[^a-z]|$)"
)
_NEGATIVE = r"- ?[0-9.]"
_GAP = r"[0-9] ?['_ ] ?[0-9]"
_NO_NUMBER = (
    r"[0-9]e[+-]?[0-9]|^[+-]?(?:nan|inf|infinity)(?:[^a-z]|$)"
    r"|[0-9]\.(?![0-9])|[0-9]\.[0-9]*\.|\.\."
)


def about(text: str) -> QuestionError:
    """Return the question about a text such as "about 10 g".

    Parameters
    ----------
    text : str
        What was written.
    """
    return QuestionError(
        f"{shown(text)} does not say how far off it may be",
        "Write a range, like 9-11, or the figure alone if it was measured",
        code="about",
    )


def out_of_range(text: str, rule: str) -> InputError:
    """Return the refusal of a number outside what it may be.

    Parameters
    ----------
    text : str
        What was written.
    rule : str
        The end of the sentence "it must be ...".
    """
    return InputError(
        f"{shown(text)} must be {rule}",
        "Compare it with the paper, digit by digit",
        code="out-of-range",
    )


def _comma(text: str, plain: str) -> QuestionError:
    found = re.search(_BETWEEN, plain)
    meaning = "be a decimal point, part two figures or be a slip"
    if found:
        whole, part = found.groups()
        other = f"{whole}{part}" if len(part) == 3 else f"{whole} and {part}"
        meaning = f"make it {whole}.{part} or {other}"
    return QuestionError(
        f"the comma in {shown(text)} may {meaning}",
        "Write decimals with a point, and thousands without a mark",
        code="decimal-comma",
    )


def refusal(text: str, plain: str, what: str, example: str) -> InputError:
    """Return the error for a text that matches no form, with the likely reason.

    Parameters
    ----------
    text, plain : str
        What was written, and the same after :func:`~blendcheck.quantity.clean`.
    what : str
        What should have been there, with its article: "an amount".
    example : str
        A text that would be read.

    Returns
    -------
    InputError
        A :class:`~blendcheck.errors.QuestionError` where the text has more than
        one meaning; its ``code`` names the reason.
    """
    fix = f"Write {what} like {example}"
    quoted = shown(text)
    if not plain:
        return InputError(
            "nothing is written, and blank is not zero", fix, code="blank"
        )
    if re.search(_COMMA, plain):
        return _comma(text, plain)
    if re.search(_ABOUT, plain):
        return about(text)
    if re.match(_NEGATIVE, plain):
        return InputError(f"{quoted} starts with a minus sign", fix, code="negative")
    if re.search(_NO_NUMBER, plain):
        return InputError(
            f"{quoted} holds a number that is not written in plain digits",
            fix,
            code="number",
        )
    if re.search(_GAP, plain):
        return InputError(
            f"{quoted} has a gap inside a number",
            "Write the digits together, like 1000, and a fraction like 1 1/2",
            code="number-gap",
        )
    return InputError(f"{quoted} is not read as {what}", fix, code="unreadable")
