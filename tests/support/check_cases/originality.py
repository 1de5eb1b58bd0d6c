"""Cases of the checks in `appraise/checks/originality.py`."""

from dataclasses import replace

from support.checks import (
    Case,
    D,
    changed,
    copied,
    without,
)

from appraise.model.missing import BLANK, UNKNOWN
from appraise.model.place import Place
from appraise.records.job import Job
from appraise.records.vocabulary import (
    EvidenceStatus,
    FinishClass,
    PartState,
)


def all_refinished(job: Job) -> Job:
    """Subject and sales alike are refinished."""
    other = FinishClass.REFINISH_OTHER
    job = replace(job, sales=tuple(replace(one, finish_class=other) for one in job.sales))
    return changed(job, "items", 0, finish_class=other)


def refinished_and_low(job: Job, finish: str) -> Job:
    """Subject and sales are refinished and of a low grade."""
    job = all_refinished(job)
    job = replace(job, sales=tuple(replace(one, grade=one.grade - 2) for one in job.sales))
    job = changed(job, "parts", 0, state=PartState.MODIFIED, deduction=D(50), deduction_reason="refinished")
    return changed(job, "items", 0, grade=D(5), finish_condition=finish)


CASES = [
    Case(
        "PRT-01",
        lambda j: changed(j, "parts", 2, deduction_reason=BLANK),
        lambda j: changed(j, "parts", 2, deduction=D(0), deduction_reason=BLANK),
        Place("Parts", 4, "deduction_reason"),
        "4",
        ("G01",),
    ),
    Case(
        "PRT-02",
        lambda j: changed(j, "parts", 1, changed="1970s"),
        lambda j: changed(j, "parts", 1, changed=UNKNOWN),
        Place("Parts", 3, "changed"),
        "1970s",
        ("G01",),
    ),
    Case(
        "PRT-03",
        lambda j: changed(j, "evidence", 0, status=EvidenceStatus.REPLACED),
        lambda j: changed(j, "evidence", 0, status=EvidenceStatus.UNVERIFIED),
        Place("Parts", 3, "state"),
        "original",
        ("G01", "G01-e1"),
    ),
    Case(
        "PRT-04",
        lambda j: changed(j, "parts", 3, part="nut"),
        lambda j: changed(j, "parts", 3, part="fret"),
        Place("Parts", 5, "state"),
        "unknown",
        ("G01",),
    ),
    Case(
        "PRT-05",
        lambda j: changed(j, "parts", 1, deduction=D(2), deduction_reason="worn"),
        lambda j: changed(j, "parts", 1, deduction=D(0)),
        Place("Parts", 3, "deduction"),
        "2",
        ("G01",),
    ),
    Case(
        "PRT-06",
        lambda j: changed(j, "parts", 2, deduction=BLANK, deduction_reason=BLANK),
        lambda j: changed(j, "parts", 2, item="A01", deduction=BLANK, deduction_reason=BLANK),
        Place("Parts", 4, "deduction"),
        "later replacement",
        ("G01",),
    ),
    Case(
        "PRT-08",
        lambda j: changed(j, "parts", 0, state=PartState.MODIFIED, deduction=D(5), deduction_reason="touched in"),
        lambda j: changed(
            changed(j, "items", 0, finish_class=FinishClass.TOUCHED_IN),
            "parts",
            0,
            state=PartState.MODIFIED,
            deduction=D(5),
            deduction_reason="touched in",
        ),
        Place("Parts", 2, "state"),
        "modified",
        ("G01",),
    ),
    Case(
        "PRT-10",
        lambda j: copied(j, "parts", 1, part="Body"),
        lambda j: copied(j, "parts", 1, part="body", item="A01"),
        Place("Parts", 6, "part"),
        "Body",
        ("G01",),
    ),
    Case(
        "PRT-11",
        lambda j: replace(j, parts=()),
        lambda j: replace(j, parts=j.parts[:1]),
        Place("Items", 2, "id"),
        "G01",
        ("G01",),
    ),
    Case(
        "PRT-12",
        lambda j: changed(j, "parts", 2, reversible=True, original_kept=True),
        lambda j: changed(j, "parts", 2, reversible=True, original_kept=False),
        Place("Parts", 4, "deduction"),
        "4",
        ("G01",),
    ),
    Case(
        "PRT-13",
        lambda j: changed(j, "parts", 1, evidence=BLANK),
        lambda j: changed(j, "parts", 3, evidence=BLANK),
        Place("Parts", 3, "evidence"),
        "original",
        ("G01",),
    ),
    Case(
        "PRT-07",
        lambda j: all_refinished(without(j, "parts", 0)),
        lambda j: changed(
            all_refinished(j),
            "parts",
            0,
            state=PartState.MODIFIED,
            deduction=D(0),
        ),
        Place("Items", 2, "finish_class"),
        "refinish in another colour",
        ("G01",),
    ),
    Case(
        "PRT-09",
        lambda j: refinished_and_low(j, "thick refinish, crazed"),
        lambda j: refinished_and_low(j, "thick lacquer, crazed"),
        Place("Items", 2, "finish_condition"),
        "thick refinish, crazed",
        ("G01",),
    ),
]
