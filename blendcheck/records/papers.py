"""What the maker writes on the papers that go with a recipe."""

from typing import Annotated

from pydantic import AfterValidator, Field
from pydantic import StringConstraints as Text

from blendcheck.errors import InputError
from blendcheck.records.fields import DateText, Name, Record

__all__ = ["PaperTexts", "Reason"]


class Reason(Record):
    """Why something is sold although a limit is not shown to be kept.

    ``about`` is the subject of the limit as the check prints it, ``says`` the
    maker's own words.
    """

    about: Name
    says: Annotated[str, Text(min_length=1, max_length=1000)]


def _once(reasons: tuple[Reason, ...]) -> tuple[Reason, ...]:
    seen: set[str] = set()
    for reason in reasons:
        key = reason.about.casefold()
        if key in seen:
            raise InputError(
                f'two reasons are given for "{reason.about}"', "keep one of them"
            )
        seen.add(key)
    return reasons


class PaperTexts(Record):
    """The maker's words on card and label.

    Everything may be left out: a title is then the name of the recipe, and a blank
    to fill in by hand stands where a date, a lot or a telephone number is missing.
    ``small_last`` lists what makes up at most 1 % after the rest, by the alphabet.
    """

    title: Annotated[str, Text(max_length=200)] = ""
    message: Annotated[str, Text(max_length=600)] = ""
    who: Annotated[str, Text(max_length=200)] = ""
    where: Annotated[str, Text(max_length=300)] = ""
    made_on: DateText | None = None
    best_before: DateText | None = None
    lot: Annotated[str, Text(max_length=60)] = ""
    pieces_in_pack: int | None = Field(default=None, ge=1, le=1000, strict=True)
    small_last: bool = False
    reason: Annotated[tuple[Reason, ...], AfterValidator(_once)] = ()
