"""Worked examples published elsewhere, reproduced by the steps of the sales comparison; the source beside each."""

from decimal import Decimal

import pytest
from support.valuing_comparison import PLAIN, opinion_of

from appraise.model.figure import Figure, NoFigure
from appraise.model.kinds import minor_unit, money
from appraise.model.ledger import Ledger
from appraise.model.operations import PERCENT_ABOVE, QUOTIENT
from appraise.model.rounding import round_half_away, round_to_step
from appraise.valuing.operations import INTERPOLATED
from appraise.valuing.reconcile import Weighted, reconcile
from appraise.valuing.working import Working


def decimals(text: str) -> list[Decimal]:
    return [Decimal(word) for word in text.split()]


def reconciled(values: str, weights: str) -> dict[str, Decimal]:
    """Return mean and median of values with weights, by the reconciliation itself."""
    ledger = Ledger("published")
    work = Working(ledger, "VAL-01")
    lines = []
    for number, (value, weight) in enumerate(zip(decimals(values), decimals(weights), strict=True)):
        price, weigh = ledger.typed(f"price{number}", value), ledger.typed(f"weight{number}", weight)
        lines.append(Weighted(f"c{number}", price, weigh))
    reconcile(work, lines, money("USD"))
    found = {name: work.figures[name] for name in ("mean", "median")}
    return {name: outcome.number for name, outcome in found.items() if isinstance(outcome, Figure)}


def time_adjusted(price: str, earlier: str, later: str) -> tuple[Decimal, Decimal]:
    """Return factor and adjusted price of a sale in January 2020 valued in January 2021, by the whole method."""
    sheets = PLAIN | {
        "assignment": "currency | USD\neffective_date | 2021-01-31",
        "items": "id | index\nG01 | CPI",
        "sales": f"id | kind | currency | price | day\ns1 | all-in | USD | {price} | 2020-01-05",
        "comparisons": "id | item | value_type | sale | weight\nc1 | G01 | fair market value | s1 | 1",
        "indexes": f"index | month | figure\nCPI | 2020-01 | {earlier}\nCPI | 2021-01 | {later}",
    }
    steps = opinion_of(sheets)[0].comparisons[0].steps
    factor, adjusted = steps["time_factor"], steps["time"]
    assert isinstance(factor, Figure)
    assert isinstance(adjusted, Figure)
    return factor.number, adjusted.number


def test_percent_change_between_two_index_levels() -> None:
    """US Bureau of Labor Statistics, explanation of index points and percent change: 129.9 to 136.0 is 4.7 percent."""
    assert PERCENT_ABOVE.result(decimals("136.0 129.9"), 1) == Decimal("4.7")
    assert PERCENT_ABOVE.result(decimals("136.0 129.9"), 4) == Decimal("4.6959")


@pytest.mark.parametrize(
    ("price", "earlier", "later", "factor", "adjusted"),
    [
        ("1000.00", "41.8", "304.702", "7.289521531", "7289.52"),  # annual averages 1972 and 2023
        ("4200.00", "258.115", "305.109", "1.1820661333", "4964.68"),  # March 2020 and June 2023
        ("10000.00", "215.303", "214.537", "0.9964422233", "9964.42"),  # annual averages 2008 and 2009, falling
        ("4200.00", "255.657", "304.702", "1.1918390656", "5005.72"),  # annual averages 2019 and 2023
    ],
)
def test_consumer_price_index_factors(price: str, earlier: str, later: str, factor: str, adjusted: str) -> None:
    """US CPI-U, all items, US city average, not seasonally adjusted (series CUUR0000SA0).

    The published factors have nine or ten decimals; ours is carried with six. The price of 1000 to 10000 then agrees
    to the cent.
    """
    decimals_printed = len(factor.partition(".")[2])
    assert QUOTIENT.result([Decimal(later), Decimal(earlier)], decimals_printed) == Decimal(factor)
    found_factor, found_price = time_adjusted(price, earlier, later)
    assert found_factor == round_half_away(Decimal(factor), 6)
    assert found_price == Decimal(adjusted)


def test_a_month_without_a_figure_lies_on_the_line_between_its_neighbours() -> None:
    """US CPI-U, series CUUR0000SA0: none for October 2025; September 324.800, November 324.122, their mean 324.461.

    That it is interpolated stands in the chain of figures; nothing is taken silently.
    """
    sheets = PLAIN | {
        "assignment": "currency | USD\neffective_date | 2025-11-30",
        "items": "id | index\nG01 | CPI",
        "sales": "id | kind | currency | price | day\ns1 | all-in | USD | 1000 | 2025-10-15",
        "comparisons": "id | item | value_type | sale | weight\nc1 | G01 | fair market value | s1 | 1",
        "indexes": "index | month | figure\nCPI | 2025-09 | 324.800\nCPI | 2025-11 | 324.122",
    }
    valuation, ledger = opinion_of(sheets)
    index = valuation.comparisons[0].steps["index"]
    assert isinstance(index, Figure)
    assert index.number == Decimal("324.461")
    assert ledger.figures[index.id].operation == "interpolated"


