"""Cells in which a spreadsheet left something else than the words typed."""

from datetime import date
from decimal import Decimal

import pytest

from appraise.dating.cells import question_for_cell
from appraise.model.place import Place

PLACE = Place("Evidence", 7, "date")


@pytest.mark.parametrize(
    ("value", "code", "near"),
    [
        (Decimal(1959), "DAT-06", "1959"),
        (Decimal("1959.5"), "DAT-06", "1959; early 1959; 1957-59"),
        (Decimal(42), "DAT-06", "1959; early 1959; 1957-59"),
        (date(1959, 3, 1), "DAT-07", "March 1959"),
        (date(1957, 3, 14), "DAT-07", "March 1957; 1957-03-14"),
        (date(1908, 9, 1), "DAT-07", "September 1908; 1908-1909"),
    ],
)
def test_a_number_or_a_day_is_asked_about(value: date | Decimal, code: str, near: str) -> None:
    found = question_for_cell(value, PLACE, "G01", "e1")
    assert (found.code, found.place, found.subjects) == (code, PLACE, ("G01", "e1"))
    assert dict(found.details)["near"] == near


def test_a_bare_year_in_a_date_cell_is_recognised() -> None:
    """Counted as days since 30 December 1899, 1937 is 20 April 1905."""
    found = question_for_cell(date(1905, 4, 20), PLACE)
    assert (found.code, dict(found.details)["year"]) == ("DAT-08", "1937")


def test_1905_06_turned_into_a_day_names_all_three_meanings() -> None:
    """1 June 1905 may be the year 1979 in a date cell, the month, or the years 1905-06."""
    found = question_for_cell(date(1905, 6, 1), PLACE)
    assert dict(found.details) == {"year": "1979", "near": "June 1905; 1905-1906"}
