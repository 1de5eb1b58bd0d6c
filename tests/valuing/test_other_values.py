"""The opinion of an item under each type of value other than fair market and retail replacement, from a job's rows."""

from decimal import Decimal

import pytest
from support.figures import number, reasons
from support.valuing import job_of

from appraise.model.figure import NoFigure
from appraise.model.ledger import RecordingLedger
from appraise.records.vocabulary import ValueType
from appraise.valuing import JobRows, job_rows, value_inputs
from appraise.valuing.codes import CODES
from appraise.valuing.result import Valuation
from appraise.valuing.value import methods_by_type

SHEETS = {
    "assignment": """
        currency       | USD
        effective_date | 2025-03-11
        loss_date      | 2025-03-11
        """,
    "items": """
        id | number
        G1 | 1
        G2 | 2
        """,
    "opinions": """
        item | value_type        | route | typed_value | source
        G1   | fair market value | short | 24483.00    | two sales
        """,
    "depreciation": """
        item | price   | freight | tax | in_service | life | residual
        G1   | 2399.00 | 85.00   | 8   | 2017-09-20 | 240  | 20
        """,
    "value_facts": """
        item | fact    | points_to | weight | reason
        G1   | offer   | 1500.00   | 1      | near
        G1   | invoice | 1800.00   | 1      | near
        """,
    "proceeds": """
        item | premium_table | commission_table | source
        G1   | A2            | M                | terms
        """,
    "premiums": """
        table | house          | currency | valid_from | up_to  | rate | tax
        A2    | Marrowby Rooms | USD      | 2024-07-01 | 15000  | 30   | 0
        A2    | Marrowby Rooms | USD      | 2024-07-01 | 150000 | 24   |
        A2    | Marrowby Rooms | USD      | 2024-07-01 |        | 16   |
        """,
    "commissions": """
        table | house          | currency | up_to | rate
        M     | Marrowby Rooms | USD      |       | 10
        """,
    "liquidation_terms": """
        months     | 4
        discount   | 12
        selling    | 10
        commission | 20
        """,
    "liquidation": """
        id | item | units | unit_value | forced
        u  | G1   | 2     | 1000.00    | 45
        v  | G1   | 1     |            | 50
        """,
    "absorption": """
        lot | units | percent
        u   | 1     | 100
        u   |       | 50
        """,
    "losses": """
        item | as_it_stands | after_repair
        G1   | 20000.00     | 24000.00
        """,
    "repairs": """
        item | work   | amount | state
        G1   | labour | 500.00 | done
        """,
    "covers": """
        item | agreed   | stated
        G1   | 26000.00 |
        """,
    "policy": """
        cash_value | broad evidence
        """,
}


def rows(**changed: str) -> JobRows:
    types = "\n".join(("value_type | conclusion", *(f"{one.value} | weighted mean" for one in ValueType)))
    return job_rows(job_of({**SHEETS, "value_terms": types, **changed}))[0]


def valued(value_type: ValueType, item: str = "G1", **changed: str) -> Valuation:
    """Return the opinion of an item, the fair market value concluded first."""
    made = rows(**changed)
    ledger = RecordingLedger(item)
    record = next(one for one in made.job.items if one.id == item)
    terms = {one.value_type: one for one in made.terms()}
    market = value_inputs(made.inputs(record, terms[ValueType.FAIR_MARKET]), ledger.under("fmv"))
    concluded = {ValueType.FAIR_MARKET: market}
    inputs = made.inputs(record, terms[value_type], concluded=concluded)
    return value_inputs(inputs, ledger.under(CODES[value_type]))


def test_every_type_of_value_has_a_method() -> None:
    assert set(methods_by_type()) == set(ValueType)


@pytest.mark.parametrize(
    ("value_type", "value", "rounded"),
    [
        # the rounded fair market value 24,500, its hammer price 19,032.26, less 10 percent
        (ValueType.MARKETABLE_CASH, "17129.03", "17100"),
        # u: 1500.00 absorbed, v: 24500 at full value, each less 12 then 10 percent
        (ValueType.ORDERLY_LIQUIDATION, "20592.00", "20592.00"),
        # u: 900.00, v: 12250.00, less 20 percent
        (ValueType.FORCED_LIQUIDATION, "10520.00", "10520.00"),
        # the value before rounding, 24,483, less 24,000 as repaired, and the repair
        (ValueType.DIMINUTION, "983.00", "983.00"),
        (ValueType.REPLACEMENT_COST_NEW, "2675.92", "2700"),
        (ValueType.ACTUAL_CASH, "1650.00", "1650.00"),
        (ValueType.AGREED, "26000.00", "26000.00"),
    ],
)
def test_value_before_and_after_rounding(value_type: ValueType, value: str, rounded: str) -> None:
    opinion = valued(value_type)
    assert number(opinion.value) == Decimal(value)
    assert number(opinion.rounded) == Decimal(rounded)
    assert opinion.value_type is value_type


