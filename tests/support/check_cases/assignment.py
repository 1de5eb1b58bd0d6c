"""Cases of the checks in `appraise/checks/assignment.py`."""

from dataclasses import replace
from datetime import date

from support.checks import (
    FMV,
    RRV,
    Case,
    D,
    added,
    assigned,
    changed,
    copied,
    division_job,
    donation_job,
    gift_job,
    insurance_job,
    yearly_job,
)

from appraise.model.missing import BLANK
from appraise.model.place import Place
from appraise.records.declare import filled
from appraise.records.tables import Clause
from appraise.records.vocabulary import (
    FeeBasis,
    Market,
    PriceBasis,
    ReportOption,
    ValueType,
)


def line(key: str) -> Place:
    return Place("Assignment", 0, key)


NO_SALES = {"sales_comparison": "not used: no sales were found", "cost_approach": "used"}

CASES = [
    Case("ASG-01", lambda j: assigned(j, death_date=BLANK), lambda j: assigned(j, gift_date=BLANK), line("death_date")),
    Case(
        "ASG-02",
        lambda j: assigned(j, fee_basis=FeeBasis.PERCENT),
        lambda j: assigned(j, fee_basis=FeeBasis.ITEM),
        line("fee_basis"),
        "percent of value",
    ),
    Case(
        "ASG-03",
        lambda j: assigned(j, fee_basis=FeeBasis.OUTCOME),
        lambda j: assigned(j, fee_basis=FeeBasis.FIXED),
        line("fee_basis"),
        "outcome",
        base=donation_job,
    ),
    Case(
        "ASG-04",
        lambda j: copied(
            j,
            "value_terms",
            0,
            value_type=RRV,
            market=Market.DEALER_RETAIL,
            sales_comparison="not used: it is not asked for",
            cost_approach="used",
        ),
        lambda j: copied(
            j,
            "value_terms",
            0,
            value_type=ValueType.DIMINUTION,
            sales_comparison="not used: it is not asked for",
            cost_approach="used",
        ),
        Place("Value types", 3, "value_type"),
        "retail replacement value",
    ),
    Case(
        "ASG-05",
        lambda j: copied(
            j,
            "value_terms",
            0,
            value_type=FMV,
            market=Market.AUCTION,
            sales_comparison="not used: it is not asked for",
            cost_approach="used",
        ),
        lambda j: copied(
            j,
            "value_terms",
            0,
            value_type=ValueType.COMPARABLE_REPLACEMENT,
            sales_comparison="not used: it is not asked for",
            cost_approach="used",
        ),
        Place("Value types", 3, "value_type"),
        "fair market value",
        base=insurance_job,
    ),
    Case("ASG-06", lambda j: replace(j, value_terms=()), lambda j: j, Place("Value types")),
    Case(
        "ASG-07",
        lambda j: copied(j, "value_terms", 0),
        lambda j: j,
        Place("Value types", 3, "value_type"),
        "fair market value",
    ),
    Case(
        "ASG-08",
        lambda j: changed(j, "value_terms", 0, price_basis=PriceBasis.HAMMER),
        lambda j: changed(division_job(), "value_terms", 0, price_basis=PriceBasis.HAMMER),
        Place("Value types", 2, "price_basis"),
        "hammer",
    ),
    Case(
        "ASG-09",
        lambda j: assigned(j, report_option=ReportOption.RESTRICTED),
        lambda j: replace(
            insurance_job(),
            assignment=replace(insurance_job().assignment, report_option=ReportOption.RESTRICTED),
        ),
        line("report_option"),
        "restricted appraisal report",
    ),
    Case(
        "ASG-10",
        lambda j: assigned(j, intended_users="the executor and anyone who asks"),
        lambda j: assigned(j, intended_users="the executor and the manyone trust"),
        line("intended_users"),
        "the executor and anyone who asks",
    ),
    Case(
        "ASG-11",
        lambda j: assigned(j, prior_services="None."),
        lambda j: assigned(j, prior_services="none but the schedule of 2023-11-15"),
        line("prior_services"),
        "None.",
        base=yearly_job,
    ),
    Case(
        "ASG-12",
        lambda j: changed(j, "value_terms", 0, income_approach="not used"),
        lambda j: changed(j, "value_terms", 0, income_approach="not used: no rents paid"),
        Place("Value types", 2, "income_approach"),
        "not used",
    ),
    Case(
        "ASG-13",
        lambda j: changed(
            replace(j, comparisons=(), opinions=()), "value_terms", 0, sales_comparison="not used: no sales were found"
        ),
        lambda j: changed(
            replace(j, comparisons=(), opinions=()),
            "value_terms",
            0,
            sales_comparison="not used: no sales were found",
            cost_approach="used",
        ),
        Place("Value types", 2, "sales_comparison"),
        "not used: no sales were found",
    ),
    Case(
        "ASG-14",
        lambda j: changed(j, "value_terms", 0, **NO_SALES),
        lambda j: changed(j, "value_terms", 0, cost_approach="used"),
        Place("Value types", 2, "sales_comparison"),
        "not used: no sales were found",
    ),
    Case(
        "ASG-15",
        lambda j: changed(j, "value_terms", 0, exposure_time="reasonable"),
        lambda j: changed(j, "value_terms", 0, exposure_time="one season"),
        Place("Value types", 2, "exposure_time"),
        "reasonable",
    ),
    Case(
        "ASG-18",
        lambda j: assigned(j, issue_number=D(2)),
        lambda j: assigned(j, issue_number=D(2), replaces_issue="issue 1 of 2025-02-10"),
        line("replaces_issue"),
        "2",
    ),
    Case(
        "ASG-19",
        lambda j: added(
            j,
            "clauses",
            filled(
                Clause, row=2, key="k", official="words", citation="law", edition="2024", checked_on=date(2025, 1, 1)
            ),
        ),
        lambda j: added(j, "clauses", filled(Clause, row=2, key="k", text="words of our own")),
        Place("Clauses", 2, "checked_by"),
        subjects=("k",),
    ),
    Case(
        "ASG-20",
        lambda j: replace(j, clauses=()),
        lambda j: replace(gift_job(), clauses=()),
        Place("Clauses"),
        subjects=("declaration.donation",),
        base=donation_job,
    ),
    Case(
        "ASG-16",
        lambda j: changed(replace(j, comparisons=(), indexes=()), "value_terms", 0, market=Market.TRADE),
        lambda j: changed(replace(j, comparisons=(), indexes=()), "value_terms", 0, market=Market.PRIVATE),
        Place("Value types", 2, "market"),
        "trade",
    ),
    Case(
        "ASG-17",
        lambda j: changed(
            replace(j, comparisons=(), opinions=(), indexes=()),
            "value_terms",
            0,
            market=Market.AUCTION,
            sales_comparison="not used: no sales were found",
            cost_approach="used",
        ),
        lambda j: changed(
            replace(j, comparisons=(), opinions=(), indexes=()),
            "value_terms",
            0,
            market=Market.AUCTION,
            value_type=ValueType.COMPARABLE_REPLACEMENT,
            sales_comparison="not used: no sales were found",
            cost_approach="used",
        ),
        Place("Value types", 2, "market"),
        "auction",
        base=insurance_job,
    ),
    Case(
        "ASG-21",
        lambda j: assigned(j, jurisdiction="USA"),
        lambda j: assigned(j, jurisdiction="us-NY"),
        Place("Assignment", 0, "jurisdiction"),
        "USA",
        base=insurance_job,
    ),
]
