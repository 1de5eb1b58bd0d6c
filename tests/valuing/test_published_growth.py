"""Published examples of averages, monthly rates and deflated prices, by the operations the methods use."""

import csv
from decimal import Decimal
from pathlib import Path

import pytest
from support.valuing_comparison import PLAIN, opinion_of

from appraise.model.figure import Figure
from appraise.model.operations import PERCENT_ABOVE, QUOTIENT, WEIGHTED_MEAN

DATA = Path(__file__).resolve().parent.parent / "data"


def mean(figures: str, places: int) -> Decimal:
    """Return the mean by the operation of the reconciliation, each weight one."""
    pairs = [value for figure in figures.split() for value in (Decimal(1), Decimal(figure))]
    return WEIGHTED_MEAN.result(pairs, places)


@pytest.mark.parametrize(
    ("months", "places", "mean_of_months", "published"),
    [
        (
            "299.170 300.840 301.836 303.363 304.127 305.109 305.691 307.026 307.789 307.671 307.051 306.746",
            4,
            "304.7016",
            "304.702",
        ),
        ("41.1 41.3 41.4 41.5 41.6 41.7 41.9 42.0 42.1 42.3 42.4 42.5", 4, "41.8167", "41.8"),
        ("29.0 28.9 28.9 29.0 29.0 29.1 29.2 29.2 29.3 29.4 29.4 29.4", 2, "29.15", "29.1"),
    ],
    ids=["2023", "1972", "1959"],
)
def test_the_mean_of_rounded_months_may_miss_the_published_year(
    months: str, places: int, mean_of_months: str, published: str
) -> None:
    """US CPI-U, series CUUR0000SA0, months and annual averages of 2023, 1972 and 1959.

    For 1959 the mean of the rounded months would round to 29.2, while 29.1 is published: the figure typed counts.
    """
    assert mean(months, places) == Decimal(mean_of_months)
    assert abs(Decimal(mean_of_months) - Decimal(published)) <= Decimal("0.051")


def test_a_fixed_monthly_rate_by_the_straight_line_is_simple_growth() -> None:
    """A published licensing-exam practice question on market conditions: 450,000, 0.5 % a month, 8 months, 468,000.

    An index typed with two points lies on a straight line between them, so that it grows by simple, not by compound,
    months (compound, our own arithmetic: 468,318.17); other pages print 468,324 and 477,000, both wrong.
    """
    sheets = PLAIN | {
        "assignment": "currency | USD\neffective_date | 2021-09-15",
        "items": "id | index\nG01 | RATE",
        "sales": "id | kind | currency | price | day\ns1 | all-in | USD | 450000.00 | 2021-01-20",
        "comparisons": "id | item | value_type | sale | weight\nc1 | G01 | fair market value | s1 | 1",
        "indexes": "index | month | figure\nRATE | 2021-01 | 100.0\nRATE | 2022-01 | 106.0",
    }
    steps = opinion_of(sheets)[0].comparisons[0].steps
    adjusted = steps["time"]
    assert isinstance(adjusted, Figure)
    assert adjusted.number == Decimal("468000.00")


def test_the_monthly_rate_implied_by_a_total_change() -> None:
    """A published licensing-exam practice question: 8 percent over 18 months is 0.44 percent a month, simple."""
    assert QUOTIENT.result([Decimal(8), Decimal(18)], 2) == Decimal("0.44")
    assert QUOTIENT.result([Decimal(8), Decimal(18)], 4) == Decimal("0.4444")


@pytest.mark.parametrize(("price", "deflated"), [("49000", "37634.41"), ("60000", "46082.95")])
def test_sale_prices_deflated_to_an_earlier_year(price: str, deflated: str) -> None:
    """Wooldridge's data set KIELMC, prices of 1981 in those of 1978: the column rprice is price divided by 1.302."""
    assert QUOTIENT.result([Decimal(price), Decimal("1.302")], 2) == Decimal(deflated)


def test_every_sale_deflated_to_an_earlier_year() -> None:
    """KIELMC again, all rows: 142 prices of 1981 divided by 1.302, 179 of 1978 as they were.

    The data set is of single precision (0.02), and the file holds seven significant digits (half a unit of the last).
    """
    with (DATA / "kielmc.csv").open(encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    later = [row for row in rows if row["year"] == "1981"]
    assert (len(later), len(rows) - len(later)) == (142, 179)
    for row in rows:
        divisor = Decimal("1.302") if row["year"] == "1981" else Decimal(1)
        ours = QUOTIENT.result([Decimal(row["price"]), divisor], 2)
        stored = Decimal(row["rprice"])
        last_digit = Decimal(1).scaleb(min(int(stored.as_tuple().exponent), 0))
        assert abs(ours - stored) <= Decimal("0.02") + last_digit / 2


def test_a_quarterly_ratio_over_many_years() -> None:
    """Data set `macrodata` of statsmodels: prices 28.98 in 1959Q1, 216.385 in 2009Q3, factor 7.466701173."""
    assert QUOTIENT.result([Decimal("216.385"), Decimal("28.98")], 9) == Decimal("7.466701173")
    assert PERCENT_ABOVE.result([Decimal("29.15"), Decimal("28.98")], 2) == Decimal("0.59")
