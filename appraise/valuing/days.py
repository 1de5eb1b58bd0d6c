"""Days and months between them: the same day number some months on, full months passed, yearly anniversaries.

A month that lacks the day takes its last day ("clamp"). That is how a period of calendar months is counted to the
numerically corresponding day in US estate tax: 26 CFR 20.6075-1 for the nine months of the return (its own example:
31 July to 30 April), Rev. Rul. 74-260 for the six months of the alternate valuation date (from memory).
"""

from calendar import monthrange
from datetime import MAXYEAR, MINYEAR, date, timedelta

from appraise.model.months import Month, month_number


def month_of(day: date) -> Month:
    """Return the number of the month a day lies in; the day of the month is ignored."""
    return month_number(day.year, day.month)


def add_months(day: date, months: int) -> date:
    """Return the same day number `months` months later (negative: earlier), or that month's last day.

    Beyond the calendar (years 1 to 9999) it is the calendar's own end.

    >>> add_months(date(2024, 8, 31), 6)
    datetime.date(2025, 2, 28)
    """
    year, month = divmod(month_of(day) + months, 12)
    if not MINYEAR <= year <= MAXYEAR:
        return date.min if year < MINYEAR else date.max
    return date(year, month + 1, min(day.day, monthrange(year, month + 1)[1]))


def full_months(first: date, last: date) -> int:
    """Return the full months passed from `first` to `last`: one less if the day number is not yet reached.

    Day numbers are compared as they stand: from 29 February to 28 February a year later are 11 months. A `last`
    before `first` gives a negative number.

    >>> full_months(date(2017, 9, 20), date(2025, 3, 11)), full_months(date(2024, 2, 29), date(2025, 2, 28))
    (89, 11)
    """
    return month_of(last) - month_of(first) - (1 if last.day < first.day else 0)


def years_after(day: date, years: int) -> date:
    """Return the anniversary `years` years later; 29 February becomes 1 March where there is none.

    The later of the two customary readings is taken, since a file kept a day longer harms nobody.

    >>> years_after(date(2024, 2, 29), 5)
    datetime.date(2029, 3, 1)
    """
    month_end = monthrange(day.year + years, day.month)[1]
    if day.day > month_end:
        return date(day.year + years, day.month, month_end) + timedelta(days=1)
    return day.replace(year=day.year + years)
