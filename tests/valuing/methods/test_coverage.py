"""Coinsurance, blanket limit, settlement and inflation guard."""

from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given as holds_for
from hypothesis import strategies as st
from support.figures import codes, number, reasons, typed

from appraise.model.ledger import Ledger
from appraise.model.missing import BLANK, Missing
from appraise.records.claims import Cover, Policy
from appraise.records.declare import filled
from appraise.records.vocabulary import DeductibleOrder, SettlementBasis
from appraise.valuing.methods.coverage import blanket_limit, coinsurance, insurance_to_value, insured_item
from appraise.valuing.methods.inflation_guard import guarded_limit
from appraise.valuing.methods.settlement import item_limit, settlement
from appraise.valuing.working import Worked

AFTER, BEFORE = DeductibleOrder.AFTER_RATIO, DeductibleOrder.BEFORE_RATIO


def paid(
    value: str,
    share: str | None,
    limit: str,
    loss: str,
    deductible: str = "0",
    *,
    order: DeductibleOrder | Missing = BLANK,
    loss_day: date | Missing = BLANK,
    **terms: object,
) -> Worked:
    policy = filled(
        Policy,
        coinsurance=BLANK if share is None else Decimal(share),
        limit=Decimal(limit),
        deductible=Decimal(deductible),
        deductible_order=order,
        **terms,
    )
    return coinsurance(Ledger("T"), policy, loss=typed(loss), value=typed(value), loss_day=loss_day, currency="USD")


def test_coinsurance_without_deductible_published_agency_explanation() -> None:
    """An insurance agency's published explanation: value 300000, 80 %, carried 200000, loss 150000: 125000.00.

    The published sum rests on the exact fraction 5/6: the typed option. By default the printed ratio is carried.
    """
    worked = paid("300000", "80", "200000", "150000", exact_ratio=True)
    assert number(worked["required"]) == Decimal("240000.00")
    assert number(worked["payment"]) == Decimal("125000.00")
    printed = paid("300000", "80", "200000", "150000")
    assert number(printed["ratio"]) == Decimal("0.833333")
    assert number(printed["payment"]) == Decimal("124999.95")


def test_coinsurance_deductible_after_the_penalty_published_article() -> None:
    """A published how-to article: value 300000, 80 %, carried 180000, loss 100000, deductible 1000: 74000."""
    worked = paid("300000", "80", "180000", "100000", "1000")
    assert number(worked["ratio"]) == Decimal("0.750000")
    assert number(worked["after_ratio"]) == Decimal("75000.00")
    assert number(worked["payment"]) == Decimal("74000.00")
    before = paid("300000", "80", "180000", "100000", "1000", order=BEFORE)
    assert number(before["payment"]) == Decimal("74250.00")


@pytest.mark.parametrize(("carried", "payment"), [("100000", "19750.00"), ("200000", "39750.00")])
def test_coinsurance_illustrations_of_the_commercial_property_form(carried: str, payment: str) -> None:
    """Coinsurance condition of the standard US commercial property form, examples 1 and 2 (from memory)."""
    assert number(paid("250000", "80", carried, "40000", "250")["payment"]) == Decimal(payment)


def test_one_limit_over_several_locations_commercial_property_form_example_3() -> None:
    """Same form, example 3 (from memory): values 75000 + 100000 + 75000, 90 %, 180000, losses 30000 + 20000."""
    worked = paid("250000", "90", "180000", "50000", "1000")
    assert number(worked["ratio"]) == Decimal("0.800000")
    assert number(worked["payment"]) == Decimal("39000.00")


@pytest.mark.parametrize(
    ("value", "share", "limit", "loss", "deductible", "payment"),
    [
        ("400000", "80", "320000", "50000", "1000", "49000"),
        ("400000", "80", "240000", "60000", "1000", "44000"),
        ("400000", "80", "240000", "380000", "1000", "240000"),
        ("420000", "100", "300000", "84000", "1000", "59000"),
        ("420000", "90", "300000", "84000", "1000", "65666.67"),
        ("620000", "90", "500000", "40000", "500", "35342.29"),
    ],
)
def test_worked_table_of_the_commercial_order(
    value: str, share: str, limit: str, loss: str, deductible: str, payment: str
) -> None:
    """The commercial form's order, the limit last; worked with the exact fraction."""
    worked = paid(value, share, limit, loss, deductible, exact_ratio=True)
    assert number(worked["payment"]) == Decimal(payment)


