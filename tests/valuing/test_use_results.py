"""What the uses ask for beside the opinions: quotations landed, effects of features, what a policy's clause pays."""

from decimal import Decimal

from support.figures import number, typed
from support.valuing import job_of

from appraise.model.figure import Figure, Outcome
from appraise.model.kinds import TEXT
from appraise.model.ledger import RecordingLedger
from appraise.records.vocabulary import Conclusion, Route, ValueType
from appraise.valuing import job_rows
from appraise.valuing.result import Valuation
from appraise.valuing.use_results import UseResults, Valued, use_results

ASSIGNMENT = "use | insurance claim\ncurrency | USD\neffective_date | 2025-03-01\nloss_date | 2025-03-01"


def opinion(kind: ValueType, amount: str, **figures: Outcome) -> Valuation:
    value = typed(amount)
    return Valuation("A01", kind, Route.ADJUSTED, Conclusion.MEAN, {}, (), figures, value, value, ())


def results(sheets: dict[str, str], valued: Valued | None = None) -> UseResults:
    rows = job_rows(job_of({"assignment": ASSIGNMENT} | sheets))[0]
    return use_results(RecordingLedger("job"), rows, valued or {})


def total_loss(yes: str) -> dict[str, Outcome]:
    ledger = RecordingLedger("T")
    total: Figure = ledger.note("total_loss", yes, kind=TEXT)
    return {"total_loss": total, "repair_total": typed("5200")}


def settled(policy: str, *opinions: Valuation, cover: str = "A01 | 4000 | 6000", yes: str = "yes") -> UseResults:
    hurt = opinion(ValueType.DIMINUTION, "4900", **total_loss(yes))
    valued = {("A01", one.value_type): one for one in (hurt, *opinions)}
    return results({"policy": policy, "covers": f"item | agreed | stated\n{cover}"}, valued)


def test_a_quotation_that_costs_name_is_landed() -> None:
    """By hand: 1000 EUR at 1.10 is 1100; freight 50; duty 2 % of 1150 is 23; landed 1173."""
    found = results(
        {
            "sales": "id | kind | currency | price | day\nQ1 | asking | EUR | 1000 | 2025-02-20",
            "costs": "quotation | kind | amount | percent\nQ1 | freight | 50 |\nQ1 | duty | | 2",
            "rates": "currency | day | rate | direction\nEUR | 2025-02-20 | 1.10 | report currency per foreign unit",
        }
    )
    ((name, worked),) = found.landed
    assert name == "Q1"
    assert number(worked["duty"]) == Decimal("23.00")
    assert number(worked["total"]) == Decimal("1173.00")
    assert found.findings == ()


def test_effects_of_features_are_those_of_general_pairs() -> None:
    pairs = "id | element | better | poorer | weight\np1 | case | 110 | 100 | 1"
    (effect,) = results({"paired_sales": pairs}).effects
    assert number(effect.worked["upward_mean"]) == Decimal("10.00")


def test_an_agreed_value_is_paid_in_full_on_total_loss() -> None:
    ((name, worked),) = settled("basis | agreed value").settlements
    assert (name, number(worked["settlement"])) == ("A01", Decimal("4000.00"))
    assert number(worked["item_payment"]) == Decimal("4000.00")


def test_a_stated_amount_is_a_ceiling() -> None:
    cash = opinion(ValueType.ACTUAL_CASH, "5500")
    ((_, worked),) = settled("basis | stated amount\nitem_cap | 5000", cash).settlements
    assert number(worked["settlement"]) == Decimal("5200.00")  # repair, less than 5500 and 6000
    assert number(worked["item_payment"]) == Decimal("5000.00")


def test_replacement_cost_takes_the_replacement_value() -> None:
    new = opinion(ValueType.COMPARABLE_REPLACEMENT, "7150")
    ((_, worked),) = settled("basis | replacement cost", new).settlements
    assert number(worked["settlement"]) == Decimal("7150.00")


def test_what_is_no_total_loss_is_not_settled_by_the_clause() -> None:
    assert settled("basis | agreed value", yes="no").settlements == ()
    assert settled("insurer | Ennerby Mutual").settlements == ()


def test_a_measure_the_clause_needs_and_the_job_lacks_is_said() -> None:
    found = settled("basis | actual cash value")
    assert [one.code for one in found.findings if one.code == "POL-08"] == ["POL-08"]
