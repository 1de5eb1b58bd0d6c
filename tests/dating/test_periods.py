"""Weeks as months, against the table that any sane way of counting weeks gives."""

from calendar import isleap
from datetime import date

import pytest

from appraise.dating.periods import month_names, week_of
from appraise.model.months import month_number

# Months a week may touch when week w lies between day 7w - 12 and day 7w + 6: arithmetic, no source.
WEEKS = {
    range(1, 4): (1,),
    range(4, 7): (1, 2),
    range(7, 8): (2,),
    range(8, 11): (2, 3),
    range(11, 13): (3,),
    range(13, 15): (3, 4),
    range(15, 17): (4,),
    range(17, 20): (4, 5),
    range(20, 21): (5,),
    range(21, 24): (5, 6),
    range(24, 26): (6,),
    range(26, 28): (6, 7),
    range(28, 30): (7,),
    range(30, 33): (7, 8),
    range(33, 34): (8,),
    range(34, 37): (8, 9),
    range(37, 39): (9,),
    range(39, 41): (9, 10),
    range(41, 43): (10,),
    range(43, 46): (10, 11),
    range(46, 47): (11,),
    range(47, 50): (11, 12),
    range(50, 54): (12,),
}


@pytest.mark.parametrize("weeks", WEEKS, ids=str)
def test_weeks_touch_these_months(weeks: range) -> None:
    """In a common and a leap year together."""
    for week in weeks:
        found = {month % 12 + 1 for year in (1963, 1964) for month in week_of(year, week).outer.each()}  # type: ignore[union-attr]
        assert found == set(WEEKS[weeks]), week


@pytest.mark.parametrize("year", [1961, 1964])
def test_weeks_against_the_calendar(year: int) -> None:
    """Every month that a day from 7w - 12 to 7w + 6 of the year lies in, and the month of day 7w - 3."""
    days = 366 if isleap(year) else 365
    for week in range(1, 54):
        period = week_of(year, week)
        assert period is not None
        touched = {
            date.fromordinal(date(year, 1, 1).toordinal() + day - 1).month
            for day in range(max(1, 7 * week - 12), min(days, 7 * week + 6) + 1)
        }
        assert {month % 12 + 1 for month in period.outer.each()} == touched
        middle = date.fromordinal(date(year, 1, 1).toordinal() + min(7 * week - 3, days) - 1)
        assert list(period.core.each()) == [month_number(year, middle.month)]


@pytest.mark.parametrize("week", [0, 54, 99])
def test_impossible_weeks(week: int) -> None:
    assert week_of(1962, week) is None


@pytest.mark.parametrize(
    ("year", "week", "day"),
    [(1966, 34, date(1966, 8, 22)), (1964, 21, date(1964, 5, 18)), (1966, 12, date(1966, 3, 21))],
)
def test_iso_weeks_lie_within(year: int, week: int, day: date) -> None:
    """ISO 8601 weeks are one way of counting: all their days lie in the months given."""
    period = week_of(year, week)
    assert period is not None
    for offset in range(7):
        one = date.fromordinal(day.toordinal() + offset)
        assert one.isocalendar()[:2] == (year, week)
        assert month_number(one.year, one.month) in period.outer


def test_month_names_come_from_the_locale_and_english() -> None:
    names = month_names("de_DE")
    assert (names["märz"], names["march"], names["okt"]) == (3, 3, 10)
    assert set(month_names("en").values()) == set(range(1, 13))
