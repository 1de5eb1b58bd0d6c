"""How the limits of the policy stand to the schedule, before and after."""

from decimal import Decimal

import pytest
from support.figures import number
from support.valuing import job_of

from appraise.model.ledger import RecordingLedger
from appraise.schedule.of_job import Revaluation, revaluations
from appraise.valuing import job_rows

LINES = """
item | value_type               | treatment | prior_value | prior_rounded | percent | inspected  | owner_reply
A    | retail replacement value | percent   | 60000       | 60000         | 10      | 2025-01-01 | yes
B    | retail replacement value | percent   | 20000       | 20000         | 10      | 2025-01-01 | yes
C    | retail replacement value | removed   | 20000       | 20000         |         | 2025-01-01 | yes
"""


def made(policy: str, treatments: str = LINES) -> Revaluation:
    sheets = {"assignment": "currency | USD\neffective_date | 2025-06-30", "treatments": treatments, "policy": policy}
    (one,), _ = revaluations(RecordingLedger("T"), job_rows(job_of(sheets))[0])
    return one


def test_limit_cap_and_coinsurance_before_and_after() -> None:
    """Before 100,000 under a limit of 80,000 (80 %); after 88,000 (90.9 %); required 80 and 70.4 thousand."""
    schedule = made("limit | 80000\nitem_cap | 50000\ncoinsurance | 80")
    limits = schedule.adequacy
    assert limits is not None
    names = ("limit_shortfall", "limit_adequacy_pct", "over_item_cap", "required", "penalty_pct")
    assert [number(limits.before[name]) for name in names] == [
        Decimal("20000"),
        Decimal("80.0"),
        Decimal("10000"),
        Decimal("80000"),
        Decimal("0.0"),
    ]
    assert [number(limits.after[name]) for name in names] == [
        Decimal("8000"),
        Decimal("90.9"),
        Decimal("16000"),
        Decimal("70400"),
        Decimal("0.0"),
    ]
    assert limits.over_cap == ("A",)
    assert [one.code for one in limits.findings] == ["YRL-42", "YRL-43"]
    assert set(limits.findings) <= set(schedule.findings)


def test_coinsurance_at_risk_is_said() -> None:
    schedule = made("limit | 44000\ncoinsurance | 100")
    assert schedule.adequacy is not None
    assert number(schedule.adequacy.after["ratio"]) == Decimal("0.500000")
    assert [one.code for one in schedule.adequacy.findings] == ["YRL-42", "YRL-44"]


@pytest.mark.parametrize("policy", ["insurer | Hollin Gate Mutual", "coinsurance | 80"])
def test_without_a_limit_nothing_is_said(policy: str) -> None:
    assert made(policy).adequacy is None


def test_a_limit_that_fits_raises_nothing() -> None:
    schedule = made("limit | 88000\nitem_cap | 66000")
    assert schedule.adequacy is not None
    assert schedule.adequacy.findings == ()


def test_what_condition_explains_is_taken_out_of_the_market() -> None:
    table = LINES.replace("owner_reply", "owner_reply | condition_change").replace(
        "| 2025-01-01 | yes", "| 2025-01-01 | yes | -500"
    )
    schedule = made("limit | 88000", table)
    worked = schedule.causes
    assert number(worked["by_condition"]) == Decimal(-1000), "that of the removed line does not count"
    assert number(worked["by_market"]) == Decimal(9000)
    assert number(worked["explained"]) == number(schedule.totals["total_change"])


def test_totals_by_family() -> None:
    sheets = {
        "assignment": "currency | USD\neffective_date | 2025-06-30",
        "treatments": LINES,
        "items": "id | family\nA | banjo\nB | silver\nC | silver",
    }
    (one,), _ = revaluations(RecordingLedger("T"), job_rows(job_of(sheets))[0])
    assert {name: number(totals["new_total"]) for name, totals in one.families.items()} == {
        "banjo": Decimal(66000),
        "silver": Decimal(22000),
    }