def test_without_coinsurance_the_ratio_is_one() -> None:
    worked = paid("300000", None, "100000", "40000", "500")
    assert number(worked["ratio"]) == 1
    assert number(worked["payment"]) == Decimal("39500.00")
    assert codes(worked) == []


@pytest.mark.parametrize(
    ("loss_day", "ratio", "found"),
    [(date(2025, 6, 30), "1", []), (date(2025, 7, 1), "0.750000", ["POL-06", "POL-04"])],
)
def test_an_agreed_value_sets_coinsurance_aside_until_it_ends(loss_day: date, ratio: str, found: list[str]) -> None:
    until = date(2025, 6, 30)
    worked = paid("400000", "80", "240000", "60000", loss_day=loss_day, agreed_until=until)
    assert number(worked["ratio"]) == Decimal(ratio)
    assert codes(worked) == found


def test_an_agreed_value_without_a_date_of_loss_says_so() -> None:
    worked = paid("400000", "80", "240000", "60000", agreed_until=date(2025, 6, 30))
    assert reasons(worked["payment"]) == ["POL-05"]


amounts = st.decimals(min_value=0, max_value=10**7, places=2)


@holds_for(
    value=amounts,
    share=st.integers(0, 100),
    limit=amounts,
    loss=amounts,
    deductible=amounts,
    cap=amounts,
    order=st.sampled_from(DeductibleOrder),
)
def test_payment_is_never_above_loss_limit_or_cap(
    value: Decimal, share: int, limit: Decimal, loss: Decimal, deductible: Decimal, cap: Decimal, order: DeductibleOrder
) -> None:
    worked = paid(str(value), str(share), str(limit), str(loss), str(deductible), order=order, item_cap=cap)
    payment = number(worked["payment"])
    assert 0 <= payment <= min(loss, limit, cap)
    assert number(worked["ratio"]) <= 1
    assert number(worked["coinsurance_penalty"]) >= 0
    if order is AFTER and deductible > number(worked["after_ratio"]):
        assert payment == 0


def covers(*values: str) -> list[Cover]:
    return [filled(Cover, row=row, item=f"I{row}", value=Decimal(value)) for row, value in enumerate(values, start=2)]


def test_blanket_limit_and_item_cap() -> None:
    ledger = Ledger("T")
    policy = filled(Policy, limit=Decimal(60000), item_cap=Decimal(15000))
    items = [insured_item(ledger, cover) for cover in covers("18500", "16050", "9480")]
    worked = blanket_limit(ledger, policy, items, currency="USD")
    assert number(worked["over_item_cap"]) == Decimal("4550.00")
    assert number(worked["limit_shortfall"]) == 0
    assert number(worked["effective_cover"]) == Decimal("39480.00")
    assert [(one.code, one.found) for one in worked.findings] == [("POL-03", "18500"), ("POL-03", "16050")]


def test_blanket_limit_over_nothing() -> None:
    worked = blanket_limit(Ledger("T"), filled(Policy, limit=Decimal(1000)), [], currency="USD")
    assert number(worked["total_value"]) == 0
    assert "limit_adequacy_pct" not in worked.figures


def test_one_missing_limit_makes_one_finding() -> None:
    worked = blanket_limit(
        Ledger("T"), filled(Policy), [insured_item(Ledger("T"), one) for one in covers("10")], currency="USD"
    )
    assert codes(worked) == ["POL-01"]
    assert reasons(worked["effective_cover"]) == ["POL-01"]


def test_margin_clause() -> None:
    """Scheduled 24000, margin 110 %, cap 30000: at most 26400."""
    policy = filled(Policy, margin=Decimal(110), item_cap=Decimal(30000), limit=Decimal(500000))
    cover = filled(Cover, item="I2", scheduled=Decimal(24000))
    worked = item_limit(Ledger("T"), policy, cover, typed("29000"), currency="USD")
    assert number(worked["item_payment"]) == Decimal("26400.00")


