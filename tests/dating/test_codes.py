"""Source-date codes of components.

Rule: EIA source codes (ecianow.org/eia-source-codes: source, year, week; its example 113-9910 is week 10 of 1999)
and the wording of the rule quoted by public pages on dating potentiometers: two figures of the year and two of the
week after the source; where four do not fit, the last figure of the year. 999, 99 and 9996 are invented sources.
"""

import pytest

from appraise.dating.codes import Code, read_code
from appraise.dating.periods import week_of

EXAMINED = 2026


def _read(stamped: str, examined: int = EXAMINED) -> Code:
    read = read_code(stamped, examined)
    assert isinstance(read, Code), read
    return read


def _usual(code: Code) -> list[tuple[int, int]]:
    return [(one.year, one.week) for one in code.readings if not one.unlikely]


def _unlikely(code: Code) -> list[tuple[str, int, int]]:
    return [(one.source, one.year, one.week) for one in code.readings if one.unlikely]


def test_the_example_of_the_registering_body() -> None:
    """ecianow.org/eia-source-codes: 113-9910 is source 113, week 10 of 1999."""
    code = _read("113-9910")
    assert [(one.source, one.year, one.week) for one in code.readings] == [("113", 1999, 10)]


@pytest.mark.parametrize(
    ("stamped", "year", "week", "months"),
    [
        ("999-6612", 1966, 12, "1966-03"),
        ("999 6613", 1966, 13, "1966-03/1966-04"),
        ("999 66 13", 1966, 13, "1966-03/1966-04"),
        ("999.6612", 1966, 12, "1966-03"),
        ("999-0212", 2002, 12, "2002-03"),
        ("999-4212", 1942, 12, "1942-03"),
        ("99966612", 1966, 12, "1966-03"),
        ("ABC 999-6612", 1966, 12, "1966-03"),
    ],
)
def test_two_figures_of_the_year(stamped: str, year: int, week: int, months: str) -> None:
    code = _read(stamped)
    assert _usual(code) == [(year, week)]
    period = week_of(year, week)
    assert period is not None
    assert period.outer.edtf() == months


def test_six_figures_leave_the_decade_open() -> None:
    code = _read("999612")
    assert code.one_figure
    assert _usual(code) == [(1946, 12), (1956, 12), (1966, 12)]
    later = [("999", year, 12) for year in range(1976, EXAMINED + 1, 10)]
    assert _unlikely(code) == [*later, ("99", 1996, 12)]


def test_a_hyphen_settles_the_split() -> None:
    code = _read("999-6-12")
    assert _usual(code) == [(1946, 12), (1956, 12), (1966, 12)]
    assert all(one.source == "999" for one in code.readings)
    assert _read("606-4-21").readings[0].week == 21


def test_seven_figures_have_an_unlikely_second_split() -> None:
    code = _read("9996612")
    assert _usual(code) == [(1966, 12)]
    assert {(source, year % 10, week) for source, year, week in _unlikely(code)} == {("9996", 6, 12)}


def test_week_53_is_taken_with_a_note() -> None:
    code = _read("999653")
    assert _usual(code) == [(1946, 53), (1956, 53), (1966, 53)]
    assert ("99", 1996, 53) in _unlikely(code)
    assert code.notes == ("week 53",)


def test_a_year_of_two_figures_may_be_of_two_centuries() -> None:
    assert _usual(_read("999-2412")) == [(1924, 12), (2024, 12)]
    assert _usual(_read("999-2412", 2020)) == [(1924, 12)]


def test_notes_on_years_outside_the_lists() -> None:
    assert _read("999-0212").notes == ("after the last list",)
    assert _read("999-4212").notes == ("older than the oldest list",)
    assert _read("999-0112").notes == ()
    assert _read("999-4612").notes == ()


def test_week_21_of_a_year_that_ends_in_4() -> None:
    """Public pages on the code read 999-421 as week 21 of 1954, 1964, 1974 or 1984; we keep every later one too."""
    code = _read("999-421")
    assert {(one.year, one.week) for one in code.readings} >= {(1954, 21), (1964, 21), (1974, 21), (1984, 21)}
    assert {one.week for one in code.readings} == {21}


def test_week_34_of_1966() -> None:
    assert _usual(_read("9996634")) == [(1966, 34)]


@pytest.mark.parametrize(
    "stamped",
    [
        "999660",
        "9997854",
        "999600",
        "999400",
        "9996654",
        "99942",
        "999-00",
        "9-6612",
        "99999-6612",
        "999-6612-1-1",
        "ABCDEF",
        "999",
        "999999999",
        "",
    ],
)
def test_what_is_no_code_is_refused_with_a_reason(stamped: str) -> None:
    read = read_code(stamped, EXAMINED)
    assert isinstance(read, str)
    assert read


def test_a_date_alone_is_weak() -> None:
    code = _read("6612")
    assert code.notes == ("date only",)
    assert all(one.unlikely for one in code.readings)
    assert {(one.year, one.week) for one in code.readings} == {(1966, 12)}
    assert {(one.year, one.week) for one in _read("5152").readings} == {(1951, 52), (1952, 51)}


def test_a_year_not_yet_reached_is_no_reading() -> None:
    assert isinstance(read_code("999-2712", EXAMINED), Code)
    assert _usual(_read("999-2712")) == [(1927, 12)]
    assert isinstance(read_code("999-2312", 2020), str)
