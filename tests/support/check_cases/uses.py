"""Cases of the checks in `appraise/checks/uses.py`, with the limits of US law that they rest on.

IRC 170(f)(11)(C), (D), (F): similar items above 5,000 and 500,000; Form 8283 instructions: art of 20,000 or more.
26 CFR 20.2031-6(b): more than 3,000. FRCP 26(a)(2)(B): ten years of publications, four of testimony.
"""

from dataclasses import replace
from datetime import date

from support.checks import (
    Case,
    D,
    added,
    assigned,
    changed,
    claim_job,
    copied,
    donation_job,
    expert_job,
    valuation,
    with_results,
    without,
)

from appraise.checks.context import CheckContext, ItemResults
from appraise.model.missing import BLANK
from appraise.model.place import Place
from appraise.records.declare import filled
from appraise.records.job import Job
from appraise.records.losses import Damage, Loss
from appraise.records.transfers import Share
from appraise.records.vocabulary import (
    DamageOrigin,
    ExpertRecordKind,
    Market,
    PropertyType,
    ValueType,
)


def given(job: Job, **values: object) -> Job:
    """The job with lines of Gift or donation changed."""
    return replace(job, transfer=replace(job.transfer, **values))


def shared(job: Job, *lines: tuple[str, object]) -> Job:
    """The job with recipients of items and parts of items."""
    rows = (
        filled(Share, row=row, item=item, recipient="R. Quenby", share=share)
        for row, (item, share) in enumerate(lines, start=2)
    )
    return replace(job, shares=tuple(rows))


def worth(first: str, second: str = "0"):
    """Change what the two items are worth."""

    def change(context: CheckContext) -> CheckContext:
        return with_results(
            context,
            G01=ItemResults(context.results["G01"].window, (valuation("G01", rounded=first),)),
            A01=ItemResults(valuations=(valuation("A01", rounded=second),)),
        )

    return change


def damaged(job: Job, **values: object) -> Job:
    """A claim with one damage from the event on the second item, which has no photograph of it."""
    line = filled(Damage, row=2, id="D1", item="A01", part="top", origin=DamageOrigin.FROM_EVENT, **values)
    return replace(job, damage=(line,))


def both(job: Job, market: Market) -> Job:
    """The job with a diminution in value looked for in a market, and the loss it rests on."""
    terms = replace(
        job.value_terms[0],
        row=3,
        value_type=ValueType.DIMINUTION,
        market=market,
        sales_comparison="not used: the value before is the fair market value",
        cost_approach="used for the repair",
    )
    return added(job, "value_terms", terms)


def lost(job: Job) -> Job:
    return replace(job, losses=(filled(Loss, row=2, item="G01", event="dropped"),))


CASES = [
    Case(
        "USE-01",
        lambda j: given(j, expected_use=BLANK),
        lambda j: given(j, expected_use="unknown"),
        Place("Gift or donation", 0, "expected_use"),
        base=donation_job,
    ),
    Case(
        "USE-02",
        lambda j: shared(j, ("G01", D(60)), ("G01", D(30)), ("A01", BLANK)),
        lambda j: shared(j, ("G01", D(60)), ("G01", D(40)), ("A01", BLANK)),
        Place("Recipients", 3, "share"),
        "90",
        ("G01",),
    ),
    Case(
        "USE-03",
        lambda j: shared(j, ("G01", BLANK)),
        lambda j: shared(j, ("G01", BLANK), ("A01", BLANK)),
        Place("Items", 3, "id"),
        subjects=("A01",),
    ),
    Case(
        "USE-04",
        lambda j: without(j, "expert_record", 1),
        lambda j: changed(j, "expert_record", 1, kind=ExpertRecordKind.TRIAL, day=date(2023, 3, 2), what="A v. B"),
        Place("People", 2, "id"),
        "testimony",
        ("P1",),
        base=expert_job,
    ),
    Case(
        "USE-05",
        lambda j: copied(j, "expert_record", 0, day=date(2015, 2, 9)),
        lambda j: copied(j, "expert_record", 0, day=date(2015, 2, 10)),
        Place("Expert record", 4, "day"),
        "2015-02-09",
        ("P1",),
        base=expert_job,
    ),
    Case(
        "USE-06",
        lambda j: given(j, form_checked_on=BLANK),
        lambda j: given(j, form_checked_on=date(2025, 1, 2)),
        Place("Gift or donation", 0, "form_checked_on"),
        "2024-11-15",
        base=donation_job,
    ),
    Case(
        "USE-07",
        lambda j: given(j, property_type=PropertyType.ART),
        lambda j: given(j, property_type=PropertyType.COLLECTIBLE),
        Place("Gift or donation", 0, "similar_sum"),
        "0",
        base=donation_job,
        context=worth("20000"),
        near_context=worth("500000"),
    ),
    Case(
        "USE-08",
        lambda j: j,
        lambda j: given(j, similar_given="two fiddles", similar_sum=D("0.01")),
        Place("Gift or donation", 0, "similar_sum"),
        "5000",
        base=donation_job,
        context=worth("4200", "800"),
        near_context=worth("4200", "800"),
    ),
    Case(
        "USE-09",
        lambda j: assigned(j, under_oath=BLANK),
        lambda j: assigned(j, under_oath=BLANK),
        Place("Assignment", 0, "under_oath"),
        "3001",
        context=worth("2500", "501"),
        near_context=worth("2500", "500"),
    ),
    Case(
        "USE-10",
        lambda j: given(j, received_back=D(500)),
        lambda j: given(j, received_back=D(0)),
        Place("Gift or donation", 0, "received_back"),
        "500",
        base=donation_job,
    ),
    Case(
        "USE-11",
        lambda j: both(j, Market.DEALER_RETAIL),
        lambda j: both(j, Market.AUCTION),
        Place("Value types", 3, "market"),
        "dealer retail",
    ),
    Case(
        "USE-12",
        lost,
        lambda j: both(lost(j), Market.AUCTION),
        Place("Losses", 2, "item"),
        "Losses",
        ("G01",),
    ),
    Case(
        "USE-13",
        lambda j: damaged(j),
        lambda j: damaged(j, photo="photos/A01-top.jpg"),
        Place("Damage", 2, "photo"),
        subjects=("A01",),
        base=claim_job,
    ),
    Case(
        "USE-14",
        lambda j: changed(j, "people", 0, barred=True),
        lambda j: changed(j, "people", 0, barred=False),
        Place("People", 2, "barred"),
        "yes",
        ("P1",),
        base=donation_job,
    ),
]
