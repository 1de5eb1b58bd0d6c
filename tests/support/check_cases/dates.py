"""Cases of the checks in `appraise/checks/dates.py`, with the published days of the rules of contributions.

26 CFR 1.170A-17(a)(4), (5): a contribution of 2026-03-15 may be appraised from 2026-01-14 on.
"""

from datetime import date

from support.checks import (
    Case,
    assigned,
    changed,
    claim_job,
    copied,
    donation_job,
    gift_job,
    window,
    with_results,
)

from appraise.checks.context import CheckContext, ItemResults
from appraise.model.missing import BLANK
from appraise.model.place import Place
from appraise.records.job import Job
from appraise.records.vocabulary import History


def line(key: str) -> Place:
    return Place("Assignment", 0, key)


def given_on(signed: date, effective: date, **assignment: object) -> Job:
    """A contribution of 2026-03-15 with the day of signature and the effective date."""
    days = {
        "gift_date": date(2026, 3, 15),
        "signed_on": signed,
        "report_date": signed,
        "effective_date": effective,
        "delivered_on": BLANK,
        "engaged_on": BLANK,
        "return_due": date(2027, 4, 15),
        **assignment,
    }
    return assigned(donation_job(), **days)


def made(context: CheckContext, first: tuple[int, int], last: tuple[int, int]) -> CheckContext:
    """The context in which the first item has this window of manufacture."""
    result = context.results["G01"]
    return with_results(context, G01=ItemResults(window("G01", first, last), result.valuations))


DIED_LATER = {
    "effective_date": date(2025, 1, 26),
    "death_date": date(2025, 1, 26),
    "return_due": date(2025, 10, 26),
}

