"""Questions for a cell that should hold a date of manufacture in words and holds a number or a date instead.

A spreadsheet turns `1905-06`, `1957-59` or `3/59` into a date, and a year typed in a date cell into a day in 1905.
What was typed cannot be known from the cell, so the right question is asked and nothing is read.
"""

from datetime import date, timedelta
from decimal import Decimal

from appraise.dating.periods import MONTH_NAMES
from appraise.model.finding import Finding, finding
from appraise.model.place import Place

#: Day 0 of the spreadsheet's calendar for dates after February 1900.
_DAY_ZERO = date(1899, 12, 30)
#: Numbers that are asked about as years.
_FIRST_YEAR, _LAST_YEAR = 1600, 2049


def question_for_cell(value: date | Decimal, place: Place, *subjects: str) -> Finding:
    """Return the finding that asks what a number or a date in a cell for a date of manufacture was meant to be.

    subjects  ids of the item and the statement, where known

    A number from 1600 to 2049 is asked about as a year. A day that a bare year becomes in a date cell (1937 becomes
    20 April 1905) is asked about as that year; the first of a month as a month or, where possible, two years.
    """
    if isinstance(value, Decimal):
        whole = value == value.to_integral_value() and _FIRST_YEAR <= value <= _LAST_YEAR
        near = str(int(value)) if whole else "1959; early 1959; 1957-59"
        return finding("DAT-06", place, *subjects, found=format(value, "f"), near=near)
    year = (value - _DAY_ZERO) // timedelta(days=1)
    if _FIRST_YEAR <= year <= _LAST_YEAR:
        return finding("DAT-08", place, *subjects, found=value.isoformat(), year=year, near="; ".join(_near(value)))
    return finding("DAT-07", place, *subjects, found=value.isoformat(), near="; ".join(_near(value)))


def _near(day: date) -> list[str]:
    """Return what may have been typed: the month, two years where the month could be a second year, a range."""
    near = [f"{MONTH_NAMES[day.month - 1]} {day.year}"]
    if day.day == 1:
        last = day.year - day.year % 100 + day.month
        if last > day.year:
            near.append(f"{day.year}-{last}")
    else:
        near.append(day.isoformat())
    return near