@pytest.mark.parametrize(
    ("reading", "value"),
    [("cost new less depreciation", "1882.06"), ("market value", "24483.00"), ("broad evidence", "1650.00")],
)
def test_actual_cash_value_by_the_policys_reading(reading: str, value: str) -> None:
    opinion = valued(ValueType.ACTUAL_CASH, policy=f"cash_value | {reading}")
    assert number(opinion.value) == Decimal(value)


def test_actual_cash_value_of_its_own_short_route() -> None:
    opinions = """
        item | value_type        | route | typed_value | source
        G1   | fair market value | short | 24483.00    | two sales
        G1   | actual cash value | short | 23111.11    | claims adjuster
        """
    opinion = valued(ValueType.ACTUAL_CASH, policy="cash_value | market value", opinions=opinions)
    assert (number(opinion.value), number(opinion.rounded)) == (Decimal("23111.11"), Decimal("23111.11"))


def test_the_reading_is_never_assumed() -> None:
    opinion = valued(ValueType.ACTUAL_CASH, policy="insurer | Hollin Gate Mutual")
    assert reasons(opinion.value) == ["POL-09"]


@pytest.mark.parametrize(
    ("value_type", "code"),
    [
        (ValueType.MARKETABLE_CASH, "NET-08"),
        (ValueType.ORDERLY_LIQUIDATION, "NET-08"),
        (ValueType.FORCED_LIQUIDATION, "NET-08"),
        (ValueType.DIMINUTION, "LOS-19"),
        (ValueType.REPLACEMENT_COST_NEW, "LOS-19"),
        (ValueType.AGREED, "POL-11"),
        (ValueType.STATED, "POL-11"),
    ],
)
def test_an_item_without_a_row_says_so(value_type: ValueType, code: str) -> None:
    opinion = valued(value_type, "G2")
    assert isinstance(opinion.value, NoFigure)
    assert [one.code for one in opinion.findings] == [code]
    assert opinion.findings[0].subjects == ("G2",)


def test_a_stated_amount_is_not_filled_from_the_agreed_one() -> None:
    assert reasons(valued(ValueType.STATED).value) == ["POL-01"]


def test_a_market_value_that_could_not_be_concluded_passes_its_reason_on() -> None:
    opinions = "item | value_type | route\nG1 | fair market value | short"
    assert reasons(valued(ValueType.MARKETABLE_CASH, opinions=opinions).value) == ["VAL-01"]


def test_cost_new_from_quotations_where_nothing_is_typed_on_depreciation() -> None:
    opinion = valued(
        ValueType.REPLACEMENT_COST_NEW,
        "G2",
        sales="""
            id | house             | market        | kind        | currency | price   | day
            s1 | Nettlecombe Frets | dealer retail | dealer sold | USD      | 3000.00 | 2025-03-01
            """,
        comparisons="""
            id | item | value_type           | sale | weight
            c1 | G2   | replacement cost new | s1   | 1
            """,
    )
    assert number(opinion.value) == Decimal("3000.00")


def test_replacement_with_comparable_is_built_up_like_retail() -> None:
    opinion = valued(
        ValueType.COMPARABLE_REPLACEMENT,
        "G2",
        sales="""
            id | house             | market        | kind        | currency | price   | day
            s1 | Nettlecombe Frets | dealer retail | dealer sold | USD      | 3000.00 | 2025-03-01
            """,
        comparisons="""
            id | item | value_type                  | sale | weight
            c1 | G2   | replacement with comparable | s1   | 1
            """,
        costs="""
            item | kind      | percent
            all  | sales tax | 10
            """,
    )
    assert number(opinion.value) == Decimal("3300.00")
    assert number(opinion.figures["base"]) == Decimal("3000.00")
