"""Net proceeds, liquidation and landed cost beyond the worked cases."""

from datetime import date
from decimal import Decimal

import pytest
from support.figures import codes, number, reasons, typed
from support.valuing import records_of

from appraise.model.ledger import Ledger, RecordingLedger
from appraise.model.missing import BLANK, UNKNOWN
from appraise.model.place import Place
from appraise.records.assignment import Assignment
from appraise.records.declare import filled
from appraise.records.job import Job
from appraise.records.market import COSTS, Sale
from appraise.records.selling import ABSORPTION, COMMISSIONS, LiquidationLot, LiquidationTerms, Proceeds
from appraise.records.tables import PREMIUMS, Rate
from appraise.records.vocabulary import PremiumTiers, PriceKind, RateDirection, SaleRoute
from appraise.valuing.lookup.rates import rate_table
from appraise.valuing.methods.landed_cost import landed_cost
from appraise.valuing.methods.liquidation import liquidation_lot
from appraise.valuing.methods.liquidation import totals as liquidation_totals
from appraise.valuing.methods.net_proceeds import net_proceeds, totals
from appraise.valuing.tables import build_tables
from appraise.valuing.working import Worked

TIERS = records_of(
    PREMIUMS,
    """
    table | house          | currency | valid_from | up_to | rate | tax
    F     | Marrowby Rooms | USD      | 2020-01-01 |       | 25   | 0
    G     | Marrowby Rooms | GBP      | 2020-01-01 |       | 25   | 0
    END   | Marrowby Rooms | USD      | 2020-01-01 | 1000  | 25   | 0
    TWO   | Marrowby Rooms | USD      | 2020-01-01 | 1000  | 30   | 0
    TWO   | Marrowby Rooms | USD      | 2020-01-01 |       | 20   | 0
    """,
)
COMMISSION = records_of(
    COMMISSIONS,
    """
    table | house            | currency | up_to | rate | least
    C10   | Marrowby Rooms   | USD      |       | 10   |
    C12   | Marrowby Rooms   | USD      |       | 12   |
    MIN   | Marrowby Rooms   | USD      |       | 10   | 90
    EUR   | Marrowby Rooms   | EUR      |       | 10   |
    BAD   | Marrowby Rooms   | USD      | 5000  | 15   |
    BAD   | Marrowby Rooms   | USD      | 3000  | 10   |
    BAD   | Marrowby Rooms   | USD      |       | 6    |
    """,
)


def sold(
    price: str, commission: str = "C10", *, charged: PremiumTiers = PremiumTiers.MARGINAL, **values: object
) -> Worked:
    usual: dict[str, object] = {"premium_table": "F", "sale_day": date(2025, 6, 14)}
    line = filled(Proceeds, row=2, item="G1", price=Decimal(price), commission_table=commission, **{**usual, **values})
    job = Job(assignment=filled(Assignment, currency="USD", premium_tiers=charged), premiums=TIERS)
    return net_proceeds(RecordingLedger("T"), line, commissions=COMMISSION, tables=build_tables(job)[0], currency="USD")


def test_worked_figure_of_marketable_cash_value() -> None:
    """31250 at a premium of 25 % (hammer 25000), commission 10 %, cover 1.5 %, photographs and carriage 350: 21775."""
    worked = sold("31250", cover=Decimal("1.5"), untaxed_costs=Decimal(350))
    assert number(worked["hammer"]) == Decimal("25000.00")
    assert number(worked["net"]) == number(worked["value"]) == Decimal("21775.00")


def test_dealer_on_consignment_has_no_premium() -> None:
    worked = sold("20000", "C12", route=SaleRoute.CONSIGNMENT, premium_table=BLANK, untaxed_costs=Decimal(100))
    assert number(worked["hammer"]) == 20000
    assert number(worked["value"]) == Decimal("17500.00")


def test_costs_that_exceed_proceeds_leave_nothing_and_say_so() -> None:
    worked = sold("100", "MIN", yearly=Decimal(6), months=Decimal(5))
    assert number(worked["net"]) == Decimal("-10.00")
    assert number(worked["value"]) == 0
    assert number(worked["value_rounded"]) == 0
    assert [(one.code, one.found) for one in worked.findings] == [("NET-02", "-10.00")]


@pytest.mark.parametrize(
    ("values", "code"),
    [
        ({"premium_table": BLANK}, "NET-01"),
        ({"premium_table": "X"}, "NET-06"),
        ({"sale_day": date(2019, 12, 31)}, "NET-06"),
        ({"sale_day": BLANK}, "NET-07"),
        ({"premium_table": "G"}, "NET-10"),
        ({"premium_table": "END"}, "NET-14"),
        ({"commission": "EUR"}, "NET-10"),
        ({"commission": "X"}, "NET-04"),
        ({"commission": "BAD"}, "NET-05"),
        ({"yearly": Decimal(6)}, "NET-01"),
    ],
)
def test_what_cannot_be_worked_out_says_why(values: dict[str, object], code: str) -> None:
    worked = sold("31250", **values)  # type: ignore[arg-type]
    assert reasons(worked["value"]) == [code]


@pytest.mark.parametrize(("price", "hammer"), [("1170", "900"), ("1300", None), ("1190", "915.38"), ("2400", "2000")])
def test_one_rate_on_the_whole_price(price: str, hammer: str | None) -> None:
    """1300 is 1000 at 30 percent and 1083.33 at 20 percent: two hammer prices, so none."""
    worked = sold(price, charged=PremiumTiers.WHOLE_PRICE, premium_table="TWO")
    if hammer is None:
        assert reasons(worked["hammer"]) == ["NET-15"]
    else:
        assert number(worked["hammer"]) == Decimal(hammer)


