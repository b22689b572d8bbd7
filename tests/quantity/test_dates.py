"""Dates of papers."""

from datetime import date

import pytest

from blendcheck.quantity import print_date, read_date
from tests.quantity.cases import asks, refuses

DAY = date(2025, 4, 3)
READ = [
    ("2025-04-03", DAY, "ISO 8601"),
    ("2025/04/03", DAY, "year first"),
    ("2025.4.3", DAY, "year first, short"),
    ("3 April 2025", DAY, "month in words"),
    ("03 Apr 2025", DAY, "short month"),
    ("3rd of April 2025", DAY, "in full"),
    ("3-APR-2025", DAY, "with hyphens"),
    ("Apr 3, 2025", DAY, "month first"),
    ("April 3rd 2025", DAY, "month first, no comma"),
    ("Apr. 3, 2025", DAY, "with a dot"),
    ("5 Sept. 2025", date(2025, 9, 5), "four letters"),
    ("03/03/2025", date(2025, 3, 3), "both readings are one day"),
    ("25/04/2025", date(2025, 4, 25), "there is no month 25"),
    ("04/25/2025", date(2025, 4, 25), "there is no month 25"),
    ("29.02.2024", date(2024, 2, 29), "a leap year"),
]

ASKED = [
    ("03/04/25", "date-order", "day, the month or the year", "six readings"),
    ("03/04/2025", "date-order", "3 April or 4 March", "two readings"),
    ("3.4.2025", "date-order", "3 April or 4 March", "dots say nothing"),
    ("03-04-2025", "date-order", "3 April or 4 March", "hyphens say nothing"),
    ("3 Apr 25", "date-year", "two digits", "1925?"),
    ("3 Apr '25", "date-year", "two digits", "1925?"),
]

REFUSED = [
    ("", "blank", "blank", "nothing"),
    ("soon", "unreadable", "not read as a date", "no date"),
    ("31 February 2025", "date-impossible", "no day", "no such day"),
    ("29.02.2025", "date-impossible", "no day", "no leap year"),
    ("13/13/2025", "date-impossible", "no day", "no such month"),
    ("2025-25-04", "date-impossible", "no day", "year first is never y-d-m"),
    ("April 2025", "date-day", "no day", "which day?"),
    ("04/2025", "date-day", "no day", "which day?"),
    ("2025", "date-day", "no day", "which day?"),
    ("20250403", "unreadable", "not read as a date", "digits in a row"),
    ("3 April 1925", "date-year-range", "1950 to 2150", "a slip"),
    ("3/4-2025", "unreadable", "not read as a date", "two marks"),
]


@pytest.mark.parametrize(("text", "day", "reason"), READ)
def test_date_is_read(text, day, reason):
    value = read_date(text)
    assert value.on == day, reason
    assert value.printed == text
    assert read_date(print_date(value)).on == day


@pytest.mark.parametrize(("text", "code", "match", "reason"), ASKED)
def test_more_than_one_meaning_is_asked_about(text, code, match, reason):
    asks(read_date, text, code, match)


@pytest.mark.parametrize(("text", "code", "match", "reason"), REFUSED)
def test_what_is_no_date_is_refused(text, code, match, reason):
    refuses(read_date, text, code, match)