def test_an_index_says_nothing_of_the_time_before_it_begins() -> None:
    """US CPI-U, music instruments and accessories (series CUUR0000SERE03), December 1997 = 100: no sale of 1996."""
    sheets = PLAIN | {
        "assignment": "currency | USD\neffective_date | 2023-12-31",
        "items": "id | index\nG01 | MUSIC",
        "sales": "id | kind | currency | price | day\ns1 | all-in | USD | 4200 | 1996-06-01\n"
        "s2 | all-in | USD | 4200.00 | 2019-12-01",
        "comparisons": "id | item | value_type | sale | weight\nc1 | G01 | fair market value | s1 | 1\n"
        "c2 | G01 | fair market value | s2 | 1",
        "indexes": "index | month | figure\nMUSIC | 1997-12 | 100\n"
        "MUSIC | 2019-12 | 101.534\nMUSIC | 2023-12 | 120.351",
    }
    first, second = opinion_of(sheets)[0].comparisons
    assert isinstance(first.adjusted, NoFigure)
    assert isinstance(second.adjusted, Figure)
    assert second.adjusted.number == Decimal("4978.37")


@pytest.mark.parametrize(
    ("prices", "days", "mean"),
    [
        ("10 15", "2 3", "12.00"),  # example 1: two trading days before, three after
        ("15 10", "2 3", "13.00"),  # example 2: the prices exchanged
        ("20 23", "1 1", "21.50"),  # example 3: a week-end between, no trading day
        ("21 25", "1 1", "23.00"),  # example 4: closing prices of the day before and of the day itself
        ("23 25", "3 1", "24.50"),  # example 5: closing prices, three trading days before and the day itself
    ],
)
def test_weighting_inversely_by_trading_days(prices: str, days: str, mean: str) -> None:
    """26 CFR 20.2031-2(b)(1) and examples: each price gets the other side's number of trading days as its weight."""
    before, after = days.split()
    assert reconciled(prices, f"{after} {before}")["mean"] == Decimal(mean)


@pytest.mark.parametrize(
    ("values", "weights", "median"),
    [
        ("1 2 3 4 5", "0.15 0.10 0.20 0.30 0.25", "4.00"),
        ("1 2 3 4", "1 1 1 1", "2.50"),
        ("1 2 3 4", "0.49 0.01 0.25 0.25", "2.50"),
    ],
)
def test_weighted_median(values: str, weights: str, median: str) -> None:
    """Encyclopaedia article "Weighted median", its examples: 4; lower 2 and upper 3, twice (ours is their mean)."""
    assert reconciled(values, weights)["median"] == Decimal(median)


def test_weighted_median_that_a_web_page_gets_wrong() -> None:
    """A published worked example says 30; by its own definition (running weight 6, then 10, half 7.5) it is 40."""
    assert reconciled("10 20 30 40 50", "1 2 3 4 5")["median"] == Decimal("40.00")


def test_weights_as_shares_or_as_counts_give_the_same_mean() -> None:
    """Arithmetic: 18000, 20000, 23000 with weights 0.5, 0.3, 0.2 or 5, 3, 2 reconcile to 19600."""
    assert reconciled("18000 20000 23000", "0.5 0.3 0.2")["mean"] == Decimal("19600.00")
    assert reconciled("18000 20000 23000", "5 3 2")["mean"] == Decimal("19600.00")


def test_straight_line_between_two_dated_values() -> None:
    """Linear interpolation: 12000 and 15000, 106 of 184 days: 13728.26."""
    assert INTERPOLATED.result(decimals("12000 15000 106 184"), 2) == Decimal("13728.26")


@pytest.mark.parametrize(("currency", "places"), [("USD", 2), ("CHF", 2), ("JPY", 0), ("KWD", 3), ("GBP", 2)])
def test_minor_units(currency: str, places: int) -> None:
    """ISO 4217 minor units as carried by CLDR."""
    assert minor_unit(currency) == places


@pytest.mark.parametrize(
    ("number", "half_up"),
    [
        ("5.5", "6"),
        ("2.5", "3"),
        ("1.6", "2"),
        ("1.1", "1"),
        ("1.0", "1"),
        ("-1.0", "-1"),
        ("-1.1", "-1"),
        ("-1.6", "-2"),
        ("-2.5", "-3"),
        ("-5.5", "-6"),
    ],
)
def test_ties_go_away_from_zero(number: str, half_up: str) -> None:
    """Java class library documentation, RoundingMode, summary table, column HALF_UP."""
    assert round_half_away(Decimal(number), 0) == Decimal(half_up)


@pytest.mark.parametrize(
    ("number", "places", "rounded"),
    [
        ("4.36", 0, "4"),
        ("2.355", 0, "2"),
        ("15.205", 1, "15.2"),
        ("9.625", 0, "10"),
        ("2.651", 1, "2.7"),
        ("0.3552", 2, "0.36"),
        ("12.545001", 2, "12.55"),
        ("2.675", 2, "2.68"),
        ("1.005", 2, "1.01"),
        ("12.2499", 1, "12.2"),
        ("12.2547", 1, "12.3"),
    ],
)
def test_rounding_of_test_reports(number: str, places: int, rounded: str) -> None:
    """Indian Standard IS 2, rules I and II, worked table; the last three IEEE 754 traps and rounding in one step."""
    assert round_half_away(Decimal(number), places) == Decimal(rounded)


@pytest.mark.parametrize(
    ("number", "step", "rounded"),
    [
        ("1230", "50", "1250"),
        ("1.234", "0.65", "1.30"),
        ("18749.99", "500", "18500"),
        ("18750", "500", "19000"),
        ("18250", "500", "18500"),
        ("47350", "1000", "47000"),
        ("47500", "1000", "48000"),
        ("46500", "1000", "47000"),
    ],
)
def test_rounding_to_a_step(number: str, step: str, rounded: str) -> None:
    """Unicode Technical Standard 35, part 3, "Rounding" (first two); the rest arithmetic, ties away from zero."""
    assert round_to_step(Decimal(number), Decimal(step)) == Decimal(rounded)
