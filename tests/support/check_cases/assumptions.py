"""Cases of the checks in `appraise/checks/assumptions.py`."""

from support.checks import Case, added, changed, copied, division_job

from appraise.model.missing import BLANK
from appraise.model.place import Place
from appraise.records.assignment import Assumption
from appraise.records.declare import filled
from appraise.records.job import Job
from appraise.records.vocabulary import AssumptionKind

HYPOTHETICAL = filled(
    Assumption,
    row=3,
    id="A2",
    kind=AssumptionKind.HYPOTHETICAL,
    items="G01",
    text="The crack is valued as if repaired.",
    effect="Unrepaired, the value is lower by the cost of repair.",
)


def unseen(job: Job, items: str) -> Job:
    """The second item was not inspected, and an extraordinary assumption holds for these items."""
    job = changed(job, "people", 0, inspected="G01")
    job = changed(job, "items", 1, inspected_on=BLANK, not_inspected_reason="in store")
    return copied(job, "assumptions", 0, id="A2", items=items)


def conditional(job: Job) -> Job:
    return changed(job, "opinions", 0, reconciliation="Valued as if repaired, nearest to the second sale.")


CASES = [
    Case(
        "ASM-01",
        conditional,
        lambda j: added(conditional(j), "assumptions", HYPOTHETICAL),
        Place("Opinions", 2, "reconciliation"),
        "as if",
        ("G01",),
        division_job,
    ),
    Case(
        "ASM-02",
        lambda j: unseen(j, "G01"),
        lambda j: unseen(j, "all"),
        Place("Items", 3, "not_inspected_reason"),
        "in store",
        ("A01",),
    ),
    Case(
        "ASM-03",
        lambda j: changed(j, "assumptions", 0, items="G01; G02"),
        lambda j: changed(j, "assumptions", 0, items="G01; A01"),
        Place("Assumptions", 2, "items"),
        "G02",
        ("A1",),
    ),
    Case(
        "ASM-04",
        lambda j: changed(j, "assumptions", 0, effect="None."),
        lambda j: changed(j, "assumptions", 0, effect="none above one percent"),
        Place("Assumptions", 2, "effect"),
        "None.",
        ("A1",),
    ),
    Case(
        "ASM-05",
        lambda j: changed(j, "assumptions", 0, text="The frets are valued as if new."),
        lambda j: changed(j, "assumptions", 0, kind=AssumptionKind.EXTRAORDINARY, text="The frets are taken as new."),
        Place("Assumptions", 2, "kind"),
        "as if",
        ("A1",),
    ),
    Case(
        "ASM-06",
        lambda j: added(j, "assumptions", HYPOTHETICAL),
        lambda j: added(division_job(), "assumptions", HYPOTHETICAL),
        Place("Assumptions", 3, "kind"),
        "hypothetical condition",
        ("A2",),
    ),
    Case(
        "ASM-07",
        lambda j: copied(j, "parts", 1, item="A01", part="speaker", evidence="the owner says so"),
        lambda j: changed(j, "parts", 1, evidence="the owner says so"),
        Place("Parts", 6, "evidence"),
        "owner",
        ("A01",),
    ),
    Case(
        "ASM-08",
        lambda j: copied(j, "assumptions", 0, id="A2", items="none"),
        lambda j: copied(j, "assumptions", 0, id="A2", items="all"),
        Place("Assumptions", 3, "items"),
        "none",
        ("A2",),
    ),
]
