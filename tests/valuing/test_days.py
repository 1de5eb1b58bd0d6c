"""Periods of calendar months."""

from datetime import date

import pytest

from appraise.valuing.days import add_months, full_months, years_after


@pytest.mark.parametrize(
    ("death", "due"),
    [("2000-07-31", "2001-04-30"), ("2007-05-31", "2008-02-29"), ("2008-04-12", "2009-01-12")],
)
def test_nine_months_of_the_estate_tax_return_26_cfr_20_6075_1(death: str, due: str) -> None:
    """26 CFR 20.6075-1, its own example (first row); the others from public tables of due dates."""
    assert add_months(date.fromisoformat(death), 9) == date.fromisoformat(due)


@pytest.mark.parametrize(
    ("death", "alternate"),
    [
        ("2023-08-31", "2024-02-29"),
        ("2022-08-31", "2023-02-28"),
        ("2022-08-29", "2023-02-28"),
        ("2023-08-29", "2024-02-29"),
        ("2023-11-30", "2024-05-30"),
        ("2023-12-31", "2024-06-30"),
        ("2024-02-29", "2024-08-29"),
        ("2024-08-31", "2025-02-28"),
        ("2026-08-31", "2027-02-28"),
        ("2026-01-15", "2026-07-15"),
    ],
)
def test_six_months_of_the_alternate_date_rev_rul_74_260(death: str, alternate: str) -> None:
    """Rev. Rul. 74-260 (from memory): a month without the day takes its last day; 30 November leads to 30 May."""
    assert add_months(date.fromisoformat(death), 6) == date.fromisoformat(alternate)


@pytest.mark.parametrize(
    ("first", "last", "months"),
    [
        ("2017-09-20", "2025-03-11", 89),
        ("2011-03-11", "2025-03-11", 168),
        ("2024-02-29", "2025-02-28", 11),
        ("2024-02-29", "2025-03-01", 12),
        ("2025-01-31", "2025-02-28", 0),
        ("2025-01-31", "2025-01-31", 0),
        ("2025-01-31", "2025-01-30", -1),
    ],
)
def test_full_months_compare_day_numbers_as_they_stand(first: str, last: str, months: int) -> None:
    assert full_months(date.fromisoformat(first), date.fromisoformat(last)) == months


def test_adding_months_backwards() -> None:
    assert add_months(date(2024, 3, 31), -1) == date(2024, 2, 29)
    assert add_months(date(2024, 1, 15), -12) == date(2023, 1, 15)


def test_adding_months_beyond_the_calendar_ends_with_it() -> None:
    assert add_months(date(2024, 3, 31), 10**15) == date.max
    assert add_months(date(9999, 12, 31), 1) == date.max
    assert add_months(date(2024, 3, 31), -(10**15)) == date.min


def test_years_after() -> None:
    assert years_after(date(2026, 3, 10), 5) == date(2031, 3, 10)
    assert years_after(date(2024, 2, 29), 5) == date(2029, 3, 1)
    assert years_after(date(2024, 2, 29), 4) == date(2028, 2, 29)