def test_total_of_rounded_is_not_rounded_again() -> None:
    lines = [sold("31250"), sold("1000", route=SaleRoute.CONSIGNMENT)]
    worked = totals(Ledger("T"), lines, currency="USD")
    assert number(worked["total"]) == Decimal("23400.00")
    assert number(worked["total_of_rounded"]) == 23400


TERMS = filled(LiquidationTerms, months=Decimal(4), discount=Decimal(12), selling=Decimal(10), commission=Decimal(20))
LOT = filled(LiquidationLot, row=2, id="u", units=Decimal(24), unit_value=Decimal("312.50"), forced=Decimal(45))


def liquidated(drawn: str, lot: LiquidationLot = LOT) -> Worked:
    rows = records_of(ABSORPTION, "lot | units | percent\n" + drawn)
    return liquidation_lot(RecordingLedger("T"), lot, TERMS, absorption=rows, currency="USD")


def test_worked_figures_of_liquidation() -> None:
    """30000 at 72 % less 12 % selling: 19008; at 45 % less 18 %: 11070."""
    terms = filled(
        LiquidationTerms, months=Decimal(0), discount=Decimal(28), selling=Decimal(12), commission=Decimal(18)
    )
    lot = filled(LiquidationLot, row=2, id="x", units=Decimal(1), unit_value=Decimal(30000), forced=Decimal(45))
    worked = liquidation_lot(Ledger("T"), lot, terms, absorption=[], currency="USD")
    assert number(worked["orderly"]) == Decimal("19008.00")
    assert number(worked["forced_net"]) == Decimal("11070.00")


@pytest.mark.parametrize(
    "drawn",
    [
        "u | 5 | 100\nu | 18 | 70",
        "u | 5 | 100\nu | 20 | 70",
        "u | 25 | 100\nu | | 90",
        "u | 20 | 100\nu | 5 | 80\nu | | 70",
    ],
)
def test_groups_must_hold_every_unit_once(drawn: str) -> None:
    worked = liquidated(drawn)
    assert reasons(worked["orderly"]) == ["NET-03"]
    assert number(worked["forced_net"]) == Decimal("2700.00")


def test_an_unknown_count_makes_one_finding() -> None:
    worked = liquidated("u | | 100", filled(LiquidationLot, row=7, id="u", units=UNKNOWN, unit_value=Decimal(1)))
    assert [one.place for one in worked.findings if one.code == "NET-01"] == [
        Place("Liquidation", 7, "units"),
        Place("Liquidation", 7, "forced"),
    ]


def test_a_concluded_value_serves_where_none_is_typed() -> None:
    lot = filled(LiquidationLot, row=2, id="u", units=Decimal(2), forced=Decimal(50))
    worked = liquidation_lot(Ledger("T"), lot, TERMS, absorption=[], unit_value=typed("100.00"), currency="USD")
    assert number(worked["fmv_sum"]) == 200


def test_fixed_costs_go_off_once() -> None:
    terms = filled(LiquidationTerms, fixed_costs=Decimal(350))
    worked = liquidation_totals(Ledger("T"), [liquidated("u | | 100"), liquidated("u | | 100")], terms, currency="USD")
    assert number(worked["forced_total"]) == Decimal("5050.00")


def quotation(**values: object) -> Sale:
    usual: dict[str, object] = {
        "id": "q",
        "kind": PriceKind.ASKING,
        "currency": "EUR",
        "price": Decimal(1000),
        "day": date(2025, 4, 11),
    }
    return filled(Sale, row=2, **{**usual, **values})


def landed(sale: Sale, drawn: str) -> Worked:
    rate = filled(
        Rate,
        row=2,
        currency="EUR",
        day=date(2025, 4, 10),
        rate=Decimal("1.1"),
        direction=RateDirection.REPORT_PER_FOREIGN,
    )
    costs = records_of(COSTS, "kind | percent | amount | currency | least | most | taxable\n" + drawn)
    return landed_cost(RecordingLedger("T"), sale, costs=costs, rates=rate_table([rate])[0], currency="USD")


@pytest.mark.parametrize(("percent", "fee"), [("0.1", "30.00"), ("10", "110.00"), ("90", "600.00")])
def test_entry_fee_lies_within_its_bounds(percent: str, fee: str) -> None:
    worked = landed(quotation(), f"entry fee | {percent} | | | 30.00 | 600.00 |")
    assert number(worked["entry_fee"]) == Decimal(fee)
    assert number(worked["total"]) == Decimal("1100.00") + Decimal(fee)
    assert codes(worked) == ["NET-12"]


def test_a_quotation_at_home_needs_no_border() -> None:
    worked = landed(quotation(currency="USD"), "set-up and adjustment | | 50 | | | | no\nsales tax | 10 | | | | |")
    assert number(worked["total"]) == Decimal("1050.00")
    assert codes(worked) == []


def test_a_foreign_quotation_without_border_costs_is_asked_about() -> None:
    assert codes(landed(quotation(day=date(2025, 4, 10)), "freight | | 10 | EUR | | |")) == ["NET-13"]
    assert number(landed(quotation(), "freight | | 10 | EUR | | |")["total"]) == Decimal("1111.00")


def test_a_quotation_without_a_rate() -> None:
    worked = landed(quotation(day=date(2025, 5, 1)), "duty | 3 | | | | |")
    assert reasons(worked["total"]) == ["NET-11"]
