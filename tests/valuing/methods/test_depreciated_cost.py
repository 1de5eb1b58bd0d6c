"""Actual cash value: the manners of depreciation and the three readings."""

from collections.abc import Mapping
from datetime import date
from decimal import Decimal

import pytest
from support.figures import codes, number, reasons, typed

from appraise.model.figure import Outcome
from appraise.model.ledger import Ledger
from appraise.model.missing import BLANK, UNKNOWN, Missing
from appraise.model.place import Place
from appraise.records.claims import Depreciation, Policy, ValueFact
from appraise.records.declare import filled
from appraise.records.tables import Rate
from appraise.records.vocabulary import CashValueReading, DepreciationManner, RateDirection
from appraise.valuing.lookup.rates import rate_table
from appraise.valuing.methods.actual_cash_value import actual_cash_value
from appraise.valuing.methods.broad_evidence import broad_evidence
from appraise.valuing.methods.declining_balance import declining_balance
from appraise.valuing.methods.depreciated_cost import depreciated_cost
from appraise.valuing.methods.replacement_cost_new import replacement_cost_new
from appraise.valuing.working import Worked

LOSS = Place("Assignment", 0, "loss_date")
RATE = filled(
    Rate,
    row=2,
    currency="EUR",
    day=date(2025, 3, 7),
    rate=Decimal("1.0821"),
    direction=RateDirection.REPORT_PER_FOREIGN,
)


def acv(*, loss_day: date | Missing = date(2025, 3, 11), price: str = "10000", **values: object) -> Worked:
    line = filled(Depreciation, row=2, item="G1", price=Decimal(price), **values)
    return depreciated_cost(
        Ledger("T"), line, loss_day=loss_day, loss_place=LOSS, rates=rate_table([RATE])[0], currency="USD"
    )


def test_by_age_and_life_published_roofing_explanation() -> None:
    """A roofing firm's published explanation of claims: 10000, life 20 years, age 5: 7500 and 2500 withheld."""
    worked = acv(effective_age=Decimal(60), life=Decimal(240))
    assert number(worked["acv"]) == Decimal("7500.00")
    assert number(worked["depreciation"]) == Decimal("2500.00")
    assert codes(worked) == ["LOS-02"]


def test_by_a_yearly_percentage_published_article() -> None:
    """An investment-education article: 2000, 20 % a year, 2 years: 1200, recoverable 800."""
    worked = acv(
        price="2000",
        manner=DepreciationManner.YEARLY_PERCENT,
        yearly=Decimal(20),
        in_service=date(2023, 3, 11),
    )
    assert number(worked["acv"]) == Decimal("1200.00")
    assert number(worked["depreciation"]) == Decimal("800.00")


def test_first_payment_under_a_replacement_cost_policy_published_example() -> None:
    """An insurance agency's published example: 10000, age 15 of 30 years, deductible 500: 4500."""
    worked = acv(in_service=date(2010, 3, 11), life=Decimal(360))
    assert number(worked["acv"]) - 500 == Decimal("4500.00")


def test_straight_line_worked_figure() -> None:
    """6000, 8 of 20 years: 3600."""
    assert number(acv(price="6000", in_service=date(2017, 3, 11), life=Decimal(240))["acv"]) == Decimal("3600.00")


def test_age_beyond_life_gives_nothing_and_never_less() -> None:
    worked = acv(in_service=date(1950, 1, 1), life=Decimal(120))
    assert number(worked["acv"]) == 0
    assert number(worked["depreciation_pct"]) == Decimal("100.0")


def test_percent_good_and_declining() -> None:
    good = acv(manner=DepreciationManner.PERCENT_GOOD, percent_good=Decimal(65), functional=Decimal(10))
    assert number(good["acv"]) == Decimal("5850.00")
    declined = acv(
        manner=DepreciationManner.DECLINING, yearly=Decimal(20), in_service=date(2023, 2, 1), residual=Decimal(10)
    )
    assert number(declined["acv"]) == Decimal("6400.00")
    old = acv(
        manner=DepreciationManner.DECLINING, yearly=Decimal(20), in_service=date(1990, 2, 1), residual=Decimal(10)
    )
    assert number(old["acv"]) == Decimal("1000.00")


def test_price_and_freight_in_a_foreign_currency_are_converted_apart() -> None:
    worked = acv(
        price="98000",
        currency="EUR",
        freight=Decimal(900),
        tax=Decimal(10),
        manner=DepreciationManner.PERCENT_GOOD,
        percent_good=Decimal(100),
    )
    assert number(worked["price"]) == Decimal("106045.80")
    assert number(worked["freight"]) == Decimal("973.89")
    assert number(worked["rcn"]) == Decimal("117624.27")
    assert codes(worked) == ["LOS-18"]