@pytest.mark.parametrize(
    ("limit", "yearly", "days", "then"), [("250000", "4", 200, "255479.45"), ("300000", "6", 146, "307200.00")]
)
def test_inflation_guard_is_linear_in_days(limit: str, yearly: str, days: int, then: str) -> None:
    """Two worked figures of usual endorsements (from memory): 200 days of 4 %, 146 days of 6 %."""
    start = date(2025, 1, 1)
    policy = filled(Policy, limit=Decimal(limit), inflation_guard=Decimal(yearly), starts=start)
    day = date.fromordinal(start.toordinal() + days)
    assert number(guarded_limit(Ledger("T"), policy, day, currency="USD")["limit_then"]) == Decimal(then)


def test_inflation_guard_outside_the_policy_year() -> None:
    policy = filled(
        Policy, limit=Decimal(1), inflation_guard=Decimal(4), starts=date(2025, 1, 1), ends=date(2025, 12, 31)
    )
    for day in (date(2024, 12, 31), date(2026, 1, 1)):
        assert reasons(guarded_limit(Ledger("T"), policy, day, currency="USD")["limit_then"]) == ["POL-07"]
    plain = filled(Policy, limit=Decimal(1))
    assert number(guarded_limit(Ledger("T"), plain, date(2025, 1, 1), currency="USD")["limit_then"]) == 1


COVER = filled(Cover, row=2, item="I2", agreed=Decimal(20000), stated=Decimal(18000))


@pytest.mark.parametrize(
    ("basis", "sum_paid"),
    [
        (SettlementBasis.AGREED_VALUE, "20000"),
        (SettlementBasis.STATED_AMOUNT, "14000"),
        (SettlementBasis.LEAST_OF, "14000"),
        (SettlementBasis.ACTUAL_CASH, "14000"),
        (SettlementBasis.REPLACEMENT_COST, "19000"),
        (SettlementBasis.MARKET_VALUE, "17000"),
    ],
)
def test_what_each_basis_pays(basis: SettlementBasis, sum_paid: str) -> None:
    worked = settlement(
        Ledger("T"),
        filled(Policy, basis=basis),
        COVER,
        actual_cash=typed("14000"),
        market=typed("17000"),
        repair=typed("15000"),
        replace=typed("21000"),
        limit=typed("19000"),
        currency="USD",
    )
    assert number(worked["settlement"]) == Decimal(sum_paid)


def test_a_stated_amount_is_a_ceiling_only() -> None:
    policy = filled(Policy, basis=SettlementBasis.STATED_AMOUNT)
    worked = settlement(Ledger("T"), policy, COVER, actual_cash=typed("25000"), currency="USD")
    assert number(worked["settlement"]) == 18000


def test_settlement_without_what_the_clause_needs() -> None:
    bare = settlement(Ledger("T"), filled(Policy, basis=SettlementBasis.STATED_AMOUNT), COVER, currency="USD")
    assert reasons(bare["settlement"]) == ["POL-08"]
    unsaid = settlement(Ledger("T"), filled(Policy), COVER, currency="USD")
    assert reasons(unsaid["settlement"]) == ["POL-01"]
    over = filled(Policy, basis=SettlementBasis.AGREED_VALUE, agreed_until=date(2025, 6, 30))
    late = settlement(Ledger("T"), over, COVER, loss_day=date(2025, 7, 1), currency="USD")
    assert reasons(late["settlement"]) == ["POL-06"]


@pytest.mark.parametrize(
    ("value", "met", "shortfall", "unpaid"),
    [("300000", "100.0", "0.00", "0.0"), ("420000", "71.4", "120000.00", "28.6")],
)
def test_insurance_to_value_before_and_after_a_rise(value: str, met: str, shortfall: str, unpaid: str) -> None:
    """Insured for 300000 at a clause of 100 %; the value then rises to 420000."""
    policy = filled(Policy, coinsurance=Decimal(100), limit=Decimal(300000))
    worked = insurance_to_value(Ledger("T"), policy, typed(value), currency="USD")
    assert number(worked["insured_to_value_pct"]) == Decimal(met)
    assert number(worked["coinsurance_shortfall"]) == Decimal(shortfall)
    assert number(worked["penalty_pct"]) == Decimal(unpaid)
    assert insurance_to_value(Ledger("T"), filled(Policy), typed(value), currency="USD").figures == {}
