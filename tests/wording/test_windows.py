"""Windows of manufacture in words."""

import pytest

from appraise.model.months import ALL_MONTHS, NO_MONTHS, Months, Run, month_number
from appraise.wording.numbers import language
from appraise.wording.texts import texts
from appraise.wording.windows import window_text

EN = language("en")


def months(first, last):
    return Months.between(first and month_number(*first), last and month_number(*last))


@pytest.mark.parametrize(
    ("window", "words"),
    [
        (months((1937, 1), (1938, 12)), "1937 to 1938"),
        (months((1959, 1), (1959, 12)), "1959"),
        (months((1959, 6), (1959, 6)), "June 1959"),
        (months((1959, 4), (1960, 12)), "April 1959 to December 1960"),
        (months((1958, 1), None), "not before 1958"),
        (months((1959, 8), None), "not before August 1959"),
        (months(None, (1964, 12)), "not after 1964"),
        (months(None, (1961, 5)), "not after May 1961"),
        (ALL_MONTHS, "not bounded by the evidence"),
        (NO_MONTHS, "no common month"),
    ],
)
def test_a_window_in_words(window, words):
    assert window_text(window, texts("en"), EN) == words


def test_several_runs_are_alternatives():
    runs = Months.of(
        [Run(month_number(1957, 1), month_number(1957, 12)), Run(month_number(1963, 1), month_number(1963, 12))]
    )
    assert window_text(runs, texts("en"), EN) == "1957 or 1963"