CASES = [
    Case(
        "DAY-01",
        lambda j: assigned(
            j,
            report_date=date(2025, 1, 25),
            effective_date=date(2025, 1, 26),
            death_date=date(2025, 1, 26),
            return_due=date(2025, 10, 26),
        ),
        lambda j: assigned(
            j,
            report_date=date(2025, 1, 26),
            effective_date=date(2025, 1, 26),
            death_date=date(2025, 1, 26),
            return_due=date(2025, 10, 26),
        ),
        line("effective_date"),
        "2025-01-26",
    ),
    Case(
        "DAY-02",
        lambda j: changed(j, "items", 0, inspected_on=date(2025, 2, 11)),
        lambda j: changed(j, "items", 0, inspected_on=date(2025, 2, 10)),
        Place("Items", 2, "inspected_on"),
        "2025-02-11",
        ("G01",),
    ),
    Case(
        "DAY-03",
        lambda j: changed(assigned(j, signed_on=date(2025, 2, 12)), "items", 0, inspected_on=date(2025, 2, 11)),
        lambda j: changed(assigned(j, signed_on=date(2025, 2, 12)), "items", 0, inspected_on=date(2025, 2, 10)),
        Place("Items", 2, "inspected_on"),
        "2025-02-11",
        ("G01",),
    ),
    Case(
        "DAY-04",
        lambda j: assigned(j, signed_on=date(2025, 2, 13)),
        lambda j: assigned(j, signed_on=date(2025, 2, 12)),
        line("delivered_on"),
        "2025-02-12",
    ),
    Case(
        "DAY-04",
        lambda j: assigned(j, signed_on=BLANK),
        lambda j: assigned(j, signed_on=date(2025, 2, 11)),
        line("delivered_on"),
        "2025-02-12",
    ),
    Case(
        "DAY-05",
        lambda j: assigned(j, signed_on=BLANK, delivered_on=BLANK),
        lambda j: assigned(j, delivered_on=BLANK),
        line("signed_on"),
    ),
    Case(
        "DAY-06",
        lambda j: assigned(j, signed_on=date(2025, 2, 9)),
        lambda j: assigned(j, signed_on=date(2025, 2, 10)),
        line("report_date"),
        "2025-02-10",
    ),
    Case(
        "DAY-07",
        lambda j: assigned(j, engaged_on=date(2025, 2, 11)),
        lambda j: assigned(j, engaged_on=date(2025, 2, 10)),
        line("engaged_on"),
        "2025-02-11",
    ),
    Case(
        "DAY-08",
        lambda j: assigned(j, effective_date=date(2024, 11, 16)),
        lambda j: assigned(j, effective_date=date(2024, 11, 30), death_date=date(2024, 5, 31)),
        line("effective_date"),
        "2024-11-16",
    ),
    Case(
        "DAY-09",
        lambda j: assigned(j, effective_date=date(2024, 11, 14)),
        lambda j: assigned(j, effective_date=date(2024, 11, 14), gift_date=date(2024, 11, 14)),
        line("effective_date"),
        "2024-11-14",
        base=gift_job,
    ),
    Case(
        "DAY-10",
        lambda j: given_on(date(2026, 1, 10), date(2026, 1, 10)),
        lambda j: given_on(date(2026, 1, 14), date(2026, 1, 14)),
        line("signed_on"),
        "2026-01-10",
    ),
    Case(
        "DAY-11",
        lambda j: given_on(date(2026, 4, 16), date(2026, 3, 15), return_due=date(2026, 4, 15)),
        lambda j: given_on(date(2026, 4, 15), date(2026, 3, 15), return_due=date(2026, 4, 15)),
        line("signed_on"),
        "2026-04-16",
    ),
    Case(
        "DAY-12",
        lambda j: given_on(date(2026, 4, 2), date(2026, 2, 20)),
        lambda j: given_on(date(2026, 2, 20), date(2026, 1, 20)),
        line("effective_date"),
        "2026-02-20",
    ),
    Case(
        "DAY-12",
        lambda j: given_on(date(2026, 2, 20), date(2026, 1, 13)),
        lambda j: given_on(date(2026, 2, 20), date(2026, 1, 14)),
        line("effective_date"),
        "2026-01-13",
    ),
    Case(
        "DAY-13",
        lambda j: assigned(j, delivered_on=date(2025, 4, 15)),
        lambda j: assigned(j, delivered_on=date(2025, 4, 14)),
        line("delivered_on"),
        "2025-04-15",
        base=donation_job,
    ),
    Case(
        "DAY-14",
        lambda j: assigned(j, return_due=BLANK),
        lambda j: assigned(j, jurisdiction="US-NY"),
        line("return_due"),
        base=donation_job,
    ),
    Case(
        "DAY-15",
        lambda j: assigned(j, effective_date=date(2024, 11, 16)),
        lambda j: assigned(j, effective_date=date(2024, 11, 16), loss_date=date(2024, 11, 16)),
        line("effective_date"),
        "2024-11-16",
        base=claim_job,
    ),
    Case(
        "DAY-16",
        lambda j: changed(j, "items", 0, inspected_on=date(2021, 11, 14)),
        lambda j: changed(j, "items", 0, inspected_on=date(2021, 11, 15)),
        Place("Items", 2, "inspected_on"),
        "2021-11-14",
        ("G01",),
    ),
    Case(
        "DAY-17",
        lambda j: late(j, date(2025, 5, 16)),
        lambda j: late(j, date(2025, 5, 15)),
        Place("Items", 3, "inspected_on"),
        "2025-05-16",
        ("A01",),
    ),
    Case(
        "DAY-18",
        lambda j: assigned(j, return_due=date(2025, 8, 14)),
        lambda j: assigned(j, return_due=date(2025, 8, 15)),
        line("return_due"),
        "2025-08-14",
    ),
    Case(
        "DAY-19",
        lambda j: assigned(j, signed_on=date(2025, 8, 16), delivered_on=BLANK),
        lambda j: assigned(j, signed_on=date(2025, 8, 15), delivered_on=BLANK),
        line("signed_on"),
        "2025-08-16",
    ),
    Case(
        "DAY-20",
        lambda j: copied(j, "history", 0, kind=History.ACQUIRED, day=date(2024, 11, 16)),
        lambda j: copied(j, "history", 0, kind=History.ACQUIRED, day=date(2024, 11, 15)),
        Place("Subject history", 4, "day"),
        "2024-11-16",
        ("G01",),
    ),
    Case(
        "DAY-21",
        lambda j: copied(j, "history", 0, day=date(1936, 12, 31)),
        lambda j: copied(j, "history", 0, day=date(1937, 1, 1)),
        Place("Subject history", 4, "day"),
        "1936-12-31",
        ("G01",),
    ),
    Case(
        "DAY-22",
        lambda j: changed(j, "history", 0, day=BLANK),
        lambda j: changed(j, "history", 0, day=BLANK),
        Place("Items", 2, "id"),
        "2024-12/2025-01",
        ("G01",),
        context=lambda c: made(c, (2024, 12), (2025, 1)),
        near_context=lambda c: made(c, (2024, 11), (2025, 1)),
    ),
]


def late(job: Job, day: date) -> Job:
    """The second item was inspected on a later day, and the report is of that time."""
    job = assigned(job, report_date=date(2025, 6, 1), signed_on=date(2025, 6, 1), delivered_on=date(2025, 6, 2))
    return changed(job, "items", 1, inspected_on=day)