@pytest.mark.parametrize(
    ("values", "found"),
    [
        ({"life": Decimal(240)}, ["LOS-01"]),
        ({"in_service": date(2025, 3, 12), "life": Decimal(240)}, ["LOS-04"]),
        ({"in_service": date(2020, 1, 1), "life": Decimal(0)}, ["LOS-05"]),
        ({"in_service": date(2020, 1, 1)}, ["LOS-01"]),
        ({"effective_age": Decimal(-1), "life": Decimal(240)}, ["LOS-04"]),
        ({"in_service": UNKNOWN, "life": Decimal(240)}, ["LOS-01"]),
        ({"in_service": date(2020, 1, 1), "life": Decimal(240), "loss_day": BLANK}, ["LOS-03"]),
        ({"currency": "GBP", "percent_good": Decimal(5), "manner": DepreciationManner.PERCENT_GOOD}, ["LOS-17"]),
    ],
)
def test_what_cannot_be_worked_out_says_why_once(values: dict[str, object], found: list[str]) -> None:
    worked = acv(**values)  # type: ignore[arg-type]
    assert reasons(worked["acv"]) == found
    assert codes(worked) == found


def test_a_missing_price_leaves_the_rest_worked_out() -> None:
    line = filled(Depreciation, row=5, item="G1", in_service=date(2020, 3, 11), life=Decimal(120))
    worked = depreciated_cost(
        Ledger("T"),
        line,
        loss_day=date(2025, 3, 11),
        loss_place=LOSS,
        rates=rate_table([])[0],
        currency="USD",
    )
    assert [(one.code, one.place) for one in worked.findings] == [("LOS-01", Place("Depreciation", 5, "price"))]
    assert number(worked["physical"]) == Decimal("0.500000")


def test_replacement_cost_new_is_rounded_once() -> None:
    line = filled(Depreciation, row=2, item="G1", price=Decimal("2399"), tax=Decimal(8), freight=Decimal(85))
    worked = replacement_cost_new(Ledger("T"), line, day=BLANK, day_place=LOSS, rates=rate_table([])[0], currency="USD")
    assert number(worked["rcn"]) == Decimal("2675.92")
    assert number(worked["value_rounded"]) == 2700


READINGS: Mapping[CashValueReading, Outcome] = {
    CashValueReading.COST_LESS_DEPRECIATION: typed("1200.00"),
    CashValueReading.MARKET_VALUE: typed("4800.00"),
}


def test_the_policy_says_which_reading_counts() -> None:
    market = filled(Policy, cash_value=CashValueReading.MARKET_VALUE)
    assert number(actual_cash_value(Ledger("T"), "G1", market, READINGS, currency="USD")["actual_cash_value"]) == 4800
    cost = actual_cash_value(
        Ledger("T"),
        "G1",
        filled(Policy, cash_value=CashValueReading.COST_LESS_DEPRECIATION),
        READINGS,
        currency="USD",
    )
    assert number(cost["actual_cash_value"]) == 1200
    assert codes(cost) == ["LOS-16"]


def test_a_reading_that_is_not_stated_or_not_worked_out() -> None:
    unsaid = actual_cash_value(Ledger("T"), "G1", filled(Policy), READINGS, currency="USD")
    assert reasons(unsaid["actual_cash_value"]) == ["POL-09"]
    broad = filled(Policy, cash_value=CashValueReading.BROAD_EVIDENCE)
    assert reasons(actual_cash_value(Ledger("T"), "G1", broad, READINGS, currency="USD")["actual_cash_value"]) == [
        "POL-10"
    ]


def fact(row: int, points_to: str | None, weight: str | None = None) -> ValueFact:
    return filled(
        ValueFact,
        row=row,
        item="G1",
        points_to=BLANK if points_to is None else Decimal(points_to),
        weight=BLANK if weight is None else Decimal(weight),
    )


def test_broad_evidence_weighs_the_facts_with_a_figure() -> None:
    facts = [fact(2, "1200", "1"), fact(3, None), fact(4, "1650", "2"), fact(5, "9000", "0")]
    worked = broad_evidence(Ledger("T"), "G1", facts, currency="USD")
    assert number(worked["broad_evidence"]) == Decimal("1500.00")


@pytest.mark.parametrize("facts", [[], [fact(2, None)], [fact(2, "5", "0")], [fact(2, "5", "-1")]])
def test_broad_evidence_needs_weight(facts: list[ValueFact]) -> None:
    assert reasons(broad_evidence(Ledger("T"), "G1", facts, currency="USD")["broad_evidence"]) == ["LOS-15"]


@pytest.mark.parametrize(
    ("life", "percents", "tolerance"),
    [
        (5, "20.00 32.00 19.20 11.52 11.52 5.76", "0"),
        (7, "14.29 24.49 17.49 12.49 8.93 8.92 8.93 4.46", "0.0055"),
    ],
)
def test_declining_balance_irs_publication_946_table_a_1(life: int, percents: str, tolerance: str) -> None:
    """IRS Publication 946, table A-1, half-year convention; the printed 7-year column is nudged to add up to 100."""
    worked = declining_balance(Ledger("T"), typed("1000000"), life=life, currency="USD")
    for year, percent in enumerate(percents.split(), start=1):
        found = number(worked[f"year{year}"]) / 10000
        assert abs(found - Decimal(percent)) <= Decimal(tolerance)


def test_declining_balance_in_money_irs_publication_946() -> None:
    """The publication's example (from memory): 1000 in the 5-year class."""
    worked = declining_balance(Ledger("T"), typed("1000"), life=5, currency="USD")
    years = [str(number(worked[f"year{year}"])) for year in range(1, 7)]
    assert years == ["200.00", "320.00", "192.00", "115.20", "115.20", "57.60"]
