"""Short ways to write down what a text must be read as."""

from fractions import Fraction

import pytest

from blendcheck.errors import InputError, QuestionError
from blendcheck.interval import Range


def fraction(text: str | None) -> Fraction | None:
    """``"1/3"`` or ``"0.25"`` as an exact number, None as None."""
    return None if text is None else Fraction(text)


def span(shape: str) -> Range:
    """``"[10, 25)"`` as a range: brackets as in mathematics, ``-`` for no end."""
    low, high = (part.strip() for part in shape[1:-1].split(","))
    return Range(
        None if low == "-" else Fraction(low),
        None if high == "-" else Fraction(high),
        shape[0] == "(" and low != "-",
        shape[-1] == ")" and high != "-",
    )


def asks(read, text: str, code: str, match: str) -> None:
    """Check that a text is asked about, with this code and these words."""
    with pytest.raises(QuestionError, match=match) as caught:
        read(text)
    assert caught.value.code == code


def refuses(read, text: str, code: str, match: str) -> None:
    """Check that a text is refused, not asked about."""
    with pytest.raises(InputError, match=match) as caught:
        read(text)
    assert not isinstance(caught.value, QuestionError)
    assert caught.value.code == code
