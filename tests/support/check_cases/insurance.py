"""Cases of the checks in `appraise/checks/insurance.py`."""

from dataclasses import replace
from datetime import date

from support.checks import Case, D, added, changed, claim_job, copied, insurance_job

from appraise.model.missing import BLANK
from appraise.model.place import Place
from appraise.records.claims import Cover, Depreciation, Policy
from appraise.records.declare import filled
from appraise.records.job import Job
from appraise.records.vocabulary import DepreciationManner, SettlementBasis, ValueType


def cover(job: Job, basis: SettlementBasis, **amounts: object) -> Job:
    """The first item is covered, and the policy pays so."""
    job = replace(job, policy=replace(job.policy, basis=basis))
    return added(job, "covers", filled(Cover, row=2, item="G01", **amounts))


def depreciated(job: Job, item: str, **values: object) -> Job:
    """One item has its cost new depreciated by percent good."""
    told = {"manner": DepreciationManner.PERCENT_GOOD, "percent_good": D(65), **values}
    return added(job, "depreciation", filled(Depreciation, row=2, item=item, **told))


def year(job: Job, starts: date, ends: date) -> Job:
    return replace(job, policy=filled(Policy, starts=starts, ends=ends))


CASES = [
    Case(
        "INS-01",
        lambda j: depreciated(j, "A01", functional=D(5)),
        lambda j: depreciated(j, "A01", functional=D(0)),
        Place("Depreciation", 2, "functional_reason"),
        "",
        ("A01",),
        claim_job,
    ),
    Case(
        "INS-01",
        lambda j: replace(j, policy=filled(Policy, basis=SettlementBasis.ACTUAL_CASH)),
        lambda j: replace(j, policy=filled(Policy, basis=SettlementBasis.LEAST_OF)),
        Place("Policy", 0, "cash_value"),
        base=claim_job,
    ),
    Case(
        "INS-02",
        lambda j: replace(j, costs=()),
        lambda j: changed(j, "costs", 0, percent=D(0)),
        Place("Costs"),
        base=insurance_job,
    ),
    Case(
        "INS-03",
        lambda j: added(j, "costs", insurance_job().costs[0]),
        lambda j: insurance_job(),
        Place("Costs"),
        "fair market value",
    ),
    Case(
        "INS-04",
        lambda j: changed(j, "costs", 0, item="G02"),
        lambda j: changed(j, "costs", 0, item="All"),
        Place("Costs", 2, "item"),
        "G02",
        base=insurance_job,
    ),
    Case(
        "INS-05",
        lambda j: copied(j, "costs", 0),
        lambda j: copied(j, "costs", 0, item="G01"),
        Place("Costs", 3, "kind"),
        "all",
        base=insurance_job,
    ),
    Case(
        "INS-06",
        lambda j: only_agreed(j),
        lambda j: copied(j, "value_terms", 0, value_type=ValueType.AGREED, **NOT_COMPARED),
        Place("Value types", 2, "value_type"),
        "agreed value",
        base=insurance_job,
    ),
    Case(
        "INS-07",
        lambda j: cover(j, SettlementBasis.REPLACEMENT_COST, agreed=D(20000), stated=D(18000)),
        lambda j: cover(j, SettlementBasis.REPLACEMENT_COST, agreed=D(20000), scheduled=D(18000)),
        Place("Cover", 2, "stated"),
        "18000",
        ("G01",),
        insurance_job,
    ),
    Case(
        "INS-08",
        lambda j: cover(j, SettlementBasis.AGREED_VALUE, stated=D(18000)),
        lambda j: cover(j, SettlementBasis.STATED_AMOUNT, stated=D(18000)),
        Place("Cover", 2, "stated"),
        "18000",
        ("G01",),
        insurance_job,
    ),
    Case(
        "INS-09",
        lambda j: year(j, date(2024, 11, 16), date(2025, 11, 15)),
        lambda j: year(j, date(2024, 11, 15), date(2025, 11, 14)),
        Place("Policy", 0, "starts"),
        "2024-11-16",
        base=claim_job,
    ),
    Case(
        "INS-09",
        lambda j: year(j, date(2023, 11, 15), date(2024, 11, 14)),
        lambda j: year(j, date(2023, 11, 16), date(2024, 11, 15)),
        Place("Policy", 0, "ends"),
        "2024-11-14",
        base=insurance_job,
    ),
    Case(
        "INS-10",
        lambda j: changed(j, "items", 0, location=BLANK),
        lambda j: changed(claim_job(), "items", 0, location=BLANK),
        Place("Items", 2, "location"),
        "",
        ("G01",),
        insurance_job,
    ),
    Case(
        "INS-11",
        lambda j: depreciated(j, "G01"),
        lambda j: depreciated(j, "A01"),
        Place("Depreciation", 2, "item"),
        "86",
        ("G01",),
        claim_job,
    ),
    Case(
        "INS-12",
        lambda j: changed(j, "costs", 0, least=D(200), most=D(100)),
        lambda j: changed(j, "costs", 0, least=D(100), most=D(100)),
        Place("Costs", 2, "least"),
        "200",
        base=insurance_job,
    ),
]

NOT_COMPARED = {"sales_comparison": "not used: it rests on the value beside it", "cost_approach": "used"}


def only_agreed(job: Job) -> Job:
    """The schedule states nothing but agreed values."""
    job = replace(job, costs=(), comparisons=(), opinions=())
    return changed(job, "value_terms", 0, value_type=ValueType.AGREED, **NOT_COMPARED)
